"""Patterns to measure on: the demo's garment, made smaller, longer or many.

Takes     text of a pattern file.
Gives     text of another.
Problems  none: `run.py` stops when a file that it made does not check.
From      DEVELOPERS.md, "Measured".
"""

from __future__ import annotations

import re
from pathlib import Path

ROOT = Path(__file__).parents[1]
GARMENT = ROOT / "patterns" / "groynemark-tee" / "pattern.yaml"

_ONE = r"(?:\d*X*[SML]|\dX|\d+(?:\.\d+)?(?:[–-]\d+)?)"
_INSTEAD = re.compile(r"\n  instead:\n(?:    .*\n)+")
_BY_SIZE = re.compile(rf"\b({_ONE})((?: \({_ONE}(?:, {_ONE})*\))+)")

#: parts that tell what the pattern took once it was made: they hold for its own pieces alone
_AS_MADE = re.compile(r"^(?:samples|amounts):.*\n(?:(?: .*)?\n)*", flags=re.MULTILINE)
_ROW = re.compile(r"^ {10}.*", flags=re.MULTILINE)


def garments() -> dict[str, str]:
    """The demo's garment and what is made of it, by name: each is checked in the same rounds.

    Ratios are taken to the garment as designed, so that samples stand on neither side of them.
    """
    text = GARMENT.read_text(encoding="utf-8")
    return {
        "check": text,
        "as designed": as_designed(text),
        "one size": one_size(text),
        "four times": times_as_long(text, 4),
        "eight times": times_as_long(text, 8),
    }


def as_designed(text: str) -> str:
    """The same pattern without samples and amounts, which tell how it came out when made."""
    return _AS_MADE.sub("", text)


def one_size(text: str) -> str:
    """The pattern as designed in its first size alone, without what a chart has for others."""
    return _BY_SIZE.sub(r"\1", _INSTEAD.sub("\n", as_designed(text)))


def times_as_long(text: str, times: int) -> str:
    """The pattern as designed with each piece several times, under names of their own.

    Each copy has wider spaces behind the commas of its rows, so that no row is one that the parser
    has met in another copy.
    """
    head, rest = as_designed(text).split("\npieces:\n")
    end = re.search(r"^\S", rest, flags=re.MULTILINE)
    pieces, tail = (rest[: end.start()], rest[end.start() :]) if end else (rest, "")
    copies = "".join(_copy(pieces, number) for number in range(1, times))
    return f"{head}\npieces:\n{pieces}{copies}{tail}"


def _copy(pieces: str, number: int) -> str:
    named = re.sub(r"^(  \w+)(?=:)", rf"\1_{number}", pieces, flags=re.MULTILINE)
    titled = re.sub(r"^(    title: .*)", rf"\1 {number}", named, flags=re.MULTILINE)
    return _ROW.sub(lambda row: row[0].replace(", ", "," + " " * (number + 1)), titled)


#: rows over any multiple of 12: plain, waves, decreases and increases in turn, mesh
ANY_WIDTH = (
    "ch 1, sc in each st across\n"
    "ch 3 (counts as dc), dc in each of next 2 sts, *sk 3 sts, 4 dc in next st; rep from * to last "
    "5 sts, dc in each st across\n"
    "ch 1, *sc 3, sc2tog, inc; rep from * across\n"
    "ch 4 (counts as dc and ch 1), sk next st, dc in next st, *ch 1, sk 1 st, dc in next st; rep "
    "from * to last st, dc in last st"
)


def write_many(folder: Path, number: int, *, rows_too: bool = False) -> None:
    """A collection of so many patterns: the demo's in turn, each with a title of its own.

    ``rows_too``: hardly a row is one that the parser has met in another, as with a studio's own.
    """
    folder.mkdir(parents=True)
    (folder / "studio.yaml").write_bytes((ROOT / "patterns" / "studio.yaml").read_bytes())
    originals = sorted((ROOT / "patterns").glob("*/pattern.yaml"))
    for count in range(number):
        original = originals[count % len(originals)]
        text = original.read_text(encoding="utf-8")
        text = _respaced(text, count // len(originals)) if rows_too else text
        title = f"title: Number {count:04} after "
        copy = folder / f"{original.parent.name}-{count:04}"
        copy.mkdir()
        (copy / "pattern.yaml").write_text(text.replace("title: ", title, 1), encoding="utf-8")


def _respaced(text: str, number: int) -> str:
    """The same rows with one to four spaces behind each comma: which copy it is, told by them."""
    widths = [1 + number // 4**place % 4 for place in range(6)]

    def row(found: re.Match[str]) -> str:
        first, *rest = found[0].split(", ")
        spaced = (f",{' ' * widths[at % 6]}{part}" for at, part in enumerate(rest))
        return "".join((first, *spaced))

    return _ROW.sub(row, text)
