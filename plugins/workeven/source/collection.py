"""Which files a collection holds, and the one place where user files are opened.

Takes     the paths given to a command, or ``patterns`` when none is.
Gives     ``Collection``; ``load`` reads one of its files; ``content``, ``charts_beside``;
          ``picture``, ``pictures_beside``; ``document``, ``stamp``.
Problems  ``file-no-patterns``, ``file-stranger``, ``file-symlink``, ``file-folder-name``,
          ``file-unreadable``.
From      design.md: patterns/ is untrusted data, one folder a pattern.

A collection is a folder with ``studio.yaml`` (if the studio has one), body charts of the studio's
own (``our-chart.yaml``, which the studio names), and one folder a pattern, which holds
``pattern.yaml`` and the pictures that it lists. Nothing else may lie there: no README (prose
belongs in the guide), no hidden file. Links are refused and never followed, wherever they point.
"""

from __future__ import annotations

import os
import re
import stat
from collections.abc import Iterable, Sequence
from typing import Literal, TypeVar

from workeven.problems import Checked, Problem, Span
from workeven.problems.words import quote, shown
from workeven.records import record
from workeven.source.characters import LARGEST, as_text, lines_of, too_large
from workeven.source.read import read
from workeven.source.tree import Source

_T = TypeVar("_T")

#: Why there is no picture.
PictureFault = Literal["missing", "link", "too large", "unreadable"]

DEFAULT = "patterns"
PATTERN = "pattern.yaml"
STUDIO = "studio.yaml"
#: Files of the studio's own body charts, beside its own file, which names them.
CHART = re.compile(r"(?:[a-z0-9]+-)*chart\.yaml")
#: Files of pictures beside a pattern's own, by their names; its ending says the format.
PICTURE = re.compile(r"[a-z0-9]+(?:-[a-z0-9]+)*\.(?:jpg|jpeg|png|webp)")
LARGEST_PICTURE = 20 * 1024 * 1024
#: Names of folders, which become addresses of pages.
SLUG = re.compile(r"[a-z0-9]+(?:-[a-z0-9]+)*")
LONGEST_SLUG = 80

#: Names that mean a device on Windows, whatever their ending: who fetches the collection there has
#: no such file (Microsoft, "Naming Files, Paths, and Namespaces").
DEVICES = frozenset(
    ("con", "prn", "aux", "nul", *(f"{port}{n}" for port in ("com", "lpt") for n in range(10)))
)

_RENAMED = {"pattern.yml", "patterns.yaml", "patterns.yml"}
_RENAMED_STUDIO = {"studio.yml", "studios.yaml"}


@record
class PatternFile:
    """A pattern's file, the name of its folder, and the studio's file beside the folder."""

    file: str
    slug: str
    studio: str | None


@record
class Collection:
    """What the given paths hold. ``missing`` are paths that lead to nothing (a slip of usage)."""

    patterns: tuple[PatternFile, ...]
    studios: tuple[str, ...]
    problems: tuple[Problem, ...]
    missing: tuple[str, ...]


def collect(paths: Sequence[str] = ()) -> Collection:
    """The files to check, in the order of the paths, each once; folders by name."""
    found = [_at(os.path.normpath(path)) for path in paths or (DEFAULT,)]
    return Collection(
        patterns=_once(pattern for part in found for pattern in part.patterns),
        studios=_once(studio for part in found for studio in part.studios),
        problems=_once(problem for part in found for problem in part.problems),
        missing=_once(path for part in found for path in part.missing),
    )


def typed(path: str) -> Collection:
    """The collection of one text that stands in no file yet, as if it lay at ``path``.

    A body chart is checked by way of the studio that names it.
    """
    path = os.path.normpath(path)
    if os.path.lexists(path) and _led_through_a_link(path):
        return _only(_symlink(path))
    if not CHART.fullmatch(os.path.basename(path)):
        return _file(path)
    studio = os.path.join(os.path.dirname(path), STUDIO)
    studios = (studio,) if os.path.lexists(studio) and _regular(studio) else ()
    return Collection(patterns=(), studios=studios, problems=(), missing=())


def load(file: str, content: bytes | None = None) -> Checked[Source]:
    """Open and read one file; a link is not followed, and no more is read than the limit.

    ``content`` is what stands there, where that is known and not in the file.
    """
    if content is not None:
        return read(_slashes(file), content)
    try:
        found = _bytes_of(file)
    except OSError as fault:
        return Checked(value=None, problems=(_unreadable(file, fault),))
    if isinstance(found, int):
        return Checked(value=None, problems=(too_large(_slashes(file), found),))
    return read(_slashes(file), found)


