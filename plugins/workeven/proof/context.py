"""What a walk must know of one size: its numbers, its stitches, how the piece is worked.

Takes     the amounts of a row and the counts of the pattern.
Gives     ``SizeContext``, ``Fault``.
Problems  none of its own: ``Fault`` becomes a problem in ``messages``.
From      notation.md, "Sizes".
"""

from __future__ import annotations

from collections.abc import Mapping
from fractions import Fraction

from workeven.arithmetic.formulas import Formula, FormulaFault
from workeven.arithmetic.printing import print_number
from workeven.notation.tree import Amount, Length, SpecialStitch
from workeven.notation.vocabulary import HEIGHTS
from workeven.records import field, record

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


@record
class SizeContext:
    """One size of a piece: ``index`` of ``sizes`` sizes, its counts and measurements by name.

    ``turning_chains`` holds what the file says of turning chains, by stitch. ``known`` are the
    formulas worked out so far, by their text: the same one stands in many rows. ``colours`` are
    the columns from which the row at hand goes on in another colour, where that is asked for: what
    it works is then kept apart by stretches (``making.in_stretch``).
    """

    index: int
    sizes: int
    counts: Mapping[str, int] = field(default_factory=dict)
    measurements: Mapping[str, Fraction] = field(default_factory=dict)
    special: Mapping[str, SpecialStitch] = field(default_factory=dict)
    turning_chains: Mapping[str, bool] = field(default_factory=dict)
    each_chain_counts: bool = False
    colours: tuple[int, ...] = ()
    known: dict[str, int] = field(default_factory=dict, init=False, compare=False, repr=False)

    def amount(self, amount: Amount) -> int | None:
        """The number in this size, None for a dash; raises ``Fault`` where it is not whole."""
        if amount.formula is not None:
            known = self.known.get(amount.formula.text)
            return self._computed(amount, amount.formula) if known is None else known
        values = amount.values
        value = values[0] if len(values) == 1 else self._listed(amount)
        if value is not None and value > MOST_STITCHES:
            raise Fault(
                "row-too-many",
                amount.start,
                amount.end,
                f"{value} is more than any piece has",
                mend=f"A number in a row is at most {MOST_STITCHES}.",
            )
        return value

    def _listed(self, amount: Amount) -> int | None:
        if len(amount.values) == self.sizes:
            return amount.values[self.index]
        raise Fault(
            "size-list",
            amount.start,
            amount.end,
            f"{len(amount.values)} numbers stand here, and there are {self.sizes} sizes",
        )

    def _computed(self, amount: Amount, formula: Formula) -> int:
        number = formula.whole(self.counts)
        if number is not None and 0 <= number <= MOST_STITCHES:
            self.known[formula.text] = number
            return number
        try:
            value = formula.count(self.counts)
        except FormulaFault as fault:
            raise Fault(
                "count-formula", amount.start, amount.end, fault.found, mend=fault.mend
            ) from fault
        whole = value.denominator == 1
        if not whole or not 0 <= value <= MOST_STITCHES:
            what = "" if whole else ", which is not a whole number of stitches"
            raise Fault(
                "count-not-whole",
                amount.start,
                amount.end,
                f"“{formula.text}” is {print_number(value)}{what}",
                mend="Change the formula or the counts in it so that every size gives a whole "
                "number.",
            )
        self.known[formula.text] = int(value)
        return int(value)

    def length(self, length: Length) -> Fraction:
        """A length of a row in mm; raises ``Fault`` where a formula cannot be worked out."""
        if length.formula is not None:
            try:
                return length.formula.length(self.measurements)
            except FormulaFault as fault:
                raise Fault(
                    "unit-formula", length.start, length.end, fault.found, mend=fault.mend
                ) from fault
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


def chain_counts(context: SizeContext, base: str) -> bool | None:
    """Whether a chain as high as a stitch counts as one, by what the file says, or by the table.

    None where practice is split.
    """
    said = context.turning_chains.get(base)
    if said is not None or base == "hdc":
        return said
    return HEIGHTS.get(base, 0) >= HEIGHTS["dc"]
