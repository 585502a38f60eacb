"""A second reading: another way in which the words of a row can be meant.

Takes     nothing: a record only.
Gives     ``Reading``.
Problems  none.
From      notation.md, "Two readings".
"""

from __future__ import annotations

from workeven.notation.tree import Step
from workeven.records import record


@record
class Reading:
    """One other way to read a row: the words of the default, its own words, its steps.

    ``everywhere``: it is a way to read the row only if the default fails in every size. A row
    that stops early in one size of nine is the mistake that is looked for, and no reading.
    ``tacit``: it is what holds where no other row says anything, of which no advice is given.
    ``against``: it takes a chain that counts by the table for none, and goes after those that leave
    it what it is.
    """

    default: str
    taken: str
    steps: tuple[Step, ...]
    everywhere: bool = False
    tacit: bool = False
    against: bool = False
