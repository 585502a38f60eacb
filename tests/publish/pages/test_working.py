"""What a tick holds to: a row's fingerprint, and how many rows a line stands for."""

from __future__ import annotations

from collections.abc import Mapping
from fractions import Fraction
from urllib.parse import parse_qs, urlsplit

import pytest

from tests.publish.samples import SIZES, mitt_rows, mitts, proven_row, row_in_size
from workeven.pattern import Ask
from workeven.proof import ProvenRow
from workeven.publish.pages.rows import Names
from workeven.publish.pages.working import fingerprint, repeats, work
from workeven.records import replace

NAMES = Names(
    counts={"hand_sts": SIZES.each((33, 36, 42))},
    lengths={"cuff": SIZES.each((Fraction(60), Fraction(64), Fraction(68)))},
    meaning=lambda _name: "",
    units="cm",
)
NONE: Mapping[str, str] = {}


def line(words: str, sts: int = 12, number: int = 4, **more: object) -> ProvenRow:
    """A line that all three sizes work."""
    each = [row_in_size(sts, number, number, **more) for _ in SIZES.names]
    return proven_row(words, each, anchor="x")


def test_a_fingerprint_is_short_and_always_the_same() -> None:
    """Four signs, pinned: a tick that was kept before an update of workeven is kept after it."""
    assert fingerprint(line("sc in each st around"), NAMES, NONE) == "Amzn"


@pytest.mark.parametrize(
    "other",
    [
        line("Rnd 5: sc in each st around", number=5),
        line("sc in each  st around (12 sc)"),
        replace(line("sc in each st around"), anchor="y"),
    ],
)
def test_a_row_keeps_its_tick_where_others_change(other: ProvenRow) -> None:
    """Neither its number, nor its place, nor a count that is stated now changes what is worked."""
    assert fingerprint(other, NAMES, NONE) == fingerprint(line("sc in each st around"), NAMES, NONE)


@pytest.mark.parametrize(
    "other",
    [
        line("hdc in each st around"),
        line("sc in each st around", sts=13),
        line("sc in each st around", times=2),
        line("sc in each st around", makes=(("ch-1 sp", 1), ("sc", 11))),
    ],
)
def test_a_corrected_row_loses_its_tick(other: ProvenRow) -> None:
    """Other words, another count, another number of rows, other stitches."""
    assert fingerprint(other, NAMES, NONE) != fingerprint(line("sc in each st around"), NAMES, NONE)


def test_a_row_whose_formula_gives_another_number_loses_its_tick() -> None:
    """The words are the same, and in L the chain is longer."""
    more = replace(NAMES, counts={"hand_sts": SIZES.each((33, 36, 45))})
    chain = mitt_rows()[0]
    assert fingerprint(chain, NAMES, NONE) != fingerprint(chain, more, NONE)


def test_a_row_whose_length_is_another_loses_its_tick() -> None:
    """Here no size has another number of rows: she measures."""
    longer = {"cuff": SIZES.each((Fraction(60), Fraction(64), Fraction(69)))}
    more = replace(NAMES, lengths=longer)
    until = mitt_rows()[2]
    assert fingerprint(until, NAMES, NONE) != fingerprint(until, more, NONE)


def test_a_row_whose_own_stitch_was_corrected_loses_its_tick() -> None:
    """And a row without that stitch keeps it."""
    old, new = {"puff": "5 dc in same st"}, {"puff": "6 dc in same st"}
    kept = [
        fingerprint(row, NAMES, old) == fingerprint(row, NAMES, new)
        for row in (line("puff in each st around"), line("sc in each st around"))
    ]
    assert kept == [False, True]


@pytest.mark.parametrize(
    ("times", "told"),
    [
        ((1, 1, 1), ""),
        ((14, 15, 16), "14 (15, 16)"),
        ((4, 4, 4), "4"),
        ((0, 1, 1), ""),
        ((0, 1, 3), "0 (1, 3)"),
        ((None, None, None), "?"),
    ],
)
def test_a_line_says_how_many_rows_it_stands_for(times: tuple[int | None, ...], told: str) -> None:
    """Where there is something to count: more than one row in a size, or as many as she likes."""
    each = [row_in_size(12, 4, None, times=one) for one in times]
    assert repeats(proven_row("sc in each st around", each, anchor="x")) == told


def test_rows_with_others_between_them_are_as_many_as_are_listed() -> None:
    """The rows between are counted at their own line; how many every second one is, nobody says."""
    each = [row_in_size(12, 4, 8)] * len(SIZES.names)
    assert repeats(proven_row("Rnds 4, 6 and 8: sc around", each, anchor="x")) == "3"
    assert repeats(proven_row("Rnd 4 and all even rnds: sc around", each, anchor="x")) == ""


def test_a_size_without_the_row_has_a_dash_in_its_place() -> None:
    """So that the place tells the size."""
    each = [None, row_in_size(12, 4, 6), row_in_size(12, 4, 7)]
    assert repeats(proven_row("sc in each st around", each, anchor="x")) == "– (3, 4)"


def asked(title: str, ask: Ask | None) -> tuple[str, str]:
    """The addresses at which makers ask about a pattern of that title, and about its rows."""
    ready = mitts(title=title)
    studio = replace(ready.pattern.studio, ask=ask)
    view = work(replace(ready, pattern=replace(ready.pattern, studio=studio)))
    return view.ask, view.ask_row


def test_a_studio_that_does_not_say_where_is_not_asked() -> None:
    """No link."""
    assert asked("Mitts", None) == ("", "")


def test_the_address_of_a_form_is_filled_for_the_pattern() -> None:
    """Signs that mean something in an address are escaped (RFC 3986, 2.1), braces too."""
    address = "https://studio.example/ask?about={pattern}&v={version}&row={row}&size={size}"
    ask = Ask(address=address, mail=False, places=("pattern", "version", "row", "size"))
    assert asked("Ebb & {row}", ask) == (
        "https://studio.example/ask?about=Ebb%20%26%20%7Brow%7D&v=1.0&row=&size=",
        "https://studio.example/ask?about=Ebb%20%26%20%7Brow%7D&v=1.0&row={row}&size={size}",
    )


def test_a_letter_is_begun() -> None:
    """Its subject and its first lines, as RFC 6068 has them in an address."""
    ask = Ask(address="ask@studio.example", mail=True, places=())
    whole, row = (urlsplit(one) for one in asked("Ebb & Flow", ask))
    assert (whole.scheme, whole.path, row.path) == ("mailto", *["ask@studio.example"] * 2)
    assert parse_qs(whole.query) == {
        "subject": ["Ebb & Flow"],
        "body": ["Ebb & Flow, version 1.0\r\nSize: \r\n\r\n"],
    }
    assert parse_qs(row.query) == {
        "subject": ["Ebb & Flow: {piece}, {row}"],
        "body": ["Ebb & Flow, version 1.0\r\n{piece}, {row}\r\nSize: {size}\r\n\r\n"],
    }
