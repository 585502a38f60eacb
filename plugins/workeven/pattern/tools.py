"""Whether gauge, hook and weight of yarn go together, by the published table of weights.

Takes     ``Pattern``.
Gives     ``gauge_of_weight``, ``gauge_of_hook``, ``hook_of_weight``, ``wraps_of_weight``.
Problems  ``gauge-weight``, ``gauge-hook``, ``hook-weight``, ``yarn-wraps``.
From      ``standards.yarn_weights``: single crochet over 4 in (of lace double) and hooks for each
          category; all editions of a category together, since they differ;
          ``standards.wraps_per_inch``: three lists that differ.

The table tells what is usual, and a designer may want a fabric that drapes or that stands. So only
what lies beyond it by more than a quarter of a gauge, or by more than a millimetre of hook, is told
(common practice), and it is advice; of a hook for other work than a gauge, two. The table is for
single crochet, and of lace for double: another stitch says nothing of its gauges. A yarn held
double, or beside another, is of no one category; and what is stuffed is worked firmly with a thin
hook, so that the filling does not show (common practice). Whatever the yarn, its loop has been
around the hook: in no row of the table is a stitch narrower than 0.7 of the thickest hook.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from fractions import Fraction

from workeven import standards
from workeven.arithmetic.printing import decimal
from workeven.arithmetic.units import TEN_CM
from workeven.notation.vocabulary import basic_us
from workeven.pattern.records import Gauge, Pattern, Yarn
from workeven.problems import Note, Problem
from workeven.problems.words import quote

Bounds = tuple[Fraction | None, Fraction | None]
#: how far beyond the published range a gauge may lie (a part of it), and a hook (mm)
_MORE_STS, _MORE_MM = Fraction(1, 4), Fraction(1)
#: a beginning chain or an edging takes a hook some sizes off (common practice)
_MORE_MM_ELSEWHERE = Fraction(2)
#: a stitch is no narrower than this part of its hook
_LEAST_OF_HOOK = Fraction(1, 2)
#: its gauge is published in double crochet
_LACE = 0
_FILLINGS = ("stuffing", "pillow form")
#: lengths that are taken as one: 4 in and 10 cm
_FOUR_IN = Fraction(1016, 10)


def gauge_of_weight(pattern: Pattern) -> Iterator[Problem]:
    """A gauge in single crochet that yarn of this weight does not usually have."""
    for gauge, yarn in _pairs(pattern):
        stitch = basic_us(gauge.of.strip().lower(), pattern.terms)
        weights = standards.weights_called(yarn.weight)
        if not weights or gauge.repeats is not None:
            continue
        published = "dc" if weights[0].number == _LACE else "sc"
        if stitch != published:
            continue
        low, high = _bounds([(one.sc[0], one.sc[1]) for one in weights])
        over = TEN_CM if gauge.over == _FOUR_IN else gauge.over
        sts = gauge.sts * TEN_CM / over
        if not _beyond(sts, low, high, _MORE_STS * (high or low or 0)):
            continue
        yield Problem(
            code="gauge-weight",
            span=gauge.span,
            found=f"{quote(gauge.name)} has {_figure(sts)} {published} to 10 cm, in {yarn.weight} "
            "yarn.",
            expected=f"{_range(low, high)} {published} to 10 cm / 4 in for {yarn.weight} yarn, by "
            "the published table of weights.",
            mend=f"Look whether the gauge was counted in {published}, and whether the yarn is of "
            "this weight. If the fabric is meant so, allow it with the reason.",
            notes=(Note(span=yarn.span, message=f"{quote(yarn.name)} is given here."),),
        )


def gauge_of_hook(pattern: Pattern) -> Iterator[Problem]:
    """A stitch of less than half its hook, which was wound around it: a slip of unit, as a rule."""
    told = {problem.span for problem in gauge_of_weight(pattern)}
    for gauge in pattern.gauges:
        plain = basic_us(gauge.of.strip().lower(), pattern.terms) is not None
        if not plain or gauge.hook is None or gauge.repeats is not None or gauge.span in told:
            continue
        if gauge.stitch_width() < gauge.hook.mm * _LEAST_OF_HOOK:
            width = decimal(gauge.stitch_width(), 1)
            yield Problem(
                code="gauge-hook",
                span=gauge.span,
                found=f"{quote(gauge.name)} has stitches {width} mm wide, worked with a "
                f"{_figure(gauge.hook.mm)} mm hook.",
                expected="A stitch is about as wide as its hook, or wider: its loop was around it.",
                mend=f"Look at the unit of {quote(gauge.over_text)}, and at the hook.",
            )


def hook_of_weight(pattern: Pattern) -> Iterator[Problem]:
    """A hook that is not usual for yarn of this weight."""
    for gauge, yarn in _pairs(pattern):
        weights = standards.weights_called(yarn.weight)
        if gauge.hook is None or not weights:
            continue
        low, high = _bounds([one.hook_mm for one in weights])
        if not _beyond(gauge.hook.mm, low, high, _MORE_MM):
            continue
        yield Problem(
            code="hook-weight",
            span=gauge.span,
            found=f"{quote(gauge.name)} is worked with a {_figure(gauge.hook.mm)} mm hook, in "
            f"{yarn.weight} yarn.",
            expected=f"{_range(low, high)} mm for {yarn.weight} yarn, by the published table of "
            "weights.",
            mend="Look whether the hook is in mm, and whether the yarn is of this weight. If the "
            "fabric is meant so, allow it with the reason.",
            notes=(Note(span=yarn.span, message=f"{quote(yarn.name)} is given here."),),
        )
    yield from _other_hooks(pattern)


def _other_hooks(pattern: Pattern) -> Iterator[Problem]:
    """A hook for other work than a gauge that is usual for no yarn of the pattern."""
    if not pattern.hooks or not _plainly_worked(pattern):
        return
    weights = [one for yarn in pattern.yarns for one in standards.weights_called(yarn.weight)]
    if not weights or any(not standards.weights_called(yarn.weight) for yarn in pattern.yarns):
        return
    low, high = _bounds([one.hook_mm for one in weights])
    named = " and ".join(dict.fromkeys(yarn.weight for yarn in pattern.yarns))
    for hook in pattern.hooks:
        if _beyond(hook.mm, low, high, _MORE_MM_ELSEWHERE):
            yield Problem(
                code="hook-weight",
                span=hook.span,
                found=f"{quote(hook.of)} is worked with a {_figure(hook.mm)} mm hook, in {named} "
                "yarn.",
                expected=f"{_range(low, high)} mm for {named} yarn, by the published table of "
                "weights.",
                mend="Look whether the hook is in mm, and whether the yarn is of this weight. If "
                "the fabric is meant so, allow it with the reason.",
            )


def wraps_of_weight(pattern: Pattern) -> Iterator[Problem]:
    """So many wraps to the inch as no list gives for this weight."""
    for yarn in pattern.yarns:
        weights = standards.weights_called(yarn.weight)
        if yarn.wraps is None or not weights:
            continue
        lists = [one.wraps for one in standards.wraps_per_inch() if one.number == weights[0].number]
        low, high = _bounds(lists)
        if lists and _beyond(yarn.wraps, low, high, Fraction(0)):
            yield Problem(
                code="yarn-wraps",
                span=yarn.span,
                found=f"{quote(yarn.name)} has {_figure(yarn.wraps)} wraps to the inch, and is "
                f"called {yarn.weight}.",
                expected=f"{_range(low, high)} for {yarn.weight} yarn, by three published lists "
                "that differ.",
                mend="Wrap it again, without stretching it, or look at the weight.",
            )


# --- in parts ------------------------------------------------------------------------------


def _plainly_worked(pattern: Pattern) -> bool:
    """Whether there is yarn, and nothing is stuffed and so worked firmly."""
    stuffed = any(notion.kind in _FILLINGS for notion in pattern.notions)
    return bool(pattern.yarns) and not stuffed and "toy" not in pattern.use


def _pairs(pattern: Pattern) -> Iterator[tuple[Gauge, Yarn]]:
    """Each gauge with the yarn that is worked in it, where that is one strand of one yarn."""
    if not _plainly_worked(pattern):
        return
    by_name = {yarn.name: yarn for yarn in pattern.yarns}
    worked: dict[str, set[tuple[str, ...]]] = {}
    for piece in pattern.pieces:
        for section in piece.sections:
            if section.gauge is not None:
                yarns = (section.yarn or pattern.yarns[0].name, *section.beside)
                worked.setdefault(section.gauge, set()).add(yarns)
    for gauge in pattern.gauges:
        ways = worked.get(gauge.name, {(pattern.yarns[0].name,)})
        (names, *others) = ways
        known = by_name.get(names[0])
        alone = not others and len(names) == 1 and known is not None and known.held == 1
        if alone and known is not None and gauge.least() > 0:
            yield gauge, known


def _bounds(ranges: Sequence[tuple[Fraction | int | None, Fraction | int | None]]) -> Bounds:
    """The widest of several ranges; an open end stays open."""
    lows, highs = [low for low, _ in ranges], [high for _, high in ranges]
    low = None if None in lows else min(Fraction(one) for one in lows if one is not None)
    high = None if None in highs else max(Fraction(one) for one in highs if one is not None)
    return low, high


def _beyond(value: Fraction, low: Fraction | None, high: Fraction | None, more: Fraction) -> bool:
    too_low = low is not None and value < low - more
    return too_low or (high is not None and value > high + more)


def _range(low: Fraction | None, high: Fraction | None) -> str:
    if low is None or high is None:
        return f"{_figure(low)} or more" if low is not None else f"at most {_figure(high or low)}"
    return f"{_figure(low)} to {_figure(high)}"


def _figure(number: Fraction | None) -> str:
    return "" if number is None else decimal(number, 2)
