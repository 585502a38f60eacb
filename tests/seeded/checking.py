"""Holds what the engine reports of a changed text against the independent judgement.

Takes     ``Rows`` before and after a change.
Gives     ``check``: a ``Finding``; ``is_whole``: whether a piece is fit to be changed.
Problems  none.
From      notation.md, Two readings, When it does not come out.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace
from enum import Enum

from tests.seeded.judging import Judgement, judge
from tests.seeded.whole_patterns import File, Wrong, file_of
from tests.seeded.words import NotRead, Rows
from tests.support.pattern_files import outcome
from workeven.problems import Checked
from workeven.problems.catalogue import severity
from workeven.problems.record import Problem, Severity
from workeven.proof import counting

READING = "row-reading"


class Verdict(Enum):
    """What became of one mistake."""

    FOUND = "found at its row, in its sizes"
    READING = "found only as another reading"
    MISSED = "nothing reported"
    ELSEWHERE = "reported at another row"
    SIZES = "reported in other sizes"
    ALARM = "reported where all comes out"
    SILENT = "does not matter, and nothing is reported"
    UNJUDGED = "not judged"


@dataclass(frozen=True, slots=True)
class Finding:
    """The verdict, the number of messages beyond one for each row at fault, and both sides."""

    verdict: Verdict
    several: int = 0
    expected: str = ""
    reported: str = ""

    @property
    def right(self) -> bool:
        """Whether the engine did what it should, by one message or more."""
        return self.verdict in RIGHT


RIGHT = (Verdict.FOUND, Verdict.READING, Verdict.SILENT, Verdict.UNJUDGED)


def is_whole(rows: Rows) -> bool:
    """Whether a piece comes out by the oracle and by the engine, so that it can be spoilt."""
    try:
        judged = judge(rows)
    except NotRead:
        return False
    return judged.whole and not _told(reported(rows))


def counted(rows: Rows) -> counting.CountedText:
    """The engine's counts of a piece."""
    value = _engine(rows).value
    assert value is not None
    return value


def reported(rows: Rows) -> Sequence[Problem]:
    """The problems that the engine reports."""
    return _engine(rows).problems


def _engine(rows: Rows) -> Checked[counting.CountedText]:
    return counting.count(
        rows.text,
        file="piece",
        worked=rows.worked,
        terms="uk" if rows.terms == "uk" else "us",
        start=rows.start,
        sizes=rows.sizes or None,
        stitches=rows.stitches,
    )


def check(rows: Rows, changed: str) -> Finding:
    """What becomes of a changed text."""
    spoilt = replace(rows, text=changed)
    try:
        judged = judge(spoilt)
    except NotRead as why:
        return Finding(Verdict.UNJUDGED, expected=str(why))
    return compare(judged, reported(spoilt), spoilt.sizes)


def compare(judged: Judgement, problems: Sequence[Problem], sizes: tuple[str, ...]) -> Finding:
    """The judgement against the problems reported."""
    told = _told(problems)
    errors = [problem for problem in told if problem.code != READING]
    wanted = judged.lines()
    said = Finding(
        Verdict.FOUND,
        max(0, len(errors) - len(wanted)),
        "; ".join(f"line {line}: {_names(sizes, at)}" for line, at in sorted(wanted.items())),
        "; ".join(f"line {one.span.line}: {one.code} {one.sizes or ''}" for one in told),
    )
    if judged.whole:
        return replace(said, verdict=Verdict.ALARM if told else Verdict.SILENT, several=0)
    if not told:
        return replace(said, verdict=Verdict.MISSED)
    first, earliest = min(wanted), min(problem.span.line for problem in told)
    if first != earliest:
        return replace(said, verdict=Verdict.ELSEWHERE)
    if any(problem.code == READING and problem.span.line == first for problem in told):
        return replace(said, verdict=Verdict.READING)
    names = sizes or ("",)
    for fault, name in zip(judged.faults, names, strict=True):
        line = min((p.span.line for p in errors if _in_size(p, name)), default=None)
        if line != (fault.line if fault is not None else None):
            return replace(said, verdict=Verdict.SIZES)
    return said


def _told(problems: Sequence[Problem]) -> list[Problem]:
    """Errors and the advice of another reading; other advice hangs on the words alone."""
    return [
        problem
        for problem in problems
        if problem.code == READING or severity(problem.code) is Severity.ERROR
    ]


def _in_size(problem: Problem, name: str) -> bool:
    return problem.sizes is None or not name or name in problem.sizes


def _names(sizes: tuple[str, ...], at: tuple[int, ...]) -> str:
    return ", ".join(sizes[size] for size in at) if sizes else "it"


# --- whole files -----------------------------------------------------------------------------


def is_whole_file(text: str) -> bool:
    """Whether a file comes out by the oracle and by the engine."""
    return not file_of(text).judged() and not _told(outcome(text).problems)


def check_file(text: str) -> Finding:
    """What becomes of a changed pattern file.

    In each piece the first row at fault of every size counts; where a count or a length is at
    fault, rows are not looked at.
    """
    try:
        file = File(text)
        wrong = file.judged()
        ranges = [[row.line for row in piece.rows] for piece in file.pieces()]
    except NotRead as why:
        return Finding(Verdict.UNJUDGED, expected=str(why))
    told = _told(outcome(text).problems)
    errors = [problem for problem in told if problem.code != READING]
    said = Finding(
        Verdict.FOUND,
        max(0, len(errors) - len(wrong)),
        "; ".join(f"line {one.line}: {one.sizes or ''} {one.why}" for one in wrong),
        "; ".join(f"line {one.span.line}: {one.code} {one.sizes or ''}" for one in told),
    )
    if not wrong:
        return replace(said, verdict=Verdict.ALARM if told else Verdict.SILENT, several=0)
    if not told:
        return replace(said, verdict=Verdict.MISSED)
    in_pieces = {line for lines in ranges for line in lines}
    if any(one.line not in in_pieces for one in wrong):
        ranges = [[one.line for one in wrong]]
    for lines in ranges:
        verdict = _in_piece(
            [one for one in wrong if one.line in lines],
            [one for one in told if one.span.line in lines],
            file.sizes,
        )
        if verdict is not Verdict.FOUND:
            return replace(said, verdict=verdict)
    return said


def _in_piece(wrong: list[Wrong], told: list[Problem], sizes: tuple[str, ...]) -> Verdict:
    """The first faults of a piece against what was told of its lines."""
    lines = {one.line for one in wrong}
    if not wrong:
        return Verdict.ALARM if told else Verdict.FOUND
    if not told or min(lines) != min(problem.span.line for problem in told):
        return Verdict.ELSEWHERE
    if any(p.code == READING and p.span.line == min(lines) for p in told):
        return Verdict.READING
    for size in sizes:
        line = min((p.span.line for p in told if _in_size(p, size)), default=None)
        at = min(
            (one.line for one in wrong if one.sizes is None or size in one.sizes), default=None
        )
        if line != at:
            return Verdict.SIZES
    return Verdict.FOUND
