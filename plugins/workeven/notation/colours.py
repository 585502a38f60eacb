"""What a row says of colours, and of yarn that is joined, carried and cut: it changes no count.

Takes     the text of a row.
Gives     ``colours_said``: each ``ColourSaid``, in the order of the text; ``sequence``.
Problems  none: a name is looked up by whoever knows the yarns.
From      notation.md, the table of steps ("change to colour B": takes up 0, makes 0).

The parser passes these words and counts the row; here they are read for the amounts of yarn. A
colour is in force from where it is said: ``with B, sc 5``; behind a stitch with nothing between it
is that of the stitch: ``sc 5 with B``.

Worked example: ``Row 3: *sc 2 with A, sc 2 with B; rep from * across, fasten off A`` says A from
the first ``sc 2`` on, B from the second, and that the strand of A is cut.
"""

from __future__ import annotations

import re
from collections.abc import Iterator
from functools import lru_cache
from typing import Literal, NamedTuple

from workeven.notation.expressions import ignoring_case

Way = Literal["label", "on", "join", "cut", "carry", "end", "order"]
#: so many rows each, and the colour; "" for the next of those that the yarn lists
Order = tuple[tuple[int, str], ...]


class ColourSaid(NamedTuple):
    """One thing that a row says of its yarn.

    ``way``: ``on`` (the rows go on in this colour from column ``at``), ``label`` (the same in the
    brackets of a row's number, where other words may stand), ``join`` (it is joined there), ``cut``
    (fastened off), ``carry`` (it is not cut where another takes over), ``end`` (the colour changes
    behind the row), ``order`` (rows worked again change by ``order``, which is () where it is not
    told). ``name`` is as written; "" for yarn without a name, and where ``other`` tells that it is
    another colour than before. ``start`` and ``end`` are the columns of the name, or of the words.
    """

    way: Way
    name: str
    at: int
    start: int
    end: int
    other: bool = False
    order: Order = ()


#: colours that a text names without a capital ("with brown")
PLAIN_COLOUR = (
    r"(?:(?:dark|light|pale|deep|bright|soft|off)[ -])?(?:white|cream|ivory|beige|tan|brown|black|"
    r"gr[ae]y|red|pink|rose|coral|orange|peach|yellow|gold|mustard|green|mint|sage|olive|teal|"
    r"turquoise|aqua|blue|navy|denim|purple|lilac|lavender|plum|silver|rust|sand|charcoal|natural)"
)
#: words that name no colour, with a capital or without ("with RS facing", "join Yarn")
_NO_COLOUR = (
    r"(?!(?:r/?s|w/?s|right|wrong|front|back|rows?|rnds?|rounds?|hook|sts?|stitch(?:es)?|ch|chains?|"
    r"sc|hdc|dc|tr|dtr|htr|ttr|single|double|half|treble|sl|slip|ss|blo|flo|tbl|mr|pm|beg|yarns?|"
    r"colou?rs?|care|sizes?|(?-i:the|a|an)|same|first|last|next)\b)"
)
_NAME = (
    rf"{_NO_COLOUR}(?P<name>(?-i:[A-Z][\w'’]*(?:[ -][A-Z][\w'’]*)*)|{PLAIN_COLOUR}\b|"
    r"(?:main|contrast)(?=(?:ing)? (?:colou?r|yarn)\b))"
)
#: what stands behind a verb: another colour, a name, or yarn or colour without one
_WHAT = (
    r"(?-i:the |a )?(?:(?P<other>(?:new|next|another|second|other) (?:colou?r|yarn|shade)\b)|"
    rf"(?P<kind>(?:colou?rs?|yarns?|shade)\b[:,]? ?)?(?:{_NAME})?)"
)
_OFF = r"(?:(?:fasten|finish)(?:ing)? off|(?:break|cut)(?:ting|ing)?(?: off)?)"
#: the verbs, by what they say
_VERBS = (
    rf"\b(?:(?P<carry>(?:carry(?:ing)?|drop(?:ping)?|(?:do not|don.t|without) {_OFF})\b ?)|"
    rf"(?P<cut>(?:{_OFF}|fo)\b ?)|"
    r"(?P<join>(?:re-?)?(?:join|attach)(?:ing)? (?:with )?)|"
    r"(?P<change>(?:change|changing|switch(?:ing)?|swap(?:ping)?)(?: back)? (?:to )?|"
    r"introduc(?:e|ing) )|(?P<plain>(?:with|using|w/) ?)|(?P<inside>in (?=(?:the )?[a-z])))"
)
#: without one of these, and of the names below, a row says nothing of yarn or colours
_PART_OF_A_WORD = re.compile(
    r"olou?r|yarn|FO|fo[.;,]|arry|[Dd]rop[p ]|[Cc]ut|reak|ttach|hang|wap|witch|trip|lternat|hade|"
    r"w/| off"
)
#: most rows that say anything are fastened off, and no more
_CUT = "fasten off"
_NOT_CUT_ALONE = re.compile(r"(?:not |n't |without )fasten off|fasten off [A-Z]")
#: verbs that say something where a name stands behind them; most rows have one of the two first
_BEFORE_NAMES = ("ith ", "oin ", "sing ", "ining ", "roduc", "each in ", "each of ")
_NAMED = re.compile(r"(?:ith|oin|sing|ining|each in|each of|roduc[a-z]+) (?:the )?[A-Z]")
_LABELLED = r"[^:(]*\(([^):]*)\)\s*:"
_PLAIN_WORDS = frozenset(
    "white cream ivory beige tan brown black gray grey red pink rose coral orange peach yellow "
    "gold mustard green mint sage olive teal turquoise aqua blue navy denim purple lilac lavender "
    "plum silver rust sand charcoal natural".split()
)


