"""A studio's own body chart, read from its file."""

from __future__ import annotations

from fractions import Fraction
from pathlib import Path

import pytest

from tests.support.bands import band, made
from tests.support.pattern_files import GOOD
from workeven import pipeline, source
from workeven.arithmetic.units import CM
from workeven.pattern import parse_chart
from workeven.problems import Checked
from workeven.standards import BodyChart

CHART = """\
name: our women
citation: Forty women measured in our studio in 2026
sizes: S (M, L)
measurements:
  bust:
    cm: 82-90 (90 to 98, 98–107)
    in: 32¼-35½ (35½-38½, 38½-42) in
  upper arm:
    cm: 26 (28, -)
"""


def chart(text: str = CHART) -> Checked[BodyChart]:
    """The chart of a text."""
    read = source.read("patterns/our-chart.yaml", text.encode())
    assert read.value is not None
    return parse_chart(read.value)


def test_values_are_read_in_both_columns() -> None:
    """Ranges with a hyphen, a dash or "to"; neither column is made from the other."""
    found = chart().value
    assert found is not None
    cm = [found.value("bust", size, "cm") for size in found.sizes]
    assert [82, 90, 90, 98, 98, 107] == [end for one in cm if one for end in one.span]
    inches = found.value("bust", "M", "in")
    assert inches is not None
    assert (Fraction("35.5"), Fraction("38.5")) == inches.span


def test_dash_is_no_value() -> None:
    """The upper arm of L was not measured."""
    found = chart().value
    assert found is not None
    assert None is found.value("upper arm", "L", "cm")


def test_every_value_has_the_charts_citation() -> None:
    """Who measured whom stands with each value."""
    found = chart().value
    assert found is not None
    assert {"Forty women measured in our studio in 2026"} == {
        one.origin.citation for one in found.values
    }


@pytest.mark.parametrize(
    ("old", "new", "code", "sizes"),
    [
        ("90 to 98", "98 to 90", "chart-range", ("M",)),
        ("98–107", "36 in", "chart-unit-mixed", None),
        ("26 (28, -)", "26 (28)", "size-list", None),
        ("26 (28, -)", "26", "size-list", None),
        ("26 (28, -)", "26 (twenty, -)", "unit-length", None),
        ("26 (28, -)", "26 (28-29-30, -)", "unit-length", None),
        ("26 (28, -)", "26 (0, -)", "unit-length", None),
        ("26 (28, -)", "28 (26, -)", "size-falls", ("M",)),
        ("S (M, L)", "S (M, S)", "size-twice", None),
        ("32¼-35½ (", "33½-37½ (", "chart-units-differ", ("S",)),
        ("citation: Forty women measured in our studio in 2026\n", "", "file-key-missing", None),
    ],
)
def test_mistake_in_a_chart_is_told_once(
    old: str, new: str, code: str, sizes: tuple[str, ...] | None
) -> None:
    """One slip, one message, with the sizes it is in."""
    assert 1 == CHART.count(old)
    problems = chart(CHART.replace(old, new)).problems
    assert [(code, sizes)] == [(one.code, one.sizes) for one in problems]


@pytest.mark.parametrize("inches", ["32.5-35.75", "33-36", "32.25-35.5"])
def test_both_ways_of_converting_are_good(inches: str) -> None:
    """82 to 90 cm are 32.8 to 36 in by 2.5 and 32.3 to 35.4 in by 2.54, rounded or not."""
    wide = CHART.replace("in: 32¼-35½ (", f"in: {inches} (")
    assert [] == [one.code for one in chart(wide).problems]


def test_pattern_names_the_chart_of_its_studio() -> None:
    """The bust of S is the middle of 82 to 90 cm."""
    own = chart().value
    assert own is not None
    found = made(band("names: S (M)", "chart: our women"), charts=(own,))
    assert found.ready is not None
    assert [86, 94] == [mm / CM for mm in dict(found.ready.pattern.to_fit)["bust"]]


def _collection(place: Path, studio: str, **files: str) -> list[str]:
    """The codes that a collection of one pattern gives."""
    folder = place / "patterns"
    (folder / "sand-mat").mkdir(parents=True)
    (folder / "sand-mat" / "pattern.yaml").write_text(GOOD, encoding="utf-8")
    (folder / "studio.yaml").write_text(studio, encoding="utf-8")
    for name, text in files.items():
        (folder / f"{name.replace('_', '-')}.yaml").write_text(text, encoding="utf-8")
    return [one.code for one in pipeline.check(source.collect([str(folder)])).problems]


def test_chart_lies_beside_the_studios_file(tmp_path: Path) -> None:
    """It is no stranger there."""
    studio = "name: Dune Studio\ncharts: [our-chart.yaml]\n"
    assert [] == _collection(tmp_path, studio, our_chart=CHART)


def test_chart_that_is_named_and_not_there_is_told(tmp_path: Path) -> None:
    """With the place where it is named."""
    assert ["file-unreadable"] == _collection(
        tmp_path, "name: Dune Studio\ncharts: [our-chart.yaml]\n"
    )


@pytest.mark.parametrize("name", ["../our-chart.yaml", "/etc/chart.yaml", "our.yaml"])
def test_chart_cannot_lie_elsewhere(tmp_path: Path, name: str) -> None:
    """A studio's file leads nowhere out of its folder."""
    codes = _collection(tmp_path, f"name: Dune Studio\ncharts: [{name}]\n")
    assert 1 == len(codes)
    assert codes[0].startswith("file-")
    assert "file-unreadable" not in codes
