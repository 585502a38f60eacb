"""One line of a pattern as a page shows it: the designer's words, the numbers filled in.

Takes     a ``ProvenRow``, the counts and measurements of its pattern.
Gives     ``row_words``, ``number``, ``side``, ``count``, ``Names``; ``as_worked``;
          ``sentence``, ``until_of``.
Problems  none.
From      design.md: terms, sizes and numbers are replaced in place through the spans the parser
          found, never by searching text; counts, row numbers and the row's side are added.

The words stay as written but for three things. A formula in braces becomes its numbers. A length
is given in both systems (one written out keeps its figures and has the other system added), and
how many rows it comes to is said after it. The row
number that the designer wrote, and the count that she stated at the end, leave the sentence and
stand in the line above it, where every row has its own from the proof; a count in other units
(shells, squares) is kept there beside the stitches.
"""

from __future__ import annotations

import re
from collections.abc import Callable, Iterator, Mapping, Sequence
from fractions import Fraction
from functools import partial
from typing import TypeVar

from markupsafe import Markup, escape

from workeven.arithmetic.formulas import Formula
from workeven.arithmetic.per_size import PerSize
from workeven.notation import wording
from workeven.notation.tree import (
    ONE,
    Amount,
    Chain,
    FastenOff,
    JoinYarn,
    Length,
    MagicRing,
    RepeatEvery,
    RepeatRows,
    Row,
    RowsTimes,
    RowsUntil,
    ShapeRows,
    UntilCount,
    UntilMeasures,
    WorkedRow,
    WorkEven,
)
from workeven.notation.vocabulary import Terms, in_terms
from workeven.pattern.rows import label_of
from workeven.proof import Counted, ProvenRow, RowInSize
from workeven.publish.pages import choices, figures
from workeven.publish.pages.both_terms import OTHER, PASSED_OVER, other_word
from workeven.publish.pages.choices import by_size, in_units, plain
from workeven.publish.pages.said_lengths import Said, behind, said_lengths
from workeven.records import record

Value = TypeVar("Value", int, Fraction)

#: A stretch of a row's text, and what stands in its place.
Mark = tuple[int, int, Markup]

#: What may stand around a stated count at the end of a row.
_AROUND_STATED = " ([:–—-=)]."
#: What begins a piece, or goes on with it in another place.
_STARTS = (Chain, MagicRing, JoinYarn)
#: What stands before the name of a stitch: ``3-dc``.
_LEAD = re.compile(r"\d+-")
#: Short words that every row has: the list explains them, a row would be nothing but links.
_EVERYWHERE = {"ch", "st(s)", "sp(s)", "rnd(s)", "rep", "sk"}
_SHORT_MEANINGS = {
    short: Markup('<abbr title="{}">{}</abbr>').format(one.meaning, short)
    for one in wording.plain_words()
    if one.short not in _EVERYWHERE
    for short in {one.short.removesuffix("(s)"), one.short.replace("(s)", "s")}
}
_SHORT = re.compile(rf"(?<![\w-])(?:{'|'.join(sorted(_SHORT_MEANINGS, reverse=True))})(?![\w-])")
#: Words for passing a stitch over, by the terms of the text.
_PASSED_OVER: dict[Terms, re.Pattern[str]] = {
    terms: re.compile(rf"\b(?:{'|'.join(others)})\b", re.IGNORECASE)
    for terms, others in PASSED_OVER.items()
}
_CHAINS = re.compile(r"ch-(?P<chains>\d+) sp")
_IMPERIAL = ("in", "in.", "inch", "inches", '"', "″", "yd", "yds", "yard", "yards", "ft", "feet")


@record
class Names:
    """What the names in braces stand for, and what the stitch words mean."""

    counts: Mapping[str, PerSize[int]]
    lengths: Mapping[str, PerSize[Fraction]]
    meaning: Callable[[str], str]
    units: figures.Units
    sizes: int = 1
    terms: Terms = "us"


def row_words(proven: ProvenRow, names: Names) -> Markup:
    """The sentence of the row, escaped, its stitch words and numbers marked up."""
    row = proven.row
    start, end = sentence(row)
    parts: list[Markup] = []
    at = start
    for first, last, markup in _marks(proven, names):
        if at <= first and last <= end:
            parts += [escape(row.text[at:first]), markup]
            at = last
    parts.append(escape(row.text[at:end]))
    if isinstance(until_of(row), UntilCount):
        parts.append(_times(proven))
    return Markup("").join(parts).strip()


