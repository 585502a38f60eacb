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
    r"(?:is|are) (?:(?:always|all|not|never) )?(?:worked|made|crocheted|begun|started|"
    r"finished|joined|turned|seamed|sewn|designed|written)\b"
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
    r"this (?:completes|finishes|concludes|ends|is the end of) (?:the |one |your |an? )*"
    r"(?:first |second |last |next )?[a-z]+\b|"
    r"work (?:more or (?:fewer|less)|fewer or more|more|fewer|extra|additional) "
    r"(?:rows|rounds|rnds)(?: (?:here|now))?(?: (?:if|to|for (?:an?|the)|as)\b|(?=\s*(?:[.;]|\Z)))|"
    r"you add (?:an?|one) (?:block|tile|square|motif)\b|you (?:can|may|might)\b|"
    r"you will (?!(?:now )?(?:leave|miss|skip|omit|sk)\b)|"
    r"use (?:an? |the |your )?(?:\S+ ){0,10}?(?:hook|needle|markers?|yarn|thread|cotton|wool)\b|"
    rf"with (?!the (?:tail|needle))(?:[a-z-]+ ){{1,3}}(?:yarn|thread|cotton|wool)\b|"
    r"(?:bobbles|popcorns|clusters|puffs|shells|picots|puff (?:sts|stitches)) are\b|"
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
#: sentences that may name stitches and rows, and work none: how every round is closed, and what may
#: be worked or left
_ALL_OF_IT = (
    r"(?:unless (?:told|stated|noted) otherwise,? )?(?:work )?(?:the )?first "
    r"(?:st|stitch|sc|dc|hdc)(?: of (?:each|every) (?:row|rnd|round)(?: (?:goes|is worked))?|"
    r" goes| is worked) (?:in|into) (?:the )?same "
    r"(?:st|stitch|place) as (?:the )?(?:join|joining|sl st)\b[^.;]*|"
    rf"(?:(?:(?:each|every|all|any) {_ROWS} (?:(?:is|are) (?:closed|joined|finished|ended)|ends?|"
    rf"closes?)(?: with| by)?|join (?:each|every|all) {_ROWS} (?:with|by)) "
    r"(?:an? )?(?:sl st|slip[- ]stitch|ss)(?: (?:in|into|to) [^.;]*)?|"
    r"(?:for|to make) an? (?:slightly |much )?(?:larger|longer|wider|bigger|smaller|shorter|"
    rf"narrower|taller|deeper|firmer|softer) (?:[a-z-]+ )?{_THING},? [^.;]*|"
    r"(?:the |an? )?[a-z]+(?: [a-z]+)? (?:may|can) (?:also )?be (?:worked|made|added|left|sewn)\b"
    r"[^.;,]*|"
    r"(?:work|working) (?:only )?(?:in|into|through) (?:the )?(?:back|front|both) "
    r"(?:loops?|lps?)(?: only)? (?:of [^.;,]* )?"
    r"(?:throughout|from (?:the )?[^.;,]* on|unless [^.;,]*)|"
    r"for an? (?:(?:[a-z]+ )?(?:child|baby|adult|teen|toddler)|smaller|larger|bigger|longer|"
    r"shorter)\b"
    r"[^.;]*|i (?:worked|used|made|left|added|changed|chose|tried|like|love|prefer|find|know|hate|"
    r"think|always|never)\b[^.;]*|"
    r"if [^.;,]*, (?:you can |just |simply )*(?:add|work|make|repeat|rep|keep|carry on|leave out)\b"
    r"[^.;]*|always (?:skip|miss|sk) the (?:[a-z]+ ){1,3}behind [^.;]*|"
    r"add (?:more |extra |as many |some )*(?:rows|rounds|rnds|repeats)(?: here| as you like)? "
    r"(?:for|if|to|until) [^.;]*|"
    r"[^.;,]*,? if (?:you (?:like|wish|want|prefer|find it [a-z]+)|desired|preferred|liked|wished)"
    r")(?=\s*(?:[.;]|\Z))"
)
#: where an abbreviation had its full stop there are two blanks
_ALL_OF_IT = _ALL_OF_IT.replace(" ", r"\s+")
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
    r"joined (?:rnds?|rounds?)|"
    r"(?P<rows>(?:(?:flat |turned )?rows|back and forth(?: in rows)?)(?=\s*(?:[.;:,]|\Z))))|"
    r"(?P<flat>work(?:ed|ing)? (?:flat|back and forth(?: in (?:turned )?rows)?)"
    r"(?=\s*(?:[.;:,]|\Z)))|"
    r"(?P<round>(?:work(?:ing)? )?(?:round and round|around and around|continuously) "
    r"without joining)|"
    r"(?P<turns>turn(?: the work)? at (?:the )?end of (?:each|every) (?:rnd|round))"
    r")\b"
)
#: up to the end of the sentence, and up to its first comma
_TO_END = r"[^.;:]*(?=\s*(?:[.;:]|\Z))"
_TO_COMMA = r"[^,.;:]*(?=\s*(?:[,.;:]|\Z))"


