"""What is said of a row's counts: stated counts, what a chain counts as.

Takes     ``Stream``.
Gives     ``counts_as``, ``stated``, ``stated_in_brackets``.
Problems  none of its own: ``NotUnderstood``.
From      notation.md, "Stated counts" and "Chains at the start".
"""

from __future__ import annotations

import re

from workeven.notation.counts_of_parts import counts_of_parts
from workeven.notation.expressions import ignoring_case
from workeven.notation.stream import NotUnderstood, Stream
from workeven.notation.tree import ONE, Amount, CountsAs, Stated
from workeven.records import replace

# --- counts as -----------------------------------------------------------------------------


def counts_as(stream: Stream) -> CountsAs | None:
    """``(counts as dc and ch 2)``, ``(does not count as st)``, or None.

    Takes: (counts as dc and ch 2)
    Refuses: (20 dc)
    """
    mark = stream.here()
    start = stream.start
    stream.accept("in", "all")  # "ch 4 in all (to count as dc and ch 1)"
    bracket = stream.accept("(") or stream.accept("[")
    said = None
    if not bracket:
        if stream.is_mark(",") and stream.ahead().word == "which":
            stream.take()
        stream.accept("-")
        said = ignoring_case(_STANDS_FOR).match(stream.text, stream.start)
    found = _counts_as(stream, start, said=bool(bracket or said))
    if found is not None and bracket:
        _pass_other_chains(stream)
        _pass_where(stream)
        while not stream.is_mark(")", "]") and not stream.at_end():
            stream.accept(",")
            if not stream.is_word(*_THROUGHOUT):
                found = None
                break
            if stream.take().word in ("throughout", "all"):
                found = replace(found, throughout=True)
        stream.accept_any(")", "]")
    if found is None:
        stream.back_to(mark)
    return found


#: how a chain is said to stand for a stitch without brackets ("3 chain for the first treble")
_STANDS_FOR = (
    r"(?:to (?:count|stand)\b|which (?:will )?(?:counts?|stands?|makes?|forms?)\b|"
    r"for (?:an?|one|1|the(?: first| beg(?:inning)?)?) "
    r"(?:first )?(?:(?:half|double|single) )?(?:treble|crochet|tr|dc|hdc|htr|sc|dtr)\b)"
)
#: each chain is a stitch
EACH_CHAIN = re.compile(
    r"\(\s*each (?:ch|chain)s?\b[^()]*\bcounts? as (?:a |one |1 )?(?:st|stitch)\s*\)", re.IGNORECASE
)
#: words behind "counts as dc" that say where it holds: here, and in all rows
_THROUGHOUT = tuple(
    "here now and or throughout in each row rnd on all the patt first of every from unless "
    "otherwise noted stated".split()
)
#: what becomes of the chains that count as nothing: "(first 3 ch count as dc, 4th ch is skipped)"
_OTHER_CHAINS = re.compile(
    r"\s*(?:,|;|and\b)?\s*(?:the\s+)?(?:\d+(?:st|nd|rd|th)|last|next|other|remaining|rem|fourth|"
    r"fifth|sixth|second|third)\s+(?:one|ch(?:ain)?s?(?:es)?)?\s*(?:is|are|being)?\s*"
    r"(?:left\s+)?(?:skipped|missed|unworked|not\s+(?:used|worked|counted))",
    re.IGNORECASE,
)


def _pass_other_chains(stream: Stream) -> None:
    found = _OTHER_CHAINS.match(stream.text, stream.end)
    if found is not None:
        stream.pass_to(found.end())


#: words that say that a chain stands for a stitch
_COUNTS = ("counts", "count", "counted", "counting")
#: others that do so in brackets behind the chain alone ("(= 1 dc)", "(stands for first dc)")
_STANDS = tuple(
    "= equals equal stands stand standing acts replaces is are makes make forms form".split()
)


def _pass_where(stream: Stream) -> None:
    """Pass where the stitch stands that a chain is: "in same st as last sl st".

    A chain stands where the hook is; what is told more changes nothing.
    """
    if stream.is_word("in", "on") and stream.ahead().word in ("same", "the", "first", "last"):
        while not (stream.at_end() or stream.is_mark(")", "]", ",", ";")):
            stream.take()


