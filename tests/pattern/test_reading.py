"""Words typed by their place: lengths, numbers, lists by size, times, dates, addresses."""

from __future__ import annotations

from fractions import Fraction

import pytest

from tests.support.reading import added, changed, good, one, placed
from workeven.arithmetic.formulas import read as formula
from workeven.pattern import ComputedCount, ListedCount

ONE_SIZE = ("sizes:\n  names: S (M, L)\n", "")


# --- single values -------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("written", "mm"),
    [("10 cm", 100), ("4 in", Fraction(508, 5)), ("3 1/2 in", Fraction(889, 10))],
)
def test_a_length_is_exact_millimetres(written: str, mm: Fraction) -> None:
    """An inch is 25.4 mm (international yard and pound agreement, 1959)."""
    gauge = good(changed(("over: 10 cm", f"over: {written}"))).gauges[0]
    assert (mm, written) == (gauge.over, gauge.over_text)


def test_stitches_of_a_gauge_may_be_a_fraction() -> None:
    """Seventeen and a half stitches are counted often enough."""
    gauge = good(changed(("sts: 16", "sts: 17½"))).gauges[0]
    assert Fraction(35, 2) == gauge.sts


@pytest.mark.parametrize(
    ("old", "new", "expected"),
    [
        ("over: 10 cm", "over: 10 furlongs", ("unit-length", 8, 40)),
        ("over: 10 cm", "over: '10  zz'", ("unit-length", 8, 42)),
        ("over: 10 cm", "over: 10", ("unit-length", 8, 37)),
        ("over: 10 cm", "over: 10 g", ("unit-length", 8, 40)),
        ("mass: 5 g", "mass: 5 cm", ("unit-mass", 13, 13)),
        ("mass: 5 g", "mass: 1/0 g", ("unit-mass", 13, 11)),
        ("sts: 16", "sts: many", ("unit-number", 8, 17)),
        ("sts: 16", "sts: 16 sts", ("unit-number", 8, 20)),
        ("use: [home]", "use: [home]\nmargin: 10", ("unit-number", 5, 9)),
        ("use: [home]", "use: [home]\nmargin: 200 %", ("unit-number", 5, 9)),
        ("use: [home]", "use: [home]\ntolerance: 1,5 cm", ("unit-length", 5, 12)),
    ],
)
def test_what_cannot_be_read_is_shown_at_its_characters(
    old: str, new: str, expected: tuple[str, int, int]
) -> None:
    """The column is that of the wrong words, not of the line."""
    assert [expected] == placed(changed((old, new)))


def test_a_comma_asks_which_number_was_meant() -> None:
    """The whole message."""
    problem = one(added("tolerance: 1,5 cm"))
    assert "`1,5 cm` has a comma inside the number." == problem.found
    assert "Was `1.5 cm` meant? Write it with a point, or in full." == problem.mend


@pytest.mark.parametrize(
    ("written", "expected"), [("10 %", Fraction(1, 10)), ("7.5%", Fraction(3, 40)), ("0 %", 0)]
)
def test_a_margin_is_a_fraction_of_one(written: str, expected: Fraction) -> None:
    """Percent, with or without a blank before the sign."""
    assert expected == good(added(f"margin: {written}")).margin


def test_a_tenth_is_added_where_no_margin_is_said() -> None:
    """Common practice."""
    assert Fraction(1, 10) == good(added("")).margin


@pytest.mark.parametrize("date", ["2026-02-30", "26-05-01", "2026-5-1", "1.5.2026", "tomorrow"])
def test_a_day_that_is_none_is_refused(date: str) -> None:
    """The calendar decides, not the look."""
    assert [("file-date", 25, 12)] == placed(added(f"published: {date}"))


def test_a_day_stays_as_it_is_written() -> None:
    """YAML would make an object of it."""
    assert "2026-05-01" == good(added("published: 2026-05-01")).published


@pytest.mark.parametrize(
    ("written", "seconds"), [("7:40", 460), ("0:05", 5), ("21:30", 1290), ("1:07:40", 4060)]
)
def test_a_time_of_the_film_is_seconds(written: str, seconds: int) -> None:
    """In YAML itself 7:40 would be 460 for another reason, and 1:07:40 too."""
    video = good(added(f"video: {{url: https://video.example/x, length: {written}}}")).video
    assert video is not None
    assert seconds == video.length


@pytest.mark.parametrize("written", ["7.40", "7:4", "7:60", "740", "1:60:00", "seven"])
def test_a_time_that_is_none_is_refused(written: str) -> None:
    """Minutes and two figures of seconds."""
    text = added(f"video: {{url: https://video.example/x, length: '{written}'}}")
    assert [("video-time", 25, 47)] == placed(text)


