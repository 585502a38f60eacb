"""Steps that are known by their neighbours: picots, a group that begins with its chain, spaces too.

Takes     the steps of a row, as they were read one after the other.
Gives     ``with_picots``, ``with_lead_chain``, ``with_legs``, ``over_each``.
Problems  none.
From      notation.md, "Chains worked back along", "Named places".
"""

from __future__ import annotations

import re
from collections.abc import Iterable
from itertools import zip_longest

from workeven.notation.stream import NotUnderstood
from workeven.notation.tree import (
    ONE,
    Amount,
    AnyStitch,
    Aside,
    Chain,
    Corners,
    CountsAs,
    Each,
    EachChainCounts,
    FastenOff,
    FromHook,
    Increase,
    Inside,
    IntoRing,
    JoinRound,
    JoinYarn,
    MagicRing,
    Marked,
    NamedStitch,
    Next,
    Picot,
    Repeat,
    Same,
    Skip,
    Space,
    Step,
    Stitch,
    StitchGroup,
    Target,
    ToLast,
    ToNext,
    Travel,
    Turn,
    Unplaced,
    Work,
)
from workeven.notation.vocabulary import HEIGHTS, kind_of
from workeven.records import replace


def with_picots(found: list[Step]) -> list[Step]:
    """``ch 3, sl st in last tr``: a chain closed on itself or on the last stitch is a picot."""
    steps_: list[Step] = []
    for step in found:
        before = steps_[-1] if steps_ else None
        if isinstance(before, Work) and isinstance(before.target, Each):
            steps_[-1:] = _in_the_same_pass(before, step)
        elif isinstance(before, Chain) and _closes_picot(step, before):
            steps_[-1] = Picot(before.count, before.start, step.end)
        else:
            steps_.append(step)
    return steps_


def with_chains_over(found: list[Step]) -> list[Step]:
    """``sc in each sc, ch 1 and sk each ch-1 sp across``: a chain over each, as they come."""
    for at in range(len(found) - 1):
        each, skip = found[at : at + 2]
        if isinstance(each, Work) and isinstance(skip, Skip) and _passes_its_spaces(each, skip):
            return [*found[: at + 1], Aside(skip.start, skip.end), *found[at + 2 :]]
    for at in range(len(found) - 2):
        each, chain, skip = found[at : at + 3]
        if not (isinstance(each, Work) and isinstance(each.target, Each)):
            continue
        over = isinstance(skip, Skip) and isinstance(skip.target, Each)
        if isinstance(chain, Chain) and over and each.target.limit is None:
            assert isinstance(skip, Skip)
            assert isinstance(skip.target, Each)
            names = skip.target.names
            if isinstance(names[0], Space) and chain.counts_as is None:
                comes = Corners((chain,), Next(names), chain.start, skip.end)
                return [*found[: at + 1], comes, *found[at + 3 :]]
    return found


def _passes_its_spaces(each: Work, skip: Skip) -> bool:
    """``sc in each dc across, sk ch-1 sp of each shell``: that row passes them on its way."""
    whole = isinstance(each.target, Each) and each.target.limit is None
    into = skip.target
    inside = isinstance(into, Inside) and isinstance(into.name, Space)
    spaces = isinstance(each.target, Each) and any(
        isinstance(name, Space) for name in each.target.names
    )
    within = into.container if isinstance(into, Inside) else None
    every = isinstance(within, Next) and within.each and within.count.values == (1,)
    return whole and inside and every and not spaces


_IT = Same()


def _in_the_same_pass(before: Work, step: Step) -> tuple[Step, ...]:
    """``sc in each sc and 6 sc in each ch-6 sp around``: what goes into others, as they come."""
    if not isinstance(step, Work):
        return before, _in_each_marked(before, step) or step
    if isinstance(step.target, Same) and step.target == _IT:
        return before, _in_what_was_come_to(before, step)
    if _in_each_space_too(step, before):  # the spaces are named first
        return step, _as_they_come(before)
    cornered = _in_each_corner(before, step)
    if cornered is not None:
        return before, cornered
    if _in_each_space_too(before, step) or _in_each_kind(before, step):
        return before, _as_they_come(step)
    return before, _in_each_marked(before, step) or step


