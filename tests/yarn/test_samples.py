"""Finished samples: they set the scale, stand in for swatches, and contradict."""

from __future__ import annotations

from fractions import Fraction

import pytest

from workeven import pipeline, source
from workeven.pattern import NO_STUDIO
from workeven.pipeline import Outcome
from workeven.yarn import YarnNeed

MAT = """\
title: Sand Mat
summary: A mat in single crochet.
audience: adult
use: [home]
sizes:
  names: S (M, L)
gauge:
  ground: {sts: 16, rows: 18, over: 10 cm, of: sc}
yarn:
  main: {weight: light, fibre: 100% cotton, put_up: {length: 100 m, mass: 50 g}}
tail: 0 cm
measurements:
  width: 18.75 (25, 31.25) cm
counts:
  mat_sts: {across: width, gauge: ground}
pieces:
  mat:
    worked: flat rows
    gauge: ground
    sections:
      - title: Mat
        rows: |
          fsc {mat_sts}, turn
          ch 1, sc in each st across, turn
          rep last row 18 more times
"""
SWATCH = """\
swatches:
  - of: main
    mass: 20.0 g
    rows: |
      fsc 20, turn
      ch 1, sc in each st across, turn
      rep last row 18 more times
"""
#: what 20 rows of 30 sc weigh by the swatch, chains by the published 4.8 to 10.6 of one sc:
#: (600 + 49 * 4.8 / 10.6) / (400 + 39 * 4.8 / 10.6) of 20 g
CHAIN = Fraction(48, 106)
S = (600 + 49 * CHAIN) / (400 + 39 * CHAIN) * 20


def checked(samples: str = "", swatch: str = SWATCH) -> Outcome:
    """The mat with these samples."""
    read = source.read("pattern.yaml", (MAT + swatch + samples).encode()).value
    assert read is not None
    return pipeline.run(read, NO_STUDIO)


def need(samples: str = "", swatch: str = SWATCH) -> YarnNeed:
    """The amount of its yarn."""
    outcome = checked(samples, swatch)
    assert outcome.ready is not None, outcome.problems
    return outcome.ready.yarn.needs[0]


def codes(outcome: Outcome) -> list[str]:
    """What was told."""
    return [problem.code for problem in outcome.problems]


def test_the_sum_is_that_of_the_swatch() -> None:
    """By hand: 20 × 20 and 20 × 30 stitches, with the chains of the foundation and of turning."""
    assert S == need().bare[0]


def test_samples_set_the_scale_of_all_sizes() -> None:
    """Two of them a tenth and a twentieth above: all they took by all that is computed."""
    one, other = S * Fraction(11, 10), need().bare[1] * Fraction(105, 100)
    samples = (
        f"samples:\n  - {{size: S, used: {{main: {float(one):.3f} g}}}}\n"
        f"  - {{size: M, used: {{main: {float(other):.3f} g}}}}\n"
    )
    found = need(samples)
    assert found.samples is not None
    before = need().bare
    scale = (round_to(one) + round_to(other)) / (before[0] + before[1])
    assert scale == found.samples.scale
    assert [grams * scale for grams in before] == list(found.bare)
    off = [
        abs(round_to(one) / (before[0] * scale) - 1),
        abs(round_to(other) / (before[1] * scale) - 1),
    ]
    assert max(off) == found.samples.worst
    assert "set by 2 finished samples, worst difference 2.7 %" in found.method


def round_to(mass: Fraction) -> Fraction:
    """As it is written above."""
    return Fraction(f"{float(mass):.3f}")


def test_a_sample_may_stand_in_for_a_swatch() -> None:
    """Its stitches are known, and its mass: the other sizes follow."""
    found = need("samples:\n  - {size: M, used: {main: 44 g}}\n", swatch="")
    assert 44 == found.bare[1]
    chains = [29 + 20, 39 + 20, 49 + 20]
    parts = [sts * 20 + number * CHAIN for sts, number in zip((30, 40, 50), chains, strict=True)]
    assert 44 * parts[0] / parts[1] == found.bare[0]
    assert found.method.startswith(
        "Computed from all stitches of the rows; from 1 finished sample, worst difference 0 %"
    )


@pytest.mark.parametrize(
    ("used", "grams"),
    [("31.5 g", "31.5"), ("63 m", "31.5"), ("0.63 balls", "31.5"), ("1 oz", None)],
)
def test_what_a_sample_took_is_a_mass_a_length_or_balls(used: str, grams: str | None) -> None:
    """By the put-up: 100 m and one ball are 50 g."""
    found = need(f"samples:\n  - {{size: S, used: {{main: {used}}}}}\n")
    assert found.samples is not None
    expected = Fraction(grams) if grams else Fraction("28.349523125")
    assert expected == found.samples.samples[0].used


