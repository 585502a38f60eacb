"""Care against the published groups of ISO 3758, and fibres against what is common practice."""

from __future__ import annotations

import json
from importlib.resources import files
from typing import Any

import pytest

import workeven
from tests.support import pattern_files
from workeven.standards.care import GROUPS, care_word, care_words, fibres

#: The words of a published list of the code's treatments: washing, bleaching and drying.
#: Citation: https://doublered.eu/content/249-products-care
PUBLISHED = [
    *(("wash", 95, "normal"), ("wash", 70, "normal"), ("wash", 60, "normal")),
    *(("wash", 60, "mild"), ("wash", 50, "mild"), ("wash", 40, "normal"), ("wash", 40, "mild")),
    *(("wash", 40, "very mild"), ("wash", 30, "normal"), ("wash", 30, "mild")),
    *(("wash", 30, "very mild"), ("wash", 30, "hand"), ("wash", None, "none")),
    *(("bleach", None, "any"), ("bleach", None, "oxygen"), ("bleach", None, "none")),
    # the temperatures of tumble drying, about 80 and 60 °C, are recalled
    *(("dry", 80, "normal"), ("dry", 60, "low"), ("dry", None, "none")),
    *((("dry", None, "natural"),) * 8),
]
#: Recalled from ISO 3758, and not looked up.
RECALLED = [
    *(("wash", 50, "normal"), ("iron", 200, "normal"), ("iron", 150, "normal")),
    *(("iron", 110, "normal"), ("iron", None, "none")),
]
CARE = "care:\n  {group}: {word}\n"


def test_treatments_are_those_of_the_published_list() -> None:
    """Washing, bleaching and drying; what is recalled says so."""
    told = [
        (one.group, one.most_c, one.process)
        for one in care_words()
        if one.group != "professional" and one.origin.status == "found"
    ]
    recalled = [
        (one.group, one.most_c, one.process)
        for one in care_words()
        if one.group != "professional" and one.origin.status == "memory"
    ]
    assert (PUBLISHED, RECALLED) == (told, recalled)


def test_groups_stand_in_the_order_of_the_standard() -> None:
    """Washing, bleaching, drying, ironing, professional care.

    Citation: the scope of ISO 3758:2023,
    https://www.skybearstandards.com/documents/3758-textiles-care-labelling-code-using-symbols/
    """
    order = ["Washing", "Bleaching", "Drying", "Ironing", "Professional care"]
    assert order == list(GROUPS.values())
    groups = [one.group for one in care_words()]
    assert groups == sorted(groups, key=list(GROUPS).index)


def test_page_tells_care_in_the_order_of_the_standard() -> None:
    """However the file orders it."""
    text = "care:\n  iron: 110C\n  wash: hand wash\n  dry: [dry flat, do not tumble dry]\n"
    found = pattern_files.outcome(pattern_files.GOOD + text).ready
    assert found is not None
    assert found.pattern.care is not None
    assert ["by hand", "do not tumble dry", "flat", "110 °C"] == [
        one.word for one in found.pattern.care.treatments
    ]


def test_no_two_words_are_written_alike() -> None:
    """A word that stood for two treatments would be read as the second."""
    written = [(one.group, way.lower()) for one in care_words() for way in (one.word, *one.also)]
    assert len(set(written)) == len(written)


def test_schema_tells_every_word() -> None:
    """What an editor shows at the key is what is read there."""
    schema: dict[str, Any] = json.loads(
        files(workeven).joinpath("schemas/pattern.schema.json").read_text("utf-8")
    )
    told = schema["properties"]["care"]["properties"]
    for group in GROUPS:
        words = told[group]["description"].partition(": ")[2].split(", ")
        assert [one.word for one in care_words() if one.group == group] == words


