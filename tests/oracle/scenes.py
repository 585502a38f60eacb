"""Pieces that are parted, taken up again and shaped over many rows, with their counts by hand.

Takes     a ``Random``.
Gives     ``scene``: a ``Scene``: rows as a text, and how many stitches each line leaves by size.
Problems  none: a line that does not come out in a size has ``None`` there, and ends that size.
From      notation.md, Below and before ("Places an earlier row left stay reachable"), Whole pieces
          ("Shaping over a length"), "leave rem sts unworked".

What a line leaves is counted on a plain list, which is cut where a row stops and taken up where a
later row says so. One number in four is off, as a designer's slip would be.
"""

from __future__ import annotations

import random
from collections.abc import Callable
from dataclasses import dataclass, field

from tests.oracle.texts import number

NAMES = ("S", "M", "L", "XL", "2X")
Line = tuple[str, tuple[int | None, ...]]


@dataclass(frozen=True, slots=True)
class Scene:
    """``lines``: each with its stitches by size; ``wide``: the stitches of sc that are there."""

    worked: str
    sizes: tuple[str, ...]
    wide: tuple[int, ...]
    lines: tuple[Line, ...]

    @property
    def text(self) -> str:
        """The rows, one a line."""
        return "".join(f"{text}\n" for text, _ in self.lines)


@dataclass(slots=True)
class Bench:
    """One list of stitches a size; ``None`` where a row did not come out."""

    rng: random.Random
    worked: str
    stitches: list[list[str] | None]
    lines: list[Line] = field(default_factory=list)

    def by_size(self, counts: tuple[int, ...]) -> str:
        """A number by size, in words."""
        return number(counts if len(set(counts)) > 1 else counts[0], self.rng)

    def line(self, text: str, stated: tuple[int, ...] | None = None) -> None:
        """A line is written; what it states must be there."""
        if stated is not None:
            figures = stated if len(set(stated)) > 1 else stated[:1]
            text += f" ({', '.join(map(str, figures))} sts)"
            for size, figure in enumerate(stated):
                there = self.stitches[size]
                if there is not None and len(there) != figure:
                    self.stitches[size] = None
        made = tuple(None if one is None else len(one) for one in self.stitches)
        self.lines.append((text, made))

    def plain(self, times: int = 1) -> None:
        """Rows in which nothing changes."""
        ends = {"flat rows": "turn", "joined rounds": "join"}[self.worked]
        across = "across" if self.worked == "flat rows" else "around"
        for _ in range(times):
            self.line(f"ch 1, sc in each st {across}, {ends}")

    def off(self, counts: tuple[int, ...], least: int = 1) -> tuple[int, ...]:
        """The counts, one of them off now and then."""
        if self.rng.random() > 0.25:
            return counts
        size = self.rng.randrange(len(counts))
        wrong = counts[size] + self.rng.choice([-1, 1, 2])
        return (*counts[:size], max(least, wrong), *counts[size + 1 :])


def scene(rng: random.Random) -> Scene:
    """One of the ways in which pieces are parted and shaped."""
    names = NAMES[: rng.choice([1, 2, 3, 5])]
    wide = tuple(24 + rng.randint(0, 12) + 4 * size for size in range(len(names)))
    make = rng.choice(SCENES)
    worked = "joined rounds" if make is _rounds_shaped else "flat rows"
    bench = Bench(rng, worked, [["sc"] * count for count in wide])
    make(bench, wide)
    sizes = names if len(names) > 1 else ()
    return Scene(worked, sizes, wide, tuple(bench.lines))


# --- two shoulders -------------------------------------------------------------------------


