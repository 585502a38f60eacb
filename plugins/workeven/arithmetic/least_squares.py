"""Unknowns of which sums were weighed: the values that come nearest to all of them.

Takes     the numbers of each sum, and what each came to.
Gives     ``nearest_values``: a value for each unknown, None for one that the sums do not tell.
Problems  none.
From      the method of least squares, by the normal equations, in exact fractions.

With a number of each unknown in every sum, the values sought make the sum of the squares of what
is off as small as can be. Where unknowns stand only together (always one sc to one dc), no sum
tells them apart: they have no value. Fractions are exact, so that "always" is no question of
rounding.

Where they stand almost always together (1,000 sc to 5,000 dc, then 1,105 to 5,500), exact sums
tell them apart and weighed ones do not: a gram more or less in a sum moves their values by many
parts in a hundred. So a value is held back too where less than the part ``own`` of its numbers is
left when the others are taken out of them. With a part of 1/100 an error in the sums comes out ten
times as large in the value: 1 / part is what statistics call its variance inflation factor.

Worked example: 10 x is 20 and 20 x is 43: x = (10 · 20 + 20 · 43) / (10² + 20²) = 2.12.
"""

from __future__ import annotations

from collections.abc import Sequence
from fractions import Fraction

Row = list[Fraction]


def nearest_values(
    numbers: Sequence[Sequence[Fraction | int]],
    sums: Sequence[Fraction],
    *,
    own: Fraction = Fraction(0),
) -> tuple[Fraction | None, ...]:
    """One value for each unknown, in their order; ``numbers`` has a line for each sum.

    >>> nearest_values([(10,), (20,)], [Fraction(20), Fraction(43)])
    (Fraction(53, 25),)
    >>> nearest_values([(1, 1, 0), (0, 0, 4)], [Fraction(3), Fraction(8)])
    (None, None, Fraction(2, 1))
    >>> nearest_values([(10, 50), (11, 55)], [Fraction(60), Fraction(66)], own=Fraction(1, 100))
    (None, None)
    """
    unknowns = len(numbers[0]) if numbers else 0
    squares = [
        [_product(numbers, at, other) for other in range(unknowns)] for at in range(unknowns)
    ]
    equations = [
        [*line, *_unit(at, unknowns), _weighed(numbers, at, sums)]
        for at, line in enumerate(squares)
    ]
    pivots = _reduced(equations, unknowns)
    free = [at for at in range(unknowns) if at not in pivots]
    values: list[Fraction | None] = [None] * unknowns
    for equation, pivot in zip(equations, pivots, strict=False):
        inverse = equation[unknowns + pivot]
        if not any(equation[at] for at in free) and own * inverse * squares[pivot][pivot] <= 1:
            values[pivot] = equation[-1]
    return tuple(values)


def _unit(at: int, unknowns: int) -> Row:
    """A line of the unit matrix, which the reduction turns into the inverse."""
    return [Fraction(int(at == other)) for other in range(unknowns)]


def _weighed(
    numbers: Sequence[Sequence[Fraction | int]], at: int, sums: Sequence[Fraction]
) -> Fraction:
    return sum((line[at] * value for line, value in zip(numbers, sums, strict=True)), Fraction(0))


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