@lru_cache(maxsize=4096)
def colours_said(text: str) -> tuple[ColourSaid, ...]:
    """What a row says of its yarn, in the order of its words; mostly nothing.

    >>> [(one.way, one.name) for one in colours_said("fasten off A, join B, sc in each st")]
    [('cut', 'A'), ('join', 'B')]
    """
    cut = text.find(_CUT)
    if cut >= 0 and _NOT_CUT_ALONE.search(text) is None:
        end = cut + len(_CUT)
        if not _speaks_of_yarn(text[:cut] + text[end:]):
            return (ColourSaid("cut", "", cut, cut, end),)
    elif cut < 0 and not _speaks_of_yarn(text):
        return ()
    order = _order(text)
    begin, end = (len(text), len(text)) if order is None else (order.start, order.end)
    found = [*_in_label(text), *_phrases(text, 0, begin), *_phrases(text, end, len(text))]
    return tuple(sorted((*found, *(() if order is None else (order,))), key=lambda one: one.at))


def _speaks_of_yarn(text: str) -> bool:
    """Whether a row may say something of its yarn; a quick answer, for most rows do not."""
    if _PART_OF_A_WORD.search(text):
        return True
    if any(verb in text for verb in _BEFORE_NAMES) and _NAMED.search(text):
        return True
    label = re.match(_LABELLED, text) if "(" in text[:30] else None
    if label is not None and not label[1].islower():
        return True
    return not _PLAIN_WORDS.isdisjoint(text.replace(",", " ").split())


# --- single phrases ------------------------------------------------------------------------


def _phrases(text: str, begin: int, end: int) -> Iterator[ColourSaid]:
    """What the verbs of a stretch of the text say."""
    verbs, what = ignoring_case(_VERBS), ignoring_case(_WHAT)
    at = begin
    while (verb := verbs.search(text, at, end)) is not None:
        behind = what.match(text, verb.end())
        assert behind is not None  # all of it may be missing
        said = _said(text, verb, behind)
        at = verb.end() if said is None else max(verb.end(), said.end)
        if said is not None:
            yield said


def _said(text: str, verb: re.Match[str], what: re.Match[str]) -> ColourSaid | None:
    name, kind, other = what["name"], what["kind"], what["other"]
    start, end = what.span("name") if name else (verb.start(), max(what.end(), verb.end()))
    at = verb.start()
    match verb.lastgroup:
        case "carry" if "drop" in verb[0].casefold() and not (name or kind):
            return None  # "drop loop"
        case "carry" | "cut" as way:
            return ColourSaid(way, name or "", at, start, end)
        case "join":
            named = name or other or (kind and not verb[0].rstrip().endswith("with"))
            if not named:
                return None
            return ColourSaid("join", name or "", at, start, end, other=bool(other))
        case "change":
            unnamed = bool(other or (kind and not name))
            if not (name or unnamed):
                return None
            late = _at_the_end(text, verb.start(), what.end())
            return ColourSaid("end" if late else "on", name or "", at, start, end, other=unnamed)
        case "plain" if name or other:
            at = _where(text, verb.start(), what.end())
            return ColourSaid("on", name or "", at, start, end, other=bool(other))
        case "inside" if name and (kind or name.islower()):
            at = _where(text, verb.start(), what.end())
            return ColourSaid("on", name, at, start, end)
    return None


_AT_END = r"at (?:the )?end of (?:(?:the |this |each |every |last )*(?:rnd|row|round)s?)\b"


def _at_the_end(text: str, start: int, end: int) -> bool:
    """``change to B at end of Row 6``, ``at end of last row, change to B``."""
    before, behind = re.split(r"[;.]", text[:start])[-1], re.split(r"[,;.]", text[end:])[0]
    told = ignoring_case(_AT_END)
    return told.search(before) is not None or told.search(behind) is not None


#: marks and words that part two steps
_PARTED = r"(?:[,;.:(\[*†]|\b(?:and|then)\b)\s*\Z"
_NEAR = 20
_PARTS = r"[,;.:(\[*†]|\b(?:and|then)\b"
_CLOSED = r"(?: (?:yarn|colou?r))?\s*(?:[,;.)\]]|\Z|\band\b|\bthen\b)"


