"""How often and how long: "9 more times", "for 12 rows", "until piece measures 30 cm".

Takes     ``Stream``.
Gives     ``until_of``, ``until_ended``, ``ending_side``, ``times_of``.
Problems  ``unit-length``, ``unit-formula``, ``size-list``, as ``NotUnderstood``.
From      notation.md, "Whole pieces".
"""

from __future__ import annotations

import re

from workeven.arithmetic import formulas, quantities
from workeven.notation.contents import in_all, times_count
from workeven.notation.expressions import ignoring_case
from workeven.notation.labels import Side, side_word
from workeven.notation.stated_counts import stated
from workeven.notation.stream import NotUnderstood, Stream
from workeven.notation.tree import (
    Amount,
    AsLong,
    Length,
    RowsCount,
    RowsTimes,
    RowsUntil,
    Stated,
    UntilCount,
    UntilMeasures,
)
from workeven.records import replace

#: a length that is left to the maker
_AS_LONG = (
    r"(?:for|to|until|till)\s+(?:(?:the|your|it|they|edging|lace|piece|work|strip|band|strap|cord|"
    r"border|trim|trimming|insertion|braid|belt|tie|scarf|edge|"
    r"is|are|of|as|measures)\s+)*"
    r"(?:(?:desired|required|wanted|necessary|right)\s+(?:length|width|size|depth)|"
    r"(?:length|width|size|depth)\s+(?:desired|required|wanted|needed)|"
    r"long\s+(?:enough|as\s+(?:desired|wanted|required|needed|you\s+(?:like|wish))))\b"
)


def until_of(stream: Stream) -> RowsUntil | None:
    """How often: ``9 more times``, ``for 12 rows``, ``until piece measures 30 cm``.

    Takes: until piece measures 30 cm
    Refuses: around
    """
    if stream.at_end():
        return None
    mark = stream.here()
    stream.accept_any(",")
    as_long = ignoring_case(_AS_LONG).match(stream.text, stream.start)
    if as_long is not None:
        stream.pass_to(as_long.end())
        return AsLong()
    found = times_of(stream) or _for(stream) or _until_clause(stream)
    if found is None:
        stream.back_to(mark)
    return found


def until_ended(stream: Stream) -> RowsUntil | None:
    """How often a row is worked, and on which side of the fabric the last one is.

    Takes: until piece measures 30 cm, ending with a WS row
    Refuses: around
    """
    return ended(stream, until_of(stream))


def ended(stream: Stream, until: RowsUntil | None) -> RowsUntil | None:
    """The same with the side of the last row, where that is told behind it."""
    if not isinstance(until, UntilMeasures | RowsCount) or stream.said.isdisjoint(_ENDING):
        return until
    mark = stream.here()
    stream.accept_any(",", ";")
    stream.accept("and")
    if stream.accept_any(*_ENDING):
        stream.accept_any("with", "after", "on", "by")
        stream.articles()
        if (side := ending_side(stream)) is not None:
            return replace(until, side=side)
    stream.back_to(mark)
    return until


#: the words with which it is said on which side the last row is
_ENDING = ("ending", "end")


def ending_side(stream: Stream) -> Side | None:
    """The side of the last row; with the right side "facing for next row" it is a WS row.

    Takes: WS row
    Takes: RS facing for next row
    Refuses: Row 3
    """
    mark = stream.at
    side = side_word(stream)
    if side is None:
        return None
    if stream.accept("facing"):
        stream.accept("you")
        stream.accept_any("for", "to")
        stream.articles()
        stream.accept_any("work", "beg", "start")
        stream.articles()
        if not (stream.accept_any("next", "foll") and stream.accept_any("row", "rnd")):
            stream.at = mark
            return None
        return "WS" if side == "RS" else "RS"
    stream.accept_any("row", "rnd")
    return side


def this_row_again(stream: Stream) -> RowsUntil | None:
    """Behind the steps of a row: how often it is worked again.

    Takes: rep this row 9 more times
    Refuses: rep Row 2
    """
    if not stream.accept("rep", "this"):
        return None
    stream.accept_any("row", "rnd")
    until = until_of(stream)
    if until is None:
        raise stream.fault(mend="say how often: “rep this row 9 more times”")
    return replace(until, again=True) if isinstance(until, RowsTimes) else until


def times_of(stream: Stream) -> RowsTimes | None:
    """A number of times.

    Takes: 9 more times
    Refuses: 9 sts
    """
    another = stream.accept_any("another", "a", "further")
    if another == "a" and not stream.accept("further"):
        return None
    count = times_count(stream)
    if count is not None:
        if in_all(stream) or stream.accept("total"):
            return _besides_the_first(stream, count)
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


def _besides_the_first(stream: Stream, count: Amount) -> RowsTimes:
    """``3 times in all``, of rows that were worked once: so often besides."""
    if count.formula is not None or not all(count.values):
        raise stream.fault(mend="write how often they are worked again: “twice more”")
    values = tuple([None if one is None else one - 1 for one in count.values])
    return RowsTimes(replace(count, values=values), more=True)


