"""The oracle itself is right on the worked examples of the notation and on published pieces.

The examples are those of the notation's last table, by their numbers. The published pieces are in
the public domain; their rows are put as the oracle's records (facts, no text), their counts are
those of an independent hand count, and each names its source.
"""

from __future__ import annotations

from tests.oracle.structure import (
    All,
    Chain,
    Content,
    Count,
    Evenly,
    FromHook,
    Leave,
    Piece,
    Repeat,
    Row,
    Same,
    Skip,
    Start,
    Stitches,
    Together,
    Travel,
    Work,
)
from tests.oracle.walker import count

FLAT = "flat rows"
JOINED = "joined rounds"
TURNED = "joined rounds, turned"
SPIRAL = "spiral rounds"


def one(kind: str, number: Count = 1) -> Content:
    """Content of one kind."""
    return (Stitches(kind, number),)


def work(kind: str, places: Count = 1, into: str = "st", *, per: int = 1) -> Work:
    """So many stitches into each of so many places."""
    return Work(one(kind, per), places, into)


SC1 = Start(1)
CH3 = Start(3, "dc")
SC_IN_EACH_CH = (FromHook(2, one("sc")), All(one("sc"), "ch"))
SHELL = (Skip(3), work("dc", per=4))


def sts(piece: Piece) -> list[object]:
    """The stitches after each row: one number, or a list by size; the fault where it fails."""
    found: list[object] = []
    for row in count(piece):
        figures = [c and (c.fault or c.sts) for c in row]
        found.append(figures if piece.sizes else figures[0])
    return found


def last_makes(piece: Piece) -> dict[str, int]:
    """What the last row makes."""
    last = count(piece)[-1][0]
    assert last is not None
    return last.makes


def test_example_1() -> None:
    """Decreases over a row on a chain: 21 ch, 20, 16."""
    rows = (
        Row(begin="chain", chains=21),
        Row(SC_IN_EACH_CH),
        Row((SC1, work("sc", 4), Repeat((Together("sc"), work("sc", 2)), 4))),
    )
    assert [21, 20, 16] == sts(Piece(FLAT, rows))


def test_example_2() -> None:
    """Shells between edge stitches, over a first row whose skipped chains count."""
    rows = (
        Row(begin="chain", chains=22),
        Row((FromHook(4, one("dc"), "dc"), All(one("dc"), "ch"))),
        Row((CH3, work("dc", 3), Repeat(SHELL, but=4), All(one("dc")))),
    )
    assert [22, 20, 20] == sts(Piece(FLAT, rows))


def test_example_3() -> None:
    """Shells around a joined chain."""
    shell = (Skip(3, "ch"), work("dc", into="ch", per=4))
    rows = (
        Row(begin="joined chain", chains=48),
        Row((CH3, Same(one("dc", 3)), Repeat(shell, but=3, but_name="ch"), Skip(3, "ch"))),
    )
    assert [48, 48] == sts(Piece(JOINED, rows))


def test_example_4() -> None:
    """A decrease round too many, and the shells no longer come out."""
    rows = (
        Row((SC1, Repeat((work("sc", 7), Together("sc"))))),
        Row((SC1, Repeat((work("sc", 6), Together("sc"))))),
        Row((CH3, Same(one("dc", 3)), Repeat(SHELL, but=3), Skip(3))),
    )
    assert [48, 42, "missing"] == sts(Piece(JOINED, rows, start=(("dc", 54),)))


def test_example_5() -> None:
    """A flat circle in a spiral."""
    inc = work("sc", per=2)
    rows = (
        Row((work("sc", into="ring", per=6),), begin="magic ring"),
        Row((All(one("sc", 2)),)),
        Row((Repeat((work("sc"), inc)),)),
        Row((Repeat((work("sc", 2), inc), 6),)),
        Row((All(one("sc")),)),
    )
    assert [6, 12, 18, 24, 24] == sts(Piece(SPIRAL, rows))


