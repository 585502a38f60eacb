"""Yarn that is cut: a row that follows one which is fastened off has to join some.

Takes     the counted lines of a piece.
Gives     ``cut_yarn``.
Problems  ``row-yarn-cut`` (advice).
From      notation.md, the table of steps ("fasten off", "join yarn in …").

Told only where nothing else can be meant: the row has the next number of the same section, works
stitches of the row before, and speaks neither of yarn nor of a colour nor of a side.
"""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator

from workeven.notation.tree import (
    Aside,
    Chain,
    FastenOff,
    JoinYarn,
    MagicRing,
    StatedHere,
    Step,
    Turn,
    Work,
    WorkedRow,
)
from workeven.problems import Problem
from workeven.proof.line import CountedLine
from workeven.proof.messages import row_name

#: words of a row that may bring its yarn, or tell that another part begins
_BRINGS = re.compile(
    r"\b(?:(?:re)?join|(?:re)?attach|yarn|colou?r|with|using|new|standing|change|insert|[RW]/?S\b|"
    r"right side|wrong side|tail|needle|second|other|start|begin|return|go back|pick up)|"
    r"(?-i:\b[A-Z]{1,2}\b)",
    re.IGNORECASE,
)


def cut_yarn(counted: Iterable[CountedLine], piece: str | None) -> Iterator[Problem]:
    """Advice for each row that goes on where the yarn was cut and none is joined."""
    cut: CountedLine | None = None
    for line in counted:
        body = line.lined.row.body
        if not isinstance(body, WorkedRow):
            cut = None
            continue
        if cut is not None and cut.lined.section == line.lined.section and _goes_on(line, body):
            yield _advice(line, piece)
        if any(isinstance(step, Work) for step in body.steps):
            cut = line if _ends_cut(body.steps) else None
        elif _ends_cut(body.steps) and cut is None:
            cut = line
        elif not _ends_cut(body.steps):
            cut = None


def _ends_cut(steps: tuple[Step, ...]) -> bool:
    """Whether a row is fastened off at its end."""
    for step in reversed(steps):
        if isinstance(step, FastenOff):
            return True
        if not isinstance(step, Aside | Turn | StatedHere):
            return False
    return False


def _goes_on(line: CountedLine, body: WorkedRow) -> bool:
    """Whether a row goes on with the number behind, and says nothing of yarn."""
    label = line.lined.row.label
    if label is None or label.word is None or label.first is None or label.section:
        return False
    if label.first.values and label.first.values[0] == 1:
        return False
    if body.change is not None or body.onto is not None or body.unworked_too:
        return False
    if any(isinstance(step, JoinYarn | MagicRing) for step in body.steps):
        return False
    works = next((step for step in body.steps if isinstance(step, Work | Chain)), None)
    said = line.lined.row.text[label.end :]
    return works is not None and _BRINGS.search(said) is None


def _advice(line: CountedLine, piece: str | None) -> Problem:
    row = line.lined.row
    at = next((at for at, one in enumerate(line.per_size) if one is not None), 0)
    return Problem(
        code="row-yarn-cut",
        span=row.span,
        piece=piece,
        row=row_name(line, at),
        found="the row before is fastened off, and this one joins no yarn.",
        mend="Write where the yarn is joined (“join yarn in first st”), or take the “fasten off” "
        "away.",
        excerpt=row.text.strip()[:200],
    )
