"""From the bytes of a pattern file to a pattern fit to publish: every stage, in order.

Takes     ``Source`` and ``Studio``; or the files of a ``Collection``.
Gives     ``Outcome``: a ``ReadyPattern`` if no error is left, and all problems; ``Verdict``,
          ``Flow``; ``Recalled`` of a pattern that a ``Memory`` knows.
Problems  those of its stages.
From      design.md, "From text to page".

``run`` in ``one`` is the flow; ``check`` in ``flow`` takes a whole collection through it, ``Flow``
pattern by pattern; ``files`` opens what they take.
"""

from workeven.pipeline.files import counted, graded
from workeven.pipeline.flow import Flow, Memory, Recalled, Remembered, Verdict, check
from workeven.pipeline.one import Case, Outcome, ReadyPattern, run

__all__ = [
    "Case",
    "Flow",
    "Memory",
    "Outcome",
    "ReadyPattern",
    "Recalled",
    "Remembered",
    "Verdict",
    "check",
    "counted",
    "graded",
    "run",
]
