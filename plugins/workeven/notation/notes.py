"""General notes: sentences that tell how a piece is worked, and work no stitch.

Takes     ``Stream`` where a sentence begins.
Gives     ``note``, ``BEGINNING``.
Problems  none: what is no note is left where it stands.
From      common practice: designers open a pattern with such sentences, and close a part with them.

A sentence is a note by its first words, and by what is not in it: no stitch that is worked, no
chain, no repeat, no place to work into. Where work follows behind a comma, the note ends there:
"With two strands held together, sc in each st around" works a round.
"""

from __future__ import annotations

import re

from workeven.notation.expressions import ignoring_case
from workeven.notation.stream import Stream
from workeven.notation.tree import Aside, Step

_ROWS = r"(?:rows?|rnds?|rounds?)"
_EACH_ROW = rf"(?:(?:each|every|all|any|the|of) )*{_ROWS}"
_STRANDS = r"(?:strands?|yarns?|ends?|threads?|colou?rs?|balls?)"
_SO_MANY = r"(?:\d|one|two|three|four|both|a|an|single|double)"
_THING = (
    r"(?:piece|pattern|motif|square|hat|beanie|cap|body|head|bag|basket|doily|mat|coaster|blanket|"
    r"throw|afghan|shawl|wrap|scarf|cowl|sock|slipper|bootee|mitten|mitt|glove|sleeve|yoke|"
    r"cardigan|jumper|sweater|pullover|top|vest|collar|edging|border|cushion|pillow|toy|star|"
    r"flower|leaf|lea|rnd|round|row|crown|brim|cuff|panel|garment|work|front|back|side|half|halve|"
    r"section|part|arm|leg|ear|tail|hexagon|triangle|circle|pot|potholder|dishcloth|washcloth|"
    r"cloth|mandala|ribbing|band|rib|base)(?:s|ves|es)?"
)
#: what is said of how the piece is made
_MADE = (
    r"(?:is|are) (?:always |all )?(?:worked|made|crocheted|begun|started|finished|joined|"
    r"turned|seamed|sewn|designed|written)\b"
)
#: the sentences; each ends where the sentence does
_NOTE = (
    r"(?:"
    rf"(?:(?:the|this|these|each|all|both|every|your) )*(?:[a-z-]+ ){{0,2}}{_THING} {_MADE}|"
    r"(?:worked|made|crocheted) (?:in|from|with|back|flat|on|around|sideways|side|top|bottom|"
    r"seamless|holding)\b|"
    rf"(?:hold|use|using|work(?:ed)?(?: throughout)? (?:with|holding)|holding|with) "
    rf"(?:the )?{_SO_MANY} {_STRANDS} (?:of [a-z]+(?: [a-z]+)? )?(?:held )?"
    r"(?:together|throughout|at)|"
    r"work (?:loosely|tightly|firmly|evenly)\b(?= throughout|\s*(?:[.;]|\Z)| and | to | so )|"
    r"use (?:an? |the |your )?(?:\S+ ){0,3}?(?:hook|needle|markers?)\b|"
    r"work (?:the )?first (?:st|stitch) of (?:each|every) (?:row|rnd|round) (?:in|into) "
    r"(?:the )?same (?:st|stitch|place) as (?:the )?(?:join|joining|sl st)\b|"
    r"move (?:your|the) (?:stitch )?markers? up\b|"
    r"(?:keep|keeping) (?:your |the )?(?:tension|gauge|sts?|stitches)(?: \w+)? "
    r"(?:loose|even|tight|firm)|"
    r"(?:gauge|tension) is (?:not )?(?:too )?(?:critical|important|essential|crucial)|"
    r"check (?:your|the) (?:gauge|tension)\b|"
    r"take (?:the )?time to check\b|"
    rf"(?:turn|join)(?: the work)? at (?:the )?(?:end|start|beg(?:inning)?) of {_EACH_ROW}\b|"
    rf"(?:turn|join) (?:each|every|all)(?: \w+)? {_ROWS}\b|"
    rf"(?:join|turn) (?:with|by|using) [^.;]*\bat (?:the )?end of {_EACH_ROW}\b|"
    r"(?:do not|don.t|dont) (?:join|turn)(?:,? (?:or|and|nor) (?:join|turn))? "
    r"(?:(?:the )?(?:rows|rnds|rounds)|at (?:the )?ends? of (?:(?:the )?(?:rows|rnds|rounds)|"
    rf"(?:each|every|any) {_ROWS})|between {_ROWS}|unless [^.;]*|throughout|after each [a-z]+)"
    r")"
)
#: how a piece is worked from here on, as a sentence of its own
_WAY = (
    r"(?:"
    r"(?:(?:work|working|worked|made|crocheted)(?: throughout)? (?:in|as)|"
    rf"(?:(?:the|all|this) )*(?:[a-z]+ )?{_THING} {_MADE} (?:in|as)) (?:an? |the |one )?(?:"
    r"(?P<spiral>(?:(?:continuous|cont|one) )*spirals?(?: (?:rnds?|rounds?))?|"
    r"(?:continuous|cont|unjoined) (?:spiral )?(?:rnds?|rounds?)|"
    r"(?:rnds?|rounds?|round) without joining)|"
    r"(?P<turned>turned,? joined (?:rnds?|rounds?)|joined,? (?:and )?turned (?:rnds?|rounds?)|"
    r"joined (?:rnds?|rounds?),? (?:and )?turned)|"
    r"joined (?:rnds?|rounds?))|"
    r"(?P<turns>turn(?: the work)? at (?:the )?end of (?:each|every) (?:rnd|round))"
    r")\b"
)
#: up to the end of the sentence, and up to its first comma
_TO_END = r"[^.;:]*(?=\s*(?:[.;:]|\Z))"
_TO_COMMA = r"[^,.;:]*(?=\s*(?:[,.;:]|\Z))"


