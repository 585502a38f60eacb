"""Drafts of rows as designers write them, drawn for the stitches that are there in each size.

Takes     a ``Bench``: what every size has on it.
Gives     ``draft``: a ``Row``, which may not come out.
Problems  none.
From      notation.md, the table of steps and How repeats end.
"""

from __future__ import annotations

import random
from collections.abc import Callable
from dataclasses import replace

from tests.oracle.bench import KINDS, LARGEST, SMALLEST, Bench, Counts, Steps, one, tidy
from tests.oracle.places import base
from tests.oracle.space_drafts import ON_SPACES, on_groups
from tests.oracle.structure import (
    All,
    Below,
    Center,
    Chain,
    ChainStitches,
    Content,
    Evenly,
    FromHook,
    Leaf,
    Leave,
    Picot,
    Repeat,
    Row,
    Same,
    Skip,
    Squares,
    Standing,
    Start,
    Step,
    Stitches,
    Together,
    Travel,
    Work,
    at_size,
)

CHANGES = ("flat rows", "joined rounds")
Draft = Callable[["Bench", str, Counts], Steps | None]


# --- rows ----------------------------------------------------------------------------------


def draft(bench: Bench) -> Row | None:
    """One row over what is there; it may not come out."""
    rng = bench.rng
    if bench.spaces and rng.random() < 0.6:
        steps = rng.choice(ON_SPACES)(bench)
        if steps is None:
            return None
        return _dress(bench, Row(steps))
    if not bench.spaces and rng.random() < 0.1:
        steps = on_groups(bench)
        if steps is not None:
            return _dress(bench, Row(steps))
    kind = rng.choice(KINDS)
    if bench.flat and rng.random() < 0.06:
        steps = _armhole(bench, kind, bench.sts)
        return None if steps is None else Row(steps)
    head, taken = _head(bench, kind)
    left = tuple(n - taken for n in bench.sts)
    if min(left) < 1:
        return None
    body = rng.choice(ON_STITCHES)(bench, kind, left)
    if body is None:
        return None
    row = Row(head + body)
    if rng.random() < 0.06:
        row = replace(row, loops=rng.choice(["back loops", "front loops"]))
    return _dress(bench, row)


def _dress(bench: Bench, row: Row) -> Row | None:
    """How a row begins with new yarn, where the working changes, how often it is worked."""
    rng = bench.rng
    if bench.cut:
        if isinstance(row.steps[0], Standing):
            return row
        if not isinstance(row.steps[0], Travel):
            if not _stands(row.steps):
                return None
            row = replace(row, steps=(Travel(1, joins=True), *row.steps))
        elif row.steps[0].to:
            row = replace(row, steps=(replace(row.steps[0], joins=True), *row.steps[1:]))
        return row
    if rng.random() < 0.04:
        row = _change_over(bench, row)
    return _how_often(bench, row)


def _how_often(bench: Bench, row: Row) -> Row:
    """Times, sizes that do not work the row, the yarn cut behind it."""
    rng = bench.rng
    sizes = len(bench.fabrics)
    chance = rng.random()
    if chance < 0.12:
        row = replace(row, times=rng.randint(2, 6))
    elif chance < 0.15 and sizes > 1:
        row = replace(row, times=tidy(tuple(rng.randint(2, 5) for _ in range(sizes))))
    elif chance < 0.18 and sizes > 1:
        start = rng.randrange(sizes)
        works = tuple(size >= start for size in range(sizes))
        if rng.random() < 0.3:
            works = tuple(size == start for size in range(sizes))
        if not all(works):
            row = _only_for(row, works) or row
    elif chance < 0.22 and bench.worked != "spiral rounds":
        row = replace(row, fastens_off=True, turns=False)
    return row


def _change_over(bench: Bench, row: Row) -> Row:
    """From here on worked otherwise, where the row is as good in either way."""
    match row.steps:
        case (Start(), All(into="st", but=0)) if not bench.spaces:
            others = [worked for worked in CHANGES if worked != bench.worked]
            return replace(row, worked=bench.rng.choice(others))
        case _:
            return row


def _stands(steps: Steps) -> bool:
    """Whether it is clear that a row begins in the stitch in which new yarn was joined."""
    match steps:
        case (Start(stands_for=""), Same() | All(), *_):
            return True
        case (Start(stands_for=kind), *_) if kind:
            return True
        case _:
            return False


def _only_for(row: Row, works: tuple[bool, ...]) -> Row | None:
    """The row for some sizes only, where all of them have the same numbers."""
    forms = {
        tuple(_in_size(step, size) for step in row.steps)
        for size, working in enumerate(works)
        if working
    }
    return replace(row, steps=forms.pop(), works=works) if len(forms) == 1 else None


