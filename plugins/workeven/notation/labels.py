"""What stands before the colon of a row: its number, its name.

Takes     ``Stream``.
Gives     ``label_of``, ``label_numbers``.
Problems  ``size-list``, as ``NotUnderstood``.
From      notation.md, "Labels".
"""

from __future__ import annotations

import re
from collections.abc import Callable
from itertools import pairwise
from typing import Literal

from workeven.notation.asides import NO_NAME, NO_PART, heading, names_part
from workeven.notation.expressions import ignoring_case
from workeven.notation.remarks import EACH_CHAIN
from workeven.notation.stated_counts import stated
from workeven.notation.stream import NotUnderstood, Stream
from workeven.notation.tokens import Token
from workeven.notation.tree import ONE, Amount, Label
from workeven.notation.vocabulary import kind_of
from workeven.notation.what_counts import what_is_a_stitch
from workeven.records import replace


def label_of(stream: Stream) -> Label | None:
    """``Rnd 3:``, ``Rows 4–6 (RS):``, ``Row 25-28 (25-32):``, ``Dec rnd:``, ``Heel: Row 1:``.

    Takes: Rows 4–6 (RS):
    Refuses: Rows four to
    """
    if stream.begins_with_stitch() and ":" not in stream.said and not stream.text.isupper():
        return None
    if stream.ahead(2).word in _AND_OTHERS and ":" in stream.said:
        alternate = _alternate_label(stream)
        if alternate is not None:
            return alternate
    numbered = _row_label(stream) or _label_in_brackets(stream)
    if numbered is not None:
        return numbered
    start = stream.start
    if (part := _part_label(stream)) is not None:
        return part
    if heading(stream):
        name = stream.text[start:].strip().rstrip(":").strip()
        return Label(None, None, None, name, None, start, stream.end, section=True)
    named = _named_label(stream) or _headed(stream)
    if named is None:
        return None
    inner = _row_label(stream)
    if inner is None:
        return named
    return replace(inner, name=inner.name or named.name, start=named.start, section=True)


def names_row(label: Label) -> bool:
    """Whether a label is that of a row, and not only of a part of the piece.

    >>> names_row(Label(name="Dec rnd")), names_row(Label(name="Sole and sides"))
    (True, False)
    """
    return label.word is not None or _ROW_WORD.search(label.name or "") is not None


_ROW_WORD = re.compile(r"\b(?:row|rnd|round)s?\b", re.IGNORECASE)
#: what stands behind the number of a row where others are told with it
_AND_OTHERS = ("and", "&", "+", ",", "/", "(")
#: rows that are told in one line and have others between them
_ALTERNATE = (
    r"(?P<word>rows?|rnds?|rounds?|r)\s*(?P<number>\d+)\s*[(,]?\s*(?:and|&|\+) ?"
    r"(?:all|every|each)\b(?P<which>[^:]{0,40}?)\b(?:rows?|rnds?|rounds?)\b[^:]{0,3}:"
)
#: which rows are meant: every second one
_SECOND = re.compile(
    r"\s*(?:of )?(?:the )?(?:(?:others?|foll(?:owing)?|subsequent|remaining|rem|further) ){0,3}"
    r"(?P<kind>even|odd|even[ -]numbered|odd[ -]numbered|ws|rs|wrong[ -]side|right[ -]side|"
    r"alt(?:ernate)?|other|second|2nd)\s+",
    re.IGNORECASE,
)


def _alternate_label(stream: Stream) -> Label | None:
    """``Row 2 and all WS rows:``: every second row from there on, where the numbers come to it.

    So are rows that are listed with others between them, each of them where it is due.

    Takes: Row 2 and all WS rows:
    Takes: Rows 3, 5 and 7:
    Refuses: Row 2 and all following rows:
    """
    if not stream.is_word("row", "rnd", "r"):
        return None
    text, start = stream.text, stream.start
    found = ignoring_case(_ALTERNATE).match(text, start)
    if found is None:
        several = _SOME_ROWS.match(text, start)
        end = start if several is None else max(text.find(":", start), start)
        numbers = [int(one) for one in re.findall(r"\d+", text[start:end])]
        if {after - one for one, after in pairwise(numbers)} <= {1}:
            return None
        if (listed := _listed_between(stream, numbers)) is not None:
            return listed
        raise _others_between(start, end)
    number = int(found["number"])
    which = _SECOND.match(found["which"])
    kind = "" if which is None else which["kind"].lower()
    if not kind or kind.startswith("odd" if number % 2 == 0 else "even"):
        raise _others_between(start, found.end())
    word, side = _ROWS.get(stream.token.word), _SIDES.get(kind[:2])
    first = Amount((number,), None, found.start("number"), found.end("number"))
    stream.pass_to(found.end())
    return Label(word, first, None, None, side, start, stream.end, alternate=True)