@pytest.mark.parametrize(
    ("fibre", "group", "word", "told"),
    [
        # wool and other animal fibres felt in heat (common practice)
        ("100% wool", "wash", "60 °C", True),
        ("100% wool", "wash", "50 °C mild", True),
        ("100% wool", "wash", "40 °C", False),
        ("100% wool", "wash", "by hand", False),
        ("100% superwash wool", "wash", "60 °C", False),
        ("60% cotton 40% alpaca", "dry", "tumble dry", True),
        ("60% cotton 40% alpaca", "dry", "tumble dry low", False),
        ("60% cotton 40% alpaca", "dry", "do not tumble dry", False),
        ("100% superwash merino", "dry", "tumble dry", False),
        # chlorine destroys protein fibres (common practice)
        ("100% silk", "bleach", "any bleach", True),
        ("100% superwash wool", "bleach", "any bleach", True),
        ("100% silk", "bleach", "no chlorine", False),
        ("100% artificial silk", "bleach", "any bleach", False),
        # what melts goes flat under a hot iron (common practice)
        ("100% acrylic", "iron", "200 °C", True),
        ("100% acrylic", "iron", "110 °C", False),
        ("80% cotton 20% nylon", "iron", "200 °C", True),
        ("100% polyester", "iron", "150 °C", False),
        ("100% cotton", "iron", "200 °C", False),
        # what the table has not is left to the designer
        ("100% moss", "wash", "95 °C", False),
    ],
)
def test_fibres_bear_what_is_common_practice(
    fibre: str,
    group: str,
    word: str,
    told: bool,  # noqa: FBT001, a column
) -> None:
    """Advice at the word of the care, and only where a fibre of the table is harmed."""
    text = pattern_files.changed("fibre: 100% cotton", f"fibre: {fibre}")
    found = pattern_files.outcome(text + CARE.format(group=group, word=word))
    assert (["care-fibre"] if told else []) == [one.code for one in found.problems]
    assert all(one.span.line == len(text.splitlines()) + 2 for one in found.problems)


@pytest.mark.parametrize(
    ("care", "codes"),
    [
        ("Machine wash at 60 °C and tumble dry.", 2),
        ("Machine wash at 60 degrees, dry flat.", 1),
        ("Wash at 40 °C on the wool cycle.", 0),
        ("Wash by hand at 30 °C. Do not tumble dry.", 0),
        ("Never wash it at 60 °C.", 0),
        ("Tumble dry on low heat.", 0),
        ("Wash cool, dry flat.", 0),
    ],
)
def test_free_words_are_held_against_the_fibre_where_they_are_plain(care: str, codes: int) -> None:
    """They are printed as they stand, and judged as a table would be (common practice)."""
    text = pattern_files.changed("fibre: 100% cotton", "fibre: 100% wool")
    found = pattern_files.outcome(f"{text}care: {care}\n")
    assert ["care-fibre"] * codes == [one.code for one in found.problems]
    assert found.ready is not None
    assert found.ready.pattern.care is not None
    assert ((), care) == (found.ready.pattern.care.treatments, found.ready.pattern.care.note)


def test_of_several_yarns_the_mildest_rule_holds() -> None:
    """Acrylic bears less of an iron than polyester, whichever comes first."""
    text = pattern_files.changed("fibre: 100% cotton", "fibre: 60% polyester 40% acrylic")
    (told,) = pattern_files.outcome(text + CARE.format(group="iron", word="200 °C")).problems
    assert told.expected.startswith("Acrylic melts or goes flat under an iron above 110 °C")
    assert "polyester" in told.found


@pytest.mark.parametrize(
    ("fibre", "told"),
    [
        ("80% wool 20% nylon", False),
        ("33.3% wool, 66.7% silk", False),
        ("50 % cotton, 50 % linen", False),
        ("wool and nylon", False),
        ("80% wool 30% nylon", True),
        ("80% wool, nylon", True),
    ],
)
def test_fibres_add_up(fibre: str, told: bool) -> None:  # noqa: FBT001, a column
    """As on a band.

    Citation: "80 % acrylic, 20 % wool",
    http://www.lionbrandyarnstudio.com/index.php/how-to-read-a-yarn-label/
    """
    found = pattern_files.outcome(pattern_files.changed("fibre: 100% cotton", f"fibre: '{fibre}'"))
    assert (["yarn-fibre-sum"] if told else []) == [one.code for one in found.problems]


def test_what_fibres_bear_is_marked_as_common_practice() -> None:
    """None of it was looked up in a standard."""
    assert {("common practice", "memory")} == {
        (one.origin.citation, one.origin.status) for one in fibres()
    }


@pytest.mark.parametrize(
    ("group", "text", "word"),
    [
        ("wash", "Hand wash", "by hand"),
        ("wash", "40 C, mild", "40 °C mild"),
        ("wash", "30 degrees", "30 °C"),
        ("dry", "Lay flat", "flat"),
        ("iron", "one dot", "110 °C"),
        ("wash", "45 °C", None),
        ("wash", "flat", None),
    ],
)
def test_words_are_read_as_they_are_written(group: str, text: str, word: str | None) -> None:
    """Degrees, commas and capitals are no matter."""
    found = care_word(group, text)
    assert word == (found and found.word)
