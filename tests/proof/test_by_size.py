"""What goes wrong in many sizes is said once, and no figure is lost."""

from __future__ import annotations

from workeven.problems import Problem
from workeven.proof.by_size import as_one, in_sizes, offered
from workeven.proof.counting import count

NINE = ("XS", "S", "M", "L", "XL", "2X", "3X", "4X", "5X")
START = "66 (74, 84, 92, 100) (108, 116, 124, 132) dc"


def told(rows: str) -> Problem:
    """The one problem of rows in nine sizes."""
    (problem,) = count(rows, start=START, sizes=NINE).problems
    return problem


def test_a_stated_count_is_told_once_in_the_way_of_the_trade() -> None:
    """All that is stated beside all that is made, and the sizes before."""
    problem = told("ch 1, sc in each st across, turn (67 (75, 85, 93, 101, 109, 117, 125, 133) sc)")
    assert problem.sizes == NINE
    assert problem.found == (
        "the count that is stated is not what is made: 67 (75, 85, 93, 101, 109, 117, 125, 133) sc "
        "are stated and the row makes 66 (74, 84, 92, 100, 108, 116, 124, 132)."
    )
    assert problem.expected == ""
    assert ("made", ("66", "74", "84", "92", "100", "108", "116", "124", "132")) in problem.figures


def test_a_repeat_that_does_not_fit_is_told_once() -> None:
    """The sizes that come out are not in the lists."""
    problem = told("ch 1, *sc 4, sc2tog; rep from * across")
    assert problem.found == ("the row before leaves 74 (92, 100, 116, 124) sts.")
    assert problem.good_sizes == ("XS", "M", "2X", "5X")
    assert problem.expected == (
        "The repeat takes 6 sts: in these sizes, 12 (15, 16, 19, 20) repeats use "
        "72 (90, 96, 114, 120) and 2 (2, 4, 2, 4) sts are left over."
    )
    assert problem.mend == (
        "Nearest that come out: 72 (90, 96, 114, 120) or 78 (96, 102, 120, 126)."
    )


def test_what_differs_in_words_is_told_in_groups() -> None:
    """Each group by the names of its sizes."""
    told_of = [
        *(
            (size, f"{number} sts are left over")
            for size, number in {"A": 1, "B": 2, "C": 2}.items()
        ),
        *((size, f"{number} sts are missing") for size, number in {"D": 4, "E": 5}.items()),
    ]
    assert (
        "in A, B and C, 1 (2, 2) sts are left over; in D and E, 4 (5) sts are missing"
        == in_sizes(told_of)
    )


def test_one_of_something_agrees_with_the_others() -> None:
    """Singular and plural are no other words; all ones stay in the singular."""
    assert "5 (1, 3, 4) sts are left over" == as_one(
        ["5 sts are left over", "1 st is left over", "3 sts are left over", "4 sts are left over"]
    )
    assert "2 and 1 dc are left over" == as_one(["2 dc are left over", "1 dc is left over"])
    assert "1 st is left over" == as_one(["1 st is left over"] * 4)


def test_sizes_without_an_offer_are_seen() -> None:
    """A list by size has one for each; where one is missing, each stands by its name."""
    four = [(size, (6,)) for size in "ABCD"]
    assert "A 6, B 6, C 6, D 6" == offered(four, whole=False)
    assert "6" == offered(four, whole=True)
    assert "A 6 or 12, B 6, C 6, D 6" == offered([("A", (6, 12)), *four[1:]], whole=True)
