"""What is said of formulas and quantities that cannot be read: words, place and cure, whole."""

from __future__ import annotations

from fractions import Fraction

import pytest

from workeven.arithmetic import formulas, quantities
from workeven.arithmetic.formula_reader import Figure, Function, Negative, Operation
from workeven.arithmetic.formulas import FormulaFault
from workeven.arithmetic.quantities import QuantityFault

TAKE_A_POINT = "Numbers take a point; parts of min, max and round_to a comma and a blank."
BODY = {"hand": Fraction(200), "bust": Fraction(900)}


def parts(fault: FormulaFault | QuantityFault) -> tuple[str, int, int, str]:
    """A fault as its words, its stretch of the text and its cure."""
    return str(fault), fault.at, fault.end, fault.mend


@pytest.mark.parametrize(
    ("text", "found", "at", "end", "mend"),
    [
        ("", "The formula is empty.", 0, 1, "Write a name or a number, as back_sts + 1."),
        ("hand ** 2", "Powers are not known in formulas.", 5, 7, "Multiply by *."),
        ("min + 1", "`min` needs brackets.", 0, 3, "Write min(a, b)."),
        ("round_to + 1", "`round_to` needs brackets.", 0, 8, "Write round_to(value, step)."),
        (
            "fronts(2)",
            "`fronts` is followed by a bracket.",
            0,
            6,
            "Write * to multiply; only min, max and round_to take brackets.",
        ),
        ("round_to(hand)", "`round_to` was given 1 part.", 0, 14, "Write round_to(value, step)."),
        ("min(hand)", "`min` was given 1 part.", 0, 9, "Write min(a, b)."),
        (
            "min(hand, bust, ",
            "The formula ends where a name, a number or a length is due.",
            16,
            17,
            "Formulas are made of names, numbers, lengths, + - * / and brackets.",
        ),
        ("(hand + 1", "A bracket is opened and never closed.", 0, 1, "Close it."),
        ("min(hand, 2", "A bracket is opened and never closed.", 3, 4, "Close it."),
        ("1/0 + hand", "`1/0` divides by zero.", 0, 3, ""),
        (
            "1,5 cm + hand",
            "`1,5` has a comma inside the number.",
            0,
            3,
            "Was `1.5` meant? " + TAKE_A_POINT,
        ),
        (
            "1,234,567",
            "`1,234` has a comma inside the number.",
            0,
            5,
            "Was `1.234` meant? " + TAKE_A_POINT,
        ),
        ("6 kg + hand", "`kg` is a unit of mass, and formulas know lengths and counts.", 2, 4, ""),
        (
            "6 ells + hand",
            "`ells` is not a unit that is known here.",
            2,
            6,
            "Write mm, cm, m, in, ft or yd. To multiply by a name, write * before it.",
        ),
        ("hand)", "A bracket is closed that was never opened.", 4, 5, ""),
        (
            "hand, bust",
            "A comma stands outside of min, max and round_to.",
            4,
            5,
            "Numbers take a point: 1.5 cm.",
        ),
        (
            "hand bust",
            "`bust` stands where a sign is due.",
            5,
            9,
            "Put one of + - * / between the two.",
        ),
        (
            "hand +",
            "The formula ends where a name, a number or a length is due.",
            6,
            7,
            "Formulas are made of names, numbers, lengths, + - * / and brackets.",
        ),
        (
            "* hand",
            "`*` stands where a name, a number or a length is due.",
            0,
            1,
            "Formulas are made of names, numbers, lengths, + - * / and brackets.",
        ),
        (
            "(((((((((((((((((hand)))))))))))))))))",
            "Brackets stand more than 16 deep.",
            17,
            18,
            "Give a part of the formula a name of its own.",
        ),
    ],
)
def test_a_formula_that_cannot_be_read(text: str, found: str, at: int, end: int, mend: str) -> None:
    """The words at fault are marked, and the cure is said."""
    with pytest.raises(FormulaFault) as raised:
        formulas.read(text)
    assert (found, at, end, mend) == parts(raised.value)


