"""The command line: ``workeven check``, ``count``, ``shape`` and the other commands.

Takes     the words after ``workeven``.
Gives     a report on standard output and an exit status: 0 no error (advice allowed), 1 at least
          one error, 2 could not run.
Problems  none of its own: what cannot be run is said in a sentence on standard error.
From      the guide, "On the command line".

Nothing of the engine is imported before a subcommand needs it, so that a check starts fast.
"""

from __future__ import annotations

import argparse
import io
import os
import re
import sys
from collections.abc import Callable, Sequence
from typing import TYPE_CHECKING, NoReturn, TextIO

from workeven import __version__
from workeven.commands.answer import (
    CANNOT_RUN,
    ERRORS,
    OK,
    SHOW_TRACEBACK,
    SUMMARY,
    CannotRun,
    Report,
    add_format,
    add_rows,
    add_worked,
    bug_told,
    numbered,
    one_pattern,
    our_bug,
    status_of,
    told_errors,
)
from workeven.problems import Checked, Problem
from workeven.problems.words import joined, quote
from workeven.records import replace

if TYPE_CHECKING:
    from workeven.proof.counting import CountedText


def main(words: Sequence[str] | None = None) -> int:
    """Run one command and give the exit status; ``words`` are those of the process if None."""
    for stream in (sys.stdout, sys.stderr):
        _take_every_character(stream)
    try:
        options = _parser(sys.argv[1:] if words is None else words).parse_args(words)
        report: Report = options.run(options)
        if report.text:
            _print(report.text)
        if report.summary:
            report = _summarized(report)
    except CannotRun as fault:
        report = Report(text="", status=CANNOT_RUN, complaints=(str(fault),))
    except KeyboardInterrupt:
        report = Report(text="", status=CANNOT_RUN, complaints=("Stopped.",))
    except Exception as bug:
        if SHOW_TRACEBACK in os.environ:
            raise
        report = Report(text="", status=CANNOT_RUN, complaints=(bug_told("The command", bug),))
    for sentence in report.complaints:
        print(f"workeven: {sentence.replace('##[', '##<U+005B>')}", file=sys.stderr)
    return report.status


# --- the commands --------------------------------------------------------------------------


def _count(options: argparse.Namespace) -> Report:
    """Count plain rows and say whether they come out."""
    from workeven.proof import counting
    from workeven.report import json_report, text
    from workeven.source import characters

    read = characters.decode(options.file, _bytes_of(options.file))
    counted: Checked[counting.CountedText] = Checked(value=None, problems=read.problems)
    if read.value is not None:
        with our_bug(options.file):
            counted = counting.count(
                "\n".join(characters.lines_of(read.value)),
                file=options.file,
                worked=options.worked,
                terms=options.terms,
                start=options.start,
                sizes=options.sizes,
                stitches=tuple(options.stitches),
            )
    _refuse_options(counted.problems)
    problems = text.in_order(counted.problems)
    if options.format == "json":
        written = json_report.count_report(counted.value, problems)
    else:
        written = "\n".join(_counted_lines(counted.value, problems))
    return Report(text=written, status=status_of(problems))


#: Problems of an option, not of a row, and the option.
_OF_OPTIONS = {"row-start-option": "--from", "row-stitch-option": "--stitch"}


def _refuse_options(problems: tuple[Problem, ...]) -> None:
    """Rows are not counted from an option that could not be read."""
    for problem in problems:
        if option := _OF_OPTIONS.get(problem.code):
            raise CannotRun(f"`{option}`: {problem.found} {problem.mend}")


def _counted_lines(counted: CountedText | None, problems: tuple[Problem, ...]) -> list[str]:
    """The table, the problems and a closing line."""
    from workeven.report import table, text

    rows = counted.rows if counted else ()
    shown_rows = [table.count_table(counted), ""] if counted and rows else []
    told = [text.problem_text(problem) for problem in problems]
    return [*shown_rows, *told, text.totals(problems, numbered(len(rows), "row"))]


