"""Which cautions a pattern carries, and what a designer is told."""

from __future__ import annotations

import json
from importlib.resources import files
from typing import Any

import pytest

import workeven
from tests.support import pattern_files
from workeven.pipeline import Outcome
from workeven.safety import purpose, usual
from workeven.standards.safety import safety_rule


def made(
    told: str, *, extra: str = "", fibre: str = "100% cotton", finishing: str = "Weave in all ends."
) -> Outcome:
    """The good pattern for somebody else, with more at its end."""
    text = pattern_files.changed("audience: adult\nuse: [home]\n", f"{told}\n")
    text = text.replace("fibre: 100% cotton", f"fibre: {fibre}")
    text = text.replace("Weave in all ends.", finishing)
    return pattern_files.outcome(text + extra)


def topics(told: str, extra: str = "") -> list[str]:
    """The topics of the cautions of a pattern that is fit to publish."""
    found = made(told, extra=extra)
    assert found.ready is not None, [one.found for one in found.problems]
    return [one.topic for one in found.ready.cautions.cautions]


def codes(outcome: Outcome) -> list[str]:
    """The codes of all problems."""
    return [problem.code for problem in outcome.problems]


STUFFED = "notions:\n  - {kind: stuffing}\n"


@pytest.mark.parametrize(
    ("told", "extra", "expected"),
    [
        ("audience: adult\nuse: [wear]", "", []),
        ("audience: adult\nuse: [blanket]", "", []),
        ("audience: adult\nuse: [home]", "", []),
        ("audience: adult\nuse: [home]", STUFFED, ["Not a toy"]),
        ("audience: adult\nuse: [kitchen]", "", ["Heat"]),
        ("audience: adult\nuse: [flame]", "", ["Heat", "Flames"]),
        ("audience: adult\nuse: [bag]", "", ["Load"]),
        ("audience: adult\nuse: [hammock]", "", ["Load"]),
        ("audience: adult\nuse: [hanging]", "", ["Cords near a cot", "Load"]),
        ("audience: adult\nuse: [toy]", "", ["Small parts", "Toys"]),
        ("audience: pet\nuse: [toy]", "", ["Small parts", "Toys", "Pets"]),
        (
            "audience: baby\nuse: [blanket]",
            "",
            ["Safe sleep", "Cords near a cot", "Small parts"],
        ),
        (
            "audience: baby\nuse: [wear]",
            "",
            ["Hats indoors", "Cords and drawstrings", "Small parts"],
        ),
        (
            "audience: baby\nuse: [sleep]",
            "",
            [
                *("Safe sleep", "Hats indoors", "Cords and drawstrings", "Small parts"),
                "Clothes to sleep in",
            ],
        ),
        ("audience: baby\nuse: [hammock]", "", ["Safe sleep", "Small parts", "Load"]),
        ("audience: baby\nuse: [toy]", STUFFED, ["Safe sleep", "Small parts", "Toys"]),
        ("audience: child\nages: 4 to 8 years\nuse: [wear]", "", ["Cords and drawstrings"]),
        (
            "audience: child\nages: 4 to 8 years\nuse: [sleep]",
            "",
            ["Cords and drawstrings", "Clothes to sleep in"],
        ),
        ("audience: child\nages: 3 to 6 years\nuse: [toy]", "", ["Not for the youngest"]),
        ("audience: child\nages: 3 to 6 years\nuse: [toy]", STUFFED, ["Small parts", "Toys"]),
    ],
)
def test_cautions_follow_from_audience_and_use(told: str, extra: str, expected: list[str]) -> None:
    """The gravest first."""
    assert expected == topics(told, extra)


def test_rules_of_a_caution_are_those_of_the_ages() -> None:
    """What is for other ages is not told; what holds whatever the ages are is."""
    found = made("audience: child\nages: 8 to 10 years\nuse: [sleep]").ready
    assert found is not None
    cords, sleepwear = found.cautions.cautions
    assert "neck cord EU, older" in cords.keys
    assert "neck cord EU, young" not in cords.keys
    assert ("sleepwear US, larger", "nightwear EU and UK") == sleepwear.keys


def test_cautions_close_with_what_they_are_not() -> None:
    """Whatever they say, local rules and qualified people come first."""
    found = made("audience: baby\nuse: [blanket]").ready
    assert found is not None
    assert found.cautions.closing.startswith(
        "Check the rules where you live or sell; this is not legal or safety certification."
    )


