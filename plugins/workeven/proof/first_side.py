"""The first of two sides: all that was worked since a row left stitches for the second.

Takes     where a size stands.
Gives     ``FirstSide``; ``first_side``: the one that was worked last; ``begun_side``: the one
          whose second is begun already, and how many rows of that are worked.
Problems  none.
From      notation.md, "Places an earlier row left stay reachable" (``second side``).
"""

from __future__ import annotations

from typing import NamedTuple

from workeven.proof.fabric import Fabric
from workeven.proof.left import leaves_rest, left_below, left_by, left_last
from workeven.proof.line import Line
from workeven.proof.looking_back import fabric_at
from workeven.proof.standing import Standing, Worked


class FirstSide(NamedTuple):
    """The first of two sides: all that was worked since a row left stitches unworked.

    ``number`` is that of the first of its rows, ``below`` what they were worked into; that row took
    ``taken`` stitches and left ``left``.
    """

    number: int | None
    below: Fabric
    lines: tuple[Line, ...]
    how: str
    taken: int
    left: int


def first_side(standing: Standing) -> FirstSide | None:
    """The side that was worked last, if stitches are left for a second."""
    rest = left_last(standing)
    lines: list[Line] = []
    for rows in standing.stretches():
        for at in range(rows.times - 1, -1, -1):
            line = rows.line_at(at)
            lines.append(line)
            if not leaves_rest(line):
                continue
            below = fabric_at(standing, rows, at)
            if rest is None or below is None:
                return None
            number = None if rows.first is None else rows.first + at
            left = rest.fabric.sts
            side = tuple(lines[::-1])
            return FirstSide(number, below, side, rows.how, below.sts - left, left)
    return None


def begun_side(standing: Standing) -> tuple[FirstSide, int] | None:
    """The first of two sides, and how many rows of the second are worked already; else None.

    ``sk center 10 sts, join yarn in next st, …`` has begun it: it took up what the first had left.
    """
    known = standing.unworked
    if known is None or known.rows is None:
        return None
    done = 0
    for rows in standing.stretches():
        done += rows.times
        if rows is known.rows:
            break
    else:
        return None
    lines: list[Line] = []
    before: Worked | None = known.rows.before
    while before is not None:
        for at in range(before.times - 1, -1, -1):
            lines.append(before.line_at(at))
            below = left_below(standing, before, at)
            if below is not None:
                number = None if before.first is None else before.first + at
                left = left_by(standing, before, at).fabric.sts
                side = tuple(lines[::-1])
                return FirstSide(number, below, side, before.how, below.sts - left, left), done
        before = before.before
    return None
