"""Makes pieces of crochet at random, in sizes, all of which come out.

Takes     a ``Random`` with a seed.
Gives     ``piece``: a ``Piece``.
Problems  none.
From      notation.md; the rows are those that designers write: even rows, increases, decreases,
          meshes, shells, chevrons, squares worked in rounds.

A row is drawn from many drafts and kept only when the walker says that it comes out in every size.
"""

from __future__ import annotations

import random
from dataclasses import replace

from tests.oracle.bench import KINDS, LARGEST, SMALLEST, Bench, Counts, Steps, one, tidy
from tests.oracle.drafts import draft
from tests.oracle.places import Place, base
from tests.oracle.structure import (
    Again,
    All,
    Chain,
    Count,
    FromHook,
    Leave,
    OtherSide,
    Piece,
    Repeat,
    Row,
    Skip,
    SoFar,
    Squares,
    Start,
    Stated,
    Step,
    Stitches,
    Work,
    at_size,
)
from tests.oracle.walker import Fabric, RowCount

SIZE_NAMES = ("XS", "S", "M", "L", "XL", "2X", "3X", "4X", "5X")
WORKED = ("flat rows", "joined rounds", "joined rounds, turned", "spiral rounds")


# --- whole pieces --------------------------------------------------------------------------


def piece(rng: random.Random) -> Piece:
    """A piece of some three to nine rows."""
    while True:
        made = _piece(rng)
        if made is not None:
            return made


def _piece(rng: random.Random) -> Piece | None:
    worked = rng.choice(WORKED)
    sizes = rng.choice([1, 1, 2, 3, 3, 4, 5, 7, 9])
    names = SIZE_NAMES[:sizes] if sizes > 1 or rng.random() < 0.3 else ()
    each_chain = rng.random() < 0.04
    blank = Fabric(worked, each_chain=each_chain)
    bench = Bench(rng, worked, [blank.copy() for _ in range(sizes)])
    if worked == "flat rows" and not each_chain and rng.random() < 0.12:
        return _filet(bench, names)
    rows: list[Row | Again] = []
    start: tuple[tuple[str, Count], ...] = ()
    if rng.random() < 0.1:
        start = _there_already(bench)
    for row in () if start else _opening(bench, sizes):
        counts = _try(bench, row)
        if counts is None:
            return None
        rows.append(_state(row, counts, rng))
    for _ in range(rng.randint(2, 7)):
        kept = bench.fabrics
        row_and_counts = _next_row(bench)
        if row_and_counts is None:
            return None
        row, counts = row_and_counts
        rows.append(_state(_count_inside(row, bench, kept), counts, rng))
        if rng.random() < 0.08 and len(rows) > 4:
            again = _again(bench, rows)
            if again is not None:
                rows.append(again)
    return Piece(worked, tuple(rows), names, start, each_chain)


def _filet(bench: Bench, names: tuple[str, ...]) -> Piece | None:
    """Rows of squares, each over a space or two stitches; the sizes differ in the middle."""
    rng = bench.rng
    few, more = rng.randint(4, 9), rng.randint(1, 3)
    squares = tuple(few + more * size for size in range(len(bench.fabrics)))
    wide = tuple(3 * n + 1 for n in squares)
    start = (("dc", tidy(wide)),)
    bench.fabrics = [
        Fabric(bench.worked, tuple(Place("st", "dc", index) for index in range(n))) for n in wide
    ]
    rows: list[Row | Again] = []
    for _ in range(rng.randint(2, 6)):
        row = Row(_squares(rng, squares))
        counts = _try(bench, row)
        if counts is None:
            return None
        rows.append(_state(row, counts, rng))
    return Piece(bench.worked, tuple(rows), names, start)


def _squares(rng: random.Random, squares: Counts) -> Steps:
    """The first square, two or three runs, and the rest by size somewhere between them."""
    kinds = [rng.choice(["sp", "block"]) for _ in range(3)]
    runs = [rng.randint(1, 2) for _ in kinds]
    rest = tuple(n - 1 - sum(runs) for n in squares)
    if min(rest) < 1:
        runs, kinds = runs[:1], kinds[:1]
        rest = tuple(n - 1 - sum(runs) for n in squares)
    steps: list[Step] = [Squares(kind, run) for kind, run in zip(kinds, runs, strict=True)]
    steps.insert(rng.randint(0, len(steps)), Squares(rng.choice(["sp", "block"]), tidy(rest)))
    return (Squares(rng.choice(["sp", "block"]), first=True), *steps)


def _there_already(bench: Bench) -> tuple[tuple[str, Count], ...]:
    """Stitches of one kind from which a piece goes on."""
    rng = bench.rng
    least, step = rng.randint(8, 50), rng.randint(1, 6)
    wide = tuple(least + step * size for size in range(len(bench.fabrics)))
    kind = rng.choice(["sc", "hdc", "dc"])
    bench.fabrics = [
        Fabric(
            bench.worked,
            tuple(Place("st", kind, index) for index in range(n)),
            each_chain=bench.fabrics[0].each_chain,
        )
        for n in wide
    ]
    return ((kind, tidy(wide)),)