def as_worked(proven: ProvenRow, names: Names) -> Iterator[str]:
    """What tells a row from an older one of the same place: its sentence, its formulas' values."""
    start, end = sentence(proven.row)
    yield " ".join(proven.row.text[start:end].split())
    for amount in proven.row.amounts:
        if amount.formula is not None:
            values = _worked_out(amount, names, proven.per_size)
            yield plain(figures.counts(_only_worked(proven, values)))
    until = until_of(proven.row)
    if isinstance(until, UntilMeasures) and until.length.formula is not None:
        exact = _only_worked(proven, _exact(proven, until.length.formula, names))
        yield " ".join(figures.NOT_WORKED if one is None else str(one) for one in exact)


def number(proven: ProvenRow) -> str:
    """The row's number as printed, ``Rnds 4–12 (13, 14)``, or "" where it has none.

    The first number is said once where every size begins with it; else each has its own pair. Rows
    that have others between them are told as they are written: ``Rows 3, 5 and 7``.
    """
    if proven.row.label is not None and proven.row.label.alternate:
        return label_of(proven.row)
    spans = [_span_in_size(counted) for counted in proven.per_size]
    worked = [span for span in spans if span]
    if not worked:
        return ""
    several = any(first != last for first, last in worked)
    word = f"{proven.word}s" if several else proven.word
    all_several = len(worked) == len(spans) and all(first != last for first, last in worked)
    if all_several and len({first for first, _ in worked}) == 1:
        return f"{word} {worked[0][0]}–{figures.counts(last for _, last in worked)}"
    shown = f"{word} {figures.trade([_pair(span) for span in spans])}"
    if len({first == last for first, last in worked}) == 1:
        return shown
    return by_size(shown, [_numbered(proven, span) for span in spans])


def multiple(proven: ProvenRow) -> str:
    """What the stitches below must be for the row's repeat: ``multiple of 6 plus 1``, or ""."""
    return "" if proven.multiple is None else figures.multiple(*proven.multiple)


def place(proven: ProvenRow) -> str:
    """What a line that is no row is to the rows: ``Start``, ``End`` or ``Then``."""
    body = proven.row.body
    steps = body.steps if isinstance(body, WorkedRow) else ()
    if any(isinstance(step, FastenOff) for step in steps):
        return "End"
    return "Start" if any(isinstance(step, _STARTS) for step in steps) else "Then"


def side(proven: ProvenRow) -> str:
    """``RS`` or ``WS``; by size where they differ; "" where rows have no sides."""
    sides = [counted.side for counted in proven.per_size if counted]
    if not any(sides):
        return ""
    return figures.trade(
        [(counted.side if counted else None) or figures.NOT_WORKED for counted in proven.per_size]
        if len(set(sides)) > 1
        else [sides[0] or ""]
    )


def count(proven: ProvenRow) -> str:
    """What there is after the row: stitches, spaces, and stated figures in other units."""
    made = _names(proven, lambda counted: counted.makes)
    unit = "ch" if list(made) == ["ch"] else "st"
    parts = [_kind(proven, unit, lambda counted: counted.sts)]
    parts += _spaces(proven, [name for name in made if name.endswith("sp")])
    for name in _names(proven, lambda counted: counted.stated or ()):
        said = [_of(counted.stated or (), name) if counted else None for counted in proven.per_size]
        if name != "sts" and not any(
            plain(one).startswith(f"{plain(figures.counts(said))} ") for one in parts
        ):
            parts.append(figures.counted(said, name, _plural(name)))
    told = ", ".join(part for part in parts if part)
    worked = [one.last for one in proven.per_size if one and one.last is not None]
    label = proven.row.label
    if not told or not worked or label is None or not label.alternate:
        return told
    return f"{told} ({proven.word} {worked[0]})"  # of which of its rows that is


# --- the sentence --------------------------------------------------------------------------


def sentence(row: Row) -> tuple[int, int]:
    """Where the sentence begins and ends: without its written number and its stated count."""
    start, end = 0, len(row.text)
    if row.label and row.label.word and row.label.name is None and not row.only:
        start = row.label.end
        while start < end and row.text[start] in ": ":
            start += 1
    if row.stated and not row.text[row.stated.end :].strip(_AROUND_STATED):
        end = len(row.text[: row.stated.start].rstrip(_AROUND_STATED + ","))
    return start, end


def _marks(proven: ProvenRow, names: Names) -> list[Mark]:
    """What is marked up or replaced, from left to right; where two overlap, the longer wins."""
    row = proven.row
    found = [
        *_only(proven),
        *_name(row),
        *_terms(row, names),
        *_short_words(row, names),
        *_amounts(proven, names),
        *_lengths(proven, names),
        *((one.start, one.end, escape(one.marked)) for one in written_out(row, names.sizes)),
    ]
    kept: list[Mark] = []
    for mark in sorted(found, key=lambda one: (one[0], -one[1])):
        if mark[1] > mark[0] and (not kept or kept[-1][1] <= mark[0]):
            kept.append(mark)
    return kept


