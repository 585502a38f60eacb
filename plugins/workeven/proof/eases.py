"""The ease that is left: what the proven stitches measure, less the body.

Takes     ``GradedPattern``, the finished measurements.
Gives     ``EaseLeft``, ``eases_left``, ``fit_problems``; ``held_widths``: the finished widths.
Problems  ``fit-other``, ``fit-unheld``.
From      the published scale of fits in ``standards``.

A finished measurement belongs to a measurement of the body when its formula is made from it: one
centimetre more of bust makes ``bust + 14 cm`` one centimetre more. ``(bust + 14 cm) / 2`` grows by
half: it is the width of one of two pieces alike, and twice its width goes around. Any other formula
says nothing of ease. A girth may be told by its name: with ``around: bust + 14 cm``, ``around / 2``
is that width; but ``around / 2 - 2 * shoulder`` is a neck. A fit holds where the ease lies within
its range, or outside by no more than the tolerance of finished measurements.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from fractions import Fraction

from workeven import standards
from workeven.arithmetic.formulas import Formula, FormulaFault
from workeven.arithmetic.per_size import PerSize
from workeven.arithmetic.printing import decimal, print_cm, print_in
from workeven.arithmetic.units import CM
from workeven.grading import GradedPattern
from workeven.pattern import Measurement, Pattern
from workeven.pattern.bodies import Ease, ease_name
from workeven.pattern.eases import FITTED
from workeven.pattern.uses import counts_worked
from workeven.problems import Problem
from workeven.problems.words import joined, quote
from workeven.records import record

#: One centimetre more of body, to see what becomes of a formula.
_MORE = CM
#: How far (mm) an ease may lie outside its fit where no tolerance is stated.
_TOLERANCE = Fraction(10)


@record
class EaseLeft:
    """The ease at a measurement of the body, in each size (mm; less than 0: smaller than it).

    ``finished`` is the measurement it is found in, ``times`` how often that goes around.
    """

    body: str
    finished: str
    times: int
    values: PerSize[Fraction]


def held_widths(graded: GradedPattern) -> dict[str, PerSize[Fraction]]:
    """What each counted measurement comes to: by the first count that rows are worked with.

    A count that no row names proves nothing, so its measurement is not given out as finished.
    """
    worked = counts_worked(graded.pattern)
    found: dict[str, PerSize[Fraction]] = {}
    for name, count in graded.counts.items():
        if name in worked and count.measurement is not None and count.measures is not None:
            found.setdefault(count.measurement, count.measures)
    return found


def eases_left(
    graded: GradedPattern, finished: Mapping[str, PerSize[Fraction]]
) -> tuple[EaseLeft, ...]:
    """The ease at each girth of the body, and wherever the file wants one."""
    pattern = graded.pattern
    wanted = {ease.body for ease in pattern.body.ease}
    found: list[EaseLeft] = []
    for body, fits in pattern.to_fit:
        if body not in wanted and not standards.is_girth(body):
            continue
        for one in pattern.measurements:
            made = finished.get(one.name)
            times = None if made is None else _times(graded, body, one)
            if made is None or times is None:
                continue
            left = (mm * times - of for mm, of in zip(made, fits, strict=True))
            values = pattern.sizes.each(tuple(left))
            found.append(EaseLeft(body=body, finished=one.name, times=times, values=values))
    return tuple(found)


def _times(graded: GradedPattern, body: str, measurement: Measurement) -> int | None:
    """How often the measurement goes around the body: once, twice; None if it is not made of it."""
    name = body.replace(" ", "_")
    if name not in used_by(graded.pattern, measurement.name):
        return None
    sizes = range(len(graded.pattern.sizes))
    grows = {_Growths(graded, name, at).of(measurement.name) for at in sizes}
    if grows == {_MORE}:
        return 1
    return 2 if grows == {_MORE / 2} else None


def used_by(pattern: Pattern, measurement: str) -> frozenset[str]:
    """The names that a measurement is made of in some size, and what those are made of."""
    formulas = {one.name: one.formula for one in pattern.measurements}
    used: set[str] = set()
    ahead = [measurement]
    while ahead:
        for formula in formulas.get(ahead.pop(), ()):
            ahead.extend(formula.names - used)
            used |= formula.names
    return frozenset(used)


class _Growths:
    """What a centimetre more of body makes of measurements, in one size."""

    def __init__(self, graded: GradedPattern, body: str, at: int) -> None:
        self._body, self._at = body, at
        self._formulas = {one.name: one.formula for one in graded.pattern.measurements}
        lengths = {one.replace(" ", "_"): each for one, each in graded.measurements.items()}
        lengths |= {ease_name(ease.body): ease.values for ease in graded.pattern.body.ease}
        self._lengths = {one: each[at] for one, each in lengths.items()}

    def of(self, measurement: str) -> Fraction | None:
        """Its growth; None where it is not made of the body, or of more than its girth."""
        formula = self._formulas[measurement][self._at]
        if self._body in formula.names:
            return self._changed(formula, self._body, self._lengths[self._body] + _MORE)
        (other, *others) = (*sorted(formula.names & self._formulas.keys()), "")
        if not other or any(others):
            return None
        # By another name: half of a girth is that of a half; a girth less a neck is no girth.
        length = self._lengths[other]
        here = self._changed(formula, other, 2 * length)
        there = self.of(other)
        if here is None or there is None or here != formula.length(self._lengths):
            return None
        return there * here / length

    def _changed(self, formula: Formula, name: str, length: Fraction) -> Fraction | None:
        """What becomes of a formula where one of its lengths is another."""
        try:
            return formula.length({**self._lengths, name: length}) - formula.length(self._lengths)
        except FormulaFault:
            return None


# --- what can be wrong ---------------------------------------------------------------------


def fit_problems(
    pattern: Pattern, left: tuple[EaseLeft, ...], finished: Mapping[str, PerSize[Fraction]]
) -> Iterator[Problem]:
    """A fit is claimed and another is graded; or nothing shows which it is."""
    fitted = next((name for name, _ in pattern.to_fit if name in FITTED), None)
    held = {one.body for one in left}
    if pattern.body.fit is not None and pattern.body.fit_span is not None:
        if fitted is None or fitted not in held:
            yield _unheld_fit(pattern, fitted, finished)
        else:
            yield from _other(pattern, _fitted_ease(pattern, fitted, left))
    for ease in pattern.body.ease:
        if ease.body not in held and ease.from_fit is None:
            yield _unheld_ease(pattern, ease, finished)


def _unheld_ease(
    pattern: Pattern, ease: Ease, finished: Mapping[str, PerSize[Fraction]]
) -> Problem:
    name = ease_name(ease.body)
    among = _made_of(pattern, name, finished)
    girth = f"`{ease.body.replace(' ', '_')} + {name}`"
    return Problem(
        code="fit-unheld",
        span=ease.span,
        found=f"Ease is wanted at {quote(ease.body)}, and no finished measurement "
        + (_not_alone(among) if among else "has it."),
        expected=_girth(girth)
        if among
        else f"A measurement such as {girth} that stitches are counted over.",
        mend="Count stitches over such a measurement, or allow this advice with a reason."
        if among
        else "Use it in the measurement it is meant for, or delete it.",
    )


def _unheld_fit(
    pattern: Pattern, fitted: str | None, finished: Mapping[str, PerSize[Fraction]]
) -> Problem:
    assert pattern.body.fit_span is not None
    due = fitted or "bust or chest"
    among = _made_of(pattern, fitted, finished) if fitted else []
    girth = f"`{fitted} + {ease_name(due)}`"
    expected = f"A measurement such as {girth} that stitches are counted over."
    if fitted is None:
        expected = "The published scale of fits speaks of the ease at bust or chest."
    return Problem(
        code="fit-unheld",
        span=pattern.body.fit_span,
        found="A fit is claimed, and no finished measurement "
        + (_not_alone(among) if among else f"is made from the {due}."),
        expected=_girth(girth) if among else expected,
        mend="Make one, or take the fit out.",
    )


def _made_of(pattern: Pattern, name: str, finished: Mapping[str, PerSize[Fraction]]) -> list[str]:
    """The finished measurements that something is in, by way of others too."""
    return [one for one in finished if name in used_by(pattern, one)]


def _not_alone(among: list[str]) -> str:
    """Why an ease is not told where measurements have it: they are parts, or have more in them."""
    are = "is" if len(among) == 1 else "are"
    return f"shows it: {joined(map(quote, among))} {are} neither a girth with its ease nor half."


def _girth(girth: str) -> str:
    return f"A measurement that goes around, such as {girth}, or half of it."


def _fitted_ease(pattern: Pattern, fitted: str, left: tuple[EaseLeft, ...]) -> EaseLeft:
    """The ease that the fit is held against: where a formula uses the ease by name, that one's."""
    here = [one for one in left if one.body == fitted]
    named = (one for one in here if ease_name(fitted) in used_by(pattern, one.finished))
    return next(named, here[0])


