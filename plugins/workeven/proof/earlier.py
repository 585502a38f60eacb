"""Places that an earlier row left: unworked stitches, a round behind petals, the base of a stitch.

Takes     where a size stands, what a row says of earlier ones (``Earlier``), the row's facts.
Gives     ``below_row``: the places that the row is worked into; ``going_on``: those and the rest
          that a short row left; ``work_on_along``, ``goes_on_along``; ``past_the_center``.
Problems  ``row-no-such-row``, ``row-no-such-place``, ``row-not-understood``.
From      notation.md, "Below and before" ("Places an earlier row left stay reachable").

Nothing is kept for it: what a row left is worked out again from the rows before, when one asks.

Worked example: of 33 loops a first shoulder works two and leaves the rest; "sk next 4 ch-5 sps,
join yarn with sl st in next ch-5 sp" goes on behind the two, in the same direction.
"""

from __future__ import annotations

import re
from collections.abc import Iterator, Mapping
from itertools import takewhile

from workeven.notation.earlier import says_unworked
from workeven.notation.tree import (
    ONE,
    Amount,
    AnyStitch,
    Aside,
    Each,
    Earlier,
    JoinYarn,
    LeaveRest,
    Marked,
    Next,
    Row,
    Skip,
    SpecialStitch,
    Step,
    Turn,
    Unplaced,
    Work,
    WorkedRow,
)
from workeven.proof.context import Fault
from workeven.proof.fabric import Fabric, Loop
from workeven.proof.facts import facts_of_part
from workeven.proof.gaps import taken_up, taken_up_of_last
from workeven.proof.hook import Hook
from workeven.proof.left import (
    all_left,
    leaves_rest,
    left_behind,
    left_last,
    left_of,
    note_left,
    nothing_left,
    skipped_last,
)
from workeven.proof.line import Line, line_of
from workeven.proof.looking_back import fabric_at
from workeven.proof.row import RowCount
from workeven.proof.standing import Standing, Unworked
from workeven.proof.walk import walk_part
from workeven.records import replace

#: how many rows back the base of a stitch is looked for
_ROWS_BACK = 30
#: labels that tell of the other of two sides
_SIDE = re.compile(
    r"\b(?:second|2nd|other|left|right) (?:side|shoulder|front|half|strap|sleeve)", re.IGNORECASE
)
#: labels that tell of a row, and of no part
_ROW = re.compile(r"\b(?:rows?|rnds?|rounds?)\b", re.IGNORECASE)
#: the row that was worked to its end before the short ones ("on last long row")
_LONG_ROW = re.compile(
    r"\b(?:on|of|in|from|along) (?:the )?last (?:long|full) row\b", re.IGNORECASE
)


def below_row(standing: Standing, body: WorkedRow, own: Line, how: str) -> Unworked | None:
    """Lay what the row is worked into under the hook; gives what it takes up of an earlier row.

    Raises ``Fault`` where such a row, or such places, are not there.
    """
    for other in body.beside:
        number = None if other.number is None else standing.context.amount(other.number)
        if number is None or standing.number is None or number != standing.number - 1:
            raise _two_rows(other)
    said = body.onto
    if (
        said is None
        and body.unworked_too
        and (found := going_on(standing, how, said=_said_so(own))) is not None
    ):
        _check_left_of(standing, body)
        standing.fabric = found.fabric
        return found
    if said is None:
        if body.unworked_too:
            _check_unworked(standing, own, how)
        return _behind_the_last(standing, own, how)
    found = _said(standing, said, own, how)
    if found is not None:
        standing.fabric = found.fabric
    return found


def _said(standing: Standing, said: Earlier, own: Line, how: str) -> Unworked | None:
    if said.base and said.number is None:
        return _base_of(standing, own, how)
    number = None if said.number is None else standing.context.amount(said.number)
    if number is None:
        left = left_last(standing) or skipped_last(standing)
        if left is None and said.if_any:
            return None
        if left is None:
            raise nothing_left(said)
        return taken_up_of_last(standing, left, own, how) if said.unworked else left
    if said.unworked:
        left = left_of(standing, number, said)
        return taken_up(standing, left, number, own, how)
    if standing.number is not None and number == standing.number - 1:
        return None  # the row before, as always
    if (rest := _next_of_rest(standing, number, own, how)) is not None:
        return rest
    return Unworked(number, _fabric_of(standing, number, said), standing.worked_rows)


def _next_of_rest(standing: Standing, number: int, own: Line, how: str) -> Unworked | None:
    """``sk next 24 sts of Row 62, join yarn in next st``: those behind what its next row worked.

    They are counted from the row's first stitch where that alone comes out.
    """
    if not _skips_and_joins(own.facts.steps, anew=False):
        return None
    known = standing.unworked
    left = known if known is not None and known.number == number else None
    if left is None and (rows := standing.line_of(number + 1)) is not None:
        left = left_behind(standing, number) if leaves_rest(rows) else None
    if left is None or not left.fabric.nodes:
        return None
    probe = standing.copy()
    probe.fabric = left.fabric
    return left if probe.work(own, how).fault is None else None


