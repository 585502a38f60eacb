"""The records of care.

Takes     nothing: records only.
Gives     ``Care``, ``Treatment``.
Problems  none.
From      design.md, "A pattern file": ``care``; ISO 3758, the groups and their order.
"""

from __future__ import annotations

from typing import Literal

from workeven.problems import Span
from workeven.records import record


@record
class Treatment:
    """One treatment, by its group and its word in ``standards/care.csv``."""

    group: Literal["wash", "bleach", "dry", "iron", "professional"]
    word: str
    span: Span


@record
class Care:
    """How the finished thing is cared for: treatments in the order of the standard, and words.

    ``told``: treatments that free words speak of; they are printed in these words and no others.
    """

    treatments: tuple[Treatment, ...]
    note: str
    told: tuple[Treatment, ...] = ()
