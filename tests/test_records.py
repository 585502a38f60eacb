"""Records: equal by their values, within one class, and never changed."""

from __future__ import annotations

import copy
import pickle

import pytest

from workeven.records import field, fields, is_record, record, record_by_position, replace


@record
class Ball:
    """A put-up, with something remembered of it."""

    metres: int
    grams: int = 50
    seen: list[int] = field(default_factory=list, init=False, compare=False, repr=False)


@record_by_position
class Turn:
    """A node without fields."""


@record_by_position
class Fasten:
    """Another."""


@record_by_position
class Next:
    """A node of one field."""

    count: int


@record_by_position
class Last:
    """Another of the same field."""

    count: int


def test_records_of_equal_values_are_equal() -> None:
    """What is compared decides, and equal records count once in a set."""
    one, other = Ball(metres=120), Ball(metres=120)
    other.seen.append(1)
    assert one == other
    assert len({one, other, Ball(metres=121)}) == 2


@pytest.mark.parametrize(("one", "other"), [(Turn(), Fasten()), (Next(3), Last(3)), (Next(3), 3)])
def test_records_of_two_classes_differ(one: object, other: object) -> None:
    """The same values in another class are another fact."""
    assert one != other
    assert Next(3) == Next(3)
    assert Turn() == Turn()


def test_a_record_shows_what_it_holds() -> None:
    """What pytest prints of a failed comparison can be read."""
    assert repr(Ball(metres=120)) == "Ball(metres=120, grams=50)"
    assert repr(Turn()) == "Turn()"


def test_a_record_takes_no_field_that_it_does_not_name() -> None:
    """Records have slots and nothing else."""
    with pytest.raises(AttributeError):
        Next(3).where = 4  # type: ignore[attr-defined]


def test_a_changed_record_is_another() -> None:
    """``replace`` leaves the first as it was."""
    one = Ball(metres=120)
    assert (replace(one, grams=100), one) == (Ball(metres=120, grams=100), Ball(metres=120))


def test_a_copy_is_equal() -> None:
    """Copied and pickled records are the same facts."""
    one = Ball(metres=120)
    assert [one, one] == [copy.copy(one), pickle.loads(pickle.dumps(one))]  # noqa: S301, our own


def test_mypy_refuses_to_set_a_field() -> None:
    """Were it no error, mypy would complain of what it is told to ignore here."""

    def change(one: Ball, other: Next) -> None:
        one.grams = 100  # type: ignore[misc]
        other.count = 4  # type: ignore[misc]

    assert callable(change)


def test_values_are_given_by_position_or_by_name_as_the_class_says() -> None:
    """The first record of a class is refused as any other is."""
    with pytest.raises(TypeError):
        Ball(120)  # type: ignore[call-arg]
    with pytest.raises(TypeError):
        Ball(metres=120, colour="grey")  # type: ignore[call-arg]
    with pytest.raises(TypeError):
        Ball()  # type: ignore[call-arg]
    assert Next(count=3) == Next(3)


def test_what_is_made_for_each_record_is_its_own() -> None:
    """A list that one record fills is not that of the next."""
    Ball(metres=120).seen.append(1)
    assert Ball(metres=120).seen == []


def test_a_record_is_matched_by_the_values_that_are_given_by_position() -> None:
    """A record written by name has none of them."""
    assert (("count",), ()) == (Next.__match_args__, Ball.__match_args__)


def test_a_record_is_no_class_of_records() -> None:
    """What walks a tree stops at anything else."""
    assert [True, False, False] == [is_record(one) for one in (Next(3), Next, 3)]
    assert ["metres", "grams", "seen"] == [one.name for one in fields(Ball)]
