"""Second readings: the other ways in which the words of a row can be meant.

Takes     the steps of a row that does not come out by the default reading.
Gives     ``lead_of``, ``readings``: for each other way its words and its steps.
Problems  none: whoever walks the rows gives the advice ``row-reading``.
From      notation.md, "Two readings", "Chains at the start", "How repeats end".

A reading is the same row with what was left unsaid put in, so that the walker needs to know
nothing of readings. What is said in the row or in the file has no other reading.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from itertools import pairwise

from workeven.notation.listed import listed_in_next
from workeven.notation.space_of_chain import space_of_chain
from workeven.notation.tree import (
    Amount,
    AnyStitch,
    Aside,
    Chain,
    ChainOfTurning,
    Content,
    CountsAs,
    Each,
    EachChainCounts,
    EndingWith,
    FastenOff,
    First,
    FromHook,
    Inside,
    JoinRound,
    JoinYarn,
    Last,
    LeaveRest,
    Next,
    Omitting,
    OneChain,
    Open,
    Repeat,
    Same,
    Skip,
    Space,
    SpecialStitch,
    StatedHere,
    Step,
    Stitch,
    Times,
    ToLast,
    Travel,
    Turn,
    Unplaced,
    Work,
)
from workeven.notation.vocabulary import HEIGHTS, kind_of
from workeven.proof.each_side import as_sides
from workeven.proof.made import Made, first_of, first_stitch, is_slip_stitch, made
from workeven.proof.mesh import mesh_chains
from workeven.proof.times_of_all import times_of_all
from workeven.records import record, replace


@record
class Reading:
    """One other way to read a row: the words of the default, its own words, its steps.

    ``everywhere``: it is a way to read the row only if the default fails in every size. A row
    that stops early in one size of nine is the mistake that is looked for, and no reading.
    """

    default: str
    taken: str
    steps: tuple[Step, ...]
    everywhere: bool = False


def readings(
    steps: tuple[Step, ...],
    *,
    worked: str,
    stated: bool,
    turning_chain: Chain | None,
    turning_chains: Mapping[str, bool],
    special: Mapping[str, SpecialStitch],
) -> tuple[Reading, ...]:
    """The other readings of a row, in the order in which they are tried.

    ``stated`` says whether the row states a count, which alone can confirm that a flat row stops
    early. ``turning_chain`` is one that the row before has made for this one.
    """
    found: list[Reading] = []
    found.extend(_turning_chains(steps, turning_chain, turning_chains, special))
    found.extend(_skipped_chains(steps, turning_chains))
    if worked != "flat rows":
        found.extend(_last_repeats(steps))
        found.extend(_skip_unsaid(steps))
        found.extend(_last_loop(steps))
        found.extend(_along_each_side(steps))
    elif (stated and not _counted_apart(steps)) or _gives_up_as_many(steps):
        found.extend(stops_early(steps))
    found.extend(_ends_early(steps))
    found.extend(_ends_in_turning_chain(steps))
    if stated:
        found.extend(_chains_counted(steps))
    found.extend(_chains_among_the_last(steps, stated=stated))
    found.extend(_listed(steps))
    found.extend(_joined_place(steps))
    found.extend(_last_left(steps))
    found.extend(_before_the_turning_chain(steps))
    found.extend(_chain_of_space(steps))
    if (leaving := space_of_chain(steps)) is not None:
        behind, its = "the space is one more behind the others", "the last space is the chain's"
        found.append(Reading(default=behind, taken=its, steps=leaving))
    if (all_steps := times_of_all(steps)) is not None:
        only, whole = "so often the last step alone", "so often all the steps"
        found.append(Reading(default=only, taken=whole, steps=all_steps))
    return tuple(found)


# --- turning chains ------------------------------------------------------------------------


def _turning_chains(
    steps: tuple[Step, ...],
    turning_chain: Chain | None,
    said: Mapping[str, bool],
    special: Mapping[str, SpecialStitch],
) -> Iterator[Reading]:
    at = lead_of(steps)
    chain = turning_chain if at is None else steps[at]
    if not isinstance(chain, Chain):
        return
    count = chain.count.values[0] if len(chain.count.values) == 1 else None
    if chain.counts_as is not None and chain.counts_as.by_count and at is not None:
        yield Reading(
            default=f"ch {count} (does not count)",
            taken=f"ch {count} a stitch, which the stated count leaves out",
            steps=(*steps[:at], replace(chain, counts_as=None), *steps[at + 1 :]),
        )
        return
    if chain.counts_as is not None:
        if chain.counts_as.carried and at is not None and not _joins_to_the_chain(steps):
            other = replace(chain, counts_as=CountsAs(()))
            changed = (*steps[:at], other, *steps[at + 1 :])
            yield Reading(
                default=f"ch {count} as an earlier row counts it",
                taken=f"ch {count} (does not count)",
                steps=changed,
            )
        return
    base = _base_ahead(steps[0 if at is None else at + 1 :], special)
    high = _AS_HIGH.get(count or 0)
    if high is not None and HEIGHTS.get(base or "", 0) < HEIGHTS["dc"]:
        other = replace(chain, counts_as=CountsAs(((Amount((1,)), high),)))
        yield Reading(
            default=f"ch {count} (does not count)",
            taken=f"ch {count} (counts as {high})",
            steps=(other, *steps) if at is None else (*steps[:at], other, *steps[at + 1 :]),
        )
    if count is None or base is None or base in said:
        return
    for words, default, counts in _as_other(base, count):
        if counts == CountsAs(()) and _joins_to_the_chain(steps):
            continue  # what is joined to is a stitch
        other = replace(chain, counts_as=counts)
        changed = (other, *steps) if at is None else (*steps[:at], other, *steps[at + 1 :])
        yield Reading(default=f"ch {count} {default}", taken=f"ch {count} {words}", steps=changed)


def _counted_apart(steps: tuple[Step, ...]) -> bool:
    """Whether the stated count says of the row's chain that it is none of what is counted."""
    at = lead_of(steps)
    chain = None if at is None else steps[at]
    said = chain.counts_as if isinstance(chain, Chain) else None
    return said is not None and said.by_count


