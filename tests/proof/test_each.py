"""Steps that take "each": how much room they have, and what they leave to the steps behind them.

Numbers are worked out by hand from notation.md, the table of steps.
"""

from __future__ import annotations

import pytest

from workeven.proof import counting

Answer = tuple[int | None, list[str]]


def counted(text: str, start: str, worked: str = "flat rows") -> Answer:
    """The stitches of the last row, and the codes of all problems."""
    found = counting.count(text, worked=worked, start=start)
    assert found.value is not None
    return found.value.rows[-1].sts[0], [one.code for one in found.problems]


def test_a_slip_stitch_that_evens_a_spiral_takes_no_stitch() -> None:
    """By the notation one that evens the end of a spiral is not counted."""
    row = "sc in each st around, sl st in next st"
    assert counted(row, "24 sc", "spiral rounds") == (24, [])


def test_each_stops_where_exactly_the_last_ones_are_left() -> None:
    """Of five stitches two are worked, the last three are left, and none is between them."""
    row = "sc in next 2 sts, sc in each st to last 3 sts, leave rem sts unworked, turn"
    assert counted(row, "5 sc") == (2, [])


def test_each_needs_the_last_ones_to_be_there() -> None:
    """Of four stitches two are worked, and two are not the last three."""
    row = "sc in next 2 sts, sc in each st to last 3 sts, leave rem sts unworked, turn"
    assert counted(row, "4 sc") == (2, ["row-uneven"])


def test_of_two_names_both_must_be_there() -> None:
    """Where the other spaces would be passed over unseen."""
    row = "sc in each dc and in each {} sp across, turn"
    assert counted(row.format("ch-1"), "5 dc, 4 ch-1 sps") == (9, [])
    assert counted(row.format("ch-2"), "5 dc, 4 ch-1 sps")[1] == ["row-no-such-place"]


@pytest.mark.parametrize(("before", "codes"), [(2, ["row-uneven"]), (3, []), (5, [])])
def test_each_stops_short_of_a_marker(before: int, codes: list[str]) -> None:
    """Three stitches are kept in front of it, if there are three."""
    turned = 8 - before
    rows = (
        f"sc in next {turned} sts, place marker, sc in each st across, turn\n"
        "sc in each st to 3 sts before marker, sc in each st across, turn"
    )
    assert counted(rows, "8 sc") == (8, codes)


@pytest.mark.parametrize(
    ("row", "start", "sts"),
    [
        ("sc2tog across, turn", "8 sc", 4),
        ("sc3tog in each st across, turn", "9 sc", 3),
        ("sc 1, (sc2tog) across, turn", "9 sc", 5),
    ],
)
def test_a_decrease_across_takes_all_its_legs(row: str, start: str, sts: int) -> None:
    """It comes out where they divide."""
    assert counted(row, start) == (sts, [])


@pytest.mark.parametrize(
    ("row", "start"),
    [("sc2tog across, turn", "9 sc"), ("sc3tog in each st across, turn", "10 sc")],
)
def test_a_leg_left_over_is_told(row: str, start: str) -> None:
    """One stitch too many."""
    assert counted(row, start)[1] == ["row-uneven"]


def test_each_leaves_the_turning_chain_to_the_step_that_names_it() -> None:
    """Of 20 dc the last is the chain: one stands over the first, 18 follow, two go into it."""
    rows = (
        "ch 22\ndc in 4th ch from hook, dc in each ch across, turn\n"
        "ch 3, dc in each dc across, 2 dc in top of tch, turn"
    )
    found = counting.count(rows).value
    assert found is not None
    assert found.rows[-1].sts == (21,)


def told(text: str, start: str, worked: str = "flat rows") -> list[tuple[str, str]]:
    """The problems of a text: code and what was found."""
    found = counting.count(text, worked=worked, start=start)
    return [(one.code, one.found) for one in found.problems]


