r"""What stands at the foot of each printed sheet: the pattern, its version, and the size if chosen.

Takes     ``Pattern``.
Gives     ``foot``: a small style sheet for the head of the page.
Problems  none.
From      W3C, "CSS Paged Media Module Level 3" (margin boxes), "CSS Syntax Level 3" (escapes).

A sheet that lies loose among others must say what it is of. Margin boxes take their words from the
style alone, so the words are written there as strings in which every sign but letters, digits and
spaces is an escape (``<`` is ``\3c ``): nothing in a title can end the string or the style.
"""

from __future__ import annotations

import re

from markupsafe import Markup

from workeven.pattern import Pattern

_NOT_PLAIN = re.compile(r"[^A-Za-z0-9 ]")
#: So much of a title leaves room for the rest of the line.
_LONGEST = 60


def foot(pattern: Pattern) -> Markup:
    """The words as properties that the style for paper prints (``theme/styles/print.css``)."""
    title = pattern.title.text
    short = title if len(title) <= _LONGEST else f"{title[:_LONGEST].rstrip()}…"
    rules = [f":root{{--we-sheet:{_string(f'{short}, version {pattern.version}')}}}"]
    if len(pattern.sizes) > 1:
        rules += [
            f':root[data-size="{place}"]{{--we-sheet-size:{_string(f", size {name}")}}}'
            for place, name in enumerate(pattern.sizes.names)
        ]
    return Markup("<style>{}</style>\n").format(Markup("").join(map(Markup, rules)))


def _string(words: str) -> str:
    r"""A text as a string of a style sheet.

    >>> print(_string('Knots & "nets"'))
    "Knots \26  \22 nets\22 "
    """
    return '"' + _NOT_PLAIN.sub(lambda sign: f"\\{ord(sign[0]):x} ", words) + '"'