def _worked(way: re.Match[str]) -> str:
    if way["spiral"]:
        return "spiral rounds"
    return "joined rounds, turned" if way["turned"] or way["turns"] else "joined rounds"


#: the words with which a note may begin
BEGINNING = frozenset(
    "the this these each all both every your work worked made crocheted hold holding use using "
    "with keep keeping gauge tension check take turn join do dont don't rnd row piece motif "
    "square make move".split()
)
#: what a note never says: it would be worked
_WORKS = frozenset(("rep", "*", "[", "inc", "dec", "sk", "ch"))


def note(stream: Stream) -> tuple[Step, ...] | None:
    """A sentence that tells how the piece is worked, passed; None where a step stands.

    Takes: Hold two strands together throughout
    Takes: Turn at the end of every round
    Takes: Work in a continuous spiral
    Refuses: Work in dc for 5 rows
    Refuses: Turn, sc in each st across.
    """
    if not _begins_sentence(stream):
        return None
    text, start = stream.text, stream.start
    way = None if stream.labelled else ignoring_case(_WAY).match(text, start)
    found = way or ignoring_case(_NOTE).match(text, start)
    if found is None:
        return None
    for rest in (_TO_END, _TO_COMMA):
        behind = ignoring_case(rest).match(text, found.end())
        if behind is not None and _works_nothing(stream, behind.end()):
            if way is not None:
                stream.way_noted = _worked(way)
            stream.pass_to(behind.end())
            return (Aside(start, stream.end),)
    return None


def _begins_sentence(stream: Stream) -> bool:
    """Whether a sentence begins here; in a line of notes its parts between commas do too."""
    marks = (".", ";", ":", "-") if stream.labelled else (".", ";", ":", "-", ",")
    return not stream.at or stream.tokens[stream.at - 1].word in marks


#: where something is worked into: no note says it
_INTO = (
    r"\b(?:in|into|around|over) (?:the )?(?:each|every|next|first|last|all)\b|\b(?:to|till) end\b"
)
#: words in front of a stitch that a note may name ("join with a sl st at the end of each round")
_NAMED = ("with", "a", "an", "by", "using")


def _works_nothing(stream: Stream, end: int) -> bool:
    """Whether nothing is worked up to a column: no stitch, no chain, no repeat, into no place."""
    if ignoring_case(_INTO).search(stream.text, stream.start, end) is not None:
        return False
    at = stream.at
    while stream.tokens[at].start < end and stream.tokens[at].kind != "end":
        token, before = stream.tokens[at], stream.tokens[at - 1].word if at > stream.at else ""
        if token.word in _WORKS or token.kind in ("grp", "chn", "rate", "formula"):
            return False
        if token.kind == "stitch" and before not in _NAMED:
            return False
        at += 1
    return True