def _in_what_was_come_to(before: Work, step: Work) -> Work:
    """``sc in each st to next ch-2 sp, 3 sc in it``: that space, and not the stitch before it."""
    assert isinstance(before.target, Each)
    match before.target.limit:
        case ToNext(name=name, less=None, inside=False):
            return replace(step, target=Next((name,)))
        case ToNext(name=StitchGroup(name=None), less=None):  # it stops in front of the middle
            return replace(step, target=Next((AnyStitch(),)))
        case ToLast(count=count, names=names, before=False) if count.values == (1,):
            return replace(step, target=Next(names))
        case None:
            return step
        case _:
            raise NotUnderstood(
                step.start,
                step.end,
                "what “it” stands for is not said",
                "Name the place, such as “3 sc in next ch-2 sp”.",
            )


def _as_they_come(step: Work) -> Corners:
    """What is worked into each place of its names, wherever the pass beside it meets one."""
    assert isinstance(step.target, Each)
    return Corners(step.content, Next(step.target.names), step.start, step.end)


# (tuples of classes: a union of classes would be built anew each time that it is asked)
_WITHOUT_PLACE = (Aside, Turn, MagicRing)
_BRINGING = (JoinYarn, Travel)
_AT_HEAD = _WITHOUT_PLACE + _BRINGING


def with_lead_chain(found: list[Step]) -> list[Step]:
    """``(ch 3, 2 dc, ch 2, 3 dc) in same sp`` at a row's head begins with its turning chain.

    So it does ``in corner`` or ``in next ch-2 sp`` where the hook was brought there: nobody works a
    chain in one place and its group in another.
    """
    brought = False
    for at, step in enumerate(found):
        if isinstance(step, _WITHOUT_PLACE):
            continue
        if isinstance(step, _BRINGING) or _slips(step):
            brought = True
            continue
        if isinstance(step, Work) and not brought and (went := _goes_there(step)) is not None:
            return with_lead_chain([*found[:at], went, *found[at:]])
        if not isinstance(step, Work) or not _in_place_of_the_hook(step, brought=brought):
            return found
        first = step.content[0]
        if not isinstance(first, Chain) or len(step.content) == 1:
            return found
        here = step.target if isinstance(step.target, IntoRing) else _same(step.target)
        rest = replace(step, content=step.content[1:], target=here)
        return [*found[:at], first, rest, *found[at + 1 :]]
    return found


_OVER_A_STITCH = re.compile(r"\bover (?:each |the )?(?:[hd]?dc|sc|h?tr|s c|d c)\b", re.IGNORECASE)


def over_each(text: str, found: list[Step]) -> list[Step]:
    """``sc over sc``, where that is all the row says: each of them over one."""
    works = [at for at, step in enumerate(found) if not isinstance(step, _BESIDE)]
    step = found[works[0]] if len(works) == 1 else None
    if not isinstance(step, Work) or not isinstance(step.target, Next) or step.over:
        return found
    plain = step.target.count is ONE and isinstance(step.target.names[0], NamedStitch)
    if not plain or _OVER_A_STITCH.search(text, step.start, step.end) is None:
        return found
    each = replace(step, target=Each(step.target.names))
    return [*found[: works[0]], each, *found[works[0] + 1 :]]


#: what may stand beside the one step of such a row
_BESIDE = (Aside, Chain, FastenOff, JoinRound, Turn)