def content(file: str) -> bytes | None:
    """The bytes of a file that ``load`` could read; None where it would tell why not."""
    try:
        found = _bytes_of(file)
    except OSError:
        return None
    return None if isinstance(found, int) else found


def charts_beside(studio: str) -> tuple[str, ...]:
    """The files of body charts beside that of a studio, as ``beside`` names them."""
    names = _names(os.path.dirname(studio) or os.curdir)
    return tuple(beside(studio, name) for name in names if CHART.fullmatch(name))


def picture(file: str, name: str) -> bytes | PictureFault:
    """A picture beside a file, by its name; a link is not followed, a large file not read."""
    path = os.path.join(os.path.dirname(file), name)
    if os.path.islink(path):
        return "link"
    if not os.path.lexists(path):
        return "missing"
    try:
        content = _bytes_of(path, LARGEST_PICTURE)
    except OSError:
        return "unreadable"
    return "too large" if isinstance(content, int) else content


def pictures_beside(file: str) -> tuple[str, ...]:
    """Names of what lies as a picture beside a pattern that has a folder of its own."""
    folder, name = os.path.split(file)
    return tuple(filter(_picture_name, _names(folder or os.curdir))) if name == PATTERN else ()


def charts_unnamed(studio: str, named: Iterable[str]) -> tuple[Problem, ...]:
    """The problems of body charts that the studio's file beside them does not name."""
    folder, names = os.path.dirname(studio), set(named)
    return tuple(
        _stranger(os.path.join(folder, name), STUDIO)
        for name in _names(folder or os.curdir)
        if CHART.fullmatch(name) and name not in names and _regular(os.path.join(folder, name))
    )


def lines(file: str, content: bytes | None = None) -> tuple[str, ...]:
    """The lines of a file as they are written; none where it is no text, or cannot be opened."""
    try:
        found = _bytes_of(file) if content is None else content
        return lines_of("" if isinstance(found, int) else found.decode("utf-8-sig"))
    except (OSError, UnicodeDecodeError):
        return ()


def document(file: str, content: bytes | None = None) -> Checked[str]:
    """The text of a document that is no pattern file: one that rows are pasted from.

    ``content`` is what was piped in. A link is followed: the user has named it herself.
    """
    try:
        found = _bytes_of(os.path.realpath(file)) if content is None else content
    except OSError as fault:
        return Checked(value=None, problems=(_unreadable(file, fault),))
    if isinstance(found, int):
        return Checked(value=None, problems=(too_large(_slashes(file), found),))
    return as_text(_slashes(file), found)


def is_device(name: str) -> bool:
    """Whether a name means a device on Windows.

    >>> is_device("con.jpg"), is_device("con"), is_device("cone.jpg")
    (True, True, False)
    """
    return name.partition(".")[0] in DEVICES


def beside(file: str, name: str) -> str:
    """The path of a file that lies beside another.

    >>> beside("patterns/studio.yaml", "our-chart.yaml")
    'patterns/our-chart.yaml'
    """
    return _slashes(os.path.join(os.path.dirname(file), name))


def stamp(one: PatternFile) -> tuple[tuple[str, int, int, int], ...]:
    """What tells whether a pattern, or a file that it is checked with, was written anew.

    For each file that is there its name, the time it was written, its size and its number on the
    disk, which is another when an editor saves a new file in the place of the old.
    """
    folder = os.path.dirname(one.studio) if one.studio else None
    charts = [] if folder is None else filter(CHART.fullmatch, _names(folder or os.curdir))
    files = [
        one.file,
        *([one.studio] if one.studio else []),
        *(os.path.join(folder or "", name) for name in charts),
        *(beside(one.file, name) for name in pictures_beside(one.file)),
    ]
    found = []
    for file in files:
        try:
            status = os.stat(file)
        except OSError:
            continue
        found.append((file, status.st_mtime_ns, status.st_size, status.st_ino))
    return tuple(found)


def slug_of(file: str) -> str:
    """The name a pattern goes by: that of its folder.

    >>> slug_of("patterns/sandhopper-mitts/pattern.yaml"), slug_of("mitts.yaml")
    ('sandhopper-mitts', 'mitts')
    """
    folder, name = os.path.split(file)
    if name == PATTERN:
        return os.path.basename(os.path.abspath(folder or os.curdir))
    return os.path.splitext(name)[0]