#: the whole label of such rows
_LISTED = re.compile(
    r"(?P<word>rows?|rnds?|rounds?|r)\s*\d+(?:\s*(?:,\s*and|,|and|&|/|\+)\s*\d+)+"
    r"(?:\s*\((?P<side>rs|ws|right side|wrong side)\))?\s*:",
    re.IGNORECASE,
)


#: rows that are told in one line lie no further apart
_MOST_BETWEEN = 1_000


def _listed_between(stream: Stream, numbers: list[int]) -> Label | None:
    """Rows told together that others stand between: by all their numbers."""
    found = _LISTED.match(stream.text, stream.start)
    if found is None or any(after <= one for one, after in pairwise(numbers)):
        return None
    if numbers[-1] - numbers[0] > _MOST_BETWEEN:
        return None  # what nobody writes: it stays refused
    start, word = stream.start, _ROWS.get(stream.token.word)
    side = _SIDES.get((found["side"] or "")[:2].lower())
    first = Amount((numbers[0],), None, start, found.end())
    stream.pass_to(found.end())
    return Label(
        word, first, side=side, start=start, end=stream.end, alternate=True, listed=tuple(numbers)
    )


_SIDES: dict[str, Side] = {"ws": "WS", "wr": "WS", "rs": "RS", "ri": "RS"}


def _others_between(start: int, end: int) -> NotUnderstood:
    return NotUnderstood(
        start,
        end,
        "it stands for rows that have others between them",
        "write the first of them out, and the others where they are due: “Row 4: rep Row 2”; or "
        "“Row 2 and all even rows”, with the numbers of those between",
    )


def _row_label(stream: Stream) -> Label | None:
    """A row by its number, or by its place among the rows.

    Takes: Next 2 rnds:
    Refuses: Dec rnd:
    """
    token = stream.token
    read = _BY_WORD.get(token.word if token.kind == "word" else token.kind)
    return None if read is None else read(stream)


#: a part of the piece in front of a row's number
_PART = (
    r"(?P<name>[^\W\d_][\w'’/& -]*?)(?:\s*\((?:make|work|both|worked)\b[^()]*\))?"
    r"\s*(?:[,;.–—-]?\s+|[–—])"
    r"(?=(?:rows?|rnds?|rounds?)\s*\d|r\d|(?:\d+(?:st|nd|rd|d|th)|first) (?:row|rnd|round)\b)"
)
_LONGEST_PART = 5


def _part_label(stream: Stream) -> Label | None:
    """``First shoulder, Row 63:``, ``LEG (make 2) Rnd 1:``: a part, and its row by number.

    Takes: First shoulder, Row 63:
    Refuses: Rep for sleeve, Row 63
    """
    if stream.token.kind not in ("word", "ord") or stream.said.isdisjoint(("row", "rnd", "r")):
        return None
    found = ignoring_case(_PART).match(stream.text, stream.start)
    if found is None or not (names_part(found["name"]) or _is_titled(found[0], found["name"])):
        return None
    mark, start = stream.here(), stream.start
    behind = stream.at
    stream.pass_to(found.end())
    words = stream.tokens[behind : stream.at]
    plain = all(one.kind in ("word", "ord", "num", "mark") for one in words)
    begins = words[0].word not in NO_PART and len(found["name"].split()) <= _LONGEST_PART
    inner = _row_label(stream) if plain and begins else None
    parted = stream.tokens[stream.at - 1].word in (":", ".", "-") and not stream.at_end()
    if inner is None or not (parted or stream.tokens[stream.at - 1].word == ":"):
        stream.back_to(mark)
        return None
    name = found["name"].strip()
    return replace(inner, name=inner.name or name, start=start, section=True)


