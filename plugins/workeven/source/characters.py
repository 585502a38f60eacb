"""Bytes to text: strict UTF-8, and none of the characters that hide or turn what is written.

Takes     the bytes of a file.
Gives     its text, without a byte order mark: ``decode``; ``hides`` and others that ask for less.
Problems  ``file-too-large``, ``file-binary``, ``file-encoding``, ``file-nul``, ``file-bidi``,
          ``file-zero-width``, ``file-control-character``, ``file-line-separator``,
          ``file-surrogate``.
From      design.md, "YAML, safely and with places"; Unicode Standard Annex 9 for the characters
          that turn a line (property Bidi_Control), the Unicode Character Database for those that
          are not seen (Default_Ignorable_Code_Point), Unicode Technical Standards 39 and 55 for why
          they are refused. tests/outside/test_unseen_characters.py holds us to those lists.
"""

from __future__ import annotations

import re
import unicodedata
from collections.abc import Iterator

from workeven.problems import Checked, Note, Problem, Span
from workeven.records import record_by_position

#: The largest file that is read.
LARGEST = 256 * 1024
#: How many further places of one kind of character are named.
MOST_NOTES = 8

_BOM = "\ufeff"
#: First bytes of files that are plainly no text: PNG, JPEG, GIF, ZIP, PDF, RIFF (WebP), gzip.
_MAGIC = (b"\x89PNG", b"\xff\xd8\xff", b"GIF8", b"PK\x03\x04", b"%PDF", b"RIFF", b"\x1f\x8b")
_UTF_16_OR_32 = (b"\xff\xfe", b"\xfe\xff", b"\x00\x00\xfe\xff")
#: A text in which more than one character of so many is a control character is no text.
_ONE_IN = 30


@record_by_position
class _Kind:
    """One kind of character that is refused. ``says`` follows the character's name."""

    code: str
    characters: str
    says: str
    mend: str


#: What says whether the sign before it is drawn as text or as a picture, and the signs that it may
#: stand behind (Unicode, emoji-variation-sequences.txt); behind a digit only where it is a key:
#: 1, U+FE0F, U+20E3. Anywhere else it is not seen.
_SELECTORS = "\\ufe0e\\ufe0f"
_DRAWN = (
    "\\xa9\\xae\\u203c\\u2049\\u2122\\u2139\\u2190-\\u21ff\\u2300-\\u23ff\\u24c2\\u25a0-\\u27bf"
    "\\u2900-\\u297f\\u2b00-\\u2bff\\u3030\\u303d\\u3297\\u3299\\U0001f000-\\U0001faff"
)
_KEY = "\\u20e3"
#: The last two numbers of each plane but the first are never a character.
_LAST_TWO = "".join(f"\\U{plane:04x}fffe\\U{plane:04x}ffff" for plane in range(1, 17))

_GONE = "Delete it: put the cursor behind it and press Backspace, or type the line again."
_KINDS = (
    _Kind(
        "file-nul",
        "\\x00",
        "ends a text in many programs, so that what follows is not seen",
        _GONE,
    ),
    _Kind(
        "file-bidi",
        "\\u202a-\\u202e\\u2066-\\u2069\\u200e\\u200f\\u061c",
        "makes a line show in another order than it is read",
        _GONE,
    ),
    _Kind(
        "file-zero-width",
        "\\u00ad\\u034f\\u115f\\u1160\\u17b4\\u17b5\\u180b-\\u180f\\u200b-\\u200d\\u2060-\\u2065"
        "\\u206a-\\u206f\\u3164\\ufe00-\\ufe0f\\ufeff\\uffa0\\ufff0-\\ufffb\\U0001bca0-\\U0001bca3"
        "\\U0001d173-\\U0001d17a\\U000e0000-\\U000e0fff",
        "has no width: two words can look alike and be different",
        _GONE,
    ),
    _Kind(
        "file-line-separator",
        "\\x85\\u2028\\u2029",
        "ends a line in some programs and not in others",
        "Delete it and press Enter there instead.",
    ),
    _Kind("file-surrogate", "\\ud800-\\udfff", "is half of a character", _GONE),
    _Kind(
        "file-control-character",
        "\\x01-\\x08\\x0b\\x0c\\x0e-\\x1f\\x7f-\\x84\\x86-\\x9f\\ufdd0-\\ufdef\\ufffe\\uffff"
        f"{_LAST_TWO}",
        "is a command to old machines and no part of a text",
        _GONE,
    ),
)
#: One class for the search, since alternatives are eight times slower; what stands before and
#: behind it, and the kind, are looked at after.
_ANY = f"[{''.join(kind.characters for kind in _KINDS)}]"
_DOUBTFUL = re.compile(_ANY)
#: The bytes of nearly all characters. What is left without them is looked through in no time.
_COMMON = bytes((*b"\t\n\r", *range(ord(" "), ord("~") + 1)))
_LINE_END = re.compile(r"\r\n|\r|\n")


