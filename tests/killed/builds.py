"""Builds that are killed, or fail at a write: each in a process of its own.

Takes     an empty folder. Processes are forked when everything is loaded.
Gives     ``Trial``.
Problems  none.
From      design.md, "A build is all or nothing"; PEP 578 for the events at which a build is failed.

Python tells of everything that opens, makes, renames or removes a file before it is done, and what
an auditing hook raises then comes out of the call: so every write of every library can be made to
fail without knowing it. A disk that is full is played by a limit on the size of files.
"""

from __future__ import annotations

import errno
import os
import resource
import shutil
import signal
import sys
import time
from pathlib import Path
from typing import Any

from tests.publish.project import MITTS, Project, new_project

_CHANGES = {
    "os.mkdir",
    "os.rename",
    "os.remove",
    "os.rmdir",
    "os.chmod",
    "os.symlink",
    "os.link",
    "shutil.copyfile",
    "shutil.rmtree",
    "tempfile.mkdtemp",
    "ctypes.call_function",
}
_WRITES = os.O_WRONLY | os.O_RDWR | os.O_CREAT


class Trial:
    """A published site, and a pattern that has changed since: a build makes the new one, or not.

    Each build keeps what it makes in a cache, whose writes are failed like all others.
    """

    def __init__(self, folder: Path) -> None:
        self.project = _small(folder)
        self._cache, self._state = folder / "cache", folder / "state"
        os.environ |= {"WORKEVEN_CACHE": str(self._cache), "XDG_STATE_HOME": str(self._state)}
        self.project.build()
        self.old = self.project.tree()
        self._kept = folder / "old"
        shutil.copytree(self.project.site, self._kept)
        self.project.edit("title: Sandhopper Mitts", "title: Sandhopper Mitts Anew")
        self.project.build()
        self.new = self.project.tree()
        self.restore()
        self._hook = _Hook()
        sys.addaudithook(self._hook.event)

    def restore(self, *, kept: bool = False) -> None:
        """The old site, with nothing beside it; and nothing kept, or what is there by now."""
        places = () if kept else (self._cache, self._state)
        for beside in (*self.project.folder.glob("site*"), *places):
            if beside.exists():
                shutil.rmtree(beside)
        shutil.copytree(self._kept, self.project.site)

    def whole(self) -> str:
        """Which site is published: "old", "new", or "half"."""
        found = self.project.tree()
        return "old" if found == self.old else "new" if found == self.new else "half"

    def left_behind(self) -> list[str]:
        """What stands beside the site."""
        return [one.name for one in self.project.folder.glob("site?*")]

    def build(self) -> float:
        """A whole build: how many seconds it takes."""
        started = time.monotonic()
        self._forked(None, None)
        return time.monotonic() - started

    def killed_after(self, seconds: float) -> None:
        """A build that is killed."""
        self._forked(None, seconds)

    def writes(self) -> int:
        """At how many places a build opens, makes, renames or removes a file."""
        read, write = os.pipe()
        child = os.fork()
        if not child:
            _silent()
            self._hook.begin(None)
            self.project.build()
            os.write(write, str(self._hook.count).encode())
            os._exit(0)
        os.close(write)
        os.waitpid(child, 0)
        with os.fdopen(read) as told:
            return int(told.read())

    def failed_at(self, place: int) -> None:
        """A build whose write number so and so fails, as if the disk were full."""
        self._forked(place, None)

    def cut_at(self, most: int) -> None:
        """A build in which no file can have more bytes than that."""
        self._forked(None, None, most)

    def _forked(self, place: int | None, seconds: float | None, most: int | None = None) -> None:
        child = os.fork()
        if not child:
            status = 1
            try:
                _silent()
                if most is not None:
                    signal.signal(signal.SIGXFSZ, signal.SIG_IGN)
                    resource.setrlimit(resource.RLIMIT_FSIZE, (most, most))
                self._hook.begin(place)
                self.project.build()
                status = 0
            finally:
                os._exit(status)
        if seconds is not None:
            time.sleep(seconds)
            os.kill(child, signal.SIGKILL)
        os.waitpid(child, 0)


class _Hook:
    """Counts what changes a file, and lets the one at ``place`` fail; silent until it begins."""

    def __init__(self) -> None:
        self.count = 0
        self._place: int | None = None
        self._on = False

    def begin(self, place: int | None) -> None:
        """From here on."""
        self.count, self._place, self._on = 0, place, True

    def event(self, name: str, words: tuple[Any, ...]) -> None:
        """What Python tells before it is done."""
        if not self._on or not (name in _CHANGES or (name == "open" and _to_write(words))):
            return
        self.count += 1
        if self.count == self._place:
            raise OSError(errno.ENOSPC, os.strerror(errno.ENOSPC))


def _to_write(words: tuple[Any, ...]) -> bool:
    _path, mode, flags = words
    if isinstance(mode, str):
        return any(sign in mode for sign in "wax+")
    return bool(flags & _WRITES)


def _small(folder: Path) -> Project:
    """A project of one pattern, without search: built in a moment."""
    project = new_project(folder / "a studio")
    for pattern in (project.folder / "patterns").iterdir():
        if pattern.is_dir() and pattern.name != MITTS:
            shutil.rmtree(pattern)
    return project


def _silent() -> None:
    nowhere = os.open(os.devnull, os.O_WRONLY)
    os.dup2(nowhere, 1)
    os.dup2(nowhere, 2)
