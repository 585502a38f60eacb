"""What a longer piece takes, against the whole pattern worked longer and counted anew.

A metre more of a measurement is 20 times 5 cm, and a whole number of rows at each gauge of these
patterns; the grams of all stitches are told by the tally of the whole, which knows nothing of
``longer``.
"""

from __future__ import annotations

import re
from fractions import Fraction
from pathlib import Path

import pytest

from workeven import pipeline, source
from workeven.arithmetic.quantities import decimal
from workeven.pattern import NO_STUDIO
from workeven.pipeline import ReadyPattern
from workeven.yarn import YarnNeed
from workeven.yarn.longer import longer

PATTERNS = Path(__file__).parents[2] / "patterns"
#: what says how much is needed, and which row is which, is another for a longer piece
_HELD = re.compile(r"^(?:samples|amounts):\n(?:[ -].*\n)+|(?<= )Row 49 [^:]*: (?=ch)", re.MULTILINE)


def ready(text: str) -> ReadyPattern:
    """A pattern that comes out."""
    read = source.read("pattern.yaml", text.encode()).value
    assert read is not None
    outcome = pipeline.run(read, NO_STUDIO)
    assert outcome.ready is not None, outcome.problems
    return outcome.ready


def stitches(need: YarnNeed) -> list[Fraction]:
    """The grams of all stitches in each size, without seams and ends."""
    lines = [line.mass for line in need.lines if line.sort == "stitches"]
    return [sum(one, Fraction(0)) for one in zip(*lines, strict=True)]


def longer_by_a_metre(text: str, one: ReadyPattern, name: str) -> str:
    """The file with a measurement that is a metre more in every size."""
    centimetres = [decimal(mm / 10 + 100, 6) for mm in one.proven.graded.measurements[name]]
    listed = centimetres[0]
    if len(centimetres) > 1:
        listed = f"{listed} ({', '.join(centimetres[1:])})"
    return re.sub(rf"(?m)^  {name}: .*$", f"  {name}: {listed} cm", text)


@pytest.mark.parametrize(
    ("slug", "name"),
    [
        ("glasswort-raglan", "body_length"),
        ("groynemark-tee", "hem_to_underarm"),
        ("ripplemark-blanket", "length"),
        ("sandhopper-mitts", "length"),
        ("sandhopper-mitts", "thumb_length"),
        ("whelkstow-basket", "wall_height"),
        ("wrackline-cardigan", "body_length"),
    ],
)
def test_five_centimetres_are_a_twentieth_of_a_metre_more(slug: str, name: str) -> None:
    """In every size, exactly."""
    text = _HELD.sub("", (PATTERNS / slug / "pattern.yaml").read_text(encoding="utf-8"))
    short = ready(text)
    need = short.yarn.needs[0]
    (told,) = (one for one in longer(short.proven, need) if one.name == name)
    long = stitches(ready(longer_by_a_metre(text, short, name)).yarn.needs[0])
    more = [after - before for before, after in zip(stitches(need), long, strict=True)]
    by_length = need.yarn.put_up.length / need.yarn.put_up.mass * (1 + need.margin)
    twentieth = [grams * by_length / 20 for grams in more]
    assert list(told.five_cm) == twentieth


@pytest.mark.parametrize(
    ("slug", "name"),
    [("glasswort-raglan", "sleeve_length"), ("wrackline-cardigan", "sleeve_length")],
)
def test_a_shaped_sleeve_comes_near_the_whole_pattern_worked_longer(slug: str, name: str) -> None:
    """Within the margin of a tenth: over more rows the rates fall elsewhere."""
    text = _HELD.sub("", (PATTERNS / slug / "pattern.yaml").read_text(encoding="utf-8"))
    short = ready(text)
    need = short.yarn.needs[0]
    (told,) = (one for one in longer(short.proven, need) if one.name == name)
    long = stitches(ready(longer_by_a_metre(text, short, name)).yarn.needs[0])
    by_length = need.yarn.put_up.length / need.yarn.put_up.mass * (1 + need.margin)
    pairs = zip(told.five_cm, stitches(need), long, strict=True)
    off = [mm / ((after - before) * by_length / 20) - 1 for mm, before, after in pairs]
    assert told.shaped
    assert [] == [one for one in off if abs(one) > Fraction(1, 10)]