def _nearest(options: argparse.Namespace) -> Report:
    """Say with which values of a count every piece comes out, size by size."""
    from workeven import pipeline
    from workeven.problems.words import did_you_mean
    from workeven.proof.nearest import nearest_counts
    from workeven.report import near_counts

    collection, one = one_pattern(options.pattern)
    with our_bug(one.file):
        graded = pipeline.graded(one.file, one.studio)
    if graded.value is None:
        return told_errors((*collection.problems, *graded.problems))
    if options.count not in graded.value.counts:
        names = tuple(graded.value.counts)
        hint = did_you_mean(options.count, names) or f"There are {joined(names)}."
        raise CannotRun(f"The pattern has no count called {quote(options.count)}. {hint}")
    with our_bug(one.file):
        found = nearest_counts(graded.value, options.count)
    write = near_counts.as_json if options.format == "json" else near_counts.as_text
    written = write(options.count, graded.value, found)
    return Report(text=written, status=OK if all(found.values()) else ERRORS)


def _explain(options: argparse.Namespace) -> Report:
    """Print the page of a code."""
    from workeven.problems import lesson
    from workeven.problems.words import did_you_mean

    codes = lesson.codes()
    if options.code not in codes:
        hint = did_you_mean(options.code, codes)
        raise CannotRun(f"There is no problem called {quote(options.code)}. {hint}".rstrip())
    return Report(text=lesson.read(options.code).plain(), status=OK)


# --- the words of the command --------------------------------------------------------------


class _Parser(argparse.ArgumentParser):
    """Says in plain sentences what is wrong with the words of the command."""

    def error(self, message: str) -> NoReturn:
        raise CannotRun(f"{_usage_sentence(message)} `{self.prog} --help` shows the options.")


def _parser(words: Sequence[str]) -> argparse.ArgumentParser:
    """Knows the options of the commands that are named; of all when none is."""
    parser = _Parser(
        prog="workeven",
        description="Crochet patterns, proven in every size.",
        allow_abbrev=False,
    )
    parser.add_argument("--version", action="version", version=f"workeven {__version__}")
    commands = parser.add_subparsers(title="commands", metavar="COMMAND", required=True)
    named = [add for name, add in _COMMANDS.items() if name in words]
    for add in named or _COMMANDS.values():
        add(commands)
    return parser


def _add_check(commands: argparse._SubParsersAction[_Parser]) -> None:
    from workeven.commands.check import add_check

    add_check(commands)


def _add_count(commands: argparse._SubParsersAction[_Parser]) -> None:
    count = commands.add_parser(
        "count",
        allow_abbrev=False,
        help="count plain rows",
        description="Count plain rows, one a line, a label optional (`Rnd 3: ...`), and say "
        "whether they come out. Exit status: 0 they do, 1 they do not, 2 could not run.",
    )
    count.add_argument(
        "file", nargs="?", default="-", metavar="FILE", help="a text file; - or none: what is typed"
    )
    add_worked(count)
    count.add_argument(
        "--from",
        dest="start",
        metavar="STS",
        help='what the first row is worked into, such as "54 dc"',
    )
    add_rows(count)
    add_format(count)
    count.set_defaults(run=_count)


def _add_nearest(commands: argparse._SubParsersAction[_Parser]) -> None:
    nearest = commands.add_parser(
        "nearest",
        allow_abbrev=False,
        help="find counts that carry through",
        description="For each size, say which values of a count near the wanted length make every "
        "piece come out, later decreases and repeats included, the nearest first. "
        "Exit status: 0 every size has one, 1 a size has none, 2 could not run.",
    )
    nearest.add_argument("pattern", metavar="PATTERN", help="a pattern's folder or its file")
    nearest.add_argument(
        "--count", required=True, metavar="NAME", help="the name of a count, such as back_sts"
    )
    add_format(nearest)
    nearest.set_defaults(run=_nearest)


def _add_grade(commands: argparse._SubParsersAction[_Parser]) -> None:
    from workeven.commands.grade import add_grade

    add_grade(commands)


def _add_shape(commands: argparse._SubParsersAction[_Parser]) -> None:
    from workeven.commands.shape import add_shape

    add_shape(commands)


def _add_evenly(commands: argparse._SubParsersAction[_Parser]) -> None:
    from workeven.commands.evenly import add_evenly

    add_evenly(commands)


def _add_read(commands: argparse._SubParsersAction[_Parser]) -> None:
    from workeven.commands.read import add_read

    add_read(commands)


def _add_new(commands: argparse._SubParsersAction[_Parser]) -> None:
    from workeven.commands.new import add_new

    add_new(commands)


def _add_render(commands: argparse._SubParsersAction[_Parser]) -> None:
    from workeven.commands.render import add_render

    add_render(commands)


