"""Plain rows, one a line, counted: what ``workeven count`` and the tests of the guide use.

Takes     the text of rows and how it is worked.
Gives     ``CountedText``.
Problems  those of the notation and of the proof.
From      notation.md.
"""

from __future__ import annotations

import re
from collections.abc import Iterator

from workeven.arithmetic.size_lists import by_size
from workeven.arithmetic.units import QuantityFault
from workeven.notation.declared import declaration
from workeven.notation.explained import explained
from workeven.notation.parser import parse_row
from workeven.notation.stated_counts import stated
from workeven.notation.stream import NotUnderstood, Stream
from workeven.notation.tree import Row, SpecialStitch, Stated
from workeven.notation.vocabulary import HEIGHTS, Terms, Vocabulary, in_terms, kind_of
from workeven.problems import Checked, Problem, Span
from workeven.problems.once import told_once
from workeven.proof.context import SizeContext
from workeven.proof.fabric import (
    Builder,
    Fabric,
    Loop,
    Node,
    Run,
    counted_chain,
    reversed_nodes,
    space,
    stitch,
)
from workeven.proof.into import Into, into_lines
from workeven.proof.line import CountedLine, Lined
from workeven.proof.messages import asked_chain, problems_of, row_name, turning_chain_advice
from workeven.proof.piece import count_piece
from workeven.proof.proven import Counted
from workeven.proof.sides import LEAF, leaf
from workeven.proof.squares import places_of_square
from workeven.records import record


@record
class CountedRow:
    """One line in every size: lists have one entry a size, None where a size does not work it.

    ``into`` is what the row, or the first of several, is worked into; None where it is not told.
    """

    label: str | None
    line: int
    times: tuple[int | None, ...]
    sts: tuple[int | None, ...]
    makes: tuple[Counted | None, ...]
    stated: tuple[Counted | None, ...] | None
    into: tuple[Into | None, ...]


@record
class CountedText:
    """All lines; ``sizes`` are their names, a single None where the text has no sizes."""

    sizes: tuple[str | None, ...]
    rows: tuple[CountedRow, ...]


def count(
    text: str,
    *,
    file: str = "-",
    worked: str = "flat rows",
    terms: Terms = "us",
    start: str | None = None,
    sizes: tuple[str, ...] | None = None,
    stitches: tuple[str, ...] = (),
) -> Checked[CountedText]:
    r"""Count plain rows; the value is given even when rows do not come out.

    >>> counted = count("ch 21\nsc in 2nd ch from hook and in each ch across, turn").value
    >>> [row.sts for row in counted.rows]
    [(21,), (20,)]
    """
    names = sizes if sizes is not None else numbered_sizes(text)
    problems: list[Problem] = []
    special = _special(stitches, file, terms, problems)
    vocabulary = Vocabulary(terms, tuple(special), names or ())
    fabrics, below = _start(start, vocabulary, file, problems, worked, special)
    rows = tuple(_rows(text, file, vocabulary, special, problems))
    contexts = tuple(
        SizeContext(
            index=at,
            sizes=len(fabrics),
            special=special,
            each_chain_counts=any(EACH_CHAIN.fullmatch(stitch) for stitch in stitches),
        )
        for at in range(len(fabrics))
    )
    size_names = tuple(names) if names else ("",)
    heights = (None,) * len(contexts)
    lined = [
        Lined(row=row, worked=worked, row_heights=heights, sizes=None, section=0) for row in rows
    ]
    counted = count_piece(lined, contexts, size_names, fabrics, below)
    problems.extend(_told(counted, contexts, size_names, terms))
    problems = told_once(problems)
    problems.sort(key=lambda problem: (problem.span.line, problem.span.column))
    return Checked(
        value=CountedText(
            sizes=tuple(names) if names else (None,),
            rows=tuple(
                _row(one, told, terms)
                for one, told in zip(
                    counted,
                    into_lines((one.behind for one in counted), contexts),
                    strict=True,
                )
            ),
        ),
        problems=tuple(problems),
    )


