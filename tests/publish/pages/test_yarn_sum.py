"""The sum on the page can be followed by hand, from the figures that are printed there."""

from __future__ import annotations

import re
from fractions import Fraction
from pathlib import Path

import pytest

from tests.support.as_read import as_read
from workeven import pipeline, source
from workeven.pattern import NO_STUDIO
from workeven.pipeline import ReadyPattern
from workeven.publish.pages import pattern_page, render, schematics, yarn_sum
from workeven.publish.pages.choices import plain
from workeven.publish.pages.pattern_page import Neighbours
from workeven.publish.pages.views import Link
from workeven.publish.pages.worked_into import told
from workeven.publish.pages.yarn_sum import Computed

NOWHERE = Neighbours(before=None, after=None, collection=Link(words="All", url="../"))
PATTERNS = Path(__file__).parents[3] / "patterns"
#: what rounding each figure to a tenth of a gram may add up to
NEAR = Fraction(1, 4)


def ready(slug: str) -> ReadyPattern:
    """A pattern of the demo collection."""
    checked = pipeline.check(source.collect([str(PATTERNS / slug / "pattern.yaml")]))
    found = checked.outcomes[0].ready
    assert found is not None
    return found


def figure(text: str) -> Fraction:
    """The number at the head of a printed figure."""
    return Fraction(re.match(r"[\d,]+(?:\.\d+)?", text)[0].replace(",", ""))  # type: ignore[index]


def rates(view: Computed) -> dict[str, Fraction]:
    """What one stitch takes, as the list above the table says."""
    found = {}
    for line in view.each:
        if told := re.fullmatch(r"1 (.+?): ([\d.]+) g, by .*", line):
            found[told[1]] = Fraction(told[2])
    return found


SLUGS = sorted(path.name for path in PATTERNS.iterdir() if path.is_dir())


@pytest.mark.parametrize("slug", SLUGS)
def test_the_printed_sum_comes_to_the_printed_amount(slug: str) -> None:
    """In every size: stitches by what one takes, strands, scale, margin, metres, balls."""
    (view,) = yarn_sum.computed(ready(slug))
    each, heads = rates(view), view.table.heads
    scale = next((figure(one.partition("times ")[2]) for one in view.rest if "times" in one), 1)
    margin = next(figure(one.partition(": ")[2]) for one in view.rest if "margin" in one)
    ball, metres = re.findall(r"([\d.]+) (?:g|m)\b", next(o for o in view.rest if "ball:" in o))
    for _, cells in view.table.rows:
        by_head = dict(zip(heads[1:], cells, strict=True))
        total = Fraction(0)
        for head, cell in by_head.items():
            name = "chain or slip stitch" if head.startswith("Chains") else head
            if name in each:
                assert abs(figure(cell[0]) * each[name] - figure(cell[1])) < NEAR, head
                total += figure(cell[0]) * each[name]
            elif head.startswith("Seams"):
                assert abs(figure(cell[0]) * each["m of yarn"] - figure(cell[1])) < NEAR
                total += figure(cell[1])
        assert abs(total - figure(by_head["Sum"][0])) < NEAR
        amount = total * scale * (1 + margin / 100)
        assert abs(amount - figure(by_head["With the margin"][0])) < 2 * NEAR
        length = amount * Fraction(metres) / Fraction(ball)
        assert abs(length - figure(by_head["Length"][0])) < 2
        assert -(-figure(by_head["With the margin"][0]) // Fraction(ball)) == figure(
            by_head["Balls"][0]
        )


def strands(view: Computed, at: int) -> Fraction:
    """The metres of all seams and ends of a size, from how many there are and how long each is."""
    found = Fraction(0)
    for line in map(plain, view.each):
        if told := re.search(r": (\S+(?: \([^)]*\))?) of (\S+(?: \([^)]*\))?) cm", line):
            number, each = (re.findall(r"[\d.]+", one) for one in told.groups())
            found += Fraction(number[at % len(number)]) * Fraction(each[at % len(each)]) / 100
    return found


@pytest.mark.parametrize("slug", SLUGS)
def test_seams_and_ends_come_to_their_metres_in_the_sum(slug: str) -> None:
    """So many times so long, added up by hand, in every size."""
    (view,) = yarn_sum.computed(ready(slug))
    column = next(at for at, head in enumerate(view.table.heads) if head.startswith("Seams")) - 1
    for at, (_, cells) in enumerate(view.table.rows):
        assert abs(strands(view, at) - figure(cells[column][0])) < Fraction(1, 10)


UK = """\
title: Sand Mat
summary: A mat in UK double crochet.
audience: adult
use: [home]
terms: uk
gauge:
  ground: {sts: 16, rows: 18, over: 10 cm, of: dc}
yarn:
  main: {weight: light, fibre: 100% cotton, put_up: {length: 85 m, mass: 50 g}}
swatches:
  - of: main
    mass: 20.0 g
    rows: |
      ch 25
      dc in 2nd ch from hook and in each ch across, turn
      ch 1, dc in each st across, turn
      rep last row 25 more times
  - of: main
    mass: 21.0 g
    rows: |
      ch 25
      dc in 2nd ch from hook and in each ch across, turn
      ch 1, dc in each st across, turn
      rep last row 25 more times
pieces:
  mat:
    worked: flat rows
    gauge: ground
    sections:
      - title: Mat
        rows: |
          ch 21
          dc in 2nd ch from hook and in each ch across, turn
          ch 2 (counts as htr), htr in each st across, turn
"""


