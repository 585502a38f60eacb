"""A whole collection as files of plain Markdown.

Takes     ``Verdict``.
Gives     ``in_markdown``: files by their paths, each a page or a picture; ``unchanged``; ``OWN``.
Problems  none.
From      the guide, "Taking your patterns away".

The same collection gives the same bytes. ``OWN`` lists every file with a digest: by it a folder is
known as our own, and that nobody has worked in it since.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from contextlib import AbstractContextManager
from hashlib import blake2b
from urllib.parse import urlsplit

from workeven.pipeline import ReadyPattern, Verdict
from workeven.publish.album import album
from workeven.publish.in_markdown.pattern import page_of
from workeven.publish.in_markdown.signs import heading, link, listed, text
from workeven.publish.pages import pattern_page, worked_into
from workeven.publish.pages.mentions import mention
from workeven.publish.pages.schematics import draw
from workeven.publish.pages.studio import StudioView, studio
from workeven.publish.pages.views import Link

OWN = "written-by-workeven.txt"
_INDEX, _STUDIO, _PATTERNS = "index.md", "studio.md", "patterns"
_HEAD = """\
These files were written by `workeven render`. Run it again to write them anew. It does so only
while each of them is as it was written: what you change here is never written over.
"""


def in_markdown(
    verdict: Verdict, around: Callable[[str], AbstractContextManager[None]]
) -> dict[str, bytes]:
    """Every page and picture, in the order of the patterns; all of them are ready."""
    ready = [one.ready for one in verdict.outcomes if one.ready]
    files: dict[str, bytes] = {}
    for one in ready:
        with around(one.pattern.file):
            files |= _pattern(one)
    if ready:
        told = studio(
            ready[0].pattern.studio,
            [mention(one) for one in ready],
            lambda slug: f"{_PATTERNS}/{slug}.md",
            lambda url: url,
        )
        files[_INDEX] = _index(ready, told).encode()
        files[_STUDIO] = _studio(told).encode()
    files[OWN] = _listed(files)
    return files


def unchanged(files: Mapping[str, bytes]) -> bool:
    """Whether a folder with these files is one of ours, and each file as it was written."""
    others = {path: content for path, content in files.items() if path != OWN}
    return files.get(OWN) == _listed(others)


def _listed(files: Mapping[str, bytes]) -> bytes:
    digests = (
        f"{blake2b(content, digest_size=16).hexdigest()}  {path}"
        for path, content in sorted(files.items())
    )
    return "\n".join((_HEAD, *digests, "")).encode()


def _pattern(one: ReadyPattern) -> dict[str, bytes]:
    slug = one.pattern.slug
    pictures = album(one)
    neighbours = pattern_page.Neighbours(
        before=None, after=None, collection=Link(words="", url="../index.md")
    )
    view = pattern_page.pattern_view(
        one, draw(one), worked_into.told(one), neighbours, pictures.pictures
    )
    page = page_of(view, pictures.pictures, slug)
    return {
        f"{_PATTERNS}/{slug}.md": page.encode(),
        **{f"{_PATTERNS}/{slug}/{name}": content for name, content in pictures.files},
    }


def _index(ready: Sequence[ReadyPattern], view: StudioView) -> str:
    """The list of all patterns."""
    patterns = (
        f"{link(Link(words=one.title.text, url=f'{_PATTERNS}/{one.slug}.md'))}: "
        f"{text(one.summary.text)}"
        for one in (each.pattern for each in ready)
    )
    blocks = (
        heading(1, "Patterns"),
        link(Link(words=view.name, url=_STUDIO)),
        *listed(patterns),
    )
    return "\n\n".join(blocks) + "\n"


def _studio(view: StudioView) -> str:
    """What the studio says once for all patterns."""
    blocks = (
        heading(1, view.name),
        text(view.summary),
        *listed(link(one) if urlsplit(one.url).scheme else text(one.words) for one in view.links),
        *map(text, view.told),
        *(("## Designers",) if view.designers else ()),
        *listed(f"{text(name)}: {text(number)}" for name, number in view.designers),
        link(Link(words="All patterns", url=_INDEX)),
    )
    return "\n\n".join(block for block in blocks if block) + "\n"
