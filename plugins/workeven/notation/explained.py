"""Stitches explained where they are first worked: "V-st made", "MB (5 tr in next st, …)".

Takes     the text of a row, the vocabulary, what was explained before.
Gives     ``Explained``: the text to read, the vocabulary from there on, the stitches.
Problems  ``row-not-understood``.
From      notation.md, "What is reported"; common practice.

The explanation is blanked out of the text, so that every word keeps its column; it holds from its
own row on. A name that is explained again must mean the same.

Worked example: ``*sk 2 sts, (dc, ch 1, dc) in next st—V-st made; rep from * around`` is read as
``*sk 2 sts, V-st           in next st           ; rep from * around``, and a V-st is ``(dc, ch 1,
dc) in same st`` from there on.
"""

from __future__ import annotations

import re
from collections.abc import Mapping
from typing import NamedTuple

from workeven.notation.contents import content
from workeven.notation.declared import declarations_in, listed_from
from workeven.notation.expressions import ignoring_case
from workeven.notation.special import parse_special
from workeven.notation.stream import LONGEST, NotUnderstood, Stream
from workeven.notation.tree import SpecialStitch
from workeven.notation.vocabulary import CLOSED_WORDS, Vocabulary
from workeven.problems import Problem, Span
from workeven.records import replace


class Explained(NamedTuple):
    """A row without what it explains: of the same length, so that columns stay.

    ``stitches`` are those that it explains first.
    """

    text: str
    vocabulary: Vocabulary
    stitches: tuple[SpecialStitch, ...] = ()
    problems: tuple[Problem, ...] = ()


#: names that a designer gives to a stitch: "V-st", "PC", "bean stitch", "shell"
_NAME = (
    r"(?:(?-i:[A-Z]{2,5})|[a-z]{1,9}-(?:st|stitch)|"
    r"(?:beg(?:inning)? )?(?:[a-z]+ )?(?:shell|fan|bobble|popcorn|cluster|puff|star|bean)"
    r"(?: st(?:itch)?)?)"
)
#: "(dc, ch 1, dc) in next st—V-st made"
_MADE = (
    r"(?P<group>\([^()]*\)|\d+ [a-z]+)(?P<place>\s+in(?:to)?\s+(?:the\s+)?[^,;.()*\[\]–—:]{1,40}?)"
    r"(?P<told>\s*(?:\(|\[|,\s*|:\s*|\s[–—-]\s|[–—])\s*(?:one |a |first |the )?"
    rf"(?P<name>{_NAME})\s+(?:is )?(?:made|formed|completed?|worked)\s*[)\]]?)"
    r"(?=\s*[,;.:)\]]|\s*\Z)"
)
#: "sk next st, dc in next st, dc in skipped st (X-st made)"
_CROSSED = (
    r"(?P<steps>(?:sk|skip|miss)\s[^*\[\]();:]{1,160}?\b(?:skipped|missed) "
    r"(?:sts?|stitch(?:es)?|[hd]?dc|sc|tr|htr))(?P<told>\s*[(\[](?:one |a |first |the )?"
    rf"(?P<name>{_NAME}) (?:made|formed|complete|completed)[)\]])"
)
#: "MB (5 tr in next st, …)", "PC in next st (5 dc in st, …)", "shell (5 dc) in next st"
_BRACKETED = (
    rf"(?<![\w-])(?P<name>{_NAME})"
    r"(?P<place>\s+in(?:to)?\s+(?:the\s+)?(?:next|same|first|each|last|\d)\b[^,;.()*\[\]]*)?"
    r"\s*(?P<told>\((?:=\s*)?(?P<meaning>[^()]*(?:\([^()]*\)[^()]*)*)\)|\[(?P<squared>[^\[\]]+)\])"
    r"(?P<behind>\s+in(?:to)?\b)?"
)
#: "5 dc in ring, drop loop from hook, insert hook in first dc and draw loop through (pc made)"
_POPPED = (
    r"(?P<beg>\bch(?:ain)? ?3, )?(?P<group>(?<![(\[])\b\d+ (?:[hd]?dc|h?tr|sc))"
    r"(?P<place>\s+in(?:to)?\s+[^,;.()*]{1,40})"
    r"(?P<told>,\s*(?:drop|remove|take|slip|withdraw)[^;*()]{1,140}?\b(?:through|thru)"
    r"(?: (?:it|loop|lp|st|dc|the loop|dropped loop|first dc))?(?=\s*[,;.()]|\s*\Z)"
    r"(?:\s*\((?:[a-z]+ ){0,3}(?:pc|popcorn)(?: st(?:itch)?)?(?: (?:made|formed|completed?))?\))?)"
)
#: a group that begins with the chain of its row is a beginning version: it explains no other
_LED = re.compile(r"\(\s*(?:beg(?:inning)?\s+|\d+\s*)?ch", re.IGNORECASE)
#: there the chain of the row may be a part of it
_AT_CHAIN = re.compile(r"\b(?:same|first)\b", re.IGNORECASE)
#: words without one of which nothing is said to be made
_TOLD = ("made", "formed", "complete", "worked")
#: a bracket behind a word that may tell how it is worked, as most brackets of rows do not
_TELLING = re.compile(
    r"[(\[](?<=[A-Za-z] .|.[A-Za-z].)(?=[(\[]?[^()\[\]]*"
    r"(?:\b(?:in|into|hook|yo|yrh|yoh|loops?|insert|draw|pull)\b|[)\]]\s+in(?:to)?\b))"
)
#: what says how a stitch is worked
_HOW = re.compile(
    r"\b(?:yo|yoh|yrh|hook|loops?|lps?|insert|draw|pull|tog|together)\b|"
    r"\bin(?:to)? (?:the )?(?:same|next|one|st|stitch|sp)\b",
    re.IGNORECASE,
)
_WORKED = re.compile(
    r"(?<![\w-])(?:\d+\s*)?(?:sc|hdc|dc|tr|dtr|htr|ch|yo|yrh|yoh|insert)\b", re.IGNORECASE
)


