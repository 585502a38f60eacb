"""The question "Which size?": the answers are those of the page's own tables."""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction

import pytest
from playwright.sync_api import Browser, Page, expect

from tests.browser.demo import MITTS, TEE
from workeven.arithmetic import printing
from workeven.arithmetic.units import CM, INCH
from workeven.proof.eases import ease_words
from workeven.standards.fits import fit

BOX = "[data-we-which]"
SAID = f"{BOX} [role=status]"
#: Groynemark Tee, by its file and by hand: bust to fit and finished bust, in cm.
BUST = dict(
    zip(
        ("XS", "S", "M", "L", "XL", "2X", "3X", "4X", "5X"),
        ((76 + 10 * at, 90 + 10 * at) for at in range(9)),
        strict=True,
    )
)


@pytest.fixture(scope="module")
def tee(browser: Browser, site: str) -> Iterator[Page]:
    """The tee's page, open."""
    page = browser.new_page(base_url=site)
    page.set_default_timeout(3000)
    page.goto(TEE)
    yield page
    page.close()


def asked(page: Page, measure: str, unit: str = "cm", ease: str = "", own: str = "") -> list[str]:
    """The sizes that are answered."""
    page.locator(f"{BOX} [name=unit]").select_option(unit)
    page.locator(f"{BOX} [name=ease]").select_option(label=ease or "as designed")
    page.locator(f"{BOX} [name=measure]").fill(measure)
    if own:
        page.locator(f"{BOX} [name=own]").fill(own)
    return [one.removeprefix("Size ") for one in page.locator(f"{SAID} button").all_inner_texts()]


@pytest.mark.parametrize(
    ("measure", "unit", "sizes"),
    [
        ("76", "cm", ["XS"]),
        ("96", "cm", ["M"]),
        ("100", "cm", ["M", "L"]),
        ("99,5", "cm", ["M", "L"]),
        ("38", "in", ["M", "L"]),
        ("36 1/2", "in", ["S", "M"]),
        ("36½", "in", ["S", "M"]),
        ("60", "cm", ["XS"]),
        ("170", "cm", ["5X"]),
    ],
)
def test_a_body_has_its_size_or_the_two_beside_it(
    tee: Page, measure: str, unit: str, sizes: list[str]
) -> None:
    """38 in are 96.5 cm, more than the 96 of M; 36½ are 92.7."""
    assert asked(tee, measure, unit) == sizes


@pytest.mark.parametrize(
    "name", ["very close fitting", "close fitting", "classic fit", "oversized"]
)
@pytest.mark.parametrize("cm", [80, 92, 93, 101, 118])
def test_a_fit_names_every_size_that_leaves_its_ease(tee: Page, name: str, cm: int) -> None:
    """By the published scale, in whichever column allows more; where none does, the two beside."""
    found = fit(name)
    eases = {size: Fraction(around - cm) * CM for size, (_, around) in BUST.items()}
    high = found.high()
    inside = [
        size
        for size, ease in eases.items()
        if ease >= found.low() and (high is None or ease <= high)
    ]
    small = [size for size, ease in eases.items() if ease < found.low()][-1:]
    large = [size for size, ease in eases.items() if high is not None and ease > high][:1]
    assert asked(tee, str(cm), ease=name) == (inside or small + large)


@pytest.mark.parametrize(("own", "sizes"), [("8", ["S"]), ("0", ["XS", "S"]), ("-2", ["XS"])])
def test_an_ease_of_her_own_is_taken(tee: Page, own: str, sizes: list[str]) -> None:
    """92 cm and 8 of ease go around 100, which is S; 92 lies between 90 and 100; 90 is XS."""
    assert asked(tee, "92", ease="my own", own=own) == sizes


@pytest.mark.parametrize("unit", ["cm", "in"])
def test_the_ease_is_printed_as_the_build_prints_lengths(tee: Page, unit: str) -> None:
    """For many bodies, each against the size that is answered first."""
    wrong = []
    for step in range(70, 130, 3):
        measure = step if unit == "cm" else 28 + step % 34
        mm = Fraction(measure) * (CM if unit == "cm" else INCH)
        (first, *_) = asked(tee, str(measure), unit)
        ease = BUST[first][1] * CM - mm
        printed = (printing.print_cm if unit == "cm" else printing.print_in)(abs(ease))
        kind = ease_words(ease).rpartition(" cm ")[2]
        wanted = f"leaves {printed} of {kind}."
        seen = tee.locator(f"{SAID} li").first.inner_text()
        if wanted not in seen:
            wrong.append(f"{measure} {unit}: {wanted} {seen}")
    assert wrong == []


def test_finished_measurements_stand_beside_the_answer(tee: Page) -> None:
    """Those of the table, in her units, and the size is hers by a press."""
    assert asked(tee, "96") == ["M"]
    expect(tee.locator(SAID)).to_contain_text("Bust around 110 cm / 43¼ in")
    tee.locator("[data-we-choose] [name=units]").select_option("in")
    expect(tee.locator(SAID)).to_contain_text("Finished: Bust around 43¼ in, Neck width")
    tee.locator(f"{SAID} button").click()
    assert "size=M" in tee.url
    tee.locator("[data-we-choose] [name=size]").select_option("")
    tee.locator("[data-we-choose] [name=units]").select_option("")


@pytest.mark.parametrize("written", ["abc", "9e9", "0", "<b>92", "92 cm", "-92", "36 3/7"])
def test_what_is_no_number_is_told(tee: Page, written: str) -> None:
    """And nothing is answered."""
    assert asked(tee, written) == []
    expect(tee.locator(SAID)).to_have_text("Write a number alone, such as 92 or 36½.")


def test_fits_are_offered_for_bust_and_chest_alone(browser: Browser, site: str) -> None:
    """The published scale is of no hands."""
    page = browser.new_page(base_url=site)
    page.set_default_timeout(3000)
    page.goto(MITTS)
    options = page.locator(f"{BOX} [name=ease] option").all_inner_texts()
    answers = asked(page, "19")
    page.close()
    assert options == ["as designed", "my own"]
    assert answers == ["S", "M"]
