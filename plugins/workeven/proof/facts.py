"""What can be told of a row's steps before the first of them is worked.

Takes     the steps of a row.
Gives     ``Facts`` (``facts_of``), and small questions about steps.
Problems  none.
From      notation.md, the table of steps ("a chain just before or after ``turn``"), "Slip
          stitches".

A row is worked in every size, and often several times in each; what hangs on its words alone is
asked once.
"""

from __future__ import annotations

from collections.abc import Mapping
from typing import NamedTuple

from workeven.notation.tree import (
    CENTER,
    Aside,
    Chain,
    Content,
    Corners,
    CountsAs,
    Decrease,
    Each,
    Evenly,
    FastenOff,
    First,
    Foundation,
    FromHook,
    Increase,
    JoinRound,
    JoinYarn,
    Last,
    LeaveRest,
    Next,
    OtherSide,
    Over,
    Repeat,
    RowEnd,
    RowSides,
    Same,
    Skip,
    StatedHere,
    Step,
    Stitch,
    Stop,
    Times,
    Travel,
    Turn,
    TurningChain,
    Work,
)
from workeven.proof.border import all_edges
from workeven.proof.each_side import as_sides, up_to_spaces
from workeven.proof.markers import names_marked, places_markers
from workeven.proof.mesh import mesh_chains
from workeven.proof.parts import Asked, asked
from workeven.records import replace

# (tuples of classes: a union of classes would be built anew each time that it is asked)
_WORKING = (Work, Over, Increase, Decrease, Repeat, Foundation, Skip, Evenly, Corners)
_SILENT_AT_END = (FastenOff, Aside, StatedHere)
_SILENT_BEFORE_HOOK = (Aside, Turn, StatedHere)
_SILENT_AT_HEAD = (Aside, Turn, Travel, JoinYarn)


class Facts(NamedTuple):
    """The steps of a row, looked through.

    ``written`` are all of them, ``steps`` those without the turning chain of the next row, which
    is ``turning_chain``. ``works``: whether any step works into something. ``first_stitch``: the
    first that is named. ``stitch_of_change``: by the identity of each ``inc`` and ``dec`` the
    stitch that the text last names before it. ``only_slips``: all that is worked are slip stitches.
    ``leads_with_chain``: the row begins with a chain of its own. ``leaves_turning_chain``: "leave
    turning ch unworked". ``asks``: what is named inside groups. ``counts_inside``: the counts
    stated half way, and how many steps are before each. ``along_rows``: sides of rows are worked.
    ``places_markers``, ``names_markers``: whether markers are placed, whether steps go to them.
    ``names_center``: whether any goes to the stitch in the middle. ``mesh_chains``: how many of the
    chains that the first stitch skips are the first space of a mesh.
    """

    written: tuple[Step, ...]
    steps: tuple[Step, ...]
    turning_chain: Chain | None
    works: bool
    first_stitch: str | None
    stitch_of_change: Mapping[int, str]
    only_slips: bool
    leads_with_chain: bool
    leaves_turning_chain: bool
    asks: Asked
    counts_inside: tuple[tuple[int, StatedHere], ...]
    along_rows: bool
    places_markers: bool
    names_markers: bool
    names_center: bool
    mesh_chains: int | None


def facts_of(written: tuple[Step, ...]) -> Facts:
    """Look through the steps of a row."""
    steps, chain = _without_next_chain(_without_idle_chain(written))
    along_rows = _along_rows(written)
    if along_rows:
        steps = all_edges(steps)
    steps = up_to_spaces(tuple(map(as_sides, steps)))
    return Facts(
        written=written,
        steps=steps,
        turning_chain=chain,
        works=works(written),
        first_stitch=first_stitch(steps),
        stitch_of_change=_stitches_of_changes(steps),
        only_slips=_only_slip_stitches(steps),
        leads_with_chain=_leads_with_chain(steps),
        leaves_turning_chain=any(map(_leaves_turning_chain, steps)),
        asks=asked(steps),
        counts_inside=tuple(
            (at, step) for at, step in enumerate(written) if isinstance(step, StatedHere)
        ),
        along_rows=along_rows,
        places_markers=places_markers(written),
        names_markers=names_marked(written),
        names_center=names_marked(written, CENTER),
        mesh_chains=mesh_chains(steps),
    )


#: steps that may name a place
_PLACED = (Work, Skip, JoinYarn, Repeat)


def _along_rows(steps: tuple[Step, ...]) -> bool:
    """Whether any step works into the sides of rows, or along the chain that a piece began with."""
    if any(isinstance(step, _PLACED) and _names_row_ends(step) for step in steps):
        return True
    from_hook = any(
        isinstance(step, Work | Increase) and isinstance(step.target, FromHook) for step in steps
    )
    return not from_hook and any(isinstance(step, OtherSide) for step in steps)


