"""What a maker reckons on the page, held against the rules that the build reckons by."""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction
from pathlib import Path

import pytest
from playwright.sync_api import Browser, Page

from tests.browser.demo import Visit
from tests.browser.looking import SHIFTS, faults
from workeven import pipeline, source
from workeven.arithmetic.per_size import PerSize
from workeven.arithmetic.printing import decimal, print_cm, print_in, print_metres, print_yards
from workeven.arithmetic.units import CM, INCH, TEN_CM, YARD, M
from workeven.pattern import PutUp
from workeven.pipeline import ReadyPattern
from workeven.yarn.buying import balls
from workeven.yarn.longer import longer

PATTERNS = Path(__file__).parents[2] / "patterns"
SLUGS = sorted(path.parent.name for path in PATTERNS.glob("*/pattern.yaml"))
#: Sets fields of a part, tells the page once, and reads the cells of its table and what it says.
ASK = """([part, fields]) => {
  const box = document.querySelector(`[data-we-mine] ${part}`);
  for (const [name, value] of Object.entries(fields))
    box.querySelector(`[name=${name}]`).value = value;
  box.dispatchEvent(new Event("input", {bubbles: true}));
  return [[...box.querySelectorAll("tbody tr")].map(row =>
    [...row.cells].map(cell => [...cell.childNodes].map(one => one.textContent).join(" / ")
      .replaceAll("\\u00a0", " "))),
    box.querySelector("[role=status]")?.textContent];
}"""
#: The same for many askings at once, so that a grid costs one call.
ASK_ALL = f"asked => asked.map({ASK})"

#: The same of a part that says nothing beside its table.
ASK_ROWS = f"asked => asked.map({ASK}).map(([lines]) => lines)"

Told = tuple[list[list[str]], str]


@pytest.fixture(scope="module")
def ready() -> dict[str, ReadyPattern]:
    """The demo's patterns by the names of their folders."""
    verdict = pipeline.check(source.collect([str(PATTERNS)]))
    found = [one.ready for one in verdict.outcomes if one.ready is not None]
    return {one.pattern.slug: one for one in found}


def opened(visit: Visit, slug: str, query: str = "") -> Page:
    """A page of the demo with its calculator."""
    visit.page.goto(f"patterns/{slug}/index.html{query}", wait_until="load")
    visit.page.locator("[data-we-mine]:not([hidden])").wait_for(state="attached")
    return visit.page


def both(mm: Fraction) -> str:
    """As the page prints a length where no unit is chosen."""
    return f"{print_cm(mm)} / {print_in(mm)}"


def lengths(one: ReadyPattern) -> Iterator[tuple[str, Fraction]]:
    """Each line that the page has of balls: what it is of, and how much that is."""
    several = len(one.pattern.sizes) > 1
    for need in one.yarn.needs:
        for of in need.colours or (need,):
            for size, mm in of.length.items():
                yield size if several else "", mm


@pytest.mark.parametrize("slug", SLUGS)
def test_balls_are_those_of_the_build(
    visit: Visit, ready: dict[str, ReadyPattern], slug: str
) -> None:
    """The page and ``buying.balls`` agree for balls of 10 to 1,000 m and yd, whole and not."""
    puts = [
        (f"{figure}", unit, Fraction(figure) * one)
        for figure in ("10", "49.9", "50", "87.5", "112.55", "125", "160", "200", "366.37", "1000")
        for unit, one in (("m", Fraction(M)), ("yd", YARD))
    ]
    page = opened(visit, slug)
    asked = [["[data-we-balls]", {"length": figure, "of": of}] for figure, of, _ in puts]
    told: list[Told] = page.evaluate(ASK_ALL, asked)
    found = [[line[1:] for line in lines] for lines, _ in told]
    expected = [
        [
            [
                str(balls(mm, PutUp(length=ball, mass=Fraction(50)))),
                f"{print_metres(mm)} / {print_yards(mm)}",
            ]
            for _, mm in lengths(ready[slug])
        ]
        for _, _, ball in puts
    ]
    assert found == expected


def test_the_pattern_s_own_ball_makes_the_pattern_s_balls(
    visit: Visit, ready: dict[str, ReadyPattern]
) -> None:
    """125 m in 50 g, as the tee's yarn is sold: the numbers of its table, and what they weigh."""
    need = ready["groynemark-tee"].yarn.needs[0]
    fields = {"length": "125", "of": "m", "mass": "50"}
    lines, said = opened(visit, "groynemark-tee").evaluate(ASK, ["[data-we-balls]", fields])
    assert [(line[1], line[3]) for line in lines] == [
        (str(number), f"{number * 50} g") for number in need.balls
    ]
    assert "100 g of yours are 250 m, of the pattern’s 250 m." in said