def _is_titled(said: str, name: str) -> bool:
    """Whether words stand as a title in front of a row: "Veil, Rnd 14:", "First Point Row 1:"."""
    words = name.split()
    return name[:1].isupper() and ("," in said or all(word[:1].isupper() for word in words))


def _numbered_label(stream: Stream) -> Label | None:
    """A row number, or a range of them.

    Takes: Rows 4–6 (RS):
    Refuses: Rows four to six
    """
    mark = stream.here()
    start = stream.start
    if not stream.is_word("row", "rnd", "r"):
        return None
    dotted = stream.ahead().word == "." and stream.ahead(2).kind == "num"  # "Rnds. 6-8:"
    if not dotted and stream.ahead().kind not in ("num", "formula"):
        return None
    written = stream.take()
    stream.at += dotted
    first, last = label_numbers(stream)
    if written.plural:
        last = _listed(stream, first, last)
    part = _of_part(stream)
    side = _side(stream)
    name = part or _label_remark(stream)
    side = side or _side(stream)
    behind = stream.at
    if _label_ends(stream, side):
        bare = stream.at == behind and side is None
        if not (bare and last is not None and not written.plural):
            word = _ROWS.get(written.word)
            return Label(word, first, last, name, side, start, stream.end, section=part is not None)
    stream.back_to(mark)
    return None if last is None or written.plural else _dashed_label(stream)


#: the part of the piece that a row is the first, the second … of
_OF_PART = r"\s+(?:of|for) (?:the )?(?P<name>[a-z][a-z'’-]*(?: [a-z'’-]+){0,2}?)\s*(?=[.:;–—])"


def _of_part(stream: Stream) -> str | None:
    """``1st round of top.—``: the part, where a mark stands behind it.

    Takes: of top:
    Refuses: of 5 sc
    """
    if not stream.is_word("of", "for"):
        return None
    found = ignoring_case(_OF_PART).match(stream.text, stream.end)
    if found is None:
        return None
    stream.pass_to(found.end())
    return found["name"]


def _listed(stream: Stream, first: Amount, last: Amount | None) -> Amount | None:
    """``Rows 13, 14:``, ``Rows 4, 5 and 6``: behind the first number, those that follow it.

    Others have rows between them, and are left to be refused.

    Takes: , 14
    Refuses: , 16
    """
    if len(first.values) != 1 or first.formula is not None:
        return last
    value = (last or first).values[0]
    while True:
        mark = stream.at
        parted = stream.accept_any(",", "and", "&")
        if parted == ",":
            stream.accept_any("and", "&")
        token = stream.token
        follows = token.kind == "num" and token.value == (value or 0) + 1
        after = stream.ahead()
        counts = after.kind in ("stitch", "chn", "grp") or after.word in ("ch", "inc", "dec", "st")
        if not (parted and follows) or counts:  # "Rows 2, 3 sc in next st"
            stream.at = mark
            return last
        value = stream.take().value
        last = Amount((value,), None, token.start, token.end)


def _label_in_brackets(stream: Stream) -> Label | None:
    """``(Row 1)``, ``[Rnd 2]:``.

    Takes: (Row 1)
    Refuses: (Row 1 again)
    """
    if not stream.is_mark("(", "[") or stream.ahead().word not in ("row", "rnd"):
        return None
    mark, start, closing = stream.here(), stream.start, stream.closing()
    stream.take()
    word = stream.take().word
    if closing > 0 and stream.token.kind == "num":
        first, last = label_numbers(stream)
        if stream.at == closing:
            stream.take()
            stream.accept_any(":", ".", "-")
            return Label(_ROWS[word], first, last, None, None, start, stream.end)
    stream.back_to(mark)
    return None


_ROWS: dict[str, Literal["Row", "Rnd"]] = {"row": "Row", "rnd": "Rnd"}
#: words with which a row begins where nothing parts it from its number ("Rnd 2 inc around")
_BEGINNINGS = frozenset("ch sk inc dec rep join work mr magic with in turn".split())