def with_counting(found: list[Step], said: CountsAs | None) -> list[Step]:
    """``ch 3, … (24 dc, counting ch 3 as 1 dc)``: what the row's count says of its first chain."""
    if said is None:
        return found
    for at, step in enumerate(found):
        if isinstance(step, Chain) and step.counts_as is None:
            return [*found[:at], replace(step, counts_as=said), *found[at + 1 :]]
        if isinstance(step, Work) and isinstance(step.target, FromHook):
            if step.target.skipped is not None:
                return found
            from_hook = replace(step.target, skipped=said)
            return [*found[:at], replace(step, target=from_hook), *found[at + 1 :]]
        brought = isinstance(step, _WITHOUT_PLACE + _BRINGING) or _slips(step)
        if not brought and not _leads_to_yarn(found, at):
            return found
    return found


def _leads_to_yarn(found: list[Step], at: int) -> bool:
    """``sk centre 7 sts, join yarn in next st, ch 2, …``: it begins where the yarn is joined."""
    behind = found[at + 1] if at + 1 < len(found) else None
    return isinstance(found[at], Skip) and isinstance(behind, JoinYarn)


def with_each_chain(found: list[Step], start: int, end: int) -> list[Step]:
    """``Rnd 1 (each ch counts as a st): …``: the chains that it makes, and those it works into.

    The chain that the row begins with is none of them, nor one beside its turn.
    """
    lead = next((at for at, step in enumerate(found) if not isinstance(step, _AT_HEAD)), 0)
    told: list[Step] = []
    for at, step in enumerate(found):
        beside = found[max(at - 1, 0) : at + 2]
        turning = any(isinstance(other, Turn) for other in beside)
        if isinstance(step, Chain) and (at == lead or turning):
            told += _head_and_chains(step, start, end)
        else:
            told.append(_each_counting(step, start, end))
    return [*told, EachChainCounts(start, end)]


def with_chains_alike(found: list[Step]) -> list[Step]:
    """``ch 6 (each ch counts as a st), sk next 28 sts, …, ch 6, sk next 28 sts``: so of both.

    What is said of a chain across a gap holds for one as long across another gap of the row.
    """
    said: dict[Amount, CountsAs] = {}
    told: list[Step] = []
    for step, behind in zip_longest(found, found[1:]):
        told.append(step)
        if not isinstance(step, Chain) or not isinstance(behind, Skip):
            continue
        long, counts = replace(step.count, start=0, end=0), step.counts_as
        if counts is None and long in said:
            told[-1] = replace(step, counts_as=said[long])
        elif counts is not None and counts.stitches == ((step.count, "st"),):
            said[long] = counts
    return told


def _head_and_chains(head: Chain, start: int, end: int) -> list[Step]:
    """``ch 4 (counts as dc and ch 1)``: the chain that is a stitch, and a chain that counts too."""
    said = head.counts_as
    chains = None if said is None else said.chains
    if said is None or chains is None or chains.formula or head.count.formula:
        return [head]
    if len(chains.values) != len(head.count.values):
        return [head]
    pairs = zip(head.count.values, chains.values, strict=True)
    left = tuple(None if one is None or two is None else one - two for one, two in pairs)
    stitch = replace(head, count=replace(head.count, values=left))
    behind = Chain(chains, start=head.start, end=head.end)
    return [
        replace(stitch, counts_as=replace(said, chains=None)),
        _each_counting(behind, start, end),
    ]


def _each_counting(step: Step, start: int, end: int) -> Step:
    """A step whose chains count one stitch each."""
    if isinstance(step, Chain) and step.counts_as is None:
        return replace(step, counts_as=CountsAs(((step.count, "st"),), None, None, start, end))
    if isinstance(step, Repeat):
        return replace(step, steps=tuple(_each_counting(one, start, end) for one in step.steps))
    if isinstance(step, Work):
        inside = tuple(
            replace(one, counts_as=CountsAs(((one.count, "st"),), None, None, start, end))
            if isinstance(one, Chain) and one.counts_as is None
            else one
            for one in step.content
        )
        return replace(step, content=inside) if inside != step.content else step
    return step