def _at(path: str) -> Collection:
    """What one path holds: a file, the folder of a pattern, or a collection."""
    if not os.path.lexists(path):
        return Collection(patterns=(), studios=(), problems=(), missing=(path,))
    if _led_through_a_link(path):
        return _only(_symlink(path))
    if not os.path.isdir(path):
        return _file(path)
    if os.path.lexists(os.path.join(path, PATTERN)):
        return _pattern_folder(path)
    return _collection(path)


def _led_through_a_link(path: str) -> bool:
    """Whether the path, or the folder of the file it names, is a link."""
    folder, name = os.path.split(path)
    return os.path.islink(path) or (name in (PATTERN, STUDIO) and os.path.islink(folder))


def _file(path: str) -> Collection:
    if os.path.basename(path) == STUDIO:
        return Collection(patterns=(), studios=(path,), problems=(), missing=())
    studio, problems = _studio_beside(path)
    pattern = PatternFile(file=path, slug=slug_of(path), studio=studio)
    return Collection(
        patterns=(pattern,),
        studios=(studio,) if studio else (),
        problems=problems,
        missing=(),
    )


def _pattern_folder(folder: str) -> Collection:
    """A folder with a pattern.yaml: the pattern, and problems for all else but pictures."""
    file = os.path.normpath(os.path.join(folder, PATTERN))
    inside = _file(file) if _regular(file) else _only(_not_regular(file))
    strangers = [
        _not_allowed(os.path.join(folder, name), expected=PATTERN)
        for name in _names(folder)
        if name != PATTERN and not _picture_name(name)
    ]
    return Collection(
        patterns=inside.patterns,
        studios=inside.studios,
        problems=(*inside.problems, *strangers),
        missing=(),
    )


def _collection(folder: str) -> Collection:
    names = _names(folder)
    alone = STUDIO not in names  # then nothing names a body chart
    parts = [_entry(os.path.join(folder, name), alone=alone) for name in names]
    patterns = tuple(pattern for part in parts for pattern in part.patterns)
    problems = tuple(problem for part in parts for problem in part.problems)
    tried = any(os.path.lexists(os.path.join(folder, name, PATTERN)) for name in names)
    if not patterns and not tried:
        other = DEFAULT if os.path.isdir(os.path.join(folder, DEFAULT)) else None
        return _only(_no_patterns(folder, other), *(() if other else _strangers_only(problems)))
    return Collection(
        patterns=patterns,
        studios=_once(studio for part in parts for studio in part.studios),
        problems=problems,
        missing=(),
    )


def _strangers_only(problems: tuple[Problem, ...]) -> tuple[Problem, ...]:
    """Without the message that a folder holds no pattern: the collection's own says so."""
    return tuple(problem for problem in problems if problem.code != "file-no-patterns")


def _entry(path: str, *, alone: bool) -> Collection:
    """One thing in a collection: its studio, a pattern's folder, or something that is neither."""
    name = os.path.basename(path)
    if os.path.islink(path) or not os.path.isdir(path):
        if name == STUDIO and _regular(path):
            return Collection(patterns=(), studios=(path,), problems=(), missing=())
        if CHART.fullmatch(name) and _regular(path) and not alone:
            return _only()
        return _only(_not_allowed(path, expected=STUDIO))
    if not os.path.lexists(os.path.join(path, PATTERN)):
        strangers = (
            _not_allowed(os.path.join(path, name), expected=PATTERN) for name in _names(path)
        )
        return _only(_no_patterns(path, None), *strangers)
    inside = _pattern_folder(path)
    if SLUG.fullmatch(name) and len(name) <= LONGEST_SLUG and not is_device(name):
        return inside
    return Collection(
        patterns=inside.patterns,
        studios=inside.studios,
        problems=(_folder_name(path), *inside.problems),
        missing=(),
    )


def _picture_name(name: str) -> bool:
    return PICTURE.fullmatch(name) is not None and not is_device(name)


def _studio_beside(pattern: str) -> tuple[str | None, tuple[Problem, ...]]:
    """The studio.yaml of the collection in which a pattern's folder lies."""
    if os.path.basename(pattern) != PATTERN:
        return None, ()
    folder = os.path.dirname(pattern)
    above = os.path.normpath(os.path.join(folder, os.pardir))
    studio = os.path.join(above, STUDIO) if above != os.curdir else STUDIO
    if not os.path.lexists(studio):
        return None, ()
    if not _regular(studio):
        return None, (_not_regular(studio),)
    return studio, ()


