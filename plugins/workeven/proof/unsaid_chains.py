"""Chains at the head of a row of which nothing is said: what its other words tell of them.

Takes     how long such a chain is, the basic stitch behind it, the steps behind it.
Gives     ``stands_for``: the stitch it stands for by what follows it; ``joined_to``:
          whether the round's join makes it a stitch; ``passed_by_the_join``: whether it makes it
          none; ``join_says``, both; ``makes_up``: whether its first group needs it; ``AS_HIGH``.
Problems  none.
From      notation.md, "Chains at the start"; common practice where a docstring says so.

Both the walk and the second readings ask: what one takes by default, the others turn about.
"""

from __future__ import annotations

from workeven.notation.tree import (
    ONE,
    Amount,
    AnyStitch,
    Aside,
    Chain,
    ChainOfTurning,
    First,
    IntoRing,
    JoinRound,
    Last,
    NamedStitch,
    Next,
    Repeat,
    Same,
    Skip,
    Step,
    Stitch,
    Travel,
    Turn,
    Work,
)
from workeven.notation.vocabulary import HEIGHTS, kind_of
from workeven.proof.made import is_slip_stitch

#: what a chain of that length counts as before a lower stitch, a bobble or a puff, if it does
AS_HIGH = {3: "dc", 4: "tr"}


def stands_for(count: int, base: str | None, rest: tuple[Step, ...]) -> str | None:
    """The stitch that a chain stands for by the words behind it, whatever the table says of it."""
    return (
        _stands_apart(count, base, rest)
        or _begins_a_group(count, rest)
        or _stands_over_the_first(count, base, rest)
    )


def _stands_apart(count: int, base: str | None, rest: tuple[Step, ...]) -> str | None:
    """The stitch that a chain stands for which is told apart from the chain behind it.

    ``ch 3, *ch 3, sc in ch-5 sp, ch 3, dc in next dc; rep from *``: were it no stitch, the two
    would be one chain (common practice). ``base`` is the first stitch behind, None: not known.
    """
    behind: Step | None = next((step for step in rest if not isinstance(step, Aside | Turn)), None)
    while isinstance(behind, Repeat) and behind.steps:
        behind = behind.steps[0]
    lower = HEIGHTS.get(base or "", 0) < HEIGHTS["dc"]
    return AS_HIGH.get(count) if isinstance(behind, Chain) and lower else None


def joined_to(count: int, base: str | None, rest: tuple[Step, ...]) -> bool:
    """Whether a round is joined to the top of its chain, which so stands for that stitch.

    ``ch 2, dc in same st, …, join with sl st to top of ch-2``: a chain one short of the stitch,
    or as long as an hdc, is a stitch where it is joined to (common practice). Where the first
    stitch goes into the first place, the chain beside it is none, however the round is joined.
    """
    height = HEIGHTS.get(base or "", 0)
    if count < HEIGHTS["hdc"] or count != (height if height == HEIGHTS["hdc"] else height - 1):
        return False
    first = next((one for one in rest if isinstance(one, Work) and not is_slip_stitch(one)), None)
    if first is not None and isinstance(first.target, First):
        return False
    return any(_is_its_top(step, count) for step in rest)


def join_says(count: int | None, base: str | None, rest: tuple[Step, ...]) -> bool | None:
    """Whether a round's join says that its chain is a stitch (True), or none (False); else None."""
    if count is None:
        return None
    if any(_is_its_top(step, count) for step in rest):
        return joined_to(count, base, rest) or count >= HEIGHTS["dc"] or None
    if base is not None and any(_is_the_first(step, base) for step in rest):
        return None if makes_up(rest) else False
    return None


def passed_by_the_join(count: int, base: str | None, rest: tuple[Step, ...]) -> bool:
    """Whether a round is joined to its first stitch behind the chain, which so is none.

    ``ch 3, 12 dc in MR, join to first dc``: what counts is joined to at its top (common practice);
    a chain as high as the stitch, which is passed over, only lifts the round.
    """
    if base is None or count != HEIGHTS.get(base) or count < HEIGHTS["dc"]:
        return False
    return any(_is_the_first(step, base) for step in rest) and not makes_up(rest)