@pytest.mark.parametrize(
    ("part", "code"),
    [("1.09", None), ("1.11", "sample-differs"), ("1.19", "sample-differs"),
     ("1.21", "sample-contradicts"), ("0.91", None), ("0.89", "sample-differs"),
     ("0.79", "sample-contradicts")],
)  # fmt: skip
def test_beyond_the_margin_is_advice_and_beyond_twice_the_margin_an_error(
    part: str, code: str | None
) -> None:
    """The margin is 10 %."""
    grams = float(S * Fraction(part))
    found = checked(f"samples:\n  - {{size: S, used: {{main: {grams:.4f} g}}}}\n")
    assert ([] if code is None else [code]) == codes(found)
    assert (found.ready is None) == (code == "sample-contradicts")


def test_a_sample_at_another_gauge_sets_no_scale() -> None:
    """It is told, and the page says that it is left out."""
    samples = "samples:\n  - {size: S, used: {main: 45 g}, gauge: {ground: {sts: 18}}}\n"
    assert ["sample-gauge"] == codes(checked(samples))
    found = need(samples)
    assert found.samples is not None
    assert found.samples.scale == 1
    assert found.samples.counted == ()


@pytest.mark.parametrize(
    ("samples", "code"),
    [
        ("  - {size: XL, used: {main: 30 g}}", "size-unknown"),
        ("  - {used: {main: 30 g}}", "file-key-missing"),
        ("  - {size: S, used: {edge: 30 g}}", "name-unknown"),
        ("  - {size: S, used: {main: 30}}", "unit-mass"),
        ("  - {size: S, used: {main: 30 g}, gauge: {waves: {sts: 18}}}", "name-unknown"),
        ("  - {size: S, used: {main: 30 g}, measures: {depth: 18 cm}}", "name-unknown"),
        ("  - {size: S, used: {main: 30 g}, measures: {width: 18 g}}", "unit-length"),
        ("  - {size: S}", "file-key-missing"),
        ("  - {size: S, used: {main: 0 g}}", "yarn-zero"),
        ("  - {size: S, used: {main: -30 g}}", "unit-mass"),
        ("  - {size: S, used: {main: 30 cm 2}}", "unit-mass"),
        ("  - {size: S, used: {main: 30 g}, gauge: {ground: {sts: 0}}}", "gauge-zero"),
        ("  - {size: S, used: {main: 30 g}, gauge: {ground: {sts: 18, rows: 0}}}", "gauge-zero"),
    ],
)
def test_samples_that_say_what_is_not_there_are_told(samples: str, code: str) -> None:
    """At the value, with what would be right."""
    found = checked(f"samples:\n{samples}\n")
    assert [code] == codes(found)
    assert found.problems[0].mend


@pytest.mark.parametrize(
    ("mass", "code"),
    [("0 g", "yarn-zero"), ("-2 g", "yarn-zero"), ("20", "unit-mass"), ("20 cm", "unit-mass")],
)
def test_a_swatch_without_a_mass_above_nothing_is_told_at_its_mass(mass: str, code: str) -> None:
    """With how to get it."""
    (problem,) = checked(swatch=SWATCH.replace("20.0 g", mass)).problems
    assert code == problem.code
    assert (MAT + SWATCH).splitlines().index("    mass: 20.0 g") + 1 == problem.span.line
    assert problem.mend


def test_a_swatch_that_says_no_mass_is_told_to_be_weighed() -> None:
    """To a tenth of a gram."""
    (problem,) = checked(swatch=SWATCH.replace("    mass: 20.0 g\n", "")).problems
    assert "file-key-missing" == problem.code
    assert "0.1 g matters here" in problem.found


def test_two_swatches_are_solved_together() -> None:
    """The second alone would make it 0.0525 g a stitch: both together lie between, nearer to it."""
    twice = SWATCH + SWATCH.partition("\n")[2].replace("20.0 g", "84.0 g").replace(
        "fsc 20", "fsc 40"
    ).replace("18 more", "38 more")
    found = need(swatch=twice)
    first, second = 400 + 39 * CHAIN, 1600 + 79 * CHAIN
    each = (first * 20 + second * 84) / (first**2 + second**2)
    assert (600 + 49 * CHAIN) * each == found.bare[0]
    assert [Fraction(20), Fraction(84)] == [fit.weighed for fit in found.fit]
    assert [first * each, second * each] == [fit.computed for fit in found.fit]


