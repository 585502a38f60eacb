"""Counts that a row states: "60 (66, 72) sts", "20 dc, 20 ch-1 sps", "66 spaces of 2 ch".

Takes     ``Stream`` at a number, or at the words in front of one.
Gives     ``stated``, ``stated_in_brackets``, ``begins_count``, ``pass_count_words``.
Problems  ``size-list``; else none of its own: ``NotUnderstood``.
From      notation.md, "Stated counts".

A unit that begins with "?" is one of the designer's own, or of a part: it is told as not checked.
"""

from __future__ import annotations

from collections.abc import Iterator

from workeven.notation.counts_of_parts import counts_of_parts
from workeven.notation.expressions import ignoring_case
from workeven.notation.remarks import COUNTING, counting
from workeven.notation.stream import NotUnderstood, Stream
from workeven.notation.tree import Amount, Stated

#: words behind a unit that change nothing.
_FILLERS = (
    "now",
    "total",
    "made",
    "in",
    "all",
    "each",
    "on",
    "side",
    "rem",
    "around",
    "across",
    "left",
    "now",
    "remain",
    "remains",
    "altogether",
)
#: words with which steps go on: a number before them counts no unit
_NO_UNIT = (
    "sk",
    "ch",
    "inc",
    "dec",
    "times",
    "more",
    "rep",
    "in",
    "and",
    "turn",
    "join",
    "each",
    "next",
    "first",
    "last",
    "to",
    "of",
    "rem",
    "row",
    "rnd",
    "x",
)
#: units that are neither stitches nor spaces; they are compared with what their names count.
_UNITS = ("shell", "group", "picot", "block", "petal", "leaf", "square")


def stated_in_brackets(stream: Stream, closing: int) -> Stated | None:
    """The count in the brackets that begin at the position, or None where they say another thing.

    The position is left where it was.

    Takes: (20 dc, 20 ch-1 sps)
    Refuses: (picot)
    """
    mark = stream.here()
    start = stream.start
    stream.take()
    found = stated(stream, start)
    if found is None or stream.at != closing:
        stream.back_to(mark)
        return None
    stream.at = mark.at
    end = stream.tokens[closing].end
    return Stated(found.counts, start, end, found.without_chain, found.parts)


def stated(stream: Stream, start: int) -> Stated | None:
    """A stated count: ``60 (66, 72) sts``, ``20 dc, 20 ch-1 sps``, or None.

    Takes: 20 dc, 20 ch-1 sps
    Refuses: dc in next st
    """
    counts: list[tuple[Amount, str]] = []
    pass_count_words(stream)
    while True:
        amount = _stated_amount(stream) or (_one_more(stream) if counts else None)
        if amount is None:
            return None
        alone = _of_parts_alone(stream) if counts else None
        unit = alone or _picot_loops(stream) or _made_of_a_chain(stream) or _unit(stream)
        if unit is None:
            return None
        unit = _of_so_many(stream, unit, amount)
        part = _of_a_part(stream, unit)
        part = unit if unit[0] == "?" else part
        of_it = part.removeprefix(f"?{unit}") if part != unit else ""
        both = of_it and counts and not counts[-1][1].startswith("?")
        if both and _joined_by_and(stream, counts[-1][0], amount):
            # "1 pc st and 10 dc on each side"
            counts[-1] = (counts[-1][0], f"?{counts[-1][1]}{of_it}")
        counts.append((amount, part))
        _at_the_end_of_row(stream)
        if "for" in stream.said:
            _for_what(stream)
        while stream.is_word(*_FILLERS) or (
            stream.token.kind == "num" and stream.ahead().word == "side"
        ):
            stream.take()
        if _with_the_first(stream):
            counts[-1] = (amount, unit if unit[0] == "?" else f"?{unit}s, the first among them")
        elif not _besides(stream):
            counting(stream)
        if len(counts) == 1 and (parts := counts_of_parts(stream, unit)) is not None:
            said = (*counts, *parts.unknown)
            return Stated(said, start, stream.end, stream.without_chain, parts.known)
        if len(counts) == 1 and unit == "sts" and _parts_follow(stream):
            continue
        stitches = next((one for _, one in counts if one[0] != "?" and one[-2:] != "sp"), unit)
        counts.extend(_told_beside(stream, stitches))
        if (stream.is_mark("=") and _equal_count(stream, counts)) or not _further_count(stream):
            return Stated(tuple(counts), start, stream.end, stream.without_chain)


