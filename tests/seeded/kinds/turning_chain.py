"""Mistakes with the chain at the start of a row, and with the join to it.

Takes     ``Rows`` that come out.
Gives     ``MISTAKES``: a sentence each, and the function that yields every place.
Problems  none.
From      common practice: what technical editors look for in a pattern.
"""

from __future__ import annotations

import re
from collections.abc import Iterator

from tests.seeded.making import OTHER, Make, reworded
from tests.seeded.spans import Slip
from tests.seeded.words import Rows


def turning_chain_forgotten(rows: Rows) -> Iterator[Slip]:
    """No chain at the start of the row."""
    yield from reworded(rows, r"(?:^|(?<=: ))ch \d(?: \([^)]*\))?, (?!join)", "")


def first_stitch_worked(rows: Rows) -> Iterator[Slip]:
    """A stitch into the first place although the chain that counts stands there."""
    yield from reworded(rows, r"ch (\d) \(counts as (\w+)\), ", r"\g<0>\2 in first st, ")


def counted_not(rows: Rows) -> Iterator[Slip]:
    """A chain that counts, said not to."""
    yield from reworded(
        rows, r"(ch \d) \(counts as \w+(?: and ch \d)?\)", r"\1 (does not count as st)"
    )


def counted_so(rows: Rows) -> Iterator[Slip]:
    """A chain that does not count, said to."""

    def new(found: re.Match[str]) -> str:
        kind = {"1": "sc", "2": "hdc", "3": "dc", "4": "tr"}[found[1]]
        return f"ch {found[1]} (counts as {_uk(kind) if rows.terms == 'uk' else kind}), "

    yield from reworded(
        rows, r"(?:^|(?<=: ))ch ([1-4])(?: \(does not count[^)]*\))?, (?!join|ch)", new
    )


def _uk(kind: str) -> str:
    return {"sc": "dc", "hdc": "htr", "dc": "tr", "tr": "dtr"}[kind]


def join_elsewhere(rows: Rows) -> Iterator[Slip]:
    """A join to a chain that the round does not begin with."""

    def new(found: re.Match[str]) -> str:
        return f"beg ch-{int(found[1]) + 1}"

    yield from reworded(rows, r"beg ch-(\d)", new)


def join_to_other(rows: Rows) -> Iterator[Slip]:
    """A join to a stitch that the round does not have."""

    def new(found: re.Match[str]) -> str:
        return f"first {OTHER[found[1]]}"

    yield from reworded(rows, r"(?<=join with sl st to )first (sc|dc|hdc|tr|htr)", new)


MISTAKES: tuple[tuple[str, Make], ...] = (
    ("The turning chain is forgotten.", turning_chain_forgotten),
    ("A chain that counts is said not to count.", counted_not),
    ("A chain that does not count is said to count.", counted_so),
    ("The first stitch is worked although a counted chain stands there.", first_stitch_worked),
    ("A round is joined to a chain that it does not begin with.", join_elsewhere),
    ("A round is joined to a stitch that it does not have.", join_to_other),
)
