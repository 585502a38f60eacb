"""Every printed number of safety against its citation, and what is decided from it.

The rules are told in words of our own; ages and numbers stand here a second time, as they were read
in the source that is named beside each.
"""

from __future__ import annotations

import re

import pytest

from tests.support import pattern_files
from workeven.safety import REST
from workeven.safety.usual import USUAL
from workeven.standards.safety import safety_rule, safety_rules

CPSC = (
    "https://www.cpsc.gov/Business--Manufacturing/Business-Education/Business-Guidance/"
    "Drawstrings-in-Childrens-Upper-Outerwear/Frequently-Asked-Questions-FAQs"
)
TUKES = (
    "https://tukes.fi/en/products-and-services/general-consumer-goods/textiles/"
    "cords-and-drawstrings-on-children-s-clothing"
)
TITLE_16 = (
    "https://checkoutapi.com/regulations/expand/title16_chapterII_part1615_subpartA_section1615.4"
)
ABC = (
    "https://abcnews.go.com/GMA/Wellness/infant-sleep-guidelines-advise-hats-weighted-swaddles-"
    "blankets/story?id=85512914"
)

#: key: (ages as published, numbers as published, part of the citation)
PUBLISHED = {
    "hood cord US": ("sizes 2T to 12", "none allowed", CPSC),
    "waist cord US": (
        "sizes 2T to 16",
        "3 in outside the channel, garment at full width",
        CPSC,
    ),
    "cord incidents US": (
        "18 months to 15 years",
        "26 deaths, 73 non-fatal (neck/hood)",
        "http://cpsc.gov/FAQ/Drawstrings-in-Children%E2%80%99s-Upper-Outerwear",
    ),
    "neck cord EU, young": ("up to 7 years or 134 cm", "none allowed", TUKES),
    "neck cord EU, older": (
        "7 to 14 years",
        "girls 176 cm, boys 182 cm upper height",
        "http://bioline-jato.eu/risks-from-cords-and-drawstrings-on-childrens-clothing",
    ),
    "cord scope EU": ("up to 14 years", "", "https://standards.iteh.ai/catalog/standards/sist/"),
    "small parts US": (
        "under 3 years",
        "cylinder 1.25 in wide, 1.00 to 2.25 in deep",
        "https://ttl-labs.com/laboratory-capabilities/toy-safety-standard/",
    ),
    "small parts warning US": (
        "3 to 6 years",
        "",
        "https://jjrlab.com/news/us-toy-safety-standards.html",
    ),
    "toy label US": (
        "3 to under 6",
        "ASTM F963-17 5.3, 5.11.2",
        "https://crs.ul.com/en/insights-into-2019-us-recalls-choking-hazard-small-parts/",
    ),
    "toy EU": (
        "under 36 months",
        "",
        "https://speac-academy.eu/all-learning-modules/toy-safety/faqs",
    ),
    "soft toy EU": (
        "under 36 months",
        "",
        "https://paperzz.com/doc/7905915/warnings-in-en-71-1-2011---toy-industries-of-europe",
    ),
    "toy parts EU": ("", "", "https://law.resource.org/pub/eu/toys/en.71.13.2014.html"),
    "sleepwear US, small": ("over 9 months to 6X", "", TITLE_16),
    "sleepwear US, infant": (
        "0 to 9 months",
        "one-piece at most 64.8 cm (25.75 in); two-piece at most 40 cm (15.75 in) each",
        TITLE_16,
    ),
    "sleepwear US, larger": (
        "sizes 7 to 14",
        "",
        "http://edocket.access.gpo.gov/cfr_2007/janqtr/16cfr1616.2.htm",
    ),
    "safe sleep": (
        "under 1 year",
        "incline at most 10 degrees",
        "https://www.babysleep.com/news/2022-american-academy-of-pediatrics-aap-safe-sleep-",
    ),
    "hats indoors": ("infants", "", ABC),
    "weighted": ("infants", "", ABC),
    "cords at the cot": (
        "infants",
        "",
        "https://safesleep.mo.gov/american-academy-of-pediatrics-recommendations",
    ),
    "breaks": (
        "makers",
        "break every 30 to 60 min",
        "https://handmadebyhaniyyah.com/archives/3653",
    ),
    "eyes": ("makers", "every 20 min", "https://conta.cc/40zSGhr"),
}
#: Recalled, or the practice of the trade: nothing of it is printed as a published number.
NOT_LOOKED_UP = {
    *("cord length EU", "small parts on clothes", "nightwear EU and UK"),
    *("heat", "load", "pets", "decoration"),
}


@pytest.mark.parametrize("key", PUBLISHED)
def test_rule_is_the_published_one(key: str) -> None:
    """Ages, numbers and citation; it was found in the source that is named."""
    rule = safety_rule(key)
    ages, numbers, citation = PUBLISHED[key]
    assert (ages, numbers, "found") == (rule.ages, rule.numbers, rule.origin.status)
    assert citation in rule.origin.citation
    printed = (numbers,) if rule.region == "general" else (ages, numbers)
    assert all(told in rule.said() for told in printed)


def test_every_rule_is_looked_up_here_or_said_to_be_recalled() -> None:
    """Nothing slips in between."""
    rules = {rule.key: rule for rule in safety_rules()}
    assert set(rules) == set(PUBLISHED) | NOT_LOOKED_UP
    assert {"memory"} == {rules[key].origin.status for key in NOT_LOOKED_UP}


