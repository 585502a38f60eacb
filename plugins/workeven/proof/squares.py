"""Stitches worked over several places, put in as the steps that they are: squares of filet.

Takes     the steps of a row, the special stitches of the pattern.
Gives     ``expanded``; ``over``: so many of the next places; ``either``; ``with_squares``.
Problems  ``row-uneven``, ``row-no-such-place``.
From      notation.md, "Squares".

In filet nothing is passed over: each square goes into the places that come next, and of a space
each chain is one of them, so that ``block = 3 dc`` fits over a block and over a space alike.

Worked example: ``sp = ch 2, sk 2, dc`` over ``dc, ch-2 sp, dc``: behind the first dc come three
places, the two chains and the dc; two are passed, the third takes the dc.
"""

from __future__ import annotations

from collections.abc import Mapping

from workeven.notation.renamed import renamed
from workeven.notation.tree import (
    ONE,
    Amount,
    AnyStitch,
    Aside,
    Chain,
    CountsAs,
    Each,
    Either,
    EndingWith,
    Exactly,
    First,
    Formed,
    Inside,
    Last,
    NamedStitch,
    Next,
    Omitting,
    OneChain,
    Open,
    Over,
    Picot,
    PlaceName,
    Repeat,
    Same,
    Skip,
    Space,
    SpecialStitch,
    Step,
    Stitch,
    Turn,
    Unplaced,
    Work,
)
from workeven.notation.vocabulary import HEIGHTS, kind_of
from workeven.proof.context import Fault, SizeContext
from workeven.proof.each import legs_of
from workeven.proof.fabric import Place, any_place, space, stitch
from workeven.proof.facts import first_of_content
from workeven.proof.hook import Hook, Walk
from workeven.proof.loops_of_ones_own import with_own_loops
from workeven.proof.making import full_name, make
from workeven.proof.naming import ANY, match_of, spoken
from workeven.proof.proven import Counted
from workeven.proof.taking import leave_start
from workeven.records import replace

# --- put in --------------------------------------------------------------------------------


def expanded(steps: tuple[Step, ...], special: Mapping[str, SpecialStitch]) -> tuple[Step, ...]:
    """The steps, with those of each stitch that is worked over several places in its stead."""
    steps = _in_full(steps, special)
    if any(one.place for one in special.values()):
        steps = tuple(_at_its_place(step, special) for step in steps)
    if not any(one.steps for one in special.values()):
        return steps
    steps = _begun(with_own_loops(steps, special), special)
    found = tuple(inside for step in steps for inside in _expanded(step, special))
    return tuple(map(_beside_squares, found)) if _in_squares(found, special) else found


def _in_full(steps: tuple[Step, ...], special: Mapping[str, SpecialStitch]) -> tuple[Step, ...]:
    """``sc in top of beg cl``: the place is that of the stitch which the beginning version is."""
    begun = {name: full_name(special, name) for name in special if name.startswith("beg ")}
    if not begun:
        return steps

    def as_it_is(name: PlaceName) -> tuple[PlaceName, ...]:
        full = begun.get(name.name) if isinstance(name, NamedStitch) else None
        return (name if full is None else NamedStitch(full),)

    return tuple(renamed(step, as_it_is) for step in steps)


def _at_its_place(step: Step, special: Mapping[str, SpecialStitch]) -> Step:
    """``9 tr in ring, shell, turn``: into the space that the shell's own words name."""
    if isinstance(step, Repeat):
        return replace(step, steps=tuple(_at_its_place(one, special) for one in step.steps))
    only = step.content[0] if isinstance(step, Work) and len(step.content) == 1 else None
    if not (isinstance(only, Stitch) and isinstance(step, Work) and only.name in special):
        return step
    place = special[only.name].place
    if place is None or not isinstance(step.target, Unplaced):
        return step
    count = step.target.count
    if isinstance(place, Next):
        return replace(step, target=replace(place, count=count, bare=False))
    return replace(step, target=place) if count.values == (1,) else step


def _begun(steps: tuple[Step, ...], special: Mapping[str, SpecialStitch]) -> tuple[Step, ...]:
    """``ch 5, turn, 4 sps``: the chain is the first stitch and the chain of the first space.

    It is as long as a turning chain and that chain together: a space of both would be no square.
    """
    at = next((at for at, step in enumerate(steps) if not isinstance(step, Aside | Turn)), 0)
    lead = steps[at] if steps else None
    after = (j for j in range(at + 1, len(steps)) if not isinstance(steps[j], Aside | Turn))
    behind = next(after, 0)
    square = steps[behind] if behind else None
    if not isinstance(lead, Chain) or not isinstance(square, Work | Repeat):
        return steps
    first, others = _first_of(square)
    if others is None or not isinstance(first, Work):
        return steps
    only = first.content[0] if len(first.content) == 1 else None
    full = special.get(only.name) if isinstance(only, Stitch) else None
    if full is None or not full.square or not isinstance(full.steps[0], Chain):
        return steps
    begins, *rest = _beginning(full)
    if not isinstance(begins, Chain) or begins.count.values != lead.count.values:
        return steps
    said = lead.counts_as
    if said is not None and (
        said.chains is None or said.chains.values != full.steps[0].count.values
    ):
        return steps
    begun = (_placed(step, first) for step in rest)
    lead = replace(lead, counts_as=said or begins.counts_as)
    return (*steps[:at], lead, *steps[at + 1 : behind], *begun, *others, *steps[behind + 1 :])


