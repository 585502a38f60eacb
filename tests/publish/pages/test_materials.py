"""The list of materials and the care of a thing, as they are bought and told."""

from __future__ import annotations

from fractions import Fraction
from typing import Any

import pytest

from tests.publish.samples import mitts
from tests.support.as_read import as_read
from workeven.pattern import Care, Notion, Treatment
from workeven.pipeline import ReadyPattern
from workeven.publish.pages.materials import materials
from workeven.records import replace


def changed(**more: object) -> ReadyPattern:
    """The mitts with something else in their pattern."""
    ready = mitts()
    return replace(ready, pattern=replace(ready.pattern, **more))  # type: ignore[arg-type]


def test_computed_amounts_say_how() -> None:
    """For who asks."""
    assert [one.method for one in materials(mitts()).computed] == [
        "From the stitches counted in every row and a swatch that was weighed."
    ]


@pytest.mark.parametrize(
    ("notion", "words"),
    [
        (
            {"kind": "button", "amount": 6, "at": "front", "size": Fraction(15)},
            "6 buttons, 15 mm, for the front",
        ),
        ({"kind": "stuffing", "at": "inside", "note": "15 g"}, "Stuffing, inside (15 g)"),
        (
            {"kind": "zip", "size": Fraction(450), "at": "front"},
            "1 zip, 45 cm / 17¾ in, for the front",
        ),
        ({"kind": "hook and eye", "amount": 2}, "2 hooks and eyes"),
        ({"kind": "safety eyes", "amount": 2, "at": "face"}, "2 safety eyes, for the face"),
        ({"kind": "other", "note": "a sheet of felt", "at": "inside"}, "A sheet of felt, inside"),
    ],
)
def test_notions_are_told_as_they_are_bought(notion: dict[str, Any], words: str) -> None:
    """What has a number by it, what has a length or a mass without."""
    sizes = mitts().pattern.sizes
    amount = sizes.all(notion.pop("amount", 1))
    told = {"at": None, "note": None, "span": mitts().pattern.sizes_span, **notion}
    made = Notion(amount=amount, **told)
    assert (words,) == tuple(
        words.replace("\N{NO-BREAK SPACE}", " ")
        for words in as_read(materials(changed(notions=(made,))).notions)
    )


def test_care_is_told_in_the_order_of_the_standard() -> None:
    """Several treatments of a group on one line; the note apart."""
    span = mitts().pattern.sizes_span
    treatments = (
        Treatment(group="wash", word="by hand", span=span),
        Treatment(group="dry", word="do not tumble dry", span=span),
        Treatment(group="dry", word="flat", span=span),
    )
    shown = materials(changed(care=Care(treatments=treatments, note="Press it under a cloth.")))
    assert shown.care == (
        ("Washing", "Wash by hand at up to 30 °C"),
        ("Drying", "Do not tumble dry; dry flat"),
    )
    assert shown.care_note == "Press it under a cloth."


def test_care_in_words_stands_as_it_was_written() -> None:
    """Without groups."""
    shown = materials(mitts())
    assert (shown.care, shown.care_note) == ((), "Wash by hand.")
