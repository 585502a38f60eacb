"""The numbers of a shaping in one size.

Takes     a ``Shape``, the values of its formulas by the keys that they stand at.
Gives     ``Figures``, ``figures_from``.
Problems  none.
From      design.md, ``sections``: ``shape``.
"""

from __future__ import annotations

from collections.abc import Mapping
from typing import NamedTuple

from workeven.pattern import Shape


class TrackFigures(NamedTuple):
    """Stitches changed in all, rows, and the rows before it begins, in one size."""

    sts: int
    over: int
    after: int


class Figures(NamedTuple):
    """Stitches before and after, and rows, in one size; what else a shaping says, as numbers.

    ``leave`` is 0 where no stitches are left; ``spread``, ``markers`` and ``stages`` None where
    nothing is said of them; ``multiple`` is 1 then.
    """

    start: int
    end: int
    over: int
    leave: int = 0
    spread: int | None = None
    markers: int | None = None
    stages: int | None = None
    multiple: int = 1
    tracks: tuple[TrackFigures, ...] = ()


def figures_from(shape: Shape, values: Mapping[str, int]) -> Figures:
    """The values of ``shape.named``, by name."""
    return Figures(
        start=values["from"],
        end=values["to"],
        over=values["over"],
        leave=values.get("leave", 0),
        spread=values.get("spread"),
        markers=values.get("markers"),
        stages=values.get("stages"),
        multiple=values.get("multiple", 1),
        tracks=tuple(
            TrackFigures(
                values[f"sts of track {number}"],
                values[f"over of track {number}"],
                values.get(f"after of track {number}", 0),
            )
            for number in range(1, len(shape.tracks) + 1)
        ),
    )
