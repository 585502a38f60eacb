"""One line of a pattern to a notation tree.

Takes     the text of a row, its place, and the vocabulary in force.
Gives     ``Row`` (``parse_row``), ``SpecialStitch`` (``parse_special``).
Problems  ``row-not-understood``, ``size-list``, ``unit-formula``, ``row-too-long``.
From      notation.md, "Labels", "Stated counts", "Whole pieces".

The parser is written by hand: tokens by pattern, then one function a rule. A text is read once
for all sizes; the same text in the same vocabulary is read only once.

Worked example: ``Rnd 9: *sk 3 sts, 4 dc in next st; rep from * around (64 dc)`` is a label
(``Rnd``, 9), a body of one ``Repeat`` that holds a ``Skip`` and a ``Work``, and a stated count.
"""

from __future__ import annotations

import re
from dataclasses import dataclass, replace
from difflib import get_close_matches
from functools import lru_cache
from typing import Literal

from workeven.arithmetic import formulas, quantities
from workeven.notation.remarks import aside, stated
from workeven.notation.steps import content, steps, times_count
from workeven.notation.stream import NotUnderstood, Stream
from workeven.notation.tree import (
    ONE,
    Amount,
    ChangeOver,
    Content,
    Label,
    Length,
    RepeatRows,
    Row,
    RowBody,
    RowRef,
    RowsCount,
    RowsTimes,
    RowsUntil,
    SpecialStitch,
    Stated,
    StatedHere,
    Step,
    Stitch,
    TermUse,
    UntilCount,
    UntilMeasures,
    WorkedRow,
    WorkEven,
)
from workeven.notation.vocabulary import Terms, Vocabulary, foreign_word, kind_of
from workeven.problems import Checked, Problem, Span

LONGEST = 10_000


@dataclass(frozen=True, slots=True)
class _Read:
    """What one text says, apart from where it stands."""

    label: Label | None
    only: tuple[tuple[str, str], ...] | None
    body: RowBody | None
    stated: Stated | None
    terms: tuple[TermUse, ...]
    amounts: tuple[Amount, ...]
    fault: NotUnderstood | None


def parse_row(text: str, span: Span, vocabulary: Vocabulary) -> Checked[Row]:
    """The tree of one row, with a problem when a phrase is not understood (its body is None).

    >>> place = Span(file="-", line=1, column=1, end_line=1, end_column=9)
    >>> parse_row("Rnd 2: inc around (12 sts)", place, Vocabulary()).value.label.word
    'Rnd'
    """
    read = _read(text, vocabulary)
    row = Row(
        text=text,
        span=span,
        label=read.label,
        only=read.only,
        body=read.body,
        stated=read.stated,
        terms=read.terms,
        amounts=read.amounts,
    )
    if read.fault is None:
        return Checked(value=row)
    return Checked(value=row, problems=(_problem(text, span, read, vocabulary),))


@lru_cache(maxsize=8192)
def _read(text: str, vocabulary: Vocabulary) -> _Read:
    if len(text) > LONGEST:
        fault = NotUnderstood(
            LONGEST,
            len(text),
            f"the row has {len(text)} characters",
            f"a row has at most {LONGEST} characters: write it as several",
            "row-too-long",
        )
        return _Read(None, None, None, None, (), (), fault)
    stream = Stream(text, vocabulary)
    label: Label | None = None
    only: tuple[tuple[str, str], ...] | None = None
    try:
        only = _only(stream)
        label = _label(stream)
        body, count = _body(stream, label)
    except NotUnderstood as fault:
        amounts = tuple(stream.amounts)
        said = _count_at_end(text, vocabulary)
        return _Read(label, only, None, said, stream.terms, amounts, fault)
    return _Read(label, only, body, count, stream.terms, tuple(stream.amounts), None)


_AT_END = re.compile(r"[(\[](?P<count>[^()\[\]]*(?:\([^()]*\)[^()\[\]]*)*)[)\]][\s.]*\Z")


def _count_at_end(text: str, vocabulary: Vocabulary) -> Stated | None:
    """What a row that is not understood states at its end: the rows below go on from it."""
    found = _AT_END.search(text)
    if found is None:
        return None
    stream = Stream(found["count"], vocabulary)
    try:
        said = stated(stream, 0)
    except NotUnderstood:
        return None
    return said if said is not None and stream.at_end() else None


