"""Drawings as SVG: well-formed, described, escaped, and not larger than they need be."""

from __future__ import annotations

import re
from xml.etree import ElementTree as ET

from tests.publish.samples import GAUGE, mitts, piece, proven_row, row_in_size, section
from workeven.publish.drawings.measures import measures
from workeven.publish.drawings.outline import Arc, Outline, outline
from workeven.publish.drawings.placing import Strip
from workeven.publish.drawings.svg import cover, schematic

SVG = "{http://www.w3.org/2000/svg}"
MITT = mitts().proven.pieces[0]
FIRST = proven_row("sc", [row_in_size(20, 1, 1)] * 3, anchor="1")
SECOND = proven_row("sc", [row_in_size(20, 2, 2)] * 3, anchor="2")
TWO_PARTS = piece(
    [
        section([FIRST], title="Body", worked="flat rows"),
        section([SECOND], title="Armhole", worked="flat rows"),
    ],
    title="Front",
    worked="flat rows",
)


def drawn_mitt() -> str:
    """The schematic of the sample's mitt in size M, with a hostile title."""
    shape = outline(MITT, (GAUGE,), 1)
    assert shape is not None
    told = measures(MITT, (GAUGE,), shape.shape)
    return str(schematic(shape, told, size=1, name="<Mitt> & co", words="16 rounds"))


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
    rows = tuple(Strip(left=-50, right=50, bottom=at, top=at + 1, yarn="") for at in range(1000))
    blanket = Outline(shape="flat", strips=rows)
    assert str(schematic(blanket, (), size=0, name="Blanket", words="")).count("h20.1") < 100


def test_heights_stand_beside_one_another_the_longest_outside() -> None:
    """A line for each section's end, none across another."""
    shape = outline(TWO_PARTS, (GAUGE,), 1)
    assert shape is not None
    told = measures(TWO_PARTS, (GAUGE,), "flat")
    texts = ET.fromstring(str(schematic(shape, told, size=1, name="", words="")))  # noqa: S314
    places = {one.text: float(one.attrib["x"]) for one in texts.iter(f"{SVG}text")}
    letters = {measure.name: chr(ord("A") + at) for at, measure in enumerate(told)}
    whole, body = letters["Length from start to end"], letters["Length to the end of “Body”"]
    assert places[whole] < places[body]


def test_each_part_of_a_piece_is_drawn_at_its_own_height() -> None:
    """Thin rows are laid together, but not those of a second shoulder with those of the first."""
    rows = [
        Strip(left=-50, right=50, bottom=0, top=90, yarn=""),
        Strip(left=-50, right=-20, bottom=90, top=91, yarn=""),
        Strip(left=20, right=50, bottom=90, top=91, yarn=""),
    ]
    picture = str(
        schematic(Outline(shape="flat", strips=tuple(rows)), (), size=0, name="", words="")
    )
    assert len(re.findall(r"M[\d.]+ [\d.]+h", picture)) == 3


def test_an_opened_piece_is_drawn_in_arcs() -> None:
    """One for each round, each letter beside it."""
    arcs = tuple(Arc(radius=100 + 20 * at, thick=20, angle=3, yarn="") for at in range(5))
    drawn = Outline(shape="opened", arcs=arcs)
    told = measures(MITT, (GAUGE,), "opened")
    picture = str(schematic(drawn, told, size=0, name="", words=""))
    assert picture.count('class="y0"') == 5
    assert [one.text for one in ET.fromstring(picture).iter(f"{SVG}text")] == ["A", "B"]  # noqa: S314
