"""Much of what a file may have a little of: the cost grows with the text and no faster."""

from __future__ import annotations

from tests.proof.test_cost import calls
from tests.support.pattern_files import GOOD, outcome

SWATCH = GOOD[GOOD.index("  - of: main") : GOOD.index("measurements:")]


def test_four_times_the_swatches_cost_four_times_as_much() -> None:
    """Each is weighed to some step, and moves the amounts; the 24 coarsest are tried."""

    def cost(swatches: int) -> int:
        masses = (f"{20 + at % 7}.{at % 10} g" for at in range(swatches))
        many = "".join(SWATCH.replace("20 g", mass) for mass in masses)
        text = GOOD.replace(SWATCH, many)
        assert outcome(text).ready is not None
        return calls(lambda: outcome(text))

    assert cost(160) <= 4.1 * cost(40)
