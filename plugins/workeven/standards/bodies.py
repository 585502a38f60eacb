"""Body charts: what the bodies measure that a size is meant to fit.

Takes     the CSV files beside it, one a chart.
Gives     ``BodyChart``, ``BodyMeasurement``, ``CHARTS``, ``body_chart``; ``LetterSize``,
          ``letter_sizes``, ``LETTERS``; ``hat_sizes``, which are sizes of hats and of no body.
Problems  none.
From      the sources named in the column ``citation``; EN 13402-3 for the letters.

A chart keeps both of its columns, inches and centimetres, as published: neither is computed from
the other, and where they disagree a ``Fault`` names it. Where a value was published and recalled
too, the published one stands first and is the chart's.
"""

from __future__ import annotations

from collections.abc import Iterable
from fractions import Fraction
from functools import cache
from typing import Literal, cast

from workeven.records import record, replace
from workeven.standards.tables import Fault, Origin, faults, origin, rows

Unit = Literal["in", "cm"]

#: Letters that EN 13402-3 has for sizes that the trade of yarn calls otherwise.
LETTERS = {"2X": "XXL", "3X": "3XL", "4X": "4XL", "5X": "5XL"}

#: Words that make a measurement one taken around the body, which is where ease is spoken of.
GIRTHS = ("bust", "chest", "waist", "hip", "arm", "wrist", "hand", "head", "neck", "thigh")
GIRTH_WORDS = ("circumference", "girth", "around", "ankle", "calf", "foot")
#: Words that make it a length all the same: an arm's length is not taken around it.
LENGTH_WORDS = ("length", "depth", "height", "width", "back", "drop", "to")


@record
class BodyMeasurement:
    """A measurement of the body in one size, from ``low`` to ``high``, in the unit published."""

    size: str
    measurement: str
    unit: Unit
    low: Fraction
    high: Fraction
    origin: Origin

    @property
    def span(self) -> tuple[Fraction, Fraction]:
        """From where to where it goes; twice the same where it is one value."""
        return self.low, self.high


@record
class BodyChart:
    """A body chart: its sizes, smallest first, its measurements, their values as published.

    ``note``: what whoever uses the chart is told (that it makes no garment safe for a child).
    """

    name: str
    title: str
    sizes: tuple[str, ...]
    values: tuple[BodyMeasurement, ...]
    faults: tuple[Fault, ...]
    note: str = ""

    def measurements(self) -> tuple[str, ...]:
        """The names of the measurements, in the chart's order.

        >>> women = body_chart("women")
        >>> women.measurements()[:2] if women else None
        ('bust', 'center back neck to wrist')
        """
        return tuple(dict.fromkeys(one.measurement for one in self.values))

    def value(self, measurement: str, size: str, unit: Unit) -> BodyMeasurement | None:
        """The chart's value in a unit: the published one, else a recalled one, else none.

        >>> women = body_chart("women")
        >>> found = women.value("upper arm", "5X", "cm") if women else None
        >>> found.span if found else None
        (Fraction(99, 2), Fraction(99, 2))
        """
        recalled: BodyMeasurement | None = None
        for one in self.values:
            if one.size != size or one.measurement != measurement or one.unit != unit:
                continue
            if one.origin.status != "memory":
                return one
            recalled = recalled or one
        return recalled

    def faults_of(self, measurement: str, size: str) -> tuple[Fault, ...]:
        """What is known to be wrong with a value."""
        return tuple(
            one for one in self.faults if measurement in one.measurements and size in one.sizes
        )


@record
class LetterSize:
    """The range of a girth that a letter stands for (EN 13402-3), in cm."""

    group: Literal["women", "men"]
    measurement: str
    code: str
    low_cm: Fraction
    high_cm: Fraction
    origin: Origin


_CHILDREN = "A body chart says what fits. It makes no garment safe for a child: keep the cautions."