def test_example_6() -> None:
    """A square in rounds: the second starts in a corner."""
    corner: Content = (Stitches("dc", 3), Chain(2), Stitches("dc", 3))
    rest: Content = (Stitches("dc", 2), Chain(2), Stitches("dc", 3))
    side = (work("dc", into="ring", per=3), Chain(2))
    rows = (
        Row(begin="ring", chains=4),
        Row((CH3, work("dc", into="ring", per=2), Chain(2), Repeat(side, 3))),
        Row(
            (
                Travel(to="ch-2 sp"),
                CH3,
                Same(rest),
                Chain(1),
                Repeat((Work(corner, into="ch-2 sp"), Chain(1))),
            )
        ),
    )
    assert [0, 12, 24] == sts(Piece(JOINED, rows))
    assert {"dc": 24, "ch-2 sp": 4, "ch-1 sp": 4} == last_makes(Piece(JOINED, rows))


def test_example_7() -> None:
    """A mesh over 21 fails when the first step skips 2, and comes out when it skips 1."""
    mesh = Repeat((Chain(1), Skip(1), work("dc")))
    start = Start(4, "dc", 1)
    wrong = Piece(FLAT, (Row((start, Skip(2), work("dc"), mesh)),), start=(("dc", 21),))
    right = Piece(FLAT, (Row((start, Skip(1), work("dc"), mesh)),), start=(("dc", 21),))
    assert ["left over"] == sts(wrong)
    assert {"dc": 11, "ch-1 sp": 10} == last_makes(right)


def test_example_8() -> None:
    """Shells of 5 between single crochets take 6 plus 1."""
    shell = (Skip(2), work("dc", per=5), Skip(2), work("sc"))
    row = Row((SC1, work("sc"), Repeat(shell)))
    found = [sts(Piece(FLAT, (row,), start=(("sc", n),))) for n in (31, 33, 37)]
    assert [[31], ["left over"], [37]] == found
    assert {"sc": 6, "dc": 25} == last_makes(Piece(FLAT, (row,), start=(("sc", 31),)))


def test_example_9() -> None:
    """In three sizes the last row comes out in M only."""
    rows = (
        Row(begin="chain", chains=(61, 67, 73)),
        Row(SC_IN_EACH_CH),
        Row((SC1, Repeat((work("sc", 4), Together("sc"))))),
        Row((CH3, Repeat((Chain(1), Skip(1), work("dc"))))),
    )
    found = count(Piece(FLAT, rows, ("S", "M", "L")))
    assert [[61, 67, 73], [60, 66, 72], [50, 55, 60]] == [
        [c and c.sts for c in r] for r in found[:3]
    ]
    assert ["left over", "", "left over"] == [c and c.fault for c in found[3]]
    assert found[3][1] is not None
    assert {"dc": 28, "ch-1 sp": 27} == found[3][1].makes


def test_example_10() -> None:
    """Twelve decreases spaced over 70."""
    piece = Piece(JOINED, (Row((Evenly("sc", "dec", 12),)),), start=(("sc", 70),))
    assert [58] == sts(piece)
    assert {"sc": 46, "sc2tog": 12} == last_makes(piece)


def test_example_11() -> None:
    """Two stitches in the side of each of 24 rows."""
    piece = Piece(FLAT, (Row((All(one("sc", 2)),)),), start=(("row end", 24),))
    assert [48] == sts(piece)


def test_example_12() -> None:
    """The last five are left unworked, and said to be."""
    piece = Piece(FLAT, (Row((SC1, All(one("sc"), but=5), Leave())),), start=(("sc", 40),))
    assert [35] == sts(piece)


def test_example_13() -> None:
    """A turned round starts at the joined stitch."""
    rows = (
        Row((CH3, work("dc", 2), Skip(1), Repeat((work("dc", 3), Skip(1))))),
        Row((SC1, Same(one("sc")), All(one("sc")))),
    )
    assert [18, 18] == sts(Piece(TURNED, rows, start=(("dc", 24),)))


def test_a_turning_chain_is_the_last_place() -> None:
    """``dc in each dc across, dc in top of tch`` is not one too many."""
    rows = (
        Row((CH3, All(one("dc")))),
        Row((CH3, All(one("dc"), "dc"), Work(one("dc"), into="tch"))),
    )
    assert [20, 20] == sts(Piece(FLAT, rows, start=(("sc", 20),)))


