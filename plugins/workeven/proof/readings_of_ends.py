"""Second readings of where a row ends: its last repeat, its last stitches, a row that stops early.

Takes     the steps of a row that does not come out by the default reading.
Gives     ``last_repeats``, ``skip_unsaid``, ``ends_early``, ``ends_in_turning_chain``,
          ``last_loop``, ``stops_early``, ``gives_up_as_many``, ``last_left``,
          ``before_the_turning_chain``, ``joined_place``.
Problems  none: whoever walks the rows gives the advice ``row-reading``.
From      notation.md, "Two readings", "How repeats end".
"""

from __future__ import annotations

from collections.abc import Iterator

from workeven.notation.tree import (
    Amount,
    AnyStitch,
    Aside,
    Chain,
    ChainOfTurning,
    CountsAs,
    Each,
    EndingWith,
    FastenOff,
    First,
    JoinRound,
    JoinYarn,
    Last,
    LeaveRest,
    Next,
    Omitting,
    Open,
    Repeat,
    Same,
    Skip,
    StatedHere,
    Step,
    Stitch,
    ToLast,
    Travel,
    Turn,
    Unplaced,
    Work,
)
from workeven.notation.vocabulary import HEIGHTS, kind_of
from workeven.proof.cut_short import plain
from workeven.proof.made import Made, first_stitch, is_slip_stitch, lead_of, made
from workeven.proof.reading import Reading
from workeven.records import replace

# --- how repeats end -----------------------------------------------------------------------


def last_repeats(steps: tuple[Step, ...]) -> Iterator[Reading]:
    """In rounds the last repeat may end short, where the start has done what is left out."""
    at = _closing_repeat(steps)
    if at is None:
        return
    repeat = steps[at]
    assert isinstance(repeat, Repeat)
    for words, ending in _endings(repeat.steps, steps[:at]):
        yield Reading(
            default="every repeat whole",
            taken=f"the last repeat {words}",
            steps=(*steps[:at], replace(repeat, ending=ending), *steps[at + 1 :]),
        )


def skip_unsaid(steps: tuple[Step, ...]) -> Iterator[Reading]:
    """``ch 6 (counts as dc and ch 3), *sk 1, dc in next, ch 3; rep from * 6 more times, join``.

    The chain is the last dc and space that the repeat would make: only the skip before it is left.
    """
    at = len(steps) - 1
    while at > 0 and _only_closes(steps[at]):
        at -= 1
    repeat = steps[at] if steps else None
    if (
        not isinstance(repeat, Repeat)
        or isinstance(repeat.times, Open)
        or repeat.ending is not None
    ):
        return
    body = repeat.steps
    skips = next((at for at, step in enumerate(body) if not isinstance(step, Skip)), 0)
    done = _in_order(steps[:at])
    if skips and done and done == _in_order(body[skips:]):
        yield Reading(
            default="the round ends behind the last repeat",
            taken="before the chain that it begins with, as many are passed as in each repeat",
            steps=(*steps[: at + 1], *body[:skips], *steps[at + 1 :]),
        )


def ends_early(steps: tuple[Step, ...]) -> Iterator[Reading]:
    """``ending last rep with puff in last st``: where the repeat has a puff, it ends there.

    ``ending with sc in last st`` may also be what the last repeat ends with.
    """
    for at, step in enumerate(steps):
        ending = step.ending if isinstance(step, Repeat) else None
        if not (isinstance(step, Repeat) and isinstance(ending, EndingWith)):
            continue
        if not ending.last and len(step.steps) > 1:
            within = replace(step, ending=EndingWith(ending.steps, last=True))
            yield Reading(
                default="what it ends with follows the last whole repeat",
                taken="what it ends with takes the place of the last repeat's last step",
                steps=(*steps[:at], within, *steps[at + 1 :]),
            )
        for number in _comes_to(step, ending):
            added = (*step.steps[:number], ending.steps[0])
            other = replace(step, ending=EndingWith(added, last=False))
            yield Reading(
                default="the last step of the last repeat is another one"
                if ending.last
                else "what it ends with follows the last whole repeat",
                taken="the last repeat ends where it comes to that step",
                steps=(*steps[:at], other, *steps[at + 1 :]),
            )


