"""What a stitch of the pattern's own is drawn as, from the words that say what it is.

Takes     the name of a stitch, the special stitches of the pattern.
Gives     ``drawn_as``: ``Closed``, or None where its words tell nothing sure.
Problems  none.
From      common practice in charts: several legs in one place that meet at both ends; a stitch that
          has no symbol has one of the chart's own, told in its key.

Worked example: of "pc = 5 dc in next st, remove hook, draw the loop through the first dc" it is a
popcorn of five dc; of "loop st = sc with a long loop left at the back" a stem as high as an sc,
with a mark that is in this chart for that stitch alone.
"""

from __future__ import annotations

import re
from collections.abc import Mapping
from typing import Literal, NamedTuple

from workeven.notation.tree import SpecialStitch
from workeven.notation.vocabulary import HEIGHTS
from workeven.proof.context import SizeContext
from workeven.proof.making import special_of

#: stitches that have a symbol, alone and together, around posts too
HAS_SYMBOL = re.compile(r"(?:fp|bp)?(?:sc|hdc|dc|tr|dtr)(?:\d+tog)?\Z")
#: what a stitch that is closed to one is made of, in the words of the pattern: "5 dc", "dc3tog"
_LEGS = re.compile(
    r"\b(?P<sts>\d+)[ -]?(?:h?dc|h?tr|d?tr)\b|\b(?:h?dc|d?tr|htr)(?P<tog>\d+)tog\b", re.IGNORECASE
)
_LEAD = re.compile(r"\Ach[ -]?(?P<chains>\d+)\b", re.IGNORECASE)
_POPCORN = re.compile(
    r"\bpc\b|popcorn|(?:remov|drop|tak)\w* (?:out )?(?:the )?(?:hook|loop)", re.IGNORECASE
)
#: words by which a stitch stands elsewhere than in one place of the row below
_ELSEWHERE = re.compile(
    r"tog\b|together|\blegs?\b|\bnext\b|\bsk(?:ip)?\b|\bmiss\b|below|\bposts?\b|\brows?\b|"
    r"\brnds?\b|\brounds?\b",
    re.IGNORECASE,
)
#: more legs than these cannot be told apart
MOST_LEGS = 6
#: so many stitches have a mark of their own
MARKS = 3


class Closed(NamedTuple):
    """What a stitch of one head is made of: so many legs of a basic stitch.

    ``lead``: how many chains are its first leg (of a beginning version); 0 where none are.
    ``own``: it has a stem, and for a head the mark of that number, which no other has.
    """

    style: Literal["cluster", "popcorn", "puff", "own"]
    base: str
    legs: int
    lead: int = 0
    own: int = 0


def drawn_as(context: SizeContext, name: str) -> Closed | None:
    """What the pattern's words say that a stitch is made of; None where it has no such words."""
    special = special_of(context, name)
    if special is None:
        return None
    closed = _closed(name, special)
    return _with_mark(name, special, context.special) if closed is None else closed


def _closed(name: str, special: SpecialStitch) -> Closed | None:
    words = f"{name}: {special.text}"
    told = {int(found["sts"] or found["tog"]) for found in _LEGS.finditer(special.text)}
    base = special.legs_of or ""
    if not special.closed or special.takes != 1:
        return None
    if "puff" in words.lower():
        return Closed("puff", base if HAS_SYMBOL.match(base) else "hdc", 3)
    if len(told) != 1 or not HAS_SYMBOL.match(base):
        return None
    legs, lead = told.pop(), _LEAD.match(special.text)
    chains = 0 if lead is None else int(lead["chains"])
    if legs + bool(chains) > MOST_LEGS or chains > HEIGHTS[base]:
        return None
    style: Literal["cluster", "popcorn"] = "popcorn" if _POPCORN.search(words) else "cluster"
    return Closed(style, base, legs + bool(chains), chains)


def _with_mark(
    name: str, special: SpecialStitch, all_of_them: Mapping[str, SpecialStitch]
) -> Closed | None:
    """A stitch that its words only describe; the marks go to such stitches in their order."""
    if not _is_described(special) or name != special.name:
        return None
    described = [one for one, other in all_of_them.items() if _is_described(other)]
    at = described.index(name)
    base = special.legs_of or ""
    return (
        Closed("own", base if HAS_SYMBOL.match(base) else "sc", 1, own=at) if at < MARKS else None
    )


def _is_described(special: SpecialStitch) -> bool:
    """Whether it is one stitch in one place, of which the words tell no parts."""
    in_one_place = special.closed and special.takes == 1 and not special.content
    return in_one_place and not special.steps and not _ELSEWHERE.search(special.text)
