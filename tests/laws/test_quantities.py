"""Laws of quantities and formulas: nothing but a fault is raised, and what is exact stays exact."""

from __future__ import annotations

import operator
from collections.abc import Callable
from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from workeven.arithmetic import formulas
from workeven.arithmetic import quantities as q
from workeven.arithmetic.formulas import FormulaFault
from workeven.arithmetic.quantities import QuantityFault
from workeven.arithmetic.units import INCH, UNITS

_UNITS = sorted(UNITS)
#: what strangers write, near to what is read
_LIKELY = st.text(alphabet=' 0123456789.,/()½¾-−+*cminyd"gozlbte×sx', max_size=40)
_ANY = st.text(max_size=60) | _LIKELY


@given(text=_ANY)
@pytest.mark.parametrize(
    "read", ["length", "mass", "number", "whole", "lengths", "masses", "wholes", "by_size"]
)
def test_any_text_is_read_or_is_a_fault_within_it(read: str, text: str) -> None:
    """No other exception, and the stretch at fault lies in the text."""
    fault = _fault_of(lambda: getattr(q, read)(text))
    if fault is not None:
        assert 0 <= fault.at <= len(text)
        assert fault.at < fault.end
        assert str(fault)


@given(text=_ANY)
def test_any_text_is_a_formula_or_a_fault_within_it(text: str) -> None:
    """No other exception, when read or when worked out."""
    fault = _fault_of(lambda: _worked_out(text))
    if fault is not None:
        assert 0 <= fault.at <= max(len(text), formulas.LONGEST)
        assert str(fault)


def _worked_out(text: str) -> Fraction:
    formula = formulas.read(text)
    return formula.count(dict.fromkeys(formula.names, 7))


def _fault_of(read: Callable[[], object]) -> QuantityFault | FormulaFault | None:
    """The fault that is raised, if any; every other exception goes through."""
    try:
        read()
    except (QuantityFault, FormulaFault) as fault:
        return fault
    return None


@given(
    whole=st.integers(0, 10**6),
    over=st.integers(0, 99),
    under=st.integers(1, 99),
    unit=st.sampled_from([unit for unit in _UNITS if UNITS[unit][0] == "length"]),
)
def test_mixed_numbers_are_exact(whole: int, over: int, under: int, unit: str) -> None:
    """So many units and so many parts of one."""
    expected = (whole + Fraction(over, under)) * UNITS[unit][1]
    assert expected == q.length(f"{whole} {over}/{under} {unit}")


@given(items=st.lists(st.integers(0, 9999), min_size=2, max_size=24), data=st.data())
def test_list_by_size_reads_as_it_was_written(items: list[int], data: st.DataObject) -> None:
    """However the brackets are set, the numbers are the same, in order."""
    first, *rest = map(str, items)
    cut = data.draw(st.integers(0, len(rest) - 1))
    groups = [", ".join(group) for group in (rest[:cut], rest[cut:]) if group]
    text = f"{first} {' '.join(f'({group})' for group in groups)}"
    assert tuple(items) == q.wholes(text)
    assert [10 * item for item in items] == list(q.lengths(f"{text} cm"))


@given(mm=st.fractions(0, 5000, max_denominator=1000))
def test_printed_lengths_are_the_nearest_of_their_steps(mm: Fraction) -> None:
    """Read back, a half centimetre is at most 2.5 mm off, a quarter inch at most an eighth inch."""
    assert abs(q.length(q.print_cm(mm)) - mm) <= Fraction(5, 2)
    assert abs(q.length(q.print_in(mm)) - mm) <= INCH / 8
    assert abs(Fraction(q.decimal_cm(mm)) * 10 - mm) <= Fraction(1, 200)


@given(mm=st.fractions(0, 10**6, max_denominator=1000))
def test_amounts_of_yarn_are_never_printed_short(mm: Fraction) -> None:
    """What is printed is enough, and less than one whole more."""
    assert 0 <= q.length(q.print_metres(mm)) - mm < 1000
    assert 0 <= q.length(q.print_yards(mm)) - mm < Fraction("914.4")


_SIGNS = {"+": operator.add, "-": operator.sub, "*": operator.mul}


@st.composite
def _sums(draw: st.DrawFn, depth: int = 3) -> tuple[str, Fraction]:
    """A formula over the counts a and b, fully bracketed, and its value."""
    if depth == 0 or draw(st.booleans()):
        return draw(st.sampled_from([("a", Fraction(12)), ("b", Fraction(5)), ("3", Fraction(3))]))
    sign = draw(st.sampled_from(sorted(_SIGNS)))
    left, right = draw(_sums(depth - 1)), draw(_sums(depth - 1))
    return f"({left[0]} {sign} {right[0]})", _SIGNS[sign](left[1], right[1])


@given(written=_sums())
def test_bracketed_formulas_have_the_value_of_their_tree(written: tuple[str, Fraction]) -> None:
    """The grammar works out what the brackets say."""
    text, value = written
    assert value == formulas.read(text).count({"a": 12, "b": 5})


@given(numbers=st.lists(st.integers(1, 99), min_size=2, max_size=8), data=st.data())
def test_signs_bind_as_at_school(numbers: list[int], data: st.DataObject) -> None:
    """Without brackets, products come before sums, and from left to right."""
    signs = [data.draw(st.sampled_from("+-*/")) for _ in numbers[1:]]
    text = str(numbers[0])
    products, last = Fraction(0), Fraction(numbers[0])
    for sign, number in zip(signs, numbers[1:], strict=True):
        text += f" {sign} {number}"
        if sign in "*/":
            last = last * number if sign == "*" else last / number
        else:
            products, last = products + last, Fraction(number if sign == "+" else -number)
    value = products + last
    if abs(value) <= formulas.LARGEST:
        assert value == formulas.read(text).count({})
