"""The seams of a pattern as tables: what meets what, and how to space it.

Takes     ``ReadyPattern``.
Gives     ``seams``.
Problems  none.
From      design.md, ``seams``.

A table has a row a size, as those of measurements have, so that a maker on a phone finds hers at
the same place. Seams that are alike in every size, a left and a right one, share a table.
"""

from __future__ import annotations

from workeven.pipeline import ReadyPattern
from workeven.proof.edge_lengths import Measured
from workeven.proof.seams import ProvenSeam, counted
from workeven.proof.spacing import pins, spacing
from workeven.publish.pages import figures
from workeven.publish.pages.views import Table

_HEADS = ("Size", "What meets what", "Spacing", "Between two pins", "Length", "Meets")

Cells = tuple[tuple[str, ...], ...]


def seams(ready: ReadyPattern) -> tuple[Table, ...]:
    """A table for each seam, or for several that are alike."""
    titles: dict[tuple[Cells, ...], list[str]] = {}
    for proven in ready.proven.seams:
        rows = _rows(proven, ready.pattern.studio.units)
        titles.setdefault(rows, []).append(proven.seam.title)
    names = ready.pattern.sizes.names
    return tuple(
        Table(
            caption=f"{figures.listed(alike)}: how to space the seam",
            heads=_HEADS,
            rows=tuple(zip(names, rows, strict=True)),
        )
        for rows, alike in titles.items()
    )


def _rows(proven: ProvenSeam, units: figures.Units) -> tuple[Cells, ...]:
    verb = "picked up along" if proven.seam.kind == "pick up" else "on"
    return tuple(
        _cells(one, other, verb, units)
        for one, other in zip(proven.first, proven.second, strict=True)
    )


def _cells(one: Measured | None, other: Measured | None, verb: str, units: figures.Units) -> Cells:
    if one is None or other is None:
        return ((figures.NOT_WORKED,),) * (len(_HEADS) - 1)
    return (
        (f"{counted(one)} {verb} {counted(other)}",),
        (spacing(one, other),),
        (pins(one, other),),
        figures.in_order([one.length], units),
        figures.in_order([other.length], units),
    )