@pytest.mark.parametrize("key", sorted(NOT_LOOKED_UP))
def test_what_is_recalled_prints_no_length(key: str) -> None:
    """The lengths of EN 14682 for waist and hem are recalled: 75 mm and 140 mm are not printed."""
    said = safety_rule(key).said()
    assert "(recalled, not looked up: read the rule itself)" in said or "common practice" in said
    assert not re.search(r"\d ?(?:mm|cm|in)\b", said)


def test_words_of_cautions_hold_no_number() -> None:
    """Numbers stand in the rules alone, each with its citation."""
    cautions = (*(one.caution for one in USUAL), REST)
    assert [] == [one.topic for one in cautions if re.search(r"\d", one.words)]


def test_every_caution_has_a_rule() -> None:
    """Published, or said to be common practice."""
    assert [] == [one.caution.topic for one in USUAL if not one.caution.keys and not one.always]
    keys = {key for one in USUAL for key in (*one.caution.keys, *one.always)}
    assert {*keys, *REST.keys} == {rule.key for rule in safety_rules()}


def errors(audience: str, ages: str, use: str, notion: str) -> list[str]:
    """The codes of a mat for somebody of these ages with one notion."""
    told = f"audience: {audience}\n" + (f"ages: {ages}\n" if ages else "")
    text = pattern_files.changed("audience: adult\nuse: [home]\n", f"{told}use: [{use}]\n")
    found = pattern_files.outcome(f"{text}notions:\n  - {{{notion}}}\n")
    return [problem.code for problem in found.problems]


@pytest.mark.parametrize("at", ["hood", "neck"])
@pytest.mark.parametrize("kind", ["cord", "drawstring", "ribbon"])
@pytest.mark.parametrize(
    ("audience", "ages"),
    [
        # EN 14682, up to 7 years (Tukes): babies are among them
        ("baby", ""),
        ("baby", "6 to 12 months"),
        ("child", "under 3 years"),
        ("child", "6 to 7 years"),
        # US sizes 2T to 12 (CPSC), and EN 14682, 7 to 14 years
        ("child", "2 to 4 years"),
        ("child", "8 to 12 years"),
        ("child", "13 to 14 years"),
        ("child", "14 to 16 years"),
        ("child", "from 3 years"),
    ],
)
def test_cord_at_hood_or_neck_is_an_error_within_the_published_ages(
    audience: str, ages: str, kind: str, at: str
) -> None:
    """None up to 14, the stricter of what the United States and the European Union publish."""
    assert ["caution-cord"] == errors(audience, ages, "wear", f"kind: {kind}, at: {at}")


@pytest.mark.parametrize(("audience", "ages"), [("adult", ""), ("child", "15 to 17 years")])
def test_cord_at_the_neck_is_allowed_beyond_the_published_ages(audience: str, ages: str) -> None:
    """No rule of the table is for them."""
    assert [] == errors(audience, ages, "wear", "kind: drawstring, at: neck")


@pytest.mark.parametrize("use", ["toy", "home", "hanging"])
def test_neck_of_what_is_not_worn_is_its_own(use: str) -> None:
    """A ribbon round the neck of a toy is not at the neck of a child."""
    assert "caution-cord" not in errors("child", "4 to 6 years", use, "kind: ribbon, at: neck")


def test_hooded_blanket_is_worn() -> None:
    """A blanket may have a hood, which is drawn around a head."""
    assert ["caution-cord"] == errors("baby", "", "blanket", "kind: drawstring, at: hood")


@pytest.mark.parametrize(
    ("audience", "ages"),
    [
        ("adult", ""),
        ("pet", ""),
        ("baby", ""),
        ("child", "2 to 4 years"),
        ("child", "under 3 years"),
    ],
)
@pytest.mark.parametrize("kind", ["button", "safety eyes", "safety nose", "bead", "snap"])
def test_small_part_on_a_toy_is_an_error(audience: str, ages: str, kind: str) -> None:
    """Nothing for under 3 (16 CFR 1501, 2009/48/EC); who says no age is taken as under 3."""
    assert ["caution-small-part"] == errors(audience, ages, "toy", f"kind: {kind}")


def test_small_part_on_a_toy_is_allowed_from_three_years_where_nothing_is_filled() -> None:
    """From 36 months on a warning is asked for (EN 71-1, ASTM F963), which the page prints."""
    assert [] == errors("child", "from 3 years", "toy", "kind: button")
    assert [] == errors("child", "36 months to 6 years", "toy", "kind: safety eyes")
    assert ["caution-small-part"] == errors("child", "35 months to 6 years", "toy", "kind: button")


def test_soft_filled_toy_is_for_the_youngest_whatever_is_written() -> None:
    """EN 71-1: it may not carry the warning (Toy Industries of Europe)."""
    filled = "kind: stuffing}\n  - {kind: safety eyes"
    assert ["caution-small-part"] == errors("child", "8 to 10 years", "toy", filled)


@pytest.mark.parametrize(
    ("use", "kind", "expected"),
    [
        ("wear", "button", []),
        ("wear", "snap", []),
        ("wear", "bead", ["caution-small-part"]),
        ("wear", "safety eyes", ["caution-small-part"]),
        ("blanket", "button", ["caution-small-part"]),
    ],
)
def test_small_parts_for_babies_beyond_toys(use: str, kind: str, expected: list[str]) -> None:
    """16 CFR 1501 speaks of articles for under 3; fasteners of clothes are judged apart (recalled).

    A fastener on clothes is a caution on the page, a decoration that comes off is an error.
    """
    assert expected == errors("baby", "", use, f"kind: {kind}, at: front")