def test_heat_names_the_fibre_that_melts() -> None:
    """On the page, and to the designer as advice."""
    found = made("audience: adult\nuse: [kitchen]", fibre="60% cotton 40% acrylic")
    assert ["caution-melting"] == codes(found)
    assert found.ready is not None
    assert found.ready.cautions.cautions[0].words.endswith(
        "The yarn of this pattern holds acrylic."
    )


@pytest.mark.parametrize("key", ["audience", "use"])
def test_audience_and_use_have_to_be_there(key: str) -> None:
    """Nothing about safety can be decided without them."""
    line = {"audience": "audience: adult\n", "use": "use: [home]\n"}[key]
    found = pattern_files.outcome(pattern_files.changed(line, ""))
    assert (["file-key-missing"], None) == (codes(found), found.ready)
    assert key in found.problems[0].found + found.problems[0].mend


@pytest.mark.parametrize(
    ("told", "expected"),
    [
        ("audience: adult\nages: 3 to 6 years", ["caution-ages"]),
        ("audience: adult\nages: from 14 years", []),
        ("audience: pet\nages: 2 years", ["caution-ages"]),
        ("audience: baby\nages: 0 to 24 months", []),
        ("audience: baby\nages: 3 to 6 years", ["caution-ages"]),
        ("audience: child\nages: 20 to 30 years", ["caution-ages"]),
        ("audience: child\nages: toddlers", ["unit-ages"]),
        ("audience: child\nages: 2T to 4T", ["unit-ages"]),
        ("audience: child\nages: 6 to 3 years", ["unit-ages"]),
    ],
)
def test_ages_are_those_of_the_audience(told: str, expected: list[str]) -> None:
    """One mistake, one message, at the ages."""
    found = made(f"{told}\nuse: [wear]")
    assert expected == codes(found)
    assert all(one.span.line == 4 for one in found.problems)


@pytest.mark.parametrize(
    ("finishing", "filled"),
    [
        ("Stuff it firmly and close the seam.", True),
        ("Stuff the head firmly without stretching it; no gap may show.", True),
        ("Fill the body firmly with wool and close it.", True),
        ("Pack the body with cotton wadding and sew it up.", True),
        ("Pad the head with yarn scraps.", True),
        ("Close the opening over the polyester filling.", True),
        ("Do not stuff the fins. Stuff the body.", True),
        ("Do not stuff the toy.", False),
        ("Leave it flat, without any filling, and sew the eyes on.", False),
        ("No filling or stuffing is needed.", False),
        ("Fill in the row ends with sc.", False),
        ("Each of the filled squares is filled with 3 dc.", False),
    ],
)
def test_stuffing_in_the_words_counts_as_much_as_in_the_notions(
    finishing: str,
    filled: bool,  # noqa: FBT001, a column
) -> None:
    """Who forgets to list it has a soft-filled toy all the same; who denies it has none."""
    found = made(
        "audience: child\nages: from 3 years\nuse: [toy]",
        extra="notions:\n  - {kind: safety eyes, amount: 2}\n",
        finishing=finishing,
    )
    assert (["caution-small-part"] if filled else []) == codes(found)


@pytest.mark.parametrize(
    ("old", "new"),
    [
        ("title: Sand Mat", "title: Stuffed Seal"),
        ("summary: A mat", "summary: A toy full of stuffing"),
        ("finishing:", "notions:\n  - {kind: other, note: polyester filling}\nfinishing:"),
    ],
)
def test_filling_told_anywhere_makes_a_soft_filled_toy(old: str, new: str) -> None:
    """In the title, in the summary, or as a notion of no kind."""
    text = pattern_files.changed(
        "audience: adult\nuse: [home]\n", "audience: child\nages: from 3 years\nuse: [toy]\n"
    ).replace(old, new)
    found = pattern_files.outcome(text)
    assert found.ready is not None
    assert "Toys" in [one.topic for one in found.ready.cautions.cautions]


CORD_OF_YARN = "trimmings:\n  - {kind: cord, amount: 2, strands: 3, length: 60 cm}\n"


