"""What steps make: stitches, spaces, groups and the yarn that goes into them, counted by hand."""

from __future__ import annotations

import pytest

from workeven.notation.tree import Amount, Chain, CountsAs, Foundation, Picot, Stitch
from workeven.proof import counting
from workeven.proof.context import SizeContext
from workeven.proof.fabric import Run
from workeven.proof.making import (
    Made,
    chain_between,
    make,
    make_foundation,
    make_picot,
    stand_for,
)

ONE_SIZE = SizeContext(index=0, sizes=1)
V_STITCH = ("V-st = (dc, ch 1, dc) in same st",)
V_ROUND = (
    "ch 4 (counts as dc and ch 1), dc in same st, sk 1 st, *V-st in next st, sk 1 st; "
    "rep from * around, join"
)


def made_by(text: str, start: str, worked: str = "flat rows", **more: tuple[str, ...]) -> object:
    """What the last row of a text makes; its problems, if there are any."""
    found = counting.count(text, worked=worked, start=start, stitches=more.get("stitches", ()))
    assert found.value is not None
    if found.problems:
        return [one.code for one in found.problems]
    return dict(found.value.rows[-1].makes[0] or ())


def test_a_picot_takes_yarn_and_leaves_no_place() -> None:
    """Three chains and a slip stitch."""
    made = Made(ONE_SIZE)
    make_picot(made, Picot(Amount((3,))))
    assert (made.worked, made.makes, made.sts) == ({"ch": 3, "sl st": 1}, {"picot": 1}, 0)


def test_picots_in_a_group_take_yarn_as_often_as_the_group_is_made() -> None:
    """Four times a sc and a picot of three chains."""
    made = Made(ONE_SIZE)
    make(made, (Stitch("sc"), Picot(Amount((3,)))), 4)
    assert (made.worked, made.sts) == ({"sc": 4, "ch": 12, "sl st": 4}, 4)


def test_a_foundation_row_is_yarn_and_stitches() -> None:
    """Forty fsc, which are worked as such and can be worked into."""
    made = Made(ONE_SIZE)
    make_foundation(made, Foundation("fsc", Amount((40,))))
    assert (made.worked, made.sts) == ({"fsc": 40}, 40)


def test_a_chain_between_steps_is_yarn_and_one_space() -> None:
    """Five chains."""
    made = Made(ONE_SIZE)
    chain_between(made, Chain(Amount((5,))), 5)
    assert (made.worked, made.makes) == ({"ch": 5}, {"ch-5 sp": 1})


GROUPS = (
    "ch 3 (counts as dc), 4 dc in same st, sk 2 sts, *5 dc in next st, sk 2 sts; "
    "rep from * around, join"
)


@pytest.mark.parametrize(
    ("stated", "told"),
    [
        ("4 groups", {"dc": 20}),
        ("4 shells", {"dc": 20}),
        ("5 groups", ["count-stated"]),
        ("3 shells", ["count-stated"]),
    ],
)
def test_a_group_that_begins_with_a_chain_is_one(stated: str, told: object) -> None:
    """The chain and four dc are a group of five, as the three others are."""
    assert made_by(f"{GROUPS} ({stated})", "12 sc", "joined rounds") == told


def test_a_chain_in_a_group_that_does_not_count_leaves_no_space() -> None:
    """Two dc in each of four stitches, and nothing between them."""
    row = "*(dc, ch 1 (does not count as st), dc) in next st, sk 1 st; rep from * across, turn"
    assert made_by(row, "8 sc") == {"dc": 8}


def test_a_chain_between_steps_may_stand_for_a_stitch_and_a_space() -> None:
    """As one at the head of a row does."""
    row = "sc in next 3 sts, ch 5 (counts as dc and ch 2), sk 1 st, sc in each st across, turn"
    assert made_by(row, "9 sc") == {"sc": 8, "dc": 1, "ch-2 sp": 1}


def test_chains_that_count_as_stitches_count_one_each() -> None:
    """Three chains are not two stitches."""
    row = "dc in next st, ch 3 (counts as {} sts), sk 3 sts, dc in each st across, turn"
    assert made_by(row.format(2), "9 dc") == ["row-chains-counted"]
    assert made_by(row.format(3), "9 dc") == {"dc": 6, "ch": 3}


