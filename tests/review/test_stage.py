"""Which pattern, piece, row and size is which; what is renamed; whether a change says so."""

from __future__ import annotations

from collections.abc import Callable

import pytest

from tests.review.seeds import written
from workeven.report.review_text import as_text
from workeven.review import Change, Renamed, Review

MITTS, BASKET, BLANKET = "sandhopper-mitts", "whelkstow-basket", "ripplemark-blanket"
THUMB = ("thumb_sts: 7 (7, 8)", "thumb_sts: 7 (7, 9)")
NEWER = ('version: "1.0"\npublished', 'version: "1.1"\npublished')
TOLD = ("changes:\n", 'changes:\n  - {version: "1.1", date: 2026-11-27, text: L is wider.}\n')


def test_one_row_in_one_size_shows_that_number(after: Callable[..., Review]) -> None:
    """One round more in L: that row in that size, and the yarn that it takes."""
    pair = ("rep last rnd 2 more times", "rep last rnd 2 (2, 3) more times")
    (pattern,) = after(BASKET, lambda text: written(text, pair)).patterns
    of, what = "Basket, Handles", "rep last rnd 2 (2, 3) more times ({base_sts} sc)"
    rows = [change for change in pattern.changes if change.part == "Rows"]
    said = "rep last rnd {} more times (72 sc)"
    assert {"L"} == {change.size for change in pattern.changes}
    assert rows == [
        Change("Rows", of, what, "L", "72 sc after 2 rows", "72 sc after 3 rows"),
        Change("Rows", of, what, "L", said.format(2), said.format(3)),
    ]


def test_a_published_pattern_says_what_changed(after: Callable[..., Review]) -> None:
    """A higher version and what it changed; then nothing is wrong, and the note is shown."""
    found = after(MITTS, lambda text: written(text, THUMB, NEWER, TOLD))
    (pattern,) = found.patterns
    assert ((), "L is wider.", ("1.0", "1.1")) == (found.problems, pattern.note, pattern.versions)


@pytest.mark.parametrize(
    ("pairs", "mend"),
    [
        ((THUMB,), "Raise `version` above 1.0, and say under `changes` what is other now."),
        (
            (THUMB, NEWER),
            "Add to `changes` an entry of version 1.1: what was wrong, in which rows and sizes.",
        ),
        (
            (THUMB, TOLD),
            "Raise `version` above 1.0, and say under `changes` what is other now.",
        ),
    ],
    ids=["neither", "version alone", "note alone"],
)
def test_what_is_not_said_is_told(
    pairs: tuple[tuple[str, str], ...], mend: str, after: Callable[..., Review]
) -> None:
    """Version and note are both asked for, and what is missing is named."""
    (problem,) = after(MITTS, lambda text: written(text, *pairs)).problems
    assert ("change-unsaid", mend) == (problem.code, problem.mend)


@pytest.mark.parametrize(("now", "told"), [("1.10", 0), ("1.8", 1), ("1.9.1", 0), ("2", 0)])
def test_versions_rise_by_their_numbers(now: str, told: int, after: Callable[..., Review]) -> None:
    """1.10 is above 1.9, and 1.8 is not."""
    was = ('version: "1.0"\npublished', 'version: "1.9"\npublished')
    entry = f'changes:\n  - {{version: "{now}", date: 2026-11-27, text: L is wider.}}\n'
    pairs = (THUMB, (NEWER[0], f'version: "{now}"\npublished'), ("changes:\n", entry))
    found = after(MITTS, lambda text: written(text, *pairs), base=lambda text: written(text, was))
    assert told == len(found.problems)


def test_a_draft_may_change(after: Callable[..., Review]) -> None:
    """What was never published has no makers."""

    def draft(text: str) -> str:
        return text.replace("published: 2026-11-02\n", "")

    found = after(MITTS, lambda text: written(draft(text), THUMB), base=draft)
    assert ("changed", ()) == (found.patterns[0].status, found.problems)


def test_what_had_errors_before_is_not_compared(after: Callable[..., Review]) -> None:
    """There is no number to compare with; that is no mistake of the change."""
    pair = ("[sc 5, inc] around", "[sc 4, inc] around")
    found = after(BASKET, lambda text: text, base=lambda text: written(text, pair))
    assert ("not compared", ()) == (found.patterns[0].status, found.problems)


def test_a_pattern_that_is_gone_is_told(after: Callable[..., Review]) -> None:
    """A folder that nothing leads from."""
    title = ("title: Whelkstow Basket", "title: Cord Basket")
    found = after(BASKET, lambda text: written(text, title), to="cord-basket")
    assert [("cord-basket", "new"), (BASKET, "gone")] == [
        (one.slug, one.status) for one in found.patterns
    ]


