"""``workeven shape`` and ``workeven evenly``, as they are typed."""

from __future__ import annotations

import json

import pytest

from workeven.cli import main
from workeven.proof.counting import count


def said(capsys: pytest.CaptureFixture[str], *words: str) -> tuple[int, str]:
    """The status, and what is told."""
    status = main(words)
    output = capsys.readouterr()
    return status, output.out or output.err


def told(capsys: pytest.CaptureFixture[str], *words: str) -> object:
    """The JSON of a command that can be carried out."""
    status, text = said(capsys, *words, "--format", "json")
    assert status == 0
    return json.loads(text)


SLEEVE = ("shape", "--from", "43", "--to", "93", "--over", "166", "--worked", "flat rows")


@pytest.mark.parametrize(
    ("more", "rates", "plain"),
    [
        ((), [(6, 9), (7, 16)], 0),
        (("--straight-end",), [(6, 16), (7, 9)], 7),
        (("--every-second-row",), [(6, 17), (8, 8)], 0),
    ],
)
def test_a_sleeve_is_planned(
    capsys: pytest.CaptureFixture[str],
    more: tuple[str, ...],
    rates: list[tuple[int, int]],
    plain: int,
) -> None:
    """43 to 93 stitches over 166 rows: 25 shaped rows (worked by hand)."""
    found = told(capsys, *SLEEVE, *more)
    assert isinstance(found, dict)
    assert [{"every": every, "times": times} for every, times in rates] == found["plan"]
    assert plain == found["plain"]


def test_an_armhole_leaves_stitches_and_is_shaped_quickly_first(
    capsys: pytest.CaptureFixture[str],
) -> None:
    """78 to 60 over 12 rows, 4 left at each end: 5 more, 3 every row, 2 every second."""
    words = ("shape", "--from", "78", "--to", "60", "--over", "12", "--leave", "4")
    found = told(capsys, *words, "--curve", "quick first")
    assert {
        "leave": 4,
        "plan": [{"every": 1, "times": 3}, {"every": 2, "times": 2}],
        "plain": 4,
        "words": "leave 4 sts unworked at each end\n"
        "dec 1 st at each end every row 3 times, then every 2nd row twice, then work 4 rows even",
    } == found


def test_a_crown_is_worked_in_wedges(capsys: pytest.CaptureFixture[str]) -> None:
    """96 to 16 stitches, 8 a round: 10 shaped rounds over 20."""
    status, text = said(
        capsys, *"shape --from 96 --to 16 --over 20 --spread 8 --worked".split(), "joined rounds"
    )
    assert status == 0
    assert text.splitlines()[0] == "dec 8 sts evenly every 2nd rnd 10 times"


def test_a_yoke_is_shaped_in_stages(capsys: pytest.CaptureFixture[str]) -> None:
    """96 to 192 over 21 rounds, by multiples of 8: 12 times 8 in 4 stages; 5, 5, 5 and 6 rounds."""
    found = told(
        capsys,
        *"shape --from 96 --to 192 --over 21 --stages 4 --multiple 8 --worked".split(),
        "joined rounds",
    )
    assert isinstance(found, dict)
    assert [(5, 24, 120), (5, 24, 144), (5, 24, 168), (6, 24, 192)] == [
        tuple(one.values()) for one in found["stages"]
    ]


@pytest.mark.parametrize(
    "words",
    [
        "shape --from 78 --to 60 --over 12 --leave 4 --curve cap",
        "shape --from 96 --to 40 --over 20 --spread 8 --straight-end",
        "shape --from 96 --to 150 --over 20 --stages 4 --multiple 6",
    ],
)
def test_words_are_rows_that_come_out(capsys: pytest.CaptureFixture[str], words: str) -> None:
    """What is printed can be counted, and leaves what was asked for."""
    _, start, _, end = words.split()[1:5]
    found = told(capsys, *words.split())
    assert isinstance(found, dict)
    counted = count(found["words"], start=f"{start} sc")
    assert () == counted.problems
    assert counted.value is not None
    assert (int(end),) == counted.value.rows[-1].sts


def test_times_stand_for_two_counts(capsys: pytest.CaptureFixture[str]) -> None:
    """25 shaped rows are the same however they are told."""
    by_times = told(capsys, "shape", "--times", "25", "--over", "166")
    by_counts = told(capsys, *SLEEVE)
    assert isinstance(by_times, dict)
    assert isinstance(by_counts, dict)
    assert by_counts["plan"] == by_times["plan"]


def test_increases_are_spread_over_a_row(capsys: pytest.CaptureFixture[str]) -> None:
    """48 stitches and 12 increases: half an interval at each edge."""
    assert {
        "edges": [2, 2],
        "intervals": [4] * 11,
        "sts": 60,
        "words": "sc 1, inc, [sc 3, inc] 11 times, sc 2",
    } == told(capsys, "evenly", "48", "--inc", "12", "--worked", "flat rows")


def test_decreases_are_spread_over_a_row(capsys: pytest.CaptureFixture[str]) -> None:
    """48 stitches and 12 decreases: one plain stitch at each edge."""
    assert {
        "edges": [3, 1],
        "intervals": [4] * 11,
        "sts": 36,
        "words": "sc 1, sc2tog, [sc 2, sc2tog] 11 times, sc 1",
    } == told(capsys, "evenly", "48", "--dec", "12", "--worked", "flat rows")


