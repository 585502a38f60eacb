"""Lengths, masses, numbers and trade lists are read exactly, and faults name their place."""

from __future__ import annotations

import pickle
import subprocess
import sys
from fractions import Fraction
from typing import Any

import pytest

from workeven.arithmetic import quantities
from workeven.arithmetic.quantities import QuantityFault
from workeven.arithmetic.units import UNITS


@pytest.mark.parametrize(
    ("text", "mm"),
    [
        ("76 cm", Fraction(760)),
        ("1.5 cm", Fraction(15)),
        (".5 in", Fraction(127, 10)),
        ("15mm", Fraction(15)),
        ("2 m", Fraction(2000)),
        ("3 1/2 in", Fraction(889, 10)),
        ("3-1/2 in", Fraction(889, 10)),
        ("3½ in", Fraction(889, 10)),
        ("3 ½ inches", Fraction(889, 10)),
        ('3.5"', Fraction(889, 10)),
        ("½ in.", Fraction(127, 10)),
        ("1/3 yd", Fraction(3048, 10)),
        ("2 ft", Fraction(6096, 10)),
        (" 10\u00a0cm ", Fraction(100)),
    ],
)
def test_lengths_are_exact_in_every_common_spelling(text: str, mm: Fraction) -> None:
    """Integer, decimal, fraction, mixed number and printed fraction give the same millimetres."""
    assert mm == quantities.length(text)


@pytest.mark.parametrize(
    ("text", "grams"),
    [
        ("11.4 g", Fraction(114, 10)),
        ("0.5 kg", Fraction(500)),
        ("1 oz", Fraction(28349523125, 10**9)),
        ("1 lb", Fraction(45359237, 10**5)),
    ],
)
def test_masses_are_exact(text: str, grams: Fraction) -> None:
    """A mass comes as an exact fraction of grams."""
    assert grams == quantities.mass(text)


def _fault(read: str, text: str) -> tuple[str, str, str]:
    """What the reader says is wrong, the stretch it points at, and how to mend it."""
    with pytest.raises(QuantityFault) as caught:
        getattr(quantities, read)(text)
    fault = caught.value
    return fault.found, text[fault.at : fault.end], fault.mend


def test_comma_asks_whether_a_point_was_meant() -> None:
    """A decimal comma is never read as anything: the designer is asked."""
    assert (
        "`1,5 cm` has a comma inside the number.",
        "1,5 cm",
        "Was `1.5 cm` meant? Write it with a point, or in full.",
    ) == _fault("length", "1,5 cm")


def test_comma_before_three_digits_asks_about_thousands_too() -> None:
    """With three digits behind the comma it could be either."""
    assert (
        "`1,500 m` has a comma inside the number.",
        "1,500 m",
        "Was `1.500 m`, or `1500 m` meant? Write it with a point, or in full.",
    ) == _fault("length", "1,500 m")


def test_missing_unit_is_said_with_an_example() -> None:
    """A bare number is no length."""
    assert (
        "`76` has no unit, and a length needs one.",
        "76",
        "Write the unit behind the number, as 76 cm; in a list once, at its end.",
    ) == _fault("length", "76")


def test_misspelt_unit_gets_a_suggestion() -> None:
    """The nearest known unit is offered, and the unit alone is pointed at."""
    assert ("`cms` is not a unit that is known here.", "cms", "Did you mean `cm`?") == _fault(
        "length", "76 cms"
    )


def test_mass_where_a_length_is_due_is_said() -> None:
    """Grams are no centimetres."""
    assert (
        "`g` is a unit of mass, and a length is due here.",
        "g",
        "Write a length, in mm, cm, m, in, ft or yd.",
    ) == _fault("length", "50 g")