def test_each_of_a_name_that_is_nowhere_says_what_is_there() -> None:
    """A row of sc has no spaces."""
    assert told("2 sc in each ch-2 sp across, turn", "9 sc") == [
        ("row-no-such-place", "there is no ch-2 sp in the row before: there are 9 sc.")
    ]


def test_each_up_to_a_name_that_is_nowhere_says_what_is_there() -> None:
    """A row of sc has no spaces to stop at."""
    assert told("sc in each sc to next ch-2 sp, sc in next st, turn", "9 sc") == [
        ("row-no-such-place", "there is no ch-2 sp in the row before: there are 9 sc.")
    ]


@pytest.mark.parametrize(
    ("row", "sts"),
    [
        ("*sc in next 2 sts, inc; rep from * across, sc in next 2 sts, turn", 14),
        ("*sc in next 2 sts, sk 1 st; rep from * across, sc in last 2 sts, turn", 8),
        ("*sc in next 2 sts; rep from * across, sk next st, sc2tog, turn", 9),
        ("*sc in next 2 sts; rep from * across, (sc in next st) 3 times, turn", 11),
        ("*sc in next 2 sts; rep from * across, dec, sc in next st, turn", 10),
        ("*sc in next 2 sts; rep from * across, sc 3, turn", 11),
        ("*sc in next 2 sts; rep from * across, inc in last st, turn", 12),
    ],
)
def test_an_open_repeat_leaves_what_the_steps_behind_it_need(row: str, sts: int) -> None:
    """Over eleven stitches there is one number of repeats with which each of these comes out."""
    assert counted(row, "11 sc") == (sts, [])


# --- what a step needs ---------------------------------------------------------------------

#: what stands behind a repeat of four over any stitches, and how many stitches it takes
BEHIND = [
    ("sc 3", 3),
    ("sc in next 2 sts", 2),
    ("sc in last 2 sts", 2),
    ("sk 2 sts, sc in next st", 3),
    ("sk last 3 sts", 3),
    ("inc", 1),
    ("inc 3", 3),
    ("inc in last st", 1),
    ("inc in next 2 sts", 2),
    ("dec", 2),
    ("dec twice", 4),
    ("sc2tog twice", 4),
    ("dc3tog", 3),
    ("(sc in next st) 3 times", 3),
    ("[sc 1, inc] twice", 4),
    ("[sc 1, sk 1] 3 times", 6),
    ("*sc 1, sk 1; rep from * once more, sc 1", 5),
    ("2 dc in next st", 1),
    ("(dc, ch 1, dc) in next st, sc 1", 2),
    ("V-st in next st, sk 2 sts", 3),
    ("triple, sc 1", 4),
    ("cross", 2),
    ("2 cross", 4),
    ("cross twice", 4),
    ("V-st", 1),
    ("open", 3),
    ("fpdc around next st 2 rows below, sk next st behind it, sc 2", 3),
    ("sc in next st 1 row below, sc 1", 2),
]
STITCHES = (
    "V-st = (dc, ch 1, dc) in same st",
    "triple = dc3tog over next 3 sts",
    "cross = sk 1 st, dc in next st, dc in skipped st",
    "open = ch 2, sk 2 sts, dc in next st",
)


@pytest.mark.parametrize(("behind", "needed"), BEHIND)
@pytest.mark.parametrize("start", [13, 14])
def test_a_repeat_says_what_is_needed_after_it(behind: str, needed: int, start: int) -> None:
    """Of 13 or 14 stitches the needed ones are kept; of the others, four a repeat are used."""
    row = f"*sc in next 4 sts; rep from * across, {behind}, turn"
    repeats, left = divmod(start - needed, 4)
    found = counting.count(row, start=f"{start} sc", stitches=STITCHES)
    used = f"{repeats} repeats use" if repeats > 1 else "1 repeat uses"
    are = "st is" if needed == 1 else "sts are"
    over = "1 st is" if left == 1 else f"{left} sts are"
    expected = (
        f"The repeat takes 4 sts: {used} {4 * repeats}, {needed} {are} needed after "
        f"and {over} left over."
    )
    assert [one.expected for one in found.problems] == ([expected] if left else [])


