"""The guide for people who write patterns shows what the counting really does.

Every block fenced as ``rows`` in ``guide/writing`` is run. Leading lines ``worked: …``,
``terms: …``, ``from: …``, ``sizes: …`` and ``stitch: …`` are the options of ``workeven count``.
Each line after them is a row and, behind an arrow, what is expected: stitches (``60 (66, 72)``, a
dash for a size that does not work the row), kinds where they matter (``11: 6 sc, 5 ch-1 sp``), or
the code of the problem and the sizes that fail (``row-uneven in S and L``).
"""

from __future__ import annotations

import re
import sys
from collections.abc import Iterator
from dataclasses import dataclass
from pathlib import Path
from textwrap import indent
from types import FrameType
from typing import Any, Final

import pytest
from jsonschema import Draft202012Validator

from tests.notation.test_grammar_docstrings import FUNCTIONS, phrase
from workeven import pattern, pipeline, source
from workeven.arithmetic.size_lists import by_size
from workeven.notation.parser import _read as row_read
from workeven.pattern import Terms
from workeven.pattern.schema import Kind, plain, schema
from workeven.problems import Checked
from workeven.problems.catalogue import CATALOGUE
from workeven.proof.counting import CountedText, count

ROOT: Final = Path(__file__).parents[1]
README: Final = ROOT / "README.md"
GUIDE: Final = ROOT / "guide" / "writing"
TERMS: Final[dict[str, Terms]] = {"us": "us", "uk": "uk"}
OPTION: Final = re.compile(r"(worked|terms|from|sizes|stitch): (.+)")
FENCED: Final = re.compile(r"^```\w*\n(.*?)^```$", re.MULTILINE | re.DOTALL)
YAML: Final = re.compile(r"^```yaml\n(.*?)^```$", re.MULTILINE | re.DOTALL)
FENCE: Final = re.compile(r"^```rows\n(.*?)^```$", re.MULTILINE | re.DOTALL)


@dataclass(frozen=True, slots=True, kw_only=True)
class Example:
    """One block of rows: the options, the rows as one text, what stands behind each arrow."""

    options: tuple[tuple[str, str], ...]
    rows: tuple[str, ...]
    expected: tuple[str, ...]

    def option(self, name: str) -> str | None:
        """The value of an option, or None."""
        return next((value for key, value in self.options if key == name), None)

    def counted(self) -> Checked[CountedText]:
        """What the counting makes of the rows."""
        sizes = self.option("sizes")
        return count(
            "\n".join(self.rows),
            file="guide",
            worked=self.option("worked") or "flat rows",
            terms=TERMS[self.option("terms") or "us"],
            start=self.option("from"),
            sizes=tuple(name for name, _ in by_size(sizes)) if sizes else None,
            stitches=tuple(value for key, value in self.options if key == "stitch"),
        )


def read_example(block: str) -> Example:
    """The example that a fenced block holds."""
    lines = block.strip().splitlines()
    options = [match.groups() for line in lines if (match := OPTION.fullmatch(line))]
    rows = [line.partition(" → ") for line in lines[len(options) :]]
    return Example(
        options=tuple((key, value) for key, value in options),
        rows=tuple(row for row, _, _ in rows),
        expected=tuple(behind for _, _, behind in rows),
    )


def examples() -> Iterator[object]:
    """Every example of the guide, named by its page and number."""
    for page in sorted(GUIDE.glob("*.md")):
        blocks = FENCE.findall(page.read_text(encoding="utf-8"))
        for number, block in enumerate(blocks, start=1):
            yield pytest.param(read_example(block), id=f"{page.stem} {number}")


def in_sizes(values: list[str]) -> str:
    """Values by size as the guide writes them: one for all, or ``60 (66, 72)``."""
    if len(set(values)) == 1:
        return values[0]
    return f"{values[0]} ({', '.join(values[1:])})"


