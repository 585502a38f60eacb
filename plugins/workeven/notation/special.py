"""A stitch of the pattern's own, from the words that say how it is worked.

Takes     the name and the words of a stitch.
Gives     ``parse_special``, ``names_of``.
Problems  ``row-not-understood``: words that count stitches and are not read. Others describe a
          stitch, which takes one place; ``stitch-words`` where they tell of several stitches.
From      notation.md, "Beginning versions", "What is reported".
"""

from __future__ import annotations

import re
from collections.abc import Iterator
from itertools import pairwise

from workeven.notation.contents import content
from workeven.notation.loop_by_loop import loop_by_loop
from workeven.notation.over_places import decrease_of, is_square, steps_of_special
from workeven.notation.spelling import respelt
from workeven.notation.stream import LONGEST, NotUnderstood, Stream
from workeven.notation.targets import target
from workeven.notation.tree import (
    ONE,
    Chain,
    Content,
    Inside,
    Next,
    SpecialStitch,
    Step,
    Stitch,
    Unplaced,
    Work,
)
from workeven.notation.vocabulary import HEIGHTS, Terms, Vocabulary, compound, kind_of
from workeven.problems import Checked, Problem, Span

_CLOSED = re.compile(
    r"\bcluster\b|\bclosed\b|\b(?:completed|finished|closed) as\b|"
    r"\d (?:[hd]?dc|[hd]?tr|sc) (?:worked )?together (?=in(?:to)? (?:the )?same\b)|"
    r"\d+tog\b|\(1 st\)|counts? as (?:1|one) st|drop (?:the )?loop|"
    r"\bpopcorn\b|\bbobble\b|\bpuff\b|(?:through|thru) all|"
    r"(?:drawn|pulled|worked off|finished off|closed|gathered)(?: up| all)? (?:together|as one)\b|"
    r"last (?:loop|lp)s? of each (?:being )?(?:held|kept|left)|"
    r"(?:leav|hold|keep)(?:e|ing)? (?:back )?(?:the )?last (?:loop|lp)|"
    r"last (?:loop|lp)s? (?:of \w+ )*(?:st |stitch |\w+ )?(?:left |held )?on (?:the )?hook|"
    r"(?:remove|take|slip) (?:the |your )?(?:hook|loop|lp)\b|(?:remov|tak)ing (?:the |your )?hook|"
    r"(?:dropped|dropping|drop) (?:the )?(?:loop|lp|st)\b",
    re.IGNORECASE,
)


_TOGETHER = re.compile(r"\d+tog\b", re.IGNORECASE)
#: the chain of a beginning version, before the brackets of what goes into the same place
_LEAD = re.compile(
    r"(?P<lead>(?:\d+ ?)?ch(?:ain)?(?: ?-?\d+)?(?: ?\([^()]*\))?),? (?:and )?"
    r"\((?P<rest>[^()]*)\)\Z",
    re.IGNORECASE,
)
#: behind the words of a stitch over several places: how many they are, which the words say too
_OVER_SO_MANY = re.compile(
    r"\s*[,;(]\s*(?:(?:it|this) is )?worked over (?:the )?(?:next )?\d+ \w+\b[^()]*\)?\.?\s*\Z|"
    r"\s*\(over (?:\d+|two|three|four) (?:squares|sps|spaces|blocks|meshes)\)\.?\s*\Z",
    re.IGNORECASE,
)
_NO_PLACE = re.compile(
    r"takes? up no (?:further )?st|stands? off|\bno st(?:itch)?\b|not a st(?:itch)?\b",
    re.IGNORECASE,
)


