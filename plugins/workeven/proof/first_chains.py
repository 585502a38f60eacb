"""A first row that skips chains by number: "sk 3 ch, dc in next ch" is "dc in 4th ch from hook".

Takes     a line, and the starting chain that it is worked into.
Gives     ``from_the_hook``.
Problems  none.
From      notation.md, the table of skipped chains of the first row.

Leaflets in UK terms write so ("miss 3 ch, 1 tr in next ch"; common practice): what is skipped at
the head of the first row is its turning chain, and counts as such.
"""

from __future__ import annotations

from collections.abc import Mapping

from workeven.notation.tree import (
    ONE,
    Amount,
    Aside,
    Each,
    First,
    FromHook,
    Next,
    OneChain,
    Skip,
    SpecialStitch,
    Step,
    Stitch,
    Work,
)
from workeven.proof.fabric import Fabric
from workeven.proof.line import Line, line_of
from workeven.records import replace

_CHAINS = (OneChain(),)


def from_the_hook(own: Line, below: Fabric, special: Mapping[str, SpecialStitch]) -> Line:
    """The line with its first stitch counted from the hook, where it says what is skipped."""
    if not below.foundation or below.closed or below.ring:
        return own
    steps = own.facts.written
    at = next((at for at, step in enumerate(steps) if not isinstance(step, Aside)), 0)
    if len(steps) < at + 2:
        return own
    found = _counted_from_hook(steps[at], steps[at + 1])
    return (
        own if found is None else line_of(own.row, (*steps[:at], *found, *steps[at + 2 :]), special)
    )


def _counted_from_hook(skip: Step, work: Step) -> tuple[Step, ...] | None:
    """``sk 3 ch, dc in each of next 5 ch``: the first of them in the 4th from the hook."""
    if not isinstance(skip, Skip) or not isinstance(work, Work):
        return None
    where, into = skip.target, work.target
    if not isinstance(where, Next | First) or where.names != _CHAINS:
        return None
    if (
        not isinstance(into, Next | Each)
        or into.names != _CHAINS
        or where.count.formula is not None
    ):
        return None
    nth = Amount(tuple(None if one is None else one + 1 for one in where.count.values))
    first = replace(work, target=FromHook(nth, skip.counts_as), spread=False)
    only = work.content[0] if len(work.content) == 1 else None
    if isinstance(only, Stitch) and only.legs > 1 and isinstance(into, Next):
        if into.count.values != (only.legs,):
            return None
        return (replace(first, target=FromHook(nth, skip.counts_as, only.legs - 1)),)
    if isinstance(into, Each):
        return (first, work)
    if into.count is ONE or into.count.values == (1,):
        return (first,)
    more = into.count.values
    if into.count.formula is not None or any((one or 0) < _TWO for one in more):
        return None
    less = replace(into.count, values=tuple((one or 0) - 1 for one in more))
    return (first, replace(work, target=replace(into, count=less)))


_TWO = 2
