"""Speed of workeven as ratios, printed as JSON.

Takes     nothing; ``--patterns 100`` says how many the built collection has, ``--rounds 30`` how
          often each work within the process is measured: more where the machine is busy.
Gives     a ratio for each goal, with its limit, on standard output.
Problems  none: it stops when the engine does not pass the patterns it measures on.
From      DEVELOPERS.md, "Measured".

L is what PyYAML's C loader takes for the demo's garment of nine sizes, M what the theme takes to
build the same finished pages from Markdown. A ratio to work of the same run means the same on a
slow machine as on a fast one.
"""

from __future__ import annotations

import argparse
import inspect
import re
import sys
from collections.abc import Iterator
from pathlib import Path
from typing import TypeVar

import yaml

from benchmarks.bad_input import BAD
from benchmarks.collection import (
    ANY_WIDTH,
    GARMENT,
    ROOT,
    garments,
    write_many,
)
from benchmarks.measuring import ROUNDS, Work, fast_folder, least_process_times, least_times
from benchmarks.report import judged, machine, told
from workeven import grading, pattern, pipeline, proof, source
from workeven import yarn as yarn_stage
from workeven.notation import parser, stream, tokens
from workeven.notation.tree import Row
from workeven.notation.vocabulary import Vocabulary
from workeven.pattern import Pattern, schema
from workeven.problems import Checked
from workeven.proof import counting

#: number of the goal: (what is measured, the most it may be)
GOALS = {
    1: ("read with positions, in L", 0.8),
    2: ("schema, in L", 2.0),
    3: ("parse all rows once, in L", 4.0),
    4: ("count all rows in nine sizes, in L", 6.0),
    5: ("check of the garment, warm, everything, in L", 18.0),
    6: ("nine sizes against one", 2.0),
    7: ("cold check of a file against a process that loads it with PyYAML", 7.0),
    8: ("a hundred times the stitches, same text", 1.2),
    9: ("four times the rows, in four times the pieces", 4.3),
    10: ("cold build of a collection, in M", 1.0),
}
#: the same of what is no goal by number: growth with pieces, and the slowest of rows that nobody
#: should write
OTHERS = {
    "pieces": ("eight times the pieces, against four times", 2.1),
    "bad input": ("the slowest bad row, in L", 30.0),
}

#: What both builds share; patterns stay out of the menu in both.
MKDOCS = """\
site_name: Same pages
use_directory_urls: false
theme: {name: material, font: false}
markdown_extensions: [attr_list, tables]
nav: [index.md, patterns/index.md]
not_in_nav: "patterns/*/"
"""

T = TypeVar("T")


def main() -> None:
    """Measure every goal and print what was found."""
    options = _options()
    with fast_folder() as folder:
        found = _in_process(options.rounds)
        found |= _bad_input()
        found |= _cold_check(folder)
        found |= _build(folder, options.patterns)
    told(_report(found, options.patterns))


def _options() -> argparse.Namespace:
    words = argparse.ArgumentParser(description="Speed of workeven as ratios, printed as JSON.")
    words.add_argument("--patterns", type=int, default=100, help="patterns to build (100)")
    words.add_argument("--rounds", type=int, default=ROUNDS, help=f"rounds of each ({ROUNDS})")
    return words.parse_args()


# --- within one process --------------------------------------------------------------------


def _in_process(rounds: int) -> dict[str, float]:
    """Stages and whole checks, all in turn within the same rounds."""
    content = GARMENT.read_bytes()
    read = _value(source.read("pattern.yaml", content))
    studio = _value(pattern.parse_studio(_value(source.load(str(ROOT / "patterns/studio.yaml")))))
    parsed = _value(pattern.parse(read, studio))
    graded = _value(grading.grade(parsed))
    proven = _value(proof.prove(graded))
    rows = tuple(_rows(parsed))
    special = tuple(stitch.name for stitch in parsed.stitches)
    words = Vocabulary(terms=parsed.terms, special=special, sizes=parsed.sizes.names)

    def parse_rows() -> None:
        forget_rows()
        for row in rows:
            parser.parse_row(row.text, row.span, words)

    def check(what: bytes) -> Work:
        def work() -> pipeline.Outcome:
            forget_rows()
            return pipeline.run(_value(source.read("pattern.yaml", what)), studio)

        return work

    works: dict[str, Work] = {
        "load": lambda: yaml.load(content, yaml.CSafeLoader),
        "read": lambda: source.read("pattern.yaml", content),
        "schema": lambda: schema.shaped(read, "pattern"),
        "rows": parse_rows,
        "grade": lambda: grading.grade(parsed),
        "count": lambda: proof.prove(graded),
        "yarn": lambda: yarn_stage.estimate(proven),
        **{name: check(text.encode()) for name, text in garments().items()},
        "60 stitches": lambda: counting.count(ANY_WIDTH, start="60 sc"),
        "6,000 stitches": lambda: counting.count(ANY_WIDTH, start="6000 sc"),
    }
    for name in ("60 stitches", "6,000 stitches"):
        _value(counting.count(ANY_WIDTH, start=f"{name.split()[0].replace(',', '')} sc"))
    for name in garments():
        outcome = works[name]()
        if not isinstance(outcome, pipeline.Outcome) or outcome.ready is None:
            raise SystemExit(f"{name}: the pattern does not pass: {outcome}")
    return least_times(works, rounds)


