"""The rows of a text that can be told place by place, as a stitch chart draws them."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator
from typing import NamedTuple

from workeven.notation.parser import parse_row, parse_special
from workeven.notation.tree import SpecialStitch
from workeven.notation.vocabulary import Terms, Vocabulary
from workeven.problems import Span
from workeven.proof.context import SizeContext
from workeven.proof.counting import EACH_CHAIN
from workeven.proof.line import CountedLine, Lined
from workeven.proof.piece import count_piece
from workeven.proof.placed import PlacedRow, placed_row, worked_for
from workeven.proof.row import work
from workeven.proof.standing import Worked


class Told(NamedTuple):
    """A row in the first size: place by place, and as it is counted.

    ``before`` is the row below it in the same way; None where that is not told, or not at hand.
    ``rows_behind``: how many rows of its line come behind it.
    """

    line: int
    how: str
    placed: PlacedRow
    worked: dict[str, int]
    makes: dict[str, int]
    before: PlacedRow | None
    turned: bool
    rows_behind: int


def lined(
    text: str,
    *,
    worked: str,
    terms: Terms,
    sizes: tuple[str, ...] = (),
    stitches: tuple[str, ...] = (),
) -> tuple[list[Lined], tuple[SizeContext, ...]]:
    """The lines of a text, and its sizes; ``stitches`` as ``shell = 5 dc in same st``."""
    special: dict[str, SpecialStitch] = {}
    each_chain = any(EACH_CHAIN.fullmatch(stitch) for stitch in stitches)
    for stitch in stitches:
        if EACH_CHAIN.fullmatch(stitch):
            continue
        name, _, words = (part.strip() for part in stitch.partition("="))
        found = parse_special(name, words, _span(1, stitch), terms).value
        assert found is not None
        special[name] = found
    vocabulary = Vocabulary(terms, tuple(special), sizes)
    number = max(len(sizes), 1)
    contexts = tuple(
        SizeContext(index=at, sizes=number, special=special, each_chain_counts=each_chain)
        for at in range(number)
    )
    lines = []
    for at, written in enumerate(text.splitlines(), 1):
        row = parse_row(written, _span(at, written), vocabulary).value
        assert row is not None
        heights = (None,) * number
        lines.append(Lined(row=row, worked=worked, row_heights=heights, sizes=None, section=0))
    return lines, contexts


def _span(line: int, text: str) -> Span:
    return Span(file="-", line=line, column=1, end_line=line, end_column=len(text) + 1)


def told(lines: list[Lined], contexts: tuple[SizeContext, ...]) -> Iterator[Told]:
    """The rows of these lines that come out as usual, and can be told."""
    names = tuple(str(context.index) for context in contexts)
    for line in count_piece(lines, contexts, names, (None,) * len(contexts)):
        behind = line.behind[0]
        if behind is None or line.per_size[0] is None or line.faults or line.reading:
            continue
        yield from _told_of(line, behind, contexts[0])


def _told_of(line: CountedLine, behind: Worked, context: SizeContext) -> Iterator[Told]:
    below, before, turned = behind.below, None, False
    for at in range(min(behind.times, len(behind.lines))):
        one = behind.line_at(at)
        after = work(one.facts, below, context, worked=behind.how, choices=one.choices)
        placed = placed_row(one, below, context, behind.how) if after.is_row else None
        if placed is not None:
            yield Told(
                line.lined.row.span.line,
                behind.how,
                placed,
                {name: number for name, number in after.worked if number},
                dict(after.makes),
                before,
                turned,
                behind.times - 1 - at,
            )
        below, before, turned = after.fabric, placed, after.fabric.turned


def symbols(row: PlacedRow) -> dict[str, int]:
    """What the yarn goes into for all that is drawn in a row, and for its own starting chain."""
    found = Counter({"ch": row.chains} if row.chains else {})
    for one in row.stitches:
        if not one.earlier:
            found.update(dict(worked_for(one)))
    return dict(found)
