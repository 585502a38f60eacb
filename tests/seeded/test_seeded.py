"""Mistakes that designers make are found at their row, in their sizes, and nothing else is told.

Each class of mistakes is made at a sample of its places; at all of them, up to a thousand a class,
with ``WORKEVEN_SEEDED_PLACES=1000``. ``python -m tests.seeded`` prints the figures.
"""

from __future__ import annotations

import os

import pytest

from tests.seeded import sources
from tests.seeded.checking import counted, is_whole, is_whole_file
from tests.seeded.figures import classes, pieces, tally
from tests.seeded.judging import judge
from tests.seeded.words import Rows

#: how many places of each class are tried
PLACES = int(os.environ.get("WORKEVEN_SEEDED_PLACES", "18"))

CLASSES = dict(classes())


@pytest.mark.parametrize("sentence", CLASSES)
def test_a_mistake_is_found_where_it_is(sentence: str) -> None:
    """Every change that makes a row wrong is reported there; one that does not is not."""
    assert "\n".join(tally(sentence, CLASSES[sentence](), PLACES).wrong) == ""


def test_every_class_has_its_places() -> None:
    """A class without places would be found a hundred times out of none."""
    assert [] == [sentence for sentence in CLASSES if next(CLASSES[sentence](), None) is None]


def test_the_pieces_written_for_it_come_out() -> None:
    """Mistakes are made in pieces that the oracle and the engine count alike, without a problem."""
    assert [] == [rows.name for rows in sources.written() if not is_whole(rows)]
    assert [] == [name for name, text in sources.files() if not is_whole_file(text)]


@pytest.mark.parametrize("rows", pieces(), ids=lambda rows: rows.name)
def test_oracle_and_engine_count_the_piece_alike(rows: Rows) -> None:
    """Line by line the stitches are the same, in every size that works the line."""
    for row in counted(rows).rows:
        expected = judge(rows).sts[row.line]
        worked = tuple(
            None if mine is None else theirs for mine, theirs in zip(expected, row.sts, strict=True)
        )
        assert expected == worked, f"line {row.line}"
