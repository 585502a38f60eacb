"""``2 sc in next 2 sts``: one in each of them, or two.

Takes     the steps of a row.
Gives     ``told_in_each``: the steps as the row's other words tell them; ``several_in_each`` and
          ``one_in_each``: the same steps read the other way.
Problems  none: whoever walks the rows gives the advice ``row-reading``.
From      notation.md, "Two readings"; common practice: some write so what others write as
          ``2 sc in each of next 2 sts``. A writer who tells two in each of others so (``2 sc in
          next 6 sts``), or works into spaces, means two in each; else the count that is stated
          tells which is meant.

Worked example: of 20 ``2 sc in next 2 sts, sc in next 18 sts`` leaves 20, or 22 where that is
stated; of 8 ``2 sc in next 2 sts, 2 sc in next 6 sts`` leaves 16.
"""

from __future__ import annotations

from workeven.notation.tree import First, Last, Next, Repeat, Space, Step, Stitch, Work
from workeven.notation.works import works_of
from workeven.records import replace

#: more stitches into one place than this are written as a shell
_MOST = 4


def told_in_each(steps: tuple[Step, ...]) -> tuple[Step, ...]:
    """The steps with several in each place, where the row's other words tell that."""
    works = tuple(works_of(steps))
    if not any(work.spread for work in works):
        return steps
    runs = [work for work in works if work.spread and _is_several(work)]
    told = {_only(run).name for run in runs if _goes_into_spaces(run)}
    told |= {_only(run).name for run in runs for one in works if _tells(one, _only(run).name)}
    return _read(steps, frozenset(told)) if told else steps


def several_in_each(steps: tuple[Step, ...]) -> tuple[Step, ...] | None:
    """Every ``2 sc in next 2 sts`` as two in each of the stitches; None where there is none."""
    told = _read(steps, None)
    return None if told == steps else told


def one_in_each(steps: tuple[Step, ...]) -> tuple[Step, ...] | None:
    """What ``told_in_each`` has told, as one in each after all; None where there is none."""
    told = tuple(map(_one, steps))
    return None if told == steps else told


def _read(steps: tuple[Step, ...], names: frozenset[str] | None) -> tuple[Step, ...]:
    """The steps with several in each place; ``names``: of these stitches alone."""
    return tuple([_in_each(step, names) for step in steps])


def _in_each(step: Step, names: frozenset[str] | None) -> Step:
    if isinstance(step, Repeat):
        return replace(step, steps=_read(step.steps, names))
    if not isinstance(step, Work) or not step.spread or not _is_several(step):
        return step
    only, target = _only(step), step.target
    if (names is not None and only.name not in names) or not isinstance(
        target, Next | First | Last
    ):
        return step
    return replace(step, content=(replace(only, count=target.count),), spread=False)


def _one(step: Step) -> Step:
    match step:
        case Repeat(steps=inner):
            return replace(step, steps=tuple(map(_one, inner)))
        case Work(
            content=(Stitch(count=made) as only,),
            target=Next(count=places) | First(count=places) | Last(count=places) as target,
            spread=False,
        ) if made == places and places.values != (1,) and not target.each:
            return replace(step, content=(replace(only, count=_PLAIN),), spread=True)
        case _:
            return step


#: the count of a stitch that has no number in front
_PLAIN = Stitch("sc").count


def _is_several(work: Work) -> bool:
    """Whether as many stitches are told as places, few enough to go into each of them."""
    target = work.target
    if not isinstance(target, Next | First | Last) or len(work.content) != 1:
        return False
    only, places = work.content[0], target.count.values
    many = places[0] if len(places) == 1 else None
    plain = isinstance(only, Stitch) and only.count.values == (1,)
    return plain and many is not None and 1 < many <= _MOST


def _only(work: Work) -> Stitch:
    only = work.content[0]
    assert isinstance(only, Stitch)
    return only


def _tells(work: Work, name: str) -> bool:
    """``2 dc in next 6 sts``: several in each of so many, in the words of a run of one each."""
    if work.spread or len(work.content) != 1 or not isinstance(work.target, Next | First | Last):
        return False
    only, places = work.content[0], work.target.count.values
    if not isinstance(only, Stitch) or only.name != name or work.target.each or places == (1,):
        return False
    return only.count.values != (1,)


def _goes_into_spaces(work: Work) -> bool:
    """Whether groups go into spaces: one of a chain is worked into as a stitch is."""
    name = getattr(work.target, "names", (None,))[0]
    return isinstance(name, Space) and name.chains != 1
