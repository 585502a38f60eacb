"""Output that is all or nothing: a site is written beside the published one and swapped in whole.

Takes     the folder of the published site.
Gives     ``staging_beside``, ``settle``, ``digests``, ``put``, ``swap_in``, ``discard``;
          ``write_new``, ``put_whole``;
          ``OutputFault``.
Problems  none: what the system refuses is an ``OutputFault``, a sentence for the designer.
From      design.md, "A build is all or nothing".

On Linux the two folders change places in one step that nobody can see half done (``renameat2``
with RENAME_EXCHANGE, Linux 3.15 and newer). Elsewhere, or where the file system cannot, two
renames do, and the old folder is put back if the second fails. Hidden entries of the published
folder (``.git``, ``.nojekyll``), which MkDocs would leave alone, are carried over.
"""

from __future__ import annotations

import ctypes
import errno
import gzip
import hashlib
import os
import shutil
import sys
import tempfile
from collections.abc import Callable, Mapping
from contextlib import suppress
from pathlib import Path

_AT_FDCWD = -100
_RENAME_EXCHANGE = 2
#: The exchange is not to be had here; two renames are.
_NO_EXCHANGE = {errno.ENOSYS, errno.EINVAL, errno.ENOTSUP, errno.EOPNOTSUPP}


class OutputFault(Exception):
    """The site could not be put in place; the one that was there is whole."""


def staging_beside(published: Path, what: str = "site") -> Path:
    """A new, empty folder on the same file system as the published one.

    Its name, such as ``site.building-4f2a``, says what it is should a power cut leave it there.
    """
    target = _real(published)
    folder: Path | None = None
    try:
        target.parent.mkdir(parents=True, exist_ok=True)
        folder = Path(tempfile.mkdtemp(prefix=f"{target.name}.building-", dir=target.parent))
        folder.chmod(0o777 & ~_umask())
    except OSError as fault:
        if folder is not None:
            discard(folder)
        raise OutputFault(
            f"The {what} cannot be written beside {published}: {_reason(fault)}."
        ) from fault
    return folder


def settle(staging: Path) -> None:
    """Take the time of the build out of what MkDocs writes: same input, same bytes."""
    sitemap, packed = staging / "sitemap.xml", staging / "sitemap.xml.gz"
    if sitemap.is_file() and packed.is_file():
        with packed.open("wb") as opened, gzip.GzipFile("", "wb", 9, opened, 0) as written:
            written.write(sitemap.read_bytes())


def digests(staging: Path) -> dict[str, tuple[str, int]]:
    """Each file of the site by its address: its SHA-256 and how many bytes it has."""
    found = {}
    for folder, _, names in os.walk(staging):
        address = (
            "" if folder == str(staging) else f"{Path(folder).relative_to(staging).as_posix()}/"
        )
        for name in names:
            content = Path(folder, name).read_bytes()
            found[f"{address}{name}"] = (hashlib.sha256(content).hexdigest(), len(content))
    return dict(sorted(found.items(), key=lambda one: one[0].split("/")))


def put(staging: Path, name: str, content: str) -> None:
    """Put one file more into a site that is not in place yet."""
    (staging / name).write_text(content, encoding="utf-8", newline="\n")


def swap_in(staging: Path, published: Path, what: str = "site") -> None:
    """Put the finished folder in the place of the published one; afterwards only one is left.

    Raises ``OutputFault``. Then the site that was there is whole, and in its place unless the
    sentence says otherwise.
    """
    target = _real(published)
    try:
        if target.exists():
            _exchange(staging, target)
        else:
            staging.rename(target)
    except OSError as fault:
        discard(staging)
        raise OutputFault(
            f"The finished {what} cannot be moved to {published}: {_reason(fault)}. "
            f"The {what} that was there is as it was."
        ) from fault
    if staging.exists():
        _carry_over_hidden(staging, target)
        discard(staging)


def put_whole(
    target: Path, files: Mapping[str, bytes], own: str, ours: Callable[[Mapping[str, bytes]], bool]
) -> None:
    """Put a folder of these files in place, whole or not at all.

    What stands there must be empty, or be ours: it has the file ``own``, as many files as that has
    lines, and ``ours`` says that they are as they were written. Hidden entries stay. Raises
    ``OutputFault``.
    """
    real = _real(target)
    try:
        refused = _refusal(real, own, ours)
    except OSError as fault:
        raise OutputFault(f"{target} cannot be looked at: {_reason(fault)}.") from fault
    if refused:
        raise OutputFault(f"{target} {refused} Nothing is written.")
    staging = staging_beside(target, "folder")
    try:
        for name, content in files.items():
            file = staging / name
            file.parent.mkdir(parents=True, exist_ok=True)
            file.write_bytes(content)
    except OSError as fault:
        discard(staging)
        raise OutputFault(f"{target} cannot be written: {_reason(fault)}.") from fault
    swap_in(staging, target, "folder")


