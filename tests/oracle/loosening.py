"""Rewrites a text in the many small ways in which designers differ, without changing its meaning.

Takes     a ``Text``, a ``Random``.
Gives     the same ``Text`` in other spelling.
Problems  none.
From      common practice: abbreviations, digits or number words, full stops, "work", "then",
          "and"; every spelling here occurs in print.
"""

from __future__ import annotations

import random
import re
from collections.abc import Callable
from dataclasses import replace

from tests.oracle.texts import Text

WORDS = {"2": "two", "3": "three", "4": "four", "5": "five", "6": "six"}

Spelling = Callable[[str], str]


def loosen(text: Text, rng: random.Random) -> Text:
    """The text with some of the spellings changed, each one throughout."""
    chosen = [spelling for spelling in SPELLINGS if rng.random() < 0.3]
    lines = text.text.splitlines()
    for spelling in chosen:
        lines = [spelling(line) for line in lines]
    return replace(text, text="\n".join(lines) + "\n")


def _nxt(line: str) -> str:
    return re.sub(r"\bnext\b", "nxt", line)


def _ss(line: str) -> str:
    return re.sub(r"\bsl st\b", "ss", line)


def _chains_first(line: str) -> str:
    return re.sub(r"\bch-(\d+) sp", r"\1-ch sp", line)


def _run_together(line: str) -> str:
    return re.sub(r"\bch-(\d+) sp\b", r"ch\1sp", line)


def _words(line: str) -> str:
    """``next three sts``; a number with a list by size behind it stays in digits."""
    return re.sub(
        r"\b(next|first|last) ([2-6]) (sts|chs)\b",
        lambda found: f"{found[1]} {WORDS[found[2]]} {found[3]}",
        line,
    )


def _full_stop(line: str) -> str:
    return line if line.endswith((")", "]")) else f"{line}."


def _capital(line: str) -> str:
    """The first word behind the label in a capital."""
    label, colon, rest = (
        line.rpartition(": ") if line.startswith(("Row", "Rnd")) else ("", "", line)
    )
    if colon and not re.fullmatch(r"(Rows?|Rnds?) [\d\-–]+", label):
        return line
    return f"{label}{colon}{rest[:1].upper()}{rest[1:]}"


def _work(line: str) -> str:
    return re.sub(r", (\d+ \w+ in each|\(\w+, ch)", r", work \1", line)


def _then(line: str) -> str:
    return re.sub(r", (turn|fasten off)", r", then \1", line)


def _and(line: str) -> str:
    return re.sub(r", (join|turn)\b", r" and \1", line)


def _stop_after_chain(line: str) -> str:
    """``Ch 1. Sc in each st``: the chain at the start is a sentence."""
    head = r"^((?:Rnd|Row|Round)s? [\d–-]+: )?([Cc]h \d), ((?:sc|hdc|dc|tr|htr|dtr)\b)"
    return re.sub(head, lambda m: f"{m[1] or ''}{m[2]}. {m[3].capitalize()}", line)


def _times(line: str) -> str:
    return re.sub(r"\bx ?(\d)", r"×\1", line)


def _rounds(line: str) -> str:
    return re.sub(r"^Rnd (\d+):", r"Round \1:", line)


def _stitches(line: str) -> str:
    return re.sub(r"\b(next|each|last|first) st\b", r"\1 stitch", line)


SPELLINGS: tuple[Spelling, ...] = (
    _nxt,
    _ss,
    _chains_first,
    _run_together,
    _words,
    _full_stop,
    _capital,
    _work,
    _then,
    _and,
    _stop_after_chain,
    _times,
    _rounds,
    _stitches,
)