def test_slip_stitches_at_the_head_give_up_places() -> None:
    """After ``sl st in first 4 sts`` a counted chain stands over the 4th."""
    row = Row((Travel(4), CH3, All(one("dc"), but=3), Leave()))
    assert [14] == sts(Piece(FLAT, (row,), start=(("dc", 20),)))


def test_bag_base() -> None:
    """Bag base in a spiral: Aunt Lydia's Designs, Star Book No. 236, eBook 66334, Rnds 1 to 9."""
    increase = [
        (2, Repeat((work("sc", per=2), work("sc")))),
        (4, Repeat((work("sc", 3), work("sc", per=2)))),
        (5, Repeat((work("sc", 4), work("sc", per=2)))),
    ]
    rows = (
        Row(begin="ring", chains=4),
        Row((work("sc", into="ring", per=8),)),
        Row((All(one("sc", 2), "sc"),)),
        *(Row((repeat,)) for _, repeat in increase),
        Row((Repeat((work("sc", 3), work("sc", per=2))),)),
        Row(
            (
                work("sc", 2),
                work("sc", per=2),
                Repeat((work("sc", 4), work("sc", per=2)), but=2),
                work("sc", 2),
            )
        ),
        Row((Repeat((work("sc", 5), work("sc", per=2))),)),
        Row((work("sc", 2), Repeat((work("sc", per=2), work("sc", 9)), but=1), work("sc", per=2))),
    )
    assert [0, 8, 16, 24, 30, 36, 45, 54, 63, 70] == sts(Piece(SPIRAL, rows))


def test_ripple() -> None:
    """Last repeats end at the double mark: Your All-time Favorite Afghans, Vol. 44, eBook 62482."""
    body = (work("sc", 10, "ch"), work("sc", into="ch", per=3), work("sc", 10, "ch"), Skip(2, "ch"))
    over = (work("sc", 10), work("sc", per=3), work("sc", 10), Skip(2))
    rows = (
        Row(begin="chain", chains=304),
        Row(
            (
                FromHook(2, one("sc")),
                work("sc", into="ch"),
                Skip(1, "ch"),
                Repeat(body, 13, last=body[:3], last_form="stop"),
                Skip(1, "ch"),
                work("sc", 2, "ch"),
            ),
            fastens_off=True,
        ),
        Row(
            (
                work("sc", 2),
                Skip(1),
                Repeat(over, 13, last=over[:3], last_form="stop"),
                Skip(1),
                work("sc", 2),
            ),
            times=3,
        ),
    )
    assert [304, 303, 303] == sts(Piece(FLAT, rows))


def test_chevron_strip() -> None:
    """Increases and decreases balance: Afghans, Book No. 289 (1952), eBook 66111, chevron strip."""
    ch = "ch"
    first = (
        work("sc", into=ch, per=3),
        work("sc", 3, ch),
        Together("sc", 3, ch),
        work("sc", 3, ch),
    )
    body = (work("sc", 3), work("sc", per=3), work("sc", 3), Together("sc", 3))
    rows = (
        Row(begin="chain", chains=60),
        Row(
            (
                FromHook(2, one("sc")),
                work("sc", 3, ch),
                Repeat(first, ending=True),
                work("sc", into=ch, per=3),
                Work(one("sc"), 4, ch, "last"),
            )
        ),
        Row(
            (
                SC1,
                Together("sc"),
                Repeat(body, last=(*body[:3], Together("sc")), last_form="replace"),
            ),
            times=19,
        ),
    )
    piece = Piece(FLAT, rows)
    assert [60, 61, 61] == sts(piece)
    assert {"sc": 54, "sc2tog": 2, "sc3tog": 5} == last_makes(piece)