def _comes_to(step: Repeat, ending: EndingWith) -> tuple[int, ...]:
    """Where a repeat works what it ends with in the last place, later first."""
    end = ending.steps[0]
    if len(ending.steps) > 1 or not isinstance(end, Work) or not isinstance(end.target, Last):
        return ()
    content = plain(end.content)
    same = [
        number
        for number, one in enumerate(step.steps[:-1])
        if isinstance(one, Work) and (plain(one.content) == content or _alike(one, end))
    ]
    return tuple(reversed(same)) if len(same) == 1 or not ending.last else ()


def _alike(one: Work, end: Work) -> bool:
    """``5 dc in next st`` and ``3 dc in last st``: a shell and the half of one."""
    match one.content, end.content:
        case (Stitch(name=name, count=whole),), (Stitch(name=other, count=half),):
            several = min((*whole.values, *half.values), key=lambda many: many or 0)
            return name == other and whole != half and (several or 0) > 1
        case _:
            return False


def ends_in_turning_chain(steps: tuple[Step, ...]) -> Iterator[Reading]:
    """``*dc in sp, dc in next dc; rep from * across, dc in 3rd ch of tch``: that is the last dc."""
    for at, step in enumerate(steps[:-1]):
        behind = steps[at + 1]
        if not (isinstance(step, Repeat) and isinstance(step.times, Open) and step.ending is None):
            continue
        last = step.steps[-1]
        named = isinstance(behind, Work) and isinstance(behind.target, ChainOfTurning)
        if not named or not isinstance(last, Work) or len(step.steps) == 1:
            continue
        assert isinstance(behind, Work)
        if plain(last.content) == plain(behind.content):
            yield Reading(
                default="the turning chain is worked into behind whole repeats",
                taken="the last step of the last repeat goes into the turning chain",
                steps=(*steps[:at], replace(step, ending=Omitting((last,))), *steps[at + 1 :]),
            )


def last_loop(steps: tuple[Step, ...]) -> Iterator[Reading]:
    """``…, sk 3 sts, sc in next st; rep from *, ch 2, dc in first sc``: what the last loop passes.

    That it passes as many as the others is left unsaid.
    """
    at = max((at for at, step in enumerate(steps) if isinstance(step, Repeat)), default=None)
    if at is None or len(steps) < at + 2:
        return
    repeat, chain, close = steps[at], steps[at + 1], steps[at + 2 :]
    assert isinstance(repeat, Repeat)
    skips = tuple(step for step in repeat.steps if isinstance(step, Skip))
    end = close[0] if close else None
    closes = isinstance(end, JoinRound) or (
        isinstance(end, Work | Travel) and isinstance(end.target, First)
    )
    if len(skips) == 1 and isinstance(chain, Chain) and closes:
        yield Reading(
            default="nothing is passed under the last loop",
            taken="as many sts are passed under the last loop as under the others",
            steps=(*steps[: at + 1], *skips, *steps[at + 1 :]),
        )


def _closing_repeat(steps: tuple[Step, ...]) -> int | None:
    """The open repeat behind which the round is only joined."""
    for at in range(len(steps) - 1, -1, -1):
        step = steps[at]
        if isinstance(step, Repeat):
            whole = isinstance(step.times, Open) and step.times.limit is None
            return at if whole and step.ending is None else None
        if not _only_closes(step):
            return None
    return None


def _only_closes(step: Step) -> bool:
    """What may stand behind the last repeat of a round: "sl st in 3rd of ch 6", "turn"."""
    if isinstance(step, Work):
        return is_slip_stitch(step) and isinstance(step.target, First | ChainOfTurning)
    return isinstance(step, JoinRound | Turn | FastenOff | Aside | StatedHere)


def _endings(
    body: tuple[Step, ...], head: tuple[Step, ...]
) -> Iterator[tuple[str, Omitting | EndingWith]]:
    """What the last repeat can leave out: what the round's start has done."""
    last = body[-1]
    if isinstance(last, Chain):
        yield from _up_to_skip(body, head)
    if not isinstance(last, Work) or len(body) == 1:
        return
    done, due = made(head), made((last,))
    if not done or due is None:
        return
    if done == due:
        yield "without its last step", Omitting((last,))
    elif len(done) == len(due) == 1 and done[0][0] == due[0][0] and done[0][1] < due[0][1]:
        shorter = _fewer(last, done[0][1])
        if shorter is not None:
            yield f"with {done[0][1]} fewer at its end", EndingWith((shorter,), last=True)


