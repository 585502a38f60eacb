"""What is worked in each yarn: stitches of every piece and size, and strands that are no stitches.

Takes     ``ProvenPattern``.
Gives     ``Tally`` for each yarn (``tallies``), with its ``Part`` and ``Strand``.
Problems  ``yarn-colour-unsaid``.
From      design.md, "Numbers a maker can trust"; the rows as the proof counts them.

A piece is counted as often as it is made. A section is worked in the yarn that it names, else in
the first of the pattern, or in the one that the rows before it have named. Chains, turning chains,
joins and slip stitches are among the stitches.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping

from workeven.arithmetic.per_size import PerSize, Sizes
from workeven.pattern import Piece, Yarn
from workeven.pattern.colours import palette_of
from workeven.problems import Problem
from workeven.problems.words import joined, quote
from workeven.proof import ProvenPattern, ProvenRow
from workeven.proof.coloured import Walks
from workeven.records import record
from workeven.yarn.colours import Doubt, Held, PieceWork, worked_in
from workeven.yarn.rates import Plain, plain
from workeven.yarn.strands import Strand, Works, colour_of, strands_of


@record
class Part:
    """What one piece, made once, has in one colour of a yarn.

    ``stitches``: in each size, by basic stitch, chains and slip stitches as ``ch``; ``worked``: the
    same by kind as the rows name them. ``colour``: None where the yarn has no colours, or where it
    is not said in which these are worked. ``beside``: the other yarns of which a strand is held
    together with it: such stitches take less of each than those of one yarn alone.
    """

    piece: str
    title: str
    make: PerSize[int]
    colour: str | None
    stitches: PerSize[Plain]
    worked: PerSize[Plain]
    beside: tuple[str, ...] = ()


@record
class Tally:
    """What is worked in one yarn.

    ``stitches``: in each size in all, each piece as often as it is made, by basic stitch. ``first``
    is where each of them stands first. ``open_rows``: how many rows are worked is not known;
    ``lost``: it is not told which stitches of a row are of this yarn. ``parts``: the same by piece
    and colour. ``strands`` are no stitches. ``by_colour``: the yarn lists colours, and every part
    and strand says of which it is; ``why_not`` says in words why they do not. ``problems``: what is
    told of it.
    """

    yarn: Yarn
    stitches: tuple[Plain, ...]
    first: Mapping[str, ProvenRow]
    open_rows: bool
    lost: bool = False
    parts: tuple[Part, ...] = ()
    strands: tuple[Strand, ...] = ()
    by_colour: bool = False
    why_not: str = ""
    problems: tuple[Problem, ...] = ()

    def kinds(self) -> tuple[str, ...]:
        """Every kind of stitch, chains among them, in the order in which they occur."""
        return tuple(self.first)

    def beside(self) -> tuple[tuple[str, ...], ...]:
        """With which other yarns it is held together, each way once; () is by itself."""
        return tuple(dict.fromkeys(part.beside for part in self.parts))


def tallies(proven: ProvenPattern) -> tuple[Tally, ...]:
    """The tally of every yarn of the pattern, in its order."""
    pattern = proven.graded.pattern
    if not pattern.yarns:
        return ()
    palette, walks = palette_of(pattern), Walks(proven.graded)
    first = pattern.yarns[0].name
    works = tuple((piece.piece, worked_in(piece, palette, first, walks)) for piece in proven.pieces)
    return tuple(
        _tally(proven, yarn, works, tuple(strands_of(proven, yarn, palette, works)))
        for yarn in pattern.yarns
    )


def _tally(proven: ProvenPattern, yarn: Yarn, works: Works, strands: tuple[Strand, ...]) -> Tally:
    pattern = proven.graded.pattern
    parts = tuple(
        part for piece, work in works for part in _parts(piece, work, yarn, pattern.sizes)
    )
    first: dict[str, ProvenRow] = {}
    every = [work for _, work in works]
    for work in every:
        for (name, kind), row in work.first.items():
            if name == yarn.name:
                for basic in plain([(kind, 1)]):
                    first.setdefault(basic, row)
    doubts = [work.doubts[yarn.name] for work in every if yarn.name in work.doubts]
    named = [part.colour for part in parts] + [strand.colour for strand in strands]
    by_colour = bool(yarn.colours) and None not in named and not doubts
    return Tally(
        yarn=yarn,
        stitches=_in_all(pattern.sizes, parts),
        first=first,
        open_rows=any(yarn.name in work.open_yarns for work in every),
        lost=any(yarn.name in work.lost for work in every),
        parts=parts,
        strands=strands,
        by_colour=by_colour,
        why_not=_why_not(yarn, doubts) if not by_colour and parts else "",
        problems=tuple(_unsaid(yarn, doubt) for doubt in doubts[:1] if doubt.why),
    )


def _parts(piece: Piece, work: PieceWork, yarn: Yarn, sizes: Sizes) -> Iterator[Part]:
    """What a piece has of a yarn, a part for each colour and each way of holding it."""
    for held, worked in work.worked.items():
        if yarn.name in (held.yarn, *held.beside) and any(worked):
            kinds: PerSize[Plain] = sizes.each(tuple(worked))
            yield Part(
                piece=piece.name,
                title=piece.title,
                make=piece.make,
                colour=colour_of(held, yarn),
                stitches=kinds.map(lambda one: plain(one.items())),
                worked=kinds,
                beside=_others(held, yarn),
            )


def colour_worked(held: Held, yarn: Yarn) -> str | None:
    """The colour of a yarn in what is held; None where it is not of this yarn, or not told."""
    return colour_of(held, yarn) if yarn.name in (held.yarn, *held.beside) else None


def _others(held: Held, yarn: Yarn) -> tuple[str, ...]:
    return tuple(sorted({held.yarn, *held.beside} - {yarn.name}))


def _in_all(sizes: Sizes, parts: tuple[Part, ...]) -> tuple[Plain, ...]:
    """Parts added up, each as often as its piece is made."""
    total: tuple[dict[str, int], ...] = tuple({} for _ in sizes.names)
    for part in parts:
        for index, stitches in enumerate(part.stitches):
            for name, count in stitches.items():
                made = count * part.make[index]
                total[index][name] = total[index].get(name, 0) + made
    return total


# --- colours that are not told -------------------------------------------------------------


def _why_not(yarn: Yarn, doubts: list[Doubt]) -> str:
    """Why there is no amount by colour, in words; "" where there are no colours to tell apart."""
    if doubts:
        return doubts[0].why
    return "in which colour it is worked is not said" if len(yarn.colours) > 1 else ""


def _unsaid(yarn: Yarn, doubt: Doubt) -> Problem:
    listed = joined(map(quote, yarn.colours)) if yarn.colours else "none"
    return Problem(
        code="yarn-colour-unsaid",
        span=doubt.row.span,
        found=f"No amount by colour is given for {quote(yarn.name)}: {doubt.why}.",
        expected=f"The colour of every row, by name. Colours of {quote(yarn.name)}: {listed}.",
        mend="Write `colour:` in the section, or the colour in the row (“with "
        f"{yarn.colours[0] if yarn.colours else 'Sand'}, ch 1, …”)."
        + ("" if yarn.colours else " List the colours under the yarn."),
    )
