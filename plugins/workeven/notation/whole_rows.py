"""Whole-row words: "rep Rows 2 and 3 until …", "cont to dec 6 sts each rnd", "now work in rounds".

Takes     ``Stream``.
Gives     ``repeat_rows``, ``goes_on``, ``change_over``, ``rest_steps``, ``row_ref``,
          ``refuse_work``, ``pass_over_these``.
Problems  none of its own: ``NotUnderstood``.
From      notation.md, "Whole-row words", "Changing over".
"""

from __future__ import annotations

import re

from workeven.notation.asides import aside
from workeven.notation.expressions import ignoring_case
from workeven.notation.growth import growth
from workeven.notation.labels import Side, label_numbers, ordinals
from workeven.notation.lengths import ending_side, until_of
from workeven.notation.rows_named import (
    from_row_on,
    from_row_to_row,
    lettered,
    named_rows,
    of_a_part,
    rows_given,
    yarn_joined,
)
from workeven.notation.steps import steps
from workeven.notation.stream import NotUnderstood, Stream
from workeven.notation.tree import (
    ONE,
    Amount,
    Aside,
    Chain,
    ChangeOver,
    FastenOff,
    Growth,
    JoinRound,
    JoinYarn,
    LeaveRest,
    RepeatRows,
    RowRef,
    RowsCount,
    StatedHere,
    Step,
    Stitch,
    Travel,
    Turn,
    Work,
)
from workeven.records import replace

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
    passed = ("back", "and", "forth", "in", "the", "of", "again", "once", "more", "only")
    return [word for word in words if word not in passed]


def change_over(stream: Stream) -> ChangeOver | None:
    """``now work in joined rounds``.

    Takes: now work in joined rounds
    Takes: From here you work back and forth
    Refuses: now work in knitting
    """
    mark = stream.at
    here = stream.accept("from", "here")
    if here:
        stream.accept("on")
    begun = stream.accept("now") or here
    stream.accept_any("you", "we")
    if not begun or not stream.accept_any("work", "working"):
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
    words = _plain_working(words) or (["row"] if "forth" in words else [])
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


def repeat_rows(stream: Stream) -> RepeatRows | None:
    """``rep Rows 2 and 3 until piece measures 30 cm, ending with a Row 3``.

    Takes: rep Rows 2 and 3 until piece measures 30 cm
    Refuses: rep from * across
    """
    mark = stream.at
    _pass_to_rows(stream)
    if (named := named_rows(stream)) is not None:
        return RepeatRows((named[0],), named[1], steps=rest_steps(stream))
    if _of_the_other(stream):
        stream.take()
        stream.articles()
        return _repeated(stream)
    if (more := _more_rows_as(stream)) is not None:
        return more
    if (differs := _last_but_for(stream, begins=stream.at == mark)) is not None:
        return differs
    if stream.is_word("same", "as", "the") and _passes_as(stream):
        pass
    elif _works_rows_again(stream):
        stream.take()
    elif not stream.is_word("rep"):
        stream.at = mark
        return None
    elif stream.ahead().word == "from":
        if from_row_on(stream):
            return _onward(_repeated(stream))
        if not from_row_to_row(stream):
            stream.at = mark
            return None
    else:
        stream.take()
    return _repeated(stream)


def _last_but_for(stream: Stream, *, begins: bool) -> RepeatRows | None:
    """The last row, but for what is told behind "inc as before", "work in same way".

    Takes: inc as before, with 1 more dc between incs
    Refuses: inc in next st
    """
    mark = stream.at
    if begins and stream.is_word("inc", "dec") and _shaped_as_before(stream):
        change = growth(stream)
        if change is not None:
            return RepeatRows(
                (RowRef(),), until_of(stream), steps=rest_steps(stream), change=change
            )
        stream.at = mark
    return _in_the_same_way(stream) if stream.is_word("work", "cont") else None


_SAME_WAY = r"(?:work|cont(?:inue)?) in (?:the )?(?:same|this) (?:way|manner)\b(?=\s*,)"