def shown(counted: Checked[CountedText], number: int, expected: str) -> str:
    """What the counting says of one row, in the form in which the expectation is written."""
    assert counted.value is not None
    row = counted.value.rows[number]
    failing = [problem for problem in counted.problems if problem.span.line == row.line]
    if failing:
        sizes = failing[0].sizes
        names = " in " + " and ".join(sizes) if sizes and counted.value.sizes[0] else ""
        return f"{failing[0].code}{names}"
    sts = in_sizes(["–" if value is None else str(value) for value in row.sts])
    if ": " not in expected:
        return sts
    made = row.makes[0]
    assert made is not None
    return f"{sts}: {', '.join(f'{number} {kind}' for kind, number in dict(made).items())}"


@pytest.mark.parametrize("example", tuple(examples()))
def test_guide_example_counts_as_it_says(example: Example) -> None:
    """Each row of an example gives what stands behind its arrow."""
    counted = example.counted()
    got = tuple(
        shown(counted, number, expected) for number, expected in enumerate(example.expected)
    )
    assert example.expected == got


@pytest.mark.parametrize("example", tuple(examples()))
def test_guide_example_has_no_other_problem(example: Example) -> None:
    """Only rows that say so behind their arrow have a problem."""
    failing = {
        number
        for number, expected in enumerate(example.expected, start=1)
        if not expected[:1].isdigit() and not expected.startswith("–")
    }
    assert failing == {problem.span.line for problem in example.counted().problems}


def test_guide_has_examples_for_every_heading_of_rows() -> None:
    """The page on rows holds a good number of examples, so the tests above cannot pass empty."""
    assert len(tuple(examples())) >= 30


def first_pattern(page: Path) -> str:
    """The first pattern of a page: its first block of YAML."""
    return page.read_text(encoding="utf-8").split("```yaml\n")[1].split("```")[0]


def outcome(text: str) -> pipeline.Outcome:
    """What becomes of a pattern file with this text, in no studio."""
    read = source.read("pattern.yaml", text.encode())
    assert read.value is not None
    return pipeline.run(read.value, pattern.NO_STUDIO, read.problems)


def test_readme_and_guide_begin_with_the_same_pattern() -> None:
    """Somebody who has read the one recognises the other."""
    assert first_pattern(README) == first_pattern(GUIDE / "your-first-pattern.md")


def test_first_pattern_checks_clean_and_counts_as_told() -> None:
    """The README's pattern has no problem, and the counts that the README names."""
    made = outcome(first_pattern(README))
    assert () == made.problems
    assert made.ready is not None
    assert (31, 43) == made.ready.proven.graded.counts["cloth_sts"].values.values


def test_mistake_of_the_first_pattern_is_found_in_the_edge() -> None:
    """The change that the README proposes fails at the scallops and nowhere else."""
    text = first_pattern(README)
    changed = text.replace("multiple: 6, plus: 1", "multiple: 4")
    scallops = 1 + text[: text.index("*sk 2 sts")].count("\n")
    assert [("row-uneven", scallops, ("Small", "Large"))] == [
        (problem.code, problem.span.line, problem.sizes) for problem in outcome(changed).problems
    ]


def test_each_problem_that_the_guide_names_leads_to_its_page() -> None:
    """Who reads of a problem finds what is told of it."""
    named, led = [], []
    for page in sorted(GUIDE.glob("*.md")):
        words = re.sub(r"^```.*?^```$", "", page.read_text("utf-8"), flags=re.MULTILINE | re.DOTALL)
        named += [
            (page.name, code)
            for code in re.findall(r"`([a-z]+-[a-z-]+)`", words)
            if code in CATALOGUE
        ]
        led += [
            (page.name, code)
            for code, there in re.findall(
                r"\[`([a-z-]+)`\]\(\.\./checks/([a-z-]+)/index\.md\)", words
            )
            if code == there
        ]
    assert len(named) > 30
    assert named == led