@pytest.mark.parametrize(
    ("text", "found", "at", "end", "mend"),
    [
        (
            "hand * bust",
            "A length is multiplied by a length, which gives an area.",
            5,
            6,
            "Multiply a length by a plain number.",
        ),
        (
            "2 / hand",
            "A number is divided by a length, which measures nothing here.",
            2,
            3,
            "Divide a length by a length for a number, or by a number for a length.",
        ),
        ("hand / 0", "The formula divides by zero.", 5, 6, ""),
        (
            "hand + 2",
            "A length is joined to a plain number: `hand` is a length, `2` a number.",
            5,
            6,
            "Give the number a unit, as 1.5 cm.",
        ),
        (
            "2 - hand",
            "A length is joined to a plain number: `hand` is a length, `2` a number.",
            2,
            3,
            "Give the number a unit, as 1.5 cm.",
        ),
        (
            "min(hand, 2)",
            "A length is compared with a plain number: `hand` is a length, `2` a number.",
            10,
            11,
            "Give the number a unit, as 1.5 cm.",
        ),
        ("round_to(hand, 0 cm)", "The step of round_to is not above zero.", 15, 16, ""),
        (
            "nobody + hand",
            "`nobody` is not a name that is known here.",
            0,
            6,
            "Known: `bust` and `hand`.",
        ),
        ("hnd + 1 cm", "`hnd` is not a name that is known here.", 0, 3, "Did you mean `hand`?"),
        ("2", "`2` is a number, and a length is due.", 0, 1, "Give the number a unit, as 1.5 cm."),
        (
            "(hand + 1 cm) - 2",
            "A length is joined to a plain number: one side is a length, `2` a number.",
            14,
            15,
            "Give the number a unit, as 1.5 cm.",
        ),
    ],
)
def test_a_formula_that_gives_no_length(
    text: str, found: str, at: int, end: int, mend: str
) -> None:
    """Lengths and numbers are kept apart."""
    with pytest.raises(FormulaFault) as raised:
        formulas.read(text).length(BODY)
    assert (found, at, end, mend) == parts(raised.value)


