"""Which sizes work a row: "sizes S–L only:", "Rnd 6, sizes M and L only:", "All sizes, next rnd:".

Takes     ``Stream``.
Gives     ``only_sizes``.
Problems  ``size-unknown``, as ``NotUnderstood``.
From      notation.md, "Sizes".
"""

from __future__ import annotations

import re

from workeven.notation.expressions import ignoring_case
from workeven.notation.stream import NotUnderstood, Stream


def only_sizes(stream: Stream) -> tuple[tuple[str, str], ...] | None:
    """``sizes S–L only:``, ``size 2X only:``, ``M and L only:``, ``Large only:``, ``Size L:``.

    Takes: sizes S–L only:
    Refuses: sizes only
    """
    colon = stream.text.find(":", stream.start)
    if colon < 0:
        return None
    head = stream.text[stream.start : colon]
    sizes = stream.vocabulary.sizes
    if "size" in stream.folded or "only" in stream.said or (sizes and _names_sizes(head, sizes)):
        beside = _beside_label(stream, head)
        if beside is not None or stream.text.find(":", stream.start) != colon:
            return beside
        head = stream.text[stream.start : colon]
    plain = "size" not in stream.folded and "only" not in stream.said
    if plain and (head[-3:].lower() in _ROWS or stream.is_word("row", "rnd", "r")):
        return None  # "Wave rnd:", "Rnd 3:", which most rows with a colon are
    said = _SIZE_WORD.search(head) is not None
    bare = _are_sizes(head, sizes)
    if "only" not in head.lower().split() and not bare and not (said and _some_sizes(head, sizes)):
        return None
    found = _named_sizes(stream, head, said=said)
    if found is None:
        return None
    while not stream.at_end() and stream.start <= colon:
        stream.take()
    return found


#: how a label ends that is no size
_ROWS = ("row", "rnd", "und")


def _names_sizes(head: str, sizes: tuple[str, ...]) -> bool:
    """Whether a label may hold the name of a size behind its number ("Rnd 6 (M, L):")."""
    return ("(" in head or "," in head) and any(size in head for size in sizes)


def _are_sizes(words: str, sizes: tuple[str, ...]) -> bool:
    """Whether words are nothing but some of the sizes, not all, and no mere numbers."""
    ends = [_size_range(part.strip(), sizes) for part in _listed(words)]
    named = [_as_named(name, sizes) for pair in ends for name in pair]
    if not named or not all(name in sizes for name in named):
        return False
    return len(set(named)) < len(sizes) and not all(name.isdigit() for name in named)


def _named_sizes(stream: Stream, head: str, *, said: bool) -> tuple[tuple[str, str], ...] | None:
    """The sizes that "sizes S and M only" names, as pairs of ends; None where it names none.

    ``said``: the word "size" stands there, so that an unknown one is told.
    """
    sizes = stream.vocabulary.sizes
    parts = [_size_range(part.strip(), sizes) for part in _listed(head)]
    names = [_as_named(name, sizes) for ends in parts for name in ends]
    lettered = all(_LETTERS.fullmatch(name) for name in names)
    if not said and not lettered and not any(name in sizes for name in names):
        return None  # "Left side only:" is the name of a row
    found: list[tuple[str, str]] = []
    for ends in parts:
        known = [_as_named(name, sizes) for name in ends]
        for name, asked in zip(known, ends, strict=True):
            if sizes and name not in sizes:
                raise _unknown_size(stream, asked)
        found.append((known[0], known[-1]))
    return tuple(found)


def _listed(head: str) -> list[str]:
    """The sizes of a list, without the words around them."""
    return [part for part in re.split(r",|&|\band\b", _ONLY.sub("", head)) if part.strip()]


#: a row by its number or name, and for which sizes it is, before or behind that
_BESIDE = (
    r"(?:(?P<before>(?:all|both) sizes\s*[,:]\s*)(?=\w)|"
    r"(?P<lead>(?:for )?(?P<first>(?:sizes? )?[^:()]*? only)\s*[,;–—-]\s*)"
    r"(?=(?:next|rows?|rnds?|rounds?|r\d|\d+(?:st|nd|rd|th) (?:row|rnd|round))\b[^:]*:)|"
    r"(?P<label>(?:(?:rows?|rnds?|rounds?|r)\s*\d+(?:\s*(?:[-–—]|to)\s*\d+)?"
    r"(?:\s*\([\d\s,–—-]*\))*|"
    r"\d+(?:st|nd|rd|th) (?:row|rnd|round)|(?:[a-z]+ ){1,3}(?:rows?|rnds?|rounds?))"
    r"(?:\s*\((?:RS|WS)\))?)\s*(?P<told>[,;(–—-]?\s*(?:(?:for|the) )*"
    r"(?:(?P<all>(?:all|both) sizes)|(?P<names>(?:sizes? )?[^:()]*? only)|"
    r"(?P<some>sizes? [^:()]*?)|(?P<bare>[^:()]+?))\)?)\s*(?=:))"
)


