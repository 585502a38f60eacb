"""Problems in colour, on a terminal that shows it.

Takes     ``Problem`` records; what the user asked for, and what her terminal says of itself.
Gives     ``wanted``, ``problem_painted``.
Problems  none of its own.
From      ECMA-48, "SGR", for the signs; the convention of the variable NO_COLOR: colour is off
          where it holds anything at all. TERM is ``dumb`` where a terminal has no signs (common
          practice).
"""

from __future__ import annotations

from collections.abc import Mapping

from workeven.problems import Problem, Severity
from workeven.problems.catalogue import severity
from workeven.problems.words import shown
from workeven.report.text import problem_text
from workeven.report.wording import harmless

_PLAIN, _BOLD, _RED, _YELLOW = "\x1b[0m", "\x1b[1m", "\x1b[1;31m", "\x1b[33m"


def wanted(color: str, environment: Mapping[str, str], *, terminal: bool) -> bool:
    """Whether to paint; ``color`` is ``always``, ``never`` or ``auto``.

    >>> wanted("auto", {"NO_COLOR": "1"}, terminal=True)
    False
    """
    if color != "auto":
        return color == "always"
    return terminal and not environment.get("NO_COLOR") and environment.get("TERM") != "dumb"


def problem_painted(problem: Problem) -> str:
    """What ``problem_text`` gives, its place bold and its code in the colour of its severity."""
    span = problem.span
    place = harmless(shown(f"{span.file}:{span.line}:{span.column}:"))
    paint = _RED if severity(problem.code) is Severity.ERROR else _YELLOW
    rest = problem_text(problem).removeprefix(f"{place} {problem.code}:")
    return f"{_BOLD}{place}{_PLAIN} {paint}{problem.code}{_PLAIN}:{rest}"
