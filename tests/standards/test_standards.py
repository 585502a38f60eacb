"""The published tables load whole, with their citations, and their known faults are still there."""

from __future__ import annotations

import csv
from collections.abc import Callable
from fractions import Fraction
from functools import partial
from importlib.resources import files
from typing import Any

import pytest

from workeven import standards
from workeven.standards import care, hooks, levels, safety


def _values(name: str) -> tuple[standards.BodyMeasurement, ...]:
    chart = standards.body_chart(name)
    assert chart is not None
    return chart.values


TABLES: dict[str, tuple[Callable[[], tuple[Any, ...]], int]] = {
    "turning_chains.csv": (standards.turning_chains, 6),
    "abbreviations.csv": (standards.abbreviations, 75),
    "terms.csv": (standards.terms, 15),
    "yarn_weights.csv": (standards.yarn_weights, 14),
    "wraps_per_inch.csv": (standards.wraps_per_inch, 24),
    "hooks.csv": (hooks.hooks, 72),
    "hooks_steel.csv": (hooks.steel_hooks, 42),
    "body_women.csv": (partial(_values, "women"), 163),
    "body_men.csv": (partial(_values, "men"), 96),
    "body_children.csv": (partial(_values, "children"), 90),
    "body_youth.csv": (partial(_values, "youth"), 54),
    "body_babies.csv": (partial(_values, "babies"), 90),
    "body_head.csv": (partial(_values, "head"), 14),
    "letter_sizes.csv": (standards.letter_sizes, 20),
    "letter_sizes_retail.csv": (standards.letter_sizes_retail, 14),
    "hats.csv": (standards.hat_sizes, 18),
    "ease.csv": (standards.fits, 12),
    "yarn_consumption.csv": (standards.yarn_consumption, 7),
    "project_levels.csv": (levels.project_levels, 8),
    "safety.csv": (safety.safety_rules, 28),
    "care.csv": (care.care_words, 41),
    "fibres.csv": (care.fibres, 25),
    "faults.csv": (standards.faults, 17),
}


def test_every_table_of_the_package_is_loaded() -> None:
    """No file lies beside the tables that nothing reads."""
    shipped = {path.name for path in files(standards).iterdir() if path.name.endswith(".csv")}
    assert set(TABLES) == shipped


@pytest.mark.parametrize("name", TABLES)
def test_table_keeps_all_its_rows(name: str) -> None:
    """A lost row would go unseen elsewhere."""
    load, rows = TABLES[name]
    assert rows == len(load())


@pytest.mark.parametrize("name", sorted(set(TABLES) - {"faults.csv"}))
def test_every_value_has_a_citation_and_a_status(name: str) -> None:
    """A value without its source is no standard."""
    origins = [record.origin for record in TABLES[name][0]() if hasattr(record, "origin")]
    assert TABLES[name][1] == len(origins)
    assert all(origin.citation.strip() for origin in origins)
    assert {origin.status for origin in origins} <= {"found", "second-hand", "memory"}


@pytest.mark.parametrize("name", sorted(set(TABLES) - {"faults.csv"}))
def test_headings_say_citation_and_not_source(name: str) -> None:
    """The word source means the text of a file here."""
    text = files(standards).joinpath(name).read_text(encoding="utf-8")
    headings = next(csv.reader(text.splitlines()))
    assert "citation" in headings
    assert "source" not in headings


def test_faults_name_a_table_that_is_here() -> None:
    """A fault points at a file of the package."""
    assert {fault.file for fault in standards.faults()} <= set(TABLES)


def _body(size: str, measurement: str, unit: str) -> list[tuple[Fraction, Fraction, str]]:
    return [
        (row.low, row.high, row.origin.status)
        for row in _values("women")
        if (row.size, row.measurement, row.unit) == (size, measurement, unit)
    ]


def test_faulty_upper_arm_is_kept_as_published() -> None:
    """Woman 5X: 18.5 in beside 49.5 cm, and the recalled 19.5 in beside it."""
    assert [(Fraction("18.5"), "second-hand"), (Fraction("19.5"), "memory")] == [
        (low, status) for low, _, status in _body("5X", "upper arm", "in")
    ]
    assert Fraction("49.5") == _body("5X", "upper arm", "cm")[0][0]


def test_faulty_neck_to_wrist_is_kept_as_published() -> None:
    """Woman XS: 26 to 26.5 in beside 66 to 68.5 cm."""
    inches = _body("XS", "center back neck to wrist", "in")[0][:2]
    centimetres = _body("XS", "center back neck to wrist", "cm")[0][:2]
    assert (Fraction(26), Fraction("26.5")) == inches
    assert (Fraction(66), Fraction("68.5")) == centimetres


def test_identical_rows_of_the_large_sizes_are_kept_as_published() -> None:
    """Woman 2X to 5X: cross back, back waist length and arm length are the same in each size."""
    for size in ("2X", "3X", "4X", "5X"):
        rows = [
            _body(size, measurement, "in")[0][:2]
            for measurement in ("cross back", "back waist length", "arm length to underarm")
        ]
        assert 1 == len(set(rows))


@pytest.mark.parametrize(
    ("name", "number"), [("fine", 2), ("Super Fine", 1), ("sport", 2), ("DK", 3), ("jumbo", 7)]
)
def test_yarn_weights_are_found_by_name_or_type(name: str, number: int) -> None:
    """Fine is a category, sport a type of yarn within it."""
    weight = standards.yarn_weight(name)
    assert weight is not None
    assert number == weight.number


def test_unknown_yarn_weight_is_none() -> None:
    """A word that is in no table is not guessed at."""
    assert standards.yarn_weight("fluffy") is None


def test_editions_of_super_bulky_disagree() -> None:
    """Category 6 is kept in every edition."""
    ranges = {weight.sc for weight in standards.yarn_weights() if weight.number == 6}
    assert {(6, 9), (5, 9), (7, 9)} == ranges


def test_chart_takes_the_published_value_before_the_recalled_one() -> None:
    """Woman 5X: of 18.5 in, published, and 19.5 in, recalled, the chart has the first."""
    women = standards.body_chart("women")
    assert women is not None
    found = women.value("upper arm", "5X", "in")
    assert found is not None
    assert (Fraction("18.5"), Fraction("18.5")) == found.span


def test_faults_of_a_chart_are_told_by_value() -> None:
    """A fault concerns the sizes and measurements that it names, and no other."""
    women = standards.body_chart("women")
    assert women is not None
    assert ["woman 5X upper arm"] == [one.where for one in women.faults_of("upper arm", "5X")]
    assert () == women.faults_of("upper arm", "4X")


def test_faults_of_a_chart_name_values_that_it_holds() -> None:
    """A fault that named a line which is not there would never be told."""
    for name in standards.CHARTS:
        chart = standards.body_chart(name)
        assert chart is not None
        for fault in chart.faults:
            assert set(fault.measurements) <= set(chart.measurements())
            assert set(fault.sizes) <= set(chart.sizes)


def test_retailers_waist_and_hip_are_named_as_such() -> None:
    """The standard gives letters a bust; the waist of the same letters is a retailer's."""
    letters = standards.body_chart("letters women")
    assert letters is not None
    assert [True, False] == [bool(letters.faults_of(one, "M")) for one in ("waist", "bust")]
    assert 10 == len(letters.sizes)


def test_fits_of_the_current_list() -> None:
    """Five fits, closest first; the last is open above."""
    current = [one for one in standards.fits() if one.edition == "current"]
    assert list(standards.FIT_NAMES) == [one.name for one in current]
    assert None is current[-1].high()
