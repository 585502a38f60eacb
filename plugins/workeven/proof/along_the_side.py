"""Row ends that are told by their stitches: "working along side, 2 sc around post of next st".

Takes     the lines of a piece.
Gives     ``with_row_ends``: the same lines, such stitches as the row ends that they are.
Problems  none.
From      notation.md, "Below and before" ("the side of rows"); common practice: along the side of a
          flat piece the stitch that stands at the end of a row is that row's end.

Worked example: along ten rows of dc "2 sc around each turning ch and each end dc" is twenty sc: at
that side of every row there is a turning chain or a dc.
"""

from __future__ import annotations

import re
from collections.abc import Iterable

from workeven.notation.tree import (
    AnyStitch,
    Corners,
    Each,
    First,
    Last,
    NamedStitch,
    Next,
    PlaceName,
    Repeat,
    RowEnd,
    RowSides,
    Same,
    Step,
    TurningChain,
    Unplaced,
    Work,
    WorkedRow,
)
from workeven.proof.line import Lined, as_worked
from workeven.proof.made import is_slip_stitch
from workeven.records import replace

_ALONG = re.compile(
    r"\balong (?:the )?(?:(?:long|short|left|right|other|first|second) )?"
    r"(?:side(?: edge)?|row[- ]ends|ends of (?:the )?rows)\b(?! of)|"
    r"\bworking (?:in|down|up|along) (?:the )?side of (?:the )?rows\b",
    re.IGNORECASE,
)
_BOTH_ENDS = re.compile(
    r"\beach (?:turning ch(?:ain)?|tch|t-ch)(?: sp)? and (?:each )?end \w+|"
    r"\beach end \w+ and (?:each )?(?:turning ch(?:ain)?|tch|t-ch)\b",
    re.IGNORECASE,
)


def with_row_ends(lines: Iterable[Lined]) -> tuple[Lined, ...]:
    """The lines of a piece, row ends told by their stitches as row ends."""
    return tuple([_told(line, how) for line, how in as_worked(lines)])


def _told(line: Lined, how: str) -> Lined:
    body, text = line.row.body, line.row.text
    if not isinstance(body, WorkedRow) or how != "flat rows":
        return line
    along = _ALONG.search(text) is not None and _goes_only_into_stitches(body.steps)
    if not along and _BOTH_ENDS.search(text) is None:
        return line
    steps = tuple([_into_row_ends(step, "" if along else text) for step in body.steps])
    return replace(line, row=replace(line.row, body=replace(body, steps=steps)))


def _goes_only_into_stitches(steps: tuple[Step, ...]) -> bool:
    """Whether nothing is named but stitches: no row end, no corner, no space, no number alone."""
    for step in steps:
        match step:
            case Repeat(steps=inner):
                if not _goes_only_into_stitches(inner):
                    return False
            case Corners() | Work(target=RowSides() | Unplaced()):
                return False
            case Work(target=Next(names=names) | First(names=names) | Last(names=names)):
                if not all(map(_is_stitch, names)):
                    return False
            case Work(target=Each(names=names)):
                if not all(map(_is_stitch, names)):
                    return False
            case Work():
                if not (is_slip_stitch(step) or isinstance(step.target, Same)):
                    return False
            case _:
                continue
    return True


def _is_stitch(name: PlaceName) -> bool:
    return isinstance(name, AnyStitch | NamedStitch | TurningChain)


_END_STITCH = re.compile(r"\bend (?:st|stitch|sc|[hd]?dc|h?tr|dtr)\b", re.IGNORECASE)


def _into_row_ends(step: Step, text: str) -> Step:
    """A step along the row ends; where ``text`` is given only one that says so by its words."""
    match step:
        case Repeat(steps=inner):
            return replace(step, steps=tuple([_into_row_ends(one, text) for one in inner]))
        case Work(target=Next() | First() | Last() | Each() as target):
            said = any(isinstance(name, TurningChain) for name in target.names)
            said = said or _END_STITCH.search(text, step.start, step.end) is not None
            return (
                replace(step, target=replace(target, names=(RowEnd(),)))
                if said or not text
                else step
            )
        case _:
            return step
