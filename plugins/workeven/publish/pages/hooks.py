"""The hooks of a page: each in mm first, then by the names that published tables have for it.

Takes     ``Pattern``.
Gives     ``hooks``, ``called``, ``notes``.
Problems  none.
From      ``standards.hooks``: the US, the old UK and the Japanese names, steel hooks.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from fractions import Fraction

from workeven.arithmetic import printing
from workeven.pattern import GivenHook, Pattern
from workeven.problems.words import joined
from workeven.publish.pages.both_terms import gauge
from workeven.standards import hooks as tables


def hooks(pattern: Pattern) -> tuple[str, ...]:
    """``4 mm hook (US G/6, old UK 8, Japan 7/0)`` with its use: those of gauges first."""
    of_gauges = [hook for one in pattern.gauges if (hook := one.hook) is not None]
    told = f", or the size that gives the {gauge(pattern.terms)}"
    return (
        *(f"{words}{told}" for words, _ in _told(of_gauges)),
        *(f"{words} for {joined(uses)}" for words, uses in _told(pattern.hooks)),
    )


def called(pattern: Pattern) -> tuple[str, ...]:
    """``4 mm (US G/6)``: in mm, and as US makers know it, the smallest first."""
    return tuple(
        _mm(mm) + _names(tuple(one for one in tables.names_of(mm) if one.system == tables.US))
        for mm in _sizes(pattern)
    )


def notes(pattern: Pattern) -> tuple[str, ...]:
    """A remark on each name that means several sizes."""
    found = dict.fromkeys(doubt for mm in _sizes(pattern) for doubt in tables.doubts(mm))
    return tuple(map(_doubt, found))


def _told(hooks: Iterable[GivenHook]) -> Iterator[tuple[str, list[str]]]:
    """Each size with its names and what is worked with it, the smallest first."""
    by_size: dict[Fraction, list[GivenHook]] = {}
    for hook in sorted(hooks, key=lambda one: one.mm):
        by_size.setdefault(hook.mm, []).append(hook)
    for mm, alike in by_size.items():
        said = next((f" ({one.name})" for one in alike if one.name), "")
        words = f"{_mm(mm)} hook{_names(tables.names_of(mm)) or said}"
        yield words, [one.of.replace("_", " ") for one in alike]


def _sizes(pattern: Pattern) -> list[Fraction]:
    of_gauges = (gauge.hook for gauge in pattern.gauges)
    return sorted({hook.mm for hook in (*of_gauges, *pattern.hooks) if hook is not None})


def _names(names: tuple[tables.HookName, ...]) -> str:
    listed = ", ".join(f"{one.system} {one.name}" for one in names)
    return f" ({listed})" if listed else ""


def _doubt(doubt: tables.Doubt) -> str:
    """``US G is 4 mm or 4.25 mm``, or ``US 7 is 4.5 mm, and in steel 1.65 mm``."""
    steel = [_mm(mm) for mm, system in doubt.sizes if system == tables.US_STEEL]
    plain = [_mm(mm) for mm, system in doubt.sizes if system != tables.US_STEEL]
    beside = f", and in steel {joined(steel, 'or')}" if steel else " depending on maker and table"
    return f"{doubt.system} {doubt.name} is {joined(plain, 'or')}{beside}: go by the mm."


def _mm(mm: Fraction) -> str:
    return f"{printing.decimal(mm)} mm"
