"""Holds the engine's counts of a text against the oracle's counts of the piece behind it.

Takes     a ``Piece`` and a ``Text`` of it.
Gives     ``compare``: a ``Verdict``: every place where the two disagree, in words.
Problems  none.
From      the contract of ``workeven count``: rows with label, line, times, sts, makes, stated.

Compared are, for each row and size: whether it is the first that does not come out, and if all rows
up to it come out, its stitches and what it makes. Behind its first fault a size is not compared:
what the following rows are counted from is the engine's to choose. A row whose words have a second
reading may be counted by that, with the advice ``row-reading``; where the oracle has a fault, that
counts as found and is noted, elsewhere it is a disagreement.
"""

from __future__ import annotations

import random
from collections.abc import Mapping
from dataclasses import dataclass

from tests.oracle.readings import expect
from tests.oracle.structure import Piece
from tests.oracle.texts import Text, kind_in, number
from tests.oracle.walker import Counts
from workeven.problems import Checked
from workeven.problems.catalogue import severity
from workeven.problems.record import Problem, Severity
from workeven.proof import counting

READING = "row-reading"


@dataclass(frozen=True, slots=True)
class Counted:
    """What the engine says of a text: counts by line, and its problems."""

    sts: Mapping[int, tuple[int | None, ...]]
    makes: Mapping[int, tuple[Mapping[str, int] | None, ...]]
    problems: tuple[Problem, ...]


@dataclass(frozen=True, slots=True)
class Verdict:
    """Where the two disagree, and whether a fault was found only as another reading."""

    disagreements: tuple[str, ...]
    only_reading: bool


def counted(piece: Piece, text: Text) -> Counted:
    """The engine's counts of a text."""
    checked = worked_out(piece, text)
    rows = checked.value.rows if checked.value is not None else ()
    return Counted(
        {row.line: tuple(row.sts) for row in rows},
        {row.line: tuple(None if m is None else dict(m) for m in row.makes) for row in rows},
        checked.problems,
    )


def worked_out(piece: Piece, text: Text) -> Checked[counting.CountedText]:
    """All that the engine says of a text."""
    plain = random.Random(0)  # noqa: S311
    there = [f"{number(n, plain)} {kind_in(text.terms, kind)}" for kind, n in piece.start]
    return counting.count(
        text.text,
        file="piece",
        worked=piece.worked,
        terms=text.terms,
        start=", ".join(there) or None,
        sizes=piece.sizes or None,
        stitches=text.stitches,
    )


def compare(piece: Piece, text: Text) -> Verdict:
    """Every disagreement of engine and oracle on one text."""
    engine, expected = counted(piece, text), expect(piece, text)
    counts = expected.counts
    entries = {line.number: line.entry for line in text.lines}
    stray = [p for p in engine.problems if _is_error(p) and p.span.line not in entries]
    found = [f"{p.code} at line {p.span.line}: {p.found}" for p in stray]
    read = {entries[p.span.line] for p in engine.problems if p.code == READING}
    earliest = min(_first_fault(counts, size) for size in range(piece.size_count))
    # where the engine counts on by another reading, or from its own figures, nothing is compared
    stop = min((e for e in read if e >= earliest or e in expected.may_read), default=len(counts))
    for size in range(piece.size_count):
        name = piece.sizes[size] if piece.sizes else ""
        errors = [p for p in engine.problems if _is_error(p) and _in_size(p, name)]
        failed = min((entries.get(p.span.line, 0) for p in errors), default=len(counts))
        fails = _first_fault(counts, size)
        found += _counts(text, engine, counts, size, min(fails, failed, stop))
        if fails != failed and stop > min(fails, failed):
            words = [f"{p.code} at line {p.span.line}: {p.found}" for p in errors[:1]]
            found.append(f"size {name!r}: {_said(counts, size, fails)}; engine: {words}")
    expected_here = {e for e in expected.read if e < min(earliest, stop)}
    found += [f"{READING} missing at entry {e}" for e in sorted(expected_here - read)]
    unexpected = {e for e in read if e < earliest} - expected.read
    found += [f"{READING} at entry {e}, which comes out as it stands" for e in sorted(unexpected)]
    blamed = {entries.get(p.span.line) for p in engine.problems if _is_error(p)}
    if stop == earliest < len(counts) and stop not in expected.may_read | blamed:
        found.append(f"{READING} at entry {stop}, which comes out in no other reading")
    return Verdict(tuple(found), bool(expected.read) or stop == earliest < len(counts))


def _is_error(problem: Problem) -> bool:
    return severity(problem.code) is Severity.ERROR


def _in_size(problem: Problem, name: str) -> bool:
    return problem.sizes is None or not name or name in problem.sizes


def _first_fault(expected: Counts, size: int) -> int:
    """The first entry that does not come out in a size, or one beyond the last."""
    for entry, row in enumerate(expected):
        count = row[size]
        if count is not None and count.fault:
            return entry
    return len(expected)


def _said(expected: Counts, size: int, entry: int) -> str:
    if entry == len(expected):
        return "oracle: all rows come out"
    count = expected[entry][size]
    assert count is not None
    return f"oracle: entry {entry} does not come out ({count.fault})"


def _counts(text: Text, engine: Counted, expected: Counts, size: int, upto: int) -> list[str]:
    """Differences of stitches and makes in the entries before ``upto``."""
    found = []
    last_lines = {line.entry: line.number for line in text.lines}
    for entry, line in last_lines.items():
        if entry >= upto:
            continue
        count = expected[entry][size]
        sts = engine.sts.get(line, (None,) * (size + 1))[size]
        makes = engine.makes.get(line, (None,) * (size + 1))[size]
        want_sts = None if count is None else count.sts
        if makes is not None:  # a picot takes no place and makes none
            makes = {kind: made for kind, made in makes.items() if kind != "picot"}
        want_makes = None if count is None else _in_terms(count.makes, text.terms)
        if (want_sts, want_makes) != (sts, makes):
            found.append(f"line {line}: oracle {want_sts} {want_makes}, engine {sts} {makes}")
    return found


def _in_terms(makes: Mapping[str, int], terms: str) -> dict[str, int]:
    return {kind_in(terms, kind): number for kind, number in makes.items()}
