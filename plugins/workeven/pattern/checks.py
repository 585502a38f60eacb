"""What holds between the parts of a pattern that has been read.

Takes     a ``Pattern``, the tree it was read from, the times of its film.
Gives     problems.
Problems  ``term-unused``, ``term-unexplained``, ``video-missing``, ``video-beyond``,
          ``video-order``, ``size-unknown``, ``name-unknown``, ``file-allow-error``,
          ``yarn-colour-unlisted``, ``file-cut-off``, those of ``tools``, ``hooks`` and ``care``.
From      design.md, "A pattern file": ``stitches``, ``video``, ``allow``.
"""

from __future__ import annotations

import re
from collections.abc import Callable, Iterator
from itertools import pairwise

from workeven.notation.tree import Row
from workeven.pattern.care import care_borne, fibres_sum
from workeven.pattern.colours import colours_unlisted
from workeven.pattern.hooks import hook_name, hook_unsold
from workeven.pattern.pieces import Shown
from workeven.pattern.reading import entries, words
from workeven.pattern.records import Pattern
from workeven.pattern.tools import (
    gauge_of_hook,
    gauge_of_weight,
    hook_of_weight,
    wraps_of_weight,
)
from workeven.pattern.uses import rows_of, texts_of
from workeven.problems import Note, Problem, Severity
from workeven.problems.catalogue import CATALOGUE
from workeven.problems.words import did_you_mean, joined, quote
from workeven.records import record, replace
from workeven.source import Node, Source
from workeven.source.refusals import quotable
from workeven.source.tree import PLAIN

#: closed stitches that are made of three, four, five or more legs (common practice)
_SEVERAL_LEGS = frozenset({"bobble", "cl", "pc", "puff"})


_TOGETHER = (
    *(gauge_of_weight, gauge_of_hook, hook_of_weight, wraps_of_weight),
    *(hook_name, hook_unsold, fibres_sum, care_borne),
)
_LEGS_SAID = re.compile(r"\d|[a-z]+\d+tog", re.IGNORECASE)


#: keys whose values are a designer's sentences, printed as they are
_SENTENCES = frozenset(
    {"title", "summary", "story", "note", "alt", "assembly", "finishing", "text", "label"}
)
_NUMBER_CUT = re.compile(r"\s+(?P<number>#\d)")


@record
class Read:
    """A pattern with what the checks need beside it.

    ``whole``: no error was met so far. Where one was, a name that nothing uses may be its other
    side (the rows misspell it), and is not told as a second mistake.
    """

    pattern: Pattern
    source: Source
    shown: tuple[Shown, ...]
    whole: bool


def checked(read: Read) -> tuple[Problem, ...]:
    """All problems between the parts, in the order of the checks."""
    return tuple(problem for check in CHECKS for problem in check(read))


def term_unused(read: Read) -> Iterator[Problem]:
    """A special stitch is declared, and neither a row nor a text of the finishing works it."""
    pattern = read.pattern
    if not read.whole:
        return
    used = {term.name for row in _rows(pattern) for term in row.terms}
    told = " ".join(text.text for text in texts_of(pattern))
    for stitch in pattern.stitches:
        others = (other.text for other in pattern.stitches if other is not stitch)
        spoken = re.compile(rf"(?<!\w){re.escape(stitch.name)}(?:e?s)?(?!\w)", re.IGNORECASE)
        if stitch.name not in used and not any(map(spoken.search, (told, *others))):
            yield Problem(
                code="term-unused",
                span=stitch.span,
                found=f"No row works the special stitch {quote(stitch.name)}.",
                expected="Special stitches that a maker meets in the rows, in notes or in the "
                "finishing.",
                mend="Delete it, or work it; look whether the rows call it by another name.",
            )


def term_unexplained(read: Read) -> Iterator[Problem]:
    """A bobble, cluster, popcorn or puff is worked, and the pattern does not say of what."""
    pattern = read.pattern
    known = {stitch.name for stitch in (*pattern.stitches, *pattern.studio.stitches)}
    told: set[str] = set()
    for row in rows_of(pattern.pieces):
        for term in row.terms:
            if term.name not in _SEVERAL_LEGS or term.name in known or term.name in told:
                continue
            if _LEGS_SAID.match(row.text, term.start):
                continue  # "3-dc cl" says of what it is made
            told.add(term.name)
            yield Problem(
                code="term-unexplained",
                span=row.span.within(term.start, term.end),
                found=f"{quote(term.name)} is worked, and nothing says how it is made.",
                expected="It is counted as one stitch; of how many legs differs from one pattern "
                "to another.",
                mend=f"Explain it under `stitches`, as `{term.name}: dc5tog in same st`.",
            )


def video_missing(read: Read) -> Iterator[Problem]:
    """Times are given, and there is no film."""
    if read.pattern.video is None and read.shown and "video" not in entries(read.source.root):
        first = read.shown[0]
        yield Problem(
            code="video-missing",
            span=first.span,
            found="A time of a film is given, and the pattern has no film.",
            expected="`video` with the film's `url`.",
            mend="Write `video:` with `url:` and `length:`, or delete the time.",
            piece=first.piece,
        )