def test_only_her_size_is_told(visit: Visit) -> None:
    """With a size chosen no other one's balls are on the page."""
    page = opened(visit, "groynemark-tee")
    page.evaluate("document.documentElement.dataset.size = 2")
    lines, _ = page.evaluate(ASK, ["[data-we-balls]", {"length": "100"}])
    assert [line[0] for line in lines] == ["M"]


STS = ("8", "13.5", "14", "15.25", "16", "16,2", "17", "20", "23.99")
ROWS = ("5", "8", "8.5", "9", "10.75", "22")


def first_counts(one: ReadyPattern) -> Iterator[tuple[str, PerSize[int]]]:
    """The stitches or rows of each finished measurement that has any."""
    told = set()
    for count in one.proven.graded.counts.values():
        name = count.measurement
        if name in one.proven.finished and name not in told and count.word is not None:
            told.add(name)
            yield count.word, count.values


@pytest.mark.parametrize("slug", SLUGS)
def test_a_gauge_makes_of_each_size_what_it_measures(
    visit: Visit, ready: dict[str, ReadyPattern], slug: str
) -> None:
    """As many stitches, each as wide as hers: counted again from the counts of the pattern."""
    one = ready[slug]
    page = opened(visit, slug)
    fields = [name for name in ("sts0", "rows0") if page.locator(f"[name={name}]").count()]
    counts = [*first_counts(one)]
    asked, expected = [], []
    for sts in STS:
        for rows in ROWS:
            hers = {"sts": Fraction(sts.replace(",", ".")), "rows": Fraction(rows)}
            written = {"sts0": sts, "rows0": rows}
            asked.append(["[data-we-gauge]", {name: written[name] for name in fields}])
            expected.append(
                [
                    [size, *(both(counted[at] * TEN_CM / hers[word]) for word, counted in counts)]
                    for at, size in enumerate(one.pattern.sizes.names)
                ]
            )
    told: list[Told] = page.evaluate(ASK_ALL, asked)
    assert [lines for lines, _ in told] == expected


@pytest.mark.parametrize(("unit", "mm"), [("cm", Fraction(CM)), ("in", INCH)])
def test_the_size_to_follow_is_the_nearest(
    visit: Visit, ready: dict[str, ReadyPattern], unit: str, mm: Fraction
) -> None:
    """By the exact lengths, for each gauge and many measures; where two are as near, both."""
    around = ready["groynemark-tee"].proven.finished["bust_around"]
    page = opened(visit, "groynemark-tee")
    asked, expected = [], []
    for sts in STS:
        for wanted in range(20, 190, 5):
            fields = {"sts0": sts, "wanted": str(wanted), "in": unit}
            asked.append(["[data-we-gauge]", fields])
            made = {
                size: length * 16 / Fraction(sts.replace(",", "."))
                for size, length in around.items()
            }
            off = {size: abs(length - wanted * mm) for size, length in made.items()}
            nearest = [size for size in made if off[size] == min(off.values())]
            each = " and ".join(f"{size} ({both(made[size])})" for size in nearest)
            which = "either size" if len(nearest) > 1 else f"size {nearest[0]}"
            expected.append(
                f"Nearest to {both(wanted * mm)}: {each}. Follow the numbers of {which}."
            )
    told: list[Told] = page.evaluate(ASK_ALL, asked)
    assert [said for _, said in told] == expected
    assert any("either" in said for said in expected) or unit == "in"


@pytest.mark.parametrize(
    ("part", "name"), [("[data-we-balls]", "length"), ("[data-we-gauge]", "sts0")]
)
def test_what_is_no_number_is_told(visit: Visit, part: str, name: str) -> None:
    """Words, minus, zero and numbers without end are no put-up and no gauge; nothing is nothing."""
    page = opened(visit, "groynemark-tee")
    asked = [[part, {name: value}] for value in ("wool", "-4", "0", "1e9", "12.345", "9999999", "")]
    told: list[Told] = page.evaluate(ASK_ALL, asked)
    words = "Write a number, such as 125 or 87.5."
    assert [(len(lines), said) for lines, said in told] == [*([(0, words)] * 6), (0, "")]


