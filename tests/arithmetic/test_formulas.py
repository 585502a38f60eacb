"""Formulas are read by our own grammar, keep lengths and numbers apart, and stay bounded."""

from __future__ import annotations

import pickle
import re
from collections.abc import Iterator
from fractions import Fraction

import pytest

from workeven.arithmetic import formulas
from workeven.arithmetic.formula_reader import Reader
from workeven.arithmetic.formulas import FormulaFault

BODY = {"hand": Fraction(200), "bust": Fraction(900)}


@pytest.mark.parametrize(
    ("text", "mm"),
    [
        ("hand", 200),
        ("6 cm", 60),
        ("hand - 1.5 cm", 185),
        ("hand − 1.5 cm", 185),
        ("hand-1/2 in", Fraction(1873, 10)),
        ("3 1/2 in + hand", Fraction(2889, 10)),
        ("bust/2 + 3½ in", Fraction(5389, 10)),
        ('bust - 4"', Fraction(7984, 10)),
        ("2 * hand + bust", 1300),
        ("hand × 2", 400),
        ("bust / 3 / 2", 150),
        ("bust - hand - 10 cm", 600),
        ("bust - (hand - 10 cm)", 800),
        ("-hand + 30 cm", 100),
        ("bust * (1 + 1/10)", 990),
        ("bust/1/2", 450),
        ("bust * hand / (10 cm) / hand * 10 cm", None),
        ("bust * (hand / 10 cm)", 1800),
        ("min(hand, bust, 15 cm)", 150),
        ("max(hand, bust / 5)", 200),
        ("round_to(hand, 3 cm)", 210),
        ("round_to(hand + 0.5 cm, 1 cm)", 210),
    ],
)
def test_length_formulas_are_exact(text: str, mm: int | Fraction | None) -> None:
    """Each formula gives millimetres; None marks one that passes through an area."""
    if mm is None:
        with pytest.raises(FormulaFault, match="area"):
            formulas.read(text).length(BODY)
    else:
        assert mm == formulas.read(text).length(BODY)


@pytest.mark.parametrize(
    ("text", "count"),
    [
        ("back_sts + 1", 82),
        ("2 * fronts + back_sts", 161),
        ("back_sts / 2", Fraction(81, 2)),
        ("round_to(back_sts / 2, 2)", 40),
        ("round_to(back_sts, 2)", 82),
        ("min(fronts, back_sts) - 3", 37),
        ("30 cm / 4 cm", Fraction(15, 2)),
    ],
)
def test_count_formulas_are_exact(text: str, count: int | Fraction) -> None:
    """A count may come with a fraction: whether it must be whole is the asker's matter."""
    assert count == formulas.read(text).count({"back_sts": 81, "fronts": 40})


@pytest.mark.parametrize(
    ("text", "message", "stretch"),
    [
        (
            "hand - 1.5",
            "A length is joined to a plain number: `hand` is a length, `1½` a number.",
            "-",
        ),
        (
            "max(hand, 2)",
            "A length is compared with a plain number: `hand` is a length, `2` a number.",
            "2",
        ),
        ("hand * bust", "A length is multiplied by a length, which gives an area.", "*"),
        ("2 / hand", "A number is divided by a length, which measures nothing here.", "/"),
        ("hand / bust", "`hand / bust` is a number, and a length is due.", "hand / bust"),
        ("hand / (2 cm - 20 mm)", "The formula divides by zero.", "/"),
        ("round_to(hand, 0 cm)", "The step of round_to is not above zero.", "0"),
        ("hnd + 1 cm", "`hnd` is not a name that is known here.", "hnd"),
    ],
)
def test_faults_of_working_out_are_said_in_words(text: str, message: str, stretch: str) -> None:
    """Dimensions and names are checked when the formula is worked out, with the column."""
    with pytest.raises(FormulaFault) as caught:
        formulas.read(text).length(BODY)
    assert (message, stretch) == (str(caught.value), text[caught.value.at : caught.value.end])