def _label_ends(stream: Stream, side: Side | None) -> bool:
    """Pass what parts the label from the row: a colon, a stop, a dash, or nothing at all."""
    mark = stream.at
    while stream.is_mark("-"):
        stream.take()
    if stream.accept_any(":", ".", "=", ";", ")", "|"):
        if stream.tokens[stream.at - 1].word == ".":
            stream.accept("-")  # "1st round of top.—"
        return True
    if stream.at_end():
        return False
    token = stream.token
    begins = token.kind == "stitch" or (token.kind == "word" and token.word in _BEGINNINGS)
    begins = begins or (token.kind == "num" and stream.ahead().kind == "stitch")
    return side is not None or stream.at > mark or begins or stream.is_mark("*", "(", "[")


def _dashed_label(stream: Stream) -> Label | None:
    """``Rnd 1 – 5 sc in ring``: the dash parts the number from the row.

    Takes: Rnd 1 –
    Refuses: Rnd 1
    """
    start = stream.start
    word = stream.take().word
    token = stream.take()
    if token.kind != "num" or not stream.accept("-"):
        stream.at -= 2
        return None
    first = Amount((token.value,), None, token.start, token.end)
    return Label(_ROWS.get(word), first, None, None, None, start, stream.end)


def _ordinal_label(stream: Stream) -> Label | None:
    """``2nd row:``, ``3rd to 6th rnds:``.

    Takes: 2nd row:
    Refuses: 2nd ch from hook
    """
    mark, start = stream.at, stream.start
    numbers = ordinals(stream)
    if numbers is not None and stream.is_mark(".", "-", ":") and stream.ahead().kind != "end":
        while stream.accept_any(".", "-", ":"):  # "3rd.—"
            pass
        return Label(None, *numbers, None, None, start, stream.end)
    named = None if numbers is None else _row_of_part(stream)
    if numbers is not None and stream.is_word("row", "rnd"):
        word = _ROWS[stream.take().word]
        stream.accept_any("incl", "inclusive")
        part = _of_part(stream)
        side = _side(stream)
        name = part or named or _label_remark(stream)
        if _label_ends(stream, side):
            first = numbers[0].values == (1,)
            section = part is not None or (named is not None and first)
            return Label(word, *numbers, name, side, start, stream.end, section=section)
    stream.at = mark
    return None


#: what a line that begins with its number alone may be about, if it is a row
_OF_ROWS = frozenset("ch inc dec sk rep magic mr ring fasten work".split())


def _listed_label(stream: Stream) -> Label | None:
    """``3. sc in each st``, ``4-8) sc around``: rows in a list, by their numbers alone.

    Takes: 3.
    Refuses: 3 sc
    """
    mark, start = stream.at, stream.start
    if mark or stream.text[:start].strip():
        return None
    numbers = label_numbers(stream)
    dot, rest = stream.token, stream.tokens[stream.at + 1 :]
    parted = dot.word in (".", ")") and dot.kind == "mark" and dot.start == stream.end
    rows = len(rest) <= 1 or any(one.kind == "stitch" or one.word in _OF_ROWS for one in rest)
    if not parted or not rows or (len(rest) > 1 and rest[0].start == dot.end):
        stream.at = mark
        return None
    stream.take()
    return Label(None, *numbers, None, None, start, stream.end)


def _row_of_part(stream: Stream) -> str | None:
    """``1st scallop row``: the part between the number and the word, if it names one.

    Takes: scallop row
    Refuses: dec row
    """
    if stream.ahead().word not in ("row", "rnd") or not names_part(stream.text[stream.start :]):
        return None
    word = stream.text[stream.start : stream.token.end]
    if stream.token.kind != "word" or not names_part(word):
        return None
    stream.take()
    return word


