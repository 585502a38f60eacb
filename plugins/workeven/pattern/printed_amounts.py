"""The designer's own list of amounts, as records.

Takes     the table ``amounts``, the yarns of the pattern.
Gives     ``printed_amounts``.
Problems  ``name-unknown``, ``file-key-missing``, ``yarn-amounts-unit``, those of ``reading``.
From      design.md, "A pattern file": ``amounts``, the designer's own amounts to be checked.

An amount is in balls, in a length or in a mass, and has one value a size: ``7 (8, 9) balls``,
``750 (820, 900) m``, ``340 g``. A yarn in several colours may have an amount for each of them.
"""

from __future__ import annotations

import re
from collections.abc import Iterator
from fractions import Fraction
from typing import Literal

from workeven.arithmetic import quantities
from workeven.arithmetic.per_size import PerSize
from workeven.arithmetic.units import UNITS
from workeven.pattern.amount_records import PrintedAmount
from workeven.pattern.reading import Reading, entries, items, words
from workeven.pattern.records import Yarn
from workeven.problems.words import did_you_mean, joined, quote
from workeven.source import Entry, Node

_BALLS = re.compile(r"\b(?:balls?|skeins?|hanks?|cones?)\b", re.IGNORECASE)
_UNIT = re.compile(r"[^\W\d_]+")
_DASHES = ("-", "–", "—")
Unit = Literal["balls", "length", "mass"]


def printed_amounts(
    reading: Reading, table: Node, yarns: tuple[Yarn, ...] | None
) -> tuple[PrintedAmount, ...]:
    """The amounts; ``yarns`` are None where they could not be read, which has been told.

    One that could not be read is left out: no other number hangs on it.
    """
    return tuple(one for one in _amounts(reading, table, yarns) if one is not None)


def _amounts(
    reading: Reading, table: Node, yarns: tuple[Yarn, ...] | None
) -> Iterator[PrintedAmount | None]:
    by_name = {yarn.name: yarn for yarn in yarns or ()}
    for name, entry in entries(table).items():
        if name not in by_name:
            if yarns is not None:
                reading.unknown(entry.key, "yarn", by_name, "Names under `yarn`", name=name)
            yield None
        elif entries(entry.value):
            yield from _by_colour(reading, by_name[name], entry)
        else:
            yield _amount(reading, by_name[name], None, entry)


def _by_colour(reading: Reading, yarn: Yarn, table: Entry) -> Iterator[PrintedAmount | None]:
    parts = entries(table.value)
    if missing := [colour for colour in yarn.colours if colour not in parts]:
        where = f"Names under `colours` of {quote(yarn.name)}"
        reading.problem(
            "file-key-missing",
            reading.span(table),
            f"The amounts of {quote(yarn.name)} by colour have none for "
            f"{joined(map(quote, missing))}.",
            expected=f"{where}: {joined(map(quote, yarn.colours))}.",
            mend="Write an amount for each colour; a dash where a size takes none.",
        )
        yield None
    for colour, entry in parts.items():
        if colour not in yarn.colours:
            where = f"Names under `colours` of {quote(yarn.name)}"
            reading.unknown(entry.key, "colour", yarn.colours, where, name=colour)
            yield None
        else:
            yield _amount(reading, yarn, colour, entry)


def _amount(reading: Reading, yarn: Yarn, colour: str | None, entry: Entry) -> PrintedAmount | None:
    node = entry.value
    written = [words(one) for one in items(node) or (node,)]
    unit = _unit(written)
    if unit is None:
        _no_unit(reading, node, written)
        return None
    values = _values(reading, node, unit, colour or yarn.name)
    if values is None:
        return None
    return PrintedAmount(
        yarn=yarn.name,
        colour=colour,
        unit=unit,
        values=values,
        words=", ".join(written),
        span=reading.source.span(node),
    )


def _unit(written: list[str]) -> Unit | None:
    """Whether these are balls, a length or a mass; None where the unit is none of them."""
    text = " ".join(written)
    if _BALLS.search(text):
        return "balls"
    units = _UNIT.findall(text)
    return UNITS[units[-1]][0] if units and units[-1] in UNITS else None


def _values(reading: Reading, node: Node, unit: Unit, name: str) -> PerSize[Fraction] | None:
    if unit == "balls":
        return reading.by_size(_without_balls(node), name, _number_or_dash, "unit-number")
    if unit == "mass":
        return reading.masses(node, name)
    return reading.lengths(node, name)


def _without_balls(node: Node) -> Node:
    """The node with blanks in the place of the word, so that every place stays where it is."""
    if isinstance(node.value, tuple):
        return node._replace(value=tuple(map(_without_balls, node.value)))
    if not isinstance(node.value, str):
        return node
    return node._replace(value=_BALLS.sub(lambda found: " " * len(found[0]), node.value))


def _number_or_dash(text: str) -> Fraction:
    return Fraction(0) if text.strip() in _DASHES else quantities.number(text.strip())


def _no_unit(reading: Reading, node: Node, written: list[str]) -> None:
    reading.problem(
        "yarn-amounts-unit",
        reading.source.span(node),
        f"{quote(', '.join(written))} does not say of what it is so much.",
        expected="Balls, a length or a mass: `7 (8, 9) balls`, `750 (820, 900) m`, `340 g`.",
        mend=_meant(written) or "Write the unit once, behind the last bracket.",
    )


def _meant(written: list[str]) -> str:
    """The unit that a misspelt one was meant for, in a sentence."""
    units = _UNIT.findall(" ".join(written))
    return did_you_mean(units[-1], ("ball", "balls", "skeins", "hanks", *UNITS)) if units else ""
