"""Patterns as records, for tests of the stages behind parsing: what is not named is empty."""

from __future__ import annotations

import re
from collections.abc import Sequence
from fractions import Fraction
from typing import Any

from workeven.arithmetic import formulas
from workeven.arithmetic.per_size import PerSize, Sizes
from workeven.arithmetic.quantities import TEN_CM, lengths
from workeven.pattern import (
    ComputedCount,
    Count,
    FormulaCount,
    Gauge,
    GivenHook,
    ListedCount,
    Measurement,
    Pattern,
    Studio,
    Text,
    TurningChains,
)
from workeven.problems import Span

#: lengths by size, and not a formula
_LISTED = re.compile(r"[0-9.]+ \(")


def span(line: int = 1, text: str = "x") -> Span:
    """A place on one line, as long as the text."""
    return Span(file="pattern.yaml", line=line, column=1, end_line=line, end_column=1 + len(text))


def per_size(sizes: Sizes, values: Any) -> PerSize[Any]:  # noqa: ANN401, of whatever is given
    """A value for all sizes, or one a size."""
    return sizes.each(tuple(values)) if isinstance(values, list | tuple) else sizes.all(values)


def given_hook(mm: str, name: str = "", of: str = "ground") -> GivenHook:
    """A hook of that size."""
    return GivenHook(of=of, mm=Fraction(mm), name=name, span=span(3))


def gauge(
    name: str = "ground",
    sts: int = 20,
    rows: Fraction | int | None = 22,
    **changes: Any,  # noqa: ANN401, any field
) -> Gauge:
    """A gauge of 20 sts and 22 rows over 10 cm, unless said otherwise."""
    fields: dict[str, Any] = {
        "name": name,
        "sts": Fraction(sts),
        "rows": None if rows is None else Fraction(rows),
        "over": TEN_CM,
        "over_text": "10 cm",
        "of": "sc",
        "hook": None,
        "span": span(3),
    }
    return Gauge(**{**fields, **changes})


def measurement(sizes: Sizes, name: str, text: str, line: int = 10) -> Measurement:
    """A measurement as written: one formula, or a list of lengths."""
    listed_lengths = lengths(text) if _LISTED.match(text) else ()
    read = [formulas.read(f"{mm} mm") for mm in listed_lengths] or [formulas.read(text)]
    return Measurement(
        name=name,
        formula=sizes.all(read[0]) if len(read) == 1 else sizes.each(tuple(read)),
        span=span(line),
        words=span(line, text),
    )


#: rules of a computed count that most counts do without
_RULES = ("multiple_of", "match", "step_at_least", "step_at_most", "comes_out", "begin", "end")


def computed(sizes: Sizes, name: str, *, line: int = 20, **parts: Any) -> ComputedCount:  # noqa: ANN401, any field
    """A computed count; ``multiple``, ``plus`` and bounds for all sizes or one a size."""
    bounds = {
        key: None if parts.get(key) is None else per_size(sizes, parts[key])
        for key in ("at_least", "at_most")
    }
    return ComputedCount(
        name=name,
        across=parts.get("across"),
        along=parts.get("along"),
        gauge=parts.get("gauge", "ground"),
        multiple=per_size(sizes, parts.get("multiple", 1)),
        plus=per_size(sizes, parts.get("plus", 0)),
        parity=parts.get("parity", "any"),
        round=parts.get("round", "nearest"),
        span=span(line),
        at_least=bounds["at_least"],
        at_most=bounds["at_most"],
        **{key: parts[key] for key in _RULES if key in parts},
    )


def listed(
    sizes: Sizes,
    name: str,
    values: int | Sequence[int],
    *,
    across: str | None = None,
    in_gauge: str | None = None,
    line: int = 20,
) -> ListedCount:
    """A count that the designer lists."""
    return ListedCount(
        name=name,
        values=per_size(sizes, values),
        across=across,
        gauge=in_gauge,
        span=span(line),
    )


def made(name: str, text: str, line: int = 20) -> FormulaCount:
    """A count made from others."""
    return FormulaCount(
        name=name, formula=formulas.read(text), span=span(line), words=span(line, text)
    )


def studio(**changes: Any) -> Studio:  # noqa: ANN401, any field
    """An invented studio that says nothing."""
    fields: dict[str, Any] = {
        "name": "Tidewrack Studio",
        "summary": "",
        "links": (),
        "units": "cm",
        "terms": "us",
        "licence": None,
        "copyright": None,
        "tolerance": None,
        "stitches": (),
    }
    return Studio(**{**fields, **changes})


def pattern(
    sizes: Sizes,
    *,
    to_fit: dict[str, str] | None = None,
    measurements: dict[str, str] | None = None,
    counts: Sequence[Count] = (),
    **changes: Any,  # noqa: ANN401, any field
) -> Pattern:
    """A pattern of those parts; measurements stand on line 10 and below."""
    words = Text(text="Invented", span=span())
    fields: dict[str, Any] = {
        **dict.fromkeys(("title", "summary"), words),
        **dict.fromkeys(("story", "level", "published", "licence", "copyright", "ages", "care")),
        **dict.fromkeys(("tags", "designers", "changes", "yarns", "swatches", "notions"), ()),
        **dict.fromkeys(("stitches", "pieces", "assembly", "finishing", "allow"), ()),
        "slug": "invented",
        "file": "pattern.yaml",
        "studio": studio(),
        "version": "1.0",
        "audience": "adult",
        "use": ("wear",),
        "terms": "us",
        "sizes": sizes,
        "sizes_span": span(2),
        "to_fit": tuple((name, _body(sizes, text)) for name, text in (to_fit or {}).items()),
        "gauges": (gauge(),),
        "margin": Fraction(1, 10),
        "turning_chains": TurningChains(counts=()),
        "each_chain_counts": False,
        "tolerance": None,
        "measurements": tuple(
            measurement(sizes, name, text, 10 + line)
            for line, (name, text) in enumerate((measurements or {}).items())
        ),
        "counts": tuple(counts),
        "video": None,
    }
    return Pattern(**{**fields, **changes})


def _body(sizes: Sizes, text: str) -> PerSize[Fraction]:
    values = lengths(text)
    return sizes.all(values[0]) if len(values) == 1 else sizes.each(values)
