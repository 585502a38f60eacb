"""Lists by size, as the trade writes them: ``80 (88, 96, 104) (112, 120)``, ``S (M, L)``.

Takes     the text of a scalar.
Gives     its items, each with its offset.
Problems  none of its own: ``QuantityFault`` is turned into a problem by whoever knows the place.
From      design.md, "Values by size"; notation.md, "Sizes".
"""

from __future__ import annotations

import re

from workeven.arithmetic.units import QuantityFault
from workeven.problems.words import quote

_TIGHT_COMMA = re.compile(r"[0-9]+,[0-9]+")


def by_size(text: str) -> tuple[tuple[str, int], ...]:
    """The items of a trade list, each with its offset; a lone value is a list of one.

    >>> by_size("S (M, L)")
    (('S', 0), ('M', 3), ('L', 6))
    >>> [item for item, at in by_size("80 (88, 96, 104) (112, 120)")]
    ['80', '88', '96', '104', '112', '120']
    """
    items, tail, tail_at = split(text)
    if tail:
        raise QuantityFault(
            f"{quote(tail)} stands after the last bracket.",
            at=tail_at,
            end=tail_at + len(tail),
            mend="Write the first size, then the others in brackets: 80 (88, 96, 104).",
        )
    return items


def split(text: str) -> tuple[tuple[tuple[str, int], ...], str, int]:
    """The items of a list by size with their offsets, and what stands behind the last bracket."""
    opened = text.find("(")
    first = text if opened < 0 else text[:opened]
    if ")" in first:
        raise _bracket(text, first.index(")"), "A bracket is closed that was never opened.")
    if ", " in first.strip():
        raise _bracket(text, first.index(", "), "Sizes are listed without brackets.")
    if opened < 0:
        return (_item(text, 0, len(text)),), "", len(text)
    items: list[tuple[str, int]] = []
    if first.strip():
        items.append(_item(text, 0, opened))
    at = opened
    while at < len(text) and text[at] == "(":
        closed = _closing(text, at)
        items.extend(_inside(text, at + 1, closed))
        at = closed + 1
        while at < len(text) and text[at] in " \u00a0\u202f,":
            at += 1
    tail = text[at:].rstrip()
    if "(" in tail or ")" in tail:
        raise _bracket(text, at, f"{quote(tail)} stands between the brackets of the list.")
    return tuple(items), tail, at


def _inside(text: str, start: int, end: int) -> list[tuple[str, int]]:
    """The items between two brackets, at the commas; ``(20,5, 22)`` is not split, but asked about.

    A comma without a blank beside commas with one is rather a decimal comma.
    """
    inside = text[start:end]
    if ", " in inside and (tight := _TIGHT_COMMA.search(inside)):
        raise QuantityFault(
            f"{quote(tight[0])} has a comma without a blank, unlike the others of the list.",
            at=start + tight.start(),
            end=start + tight.end(),
            mend=f"Was {tight[0].replace(',', '.')} meant? Two sizes are written "
            f"{tight[0].replace(',', ', ')}.",
        )
    items = []
    for part in inside.split(","):
        items.append(_item(text, start, start + len(part)))
        start += len(part) + 1
    return items


def _item(text: str, start: int, end: int) -> tuple[str, int]:
    """One item without the blanks around it, and where it starts."""
    raw = text[start:end]
    bare = raw.strip()
    if not bare:
        raise QuantityFault(
            "A place in the list of sizes is empty.",
            at=start,
            end=max(end, start + 1),
            mend="Write one value for each size, separated by commas: 80 (88, 96, 104).",
        )
    return bare, start + len(raw) - len(raw.lstrip())


def _closing(text: str, opened: int) -> int:
    """Where the bracket opened there is closed."""
    closed = text.find(")", opened)
    inner = text.find("(", opened + 1)
    if closed < 0:
        raise _bracket(text, opened, "A bracket is opened and never closed.")
    if 0 <= inner < closed:
        raise _bracket(text, inner, "A bracket is opened inside another one.")
    return closed


def _bracket(text: str, at: int, found: str) -> QuantityFault:
    return QuantityFault(
        found,
        at=at,
        end=min(at + 1, len(text)),
        mend="Write the first size, then the others in brackets: 80 (88, 96, 104) (112, 120).",
    )
