"""What a page needs to be kept offline: a sign by which two copies of it are told apart.

Takes     the HTML of a page.
Gives     ``stamped``.
Problems  none.
From      DEVELOPERS.md, "The reader's page": ``we:offline:PATTERN``.

``theme/scripts/offline.js`` makes the copy, and ``theme/offline-worker.js`` shows it.
"""

from __future__ import annotations

from hashlib import blake2b

from markupsafe import Markup


def stamped(html: str) -> Markup:
    """A short name of what a page shows, for its head: two pages of one name show the same.

    >>> stamped("Rnd 1") == stamped("Rnd 2")
    False
    """
    name = blake2b(html.encode(), digest_size=8).hexdigest()
    return Markup('<meta name="we-stamp" content="{}">\n').format(name)