# --- sizes and labels ----------------------------------------------------------------------


def _only(stream: Stream) -> tuple[tuple[str, str], ...] | None:
    """``sizes S–L only:``, ``size 2X only:``, ``sizes S and M only:``.

    Takes: sizes S–L only:
    Refuses: sizes only
    """
    if not stream.is_word("size", "sizes"):
        return None
    colon = stream.text.find(":", stream.start)
    head = stream.text[stream.token.end : colon] if colon >= 0 else ""
    if "only" not in head.lower().split():
        return None
    head = re.sub(r"\bonly\b", "", head, flags=re.IGNORECASE)
    found: list[tuple[str, str]] = []
    for part in re.split(r",|&|\band\b", head):
        ends = _size_range(part.strip(), stream.vocabulary.sizes)
        for name in ends:
            if stream.vocabulary.sizes and name not in stream.vocabulary.sizes:
                raise _unknown_size(stream, name)
        found.append((ends[0], ends[-1]))
    while not stream.at_end() and stream.start <= colon:
        stream.take()
    return tuple(found)


def _size_range(part: str, sizes: tuple[str, ...]) -> tuple[str, ...]:
    if part in sizes:
        return (part,)
    for dash in ("–", "—", "-", " to "):
        low, found, high = part.partition(dash)
        if found:
            return (low.strip(), high.strip())
    return (part,)


def _unknown_size(stream: Stream, name: str) -> NotUnderstood:
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


def _label(stream: Stream) -> Label | None:
    """``Rnd 3:``, ``Rows 4–6 (RS):``, ``Row 25-28 (25-32):``, ``Dec rnd:``.

    Takes: Rows 4–6 (RS):
    Refuses: Rows four to
    """
    return _numbered_label(stream) or _next_rows(stream) or _named_label(stream)


def _numbered_label(stream: Stream) -> Label | None:
    mark, amounts = stream.at, len(stream.amounts)
    start = stream.start
    if not stream.is_word("row", "rnd", "r") or stream.ahead().kind not in ("num", "formula"):
        return None
    written = stream.take().word
    word: Literal["Row", "Rnd"] | None = None
    if written != "r":
        word = "Row" if written == "row" else "Rnd"
    first, last = _label_numbers(stream)
    side = _side(stream)
    name = _label_remark(stream)
    while stream.is_mark("-", "–"):
        stream.take()
    if stream.accept(":") or stream.accept(".") or (side and not stream.at_end()):
        return Label(word, first, last, name, side, start, stream.end)
    stream.at = mark
    del stream.amounts[amounts:]
    return None


def _label_remark(stream: Stream) -> str | None:
    """``Row 3 (dec row):`` names the row besides."""
    if not stream.is_mark("("):
        return None
    closing = stream.closing()
    if closing < 0 or stream.tokens[closing + 1].word not in (":", "."):
        return None
    name = stream.text[stream.token.end : stream.tokens[closing].start].strip()
    if not name or not name[0].isalpha():
        return None
    stream.at = closing + 1
    return name


def _next_rows(stream: Stream) -> Label | None:
    """``Next 2 rnds:``, ``Next row:``: so many rows, without a number."""
    if not stream.is_word("next") or ":" not in stream.text:
        return None
    mark, amounts = stream.at, len(stream.amounts)
    start = stream.take().start
    count = stream.amount() if stream.is_amount() else ONE
    if stream.is_word("row", "rnd"):
        word = stream.take().word
        side = _side(stream)
        if stream.accept(":"):
            return Label(
                "Row" if word == "row" else "Rnd", None, None, None, side, start, stream.end, count
            )
    stream.at = mark
    del stream.amounts[amounts:]
    return None


def _label_numbers(stream: Stream) -> tuple[Amount, Amount | None]:
    """``3``, ``4-6``, ``25-28 (25-32)``, ``5 (7)``: first and last number of the label."""
    token = stream.take()
    if token.kind == "formula":
        stream.at -= 1
        return stream.amount(), None
    firsts: list[int | None] = [token.value]
    lasts: list[int | None] = [_dash_number(stream)]
    mark = stream.at
    while stream.is_mark("("):
        inside = _bracket_of_ranges(stream)
        if inside is None:
            stream.at = mark
            break
        firsts.extend(low for low, _ in inside)
        lasts.extend(high for _, high in inside)
        mark = stream.at
    start, end = token.start, stream.end
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


