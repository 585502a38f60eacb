"""Counts that carry through, as a person and as a program reads them.

Takes     what ``proof.nearest`` found.
Gives     ``as_text``, ``as_json``.
Problems  none.
From      the guide, "On the command line".
"""

from __future__ import annotations

import json
from collections.abc import Mapping
from fractions import Fraction

from workeven.arithmetic.printing import decimal_cm, print_cm
from workeven.grading import GradedPattern
from workeven.proof.nearest import NearCount

Found = Mapping[str, tuple[NearCount, ...]]


def as_json(_name: str, _graded: GradedPattern, found: Found) -> str:
    """``{"SIZE": [{"count", "measures", "off"}, …]}``, lengths as decimal cm (null: no length)."""
    written = {
        size: [
            {
                "count": near.count,
                "measures": None if near.measures is None else decimal_cm(near.measures),
                "off": None if near.off is None else decimal_cm(near.off),
            }
            for near in counts
        ]
        for size, counts in found.items()
    }
    return json.dumps(written, ensure_ascii=False, indent=2)


def as_text(name: str, graded: GradedPattern, found: Found) -> str:
    """A line a size: what is wanted, then the counts that come out, the nearest first."""
    count = graded.counts[name]
    lines = [f"Values of {name} with which every piece comes out, the nearest first:"]
    for at, (size, counts) in enumerate(found.items()):
        wanted = "" if count.wanted is None else f" (wanted {print_cm(count.wanted[at])})"
        offers = ", ".join(_offer(near) for near in counts) or "none near enough"
        now = count.values[at]
        lines.append(f"  {size}{wanted}, now {now}: {offers}")
    return "\n".join(lines)


def _offer(near: NearCount) -> str:
    if near.measures is None or near.off is None:
        return str(near.count)
    off = print_cm(near.off)  # rounded first: less than a quarter centimetre off has no sign
    sign = "+" if near.off > 0 and off != print_cm(Fraction(0)) else ""
    return f"{near.count} ({print_cm(near.measures)}, {sign}{off})"