def _value(checked: Checked[T]) -> T:
    if checked.value is None:
        raise SystemExit(f"the pattern does not pass: {checked.problems}")
    return checked.value


def _bad_input() -> dict[str, float]:
    """What each of the rows takes that nobody should write."""

    def counted(rows: str) -> Work:
        def work() -> object:
            forget_rows()
            return counting.count(rows, start="40 sc")

        return work

    return least_times({f"bad: {name}": counted(rows) for name, rows in BAD.items()}, rounds=3)


def _rows(parsed: Pattern) -> Iterator[Row]:
    for piece in parsed.pieces:
        for section in piece.sections:
            yield from section.rows
    for swatch in parsed.swatches:
        yield from swatch.rows


#: what the parser remembers of a text
_REMEMBERED = tuple(
    remembered
    for module in (parser, stream, tokens)
    for remembered in vars(module).values()
    if hasattr(remembered, "cache_clear") and "text" in inspect.signature(remembered).parameters
)


def forget_rows() -> None:
    """Empty what the parser remembers of rows, so that a file is read as if it were new."""
    for remembered in _REMEMBERED:
        remembered.cache_clear()


# --- whole commands ------------------------------------------------------------------------


def _cold_check(folder: Path) -> dict[str, float]:
    """A check of one file as a process of its own, against one that loads it with PyYAML."""
    copy = folder / "groynemark-tee" / "pattern.yaml"
    copy.parent.mkdir()
    copy.write_bytes(GARMENT.read_bytes())
    load = f"import yaml; yaml.load(open({str(copy)!r}, 'rb'), yaml.CSafeLoader)"
    commands = {
        "cold load": (sys.executable, "-c", load),
        "cold check": (sys.executable, "-m", "workeven.cli", "check", str(copy)),
    }
    return least_process_times(commands, folder)


def _build(folder: Path, number: int) -> dict[str, float]:
    """A collection built by workeven, against its finished pages built from Markdown."""
    ours, same = folder / "ours", folder / "same"
    write_many(ours / "patterns", number)
    write_site(ours, "plugins: [search, workeven]\n")
    command = (sys.executable, "-m", "mkdocs", "build", "--quiet")
    least_process_times({"once": command}, ours, rounds=1)
    write_same_pages(ours / "site", same, number)
    return _build_times(ours, same)


def write_same_pages(site: Path, same: Path, number: int, content: str = "") -> None:
    """The pages of a built site as Markdown: finished as they are, or with this content each."""
    write_site(same, "plugins: [search]\n")
    pages = sorted((site / "patterns").rglob("index.html"))
    if len(pages) != number + 1:
        raise SystemExit(f"{len(pages)} pages were built of {number} patterns and an index")
    for page in pages:
        copy = same / "docs" / page.relative_to(site).with_suffix(".md")
        copy.parent.mkdir(parents=True, exist_ok=True)
        text = content or _finished(page.read_text(encoding="utf-8"))
        copy.write_text(text, encoding="utf-8")


def _build_times(ours: Path, same: Path) -> dict[str, float]:
    """Both builds in turn, each into a folder that does not stand yet."""
    words = (sys.executable, "-m", "mkdocs", "build", "--quiet", "--config-file")
    commands = {
        "build": (*words, str(ours / "mkdocs.yml")),
        "same pages": (*words, str(same / "mkdocs.yml")),
    }
    return least_process_times(commands, ours, rounds=5)


def write_site(folder: Path, more: str) -> None:
    """The settings of a site and its home page."""
    (folder / "docs").mkdir(parents=True)
    (folder / "docs" / "index.md").write_text("# Home\n", encoding="utf-8")
    (folder / "mkdocs.yml").write_text(MKDOCS + more, encoding="utf-8")


def _finished(page: str) -> str:
    """The finished content of a page, as a Markdown file that holds it as raw HTML."""
    found = re.search(r"<article[^>]*>(.*)</article>", page, flags=re.DOTALL)
    if found is None:
        raise SystemExit("a built page holds no article")
    return f"<div>\n{found[1]}\n</div>\n"


# --- the report ----------------------------------------------------------------------------


def _report(found: dict[str, float], number: int) -> dict[str, object]:
    ratios = {
        1: found["read"] / found["load"],
        2: found["schema"] / found["load"],
        3: found["rows"] / found["load"],
        4: found["count"] / found["load"],
        5: found["check"] / found["load"],
        6: found["as designed"] / found["one size"],
        7: found["cold check"] / found["cold load"],
        8: found["6,000 stitches"] / found["60 stitches"],
        9: found["four times"] / found["as designed"],
        10: found["build"] / found["same pages"],
    }
    bad = {name: seconds for name, seconds in found.items() if name.startswith("bad: ")}
    slowest = max(bad, key=lambda name: bad[name])
    others = {
        "pieces": found["eight times"] / found["four times"],
        "bad input": bad[slowest] / found["load"],
    }
    return {
        "machine": machine(),
        "patterns_built": number,
        "goals": judged(ratios, GOALS),
        "others": judged(others, OTHERS, numbered=False),
        "slowest_bad_input": slowest.removeprefix("bad: "),
        "milliseconds": {name: round(1000 * seconds, 3) for name, seconds in found.items()},
    }


if __name__ == "__main__":
    main()