#: what a chain of that length counts as before a lower stitch, a bobble or a puff, if it does
_AS_HIGH = {3: "dc", 4: "tr"}


def _joins_to_the_chain(steps: tuple[Step, ...]) -> bool:
    """``join with sl st to 3rd ch of beg ch-3``."""
    return any(
        isinstance(step, JoinRound) and isinstance(step.target, ChainOfTurning) for step in steps
    )


def lead_of(steps: tuple[Step, ...]) -> int | None:
    """Where the chain at the head of a row stands, behind travel, joining and asides."""
    for at, step in enumerate(steps):
        if isinstance(step, Chain):
            return at
        head = isinstance(step, Aside | Turn | JoinYarn | Travel) or is_slip_stitch(step)
        if not head:
            return None
    return None


def _as_other(base: str, count: int) -> Iterator[tuple[str, str, CountsAs]]:
    """The other ways to count a chain: words of the way, words of the default, what it says."""
    height = HEIGHTS[base]
    counts, not_ = f"(counts as {base})", "(does not count)"
    one = ((Amount((1,)), base),)
    if count == height and height >= HEIGHTS["dc"]:
        yield not_, counts, CountsAs(())
    elif count == height == HEIGHTS["hdc"] or count == height - 1 >= HEIGHTS["hdc"]:
        yield counts, not_, CountsAs(one)
    elif count > height >= HEIGHTS["dc"]:
        more = count - height
        words = f"(counts as {base} and ch {more})"
        yield words, not_, CountsAs(one, Amount((more,)))


def _base_ahead(steps: tuple[Step, ...], special: Mapping[str, SpecialStitch]) -> str | None:
    name = first_stitch(steps)
    if name is None:
        return None
    known = special.get(name)
    if known is not None:
        name = first_of(known.content) or known.base
    base = None if name is None else kind_of(name).base
    return base if base in HEIGHTS else None


# --- skipped chains ------------------------------------------------------------------------