def parse_special(name: str, text: str, span: Span, terms: Terms) -> Checked[SpecialStitch]:
    """A stitch of the pattern's own, from the words that say how it is worked.

    Where the words are notation of what goes into one place ("5 dc in same st"), it is made of
    those parts; where they say that it is closed, or only describe it, it is one stitch in one
    place. Words of several steps ("ch 2, sk 2, dc") are a stitch worked over several places.
    """
    made: tuple[Content, ...] = ()
    written, text = text, respelt(text, terms)
    square = is_square(name) or is_square(_head(text))
    picot = _PICOT_HEAD.match(text) is not None
    text = _ONE_PLACE_OF_LEGS.sub(r"\1 in same st", _without_remarks(name, text))
    place = _own_place(text, Vocabulary(terms, (name.removeprefix("beg "),)))
    text = _TRAVEL.sub("", text) if name.startswith("beg ") else text
    text = _BY_CHOICE.sub(r" \1", text) if square else text
    words = _OVER_SO_MANY.sub("", text)
    steps = decrease_of(text, Vocabulary(terms)) or _drawn(text, Vocabulary(terms))
    clusters = _clusters(name, text, Vocabulary(terms))
    begun: object = _begun_decrease(name, text, Vocabulary(terms))
    led = _led_decrease(name, text, Vocabulary(terms))
    if led:
        steps = led
    elif clusters or begun:
        steps, made = (), clusters
    elif not steps and (_CLOSED.search(text) is None or square):
        one = _PLACE.search(text) is not None or _ONE_PLACE_NAME.match(name) is not None
        one = one and len(_NEXT.findall(text)) < _SEVERAL
        inside = _special_content(name, text, Vocabulary(terms)) if one else ()
        # "first sp = ch 5 (counts as dc and ch 2), dc in next dc": a dc over what the chain leaves
        begun = square and bool(inside) and isinstance(inside[0], Chain) and inside[0].counts_as
        one = bool(inside) and not begun
        known = "picot" if picot else name
        steps = () if one else steps_of_special(known, words, Vocabulary(terms))
        made = () if steps else _special_content(name, text, Vocabulary(terms))
    if not (made or steps) and (_PLACE.search(text) is None or _NEXT.search(text)):
        # "dc2tog" in whatever words; of a "beg dc2tog" the chain is the first leg
        steps = decrease_of(name.removeprefix("beg "), Vocabulary(terms))
    if not (made or steps):
        steps = _named_decrease(name, text, Vocabulary(terms))
        made = () if steps else _in_one_loop(written, text, Vocabulary(terms))
    stitch = SpecialStitch(
        name=name,
        text=written,
        content=made,
        one_place=True,
        closed=not made and not steps,
        takes=_takes(text, steps, described=not made),
        span=span,
        base=_trade_base(name, terms) or _named_base(text, Vocabulary(terms)),
        legs_of=_legs_of(text, Vocabulary(terms)),
        steps=steps,
        square=bool(steps) and square,
        place=place if made else None,
        stands_for=_stands_for(name, written),
    )
    read = made or steps or _CLOSED.search(text) is not None
    told = () if read else _half_read(name, text, span, Vocabulary(terms), square=square)
    told = told or (() if read else _taken_for_one(name, text, span, Vocabulary(terms)))
    return Checked(value=stitch, problems=told)


#: what a beginning version is said to be, at its end
_COUNTS_AS = re.compile(
    r"\(counts? as (?:an?|one|1|the)? ?(?P<name>[a-z][a-z0-9-]*(?: [a-z][a-z0-9-]*)?)\)\.?\s*\Z",
    re.IGNORECASE,
)


def _stands_for(name: str, text: str) -> str | None:
    """The stitch of another name that "beg cl" is: "… in same place (counts as tr cl)"."""
    told = _COUNTS_AS.search(text) if name.startswith("beg ") else None
    other = None if told is None else told["name"].strip()
    return None if other in (None, name.removeprefix("beg "), "st") else other


def _in_one_loop(written: str, text: str, vocabulary: Vocabulary) -> tuple[Content, ...]:
    """``htr-blo: half treble in the back loop only`` is that stitch: which loop changes no count.

    ``text`` is what is ``written`` without the loop.
    """
    if _LOOPS.search(written.rstrip(" .")) is None:
        return ()
    tokens = Stream(text, vocabulary).tokens[:-1]
    only = tokens[0] if len(tokens) == 1 else None
    basic = only is not None and only.kind == "stitch" and only.word in HEIGHTS
    return (Stitch(only.word),) if only is not None and basic else ()


#: "pull up a loop in each of next 2 sts", "insert hook in next st": where a description goes in
_GOES_IN = re.compile(
    r"\b(?:in|into|through|around|over|under) (?:the )?(?:each of )?(?:the )?(?:next|following) "
    r"(?:(?P<many>\d|two|three|four) )?(?:st|stitch|sc|[hd]?dc|h?tr|ch|chain|loop|lp)s?(?:es)?\b",
    re.IGNORECASE,
)


