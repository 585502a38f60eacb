"""Rows as trees: what belongs to a label, a count, a repeat, and where a slip is told."""

from __future__ import annotations

import pytest

from workeven.notation.parser import parse_row, parse_special
from workeven.notation.tree import (
    Each,
    Exactly,
    More,
    NamedStitch,
    Open,
    Repeat,
    RepeatRows,
    Row,
    RowsCount,
    RowsTimes,
    Space,
    Step,
    Stitch,
    ToLast,
    Turn,
    UntilMeasures,
    Work,
    WorkedRow,
    WorkEven,
)
from workeven.notation.vocabulary import Terms, Vocabulary
from workeven.problems import Problem, Span

PLACE = Span(file="rows", line=4, column=9, end_line=4, end_column=9)
SIZES = ("S", "M", "L")


def parsed(text: str, sizes: tuple[str, ...] = ()) -> Row:
    """A row that is understood."""
    checked = parse_row(text, PLACE, Vocabulary("us", ("shell",), sizes))
    assert checked.value is not None
    assert checked.problems == ()
    return checked.value


def refused(text: str, sizes: tuple[str, ...] = (), terms: Terms = "us") -> Problem:
    """The problem of a row that is not."""
    (problem,) = parse_row(text, PLACE, Vocabulary(terms, (), sizes)).problems
    return problem


def steps(text: str) -> tuple[Step, ...]:
    """The steps of a row."""
    body = parsed(text).body
    assert isinstance(body, WorkedRow)
    return body.steps


def plain(step: object) -> str:
    """A node without its columns."""
    fields = getattr(step, "__slots__", None)
    if isinstance(step, tuple):
        return "(" + ", ".join(map(plain, step)) + ")"
    if fields is None:
        return repr(step)
    inside = [
        f"{name}={plain(getattr(step, name))}" for name in fields if name not in ("start", "end")
    ]
    return f"{type(step).__name__}({', '.join(inside)})"


@pytest.mark.parametrize(
    "same",
    [
        ["sc in next 6 sts", "sc in each of next 6 sts"],
        ["2 dc in next st", "(2 dc) in next st", "work 2 dc in next st"],
        ["sc in each st across", "sc across", "sc in every st across"],
        ["[sc 2, inc] 6 times", "(sc 2, inc) 6 times", "[sc 2, inc] x6", "[sc 2, inc] six times"],
        ["*sc, ch 1; rep from * around", "* sc, ch 1, repeat from * around."],
        ["sk next 2 sts", "skip the next two stitches", "miss next 2 sts"],
        ["sc in next st, turn", "sc in next st and turn", "Sc in next st; then turn."],
    ],
)
def test_words_for_the_same_are_the_same_tree(same: list[str]) -> None:
    """But for their columns, and for an "each" that changes no count."""
    trees = [plain(steps(text)).replace("each=True", "each=False") for text in same]
    assert trees == [trees[0]] * len(trees)


def test_a_label_is_a_number_a_range_or_a_name() -> None:
    """What is no label begins the row."""
    label = parsed("Rows 4–6 (RS): sc in each st across").label
    assert label is not None
    assert ("Row", (4,), (6,), "RS") == (
        label.word,
        label.first and label.first.values,
        label.last and label.last.values,
        label.side,
    )
    named = parsed("Dec rnd: sc2tog around").label
    assert "Dec rnd" == (named and named.name)
    assert parsed("sc around: 24 sts").label is None


def test_numbers_by_size_stand_anywhere() -> None:
    """One number a size, or one for all; a dash leaves a step out."""
    row = parsed("sc in next 4 (6, -) sts, [sc 2, inc] 5 (6, 7) times, turn", SIZES)
    assert [(4, 6, None), (2,), (5, 6, 7)] == [amount.values for amount in row.amounts]


def test_the_sizes_that_work_a_row_are_named_before_it() -> None:
    """A range is the pair of its ends."""
    assert (("S", "M"),) == parsed("sizes S–M only: sc in next st", SIZES).only
    assert (("S", "S"), ("L", "L")) == parsed("sizes S and L only: sc in next st", SIZES).only


