"""What a row works, wherever in it that stands.

Takes     the steps of a row.
Gives     ``works_of``.
Problems  none.
From      the notation tree: repeats hold steps, and so do their endings.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from workeven.notation.tree import Repeat, Step, Work


def works_of(steps: Iterable[Step]) -> Iterator[Work]:
    """The steps that work stitches, those of repeats and of their endings too."""
    for step in steps:
        if isinstance(step, Repeat):
            yield from works_of((*step.steps, *getattr(step.ending, "steps", ())))
        elif isinstance(step, Work):
            yield step
