"""The demo collection passes its own check, and its garment stands up to published tables.

What a size of the Groynemark Tee fits is held against EN 13402-3 (letters by bust) and against the
body chart for women of the Craft Yarn Council, both as ``workeven.standards`` carries them with
their citations. Ease and head girths stand here, their source beside them. Everything else is
compared with counts that the proof gives, worked out here a second time from the gauge.
"""

from __future__ import annotations

from fractions import Fraction
from functools import cache
from pathlib import Path
from typing import Final

import pytest

from tests.support import pattern_files
from workeven import pipeline, source, standards
from workeven.arithmetic.per_size import PerSize
from workeven.pipeline import ReadyPattern, Verdict
from workeven.problems import Severity
from workeven.problems.catalogue import severity
from workeven.proof import ProvenPiece, ProvenRow, chain_multiple, stitch_chart

PATTERNS: Final = Path(__file__).parents[1] / "patterns"
CM: Final = 10

#: "loose fit", larger than the body by so much at the bust, in cm: Craft Yarn Council,
#: https://www.craftyarncouncil.com/standards/body-sizing (second-hand)
LOOSE_FIT: Final = (10, 15)
#: the largest head of an adult woman, in cm: Craft Yarn Council,
#: https://www.craftyarncouncil.com/standards/head-circumference-chart (second-hand)
LARGEST_HEAD: Final = Fraction("58.5")
#: the letters of EN 13402-3 for the sizes that the trade of yarn calls otherwise
EN_LETTERS: Final = {"2X": "XXL", "3X": "3XL", "4X": "4XL", "5X": "5XL"}


@cache
def verdict() -> Verdict:
    """What the check says of the whole collection."""
    return pipeline.check(source.collect([str(PATTERNS)]))


@cache
def ready(slug: str) -> ReadyPattern:
    """One pattern of the collection, ready to publish."""
    found = [outcome.ready for outcome in verdict().outcomes if f"/{slug}/" in outcome.file]
    assert found[0] is not None
    return found[0]


def tee() -> ReadyPattern:
    """The garment."""
    return ready("groynemark-tee")


def finished(pattern: ReadyPattern, name: str) -> tuple[Fraction, ...]:
    """What a measurement of the finished piece is in each size, in cm."""
    return tuple(length / CM for length in pattern.proven.finished[name])


def counts(pattern: ReadyPattern, name: str) -> PerSize[int]:
    """A count of the pattern in each size."""
    return pattern.proven.graded.counts[name].values


def to_fit(pattern: ReadyPattern, name: str) -> tuple[Fraction, ...]:
    """The measurement of the body that each size fits, in cm."""
    return tuple(length / CM for length in dict(pattern.pattern.to_fit)[name])


def chart(measurement: str) -> dict[str, tuple[Fraction, Fraction]]:
    """A line of the body chart for women: lowest and highest by size, in cm."""
    women = standards.body_chart("women")
    assert women is not None
    return {
        entry.size: (entry.low, entry.high)
        for entry in women.values
        if entry.measurement == measurement and entry.unit == "cm"
    }


def piece(pattern: ReadyPattern, name: str) -> ProvenPiece:
    """A piece by its key."""
    return next(found for found in pattern.proven.pieces if found.piece.name == name)


def rows(found: ProvenPiece, *titles: str) -> tuple[ProvenRow, ...]:
    """The rows of some sections of a piece, or of all of them."""
    sections = [s for s in found.sections if not titles or s.section.title in titles]
    return tuple(row for section in sections for row in section.rows)


def worked(found: tuple[ProvenRow, ...], size: int) -> int:
    """How many rows these lines stand for in a size; a starting chain is none."""
    lines = [row.per_size[size] for row in found]
    return sum(line.times or 0 for line in lines if line is not None and line.first is not None)


def test_collection_has_no_problem() -> None:
    """The whole demo collection passes, without even advice."""
    assert () == verdict().problems
    assert [
        "glasswort-raglan",
        "groynemark-tee",
        "haulout-pup",
        "ripplemark-blanket",
        "sandhopper-mitts",
        "swashmark-bolster",
        "whelkstow-basket",
        "wrackline-cardigan",
    ] == [outcome.ready.pattern.slug for outcome in verdict().outcomes if outcome.ready]


