"""What the words of a row hang on: what it makes first, what all of it is, how it begins.

Takes     a ``Row`` or a ``Step``.
Gives     kinds of stitches, chains at the start.
Problems  none.
From      notation.md, Chains at the start, Turning and beginning chains.
"""

from __future__ import annotations

from tests.oracle.places import base
from tests.oracle.structure import (
    All,
    Below,
    Between,
    Center,
    Content,
    Corners,
    Evenly,
    FromHook,
    Leaf,
    Repeat,
    Row,
    Same,
    Squares,
    Start,
    Step,
    Stitches,
    Together,
    Travel,
    Work,
)


def all_of_one(row: Row) -> str:
    """The one kind that a row makes, if its words leave no doubt."""
    made = {name for step in row.steps for name in kinds(step)}
    return next(iter(made)) if len(made) == 1 else ""


def kinds(step: Step) -> set[str]:
    """The kinds of stitches that a step makes."""
    match step:
        case Work(content=content) | All(content=content) | Same(content=content):
            return {part.kind for part in content if isinstance(part, Stitches)}
        case Between(content=content):
            return content_kinds(content)
        case Corners(content=content, corner=corner):
            return content_kinds(content) | content_kinds(corner)
        case FromHook(content=content, stands_for=stands_for):
            return content_kinds(content) | ({stands_for} if stands_for else set())
        case Start(stands_for=stands_for):
            return {stands_for} if stands_for else set()
        case Repeat(body=body):
            return {kind for part in body for kind in kinds(part)}
        case Together(kind=kind, legs=legs):
            return {f"{kind}{legs}tog"}
        case Below(kind=kind) | Leaf(kind=kind):
            return {kind}
        case Squares():
            return {"dc"}
        case Center(content=content):
            return content_kinds(content)
        case Evenly(kind=kind):
            return {kind, "changed"}
        case _:
            return set()


def turning_chain(row: Row) -> tuple[int, int]:
    """The chains of a counted beginning, and how many of them lie beside the stitch."""
    for step in row.steps:
        match step:
            case Start(chains=chains, beside=beside):
                return chains, beside
            case FromHook(nth=nth, beside=beside):
                return nth - 1 - beside, beside
            case _:
                continue
    return 0, 0


def without_start(steps: tuple[Step, ...]) -> tuple[Step, ...]:
    """The steps but the chain at the start."""
    return steps[1:] if steps and isinstance(steps[0], Start) else steps


def content_kinds(content: Content) -> set[str]:
    """The kinds of stitches in what goes into one place."""
    return {part.kind for part in content if isinstance(part, Stitches)}


def first_kind(content: Content) -> str:
    """The kind of the first stitch, or nothing before a chain."""
    part = content[0]
    return part.kind if isinstance(part, Stitches) else ""


def kind_after(step: Step | None) -> str:
    """The kind of the first stitch of a step: it decides what a start chain stands for."""
    match step:
        case Work(content=content) | All(content=content) | Same(content=content):
            return base(first_kind(content))
        case Center(content=content) | Between(content=content) | Corners(content=content):
            return base(first_kind(content))
        case Together(kind=kind) | Evenly(kind=kind):
            return kind
        case Repeat(body=body):
            return next((kind for part in body if (kind := kind_after(part))), "")
        case _:
            return ""


def first_made(row: Row) -> tuple[str, int, int] | None:
    """What a round is joined to: kind, chains beside it, chains of a counted start."""
    for step in row.steps:
        match step:
            case Start(chains=chains, stands_for=stands_for, beside=beside) if stands_for:
                return stands_for, beside, chains
            case Start() | Travel():
                continue
            case FromHook(stands_for=stands_for) if stands_for:
                return None
            case Work(content=content) | All(content=content) | Same(content=content):
                return base(first_kind(content)), 0, 0
            case Corners(content=content):
                return base(first_kind(content)), 0, 0
            case FromHook(content=content):
                return base(first_kind(content)), 0, 0
            case _:
                return None
    return None
