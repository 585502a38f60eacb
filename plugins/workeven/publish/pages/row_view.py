"""One row as its template lays it out: number, side, count, words, notes, place in the video.

Takes     ``ReadyPattern``, a ``ProvenRow`` with its section and piece.
Gives     ``RowView``: ``row_view``.
Problems  none.
From      design.md, "A pattern file": row numbers, counts and sides are added to the words.
"""

from __future__ import annotations

from markupsafe import Markup

from workeven.notation.vocabulary import speak
from workeven.pattern import Piece, RowNote, Section
from workeven.pipeline import ReadyPattern
from workeven.proof import ProvenRow
from workeven.publish.pages import anchors, rows, spaced, worked_into, working
from workeven.publish.pages.choices import not_for
from workeven.publish.pages.films import film_link
from workeven.publish.pages.texts import filled, paragraphs
from workeven.publish.pages.views import Link
from workeven.publish.pages.worked_into import InSizes
from workeven.records import record

#: Only here does a row's side tell a maker anything.
_TURNED = {"flat rows", "joined rounds, turned"}
_SIDES = {"": "", "RS": "right side", "WS": "wrong side"}


@record
class RowView:
    """A line of a pattern. ``side`` is RS or WS.

    ``number`` is "" for a line that is no row; ``place`` then says where it stands: at the start,
    at the end, or between rows. ``into`` says which stitches it is worked into, where its words
    leave that to find. ``text`` is the fingerprint of what is worked; ``times`` how many rows it
    stands for where there is something to count. ``not_for`` are the places of
    the sizes that do not work it, or work it no times.
    """

    anchor: str
    number: str
    place: str
    side: str
    side_words: str
    words: Markup
    count: str
    multiple: str
    into: str
    notes: tuple[str, ...]
    video: Link | None
    text: str
    times: str
    not_for: str = ""


def row_view(
    ready: ReadyPattern,
    within: tuple[Piece, Section],
    proven: ProvenRow,
    into: InSizes,
    names: rows.Names,
) -> RowView:
    """A row of a section of a piece."""
    piece, section = within
    number = rows.number(proven)
    spacing = spaced.sentence(
        proven,
        into,
        ready.pattern.sizes.names,
        flat=section.worked == "flat rows",
        terms=ready.pattern.terms,
    )
    side = rows.side(proven) if section.worked in _TURNED else ""
    told = [note for note in section.row_notes if _is_about(note, section, proven, number)]
    seconds = next((note.video for note in told if note.video is not None), None)
    film = film_link(ready.pattern.video, seconds, "Video")
    return RowView(
        anchor=anchors.row_anchor(piece.name, proven.anchor),
        number=number,
        place=rows.place(proven),
        side=side,
        side_words=_SIDES.get(side, "right or wrong side, by size"),
        words=rows.row_words(proven, names),
        count=rows.count(proven),
        multiple=rows.multiple(proven),
        into=speak(worked_into.sentence(proven, into), ready.pattern.terms),
        notes=(
            *((f"Read this as: {proven.reading}.",) if proven.reading else ()),
            *((spacing,) if spacing else ()),
            *(words for note in told for words in paragraphs(filled(note.note, names))),
        ),
        video=None if seconds is None else film,
        text=working.fingerprint(proven, names, working.own_stitches(ready.pattern)),
        times=working.repeats(proven),
        not_for=not_for(counted is not None and counted.times != 0 for counted in proven.per_size),
    )


def _is_about(note: RowNote, section: Section, proven: ProvenRow, number: str) -> bool:
    """Whether a row note is of this row: by its place, else by its name or printed number."""
    if note.at is not None:
        return note.at < len(section.rows) and section.rows[note.at] is proven.row
    label = proven.row.label
    named = label.name if label and label.name else number
    return bool(named) and note.row.casefold() == named.casefold()
