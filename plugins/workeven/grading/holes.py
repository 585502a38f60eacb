"""Buttonholes as data become a row in words, once counts have numbers.

Takes     ``Holes`` and its figures in every size.
Gives     ``lines_of``: the rows that tell it in all sizes; ``fault_in``: what is wrong in one.
Problems  code of ``holes-no-room``, reported by ``grading.made_rows``.
From      design.md, ``sections``: ``holes``; the arithmetic is that of ``arithmetic.shaping``.

Each size has its own distances. Sizes whose rows differ in numbers alone share a line: "[sc in next
14 (16) sts, ch 3, sk next 3 sts] 4 times". Where the longer distances stand elsewhere each group of
sizes has its own, with their names in front.
"""

from __future__ import annotations

import re
from collections.abc import Mapping, Sequence

from workeven.arithmetic.shaping import ShapingFault, Spacing, placed
from workeven.arithmetic.shaping.words import words_of_holes
from workeven.grading.sizes_of import by_size, only
from workeven.notation.vocabulary import HEIGHTS
from workeven.pattern import Holes, Section

#: stitches whose beginning chain is one of them (common practice)
_COUNTED = HEIGHTS["dc"]
_NUMBER = re.compile(r"\d+")
_ENDS = {
    "flat rows": ", turn",
    "joined rounds": ", join",
    "joined rounds, turned": ", join, turn",
    "spiral rounds": "",
}


def fault_in(section: Section, holes: Holes, values: Mapping[str, int]) -> ShapingFault | None:
    """What does not fit in one size; None where all does."""
    try:
        _text(section, holes, values)
    except ShapingFault as fault:
        return fault
    return None


def lines_of(
    section: Section,
    holes: Holes,
    names: Sequence[str],
    values: Sequence[Mapping[str, int]],
    works: Sequence[int],
) -> tuple[str, ...]:
    """The row of all sizes that work the section, in as many lines as it takes."""
    groups: dict[str, dict[int, str]] = {}
    for size in works:
        text = _text(section, holes, values[size])
        groups.setdefault(_NUMBER.sub("#", text), {})[size] = text
    return tuple(
        ("" if len(groups) == 1 else only([names[size] for size in texts]))
        + _together(texts, len(values))
        for texts in groups.values()
    )


def _together(texts: Mapping[int, str], sizes: int) -> str:
    """Texts that differ in numbers alone as one, with lists by size."""
    found = {size: _NUMBER.findall(text) for size, text in texts.items()}
    each = iter(
        by_size({size: int(numbers[at]) for size, numbers in found.items()}, sizes)
        for at in range(len(next(iter(found.values()))))
    )
    return _NUMBER.sub(lambda _: next(each), next(iter(texts.values())))


def _text(section: Section, holes: Holes, values: Mapping[str, int]) -> str:
    """The row in one size; raises ``ShapingFault``."""
    sts, number, width = values["across"], values["number"], values["width"]
    spiral = section.worked == "spiral rounds"
    flat = section.worked == "flat rows"
    spacing = placed(sts, number, width, margin=values.get("margin"), flat=flat)
    height = HEIGHTS[holes.stitch]
    head = "" if spiral else f"ch {height}, "
    if height >= _COUNTED and not spiral:
        head = f"ch {height} (counts as {holes.stitch}), "
        spacing = _behind_chain(spacing, width)
    words = words_of_holes(spacing, width, holes.stitch)
    left = sts - number * width
    return f"{head}{words}{_ENDS[section.worked]} ({left} {holes.stitch}, {number} ch-{width} sps)"


def _behind_chain(spacing: Spacing, width: int) -> Spacing:
    """Where the beginning chain is the first stitch: one fewer is worked before the first hole."""
    first, last = spacing.edges
    intervals = spacing.intervals
    if not first:  # a round: its first interval begins with the chain
        first, intervals, last = intervals[0], intervals[1:], 0
    if first - width < 2:  # noqa: PLR2004, the chain and a stitch behind it
        raise ShapingFault(
            "The first hole stands at the beginning chain.",
            "Let two stitches or more stand before it.",
        )
    return Spacing(edges=(first - 1, last), intervals=intervals)