def test_a_count_with_another_name_is_renamed(after: Callable[..., Review]) -> None:
    """Its numbers are the same, and so are the rows."""
    found = after(BASKET, lambda text: text.replace("handle_sts", "grip_sts"))
    (pattern,) = found.patterns
    assert ((), (Renamed("Counts", "handle_sts", "grip_sts"),)) == (
        pattern.changes,
        pattern.renamed,
    )


def test_a_piece_with_another_key_and_title_is_renamed(after: Callable[..., Review]) -> None:
    """Its rows tell which it was."""
    pairs = (("  thumb:\n    title: Thumb\n", "  finger:\n    title: Thumb tube\n"),)
    (pattern,) = after(MITTS, lambda text: written(text, *pairs)).patterns
    assert ((), (Renamed("Pieces", "Thumb", "Thumb tube"),)) == (pattern.changes, pattern.renamed)


def test_a_size_with_another_name_is_renamed(after: Callable[..., Review]) -> None:
    """As many sizes, one of them called otherwise."""
    pair = ("names: Pram (Floor)", "names: Pram (Playpen)")
    (pattern,) = after(BLANKET, lambda text: written(text, pair)).patterns
    assert (Renamed("Sizes", "Floor", "Playpen"),) == pattern.renamed


def test_a_size_that_was_added_is_no_change_of_the_others(after: Callable[..., Review]) -> None:
    """Sizes are compared by their names."""
    pairs = (
        ("names: Pram (Floor)", "names: Pram (Cot, Floor)"),
        ("width: 65 (90) cm", "width: 65 (78, 90) cm"),
        ("length: 75 (100) cm", "length: 75 (90, 100) cm"),
    )
    (pattern,) = after(BLANKET, lambda text: written(text, *pairs)).patterns
    assert (Change("Sizes", "Cot", "", "", None, "Cot"),) == pattern.changes


def test_a_pattern_that_moved_is_found_by_what_it_says(after: Callable[..., Review]) -> None:
    """``formerly`` names its old folder."""
    pair = ("\nlicence:", "\nformerly: [whelkstow-basket]\nlicence:")
    found = after(BASKET, lambda text: written(text, pair), to="cord-basket")
    (pattern,) = found.patterns
    assert ("cord-basket", BASKET, ()) == (pattern.slug, pattern.was, pattern.changes)


def test_a_pattern_that_moved_is_found_by_its_title(after: Callable[..., Review]) -> None:
    """Where it does not say so."""
    (pattern,) = after(BASKET, lambda text: text, to="cord-basket").patterns
    assert ("cord-basket", BASKET, "words") == (pattern.slug, pattern.was, pattern.status)


def test_rows_put_in_and_taken_out_are_named(after: Callable[..., Review]) -> None:
    """The others keep their place, though their numbers move on."""
    pair = (
        "          Ridge rnd: sc in back",
        "          sc in each st around ({base_sts} sc)\n          Ridge rnd: sc in back",
    )
    (pattern,) = after(BASKET, lambda text: written(text, pair)).patterns
    put_in = [change for change in pattern.changes if change.part == "Rows" and not change.before]
    assert ["sc in each st around ({base_sts} sc)"] == [change.after for change in put_in]


def test_a_pattern_with_errors_is_not_compared(after: Callable[..., Review]) -> None:
    """Nothing is guessed; ``workeven check`` tells what is wrong."""
    pair = ("[sc 5, inc] around", "[sc 4, inc] around")
    (pattern,) = after(BASKET, lambda text: written(text, pair)).patterns
    why = "It has errors now, which `workeven check` tells."
    assert ("not compared", why) == (pattern.status, pattern.why_not)


def test_the_same_change_of_all_sizes_is_said_once(after: Callable[..., Review]) -> None:
    """For people: sizes with the same numbers together."""
    pair = ("thumb_sts: 7 (7, 8)", "thumb_sts: 8 (8, 8)")
    found = after(MITTS, lambda text: written(text, pair))
    assert "    thumb_sts: S and M 7 → 8\n" in as_text(found, "before")


def test_an_amount_that_the_designer_lists_is_a_number(after: Callable[..., Review]) -> None:
    """It is checked against what is computed, and published beside it."""
    pair = ("main: 10 (11, 12", "main: 11 (11, 12")
    (pattern,) = after("wrackline-cardigan", lambda text: written(text, pair)).patterns
    of = "Tarred Rope Wool (invented)"
    assert (Change("Yarn", of, "balls listed", "XS", "10", "11"),) == pattern.changes


def test_a_long_text_is_shown_from_where_it_differs(after: Callable[..., Review]) -> None:
    """Its beginning is the same, and would be all that there is room for."""
    pair = ("{1.5 cm} wide", "{2 cm} wide")
    (pattern,) = after("wrackline-cardigan", lambda text: written(text, pair)).patterns
    (change,) = pattern.changes
    for text, width in ((change.before, "{1.5 cm} wide"), (change.after, "{2 cm} wide")):
        assert text is not None
        assert text.startswith("…")
        assert width in text