@pytest.mark.parametrize(
    "behind",
    [
        "sk 0 (2) sts",
        "sk next 0 (2) sts",
        "sc in next 0 (2) sts",
        "sc in last 0 (2) sts",
        "inc in next 0 (2) sts",
        "dec 0 (1) times",
        "[sc 1, inc] 0 (1) times",
    ],
)
def test_what_a_size_leaves_out_needs_nothing(behind: str) -> None:
    """13 = 3 x 4 + 1 in the first size, 15 = 3 x 4 + 2 + 1 in the second."""
    row = f"*sc in next 4 sts; rep from * across, {behind}, turn"
    (problem,) = counting.count(row, start="13 (15) sc").problems
    assert problem.expected == (
        "The repeat takes 4 sts: in size 1, 3 repeats use 12 and 1 st is left over; "
        "in size 2, 3 repeats use 12, 2 sts are needed after and 1 st is left over."
    )


@pytest.mark.parametrize("behind", ["sk next ch-1 sp, ", "sc in next ch-1 sp, "])
def test_a_space_is_none_of_the_stitches_that_are_needed(behind: str) -> None:
    """13 dc and a space behind them: 2 x 4 + 2 dc, and three too many."""
    row = f"*sc in next 4 dc; rep from * across, {behind}sc in next 2 dc, turn"
    (problem,) = counting.count(row, start="13 dc, 1 ch-1 sp").problems
    assert problem.expected == (
        "The repeat takes 4 dc: 2 repeats use 8, 2 dc are needed after and 3 dc are left over."
    )


@pytest.mark.parametrize("behind", ["inc in last 12 sts", "inc in next 12 sts", "inc 12"])
def test_many_increases_behind_an_open_repeat_have_their_stitches(behind: str) -> None:
    """Of 20 the repeat takes 8, one by one: 8 + 2 x 12 = 32."""
    row = f"*dc in next st, ch 1; rep from * across, {behind}, turn"
    assert counted(row, "20 sc") == (32, [])


def test_a_slip_stitch_that_evens_a_spiral_needs_no_stitch() -> None:
    """14 = 3 x 4 + 2; a stitch in its place would leave one."""
    row = "*sc in next 4 sts; rep from * around, {} in next st"
    expected = []
    for stitch in ("sl st", "sc"):
        found = counting.count(row.format(stitch), worked="spiral rounds", start="14 sc")
        expected += [one.expected for one in found.problems]
    assert expected == [
        "The repeat takes 4 sts: 3 repeats use 12 and 2 sts are left over.",
        "The repeat takes 4 sts: 3 repeats use 12, 1 st is needed after and 1 st is left over.",
    ]


# --- limits --------------------------------------------------------------------------------

#: nine stitches to five sc with a space between each two of them
MESH = "sc in next st, [ch 1, sk 1 st, sc in next st] 4 times, turn\n"
#: 19 dc, the last of which is the turning chain when the work is turned
TURNED = (
    "ch 21\ndc in 4th ch from hook (skipped 3 chs count as dc), dc in each ch across, turn\nch 3, "
)


@pytest.mark.parametrize(
    ("row", "sts"),
    [
        ("sc in each ch-1 sp to last 2 sc", 3),  # three spaces before the fourth sc
        ("sc in each sc to last 2 ch-1 sps", 3),  # three sc before the third space
        ("sc in each sc and in each ch-1 sp to last 2 sc", 6),  # and both
        ("sc in each sc to last 2 sc", 3),
        ("sc in each ch-1 sp to last ch-1 sp", 3),
    ],
)
def test_each_of_one_name_may_stop_before_another(row: str, sts: int) -> None:
    """sc, sp, sc, sp, sc, sp, sc, sp, sc."""
    assert counted(f"{MESH}{row}, leave rem sts unworked, turn", "9 sc") == (sts, [])


