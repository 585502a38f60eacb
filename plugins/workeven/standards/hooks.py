"""Hooks: their sizes in mm, and what these are called in the US, of old in the UK, in Japan.

Takes     the CSV files ``hooks.csv`` and ``hooks_steel.csv`` beside it.
Gives     ``Hook``, ``hooks``; ``SteelHook``, ``steel_hooks``; ``HookName``, ``names_of``,
          ``called``; ``Doubt``, ``doubts``; ``nearest``.
Problems  none.
From      the sources named in the column ``citation``.

A size has several names, and a name several sizes: tables and makers differ. Only names that were
read in a source are given out (``names_of``); what was recalled serves to recognise a name that a
designer writes (``called``). Steel hooks have numbers of their own: the US 7 is 4.5 mm, and in
steel 1.65 mm.
"""

from __future__ import annotations

import re
from collections.abc import Iterable
from fractions import Fraction
from functools import cache

from workeven.records import record
from workeven.standards.tables import Origin, exact, origin, rows

US, UK_OLD, JAPAN = "US", "old UK", "Japan"
US_STEEL, UK_STEEL, JAPAN_LACE = "US steel", "old UK steel", "Japan lace"
#: the systems of the table of steel hooks, as we call them
_STEEL = {"US": US_STEEL, "UK old steel": UK_STEEL}
#: systems that one word names: "US 7" may be either
_TOGETHER = {US_STEEL: US}
_PARTS = re.compile(r"(?<![a-z])[a-z](?![a-z])|\d+(?:\.\d+)?")
_SAID = (
    (re.compile(r"\b(?:old uk|uk old|uk) steel\b"), (UK_STEEL,)),
    (re.compile(r"\b(?:old uk|uk old|uk)\b"), (UK_OLD, UK_STEEL)),
    (re.compile(r"\bus steel\b"), (US_STEEL,)),
    (re.compile(r"\b(?:us|usa)\b"), (US, US_STEEL)),
    (re.compile(r"\bjapan(?:ese)? lace\b|\blace\b"), (JAPAN_LACE,)),
    (re.compile(r"\bjapan(?:ese)?\b"), (JAPAN, JAPAN_LACE)),
    (re.compile(r"\bsteel\b"), (US_STEEL, UK_STEEL)),
)


@record
class Hook:
    """A hook's size in mm and what it is called in the US, in the old UK sizes and in Japan."""

    mm: Fraction
    us: str
    uk_old: str
    japan: str
    origin: Origin


@record
class SteelHook:
    """A fine hook of steel by its number; mm, or the thread that it suits, where they are told."""

    system: str
    size: str
    mm: Fraction | None
    thread_size: str
    origin: Origin


@record
class HookName:
    """What a table calls a hook of that size, and in which system."""

    system: str
    name: str
    mm: Fraction
    origin: Origin


@record
class Doubt:
    """A name that means several sizes: each with its system, the smallest first."""

    system: str
    name: str
    sizes: tuple[tuple[Fraction, str], ...]


@cache
def hooks() -> tuple[Hook, ...]:
    """Hooks as published; a size may stand in several rows, from several sources."""
    return tuple(
        Hook(
            mm=Fraction(row["mm"]),
            us=row["us"],
            uk_old=row["uk_old"],
            japan=row["japan"],
            origin=origin(row),
        )
        for row in rows("hooks.csv")
    )


@cache
def steel_hooks() -> tuple[SteelHook, ...]:
    """Fine hooks of steel as published.

    >>> [str(one.mm) for one in steel_hooks() if one.size == "7" and one.origin.status == "found"]
    ['33/20']
    """
    return tuple(
        SteelHook(
            system=_STEEL.get(row["system"], row["system"]),
            size=row["size"],
            mm=exact(row["mm"]),
            thread_size=row["thread_size"],
            origin=origin(row),
        )
        for row in rows("hooks_steel.csv")
    )


