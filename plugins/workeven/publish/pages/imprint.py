"""Who made a pattern, which version it is, what may be done with it, and what changed.

Takes     ``Pattern``.
Gives     ``ImprintView``: ``imprint``.
Problems  none.
From      design.md, "A pattern file": ``version``, ``changes``, ``licence``, ``copyright``.
"""

from __future__ import annotations

from workeven.pattern import Pattern
from workeven.publish.pages import figures
from workeven.records import record


@record
class ImprintView:
    """The foot of a page; its first line stands in the head too. ``changes``: when, and what."""

    byline: str
    version: str
    licence: str
    copyright: str
    changes: tuple[tuple[str, str], ...]


def imprint(pattern: Pattern) -> ImprintView:
    """What the pattern says, else its studio."""
    return ImprintView(
        byline=_byline(pattern),
        version=_version(pattern),
        licence=pattern.licence or pattern.studio.licence or "",
        copyright=pattern.copyright or pattern.studio.copyright or "",
        changes=tuple((f"{one.version}, {one.date}", one.text) for one in pattern.changes),
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
