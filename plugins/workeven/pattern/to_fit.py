"""The measurements of the body that a pattern lists itself.

Takes     ``to_fit`` of the table ``sizes``.
Gives     ``listed_to_fit``.
Problems  ``unit-mixed``, those of ``reading``.
From      design.md, "A pattern file": ``sizes``.
"""

from __future__ import annotations

import re
from fractions import Fraction

from workeven.arithmetic.per_size import PerSize
from workeven.arithmetic.units import UNITS
from workeven.pattern.reading import Reading, entries, items, whole_of, words
from workeven.problems.words import joined, quote
from workeven.source import Entry

_WORD = re.compile(r"[A-Za-z]+|[\"″]")

Named = tuple[str, PerSize[Fraction]]


def listed_to_fit(reading: Reading) -> tuple[Named, ...] | None:
    """Each measurement by its name, in mm."""
    table = reading.node(reading.root, "sizes")
    body = entries(reading.node(table, "to_fit")) if table is not None else {}
    return whole_of(_line(reading, name, entry) for name, entry in body.items())


def _line(reading: Reading, name: str, entry: Entry) -> Named | None:
    lengths = reading.lengths(entry.value, f"sizes.to_fit.{name}")
    if lengths is None:
        return None
    _mixed(reading, name, entry)
    return name, lengths


def _mixed(reading: Reading, name: str, entry: Entry) -> None:
    """Inches among centimetres: each is a length, and together they are rather a slip."""
    node = entry.value
    texts = [words(one) for one in (items(node) or (node,))]
    said = [word for text in texts for word in _WORD.findall(text) if word in UNITS]
    units = {UNITS[word][2]: word for word in reversed(said)}
    if len(units) > 1:
        reading.problem(
            "unit-mixed",
            reading.source.span(node),
            f"{quote(name)} is listed in {joined(map(quote, sorted(units.values())))}.",
            expected="One unit for all sizes: what was measured in two is rounded in two ways.",
            mend="Write all values in one unit, once at the end; or `allow` it with a reason.",
        )
