"""Rows by their name or from one to another, and how many there are said to be then.

Takes     ``Stream``.
Gives     ``named_rows``, ``lettered``, ``of_a_part``, ``from_row_to_row``, ``from_row_on``,
          ``yarn_joined``, ``rows_given``.
Problems  none.
From      notation.md, "Labels" ("``rep Dec rnd`` means that row") and "Whole pieces".

Worked example: "Work 5 more cuff rounds" works the row labelled "Cuff round" five times.
"""

from __future__ import annotations

import re

from workeven.notation.asides import names_part
from workeven.notation.expressions import ignoring_case
from workeven.notation.lengths import until_of
from workeven.notation.stream import Stream
from workeven.notation.tree import Amount, RowRef, RowsCount, RowsUntil, Stated
from workeven.notation.vocabulary import HEIGHTS
from workeven.records import replace

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


#: a row from which all are repeated that were worked since, and how often or how long
_FROM_ON = (
    r"rep(?:eat)? from (?:the )?(?:beg(?:inning)? of (?:the )?)?"
    r"(?:(?:\d+(?:st|nd|rd|th)|second|third|fourth|fifth|sixth) (?:row|rnd|round)|"
    r"(?:row|rnd|round) \d+)(?P<on> on(?:wards?)?)?"
    r"(?=\s*,?\s*(?:for\b|until\b|till\b|to (?:the )?(?:length|desired|required)|"
    r"(?:\d+|two|three|four|five|six|seven|eight|nine|ten) (?:more )?times\b|twice\b|once\b))"
)


def from_row_on(stream: Stream) -> bool:
    """Pass "repeat from" where one row is named behind it: it and all that were worked since.

    Takes: Repeat from 2nd row for length required
    Refuses: Repeat from * twice
    """
    if stream.said.isdisjoint(("row", "rnd")):
        return False
    found = ignoring_case(_FROM_ON).match(stream.text, stream.start)
    if found is None:
        return False
    if found["on"]:
        stream.leave_out(*found.span("on"))
    stream.take()
    stream.take()
    stream.articles()
    if stream.is_word("beg"):
        stream.take()
        stream.accept("of")
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
    if (next_ones := _next_as(stream)) is not None:
        return next_ones
    found = ignoring_case(_ROWS_BY_NAME).match(stream.text, stream.ahead().start)
    if found is None:
        return None
    mark = stream.here()
    if any(one.word in HEIGHTS for one in stream.tokens[stream.at + 1 : stream.at + 5]):
        return None  # "2 more sc rows" need no name
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


#: rows by their letters
_LETTERED = (
    r"(?P<word>rows?|rnds?|rounds?) (?P<letters>(?-i:[A-Z]\b(?:(?:, and |, | and | & )[A-Z]\b)+))"
)


def lettered(stream: Stream) -> list[RowRef]:
    """``Rows A and B``: each by its name.

    Takes: Rows A and B
    Refuses: Rows 2 and 3
    """
    if not stream.is_word("row", "rnd"):
        return []
    found = ignoring_case(_LETTERED).match(stream.text, stream.start)
    if found is None:
        return []
    stream.pass_to(found.end())
    word = found["word"].rstrip("s")
    return [RowRef(name=f"{word} {one}") for one in re.findall(r"\b[A-Z]\b", found["letters"])]


#: whose rows they are, where parts have rows of the same numbers
_OF_A_PART = (
    r"\s+(?:of|from|for) (?:the )?(?P<name>(?!patt|main\b|each\b|every\b|all\b|this\b|these\b|"
    r"length\b|first (?:row|rnd|round)\b|[a-z]+ (?:row|rnd|round)s?\b|about\b|a\b|an\b)"
    r"[a-z]+(?: [a-z]+){0,2}?)(?=\s*(?:[,;.(–—:]|\Z|\d|once\b|twice\b|until\b|but\b))"
)


def of_a_part(stream: Stream, rows: list[RowRef]) -> list[RowRef]:
    """``Rows 3-6 of first shoulder``: those of the part that is so named.

    Takes: of first shoulder
    Refuses: of the pattern
    """
    if stream.at_end() or not stream.is_word("of", "from", "for"):
        return rows
    numbered = all(row.first is not None and row.name is None and not row.onward for row in rows)
    found = ignoring_case(_OF_A_PART).match(stream.text, stream.tokens[stream.at - 1].end)
    if found is None or not numbered:
        return rows
    if not stream.is_word("of") and not names_part(found["name"]):
        return rows
    stream.pass_to(found.end())
    return [replace(row, name=found["name"]) for row in rows]


#: so many rows that are worked as one that is named
_NEXT_AS = (
    r"work (?:the )?(?:next|following|foll) "
    r"(?=\d|one\b|two\b|three\b|four\b|five\b|six\b|seven\b|eight\b|nine\b|ten\b)"
)


def _next_as(stream: Stream) -> tuple[RowRef, RowsUntil] | None:
    """``Work the next 3 rnds as Rnd 2``, ``… as Rib rnd``.

    Takes: Work the next 3 rnds as Rnd 2
    Refuses: Work next 3 sts
    """
    found = ignoring_case(_NEXT_AS).match(stream.text, stream.start)
    if found is None:
        return None
    mark = stream.here()
    stream.pass_to(found.end())
    count = stream.amount()
    ref = None
    if stream.accept_any("row", "rnd") and stream.accept("as"):
        stream.accept_any("given", "described", "written", "set")
        stream.accept_any("for", "in")
        stream.articles()
        ref = _row_named(stream)
    if ref is None or not (stream.at_end() or stream.token.kind == "mark"):
        stream.back_to(mark)
        return None
    return ref, RowsCount(count)


def _row_named(stream: Stream) -> RowRef | None:
    """A row by its number, or by its name.

    Takes: Rnd 2
    Refuses: 2 sts
    """
    if stream.is_word("row", "rnd") and stream.ahead().kind == "num":
        word = stream.take().word
        token = stream.take()
        number = Amount((token.value,), None, token.start, token.end)
        return RowRef("Row" if word == "row" else "Rnd", number)
    start = stream.start
    while stream.token.kind == "word" and not stream.is_word("row", "rnd"):
        stream.take()
    if stream.start == start or not stream.accept_any("row", "rnd"):
        return None
    return RowRef(name=stream.text[start : stream.end])


#: how many rows there are then: of the piece, or of a part that is named
_GIVEN = (
    r"\s*[,;:–—-]?\s*"
    r"(?:(?P<bracket>[(\[])(?:now )?|(?:giving|making|for|to give|to make)(?: you)? )"
    r"(?P<total>a total of )?"
    r"(?=(?:\d+(?: ?\([\d, –-]+\))*) (?P<part>(?!more|further|extra|additional)[a-z]+ )?"
    r"(?P<rows>rows?|rnds?|rounds?)(?P<what> of [a-z]+)?"
    r"(?(total)| (?:in all|in total|altogether|all together|total))\b)"
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
    of_what = bool(stream.accept("of")) and bool(stream.take())
    while stream.accept_any(*_IN_ALL):
        pass
    if found["bracket"] and not stream.accept_any(")", "]"):
        raise stream.fault(mend="write “(20 rows in all)”")
    if found["part"] is None and not of_what:
        return number
    unit = f"?{found['part'] or ''}{found['rows']}{found['what'] or ''}"
    stream.told_count = Stated(((number, unit),), start, stream.end)
    return None