def _for(stream: Stream) -> RowsUntil | None:
    """A number of rows, or a length, or a number of times in all.

    Takes: for 12 rows
    Takes: for 3 times total
    Refuses: for thumb
    """
    if not stream.accept("for"):
        return None
    mark = stream.here()
    if stream.is_amount():
        count = times_count(stream)
        if count is not None and (in_all(stream) or stream.accept("total")):
            return _besides_the_first(stream, count)
        stream.back_to(mark)
        amount = stream.amount()
        stream.accept("more")
        if stream.accept_any("row", "rnd"):
            return RowsCount(amount)
    stream.back_to(mark)
    length = _length(stream)
    return UntilMeasures(length, section=True, end=length.end)


#: "from underarm": measured from where the section begins, not from the starting chain
_PLACES_ALONG = frozenset("underarm divide division armhole marker join joining body".split())
#: words for the whole piece, and words that say nothing of what is measured
_WHOLE = frozenset("piece work it total length project crochet fabric strip".split())
_IDLE = frozenset("the this your whole finished entire of in side".split())


#: behind "until": so many are left ("8 sc remain", "20 (22, 24) sts are left")
_SO_MANY_REMAIN = (
    r"(?:only )?\d+(?: ?\([\d, ]+\))? (?!rows?\b|rnds?\b|rounds?\b)[a-z-]+ "
    r"(?:(?:are )?(?:rem(?:ain)?|remaining|left)\b)"
)


def _until_clause(stream: Stream) -> RowsUntil | None:
    """Up to a length, or to a count.

    Takes: until there are 159 dc
    Refuses: until done
    """
    if not stream.accept_any("until", "till"):
        return None
    if (rows := _rows_in_all(stream)) is not None:
        return rows
    if _rows_of_a_part(stream):
        return AsLong()
    if (
        stream.accept("there", "are")
        or stream.accept("you", "have")
        or ignoring_case(_SO_MANY_REMAIN).match(stream.text, stream.start)
    ):
        mark, found = stream.here(), stated(stream, stream.start)
        if found is None:
            stream.back_to(mark)
            found = _stated_up_to_comma(stream)
        if found is None:
            raise stream.fault(mend="write “until there are 60 sts”")
        return UntilCount(found)
    words: list[str] = []
    while stream.token.kind in ("word", "stitch") and stream.token.word not in _MEASURED:
        words.append(stream.take().word)
    if not stream.accept_any(*_MEASURED):
        raise stream.fault(mend="write “until piece measures 30 cm”")
    stream.accept_any("approximately", "about", "approx")
    named = [word for word in words if word not in _IDLE]
    section = "section" in words
    part = "" if section or _WHOLE.intersection(named) else " ".join(named)
    length = _length(stream)
    elsewhere, end = False, length.end
    while not stream.at_end() and not stream.is_mark(",", ".", ";", "(", "[", ":", "=", "-"):
        if stream.is_word("ending", "end"):
            break
        elsewhere = stream.take().word in _PLACES_ALONG or elsewhere
        end = stream.end
    section = section or elsewhere
    return UntilMeasures(length, section=section, end=end, part="" if elsewhere else part)


def _stated_up_to_comma(stream: Stream) -> Stated | None:
    """``20 sts rem, ending with Row 2``: the count, of which the words behind are no part.

    Takes: 20 sts
    Refuses: ending with Row 2
    """
    mark, tokens = stream.here(), stream.tokens
    ahead = range(stream.at, len(tokens) - 1)
    end = next((at for at in ahead if tokens[at].word == ","), len(tokens) - 1)
    stream.tokens = (*tokens[:end], tokens[-1])
    found = stated(stream, stream.start)
    stream.tokens = tokens
    if found is None:
        stream.back_to(mark)
    return found


#: words between what is measured and its length ("until sides are 7 in. deep")
_MEASURED = ("measures", "measure", "is", "are")

_WORKED = r"(?:have been |has been |are |were |you have )?(?:worked|completed?|done|made)\b"
_IN_ALL = (
    r"\s*,?\s*(?:in all|in total|all together|altogether|total|"
    r"from (?:the )?(?:beg(?:inning)?|start|foundation(?: ch(?:ain)?)?))\b"
)


