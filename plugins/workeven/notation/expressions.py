"""Regular expressions that few rows ask for: each is made when first asked for, and kept.

Takes     the text of an expression.
Gives     ``ignoring_case``.
Problems  none.
From      DEVELOPERS.md, "Measured".

A long expression takes as long to make as a row takes to read, and a check of one file begins with
none made: those that are asked only behind a word which most rows lack are left until one has it.
"""

from __future__ import annotations

import re
from functools import cache


@cache
def ignoring_case(pattern: str) -> re.Pattern[str]:
    """The expression of this text, for capitals and small letters alike.

    >>> ignoring_case("for (?:the )?thumb").match("For the thumb") is not None
    True
    """
    return re.compile(pattern, re.IGNORECASE)