def _other(pattern: Pattern, left: EaseLeft) -> Iterator[Problem]:
    fit, span = pattern.body.fit, pattern.body.fit_span
    assert fit is not None
    assert span is not None
    tolerance = next(
        (one for one in (pattern.tolerance, pattern.studio.tolerance) if one is not None),
        _TOLERANCE,
    )
    names, body = pattern.sizes.names, dict(pattern.to_fit)[left.body]
    eases = {name: _eases(name, tolerance) for name in set(fit)}
    off = [at for at, ease in enumerate(left.values) if not _between(ease, *eases[fit[at]])]
    if not off:
        return
    lines = [
        f"{names[at]}: body {_both(body[at])}, finished {_both(body[at] + left.values[at])}, "
        f"{ease_words(left.values[at])}{_which(left.values[at])}."
        for at in off
    ]
    claimed = dict.fromkeys(fit[at] for at in off)
    scale = [f"{quote(name)} leaves {_range(name)} at the {left.body}." for name in claimed]
    yield Problem(
        code="fit-other",
        span=span,
        found=f"{joined(map(quote, claimed))} is claimed, and {joined(names[at] for at in off)} "
        f"{'are' if len(off) > 1 else 'is'} graded to another fit.",
        expected="\n".join((*lines, *scale)),
        mend="Change the ease or the counts, or say the fit that it is; a fit may be listed by "
        "size.",
        sizes=tuple(names[at] for at in off),
        good_sizes=tuple(name for at, name in enumerate(names) if at not in off),
        figures=(
            ("body_cm", tuple(decimal(body[at] / CM) for at in off)),
            ("finished_cm", tuple(decimal((body[at] + left.values[at]) / CM) for at in off)),
            ("ease_cm", tuple(decimal(left.values[at] / CM) for at in off)),
        ),
    )


