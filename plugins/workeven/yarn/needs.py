"""What the stage of yarn gives: amounts in every size, and the yarns that have none.

Takes     nothing: records only.
Gives     ``YarnNeeds`` and its parts.
Problems  none.
From      design.md, "Numbers a maker can trust": amounts are estimates and say so.
"""

from __future__ import annotations

from fractions import Fraction

from workeven.arithmetic.per_size import PerSize
from workeven.pattern import Yarn
from workeven.records import record


@record
class YarnNeed:
    """One yarn in every size, margin included.

    ``length`` in mm and ``mass`` in g are exact, before rounding; ``balls`` are whole, up.
    ``method`` says in plain words how it was computed.
    """

    yarn: Yarn
    length: PerSize[Fraction]
    mass: PerSize[Fraction]
    balls: PerSize[int]
    margin: Fraction
    method: str


@record
class NoAmount:
    """A yarn of which no amount can be given, and why, in a sentence for the maker."""

    yarn: Yarn
    reason: str


@record
class YarnNeeds:
    """All yarns of a pattern, in its order: those with an amount, and those ``without``."""

    needs: tuple[YarnNeed, ...]
    without: tuple[NoAmount, ...] = ()