def _fits_sizes(stream: Stream, count: int) -> bool:
    known = len(stream.vocabulary.sizes)
    return known in (0, count)


def _dash_number(stream: Stream) -> int | None:
    mark = stream.at
    if stream.accept_any("-", "–", "to", "and", "&", "through") and stream.token.kind == "num":
        return stream.take().value
    stream.at = mark
    return None


def _bracket_of_ranges(stream: Stream) -> list[tuple[int | None, int | None]] | None:
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
    """``RS``, ``(WS)``, ``right side``."""
    mark = stream.at
    bracket = stream.accept("(")
    side = _side_word(stream)
    if side is not None and (not bracket or stream.accept(")")):
        return side
    stream.at = mark
    return None


def _side_word(stream: Stream) -> Side | None:
    if stream.accept("rs") or stream.accept("right", "side"):
        return "RS"
    if stream.accept("ws") or stream.accept("wrong", "side"):
        return "WS"
    return None


_NAME = re.compile(
    r"\s*(?P<name>[^\W\d_][^,;:*\[\]{}()]*?)\s*"
    r"(?:\((?:(?P<side>RS|WS)|(?!\d)[^():]*)\)\s*)?:",
    re.IGNORECASE,
)
_DECLARATION = re.compile(r"(?:sizes?\b.*|corner|(?:working|with)\b.*)\Z", re.IGNORECASE)


def _named_label(stream: Stream) -> Label | None:
    found = _NAME.match(stream.text, stream.start)
    if found is None or _DECLARATION.match(found["name"].strip()):
        return None
    start, mark = stream.start, stream.at
    while not stream.at_end() and stream.start < found.end():
        stream.take()
    if _only_a_count(stream):
        stream.at = mark
        return None
    side: Side | None = None
    if found["side"]:
        side = "RS" if found["side"].upper() == "RS" else "WS"
    return Label(None, None, None, found["name"], side, start, stream.end)


def _only_a_count(stream: Stream) -> bool:
    """Whether nothing but a stated count follows ("sc around: 24 sts")."""
    mark, amounts = stream.at, len(stream.amounts)
    try:
        found = stated(stream, 0)
        stream.accept(".")
        return found is not None and stream.at_end()
    except NotUnderstood:
        return False
    finally:
        stream.at = mark
        del stream.amounts[amounts:]


# --- the body ------------------------------------------------------------------------------


def _body(stream: Stream, label: Label | None) -> tuple[RowBody, Stated | None]:
    if stream.at_end():
        raise NotUnderstood(
            stream.start, stream.start, "the row says nothing", "write what is worked in it"
        )
    over = _change_over(stream)
    if over is not None and stream.at_end():
        return over, None
    for read in (_repeat_rows, _work_even):
        body = read(stream)
        if body is not None:
            return body, _final_count(stream)
    found = list(steps(stream, "until", "for", ":", "=", "-", "so"))
    until = _until(stream)
    count = _final_count(stream) or _counted_in_steps(found)
    if until is not None and found and not stream.at_end():
        found.extend(steps(stream))
        count = count or _counted_in_steps(found)
    if not stream.at_end():
        raise stream.fault()
    if not found and label is None:
        raise stream.fault(0)
    return WorkedRow(tuple(found), until, None if over is None else over.worked), count


def _counted_in_steps(found: list[Step]) -> Stated | None:
    """A count in brackets that closes the row is the row's own: taken off the steps."""
    if found and isinstance(found[-1], StatedHere):
        last = found.pop()
        assert isinstance(last, StatedHere)
        return last.stated
    return None


def _final_count(stream: Stream) -> Stated | None:
    """The stated count at the end, after "(", ":", "=", "." or a dash."""
    mark, amounts = stream.at, len(stream.amounts)
    while stream.accept_any(".", ",", ";"):
        pass
    start = stream.start
    opened = stream.accept_any("(", "[", ":", "=", "-")
    found = stated(stream, start) if opened or stream.is_amount() else None
    if found is not None and opened in ("(", "[") and not stream.accept_any(")", "]"):
        found = None
    while stream.accept_any("."):
        pass
    if found is None or not (stream.at_end() or stream.tokens[stream.at - 1].word in (")", "]")):
        stream.at = mark
        del stream.amounts[amounts:]
        return None
    return replace(found, end=stream.end)