@pytest.mark.parametrize(
    "text",
    [
        *("", "  ", "cm", "-3 cm", "1/0 in", "1e3 cm", "nan cm", "inf cm", "0x10 cm", "٣ cm"),
        *("9**9**8 cm", "1 2 cm", "3 1/2/3 in", "76–80 cm", "1.5.2 cm", "1_000 m", "12 . 5 cm"),
        *("1" * 5000 + " cm", "5 cm\n", "5 cm cm", "0.1234567891 cm", "½½ in", "76, 86, 97 cm"),
    ],
)
def test_what_is_no_length_is_refused(text: str) -> None:
    """Nothing that a float or Pint would accept slips through, and the place is inside the text."""
    with pytest.raises(QuantityFault) as caught:
        quantities.length(text)
    assert 0 <= caught.value.at <= len(text)
    assert len(caught.value.found) < 200


def test_number_alone_refuses_a_unit() -> None:
    """Stitches of a gauge are a plain number."""
    assert (
        "`cm` follows the number, and a number alone is due here.",
        "cm",
        "Leave the number alone, without a unit.",
    ) == _fault("number", "20 cm")


def test_numbers_may_be_halves() -> None:
    """A gauge of 17½ stitches is a gauge."""
    assert Fraction(35, 2) == quantities.number("17½")


def test_whole_numbers_are_whole() -> None:
    """Half a stitch is refused where stitches are counted."""
    assert 60 == quantities.whole("60")
    assert "`17.5` is not a whole number." == _fault("whole", "17.5")[0]


def test_list_by_size_gives_items_with_their_places() -> None:
    """Each item of a trade list keeps its offset."""
    text = "XS/S (M/L, 2X) (3X, 4X)"
    items = quantities.by_size(text)
    assert ("XS/S", "M/L", "2X", "3X", "4X") == tuple(item for item, _ in items)
    assert all(text[at : at + len(item)] == item for item, at in items)


@pytest.mark.parametrize(
    "text",
    [
        "76 (86, 97) (107) cm",
        "76 cm (86 cm, 97 cm, 107 cm)",
        "(76, 86, 97, 107) cm",
        "76(86,97,107)cm",
        "76 (86, 97, 107 cm)",
        "76 (86, 970 mm, 107) cm",
    ],
)
def test_lengths_by_size_take_the_unit_once_or_with_each(text: str) -> None:
    """The same four lengths in every spelling."""
    assert [760, 860, 970, 1070] == list(quantities.lengths(text))


def test_one_length_stands_for_all_sizes() -> None:
    """A lone value is a list of one, for the asker to spread."""
    assert (Fraction(60),) == quantities.lengths("6 cm")


def test_lists_of_masses_and_wholes() -> None:
    """Masses and whole numbers by size follow the same rule."""
    assert [50, 60, 70] == list(quantities.masses("50 (60, 70) g"))
    assert (6, 6, 7) == quantities.wholes("6 (6, 7)")


@pytest.mark.parametrize(
    ("read", "text", "found", "stretch"),
    [
        ("lengths", "76 (86, 97", "A bracket is opened and never closed.", "("),
        ("lengths", "76 86) cm", "A bracket is closed that was never opened.", ")"),
        ("lengths", "76 ((86), 97) cm", "A bracket is opened inside another one.", "("),
        ("lengths", "76 (86, , 97) cm", "A place in the list of sizes is empty.", " "),
        (
            "lengths",
            "76 (86) 97 cm (9)",
            "`97 cm (9)` stands between the brackets of the list.",
            "9",
        ),
        ("lengths", "76, 86, 97 cm", "Sizes are listed without brackets.", ","),
        ("by_size", "S, M, L", "Sizes are listed without brackets.", ","),
        ("by_size", "S (M, L) cm", "`cm` stands after the last bracket.", "cm"),
        ("lengths", "76 (86, 97)", "`76` has no unit, and a length needs one.", "76"),
        ("lengths", "76 cm (86, 97)", "`86` has no unit, and a length needs one.", "86"),
        ("lengths", "76 (86, x) cm", "`x` is not a length.", "x"),
        ("lengths", "76 (86, 97) g", "`g` is a unit of mass, and a length is due here.", "g"),
        ("lengths", "76 (86, 97) cn", "`cn` is not a unit that is known here.", "cn"),
        (
            "lengths",
            "18 (20,5, 22) cm",
            "`20,5` has a comma without a blank, unlike the others of the list.",
            "20,5",
        ),
        ("wholes", "6 (6½, 7)", "`6½` is not a whole number.", "6½"),
    ],
)
def test_faults_of_lists_name_their_place(read: str, text: str, found: str, stretch: str) -> None:
    """The offset is counted in the whole text, not in the item."""
    assert (found, stretch) == _fault(read, text)[:2]


