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
    "gauge-no-rows": (ERROR, "Rows are counted in a gauge that holds stitches only."),
    "gauge-zero": (ERROR, "A gauge holds a zero."),
    "name-circle": (ERROR, "Measurements or counts are made from each other, in a circle."),
    "name-twice": (ERROR, "A measurement has the name of a body measurement."),
    "name-unknown": (ERROR, "A name is used that nothing has."),
    "size-falls": (ADVICE, "A body measurement falls from one size to the next."),
    "size-no-length": (ERROR, "A measurement that is counted over is not above zero."),
    "size-order": (ERROR, "A count makes a larger size smaller than the one before it."),
    "unit-formula": (ERROR, "A formula cannot be read or worked out."),
    # row-: notation and proof
    "row-not-understood": (ERROR, "A phrase of the row is not understood."),
    "row-uneven": (ERROR, "The row does not come out: stitches are left over or missing."),
}


def severity(code: str) -> Severity:
    """The severity of a code; a code that is not in the catalogue is a bug (KeyError)."""
    return CATALOGUE[code][0]
