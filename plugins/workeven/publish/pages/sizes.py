"""The tables of a page: finished measurements, yarn.

Takes     ``ReadyPattern``.
Gives     ``finished``, ``amounts``, ``amounts_note``, ``called``.
Problems  none.
From      design.md, "Numbers a maker can trust": both systems, each from the exact value; what a
          size is meant to fit apart from what it measures; amounts of yarn are estimates.
"""

from __future__ import annotations

from collections.abc import Iterable
from fractions import Fraction

from workeven.arithmetic import printing
from workeven.arithmetic.per_size import PerSize
from workeven.pattern import Yarn
from workeven.pipeline import ReadyPattern
from workeven.publish.pages import figures
from workeven.publish.pages.views import Table
from workeven.yarn import YarnNeed

Cell = tuple[str, ...]

#: The space that keeps a number and its unit on one line.
NO_BREAK = "\u00a0"


def finished(ready: ReadyPattern) -> Table | None:
    """What each size measures when it is done, computed back from its stitches and rows."""
    return _lengths("Finished measurements", ready, ready.proven.finished.items())


def amounts(ready: ReadyPattern) -> Table | None:
    """Yarn for each size; one yarn has a column for each figure, several a column each."""
    needs, sizes = ready.yarn.needs, ready.pattern.sizes
    if not needs:
        return None
    if len(needs) == 1:
        heads: tuple[str, ...] = ("Size", "Balls", "Length", "Mass")
        rows = tuple((name, _columns(needs[0], at)) for at, name in enumerate(sizes.names))
    else:
        heads = ("Size", *(called(need.yarn) for need in needs))
        rows = tuple(
            (name, tuple(_together(need, at) for need in needs))
            for at, name in enumerate(sizes.names)
        )
    return Table(caption="Yarn for each size", heads=heads, rows=rows)


def amounts_note(ready: ReadyPattern) -> str:
    """That amounts are estimates, with which margin, and which yarns have none, and why."""
    margins = dict.fromkeys(figures.percent(need.margin) for need in ready.yarn.needs)
    estimates = (
        (f"Amounts of yarn are estimates, with {figures.listed(tuple(margins))} to spare.",)
        if margins
        else ()
    )
    without = (f"{called(one.yarn)}: {one.reason}" for one in ready.yarn.without)
    return " ".join((*estimates, *without))


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
    return _unbroken(*figures.in_order([mm], units))


def _unbroken(*words: str) -> Cell:
    """Figures that stay with their units in a narrow column."""
    return tuple(one.replace(" ", NO_BREAK) for one in words)


def _columns(need: YarnNeed, at: int) -> tuple[Cell, ...]:
    return (
        (str(need.balls[at]),),
        _unbroken(printing.print_metres(need.length[at]), printing.print_yards(need.length[at])),
        _unbroken(printing.print_grams(need.mass[at]), printing.print_ounces(need.mass[at])),
    )


def _together(need: YarnNeed, at: int) -> Cell:
    metres = printing.print_metres(need.length[at])
    return (
        figures.counted((need.balls[at],), "ball"),
        f"{metres} / {printing.print_yards(need.length[at])}",
        printing.print_grams(need.mass[at]),
    )
