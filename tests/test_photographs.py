"""Pictures beside a pattern's file: looked at by their first bytes, told where they are listed."""

from __future__ import annotations

import os
from pathlib import Path

import pytest

from tests.problems.recipes import png
from tests.support.pattern_files import GOOD
from workeven import pipeline, source
from workeven.photographs import Measured, measured
from workeven.problems import Problem
from workeven.source.collection import LARGEST_PICTURE

#: The first bytes of each format by its standard: JPEG with a thumbnail's segment before its frame
#: (ITU-T T.81, B.2.2), WebP with losses, without, and extended (RFC 9649, 2.5 to 2.7).
JPEG = b"\xff\xd8\xff\xe1\x00\x08Exif\x00\x00\xff\xff\xc2\x00\x11\x08\x01\x2c\x01\x90\x03"
WEBP_LOSSY = b"RIFF\x00\x00\x00\x00WEBPVP8 \x00\x00\x00\x00\x00\x00\x00\x9d\x01\x2a\x90\x01\x2c\x01"
WEBP_LOSSLESS = b"RIFF\x00\x00\x00\x00WEBPVP8L\x00\x00\x00\x00\x2f\x8f\xc1\x4a\x00"
WEBP_MORE = b"RIFF\x00\x00\x00\x00WEBPVP8X\x0a\x00\x00\x00\x00\x00\x00\x00\x8f\x01\x00\x2b\x01\x00"

LISTED = f'{GOOD}pictures:\n  - {{file: FILE, alt: "A mat."}}\n'
LINE = GOOD.count("\n") + 2


@pytest.fixture
def folder(tmp_path: Path) -> Path:
    """The folder of a pattern."""
    folder = tmp_path / "patterns" / "sand-mat"
    folder.mkdir(parents=True)
    return folder


def checked(folder: Path, listed: str | None, content: bytes | None = None) -> list[Problem]:
    """The pattern with that picture in its list, and that content in the file."""
    text = GOOD if listed is None else LISTED.replace("FILE", listed)
    (folder / "pattern.yaml").write_text(text, "utf-8")
    if content is not None:
        (folder / (listed or "front.png")).write_bytes(content)
    return list(pipeline.check(source.collect([str(folder.parent)])).problems)


@pytest.mark.parametrize(
    ("content", "form"),
    [
        (JPEG, "JPEG"),
        (png(400, 300), "PNG"),
        (WEBP_LOSSY, "WebP"),
        (WEBP_LOSSLESS, "WebP"),
        (WEBP_MORE, "WebP"),
    ],
)
def test_each_format_says_how_large_it_is(content: bytes, form: str) -> None:
    """400 by 300 pixels, in the place where its standard has them."""
    assert measured(content) == Measured(form, 400, 300)  # type: ignore[arg-type]


@pytest.mark.parametrize(
    "content",
    [
        b"",
        b"\xff\xd8",
        b"\xff\xd8\xff\xd9",
        b"\xff\xd8" + b"\xff\xe0\x00\x02" * 9,
        b"\xff\xd8" + b"\xff\xe0\x00\x00" * 9,
        b"RIFF\x00\x00\x00\x00WEBPVP8 ",
        b"GIF89a\x90\x01\x2c\x01",
        b"<svg xmlns='http://www.w3.org/2000/svg'/>",
    ],
)
def test_what_is_no_picture_has_no_size(content: bytes) -> None:
    """Nor what is only the beginning of one."""
    assert measured(content) is None


@pytest.mark.parametrize("name", ["front.jpg", "front.jpeg", "front.png", "front.webp"])
def test_a_picture_that_is_listed_and_there_is_good(folder: Path, name: str) -> None:
    """Of each format."""
    content = {"png": png(40, 30), "webp": WEBP_LOSSY}.get(name.rpartition(".")[2], JPEG)
    assert checked(folder, name, content) == []


@pytest.mark.parametrize(
    ("name", "content", "code"),
    [
        ("front.jpg", None, "picture-missing"),
        ("front.jpg", png(40, 30), "picture-content"),
        ("front.png", JPEG, "picture-content"),
        ("front.png", b"<svg/>", "picture-content"),
        ("front.png", b"", "picture-content"),
        ("front.png", png(0, 30), "picture-content"),
        ("front.png", png(10_000, 5_001), "picture-too-large"),
        ("front.png", png(4, 3) + bytes(LARGEST_PICTURE), "picture-too-large"),
        ("../front.png", None, "picture-name"),
    ],
)
def test_what_is_wrong_is_told_where_it_is_listed(
    folder: Path, name: str, content: bytes | None, code: str
) -> None:
    """One problem, in the line of the list."""
    found = checked(folder, name, content)
    assert [(one.code, one.span.line) for one in found] == [(code, LINE)]


def test_as_many_pixels_as_are_allowed_are_good(folder: Path) -> None:
    """50 million."""
    assert checked(folder, "front.png", png(10_000, 5_000)) == []


def test_a_link_is_not_followed(folder: Path) -> None:
    """Wherever it leads."""
    (folder.parent.parent / "secret.png").write_bytes(png(40, 30))
    (folder / "front.png").symlink_to("../../secret.png")
    found = checked(folder, "front.png")
    assert [(one.code, one.span.line) for one in found] == [("file-symlink", LINE)]


def test_a_pipe_is_not_waited_for(folder: Path) -> None:
    """It has no end."""
    os.mkfifo(folder / "front.png")
    assert [one.code for one in checked(folder, "front.png")] == ["picture-content"]


def test_a_picture_that_no_list_has_is_advice(folder: Path) -> None:
    """It stops nothing, and is on no page."""
    (folder / "edge.png").write_bytes(png(4, 3))
    found = checked(folder, "front.png", png(40, 30))
    assert [(one.code, one.span.line) for one in found] == [("picture-unlisted", LINE)]


def test_a_missing_picture_is_told_with_the_one_that_is_there(folder: Path) -> None:
    """A slip in the ending is the commonest."""
    (folder / "front.jpeg").write_bytes(JPEG)
    told = {one.code: one.expected for one in checked(folder, "front.jpg")}
    assert "`front.jpeg`" in told["picture-missing"]


def test_another_file_is_still_a_stranger(folder: Path) -> None:
    """A film, a drawing, a picture in capitals."""
    for name in ("film.mp4", "chart.svg", "Front.JPG"):
        (folder / name).write_bytes(JPEG)
    assert [one.code for one in checked(folder, None)] == ["file-stranger"] * 3
