"""Drafts of rows over chain spaces and groups: meshes, nets, squares, corners.

Takes     a ``Bench``.
Gives     ``ON_SPACES``, ``on_groups``: the steps of a row, which may not come out.
Problems  none.
From      notation.md, Named places, Corners, How repeats end.
"""

from __future__ import annotations

from collections.abc import Callable

from tests.oracle.bench import KINDS, Bench, Steps, one
from tests.oracle.places import NO_GROUP
from tests.oracle.structure import (
    All,
    Between,
    Center,
    Chain,
    Content,
    Corners,
    Repeat,
    Same,
    Start,
    Stitches,
    Travel,
    Work,
)


def _sole_space(bench: Bench) -> str | None:
    return next(iter(bench.spaces)) if len(bench.spaces) == 1 else None


def _sole_kind(bench: Bench) -> str | None:
    kinds = bench.kinds
    return next(iter(kinds)) if len(kinds) == 1 and next(iter(kinds)) in KINDS else None


def _by_any_name(bench: Bench, space: str) -> str:
    """The name of the only spaces there are, or ``ch sp``."""
    return bench.rng.choice([space, space, "sp"])


def _plain_head(bench: Bench, kind: str) -> Steps:
    """A beginning chain, counted or not as the table says."""
    if bench.worked == "spiral rounds":
        return ()
    return {"sc": (Start(1),), "hdc": (Start(2),), "dc": (Start(3, "dc"),)}[kind]


def _all_spaces(bench: Bench) -> Steps | None:
    """Stitches into every stitch and space."""
    kind = bench.rng.choice(["sc", "hdc", "dc"])
    return (*_plain_head(bench, kind), All(one(kind), "st and sp"))


def _over_stitches(bench: Bench) -> Steps | None:
    """``dc in each dc``: the spaces are passed."""
    name = _sole_kind(bench)
    kind = bench.rng.choice(["sc", "hdc", "dc"])
    if name is None:
        return None
    return (*_plain_head(bench, kind), All(one(kind), name))


def _into_spaces(bench: Bench) -> Steps | None:
    """``3 dc in each ch-2 sp``, one after a beginning chain that does not count."""
    space = _sole_space(bench)
    if space is None:
        return None
    kind = bench.rng.choice(["sc", "hdc", "dc"])
    number = bench.rng.randint(1, 4)
    content: Content = one(kind, number)
    if number == 2:
        content = (Stitches(kind), Chain(bench.rng.randint(1, 3)), Stitches(kind))
    head: Steps = () if bench.worked == "spiral rounds" else (Start(1),)
    if bench.rng.random() < 0.5:
        return (*head, All(content, _by_any_name(bench, space)))
    return (*head, Repeat((Work(content, into=_by_any_name(bench, space)),)))


def _mesh_on_mesh(bench: Bench) -> Steps | None:
    """``ch 4 (counts as dc and ch 1), *dc in next dc, ch 1; rep from * to last dc, …``."""
    if not bench.flat or _sole_kind(bench) != "dc" or len(bench.spaces) != 1:
        return None
    apart = bench.rng.randint(1, 3)
    step: Steps = (Work(one("dc"), into="dc"), Chain(apart))
    if bench.rng.random() < 0.5:
        return (
            Start(3 + apart, "dc", apart),
            Repeat(step, but=1, but_name="dc"),
            Work(one("dc"), into="dc", which="last"),
        )
    body: Steps = (Chain(apart), Work(one("dc"), into="dc"))
    return (Start(3, "dc"), Work(one("dc"), into="dc"), Repeat(body))


def _stitch_and_space(bench: Bench) -> Steps | None:
    """``*sc in next dc, 2 sc in next ch-2 sp; rep from * …``."""
    kind, space = _sole_kind(bench), _sole_space(bench)
    if kind is None or space is None:
        return None
    number = bench.rng.randint(1, 3)
    space = _by_any_name(bench, space)
    body: Steps = (Work(one("sc"), into=kind), Work(one("sc", number), into=space))
    head = _plain_head(bench, "sc")
    form = bench.rng.random()
    if form < 0.4:
        return (*head, Repeat(body))
    if form < 0.7:
        return (*head, Repeat(body, but=1, but_name=kind), Work(one("sc"), into=kind, which="last"))
    return (*head, Repeat(body, ending=True), Work(one("sc"), into=kind))


