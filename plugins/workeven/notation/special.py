"""A stitch of the pattern's own, from the words that say how it is worked.

Takes     the name and the words of a stitch.
Gives     ``parse_special``.
Problems  none: words that are no notation describe a stitch, which takes one place.
From      notation.md, "Beginning versions", "What is reported".
"""

from __future__ import annotations

import re

from workeven.notation.contents import content
from workeven.notation.over_places import decrease_of, is_square, steps_of_special
from workeven.notation.stream import LONGEST, NotUnderstood, Stream
from workeven.notation.tree import Content, SpecialStitch, Stitch
from workeven.notation.vocabulary import Terms, Vocabulary, kind_of
from workeven.problems import Checked, Span

_CLOSED = re.compile(
    r"\bcluster\b|\bclosed\b|\d+tog\b|\(1 st\)|counts? as (?:1|one) st|drop (?:the )?loop|"
    r"\bpopcorn\b|\bbobble\b|\bpuff\b|(?:through|thru) all|"
    r"(?:leav|hold|keep)(?:e|ing)? (?:back )?(?:the )?last (?:loop|lp)|"
    r"last (?:loop|lp)s? (?:of \w+ )*(?:st |stitch |\w+ )?(?:left |held )?on (?:the )?hook|"
    r"(?:remove|take|slip) (?:the |your )?(?:hook|loop|lp)\b|(?:remov|tak)ing (?:the |your )?hook|"
    r"(?:dropped|dropping|drop) (?:the )?(?:loop|lp|st)\b",
    re.IGNORECASE,
)


#: the chain of a beginning version, before the brackets of what goes into the same place
_LEAD = re.compile(
    r"(?P<lead>(?:\d+ ?)?ch(?:ain)?(?: ?-?\d+)?(?: ?\([^()]*\))?),? (?:and )?"
    r"\((?P<rest>[^()]*)\)\Z",
    re.IGNORECASE,
)
#: behind the words of a stitch over several places: how many they are, which the words say too
_OVER_SO_MANY = re.compile(
    r"\s*[,;(]\s*(?:(?:it|this) is )?worked over (?:the )?(?:next )?\d+ \w+\b[^()]*\)?\.?\s*\Z",
    re.IGNORECASE,
)
_NO_PLACE = re.compile(r"takes? up no (?:further )?st|stands? off", re.IGNORECASE)


def parse_special(name: str, text: str, span: Span, terms: Terms) -> Checked[SpecialStitch]:
    """A stitch of the pattern's own, from the words that say how it is worked.

    Where the words are notation of what goes into one place ("5 dc in same st"), it is made of
    those parts; where they say that it is closed, or only describe it, it is one stitch in one
    place. Words of several steps ("ch 2, sk 2, dc") are a stitch worked over several places.
    """
    made: tuple[Content, ...] = ()
    words = _OVER_SO_MANY.sub("", text)
    steps = decrease_of(text, Vocabulary(terms))
    if not steps and (_CLOSED.search(text) is None or is_square(name)):
        steps = steps_of_special(name, words, Vocabulary(terms))
        made = () if steps else _special_content(text, Vocabulary(terms))
    stitch = SpecialStitch(
        name=name,
        text=text,
        content=made,
        one_place=True,
        closed=not made and not steps,
        takes=0 if _NO_PLACE.search(text) else 1,
        span=span,
        base=_named_base(text, Vocabulary(terms)),
        steps=steps,
        square=bool(steps) and is_square(name),
    )
    return Checked(value=stitch)


def _named_base(text: str, vocabulary: Vocabulary) -> str | None:
    """The first basic stitch that a description names ("sc leaving a long loop")."""
    for token in Stream(text, vocabulary).tokens:
        if token.kind in ("stitch", "grp") and token.word != "sl st":
            return kind_of(token.word).base
    return None


def _special_content(text: str, vocabulary: Vocabulary) -> tuple[Content, ...]:
    """What stands before "in same st", where that is stitches and chains; else ()."""
    found = re.fullmatch(
        r"\s*(?P<what>.+?)(?:\s*,?\s*(?:all )?(?:in|into)\s+(?:the\s+)?(?:same|one|next|1)\b.*)?",
        text,
        re.DOTALL,
    )
    if found is None or (found["what"] == text and len(text) > LONGEST):
        return ()
    if not re.search(r"\b(?:in|into)\s+(?:the\s+)?(?:same|one|next|1)\b", text):
        return ()
    what = found["what"].strip()
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
