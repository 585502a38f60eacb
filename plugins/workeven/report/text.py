"""Problems as a person reads them in a terminal.

Takes     ``Problem`` records.
Gives     ``problem_text``, ``message``, ``totals``, ``in_order``.
Problems  none of its own.
From      notation.md, "When it does not come out".
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable

from workeven.problems import Problem, Severity
from workeven.problems.catalogue import severity
from workeven.problems.words import joined, shown
from workeven.report.wording import harmless, sizes_named

#: An excerpt is a row of a stranger's file: no line of it is shown longer than this.
_EXCERPT_WIDTH = 240
_INDENT = "    "
_ADVICE = "This is advice: it stops nothing."


def problem_text(problem: Problem) -> str:
    """One problem: the line that stands alone, then indented what explains it.

    The first line is ``file:line:column: code: Piece, Rnd 9, sizes L and XL: found``.
    """
    span = problem.span
    first = f"{span.file}:{span.line}:{span.column}: {problem.code}: {_headline(problem)}"
    lines = [first, *(_INDENT + line for line in _below(problem))]
    return "\n".join(harmless(shown(line)) for line in lines)


def message(problem: Problem) -> str:
    """The problem without its place and code, for readers that show these themselves."""
    lines = [_headline(problem), *_facts(problem)]
    return "\n".join(shown(line) for line in lines)


def in_order(problems: Iterable[Problem]) -> tuple[Problem, ...]:
    """The problems by file, line and column; those of one place keep their order."""
    return tuple(
        sorted(problems, key=lambda one: (one.span.file, one.span.line, one.span.column)),
    )


def totals(problems: Iterable[Problem], what: str) -> str:
    """The closing line of a report about ``what`` ("3 patterns").

    >>> totals((), "3 patterns")
    '3 patterns: no problems.'
    """
    counted = Counter(severity(problem.code) for problem in problems)
    parts = []
    if counted[Severity.ERROR]:
        parts.append(f"{counted[Severity.ERROR]} error{_s(counted[Severity.ERROR])}")
    if counted[Severity.ADVICE]:
        noun = "piece of advice" if counted[Severity.ADVICE] == 1 else "pieces of advice"
        parts.append(f"{counted[Severity.ADVICE]} {noun}")
    return f"{what}: {joined(parts) or 'no problems'}."


def _headline(problem: Problem) -> str:
    where = (problem.piece, problem.row, sizes_named(problem.sizes or ()))
    words = ", ".join(word for word in where if word)
    return f"{words}: {problem.found}" if words else problem.found


def _below(problem: Problem) -> list[str]:
    """The indented lines of a terminal: the row as written, the facts, other places."""
    excerpt = [_shortened(line) for line in problem.excerpt.splitlines()]
    notes = [
        f"{note.span.file}:{note.span.line}:{note.span.column}: {note.message}"
        for note in problem.notes
    ]
    advice = [_ADVICE] if severity(problem.code) is Severity.ADVICE else []
    return [*excerpt, *_facts(problem), *notes, *advice]


def _facts(problem: Problem) -> list[str]:
    """What was expected, which sizes come out, how to mend it."""
    return [
        *problem.expected.splitlines(),
        *_come_out(problem.good_sizes),
        *problem.mend.splitlines(),
    ]


def _come_out(sizes: tuple[str, ...]) -> list[str]:
    """Like "S, M and 2X come out."; sizes that are numbers are called so, lest they be counts."""
    named = tuple(name for name in sizes if name)
    if not named:
        return []
    verb = "come" if len(named) > 1 else "comes"
    words = f"S{sizes_named(named)[1:]}" if named[0][0].isdigit() else joined(named)
    return [f"{words} {verb} out."]


def _shortened(line: str) -> str:
    return line if len(line) <= _EXCERPT_WIDTH else f"{line[: _EXCERPT_WIDTH - 1]}…"


def _s(number: int) -> str:
    return "" if number == 1 else "s"