def _add_watch(commands: argparse._SubParsersAction[_Parser]) -> None:
    from workeven.commands.watch import add_watch

    add_watch(commands)


def _add_review(commands: argparse._SubParsersAction[_Parser]) -> None:
    from workeven.commands.review import add_review

    add_review(commands)


def _add_explain(commands: argparse._SubParsersAction[_Parser]) -> None:
    explain = commands.add_parser(
        "explain",
        allow_abbrev=False,
        help="explain a problem",
        description="Say what a problem means, why it matters and how to mend it.",
    )
    explain.add_argument("code", metavar="CODE", help="the problem's code, such as row-uneven")
    explain.set_defaults(run=_explain)


#: What adds each command, in the order of the help.
_COMMANDS: dict[str, Callable[[argparse._SubParsersAction[_Parser]], None]] = {
    "new": _add_new,
    "check": _add_check,
    "count": _add_count,
    "nearest": _add_nearest,
    "grade": _add_grade,
    "shape": _add_shape,
    "evenly": _add_evenly,
    "read": _add_read,
    "watch": _add_watch,
    "review": _add_review,
    "render": _add_render,
    "explain": _add_explain,
}


#: What the standard library says about the words of a command, and what we say.
_USAGE = (
    (r"unrecognized arguments: (.+)", "{} is not known here."),
    (r"argument ([^/:]+)\S*: expected one argument", "{} needs a value behind it."),
    (r"argument COMMAND: invalid choice: '(.*?)' .*", "There is no command {}."),
    (
        r"the following arguments are required: COMMAND",
        f"Say what to do: {joined(_COMMANDS, 'or')}.",
    ),
    (r"the following arguments are required: (.+)", "{} is missing."),
    (r"one of the arguments (.+) is required", "One of {} is needed."),
    (r"argument [^:]+: invalid choice: '?(.*?)'? \(choose from .*", "{} is not known here."),
    (r"argument (\S+): not allowed with argument (\S+)", "{} and {} cannot stand together."),
    (r"argument [^:]+: ignored explicit argument '(.*)'", "{} is not known here."),
)


def _usage_sentence(message: str) -> str:
    """What the standard library says about the words of a command, as a sentence."""
    for said, sentence in _USAGE:
        if found := re.fullmatch(said, message, re.DOTALL):
            return sentence.format(*map(quote, found.groups()))
    if found := re.fullmatch(r"argument (\S+): (.+)", message, re.DOTALL):
        return f"`{found[1]}` {found[2]}"
    return f"{message[:1].upper()}{message[1:]}."


# --- the edge ------------------------------------------------------------------------------


def _bytes_of(file: str) -> bytes:
    """The rows to count: of a file, or what is typed or piped in (a hint when it is typed)."""
    if file == "-":
        if sys.stdin.isatty():
            print("Write or paste rows, one a line; end with Ctrl-D.", file=sys.stderr)
        return sys.stdin.buffer.read()
    try:
        with open(file, "rb") as opened:  # noqa: PTH123 -- pathlib costs as much time as a check
            return opened.read()
    except OSError as fault:
        why = (fault.strerror or str(fault)).lower()
        raise CannotRun(f"{quote(file)} cannot be opened: {why}.") from fault


def _print(text: str) -> None:
    """Print a report; when nobody reads on (``workeven check | head``), that is no error."""
    try:
        print(text)
        sys.stdout.flush()
    except BrokenPipeError:
        # Python flushes the stream once more at exit, and would complain there.
        os.dup2(os.open(os.devnull, os.O_WRONLY), sys.stdout.fileno())


def _summarized(report: Report) -> Report:
    """Append the summary to the file that takes it; where that fails, the check still stands."""
    try:
        file = os.environ[SUMMARY]
        with open(file, "a", encoding="utf-8", newline="\n") as opened:  # noqa: PTH123 -- for its time
            opened.write(report.summary)
    except OSError as fault:
        why = (fault.strerror or str(fault)).lower()
        sentence = f"The summary cannot be written where {SUMMARY} says: {why}."
        return replace(report, complaints=(*report.complaints, sentence))
    return report


def _take_every_character(stream: TextIO) -> None:
    """Let a terminal that is not UTF-8 get an escape instead of a character it cannot show."""
    if isinstance(stream, io.TextIOWrapper):
        stream.reconfigure(errors="backslashreplace")


if __name__ == "__main__":
    sys.exit(main())
