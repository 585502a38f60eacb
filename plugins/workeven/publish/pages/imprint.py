"""Who made a pattern, which version it is, what may be done with it, and what changed.

Takes     ``ReadyPattern``.
Gives     ``ImprintView``: ``imprint``.
Problems  none.
From      design.md, "A pattern file": ``version``, ``changes``, ``licence``, ``copyright``.
"""

from __future__ import annotations

from workeven.pattern import Pattern
from workeven.pipeline import ReadyPattern
from workeven.publish.pages import figures
from workeven.publish.pages.changes import ChangeView, changes
from workeven.records import record


@record
class ImprintView:
    """The foot of a page; its first line stands in the head too."""

    byline: str
    version: str
    licence: str
    copyright: str
    changes: tuple[ChangeView, ...]


def imprint(ready: ReadyPattern) -> ImprintView:
    """What the pattern says, else its studio."""
    pattern = ready.pattern
    return ImprintView(
        byline=_byline(pattern),
        version=_version(pattern),
        licence=pattern.licence or pattern.studio.licence or "",
        copyright=pattern.copyright or pattern.studio.copyright or "",
        changes=changes(ready),
    )


def _byline(pattern: Pattern) -> str:
    """Who made it: the designers, and the studio where it is another name."""
    designers = figures.listed(pattern.designers)
    if designers and pattern.studio.name and pattern.studio.name != designers:
        return f"Designed by {designers} for {pattern.studio.name}"
    return f"Designed by {designers}" if designers else pattern.studio.name


def _version(pattern: Pattern) -> str:
    published = f", published {pattern.published}" if pattern.published else ", a draft"
    return f"Version {pattern.version}{published}"