def with_whole(found: list[Step], whole: str | None) -> list[Step]:
    """``ch 2, dc in next st (ch 2 and dc count as dc2tog)``: the chain is the first leg."""
    if whole is None:
        return found
    return with_counting(found, CountsAs((), leg=whole))


def with_legs(found: list[Step]) -> list[Step]:
    """``ch 2 (counts as first leg of dc4tog), dc3tog in same st``: the two make a dc4tog."""
    steps_: list[Step] = []
    before: Step | None = None  # the last step that is no turn, at its index
    at = 0
    for step in found:
        said = before.counts_as if isinstance(before, Chain) else None
        if said is None and isinstance(before, Chain) and _leads(before, steps_[:at], step):
            said = CountsAs(((ONE, _base_of(step)),))
        leg = None if said is None else said.leg or _whole_of(said, step, found)
        if leg is not None and said is not None and isinstance(before, Chain) and not said.leg:
            steps_[at] = replace(before, counts_as=replace(said, stitches=(), leg=leg))
        if leg is not None and isinstance(step, Work) and len(step.content) == 1:
            only = step.content[0]
            several = isinstance(only, Stitch) and only.name == "cl" and only.legs > 1
            whole = Stitch("cl" if several else leg, ONE, kind_of(leg).legs, step.start, step.end)
            steps_.append(replace(step, content=(whole,), target=_of_all_legs(step.target)))
        else:
            steps_.append(step)
        if not isinstance(step, Turn):
            before, at = steps_[-1], len(steps_) - 1
    return steps_


def _leads(chain: Chain, before: list[Step], step: Step) -> bool:
    """Whether a chain at the head of the row is as high as the decrease or cluster behind it."""
    if any(not (isinstance(one, _WITHOUT_PLACE + _BRINGING) or _slips(one)) for one in before):
        return False
    height = HEIGHTS.get(_base_of(step), 0)
    return height >= HEIGHTS["dc"] and chain.count.values in ((height,), (height - 1,))


def _base_of(step: Step) -> str:
    """The basic stitch of a decrease or a cluster of legs; "" of all else."""
    only = step.content[0] if isinstance(step, Work) and len(step.content) == 1 else None
    several = isinstance(only, Stitch) and only.legs > 1
    return kind_of(only.name).base if isinstance(only, Stitch) and several else ""


def _of_all_legs(where: Target) -> Target:
    """The place of a stitch whose first leg is the chain, which stands on the place before it."""
    return Unplaced(ONE) if isinstance(where, Next) else where


def _whole_of(said: CountsAs, step: Step, found: list[Step]) -> str | None:
    """``ch 4 (counts as tr), tr2tog in same st`` begins the tr3tog that the row works elsewhere."""
    only = step.content[0] if isinstance(step, Work) and len(step.content) == 1 else None
    if not isinstance(only, Stitch) or only.legs == 1 or not isinstance(step, Work):
        return None
    base = kind_of(only.name).base
    alone = said.chains is None and [name for _, name in said.stitches] == [base]
    whole = f"{base}{only.legs + 1}tog"
    over = isinstance(step.target, Next) and step.target.count.values == (only.legs,)
    here = isinstance(step.target, Same | IntoRing) or (over and step.over)
    return whole if here and alone and _works(whole, found) else None


def _works(name: str, steps: Iterable[Step]) -> bool:
    """Whether a stitch is worked in any of the steps."""
    return any(
        _works(name, step.steps)
        if isinstance(step, Repeat)
        else isinstance(step, Work)
        and any(isinstance(part, Stitch) and part.name == name for part in step.content)
        for step in steps
    )


