"""Public-domain and CC0 pieces, rewritten in today's notation, with counts that were made by hand.

Each piece stands in a file of its own in ``pieces/`` with its source, its address and its licence
or year; the stitches are the source's, the wording is not. The key was counted place by place
before the engine saw the piece. ``fails`` says why a row does not come out in the source itself.
``start`` of a row is what was there before it, where the source leaves out the rows between.
"""

from __future__ import annotations

import json
from pathlib import Path
from typing import Any, Final

import pytest

from workeven.problems.catalogue import severity
from workeven.problems.record import Severity
from workeven.proof.counting import count

PIECES: Final = {
    path.stem: json.loads(path.read_text(encoding="utf-8"))
    for path in sorted((Path(__file__).parent / "pieces").glob("*.json"))
}

#: pieces that do not come out whole yet, and why
OPEN: Final = {
    "sb98-shaded-pink-edging": "an edging sideways, whose turning loops are worked along later",
    "sc173-pine-cone": "a net whose start, a slip stitch in a space, stands for a place",
}


def per_size(value: object, sizes: int) -> tuple[object, ...]:
    """A value of the key in each size."""
    return tuple(value) if isinstance(value, list) else (value,) * sizes


def stretches(piece: dict[str, Any]) -> list[tuple[str | None, list[dict[str, Any]]]]:
    """The rows of a piece, parted where its source leaves rows out; each part with its start."""
    found: list[tuple[str | None, list[dict[str, Any]]]] = [(piece["from"], [])]
    for row in piece["rows"]:
        if "start" in row:
            found.append((row["start"], []))
        found[-1][1].append(row)
    return found


def disagreements(piece: dict[str, Any]) -> list[str]:
    """What the engine counts otherwise than the key, row by row."""
    return [
        told for start, rows in stretches(piece) for told in disagreements_in(piece, start, rows)
    ]


def disagreements_in(
    piece: dict[str, Any], start: str | None, rows: list[dict[str, Any]]
) -> list[str]:
    """The same for a stretch of rows that follow one another."""
    checked = count(
        "\n".join(row["text"] for row in rows),
        file=piece["id"],
        worked=piece["worked"],
        terms=piece["terms"],
        start=start,
        sizes=tuple(piece["sizes"]) if piece["sizes"] else None,
        stitches=tuple(piece["stitches"]),
    )
    assert checked.value is not None
    wrong = {
        problem.span.line
        for problem in checked.problems
        if severity(problem.code) is Severity.ERROR
    }
    sizes = len(piece["sizes"] or [None])
    found = []
    for line, (row, counted) in enumerate(zip(rows, checked.value.rows, strict=True), 1):
        if bool(row["fails"]) != (line in wrong):
            found.append(f"line {line}: told wrong: {line in wrong}; key: {row['fails']}")
        if counted.times != per_size(row.get("times", 1), sizes):
            found.append(f"line {line}: {counted.times} rows; key: {row.get('times', 1)}")
        if row["sts"] is None:
            continue
        if counted.sts != per_size(row["sts"], sizes):
            found.append(f"line {line}: {counted.sts} sts; key: {row['sts']}")
        by_kind = {kind: per_size(number, sizes) for kind, number in (row["makes"] or {}).items()}
        for size, made in enumerate(counted.makes):
            key = {kind: numbers[size] for kind, numbers in by_kind.items() if numbers[size]}
            if key and dict(made or {}) != key:
                found.append(f"line {line}: {made}; key: {key}")
    return found


@pytest.mark.parametrize("name", [name for name in PIECES if name not in OPEN])
def test_counts_are_those_of_the_hand_count(name: str) -> None:
    """Every row: its stitches by kind, how often it is worked, and whether it fails."""
    assert disagreements(PIECES[name]) == []


@pytest.mark.parametrize("name", sorted(OPEN))
def test_open_pieces_are_still_open(name: str) -> None:
    """A piece that has come to be counted whole leaves the list of open ones."""
    assert disagreements(PIECES[name]) != []


def test_every_piece_names_its_source() -> None:
    """Nothing stands here without where it is from and by what right."""
    for piece in PIECES.values():
        assert piece["source"]
        assert piece["url"]
        assert piece["licence_or_year"]
