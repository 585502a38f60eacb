"""What a page says for the copy that a maker keeps."""

from __future__ import annotations

from tests.publish.samples import mitts, text
from workeven.publish.pages.offline import offline
from workeven.records import replace


def test_former_names_are_told() -> None:
    """So that a copy under one of them is not left behind."""
    pattern = replace(mitts().pattern, formerly=(text("fan-mitts"), text("wristers")))
    assert offline(pattern).formerly == "fan-mitts wristers"