def _eases(name: str, tolerance: Fraction) -> tuple[Fraction, Fraction | None]:
    """The least and the most ease of a fit, None where it has no most, by so much wider."""
    fit = standards.fit(name)
    high = fit.high()
    return fit.low() - tolerance, None if high is None else high + tolerance


def _between(ease: Fraction, low: Fraction, high: Fraction | None) -> bool:
    return low <= ease and (high is None or ease <= high)


def _which(ease: Fraction) -> str:
    """The fits of the scale that have this ease."""
    names = [name for name in standards.FIT_NAMES if _between(ease, *_eases(name, Fraction(0)))]
    return f", which is {joined(names, 'or')}" if names else ", which lies between two fits"


def _range(name: str) -> str:
    fit = standards.fit(name)
    low, high = fit.low(), fit.high()
    if high is None:
        return f"{_both(low)} or more"
    return f"{_both(low)} to {_both(high)}" if low != high else "no ease"


def ease_words(mm: Fraction) -> str:
    """An ease in words, by its print in centimetres.

    >>> ease_words(Fraction(85)), ease_words(Fraction(-20)), ease_words(Fraction(1))
    ('8.5 cm positive ease', '2 cm negative ease', 'no ease')
    """
    figure = print_cm(abs(mm))
    if figure == "0 cm":
        return "no ease"
    return f"{figure} {'positive' if mm > 0 else 'negative'} ease"


def _both(mm: Fraction) -> str:
    return f"{print_cm(mm)} ({print_in(mm)})"
