"""The pictures of a pattern, as its file lists them.

Takes     the value of ``pictures``.
Gives     ``pictures``.
Problems  ``picture-name``, ``picture-twice``.
From      design.md, "A pattern file": a picture is ``{file, alt}``, and ``alt`` is required.
"""

from __future__ import annotations

import re

from workeven.pattern.page_records import Picture
from workeven.pattern.reading import Reading, items
from workeven.problems.words import quote
from workeven.source import PICTURE, Node, is_device

_LONGEST = 80


def pictures(reading: Reading, listed: Node) -> tuple[Picture, ...]:
    """The pictures in the order of the file; what cannot be one is told and left out."""
    found: dict[str, Picture] = {}
    for table in items(listed):
        file, alt = reading.node(table, "file"), reading.text(table, "alt")
        if file is None or alt is None:
            continue
        name = reading.placed(file)
        if not PICTURE.fullmatch(name.text) or is_device(name.text) or len(name.text) > _LONGEST:
            _no_name(reading, name.text, file)
        elif name.text in found:
            reading.problem(
                "picture-twice",
                name.span,
                f"The picture {quote(name.text)} is listed twice.",
                expected="Each picture once.",
                mend="Leave out one of the two.",
            )
        else:
            found[name.text] = Picture(file=name.text, alt=alt, span=name.span)
    return tuple(found.values())


def _no_name(reading: Reading, name: str, file: Node) -> None:
    reading.problem(
        "picture-name",
        reading.source.span(file),
        f"{quote(name)} is not the name of a picture's file.",
        expected="Lowercase letters a to z, digits and single hyphens, then `.jpg`, `.png` or "
        f"`.webp`; at most {_LONGEST} characters, and no folder.",
        mend=f"Rename the file to {quote(_better(name))}, for example, and write that.",
    )


def _better(name: str) -> str:
    last = name.replace("\\", "/").rpartition("/")[2].lower()
    stem, _, ending = last.rpartition(".")
    words = "-".join(re.findall(r"[a-z0-9]+", stem))[: _LONGEST - 5].strip("-") or "picture"
    return f"{words}.{ending if ending in ('jpg', 'jpeg', 'png', 'webp') else 'jpg'}"
