"""Second readings: the other ways in which the words of a row can be meant.

Takes     the steps of a row that does not come out by the default reading.
Gives     ``readings``: for each other way its words and its steps.
Problems  none: whoever walks the rows gives the advice ``row-reading``.
From      notation.md, "Two readings", "Chains at the start", "How repeats end".

A reading is the same row with what was left unsaid put in, so that the walker needs to know
nothing of readings. What is said in the row or in the file has no other reading.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping

from workeven.notation.in_each import one_in_each, several_in_each
from workeven.notation.space_of_chain import space_of_chain
from workeven.notation.tree import (
    Amount,
    Chain,
    ChainOfTurning,
    CountsAs,
    FromHook,
    JoinRound,
    Repeat,
    SpecialStitch,
    Step,
    Work,
)
from workeven.notation.vocabulary import HEIGHTS, kind_of
from workeven.proof.joined_bare import as_stitch
from workeven.proof.made import first_of, first_stitch, lead_of
from workeven.proof.mesh import mesh_chains
from workeven.proof.reading import Reading
from workeven.proof.readings_of_ends import (
    before_the_turning_chain,
    ends_early,
    ends_in_turning_chain,
    gives_up_as_many,
    joined_place,
    last_left,
    last_loop,
    last_repeats,
    skip_unsaid,
    stops_early,
)
from workeven.proof.readings_of_loops import in_the_same_loop, picot_loops
from workeven.proof.readings_of_places import (
    along_each_side,
    chain_of_space,
    chains_among_the_last,
    chains_counted,
    listed,
    up_to_the_middle,
)
from workeven.proof.times_of_all import times_of_all
from workeven.proof.unsaid_chains import AS_HIGH, joined_to, passed_by_the_join, stands_for
from workeven.records import replace


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
    if any(isinstance(step, Repeat) and not step.steps for step in steps):
        return ()  # brackets with nothing in them: no reading fills them
    found: list[Reading] = []
    found.extend(_turning_chains(steps, turning_chain, turning_chains, special))
    found.extend(_skipped_chains(steps, turning_chains, special))
    if (stitch := as_stitch(steps)) is not None:
        joins, last = "the sl st at its end joins the round", "the sl st at its end is a st"
        found.append(Reading(default=joins, taken=last, steps=stitch))
    if worked != "flat rows":
        found.extend(last_repeats(steps))
        found.extend(skip_unsaid(steps))
        found.extend(last_loop(steps))
        found.extend(along_each_side(steps))
    elif (stated and not _counted_apart(steps)) or gives_up_as_many(steps):
        found.extend(stops_early(steps))
    found.extend(ends_early(steps))
    found.extend(ends_in_turning_chain(steps))
    if stated:
        found.extend(chains_counted(steps))
    found.extend(chains_among_the_last(steps, stated=stated))
    found.extend(listed(steps))
    found.extend(joined_place(steps))
    found.extend(last_left(steps))
    found.extend(before_the_turning_chain(steps))
    found.extend(chain_of_space(steps))
    found.extend(up_to_the_middle(steps))
    found.extend(picot_loops(steps))
    found.extend(in_the_same_loop(steps))
    if (leaving := space_of_chain(steps)) is not None:
        behind, its = "the space is one more behind the others", "the last space is the chain's"
        found.append(Reading(default=behind, taken=its, steps=leaving))
    one, several = "so many in so many sts: one in each", "so many in each of the sts"
    if stated and (in_each := several_in_each(steps)) is not None:
        found.append(Reading(default=one, taken=several, steps=in_each))
    if (in_each := one_in_each(steps)) is not None:
        found.append(Reading(default=several, taken=one, steps=in_each))
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
            yield from _otherwise_than_before(steps, at, chain, special)
        return
    base = _base_ahead(steps[0 if at is None else at + 1 :], special)
    told = stands_for(count or 0, base, steps[0 if at is None else at + 1 :])
    high = told or AS_HIGH.get(count or 0)
    lower = HEIGHTS.get(base or "", 0) < HEIGHTS["dc"]
    if high is not None and (told or lower) and told not in said:
        as_stitch, not_ = f"(counts as {high})", "(does not count)"
        counts_as = CountsAs(() if told else ((Amount((1,)), high),))
        other = replace(chain, counts_as=counts_as)
        yield Reading(
            default=f"ch {count} {as_stitch if told else not_}",
            taken=f"ch {count} {not_ if told else as_stitch}",
            steps=(other, *steps) if at is None else (*steps[:at], other, *steps[at + 1 :]),
        )
    if count is None or base is None or base in said:
        return
    if at is not None and count <= HEIGHTS["hdc"] and joined_to(count, base, steps[at + 1 :]):
        yield Reading(
            default=f"ch {count} (counts as {base})",
            taken=f"ch {count} (does not count)",
            steps=(*steps[:at], replace(chain, counts_as=CountsAs(())), *steps[at + 1 :]),
        )
        return
    if at is not None and passed_by_the_join(count, base, steps[at + 1 :]):
        yield Reading(
            default=f"ch {count} (does not count)",
            taken=f"ch {count} (counts as {base})",
            steps=(
                *steps[:at],
                replace(chain, counts_as=CountsAs(((Amount((1,)), base),))),
                *steps[at + 1 :],
            ),
        )
        return
    for words, default, counts in _as_other(base, count):
        if counts == CountsAs(()) and _joins_to_the_chain(steps):
            continue  # what is joined to is a stitch
        other = replace(chain, counts_as=counts)
        changed = (other, *steps) if at is None else (*steps[:at], other, *steps[at + 1 :])
        yield Reading(
            default=f"ch {count} {default}",
            taken=f"ch {count} {words}",
            steps=changed,
            against=counts == CountsAs(()),
        )


def _otherwise_than_before(
    steps: tuple[Step, ...], at: int, chain: Chain, special: Mapping[str, SpecialStitch]
) -> Iterator[Reading]:
    """A chain of which an earlier row has said something, and this row nothing."""
    count, said = chain.count.values[0], chain.counts_as
    base = _base_ahead(steps[at + 1 :], special)
    as_high = base is not None and count == HEIGHTS[base]
    counts, words = CountsAs(()), "(does not count)"
    if said is not None and not said.stitches and said.chains is None:
        if base is None or not as_high:
            return
        counts, words = CountsAs(((Amount((1,)), base),)), f"(counts as {base})"
    by_table = as_high and HEIGHTS[base or ""] >= HEIGHTS["dc"]
    yield Reading(
        default=f"ch {count} as an earlier row counts it",
        taken=f"ch {count} {words}",
        steps=(*steps[:at], replace(chain, counts_as=counts), *steps[at + 1 :]),
        tacit=bool(counts.stitches) == by_table,
    )


def _counted_apart(steps: tuple[Step, ...]) -> bool:
    """Whether the stated count says of the row's chain that it is none of what is counted."""
    at = lead_of(steps)
    chain = None if at is None else steps[at]
    said = chain.counts_as if isinstance(chain, Chain) else None
    return said is not None and said.by_count


