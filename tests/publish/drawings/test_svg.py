"""Drawings as SVG: well-formed, described, escaped, and not larger than they need be."""

from __future__ import annotations

import re
from xml.etree import ElementTree as ET

from tests.publish.samples import GAUGE, mitts
from workeven.publish.drawings.outline import Outline, Strip, measures, outline
from workeven.publish.drawings.svg import cover, schematic

SVG = "{http://www.w3.org/2000/svg}"
MITT = mitts().proven.pieces[0]


def drawn_mitt() -> str:
    """The schematic of the sample's mitt in size M, with a hostile title."""
    shape = outline(MITT, (GAUGE,), 1)
    assert shape is not None
    told = measures(MITT, (GAUGE,), shape.shape)
    return str(schematic(shape, told, name="<Mitt> & co", words="16 rounds"))


def test_title_and_description_come_first() -> None:
    """SVG's accessibility notes: title, then desc, as the first children."""
    children = list(ET.fromstring(drawn_mitt()))  # noqa: S314 -- our own text
    assert [(one.tag, one.text) for one in children[:2]] == [
        (f"{SVG}title", "<Mitt> & co"),
        (f"{SVG}desc", "16 rounds"),
    ]


def test_each_measure_has_its_letter() -> None:
    """The table under a drawing names the same letters."""
    texts = ET.fromstring(drawn_mitt()).iter(f"{SVG}text")  # noqa: S314 -- our own text
    assert [one.text for one in texts] == ["A", "B"]


def test_each_row_is_a_stroke() -> None:
    """16 rounds in size M."""
    assert len(re.findall(r"h\d", re.findall(r' d="(M[^"]*)"', drawn_mitt())[0])) == 16


def test_a_cover_shows_each_copy_of_a_piece() -> None:
    """Two mitts, side by side at one scale."""
    shape = outline(MITT, (GAUGE,), 1)
    assert shape is not None
    picture = str(cover([(shape, 2)], slug="mitts", name="Mitts", words="Two mitts"))
    assert len(re.findall(r'<path class="y0"', picture)) == 2


def test_patterns_have_hues_of_their_own() -> None:
    """The hue comes from the pattern's own name, so that an index is not all of one colour."""
    shape = outline(MITT, (GAUGE,), 1)
    assert shape is not None
    covers = [str(cover([(shape, 1)], slug=slug, name="", words="")) for slug in "abcdefgh"]
    assert len({re.findall(r'class="h(\d)"', picture)[0] for picture in covers}) > 2


def test_thin_rows_are_drawn_together() -> None:
    """A blanket of a thousand rows does not make a drawing of a thousand strokes."""
    rows = tuple(Strip(width=100, bottom=at, top=at + 1, yarn="") for at in range(1000))
    blanket = Outline(shape="flat", strips=rows)
    assert str(schematic(blanket, (), name="Blanket", words="")).count("h20.1") < 100
