"""What is said once of the chains at the head of rows: "Ch 2 at beg of rnds never counts as a st".

Takes     ``Stream`` where a sentence begins.
Gives     ``chains_said``, ``SAYING``.
Problems  none.
From      notation.md, "Chains at the start" ("Defaults, which a file may set once").

A sentence of its own, and no part of a row: it says that it holds for all rows, or names no chain
that is made here. It may speak of several chains ("Neither ch 1 nor ch 2 counts, ch 3 does"), and
of one twice ("counts as a dc and stands in place of the first").

Worked example: ``In dc rows the 3 ch counts as the first st; in sc rows the 1 ch does not`` is a
place, a chain (3) and what it counts as (a stitch); behind the semicolon a place, a chain (1) and
that it does not.
"""

from __future__ import annotations

import re
from collections.abc import Sequence
from functools import cache
from typing import NamedTuple

from workeven.notation.expressions import ignoring_case
from workeven.notation.prose import describes
from workeven.notation.stream import Stream
from workeven.notation.tokens import Token
from workeven.notation.tree import ONE, Amount, Aside, ChainsSaid, CountsAs, Step

#: words without which nothing is said of what a chain counts as
SAYING = frozenset(
    "count counts counted never is are stand stands takes makes forms neither not isn't doesnt "
    "dont aren't =".split()
)
_ROW = r"(?:rows?|rnds?|rounds?)"
_OF_ROWS = (
    rf"(?:(?:the|each|every|all|any|an?|of) )*(?:(?:[hd]?dc|h?tr|dtr|sc|following) )?{_ROW}"
    rf"(?:,? (?:or|and) {_ROW})?"
)
#: where such a chain stands; each part may be said in front of the chain, or behind it
_WHERE = (
    rf"(?:(?:which|that) (?:begins?|starts?) {_OF_ROWS}|to turn|(?:at|on|in) (?:the |each |"
    rf"every )?turn|"
    r"(?:at|on|in|from) (?:the )?(?:very )?(?:beg(?:inning)?|start|commencement|head)"
    rf"(?: (?:of|in) {_OF_ROWS}| of each)?|(?:in|of) {_OF_ROWS})"
)
_LEAD = (
    r"(?:(?:note|nb|please note)(?: ?:|(?= ))(?: that\b)?|"
    r"(?:throughout|here|also|from here(?: on)?)\b ?,?)"
)
_KIND = r"(?P<which>beg(?:inning)?|turning|starting|initial|opening|extra)"
_CHAIN = (
    rf"(?:(?:the|all|any|each|every|both|your|a) )*(?:{_KIND} )?"
    r"(?:ch(?:ain)?s?(?:[ -]+of)?[ -]*(?P<behind>\d)\b|(?P<before>\d)[ -]?ch(?:ain)?s?\b|"
    r"(?<=ing\s)ch(?:ain)?s?\b|(?<=\bbeg\s)ch(?:ain)?s?\b|"
    r"ch(?:ain)?s?(?= (?:at|on) (?:the )?(?:beg|start)))"
)
#: slip stitches, told of with the chains: they count nothing anyhow
_SLIPS = r"(?:the )?(?:sl sts?|ss|s\.? ?s\.?|slip[- ]stitch(?:es)?)(?=\s)"
_SLIPS_LAST = (
    r"(?:the )?(?:joining |closing )?(?:sl sts?|ss|s\.? ?s\.?|slip[- ]stitch(?:es)?)"
    r"(?=\s*(?:count|[.;,]|\Z))"
)
#: a further chain that is told by its number alone: "ch 1 or 2"
_NUMBER = r"(?P<behind>\d)(?=\s)"
_JOINS = r"(?:, ?)?(?:nor|and|or)\b"
_NOT = r"(?:(?:does|do|is|are|will) not(?: ever)?|doesn.t|don.t|isn.t|aren.t|(?:is |are )?never)"
_STITCH = (
    r"(?:treble|[hd]?tr|[sh]?dc|dtr|sc|sts?|stitch(?:es)?|d c|s c|real st(?:itch)?|"
    r"(?:half |single |double |treble )+crochet|double)"
)
_FIRST = r"(?:(?:the|your|an?|any|one|1|first) )*"
_AS = (
    rf"{_FIRST}\(?(?P<as>{_STITCH})\b"
    r"(?:(?:,? (?:and|plus)| ?\+) (?:an? )?"
    r"(?:ch[- ]?(?P<chains>\d)|(?P<so_many>\d)[ -]?ch)(?: sp)?\b\)?)?"
)
#: the same by other names, since both stand in one expression
_FOR = _AS.replace("<as>", "<for>").replace("<chains>", "<more>").replace("<so_many>", "<many>")
#: what is said of the chain
_DENIED = (
    rf"(?:, ?)?(?:which )?(?:{_NOT} count(?:s|ed)?(?: (?:as|for) {_FIRST}(?:{_STITCH})\b)?|"
    rf"{_NOT} (?:to be )?(?:(?:counted|regarded|treated) as )?(?:an? |any )?(?:{_STITCH})\b|"
    r"counts? (?:as|for) nothing\b|"
    rf"(?:=|counts? as) (?:not an? |no )(?:{_STITCH})\b|"
    r"(?:is|are) (?:only |just |merely )+(?:there )?for (?:the )?height\b)"
)
_COUNTS = (
    r"(?:, ?)?(?:which )?(?:(?:is|are|will|does|do) )?(?:(?P<ever>always) )?"
    rf"(?:(?:count(?:s|ed|ing)?|reckoned|treated) as {_AS}|count(?:s|ed)?(?! as)|"
    rf"(?:stands? (?:in )?(?:for|as|place of|instead of)|replaces?|acts? as|takes? the place of|"
    rf"forms?|makes?|is|are|=) {_FOR})"
)
#: of a second chain, what is said of the first is only affirmed or denied
_SHORTLY = r"(?:(?:does|do|is|are)(?:n.t| not| never)?|never)\b"
_NO = ("not", "never", "n't", "n’t")
#: what may stand behind it
_TAIL = (
    r"(?:(?:, ?)?(?:throughout|anywhere|here|too|either|from here on|"
    r"all (?:the )?way through(?: this (?:one|piece|pattern))?|"
    r"unless (?:otherwise )?(?:stated|noted|told|said)(?: otherwise)?|in this (?:pattern|piece)|"
    r"unless (?:I|we) (?:say|tell you|state|note) (?:otherwise|so)|through this (?:one|piece)|"
    r"so (?:work|put|place) (?:your|the) last [a-z]+ (?:of (?:each|every) row )?"
    r"in(?:to)? (?:the )?top of it|"
    rf"(?:in|of) {_OF_ROWS}|of (?:the |a |each )?(?:first |next )?[a-z]+|to raise the work|"
    r"so (?:the |your )?first st(?:itch)? [^.;]*|and (?:the )?last [a-z]+ of (?:each |every )?row "
    r"is worked in(?:to)? (?:the )?(?:top of )?(?:the )?turning ch(?:ain)?|so (?:skip|"
    r"ignore) (?:it|them) when (?:you )?count(?:ing)?|"
    r"and (?:is|are) (?:not|never) worked into))"
)
_HOLDS = r"throughout|anywhere|all (?:the )?way|unless|from here on|in this"
_GOES_ON = r"(?:;|(?:, ?)?(?:and|but|while|whereas)\b|,)"
#: how rounds are closed or turned, said once more
_OF_ROUNDS = r"(?:we|you) (?:turn|join) (?:the work )?(?:at|after) (?:the end of )?(?:each|every)\b"
_REMARK = r"(?:, ?)?(?:and|but|so) (?P<words>[^.;]+)"
_END = r"(?=\s*(?:[.;]|\Z))"


