"""The rule that chooses a count: which numbers it allows, and how it is said.

Takes     a computed or listed count, the exact stitches or rows of each size.
Gives     ``rule_of``, ``allowed_in``, ``choose``, ``stepped``, ``neighbours``, ``beside``,
          ``anew``.
Problems  none of its own.
From      design.md, ``counts``: ``{across, gauge, multiple, plus, parity, round, at_least, …}``.

Where the step from size to size is kept within bounds, the sizes are chosen together: of all counts
that the rule allows, those whose distances from the exact ones are the least in all, the larger in
a tie. With steps of at most 2, sizes of exactly 10, 10.4 and 14 sts get 10, 12 and 14: 1.6 away
in all, as 10, 11 and 13 are. It is found size by size: the best way to each count of a size goes
through the best way to one of the counts of the size before.
"""

from __future__ import annotations

from collections.abc import Mapping
from fractions import Fraction

from workeven.arithmetic.formulas import Formula, FormulaFault
from workeven.arithmetic.per_size import PerSize
from workeven.arithmetic.printing import print_list
from workeven.arithmetic.progression import Progression, allowed
from workeven.grading.graded import GradedCount
from workeven.pattern import ComputedCount, FormulaCount, ListedCount

#: how many allowed counts on each side of the nearest are looked at where steps are bounded
_AROUND = 24

LISTED = "listed by the designer"


def rule_of(count: ComputedCount | ListedCount) -> str:
    """The choice in the designer's words: "nearest multiple of 6 plus 1, at least 30"."""
    if isinstance(count, ListedCount):
        return LISTED if count.multiple is None else f"{LISTED}, {_what(count)}"
    words = [_what(count)]
    if count.end is not None:
        words.append(f"from a {_side(count.begin)} row to a {_side(count.end)} row")
    if count.at_least is not None:
        words.append(f"at least {print_list(count.at_least.values)}")
    if count.at_most is not None:
        words.append(f"at most {print_list(count.at_most.values)}")
    if count.step_at_least is not None:
        words.append(f"steps of at least {count.step_at_least}")
    if count.step_at_most is not None:
        words.append(f"steps of at most {count.step_at_most}")
    text = ", ".join(words)
    if count.comes_out is not None:
        text = f"{text} that comes out through {count.comes_out}"
    if count.match is not None:
        return f"the same as {count.match.text}" + (f", {text}" if _asks(count) else "")
    return f"nearest {text}" if count.round == "nearest" else f"{text}, rounded {count.round}"


def _side(side: str) -> str:
    return side.replace(" ", "-")


def _asks(count: ComputedCount) -> bool:
    return _what(count) != "whole number" or count.at_least is not None or count.at_most is not None


def _what(count: ComputedCount | ListedCount) -> str:
    multiple, plus = count.multiple, count.plus
    if multiple is None or plus is None or (set(multiple) == {1} and not any(plus)):
        return {"any": "whole number", "odd": "odd number", "even": "even number"}[count.parity]
    parity = "" if count.parity == "any" else f", {count.parity}"
    return f"multiple of {print_list(multiple.values)}{_and_rest(plus)}{parity}"


def _and_rest(plus: PerSize[int]) -> str:
    if not any(plus):
        return ""
    least = min(plus)
    mixed = least < 0 < max(plus)
    values = plus if mixed or least >= 0 else plus.map(abs)
    return f" {'plus' if mixed or least >= 0 else 'minus'} {print_list(values.values)}"


# --- what is allowed -----------------------------------------------------------------------


def allowed_in(count: ComputedCount | ListedCount, index: int) -> Progression | None:
    """The counts that the stitch pattern allows in a size; None when there are none."""
    if count.multiple is None or count.plus is None:
        return allowed(1, 0)
    if count.multiple[index] < 1:
        return None
    return allowed(count.multiple[index], count.plus[index], count.parity)


def is_allowed(count: ComputedCount | ListedCount, index: int, value: int) -> bool:
    """Whether a number obeys the rule in a size, its bounds too."""
    counts = allowed_in(count, index)
    return (
        counts is not None and counts.at_or_below(value) == value and _within(count, index, value)
    )


def _within(count: ComputedCount | ListedCount, index: int, value: int) -> bool:
    if isinstance(count, ListedCount):
        return True
    low = count.at_least is None or value >= count.at_least[index]
    return low and (count.at_most is None or value <= count.at_most[index])


def neighbours(
    count: ComputedCount | ListedCount, index: int, value: int
) -> tuple[int | None, int | None]:
    """The next lower and higher counts that the stitch pattern and the bounds allow."""
    counts = allowed_in(count, index)
    if counts is None:
        return None, None
    least, most = _bounds(count, index) if isinstance(count, ComputedCount) else (None, None)
    below = value - 1 if most is None else min(value - 1, most)
    above = value + 1 if least is None else max(value + 1, least)
    low, high = counts.at_or_below(below), counts.at_or_above(above)
    return (
        low if low is not None and (least is None or low >= least) else None,
        high if most is None or high <= most else None,
    )


