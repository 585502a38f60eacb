"""Stitches of the pattern's own over several places: squares of filet, crossed stitches, picots.

Takes     the name and the words of a stitch, the vocabulary.
Gives     ``steps_of_special``, ``decrease_of``, ``is_square``.
Problems  none: words that are no steps give none.
From      notation.md, "Squares", "Chains worked back along".

Worked example: ``block = dc in next 2 dc or 2 dc in next ch-2 sp, dc in next dc`` is two steps; the
first can be worked in two ways, of which the places that come next choose one.
"""

from __future__ import annotations

import re

from workeven.notation.steps import steps
from workeven.notation.stream import NotUnderstood, Stream
from workeven.notation.tree import (
    ONE,
    Amount,
    Aside,
    Chain,
    Either,
    Next,
    Picot,
    Skip,
    Step,
    Stitch,
    Unplaced,
    Work,
)
from workeven.notation.vocabulary import Vocabulary, kind_of

#: what is worked into one place is a group, and has no steps of its own
_ONE_PLACE = re.compile(r"\b(?:all )?(?:in|into) (?:the )?(?:same|one|1)\b|\bring\b", re.IGNORECASE)
#: names of the squares of filet (common practice)
_SQUARE = re.compile(
    r"(?:(?:beg|beginning|first|open|closed|solid|filled|half) )?"
    r"(?:sps?|spaces?|bls?|blks?|blocks?|mesh(?:es)?|sqs?|squares?|bars?|lacets?)\b",
    re.IGNORECASE,
)
_PICOT = re.compile(
    r"(?:ch(?:ain)? ?-?(?P<chains>\d+)|(?P<first>\d+) ?-?ch(?:ain)?s?)\b"
    r".*\b(?:sl ?st|slip stitch|ss|sc|dc)\b"
)
#: what says that the legs of a decrease go into places of their own
_LEGS = re.compile(r"\b(?:legs?|next|over)\b", re.IGNORECASE)
#: a chain closed on itself, under whatever name
_CLOSED_CHAIN = re.compile(
    r"(?:ch(?:ain)? ?-?\d+|\d+ ?-?ch(?:ain)?s?),? (?:(?:1|a|one) )?"
    r"(?:sl\.? ?st|ss|slip st(?:itch)?) (?:in(?:to)?|to) (?:the )?(?:"
    r"\d(?:st|nd|rd|th) ch(?:ain)? from (?:the )?hook|first (?:of (?:these|the) )?(?:\d )?ch\w*|"
    r"(?:top of (?:the )?)?(?:last|previous) \w+(?: (?:just )?(?:made|worked))?|"
    r"(?:top of (?:the )?)?\w+ just (?:made|worked))",
    re.IGNORECASE,
)
#: "p = picot, ch 4, sl st in first ch", "p = picot of 3 ch"
_A_PICOT = re.compile(r"\A\s*(?:an? )?picot\s*(?:[,:;(]\s*|of\s+(?=\d+ ?-?ch|ch))", re.IGNORECASE)
#: how many chains of a picot there are, said first
_OF_CHAINS = re.compile(r"(?:ch(?:ain)? ?-?(?P<chains>\d+)|(?P<first>\d+) ?-?ch(?:ain)?s?)\b")
#: what a square passes is stitches or chains, as wide: "miss 2 sts or 2 ch"
_SKIPPED_OR = re.compile(
    r"(miss|skip|sk) (?:the )?(?:next )?(\d+ \w+) or (?:the )?(?:next )?"
    r"(\d+) ?-?ch(?:s|ains?)?\b(?! (?:sp|space|lp|loop))",
    re.IGNORECASE,
)
_OR = re.compile(r",?\s+or\s+", re.IGNORECASE)
#: a lacet is passed with both its chains and the stitch between them (common practice)
_PASSED_LACET = re.compile(r"\b(miss|skip|sk) (?:the )?(?:next )?lacet\b", re.IGNORECASE)
#: what a square is over another one, told behind what it is over stitches
_OVER_ANOTHER = re.compile(
    r"\s*[,;.(]\s*(?:(?:or|and|but) )?(?:(?:when|if|where) )?(?:(?:worked|made|it is|it comes) )*"
    r"(?:over|in(?:to)?|on|above) (?:an? |another |the )?(?:ch-\d+ |\d-ch |open |closed |solid )?"
    r"(?:sps?|spaces?|bls?|blks?|blocks?|mesh(?:es)?|sqs?|squares?)\b,?"
    r"(?::|,| work| it is)\s*(?P<there>[^;]+?)\)?\s*\Z",
    re.IGNORECASE,
)