def _in_size(step: Step, size: int) -> Step:
    """The step with the numbers of one size."""
    match step:
        case Work():
            content = _content_in_size(step.content, size)
            return replace(step, content=content, count=at_size(step.count, size))
        case All():
            content = _content_in_size(step.content, size)
            return replace(step, content=content, but=at_size(step.but, size))
        case Same() | Center() | FromHook():
            return replace(step, content=_content_in_size(step.content, size))
        case Skip() | Travel():
            return replace(step, count=at_size(step.count, size))
        case Chain() | ChainStitches() | Squares():
            return replace(step, number=at_size(step.number, size))
        case Evenly():
            return replace(step, by=at_size(step.by, size))
        case Repeat():
            last = step.last and tuple(_in_size(part, size) for part in step.last)
            times = None if step.times is None else at_size(step.times, size)
            body = tuple(_in_size(part, size) for part in step.body)
            return replace(step, body=body, times=times, but=at_size(step.but, size), last=last)
        case _:
            return step


def _content_in_size(content: Content, size: int) -> Content:
    return tuple(replace(part, number=at_size(part.number, size)) for part in content)


def _head(bench: Bench, kind: str) -> tuple[Steps, int]:
    """How a row begins, and how many places that takes."""
    rng = bench.rng
    if bench.worked == "spiral rounds":
        return (), 0
    if bench.cut and rng.random() < 0.3:
        return (Standing(kind),), 1
    start: Start
    if kind == "sc":
        start = Start(1)
    elif kind == "hdc":
        start = rng.choice([Start(1), Start(2), Start(2), Start(2, "hdc")])
    elif kind == "dc":
        start = rng.choice([Start(3, "dc")] * 4 + [Start(2), Start(1), Start(3)])
    else:
        start = rng.choice([Start(4, "tr")] * 3 + [Start(4)])
    if start.stands_for:
        if rng.random() < 0.08:
            return (start, Skip()), 1
        if rng.random() < 0.12:
            return (start, Same(one(kind))), 1
        return (start,), 1
    if rng.random() < 0.3 and not bench.flat:
        return (start, Same(one(kind, rng.choice([1, 1, 1, 2])))), 1
    return (start,), 0


def _even(bench: Bench, kind: str, left: Counts) -> Steps | None:
    rng = bench.rng
    form = rng.random()
    name = "ch" if bench.first else "st"
    if form < 0.25 and bench.flat and all(p and p[-1].beginning for p in bench.places):
        return (All(one(kind)), Work(one(kind), into="tch"))
    if form < 0.5:
        return (All(one(kind), name),)
    if form < 0.65:
        return (Work(one(kind), tidy(left)),)
    if form < 0.8 and len(bench.kinds) == 1 and not bench.first:
        return (All(one(kind), base(next(iter(bench.kinds)))),)
    if form < 0.85 and kind == "sc" and bench.worked != "spiral rounds" and not bench.first:
        return (All(one("sl st")),)
    few = rng.randint(1, 4)
    if min(left) <= few:
        return None
    other = rng.choice(["sc", "hdc", "dc", kind])
    return (All(one(kind), "st", few), Work(one(other), few, which="last"))


def _units(bench: Bench, kind: str) -> tuple[Steps, int]:
    """A group of steps to be repeated, and the stitches that it takes."""
    rng = bench.rng
    a = rng.randint(1, 6)
    b = rng.randint(1, 3)
    by_size = tidy(tuple(rng.randint(1, 2) for _ in bench.fabrics))
    forms: list[tuple[Steps, int]] = [
        ((Work(one(kind), a), Together(kind)), a + 2),
        ((Together(kind), Work(one(kind), a)), a + 2),
        ((Work(one(kind), a), Work(one(kind, 2))), a + 1),
        ((Work(one(kind, 2)), Work(one(kind), a)), a + 1),
        ((Work(one(kind), a), Together(kind, 3)), a + 3),
        ((Work(one(kind), a), Work(one(rng.choice(["sc", "hdc", "dc"])), b)), a + b),
        ((Chain(b), Skip(b), Work(one(kind), a)), a + b),
        ((Skip(b), Work(one("dc", 2 * b)), Skip(b), Work(one("sc"))), 2 * b + 2),
        ((Skip(2), Work(one("dc", 5)), Skip(2), Work(one("sc"))), 6),
        ((Skip(1), Work((Stitches("dc"), Chain(1), Stitches("dc"))), Skip(1)), 3),
        ((Work((Stitches("dc"), Chain(2), Stitches("dc"))), Skip(2)), 3),
        ((Skip(3), Work(one("dc", 4))), 4),
        ((Work(one("fpdc")), Work(one("bpdc"))), 2),
        ((Work(one("fpdc"), b), Work(one("bpdc"), b)), 2 * b),
        ((Work(one(kind), a), Work(one(kind, 3)), Work(one(kind), a), Skip(2)), 2 * a + 3),
        ((Work(one(kind), b), Repeat((Work(one(kind)), Work(one(kind, 2))), 2)), b + 4),
        ((Repeat((Together(kind), Work(one(kind), b)), 2), Work(one(kind), a)), 2 * b + 4 + a),
        ((Chain(5), Skip(3), Work(one("sc"))), 4),
        ((Chain(1), Skip(1), Work(one("dc"))), 2),
        ((Work(one(kind, 2), b), Work(one(kind), a)), a + b),
        ((Work(one(kind), a), Work(one("sl st"), b)), a + b),
        ((Work(one("cl")), Work(one(kind), a)), a + 1),
        ((Work(one(kind, by_size), b), Work(one(kind), a)), a + b),
    ]
    if rng.random() < 0.12:
        return rng.choice(_off_the_row(bench, kind, a, b))
    return rng.choice(forms)