def test_a_pattern_in_uk_terms_has_its_sum_in_them() -> None:
    """What is called dc there is sc here: the sum of another stitch would be followed."""
    read = source.read("patterns/mat/pattern.yaml", UK.encode()).value
    assert read is not None
    found = pipeline.run(read, NO_STUDIO).ready
    assert found is not None
    (view,) = yarn_sum.computed(found)
    assert view.table.heads[:4] == ("Size", "Chains and slip stitches", "dc", "htr")
    said = " ".join((view.method, *view.each, *view.rest))
    assert "648 dc and 51 chains" in view.method
    assert "dc, htr and tr as 1 : 1.48 : 1.92" in view.method
    assert [] == re.findall(r"\b(?:sc|hdc)\b", said)
    assert "Swatch of 648 dc and 51 chains: 20 g weighed" in said


def test_strands_that_are_alike_are_told_together() -> None:
    """The shoulders, the sleeves, the sides, and all ends of the cardigan; where from, once."""
    (view,) = yarn_sum.computed(ready("wrackline-cardigan"))
    shoulders, sleeves, sides, ends = map(plain, view.each[3:])
    assert shoulders.startswith("Left shoulder and Right shoulder: 2 of 73 (79, ")
    assert shoulders.endswith(
        " cm, 3 times the seam and a tail of 15 cm at each end (common practice)"
    )
    assert ["Left sleeve and Right sleeve", "Left side and Right side"] == [
        one.partition(":")[0] for one in (sleeves, sides)
    ]
    assert sides.endswith(") cm")
    assert ends == (
        "Ends (Back, Left front, Right front, Sleeve): 12 of 15 cm, woven in (common practice)"
    )


def test_samples_stand_beside_what_is_computed_for_their_size() -> None:
    """Who may be named is named, and who may not is not."""
    (view,) = yarn_sum.computed(ready("groynemark-tee"))
    wren, oda, unnamed = as_read(view.samples)
    assert wren == (
        "Sample in S by Wren Tidepool (an invented tester): 391\u00a0g beside a sum of "
        "382.5\u00a0g; 0.8 % more than computed by all samples."
    )
    assert oda.startswith("Sample in L by Oda Sandling (an invented tester): 466\u00a0g beside ")
    assert oda.endswith("470.5\u00a0g; 2.3 % less than computed by all samples.")
    assert unnamed.startswith("Sample in 2X: 597\u00a0g beside a sum of 580.7\u00a0g; 1.4 % more")


def test_a_sample_alone_stands_beside_the_sum_that_it_scales() -> None:
    """Beside the scaled amount it says nothing: it is that."""
    (view,) = yarn_sum.computed(ready("sandhopper-mitts"))
    assert (
        "Sample in M by Bram Saltway (an invented tester): 40\u00a0g beside a sum of 39.4\u00a0g.",
    ) == as_read(view.samples)


def test_the_pieces_come_to_the_stitches_of_the_whole() -> None:
    """Back, two halves of the front and two sleeves."""
    tee = ready("groynemark-tee")
    need = tee.yarn.needs[0]
    stitches = [line.mass[0] for line in need.lines if line.sort == "stitches"]
    assert sum(stitches) == sum(piece.mass[0] for piece in need.pieces)
    (view,) = yarn_sum.computed(tee)
    assert view.pieces is not None
    assert ("Size", "Back", "Half front", "Sleeve") == view.pieces.heads


TWO_MATS = """\
title: Two Mats
summary: One in single crochet, and one in posts.
audience: adult
use: [home]
sizes:
  names: S (M)
gauge:
  ground: {sts: 16, rows: 18, over: 10 cm, of: sc}
yarn:
  main: {weight: light, fibre: 100% cotton, put_up: {length: 100 m, mass: 50 g}}
swatches:
  - of: main
    mass: 20.0 g
    rows: |
      fsc 20, turn
      ch 1, sc in each st across, turn
      rep last row 18 more times
measurements:
  width: 18.75 (25) cm
counts:
  mat_sts: {across: width, gauge: ground}
pieces:
  large:
    make: 2
    worked: flat rows
    gauge: ground
    sections:
      - title: Mat
        rows: |
          fsc {mat_sts}, turn
          ch 1, sc in each st across, turn
          rep last row 18 more times
  small:
    worked: flat rows
    gauge: ground
    sections:
      - title: Mat
        rows: |
          fsc {mat_sts}, turn
          ch 1, fpsc in each st across, turn
"""


def test_pieces_that_are_told_have_an_amount_where_one_piece_has_none() -> None:
    """Two mats of 30 × 20 sc and 49 chains by 400 sc and 39 chains of 20 g, and the margin."""
    read = source.read("pattern.yaml", TWO_MATS.encode()).value
    assert read is not None
    outcome = pipeline.run(read, NO_STUDIO)
    assert ["yarn-unknown-stitch"] == [problem.code for problem in outcome.problems]
    assert outcome.ready is not None
    assert () == yarn_sum.computed(outcome.ready)
    (view,) = yarn_sum.partly(outcome.ready)
    assert view.words == (
        "Main yarn: the amount of Small is not known (no swatch of it shows fpsc), and so there is "
        "none in all. The stitches of the other pieces take, with 10 % to spare:"
    )
    chain = Fraction(48, 106)
    mass = 2 * (600 + 49 * chain) / (400 + 39 * chain) * 20 * Fraction(11, 10)
    assert ("Size", "Large") == view.table.heads
    assert yarn_sum.grams(mass) == view.table.rows[0][1][0][0]
    shown = pattern_page.pattern_view(
        outcome.ready, schematics.draw(outcome.ready), told(outcome.ready), NOWHERE
    )
    assert "the amount of Small is not known" in render.pattern_html(shown, ())
