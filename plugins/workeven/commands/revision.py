"""A collection as it was: in a commit of its repository, or in another folder.

Takes     what the user calls the base, the path of the collection as it is now.
Gives     ``collection_at``: the folder of the collection as it was, for as long as it is asked for.
Problems  none of its own: what cannot be read is a ``CannotRun``.
From      git's own documentation: ``gitrevisions``, ``git-ls-tree``, ``git-cat-file``.

Nothing is checked out, and the work tree is not touched: the text files of the collection are
written into a folder of their own. What is compared with is where the two lines of work parted, so
that what others have changed since is not taken for a part of this change.
"""

from __future__ import annotations

import hashlib
import os
import re
import subprocess
from collections.abc import Iterator, Mapping
from contextlib import contextmanager
from pathlib import Path
from tempfile import TemporaryDirectory

from workeven import source
from workeven.commands.answer import CannotRun
from workeven.problems.words import quote
from workeven.records import record
from workeven.source.characters import LARGEST
from workeven.source.collection import PICTURE

#: an entry of a tree as ``ls-tree -l -z`` prints it: a file, its object, its size, its path
_ENTRY = re.compile(
    rb"100(?:644|755) blob (?P<object>[0-9a-f]{40,64}) +(?P<size>\d+)\t(?P<path>.+)"
)
#: a name of a file or folder that can be written anywhere
_NAME = re.compile(r"[\w][\w .-]*")
#: hexadecimal digits of a name by SHA-256, and bytes that no picture goes below
_SHA256, _LEAST_PICTURE = 64, 200
#: the collection's own file, charts, and the file in each folder: nothing lies deeper
_DEEPEST = 2


@record
class CollectionBefore:
    """The folder that holds it, and what it was read from, in words.

    ``pictures`` are the objects that git knew pictures by, None where they lie in the folder.
    """

    folder: str
    called: str
    pictures: Mapping[str, str] | None = None

    def picture(self, file: str, name: str) -> str | None:
        """What a picture beside a file was known by; None where nothing tells it."""
        if self.pictures is None:
            return picture_known_by(file, name)
        inside = os.path.relpath(os.path.join(os.path.dirname(file), name), self.folder)  # noqa: PTH118, PTH120
        return self.pictures.get(inside.replace(os.sep, "/"))

    def as_known(self, file: str, name: str) -> str | None:
        """What a picture that lies beside a file now is known by, in the same way."""
        return picture_known_by(file, name, next(iter((self.pictures or {}).values()), ""))


@contextmanager
def collection_at(base: str, path: str) -> Iterator[CollectionBefore]:
    """The collection ``path`` as it was in ``base``; its text files alone."""
    if os.path.isdir(base):  # noqa: PTH112 -- a path stays the text that the user typed
        inside = os.path.join(base, path)  # noqa: PTH118 -- see above
        held = inside if os.path.isdir(inside) and not os.path.isabs(path) else base  # noqa: PTH112, PTH117
        yield CollectionBefore(folder=held, called=f"the folder {quote(base)}")
        return
    prefix = _said(path, "rev-parse", "--show-prefix")
    if prefix is None:
        raise CannotRun(
            f"{quote(path)} lies in no git repository, and {quote(base)} is no folder. Give the "
            "folder that holds the collection as it was."
        )
    commit = _commit(base, path)
    with TemporaryDirectory(prefix="workeven-") as folder:
        texts, pictures = _files(path, commit, prefix)
        _write_out(texts, Path(folder))
        called = f"{quote(base)} ({commit[:10]})"
        yield CollectionBefore(folder=folder, called=called, pictures=pictures)


def picture_known_by(file: str, name: str, like: str = "") -> str | None:
    """What git knows a picture by that lies beside a file now, as long as ``like``.

    (``gitformat-hash``: SHA-1 or SHA-256 of a blob's head and content.)
    """
    content = source.picture(file, name)
    if not isinstance(content, bytes):
        return None
    head = b"blob %d\0" % len(content)
    made = hashlib.sha256 if len(like) == _SHA256 else hashlib.sha1
    return made(head + content, usedforsecurity=False).hexdigest()