def _one_more(stream: Stream) -> Amount | None:
    """``30 dc, 10-ch loop``, ``19 shells and a half shell``: one of what is named behind others.

    Takes: a
    Refuses: turn
    """
    if stream.is_word("a", "an"):
        token = stream.take()
        return Amount((1,), None, token.start, token.end)
    if stream.token.kind == "chn":
        return Amount((1,), None, stream.start, stream.start)
    return None


#: what a colon tells of a count besides: "[60 tr: 15 along each side]", "(92 dc: 46 on front, 46
#: on back)"
_BESIDE = r"\s*[:,]\s*(?:and )?(?P<number>\d+) (?P<words>[a-z][^()\[\].;:,\d]*)(?=[)\],])"
#: the same in brackets: "12 tr (that is 3 tr along each side)"
_THAT_IS = (
    r"\s*\((?:that is|that.s|i\.?e\.?,?|so|which is) (?P<number>\d+) "
    r"(?:(?:[hd]?dc|sc|h?tr|dtr|sts?|stitches) )?(?P<words>[a-z][^()\[\];:\d]*)\)"
)


#: what is said behind a count within its brackets: "(44 sts now, and it should be lying flat.)"
_BESIDE_REMARK = (
    r",? (?:and|but|so|which) (?:it|they|you|the|this|that|is|are)\b[^()\[\]\d]*(?=[)\]])"
)


def _told_beside(stream: Stream, unit: str) -> Iterator[tuple[Amount, str]]:
    """Counts behind another that nobody checks, or that are the same in stitches.

    "[60 tr: 15 along each side]", "6 petals (36 sts)".
    """
    found = None
    if stream.is_mark(":"):
        found = ignoring_case(_BESIDE).match(stream.text, stream.tokens[stream.at - 1].end)
    elif stream.is_mark("("):
        found = ignoring_case(_THAT_IS).match(stream.text, stream.tokens[stream.at - 1].end)
    if found is not None:
        while found is not None:
            at = found.span("number")
            stream.pass_to(found.end())
            yield Amount((int(found["number"]),), None, *at), f"?{unit} {found['words'].strip()}"
            found = ignoring_case(_BESIDE).match(stream.text, stream.tokens[stream.at - 1].end)
    elif stream.is_mark(",") and (
        remark := ignoring_case(_BESIDE_REMARK).match(stream.text, stream.start)
    ):
        stream.pass_to(remark.end())
    elif stream.is_mark("(") and stream.ahead().kind == "num":
        mark = stream.here()
        stream.take()
        amount = _stated_amount(stream)
        in_all = _unit(stream) if amount is not None else None
        if amount is not None and in_all is not None and stream.accept(")"):
            yield amount, in_all
        else:
            stream.back_to(mark)


#: what each of the things counted is made of ("14 groups of 3 dc")
_OF_SO_MANY = (
    r"\s+of (?P<number>\d+|two|three|four|five|six|seven|eight|nine|ten) "
    r"(?:sts?|stitch(?:es)?|sc|h?dc|h?tr|dtr|(?P<ch>ch(?:s|ains?)?))\b(?: each)?"
)
_OF_NUMBERS = {
    word: number
    for number, word in enumerate("two three four five six seven eight nine ten".split(), 2)
}


def _of_so_many(stream: Stream, unit: str, amount: Amount) -> str:
    """``14 groups of 3 dc``: a unit of its own, in which the size of each is told too.

    Takes: of 3 dc
    """
    if "of" not in stream.said:
        return unit
    found = ignoring_case(_OF_SO_MANY).match(stream.text, stream.end)
    if found is None:
        return unit
    stream.pass_to(found.end())
    if found["ch"] and unit == "sp":  # "66 spaces of 2 ch", "15 loops of 3 ch"
        number = found["number"].lower()
        return f"ch-{_OF_NUMBERS.get(number, number)} sp"
    return f"?{stream.text[amount.end : found.end()].strip()}"


