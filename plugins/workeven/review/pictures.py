"""Pictures before and after: other files, other words beside them, in another order.

Takes     ``Pattern`` before and after; what tells whether a file is the same.
Gives     ``pictures_changed``: sentences without a stop.
Problems  none.
From      design.md, "A pattern file": a picture is a file and what is said of it.

Nothing is looked at: a file is another where a byte of it is. Who reviews the change opens it.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator

from workeven.pattern import Pattern

#: what a picture beside a pattern's file is known by, from both; None where nothing tells it
KnownBy = Callable[[str, str], str | None]


def unseen(_file: str, _name: str) -> None:
    """Nothing is known of any picture."""


def pictures_changed(
    before: Pattern, after: Pattern, was: KnownBy, now: KnownBy
) -> tuple[str, ...]:
    """What became of the pictures that the pattern lists."""
    told = tuple(_told(before, after, was, now))
    order = [one.file for one in before.pictures], [one.file for one in after.pictures]
    moved = not told and order[0] != order[1]
    return ("they stand in another order",) if moved else told


def _told(before: Pattern, after: Pattern, was: KnownBy, now: KnownBy) -> Iterator[str]:
    old = {one.file: one for one in before.pictures}
    new = {one.file: one for one in after.pictures}
    for name in dict.fromkeys((*old, *new)):
        if name not in new:
            yield f"{name} is gone"
        elif name not in old:
            yield f"{name} is new"
        else:
            known = was(before.file, name), now(after.file, name)
            if None not in known and known[0] != known[1]:
                yield f"{name} is another file"
            if old[name].alt != new[name].alt:
                yield f"{name} has other words"
