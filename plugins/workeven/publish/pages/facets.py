"""What patterns are chosen by on the page of all: kind, weight, hook, level, size, and enough yarn.

Takes     ``ReadyPattern``; for ``filters``, what was found of all patterns.
Gives     ``facets``, ``filters``; ``Facets``, ``FilterView``.
Problems  none.
From      the numbers of a pattern's own page: what it is meant to fit, and the yarn to buy.

``theme/scripts/index.js`` compares what is written here and computes nothing: the ends of what a
size fits and the whole amounts are made at the build.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator, Sequence
from fractions import Fraction

from workeven import level
from workeven.arithmetic import printing
from workeven.arithmetic.per_size import PerSize
from workeven.arithmetic.printing import rounded, rounded_up
from workeven.arithmetic.units import YARD, M
from workeven.pattern import PrintedAmount
from workeven.pipeline import ReadyPattern
from workeven.publish.pages import figures
from workeven.records import record
from workeven.standards.yarns import yarn_weight
from workeven.yarn import YarnNeed

#: How far on each side a size fits that stands alone, in mm; others reach half-way to the next.
ALONE = Fraction(20)

#: Ends of what a size fits, in tenths of a millimetre.
Range = tuple[int, int]


@record
class Facets:
    """One pattern. ``body``: by measurement, what each size fits; ``yarn``: what each size takes.

    An amount is metres, yards, grams and balls of all its yarns together, as they are bought. It
    is empty where that of a yarn is not known.
    """

    kind: tuple[str, ...]
    audience: str
    weight: tuple[str, ...]
    hook: tuple[str, ...]
    level: str
    sizes: tuple[str, ...]
    body: tuple[tuple[str, tuple[Range, ...]], ...]
    yarn: tuple[tuple[int, int, int, int], ...]

    def told(self) -> dict[str, object]:
        """As the page tells it to the script."""
        return {
            "kind": self.kind,
            "for": (self.audience,),
            "weight": self.weight,
            "hook": self.hook,
            "level": (self.level,),
            "sizes": self.sizes,
            "body": dict(self.body),
            "yarn": self.yarn,
        }


@record
class ChoiceView:
    """One filter: its name in the address, its label, and each value with words and how many."""

    name: str
    label: str
    options: tuple[tuple[str, str, int], ...]


@record
class FilterView:
    """All filters that can tell patterns apart; ``body`` are measurements, value and words."""

    choices: tuple[ChoiceView, ...]
    body: tuple[tuple[str, str], ...]
    units: figures.Units
    yarn: bool


def facets(ready: ReadyPattern) -> Facets:
    """What one pattern says."""
    pattern = ready.pattern
    of_gauges = (gauge.hook for gauge in pattern.gauges)
    hooks = sorted({hook.mm for hook in (*of_gauges, *pattern.hooks) if hook is not None})
    return Facets(
        kind=tuple(dict.fromkeys(pattern.tags)),
        audience=pattern.audience,
        weight=tuple(dict.fromkeys(yarn.weight for yarn in pattern.yarns if yarn.weight)),
        hook=tuple(map(printing.decimal, hooks)),
        level=ready.level.name,
        sizes=pattern.sizes.names,
        body=tuple((name, _ranges(lengths)) for name, lengths in pattern.to_fit),
        yarn=tuple(_yarn(ready)),
    )


def filters(found: Sequence[Facets], units: figures.Units) -> FilterView:
    """What tells the patterns apart; a filter with one value alone would tell nothing."""
    choices = (
        _choice("kind", "What it is", (one.kind for one in found), figures.heading),
        _choice("for", "For", ((one.audience,) for one in found), figures.heading),
        _choice("weight", "Yarn weight", (one.weight for one in found), figures.heading, _weight),
        _choice("hook", "Hook", (one.hook for one in found), "{} mm".format, Fraction),
        _choice("level", "Level", ((one.level,) for one in found), str, _level),
    )
    body = sorted({name for one in found for name, _ in one.body})
    return FilterView(
        choices=tuple(one for one in choices if len(one.options) > 1),
        body=tuple((name, figures.heading(name)) for name in body),
        units=units,
        yarn=any(one.yarn for one in found),
    )


# --- one pattern ---------------------------------------------------------------------------


def _ranges(lengths: PerSize[Fraction]) -> tuple[Range, ...]:
    """What each size fits: half-way to the sizes beside it, and as far beyond the last ones.

    >>> from workeven.arithmetic.per_size import Sizes
    >>> _ranges(PerSize(Sizes(("S", "M", "L")), (Fraction(180), Fraction(200), Fraction(230))))
    ((1700, 1900), (1900, 2150), (2150, 2450))
    """
    steps = sorted(set(lengths.values))
    ends = {}
    for at, here in enumerate(steps):
        below = here - steps[at - 1] if at else None
        above = steps[at + 1] - here if at + 1 < len(steps) else None
        down, up = below or above or 2 * ALONE, above or below or 2 * ALONE
        ends[here] = (_tenths(here - down / 2), _tenths(here + up / 2))
    return tuple(ends[one] for one in lengths.values)


def _tenths(mm: Fraction) -> int:
    return int(rounded(mm * 10))


def _yarn(ready: ReadyPattern) -> Iterator[tuple[int, int, int, int]]:
    """What each size takes; the designer's own amount where that is more."""
    needs = ready.yarn.needs
    if ready.yarn.without or not needs:
        return
    for at in range(len(ready.pattern.sizes)):
        told = [_need(need, ready.pattern.amounts, at) for need in needs]
        metres, yards, grams, balls = (sum(column) for column in zip(*told, strict=True))
        yield metres, yards, grams, balls


def _need(need: YarnNeed, amounts: Iterable[PrintedAmount], at: int) -> tuple[int, int, int, int]:
    """Of one yarn in one size, each figure whole and up, as on the page of the pattern."""
    said = {"length": Fraction(0), "mass": Fraction(0), "balls": Fraction(0)}
    for one in amounts:
        if one.yarn == need.yarn.name and (one.colour is not None or not said[one.unit]):
            said[one.unit] += one.values[at]
    length, mass = max(need.length[at], said["length"]), max(need.mass[at], said["mass"])
    return (
        int(rounded_up(length / M)),
        int(rounded_up(length / YARD)),
        int(rounded_up(mass)),
        max(need.balls[at], int(said["balls"])),
    )


# --- all patterns --------------------------------------------------------------------------


def _choice(
    name: str,
    label: str,
    values: Iterable[tuple[str, ...]],
    words: Callable[[str], str],
    rank: Callable[[str], Fraction | int] = lambda _value: 0,
) -> ChoiceView:
    """The values that occur, by rank and alphabet, with how often."""
    often: dict[str, int] = {}
    for value in (one for several in values for one in several):
        often[value] = often.get(value, 0) + 1
    listed = sorted(often, key=lambda value: (rank(value), value.casefold()))
    return ChoiceView(
        name=name,
        label=label,
        options=tuple((value, words(value), often[value]) for value in listed),
    )


def _weight(name: str) -> int:
    """From thin to thick, by the published numbers; a name that is not among them is last."""
    category = yarn_weight(name)
    return 99 if category is None else category.number


def _level(name: str) -> int:
    return [str(one) for one in level.NAMES].index(name)