def _counts_as(stream: Stream, start: int, *, said: bool) -> CountsAs | None:
    number = _which_chain(stream)
    never = stream.is_word("never")
    if _denied(stream):
        if stream.accept("as"):
            stream.articles()
            stream.accept_any("st")
            if stream.token.kind == "stitch":
                stream.take()
        return CountsAs((), None, number, start, stream.end, throughout=never)
    mark = stream.at
    if said and stream.accept_any("to", "which"):  # "(to count as 1 dc)", "(which stand for a tr)"
        stream.accept("will")
    always = said and stream.accept("always")
    for_it = said and stream.is_word("for")  # "ch 5 (for 1 dc and ch 2)"
    if not (for_it or stream.accept_any(*_COUNTS) or (said and stream.accept_any(*_STANDS))):
        stream.at = mark
        return None
    if stream.accept_any("as", "for"):
        stream.articles()
        stream.accept("your")
    elif said:
        stream.articles()
    leg = _first_leg(stream)
    if leg is not None:
        return CountsAs((), None, number, start, stream.end, leg)
    _pass_first(stream)
    found = _counted_parts(stream, start, number)
    return replace(found, throughout=True) if always and found is not None else found


#: words that tell the chain which counts: "(the 3 skipped chs …)", "(beg ch-3 …)", "(these 3 ch …)"
_WHICH = ("first", "turning", "beg", "these", "this", "initial", "foundation", "tch", "the", "of")


def _which_chain(stream: Stream) -> Amount | None:
    """Pass the words for the chain that counts; the number of chains, where they are skipped.

    "First 3 skipped chs" are some of those.

    Takes: 3 skipped chs
    """
    skipped, number = False, None
    if stream.is_word("first") and stream.ahead().kind == "num":
        stream.take()
        if _chain_behind(stream) and stream.ahead().word in ("skipped", "sk"):
            stream.amount()
    while True:
        token = stream.token
        if token.word in _COUNTS and token.kind == "word":
            return number if skipped else None
        if stream.accept_any("skipped", "sk", "unworked", "unused"):
            skipped = True
        elif token.kind == "chn":
            stream.take()
            number = Amount((token.value,), None, token.start, token.end)
        elif stream.is_amount() and _chain_behind(stream):
            number = stream.amount()
        elif stream.accept("ch"):
            number = stream.amount() if stream.is_amount() else number
        elif not stream.accept_any(*_WHICH):
            return number if skipped else None


def _chain_behind(stream: Stream) -> bool:
    """Whether the number is one of chains ("3 skipped ch", "3 ch")."""
    at = stream.at + 1
    while stream.tokens[at].word in ("skipped", "sk", "unworked", "unused", *_WHICH):
        at += 1
    return stream.tokens[at].word == "ch" or (
        at > stream.at + 1 and stream.tokens[at].word in _COUNTS
    )


def _pass_first(stream: Stream) -> None:
    """Pass "first", "1st", "beg": the stitch that the chain stands for is the row's first."""
    stream.accept_any("first", "beg")
    if stream.token.kind == "ord" and stream.token.value == 1:
        stream.take()


def _first_leg(stream: Stream) -> str | None:
    """``first leg of dc4tog``: the stitch of which a chain is a part."""
    if stream.said.isdisjoint(("leg", "part", "half")):
        return None
    mark = stream.at
    stream.accept_any("first")
    if stream.accept_any("leg", "part", "half") and stream.accept("of"):
        stream.articles()
        stream.accept_any("first", "beg")
        if stream.token.kind == "stitch":
            return stream.take().word
    stream.at = mark
    return None


def _denied(stream: Stream) -> bool:
    """``does not count``, ``doesn't count``, ``not counted``, ``is not a st``."""
    if stream.said.isdisjoint(("not", "doesnt", "dont", "never")):
        return False
    mark = stream.at
    if stream.accept("never") and stream.accept_any("counts", "count", "counted"):
        return True
    stream.at = mark
    if stream.accept_any("does", "do"):
        if stream.accept("not", "count"):
            return True
    elif stream.accept_any("doesnt", "dont"):
        if stream.accept("count"):
            return True
    elif stream.accept("not") or stream.accept("is", "not") or stream.accept("are", "not"):
        if stream.accept_any("counted", "counting", "count"):
            return True
        stream.articles()
        stream.accept("as")
        stream.articles()
        if stream.accept("st"):
            return True
    stream.at = mark
    return False