def _skipped_chains(steps: tuple[Step, ...], said: Mapping[str, bool]) -> Iterator[Reading]:
    for at, step in enumerate(steps):
        if not (isinstance(step, Work) and isinstance(step.target, FromHook)):
            continue
        target = step.target
        nth = target.nth.values[0] if len(target.nth.values) == 1 else None
        name = first_of(step.content)
        base = None if name is None else kind_of(name).base
        if target.skipped is not None or nth is None or base not in HEIGHTS or base in said:
            return
        if (space := mesh_chains(steps)) is not None:
            default = f"(counts as {base} and ch {space})"
            other = replace(step, target=replace(target, skipped=CountsAs(())))
            yield Reading(
                default=f"the {nth - 1} skipped chs {default}",
                taken=f"the {nth - 1} skipped chs (does not count)",
                steps=(*steps[:at], other, *steps[at + 1 :]),
            )
            return
        for words, default, counts in _as_other(base, nth - 1):
            other = replace(step, target=replace(target, skipped=counts))
            yield Reading(
                default=f"the {nth - 1} skipped chs {default}",
                taken=f"the {nth - 1} skipped chs {words}",
                steps=(*steps[:at], other, *steps[at + 1 :]),
            )
        return


# --- how repeats end -----------------------------------------------------------------------


def _last_repeats(steps: tuple[Step, ...]) -> Iterator[Reading]:
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


def _skip_unsaid(steps: tuple[Step, ...]) -> Iterator[Reading]:
    """``ch 6 (counts as dc and ch 3), *sk 1, dc in next, ch 3; rep from * 6 more times, join``.

    The chain is the last dc and space that the repeat would make: only the skip before it is left.
    """
    at = len(steps) - 1
    while at > 0 and isinstance(steps[at], JoinRound | Turn | FastenOff | Aside | StatedHere):
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


def _chain_of_space(steps: tuple[Step, ...]) -> Iterator[Reading]:
    """``V-st in 2nd of 3 ch at underarm``: a chain of a space, and not of the turning chain."""
    found = list(steps)
    for at, step in enumerate(steps[:-1]):
        target = step.target if isinstance(step, Work) else None
        if not isinstance(step, Work) or not isinstance(target, ChainOfTurning):
            continue
        chains = target.chain.chains
        nth = None if target.nth is None else target.nth.values[0]
        behind = any(isinstance(one, Work | Repeat) for one in steps[at + 1 :])
        if chains is None or nth is None or not behind:
            continue
        inside = Inside(nth, OneChain(), Next((Space(chains),)))
        found[at] = replace(step, target=inside)
    if tuple(found) != steps:
        yield Reading(
            default="a chain of the turning chain",
            taken="a chain of the space of so many chains",
            steps=tuple(found),
        )


def _ends_early(steps: tuple[Step, ...]) -> Iterator[Reading]:
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
        if not ending.last:
            continue
        end = ending.steps[0]
        early = [
            number
            for number, one in enumerate(step.steps[:-1])
            if isinstance(one, Work)
            and isinstance(end, Work)
            and isinstance(end.target, Last)
            and [_bare(part) for part in one.content] == [_bare(part) for part in end.content]
        ]
        if len(early) == 1 and len(ending.steps) == 1:
            added = (*step.steps[: early[0]], end)
            other = replace(step, ending=EndingWith(added, last=False))
            yield Reading(
                default="the last step of the last repeat is another one",
                taken="the last repeat ends where it comes to that step",
                steps=(*steps[:at], other, *steps[at + 1 :]),
            )


def _ends_in_turning_chain(steps: tuple[Step, ...]) -> Iterator[Reading]:
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
        if [_bare(part) for part in last.content] == [_bare(part) for part in behind.content]:
            yield Reading(
                default="the turning chain is worked into behind whole repeats",
                taken="the last step of the last repeat goes into the turning chain",
                steps=(*steps[:at], replace(step, ending=Omitting((last,))), *steps[at + 1 :]),
            )


def _bare(part: Content) -> Content:
    """Content without its columns."""
    return part if isinstance(part, Times) else replace(part, start=0, end=0)


def _last_loop(steps: tuple[Step, ...]) -> Iterator[Reading]:
    """``…, sk 3 sts, sc in next st; rep from *, ch 2, dc in first sc``: what the last loop passes.

    That it passes as many as the others is left unsaid.
    """
    at = max((at for at, step in enumerate(steps) if isinstance(step, Repeat)), default=None)
    if at is None or len(steps) < at + 2:
        return
    repeat, chain, close = steps[at], steps[at + 1], steps[at + 2 :]
    assert isinstance(repeat, Repeat)
    skips = tuple(step for step in repeat.steps if isinstance(step, Skip))
    closes = bool(close) and isinstance(close[0], Work) and isinstance(close[0].target, First)
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
        if not isinstance(step, JoinRound | Turn | FastenOff | Aside | StatedHere):
            return None
    return None


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


