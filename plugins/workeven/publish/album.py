"""The pictures of a pattern as files beside its page, and as the page shows them.

Takes     ``ReadyPattern``, and the pictures beside its file.
Gives     ``Album``: ``album``; ``NO_PICTURES``.
Problems  none: ``photographs`` has looked at each of them.
From      design.md, "A pattern file": a picture is ``{file, alt}``; HTML, ``srcset``.
"""

from __future__ import annotations

from workeven.pattern import Picture as Listed
from workeven.pipeline import ReadyPattern
from workeven.publish.pages.views import Picture
from workeven.records import record
from workeven.source import picture


@record
class Album:
    """The pictures in the order of the file, their files by name, and the one to share (or b"")."""

    pictures: tuple[Picture, ...]
    files: tuple[tuple[str, bytes], ...]
    shared: bytes


NO_PICTURES = Album(pictures=(), files=(), shared=b"")


def album(ready: ReadyPattern) -> Album:
    """What is made of the pictures that a pattern lists."""
    listed = ready.pattern.pictures
    if not listed:
        return NO_PICTURES
    from workeven.publish.photographs import developed  # Pillow, which few patterns ask for

    made = []
    for one in listed:
        content = picture(ready.pattern.file, one.file)
        assert isinstance(content, bytes), one.file  # it was looked at when the file was checked
        made.append((one, developed(content)))
    return Album(
        pictures=tuple(_shown(one, photograph.sizes) for one, photograph in made),
        files=tuple(
            (_name(one, width), content)
            for one, photograph in made
            for width, _, content in photograph.sizes
        ),
        shared=made[0][1].shared,
    )


def _shown(one: Listed, sizes: tuple[tuple[int, int, bytes], ...]) -> Picture:
    """The widest, with the others for who needs less."""
    width, height, _ = sizes[-1]
    each = (f"{_name(one, width)} {width}w" for width, _, _ in sizes)
    return Picture(
        file=_name(one, width),
        alt=one.alt,
        width=width,
        height=height,
        others=tuple(each) if len(sizes) > 1 else (),
    )


def _name(one: Listed, width: int) -> str:
    """``front-jpg-640.webp``: two files that differ in their ending alone stay two."""
    return f"{one.file.replace('.', '-')}-{width}.webp"