def video_beyond(read: Read) -> Iterator[Problem]:
    """A time lies behind the end of the film."""
    length = read.pattern.video.length if read.pattern.video is not None else None
    for shown in read.shown:
        if length is not None and shown.seconds > length:
            yield Problem(
                code="video-beyond",
                span=shown.span,
                found=f"{clock(shown.seconds)} lies behind the end of the film.",
                expected=f"The film is {clock(length)} long.",
                mend="Look up the place in the film again, or mend its `length`.",
                piece=shown.piece,
            )


def video_order(read: Read) -> Iterator[Problem]:
    """A time lies before that of the rows above; the same time may stand twice."""
    for before, after in pairwise(read.shown):
        if after.seconds < before.seconds:
            yield Problem(
                code="video-order",
                span=after.span,
                found=f"{clock(after.seconds)} lies before {clock(before.seconds)}, "
                "the time that is given above.",
                expected="Times that rise with the rows.",
                mend="Look up the two places in the film again.",
                piece=after.piece,
                notes=(Note(span=before.span, message=f"{clock(before.seconds)} stands here"),),
            )


def shown_size(read: Read) -> Iterator[Problem]:
    """The size that is made in the film is none of the pattern's."""
    video, names = read.pattern.video, read.pattern.sizes.names
    if video is not None and video.shown_size is not None and video.shown_size not in names:
        yield Problem(
            code="size-unknown",
            span=video.span,
            found=f"There is no size called {quote(video.shown_size)}.",
            expected=f"Sizes: {joined(map(quote, names))}.",
            mend=did_you_mean(video.shown_size, names) or "Write one of the sizes.",
        )


def changes_told(read: Read) -> Iterator[Problem]:
    """What changed is told in its order, and of the version that is there."""
    if read.pattern.changes:
        from workeven.pattern.changes import out_of_order  # a draft has changed nothing yet

        yield from out_of_order(read.pattern)


def allow_known(read: Read) -> Iterator[Problem]:
    """What is allowed is advice, and exists."""
    table = entries(read.source.root).get("allow")
    for code, entry in entries(table.value if table else None).items():
        span = read.source.span(entry.key)
        if code not in CATALOGUE:
            advice = [one for one, (kind, _) in CATALOGUE.items() if kind is Severity.ADVICE]
            yield Problem(
                code="name-unknown",
                span=span,
                found=f"There is no advice called {quote(code)}.",
                expected="The code that stands in the message.",
                mend=did_you_mean(code, advice) or "Copy the code from the message.",
            )
        elif CATALOGUE[code][0] is Severity.ERROR:
            yield Problem(
                code="file-allow-error",
                span=span,
                found=f"{quote(code)} is an error, and errors cannot be allowed.",
                expected="Advice, each with a reason.",
                mend="Delete the line, and mend what the error names.",
            )


def colours_listed(read: Read) -> Iterator[Problem]:
    """A colour is named that no yarn lists."""
    yield from colours_unlisted(read.pattern)


def go_together(read: Read) -> Iterator[Problem]:
    """Gauge, hook and wraps of another weight of yarn, names of hooks, care and fibres."""
    for check in _TOGETHER:
        yield from check(read.pattern)


def text_cut(read: Read) -> Iterator[Problem]:
    """``title: Sand Mat #2``: what stands behind the hash is a comment to YAML, and lost."""
    for node in _texts(read.source.root, told=False):
        end = read.source.after(node)
        found = _NUMBER_CUT.match(end)
        if node.style == PLAIN and found is not None:
            start = found.start("number")
            text = f"{words(node)} {end[start:].strip()}"
            line, column = node.end
            yield Problem(
                code="file-cut-off",
                span=replace(
                    read.source.span(node),
                    line=line,
                    column=column + start,
                    end_line=line,
                    end_column=column + len(end.rstrip()),
                ),
                found=f"{quote(end[start:].strip())} is a comment to YAML, and left out of the "
                "text before it.",
                expected="A text with a blank and a hash in quotes.",
                mend=f'Write `"{quotable(text)}"`; or put a blank behind the hash if it is a '
                "comment.",
            )


def _texts(node: Node, *, told: bool) -> Iterator[Node]:
    """The values of keys that hold sentences, and what is listed under them."""
    if isinstance(node.value, str):
        if told:
            yield node
        return
    if isinstance(node.value, tuple):
        for item in node.value:
            yield from _texts(item, told=told)
        return
    for key, entry in node.value.items():
        yield from _texts(entry.value, told=key in _SENTENCES)


#: The checks, in the order of their messages.
CHECKS: tuple[Callable[[Read], Iterator[Problem]], ...] = (
    term_unused,
    term_unexplained,
    video_missing,
    video_beyond,
    video_order,
    shown_size,
    allow_known,
    colours_listed,
    go_together,
    changes_told,
    text_cut,
)


def clock(seconds: int) -> str:
    """Seconds as a film shows them.

    >>> clock(460), clock(4030)
    ('7:40', '1:07:10')
    """
    hours, rest = divmod(seconds, 3600)
    if hours:
        return f"{hours}:{rest // 60:02}:{rest % 60:02}"
    return f"{rest // 60}:{rest % 60:02}"


def _rows(pattern: Pattern) -> Iterator[Row]:
    yield from rows_of(pattern.pieces)
    for swatch in pattern.swatches:
        yield from swatch.rows
