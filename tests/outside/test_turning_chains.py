"""Turning chains and starting chains against the published table."""

from __future__ import annotations

import pytest

from workeven import standards
from workeven.notation.vocabulary import HEIGHTS, US_TO_UK
from workeven.problems.catalogue import severity
from workeven.problems.record import Severity
from workeven.proof import counting

_ORDINAL = {2: "2nd", 3: "3rd", 4: "4th", 5: "5th", 6: "6th"}


def test_heights_are_those_of_the_table() -> None:
    """The chains that raise the hook to each stitch.

    Citation: http://dummies.com/how-to/content/how-to-crochet-a-turning-chain.html; the table of
    the Crochet Guild of America's lesson of 1997 agrees from slip stitch to treble:
    http://careyscraftycorner.tripod.com/id15_m.htm
    """
    expected = {"sl st": 0, "sc": 1, "hdc": 2, "dc": 3, "tr": 4, "dtr": 5}
    assert expected == {row.stitch: row.chains for row in standards.turning_chains()}
    assert expected == {stitch: HEIGHTS[stitch] for stitch in expected}


@pytest.mark.parametrize("row", standards.turning_chains()[1:], ids=lambda row: row.stitch)
def test_first_rows_follow_from_the_table(row: standards.TurningChain) -> None:
    """Stitches t of an uncounted chain: foundation = stitches + t; counted: stitches + t - 1.

    The first stitch goes into the chain that the table names; the skipped chains count as one
    stitch where the table says that the turning chain does.
    Citation: the table itself, and arithmetic on it (recalled as common practice).
    """
    into = row.first_chain_from_hook
    assert into is not None
    text = f"ch 40\n{row.stitch} in {_ORDINAL[into]} ch from hook and in each ch across, turn"
    checked = counting.count(text)
    assert checked.value is not None
    counted = row.counts == "yes"
    assert (40 - row.chains + (1 if counted else 0),) == checked.value.rows[-1].sts
    errors = [one for one in checked.problems if severity(one.code) is Severity.ERROR]
    assert [] == errors


def test_split_practice_of_half_double_is_said() -> None:
    """The table has "usually yes, varies": the default is named as advice.

    Citation: http://dummies.com/how-to/content/how-to-crochet-a-turning-chain.html
    """
    (hdc,) = (row for row in standards.turning_chains() if row.stitch == "hdc")
    assert "varies" == hdc.counts
    problems = counting.count("ch 40\nhdc in 3rd ch from hook and in each ch across").problems
    assert ["row-turning-chain"] == [one.code for one in problems]


@pytest.mark.parametrize(
    ("chain", "row", "stitches"),
    [
        (
            "ch 79 (85, 94, 103, 112, 121, 130)",
            "sc in 2nd ch from hook and in each ch across",
            (78, 84, 93, 102, 111, 120, 129),
        ),
        (
            "ch 96 (96, 102)",
            "hdc in 3rd ch from hook (skipped 2 chs count as hdc) and in each ch across",
            (95, 95, 101),
        ),
        (
            "ch 50 (62, 70)",
            "dc in 4th ch from hook (skipped 3 chs count as dc) and in each ch across",
            (48, 60, 68),
        ),
    ],
    ids=["top", "cardigan", "cardigan sleeve"],
)
def test_starting_chains_of_published_patterns(
    chain: str, row: str, stitches: tuple[int, ...]
) -> None:
    """The first rows of a graded top in seven sizes, and of a cardigan and its sleeve in three.

    Citation: https://www.joann.com/lion-brand-coboo-suttons-shell-top/312361226P403.html;
    https://mariasbluecrayon.com/2017/11/comfy-cozy-oversized-crochet-cardigan.html
    """
    value = counting.count(f"{chain}\n{row}").value
    assert value is not None
    assert stitches == value.rows[-1].sts


@pytest.mark.parametrize("term", standards.terms(), ids=lambda term: f"{term.us}-{term.uk}")
def test_uk_terms_are_those_of_the_table(term: standards.Term) -> None:
    """Each US stitch has a UK name that the table gives it.

    Citation: in the table, row by row. Its trtr is ambiguous: the US trtr is not the UK trtr.
    """
    if term.us in US_TO_UK:
        published = {other.uk for other in standards.terms() if other.us == term.us}
        assert US_TO_UK[term.us] in published
    else:
        assert term.us in {"ch", "gauge", "sk", "yo", "fasten off", "sc2tog"}