def _off_the_row(bench: Bench, kind: str, a: int, b: int) -> list[tuple[Steps, int]]:
    """Groups with something that stands off the row: picots, leaves, post stitches rows below."""
    rng = bench.rng
    leaf = Leaf(rng.randint(4, 9), rng.choice(["sc", "hdc"]))
    forms: list[tuple[Steps, int]] = [
        ((Work(one(kind), a), Picot(rng.randint(3, 5))), a),
        ((Chain(b), Picot(), Chain(b), Skip(b), Work(one(kind), a)), a + b),
        ((Chain(b), Picot(), Skip(b), Work(one(kind), a)), a + b),
        ((Work(one(kind), a), leaf, Same(one("sc"))), a),
    ]
    if bench.rows > 1:
        post = rng.choice(["fpdc", "fptr", "bpdc"])
        forms.append(((Work(one(kind), a), Below(post, count=b), Skip(b)), a + b))
        forms.append(((Work(one(kind), a), Below(post, 3 if bench.rows > 2 else 2), Skip()), a + 1))
    return forms


def _repeats(bench: Bench, kind: str, left: Counts) -> Steps | None:
    """A repeat, fitted to each size by the stitches before or after it."""
    rng = bench.rng
    unit, takes = _units(bench, kind)
    if isinstance(unit[0], Chain):
        return _loops(rng, kind, unit, takes, left)
    rests = tuple(n % takes for n in left)
    times = tuple(n // takes for n in left)
    if min(times) < 1:
        return None
    if set(rests) == {0}:
        return (_repeat(rng, unit, times),)
    rests = tuple(r or takes for r in rests)
    times = tuple((n - r) // takes for n, r in zip(left, rests, strict=True))
    if min(times) < 1:
        return None
    form = rng.random()
    rest = tidy(rests)
    if form < 0.3:
        return (Work(one(kind), rest), _repeat(rng, unit, times))
    if form < 0.5:
        return (Repeat(unit, tidy(times)), Work(one(kind), rest, which="last"))
    if form < 0.7:
        afters: list[Step] = [Work(one(kind), rest, which="last"), All(one(kind))]
        return (Repeat(unit, but=rest), rng.choice(afters))
    if form < 0.8:
        return (Repeat(unit, ending=True), Work(one(kind), rest))
    return _split(rng, kind, unit, times, rests)


def _loops(rng: random.Random, kind: str, unit: Steps, takes: int, left: Counts) -> Steps | None:
    """A repeat that begins with chains, after a stitch they can hang on."""
    times = tuple((n - 1) // takes for n in left)
    before = tuple(n - takes * t for n, t in zip(left, times, strict=True))
    if min(times) < 1:
        return None
    return (Work(one(kind), tidy(before)), _repeat(rng, unit, times))


def _split(
    rng: random.Random, kind: str, unit: Steps, times: Counts, rests: Counts
) -> Steps | None:
    """What does not fit, at both sides of the repeat."""
    before = tuple(r // 2 for r in rests)
    after = tuple(r - b for r, b in zip(rests, before, strict=True))
    if min(before) == 0 and rng.random() < 0.7:
        return None
    middle = rng.choice([Repeat(unit, tidy(times)), Repeat(unit, but=tidy(after))])
    return (Work(one(kind), tidy(before)), middle, Work(one(kind), tidy(after), which="last"))


def _repeat(rng: random.Random, unit: Steps, times: Counts) -> Repeat:
    """An open repeat or a counted one; some ends of the last repeat are put otherwise."""
    if rng.random() < 0.6:
        return Repeat(unit)
    return Repeat(unit, tidy(times))


def _last_differs(bench: Bench, kind: str, left: Counts) -> Steps | None:
    """Repeats whose last time ends otherwise, and says so."""
    rng = bench.rng
    a, b = rng.randint(1, 5), rng.randint(1, 4)
    body: Steps = (Work(one(kind), a), Skip(b), Work(one(kind, b + 1)))
    takes = a + b + 1
    form = rng.choice(["replace", "stop", "omit"])
    if form == "replace":
        short = rng.randint(1, 6)
        last: Steps = (*body[:-1], Work(one(kind), short))
        took = a + b + short
    elif form == "stop":
        body = (*body, Work(one(kind), b))
        takes += b
        last, took = body[:3], a + b + 1
    else:
        body = (Work(one(kind), a), Work(one(kind, 2)), Together(kind))
        takes, last, took = a + 3, body[:2], a + 1
    wholes = tuple(n - took for n in left)
    if min(wholes) < takes:
        return None
    lead = tuple(n % takes for n in wholes)
    before: Steps = ()
    if set(lead) != {0}:
        lead = tuple(r or takes for r in lead)
        before = (Work(one(kind), tidy(lead)),)
    times = tuple((n - r) // takes + 1 for n, r in zip(wholes, lead, strict=True))
    if min(times) < 2:
        return None
    counted = tidy(times) if rng.random() < 0.3 else None
    return (*before, Repeat(body, counted, last=last, last_form=form))


def _edges(bench: Bench, kind: str, left: Counts) -> Steps | None:
    """One stitch less or more at each end."""
    if min(left) < 6:
        return None
    if bench.rng.random() < 0.5:
        return (Together(kind), All(one(kind), but=2), Together(kind))
    return (Work(one(kind, 2)), All(one(kind), but=1), Work(one(kind, 2), which="last"))


def _evenly(bench: Bench, kind: str, left: Counts) -> Steps | None:
    rng = bench.rng
    change = rng.choice(["dec", "inc"])
    most = min(left) // (3 if change == "dec" else 2)
    if most < 1:
        return None
    by = tidy(tuple(rng.randint(1, min(most, 12)) for _ in left))
    return (Evenly(kind, change, by),)


def _double(bench: Bench, kind: str, left: Counts) -> Steps | None:
    if max(left) > LARGEST // 2:
        return None
    return (All(one(kind, 2), "ch" if bench.first else "st"),)


def _halve(_bench: Bench, kind: str, left: Counts) -> Steps | None:
    if min(left) < 2 * SMALLEST:
        return None
    if any(n % 2 for n in left):
        return (Work(one(kind)), Repeat((Together(kind),)))
    return (Repeat((Together(kind),)),)


def _short(bench: Bench, kind: str, left: Counts) -> Steps | None:
    """A flat row that leaves its end unworked."""
    rng = bench.rng
    few = tidy(tuple(rng.randint(1, 4) for _ in left))
    if not bench.flat or min(left) < 8:
        return None
    return (All(one(kind), but=few), Leave())


def _armhole(bench: Bench, kind: str, left: Counts) -> Steps | None:
    """Slip stitches over the first few, the last few left: an armhole."""
    rng = bench.rng
    few = tidy(tuple(rng.randint(2, 4) for _ in left))
    if bench.cut or min(left) < 14 or bench.spaces:
        return None
    start: Steps = (Start(1), Same(one("sc")))
    if kind == "dc":
        start = (Start(3, "dc"),)
    return (Travel(few), *start, All(one(kind if kind == "dc" else "sc"), but=few), Leave())


def _underarm(bench: Bench, kind: str, left: Counts) -> Steps | None:
    """Chains that count stand in for the stitches that they skip."""
    rng = bench.rng
    if min(left) < 16:
        return None
    sleeve = tuple(n // 3 for n in left)
    body = tidy(tuple(n // 4 for n in left))
    chains = rng.randint(2, 6)
    return (
        Work(one(kind), body),
        ChainStitches(chains),
        Skip(tidy(sleeve)),
        All(one(kind)),
    )


ON_STITCHES: tuple[Draft, ...] = (
    _even,
    _even,
    _repeats,
    _repeats,
    _repeats,
    _repeats,
    _last_differs,
    _edges,
    _evenly,
    _double,
    _halve,
    _short,
    _underarm,
)
