"""Links to the video of a pattern.

Takes     a ``Video`` and a time in it.
Gives     ``film_link``.
Problems  none.
From      design.md, ``video``: a plain link with its time, nothing of another host in the page.
"""

from __future__ import annotations

from workeven.pattern import Video
from workeven.publish.pages import figures
from workeven.publish.pages.views import Link


def film_link(video: Video | None, seconds: int | None, words: str) -> Link | None:
    """A plain link to a place in the video, or to its beginning."""
    if video is None:
        return None
    if seconds is None:
        return Link(words=words, url=video.url)
    if video.time_link is None:
        return Link(words=f"{words} at {figures.clock(seconds)}", url=video.url)
    ending = video.time_link.replace("{seconds}", str(seconds))
    return Link(words=f"{words} at {figures.clock(seconds)}", url=video.url + ending)