def _in_the_same_way(stream: Stream) -> RepeatRows | None:
    """``work in same way, having 1 more dc between incs on each rnd``: the last row, but for that.

    Takes: work in same way, having 1 more dc between incs on each rnd
    Refuses: work in same way
    """
    told = ignoring_case(_SAME_WAY).match(stream.text, stream.start)
    if told is None:
        return None
    mark = stream.here()
    stream.pass_to(told.end())
    change = growth(stream)
    if change is None:
        stream.back_to(mark)
        return None
    return RepeatRows((RowRef(),), until_of(stream), steps=rest_steps(stream), change=change)


def _onward(found: RepeatRows) -> RepeatRows:
    """The rows from the one that is named, up to the last that was worked."""
    return replace(found, rows=tuple(replace(one, onward=True) for one in found.rows))


def _pass_to_rows(stream: Stream) -> None:
    """Pass what stands in front of rows that are worked again, where such words follow.

    Takes: With B,
    """
    mark = stream.at
    while not stream.is_word("rep") and aside(stream):
        while stream.accept_any(",", ";", ".", "and", "then"):
            pass
    yarn_joined(stream)
    if stream.is_word("cont") and "rep" in (stream.ahead().word, stream.ahead(2).word):
        stream.take()
        stream.accept("to")  # "continue to repeat Row 2"
    works_as = stream.is_word("work", "worked", "made") and stream.ahead().word in ("as", "same")
    named = stream.ahead().word == "same" and stream.is_word("the")
    if not (named or stream.is_word("rep", "same", "as") or works_as):
        stream.at = mark
    if stream.is_word("work", "worked", "made") and stream.ahead().word in ("as", "same"):
        stream.take()


#: rows by their numbers, and how often or how long they are worked again
_THESE_AGAIN = (
    r"work (?:row|rnd|round) \d+(?:, (?:and )?(?:row|rnd|round) \d+)+|"
    r"work (?:the )?(?:(?:rows|rnds|rounds) \d+ ?(?:-|–|to|through|thru|and|&) ?\d+|"
    r"\d+(?:st|nd|rd|d|th) (?:to|through|and|&|-|–) (?:the )?\d+(?:st|nd|rd|d|th) "
    r"(?:rows|rnds|rounds))(?: incl(?:usive|\.)?)?,? "
    r"(?:for (?:the )?patt(?:ern)?\b|until\b|till\b|(?:\d+|two|three|four|five|six|seven|eight|"
    r"nine|ten) (?:more )?times\b|twice\b|once\b|alternately\b)"
)


def _works_rows_again(stream: Stream) -> bool:
    """Whether "work Rows 2 to 5 for pattern until …" stands here: those rows again.

    Takes: work Rows 2 to 5 twice
    Refuses: work Rows 2 to 5
    """
    if not stream.is_word("work") or stream.said.isdisjoint(("row", "rnd")):
        return False
    return ignoring_case(_THESE_AGAIN).match(stream.text, stream.start) is not None


#: so many rows more, and behind that the row that they are like
_MORE_AS = (
    r"(?:work|make) (?P<number>\d+|one|two|three|four|five|six|seven|eight|nine|ten) "
    r"(?:(?:more|further) )?(?:rows?|rnds?|rounds?)(?: of [a-z]+)? "
    r"(?:(?:in )?(?:exactly )?the same (?:manner|way)? ?)?(?:as|like) (?:the )?"
    r"(?=(?:rows?|rnds?|rounds?) \d|last|prev)"
)


def _more_rows_as(stream: Stream) -> RepeatRows | None:
    """``work 3 more rows as Row 1``: that row so many times.

    Takes: work 3 more rows as Row 1
    Refuses: work 3 more rows
    """
    if not stream.is_word("work", "make") or stream.said.isdisjoint(("row", "rnd")):
        return None
    found = ignoring_case(_MORE_AS).match(stream.text, stream.start)
    if found is None:
        return None
    stream.take()
    number = stream.amount()
    stream.pass_to(found.end())
    rows = (row_ref(stream),)
    until = RowsCount(number)
    in_all = rows_given(stream)
    return RepeatRows(rows, until, steps=rest_steps(stream), in_all=in_all)


