"""A cluster written as a decrease asks for a swatch; a decrease is the stitches that it joins.

From common practice: "dc2tog over next 2 sts" has a leg in each, "dc3tog in next st" is a cluster.
"""

from __future__ import annotations

import pytest

from tests.yarn.test_tally import HEAD, PIECE, _only, _proven
from workeven.proof import ProvenPattern
from workeven.yarn import YarnNeeds, estimate, tallies

BASE = ("ch 14", "Row 1: dc in 4th ch from hook and in each ch across, turn")
CLUSTERS = (
    "Row 2: ch 3 (counts as dc), sk first st, *dc3tog in next st, dc in next st; "
    "rep from * 4 more times, dc in top of tch, turn"
)
SWATCH = """\
swatches:
  - of: main
    mass: 20.0 g
    rows: |
      ch 23
      dc in 4th ch from hook and in each ch across, turn
      ch 3 (counts as dc), sk first st, dc in each st across, turn
"""
OF_CLUSTERS = """\
  - of: main
    mass: 40.0 g
    rows: |
      ch 23
      dc in 4th ch from hook and in each ch across, turn
      ch 3 (counts as dc), sk first st, [dc3tog in next st] 10 times, dc in each st across, turn
      ch 3 (counts as dc), sk first st, *dc3tog in next st; rep from * 18 more times, dc in tch
"""


def _needs(*rows: str, swatches: str = SWATCH, more: str = "") -> tuple[ProvenPattern, YarnNeeds]:
    lines = "".join(f"          {row}\n" for row in (*BASE, *rows))
    proven = _proven(HEAD + swatches + more + PIECE + lines)
    checked = estimate(proven)
    assert checked.value is not None
    return proven, checked.value


@pytest.mark.parametrize(
    ("row", "worked"),
    [
        (CLUSTERS, {"dc3tog in one place": 5}),
        ("Row 2: ch 3, sk first st, (dc2tog, ch 2, dc2tog) in next st", {"dc2tog in one place": 2}),
        ("Row 2: ch 3, sk first st, [dc2tog, ch 1] 3 times in next st", {"dc2tog in one place": 3}),
        ("Row 2: ch 3, sk first st, dc in next st, tr3tog in same st", {"tr3tog in one place": 1}),
        ("Row 2: ch 3, sk first st, dc2tog over next 2 sts", {"dc2tog": 1}),
        ("Row 2: ch 3, sk first st, dc2tog", {"dc2tog": 1}),
        ("Row 2: ch 3, sk first st, [dc3tog in next 3 sts] twice", {"dc3tog": 2}),
    ],
)
def test_where_the_legs_go_tells_a_cluster_from_a_decrease(
    row: str, worked: dict[str, int]
) -> None:
    """By hand, from the words of each row."""
    end = "" if row is CLUSTERS else ", dc in each st across"
    (part,) = _only(*BASE, f"{row}{end}", colours="").parts
    assert worked == {name: count for name, count in part.worked[0].items() if "tog" in name}


def test_clusters_in_each_space_are_told_from_decreases() -> None:
    """By hand: 5 spaces and a cluster in each, of all spaces or of so many."""
    mesh = "Row 2: ch 4 (counts as dc and ch 1), sk 2 sts, [dc in next st, ch 1, sk 1 st] 4 times, "
    for words in ("each ch-1 sp across", "each of next 5 ch-1 sps"):
        rows = (f"{mesh}dc in top of tch, turn", f"Row 3: ch 3, dc3tog in {words}")
        (part,) = _only(*BASE, *rows, colours="").parts
        assert 5 == part.worked[0]["dc3tog in one place"]


def test_a_cluster_that_no_swatch_shows_has_no_amount() -> None:
    """A swatch in dc does not tell what three dc closed in one place take."""
    _, needs = _needs(CLUSTERS)
    (none,) = needs.without
    assert ((), "no swatch of it shows dc3tog in one place") == (needs.needs, none.reason)


def test_rows_worked_again_have_the_clusters_of_those_rows() -> None:
    """By hand: 5 clusters in each of 4 rows; the line that repeats them names none."""
    again = ("Row 3: ch 3 (counts as dc), sk first st, dc in each st across, turn",)
    (part,) = _only(*BASE, CLUSTERS, *again, "Rep Rows 2 and 3 3 more times", colours="").parts
    assert 20 == part.worked[0]["dc3tog in one place"]


def test_a_swatch_with_the_cluster_tells_it() -> None:
    """Two swatches, one of dc and one with clusters: both stitches are known."""
    _, needs = _needs(CLUSTERS, swatches=SWATCH + OF_CLUSTERS)
    assert ([], 1) == ([one.reason for one in needs.without], len(needs.needs))


def test_a_declared_cluster_goes_under_its_own_name() -> None:
    """``cl`` asks for a swatch as it did; a stitch of several clusters asks for one of these."""
    own = "stitches: {tulip: '(dc3tog, ch 2, dc3tog) in same st'}\n"
    row = "Row 2: ch 3 (counts as dc), sk first st, tulip in next st, dc in each st across"
    _, needs = _needs(row, more=own)
    (none,) = needs.without
    assert "no swatch of it shows dc3tog in one place" == none.reason


@pytest.mark.parametrize(
    ("words", "name"), [("cl in next st", "dc3tog in one place"), ("cl over next 3 sts", "dc3tog")]
)
def test_another_name_for_a_decrease_is_told_by_where_it_is_worked(words: str, name: str) -> None:
    """``cl: dc3tog`` says nothing of places; the row does."""
    own = "stitches: {cl: dc3tog}\n"
    row = f"Row 2: ch 3 (counts as dc), sk first st, {words}, dc in each st across"
    proven, _ = _needs(row, more=own)
    (tally,) = tallies(proven)
    assert 1 == tally.parts[0].worked[0][name]
