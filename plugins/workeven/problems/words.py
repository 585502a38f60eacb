"""Words that messages share: foreign text made safe to show, and "did you mean".

Takes     text from a file, and the names it could have meant.
Gives     ``quote``, ``excerpt``, ``shown``, ``joined``, ``nearest``, ``did_you_mean``.
Problems  none.
From      house-style.md, rule 13; design.md: foreign text is shortened to 80 characters.
"""

from __future__ import annotations

import unicodedata
from collections.abc import Iterable

#: Foreign text is shortened to this many characters.
LONGEST_QUOTE = 80
#: A line that is shown as it is written is shortened to this.
LONGEST_EXCERPT = 200
#: How alike two words must be (0 to 1) before one is offered for the other.
ALIKE = 0.6
#: Keys are short words of a closed list, so that chance likeness is common (`seams`, `terms`).
KEYS_ALIKE = 0.7


def quote(text: str) -> str:
    """Foreign text for a message: on one line, shortened, nothing invisible, in backticks.

    >>> quote("76 (86, 97) cm")
    '`76 (86, 97) cm`'
    >>> quote("a" + chr(0x202E) + "b")
    '`a<U+202E>b`'
    """
    line = " ".join(text.split())
    short = line if len(line) <= LONGEST_QUOTE else line[: LONGEST_QUOTE - 1] + "…"
    return f"`{shown(short).replace('`', chr(0x2019))}`"


def excerpt(text: str) -> str:
    """A line as it is written, shortened, for the excerpt of a problem.

    >>> excerpt("   rep last row  ")
    'rep last row'
    """
    line = text.strip()
    return line if len(line) <= LONGEST_EXCERPT else line[: LONGEST_EXCERPT - 1] + "…"


def shown(text: str) -> str:
    """Foreign text with nothing invisible in it: what is, is spelled out.

    >>> shown("a" + chr(0x200B))
    'a<U+200B>'
    """
    return "".join(map(_visible, text))


def joined(words: Iterable[str], last: str = "and") -> str:
    """Words as a sentence lists them.

    >>> joined(["S", "M", "L"])
    'S, M and L'
    """
    *before, end = list(words) or [""]
    return f"{', '.join(before)} {last} {end}" if before else end


def nearest(word: str, names: Iterable[str], alike: float = ALIKE) -> str | None:
    """The name most like a word, or None when none is alike.

    >>> nearest("gage", ("gauge", "yarn"))
    'gauge'
    """
    from difflib import get_close_matches  # loaded only when something is wrong

    by_lower = {name.lower(): name for name in names}
    found = get_close_matches(word.lower(), by_lower, n=1, cutoff=alike)
    return by_lower[found[0]] if found else None


def did_you_mean(word: str, names: Iterable[str], alike: float = ALIKE) -> str:
    """The sentence that offers the nearest name, or "" when none is alike.

    >>> did_you_mean("gage", ("gauge", "yarn"))
    'Did you mean `gauge`?'
    """
    name = nearest(word, names, alike)
    return f"Did you mean `{name}`?" if name is not None else ""


def _visible(character: str) -> str:
    """A character as it may be shown: what is invisible or turns the line is spelled out."""
    if character.isprintable() or unicodedata.category(character) == "Zs":
        return character
    return f"<U+{ord(character):04X}>"
