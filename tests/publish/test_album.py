"""Photographs on a page: made anew in two widths, without what a camera adds."""

from __future__ import annotations

import io
import json
import re
from pathlib import Path

import pytest
from mkdocs.exceptions import Abort

from tests.publish.project import MITTS, Project, new_project
from tests.support.photographs import Image, images, opened, photograph, project, twelve_pictures
from workeven.publish import edition
from workeven.publish.collection import Address

ImageCms = pytest.importorskip("PIL.ImageCms")
from workeven.publish.photographs import broken, developed  # noqa: E402 -- it needs Pillow


@pytest.fixture(scope="module")
def twelve(tmp_path_factory: pytest.TempPathFactory) -> Project:
    """A page with twelve pictures, of each format."""
    made = project(tmp_path_factory.mktemp("twelve"), twelve_pictures())
    made.build()
    return made


def test_all_pictures_stand_on_the_page_with_their_words_and_sizes(twelve: Project) -> None:
    """The first at once, the others when they are scrolled to; each as large as its file."""
    shown = images(twelve.page())
    assert [one["alt"] for one in shown] == ["View first.jpg", "View small.png"] + [
        f"View view-{at}.webp" for at in range(10)
    ]
    assert ["loading" in one for one in shown] == [False] + [True] * 11
    folder = twelve.site / "patterns" / MITTS
    sizes = [opened(folder / one["src"]).size for one in shown]
    assert sizes == [(int(one["width"]), int(one["height"])) for one in shown]


def test_a_picture_is_offered_in_two_widths(twelve: Project) -> None:
    """Each file as wide as is said; one that is narrow in its own width alone."""
    first, small, *others = images(twelve.page())
    folder = twelve.site / "patterns" / MITTS
    told = [one.split() for one in (*first["srcset"].split(", "), *others[0]["srcset"].split(", "))]
    assert [f"{opened(folder / name).width}w" for name, _ in told] == [w for _, w in told]
    assert [w for _, w in told] == ["640w", "1200w", "640w", "900w"]
    assert ("srcset" in small, small["width"]) == (False, "300")


def test_a_picture_stands_as_the_camera_was_held(twelve: Project) -> None:
    """Turned to the right: what was above is at the right."""
    picture = opened(twelve.site / "patterns" / MITTS / images(twelve.page())[0]["src"])
    left, right = (picture.convert("RGB").getpixel((x, 800)) for x in (100, picture.width - 100))
    assert picture.size == (1200, 1600)
    assert left[2] > left[0]
    assert right[0] > right[2]


def test_nothing_that_a_camera_adds_is_published(twelve: Project) -> None:
    """No maker, no profile, no file of the designer's as it was."""
    folder = twelve.site / "patterns" / MITTS
    own = {path.read_bytes() for path in twelve.pattern().parent.glob("*.*")}
    files = [*folder.glob("*.webp"), *folder.glob("*.jpg")]
    found = [one.name for one in files if b"Secret" in one.read_bytes() or one.read_bytes() in own]
    kept = [one.name for one in files if {"exif", "icc_profile", "xmp"} & opened(one).info.keys()]
    assert len(files) == 24
    assert (found, kept) == ([], [])


def test_the_list_of_patterns_shows_the_first(twelve: Project) -> None:
    """By its words, from its folder, when it is scrolled to."""
    html = (twelve.site / "patterns" / "index.html").read_text("utf-8")
    (card,) = images(html)
    assert (card["alt"], card["loading"]) == ("View first.jpg", "lazy")
    assert all(
        (twelve.site / "patterns" / one.split()[0]).is_file() for one in card["srcset"].split(", ")
    )


def test_who_shares_the_page_shows_the_first(twelve: Project) -> None:
    """As JPEG, of the size that is said, with its words; no drawing is left beside it."""
    html = twelve.page()
    told = dict(re.findall(r'<meta property="og:(image[^"]*)" content="([^"]*)"', html))
    shared = opened(twelve.site / "patterns" / MITTS / "share.jpg")
    size = {"image:width": str(shared.width), "image:height": str(shared.height)}
    address = f"https://studio.example/patterns/{MITTS}/share.jpg"
    assert told == {"image": address, **size, "image:alt": "View first.jpg"}
    names = {path.name for path in (twelve.site / "patterns" / MITTS).iterdir()}
    assert not names & {"cover.svg", "share.png", "first.jpg"}