#: the first of what is counted, made in another way ("6 V-sts, counting the first 4 ch and tr")
_THE_FIRST = (
    r"\s*,? (?:counting|including|incl\.?) (?:the )?(?:first|beg(?:inning)?|turning) "
    r"(?:(?:\d+ ?-?ch|ch(?:ain)?[ -]?\d+) (?:and|\+|&) (?:\d+ )?(?:sc|h?dc|h?tr|dtr)"
    r"(?: as (?:an?|one|1) [a-z-]+)?|one)(?=\s*[,;)\].]|\s*\Z)"
)


def _with_the_first(stream: Stream) -> bool:
    """Pass ", counting the first 4 ch and tr": the number is told as not checked.

    Takes: , counting the first 4 ch and tr
    """
    if stream.said.isdisjoint(COUNTING):
        return False
    found = ignoring_case(_THE_FIRST).match(stream.text, stream.end)
    if found is None:
        return False
    stream.pass_to(found.end())
    return True


#: what is not among the stitches that are counted, and what is worked at both ends besides
_BESIDES = (
    r"\s*,?\s*(?:"
    r"(?:not (?:counting|including)|excluding) (?:the )?(?:picots?|sl sts?|slip stitches|joins?)|"
    r"(?:and |with )?(?:the )?(?:\d+ )?picots?,? (?:(?:which|that) are )?not counted|"
    r"plus (?:all )?the (?:ch(?:ain)? )?(?:spaces|sps|loops|lps|picots|chains|chs|corners)|"
    r"(?:counting|with) (?:each|every) (?:of the )?(?:underarm )?(?:ch(?:ain)?s?) "
    r"(?:counted |counting )?as (?:an?|one|1) (?:st(?:itch)?|[hd]?dc|sc|h?tr)|"
    r"each (?:underarm )?ch(?:ain)? count(?:s|ed|ing) as (?:an?|one|1) "
    r"(?:st(?:itch)?|[hd]?dc|sc|h?tr)|"
    r"(?:which|that) are not counted|not counted)(?=\s*[,;)\].]|\s*\Z)"
)


_SAYING_BESIDES = frozenset("not excluding plus each every".split())


def _besides(stream: Stream) -> bool:
    """Pass ", not counting the picots", ", with 64 picots not counted".

    Takes: , the picots not counted
    """
    if stream.said.isdisjoint(_SAYING_BESIDES):
        return False
    found = ignoring_case(_BESIDES).match(stream.text, stream.tokens[stream.at - 1].end)
    if found is None:
        return False
    if "ch" in found[0] and " as " in found[0]:  # "counting each underarm ch as a st"
        stream.chains_counted = (found.start(), found.end())
    stream.pass_to(found.end())
    return True


def _equal_count(stream: Stream, counts: list[tuple[Amount, str]]) -> bool:
    """``25 tr = 8 blks``: the same in a unit that this row is not worked in, told as not checked.

    Takes: = 8 patterns
    """
    mark = stream.here()
    stream.take()
    amount = _stated_amount(stream)
    unit = None if amount is None else _unit(stream)
    if amount is None or unit is None or not stream.is_mark(")", "]"):
        stream.back_to(mark)
        return False
    counts.append((amount, unit if unit[0] == "?" else f"?{_named(stream, amount)}"))
    return True


def _named(stream: Stream, amount: Amount) -> str:
    """The words of a unit, as they stand."""
    return stream.text[amount.end : stream.end].strip()


def _further_count(stream: Stream) -> bool:
    """Pass what parts one count from the next: "," "and", within brackets ";" too.

    Takes: ;
    """
    if stream.accept_any(",", "and", "&", "+", "plus"):
        stream.accept("and")
        if stream.is_word("with") and stream.ahead().kind in ("num", "formula"):
            stream.take()
        return True
    if stream.is_word("with") and stream.ahead().kind in ("num", "formula"):
        stream.take()
        return _of_part_alone(stream)
    semicolon = stream.is_mark(";") and stream.ahead().kind in ("num", "formula", "end")
    return (
        semicolon and (stream.ahead().kind == "end" or _in_brackets(stream)) and bool(stream.take())
    )