def explained(
    text: str,
    span: Span,
    vocabulary: Vocabulary,
    known: Mapping[str, SpecialStitch],
    *,
    opening: bool = False,
) -> Explained:
    """The row to read, with what it explains taken out; ``opening``: no row stands before it.

    >>> place = Span(file="-", line=1, column=1, end_line=1, end_column=9)
    >>> explained("(dc, ch 1, dc) in next st (V-st made), turn", place, Vocabulary(), {}).text
    'V-st           in next st            , turn'
    """
    found = Explained(text, vocabulary)
    if len(text) > LONGEST:
        return found
    if opening or "=" in text:
        found = _listed(found, span, known, opening=opening)
    if "hook" in text and ("through" in text or "thru" in text):
        found = found._replace(text=ignoring_case(_POPPED).sub(_popped, found.text))
    if any(word in text for word in _TOLD):
        found = _crossed(_made(found, span, known), span, known)
    if _TELLING.search(text) is not None:
        found = _bracketed(found, span, known)
    return found


def _listed(
    row: Explained, span: Span, known: Mapping[str, SpecialStitch], *, opening: bool
) -> Explained:
    """The stitches that a line lists in front of the rows: "V-st = (dc, ch 1, dc) in same st"."""
    text = row.text
    for where, given in declarations_in(row.text, span, row.vocabulary.terms, opening=opening):
        at = where[0] + len(row.text[slice(*where)]) - len(row.text[slice(*where)].lstrip())
        place = span.within(at, where[1])
        row = row._replace(
            text=_over(row.text, where),
            problems=(*row.problems, *(replace(one, span=place) for one in given.problems)),
        )
        for stitch in given.stitches:
            row = _defined(row, stitch.name, stitch.text, place, known)
    only_headed = row.text is not text and not row.text[listed_from(text) :].strip(" .;,")
    return row._replace(text=" " * len(text)) if only_headed else row


def _popped(one: re.Match[str]) -> str:
    """A popcorn that is told loop by loop, by its name: at the head its chain is a part of it."""
    into_chain = re.search(r"\b(?:ch|chain)\b", one["told"], re.IGNORECASE) is not None
    if into_chain != (one["beg"] is not None):
        return one[0]
    name = "beg pc" if into_chain else "pc"
    return f"{name}{one['place']}".ljust(len(one[0]))


def _made(row: Explained, span: Span, known: Mapping[str, SpecialStitch]) -> Explained:
    for one in ignoring_case(_MADE).finditer(row.text):
        group, name = one["group"], one["name"]
        led = _LED.match(group) or _AT_CHAIN.search(one["place"])
        if led or not _is_group(group, row.vocabulary):
            continue
        told = len(row.problems)
        row = _defined(row, name, f"{group} in same st", span, known)
        as_named = len(row.problems) == told and "hook" not in one["place"]
        worked = (name if as_named else group).ljust(len(group)) + one["place"]
        row = row._replace(text=_over(row.text, one.span(), worked))
    return row