_WORKED = {
    "row": "flat rows",
    "flat row": "flat rows",
    "spiral": "spiral rounds",
    "spiral rnd": "spiral rounds",
    "cont rnd": "spiral rounds",
    "continuous rnd": "spiral rounds",
    "joined rnd": "joined rounds",
    "rnd": "joined rounds",
    "joined turned rnd": "joined rounds, turned",
    "joined rnd turned": "joined rounds, turned",
}


def _plain_working(words: list[str]) -> list[str]:
    """The plain words of "back and forth in rows for the heel": "row"."""
    for at, word in enumerate(words):
        if word in ("for", "to", "from", "on"):
            words = words[:at]
            break
    return [word for word in words if word not in ("back", "and", "forth", "in", "the", "of")]


def _change_over(stream: Stream) -> ChangeOver | None:
    """``now work in joined rounds``.

    Takes: now work in joined rounds
    Refuses: now work in knitting
    """
    mark = stream.at
    if not stream.accept("now") or not stream.accept_any("work", "working"):
        stream.at = mark
        return None
    if not (stream.accept("in") or stream.is_word("back")):
        stream.at = mark
        return None
    stream.articles()
    words: list[str] = []
    while not stream.at_end() and not stream.is_mark(":", ".", ";"):
        if stream.is_mark(",") and stream.ahead().word not in ("turn", "turned", "turning"):
            break
        token = stream.take()
        if token.kind == "word":
            words.append("joined" if token.word == "join" else token.word)
    words = _plain_working(words)
    worked = _WORKED.get(
        " ".join(words).replace(" turn", " turned") if "turn" in words else " ".join(words)
    )
    stream.accept_any(".", ":", ",", ";")
    if worked is None:
        stream.at = mark
        raise stream.fault(
            mend="write “now work in flat rows”, “joined rounds”, “joined rounds, turned” or "
            "“spiral rounds”"
        )
    return ChangeOver(worked)


# --- rows that repeat rows -----------------------------------------------------------------


def _repeat_rows(stream: Stream) -> RepeatRows | None:
    """``rep Rows 2 and 3 until piece measures 30 cm, ending with a Row 3``."""
    mark = stream.at
    while aside(stream):
        stream.accept_any(",", ";")
    if not stream.is_word("rep") and not (stream.is_word("same", "as") and stream.at == mark):
        stream.at = mark
    if stream.is_word("same", "as") and _passes_as(stream):
        pass
    elif not stream.is_word("rep") or stream.ahead().word == "from":
        return None
    else:
        stream.take()
    rows = [_row_ref(stream)]
    while stream.is_mark(",") or stream.is_word("and", "&"):
        mark = stream.at
        stream.take()
        stream.accept("and")
        if stream.token.kind == "num" and rows[-1].word is not None:
            rows.append(RowRef(rows[-1].word, *_label_numbers(stream)))
        elif stream.is_word("row", "rnd") and stream.ahead().kind == "num":
            rows.append(_row_ref(stream))
        else:
            stream.at = mark
            break
    until = _until(stream)
    aside(stream)
    ending, side = _row_ending(stream)
    rest = _rest_steps(stream)
    return RepeatRows(tuple(rows), until, ending, side, rest)


def _passes_as(stream: Stream) -> bool:
    mark = stream.at
    stream.accept("same")
    if stream.accept("as") and (stream.is_word("row", "rnd", "last", "prev")):
        return True
    stream.at = mark
    return False


def _row_ref(stream: Stream) -> RowRef:
    stream.articles()
    if stream.accept_any("last", "prev"):
        if stream.is_amount():
            count = stream.amount()
            word = "Row" if stream.take().word == "row" else "Rnd"
            return RowRef("Row" if word == "Row" else "Rnd", count, None, "last")
        if not stream.accept_any("row", "rnd"):
            raise stream.fault(mend="write “rep last row” or “rep Row 2”")
        return RowRef()
    if stream.is_word("row", "rnd") and stream.ahead().kind == "num":
        word = "Row" if stream.take().word == "row" else "Rnd"
        first, last = _label_numbers(stream)
        return RowRef("Row" if word == "Row" else "Rnd", first, last)
    return RowRef(name=_row_name(stream))


