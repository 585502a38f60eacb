"""The designer's own list of amounts, held against the estimate.

Takes     the amounts of a pattern, what is computed of its yarns (``YarnNeed``).
Gives     ``printed_problems``.
Problems  ``yarn-amounts-part-ball``, ``yarn-amounts-fall``, ``yarn-amounts-short``,
          ``yarn-amounts-close``, ``yarn-amounts-much``.
From      design.md, "A pattern file": ``amounts``; the bound of too much is our own.

Less than is computed without any margin cannot be enough: an error. Less than with the margin may
be, and is advice; so is more than half as much again, from two balls on. A metre or a gram is
rounding. Where a size is told so, it is not told once more that the list falls there.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from fractions import Fraction
from itertools import pairwise

from workeven.arithmetic import printing
from workeven.arithmetic.per_size import PerSize
from workeven.arithmetic.units import M
from workeven.pattern import Pattern, PrintedAmount
from workeven.problems import Problem
from workeven.problems.words import joined, quote
from workeven.records import record
from workeven.yarn.buying import balls
from workeven.yarn.needs import YarnNeed

#: more than this part of what is computed, and so many balls more, is far too much
_MUCH = Fraction(3, 2)
_MUCH_BALLS = 2
_ROUNDING = {"balls": Fraction(0), "length": Fraction(M), "mass": Fraction(1)}


@record
class Due:
    """What is computed for one printed amount, in its unit: without the margin, and with it."""

    bare: PerSize[Fraction]
    whole: PerSize[Fraction]


def printed_problems(pattern: Pattern, needs: Mapping[str, YarnNeed]) -> Iterator[Problem]:
    """What is wrong with the list; ``needs`` by the name of their yarn."""
    for printed in pattern.amounts:
        if (part := tuple(_part_balls(printed))) and printed.unit == "balls":
            yield _part_ball(printed, part)
            continue
        need = needs.get(printed.yarn)
        due = None if need is None else due_of(printed, need)
        told: set[int] = set()
        if need is not None and due is not None:
            for problem, sizes in _against(printed, need, due):
                told.update(sizes)
                yield problem
        yield from _falls(printed, due, told)


def due_of(printed: PrintedAmount, need: YarnNeed) -> Due | None:
    """What is computed for it; None where it is of a colour, and that is not known by colour."""
    if printed.colour is None:
        if need.colours and printed.unit == "balls":
            masses = tuple(one.mass for one in need.colours)
        else:
            masses = (need.mass,)
    else:
        masses = tuple(one.mass for one in need.colours if one.colour == printed.colour)
    if not masses:
        return None
    sizes = need.mass.sizes
    bare = [mass.map(lambda grams: grams / (1 + need.margin)) for mass in masses]
    return Due(
        bare=sizes.each(tuple(_in_unit(bare, printed, need, at) for at in range(len(sizes)))),
        whole=sizes.each(tuple(_in_unit(masses, printed, need, at) for at in range(len(sizes)))),
    )


def _in_unit(
    masses: tuple[PerSize[Fraction], ...] | list[PerSize[Fraction]],
    printed: PrintedAmount,
    need: YarnNeed,
    at: int,
) -> Fraction:
    """Masses (g) of one size as balls, whole of each, as a length or as a mass."""
    put_up = need.yarn.put_up
    lengths = [mass[at] * put_up.length / put_up.mass for mass in masses]
    if printed.unit == "balls":
        return Fraction(sum(balls(length, put_up) for length in lengths))
    grams = sum((mass[at] for mass in masses), Fraction(0))
    return grams if printed.unit == "mass" else sum(lengths, Fraction(0))


# --- by itself -----------------------------------------------------------------------------


def _part_balls(printed: PrintedAmount) -> Iterator[int]:
    return (at for at, value in enumerate(printed.values) if value.denominator != 1)


def _part_ball(printed: PrintedAmount, sizes: tuple[int, ...]) -> Problem:
    values = joined(printing.print_number(printed.values[at]) for at in sizes)
    return Problem(
        code="yarn-amounts-part-ball",
        span=printed.span,
        found=f"{values} balls of {_of(printed)} are asked for{_in(printed, sizes)}, and nobody "
        "sells part of a ball.",
        expected="Whole balls.",
        mend="Round up, or say the length or the mass: `430 m`, `170 g`.",
        sizes=_names(printed, sizes),
    )


def _falls(printed: PrintedAmount, due: Due | None, told: set[int]) -> Iterator[Problem]:
    """Less for a larger size, where what is computed does not fall as well."""
    values = printed.values
    worked = [at for at, value in enumerate(values) if value]
    for small, large in pairwise(worked):
        if values[large] >= values[small] or told & {small, large}:
            continue
        if due is not None and due.whole[large] < due.whole[small]:
            continue
        names = values.sizes.names
        yield Problem(
            code="yarn-amounts-fall",
            span=printed.span,
            found=f"Of {_of(printed)} {_words(printed, values[large])} are said to do for "
            f"{names[large]}, and {_words(printed, values[small])} for the smaller {names[small]}.",
            expected="Amounts that rise with the sizes, or stay."
            if due is None
            else f"{_words(printed, due.whole[small])} and {_words(printed, due.whole[large])} are "
            "computed, margin included.",
            mend="Look whether a figure was left out or two changed places.",
            sizes=(names[large],),
        )


# --- against the estimate ------------------------------------------------------------------


def _against(
    printed: PrintedAmount, need: YarnNeed, due: Due
) -> Iterator[tuple[Problem, tuple[int, ...]]]:
    slack = _ROUNDING[printed.unit]
    values = tuple(printed.values)
    short = _where(value + slack < bare for value, bare in zip(values, due.bare, strict=True))
    close = _where(value + slack < whole for value, whole in zip(values, due.whole, strict=True))
    most = _two_balls(printed, need)
    much = _where(
        value > _MUCH * whole and value >= whole + most and whole > 0
        for value, whole in zip(values, due.whole, strict=True)
    )
    margin = f"{printing.decimal(need.margin * 100, 1)} %"
    if short:
        yield _short(printed, due, short, margin), short
    elif close:
        yield _close(printed, due, close, margin), close
    if much:
        yield _too_much(printed, due, much), much


def _where(true: Iterator[bool]) -> tuple[int, ...]:
    return tuple(at for at, one in enumerate(true) if one)


def _two_balls(printed: PrintedAmount, need: YarnNeed) -> Fraction:
    if printed.unit == "balls":
        return Fraction(_MUCH_BALLS)
    put_up = need.yarn.put_up
    return _MUCH_BALLS * (put_up.length if printed.unit == "length" else put_up.mass)


def _short(printed: PrintedAmount, due: Due, sizes: tuple[int, ...], margin: str) -> Problem:
    return _problem(
        "yarn-amounts-short",
        printed,
        sizes,
        found=f"{_listed(printed, printed.values, sizes)} of {_of(printed)} cannot be enough"
        f"{_in(printed, sizes)}.",
        expected=f"{_listed(printed, due.bare, sizes)} are computed without any margin, and "
        f"{_listed(printed, due.whole, sizes)} with the margin of {margin}.",
        mend="Ask for more. If finished samples took less, give them under `samples`.",
    )


def _close(printed: PrintedAmount, due: Due, sizes: tuple[int, ...], margin: str) -> Problem:
    return _problem(
        "yarn-amounts-close",
        printed,
        sizes,
        found=f"{_listed(printed, printed.values, sizes)} of {_of(printed)} would leave less "
        f"than the margin of {margin}{_in(printed, sizes)}.",
        expected=f"{_listed(printed, due.whole, sizes)} with the margin, "
        f"{_listed(printed, due.bare, sizes)} without any.",
        mend="Ask for more, or say with `margin` how much is enough to spare.",
    )


def _too_much(printed: PrintedAmount, due: Due, sizes: tuple[int, ...]) -> Problem:
    return _problem(
        "yarn-amounts-much",
        printed,
        sizes,
        found=f"{_listed(printed, printed.values, sizes)} of {_of(printed)} would be far more than "
        f"is needed{_in(printed, sizes)}.",
        expected=f"{_listed(printed, due.whole, sizes)} are computed, margin included.",
        mend="Look whether the amount is of this yarn and this put-up, and whether what takes so "
        "much is among the rows, seams and `trimmings`.",
    )


def _problem(
    code: str,
    printed: PrintedAmount,
    sizes: tuple[int, ...],
    *,
    found: str,
    expected: str,
    mend: str,
) -> Problem:
    others = (at for at in range(len(printed.values.values)) if at not in sizes)
    return Problem(
        code=code,
        span=printed.span,
        found=found,
        expected=expected,
        mend=mend,
        sizes=_names(printed, sizes),
        good_sizes=_names(printed, tuple(others)),
    )


# --- in words ------------------------------------------------------------------------------


def _names(printed: PrintedAmount, sizes: tuple[int, ...]) -> tuple[str, ...]:
    names = printed.values.sizes.names
    return tuple(names[at] for at in sizes) if len(names) > 1 else ()


def _in(printed: PrintedAmount, sizes: tuple[int, ...]) -> str:
    names = _names(printed, sizes)
    return f" in {joined(names)}" if names else ""


def _of(printed: PrintedAmount) -> str:
    if printed.colour is None:
        return quote(printed.yarn)
    return f"{quote(printed.yarn)} in {quote(printed.colour)}"


def _listed(printed: PrintedAmount, values: PerSize[Fraction], sizes: tuple[int, ...]) -> str:
    """The values of these sizes with their unit once: ``8 and 9 balls``."""
    figures = [_figure(printed, values[at]) for at in sizes]
    return f"{joined(figures)} {_unit(printed, figures)}"


def _words(printed: PrintedAmount, value: Fraction) -> str:
    figure = _figure(printed, value)
    return f"{figure} {_unit(printed, [figure])}"


def _figure(printed: PrintedAmount, value: Fraction) -> str:
    if printed.unit == "balls":
        return printing.print_number(value)
    if printed.unit == "mass":
        return printing.print_grams(value, unit=False)
    if _in_yards(printed):
        return printing.print_yards(value, unit=False)
    return printing.print_metres(value, unit=False)


def _unit(printed: PrintedAmount, figures: list[str]) -> str:
    if printed.unit == "balls":
        return "ball" if figures == ["1"] else "balls"
    if printed.unit == "mass":
        return "g"
    return "yd" if _in_yards(printed) else "m"


def _in_yards(printed: PrintedAmount) -> bool:
    """Whether the designer wrote yards."""
    return "y" in printed.words.lower()
