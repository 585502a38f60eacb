"""One mistake, one message: what many rows have in common is told with the first of them.

Takes     problems, in the order of the rows.
Gives     ``told_once``.
Problems  none of its own.
From      house-style.md, rule 13.
"""

from __future__ import annotations

from collections.abc import Iterable

from workeven.problems.record import Note, Problem
from workeven.records import replace

#: how many other rows with the same mistake are shown
_MOST_NOTES = 3


def told_once(problems: Iterable[Problem]) -> list[Problem]:
    """Problems that name the same ``mistake`` among their figures as one: the first.

    The places of the others stand beside it, three of them at most.
    """
    told: list[Problem] = []
    at: dict[str, int] = {}
    for problem in problems:
        mistake = dict(problem.figures).get("mistake", ("",))[0]
        if not mistake:
            told.append(problem)
        elif mistake not in at:
            at[mistake] = len(told)
            told.append(problem)
        else:
            first = told[at[mistake]]
            if len(first.notes) < _MOST_NOTES:
                note = Note(span=problem.span, message="So it is here.")
                told[at[mistake]] = replace(first, notes=(*first.notes, note))
    return told