_NAME_ENDS = frozenset({"until", "for", "to", "ending", "end", "fasten", "once", "1x", "2x", "3x"})


def _row_name(stream: Stream) -> str:
    start = stream.start
    end = start
    while stream.token.kind in ("word", "stitch") and stream.token.word not in _NAME_ENDS:
        end = stream.take().end
    if end == start:
        raise stream.fault(mend="say which row: “rep Row 2”, “rep last row” or a row's name")
    return stream.text[start:end]


def _rest_steps(stream: Stream) -> tuple[Step, ...]:
    """Steps behind a repeated row, up to a count ("…, fasten off (60 sts)")."""
    if stream.at_end() or stream.is_mark("(", "[", ":", "=", "-"):
        return ()
    mark, amounts = stream.at, len(stream.amounts)
    stream.accept_any(",", ";", ".")
    if stream.at_end() or stream.is_mark("(", "["):
        return ()
    if stream.is_amount():
        stream.at = mark
        del stream.amounts[amounts:]
        return ()
    return steps(stream, "(", "[", ":", "=", "-")


def _row_ending(stream: Stream) -> tuple[RowRef | None, Side | None]:
    """``ending with a Row 3``, ``ending with a WS row``."""
    mark = stream.at
    stream.accept_any(",", ";")
    if not stream.accept_any("ending", "end"):
        stream.at = mark
        return None, None
    stream.accept_any("with", "after", "on", "by")
    stream.articles()
    side = _side_word(stream)
    if side is not None:
        stream.accept_any("row", "rnd")
        return None, side
    return _row_ref(stream), None


def _until(stream: Stream) -> RowsUntil | None:
    """How often: ``9 more times``, ``for 12 rows``, ``until piece measures 30 cm``."""
    mark, amounts = stream.at, len(stream.amounts)
    stream.accept_any(",")
    found = _times(stream) or _for(stream) or _until_clause(stream)
    if found is None:
        stream.at = mark
        del stream.amounts[amounts:]
    return found


def _times(stream: Stream) -> RowsTimes | None:
    another = stream.accept_any("another", "a", "further")
    if another == "a" and not stream.accept("further"):
        return None
    count = times_count(stream)
    if count is not None:
        more = stream.accept("more") or another is not None
        return RowsTimes(count, more=more)
    if stream.token.kind == "word" and stream.token.word in ("1x", "2x", "3x"):
        return None
    if not stream.is_amount():
        return None
    amount = stream.amount()
    more = stream.accept("more")
    if stream.accept_any("times", "row", "rnd"):
        return RowsTimes(amount, more=more)
    return None


def _for(stream: Stream) -> RowsUntil | None:
    if not stream.accept("for"):
        return None
    mark, amounts = stream.at, len(stream.amounts)
    if stream.is_amount():
        amount = stream.amount()
        stream.accept("more")
        if stream.accept_any("row", "rnd"):
            return RowsCount(amount)
    stream.at = mark
    del stream.amounts[amounts:]
    return UntilMeasures(_length(stream), section=True)


#: "from underarm": measured from where the section begins, not from the starting chain
_PLACES_ALONG = frozenset("underarm divide division armhole marker join joining body".split())


def _until_clause(stream: Stream) -> RowsUntil | None:
    if not stream.accept_any("until", "till"):
        return None
    if stream.accept("there", "are") or stream.accept("you", "have"):
        start = stream.start
        found = stated(stream, start)
        if found is None:
            raise stream.fault(mend="write “until there are 60 sts”")
        return UntilCount(found)
    words: list[str] = []
    while stream.token.kind in ("word", "stitch") and stream.token.word not in (
        "measures",
        "measure",
        "is",
    ):
        words.append(stream.take().word)
    if not stream.accept_any("measures", "measure", "is"):
        raise stream.fault(mend="write “until piece measures 30 cm”")
    stream.accept_any("approximately", "about", "approx")
    section = "section" in words
    length = _length(stream)
    elsewhere = False
    while not stream.at_end() and not stream.is_mark(",", ".", ";", "(", "["):
        if stream.is_word("ending", "end"):
            break
        elsewhere = stream.take().word in _PLACES_ALONG or elsewhere
    return UntilMeasures(length, section=section or elsewhere)


