"""Names that the folder of a pattern had before: each is an old address of its page.

Takes     the value of ``formerly``; for ``taken``, those of all patterns of a collection.
Gives     ``former_names``, ``taken``.
Problems  ``former-name``, ``former-taken``.
From      design.md, ``formerly``: old folder names, each a redirect.

An address leads to one page, so a former name is nobody's name today, and that of one pattern only.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from workeven.pattern.reading import Reading
from workeven.pattern.records import Text
from workeven.problems import Note, Problem
from workeven.problems.words import quote
from workeven.source import Node
from workeven.source.collection import LONGEST_SLUG, SLUG, is_device


def former_names(reading: Reading, node: Node, slug: str) -> tuple[Text, ...]:
    """The names, in the order of the file; what cannot be one is told and left out."""
    found: dict[str, Text] = {}
    for name in reading.texts(node):
        if not SLUG.fullmatch(name.text) or is_device(name.text) or len(name.text) > LONGEST_SLUG:
            reading.problem(
                "former-name",
                name.span,
                f"{quote(name.text)} cannot have been the address of a page.",
                expected="Lowercase letters a to z, digits and single hyphens, "
                f"at most {LONGEST_SLUG}.",
                mend="Write the name that the folder had, without a path before it.",
            )
        elif name.text == slug:
            told = f"{quote(slug)} is what the folder of this pattern is called today."
            reading.problem("former-taken", name.span, told, expected=_NOBODYS, mend=_LEAVE_OUT)
        elif name.text in found:
            told = f"{quote(name.text)} is listed twice."
            reading.problem("former-taken", name.span, told, expected=_NOBODYS, mend=_LEAVE_OUT)
        else:
            found[name.text] = name
    return tuple(found.values())


def taken(formerly: Iterable[tuple[Text, ...]], folders: Iterable[str]) -> Iterator[Problem]:
    """Former names that two patterns claim; ``formerly``: each one's, ``folders``: of today."""
    today, claimed = set(folders), dict[str, Text]()
    for names in formerly:
        for name in names:
            if name.text in today:
                yield _taken(name, f"{quote(name.text)} is the folder of another pattern today.")
            elif first := claimed.get(name.text):
                told = f"{quote(name.text)} is a former name of two patterns."
                yield _taken(name, told, Note(span=first.span, message="It is claimed here."))
            else:
                claimed[name.text] = name


_NOBODYS = "A name that no pattern has today, and that one alone had before."
_LEAVE_OUT = "Leave it out."


def _taken(name: Text, found: str, *notes: Note) -> Problem:
    return Problem(
        code="former-taken",
        span=name.span,
        found=found,
        expected=_NOBODYS,
        mend="Decide to which page the old address shall lead, and leave it out of the other.",
        notes=notes,
    )
