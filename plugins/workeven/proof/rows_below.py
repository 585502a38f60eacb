"""Stitches worked into places two or more rows below, and what they cover of the row at hand.

Takes     a ``Hook`` and the step that reaches down.
Gives     ``stands_before``: whether it takes up none of this row; ``before_the_row``,
          ``over_the_row``.
Problems  none.
From      notation.md, "Below and before"; that a post stitch told without a skip stands for the
          stitch behind it, common practice.
"""

from __future__ import annotations

from workeven.notation.tree import (
    Aside,
    Chain,
    First,
    Last,
    Next,
    Repeat,
    Same,
    Skip,
    Space,
    Step,
    Stitch,
    Work,
)
from workeven.notation.vocabulary import (
    kind_of,
)
from workeven.proof.fabric import amount_of
from workeven.proof.hook import Hook
from workeven.proof.making import (
    Placed,
    make,
)
from workeven.proof.naming import ANY, match_of, spoken
from workeven.records import replace


def stands_before(hook: Hook, step: Work) -> bool:
    """``fpdc around next st 2 rows below, sk st behind it``: it takes up none of the row at hand.

    Where no skip is told beside it, it stands for the stitch that is behind it (common practice);
    that it takes none is the second reading. Of a decrease the two are the other way round: one
    stitch goes over posts of several, and how many it covers is not said.
    """
    only = step.content[0]
    if not isinstance(only, Stitch) or not isinstance(step.target, Next | First | Last):
        return False
    if kind_of(only.name).post is None:
        return step.skips_behind and _skip_is_of_covered(hook, step)
    if step.skips_behind or _is_behind_skip(hook.facts.steps, step):
        return True
    point, ways = ("below", step.start), ("takes the st behind it", "takes none of this row")
    decreases = only.legs > 1
    hook.points.setdefault(point, (ways[1], ways[0]) if decreases else ways)
    return bool(hook.choices.get(point, 0)) != decreases


def _is_behind_skip(steps: tuple[Step, ...], step: Work) -> bool:
    """``sk next sc, fpdc around next dc 2 rows below``: a skip stands beside it.

    So it does beside several such stitches told one by one, behind the brackets that they are told
    in, or where as many are skipped as there are such stitches.
    """
    inner = tuple(one for one in steps if isinstance(one, Repeat) and _holds(one.steps, step))
    if any(_is_behind_skip(one.steps, step) for one in inner):
        return True
    begun = [
        at
        for at, one in enumerate(steps)
        if one in inner or (isinstance(one, Work) and one.start == step.start)
    ]
    if any(_skips_beside(steps, at, way) for at in begun for way in (-1, 1)):
        return True
    below = [one for one in steps if isinstance(one, Work) and one.rows_below > 1]
    skips = [one for one in steps if isinstance(one, Skip)]
    return bool(begun) and not inner and len(below) == len(skips)


def _skips_beside(steps: tuple[Step, ...], at: int, way: int) -> bool:
    """Whether a skip stands that way from a step, or beyond others that reach down like it."""
    for off in range(1, len(steps)):
        match steps[(at + way * off) % len(steps)]:
            case Skip() | Repeat(steps=(Skip(), *_)):
                return True
            case Work(target=Same()) | Chain() | Aside():
                continue
            case Work(rows_below=below) if below > 1:
                continue
            case _:
                return False
    return False


def _holds(steps: tuple[Step, ...], step: Work) -> bool:
    """Whether a repeat has that step."""
    return any(
        (isinstance(one, Work) and one.start == step.start)
        or (isinstance(one, Repeat) and _holds(one.steps, step))
        for one in steps
    )


def _skip_is_of_covered(hook: Hook, step: Work) -> bool:
    """``dc in next st 2 rows below, sk st behind dc``: the skip is the stitch that it covers.

    A spike without a skip takes it; that both do is the second reading.
    """
    point = ("covers", step.start)
    ways = ("the skip is of the st that it covers", "it covers a st, and another one is skipped")
    hook.points.setdefault(point, ways)
    return not hook.choices.get(point, 0)


def before_the_row(hook: Hook, step: Work) -> None:
    """Stitches in front of the row: made, and nothing is taken."""
    assert isinstance(step.target, Next | First | Last)
    count = hook.context.amount(step.target.count) or 0
    hook.cursor.worked_into(f"{spoken(step.target.names)} {step.rows_below} rows below", count)
    make(hook.made, step.content, count, spread=step.spread)


def over_the_row(hook: Hook, step: Work) -> Work:
    """What it covers of the row at hand: of the kind that is named below, or else whatever.

    Where a space stands there, over a stitch that was skipped, it covers that; that it passes the
    space is the second reading.
    """
    target, below = step.target, hook.below
    if not isinstance(target, Placed) or below is None:
        return step
    here = hook.cursor.peek()
    over_space = here is not None and here.sort == "sp" and not isinstance(target.names[0], Space)
    if over_space and isinstance(target, Next) and hook.context.amount(target.count) == 1:
        point = ("over space", step.start)
        hook.points.setdefault(point, ("it covers the space", "it covers the st behind the space"))
        if not hook.choices.get(point, 0):
            return replace(step, target=replace(target, names=(Space(None),)))
    if amount_of(below.nodes, match_of(target.names)):
        return step
    return replace(step, target=replace(target, names=ANY))
