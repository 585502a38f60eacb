"""What is begun by ``workeven new`` checks, whatever was chosen."""

from __future__ import annotations

from collections.abc import Iterator
from itertools import product

import pytest

from tests.support.pattern_files import outcome
from workeven import starter


def every_choice() -> Iterator[starter.Wanted]:
    """Each kind for each wearer in each unit, way and set of sizes."""
    for kind, wearer, units in product(starter.KINDS, starter.WEARERS, ("cm", "in")):
        charted = starter.sizes_of(kind, wearer)
        sets = [charted, *((name,) for name in charted)]
        if not charted:
            sets = [("One size",), ("S", "M", "L"), tuple(f"{at} yrs" for at in range(24))]
        for sizes, worked in product(sets, starter.ways_of(kind)):
            yield starter.Wanted(
                title="Sea: the 'net' #1",
                kind=kind,
                wearer=wearer,
                sizes=sizes,
                worked=worked,
                units="cm" if units == "cm" else "in",
                schema="../../schema/pattern.schema.json",
            )


@pytest.mark.parametrize("kind", starter.KINDS)
def test_every_choice_checks_without_a_word_but_of_the_swatch(kind: str) -> None:
    """No error and no advice, but that no swatch was weighed."""
    wanted = [one for one in every_choice() if one.kind == kind]
    told = [
        (one, problem.code)
        for one in wanted
        for problem in outcome(starter.pattern_text(one)).problems
        if problem.code != "yarn-no-swatch"
    ]
    assert [] == told
    assert len(wanted) >= 30


def test_the_swatch_in_the_comments_checks_too() -> None:
    """Who takes the ``#`` away has the yarn of every size, and no problem left."""
    for kind in starter.KINDS:
        text = starter.pattern_text(
            starter.Wanted(
                title="x",
                kind=kind,
                wearer="women",
                sizes=starter.sizes_of(kind, "women") or ("S", "M"),
                worked=starter.ways_of(kind)[0],
            )
        )
        lines = text.split("\n")
        start = lines.index("# swatches:")
        end = next(at for at in range(start, len(lines)) if not lines[at].startswith("#"))
        lines[start : start + 8] = [line[2:] for line in lines[start : start + 8]]
        made = outcome("\n".join(lines))
        assert end > start
        assert {"yarn-tallied"} >= {one.code for one in made.problems if kind in ("square", "hat")}
        assert made.ready is not None


@pytest.mark.parametrize("kind", starter.KINDS)
def test_what_is_for_children_has_the_cautions_for_them(kind: str) -> None:
    """The engine gives them from audience, ages and use; the file says what they are not."""
    for wearer in ("youth", "children", "babies"):
        wanted = next(one for one in every_choice() if (one.kind, one.wearer) == (kind, wearer))
        text = starter.pattern_text(wanted)
        made = outcome(text)
        assert made.ready is not None
        assert "They certify nothing" in text
        assert made.ready.cautions.cautions or (kind == "square" and wearer != "babies")


def test_every_part_has_a_comment() -> None:
    """Each key at the top that a designer has to decide on stands below a comment."""
    wanted = next(one for one in every_choice() if one.kind == "hat")
    lines = starter.pattern_text(wanted).splitlines()
    for key in ("audience:", "terms:", "sizes:", "gauge:", "yarn:", "measurements:", "counts:"):
        at = next(at for at, line in enumerate(lines) if line.startswith(key))
        assert lines[at - 1].startswith("#"), key


@pytest.mark.parametrize(
    "title", ["yes", "012", "- x", "a: b # c", "'", '"', "[x]", "*", "é–½", "~"]
)
def test_a_title_is_kept_as_it_is(title: str) -> None:
    """YAML has no say in it."""
    wanted = starter.Wanted(
        title=title, kind="square", wearer="women", sizes=("One size",), worked="flat rows"
    )
    made = outcome(starter.pattern_text(wanted))
    assert made.ready is not None
    assert title == made.ready.pattern.title.text
