"""How yarn grows with the finished bust: published tables, and the garments of the collection.

Twice the bust is twice the yarn where only the width grows, and four times where the length grows
with it. So growth is told as a power: the slope of log(yarn) against log(finished bust), by least
squares over all sizes of a table. The published tables give 0.876 (a cardigan in six sizes) and
1.578 (a sleeveless top in seven); the band is from the one to the other. A third table, in yards,
names no finished bust; held against the bust to fit it has 0.860, and ours are told beside it.

Balls are whole in print, so that the true slopes may lie further apart: the band is kept without
that, and is the narrower for it.
"""

from __future__ import annotations

from functools import cache
from math import log
from pathlib import Path

import pytest

from workeven import pipeline, source
from workeven.pipeline import ReadyPattern
from workeven.standards import body_chart

PATTERNS = Path(__file__).parents[2] / "patterns"

#: Finished bust (in) and balls of 65 g; 17 sc and 20 rows to 10 cm. Citation: copy of a
#: manufacturer's leaflet, https://slideblast.com/crochet-cardigan_599627eb1723dd1eb66acc1b.html.
CARDIGAN = ((36, 10), (39.5, 11), (43.5, 12), (47.5, 13), (54.5, 15), (62.5, 16))
#: Finished bust (in) and skeins. Citation:
#: https://www.joann.com/lion-brand-coboo-suttons-shell-top/312361226P403.html.
TOP = ((34, 3), (37, 4), (41, 5), (45, 5), (49, 6), (53, 7), (57, 7))
#: Yards, XS to 4X; 21 sts and 13 rows to 4 in; "estimated". Citation:
#: https://harbourstitches.com/elvira-cardigan.
YARDS = (1700, 1800, 2200, 2350, 2500, 2700, 2800, 3000)

#: From the published cardigan to the published top.
BAND = (0.876, 1.578)
#: Where each garment of nine sizes lies, on its finished bust.
GARMENTS = {"glasswort-raglan": 1.018, "groynemark-tee": 1.188, "wrackline-cardigan": 1.152}


def power(pairs: list[tuple[float, float]]) -> float:
    """The slope of the line through the logarithms, by least squares."""
    xs, ys = [log(x) for x, _ in pairs], [log(y) for _, y in pairs]
    middle = sum(xs) / len(xs)
    over = sum((x - middle) * y for x, y in zip(xs, ys, strict=True))
    return over / sum((x - middle) ** 2 for x in xs)


@cache
def ready(slug: str) -> ReadyPattern:
    """A garment of the collection."""
    checked = pipeline.check(source.collect([str(PATTERNS / slug / "pattern.yaml")]))
    found = checked.outcomes[0].ready
    assert found is not None
    return found


def grams(slug: str) -> list[float]:
    """What is worked in each size, without the margin."""
    (need,) = ready(slug).yarn.needs
    return [float(mass) for mass in need.bare]


def to_fit(slug: str) -> list[float]:
    """The bust that each size is meant to fit, in mm."""
    return [float(mm) for mm in dict(ready(slug).pattern.to_fit)["bust"]]


def finished_bust(slug: str) -> list[float]:
    """The finished bust in mm, measured back from the stitches: the bust to fit and the ease."""
    (ease,) = (one for one in ready(slug).proven.ease if one.body == "bust")
    return [mm + float(more) for mm, more in zip(to_fit(slug), ease.values, strict=True)]


def test_the_band_is_that_of_the_published_tables() -> None:
    """Each over all of its sizes."""
    assert (round(power(list(CARDIGAN)), 3), round(power(list(TOP)), 3)) == BAND


@pytest.mark.parametrize("slug", GARMENTS)
def test_the_collections_garments_grow_within_the_band(slug: str) -> None:
    """In nine sizes each; where it lies is written down, so that a change is seen."""
    pairs = list(zip(finished_bust(slug), grams(slug), strict=True))
    found = power(pairs)
    assert len(pairs) == 9
    assert BAND[0] <= found <= BAND[1]
    assert GARMENTS[slug] == round(found, 3)


def test_every_garment_of_nine_sizes_is_held() -> None:
    """One that joins the collection joins this list."""
    slugs = (path.parent.name for path in sorted(PATTERNS.glob("*/pattern.yaml")))
    nine = [slug for slug in slugs if len(ready(slug).pattern.sizes) == 9]
    assert nine == sorted(GARMENTS)


@pytest.mark.parametrize("slug", GARMENTS)
def test_a_larger_size_takes_more(slug: str) -> None:
    """As in all the published tables, where a ball more or the same stands."""
    masses = grams(slug)
    assert masses == sorted(set(masses))


def test_growth_with_the_bust_to_fit_is_near_that_of_a_table_in_yards() -> None:
    """It has 0.860, XS to 4X, on the middle of the chart's bust; ours have up to a quarter more."""
    chart = body_chart("women")
    assert chart is not None
    busts = [one for one in chart.values if (one.measurement, one.unit) == ("bust", "in")]
    bust = [float(one.low + one.high) / 2 for one in busts[: len(YARDS)]]
    published = power(list(zip(bust, YARDS, strict=True)))
    assert round(published, 3) == 0.860
    ours = [power(list(zip(to_fit(slug)[:8], grams(slug)[:8], strict=True))) for slug in GARMENTS]
    assert [round(one, 3) for one in ours] == [0.919, 1.049, 0.982]
    assert all(published <= one <= published * 1.25 for one in ours)
