"""Rows by their name or from one to another, and how many there are said to be then.

Takes     ``Stream``.
Gives     ``named_rows``, ``from_row_to_row``, ``yarn_joined``, ``rows_given``.
Problems  none.
From      notation.md, "Labels" ("``rep Dec rnd`` means that row") and "Whole pieces".

Worked example: "Work 5 more cuff rounds" works the row labelled "Cuff round" five times.
"""

from __future__ import annotations

import re

from workeven.notation.expressions import ignoring_case
from workeven.notation.lengths import until_of
from workeven.notation.stream import Stream
from workeven.notation.tree import Amount, RowRef, RowsCount, RowsUntil, Stated

#: the first and the last of the rows that are repeated ("from the 2nd to the 5th row")
_FROM_TO = (
    r"rep(?:eat)? from (?:the )?(?:(?:\d+(?:st|nd|rd|th)|first|second|third|fourth|fifth|sixth)"
    r"(?: (?:row|rnd|round))? to (?:the )?(?:\d+(?:st|nd|rd|th)|second|third|fourth|fifth|sixth|"
    r"seventh|eighth|ninth|tenth) (?:row|rnd|round)|(?:row|rnd|round) \d+ (?:to|through|thru) )"
)


def from_row_to_row(stream: Stream) -> bool:
    """Pass "repeat from" where rows, first and last, are named behind it.

    Takes: Repeat from the 2nd to the 5th row
    Refuses: Repeat from * across
    """
    if ignoring_case(_FROM_TO).match(stream.text, stream.start) is None:
        return False
    stream.take()
    stream.take()
    return True


def yarn_joined(stream: Stream) -> None:
    """Pass "Join B," in front of rows that are repeated: nothing is worked by it."""
    mark = stream.at
    if stream.accept("join"):
        found = re.compile(_A_YARN).match(stream.text, stream.start)
        if found is not None:
            stream.pass_to(found.end())
            stream.accept_any(",", ";", ".")
            stream.accept_any("and", "then")
            if stream.is_word("rep", "work", "worked"):
                return
    stream.at = mark


#: a yarn by its letter or name ("B", "Navy", "colour C"), and what parts it from what is worked
_A_YARN = (
    r"(?:new )?(?:(?:colou?r|yarn) )?[A-Z]\w*\s*(?=[,;.]|(?:and|then)\b)|"
    r"(?:new )?(?:colou?r|yarn)\s*(?=[,;.])"
)
#: rows by their name, so many: "5 more cuff rounds"
_ROWS_BY_NAME = (
    r"(?:an(?:other)? )?(?:(?:\d+|one|two|three|four|five|six|seven|eight|nine|ten|eleven|twelve)"
    r"(?: ?\([\d, –-]+\))* )?(?:more |further )?"
    r"(?P<name>(?!in\b|even\b|plain\b|straight\b|as\b|the\b|to\b|of\b|more\b|last\b|rep)"
    r"[a-z]+(?: (?!in\b|the\b|of\b|to\b)[a-z]+)? (?:row|rnd|round))(?P<s>s?)\b"
)


def named_rows(stream: Stream) -> tuple[RowRef, RowsUntil] | None:
    """``Work 5 more cuff rounds``, ``Work cuff round four times``: rows by the name of the row.

    Takes: Work 5 more cuff rounds
    Refuses: Work 5 more rounds
    """
    if not stream.is_word("work") or stream.said.isdisjoint(("row", "rnd")):
        return None
    found = ignoring_case(_ROWS_BY_NAME).match(stream.text, stream.ahead().start)
    if found is None:
        return None
    mark = stream.here()
    stream.take()
    stream.accept_any("another", "an", "a")
    count = stream.amount() if stream.is_amount() else None
    stream.accept_any("more", "further")
    until: RowsUntil | None = None
    if stream.start == found.start("name") and (count is None) != bool(found["s"]):
        stream.pass_to(found.end())
        until = RowsCount(count) if count is not None else until_of(stream)
    if until is None or not (stream.at_end() or stream.token.kind == "mark"):
        stream.back_to(mark)
        return None
    return RowRef(name=found["name"]), until


#: how many rows there are then: of the piece, or of a part that is named
_GIVEN = (
    r"\s*[,;:–—-]?\s*(?:giving|making|for|to give|to make)(?: you)? (?:a total of )?"
    r"(?=(?:\d+(?: ?\([\d, –-]+\))*) (?P<part>(?!more|further|extra|additional)[a-z]+ )?"
    r"(?P<rows>rows?|rnds?|rounds?) (?:in all|in total|altogether|all together|total)\b)"
)
_IN_ALL = ("in", "all", "total", "altogether", "tog")


def rows_given(stream: Stream) -> Amount | None:
    """``, giving 20 rows in all``: held against the number of the last row; of a part only told.

    Takes: , giving 20 rows in all
    Refuses: , giving 20 sc in all
    """
    if stream.said.isdisjoint(("row", "rnd")) or stream.said.isdisjoint(_IN_ALL):
        return None
    found = ignoring_case(_GIVEN).match(stream.text, stream.end)
    if found is None:
        return None
    stream.pass_to(found.end())
    start, number = stream.start, stream.amount()
    while not stream.accept_any("row", "rnd"):
        stream.take()
    while stream.accept_any(*_IN_ALL):
        pass
    if found["part"] is None:
        return number
    unit = f"?{found['part']}{found['rows']}"
    stream.rows_of_part = Stated(((number, unit),), start, stream.end)
    return None
