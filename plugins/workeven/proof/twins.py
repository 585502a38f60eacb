"""What a round over two parts worked alike goes into: both of them, and the chain between.

Takes     where a size stands at the end of the second part, and the chain that joins them.
Gives     ``joined_twins``, ``each_of_a_part``, ``check_none_passed``.
Problems  ``row-not-understood``, ``row-uneven``.
From      notation.md, "Below and before" ("a round over both parts").

Worked example: behind a leg of 15 sts that is made twice, ``ch 3`` gives a round of 36 places: 15,
the 3 chains, 15, and the chains from their other side.
"""

from __future__ import annotations

import re
from collections.abc import Mapping

from workeven.notation.tree import (
    Amount,
    Each,
    First,
    Last,
    Next,
    OneChain,
    Skip,
    SpecialStitch,
    Step,
    Twins,
    Unplaced,
    Work,
)
from workeven.proof.context import Fault, SizeContext
from workeven.proof.fabric import CHAIN, Fabric, Run
from workeven.proof.hook import Hook
from workeven.proof.ledger import Ledger
from workeven.proof.line import Line, line_of
from workeven.proof.naming import are, many
from workeven.proof.standing import Standing
from workeven.proof.walk import walk_row
from workeven.records import replace

#: what says that a part was worked twice
_TWICE = re.compile(
    r"\b(?:make|work) (?:2|two|both)\b|\bboth legs|"
    r"\b(?:second|2nd|other|another) (?:leg|arm|foot|ear)",
    re.IGNORECASE,
)


def joined_twins(standing: Standing, twins: Twins) -> Fabric:
    """The places of both parts and of the chain between them; raises ``Fault`` without them."""
    part = standing.fabric
    if part is None or not part.nodes or not part.closed or part.foundation:
        raise _no_two(twins, "no round has been worked before it that could be joined to another")
    told = [line.row.text for rows in standing.stretches() for line in rows.lines]
    if not any(_TWICE.search(words) for words in (*told, *standing.said, *standing.by_name)):
        raise _no_two(twins, "nothing says that the part before it is worked twice")
    chains = 0 if twins.chains is None else standing.context.amount(twins.chains) or 0
    between = (Run(CHAIN, chains),) if chains else ()
    return part._replace(nodes=(*part.nodes, *between, *part.nodes, *between), turning_chain=None)


def each_of_a_part(
    own: Line, standing: Standing, twins: Twins, special: Mapping[str, SpecialStitch]
) -> Line:
    """``sc in each st around first leg``: those of one part, and the chains of one side."""
    part = standing.fabric
    chains = 0 if twins.chains is None else standing.context.amount(twins.chains) or 0
    steps = tuple(
        _counted(step, 0 if part is None else part.sts, chains) for step in own.facts.written
    )
    return own if steps == own.facts.written else line_of(own.row, steps, special)


def _counted(step: Step, sts: int, chains: int) -> Step:
    target = step.target if isinstance(step, Work) else None
    if not isinstance(step, Work) or not isinstance(target, Each) or target.limit is not None:
        return step
    number = chains if isinstance(target.names[0], OneChain) else sts
    return replace(step, target=Next(target.names, Amount((number,)), each=True))


def check_none_passed(own: Line, fabric: Fabric, context: SizeContext, how: str) -> Fault | None:
    """No stitch of either part may be passed over on the way to the chain, but what is skipped."""
    hook = Hook(own.facts, fabric, context, worked=how, ledger=Ledger())
    try:
        walk_row(hook)
    except Fault:
        return None  # told by the row itself
    ledger = hook.cursor.ledger
    passed = 0 if ledger is None else sum(ledger.over.values()) - _skipped(own, context)
    if passed <= 0:
        return None
    written = own.facts.written
    return Fault(
        "row-uneven",
        written[0].start,
        written[-1].end,
        f"{many(passed, 'place')} of the two parts and the chain {are(passed)} passed over",
        mend="Work into each of them, or say which are skipped: “sk next st”.",
        left_over=passed,
    )


def _skipped(own: Line, context: SizeContext) -> int:
    """How many places the row says to skip; in a repeat it is not looked for."""
    targets = (step.target for step in own.facts.written if isinstance(step, Skip))
    return sum(
        context.amount(target.count) or 0
        for target in targets
        if isinstance(target, Next | First | Last | Unplaced)
    )


def _no_two(twins: Twins, found: str) -> Fault:
    return Fault(
        "row-not-understood",
        twins.start,
        twins.end,
        found,
        mend="Work both parts alike and say so: “Leg (make 2)”.",
    )
