"""Sides between corners: "*sc in each st across, 3 sc in corner sp; rep from * around".

Takes     a step of a row, or all of them.
Gives     ``as_sides``, ``up_to_spaces``.
Problems  none.
From      common practice: what is worked again goes on behind the space each time, so that "each"
          is each one up to that space.
"""

from __future__ import annotations

from workeven.notation.tree import Each, Next, Repeat, Space, Step, ToNext, Work
from workeven.records import replace


def as_sides(step: Step, *, around: bool = False) -> Step:
    """A repeat, "each" in it up to the space that the next step of it works into.

    ``around``: the first of its steps is the next one behind the last.
    """
    if not isinstance(step, Repeat) or not any(map(_is_open_each, step.steps)):
        return step
    body = list(step.steps)
    behind = (*body[1:], *body[:1]) if around else tuple(body[1:])
    for at, after in enumerate(behind):
        one, space = body[at], _space_of(after)
        if space is not None and isinstance(one, Work) and _is_open_each(one):
            assert isinstance(one.target, Each)
            body[at] = replace(one, target=replace(one.target, limit=ToNext(space)))
    return replace(step, steps=tuple(body))


def up_to_spaces(steps: tuple[Step, ...]) -> tuple[Step, ...]:
    """``sc in each sc, 4 sc in ch-4 sp, sc in each sc``: each up to the space, then the rest."""
    found = list(steps)
    for at, one in enumerate(steps[:-2]):
        space = _space_of(steps[at + 1])
        if space is not None and isinstance(one, Work) and _is_open_each(one):
            assert isinstance(one.target, Each)
            if any(_goes_on(later, one.target) for later in steps[at + 2 :]):
                found[at] = replace(one, target=replace(one.target, limit=ToNext(space)))
    return tuple(found)


def _goes_on(step: Step, before: Each) -> bool:
    """Whether a step works each one of the same names."""
    return _is_open_each(step) and getattr(step, "target", before).names == before.names


def _is_open_each(step: Step) -> bool:
    match step:
        case Work(target=Each(names=names, limit=None)):
            return not any(isinstance(name, Space) for name in names)
        case _:
            return False


def _space_of(step: Step) -> Space | None:
    """The one space that a step works into."""
    match step:
        case Work(target=Next(names=(Space() as space,), count=count)) if count.values == (1,):
            return space
        case _:
            return None
