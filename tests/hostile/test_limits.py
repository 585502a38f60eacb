"""Files meant to make programs stumble: each limit stops the reading, soon and with its place."""

from __future__ import annotations

import time

import pytest
import yaml

from workeven.source import read

PARSERS = [
    pytest.param(yaml.SafeLoader, id="python"),
    pytest.param(getattr(yaml, "CSafeLoader", yaml.SafeLoader), id="c"),
]
MOST_BYTES, DEEPEST, MOST_NODES, LONGEST = 256 * 1024, 32, 60_000, 10_000


def codes(text: str | bytes, parser: type = yaml.SafeLoader) -> list[str]:
    """The codes of all problems."""
    content = text.encode("utf-8") if isinstance(text, str) else text
    return [one.code for one in read("f", content, parser=parser).problems]


def test_a_file_may_have_256_kib_and_no_byte_more() -> None:
    """The size is judged before a character is read."""
    comment = "# " + "x" * (MOST_BYTES - 2 - len("\na: 1\n")) + "\na: 1\n"
    assert MOST_BYTES == len(comment)
    assert [] == codes(comment)
    assert ["file-too-large"] == codes(comment + "\n")


@pytest.mark.parametrize("parser", PARSERS)
def test_lists_and_tables_may_stand_32_deep(parser: type) -> None:
    """The table of the file is one of the 32."""
    inside = DEEPEST - 1
    assert [] == codes(f"a: {'[' * inside}x{']' * inside}\n", parser)
    assert ["file-too-deep"] == codes(f"a: {'[' * DEEPEST}x{']' * DEEPEST}\n", parser)


@pytest.mark.parametrize("parser", PARSERS)
@pytest.mark.parametrize("text", ["[" * 100_000, "{a: " * 50_000, "- " * 100_000, "? " * 100_000])
def test_brackets_without_end_are_one_problem(text: str, parser: type) -> None:
    """A hundred thousand of them raise nothing, and are read no further than 32."""
    assert codes(f"a: {text}" if text[0] == "[" else text, parser) in (
        ["file-too-deep"],
        ["file-complex-key"],
    )


def test_a_file_may_have_60_000_values() -> None:
    """Keys, values, lists and tables are counted."""
    others = 3  # the key, the list and the table of the file
    fits = MOST_NODES - others
    parser = PARSERS[-1].values[0]
    assert isinstance(parser, type)
    assert [] == codes(f"a: [{','.join('x' * fits)}]\n", parser)
    assert ["file-too-many-values"] == codes(f"a: [{','.join('x' * (fits + 1))}]\n", parser)


@pytest.mark.parametrize("parser", PARSERS)
def test_a_value_may_have_10_000_characters(parser: type) -> None:
    """Characters, not bytes."""
    assert [] == codes(f"a: {'é' * LONGEST}\n", parser)
    assert ["file-value-too-long"] == codes(f"a: {'é' * (LONGEST + 1)}\n", parser)


def test_a_long_key_is_no_key() -> None:
    """A key of more than 200 characters is a text."""
    assert [] == codes(f"{'k' * 200}: 1\n")
    assert ["file-complex-key"] == codes(f"{'k' * 201}: 1\n")


def test_a_billion_laughs_are_not_laughed() -> None:
    """Ten values that each stand for ten of the one before: named, and nothing is built."""
    text = "a: &a [x,x,x,x,x,x,x,x,x,x]\n" + "".join(
        f"{name}: &{name} [{','.join(f'*{before}' for _ in range(10))}]\n"
        for before, name in zip("abcdefgh", "bcdefghi", strict=True)
    )
    assert {"file-anchor", "file-alias"} == set(codes(text))


@pytest.mark.parametrize("parser", PARSERS)
@pytest.mark.parametrize(
    "text",
    [
        "x" * (MOST_BYTES - 1),
        "a: '" + "''" * 120_000 + "'",
        'a: "' + "\\x41" * 60_000 + '"',
        "a: |\n" + " \n" * 120_000,
        "a: {" + "b: 1 (2, " * 25_000,
        "a: [" + "(, " * 70_000,
        "\n".join("a: 1" for _ in range(20_000)),
        "a: " + "1,5 " * 2_400,
        "? " * 120_000,
        "&a " * 80_000,
        "!a " * 80_000,
        "\r" * 200_000,
        "%a\n" * 80_000,
        ": " * 100_000,
    ],
)
def test_no_text_takes_long(text: str, parser: type) -> None:
    """The dearest text of 256 KiB is read in seconds by the slow parser too; nothing is raised."""
    start = time.process_time()
    codes(text, parser)
    assert time.process_time() - start < 20
