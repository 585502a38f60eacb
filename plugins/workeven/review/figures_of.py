"""All figures of one pattern by what they are of, and its rows as they are worked in each size.

Takes     ``ReadyPattern``.
Gives     ``numbers``: ``Numbers``.
Problems  none.
From      design.md, "Numbers a maker can trust": lengths are compared as they are printed.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from fractions import Fraction

from workeven.arithmetic import printing
from workeven.arithmetic.formula_reader import FormulaFault
from workeven.arithmetic.per_size import PerSize
from workeven.notation import wording
from workeven.notation.tree import (
    Amount,
    AnyStitch,
    Aside,
    Length,
    Next,
    StatedHere,
    Turn,
    Unplaced,
)
from workeven.notation.vocabulary import in_terms
from workeven.pattern import Gauge, Pattern, Section, Yarn
from workeven.pattern.care_records import Care
from workeven.pipeline import ReadyPattern
from workeven.proof import ProvenPiece, ProvenRow, RowInSize
from workeven.records import fields, is_record, record

#: by size: the figure as it is printed, None where the size has none
Values = Mapping[str, str | None]
#: what a figure is of, and its name there
Name = tuple[str, str]

FINISHED, TO_FIT, COUNTS, GAUGES = "Finished measurements", "To fit", "Counts", "Gauge"
YARN, HOOKS, NOTIONS, PIECES, ROWS = "Yarn", "Hooks", "Notions", "Pieces", "Rows"
TRIMMINGS, CARE, VIDEO, SWATCHES, MADE_FOR = "Trimmings", "Care", "Video", "Swatches", "Made for"
ABBREVIATIONS, CAUTIONS, LEVEL = "Abbreviations", "Cautions", "Level"
#: what a maker reads, and no number that she works with
TOLD_ONLY = (ABBREVIATIONS, CAUTIONS, LEVEL)


@record
class RowNumbers:
    """A row: its section, what it is called, its words, and by size what it does and leaves.

    ``said`` are its words with each size's own numbers; ``worked`` is what it works, without its
    words and their places; ``leaves`` what there is behind it, as it is printed.
    """

    section: str
    name: str
    text: str
    said: Mapping[str, str]
    worked: Mapping[str, object]
    leaves: Values


@record
class PieceNumbers:
    """A piece: its key, its title, its rows in order."""

    name: str
    title: str
    rows: tuple[RowNumbers, ...]


@record
class Numbers:
    """A pattern: its sizes, its figures by part and by what they are of, its pieces."""

    sizes: tuple[str, ...]
    figures: Mapping[str, Mapping[str, Mapping[str, Values]]]
    pieces: tuple[PieceNumbers, ...]


def numbers(ready: ReadyPattern) -> Numbers:
    """The figures of a pattern, and its rows."""
    pattern, proven = ready.pattern, ready.proven
    return Numbers(
        sizes=pattern.sizes.names,
        figures={
            TO_FIT: dict(_lengths(pattern.to_fit)),
            FINISHED: dict(_lengths(proven.finished.items())),
            COUNTS: {
                name: {"": _by_size(count.values, str)}
                for name, count in proven.graded.counts.items()
            },
            GAUGES: {one.name: {"": {"": _gauge(one)}} for one in pattern.gauges},
            HOOKS: dict(_hooks(ready)),
            YARN: dict(_yarn(ready)),
            NOTIONS: dict(_notions(ready)),
            TRIMMINGS: dict(_trimmings(pattern)),
            SWATCHES: dict(_swatches(ready)),
            CARE: {} if pattern.care is None else dict(_care(pattern.care)),
            VIDEO: dict(_video(pattern)),
            MADE_FOR: {name: {"": {"": words}} for name, words in _made_for(pattern)},
            PIECES: {
                one.piece.title: {"to make": _by_size(one.piece.make, str)} for one in proven.pieces
            },
            ABBREVIATIONS: {short: {"": {"": meaning}} for short, meaning in _abbreviations(ready)},
            CAUTIONS: {
                one.topic: {"": {"": one.words}}
                for one in (*ready.cautions.cautions, ready.cautions.rest)
            },
            LEVEL: {"": {"": {"": ready.level.name}}},
        },
        pieces=tuple(_piece(one, ready) for one in proven.pieces),
    )


# --- figures -------------------------------------------------------------------------------


def _lengths(
    named: Iterable[tuple[str, PerSize[Fraction]]],
) -> Iterator[tuple[str, Mapping[str, Values]]]:
    for name, lengths in named:
        yield name, {"": _by_size(lengths, printing.print_cm)}


def _by_size(values: Iterable[object], shown: object) -> Values:
    assert isinstance(values, PerSize)
    assert callable(shown)
    return {size: None if value is None else shown(value) for size, value in values.items()}


def _gauge(gauge: Gauge) -> str:
    rows = "" if gauge.rows is None else f", {printing.print_number(gauge.rows)} rows"
    over = gauge.over_text if gauge.rows_over is None else printing.print_cm(gauge.rows_over)
    return f"{printing.print_number(gauge.sts)} sts{rows} over {over} of {gauge.of}"


def _hooks(ready: ReadyPattern) -> Iterator[tuple[str, Mapping[str, Values]]]:
    pattern = ready.pattern
    given = [one.hook for one in pattern.gauges if one.hook is not None]
    for hook in dict.fromkeys((*given, *pattern.hooks)):
        yield hook.of or "", {"": {"": f"{printing.print_number(hook.mm)} mm"}}


def _yarn(ready: ReadyPattern) -> Iterator[tuple[str, Mapping[str, Values]]]:
    needs = {need.yarn.name: need for need in ready.yarn.needs}
    for yarn in ready.pattern.yarns:
        found: dict[str, Values] = {"put-up": {"": _put_up(yarn)}, "weight": {"": yarn.weight}}
        need = needs.get(yarn.name)
        if need is not None:
            found["length"] = _by_size(need.length, printing.print_metres)
            found["mass"] = _by_size(need.mass, printing.print_grams)
            found["balls"] = _by_size(need.balls, str)
            for colour in need.colours:
                found[f"balls of {colour.colour}"] = _by_size(colour.balls, str)
        yield yarn.label, found


def _put_up(yarn: Yarn) -> str:
    length, mass = yarn.put_up.length, yarn.put_up.mass
    return f"{printing.print_metres(length)} in {printing.print_grams(mass)}"


def _notions(ready: ReadyPattern) -> Iterator[tuple[str, Mapping[str, Values]]]:
    for notion in ready.pattern.notions:
        at = f", {notion.at}" if notion.at else ""
        size = {} if notion.size is None else {"size": {"": printing.print_cm(notion.size)}}
        yield f"{notion.kind}{at}", {"": _by_size(notion.amount, str), **size}


def _trimmings(pattern: Pattern) -> Iterator[tuple[str, Mapping[str, Values]]]:
    for at, one in enumerate(pattern.trimmings, start=1):
        mass = {} if one.mass is None else {"mass": {"": printing.print_grams(one.mass)}}
        yield (
            f"{one.kind} {at}" if len(pattern.trimmings) > 1 else one.kind,
            {
                "": _by_size(one.amount, str),
                "strands": _by_size(one.strands, str),
                "length": _by_size(one.length, printing.print_cm),
                **mass,
            },
        )


def _swatches(ready: ReadyPattern) -> Iterator[tuple[str, Mapping[str, Values]]]:
    """Amounts are computed from them: what each weighs, and what was worked in it."""
    pairs = zip(ready.pattern.swatches, ready.proven.swatches, strict=True)
    for at, (swatch, worked) in enumerate(pairs, start=1):
        made = ", ".join(f"{number} {kind}" for kind, number in worked)
        mass = f"{printing.decimal(swatch.mass)} g"
        yield f"{at}, of {swatch.of}", {"mass": {"": mass}, "worked": {"": made}}


def _care(care: Care) -> Iterator[tuple[str, Mapping[str, Values]]]:
    groups: dict[str, list[str]] = {}
    for one in care.treatments:
        groups.setdefault(one.group, []).append(one.word)
    for group, words in groups.items():
        yield group, {"": {"": ", ".join(words)}}


def _video(pattern: Pattern) -> Iterator[tuple[str, Mapping[str, Values]]]:
    """Its length, and where in it the sections and rows are."""
    if pattern.video is not None and pattern.video.length is not None:
        yield "length", {"": {"": _clock(pattern.video.length)}}
    for piece in pattern.pieces:
        for section in piece.sections:
            places = {one.row or str(one.at): one.video for one in section.row_notes}
            times = {"": section.video, **places}
            shown = {what: {"": _clock(at)} for what, at in times.items() if at is not None}
            if shown:
                yield f"{piece.title}, {section.title}", shown


def _clock(seconds: int) -> str:
    """Minutes and seconds.

    >>> _clock(460)
    '7:40'
    """
    return f"{seconds // 60}:{seconds % 60:02}"


def _made_for(pattern: Pattern) -> Iterator[tuple[str, str]]:
    yield "audience", pattern.audience
    yield "use", ", ".join(pattern.use)
    yield "yarn to spare", f"{printing.print_number(pattern.margin * 100)} %"
    if pattern.ages is not None:
        yield "ages", pattern.ages.text


def _abbreviations(ready: ReadyPattern) -> Iterator[tuple[str, str]]:
    terms = ready.pattern.terms
    rows = tuple(
        row.row for piece in ready.proven.pieces for part in piece.sections for row in part.rows
    )
    for one in wording.abbreviations(rows, terms):
        yield one.short, one.meaning
    own = {stitch.name: stitch.text for stitch in ready.pattern.stitches}
    for name in dict.fromkeys(term.name for row in rows for term in row.terms):
        yield in_terms(name, terms), own.get(name) or wording.meaning(name, terms) or ""


# --- rows ----------------------------------------------------------------------------------


def _piece(proven: ProvenPiece, ready: ReadyPattern) -> PieceNumbers:
    return PieceNumbers(
        name=proven.piece.name,
        title=proven.piece.title,
        rows=tuple(
            _row(row, section.section, ready) for section in proven.sections for row in section.rows
        ),
    )


def _row(proven: ProvenRow, section: Section, ready: ReadyPattern) -> RowNumbers:
    sizes = ready.pattern.sizes.names
    unsaid = _UNSAID_TURNS if section.worked in _TURNED else _UNSAID
    worked = [
        None if counted is None else _Bare(ready, at, unsaid).of(proven.row.body)
        for at, counted in enumerate(proven.per_size)
    ]
    return RowNumbers(
        section=section.title,
        name=_called(proven),
        text=" ".join(proven.row.text.split()),
        said={size: _said_in(proven, ready, at) for at, size in enumerate(sizes)},
        worked=dict(zip(sizes, worked, strict=True)),
        leaves={
            size: None if counted is None else _leaves(counted)
            for size, counted in proven.per_size.items()
        },
    )


def _called(proven: ProvenRow) -> str:
    """The row's own name, or its number where that is the same in every size."""
    label = proven.row.label
    if label is not None and label.name:
        return label.name
    spans = {(one.first, one.last) for one in proven.per_size if one is not None}
    firsts = {first for first, _ in spans}
    if firsts == {None} or len(firsts) != 1:
        return ""
    (first,) = firsts
    if spans == {(first, first)}:
        return f"{proven.word} {first}"
    lasts = {last for _, last in spans}
    return (
        f"{proven.word}s {first}–{lasts.pop()}" if len(lasts) == 1 else f"{proven.word} {first} on"
    )


