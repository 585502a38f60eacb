"""Every character of a value is found again in the file."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from workeven.source import Node, Source, read

LINES = st.lists(st.text("sc ch3#:-*[]{}'\"½é🧶|", min_size=0, max_size=12), min_size=1, max_size=6)


def value(text: str, key: str = "a") -> tuple[Source, Node]:
    """A file without problems and the value of one key."""
    checked = read("f", text.encode("utf-8"))
    assert () == checked.problems
    assert checked.value is not None
    table = checked.value.root.value
    assert isinstance(table, dict)
    return checked.value, table[key].value


@given(lines=LINES, indent=st.integers(1, 7))
def test_each_character_of_a_block_is_found_again(lines: list[str], indent: int) -> None:
    """Whatever stands in a block, a place in the value is the same sign in the file."""
    written = "".join(f"{' ' * indent}{line}\n" for line in ["x", *lines])
    source, node = value(f"before: 1\na: |\n{written}b: 1\n")
    assert isinstance(node.value, str)
    for at, sign in enumerate(node.value):
        if sign != "\n":
            span = source.stretch(node, at, at + 1)
            assert sign == source.lines[span.line - 1][span.column - 1]


def test_lines_of_a_block_have_their_places() -> None:
    """Blank lines count, an indentation that is written out too, and # is text."""
    source, node = value("a: |2\n    ch 3\n\n  # not a comment\n  turn  \nb: 1\n")
    found = [(text, span.line, span.column) for text, span in source.block_lines(node)]
    assert [("ch 3", 2, 5), ("# not a comment", 4, 3), ("turn", 5, 3)] == found


@pytest.mark.parametrize(
    ("text", "at", "column"),
    [
        ("a: plain é x\n", 8, 12),
        ("a: 'it''s x'\n", 5, 11),
        ('a: "\\u00e9 \\" x"\n', 4, 15),
        ('a: "tab\\tx"\n', 4, 10),
    ],
)
def test_a_place_inside_a_value_on_one_line(text: str, at: int, column: int) -> None:
    """Escapes and doubled quotes are counted as they are written."""
    source, node = value(text)
    assert isinstance(node.value, str)
    assert "x" == node.value[at]
    assert (1, column) == (
        source.stretch(node, at, at + 1).line,
        source.stretch(node, at, at + 1).column,
    )


def test_a_value_over_several_lines_has_the_place_of_the_whole() -> None:
    """YAML folds it, so a place inside cannot be told."""
    source, node = value("a: one\n  two\nb: 1\n")
    assert source.span(node) == source.stretch(node, 4, 5)


def test_a_block_ends_with_the_line_that_opens_it() -> None:
    """The span of a block is its `|`, not the pages below it."""
    source, node = value("a: |\n  ch 3\n  turn\nb: 1\n")
    span = source.span(node)
    assert ((1, 4), (1, 5)) == ((span.line, span.column), (span.end_line, span.end_column))
