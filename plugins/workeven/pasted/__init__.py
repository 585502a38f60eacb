"""Plain rows pasted from a document, turned into the rows of a pattern file.

Takes     the text of a document, and what is known of it: terms, sizes, special stitches.
Gives     ``Pasted``; ``written``, its YAML.
Problems  those of the notation, at the lines of the text.
From      the guide, "From a document".
"""

from workeven.pasted.read import Part, Pasted, PastedNote, PastedRow, read
from workeven.pasted.written import written

__all__ = ["Part", "Pasted", "PastedNote", "PastedRow", "read", "written"]
