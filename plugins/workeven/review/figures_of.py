"""All figures of one pattern by what they are of.

Takes     ``ReadyPattern``.
Gives     ``numbers``: ``Numbers``.
Problems  none.
From      design.md, "Numbers a maker can trust": lengths are compared as they are printed.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator, Mapping
from fractions import Fraction
from typing import TypeVar

from workeven.arithmetic import printing
from workeven.arithmetic.per_size import PerSize
from workeven.notation import wording
from workeven.notation.vocabulary import in_terms
from workeven.pattern import Gauge, Pattern, Yarn
from workeven.pattern.care_records import Care
from workeven.pipeline import ReadyPattern
from workeven.records import record
from workeven.review.worked_rows import PieceNumbers, Values, piece_numbers

T = TypeVar("T")

FINISHED, TO_FIT, COUNTS, GAUGES = "Finished measurements", "To fit", "Counts", "Gauge"
YARN, HOOKS, NOTIONS, PIECES, ROWS = "Yarn", "Hooks", "Notions", "Pieces", "Rows"
TRIMMINGS, CARE, VIDEO, SWATCHES, MADE_FOR = "Trimmings", "Care", "Video", "Swatches", "Made for"
ABBREVIATIONS, CAUTIONS, LEVEL = "Abbreviations", "Cautions", "Level"
#: what a maker reads, and no number that she works with
TOLD_ONLY = (ABBREVIATIONS, CAUTIONS, LEVEL)


#: how an amount that the designer lists is printed
_LISTED: Mapping[str, Callable[[Fraction], str]] = {
    "balls": printing.print_number,
    "length": printing.print_metres,
    "mass": printing.print_grams,
}


@record
class Numbers:
    """A pattern: its sizes, its figures by part and by what they are of, its pieces."""

    sizes: tuple[str, ...]
    figures: Mapping[str, Mapping[str, Mapping[str, Values]]]
    pieces: tuple[PieceNumbers, ...]


def numbers(ready: ReadyPattern) -> Numbers:
    """The figures of a pattern, and its pieces with their rows."""
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
        pieces=tuple(piece_numbers(one, ready) for one in proven.pieces),
    )


# --- figures -------------------------------------------------------------------------------


def _lengths(
    named: Iterable[tuple[str, PerSize[Fraction]]],
) -> Iterator[tuple[str, Mapping[str, Values]]]:
    for name, lengths in named:
        yield name, {"": _by_size(lengths, printing.print_cm)}


def _by_size(values: PerSize[T], shown: Callable[[T], str]) -> Values:
    return {size: shown(value) for size, value in values.items()}


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
        for listed in ready.pattern.amounts:
            if listed.yarn == yarn.name:
                of = f" of {listed.colour}" if listed.colour else ""
                found[f"{listed.unit} listed{of}"] = _by_size(listed.values, _LISTED[listed.unit])
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
