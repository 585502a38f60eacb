"""Pieces as a page shows them: facts, drawings, notes, places in the video."""

from __future__ import annotations

from tests.publish.samples import HERE, SIZES, mitt_rows, mitts, piece, proven_row, row_in_size
from tests.publish.samples import section as counted_section
from tests.support.as_read import as_read
from workeven.pattern import RowNote, Video
from workeven.pipeline import ReadyPattern
from workeven.publish.pages.films import film_link
from workeven.publish.pages.pieces import PieceView, piece_views
from workeven.publish.pages.rows import Names
from workeven.publish.pages.schematics import draw
from workeven.publish.pages.views import Link
from workeven.publish.pages.worked_into import told
from workeven.records import replace

VIDEO = Video(
    url="https://video.example/mitts",
    length=1290,
    time_link="?t={seconds}",
    shown_size="L",
    span=HERE,
)
NAMES = Names(
    counts={"hand_sts": SIZES.each((33, 36, 42))},
    lengths=dict(mitts().proven.graded.measurements),
    meaning=lambda _name: "",
    units="cm",
)


def views(ready: ReadyPattern) -> tuple[PieceView, ...]:
    """The pieces of a pattern."""
    return as_read(piece_views(ready, draw(ready), told(ready), NAMES))


def with_section(**more: object) -> ReadyPattern:
    """The mitts, their section changed."""
    one = counted_section(mitt_rows(), title="Cuff", worked="joined rounds")
    one = replace(one, section=replace(one.section, **more))  # type: ignore[arg-type]
    return mitts(pieces=[piece([one], title="Mitt", worked="joined rounds", make=2)], video=VIDEO)


def test_a_piece_says_how_it_is_made() -> None:
    """How often, and how it is worked."""
    assert views(mitts())[0].facts == "Make 2, worked in joined rounds, without turning."


def test_a_section_worked_in_another_way_says_so() -> None:
    """Only where it differs from the piece."""
    told = [views(one)[0].sections[0].worked for one in (mitts(), with_section(worked="flat rows"))]
    assert told == ["", "Worked in flat rows."]


def test_a_section_of_some_sizes_names_them() -> None:
    """The others pass it over."""
    assert views(with_section(sizes=(1, 2)))[0].sections[0].sizes == "Only in sizes M and L."


def test_a_note_stands_at_its_row() -> None:
    """By the row's name."""
    note = RowNote(row="even rnd", note="Count now.", video=460, span=HERE)
    rows = views(with_section(row_notes=(note,)))[0].sections[0].rows
    assert [row.notes for row in rows] == [(), (), ("Count now.",)]
    assert rows[2].video == Link(words="Video at 7:40", url="https://video.example/mitts?t=460")


def test_a_film_without_places_is_linked_as_it_is() -> None:
    """The time is said all the same."""
    plain = replace(VIDEO, time_link=None)
    assert film_link(plain, 75, "Video") == Link(
        words="Video at 1:15", url="https://video.example/mitts"
    )


def test_there_is_no_link_without_a_film() -> None:
    """Nothing to link to."""
    assert film_link(None, 75, "Video") is None


def test_drawings_show_the_size_of_the_film() -> None:
    """So that picture and film agree; without one, the middle size."""
    assert [draw(one).size for one in (mitts(video=VIDEO), mitts())] == [2, 1]


def test_a_drawing_has_a_table_of_its_letters() -> None:
    """Each letter with its length in every size, in both systems."""
    drawing = views(mitts())[0].drawing
    assert drawing is not None
    assert drawing.table.rows[1] == (
        "B",
        (("Length from start to end",), ("6 (6.5, 7) cm", "2¼ (2½, 2¾) in")),
    )


def test_sides_are_told_only_where_rows_turn() -> None:
    """In rounds that are not turned every side is the right one."""
    turned = [
        counted_section(
            [proven_row("sc around", [row_in_size(12, 1, 1, side="RS")] * 3, anchor="1")],
            title="All",
            worked=worked,
        )
        for worked in ("joined rounds", "joined rounds, turned")
    ]
    shown = views(mitts(pieces=[piece(turned, title="A", worked="joined rounds")]))[0].sections
    assert [one.rows[0].side for one in shown] == ["", "RS"]
