"""The pictures that a file lists."""

from __future__ import annotations

import pytest

from tests.support.reading import added, good, one


def test_pictures_stand_in_the_order_of_the_file() -> None:
    """Twelve of them, of each format, with what they show."""
    formats = ("jpg", "jpeg", "png", "webp") * 3
    lines = [f"  - {{file: view-{at}.{end}, alt: View {at}}}" for at, end in enumerate(formats)]
    found = good(added("\n".join(("pictures:", *lines)))).pictures
    assert [(f"view-{at}.{end}", f"View {at}") for at, end in enumerate(formats)] == [
        (picture.file, picture.alt) for picture in found
    ]


@pytest.mark.parametrize(
    ("name", "better"),
    [
        ("Front View.JPG", "front-view.jpg"),
        ("../front.jpg", "front.jpg"),
        ("pictures/front.png", "front.png"),
        ("front", "picture.jpg"),
        ("front.svg", "front.jpg"),
        ("front.jpg.exe", "front-jpg.jpg"),
        ("Möwe.png", "m-we.png"),
        ("海.webp", "picture.webp"),
        (f"{'a' * 90}.png", f"{'a' * 75}.png"),
    ],
)
def test_a_name_that_is_no_address_is_told_with_a_better_one(name: str, better: str) -> None:
    """No folder, no capitals, no other format."""
    problem = one(added(f"pictures:\n  - {{file: '{name}', alt: A mat.}}"))
    assert problem.code == "picture-name"
    assert f"`{better}`" in problem.mend


def test_a_picture_must_say_what_it_shows() -> None:
    """For who does not see it."""
    problem = one(added("pictures:\n  - {file: front.jpg}"))
    assert problem.code == "file-key-missing"
    assert "alt" in problem.found
