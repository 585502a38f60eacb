"""Names of hooks against the rows of published tables."""

from __future__ import annotations

from fractions import Fraction

import pytest

from workeven.standards import hooks

#: mm, US, old UK. Citation: https://matifs.com/crochet-hooks-size-chart
MATIFS = [
    ("2.0", "B/1", "14"),  # the US label is doubtful: B-1 is normally 2.25 mm
    ("2.25", "B/1", "13"),
    ("2.75", "C/2", "12"),
    ("3.25", "D/3", "10"),
    ("3.5", "E/4", "9"),
    ("3.75", "F/5", ""),
    ("4.0", "G/6", "8"),
    ("4.5", "7", "7"),
    ("5.0", "H/8", "6"),
    ("5.5", "I/9", "5"),
    ("6.0", "J/10", "4"),
    ("6.5", "K/10.5", "3"),
    ("8.0", "L/11", "0"),
    ("9.0", "M/N/13", "00"),
    ("10.0", "N/P/15", "000"),
]
#: mm, Japan. Citation: https://kagiami-cafe.com/crochet-tool-2/
KAGIAMI = [
    ("2.0", "2/0"),
    ("2.3", "3/0"),
    ("2.5", "4/0"),
    ("3.0", "5/0"),
    ("3.5", "6/0"),
    ("4.0", "7/0"),
    ("4.5", "7.5/0"),
    ("5.0", "8/0"),
    ("5.5", "9/0"),
    ("6.0", "10/0"),
]
#: mm, Japan. Citation: https://keitoyajp.com/knitting-crochet-size/
KEITOYA = [
    ("1.8", "1/0"),
    ("2.2", "3/0"),
    ("2.75", "4.5/0"),
    ("3.25", "5.5/0"),
    ("3.75", "6.5/0"),
    ("6.5", "10.5/0"),
]
#: mm, lace number in Japan. Citation: https://kagiami-cafe.com/crochet-tool-2/
LACE = [
    ("1.75", "0"), ("1.5", "2"), ("1.25", "4"), ("1.0", "6"), ("0.9", "8"), ("0.75", "10"),
    ("0.6", "12"), ("0.5", "14"), ("0.45", "23"), ("0.4", "24"), ("0.35", "25"),
]  # fmt: skip
#: the usual sizes in Germany. Citation: http://www.code-knacker.de/haekelschrift.htm
GERMANY = (
    "0.6 0.75 1 1.25 1.5 1.75 2 2.5 3 3.5 4 4.5 5 5.5 6 6.5 7 8 9 10 12 15 20"
)  # fmt: skip


def names(mm: str) -> dict[str, str]:
    """The names of a hook by system."""
    return {one.system: one.name for one in hooks.names_of(Fraction(mm))}


@pytest.mark.parametrize(("mm", "us", "uk_old"), MATIFS)
def test_us_and_old_uk_names(mm: str, us: str, uk_old: str) -> None:
    """Each row, both ways."""
    found = names(mm)
    assert (found["US"], found.get("old UK", "")) == (us, uk_old)
    assert Fraction(mm) in {one.mm for one in hooks.called(us)}


@pytest.mark.parametrize(("mm", "japan"), [*KAGIAMI, *KEITOYA])
def test_japanese_names(mm: str, japan: str) -> None:
    """Two lists: they differ in 3/0 alone."""
    assert names(mm)["Japan"] == japan
    assert Fraction(mm) in {one.mm for one in hooks.called(japan)}


@pytest.mark.parametrize(("mm", "number"), LACE)
def test_japanese_lace_hooks(mm: str, number: str) -> None:
    """The higher the number, the finer the hook."""
    assert names(mm)["Japan lace"] == number


@pytest.mark.parametrize(
    ("name", "mm"),
    [
        # https://homequestionsanswered.com/what-are-the-different-crochet-hook-sizes.htm
        ("US steel 00", "3.5"),
        ("US steel 14", "0.75"),
        # https://winenfood.com/a-guide-to-the-steel-crochet-hook-size-chart
        ("US steel 7", "1.65"),
    ],
)
def test_us_steel_hooks(name: str, mm: str) -> None:
    """The ends of the scale and one between; the rest is recalled, and makers differ."""
    assert [Fraction(mm)] == list({one.mm for one in hooks.called(name)})


@pytest.mark.parametrize("mm", GERMANY.split())
def test_usual_sizes_are_sold(mm: str) -> None:
    """A trade list in mm alone."""
    assert hooks.nearest(Fraction(mm)) == (Fraction(mm),)


@pytest.mark.parametrize(
    ("name", "sizes"),
    [
        # matifs.com has 2 and 2.25 mm; 2.5 mm at https://www.reference.com/hobbies-games/
        # different-american-crochet-hook-sizes-a6c78d7fa99fed25
        ("B/1", {"2", "2.25", "2.5"}),
        # matifs.com has 4 mm; 4.25 mm at https://roguehookcrochet.com/crochet-hook-sizes
        ("G", {"4", "4.25"}),
        # 2.3 mm at kagiami-cafe.com, 2.2 mm at keitoyajp.com
        ("3/0", {"2.2", "2.3"}),
    ],
)
def test_conflicts_between_tables_are_kept(name: str, sizes: set[str]) -> None:
    """Each of these sizes has the remark."""
    wanted = set(map(Fraction, sizes))
    assert wanted == {one.mm for one in hooks.called(name)}
    for mm in wanted:
        (doubt,) = hooks.doubts(mm)
        assert wanted == {one for one, _ in doubt.sizes}
