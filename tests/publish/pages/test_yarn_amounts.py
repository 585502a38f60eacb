"""The amounts to shop from, as strings of the page."""

from __future__ import annotations

from fractions import Fraction

from tests.publish.samples import YARN, mitts
from tests.support import pattern_files
from tests.support.as_read import as_read
from tests.yarn.test_printed import IN_A, ROWS, STRIPES, TWO, checked
from workeven.arithmetic.quantities import decimal
from workeven.pipeline import ReadyPattern
from workeven.publish.pages.views import Table
from workeven.publish.pages.yarn_amounts import AmountsView, amounts, amounts_note
from workeven.records import replace
from workeven.yarn import YarnNeeds

ALSO = "put_up: {length: 100 m, mass: 50 g}, also: [{label: Big, length: 250 m, mass: 125 g}]}"


def cells(table: Table | None, row: int) -> tuple[str, tuple[tuple[str, ...], ...]]:
    """A row of a table, its unbreakable spaces made plain."""
    assert table is not None
    head, lines = table.rows[row]
    return head, as_read(tuple(tuple(one.replace("\u00a0", " ") for one in cell) for cell in lines))


def scarf(listed: str = "main: 2 (5) balls", rows: str = ROWS, **changes: str) -> AmountsView:
    """What the page says of the yarn of the scarf."""
    outcome = checked(f"  {listed}", rows, **changes)
    assert outcome.ready is not None, outcome.problems
    (shown,) = amounts(outcome.ready)
    return shown


def without_list(ready: ReadyPattern) -> ReadyPattern:
    """The same, and the designer says nothing of amounts."""
    return replace(ready, pattern=replace(ready.pattern, amounts=()))


def test_yarn_is_rounded_up() -> None:
    """90.1 m are 91 m and, being 98.53 yd, 99 yd."""
    (shown,) = amounts(mitts())
    assert shown.table.heads == ("Size", "Balls", "Length", "Mass")
    assert cells(shown.table, 0) == ("S", (("1",), ("91 m", "99 yd"), ("29 g", "1.1 oz")))


def test_the_caption_says_what_a_ball_is() -> None:
    """Balls of another size are others."""
    caption = as_read(scarf().table.caption).replace("\u00a0", " ")
    assert caption == "Yarn to buy, in balls of 100 m / 110 yd, 50 g"


def test_amounts_say_that_they_are_estimates() -> None:
    """With the margin in metres: 433.7 m, of which an eleventh is margin."""
    assert as_read(scarf().rest[0]) == (
        "An estimate, with 10 % to spare (in L 40 m / 44 yd of the 434 m / 475 yd) for hands "
        "that work more loosely than ours."
    )


def test_several_yarns_have_a_table_each() -> None:
    """A maker buys each of them, and its name stands above."""
    ready = mitts()
    need, edge = ready.yarn.needs[0], replace(YARN, name="edge", label="Kelp")
    pattern = replace(ready.pattern, yarns=(need.yarn, edge))
    other = replace(need, yarn=edge)
    shown = amounts(replace(ready, pattern=pattern, yarn=YarnNeeds(needs=(need, other))))
    assert [one.table.caption.split(":")[0] for one in shown] == [
        "Sanderling Sport (invented)",
        "Kelp",
    ]


def test_the_designers_list_stands_first() -> None:
    """And what is computed beside it."""
    shown = scarf("main: 3 (6) balls")
    assert shown.table.heads == ("Size", "Designer’s list (computed)", "Length", "Mass")
    assert cells(shown.table, 1) == (
        "L",
        (("6 balls", "(5 balls)"), ("434 m", "475 yd"), ("217 g", "7.7 oz")),
    )


def test_without_an_estimate_the_designers_list_is_there() -> None:
    """Metres get their yards."""
    shown = scarf("main: 210 (430) m", swatch="")
    assert shown.table.heads == ("Size", "Designer’s list")
    assert cells(shown.table, 0) == ("S", (("210 m", "230 yd"),))
    assert shown.rest == ("The designer’s list. Nothing is computed beside it.",)


def test_a_yarn_without_an_amount_says_why() -> None:
    """A maker must not think that none is needed."""
    outcome = checked("  main: 210 (430) m", swatch="")
    assert outcome.ready is not None
    assert amounts_note(outcome.ready) == "Main yarn: no swatch of it was weighed."
    assert amounts(without_list(outcome.ready)) == ()