@pytest.mark.parametrize(
    "address",
    [
        "javascript:alert(1)",
        "//video.example/x",
        "data:text/html,x",
        "video.example/x y",
        "https://",
        "https://video.example:99999/",
        "https://video.example/<x>",
        "ftp://video.example/x",
        "about.md",
    ],
)
def test_a_film_is_on_the_web(address: str) -> None:
    """Whatever else begins like an address is refused."""
    assert [("link-address", 25, 14)] == placed(added(f'video: {{url: "{address}"}}'))


# --- lists by size -------------------------------------------------------------------------


@pytest.mark.parametrize(
    "written",
    ["6 (7, 8)", "[6, 7, 8]", "6 (7) (8)", "'6 (7, 8)'", "\n    - 6\n    - 7\n    - 8"],
)
def test_a_list_by_size_may_be_the_trades_or_yamls(written: str) -> None:
    """The same three values."""
    count = good(added(f"counts:\n  thumb: {written}")).counts[0]
    assert isinstance(count, ListedCount)
    assert (6, 7, 8) == count.values.values


def test_one_value_is_that_of_all_sizes() -> None:
    """And needs no brackets."""
    count = good(added("counts:\n  thumb: 6")).counts[0]
    assert isinstance(count, ListedCount)
    assert (6, 6, 6) == count.values.values


def test_a_dash_is_none_of_them() -> None:
    """A size that leaves a step out (notation.md, "Sizes")."""
    count = good(added("counts:\n  thumb: 6 (–, 8)")).counts[0]
    assert isinstance(count, ListedCount)
    assert (6, 0, 8) == count.values.values


def test_a_list_of_the_wrong_length_names_the_sizes() -> None:
    """The whole message."""
    problem = one(added("counts:\n  thumb: 6 (7)"))
    assert "`counts.thumb` has 2 values, and there are 3 sizes." == problem.found
    assert "One value for all sizes, or one each for S, M and L." == problem.expected
    assert "Write 1 more, or write a single one for all sizes." == problem.mend
    assert ("size-list", 26, 10) == (problem.code, problem.span.line, problem.span.column)


@pytest.mark.parametrize(
    ("lines", "expected"),
    [
        ("counts:\n  thumb: 6 (7, 8, 9)", ("size-list", 26, 10)),
        ("counts:\n  thumb: [6, 7]", ("size-list", 26, 10)),
        ("measurements:\n  width: 10 (12) cm", ("size-list", 26, 10)),
        ("measurements:\n  width: [10 cm, 12 cm]", ("size-list", 26, 10)),
        ("counts:\n  thumb: 6 (7, 8", ("size-brackets", 26, 12)),
        ("counts:\n  thumb: 6, 7, 8", ("size-brackets", 26, 11)),
        ("counts:\n  thumb: 6 (7, x)", ("unit-number", 26, 16)),
        ("counts:\n  thumb: 6 (7, 8.5)", ("unit-number", 26, 16)),
        ("counts:\n  thumb: [6, x, 8]", ("unit-number", 26, 14)),
        ("measurements:\n  width: 10 (12, 14) furlongs", ("unit-length", 26, 22)),
        ("measurements:\n  width: 10 (12, 14)", ("unit-length", 26, 10)),
    ],
)
def test_what_is_wrong_in_a_list_is_shown_at_its_place(
    lines: str, expected: tuple[str, int, int]
) -> None:
    """Too few, too many, no brackets, one that is no number, a unit."""
    assert [expected] == placed(added(lines))


def test_a_pattern_without_sizes_has_one() -> None:
    """A list of several values is then too long."""
    text = changed(ONE_SIZE)
    assert ("One size",) == good(text).sizes.names
    assert [("size-list", 24, 10)] == placed(f"{text}counts:\n  thumb: 6 (7, 8)\n")


@pytest.mark.parametrize(
    ("names", "expected"),
    [
        ("S (M, L", ("size-brackets", 6, 12)),
        ("S (M, M)", ("size-twice", 6, 10)),
        (f"S ({', '.join(f'S{n}' for n in range(24))})", ("size-too-many", 6, 10)),
    ],
)
def test_names_of_sizes_that_cannot_be_used(names: str, expected: tuple[str, int, int]) -> None:
    """One message, though every list in the file hangs on them."""
    text = changed(("S (M, L)", names))
    assert [expected] == placed(f"{text}counts:\n  thumb: 6 (7)\n")


def test_nine_sizes_in_two_brackets_are_one_list() -> None:
    """As the trade sets them (notation.md, "Sizes")."""
    text = changed(("S (M, L)", "XS (S, M, L, XL) (2X, 3X, 4X, 5X)"))
    assert ("XS", "S", "M", "L", "XL", "2X", "3X", "4X", "5X") == good(text).sizes.names