# --- behind what was worked last -----------------------------------------------------------


def _behind_the_last(standing: Standing, own: Line, how: str) -> Unworked | None:
    """``sk next 20 sts, join yarn in next st``: on along the row whose rest was left."""
    anew = _begins_anew(own.row)
    if not _may_join_the_rest(standing, own.row):
        return None
    if not _skips_and_joins(own.facts.steps, anew=anew):
        return None
    rests = [way for left in all_left(standing) for way in _from_where(left, own)]
    if not rests:
        return None
    here = standing.copy()
    fits = [left for left in rests if _works_over(standing, own, how, left)]
    if not fits and here.work(own, how).fault is None:
        return None
    left = fits[0] if fits else rests[0]
    standing.fabric = left.fabric
    return left


def _begins_anew(row: Row) -> bool:
    """Whether a heading, or the row itself, says that a part begins."""
    label = row.label
    named = label is not None and (label.section or _SIDE.search(label.name or "") is not None)
    return named or _LONG_ROW.search(row.text) is not None


def _may_join_the_rest(standing: Standing, row: Row) -> bool:
    """Whether yarn that a row joins may be joined to stitches that wait."""
    if standing.last is None:
        return False
    return _begins_anew(row) or standing.is_cut() or _names_a_part(row)


def _names_a_part(row: Row) -> bool:
    """``Back: Sk next 4 sts, join yarn in next st``: yarn that still hangs needs no joining.

    A row that goes on with the numbers, or is named as a row ("Stripe row:"), may join a colour;
    a part by a name of its own joins yarn to the stitches that wait.
    """
    name = None if row.label is None or row.label.first is not None else row.label.name
    return name is not None and _ROW.search(name) is None


def past_the_center(standing: Standing, own: Line) -> Line:
    """``sk center st, join yarn in next st``: the first of the stitches that wait.

    The center is that of the row whose rest they are: the first side was worked up to it.
    """
    steps = own.facts.steps
    at = next((n for n, step in enumerate(steps) if not isinstance(step, Aside | Turn)), 0)
    match steps[at : at + 2]:
        case (Skip(target=Next(names=(Marked(key="center"),), count=count)) as head, JoinYarn()):
            pass
        case (LeaveRest(name=Marked(key="center")) as head, JoinYarn()):
            count = ONE
        case _:
            return own
    if not _may_join_the_rest(standing, own.row) or left_last(standing) is None:
        return own
    behind = Skip(Next((AnyStitch(),), count), head.start, head.end)
    return line_of(own.row, (*steps[:at], behind, *steps[at + 1 :]))


def _from_where(left: Unworked, own: Line) -> Iterator[Unworked]:
    """``sk next 4 sts, join yarn in next st``: on behind what was worked last, else all that waits.

    What an earlier part has passed before its yarn was joined lies behind the hook then.
    """
    nodes = left.fabric.nodes
    head = takewhile(lambda step: not isinstance(step, JoinYarn), own.facts.steps)
    if left.before and any(isinstance(step, Skip) for step in head):
        passed = left.fabric._replace(nodes=nodes[: left.before])
        others = (left._replace(fabric=passed, before=0, others=None), *(left.others or ()))
        ahead = left.fabric._replace(nodes=nodes[left.before :])
        if ahead.nodes:
            yield left._replace(fabric=ahead, before=0, others=others)
    yield left


def _works_over(standing: Standing, own: Line, how: str, left: Unworked) -> bool:
    """Whether the row comes out over these stitches."""
    there = standing.copy()
    there.fabric = left.fabric
    return there.work(own, how).fault is None


def _skips_and_joins(steps: tuple[Step, ...], *, anew: bool) -> bool:
    """Whether a row begins with "sk next 20 sts, join yarn in next st".

    Where a heading says that a part begins anew, yarn may be joined without skipping.
    """
    skipped = anew
    for step in steps:
        if isinstance(step, Skip):
            skipped = isinstance(step.target, Next | Unplaced)
        elif isinstance(step, JoinYarn):
            return skipped
        elif not isinstance(step, Aside | Turn):
            return False
    return False


# --- on from where a short row turned ------------------------------------------------------


_SAYS_SO = re.compile(
    r"\b(?:unworked|unused|skipped|missed|instep|held|along|down|up)\b", re.IGNORECASE
)


def _said_so(own: Line) -> bool:
    """Whether the text itself goes on to unworked stitches: as many of them as it says."""
    return _SAYS_SO.search(own.row.text) is not None


