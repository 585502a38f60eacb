"""Chains and joins of rows that are told in all: "inc 1 st at each end every 7th row 10 times".

Takes     a ``ProvenPiece``.
Gives     ``unsaid``: what its lines of shaping and of rows worked even take beside their stitches.
Problems  none.
From      the rows before, which say how a row begins and how a round ends; where none does, the
          published table of turning chains.

Such a line names its stitches and not the chain that lifts the hook, unless it counts as a stitch,
nor the slip stitch that joins a round. Both are worked in every one of its rows. Worked example:
behind ``ch 1, sc in each st across, turn`` 70 rows of shaping have 70 chains more.
"""

from __future__ import annotations

from collections.abc import Mapping

from workeven import standards
from workeven.notation.tree import Chain, JoinRound, Row, ShapeRows, Work, WorkedRow, WorkEven
from workeven.notation.vocabulary import kind_of
from workeven.proof import ProvenPiece, ProvenRow
from workeven.proof.proven import Counted

#: for each line, by its anchor, what each size works besides
Unsaid = Mapping[str, tuple[Counted, ...]]
_TURNED = ("flat rows", "joined rounds, turned")
_JOINED = ("joined rounds", "joined rounds, turned")


def unsaid(piece: ProvenPiece) -> Unsaid:
    """The chains and joins of all lines that do not say them."""
    found: dict[str, tuple[Counted, ...]] = {}
    head: Chain | None = None
    for section in piece.sections:
        how = section.section.worked
        for row in section.rows:
            if isinstance(row.row.body, ShapeRows | WorkEven):
                found[row.anchor] = tuple(
                    _beside(row, at, head, how) for at in range(len(row.per_size.values))
                )
            elif (begins := _head(row.row)) is not None:
                head = begins
    return found


def _head(row: Row) -> Chain | None:
    """The chain that a row of stitches begins with."""
    body = row.body
    if not isinstance(body, WorkedRow) or not any(isinstance(one, Work) for one in body.steps):
        return None
    first = body.steps[0]
    return first if isinstance(first, Chain) else None


def _beside(row: ProvenRow, at: int, head: Chain | None, how: str) -> Counted:
    entry = row.per_size[at]
    if entry is None or not entry.times:
        return ()
    worked = dict(entry.worked)
    stitches = {kind_of(name).base: number for name, number in entry.worked}
    chains = 0
    if "ch" not in worked:
        chains = _written(head, at) if head is not None else 0
        if not chains and how in _TURNED:
            chains = _published(max(stitches, key=stitches.__getitem__, default=""))
    joins = 1 if how in _JOINED and "sl st" not in worked and not _says_join(row.row) else 0
    pairs = (("ch", chains * entry.times), ("sl st", joins * entry.times))
    return tuple((name, number) for name, number in pairs if number)


def _written(head: Chain, at: int) -> int:
    values = head.count.values
    return (values[at] if len(values) > 1 else values[0] if values else 0) or 0


def _published(stitch: str) -> int:
    """The turning chain of a stitch, by the published table; 0 where it has none."""
    return next((one.chains for one in standards.turning_chains() if one.stitch == stitch), 0)


def _says_join(row: Row) -> bool:
    body = row.body
    steps = body.steps if isinstance(body, ShapeRows | WorkEven) else ()
    return any(isinstance(one, JoinRound) for one in steps)
