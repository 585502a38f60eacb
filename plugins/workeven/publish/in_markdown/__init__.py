"""Everything of a collection as plain Markdown, for who takes her patterns elsewhere.

Takes     ``Verdict`` without an error.
Gives     ``in_markdown``: files by their paths; ``OWN``, the file by which its own folder is known.
Problems  none.
From      the guide, "Taking your patterns away"; CommonMark 0.31.2 and its tables by GFM.
"""

from workeven.publish.in_markdown.collection import OWN, in_markdown, unchanged

__all__ = ["OWN", "in_markdown", "unchanged"]
