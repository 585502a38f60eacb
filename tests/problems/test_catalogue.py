"""The catalogue is welded: listed, explained by a page that runs, shown by a case, raised."""

from __future__ import annotations

import ast
import re
from pathlib import Path

import pytest

from tests.support import pages
from workeven.problems import Problem, Severity, lesson
from workeven.problems.catalogue import CATALOGUE, FAMILIES, in_families

ROOT = Path(__file__).parents[2]
SOURCES = ROOT / "plugins" / "workeven"
TESTS = ROOT / "tests"
HEADINGS = ("Why it matters", "How to mend it", "Fails", "Passes")
CODES = sorted(CATALOGUE)


def test_every_code_has_a_page_and_every_page_a_code() -> None:
    """Neither can be forgotten; a retired code stays in both."""
    assert tuple(CODES) == lesson.codes()


@pytest.mark.parametrize("code", CODES)
def test_page_has_the_parts_of_a_lesson(code: str) -> None:
    """What it is, why it matters, how to mend it, an example of each kind; nothing empty."""
    page = lesson.read(code)
    assert (code, *HEADINGS) == tuple(heading for heading, _text in page.sections)
    assert [] == [heading for heading, text in page.sections if not text]
    assert page.examples("Fails")
    assert page.examples("Passes")


@pytest.mark.parametrize("code", CODES)
def test_failing_example_raises_just_this_code(code: str, tmp_path: Path) -> None:
    """The example shows the one mistake that the page is about."""
    for example in lesson.read(code).examples("Fails"):
        problems = pages.problems_of(example, tmp_path)
        assert {code} == {problem.code for problem in problems}, example.text


@pytest.mark.parametrize("code", CODES)
def test_passing_example_raises_nothing(code: str, tmp_path: Path) -> None:
    """The mended example has no error at all, and nothing of this code."""
    for example in lesson.read(code).examples("Passes"):
        problems = pages.problems_of(example, tmp_path)
        bad = [one for one in problems if one.code == code or _is_error(one)]
        assert [] == bad, example.text


@pytest.mark.parametrize("code", CODES)
def test_some_case_shows_the_code(code: str) -> None:
    """A case of tests/cases pins its whole message."""
    shown = re.compile(rf"^\S.*?:\d+:\d+: {re.escape(code)}: ", re.MULTILINE)
    assert [case.stem for case in TESTS.glob("cases/*.md") if shown.search(case.read_text("utf-8"))]


@pytest.mark.parametrize("code", CODES)
def test_code_is_raised_somewhere(code: str) -> None:
    """A code that no source names is an old promise."""
    modules = (module for module in SOURCES.rglob("*.py") if module.name != "catalogue.py")
    assert any(code in _texts(module) for module in modules)


def test_every_code_that_is_raised_is_listed() -> None:
    """What a source calls a code stands in the catalogue."""
    raised = {code for module in SOURCES.rglob("*.py") for code in _codes_raised(module)}
    assert raised <= set(CATALOGUE)


@pytest.mark.parametrize("code", CODES)
def test_a_page_has_paragraphs_code_and_examples_alone(code: str) -> None:
    """It is shown in a terminal and on a page, which know no other marks."""
    page = lesson.read(code)
    blocks = [block for heading, _ in page.sections for block in page.blocks(heading)]
    plain = [re.sub(r"`[^`]+`", "code", block) for block in blocks if isinstance(block, str)]
    marked = re.compile(r"[*_`\[\]<>&\\|#~]|^(?:[-+]|\d+[.)])\s|^\s|https?:")
    assert [one for one in plain if marked.search(one)] == []


@pytest.mark.parametrize("code", CODES)
def test_blocks_are_all_that_stands_on_a_page(code: str) -> None:
    """Nothing is lost between headings, paragraphs and examples."""
    page = lesson.read(code)
    told = "".join(
        heading + "".join(_text_of(block) for block in page.blocks(heading))
        for heading, _ in page.sections
    )
    bare = re.sub(r"^```\w*$", "", page.markdown, flags=re.MULTILINE)
    assert "".join(bare.replace("#", "").split()) == "".join(told.replace("#", "").split())


def test_every_code_is_in_one_family() -> None:
    """The list of all codes has each once."""
    assert CODES == sorted(code for codes in in_families().values() for code in codes)


def test_a_family_has_no_word_that_no_code_begins_with() -> None:
    """It would be an old one."""
    words = sorted(word for words in FAMILIES.values() for word in words)
    assert sorted({code.partition("-")[0] for code in CODES}) == words


def _text_of(block: str | lesson.Example) -> str:
    return block if isinstance(block, str) else block.text


def _is_error(problem: Problem) -> bool:
    return CATALOGUE[problem.code][0] is Severity.ERROR


def _texts(module: Path) -> set[str]:
    """All text literals of a module."""
    tree = ast.parse(module.read_text("utf-8"))
    return {
        node.value
        for node in ast.walk(tree)
        if isinstance(node, ast.Constant) and isinstance(node.value, str)
    }


def _codes_raised(module: Path) -> set[str]:
    """The literals given as ``code=``."""
    return {
        node.value.value
        for node in ast.walk(ast.parse(module.read_text("utf-8")))
        if isinstance(node, ast.keyword)
        and node.arg == "code"
        and isinstance(node.value, ast.Constant)
        and isinstance(node.value.value, str)
    }
