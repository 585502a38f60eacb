"""The whole flow on one screen: from the bytes of a pattern file to a pattern fit to publish.

Takes     ``Source`` and ``Studio``.
Gives     ``Outcome``: a ``ReadyPattern`` if no error is left, and all problems.
Problems  those of its stages.
From      design.md, "From text to page".
"""

from __future__ import annotations

from dataclasses import dataclass

from workeven.pattern import Pattern
from workeven.problems import Problem
from workeven.proof import ProvenPattern
from workeven.yarn import YarnNeeds


@dataclass(frozen=True, slots=True, kw_only=True)
class ReadyPattern:
    """A pattern with no error left: all that pages, drawings and data files are made from."""

    pattern: Pattern
    proven: ProvenPattern
    yarn: YarnNeeds
    advice: tuple[Problem, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class Outcome:
    """What became of one file."""

    file: str
    ready: ReadyPattern | None
    problems: tuple[Problem, ...]
