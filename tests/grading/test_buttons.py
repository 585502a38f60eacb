"""Buttons against holes."""

from __future__ import annotations

import pytest

from tests.support import pattern_files

BAND = """\
title: Sand Band
summary: A band with buttonholes.
audience: adult
use: [wear]
sizes:
  names: S (M, L)
gauge:
  ground: {sts: 16, rows: 18, over: 10 cm, of: sc}
yarn:
  main: {weight: light, fibre: 100% cotton, put_up: {length: 85 m, mass: 50 g}}
swatches:
  - of: main
    mass: 5 g
    rows: |
      ch 21
      sc in 2nd ch from hook and in each ch across
NOTIONS
counts:
  band_sts: 60 (66, 72)
pieces:
  band:
    make: MAKE
    worked: flat rows
    gauge: ground
    sections:
      - title: Band
        rows: |
          ch {band_sts + 1}
          sc in 2nd ch from hook and in each ch across, turn ({band_sts} sc)
          ch 1, sc in each st across, turn
      - title: Buttonholes
        ONLY
        holes: {across: band_sts, number: 6, width: 3}
      - title: Edge
        ONLY
        rows: |
          ch 1, sc in each sc and 3 sc in each ch-3 sp across
          fasten off
MORE
"""
MIRROR = "  other_band: {mirror: band}"


def told(notions: str, *, make: str = "1", only: str = "", more: str = "") -> list[tuple[str, ...]]:
    """The sizes of each such advice."""
    text = BAND.replace("NOTIONS", f"notions:\n{notions}" if notions else "")
    text = text.replace("MAKE", make).replace("        ONLY\n", only).replace("MORE", more)
    found = pattern_files.outcome(text)
    assert found.ready is not None, [(one.code, one.found) for one in found.problems]
    assert {"notion-buttons"} >= {one.code for one in found.problems}
    return [one.sizes or () for one in found.problems]


@pytest.mark.parametrize(
    ("notions", "sizes"),
    [
        ("  - {kind: button, amount: 6}", []),
        ("  - {kind: button, amount: '6 (6, 7)'}", [("L",)]),
        ("  - {kind: button, amount: 4}\n  - {kind: toggle, amount: 2}", []),
        ("  - {kind: ribbon, amount: 1}", []),
        ("", []),
    ],
)
def test_buttons_are_as_many_as_holes(notions: str, sizes: list[tuple[str, ...]]) -> None:
    """In each size; holes without any button may be for a ribbon."""
    assert sizes == told(notions)


def test_holes_of_a_piece_that_is_made_twice_count_twice() -> None:
    """And in the sizes in which it is."""
    assert [] == told("  - {kind: button, amount: '6 (6, 12)'}", make="1 (1, 2)")


def test_mirrored_piece_has_holes_too() -> None:
    """Those of the piece that it mirrors."""
    assert [] == told("  - {kind: button, amount: 12}", more=MIRROR)


def test_holes_of_some_sizes_ask_for_buttons_in_those() -> None:
    """The others have none."""
    only = "        sizes: M (L)\n"
    assert [] == told("  - {kind: button, amount: '0 (6, 6)'}", only=only)


@pytest.mark.parametrize(
    ("title", "sizes"), [("Cord holes", []), ("Buttonholes", [("S", "M", "L")])]
)
def test_holes_beside_a_cord_are_for_buttons_where_their_title_says_so(
    title: str, sizes: list[tuple[str, ...]]
) -> None:
    """A cord in the waist, and two buttons elsewhere."""
    notions = (
        "  - {kind: drawstring, amount: 1, at: waist}\n  - {kind: button, amount: 2, at: cuff}"
    )
    text = BAND.replace("NOTIONS", f"notions:\n{notions}").replace("MAKE", "1")
    text = text.replace("        ONLY\n", "").replace("MORE", "").replace("Buttonholes", title)
    found = pattern_files.outcome(text).problems
    assert sizes == [one.sizes for one in found if one.code == "notion-buttons"]
