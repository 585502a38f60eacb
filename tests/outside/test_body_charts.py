"""Body charts, and the sizes of the demo's garment held against them."""

from __future__ import annotations

from fractions import Fraction
from pathlib import Path

import pytest
import yaml

from workeven import standards
from workeven.arithmetic.quantities import by_size, lengths

ROOT = Path(__file__).parents[2]
TEE = ROOT / "patterns" / "groynemark-tee" / "pattern.yaml"

#: Bust girth of women in cm. Citation: the letter table of EN 13402-3 as transcribed in
#: https://en.wikipedia.org/wiki/Joint_European_standard_for_size_labelling_of_clothes
EN_BUST = {
    "XXS": (66, 74),
    "XS": (74, 82),
    "S": (82, 90),
    "M": (90, 98),
    "L": (98, 107),
    "XL": (107, 119),
    "XXL": (119, 131),
    "3XL": (131, 143),
    "4XL": (143, 155),
    "5XL": (155, 167),
}
#: How the garment's sizes are lettered in EN 13402-3.
EN_LETTERS = {"2X": "XXL", "3X": "3XL", "4X": "4XL", "5X": "5XL"}


def test_table_of_letters_is_that_of_the_standard() -> None:
    """Bands of 8 cm, then of 9, then of 12, each beginning where the one before ends."""
    women = {row.code: row for row in standards.letter_sizes() if row.group == "women"}
    assert EN_BUST == {code: (int(row.low_cm), int(row.high_cm)) for code, row in women.items()}
    bands = list(women.values())
    assert [row.high_cm for row in bands[:-1]] == [row.low_cm for row in bands[1:]]


def _chart(name: str) -> standards.BodyChart:
    found = standards.body_chart(name)
    assert found is not None
    return found


def _tee() -> dict[str, dict[str, Fraction]]:
    """Body measurements of the garment in mm, by name and size, as its file gives them."""
    sizes = yaml.load(TEE.read_text("utf-8"), yaml.BaseLoader)["sizes"]  # noqa: S506, text only
    names = [name for name, _ in by_size(sizes["names"])]
    return {
        name: dict(zip(names, lengths(text), strict=True)) for name, text in sizes["to_fit"].items()
    }


def test_bust_of_the_tee_lies_within_the_standard_letters() -> None:
    """Each of the nine sizes fits a bust that EN 13402-3 gives the same letter."""
    for size, bust in _tee()["bust"].items():
        low, high = EN_BUST[EN_LETTERS.get(size, size)]
        assert low * 10 <= bust <= high * 10, size


def test_bust_of_the_tee_lies_within_the_women_chart() -> None:
    """The published chart for women, XS to 5X, in its centimetres.

    The bust of the tee goes by steps of its own, 10 cm, so that each is a multiple of its waves.
    Citation: https://www.craftyarncouncil.com/standards/woman-size (second-hand)
    """
    published = {
        row.size: (row.low * 10, row.high * 10)
        for row in _chart("women").values
        if row.measurement == "bust" and row.unit == "cm"
    }
    sizes = _tee()["bust"]
    assert list(published) == list(sizes)
    for size, mm in sizes.items():
        assert published[size][0] <= mm <= published[size][1], size


#: Published lines, low and high by size, read from the charts' pages in transcription.
#: Citation: https://www.craftyarncouncil.com/standards/ (woman-size, man-size, child-youth-sizes,
#: baby-size-chart, head-circumference-chart; second-hand)
PUBLISHED = [
    ("women", "bust", "in", "28-30 32-34 36-38 40-42 44-46 48-50 52-54 56-58 60-62"),
    (
        "women",
        "bust",
        "cm",
        "71-76 81-86 91.5-96.5 101.5-106.5 111.5-117 122-127 132-137 142-147 152-158",
    ),
    ("women", "hip", "in", "33-34 35-36 38-40 42-44 46-48 52-53 54-55 56-57 61-62"),
    ("men", "chest", "in", "34-36 38-40 42-44 46-48 50-52 54-56 58-60 62-64"),
    (
        "men",
        "chest",
        "cm",
        "86-91.5 96.5-101.5 106.5-111.5 116.5-122 127-132 137-142 147.5-152 157.5-162.5",
    ),
    ("men", "arm length to underarm", "cm", "45.5 47 49.5 50.5 52 52 49.5 53.5-54.5"),
    ("children", "chest", "in", "21 23 25 26.5 28"),
    ("children", "chest", "cm", "53 58.5 63.5 67 71"),
    ("youth", "chest", "cm", "76 80 82.5"),
    ("babies", "chest", "in", "16 17 18 19 20"),
    ("babies", "hip", "cm", "48 50.5 50.5 53.5 56"),
    ("head", "head circumference", "in", "9-12 14-16 16-18 18-20 20-22 21-23 22-24"),
    ("head", "head circumference", "cm", "23-30.5 35.5-40.5 40.5-46 45.5-51 51-56 53-58.5 56-61"),
]


@pytest.mark.parametrize(("name", "measurement", "unit", "line"), PUBLISHED)
def test_charts_hold_the_published_lines(
    name: str, measurement: str, unit: standards.Unit, line: str
) -> None:
    """A line of a chart, from its smallest size to its largest."""
    chart = _chart(name)
    found = [chart.value(measurement, size, unit) for size in chart.sizes]
    ranges = [tuple(map(Fraction, one.split("-"))) for one in line.split()]
    assert [(low[0], low[-1]) for low in ranges] == [one.span for one in found if one]


#: What the columns of a chart disagree on: size, measurement.
DISAGREE = {
    "women": {("XS", "center back neck to wrist"), ("5X", "upper arm")},
}


@pytest.mark.parametrize("name", ["women", "men", "children", "youth", "babies", "head"])
def test_inches_and_centimetres_disagree_only_where_a_fault_is_named(name: str) -> None:
    """Each pair of figures is one length to a centimetre, but for the faults that are named."""
    chart, apart = _chart(name), set()
    for measurement in chart.measurements():
        for size in chart.sizes:
            inches, cm = (chart.value(measurement, size, unit) for unit in ("in", "cm"))
            if inches is None or cm is None:
                continue
            pairs = zip(inches.span, cm.span, strict=True)
            if any(abs(one * Fraction("2.54") - other) >= 1 for one, other in pairs):
                apart.add((size, measurement))
    named = {one for one in apart if chart.faults_of(one[1], one[0])}
    assert DISAGREE.get(name, set()) == apart == named


def test_letters_overlap_only_at_their_ends() -> None:
    """Women's and men's bands of EN 13402-3 each begin where the one before ends."""
    for group in ("women", "men"):
        bands = [row for row in standards.letter_sizes() if row.group == group]
        assert [row.high_cm for row in bands[:-1]] == [row.low_cm for row in bands[1:]]


@pytest.mark.parametrize(("name", "measurement"), [("women", "bust"), ("men", "chest")])
def test_sizes_of_the_trade_overlap_the_same_letters(name: str, measurement: str) -> None:
    """What a size fits overlaps what EN 13402-3 gives its letter; 2X is XXL there, 3X is 3XL."""
    trade, letters = _chart(name), _chart(f"letters {name}")
    off = set()
    for size in trade.sizes:
        body = trade.value(measurement, size, "cm")
        letter = letters.value(measurement, standards.LETTERS.get(size, size), "cm")
        assert body is not None
        assert letter is not None
        if not (body.low < letter.high and letter.low < body.high):
            off.add(size)
    assert set() == off