def _counted_parts(stream: Stream, start: int, number: Amount | None) -> CountsAs | None:
    stitches: list[tuple[Amount, str]] = []
    chains: Amount | None = None
    while True:
        counted = stream.is_amount()
        count = stream.amount() if counted else ONE
        _pass_first(stream)
        token = stream.token
        if token.kind == "stitch":
            stream.take()
            stitches.append((count, token.word))
        elif stream.accept("st"):
            stitches.append((count, "st"))
        elif token.kind == "chn":
            stream.take()
            stream.accept_any("sp", "lp")
            chains = Amount((token.value,), None, token.start, token.end)
        elif stream.accept("ch"):
            if not (stitches and counted and _passed_over(stream)):
                chains = stream.amount() if stream.is_amount() else count
                stream.accept_any("sp", "lp")
        elif stitches and stream.accept_any("skipped", "sk"):
            _pass_skipped(stream)
        elif counted and (stream.at_end() or stream.is_mark(")", "]", ".")):
            stitches.append((count, "st"))  # "counting skipped chains as one"
        else:
            return None
        if not _another_part(stream):
            return CountsAs(tuple(stitches), chains, number, start, stream.end)
        stream.articles()


def _pass_skipped(stream: Stream) -> None:
    """Pass the rest of ``dc, ch 1 and a skipped ch``: a chain that is passed over."""
    if stream.is_amount():
        stream.amount()
    stream.accept("ch")


def _passed_over(stream: Stream) -> bool:
    """Pass "passed over" behind ``dc and 1 ch``: a chain that lies below the first space."""
    over = stream.accept("passed", "over") or stream.accept_any("skipped", "sk", "passed")
    return bool(over) or stream.accept("below") or stream.accept("left", "unworked")


#: words behind a stitch that is worked, and is no part of what a chain counts as
_GOES = ("in", "on", "around", "over")


def _another_part(stream: Stream) -> bool:
    """Pass what joins two parts of what a chain stands for ("dc and ch 2", "dc, ch 2")."""
    after = stream.ahead()
    if stream.is_word("and") and after.word in ("throughout", "on", "here", "each"):
        return False
    if stream.is_mark(",") and (after.word in _THROUGHOUT or after.word in ("sk", "turn")):
        return False
    behind = 3 if after.kind == "num" else 2  # ", tr in next st", ", 1 tr on next tr"
    if stream.is_mark(",") and stream.ahead(behind).word in _GOES:
        return False
    ordinal = after.kind == "ord" or after.word in ("last", "next", "other", "rem", "the")
    return not ordinal and stream.accept_any("and", "plus", "+", ",") is not None


# --- stated counts -------------------------------------------------------------------------