def _up_to_skip(body: tuple[Step, ...], head: tuple[Step, ...]) -> Iterator[tuple[str, Omitting]]:
    """``ch 5 (counts as dc and ch 2), *sk 2, dc in next st, ch 2; rep from *``: only the skip."""
    skips = next((at for at, step in enumerate(body) if not isinstance(step, Skip)), 0)
    rest = body[skips:]
    if skips and _in_order(head) == _in_order(rest) is not None:
        yield "without the stitches and spaces that the round begins with", Omitting(rest)


def _in_order(steps: tuple[Step, ...]) -> Made | None:
    """What steps make, chains between them as spaces; None where that is not plain."""
    lead = lead_of(steps)
    found: list[tuple[str, int]] = []
    for at, step in enumerate(steps):
        if isinstance(step, Chain):
            more = _begun(step, steps[at + 1 :]) if at == lead else _spaced(step.count)
        else:
            more = made((step,))
        if more is None:
            return None
        found.extend(more)
    return _added_up(found)


def _begun(chain: Chain, rest: tuple[Step, ...]) -> Made | None:
    """What the chain at the head of a round stands for."""
    said = chain.counts_as
    if said is not None:
        stitches, spaces = made((chain,)), () if said.chains is None else _spaced(said.chains)
        return None if stitches is None or spaces is None else (*stitches, *spaces)
    name = first_stitch(rest)
    base = "" if name is None else kind_of(name).base
    height = HEIGHTS.get(base, 0)
    return ((base, 1),) if chain.count.values == (height,) and height >= HEIGHTS["dc"] else ()


def _spaced(count: Amount) -> Made | None:
    return (("ch", count.values[0] or 0),) if len(count.values) == 1 else None


def _added_up(parts: list[tuple[str, int]]) -> Made:
    found: list[tuple[str, int]] = []
    for name, count in parts:
        if found and found[-1][0] == name and name != "ch":
            found[-1] = (name, found[-1][1] + count)
        else:
            found.append((name, count))
    return tuple(found)


def _fewer(step: Work, less: int) -> Work | None:
    target = step.target
    if isinstance(target, Next | Unplaced) and len(target.count.values) == 1:
        count = target.count.values[0]
        if count is not None and count > less:
            return replace(step, target=replace(target, count=Amount((count - less,))))
    return None


# --- flat rows that stop early, joinings ---------------------------------------------------


def stops_early(steps: tuple[Step, ...]) -> Iterator[Reading]:
    """A flat row that stops and turns without saying so.

    Its stated count confirms it, or a later row that takes up what it leaves.
    """
    if any(isinstance(step, LeaveRest) for step in steps):
        return
    end = len(steps)
    while end and _at_the_end(steps, end - 1):
        end -= 1
    if end and not _says_across(steps[end - 1]):
        last = steps[end - 1]
        rest = LeaveRest(None, last.end, last.end)
        yield Reading(
            default="worked to the end of the row",
            taken="leaving the remaining sts unworked",
            steps=(*steps[:end], rest, *steps[end:]),
            everywhere=True,
        )


def gives_up_as_many(steps: tuple[Step, ...]) -> bool:
    """``sl st in first 3 sts, ch 3, dc in each st to last 3 sts, turn``: both armholes alike."""
    slipped = 0
    end = len(steps)
    while end and _at_the_end(steps, end - 1):
        end -= 1
    for step in steps[: end - 1]:
        if not isinstance(step, Chain | Aside | Turn):
            count = _slipped(step)
            if not count:
                return False
            slipped += count
    last = steps[end - 1] if end else None
    if not isinstance(last, Work) or not isinstance(last.target, Each):
        return False
    bound = last.target.limit
    chain = steps[end - 2] if end > 1 else None
    over = isinstance(chain, Chain) and chain.count.values != (1,)  # it may stand over the last
    alike = {(slipped,), (slipped - over,)}
    return isinstance(bound, ToLast) and slipped > 0 and bound.count.values in alike


