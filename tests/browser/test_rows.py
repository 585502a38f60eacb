"""What is told at a row, and its own link."""

from __future__ import annotations

from tests.browser.demo import MITTS, TEE, Visit


def test_a_row_says_which_stitches_it_is_worked_into(visit: Visit) -> None:
    """The mitts' fans stand on a third of the stitches: 33 = 11 + 22, by hand."""
    visit.page.set_viewport_size({"width": 360, "height": 800})
    visit.page.goto(MITTS)
    line = visit.page.locator(".we-into", has_text="11 (13, 14) sc")
    assert line.inner_text() == "Worked into 11 (13, 14) sc; 22 (26, 28) sc passed over."


def test_a_row_can_be_linked(visit: Visit) -> None:
    """The number of a row is its own link, and what is linked is in view."""
    visit.page.goto(TEE)
    link = visit.page.locator(".we-no").last
    link.click()
    row = visit.page.locator(".we-rows > li:target")
    assert row.count() == 1
    assert row.locator(".we-no").is_visible()