class _Said(NamedTuple):
    """What is said of chains: nothing is counted for them (``denied``), or a stitch is.

    ``chains`` are their lengths, None for all; ``stitch`` is the column of its name, ``chains_too``
    how many chains are counted with it; ``general``: it is said of all such chains.
    """

    chains: tuple[int | None, ...]
    denied: bool
    general: bool
    stitch: int | None = None
    chains_too: int | None = None


@cache
def _spaced(pattern: str) -> re.Pattern[str]:
    """An expression in which a blank is one or several, and ``" ?"`` may be none."""
    return ignoring_case(pattern.replace(" ?", r"\s*").replace(" ", r"\s+"))


class _Words:
    """A place in the words of a sentence."""

    def __init__(self, text: str, at: int) -> None:
        self.text = text
        self.at = at

    def take(self, pattern: str) -> re.Match[str] | None:
        """Pass what an expression says from here, and the blanks behind it."""
        found = _spaced(pattern).match(self.text, self.at)
        if found is None or found.end() == self.at:
            return None
        self.at = found.end()
        while self.text[self.at : self.at + 1].isspace():
            self.at += 1
        return found

    def all_of(self, pattern: str) -> list[str]:
        """Pass an expression as often as it stands here."""
        passed = []
        while (found := self.take(pattern)) is not None:
            passed.append(found[0])
        return passed

    def goes_on_with_a_remark(self) -> bool:
        """Whether the sentence goes on with words that tell of no work; they are passed then."""
        found = ignoring_case(_REMARK).match(self.text, self.at)
        if found is None or not (
            describes(found["words"]) or ignoring_case(_OF_ROUNDS).match(found["words"])
        ):
            return False
        self.at = found.end()
        return True

    def ends(self) -> bool:
        """Whether the sentence does."""
        return ignoring_case(_END).match(self.text, self.at) is not None


