"""Malformed YAML in a designer's words, the same from both of PyYAML's parsers."""

from __future__ import annotations

import pytest
import yaml

from workeven.source import read

PARSERS = [
    pytest.param(yaml.SafeLoader, id="python"),
    pytest.param(getattr(yaml, "CSafeLoader", yaml.SafeLoader), id="c"),
]

SLIPS = [
    ("gauge:\n\tground: 3\n", ("file-tab", 2, 1)),
    ("gauge:\n  ground:\n  \tsts: 3\n", ("file-tab", 3, 3)),
    ("a:\n  b:\n    c: 3\n\td: 4\n", ("file-tab", 4, 1)),
    ("p:\n  rows: |\n\tch 21\n", ("file-tab", 3, 1)),
    ("title: Mitts: a pair\n", ("file-colon", 1, 13)),
    ("title: Mitts\n  summary: x\n", ("file-indent", 2, 3)),
    ("gauge:\n  a: 1\n    b: 2\n", ("file-indent", 3, 5)),
    ("gauge:\n    a: 1\n  b: 2\n", ("file-indent", 3, 3)),
    ("a:\n  - b\n  c: d\n", ("file-indent", 3, 3)),
    ("a:\n  b: c\n d\n", ("file-indent", 3, 2)),
    ("a: - b\n", ("file-indent", 1, 4)),
    ("title:Mitts\nsummary: x\n", ("file-colon-space", 1, 7)),
    ("a: b\ntitle:Mitts\nsummary: x\n", ("file-colon-space", 2, 7)),
    ("a: b\ntitle:Mitts\n", ("file-colon-space", 2, 7)),
    ("title:Mitts\n", ("file-colon-space", 1, 7)),
    ("a: {sts:20, rows: 22}\n", ("file-colon-space", 1, 9)),
    ("a: {rows: 22, sts:20}\n", ("file-colon-space", 1, 19)),
    ("ground:{sts: 20}\n", ("file-colon-space", 1, 8)),
    ('a: "foo\nb: c\n', ("file-unclosed", 1, 4)),
    ("a: 'foo\nb: c\n", ("file-unclosed", 1, 4)),
    ('a: "foo\nb: c\nd: it is\nversion: "1.0"\n', ("file-unclosed", 1, 4)),
    ('a: "foo\nrows: |\n  sc\nb: don\'t\n# x: "1"\n', ("file-unclosed", 1, 4)),
    ("a: b\nx: 'foo\nc: d\ny: 'e'\n", ("file-unclosed", 2, 4)),
    ("a: [1, 2\nb: c\n", ("file-unclosed", 1, 4)),
    ("a: [\n", ("file-unclosed", 1, 4)),
    ("b: c\na: {x: 1,\n", ("file-unclosed", 2, 4)),
    ("a: {x: 1, y: 2\nb: c\n", ("file-unclosed", 1, 4)),
    ("a: @foo\n", ("file-value-start", 1, 4)),
    ("a: `foo`\n", ("file-value-start", 1, 4)),
    ("a: %foo\n", ("file-value-start", 1, 4)),
    ("a: & b\n", ("file-value-start", 1, 4)),
    ("a: >=3\n", ("file-value-start", 1, 4)),
    ("a: [x] y\n", ("file-value-start", 1, 4)),
    ("a: 'foo's bar'\n", ("file-yaml", 1, 9)),
    ('a: "Sand" Mitts\n', ("file-yaml", 1, 11)),
    ('a: "f\\qoo"\n', ("file-yaml", 1, 6)),
    ("a: {x: 1 y: 2}\n", ("file-yaml", 1, 11)),
    ("a: {x: 1,, y: 2}\n", ("file-yaml", 1, 10)),
    ("a: ]\n", ("file-yaml", 1, 4)),
    ("a: b\ntitle Mitts\nsummary: x\n", ("file-yaml", 2, 1)),
    ('a: "\\ud83e"\n', ("file-surrogate", 1, 5)),
    # rows that YAML would take apart
    ("rows:\n  - ch 3\n  - *sk 3 sts, 4 dc in next st\n", ("file-row-item", 3, 5)),
    ("rows:\n- *sk 3 sts\n", ("file-row-item", 2, 3)),
    ("rows:\n  - *sk\n", ("file-row-item", 2, 5)),
    ("rows:\n  - [sc 7, sc2tog] around\n", ("file-row-item", 2, 5)),
    ("rows:\n  - {n} sc\n", ("file-row-item", 2, 5)),
    ("rows: {n} sc\n", ("file-row-item", 1, 7)),
    ("rows: Rnd 1: sc in each st\n", ("file-row-item", 1, 7)),
    # rows without the stroke
    ("rows:\n  Row 1: ch 3\n  sc in each st\n", ("file-row-item", 1, 1)),
    ("rows:\n  sc in each st\n  Row 2: ch 3\n", ("file-row-item", 1, 1)),
    ("- title: x\n  rows:\n    [sc 3] twice\n    sc\n", ("file-row-item", 2, 3)),
    ("p:\n  rows:\n  sc in each st\n  ch 3\n", ("file-row-item", 2, 3)),
    ("p:\n  rows:\n    - ch 3\n    sc in each st\n", ("file-row-item", 2, 3)),
    ("p:\n  rows: ch 20\n    ch 3\n    Row 2: sc\n", ("file-row-item", 2, 3)),
    ("p:\n  title: x\n  rows |\n    ch 3\n", ("file-row-item", 3, 3)),
    # and where they are not what is wrong
    ("g:\n  rows: 22\n  over 10 cm\n", ("file-yaml", 3, 3)),
    ("p:\n  rows:\n    - {work: ch 3}\n    x\n", ("file-yaml", 4, 5)),
    ("p:\n  rows: ch 3\n  note: a\n   b: c\n", ("file-indent", 4, 4)),
    # text blocks
    ("rows: | ch 3\n  turn\n", ("file-block", 1, 7)),
    ("rows: |\nsc in each st\nb: c\n", ("file-block", 2, 1)),
    ("p:\n  rows: |\n  ch 21\n  sc\n", ("file-block", 3, 3)),
    ("p:\n  rows: |\n      ch 21\n    turn\n", ("file-block", 4, 5)),
    ("rows: |\n     \n  ch 2\n", ("file-block", 3, 3)),
]


