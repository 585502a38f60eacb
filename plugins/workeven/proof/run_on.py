"""What is left of a run of like stitches where a step goes on to another kind.

Takes     a ``Hook`` in front of a step into stitches of a name.
Gives     ``check_run``, ``one_each``.
Problems  ``row-uneven``; that they are passed over is a second reading.
From      notation.md, "A row comes out", "Named places", "Two readings".

"Next fpdc" moves on to it, and what is passed is skipped: that is how lace and mesh are written.
But a row that works ``dc in next 2 dc, bpdc around next fpdc`` where three dc stand side by side
leaves one of those that it works into: the repeat is out of step with the row below, or the row
before has made one too many. So it does not come out; that such stitches are meant to be passed
over is a second reading, and only where it is so in every size.

A chain over them says that they are passed; so may several stitches that go into one place.
"""

from __future__ import annotations

from workeven.notation.tree import NamedStitch, PlaceName, Stitch, Work
from workeven.proof.context import Fault
from workeven.proof.fabric import Loop, Match, Place, count_stitches
from workeven.proof.hook import Hook
from workeven.proof.naming import are, many, match_of, spoken

#: the point of reading: none is passed over, or those of a run are
RUN_ON = ("run", 0)
_WAYS = ("no stitch of a run is passed over", "those left of a run of stitches are passed over")


def one_each(step: Work) -> bool:
    """Whether one stitch goes into each place."""
    only = step.content[0]
    return len(step.content) == 1 and isinstance(only, Stitch) and only.count.values == (1,)


def check_run(hook: Hook, step: Work, names: tuple[PlaceName, ...], count: int) -> None:
    """``Fault`` where stitches of the kind worked last stand in front of those that are named."""
    name = names[0]
    if len(names) > 1 or not isinstance(name, NamedStitch) or hook.recover or hook.lenient:
        return
    if name.name in _CLOSED or name.name in hook.context.special or not one_each(step):
        return
    last, here, match = hook.cursor.last, hook.cursor.peek(), match_of(names)
    if last is None or here is None or hook.stands != "taken" or not _runs_on(last, here, match):
        return
    if _in_group(hook):
        return
    left = _of_the_run(hook, here, match)
    if not left or hook.cursor.remaining(match) < count:
        return
    hook.points.setdefault(RUN_ON, _WAYS)
    if hook.choices.get(RUN_ON, 0) == 1:
        return
    kind = many(left, here.name)
    raise Fault(
        "row-uneven",
        step.start,
        step.end,
        f"{kind} {are(left)} still there in front of “{spoken(names)}”, and the step before it "
        f"works into {here.name}",
        passed=left,
        mend=f"Say “sk {kind}”, work them, or see whether the row before makes too many.",
    )


#: names of whatever is closed to one, and of what stands off the row
_CLOSED = ("cl", "picot")


def _runs_on(last: Place, here: Place, match: Match) -> bool:
    """Whether the place at the hook is another of those worked last, and not what is named."""
    return here.sort == last.sort == "st" and here.name == last.name and not match(here)


def _in_group(hook: Hook) -> bool:
    """Whether the hook stands within what was worked into one place."""
    frames = hook.cursor.frames
    return any(
        isinstance(around, Loop) and around.group
        for frame in frames[:-1]
        for around in frame.nodes[frame.index : frame.index + 1]
    )


def _of_the_run(hook: Hook, here: Place, match: Match) -> int:
    """How many such stitches come, one behind the other, before the next place of that name."""
    before = hook.cursor.before(match, count_stitches)

    def another(place: Place) -> bool:
        return not (place.sort == "st" and place.name == here.name)

    run = hook.cursor.before(another, count_stitches)
    return 0 if before is None or run is None else min(before, run)