def _of_part_alone(stream: Stream) -> bool:
    """Whether the count behind "with" is that of a part: "14 V-sts with 2 dc at each side".

    Else it may be what each of those counted is made of, which is no count of the row.

    Takes: 2 dc at each side
    """
    mark = stream.here()
    _stated_amount(stream)
    unit = _unit(stream)
    part = unit is not None and _of_a_part(stream, unit) != unit
    stream.back_to(mark)
    if not part:
        stream.at -= 1  # in front of "with" again
    return part


def _in_brackets(stream: Stream) -> bool:
    """Whether the position is within brackets that are open."""
    depth = 0
    for token in stream.tokens[stream.at :]:
        if token.word in ("(", "[") and token.kind == "mark":
            depth += 1
        elif token.word in (")", "]") and token.kind == "mark":
            depth -= 1
            if depth < 0:
                return True
    return False


#: at the end of which of several rows: a count there is that of the last
_AT_END = (
    r"\s+(?:at (?:the )?end of|after|at|on|in(?= (?:the )?last)) (?:the )?"
    r"(?:last |\d+(?:st|nd|rd|th) )?(?:row|rnd|round)\b(?:\s*\d+)?|"
    r"\s+(?:in|on) (?:each|every) (?:row|rnd|round)\b"
)


def _at_the_end_of_row(stream: Stream) -> None:
    """Pass "at end of Row 8" behind the count of rows that are repeated."""
    if "row" in stream.said or "rnd" in stream.said:
        found = ignoring_case(_AT_END).match(stream.text, stream.end)
        if found is not None:
            stream.pass_to(found.end())


#: what the stitches that are left are for
_FOR_A_PART = (
    r"\s+(?:(?:remain(?:s|ing)?|left|are left) )?"
    r"for (?:the |each |one |first |second |left |right )*"
    r"(?:ribbon|lacing|cord|elastic|beading|drawstring|button|shoulder|neck|strap|sleeve|armhole|"
    r"front|back|body|thumb|hand|heel|leg|ear|arm|flap)s?\b"
)


def _for_what(stream: Stream) -> None:
    """Pass "remain for the shoulder" behind a count.

    Takes: remain for the shoulder
    """
    found = ignoring_case(_FOR_A_PART).match(stream.text, stream.tokens[stream.at - 1].end)
    if found is not None:
        stream.pass_to(found.end())


#: of which parts a count is stated, where it is none of the whole row
_A_PART = (
    r"\s*(?:(?:(?:on|in|at|along|for|of|around)\s+)?(?:each|every|either|per|both)\s+"
    r"(?:of (?:the )?\d+ )?"
    r"(?:sides?|edges?|sections?|points?|corners?|panels?|motifs?|petals?|legs?|ends?|arms?|wedges?|"
    r"segments?|gussets?|repeats?|half|halves|triangles?|lea(?:f|ves)|wings?|scallops?|squares?|"
    r"flowers?|blocks?|strips?|wheels?|spokes?|rays?|feathers?|pineapples?|diamonds?|waves?)\b|"
    r"to (?:a|each|the) (?:side|edge|section)\b|"
    r"between\s+(?:the |each |two )?(?:corners?(?: (?:sps?|spaces?|lps?|loops?|sts?))?|incs?|"
    r"increases?|decs?|decreases?|markers?|points?|raglans?|borders?|edges?)\b)"
)


#: behind a number that has no unit: in which part there are so many
_PART_ALONE = rf"{_A_PART}(?: of (?:the )?[a-z]+)?(?=\s*(?:[,.;)\]]|\Z))"


def _of_parts_alone(stream: Stream) -> str | None:
    """``61 dc, 30 on each side of the spine``: a unit of its own, which nobody checks.

    Takes: on each side of the spine
    """
    if stream.said.isdisjoint(("each", "every", "either", "per", "both")):
        return None
    found = ignoring_case(_PART_ALONE).match(stream.text, stream.tokens[stream.at - 1].end)
    if found is None:
        return None
    stream.pass_to(found.end())
    return f"?sts {found[0].strip()}"