@pytest.mark.parametrize(
    ("reader", "text", "found", "at", "end", "mend"),
    [
        (
            "hook",
            "",
            "Nothing is written, and a size of a hook is due.",
            0,
            1,
            "Write a number, as 20 or 17.5.",
        ),
        (
            "hook",
            "5",
            "`5` has no unit, and a length needs one.",
            0,
            1,
            "Write the unit behind the number, as 5 mm; in a list once, at its end.",
        ),
        (
            "hook",
            "5 in",
            "`5 in` is not the size of a hook, which is given in mm.",
            0,
            4,
            "Write its diameter in mm, as 4.5 mm.",
        ),
        (
            "hook",
            "0 mm",
            "`0 mm` is not the size of a hook, which is given in mm.",
            0,
            4,
            "Write its diameter in mm, as 4.5 mm.",
        ),
        (
            "hook",
            "300 mm",
            "`300 mm` is not the size of a hook, which is given in mm.",
            0,
            6,
            "Write its diameter in mm, as 4.5 mm.",
        ),
        (
            "hook",
            "5.5 mm x",
            "`mm x` is not a unit that is known here.",
            4,
            8,
            "Did you mean `mm`?",
        ),
        (
            "hook",
            "many",
            "`many` is a name of a hook, or none, and its size is needed.",
            0,
            4,
            "Write its diameter in mm; the name may stand behind it: `5 mm (US H/8)`.",
        ),
        (
            "hook",
            "5 kg",
            "`kg` is a unit of mass, and a length is due here.",
            2,
            4,
            "Write a length, in mm, cm, m, in, ft or yd.",
        ),
        (
            "hook",
            "1,5 mm",
            "`1,5 mm` has a comma inside the number.",
            0,
            6,
            "Was `1.5 mm` meant? Write it with a point, or in full.",
        ),
        (
            "hook",
            "-3 mm",
            "`-3 mm` is less than nothing, and a size of a hook is due here.",
            0,
            5,
            "Leave the minus sign out.",
        ),
        (
            "hook",
            "5 mm (6, 7)",
            "`5 mm (6, 7)` is not a size of a hook.",
            0,
            11,
            "Write the first size, then the others in brackets: 76 (86, 97, 107) cm.",
        ),
        (
            "number",
            "",
            "Nothing is written, and a number is due.",
            0,
            1,
            "Write a number, as 20 or 17.5.",
        ),
        (
            "number",
            "5 in",
            "`in` follows the number, and a number alone is due here.",
            2,
            4,
            "Leave the number alone, without a unit.",
        ),
        ("number", "many", "`many` is not a number.", 0, 4, "Write a number, as 20 or 17.5."),
        (
            "number",
            "-3",
            "`-3` is less than nothing, and a number is due here.",
            0,
            2,
            "Leave the minus sign out.",
        ),
        (
            "number",
            "5, 6",
            "`5, 6` is not a number.",
            0,
            4,
            "Write the first size, then the others in brackets: 76 (86, 97, 107) cm.",
        ),
        (
            "length",
            "",
            "Nothing is written, and a length is due.",
            0,
            1,
            "Write a number and its unit, as 76 cm or 3 1/2 in.",
        ),
        (
            "length",
            "5",
            "`5` has no unit, and a length needs one.",
            0,
            1,
            "Write the unit behind the number, as 5 cm; in a list once, at its end.",
        ),
        (
            "length",
            "many",
            "`many` is not a length.",
            0,
            4,
            "Write a number and its unit, as 76 cm or 3 1/2 in.",
        ),
        (
            "length",
            "5 kg",
            "`kg` is a unit of mass, and a length is due here.",
            2,
            4,
            "Write a length, in mm, cm, m, in, ft or yd.",
        ),
        (
            "length",
            "5 ells",
            "`ells` is not a unit that is known here.",
            2,
            6,
            "Write mm, cm, m, in, ft or yd.",
        ),
        (
            "length",
            "1,5 cm",
            "`1,5 cm` has a comma inside the number.",
            0,
            6,
            "Was `1.5 cm` meant? Write it with a point, or in full.",
        ),
        (
            "length",
            "-3 cm",
            "`-3 cm` is less than nothing, and a length is due here.",
            0,
            5,
            "Leave the minus sign out.",
        ),
        (
            "mass",
            "",
            "Nothing is written, and a mass is due.",
            0,
            1,
            "Write a number and its unit, as 50 g or 1 3/4 oz.",
        ),
        (
            "mass",
            "5",
            "`5` has no unit, and a mass needs one.",
            0,
            1,
            "Write the unit behind the number, as 5 g; in a list once, at its end.",
        ),
        (
            "mass",
            "5 in",
            "`in` is a unit of length, and a mass is due here.",
            2,
            4,
            "Write a mass, in g, kg, oz or lb.",
        ),
        (
            "mass",
            "5 ells",
            "`ells` is not a unit that is known here.",
            2,
            6,
            "Write g, kg, oz or lb.",
        ),
        (
            "lengths",
            "",
            "A place in the list of sizes is empty.",
            0,
            1,
            "Write one value for each size, separated by commas: 80 (88, 96, 104).",
        ),
        (
            "lengths",
            "5",
            "`5` has no unit, and a length needs one.",
            0,
            1,
            "Write the unit behind the number, as 5 cm; in a list once, at its end.",
        ),
        (
            "lengths",
            "5 (6, 7",
            "A bracket is opened and never closed.",
            2,
            3,
            "Write the first size, then the others in brackets: 80 (88, 96, 104) (112, 120).",
        ),
        (
            "lengths",
            "5, 6 cm",
            "Sizes are listed without brackets.",
            1,
            2,
            "Write the first size, then the others in brackets: 80 (88, 96, 104) (112, 120).",
        ),
        (
            "lengths",
            "5 cm (6, 7)",
            "`6` has no unit, and a length needs one.",
            6,
            7,
            "Write the unit behind the number, as 6 cm; in a list once, at its end.",
        ),
        (
            "lengths",
            "5) cm",
            "A bracket is closed that was never opened.",
            1,
            2,
            "Write the first size, then the others in brackets: 80 (88, 96, 104) (112, 120).",
        ),
        (
            "lengths",
            "5 (6) (7) cm)",
            "`cm)` stands between the brackets of the list.",
            10,
            11,
            "Write the first size, then the others in brackets: 80 (88, 96, 104) (112, 120).",
        ),
        (
            "lengths",
            "5 (6, , 7) cm",
            "A place in the list of sizes is empty.",
            5,
            6,
            "Write one value for each size, separated by commas: 80 (88, 96, 104).",
        ),
        (
            "wholes",
            "",
            "A place in the list of sizes is empty.",
            0,
            1,
            "Write one value for each size, separated by commas: 80 (88, 96, 104).",
        ),
        (
            "wholes",
            "5.5",
            "`5.5` is not a whole number.",
            0,
            3,
            "Stitches, rows and pieces are counted in whole numbers.",
        ),
        ("wholes", "5 (6, x)", "`x` is not a number.", 6, 7, "Write a number, as 20 or 17.5."),
        (
            "density",
            "",
            "`` is not a length by mass.",
            0,
            0,
            "Write a length, a slash and a mass, as 400 m/100 g, or the count in tex.",
        ),
        (
            "density",
            "100",
            "`100` is not a length by mass.",
            0,
            3,
            "Write a length, a slash and a mass, as 400 m/100 g, or the count in tex.",
        ),
        (
            "density",
            "100 m",
            "`100 m` is not a length by mass.",
            0,
            5,
            "Write a length, a slash and a mass, as 400 m/100 g, or the count in tex.",
        ),
        (
            "density",
            "100 m / 50 ells",
            "`ells` is not a unit that is known here.",
            11,
            15,
            "Write cm, in, m, yd, g or oz.",
        ),
        (
            "density",
            "tex",
            "`tex` is not a length by mass.",
            0,
            3,
            "Write a length, a slash and a mass, as 400 m/100 g, or the count in tex.",
        ),
    ],
)
def test_a_quantity_that_cannot_be_read(
    reader: str, text: str, found: str, at: int, end: int, mend: str
) -> None:
    """The words at fault are marked, and the cure is said."""
    with pytest.raises(QuantityFault) as raised:
        getattr(quantities, reader)(text)
    assert (found, at, end, mend) == parts(raised.value)


