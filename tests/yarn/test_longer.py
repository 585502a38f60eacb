"""Longer pieces: one more repeat of rows that leave what they found, by hand."""

from __future__ import annotations

from fractions import Fraction

import pytest

from workeven import pipeline, source
from workeven.pattern import NO_STUDIO
from workeven.yarn.longer import Longer, longer

#: 648 sc and 51 chains weigh 20 g; a chain is 4.8 / 10.6 of a sc (published, unravelled)
CHAIN = Fraction(48, 106)
SC = 20 / (648 + 51 * CHAIN)
SCARF = """\
title: Sand Scarf
summary: A scarf in single crochet.
audience: adult
use: [wear]
sizes:
  names: S (L)
gauge:
  ground: {sts: 16, rows: 18, over: 10 cm, of: sc}
yarn:
  main: {weight: light, fibre: 100% cotton, put_up: {length: 100 m, mass: 50 g}}
swatches:
  - of: main
    mass: 20.0 g
    rows: |
      ch 25
      sc in 2nd ch from hook and in each ch across, turn
      ch 1, sc in each st across, turn
      rep last row 25 more times
measurements:
  height: 40 (60) cm
pieces:
  half:
    make: 2
    title: Half
    worked: flat rows
    gauge: ground
    sections:
      - title: All
        rows: |
          ch 21 (31)
          sc in 2nd ch from hook and in each ch across, turn
"""


def of(rows: str, head: str = SCARF) -> tuple[Longer, ...]:
    """What may be lengthened in a scarf that ends with these rows."""
    text = head + "".join(f"          {row}\n" for row in rows.splitlines())
    read = source.read("pattern.yaml", text.encode()).value
    assert read is not None
    outcome = pipeline.run(read, NO_STUDIO)
    assert outcome.ready is not None, outcome.problems
    return longer(outcome.ready.proven, outcome.ready.yarn.needs[0])


def test_one_more_row_times_the_rows_in_five_centimetres() -> None:
    """18 rows in 10 cm are 9 in 5 cm; two halves, a tenth more, 2 m to the gram, in mm."""
    (found,) = of("ch 1, sc in each st across, turn\nrep last row until piece measures {height}")
    due = [9 * (sts + CHAIN) * SC * 2 * Fraction(11, 10) * 2000 for sts in (20, 30)]
    assert list(found.five_cm) == due
    assert list(found.two_in) == [one * Fraction(254, 250) for one in due]
    assert (found.name, found.pieces, found.rows, found.turned) == ("height", ("Half",), 1, True)


def test_of_a_repeat_of_two_rows_only_both_come_out() -> None:
    """A row of sc and one of hdc, which takes 15.7 for 10.6, with 20 % to spare."""
    (found,) = of(
        "Row A: ch 1, sc in each st across, turn\nRow B: ch 1, hdc in each st across, turn\n"
        "rep last 2 rows until piece measures {height}"
    )
    assert found.rows == 2
    one = (20 + CHAIN) * SC + (20 * Fraction(157, 106) + CHAIN) * SC
    assert found.five_cm[0] == Fraction(9, 2) * one * 2 * Fraction(6, 5) * 2000


@pytest.mark.parametrize(
    "rows",
    [
        "ch 1, sc in each st across, turn\nrep last row 20 more times",
        "ch 1, sc2tog, sc in each st across, turn\nrep last row until piece measures 8 cm",
    ],
)
def test_shaped_rows_and_rows_of_a_fixed_number_are_not_lengthened(rows: str) -> None:
    """A row that decreases does not leave what it found; 20 rows follow no length."""
    assert of(rows) == ()


COUNTED = SCARF.replace("pieces:\n", "counts:\n  rows: {along: height, gauge: ground}\npieces:\n")


@pytest.mark.parametrize(
    "rows",
    [
        "ch 1, sc in each st across, turn\nrep last row {rows - 2} more times",
        (
            "Plain row: ch 1, sc in each st across, turn\n"
            "Other row: ch 1, sc in each st across, turn\n"
            "rep last 2 rows {rows / 2 - 2} more times"
        ),
        "ch 1, sc in each st across, turn, rep this row {rows - 2} times",
    ],
)
def test_rows_counted_along_a_length_are_lengthened_as_those_worked_up_to_it(rows: str) -> None:
    """9 rows in 5 cm, whether the file says how long or how many."""
    (found,) = of(rows, COUNTED)
    due = [9 * (sts + CHAIN) * SC * 2 * Fraction(11, 10) * 2000 for sts in (20, 30)]
    assert list(found.five_cm) == due
    assert (found.name, found.until, found.shaped) == ("height", False, False)


