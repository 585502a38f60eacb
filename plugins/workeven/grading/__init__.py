"""One number a size for every measurement and count, and what it really measures.

Takes     ``Pattern``.
Gives     ``GradedPattern``.
Problems  ``count-``, ``gauge-``, ``name-``, ``size-``, ``unit-formula``.
From      design.md, "A pattern file": the finished measurement is computed back from the counts.
"""

from __future__ import annotations

from workeven.grading.graded import GradedCount, GradedPattern
from workeven.grading.made_rows import made_piece
from workeven.grading.stage import grade
from workeven.grading.texts import braced

__all__ = ["GradedCount", "GradedPattern", "braced", "grade", "made_piece"]