def _square(bench: Bench) -> Steps | None:
    """A round that starts in a corner space: ``(3 dc, ch 2, 3 dc) in next ch-2 sp``."""
    space = _sole_space(bench)
    if space is None or not bench.worked.startswith("joined"):
        return None
    rng = bench.rng
    half = rng.randint(1, 3)
    wide = rng.randint(1, 3)
    corner: Content = (Stitches("dc", half), Chain(wide), Stitches("dc", half))
    rest: Content = (Stitches("dc", half - 1), Chain(wide), Stitches("dc", half))
    if half == 1:
        rest = (Chain(wide), Stitches("dc"))
    between = rng.choice([(), (Chain(1),), (Chain(2),)])
    travel = Travel(to=space)
    return (
        travel,
        Start(3, "dc"),
        *([Same(rest)] if half > 1 else [Same(one("dc", 2))]),
        *between,
        Repeat((Work(corner, into=space), *between)),
    )


def _loop_round(bench: Bench) -> Steps | None:
    """A round of loops that starts in one: ``*ch 5, sc in next ch-5 sp; rep from * around``."""
    rng = bench.rng
    space = _sole_space(bench)
    if space is None or not bench.worked.startswith("joined"):
        return None
    loop = Chain(rng.randint(2, 7))
    length = int(space.removeprefix("ch-").removesuffix(" sp"))
    which = rng.choice(["next", "next", "first"] + ["center"] * (length % 2 and length > 1))
    body: Steps = (loop, Work(one("sc"), into=space, which=which))
    return (Travel(to=space), Start(1), Same(one("sc")), Repeat(body), loop)


def _loop_row(bench: Bench) -> Steps | None:
    """A flat row of loops between its first and last stitch."""
    kind, space = _sole_kind(bench), _sole_space(bench)
    if kind is None or space is None or not bench.flat:
        return None
    loop = Chain(bench.rng.randint(2, 7))
    edge = Work(one("sc"), into=kind, which="last")
    body: Steps = (loop, Work(one("sc"), into=_by_any_name(bench, space)))
    return (Start(1), Work(one("sc")), Repeat(body), loop, edge)


def _corners(bench: Bench) -> Steps | None:
    """``sc in each st around, working 3 sc in each corner ch-2 sp``."""
    rng = bench.rng
    space = _sole_space(bench)
    if space is None or not bench.worked.startswith("joined"):
        return None
    kind = rng.choice(["sc", "hdc", "dc"])
    corner = rng.choice([one(kind, 3), (Stitches(kind, 2), Chain(2), Stitches(kind, 2))])
    name = rng.choice(["st", _sole_kind(bench) or "st"])
    # of spaces within groups and others between them, a corner may be each or those alone
    groups = {place.group for places in bench.places for place in places if place.name == space}
    mixed = NO_GROUP in groups and len(groups) > 1
    return (*_plain_head(bench, kind), Corners(one(kind), name, corner, space, by_name=mixed))


def _solid_square(bench: Bench) -> Steps | None:
    """``*dc in each dc to next ch-2 sp, (2 dc, ch 2, 2 dc) in ch-2 sp; rep from * around``."""
    space, kind = _sole_space(bench), _sole_kind(bench)
    if space is None or kind != "dc" or bench.worked != "joined rounds":
        return None
    corner: Content = (Stitches("dc", 2), Chain(2), Stitches("dc", 2))
    body: Steps = (All(one("dc"), "dc", to=space), Work(corner, into=space))
    tail: Steps = (All(one("dc"), "dc"),) if bench.rng.random() < 0.5 else ()
    return (Start(3, "dc"), Repeat(body, ending=bool(tail)), *tail)


def on_groups(bench: Bench) -> Steps | None:
    """``*ch 3, sc in center dc of next 5-dc group; rep from *``."""
    rng = bench.rng
    if bench.flat and rng.random() < 0.3:
        size = rng.choice([3, 4])
        gaps = Between(one("dc", size), "dc", size, each=True)
        return (Start(3, "dc"), gaps, Work(one("dc"), into="sc", which="last"))
    head: Steps = () if bench.worked == "spiral rounds" else (Start(1),)
    body: Steps = (Center(one("sc"), "dc", rng.choice([3, 4, 5])), Chain(rng.randint(2, 5)))
    if rng.random() < 0.3:
        body = (Center(one("dc", 5), "dc", rng.choice([3, 5])), Work(one("sc"), into="sc"))
        return (*head, Work(one("sc")), Repeat(body)) if bench.flat else (*head, Repeat(body))
    if bench.flat:
        return (
            *head,
            Work(one("sc")),
            Chain(3),
            Repeat(body, ending=True),
            Work(one("sc"), into="sc"),
        )
    return (*head, Repeat(body))


ON_SPACES: tuple[Callable[[Bench], Steps | None], ...] = (
    _all_spaces,
    _over_stitches,
    _into_spaces,
    _mesh_on_mesh,
    _mesh_on_mesh,
    _stitch_and_space,
    _square,
    _square,
    _loop_round,
    _loop_row,
    _corners,
    _solid_square,
)
