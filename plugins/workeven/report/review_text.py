"""What a change does to the numbers, for people at a terminal.

Takes     ``Review``.
Gives     ``as_text``, ``compared_with``, ``figures``, ``heading``.
Problems  none of its own.
From      the guide, "Reviewing a change".
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping

from workeven.problems.words import joined, quote, shown
from workeven.report.text import problem_text
from workeven.report.wording import harmless
from workeven.review import Change, PatternReview, Review

#: What stands for a figure that is not there.
NONE = "none"


def as_text(review: Review, base: str) -> str:
    """Each pattern that is other than before, what is wrong, and a closing line."""
    parts = [_pattern(one) for one in review.patterns if one.status != "same"]
    problems = [problem_text(problem) for problem in review.problems]
    return "\n\n".join(filter(None, [*parts, *problems, compared_with(review, base)]))


def compared_with(review: Review, base: str) -> str:
    """How many patterns are other than before, and what they were compared with."""
    numbers: dict[str, int] = {}
    for one in review.patterns:
        numbers[one.status] = numbers.get(one.status, 0) + 1
    told = [
        f"{numbers[status]} {one if numbers[status] == 1 else several}"
        for status, (one, several) in _STATUS.items()
        if status in numbers
    ]
    return f"Compared with {base}: {joined(told) if told else 'no pattern on either side'}."


#: what became of patterns: of one, of several
_STATUS = {
    "changed": ("has other numbers", "have other numbers"),
    "words": ("has other words or pictures alone", "have other words or pictures alone"),
    "new": ("is new", "are new"),
    "gone": ("is gone", "are gone"),
    "not compared": ("is not compared", "are not compared"),
    "same": ("is the same", "are the same"),
}


def heading(one: PatternReview) -> str:
    """What became of a pattern, in one line."""
    match one.status:
        case "new":
            what = "new"
        case "gone":
            what = "no longer here" if not one.published else "no longer here, and it was published"
        case "not compared":
            what = f"not compared. {one.why_not}"
        case "changed":
            what = _how_many(one)
        case _:
            what = "no number is other than before"
    moved = f", moved from {quote(one.was)}" if one.was else ""
    return f"{shown(one.title)} ({one.slug}{moved}): {what}"


def _how_many(one: PatternReview) -> str:
    number = sum(change.numbers for change in one.changes)
    counted = "1 number is other" if number == 1 else f"{number} numbers are other"
    what = f"{counted} than before" if number else "no number is other than before"
    if one.versions and one.versions[0] != one.versions[1]:
        what += f", version {shown(one.versions[0])} → {shown(one.versions[1])}"
    elif one.published:
        what += f", and the version is {shown(one.versions[0])} as before" if one.versions else ""
    return what if one.published else f"{what} (a draft)"


def figures(
    changes: Iterable[Change], sizes: tuple[str, ...]
) -> Mapping[str, list[tuple[str, str]]]:
    """By part: each figure's name, and ``S 33 → 36, L 39 → 42``; alike in all sizes, said once."""
    grouped: dict[tuple[str, str], list[Change]] = {}
    for change in changes:
        name = ", ".join(filter(None, (change.of, change.what)))
        grouped.setdefault((change.part, name), []).append(change)
    found: dict[str, list[tuple[str, str]]] = {}
    for (part, name), alike in grouped.items():
        found.setdefault(part, []).append((name, ", ".join(_by_size(alike, sizes))))
    return found


def _by_size(changes: list[Change], sizes: tuple[str, ...]) -> Iterator[str]:
    """The same change of several sizes is said once, with their names."""
    named: dict[tuple[str | None, str | None], list[str]] = {}
    for change in changes:
        named.setdefault((change.before, change.after), []).append(change.size)
    for (before, after), where in named.items():
        every = len(sizes) <= 1 or "" in where or set(sizes) <= set(where)
        lead = "" if every else f"{joined(where)} "
        yield f"{lead}{before or NONE} → {after or NONE}"


def _pattern(one: PatternReview) -> str:
    return "\n".join(harmless(shown(line)) for line in _lines(one))


def _lines(one: PatternReview) -> Iterator[str]:
    yield heading(one)
    if one.note:
        yield f"  The file says: {quote(one.note)}"
    for part, listed in figures(one.changes, one.sizes).items():
        yield f"  {part}"
        yield from (f"    {name}: {told}" if name else f"    {told}" for name, told in listed)
    for renamed in one.renamed:
        yield f"  {renamed.part}: {quote(renamed.before)} is called {quote(renamed.after)} now"
    if one.words:
        yield f"  Other words alone: {joined(one.words)}"
    if one.pictures:
        yield f"  Pictures: {joined(one.pictures)}"
