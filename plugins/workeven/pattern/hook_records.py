"""The record of a hook.

Takes     nothing: a record only.
Gives     ``GivenHook``.
Problems  none.
From      design.md, "A pattern file": ``gauge``, ``hooks``.
"""

from __future__ import annotations

from fractions import Fraction

from workeven.problems import Span
from workeven.records import record


@record
class GivenHook:
    """A hook as a file gives it: in mm, and the name beside it ("" where there is none).

    ``of`` is the gauge, or what else is worked with it.
    """

    of: str
    mm: Fraction
    name: str
    span: Span