def _bounds(count: ComputedCount, index: int) -> tuple[int | None, int | None]:
    least = None if count.at_least is None else count.at_least[index]
    most = None if count.at_most is None else count.at_most[index]
    return least, most


def beside(
    count: ComputedCount | ListedCount, exact: PerSize[Fraction], values: PerSize[int], index: int
) -> tuple[int | None, int | None]:
    """The counts that could stand in place of one, the others staying as they are.

    There are none beside a count that is the same as others, that comes out through a piece
    (``nearest`` tells those), or that is listed without a multiple.
    """
    if isinstance(count, ListedCount):
        return neighbours(count, index, values[index]) if count.multiple else (None, None)
    if count.match is not None or count.comes_out is not None:
        return None, None
    low, high = neighbours(count, index, values[index])
    if not _has_steps(count):
        return low, high
    return (
        low if low is None or _in_steps(count, exact, _with(values, index, low)) else None,
        high if high is None or _in_steps(count, exact, _with(values, index, high)) else None,
    )


def _with(values: PerSize[int], index: int, value: int) -> tuple[int, ...]:
    return tuple(value if at == index else one for at, one in enumerate(values))


# --- the choice ----------------------------------------------------------------------------


def choose(count: ComputedCount, exact: Fraction, index: int) -> int | None:
    """The count for an exact number in one size, by itself."""
    counts = allowed_in(count, index)
    if counts is None:
        return None
    return counts.choose(exact, count.round, *_bounds(count, index))


def stepped(
    count: ComputedCount, exact: PerSize[Fraction], chosen: tuple[int, ...]
) -> tuple[int, ...] | None:
    """Counts of all sizes with steps in bounds, nearest to the exact ones in all; or None."""
    if _in_steps(count, exact, chosen):
        return chosen
    best: dict[int, tuple[Fraction, tuple[int, ...]]] = {}
    for index, value in enumerate(chosen):
        ways: dict[int, tuple[Fraction, tuple[int, ...]]] = {}
        for now in _around(count, index, value, exact[index]):
            off = abs(now - exact[index])
            if index == 0:
                ways[now] = (off, (now,))
                continue
            before = [
                (cost + off, (*way, now))
                for last, (cost, way) in best.items()
                if _good_step(count, now - last, exact[index] - exact[index - 1])
            ]
            if before:
                ways[now] = min(before, key=lambda way: (way[0], tuple(-n for n in way[1])))
        best = ways
    if not best:
        return None
    return min(best.values(), key=lambda way: (way[0], tuple(-n for n in way[1])))[1]


def _around(count: ComputedCount, index: int, value: int, exact: Fraction) -> list[int]:
    counts = allowed_in(count, index)
    if counts is None:
        return []
    near = (value + steps * counts.step for steps in range(-_AROUND, _AROUND + 1))
    return [
        one
        for one in near
        if one >= counts.first
        and _within(count, index, one)
        and (count.round != "up" or one >= exact)
        and (count.round != "down" or one <= exact)
    ]


def _has_steps(count: ComputedCount) -> bool:
    return count.step_at_least is not None or count.step_at_most is not None


def _in_steps(count: ComputedCount, exact: PerSize[Fraction], values: tuple[int, ...]) -> bool:
    return not _has_steps(count) or all(
        _good_step(count, values[index] - values[index - 1], exact[index] - exact[index - 1])
        for index in range(1, len(values))
    )


def _good_step(count: ComputedCount, step: int, wanted: Fraction) -> bool:
    """Whether a step is in bounds; the least step is asked for where the length changes at all."""
    if count.step_at_most is not None and abs(step) > count.step_at_most:
        return False
    if count.step_at_least is None or wanted == 0:
        return True
    return (step if wanted > 0 else -step) >= count.step_at_least


def value_of(formula: Formula, counts: Mapping[str, int]) -> int | None:
    """A formula over counts where it is a whole number and not less than zero."""
    try:
        made = formula.count(counts)
    except FormulaFault:
        return None
    return int(made) if made.denominator == 1 and made >= 0 else None


def anew(count: GradedCount, counts: Mapping[str, int], index: int) -> int | None:
    """A count that is made from others, made again in one size after these have changed."""
    one = count.count
    if isinstance(one, FormulaCount):
        return value_of(one.formula, counts)
    if isinstance(one, ComputedCount) and one.match is not None:
        value = value_of(one.match, counts)
        return value if value is not None and is_allowed(one, index, value) else None
    if isinstance(one, ComputedCount) and one.multiple_of is not None and count.exact is not None:
        step = allowed(counts[one.multiple_of], one.plus[index], one.parity)
        return None if step is None else step.choose(count.exact[index], one.round)
    return count.values[index]
