"""The exact numbers that a maker reckons with."""

from __future__ import annotations

import json
from fractions import Fraction

import pytest

from tests.publish.samples import mitts
from tests.support.pattern_files import GOOD, outcome
from tests.yarn.test_printed import checked
from workeven.arithmetic.printing import decimal
from workeven.publish.pages.mine import mine
from workeven.records import replace
from workeven.yarn import YarnNeeds


def test_lengths_are_those_of_the_proof_unrounded() -> None:
    """90.1 m in S: as a fraction of millimetres."""
    ready = mitts()
    found = mine(ready)
    assert found is not None
    numbers = json.loads(str(found.numbers))
    (over, under) = numbers["yarns"][0]["mm"].split("/")
    exact = tuple(Fraction(int(one), int(under)) for one in over.split())
    assert exact == ready.yarn.needs[0].length.values


def test_a_gauge_is_asked_for_as_it_is_counted() -> None:
    """A scarf counted in stitches alone asks for no rows, and says what its own stitches are."""
    outcome = checked("  main: 2 (5) balls")
    assert outcome.ready is not None, outcome.problems
    found = mine(outcome.ready)
    assert found is not None
    numbers = json.loads(str(found.numbers))
    assert len(numbers["gauges"]) == len(found.gauges)
    assert [bool(one.rows) for one in found.gauges] == [
        any(n["by"] == "rows" and n["gauge"] == at for n in numbers["measured"])
        for at in range(len(found.gauges))
    ]


@pytest.mark.parametrize(
    ("over", "ours"), [("10 cm", "16.5"), ("4 in", "16.5"), ("5 cm", "33"), ("2 in", "32.48")]
)
def test_a_gauge_over_4_in_is_asked_for_as_one_over_10_cm(over: str, ours: str) -> None:
    """The page says so of both; one over another length is brought to 10 cm."""
    text = GOOD.replace("sts: 16, rows: 18, over: 10 cm", f"sts: 16½, rows: 18, over: {over}")
    ready = outcome(text).ready
    assert ready is not None
    found = mine(ready)
    assert found is not None
    exact = json.loads(str(found.numbers))["gauges"][0]["sts"]
    assert (found.gauges[0].sts, decimal(Fraction(exact), 2)) == (ours, ours)


def test_no_text_ends_its_element() -> None:
    """A size called ``</script>`` stays a size."""
    ready = mitts()
    sizes = replace(ready.pattern.sizes, names=("</script>&", "M", "L"))
    found = mine(replace(ready, pattern=replace(ready.pattern, sizes=sizes)))
    assert found is not None
    assert "<" not in found.numbers
    assert json.loads(str(found.numbers))["sizes"][0] == "</script>&"


def test_where_nothing_is_known_nothing_is_asked() -> None:
    """No amount of yarn, and no length that stitches were counted over."""
    ready = mitts()
    graded = replace(ready.proven.graded, counts={})
    bare = replace(ready, yarn=YarnNeeds(needs=()), proven=replace(ready.proven, graded=graded))
    assert mine(bare) is None
