"""Bytes to a tree: plain values stay words, places are right, what YAML adds is refused."""

from __future__ import annotations

import pytest
import yaml

from workeven.problems import Checked
from workeven.source import Node, Source, read

PARSERS = [
    pytest.param(yaml.SafeLoader, id="python"),
    pytest.param(getattr(yaml, "CSafeLoader", yaml.SafeLoader), id="c"),
]
parsers = pytest.mark.parametrize("parser", PARSERS)


def tree(text: str, parser: type = yaml.SafeLoader) -> Source:
    """The tree of a text that has no problem."""
    checked = read("pattern.yaml", text.encode("utf-8"), parser=parser)
    assert () == checked.problems
    assert checked.value is not None
    return checked.value


def refused(text: str, parser: type = yaml.SafeLoader) -> list[tuple[str, int, int]]:
    """Code, line and column of every problem."""
    checked: Checked[Source] = read("pattern.yaml", text.encode("utf-8"), parser=parser)
    return [(one.code, one.span.line, one.span.column) for one in checked.problems]


def at(node: Node, *path: str | int) -> Node:
    """The value at a path."""
    for step in path:
        value = node.value
        if isinstance(step, int):
            assert isinstance(value, tuple)
            node = value[step]
        else:
            assert isinstance(value, dict)
            node = value[step].value
    return node


# --- values and places ---------------------------------------------------------------------


@parsers
@pytest.mark.parametrize("text", ["7:40", "no", "012", "1e3", "2026-05-01", "~", "null", "0x1F"])
def test_plain_values_stay_words(text: str, parser: type) -> None:
    """What YAML would make a number, a switch or a day is kept as it is written."""
    assert text == at(tree(f"key: {text}\n", parser).root, "key").value


@parsers
def test_every_key_and_value_has_its_place(parser: type) -> None:
    """Lines and columns count characters from 1, with signs outside of Latin letters before."""
    source = tree("título: é\nmaß: {½: 3½ in, 🧶🧶: 'x'}\n", parser)
    table = source.root.value
    assert isinstance(table, dict)
    assert (1, 1) == table["título"].key.start
    assert ((1, 9), (1, 10)) == (table["título"].value.start, table["título"].value.end)
    inner = at(source.root, "maß").value
    assert isinstance(inner, dict)
    assert ((2, 10), (2, 15)) == (inner["½"].value.start, inner["½"].value.end)
    assert ((2, 17), (2, 19)) == (inner["🧶🧶"].key.start, inner["🧶🧶"].key.end)
    assert ((2, 21), (2, 24)) == (inner["🧶🧶"].value.start, inner["🧶🧶"].value.end)


@parsers
@pytest.mark.parametrize("end", ["\n", "\r\n", "\r"])
def test_line_ends_of_every_system_count_as_one(end: str, parser: type) -> None:
    """The same file has the same places, whatever system it was written on."""
    text = end.join(["a: 1", "b: |", "  ch 3", "  turn", "c: 2", ""])
    source = tree(text, parser)
    assert (5, 4) == at(source.root, "c").start
    rows = [(row, span.line, span.column) for row, span in source.block_lines(at(source.root, "b"))]
    assert [("ch 3", 3, 3), ("turn", 4, 3)] == rows


def test_a_byte_order_mark_is_passed_over() -> None:
    """Some editors write one; the first key is still in column 1."""
    checked = read("pattern.yaml", b"\xef\xbb\xbfa: 1\n")
    assert checked.value is not None
    assert (1, 4) == at(checked.value.root, "a").start


def test_the_two_parsers_give_the_same_tree() -> None:
    """Whether PyYAML was built with its parser in C changes nothing."""
    text = (
        "---\na: [1, 'two', \"thr\\u0065e\"]\nb:\n  - x: |-\n      é ½\n\n      y\n"
        "  - >\n    one\n    two\nc: {d: {e: f}, g: h}\nh: plain over\n  two lines\n"
    )
    in_c = getattr(yaml, "CSafeLoader", yaml.SafeLoader)
    assert tree(text, yaml.SafeLoader) == tree(text, in_c)


def test_values_are_those_of_the_reference_composer() -> None:
    """PyYAML's own composer reads the same words in the same places (PyYAML 6)."""
    text = "a: [1, 'it''s', \"b\\tc\"]\nrows: |\n  ch 3\n   indented more\n\n  turn\nk: {v: w}\n"

    def plain(node: yaml.Node) -> object:
        place = (node.start_mark.line + 1, node.start_mark.column + 1)
        if isinstance(node, yaml.ScalarNode):
            return node.value, place
        if isinstance(node, yaml.SequenceNode):
            return [plain(one) for one in node.value], place
        return {key.value: plain(value) for key, value in node.value}, place

    def ours(node: Node) -> object:
        if isinstance(node.value, str):
            return node.value, node.start
        if isinstance(node.value, tuple):
            return [ours(one) for one in node.value], node.start
        return {key: ours(entry.value) for key, entry in node.value.items()}, node.start

    composed = yaml.compose(text, Loader=yaml.SafeLoader)
    assert composed is not None
    assert plain(composed) == ours(tree(text).root)


