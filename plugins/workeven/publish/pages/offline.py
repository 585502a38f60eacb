"""What a page needs to be kept offline: whose copy it is, and of which version.

Takes     ``Pattern``.
Gives     ``OfflineView``: ``offline``; ``stamped``.
Problems  none.
From      DEVELOPERS.md, "The reader's page": ``we:offline:PATTERN``.

``theme/scripts/offline.js`` makes the copy, and ``theme/offline-worker.js`` shows it.
"""

from __future__ import annotations

from hashlib import blake2b

from markupsafe import Markup

from workeven.pattern import Pattern
from workeven.records import record


@record
class OfflineView:
    """The folder's name, those it had before (``a b``), and the version of the pattern."""

    pattern: str
    formerly: str
    version: str


def offline(pattern: Pattern) -> OfflineView:
    """What the button says of the copy."""
    return OfflineView(
        pattern=pattern.slug,
        formerly=" ".join(name.text for name in pattern.formerly),
        version=pattern.version,
    )


def stamped(html: str) -> Markup:
    """A short name of what a page shows, for its head: two pages of one name show the same.

    >>> stamped("Rnd 1") == stamped("Rnd 2")
    False
    """
    name = blake2b(html.encode(), digest_size=8).hexdigest()
    return Markup('<meta name="we-stamp" content="{}">\n').format(name)
