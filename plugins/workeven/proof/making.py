"""What a row makes: the places it leaves, and the counts of what it makes and works.

Takes     what a step works (``Content``), chains, and how often.
Gives     ``Made``, ``make``, ``make_here``, ``chain_between``, ``stand_for`` …
Problems  ``row-chains-counted``.
From      notation.md, the table of steps ("makes"), "What is reported", "Beginning versions".

Four counts are kept. ``makes`` is by kind what a row reports: a decrease under its own name,
spaces beside the stitches. ``worked`` is what the yarn goes into: chains and slip stitches too.
``groups`` is how many of each special stitch there are that stands for several. ``passed`` are the
stitches of the row before that were skipped, by name and basic stitch.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from typing import assert_never

from workeven.notation.tree import (
    ONE,
    Amount,
    Chain,
    Content,
    CountsAs,
    First,
    Foundation,
    Last,
    Next,
    Picot,
    SpecialStitch,
    Stitch,
    Times,
    Work,
)
from workeven.notation.vocabulary import HEIGHTS, kind_of
from workeven.proof.context import Fault, SizeContext, chain_counts
from workeven.proof.fabric import (
    BEYOND,
    PICOT,
    Builder,
    Loop,
    Node,
    Place,
    Run,
    counted_chain,
    inside_key,
    last_place,
    space,
    stitch,
    tally,
)
from workeven.proof.naming import spoken
from workeven.records import replace


class Made:
    """What a row has made so far: a plain, changing record of the walk."""

    __slots__ = ("context", "groups", "makes", "off", "out", "passed", "stretch", "worked")

    def __init__(self, context: SizeContext) -> None:
        self.context = context
        self.out = Builder()
        self.makes: dict[str, int] = {}
        self.worked: dict[str, int] = {}
        self.groups: dict[str, int] = {}
        self.passed: dict[tuple[str, str], int] = {}
        self.stretch = 0
        self.off: dict[str, int] | None = None  # the counts when something was worked off the row

    def count(self, name: str, count: int) -> None:
        """So many of a kind are made."""
        if count:
            self.makes[name] = self.makes.get(name, 0) + count

    def work(self, name: str, count: int) -> None:
        """So many of a kind are worked."""
        if count:
            if self.stretch:
                name = in_stretch(name, self.stretch)
            self.worked[name] = self.worked.get(name, 0) + count

    def leave(self, place: Place, count: int) -> None:
        """So many places of a kind are left for the next row, and counted."""
        if count > 0:
            self.out.add(place, count)
            self.makes[place.name] = self.makes.get(place.name, 0) + count

    def stand_off(self) -> None:
        """What was worked last leaves no place: chains after it are a run of their own."""
        self.off = dict(self.makes)

    def note_beyond(self, times: int) -> None:
        """So many runs of chains go on with the loop of the run before, behind a picot on it."""
        if times:
            self.groups[BEYOND] = self.groups.get(BEYOND, 0) + times

    @property
    def sts(self) -> int:
        """The counted stitches made so far."""
        return sum(node.sts for node in self.out.nodes)

    def beside(self) -> Builder:
        """Set the output aside and make into an empty one; gives the one set aside."""
        kept, self.out = self.out, Builder()
        return kept

    def add_turns(self, turn: Made, times: int) -> None:
        """What one turn of a repeat makes, so many times."""
        for counts, each in (
            (self.makes, turn.makes),
            (self.worked, turn.worked),
            (self.groups, turn.groups),
        ):
            for name, number in each.items():
                counts[name] = counts.get(name, 0) + number * times
        self.out.add_times(tuple(turn.out.nodes), times)


#: where a step finds a place of a row below
Placed = Next | First | Last


def reach_of(step: Work, target: Placed) -> str:
    """Under which group a row counts the places of a row below that a step works into."""
    return f"below\t{step.rows_below} {spoken(target.names)}"


def note_reach(made: Made, step: Work) -> None:
    """So many places of a row below are worked into."""
    if isinstance(step.target, Placed):
        key = reach_of(step, step.target)
        number = made.context.amount(step.target.count) or 0
        made.groups[key] = made.groups.get(key, 0) + number


def in_stretch(name: str, stretch: int) -> str:
    """A kind that is worked in a later stretch of a row that changes colour, kept apart."""
    return f"{name}\t{stretch}"


def make(made: Made, content: tuple[Content, ...], times: int, *, spread: bool = False) -> None:
    """Make the content once in each of ``times`` places."""
    if times <= 0:
        return
    only = content[0]
    name = None
    if len(content) == 1 and isinstance(only, Stitch):
        name = only.name
        count = made.context.amount(only.count)
        if not count:
            return
        full = full_name(made.context.special, name)
        if (count == 1 or spread) and special_of(made.context, name) is None:
            made.leave(stitch(full, kind_of(full).base), times)
            made.work(name, times)
            return
    nodes = _nodes(made, content, times)
    if nodes:
        if not (len(nodes) == 1 and isinstance(nodes[0], Loop) and nodes[0].group):
            known = name if name is not None and special_of(made.context, name) else None
            if known is None and made.context.special:
                known = _special_of(made, list(nodes))  # "5 dc" or "(2 dc, ch 2, 2 dc)" is one too
                if known is not None:
                    count_special(made, known, tally(nodes), times)
            nodes = (Loop(nodes, 1, group=True, name=known),)
        made.out.add_times(nodes, times)
        _count_group(made, nodes[0], times)


def make_group(made: Made, content: tuple[Content, ...], times: int, name: str) -> None:
    """The same as a group that bears a name, for the next row to find it by."""
    nodes = _nodes(made, content, times)
    if nodes:
        made.out.add_times((Loop(nodes, 1, group=True, name=name),), times)


def _count_group(made: Made, node: Node, times: int) -> None:
    """Stitches worked together into one place, counted by how many they are."""
    if isinstance(node, Loop) and node.name is None and node.sts > 1:
        name = f"={node.sts}"
        made.groups[name] = made.groups.get(name, 0) + times


def make_here(made: Made, content: tuple[Content, ...], start: int | None) -> None:
    """Make content in the place where a counted chain stands already: one group of both.

    ``start`` is where in the output that chain is.
    """
    if start is None or start >= len(made.out.nodes):
        make(made, content, 1)
        return
    kept = made.beside()
    make(made, content, 1)
    inside = list(kept.nodes[start:])
    kept_alone = sum(node.sts for node in inside)
    for node in made.out.nodes:
        plain = isinstance(node, Loop) and node.group and node.name not in made.context.special
        inside.extend(node.nodes if isinstance(node, Loop) and plain else (node,))
    name = _special_of(made, inside)
    group = Loop(tuple(inside), 1, group=True, name=name)
    kept.nodes[start:] = [group]
    made.out = kept
    _count_group(made, group, 1)
    if name is not None:
        count_special(made, name, tally(tuple(inside)))
    alone = sum(node.sts for node in inside) - kept_alone
    if alone > 1:  # the content alone is no group of its own
        made.groups[f"={alone}"] = made.groups.get(f"={alone}", 1) - 1


def _special_of(made: Made, nodes: list[Node]) -> str | None:
    """The special stitch that a group is which begins with a chain: its first shell is one too."""
    sts = sum(node.sts for node in nodes)
    if sts > _MOST_IN_A_SHELL:
        return None
    there = list(_shape(nodes))
    for name, special in made.context.special.items():
        if special.content:
            own = _nodes(Made(made.context), special.content, 1)
            if sum(node.sts for node in own) == sts and list(_shape(own)) == there:
                return name
    return None


#: so many stitches are no shell, whatever is declared
_MOST_IN_A_SHELL = 1_000


def _shape(nodes: Iterable[Node]) -> Iterator[tuple[str, str]]:
    """What a group consists of, place by place."""
    for node in nodes:
        if isinstance(node, Run):
            name = node.place.base if node.place.sort == "st" else node.place.name
            yield from ((node.place.sort, name),) * node.count
        else:
            yield from tuple(_shape(node.nodes)) * node.times


def count_special(made: Made, name: str, inside: dict[str, int], times: int = 1) -> None:
    """So many more of a special stitch, and the stitches in each."""
    made.groups[name] = made.groups.get(name, 0) + times
    for kind, number in inside.items():
        key = inside_key(name, kind)
        made.groups[key] = made.groups.get(key, 0) + number * times


def _nodes(made: Made, content: tuple[Content, ...], times: int) -> tuple[Node, ...]:
    """The places that content leaves in one place; its counts are added ``times`` over."""
    builder = Builder()
    parted = False
    for part in content:
        match part:
            case Stitch(name=name, count=amount):
                _add_stitch(made, builder, name, made.context.amount(amount) or 0, times)
                special = made.context.special.get(name)
                parted = special is not None and (special.takes == 0 or _is_picot(special))
            case Chain():
                _add_chain(made, builder, part, times, parted=parted)
                parted = False
            case Picot():
                _stand_off(made, builder, part, times)
                parted = True
            case Times(content=inner, count=amount):
                count = made.context.amount(amount) or 0
                if count:
                    builder.add_times(_nodes(made, inner, times * count), count)
            case _:
                assert_never(part)
    return tuple(builder.nodes)


def _is_picot(special: SpecialStitch) -> bool:
    """A picot under a name of its own stands off as one that is written out does."""
    return bool(special.steps) and isinstance(special.steps[0], Picot)


def _count_inside(made: Made, name: str, before: dict[str, int]) -> None:
    """The stitches that stand inside special stitches: a count may name those beside them alone."""
    for kind, number in made.makes.items():
        if number > before.get(kind, 0):
            key = inside_key(name, kind)
            made.groups[key] = made.groups.get(key, 0) + number - before.get(kind, 0)


def _add_stitch(made: Made, builder: Builder, name: str, count: int, times: int) -> None:
    if not count:
        return
    special = special_of(made.context, name)
    if special is not None and special.steps and isinstance(special.steps[0], Picot):
        _stand_off(made, builder, special.steps[0], times * count)
        return
    if special is not None and special.content:
        made.groups[name] = made.groups.get(name, 0) + count * times
        before = made.makes.copy()
        inside = _nodes(made, beginning(made.context, special), count * times)
        _count_inside(made, name, before)
        full = full_name(made.context.special, name)
        builder.add_times((Loop(inside, 1, group=True, name=full),), count)
        return
    made.work(name, count * times)
    full = full_name(made.context.special, name)
    made.count(full, count * times)
    if special is None or special.takes > 0:
        builder.add(stitch(full, basic_of(made.context, full)), count)


def basic_of(context: SizeContext, name: str) -> str:
    """The basic stitch that a stitch may be called by; a declared "FPdc" is a dc like any fpdc.

    In UK terms a declared "FPtr" is a dc: its own words tell in which terms it is.
    """
    base, special = kind_of(name).base, special_of(context, name)
    of_the_trade = base == name and kind_of(name.lower()).base != name.lower()
    return (special.base or base) if special is not None and of_the_trade else base


def special_of(context: SizeContext, name: str) -> SpecialStitch | None:
    """What a name was declared as; a "beg shell" that was not is made as the shell is."""
    own = context.special.get(name)
    return context.special.get(full_name(context.special, name)) if own is None else own


def beginning(context: SizeContext, special: SpecialStitch) -> tuple[Content, ...]:
    """What a special stitch is made of; the chain that a "beg shell" begins with is a stitch.

    It counts as the turning chain of a row does: as high as the stitch behind it, and counted.
    """
    first, *rest = special.content
    if not (special.name.startswith("beg ") and isinstance(first, Chain)):
        return special.content
    behind = next((one for one in rest if isinstance(one, Stitch)), None)
    base = "" if behind is None else kind_of(behind.name).base
    as_high = context.amount(first.count) == HEIGHTS.get(base)
    if first.counts_as is None and as_high and chain_counts(context, base):
        return (replace(first, counts_as=CountsAs(((ONE, base),))), *rest)
    if first.counts_as is None and (above := _above_the_stitch(context, special, first, base)):
        return (replace(first, counts_as=CountsAs(((ONE, base),), above)), *rest)
    return special.content


def _above_the_stitch(
    context: SizeContext, special: SpecialStitch, chain: Chain, base: str
) -> Amount | None:
    """``beg V-st = ch 4, dc in same st``: of a V-st with a ch 1, whose dc the other three are."""
    full = context.special.get(special.name.removeprefix("beg "))
    match () if full is None else full.content:
        case (Stitch(name=name), Chain(count=above), *_) if kind_of(name).base == base:
            long = (context.amount(above) or 0) + HEIGHTS.get(base, 0)
            return above if context.amount(chain.count) == long else None
        case _:
            return None


def full_name(special: Mapping[str, SpecialStitch], name: str) -> str:
    """The stitch that a beginning version is: "beg cl" makes the same stitch as "cl".

    Or as the one that its words say it counts as.
    """
    own = special.get(name)
    other = None if own is None else own.stands_for
    return other if other is not None and other in special else name.removeprefix("beg ")


def _add_chain(made: Made, builder: Builder, chain: Chain, times: int, *, parted: bool) -> None:
    count = made.context.amount(chain.count) or 0
    made.work("ch", count * times)
    counts_nothing = chain.counts_as is not None and not chain.counts_as.stitches
    if not count or counts_nothing:
        return
    if chain.counts_as is not None:
        for number, base in chain.counts_as.stitches:
            sts = made.context.amount(number) or 0
            each = base == "st" and sts == count
            builder.add(stitch("ch", "ch") if each else counted_chain(base, base, count), sts)
            made.count("ch" if each else base, sts * times)
        count = made.context.amount(chain.counts_as.chains) or 0 if chain.counts_as.chains else 0
    if not count:
        return
    if made.context.each_chain_counts:
        builder.add(stitch("ch", "ch"), count)
        made.count("ch", count * times)
    else:
        beyond = parted and _ends_in_space(builder)
        builder.add(space(count, parted=beyond), 1)
        made.count(f"ch-{count} sp", times)
        made.note_beyond(times if beyond else 0)


def _ends_in_space(builder: Builder) -> bool:
    """Whether the last place is a space: a chain behind a picot on it goes on with its loop."""
    return bool(builder.nodes) and last_place(tuple(builder.nodes))[0].sort == "sp"


# --- chains --------------------------------------------------------------------------------


def chain_between(made: Made, step: Chain, count: int) -> None:
    """Chains between steps: a space, or stitches where they count as such."""
    made.work("ch", count)
    said = step.counts_as
    if said is None:
        if made.context.each_chain_counts:
            made.leave(stitch("ch", "ch"), count)
        else:
            beyond = made.off == made.makes and _ends_in_space(made.out)
            made.leave(space(count, parted=beyond), 1)
            made.note_beyond(int(beyond))
        return
    for amount, name in said.stitches:
        number = made.context.amount(amount) or 0
        if name == "st" and number not in (0, 1, count):
            raise Fault(
                "row-chains-counted",
                said.start,
                said.end,
                f"ch {count} is said to count as {number} sts",
                mend="Chains that count as sts count one each.",
            )
        known = "ch" if name == "st" else name
        made.leave(stitch(known, kind_of(known).base), number)
    _chains_counted(made, said)


def stand_for(made: Made, said: CountsAs, count: int, base: str | None) -> None:
    """The stitches and chains that a chain of ``count`` at the start stands for."""
    for amount, name in said.stitches:
        known = (base or "st") if name == "st" else name
        place = counted_chain(known, kind_of(known).base, count)
        made.leave(place, made.context.amount(amount) or 0)
    _chains_counted(made, said)


def _chains_counted(made: Made, said: CountsAs) -> None:
    """The space of "(counts as dc and ch 2)"."""
    if said.chains is not None:
        chains = made.context.amount(said.chains) or 0
        if chains and made.context.each_chain_counts:
            made.leave(stitch("ch", "ch"), chains)
        elif chains:
            made.leave(space(chains), 1)


def make_picot(made: Made, step: Picot) -> None:
    """A picot stands off the row: a place only for a row that names it."""
    _stand_off(made, made.out, step, 1)
    if made.context.amount(step.chains):
        made.stand_off()


def _stand_off(made: Made, builder: Builder, step: Picot, times: int) -> None:
    """A picot, on the stitch or space before it."""
    count = made.context.amount(step.chains)
    if count:
        made.count("picot", times)
        made.work("ch", count * times)
        made.work("sl st", times)
        _bear_picot(builder)


def _bear_picot(builder: Builder) -> None:
    """The place before a picot bears its mark, by which a row finds it ("sc in next picot")."""
    if not builder.nodes or not isinstance(builder.nodes[-1], Run):
        return
    last = builder.nodes.pop()
    assert isinstance(last, Run)
    builder.add(last.place, last.count - 1)
    builder.add(replace(last.place, marks=(*last.place.marks, PICOT)), 1)


def make_foundation(made: Made, step: Foundation) -> None:
    """Stitches worked with their own chain."""
    count = made.context.amount(step.count)
    if count:
        made.leave(stitch(step.name, kind_of(step.name).base), count)
        made.work(step.name, count)