@pytest.mark.parametrize(
    ("slug", "gauge", "coarser", "finer"),
    [("wrackline-cardigan", 14, 2, 2), ("glasswort-raglan", 16, 1, 2)],
)
def test_a_gauge_of_one_stitch_more_or_less_regrades_a_garment(
    slug: str, gauge: int, coarser: int, finer: int
) -> None:
    """It comes out, or the row that does not is told: none of the sizes is passed over."""
    text = (PATTERNS / slug / "pattern.yaml").read_text(encoding="utf-8")
    told = []
    for other in (gauge - 1, gauge + 1):
        changed = text.replace(f"{{sts: {gauge}, rows", f"{{sts: {other}, rows")
        assert changed != text
        problems = pattern_files.outcome(changed).problems
        told.append(sum(severity(problem.code) is Severity.ERROR for problem in problems))
    assert [coarser, finer] == told


def test_studio_people_and_yarns_say_that_they_are_invented() -> None:
    """Whoever reads a page of the demo learns that nobody of these names exists."""
    for outcome in verdict().outcomes:
        assert outcome.ready is not None
        told = outcome.ready.pattern
        assert "invented" in (told.story or "")
        assert all("invented" in yarn.label for yarn in told.yarns)
        assert "invented" in told.studio.summary


# --- the garment against published tables ----------------------------------------------------


def test_garment_comes_in_nine_sizes() -> None:
    """The sizes are those of the published body chart for women."""
    assert tuple(chart("bust")) == tee().pattern.sizes.names


def test_bust_to_fit_lies_in_the_letter_range_of_en_13402() -> None:
    """The bust that each size fits is one that EN 13402-3 gives the same letter."""
    ranges = {
        size.code: (size.low_cm, size.high_cm)
        for size in standards.letter_sizes()
        if size.group == "women" and size.measurement == "bust"
    }
    for name, bust in zip(tee().pattern.sizes.names, to_fit(tee(), "bust"), strict=True):
        low, high = ranges[EN_LETTERS.get(name, name)]
        assert low <= bust <= high, name


@pytest.mark.parametrize(("body", "published"), [("bust", "bust"), ("upper arm", "upper arm")])
def test_body_to_fit_lies_in_the_published_chart(body: str, published: str) -> None:
    """Bust and upper arm of each size lie within the chart's range for that size."""
    ranges = chart(published)
    for name, value in zip(tee().pattern.sizes.names, to_fit(tee(), body), strict=True):
        low, high = ranges[name]
        assert low <= value <= high, name


def test_finished_bust_rises_and_is_a_loose_fit() -> None:
    """Each size is larger than the one before, and by the published ease larger than the body."""
    around = finished(tee(), "bust_around")
    assert sorted(set(around)) == list(around)
    low, high = LOOSE_FIT
    assert all(
        low <= made - body <= high for made, body in zip(around, to_fit(tee(), "bust"), strict=True)
    )


def test_armhole_is_deeper_than_the_body_and_cuff_wider_than_the_arm() -> None:
    """The armhole clears the chart's depth by 1 to 3 cm; cuffs can be pushed over the upper arm."""
    depths = chart("armhole depth")
    for name, depth in zip(
        tee().pattern.sizes.names, finished(tee(), "armhole_depth"), strict=True
    ):
        assert 1 <= depth - depths[name][1] <= 3, name
    cuffs = zip(finished(tee(), "cuff"), to_fit(tee(), "upper arm"), strict=True)
    assert all(cuff - arm >= 3 for cuff, arm in cuffs)


def test_sleeves_end_at_the_same_place_in_every_size() -> None:
    """From the middle of the back, each sleeve ends 18 to 22 cm above the chart's wrist."""
    wrists = chart("center back neck to wrist")
    sleeves = finished(tee(), "sleeve_length")
    around = finished(tee(), "bust_around")
    for name, sleeve, bust in zip(tee().pattern.sizes.names, sleeves, around, strict=True):
        low, high = wrists[name]
        assert 18 <= (low + high) / 2 - bust / 4 - sleeve <= 22, name


# --- the garment against itself --------------------------------------------------------------


def test_every_row_of_the_garment_states_its_count() -> None:
    """No row of the tee is left without its count in print."""
    silent = [
        row.row.text
        for found in tee().proven.pieces
        for row in rows(found)
        if row.row.stated is None
    ]
    assert [] == silent


@pytest.mark.parametrize("size", range(9))
def test_sleeve_fits_its_armhole(size: int) -> None:
    """The first round of a sleeve is as long as both sides of the armhole, within 1 cm."""
    stitch, row = Fraction(10, 16), Fraction(10, 9)  # the gauge, in cm
    deep = worked(rows(piece(tee(), "back"), "Armholes and neck"), size) * row
    first = rows(piece(tee(), "sleeve"))[1].per_size[size]
    assert first is not None
    assert first.sts is not None
    assert abs(2 * deep - first.sts * stitch) <= 1