def ordinals(stream: Stream) -> tuple[Amount, Amount | None] | None:
    """``2nd``, ``3rd to 6th``: first and last number.

    Takes: 3rd to 6th
    Refuses: 3
    """
    first = _ordinal(stream)
    if first is None:
        return None
    mark = stream.at
    both = stream.accept_any("-", "to", "and", "&")
    stream.articles()
    last = _ordinal(stream) if both else None
    following = last is not None and last.values[0] == (first.values[0] or 0) + 1
    if last is not None and (both in ("-", "to") or following):
        return first, last
    stream.at = mark
    return first, _ordinals_listed(stream, first)


def _ordinals_listed(stream: Stream, first: Amount) -> Amount | None:
    """``7th, 8th and 9th``: behind the first number, the last of those that follow it.

    Takes: , 8th and 9th
    Refuses: , 9th
    """
    mark, last = stream.at, first
    while stream.accept_any(",", "and", "&"):
        stream.accept_any("and", "&")
        after = _ordinal(stream)
        if after is None or after.values[0] != (last.values[0] or 0) + 1:
            break
        mark, last = stream.at, after
    stream.at = mark
    return None if last is first else last


def _ordinal(stream: Stream) -> Amount | None:
    """``2nd``; ``first`` before a row.

    Takes: 2nd
    Refuses: 2
    """
    token = stream.token
    if token.kind == "ord":
        stream.take()
        return Amount((token.value,), None, token.start, token.end)
    if stream.is_word("first") and stream.ahead().word in ("row", "rnd"):
        stream.take()
        return Amount((1,), None, token.start, token.end)
    return None


def _label_remark(stream: Stream) -> str | None:
    """``Row 3 (dec row):``, ``Rnd 13 (handles) -``, ``Rnd 19, eyelets:`` name the row besides."""
    if stream.is_mark(","):
        return _remark_behind_comma(stream)
    if not stream.is_mark("("):
        return None
    closing = stream.closing()
    if closing < 0 or stream.tokens[closing + 1].word not in (":", ".", "-"):
        return None
    name = stream.text[stream.token.end : stream.tokens[closing].start].strip()
    if stream.tokens[closing + 1].word == "-" and not names_part(name):
        return None  # "Rnd 2 (inc in each st) - 12"
    if "ch" in stream.said and EACH_CHAIN.fullmatch(f"({name})"):
        stream.each_chain = (stream.token.end, stream.tokens[closing].start)
        stream.at = closing + 1
        return None
    if what_is_a_stitch(stream, closing):
        return None
    if _HOW_MANY.fullmatch(name):
        stream.at = closing + 1
        return None
    if not name or not name[0].isalpha():
        return None
    stream.at = closing + 1
    return name


#: a name for a row, behind a comma: words that are no steps
_BEHIND_COMMA = re.compile(r",\s*(?P<name>[a-z]{4,}(?: [a-z]{3,}){0,2}):(?=\s)", re.IGNORECASE)


def _remark_behind_comma(stream: Stream) -> str | None:
    """``Rnd 19 (21), eyelets:``: the row has a name besides its number."""
    found = _BEHIND_COMMA.match(stream.text, stream.start)
    if found is None:
        return None
    mark = stream.at
    stream.pass_to(found.end("name"))
    if any(token.kind != "word" for token in stream.tokens[mark + 1 : stream.at]):
        stream.at = mark
        return None
    return found["name"]


#: what a range comes to, said besides: "Rounds 3-5 (3 rounds)"
_HOW_MANY = re.compile(r"\d+\s+(?:rounds?|rnds?|rows?)(?: (?:total|in all))?", re.IGNORECASE)


def _next_rows(stream: Stream) -> Label | None:
    """``Next 2 rnds:``, ``Next row:``, ``Last 16 (20) rows:``: so many rows, without a number.

    Takes: Next 2 rnds:
    Refuses: Next st
    """
    last = stream.is_word("last", "final") and stream.ahead().kind in ("num", "formula")
    if not (stream.is_word("next") or last) or ":" not in stream.text:
        return None
    mark = stream.here()
    start = stream.take().start
    count = stream.amount() if stream.is_amount() else ONE
    if stream.is_word("row", "rnd"):
        word = stream.take().word
        side = _side(stream)
        if stream.accept(":"):
            return Label(
                "Row" if word == "row" else "Rnd", None, None, None, side, start, stream.end, count
            )
    stream.back_to(mark)
    return None


