"""Amounts of yarn: what a swatch tells, what it does not, and how the amount is made."""

from __future__ import annotations

from fractions import Fraction
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from tests.support.records import pattern, per_size, span
from workeven.arithmetic.per_size import Sizes
from workeven.grading import grade
from workeven.notation.tree import Row
from workeven.pattern import Piece, PutUp, Section, Swatch, Yarn
from workeven.problems import Problem
from workeven.proof import (
    Counted,
    ProvenPattern,
    ProvenPiece,
    ProvenRow,
    ProvenSection,
    RowInSize,
)
from workeven.records import replace
from workeven.yarn import YarnNeed, YarnNeeds, estimate
from workeven.yarn.rates import Weighed, plain, rates

SM = Sizes(("S", "M"))
SC = (("ch", 31), ("sc", 900))


def _yarn(name: str = "main", metres: int = 200, grams: int = 50) -> Yarn:
    return Yarn(
        name=name,
        label="Invented",
        weight="fine",
        fibre="wool",
        put_up=PutUp(length=Fraction(metres * 1000), mass=Fraction(grams)),
        colours=(),
        held=1,
        span=span(40),
    )


def _row(*worked: Counted | None, times: int | None = 1) -> ProvenRow:
    counted = [
        None
        if one is None
        else RowInSize(
            first=1,
            last=1,
            times=times,
            sts=0,
            makes=(),
            worked=one,
            side=None,
            height=None,
            stated=None,
        )
        for one in worked
    ]
    row = Row(
        text="ch 1, sc in each st across",
        span=span(60),
        label=None,
        only=None,
        body=None,
        stated=None,
        terms=(),
        amounts=(),
    )
    return ProvenRow(
        row=row, word="Row", anchor="row", multiple=None, per_size=SM.each(tuple(counted))
    )


def _piece(*rows: ProvenRow, make: Any = 1, yarn: str | None = None) -> ProvenPiece:  # noqa: ANN401, one or one a size
    section = Section(
        title="Body",
        worked="flat rows",
        gauge="ground",
        yarn=yarn,
        sizes=None,
        note=None,
        video=None,
        row_notes=(),
        rows=tuple(row.row for row in rows),
        span=span(55),
    )
    piece = Piece(
        name="body",
        title="Body",
        make=per_size(SM, make),
        worked="flat rows",
        sections=(section,),
        span=span(50),
    )
    return ProvenPiece(piece=piece, sections=(ProvenSection(section=section, rows=rows),))


def _swatch(of: str = "main", mass: Fraction | int = 30) -> Swatch:
    return Swatch(
        of=of,
        mass=Fraction(mass),
        mass_span=span(45),
        rows=(),
        worked="flat rows",
        span=span(44),
    )


def _proven(
    *pieces: ProvenPiece,
    yarns: tuple[Yarn, ...] = (_yarn(),),
    swatches: tuple[tuple[Swatch, Counted], ...] = ((_swatch(), SC),),
    margin: Fraction = Fraction(1, 10),
) -> ProvenPattern:
    one = pattern(
        SM,
        yarns=yarns,
        swatches=tuple(swatch for swatch, _ in swatches),
        margin=margin,
        tail=Fraction(0),  # ends are counted elsewhere
        pieces=tuple(piece.piece for piece in pieces),
    )
    graded = grade(one).value
    assert graded is not None
    return ProvenPattern(
        graded=graded,
        pieces=pieces,
        swatches=tuple(counted for _, counted in swatches),
        finished={},
    )


def _needs(proven: ProvenPattern) -> YarnNeeds:
    checked = estimate(proven)
    assert () == checked.problems
    assert checked.value is not None
    return checked.value


def _need(proven: ProvenPattern) -> YarnNeed:
    (need,) = _needs(proven).needs
    return need


def _only(proven: ProvenPattern) -> Problem:
    (problem,) = estimate(proven).problems
    return problem


def test_amount_follows_from_the_swatch_by_division() -> None:
    """Twice the swatch, stitch for stitch, is twice its mass, and the margin on top."""
    need = _need(_proven(_piece(_row(SC, (("ch", 62), ("sc", 1800))))))
    assert (Fraction(33), Fraction(66)) == need.mass.values
    assert (Fraction(132_000), Fraction(264_000)) == need.length.values
    assert (1, 2) == need.balls.values
    assert Fraction(1, 10) == need.margin


