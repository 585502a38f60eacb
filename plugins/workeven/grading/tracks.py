"""Several shapings at the same time, in one size as a plan and in all sizes as rows.

Takes     a ``Shape`` with tracks and its figures in every size.
Gives     ``told_in``: what a maker meets in one size, in order; ``lines_of``: the rows that tell
          it in all sizes; ``fault_in``: what is wrong in one.
Problems  codes of ``shape-sum``, ``shape-odd``, ``shape-no-room``, ``shape-clash``, reported by
          ``grading.shaping``.
From      design.md, ``sections``: ``shape``; the arithmetic is that of
          ``arithmetic.shaping.tracks``.

A maker works one row after the other and keeps one list in mind, so the tracks are merged: "dec
1 st at neck edge every row 3 times", "dec 1 st at each end every row once", "work 1 row even".
Sizes with the same rows share the lines; where they differ each group has its own, with its sizes
in front.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from workeven.arithmetic.shaping import (
    Ends,
    ShapingFault,
    Stretch,
    Track,
    along,
    merged,
    stretches,
)
from workeven.arithmetic.shaping.words import rate_words, rows_even
from workeven.grading.figures import Figures
from workeven.grading.sizes_of import by_size, only
from workeven.pattern import Section, Shape
from workeven.problems.words import joined


def told_in(section: Section, shape: Shape, figures: Figures) -> tuple[Stretch, ...]:
    """What a maker of one size meets, in order; raises ``ShapingFault`` where it does not fit."""
    rows = merged(_tracks(shape, figures), figures.over)
    if section.worked != "flat rows":
        return stretches([(one + other, 0) for one, other in rows])
    for number, ends in enumerate(rows, start=1):
        if _lopsided(ends):
            raise ShapingFault(
                f"In row {number} of the shaping {ends[0]} and {ends[1]} stitches would change at "
                "the two ends.",
                "Begin one of the tracks a row later, or shape it every second row.",
            )
    return stretches(rows)


def fault_in(section: Section, shape: Shape, figures: Figures) -> tuple[str, ShapingFault] | None:
    """The code and the words of what is wrong in one size; None where all fits."""
    total, wanted = sum(one.sts for one in figures.tracks), abs(figures.end - figures.start)
    if total != wanted:
        return "shape-sum", ShapingFault(
            f"From {figures.start} to {figures.end} there are {wanted} stitches, and the tracks "
            f"change {joined([str(one.sts) for one in figures.tracks])}: {total}.",
            "Change a count, or the `sts` of a track.",
        )
    try:
        rows = merged(_tracks(shape, figures), figures.over)
        told_in(section, shape, figures)
    except ShapingFault as fault:
        pairs = zip(figures.tracks, shape.tracks, strict=True)
        if any(one.sts % track.slope.ends for one, track in pairs):
            return "shape-odd", fault
        return "shape-clash" if _rows_fit(shape, figures) else "shape-no-room", fault
    assert sum(map(sum, rows)) == total
    return None


def lines_of(
    section: Section,
    shape: Shape,
    names: Sequence[str],
    figures: Sequence[Figures],
    told: Mapping[int, tuple[Stretch, ...]],
) -> tuple[str, ...]:
    """The rows of all sizes that work the section; ``told`` gives what each of them meets."""
    groups: dict[tuple[Stretch, ...], list[int]] = {}
    for size, one in told.items():
        groups.setdefault(one, []).append(size)
    lines: list[str] = []
    for group, sizes in groups.items():
        prefix = "" if len(groups) == 1 else only([names[size] for size in sizes])
        now = {size: figures[size].start for size in sizes}
        for stretch in group:
            sign = 1 if figures[sizes[0]].end > figures[sizes[0]].start else -1
            now = {size: sts + sign * stretch.changed for size, sts in now.items()}
            words = _words(section, shape, stretch, "inc" if sign > 0 else "dec")
            lines.append(f"{prefix}{words} ({by_size(now, len(figures))} sts)")
    return tuple(lines)


# --- in one size ---------------------------------------------------------------------------


def _tracks(shape: Shape, figures: Figures) -> list[Track]:
    edges = _edges(shape)
    found: list[Track] = []
    for track, one in zip(shape.tracks, figures.tracks, strict=True):
        slope = track.slope
        if one.sts % slope.ends:
            raise ShapingFault(
                f"A track changes {one.sts} stitches in all, and each of its rows {slope.ends}.",
                "Make its stitches even, or shape it at one end: give it an `edge`.",
            )
        times = one.sts // slope.ends
        if not times:
            continue
        first = slope.ends == 1 and slope.edge == edges[0]
        ends = (1, 1) if slope.ends > 1 else (1, 0) if first else (0, 1)
        after = one.after
        for planned in along(
            slope.curve,
            times,
            one.over,
            every_second_row=slope.second_row,
            straight_end=slope.straight_end,
        ):
            found.append(Track(plan=planned, after=after, ends=ends))
            after += planned.rows
    return found


def _rows_fit(shape: Shape, figures: Figures) -> bool:
    try:
        merged(_tracks(shape, figures), figures.over)
    except ShapingFault:
        return False
    return True


def _edges(shape: Shape) -> tuple[str, ...]:
    """The edges that are shaped alone, in the order of the tracks."""
    return tuple(dict.fromkeys(one.slope.edge for one in shape.tracks if one.slope.ends == 1))


def _lopsided(ends: Ends) -> bool:
    """Whether both ends change, and not by the same: no row of the trade's says that."""
    return 0 not in ends and ends[0] != ends[1]


# --- the words -----------------------------------------------------------------------------


def _words(section: Section, shape: Shape, stretch: Stretch, change: str) -> str:
    row = "row" if section.worked == "flat rows" else "rnd"
    if stretch.plain:
        return rows_even((stretch.plain,), row)
    rates = ", then ".join(rate_words(rate, row) for rate in stretch.rates)
    return f"{change} {_where(section, shape, stretch.ends)} {rates}"


def _where(section: Section, shape: Shape, ends: Ends) -> str:
    number = max(ends)
    sts = "1 st" if number == 1 else f"{number} sts"
    if section.worked != "flat rows":
        return sts
    if ends[0] == ends[1]:
        return f"{sts} at each end"
    return f"{sts} at {_edges(shape)[0 if ends[0] else 1]}"
