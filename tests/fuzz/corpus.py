"""What inputs are made from: the pattern files, rows and words that the checkout holds.

Takes     the collection, the cases, the guide, the pages of problems.
Gives     ``files``, ``rich_files``, ``studio``, ``rows``, ``words``, ``values``.
Problems  none.
From      the files themselves; ``HOSTILE`` is ours: values that have made programs stumble.
"""

from __future__ import annotations

import re
from functools import lru_cache
from pathlib import Path

from benchmarks.bad_input import BAD
from tests.support.pattern_files import GOOD
from workeven import pattern, pipeline, source
from workeven.notation.offers import PHRASES
from workeven.pattern import Studio

CHECKOUT = Path(__file__).parents[2]
_PLACES = ("tests/cases", "guide/writing", "plugins/workeven/problems/pages", "tests/seeded")
_FENCED = re.compile(r"^```[^\n]*\n(.*?)^```", re.MULTILINE | re.DOTALL)
_VALUE = re.compile(r"^\s*(?:- )?[\w-]+: (?![|>])(\S.*)$", re.MULTILINE)
_LITTLE, _LARGE = 700, 6_000

#: values that stand for nothing, or for too much
HOSTILE = (
    "",
    "0",
    "-1",
    "1e999",
    ".nan",
    "9" * 400,
    "1/0",
    "0/0",
    "9**9**9",
    "1,5 cm",
    "1.5.5 cm",
    "½ in",
    "1 (2",
    "1 (2, 3) (",
    "1 ((2, 3), 4) cm",
    "(((((((((((((1",
    "1 - - 1",
    "min(",
    "max(1, 2, min(3))",
    "round_to(3)",
    "width / (width - width)",
    "{x}",
    "{{x}}",
    "{",
    "}",
    "[]",
    "{}",
    "~",
    "null",
    "!!python/object:os.system x",
    "&a",
    "*a",
    "<<",
    "%TAG",
    "'",
    '"',
    "|",
    "> x",
    "- - - x",
    "? x",
    "a: b: c",
    "\t",
    "\u202e",
    "\u200b",
    "\x00",
    "\ufeff",
    "\U0001f9f6",
    "e\u0301",
    "٣ cm",
    "\uff11\uff10 cm",
    "<script>alert(1)</script>",
    "javascript:alert(1)",
    "../../etc/passwd",
    "CON",
    "https://x.example/{seconds}",
    "99999999:99",
    "7:40",
    "2026-02-30",
    "0000-00-00",
    "True",
    "=1+1",
    "::error::x",
    "\x1b[31m",
)


@lru_cache(maxsize=1)
def blocks() -> tuple[str, ...]:
    """All fenced blocks of the Markdown files."""
    pages = (path for place in _PLACES for path in sorted((CHECKOUT / place).glob("*.md")))
    return tuple(one for page in pages for one in _FENCED.findall(page.read_text("utf-8")))


@lru_cache(maxsize=1)
def files() -> tuple[str, ...]:
    """Whole pattern files without an error, the small ones first."""
    own = (
        *CHECKOUT.glob("patterns/*/pattern.yaml"),
        *CHECKOUT.glob("tests/seeded/patterns/*.yaml"),
    )
    found = [GOOD, *(path.read_text("utf-8") for path in sorted(own))]
    found += [one for one in blocks() if "\npieces:" in one and "title:" in one]
    return tuple(sorted(filter(_whole, dict.fromkeys(found)), key=len))


@lru_cache(maxsize=1)
def rich_files() -> tuple[str, ...]:
    """Those that hold more than the least, and are checked in some milliseconds."""
    return tuple(one for one in files() if _LITTLE < len(one) < _LARGE)


@lru_cache(maxsize=1)
def studio_text() -> str:
    """The file of the demo studio."""
    return (CHECKOUT / "patterns/studio.yaml").read_text("utf-8")


@lru_cache(maxsize=1)
def studio() -> Studio:
    """The demo studio."""
    read = source.read("patterns/studio.yaml", studio_text().encode())
    assert read.value is not None
    parsed = pattern.parse_studio(read.value).value
    assert parsed is not None
    return parsed


def _whole(text: str) -> bool:
    read = source.read("pattern.yaml", text.encode())
    return read.value is not None and pipeline.run(read.value, studio()).ready is not None


@lru_cache(maxsize=1)
def pieces() -> tuple[tuple[str, ...], ...]:
    """Rows that belong together: blocks of plain rows."""
    plain = (one for one in blocks() if "title:" not in one and re.search(r"\b(sc|dc|ch) ", one))
    return tuple(tuple(one.strip().splitlines()) for one in plain if one.strip())


@lru_cache(maxsize=1)
def rows() -> tuple[str, ...]:
    """Single rows, phrases, and rows that nobody should write."""
    written = (row.strip() for piece in pieces() for row in piece if row.strip())
    return tuple(dict.fromkeys((*written, *PHRASES, *(one[:600] for one in BAD.values()))))


@lru_cache(maxsize=1)
def words() -> tuple[str, ...]:
    """Words and signs of rows."""
    found = (word for row in rows() for word in re.findall(r"[\w'-]+|\S", row))
    return tuple(dict.fromkeys(found))


@lru_cache(maxsize=1)
def values() -> tuple[str, ...]:
    """Values that stand behind some key of some file."""
    found = (value for one in files() for value in _VALUE.findall(one))
    return tuple(dict.fromkeys((*found, *HOSTILE)))