#: "from underarm": measured from where the section begins, not from the starting chain
_PLACES_ALONG = frozenset("underarm divide division armhole marker".split())

_LENGTH_ENDS = re.compile(
    r",\s*(?:end|fasten|turn|do |work|then|place|change|join)|\bending\b|\bfrom\b|;|"
    r"\bin total\b|\. |\.\Z|\bin all\b"
)


#: a length in one unit with the other in brackets: "3 in (7.5 cm)"; the first one is meant
_BOTH_UNITS = re.compile(
    r"(?P<first>[\d./½¼¾⅓⅔⅛ -]+\s*(?:mm|cm|m|in|inch(?:es)?|\"|yds?)\.?)\s*"
    r"[(\[/]\s*[\d./½¼¾⅓⅔⅛ -]+\s*(?:mm|cm|m|in|inch(?:es)?|\"|yds?)\.?\s*[)\]]?",
    re.IGNORECASE,
)


def _length(stream: Stream) -> Length:
    start = stream.start
    if stream.token.kind == "formula":
        token = stream.take()
        try:
            formula = formulas.read(token.word)
        except formulas.FormulaFault as fault:
            at = min(token.start + 1 + fault.at, token.end)
            raise NotUnderstood(at, token.end, str(fault), code="unit-formula") from fault
        return Length((), formula, token.start, token.end)
    stop = _LENGTH_ENDS.search(stream.text, start)
    end = stop.start() if stop else len(stream.text)
    text = stream.text[start:end].strip()
    both = _BOTH_UNITS.fullmatch(text)
    if both is not None:
        text = both["first"].strip()
    try:
        found = quantities.lengths(text)
    except quantities.QuantityFault as fault:
        at = start + fault.at
        raise NotUnderstood(at, max(end, at), fault.found, fault.mend, "unit-length") from fault
    known = len(stream.vocabulary.sizes)
    if len(found) > 1 and known not in (0, len(found)):
        raise NotUnderstood(
            start,
            end,
            f"{len(found)} lengths stand here, and there are {known} sizes",
            code="size-list",
        )
    while not stream.at_end() and stream.start < end:
        stream.take()
    return Length(found, None, start, start + len(text))


def _work_even(stream: Stream) -> WorkEven | None:
    """``work even for 12 rows``, ``work even in patt until piece measures 30 cm``."""
    mark = stream.at
    if not (stream.accept_any("work", "cont", "working") and _even(stream)):
        stream.at = mark
        return None
    until = _until(stream)
    return WorkEven(until, _rest_steps(stream))


def _even(stream: Stream) -> bool:
    found = False
    while stream.is_word("even", "in", "patt", "as", "set", "est", "established", "straight"):
        found = stream.take().word in ("even", "patt", "set", "straight") or found
    return found


# --- special stitches ----------------------------------------------------------------------

_CLOSED = re.compile(
    r"\bcluster\b|\bclosed\b|\d+tog\b|\(1 st\)|counts? as (?:1|one) st|drop (?:the )?loop|"
    r"\bpopcorn\b|\bbobble\b|\bpuff\b|yo and (?:draw|pull) through all",
    re.IGNORECASE,
)
_NO_PLACE = re.compile(r"takes? up no (?:further )?st|stands? off", re.IGNORECASE)


def parse_special(name: str, text: str, span: Span, terms: Terms) -> Checked[SpecialStitch]:
    """A stitch of the pattern's own, from the words that say how it is worked.

    Where the words are notation of what goes into one place ("5 dc in same st"), it is made of
    those parts; where they say that it is closed, or only describe it, it is one stitch in one
    place.
    """
    made: tuple[Content, ...] = ()
    if _CLOSED.search(text) is None:
        made = _special_content(text, Vocabulary(terms))
    stitch = SpecialStitch(
        name=name,
        text=text,
        content=made,
        one_place=True,
        closed=not made,
        takes=0 if _NO_PLACE.search(text) else 1,
        span=span,
        base=_named_base(text, Vocabulary(terms)),
    )
    return Checked(value=stitch)


def _named_base(text: str, vocabulary: Vocabulary) -> str | None:
    """The first basic stitch that a description names ("sc leaving a long loop")."""
    for token in Stream(text, vocabulary).tokens:
        if token.kind in ("stitch", "grp") and token.word != "sl st":
            return kind_of(token.word).base
    return None