#: the labels of rows by the word that they begin with (or by the kind of a token that is no word)
_BY_WORD: dict[str, Callable[[Stream], Label | None]] = {
    "row": _numbered_label,
    "rnd": _numbered_label,
    "r": _numbered_label,
    "ord": _ordinal_label,
    "num": _listed_label,
    "first": _ordinal_label,
    "next": _next_rows,
    "last": _next_rows,
    "final": _next_rows,
}


def label_numbers(stream: Stream) -> tuple[Amount, Amount | None]:
    """``3``, ``4-6``, ``25-28 (25-32)``, ``5 (7)``: first and last number of the label.

    Takes: 25-28
    """
    token = stream.take()
    if token.kind == "formula":
        stream.at -= 1
        return stream.amount(), None
    firsts: list[int | None] = [token.value]
    lasts: list[int | None] = [_dash_number(stream, token.value)]
    mark = stream.at
    brackets = _brackets_of_ranges(stream)
    if _is_a_count(stream, len(brackets) + 1):
        stream.at, brackets = mark, []
    if lasts[0] is not None and brackets and not any(high for _, high in brackets):
        firsts = firsts * (len(brackets) + 1)  # "Rows 3-28 (32, 36)": from 3 on in every size
        lasts.extend(low for low, _ in brackets)
    else:
        firsts.extend(low for low, _ in brackets)
        lasts.extend(high for _, high in brackets)
    if len(firsts) > 1 and not any(lasts) and (high := _dash_number(stream)) is not None:
        lasts = [high, *(low for low, _ in _brackets_of_ranges(stream))]
        lasts = lasts * len(firsts) if len(lasts) == 1 else lasts
    start, end = token.start, stream.end
    if len(lasts) != len(firsts):
        raise NotUnderstood(start, end, "the row numbers differ in how many sizes they name")
    if len(firsts) > 1 and not _fits_sizes(stream, len(firsts)):
        known = len(stream.vocabulary.sizes)
        raise NotUnderstood(
            start,
            end,
            f"{len(firsts)} numbers stand here, and there are {known} sizes",
            code="size-list",
        )
    first = Amount(tuple(firsts), None, start, end)
    if all(last is None for last in lasts):
        return first, None
    last = Amount(
        tuple(low if high is None else high for low, high in zip(firsts, lasts, strict=True)),
        None,
        start,
        end,
    )
    return first, last


def _is_a_count(stream: Stream, numbers: int) -> bool:
    """Whether brackets that end the row are its stated count ("rep Row 6 (13)")."""
    known = len(stream.vocabulary.sizes)
    ends = stream.at_end() or (stream.is_mark(".") and stream.ahead().kind == "end")
    return ends and numbers > 1 and (numbers == 2 if known == 0 else numbers != known)  # noqa: PLR2004, a pair


def _brackets_of_ranges(stream: Stream) -> list[tuple[int | None, int | None]]:
    """The ranges of all the other sizes, in one bracket or two.

    Takes: (32, 36)
    """
    found: list[tuple[int | None, int | None]] = []
    mark = stream.at
    while stream.is_mark("("):
        inside = _bracket_of_ranges(stream)
        if inside is None:
            stream.at = mark
            break
        found.extend(inside)
        mark = stream.at
    return found


def _fits_sizes(stream: Stream, count: int) -> bool:
    known = len(stream.vocabulary.sizes)
    return known in (0, count)


#: what stands between two rows that have none between them
_BOTH = ("and", "&", "/", "+")


def _dash_number(stream: Stream, first: int | None = None) -> int | None:
    """The last of several rows; "Rows 1 & 3" are two, and none is between them."""
    mark = stream.at
    joint = stream.accept_any("-", "to", "and", "&", "thru", "/", "+")
    if joint:
        stream.accept_any("row", "rnd", "r")
        next_one = first is None or stream.token.value == first + 1
        if stream.token.kind == "num" and (next_one or joint not in _BOTH):
            return stream.take().value
    stream.at = mark
    return None