@pytest.mark.parametrize(("stated", "told"), [(8, {"dc": 16, "ch-1 sp": 8}), (9, ["count-stated"])])
def test_a_special_stitch_that_begins_with_a_chain_is_one(stated: int, told: object) -> None:
    """The first V-st is the chain and the dc in the same place: eight over sixteen stitches."""
    row = f"{V_ROUND} ({stated} V-sts)"
    assert made_by(row, "16 sc", "joined rounds", stitches=V_STITCH) == told


def test_the_first_special_stitch_is_found_as_the_others_are() -> None:
    """Eight groups of three: one in the first V-st's space, seven in the middle of the others."""
    rows = (
        f"{V_ROUND}\nsl st to next ch-1 sp, ch 3 (counts as dc), 2 dc in same sp, "
        "*3 dc in center of next V-st; rep from * around, join"
    )
    assert made_by(rows, "16 sc", "joined rounds", stitches=V_STITCH) == {"dc": 24}


def test_what_lies_before_a_space_is_counted_by_its_name() -> None:
    """Two of five dc are worked into, three passed; of sc there are three before the space."""
    rows = (
        "dc in next 5 sts, sc in next 3 sts, ch 2, sk 2 sts, dc in each st across, do not turn\n"
        "sc in next 2 dc, sc in each sc to next ch-2 sp, 2 sc in ch-2 sp, sc in each st across"
    )
    assert made_by(rows, "14 sc") == {"sc": 11}


# --- chains that count as stitches ---------------------------------------------------------

EACH_CHAIN = "each ch counts as a st"


def left_by(made: Made) -> list[tuple[str, str, int]]:
    """The places in order: name, basic stitch, how many."""
    runs = [node for node in made.out.nodes if isinstance(node, Run)]
    return [(run.place.name, run.place.base, run.count) for run in runs]


def test_each_chain_of_a_group_may_be_a_stitch() -> None:
    """Three times a dc, two chains and a dc: 6 dc and 6 chains, all of them stitches."""
    made = Made(SizeContext(index=0, sizes=1, each_chain_counts=True))
    make(made, (Stitch("dc"), Chain(Amount((2,))), Stitch("dc")), 3)
    counts = {"dc": 6, "ch": 6}
    assert (made.worked, made.makes, made.sts) == (counts, counts, 12)


def test_the_chains_of_a_group_are_yarn_also_where_they_are_a_space() -> None:
    """Three times a dc, two chains and a dc: 6 chains in 3 spaces."""
    made = Made(ONE_SIZE)
    make(made, (Stitch("dc"), Chain(Amount((2,))), Stitch("dc")), 3)
    assert (made.worked, made.makes) == ({"dc": 6, "ch": 6}, {"dc": 6, "ch-2 sp": 3})


def test_each_chain_that_counts_is_a_place_called_chain() -> None:
    """A chain of five at the start that stands for a dc and two chains, then three chains."""
    made = Made(SizeContext(index=0, sizes=1, each_chain_counts=True))
    stand_for(made, CountsAs(((Amount((1,)), "dc"),), Amount((2,))), 5, None)
    chain_between(made, Chain(Amount((3,))), 3)
    assert (left_by(made), made.makes) == ([("dc", "dc", 1), ("ch", "ch", 5)], {"dc": 1, "ch": 5})


def test_a_chain_that_stands_for_chains_has_them_as_a_space() -> None:
    """As long as the piece does not count each."""
    made = Made(ONE_SIZE)
    stand_for(made, CountsAs(((Amount((1,)), "dc"),), Amount((2,))), 5, None)
    assert (left_by(made), made.makes) == (
        [("dc", "dc", 1), ("ch-2 sp", "sp", 1)],
        {"dc": 1, "ch-2 sp": 1},
    )


@pytest.mark.parametrize(
    ("rows", "start", "sts"),
    [
        # 10 dc: the chain is a dc and 2, then 2 chains and a dc for three each: 1 + 2 + 1 + 3 + 3
        (("ch 5 (counts as dc and ch 2), sk 2 sts, dc in next st, "
         "*ch 2, sk 2 sts, dc in next st; rep from * across, turn\n"
         "sc in each dc and in each ch across, turn"), "10 dc", 10),
        # of 8 dc two groups of dc, 2 chains, dc
        (("*(dc, ch 2, dc) in next st, sk 3 sts; rep from * across, turn\n"
         "sc in each st across, turn"), "8 dc", 8),
    ],
)  # fmt: skip
def test_rows_of_chains_that_count_are_worked_stitch_by_stitch(
    rows: str, start: str, sts: int
) -> None:
    """Said once for the piece."""
    assert made_by(rows, start, stitches=(EACH_CHAIN,)) == {"sc": sts}