#: brackets that are worked in each of some places: what they name is one of these
_WORKED_IN_EACH = re.compile(r"[(\[][^()\[\]]*[)\]](,? ?(?:in|over|into) each of)", re.IGNORECASE)


def _takes(text: str, steps: tuple[Step, ...], *, described: bool) -> int:
    """How many places a stitch takes up by its own words.

    A star is only described, and says all the same that it goes into "each of next 2 sts". Where
    its words name one place at a time it may be the same again: that is one.
    """
    if _NO_PLACE.search(text):
        return 0
    if steps or not described:
        return _legs(steps)
    told = [found["many"] for found in _GOES_IN.finditer(_WORKED_IN_EACH.sub(r"\1", text))]
    if not any(told):
        return 1
    return sum(_NUMBERS.get((many or "1").lower()) or int(many or 1) for many in told)


def _legs(steps: tuple[Step, ...]) -> int:
    """How many places a decrease takes, also one that is declared under its own name; else 1."""
    first = steps[0] if steps else None
    if not isinstance(first, Work) or len(steps) > 1:
        return 1
    only = first.content[0]
    return only.legs if isinstance(only, Stitch) else 1


#: "first sp of a row", which rows call "first sp"
_OF_A_ROW = re.compile(r"(?<=\w) (?:of|in) (?:a|the|each|every) (?:row|rnd|round)\Z", re.IGNORECASE)
_TWO_NAMES = re.compile(r"(?P<name>[^()]*[^()\s])\s*\((?P<other>[^()]+)\)")


#: a stitch with the chain that its first one in a round begins with, however it is written
_BEGINNING_VERSION = re.compile(r"\Abeg(?:\.? |-)", re.IGNORECASE)


def names_of(name: str) -> tuple[str, ...]:
    """Both names of a stitch that is declared with its name in full, the shorter first.

    >>> names_of("V-stitch (V-st)"), names_of("Cdc (crossed double crochet)"), names_of("shell")
    (('V-st', 'V-stitch'), ('Cdc', 'crossed double crochet'), ('shell',))
    """
    name = _OF_A_ROW.sub("", _BEGINNING_VERSION.sub("beg ", name.strip()))  # "Beg PC" is of "PC"
    found = _TWO_NAMES.fullmatch(name)
    if found is None:
        return (name,)
    names = (found["name"].strip(), found["other"].strip().rstrip("."))  # "Cluster (cl.)"
    return tuple(sorted(names, key=len))


#: what is told in front of how a stitch is worked, and behind it
_HEAD = re.compile(r"\A(?!ch\b|sk\b|skip\b|miss\b)[a-z][a-z -]{2,40}:\s+(?=\S)", re.IGNORECASE)
#: "p = picot: 4 ch, ss in first ch", of which ``_HEAD`` is the name in full
_PICOT_HEAD = re.compile(r"\A(?:an? )?picot:\s", re.IGNORECASE)
_TAIL = re.compile(
    r"\s*\((?:=\s*)?(?:(?!1 st\b)\d+ (?:sts?|stitch(?:es)?)|"
    r"[2-9] (?:sc|h?dc|h?tr)(?= made\)|\))|(?:an? )?(?:inc|dec)(?:rease)?s?)"
    r"(?: made)?\)\.?\s*\Z",
    re.IGNORECASE,
)
#: "dc3tog in next st": its legs are in that one
_ONE_PLACE_OF_LEGS = re.compile(
    r"(\dtog\b *),? in(?:to)? (?:the )?next (?:st|stitch|sp|space)\b", re.IGNORECASE
)
#: what a stitch is for, where it stands, and what its chain counts as, said behind it
_BESIDES = re.compile(
    r"(?:,? to (?:carry|hold|make|form|mark|close) [^,;()]*|(?: at the edge)?(?:,? |\s*\()(?:the )?"
    r"(?:\d ?-?ch|ch ?-?\d) counts? as [^()]*\)?)\s*\Z",
    re.IGNORECASE,
)
#: into which loops it goes, which changes no count
_LOOPS = re.compile(
    r",? (?:(?:working )?(?:in|into|through) )(?:the )?(?:front|back|both) (?:loops?|lps?)"
    r"(?: only)?\s*\Z",
    re.IGNORECASE,
)


