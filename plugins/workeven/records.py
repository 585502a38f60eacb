"""How a record is made: a class with slots whose fields are never set again.

Takes     a class with annotated fields.
Gives     ``record``, written with the names of its fields; ``record_by_position``; ``field``,
          ``fields``, ``is_record``, ``replace``.
Problems  none.
From      DEVELOPERS.md, "Measured".

To who reads and to mypy a record is a frozen dataclass. The module ``dataclasses`` itself took a
sixth of a check of one file: it loads what reads Python (``inspect``, ``ast``), and it writes and
compiles ``__init__`` of two hundred classes, of which a pattern makes half. Here ``__init__`` is
written when the first record of a class is made; all else records share. That no field is set
again is held by the type checker, not while a check runs: setting one is an error of mypy, in the
tests too.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator
from operator import attrgetter
from typing import TYPE_CHECKING, Any, Final, TypeVar, dataclass_transform

__all__ = ("Field", "field", "fields", "is_record", "record", "record_by_position", "replace")

T = TypeVar("T")

#: no default is given; no value is given where a factory makes one
_NOTHING: Final = object()


class Field:
    """What a class says of one of its fields; ``told`` where its value is given to the class."""

    __slots__ = ("compare", "default", "factory", "name", "repr", "told")

    def __init__(self, **said: Any) -> None:  # noqa: ANN401, a default is any value
        self.name: str = said.get("name", "")
        self.default: object = said.get("default", _NOTHING)
        self.factory: object = said.get("default_factory", _NOTHING)
        self.told: bool = said.get("init", True)
        self.compare: bool = said.get("compare", True)
        self.repr: bool = said.get("repr", True)


def _changed(one: Any, /, **changes: Any) -> Any:  # noqa: ANN401, whatever record
    """The same record with other values in the named fields."""
    for each in fields(one):
        if each.told and each.name not in changes:
            changes[each.name] = getattr(one, each.name)
    return type(one)(**changes)


if TYPE_CHECKING:  # to mypy both are those of a dataclass, so that it checks names and values
    from dataclasses import field, replace
else:
    field, replace = Field, _changed


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
    made: type[T] = _made(facts, by_name=True)
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
    made: type[T] = _made(facts, by_name=False)
    return made


def is_record(one: object) -> bool:
    """Whether this is a record, and no class of records.

    >>> is_record(Field(name="metres")), is_record(3)
    (False, False)
    """
    return hasattr(type(one), "__record_fields__")


def fields(of: Any) -> tuple[Field, ...]:  # noqa: ANN401, whatever record, or its class
    """The fields of a record in the order of its class."""
    told: tuple[Field, ...] = of.__record_fields__
    return told


# --- the class -----------------------------------------------------------------------------


def _made(facts: Any, *, by_name: bool) -> Any:  # noqa: ANN401, a class of any record
    """The class anew, with slots: one that stands cannot be given any."""
    own = {name: said for name, said in vars(facts).items() if name not in _OF_NO_SLOTS}
    told = tuple(_field(name, own.pop(name, _NOTHING)) for name in facts.__annotations__)
    own["__slots__"] = tuple(one.name for one in told)
    own["__match_args__"] = () if by_name else tuple(one.name for one in told if one.told)
    own["__record_fields__"] = told
    own["__init__"] = _first
    if "__eq__" not in own:
        compared = _reader(tuple(one.name for one in told if one.compare))
        own["__eq__"], own["__hash__"] = _equality(compared), _hash(compared)
    own.setdefault("__repr__", _as_written)
    made: Any = type(facts.__name__, facts.__bases__, own)
    made.__qualname__ = facts.__qualname__
    return made


_OF_NO_SLOTS: Final = ("__dict__", "__weakref__")


def _field(name: str, said: object) -> Field:
    found = said if isinstance(said, Field) else Field(default=said)
    found.name = name
    return found


def _reader(names: tuple[str, ...]) -> Callable[[Any], Any]:
    """Reads the values that make two records equal: all in one, or the only one as it is."""
    return attrgetter(*names) if names else lambda _one: ()


def _equality(compared: Callable[[Any], Any]) -> Callable[[Any, object], object]:
    def equal(one: Any, other: object) -> object:  # noqa: ANN401, whatever record
        if other is one:
            return True
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


# --- its values ----------------------------------------------------------------------------


def _first(one: Any, *values: Any, **named: Any) -> None:  # noqa: ANN401, whatever record
    """``__init__`` of a class of which no record was made yet: writes that of all others."""
    made = type(one)
    made.__init__ = _written(made)
    made.__init__(one, *values, **named)


def _written(made: type) -> Callable[..., None]:
    """``__init__`` as one would write it for this class."""
    told = fields(made)
    taken = ["self", *(_taken(one) for one in told if one.told)]
    if len(taken) > 1 and not vars(made)["__match_args__"]:
        taken.insert(1, "*")
    text = "\n".join((f"def __init__({', '.join(taken)}):", *_lines(made, told)))
    scope: dict[str, Any] = {"_nothing": _NOTHING}
    scope |= {f"_default_{one.name}": one.default for one in told}
    scope |= {f"_make_{one.name}": one.factory for one in told}
    exec(text, scope)  # noqa: S102, names of fields in our own classes
    written: Callable[..., None] = scope["__init__"]
    return written


def _taken(one: Field) -> str:
    """A field as a parameter."""
    if one.factory is not _NOTHING:
        return f"{one.name}=_nothing"
    return one.name if one.default is _NOTHING else f"{one.name}=_default_{one.name}"


def _lines(made: type, told: tuple[Field, ...]) -> Iterator[str]:
    """What is done with the values."""
    for one in told:
        make = f"_make_{one.name}()"
        if one.factory is _NOTHING:
            yield f" self.{one.name} = {one.name if one.told else f'_default_{one.name}'}"
        elif one.told:
            yield f" self.{one.name} = {make} if {one.name} is _nothing else {one.name}"
        else:
            yield f" self.{one.name} = {make}"
    yield " self.__post_init__()" if hasattr(made, "__post_init__") else " pass"
