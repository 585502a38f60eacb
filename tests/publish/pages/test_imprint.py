"""The foot of a page."""

from __future__ import annotations

from tests.publish.samples import mitts
from workeven.pattern import Change
from workeven.publish.pages.imprint import imprint
from workeven.records import replace


def test_a_pattern_page_says_who_made_it_and_what_may_be_done_with_it() -> None:
    """Byline, version and licence; the studio's where the pattern has none of its own."""
    shown = imprint(mitts())
    assert (shown.byline, shown.version, shown.licence, shown.copyright) == (
        "Designed by Perrin Saltlock for Tidewrack Studio",
        "Version 1.0, published 2026-11-02",
        "CC BY 4.0",
        "© 2026 Tidewrack Studio",
    )


def test_a_change_is_told_with_its_version_and_day() -> None:
    """In the order of the file."""
    change = Change(version="1.1", date="2026-11-20", text="Thumb longer by a round.")
    ready = mitts()
    (shown,) = imprint(replace(ready, pattern=replace(ready.pattern, changes=(change,)))).changes
    assert (shown.version, shown.day, shown.words) == (
        "1.1",
        "2026-11-20",
        "Thumb longer by a round.",
    )