#: rows that are worked once more for a part that is made like another
_OTHER_PART = (
    r"(?:exactly |same |just )*(?:(?:as )?(?:for|of|from|on|in)|as|to make) (?:the )?"
    r"(?:first|1st|second|2nd|other|another|left|right|a second) "
    r"(?:leg|arm|foot|ear|wing|sleeve|mitten|slipper|sock|piece|part|half|side|one)\b"
)


def _of_the_other(stream: Stream) -> bool:
    """Whether "work Rnds 1-6 as for first leg" stands here.

    Takes: work Rnds 1-6 as for first leg
    Refuses: work in patt
    """
    if not stream.is_word("work", "make", "complete", "follow"):
        return False
    told = rf"\w+ (?:the )?(?:rows?|rnds?|rounds?) \d+ ?(?:-|–|to|through|and) ?\d+ {_OTHER_PART}"
    return ignoring_case(told).match(stream.text, stream.start) is not None


def _pass_other_part(stream: Stream) -> None:
    """Pass "as for first leg", "for second sleeve": the rows are numbered as they were."""
    found = ignoring_case(rf"\s*{_OTHER_PART}").match(stream.text, stream.end)
    if found is not None:
        stream.pass_to(found.end())


#: stitches over which rows go on that have no others
_OVER_THESE = r"\s*(?:over|on|across) (?:(?:only|just) )?(?:these|those|the same)(?: (?:\d+ )?\w+)?"


def pass_over_these(stream: Stream) -> None:
    """Pass "over these 6 sc": what the row before has left is all there is."""
    if stream.said.isdisjoint(("these", "those", "same")):
        return
    found = ignoring_case(_OVER_THESE).match(stream.text, stream.end)
    if found is not None:
        stream.pass_to(found.end())


def _repeated(stream: Stream) -> RepeatRows:
    """Behind "rep": which rows, how often, with which the last ends.

    Takes: Rows 2 and 3 twice more
    Refuses: until done
    """
    last = [RowRef()] if _means_the_last(stream) else []
    rows = last or _ordinal_refs(stream) or lettered(stream) or [row_ref(stream)]
    while stream.is_mark(",") or stream.is_word("and", "&"):
        mark = stream.at
        stream.take()
        stream.accept("and")
        counted = stream.ahead().kind in ("stitch", "grp")  # "rep Row 2, 10 dc" states a count
        number = stream.token.kind == "num" and not counted and not _times_ahead(stream)
        if number and rows[-1].word is not None:
            rows.append(RowRef(rows[-1].word, *label_numbers(stream), rows[-1].name))
        elif stream.is_word("row", "rnd", "r") and stream.ahead().kind == "num":
            rows.append(row_ref(stream))
        else:
            stream.at = mark
            break
    stream.accept_any("again", "alternately", "alternatively")
    rows = of_a_part(stream, rows)
    _pass_other_part(stream)
    pass_over_these(stream)
    change = growth(stream)
    _pass_colours(stream)
    _pass_shaping_told(stream)
    if stream.accept("for", "patt"):
        stream.for_patt = True
    until = until_of(stream)
    aside(stream)
    change = change or growth(stream)
    if until is not None and isinstance(change, Growth) and not change.each:
        change = replace(change, each=True)  # "with 1 more sc between incs until there are 48 sts"
    _pass_colours(stream)
    in_all = rows_given(stream)
    ending, side = _row_ending(stream)
    then = None if until is None else _then_repeated(stream)
    rest = () if then is not None else rest_steps(stream)
    return RepeatRows(tuple(rows), until, ending, side, rest, then, change, in_all)


def _times_ahead(stream: Stream) -> bool:
    """Whether the number that stands here says how often ("rep Rows 3-9, 5 times")."""
    return stream.ahead().word in ("times", "more", "further", "additional", "row", "rnd")


