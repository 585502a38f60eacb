"""Rows that grow from one to the next: "rep Rnd 7 with 1 more ch between shells each rnd".

Takes     a row that was worked, how the next ones differ from it.
Gives     ``grown``: the rows, one after the other.
Problems  ``row-not-understood``.
From      notation.md, "Whole-row words".

Of the chains between steps only those of one length may grow: where there are several, which are
meant nobody can tell. Where the row works into the loops that the row before has made, they grow
along with it; a space of the same length inside a shell stays what it is.

Worked example: ``*shell in next ch-2 sp, ch 1; rep from * around`` worked three times more with 1
more ch each rnd makes ch-2, ch-3 and ch-4 sps between the shells, which stay as they are.
"""

from __future__ import annotations

from collections.abc import Iterator

from workeven.notation.tree import (
    Amount,
    BracketTimes,
    Chain,
    Corners,
    Decrease,
    Each,
    Exactly,
    Exchange,
    First,
    Growth,
    Increase,
    JoinYarn,
    Last,
    More,
    Next,
    PlaceName,
    Repeat,
    RowChange,
    Same,
    Skip,
    Space,
    Step,
    Stitch,
    Target,
    Travel,
    Unplaced,
    Work,
)
from workeven.proof.context import Fault
from workeven.proof.facts import facts_of, is_slip_stitch
from workeven.proof.line import Line
from workeven.proof.plan import plan_of
from workeven.records import replace


def grown(line: Line, change: RowChange, times: int) -> tuple[Line, ...]:
    """The row as it is worked each time; raises ``Fault`` where what grows cannot be told."""
    written = line.facts.written
    if isinstance(change, Exchange):
        steps = _exchanged(written, change)
        if steps == written:
            raise _unclear(change, f"there is no ch {change.old} in the row that is repeated")
        return (_line(line, steps),) * times
    if isinstance(change, BracketTimes):
        return (_line(line, _with_brackets(written, change)),) * times
    rates = range(1, times + 1) if change.each else (1,) * times
    return tuple(_line(line, _larger(written, change, rate)) for rate in rates)


def _with_brackets(steps: tuple[Step, ...], change: BracketTimes) -> tuple[Step, ...]:
    """The row with what stands in brackets worked so often; they may stand in a repeat.

    Where there are several brackets they are all worked equally often, or nobody can tell which.
    """
    often = set(_brackets(steps))
    if len(often) != 1:
        there = "several brackets, worked differently often," if often else "no brackets"
        raise _unclear(change, f"there are {there} in the row that is repeated")
    return tuple(_worked_so_often(step, change.times) for step in steps)


def _brackets(steps: tuple[Step, ...]) -> Iterator[tuple[int | None, ...]]:
    """How often what stands in brackets is worked, by size; also those within a repeat."""
    for step in steps:
        if isinstance(step, Repeat):
            if not step.star and isinstance(step.times, Exactly):
                yield step.times.count.values
            yield from _brackets(step.steps)


def _worked_so_often(step: Step, times: int) -> Step:
    if not isinstance(step, Repeat):
        return step
    steps = tuple(_worked_so_often(one, times) for one in step.steps)
    if step.star or not isinstance(step.times, Exactly):
        return replace(step, steps=steps)
    return replace(step, steps=steps, times=replace(step.times, count=Amount((times,))))


def fewest_left(line: Line, change: RowChange, most: int) -> int:
    """How often, ``most`` at most, a row can be worked again before nothing is left to take away.

    ``with 1 sc fewer between decs each rnd, until 12 sts rem``: the run of 4 sc gives 4 rounds.
    """
    if not isinstance(change, Growth) or change.count >= 0 or not change.each:
        return most
    for rate in range(1, most + 1):
        try:
            _larger(line.facts.written, change, rate)
        except Fault:
            return rate - 1
    return most


