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


@pytest.mark.parametrize(("name", "chart"), [("bust", "bust"), ("upper arm", "upper_arm")])
def test_sizes_of_the_tee_lie_within_the_women_chart(name: str, chart: str) -> None:
    """The published chart for women, XS to 5X, in its centimetres.

    Citation: https://www.craftyarncouncil.com/standards/woman-size (second-hand)
    """
    published = {
        row.size: (row.low * 10, row.high * 10)
        for row in standards.body_women()
        if row.measurement == chart and row.unit == "cm"
    }
    sizes = _tee()[name]
    assert list(published) == list(sizes)
    for size, mm in sizes.items():
        assert published[size][0] <= mm <= published[size][1], size
