"""What a maker works with: where she was, counters, and who she asks about a row.

Takes     ``ReadyPattern``; a ``ProvenRow``.
Gives     ``WorkView``: ``work``; ``fingerprint``, ``repeats``.
Problems  none.
From      DEVELOPERS.md, "The reader's page": ``we:rows:PATTERN``.

A tick is of a row *as it was read*. So each row has a fingerprint: of its words, the numbers that
stand for its formulas, what its own stitches mean, and what there is after it, in every size.
Neither its number nor where it stands is in it, so that it keeps its tick when a row is put in
before it; nor is anything that the page itself words, so that a newer workeven takes no tick away.
"""

from __future__ import annotations

from base64 import urlsafe_b64encode
from collections.abc import Iterator, Mapping
from hashlib import blake2b
from urllib.parse import quote

from workeven.pattern import Pattern
from workeven.pattern.ask import PLACES
from workeven.pipeline import ReadyPattern
from workeven.proof import ProvenRow
from workeven.publish.pages import figures, rows
from workeven.publish.pages.choices import plain
from workeven.records import record

#: Bytes of a fingerprint: what it is held against is one older text of the same row.
_BYTES = 3
#: What of an address is known only on the page.
ON_THE_PAGE = ("piece", "row", "size")


@record
class WorkView:
    """Where makers ask.

    ``ask`` is the address where makers ask about the pattern, ``ask_row`` the one about a row,
    with ``{piece}``, ``{row}`` and ``{size}`` left for the script to fill; "" where there is none.
    """

    ask: str
    ask_row: str


def work(ready: ReadyPattern) -> WorkView:
    """What the controls above the pieces need."""
    pattern = ready.pattern
    return WorkView(
        ask=_asked(pattern, ()),
        ask_row=_asked(pattern, ON_THE_PAGE),
    )


def own_stitches(pattern: Pattern) -> Mapping[str, str]:
    """What the pattern's own stitches are, by name."""
    return {stitch.name: stitch.text for stitch in pattern.stitches}


def fingerprint(proven: ProvenRow, names: rows.Names, own: Mapping[str, str]) -> str:
    """Four signs that change when what is worked does; ``own``: the pattern's own stitches."""
    said = "\n".join(_said(proven, names, own))
    return urlsafe_b64encode(blake2b(said.encode(), digest_size=_BYTES).digest()).decode()


def repeats(proven: ProvenRow) -> str:
    """How many rows a line stands for, ``27 (27, 29)``; "?" where the maker says; "" for one.

    Rows that have others between them are as many as are listed, if they are.
    """
    label = proven.row.label
    if label is not None and label.alternate:
        return str(len(label.listed)) if label.listed else ""
    worked = [counted for counted in proven.per_size if counted]
    if any(counted.times is None for counted in worked):
        return "?"
    if all(counted.times in {0, 1} for counted in worked):
        return ""
    listed = (counted.times if counted else None for counted in proven.per_size)
    return plain(figures.counts(listed))


def _asked(pattern: Pattern, later: tuple[str, ...]) -> str:
    """The studio's address filled in, but for what is filled ``later``."""
    ask = pattern.studio.ask
    if ask is None:
        return ""
    address = _mail(ask.address, row=bool(later)) if ask.mail else ask.address
    known = {"pattern": pattern.title.text, "version": pattern.version}
    for name in PLACES:
        if name not in later:
            address = address.replace(f"{{{name}}}", quote(known.get(name, ""), safe=""))
    return address


def _mail(address: str, *, row: bool) -> str:
    """A letter that is begun: its subject, and what it is about."""
    where = ": {piece}, {row}" if row else ""
    about = ("{pattern}, version {version}", *(("{piece}, {row}",) if row else ()), "Size: {size}")
    body = "\r\n".join((*about, "", ""))  # RFC 6068, section 5: lines end so
    subject = quote("{pattern}" + where, safe="{}")
    return f"mailto:{quote(address, safe='@')}?subject={subject}&body={quote(body, safe='{}')}"


def _said(proven: ProvenRow, names: rows.Names, own: Mapping[str, str]) -> Iterator[str]:
    yield from rows.as_worked(proven, names)
    for name in dict.fromkeys(term.name for term in proven.row.terms):
        if name in own:
            yield f"{name}: {own[name]}"
    for counted in proven.per_size:
        yield f"{counted.times} {counted.sts} {counted.makes}" if counted else figures.NOT_WORKED