def with_one_run(line: Line, change: Growth, times: int) -> tuple[Line, ...]:
    """``V-st in each of next 13 V-sts``, worked with 2 V-sts fewer each time: the only run of them.

    Empty where none or several of the steps work so many of them.
    """
    written = line.facts.written
    found = [at for at, step in enumerate(written) if _is_run(step) and _works(step, change.unit)]
    if len(found) != 1:
        return ()
    run = written[found[0]]
    assert isinstance(run, Work)
    rates = range(1, times + 1) if change.each else (1,) * times
    return tuple(
        _line(
            line,
            (
                *written[: found[0]],
                _longer(run, change.count * rate, change),
                *written[found[0] + 1 :],
            ),
        )
        for rate in rates
    )


def with_other_turns(line: Line, change: Growth, times: int) -> tuple[Line, ...]:
    """``(ch 3, sc in next ch-3 lp) 7 times``, worked with a loop fewer each time.

    Of the repeats that are counted off it is the only one that makes such a loop, and one a turn.
    Empty where none or several do; raises ``Fault`` where a row would have less than no turn.
    """
    written = line.facts.written
    if len([one for one in _counted_repeats(written) if _makes_one(one, change.unit)]) != 1:
        return ()
    rates = range(1, times + 1) if change.each else (1,) * times
    return tuple(
        _line(line, tuple(_with_turns(step, change, change.count * rate) for step in written))
        for rate in rates
    )


def _counted_repeats(steps: tuple[Step, ...]) -> Iterator[Repeat]:
    """The repeats that are counted off, also those within others."""
    for step in steps:
        if isinstance(step, Repeat):
            if isinstance(step.times, Exactly | More) and len(step.times.count.values) == 1:
                yield step
            yield from _counted_repeats(step.steps)


def _makes_one(repeat: Repeat, unit: str) -> bool:
    """Whether each turn makes one space of that name, and no other."""
    chains = [step for step in repeat.steps if isinstance(step, Chain)]
    if len(chains) != 1 or any(isinstance(step, Repeat) for step in repeat.steps):
        return False
    return unit == "sp" or chains[0].count.values == (_length_of(unit),)


def _length_of(unit: str) -> int | None:
    """Of how many chains the spaces of a unit are: of "ch-3 sp" 3."""
    digits = "".join(sign for sign in unit if sign.isdigit())
    return int(digits) if digits else None


def _with_turns(step: Step, change: Growth, more: int) -> Step:
    """A step with so many turns more."""
    if not isinstance(step, Repeat):
        return step
    times = step.times
    if isinstance(times, Exactly | More) and _makes_one(step, change.unit):
        turns = (times.count.values[0] or 0) + more
        if turns < 0:
            raise _unclear(change, "no loops are left")
        return replace(step, times=replace(times, count=Amount((turns,))))
    return replace(step, steps=tuple(_with_turns(one, change, more) for one in step.steps))


def _works(step: Step, unit: str) -> bool:
    """Whether a step works stitches of that name, several of them."""
    only = step.content[0] if isinstance(step, Work) else None
    return isinstance(only, Stitch) and only.name == unit and _many_in(step) > 1


def _many_in(step: Step) -> int:
    """How many places a run takes in the first size."""
    target = step.target if isinstance(step, Work) else None
    if not isinstance(target, _COUNTED_OFF) or not target.count.values:
        return 0
    return target.count.values[0] or 0


def shapes(line: Line) -> bool:
    """Whether a row increases or decreases somewhere."""
    return any(
        _is_shaping(step) or _in_every(step) or (isinstance(step, Repeat) and _shapes(step))
        for step in line.facts.written
    )


def _line(line: Line, steps: tuple[Step, ...]) -> Line:
    facts = facts_of(steps)
    return replace(line, facts=facts, plan=plan_of(facts))


def _unclear(change: RowChange, found: str) -> Fault:
    return Fault(
        "row-not-understood",
        change.start,
        change.end,
        found,
        mend="Write the row out.",
    )


# --- one length for another ----------------------------------------------------------------


def _exchanged(steps: tuple[Step, ...], change: Exchange) -> tuple[Step, ...]:
    """The steps with chains of one length instead of another, the turning chain as it is."""
    lead = _lead(steps)
    return tuple(
        _exchanged_in(step, change) if at >= lead else step for at, step in enumerate(steps)
    )


