"""One mistake put into a piece, as designers make them.

Takes     a ``Piece`` that comes out, a ``Random``.
Gives     ``spoil``: the same piece with one mistake in it; now and then it still comes out.
Problems  none.
From      common practice: a run, skip, repeat or chain that is off in one size, a stated count
          copied wrongly or swapped, a decrease too many, a step forgotten.
"""

from __future__ import annotations

import random
from collections.abc import Callable
from dataclasses import replace

from tests.oracle.bench import KINDS, Steps, one, tidy
from tests.oracle.structure import (
    Center,
    Count,
    Piece,
    Repeat,
    Row,
    Skip,
    SoFar,
    Squares,
    Stated,
    Step,
    Stitches,
    Together,
    Work,
)


def spoil(good: Piece, rng: random.Random) -> Piece:
    """The piece with one mistake, as designers make them; it may still come out."""
    rows = list(good.rows)
    places = [index for index, row in enumerate(rows) if isinstance(row, Row)]
    for _ in range(40):
        index = rng.choice(places)
        row = rows[index]
        assert isinstance(row, Row)
        sizes = good.size_count if row.works is None else 1
        changed = rng.choice(MISTAKES)(row, rng, sizes)
        if row.times != 1 and row.stated is not None:
            continue
        if changed is not None and changed != row:
            rows[index] = changed
            return replace(good, rows=tuple(rows))
    return good


def _off(count: Count, rng: random.Random, sizes: int, *, least: int = 1) -> Count | None:
    """The number, off by one or two, in one size or in all."""
    by = rng.choice([-2, -1, 1, 1, 2])
    if isinstance(count, int) and (sizes == 1 or rng.random() < 0.4):
        return count + by if count + by >= least else None
    figures = list(count) if isinstance(count, tuple) else [count] * sizes
    size = rng.randrange(sizes)
    figures[size] += by
    return tidy(tuple(figures)) if figures[size] >= least else None


Change = Callable[[Step], Step | None]


def _change_one(steps: Steps, rng: random.Random, change: Change) -> Steps | None:
    """The steps with one of them changed, also inside a repeat."""
    order = list(range(len(steps)))
    rng.shuffle(order)
    for index in order:
        step = steps[index]
        new: Step | None = None
        if isinstance(step, Repeat) and step.last is None and rng.random() < 0.6:
            body = _change_one(step.body, rng, change)
            new = replace(step, body=body) if body is not None else None
        else:
            new = change(step)
        if new is not None:
            return (*steps[:index], new, *steps[index + 1 :])
    return None


def wrong_number(row: Row, rng: random.Random, sizes: int) -> Row | None:
    """A run, a skip, a repeat or a rest that is a stitch too long or too short."""

    def change(step: Step) -> Step | None:
        match step:
            case Work(count=count) if step.into not in ("tch", "ring") and step.which == "next":
                off = _off(count, rng, sizes)
                return replace(step, count=off) if off is not None else None
            case SoFar(figure=figure):
                off = _off(figure, rng, sizes)
                return replace(step, figure=off) if off is not None else None
            case Squares(number=count, first=False):
                off = _off(count, rng, sizes)
                return replace(step, number=off) if off is not None else None
            case Skip(count=count):
                off = _off(count, rng, sizes)
                return replace(step, count=off) if off is not None else None
            case Repeat(times=times) if times is not None:
                off = _off(times, rng, sizes)
                return replace(step, times=off) if off is not None else None
            case Repeat(but=but) if but != 0:
                off = _off(but, rng, sizes)
                return replace(step, but=off) if off is not None else None
            case _:
                return None

    steps = _change_one(row.steps, rng, change)
    return replace(row, steps=steps) if steps is not None else None


def _wrong_stated(row: Row, rng: random.Random, sizes: int) -> Row | None:
    """A stated count that is off, or has two sizes swapped."""
    if row.stated is None:
        return None
    kind, figure = row.stated.figures[0]
    if isinstance(figure, tuple) and rng.random() < 0.4:
        first = rng.randrange(sizes - 1)
        figures = list(figure)
        figures[first], figures[first + 1] = figures[first + 1], figures[first]
        off: Count | None = tuple(figures)
    else:
        off = _off(figure, rng, sizes)
    if off is None:
        return None
    return replace(row, stated=Stated(((kind, off), *row.stated.figures[1:])))


def _wrong_chain(row: Row, rng: random.Random, sizes: int) -> Row | None:
    """A starting chain that is too long or too short in one size."""
    if row.begin not in ("chain", "joined chain") or row.steps:
        return None
    off = _off(row.chains, rng, sizes, least=4)
    return replace(row, chains=off, stated=None) if off is not None else None


def _one_too_many(row: Row, rng: random.Random, _sizes: int) -> Row | None:
    """A decrease or an increase too many."""

    def change(step: Step) -> Step | None:
        match step:
            case Work(content=(Stitches(kind=kind),), into="st", which="next") if kind in KINDS:
                extras: list[Step] = [Together(kind), Work(one(kind, 2))]
                extra = rng.choice(extras)
                return Repeat((step, extra), 1)
            case _:
                return None

    steps = _change_one(row.steps, rng, change)
    if steps is None:
        return None
    return replace(row, steps=_flatten(steps))


def _flatten(steps: Steps) -> Steps:
    """A pair put in as a group worked once stands on its own."""
    flat: list[Step] = []
    for step in steps:
        match step:
            case Repeat(times=1, body=body, last=None):
                flat += body
            case Repeat(body=body):
                flat.append(replace(step, body=_flatten(body)))
            case _:
                flat.append(step)
    return tuple(flat)


def _one_too_few(row: Row, rng: random.Random, _sizes: int) -> Row | None:
    """A step of a repeat forgotten."""
    places = [
        index
        for index, step in enumerate(row.steps)
        if isinstance(step, Repeat) and len(step.body) > 1 and step.last is None
    ]
    if not places:
        return None
    index = rng.choice(places)
    step = row.steps[index]
    assert isinstance(step, Repeat)
    drop = rng.randrange(len(step.body))
    body = (*step.body[:drop], *step.body[drop + 1 :])
    if not any(isinstance(part, Work | Together | Center) for part in body):
        return None
    return replace(
        row, steps=(*row.steps[:index], replace(step, body=body), *row.steps[index + 1 :])
    )


MISTAKES: tuple[Callable[[Row, random.Random, int], Row | None], ...] = (
    wrong_number,
    wrong_number,
    wrong_number,
    _wrong_stated,
    _wrong_stated,
    _wrong_chain,
    _one_too_many,
    _one_too_few,
)
