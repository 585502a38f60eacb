"""What is said of a turning chain where it is joined or worked into: "to 3rd ch of ch-5".

Takes     the lines of a piece.
Gives     ``with_said_later``: the same lines, with the saying where the chain is made.
Problems  none.
From      notation.md, "Chains at the start", "Turning and beginning chains are places" ("the join
          `to 3rd ch of beg ch-5`, the later `dc in 3rd ch of tch` go to its stitch part").

A chain longer than its stitch counts where that is said. Who joins to the 3rd chain of a ch-5
before dc says it: up to there the chain is a dc, and what is above it is a space. In rounds the
round itself says so; in rows the next one does, or the row itself, where it is worked again.
"""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator

from workeven.notation.tree import (
    ONE,
    Amount,
    Aside,
    Chain,
    ChainOfTurning,
    CountsAs,
    FromHook,
    JoinRound,
    Last,
    Next,
    OneChain,
    Repeat,
    Skip,
    Space,
    StatedHere,
    Step,
    Stitch,
    Target,
    Travel,
    Turn,
    Work,
    WorkedRow,
)
from workeven.notation.vocabulary import HEIGHTS, kind_of
from workeven.proof.line import Lined
from workeven.proof.made import first_stitch, is_slip_stitch, lead_of
from workeven.records import replace

_LAST_IN = re.compile(
    r"\blast (?:[a-z]+ ){0,3}(?:in|on|into) (?:the )?(?P<nth>\d)(?:st|nd|rd|th|d) "
    r"(?:ch(?:ain)?|st) of (?:the )?(?:turning|beg|tch)",
    re.IGNORECASE,
)


def with_said_later(lines: Iterable[Lined]) -> tuple[Lined, ...]:
    """The lines of a piece, each long turning chain counting as what works into it says."""
    ready = tuple(lines)
    following, before = (*ready, None)[1:], (None, *ready)[:-1]
    return tuple(
        [
            _told(line, after, last)
            for line, after, last in zip(ready, following, before, strict=True)
        ]
    )


def _told(line: Lined, following: Lined | None, before: Lined | None) -> Lined:
    body = line.row.body
    if not isinstance(body, WorkedRow):
        return line
    if (opened := _with_loop(line, body, following)) is not None:
        return opened
    at = lead_of(body.steps)
    made = _made_before(before) if at is None else None
    if made is not None:
        body, at = replace(body, steps=(made, *body.steps)), 0
    if at is None:
        return line
    chain = body.steps[at]
    assert isinstance(chain, Chain)
    count = chain.count.values[0] if len(chain.count.values) == 1 else None
    if chain.counts_as is not None or count is None:
        return line
    said = _said(body.steps, following, count)
    base = _stitch_as_high(body.steps[at + 1 :], count, said) if said else None
    if base is None:
        return line
    above = count - HEIGHTS[base]
    counts = CountsAs(((ONE, base),), Amount((above,)), carried=True)
    told: Step = replace(chain, counts_as=counts)
    steps = (*body.steps[:at], told, *body.steps[at + 1 :])
    return replace(line, row=replace(line.row, body=replace(body, steps=steps)))


#: words for the loop of the chain that a row begins with, in the next row
_LOOP_OF_TURNING = re.compile(
    r"\b(?:t-?ch|turning(?:[ -]ch(?:ain)?)?)(?:[ -]?\d+)?[ -](?:sp(?:ace)?|lp|loop)\b|"
    r"\b(?:sp(?:ace)?|lp|loop) of (?:the )?(?:t-?ch|turning[ -]ch(?:ain)?)\b",
    re.IGNORECASE,
)
#: with fewer chains skipped than that nothing stands off as a loop
_FEWEST_SKIPPED = 3