def _rows(
    text: str,
    file: str,
    vocabulary: Vocabulary,
    special: dict[str, SpecialStitch],
    problems: list[Problem],
) -> Iterator[Row]:
    """The rows, one a line; empty lines part them for the eye.

    Stitches that they explain are added to the special ones.
    """
    told: dict[str, SpecialStitch] = {}
    opening = True
    for number, line in enumerate(text.split("\n"), start=1):
        body = line.strip()
        if not body:
            continue
        column = len(line) - len(line.lstrip()) + 1
        span = Span(
            file=file,
            line=number,
            column=column,
            end_line=number,
            end_column=column + len(body),
        )
        said = explained(body, span, vocabulary, told, opening=opening)
        vocabulary = said.vocabulary
        told |= {stitch.name: stitch for stitch in said.stitches}
        special |= told
        parsed = parse_row(body, span, vocabulary, said.text, opening=opening)
        problems.extend((*said.problems, *parsed.problems))
        assert parsed.value is not None
        opening = opening and parsed.value.before_the_rows
        yield parsed.value


def _told(
    counted: tuple[CountedLine, ...],
    contexts: tuple[SizeContext, ...],
    names: tuple[str, ...],
    terms: Terms,
) -> Iterator[Problem]:
    """The problems of all lines; what practice is split on is asked once."""
    advised = False
    for one in counted:
        yield from problems_of(one, contexts, names, None, terms)
        if not advised and one.reading is None and asked_chain(one) is not None:
            yield turning_chain_advice(one, None, terms)
            advised = True


def _row(line: CountedLine, into: tuple[Into | None, ...], terms: Terms) -> CountedRow:
    entries = line.per_size
    faulty = {one.size for one in line.faults}
    understood = line.lined.row.body is not None
    stated_any = any(entry is not None and entry.stated is not None for entry in entries)
    first = next((at for at, entry in enumerate(entries) if entry is not None), None)
    return CountedRow(
        label=None if first is None else row_name(line, first),
        line=line.lined.row.span.line,
        times=tuple(None if entry is None else entry.times for entry in entries),
        sts=tuple(None if entry is None else entry.sts for entry in entries),
        makes=tuple(
            None
            if entry is None or entry.sts is None or not understood
            else _named(entry.makes, terms)
            for entry in entries
        ),
        stated=tuple(
            None if entry is None or entry.stated is None else _named(entry.stated, terms)
            for entry in entries
        )
        if stated_any
        else None,
        into=tuple(
            None if told is None or size in faulty else told.in_terms(terms)
            for size, told in enumerate(into)
        ),
    )


def _named(counted: Counted, terms: Terms) -> Counted:
    """Counts by kind, in the terms of the text."""
    return tuple((in_terms(name, terms), number) for name, number in counted)


_LIST = re.compile(
    r"(?<![\w.])\d+\s*\(\s*(?:\d+|[-–—])(?:\s*,\s*(?:\d+|[-–—]))+\s*\)(?:\s*\(\s*[\d\s,–—-]+\))?"
)


#: two numbers, the second in brackets, with what they count behind them: "in next 4 (5) sts"
_PAIR = re.compile(
    r"(?<![\w.])\d+\s*\(\s*\d+\s*\)[ \t]*(?:more|times|sts?|chs?|sps?|[a-z]{0,3}(?:dc|sc|tr))\b",
    re.IGNORECASE,
)


def numbered_sizes(text: str) -> tuple[str, ...] | None:
    """Sizes 1, 2 … where rows hold numbers by size and nobody named the sizes."""
    found = _LIST.search(text)
    if found is None:
        return ("1", "2") if _PAIR.search(text) else None
    try:
        return tuple(str(at + 1) for at in range(len(by_size(found[0]))))
    except QuantityFault:  # a place of it is empty: its row is told
        return None


def _special(
    stitches: tuple[str, ...], file: str, terms: Terms, problems: list[Problem]
) -> dict[str, SpecialStitch]:
    special: dict[str, SpecialStitch] = {}
    for text in stitches:
        if EACH_CHAIN.fullmatch(text):
            continue
        span = Span(file=file, line=1, column=1, end_line=1, end_column=1)
        given = declaration(text, span, terms)
        problems.extend(given.problems)
        special |= {one.name: one for one in given.stitches}
    return special


#: a declaration among the stitches: "each ch counts as a st"
EACH_CHAIN = re.compile(
    r"\s*each (?:ch|chain)\b.*\bcounts? as (?:a |one |1 )?(?:st|stitch)\s*", re.IGNORECASE
)
_ROWS_OF = re.compile(
    r"\s*(?P<rows>\d+)\s+(?:rows?|rnds?|rounds?)\s+of\s+(?P<rest>.+)", re.IGNORECASE
)


