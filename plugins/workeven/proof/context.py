"""What a walk must know of one size: its numbers, its stitches, how the piece is worked.

Takes     the amounts of a row and the counts of the pattern.
Gives     ``SizeContext``, ``Fault``, ``match_of``.
Problems  none of its own: ``Fault`` becomes a problem in ``messages``.
From      notation.md, "Sizes" and "Named places".
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from fractions import Fraction
from functools import lru_cache
from typing import assert_never

from workeven.arithmetic.formulas import FormulaFault
from workeven.notation.tree import (
    Amount,
    AnyStitch,
    Gap,
    Length,
    Marked,
    NamedStitch,
    OneChain,
    PlaceName,
    Space,
    SpecialStitch,
    StitchGroup,
    TurningChain,
)
from workeven.proof.fabric import Match, Place, count_stitches

#: the most workings of one row, and the most stitches of one amount (design.md, limits).
MOST_WORKINGS = 10_000
MOST_STITCHES = 1_000_000


class Fault(Exception):
    """A row does not come out in one size; private to the proof.

    ``start`` and ``end`` are columns of the row. ``detail`` says what happens in this size, as a
    clause that can follow "in L, …"; ``figures`` holds its numbers by name.
    """

    def __init__(
        self,
        code: str,
        start: int,
        end: int,
        detail: str,
        *,
        lead: str = "",
        mend: str = "",
        **figures: int,
    ) -> None:
        super().__init__(detail)
        self.code = code
        self.start = start
        self.end = end
        self.detail = detail
        self.lead = lead
        self.mend = mend
        self.figures = figures


@dataclass(frozen=True, slots=True, kw_only=True)
class SizeContext:
    """One size of a piece: ``index`` of ``sizes`` sizes, its counts and measurements by name.

    ``turning_chains`` holds what the file says of turning chains, by stitch.
    """

    index: int
    sizes: int
    counts: Mapping[str, int] = field(default_factory=dict)
    measurements: Mapping[str, Fraction] = field(default_factory=dict)
    special: Mapping[str, SpecialStitch] = field(default_factory=dict)
    turning_chains: Mapping[str, bool] = field(default_factory=dict)
    each_chain_counts: bool = False

    def amount(self, amount: Amount) -> int | None:
        """The number in this size, None for a dash; raises ``Fault`` where it is not whole."""
        if amount.formula is not None:
            return self._computed(amount)
        if len(amount.values) == 1:
            value = amount.values[0]
        elif len(amount.values) == self.sizes:
            value = amount.values[self.index]
        else:
            raise Fault(
                "size-list",
                amount.start,
                amount.end,
                f"{len(amount.values)} numbers stand here, and there are {self.sizes} sizes",
            )
        if value is not None and value > MOST_STITCHES:
            raise Fault(
                "row-too-many",
                amount.start,
                amount.end,
                f"{value} is more than any piece has",
                mend=f"A number in a row is at most {MOST_STITCHES}.",
            )
        return value

    def _computed(self, amount: Amount) -> int:
        assert amount.formula is not None
        try:
            value = amount.formula.count(self.counts)
        except FormulaFault as fault:
            detail = str(fault).rstrip(".")
            raise Fault("count-formula", amount.start, amount.end, detail) from fault
        if value.denominator != 1 or not 0 <= value <= MOST_STITCHES:
            raise Fault(
                "count-not-whole",
                amount.start,
                amount.end,
                f"“{amount.formula.text}” is {value}, which is not a whole number of stitches"
                if value.denominator != 1
                else f"“{amount.formula.text}” is {value}",
                mend="Change the formula or the counts in it so that every size gives a whole number.",
            )
        return int(value)

    def length(self, length: Length) -> Fraction:
        """A length of a row in mm; raises ``Fault`` where a formula cannot be worked out."""
        if length.formula is not None:
            try:
                return length.formula.length(self.measurements)
            except FormulaFault as fault:
                detail = str(fault).rstrip(".")
                raise Fault("unit-formula", length.start, length.end, detail) from fault
        if len(length.millimetres) == 1:
            return length.millimetres[0]
        if len(length.millimetres) != self.sizes:
            raise Fault(
                "size-list",
                length.start,
                length.end,
                f"{len(length.millimetres)} lengths stand here, and there are {self.sizes} sizes",
            )
        return length.millimetres[self.index]


@lru_cache(maxsize=1024)
def match_of(names: tuple[PlaceName, ...]) -> Match:
    """The test whether a place bears one of these names (the same test object each time)."""
    if any(isinstance(name, AnyStitch) for name in names) and all(
        not isinstance(name, Space | Gap) for name in names
    ):
        return count_stitches
    tests = tuple(_match(name) for name in names)
    if len(tests) == 1:
        return tests[0]

    def any_of(place: Place) -> bool:
        return any(test(place) for test in tests)

    return any_of


@lru_cache(maxsize=1024)
def _match(name: PlaceName) -> Match:
    match name:
        case AnyStitch():
            return count_stitches
        case NamedStitch(name=stitch):
            return lambda place: place.sort == "st" and stitch in (place.name, place.base)
        case Space(chains=None):
            return lambda place: place.sort == "sp"
        case Space(chains=chains):
            return lambda place: place.sort == "sp" and place.chains == chains
        case OneChain():
            return lambda place: place.name == "ch"
        case TurningChain():
            return lambda place: place.turning
        case Gap():
            return lambda place: place.sort == "gap" and not place.marks
        case StitchGroup():
            return lambda place: False
        case Marked(key=key):
            return lambda place: key in place.marks
        case _:
            assert_never(name)


def spoken(names: tuple[PlaceName, ...]) -> str:
    """Names of places as a crocheter says them: "dc", "ch-2 sp", "sts"."""
    return " or ".join(_spoken(name) for name in names)


def _spoken(name: PlaceName) -> str:
    match name:
        case AnyStitch():
            return "st"
        case NamedStitch(name=stitch):
            return stitch
        case Space(chains=chains):
            return "ch sp" if chains is None else f"ch-{chains} sp"
        case OneChain():
            return "ch"
        case TurningChain():
            return "turning ch"
        case Gap():
            return "sp between"
        case StitchGroup(size=size, stitch=stitch, name=named):
            return f"{size}-{stitch} group" if size else (named or "group")
        case Marked():
            return "place inside a group"
        case _:
            assert_never(name)