@pytest.mark.parametrize(
    "end", ["(60 sts)", "(60)", ": 60 sts", "— 60 sts", "= 60 sts", "[60 sts]", ". 60 sts."]
)
def test_a_stated_count_closes_the_row(end: str) -> None:
    """In brackets, behind a colon, a dash, an equals sign."""
    row = parsed(f"sc in each st across, turn {end}")
    assert row.stated is not None
    assert [((60,), "sts")] == [(amount.values, unit) for amount, unit in row.stated.counts]


def test_a_count_inside_a_row_is_a_step() -> None:
    """It is compared with what is made up to there."""
    row = parsed("sc in next 10 sts (10 sc), dc in each st across (20 sts)")
    assert isinstance(row.body, WorkedRow)
    assert "StatedHere" in [type(step).__name__ for step in row.body.steps]
    assert row.stated is not None


def test_repeats_say_how_often() -> None:
    """A number in all, a number more, as often as it fits."""
    (bracket,) = steps("[sc 2, inc] 6 times")
    (star,) = steps("*sc, ch 1; rep from * 5 more times")
    (open_,) = steps("*sc, ch 1; rep from * to last 2 sts")
    assert isinstance(bracket, Repeat)
    assert isinstance(star, Repeat)
    assert isinstance(open_, Repeat)
    assert (Exactly, More, Open) == (type(bracket.times), type(star.times), type(open_.times))
    assert isinstance(open_.times, Open)
    assert isinstance(open_.times.limit, ToLast)


def test_a_shell_goes_into_one_place() -> None:
    """A stitch of the pattern's own is known by its name."""
    (step,) = steps("shell in next ch-2 sp")
    assert isinstance(step, Work)
    assert isinstance(step.content[0], Stitch)
    assert "shell" == step.content[0].name


def test_names_are_joined_by_and() -> None:
    """Of "in each sc and in each ch-1 sp" both are worked into."""
    (step,) = steps("dc in each sc and in each ch-1 sp across")
    assert isinstance(step, Work)
    assert isinstance(step.target, Each)
    assert (NamedStitch("sc"), Space(1)) == step.target.names


@pytest.mark.parametrize(
    "tail", ["a 30 cm tail", "30 cm", "a 12 inch tail", "8 inches for sewing", "about 20 in"]
)
def test_a_tail_is_no_stated_count(tail: str) -> None:
    """Thirty centimetres of yarn are not thirty of anything that the row makes."""
    assert parsed(f"fasten off, leaving {tail}").stated is None


@pytest.mark.parametrize(
    ("text", "until"),
    [
        ("rep Row 2 nine more times", RowsTimes),
        ("rep Rows 2 and 3 until piece measures 30 cm", UntilMeasures),
        ("rep last 2 rows for 12 rows", RowsCount),
        ("rep Dec row", type(None)),
    ],
)
def test_a_row_that_repeats_rows_says_how_long(text: str, until: type) -> None:
    """So many times, for so many rows, up to a length."""
    body = parsed(text).body
    assert isinstance(body, RepeatRows)
    assert isinstance(body.until, until)


@pytest.mark.parametrize("count", ["(12 sc)", ": 12 sc", "– 12 sc", "(4 in) (12 sc)"])
def test_a_row_goes_on_until_it_measures(count: str) -> None:
    """A row of its own, not only a repeat; the count behind the length is a stated count."""
    row = parsed(f"sc in each st around until piece measures 10 cm {count}")
    assert isinstance(row.body, WorkedRow)
    assert isinstance(row.body.until, UntilMeasures)
    assert row.stated is not None
    assert [((12,), "sc")] == [(amount.values, unit) for amount, unit in row.stated.counts]


def test_until_may_also_say_where_a_step_stops() -> None:
    """``until 3 sts rem`` is a place in the row."""
    row = parsed("sc in each st across until 3 sts rem, dc in last 3 sts")
    assert isinstance(row.body, WorkedRow)
    assert row.body.until is None


def test_work_even_is_a_body_of_its_own() -> None:
    """It keeps the kinds of the row below."""
    assert isinstance(parsed("work even in patt until piece measures 12 in").body, WorkEven)


def test_what_turns_the_work_is_kept() -> None:
    """To "not turn" is a step too."""
    assert [Turn] == [type(step) for step in steps("sc in next st, do not turn")[1:]]


# --- what is not understood ----------------------------------------------------------------


