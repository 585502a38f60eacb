"""How a record is made: a slotted dataclass whose fields are never set again.

Takes     a class with annotated fields.
Gives     ``record``, written with the names of its fields; ``record_by_position``.
Problems  none.
From      DEVELOPERS.md, "Measured".

``@dataclass(frozen=True, slots=True)`` writes six functions for each class and compiles them
whenever the module is loaded, which for all records was a third of a check of one file. Here
``dataclass`` writes ``__init__`` alone; records share the rest. That no field is set again is held
by the type checker, not while a check runs: setting one is an error of mypy, in the tests too.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass, field, fields
from operator import attrgetter
from typing import Any, TypeVar, dataclass_transform

T = TypeVar("T")


@dataclass_transform(frozen_default=True, kw_only_default=True, field_specifiers=(field,))
def record(facts: type[T]) -> type[T]:
    """A record that is written with the names of its fields: ``Span(file="a.yaml", line=3)``.

    >>> @record
    ... class Ball:
    ...     metres: int
    ...     grams: int = 50
    >>> Ball(metres=120), Ball(metres=120) == Ball(metres=120, grams=50)
    (Ball(metres=120, grams=50), True)
    """
    made = dataclass(slots=True, kw_only=True, eq=False, repr=False)(facts)
    _share(made)
    return made


@dataclass_transform(frozen_default=True, field_specifiers=(field,))
def record_by_position(facts: type[T]) -> type[T]:
    """A record that may be written, and matched, by position: ``Skip(Next(3), 0, 5)``.

    >>> @record_by_position
    ... class Next:
    ...     count: int
    >>> Next(3), len({Next(3), Next(3), Next(4)})
    (Next(count=3), 2)
    """
    made = dataclass(slots=True, eq=False, repr=False)(facts)
    _share(made)
    return made


def _share(made: Any) -> None:  # noqa: ANN401, a class whose methods are set
    """Give a class what records share, where it has nothing of its own."""
    own = vars(made)
    if "__eq__" not in own:
        compared = _reader(tuple(one.name for one in fields(made) if one.compare))
        made.__eq__, made.__hash__ = _equality(compared), _hash(compared)
    if "__repr__" not in own:
        made.__repr__ = _as_written


def _reader(names: tuple[str, ...]) -> Callable[[Any], Any]:
    """Reads the values that make two records equal: all in one, or the only one as it is."""
    return attrgetter(*names) if names else lambda _one: ()


def _equality(compared: Callable[[Any], Any]) -> Callable[[Any, object], object]:
    def equal(one: Any, other: object) -> object:  # noqa: ANN401, whatever record
        if other.__class__ is not one.__class__:
            return NotImplemented
        return compared(one) == compared(other)

    return equal


def _hash(compared: Callable[[Any], Any]) -> Callable[[Any], int]:
    def hashed(one: Any) -> int:  # noqa: ANN401, whatever record
        return hash(compared(one))

    return hashed


def _as_written(one: Any) -> str:  # noqa: ANN401, whatever record
    """The record as one would write it, each field with its name."""
    told = (f"{each.name}={getattr(one, each.name)!r}" for each in fields(one) if each.repr)
    return f"{type(one).__qualname__}({', '.join(told)})"
