"""Gauges over stitches, repeats, rows and rounds; what a swatch measures."""

from __future__ import annotations

from fractions import Fraction

import pytest

from tests.support.bands import band, made, told
from tests.support.pattern_files import GOOD, outcome
from workeven.arithmetic.units import INCH
from workeven.pattern import Gauge
from workeven.pipeline import Outcome

GAUGE = "{sts: 20, rows: 18, over: 10 cm, of: sc}"


def with_gauge(gauge: str, swatch: str = "") -> Outcome:
    """A band in that gauge, its swatch measured or not."""
    text = band("names: S (M)", around="80 (90) cm")
    assert 1 == text.count(GAUGE)
    text = text.replace(GAUGE, gauge)
    return made(text.replace("    mass: 20 g\n", f"    mass: 20 g\n{swatch}"))


def gauge_of(written: str) -> Gauge:
    """The gauge as read."""
    ready = with_gauge(written).ready
    assert ready is not None
    return ready.pattern.gauges[0]


def test_repeats_over_a_length_are_stitches() -> None:
    """2 repeats of 7 sts in 3 in: 14 sts in 76.2 mm."""
    found = gauge_of("{repeats: 2, repeat_sts: 7, over: 3 in, of: shells}")
    assert 3 * INCH / 14 == found.stitch_width()


def test_rounds_may_have_a_length_of_their_own() -> None:
    """9 rounds in 4 in beside 14 sts in 3 in."""
    found = gauge_of("{sts: 14, over: 3 in, rounds: 9, rows_over: 4 in, of: dc}")
    assert 4 * INCH / 9 == found.row_height()
    assert found.rounds


def test_gauge_before_blocking_changes_no_count() -> None:
    """80 cm at 20 sts to 10 cm are 160 sts, whatever the fabric was before."""
    before = "before_blocking: {sts: 22, rows: 20, over: 10 cm}"
    ready = with_gauge("{sts: 20, rows: 18, over: 10 cm, of: sc, %s}" % before).ready  # noqa: UP031
    assert ready is not None
    assert (160, 180) == ready.proven.graded.counts["band_sts"].values.values
    told_before = ready.pattern.gauges[0].before
    assert told_before is not None
    assert 22 == told_before.sts


def test_length_before_blocking_is_that_after_it_where_none_is_said() -> None:
    """Both were counted over 10 cm."""
    found = gauge_of("{sts: 20, over: 10 cm, of: sc, before_blocking: {sts: 22}}")
    assert found.before is not None
    assert 100 == found.before.over


@pytest.mark.parametrize(
    ("gauge", "code"),
    [
        ("{repeats: 2, over: 3 in, of: shells}", "gauge-basis"),
        ("{sts: 14, repeats: 2, repeat_sts: 7, over: 3 in, of: shells}", "gauge-basis"),
        ("{sts: 14, rows: 9, rounds: 9, over: 3 in, of: dc}", "gauge-basis"),
        ("{rows: 9, over: 3 in, of: dc}", "file-key-missing"),
        ("{sts: 14, over: 3 in, of: dc, before_blocking: {rows: 9}}", "file-key-missing"),
        ("{repeats: two, repeat_sts: 7, over: 3 in, of: shells}", "unit-number"),
        ("{sts: 14, rows: 9, rows_over: 4, over: 3 in, of: dc}", "unit-length"),
        ("{sts: 14, rows: 9, rows_over: 0 in, over: 3 in, of: dc}", "gauge-zero"),
        ("{repeats: 2, repeat_sts: 0, over: 3 in, of: shells}", "gauge-zero"),
        ("{sts: 0, rows: 9, over: 3 in, of: dc}", "gauge-zero"),
        ("{sts: 14, rows: 0, over: 3 in, of: dc}", "gauge-zero"),
        ("{sts: 14, over: 0 in, of: dc}", "gauge-zero"),
        ("{sts: 14, over: 3 in, of: dc, before_blocking: {sts: 0}}", "gauge-zero"),
    ],
)
def test_unclear_gauge_is_told_once(gauge: str, code: str) -> None:
    """One mistake, one message."""
    assert [code] == [one for one, _ in told(with_gauge(gauge))]


@pytest.mark.parametrize(
    ("swatch", "codes"),
    [
        ("    width: 12 cm\n", []),  # 24 sts by the gauge of 20 to 10 cm
        ("    width: 12.2 cm\n", []),  # what a tape cannot tell
        ("    width: 11.5 cm\n", ["gauge-swatch"]),
        ("    width: 12.5 cm\n", ["gauge-swatch"]),
        ("    height: 15 cm\n", []),  # 27 rows by 18 to 10 cm
        ("    height: 16 cm\n", ["gauge-swatch"]),
        ("    width: 11 cm\n    height: 16 cm\n", ["gauge-swatch"]),
        ("    width: 11\n", ["unit-length"]),
        ("    width: 12 cm\n    gauge: grund\n", ["name-unknown"]),
    ],
)
def test_measured_swatch_is_held_against_its_gauge(swatch: str, codes: list[str]) -> None:
    """24 sts and 27 rows were worked."""
    assert codes == [one for one, _ in told(with_gauge(GAUGE, swatch))]


def test_swatch_before_blocking_is_held_against_the_gauge_before_it() -> None:
    """24 sts at 22 to 10 cm are 10.9 cm."""
    gauge = "{sts: 20, over: 10 cm, of: sc, before_blocking: {sts: 22}}"
    assert [] == told(with_gauge(gauge, "    width: 10.9 cm\n    blocked: no\n"))
    assert ["gauge-swatch"] == [one for one, _ in told(with_gauge(gauge, "    width: 10.9 cm\n"))]


def test_figures_of_a_swatch_that_is_off() -> None:
    """24 sts in 11.5 cm are 20.87 to 10 cm."""
    found = with_gauge(GAUGE, "    width: 11.5 cm\n").problems[0]
    assert ("swatch_to_10_cm", ("20.87",)) in found.figures
    assert Fraction(24 * 100, 115) - Fraction("20.87") < Fraction(1, 200)


def test_a_gauge_of_nothing_is_told_where_nothing_is_counted_in_it() -> None:
    """Rows are worked in it all the same, and their width is asked for."""
    text = GOOD.replace("sts: 16, rows: 18", "sts: 0, rows: 18")
    listed = text.replace("{across: width, gauge: ground, multiple: 6, plus: 1}", "31 (37, 43)")
    assert listed != text
    assert ["gauge-zero"] == [problem.code for problem in outcome(listed).problems]