def test_the_words_that_are_not_understood_are_marked() -> None:
    """Columns are those of the file: the row begins in column 9."""
    problem = refused("sc in next st, frobnicate twice, turn")
    assert ("row-not-understood", "“frobnicate twice” is not understood.") == (
        problem.code,
        problem.found,
    )
    assert (24, 40) == (problem.span.column, problem.span.end_column)
    assert "Understood up to here: “sc in next st”." == problem.expected


@pytest.mark.parametrize(
    ("text", "mend"),
    [
        ("*sc, ch 1", "Add “; rep from * across”, or take the “*” away."),
        ("[sc 2, inc", "Add the closing “]”."),
        ("sc in each st to last 3 turtles", "Name a place to work into"),
        ("[sc, ch 1]", "Say how often"),
    ],
)
def test_the_cure_says_what_to_write(text: str, mend: str) -> None:
    """In the words of rows, not of grammars."""
    assert mend in refused(text).mend


def test_words_of_the_other_terms_are_named() -> None:
    """There is no sc in UK terms."""
    assert "is a US term and the text is in UK terms" in refused("sc in next st", terms="uk").mend


def test_a_list_with_too_few_sizes_is_told() -> None:
    """Two numbers, three sizes."""
    problem = refused("sc in next 4 (6) sts, turn", SIZES)
    assert ("size-list", "2 numbers stand here, and there are 3 sizes.") == (
        problem.code,
        problem.found,
    )


def test_a_size_that_is_not_there_is_told() -> None:
    """With the nearest name."""
    problem = refused("sizes S–XL only: sc in next st", SIZES)
    assert ("size-unknown", "there is no size “XL”.") == (problem.code, problem.found)


def test_a_row_without_end_is_refused() -> None:
    """Ten thousand characters are more than any row has."""
    assert "row-too-long" == refused("sc, " * 2501).code


def test_repeats_nest_so_deep_and_no_deeper() -> None:
    """A stranger's row cannot make the reader run out of stack."""
    assert "row-not-understood" == refused("[" * 40 + "sc" + "] twice" * 40).code


# --- stitches of one's own -----------------------------------------------------------------


@pytest.mark.parametrize(
    ("words", "closed", "made"),
    [
        ("5 dc in same st", False, 1),
        ("(2 dc, ch 1, 2 dc) in same place", False, 3),
        ("dc4tog in same st (1 st)", True, 0),
        ("sc leaving a long loop", True, 0),
    ],
)
def test_a_special_stitch_is_known_by_its_words(words: str, closed: bool, made: int) -> None:  # noqa: FBT001, what is expected
    """Made of its parts where they are notation of what goes into one place, else one stitch."""
    stitch = parse_special("shell", words, PLACE, "us").value
    assert stitch is not None
    assert (closed, made, 1) == (stitch.closed, len(stitch.content), stitch.takes)


# --- stitches worked over several places ---------------------------------------------------


@pytest.mark.parametrize(
    ("name", "text", "number", "square"),
    [
        ("sp", "ch 2, sk 2, dc", 3, True),
        ("block", "3 dc", 1, True),
        ("block", "dc in next 2 dc or 2 dc in next ch-2 sp, dc in next dc", 2, True),
        ("solid mesh", "dc in next 2 sts", 1, True),
        ("cross st", "sk next st, dc in next st, dc in skipped st", 3, False),
        ("picot", "ch 3, sl st in 3rd ch from hook", 1, False),
        ("picot-4", "ch 4, sl st in top of last st made", 1, False),
    ],
)
def test_a_stitch_of_several_steps_is_read_as_those(
    name: str,
    text: str,
    number: int,
    square: bool,  # noqa: FBT001, a parameter of the test
) -> None:
    """A square of filet, a crossed stitch, a picot."""
    stitch = parse_special(name, text, PLACE, "us").value
    assert stitch is not None
    assert (number, square, ()) == (len(stitch.steps), stitch.square, stitch.content)


@pytest.mark.parametrize(
    ("name", "text"),
    [
        ("shell", "5 dc in next st"),
        ("V-st", "(dc, ch 1, dc) in same st"),
        ("loop st", "sc with the yarn wound around a finger"),
        ("bobble", "5 dc cluster in same st (1 st)"),
        ("beg shell", "ch 3, 4 dc in same st"),
    ],
)
def test_what_goes_into_one_place_has_no_steps(name: str, text: str) -> None:
    """It is a group, or one stitch."""
    stitch = parse_special(name, text, PLACE, "us").value
    assert stitch is not None
    assert () == stitch.steps
