"""Plain rows with their options, as the pages of problems and the cases write them.

Leading lines such as ``worked: joined rounds``, ``terms: uk``, ``from: 54 dc``, ``sizes: S (M, L)``
and ``stitch: shell = 5 dc in same st`` (several times if need be) are the options of
``workeven count``; the rows follow and are numbered from 1.
"""

from __future__ import annotations

import re
from dataclasses import dataclass

from workeven.arithmetic.size_lists import by_size
from workeven.problems import Checked
from workeven.proof import counting

_OPTION = re.compile(r"(worked|terms|from|sizes|stitch): (.+)")


@dataclass(frozen=True, slots=True, kw_only=True)
class PlainRows:
    """A block of rows and the options that stand above them."""

    options: tuple[tuple[str, str], ...]
    text: str

    def all(self, name: str) -> tuple[str, ...]:
        """The values of one option, in order."""
        return tuple(value for option, value in self.options if option == name)

    def first(self, name: str) -> str | None:
        """The value of an option, if it stands there."""
        return next(iter(self.all(name)), None)


def read(block: str) -> PlainRows:
    """Part the options from the rows."""
    options: list[tuple[str, str]] = []
    lines = block.splitlines(keepends=True)
    while lines and (found := _OPTION.fullmatch(lines[0].strip())):
        options.append((found[1], found[2]))
        del lines[0]
    return PlainRows(options=tuple(options), text="".join(lines))


def count(block: str, file: str = "rows") -> Checked[counting.CountedText]:
    """Count a block as ``workeven count`` does."""
    rows = read(block)
    sizes = rows.first("sizes")
    terms = rows.first("terms") or "us"
    assert terms in {"us", "uk"}
    return counting.count(
        rows.text,
        file=file,
        worked=rows.first("worked") or "flat rows",
        terms="uk" if terms == "uk" else "us",
        start=rows.first("from"),
        sizes=tuple(name for name, _at in by_size(sizes)) if sizes else None,
        stitches=rows.all("stitch"),
    )
