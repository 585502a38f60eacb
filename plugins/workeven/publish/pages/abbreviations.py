"""The abbreviations of a page, and what stitch words mean, in the terms of the text.

Takes     ``ReadyPattern``.
Gives     ``abbreviations``, ``meanings``.
Problems  none.
From      ``notation.wording``, which reads the published tables of abbreviations and terms.
"""

from __future__ import annotations

from collections.abc import Iterator

from workeven.pipeline import ReadyPattern
from workeven.publish.pages.views import Table

# INTERIM until notation.wording lands
_US = {
    "ch": "chain",
    "sl st": "slip stitch",
    "sc": "single crochet",
    "hdc": "half double crochet",
    "dc": "double crochet",
    "tr": "treble crochet",
    "sc2tog": "single crochet 2 together",
    "dc2tog": "double crochet 2 together",
}


def meaning(name: str, terms: str) -> str:
    return _US.get(name, "")


def abbreviations(ready: ReadyPattern) -> Table | None:
    return Table(
        caption="Used in this pattern",
        heads=("Abbreviation", "Meaning", "In UK terms"),
        rows=tuple((k, ((v,), ("–",))) for k, v in _US.items()),
    )


def meanings(names: tuple[str, ...]) -> Iterator[str]:
    yield from (_US.get(name, name) for name in names)
