"""Lengths written out in sentences: both systems, and nothing that is no length.

The figures in the other system are worked out here by 1 in = 2.54 cm (16 CFR 500.19), rounded as
pages are: quarters of an inch, halves of a centimetre.
"""

from __future__ import annotations

import re
from fractions import Fraction

import pytest

from tests.publish.samples import SIZES
from tests.support.as_read import as_read
from tests.support.pattern_files import changed, outcome
from workeven.publish.pages.choices import marked
from workeven.publish.pages.pattern_page import _names, _texts
from workeven.publish.pages.rows import Names, row_words
from workeven.publish.pages.said_lengths import in_both_systems, said_lengths
from workeven.publish.pages.texts import filled


@pytest.mark.parametrize(
    ("text", "printed"),
    [
        ("Cut 20 strands of 30 cm.", "Cut 20 strands of 30 cm / 11¾ in."),
        ("Leave a tail of 12 inches.", "Leave a tail of 12 inches / 30.5 cm."),
        ("Leave 8 in for sewing.", "Leave 8 in / 20.5 cm for sewing."),
        ("Leave 10 in. Sew it on.", "Leave 10 in / 25.5 cm. Sew it on."),
        ("Make a cord 3 1/2 in long.", "Make a cord 3 1/2 in / 9 cm long."),
        ('Sew 3½" of it.', 'Sew 3½" / 9 cm of it.'),
        ("Turn in 25 to 30 cm.", "Turn in 25 to 30 cm / 9¾ to 11¾ in."),
        ("2–3 in wide", "2–3 in / 5–7.5 cm wide"),
        ("A 40 x 40 cm pad.", "A 40 x 40 cm / 15¾ x 15¾ in pad."),
        ("18 sts over 10 cm", "18 sts over 10 cm / 4 in"),
        ("1.5 m of ribbon", "1.5 m / 59 in of ribbon"),
        ("10 m of yarn", "10 m / 11 yd of yarn"),
        ("20 yd of cord", "20 yd / 19 m of cord"),
        ("20 (22, 24) cm deep", "20 (22, 24) cm / 7¾ (8¾, 9½) in deep"),
        ("An 11 in tail, a 20 cm tail.", "An 11 in / A 28 cm tail, a 20 cm / 7¾ in tail."),
    ],
)
def test_a_length_is_in_both_systems(text: str, printed: str) -> None:
    """As written first, the other behind it."""
    assert as_read(in_both_systems(text, 3)) == printed


@pytest.mark.parametrize(
    ("text", "printed"),
    [
        ("30 cm (12 in) of yarn", "30 cm / 12 in of yarn"),
        ("10 cm/4 in", "10 cm / 4 in"),
        ("7 inches [18 cm] long", "7 inches / 18 cm long"),
    ],
)
def test_what_she_gives_in_both_is_hers(text: str, printed: str) -> None:
    """Her own rounding stands."""
    assert as_read(in_both_systems(text, 1)) == printed


@pytest.mark.parametrize(
    "text",
    [
        "Work 3 in next st, 2 in each corner.",
        "Put 2 in every corner, leave 4 in front, weave 3 ends in.",
        "Sew the 2 feet on, 1 foot at a time.",
        "Use the 4 mm hook; 9 mm eyes; a 5 mm needle.",
        "At 5, 10 and 15 cm from the edge.",
        "Sew {length} to 30 cm of it.",
        "Cut 20 x 30 cm strands.",
        "Not 1,5 cm.",
        "Only 0.3 cm.",
        "20 (22) cm",
        "12 in (20 cm) do not agree.",
        "A yarn of 200 m/100 g.",
        'He said "Rnd 12" and went.',
        "From Rows 3 to 10 cm below.",
        "Rnd 5, 10 cm from the edge",
        "size 5 in M",
    ],
)
def test_what_may_be_something_else_stays(text: str) -> None:
    """A wrong length would be worse than one in the designer's system alone."""
    assert in_both_systems(text, 3) == text


@pytest.mark.parametrize(
    ("text", "others"),
    [
        ("fasten off, leaving a 30 cm tail", ["an 11¾ in"]),
        ("fasten off, leave 8 in", ["20.5 cm"]),
        ("sc 3 in next st, 2 in long, 2 in. ch 3", []),
        ("place 3 m, sc to 2 m", []),
    ],
)
def test_rows_say_less_of_lengths(text: str, others: list[str]) -> None:
    """There "in" and "m" are mostly other words."""
    assert [one.other for one in said_lengths(text, 1, row=True)] == others


@pytest.mark.parametrize(
    ("row", "printed"),
    [
        ("rep last row until piece measures 4 in (10 cm)", "measures 4 in / 10 cm: 16 more rows"),
        ("rep last row until piece measures 4 in", "measures 4 in / 10 cm: 16 more rows"),
        ("rep last row every 3 cm twice", "every 3 cm / 1¼ in twice"),
        ("rep last row every 1 in (2.5 cm) twice", "every 1 in / 2.5 cm twice"),
    ],
)
def test_a_row_that_is_counted_by_a_length_has_both(row: str, printed: str) -> None:
    """Once each, whether she gives the other or not. 4 in are 18 rows, 2 stand above."""
    text = changed("rep last row until piece measures {length}", row)
    ready = outcome(text).ready
    assert ready is not None
    names = _names(ready)
    words = [as_read(row_words(one, names)) for one in ready.proven.pieces[0].sections[0].rows]
    shown = re.sub("<[^>]*>", "", words[-1])
    assert printed in shown


def test_a_page_can_pick_one_of_them() -> None:
    """Marked as every other length is."""
    assert marked(in_both_systems("of 30 cm", 1)) == (
        'of <span data-we-u="ci">30 cm / 11¾ in</span>'
    )
    assert marked(in_both_systems("of 4 inches", 1)) == (
        'of <span data-we-u="ic">4 inches / 10 cm</span>'
    )


def test_braces_stand_beside_words() -> None:
    """Each in its place."""
    names = Names(
        counts={},
        lengths={"cuff": SIZES.each((Fraction(60), Fraction(64), Fraction(68)))},
        meaning=lambda _name: "",
        units="cm",
        sizes=3,
    )
    assert as_read(filled("Fold {cuff}, cut 30 cm, {25 cm}.", names)) == (
        "Fold 6 (6.5, 7) cm / 2¼ (2½, 2¾) in, cut 30 cm / 11¾ in, 25 cm / 9¾ in."
    )


def test_a_row_and_a_text_of_a_pattern_have_both() -> None:
    """In the tail of a row, where a row is worked until, and in the finishing."""
    text = changed("fasten off", "fasten off, leaving a 30 cm tail")
    ready = outcome(text.replace("Weave in all ends.", "Cut 4 strands of 20 cm.")).ready
    assert ready is not None
    names = _names(ready)
    last = ready.proven.pieces[-1].sections[-1].rows[-1]
    assert "leaving a 30 cm / an 11¾ in tail" in as_read(row_words(last, names))
    assert as_read(_texts(ready.pattern.finishing, names)) == ("Cut 4 strands of 20 cm / 7¾ in.",)
