"""Counts reworked from a sample, as a block to paste into ``counts``.

Takes     what ``proof.sampled`` found.
Gives     ``as_text``, ``as_json``.
Problems  none.
From      the guide, "On the command line".
"""

from __future__ import annotations

import json
from collections.abc import Iterator, Mapping

from workeven.arithmetic.printing import decimal_cm, print_list
from workeven.problems.words import joined
from workeven.proof.sampled import Reworked


def as_json(found: Mapping[str, Reworked]) -> str:
    """``{"COUNT": {"sizes": {SIZE: number}, "off", "held", "barren"}}``, ``off`` in cm."""
    written = {
        name: {
            "sizes": dict(one.values.items()),
            "off": decimal_cm(one.off),
            "held": one.held,
            "barren": list(one.barren),
        }
        for name, one in found.items()
    }
    return json.dumps(written, ensure_ascii=False, indent=2)


def as_text(found: Mapping[str, Reworked], size: str) -> str:
    """YAML; what is to be known of a count stands in a comment above it."""
    return "\n".join(
        ["counts:", *(line for name, one in found.items() for line in _lines(name, one, size))]
    )


def _lines(name: str, one: Reworked, size: str) -> Iterator[str]:
    count = one.count
    more = "more" if one.off >= 0 else "less"
    if one.off:
        yield (
            f"  # the sample in {size} measures {decimal_cm(abs(one.off))} cm {more} than "
            f"{count.measurement}; so does every size, as near as the stitches allow"
        )
    if one.barren:
        yield f"  # in {joined(one.barren)} the pieces do not come out with this"
    if not one.held:
        yield f"  # too far from {count.measurement} to be held against it: change that length"
        yield f"  {name}: {print_list(one.values.values)}"
        return
    yield f"  {name}:"
    yield f"    listed: {print_list(one.values.values)}"
    yield f"    {'across' if count.word == 'sts' else 'along'}: {count.measurement}"
    if count.gauge is not None:
        yield f"    gauge: {count.gauge.name}"
    yield from _rule(one)


def _rule(one: Reworked) -> Iterator[str]:
    count = one.count.count
    multiple, plus = getattr(count, "multiple", None), getattr(count, "plus", None)
    if multiple is not None and set(multiple) != {1}:
        yield f"    multiple: {print_list(multiple.values)}"
    if plus is not None and any(plus):
        yield f"    plus: {print_list(plus.values)}"
    parity = getattr(count, "parity", "any")
    if parity != "any":
        yield f"    parity: {parity}"