def _said_in(proven: ProvenRow, ready: ReadyPattern, size: int) -> str:
    """The row's words with the numbers of one size for its formulas and its lists."""
    bare = _Bare(ready, size, ())
    text, parts, at = proven.row.text, [], 0
    for amount in sorted(proven.row.amounts, key=lambda one: one.start):
        if amount.start < at or not (amount.formula is not None or amount.by_size()):
            continue
        number = bare.of(amount)
        parts += [text[at : amount.start], "–" if number is None else str(number)]
        at = amount.end
    return " ".join("".join([*parts, text[at:]]).split())


def _leaves(counted: RowInSize) -> str:
    """What there is behind the row, and behind how many rows, where it stands for several."""
    made = ", ".join(f"{number} {kind}" for kind, number in counted.makes) or "nothing"
    if counted.times == 1:
        return made
    return f"{made} after {'some' if counted.times is None else counted.times} rows"


class _Bare:
    """What a row works in one size: its tree with numbers for formulas, and without places."""

    def __init__(self, ready: ReadyPattern, size: int, unsaid: tuple[type, ...]) -> None:
        graded = ready.proven.graded
        self.size = size
        self.unsaid = unsaid
        self.counts = {name: one.values[size] for name, one in graded.counts.items()}
        self.lengths = {name: one[size] for name, one in graded.measurements.items()}

    def of(self, part: object) -> object:
        """The part as a tuple that can be compared."""
        match part:
            case Amount():
                return self._amount(part)
            case Length():
                return self._length(part)
            case Unplaced(count=count):  # "sc 6" is "sc in next 6 sts"
                return self.of(Next((AnyStitch(),), count))
            case tuple():
                return tuple(self.of(one) for one in part if not isinstance(one, self.unsaid))
            case _:
                return self._record(part) if is_record(part) else part

    def _record(self, part: object) -> object:
        kept = [one.name for one in fields(part) if one.name not in _PLACES]
        return (type(part).__name__, *(self.of(getattr(part, name)) for name in kept))

    def _amount(self, amount: Amount) -> object:
        if amount.formula is not None:
            try:
                return amount.formula.whole(self.counts)
            except FormulaFault:
                return None
        return amount.values[self.size] if amount.by_size() else amount.values[0]

    def _length(self, length: Length) -> object:
        if length.formula is not None:
            try:
                return length.formula.length(self.lengths)
            except FormulaFault:
                return None
        by_size = len(length.millimetres) > 1
        return length.millimetres[self.size if by_size else 0]


#: where a part stands in its text, and how it is worded, which is no part of what is worked
_PLACES = ("start", "end", "span", "bare")
#: what works nothing; in rows that are turned anyhow, that they are
_UNSAID: tuple[type, ...] = (Aside, StatedHere)
_UNSAID_TURNS: tuple[type, ...] = (*_UNSAID, Turn)
_TURNED = ("flat rows", "joined rounds, turned")