def _try(bench: Bench, row: Row) -> list[RowCount | None] | None:
    """Works a row in all sizes, if it comes out in all of them that work it."""
    trial = [fabric.copy() for fabric in bench.fabrics]
    counts: list[RowCount | None] = []
    for size, fabric in enumerate(trial):
        count: RowCount | None = None
        if row.works is None or row.works[size]:
            for _ in range(at_size(row.times, size)):
                count = fabric.work(row, size)
                if count.fault:
                    return None
        counts.append(count)
    bench.fabrics = trial
    bench.worked = trial[0].worked
    bench.first = row.begin == "joined chain"
    bench.cut = row.fastens_off
    bench.rows += bool(row.steps)
    return counts


def _next_row(bench: Bench) -> tuple[Row, list[RowCount | None]] | None:
    """The first of many drafts that comes out."""
    for _ in range(60):
        row = draft(bench)
        if row is None:
            continue
        kept = replace(bench)
        counts = _try(bench, row)
        if counts is None:
            continue
        if all(SMALLEST <= n <= LARGEST for n in bench.sts):
            return row, counts
        bench.fabrics, bench.worked = kept.fabrics, kept.worked
        bench.first, bench.cut, bench.rows = kept.first, kept.cut, kept.rows
    return None


def _again(bench: Bench, rows: list[Row | Again]) -> Again | None:
    """The last row or the last two once more, if they come out over themselves."""
    rng = bench.rng
    length = rng.choice([1, 2])
    first = len(rows) - length
    entries = rows[first:]
    if any(not isinstance(e, Row) or e.begin or e.times != 1 or e.works for e in entries):
        return None
    if any(isinstance(e, Row) and e.worked for e in entries):
        return None
    if first < 2 or any(isinstance(e, Row) and e.works for e in rows):
        return None
    if any(isinstance(e, Again) or isinstance(e.times, tuple) for e in rows):
        return None
    kept = bench.fabrics
    times = rng.randint(1, 3)
    for _ in range(times):
        for entry in entries:
            assert isinstance(entry, Row)
            if _try(bench, entry) is None or max(bench.sts) > LARGEST or min(bench.sts) < SMALLEST:
                bench.fabrics = kept
                return None
    return Again(first, len(rows) - 1, times)


def _state(row: Row, counts: list[RowCount | None], rng: random.Random) -> Row:
    """The row with a stated count, mostly."""
    worked = [count for count in counts if count is not None]
    if row.begin in ("ring", "joined chain") or (row.times != 1 and not _is_even(row)):
        return row
    if not worked or rng.random() < 0.45 or len(worked) != len(counts):
        return row
    makes = [count.makes for count in worked]
    kinds = list(makes[0])
    if rng.random() < 0.1 and all(_spaces(made) for made in makes):
        return replace(row, stated=Stated((("sps", tidy(tuple(map(_spaces, makes)))),)))
    if row.begin and not row.steps:
        return replace(row, stated=Stated((("", tidy(tuple(c.sts for c in worked))),)))
    by_kind = len(kinds) > 1 and all(set(made) == set(kinds) for made in makes)
    if rng.random() < 0.25 and by_kind and all(_is_plain(kind) for kind in kinds):
        figures = tuple((kind, tidy(tuple(m[kind] for m in makes))) for kind in kinds)
        return replace(row, stated=Stated(figures))
    total = tidy(tuple(count.sts for count in worked))
    bases = {base(kind) for made in makes for kind in made if not kind.startswith("ch-")}
    if len(bases) == 1 and rng.random() < 0.5 and "sl st" not in bases and "ch" not in bases:
        return replace(row, stated=Stated(((next(iter(bases)), total),)))
    return replace(row, stated=Stated((("", total),)))


def _count_inside(row: Row, bench: Bench, before: list[Fabric]) -> Row:
    """The row with a count in its midst now and then, ``(29 dc)``."""
    rng = bench.rng
    if rng.random() > 0.06 or len(row.steps) < 3 or row.times != 1 or row.works or row.worked:
        return row
    places = [
        index
        for index, step in enumerate(row.steps[:-1])
        if isinstance(step, Work) or (isinstance(step, Repeat) and step.times is not None)
    ]
    if not places:
        return row
    index = rng.choice(places) + 1
    part = replace(row, steps=(*row.steps[:index], Leave()))
    figures = [fabric.copy().work(part, size).sts for size, fabric in enumerate(before)]
    so_far = SoFar(tidy(tuple(figures)))
    return replace(row, steps=(*row.steps[:index], so_far, *row.steps[index:]))


def _is_plain(kind: str) -> bool:
    """Whether a kind stands in a stated count under its own name: a stitch or a space."""
    return kind.startswith("ch-") or (base(kind) == kind and kind not in ("ch", "sl st"))


def _spaces(made: dict[str, int]) -> int:
    return sum(number for kind, number in made.items() if kind.startswith("ch-"))


def _is_even(row: Row) -> bool:
    """Whether a row makes what it finds, so that one figure is right each time it is worked."""
    match row.steps:
        case (Start(), All(content=(Stitches(number=1),), into="st", but=0)):
            return True
        case _:
            return False


