"""Several kinds of places in one pass: "sc in each dc, sc in each ch-1 sp, 3 sc in each corner".

Takes     a step that works each place of a kind, and the steps behind it.
Gives     ``several``: what goes into which kind; ``work_several``.
Problems  ``row-uneven``, ``row-no-such-place``.
From      common practice: they are worked as they come, not one kind after the other.

Each place is worked by what is said of it most exactly: a corner as a corner, a dc as a dc before
it is any stitch. A stitch of which nothing is said is left over, but where all that is named are
spaces: the stitches between them are passed, as they are where one kind of space is named. What
comes again in the row below comes again in this one, so that the cost is that of the words and not
of the stitches.

Worked example: over ``[3 dc, ch-2 sp, 3 dc, ch-1 sp] 4 times`` the three kinds above make
``[3 sc, 3 sc, 3 sc, 1 sc] 4 times``, 40 sc.
"""

from __future__ import annotations

from typing import NamedTuple

from workeven.notation.tree import (
    AnyStitch,
    Content,
    Corners,
    Each,
    NamedStitch,
    PlaceName,
    Space,
    Step,
    Work,
)
from workeven.proof.context import Fault
from workeven.proof.corners import corner_name
from workeven.proof.each import begin_each, legs_of, open_in_ring
from workeven.proof.fabric import Match, Node, Place, Run, amount_of
from workeven.proof.hook import Hook
from workeven.proof.making import Made, basic_of, make
from workeven.proof.naming import are, many, match_of
from workeven.proof.taking import missing

#: where the second kind is worked as corners are, two kinds are worked as a side and a corner
_TWO, _SEVERAL = 2, 3


class Clause(NamedTuple):
    """What is worked into each place of some names."""

    content: tuple[Content, ...]
    names: tuple[PlaceName, ...]
    step: Step
    match: Match

    def exactness(self) -> int:
        """How closely the names tell a place: the smaller the closer."""
        if any(isinstance(name, AnyStitch) for name in self.names):
            return _ANY
        return min(map(_exactness, self.names))


_ANY = 2


def several(hook: Hook, steps: tuple[Step, ...]) -> tuple[Clause, ...]:
    """The kinds of places that the first of the steps name one behind the other; () for less."""
    if len(steps) < _TWO or not _names_each(steps[1]):
        return ()
    found: list[Clause] = []
    for step in steps:
        match step:
            case Work(content=content, target=Each(names=names, limit=None)) if legs_of(step) == 1:
                if names == (Space(corner=True),):
                    names = (corner_name(hook, Corners(content, None, step.start, step.end)),)
            case Corners(content=content, every=0):
                names = (corner_name(hook, step),)
            case _:
                break
        found.append(Clause(content, names, step, match_of(names)))
    every = [name for clause in found for name in clause.names]
    told_apart = len(set(every)) == len(every)
    alike = all(isinstance(one.step, Work) for one in found) or _one_is_of_the_other(hook, every)
    enough = _TWO if alike else _SEVERAL
    return tuple(found) if told_apart and len(found) >= enough else ()


def _one_is_of_the_other(hook: Hook, names: list[PlaceName]) -> bool:
    """``fpdc around each fpdc and dc in each dc``: an fpdc is a dc too, and told apart from it."""
    said = {name.name for name in names if isinstance(name, NamedStitch)}
    return any(basic_of(hook.context, name) in said - {name} for name in said)


def _names_each(step: Step) -> bool:
    """Whether a step may be one of several that name the places they are worked into."""
    return isinstance(step, Corners) or (isinstance(step, Work) and isinstance(step.target, Each))


def work_several(hook: Hook, clauses: tuple[Clause, ...]) -> None:
    """Work all places that are left, each by what is said of its kind."""
    for clause in clauses:
        begin_each(hook, clause.names)
    if hook.ring:
        first = clauses[0].step
        raise open_in_ring(first)
    nodes = hook.cursor.rest()
    for clause in clauses:
        if not amount_of(nodes, clause.match) and not hook.recover:
            assert isinstance(clause.step, Work | Corners)
            missing(hook, clause.names, 1, 0, clause.step)
    order = sorted(clauses, key=lambda one: (one.exactness(), _is_of_others(hook, one)))
    _work(hook, hook.made, nodes, tuple(order))
    every = match_of(tuple(name for clause in clauses for name in clause.names))
    hook.cursor.take(every, amount_of(nodes, every))  # a space of which nothing is said is passed
    hook.stands, hook.over_first, hook.began = "taken", False, True
    hook.worked_all = True


def _work(hook: Hook, made: Made, nodes: tuple[Node, ...], order: tuple[Clause, ...]) -> None:
    for node in nodes:
        if isinstance(node, Run):
            clause = next((one for one in order if one.match(node.place)), None)
            if clause is not None:
                make(made, clause.content, node.count)
            elif node.place.sort == "st" and not hook.recover and not _spaces_alone(order):
                raise _left_over(node.place, node.count, order)
        else:
            turn = Made(made.context)
            turn.stretch = made.stretch
            _work(hook, turn, node.nodes, order)
            made.add_turns(turn, node.times)


def _spaces_alone(order: tuple[Clause, ...]) -> bool:
    """Whether all kinds of places are spaces."""
    return all(isinstance(name, Space) for clause in order for name in clause.names)


def _left_over(place: Place, count: int, order: tuple[Clause, ...]) -> Fault:
    """A stitch of which nothing is said."""
    steps = [clause.step for clause in order]
    return Fault(
        "row-uneven",
        min(step.start for step in steps),
        max(step.end for step in steps),
        f"{many(count, place.name)} {are(count)} left over, of which nothing is said",
        left_over=count,
    )


def _is_of_others(hook: Hook, clause: Clause) -> bool:
    """Whether its stitches are basic ones, which others that are named may be too."""
    named = [name.name for name in clause.names if isinstance(name, NamedStitch)]
    return all(basic_of(hook.context, name) == name for name in named)


def _exactness(name: PlaceName) -> int:
    return 1 if isinstance(name, Space) and name.chains is None else 0