def _exchanged_in(step: Step, change: Exchange) -> Step:
    old, new = Amount((change.old,)).values, Amount((change.new,))
    match step:
        case Chain(count=count) if count.values == old:
            return replace(step, count=new)
        case Repeat(steps=inside):
            return replace(step, steps=tuple(_exchanged_in(one, change) for one in inside))
        case Work(content=content):
            changed = tuple(
                replace(part, count=new)
                if isinstance(part, Chain) and part.count.values == old
                else part
                for part in content
            )
            return replace(step, content=changed)
        case _:
            return step


# --- more of them --------------------------------------------------------------------------


def _larger(steps: tuple[Step, ...], change: Growth, rate: int) -> tuple[Step, ...]:
    more = change.count * rate
    if not change.chains:
        return _longer_runs(steps, change, more)
    lengths = set(_lengths(steps))
    if len(lengths) != 1:
        raise _unclear(change, "which chains of the row grow cannot be told")
    (length,) = lengths
    if length + more < 1:
        raise _unclear(change, "no chains are left")
    lead = _lead(steps)
    head, rest = steps[:lead], steps[lead:]
    head = tuple(
        step if isinstance(step, Chain) else _with_chains(step, length, change.count, more)
        for step in head
    )
    return (*head, *(_with_chains(step, length, change.count, more) for step in rest))


def _lengths(steps: tuple[Step, ...]) -> Iterator[int]:
    """The lengths of the chains between steps, the one at the head of the row apart."""
    for step in steps[_lead(steps) :]:
        if isinstance(step, Chain) and len(step.count.values) == 1:
            yield step.count.values[0] or 0
        elif isinstance(step, Repeat):
            yield from (
                one.count.values[0] or 0
                for one in step.steps
                if isinstance(one, Chain) and len(one.count.values) == 1
            )


#: targets of runs that are counted off (a tuple: a union would be built anew each time)
_COUNTED_OFF = (Next, First, Last, Unplaced)


def _lead(steps: tuple[Step, ...]) -> int:
    """Behind how many steps the turning chain of the row is over: travel, the chain itself."""
    for at, step in enumerate(steps):
        if isinstance(step, Chain):
            return at + 1
        if isinstance(step, Work) and not is_slip_stitch(step):
            return 0
        if isinstance(step, Repeat):
            return 0
    return 0


def _with_chains(step: Step, length: int, once: int, more: int) -> Step:
    match step:
        case Chain():
            return replace(step, count=Amount((length + more,)))
        case Repeat(steps=inside):
            return replace(
                step, steps=tuple(_with_chains(one, length, once, more) for one in inside)
            )
        case Work(target=target) | Travel(target=target):
            return replace(step, target=_into(target, length, once, more))
        case JoinYarn(target=target) if target is not None:
            return replace(step, target=_into(target, length, once, more))
        case _:
            return step


def _into(target: Target, length: int, once: int, more: int) -> Target:
    match target:
        case Next(names=names) | First(names=names) | Last(names=names) | Each(names=names):
            found = tuple(_named(name, length, once, more) for name in names)
            return replace(target, names=found)
        case _:
            return target


def _named(name: PlaceName, length: int, once: int, more: int) -> PlaceName:
    """A space that a row names: a loop of the row before grows with it, one in a shell does not."""
    if not isinstance(name, Space) or name.chains is None:
        return name
    if name.chains == length - once:
        return replace(name, chains=name.chains + more)
    return replace(name, grouped=True) if name.chains == length + more - once else name