def test_method_is_said_in_plain_words() -> None:
    """What was weighed, and how chains were taken."""
    need = _need(_proven(_piece(_row(SC, SC))))
    assert (
        "Computed from all stitches of the rows and the weighed swatch (30 g for 900 sc and 31 "
        "chains); a chain or slip stitch taken as 0.4528 of a sc (measured in unravelled swatches, "
        "www.windchilde.com/bluedepth/tag/crochet)" == need.method
    )


def test_piece_is_counted_as_often_as_it_is_made() -> None:
    """Two sleeves in S, and in M just one."""
    need = _need(_proven(_piece(_row(SC, SC), make=[2, 1]), margin=Fraction(0)))
    assert (Fraction(60), Fraction(30)) == need.mass.values


def test_size_that_does_not_work_a_row_uses_none() -> None:
    """A row for S alone."""
    need = _need(_proven(_piece(_row(SC, None)), margin=Fraction(0)))
    assert (Fraction(30), Fraction(0)) == need.mass.values
    assert (1, 0) == need.balls.values


def test_balls_are_whole_and_up() -> None:
    """Exactly one ball is one, a hair more is two."""
    swatch = ((_swatch(mass=50), (("sc", 1000),)),)
    need = _need(
        _proven(_piece(_row((("sc", 1000),), (("sc", 1001),))), swatches=swatch, margin=Fraction(0))
    )
    assert (1, 2) == need.balls.values


def test_other_basic_stitches_follow_by_published_proportion() -> None:
    """106 g for 100 sc make 204 g for 100 dc, with 20 % to spare at the least."""
    swatch = ((_swatch(mass=106), (("sc", 100),)),)
    need = _need(_proven(_piece(_row((("dc", 100),), (("hdc", 100),))), swatches=swatch))
    assert Fraction(1, 5) == need.margin
    assert (204 * Fraction(6, 5), 157 * Fraction(6, 5)) == need.mass.values
    assert "dc and hdc by published proportions, sc, hdc and dc as 1 : 1.48 : 1.92" in need.method


def test_larger_margin_of_the_pattern_stays() -> None:
    """A designer who asks for a quarter to spare gets it."""
    swatch = ((_swatch(mass=106), (("sc", 100),)),)
    need = _need(
        _proven(_piece(_row((("dc", 100),), (("dc", 1),))), swatches=swatch, margin=Fraction(1, 4))
    )
    assert Fraction(1, 4) == need.margin


def test_swatch_of_its_own_goes_before_proportions() -> None:
    """With a swatch in dc as well, nothing is guessed."""
    swatches = (
        (_swatch(mass=106), (("sc", 100),)),
        (_swatch(mass=150), (("dc", 100),)),
    )
    need = _need(_proven(_piece(_row((("dc", 100),), (("sc", 100),))), swatches=swatches))
    assert Fraction(1, 10) == need.margin
    assert (Fraction(165), Fraction(1166, 10)) == need.mass.values


def test_mixed_swatch_is_parted_by_proportion() -> None:
    """100 sc and 100 dc of 310 g: 106 g and 204 g."""
    swatch = ((_swatch(mass=310), (("sc", 100), ("dc", 100))),)
    need = _need(_proven(_piece(_row((("sc", 100),), (("dc", 100),))), swatches=swatch))
    assert (106 * Fraction(6, 5), 204 * Fraction(6, 5)) == need.mass.values


def test_many_chains_take_the_larger_margin() -> None:
    """Of a mesh the chains take more than a tenth, and no swatch here shows chains."""
    mesh = (("dc", 100), ("ch", 100))
    swatch = ((_swatch(mass=204), (("dc", 100),)),)
    need = _need(_proven(_piece(_row(mesh, (("dc", 100), ("ch", 10)))), swatches=swatch))
    assert Fraction(1, 5) == need.margin
    assert 252 * Fraction(6, 5) == need.mass[0]