def _of_a_part(stream: Stream, unit: str) -> str:
    """``6 sc in each section``: a unit of its own, since it is not that of the whole row.

    Takes: in each section
    """
    if stream.said.isdisjoint(("each", "every", "either", "per", "both", "between", "bet", "to")):
        return unit
    found = ignoring_case(_A_PART).match(stream.text, stream.end)
    if found is None:
        return unit
    stream.pass_to(found.end())
    return f"?{unit} {found[0].strip()}"


def _joined_by_and(stream: Stream, first: Amount, second: Amount) -> bool:
    """Whether two counts are told in one breath, so that both are of the part behind them."""
    between = stream.text[first.end : second.start]
    return between.rstrip().endswith((" and", " &")) and "," not in between


def _parts_follow(stream: Stream) -> bool:
    """Pass what parts the stitches in all from what they are: "112 sts: 100 dc and 12 chs"."""
    mark = stream.here()
    if stream.accept_any(":", "=", "-") and stream.is_amount() and stream.ahead().kind != "end":
        return True
    stream.back_to(mark)
    return False


#: words in front of a stated count: "Total: 20 sc", "you now have 12 shells", "st count = 40"
_BEFORE_COUNT = frozenset(
    "total of you now have should there are will be st count makes making giving gives leaving "
    "the this a again them".split()
)


#: behind which row so many are there
_AFTER = (
    r"(?:after|at (?:the )?end of) (?:the )?(?:last )?(?:row|rnd|round)s?(?: \d+)?,? "
    r"(?=you (?:should |will )?(?:now )?have \d|there (?:are|will be|should be) (?:now )?\d)"
)


def begins_count(stream: Stream) -> bool:
    """Whether a stated count may begin here: with its number, or with the words in front of it."""
    token = stream.token
    if token.kind == "rate":
        return token.word[:1].isdigit() and stream.ahead().kind in ("chn", "stitch")
    if token.word in ("after", "at"):
        return ignoring_case(_AFTER).match(stream.text, stream.start) is not None
    return (token.word in _BEFORE_COUNT and token.kind == "word") or stream.is_amount()


def pass_count_words(stream: Stream) -> bool:
    """Pass the words in front of a stated count; False, and nothing passed, where none follows."""
    mark = stream.at
    if stream.is_word("after", "at") and (
        found := ignoring_case(_AFTER).match(stream.text, stream.start)
    ):
        stream.pass_to(found.end())
    while stream.token.word in _BEFORE_COUNT and stream.token.kind == "word":
        stream.take()
    if stream.at > mark:
        stream.accept_any(":", "=", "-")
    if stream.is_amount():
        return True
    stream.at = mark
    return False


def _stated_amount(stream: Stream) -> Amount | None:
    """The number of a stated count, or one a size.

    Takes: 60
    Refuses: sts
    """
    if stream.is_mark("-") and stream.ahead().word == "," and stream.vocabulary.sizes:
        token = stream.take()  # the first size does not work the row
        first = Amount((None,), None, token.start, token.end)
        stream.amounts.append(first)
    elif stream.is_amount():
        first = stream.amount()
    elif stream.token.kind == "rate" and stream.token.word[:1].isdigit():
        token = stream.take()  # "16 x 1-ch sp"
        first = Amount((token.value,), None, token.start, token.end)
        stream.amounts.append(first)
    else:
        return None
    if first.formula is not None or first.by_size():
        return first
    values: list[int | None] = list(first.values)
    end = first.end
    while stream.is_mark(",") and _lists_on(stream):
        stream.take()
        token = stream.take()
        values.append(token.value if token.kind == "num" else None)
        end = token.end
    if len(values) == 1:
        return first
    sizes = stream.vocabulary.sizes
    if sizes and len(values) != len(sizes):
        raise NotUnderstood(
            first.start,
            end,
            f"{len(values)} numbers are stated, and there are {len(sizes)} sizes",
            f"state {len(sizes)} numbers, one for each of {', '.join(sizes)}, or one for all",
            "size-list",
        )
    stream.amounts[-1] = Amount(tuple(values), None, first.start, end)
    return stream.amounts[-1]


