"""Texts of a page as they read where nothing is chosen, without the marks of sizes and units."""

from __future__ import annotations

from typing import TypeVar

from markupsafe import Markup

from workeven.publish.pages.choices import plain
from workeven.records import replace

T = TypeVar("T")


def as_read(value: T) -> T:
    """A text, tuple, list or view with every text in it without marks."""
    return _read(value)  # type: ignore[return-value]


def _read(value: object) -> object:
    match value:
        case Markup():
            return Markup(plain(value))  # noqa: S704 -- it was markup before
        case str():
            return plain(value)
        case tuple():
            return tuple(map(_read, value))
        case list():
            return [_read(one) for one in value]
        case _ if type(value).__module__.startswith("workeven.publish.pages"):
            told = {name: _read(getattr(value, name)) for name in type(value).__annotations__}
            return replace(value, **told)  # type: ignore[type-var]  # a record, by its module
        case _:
            return value
