"""What the pages beside a pattern's own say of it: the list of tags, the changes, the studio.

Takes     ``ReadyPattern``.
Gives     ``Mention``: ``mention``.
Problems  none.
From      DEVELOPERS.md, "Measured".

It is all that is kept of a pattern once its page is made: the proof weighs a hundred times as much.
"""

from __future__ import annotations

from workeven.pipeline import ReadyPattern
from workeven.publish.pages.changes import ChangeView, changes
from workeven.records import record


@record
class Mention:
    """A pattern by its folder; its rows in ``changes`` are linked by their anchors alone."""

    slug: str
    title: str
    published: str | None
    designers: tuple[str, ...]
    tags: tuple[str, ...]
    formerly: tuple[str, ...]
    changes: tuple[ChangeView, ...]


def mention(ready: ReadyPattern) -> Mention:
    """What is said of one pattern."""
    pattern = ready.pattern
    return Mention(
        slug=pattern.slug,
        title=pattern.title.text,
        published=pattern.published,
        designers=pattern.designers,
        tags=pattern.tags,
        formerly=tuple(name.text for name in pattern.formerly),
        changes=changes(ready),
    )