def _rows_in_all(stream: Stream) -> RowsCount | None:
    """Behind "until": a number of rows, those before among them.

    Takes: 20 rows have been worked in all
    Takes: 11 rows are done
    Takes: there are 20 rows in total
    Refuses: 20 cm
    """
    if stream.said.isdisjoint(("row", "rnd")):
        return None
    mark = stream.here()
    there = stream.accept("there", "are") or stream.accept("you", "have")
    if not there and (has := ignoring_case(_PIECE_HAS).match(stream.text, stream.start)):
        stream.pass_to(has.end())
        total = stream.is_amount()
        count = stream.amount() if total else None
        if count is not None and stream.accept_any("row", "rnd"):
            return RowsCount(count, in_all=True)
        stream.back_to(mark)
    stream.accept_any("worked", "completed")
    stream.accept("a", "total", "of")
    total = stream.tokens[stream.at - 1].word == "of"
    count = stream.amount() if stream.is_amount() else None
    if count is None or not stream.accept_any("row", "rnd"):
        stream.back_to(mark)
        return None
    before = ignoring_case(_IN_ALL).match(stream.text, stream.end)
    if before is not None:  # "until 10 rows in all have been worked"
        stream.pass_to(before.end())
    worked = ignoring_case(rf"\s*{_WORKED}").match(stream.text, stream.end)
    if worked is not None:
        stream.pass_to(worked.end())
    in_all = before or ignoring_case(_IN_ALL).match(stream.text, stream.end)
    if in_all is not None and before is None:
        stream.pass_to(in_all.end())
    done = worked is not None and worked[0].split()[-1] in ("done", "complete", "completed")
    labelled = _is_last_of_label(stream, count)
    if not (total or in_all or done or labelled) or not (there or worked):
        raise stream.fault(
            found="whether the rows before are among them is not said",
            mend="write “for 20 rows”, or “until 20 rows have been worked in all”",
        )
    return RowsCount(count, in_all=True)


_RANGE = r"\s*(?:rows?|rnds?|rounds?|rds?)\.?\s*\d+\s*(?:to|through|thru|[–—-])\s*(?P<last>\d+)\b"


def _is_last_of_label(stream: Stream, count: Amount) -> bool:
    """``Rows 6 to 80: … until 80 rows have been worked``: the label says that all are meant."""
    found = ignoring_case(_RANGE).match(stream.text)
    return found is not None and count.values == (int(found["last"]),)


#: the whole piece, of which the rows are counted from its first
_PIECE_HAS = (
    r"(?:the |your |this )?(?:whole )?(?:piece|work|project|fabric|crochet) (?:has|counts)\b"
)
#: a part, of which nobody says with which row it began
_PART_HAS = (
    r"(?:the |your |this )?(?P<part>[a-z]+(?: [a-z]+)?) (?:has|counts) "
    r"(?=(?P<number>\d+)(?: ?\([\d, –-]+\))* (?P<rows>rows|rnds|rounds)\b)"
)


def _rows_of_a_part(stream: Stream) -> bool:
    """``until the strip has 48 rows``: how many are there already is not known, nor how many more.

    What it says is kept as a count that is told as not checked.
    """
    if stream.said.isdisjoint(("row", "rnd")):
        return False
    found = ignoring_case(_PART_HAS).match(stream.text, stream.start)
    if found is None:
        return False
    start = stream.start
    stream.pass_to(found.end())
    number = stream.amount()
    stream.take()
    said = Stated(((number, f"?{found['rows']} of the {found['part']}"),), start, stream.end)
    stream.told_count = said
    return True


_LENGTH_ENDS = re.compile(
    r",?\s*(?:and |but )?at the same time|"
    r",\s*(?:end|fasten|turn|do |work|then|place|change|join)|\bending\b|\bfrom\b|;|"
    r"\bin total\b|\. |\.\Z|\bin all\b|"
    # a stated count behind the unit: "30 cm (12 sc)", "30 cm: 12 sc", "30 cm - 12 sc"
    r"(?<=[a-z\"])\s*[(\[](?=\s*\d)(?![^()\[\]]*(?:[cm]?m|in|inch|inches|\"|yds?)\.?\s*[)\]])|"
    r"(?<=[a-z\"])(?:\s*[:=]| [-–—])(?=\s*\d)|"
    r"(?<=[)\]])\s*[(\[](?=\s*\d[^()\[\]]*\b[a-z]+\s*[)\]])(?!"
    r"[^()\[\]]*(?:[cm]?m|in|inch|inches|\"|yds?)\.?\s*[)\]])"
)


#: a length in one unit with the other in brackets: "3 in (7.5 cm)"; the first one is meant
_BOTH_UNITS = (
    r"(?P<first>[\d./½¼¾⅓⅔⅛ -]+\s*(?:mm|cm|m|in|inch(?:es)?|\"|yds?)\.?)\s*"
    r"[(\[/]\s*[\d./½¼¾⅓⅔⅛ -]+\s*(?:mm|cm|m|in|inch(?:es)?|\"|yds?)\.?\s*[)\]]?"
)


def _length(stream: Stream) -> Length:
    """A length, or one a size.

    Takes: 30 cm
    Refuses: 30 rows
    """
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
    which = _WHICH_WAY.search(stream.text, start)
    if which is not None and which.start() <= end:
        found = _length_in(stream, start, which.start())
        stream.pass_to(which.end())
        return found
    return _length_in(stream, start, end)


#: words behind a length that change nothing: "7 in. deep", "60 inches long"
_WHICH_WAY = re.compile(
    r"(?<=[a-z\"½¼¾)\]])(?:\.|\b)\s+(?:deep|long|high|tall|in (?:length|depth|height))\b",
    re.IGNORECASE,
)


def _length_in(stream: Stream, start: int, end: int) -> Length:
    """The length that stands between two columns."""
    text = stream.text[start:end].strip()
    both = ignoring_case(_BOTH_UNITS).fullmatch(text)
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
    stream.pass_to(end)
    return Length(found, None, start, start + len(text))