def each_of_the_row_before(own: Line, sts: int, special: Mapping[str, SpecialStitch]) -> Line:
    """``sc in each st across, sc in each unworked st``: the first are those of the row before."""
    steps = own.facts.written
    for at, step in enumerate(steps[:-1]):
        if not isinstance(step, Work) or not isinstance(step.target, Each):
            continue
        if step.target.limit is None and any(isinstance(one, Work) for one in steps[at + 1 :]):
            of_row = replace(step, target=Next(step.target.names, Amount((sts,))))
            return line_of(own.row, (*steps[:at], of_row, *steps[at + 1 :]), special)
        break
    return own


def going_on(standing: Standing, how: str, *, said: bool = False) -> Unworked | None:
    """The places of the row before, and behind them those that a short row of this direction left.

    None where no row left any, or where they lie at the other end.
    """
    below = standing.fabric
    if below is None or standing.number is None:
        return None
    rests = tuple(all_left(standing))
    behind = rests if said else ()  # a round goes on all along
    if how == "flat rows":
        behind = tuple(_of_this_direction(rests, standing.number))
    if not behind:
        return None
    nodes = tuple(Loop(left.fabric.nodes, 1, optional=said) for left in behind)
    fabric = below._replace(nodes=(*below.nodes, *nodes), turning_chain=None)
    others = tuple(left for left in rests if not any(left is one for one in behind))
    return Unworked(behind[0].number, fabric, standing.worked_rows, others)


def _check_left_of(standing: Standing, body: WorkedRow) -> None:
    """Each row that is named has left as many stitches as are worked of it."""
    left = {rest.number: rest.fabric.sts for rest in all_left(standing)}
    for said, count in body.left_of:
        number = None if said.number is None else standing.context.amount(said.number)
        wanted = standing.context.amount(count) or 0
        there = left.get(number)
        if there is None:
            raise nothing_left(said)
        if there != wanted:
            raise Fault(
                "row-uneven",
                said.start,
                said.end,
                f"{wanted} unworked sts of row {number} are due and {there} are there",
                needed=wanted,
                left=there,
            )


def goes_on_along(line: Line) -> bool:
    """Whether a row goes on from the row before to stitches that were left unworked."""
    return isinstance(line.row.body, WorkedRow) and line.row.body.unworked_too


def work_on_along(standing: Standing, line: Line, how: str) -> RowCount:
    """A row worked again: where it goes on along unworked stitches, along those still there."""
    found = going_on(standing, how, said=True) if goes_on_along(line) else None
    if found is None or standing.fabric is None:
        return standing.work(line, how)
    own = each_of_the_row_before(line, standing.fabric.sts, standing.context.special)
    standing.fabric = found.fabric
    result = standing.work(own, how)
    note_left(standing, own, found, how)
    return result


def _of_this_direction(rests: tuple[Unworked, ...], number: int) -> Iterator[Unworked]:
    """The rests that lie ahead of a row of that number, the nearest first."""
    for left in rests:
        if left.number is not None and (number - left.number) % 2:
            yield left


def _check_unworked(standing: Standing, own: Line, how: str) -> None:
    """``sc in each st across, sc in each unworked st``: where none is left, none is worked.

    Raises ``Fault`` there, since the row as written says that some are.
    """
    steps, below = own.facts.steps, standing.fabric
    for at, step in enumerate(steps):
        if below is None or not says_unworked(own.row.text, step):
            continue
        hook = Hook(facts_of_part(steps[:at]), below, standing.context, worked=how)
        try:
            walk_part(hook)
        except Fault:
            return  # told by the row itself
        if not sum(node.sts for node in hook.cursor.rest()):
            raise nothing_left(Earlier(unworked=True, start=step.start, end=step.end))


# --- fabrics of earlier rows ---------------------------------------------------------------


def _fabric_of(standing: Standing, number: int, said: Earlier) -> Fabric:
    """The places that a row of that number has left."""
    for rows in standing.stretches():
        if rows.line_of(number) is not None and rows.first is not None:
            found = fabric_at(standing, rows, number - rows.first + 1)
            if found is not None:
                return found
    raise Fault(
        "row-no-such-row",
        said.start,
        said.end,
        f"row {number} has not been worked yet",
        mend="Name a row that stands before this one.",
    )


def _base_of(standing: Standing, own: Line, how: str) -> Unworked | None:
    """``base of next sc``: of the row before, else of the last one that has such places."""
    probe = standing.copy()
    if probe.work(own, how).fault is None:
        return None
    back = 0
    for rows in standing.stretches():
        for at in range(rows.times, -1, -1):
            if back == _ROWS_BACK:
                return None
            probe.fabric, back = fabric_at(standing, rows, at), back + 1
            if probe.fabric is not None and probe.work(own, how).fault is None:
                return Unworked(None, probe.fabric, standing.worked_rows)
    return None


# --- faults --------------------------------------------------------------------------------


def _two_rows(said: Earlier) -> Fault:
    return Fault(
        "row-not-understood",
        said.start,
        said.end,
        "places of an earlier row are named in the midst of those of another",
        mend="Write a row that works into places of one row; for stitches around a post or over "
        "the row below, write “2 rows below”.",
    )