def test_without_script_no_field_is_shown(browser: Browser, site: str) -> None:
    """A field that does nothing would mislead."""
    context = browser.new_context(base_url=site, java_script_enabled=False)
    page = context.new_page()
    page.goto("patterns/groynemark-tee/index.html")
    box = page.locator("[data-we-mine]")
    assert (box.count(), box.is_visible()) == (1, False)
    context.close()


def test_units_are_hers(visit: Visit) -> None:
    """Inches alone, once she has chosen them; the fields begin with her units."""
    page = opened(visit, "groynemark-tee")
    page.evaluate("""() => {
      document.documentElement.dataset.units = "in";
      document.dispatchEvent(new CustomEvent("we:change", {detail: {}}));
    }""")
    lines, said = page.evaluate(
        ASK, ["[data-we-gauge]", {"sts0": "16", "wanted": "40", "in": "in"}]
    )
    assert lines[0][1] == print_in(Fraction(900))
    assert (
        said == f"Nearest to 40 in: S ({print_in(Fraction(1000))}). Follow the numbers of size S."
    )


def test_decimals_of_a_ball_s_mass_are_exact(visit: Visit, ready: dict[str, ReadyPattern]) -> None:
    """Seven balls of 28.35 g are 198.45 g, and not 198.45000000000002."""
    lines, _ = opened(visit, "sandhopper-mitts").evaluate(
        ASK, ["[data-we-balls]", {"length": "20", "of": "m", "mass": "28.35"}]
    )
    need = ready["sandhopper-mitts"].yarn.needs[0]
    ball = PutUp(length=20 * Fraction(M), mass=Fraction("28.35"))
    expected = [f"{decimal(balls(mm, ball) * ball.mass)} g" for mm in need.length]
    assert [line[3] for line in lines] == expected


#: What the list of lengths offers, as ``place steps``.
OFFERS = """() => [...document.querySelectorAll("[data-we-lengths] option")]
  .map(one => one.value).filter(Boolean)"""


@pytest.mark.parametrize("slug", SLUGS)
def test_another_length_takes_what_the_build_says(
    visit: Visit, ready: dict[str, ReadyPattern], slug: str
) -> None:
    """For all that is offered: what it measures, the yarn for all of it, and balls of hers."""
    one = ready[slug]
    (need,) = one.yarn.needs
    steps = [found for found in longer(one.proven, need) if found.step]
    page = opened(visit, slug)
    offers = page.evaluate(OFFERS)
    wanted, asked, expected = [], [], []
    ball = PutUp(length=Fraction("87.5") * M, mass=Fraction(50))
    page.evaluate(ASK, ["[data-we-balls]", {"length": "87.5", "of": "m"}])
    for at, found in enumerate(steps):
        rows = found.step * found.row
        least = min(fewer for fewer in found.fewer or () if fewer is not None)
        most = (200 / rows).__floor__()
        for number in (n for n in range(-min(least, most), most + 1) if n):
            wanted.append(f"{at} {number}")
            asked.append(["[data-we-lengths]", {"rows": wanted[-1]}])
            lines = []
            for place, size in enumerate(one.pattern.sizes.names):
                mm = need.length[place] + found.five_cm[place] * number * rows / (5 * CM)
                measured = one.proven.finished[found.name][place] + number * rows
                yarn = f"{print_metres(mm)} / {print_yards(mm)}"
                lines.append([size, both(measured), yarn, str(balls(mm, ball))])
            expected.append(lines)
    told = page.evaluate(ASK_ROWS, asked)
    assert (offers, told) == (wanted, expected)


def test_filled_in_it_is_for_everybody(browser: Browser, site: str) -> None:
    """All fields written on, at 320 px: no rule of WCAG broken, and nothing wider than the page."""
    context = browser.new_context(base_url=site, viewport={"width": 320, "height": 800})
    context.add_init_script(SHIFTS)
    page = context.new_page()
    opened(Visit(page), "groynemark-tee")
    page.evaluate(ASK, ["[data-we-balls]", {"length": "100", "mass": "50"}])
    page.evaluate(ASK, ["[data-we-gauge]", {"sts0": "17", "rows0": "9.5", "wanted": "112"}])
    page.evaluate(ASK, ["[data-we-lengths]", {"rows": "0 2"}])
    found = [*faults(page, 320)]
    tables = page.locator("[data-we-mine] table").count()
    context.close()
    assert (tables, found) == (3, [])
