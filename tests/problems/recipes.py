r"""Recipes: how to make what a page of a problem is about, where that is no text of a pattern.

One thing a line, each under its path; then the collection ``patterns`` is checked, or, where there
is none, the one file that was made:

    patterns/sand-mat/pattern.yaml: the good pattern
    patterns/sand-mat/pattern.yaml: the good pattern, with a summary of 200 letters
    patterns/sand-mat/pattern.yaml: the good pattern, with 12 tags
    patterns/sand-mat/pattern.yaml: the good pattern, with 12 sections
    patterns/sand-mat/pattern.yaml: the good pattern, with the picture front.png
    patterns/sand-mat/front.png: a PNG of 40 × 30 pixels
    patterns/sand-mat/pattern.yaml: 300 spaces
    patterns/sand-mat/pattern.yaml: title: Caf\xe9\n     any other words are the bytes of the file
    patterns/sand-mat/                                   a folder with nothing in it
    patterns/sea-mat/pattern.yaml -> ../other.yaml       a link
    one.yaml: a pipe
    rows.txt: a row of 300 letters                       plain rows, counted and not checked

Where something lies under ``before/``, the collection is reviewed against that one:

    before/patterns/sand-mat/pattern.yaml: the good pattern, published
    patterns/sand-mat/pattern.yaml: the good pattern, published, 5 cm longer
    patterns/sand-mat/pattern.yaml: the good pattern, published, 5 cm longer, and it says so
"""

from __future__ import annotations

import os
import re
import struct
import zlib
from pathlib import Path

from tests.support import plain_rows
from tests.support.pattern_files import GOOD
from workeven import pipeline, source
from workeven.problems import Problem
from workeven.review import review

_LETTERS = re.compile(r"the good pattern, with a summary of ([\d,]+) letters")
_TAGS = re.compile(r"the good pattern, with ([\d,]+) tags")
_SECTIONS = re.compile(r"the good pattern, with ([\d,]+) sections")
_LONG_ROW = re.compile(r"a row of ([\d,]+) letters")
_PICTURE = re.compile(r"the good pattern, with the picture (\S+)")
_PNG = re.compile(r"a PNG of ([\d,]+) × ([\d,]+) pixels")
_SPACES = re.compile(r"([\d,]+) spaces")


def carry_out(recipe: str, folder: Path) -> tuple[Problem, ...]:
    """Make what the recipe says, each time in a place of its own, and check it."""
    place = folder / f"recipe {len(list(folder.iterdir()))}"
    place.mkdir()
    for line in recipe.splitlines():
        _make(line, place)
    if (rows := place / "rows.txt").exists():
        return plain_rows.count(rows.read_text("utf-8"), "rows.txt").problems
    collection = place / "patterns"
    if (before := place / "before" / "patterns").exists():
        return _reviewed(before, collection)
    checked = collection if collection.exists() else place / recipe.partition(":")[0]
    return pipeline.check(source.collect([str(checked)])).problems


def _reviewed(before: Path, now: Path) -> tuple[Problem, ...]:
    """What is wrong with a change; both sides check."""
    old, new = (pipeline.check(source.collect([str(folder)])) for folder in (before, now))
    assert (True, True) == (old.good, new.good)
    return (*new.problems, *review(old, new, source.lines).problems)


def _make(line: str, place: Path) -> None:
    name, arrow, target = line.partition(" -> ")
    if not arrow:
        name, _, content = line.partition(": ")
    path = place / name
    if name.endswith("/"):
        path.mkdir(parents=True)
        return
    path.parent.mkdir(parents=True, exist_ok=True)
    if arrow:
        path.symlink_to(target)
    elif content == "a pipe":
        os.mkfifo(path)
    else:
        path.write_bytes(_bytes_of(content))


def _bytes_of(content: str) -> bytes:
    if content == "the good pattern":
        return GOOD.encode("utf-8")
    if content.startswith(PUBLISHED):
        return _published(content.removeprefix(PUBLISHED)).encode("utf-8")
    if found := _LETTERS.fullmatch(content):
        return re.sub(r"(?m)^summary: .*$", f"summary: {'a' * _whole(found)}", GOOD).encode("utf-8")
    if found := _TAGS.fullmatch(content):
        return f"{GOOD}tags: [{','.join('a' * _whole(found))}]\n".encode()
    if found := _SECTIONS.fullmatch(content):
        plain = "      - title: Plain\n        rows: ch 1, sc in each st across, turn\n"
        last = "      - title: Scallops\n"
        return GOOD.replace(last, plain * (_whole(found) - 2) + last).encode("utf-8")
    if found := _PICTURE.fullmatch(content):
        return f'{GOOD}pictures:\n  - {{file: {found[1]}, alt: "A mat."}}\n'.encode()
    if found := _PNG.fullmatch(content):
        return png(*(int(one.replace(",", "")) for one in found.groups()))
    if found := _LONG_ROW.fullmatch(content):
        return b"a" * _whole(found)
    if found := _SPACES.fullmatch(content):
        return b" " * _whole(found)
    return content.encode("latin-1").decode("unicode_escape").encode("latin-1")


#: a pattern that makers have, and what became of it since
PUBLISHED = "the good pattern, published"
_LONGER = ", 5 cm longer"
_SAYS_SO = ", and it says so"


def _published(since: str) -> str:
    version = "1.1" if since.endswith(_SAYS_SO) else "1.0"
    text = f'{GOOD}version: "{version}"\npublished: 2026-01-05\n'
    if _LONGER in since:
        text = text.replace("length: 20 (24, 27) cm", "length: 25 (29, 32) cm")
    if since.endswith(_SAYS_SO):
        entry = '{version: "1.1", date: 2026-02-01, text: It was too short.}'
        text += f"changes:\n  - {entry}\n"
    return text


def png(width: int, height: int) -> bytes:
    """A grey picture (PNG, 11.2); more than a million pixels are said and not there."""
    rows = zlib.compress(bytes((width + 1) * height if width * height < 10**6 else 0))
    head = struct.pack(">IIBBBBB", width, height, 8, 0, 0, 0, 0)
    chunks = ((b"IHDR", head), (b"IDAT", rows), (b"IEND", b""))
    return b"\x89PNG\r\n\x1a\n" + b"".join(
        struct.pack(">I", len(told)) + name + told + struct.pack(">I", zlib.crc32(name + told))
        for name, told in chunks
    )


def _whole(found: re.Match[str]) -> int:
    return int(found[1].replace(",", ""))
