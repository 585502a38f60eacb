"""Entries in a folder: each a file that is whole and ours, or as good as not there.

Takes     ``Place``; the name of an entry, a digest of all that decides what is in it.
Gives     ``Folder``: ``get``, ``put``, ``end``; ``name_of``.
Problems  none: what cannot be read is not there, what cannot be written is left.
From      BLAKE2 with a key (RFC 7693, 2.9) as a message authentication code.

A file is a line that says what it is, the code of its name and content under the user's secret, and
the content. So one that is cut, spoilt, brought from elsewhere or put under another name is told
from ours before anything in it is read. It is written under a name of its own and then renamed:
builds may run side by side, and be killed. What lies there too and was not named by us stays.

An entry that was not asked for in sixty days is removed, and the oldest where all are more than
``MOST``; but none that this run has asked for, and this run writes no more than that.
"""

from __future__ import annotations

import hashlib
import os
import re
import secrets
import shutil
import stat
import time
from collections.abc import Iterator
from contextlib import suppress
from hmac import compare_digest
from pathlib import Path

from workeven.cache.place import Place

#: bytes of all entries together, of one, and what is left free on the disk
MOST = 1024**3
LARGEST = 64 * 1024**2
LEFT_FREE = 256 * 1024**2
#: seconds until an entry that nobody asked for goes; until one that is not finished does; and
#: after which one that is asked for is marked as such
_STALE = 60 * 24 * 3600
_ABANDONED = 3600
_MARKED = 24 * 3600

_FIRST = b"workeven cache 1\n"
_CODE = 32
_NAME = re.compile(r"[0-9a-f]{64}(\.[0-9a-f]{16})?")


def name_of(*parts: bytes | str) -> str:
    """The name of an entry: the digest of all that decides what is in it.

    >>> name_of("ab", "c") == name_of("a", "bc")
    False
    """
    digest = hashlib.blake2b(digest_size=32)
    for part in parts:
        content = part.encode("utf-8", "surrogatepass") if isinstance(part, str) else part
        digest.update(b"%d:" % len(content) + content)
    return digest.hexdigest()


class Folder:
    """The entries of one run; what the system refuses is never told as a fault."""

    def __init__(self, place: Place) -> None:
        """Entries at a place."""
        self._folder, self._secret = place.folder, place.secret
        self._asked: set[str] = set()
        self._held = 0
        self._wrote = False
        self._full = False

    def get(self, name: str) -> bytes | None:
        """What is kept under a name."""
        try:
            found = self._read(self._at(name))
        except OSError:
            return None
        start = len(_FIRST) + _CODE
        if not found.startswith(_FIRST) or len(found) < start:
            return None
        content = memoryview(found)[start:]
        if not compare_digest(found[len(_FIRST) : start], self._code(name, content)):
            return None
        self._note(name, len(found))
        return bytes(content)

    def put(self, name: str, content: bytes) -> None:
        """Keep it, if there is room."""
        size = len(_FIRST) + _CODE + len(content)
        if self._full or size > LARGEST or self._held + size > MOST:
            return
        own = f"{name}.{secrets.token_hex(8)}"
        try:
            if shutil.disk_usage(self._folder).free < LEFT_FREE + size:
                self._full = True
                return
            self._write(own, (_FIRST, self._code(name, content), content))
            Path(self._at(own)).replace(self._at(name))
        except OSError:
            self._full = True  # what is refused once is not tried a thousand times
            with suppress(OSError):
                Path(self._at(own)).unlink()
            return
        self._note(name, size)
        self._wrote = True

    def end(self) -> None:
        """Remove what is too much, where this run has added to it."""
        if not self._wrote:
            return
        with suppress(OSError):
            self._prune(sorted(self._entries()), time.time())

    def _note(self, name: str, size: int) -> None:
        self._asked.add(name)
        self._held += size

    def _at(self, name: str) -> str:
        return os.path.join(self._folder, name)  # noqa: PTH118, asked very often

    def _code(self, name: str, content: bytes | memoryview) -> bytes:
        code = hashlib.blake2b(name.encode(), key=self._secret, digest_size=_CODE)
        code.update(content)
        return code.digest()

    def _read(self, file: str) -> bytes:
        """The file, which is no link; one that is too large is none of ours."""
        flags = os.O_RDONLY | getattr(os, "O_NOFOLLOW", 0) | getattr(os, "O_NONBLOCK", 0)
        descriptor = os.open(file, flags | getattr(os, "O_BINARY", 0))
        with os.fdopen(descriptor, "rb", buffering=0) as opened:
            status = os.fstat(descriptor)
            if not stat.S_ISREG(status.st_mode) or status.st_size > LARGEST:
                return b""
            content = opened.read(status.st_size)
        if time.time() - status.st_mtime > _MARKED:
            with suppress(OSError):
                os.utime(file)
        return content or b""

    def _write(self, own: str, parts: tuple[bytes, ...]) -> None:
        flags = os.O_WRONLY | os.O_CREAT | os.O_EXCL | getattr(os, "O_BINARY", 0)
        with os.fdopen(os.open(self._at(own), flags, 0o600), "wb") as opened:
            for part in parts:
                opened.write(part)

    # --- room ------------------------------------------------------------------------------

    def _entries(self) -> Iterator[tuple[float, str, int]]:
        """When each of ours was asked for, its name, its size."""
        with os.scandir(self._folder) as entries:
            for entry in entries:
                if _NAME.fullmatch(entry.name) and entry.is_file(follow_symlinks=False):
                    with suppress(OSError):
                        status = entry.stat(follow_symlinks=False)
                        yield status.st_mtime, entry.name, status.st_size

    def _prune(self, entries: list[tuple[float, str, int]], now: float) -> None:
        """From the oldest on."""
        room = sum(size for _, _, size in entries) - MOST
        for when, name, size in entries:
            age = now - when
            unfinished = "." in name
            if unfinished and age < _ABANDONED:
                continue
            if unfinished or (name not in self._asked and (age > _STALE or room > 0)):
                with suppress(OSError):
                    Path(self._at(name)).unlink()
                    room -= size
