"""Records as JSON and back, by the types of their fields: nothing else can be made of a text.

Takes     a record whose fields are texts, numbers, bytes, tuples and other such records.
Gives     ``written``, ``read``; ``NotWritten``, ``NotRead``.
Problems  none.
From      RFC 8259; the bytes stand behind it, and the JSON says how many there are of each.

A record is the list of its fields in order: which class it is of, the type of the field says. A
value of another type than its field has is never written as if it were (a text that is HTML is no
text), so what is read is what was written, type by type.
"""

from __future__ import annotations

import json
from collections.abc import Callable
from functools import cache
from types import NoneType, UnionType
from typing import Any, Literal, TypeVar, Union, get_args, get_origin, get_type_hints

from workeven.records import fields

T = TypeVar("T")
Bytes = list[bytes]
Writer = Callable[[Any, Bytes], Any]
Reader = Callable[[Any, Bytes], Any]

_LENGTH = 4


class NotWritten(TypeError):
    """There is a value that its field's type does not tell of."""


class NotRead(ValueError):
    """The text is of no such record."""


def written(one: object) -> bytes:
    """A record; raises ``NotWritten``."""
    stored: Bytes = []
    kind: Any = type(one)
    told = _both(kind)[0](one, stored)
    head = [[len(part) for part in stored], told]
    try:
        text = json.dumps(head, ensure_ascii=False, separators=(",", ":")).encode("utf-8")
    except UnicodeEncodeError as fault:  # half of a sign, which a name of a folder may hold
        raise NotWritten from fault
    return b"".join((len(text).to_bytes(_LENGTH, "big"), text, *stored))


def read(content: bytes, of: type[T]) -> T:
    """The record that was written; raises ``NotRead``."""
    kind: Any = of
    start = _LENGTH + int.from_bytes(content[:_LENGTH], "big")
    try:
        sizes, told = json.loads(content[_LENGTH:start])
        stored = []
        for size in sizes:
            stored.append(content[start : start + size])
            start += size
        if start != len(content):
            raise NotRead
        found: T = _both(kind)[1](told, stored)
    except (ValueError, TypeError, IndexError, RecursionError) as fault:
        raise NotRead from fault
    return found


@cache
def _both(of: Any) -> tuple[Writer, Reader]:  # noqa: ANN401, whatever type
    """What writes and what reads a value of a type."""
    origin, inside = get_origin(of), get_args(of)
    if of in (str, int, bool, NoneType):
        return _plain(of)
    if of is bytes:
        return _stored()
    if origin is Literal:
        return _one_of(inside)
    others = tuple(one for one in inside if one is not NoneType)
    if origin in (Union, UnionType) and len(others) == 1:
        return _or_none(others[0])
    if origin is tuple and inside[-1:] == (Ellipsis,):
        return _many(inside[0])
    if origin is tuple:
        return _in_order(tuple, inside, lambda one: one, lambda values: values)
    if hasattr(of, "__record_fields__"):
        return _record(of)
    raise NotWritten(of)


def _plain(of: type) -> tuple[Writer, Reader]:
    def write(one: object, _stored: Bytes) -> object:
        if type(one) is not of:
            raise NotWritten(type(one))
        return one

    def back(one: object, _stored: Bytes) -> object:
        if type(one) is not of:
            raise NotRead
        return one

    return write, back


def _stored() -> tuple[Writer, Reader]:
    def write(one: object, stored: Bytes) -> int:
        if type(one) is not bytes:
            raise NotWritten(type(one))
        stored.append(one)
        return len(stored) - 1

    def back(one: object, stored: Bytes) -> bytes:
        if type(one) is not int or one < 0:
            raise NotRead
        return stored[one]

    return write, back


def _one_of(values: tuple[object, ...]) -> tuple[Writer, Reader]:
    def write(one: object, _stored: Bytes) -> object:
        if type(one) is not str or one not in values:
            raise NotWritten(one)
        return one

    def back(one: object, _stored: Bytes) -> object:
        if one not in values:
            raise NotRead
        return one

    return write, back


def _or_none(of: object) -> tuple[Writer, Reader]:
    write, back = _both(of)
    return (
        lambda one, stored: None if one is None else write(one, stored),
        lambda one, stored: None if one is None else back(one, stored),
    )


def _many(of: object) -> tuple[Writer, Reader]:
    # a type may hold itself (an entry of contents those below it): asked for when there is one
    def write(one: object, stored: Bytes) -> list[object]:
        if type(one) is not tuple:
            raise NotWritten(type(one))
        each = _both(of)[0] if one else None
        return [each(value, stored) for value in one] if each else []

    def back(one: object, stored: Bytes) -> tuple[object, ...]:
        if type(one) is not list:
            raise NotRead
        each = _both(of)[1] if one else None
        return tuple([each(value, stored) for value in one]) if each else ()

    return write, back


def _in_order(
    of: type,
    types: tuple[object, ...],
    values_of: Callable[[Any], tuple[object, ...]],
    made: Callable[[tuple[object, ...]], object],
) -> tuple[Writer, Reader]:
    """Values one behind the other, each of a type of its own."""
    each = [_both(one) for one in types]

    def write(one: object, stored: Bytes) -> list[object]:
        if type(one) is not of:
            raise NotWritten(type(one))
        values = zip(each, values_of(one), strict=True)
        return [write_one(value, stored) for (write_one, _), value in values]

    def back(one: object, stored: Bytes) -> object:
        if type(one) is not list:
            raise NotRead
        values = zip(each, one, strict=True)
        return made(tuple([read_one(value, stored) for (_, read_one), value in values]))

    return write, back


def _record(of: Any) -> tuple[Writer, Reader]:  # noqa: ANN401, a class of records
    types = get_type_hints(of)
    names = tuple(one.name for one in fields(of))
    return _in_order(
        of,
        tuple(types[name] for name in names),
        lambda one: tuple([getattr(one, name) for name in names]),
        lambda values: of(**dict(zip(names, values, strict=True))),
    )
