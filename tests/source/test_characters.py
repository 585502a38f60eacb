"""Bytes to text: UTF-8 alone, and nothing that hides."""

from __future__ import annotations

import pytest

from workeven.source import read
from workeven.source.characters import decode


def found(content: bytes) -> list[tuple[str, int, int]]:
    """Code, line and column of each problem."""
    return [(one.code, one.span.line, one.span.column) for one in decode("f", content).problems]


@pytest.mark.parametrize(
    ("number", "code"),
    [
        (0x0000, "file-nul"),
        (0x202E, "file-bidi"),
        (0x2066, "file-bidi"),
        (0x200F, "file-bidi"),
        (0x200B, "file-zero-width"),
        (0x200D, "file-zero-width"),
        (0x00AD, "file-zero-width"),
        (0xFEFF, "file-zero-width"),
        (0xE0041, "file-zero-width"),
        (0x2028, "file-line-separator"),
        (0x0085, "file-line-separator"),
        (0x0007, "file-control-character"),
        (0x009B, "file-control-character"),
        (0xFFFE, "file-control-character"),
    ],
)
def test_a_character_that_hides_is_refused_where_it_stands(number: int, code: str) -> None:
    """In a longer text it is one message with the line and column; other signs do not count it."""
    text = f"title: Sand Mat with a long name\nsummary: ½é{chr(number)}b\n"
    assert [(code, 2, 12)] == found(text.encode("utf-8"))


def test_several_of_a_kind_are_one_message_with_notes() -> None:
    """The first has the message, the others are noted."""
    problem = decode("f", "a: x\u200by\nb: \u200bz\n".encode()).problems[0]
    assert (
        "The invisible character U+200B (zero width space) has no width: two words can look alike "
        "and be different. It stands here and at 1 more places."
    ) == problem.found
    assert [(2, 4)] == [(note.span.line, note.span.column) for note in problem.notes]


@pytest.mark.parametrize("escape", ["\\0", "\\u202e", "\\u200b", "\\L", "\\a"])
def test_an_escape_does_not_smuggle_such_a_character_in(escape: str) -> None:
    """Inside double quotes YAML would make the character from letters."""
    checked = read("f", f'a: "x{escape}y"\n'.encode())
    assert checked.value is None
    assert [(1, 6)] == [(one.span.line, one.span.column) for one in checked.problems]


def test_half_a_character_in_the_bytes_is_named() -> None:
    """ED A0 BD is a lone surrogate in a form that UTF-8 forbids (RFC 3629, section 3)."""
    assert [("file-surrogate", 1, 5)] == found(b"a: x\xed\xa0\xbd\n")


@pytest.mark.parametrize(
    ("content", "expected"),
    [
        (b"title: Caf\xe9\n", ("file-encoding", 1, 11)),
        (b"a: 1\nb: \xff\n", ("file-encoding", 2, 4)),
        (b"a: \xc3", ("file-encoding", 1, 4)),
        ("title: x".encode("utf-16"), ("file-encoding", 1, 1)),
        (b"\x89PNG\r\n\x1a\n\x00\x00", ("file-binary", 1, 1)),
        (b"GIF89a\x01\x00", ("file-binary", 1, 1)),
        (b"\x00" * 40, ("file-binary", 1, 1)),
        (bytes(range(256)), ("file-binary", 1, 1)),
    ],
)
def test_what_is_no_text_is_said_to_be_none(content: bytes, expected: tuple[str, int, int]) -> None:
    """Another encoding has the place of its first byte; a picture has none."""
    assert [expected] == found(content)


def test_another_encoding_shows_what_the_byte_would_be() -> None:
    """The whole message."""
    problem = decode("f", b"title: Caf\xe9\n").problems[0]
    assert "The byte 0xE9 here is no UTF-8. In Windows-1252 it would be é." == problem.found


def test_signs_of_the_trade_are_welcome() -> None:
    """Fractions, dashes, multiplication signs, primes, accents and emoji are plain text."""
    text = "½ ¾ × – — ′ ″ é ß 日本 🧶 ❤️ \u00a0"
    assert text == decode("f", text.encode()).value
