"""Texts and files that wait for their turn, packed: a finished page takes a quarter of its room.

Takes     a text, or the bytes of a file.
Gives     ``Packed``: ``packed``; ``NOTHING``.
Problems  none.
From      RFC 1950, the zlib format; DEVELOPERS.md, "Measured".

A build holds all that it will write until the last pattern is proven. HTML and JSON say the same
words again and again, and Python keeps a text with one fraction in it at two bytes a sign.
"""

from __future__ import annotations

import zlib

from workeven.records import record

#: The quickest: it takes a hundredth of what making the page took, and packs nearly as well.
_LEVEL = 1


@record
class Packed:
    """A text in UTF-8 or a file, as zlib packs it, or as it is where that would not be less."""

    content: bytes
    as_it_is: bool

    def whole(self) -> bytes:
        """What was packed."""
        return self.content if self.as_it_is else zlib.decompress(self.content)

    def text(self) -> str:
        """The same as a text."""
        return self.whole().decode()


#: What an empty text is.
NOTHING = Packed(content=b"", as_it_is=True)


def packed(content: str | bytes) -> Packed:
    """A text or a file; a photograph, which is packed already, stays as it is."""
    whole = content.encode() if isinstance(content, str) else content
    less = zlib.compress(whole, _LEVEL)
    if len(less) >= len(whole):
        return Packed(content=whole, as_it_is=True)
    return Packed(content=less, as_it_is=False)