def _bracket_of_ranges(stream: Stream) -> list[tuple[int | None, int | None]] | None:
    """The ranges of the other sizes, in brackets.

    Takes: (25-32, 25-36)
    Refuses: (each)
    """
    stream.take()
    found: list[tuple[int | None, int | None]] = []
    while True:
        if stream.token.kind == "num":
            low = stream.take().value
            found.append((low, _dash_number(stream)))
        elif stream.accept("-"):
            found.append((None, None))
        else:
            return None
        if stream.accept(")"):
            return found
        if not stream.accept(","):
            return None


Side = Literal["RS", "WS"]


def _side(stream: Stream) -> Side | None:
    """``RS``, ``(WS)``, ``right side``.

    Takes: (RS)
    Refuses: (60)
    """
    mark = stream.at
    bracket = stream.accept("(")
    side = side_word(stream)
    if side is not None and (not bracket or stream.accept(")")):
        return side
    stream.at = mark
    return None


def side_word(stream: Stream) -> Side | None:
    """The side of the fabric.

    Takes: wrong side
    Refuses: same side
    """
    if stream.accept("rs") or stream.accept("right", "side"):
        return "RS"
    if stream.accept("ws") or stream.accept("wrong", "side"):
        return "WS"
    return None


_NAME = re.compile(
    r"\s*(?P<name>[^\W\d_][^,;:*\[\]{}()]*?)\s*"
    r"(?:\((?:(?P<side>RS|WS)|(?P<besides>(?!\d)[^():]*))\)\s*)?:",
    re.IGNORECASE,
)


_NO_NAME = re.compile(r"(?:the )?(?:next|foll(?:owing)?) (?:row|rnd|round)", re.IGNORECASE)
_DECLARATION = re.compile(r"(?:sizes?\b.*|corner|(?:working|with)\b.*)\Z", re.IGNORECASE)


def _named_label(stream: Stream) -> Label | None:
    """A row named in words.

    Takes: Dec rnd:
    Refuses: sc in next st
    """
    found = _NAME.match(stream.text, stream.start) if ":" in stream.text else None
    if found is None and ":" in stream.text and "," in stream.said:
        found = _parts_named(stream.text, stream.start, stream.tokens)
    if found is None or _DECLARATION.match(found["name"].strip()) or _IN_RING.match(found["name"]):
        return None
    if _SOME_ROWS.match(found["name"]) or ignoring_case(_A_STEP).match(found["name"].strip()):
        return None
    if _SEVERAL.search(found["name"]) is not None and not names_part(found["name"]):
        return None  # "Lines 2-3": rows that are not known as such would be taken for one
    start, mark = stream.start, stream.at
    stream.pass_to(found.end())
    if _only_a_count(stream):
        stream.at = mark
        return None
    side: Side | None = None
    if found["side"]:
        side = "RS" if found["side"].upper() == "RS" else "WS"
    name = found["name"]
    if _NO_NAME.fullmatch(name) and found["besides"]:
        name = found["besides"].strip()  # "Next row (dec):" is the dec row
    return Label(None, None, None, name, side, start, stream.end)


#: a part of the piece as a heading in the line, parted by a stop or a dash: "THUMB. Join yarn …"
_HEADED = re.compile(
    r"\s*(?P<name>(?:\d(?:st|nd|rd|th) )?[A-Z][A-Za-z'’-]+(?: [A-Za-z'’-]+){0,2})"
    r"(?:\s*\((?:make|work|both)\b[^()]*\))?\s*"
    r"(?:(?:\.(?:\s*\.)*\s*[–—]?|[–—])\s*(?=[A-Z\d]|ch\b|\Z)|"
    r"\s[–—-]\s+(?=work(?:ed|ing)?\b))"
)
#: what such a heading may name besides the parts of a garment
_PIECES = re.compile(
    r"\b(?:motifs?|squares?|blocks?|medallions?|strips?|centers?|centres?|flowers?|rose|doily|"
    r"coaster|mat|bands?|ties?|cords?)\Z",
    re.IGNORECASE,
)