def _longer_runs(steps: tuple[Step, ...], change: Growth, more: int) -> tuple[Step, ...]:
    """``with 1 more sc between incs``: the plain run beside each increase or decrease."""
    if change.beside:
        return _at_both_sides(steps, change, more)
    every = [at for at, step in enumerate(steps) if _in_every(step)]
    if len(every) == 1:
        return _farther(steps, every[0], change, more)
    found = [at for at, step in enumerate(steps) if isinstance(step, Repeat) and _shapes(step)]
    found = found or [at for at, step in enumerate(steps) if _passes_one(step)]
    if change.between and not found:
        raise _unclear(change, "between which stitches of the row they stand cannot be told")
    if not found and (between := _between_two(steps)) is not None:
        run = steps[between]
        assert isinstance(run, Work)
        return (*steps[:between], _longer(run, more, change), *steps[between + 1 :])
    if len(found) != 1:
        raise _unclear(change, "which stitches of the row grow cannot be told")
    repeat = steps[found[0]]
    assert isinstance(repeat, Repeat)
    runs = [at for at, step in enumerate(repeat.steps) if _is_run(step)]
    if _passes_one(repeat):
        runs = runs[:1]  # in front of the stitch that is passed or behind it: as many are between
    if len(runs) != 1:
        raise _unclear(change, "which stitches of the repeat grow cannot be told")
    run = repeat.steps[runs[0]]
    assert isinstance(run, Work)
    if change.between:
        if any(_by_size(step) for step in repeat.steps):
            raise _unclear(change, "how many more that is in each size cannot be told")
        others = sum(_many_in(step) for step in repeat.steps if _is_run(step)) - _many_in(run)
        more = change.between - others - _many_in(run)
    inside = (*repeat.steps[: runs[0]], _longer(run, more, change), *repeat.steps[runs[0] + 1 :])
    if any(_is_shaping(step) for step in steps[found[0] + 1 :]):
        raise _unclear(change, "whether the stitches behind the repeat grow too cannot be told")
    before = _first_section(steps[: found[0]], run, more, change)
    return (*before, replace(repeat, steps=inside), *steps[found[0] + 1 :])


def _in_every(step: Step) -> bool:
    """``inc in every 3rd st``, ``working 2 sc in every 3rd st``."""
    return isinstance(step, Corners) and step.every > 0


def _farther(steps: tuple[Step, ...], at: int, change: Growth, more: int) -> tuple[Step, ...]:
    """With more between them the increases stand in every 4th stitch, and no longer in every 3rd.

    Where other steps shape too, which of them grow cannot be told.
    """
    step = steps[at]
    assert isinstance(step, Corners)
    every = change.between + 1 if change.between else step.every + more
    others = any(_is_shaping(one) or isinstance(one, Repeat | Increase | Decrease) for one in steps)
    if others or every <= 1:
        raise _unclear(change, "which stitches of the row grow cannot be told")
    return (*steps[:at], replace(step, every=every), *steps[at + 1 :])


def _passes_one(step: Step) -> bool:
    """``*sc in next 3 sts, sk 1, sc in next st; rep …``: a decrease by a stitch that is passed."""
    if not isinstance(step, Repeat):
        return False
    skips = [one for one in step.steps if isinstance(one, Skip)]
    plain = all(isinstance(one, Skip) or _is_run(one) for one in step.steps)
    one = skips[0].target if len(skips) == 1 else None
    passed = isinstance(one, _COUNTED_OFF) and one.count.values == (1,)
    return plain and passed and len({_stitch_of(one) for one in step.steps} - {""}) == 1


def _by_size(step: Step) -> bool:
    """Whether how many a run works differs by size, or is a formula."""
    target = step.target if isinstance(step, Work) else None
    return isinstance(target, _COUNTED_OFF) and len(target.count.values) != 1


def _stitch_of(step: Step) -> str:
    """The stitch that a run is of; "" of what is no run."""
    only = step.content[0] if isinstance(step, Work) and step.content else None
    return only.name if isinstance(only, Stitch) else ""


def _between_two(steps: tuple[Step, ...]) -> int | None:
    """Where the run stands between the only two increases, or decreases, of a row."""
    shaped = [at for at, step in enumerate(steps) if _is_shaping(step)]
    if len(shaped) != _PAIR or shaped[1] != shaped[0] + _PAIR:
        return None
    return shaped[0] + 1 if _is_run(steps[shaped[0] + 1]) else None


#: an increase at both sides of a gusset; from one to the other there is a run between
_PAIR = 2