def _first_of(square: Work | Repeat) -> tuple[Step, tuple[Step, ...] | None]:
    """The first of so many squares, and the others: "4 sps", "[sp, block] twice", "sp across".

    None for the others: how many they are cannot be told from the words alone.
    """
    if isinstance(square, Repeat):
        if not isinstance(square.times, Exactly) or square.ending is not None:
            return square, None
        less = _one_less(square.times.count)
        first, *inner = square.steps
        if less is None or not isinstance(first, Work):
            return square, None
        found, others = _first_of(first)
        if others is None:
            return square, None
        again = () if less.values == (0,) else (replace(square, times=Exactly(less)),)
        return found, (*others, *inner, *again)
    only = square.content[0]
    if not isinstance(only, Stitch):
        return square, None
    counted = only.count if only.count is not ONE else None
    match square.target:
        case Each():
            return square, (square,)
        case Unplaced(count=count):
            less = _one_less(counted or count)
        case _:
            return square, None
    if less is None:
        return square, None
    if less.values == (0,):
        return square, ()
    rest = replace(square, content=(replace(only, count=ONE),), target=Unplaced(less))
    return square, (rest,)


def _one_less(count: Amount) -> Amount | None:
    """One square fewer in each size; None where a size has none, or a formula tells how many."""
    if count.formula is not None or not all(count.values):
        return None
    return replace(count, values=tuple(v if v is None else v - 1 for v in count.values))


def _in_squares(steps: tuple[Step, ...], special: Mapping[str, SpecialStitch]) -> bool:
    """Whether a row is worked in squares of filet."""
    return any(
        (isinstance(step, Formed) and special[step.name].square)
        or (isinstance(step, Repeat) and _in_squares(step.steps, special))
        for step in steps
    )


def _beside_squares(step: Step) -> Step:
    """In a row of squares "sk 2", "dc in next 3 sts" count the chains of a space as well."""
    match step:
        case Work(target=Unplaced()) | Skip(target=Unplaced()):
            return _over(step)
        case Work(target=Next(names=names)) | Skip(target=Next(names=names)) if _any(names):
            return _over(step)
        case Repeat(steps=inside):
            return replace(step, steps=tuple(map(_beside_squares, inside)))
        case _:
            return step


def _expanded(step: Step, special: Mapping[str, SpecialStitch]) -> tuple[Step, ...]:
    if isinstance(step, Repeat):
        ending = step.ending
        if isinstance(ending, EndingWith | Omitting):
            ending = replace(ending, steps=expanded(ending.steps, special))
        return (replace(step, steps=expanded(step.steps, special), ending=ending),)
    only = step.content[0] if isinstance(step, Work) and len(step.content) == 1 else None
    if not isinstance(step, Work) or not isinstance(only, Stitch):
        return (step,)
    inside_steps = _steps_of(only.name, special)
    if not inside_steps:
        return (_into_its_space(step, special),)
    return _in_its_stead(step, only, tuple(_placed(inside, step) for inside in inside_steps))


def _into_its_space(step: Work, special: Mapping[str, SpecialStitch]) -> Work:
    """``2 dc in next sp``, where ``sp`` is declared as a square: the space of such a square."""
    target = step.target
    if isinstance(target, Inside):
        of_it = target.container
        if isinstance(of_it, Same) or isinstance(of_it.names[0], Space):
            return step
        whole = _into_its_space(replace(step, target=of_it), special).target
        if whole is of_it or not isinstance(whole, Next | First | Last):
            return step
        chain = replace(target, name=OneChain(), container=whole)  # "3rd ch of next bar"
        return replace(step, target=chain)
    if not isinstance(target, Next | Each | First | Last) or len(target.names) != 1:
        return step
    square = special.get(getattr(target.names[0], "name", ""))
    if square is None or not square.square or not isinstance(square.steps[0], Chain):
        return step
    chains = square.steps[0].count.values
    space_of = Space(chains[0] if len(chains) == 1 else None)
    return replace(step, target=replace(target, names=(space_of,)))