@pytest.mark.parametrize(("name", "base"), [(None, "st"), ("dc", "dc")])
def test_a_chain_said_to_count_is_the_stitch_of_its_row(name: str | None, base: str) -> None:
    """Counting as st, it is of the kind that follows; where nothing does, simply a stitch."""
    made = Made(ONE_SIZE)
    stand_for(made, CountsAs(((Amount((1,)), "st"),)), 3, name)
    assert made.makes == {base: 1}


@pytest.mark.parametrize(
    ("row", "made"),
    [
        ("sc in next 3 sts, ch 2 (counts as 0 (2) sts), sk 0 (2) sts, sc in each st across, turn",
         [{"sc": 9}, {"sc": 7, "ch": 2}]),
        ("(sc, ch 2, 0 (1) dc) in next st, sc in each st across, turn",
         [{"sc": 9, "ch-2 sp": 1}, {"sc": 9, "dc": 1, "ch-2 sp": 1}]),
        ("(sc, [ch 1, dc] 0 (2) times) in next st, sc in each st across, turn",
         [{"sc": 9}, {"sc": 9, "dc": 2, "ch-1 sp": 2}]),
        ("ch 3 (counts as 0 (1) dc), dc in each st across, turn", [{"dc": 8}, {"dc": 9}]),
    ],
)  # fmt: skip
def test_what_a_size_leaves_out_is_not_made(row: str, made: list[dict[str, int]]) -> None:
    """Nine stitches in both sizes; the 0 leaves the part out in the first."""
    found = counting.count(row, start="9 (9) sc")
    assert found.value is not None
    assert [dict(one or ()) for one in found.value.rows[-1].makes] == made


# --- picots and the chains beside them -----------------------------------------------------


@pytest.mark.parametrize("picot", ["p", "picot", "ch 3, sl st in 3rd ch from hook"])
def test_chains_on_both_sides_of_a_picot_are_two_spaces(picot: str) -> None:
    """In each of six groups of four dc, by whatever name the picot goes."""
    rows = (
        f"*(2 dc, ch 1, {picot}, ch 1, 2 dc) in next st, sk 1 st; rep from * around, join\n"
        "*sc in next ch-1 sp; rep from * around"
    )
    stitches = ("p = ch 3, sl st in first ch",)
    assert made_by(rows, "12 sc", "joined rounds", stitches=stitches) == {"sc": 12}


@pytest.mark.parametrize(
    ("group", "picots"), [("sc, p, sc", 6), ("sc, p, p, sc", 12), ("sc, 2 p, sc", 12)]
)
def test_a_picot_under_its_own_name_is_a_picot(group: str, picots: int) -> None:
    """12 ÷ 2 = 6 groups of two sc."""
    row = f"*({group}) in next st, sk 1 st; rep from * around, join ({picots} picots)"
    stitches = ("p = ch 3, sl st in first ch",)
    expected = {"sc": 12, "picot": picots}
    assert made_by(row, "12 sc", "joined rounds", stitches=stitches) == expected


@pytest.mark.parametrize(
    ("row", "space", "sts"),
    [
        # a group that begins with a chain, behind a chain: one space of two chains, six times
        ("*sc in next st, ch 1, (ch 1, dc) in next st; rep from * around, join", "ch-2 sp", 6),
        ("*(2 dc, ch 1, ch 1, 2 dc) in next st, sk 1 st; rep from * around, join", "ch-2 sp", 6),
        ("*(2 dc, ch 1, dc, ch 1, 2 dc) in next st, sk 1 st; rep from * around, join", "ch-1 sp",
         12),
    ],
)  # fmt: skip
def test_chains_that_nothing_parts_are_one_space(row: str, space: str, sts: int) -> None:
    """Of twelve stitches every second has a group."""
    rows = f"{row}\n*sc in next {space}; rep from * around"
    assert made_by(rows, "12 sc", "joined rounds") == {"sc": sts}


