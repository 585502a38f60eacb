"""The rows of a piece as they are worked in each size: their work apart from their words.

Takes     ``ProvenPiece``, and the ``ReadyPattern`` that it is of.
Gives     ``PieceNumbers``: ``piece_numbers``.
Problems  none.
From      notation.md: the same work may be said in many words, and the tree of a row is the same.
"""

from __future__ import annotations

from collections.abc import Mapping

from workeven.arithmetic.formula_reader import FormulaFault
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
from workeven.pattern import Section
from workeven.pipeline import ReadyPattern
from workeven.proof import ProvenPiece, ProvenRow, RowInSize
from workeven.records import fields, is_record, record

#: by size: a figure as it is printed, None where the size has none
Values = Mapping[str, str | None]


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


def piece_numbers(proven: ProvenPiece, ready: ReadyPattern) -> PieceNumbers:
    """A piece with all its rows."""
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
