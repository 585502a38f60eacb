"""The figures of stitch charts, held against the rows as they are proven in every size."""

from __future__ import annotations

from tests.traced.asked import Asked
from tests.traced.of_making_up import drawn_in
from tests.traced.told import Told, same
from workeven.proof import ProvenPiece, StitchChart, chain_multiple, stitch_chart


def numbered(of: Asked, proven: ProvenPiece) -> set[int]:
    """The numbers of rows that every size works of which the chart is."""
    each = [
        {
            number
            for section in proven.sections
            for row in section.rows
            if (counted := row.per_size[size]) is not None and counted.first is not None
            for number in range(counted.first, (counted.last or counted.first) + 1)
        }
        for size in _drawn(of, proven).sizes or range(of.sizes)
    ]
    return set.intersection(*each)


def charted(of: Asked, proven: ProvenPiece) -> Told:
    """Which rows are drawn: those from the first on; over which chain of the piece's multiple."""
    chart = _drawn(of, proven)
    numbers = [row.number for row in chart.rows]
    assert numbers == list(range(1, len(numbers) + 1))
    assert set(numbers) <= numbered(of, proven)
    words = f"{numbers[0]} {numbers[-1]} {' '.join(of.names[at] for at in chart.sizes)}"
    if chart.multiple is not None:
        of_, plus = chart.multiple
        assert chart.chains % of_ == plus % of_
        words += f" {chart.chains} {of_ if of_ > 1 else ''} {plus or ''}"
    return same(words, of.sizes)


def _drawn(of: Asked, proven: ProvenPiece) -> StitchChart:
    """The chart of a piece, in the size of the drawings where sizes differ."""
    graded = of.ready.proven.graded
    multiple = chain_multiple(graded, proven.piece)
    chart = stitch_chart(graded, proven, multiple, drawn_in(of))
    assert chart is not None
    return chart