def chains_said(stream: Stream) -> tuple[Step, ...] | None:
    """Keep what is said of all chains at the head of rows; None where nothing is.

    Takes: Ch 2 at beg of rnds never counts as a st
    Takes: Neither ch 1 nor ch 2 counts as a st
    Takes: In dc rows the 3 ch counts as the first st; in sc rows the 1 ch does not
    Refuses: Ch 2 counts as a st, sc in next st
    Refuses: Ch 1 and ch 2 count for something
    """
    before = stream.tokens[stream.at - 1].word if stream.at else "."
    if before not in (".", ";", ":"):
        return None
    if stream.is_word("ch") and stream.ahead(2).word == "(":
        return None  # "ch 3 (counts as dc), …": the chain of a row, as most begin
    words = _Words(stream.text, stream.start)
    start, at = stream.start, stream.at
    told: list[_Said] = []
    whole, end = 0, start
    while (more := _one_more(words, told[-1]) if told else _statement(words)) is not None:
        told.append(more)
        if words.ends() or words.goes_on_with_a_remark():
            whole, end = len(told), words.at
    del told[whole:]
    if not any(one.general for one in told) and not stream.labelled:
        # a line of notes: a chain that does not count is none even if it is made
        alone = not stream.text[end:].strip(" .;")
        told = [one._replace(general=one.denied or alone) for one in told]
    if not any(one.general for one in told):
        return None
    stream.pass_to(end)
    passed = stream.tokens[at : stream.at]
    for one in told:
        counts = CountsAs(
            () if one.denied else ((ONE, _stitch(one, passed)),),
            None if one.chains_too is None else Amount((one.chains_too,)),
            start=start,
            end=stream.end,
            throughout=True,
        )
        for chain in one.chains:
            length = None if chain is None else Amount((chain,))
            stream.chains_said.append(ChainsSaid(length, counts))
    return (Aside(start, stream.end),)


def _stitch(said: _Said, passed: Sequence[Token]) -> str:
    """The stitch that a chain counts as, in US terms; ``st`` where none is named."""
    named = (one.word for one in passed if one.kind == "stitch" and one.start == said.stitch)
    return next(named, "st")


def _statement(words: _Words, before: _Said | None = None) -> _Said | None:
    """``At the start of rows ch 3 counts as a dc``; behind another it may be "ch 1 does not"."""
    general = False
    while (where := words.take(_WHERE)) or words.take(_LEAD):
        general |= where is not None
        words.take(",")
    neither = words.take(r"neither\b") is not None
    chains: list[int | None] = []
    slips = False
    while True:
        found = words.take(_CHAIN) or (words.take(_NUMBER) if chains else None)
        if found is not None:
            number = found["behind"] or found.groupdict().get("before")
            general |= found.groupdict().get("which") is not None
            chains.append(None if number is None else int(number))
        elif words.take(_SLIPS):
            slips = True
        else:
            return None
        general |= bool(words.all_of(_WHERE))
        if not words.take(_JOINS):
            break
    said = _counted(words, tuple(chains), before)
    if said is None or (neither and said.denied):
        return None
    if neither:
        said = said._replace(denied=True, general=True)
    if (len(chains) != 1 or slips) and not said.denied:
        return None
    return said._replace(general=said.general or general)


def _counted(words: _Words, chains: tuple[int | None, ...], before: _Said | None) -> _Said | None:
    """What is said of chains: "does not count", "counts as a dc throughout"."""
    if (found := words.take(_DENIED)) is not None:
        said = _Said(chains, denied=True, general="never" in found[0].lower())
    elif (found := words.take(_COUNTS)) is not None:
        key = next((one for one in ("as", "for") if found[one] is not None), None)
        more = found["chains"] or found["more"] or found["so_many"] or found["many"]
        said = _Said(
            chains,
            denied=False,
            general=found["ever"] is not None,
            stitch=None if key is None else found.start(key),
            chains_too=None if more is None else int(more),
        )
    elif before is not None and (found := words.take(_SHORTLY)) is not None:
        said = _Said(chains, denied=found[0].endswith(_NO), general=before.general)
    else:
        return None
    tails = words.all_of(_TAIL)
    holds = any(ignoring_case(_HOLDS).search(one) is not None for one in tails)
    return said._replace(general=said.general or holds)


def _one_more(words: _Words, before: _Said) -> _Said | None:
    """What is said behind another statement: of the same chains, or of others."""
    at = words.at
    if before.denied and words.take(r"(?:, ?)?nor (?:is|are|does|do)\b"):
        found = words.take(_CHAIN)
        if found is not None and (found["behind"] or found["before"]):
            words.take(r"count(?:ed|s)?\b")
            number = int(found["behind"] or found["before"])
            return before._replace(chains=(number,))
        if words.take(_SLIPS_LAST):  # "nor does the joining sl st": it counts nothing anyhow
            words.take(r"count(?:ed|s)?\b")
            return before._replace(chains=())
    elif words.take(_GOES_ON):
        again = words.at
        same = _counted(words, before.chains, None)
        if same is not None:
            return same if same.denied is before.denied else None
        words.at = again
        other = _statement(words, before)
        if other is not None:
            return other
    words.at = at
    return None
