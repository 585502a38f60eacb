"""Marks of sizes and units within texts, and the elements that they become."""

from __future__ import annotations

import re
from pathlib import Path

import pytest
from markupsafe import escape

from tests.publish.project import CHECKOUT
from tests.support.pattern_files import changed, outcome
from workeven.publish import edition
from workeven.publish.collection import Address
from workeven.publish.pages.choices import (
    by_size,
    cell,
    in_unit,
    in_units,
    marked,
    not_for,
    only_for,
    plain,
)

#: Signs that no page and no file of ours may hold: YAML 1.2, 5.1, has none of them either.
CONTROL = re.compile("[\x00-\x08\x0b\x0c\x0e-\x1f]")


def test_a_text_may_be_joined_and_cut_like_any_other() -> None:
    """A mark outlives it."""
    listed = f"Make {by_size('1 (2)', ('1', '2'))}.\nThen sew."
    assert marked(" ".join(listed.split())) == "Make <span data-we-n>1 (2)</span>. Then sew."


@pytest.mark.parametrize(
    ("shown", "values", "attribute"),
    [
        ("60 (66, 72)", ("60", "66", "72"), ""),
        ("6 (7) (8)", ("6", "7", "8"), ""),
        ("– (3–4, 5)", ("–", "3–4", "5"), ""),
        ("S (M, L)", ("S", "M", "L"), '="S\nM\nL"'),
        ("2–4 years (6 years)", ("2–4 years", "6 years"), '="2–4 years\n6 years"'),
    ],
)
def test_a_list_that_says_it_by_itself_is_written_once(
    shown: str, values: tuple[str, ...], attribute: str
) -> None:
    """Names and whatever holds spaces are told apart by the attribute."""
    assert marked(by_size(shown, values)) == f"<span data-we-n{attribute}>{shown}</span>"


def test_one_value_for_all_needs_no_element() -> None:
    """A page in one size has none."""
    assert by_size("60", ("60", "60")) == "60"


def test_within_a_tag_there_is_no_mark() -> None:
    """Names of tables and drawings are texts alone."""
    both = in_units("5 cm", "2 in", "cm")
    html = f'<p title="{both}">{both}</p><svg><title>{both}</title></svg>'
    assert marked(html) == (
        '<p title="5 cm / 2 in"><span data-we-u="ci">5 cm / 2 in</span></p>'
        "<svg><title>5 cm / 2 in</title></svg>"
    )


def test_a_cell_tells_which_line_is_in_which_unit() -> None:
    """A line in neither stays with both."""
    lines = (in_unit("5 cm", metric=True), in_unit("2 in", metric=False), "positive ease")
    assert cell(lines) == (
        '<td data-we-u="ci-">5 cm<span>2 in</span><span>positive ease</span></td>'
    )


def test_a_list_may_begin_with_a_fraction() -> None:
    """Quarter inches; who has chosen her size does not meet those of the others."""
    both = marked(in_units("2 cm", "¾ (1, 1) in", "in"))
    assert both == '<span data-we-u="ic" data-we-n>¾ (1, 1) in / 2 cm</span>'
    assert marked(by_size("¾ (1, 1)", ("¾", "1", "1"))) == "<span data-we-n>¾ (1, 1)</span>"


def test_what_is_of_some_sizes_is_nothing_for_the_others() -> None:
    """And reads as it is where none is chosen."""
    words = only_for("In M by Wren: 40 g.", (False, True))
    assert (plain(words), not_for((False, True))) == ("In M by Wren: 40 g.", "0")


def test_text_of_a_pattern_is_escaped_in_attributes_too() -> None:
    """A size may be called whatever its designer likes."""
    names = ('S" onclick="x', "<b>")
    html = marked(str(escape(by_size(f"{names[0]} ({names[1]})", names))))
    assert html == (
        '<span data-we-n="S&#34; onclick=&#34;x\n&lt;b&gt;">'
        "S&#34; onclick=&#34;x (&lt;b&gt;)</span>"
    )


@pytest.mark.parametrize("sign", ["\x02", "\x03", "\x04", "\x05"])
def test_no_pattern_can_hold_a_mark(sign: str) -> None:
    """Such a file is not read at all."""
    found = outcome(changed("Weave in all ends.", f"Weave in{sign} all ends."))
    assert found.ready is None


@pytest.fixture(scope="module")
def everything() -> dict[str, str]:
    """All that the collection adds to a site, as texts by address."""
    address = Address(folder="patterns", ending="", site="https://we.example")
    made = edition.published(str(CHECKOUT / "patterns"), address).publication
    texts = {page.source: f"{page.html}{page.head}{page.markdown}" for page in made.pages}
    texts |= {
        one.path: one.content.decode()
        for one in made.attachments
        if Path(one.path).suffix in (".json", ".csv", ".svg", ".xml")
    }
    return texts


def test_no_mark_reaches_a_page_or_a_file(everything: dict[str, str]) -> None:
    """Neither by itself, nor by number in JSON."""
    found = [path for path, text in everything.items() if CONTROL.search(text) or "\\u000" in text]
    assert len(everything) > 15
    assert found == []
