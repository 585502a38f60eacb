"""What is said once of a turning chain and holds throughout: "ch 2 (counts as dc throughout)".

Takes     the lines of a piece.
Gives     ``with_throughout``: the same lines, with the saying in every row that begins alike.
Problems  none.
From      notation.md, "Chains at the start" ("Defaults, which a file may set once").

It holds from its row on for chains of that length before that stitch, until another row says
otherwise. What is said of a chain longer than its stitch ("ch 5 (counts as dc and ch 2)") is tried
first in the rows behind too, since no table tells how such a chain counts.
"""

from __future__ import annotations

from collections.abc import Iterable

from workeven.notation.tree import Chain, CountsAs, Step, WorkedRow
from workeven.notation.vocabulary import HEIGHTS, kind_of
from workeven.proof.facts import first_stitch
from workeven.proof.line import Lined
from workeven.proof.made import lead_of
from workeven.records import replace

#: by length of the chain and the basic stitch behind it, what the chain counts as
_Said = dict[tuple[tuple[int | None, ...], str], CountsAs]


#: stitches of the pattern's own are alike here: a front post stitch and a back one begin alike
_DECLARED = ""


def with_throughout(lines: Iterable[Lined]) -> tuple[Lined, ...]:
    """The lines of a piece, each turning chain counting as an earlier row has said for all."""
    said: _Said = {}
    return tuple([_told(line, said) for line in lines])


def _told(line: Lined, said: _Said) -> Lined:
    body = line.row.body
    if not isinstance(body, WorkedRow):
        return line
    at = lead_of(body.steps)
    if at is None:
        return line
    chain, key = body.steps[at], _begins(body.steps, at)
    assert isinstance(chain, Chain)
    if key is None:
        return line
    if chain.counts_as is not None:
        if chain.counts_as.throughout:
            said[key] = chain.counts_as
        elif chain.counts_as.stitches and chain.counts_as.chains is not None:
            said[key] = replace(chain.counts_as, carried=True)
        return line
    counts = said.get(key)
    if counts is None:
        return line
    told: Step = replace(chain, counts_as=counts)
    steps = (*body.steps[:at], told, *body.steps[at + 1 :])
    return replace(line, row=replace(line.row, body=replace(body, steps=steps)))


def _begins(steps: tuple[Step, ...], at: int) -> tuple[tuple[int | None, ...], str] | None:
    """The length of the chain at the head, and the basic stitch behind it."""
    chain, name = steps[at], first_stitch(steps[at + 1 :])
    if not isinstance(chain, Chain) or name is None:
        return None
    base = kind_of(name).base
    return chain.count.values, base if base in HEIGHTS else _DECLARED
