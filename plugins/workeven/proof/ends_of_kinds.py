"""Row ends by their rows' stitch: "sc in end of each sc row and 2 sc in end of each dc row".

Takes     where a size stands, and the line at hand.
Gives     ``with_ends_of_kinds``: the line with the number of such rows.
Problems  ``Fault``: ``row-not-understood`` where rows of other stitches, or of several, lie there.
From      common practice: a row of dc takes two stitches at its side and one of sc takes one.

Worked example: over Row 1 in sc, Row 2 in dc and Row 3 in sc, "sc in end of each sc row and 2 sc in
end of each dc row" is 2 + 2 = 4 sc.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator

from workeven.notation.tree import (
    Amount,
    Decrease,
    Increase,
    Next,
    Repeat,
    RowEnd,
    RowSides,
    Step,
    Stitch,
    Times,
    Work,
)
from workeven.notation.vocabulary import kind_of
from workeven.proof.context import Fault
from workeven.proof.line import Line, line_of
from workeven.proof.standing import Standing
from workeven.records import replace


def with_ends_of_kinds(standing: Standing, own: Line) -> Line:
    """The line with "each sc row" as so many row ends; raises ``Fault`` where they are unknown."""
    named = {side.of for _, side in _by_kind(own.facts.written) if side.of is not None}
    if not named:
        return own
    there = rows_by_kind(standing, named)
    others = sum(number for kind, number in there.items() if kind not in named)
    if others:
        first = next(step for step, _ in _by_kind(own.facts.written))
        rows = "row is" if others == 1 else "rows are"
        raise Fault(
            "row-not-understood",
            first.start,
            first.end,
            f"{others} {rows} of other stitches than those named, or of several",
            mend="Say what is worked in the ends of all rows: “sc in end of each row”, or “2 sc in "
            "end of each of next 4 rows”.",
        )
    return line_of(own.row, _counted(own.facts.written, there), standing.context.special)


def rows_by_kind(standing: Standing, named: set[str]) -> Counter[str]:
    """How many rows since the piece was begun are of which of the named stitches, "" if of none.

    A row of dc with clusters or bobbles among them is a dc row.
    """
    found: Counter[str] = Counter()
    for stretch in standing.stretches():
        whole, more = divmod(stretch.times, len(stretch.lines))
        for at, line in enumerate(stretch.lines):
            if times := whole + (at < more):
                kinds = named.intersection(_stitches(line.facts.written))
                found[kinds.pop() if len(kinds) == 1 else ""] += times
        if stretch.below is None or stretch.below.foundation:
            break
    return found


def _stitches(steps: tuple[Step, ...]) -> Iterator[str]:
    for step in steps:
        match step:
            case Repeat(steps=inner):
                yield from _stitches(inner)
            case Work(content=content):
                for part in content:
                    parts = part.content if isinstance(part, Times) else (part,)
                    for one in parts:
                        if isinstance(one, Stitch) and one.name != "sl st":
                            yield kind_of(one.name).base
            case Increase() | Decrease():
                pass  # of the stitch that was named last
            case _:
                pass


def _by_kind(steps: tuple[Step, ...]) -> Iterator[tuple[Step, RowSides]]:
    for step in steps:
        if isinstance(step, Repeat):
            yield from _by_kind(step.steps)
        elif isinstance(step, Work) and isinstance(step.target, RowSides) and step.target.of:
            yield step, step.target


def _counted(steps: tuple[Step, ...], there: Counter[str]) -> tuple[Step, ...]:
    found: list[Step] = []
    for step in steps:
        if isinstance(step, Repeat):
            found.append(replace(step, steps=_counted(step.steps, there)))
        elif isinstance(step, Work) and isinstance(step.target, RowSides) and step.target.of:
            number = Amount((there[step.target.of],))
            found.append(replace(step, target=Next((RowEnd(),), number, each=True)))
        else:
            found.append(step)
    return tuple(found)