@pytest.mark.parametrize("size", range(9))
def test_seams_join_as_many_rows_or_stitches(size: int) -> None:
    """Side seams and armholes have the same rows, shoulders the same stitches; halves make one."""
    back, front = piece(tee(), "back"), piece(tee(), "front")
    assert worked(rows(back, "Hem", "Body"), size) == worked(rows(front, "Hem", "Body"), size)
    above = worked(rows(front, "Armhole", "Neck and shoulder"), size)
    assert worked(rows(back, "Armholes and neck"), size) == above
    last = rows(front)[-1].per_size[size]
    whole, half = rows(back)[1].per_size[size], rows(front)[1].per_size[size]
    assert last is not None
    assert whole is not None
    assert half is not None
    assert whole.sts == 2 * (half.sts or 0)
    assert counts(tee(), "neck_sts")[size] == (whole.sts or 0) - 2 * (last.sts or 0)


@pytest.mark.parametrize("size", range(9))
def test_head_goes_through_the_neck(size: int) -> None:
    """Neck edge of back and front together are 60 cm or more, and more than the largest head.

    Along each half of the front: the stitches left unworked, six rows of one decrease each (a
    slope whose length is taken as its height alone, which is less), three plain rows.
    """
    stitch, row = Fraction(10, 16), Fraction(10, 9)
    across = counts(tee(), "neck_sts")[size] * stitch
    half = counts(tee(), "neck_drop")[size] * stitch + 9 * row
    opening = across + 2 * half
    assert opening >= 60
    assert opening > LARGEST_HEAD


def line_of(text: str, part: str) -> int:
    """The line (from 1) in which a part of a text begins."""
    return 1 + text[: text.index(part)].count("\n")


@pytest.mark.parametrize(
    ("written", "changed", "code", "told_at"),
    [
        ("*sk 3 sts, 4 dc in next st", "*sk 2 sts, 4 dc in next st", "row-uneven", "*sk 2"),
        ("*sk 3 sts, 4 dc in next st", "*sk 3 sts, 5 dc in next st", "count-stated", ", 5 dc"),
        ("to last 4 sts", "to last 5 sts", "row-uneven", "to last 5 sts"),
        ("ch {body_sts + 2} (", "ch {body_sts + 3} (", "count-stated", "ch {body_sts + 3}"),
        ("dc2tog, turn", "dc in next 2 sts, turn", "count-stated", "dc in next 2 sts, turn"),
        ("3 dc in same st", "2 dc in same st", "count-stated", "2 dc in same st"),
        ("to last 3 sts, sk 3 sts", "to last 3 sts, sk 2 sts", "row-uneven", "sk 2 sts, join"),
        ("{dec_rnds - 1} more", "{dec_rnds} more", "count-stated", "{dec_rnds} more"),
        ("{armhole_rows - 2} more", "{armhole_rows - 1} more", "row-number", "Row 49 (50"),
        ("({shoulder_sts} dc)", "({shoulder_sts} sc)", "count-stated", "({shoulder_sts} sc)"),
        (
            "cuff_sts: {across: cuff, gauge: ground, multiple: 4}",
            "cuff_sts: 50 (52, 56, 60, 64) (72, 76, 80, 84)",
            "row-uneven",
            "3 dc in same",
        ),
    ],
)
def test_change_that_does_not_come_out_is_told_at_its_row(
    written: str, changed: str, code: str, told_at: str
) -> None:
    """A stitch, skip, repeat, decrease, stated count or multiple changed: the row and its sizes."""
    text = Path(tee().pattern.file).read_text(encoding="utf-8")
    assert written in text
    wrong = text.replace(written, changed, 1)
    read = source.read("pattern.yaml", wrong.encode())
    assert read.value is not None
    outcome = pipeline.run(read.value, tee().pattern.studio, read.problems)
    assert outcome.ready is None
    [first, *_] = outcome.problems
    assert (code, line_of(wrong, told_at)) == (first.code, first.span.line)
    assert first.sizes


# --- mitts and basket ------------------------------------------------------------------------


@pytest.mark.parametrize("size", range(3))
def test_thumb_fits_its_opening(size: int) -> None:
    """The thumb has the stitches skipped below the opening and those of the chain above it."""
    thumb = rows(piece(ready("sandhopper-mitts"), "thumb"))[1].per_size[size]
    assert thumb is not None
    assert thumb.sts == 2 * counts(ready("sandhopper-mitts"), "thumb_sts")[size]


