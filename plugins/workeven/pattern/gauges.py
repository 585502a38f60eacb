"""Gauges: stitches, or repeats, and rows or rounds over a length; before and after blocking.

Takes     the table ``gauge``; of a swatch, what it measures.
Gives     ``gauges``, ``measured``.
Problems  ``gauge-basis``, ``gauge-zero``, ``file-key-missing``, those of ``reading``.
From      design.md, "A pattern file": ``gauge``.

"2 repeats of 7 sts = 3 in" is 14 sts over 3 in. Rows are counted over the same length, unless
``rows_over`` gives them one of their own: "9 rounds = 4 in" beside it. A pattern is worked out from
the gauge after blocking; that before it is for whoever measures a piece on the hook.
"""

from __future__ import annotations

from fractions import Fraction

from workeven.pattern.hooks import hook_given
from workeven.pattern.reading import Reading, entries, whole_of, words
from workeven.pattern.records import CountedOver, Gauge, Sample
from workeven.problems.words import joined, quote
from workeven.records import record
from workeven.source import Entry, Node


def gauges(reading: Reading, table: Node | None) -> tuple[Gauge, ...] | None:
    """The gauges by name."""
    return whole_of(_gauge(reading, name, entry) for name, entry in entries(table).items())


def measured(reading: Reading, table: Node) -> Sample | None:
    """What a swatch measures, and which gauge it is of; None where that could not be read."""
    given = [key for key in ("width", "height") if key in entries(table)]
    width = reading.length(reading.node(table, "width"))
    height = reading.length(reading.node(table, "height"))
    name = reading.text(table, "gauge")
    known = tuple(entries(reading.node(reading.source.root, "gauge")))
    if name is not None and name not in known:
        node = reading.node(table, "gauge")
        assert node is not None
        reading.unknown(node, "gauge", known, "Names under `gauge`")
        return None
    if given and name is None and len(known) != 1:
        reading.problem(
            "file-key-missing",
            reading.span(entries(table)[given[0]]),
            "A swatch that was measured needs `gauge`: which of the gauges it is of.",
            expected=f"{joined(map(quote, known), 'or')}.",
            mend="Write `gauge:` and its name.",
        )
        return None
    if any(reading.node(table, key) is not None for key in given) and None in (
        width if "width" in given else 0,
        height if "height" in given else 0,
    ):
        return None
    return Sample(
        gauge=name or (known[0] if known else ""),
        width=width,
        height=height,
        blocked=reading.text(table, "blocked") not in ("no", "false"),
        span=reading.source.span(table),
    )


def _gauge(reading: Reading, name: str, entry: Entry) -> Gauge | None:
    table = entry.value
    of, over_node = reading.text(table, "of"), reading.node(table, "over")
    hook_node = reading.node(table, "hook")
    hook = hook_given(reading, name, hook_node)
    over = reading.length(over_node)
    counted = _counted(reading, name, entry, over)
    before_entry = entries(table).get("before_blocking")
    before = None
    if before_entry is not None and over is not None:
        before_over = reading.length(reading.node(before_entry.value, "over"))
        before = _counted(reading, "before_blocking", before_entry, before_over or over)
    if counted is None or over_node is None or of is None or (hook_node and hook is None):
        return None
    if before_entry is not None and before is None:
        return None
    return Gauge(
        name=name,
        sts=counted.sts,
        rows=counted.rows,
        over=counted.over,
        over_text=words(over_node),
        of=of,
        hook=hook,
        span=reading.span(entry),
        rows_over=counted.rows_over,
        repeats=counted.repeats,
        rounds=counted.rounds,
        before=before,
    )


@record
class _Stitches:
    sts: Fraction
    repeats: Fraction | None


def _counted(
    reading: Reading, name: str, entry: Entry, over: Fraction | None
) -> CountedOver | None:
    """What was counted, in one state of the fabric."""
    table = entry.value
    stitches = _stitches(reading, name, entry)
    keys = [key for key in ("rows", "rounds") if key in entries(table)]
    if len(keys) > 1:
        _unclear(reading, entry, f"{quote(name)} counts rows and rounds.", "`rows` or `rounds`.")
        return None
    rows_node = reading.node(table, keys[0]) if keys else None
    rows, rows_over_node = reading.number(rows_node), reading.node(table, "rows_over")
    rows_over = reading.length(rows_over_node)
    if stitches is None or over is None or (rows_node and rows is None):
        return None
    if rows_over_node is not None and rows_over is None:
        return None
    figures = (stitches.sts, over, rows, rows_over)
    if min(figure for figure in figures if figure is not None) <= 0:
        reading.problem(
            "gauge-zero",
            reading.span(entry),
            f"The gauge {quote(name)} holds a zero, so nothing can be counted in it.",
            expected="Stitches, rows and a length, each more than nothing.",
            mend="Write the stitches and rows that you counted, and the length over which.",
        )
        return None
    return CountedOver(
        sts=stitches.sts,
        rows=rows,
        over=over,
        rows_over=rows_over,
        repeats=stitches.repeats,
        rounds=keys == ["rounds"],
    )


def _stitches(reading: Reading, name: str, entry: Entry) -> _Stitches | None:
    """The stitches, counted one by one or by repeats of so many."""
    written = entries(entry.value)
    sts, repeats, each = (
        reading.number(reading.node(entry.value, key)) for key in ("sts", "repeats", "repeat_sts")
    )
    if "sts" in written and "repeats" not in written and "repeat_sts" not in written:
        return None if sts is None else _Stitches(sts=sts, repeats=None)
    if "sts" in written:
        found = f"{quote(name)} counts stitches and repeats."
    elif "repeats" in written and "repeat_sts" in written:
        if repeats is None or each is None:
            return None
        return _Stitches(sts=repeats * each, repeats=repeats)
    elif "repeats" in written:
        found = f"{quote(name)} does not say of how many stitches a repeat is."
    else:
        return None  # that it counts no stitches is told by the schema
    _unclear(reading, entry, found, "`sts`, or `repeats` and `repeat_sts`.")
    return None


def _unclear(reading: Reading, entry: Entry, found: str, expected: str) -> None:
    reading.problem(
        "gauge-basis",
        reading.span(entry),
        found,
        expected=f"Either {expected}" if " or " in expected else expected,
        mend="Write `{sts: 16, rows: 9, over: 10 cm, of: dc}`, or "
        "`{repeats: 2, repeat_sts: 7, over: 3 in, rounds: 9, rows_over: 4 in, of: shells}`.",
    )