@pytest.mark.parametrize(
    ("text", "message", "at"),
    [
        ("", "The formula is empty.", 0),
        ("hand +", "The formula ends where a name, a number or a length is due.", 6),
        ("* 2", "`*` stands where a name, a number or a length is due.", 0),
        ("2 hand", "`hand` is not a unit that is known here.", 2),
        ("2 g", "`g` is a unit of mass, and formulas know lengths and counts.", 2),
        ("hand ** 2", "Powers are not known in formulas.", 5),
        ("(hand", "A bracket is opened and never closed.", 0),
        ("hand)", "A bracket is closed that was never opened.", 4),
        ("min hand", "`min` needs brackets.", 0),
        ("power(2)", "`power` is followed by a bracket.", 0),
        ("round_to(hand)", "`round_to` was given 1 part.", 0),
        ("round_to(hand, 2 cm, 3 cm)", "`round_to` was given 3 parts.", 0),
        ("1,5 cm", "`1,5` has a comma inside the number.", 0),
        ("1/0 in", "`1/0` divides by zero.", 0),
        ("hand, bust", "A comma stands outside of min, max and round_to.", 4),
        ("hand[0]", "`[0]` stands where a sign is due.", 4),
        ("hand bust", "`bust` stands where a sign is due.", 5),
        ('__import__("os")', "`__import__` is followed by a bracket.", 0),
    ],
)
def test_faults_of_reading_name_the_column(text: str, message: str, at: int) -> None:
    """What is not in the grammar is refused where it stands."""
    with pytest.raises(FormulaFault) as caught:
        formulas.read(text)
    assert (message, at) == (str(caught.value), caught.value.at)


@pytest.mark.parametrize(
    "text",
    [
        "a" * 501,
        "hand + 12345678901 cm",
        "(" * 17 + "1" + ")" * 17,
        "-" * 18 + "1",
        "min(1, " * 17 + "2" + ")" * 17,
    ],
)
def test_overlong_and_deep_formulas_are_refused(text: str) -> None:
    """A stranger's formula stays short and shallow."""
    with pytest.raises(FormulaFault):
        formulas.read(text)


def test_formula_as_long_as_allowed_is_worked_out() -> None:
    """The limit itself is within the limit."""
    text = "1" + "+1" * 249
    assert 250 == formulas.read(text).count({})


@pytest.mark.parametrize("text", ["999999999 * 999999999", "-999999999 * 2"])
def test_figures_beyond_crochet_are_refused(text: str) -> None:
    """Counts feed other counts: each is held small, so that a chain of them cannot explode."""
    with pytest.raises(FormulaFault, match="far beyond any piece of crochet"):
        formulas.read(text).count({})


def test_count_formula_refuses_a_length() -> None:
    """A count is a number of stitches, not a length."""
    with pytest.raises(FormulaFault, match="a number of stitches or rows is due"):
        formulas.read("3 cm").count({})


def test_formula_names_what_it_uses_and_where() -> None:
    """Names are gathered without the functions, and each knows its place."""
    formula = formulas.read("max(bust, hand) + round_to(bust, 1 cm)")
    assert frozenset({"bust", "hand"}) == formula.names
    assert (10, 14) == formula.place("hand")


def test_formulas_are_records() -> None:
    """Equal, hashable, picklable: a pattern may cross a process."""
    formula = formulas.read("2 * fronts + back")
    assert {formula} == {formulas.read("2 * fronts + back")}
    assert formula == pickle.loads(pickle.dumps(formula))  # noqa: S301, our own bytes


def _phrases() -> Iterator[tuple[str, str, str]]:
    """The phrases that the docstring of each rule takes and refuses."""
    for rule in ("formula", "sum", "product", "operation", "signed", "operand", "bracket", "name"):
        said = getattr(Reader, rule).__doc__
        taken, _, refused = said.partition("; refuses ")
        for phrase in re.findall(r"``(.+?)``", taken):
            yield rule, phrase, "takes"
        for phrase in re.findall(r"``(.+?)``", refused):
            yield rule, phrase, "refuses"


@pytest.mark.parametrize(("rule", "phrase", "verdict"), list(_phrases()))
def test_rules_take_and_refuse_what_they_say(rule: str, phrase: str, verdict: str) -> None:
    """The grammar reads aloud: each rule's docstring holds phrases that are true."""
    assert rule
    try:
        formulas.read(phrase)
    except FormulaFault:
        assert "refuses" == verdict
    else:
        assert "takes" == verdict