def test_collar() -> None:
    """A mesh that widens: Boutique, Star Book No. 226, eBook 62882, collar, Rows 1 to 5."""
    onward = Repeat((Chain(1), work("dc", into="dc")), but=1, but_name="dc")
    v: Content = (Stitches("dc"), Chain(1), Stitches("dc"))
    mesh = Repeat((Chain(1), Skip(1, "ch"), work("dc", into="ch")))
    wider = (Start(4, "dc", 1), Same(one("dc")), onward, Chain(1), Work(v, into="tch"))
    rows = (
        Row(begin="chain", chains=106),
        Row((FromHook(4, one("dc"), "dc"), mesh)),
        Row(wider, times=3),
        Row((Start(4, "dc", 1), Same(one("dc")), onward, Chain(1), Work(one("dc"), into="tch"))),
    )
    found = count(Piece(FLAT, rows))
    assert [106, 53, 59, 60] == [row[0] and row[0].sts for row in found]
    assert found[2][0] is not None
    assert found[3][0] is not None
    assert {"dc": 59, "ch-1 sp": 58} == found[2][0].makes
    assert {"dc": 60, "ch-1 sp": 59} == found[3][0].makes


def test_persian_motif() -> None:
    """Last repeats end early: Afghans, Book No. 289 (1952), eBook 66111, a square motif."""
    sp = "ch-3 sp"
    shell: Content = (Stitches("dc", 3), Chain(3), Stitches("dc", 3))
    petal: Content = (Stitches("sc"), Chain(3), Stitches("sc"))
    wide: Content = (Stitches("dc", 3), Chain(5), Stitches("dc", 3))
    third = (Skip(1, "sc"), Work(shell, into="sc"), Skip(1, "sc"), work("sc", 3, "sc"))
    fourth = (Chain(3), Work(petal, into=sp), Chain(3), work("dc", 3, "sc"))
    loops = Repeat((Chain(3), work("sc", into=sp)), 3)
    fifth = (Chain(3), Skip(1, "dc"), work("sc", into="dc"), loops, Chain(3), work("sc", into="dc"))
    middle = Repeat((work("sc", into=sp), Chain(3)), 2)
    sixth = (Chain(3), Skip(1, sp), middle, Skip(1, sp), Work(wide, into=sp))
    first = Travel(1, joins=True)
    rows = (
        Row(begin="ring", chains=5),
        Row((CH3, work("dc", into="ring", per=15))),
        Row(
            (
                first,
                Same(one("sc")),
                Repeat((work("sc", into="dc", per=2), work("sc", into="dc")), but=1, but_name="dc"),
                work("sc", into="dc", per=2),
            )
        ),
        Row(
            (
                first,
                Same(one("sc")),
                work("sc", 2, "sc"),
                Repeat(third, last=third[:3], last_form="stop"),
            )
        ),
        Row((first, CH3, work("dc", 2, "sc"), Repeat(fourth, last=fourth[:3], last_form="stop"))),
        Row((first, Same(one("sc")), Repeat(fifth, last=fifth[:5], last_form="stop"))),
        Row(
            (
                Travel(to=sp, joins=True),
                CH3,
                Same((Stitches("dc", 2), Chain(5), Stitches("dc", 3))),
                Repeat(sixth, last=sixth[:4], last_form="stop"),
            )
        ),
    )
    piece = Piece(JOINED, rows)
    assert [0, 16, 24, 36, 20, 20, 32] == sts(piece)
    assert {"dc": 24, "sc": 8, "ch-5 sp": 4, "ch-3 sp": 12} == last_makes(piece)


def test_manchette() -> None:
    """A true fault: The Crochet Book, 4th Series (Riego, 1848), eBook 61222, cuff, Row 8."""
    body = (Chain(5), Skip(1), work("sc", 11))
    row = Row((work("sc", 6), Repeat(body, last=(*body[:2], work("sc", 6)), last_form="replace")))
    assert ["left over"] == sts(Piece(FLAT, (row,), start=(("dc", 236),)))
    piece = Piece(FLAT, (row,), start=(("dc", 229),))
    assert {"sc": 210, "ch-5 sp": 19} == last_makes(piece)
    lace = (
        Skip(1, "sc"),
        Repeat((Chain(2), work("dc", into="ch-5 sp")), 1),
        Chain(2),
        Skip(1, "sc"),
        work("sc", 9, "sc"),
    )
    next_row = Row(
        (
            work("sc", 5, "sc"),
            Repeat(lace, last=(*lace[:4], work("sc", 5, "sc")), last_form="replace"),
        )
    )
    both = Piece(FLAT, (row, next_row), start=(("dc", 229),))
    assert {"sc": 172, "dc": 19, "ch-2 sp": 38} == last_makes(both)