def _lists_on(stream: Stream) -> bool:
    """Whether after the comma the list of numbers by size goes on (and no new unit's number)."""
    token = stream.ahead()
    if token.kind == "mark" and token.word == "-":
        return True
    return token.kind == "num"


def _picot_loops(stream: Stream) -> str | None:
    """Pass "picot loops": of how many picots each is, nobody says, and they are not counted."""
    if stream.token.word != "picot" or stream.ahead().word not in ("sp", "lp"):
        return None
    stream.at += 2
    return "?picot loops"


#: things made of a chain, and no space: "2 8-ch handles"
_OF_A_CHAIN = r"\s*(?:\d+-ch|ch-\d+) (?!sps?\b|spaces?\b|lps?\b|loops?\b|arch)[a-z]+\b"


def _made_of_a_chain(stream: Stream) -> str | None:
    """``2 8-ch handles``: a unit of the designer's own.

    Takes: 8-ch handles
    Refuses: 8-ch sps
    """
    if stream.token.kind not in ("num", "grp"):
        return None
    made = ignoring_case(_OF_A_CHAIN).match(stream.text, stream.tokens[stream.at - 1].end)
    if made is None:
        return None
    stream.pass_to(made.end())
    return f"?{made[0].strip()}"


def _unit(stream: Stream) -> str | None:
    token = stream.token
    if token.kind == "stitch":
        stream.take()
        stream.accept("group")
        return token.word
    if token.kind == "grp":
        stream.take()
        return "group" if stream.accept("group") else None
    if token.kind == "chn":
        stream.take()
        if stream.token.kind == "word" and not stream.is_word("sp", "lp", *_FILLERS, "and"):
            named = stream.text[stream.start : stream.take().end]
            if not stream.is_word("sp", "lp"):  # "2 ch-7 handle sps" are two ch-7 sps
                return f"?ch-{token.value} {named}"
        stream.accept_any("sp", "lp")
        return f"ch-{token.value} sp"
    if (
        stream.is_word("ch")
        and stream.ahead().kind == "num"
        and stream.ahead(2).word in ("sp", "lp")
    ):
        stream.take()
        chains = stream.take().value
        stream.take()
        return f"ch-{chains} sp"
    if stream.accept("ch"):
        return "sp" if stream.accept_any("sp", "lp") else "ch"
    if stream.accept_any("sp", "lp"):
        return "sp"
    if stream.accept_any("st", "sts"):
        return "sts"
    if token.kind == "word" and token.word in _UNITS:
        stream.take()
        return token.word
    if token.kind in ("mark", "end"):
        return "sts"
    return _other_unit(stream)


#: words before a stitch that say that it is not a whole one ("2 half shells")
_PARTLY = ("half", "partial", "beg", "end", "edge", "border", "corner")


#: units of length: "leaving a 30 cm tail" counts nothing
_LENGTHS = ("cm", "mm", "m", "in", "inch", "inches", "yd", "yds", "yard", "yards")


def _other_unit(stream: Stream) -> str | None:
    """A unit of the designer's own ("2 handles"): it is read, and told as not checked.

    Takes: handles
    Refuses: cm
    """
    if stream.token.word in _LENGTHS:
        return None
    start = stream.start
    end = start
    while stream.is_word("patt", "rep"):  # "32 patterns", "4 pattern repeats"
        end = stream.take().end
    if end > start and (stream.at_end() or stream.token.kind == "mark"):
        return f"?{stream.text[start:end]}"
    while stream.token.kind == "word" and not stream.is_word(*_NO_UNIT):
        end = stream.take().end
    if end > start and stream.tokens[stream.at - 1].word in _PARTLY:
        end = stream.take().end if stream.token.kind == "stitch" else end
    if end > start and stream.is_word("ch", "sp"):
        end = stream.take().end
    return f"?{stream.text[start:end]}" if end > start else None
