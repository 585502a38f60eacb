"""Where makers ask a studio about a row.

Takes     the value of ``ask`` in a studio's file.
Gives     ``ask``: ``Ask``; ``PLACES``.
Problems  ``link-address``, ``link-place``.
From      design.md, ``studio.yaml``.

A page fills the places of a web address (``https://studio.example/ask?about={pattern}``) with what
the maker has before her. The host is the studio's alone: no place may stand before the first slash
behind it. A mail address has no places, since a page writes subject and text itself.
"""

from __future__ import annotations

import re

from workeven.pattern.page_records import Ask
from workeven.pattern.reading import Reading, words
from workeven.problems.words import did_you_mean, joined, quote
from workeven.source import Node

#: What a page can fill in.
PLACES = ("pattern", "version", "piece", "row", "size")

_MAIL = re.compile(r"[A-Za-z0-9._+-]+@(?:[A-Za-z0-9-]+\.)+[A-Za-z]{2,}")
_WEB = re.compile(r"https?://", re.IGNORECASE)
_BRACES = re.compile(r"\{([^{}]*)\}|[{}]")


def ask(reading: Reading, node: Node) -> Ask | None:
    """The address, None where it could not be read."""
    text = words(node)
    if _MAIL.fullmatch(text):
        return Ask(address=text, mail=True, places=())
    if not _WEB.match(text):
        _no_address(reading, node)
        return None
    if not _places_are_known(reading, node):
        return None
    if reading.address(node, inside=False, filled=_BRACES.sub("x", text)) is None:
        return None
    places = dict.fromkeys(found[1] for found in _BRACES.finditer(text))
    return Ask(address=text, mail=False, places=tuple(places))


def _no_address(reading: Reading, node: Node) -> None:
    reading.problem(
        "link-address",
        reading.source.span(node),
        f"{quote(words(node))} is no address at which makers can ask.",
        expected="A mail address such as `ask@studio.example`, or an address that begins with "
        "`https://` or `http://`.",
        mend="Write the mail address alone, or copy the address from the browser's address line.",
    )


def _places_are_known(reading: Reading, node: Node) -> bool:
    """Whether all that stands in braces can be filled; the first that cannot be is told."""
    text = words(node)
    host_ends = re.compile(r"[/?#]|\Z").search(text, text.index("//") + 2)
    assert host_ends is not None
    for found in _BRACES.finditer(text):
        if found.start() < host_ends.start():
            _told(reading, node, f"{quote(found[0])} stands in the name of the host.", _BEHIND)
        elif found[1] is None:
            _told(reading, node, f"A brace of {quote(text)} has no partner.", _IN_BRACES)
        elif found[1] not in PLACES:
            mend = did_you_mean(found[1], PLACES) or _IN_BRACES
            _told(reading, node, f"{quote(found[0])} is nothing that a page can fill in.", mend)
        else:
            continue
        return False
    return True


_KNOWN = joined((quote(f"{{{place}}}") for place in PLACES), "or")
_BEHIND = "Write the host in full, and the place behind it."
_IN_BRACES = "Write one of these words in braces, or leave the braces out."


def _told(reading: Reading, node: Node, found: str, mend: str) -> None:
    reading.problem(
        "link-place", reading.source.span(node), found, expected=f"{_KNOWN}.", mend=mend
    )
