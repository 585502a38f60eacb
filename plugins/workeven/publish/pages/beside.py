"""The pages that stand beside that of all patterns: their folders and their names.

Takes     nothing: names only.
Gives     ``BESIDE``, ``ALL``, ``STITCHES``.
Problems  none.
From      DEVELOPERS.md, "The reader's page".
"""

from __future__ import annotations

ALL = "All patterns"
STITCHES = "stitches"

#: The folder of each page and the words that lead to it.
BESIDE = {STITCHES: "Stitches and abbreviations"}