#: "dc in next 2 dc (or 2 dc in next sp)": two ways to fill a square
_BY_CHOICE = re.compile(r"\s*\((or [^()]*)\)", re.IGNORECASE)


def _head(text: str) -> str:
    """The name in full that stands in front of the words; "" where none does."""
    found = _HEAD.match(text)
    return "" if found is None else found[0].partition(":")[0]


def _without_remarks(name: str, text: str) -> str:
    """The words of a stitch without its name in full, and without what it makes.

    >>> _without_remarks("dec", "invisible decrease: sc2tog in the front loops only")
    'sc2tog'
    >>> _without_remarks("V", "2 sc in same st (increase)")
    '2 sc in same st'
    """
    if is_square(name) or is_square(_head(text)):
        return _HEAD.sub("", text)
    return _LOOPS.sub("", _TAIL.sub("", _HEAD.sub("", _BESIDES.sub("", text))))


def _trade_base(name: str, terms: Terms) -> str | None:
    """The basic stitch of one that the trade knows by that name too: "FPdc" is a dc."""
    known = compound(name.lower(), terms)
    return None if known is None else known.base


def _named_base(text: str, vocabulary: Vocabulary) -> str | None:
    """The first stitch that a description names ("sc leaving a long loop")."""
    return next(_named(text, vocabulary), None)


def _legs_of(text: str, vocabulary: Vocabulary) -> str | None:
    """The first basic stitch: "popcorn: 4 dc" and "3-dc cluster" are of dc."""
    told = _CLUSTER_OF.search(text)
    kind = None if told is None else compound(told["basic"].lower(), vocabulary.terms)
    if kind is not None:
        return kind.base
    return next((base for base in _named(text, vocabulary) if base in HEIGHTS), None)


def _named(text: str, vocabulary: Vocabulary) -> Iterator[str]:
    for token in Stream(text, vocabulary).tokens:
        if token.kind in ("stitch", "grp") and token.word != "sl st":
            yield kind_of(token.word).base


#: "3-dc cluster", which is read as one word
_CLUSTER_OF = re.compile(r"\b\d+-(?P<basic>[hd]?dc|[hd]?tr|sc)\b", re.IGNORECASE)


#: the one place of a stitch, wherever it is named: "in same st", "in st indicated", "in next sp"
_PLACE = re.compile(
    r",?\s*\b(?:all\s+|worked\s+|made\s+)*(?:in|into)\s+(?:the\s+|a\s+|any\s+)?"
    r"(?:same|one|next|1|indicated|designated|specified|given|stated|st|stitch|place|sp|space|"
    r"(?:\d-?)?ch(?:-\d+)?(?=[ -](?:sp|space|loop|lp)\b)|loop|lp|arch)\b(?: \d-ch sp\b)?"
    r"(?:[ -](?:ch-\d|st|sts|stitch|sp|space|place|ch|loop|lp|or|and|indicated|designated|"
    r"specified|given|stated|named|as|before|dc|sc|hdc|htr|tr|"
    r"of (?:the )?(?:next |same )?(?:shell|v-?st|fan|group|scallop))\b)*",
    re.IGNORECASE,
)
#: told twice, each is a place of its own: "sc in next st, hdc in next st"
_NEXT = re.compile(
    r"\b(?:in|into|around|over)\s+(?:the\s+)?(?:next|foll(?:owing)?)\b", re.IGNORECASE
)
_SEVERAL = 2
#: the way to where a beginning version stands: it counts nothing
_TRAVEL = re.compile(
    r"\A(?:sl\.? ?sts?|ss|slip st(?:itch)?) (?:in|to|into|across|over|up)\b[^;()]*?,\s*"
    r"(?=ch(?:ain)?\b)",
    re.IGNORECASE,
)
#: the space that a stitch is worked into by its own words
_OWN_PLACE = re.compile(
    r"\b(?:in(?:to)?|to) (?:the )?(?P<place>(?:next )?(?:ch-?\d+|\d+-?ch) "
    r"(?:sps?|spaces?|lps?|loops?)"
    r"(?: of (?:the )?(?:next |same )?[a-z-]+)?|next (?:sp|space|lp|loop))\b",
    re.IGNORECASE,
)


