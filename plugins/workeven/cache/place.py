"""Where results are kept, and the secret by which a run knows its own.

Takes     the environment of the process.
Gives     ``place``: ``Place``, or why there is none; ``VARIABLE``, ``OFF``.
Problems  none: without a place a run does all anew.
From      XDG Base Directory Specification 0.8; the folders that macOS and Windows have for caches.

The folder is the user's own, outside every project: nobody can put an entry into it by way of a
commit, and no site can hold it. The secret lies in another place than the entries. Whoever gets at
the entries alone, as one who brings a folder of them from elsewhere, can make none that is taken.
"""

from __future__ import annotations

import os
import secrets
import stat
import sys
from collections.abc import Callable, Mapping, Sequence
from contextlib import suppress
from pathlib import Path

from workeven.records import record

#: names the folder, or says that there is to be none
VARIABLE = "WORKEVEN_CACHE"
OFF = ("off", "0", "no", "false")

#: should the folder lie in a project, Git leaves out what is in it
_IGNORED = (".gitignore", "*\n")
_SECRET = "cache-key"  # noqa: S105, the name of its file
_BYTES = 32
#: what others may not have: writing in the folder, anything at all with the secret
_WRITE_OF_OTHERS = stat.S_IWGRP | stat.S_IWOTH
_ANY_OF_OTHERS = stat.S_IRWXG | stat.S_IRWXO


@record
class Place:
    """The folder, and the secret."""

    folder: str
    secret: bytes


def place(environment: Mapping[str, str], apart: Sequence[str] = ()) -> Place | str:
    """Where this user's results are kept; else, in a sentence, why nothing is.

    It is "" where somebody has said that nothing is to be kept. ``apart`` are folders in which
    nothing may be: what is published, and what is read.
    """
    asked = environment.get(VARIABLE, "").strip()
    if asked.lower() in OFF:
        return ""
    folder = Path(asked) if asked else _own(environment, _CACHES)
    home = _own(environment, _STATES)
    if folder is None or home is None:
        return "Nothing is kept for the next build: this user has no folder of their own."
    try:
        folder = folder.absolute()
        if any(_within(folder, other) for other in apart):
            return f"Nothing is kept for the next build: {folder} lies within the project."
        new = not folder.exists()
        _private(folder, _WRITE_OF_OTHERS)
        if new:
            (folder / _IGNORED[0]).write_text(_IGNORED[1], encoding="utf-8")
        _private(home, _WRITE_OF_OTHERS)
        return Place(folder=str(folder), secret=_secret(home))
    except OSError as fault:
        where = fault.filename or folder
        why = (fault.strerror or str(fault)).lower()
        return f"Nothing is kept for the next build: {where}: {why}."


#: by system: the variable that names the folder, and the folder below the user's own where it
#: names none
_CACHES = {
    "win32": ("LOCALAPPDATA", "AppData/Local", "workeven/cache"),
    "darwin": ("", "Library/Caches", "workeven"),
    "": ("XDG_CACHE_HOME", ".cache", "workeven"),
}
_STATES = {
    "win32": ("LOCALAPPDATA", "AppData/Local", "workeven/state"),
    "darwin": ("", "Library/Application Support", "workeven"),
    "": ("XDG_STATE_HOME", ".local/state", "workeven"),
}


def _own(
    environment: Mapping[str, str], folders: Mapping[str, tuple[str, str, str]]
) -> Path | None:
    """A folder of this program's in one of the user's; None where this user has none.

    A variable that names no whole path "should be ignored", says the specification.
    """
    variable, usual, own = folders.get(sys.platform, folders[""])
    named = Path(environment.get(variable, "") if variable else "")
    if not named.is_absolute():
        try:
            named = Path.home() / usual
        except RuntimeError:
            return None
    return named / own if named.is_absolute() else None


def _within(folder: Path, other: str) -> bool:
    """Whether a folder is another, or lies in it, wherever links lead."""
    return Path(os.path.realpath(folder)).is_relative_to(os.path.realpath(other))


def _private(folder: Path, forbidden: int) -> None:
    """Make the folder where it is not there; OSError where others could write in it."""
    folder.mkdir(mode=0o700, parents=True, exist_ok=True)
    _of_this_user(folder.lstat(), folder, stat.S_ISDIR, forbidden)


def _of_this_user(
    status: os.stat_result, name: Path, kind: Callable[[int], bool], forbidden: int
) -> None:
    if not kind(status.st_mode):
        raise OSError(0, "it is a link, or something else than it should be", str(name))
    if sys.platform == "win32":
        return  # a user's folders are private there, and modes say nothing
    if status.st_uid != os.geteuid() or status.st_mode & forbidden:
        raise OSError(0, "other users could change it", str(name))


def _secret(home: Path) -> bytes:
    """The user's secret; made where there is none, by one of those who want it at once."""
    file = home / _SECRET
    if not os.path.lexists(file):
        _make(file)
    flags = os.O_RDONLY | getattr(os, "O_NOFOLLOW", 0) | getattr(os, "O_NONBLOCK", 0)
    descriptor = os.open(file, flags | getattr(os, "O_BINARY", 0))
    with os.fdopen(descriptor, "rb") as opened:
        _of_this_user(os.fstat(descriptor), file, stat.S_ISREG, _ANY_OF_OTHERS)
        found = opened.read(_BYTES + 1)
    if len(found) != _BYTES:
        raise OSError(0, "it is damaged: delete it, and a new one is made", str(file))
    return found


def _make(file: Path) -> None:
    """Whole, under a name that nobody else has; then in place, where nobody was faster."""
    own = file.with_name(f"{file.name}.{secrets.token_hex(8)}")
    flags = os.O_WRONLY | os.O_CREAT | os.O_EXCL | getattr(os, "O_BINARY", 0)
    descriptor = os.open(own, flags, 0o600)
    try:
        with os.fdopen(descriptor, "wb") as opened:
            opened.write(secrets.token_bytes(_BYTES))
            opened.flush()
            os.fsync(descriptor)
        try:
            file.hardlink_to(own)
        except FileExistsError:
            return
        except OSError:  # a file system without links
            own.replace(file)
    finally:
        with suppress(OSError):
            own.unlink()