# --- how a piece begins --------------------------------------------------------------------


def _opening(bench: Bench, sizes: int) -> list[Row]:
    """Starting chain and first row, or a ring."""
    rng = bench.rng
    base_count = rng.randint(8, 50)
    step = rng.choice([1, 2, 3, 4, 5, 6, 8])
    wide = tuple(base_count + step * size for size in range(sizes))
    if bench.flat:
        return _flat_opening(rng, wide)
    if rng.random() < 0.08:
        return _oval(rng, wide)
    form = rng.choice(["ring", "magic ring", "hook"])
    if not bench.worked.startswith("spiral") and rng.random() < 0.5:
        form = "joined chain"
    if form == "joined chain":
        return [Row(begin="joined chain", chains=tidy(wide))]
    few = tuple(rng.randint(4, 10) + rng.choice([0, 0, 1, 2]) * size for size in range(sizes))
    kind = rng.choice(["sc", "sc", "hdc", "dc"])
    steps = _in_ring(rng, kind, few, spiral=bench.worked.startswith("spiral"))
    if form == "ring":
        return [Row(begin="ring", chains=rng.randint(3, 6)), Row(steps)]
    if form == "magic ring":
        return [Row(steps, begin="magic ring")]
    return [Row((FromHook(2, one("sc", tidy(few))),), begin="chain", chains=2)]


def _oval(rng: random.Random, wide: Counts) -> list[Row]:
    """A round on both sides of a chain, three stitches at each end."""
    kind = rng.choice(["sc", "hdc"])
    side = Work(one(kind), tidy(tuple(n - 3 for n in wide)), "ch")
    ends = rng.choice([(2, 1), (1, 2)])
    steps: Steps = (
        FromHook(2, one(kind, ends[0])),
        side,
        Work(one(kind, 3), into="ch", which="last"),
        OtherSide(),
        side,
        Work(one(kind, ends[1]), into="ch", which="last"),
    )
    return [Row(begin="chain", chains=tidy(wide)), Row(steps)]


def _in_ring(rng: random.Random, kind: str, few: Counts, *, spiral: bool) -> Steps:
    if spiral:
        return (Work(one(kind, tidy(few)), into="ring"),)
    if kind in ("sc", "hdc"):
        return (Start(1 if kind == "sc" else 2), Work(one(kind, tidy(few)), into="ring"))
    if rng.random() < 0.3:
        corner: Steps = (Work(one("dc", 3), into="ring"), Chain(2))
        return (
            Start(3, "dc"),
            Work(one("dc", 2), into="ring"),
            Chain(2),
            Repeat(corner, rng.choice([3, 5])),
        )
    return (Start(3, "dc"), Work(one("dc", tidy(few)), into="ring"))


def _flat_opening(rng: random.Random, wide: Counts) -> list[Row]:
    kind = rng.choice(KINDS)
    if rng.random() < 0.06:
        fsc = rng.choice(["fsc", "fdc"])
        return [Row((Work(one(fsc, tidy(wide)), into="ring"),), begin="foundation")]
    chains, steps = _onto_chain(rng, kind, wide)
    return [Row(begin="chain", chains=tidy(chains)), Row(steps)]


def _onto_chain(rng: random.Random, kind: str, wide: Counts) -> tuple[Counts, Steps]:
    """A first row of so many stitches, and the chains that it needs."""
    nth = {"sc": 2, "hdc": rng.choice([2, 3]), "dc": rng.choice([3, 4, 4]), "tr": 5}[kind]
    counted = kind if nth >= {"sc": 9, "hdc": 4, "dc": 4, "tr": 5}[kind] else ""
    if nth == 3 and kind == "hdc" and rng.random() < 0.3:
        counted = "hdc"
    if rng.random() < 0.15 and kind == "dc":
        nth = rng.choice([6, 7, 8])
        return _mesh_onto_chain(rng, wide, nth)
    made_by_hook = 2 if counted else 1
    chains = tuple(nth + n - made_by_hook for n in wide)
    first = FromHook(nth, one(kind), counted)
    if rng.random() < 0.75:
        return chains, (first, All(one(kind), "ch"))
    rest = tuple(n - made_by_hook for n in wide)
    return chains, (first, Work(one(kind), tidy(rest), "ch"))


def _mesh_onto_chain(rng: random.Random, wide: Counts, nth: int) -> tuple[Counts, Steps]:
    """``dc in 8th ch from hook (skipped chs count as dc and ch 2), *ch 2, sk 2, dc …``."""
    apart = {6: 1, 7: 2, 8: 2}[nth]
    if nth == 7:
        apart = rng.choice([1, 2])
    squares = tuple(max(2, n // (apart + 1)) for n in wide)
    chains = tuple(nth + q * (apart + 1) for q in squares)
    body: Steps = (Chain(apart), Skip(apart, "ch"), Work(one("dc"), into="ch"))
    return chains, (FromHook(nth, one("dc"), "dc", apart), Repeat(body))