def _first_section(
    steps: tuple[Step, ...], like: Work, more: int, change: Growth
) -> tuple[Step, ...]:
    """What stands before the repeat: where it is the first section of it, its run grows too.

    ``ch 3, dc in next 2 dc, 2 dc in next dc, *dc in next 3 dc, 2 dc in next dc; rep …``: the chain
    is the first of three. Where the chain is all of the run, so many are worked behind it.
    """
    lead = _lead(steps)
    shaped = [at for at in range(lead, len(steps)) if _is_shaping(steps[at]) or _in_same(steps[at])]
    if not shaped:
        return steps
    runs = [at for at in range(lead, len(steps)) if _is_run(steps[at]) and not _in_same(steps[at])]
    if len(runs) == 1 and len(shaped) == 1:
        run = steps[runs[0]]
        assert isinstance(run, Work)
        return (*steps[: runs[0]], _longer(run, more, change), *steps[runs[0] + 1 :])
    chain = steps[lead - 1] if lead else None
    if runs or len(shaped) > 1 or more < 0 or not _stands_for_one(chain):
        raise _unclear(change, "whether the stitches before the repeat grow too cannot be told")
    target = like.target
    assert isinstance(target, _COUNTED_OFF)
    grown_run = replace(like, target=replace(target, count=Amount((more,))))
    at = shaped[0] + 1 if _in_same(steps[shaped[0]]) else lead
    return (*steps[:at], grown_run, *steps[at:])


def _in_same(step: Step) -> bool:
    """``dc in same st``: an increase, with the chain that stands there."""
    return isinstance(step, Work) and isinstance(step.target, Same)


#: a chain that is not said to count does as from here on (notation.md, "Chains at the start")
_COUNTED_CHAINS = 3


def _stands_for_one(chain: Step | None) -> bool:
    """Whether the chain at the head of the row is the first stitch of its section."""
    if not isinstance(chain, Chain):
        return False
    if chain.counts_as is not None:
        return bool(chain.counts_as.stitches)
    return len(chain.count.values) == 1 and (chain.count.values[0] or 0) >= _COUNTED_CHAINS


def _at_both_sides(steps: tuple[Step, ...], change: Growth, more: int) -> tuple[Step, ...]:
    """``with 1 dc fewer each side of the dc3tog``: the plain runs in front of it and behind it."""
    found = [at for at, step in enumerate(steps) if _is_shaping(step)]
    within = [at for at, step in enumerate(steps) if isinstance(step, Repeat) and _shapes(step)]
    if len(found) == 1 and not within:
        sides = (found[0] - 1, found[0] + 1)
        if all(0 <= at < len(steps) and _is_run(steps[at]) for at in sides):
            longer = dict.fromkeys(sides)
            return tuple(
                _longer(step, more, change) if at in longer and isinstance(step, Work) else step
                for at, step in enumerate(steps)
            )
    repeat = steps[within[0]] if len(within) == 1 and not found else None
    if isinstance(repeat, Repeat) and not any(isinstance(one, Repeat) for one in repeat.steps):
        inside = _at_both_sides(repeat.steps, change, more)
        return (*steps[: within[0]], replace(repeat, steps=inside), *steps[within[0] + 1 :])
    raise _unclear(change, "which stitches of the row grow cannot be told")


def _shapes(repeat: Repeat) -> bool:
    return any(isinstance(step, Increase | Decrease) or _is_shaping(step) for step in repeat.steps)


def _is_shaping(step: Step) -> bool:
    """``2 sc in next st``, ``sc2tog``."""
    if not isinstance(step, Work) or len(step.content) != 1:
        return False
    only = step.content[0]
    return isinstance(only, Stitch) and (only.legs > 1 or only.count.values != (1,))


def _is_run(step: Step) -> bool:
    plain = isinstance(step, Work) and len(step.content) == 1 and not _is_shaping(step)
    return plain and isinstance(step, Work) and isinstance(step.target, _COUNTED_OFF)


def _longer(run: Work, more: int, change: Growth) -> Work:
    target = run.target
    assert isinstance(target, _COUNTED_OFF)
    values = target.count.values
    if not values or any(number is not None and number + more < 0 for number in values):
        raise _unclear(change, "the stitches between are too few for that")
    longer = tuple(None if number is None else number + more for number in values)
    return replace(run, target=replace(target, count=replace(target.count, values=longer)))