_NUMBER = r"(?:\d+|an?|one|two|three|four|five|six|each|every|every other)"
_A_STITCH = r"(?! (?:sl st|ss|[fb]p|sc|h?dc|h?tr|dtr|ch)\b)"
#: up to where it is said how often, or what is done then
_GOES_ON = (
    r"(?:(?!\b(?:until|till|for \d|(?<!at )(?<!at the )end(?:ing)?|fasten|turn|join|"
    r"cut|\d+ (?:more|times)|twice|(?:with|having|working) (?:\d|one|two))\b)[^;.()])*"
)
_COLOURS = (
    rf"[,;]?\s*(?:(?:work(?:ing)? )?{_NUMBER} (?:rnds?|rounds?|rows?) each "
    rf"(?:(?:in|of|with)\b{_A_STITCH}|(?-i:[A-Z]))|"
    r"(?:and |while )?(?:chang|switch|alternat|swapp)ing (?:the )?"
    rf"(?:(?:yarns?|colou?rs?)\b|(?:between |with |to )?(?:{_NUMBER} (?:rnds?|rounds?|rows?) "
    r"(?:each )?(?:in |of |with )?(?:colou?r |yarn )?)?(?-i:[A-Z]))|"
    r"back (?:in|to) (?:the )?(?:(?:first|main|second|other) )?colou?r\b|"
    r"(?:in|following|keeping(?: to)?|maintaining|continuing) (?:the )?"
    r"(?:following |given |same |established )*"
    r"(?:colou?r|stripe|striping) (?:sequence|order|pattern)s?:?)" + _GOES_ON
)
#: words without which no colours are told of
_COLOURED = frozenset("changing switching alternating swapping each colour stripe striping".split())


def _pass_colours(stream: Stream) -> None:
    """Pass ", 1 rnd each in Green, Brown, Green", ", changing colour every 2 rows"."""
    if stream.at_end() or stream.said.isdisjoint(_COLOURED):
        return
    found = ignoring_case(_COLOURS).match(stream.text, stream.end)
    if found is not None:
        stream.pass_to(found.end())


#: what the rows that are repeated do, told besides; up to which number they do it is checked
_SHAPING_TOLD = (
    r"\s*,?\s*(?:(?:de|in)creasing|shaping) (?:as (?:before|set) )?(?:at|along) (?:the )?"
    r"(?:neck|armhole|front|side|inner|outer|inside|outside|shaped|curved|same|each|both) edges?"
    r"(?: (?:on|in) (?:every|each) (?:row|rnd|round)| as (?:before|set))?"
    r"(?=,? until (?:there are )?\d)"
)


def _pass_shaping_told(stream: Stream) -> None:
    """Pass ", decreasing at neck edge on every row," before "until 15 sts remain"."""
    if "edge" in stream.said and not stream.said.isdisjoint(("dec", "inc", "shaping")):
        found = ignoring_case(_SHAPING_TOLD).match(stream.text, stream.end)
        if found is not None:
            stream.pass_to(found.end())


def _then_repeated(stream: Stream) -> RepeatRows | None:
    """``, then rep Row 3``, ``, then Row 1 once more``.

    Takes: , then Row 1 once more
    Refuses: , fasten off
    """
    mark = stream.at
    parted = False
    while stream.accept_any(",", ";", ".", "then", "and"):
        parted = True
    again = stream.accept("rep") and not stream.is_word("from")
    stream.accept("work")
    numbered = stream.is_word("row", "rnd", "r") and stream.ahead().kind == "num"
    here = stream.at
    numbered = numbered or bool(_ordinal_refs(stream))  # "then 2nd and 3rd rows once"
    stream.at = here
    if not parted or not (again or numbered):
        stream.at = mark
        return None
    return _repeated(stream)


