"""The page of a pattern as strings, against figures worked out by hand."""

from __future__ import annotations

import pytest

from tests.publish.samples import GAUGE, STUDIO, mitts
from tests.support.as_read import as_read
from workeven.notation.vocabulary import Terms
from workeven.pipeline import ReadyPattern
from workeven.publish.pages.pattern_page import Neighbours, PatternView, contents, pattern_view
from workeven.publish.pages.schematics import draw
from workeven.publish.pages.views import Link, Table
from workeven.publish.pages.worked_into import told
from workeven.records import replace

NOWHERE = Neighbours(before=None, after=None, collection=Link(words="All", url="../"))


def view(ready: ReadyPattern | None = None) -> PatternView:
    """The page of the mitts, or of another pattern."""
    shown = ready or mitts()
    return as_read(pattern_view(shown, draw(shown), told(shown), NOWHERE))


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


def test_a_gauge_is_told_in_both_systems() -> None:
    """10 cm and 4 in are the same to the trade."""
    assert view().gauges == ("20 sts and 25 rows of sc = 10 cm / 4 in, with a 3.75 mm hook",)


def test_several_gauges_are_told_apart() -> None:
    """By their names."""
    shown = view(changed(gauges=(GAUGE, replace(GAUGE, name="waves", rows=None, hook=None))))
    assert shown.gauges[1] == "20 sts of sc (waves) = 10 cm / 4 in"


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
    assert title in [as_read(entry.title) for entry in contents(view())]
    assert title not in [entry.title for entry in contents(bare)]


def test_a_pattern_that_cannot_be_drawn_has_no_picture() -> None:
    """Without a gauge no row has a width."""
    assert view(changed(gauges=())).picture is None


@pytest.mark.parametrize(("terms", "word"), [("us", "Gauge"), ("uk", "Tension")])
def test_a_page_is_built_with_the_word_of_its_own_terms(terms: Terms, word: str) -> None:
    """Stitches over a length are a gauge in the US and a tension in the UK (common practice)."""
    made = view(changed(terms=terms))
    assert (made.gauge_head, made.gauge) == (word, word.lower())
    assert all(f"that gives the {word.lower()}" in one for one in made.materials.hooks[:1])
    assert word in [as_read(entry.title) for entry in contents(made)]
