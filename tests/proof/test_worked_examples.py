"""The worked examples of the notation: counts after each row, and where a row fails."""

from __future__ import annotations

from dataclasses import dataclass

import pytest

from workeven.proof.counting import CountedText, count


@dataclass(frozen=True)
class Example:
    """Rows, how they are worked, and what is there after each of them.

    ``fails`` holds, for the last row, the sizes that do not come out (None: no size names).
    """

    number: int
    worked: str
    rows: tuple[str, ...]
    sts: tuple[tuple[int, ...], ...]
    last: dict[str, int] | None = None
    fails: tuple[str, ...] | bool | None = False
    start: str | None = None
    sizes: tuple[str, ...] | None = None
    stitches: tuple[str, ...] = ()
    good: tuple[int, ...] | None = None


SHELL_ROW = (
    "ch 1, sc in first st, *sk 2 sts, shell in next st, sk 2 sts, sc in next st; "
    "rep from * across, turn"
)
MESH = (
    "ch 4 (counts as dc and ch 1), {}, dc in next st, *ch 1, sk 1 st, dc in next st; "
    "rep from * across, turn"
)

EXAMPLES = (
    Example(
        1,
        "flat rows",
        (
            "ch 21",
            "sc in 2nd ch from hook and in each ch across, turn",
            "ch 1, sc in first 4 sts, [sc2tog, sc 2] 4 times, turn",
        ),
        ((21,), (20,), (16,)),
    ),
    Example(
        2,
        "flat rows",
        (
            "ch 22",
            "dc in 4th ch from hook (skipped 3 chs count as dc), dc in each ch across, turn",
            (
                "ch 3 (counts as dc), dc in each of next 3 sts, *sk 3 sts, 4 dc in next st; "
                "rep from * to last 4 sts, dc in each st across, turn"
            ),
        ),
        ((22,), (20,), (20,)),
    ),
    Example(
        3,
        "joined rounds",
        (
            "ch 48, join with sl st to first ch",
            (
                "ch 3 (counts as dc), 3 dc in same ch, *sk 3 chs, 4 dc in next ch; "
                "rep from * to last 3 chs, sk 3, join with sl st to top of beg ch-3"
            ),
        ),
        ((48,), (48,)),
    ),
    Example(
        4,
        "joined rounds",
        (
            "ch 1, [sc 7, sc2tog] around, join",
            "ch 1, [sc 6, sc2tog] around, join",
            (
                "ch 3 (counts as dc), 3 dc in same st, *sk 3 sts, 4 dc in next st; "
                "rep from * to last 3 sts, sk 3, join with sl st to top of beg ch-3"
            ),
        ),
        ((48,), (42,)),
        fails=None,
        start="54 dc",
    ),
    Example(
        5,
        "spiral rounds",
        (
            "magic ring, 6 sc in ring",
            "inc around",
            "[sc 1, inc] around",
            "[sc 2, inc] 6 times",
            "sc around",
        ),
        ((6,), (12,), (18,), (24,), (24,)),
    ),
    Example(
        6,
        "joined rounds",
        (
            "ch 4, join to form ring",
            (
                "ch 3 (counts as dc), 2 dc in ring, ch 2, *3 dc in ring, ch 2; "
                "rep from * 2 more times, join"
            ),
            (
                "sl st to next ch-2 sp, ch 3 (counts as dc), (2 dc, ch 2, 3 dc) in same sp, ch 1, "
                "*(3 dc, ch 2, 3 dc) in next ch-2 sp, ch 1; rep from * around, join"
            ),
        ),
        ((0,), (12,), (24,)),
        last={"dc": 24, "ch-2 sp": 4, "ch-1 sp": 4},
    ),
    Example(7, "flat rows", (MESH.format("sk 2 sts"),), (), fails=None, start="21 dc"),
    Example(
        7,
        "flat rows",
        (MESH.format("sk next st"),),
        ((11,),),
        last={"dc": 11, "ch-1 sp": 10},
        start="21 dc",
    ),
    Example(
        8,
        "flat rows",
        (SHELL_ROW,),
        (),
        fails=None,
        start="33 sc",
        stitches=("shell = 5 dc in same place",),
    ),
    Example(
        8,
        "flat rows",
        (SHELL_ROW,),
        ((31,),),
        last={"sc": 6, "dc": 25},
        start="31 sc",
        stitches=("shell = 5 dc in same place",),
    ),
    Example(
        9,
        "flat rows",
        (
            "ch 61 (67, 73)",
            "sc in 2nd ch from hook and in each ch across, turn (60, 66, 72 sc)",
            "ch 1, *sc 4, sc2tog; rep from * across, turn (50, 55, 60)",
            "ch 3 (counts as dc), *ch 1, sk 1 st, dc in next st; rep from * across",
        ),
        ((61, 67, 73), (60, 66, 72), (50, 55, 60)),
        fails=("S", "L"),
        sizes=("S", "M", "L"),
        good=(28, 27),
    ),
    Example(
        10,
        "joined rounds",
        ("sc around, dec 12 sts evenly, join",),
        ((58,),),
        last={"sc": 46, "sc2tog": 12},
        start="70 sc",
    ),
    Example(
        11,
        "flat rows",
        ("work 2 sc in side of each row",),
        ((48,),),
        last={"sc": 48},
        start="24 rows of dc",
    ),
    Example(
        12,
        "flat rows",
        ("ch 1, sc in each st to last 5 sts, leave rem sts unworked, turn",),
        ((35,),),
        start="40 sc",
    ),
    Example(
        13,
        "joined rounds, turned",
        (
            (
                "ch 3 (counts as dc), dc in each of next 2 sts, sk 1 st, "
                "*dc in each of next 3 sts, sk 1 st; "
                "rep from * around, join with sl st to top of beg ch-3, turn"
            ),
            (
                "ch 1, sc in same st as joining, sc in each st around, "
                "join with sl st to first sc, turn"
            ),
        ),
        ((18,), (18,)),
        start="24 dc",
    ),
)


def _counted(
    example: Example,
) -> tuple[CountedText, tuple[tuple[str, int, tuple[str, ...] | None], ...]]:
    checked = count(
        "\n".join(example.rows),
        worked=example.worked,
        start=example.start,
        sizes=example.sizes,
        stitches=example.stitches,
    )
    assert checked.value is not None
    return checked.value, tuple(
        (problem.code, problem.span.line, problem.sizes) for problem in checked.problems
    )


@pytest.mark.parametrize(
    "example", EXAMPLES, ids=lambda one: f"{one.number} from {one.start}: {one.rows[-1][:40]}"
)
def test_example_counts_as_the_notation_says(example: Example) -> None:
    """Every row of the notation's worked examples leaves the stitches printed beside it."""
    counted, problems = _counted(example)
    given = tuple(row.sts for row in counted.rows[: len(example.sts)])
    assert given == example.sts
    if example.fails is False:
        assert problems == ()
    else:
        assert problems == (("row-uneven", len(example.rows), example.fails),)
    if example.last is not None:
        made = counted.rows[-1].makes[0]
        assert made is not None
        assert dict(made) == example.last


def test_the_size_that_comes_out_is_counted() -> None:
    """Where S and L of example 9 fail, M has its 28 dc and 27 spaces."""
    example = next(one for one in EXAMPLES if one.number == 9)
    counted, _ = _counted(example)
    made = counted.rows[-1].makes[1]
    assert made is not None
    assert dict(made) == {"dc": 28, "ch-1 sp": 27}
