"""Seams as a page tells them."""

from __future__ import annotations

from pathlib import Path

from workeven import pipeline, source
from workeven.publish.pages.choices import in_unit
from workeven.publish.pages.seams import seams

PATTERNS = Path(__file__).parents[3] / "patterns"


def test_seams_that_are_alike_share_a_table_with_a_row_a_size() -> None:
    """The cardigan's left and right sleeve: in XS 56 sts on 16 rows of back and of front each."""
    verdict = pipeline.check(source.collect([str(PATTERNS / "wrackline-cardigan")]))
    ready = verdict.outcomes[0].ready
    assert ready is not None
    shoulders, sleeves, sides = seams(ready)
    assert "Left sleeve and Right sleeve: how to space the seam" == sleeves.caption
    both = (in_unit("40 cm", metric=True), in_unit("15¾ in", metric=False))
    assert (
        "XS",
        (
            ("56 sts on 32 rows",),
            ("7 sts to every 4 row ends",),
            ("14 sts and 8 row ends",),
            both,
            both,
        ),
    ) == sleeves.rows[0]
    assert [9, 9] == [len(table.rows) for table in (shoulders, sides)]
