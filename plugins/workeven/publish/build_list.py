"""The list of a build: every file with its digest, and the version of all that computed them.

Takes     the names of the plugins and of the theme that a site is built with; digests of its files.
Gives     ``LIST_FILE``, ``made_with``, ``written``.
Problems  none.
From      FIPS 180-4 (SHA-256); "Core metadata specifications" of Python packages for versions.

Who has the same commit and the same versions gets the same list, to the byte: so that anybody can
see whether a site is what was built from its patterns.
"""

from __future__ import annotations

import hashlib
import json
import platform
import re
from collections.abc import Iterable, Iterator, Mapping
from importlib import metadata

from workeven import __version__, packaged

LIST_FILE = "build.json"

_NAME = re.compile(r"[A-Za-z0-9][\w.-]*")
#: what is only asked for by other systems, or by who asks for more
_NOT_HERE = re.compile(r"\b(?:extra|sys_platform|platform_system|os_name)\b")
_SCHEMAS = ("chart", "figures", "pattern", "pattern-data", "sizes-table", "studio")


def made_with(plugins: Iterable[str], theme: str) -> dict[str, str]:
    """Versions by name: Python, the packages with all that they need, and the schemas."""
    asked = [
        entry.dist.name
        for group, names in (("mkdocs.plugins", _entries(plugins)), ("mkdocs.themes", {theme}))
        for entry in metadata.entry_points(group=group)
        if entry.dist is not None and entry.name in names
    ]
    versions = {_plain(one.name): one.version for one in _needed(["workeven", "mkdocs", *asked])}
    versions["workeven"] = __version__
    return {
        "python": platform.python_version(),
        **dict(sorted(versions.items())),
        **{f"{kind} schema": _digest(kind) for kind in _SCHEMAS},
    }


def written(digests: Mapping[str, tuple[str, int]], versions: Mapping[str, str]) -> str:
    """The list as JSON: for each file its SHA-256, in hexadecimal, and its bytes; files by name."""
    files = {
        name: {"sha256": digest, "bytes": size} for name, (digest, size) in sorted(digests.items())
    }
    return json.dumps({"madeWith": versions, "files": files}, ensure_ascii=False, indent=1) + "\n"


def _entries(plugins: Iterable[str]) -> set[str]:
    """Names under which packages bring plugins: ``search`` of a theme is ``material/search``."""
    return {part for name in plugins for part in (name, name.rpartition("/")[2])}


def _needed(names: Iterable[str]) -> Iterator[metadata.Distribution]:
    """The packages, and those that they need; one that is not installed has no part in it."""
    waiting, seen = list(names), set[str]()
    while waiting:
        name = waiting.pop()
        if _plain(name) in seen:
            continue
        seen.add(_plain(name))
        try:
            found = metadata.distribution(name)
        except metadata.PackageNotFoundError:
            continue
        yield found
        for asked in found.requires or ():
            needs, _, when = asked.partition(";")
            if (said := _NAME.match(needs)) and not _NOT_HERE.search(when):
                waiting.append(said[0])


def _digest(kind: str) -> str:
    """A schema has no number of its own: the start of the digest of its text."""
    return hashlib.sha256(packaged.text(f"schemas/{kind}.schema.json").encode()).hexdigest()[:16]


def _plain(name: str) -> str:
    return re.sub(r"[-_.]+", "-", name).lower()
