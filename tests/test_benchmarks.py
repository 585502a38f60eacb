"""What the benchmarks measure on passes the check; nothing is timed here."""

from __future__ import annotations

from pathlib import Path

import pytest

from benchmarks.collection import ANY_WIDTH, GARMENT, ROOT, as_designed, garments, write_many
from workeven import pattern, pipeline, source
from workeven.pattern import Studio
from workeven.proof.counting import count

GARMENTS = garments()


@pytest.fixture(scope="module")
def studio() -> Studio:
    """The demo studio."""
    read = source.load(str(ROOT / "patterns" / "studio.yaml"))
    assert read.value is not None
    parsed = pattern.parse_studio(read.value)
    assert parsed.value is not None
    return parsed.value


@pytest.mark.parametrize("name", GARMENTS)
def test_each_garment_has_nothing_against_it(name: str, studio: Studio) -> None:
    """One size, or eight times the pieces, is not held against the yarn of the demo's garment."""
    read = source.read("pattern.yaml", GARMENTS[name].encode())
    assert read.value is not None
    outcome = pipeline.run(read.value, studio)
    assert [] == [f"{one.code}: {one.found}" for one in outcome.problems]


def test_only_what_tells_how_it_was_made_is_left_out() -> None:
    """Everything else of the garment is measured."""
    lines = GARMENT.read_text(encoding="utf-8").split("\n")
    first, behind = lines.index("samples:"), lines.index("notions:")
    left = "\n".join(lines[:first] + lines[behind:])
    assert left == as_designed("\n".join(lines))


@pytest.mark.parametrize("rows_too", [False, True])
def test_a_collection_of_any_number_passes(tmp_path: Path, *, rows_too: bool) -> None:
    """One more than the demo has, so that the first of them comes twice."""
    demo = len(list((ROOT / "patterns").glob("*/pattern.yaml")))
    write_many(tmp_path / "patterns", demo + 1, rows_too=rows_too)
    verdict = pipeline.check(source.collect([str(tmp_path / "patterns")]))
    assert demo + 1 == sum(outcome.ready is not None for outcome in verdict.outcomes)
    assert verdict.good


def test_patterns_that_come_twice_have_other_rows(tmp_path: Path) -> None:
    """The parser remembers rows by their text: most of the second are new to it."""
    demo = len(list((ROOT / "patterns").glob("*/pattern.yaml")))
    write_many(tmp_path / "patterns", demo + 1, rows_too=True)
    files = sorted(tmp_path.glob("patterns/*-0000/*.yaml"))
    files += sorted(tmp_path.glob(f"patterns/*-{demo:04}/*.yaml"))
    first, second = (_rows_with_commas(file.read_text(encoding="utf-8")) for file in files)
    assert (len(first), len(first & second)) == (len(second), 0)


def _rows_with_commas(text: str) -> set[str]:
    lines = (line for line in text.split("\n") if line.startswith(" " * 10))
    return {line for line in lines if ", " in line}


@pytest.mark.parametrize("start", ["60 sc", "6000 sc"])
def test_the_rows_of_any_width_come_out(start: str) -> None:
    """A hundred times the stitches are the same text."""
    assert count(ANY_WIDTH, start=start).problems == ()
