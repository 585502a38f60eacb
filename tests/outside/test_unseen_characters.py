"""Characters that turn or hide what is written, held against the lists that Unicode publishes.

Unicode Technical Standard 55, "Unicode Source Code Handling", and Unicode Technical Standard 39,
"Unicode Security Mechanisms", name the properties by which they are told: Bidi_Control (Unicode
Standard Annex 9), Default_Ignorable_Code_Point and Noncharacter_Code_Point. Their values are those
of the Unicode Character Database 15.0.0, in ``unicode/``, of whose files the lines of these
properties were taken as they stand; general categories are those of Python's ``unicodedata``, of
which only such are asked that the stability policies of Unicode keep from changing.
"""

from __future__ import annotations

import re
import sys
import unicodedata
from functools import cache
from pathlib import Path

from workeven.pasted.tidied import tidied
from workeven.source.characters import refused_at, refused_characters

DATA = Path(__file__).parent / "unicode"
EVERY = range(sys.maxunicode + 1)
#: Say whether the sign before them is text or a picture (Unicode Technical Standard 51, 1.4.3).
SELECTORS = {0xFE0E, 0xFE0F}
#: Enclose what an annotation is to be set beside; The Unicode Standard, 23.8, asks that a process
#: that does not know them filters them, and they are not seen.
ANNOTATION = {0xFFF9, 0xFFFA, 0xFFFB}
#: A tab and the ends of lines.
PLAIN = {0x09, 0x0A, 0x0D}


@cache
def having(name: str) -> set[int]:
    """The characters that have a property."""
    lines = "".join(file.read_text("utf-8") for file in DATA.glob("*.txt")).splitlines()
    found: set[int] = set()
    for line in lines:
        if told := re.match(rf"([0-9A-F]+)(?:\.\.([0-9A-F]+))?\s*; {name}\s*#", line):
            first = int(told[1], 16)
            found |= set(range(first, int(told[2] or told[1], 16) + 1))
    return found


@cache
def drawn() -> set[int]:
    """The signs behind which a selector may stand."""
    text = (DATA / "emoji-variation-sequences.txt").read_text("utf-8")
    return {int(found, 16) for found in re.findall(r"(?m)^([0-9A-F]+) FE0F *;", text)}


@cache
def refused() -> set[int]:
    """The characters that are refused between two letters, each tried."""
    return {number for number in EVERY if refused_at(f"x{chr(number)}y") == 1}


@cache
def of(*categories: str) -> set[int]:
    """The characters of some general categories."""
    return {number for number in EVERY if unicodedata.category(chr(number)) in categories}


def shown(numbers: set[int]) -> list[str]:
    """As Unicode writes them."""
    return [f"U+{number:04X}" for number in sorted(numbers)]


def test_the_lists_are_whole() -> None:
    """How many there are, as the files of the database say at the end of each property."""
    counts = {
        "Bidi_Control": 12,
        "Noncharacter_Code_Point": 66,
        "Default_Ignorable_Code_Point": 4174,
    }
    assert {name: len(having(name)) for name in counts} == counts


def test_what_turns_the_direction_is_refused() -> None:
    """All twelve, by the code that says so."""
    told = {
        number: [one.code for one in refused_characters("f", f"x{chr(number)}y")]
        for number in having("Bidi_Control")
    }
    assert told == {number: ["file-bidi"] for number in having("Bidi_Control")}


def test_what_is_not_seen_is_refused() -> None:
    """All that a program may leave out when it shows a text."""
    assert shown(having("Default_Ignorable_Code_Point") - refused()) == []


def test_what_is_no_character_is_refused() -> None:
    """The last two of each plane, and 32 more."""
    assert shown(having("Noncharacter_Code_Point") - refused()) == []


def test_controls_and_odd_ends_of_lines_are_refused() -> None:
    """Categories Cc, Cs, Zl and Zp, but for a tab and the ends of lines that all editors know."""
    assert shown(of("Cc", "Cs", "Zl", "Zp") - PLAIN - refused()) == []


def test_nothing_else_is_refused() -> None:
    """Nobody's letters, signs or accents."""
    listed = (
        having("Bidi_Control")
        | having("Default_Ignorable_Code_Point")
        | having("Noncharacter_Code_Point")
        | of("Cc", "Cs", "Zl", "Zp")
        | ANNOTATION
    )
    assert shown(refused() - listed) == []


def test_a_selector_may_stand_behind_the_signs_that_have_two_forms() -> None:
    """A heart, a star; behind digits, a hash and an asterisk only where they are a key."""
    keys = {ord(sign) for sign in "0123456789#*"}
    assert len(drawn()) > 350
    signs = {number for number in drawn() if refused_at(f"x{chr(number)}\ufe0fy") is None}
    assert shown(drawn() - signs) == shown(keys)
    assert [key for key in keys if refused_at(f"{chr(key)}\ufe0f\u20e3") is not None] == []


def test_a_selector_may_stand_behind_nothing_that_a_name_or_a_number_is_made_of() -> None:
    """Behind no letter, digit or mark: two words would look alike and be different."""
    made_of = of("Lu", "Ll", "Lt", "Lm", "Lo", "Mn", "Mc", "Nd", "Nl", "Pc", "Zs")
    signs = {0x2139}  # an "i" as a sign for information
    wrong = {number for number in made_of if refused_at(f"{chr(number)}\ufe0f") is None}
    assert shown(wrong - signs) == []
    assert refused_at("\u2764\ufe0f\ufe0f") == len("\u2764\ufe0f")


def test_a_pasted_document_is_cleared_of_all_of_them() -> None:
    """What is written into a file of it can be read again."""
    hidden = "".join(f"x{chr(number)}y " for number in sorted(refused() | SELECTORS))
    text = "\n".join(line.text for line in tidied(hidden))
    assert refused_characters("f", text) == ()
    assert re.sub(r"[xy\s]", "", text) == ""
