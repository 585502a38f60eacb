"""Yarn for every size: length, mass and balls, from counted stitches and a weighed swatch.

Takes     ``ProvenPattern``.
Gives     ``YarnNeeds``.
Problems  ``yarn-``.
From      ``standards``: worked swatch methods; design.md, "Numbers a maker can trust".
"""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction

from workeven.arithmetic.per_size import PerSize
from workeven.pattern import Yarn


@dataclass(frozen=True, slots=True, kw_only=True)
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


@dataclass(frozen=True, slots=True, kw_only=True)
class YarnNeeds:
    """All yarns of a pattern, in its order."""

    needs: tuple[YarnNeed, ...]
