"""What is needed: yarns, swatches, notions; and the special stitches.

Takes     the tables ``yarn``, ``swatches``, ``notions``, ``stitches``.
Gives     their records.
Problems  ``name-unknown``, ``name-reserved``, ``yarn-zero``, those of ``reading`` and ``rows``.
From      design.md, "A pattern file".
"""

from __future__ import annotations

import re
from fractions import Fraction
from typing import cast

from workeven.notation.parser import names_of, parse_special
from workeven.notation.tree import SpecialStitch
from workeven.notation.vocabulary import Vocabulary, basic_us
from workeven.pattern.gauges import measured
from workeven.pattern.reading import Reading, entries, items, whole_of, words
from workeven.pattern.records import (
    Notion,
    OtherPutUp,
    PutUp,
    Swatch,
    Terms,
    TurningChains,
    Worked,
    Yarn,
)
from workeven.pattern.rows import read_rows
from workeven.problems.words import joined, quote
from workeven.source import Entry, Node

BASIC = {"us": ("sc", "hdc", "dc", "tr", "dtr"), "uk": ("dc", "htr", "tr", "dtr", "ttr")}


def yarns(reading: Reading, table: Node | None) -> tuple[Yarn, ...] | None:
    """The yarns by name."""
    return whole_of(_yarn(reading, name, entry) for name, entry in entries(table).items())


def swatches(
    reading: Reading, listed: Node | None, known: tuple[str, ...] | None, vocabulary: Vocabulary
) -> tuple[Swatch, ...] | None:
    """The swatches; ``known`` are the names of the yarns, None where there are none to know."""
    return whole_of(_swatch(reading, one, known, vocabulary) for one in items(listed))


def notions(reading: Reading, listed: Node | None) -> tuple[Notion, ...] | None:
    """Buttons, markers, needles."""
    return whole_of(_notion(reading, one) for one in items(listed))


def special_stitches(
    reading: Reading, table: Node | None, terms: Terms
) -> tuple[SpecialStitch, ...]:
    """The stitches of the pattern's own, or of the studio's."""
    made = (_special(reading, name, entry, terms) for name, entry in entries(table).items())
    return tuple(stitch for stitch in made if stitch is not None)


def turning_chains(reading: Reading, table: Node | None, terms: Terms) -> TurningChains:
    """Whether turning chains count, by the US name of the stitch."""
    counts: list[tuple[str, bool]] = []
    for name, entry in entries(table).items():
        stitch = basic_us(name.lower(), terms)
        if stitch is None or stitch == "sl st":
            reading.unknown(
                entry.key,
                "basic stitch",
                BASIC[terms],
                f"Basic stitches in {terms.upper()} terms",
                name=name,
            )
        else:
            counts.append((stitch, words(entry.value) == "counts"))
    return TurningChains(counts=tuple(counts))


def _yarn(reading: Reading, name: str, entry: Entry) -> Yarn | None:
    table = entry.value
    weight, fibre = reading.text(table, "weight"), reading.text(table, "fibre")
    put_up = _put_up(reading, reading.node(table, "put_up"))
    colours, shades = _colours(reading, reading.node(table, "colours"))
    held_node = reading.node(table, "held")
    held = 1 if held_node is None else reading.whole(held_node)
    wraps_node = reading.node(table, "wraps")
    wraps = reading.number(wraps_node)
    also = whole_of(_other_put_up(reading, one) for one in items(reading.node(table, "also")))
    if weight is None or fibre is None or put_up is None or held is None or also is None:
        return None
    if wraps_node is not None and wraps is None:
        return None
    return Yarn(
        name=name,
        label=reading.text(table, "label") or name,
        weight=weight,
        fibre=fibre,
        put_up=put_up,
        colours=colours,
        shades=shades,
        held=held,
        span=reading.span(entry),
        wraps=wraps,
        also=also,
    )


def _colours(reading: Reading, node: Node | None) -> tuple[tuple[str, ...], tuple[str, ...]]:
    """The names of colours, and what the band calls each where a table says it."""
    table = entries(node)
    if table:
        return tuple(table), tuple(words(entry.value) for entry in table.values())
    return tuple(one.text for one in reading.texts(node)), ()


def _other_put_up(reading: Reading, table: Node) -> OtherPutUp | None:
    label, put_up = reading.text(table, "label"), _put_up(reading, table)
    if label is None or put_up is None:
        return None
    return OtherPutUp(label=label, put_up=put_up, span=reading.source.span(table))


