"""Pictures for tests, drawn by Pillow, and sites that show them."""

from __future__ import annotations

import io
import re
import shutil
from pathlib import Path
from typing import Any

import pytest

from tests.publish.project import MITTS, Project, new_project

Image = pytest.importorskip("PIL.Image", reason="Pillow is in locks/test.txt: run make test")

#: Exif 2.32, 4.6.4: maker, orientation (6: turned to the right to be upright).
MAKER, ORIENTATION = 0x010F, 0x0112
TOP, BOTTOM = (200, 30, 30), (30, 30, 200)


def photograph(width: int = 1600, height: int = 1200, form: str = "JPEG", **more: object) -> bytes:
    """A picture that is red above and blue below."""
    picture = Image.new("RGB", (width, height), BOTTOM)
    picture.paste(TOP, (0, 0, width, height // 2))
    written = io.BytesIO()
    picture.save(written, form, **more)
    return written.getvalue()


def as_held() -> bytes:
    """As a camera writes it that was held upright, with its maker's name in it."""
    exif = Image.Exif()
    exif[MAKER], exif[ORIENTATION] = "Secret Camera 3000", 6
    return photograph(exif=exif)


def project(folder: Path, pictures: dict[str, bytes]) -> Project:
    """The mitts alone, with these pictures, in a site whose address is known."""
    made = new_project(folder)
    for one in (folder / "patterns").iterdir():
        if one.is_dir() and one.name != MITTS:
            shutil.rmtree(one)
    made.configure("site_url: https://studio.example/\n")
    listed = "".join(f'  - {{file: {name}, alt: "View {name}"}}\n' for name in pictures)
    with made.pattern().open("a", encoding="utf-8") as file:
        file.write(f"pictures:\n{listed}")
    for name, content in pictures.items():
        made.pattern().with_name(name).write_bytes(content)
    return made


def images(html: str) -> list[dict[str, str]]:
    """The pictures of a page, each with its attributes."""
    tags = re.findall(r"<img ([^>]*)>", html.partition("<article")[2])
    return [dict(re.findall(r'([\w-]+)="([^"]*)"', tag)) for tag in tags]


def opened(path: Path) -> Any:  # noqa: ANN401 -- Pillow's own, where it is installed
    """A picture of the site."""
    return Image.open(io.BytesIO(path.read_bytes()))


def twelve_pictures() -> dict[str, bytes]:
    """One as a camera was held, a small one, and ten others, of each format."""
    pictures = {"first.jpg": as_held(), "small.png": photograph(300, 200, "PNG")}
    return pictures | {f"view-{at}.webp": photograph(900, 700, "WEBP") for at in range(10)}