def test_colours_have_a_column_each() -> None:
    """Balls are bought of each."""
    shown = scarf("main: 3 (6) balls", STRIPES, put_up=TWO, chain=IN_A)
    assert shown.table.heads == ("Size", "A", "B", "All colours")
    _, (a, b, both) = cells(shown.table, 0)
    assert (a[0], b[0], both[:2]) == ("1 ball", "2 balls", ("3 balls", "(3 balls)"))


def test_in_one_size_every_colour_has_a_line() -> None:
    """A phone is narrow; the first row alone is in A."""
    one = {"sizes": "  names: One", "chain": "          with A, ch 21", "height": "height: 40 cm"}
    shown = scarf("main: 3 balls", STRIPES, put_up=TWO, **one)
    assert shown.table.heads == ("Colour", "Designer’s list (computed)", "Length", "Mass")
    assert [(head, row[0]) for head, row in shown.table.rows] == [
        ("A", ("1",)),
        ("B", ("2",)),
        ("All colours", ("3\u00a0balls", "(3\u00a0balls)")),
    ]


def test_other_put_ups_are_in_a_table() -> None:
    """213 m is a ball of 250 m, 474 yd are 434 m, two of them."""
    shown = scarf(put_up=ALSO)
    assert shown.others is not None
    assert as_read(shown.others.heads[1]).replace("\u00a0", " ") == "Big, 250 m / 274 yd, 125 g"
    assert [cells(shown.others, at)[1] for at in (0, 1)] == [(("1",),), (("2",),)]


def test_any_other_yarn_has_its_rule_with_a_worked_line() -> None:
    """The numbers are those of this yarn: 22 / 20 of 217 g."""
    put_up, swatch = as_read(scarf().substitutes)
    assert put_up.endswith("in L 434 m / 475 yd are 3 balls of 150 m / 165 yd.")
    assert "Ours weighs 20 g. If yours weighs 22 g" in swatch
    assert "1.1 times ours: in L 239 g for 217 g." in swatch


def test_a_longer_piece_has_its_metres_and_yards() -> None:
    """24.14 m for 5 cm (the sum by hand is in test_longer), and 26.82 yd for 2 in."""
    shown = scarf()
    assert shown.longer is not None
    assert shown.longer.heads == ("Size", "Half: height")
    assert cells(shown.longer, 0) == ("S", (("25 m", "27 yd"),))


def test_strands_held_together_are_all_counted() -> None:
    """A maker need not double."""
    held = "put_up: {length: 100 m, mass: 50 g}, held: 2}"
    assert "All 2 strands are in it." in scarf(put_up=held).rest


def test_the_rule_for_other_balls_is_worked_in_one_colour() -> None:
    """Balls of two colours cannot be added up from their length together."""
    rule = as_read(scarf("main: 3 (6) balls", STRIPES, put_up=TWO, chain=IN_A).substitutes[0])
    assert rule.endswith(
        "in L 7 m / 8 yd of A are 1 ball of 150 m / 165 yd. Count each colour by itself."
    ), rule


def test_a_piece_with_two_lengths_is_made_longer_in_one_of_them() -> None:
    """Five centimetres more in either column, not in both."""
    again = ROWS + ROWS.replace("{height}", "{height + 10 cm}")
    notes = scarf("main: 3 (7) balls", again).longer_notes
    assert "Half may be made longer in either place: choose one of them." in notes
    assert "choose" not in " ".join(scarf().longer_notes)


def test_a_longer_piece_has_its_metres_of_each_colour() -> None:
    """All of these rows are in B: only B is bought for them."""
    shown = scarf("main: 3 (6) balls", STRIPES, put_up=TWO, chain=IN_A)
    assert cells(shown.longer, 0) == ("S", (("25 m / 27 yd B",),))
    assert "Each colour goes on as in the rows that are there." in shown.longer_notes


def test_own_gauge_has_its_rule_where_samples_stand_for_a_swatch() -> None:
    """A hundred of the stitch are weighed then, with what a chain takes left out."""
    text = pattern_files.GOOD
    swatch = text[text.index("swatches:") : text.index("measurements:")]
    text = text.replace(swatch, "samples:\n  - {size: M, used: {main: 30 g}}\n")
    found = pattern_files.outcome(text).ready
    assert found is not None
    (shown,) = amounts(found)
    rates = {line.title: line.each for line in found.yarn.needs[0].lines}
    ours = decimal(100 * (rates["sc"] or Fraction(0)), 2)
    assert f"100 sc of ours weigh {ours} g. If 100 of yours weigh" in shown.substitutes[1]