@pytest.mark.parametrize(
    ("row", "made"),
    [("sc in each sc", [{"sc": 5}, {"sc": 3}]),
     ("*sc in next sc, ch 1; rep from *", [{"sc": 5, "ch-1 sp": 5}, {"sc": 3, "ch-1 sp": 3}])],
)  # fmt: skip
def test_a_limit_of_none_in_a_size_is_the_end(row: str, made: list[dict[str, int]]) -> None:
    """Five sc in the first size, 5 - 2 in the second."""
    rows = f"{MESH}{row} to last 0 (2) sc, sk next 0 (2) sc, turn"
    found = counting.count(rows, start="9 (9) sc")
    assert found.value is not None
    assert [dict(one or ()) for one in found.value.rows[-1].makes] == made


def test_both_names_stop_before_the_last_ones_of_one() -> None:
    """Of 3 sc there are no last 4."""
    rows = "sc in next st, [ch 1, sk 1 st, sc in next st] twice, turn\n"
    row = "sc in each sc and in each ch-1 sp to last 4 sc, leave rem sts unworked, turn"
    found = counting.count(f"{rows}{row}", start="5 sc").problems
    assert [(one.expected or one.found, dict(one.figures)) for one in found] == [
        (
            "The last 4 sc are to be left and there are only 3.",
            {"needed": ("4",), "left": ("3",)},
        )
    ]


@pytest.mark.parametrize(
    ("row", "sts"),
    [
        # the chain stands over the first of 19, the last is the turning chain
        ("dc in each st to last st before turning ch, sk 1 st, dc in top of tch, turn", 18),
        (("dc in each dc to last 2 dc before turning ch, 2 dc in each of next 2 dc, "
         "dc in top of tch, turn"), 21),
        (("*dc in next 4 sts; rep from * to last st before turning ch, sk 1 st, "
         "dc in top of tch, turn"), 18),
    ],
)  # fmt: skip
def test_a_limit_before_the_turning_chain_leaves_it_too(row: str, sts: int) -> None:
    """1 + 16 + 1; 1 + 15 + 4 + 1; 1 + 4 x 4 + 1."""
    found = counting.count(f"{TURNED}{row}")
    assert found.value is not None
    assert (found.value.rows[-1].sts, found.problems) == ((sts,), ())


def test_a_limit_before_the_turning_chain_leaves_a_stitch() -> None:
    """It is not skipped, and so there when the chain is due."""
    row = "dc in each st to last st before turning ch, dc in top of tch, turn"
    assert [one.found for one in counting.count(f"{TURNED}{row}").problems] == [
        "the row before leaves 19 sts."
    ]


@pytest.mark.parametrize(
    ("marked", "row", "sts"),
    [
        (7, "*sc in next 2 sts; rep from * to 1 st before marker, inc", 15),
        (6, "*sc in next 2 sts; rep from * to 2 sts before marker, inc", 15),
        (7, "*sc in next 2 sts; rep from * to 3 sts before marker, inc, sc 1", 15),
    ],
)
def test_a_repeat_stops_short_of_a_marker(marked: int, row: str, sts: int) -> None:
    """14 stitches, of which 7 or 8 are in front of the marker when the work is turned."""
    rows = f"sc in next {marked} sts, place marker, sc in each st across, turn\n{row}"
    assert counted(f"{rows}, sc in each st across, turn", "14 sc") == (sts, [])


def test_no_stitch_before_a_marker_is_up_to_it() -> None:
    """In the second size one is kept for the decrease; in both it takes two."""
    rows = (
        "sc in next 6 sts, place marker, sc in each st across, turn\n"
        "sc in each st to 0 (1) sts before marker, sc2tog, sc in each st across, turn"
    )
    found = counting.count(rows, start="14 (14) sc")
    assert found.value is not None
    before = [dict(made or ()) for made in found.value.rows[-1].makes]
    assert (found.problems, before) == ((), [{"sc": 12, "sc2tog": 1}] * 2)


