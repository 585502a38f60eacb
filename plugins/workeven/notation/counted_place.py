"""A place that is counted: "hdc in 2nd st", "*ch 5, sc in 4th dc; rep from *".

Takes     ``Stream``, the steps before it in the row or the repeat, the step that goes there.
Gives     ``nth_place``, ``counted_off``.
Problems  ``row-not-understood``: where nothing tells from where it is counted.
From      common practice: at the head of a row it is counted from the row's first stitch, a counted
          turning chain standing over that; in a repeat from where the hook is; behind a skip of
          one fewer it is the next.
"""

from __future__ import annotations

from workeven.notation.places import names
from workeven.notation.stream import Stream
from workeven.notation.tree import (
    Amount,
    AnyStitch,
    Aside,
    Chain,
    First,
    JoinYarn,
    NamedStitch,
    Next,
    Same,
    Skip,
    Step,
    Travel,
    Turn,
    Unplaced,
    Work,
)
from workeven.records import replace


def nth_place(stream: Stream) -> Next | Same | None:
    """``2nd st``: the next such place, with the number kept until the steps before it are known.

    Takes: 4th dc
    Refuses: 4th ch from hook
    """
    mark = stream.here()
    nth = stream.ordinal()
    several = all((value or 0) > 1 for value in nth.values) or nth.by_size()
    if stream.accept("skipped"):  # behind the hook: "dc in 2nd skipped st"
        return Same(names(stream)[0], made=True)
    found = names(stream) if several else ()
    plain = found and all(isinstance(name, AnyStitch | NamedStitch) for name in found)
    if plain and not stream.is_word("from", "of", "on"):
        stream.nth = nth
        return Next(found)
    stream.back_to(mark)
    return None


def counted_off(
    stream: Stream, before: list[Step], found: tuple[Step, ...], *, inside: bool
) -> tuple[Step, ...]:
    """The step with what it passes over; ``inside`` a repeat it is counted from the hook."""
    nth, stream.nth = stream.nth, None
    assert nth is not None
    inside, stream.nth_onward = inside or stream.nth_onward, False
    step = found[0] if found else None
    if isinstance(step, Travel | JoinYarn) and isinstance(step.target, Next):
        there = replace(step.target, count=nth)
        return (replace(step, target=there), *found[1:])
    if not isinstance(step, Work) or not isinstance(step.target, Next):
        raise _from_where(stream, found, nth)
    worked = [one for one in before if not isinstance(one, Aside | Chain | Turn)]
    passed = replace(nth, values=tuple(value and value - 1 for value in nth.values))
    if worked and isinstance(worked[-1], Skip):
        if _count_of(worked[-1]) != passed.values:
            raise _from_where(stream, found, nth)
        return found
    if inside:
        return (Skip(Next(step.target.names, passed), step.start, step.start), *found)
    if not worked:
        return (Skip(First(step.target.names, passed), step.start, step.start), *found)
    raise _from_where(stream, found, nth)


def _count_of(skip: Skip) -> tuple[int | None, ...] | None:
    """How many places a skip names, where it says so."""
    if not isinstance(skip.target, Next | First | Unplaced):
        return None
    return skip.target.count.values


def _from_where(stream: Stream, found: tuple[Step, ...], nth: Amount) -> Exception:
    return stream.fault(
        found[0].start if found else stream.start,
        found="from where the place is counted is not said",
        mend=f"write “sk next {(nth.values[0] or 0) - 1} sts, sc in next st”",
    )
