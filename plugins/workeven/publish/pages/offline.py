"""What a page needs to be kept offline: whose copy it is, and of which version.

Takes     ``Pattern``.
Gives     ``OfflineView``: ``offline``; ``stamp``.
Problems  none.
From      DEVELOPERS.md, "The reader's page": ``we:offline:PATTERN``.

``theme/scripts/offline.js`` makes the copy, and ``theme/offline-worker.js`` shows it.
"""

from __future__ import annotations

from hashlib import blake2b

from workeven.pattern import Pattern
from workeven.records import record


@record
class OfflineView:
    """The folder's name and the version of the pattern."""

    pattern: str
    version: str


def offline(pattern: Pattern) -> OfflineView:
    """What the button says of the copy."""
    return OfflineView(pattern=pattern.slug, version=pattern.version)


def stamp(html: str) -> str:
    """A short name for what a page shows: two pages of one stamp show the same.

    >>> stamp("Rnd 1") == stamp("Rnd 2")
    False
    """
    return blake2b(html.encode(), digest_size=8).hexdigest()
