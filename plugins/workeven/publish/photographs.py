"""Pictures of a pattern as its page shows them: in two widths, without what a camera adds to them.

Takes     the bytes of a picture, which ``workeven.photographs`` has found to be one.
Gives     ``broken``; ``developed``: ``Photograph``; ``written_by``.
Problems  none; ``broken`` says in words what cannot be read to its end.
From      WebP (RFC 9649), which every browser in use shows; Exif 2.32, "Orientation"; for programs
          that show shared pages JPEG, which all of them read.

A photograph carries where and when it was made, with what, and often a small copy of itself before
it was cut. Only its pixels go on: they are turned as the camera was held, brought to the colours
that screens take pictures without a profile for (sRGB), and written anew. Nothing is enlarged.
"""

from __future__ import annotations

import io
from functools import lru_cache

from PIL import Image, ImageCms, ImageOps, features
from PIL.Image import open as decoded  # of bytes: no file is opened here

from workeven.publish.drawings.shared import SHARED_SIZE
from workeven.records import record

#: So wide is a picture on a phone that shows two or three pixels as one, and at a desk.
WIDTHS = (640, 1280)

_FORMATS = ("JPEG", "PNG", "WEBP")
_QUALITY = 80
#: So many pictures are kept for the next preview; each is some megabytes.
_KEPT = 24


@record
class Photograph:
    """A picture made anew: its widths with their heights and files, the smallest first.

    ``shared`` is the same for programs that show shared pages.
    """

    sizes: tuple[tuple[int, int, bytes], ...]
    shared: bytes


def broken(content: bytes) -> str:
    """What of a picture cannot be read, in words that follow its name; "" where all can."""
    try:
        with decoded(io.BytesIO(content), formats=_FORMATS) as opened:
            opened.draft("RGB", (64, 64))  # JPEG alone can: all is read, and little computed
            opened.load()
    except (OSError, SyntaxError, ValueError, EOFError, Image.DecompressionBombError):
        return "cannot be read to its end: the file is damaged."
    return ""


def written_by() -> dict[str, str]:
    """The versions of the libraries that write pictures, which come with Pillow or the system."""
    names = ("webp", "libjpeg_turbo", "zlib", "littlecms2")
    return {f"pillow {name}": str(features.version(name)) for name in names}


@lru_cache(maxsize=_KEPT)
def developed(content: bytes) -> Photograph:
    """A picture in its widths; one that is narrower than the least of them in its own."""
    with decoded(io.BytesIO(content), formats=_FORMATS) as opened:
        picture = _plain(opened)
    widths = dict.fromkeys(min(width, picture.width) for width in WIDTHS)
    return Photograph(
        sizes=tuple(_in_width(picture, width) for width in widths), shared=_shared(picture)
    )


def _plain(opened: Image.Image) -> Image.Image:
    """Its pixels alone, upright, in the colours of screens."""
    profile = opened.info.get("icc_profile")
    upright = ImageOps.exif_transpose(opened)
    clear = upright.mode in ("RGBA", "LA", "PA") or "transparency" in upright.info
    if profile and not clear:
        upright = _on_screens(upright, profile)
    return upright.convert("RGBA" if clear else "RGB")


def _on_screens(picture: Image.Image, profile: bytes) -> Image.Image:
    """From the colours of its own profile; one that cannot be read says nothing."""
    try:
        own = ImageCms.ImageCmsProfile(io.BytesIO(profile))
        screen = ImageCms.createProfile("sRGB")
        changed = ImageCms.profileToProfile(picture, own, screen, outputMode="RGB")
    except (ImageCms.PyCMSError, OSError, ValueError):
        return picture
    return changed or picture


def _in_width(picture: Image.Image, width: int) -> tuple[int, int, bytes]:
    height = max(round(picture.height * width / picture.width), 1)
    small = picture.resize((width, height), Image.Resampling.LANCZOS, reducing_gap=3)
    written = io.BytesIO()
    small.save(written, "WEBP", quality=_QUALITY, method=4)
    return width, height, written.getvalue()


def _shared(picture: Image.Image) -> bytes:
    """Cut to the shape that is asked for, from its middle; what was clear is white."""
    opaque = Image.new("RGB", picture.size, "white")
    opaque.paste(picture, mask=picture.getchannel("A") if picture.mode == "RGBA" else None)
    written = io.BytesIO()
    cut = ImageOps.fit(opaque, SHARED_SIZE, Image.Resampling.LANCZOS)
    cut.save(written, "JPEG", quality=_QUALITY, progressive=True, optimize=True)
    return written.getvalue()