def _where(text: str, start: int, end: int) -> int:
    """From which column the colour is in force: of the stitch before it where it belongs to one."""
    before = text[:start]
    if (
        not before.strip()
        or ignoring_case(_PARTED).search(before[-_NEAR:])
        or ignoring_case(_CLOSED).match(text, end) is None
    ):
        return start
    parts = [found.end() for found in ignoring_case(_PARTS).finditer(before)]
    at = parts[-1] if parts else 0
    return at + len(before[at:]) - len(before[at:].lstrip())


_IN_LABEL = r"\s*(?:\w+ )?\w+[\s\d–-]*\((?P<inside>[^():]*)\)\s*:"
_LABEL_NAME = r"(?:^|[,;]\s*|\bin )(?P<name>[A-Z][\w'’]*(?: [A-Z][\w'’]*)*)\s*(?=[,;]|$)"


def _in_label(text: str) -> Iterator[ColourSaid]:
    """``Row 5 (B):``, ``Rnd 3 (RS, Foam):``."""
    found = re.match(_IN_LABEL, text)
    if found is None:
        return
    for name in re.finditer(_LABEL_NAME, found["inside"]):
        if name["name"].upper() not in ("RS", "WS"):
            start = found.start("inside") + name.start("name")
            yield ColourSaid("label", name["name"], 0, start, start + len(name["name"]))


# --- orders of colours ---------------------------------------------------------------------

_NUMBERS = {"one": 1, "a": 1, "an": 1, "each": 1, "every": 1, "two": 2, "three": 3, "four": 4}
_NUMBER = r"(?:\d+|an?|one|two|three|four|each|every other|every|other)"
_ROWS = r"(?:rnds?|rounds?|rows?)"
_ONE = rf"(?:(?P<rows>\d+) {_ROWS} (?:each )?(?:in |of |with )?)?(?:colou?r |yarn )?{_NAME}"
#: how an order begins: "1 rnd each in Green", "changing colour every 2 rows", "alternating A and B"
_BEGINS = (
    rf"{_NUMBER} {_ROWS} each (?:in|of|with)\b|"
    r"(?:chang|switch|alternat|swapp)(?:e|ing) (?:the )?(?:yarns?|colou?rs)\b|"
    rf"(?:chang|switch|swapp)(?:e|ing) (?:the )?colou?r (?=(?:every|each|{_NUMBER} {_ROWS}|as )\b)|"
    rf"alternat(?:e|ing) (?=(?:between |with )?(?:{_NUMBER} {_ROWS}|"
    r"(?-i:[A-Z]\w*,? (?:and |with |[A-Z]))))|"
    r"(?:in|following) (?:the )?(?:following |given |same |established )*"
    r"(?:colou?r|stripe|striping) (?:sequence|order|pattern)s?:?|"
    r"(?:as|in) (?:colou?rs?|stripes?) given"
)
#: without one of these no order is told
_ORDERED = r"(?:w|nd)s? each (?:in|of|with)\b|olou?r|yarns|lternat|trip"
_EVERY = rf"(?:(?:every|each)\b ?)?(?:(?P<number>{_NUMBER}) )?{_ROWS}\b"


def _order(text: str) -> ColourSaid | None:
    """``rep Row 2, changing colour every 2 rows in the order C, A, B``."""
    if re.search(_ORDERED, text) is None:
        return None
    found = ignoring_case(_BEGINS).search(text)
    if found is None:
        return None
    stop = re.compile(r"[;.]|\b(?:until|fasten|turn|join|for \d|\d+ (?:more )?times)\b|\Z").search(
        text, found.end()
    )
    assert stop is not None
    order = sequence(text[found.start() : stop.start()])
    return ColourSaid("order", "", found.start(), found.start(), stop.start(), order=order)


def sequence(words: str) -> Order:
    """So many rows of each colour, in turn; () where the words do not tell it.

    >>> sequence("1 rnd each in Green, Brown, Green"), sequence("2 rows A, 4 rows B")
    (((1, 'Green'), (1, 'Brown'), (1, 'Green')), ((2, 'A'), (4, 'B')))
    >>> sequence("changing colour every 2 rows"), sequence("alternating A and B every row")
    (((2, ''),), ((1, 'A'), (1, 'B')))
    """
    every = ignoring_case(_EVERY).search(words)
    alone = words[:9].casefold().startswith("alternat")
    words = words.partition(" ")[2] if alone else words
    listed = [(int(one["rows"] or 0), one["name"]) for one in ignoring_case(_ONE).finditer(words)]
    each = 0 if every is None else _number(every["number"] or "1", every[0])
    if not listed:
        return ((each, ""),) if each else ()
    if all(rows for rows, _ in listed):
        return tuple(listed)
    return tuple((rows or each or 1, name) for rows, name in listed) if each or alone else ()


def _number(word: str, words: str) -> int:
    """``every other row`` is each second one."""
    said = word.casefold()
    if "other" in words.casefold().split():
        return 2
    return int(said) if said.isdigit() else _NUMBERS.get(said, 1)