@pytest.mark.parametrize("size", range(3))
def test_basket_base_lies_flat(size: int) -> None:
    """Six more each round; the last round is as long as a circle of that many rounds, within 2 %.

    A disc is flat when its edge is 2π times its radius (geometry; 22/7 for π).
    """
    base = rows(piece(ready("whelkstow-basket"), "basket"), "Base")
    made = [line.sts for row in base if (line := row.per_size[size]) is not None]
    assert list(range(6, 6 * len(made) + 1, 6)) == made
    stitch, row = Fraction(10, 11), Fraction(20, 23)
    edge, circle = 6 * len(made) * stitch, len(made) * row * 2 * Fraction(22, 7)
    assert abs(edge - circle) / circle <= Fraction(2, 100)


#: by hand, in S (M, L): each round of an end adds a stitch to each of its twelve parts; the eyelets
#: of rounds 2 and 5 are places too; what a part has is written behind it
BOLSTER_ENDS: Final = (
    (12, {"dc": 12}),  # 1
    (12, {"dc": 12, "ch-1 sp": 12}),  # 1 and an eyelet
    (36, {"dc": 36}),  # 3 in each eyelet
    (48, {"dc": 48}),  # 3, of which one is doubled
    (48, {"dc": 48, "ch-1 sp": 12}),  # 4 and an eyelet
    (72, {"dc": 72}),  # 4, and 2 in the eyelet
    (84, {"dc": 84}),  # 6, of which one is doubled
    (96, {"dc": 96}),
    (108, {"dc": 108}),
    (120, {"dc": 120}),
)
BOLSTER_ROUNDS: Final = (7, 8, 10)


@pytest.mark.parametrize("size", range(3))
def test_bolster_ends_are_as_counted_by_hand(size: int) -> None:
    """Round by round; a size has the rounds up to its own, and no other."""
    end = rows(piece(ready("swashmark-bolster"), "end"))
    made = [line for row in end if (line := row.per_size[size]) is not None and line.first]
    told = [(line.sts, dict(line.makes)) for line in made]
    assert list(BOLSTER_ENDS[: BOLSTER_ROUNDS[size]]) == told


@pytest.mark.parametrize("size", range(3))
def test_bolster_ends_lie_flat_and_are_as_wide_as_they_say(size: int) -> None:
    """The rim is as long as a circle of that many rounds, within 3 %; so far out do they measure.

    A disc is flat when its edge is 2π times its radius (geometry; 22/7 for π).
    """
    number = BOLSTER_ROUNDS[size]
    stitch, row = Fraction(10, 16), Fraction(20, 17)
    edge, circle = 12 * number * stitch, number * row * 2 * Fraction(22, 7)
    assert abs(edge - circle) / circle <= Fraction(3, 100)
    assert finished(ready("swashmark-bolster"), "end_radius")[size] == number * row


@pytest.mark.parametrize(
    ("size", "fans", "rounds"),
    [(0, 14, 37), (1, 16, 43), (2, 20, 52)],
)
def test_bolster_tube_is_as_counted_by_hand(size: int, fans: int, rounds: int) -> None:
    """Fans of 4 dc and a space with a dc between them over 6 sts each; a base and threes of rounds.

    At 10 rounds over 10 cm the rounds are the length in cm; each has a stitch of the end's rim for
    each of its own.
    """
    tube = rows(piece(ready("swashmark-bolster"), "tube"))
    assert worked(tube, size) == rounds
    told = [line for row in tube if (line := row.per_size[size]) is not None and line.first]
    fan = {"dc": 5 * fans, "ch-1 sp": fans}
    assert [dict(line.makes) for line in told[1:3]] == [fan, fan]
    assert {told[0].sts, told[3].sts, told[-1].sts} == {6 * fans}
    assert 12 * BOLSTER_ROUNDS[size] == 6 * fans


def test_bolster_is_drawn_in_rounds_and_as_a_tube() -> None:
    """Both kinds of round charts are on a page of the demo."""
    found = ready("swashmark-bolster")
    graded = found.proven.graded
    charts = [
        stitch_chart(graded, proven, chain_multiple(graded, proven.piece))
        for proven in found.proven.pieces
    ]
    assert [("rounds", 6), ("tube", 7)] == [
        (chart.shape, len(chart.rows)) for chart in charts if chart is not None
    ]
