"""Numbers and names as a page prints them: a figure for each size in the trade's way.

Takes     ``PerSize`` values.
Gives     ``trade``, ``counts``, ``counted``, ``cm``, ``inches``, ``both``, ``in_order``,
          ``heading``, ``multiple``, ``clock``, ``percent``, ``letter``, ``listed``.
Problems  none.
From      design.md, "Numbers a maker can trust"; the rounding is that of ``printing``.

A size that does not work something has a dash, so that a figure's place in the list always tells
its size. What differs by size or by unit is marked (``choices``): a maker may see hers alone.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Sequence
from fractions import Fraction
from typing import Literal

from workeven.arithmetic import printing
from workeven.publish.pages.choices import by_size, in_unit, in_units, plain  # noqa: F401 -- doctests

Units = Literal["cm", "in"]

#: What stands for a size that does not work a row.
NOT_WORKED = "–"


def trade(words: Sequence[str]) -> str:
    """The first size's, then the others' in brackets; one alone when all are the same.

    >>> plain(trade(("60", "66", "72")))
    '60 (66, 72)'
    >>> trade(("60", "60"))
    '60'
    """
    first, *others = words
    if all(word == first for word in others):
        return first
    return by_size(f"{first} ({', '.join(others)})", words)


def counts(values: Iterable[int | None]) -> str:
    """Whole numbers by size, a dash where a size has none.

    >>> plain(counts((60, None, 72)))
    '60 (–, 72)'
    """
    return trade(tuple(map(one, values)))


def one(value: int | None) -> str:
    """A whole number, a dash where there is none."""
    return NOT_WORKED if value is None else str(value)


def counted(values: Iterable[int | None], one: str, many: str | None = None) -> str:
    """Whole numbers by size with what they count, in the plural unless all are one.

    >>> counted((1, 1), "button")
    '1 button'
    >>> plain(counted((1, 2), "button"))
    '1 (2) buttons'
    """
    listed = tuple(values)
    plural = many or f"{one}s"
    if set(listed) <= {1, None}:
        return f"{counts(listed)} {one}"
    if 1 not in listed or one == plural:
        return f"{counts(listed)} {plural}"
    each = [f"{counts((value,))} {one if value == 1 else plural}" for value in listed]
    return by_size(f"{counts(listed)} {plural}", each)


def cm(lengths: Iterable[Fraction | None]) -> str:
    """Centimetres by size.

    >>> plain(cm((Fraction(415), Fraction(440))))
    '41.5 (44) cm'
    """
    return f"{_figures(lengths, printing.print_cm)} cm"


def inches(lengths: Iterable[Fraction | None]) -> str:
    """Inches by size, in quarters.

    >>> plain(inches((Fraction(415), Fraction(440))))
    '16¼ (17¼) in'
    """
    return f"{_figures(lengths, printing.print_in)} in"


def both(lengths: Iterable[Fraction | None], units: Units = "cm") -> str:
    """Both systems by size, each from the exact length; ``units`` stand first.

    >>> plain(both((Fraction(415), Fraction(440))))
    '41.5 (44) cm / 16¼ (17¼) in'
    """
    listed = tuple(lengths)
    return in_units(cm(listed), inches(listed), units)


def in_order(lengths: Sequence[Fraction | None], units: Units) -> tuple[str, str]:
    """Both systems by size as lines of a cell, that of ``units`` first."""
    metric, imperial = in_unit(cm(lengths), metric=True), in_unit(inches(lengths), metric=False)
    return (metric, imperial) if units == "cm" else (imperial, metric)


def heading(key: str) -> str:
    """A key of a pattern file as a heading.

    >>> heading("hand_width")
    'Hand width'
    """
    words = " ".join(key.replace("_", " ").split())
    return words[:1].upper() + words[1:]


def multiple(of: int, plus: int) -> str:
    """A stitch multiple in the trade's words; a multiple of one says nothing.

    >>> multiple(6, 1), multiple(4, 0), multiple(1, 0)
    ('multiple of 6 plus 1', 'multiple of 4', '')
    """
    if of <= 1:
        return ""
    return f"multiple of {of} plus {plus}" if plus else f"multiple of {of}"


def clock(seconds: int) -> str:
    """A place in a video.

    >>> clock(460), clock(3725)
    ('7:40', '1:02:05')
    """
    minutes, rest = divmod(seconds, 60)
    hours, minutes = divmod(minutes, 60)
    return f"{hours}:{minutes:02}:{rest:02}" if hours else f"{minutes}:{rest:02}"


def percent(share: Fraction) -> str:
    """A share of one as per cent.

    >>> percent(Fraction(1, 10))
    '10 %'
    """
    return f"{printing.print_number(share * 100)} %"


def letter(place: int) -> str:
    """The letter of a measurement in a drawing, from 0.

    >>> letter(0), letter(27)
    ('A', 'B2')
    """
    round_, at = divmod(place, 26)
    return chr(ord("A") + at) + (str(round_ + 1) if round_ else "")


def listed(words: Sequence[str]) -> str:
    """Words as one says them.

    >>> listed(("sand", "slate", "kelp"))
    'sand, slate and kelp'
    """
    *most, last = words or ("",)
    return f"{', '.join(most)} and {last}" if most else last


def _figures(
    lengths: Iterable[Fraction | None],
    printed: Callable[..., str],
) -> str:
    return trade([NOT_WORKED if mm is None else printed(mm, unit=False) for mm in lengths])