def steps_of_special(name: str, text: str, vocabulary: Vocabulary) -> tuple[Step, ...]:
    """The steps of a stitch worked over several places; () where its words are none."""
    if (called := _A_PICOT.match(text)) is not None:
        return _picot(text[called.end() :], called=True)
    if "picot" in name.lower() or _CLOSED_CHAIN.fullmatch(text.strip(" .")):
        return _picot(text)
    another = _OVER_ANOTHER.search(text)
    if another is not None and is_square(name):
        ways = [
            steps_of_special(name, one, vocabulary)
            for one in (text[: another.start()], another["there"])
        ]
        return (Either(tuple(ways)),) if all(ways) else ()
    if (loop := _picot_loop(text, vocabulary)) is not None:
        return loop
    if _ONE_PLACE.search(text):
        return ()
    text = _PASSED_LACET.sub(r"\1 next ch sp, \1 next sc, \1 next ch sp", text)
    parts = _parts(_SKIPPED_OR.sub(r"\1 next \2 or next ch-\3 sp", text).strip().rstrip("."))
    try:
        found = tuple(step for part in parts for step in _part(part, vocabulary))
    except NotUnderstood:
        return ()
    return found if is_square(name) or _takes_several(found) else ()


def decrease_of(text: str, vocabulary: Vocabulary) -> tuple[Step, ...]:
    """``tr2tog with first leg in last sc of one leaf, …``: a decrease under a name of its own."""
    tokens = Stream(text, vocabulary).tokens
    first = tokens[0]
    legs = kind_of(first.word).legs if first.kind == "stitch" else 1
    alone = len(tokens) == len((first, "end"))  # "dec = sc2tog": another name for it
    if legs == 1 or _ONE_PLACE.search(text) or not (alone or _LEGS.search(text)):
        return ()
    several = () if alone else steps_of_special("", text, vocabulary)
    if len(several) > 1:
        return several  # "dc2tog over next 2 sts, ch 1": what is beside it is a part too
    return (Work((Stitch(first.word, ONE, legs),), Unplaced(ONE)),)


def is_square(name: str) -> bool:
    """Whether a name is that of a square of filet."""
    return _SQUARE.fullmatch(name) is not None


def _picot(text: str, *, called: bool = False) -> tuple[Step, ...]:
    """``ch 3, sl st in 3rd ch from hook``, in whatever words: a chain closed on itself.

    ``called``: it is said to be a picot, and how it is closed need not be.
    """
    found = (_OF_CHAINS if called else _PICOT).match(text.strip())
    return () if found is None else (Picot(Amount((int(found["chains"] or found["first"]),))),)


#: what is said of a loop behind how it is worked
_OF_A_LOOP = re.compile(r"\s*\((?:1|one|a) (?:loop|lp|sp|space)\)|;.*\Z", re.IGNORECASE)


def _picot_loop(text: str, vocabulary: Vocabulary) -> tuple[Step, ...] | None:
    """``ch 2, picot, ch 3, picot, ch 2 (1 loop)``: chains and picots alone; else None."""
    if "picot" not in text.lower():
        return None
    try:
        found = _read(_OF_A_LOOP.sub("", text).strip().rstrip("."), vocabulary)
    except NotUnderstood:
        return None
    return found if is_picot_loop(found) else None


def is_picot_loop(steps: tuple[Step, ...]) -> bool:
    """Whether steps are chains and picots, so that they stand over no stitch and are one loop."""
    chains = any(isinstance(step, Chain) for step in steps)
    return chains and all(isinstance(step, Chain | Picot) for step in steps)


def _parts(text: str) -> list[str]:
    """The parts between commas that stand in no bracket."""
    parts, depth, last = [], 0, 0
    for at, sign in enumerate(text):
        depth += (sign in "([") - (sign in ")]")
        if sign in ",;" and not depth:
            parts.append(text[last:at])
            last = at + 1
    found: list[str] = []
    for part in (one.strip() for one in (*parts, text[last:]) if one.strip()):
        if found and part.startswith("or "):  # "dc in next 2 dc, or 2 dc in next sp"
            found[-1] = f"{found[-1]} {part}"
        else:
            found.append(part)
    return found


def _part(text: str, vocabulary: Vocabulary) -> tuple[Step, ...]:
    """One part; where "or" gives a choice, the verb of the first way serves the others too."""
    ways = _OR.split(text)
    first = _read(ways[0], vocabulary)
    if len(ways) == 1:
        return first
    verb = ways[0].split(" next ")[0].split(" in ")[0]
    found = [first]
    for way in ways[1:]:
        try:
            found.append(_read(way, vocabulary))
        except NotUnderstood:
            joint = (
                " in " if way.startswith("next") and not verb.startswith(("sk", "miss")) else " "
            )
            found.append(_read(f"{verb}{joint}{way.removeprefix('in ')}", vocabulary))
    return (Either(tuple(found)),)


def _read(text: str, vocabulary: Vocabulary) -> tuple[Step, ...]:
    stream = Stream(text, vocabulary)
    found = steps(stream)
    if not stream.at_end() or not found:
        raise stream.fault()
    return tuple(step for step in found if not isinstance(step, Aside))  # "working in front"


def _takes_several(found: tuple[Step, ...]) -> bool:
    """Whether more than one place is worked into, or passed."""
    places = 0
    for step in found:
        match step:
            case (
                Work(target=Next(count=count) | Unplaced(count=count))
                | Skip(target=Next(count=count) | Unplaced(count=count))
            ):
                places += count.values[0] or 0 if count.values else 0
            case Either():
                places += 1
            case Chain() | Work():
                pass
            case _:
                return False
    return places > 1