def keys_of(part: Any) -> Iterator[str]:  # noqa: ANN401, JSON
    """The keys that a schema names, at any depth."""
    if isinstance(part, dict):
        for inner in part.get("properties", {}).items():
            yield inner[0]
            yield from keys_of(inner[1])
        for word in part.keys() - {"properties", "enum", "required"}:
            yield from keys_of(part[word])
    elif isinstance(part, list):
        for one in part:
            yield from keys_of(one)


def bare(part: Any) -> Any:  # noqa: ANN401, JSON
    """A schema that asks for no key: an example shows those that it is about."""
    if isinstance(part, list):
        return [bare(one) for one in part]
    if not isinstance(part, dict):
        return part
    return {word: bare(inner) for word, inner in part.items() if word != "required"}


def tables(part: Any) -> Iterator[dict[str, Any]]:  # noqa: ANN401, JSON
    """The tables in a schema whose keys are named and no others taken, the whole first."""
    if isinstance(part, dict):
        if "properties" in part and part.get("additionalProperties") is False:
            yield part
        for inner in part.values():
            yield from tables(inner)
    elif isinstance(part, list):
        for one in part:
            yield from tables(one)


KINDS: Final[tuple[Kind, ...]] = ("pattern", "studio", "chart")
#: What a file of each kind may hold, and any part of it.
PLACES: Final = [Draft202012Validator(one) for kind in KINDS for one in tables(bare(schema(kind)))]


def yaml_examples() -> Iterator[object]:
    """Every example in YAML, named by its page and line, but those of MkDocs' own file."""
    for page in sorted(GUIDE.glob("*.md")):
        text = page.read_text(encoding="utf-8")
        for found in YAML.finditer(text):
            if "plugins:" not in found[1]:
                line = text[: found.start()].count("\n") + 1
                yield pytest.param(found[1], id=f"{page.stem} {line}")


@pytest.mark.parametrize("text", tuple(yaml_examples()))
def test_an_example_in_yaml_has_the_keys_and_shapes_that_are_taken(text: str) -> None:
    """Each is a file, or a part of one; where it is a list, each of its entries."""
    whole = source.read("guide", f"all:\n{indent(text, '  ')}".encode())
    assert whole.problems == ()
    assert whole.value is not None
    made = plain(whole.value.root)["all"]
    for part in made if isinstance(made, list) else [made]:
        assert part is None or any(place.is_valid(part) for place in PLACES), part


@pytest.mark.parametrize(
    "part",
    [{"titel": "Mat"}, {"gauge": {"ground": {"stitches": "16"}}}, {"sizes": {"S": "M"}}],
)
def test_an_example_with_another_key_or_shape_would_be_told(part: object) -> None:
    """No place takes it."""
    assert [place for place in PLACES if place.is_valid(part)] == []


@pytest.mark.parametrize("kind", KINDS)
def test_the_guide_shows_every_key(kind: Kind) -> None:
    """As code, or in an example."""
    text = "".join(page.read_text("utf-8") for page in GUIDE.glob("*.md"))
    code = " ".join([*re.findall(r"`([^`\n]+)`", text), *FENCED.findall(text)])
    assert set(keys_of(schema(kind))) - set(re.findall(r"\w+", code)) == set()


def test_the_guide_shows_every_phrase_that_is_read() -> None:
    """Each function of the grammar reads something in some example that counts as it says."""
    row_read.cache_clear()  # a row that was read before is not read again
    shown: set[str] = set()
    by_code = {function.__code__: name for name, function in FUNCTIONS.items()}

    def note(frame: FrameType, event: str, found: object) -> None:
        if event == "return" and found not in (None, ()) and frame.f_code in by_code:
            shown.add(by_code[frame.f_code])

    before = sys.getprofile()
    for page in sorted(GUIDE.glob("*.md")):
        for block in FENCE.findall(page.read_text(encoding="utf-8")):
            example = read_example(block)
            sys.setprofile(note)
            try:
                example.counted()
            finally:
                sys.setprofile(before)
    assert {name: phrase(name, "Takes") for name in FUNCTIONS.keys() - shown} == {}
