"""What is said of a chain: as what it counts, and whether a stated count has it.

Takes     ``Stream``.
Gives     ``counts_as``, ``counting``, ``COUNTING``, ``EACH_CHAIN``.
Problems  none of its own: ``NotUnderstood``.
From      notation.md, "Chains at the start" and "Stated counts".
"""

from __future__ import annotations

import re

from workeven.notation.expressions import ignoring_case
from workeven.notation.stream import Stream
from workeven.notation.tree import ONE, Amount, CountsAs
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
        if stream.is_mark(",") and (stream.ahead().word == "which" or _chains_follow(stream)):
            stream.take()
        stream.accept("-")
        said = ignoring_case(_STANDS_FOR).match(stream.text, stream.start)
    found = _counts_as(stream, start, said=bool(bracket or said))
    if found is not None and bracket:
        _pass_other_chains(stream)
        _pass_where(stream)
        while not stream.is_mark(")", "]") and not stream.at_end():
            stream.accept_any(",", ".")
            if stream.is_mark(")", "]"):
                break
            if stream.token.kind == "stitch" and stream.ahead().word in ("row", "rnd"):
                stream.take()  # "here and on all dc rows"
            if stream.token.kind != "word" or stream.is_word(*_SAYS_MORE):
                found = None
                break
            if stream.take().word in ("throughout", "all", "any", "every", "anywhere"):
                found = replace(found, throughout=True)
        stream.accept_any(")", "]")
    if found is None:
        stream.back_to(mark)
    return found


def _chains_follow(stream: Stream) -> bool:
    """Whether behind a comma "the 3 ch missed counting as 1 tr" stands."""
    missed = stream.ahead(2).kind == "num" and stream.ahead(3).word == "ch"
    return (
        stream.ahead().word == "the"
        and missed
        and stream.ahead(4).word in ("sk", "skipped")
        and stream.ahead(5).word in ("counting", "standing", "counts", "count")
    )


#: how a chain is said to stand for a stitch without brackets ("3 chain for the first treble")
_STANDS_FOR = (
    r"(?:to (?:count|stand)(?: on this (?:st|stitch))?\b|"
    r"which (?:will )?(?:counts?|stands?|makes?|forms?)\b|"
    r"for (?:(?:an?|one|1|the(?: first| beg(?:inning)?)?|first) )(?:first )?"
    r"(?:(?:half|double|single) )?(?:treble|crochet|tr|dc|hdc|htr|sc|dtr)\b)"
)
#: each chain is a stitch
EACH_CHAIN = re.compile(
    r"\(\s*(?:underarm[,:;] )?each (?:ch|chain)s?\b[^()]*"
    r"\bcounts? as (?:a |one |1 )?(?:st|stitch)\s*\)",
    re.IGNORECASE,
)
#: words behind "counts as dc" that say where it holds: here, and in all rows
_THROUGHOUT = tuple(
    "here now and or throughout in each row rnd on all the patt first of every from unless "
    "otherwise noted stated".split()
)
#: words behind "counts as dc" that say more than that
_SAYS_MORE = tuple("ch sk inc dec rep turn join st sp lp not but made work then plus".split())
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
    if said and stream.is_word("as") and stream.ahead().kind == "num":
        stream.take()  # "ch 4 (as 1 tr, 1 ch)"
        return _counted_parts(stream, start, number)
    for_it = said and stream.is_word("for")  # "ch 5 (for 1 dc and ch 2)"
    if not (for_it or stream.accept_any(*_COUNTS) or (said and stream.accept_any(*_STANDS))):
        stream.at = mark
        return _told_alone(stream, start, number) if said else None
    if stream.accept_any("as", "for"):
        stream.articles()
        stream.accept("your")
    elif said:
        stream.accept("over")  # "the ch 3 stands over the first st"
        stream.articles()
        stream.accept("your")
    leg = _first_leg(stream)
    if leg is not None:
        return CountsAs((), None, number, start, stream.end, leg)
    _pass_first(stream)
    found = _counted_parts(stream, start, number)
    return replace(found, throughout=True) if always and found is not None else found


