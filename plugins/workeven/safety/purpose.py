"""For whom and for what a thing is made, as far as safety hangs on it.

Takes     ``Pattern``.
Gives     ``Purpose``, ``purpose_of``, ``texts``; ``CORDS``, ``FASTENERS``, ``SMALL_PARTS``,
          ``PARTS_OF_ANY_SIZE``.
Problems  none.
From      design.md, ``audience use`` and ``notions``; ``standards/safety.csv``.
"""

from __future__ import annotations

import re
from collections.abc import Iterator

from workeven.pattern import Pattern, Text
from workeven.records import record
from workeven.standards.safety import SafetyRule

#: Kinds of notions that hang and catch. Elastic lies in a casing and has no ends.
CORDS = frozenset({"cord", "drawstring", "ribbon"})
#: Small parts that hold clothes together.
FASTENERS = frozenset({"button", "snap", "toggle", "hook and eye", "buckle"})
#: Other small parts.
SMALL_PARTS = frozenset({"bead", "sequin", "safety eyes", "safety nose", "bell", "magnet"})
SMALL_PARTS |= {"key ring"}
#: Parts that may be too large to be swallowed: only their size tells.
PARTS_OF_ANY_SIZE = frozenset({"rattle", "squeaker", "ring", "handle", "zip"})
#: What fills a thing.
FILLINGS = frozenset({"stuffing", "pillow form"})
#: What is worked with and not in the thing: "pins, to hold the filling" fills nothing.
TOOLS = frozenset({"stitch marker", "yarn needle", "pins", "sewing thread"})
#: Uses in which the thing is not on anybody's body, so that its neck is its own.
OFF_THE_BODY = frozenset({"toy", "home", "kitchen", "flame", "hammock", "hanging"})
#: Uses in which a filling makes a toy, or what is taken for one.
PLAYED_WITH = frozenset({"toy", "home", "hanging"})
#: Uses in which it meets heat.
HOT = frozenset({"kitchen", "flame"})
#: The last month in which a child is taken for a baby (common practice).
_LAST_OF_BABY = 24

#: what a thing is filled with, and the words by which a text tells that it is
_FILLING = (
    r"stuff(?:ed|ing|s)?|(?:fib(?:re|er)|poly(?:ester)?)[ -]?fill?(?:ing)?"
    r"|(?:toy|wool|cotton|soft|kapok) filling|filling|wadding|batting|padding|kapok|pellets"
)
#: "Fill the body with wool", but not "filled with dc", "fill in the gaps", "filled squares"
_FILL = (
    r"(?:fill|pack|pad)(?:ed|ded|s|ing|ding)?\b(?! (?:in|out)\b)(?:[ ,]+[\w’'-]+){0,8}?[ ,]+"
    r"(?:firmly|lightly|loosely|softly|tightly|with (?!\d|a? ?(?:st|sc|hdc|dc|tr|htr|colou?r|row)))"
)
_STUFFED = re.compile(
    rf"\b(?:(?:{_FILLING})\b(?! (?:st|row|rnd|round|mesh|square))|{_FILL})", re.IGNORECASE
)
#: "do not stuff", "no filling", "is left without any wadding": such words tell of none
_EMPTY = re.compile(
    r"(?:\b(?:no|not|never|nor|without|instead of)|n[’']t)(?: (?:be|been|any|need))*"
    rf"(?: \w+ (?:or|and))? (?:{_FILLING}|(?:fill|pack|pad)(?:ed|ded)?)\b",
    re.IGNORECASE,
)


@record
class Purpose:
    """For whom, for what, of what.

    ``youngest`` and ``oldest`` are months of age; ``youngest`` is None for adults and pets,
    ``oldest`` also where the ages have no end. ``filled``: something in it is stuffed.
    ``melting`` are fibres of its yarns, where it is used near heat.
    """

    audience: str
    ages: str
    youngest: int | None
    oldest: int | None
    uses: frozenset[str]
    kinds: frozenset[str]
    filled: bool
    melting: tuple[str, ...]

    @property
    def whom(self) -> str:
        """For whom it is, for a sentence."""
        named = {"adult": "adults", "pet": "a pet", "child": "children", "baby": "a baby"}
        return named[self.audience] + (f" ({self.ages})" if self.ages else "")

    @property
    def worn(self) -> bool:
        """Whether it is on a body, or may be."""
        return not self.uses <= OFF_THE_BODY

    def under(self, months: int) -> bool:
        """Whether a child younger than that is among those it is for."""
        return self.youngest is not None and self.youngest < months

    def concerned(self, rule: SafetyRule) -> bool:
        """Whether somebody it is for is of the ages of a rule."""
        return self.youngest is not None and rule.concerns(self.youngest, self.oldest)


def purpose_of(pattern: Pattern) -> Purpose:
    """For whom and for what a pattern is; a baby without ages is up to 2 years old."""
    young = pattern.audience in ("baby", "child")
    ages = pattern.ages
    kinds = frozenset(notion.kind for notion in pattern.notions)
    uses = frozenset(pattern.use)
    melting = (_melting(yarn.fibre) for yarn in pattern.yarns if uses & HOT)
    return Purpose(
        audience=pattern.audience,
        ages="" if ages is None else ages.text,
        youngest=(0 if ages is None else ages.youngest) if young else None,
        oldest=_oldest(pattern),
        uses=uses,
        kinds=kinds,
        filled=bool(kinds & FILLINGS) or (bool(uses & PLAYED_WITH) and _stuffed(pattern)),
        melting=tuple(dict.fromkeys(name for found in melting for name in found)),
    )


def _melting(fibre: str) -> tuple[str, ...]:
    """The fibres of a yarn that melt, as it names them."""
    from workeven.standards.care import fibres_in  # few things meet heat

    return tuple(word for word, one in fibres_in(fibre) if one.melts)


def _oldest(pattern: Pattern) -> int | None:
    """The last month of age of whom it is for; None where there is no end, or no child."""
    if pattern.audience == "baby" and pattern.ages is None:
        return _LAST_OF_BABY
    return None if pattern.ages is None else pattern.ages.oldest


def _stuffed(pattern: Pattern) -> bool:
    """Whether the words of a pattern fill something, also where no filling is listed."""
    notes = (notion.note or "" for notion in pattern.notions if notion.kind not in TOOLS)
    whole = (pattern.title.text, pattern.summary.text)
    told = (*(text.text for text in texts(pattern)), *whole, *notes)
    return any(_STUFFED.search(_EMPTY.sub("", words)) for words in told)


def texts(pattern: Pattern) -> Iterator[Text]:
    """All words of the pattern in which a filling, a cord or a part may be told."""
    for trimming in pattern.trimmings:
        yield Text(text=trimming.note or "", span=trimming.span)
    for piece in pattern.pieces:
        yield Text(text=piece.title, span=piece.span)
        for section in piece.sections:
            for words in filter(None, (section.title, section.note)):
                yield Text(text=words, span=section.span)
            for note in section.row_notes:
                yield Text(text=note.note or "", span=note.span)
            for row in section.rows:
                yield Text(text=row.text, span=row.span)
    yield from (*pattern.assembly, *pattern.finishing)