def _with_loop(line: Lined, body: WorkedRow, following: Lined | None) -> Lined | None:
    """A row whose first chains the next row works into as a space: "sc in tch sp".

    ``Ch 2, sc in next ch-1 sp, …`` and ``sc in 4th ch from hook, …``: nothing is said there of
    them, and they are no stitch before a sc (common practice). A row that is worked again tells it
    of itself.
    """
    if line.worked != "flat rows":
        return None
    if (meshed := _with_first_square(line, body)) is not None:
        return meshed
    after = None if following is None else following.row.body
    again = following is None or not isinstance(after, WorkedRow)
    teller = line if following is None or again else following
    told = _LOOP_OF_TURNING.search(teller.row.text) is not None
    into_steps = after.steps if isinstance(after, WorkedRow) else body.steps
    into = {space.chains for space in _spaces(_worked(into_steps))}
    at = next((at for at, one in enumerate(body.steps) if isinstance(one, Work)), None)
    lead = lead_of(body.steps)
    first = None if at is None else body.steps[at]
    if isinstance(first, Work) and isinstance(first.target, FromHook):
        lead, skipped = at, first.target.nth.values[0] or 0
        # the first of those skipped is the foot of the stitch, unless all are said to be the space
        count: int | None = skipped - (1 if skipped - 1 in into else 2)
        said = first.target.skipped is not None or skipped <= _FEWEST_SKIPPED
    elif lead is not None and isinstance(chain := body.steps[lead], Chain):
        count = chain.count.values[0] if len(chain.count.values) == 1 else None
        said = chain.counts_as is not None
    else:
        return None
    name = first_stitch(body.steps[lead or 0 :])
    base = "" if name is None else kind_of(name).base
    # before a sc the chain is the space alone, before a higher stitch the rest of it
    stands = base if HEIGHTS.get(base, 0) >= HEIGHTS["hdc"] else None
    if said or count is None or base not in HEIGHTS or lead is None:
        return None
    long = count - HEIGHTS.get(stands or "", 0)
    if long < (1 if stands else HEIGHTS["hdc"]):
        return None
    if not told and (long not in into or long in _chains_of(body.steps[lead + 1 :]) or stands):
        return None
    counts = CountsAs(((ONE, stands),) if stands else (), Amount((long,)), carried=True)
    step = body.steps[lead]
    if isinstance(step, Work) and isinstance(step.target, FromHook):
        other: Step = replace(step, target=replace(step.target, skipped=counts))
    else:
        assert isinstance(step, Chain)
        other = replace(step, counts_as=counts)
    steps = (*body.steps[:lead], other, *body.steps[lead + 1 :])
    return replace(line, row=replace(line.row, body=replace(body, steps=steps)))


def _with_first_square(line: Lined, body: WorkedRow) -> Lined | None:
    """``dc in 8th ch from hook, *ch 2, sk 2 ch, dc in next ch; …``: the first square of a mesh.

    What is skipped is a dc, as many chains as lie over each square, and as many as lie under it:
    3, 2 and 2 (common practice).
    """
    works = [step for step in body.steps if isinstance(step, Work | Repeat)]
    match works[:2]:
        case (
            Work(content=(Stitch(name=name),), target=FromHook(nth=nth, skipped=None)) as first,
            Repeat(
                steps=(
                    Chain(count=over),
                    Skip(target=Next(names=(OneChain(),), count=under)),
                    Work(content=(Stitch(name=again),), target=Next(names=(OneChain(),))),
                )
            ),
        ) if name == again and HEIGHTS.get(name, 0) >= HEIGHTS["dc"]:
            parts = (nth.values, over.values, under.values)
            if any(len(values) != 1 or not values[0] for values in parts):
                return None
            if (nth.values[0] or 0) - 1 != HEIGHTS[name] + sum(v[0] or 0 for v in parts[1:]):
                return None
            counts = CountsAs(((ONE, name),), over, carried=True)
            assert isinstance(first.target, FromHook)
            told: Step = replace(first, target=replace(first.target, skipped=counts))
            steps = tuple([told if step is first else step for step in body.steps])
            return replace(line, row=replace(line.row, body=replace(body, steps=steps)))
        case _:
            return None