def _put_up(reading: Reading, table: Node | None) -> PutUp | None:
    if table is None:
        return None
    length = reading.length(reading.node(table, "length"))
    mass = reading.mass(reading.node(table, "mass"))
    return None if length is None or mass is None else PutUp(length=length, mass=mass)


def _swatch(
    reading: Reading, table: Node, known: tuple[str, ...] | None, vocabulary: Vocabulary
) -> Swatch | None:
    of_node, mass_node = reading.node(table, "of"), reading.node(table, "mass")
    rows_node, mass = reading.node(table, "rows"), _weighed(reading, mass_node)
    named = () if of_node is None else items(of_node) or (of_node,)
    for one in named:
        if known is not None and words(one) not in known:
            reading.unknown(one, "yarn", known, "Names under `yarn`")
    if rows_node is None:
        return None
    read = read_rows(reading, rows_node, vocabulary, None)
    sample = measured(reading, table)
    if not read.whole or mass is None or mass_node is None or of_node is None or sample is None:
        return None
    return Swatch(
        of=words(named[0]),
        mass=mass,
        mass_span=reading.source.span(mass_node),
        rows=read.rows,
        worked=cast("Worked", reading.text(table, "worked") or "flat rows"),
        span=reading.source.span(table),
        sample=sample,
        beside=tuple(map(words, named[1:])),
        mass_step=_step(words(mass_node)),
    )


def _weighed(reading: Reading, node: Node | None) -> Fraction | None:
    """The mass of a swatch; what is lighter than nothing was not weighed."""
    if node is not None and words(node).startswith(_MINUS):
        reading.problem(
            "yarn-zero",
            reading.source.span(node),
            f"The swatch weighs {quote(words(node))}, which is less than nothing.",
            expected="A mass, such as `11.4 g`.",
            mend="Set the scales to zero and weigh the swatch again (0.1 g matters here).",
        )
        return None
    return reading.mass(node)


_MINUS = ("-", "−", "–")
_DECIMALS = re.compile(r"\d+(?:\.(?P<decimals>\d+))?\s*g(?:rams?)?\.?", re.IGNORECASE)


def _step(mass: str) -> Fraction | None:
    """The last place that a mass in grams is written to: how finely it was weighed.

    >>> _step("11.4 g"), _step("20 g"), _step("1/2 oz")
    (Fraction(1, 10), Fraction(1, 1), None)
    """
    found = _DECIMALS.fullmatch(mass.strip())
    return None if found is None else Fraction(1, 10 ** len(found["decimals"] or ""))


def _notion(reading: Reading, table: Node) -> Notion | None:
    kind, amount_node = reading.text(table, "kind"), reading.node(table, "amount")
    amount = reading.wholes(amount_node, "amount")
    if amount_node is None and reading.sizes is not None:
        amount = reading.sizes.all(1)
    note = reading.text(table, "note")
    if kind == "other" and note is None:
        reading.problem(
            "file-key-missing",
            reading.source.span(table),
            "A notion of the kind `other` needs a `note` that says what it is.",
            mend="Write `note:` and what a maker has to get, or the kind that it is.",
        )
        return None
    size_node = reading.node(table, "size")
    size = reading.length(size_node)
    if kind is None or amount is None or (size_node is not None and size is None):
        return None
    return Notion(
        kind=kind,
        amount=amount,
        at=reading.text(table, "at"),
        note=note,
        span=reading.source.span(table),
        size=size,
    )


def _special(reading: Reading, key: str, entry: Entry, terms: Terms) -> SpecialStitch | None:
    """A stitch; "Cdc (crossed double crochet)" has a name in full, which is told with its words."""
    name, *in_full = names_of(key)
    if basic_us(name.lower(), terms) is not None:
        reading.problem(
            "name-reserved",
            reading.span(entry),
            f"{quote(name)} is a basic stitch in {terms.upper()} terms already.",
            expected=f"A name that no basic stitch has; basic are {joined(BASIC[terms])}.",
            mend="Give the special stitch another name.",
        )
        return None
    span = reading.source.span(entry.value)
    told = "".join(f"{one}: " for one in in_full) + words(entry.value)
    parsed = parse_special(name, told, span, terms)
    reading.problems.extend(parsed.problems)
    return parsed.value
