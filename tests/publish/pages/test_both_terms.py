"""Words of a page that are others in the other terms: stitches, and passing them over."""

from __future__ import annotations

import re
import shutil

import pytest

from tests.publish.project import CHECKOUT
from workeven.publish import edition
from workeven.publish.collection import Address
from workeven.publish.pages.both_terms import in_both_terms, in_other_words, words
from workeven.publish.pages.choices import marked

#: The designer writes UK terms; a fan of hers is made of trebles.
BRITISH = """\
title: Shell Mat
summary: A mat in double crochet.
audience: adult
use: [home]
terms: uk
version: "1.0"
published: 2026-11-02
designers: [Nell Marramgrass]
sizes: {names: One size}
gauge:
  ground: {sts: 16, rows: 18, over: 10 cm, of: dc}
yarn:
  main: {weight: light, fibre: 100% cotton, put_up: {length: 85 m, mass: 50 g}}
stitches:
  fan: 5 tr in same st
pieces:
  mat:
    worked: flat rows
    gauge: ground
    sections:
      - title: Mat
        note: Do not miss a stitch of an htr row.
        rows: |
          ch 32
          dc in 2nd ch from hook and in each ch across, turn
          ch 1, dc in next st, [miss 2 sts, fan in next st, miss 2 sts, dc in next st] 5 times
"""


@pytest.fixture(scope="module")
def page(tmp_path_factory: pytest.TempPathFactory) -> tuple[str, str]:
    """The HTML of that pattern's page, and what stands in its head."""
    folder = tmp_path_factory.mktemp("british")
    shutil.copy(CHECKOUT / "patterns" / "studio.yaml", folder)
    (folder / "shell-mat").mkdir()
    (folder / "shell-mat" / "pattern.yaml").write_text(BRITISH, encoding="utf-8")
    made = edition.published(str(folder), Address(folder="patterns", ending=""))
    (found,) = (one for one in made.publication.pages if "shell-mat" in one.source)
    return found.html, str(found.head)


def test_miss_is_skip_in_rows_alone(page: tuple[str, str]) -> None:
    """A row that says it passes stitches over; a note that says "do not miss" passes none."""
    html, _ = page
    row = html[html.index("row-mat.mat-3") :]
    assert row.count("<span data-we-t>miss</span> 2 sts") == 2
    assert "Do not miss a stitch of an <span data-we-t>htr</span> row." in html


def test_the_head_tells_what_each_word_is_there(page: tuple[str, str]) -> None:
    """A UK treble is a US double crochet (``standards/terms.csv``), in a fan too."""
    _, head = page
    told = head.replace("&#34;", '"')
    assert '"miss":["sk","skip"]' in told
    assert '"fan":["fan","5 dc in same st"]' in told
    assert '"tr":["dc","double crochet"]' in told


@pytest.mark.parametrize(
    ("text", "other"),
    [
        ("after an sc", "after a dc"),
        ("An sc round", "A dc round"),
        ("after an hdc", "after an htr"),
        ("an esc, an fpdc", "an edc, an fptr"),
        ("Sk the turning chain, sk 2 dc", "Miss the turning chain, miss 2 tr"),
        ("can sc", "can dc"),
    ],
)
def test_an_article_is_that_of_its_word(text: str, other: str) -> None:
    """Read by letters: an s, but a d. On the page the two change together."""
    assert in_other_words(text, "us") == other
    shown = re.sub(r"<[^>]*>", "", str(marked(in_both_terms(text, "us"))))
    assert shown == text


def test_what_is_the_same_is_not_told() -> None:
    """A slip stitch has one name; a word of one's own that is made of chains, one meaning."""
    page = '<abbr title="slip stitch">sl st</abbr> <abbr title="ch 3, close">knot</abbr>'
    assert words(page, "us") == {}
    assert words(page, "uk") == {}
