"""Finished samples beside the estimate: they set its scale, or contradict it.

Takes     ``ProvenPattern``, the sum of one yarn without margin.
Gives     ``calibration``; ``as_weighed``: samples in the place of swatches; ``sample_problems``.
Problems  ``sample-differs``, ``sample-contradicts``, ``sample-gauge``, ``sample-measure``.
From      design.md, "Numbers a maker can trust"; the rule for the scale is our own.

The sum of a yarn is scaled so that it comes to what all samples took together: two samples of 412 g
and 505 g beside sums of 400 g and 500 g make 917 / 900 of it, 1.9 % more. The worst of them is then
1.1 % off. A sample whose gauge or finished measures are not those of the pattern is another thing;
it is told, and left out. Where a yarn has no swatch, samples are taken as swatches are: what was
worked in them is known.

Against the sum without its scale, a sample that is off by more than the margin is advice, since the
margin would not have been enough; by more than twice the margin one of the two is wrong.
"""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction

from workeven.arithmetic.per_size import PerSize
from workeven.arithmetic.printing import decimal, print_cm, print_in, print_number
from workeven.arithmetic.units import TEN_CM
from workeven.pattern import FinishedSample, Pattern, Yarn
from workeven.problems import Note, Problem, Span
from workeven.problems.words import quote
from workeven.proof import ProvenPattern
from workeven.yarn.amount import strands_mass
from workeven.yarn.needs import Calibration, Compared, YarnNeed
from workeven.yarn.rates import Weighed
from workeven.yarn.tally import Tally

#: A gauge or a measure that is off by more is another one: half a stitch of ten in 10 cm.
_OFF = Fraction(1, 20)
_LEAST_OFF = Fraction(10)
#: What a colour took is weighed before and after, each to half a gram: nothing less is told.
_LEAST_GRAMS = Fraction(1)


def as_weighed(proven: ProvenPattern, tally: Tally) -> list[Weighed]:
    """The samples of a yarn that has no swatch: their stitches, less the strands that are none."""
    strands = strands_mass(tally, proven.graded.pattern.sizes)
    return [
        Weighed(mass=used[0] - strands[sample.size], stitches=tally.stitches[sample.size])
        for sample in proven.graded.pattern.samples
        if (used := sample.of(tally.yarn.name)) and not left_out(proven, sample)
    ]


def calibration(
    proven: ProvenPattern, yarn: Yarn, bare: PerSize[Fraction], *, fitted: bool
) -> Calibration | None:
    """What the samples of a yarn say of its sum; ``fitted``: the sum was found from them."""
    pairs = [
        (sample, used[0], bare[sample.size])
        for sample in proven.graded.pattern.samples
        if (used := sample.of(yarn.name)) and bare[sample.size] > 0
    ]
    if not pairs:
        return None
    why = [left_out(proven, sample) for sample, _, _ in pairs]
    counted = [pair for pair, out in zip(pairs, why, strict=True) if not out]
    scale = Fraction(1)
    if counted and not fitted:
        scale = sum((used for _, used, _ in counted), Fraction(0)) / sum(
            (estimated for _, _, estimated in counted), Fraction(0)
        )
    compared = tuple(
        Compared(
            sample=sample,
            used=used,
            estimated=estimated,
            off=used / (estimated * scale) - 1 if scale else Fraction(0),
            left_out=out,
        )
        for (sample, used, estimated), out in zip(pairs, why, strict=True)
    )
    worst = max((abs(one.off) for one in compared if not one.left_out), default=Fraction(0))
    return Calibration(samples=compared, scale=scale, worst=worst, fitted=fitted)


def left_out(proven: ProvenPattern, sample: FinishedSample) -> str:
    """Why a sample sets no scale, in words; "" where it does."""
    if any(_gauges_off(proven.graded.pattern, sample)):
        return "it came out at another gauge"
    if any(_measures_off(proven, sample)):
        return "it came out at another size"
    return ""


# --- what is told --------------------------------------------------------------------------


def sample_problems(proven: ProvenPattern) -> Iterator[Problem]:
    """Samples of another gauge, or of other measures than the size that they are of."""
    pattern = proven.graded.pattern
    for sample in pattern.samples:
        size = _in_size(pattern, sample)
        for name, got, due, span in _gauges_off(pattern, sample):
            yield Problem(
                code="sample-gauge",
                span=span,
                found=f"The sample{size} came out at {got} to 10 cm in {quote(name)}, and the "
                f"pattern at {due}.",
                expected="What it took says little of the pattern's own gauge: it is left out of "
                "the amounts.",
                mend="Count the sample's gauge again. If it is right, keep the sample for your "
                "notes.",
            )
        for name, got_mm, due_mm, span in _measures_off(proven, sample):
            yield Problem(
                code="sample-measure",
                span=span,
                found=f"The sample{size} measures {_both(got_mm)} at {quote(name)}, and the "
                f"pattern {_both(due_mm)}.",
                expected="What it took is that of another size: it is left out of the amounts.",
                mend="Measure it again. If it is right, look whether its gauge is.",
            )