# --- measurements --------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("written", "expected"),
    [
        ("10 cm", ("10 cm", "10 cm", "10 cm")),
        ("10 (12, 14) cm", ("10 cm", "12 cm", "14 cm")),
        ("10 cm (12 cm, 14 cm)", ("10 cm", "12 cm", "14 cm")),
        ("10 (12, 14 cm)", ("10 cm", "12 cm", "14 cm")),
        ("3-1/2 (4, 4½) in", ("3 1/2 in", "4 in", "4½ in")),
        ("6-1/2 in", ("6 1/2 in", "6 1/2 in", "6 1/2 in")),
        ("hand - 1.5 cm", ("hand - 1.5 cm",) * 3),
        ("max(hand, 2 cm)", ("max(hand, 2 cm)",) * 3),
        ("[hand - 1 cm, hand, 12 cm]", ("hand - 1 cm", "hand", "12 cm")),
    ],
)
def test_a_measurement_is_a_list_or_a_formula(written: str, expected: tuple[str, ...]) -> None:
    """Each size has a formula of its own, with its unit."""
    text = changed(("S (M, L)", "S (M, L)\n  to_fit:\n    hand: 18 (20, 22) cm"))
    found = good(f"{text}measurements:\n  width: {written}\n").measurements[0].formula
    assert tuple(map(formula, expected)) == found.values


@pytest.mark.parametrize(
    ("written", "expected"),
    [
        ("2 * (10 cm", ("unit-formula", 26, 14)),
        ("hand -", ("unit-formula", 26, 16)),
        ("1,5 cm", ("unit-length", 26, 10)),
        ("10", ("unit-length", 26, 10)),
        ("10 furlongs", ("unit-length", 26, 13)),
    ],
)
def test_a_measurement_that_cannot_be_read(written: str, expected: tuple[str, int, int]) -> None:
    """A length is a fault of a length, a formula one of a formula."""
    assert [expected] == placed(added(f"measurements:\n  width: {written}"))


# --- counts --------------------------------------------------------------------------------


def test_a_computed_count_has_its_rule() -> None:
    """What is not said is what is usual."""
    lines = (
        "measurements:\n  width: 10 cm\ncounts:\n  sts: {across: width, multiple: 6, plus: 1}\n"
        "  rows:\n    along: width\n    gauge: ground\n    multiple: 2 (3, 4)\n"
        "    parity: even\n    round: up\n    at_least: 4\n    at_most: 40 (50, 60)\n"
    )
    sts, rows = good(added(lines)).counts
    assert isinstance(sts, ComputedCount)
    assert isinstance(rows, ComputedCount)
    assert ("width", None, "ground", (6, 6, 6), (1, 1, 1), "any", "nearest", None) == (
        sts.across, sts.along, sts.gauge, sts.multiple.values, sts.plus.values, sts.parity,
        sts.round, sts.at_least,
    )  # fmt: skip
    assert rows.at_least is not None
    assert rows.at_most is not None
    assert (None, "width", (2, 3, 4), "even", "up", (4, 4, 4), (40, 50, 60)) == (
        rows.across, rows.along, rows.multiple.values, rows.parity, rows.round,
        rows.at_least.values, rows.at_most.values,
    )  # fmt: skip


@pytest.mark.parametrize(
    ("count", "found"),
    [
        ("{multiple: 6}", "`counts.sts` does not say what it is counted from."),
        ("{across: width, is: 2 * a}", "`counts.sts` is said twice: by `across` and `is`."),
        ("{is: 2 * a, multiple: 6}", "`multiple` has no meaning beside `is` in `counts.sts`."),
        ("{listed: 6, at_most: 6}", "`at_most` has no meaning beside `listed` in `counts.sts`."),
    ],
)
def test_a_count_says_once_what_it_is_counted_from(count: str, found: str) -> None:
    """None, two, and a key that would be passed over."""
    problem = one(added(f"counts:\n  sts: {count}"))
    assert ("count-basis", found) == (problem.code, problem.found)


def test_a_listed_count_may_say_what_it_is_held_against() -> None:
    """The designer's own numbers, checked against a width."""
    count = good(added("counts:\n  sts:\n    listed: 6 (7, 8)\n    across: width")).counts[0]
    assert isinstance(count, ListedCount)
    assert ((6, 7, 8), "width") == (count.values.values, count.across)


def test_among_several_gauges_a_count_names_its_own() -> None:
    """With one gauge there is nothing to choose."""
    text = changed(("of: sc}", "of: sc}\n  lace: {sts: 12, over: 10 cm, of: dc}"))
    problem = one(f"{text}counts:\n  sts: {{across: width}}\n")
    said = "`counts.sts` needs `gauge`: the gauge in which it is counted, such as `ground`."
    assert ("file-key-missing", said) == (problem.code, problem.found)


@pytest.mark.parametrize("name", ["max", "round_to", "cm", "in", "yd"])
def test_a_name_that_formulas_read_otherwise_is_refused(name: str) -> None:
    """Functions and units."""
    assert [("name-reserved", 26, 3)] == placed(added(f"measurements:\n  {name}: 10 cm"))