def test_a_measurement_on_which_stitches_hang_too_is_no_length_to_add_to() -> None:
    """More rows would make it wider: a square."""
    head = COUNTED.replace("ch 21 (31)", "ch {rows + 1}")
    assert of("ch 1, sc in each st across, turn\nrep last row {rows - 2} more times", head) == ()
    wide = COUNTED.replace(
        "counts:\n", "  width: height / 2\ncounts:\n  sts: {across: width, gauge: ground}\n"
    ).replace("ch 21 (31)", "ch {sts + 1}")
    assert of("ch 1, sc in each st across, turn\nrep last row {rows - 2} more times", wide) == ()


def test_a_shaping_over_more_rows_takes_what_its_rows_take_in_the_mean() -> None:
    """Of 70 (106) rows: their stitches and chains over their number, 9 of them in 5 cm."""
    head = COUNTED.replace("counts:\n", "counts:\n  s: 20 (30)\n")
    head = head.replace("ch 21 (31)", "ch {s + 1}")
    head += "      - title: Wedge\n        shape: {from: s, to: 2 * s, over: rows - 2}\n"
    (found,) = of("", head)
    rows, sts = shaped_rows(head)
    assert rows == [70, 106]
    due = [
        9 * (stitches + number * CHAIN) / number * SC * 2 * Fraction(11, 10) * 2000
        for number, stitches in zip(rows, sts, strict=True)
    ]
    assert list(found.five_cm) == due
    assert (found.until, found.shaped) == (False, True)


def shaped_rows(text: str) -> tuple[list[int], list[int]]:
    """How many rows the last section has in each size, and all of their sc."""
    read = source.read("pattern.yaml", text.encode()).value
    assert read is not None
    ready = pipeline.run(read, NO_STUDIO).ready
    assert ready is not None
    (line,) = ready.proven.pieces[0].sections[-1].rows
    worked = [one for one in line.per_size if one is not None]
    return [one.times or 0 for one in worked], [dict(one.worked)["sc"] for one in worked]


@pytest.mark.parametrize(
    ("colour", "share"),
    [("1 row A, 1 row B", Fraction(1, 2)), ("3 rows A, 1 row B", Fraction(3, 4))],
)
def test_each_colour_takes_more_as_in_the_rows_that_are_there(colour: str, share: Fraction) -> None:
    """In stripes by their proportion; a half of an even number of rows is exact."""
    head = SCARF.replace("put_up: {", "colours: [A, B], put_up: {").replace(
        "      - title: All\n", f"      - title: All\n        colour: {colour}\n"
    )
    head = head.replace("height: 40 (60) cm", "height: 40 (50) cm")
    (found,) = of(
        "ch 1, sc in each st across, turn\nrep last row until piece measures {height}", head
    )
    whole = list(found.five_cm)
    first, second = found.colours
    assert (first.colour, second.colour) == ("A", "B")
    together = [one + two for one, two in zip(first.five_cm, second.five_cm, strict=True)]
    assert together == whole
    parts = [one / both for one, both in zip(first.five_cm, whole, strict=True)]
    assert all(abs(part - share) < Fraction(1, 50) for part in parts)


def test_pieces_that_grow_to_the_same_measurement_grow_together() -> None:
    """A second piece, made once: half as much again as the two halves."""
    rows = "ch 1, sc in each st across, turn\nrep last row until piece measures {height}"
    second = "\n".join(
        [
            "  back:",
            "    title: Back",
            "    worked: flat rows",
            "    gauge: ground",
            "    sections:",
            "      - title: All",
            "        rows: |",
            "          ch 21 (31)",
            "          sc in 2nd ch from hook and in each ch across, turn",
            *(f"          {row}" for row in rows.splitlines()),
            "",
        ]
    )
    (alone,) = of(rows)
    head = SCARF + "".join(f"          {row}\n" for row in rows.splitlines()) + second
    (both,) = of("", head)
    assert both.pieces == ("Half", "Back")
    assert list(both.five_cm) == [mm * Fraction(3, 2) for mm in alone.five_cm]


def test_a_length_without_a_name_is_that_of_its_section() -> None:
    """The page then names the section."""
    (found,) = of("ch 1, sc in each st across, turn\nrep last row until piece measures 30 cm")
    assert (found.name, found.section) == ("", "All")