def _headed(stream: Stream) -> Label | None:
    """``THUMB. Join yarn …``, ``1st Motif. Ch 10``: a part, by a heading in the line itself.

    Takes: Border.
    Refuses: Turn. Ch 1
    """
    found = _HEADED.match(stream.text, stream.start)
    if found is None:
        return None
    name = found["name"].strip()
    capitals = name.isupper() and len(name) > len("TURN")
    if not (capitals or names_part(name) or _PIECES.search(name)):
        return None
    inside = [one for one in stream.tokens if stream.start <= one.start < found.end("name")]
    plain = all(one.kind in ("word", "ord") and one.word not in NO_PART for one in inside)
    if not plain or any(one.word in ("row", "rnd", "r") for one in inside[:-1]):
        return None
    start = stream.start
    if inside[-1].word in ("row", "rnd"):  # "Neck Row. Ch 1, …": a row by the name of its part
        stream.pass_to(found.end())
        return Label(None, None, None, name, None, start, stream.end)
    stream.pass_to(found.end())
    return Label(None, None, None, name, None, start, stream.end, section=True)


#: a part of the piece, and which of its sides or shapings is meant
_PARTS_NAMED = re.compile(
    r"\s*(?P<name>[A-Z][a-z'’-]*(?: [a-z'’-]+){0,3}, [a-z'’-]+(?: [a-z'’-]+){0,3}?)\s*"
    r"(?:\((?:(?P<side>RS|WS)|(?P<besides>(?!\d)[^():]*))\)\s*)?:",
    re.IGNORECASE,
)


def _parts_named(text: str, start: int, tokens: tuple[Token, ...]) -> re.Match[str] | None:
    """``Shape neck, first side:``: two names of parts, in which nothing is worked."""
    found = _PARTS_NAMED.match(text, start)
    if found is None or not all(names_part(part) for part in found["name"].split(",")):
        return None
    inside = [one for one in tokens if start <= one.start < found.end("name")]
    worked = any(one.kind not in ("word", "ord", "mark") or one.word in NO_NAME for one in inside)
    return None if worked else found


#: words in front of a colon that work something are no name
_A_STEP = (
    r"(?:(?:skip|sk|miss|leave|leaving) (?:the )?(?:first|next|last|rem(?:aining)?|\d)\b|"
    r"(?:sl ?st|ss|slip (?:st|stitch))\b(?! (?:rows?|rnds?|rounds?|edg|border|seam|join))|"
    r"(?:inc|dec|increase|decrease) \d|ch(?:ain)? \d+\b(?! (?:rows?|rnds?|lps?|loops?|sps?))|"
    r"(?:[fb]p)?(?:sc|hdc|dc|tr|dtr|htr)\d?(?:tog)? (?:in|into|over|across|around|to|\d)\b"
    r"(?! (?:rows?|rnds?|rounds?))|\d+ (?:sc|hdc|dc|tr|dtr|htr|sts?)\b|"
    r"(?:sc|hdc|dc|tr|dtr|htr)\dtog\Z)"
)
#: "Rows 1 & 3": rows that are no neighbours have no name together
_SOME_ROWS = re.compile(r"\s*(?:rows?|rnds?|rounds?|r)\s*\d+\s*(?:&|,|/|\+|and)", re.IGNORECASE)
#: several of something, by their numbers
_SEVERAL = re.compile(r"\d\s*(?:[–—~/&+,-]|\.\.|…|to|thru|through|and)\s*\d")
#: a round that begins with its ring: "Into a magic ring: ch 1, 6 sc"
_IN_RING = re.compile(
    r"\s*(?:in(?:to)?|with|using|start(?:ing)? with|begin with|make) (?:a |an |the )*"
    r"(?:(?:magic|adjustable|sliding) (?:ring|circle|loop)|mr)\s*\Z",
    re.IGNORECASE,
)


def _only_a_count(stream: Stream) -> bool:
    """Whether nothing but a stated count follows ("sc around: 24 sts")."""
    mark = stream.here()
    try:
        found = stated(stream, 0)
        stream.accept(".")
        unit = "" if found is None else found.counts[0][1]
        made = unit == "ch" or kind_of(unit).foundation
        return found is not None and stream.at_end() and not made
    except NotUnderstood:
        return False
    finally:
        stream.back_to(mark)