def _told_alone(stream: Stream, start: int, number: Amount | None) -> CountsAs | None:
    """``ch 4 (dc and 1 ch)``, ``ch 3 (1 dc)``: what the chain stands for, without a word for it.

    Takes: dc and 1 ch)
    Refuses: dc in next st)
    """
    before = [token.word for token in stream.tokens[max(stream.at - 3, 0) : stream.at]]
    if "ch" not in before[:2]:
        return None
    mark = stream.here()
    told = stream.token
    found = _counted_parts(stream, start, number)
    one = found is not None and [count.values for count, _ in found.stitches] == [(1,)]
    alone = one and told.kind == "num" and found is not None and found.chains is None
    whole = found is not None and found.chains is not None and bool(found.stitches)
    if not (alone or whole) or not stream.is_mark(")"):
        stream.back_to(mark)
        return None
    return found


#: words that tell the chain which counts: "(the 3 skipped chs …)", "(beg ch-3 …)", "(these 3 ch …)"
_WHICH = (
    "first",
    "turning",
    "beg",
    "these",
    "this",
    "that",
    "you",
    "initial",
    "foundation",
    "tch",
    "the",
    "of",
)


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
    for _ in range(_MOST_WORDS):
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
        elif stream.is_word("at") and stream.ahead().word in ("beg", "the", "start"):
            stream.at += 1  # "counting ch-3 at beg as 1 dc"
            stream.accept("the")
            stream.accept("start")
        elif not stream.accept_any(*_WHICH):
            break
    return number if skipped else None


#: words with which a chain is told; a row of more ("ch ch ch …") would be read anew at each of them
_MOST_WORDS = 16


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
    if stream.token.kind == "ord":
        stream.take()  # "the 3 ch you skipped is your third dc"


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


#: squares of filet, where a piece has them among its stitches
_SQUARES = ("space", "mesh", "block", "square", "open mesh", "open square")


def _counted_parts(stream: Stream, start: int, number: Amount | None) -> CountsAs | None:
    stitches: list[tuple[Amount, str]] = []
    chains: Amount | None = None
    while True:
        counted = stream.is_amount()
        count = stream.amount() if counted else ONE
        _pass_first(stream)
        token = stream.token
        if not stitches and _of_the_start(stream):
            stream.accept_any(",", "and")
            stream.articles()
            continue
        if token.word.lower() in _SQUARES:
            return None  # "missed ch make the first space": of what that is, the row tells
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


#: chains below the first space of a first row: "2 skipped chs, dc and ch 2"
_OF_THE_START = (
    r"\s*(?:(?:\d+ )?(?:skipped|missed|foundation|starting) ch(?:ain)?s?|ch(?:ain)?s? of (?:the )?"
    r"(?:foundation|start(?:ing ch(?:ain)?)?|base)|ch(?:ain)? ?-?\d+ of (?:the )?"
    r"(?:foundation|start(?:ing ch(?:ain)?)?|base))(?: ch(?:ain)?)?(?=\s*(?:,|and\b|\+))"
)


def _of_the_start(stream: Stream) -> bool:
    """Pass "2 skipped chs" in front of what the chain stands for.

    Takes: skipped chs, dc and ch 2
    Refuses: dc and ch 2
    """
    found = ignoring_case(_OF_THE_START).match(stream.text, stream.tokens[stream.at - 1].end)
    if found is not None:
        stream.pass_to(found.end())
    return found is not None


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
    if stream.is_mark(",") and after.kind == "mark":  # "ch 3 for first dc, *1 dc in next dc"
        return False
    behind = 3 if after.kind == "num" else 2  # ", tr in next st", ", 1 tr on next tr"
    if stream.is_mark(",") and stream.ahead(behind).word in _GOES:
        return False
    ordinal = after.kind == "ord" or after.word in ("last", "next", "other", "rem", "the")
    return not ordinal and stream.accept_any("and", "plus", "+", ",") is not None


#: words that say of a stated count what is counted with it
COUNTING = ("counting", "including", "incl", "includes", "include", "excluding")


def counting(stream: Stream) -> None:
    """``, counting ch 3 as 1 dc``: kept, since it says what the chain of the row counts as.

    Takes: , counting ch 3 as 1 dc
    """
    if stream.said.isdisjoint(COUNTING):
        return
    mark = stream.here()
    stream.accept_any(",", "-")
    start = stream.start
    denied = stream.accept("not") or stream.is_word("excluding")
    if stream.accept_any(*COUNTING):
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
