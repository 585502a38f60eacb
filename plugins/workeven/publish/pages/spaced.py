"""Where the changes of a row that is spread evenly stand, stitch by stitch.

Takes     a proven row, what it is worked into in every size.
Gives     ``sentence``: ``Evenly: [sc 4, sc2tog] 5 times, …``, a part for each group of sizes.
Problems  none: "" where nothing is spread, or it is not known over what.
From      notation.md, "evenly"; the arithmetic is that of ``arithmetic.shaping.evenly``.

"Dec 12 sts evenly" leaves the counting to the maker. The proof knows the stitches of the row before
and what the row makes, so that the page can say it. Of several rows in one line the first is told.
"""

from __future__ import annotations

from workeven.arithmetic.shaping import ShapingFault, evenly
from workeven.arithmetic.shaping.words import words_of_spacing
from workeven.notation.tree import Evenly, ShapeRows, WorkedRow
from workeven.notation.vocabulary import Terms, kind_of, speak
from workeven.proof import ProvenRow, RowInSize
from workeven.publish.pages import figures
from workeven.publish.pages.choices import by_size
from workeven.publish.pages.worked_into import InSizes

#: stitches whose increases and decreases have names of their own
_STITCHES = ("sc", "hdc", "dc", "tr")


def sentence(
    proven: ProvenRow, into: InSizes, names: tuple[str, ...], *, flat: bool, terms: Terms
) -> str:
    """Where the changes stand; sizes that have them in the same places are told together."""
    if not _is_spread(proven):
        return ""
    told: dict[str, list[str]] = {}
    each = dict.fromkeys(names, "")
    for at, name in enumerate(names):
        counted, below = proven.per_size[at], into[at]
        if counted is None or below is None:
            continue
        before = sum(number for kind, number in below.places if " " not in kind)
        words = _words(proven, counted, before, flat=flat)
        if words:
            told.setdefault(speak(words, terms), []).append(name)
            each[name] = speak(words, terms)
    if not told:
        return ""
    several = len(told) > 1 or len(next(iter(told.values()))) < len(names)
    parts = [
        f"{figures.listed(sizes)}: {words}" if several else words for words, sizes in told.items()
    ]
    first = "Evenly, in the first shaped one of these" if _rows(proven) > 1 else "Evenly"
    shown = f"{first}: {'; '.join(parts)}."
    return by_size(shown, [words and f"{first}: {words}." for words in each.values()])


def _is_spread(proven: ProvenRow) -> bool:
    """Whether the words spread changes over the row, and say nothing of where."""
    match proven.row.body:
        case WorkedRow(steps=steps):
            spread = [one for one in steps if isinstance(one, Evenly)]
            return len(spread) == 1 and spread[0].ends == 1 and not spread[0].at_markers
        case ShapeRows(ends=0, places=None, count=count, change="inc" | "dec"):
            return count is not None
        case _:
            return False


def _rows(proven: ProvenRow) -> int:
    return max((one.times or 1 for one in proven.per_size if one is not None), default=1)


def _changes(proven: ProvenRow, counted: RowInSize, before: int) -> int | None:
    """How many stitches the row, or the first of several that is shaped, has more or fewer."""
    if counted.sts is None or not before:
        return None
    if _rows(proven) == 1:
        return counted.sts - before
    body = proven.row.body
    every = body.spans[0].every if isinstance(body, ShapeRows) and body.spans else 0
    times = counted.times or 0
    shaped = times // every if every else 0
    one_rate = isinstance(body, ShapeRows) and len(body.spans) == 1 and body.then is None
    if not one_rate or not shaped or (counted.sts - before) % shaped:
        return None
    return (counted.sts - before) // shaped


def _words(proven: ProvenRow, counted: RowInSize, before: int, *, flat: bool) -> str:
    more = _changes(proven, counted, before)
    stitch = _stitch(counted)
    if not more or stitch not in _STITCHES:
        return ""
    try:
        spacing = evenly(before, abs(more), "inc" if more > 0 else "dec", flat=flat)
    except ShapingFault:
        return ""
    return words_of_spacing(spacing, "inc" if more > 0 else "dec", stitch)


def _stitch(counted: RowInSize) -> str:
    """The basic stitch that the row makes most of."""
    made: dict[str, int] = {}
    for name, number in counted.makes:
        base = kind_of(name).base
        made[base] = made.get(base, 0) + number
    return max(made, key=lambda base: made[base], default="")