def decode(file: str, content: bytes) -> Checked[str]:
    """The text of a file, or why there is none."""
    found = as_text(file, content)
    if found.value is None:
        return found
    text = found.value
    problems = refused_characters(file, text)
    if problems and _mostly_controls(text):
        return Checked(value=None, problems=(_binary(file),))
    return Checked(value=None if problems else text, problems=problems)


def as_text(file: str, content: bytes) -> Checked[str]:
    """The text of a document, whatever characters it holds, or why it is none."""
    if len(content) > LARGEST:
        return Checked(value=None, problems=(too_large(file, len(content)),))
    if content.startswith(_UTF_16_OR_32) and not content.startswith(_MAGIC):
        return Checked(value=None, problems=(_utf_16(file),))
    if content.startswith(_MAGIC):
        return Checked(value=None, problems=(_binary(file),))
    try:
        text = content.decode("utf-8")
    except UnicodeDecodeError as fault:
        return Checked(value=None, problems=(_not_utf_8(file, content, fault),))
    text = text.removeprefix(_BOM)
    if "\0" in text and _mostly_controls(text):
        return Checked(value=None, problems=(_binary(file),))
    return Checked(value=text)


def lines_of(text: str) -> tuple[str, ...]:
    """The lines of a text without their ends, counted as editors and YAML count them."""
    return tuple(_LINE_END.split(text) if "\r" in text else text.split("\n"))


def refused_characters(file: str, text: str) -> tuple[Problem, ...]:
    """One problem a kind of refused character, at the first of them, the others as notes."""
    uncommon = text.encode("utf-8", "surrogatepass").translate(None, _COMMON)
    if _DOUBTFUL.search(uncommon.decode("utf-8", "surrogatepass")) is None:
        return ()
    places: dict[int, list[tuple[str, Span]]] = {}
    for number, line in enumerate(lines_of(text), start=1):
        for found in _refused_in(line):
            span = _place(file, number, found.start() + 1)
            places.setdefault(_kind_of(found[0]), []).append((found[0], span))
    return tuple(_refused(_KINDS[kind], places[kind]) for kind in sorted(places))


def refused_at(text: str) -> int | None:
    """Where the first refused character of a value is: an escape has put it there."""
    if _DOUBTFUL.search(text) is None:
        return None
    return next((found.start() for found in _refused_in(text)), None)


def hides(character: str) -> bool:
    """Whether a character is refused, or is one that may stand behind certain signs alone."""
    return _DOUBTFUL.match(character) is not None


def refused_escape(span: Span, character: str) -> Problem:
    """The problem of an escape that makes a character which may not be typed either."""
    kind = _KINDS[_kind_of(character)]
    name = name_of(character).removeprefix("The ")
    return Problem(
        code=kind.code,
        span=span,
        found=f"The escape makes the {name}, which {kind.says}.",
        expected="Letters, digits, punctuation, spaces and line ends.",
        mend="Delete the escape, and type the text as it shall be read.",
    )


def _refused_in(text: str) -> Iterator[re.Match[str]]:
    """What is refused, after a look at what stands around it."""
    selector = f"(?<![{_DRAWN}])[{_SELECTORS}](?!{_KEY})"
    return re.finditer(f"(?![{_SELECTORS}]){_ANY}|{selector}", text)