def _ordinal_refs(stream: Stream) -> list[RowRef]:
    """``2nd and 3rd rows``, ``the 4th row``.

    Takes: 2nd and 3rd rows
    """
    mark = stream.at
    stream.articles()
    numbers = []
    while (found := ordinals(stream)) is not None:
        numbers.append(found)
        if not stream.accept_any("and", "&", ","):
            break
        stream.accept("and")
    word = stream.accept_any("row", "rnd")
    stream.accept_any("incl", "inclusive")
    if numbers and word is None and _is_as(stream, mark) and _alone(stream):
        word = "row"  # "as the 2nd"
    if not numbers or word is None:
        stream.at = mark
        return []
    return [RowRef("Row" if word == "row" else "Rnd", *pair) for pair in numbers]


def _passes_as(stream: Stream) -> bool:
    """Pass "as", "the same as given for" in front of a row; "same" alone is the last row again."""
    mark = stream.at
    stream.articles()
    same = stream.accept("same")
    if same and _alone(stream):
        return True
    if stream.accept("as"):
        if same and stream.is_word("before") and stream.ahead().kind in ("mark", "end"):
            return True
        stream.accept_any("given", "described", "written", "set")
        stream.accept_any("for", "in")
        stream.articles()
        by_letter = stream.is_word("r") and stream.ahead().kind == "num"
        if by_letter or stream.is_word("row", "rnd", "last", "prev") or _ordinal_row(stream):
            return True
    stream.at = mark
    return False


def _alone(stream: Stream) -> bool:
    """Whether nothing says which row "the same" is: the last one."""
    return stream.at_end() or stream.is_mark(".", ",", ";", "(", "[", "-", "=")


def _means_the_last(stream: Stream) -> bool:
    """Whether behind "same", "same as" no other row is named than the last ("as before")."""
    before = stream.tokens[stream.at - 1].word
    return (before == "same" and _alone(stream)) or (before == "as" and stream.accept("before"))


def _shaped_as_before(stream: Stream) -> bool:
    """Pass "inc as before", "dec as in last rnd": what differs is told behind it.

    Takes: inc as before
    Refuses: inc in next st
    """
    mark = stream.at
    stream.take()
    if stream.accept_any("over", "above", "in", "at"):  # "dec over the decs of last rnd"
        stream.articles()
        if stream.accept_any("inc", "dec") and stream.accept_any("of", "in", "on"):
            stream.articles()
            if stream.accept_any("last", "prev") and stream.accept_any("row", "rnd"):
                return True
        stream.at = mark
        return False
    if stream.accept("as"):
        if stream.accept_any("before", "set", "established", "est"):
            return True
        stream.accept_any("in", "for", "on")
        stream.articles()
        if stream.accept_any("last", "prev") and stream.accept_any("row", "rnd"):
            return True
    stream.at = mark
    return False


def _is_as(stream: Stream, at: int) -> bool:
    """Whether "as", "as the" stands in front of a token."""
    words = [token.word for token in stream.tokens[max(at - 2, 0) : at]]
    return words[-1:] == ["as"] or words == ["as", "the"]


def _ordinal_row(stream: Stream) -> bool:
    """Whether a row by its place comes next: "1st round", "2nd" alone."""
    first = stream.token.kind == "ord" or stream.is_word("first")
    after = stream.ahead()
    alone = stream.token.kind == "ord" and (
        after.kind == "end" or after.word in (".", ",", ";", "(", "and", "to", "-")
    )
    return alone or (first and after.word in ("row", "rnd"))


def row_ref(stream: Stream) -> RowRef:
    """Which earlier row is meant.

    Takes: last 2 rows
    Refuses: last st
    """
    stream.articles()
    here = stream.ahead().kind == "num" or stream.ahead().word in ("row", "rnd")
    if stream.accept_any("last", "prev") or (here and stream.accept_any("these", "this")):
        if stream.is_amount():
            count = stream.amount()
            word = "Row" if stream.take().word == "row" else "Rnd"
            return RowRef("Row" if word == "Row" else "Rnd", count, None, "last")
        if not stream.accept_any("row", "rnd"):
            raise stream.fault(mend="write “rep last row” or “rep Row 2”")
        return RowRef()
    part = _part_of_row(stream)
    if stream.is_word("row", "rnd", "r") and stream.ahead().kind == "num":
        token = stream.take()
        if part is not None and stream.ahead().word in ("more", "times"):
            return RowRef(name=f"{part} {token.word}")  # "rep Rib Rnd 4 more times"
        mark = stream.at
        first, last = label_numbers(stream)
        counted = stream.token.kind in ("stitch", "chn", "grp") or stream.is_word("st")
        if last is not None and not token.plural and (counted or _blank_behind(stream, mark)):
            stream.at = mark  # "rep Rnd 3 – 90": the number behind the dash is a count
            first, last = stream.amount(), None
        return RowRef("Rnd" if token.word == "rnd" else "Row", first, last, part)
    return RowRef(name=_row_name(stream))