@pytest.mark.parametrize(
    ("text", "mm_per_gram"),
    [
        ("400 m/100 g", Fraction(4000)),
        ("400 m per 100 g", Fraction(4000)),
        ("100 g/400 m", Fraction(4000)),
        ("m/g", Fraction(1000)),
        ("250 tex", Fraction(4000)),
        ("2500 dtex", Fraction(4000)),
        ("400 tex", Fraction(2500)),
        ("1 yd/oz", Fraction(9144, 10) / Fraction(28349523125, 10**9)),
    ],
)
def test_density_is_exact_millimetres_to_the_gram(text: str, mm_per_gram: Fraction) -> None:
    """A ball of 50 g and 125 m is 400 tex (ISO 1144's unit: grams in 1000 m)."""
    assert mm_per_gram == quantities.density(text)


@pytest.mark.parametrize(
    ("text", "stretch"),
    [
        ("400 m", "400 m"),
        ("400 m/0 g", "400 m/0 g"),
        ("0 m/100 g", "0 m/100 g"),
        ("0 tex", "0 tex"),
        ("400 m/100 m", "400 m/100 m"),
        ("400 m/100 q", "q"),
        ("1,5 m/g", "1,5 m"),
        ("9**9**8 tex", "9**9**8 tex"),
        ("9**9**8 g/m", "9**9**8 g"),
        ("1/2/3 m/g", "1/2/3 m/g"),
    ],
)
def test_what_is_no_density_is_refused_before_pint_sees_it(text: str, stretch: str) -> None:
    """Texts on which Pint hangs or errs are refused by our own pattern."""
    assert stretch == _fault("density", text)[1]


def test_table_of_units_equals_pints() -> None:
    """Every unit of the closed table has the factor that Pint gives it, exactly."""
    from pint import UnitRegistry

    registry: Any = UnitRegistry(non_int_type=Fraction)
    base = {"length": "millimeter", "mass": "gram"}
    expected = {
        unit: Fraction(registry.Quantity(Fraction(1), name).to(base[dimension]).magnitude)
        for unit, (dimension, _, name) in UNITS.items()
    }
    assert expected == {unit: factor for unit, (_, factor, _) in UNITS.items()}


def test_common_quantities_do_not_load_pint() -> None:
    """Pint takes 150 ms to load: lengths, masses and lists do without."""
    code = (
        "import sys; from workeven.arithmetic import quantities as q, formulas as f;"
        "q.lengths('76 (86, 97) cm'); q.mass('50 g'); f.read('bust + 5 cm');"
        "print('pint' in sys.modules)"
    )
    path = ":".join(part for part in sys.path if part)
    ran = subprocess.run(
        [sys.executable, "-c", code],
        capture_output=True,
        text=True,
        check=True,
        env={"PYTHONPATH": path},
    )
    assert "False" == ran.stdout.strip()


def test_faults_cross_processes() -> None:
    """A fault keeps its places when pickled."""
    fault = QuantityFault("x", at=3, end=5, mend="y")
    copy = pickle.loads(pickle.dumps(fault))  # noqa: S301, our own bytes
    assert ("x", 3, 5, "y") == (copy.found, copy.at, copy.end, copy.mend)