def _start(
    text: str | None,
    vocabulary: Vocabulary,
    file: str,
    problems: list[Problem],
    worked: str,
    special: dict[str, SpecialStitch],
) -> tuple[tuple[Fabric | None, ...], int]:
    """The fabric of ``--from "54 dc"`` in each size, and its rows ("24 rows of dc")."""
    sizes = max(len(vocabulary.sizes), 1)
    if text is None:
        return (None,) * sizes, 0
    rows = 0
    many = _ROWS_OF.fullmatch(text)
    if many is not None:
        rows = int(many["rows"])
        text = many["rest"] if many["rest"][:1].isdigit() else f"1 {many['rest']}"
    stream = Stream(text, vocabulary)
    try:
        found = stated(stream, 0)
    except NotUnderstood:
        found = None
    vague = found is not None and any(
        one.formula or unit.startswith("?or ") for one, unit in found.counts
    )
    if found is None or not stream.at_end() or vague:
        problems.append(
            Problem(
                code="row-start-option",
                span=Span(file=file, line=1, column=1, end_line=1, end_column=1),
                found=f"what is there before the first row is not understood: “{text[:80]}”.",
                mend="Write it as “54 dc”, “50 (55, 60) sc” or “24 dc, 8 ch-2 sps”.",
            )
        )
        return (None,) * sizes, rows
    return tuple(_fabric_of(found, size, worked, special) for size in range(sizes)), rows


def _fabric_of(found: Stated, size: int, worked: str, special: dict[str, SpecialStitch]) -> Fabric:
    parts: list[Run] = []
    units = [
        (unit, amount.values[size] if amount.by_size() else amount.values[0])
        for amount, unit in found.counts
    ]
    if any(unit in special and special[unit].square for unit, _ in units):
        return _of_squares(units, worked, special)
    if [unit for unit, _ in units] == [LEAF]:
        leaves = (Loop((leaf(),), units[0][1] or 0),)
        return Fabric(leaves, closed=worked != "flat rows", turned=True)
    for amount, unit in found.counts:
        number = amount.values[size] if amount.by_size() else amount.values[0]
        chains = re.fullmatch(r"ch-(\d+) sp", unit)
        name = "sc" if unit == "sts" else unit
        place = space(int(chains[1])) if chains else stitch(name, kind_of(name).base)
        if number:
            parts.append(Run(place, number))
    closed = worked != "flat rows"
    nodes = _mixed(parts) if parts else ()
    return Fabric(nodes if closed else _with_turning_chain(nodes), closed=closed, turned=True)


def _with_turning_chain(nodes: tuple[Node, ...]) -> tuple[Node, ...]:
    """The places of a row, the last of which may be its turning chain: nobody says so of it."""
    last = nodes[-1] if nodes else None
    if not isinstance(last, Run) or last.place.sort != "st" or last.place.name != last.place.base:
        return nodes
    place, height = last.place, HEIGHTS.get(last.place.base, 0)
    if height < HEIGHTS["dc"]:
        return nodes
    before = (Run(place, last.count - 1),) if last.count > 1 else ()
    return (*nodes[:-1], *before, Run(counted_chain(place.name, place.base, height), 1))


def _of_squares(
    units: list[tuple[str, int | None]], worked: str, special: dict[str, SpecialStitch]
) -> Fabric:
    """A row of filet told by its squares, in the order in which they were worked."""
    builder = Builder()
    for unit, number in units:
        known = special.get(unit)
        if known is None or not known.square:
            builder.add(stitch(unit, kind_of(unit).base), number or 0)
            continue
        if not builder.nodes:
            base = known.base or "dc"
            builder.add(stitch(base, base), 1)
        for _ in range(number or 0):
            for place, count in places_of_square(known):
                builder.add(place, count)
    nodes = tuple(builder.nodes)
    flat = worked == "flat rows"
    return Fabric(reversed_nodes(nodes) if flat else nodes, closed=not flat, turned=True)


def _mixed(parts: list[Run]) -> tuple[Node, ...]:
    """Spaces set evenly among the stitches, where their numbers divide."""
    smallest = min(part.count for part in parts)
    if len(parts) == 1 or smallest == 0 or any(part.count % smallest for part in parts):
        return tuple(parts)
    inside = tuple(Run(part.place, part.count // smallest) for part in parts)
    return (Loop(inside, smallest),)
