"""A text of one line as YAML writes it, so that it is read back as it is.

Takes     a text.
Gives     ``scalar``.
Problems  none.
From      YAML 1.2.2, "Flow scalar styles".
"""

from __future__ import annotations

import re

#: letters, digits and what never means anything to YAML behind a letter
_PLAIN = re.compile(r"[A-Za-z][\w .,()'’/–-]*(?<! )", re.ASCII)
#: words that YAML, or a reader of it, takes for something else than text
_OTHERWISE = frozenset({"true", "false", "yes", "no", "on", "off", "null", "y", "n"})


def scalar(text: str) -> str:
    """A text in one line, with quotes where YAML needs them.

    >>> scalar("Left front"), scalar("Note: the chain's 2nd #1")
    ('Left front', "'Note: the chain''s 2nd #1'")
    """
    line = " ".join(text.split())
    if _PLAIN.fullmatch(line) and line.lower() not in _OTHERWISE:
        return line
    return "'" + line.replace("'", "''") + "'"