@pytest.mark.parametrize(
    ("told", "notion", "expected"),
    [
        ("audience: child\nages: 3 to 6 years\nuse: [wear]", "", ["caution-cord-place"]),
        ("audience: baby\nuse: [wear]", "", ["caution-cord-place"]),
        ("audience: baby\nuse: [wear]", "{kind: cord, at: neck}", ["caution-cord"]),
        ("audience: baby\nuse: [wear]", "{kind: cord, at: waist}", ["caution-cord-length"]),
        ("audience: child\nages: 15 to 17 years\nuse: [wear]", "", []),
        ("audience: child\nages: 3 to 6 years\nuse: [home]", "", []),
        ("audience: adult\nuse: [wear]", "", []),
    ],
)
def test_cord_among_the_trimmings_says_its_place(
    told: str, notion: str, expected: list[str]
) -> None:
    """A cord twisted of the yarn catches as a bought one; trimmings hold no places."""
    notions = f"notions:\n  - {notion}\n" if notion else ""
    assert expected == codes(made(told, extra=CORD_OF_YARN + notions))


@pytest.mark.parametrize(
    ("finishing", "expected"),
    [
        ("Thread the drawstring through the eyelets.", ["caution-unlisted"]),
        ("There is no drawstring, and no ribbon either.", []),
        ("Sew the ends in. Do without cords.", []),
        ("Sew on the button.", []),
    ],
)
def test_cord_that_only_the_text_tells_of(finishing: str, expected: list[str]) -> None:
    """A cord of yarn is no bought notion, and catches as one."""
    found = made("audience: child\nages: 3 to 6 years\nuse: [wear]", finishing=finishing)
    assert expected == codes(found)


@pytest.mark.parametrize(
    ("told", "note", "expected"),
    [
        ("audience: child\nages: 3 to 6 years\nuse: [wear]", "satin cord", ["caution-other"]),
        ("audience: child\nages: 3 to 6 years\nuse: [wear]", "felt, no cord", []),
        ("audience: child\nages: 3 to 6 years\nuse: [wear]", "a sheet of felt", []),
        ("audience: adult\nuse: [toy]", "two wooden beads", ["caution-other"]),
        ("audience: adult\nuse: [wear]", "satin cord", []),
    ],
)
def test_cord_hides_behind_no_other_kind(told: str, note: str, expected: list[str]) -> None:
    """Rules are found by the kind of a notion, so a cord or a part says its own."""
    extra = f"notions:\n  - {{kind: other, note: '{note}'}}\n"
    assert expected == codes(made(told, extra=extra))


def test_other_kind_says_what_it_is() -> None:
    """Nobody can shop for "other"."""
    found = made("audience: adult\nuse: [wear]", extra="notions:\n  - {kind: other}\n")
    assert ["file-key-missing"] == codes(found)
    assert "A notion of the kind `other` needs a `note` that says what it is." == (
        found.problems[0].found
    )


def test_part_that_only_the_text_tells_of() -> None:
    """On a toy; a text that forbids it is none."""
    toy = "audience: baby\nuse: [toy]"
    assert ["caution-unlisted"] == codes(made(toy, finishing="Sew on two buttons as eyes."))
    assert [] == codes(made(toy, finishing="Embroider the eyes; use no buttons or beads."))


def test_notion_of_no_size_is_none() -> None:
    """An amount of 0 in all sizes."""
    extra = "notions:\n  - {kind: drawstring, amount: 0, at: hood}\n"
    assert [] == codes(made("audience: baby\nuse: [wear]", extra=extra))


def test_every_kind_of_notion_has_been_judged() -> None:
    """A kind that is added to the list is a cord, a part, a filling, or known to be harmless."""
    schema: dict[str, Any] = json.loads(
        files(workeven).joinpath("schemas/pattern.schema.json").read_text("utf-8")
    )
    kinds = set(schema["properties"]["notions"]["items"]["properties"]["kind"]["enum"])
    judged = {*purpose.CORDS, *purpose.FASTENERS, *purpose.SMALL_PARTS, *purpose.FILLINGS}
    judged |= purpose.PARTS_OF_ANY_SIZE
    assert judged <= kinds
    assert HARMLESS == kinds - judged


#: Nothing of these is small and hard, or hangs with free ends; tools stay with the maker.
HARMLESS = {
    *("elastic", "pompom", "tassel", "lining", "interfacing", "sewing thread", "stiffener"),
    *("stitch marker", "yarn needle", "pins", "frame", "hanging loop", "other"),
}


def test_months_of_the_decisions_are_those_of_the_table() -> None:
    """Under 3 years ends with the 35th month, 7 to 14 years with the 168th."""
    assert safety_rule("small parts US").last_month == usual.THREE_YEARS - 1
    assert safety_rule("neck cord EU, older").last_month == 14 * 12
