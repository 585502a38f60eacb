"""The text of user files as a tree in which every value knows its line and column.

Takes     bytes of a file, or the paths of a collection.
Gives     ``Source``; ``Collection``.
Problems  ``file-``.
From      design.md, "YAML, safely and with places".

User files are opened in ``collection`` of this package and nowhere else.
"""

from workeven.source.collection import (
    PICTURE,
    Collection,
    PatternFile,
    PictureFault,
    beside,
    charts_beside,
    charts_unnamed,
    collect,
    content,
    document,
    is_device,
    lines,
    load,
    picture,
    pictures_beside,
    stamp,
    typed,
)
from workeven.source.read import read
from workeven.source.tree import Entry, Node, Source

__all__ = [
    "PICTURE",
    "Collection",
    "Entry",
    "Node",
    "PatternFile",
    "PictureFault",
    "Source",
    "beside",
    "charts_beside",
    "charts_unnamed",
    "collect",
    "content",
    "document",
    "is_device",
    "lines",
    "load",
    "picture",
    "pictures_beside",
    "read",
    "stamp",
    "typed",
]