def _bytes_of(file: str, most: int = LARGEST) -> bytes | int:
    """The bytes of a file; only their number when they are too many to be read."""
    if os.path.islink(file):
        raise OSError("it is a link")
    flags = os.O_RDONLY | getattr(os, "O_NOFOLLOW", 0) | getattr(os, "O_NONBLOCK", 0)
    descriptor = os.open(file, flags | getattr(os, "O_BINARY", 0))
    with os.fdopen(descriptor, "rb") as opened:
        status = os.fstat(opened.fileno())
        if not stat.S_ISREG(status.st_mode):
            raise OSError("it is no file with a text in it")
        content = opened.read(most + 1)
    return content if len(content) <= most else max(status.st_size, len(content))


def _names(folder: str) -> list[str]:
    try:
        return sorted(os.listdir(folder))
    except OSError:
        return []


def _regular(path: str) -> bool:
    return stat.S_ISREG(os.lstat(path).st_mode)


def _once(found: Iterable[_T]) -> tuple[_T, ...]:
    return tuple(dict.fromkeys(found))


# --- problems ------------------------------------------------------------------------------


def _only(*problems: Problem) -> Collection:
    return Collection(patterns=(), studios=(), problems=problems, missing=())


def _not_allowed(path: str, *, expected: str) -> Problem:
    return _symlink(path) if os.path.islink(path) else _stranger(path, expected)


def _not_regular(path: str) -> Problem:
    return _symlink(path) if os.path.islink(path) else _stranger(path, os.path.basename(path))


def _symlink(path: str) -> Problem:
    return Problem(
        code="file-symlink",
        span=_whole(path),
        found=f"{quote(os.path.basename(path))} is a link to another place.",
        expected="Files and folders themselves: a link could lead out of the collection.",
        mend="Delete the link, and put the file itself in its place.",
    )


def _stranger(path: str, expected: str) -> Problem:
    name = os.path.basename(path)
    is_folder = os.path.isdir(path)
    allowed = {
        PATTERN: f"In the folder of a pattern: `{PATTERN}` and its pictures, and nothing else.",
        STUDIO: f"In a collection: `{STUDIO}`, its body charts and one folder a pattern.",
    }[expected]
    renamed = name.lower() in (_RENAMED if expected == PATTERN else _RENAMED_STUDIO)
    renamed = renamed or (name.lower() == expected and name != expected)
    if renamed:
        mend = f"Rename it to `{expected}`."
    elif expected == STUDIO and name.lower() in _RENAMED | {PATTERN}:
        mend = (
            f"Name it `{PATTERN}`, in a folder of its own: "
            f"`{DEFAULT}/name-of-the-pattern/{PATTERN}`."
        )
    else:
        mend = "Delete it, or keep it outside the collection: prose goes into the guide."
    return Problem(
        code="file-stranger",
        span=_whole(path),
        found=f"The {'folder' if is_folder else 'file'} {quote(name)} does not belong here.",
        expected=allowed,
        mend=mend,
    )


def _no_patterns(folder: str, other: str | None) -> Problem:
    mend = (
        f"Write the pattern as `{_slashes(os.path.join(folder, PATTERN))}`, or give another path."
    )
    if other is not None:
        mend = f"Did you mean `{_slashes(os.path.normpath(os.path.join(folder, other)))}`?"
    elif _slashes(folder).endswith(DEFAULT):
        mend = f"Write a pattern as `{_slashes(folder)}/name-of-the-pattern/{PATTERN}`."
    return Problem(
        code="file-no-patterns",
        span=_whole(folder),
        found="The folder holds no pattern.",
        expected=f"A `{PATTERN}`, or folders that hold one each.",
        mend=mend,
    )


def _folder_name(path: str) -> Problem:
    name = os.path.basename(path)
    better = "-".join(re.findall(r"[a-z0-9]+", name.lower()))[:LONGEST_SLUG].strip("-")
    better = f"{better}-pattern" if is_device(better) else better
    return Problem(
        code="file-folder-name",
        span=_whole(path),
        found=f"The folder is called {quote(name)}, which cannot be the address of a page.",
        expected=f"Lowercase letters a to z, digits and single hyphens, at most {LONGEST_SLUG}, "
        "and no name that Windows keeps for a device.",
        mend=f"Rename it to `{better}`." if better else "Rename it, for example to `dune-mitts`.",
    )


def _unreadable(file: str, fault: OSError) -> Problem:
    return Problem(
        code="file-symlink" if os.path.islink(file) else "file-unreadable",
        span=_whole(file),
        found=f"The file cannot be opened: {(fault.strerror or str(fault)).lower()}.",
        expected="A text file that you may read.",
        mend="Look at what the file is and who may read it.",
    )


def _whole(path: str) -> Span:
    return Span(file=shown(_slashes(path)), line=1, column=1, end_line=1, end_column=1)


def _slashes(path: str) -> str:
    return path.replace(os.sep, "/")
