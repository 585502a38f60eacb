"""Amounts that no pattern has: a slip in what a swatch weighs, or in what one ball holds.

Takes     ``YarnNeed``.
Gives     ``too_many_balls``.
Problems  ``yarn-too-many-balls``.
From      common practice: a blanket for a large bed takes some 50 balls of 50 g.
"""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction

from workeven.arithmetic.quantities import decimal
from workeven.problems import Problem
from workeven.problems.words import quote
from workeven.yarn.needs import YarnNeed

#: More balls of one yarn than this nobody buys for one thing.
MOST_BALLS = 200


def too_many_balls(need: YarnNeed) -> Iterator[Problem]:
    """More balls of one yarn than anything takes; told once, with the size that takes most."""
    over = {size: balls for size, balls in need.balls.items() if balls > MOST_BALLS}
    if not over:
        return
    size = max(over, key=lambda name: over[name])
    where = f" in {size}" if len(need.balls.values) > 1 else ""
    metres = need.yarn.put_up.length / 1000
    yield Problem(
        code="yarn-too-many-balls",
        span=need.yarn.span,
        found=f"{over[size]:,} balls of {quote(need.yarn.name)} would be needed{where}.",
        expected=f"At most {MOST_BALLS} of one yarn. One ball is given as {_plain(metres)} m in "
        f"{_plain(need.yarn.put_up.mass)} g.",
        mend="Look whether length and mass of one ball are as on its band, and whether the swatch "
        "was weighed in grams.",
        sizes=tuple(over),
        good_sizes=tuple(name for name, _ in need.balls.items() if name not in over),
        figures=(("balls", tuple(map(str, over.values()))),),
    )


def _plain(number: Fraction) -> str:
    return decimal(number, 1)
