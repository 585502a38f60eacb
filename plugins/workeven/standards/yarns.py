"""Yarn: weights, wraps to the inch, what stitches take.

Takes     the CSV files beside it.
Gives     ``yarn_weights``, ``yarn_weight``, ``weights_called``, ``wraps_per_inch``,
          ``yarn_consumption``.
Problems  none.
From      the sources named in the column ``citation``.
"""

from __future__ import annotations

from fractions import Fraction
from functools import cache

from workeven.records import record
from workeven.standards.tables import Origin, exact, integer, origin, rows


@record
class YarnWeight:
    """A category of yarn: its number and name, single crochet over 4 in, hooks in mm.

    A bound that is open ("5 and fewer") is None. ``edition`` tells editions of the table apart.
    """

    edition: str
    number: int
    name: str
    yarn_types: tuple[str, ...]
    sc: tuple[int | None, int | None]
    hook_mm: tuple[Fraction | None, Fraction | None]
    hook_us: str
    origin: Origin


@record
class WrapsPerInch:
    """How often a yarn of a category wraps an inch, by one of the lists; an open end is None."""

    list: str
    number: int
    name: str
    wraps: tuple[Fraction | None, Fraction | None]
    origin: Origin


@record
class YarnConsumption:
    """How much yarn a stitch took in a measured swatch."""

    stitch: str
    quantity: str
    value: Fraction
    unit: str
    origin: Origin


@cache
def yarn_weights() -> tuple[YarnWeight, ...]:
    """The categories of yarn, all editions.

    >>> [(w.number, w.sc) for w in yarn_weights() if w.name == "Fine"]
    [(2, (16, 20))]
    """
    return tuple(
        YarnWeight(
            edition=row["edition"],
            number=int(row["number"]),
            name=row["name"],
            yarn_types=tuple(filter(None, row["yarn_types"].split("; "))),
            sc=(integer(row["sc_low"]), integer(row["sc_high"])),
            hook_mm=(exact(row["hook_mm_low"]), exact(row["hook_mm_high"])),
            hook_us=row["hook_us"],
            origin=origin(row),
        )
        for row in rows("yarn_weights.csv")
    )


def yarn_weight(name: str) -> YarnWeight | None:
    """The category of that name, or yarn type, in the edition that has all of them.

    >>> yarn_weight("super fine").number
    1
    """
    wanted = name.casefold()
    whole = [weight for weight in yarn_weights() if weight.edition == "A"]
    named = (weight for weight in whole if weight.name.casefold() == wanted)
    typed = (weight for weight in whole if wanted in map(str.casefold, weight.yarn_types))
    return next(named, None) or next(typed, None)


@cache
def weights_called(name: str) -> tuple[YarnWeight, ...]:
    """All editions of the category of that name, or of that yarn type; () where there is none.

    >>> sorted({weight.sc for weight in weights_called("super bulky")})
    [(5, 9), (6, 9), (7, 9)]
    """
    whole = yarn_weight(name)
    if whole is None:
        return ()
    return tuple(weight for weight in yarn_weights() if weight.number == whole.number)


@cache
def wraps_per_inch() -> tuple[WrapsPerInch, ...]:
    """Wraps per inch by three lists, which differ.

    >>> [(one.list, one.wraps) for one in wraps_per_inch() if one.number == 4][0]
    ('CYC', (Fraction(9, 1), Fraction(12, 1)))
    """
    return tuple(
        WrapsPerInch(
            list=row["list"],
            number=int(row["number"]),
            name=row["name"],
            wraps=(exact(row["wpi_low"]), exact(row["wpi_high"])),
            origin=origin(row),
        )
        for row in rows("wraps_per_inch.csv")
    )


@cache
def yarn_consumption() -> tuple[YarnConsumption, ...]:
    """Yarn by stitch as measured in unravelled swatches.

    >>> next(c.value for c in yarn_consumption() if c.unit == "in per in" and c.stitch == "dc")
    Fraction(102, 5)
    """
    return tuple(
        YarnConsumption(
            stitch=row["stitch"],
            quantity=row["quantity"],
            value=Fraction(row["value"]),
            unit=row["unit"],
            origin=origin(row),
        )
        for row in rows("yarn_consumption.csv")
    )
