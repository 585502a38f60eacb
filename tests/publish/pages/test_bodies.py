"""What a page says of the body: both units as the chart has them, and the ease that is left."""

from __future__ import annotations

from tests.support.as_read import as_read
from tests.support.bands import band, made
from workeven.pipeline import ReadyPattern
from workeven.publish.downloads import sizes_csv
from workeven.publish.pages import bodies
from workeven.publish.pages.views import Table


def ready(*sizes: str, around: str = "bust + bust_ease") -> ReadyPattern:
    """A band that is fit to publish."""
    found = made(band(*sizes, around=around)).ready
    assert found is not None
    return found


def column(table: Table | None, at: int = 0) -> list[tuple[str, ...]]:
    """A column of a table, its unbreakable spaces made plain."""
    assert table is not None
    return [
        as_read(tuple(one.replace("\u00a0", " ") for one in cells[at])) for _, cells in table.rows
    ]


CHART = ("names: S (M, XL)", "chart: women", "fit: classic fit")


def test_ranges_are_printed_as_published_in_each_unit() -> None:
    """XL is 111.5 to 117 cm and 44 to 46 in, which would be 116.84: neither is made of the other.

    Citation: https://www.craftyarncouncil.com/standards/woman-size (second-hand)
    """
    assert [
        ("81–86 cm", "32–34 in"),
        ("91.5–96.5 cm", "36–38 in"),
        ("111.5–117 cm", "44–46 in"),
    ] == column(bodies.to_fit(ready(*CHART)))


def test_own_value_is_printed_instead() -> None:
    """In both units, from the exact length, with its reason in the notes."""
    own = ready(*CHART, "instead:", "  bust:", "    M: {is: 95 cm, because: measured.}")
    assert ("95 cm", "37½ in") == column(bodies.to_fit(own))[1]
    assert "Bust in M is our own: measured." in as_read(bodies.notes(own))


def test_unit_that_the_chart_lacks_is_made_from_its_exact_figures() -> None:
    """The letters of EN 13402-3 are in centimetres alone: 90 cm are 35.4 in, 98 are 38.6."""
    letters = ready("names: [M]", "chart: letters women", around="bust + 8 cm")
    assert [("90–98 cm", "35½–38½ in")] == column(bodies.to_fit(letters))


def test_page_says_which_end_of_a_range_is_used() -> None:
    """Once, for all sizes, with the unit."""
    told = bodies.notes(ready(*CHART, "of_range: high"))
    assert (
        "Where the chart gives a range, the pattern is worked out from the high end of it, in "
        "every size, in centimetres." in told
    )


def test_page_says_how_the_figures_were_come_by() -> None:
    """The men's waist is recalled, and said to be."""
    men = ready("names: S (M)", "chart: men", "from_chart: waist", around="waist + 4 cm")
    assert "recalled and not looked up" in bodies.notes(men)[0]


def test_fault_is_printed_with_the_value_used() -> None:
    """A maker is told as the designer was."""
    large = ready("names: 4X (5X)", "chart: women", around="upper_arm + 4 cm")
    assert (
        "Upper arm, a known fault of the chart in 5X (49.5 cm is used): 18.5 in stands beside "
        "49.5 cm, which is 19.5 in." in as_read(bodies.notes(large))
    )


def test_chart_of_children_keeps_the_caution() -> None:
    """A body chart makes no garment safe."""
    small = ready("names: 2 (4)", "chart: children", around="chest + 5 cm")
    assert any("no garment safe for a child" in note for note in bodies.notes(small))


def test_ease_is_printed_in_words_and_in_both_units() -> None:
    """Positive, negative, none."""
    sizes = (
        "names: S (M, L)",
        "to_fit:",
        "  bust: 80 (90, 100) cm",
        "ease:",
        "  bust: 8.5 (-2, 0) cm",
    )
    assert [
        ("8.5 cm", "3¼ in", "positive ease"),
        ("2 cm", "¾ in", "negative ease"),
        ("no ease",),
    ] == (column(bodies.ease(ready(*sizes))))


def test_ease_table_names_body_and_finished() -> None:
    """So that neither is taken for the other."""
    table = bodies.ease(ready(*CHART))
    assert table is not None
    assert ("Size", "Bust (around)") == table.heads
    assert "Ease: finished less body" == table.caption


def test_size_table_holds_both_ends_of_a_range_as_published() -> None:
    """A line for each end and unit, and the ease."""
    lines = sizes_csv(ready(*CHART)).decode().splitlines()
    assert '"Bust, low",to fit,in,32,36,44' in lines
    assert '"Bust, high",to fit,cm,86,96.5,117' in lines
    assert any(line.startswith("Bust in around,ease,cm,") for line in lines)