def _beside_label(stream: Stream, head: str) -> tuple[tuple[str, str], ...] | None:
    """``Rnd 6, sizes M and L only:``, ``Rnd 6 (L only):``, ``All sizes, next rnd:``.

    What is said of the sizes is left out of the text, so that the label stands alone.

    Takes: Rnd 6, sizes M and L only:
    Refuses: Rnd 6 (RS only):
    """
    found = ignoring_case(_BESIDE).match(stream.text, stream.start, stream.start + len(head) + 1)
    if found is None:
        return None
    if found["before"] is not None or found["all"] is not None:
        stream.leave_out(*found.span("told" if found["before"] is None else "before"))
        return None
    if found["bare"] is not None and not _are_sizes(found["bare"], stream.vocabulary.sizes):
        return None
    words = found["names"] or found["some"] or found["first"] or found["bare"]
    said = _SIZE_WORD.search(words) is not None
    if found["some"] is not None and not _some_sizes(words, stream.vocabulary.sizes):
        return None
    sizes = _named_sizes(stream, words, said=said)
    if sizes is not None:
        stream.leave_out(*found.span("told" if found["lead"] is None else "lead"))
    return sizes


def _some_sizes(head: str, sizes: tuple[str, ...]) -> bool:
    """Whether "Size L", "Sizes S and M" stands there, and names some of the sizes, not all."""
    if _FOR_SIZES.match(head.strip()) is None or not sizes:
        return False
    ends = [_size_range(part.strip(), sizes) for part in _listed(head)]
    named = [_as_named(name, sizes) for pair in ends for name in pair]
    return all(name in sizes for name in named) and len(set(named)) < len(sizes)


_FOR_SIZES = re.compile(r"(?:for )?(?:the )?sizes?\b", re.IGNORECASE)
_SIZE_WORD = re.compile(r"\bsizes?\b", re.IGNORECASE)
#: what says that a row is for some sizes, besides their names
_ONLY = re.compile(r"\b(?:for |the )*(?:sizes?|only)\b", re.IGNORECASE)
_LETTERS = re.compile(r"\d{0,2}X{0,4}[SML]|\d{1,2}X")
#: sizes in full (common practice)
_IN_FULL = {
    "extra small": "XS",
    "x-small": "XS",
    "small": "S",
    "medium": "M",
    "large": "L",
    "extra large": "XL",
    "x-large": "XL",
}


def _as_named(name: str, sizes: tuple[str, ...]) -> str:
    """The size as the pattern names it, however it is written: ``Large`` for L, ``m`` for M."""
    lower = name.casefold()
    alike = (one for one in sizes if one.casefold() == lower)
    full = _IN_FULL.get(lower, "")
    short = {_IN_FULL[one.casefold()]: one for one in sizes if one.casefold() in _IN_FULL}
    return next(alike, full if full in sizes else short.get(name, name))


def _size_range(part: str, sizes: tuple[str, ...]) -> tuple[str, ...]:
    if part in sizes:
        return (part,)
    for dash in ("–", "—", "-", " to "):
        low, found, high = part.partition(dash)
        if found:
            return (low.strip(), high.strip())
    return (part,)


def _unknown_size(stream: Stream, name: str) -> NotUnderstood:
    from difflib import get_close_matches  # takes long to load: only for a size misspelt

    at = max(stream.text.find(name), 0)
    near = get_close_matches(name, stream.vocabulary.sizes, 1)
    known = ", ".join(stream.vocabulary.sizes)
    mend = f"did you mean “{near[0]}”? " if near else ""
    return NotUnderstood(
        at,
        at + len(name),
        f"there is no size “{name}”",
        f"{mend}the sizes are {known}",
        "size-unknown",
    )
