"""The style sheet and the script of all pages, joined from a file a subject in a fixed order.

Takes     nothing: the packaged files of ``theme/styles`` and ``theme/scripts``.
Gives     ``style``, ``script``, ``first``, ``worker``, ``files``, ``later``; ``joined``, ``bare``.
Problems  none.
From      DEVELOPERS.md, "The reader's page".

A page loads one sheet and one script, whatever they are made of. The script is a plain one, put off
until the page is read (``defer``): browsers refuse modules in files that are opened without a
server. Each of its parts runs in a scope of its own, and one that fails leaves the others whole.
"""

from __future__ import annotations

import re
from collections.abc import Iterable

from workeven import packaged
from workeven.pattern.size_names import MOST_SIZES

#: ``theme/styles/NAME.css``; a later one wins, and paper is last.
STYLES = tuple(
    "colours frame type head choose cautions tables rows work mine foot index wide print".split()
)
#: ``theme/scripts/NAME.js``: what a page does when it has been read.
SCRIPTS: tuple[str, ...] = tuple(
    "frame choose which later offline manifest work index materials ease words".split()
)
#: ``theme/scripts/NAME.js``: what must be set before a page is first painted, within its head.
FIRST: tuple[str, ...] = ("size", "index-first", "text-first")
#: ``theme/scripts/NAME.js``: what a page asks for by itself once it stands (``later``).
LATER: tuple[str, ...] = ("mine",)

STYLE_FILE = "assets/workeven.css"
SCRIPT_FILE = "assets/workeven.js"
#: What a page asks for by itself once it stands (``scripts/later.js``).
LATER_FILE = "assets/workeven-mine.js"
#: At the root of the site: a worker serves the pages of its own folder and of those below.
WORKER_FILE = "offline-worker.js"


def style() -> str:
    """The sheet."""
    parts = (bare(packaged.text(f"publish/theme/styles/{name}.css")) for name in STYLES)
    return "\n".join((*parts, _of_other_sizes()))


def script() -> str:
    """The script, "" where there is nothing to do."""
    return joined(map(_script, SCRIPTS))


def first() -> str:
    """The script for the head of each page, "" where there is nothing to set."""
    return joined(map(_script, FIRST))


def worker() -> str:
    """The script that shows pages kept offline; a browser runs it beside the pages, not in them."""
    return packaged.text(f"publish/theme/{WORKER_FILE}")


def files() -> tuple[tuple[str, str], ...]:
    """What all pages load: address and text."""
    found = ((STYLE_FILE, style()), (SCRIPT_FILE, script()))
    return tuple((path, text) for path, text in found if text)


def later() -> tuple[str, str]:
    """What pages load once they stand: address and text."""
    return LATER_FILE, joined(map(_script, LATER))


def joined(parts: Iterable[str]) -> str:
    """Scripts one behind the other, each in a scope of its own and failing alone.

    >>> print(joined(["one();"]), end="")
    try { (() => {
    one();
    })(); } catch (fault) { console.error(fault); }
    """
    return "".join(f"try {{ (() => {{\n{part.strip()}\n}})(); }} {_TOLD}\n" for part in parts)


def bare(text: str) -> str:
    r"""A style or a script without its remarks and indents, which are for who reads the source.

    Only remarks that begin a line or fill a block: what stands within a line may be part of a text.
    So no text of a script goes over several lines.

    >>> bare('/* Why. */\na {\n  b: "/* c */"; }\ncatch { /* nothing */ }')
    'a {\nb: "/* c */"; }\ncatch {}'
    """
    return _INDENT.sub("", _IN_A_BLOCK.sub("{}", _REMARK.sub("", text)))


_REMARK = re.compile(r"^[ \t]*/\*.*?\*/[ \t]*\n", re.MULTILINE | re.DOTALL)
_IN_A_BLOCK = re.compile(r"\{ /\*[^*]*\*/ \}")
_INDENT = re.compile(r"^[ \t]+", re.MULTILINE)
_TOLD = "catch (fault) { console.error(fault); }"


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


def _script(name: str) -> str:
    return bare(packaged.text(f"publish/theme/scripts/{name}.js"))
