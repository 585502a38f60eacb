"""What each size measures, and words that several tables share.

Takes     ``ReadyPattern``.
Gives     ``finished``, ``called``, ``in_both_units``, ``unbroken``.
Problems  none.
From      design.md, "Numbers a maker can trust": both systems, each from the exact value; what a
          size is meant to fit apart from what it measures.
"""

from __future__ import annotations

from collections.abc import Iterable
from fractions import Fraction

from workeven.arithmetic.per_size import PerSize
from workeven.pattern import Yarn
from workeven.pipeline import ReadyPattern
from workeven.publish.pages import figures
from workeven.publish.pages.choices import in_unit
from workeven.publish.pages.views import Table

Cell = tuple[str, ...]

#: The space that keeps a number and its unit on one line.
NO_BREAK = "\u00a0"


def finished(ready: ReadyPattern) -> Table | None:
    """What each size measures when it is done, computed back from its stitches and rows."""
    return _lengths("Finished measurements", ready, ready.proven.finished.items())


def called(yarn: Yarn) -> str:
    """A yarn as a page calls it: by its label, else by its key (``Main yarn``)."""
    return yarn.label if yarn.label != yarn.name else f"{figures.heading(yarn.name)} yarn"


def _lengths(
    caption: str, ready: ReadyPattern, named: Iterable[tuple[str, PerSize[Fraction]]]
) -> Table | None:
    listed = tuple(named)
    if not listed:
        return None
    rows = tuple(
        (name, tuple(_both(lengths[at], ready.pattern.studio.units) for _, lengths in listed))
        for at, name in enumerate(ready.pattern.sizes.names)
    )
    heads = ("Size", *(figures.heading(key) for key, _ in listed))
    return Table(caption=caption, heads=heads, rows=rows)


def _both(mm: Fraction, units: figures.Units) -> Cell:
    return unbroken(*figures.in_order([mm], units))


def in_both_units(metric: str, imperial: str) -> Cell:
    """Metric and imperial, of which a maker may have chosen one."""
    return unbroken(in_unit(metric, metric=True), in_unit(imperial, metric=False))


def unbroken(*words: str) -> Cell:
    """Figures that stay with their units in a narrow column."""
    return tuple(one.replace(" ", NO_BREAK) for one in words)
