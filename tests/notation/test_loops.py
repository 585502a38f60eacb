"""The loop that a step names is kept with it, and nothing else changes."""

from __future__ import annotations

import pytest

from tests.support.records import span
from workeven.notation.parser import parse_row
from workeven.notation.tree import Repeat, Step, Work, WorkedRow
from workeven.notation.vocabulary import Terms, Vocabulary


def loops(text: str, terms: Terms = "us") -> list[str]:
    """The loops of all steps that work into something."""
    row = parse_row(text, span(), Vocabulary(terms)).value
    assert row is not None
    assert isinstance(row.body, WorkedRow), text
    return _loops(row.body.steps)


def _loops(steps: tuple[Step, ...]) -> list[str]:
    found: list[str] = []
    for step in steps:
        if isinstance(step, Work):
            found.append(step.loop)
        elif isinstance(step, Repeat):
            found += _loops(step.steps)
    return found


@pytest.mark.parametrize(
    ("text", "named"),
    [
        ("sc in back loop only of each st across", ["back"]),
        ("sc in front lps only of next 6 sts, sc in next st", ["front", "both"]),
        ("BLO sc in next 3 sts, sc in each st across", ["back", "both"]),
        ("*flsc in next st, sc in next st; rep from * across", ["front", "both"]),
        ("working in back loops only, sc in next st, dc in next st", ["back", "back"]),
        ("sc in next ch-3 lp", ["both"]),
        ("sc in both loops of next st", ["both"]),
        ("2 dc in flo of next st", ["front"]),
    ],
)
def test_a_loop_belongs_to_the_steps_that_name_it(text: str, named: list[str]) -> None:
    """In the order of the steps."""
    assert loops(text) == named


def test_terms_do_not_matter() -> None:
    """The UK's dc in the back loop."""
    assert loops("dc in blo of each st across", "uk") == ["back"]