# --- lists without brackets ---------------------------------------------------------------


def _listed(steps: tuple[Step, ...]) -> Iterator[Reading]:
    """``*1 sc, 3 dc, 1 sc in next loop; rep from * around``: all of them into that loop."""
    within = listed_in_next(steps)
    if within != steps:
        yield Reading(
            default="what is told without a place goes into the next sts",
            taken="what is told without a place goes where the step behind it does",
            steps=within,
        )


# --- sides and corners ---------------------------------------------------------------------


def _along_each_side(steps: tuple[Step, ...]) -> Iterator[Reading]:
    """``[3 sc in ch-2 sp, sc in each st across] 4 times``: each "across" is one side."""
    changed = tuple(as_sides(step, around=True) for step in steps)
    if changed != steps:
        yield Reading(
            default="“each” goes to the end of the round",
            taken="“each” goes to the next corner",
            steps=changed,
        )


# --- chains that are counted as stitches ---------------------------------------------------


def _chains_counted(steps: tuple[Step, ...]) -> Iterator[Reading]:
    """``sc 3, ch 4, sk 4, sc 17 (24)``: the stated count takes the chains for stitches.

    So does the next row, where "each st" takes the chains of the space too.
    """
    if any(isinstance(step, EachChainCounts) for step in steps):
        return
    if _bridges(steps):
        yield Reading(
            default="the chs over skipped sts are spaces",
            taken="the chs over skipped sts count as sts",
            steps=_before_the_end(steps, EachChainCounts(made=True)),
        )
    if any(_takes_any(step) for step in steps):
        yield Reading(
            default="the chs of the row before are spaces",
            taken="each ch of the row before counts as a st",
            steps=_before_the_end(steps, EachChainCounts()),
        )


def _chains_among_the_last(steps: tuple[Step, ...], *, stated: bool) -> Iterator[Reading]:
    """``rep from * to last 2 sts, sc in ch-1 sp, sc in last sc``: the ch is one of the two."""
    if any(isinstance(step, EachChainCounts) for step in steps) or not _names_spaces(steps):
        return
    other = tuple(map(_last_with_chains, steps))
    if other == steps:
        return
    bridges = stated and _bridges(steps)
    yield Reading(
        default="the last sts are stitches alone",
        taken="chs count as sts, also among the last ones",
        steps=_before_the_end(other, EachChainCounts(made=True)) if bridges else other,
    )


def _last_with_chains(step: Step) -> Step:
    """The same step, with spaces among the last stitches that it goes up to."""
    match step:
        case Repeat(times=Open(limit=ToLast(names=(AnyStitch(),)) as limit) as times):
            within = replace(limit, names=(AnyStitch(), Space()))
            return replace(step, times=replace(times, limit=within))
        case _:
            return step


def _names_spaces(steps: tuple[Step, ...]) -> bool:
    for step in steps:
        if isinstance(step, Repeat):
            if _names_spaces(step.steps):
                return True
        elif isinstance(step, Work) and any(
            isinstance(name, Space) for name in getattr(step.target, "names", ())
        ):
            return True
    return False


def _before_the_end(steps: tuple[Step, ...], said: EachChainCounts) -> tuple[Step, ...]:
    """The step before those that end the row: a turning chain there stays one."""
    at = len(steps)
    while at and isinstance(steps[at - 1], Chain | Turn | JoinRound | FastenOff | Aside):
        at -= 1
    return (*steps[:at], said, *steps[at:])


def _bridges(steps: tuple[Step, ...]) -> bool:
    """Whether chains stand over stitches that are skipped."""
    for pair in pairwise(steps):
        if any(isinstance(one, Chain) for one in pair) and any(
            isinstance(one, Skip) for one in pair
        ):
            return True
    return any(isinstance(step, Repeat) and _bridges(step.steps) for step in steps)


def _takes_any(step: Step) -> bool:
    return (
        isinstance(step, Work)
        and isinstance(step.target, Each)
        and any(isinstance(name, AnyStitch) for name in step.target.names)
    )


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


def _gives_up_as_many(steps: tuple[Step, ...]) -> bool:
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


def _last_left(steps: tuple[Step, ...]) -> Iterator[Reading]:
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


def _before_the_turning_chain(steps: tuple[Step, ...]) -> Iterator[Reading]:
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


def _joined_place(steps: tuple[Step, ...]) -> Iterator[Reading]:
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
