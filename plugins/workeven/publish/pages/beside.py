"""The pages that stand beside that of all patterns: their folders and their names.

Takes     nothing: names only.
Gives     ``BESIDE``, ``ALL``, ``STITCHES``, ``TAGS``, ``CHANGES``, ``STUDIO``, ``FEED``.
Problems  none.
From      DEVELOPERS.md, "The reader's page".
"""

from __future__ import annotations

ALL = "All patterns"
STITCHES, TAGS, CHANGES, STUDIO = "stitches", "tags", "changes", "studio"
#: The file of the feed, in the folder of the changes.
FEED = "feed.xml"

#: The folder of each page and the words that lead to it.
BESIDE = {
    STITCHES: "Stitches and abbreviations",
    TAGS: "Tags",
    CHANGES: "Changes and corrections",
    STUDIO: "The studio",
}