def test_other_stitch_with_a_swatch_of_its_own_is_known() -> None:
    """Clusters weighed alone; their chains by the rate of the swatch in sc."""
    swatches = (
        (_swatch(mass=106), (("sc", 100),)),
        (_swatch(mass=248), (("cl", 50), ("ch", 100))),
    )
    need = _need(
        _proven(_piece(_row((("cl", 10),), (("cl", 20),))), swatches=swatches, margin=Fraction(0))
    )
    assert (Fraction(40), Fraction(80)) == need.mass.values


def test_chains_left_to_the_stitch_are_enough_for_no_more_of_them() -> None:
    """A swatch in tr alone: chains as in the swatch are part of the tr, more are unknown."""
    swatch = ((_swatch(mass=100), (("tr", 50), ("ch", 25))),)
    enough = _piece(_row((("tr", 10), ("ch", 5)), (("tr", 10),)))
    assert (Fraction(20), Fraction(20)) == _need(
        _proven(enough, swatches=swatch, margin=Fraction(0))
    ).mass.values
    mesh = _piece(_row((("tr", 10), ("ch", 6)), (("tr", 10),)))
    assert "`ch` takes" in _only(_proven(mesh, swatches=swatch)).found


def test_unknown_stitch_gives_no_amount_and_says_so() -> None:
    """The whole message; the yarn is named among those without an amount."""
    checked = estimate(_proven(_piece(_row((("sc", 9), ("cl", 3)), (("tr", 4),)))))
    (problem,) = checked.problems
    assert "yarn-unknown-stitch" == problem.code
    assert (
        "No swatch of `main` tells how much yarn `cl` and `tr` take, so no amount of it is given."
        == problem.found
    )
    assert "Add weighed swatches, one in each of `cl` and `tr`." == problem.mend
    assert [60, 60] == [note.span.line for note in problem.notes]
    assert checked.value is not None
    assert () == checked.value.needs
    (none,) = checked.value.without
    assert ("main", "no swatch of it shows cl and tr") == (none.yarn.name, none.reason)


def test_unknown_stitch_in_one_piece_leaves_the_others_their_amount() -> None:
    """The message says what the page gives all the same."""
    plain = replace(_piece(_row(SC, SC)), piece=replace(_piece(_row(SC, SC)).piece, title="Back"))
    cluster = _piece(_row((("cl", 3),), (("cl", 4),)))
    cluster = replace(cluster, piece=replace(cluster.piece, name="collar", title="Collar"))
    checked = estimate(_proven(plain, cluster))
    (problem,) = checked.problems
    assert problem.found == (
        "No swatch of `main` tells how much yarn `cl` takes, so no amount of Collar is given, "
        "and none in all. The page gives that of Back."
    )
    assert checked.value is not None
    assert ["Back"] == [one.title for one in checked.value.without[0].pieces]


def test_missing_swatch_is_advice() -> None:
    """A pattern may be published without an amount; it says so."""
    problem = _only(_proven(_piece(_row(SC, SC)), swatches=()))
    assert ("yarn-no-swatch", 40) == (problem.code, problem.span.line)


def test_open_number_of_rows_gives_no_amount() -> None:
    """The proof has told why they are open; no amount is given."""
    checked = estimate(_proven(_piece(_row(SC, SC, times=None))))
    assert checked.value is not None
    assert ((), ()) == (checked.problems, checked.value.needs)
    assert "how many rows are worked is left open" == checked.value.without[0].reason


def test_each_yarn_counts_its_own_sections() -> None:
    """A section without a yarn is worked in the first."""
    proven = _proven(
        _piece(_row(SC, SC)),
        _piece(_row((("sc", 90),), (("sc", 180),)), yarn="edge"),
        yarns=(_yarn(), _yarn("edge", 100, 25)),
        swatches=((_swatch(), (("sc", 900),)), (_swatch("edge", 20), (("sc", 100),))),
        margin=Fraction(0),
    )
    main, edge = _needs(proven).needs
    assert "main" == main.yarn.name
    assert (Fraction(18), Fraction(36)) == edge.mass.values
    assert (1, 2) == edge.balls.values


def test_yarn_that_no_section_names_has_no_amount() -> None:
    """It is not said to need none."""
    proven = _proven(_piece(_row(SC, SC)), yarns=(_yarn(), _yarn("edge")))
    assert ("yarn-unused", 40) == (_only(proven).code, _only(proven).span.line)


