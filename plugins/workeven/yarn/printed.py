"""The designer's own list of amounts, held against the estimate.

Takes     the amounts of a pattern, what is computed of its yarns (``YarnNeed``).
Gives     ``printed_problems``.
Problems  ``yarn-amounts-part-ball``, ``yarn-amounts-fall``, ``yarn-amounts-short``,
          ``yarn-amounts-close``, ``yarn-amounts-much``.
From      design.md, "A pattern file": ``amounts``; the bound of too much is our own.

Less than is computed without any margin cannot be enough: an error. Less than with the margin may
be, and is advice; so is more than half as much again, from two balls on. A metre or a gram is
rounding. A size that is told to fall short is not told once more to fall below the size before it;
one that falls is not told once more to leave no margin. Where it is not known what each colour
takes, a list by colour is held as one.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from fractions import Fraction
from itertools import chain, pairwise

from workeven.arithmetic import printing
from workeven.arithmetic.per_size import PerSize
from workeven.arithmetic.units import M
from workeven.pattern import Pattern, PrintedAmount, PutUp
from workeven.problems import Problem
from workeven.problems.words import joined, quote
from workeven.records import record, replace
from workeven.yarn.buying import balls
from workeven.yarn.needs import YarnNeed

#: more than this part of what is computed, and so many balls more, is far too much
_MUCH = Fraction(3, 2)
_MUCH_BALLS = 2
_ROUNDING = {"balls": Fraction(0), "length": Fraction(M), "mass": Fraction(1)}


#: a problem, and the sizes of which it tells
_Told = tuple[Problem, tuple[int, ...]]


@record
class Due:
    """What is computed for one printed amount, in its unit: without the margin, and with it."""

    bare: PerSize[Fraction]
    whole: PerSize[Fraction]


def printed_problems(pattern: Pattern, needs: Mapping[str, YarnNeed]) -> Iterator[Problem]:
    """What is wrong with the list; ``needs`` by the name of their yarn."""
    for printed in _as_known(pattern.amounts, needs):
        if (part := tuple(_part_balls(printed))) and printed.unit == "balls":
            yield _part_ball(printed, part)
            continue
        need = needs.get(printed.yarn)
        due = None if need is None else due_of(printed, need)
        told: set[int] = set()
        short = () if need is None or due is None else tuple(_short(printed, due, need))
        for problem, sizes in chain(short, _falls(printed, due, told)):
            told.update(sizes)
            yield problem
        if need is not None and due is not None:
            yield from () if short else _close(printed, due, need, told)
            yield from _much(printed, due, need, told)


def _as_known(
    amounts: tuple[PrintedAmount, ...], needs: Mapping[str, YarnNeed]
) -> Iterator[PrintedAmount]:
    """The lists; those of colours as one, where it is not known what each colour takes."""
    added: set[str] = set()
    for printed in amounts:
        need = needs.get(printed.yarn)
        if printed.colour is None or need is None or need.colours:
            yield printed
        elif printed.yarn not in added:
            added.add(printed.yarn)
            parts = [one for one in amounts if one.yarn == printed.yarn]
            yield _together(parts, need.yarn.put_up)


def _together(parts: list[PrintedAmount], put_up: PutUp) -> PrintedAmount:
    """All colours of a yarn as one list; as a mass where their units differ."""
    first = parts[0]
    same = all(one.unit == first.unit for one in parts)
    weighs = {"balls": put_up.mass, "length": put_up.mass / put_up.length, "mass": Fraction(1)}
    each = zip(
        *(
            one.values if same else one.values.map(lambda value, one=one: value * weighs[one.unit])  # type: ignore[misc]
            for one in parts
        ),
        strict=True,
    )
    return replace(
        first,
        colour=None,
        unit=first.unit if same else "mass",
        values=first.values.sizes.each(tuple(sum(one, Fraction(0)) for one in each)),
    )


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
    return Problem(
        code="yarn-amounts-part-ball",
        span=printed.span,
        found=f"{_listed(printed, printed.values, sizes)} of {_of(printed)} are asked for"
        f"{_in(printed, sizes)}, and nobody sells part of a ball.",
        expected="Whole balls.",
        mend="Round up, or say the length or the mass: `430 m`, `170 g`.",
        sizes=_names(printed, sizes),
    )


def _falls(printed: PrintedAmount, due: Due | None, told: set[int]) -> Iterator[_Told]:
    """Less for a larger size, where what is computed does not fall as well."""
    values = printed.values
    worked = [at for at, value in enumerate(values) if value]
    for small, large in pairwise(worked):
        if values[large] >= values[small] or told & {small, large}:
            continue
        if due is not None and due.whole[large] < due.whole[small]:
            continue
        names = values.sizes.names
        yield (
            Problem(
                code="yarn-amounts-fall",
                span=printed.span,
                found=f"The list of {_of(printed)} has {_words(printed, values[large])} for "
                f"{names[large]}, and {_words(printed, values[small])} for the smaller "
                f"{names[small]}.",
                expected="Amounts that rise with the sizes, or stay."
                if due is None
                else f"{_words(printed, due.whole[small])} and "
                f"{_words(printed, due.whole[large])} are computed, margin included.",
                mend="Look whether a figure was left out or two changed places.",
                sizes=(names[large],),
            ),
            (small, large),
        )


# --- against the estimate ------------------------------------------------------------------


def _short(printed: PrintedAmount, due: Due, need: YarnNeed) -> Iterator[_Told]:
    """Less than is computed without any margin."""
    slack = _ROUNDING[printed.unit]
    sizes = _where(
        value + slack < bare for value, bare in zip(printed.values, due.bare, strict=True)
    )
    if sizes:
        yield (
            _problem(
                "yarn-amounts-short",
                printed,
                sizes,
                found=f"{_listed(printed, printed.values, sizes)} of {_of(printed)} cannot be "
                f"enough{_in(printed, sizes)}.",
                expected=f"{_listed(printed, due.whole, sizes)} with the margin of "
                f"{_margin(need)}, {_listed(printed, due.bare, sizes)} without any.",
                mend="Ask for more. If finished samples took less, give them under `samples`.",
            ),
            sizes,
        )


def _close(printed: PrintedAmount, due: Due, need: YarnNeed, told: set[int]) -> Iterator[Problem]:
    """Enough without the margin, and not with it."""
    slack = _ROUNDING[printed.unit]
    sizes = _where(
        at not in told and value + slack < whole
        for at, (value, whole) in enumerate(zip(printed.values, due.whole, strict=True))
    )
    if sizes:
        yield _problem(
            "yarn-amounts-close",
            printed,
            sizes,
            found=f"{_listed(printed, printed.values, sizes)} of {_of(printed)} would leave less "
            f"than the margin of {_margin(need)}{_in(printed, sizes)}.",
            expected=f"{_listed(printed, due.whole, sizes)} with the margin, "
            f"{_listed(printed, due.bare, sizes)} without any.",
            mend="Ask for more, or say with `margin` how much is enough to spare.",
        )


def _much(printed: PrintedAmount, due: Due, need: YarnNeed, told: set[int]) -> Iterator[Problem]:
    """Far more than is computed with the margin."""
    most = _two_balls(printed, need)
    sizes = _where(
        at not in told and value > _MUCH * whole and value >= whole + most and whole > 0
        for at, (value, whole) in enumerate(zip(printed.values, due.whole, strict=True))
    )
    if sizes:
        yield _problem(
            "yarn-amounts-much",
            printed,
            sizes,
            found=f"{_listed(printed, printed.values, sizes)} of {_of(printed)} would be far more "
            f"than is needed{_in(printed, sizes)}.",
            expected=f"{_listed(printed, due.whole, sizes)} are computed, margin included.",
            mend="Look whether the amount is of this yarn and this put-up, and whether what takes "
            "so much is among the rows, seams and `trimmings`.",
        )


def _where(true: Iterator[bool]) -> tuple[int, ...]:
    return tuple(at for at, one in enumerate(true) if one)


def _two_balls(printed: PrintedAmount, need: YarnNeed) -> Fraction:
    if printed.unit == "balls":
        return Fraction(_MUCH_BALLS)
    put_up = need.yarn.put_up
    return _MUCH_BALLS * (put_up.length if printed.unit == "length" else put_up.mass)


def _margin(need: YarnNeed) -> str:
    return f"{printing.decimal(need.margin * 100, 1)} %"


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
    """The values of these sizes with their unit once: ``8 and 9 balls``; one if all are alike."""
    figures = [_figure(printed, values[at]) for at in sizes]
    figures = figures[:1] if len(set(figures)) == 1 else figures
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
