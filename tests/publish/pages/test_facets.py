"""What patterns are chosen by: the numbers of their own pages, and nothing else."""

from __future__ import annotations

from fractions import Fraction

from tests.publish.samples import HERE, mitts, rising
from workeven.arithmetic.per_size import PerSize, Sizes
from workeven.pattern import PrintedAmount
from workeven.pipeline import ReadyPattern
from workeven.publish.pages.facets import Facets, facets, filters
from workeven.records import replace
from workeven.yarn import NoAmount


def said(ready: ReadyPattern, unit: str, *values: int) -> ReadyPattern:
    """The mitts with an amount of the designer's own."""
    amount = PrintedAmount(
        yarn="main",
        colour=None,
        unit=unit,  # type: ignore[arg-type]  # one of its three
        values=rising(ready.pattern.sizes, *values),
        words="",
        span=HERE,
    )
    return replace(ready, pattern=replace(ready.pattern, amounts=(amount,)))


def fitting(*lengths: int) -> Facets:
    """A pattern for a body of so many mm in each size."""
    ready = mitts()
    sizes = Sizes(tuple(map(str, lengths)))
    to_fit = PerSize(sizes, tuple(map(Fraction, lengths)))
    return facets(replace(ready, pattern=replace(ready.pattern, to_fit=(("hand", to_fit),))))


def test_a_size_fits_half_way_to_the_next() -> None:
    """And as far beyond the smallest and the largest; in tenths of a millimetre."""
    assert fitting(180, 200, 230).body == (("hand", ((1700, 1900), (1900, 2150), (2150, 2450))),)


def test_a_size_alone_fits_two_centimetres_to_each_side() -> None:
    """There is no step to go by; the page says so."""
    assert fitting(560).body == (("hand", ((5400, 5800),)),)


def test_sizes_of_one_body_fit_the_same() -> None:
    """Two lengths for one chest are one step."""
    assert fitting(900, 900, 1000).body == (("hand", ((8500, 9500), (8500, 9500), (9500, 10500))),)


def test_amounts_are_those_of_the_page() -> None:
    """90.1 m are 91 m and 99 yd (1 yd = 0.9144 m, 1959 agreement), each whole and up."""
    assert facets(mitts()).yarn == ((91, 99, 29, 1), (99, 109, 32, 1), (120, 132, 38, 1))


def test_the_designers_amount_counts_where_it_is_more() -> None:
    """She says 2 balls, and 1 is computed; where she says fewer metres, ours stand."""
    assert [one[3] for one in facets(said(mitts(), "balls", 2)).yarn] == [2, 2, 2]
    assert [one[0] for one in facets(said(mitts(), "length", 80_000)).yarn] == [91, 99, 120]


def test_an_amount_that_is_not_known_is_none() -> None:
    """A yarn without an amount may be any: nobody is told that hers is enough."""
    ready = mitts()
    unknown = NoAmount(yarn=ready.pattern.yarns[0], reason="no swatch")
    told = facets(replace(ready, yarn=replace(ready.yarn, without=(unknown,))))
    assert told.yarn == ()


def test_filters_are_in_the_order_of_the_trade() -> None:
    """Yarns from thin to thick, hooks by their size, levels from easy to complex."""
    one = facets(mitts())
    two = replace(one, weight=("bulky",), hook=("12",), level="Basic")
    three = replace(one, weight=("super fine",), hook=("6.5",), level="Complex")
    found = {view.name: view.options for view in filters([two, one, three], "cm").choices}
    assert [[value for value, _, _ in found[name]] for name in ("weight", "hook", "level")] == [
        ["super fine", "fine", "bulky"],
        ["3.75", "6.5", "12"],
        ["Basic", "Easy", "Complex"],
    ]


def test_a_filter_with_one_value_is_left_out() -> None:
    """It would tell nothing."""
    assert filters([facets(mitts())] * 2, "cm").choices == ()
