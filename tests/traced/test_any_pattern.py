"""Every figure of the pages of all patterns in the cases, the guide and the pages of problems.

They have what the demo has not: holes, shaping in stages, markers, swatches solved together, gauges
before blocking, and so on. Each is made into a page, and each figure found anew.
"""

from __future__ import annotations

import json
import re
from collections.abc import Iterator
from pathlib import Path

import pytest

from tests.traced.asked import Asked, asked
from tests.traced.of_pattern import told
from tests.traced.sites import Entry, as_told
from tests.traced.told import joined
from workeven import pattern, pipeline, source
from workeven.pipeline import Verdict
from workeven.publish.collection import Address, published
from workeven.publish.origins import beside

CHECKOUT = Path(__file__).parents[2]
PLACES = ("tests/cases", "guide/writing", "plugins/workeven/problems/pages")
FILES = sorted(file for place in PLACES for file in (CHECKOUT / place).glob("*.md"))
ADDRESS = Address(folder="patterns", ending="")


def texts(file: Path) -> Iterator[str]:
    """The patterns of a file, published."""
    for text in re.findall(
        r"^```yaml\n(.*?)^```$", file.read_text("utf-8"), re.MULTILINE | re.DOTALL
    ):
        if "pieces:" in text and "title:" in text:
            yield text if "published:" in text else f"published: 2026-01-02\n{text}"


def pages(file: Path) -> Iterator[tuple[Asked, list[Entry]]]:
    """Each pattern without an error, with what its file of figures lists."""
    for text in texts(file):
        read = source.read("patterns/case/pattern.yaml", text.encode())
        outcome = read.value and pipeline.run(read.value, pattern.NO_STUDIO, read.problems)
        if outcome and outcome.ready and not outcome.ready.pattern.pictures:
            made = published(Verdict(outcomes=(outcome,), problems=()), ADDRESS)
            sheet = beside(made.pages[1], outcome.ready)
            yield asked(outcome.ready, text), json.loads(sheet.content)["figures"]


WITH_PATTERNS = [file for file in FILES if any(True for _ in texts(file))]


@pytest.mark.parametrize("file", WITH_PATTERNS, ids=lambda file: file.stem)
def test_every_figure_is_that_of_the_model(file: Path) -> None:
    """None without an origin, and none that its origin does not give."""
    wrong = [
        entry
        for one, entries in pages(file)
        for entry in entries
        if not entry["from"]
        or joined((told(one, origin, entry["text"]) for origin in entry["from"]), one.sizes)
        != as_told(entry, one.sizes)
    ]
    assert wrong == []


def test_there_are_many_of_them() -> None:
    """Patterns of every kind."""
    assert sum(1 for file in WITH_PATTERNS for _ in texts(file)) > 100