def _own_place(text: str, vocabulary: Vocabulary) -> Next | Inside | None:
    """The space of "(2 dc, ch 2, 2 dc) in ch-2 sp of next shell", where one is named."""
    found = _OWN_PLACE.search(text)
    if found is None:
        return None
    stream = Stream(found["place"], vocabulary)
    try:
        where = target(stream)
    except NotUnderstood:
        return None
    return where if isinstance(where, Next | Inside) and where.count == ONE else None


_VERB = re.compile(r"\A(?:work(?:ed)?|make|made)\s+", re.IGNORECASE)
_PLACE_FIRST = re.compile(_PLACE.pattern + r",?\s*(?:work|make)\s+(?P<what>.+)\Z", re.IGNORECASE)
#: stitches that are worked into one place, also where nothing says so
_ONE_PLACE_NAME = re.compile(
    r"(?:\w+ )*(?:shell|fan|scallop|v-? ?st(?:itch)?|group|inc(?:rease)?)s?\Z", re.IGNORECASE
)


def _special_content(name: str, text: str, vocabulary: Vocabulary) -> tuple[Content, ...]:
    """What stands around "in same st", where that is stitches and chains; else ()."""
    if len(text) > LONGEST:
        return ()
    words = text.partition(";")[0].strip().rstrip(".").translate(str.maketrans("[]", "()"))
    first = _PLACE_FIRST.match(words)
    what = first["what"] if first is not None else _PLACE.sub("", words)
    grouped = words.startswith("(") and words.endswith(")") and "(" not in words[1:]
    if what == words and not grouped and _ONE_PLACE_NAME.match(name) is None:
        return ()
    what = _VERB.sub("", what.strip())
    if what.startswith("(") and what.endswith(")") and what.count("(") == 1:
        what = what[1:-1]
    # "ch 3 (counts as dc), (dc, ch 2, 2 dc)": the chain that it begins with is a part of it
    what = _LEAD.sub(r"\g<lead>, \g<rest>", what)
    stream = Stream(what, vocabulary)
    try:
        made = content(stream, len(stream.tokens) - 1)
    except NotUnderstood:
        return ()
    if any(isinstance(item, Stitch) and item.name == "sl st" for item in made):
        return ()
    return made


def _clusters(name: str, text: str, vocabulary: Vocabulary) -> tuple[Content, ...]:
    """``(dc3tog, ch 2, dc3tog) in same st``: several of which each is closed, in one place."""
    if _TOGETHER.search(text) is None or _CLOSED.search(_TOGETHER.sub("", text)) is not None:
        return ()
    found = _special_content(name, text, vocabulary)
    closed = sum(isinstance(one, Stitch) for one in found)
    if found and isinstance(found[0], Chain) and closed == 1:
        return ()  # "ch 3, dc2tog in same st": a beginning version, closed to one
    return found if len(found) > 1 else ()


#: a decrease by its name, which is of two where its words do not say of how many
_DECREASE = re.compile(
    r"(?:inv(?:isible)?\.?[ -]?|(?:single|sc|hdc|dc) )?dec(?:rease)?", re.IGNORECASE
)
_OF_SO_MANY = re.compile(
    r"\b(?P<many>\d|two|three|four)(?: front| back)? (?:sts|stitches|sc|[hd]?dc|h?tr)\b",
    re.IGNORECASE,
)
_NUMBERS = {"two": 2, "three": 3, "four": 4}


def _named_decrease(name: str, text: str, vocabulary: Vocabulary) -> tuple[Step, ...]:
    """``dec``, in words that are not read: one stitch over two, or over as many as they name."""
    if _DECREASE.fullmatch(name) is None:
        return ()
    told = {found["many"].lower() for found in _OF_SO_MANY.finditer(text)} or {"two"}
    if len(told) > 1:
        return ()
    many = told.pop()
    legs = _NUMBERS.get(many) or int(many)
    base = _legs_of(text, vocabulary) or _named_base(text, vocabulary) or "sc"
    return (Work((Stitch(f"{base}{legs}tog", ONE, legs),), Unplaced(ONE)),) if legs > 1 else ()


def _begun_decrease(name: str, text: str, vocabulary: Vocabulary) -> bool:
    """Whether it is a decrease of which the chain at the head is the first leg ("beg dc2tog")."""
    if not name.startswith("beg ") or not text.lower().startswith("ch"):
        return False
    return bool(decrease_of(name.removeprefix("beg "), vocabulary))


