"""The web manifest: how a site stands on a phone among its other programs, with drawn icons.

Takes     the name of the site, where its patterns are.
Gives     ``files``.
Problems  none.
From      W3C, "Web Application Manifest".

A script adds the link to it (``theme/scripts/manifest.js``), since browsers complain about one in
a page that is opened as a file. Colours are the package's own, by day.
"""

from __future__ import annotations

import json

from workeven.publish.drawings import svg
from workeven.publish.drawings.shared import icon

MANIFEST_FILE = "manifest.webmanifest"
_ICONS = {size: f"assets/icon-{size}.png" for size in (192, 512)}


def files(name: str, patterns: str) -> tuple[tuple[str, str | bytes], ...]:
    """The manifest and its icons: address and content; the first page is that of all patterns."""
    icons = tuple((path, icon(size)) for size, path in _ICONS.items())
    return ((MANIFEST_FILE, _manifest(name, patterns)), *icons)


def _manifest(name: str, patterns: str) -> str:
    told = {
        "name": name,
        "start_url": patterns,
        "scope": "./",
        "display": "minimal-ui",
        "background_color": svg.PAPER,
        "theme_color": svg.PAPER,
        "icons": [
            {"src": path, "sizes": f"{size}x{size}", "type": "image/png", "purpose": purpose}
            for size, path in _ICONS.items()
            for purpose in ("any", "maskable")
        ],
    }
    return json.dumps(told, ensure_ascii=False, indent=1) + "\n"