#: a part in front of the number of a row: "Left Neck Rows 2 and 3"
_PART = r"(?P<name>[A-Z][\w'’]*(?: [\w'’]+){0,2}),? (?=(?:Row|Rnd|Round)s? \d)"


def _part_of_row(stream: Stream) -> str | None:
    """Pass the part whose rows are meant.

    Takes: Left Neck Rows 2 and 3
    Refuses: Row 2
    """
    if stream.token.kind not in ("word", "stitch") or stream.is_word("row", "rnd", "r"):
        return None
    found = re.compile(_PART).match(stream.text, stream.start)
    if found is None:
        return None
    stream.pass_to(found.end())
    return found["name"]


def _blank_behind(stream: Stream, at: int) -> bool:
    """Whether a blank parts the number at a token index from a dash behind it."""
    number, dash = stream.tokens[at], stream.tokens[at + 1]
    return dash.word == "-" and dash.start > number.end


_NAME_ENDS = frozenset(
    {"each", "until", "for", "to", "ending", "end", "fasten", "once", "1x", "2x", "3x"}
)


def _row_name(stream: Stream) -> str:
    start = stream.start
    end = start
    while stream.token.kind in ("word", "stitch") and stream.token.word not in _NAME_ENDS:
        end = stream.take().end
    if end == start:
        raise stream.fault(mend="say which row: “rep Row 2”, “rep last row” or a row's name")
    return stream.text[start:end]


#: where the hook is behind the last of several rows, which changes no count
_AT_AN_EDGE = (
    r"at (?:the )?(?:(?:right|left|center|centre|side|front|back|neck|armhole|inner|outer|sleeve|"
    r"shoulder|underarm|lower|upper) )*(?:edge|seam|opening|front|back|side)\b"
)


def _row_ending(stream: Stream) -> tuple[RowRef | None, Side | None]:
    """``ending with a Row 3``, ``ending with a WS row``.

    Takes: , ending with a WS row
    """
    mark = stream.at
    stream.accept_any(",", ";")
    chained = stream.ahead(2).word in ("row", "rnd") and stream.ahead(3).word == "with"
    if (chained and stream.ahead().word == "last") or not stream.accept_any("ending", "end"):
        stream.at = mark  # "ending last row with ch 1": its turning chain
        return None, None
    edge = ignoring_case(_AT_AN_EDGE).match(stream.text, stream.start)
    if edge is not None:
        stream.pass_to(edge.end())
        return None, None
    stream.accept_any("with", "after", "on", "by")
    stream.articles()
    side = ending_side(stream)
    if side is not None:
        return None, side
    return (_ordinal_refs(stream) or [row_ref(stream)])[0], None


def row_ending(stream: Stream) -> RowRef | None:
    """``, ending with a 2nd row``: that row, where no side is named.

    Takes: , ending with Row 3
    Refuses: , ending with a WS row
    """
    if stream.said.isdisjoint(("ending", "end")):
        return None
    mark = stream.here()
    try:
        found, side = _row_ending(stream)
    except NotUnderstood:
        found, side = None, None
    if found is None or side is not None:
        stream.back_to(mark)
    return found