def _special_content(text: str, vocabulary: Vocabulary) -> tuple[Content, ...]:
    """What stands before "in same st", where that is stitches and chains; else ()."""
    found = re.fullmatch(
        r"\s*(?P<what>.+?)(?:\s*,?\s*(?:all )?(?:in|into)\s+(?:the\s+)?(?:same|one|next|1)\b.*)?",
        text,
        re.DOTALL,
    )
    if found is None or (found["what"] == text and len(text) > LONGEST):
        return ()
    if not re.search(r"\b(?:in|into)\s+(?:the\s+)?(?:same|one|next|1)\b", text):
        return ()
    what = found["what"].strip()
    if what.startswith("(") and what.endswith(")") and what.count("(") == 1:
        what = what[1:-1]
    stream = Stream(what, vocabulary)
    try:
        made = content(stream, len(stream.tokens) - 1)
    except NotUnderstood:
        return ()
    if any(isinstance(item, Stitch) and item.name == "sl st" for item in made):
        return ()
    return made


# --- problems ------------------------------------------------------------------------------

#: phrases offered when words are not understood; the nearest is shown.
PHRASES = (
    "sc in next st",
    "sc in each st across",
    "sc in each st around",
    "sc in next 6 sts",
    "2 dc in next st",
    "(dc, ch 1, dc) in next ch-2 sp",
    "sk next 2 sts",
    "sk next ch-1 sp",
    "ch 3 (counts as dc)",
    "*sc in next st, ch 1; rep from * across",
    "[sc 7, sc2tog] 6 times",
    "rep from * 5 more times",
    "rep from * to last 3 sts",
    "join with sl st to first sc",
    "sl st to next ch-2 sp",
    "leave rem sts unworked",
    "dec 12 sts evenly",
    "work even for 12 rows",
    "rep last row 9 more times",
    "rep Row 2 until piece measures 30 cm",
    "turn",
    "fasten off",
    "place marker",
)


def _problem(text: str, span: Span, read: _Read, vocabulary: Vocabulary) -> Problem:
    fault = read.fault
    assert fault is not None
    end = max(fault.end, fault.start)
    words = text[fault.start : end].strip() or text[fault.start :].strip()
    before = text[: fault.start].strip().rstrip(",;")
    word = _row_word(read.label)
    if fault.code == "row-not-understood" and not fault.found:
        found = f"“{_short(words)}” is not understood." if words else "the row breaks off."
        expected = f"Understood up to here: “{_short(before, last=True)}”." if before else ""
    else:
        found = f"{fault.found}." if fault.found else f"“{_short(words)}” is not understood."
        expected = ""
    return Problem(
        code=fault.code,
        span=span.within(fault.start, max(end, fault.start + 1)),
        found=found,
        expected=expected,
        mend=_mend(fault, words, vocabulary),
        row=word,
        sizes=vocabulary.sizes if fault.code == "size-list" and vocabulary.sizes else None,
        excerpt=_short(text.strip(), 200),
    )


def _mend(fault: NotUnderstood, words: str, vocabulary: Vocabulary) -> str:
    for word in re.findall(r"[^\W\d_]+\d*(?:tog)?", words.lower()):
        if foreign_word(word, vocabulary.terms):
            other = "UK" if vocabulary.terms == "us" else "US"
            mine = "US" if vocabulary.terms == "us" else "UK"
            return (
                f"“{word}” is a {other} term and the text is in {mine} terms: set `terms`, "
                "or change the word."
            )
    if fault.mend:
        return fault.mend[0].upper() + fault.mend[1:] + "."
    near = get_close_matches(words.lower(), PHRASES, 1, 0.45)
    if near:
        return f"The nearest phrase that is read: “{near[0]}”."
    return (
        "See the guide's page on how rows are written; a stitch of your own is declared in "
        "`stitches`."
    )


def _row_word(label: Label | None) -> str | None:
    if label is None:
        return None
    if label.name is not None:
        return label.name
    if label.word is not None and label.first is not None and label.first.values:
        return f"{label.word} {label.first.values[0]}"
    return None


def _short(text: str, most: int = 80, *, last: bool = False) -> str:
    if len(text) <= most:
        return text
    return "…" + text[-most + 1 :] if last else text[: most - 1] + "…"


__all__ = ["LONGEST", "ONE", "parse_row", "parse_special"]