def _only(proven: ProvenRow) -> Iterator[Mark]:
    """For whom the row is: who has chosen her size sees it where it is hers, and needs no names."""
    text, sizes = proven.row.text, proven.per_size.sizes
    if proven.row.only is not None:
        end = text.index(":") + 1
        end += len(text[end:]) - len(text[end:].lstrip())
        yield 0, end, escape(by_size(text[:end], [""] * len(sizes)))


def _name(row: Row) -> Iterator[Mark]:
    """A row's own name, by which other rows call it."""
    if row.label and row.label.name:
        start, end = row.label.start, row.label.end
        yield start, end, Markup("<b>{}</b>").format(row.text[start:end])


def _terms(row: Row, names: Names) -> Iterator[Mark]:
    for term in row.terms:
        written, meaning = row.text[term.start : term.end], names.meaning(term.name)
        if meaning and meaning.casefold() != written.casefold():
            yield term.start, term.end, _abbr(term.name, written, meaning, names.terms)


def _short_words(row: Row, names: Names) -> Iterator[Mark]:
    """Abbreviations that are no stitches; ``sk``, or ``skip``, is ``miss`` in UK terms."""
    for found in _SHORT.finditer(row.text):
        yield *found.span(), _SHORT_MEANINGS[found[0]]
    for found in _PASSED_OVER[names.terms].finditer(row.text):
        if found[0].lower() == "sk":
            yield *found.span(), Markup('<abbr title="skip">{}</abbr>').format(found[0])
        else:
            yield *found.span(), escape(choices.in_terms(found[0]))


def _abbr(name: str, written: str, meaning: str, terms: Terms) -> Markup:
    """A stitch; what it is in the other terms is told here where its word alone does not say it."""
    lead = _LEAD.match(written)
    other = f"{lead[0] if lead else ''}{in_terms(name, OTHER[terms])}"
    there = other_word(written, terms)
    if other in (written, there[0] if there else written):
        return Markup('<abbr title="{}">{}</abbr>').format(meaning, written)
    told = f"{other}\n{wording.meaning(name, OTHER[terms]) or meaning}"
    return Markup('<abbr data-we-t="{}" title="{}">{}</abbr>').format(told, meaning, written)


def _amounts(proven: ProvenRow, names: Names) -> Iterator[Mark]:
    for amount in proven.row.amounts:
        if amount.formula is not None:
            values = _only_worked(proven, _worked_out(amount, names, proven.per_size))
            yield amount.start, amount.end, escape(figures.counts(values))
        elif amount.by_size():
            written = proven.row.text[amount.start : amount.end]
            each = tuple(map(figures.one, amount.values))
            yield amount.start, amount.end, escape(by_size(written, each))


def _worked_out(
    amount: Amount, names: Names, per_size: PerSize[RowInSize | None]
) -> tuple[int, ...]:
    """The formula's number in each size; the proof has seen that it is whole."""
    formula = amount.formula
    if formula is None:
        return tuple(value or 0 for value in amount.values)
    used = {name: values for name, values in names.counts.items() if name in formula.names}
    return tuple(
        int(formula.count({name: values[size] for name, values in used.items()}))
        for size in range(len(per_size.sizes))
    )


def _lengths(proven: ProvenRow, names: Names) -> Iterator[Mark]:
    row = proven.row
    until = until_of(row)
    if isinstance(until, UntilMeasures):
        length, end = until.length, length_end(row, until.length)
        printed = escape(_length(proven, length, names)) + escape(row.text[end : until.end])
        yield length.start, max(end, until.end), printed + _times(proven)
    if (every := apart(row)) is not None:
        yield every.start, length_end(row, every), escape(_length(proven, every, names))


def apart(row: Row) -> Length | None:
    """The length after which a row is worked again, where that is told as one."""
    distance = row.body.distance if isinstance(row.body, RepeatEvery) else None
    return distance if isinstance(distance, Length) else None


def length_end(row: Row, length: Length) -> int:
    """Where a length ends with the same in the other system behind it: we give that ourselves."""
    written = row.text[length.start : length.end]
    return behind(row.text, length.end, imperial=_is_imperial(written))


def written_out(row: Row, sizes: int) -> Iterator[Said]:
    """Lengths that are no part of what is counted: "leaving a 30 cm tail"."""
    until = until_of(row)
    counted = until.length if isinstance(until, UntilMeasures) else apart(row)
    for said in said_lengths(row.text, sizes, row=True):
        if counted is None or said.end <= counted.start or counted.end < said.start:
            yield said