def makes_up(rest: tuple[Step, ...]) -> bool:
    """Whether the chain makes the first group as large as the others, or a ring's number even.

    ``ch 3, 2 dc in ring, ch 2, [3 dc in ring, ch 2] 3 times``; ``ch 3, dc in same st, *dc in next
    st, 2 dc in next st``; a side, ``ch 3, dc in next 2 dc, *…, dc in next 3 dc``; a group or side
    that the end of the round completes; ``ch 3, 11 dc in ring``.
    """
    begins = next((one for one in rest if isinstance(one, Repeat | Work)), None)
    if not isinstance(begins, Work) or isinstance(begins.target, First):
        return False  # a repeat begins behind the chain, or the first stitch is beside it
    if (told := _by_the_repeat(rest, begins)) is not None:
        return told
    first, *others = _numbers(rest, in_one=_is_in_one(begins)) or (None,)
    if first is None:
        return False
    if not others:
        return isinstance(begins.target, IntoRing) and first % 2 == 1
    if first in others[:-1]:
        return False
    last = others[-1] or 0
    return first + 1 in others or first + last + 1 in others[:-1]


def _by_the_repeat(rest: tuple[Step, ...], begins: Work) -> bool | None:
    """What the repeat tells: whether the steps before it are its end with the chain, or without.

    ``dc in same st, 2 dc in next st, *dc in next st, 2 dc in next st`` is whole by itself; before
    ``*2 dc in next st, dc in next st`` it is so with the chain. None where it is neither.
    """
    at = next((at for at, one in enumerate(rest) if isinstance(one, Repeat)), None)
    repeat = None if at is None else rest[at]
    if not isinstance(repeat, Repeat):
        return None
    one_by_one = isinstance(begins.target, Same)
    head = _places(rest[:at], one_by_one=one_by_one)
    body = _places(repeat.steps, one_by_one=one_by_one)
    if not head or not body or not isinstance(head[0][0], int):
        return None
    again = body * (len(head) // len(body) + 1)
    if again[-len(head) :] == head:
        return False
    larger = [(head[0][0] + 1, *head[0][1:]), *head[1:]]
    if again[-len(head) :] == larger:
        return True
    return True if _lacking(head, again[-len(head) :]) else None


def _lacking(head: list[tuple[object, ...]], whole: list[tuple[object, ...]]) -> str | None:
    """The stitch that the first group lacks to be as the repeat's are, where all else is alike."""
    number, name, *others = (*whole[0], None, None)[: max(2, len(whole[0]))]
    alike = tuple(others) == head[0] and whole[1:] == head[1:]
    return name if alike and number == 1 and isinstance(name, str) else None


def _stands_over_the_first(count: int, base: str | None, rest: tuple[Step, ...]) -> str | None:
    """``ch 3, sk first st, *sc in next st, dc in next st``: the stitch it is over the skipped one.

    Nobody skips the first stitch of a row but for the chain that stands there (common practice).
    Before a lower stitch, in a row with other chains, it may be a loop as they are.
    """
    behind = next((step for step in rest if not isinstance(step, Aside | Turn)), None)
    match behind:
        case Skip(target=First(names=(AnyStitch() | NamedStitch(),), count=number)):
            first = number.values == (1,)
        case _:
            first = False
    height = HEIGHTS.get(base or "", 0)
    if not first or count < HEIGHTS["hdc"] or (height < count and any(map(_is_chain, rest))):
        return None
    if height == count >= HEIGHTS["dc"]:
        return None  # so says the table
    if height in {count, count + 1}:
        return base
    return next((name for name, high in _BY_HEIGHT.items() if high == count), None)


_BY_HEIGHT = {name: HEIGHTS[name] for name in ("hdc", "dc", "tr")}


def _is_chain(step: Step) -> bool:
    """Whether a step, or one of those it repeats, is a chain."""
    if isinstance(step, Repeat):
        return any(map(_is_chain, step.steps))
    return isinstance(step, Chain)


def _begins_a_group(count: int, rest: tuple[Step, ...]) -> str | None:
    """The stitch that a chain stands for which begins the first group of a round of such groups.

    ``ch 2, sc in same st, *sk next st, (hdc, sc) in next st``: without the chain's hdc the first
    group were half a one (common practice). Where the round is joined to the stitch behind the
    chain, it is none; in a flat row it may only turn.
    """
    begins = next((one for one in rest if isinstance(one, Repeat | Work)), None)
    at = next((at for at, one in enumerate(rest) if isinstance(one, Repeat)), None)
    repeat = None if at is None else rest[at]
    if not isinstance(begins, Work) or not isinstance(begins.target, Same):
        return None
    joined = any(isinstance(one, JoinRound) for one in rest)
    if not isinstance(repeat, Repeat) or not joined or any(map(_is_a_first, rest)):
        return None
    head, body = _places(rest[:at], one_by_one=True), _places(repeat.steps, one_by_one=True)
    if not head or not body:
        return None
    again = body * (len(head) // len(body) + 1)
    name = _lacking(head, again[-len(head) :])
    high = HEIGHTS.get(name or "", 0)
    return name if high >= HEIGHTS["hdc"] and count in {high - 1, high} and count > 1 else None


#: a longer run than this is no group that a chain makes whole
_MOST_TOLD = 100


def _places(steps: tuple[Step, ...], *, one_by_one: bool) -> list[tuple[object, ...]]:
    """What goes into each place, one behind the other, and what lies or is skipped between.

    A run of one each is one entry, by its length, or one of one for each where they are told
    ``one_by_one``. What goes into the same place again is of that entry.
    """
    found: list[tuple[object, ...]] = []
    for step in steps:
        match step:
            case Work(target=Same()) if found and not is_slip_stitch(step):
                chains = found.pop() if found[-1][0] == "ch" and len(found) > 1 else ()
                found[-1] = (*found[-1], *chains, *_parts(step))
            case Work() if is_slip_stitch(step):
                continue
            case Work(target=Next(count=count) | Last(count=count)) if not _is_in_one(step):
                number = count.values[0] or 0
                name = _parts(step)[1:]
                told = one_by_one and number <= _MOST_TOLD
                found += [(1, *name)] * number if told else [(number, *name)]
            case Work():
                found.append(_parts(step))
            case Chain(count=count):
                found.append(("ch", *count.values))
            case Skip():
                found.append(("sk", getattr(getattr(step.target, "count", None), "values", None)))
            case _:
                continue
    return found


def _parts(step: Work) -> tuple[object, ...]:
    """How many and of what a step works into a place, part for part."""
    parts: list[object] = []
    for one in step.content:
        if isinstance(one, Stitch):
            parts += [one.count.values[0] if len(one.count.values) == 1 else None, one.name]
        elif isinstance(one, Chain):
            parts += ["ch", *one.count.values]
        else:
            parts.append(one)
    return tuple(parts)


def _is_in_one(step: Work) -> bool:
    """Whether a step works a group into one place, and no run of one each."""
    match step:
        case Work(target=Next(names=names) | Last(names=names), content=(only,)):
            if not isinstance(names[0], AnyStitch | NamedStitch):
                return True
            return not (isinstance(only, Stitch) and only.count == ONE)
        case _:
            return True


def _numbers(steps: tuple[Step, ...], *, in_one: bool) -> list[int | None]:
    """Of how many stitches the groups begin with, or the runs of one each, those of repeats too.

    A first stitch in the same place is a group of one.
    """
    found: list[int | None] = []
    for step in steps:
        if isinstance(step, Repeat):
            found += _numbers(step.steps, in_one=in_one)
        elif isinstance(step, Work) and not is_slip_stitch(step) and _is_in_one(step) is in_one:
            found.append(_number_of(step, in_one=in_one))
    return found


def _number_of(step: Work, *, in_one: bool) -> int | None:
    amount: Amount | None = None
    if in_one:
        begun = step.content[0]
        amount = begun.count if isinstance(begun, Stitch) else None
    elif isinstance(step.target, Next | Last):
        amount = step.target.count
    return amount.values[0] if amount is not None and len(amount.values) == 1 else None


def _is_the_first(step: Step, base: str) -> bool:
    target = getattr(step, "target", None) if isinstance(step, JoinRound | Travel) else None
    if isinstance(step, Work) and is_slip_stitch(step):
        target = step.target
    match target:
        case First(names=(NamedStitch(name=name),)):
            return kind_of(name).base == base
        case _:
            return False


def _is_a_first(step: Step) -> bool:
    """Whether a step joins the round to its first stitch of a name."""
    if isinstance(step, Work) and not is_slip_stitch(step):
        return False
    target = getattr(step, "target", None) if isinstance(step, JoinRound | Travel | Work) else None
    return isinstance(target, First) and isinstance(target.names[0], NamedStitch)


def _is_its_top(step: Step, count: int) -> bool:
    target = step.target if isinstance(step, JoinRound) else None
    if isinstance(step, Work) and is_slip_stitch(step):
        target = step.target
    match target:
        case ChainOfTurning(nth=nth, chain=chain):
            top = nth is None or nth.values == (count,)
            return top and chain.chains in (None, count)
        case _:
            return False
