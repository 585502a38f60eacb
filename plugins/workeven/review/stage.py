"""A collection before and after a change: which pattern is which, and whether it says so.

Takes     ``Verdict`` before and after.
Gives     ``review``.
Problems  ``change-unsaid``.
From      design.md, "A pattern file": ``version`` rises and ``changes`` explains when numbers
          change; ``formerly`` lists old folder names.
"""

from __future__ import annotations

import re
from collections.abc import Callable, Iterator, Mapping, Sequence

from workeven.pattern import Pattern
from workeven.pipeline import Outcome, ReadyPattern, Verdict
from workeven.problems import Problem, Span
from workeven.problems.words import quote
from workeven.records import replace
from workeven.review.compared import compared
from workeven.review.pictures import KnownBy, pictures_changed, unseen
from workeven.review.records import PatternReview, Review, Status
from workeven.source.collection import slug_of

#: gives the lines of a file that was read
Lines = Callable[[str], Sequence[str]]


def review(
    before: Verdict,
    after: Verdict,
    lines: Lines,
    was: KnownBy = unseen,
    now: KnownBy = unseen,
) -> Review:
    """What a change does to each pattern; ``lines`` gives those of a file as it is now.

    ``was`` and ``now`` tell what a picture is known by, before and after.
    """
    old = {slug_of(one.file): one for one in before.outcomes}
    new = {slug_of(one.file): one for one in after.outcomes}
    former = dict(_moved(old, new))
    gone = sorted(old.keys() - new.keys() - set(former.values()))
    patterns = (
        *(
            _with_pictures(_reviewed(slug, former.get(slug, slug), old, one), old, one, was, now)
            for slug, one in new.items()
        ),
        *(_gone(slug, old[slug]) for slug in gone),
    )
    told = (_unsaid(one, new[one.slug], lines) for one in patterns if one.slug in new)
    return Review(patterns=patterns, problems=tuple(filter(None, told)))


# --- which is which ------------------------------------------------------------------------


def _moved(old: Mapping[str, Outcome], new: Mapping[str, Outcome]) -> Iterator[tuple[str, str]]:
    """Patterns in another folder: as ``formerly`` says, else by a title that no other has."""
    gone = {slug: one for slug, one in old.items() if slug not in new}
    for slug, one in new.items():
        if slug in old:
            continue
        said = [name.text for name in one.ready.pattern.formerly] if one.ready else []
        found = next((name for name in said if name in gone), None) or _of_title(one, gone)
        if found is not None:
            del gone[found]
            yield slug, found


def _of_title(one: Outcome, gone: Mapping[str, Outcome]) -> str | None:
    if one.ready is None:
        return None
    title = one.ready.pattern.title.text
    alike = [slug for slug, old in gone.items() if old.ready and title == _title(old.ready)]
    return alike[0] if len(alike) == 1 else None


def _title(ready: ReadyPattern) -> str:
    return ready.pattern.title.text


def _reviewed(slug: str, was: str, before: Mapping[str, Outcome], new: Outcome) -> PatternReview:
    old = before.get(was)
    found = PatternReview(slug=slug, file=new.file, title=slug, status="same")
    if new.ready is None:
        title = slug if old is None or old.ready is None else _title(old.ready)
        why = "It has errors now, which `workeven check` tells."
        return replace(found, title=title, status="not compared", why_not=why)
    pattern = new.ready.pattern
    found = replace(
        found,
        title=pattern.title.text,
        sizes=pattern.sizes.names,
        was=was if was != slug else None,
    )
    if old is None:
        return replace(found, status="new")
    if old.ready is None:
        why = "It had errors before, by the rules of this workeven."
        return replace(found, status="not compared", why_not=why)
    pattern_before = old.ready.pattern
    result = compared(old.ready, new.ready)
    words = (*result.words, *(("folder",) if was != slug else ()))
    status: Status = "words" if words or result.renamed else "same"
    return replace(
        found,
        status="changed" if result.changes else status,
        published=pattern_before.published is not None,
        versions=(pattern_before.version, pattern.version),
        note=_note(pattern_before, pattern),
        renamed=result.renamed,
        changes=result.changes,
        words=words,
    )


def _with_pictures(
    found: PatternReview, before: Mapping[str, Outcome], new: Outcome, was: KnownBy, now: KnownBy
) -> PatternReview:
    """What became of the pictures of a pattern that was compared."""
    old = before.get(found.was or found.slug)
    if old is None or old.ready is None or new.ready is None:
        return found
    pictures = pictures_changed(old.ready.pattern, new.ready.pattern, was, now)
    status: Status = "words" if pictures and found.status == "same" else found.status
    return replace(found, pictures=pictures, status=status)


def _gone(slug: str, old: Outcome) -> PatternReview:
    pattern = old.ready.pattern if old.ready else None
    return PatternReview(
        slug=slug,
        file=old.file,
        title=pattern.title.text if pattern else slug,
        status="gone",
        published=pattern is not None and pattern.published is not None,
    )


# --- whether it is said --------------------------------------------------------------------


def _note(before: Pattern, after: Pattern) -> str:
    """What the file says of its version, where it did not say that before."""
    known = {(one.version, one.text) for one in before.changes}
    new = [one for one in after.changes if (one.version, one.text) not in known]
    return next((one.text for one in new if one.version == after.version), "")


def _unsaid(one: PatternReview, outcome: Outcome, lines: Lines) -> Problem | None:
    """Numbers of a published pattern changed, and its version or ``changes`` does not say so."""
    told = [change for change in one.changes if change.numbers]
    if not (one.published and told and one.versions):
        return None
    before, now = one.versions
    risen = _order(now) > _order(before)
    if risen and one.note:
        return None
    if not risen:
        same = now == before
        why = f"and its version is still {before}" if same else f"and its version fell to {now}"
        mend = f"Raise `version` above {before}, and say under `changes` what is other now."
    else:
        why = f"and nothing under `changes` tells of version {now}"
        mend = (
            f"Add to `changes` an entry of version {now}: what was wrong, in which rows and sizes."
        )
    number = "1 number" if len(told) == 1 else f"{len(told)} numbers"
    return Problem(
        code="change-unsaid",
        span=_at_version(outcome.file, lines),
        found=f"{quote(one.title)} is published, {number} {'is' if len(told) == 1 else 'are'} "
        f"other than before, {why}.",
        expected="A maker who has begun looks there for what she must know.",
        mend=mend,
    )


def _order(version: str) -> tuple[tuple[int, str], ...]:
    """A version as it is ordered: its numbers as numbers."""
    return tuple(
        (int(part), "") if part.isdecimal() else (-1, part) for part in _PARTS.split(version)
    )


_PARTS = re.compile(r"[.\-+]")
_VERSION = re.compile(r"version\s*:\s*(?P<value>.*?)\s*\Z")


def _at_version(file: str, lines: Lines) -> Span:
    """Where the version stands in the file; its beginning where it cannot be found."""
    for number, line in enumerate(lines(file), start=1):
        if found := _VERSION.match(line):
            start, end = found.span("value")
            return _place(file, number, start + 1, max(end, start + 1) + 1)
    return _place(file, 1, 1, 1)


def _place(file: str, line: int, column: int, end: int) -> Span:
    return Span(file=file, line=line, column=column, end_line=line, end_column=end)
