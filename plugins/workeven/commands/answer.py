"""What every command needs: its report, how it refuses, and words of the command that repeat.

Takes     nothing: records and small functions.
Gives     ``Report``, ``CannotRun``, ``add_format``, ``add_worked``, ``add_rows``, ``whole_number``,
          ``one_of``, ``size_names``, ``our_bug``, ``one_pattern``, ``summary_size`` …
Problems  none of its own.
From      the guide, "On the command line".
"""

from __future__ import annotations

import argparse
import os
from collections.abc import Callable, Iterable, Iterator, Sequence
from contextlib import contextmanager
from typing import TYPE_CHECKING

from workeven.problems import Problem, Severity
from workeven.problems.catalogue import severity
from workeven.problems.words import joined, quote, shown
from workeven.records import record

if TYPE_CHECKING:
    from workeven.source import Collection
    from workeven.source.collection import PatternFile

OK, ERRORS, CANNOT_RUN = 0, 1, 2

#: Set (to anything) by who works on workeven itself: an unexpected exception then shows its trace.
SHOW_TRACEBACK = "WORKEVEN_TRACEBACK"

#: The variable in which a host of checks names the file that takes a summary in Markdown.
SUMMARY = "GITHUB_STEP_SUMMARY"

FORMATS = ("text", "json")
TERMS = ("us", "uk")
#: a number of more digits counts nothing that is crocheted
_DIGITS = 6
WORKED = ("flat rows", "joined rounds", "joined rounds, turned", "spiral rounds")


class CannotRun(Exception):
    """What was asked for cannot be done; the message is whole sentences for the user."""


@record
class Report:
    """What a command prints, its exit status, and sentences for standard error.

    ``summary`` is Markdown for the file that a host of checks names (``SUMMARY``).
    """

    text: str
    status: int
    complaints: tuple[str, ...] = ()
    summary: str = ""


def add_format(command: argparse.ArgumentParser, formats: Sequence[str] = FORMATS) -> None:
    """The option ``--format``."""
    command.add_argument(
        "--format",
        type=one_of(formats),
        default=formats[0],
        help=f"{', '.join(formats)} (default: {formats[0]}, for people)",
    )


def add_worked(command: argparse.ArgumentParser) -> None:
    """The option ``--worked``."""
    command.add_argument(
        "--worked",
        type=one_of(WORKED),
        default=WORKED[0],
        metavar="HOW",
        help=f"one of: {'; '.join(WORKED)} (default: {WORKED[0]})",
    )


def add_rows(command: argparse.ArgumentParser) -> None:
    """The options of plain rows: ``--terms``, ``--sizes``, ``--stitch``."""
    command.add_argument(
        "--terms",
        type=one_of(TERMS),
        default=TERMS[0],
        help="us or uk terms in the rows (default: us)",
    )
    command.add_argument(
        "--sizes", type=size_names, metavar="LIST", help='names of the sizes, such as "S (M, L)"'
    )
    command.add_argument(
        "--stitch",
        dest="stitches",
        action="append",
        default=[],
        metavar="DEF",
        help='a special stitch, such as "shell = 5 dc in same st"; may stand several times',
    )


def whole_number(word: str) -> int:
    """A reader of whole numbers from 0 on, as one writes them."""
    plain = word.strip().replace(",", "")
    if not (plain.isascii() and plain.isdecimal()) or len(plain) > _DIGITS:
        raise argparse.ArgumentTypeError(f"cannot be {quote(word)}: a whole number is needed.")
    return int(plain)


def one_of(choices: Sequence[str]) -> Callable[[str], str]:
    """A reader of one of several words, however they are spaced and in whatever case."""

    def choice(word: str) -> str:
        plain = " ".join(word.split()).lower()
        if plain not in choices:
            allowed = "; ".join(choices)
            raise argparse.ArgumentTypeError(f"cannot be {quote(word)}; it is one of: {allowed}.")
        return plain

    return choice


def size_names(text: str) -> tuple[str, ...]:
    """A reader of the names of sizes, such as ``S (M, L)``."""
    from workeven.arithmetic.size_lists import by_size
    from workeven.arithmetic.units import QuantityFault

    try:
        names = tuple(name for name, _at in by_size(text))
    except QuantityFault as fault:
        raise argparse.ArgumentTypeError(f"cannot be {quote(text)}: {fault} {fault.mend}") from None
    twice = next((name for name in names if names.count(name) > 1), None)
    if twice is not None:
        raise argparse.ArgumentTypeError(f"cannot be {quote(text)}: {quote(twice)} stands twice.")
    return names


@contextmanager
def our_bug(file: str) -> Iterator[None]:
    """Turn an exception, which no file should be able to cause, into sentences about the file."""
    try:
        yield
    except CannotRun:
        raise
    except Exception as bug:
        if SHOW_TRACEBACK in os.environ:
            raise
        raise CannotRun(bug_told(shown(file), bug)) from bug


def bug_told(what: str, bug: Exception) -> str:
    """The sentence about a bug of ours."""
    return (
        f"{what} could not be worked through: workeven itself made a mistake "
        f"({type(bug).__name__}), not you. Please report it, with what you gave it."
    )


def one_pattern(path: str) -> tuple[Collection, PatternFile]:
    """The one pattern that a path leads to, and the collection that it was found with."""
    from workeven import source

    collection = source.collect([path])
    if collection.missing:
        raise CannotRun(missing(collection.missing, default=False))
    if len(collection.patterns) != 1:
        held = numbered(len(collection.patterns), "pattern")
        raise CannotRun(f"{quote(path)} holds {held}: name one pattern.")
    return collection, collection.patterns[0]


def told_errors(problems: Iterable[Problem]) -> Report:
    """A report of nothing but problems, where a command cannot give what was asked for."""
    from workeven.report import text

    in_order = text.in_order(tuple(problems))
    return Report(text="\n".join(map(text.problem_text, in_order)), status=ERRORS)


def missing(paths: Sequence[str], *, default: bool) -> str:
    """The sentence about paths that lead nowhere; ``default``: none was given."""
    if default:
        return "There is no folder `patterns` here. Give the path of a collection or a pattern."
    names = joined(quote(path) for path in paths)
    return f"There is no file or folder {names}." if len(paths) == 1 else f"Not found: {names}."


def summary_size() -> int | None:
    """How many bytes stand in the host's summary already; None where it names no file for one."""
    file = os.environ.get(SUMMARY)
    if not file:
        return None
    try:
        return os.stat(file).st_size  # noqa: PTH116 -- pathlib costs as much time as a check
    except OSError:
        return 0


def status_of(problems: Iterable[Problem]) -> int:
    """1 when any of the problems is an error, else 0."""
    wrong = any(severity(problem.code) is Severity.ERROR for problem in problems)
    return ERRORS if wrong else OK


def numbered(number: int, noun: str) -> str:
    """``1 row``, ``2 rows``."""
    return f"{number} {noun}" if number == 1 else f"{number} {noun}s"