def _names_row_ends(step: Step) -> bool:
    match step:
        case Work(target=RowSides(apart=False)):
            return True
        case (
            Work(target=Next(names=names) | First(names=names) | Last(names=names))
            | Work(target=Each(names=names))
            | Skip(target=Next(names=names))
            | JoinYarn(target=Next(names=names) | First(names=names))
        ):
            return isinstance(names[0], RowEnd)
        case Repeat(steps=inside):
            return any(map(_names_row_ends, inside))
        case _:
            return False


def is_fastened_off(facts: Facts) -> bool:
    """Whether a row ends by cutting the yarn."""
    return any(isinstance(step, FastenOff) for step in facts.written)


def facts_of_part(steps: tuple[Step, ...], whole: Facts | None = None) -> Facts:
    """The first steps of a row, as far as a count half way.

    Of the ``whole`` row is told what its first steps alone do not show: whether it is a mesh.
    """
    part = facts_of(steps)._replace(steps=steps, turning_chain=None, only_slips=False)
    return part if whole is None else part._replace(mesh_chains=whole.mesh_chains)


# --- the turning chain of the next row -----------------------------------------------------


def _without_idle_chain(steps: tuple[Step, ...]) -> tuple[Step, ...]:
    """``ch 1, turn, sl st in first 4 sts, ch 1, sc in next st``: the way begins with no stitch.

    Another chain begins the row behind the slip stitches: they lead there, and count nothing.
    """
    first = next((at for at, step in enumerate(steps) if not isinstance(step, Turn | Aside)), 0)
    idle = steps[first] if steps else None
    if not isinstance(idle, Chain) or idle.counts_as is not None or idle.count.values != (1,):
        return steps
    at = slips = first + 1
    while at < len(steps) and isinstance(steps[at], Turn | Aside):
        at = slips = at + 1
    while at < len(steps) and _slips(steps[at]):
        at += 1
    begins = at > slips and at < len(steps) and isinstance(steps[at], Chain)
    return (*steps[:first], *steps[first + 1 :]) if begins and works(steps[at:]) else steps


def _slips(step: Step) -> bool:
    return isinstance(step, Travel) or (isinstance(step, Work) and is_slip_stitch(step))


def _without_next_chain(steps: tuple[Step, ...]) -> tuple[tuple[Step, ...], Chain | None]:
    """Take the turning chain of the next row off the end ("ch 1, turn", "join, ch 1")."""
    at = len(steps) - 1
    while at >= 0 and isinstance(steps[at], _SILENT_AT_END):
        at -= 1
    if at < 1 or not works(steps[: at - 1]):
        return steps, None  # where nothing is worked yet, the chain is this row's own
    end, before = steps[at], steps[at - 1]
    if isinstance(end, Turn) and isinstance(before, Chain) and at > 1:
        return (*steps[: at - 1], *steps[at:]), _elsewhere(before)
    if isinstance(end, Chain) and isinstance(before, Turn | JoinRound):
        return (*steps[:at], *steps[at + 1 :]), _elsewhere(end)
    return steps, None


def _elsewhere(chain: Chain) -> Chain:
    """A chain that counts for the next row, in whose text it has no column."""
    return replace(chain, start=0, end=0, count=replace(chain.count, start=0, end=0))


def _leads_with_chain(steps: tuple[Step, ...]) -> bool:
    for step in steps:
        if isinstance(step, Chain):
            return True
        if not isinstance(step, _SILENT_AT_HEAD):
            return isinstance(step, Work) and is_slip_stitch(step)
    return False


def _leaves_turning_chain(step: Step) -> bool:
    return isinstance(step, LeaveRest) and isinstance(step.name, TurningChain)


# --- small questions -----------------------------------------------------------------------


def works(steps: tuple[Step, ...]) -> bool:
    """Whether any of the steps works into something; a standing stitch does."""
    return any(isinstance(step, _WORKING) or _is_standing(step) for step in steps)


def _is_standing(step: Step) -> bool:
    """Whether new yarn is joined with a stitch that counts."""
    return isinstance(step, JoinYarn) and step.stitch is not None and step.stitch.name != "sl st"


def is_slip_stitch(step: Work) -> bool:
    """Whether a slip stitch, and nothing else, is worked."""
    only = step.content[0]
    return len(step.content) == 1 and isinstance(only, Stitch) and only.name == "sl st"


