"""Laws of several shapings at once: merged, nothing is lost, and told again it is the same."""

from __future__ import annotations

from hypothesis import given
from hypothesis import strategies as st

from workeven.arithmetic.shaping import Ends, Stretch, Track, merged, plan, stretches

ENDS: st.SearchStrategy[Ends] = st.sampled_from(((1, 0), (0, 1), (1, 1)))


@st.composite
def tracks(draw: st.DrawFn) -> Track:
    """A track of up to 20 shaped rows."""
    times = draw(st.integers(0, 20))
    rows = draw(st.integers(max(times, 1), 60))
    return Track(plan=plan(times, rows), after=draw(st.integers(0, 30)), ends=draw(ENDS))


@given(st.lists(tracks(), max_size=4))
def test_merged_tracks_change_as_much_as_each_alone(several: list[Track]) -> None:
    """At each of the two edges."""
    rows = merged(several, 90)
    for edge in (0, 1):
        alone = sum(one.ends[edge] * one.plan.times for one in several)
        assert alone == sum(ends[edge] for ends in rows)


@given(st.lists(st.tuples(st.integers(0, 2), st.integers(0, 2)), max_size=60))
def test_rows_told_in_stretches_are_the_same_rows(rows: list[Ends]) -> None:
    """Each row is shaped as it was, and as many are there."""
    assert rows == [ends for one in stretches(rows) for ends in _rows_of(one)]


def _rows_of(stretch: Stretch) -> list[Ends]:
    shaped = [
        ends
        for rate in stretch.rates
        for _ in range(rate.times)
        for ends in (*([(0, 0)] * (rate.every - 1)), stretch.ends)
    ]
    return [*shaped, *([(0, 0)] * stretch.plain)]