def _joins_to_the_chain(steps: tuple[Step, ...]) -> bool:
    """``join with sl st to 3rd ch of beg ch-3``."""
    return any(
        isinstance(step, JoinRound) and isinstance(step.target, ChainOfTurning) for step in steps
    )


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


def _skipped_chains(
    steps: tuple[Step, ...], said: Mapping[str, bool], special: Mapping[str, SpecialStitch]
) -> Iterator[Reading]:
    for at, step in enumerate(steps):
        if not (isinstance(step, Work) and isinstance(step.target, FromHook)):
            continue
        target = step.target
        nth = target.nth.values[0] if len(target.nth.values) == 1 else None
        name = first_of(step.content)
        base = None if name is None else kind_of(name).base
        known = None if name is None else special.get(name)
        group = known.content if known is not None and known.place is None else step.content
        beside = (
            ()
            if nth is None or len(group) < _SEVERAL
            else _beside_a_group(steps, at, nth, first_of(group), said)
        )
        if beside:
            yield from beside
            return
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


#: a group has so many parts
_SEVERAL = 2


def _beside_a_group(
    steps: tuple[Step, ...], at: int, nth: int, first: str | None, said: Mapping[str, bool]
) -> tuple[Reading, ...]:
    """``V-st in 5th ch from hook``: three of the four stand for a dc, the group stands off it."""
    step = steps[at]
    base = None if first is None else kind_of(first).base
    if not isinstance(step, Work) or not isinstance(step.target, FromHook):
        return ()
    if base not in HEIGHTS or base in said or step.target.skipped is not None:
        return ()
    if nth - 1 <= HEIGHTS[base] or HEIGHTS[base] < HEIGHTS["dc"]:
        return ()
    counts = CountsAs(((Amount((1,)), base),))
    other = replace(step, target=replace(step.target, skipped=counts))
    return (
        Reading(
            default=f"the {nth - 1} skipped chs (does not count)",
            taken=f"the {nth - 1} skipped chs (counts as {base})",
            steps=(*steps[:at], other, *steps[at + 1 :]),
        ),
    )
