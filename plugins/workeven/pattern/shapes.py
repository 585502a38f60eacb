"""Shaping and buttonholes told as data, in a section that has no rows of its own.

Takes     the ``shape`` or the ``holes`` of a section.
Gives     ``shape_of``, ``holes_of``: the record, or None where it could not be read;
          ``check_ends``.
Problems  ``file-shape``, and those of the formulas.
From      design.md, ``sections``: ``shape``, ``holes``.
"""

from __future__ import annotations

from typing import cast

from workeven.arithmetic.formulas import Formula
from workeven.arithmetic.shaping import Curve
from workeven.pattern.reading import Reading, entries, items, whole_of
from workeven.pattern.records import Holes, Shape, ShapeTrack, Slope, Worked
from workeven.problems.words import joined, quote
from workeven.source import Node

#: how rows are shaped along a length
_SLOPE = ("ends", "edge", "every_second_row", "straight_end", "curve")
#: keys that say the same thing in two ways: (one, what cannot stand beside it, why)
_APART = (
    ("tracks", (*_SLOPE, "leave", "spread", "stages"), "Each track says for itself how it shapes."),
    (
        "spread",
        ("ends", "edge", "leave"),
        "Stitches are spread over the whole row, or at its ends.",
    ),
    (
        "stages",
        ("every_second_row", "straight_end", "curve", "leave", "spread"),
        "Stages are spread evenly over the rows.",
    ),
    (
        "curve",
        ("every_second_row", "straight_end"),
        "A curve says itself which rows are shaped.",
    ),
)
#: keys that say nothing alone: (one, what must stand beside it, what is found, why, the cure)
_TOGETHER = (
    (
        "markers",
        "spread",
        "`markers` and no `spread`",
        "At markers as many stitches change as a shaped row changes in all.",
        "Say how many those are, `spread: 8`",
    ),
    (
        "multiple",
        "stages",
        "a `multiple` and no `stages`",
        "A multiple is that of the stitches which a stage changes.",
        "Say in how many rows it is shaped, `stages: 4`",
    ),
)


def shape_of(reading: Reading, table: Node) -> Shape | None:
    """Shaping as data, with the formulas of its counts."""
    start, end, over = (_formula(reading, table, key) for key in ("from", "to", "over"))
    tracks = whole_of(_track(reading, one) for one in items(reading.node(table, "tracks")))
    own = {
        key: _formula(reading, table, key)
        for key in ("leave", "spread", "markers", "stages", "multiple")
    }
    missing = any(own[key] is None and reading.node(table, key) is not None for key in own)
    if start is None or end is None or over is None or tracks is None or missing:
        return None
    _check(reading, table, tracks)
    return Shape(
        start=start,
        end=end,
        over=over,
        slope=_slope(reading, table, 2),
        span=reading.source.span(table),
        **own,
        at_edge=not {"ends", "edge"}.isdisjoint(entries(table)),
        tracks=tracks,
    )


def holes_of(reading: Reading, table: Node) -> Holes | None:
    """Buttonholes as data."""
    keys = ("across", "number", "width", "margin")
    sts, number, width, margin = (_formula(reading, table, key) for key in keys)
    if sts is None or number is None or width is None:
        return None
    if margin is None and reading.node(table, "margin") is not None:
        return None
    return Holes(
        sts=sts,
        number=number,
        width=width,
        margin=margin,
        stitch=reading.text(table, "stitch") or "sc",
        span=reading.source.span(table),
    )


def _formula(reading: Reading, table: Node, key: str) -> Formula | None:
    node = reading.node(table, key)
    return None if node is None else reading.formula(node)


def _slope(reading: Reading, table: Node, ends: int) -> Slope:
    """How it is shaped along its rows; ``ends`` where that is not said."""
    curve = cast("Curve", reading.text(table, "curve") or "even")
    evenly = curve == "even"  # a curve says itself which rows are shaped
    return Slope(
        ends=int(reading.text(table, "ends") or ends),
        second_row=evenly and reading.text(table, "every_second_row") == "yes",
        straight_end=evenly and reading.text(table, "straight_end") == "yes",
        edge=reading.text(table, "edge") or "same edge",
        curve=curve,
    )


def _track(reading: Reading, table: Node) -> ShapeTrack | None:
    """One of several shapings at the same time; at one edge where it names one."""
    sts, over, after = (_formula(reading, table, key) for key in ("sts", "over", "after"))
    if sts is None or over is None:
        return None
    if after is None and reading.node(table, "after") is not None:
        return None
    _check_apart(reading, table)
    edge = reading.text(table, "edge")
    return ShapeTrack(
        sts=sts,
        over=over,
        after=after,
        slope=_slope(reading, table, 2 if edge is None else 1),
        span=reading.source.span(table),
    )


# --- what cannot stand together ------------------------------------------------------------


def check_ends(reading: Reading, shape: Shape, worked: Worked) -> None:
    """Stitches can be left at the ends of flat rows alone."""
    if worked != "flat rows" and (shape.leave is not None or (shape.at_edge and shape.stages)):
        reading.problem(
            "file-shape",
            shape.span,
            f"Stitches are left at the ends of a row, and the section is worked in {worked}.",
            expected="A round has no ends.",
            mend="Shape it in flat rows, or leave out `leave`, `ends` and `edge`.",
        )


def _check(reading: Reading, table: Node, tracks: tuple[ShapeTrack, ...]) -> None:
    """Nothing is said in two ways, and a row has two ends, no more."""
    _check_apart(reading, table)
    for one, other, found, why, mend in _TOGETHER:
        if one in entries(table) and other not in entries(table):
            reading.problem(
                "file-shape",
                reading.source.span(table),
                f"The shaping has {found}.",
                expected=why,
                mend=f"{mend}, or leave out the `{one}`.",
            )
    edges = tuple(dict.fromkeys(one.slope.edge for one in tracks if one.slope.ends == 1))
    if len(edges) > 2:  # noqa: PLR2004, the ends of a row
        reading.problem(
            "file-shape",
            reading.source.span(table),
            f"The tracks shape {len(edges)} edges: {joined(edges)}.",
            expected="A row has two ends.",
            mend="Give tracks at the same end the same `edge`.",
        )


def _check_apart(reading: Reading, table: Node) -> None:
    for one, others, why in _APART:
        told = [key for key in others if key in entries(table)] if one in entries(table) else []
        if told:
            where = "into the tracks" if one == "tracks" else ""
            names = joined(map(quote, told))
            reading.problem(
                "file-shape",
                reading.source.span(table),
                f"The shaping has {quote(one)} and {names}.",
                expected=why,
                mend=f"Put {names} {where}." if where else f"Leave out {quote(one)}, or {names}.",
            )
            return