def _crossed(row: Explained, span: Span, known: Mapping[str, SpecialStitch]) -> Explained:
    for one in ignoring_case(_CROSSED).finditer(row.text):
        before = row
        row = _defined(row, one["name"], one["steps"], span, known)
        new = row.stitches[len(before.stitches) :]
        if any(not stitch.steps for stitch in new):
            return before
        written = _over(row.text, one.span("steps"), one["name"])
        row = row._replace(text=_over(written, one.span("told")))
    return row


def _bracketed(row: Explained, span: Span, known: Mapping[str, SpecialStitch]) -> Explained:
    for one in ignoring_case(_BRACKETED).finditer(row.text):
        name, meaning = one["name"], (one["meaning"] or one["squared"] or "").strip()
        whole = one["behind"] is not None and one["place"] is None
        if not _explains(meaning, row.vocabulary, alone=whole):
            continue
        if not _is_new(name, row.vocabulary):
            if not _is_known(name, row.vocabulary) or _HOW.search(meaning) is None:
                continue
        else:
            row = _defined(row, name, f"{meaning} in same st" if whole else meaning, span, known)
        row = row._replace(text=_over(row.text, one.span("told")))
    return row


def _over(text: str, where: tuple[int, int], instead: str = "") -> str:
    """The text with a stretch of it blanked, or written over."""
    start, end = where
    return text[:start] + instead.ljust(end - start) + text[end:]


def _is_group(group: str, vocabulary: Vocabulary) -> bool:
    """Whether words are stitches and chains that go into one place."""
    inside = group[1:-1] if group.startswith("(") else group
    stream = Stream(inside, vocabulary)
    try:
        content(stream, len(stream.tokens) - 1)
    except NotUnderstood:
        return False
    return any(token.kind == "stitch" for token in stream.tokens)


def _explains(meaning: str, vocabulary: Vocabulary, *, alone: bool) -> bool:
    """Whether words tell how a stitch is worked; ``alone``: all of them are stitches and chains."""
    if alone:
        return _is_group(meaning, vocabulary)
    return _HOW.search(meaning) is not None and _WORKED.match(meaning.lstrip("([ ")) is not None


def _is_new(name: str, vocabulary: Vocabulary) -> bool:
    """Whether a name is no word of the trade and none that the pattern declares."""
    tokens = Stream(name, vocabulary).tokens[:-1]
    if len(tokens) > 1 and tokens[-1].word == "st":  # "bean stitch"
        tokens = tokens[:-1]
    return name.lower() not in CLOSED_WORDS and all(
        token.kind == "word" and token.word not in _OTHER_WORDS for token in tokens
    )


def _is_known(name: str, vocabulary: Vocabulary) -> bool:
    """Whether a name is a closed stitch of the trade, or one that was declared or explained."""
    tokens = Stream(name, vocabulary).tokens[:-1]
    return len(tokens) == 1 and (
        tokens[0].word in CLOSED_WORDS.values() or tokens[0].word in vocabulary.special
    )


#: capitals that name no stitch
_OTHER_WORDS = frozenset(
    "rs ws blo flo bl fl mr row rnd st sp ch sk lp fo inc dec mc cc tbl all and next yo".split()
)


def _defined(
    row: Explained, name: str, meaning: str, span: Span, known: Mapping[str, SpecialStitch]
) -> Explained:
    """The row with one stitch more, from here on; a name explained before must mean the same."""
    own = {stitch.name.lower(): stitch for stitch in (*known.values(), *row.stitches)}
    before = own.get(name.lower())
    declared = any(name.lower() == one.lower() for one in row.vocabulary.special)
    if before is not None:
        if _folded(before.text) != _folded(meaning):
            return row._replace(problems=(*row.problems, _twice(row, name, before, span)))
        return row
    if declared:
        return row
    stitch = parse_special(name, meaning, span, row.vocabulary.terms).value
    if stitch is None:
        return row
    vocabulary = row.vocabulary.with_special((name,))
    return row._replace(vocabulary=vocabulary, stitches=(*row.stitches, stitch))


def _folded(words: str) -> str:
    return re.sub(r"\W+", " ", words.lower()).strip()


def _twice(row: Explained, name: str, before: SpecialStitch, span: Span) -> Problem:
    at = max(row.text.lower().find(name.lower()), 0)
    return Problem(
        code="row-not-understood",
        span=span.within(at, at + len(name)),
        found=f"“{name}” was explained as “{before.text}” before, and here as something else.",
        mend="Give one of the two another name.",
        excerpt=row.text.strip(),
    )