def test_a_clear_picture_stays_clear_on_the_page() -> None:
    """It lies on paper or on the dark sea; who shares it has it on white."""
    written = io.BytesIO()
    Image.new("RGBA", (40, 30), (0, 0, 0, 0)).save(written, "PNG")
    made = developed(written.getvalue())
    page = Image.open(io.BytesIO(made.sizes[0][2])).convert("RGBA")
    shared = Image.open(io.BytesIO(made.shared))
    assert (page.getpixel((5, 5))[3], shared.getpixel((5, 5))) == (0, (255, 255, 255))


@pytest.mark.parametrize("mode", ["L", "LA", "P", "CMYK", "1", "I;16"])
def test_pictures_of_any_kind_are_made_anew(mode: str) -> None:
    """Grey, of a palette, for print, of two tones, of sixteen bits."""
    written = io.BytesIO()
    Image.new(mode, (40, 30)).save(written, "JPEG" if mode == "CMYK" else "PNG")
    content = written.getvalue()
    assert (broken(content), developed(content).sizes[0][:2]) == ("", (40, 30))


def test_colours_are_those_of_the_profile() -> None:
    """In one whose red is blue the picture is blue above; one that cannot be read says nothing."""
    screen = ImageCms.ImageCmsProfile(ImageCms.createProfile("sRGB")).tobytes()
    names = {b"rXYZ": b"bXYZ", b"bXYZ": b"rXYZ"}  # ICC.1, 9.2: the tags of the matrix columns
    swapped = re.sub(rb"[rb]XYZ", lambda tag: names[tag[0]], screen)
    above = []
    for profile in (screen, swapped, b"no profile"):
        small = developed(photograph(60, 40, icc_profile=profile)).sizes[0][2]
        red, _, blue = Image.open(io.BytesIO(small)).convert("RGB").getpixel((30, 5))
        above.append("red" if red > blue else "blue")
    assert above == ["red", "blue", "red"]


@pytest.mark.parametrize("form", ["JPEG", "PNG", "WEBP"])
def test_a_picture_that_was_cut_off_stops_the_build(tmp_path: Path, form: str) -> None:
    """Told where it is listed; the first bytes alone say that it is one."""
    ending = {"JPEG": "jpg"}.get(form, form.lower())
    whole = photograph(form=form)
    made = project(tmp_path, {f"first.{ending}": whole[: len(whole) // 2]})
    with pytest.raises(Abort) as stopped:
        made.build()
    line = made.pattern().read_text("utf-8").count("\n")
    assert f"pattern.yaml:{line}:" in str(stopped.value)
    assert "cannot be read to its end" in str(stopped.value)
    assert not made.site.exists()


def test_a_preview_shows_the_problem(tmp_path: Path) -> None:
    """As a page, like any other error."""
    made = project(tmp_path, {"first.jpg": photograph()[:900]})
    shown = edition.preview(str(tmp_path / "patterns"), Address(folder="patterns", ending=""))
    assert "picture-content" in shown.faults()
    told = next(page for page in shown.publication.pages if "first.jpg" in page.html)
    assert "cannot be read to its end" in told.html
    assert made.pattern().exists()


def test_a_page_without_pictures_has_its_drawing(tmp_path: Path) -> None:
    """None is asked for, and nothing is made."""
    made = new_project(tmp_path)
    made.build()
    assert [one["src"] for one in images(made.page())] == ["cover.svg"]


def test_figures_in_the_words_of_a_picture_are_traced(twelve: Project) -> None:
    """To the list of pictures, on the page and in the list of patterns."""
    address = Address(folder="patterns", ending="")
    made = edition.published(str(twelve.folder / "patterns"), address, figures=True).publication
    told = [
        json.loads(one.content) for one in made.attachments if one.path.endswith("figures.json")
    ]
    origins = {
        (entry["text"], *entry["from"])
        for page in told
        for entry in page["figures"]
        if entry["text"].startswith("View")
    }
    assert origins == {(f"View view-{at}.webp", "pictures: alt") for at in range(10)}
