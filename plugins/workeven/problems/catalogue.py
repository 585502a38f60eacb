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
    # row-: notation and proof
    "row-not-understood": (ERROR, "A phrase of the row is not understood."),
    "row-uneven": (ERROR, "The row does not come out: stitches are left over or missing."),
}


def severity(code: str) -> Severity:
    """The severity of a code; a code that is not in the catalogue is a bug (KeyError)."""
    return CATALOGUE[code][0]
