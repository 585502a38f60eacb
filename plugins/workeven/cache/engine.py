"""What a result comes from beside the studio's files: this package's own files, and what it uses.

Takes     the files of the package, and the versions of what is installed.
Gives     ``engine``, ``unchanged``.
Problems  none.
From      BLAKE2 (RFC 7693); "Core metadata specifications" of Python packages for versions.

Code, templates, tables and schemas are taken by their bytes, and not by the version of the package:
who works on the engine changes it many times between two versions. The digest is taken once in a
process, since the process goes on with the code that it has loaded; a file that is written anew
meanwhile (a preview runs for hours) is noticed by its stamp, and then nothing is kept any more.
"""

from __future__ import annotations

import hashlib
import os
import sys
import zlib
from collections.abc import Iterator
from functools import cache
from importlib import metadata
from pathlib import Path

from workeven.records import record

#: packages whose versions decide what is found or how it is written
_USED = (
    "attrs",
    "Jinja2",
    "jsonschema",
    "jsonschema-specifications",
    "MarkupSafe",
    "pillow",
    "Pint",
    "PyYAML",
    "referencing",
    "rpds-py",
)
#: what Python makes of the files, in a folder of the same name everywhere
_COMPILED = "__pycache__"

Stamp = tuple[tuple[str, int, int], ...]


@record
class Engine:
    """The digest of all of it, and the stamp of the files that it was taken of."""

    digest: bytes
    stamp: Stamp


def engine() -> Engine | None:
    """This engine, as it was when it was first asked for; None where its files cannot be read."""
    try:
        return _as_loaded()
    except OSError:
        return None


def unchanged(one: Engine) -> bool:
    """Whether the files are those that were read."""
    try:
        return _stamp(_root()) == one.stamp
    except OSError:
        return False


@cache
def _as_loaded() -> Engine:
    """Stamped before the files are read: one that is written in between is another then."""
    root = _root()
    stamp = _stamp(root)
    if not stamp:
        raise FileNotFoundError(root)  # a package that was never unpacked
    digest = hashlib.blake2b(digest_size=32)
    for name, _, size in stamp:
        with open(os.path.join(root, name), "rb") as opened:  # noqa: PTH118, PTH123, some 600
            content = opened.read()
        digest.update(f"{name}\0{size}\0{len(content)}\0".encode() + content)
    digest.update(repr((*_versions(), sys.flags.optimize)).encode())
    return Engine(digest=digest.digest(), stamp=stamp)


def _root() -> str:
    """The folder of the package."""
    return str(Path(__file__).absolute().parents[1])


def _stamp(root: str) -> Stamp:
    return tuple(sorted(_stamped(root, "")))


def _stamped(folder: str, inside: str) -> Iterator[tuple[str, int, int]]:
    """Every file below a folder: its name from the root, when it was written, its size."""
    with os.scandir(folder) as entries:
        for entry in entries:
            if entry.is_dir():
                if entry.name != _COMPILED:
                    yield from _stamped(entry.path, f"{inside}{entry.name}/")
            else:
                status = entry.stat()
                yield f"{inside}{entry.name}", status.st_mtime_ns, status.st_size


def _versions() -> Iterator[str]:
    """Of Python, of what packs pictures, and of the packages; one that is missing has none."""
    yield sys.version
    yield zlib.ZLIB_RUNTIME_VERSION
    for name in _USED:
        try:
            yield f"{name} {metadata.version(name)}"
        except metadata.PackageNotFoundError:
            yield f"{name} -"