def test_swatch_that_weighs_nothing_is_an_error_at_its_mass() -> None:
    """A zero would make every amount zero."""
    problem = _only(_proven(_piece(_row(SC, SC)), swatches=((_swatch(mass=0), SC),)))
    assert ("yarn-zero", 45) == (problem.code, problem.span.line)


@pytest.mark.parametrize("put_up", [(0, 50), (200, 0)])
def test_put_up_of_nothing_is_an_error(put_up: tuple[int, int]) -> None:
    """Neither length nor mass may be zero."""
    problem = _only(_proven(_piece(_row(SC, SC)), yarns=(_yarn("main", *put_up),)))
    assert "yarn-zero" == problem.code


def test_swatch_of_chains_alone_is_an_error() -> None:
    """It shows no stitch."""
    problem = _only(_proven(_piece(_row(SC, SC)), swatches=((_swatch(), (("ch", 20),)),)))
    assert ("yarn-empty-swatch", 44) == (problem.code, problem.span.line)


def test_swatch_of_a_yarn_that_is_not_given_is_told_once() -> None:
    """The pattern's own check has told it: that the yarn now has no swatch is no second mistake."""
    checked = estimate(_proven(_piece(_row(SC, SC)), swatches=((_swatch("mian"), SC),)))
    assert checked.value is not None
    assert ((), ()) == (checked.problems, checked.value.needs)


def test_pattern_without_yarn_needs_none() -> None:
    """Plain and empty."""
    assert YarnNeeds(needs=()) == _needs(_proven(_piece(_row(SC, SC)), yarns=(), swatches=()))


@pytest.mark.parametrize(
    ("worked", "expected"),
    [
        ((("sl st", 3), ("ch", 2)), {"ch": 5}),
        ((("sc2tog", 4), ("sc", 1)), {"sc": 9}),
        ((("dc3tog", 1),), {"dc": 3}),
        ((("scblo", 5), ("sc", 1)), {"sc": 6}),
        ((("rsc", 7),), {"sc": 7}),
        ((("spike", 7), ("sc", 2)), {"spike": 7, "sc": 2}),
        ((("fpdc", 2), ("bpdc", 3)), {"fpdc": 5}),
        ((("fsc", 40),), {"sc": 40, "ch": 40}),
        ((("edc", 2),), {"edc": 2}),
        ((("cl", 2), ("tr", 1)), {"cl": 2, "tr": 1}),
    ],
)
def test_stitches_are_taken_as_basic_ones_by_stated_rules(
    worked: Counted, expected: dict[str, int]
) -> None:
    """Decreases as what they join, loops as plain stitches, posts and extended ones apart."""
    assert expected == plain(worked)


_COUNTS = st.dictionaries(
    st.sampled_from(["sc", "hdc", "dc", "ch"]), st.integers(1, 5000), min_size=1
).filter(lambda stitches: set(stitches) != {"ch"})


@given(stitches=_COUNTS, grams=st.fractions(Fraction(1, 10), 500, max_denominator=100))
def test_swatch_weighs_what_it_weighed(stitches: dict[str, int], grams: Fraction) -> None:
    """Whatever is in it, the rates give a swatch its own mass back."""
    assert grams == rates([Weighed(mass=grams, stitches=stitches)]).mass(stitches)


@given(stitches=_COUNTS, times=st.integers(1, 20))
def test_larger_swatch_tells_the_same(stitches: dict[str, int], times: int) -> None:
    """A swatch worked twice as large and weighing twice as much has the same stitches."""
    once = rates([Weighed(mass=Fraction(30), stitches=stitches)])
    larger = {name: count * times for name, count in stitches.items()}
    assert once == rates([Weighed(mass=Fraction(30) * times, stitches=larger)])


@given(stitches=_COUNTS, more=st.sampled_from(["sc", "hdc", "dc", "ch"]))
def test_one_more_stitch_never_needs_less(stitches: dict[str, int], more: str) -> None:
    """Amounts grow with stitches."""
    told = rates([Weighed(mass=Fraction(30), stitches={"sc": 900, "ch": 31})])
    assert told.mass(stitches) < told.mass({**stitches, more: stitches.get(more, 0) + 1})
