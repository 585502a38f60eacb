"""One line of text as tokens: spelling is folded, columns are kept."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from workeven.notation.tokens import tokenize
from workeven.notation.vocabulary import Vocabulary

US, UK = Vocabulary("us", ("shell", "V-st")), Vocabulary("uk")


def words(text: str, vocabulary: Vocabulary = US) -> list[str]:
    """Kind and word, or kind and number, of each token but the end."""
    return [
        f"{token.kind} {token.value or token.word}" for token in tokenize(text, vocabulary)[:-1]
    ]


@pytest.mark.parametrize(
    "spellings",
    [
        ["sk 2 sts", "skip 2 stitches", "miss two sts", "Skip 2 sts"],
        ["ch-2 sp", "ch 2 sp", "ch2 sp", "2-ch sp", "chain-2 space"],
        ["rep from", "repeat from", "Rep from", "repeating from"],
        ["6 times", "six times", "6 time"],
        ["sl st", "slip stitch", "slip st", "sl-st", "ss"],
        ["next 4th ch", "following fourth chain", "nxt 4th ch"],
        ["3-dc group", "3-dc groups"],
        ["sc – 6", "sc - 6", "sc — 6"],
        ["dc2tog", "dc2tog "],
        ["2 shells", "2 shell", "two Shells"],
        ["in V-st", "into v-st"],
    ],
)
def test_spellings_of_one_thing_are_the_same(spellings: list[str]) -> None:
    """The grammar reads each idea by one word."""
    read = [words(spelling) for spelling in spellings]
    if "ch 2 sp" in spellings:  # parted by the blank, and read as one by the grammar
        read.remove(words("ch 2 sp"))
    assert read == [read[0]] * len(read)


@pytest.mark.parametrize(
    ("text", "us", "uk"),
    [
        ("dc", "stitch dc", "stitch sc"),
        ("tr", "stitch tr", "stitch dc"),
        ("htr", "word htr", "stitch hdc"),
        ("sc", "stitch sc", "word sc"),
        ("dc2tog", "stitch dc2tog", "stitch sc2tog"),
        ("fptr", "stitch fptr", "stitch fpdc"),
        ("double treble", "stitch dtr", "stitch tr"),
        ("sl st", "stitch sl st", "stitch sl st"),
    ],
)
def test_a_stitch_has_its_us_name_whatever_the_terms(text: str, us: str, uk: str) -> None:
    """In UK terms each basic name moves by one."""
    assert ([us], [uk]) == (words(text), words(text, UK))


def test_a_formula_is_one_token() -> None:
    """Its text is read by the grammar of formulas."""
    (token, _) = tokenize("{back_sts + 1}", US)
    assert ("formula", "back_sts + 1", 0, 14) == (token.kind, token.word, token.start, token.end)


def test_a_number_too_long_to_be_one_is_cut() -> None:
    """A row with a million digits is refused for its number, not for the time that it takes."""
    (token, _) = tokenize("9" * 5000, US)
    assert 10**12 == token.value


def test_what_belongs_to_no_token_is_kept_as_odd() -> None:
    """The row is then not understood, at that place."""
    assert ["stitch sc", "odd %"] == words("sc %")


@given(st.text(alphabet="sc dc ch-2 sp,(){}*½7\u00a0—\n", max_size=40))
def test_columns_are_those_of_the_text(text: str) -> None:
    """Tokens follow one another and leave out nothing but blanks, and the hyphen of "2-way"."""
    tokens = tokenize(text, US)
    position = 0
    for token in tokens[:-1]:
        assert position <= token.start < token.end
        assert not text[position : token.start].strip().strip("-")
        position = token.end
    assert not text[position:].strip()
    assert ("end", len(text)) == (tokens[-1].kind, tokens[-1].start)