def _spaces(targets: Iterable[Target]) -> Iterator[Space]:
    """The spaces of so many chains that a row works into one by one."""
    for target in targets:
        match target:
            case Next(names=(Space() as space,)) | Last(names=(Space() as space,)):
                yield space
            case _:
                continue


def _chains_of(steps: Iterable[Step]) -> Iterator[int | None]:
    """Of how many chains the spaces are that steps make."""
    for step in steps:
        match step:
            case Repeat(steps=inner):
                yield from _chains_of((*inner, *getattr(step.ending, "steps", ())))
            case Work(content=content):
                yield from (one.count.values[0] for one in content if isinstance(one, Chain))
            case Chain(count=count):
                yield count.values[0]
            case _:
                continue


def _made_before(line: Lined | None) -> Chain | None:
    """The turning chain that the row before ends with ("Ch 5, turn")."""
    body = line.row.body if line is not None else None
    if line is None or line.worked != "flat rows" or not isinstance(body, WorkedRow):
        return None
    steps = [step for step in body.steps if not isinstance(step, Aside | StatedHere)]
    if len(steps) < len((Chain, Turn)) or not isinstance(steps[-1], Turn):
        return None
    chain = steps[-2]
    return chain if isinstance(chain, Chain) and chain.counts_as is None else None


def _stitch_as_high(steps: tuple[Step, ...], count: int, said: set[int | None]) -> str | None:
    """The stitch for which the chain stands up to there: the first, else another of the row."""
    first = first_stitch(steps)
    high = [None if first is None else kind_of(first).base, *_bases(steps)]
    for base in high:
        height = HEIGHTS.get(base or "", 0)
        if 0 < height < count and height in said and (base == high[0] or height >= HEIGHTS["dc"]):
            return base
    return None


def _bases(steps: tuple[Step, ...]) -> Iterator[str]:
    """The basic stitches that a row works."""
    for step in steps:
        if isinstance(step, Repeat):
            yield from _bases(step.steps)
        elif isinstance(step, Work):
            yield from (kind_of(one.name).base for one in step.content if isinstance(one, Stitch))


def _said(steps: tuple[Step, ...], following: Lined | None, count: int) -> set[int | None]:
    """The chains of a beginning chain of ``count`` that are worked into, by their place in it."""
    own = set(_places(_closing(steps), count))
    if own:
        return own
    after = following.row.body if following is not None else None
    into = after.steps if isinstance(after, WorkedRow) else steps
    told = set() if following is None else set(_told_of(following.row.text))
    return told | set(_places(_worked(into), count))


def _told_of(text: str) -> Iterator[int]:
    """What is told of the last stitch: "making last sc in 3rd ch of turning ch"."""
    if "last" in text:
        yield from (int(found["nth"]) for found in _LAST_IN.finditer(text))


def _places(targets: Iterable[Target], count: int) -> Iterator[int | None]:
    for target in targets:
        match target:
            case ChainOfTurning(nth=Amount() as nth, chain=chain) if chain.chains in (None, count):
                yield nth.values[0]
            case _:
                continue


def _closing(steps: tuple[Step, ...]) -> Iterator[Target]:
    """Where a round is joined to."""
    for step in steps:
        if isinstance(step, JoinRound | Travel) or is_slip_stitch(step):
            target = getattr(step, "target", None)
            if target is not None:
                yield target
        elif isinstance(step, Repeat):
            yield from _closing(getattr(step.ending, "steps", ()))


def _worked(steps: tuple[Step, ...]) -> Iterator[Target]:
    """Where stitches of a row go to, those of repeats and of their ends too."""
    for step in steps:
        if isinstance(step, Repeat):
            yield from _worked(step.steps)
            yield from _worked(getattr(step.ending, "steps", ()))
        elif isinstance(step, Work) and not is_slip_stitch(step):
            yield step.target
