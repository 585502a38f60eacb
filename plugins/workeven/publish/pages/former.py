"""The page at an old address of a pattern: it leads on, and says where to.

Takes     the title of the pattern, its address.
Gives     ``former_page``.
Problems  none.
From      design.md, ``formerly``: old folder names, each a redirect; RFC 6596, the canonical link.

Where script runs, what stands behind the address goes along: a bookmark keeps its size and its row.
Where it does not, the page leads on by itself and the rest of the address is lost. There is a link
for both.
"""

from __future__ import annotations

from workeven.publish.pages.render import page_html


def former_page(title: str, url: str, whole: str) -> str:
    """A whole document; ``url`` is the page seen from the old one, ``whole`` its whole address."""
    return page_html("former.html", title=title, url=url, canonical=whole or url)
