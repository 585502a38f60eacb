"""Gauges in the trade's words, and what one stitch more does."""

from __future__ import annotations

import pytest

from tests.pattern.test_gauges import with_gauge
from tests.support.as_read import as_read
from tests.support.bands import band, made
from workeven.publish.pages import gauges

L = "10 cm / 4 in"


@pytest.mark.parametrize(
    ("written", "words"),
    [
        (
            "{repeats: 2, repeat_sts: 7, over: 3 in, rounds: 9, rows_over: 4 in, of: shells}",
            "2 repeats (14 sts) of shells = 7.5 cm / 3 in, 9 rounds = 10 cm / 4 in",
        ),
        ("{sts: 20, rounds: 9, over: 10 cm, of: dc}", "20 sts and 9 rounds of dc = 10 cm / 4 in"),
        (
            "{sts: 20, rows: 18, over: 10 cm, of: sc, before_blocking: {sts: 21, rows: 19}}",
            f"20 sts and 18 rows of sc = {L} after blocking (21 sts and 19 rows = {L} before it)",
        ),
    ],
)
def test_gauge_is_told_as_it_was_counted(written: str, words: str) -> None:
    """Repeats, rounds, another length for rows, before and after blocking."""
    ready = with_gauge(written).ready
    assert ready is not None
    assert (words,) == as_read(gauges.gauges(ready.pattern))


def test_lengths_after_blocking_are_said_to_be() -> None:
    """Only where a gauge before it is given."""
    plain = with_gauge("{sts: 20, over: 10 cm, of: sc}").ready
    both = with_gauge("{sts: 20, over: 10 cm, of: sc, before_blocking: {sts: 21}}").ready
    assert plain is not None
    assert both is not None
    assert "" == gauges.gauge_note(plain.pattern)
    assert gauges.gauge_note(both.pattern).startswith("Lengths and widths are those after blocking")


def test_one_stitch_more_is_told_in_each_size() -> None:
    """At 20 sts 84 and 105 cm; at 21 they are 80 and 100: 4 and 5 cm less."""
    ready = made(band("names: S (M)", "to_fit:", "  bust: 76 (97) cm")).ready
    assert ready is not None
    table = gauges.sensitivity(ready)
    assert table is not None
    cells = [as_read(cell[0]).replace("\u00a0", " ") for _, row in table.rows for cell in row]
    assert ("Size", "Around") == table.heads
    assert ["4 cm", "5 cm"] == cells
