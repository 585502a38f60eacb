"""Ages in words to months.

Takes     the value of ``ages``.
Gives     ``read_ages``: ``Ages``.
Problems  ``unit-ages``.
From      design.md, ``audience use``: cautions and errors hang on the ages of children.

Ages are whole months, both ends included: "3 to 6 years" begins with the third birthday and ends
before the seventh. Where the first of two numbers has no unit it has that of the second.
"""

from __future__ import annotations

import re

from workeven.pattern.reading import Reading, words
from workeven.pattern.records import Ages
from workeven.problems.words import quote
from workeven.source import Node

_YEAR = 12
#: Nobody is older: a figure above it is a slip.
_MOST_YEARS = 120

_UNIT = r"(?:months?|mos?\.?|years?|yrs?\.?)"
_LOW = rf"(?P<low>\d{{1,3}})\s*(?P<low_unit>{_UNIT})?"
_HIGH = rf"(?P<high>\d{{1,3}})\s*(?P<unit>{_UNIT})"
_FORMS = tuple(
    re.compile(rf"(?:ages? )?{form}(?: old)?", re.IGNORECASE)
    for form in (
        rf"(?:{_LOW}|(?P<born>newborn|birth))\s*(?:to|up to|-|–)\s*{_HIGH}",
        rf"(?:from|over) (?P<open>\d{{1,3}})\s*(?P<unit>{_UNIT})(?: (?:on|up|upwards))?",
        rf"(?P<open>\d{{1,3}})\s*(?P<unit>{_UNIT}) and (?:up|over|older)",
        rf"up to {_HIGH}",
        rf"under (?P<under>\d{{1,3}})\s*(?P<unit>{_UNIT})",
        rf"(?P<alone>\d{{1,3}})\s*(?P<unit>{_UNIT})",
    )
)


def read_ages(reading: Reading, node: Node) -> Ages | None:
    """The ages of a value, or None where they cannot be read, which is told."""
    text = words(node)
    months = in_months(text)
    if months is None:
        reading.problem(
            "unit-ages",
            reading.source.span(node),
            f"{quote(text)} does not say ages in months or years.",
            expected="Whole months or years, the younger first, such as `6 to 12 months`, "
            "`3 to 6 years`, `from 3 years` or `under 3 years`.",
            mend="Write the ages so; sizes of clothing are no ages.",
        )
        return None
    return Ages(text=text, youngest=months[0], oldest=months[1], span=reading.source.span(node))


def in_months(text: str) -> tuple[int, int | None] | None:
    """The first and the last month of ages told in words; None where they are not told.

    >>> in_months("3 to 6 years"), in_months("6–12 months"), in_months("from 3 years")
    ((36, 83), (6, 12), (36, None))
    >>> in_months("18 months to 4 years"), in_months("under 3 years"), in_months("toddlers")
    ((18, 59), (0, 35), None)
    """
    told = " ".join(text.split())
    found = next((match for form in _FORMS if (match := form.fullmatch(told))), None)
    if found is None:
        return None
    said = found.groupdict()
    numbers = [int(said[key]) for key in ("low", "high", "open", "under", "alone") if said.get(key)]
    months = _months(said)
    sane = max(numbers) <= _MOST_YEARS and (months[1] is None or months[0] <= months[1])
    return months if sane else None


def _months(said: dict[str, str | None]) -> tuple[int, int | None]:
    unit = said["unit"] or ""
    if said.get("open"):
        return _begin(said["open"], unit), None
    if said.get("under"):
        return 0, _begin(said["under"], unit) - 1
    if said.get("alone"):
        return _begin(said["alone"], unit), _end(said["alone"], unit)
    low = said.get("low")
    return _begin(low, said.get("low_unit") or unit) if low else 0, _end(said["high"], unit)


def _begin(number: str | None, unit: str) -> int:
    """The month with which an age begins."""
    return int(number or 0) * (_YEAR if unit[0] in "yY" else 1)


def _end(number: str | None, unit: str) -> int:
    """The last month of an age: all of that year of life."""
    return _begin(number, unit) + (_YEAR - 1 if unit[0] in "yY" else 0)
