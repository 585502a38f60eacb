"""Where rows lie, against places worked out by hand (a stitch 5 mm wide, a row 4 mm high)."""

from __future__ import annotations

from fractions import Fraction

from workeven.proof import Edges, Lie
from workeven.publish.drawings.courses import Course
from workeven.publish.drawings.placing import placed


def course(before: int, sts: int, bottom: int, times: int = 1, *, rounds: bool = False) -> Course:
    """So many rows from one number of stitches to another, above so many rows."""
    return Course(
        before=Fraction(before * 5),
        along=Fraction(sts * 5),
        bottom=Fraction(bottom * 4),
        top=Fraction((bottom + times) * 4),
        times=times,
        stitch=Fraction(5),
        rounds=rounds,
        yarn="",
        section=0,
    )


def lie(number: int, start: int = 0, end: int = 0, onto: int | None = None) -> Lie:
    """How one row lies."""
    return Lie(number, onto, Edges(start, end))


def spots(courses: list[Course], lies: list[Lie]) -> list[tuple[float, float]]:
    """Left and right of every row, from the left of the first row."""
    strips = placed(courses, lies)
    return [(one.left - strips[0].left, one.right - strips[0].left) for one in strips]


def test_a_right_side_row_begins_at_the_right() -> None:
    """Row 1 goes leftwards, so four stitches left at the end of Row 3 are missing on the left."""
    rows = [course(20, 20, 0), course(20, 20, 1), course(20, 16, 2)]
    assert (20, 100) == spots(rows, [lie(1), lie(2), lie(3, end=-4)])[2]


def test_a_wrong_side_row_begins_at_the_left() -> None:
    """Four stitches slipped over at the beginning of Row 2 are missing on the left."""
    rows = [course(20, 20, 0), course(20, 16, 1)]
    assert (20, 100) == spots(rows, [lie(1), lie(2, start=-4)])[1]


def test_one_edge_is_shaped_by_rows_in_turn() -> None:
    """Decreases at the end of Row 2 and the beginning of Row 3 lie at the same edge, the right."""
    rows = [course(20, 20, 0), course(20, 18, 1, times=2)]
    found = spots(rows, [lie(1), lie(2, end=-1), lie(3, start=-1)])
    assert [(0, 100), (0, 95), (0, 90)] == found


def test_growth_in_the_middle_goes_to_both_sides() -> None:
    """Four stitches more that no edge has: two on each side."""
    rows = [course(20, 20, 0), course(20, 24, 1)]
    assert (-10, 110) == spots(rows, [lie(1), lie(2)])[1]


def test_a_second_shoulder_stands_beyond_the_neck() -> None:
    """Of 20 stitches the first shoulder takes 6; the second skips 8 and takes the last 6."""
    rows = [course(20, 20, 0), course(20, 6, 1), course(6, 6, 2), course(6, 6, 1)]
    lies = [lie(1), lie(2, end=-14), lie(3), lie(4, start=-8, onto=1)]
    assert [(0, 100), (0, 30), (0, 30), (70, 100)] == spots(rows, lies)


def test_a_part_worked_around_stands_beside_the_piece() -> None:
    """A thumb of 8 stitches lies 20 mm wide right of a hand of 40, and does not touch it."""
    rows = [course(40, 40, 0, rounds=True), course(40, 8, 1, rounds=True)]
    hand, thumb = spots(rows, [lie(1), lie(2, onto=1)])
    assert thumb[0] > hand[1]
    assert 20 == thumb[1] - thumb[0]


def test_without_lies_every_row_is_set_in_the_middle() -> None:
    """What is not known is not made up."""
    rows = [course(20, 20, 0), course(20, 16, 1)]
    assert [(0, 100), (10, 90)] == spots(rows, [])


def test_a_second_side_is_the_first_mirrored() -> None:
    """The first lies on the last 6 stitches, at the right; the second as far from the left edge."""
    rows = [course(20, 20, 0), course(20, 6, 1), course(6, 5, 2), course(5, 5, 1, times=2)]
    mirrored = [Lie(number, 1, Edges(0, 0), mirrored=True) for number in (2, 3)]
    found = spots(rows, [lie(1), lie(2, start=-14), lie(3, end=-1), *mirrored])
    assert [(70, 100), (75, 100), (0, 30), (0, 25)] == found[1:]
