"""The fabric of a piece that is opened out: an arc for each round.

Takes     an ``Outline`` of arcs, the ``Frame`` in which it stands, the colours of its yarns.
Gives     ``opened``; ``seen``.
Problems  none.
From      nothing outside.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence

from markupsafe import Markup

from workeven.publish.drawings.letters import SHARE, THINNEST, Frame, arc_path, rounded
from workeven.publish.drawings.outline import Arc, Outline
from workeven.records import replace


def opened(drawn: Outline, frame: Frame, yarns: Mapping[str, int]) -> Markup:
    """An arc for each round, rounds too thin to be seen drawn together."""
    centre = frame.y(-drawn.lowest())
    return Markup("").join(
        Markup(
            '<path class="y{}" fill="none" stroke-width="{}" stroke-linecap="round" d="{}"/>'
        ).format(
            yarns[arc.yarn],
            rounded(arc.thick * frame.scale * SHARE),
            arc_path(frame.middle, centre, arc.radius * frame.scale, arc.angle),
        )
        for arc in seen(drawn.arcs, frame.scale)
    )


def seen(arcs: Sequence[Arc], scale: float) -> Iterator[Arc]:
    """Arcs thick enough to be seen: thin neighbours of one yarn are laid together."""
    thick = 0.0
    for arc, after in zip(arcs, [*arcs[1:], None], strict=True):
        thick += arc.thick
        if thick * scale >= THINNEST or after is None or after.yarn != arc.yarn:
            outwards = after is None or after.radius >= arc.radius
            back = (thick - arc.thick) / 2
            yield replace(arc, radius=arc.radius + (-back if outwards else back), thick=thick)
            thick = 0.0