def _commit(base: str, path: str) -> str:
    """The commit that is compared with: where the work since ``base`` has begun."""
    refused = base.startswith("-") or not base.isprintable() or not base.strip()
    named = (
        None if refused else _said(path, "rev-parse", "--verify", "--quiet", f"{base}^{{commit}}")
    )
    if not named:
        raise CannotRun(
            f"There is no folder and no commit {quote(base)} here. Name a branch, such as "
            "`origin/main`, or a commit."
        )
    return _said(path, "merge-base", named, "HEAD") or named


def _files(path: str, commit: str, prefix: str) -> tuple[Mapping[str, bytes], Mapping[str, str]]:
    """The text files of the collection in a commit, and what its pictures are known by.

    Each by its path within the collection. A file of a few bytes that is called a picture stands
    for one that lies elsewhere (large file storage): nothing is known of that.
    """
    within = ("--", prefix) if prefix else ()
    listed = _git(path, "ls-tree", "-r", "-l", "-z", "--full-tree", commit, *within)
    objects: dict[str, str] = {}
    pictures: dict[str, str] = {}
    for entry in (listed or b"").split(b"\0"):
        found = _ENTRY.fullmatch(entry)
        name = "" if found is None else found["path"].decode("utf-8", "replace")
        inside = name.removeprefix(prefix)
        if found is not None and _can_be_written(inside) and int(found["size"]) <= LARGEST + 1:
            objects[inside] = found["object"].decode("ascii")
        elif found is not None and _is_picture(inside, int(found["size"])):
            pictures[inside] = found["object"].decode("ascii")
    texts = dict(zip(objects, _contents(path, tuple(objects.values())), strict=True))
    return texts, pictures


def _is_picture(name: str, size: int) -> bool:
    return PICTURE.fullmatch(name.rpartition("/")[2]) is not None and size >= _LEAST_PICTURE


def _can_be_written(name: str) -> bool:
    parts = name.split("/")
    plain = all(_NAME.fullmatch(part) and not part.endswith(".") for part in parts)
    return plain and len(parts) <= _DEEPEST and name.endswith(".yaml")


def _contents(path: str, objects: tuple[str, ...]) -> Iterator[bytes]:
    """What objects hold, in one call: ``OBJECT blob SIZE``, a line, and so many bytes, each."""
    if not objects:
        return
    asked = "".join(f"{one}\n" for one in objects).encode("ascii")
    answer = _git(path, "cat-file", "--batch", given=asked) or b""
    at = 0
    for _ in objects:
        end = answer.find(b"\n", at)
        head = answer[at:end].split()
        if end < 0 or len(head) != len(("object", "type", "size")):
            raise CannotRun("git does not give the files of that commit. Is the repository whole?")
        size = int(head[-1])
        yield answer[end + 1 : end + 1 + size]
        at = end + size + len("\n\n")


def _write_out(files: Mapping[str, bytes], folder: Path) -> None:
    for name, content in files.items():
        file = folder / name
        file.parent.mkdir(parents=True, exist_ok=True)
        file.write_bytes(content)


def _said(path: str, *words: str) -> str | None:
    """What git prints, without the end of the line; None where it refuses."""
    answer = _git(path, *words)
    return None if answer is None else answer.decode("utf-8", "replace").rstrip("\n")


def _git(path: str, *words: str, given: bytes = b"") -> bytes | None:
    """What git answers in the folder of the collection; None where it refuses."""
    folder = path if os.path.isdir(path) else os.path.dirname(path) or os.curdir  # noqa: PTH112, PTH120
    command = ["git", "--no-pager", "--literal-pathspecs", "-C", folder, *words]
    environment = {**os.environ, "GIT_OPTIONAL_LOCKS": "0", "LC_ALL": "C"}
    try:
        done = subprocess.run(  # noqa: S603 -- our own words, and a commit that git has verified
            command, input=given, capture_output=True, check=False, env=environment
        )
    except OSError as fault:
        raise CannotRun(
            "git is needed to read the collection as it was, and it is not here. Give the folder "
            "that holds the collection as it was."
        ) from fault
    return done.stdout if done.returncode == 0 else None
