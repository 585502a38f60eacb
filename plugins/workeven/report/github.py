"""Problems as a host of checks shows them beside the lines of a change, and a summary for it.

Takes     ``Problem`` records, in order.
Gives     ``annotated``, ``summary``.
Problems  none of its own.
From      GitHub's documentation, "Workflow commands for GitHub Actions": commands, their
          escapes, the step summary; "Usage limits" for annotations (both from memory).

A log reads lines as commands. So what comes from a file stands in a command as data alone, escaped
as the host says, and every other line is made ``harmless``. In the summary it stands in a table of
HTML without an empty line, within ``<pre>``: neither Markdown nor mentions are read there.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from html import escape

from workeven.problems import Problem, Severity
from workeven.problems.catalogue import severity
from workeven.problems.words import shown
from workeven.report.text import message, problem_text, totals

#: How many annotations of one kind the host shows for a step.
MOST = 10
#: How large the summary of a step may be.
SUMMARY_BYTES = 1024 * 1024
#: A title that is longer is cut by the host.
_LONGEST_TITLE = 255

_KINDS = {Severity.ERROR: "error", Severity.ADVICE: "notice"}


def annotated(problems: Iterable[Problem], what: str) -> str:
    """A command for each problem that the host shows, errors first; the others as plain text."""
    errors, advice = _parted(problems)
    room = MOST if len(errors) <= MOST and len(advice) <= MOST else MOST - 1
    hidden = (*errors[MOST:], *advice[room:])
    lines = [_annotation(problem) for problem in (*errors[:MOST], *advice[:room])]
    if hidden:
        more = totals(hidden, "Not shown beside their lines")
        lines.append(f"::notice title=workeven::{_escaped(f'{more} They stand in the log.')}")
    return "\n".join([*lines, *map(problem_text, hidden), totals((*errors, *advice), what)])


def summary(problems: Iterable[Problem], what: str, room: int = SUMMARY_BYTES) -> str:
    """Markdown: the totals and a table of problems, as many as ``room`` bytes hold."""
    errors, advice = _parted(problems)
    told = (*errors, *advice)
    head = f"### workeven check\n\n{totals(told, what)}\n\n"
    if not told:
        return head if _size(head) <= room else ""
    begin, end = f"{head}<table>\n", "</table>\n\n"
    rows = _that_fit([_row(problem) for problem in told], room - _size(begin) - _size(end))
    return f"{begin}{''.join(rows)}{end}" if rows else ""


def _parted(problems: Iterable[Problem]) -> tuple[Sequence[Problem], Sequence[Problem]]:
    told = tuple(problems)
    errors = tuple(one for one in told if severity(one.code) is Severity.ERROR)
    return errors, tuple(one for one in told if severity(one.code) is not Severity.ERROR)


def _annotation(problem: Problem) -> str:
    """One command; the columns only where they lie in one line, the last one included."""
    span = problem.span
    columns = {"col": span.column, "endColumn": max(span.column, span.end_column - 1)}
    properties = {
        "file": span.file,
        "line": span.line,
        "endLine": max(span.line, span.end_line),
        **(columns if span.line == span.end_line else {}),
        "title": ", ".join(filter(None, (problem.code, problem.piece, problem.row)))[
            :_LONGEST_TITLE
        ],
    }
    written = ",".join(f"{name}={_property(str(value))}" for name, value in properties.items())
    return f"::{_KINDS[severity(problem.code)]} {written}::{_escaped(message(problem))}"


def _escaped(text: str) -> str:
    """Text as the data of a command: its lines stay, what is invisible is spelled out."""
    clean = "\n".join(map(shown, text.split("\n"))).replace("##[", "##<U+005B>")
    return clean.replace("%", "%25").replace("\r", "%0D").replace("\n", "%0A")


def _property(text: str) -> str:
    return _escaped(text).replace(":", "%3A").replace(",", "%2C")


def _row(problem: Problem) -> str:
    """One line of the table, without a line end in it."""
    place = f"{problem.span.file}:{problem.span.line}"
    cells = (str(severity(problem.code)), place, problem.code, message(problem))
    told = "".join(f"<td><pre>{_in_html(cell)}</pre></td>" for cell in cells)
    return f"<tr>{told}</tr>\n"


def _in_html(text: str) -> str:
    return "&#10;".join(escape(shown(line)) for line in text.split("\n"))


def _that_fit(rows: Sequence[str], room: int) -> list[str]:
    """As many rows as there is room for, and one that says how many more there are."""
    if sum(map(_size, rows)) <= room:
        return list(rows)
    fitting: list[str] = []
    left = room - _size(_more(len(rows)))
    for row in rows:
        left -= _size(row)
        if left < 0:
            break
        fitting.append(row)
    return [*fitting, _more(len(rows) - len(fitting))] if fitting else []


def _more(number: int) -> str:
    return f'<tr><td colspan="4">{number} more: see the log.</td></tr>\n'


def _size(text: str) -> int:
    return len(text.encode("utf-8", "backslashreplace"))