def _placed(inside: Step, step: Work) -> Step:
    """A step of a definition where the row names the stitch: there its faults are told."""
    if isinstance(inside, Either):
        ways = tuple(tuple(_placed(one, step) for one in way) for way in inside.ways)
        return Either(ways, step.start, step.end)
    return replace(inside, start=step.start, end=step.end)


def _in_its_stead(step: Work, only: Stitch, inside: tuple[Step, ...]) -> tuple[Step, ...]:
    """The steps of a square as often as it is worked: "3 sps", "block over next 2 sps"."""
    target = step.target
    times = only.count
    first = inside[0]
    if isinstance(first, Work) and legs_of(first) > 1 and only.count == ONE:
        return (replace(first, target=target), *inside[1:])  # a decrease under another name
    match target:
        case Each(limit=limit):
            return (Repeat(inside, Open(limit), start=step.start, end=step.end),)
        case Unplaced(count=count):
            times = count if only.count is ONE else only.count
        case (
            Next(names=names, count=count)
            | First(names=names, count=count)
            | Last(names=names, count=count)
        ) if isinstance(names[0], Space | NamedStitch) and count is not ONE:
            times = count  # "block over each of next 4 sps": one over each
        case _:
            pass
    if times.values == (1,) and times.formula is None:
        return inside
    return (Repeat(inside, Exactly(times), start=step.start, end=step.end),)


def _steps_of(name: str, special: Mapping[str, SpecialStitch]) -> tuple[Step, ...]:
    known = special.get(name)
    if known is not None and known.steps:
        return _as_places(known)
    full = special.get(name.removeprefix("beg "))
    if full is None or not full.square or not name.startswith("beg "):
        return ()
    return _beginning(full)


def _as_places(known: SpecialStitch) -> tuple[Step, ...]:
    if all(isinstance(step, Picot) for step in known.steps):
        return known.steps  # counted as a picot, whatever its own name
    steps = tuple(_over(step) for step in _with_skip(known.steps)) if known.square else known.steps
    return (*steps, Formed(known.name))


def _with_skip(steps: tuple[Step, ...]) -> tuple[Step, ...]:
    """``ch 5 (counts as dc and ch 2), dc in next dc``: it passes a space, or two stitches.

    What the chain leaves as a space lies over as much as the square below it is wide.
    """
    lead = steps[0] if len(steps) > 1 else None
    said = lead.counts_as if isinstance(lead, Chain) else None
    if said is None or said.chains is None or not isinstance(steps[1], Work):
        return steps
    values = said.chains.values
    if len(values) != 1 or not isinstance(steps[1].target, Next):
        return steps
    start, end = steps[1].start, steps[1].end
    space = Skip(Next((Space(values[0]),)), start, end)
    stitches = Skip(Next((AnyStitch(),), said.chains), start, end)
    return (steps[0], Either(((space,), (stitches,)), start, end), *steps[1:])


def _beginning(full: SpecialStitch) -> tuple[Step, ...]:
    """``beg sp``, ``beg block``: the same square, its first stitch a turning chain."""
    base = full.base or "dc"
    height = HEIGHTS.get(base, HEIGHTS["dc"])
    first, rest = full.steps[0], full.steps
    said = CountsAs(((ONE, base),))
    if isinstance(first, Chain) and len(first.count.values) == 1:
        chains = first.count.values[0] or 0
        said, rest = replace(said, chains=first.count), full.steps[1:]
        height += chains
    lead = Chain(Amount((height,)), said)
    return (lead, *(_over(step) for step in rest), Formed(full.name))


def _over(step: Step) -> Step:
    """A step of a square: into the places that come next, none passed over."""
    match step:
        case Work(content=content, target=Unplaced(count=count)):
            return Over(content, ANY, count, step.start, step.end)
        case Work(content=content, target=Next(names=names, count=count)):
            return Over(content, names, count, step.start, step.end)
        case Skip(target=Unplaced(count=count)):
            return Over((), ANY, count, step.start, step.end)
        case Skip(target=Next(names=names, count=count)):
            return Over((), names, count, step.start, step.end)
        case Either(ways=ways):
            return replace(step, ways=tuple(tuple(map(_over, way)) for way in ways))
        case _:
            return step


# --- worked --------------------------------------------------------------------------------


def over(hook: Hook, step: Over) -> None:
    """Work over so many of the next places; of a space each chain is one."""
    ledger = hook.cursor.ledger
    leave_start(hook, Work(step.content, Unplaced(step.count), start=step.start, end=step.end))
    hook.note(step.names)
    count = hook.context.amount(step.count) or 0
    if _any(step.names):
        for _ in range(count):
            _one_column(hook, step)
    elif count:
        _first_named(hook, step)
        if isinstance(step.names[0], Space) and not step.content:
            hook.cursor.take(match_of(step.names), count - 1)  # "sk next 2 ch-3 sps" of a lacet
        else:
            for _ in range(count - 1):
                _first_named(hook, step)
    if step.content:
        make(hook.made, step.content, count)
    else:
        hook.cursor.nothing_worked_since(ledger)
    hook.stands, hook.over_first, hook.began = "taken", False, True