@pytest.mark.parametrize(
    ("marked", "left", "verb", "only"),
    [("sc in next 7 sts, place marker, sc in next st", 3, "3 sts are", 1),
     ("sc in each st across, place marker in last st", 1, "1 st is", 0)],
)  # fmt: skip
def test_stopping_short_needs_the_stitches(marked: str, left: int, verb: str, only: int) -> None:
    """Of eight stitches one, or none, is in front of the marker when the work is turned."""
    to = f"{left} st{'s' if left > 1 else ''} before marker"
    rows = f"{marked}, turn\nsc in each st to {to}, sc in each st across, turn"
    (problem,) = counting.count(rows, start="8 sc").problems
    sentence = problem.expected or problem.found
    assert sentence == f"{verb} to be left before it and there are only {only}."
    assert dict(problem.figures) == {"needed": (str(left),), "left": (str(only),)}


# --- where there is nothing to take --------------------------------------------------------


@pytest.mark.parametrize(
    "row",
    [
        "sc in each st across",
        "sc in each dc and in each ch-1 sp across",
    ],
)
def test_before_the_first_row_there_is_nothing(row: str) -> None:
    """Not even one stitch."""
    (problem,) = counting.count(row).problems
    needed = (problem.expected or problem.found).partition(" needed")[0]
    assert (problem.code, needed[:1], dict(problem.figures)["left"]) == ("row-uneven", "1", ("0",))


def test_a_ring_has_no_each() -> None:
    """Neither one made of chains nor a magic one; the words of the step are marked."""
    for ring in ("magic ring", "ch 4, join to form ring"):
        found = counting.count(f"{ring}\nsc in each st around, join", worked="joined rounds")
        assert [(one.code, one.span.column, one.span.end_column) for one in found.problems] == [
            ("row-open-ring", 1, 21)
        ]


@pytest.mark.parametrize(("start", "of"), [(10, "1 st is"), (11, "2 sts are")])
def test_a_decrease_in_each_says_what_is_left(start: int, of: str) -> None:
    """3 x 3 = 9 of 10 or 11."""
    (problem,) = counting.count("sc3tog in each st across, turn", start=f"{start} sc").problems
    assert problem.expected == f"Each takes 3 sts: 3 of them use 9 and {of} left over."
    assert dict(problem.figures) == {"takes": ("3",), "left_over": (str(start - 9),)}


# --- where the hook stands behind it -------------------------------------------------------


@pytest.mark.parametrize(("again", "sts"), [("sc", 10), ("2 sc", 11)])
def test_same_stitch_behind_each_takes_none(again: str, sts: int) -> None:
    """Over nine dc with eight spaces: 7 in each, one or two in the last of them, 2 in the last."""
    mesh = "dc in next st, [ch 1, sk 1 st, dc in next st] 8 times, turn\n"
    row = f"sc in each dc to last 2 dc, {again} in same st, sc in last 2 dc, turn"
    assert counted(f"{mesh}{row}", "17 sc") == (sts, [])


def test_the_first_stitch_is_not_under_the_chain_once_each_is_worked() -> None:
    """After ``dc in each st to last st`` one is left, and "first st" is behind the hook."""
    row = "ch 3 (counts as dc), dc in each st to last st, sk first st, 2 dc in last st, turn"
    assert counted(row, "10 dc")[1] == ["row-uneven"]


def test_several_kinds_of_places_leave_a_space_of_which_nothing_is_said() -> None:
    """What the page tells a row is worked into: the three kinds, and not the spaces it passes."""
    rows = (
        "ch 1, *sc in next st, hdc in next st, dc in next st, ch 1; rep from * across, turn\n"
        "ch 1, sc in each sc, hdc in each hdc, dc in each dc across, turn"
    )
    checked = counting.count(rows, start="12 sc")
    assert checked.value is not None
    (into,) = checked.value.rows[1].into
    assert into is not None
    assert {"sc": 4, "hdc": 4, "dc": 4} == dict(into.places)
