"""Places inside others: gaps between groups."""

from __future__ import annotations

from workeven.proof.fabric import Loop, Run, stitch
from workeven.proof.inner_places import GAP, with_gaps


def test_a_loop_of_no_places_has_no_gaps() -> None:
    """What travel has passed may be nothing at all: it lies between no two groups."""
    shell = Loop((Run(stitch("dc", "dc"), 5),), 1, group=True)
    nothing = Loop((), 1, optional=True)
    assert (shell, Run(GAP, 1), shell) == with_gaps((shell, nothing, shell), closed=False)
