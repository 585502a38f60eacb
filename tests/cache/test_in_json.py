"""A record is read as it was written, or not at all."""

from __future__ import annotations

from typing import Any, Literal

import pytest
from hypothesis import given
from hypothesis import strategies as st
from markupsafe import Markup

from workeven.cache import in_json
from workeven.problems import Note, Problem, Span
from workeven.publish.packed import Packed, packed
from workeven.publish.pages.views import Entry
from workeven.records import record

SPAN = Span(file="mitts.yaml", line=3, column=1, end_line=3, end_column=9, made=True)


@record
class Ball:
    """Of each kind of value one."""

    name: str
    grams: int
    wound: bool
    label: Packed
    pairs: tuple[tuple[str, int], ...]
    note: Note | None
    terms: Literal["us", "uk"]


texts = st.text(st.characters(exclude_categories=["Cs"]))
balls = st.builds(
    Ball,
    name=texts,
    grams=st.integers(),
    wound=st.booleans(),
    label=st.binary().map(packed),
    pairs=st.lists(st.tuples(texts, st.integers())).map(tuple),
    note=st.none() | st.builds(Note, span=st.just(SPAN), message=texts),
    terms=st.sampled_from(["us", "uk"]),
)


@given(balls)
def test_what_is_read_is_what_was_written(ball: Ball) -> None:
    """Value by value, type by type."""
    again = in_json.read(in_json.written(ball), Ball)
    assert (again, repr(again)) == (ball, repr(ball))


@given(st.binary())
def test_of_any_bytes_nothing_is_made(content: bytes) -> None:
    """Nothing else is raised than that it is no record."""
    with pytest.raises(in_json.NotRead):
        in_json.read(content, Ball)


@given(balls, st.data())
def test_a_change_gives_a_record_or_nothing(ball: Ball, data: st.DataObject) -> None:
    """Never one with a value of another type."""
    whole = in_json.written(ball)
    at = data.draw(st.integers(0, len(whole) - 1))
    changed = whole[:at] + data.draw(st.binary(max_size=3)) + whole[at + 1 :]
    try:
        found = in_json.read(changed, Ball)
    except in_json.NotRead:
        return
    assert in_json.read(in_json.written(found), Ball) == found


def test_problems_and_entries_within_entries_are_written() -> None:
    """Those of the kinds that are kept."""
    problem = Problem(
        code="yarn-amounts-short", span=SPAN, found="½", sizes=("S", "M"), figures=(("a", ("1",)),)
    )
    entry = Entry(title="Body", anchor="body", below=(Entry(title="Front", anchor="front"),))
    again = [in_json.read(in_json.written(one), type(one)) for one in (problem, entry)]
    assert [problem, entry] == again


@pytest.mark.parametrize(
    "changed",
    [
        {"name": Markup("<b>")},
        {"grams": True},
        {"grams": "50"},
        {"wound": 1},
        {"pairs": [("a", 1)]},
        {"terms": "au"},
        {"name": "\udcff"},
        {"note": SPAN},
    ],
)
def test_a_value_of_another_type_is_not_written(changed: dict[str, Any]) -> None:
    """HTML that would come back as a text, a yes that would come back as 1."""
    values: dict[str, Any] = {
        "name": "Wool",
        "grams": 50,
        "wound": False,
        "label": packed("label"),
        "pairs": (),
        "note": None,
        "terms": "us",
    }
    with pytest.raises(in_json.NotWritten):
        in_json.written(Ball(**{**values, **changed}))
