"""Records of what stands on a page beside the instructions: pictures, and where makers ask.

Takes     nothing: records only.
Gives     ``Picture``, ``Ask``.
Problems  none.
From      design.md, "A pattern file": ``pictures``; ``studio.yaml``: ``ask``.
"""

from __future__ import annotations

from workeven.problems import Span
from workeven.records import record


@record
class Picture:
    """A picture of a pattern: the name of its file beside the pattern's, and what it shows."""

    file: str
    alt: str
    span: Span


@record
class Ask:
    """Where makers ask about a row: a mail address, or a web address with places in braces.

    ``places`` are the names in braces, each once: some of ``ask.PLACES``. What is put in a place
    is to be escaped as a part of an address.
    """

    address: str
    mail: bool
    places: tuple[str, ...]
