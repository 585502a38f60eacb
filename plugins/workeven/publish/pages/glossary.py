"""The page of stitches and abbreviations: both terms, in full, and what each one is.

Takes     the vocabulary of the notation.
Gives     ``GlossaryView``: ``glossary``; ``search_words``.
Problems  none.
From      ``notation.wording`` and ``notation.vocabulary``, which have the published tables of
          abbreviations and terms; how a stitch is worked is common practice.

Names come from where the pages of patterns have them, so that a word means the same on both.
"""

from __future__ import annotations

from workeven.notation import wording
from workeven.notation.vocabulary import HEIGHTS, Terms, in_terms
from workeven.publish.pages.anchors import slug
from workeven.records import record

#: How a stitch is worked, by its US name, from low to tall; then those made of others.
_STITCHES: dict[str, str] = {
    "sl st": "Insert the hook, yarn over, and pull through the place and the loop on the hook at "
    "once. It joins a round or moves the hook along, and adds next to no height.",
    "sc": "Insert the hook, yarn over, pull up a loop; yarn over, pull through both loops.",
    "hdc": "Yarn over, insert the hook, yarn over, pull up a loop; yarn over, pull through all "
    "three loops.",
    "dc": "Yarn over, insert the hook, yarn over, pull up a loop; then twice: yarn over, pull "
    "through two loops.",
    "tr": "Yarn over twice, insert the hook, yarn over, pull up a loop; then three times: yarn "
    "over, pull through two loops.",
    "dtr": "Yarn over three times, insert the hook, yarn over, pull up a loop; then four times: "
    "yarn over, pull through two loops.",
    "trtr": "Yarn over four times, insert the hook, yarn over, pull up a loop; then five times: "
    "yarn over, pull through two loops.",
    "sc2tog": "A decrease: pull up a loop in each of two stitches, yarn over, pull through all "
    "loops. A number other than 2 says how many are worked together.",
    "hdc2tog": "A decrease: yarn over and pull up a loop in each of two stitches, yarn over, pull "
    "through all loops.",
    "dc2tog": "A decrease: work a stitch into each of two stitches up to its last step, so that "
    "the last loop of each stays on the hook; yarn over, pull through all loops.",
    "esc": "An extended stitch: pull up a loop, yarn over, pull through one loop, and go on as for "
    "the plain stitch. It is a little taller.",
    "fpdc": "The hook goes in from the front, behind the post of the stitch below, and out to the "
    "front again; the post stands forward.",
    "bpdc": "The hook goes in from the back, before the post of the stitch below, and out to the "
    "back again; the post stands back.",
    "fsc": "A first row with its own chain: pull up a loop, chain 1 in it for the foot, then the "
    "stitch; the next one goes into that foot.",
    "rsc": "Worked back along the edge, from left to right if you hold the hook in your right "
    "hand: a corded edge.",
    "spike": "Worked into a place one or more rows below, its loop pulled up to the height of the "
    "row.",
    "cl": "Several tall stitches, each kept back before its last step, and closed together; the "
    "pattern says how many and where.",
    "bobble": "A cluster in one place, so that it stands out in a knob.",
    "pc": "Several whole stitches in one place; take the hook out, insert it in the first of them, "
    "and pull the last loop through.",
    "puff": "Several long loops pulled up in one place, closed together.",
}

#: Words with a remark beyond their meaning, by their short form in US terms.
_REMARKS = {
    "ch": "Yarn over, pull through the loop on the hook. Most flat work begins with it, and it "
    "makes gaps and turning chains.",
    "sk": "Pass over without working; UK terms say miss.",
    "inc": "Two stitches in one place, where the pattern does not say otherwise.",
    "BLO": "Work under the loop at the back alone; the other stays free and makes a ridge.",
    "FLO": "Work under the loop at the front alone.",
    "tch": "The chains that lift the hook to the height of the next row; the pattern says whether "
    "they count as a stitch.",
    "RS": "The side that is seen when it is worn or used.",
    "rnd(s)": "A row that is worked around and meets its own beginning.",
}

#: What has no abbreviation, or is a sign.
_SIGNS = (
    ("magic ring", "A loop of yarn that the first round is worked into, then pulled tight."),
    ("picot", "A few chains closed to a small knot, mostly at an edge."),
    ("shell, fan", "Several stitches in one place that spread; the pattern says of which."),
    ("V-st", "Two stitches in one place, mostly with a chain between."),
    ("fasten off", "Cut the yarn and pull the end through the last loop."),
    ("* …; rep from *", "Work what stands behind the star again, as the row says how often."),
    ("( … ) in next st", "All that is in the brackets goes into one place."),
    ("60 (66, 72)", "One number for each size, in their order; the number alone is the first."),
    ("–", "In a list of numbers: this size does not work it."),
)


@record
class StitchView:
    """A stitch: its anchor, its names in both terms, how it is worked."""

    anchor: str
    us: tuple[str, str]
    uk: tuple[str, str]
    words: str


@record
class GlossaryView:
    """The page; ``words`` and ``signs``: the short form, and what it is."""

    title: str
    stitches: tuple[StitchView, ...]
    words: tuple[tuple[str, str], ...]
    signs: tuple[tuple[str, str], ...]


def glossary() -> GlossaryView:
    """The whole page."""
    return GlossaryView(
        title="Stitches and abbreviations",
        stitches=tuple(
            StitchView(
                anchor=f"stitch-{slug(name)}",
                us=_named(name, "us"),
                uk=_named(name, "uk"),
                words=f"{words}{_height(name)}",
            )
            for name, words in _STITCHES.items()
        ),
        words=tuple(_words()),
        signs=_SIGNS,
    )


def search_words() -> str:
    """The stitches by all their names, the words of rows, and what UK terms call ``sk``."""
    names = [one for name in _STITCHES for one in (*_named(name, "us"), *_named(name, "uk"))]
    names += [one for pair in wording.plain_words() for one in (pair.short, pair.meaning)]
    names += ["miss", *(name for name, _ in _SIGNS if name[0].isalpha())]
    return ", ".join(dict.fromkeys(names))


def _named(name: str, terms: Terms) -> tuple[str, str]:
    """Short and in full; a stitch without an abbreviation has its name twice."""
    short = in_terms(name, terms)
    return short, wording.meaning(name, terms) or f"{short} stitch"


def _height(name: str) -> str:
    chains = HEIGHTS.get(name, 0)
    if not chains:
        return ""
    return f" As tall as {chains} chain{'s' if chains > 1 else ''}."


def _words() -> list[tuple[str, str]]:
    found = []
    for one in wording.plain_words():
        remark = _REMARKS.get(one.short, "")
        found.append((one.short, f"{one.meaning}. {remark}" if remark else one.meaning))
    return sorted(found, key=lambda pair: pair[0].casefold())