def contradictions(pattern: Pattern, need: YarnNeed) -> Iterator[Problem]:
    """Samples that took more or less than the sum by more than the margin, or twice as much.

    Where a sample agrees with the whole, what it took of each colour is held against it too.
    """
    for one in () if need.samples is None else need.samples.counted:
        used = one.sample.of(need.yarn.name)
        assert used is not None
        found = tuple(_off(pattern, need, one.sample, (None, *used, one.estimated)))
        yield from found or _colours_off(pattern, need, one.sample)


def _colours_off(pattern: Pattern, need: YarnNeed, sample: FinishedSample) -> Iterator[Problem]:
    assert need.samples is not None
    added = (1 + need.margin) * need.samples.scale
    estimated = {one.colour: one.mass[sample.size] / added for one in need.colours}
    for colour, took in sample.colours(need.yarn.name):
        if colour in estimated:
            compared = (colour, took.mass, took.span, estimated[colour])
            if abs(took.mass - estimated[colour]) > _LEAST_GRAMS:
                yield from _off(pattern, need, sample, compared)


def _off(
    pattern: Pattern,
    need: YarnNeed,
    sample: FinishedSample,
    compared: tuple[str | None, Fraction, Span, Fraction],
) -> Iterator[Problem]:
    colour, used, span, estimated = compared
    off = used / estimated - 1 if estimated else Fraction(1)
    if abs(off) <= need.margin:
        return
    beyond = abs(off) > 2 * need.margin
    of = quote(need.yarn.name) if colour is None else f"the colour {quote(colour)}"
    yield Problem(
        code="sample-contradicts" if beyond else "sample-differs",
        span=span,
        found=f"The sample{_in_size(pattern, sample)} took {_grams(used)} of {of}: "
        f"{decimal(abs(off) * 100, 1)} % {'more' if off > 0 else 'less'} than the "
        f"{_grams(estimated)} that are computed.",
        expected=f"Within the margin of {decimal(need.margin * 100, 1)} %."
        if not beyond
        else f"Within twice the margin of {decimal(need.margin * 100, 1)} %: else one of the two "
        "cannot be right.",
        mend="Weigh the swatch again (0.1 g matters here) and what is left of the sample's "
        "last ball; look whether the sample is of this size and was worked from these rows."
        if colour is None
        else "Weigh what is left of each colour; look whether the sample has its colours in the "
        "rows that name them.",
        notes=(Note(span=need.yarn.span, message=f"{quote(need.yarn.name)} is given here."),),
        figures=(("used_g", (decimal(used, 1),)), ("computed_g", (decimal(estimated, 1),))),
    )


def _gauges_off(pattern: Pattern, sample: FinishedSample) -> Iterator[tuple[str, str, str, Span]]:
    """Gauges of a sample that are others than the pattern's, in words."""
    by_name = {gauge.name: gauge for gauge in pattern.gauges}
    for got in sample.gauges:
        gauge = by_name[got.gauge]
        if got.sts <= 0 or got.over <= 0 or gauge.least() <= 0:
            continue
        pairs = [("sts", got.over / got.sts, gauge.stitch_width())]
        height = gauge.row_height()
        if got.rows is not None and got.rows > 0 and height is not None:
            pairs.append(("rows", got.over / got.rows, height))
        for word, mine, due in pairs:
            if abs(mine / due - 1) > _OFF:
                yield (
                    got.gauge,
                    f"{_figure(TEN_CM / mine)} {word}",
                    _figure(TEN_CM / due),
                    got.span,
                )


def _measures_off(
    proven: ProvenPattern, sample: FinishedSample
) -> Iterator[tuple[str, Fraction, Fraction, Span]]:
    """Measures of a sample that are others than the finished ones of its size (mm)."""
    for name, measured, span in sample.measures:
        finished = proven.finished.get(name)
        if finished is None:
            continue
        due = finished[sample.size]
        if abs(measured - due) > max(due * _OFF, _LEAST_OFF):
            yield name, measured, due, span


def _in_size(pattern: Pattern, sample: FinishedSample) -> str:
    names = pattern.sizes.names
    return f" in {names[sample.size]}" if len(names) > 1 else ""


def _grams(mass: Fraction) -> str:
    return f"{decimal(mass, 1)} g"


def _figure(number: Fraction) -> str:
    return print_number(Fraction(decimal(number, 1)))


def _both(mm: Fraction) -> str:
    return f"{print_cm(mm)} ({print_in(mm)})"
