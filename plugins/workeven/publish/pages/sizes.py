"""The tables of a page: sizes, measurements, yarn.

Takes     ``ReadyPattern``.
Gives     ``to_fit``, ``finished``, ``amounts``, ``amounts_note``.
Problems  none.
From      design.md, "Numbers a maker can trust": both systems, each from the exact value; what a
          size is meant to fit apart from what it measures; amounts of yarn are estimates.
"""

from __future__ import annotations

from collections.abc import Iterable
from fractions import Fraction

from workeven.arithmetic import printing
from workeven.arithmetic.per_size import PerSize
from workeven.pipeline import ReadyPattern
from workeven.publish.pages import figures
from workeven.publish.pages.views import Table
from workeven.yarn import YarnNeed

Cell = tuple[str, ...]

#: The space that keeps a number and its unit on one line.
NO_BREAK = "\u00a0"


def to_fit(ready: ReadyPattern) -> Table | None:
    """Body measurements that each size is meant for."""
    return _lengths("To fit: body measurements", ready, ready.pattern.to_fit)


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
        heads = ("Size", *(need.yarn.label for need in needs))
        rows = tuple(
            (name, tuple(_together(need, at) for need in needs))
            for at, name in enumerate(sizes.names)
        )
    return Table(caption="Yarn for each size", heads=heads, rows=rows)


def amounts_note(ready: ReadyPattern) -> str:
    """That amounts are estimates, how they were computed, and which yarns have none, and why."""
    told = dict.fromkeys(
        f"{need.method.rstrip('.')}, with {figures.percent(need.margin)} to spare."
        for need in ready.yarn.needs
    )
    estimates = ("Amounts of yarn are estimates.", *told) if told else ()
    without = (f"{one.yarn.label}: {one.reason}" for one in ready.yarn.without)
    return " ".join((*estimates, *without))


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