def _worked(way: re.Match[str]) -> str:
    if way["spiral"] or way["round"]:
        return "spiral rounds"
    if way["rows"] or way["flat"]:
        return "flat rows"
    return "joined rounds, turned" if way["turned"] or way["turns"] else "joined rounds"


#: rows that may be worked or left, as the maker likes
_MAY_BE = re.compile(
    r"(?:work (?:more|fewer|extra|additional)|for|to make|you add|"
    r"this (?:completes|finishes|concludes|ends|is the end)) ",
    re.IGNORECASE,
)
#: what tells how often, or how, rows are worked: no note has it
_OF_ROWS_WORKED = (
    r"\b(?:twice|thrice|again|times|"
    r"the same(?! (?:colou?r|shade|yarn|wool|cotton|thread|hook|size|tension|gauge|direction)\b)|"
    r"same way|fewer|less|plain|another|remaining|"
    r"(?:a|one|two|three|\d+) (?:more )?(?:st|stitch|row|rnd|round)s?|"
    r"(?:next|last) (?:\w+ )?(?:rows?|rounds?|rnds?)|along|around the)\b"
)
#: the words with which a note may begin
BEGINNING = frozenset(
    "the this these each all both every your work worked made add if i for eyes always "
    "crocheted hold holding use using "
    "with keep keeping gauge tension check take turn join do dont rnd row piece motif "
    "square make move for to you first unless thumb edging border handle strap pocket collar "
    "cuff hood bobble pc cl puff shell picot".split()
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
    if not stream.labelled and _tells_all(stream):
        return (Aside(start, stream.end),)
    way = ignoring_case(_WAY).match(text, start)
    if stream.labelled and way is not None and not (way["spiral"] or way["round"]):
        way = None
    found = way or ignoring_case(_NOTE).match(text, start)
    if found is None:
        return None
    for rest in (_TO_END, _TO_COMMA):
        behind = ignoring_case(rest).match(text, found.end())
        if behind is not None and _works_nothing(stream, behind.end()):
            told = stream.text[stream.start : behind.end()]
            if (
                way is None
                and _MAY_BE.match(told) is None
                and ignoring_case(_OF_ROWS_WORKED).search(told) is not None
            ):
                return None
            if way is not None:
                stream.way_noted = _worked(way)
            stream.pass_to(behind.end())
            return (Aside(start, stream.end),)
    return None


def _tells_all(stream: Stream) -> bool:
    """Pass a whole sentence that works nothing, whatever it names: "add a border if you like".

    Not behind a comma, where it would be the end of what is worked.
    """
    if stream.at and stream.tokens[stream.at - 1].word == ",":
        return False
    found = ignoring_case(_ALL_OF_IT).match(stream.text, stream.start)
    if found is not None:
        stream.pass_to(found.end())
    return found is not None


def _begins_sentence(stream: Stream) -> bool:
    """Whether a sentence begins here; in a line of notes its parts between commas do too."""
    marks = (".", ";", ":", "-") if stream.labelled else (".", ";", ":", "-", ",")
    before = stream.tokens[stream.at - 1].word if stream.at else "."
    behind_count = before in (")", "]") and stream.text[stream.start].isupper()
    return before in marks or behind_count


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
    if stream.token.kind == "stitch" and stream.token.plural and stream.ahead().word == "are":
        at += 1  # "Bobbles are worked on wrong-side rows"
    while stream.tokens[at].start < end and stream.tokens[at].kind != "end":
        token, before = stream.tokens[at], stream.tokens[at - 1].word if at > stream.at else ""
        if token.word in _WORKS or token.kind in ("grp", "chn", "rate", "formula"):
            return False
        if token.kind == "stitch" and before not in _NAMED:
            return False
        at += 1
    return True
