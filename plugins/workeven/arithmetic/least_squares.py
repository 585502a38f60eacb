"""Unknowns of which sums were weighed: the values that come nearest to all of them.

Takes     the numbers of each sum, and what each came to.
Gives     ``nearest_values``: a value for each unknown, None for one that the sums do not tell.
Problems  none.
From      the method of least squares, by the normal equations, in exact fractions.

With a number of each unknown in every sum, the values sought make the sum of the squares of what
is off as small as can be. Where unknowns stand only together (always one sc to one dc), no sum
tells them apart: they have no value. Fractions are exact, so that "always" is no question of
rounding.

Worked example: 10 x is 20 and 20 x is 43: x = (10 · 20 + 20 · 43) / (10² + 20²) = 2.12.
"""

from __future__ import annotations

from collections.abc import Sequence
from fractions import Fraction

Row = list[Fraction]


def nearest_values(
    numbers: Sequence[Sequence[Fraction | int]], sums: Sequence[Fraction]
) -> tuple[Fraction | None, ...]:
    """One value for each unknown, in their order; ``numbers`` has a line for each sum.

    >>> nearest_values([(10,), (20,)], [Fraction(20), Fraction(43)])
    (Fraction(53, 25),)
    >>> nearest_values([(1, 1, 0), (0, 0, 4)], [Fraction(3), Fraction(8)])
    (None, None, Fraction(2, 1))
    """
    unknowns = len(numbers[0]) if numbers else 0
    equations = [
        [
            *(_product(numbers, at, other) for other in range(unknowns)),
            sum((line[at] * value for line, value in zip(numbers, sums, strict=True)), Fraction(0)),
        ]
        for at in range(unknowns)
    ]
    pivots = _reduced(equations, unknowns)
    free = [at for at in range(unknowns) if at not in pivots]
    values: list[Fraction | None] = [None] * unknowns
    for equation, pivot in zip(equations, pivots, strict=False):
        if not any(equation[at] for at in free):
            values[pivot] = equation[-1]
    return tuple(values)


def _product(numbers: Sequence[Sequence[Fraction | int]], one: int, other: int) -> Fraction:
    """The numbers of two unknowns multiplied, summed over all lines."""
    return sum((Fraction(line[one]) * line[other] for line in numbers), Fraction(0))


def _reduced(equations: list[Row], unknowns: int) -> list[int]:
    """Bring equations to reduced echelon form; gives the unknown that leads each of the first."""
    pivots: list[int] = []
    for at in range(unknowns):
        rank = len(pivots)
        lead = next((row for row in range(rank, len(equations)) if equations[row][at]), None)
        if lead is None:
            continue
        equations[rank], equations[lead] = equations[lead], equations[rank]
        divisor = equations[rank][at]
        equations[rank] = [one / divisor for one in equations[rank]]
        for row, equation in enumerate(equations):
            if row != rank and equation[at]:
                factor = equation[at]
                pairs = zip(equation, equations[rank], strict=True)
                equations[row] = [one - factor * other for one, other in pairs]
        pivots.append(at)
    return pivots
