"""Every code that workeven can report: its severity and one line.

Takes     nothing.
Gives     ``CATALOGUE``, ``severity``.
Problems  all of them.
From      the pages beside it, ``problems/pages/CODE.md``, say what, why, and show it.

A code names the fault and lives for ever; a retired one keeps its page.
"""

from __future__ import annotations

from workeven.problems.record import Severity

ERROR, ADVICE = Severity.ERROR, Severity.ADVICE

#: code: (severity, one line). Sorted by family, then by code.
CATALOGUE: dict[str, tuple[Severity, str]] = {
    # count-, gauge-, size-: grading
    "count-impossible": (ERROR, "No number is what the count asks for."),
    "count-negative": (ERROR, "A count made from others is less than zero."),
    "count-not-whole": (ERROR, "A count made from others is not whole in every size."),
    "count-off": (ERROR, "A count measures too much or too little of what is wanted."),
    "gauge-missing": (ERROR, "A count names a gauge that the pattern does not give."),
    "gauge-no-rows": (ERROR, "Rows are asked for and the gauge holds stitches only."),
    "gauge-zero": (ERROR, "A gauge holds a zero."),
    "name-circle": (ERROR, "Measurements or counts are made from each other, in a circle."),
    "name-twice": (ERROR, "A measurement has the name of a body measurement."),
    "name-unknown": (ERROR, "A name is used that nothing has."),
    "size-falls": (ADVICE, "A body measurement falls from one size to the next."),
    "size-no-length": (ERROR, "A measurement that is counted over is not above zero."),
    "size-order": (ERROR, "A count makes a larger size smaller than the one before it."),
    "unit-formula": (ERROR, "A formula cannot be read or worked out."),
    # yarn-: amounts
    "yarn-empty-swatch": (ERROR, "A swatch has no stitches but chains."),
    "yarn-no-swatch": (ADVICE, "A yarn has no weighed swatch, so it has no amount."),
    "yarn-open-rows": (ADVICE, "How many rows are worked is open, so a yarn has no amount."),
    "yarn-unknown-stitch": (ADVICE, "No swatch tells what a stitch takes, so a yarn has no amount."),
    "yarn-unused": (ADVICE, "A yarn is given that no section is worked in."),
    "yarn-zero": (ERROR, "A swatch weighs nothing, or a put-up holds a zero."),
    # row-, count-: notation and proof
    "count-formula": (ERROR, "A formula in a row cannot be worked out over the counts."),
    "count-not-reached": (ERROR, "Rows are repeated until a count that they never reach."),
    "count-stated": (ERROR, "A stated count is not what the row makes."),
    "count-unit": (ERROR, "A count is stated in a unit that the row does not make."),
    "row-decrease": (ERROR, "A decrease is worked over another number of stitches than its own."),
    "row-no-such-place": (ERROR, "A row works into a place that the row before does not have."),
    "row-no-such-row": (ERROR, "A row repeats a row that is not there."),
    "row-number": (ERROR, "A written row number is not the row's number."),
    "row-off-length": (ERROR, "Whole rows do not come near enough to the length asked for."),
    "row-open-ring": (ERROR, "An open repeat is worked into a ring, which has no stitches."),
    "row-past-length": (ERROR, "The piece is longer already than the length asked for."),
    "row-reading": (ADVICE, "A row comes out only when it is read in its second way."),
    "row-side": (ERROR, "A written right or wrong side is not the row's side."),
    "row-start-option": (ERROR, "What is there before the first row is not understood."),
    "row-stitch-option": (ERROR, "A stitch given to the command is not explained."),
    "row-takes-nothing": (ERROR, "An open repeat takes up no stitch."),
    "row-too-long": (ERROR, "A row has too many characters."),
    "row-too-many": (ERROR, "A number in a row is larger than any piece."),
    "row-turning-chain": (ADVICE, "Whether the turning chain before hdc counts is not said."),
    "size-list": (ERROR, "A list by size has another length than the list of sizes."),
    "size-unknown": (ERROR, "A size is named that the pattern does not have."),
    "unit-length": (ERROR, "A length cannot be read."),
    "row-not-understood": (ERROR, "A phrase of the row is not understood."),
    "row-uneven": (ERROR, "The row does not come out: stitches are left over or missing."),
}


def severity(code: str) -> Severity:
    """The severity of a code; a code that is not in the catalogue is a bug (KeyError)."""
    return CATALOGUE[code][0]