# --- groups --------------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("row", "groups"),
    [
        ("*2 dc in next st, sk 1 st; rep from * around, join", 6),
        ("*(dc, ch 1, dc) in next st, sk 1 st; rep from * around, join", 6),
        # the first is the chain and what is worked in the same stitch
        (("ch 3 (counts as dc), dc in same st, sk 1 st, "
         "*2 dc in next st, sk 1 st; rep from * around, join"), 6),
        (("ch 3 (counts as dc), 2 dc in same st, sk 1 st, "
         "*3 dc in next st, sk 1 st; rep from * around, join"), 6),
        (("ch 3 (counts as dc), 3 dc in same st, sk 1 st, "
         "*3 dc in next st, sk 1 st; rep from * around, join"), 6),
        # one stitch is no group, whatever chains stand beside it
        ("*(dc, ch 1) in next st, sk 1 st; rep from * around, join", None),
    ],
)  # fmt: skip
def test_two_stitches_in_one_place_are_a_group(row: str, groups: int | None) -> None:
    """In every second of twelve stitches."""
    told = []
    for stated in (6, 7):
        found = counting.count(f"{row} ({stated} groups)", worked="joined rounds", start="12 sc")
        told += [(one.code, dict(one.figures).get("made")) for one in found.problems]
    right = [("count-stated", (str(groups),))]
    assert told == (right if groups else [("count-unit", None)] * 2)


V_BEGUN = "ch {} in same st, {}, *V-st in next st, {}; rep from * around, join"


@pytest.mark.parametrize(
    ("begun", "between", "stated", "told"),
    [
        # 16 stitches: 8 V-sts, the first begun with the chain
        ("4 (counts as dc and ch 1), dc", "sk 1 st", "8 V-sts, 0 dc", []),
        ("4 (counts as dc and ch 1), dc", "dc in next st", "8 V-sts, 8 dc", []),
        ("4 (counts as dc and ch 1), dc", "dc in next st", "8 V-sts, 9 dc", ["count-stated"]),
        # of another space, or of other stitches, it is none
        ("5 (counts as dc and ch 2), dc", "sk 1 st", "7 V-sts", []),
        ("5 (counts as dc and ch 2), dc", "sk 1 st", "8 V-sts", ["count-stated"]),
        ("3 (counts as hdc and ch 1), hdc", "sk 1 st", "7 V-sts", []),
        ("3 (counts as hdc and ch 1), hdc", "sk 1 st", "8 V-sts", ["count-stated"]),
    ],
)
def test_a_special_stitch_begun_with_a_chain_is_like_the_others(
    begun: str, between: str, stated: str, told: list[str]
) -> None:
    """With a stitch between them, the stitches beside are as many as the V-sts."""
    row = f"{V_BEGUN.format(begun, between, between)} ({stated})"
    found = counting.count(row, worked="joined rounds", start="16 sc", stitches=V_STITCH)
    assert [one.code for one in found.problems] == told


def test_two_special_stitches_in_one_place_are_two() -> None:
    """Of 16 stitches four have 2 V-sts or, around a space, V-sts on both sides."""
    for inside, sts in (("2 V-sts", 24), ("(V-st, ch 2, V-st)", 24)):
        rows = (
            f"*{inside} in next st, sk 3 sts; rep from * around, join (8 V-sts)\n"
            "*3 dc in center of next V-st; rep from * around, join"
        )
        made = made_by(rows, "16 sc", "joined rounds", stitches=V_STITCH)
        assert made == {"dc": sts}


@pytest.mark.parametrize(("beside", "told"), [("3 dc", []), ("4 dc", []), ("5 dc", ["5"])])
def test_one_special_stitch_has_one_of_a_kind(beside: str, told: list[str]) -> None:
    """Four dc in all, one of them in the V-st of a dc and a tr: three are beside it."""
    row = f"V-st in next st, dc in next 3 sts, tr in next 2 sts, turn (1 V-st, {beside})"
    stitches = ("V-st = (dc, ch 1, tr) in same st",)
    found = counting.count(row, start="6 sc", stitches=stitches)
    assert [dict(one.figures)["stated"][0] for one in found.problems] == told