def names_of(mm: Fraction) -> tuple[HookName, ...]:
    """What the published tables call a hook: US, old UK, Japan; steel where it has no other.

    >>> [(one.system, one.name) for one in names_of(Fraction(4))]
    [('US', 'G/6'), ('old UK', '8'), ('Japan', '7/0')]
    """
    found = [one for one in _names() if one.mm == mm and one.origin.status == "found"]
    plain = any(one.system == US for one in found)
    first: dict[str, HookName] = {}
    for one in found:
        if not (plain and one.system == US_STEEL):
            first.setdefault(one.system, one)
    return tuple(first.values())


def called(name: str) -> tuple[HookName, ...]:
    """Every hook of that name in any table, recalled ones too; () where there is none.

    A part of a name is enough, and the system may be said.

    >>> sorted({str(one.mm) for one in called("G")})
    ['17/4', '4']
    >>> [str(one.mm) for one in called("US H-8")]
    ['5']
    """
    text = re.sub(r"\s*(?:½|\b1/2)", ".5", name.casefold())
    systems: tuple[str, ...] = ()
    for pattern, meant in _SAID:
        if pattern.search(text):
            text, systems = pattern.sub("", text), meant
            break
    parts = _parts(text)
    return tuple(
        one
        for one in _names()
        if parts and parts <= _parts(one.name) and (not systems or one.system in systems)
    )


def doubts(mm: Fraction) -> tuple[Doubt, ...]:
    """The names of a hook that mean another size too, in a table or by another maker.

    >>> [(one.name, [str(mm) for mm, _ in one.sizes]) for one in doubts(Fraction(4))]
    [('G', ['4', '17/4'])]
    """
    return tuple(doubt for name in names_of(mm) for doubt in _doubts(name))


def nearest(mm: Fraction) -> tuple[Fraction, ...]:
    """The size itself where a table has it, else the next smaller and larger published ones.

    >>> [str(one) for one in nearest(Fraction("4.2"))]
    ['4', '17/4']
    """
    sizes = _sizes()
    if mm in {*sizes, *(one.mm for one in hooks())}:
        return (mm,)
    below, above = [one for one in sizes if one < mm], [one for one in sizes if one > mm]
    return (*below[-1:], *above[:1])


# --- names -----------------------------------------------------------------------------------


@cache
def _names() -> tuple[HookName, ...]:
    """All names of all tables."""
    plain = (
        HookName(system=system, name=name, mm=one.mm, origin=one.origin)
        for one in hooks()
        for system, name in ((US, one.us), (UK_OLD, one.uk_old), (JAPAN, one.japan))
        if name
    )
    steel = (
        HookName(system=one.system, name=one.size, mm=one.mm, origin=one.origin)
        for one in steel_hooks()
        if one.mm is not None
    )
    return (*plain, *steel)


def _sizes() -> list[Fraction]:
    """The sizes that a source has, the smallest first."""
    every: Iterable[Hook | SteelHook] = (*hooks(), *steel_hooks())
    return sorted({one.mm for one in every if one.mm and one.origin.status == "found"})


def _parts(name: str) -> frozenset[str]:
    """The letters and the number of a name; the Japanese ``7/0`` is one."""
    if name.endswith("/0"):
        return frozenset((name.strip(),))
    return frozenset(_PARTS.findall(name.casefold()))


def _doubts(name: HookName) -> list[Doubt]:
    """What of a name means other sizes: parts that mean the same sizes are told as one."""
    by_sizes: dict[tuple[tuple[Fraction, str], ...], list[str]] = {}
    group = _TOGETHER.get(name.system, name.system)
    alike = [
        one
        for one in _names()
        if one.origin.status == "found" and _TOGETHER.get(one.system, one.system) == group
    ]
    for part in sorted(_parts(name.name), key=name.name.casefold().index):
        sizes = tuple(sorted({(one.mm, one.system) for one in alike if part in _parts(one.name)}))
        if len({mm for mm, _ in sizes}) > 1:
            by_sizes.setdefault(sizes, []).append(part.upper())
    return [
        Doubt(system=group, name="/".join(parts), sizes=sizes) for sizes, parts in by_sizes.items()
    ]