def _any(names: tuple[PlaceName, ...]) -> bool:
    return isinstance(names[0], AnyStitch | OneChain)


def _one_column(hook: Hook, step: Over) -> None:
    place = hook.cursor.peek()
    if place is None:
        if hook.recover:
            return
        raise _none_left(step)
    if place.sort == "sp" and hook.into_space + 1 < place.chains:
        hook.into_space += 1
        return
    hook.into_space = 0
    hook.cursor.take(any_place, 1)


def _first_named(hook: Hook, step: Over) -> None:
    place = hook.cursor.peek()
    if hook.recover and (place is None or not _fits(place, step.names)):
        return
    if place is None:
        raise _none_left(step)
    if not _fits(place, step.names):
        raise Fault(
            "row-no-such-place",
            step.start,
            step.end,
            f"a {spoken(step.names)} is due for the next square and a {place.name} comes",
        )
    hook.cursor.take(any_place, 1)


def _fits(place: Place, names: tuple[PlaceName, ...]) -> bool:
    """Whether the next place bears a name; of a starting chain every chain is a stitch."""
    if _any(names) or match_of(names)(place):
        return True
    return place.sort == "ch" and isinstance(names[0], NamedStitch)


def _none_left(step: Over) -> Fault:
    return Fault(
        "row-uneven", step.start, step.end, "no place is left for the next square", needed=1, left=0
    )


def either(hook: Hook, step: Either, walk: Walk) -> None:
    """The way whose first place comes next."""
    place = hook.cursor.peek()
    for way in step.ways:
        first = way[0]
        if place is not None and isinstance(first, Over) and _fits(place, first.names):
            walk(hook, way)
            return
    walk(hook, step.ways[0])


# --- counted -------------------------------------------------------------------------------


def with_squares(groups: Counted, makes: Counted, context: SizeContext) -> Counted:
    """The groups with blocks and squares as the whole row has them, its first one too.

    A row of squares is one stitch, and for each space one more, for each block as many as it has.
    """
    if not groups or not context.special:
        return groups
    formed = {name for name, _ in groups if name in context.special}
    wide = [_width(one) for name, one in context.special.items() if one.square and _solid(one)]
    used = [name for name in formed if context.special[name].square]
    if len(wide) != 1 or not used or wide[0] < 1:
        return groups
    spaces = sum(number for name, number in makes if name.endswith(" sp"))
    stitches = sum(number for name, number in makes if not name.endswith(" sp"))
    blocks, odd = divmod(stitches - 1 - spaces, wide[0])
    if odd:
        return groups
    solid = next(name for name, one in context.special.items() if one.square and _solid(one))
    kept = tuple(pair for pair in groups if pair[0] not in (solid, "square"))
    return (*kept, (solid, blocks), ("square", blocks + spaces))


def places_of_square(one: SpecialStitch) -> list[tuple[Place, int]]:
    """The places that one square leaves."""
    found: list[tuple[Place, int]] = []
    for step in one.steps:
        first = step.ways[0][0] if isinstance(step, Either) else step
        match first:
            case Chain(count=count) if count.values:
                found.append((space(count.values[0] or 0), 1))
            case Work(content=(Stitch(name=name),)):
                found.append((stitch(name, kind_of(name).base), _stitches(first)))
            case _:
                continue
    return found


def _solid(one: SpecialStitch) -> bool:
    return not one.name.startswith("beg ") and not any(isinstance(s, Chain) for s in one.steps)


def _width(one: SpecialStitch) -> int:
    return sum(_stitches(step) for step in one.steps)


def _stitches(step: Step) -> int:
    match step:
        case Work(content=content, target=Next(count=count) | Unplaced(count=count)):
            if first_of_content(content) is None or not count.values:
                return 0
            own = content[0].count.values[0] if isinstance(content[0], Stitch) else 1
            return (count.values[0] or 0) * (own or 0)
        case Either(ways=ways):
            return sum(map(_stitches, ways[0]))
        case _:
            return 0


# --- what a stitch over several places is made of --------------------------------------------


def stitches_of(known: SpecialStitch) -> dict[str, int]:
    """The stitches that a crossed stitch is made of, by kind ("dc, dc in skipped st": 2 dc)."""
    found: dict[str, int] = {}
    for step in known.steps:
        if not isinstance(step, Work):
            continue
        target = step.target
        places = 1
        if isinstance(target, Next | Unplaced | Same) and len(target.count.values) == 1:
            places = target.count.values[0] or 1
        for part in step.content:
            if isinstance(part, Stitch):
                number = (part.count.values[0] or 1) if part.count.values else 1
                found[part.name] = found.get(part.name, 0) + number * places
    return found
