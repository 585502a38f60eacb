"""The words of rows for a reader: abbreviations, and rows in the other terms."""

from __future__ import annotations

from hypothesis import given
from hypothesis import strategies as st

from workeven.notation.parser import parse_row
from workeven.notation.tree import Row
from workeven.notation.vocabulary import US_TO_UK, Terms, Vocabulary
from workeven.notation.wording import abbreviations, in_other_terms, meaning
from workeven.problems import Span

PLACE = Span(file="rows", line=1, column=1, end_line=1, end_column=1)


def row(text: str, terms: Terms = "us") -> Row:
    """A row that is understood."""
    checked = parse_row(text, PLACE, Vocabulary(terms))
    assert checked.value is not None
    assert checked.problems == ()
    return checked.value


def test_a_row_is_put_into_the_other_terms_in_place() -> None:
    """Stitch words alone change; numbers, spaces and commas stay as they are written."""
    text = "Rnd 3:  ch 3 (counts as dc), 2 dc in next ch-1 sp, hdc2tog, fpdc around next 3-dc group"
    expected = (
        "Rnd 3:  ch 3 (counts as tr), 2 tr in next ch-1 sp, htr2tog, fptr around next 3-tr group"
    )
    assert expected == in_other_terms(row(text), "uk")
    assert text == in_other_terms(row(expected, "uk"), "us")


def test_a_row_in_its_own_terms_stays_as_it_is() -> None:
    """Also where a stitch is written out."""
    assert "sc in next st, dc" == in_other_terms(row("sc in next st, dc"), "us")


@given(st.lists(st.sampled_from([name for name in US_TO_UK if name != "sl st"]), min_size=1))
def test_there_and_back_is_the_same_row(names: list[str]) -> None:
    """Each basic name moves by one and back."""
    text = ", ".join(f"{name} in next st" for name in names)
    there = in_other_terms(row(text), "uk")
    assert text == in_other_terms(row(there, "uk"), "us")


def test_a_stitch_is_told_in_full_words() -> None:
    """Of the terms that are asked for; a stitch of one's own has none."""
    assert "single crochet 2 together" == meaning("sc2tog", "us")
    assert "double crochet 2 together" == meaning("sc2tog", "uk")
    assert "front post treble" == meaning("fpdc", "uk")
    assert "foundation double crochet" == meaning("fdc", "us")
    assert meaning("shell", "us") is None


def test_the_abbreviations_that_rows_use_are_listed() -> None:
    """By alphabet, each once; words written out need no explanation."""
    rows = [row("ch 3, dc in next ch-2 sp, sk 2 sts, turn"), row("skip next stitch, dc in next st")]
    found = [(one.short, one.meaning) for one in abbreviations(rows, "us")]
    assert [
        ("ch", "chain"),
        ("dc", "double crochet"),
        ("sk", "skip"),
        ("sp(s)", "space(s)"),
        ("st(s)", "stitch(es)"),
    ] == found


def test_abbreviations_are_those_of_the_page_not_of_the_text() -> None:
    """A US text on a page in UK terms explains tr, and says miss."""
    found = {
        one.short: one.meaning for one in abbreviations([row("sk 1 st, dc in next st")], "uk", "us")
    }
    assert "treble" == found["tr"]
    assert ("sk" in found, "pass over without working") == (False, found["miss"])
