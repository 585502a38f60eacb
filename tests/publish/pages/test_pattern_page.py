"""The page of a pattern as strings, against figures worked out by hand."""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction
from typing import Any

import pytest

from tests.publish.samples import GAUGE, STUDIO, mitts
from workeven.pattern import Care, Notion, Treatment
from workeven.pipeline import ReadyPattern
from workeven.publish.pages.pattern_page import Neighbours, contents, pattern_view
from workeven.publish.pages.pieces import draw
from workeven.publish.pages.views import Link, PatternView, Table
from workeven.publish.pages.worked_into import told

NOWHERE = Neighbours(before=None, after=None, collection=Link(words="All", url="../"))


def view(ready: ReadyPattern | None = None) -> PatternView:
    """The page of the mitts, or of another pattern."""
    shown = ready or mitts()
    return pattern_view(shown, draw(shown), told(shown), NOWHERE)


def changed(**more: object) -> ReadyPattern:
    """The mitts with something else in their pattern."""
    ready = mitts()
    return replace(ready, pattern=replace(ready.pattern, **more))  # type: ignore[arg-type]


def cells(table: Table | None, row: int) -> tuple[str, tuple[tuple[str, ...], ...]]:
    """A row of a table, its unbreakable spaces made plain."""
    assert table is not None
    head, lines = table.rows[row]
    return head, tuple(tuple(one.replace("\u00a0", " ") for one in cell) for cell in lines)


def test_to_fit_and_finished_are_two_tables() -> None:
    """Body and finished piece, each in both systems: 180 and 165 mm in S."""
    shown = view()
    assert cells(shown.to_fit, 0) == ("S", (("18 cm", "7 in"),))
    assert cells(shown.finished, 0) == ("S", (("16.5 cm", "6½ in"), ("6 cm", "2¼ in")))


def test_a_studio_in_inches_has_inches_first() -> None:
    """Both are always there."""
    shown = view(changed(studio=replace(STUDIO, units="in")))
    assert cells(shown.finished, 2) == ("L", (("8¼ in", "21 cm"), ("2¾ in", "7 cm")))


def test_computed_amounts_say_how() -> None:
    """For who asks."""
    assert [one.method for one in view().computed] == [
        "From the stitches counted in every row and a swatch that was weighed."
    ]


def test_a_gauge_is_told_in_both_systems() -> None:
    """10 cm and 4 in are the same to the trade."""
    assert view().gauges == ("20 sts and 25 rows of sc = 10 cm / 4 in, with a 3.75 mm hook",)


def test_several_gauges_are_told_apart() -> None:
    """By their names."""
    shown = view(changed(gauges=(GAUGE, replace(GAUGE, name="waves", rows=None, hook=None))))
    assert shown.gauges[1] == "20 sts of sc (waves) = 10 cm / 4 in"


def test_a_pattern_page_says_who_made_it_and_what_may_be_done_with_it() -> None:
    """Byline, version and licence; the studio's where the pattern has none of its own."""
    shown = view()
    assert (shown.byline, shown.version, shown.licence, shown.copyright) == (
        "Designed by Perrin Saltlock for Tidewrack Studio",
        "Version 1.0, published 2026-11-02",
        "CC BY 4.0",
        "© 2026 Tidewrack Studio",
    )


def test_a_pattern_in_one_size_does_not_explain_sizes() -> None:
    """There is nothing to tell apart."""
    assert len(view().reading) == 2


def test_abbreviations_are_those_of_the_rows() -> None:
    """And of what the page adds: rounds and stitches. A US sc is a UK dc."""
    table = view().abbreviations
    assert table is not None
    assert [head for head, _ in table.rows] == ["ch", "rnd(s)", "sc", "sl st", "st(s)"]
    assert table.rows[2] == ("sc", (("single crochet",), ("dc, double crochet",)))


@pytest.mark.parametrize("title", ["Gauge", "Assembly", "Finishing"])
def test_what_is_not_there_is_not_in_the_contents(title: str) -> None:
    """The list of contents follows the page."""
    bare = view(changed(gauges=(), assembly=(), finishing=()))
    assert title in [entry.title for entry in contents(view())]
    assert title not in [entry.title for entry in contents(bare)]


def test_a_pattern_that_cannot_be_drawn_has_no_picture() -> None:
    """Without a gauge no row has a width."""
    assert view(changed(gauges=())).picture is None


@pytest.mark.parametrize(
    ("notion", "words"),
    [
        (
            {"kind": "button", "amount": 6, "at": "front", "size": Fraction(15)},
            "6 buttons, 15 mm, for the front",
        ),
        ({"kind": "stuffing", "at": "inside", "note": "15 g"}, "Stuffing, inside (15 g)"),
        (
            {"kind": "zip", "size": Fraction(450), "at": "front"},
            "1 zip, 45 cm / 17¾ in, for the front",
        ),
        ({"kind": "hook and eye", "amount": 2}, "2 hooks and eyes"),
        ({"kind": "safety eyes", "amount": 2, "at": "face"}, "2 safety eyes, for the face"),
        ({"kind": "other", "note": "a sheet of felt", "at": "inside"}, "A sheet of felt, inside"),
    ],
)
def test_notions_are_told_as_they_are_bought(notion: dict[str, Any], words: str) -> None:
    """What has a number by it, what has a length or a mass without."""
    sizes = mitts().pattern.sizes
    amount = sizes.all(notion.pop("amount", 1))
    told = {"at": None, "note": None, "span": mitts().pattern.sizes_span, **notion}
    made = Notion(amount=amount, **told)
    assert (words,) == tuple(
        words.replace("\N{NO-BREAK SPACE}", " ") for words in view(changed(notions=(made,))).notions
    )


def test_care_is_told_in_the_order_of_the_standard() -> None:
    """Several treatments of a group on one line; the note apart."""
    span = mitts().pattern.sizes_span
    treatments = (
        Treatment(group="wash", word="by hand", span=span),
        Treatment(group="dry", word="do not tumble dry", span=span),
        Treatment(group="dry", word="flat", span=span),
    )
    shown = view(changed(care=Care(treatments=treatments, note="Press it under a cloth.")))
    assert shown.care == (
        ("Washing", "Wash by hand at up to 30 °C"),
        ("Drying", "Do not tumble dry; dry flat"),
    )
    assert shown.care_note == "Press it under a cloth."


def test_care_in_words_stands_as_it_was_written() -> None:
    """Without groups."""
    assert (view().care, view().care_note) == ((), "Wash by hand.")