#: words behind a unit that change nothing.
_FILLERS = (
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
        amount = _stated_amount(stream)
        if amount is None:
            return None
        unit = _unit(stream)
        if unit is None:
            return None
        unit = _of_so_many(stream, unit, amount)
        counts.append((amount, unit if unit[0] == "?" else _of_a_part(stream, unit)))
        _at_the_end_of_row(stream)
        if "for" in stream.said:
            _for_what(stream)
        while stream.is_word(*_FILLERS) or (
            stream.token.kind == "num" and stream.ahead().word == "side"
        ):
            stream.take()
        if not _with_the_first(stream):
            _counting(stream)
        else:
            counts[-1] = (amount, unit if unit[0] == "?" else f"?{unit}s, the first among them")
        if len(counts) == 1 and (parts := counts_of_parts(stream, unit)) is not None:
            said = (*counts, *parts.unknown)
            return Stated(said, start, stream.end, stream.without_chain, parts.known)
        if len(counts) == 1 and unit == "sts" and _parts_follow(stream):
            continue
        if (stream.is_mark("=") and _equal_count(stream, counts)) or not _further_count(stream):
            return Stated(tuple(counts), start, stream.end, stream.without_chain)


#: what each of the things counted is made of ("14 groups of 3 dc")
_OF_SO_MANY = (
    r"\s+of (?P<number>\d+|two|three|four|five|six|seven|eight|nine|ten) "
    r"(?:sts?|stitch(?:es)?|sc|h?dc|h?tr|dtr)\b(?: each)?"
)


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
    return f"?{stream.text[amount.end : found.end()].strip()}"


#: the first of what is counted, made in another way ("6 V-sts, counting the first 4 ch and tr")
_THE_FIRST = (
    r"\s*,? (?:counting|including|incl\.?) (?:the )?(?:first|beg(?:inning)?|turning) "
    r"(?:\d+ ?-?ch|ch(?:ain)?[ -]?\d+) (?:and|\+|&) (?:\d+ )?(?:sc|h?dc|h?tr|dtr)"
    r"(?: as (?:an?|one|1) [a-z-]+)?(?=\s*[,;)\]]|\s*\Z)"
)


def _with_the_first(stream: Stream) -> bool:
    """Pass ", counting the first 4 ch and tr": the number is told as not checked.

    Takes: , counting the first 4 ch and tr
    """
    if stream.said.isdisjoint(_COUNTING):
        return False
    found = ignoring_case(_THE_FIRST).match(stream.text, stream.end)
    if found is None:
        return False
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
    if stream.accept_any(",", "and", "&", "+"):
        stream.accept("and")
        if stream.is_word("with") and stream.ahead().kind in ("num", "formula"):
            stream.take()
        return True
    semicolon = stream.is_mark(";") and stream.ahead().kind in ("num", "formula", "end")
    return (
        semicolon and (stream.ahead().kind == "end" or _in_brackets(stream)) and bool(stream.take())
    )


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
    r"(?:last )?(?:row|rnd|round)\b(?:\s*\d+)?"
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
    r"(?:shoulder|neck|strap|sleeve|armhole|front|back|body|thumb|hand|heel|leg|ear|arm|flap)s?\b"
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
    r"\s*(?:(?:(?:on|in|at|along|for|of|around)\s+)?(?:each|every|either|per)\s+"
    r"(?:of (?:the )?\d+ )?"
    r"(?:sides?|edges?|sections?|points?|corners?|panels?|motifs?|petals?|legs?|ends?|arms?|wedges?|"
    r"segments?|gussets?|repeats?|half|halves|triangles?)\b|"
    r"to (?:a|each|the) (?:side|edge|section)\b|"
    r"between\s+(?:the |each |two )?(?:corners?|incs?|increases?|decs?|decreases?|markers?|points?|"
    r"raglans?)\b)"
)


def _of_a_part(stream: Stream, unit: str) -> str:
    """``6 sc in each section``: a unit of its own, since it is not that of the whole row.

    Takes: in each section
    """
    if stream.said.isdisjoint(("each", "every", "either", "per", "between", "bet", "to")):
        return unit
    found = ignoring_case(_A_PART).match(stream.text, stream.end)
    if found is None:
        return unit
    stream.pass_to(found.end())
    return f"?{unit} {found[0].strip()}"


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


def begins_count(stream: Stream) -> bool:
    """Whether a stated count may begin here: with its number, or with the words in front of it."""
    token = stream.token
    return (token.word in _BEFORE_COUNT and token.kind == "word") or stream.is_amount()


def pass_count_words(stream: Stream) -> bool:
    """Pass the words in front of a stated count; False, and nothing passed, where none follows."""
    mark = stream.at
    while stream.token.word in _BEFORE_COUNT and stream.token.kind == "word":
        stream.take()
    if stream.at > mark:
        stream.accept_any(":", "=", "-")
    if stream.is_amount():
        return True
    stream.at = mark
    return False


#: words that say of a stated count what is counted with it
_COUNTING = ("counting", "including", "incl", "includes", "include", "excluding")


def _counting(stream: Stream) -> None:
    """``, counting ch 3 as 1 dc``: kept, since it says what the chain of the row counts as.

    Takes: , counting ch 3 as 1 dc
    """
    if stream.said.isdisjoint(_COUNTING):
        return
    mark = stream.here()
    stream.accept_any(",", "-")
    start = stream.start
    denied = stream.accept("not") or stream.is_word("excluding")
    if stream.accept_any(*_COUNTING):
        stream.accept(".")
        number = stream.at
        skipped = _which_chain(stream)
        if stream.at > number:
            none = CountsAs((), None, skipped, start, stream.end, by_count=True)
            said = none if denied else _as_what(stream, start, skipped)
            if said is not None:
                stream.counting, stream.without_chain = said, denied
                return
    stream.back_to(mark)


def _as_what(stream: Stream, start: int, skipped: Amount | None) -> CountsAs | None:
    """Behind "counting ch 3": as what; as one stitch where that is not said.

    Takes: as 1 dc
    """
    if not stream.accept("as"):
        return CountsAs(((ONE, "st"),), None, skipped, start, stream.end)
    stream.articles()
    _pass_first(stream)
    return _counted_parts(stream, start, skipped)


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