def is_beginning(content: tuple[Content, ...]) -> bool:
    """Whether it is a beginning version ("beg cl"), which takes the place that it stands on."""
    only = content[0]
    return isinstance(only, Stitch) and only.name.startswith("beg ")


def goes_from_hook(steps: tuple[Step, ...]) -> bool:
    """Whether the next stitch is worked into a chain counted from the hook."""
    for step in steps:
        if isinstance(step, Work):
            return isinstance(step.target, FromHook)
        if not isinstance(step, _SILENT_BEFORE_HOOK):
            return False
    return False


def begins_with_change(steps: tuple[Step, ...]) -> bool:
    """Whether an increase or a decrease is the first that is worked."""
    for step in steps:
        if isinstance(step, Increase | Decrease):
            return True
        if not isinstance(step, Aside | Turn):
            return False
    return False


def without_stops(steps: tuple[Step, ...]) -> tuple[Step, ...]:
    """The steps without their ``**``."""
    return tuple(step for step in steps if not isinstance(step, Stop))


# --- which stitch is named -----------------------------------------------------------------


def first_of_content(content: tuple[Content, ...]) -> str | None:
    """The first stitch in what is worked into one place."""
    for part in content:
        match part:
            case Stitch(name=name):
                return name
            case Times(content=inner):
                found = first_of_content(inner)
                if found is not None:
                    return found
            case _:
                continue
    return None


def first_stitch(steps: tuple[Step, ...]) -> str | None:
    """The first stitch that the steps name (slip stitches of travel and joins apart)."""
    for step in steps:
        match step:
            case JoinYarn(stitch=Stitch(name=name)):
                return name
            case Work(content=content) if not is_slip_stitch(step):
                return first_of_content(content)
            case Over(content=content) if content:
                return first_of_content(content)
            case Repeat(steps=body):
                found = first_stitch(body)
                if found is not None:
                    return found
            case Foundation(name=name):
                return name
            case _:
                continue
    return None


def _stitches_of_changes(steps: tuple[Step, ...]) -> dict[int, str]:
    """For each ``inc`` and ``dec`` the stitch that the text last names before it."""
    found: dict[int, str] = {}
    _name_changes(steps, None, found)
    return found


def _name_changes(steps: tuple[Step, ...], last: str | None, found: dict[int, str]) -> str | None:
    for step in steps:
        match step:
            case Work(content=content) if not is_slip_stitch(step):
                last = first_of_content(content) or last
            case JoinYarn(stitch=Stitch(name=name)):
                last = name
            case Chain(counts_as=CountsAs(stitches=((_, name), *_))):
                last = name if name != "st" else last
            case Increase() | Decrease() | Evenly() | Corners():
                if last is not None:
                    found[id(step)] = last
            case Repeat(steps=body, ending=ending):
                last = _name_changes(body, last, found)
                last = _name_changes(getattr(ending, "steps", ()), last, found)
            case _:
                continue
    return last


def _only_slip_stitches(steps: tuple[Step, ...]) -> bool:
    """Whether all that the row works are slip stitches."""
    for step in steps:
        match step:
            case Work() if not is_slip_stitch(step):
                return False
            case Over() | Increase() | Decrease() | Foundation() | Evenly() | Corners():
                return False
            case Repeat(steps=body) if not _only_slip_stitches(body):
                return False
            case _:
                continue
    return True


def once_in_last(steps: tuple[Step, ...]) -> bool:
    """Whether the chain at its end has one stitch, where a row turns to the other side."""
    at = next((at for at, step in enumerate(steps) if isinstance(step, OtherSide)), 0)
    worked = [step for step in steps[:at] if not isinstance(step, Aside | Turn | StatedHere)]
    last = worked[-1] if worked else None
    if not isinstance(last, Work) or isinstance(last.target, Same) or len(last.content) != 1:
        return False
    only = last.content[0]
    return isinstance(only, Stitch) and only.count.values == (1,)


def several_in_first(steps: tuple[Step, ...]) -> bool:
    """Whether several stitches go into the chain that is counted from the hook."""
    first = next((one for one in steps if isinstance(one, Work)), None)
    if first is None or not isinstance(first.target, FromHook):
        return False
    only = first.content[0]
    return len(first.content) > 1 or not isinstance(only, Stitch) or only.count.values != (1,)


def each_behind(steps: tuple[Step, ...]) -> bool:
    """Whether "sc in each ch" to the end stands behind the turn to the other side."""
    at = next((at for at, step in enumerate(steps) if isinstance(step, OtherSide)), len(steps))
    behind = next((one for one in steps[at:] if isinstance(one, Work)), None)
    target = None if behind is None else behind.target
    return isinstance(target, Each) and target.limit is None
