"""Pictures as PNG: whole files, and shapes where they should be.

Files are read back by a reader written here from the PNG specification (signature, chunks with
their CRC, a byte of filter before each row), so that the writer is not held against itself.
"""

from __future__ import annotations

import zlib
from itertools import pairwise
from math import pi
from struct import unpack

import pytest

from tests.publish.samples import GAUGE, mitts
from workeven.publish.drawings.outline import Arc, Outline, outline
from workeven.publish.drawings.placing import Strip
from workeven.publish.drawings.raster import Canvas
from workeven.publish.drawings.shared import SHARED_SIZE, icon, shared

WHITE, INK = "#ffffff", "#102030"


def chunks(png: bytes) -> dict[bytes, bytes]:
    """The chunks of a file by their kinds, each held against its CRC."""
    assert png[:8] == b"\x89PNG\r\n\x1a\n"
    found, at = {}, 8
    while at < len(png):
        (length,) = unpack(">I", png[at : at + 4])
        kind, content = png[at + 4 : at + 8], png[at + 8 : at + 8 + length]
        assert unpack(">I", png[at + 8 + length : at + 12 + length]) == (
            zlib.crc32(kind + content),
        )
        found[kind] = content
        at += 12 + length
    return found


def pixels(png: bytes) -> list[list[tuple[int, int, int]]]:
    """The picture as rows of colours."""
    told = chunks(png)
    width, height, depth, kind = unpack(">IIBB", told[b"IHDR"][:10])
    assert (depth, kind) == (8, 3)
    palette = [tuple(told[b"PLTE"][at : at + 3]) for at in range(0, len(told[b"PLTE"]), 3)]
    rows = zlib.decompress(told[b"IDAT"])
    assert len(rows) == (width + 1) * height
    lines = [rows[at : at + width + 1] for at in range(0, len(rows), width + 1)]
    assert {line[0] for line in lines} == {0}
    return [[palette[one] for one in line[1:]] for line in lines]  # type: ignore[misc]


def ink(canvas: Canvas) -> float:
    """How many pixels' worth of ink lies on a white ground."""
    full = 255 - 0x10
    return sum((255 - red) / full for row in pixels(canvas.png()) for red, _, _ in row)


def test_a_bar_lies_where_it_is_drawn() -> None:
    """From 10 to 30 with half a thickness of round end, between rows 8 and 12."""
    canvas = Canvas(40, 20, WHITE, (INK,))
    canvas.bar(10, 30, 10, 4, 0)
    rows = pixels(canvas.png())
    inked = {
        (x, y) for y, row in enumerate(rows) for x, one in enumerate(row) if one != (255, 255, 255)
    }
    assert {y for _, y in inked} == {8, 9, 10, 11}
    assert (min(x for x, _ in inked), max(x for x, _ in inked)) == (8, 31)


@pytest.mark.parametrize("thick", [3.0, 4.4, 9.7])
def test_a_bar_has_its_area(thick: float) -> None:
    """Length times thickness, and a disc for the two ends, within 2 %."""
    canvas = Canvas(140, 40, WHITE, (INK,))
    canvas.bar(20.3, 119.6, 20.4, thick, 0)
    area = 99.3 * thick + pi * thick**2 / 4
    assert ink(canvas) == pytest.approx(area, rel=0.02)


@pytest.mark.parametrize("angle", [0.8, 2.0, pi, 4.4, 2 * pi])
def test_an_arc_has_its_area(angle: float) -> None:
    """Its angle times its radius times its thickness, within 2 %."""
    canvas = Canvas(220, 220, WHITE, (INK,))
    canvas.arc(110.3, 110.6, 80, 12, angle, 0)
    assert ink(canvas) == pytest.approx(angle * 80 * 12, rel=0.02)


def test_an_arc_stands_about_its_axis() -> None:
    """The left half is the right half's mirror, and its middle is straight above the centre."""
    canvas = Canvas(100, 100, WHITE, (INK,))
    canvas.arc(50, 50, 30, 8, 2.0, 0)
    rows = pixels(canvas.png())
    assert [row[::-1] for row in rows] == rows
    assert rows[20][50] == (16, 32, 48)
    assert rows[80][50] == (255, 255, 255)


def test_what_is_outside_is_not_drawn() -> None:
    """A shape that leaves the picture is cut at its edge."""
    canvas = Canvas(10, 10, WHITE, (INK,))
    canvas.bar(-50, 50, 0, 8, 0)
    canvas.ring(5, 5, 300, 4, 0)
    assert len(pixels(canvas.png())) == 10


def test_a_shared_picture_shows_each_row() -> None:
    """Down the middle of the sample's mitt in M: 16 rounds, 16 strokes."""
    shape = outline(mitts().proven.pieces[0], (GAUGE,), 1)
    assert shape is not None
    rows = pixels(shared([(shape, 1)], slug="mitts"))
    assert (len(rows[0]), len(rows)) == SHARED_SIZE
    ground = rows[0][0]
    column = [row[SHARED_SIZE[0] // 2] != ground for row in rows[: SHARED_SIZE[1] - 60]]
    strokes = sum(now and not before for before, now in pairwise(column))
    assert strokes == 16


@pytest.mark.parametrize(
    "drawn",
    [
        Outline(
            shape="disc",
            strips=(Strip(left=-50.0, right=50.0, bottom=0.0, top=50.0, yarn="main"),),
        ),
        Outline(shape="opened", arcs=(Arc(radius=100.0, thick=20.0, angle=2.4, yarn="main"),)),
    ],
)
def test_pieces_of_all_shapes_can_be_shared(drawn: Outline) -> None:
    """What is drawn from above or opened out is in the picture too."""
    rows = pixels(shared([(drawn, 1)], slug="mitts"))
    assert any(one != rows[0][0] for row in rows[100:500] for one in row)


@pytest.mark.parametrize("size", [192, 512])
def test_an_icon_keeps_within_what_every_phone_shows(size: int) -> None:
    """A phone may cut an icon to a circle of 80 % (Web Application Manifest, "Icon masks")."""
    rows = pixels(icon(size))
    far = max(
        ((x + 0.5 - size / 2) ** 2 + (y + 0.5 - size / 2) ** 2) ** 0.5
        for y, row in enumerate(rows)
        for x, one in enumerate(row)
        if one != rows[0][0]
    )
    assert len(rows) == size
    assert far <= 0.4 * size
