"""The seams of a pattern as a table: what meets what, and how to space it.

Takes     ``ReadyPattern``.
Gives     ``seams``.
Problems  none.
From      design.md, ``seams``.
"""

from __future__ import annotations

from workeven.arithmetic.printing import print_both
from workeven.pipeline import ReadyPattern
from workeven.proof.edge_lengths import Measured
from workeven.proof.seams import ProvenSeam, counted
from workeven.proof.spacing import pins, spacing
from workeven.publish.pages.views import Table


def seams(ready: ReadyPattern) -> Table | None:
    """A row a seam, a column a size; None where the pattern names no seams."""
    proven = ready.proven.seams
    if not proven:
        return None
    return Table(
        caption="Seams: what meets what, how to space it, and what lies between two pins when you "
        "pin the ends, the middle and the quarters",
        heads=("Seam", *ready.pattern.sizes.names),
        rows=tuple((one.seam.title, _cells(one)) for one in proven),
    )


def _cells(proven: ProvenSeam) -> tuple[tuple[str, ...], ...]:
    verb = "picked up along" if proven.seam.kind == "pick up" else "on"
    return tuple(
        _cell(one, other, verb) for one, other in zip(proven.first, proven.second, strict=True)
    )


def _cell(one: Measured | None, other: Measured | None, verb: str) -> tuple[str, ...]:
    if one is None or other is None:
        return ("–",)
    return (
        f"{counted(one)} {verb} {counted(other)}",
        spacing(one, other),
        pins(one, other),
        f"{print_both(one.length)} {verb} {print_both(other.length)}",
    )
