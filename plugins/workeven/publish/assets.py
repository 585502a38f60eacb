"""The style sheet of all pages and the script of each kind, joined from a file a subject.

Takes     nothing: the packaged files of ``theme/styles`` and ``theme/scripts``.
Gives     ``style``, ``script``, ``first``, ``worker``, ``files``, ``later``; ``schemas``;
          ``joined``, ``bare``.
Problems  none.
From      DEVELOPERS.md, "The reader's page".

A page loads one sheet and one script, whatever they are made of: the script of its kind has what
such pages need. It is a plain one, put off until the page is read (``defer``): browsers refuse
modules in files that are opened without a server. Each of its parts runs in a scope of its own, and
one that fails leaves the others whole. What a pattern's page computes with comes in a file of its
own, which the page asks for once it stands.
"""

from __future__ import annotations

import re
from collections.abc import Iterable
from functools import cache
from typing import Literal

from workeven import packaged
from workeven.pattern.size_names import MOST_SIZES
from workeven.publish.shortened import shortened

#: A pattern's page, the list of all patterns, any other.
Kind = Literal["pattern", "list", "other"]

#: ``theme/styles/NAME.css``; a later one wins, and paper is last.
STYLES = (
    *"colours frame type head pictures choose cautions tables stitches rows work mine".split(),
    *"foot index wide print".split(),
)
#: ``theme/scripts/NAME.js``: what a page does when it has been read, by its kind.
SCRIPTS: dict[Kind, tuple[str, ...]] = {
    "pattern": (
        *"place frame choose which later offline manifest work materials ease words".split(),
    ),
    "list": ("frame", "manifest", "index", "terms"),
    "other": ("frame", "manifest"),
}
#: ``theme/scripts/NAME.js``: what must be set before a page is first painted, within its head.
FIRST: dict[Kind, tuple[str, ...]] = {
    "pattern": ("size", "text-first"),
    "list": ("index-first",),
    "other": (),
}
#: What the scripts of a kind have in common: in its head, and in no scope of its own.
SHARED: dict[Kind, tuple[str, ...]] = {"pattern": ("kit",), "list": (), "other": ()}
#: ``theme/scripts/NAME.js``: what a page asks for by itself once it stands (``later``).
LATER: dict[Kind, tuple[str, ...]] = {"pattern": ("mine",), "list": (), "other": ()}

STYLE_FILE = "assets/workeven.css"
SCRIPT_FILES: dict[Kind, str] = {
    "pattern": "assets/workeven-pattern.js",
    "list": "assets/workeven-list.js",
    "other": "assets/workeven.js",
}
#: What a pattern's page asks for by itself once it stands (``scripts/later.js``).
LATER_FILE = "assets/workeven-mine.js"
#: ``schemas/NAME.schema.json``: files that are written by hand, and data that is published.
SCHEMAS = ("pattern", "studio", "chart", "pattern-data", "sizes-table", "figures")
SCHEMA_FOLDER = "schema"
#: At the root of the site: a worker serves the pages of its own folder and of those below.
WORKER_FILE = "offline-worker.js"


def style() -> str:
    """The sheet."""
    parts = (bare(packaged.text(f"publish/theme/styles/{name}.css")) for name in STYLES)
    return "\n".join((*parts, _of_other_sizes()))


def script(kind: Kind) -> str:
    """The script of such a page."""
    return joined(map(_script, SCRIPTS[kind]))


def first(kind: Kind) -> str:
    """The script for the head of such a page, "" where there is nothing to set."""
    shared = "".join(f"{_script(name)}\n" for name in SHARED[kind])
    return shared + joined(map(_script, FIRST[kind]))


def worker() -> str:
    """The script that shows pages kept offline; a browser runs it beside the pages, not in them."""
    return packaged.text(f"publish/theme/{WORKER_FILE}")


def files() -> tuple[tuple[str, str], ...]:
    """The sheet, and the script of each kind of page: address and text."""
    scripts = ((path, script(kind)) for kind, path in SCRIPT_FILES.items())
    return ((STYLE_FILE, style()), *scripts)


def schemas() -> tuple[tuple[str, str], ...]:
    """What says how our files are made, at addresses that stay: for editors and programs."""
    return tuple(
        (f"{SCHEMA_FOLDER}/{name}.schema.json", packaged.text(f"schemas/{name}.schema.json"))
        for name in SCHEMAS
    )


def later(kind: Kind = "pattern") -> tuple[str, str]:
    """What such a page loads once it stands: address and text, "" where that is nothing."""
    return LATER_FILE, joined(map(_script, LATER[kind]))


def joined(parts: Iterable[str]) -> str:
    """Scripts one behind the other, each in a scope of its own and failing alone.

    >>> print(joined(["one();"]), end="")
    try{(()=>{
    one();
    })()}catch(e){console.error(e)}
    """
    told = "catch(e){console.error(e)}"
    return "".join(f"try{{(()=>{{\n{part.strip()}\n}})()}}{told}\n" for part in parts)


def bare(text: str) -> str:
    r"""A style without its remarks and indents, which are for who reads the source.

    Only remarks that begin a line: what stands within a line may be part of a text.

    >>> bare('/* Why. */\na {\n  b: "/* c */"; }')
    'a {\nb: "/* c */"; }'
    """
    return _INDENT.sub("", _REMARK.sub("", text))


_REMARK = re.compile(r"^[ \t]*/\*.*?\*/[ \t]*\n", re.MULTILINE | re.DOTALL)
_INDENT = re.compile(r"^[ \t]+", re.MULTILINE)


def _of_other_sizes() -> str:
    """Rows that her size does not work, and lines of tables that are not hers, are not seen.

    The rules are written for as many sizes as a pattern may have: no script need run for them.
    """
    lines = ".we-sized tbody tr:not(:nth-child({}))"
    each = [
        f':root[data-size="{at}"] :is([data-we-not~="{at}"], {lines.format(at + 1)})'
        for at in range(MOST_SIZES)
    ]
    return f"{', '.join(each)} {{ display: none !important; }}\n"


@cache
def _script(name: str) -> str:
    return shortened(packaged.text(f"publish/theme/scripts/{name}.js"))
