"""The hooks that a file gives, and whether they are sold and called so.

Takes     the values under ``hook`` and ``hooks``; for the checks, ``Pattern``.
Gives     ``hook_given``, ``hooks_listed``, ``with_hooks``; ``hook_name``, ``hook_unsold``.
Problems  ``hook-differs``, ``hook-name``, ``hook-unsold``, those of ``reading``.
From      design.md, "A pattern file": ``hooks``; ``standards.hooks``: what sizes and names there
          are, recalled rows too, so that nothing is told of a hook that some maker has.

A hook is given in mm, and its name may stand behind: ``4 mm (US G/6)``, ``4 mm G-6``. The tables
are read only for a name, or for a size that is not among the usual ones.
"""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator
from fractions import Fraction

from workeven.arithmetic.printing import decimal
from workeven.pattern.hook_records import GivenHook
from workeven.pattern.reading import Reading, entries, words
from workeven.pattern.records import Gauge, Pattern
from workeven.problems import Note, Problem
from workeven.problems.words import joined, quote
from workeven.records import replace
from workeven.source import Node

_NAMED = re.compile(
    r"(?P<mm>.*?mm\b)[\s,;/(]*(?P<name>.*?)[\s,;]*(?:\bhook)?[\s)]*", re.IGNORECASE | re.DOTALL
)
#: sizes that the tables have (0.01 mm); a test holds them against these
USUAL = frozenset(
    (200, 225, 250, 275, 300, 325, 350, 375, 400, 425, 450, 500, 550, 600, 650, 700, 800, 900, 1000)
)


def hook_given(reading: Reading, of: str, node: Node | None) -> GivenHook | None:
    """The hook that stands there; None where there is none, or it could not be read."""
    if node is None:
        return None
    found = _NAMED.fullmatch(words(node))
    mm = reading.hook(node, found["mm"] if found else None)
    if mm is None:
        return None
    name = found["name"] if found else ""
    return GivenHook(of=of, mm=mm, name=name, span=reading.source.span(node))


def hooks_listed(reading: Reading, table: Node | None) -> tuple[GivenHook, ...]:
    """The hooks of the table ``hooks``; one that could not be read is told and left out."""
    found = (hook_given(reading, name, entry.value) for name, entry in entries(table).items())
    return tuple(hook for hook in found if hook is not None)


def with_hooks(
    reading: Reading, gauges: tuple[Gauge, ...], listed: tuple[GivenHook, ...]
) -> tuple[tuple[Gauge, ...], tuple[GivenHook, ...]]:
    """The gauges, each with the hook that is listed under its name; and the other hooks."""
    by_name = {hook.of: hook for hook in listed}
    for gauge in gauges:
        here, there = by_name.get(gauge.name), gauge.hook
        if here is not None and there is not None and here.mm != there.mm:
            reading.tell(_differs(here, there))
    made = tuple(
        replace(gauge, hook=by_name[gauge.name])
        if gauge.hook is None and gauge.name in by_name
        else gauge
        for gauge in gauges
    )
    names = {gauge.name for gauge in gauges}
    return made, tuple(hook for hook in listed if hook.of not in names)


def hook_name(pattern: Pattern) -> Iterator[Problem]:
    """A name beside the mm that the tables give to another size, or to none."""
    for hook in _hooks(pattern):
        if not hook.name:
            continue
        from workeven.standards import hooks as tables  # few patterns name their hooks

        called = tables.called(hook.name)
        if any(one.mm == hook.mm for one in called):
            continue
        meant = joined((_mm(mm) for mm in sorted({one.mm for one in called})), "or")
        yield Problem(
            code="hook-name",
            span=hook.span,
            found=f"{quote(hook.name)} is said of a {_mm(hook.mm)} hook."
            if called
            else f"No published table has a hook that is called {quote(hook.name)}.",
            expected=(f"{quote(hook.name)} is {meant} by the published tables. " if meant else "")
            + f"They have {_named(hook.mm)}.",
            mend="Look which of both is meant. The page adds the names of the tables, so the mm "
            "alone will do; if your maker calls it so, allow it with the reason.",
        )


def hook_unsold(pattern: Pattern) -> Iterator[Problem]:
    """A size that no table has; one whose name is told of is not told again."""
    for hook in _hooks(pattern):
        if hook.mm * 100 in USUAL:
            continue
        from workeven.standards import hooks as tables  # for a size that is not usual alone

        near = tables.nearest(hook.mm)
        if hook.mm in near or (hook.name and tables.called(hook.name)):
            continue
        yield Problem(
            code="hook-unsold",
            span=hook.span,
            found=f"No published table has a hook of {_mm(hook.mm)}.",
            expected=f"{joined(map(_named, near), 'or')}: the nearest that tables have.",
            mend="Look whether the size is right. If your maker sells it, allow it with the "
            "reason.",
        )


# --- in parts ------------------------------------------------------------------------------


def _differs(here: GivenHook, there: GivenHook) -> Problem:
    return Problem(
        code="hook-differs",
        span=here.span,
        found=f"The hook of {quote(here.of)} is {_mm(here.mm)} here, and {_mm(there.mm)} under "
        "`gauge`.",
        expected="One hook for a gauge.",
        mend="Write it in one of the two places, or the same in both.",
        notes=(Note(span=there.span, message=f"{_mm(there.mm)} stands here."),),
    )


def _hooks(pattern: Pattern) -> Iterable[GivenHook]:
    """Each distinct hook with its name, where it first stands."""
    first: dict[tuple[Fraction, str], GivenHook] = {}
    of_gauges = (gauge.hook for gauge in pattern.gauges if gauge.hook is not None)
    for hook in (*of_gauges, *pattern.hooks):
        first.setdefault((hook.mm, hook.name), hook)
    return first.values()


def _named(mm: Fraction) -> str:
    """``4 mm (US G/6, old UK 8, Japan 7/0)``, or the size alone."""
    from workeven.standards import hooks as tables  # needed by messages alone

    names = ", ".join(f"{one.system} {one.name}" for one in tables.names_of(mm))
    return f"{_mm(mm)} ({names})" if names else f"{_mm(mm)} without a name"


def _mm(mm: Fraction) -> str:
    return f"{decimal(mm)} mm"