def _shoulders(bench: Bench, wide: tuple[int, ...]) -> None:
    """One side is worked and left; the other is taken up behind the neck, and then the neck."""
    rng = bench.rng
    bench.plain(rng.randint(1, 2))
    first = tuple(count // 3 - rng.randint(0, 2) for count in wide)
    neck = tuple(rng.randint(3, 6) for _ in wide)
    left = [None if one is None else one[count:] for one, count in _pairs(bench, first)]
    bench.stitches = [None if one is None else one[:count] for one, count in _pairs(bench, first)]
    bench.line(f"ch 1, sc in first {bench.by_size(first)} sts, leave rem sts unworked, turn")
    bench.plain(rng.randint(0, 2))
    bench.line("ch 1, sc in each st across, fasten off")
    bench.stitches = [
        None if one is None or there is None else there[count:]
        for (one, count), there in zip(_pairs(bench, neck), left, strict=True)
    ]
    second = tuple(w - f - n for w, f, n in zip(wide, first, neck, strict=True))
    words = rng.choice(["join yarn in next st", "join yarn with sl st in next st"])
    skip = f"sk next {bench.by_size(neck)} sts{rng.choice(['', ' for neck'])}, {words}, ch 1"
    if rng.random() < 0.5:
        bench.line(f"{skip}, sc in same st and in each st across, turn", bench.off(second))
    else:
        rest = bench.off(tuple(count - 1 for count in second))
        for size, count in enumerate(rest):
            if count != second[size] - 1:
                bench.stitches[size] = None
        bench.line(f"{skip}, sc in same st, sc in next {bench.by_size(rest)} sts, turn")
    bench.plain(rng.randint(0, 2))


def _pairs(bench: Bench, counts: tuple[int, ...]) -> list[tuple[list[str] | None, int]]:
    return list(zip(bench.stitches, counts, strict=True))


# --- short rows ----------------------------------------------------------------------------


def _short_rows(bench: Bench, wide: tuple[int, ...]) -> None:
    """A row stops early, the next goes back, and the third goes on over what was left."""
    rng = bench.rng
    bench.plain(rng.randint(1, 2))
    first = tuple(count // 2 - rng.randint(0, 3) for count in wide)
    whole = [None if one is None else list(one) for one in bench.stitches]
    bench.stitches = [None if one is None else one[:count] for one, count in _pairs(bench, first)]
    bench.line(f"ch 1, sc in first {bench.by_size(first)} sts, leave rem sts unworked, turn")
    bench.line("ch 1, sc in each st across, turn")
    bench.stitches = [
        None if one is None or all_ is None else all_
        for one, all_ in zip(bench.stitches, whole, strict=True)
    ]
    if rng.random() < 0.6:
        bench.line(
            "ch 1, sc in each st across, sc in each unworked st, turn",
            bench.off(wide) if rng.random() < 0.6 else None,
        )
    else:
        rest = bench.off(tuple(w - f for w, f in zip(wide, first, strict=True)))
        for size, count in enumerate(rest):
            there = bench.stitches[size]
            if there is not None:  # some may stay unworked, as the first row has said
                enough = count <= wide[size] - first[size]
                bench.stitches[size] = there[: first[size] + count] if enough else None
        bench.line(
            f"ch 1, sc in each st across, sc in next {bench.by_size(rest)} unworked sts, turn"
        )
    bench.plain(rng.randint(0, 2))


# --- shaping over many rows ----------------------------------------------------------------


def _shaped(bench: Bench, wide: tuple[int, ...]) -> None:
    """``dec 1 st at each end every 4th row 3 times, then every 6th row twice``."""
    rng = bench.rng
    bench.plain()
    ends, words = rng.choice([(2, "at each end"), (2, "at both ends"), (1, "at neck edge")])
    _rate(bench, wide, ends, words, "row")


def _rounds_shaped(bench: Bench, wide: tuple[int, ...]) -> None:
    """``inc 4 sts evenly every 3rd rnd twice``."""
    bench.plain()
    _rate(bench, wide, 4, "", "rnd")


def _rate(bench: Bench, wide: tuple[int, ...], each: int, words: str, row: str) -> None:
    rng = bench.rng
    change = rng.choice(["dec", "inc"])
    times = tuple(rng.randint(1, 2) for _ in wide)
    again = rng.randint(0, 2)
    every = {2: "2nd", 3: "3rd", 4: "4th", 6: "6th"}
    gap, wider = rng.choice([(2, 3), (2, 4), (4, 6), (3, 6)])
    sign = -1 if change == "dec" else 1
    ends = tuple(w + sign * each * (n + again) for w, n in zip(wide, times, strict=True))
    bench.stitches = [None if one is None else ["sc"] * count for one, count in _pairs(bench, ends)]
    what = f"1 st {words}" if words else f"{each} sts evenly"
    text = f"{change} {what} every {every[gap]} {row} {bench.by_size(times)} times"
    if again:
        text += (
            f", then every {every[wider]} {row} {rng.choice([f'{again} times', f'{again} times'])}"
        )
    bench.line(text, bench.off(ends))
    bench.plain(rng.randint(1, 2))


SCENES: tuple[Callable[[Bench, tuple[int, ...]], None], ...] = (
    _shoulders,
    _short_rows,
    _shaped,
    _rounds_shaped,
)
