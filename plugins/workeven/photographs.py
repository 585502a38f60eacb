"""Whether the pictures that a pattern lists lie beside it, and are what their names say.

Takes     ``Pattern``, and the files beside its own.
Gives     ``look``; ``measured``: format and size of a picture, from its first bytes.
Problems  ``picture-missing``, ``picture-content``, ``picture-too-large``, ``picture-unlisted``,
          ``file-symlink``.
From      JPEG (ITU-T T.81, B.2.2), PNG (W3C, 11.2.1), WebP (RFC 9649, 2.3 to 2.7): where each says
          how wide and high it is.

Nothing is decoded here. A picture of a few bytes may be one of a billion pixels, so its size is
asked for before any library opens it; ``publish.photographs`` then reads it to its end.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator
from typing import Literal, NamedTuple

from workeven.pattern import Pattern, Picture
from workeven.problems import Problem, Span
from workeven.problems.words import quote
from workeven.source import PictureFault, picture, pictures_beside
from workeven.source.collection import LARGEST_PICTURE

#: As many as the largest cameras of phones have by default.
MOST_PIXELS = 50_000_000
#: What a file is called by, and its format.
FORMATS = {"jpg": "JPEG", "jpeg": "JPEG", "png": "PNG", "webp": "WebP"}

#: Frames of a JPEG file that say its size: all but tables, extensions and arithmetic conditioning.
_FRAMES = frozenset(range(0xC0, 0xD0)) - {0xC4, 0xC8, 0xCC}
#: Marks of a JPEG file that stand alone.
_ALONE = frozenset((0x01, *range(0xD0, 0xD9)))

#: What else is asked of a picture: what is wrong with its content, in a sentence, or "".
More = Callable[[bytes], str]


class Measured(NamedTuple):
    """The format of a picture, and how many pixels it is wide and high."""

    format: Literal["JPEG", "PNG", "WebP"]
    width: int
    height: int


def look(pattern: Pattern, more: More = lambda _content: "") -> tuple[Problem, ...]:
    """The problems of all its pictures, and of those that lie there and are not listed."""
    listed = {one.file for one in pattern.pictures}
    return (
        *(problem for one in pattern.pictures for problem in _wrong(pattern, one, more)),
        *(_beside(pattern, name) for name in pictures_beside(pattern.file) if name not in listed),
    )


def measured(content: bytes) -> Measured | None:
    """What a file is, None where it is no picture of a format that we take.

    >>> measured(b"GIF89a")
    """
    if content[:2] == b"\xff\xd8":
        return _jpeg(content)
    if content[:8] == b"\x89PNG\r\n\x1a\n" and content[12:16] == b"IHDR":
        return Measured("PNG", _big(content[16:20]), _big(content[20:24]))
    if content[:4] == b"RIFF" and content[8:12] == b"WEBP":
        return _webp(content)
    return None


# --- formats -------------------------------------------------------------------------------


def _jpeg(content: bytes) -> Measured | None:
    """From one segment to the next, to the first frame."""
    at = 2
    while at + 9 <= len(content) and content[at] == 0xFF:  # noqa: PLR2004 -- how each begins
        mark = content[at + 1]
        if mark in _FRAMES:
            return Measured("JPEG", _big(content[at + 7 : at + 9]), _big(content[at + 5 : at + 7]))
        if mark == 0xFF:  # noqa: PLR2004 -- a filling byte
            at += 1
        else:
            at += 2 if mark in _ALONE else 2 + max(_big(content[at + 2 : at + 4]), 2)
    return None


def _webp(content: bytes) -> Measured | None:
    """By the first chunk: with losses, without, or with more behind it."""
    match content[12:16]:
        case b"VP8 " if content[23:26] == b"\x9d\x01\x2a":
            width, height = _little(content[26:28]), _little(content[28:30])
            return Measured("WebP", width & 0x3FFF, height & 0x3FFF)
        case b"VP8L" if content[20:21] == b"\x2f":
            bits = _little(content[21:25])
            return Measured("WebP", (bits & 0x3FFF) + 1, (bits >> 14 & 0x3FFF) + 1)
        case b"VP8X":
            return Measured("WebP", _little(content[24:27]) + 1, _little(content[27:30]) + 1)
        case _:
            return None


def _big(content: bytes) -> int:
    return int.from_bytes(content, "big")


def _little(content: bytes) -> int:
    return int.from_bytes(content, "little")


# --- problems ------------------------------------------------------------------------------


def _wrong(pattern: Pattern, one: Picture, more: More) -> Iterator[Problem]:
    """What is wrong with a picture: one problem, the first that there is."""
    content = picture(pattern.file, one.file)
    if isinstance(content, str):
        yield _none(pattern, one, content)
        return
    found, ending = measured(content), FORMATS[one.file.rpartition(".")[2]]
    if found is None or not found.width or not found.height:
        yield _content(one, f"{quote(one.file)} holds no picture.", f"A whole {ending} file.")
    elif found.format != ending:
        held = f"{quote(one.file)} holds a {found.format} picture."
        yield _content(one, held, f"A {ending} picture, as its name says.")
    elif found.width * found.height > MOST_PIXELS:
        size = f"{found.width:,} × {found.height:,} pixels"
        yield _too_large(one, f"{quote(one.file)} has {size}.")
    elif fault := more(content):
        yield _content(one, f"{quote(one.file)} {fault}", f"A whole {ending} file.")


def _beside(pattern: Pattern, name: str) -> Problem:
    """What lies there and is not listed: advice where it is a picture, an error where not."""
    span = pattern.pictures[0].span if pattern.pictures else pattern.title.span
    content = picture(pattern.file, name)
    if content == "link":
        return _link(span, name)
    found = measured(content) if isinstance(content, bytes) else None
    if found is None or found.format != FORMATS[name.rpartition(".")[2]]:
        return Problem(
            code="picture-content",
            span=span,
            found=f"{quote(name)} lies beside the file, and is not the picture that its name says.",
            expected="In the folder of a pattern: its file and its pictures, and nothing else.",
            mend="Delete it, or keep it outside the collection.",
        )
    return _unlisted(span, name)


def _none(pattern: Pattern, one: Picture, why: PictureFault) -> Problem:
    match why:
        case "link":
            return _link(one.span, one.file)
        case "too large":
            return _too_large(one, f"The file {quote(one.file)} is too large.")
        case "unreadable":
            return _content(one, f"{quote(one.file)} cannot be opened.", "A file with a picture.")
        case _:
            return _missing(pattern, one)


def _link(span: Span, name: str) -> Problem:
    return Problem(
        code="file-symlink",
        span=span,
        found=f"The picture {quote(name)} is a link to another place.",
        expected="The file itself: a link could lead out of the collection.",
        mend="Delete the link, and put the picture itself in its place.",
    )


def _missing(pattern: Pattern, one: Picture) -> Problem:
    listed = {other.file for other in pattern.pictures}
    there = [name for name in pictures_beside(pattern.file) if name not in listed]
    beside = f" There is {quote(there[0])}, which is not listed." if len(there) == 1 else ""
    return Problem(
        code="picture-missing",
        span=one.span,
        found=f"There is no picture {quote(one.file)} beside the file.",
        expected=f"Each picture in the folder of its pattern.{beside}",
        mend="Put the picture there, write the name of one that is there, or leave it out.",
    )


def _content(one: Picture, found: str, expected: str) -> Problem:
    return Problem(
        code="picture-content",
        span=one.span,
        found=found,
        expected=expected,
        mend="Save the picture anew as JPEG, PNG or WebP, and name it by its format.",
    )


def _too_large(one: Picture, found: str) -> Problem:
    megabytes = LARGEST_PICTURE // 1024**2
    return Problem(
        code="picture-too-large",
        span=one.span,
        found=found,
        expected=f"At most {megabytes} MB and {MOST_PIXELS // 10**6} million pixels.",
        mend="Save a smaller copy: pages show no more than 1280 pixels in width.",
    )


def _unlisted(span: Span, name: str) -> Problem:
    return Problem(
        code="picture-unlisted",
        span=span,
        found=f"The picture {quote(name)} lies beside the file, and `pictures` does not list it.",
        expected="Pictures that are shown: no page has this one.",
        mend="List it with what it shows, or take it out of the folder.",
    )
