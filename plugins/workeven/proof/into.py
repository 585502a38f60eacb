"""Which stitches each row is worked into: told from what a walk really takes, never from the words.

Takes     what was worked in each size behind each line (``Worked``), and the sizes.
Gives     ``into_lines``, ``into_rows``: an ``Into`` for every line and size; ``as_worked``.
Problems  none: of a row that does not come out, nothing is told.
From      notation.md, the table of steps, column "takes up".

It is worked out for pages and data alone, when they are made: no count hangs on it, and counting
does not wait for it. A row is walked once more over the places that it was counted over, with a
``Ledger`` in which the cursor writes down what it takes. Where a plain row passes nothing by, it
takes every stitch that is there, and needs no walk.

A line that stands for several rows is told by the first of them.

Worked example: ``ch 3, sk next st, *dc in next ch-2 sp, sk next 2 dc; rep from *`` over 12 dc and 4
ch-2 sps takes up 1 dc under the chain and 4 ch-2 sps, and passes over the other dc.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from typing import NamedTuple

from workeven.grading import GradedPattern
from workeven.notation.tree import OtherSide, Repeat, Step, Work
from workeven.notation.vocabulary import Terms, in_terms
from workeven.proof.context import Fault, SizeContext
from workeven.proof.earlier import each_of_the_row_before, goes_on_along
from workeven.proof.fabric import Fabric, Loop, tally, tally_of
from workeven.proof.hook import Hook
from workeven.proof.ledger import Ledger, Places, can_be_left, less, plus
from workeven.proof.line import Line
from workeven.proof.lines import contexts_of
from workeven.proof.plain import common_base
from workeven.proof.plan import Do
from workeven.proof.proven import Counted, ProvenPiece
from workeven.proof.standing import Worked, bottom_of
from workeven.proof.walk import walk_row
from workeven.proof.working import way_of

#: what a row is worked into where that is no place of the row before
RING = "ring"
OTHER_SIDE = "ch on the other side"
#: steps of a plan that pass stitches by, or leave them
_PASSES = ("pass", "pass first", "leave")


class Into(NamedTuple):
    """What a row takes up, in one size.

    ``places``: what it is worked into, by name. ``over``: what it passes over, ``left``: what it
    leaves unworked at its end. ``row``: the number of the earlier row whose places they are, None
    where it is the row before. ``entered``: how many places are entered in another way than under
    both loops, by the way (``back loop``, ``front post``).
    """

    places: Counted
    over: Counted = ()
    left: Counted = ()
    row: int | None = None
    entered: Counted = ()

    def as_plain(self) -> dict[str, object]:
        """The same as data, as ``count --format json`` and the published data give it."""
        return {
            "places": dict(self.places),
            "over": dict(self.over),
            "left": dict(self.left),
            "row": self.row,
            "entered": dict(self.entered),
        }

    def in_terms(self, terms: Terms) -> Into:
        """The same in these terms."""
        return self._replace(
            places=_named(self.places, terms),
            over=_named(self.over, terms),
            left=_named(self.left, terms),
        )


def _named(places: Counted, terms: Terms) -> Counted:
    return tuple((in_terms(name, terms), number) for name, number in places)


#: the rows worked by the lines up to this one, in every size
Behind = tuple[Worked | None, ...]


def into_lines(
    lines: Iterable[Behind], contexts: tuple[SizeContext, ...]
) -> Iterator[tuple[Into | None, ...]]:
    """For every line what it is worked into in each size; None: nothing, or not plainly."""
    before: Behind = (None,) * len(contexts)
    for behind in lines:
        yield tuple(
            [
                None if first is None else _into(first, context)
                for first, context in zip(map(_first_since, behind, before), contexts, strict=True)
            ]
        )
        before = behind


def into_rows(graded: GradedPattern, piece: ProvenPiece) -> Iterator[tuple[Into | None, ...]]:
    """The same for the rows of a piece of a pattern, section by section, in the pattern's terms."""
    terms, contexts = graded.pattern.terms, contexts_of(graded)
    nothing: Behind = (None,) * len(contexts)
    behind = (row.behind or nothing for section in piece.sections for row in section.rows)
    for told in into_lines(behind, contexts):
        yield tuple([None if one is None else one.in_terms(terms) for one in told])


def _first_since(behind: Worked | None, before: Worked | None) -> Worked | None:
    """The first rows of those worked since; None: there are none."""
    found = None
    while behind is not None and behind is not before:
        found, behind = behind, behind.before
    return found


def _into(rows: Worked, context: SizeContext) -> Into | None:
    line, below = rows.line_at(0), rows.below
    if below is not None and takes_all(line, below):
        return Into(tuple(tally(below.nodes).items()), row=rows.onto)
    return walked_into(rows, context)


def walked_into(rows: Worked, context: SizeContext) -> Into | None:
    """What the first of these rows is worked into, from a walk."""
    line, below = rows.line_at(0), rows.below
    hook = Hook(
        as_worked(line, below, context).facts,
        below,
        context,
        worked=rows.how,
        row_ends=rows.row_ends,
        bottom=bottom_of(rows.before, context, None) if line.facts.along_rows else None,
        choices=line.choices,
        ledger=Ledger(),
    )
    try:
        walk_row(hook)
    except Fault:
        return None
    return _told(hook, rows.onto)


def takes_all(line: Line, below: Fabric) -> bool:
    """Whether a row that comes out takes every stitch there is, as its words alone tell."""
    plan = line.plan
    if plan is None or isinstance(plan.head, Work) or below.ring or below.marks:
        return False
    if _passes(plan.steps) or any(map(_enters, line.facts.steps)):
        return False
    if not below.nodes:
        return not plan.named
    return common_base(below.nodes, plan.named) is not None


def _enters(step: Step) -> bool:
    """Whether a step enters places in another way than under both loops."""
    if isinstance(step, Repeat):
        return any(map(_enters, step.steps))
    return way_of(step) != ""


def _passes(steps: tuple[Do, ...]) -> bool:
    return any(do.kind in _PASSES or _passes(do.body) or _passes(do.behind) for do in steps)


def as_worked(line: Line, below: Fabric | None, context: SizeContext) -> Line:
    """The line; one that goes on along unworked stitches takes "each" of the row before first."""
    if below is None or not goes_on_along(line):
        return line
    before = sum(node.sts for node in below.nodes if not (isinstance(node, Loop) and node.optional))
    return each_of_the_row_before(line, before, context.special)


# --- the telling ---------------------------------------------------------------------------


def _told(hook: Hook, row: int | None) -> Into | None:
    ledger = hook.cursor.ledger
    if ledger is None:  # it ends along a chain that stands off
        return None
    places = dict(ledger.into)
    if hook.ring and not places and hook.made.out.nodes:
        places = {RING: 1}
    left: Places = {} if hook.ring else tally_of(hook.cursor.rest(), can_be_left)
    if any(isinstance(step, OtherSide) for step in hook.facts.steps) and hook.edge is None:
        places, left = _both_sides(places, hook.first_side), {}
    over = ledger.over
    if hook.closed and not hook.left_rest:  # a round leaves nothing behind: it has passed it over
        over, left = plus(over, left), {}
    return Into(_kinds(places), _kinds(over), _kinds(left), row, _kinds(ledger.entered))


def _both_sides(places: Places, first: int) -> dict[str, int]:
    """The chains that are worked a second time told apart: an oval."""
    again = {"ch": places.get("ch", 0) - first}
    return {**less(places, again), OTHER_SIDE: again["ch"]}


def _kinds(places: Places) -> Counted:
    return tuple((name, number) for name, number in places.items() if number > 0)