def test_a_fault_without_an_end_marks_one_character() -> None:
    """So that there is something to point at."""
    assert (3, 4) == (QuantityFault("x", at=3).at, QuantityFault("x", at=3).end)


def test_every_part_of_a_formula_knows_its_place() -> None:
    """A message can point at any of them."""
    text = "min(hand, 2 * (bust - 1.5 cm)) + -hand"
    root = formulas.read(text).root
    assert isinstance(root, Operation)
    assert isinstance(root.left, Function)
    inner = root.left.parts[1]
    assert isinstance(inner, Operation)
    assert isinstance(inner.right, Operation)
    figure, negative = inner.right.right, root.right
    assert isinstance(figure, Figure)
    assert isinstance(negative, Negative)
    assert [
        text,
        "min(hand, 2 * (bust - 1.5 cm))",
        "hand",
        "2 * (bust - 1.5 cm",
        "bust - 1.5 cm",
        "1.5 cm",
        "-hand",
    ] == [
        text[part.at : part.end]
        for part in (root, root.left, root.left.parts[0], inner, inner.right, figure, negative)
    ]


@pytest.mark.parametrize(("text", "mm"), [("6 in. + 1 cm", 1624), ("6 in.", 1524), ("6 in", 1524)])
def test_an_inch_may_have_its_point(text: str, mm: int) -> None:
    """``in.`` is a unit, and no end of a sentence."""
    assert Fraction(mm, 10) == formulas.read(text).length({})


def test_brackets_side_by_side_are_not_deep() -> None:
    """Sixteen within each other are too many, and sixteen behind each other are not."""
    assert 20 == formulas.read(" + ".join(["(1)"] * 20)).count({})
    assert 1 == formulas.read("(" * 15 + "1" + ")" * 15).count({})


@pytest.mark.parametrize(
    ("text", "count"),
    [
        ("a + b", 11),
        ("a - b", 7),
        ("a * b", 18),
        ("a / 3", 3),
        ("a / b", None),
        ("a / 0", None),
        ("a + 1.5", None),
        ("a + 1/2", None),
        ("a * 2 + 1", 19),
        ("a * 111111", 999999),
        ("c", None),
    ],
)
def test_whole_numbers_are_counted_quickly_where_all_is_whole(text: str, count: int | None) -> None:
    """The quick way gives the number or nothing, and never another one than the exact way."""
    formula = formulas.read(text)
    values = {"a": 9, "b": 2}
    assert count == formula.whole(values)
    if count is not None:
        assert count == formula.count(values)


def test_a_length_is_a_formula_too() -> None:
    """``30 cm`` where a formula may stand."""
    formula = formulas.of_length("30 cm", Fraction(300))
    assert (Fraction(300), frozenset(), (0, 5)) == (
        formula.length({}),
        formula.names,
        (formula.root.at, formula.root.end),
    )


def test_the_smallest_hooks_are_hooks() -> None:
    """Steel hooks are thinner than a millimetre."""
    assert [Fraction(3, 5), Fraction(1, 2)] == [quantities.hook("0.6 mm"), quantities.hook(".5 mm")]
