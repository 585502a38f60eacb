"""The whole collection as Markdown: what is in it, and that nothing of a pattern becomes markup."""

from __future__ import annotations

import re
from contextlib import nullcontext
from pathlib import Path

import pytest
from markdown_it import MarkdownIt

from tests.support.pattern_files import GOOD
from workeven import pipeline, source
from workeven.pipeline import Verdict
from workeven.publish.in_markdown import OWN, in_markdown, unchanged

ROOT = Path(__file__).parents[3]
PARSER = MarkdownIt("commonmark").enable(["table", "strikethrough"])
NASTY = "<b onclick=x>*a* [b](https://evil.example) ![c](d.png) `e` &copy; ~~f~~</b> <!-- g -->"


def as_files(paths: list[str]) -> dict[str, bytes]:
    """What is written for a collection."""
    verdict: Verdict = pipeline.check(source.collect(paths))
    assert verdict.good, verdict.problems
    return in_markdown(verdict, lambda _file: nullcontext())


@pytest.fixture(scope="module")
def demo() -> dict[str, bytes]:
    """The demo's files."""
    return as_files([str(ROOT / "patterns")])


def test_every_pattern_has_a_page_and_the_index_names_it(demo: dict[str, bytes]) -> None:
    """A page a folder, linked from the list of all."""
    slugs = sorted(path.name for path in (ROOT / "patterns").iterdir() if path.is_dir())
    index = demo["index.md"].decode()
    assert slugs == sorted(re.findall(r"\(<patterns/([a-z-]+)\.md>\)", index))
    assert {f"patterns/{slug}.md" for slug in slugs} <= demo.keys()


def test_a_page_has_every_row_with_its_count(demo: dict[str, bytes]) -> None:
    """Rows, counts in trade notation, lengths in both units, notes, materials, changes."""
    page = demo["patterns/sandhopper-mitts.md"].decode()
    for words in (
        "- **Rnd 1**: ch 1, sc in each ch around, join with sl st to first sc **33 (39, 42) sts**",
        "10 (10.5, 11) cm / 4 (4¼, 4¼) in: 21 (22, 23) more rounds",
        r"\*sk 2 sts, fan in next st; rep from \* to last 2 sts",
        "The new chain bridges the opening.",
        "| S | 16.5 cm / 6½ in |",
        "**Sanderling Sport (invented)**",
        "20 sts and 23 rows of sc = 10 cm / 4 in",
        "- **1.0, 2026-11-02:** First published.",
        "[Video at 7:40](<https://video.example/sandhopper?t=460>)",
    ):
        assert words in page, words


def test_rows_and_headings_are_those_of_the_patterns(demo: dict[str, bytes]) -> None:
    """As many rows as are proven, and no control sign of the page is left."""
    for outcome in pipeline.check(source.collect([str(ROOT / "patterns")])).outcomes:
        assert outcome.ready
        page = demo[f"patterns/{outcome.ready.pattern.slug}.md"].decode()
        proven = outcome.ready.proven.pieces
        number = sum(
            len(section.rows) for p in proven for section in p.sections if not p.piece.mirror
        )
        rows = page.split("**Rest.**")[1]
        assert number == len(
            re.findall(r"^- \*\*(?:Rn?ds?|Rows?|Start|End|Then)\b", rows, re.MULTILINE)
        )
        assert re.search(r"[\x00-\x08\x0b-\x1f]", page) is None


def test_the_same_collection_gives_the_same_bytes(demo: dict[str, bytes]) -> None:
    """Twice the same, in the same order."""
    assert list(as_files([str(ROOT / "patterns")]).items()) == list(demo.items())


def test_a_folder_knows_whether_it_was_changed(demo: dict[str, bytes]) -> None:
    """As written; with a file more, less, or another byte."""
    assert unchanged(demo)
    assert not unchanged({**demo, "mine.md": b""})
    assert not unchanged({path: text for path, text in demo.items() if path != "studio.md"})
    assert not unchanged({**demo, "studio.md": demo["studio.md"] + b"x"})
    assert not unchanged({path: text for path, text in demo.items() if path != OWN})


@pytest.fixture
def nasty(tmp_path: Path) -> dict[str, bytes]:
    """A pattern and a studio whose every text would be markup."""
    quoted = f"'{NASTY}'"
    text = GOOD.replace("Sand Mat", quoted).replace("Weave in all ends.", quoted)
    text = text.replace("A mat in single crochet with a scalloped last row.", quoted)
    text = text.replace("title: Mat\n", f"title: {quoted}\n").replace(
        "title: Scallops", f"title: {quoted}"
    )
    text = text.replace("  main: {weight", f"  main: {{label: {quoted}, weight")
    text += (
        f"story: {quoted}\ntags: [{quoted}]\ndesigners: [{quoted}]\nlicence: {quoted}\n"
        f"copyright: {quoted}\nversion: '1.0'\npublished: 2026-11-02\n"
        f"changes:\n  - {{version: '1.0', date: 2026-11-02, text: {quoted}}}\n"
        f"assembly: [{quoted}]\nnotions:\n  - {{kind: yarn needle, amount: 1, note: {quoted}}}\n"
        f"care: {quoted}\n"
    )
    text = text.replace(
        "        rows: |\n          ch {mat",
        f"        note: {quoted}\n        rows: |\n          ch {{mat",
    )
    text = text.replace(
        "ch 1, sc in each st across, turn ({mat_sts} sc)",
        "ch 1, sc in each st across, turn ({mat_sts} sc)",
    )
    folder = tmp_path / "patterns" / "mat"
    folder.mkdir(parents=True)
    (folder / "pattern.yaml").write_text(text, encoding="utf-8")
    studio = f"name: {quoted}\nsummary: {quoted}\n"
    (tmp_path / "patterns" / "studio.yaml").write_text(studio, encoding="utf-8")
    return as_files([str(tmp_path / "patterns")])


def test_no_text_of_a_pattern_becomes_markup(nasty: dict[str, bytes]) -> None:
    """No HTML, no picture, no code, and no link but to pages and to published rules."""
    for name, content in nasty.items():
        if not name.endswith(".md"):
            continue
        tokens = PARSER.parse(content.decode())
        inside = [child for token in tokens for child in token.children or ()]
        types = {token.type for token in (*tokens, *inside)}
        assert (
            types & {"html_block", "html_inline", "image", "code_inline", "fence", "s_open"}
            == set()
        )
        hrefs = {str(child.attrGet("href")) for child in inside if child.type == "link_open"}
        assert not [href for href in hrefs if "evil" in href]
        assert "https://evil" not in content.decode()


def test_each_text_is_there_as_it_is(nasty: dict[str, bytes]) -> None:
    """What the file says stands on the page, sign for sign."""
    tokens = PARSER.parse(nasty["patterns/mat.md"].decode())
    shown = "\n".join(
        "".join(child.content for child in token.children or ())
        for token in tokens
        if token.children
    )
    # title, summary, byline twice, story, piece, section, yarn, note, notion, assembly, care …
    assert shown.count(NASTY) >= 14
