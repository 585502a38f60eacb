"""Fringe, tassels, pompoms and cords, as records.

Takes     the list ``trimmings``.
Gives     ``trimmings``.
Problems  ``yarn-trimming-empty``, ``name-unknown``, those of ``reading``.
From      design.md, "Numbers a maker can trust": amounts from what is worked, and no invented
          factor.

A pompom's yarn depends on the maker's frame and how full it is wound: its length or its mass is
asked for, and none is assumed.
"""

from __future__ import annotations

from fractions import Fraction
from typing import cast

from workeven.arithmetic.per_size import PerSize, Sizes
from workeven.pattern.reading import Reading, items, whole_of
from workeven.pattern.trimming_records import Trimming, TrimmingKind
from workeven.problems.words import quote
from workeven.source import Node

#: kinds that are several strands each: how many is asked for
_OF_STRANDS = ("fringe", "tassel")
#: what is to be written for each kind, as an example
_CURES = {
    "fringe": "Write how many knots there are, of how many strands, and how long each is cut: "
    "`amount: 40`, `strands: 4`, `length: 30 cm`.",
    "tassel": "Write how many there are, of how many strands, and how long each is cut: "
    "`amount: 4`, `strands: 30`, `length: 20 cm`.",
    "pompom": "Wind one and weigh it (`mass: 6 g`; 0.1 g matters here), or measure the yarn that "
    "is wound (`length: 12 m`).",
    "cord": "Write how long each strand is cut, and of how many it is made: `strands: 2`, "
    "`length: 150 cm`.",
    "embroidery": "Write the length of yarn that it takes: `length: 3 m`.",
}


def trimmings(
    reading: Reading, listed: Node | None, yarns: tuple[str, ...] | None
) -> tuple[Trimming, ...] | None:
    """What is of yarn and not worked in rows; ``yarns`` are the names known, None for any."""
    return whole_of(_trimming(reading, table, yarns) for table in items(listed))


def _trimming(reading: Reading, table: Node, yarns: tuple[str, ...] | None) -> Trimming | None:
    kind, sizes = reading.text(table, "kind"), reading.sizes
    if kind is None or sizes is None:
        return None
    named, colour = reading.yarn(table, yarns), reading.node(table, "colour")
    mass_node = reading.node(table, "mass")
    amount = _wholes(reading, table, "amount", sizes, 1)
    strands = _wholes(reading, table, "strands", sizes, 0 if kind in _OF_STRANDS else 1)
    length_node = reading.node(table, "length")
    length = reading.lengths(length_node, "trimmings.length")
    if length_node is None:
        length = sizes.all(Fraction(0))
    mass = reading.mass(mass_node)
    if amount is None or strands is None or length is None or (mass_node and mass is None):
        return None
    if mass_node is not None:
        strands, length = sizes.all(0), sizes.all(Fraction(0))
    found = Trimming(
        kind=cast("TrimmingKind", kind),
        yarn=named,
        colour=None if colour is None else reading.placed(colour),
        amount=amount,
        strands=strands,
        length=length,
        mass=mass,
        note=reading.text(table, "note"),
        span=reading.source.span(table),
    )
    _check(reading, found)
    return found


def _wholes(
    reading: Reading, table: Node, key: str, sizes: Sizes, usual: int
) -> PerSize[int] | None:
    node = reading.node(table, key)
    return sizes.all(usual) if node is None else reading.wholes(node, f"trimmings.{key}")


def _check(reading: Reading, found: Trimming) -> None:
    """A trimming of no yarn: nothing of it is there, or it is not said how much one takes."""
    what = _missing(found)
    if what:
        reading.problem(
            "yarn-trimming-empty",
            found.span,
            f"The trimming {quote(found.kind)} takes no yarn: {what}.",
            expected="How many there are, and the yarn that one of them takes.",
            mend=f"{_CURES[found.kind]} Or take the trimming out.",
        )


def _missing(found: Trimming) -> str:
    """What makes it nothing in every size, in words; "" where it is something."""
    if not any(found.amount):
        return "there are none of it in any size"
    if found.mass is not None:
        return "" if found.mass > 0 else "one of them weighs nothing"
    if not any(found.length):
        return "neither its length nor its mass is given"
    return "" if any(found.strands) else "it is not said of how many strands it is made"