def _slipped(step: Step) -> int:
    """How many stitches a slip stitch at the head of a row gives up; 0 where it is none."""
    if not (is_slip_stitch(step) and isinstance(step, Work)):
        return 0
    target = step.target
    if not isinstance(target, Next | First | Unplaced) or len(target.count.values) != 1:
        return 0
    return target.count.values[0] or 0


def _says_across(step: Step) -> bool:
    """Whether a repeat says that it goes on to the end: such a row does not stop early."""
    return isinstance(step, Repeat) and isinstance(step.times, Open) and step.times.limit is None


def _at_the_end(steps: tuple[Step, ...], at: int) -> bool:
    """Whether a step ends the row: a turn, and the turning chain of the next row beside it."""
    step = steps[at]
    if isinstance(step, Chain):
        beside = steps[max(at - 1, 0) : at + 2]
        return any(isinstance(other, Turn) for other in beside)
    return isinstance(step, Turn | FastenOff | Aside | StatedHere)


def _goes_on(steps: tuple[Step, ...]) -> bool:
    """Whether "next" is what is worked first: a counted chain stands where the yarn is joined."""
    for step in steps:
        if isinstance(step, Work):
            return isinstance(step.target, Next)
        counted = isinstance(step, Chain) and step.counts_as != CountsAs(())
        low = isinstance(step, Chain) and step.count.values == (1,)
        if (counted and not low) or not isinstance(step, Chain | Aside):
            return False
    return False


def last_left(steps: tuple[Step, ...]) -> Iterator[Reading]:
    """``sc in each st across, 2 sc in last st``: each but the last, to which another step goes."""
    for at, step in enumerate(steps[:-1]):
        behind = steps[at + 1]
        if not (isinstance(step, Work) and isinstance(step.target, Each)):
            continue
        if step.target.limit is not None or not isinstance(behind, Work):
            continue
        last = behind.target
        legs = max((one.legs for one in behind.content if isinstance(one, Stitch)), default=1)
        if legs > 1 and isinstance(last, Unplaced) and last.count.values == (1,):
            last = Last((AnyStitch(),), Amount((legs,)))  # "across, ending with sc2tog"
        if isinstance(last, Last):
            limit = ToLast(last.count, last.names)
            other = replace(step, target=replace(step.target, limit=limit))
            yield Reading(
                default="each one to the end",
                taken="each one but the last, which the next step names",
                steps=(*steps[:at], other, *steps[at + 1 :]),
            )
            return


def before_the_turning_chain(steps: tuple[Step, ...]) -> Iterator[Reading]:
    """``to last 2 dc, dc2tog, dc in tch``: the last two before the chain that is named behind."""
    named = [
        at
        for at, step in enumerate(steps)
        if isinstance(step, Work) and isinstance(step.target, ChainOfTurning)
    ]
    last_named = named[-1] if named else 0
    for at, step in enumerate(steps[:-1]):
        limit = (
            step.target.limit if isinstance(step, Work) and isinstance(step.target, Each) else None
        )
        if not isinstance(limit, ToLast) or limit.before or at >= last_named:
            continue
        assert isinstance(step, Work)
        assert isinstance(step.target, Each)
        target = replace(step.target, limit=replace(limit, before=True))
        yield Reading(
            default="the last ones, the turning chain among them",
            taken="the last ones before the turning chain",
            steps=(*steps[:at], replace(step, target=target), *steps[at + 1 :]),
        )
        return


def joined_place(steps: tuple[Step, ...]) -> Iterator[Reading]:
    """Whether "next st" after new yarn was joined is the place of the joining or the one behind."""
    for at, step in enumerate(steps):
        if isinstance(step, JoinYarn) and step.stitch is None and _goes_on(steps[at + 1 :]):
            behind = Skip(Same(), step.end, step.end)
            yield Reading(
                default="“next” where the yarn is joined",
                taken="“next” behind the place where the yarn is joined",
                steps=(*steps[: at + 1], behind, *steps[at + 1 :]),
            )
            return
