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

from workeven.notation.tree import Chain, ChainsSaid, CountsAs, Step, WorkedRow
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
    for one in body.said:
        _keep(one, said)
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
    counts = said.get(key) or _of_all(said, key)
    if counts is None:
        return line
    told: Step = replace(chain, counts_as=counts)
    steps = (*body.steps[:at], told, *body.steps[at + 1 :])
    return replace(line, row=replace(line.row, body=replace(body, steps=steps)))


#: a chain of any length, and before any stitch
_ANY_LENGTH, _ANY_STITCH = (None,), "*"


def _keep(one: ChainsSaid, said: _Said) -> None:
    """``Ch 2 at beg of rnds never counts``: of chains so long, before that stitch or any."""
    length = _ANY_LENGTH if one.chains is None else one.chains.values
    stitches = [kind_of(name).base for _, name in one.counts_as.stitches if name != "st"]
    said[length, stitches[0] if stitches else _ANY_STITCH] = one.counts_as


def _of_all(said: _Said, key: tuple[tuple[int | None, ...], str]) -> CountsAs | None:
    """What was said of such chains before any stitch; of a longer one it says nothing."""
    length, stitch = key
    found = said.get((length, _ANY_STITCH))
    if found is not None or stitch not in HEIGHTS:
        return found
    high = max((one or 0 for one in length), default=0)
    if high > HEIGHTS[stitch]:
        return None
    return said.get((_ANY_LENGTH, stitch)) or said.get((_ANY_LENGTH, _ANY_STITCH))


def _begins(steps: tuple[Step, ...], at: int) -> tuple[tuple[int | None, ...], str] | None:
    """The length of the chain at the head, and the basic stitch behind it."""
    chain, name = steps[at], first_stitch(steps[at + 1 :])
    if not isinstance(chain, Chain) or name is None:
        return None
    base = kind_of(name).base
    return chain.count.values, base if base in HEIGHTS else _DECLARED
