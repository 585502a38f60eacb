"""Addresses of rows: what names a row for good, on its page and under ``changes``.

Takes     names of pieces and the anchors that the proof gives their rows.
Gives     ``slug``, ``row_address``.
Problems  none.
From      design.md: rows and remembered places go by the name, or by piece, section and place.
"""

from __future__ import annotations

import re


def slug(words: str) -> str:
    """Words as a part of an address.

    >>> slug("Thumb opening (left)")
    'thumb-opening-left'
    """
    return re.sub(r"[\W_]+", "-", words.casefold()).strip("-")


def row_address(piece: str, anchor: str) -> str:
    """A row within its pattern, from the anchor that the proof gives it within its piece.

    The dot, which no name leaves in an address, tells the piece from what follows.

    >>> row_address("left_front", "left-front-neck-2")
    'left-front.neck-2'
    """
    name = slug(piece)
    return f"{name}.{slug(anchor).removeprefix(f'{name}-')}"
