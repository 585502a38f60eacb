"""The flow: which stages run, what is told, and when a pattern is fit to publish."""

from __future__ import annotations

from collections.abc import Iterator
from contextlib import contextmanager, suppress
from pathlib import Path

import pytest

from tests.support.pattern_files import GOOD, changed, outcome
from workeven import grading, pipeline, source
from workeven.grading import GradedPattern
from workeven.pattern import Pattern
from workeven.pipeline import Outcome
from workeven.problems import Checked


def codes(result: Outcome) -> list[str]:
    """The codes of what is told."""
    return [problem.code for problem in result.problems]


#: A special stitch that no row works, which is advice.
UNUSED = changed("yarn:\n", "stitches:\n  fan: 3 dc in same st\nyarn:\n")


def test_a_good_pattern_is_ready() -> None:
    """It holds the pattern, every row counted, and the yarn, in every size."""
    ready = outcome(GOOD).ready
    assert ready is not None
    assert ready.pattern.sizes.names == ("S", "M", "L")
    rows = [row for section in ready.proven.pieces[0].sections for row in section.rows]
    assert (32, 38, 44) == tuple(one and one.sts for one in rows[0].per_size)
    assert [need.yarn.name for need in ready.yarn.needs] == ["main"]
    assert ready.advice == ()


def test_advice_accompanies_a_good_pattern() -> None:
    """It is told, and stands beside the pattern."""
    result = outcome(UNUSED)
    assert codes(result) == ["term-unused"]
    assert result.ready is not None
    assert result.ready.advice == result.problems


def test_allowed_advice_is_silent() -> None:
    """A reason in the file silences the advice it names."""
    result = outcome(UNUSED + "allow:\n  term-unused: the next pattern works it\n")
    assert codes(result) == []
    assert result.ready is not None


def test_an_error_cannot_be_allowed() -> None:
    """Naming an error under ``allow`` leaves the error, and is one itself."""
    text = changed("multiple: 6, plus: 1", "multiple: 6") + "allow:\n  row-uneven: never mind\n"
    result = outcome(text)
    assert sorted(codes(result)) == ["file-allow-error", "row-uneven"]
    assert result.ready is None


def test_a_slip_in_a_row_is_told_even_when_grading_fails() -> None:
    """Rows are parsed with the pattern: two mistakes far apart are two messages."""
    text = changed("across: width", "across: widht").replace("5 dc in", "5 flurb in")
    assert sorted(codes(outcome(text))) == ["name-unknown", "row-not-understood"]


def test_the_same_text_gives_the_same_outcome() -> None:
    """Nothing but the text decides."""
    assert outcome(UNUSED) == outcome(UNUSED)


# --- a collection --------------------------------------------------------------------------


@pytest.fixture
def collection(tmp_path: Path) -> Path:
    """Two patterns: one good, one of which a row does not come out."""
    for slug, text in {"a": GOOD, "b": changed("multiple: 6, plus: 1", "multiple: 6")}.items():
        (tmp_path / slug).mkdir()
        (tmp_path / slug / "pattern.yaml").write_text(text, encoding="utf-8")
    return tmp_path


def test_every_file_has_an_outcome(collection: Path) -> None:
    """One pattern's error leaves the other ready; together they are no good."""
    verdict = pipeline.check(source.collect([str(collection)]))
    assert [True, False] == [one.ready is not None for one in verdict.outcomes]
    assert ["row-uneven"] == [problem.code for problem in verdict.problems]
    assert not verdict.good


def test_a_collection_without_errors_is_good(collection: Path) -> None:
    """Advice does not make it bad."""
    (collection / "b" / "pattern.yaml").write_text(UNUSED, encoding="utf-8")
    verdict = pipeline.check(source.collect([str(collection)]))
    assert ["term-unused"] == [problem.code for problem in verdict.problems]
    assert verdict.good


def test_a_stranger_makes_a_collection_bad(collection: Path) -> None:
    """What lies there and does not belong is told, whatever the patterns are."""
    (collection / "b" / "pattern.yaml").write_text(GOOD, encoding="utf-8")
    (collection / "a" / "notes.txt").write_text("", encoding="utf-8")
    verdict = pipeline.check(source.collect([str(collection)]))
    assert ["file-stranger"] == [problem.code for problem in verdict.problems]
    assert not verdict.good


def test_a_pattern_uses_the_stitches_of_its_studio(collection: Path) -> None:
    """A special stitch of the studio is known in the pattern, and need not be worked there."""
    text = changed("5 dc in next st", "fan in next st")
    (collection / "b" / "pattern.yaml").write_text(text, encoding="utf-8")
    (collection / "studio.yaml").write_text(
        "name: Tidewrack Studio\nstitches:\n  fan: 5 dc in same st\n", encoding="utf-8"
    )
    verdict = pipeline.check(source.collect([str(collection)]))
    assert verdict.problems == ()
    ready = verdict.outcomes[1].ready
    assert ready is not None
    assert [stitch.name for stitch in ready.pattern.stitches] == ["fan"]
    (_mat, scallops) = ready.proven.pieces[0].sections
    smallest = scallops.rows[0].per_size[0]
    assert smallest is not None
    assert (("sc", 6), ("dc", 25)) == smallest.makes


def test_an_edge_may_go_on_after_a_bug(collection: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """The file that showed the bug has no outcome, the other has."""
    whole = grading.grade

    def broken(pattern: Pattern) -> Checked[GradedPattern]:
        if pattern.slug == "a":
            raise ZeroDivisionError
        return whole(pattern)

    @contextmanager
    def swallowing(_file: str) -> Iterator[None]:
        with suppress(ZeroDivisionError):
            yield

    monkeypatch.setattr(grading, "grade", broken)
    verdict = pipeline.check(source.collect([str(collection)]), swallowing)
    assert [str(collection / "b" / "pattern.yaml")] == [one.file for one in verdict.outcomes]