# --- what YAML adds is refused -------------------------------------------------------------


@parsers
@pytest.mark.parametrize(
    ("text", "expected"),
    [
        ("a: 1\nb: 2\na: 3\n", ("file-duplicate-key", 3, 1)),
        ("a: &x 1\n", ("file-anchor", 1, 4)),
        ("a: &x {b: 1}\n", ("file-anchor", 1, 4)),
        ("a: *x\n", ("file-alias", 1, 4)),
        ("a: {<<: {b: 1}}\n", ("file-merge-key", 1, 5)),
        ("a: !!int 3\n", ("file-tag", 1, 4)),
        ("a: !x [1]\n", ("file-tag", 1, 4)),
        ("%YAML 1.1\n---\na: 1\n", ("file-directive", 1, 1)),
        ("%weft 2\na: 1\n", ("file-directive", 1, 1)),
        ("a: 1\n---\nb: 2\n", ("file-second-document", 2, 1)),
        ("[a, b]: 1\n", ("file-complex-key", 1, 1)),
        ("? {a: 1}\n: 2\n", ("file-complex-key", 1, 3)),
        ("'': 2\n", ("file-complex-key", 1, 1)),
        ('"a\\nb": 1\n', ("file-complex-key", 1, 1)),
        ("", ("file-empty", 1, 1)),
        ("# to be written\n\n", ("file-empty", 1, 1)),
        ("- a\n- b\n", ("file-shape", 1, 1)),
        ("just words\n", ("file-shape", 1, 1)),
    ],
)
def test_what_yaml_adds_is_refused_with_its_place(
    text: str, expected: tuple[str, int, int], parser: type
) -> None:
    """Each has a code of its own, and is one message."""
    assert [expected] == refused(text, parser)


def test_reading_goes_on_behind_what_is_merely_refused() -> None:
    """A key written twice hides nothing that comes after it; the first of the two stands."""
    checked = read("f", b"a: 1\na: 2\nb: &x 3\nb: 4\n")
    codes = [one.code for one in checked.problems]
    assert ["file-duplicate-key", "file-anchor", "file-duplicate-key"] == codes
    assert checked.value is not None
    assert ("1", "3") == (at(checked.value.root, "a").value, at(checked.value.root, "b").value)


def test_a_key_written_twice_names_the_first() -> None:
    """The whole message, with a note at the first of the two."""
    problem = read("f", b"a: 1\nb: 2\na: 3\n").problems[0]
    assert ("`a` is written twice.", "Each key once; the first stands in line 1.") == (
        problem.found,
        problem.expected,
    )
    assert [1] == [note.span.line for note in problem.notes]


# --- commas inside brackets ----------------------------------------------------------------


@parsers
@pytest.mark.parametrize(
    ("text", "column", "whole"),
    [
        ("a: {b: 76 (86, 97) cm}\n", 8, "76 (86, 97) cm"),
        ("a: {b: 6 (6, 7, 7, 7), c: 2}\n", 8, "6 (6, 7, 7, 7)"),
        ("a: {b: Work loosely, then block, c: 2}\n", 8, "Work loosely, then block"),
    ],
)
def test_a_list_by_size_inside_braces_has_its_own_message(
    text: str, column: int, whole: str, parser: type
) -> None:
    """YAML ends the value at the comma; the rest is joined to it again, and said once."""
    checked = read("f", text.encode(), parser=parser)
    assert [("file-flow-split", column)] == [
        (one.code, one.span.column) for one in checked.problems
    ]
    assert checked.value is not None
    assert whole == at(checked.value.root, "a", "b").value


def test_a_list_by_size_inside_a_list_has_its_own_message() -> None:
    """An open bracket tells that the comma was not meant to part the items."""
    checked = read("f", b"a: [S (M, L), x]\n")
    assert ["file-flow-split"] == [one.code for one in checked.problems]
    assert checked.value is not None
    assert ["S (M, L)", "x"] == [one.value for one in at(checked.value.root, "a").value]  # type: ignore[union-attr]


def test_the_message_of_a_split_value_shows_the_cure() -> None:
    """The whole message."""
    problem = read("f", b"sizes: {hand: 76 (86, 97) cm}\n").problems[0]
    assert "Inside {…} a comma ends a value: `hand` gets only `76 (86` of `76 (86, 97) cm`." == (
        problem.found
    )
    assert (
        'Write `hand: 76 (86, 97) cm` on its own line, or put it in quotes: "76 (86, 97) cm".'
    ) == problem.mend


def test_a_key_without_value_behind_a_list_is_left_alone() -> None:
    """Only a piece of a plain value is joined: here there is none to join it to."""
    assert [] == refused("a: {b: [1], c: }\n")


def test_commas_between_keys_are_no_problem() -> None:
    """The usual gauge on one line."""
    assert [] == refused("ground: {sts: 20, rows: 22, over: 10 cm, of: sc, hook: 3.75 mm}\n")