def _kind_of(character: str) -> int:
    return next(at for at, kind in enumerate(_KINDS) if re.match(f"[{kind.characters}]", character))


def _refused(kind: _Kind, places: list[tuple[str, Span]]) -> Problem:
    """The problem of one kind of character, from all the places where it stands."""
    (character, span), *others = places
    more = f" It stands here and at {len(others)} more places." if others else ""
    return Problem(
        code=kind.code,
        span=span,
        found=f"{name_of(character)} {kind.says}.{more}",
        expected="Letters, digits, punctuation, spaces and line ends.",
        mend=kind.mend,
        notes=tuple(
            Note(span=place, message=f"{name_of(other)} stands here too")
            for other, place in others[:MOST_NOTES]
        ),
    )


def name_of(character: str) -> str:
    """A character by number and name.

    >>> name_of(chr(0x200B))
    'The invisible character U+200B (zero width space)'
    """
    name = unicodedata.name(character, "").lower()
    return f"The invisible character U+{ord(character):04X}" + (f" ({name})" if name else "")


def too_large(file: str, size: int) -> Problem:
    """The problem of a file of so many bytes."""
    return Problem(
        code="file-too-large",
        span=_place(file, 1, 1),
        found=f"The file has {size:,} bytes.",
        expected=f"At most {LARGEST:,} bytes: a pattern in nine sizes takes some 20,000.",
        mend="Divide it into several patterns, each in a folder of its own.",
    )


def _binary(file: str) -> Problem:
    return Problem(
        code="file-binary",
        span=_place(file, 1, 1),
        found="The file is not text: it looks like a picture, an archive or a program.",
        expected="A text file in YAML.",
        mend="Put the pattern's text in its place, or delete the file.",
    )


def _utf_16(file: str) -> Problem:
    return Problem(
        code="file-encoding",
        span=_place(file, 1, 1),
        found="The file is saved as UTF-16 or UTF-32.",
        expected="UTF-8, as most editors save a text.",
        mend='Save it again: in the editor\'s "Save as" choose the encoding UTF-8.',
    )


def _not_utf_8(file: str, content: bytes, fault: UnicodeDecodeError) -> Problem:
    """Where the bytes are no UTF-8: a picture, half a character, or another encoding."""
    controls = sum(byte < 9 or 13 < byte < 32 for byte in content)  # noqa: PLR2004, control codes
    if controls * _ONE_IN > len(content):
        return _binary(file)
    before = content[: fault.start].decode("utf-8").removeprefix(_BOM)
    lines = lines_of(before)
    span = _place(file, len(lines), len(lines[-1]) + 1)
    if _is_surrogate(content[fault.start : fault.start + 3]):
        number = ord(content[fault.start : fault.start + 3].decode("utf-8", "surrogatepass"))
        kind = next(kind for kind in _KINDS if kind.code == "file-surrogate")
        return _refused(kind, [(chr(number), span)])
    byte = content[fault.start]
    likely = bytes([byte]).decode("cp1252", "ignore")
    guess = f" In Windows-1252 it would be {likely}." if likely.isprintable() and likely else ""
    return Problem(
        code="file-encoding",
        span=span,
        found=f"The byte 0x{byte:02X} here is no UTF-8.{guess}",
        expected="A text file in UTF-8, as most editors save a text.",
        mend='Save it again: in the editor\'s "Save as" choose the encoding UTF-8.',
    )


def _is_surrogate(three: bytes) -> bool:
    """Whether the bytes are UTF-8 of a lone surrogate (D800 to DFFF)."""
    return re.fullmatch(rb"\xed[\xa0-\xbf][\x80-\xbf]", three) is not None


def _mostly_controls(text: str) -> bool:
    controls = sum(
        unicodedata.category(character) == "Cc" and character not in "\t\n\r" for character in text
    )
    return controls * _ONE_IN > len(text)


def _place(file: str, line: int, column: int) -> Span:
    return Span(file=file, line=line, column=column, end_line=line, end_column=column + 1)
