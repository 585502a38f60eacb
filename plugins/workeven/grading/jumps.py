"""Advice where one size grows far more than the others and its wanted length does not.

Takes     the counts of a pattern.
Gives     ``size_jumps``.
Problems  ``size-jump``.
From      common practice of grading: sizes grow by even steps unless the body does not.

Rounding to a multiple makes steps uneven by some stitches, which nobody sees. A step is told where
it is half as large again as the middle one of all steps, and 25 mm more than was wanted (both
bounds are ours).
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from collections.abc import Set as AbstractSet
from fractions import Fraction
from itertools import pairwise

from workeven.arithmetic.quantities import print_cm, print_in
from workeven.grading.graded import GradedCount
from workeven.pattern import Pattern
from workeven.problems import Problem, Span
from workeven.problems.words import quote

#: fewer steps have no middle one
_FEWEST = 3
#: what a maker sees in the width of a garment (mm)
_SEEN = Fraction(25)


def size_jumps(
    pattern: Pattern, counts: Mapping[str, GradedCount], told: AbstractSet[Span]
) -> Iterator[Problem]:
    """Counts in which a size jumps."""
    names = pattern.sizes.names
    for name, count in counts.items():
        if count.wanted is None or count.measures is None or count.count.span in told:
            continue
        made = [after - before for before, after in pairwise(count.measures)]
        wanted = [after - before for before, after in pairwise(count.wanted)]
        if len(made) < _FEWEST:
            continue
        usual = sorted(made)[len(made) // 2]
        jumps = [
            at
            for at, step in enumerate(made)
            if usual > 0 and 2 * step >= 3 * usual and step - wanted[at] >= _SEEN
        ]
        if jumps:
            lines = [
                f"From {names[at]} to {names[at + 1]} it grows by {_both(made[at])}, "
                f"{count.values[at]} to {count.values[at + 1]} {count.word}; "
                f"{quote(count.measurement or name)} by {_both(wanted[at])}."
                for at in jumps
            ]
            yield Problem(
                code="size-jump",
                span=count.count.span,
                found=f"{quote(name)} jumps from one size to the next.",
                expected="\n".join([*lines, f"The middle one of its steps is {_both(usual)}."]),
                mend="Look whether a smaller multiple or `step_at_most` makes the steps even. "
                "If it is meant so, `allow` it with a reason.",
                sizes=tuple(names[at + 1] for at in jumps),
            )


def _both(mm: Fraction) -> str:
    return f"{print_cm(mm)} ({print_in(mm)})"