def _goes_there(step: Work) -> Travel | None:
    """``(ch 3, 2 dc, ch 2, 3 dc) in next ch-2 sp`` as a row's first words: the hook goes there.

    It is the row's beginning chain if it is as high as the stitch behind it.
    """
    target, content = step.target, step.content
    spaces = isinstance(target, Next) and all(isinstance(one, Space) for one in target.names)
    if not spaces or len(content) == 1 or not isinstance(target, Next) or target.count != ONE:
        return None
    first, second = content[0], content[1]
    if not isinstance(first, Chain) or not isinstance(second, Stitch):
        return None
    high = HEIGHTS.get(kind_of(second.name).base, 0)
    return Travel(target, step.start, step.start) if first.count.values == (high,) else None


def _slips(step: Step) -> bool:
    return isinstance(step, Work) and _only_slip_stitches(step)


def _in_place_of_the_hook(step: Work, *, brought: bool) -> bool:
    """Whether a group is worked where the hook stands."""
    match step.target:
        case Same() | IntoRing():
            return True
        case Next(count=count):
            return brought and count == ONE
        case _:
            return False


def _same(target: Target | None) -> Same:
    """The place where the hook stands, by the names that the target has."""
    if isinstance(target, Same):
        return target
    return Same(target.names[0]) if isinstance(target, Next) else Same()


def _only_slip_stitches(step: Work) -> bool:
    return all(isinstance(item, Stitch) and item.name == "sl st" for item in step.content)


def _in_each_space_too(before: Step | None, step: Step | None) -> bool:
    """``sc in each sc and 6 sc in each ch-6 sp around``: both as they come, in one pass."""
    if not (isinstance(before, Work) and isinstance(step, Work)):
        return False
    first, second = before.target, step.target
    return (
        isinstance(first, Each)
        and isinstance(second, Each)
        and first.limit is None
        and second.limit is None
        and not any(isinstance(name, Space) for name in first.names)
        and all(isinstance(name, Space) for name in second.names)
    )


def _in_each_kind(before: Step | None, step: Step | None) -> bool:
    """``fpdc in each fpdc, bpdc in each bpdc around``: as they come, in one pass."""
    if not (isinstance(before, Work) and isinstance(step, Work)):
        return False
    first, second = before.target, step.target
    if not (isinstance(first, Each) and isinstance(second, Each)):
        return False
    kinds = (*first.names, *second.names)
    named = all(isinstance(name, NamedStitch) for name in kinds) and len(set(kinds)) == len(kinds)
    return named and first.limit is None and second.limit is None


def _in_each_corner(before: Step | None, step: Step | None) -> Corners | None:
    """``sc in each dc around, 3 sc in each corner sp``: the corners, in the same pass."""
    if not (isinstance(before, Work) and isinstance(step, Work)):
        return None
    first, second = before.target, step.target
    if not (isinstance(first, Each) and isinstance(second, Each)):
        return None
    if first.limit is not None or second.names != (Space(corner=True),):
        return None
    return Corners(step.content, None, step.start, step.end)


def _in_each_marked(before: Step | None, step: Step | None) -> Corners | None:
    """``sc around, inc in each marked st``: what goes into the marked ones, in the same pass."""
    if not (isinstance(before, Work) and isinstance(before.target, Each)):
        return None
    if not isinstance(step, Increase | Work) or not isinstance(step.target, Each | Next):
        return None
    target, only = step.target, before.content[0]
    each = isinstance(target, Each) or target.each
    if not (each and isinstance(target.names[0], Marked) and isinstance(only, Stitch)):
        return None
    two = (replace(only, count=Amount((2,))),)
    content = step.content if isinstance(step, Work) else two
    return Corners(content, Next(target.names), step.start, step.end)


def _closes_picot(step: Step, chain: Chain) -> bool:
    if not isinstance(step, Work) or len(step.content) != 1:
        return False
    only = step.content[0]
    if not isinstance(only, Stitch) or only.name not in ("sl st", "sc"):
        return False
    match step.target:
        case FromHook(nth=nth):
            return nth.values == chain.count.values and only.name == "sl st"
        case Same(made=True):
            return only.name == "sl st"
        case _:
            return False
