"""The chart that a pattern names, and what it calls the sizes of the pattern.

Takes     ``chart``, ``chart_sizes`` and ``names`` of the table ``sizes``.
Gives     ``chart_called``, ``chart_sizes``.
Problems  ``chart-unknown``, ``chart-size``, ``chart-order``, ``size-list``.
From      the body charts of ``standards``; EN 13402-3 for the letters that are offered.
"""

from __future__ import annotations

from itertools import pairwise

from workeven import standards
from workeven.pattern.reading import Reading, words
from workeven.pattern.records import Studio
from workeven.problems import Problem
from workeven.problems.words import did_you_mean, joined, quote
from workeven.source import Node
from workeven.standards import BodyChart

_CALLED_OTHERWISE = (
    "Where the pattern's sizes are called otherwise, list the chart's names in the same order: "
    "`chart_sizes: M (L, XL)`."
)
#: What else the charts are called.
_CALLED = {
    **dict.fromkeys(("woman", "ladies", "lady", "misses", "female"), "women"),
    **dict.fromkeys(("man", "gents", "gentlemen", "male"), "men"),
    **dict.fromkeys(("child", "kids", "kid"), "children"),
    **dict.fromkeys(("teens", "teen", "youths"), "youth"),
    **dict.fromkeys(("baby", "infant", "infants", "newborn"), "babies"),
    **dict.fromkeys(("heads", "hat", "hats"), "head"),
    **dict.fromkeys(("en 13402", "en 13402-3", "letters", "letter sizes"), "letters women"),
}


def chart_called(reading: Reading, node: Node, studio: Studio) -> BodyChart | None:
    """The studio's chart of that name, or the published one."""
    name = words(node)
    for chart in studio.charts:
        if chart.name.casefold() == name.casefold():
            return chart
    if found := standards.body_chart(" ".join(name.lower().split())):
        return found
    own = [chart.name for chart in studio.charts]
    known = (*own, *standards.CHARTS)
    meant = _CALLED.get(name.casefold())
    mend = f"Did you mean `{meant}`?" if meant else did_you_mean(name, known)
    reading.problem(
        "chart-unknown",
        reading.source.span(node),
        f"There is no body chart called {quote(name)}.",
        expected=f"{joined(map(quote, known), 'or')}.",
        mend=mend or "Write one of these, or give the studio its own chart.",
    )
    return None


def chart_sizes(reading: Reading, table: Node, chart: BodyChart) -> tuple[str, ...] | None:
    """The chart's names for the sizes of the pattern, in the chart's order."""
    node = reading.node(table, "chart_sizes") or reading.node(table, "names")
    said = reading.names(node) if node is not None else None
    if node is None or said is None or reading.sizes is None:
        return None
    if len(said) != len(reading.sizes):
        reading.size_list(node, "chart_sizes", len(said), reading.sizes)
        return None
    by_name = {name.casefold(): name for name in chart.sizes}
    missing = [name for name in said if name.casefold() not in by_name]
    if missing:
        _no_such_sizes(reading, node, chart, missing)
        return None
    names = tuple(by_name[name.casefold()] for name in said)
    return names if _in_order(reading, node, chart, names) else None


def _no_such_sizes(reading: Reading, node: Node, chart: BodyChart, missing: list[str]) -> None:
    offers = [f"{quote(name)}: {offer}" for name in missing if (offer := _alike(name, chart))]
    many = len(missing) > 1
    reading.tell(
        Problem(
            code="chart-size",
            span=reading.source.span(node),
            found=f"The chart {quote(chart.name)} has no "
            f"{'sizes' if many else 'size'} {joined(map(quote, missing))}.",
            expected=f"Its sizes: {joined(chart.sizes)}.",
            mend="\n".join((*offers, _CALLED_OTHERWISE)),
            sizes=tuple(missing),
        )
    )


def _alike(name: str, chart: BodyChart) -> str:
    """What a size is called in this chart."""
    letters = {**standards.LETTERS, **{code: size for size, code in standards.LETTERS.items()}}
    other = letters.get(name.upper(), "")
    if other in chart.sizes:
        return f"it is {quote(other)} here; EN 13402-3 letters 2X as XXL, 3X as 3XL."
    return did_you_mean(name, chart.sizes)


def _in_order(reading: Reading, node: Node, chart: BodyChart, names: tuple[str, ...]) -> bool:
    at = [chart.sizes.index(name) for name in names]
    falls = [names[index + 1] for index, (low, high) in enumerate(pairwise(at)) if high <= low]
    if falls:
        due = [name for name in chart.sizes if name in names]
        reading.tell(
            Problem(
                code="chart-order",
                span=reading.source.span(node),
                found=f"{joined(map(quote, falls))} stands out of the chart's order.",
                expected=f"From the smallest to the largest: {joined(due)}.",
                mend=f"Write `{due[0]} ({', '.join(due[1:])})`."
                if len(due) == len(names)
                else "Name each size of the chart once.",
                sizes=tuple(falls),
            )
        )
    return not falls