#: a decrease behind the chain that it begins with, over places of its own
_LED_DECREASE = re.compile(
    r"ch(?:ain)? ?-?(?P<chains>\d)(?P<said> ?\([^()]*\))?,? (?:and )?"
    r"(?P<base>[a-z]+?)(?P<legs>\d)tog over (?:the )?next (?P<places>\d) [a-z]+\.?\Z",
    re.IGNORECASE,
)


def _led_decrease(name: str, text: str, vocabulary: Vocabulary) -> tuple[Step, ...]:
    """``beg cl = ch 3, dc3tog over next 3 dc``: with the chain as its first leg, over four.

    A chain that is said to count for nothing is no leg.
    """
    found = _LED_DECREASE.match(text.strip()) if name.startswith("beg ") else None
    if found is None or found["legs"] != found["places"]:
        return ()
    base = compound(found["base"].lower(), vocabulary.terms)
    height = 0 if base is None else HEIGHTS.get(base.base, 0)
    counts = "not" not in (found["said"] or "").lower()
    if base is None or (counts and int(found["chains"]) not in (height, height - 1)):
        return ()
    legs = int(found["legs"]) + counts
    return (Work((Stitch(f"{base.base}{legs}tog", ONE, legs),), Unplaced(ONE)),)


#: behind a decrease: what it is then
_ONE_STITCH = re.compile(
    r"\s*[(,]\s*(?:counts? as )?(?:1|one) (?:st|stitch|sc)\)?\Z", re.IGNORECASE
)


def _drawn(text: str, vocabulary: Vocabulary) -> tuple[Step, ...]:
    """A decrease told loop by loop: "(insert hook in next st, pull up a loop) twice, yo …"."""
    stream = Stream(_ONE_STITCH.sub("", text.strip().rstrip(".")), vocabulary)
    found = loop_by_loop(stream)
    return (found,) if found is not None and found.over and stream.at_end() else ()


def _half_read(
    name: str, text: str, span: Span, vocabulary: Vocabulary, *, square: bool
) -> tuple[Problem, ...]:
    """A description that counts stitches and is not understood: it is no one stitch by itself.

    Nor is a ``square`` of filet, whatever its words.
    """
    tokens = Stream(text, vocabulary).tokens
    counted = any(one.kind == "num" and two.kind == "stitch" for one, two in pairwise(tokens))
    if not square and (not counted or _PLACE.search(text) is None):
        return ()
    return (
        Problem(
            code="row-not-understood",
            span=span,
            found=f"how “{name}” is worked is not understood: “{_in_short(text)}”.",
            mend="Write it as “5 dc in same st” or “(2 dc, ch 1, 2 dc) in same st”; a stitch that "
            "is closed to one says so: “… (1 st)”.",
        ),
    )


def _in_short(text: str) -> str:
    """The beginning of words on several lines, on the one line of a message."""
    return " ".join(text.split())[:80]


#: in front of a stitch that is worked, and is not the place or the likeness of one
_BEFORE_WORKED = frozenset(", ; . ( [ * & + - : and then work make made".split())


def _taken_for_one(name: str, text: str, span: Span, vocabulary: Vocabulary) -> tuple[Problem, ...]:
    """Words that tell of several stitches and are not read: counted as one, and that is said."""
    if compound(name.lower(), vocabulary.terms) is not None:
        return ()  # a stitch of the trade ("FPdc"), in a designer's own words
    tokens = Stream(text, vocabulary).tokens
    told = int(any(one.word == "sk" for one in tokens))  # what passes stitches is worked over some
    for at, token in enumerate(tokens):
        if token.kind not in ("stitch", "grp") or token.word == "sl st":
            continue
        before = tokens[at - 1] if at else None
        number = before.value if before is not None and before.kind == "num" else 1
        if before is None or before.kind == "num" or before.word in _BEFORE_WORKED:
            told += max(number, token.value if token.kind == "grp" else 1)
    if told < _SEVERAL:
        return ()
    return (
        Problem(
            code="stitch-words",
            span=span,
            found=f"“{name}” is counted as one stitch in one place: the words that say how it is "
            f"worked are not read: “{_in_short(text)}”.",
            mend="Write it as “(2 dc, ch 1, 2 dc) in same st”, or as steps: “sk 2 sts, 5 dc in "
            "next st”; where it is closed to one stitch, add “(1 st)”.",
        ),
    )
