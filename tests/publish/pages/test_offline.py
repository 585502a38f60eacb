"""What a page says for the copy that a maker keeps."""

from __future__ import annotations

from workeven.publish.pages.offline import stamped


def test_a_page_that_shows_something_else_has_another_stamp() -> None:
    """By it a kept copy is known to be behind."""
    assert stamped("<p>Rnd 1") == stamped("<p>Rnd 1")
    assert stamped("<p>Rnd 1") != stamped("<p>Rnd 2")
