"""The lettered drawing of a piece, with the table of its letters.

Takes     ``ReadyPattern``.
Gives     ``SchematicView``: ``schematic``; ``Drawn``, ``draw``.
Problems  none.
From      design.md, "Numbers a maker can trust": what is drawn is drawn from the counts.
"""

from __future__ import annotations

from markupsafe import Markup

from workeven.pipeline import ReadyPattern
from workeven.proof import ProvenPiece, lies
from workeven.publish.drawings import svg
from workeven.publish.drawings.measures import measures
from workeven.publish.drawings.outline import Outline, Shape, outline
from workeven.publish.pages import figures
from workeven.publish.pages.choices import by_size
from workeven.publish.pages.views import Table
from workeven.records import record

_AS_SEEN: dict[Shape, str] = {
    "flat": (
        "laid flat as you look at the right side, its start at the bottom. Each stroke is a row, "
        "or several thin ones."
    ),
    "tube": (
        "laid flat, its start at the bottom, so that the width is half of the way around. Each "
        "stroke is a round, or several thin ones."
    ),
    "opened": (
        "opened out flat, as if cut along one line. Each arc is a round, as long as the round is."
    ),
    "vessel": "seen from the side, its start at the bottom. Each stroke is a round.",
    "disc": "seen from above. Each ring is a round.",
}


@record
class SchematicView:
    """A lettered drawing with the table of its letters, and the words under it."""

    svg: Markup
    words: str
    table: Table


@record
class Drawn:
    """The pieces as drawn in one size (its index): the outline of each, where it has one."""

    size: int
    outlines: tuple[Outline | None, ...]


def draw(ready: ReadyPattern) -> Drawn:
    """The pieces in the size of the video, else in the middle one."""
    names, video = ready.pattern.sizes.names, ready.pattern.video
    size = (len(names) - 1) // 2
    if video and video.shown_size in names:
        size = names.index(video.shown_size)
    gauges, proven = ready.pattern.gauges, ready.proven
    outlines = tuple(
        outline(piece, gauges, size, lies(proven.graded, piece, size)) for piece in proven.pieces
    )
    return Drawn(size=size, outlines=outlines)


def schematic(
    ready: ReadyPattern, proven: ProvenPiece, drawn: Outline | None, at: int
) -> SchematicView | None:
    """The drawing of a piece, None where it has no outline."""
    if drawn is None:
        return None
    units = ready.pattern.studio.units
    told = measures(proven, ready.pattern.gauges, drawn.shape)
    return SchematicView(
        svg=svg.schematic(
            drawn,
            told,
            size=at,
            name=f"{proven.piece.title}, drawn",
            words="Strokes for the rows. The table says what its letters measure.",
        ),
        words=_caption(ready, at, _AS_SEEN[drawn.shape]),
        table=Table(
            caption=f"{proven.piece.title}: finished measurements in the drawing",
            heads=("Letter", "What it measures", "Length"),
            rows=tuple(
                (
                    figures.letter(place),
                    ((one.name,), figures.in_order(one.lengths.values, units)),
                )
                for place, one in enumerate(told)
            ),
        ),
    )


def _caption(ready: ReadyPattern, at: int, seen: str) -> str:
    """In which size it is drawn; who has chosen another is sent to the table beside it."""
    own, other = f"Drawn {_in_size(ready, at)}", "Drawn in another size"
    each = [own if at == place else other for place in range(len(ready.pattern.sizes))]
    return f"{by_size(own, each)}, {seen}"


def _in_size(ready: ReadyPattern, at: int) -> str:
    """``in size M``; a pattern in one size needs no name for it."""
    names = ready.pattern.sizes.names
    return f"in size {names[at]}" if len(names) > 1 else "to scale"
