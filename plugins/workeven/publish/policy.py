"""What a browser may do for a page: its content security policy, written into the page's own head.

Takes     the finished HTML of a page.
Gives     ``Asks``: ``asks``; ``guarded``: the page with its policy; ``told``: what is said of a
          host that it would load from.
Problems  none.
From      W3C, "Content Security Policy Level 3": hashes of inline scripts, styles and attributes.

Nothing is loaded but from the site itself, and no script runs but files of the site and what stood
in the page when it was built: of each script and style in the page the policy has the hash, which
fits those bytes alone. So words that came to be script by a mistake of ours would not run.
``'unsafe-hashes'`` stands only where an element has a style of its own, and lets in those styles.
``frame-ancestors`` is left out: it is not heard from a page.
"""

from __future__ import annotations

import re
from base64 import b64encode
from collections.abc import Iterable, Iterator
from functools import lru_cache
from hashlib import sha256
from html import unescape
from itertools import chain

from workeven.records import record

_ATTRIBUTES = r"""(?:\s(?:[^>"']|"[^"]*"|'[^']*')*)?"""
_INLINE = re.compile(rf"<(script|style)({_ATTRIBUTES})>(.*?)</\1\s*>", re.IGNORECASE | re.DOTALL)
_STYLE = re.compile(r"""\sstyle\s*=\s*(?:"([^"]*)"|'([^']*)')""", re.IGNORECASE)
#: The first thing in a head; a policy before it would push it too far down.
_CHARSET = re.compile(r"<meta\s+charset\b[^>]*>", re.IGNORECASE)
_HEAD = re.compile(r"<head\b[^>]*>", re.IGNORECASE)

#: So many signs tell a part of a page from others, nearly always.
_BEGINNING = 80
_LOADS = "link|script|img|iframe|source|video|audio|embed|object|track|input"
_LOADING = re.compile(rf"<({_LOADS})({_ATTRIBUTES})/?>", re.IGNORECASE)
_ADDRESS = re.compile(
    r"""\s(?:src|href|srcset|data|poster)\s*=\s*["']?\s*(?:https?:)?//([^/"'\s>]+)""", re.IGNORECASE
)
_SRC = re.compile(r"\ssrc\s*=", re.IGNORECASE)
_JSON = re.compile(r"""\stype\s*=\s*["']?application/(?:ld\+)?json""", re.IGNORECASE)
#: Links that a browser does not follow by itself (HTML, "Link types").
_NOT_LOADED = re.compile(
    r"""\srel\s*=\s*["']?(?:alternate|author|canonical|help|license|me|next|prev|search)\b""",
    re.IGNORECASE,
)

_FIXED = (
    "default-src 'none'",
    "img-src 'self' data:",
    "font-src 'self'",
    "media-src 'self'",
    "connect-src 'self'",
    "manifest-src 'self'",
    "worker-src 'self'",
    "form-action 'self'",
    "base-uri 'none'",
)


@record
class Asks:
    """What a text asks of a browser: the hashes of what it runs and wears, hosts it loads from.

    ``own`` are those of styles that elements have of their own.
    """

    scripts: tuple[str, ...] = ()
    styles: tuple[str, ...] = ()
    own: tuple[str, ...] = ()
    hosts: tuple[str, ...] = ()


def asks(html: str, *known: tuple[str, Asks]) -> Asks:
    """All that a page asks for; parts that were looked at before are not looked at again.

    >>> asks('<p style="top: 0">', ('style="top: 0"', asks(""))).own
    ()
    """
    rest, found = html, []
    for part, of_part in known:
        place = _place(rest, part)
        if place >= 0:
            rest = f"{rest[:place]} {rest[place + len(part) :]}"
            found.append(of_part)
    found.insert(0, _asks(rest))
    return Asks(
        scripts=_once(*(one.scripts for one in found)),
        styles=_once(*(one.styles for one in found)),
        own=_once(*(one.own for one in found)),
        hosts=_once(*(one.hosts for one in found)),
    )


def _place(html: str, part: str) -> int:
    """Where a part begins, -1 for nowhere; ``find`` alone would study the whole part first."""
    begins = part[:_BEGINNING]
    place = html.find(begins) if part else -1
    while place >= 0 and not html.startswith(part, place):
        place = html.find(begins, place + 1)
    return place


def guarded(html: str, found: Asks | None = None) -> str:
    """The page with its policy, as early in its head as can be: it holds for what comes after.

    ``found`` is what it asks for, where that was looked for before.

    >>> "script-src 'self';" in guarded('<head><meta charset="utf-8"></head>')
    True
    """
    place = _CHARSET.search(html) or _HEAD.search(html)
    if place is None:
        return html
    meta = f'<meta http-equiv="Content-Security-Policy" content="{_policy(found or _asks(html))}">'
    return f"{html[: place.end()]}{meta}{html[place.end() :]}"


def told(host: str, page: str, folder: str) -> str:
    """What the designer is told of a host; ``folder`` is that of her own pages."""
    mend = (
        "Write `font: false` under `theme` in mkdocs.yml."
        if host.startswith("fonts.")
        else f"Put the file into {folder}, or link to it."
    )
    return (
        f"{page} would load something from {host}, and browsers are told not to: pages here ask no "
        f"other host for anything. {mend}"
    )


def _hosts(html: str) -> Iterator[str]:
    """The hosts from which the page would load something by itself."""
    for tag, attributes in _LOADING.findall(html):
        if tag.lower() == "link" and _NOT_LOADED.search(attributes):
            continue
        yield from _ADDRESS.findall(attributes)


def _asks(html: str) -> Asks:
    inline = [(kind.lower(), words, text) for kind, words, text in _INLINE.findall(html)]
    scripts = (text for kind, words, text in inline if kind == "script" and _runs(words))
    styles = (text for kind, _, text in inline if kind == "style")
    own = (unescape(first or second) for first, second in _STYLE.findall(html))
    return Asks(
        scripts=_hashes(scripts),
        styles=_hashes(styles),
        own=_hashes(own),
        hosts=_once(_hosts(html)),
    )


def _policy(found: Asks) -> str:
    return "; ".join(
        (
            *_FIXED,
            " ".join(("script-src 'self'", *found.scripts)),
            " ".join(
                (
                    "style-src 'self'",
                    *found.styles,
                    *(("'unsafe-hashes'", *found.own) if found.own else ()),
                )
            ),
        )
    )


def _runs(attributes: str) -> bool:
    """Whether it is a script in the page; data in it is not run, and a file has an address."""
    return not _SRC.search(attributes) and not _JSON.search(attributes)


def _hashes(texts: Iterable[str]) -> tuple[str, ...]:
    return _once(map(_hash, texts))


def _once(*texts: Iterable[str]) -> tuple[str, ...]:
    return tuple(dict.fromkeys(chain(*texts)))


@lru_cache(maxsize=256)
def _hash(text: str) -> str:
    """The hash of a text as the browser reads it: ends of lines are one sign."""
    plain = text.replace("\r\n", "\n").replace("\r", "\n")
    return f"'sha256-{b64encode(sha256(plain.encode()).digest()).decode()}'"
