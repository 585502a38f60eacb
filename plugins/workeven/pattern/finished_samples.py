"""What finished samples took, as records.

Takes     the list ``samples``, the yarns of the pattern.
Gives     ``finished_samples``.
Problems  ``size-unknown``, ``name-unknown``, ``yarn-zero``, ``gauge-zero``, those of ``reading``.
From      design.md, "A pattern file": ``samples``.

What a sample took is said as a mass, as a length or in balls; the last two become a mass by the
put-up. Weighing what is left of the last ball is best (common practice).
"""

from __future__ import annotations

import re
from collections.abc import Iterator, Mapping
from fractions import Fraction

from workeven.arithmetic import quantities
from workeven.arithmetic.quantities import QuantityFault
from workeven.pattern.reading import Reading, entries, items, whole_of, words
from workeven.pattern.records import Yarn
from workeven.pattern.sample_records import FinishedSample, GaugeGot, Took
from workeven.problems import Span
from workeven.problems.words import did_you_mean, joined, quote
from workeven.source import Entry, Node

_BALLS = re.compile(r"(?P<number>.*\S)\s*(?:balls?|skeins?|hanks?)", re.IGNORECASE)
_NO = ("no", "false", "none")
_TEN_CM = Fraction(100)


def finished_samples(
    reading: Reading, listed: Node | None, yarns: tuple[Yarn, ...] | None
) -> tuple[FinishedSample, ...] | None:
    """The samples; ``yarns`` are None where they could not be read, which has been told."""
    known = yarns or ()
    return whole_of(_sample(reading, table, known, told=yarns is None) for table in items(listed))


def _sample(
    reading: Reading, table: Node, yarns: tuple[Yarn, ...], *, told: bool
) -> FinishedSample | None:
    size = _size(reading, table, reading.node(table, "size"))
    used = tuple(_used(reading, reading.node(table, "used"), yarns, told=told))
    gauges = tuple(_gauges(reading, reading.node(table, "gauge")))
    measures = tuple(_measures(reading, reading.node(table, "measures")))
    credit = reading.text(table, "credit")
    if size is None or None in used or None in gauges or None in measures or not used:
        return None
    return FinishedSample(
        size=size,
        used=tuple(one for one in used if one is not None),
        gauges=tuple(one for one in gauges if one is not None),
        measures=tuple(one for one in measures if one is not None),
        credit=None if credit is None or credit.lower() in _NO else credit,
        note=reading.text(table, "note"),
        span=reading.source.span(table),
    )


def _size(reading: Reading, table: Node, node: Node | None) -> int | None:
    """The index of the size; a pattern of one size need not name it."""
    if reading.sizes is None:
        return None
    names = reading.sizes.names
    if node is None and len(names) == 1:
        return 0
    if node is None:
        reading.problem(
            "file-key-missing",
            reading.source.span(table),
            "A sample needs `size`: which of the sizes it is.",
            expected=f"Sizes: {joined(map(quote, names))}.",
            mend="Write `size:` and its name.",
        )
        return None
    if words(node) in names:
        return names.index(words(node))
    reading.problem(
        "size-unknown",
        reading.source.span(node),
        f"There is no size called {quote(words(node))}, of which a sample was made.",
        expected=f"Sizes: {joined(map(quote, names))}.",
        mend=did_you_mean(words(node), names) or "Write one of the sizes as it stands there.",
    )
    return None


def _used(
    reading: Reading, table: Node | None, yarns: tuple[Yarn, ...], *, told: bool
) -> Iterator[Took | None]:
    """What each yarn took, or each of its colours."""
    by_name = {yarn.name: yarn for yarn in yarns}
    for name, entry in entries(table).items():
        parts = entries(entry.value)
        if name not in by_name:
            if not told:
                reading.unknown(entry.key, "yarn", by_name, "Names under `yarn`", name=name)
            yield None
        elif parts:
            yield from _by_colour(reading, by_name[name], parts)
        else:
            yield _took(reading, by_name[name], None, entry.value)


def _by_colour(reading: Reading, yarn: Yarn, parts: Mapping[str, Entry]) -> Iterator[Took | None]:
    for colour, entry in parts.items():
        if colour not in yarn.colours:
            where = f"Names under `colours` of {quote(yarn.name)}"
            reading.unknown(entry.key, "colour", yarn.colours, where, name=colour)
            yield None
        else:
            yield _took(reading, yarn, colour, entry.value)


def _took(reading: Reading, yarn: Yarn, colour: str | None, node: Node) -> Took | None:
    mass, span = _mass(reading, node, yarn), reading.source.span(node)
    if mass == 0:
        reading.problem(
            "yarn-zero",
            span,
            f"The sample took nothing of {quote(colour or yarn.name)}.",
            mend="Weigh what is left, and write what is gone (0.1 g matters in a small thing), or "
            "leave it out.",
        )
    return Took(yarn=yarn.name, colour=colour, mass=mass, span=span) if mass else None


def _mass(reading: Reading, node: Node, yarn: Yarn) -> Fraction | None:
    """``412 g``, ``824 m``, ``8.5 balls``, in g."""
    text, put_up = words(node), yarn.put_up
    balls = _BALLS.fullmatch(text)
    try:
        if balls is not None:
            return quantities.number(balls["number"]) * put_up.mass
        length = quantities.length(text)
    except QuantityFault:
        return reading.mass(node)  # which says what is wrong with it, if anything is
    return length * put_up.mass / put_up.length if put_up.length else None


def _gauges(reading: Reading, table: Node | None) -> Iterator[GaugeGot | None]:
    known = tuple(entries(reading.node(reading.source.root, "gauge")))
    for name, entry in entries(table).items():
        if name not in known:
            reading.unknown(entry.key, "gauge", known, "Names under `gauge`", name=name)
            yield None
            continue
        over_node = reading.node(entry.value, "over")
        sts = reading.number(reading.node(entry.value, "sts"))
        rows_node = reading.node(entry.value, "rows")
        rows, over = reading.number(rows_node), reading.length(over_node)
        over = _TEN_CM if over_node is None else over
        if sts is None or over is None or (rows_node is not None and rows is None):
            yield None
        elif 0 in (sts, rows, over):
            reading.problem(
                "gauge-zero",
                reading.span(entry),
                f"The sample's gauge in {quote(name)} holds a zero.",
                mend="Write the stitches and rows that you counted, and the length over which.",
            )
            yield None
        else:
            yield GaugeGot(gauge=name, sts=sts, rows=rows, over=over, span=reading.span(entry))


def _measures(reading: Reading, table: Node | None) -> Iterator[tuple[str, Fraction, Span] | None]:
    known = tuple(entries(reading.node(reading.source.root, "measurements")))
    for name, entry in entries(table).items():
        if name not in known:
            where = "Names under `measurements`"
            reading.unknown(entry.key, "measurement", known, where, name=name)
            yield None
            continue
        length = reading.length(entry.value)
        yield None if length is None else (name, length, reading.source.span(entry.value))