#: The published charts by the name that a pattern calls them: title, file, note.
CHARTS: dict[str, tuple[str, str, str]] = {
    "women": ("women, XS to 5X", "body_women.csv", ""),
    "men": ("men, S to 5X", "body_men.csv", ""),
    "children": ("children, 2 to 10", "body_children.csv", _CHILDREN),
    "youth": ("youth, 12 to 16", "body_youth.csv", _CHILDREN),
    "babies": ("babies, 3 to 24 months", "body_babies.csv", _CHILDREN),
    "head": ("heads, preemie to adult", "body_head.csv", ""),
    "letters women": ("letter sizes of women, EN 13402-3", "letter_sizes.csv", ""),
    "letters men": ("letter sizes of men, EN 13402-3", "letter_sizes.csv", ""),
}


@cache
def body_chart(name: str) -> BodyChart | None:
    """A published chart by its name, or None.

    >>> chart = body_chart("babies")
    >>> chart.sizes if chart else None
    ('3 mo', '6 mo', '12 mo', '18 mo', '24 mo')
    """
    if name not in CHARTS:
        return None
    title, file, note = CHARTS[name]
    group = name.removeprefix("letters ")
    values = _lettered(group) if file == "letter_sizes.csv" else _measured(file)
    return BodyChart(
        name=name,
        title=title,
        sizes=tuple(dict.fromkeys(one.size for one in values)),
        values=values,
        faults=tuple(_spoken(one) for one in faults() if one.file == _faulty(name, file)),
        note=note,
    )


@cache
def letter_sizes() -> tuple[LetterSize, ...]:
    """EN 13402-3: letters and the ranges of bust (women) or chest (men) they stand for.

    >>> [(s.low_cm, s.high_cm) for s in letter_sizes() if (s.group, s.code) == ("women", "M")]
    [(Fraction(90, 1), Fraction(98, 1))]
    """
    return tuple(_letters("letter_sizes.csv"))


@cache
def letter_sizes_retail() -> tuple[LetterSize, ...]:
    """Waist and hip of the same letters as a retailer has them: not those of the standard."""
    return tuple(_letters("letter_sizes_retail.csv"))


@cache
def hat_sizes() -> tuple[BodyMeasurement, ...]:
    """Hats as they are made, around and from crown to brow: finished, and no head's measure."""
    return _measured("hats.csv")


def is_girth(measurement: str) -> bool:
    """Whether a measurement is taken around the body.

    >>> is_girth("bust"), is_girth("upper arm"), is_girth("arm length to underarm")
    (True, True, False)
    """
    said = measurement.lower().replace("_", " ").split()
    if any(word in LENGTH_WORDS for word in said):
        return False
    return any(word in GIRTH_WORDS or word.removesuffix("s") in GIRTHS for word in said)


def _measured(file: str) -> tuple[BodyMeasurement, ...]:
    return tuple(
        BodyMeasurement(
            size=row["size"],
            measurement=row["measurement"].replace("_", " "),
            unit=cast("Unit", row["unit"]),
            low=Fraction(row["low"]),
            high=Fraction(row["high"]),
            origin=origin(row),
        )
        for row in rows(file)
    )


def _letters(file: str) -> Iterable[LetterSize]:
    for row in rows(file):
        yield LetterSize(
            group=cast('Literal["women", "men"]', row["group"]),
            measurement=row["measurement"],
            code=row["code"],
            low_cm=Fraction(row["low_cm"]),
            high_cm=Fraction(row["high_cm"]),
            origin=origin(row),
        )


def _lettered(group: str) -> tuple[BodyMeasurement, ...]:
    """The letters of a group as a chart; waist and hip, which the standard lacks, as retailed."""
    return tuple(
        BodyMeasurement(
            size=one.code,
            measurement=one.measurement,
            unit="cm",
            low=one.low_cm,
            high=one.high_cm,
            origin=one.origin,
        )
        for one in (*letter_sizes(), *letter_sizes_retail())
        if one.group == group
    )


def _faulty(name: str, file: str) -> str:
    return "letter_sizes_retail.csv" if name == "letters women" else file


def _spoken(fault: Fault) -> Fault:
    """The fault with measurements named as a chart names them."""
    return replace(fault, measurements=tuple(one.replace("_", " ") for one in fault.measurements))