#: ten rows of sc, and as many rows of tr as a size has
STRIPED = MAT.replace(
    "rep last row 18 more times",
    "rep last row 8 more times\n          ch 4 (counts as tr), sk first st, tr in each st across, "
    "turn\n          rep last row 9 more times",
)


def striped(samples: str, swatch: str) -> Outcome:
    """The mat in sc and tr."""
    read = source.read("pattern.yaml", (STRIPED + swatch + samples).encode()).value
    assert read is not None
    return pipeline.run(read, NO_STUDIO)


def test_a_sample_tells_the_stitch_that_the_swatch_leaves() -> None:
    """The sc by the swatch, and the tr by what is left of the sample's mass."""
    found = striped("samples:\n  - {size: M, used: {main: 80 g}}\n", SWATCH)
    assert [] == codes(found)
    assert found.ready is not None
    (amount,) = found.ready.yarn.needs
    lines = {line.title: line for line in amount.lines}
    assert Fraction(20) / (400 + 39 * CHAIN) == lines["sc"].each
    assert Fraction(80) == amount.bare[1]
    assert lines["tr"].basis == "by swatches and finished samples"
    assert "from 1 finished sample, worst difference 0 %" in amount.method


def test_sizes_of_one_garment_do_not_tell_two_stitches_apart() -> None:
    """They hold both in almost the same proportion: a gram more would be another stitch."""
    samples = "samples:\n" + "".join(
        f"  - {{size: {size}, used: {{main: {grams} g}}}}\n"
        for size, grams in (("S", 60), ("M", 80), ("L", 101))
    )
    found = striped(samples, "")
    assert ["yarn-unknown-stitch"] == codes(found)
    assert found.problems[0].mend == (
        "The finished samples show `sc` and `tr` only together: add a weighed swatch in `sc` alone."
    )


def test_swatches_that_hold_little_of_a_stitch_leave_it_open() -> None:
    """One tr among 390 sc, both swatches to 0.1 g: what it takes is what they are open by."""
    few = "sc in each of first 10 sts, tr in next st, sc in each st across, turn"
    mixed = SWATCH.partition("\n")[2].replace("20.0 g", "20.3 g").replace("18 more", "17 more")
    mixed = mixed.replace("fsc 20, turn", f"fsc 20, turn\n      ch 1, {few}")
    found = striped("", SWATCH + mixed)
    assert ["yarn-swatch-coarse"] == codes(found)
    assert "20.3 g, to 0.1 g" in found.problems[0].found


_FOAM = "With Foam, ch 1, sc in each st across, turn\n          rep last row 3 more"
COLOURED = (
    MAT.replace("mass: 50 g}}", "mass: 50 g}, colours: [Sand, Foam]}")
    .replace("fsc {mat_sts}, turn", "With Sand, fsc {mat_sts}, turn")
    .replace("rep last row 18 more", f"rep last row 14 more times\n          {_FOAM}")
)


def coloured(used: str) -> Outcome:
    """The mat in 16 rows of Sand and 4 of Foam."""
    samples = f"samples:\n  - {{size: S, used: {{main: {used}}}}}\n"
    read = source.read("pattern.yaml", (COLOURED + SWATCH + samples).encode()).value
    assert read is not None
    return pipeline.run(read, NO_STUDIO)


def test_colours_of_a_sample_are_what_it_took_in_all() -> None:
    """24 g and 5.9 g."""
    found = coloured("{Sand: 24 g, Foam: 5.9 g}")
    assert [] == codes(found)
    assert found.ready is not None
    (amount,) = found.ready.yarn.needs
    assert amount.samples is not None
    assert Fraction("29.9") == amount.samples.samples[0].used
    assert Fraction("29.9") == amount.bare[0]


@pytest.mark.parametrize(
    ("used", "code", "colour"),
    [
        ("{Sand: 23 g, Foam: 6.95 g}", "sample-differs", "Foam"),
        ("{Sand: 21 g, Foam: 8.5 g}", "sample-contradicts", "Foam"),
        ("{Sand: 12 g, Foam: 5.9 g}", "sample-contradicts", ""),
        ("{Sand: 24 g, Kelp: 5.9 g}", "name-unknown", "Kelp"),
        ("{Sand: 24 g, Foam: 0 g}", "yarn-zero", "Foam"),
        ("{Sand: 24 g, Foam: 5.9 cm 1}", "unit-mass", "5.9 cm 1"),
        ("[24 g, 6 g]", "file-shape", ""),
    ],
)
def test_a_colour_of_a_sample_is_held_against_its_own_amount(
    used: str, code: str, colour: str
) -> None:
    """The whole may be right, and its colours another order of stripes."""
    problem = coloured(used).problems[-1]
    assert code == problem.code
    assert colour in problem.found