def _refusal(real: Path, own: str, ours: Callable[[Mapping[str, bytes]], bool]) -> str:
    """Why nothing may be put in the place of a folder; "" where it may."""
    if not real.exists():
        return ""
    if not real.is_dir():
        return "is no folder."
    if all(entry.name.startswith(".") for entry in real.iterdir()):
        return ""
    stranger = "holds something else: name a new folder, or an empty one."
    if not (real / own).is_file() or (real / own).is_symlink():
        return stranger
    listed = (real / own).read_bytes()
    inside = [
        path
        for path in real.rglob("*")
        if not path.relative_to(real).parts[0].startswith(".")
        and (path.is_symlink() or not path.is_dir())
    ]
    if len(inside) > listed.count(b"\n") or any(path.is_symlink() for path in inside):
        return stranger
    found = {path.relative_to(real).as_posix(): path.read_bytes() for path in inside}
    if not ours(found):
        return (
            "was written before, and has been changed since: name a new folder, or take your "
            "changes out of it."
        )
    return ""


def write_new(texts: Mapping[str, str]) -> None:
    """Write files that are not there yet, with their folders: all of them, or none.

    Raises ``OutputFault``. A file that stands there, a link too, is never written over.
    """
    made: list[Path] = []
    try:
        for name, text in texts.items():
            file = Path(name)
            made += _new_folders(file.parent)
            with file.open("x", encoding="utf-8", newline="\n") as opened:
                made.append(file)
                opened.write(text)
    except OSError as fault:
        for path in reversed(made):
            with suppress(OSError):
                path.rmdir() if path.is_dir() else path.unlink()
        why = "it is there already" if isinstance(fault, FileExistsError) else _reason(fault)
        raise OutputFault(f"{name} cannot be written: {why}. Nothing is written.") from fault


def _new_folders(folder: Path) -> list[Path]:
    """Make a folder with those above it, and give the ones that were not there."""
    missing = []
    while not folder.exists() and folder != folder.parent:
        missing.append(folder)
        folder = folder.parent
    for one in reversed(missing):
        one.mkdir()
    return missing[::-1]


def discard(staging: Path) -> None:
    """Remove a folder that is no longer wanted; what cannot be removed is left."""
    shutil.rmtree(staging, ignore_errors=True)


def _exchange(one: Path, other: Path) -> None:
    """Let two folders change places."""
    if not _exchanged_at_once(one, other):
        _exchange_by_renames(one, other)


def _exchanged_at_once(one: Path, other: Path) -> bool:
    """Whether the system has exchanged them in one step; OSError where it refuses."""
    if not sys.platform.startswith("linux"):
        return False
    try:
        renameat2 = ctypes.CDLL(None, use_errno=True).renameat2
    except (OSError, AttributeError):
        return False
    failed = renameat2(
        ctypes.c_int(_AT_FDCWD),
        ctypes.c_char_p(os.fsencode(one)),
        ctypes.c_int(_AT_FDCWD),
        ctypes.c_char_p(os.fsencode(other)),
        ctypes.c_uint(_RENAME_EXCHANGE),
    )
    if not failed:
        return True
    number = ctypes.get_errno()
    if number in _NO_EXCHANGE:
        return False
    raise OSError(number, os.strerror(number))


def _exchange_by_renames(one: Path, other: Path) -> None:
    """Two renames; if the second fails the first is undone."""
    aside = Path(tempfile.mkdtemp(prefix=f"{other.name}.old-", dir=other.parent)) / other.name
    try:
        other.rename(aside)
        try:
            one.rename(other)
        except OSError:
            aside.rename(other)
            raise
        aside.rename(one)
    finally:
        with suppress(OSError):
            aside.parent.rmdir()


def _carry_over_hidden(old: Path, new: Path) -> None:
    """Move the hidden entries of the old folder that the new one lacks."""
    for entry in sorted(old.iterdir()):
        if entry.name.startswith(".") and not (new / entry.name).exists():
            try:
                entry.rename(new / entry.name)
            except OSError as fault:
                raise OutputFault(
                    f"The new site is in place, but {entry.name} of the old one could not be "
                    f"moved to it: {_reason(fault)}. It lies in {old}."
                ) from fault


def _real(published: Path) -> Path:
    """The folder itself where the published one is a link to it."""
    return Path(os.path.realpath(published))


def _reason(fault: OSError) -> str:
    return (fault.strerror or str(fault)).lower()


def _umask() -> int:
    """The process's mask for new files; the system tells it only by setting it."""
    mask = os.umask(0o022)
    os.umask(mask)
    return mask
