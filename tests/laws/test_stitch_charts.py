"""Laws of stitch charts: for pieces made at random, what is drawn is what is counted.

The pieces are those of ``tests/oracle``. Its walker shares no code with the engine and notes of
each stitch which place below it is worked in; here every stitch of a chart is held against that.
"""

from __future__ import annotations

import random
from collections import Counter

from hypothesis import example, given
from hypothesis import strategies as st

from tests.oracle import walker
from tests.oracle.generator import piece
from tests.oracle.places import Place
from tests.oracle.structure import Evenly, Piece, Row
from tests.oracle.texts import TERMS, Text
from tests.oracle.wording import write
from tests.support.placed_rows import Told, lined, symbols, told
from workeven.proof.placed import MOVES

SEEDS = st.integers(0, 2**32)


def made(seed: int) -> tuple[Piece, Text]:
    """The piece of a seed, in words."""
    rng = random.Random(seed)  # noqa: S311, no secret
    found = piece(rng)
    return found, write(found, rng, rng.choice(TERMS))


def rows_of(seed: int) -> list[Told]:
    """The rows of a piece that a chart could show; none where it goes on from others."""
    found, text = made(seed)
    if found.start or found.each_chain or text.stitches:
        return []
    return list(told(*lined(text.text, worked=found.worked, terms=text.terms, sizes=found.sizes)))


@given(SEEDS)
def test_symbols_are_what_is_counted(seed: int) -> None:
    """Kind by kind, the yarn goes into what is drawn; every place that is left is drawn once."""
    for row in rows_of(seed):
        assert symbols(row.placed) == row.worked
        tops = [one.top for one in row.placed.stitches if one.top is not None]
        assert tops == list(range(len(row.placed.leaves)))
        stitches = {name: number for name, number in row.makes.items() if name != "picot"}
        assert dict(Counter(row.placed.leaves)) == stitches


@given(SEEDS)
def test_every_symbol_stands_on_a_place_that_is_there(seed: int) -> None:
    """The numbers of its feet are those of places that the row below has left, in their order."""
    for row in rows_of(seed):
        feet = {foot for one in row.placed.stitches for foot in one.feet}
        assert feet <= set(range(len(row.placed.below)))
        if row.before is not None:
            left = row.before.leaves[::-1] if row.turned else row.before.leaves
            assert left == row.placed.below


# --- against the walker of the oracle ------------------------------------------------------


def by_hand(found: Piece, text: Text) -> dict[int, tuple[list[Place], list[Place], Row]]:
    """Of each line that is one row, worked once: what the walker finds below, and what it makes."""
    fabric = walker.first_fabrics(found)[0]
    told_by: dict[int, tuple[list[Place], list[Place], Row]] = {}
    lines = {line.entry: line.number for line in text.lines}
    for entry, row in enumerate(found.rows):
        plain = isinstance(row, Row) and row.times == 1 and not row.begin and not _spreads(row)
        below = fabric.order(row) if isinstance(row, Row) else []
        walker.work_entry(found.rows, entry, [fabric])
        if plain and isinstance(row, Row) and entry in lines and entry - 1 in lines:
            told_by[lines[entry]] = below, list(fabric.left), row
    return told_by


def _spreads(row: Row) -> bool:
    """Whether changes are spread evenly: where each stands the walker does not follow."""
    return any(isinstance(step, Evenly) for step in row.steps)


def numbers(told_row: Told, row: Row, below: list[Place]) -> list[int]:
    """The places in the walker's order, by the numbers that the engine gives them.

    A turned round that begins at the join meets the last of its places first; travel begins at the
    place it leads to, and what it has passed comes last.
    """
    there = list(range(len(below)))
    on_stitches = any(place.sort != "ch" for place in below)
    turned = told_row.how == "joined rounds, turned" and on_stitches
    if turned and walker._starts_at_join(row):  # noqa: SLF001, the order is no part of its answer
        there = [there[-1], *there[:-1]]
    travelled = [one.feet[0] for one in told_row.placed.stitches if one.what in MOVES]
    begins = there.index(travelled[-1]) if travelled else 0
    return there[begins:] + there[:begins]


def disagreements(seed: int) -> tuple[list[str], int]:
    """Where a symbol stands on another place than the walker has worked into; how many it does."""
    found, text = made(seed)
    there = rows_of(seed)
    hand = by_hand(found, text) if there else {}
    wrong: list[str] = []
    compared = 0
    for told_row in there:
        if told_row.line not in hand:
            continue
        below, left, row = hand[told_row.line]
        if row.worked or len(below) != len(told_row.placed.below):
            continue  # worked otherwise from here on; in a ring; above leaves, which are kept apart
        number = numbers(told_row, row, below)
        drawn = [one for one in told_row.placed.stitches if one.top is not None]
        for one, place in zip(drawn, left, strict=True):
            if place.group < 0 or place.sort == "sp" or not one.feet or one.earlier:
                continue
            compared += 1
            foot = one.feet[0 if one.between else -1]
            if foot != number[place.group] or one.name not in (place.name, "ch"):
                wrong.append(f"seed {seed}, line {told_row.line}: {one}, {place}\n{text.text}")
    return wrong, compared


@given(SEEDS)
@example(5585)  # "sc in sp between 2 center dc of next 4-dc group"
def test_symbols_stand_where_the_walker_works(seed: int) -> None:
    """The last foot of each: of stitches together the walker notes the last place.

    What goes between two stitches has a foot at either: the walker notes the first.
    """
    assert disagreements(seed)[0] == []


def test_the_walker_is_asked_often() -> None:
    """The law above is no law of nothing: of 40 pieces more than a thousand stitches are held."""
    assert sum(disagreements(seed)[1] for seed in range(40)) > 1000