def rest_steps(stream: Stream) -> tuple[Step, ...]:
    """Steps behind a repeated row, up to a count ("…, fasten off (60 sts)").

    Takes: , fasten off
    """
    if stream.at_end() or stream.is_mark("(", "[", ":", "=", "-"):
        return ()
    mark = stream.here()
    stream.accept_any(",", ";", ".")
    if stream.at_end() or stream.is_mark("(", "["):
        return ()
    if stream.is_amount():
        stream.back_to(mark)
        return ()
    start = stream.start
    found = steps(stream, "(", "[", ":", "=", "-")
    refuse_work(stream, found, start)
    return found


#: what may stand behind rows that are worked again: it works no stitch
_NO_WORK = (Aside, Turn, JoinRound, JoinYarn, FastenOff, StatedHere, Chain, LeaveRest, Travel)


def refuse_work(stream: Stream, found: tuple[Step, ...], start: int) -> None:
    """``rep Row 1 3 times, sc2tog, sc to end``: what is worked behind is a row of its own."""
    if all(isinstance(step, _NO_WORK) or _evens(step) for step in found):
        return
    raise stream.fault(
        start,
        found="what is worked behind the rows that are repeated is not read",
        mend="write it as a row of its own",
    )


def _evens(step: Step) -> bool:
    """Whether a step is the one slip stitch that evens the end of a spiral."""
    only = step.content[0] if isinstance(step, Work) and len(step.content) == 1 else None
    slips = isinstance(only, Stitch) and only.name == "sl st"
    return slips and isinstance(step, Work) and getattr(step.target, "count", ONE).values == (1,)


def goes_on(stream: Stream, *, by_number: bool = False) -> RepeatRows | None:
    """``cont to dec 6 sts each rnd, working 1 fewer sc between decs each time``.

    What is said of how the rows differ tells how they are worked; alone, "cont in this way" does
    not say whether the shaping goes on. ``by_number``: the number of stitches is enough.

    Takes: cont to dec 6 sts each rnd, working 1 fewer sc between decs each time
    Takes: cont in this way, working 1 sc fewer each side of the sc3tog on every row
    Refuses: cont in this way
    """
    mark = stream.here()
    if not stream.is_word("inc", "dec"):
        stream.take()
    shaped, sts = False, None
    way_said = _in_this_way(stream)
    stream.accept_any(",", "to")
    if (way := stream.accept_any("inc", "dec")) is not None:
        shaped = True
        if stream.is_amount():
            said = stream.amount()
            if not stream.accept("st") and stream.token.kind == "stitch":
                stream.take()
            sts = said if way == "inc" else _less(said)
        if stream.ahead().word in ("each", "per", "row", "rnd"):
            stream.accept_any("in", "on")
        stream.accept_any("each", "per")
        stream.accept_any("row", "rnd")
    way_said = _in_this_way(stream) or way_said
    change = growth(stream) if shaped or way_said else None
    if by_number and change is None and shaped and way_said and sts is not None:
        # one stitch more or fewer beside each: the number named tells whether that is so
        change = Growth(1 if way == "inc" else -1, False, True, stream.start, stream.end)  # noqa: FBT003, a record
    if not isinstance(change, Growth):
        stream.back_to(mark)
        return None
    until = until_of(stream)
    change = replace(change, sts=sts, each=True)  # what goes on does so in every row
    return RepeatRows((RowRef(),), until, steps=rest_steps(stream), change=change)


def _less(amount: Amount) -> Amount | None:
    """So many fewer; None where a formula says how many."""
    values = tuple(None if one is None else -one for one in amount.values)
    return replace(amount, values=values) if amount.formula is None else None


def _in_this_way(stream: Stream) -> bool:
    """Pass "in this manner", "as set": whether that is said."""
    mark = stream.at
    if stream.accept("in"):
        stream.accept_any("this", "the", "that")
        stream.accept("same")
        if stream.accept_any("way", "manner", "fashion"):
            return True
        if stream.accept("as", "manner"):
            return True
    elif stream.accept_any("thus", "so") or (
        stream.accept("as") and stream.accept_any("set", "est", "established", "before")
    ):
        return True
    stream.at = mark
    return False