@pytest.mark.parametrize("parser", PARSERS)
@pytest.mark.parametrize(("text", "expected"), SLIPS)
def test_a_slip_is_named_where_it_is(
    text: str, expected: tuple[str, int, int], parser: type
) -> None:
    """One slip is one message, at the character that is wrong."""
    checked = read("f", text.encode("utf-8"), parser=parser)
    found = [(one.code, one.span.line, one.span.column) for one in checked.problems]
    assert [expected] == found


@pytest.mark.parametrize("text", [slip for slip, _ in SLIPS])
def test_a_slip_is_said_in_a_designers_words(text: str) -> None:
    """No word of the parser's comes through, and there is always a cure."""
    problem = read("f", text.encode("utf-8")).problems[0]
    said = f"{problem.found} {problem.expected} {problem.mend}".lower()
    words = ("token", "scalar", "mapping", "sequence", "scanner", "parser", "node", "invalid")
    assert [] == [word for word in words if word in said]
    assert problem.mend


def test_a_colon_in_a_value_shows_the_line_in_quotes() -> None:
    """The whole message."""
    problem = read("f", b"title: Mitts: a pair\n").problems[0]
    assert (
        "The value of `title` holds a colon with a space behind it, which YAML takes for the end "
        "of a key."
    ) == problem.found
    assert 'Write `title: "Mitts: a pair"`.' == problem.mend


def test_a_row_in_a_list_is_sent_to_a_block() -> None:
    """The whole message."""
    problem = read("f", b"rows:\n  - [sc 7, sc2tog] around\n").problems[0]
    assert "YAML does not read `[sc 7, sc2tog] around` as a row." == problem.found
    assert (
        "Put the rows in a | block: write `rows: |`, and under it the rows, one a line, indented, "
        "with nothing in front of them."
    ) == problem.mend


def test_a_slip_that_is_no_known_one_still_has_its_place() -> None:
    """Whatever breaks the text, the message is one, and placed inside the file."""
    for text in ("? [", "a: 'b\\", "{a: b", "- - :\n -", "a: |3x\n b", ":\t:\n\t:"):
        for problem in read("f", text.encode()).problems:
            assert 1 <= problem.span.line <= text.count("\n") + 1
            assert problem.found