def _length(proven: ProvenRow, length: Length, names: Names) -> str:
    if length.formula is not None:
        exact = _exact(proven, length.formula, names)
        return figures.both(_only_worked(proven, exact), names.units)
    written = proven.row.text[length.start : length.end]
    if _is_imperial(written):
        return in_units(figures.cm(length.millimetres), written, "in")
    return in_units(written, figures.inches(length.millimetres), "cm")


def _is_imperial(written: str) -> bool:
    return written.lower().rstrip().endswith(_IMPERIAL)


def _exact(proven: ProvenRow, formula: Formula, names: Names) -> list[Fraction]:
    """The formula's length in each size."""
    used = {name: values for name, values in names.lengths.items() if name in formula.names}
    return [
        formula.length({name: values[size] for name, values in used.items()})
        for size in range(len(proven.per_size.sizes))
    ]


def _times(proven: ProvenRow) -> Markup:
    """How many rows a length or a count comes to, after it: ``: 27 (27, 29) rows``.

    Rows worked again come on top of those that stand above: ``: 27 more rows``.
    """
    listed = [counted.times if counted else None for counted in proven.per_size]
    if all(value is None for value in listed):
        return Markup("")
    one = "row" if proven.word == "Row" else "round"
    one = f"more {one}" if isinstance(proven.row.body, RepeatRows) else one
    return Markup(': <span class="we-times">{}</span>').format(figures.counted(listed, one))


def _only_worked(proven: ProvenRow, values: Sequence[Value]) -> tuple[Value | None, ...]:
    """None for the sizes that do not work the row."""
    return tuple(
        value if counted else None for value, counted in zip(values, proven.per_size, strict=True)
    )


def until_of(row: Row) -> RowsUntil | None:
    """How long its rows are worked, where it says so."""
    match row.body:
        case WorkedRow() | RepeatRows() | WorkEven():
            return row.body.until
        case ShapeRows():
            return row.body.then or row.body.until or RowsTimes(ONE, more=False)
        case _:
            return None


# --- counts --------------------------------------------------------------------------------


def _span_in_size(counted: RowInSize | None) -> tuple[int, int] | None:
    """The first and the last number of the line in one size."""
    if counted is None or counted.first is None or counted.last is None:
        return None
    return counted.first, counted.last


def _numbered(proven: ProvenRow, span: tuple[int, int] | None) -> str:
    """The number in one size: ``Row 3``, ``Rows 3–8``."""
    return f"{proven.word}{'s' if span and span[0] != span[1] else ''} {_pair(span)}"


def _pair(span: tuple[int, int] | None) -> str:
    if span is None:
        return figures.NOT_WORKED
    first, last = span
    return str(first) if first == last else f"{first}–{last}"


def _kind(proven: ProvenRow, name: str, number_of: Callable[[RowInSize], int | None]) -> str:
    """A number in every size with its name, or "" where no size has any."""
    listed = [number_of(counted) if counted else None for counted in proven.per_size]
    if not any(listed):
        return ""
    return figures.counted(listed, name)


def _spaces(proven: ProvenRow, names: Sequence[str]) -> list[str]:
    """Every kind of space with its number; one that is longer from size to size told once.

    Two ch-6 sps in S and two ch-8 sps in M are "2 ch-6 (8) sps".
    """
    found = [
        [(name, _made(name, counted)) for name in names if counted and _made(name, counted)]
        for counted in proven.per_size
    ]
    numbers = {number for here in found for _, number in here}
    lengths = [_CHAINS.fullmatch(here[0][0]) if len(here) == 1 else None for here in found]
    if len(names) > 1 and len(numbers) == 1 and all(lengths):
        chains = figures.trade([length["chains"] for length in lengths if length])
        return [figures.counted(numbers, f"ch-{chains} sp")]
    return [_kind(proven, name, partial(_made, name)) for name in names]


def _plural(name: str) -> str:
    """Abbreviations of stitches take no s ("12 sc"); words do ("4 shells")."""
    return name if wording.meaning(name, "us") else f"{name}s"


def _names(proven: ProvenRow, kinds: Callable[[RowInSize], Counted]) -> dict[str, None]:
    """Every kind of any size, in the order in which they first occur."""
    worked = (counted for counted in proven.per_size if counted)
    return dict.fromkeys(name for counted in worked for name, _ in kinds(counted))


def _made(name: str, counted: RowInSize) -> int:
    return _of(counted.makes, name)


def _of(kinds: Counted, name: str) -> int:
    return dict(kinds).get(name, 0)