def test_buttonholes_are_placed_along_a_band(capsys: pytest.CaptureFixture[str]) -> None:
    """90 stitches, 5 holes of 3, 4 stitches from both ends: 90 - 8 - 3 = 79 for 4 distances."""
    words = ("evenly", "90", "--holes", "5", "--width", "3", "--margin", "4")
    found = told(capsys, *words)
    assert isinstance(found, dict)
    assert ([7, 4], [20, 20, 19, 20], 90) == (found["edges"], found["intervals"], found["sts"])
    counted = count(found["words"], start="90 sc")
    assert () == counted.problems
    assert counted.value is not None
    assert (("sc", 75), ("ch-3 sp", 5)) == counted.value.rows[0].makes[0]


def test_a_round_has_no_edges(capsys: pytest.CaptureFixture[str]) -> None:
    """One interval a change."""
    found = told(capsys, "evenly", "48", "--dec", "12", "--worked", "joined rounds")
    assert isinstance(found, dict)
    assert ([0, 0], [4] * 12) == (found["edges"], found["intervals"])


def test_a_repeat_that_must_be_broken_is_told(capsys: pytest.CaptureFixture[str]) -> None:
    """Ten repeats take ten changes; fifteen break some."""
    words = ("evenly", "60", "--multiple", "6", "--worked", "joined rounds")
    whole = told(capsys, *words, "--inc", "10")
    broken = told(capsys, *words, "--inc", "15")
    assert isinstance(whole, dict)
    assert isinstance(broken, dict)
    assert (True, False) == (whole["whole_repeats"], broken["whole_repeats"])


@pytest.mark.parametrize(
    ("words", "sentence"),
    [
        ("shape --times 3 --over 2", "3 shaped rows do not fit into 2 rows"),
        ("shape --times 50 --over 80 --every-second-row", "every second row shaped, they need 100"),
        ("shape --from 43 --over 20", "`--to` is missing"),
        ("shape --over 20", "Say what is shaped"),
        ("shape --from 43 --to 60 --times 3 --over 20", "not both"),
        ("shape --from 43 --to 92 --over 90", "Make it 91 or 93, or shape at one end."),
        ("shape --times 3 --over 0", "cannot be planned"),
        ("shape --from 96 --to 16 --over 20 --spread 7", "Make it 12 or 19."),
        (
            "shape --from 60 --to 40 --over 20 --leave 11",
            "22 stitches are left in the first row",
        ),
        ("shape --from 60 --to 40 --over 20 --curve cap --straight-end", "do not go together"),
        ("shape --from 60 --to 40 --over 20 --spread 4 --leave 2", "do not go together"),
        ("shape --from 60 --to 40 --over 20 --spread 4 --ends 1", "do not go together"),
        ("shape --from 60 --to 40 --over 20 --spread 0", "Let it change one stitch or more."),
        ("shape --from 60 --to 40 --over 1 --leave 2", "Behind the row that leaves stitches"),
        ("shape --times 3 --over 1 --leave 2", "Behind the row that leaves stitches"),
        ("shape --times 3 --over 0 --leave 2", "Among 0 rows there is none that leaves stitches."),
        ("shape --times 3 --over 9 --spread 0", "Let it change one stitch or more."),
        ("shape --from 60 --to 40 --over 20 --curve round", "quick first"),
        ("shape --from 60 --to 40 --over 20 --ends 3", "2"),
        ("shape --from 60 --to 41 --over 20 --stages 3 --multiple 4", "no multiple of 4. Make it"),
        ("shape --from 60 --to 40 --over 20 --stages 0", "Give whole numbers from 1 on."),
        ("shape --from 60 --to 40 --over 2 --stages 3", "do not fit into 2 rows"),
        ("shape --from 60 --to 58 --over 20 --stages 3", "Plan at most 2 shaped rows."),
        ("shape --over 20 --stages 3", "from `--from` and `--to`"),
        ("shape --from 60 --to 40 --over 20 --multiple 4", "say how many there are"),
        ("shape --times 3", "`--over` is missing."),
        ("evenly 48 --dec 25", "At most 24 fit."),
        ("evenly 48", "One of `--inc --dec --holes` is needed."),
        ("evenly 48 --inc 0", "Give 1 or more."),
        ("evenly 48 --holes 13 --width 3", "At most 12 fit."),
        ("evenly 48 --holes 3 --width 0", "Give whole numbers from 1 on."),
        ("evenly 48 --holes 3 --margin 23", "At most 1 fit, more with a smaller margin."),
        ("evenly 3 --holes 2 --width 3", "Take narrower ones."),
        ("evenly 48 --holes 3 --multiple 6", "is for increases and decreases"),
        ("evenly 48 --inc 3 --width 3", "are those of `--holes`"),
        ("evenly 48 --holes 0", "Give whole numbers from 1 on."),
        ("evenly forty --inc 3", "a whole number is needed"),
        ("evenly 48 --inc 3 --multiple 0", "needs a number from 1 on"),
        ("evenly 48 --inc 3 --dec 3", "cannot stand together"),
    ],
)
def test_what_does_not_fit_is_said(
    capsys: pytest.CaptureFixture[str], words: str, sentence: str
) -> None:
    """In a sentence, with status 2."""
    status, text = said(capsys, *words.split())
    assert status == 2
    assert sentence in text
