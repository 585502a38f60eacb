"""What a result comes from beside the studio's files: this package's own files, and what it uses.

Takes     the files of the package, and the versions of what is installed.
Gives     ``engine``, ``unchanged``.
Problems  none.
From      BLAKE2 (RFC 7693); "Core metadata specifications" of Python packages for versions.

Code, templates, tables and schemas are taken by their bytes, and not by the version of the package:
who works on the engine changes it many times between two versions. The digest is taken once in a
process, since the process goes on with the code that it has loaded. A file that was written a
moment ago may be another than the one that was loaded: then the process has no digest. One that is
written anew later (a preview runs for hours) is noticed by its stamp, and nothing is kept any more.
"""

from __future__ import annotations

import hashlib
import os
import sys
import time
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
#: nanoseconds: longer than from the first file that is loaded to the digest
_YOUNG = 5 * 10**9
#: what Python makes of the files, in a folder of the same name everywhere
_COMPILED = "__pycache__"

Stamp = tuple[tuple[str, int, int], ...]


@record
class Engine:
    """The digest of all of it, and the stamp of the files that it was taken of."""

    digest: bytes
    stamp: Stamp


def engine() -> Engine | None:
    """This engine, as it was when it was first asked for; None where that cannot be told."""
    return _as_loaded()


def unchanged(one: Engine) -> bool:
    """Whether the files are those that were read."""
    try:
        return _stamp(_root()) == one.stamp
    except OSError:
        return False


@cache
def _as_loaded() -> Engine | None:
    """Once for all: what cannot be told now is not told later of code that is loaded by now."""
    try:
        root = _root()
        stamp = _stamp(root)
        newest = max((written for _, written, _ in stamp), default=None)
        if newest is None or time.time_ns() - newest < _YOUNG:
            return None  # a package that was never unpacked has no files
        return _digested(root, stamp)
    except OSError:
        return None


def _digested(root: str, stamp: Stamp) -> Engine:
    """Stamped before the files are read: one that is written in between is another then."""
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
