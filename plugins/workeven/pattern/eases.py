"""The fit that a pattern claims, and the ease it wants at each measurement of the body.

Takes     ``fit`` and ``ease`` of the table ``sizes``, the names of the body's measurements.
Gives     ``read``: the ``Body`` with both.
Problems  ``file-choice``, ``name-unknown``, those of ``reading``.
From      the published scale of fits in ``standards``.

A fit without an ease of its own wants the middle of what the scale has for it, in the studio's
unit; an open fit wants its least. The scale speaks of bust and chest, and so does a fit.
"""

from __future__ import annotations

import re
from fractions import Fraction

from workeven import standards
from workeven.arithmetic import quantities
from workeven.arithmetic.per_size import PerSize
from workeven.pattern.bodies import Body, Ease
from workeven.pattern.reading import Reading, entries, words
from workeven.problems.words import did_you_mean, joined, quote
from workeven.records import replace
from workeven.source import Entry, Node
from workeven.standards import Unit

#: The measurements that the published scale of fits speaks of.
FITTED = ("bust", "chest")

#: A sign at the start of a value; between two figures a hyphen is none.
_SIGN = re.compile(r"(?:(?<=[(,])|(?<=[(,] )|\A)[-−–](?=\s*[0-9.½¼¾⅓⅔⅛⅜⅝⅞])")


def read(
    reading: Reading, table: Node, names: tuple[str, ...], body: Body, units: Unit
) -> Body | None:
    """The body with its fit and its eases; ``names`` are its measurements."""
    fit_node = reading.node(table, "fit")
    fit = _fit(reading, fit_node)
    given = [
        _ease(reading, name, entry, names)
        for name, entry in entries(reading.node(table, "ease")).items()
    ]
    eases = [one for one in given if one is not None]
    if (fit_node is not None and fit is None) or len(eases) < len(given):
        return None
    fitted = next((name for name in FITTED if name in names), None)
    if fit is None or fit_node is None:
        return replace(body, ease=tuple(eases))
    span = reading.source.span(fit_node)
    if fitted is not None and all(one.body != fitted for one in eases):
        values = fit.map(lambda name: standards.fit(name).middle(units))
        eases.append(Ease(body=fitted, values=values, from_fit=fit[0], span=span))
    return replace(body, fit=fit, fit_span=span, ease=tuple(eases))


def _fit(reading: Reading, node: Node | None) -> PerSize[str] | None:
    """One of the published fits for all sizes, or one a size."""
    if node is None or reading.sizes is None:
        return None
    listed = reading.by_size(node, "sizes.fit", _spoken, "size-brackets")
    if listed is None:
        return None
    unknown = dict.fromkeys(name for name in listed if name not in standards.FIT_NAMES)
    for name in unknown:
        reading.problem(
            "file-choice",
            reading.source.span(node),
            f"{quote(name)} is no fit of the published scale.",
            expected=f"{joined(map(quote, standards.FIT_NAMES), 'or')}.",
            mend=did_you_mean(name, standards.FIT_NAMES) or "Write one of these.",
        )
    return None if unknown else listed


def _spoken(text: str) -> str:
    return " ".join(text.lower().split())


def _ease(reading: Reading, name: str, entry: Entry, names: tuple[str, ...]) -> Ease | None:
    spoken = " ".join(name.replace("_", " ").split())
    body = next((one for one in names if one.replace("_", " ") == spoken), None)
    if body is None:
        reading.unknown(entry.key, "measurement of the body", names, "The body's", name=name)
    values = lengths(reading, entry.value, f"sizes.ease.{name}")
    if body is None or values is None:
        return None
    return Ease(body=body, values=values, from_fit=None, span=reading.span(entry))


def lengths(reading: Reading, node: Node, name: str) -> PerSize[Fraction] | None:
    """Lengths by size that may be less than nothing: ``-2 (-2, -3) cm``."""
    if not isinstance(node.value, str):
        return reading.by_size(node, name, _signed, "unit-length")
    text = words(node)
    if not _SIGN.search(text):
        return reading.lengths(node, name)
    without = reading.lengths(node._replace(value=_SIGN.sub(" ", node.value)), name)
    signs = [-1 if _SIGN.search(item.strip()) else 1 for item in re.split(r"[(,]", text)]
    if without is None:
        return None
    if len(signs) == 1:
        return without.map(lambda mm: mm * signs[0])
    return PerSize(without.sizes, tuple(mm * s for mm, s in zip(without, signs, strict=True)))


def _signed(text: str) -> Fraction:
    """One length with its sign."""
    bare = _SIGN.sub("", text.strip())
    return quantities.length(bare.strip()) * (1 if bare == text.strip() else -1)
