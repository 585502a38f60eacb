"""What becomes of an input: nothing is raised, each message has its place, in time and in memory.

Takes     ``Input``.
Gives     ``judged``: ``Verdict``.
Problems  none.
From      the limits that the project has set itself: 2 s of processor and 256 MiB for an input.
"""

from __future__ import annotations

import resource
import signal
import sys
import time
import traceback
import zlib
from collections.abc import Iterator
from contextlib import contextmanager
from dataclasses import dataclass
from pathlib import Path
from types import FrameType

from tests.fuzz import corpus
from tests.fuzz.making import Input
from workeven import pasted, pattern, pipeline, source
from workeven.problems import Problem, Span
from workeven.problems.catalogue import CATALOGUE
from workeven.proof import counting
from workeven.publish import collection
from workeven.publish.collection import Address
from workeven.report import github, json_report, sarif, text

FILE = "patterns/fuzzed/pattern.yaml"
STUDIO = "patterns/studio.yaml"
#: what one input may take
MOST_SECONDS, MOST_MEMORY = 2.0, 256 * 1024**2
#: when an input is given up, in seconds of the processor: a busy machine makes nothing slow
GIVEN_UP = 30
#: of so many inputs one goes on to every renderer, and of a pattern that is ready to its page
_RENDERED, _PAGED = 5, 8
_PLUGINS = Path(pipeline.__file__).parents[1]


class GivenUp(BaseException):
    """An input takes longer than anybody would wait; no handler of ours takes it."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Verdict:
    """``wrong``: what an input should not do, in sentences; ``told``: how many problems it has."""

    wrong: tuple[str, ...]
    told: int
    seconds: float
    ready: bool


def judged(one: Input) -> Verdict:
    """Feed it in, and look at what comes out."""
    wrong: list[str] = []
    problems: tuple[Problem, ...] = ()
    ready = False
    started = time.process_time()
    try:
        with _alarm():
            problems, ready = _fed(one)
            wrong += _misplaced(one, problems)
    except GivenUp as late:
        wrong.append(f"given up after {GIVEN_UP} s {_where(late)}")
    except Exception as bug:  # noqa: BLE001, whatever it is
        wrong.append(f"{type(bug).__name__}: {str(bug)[:120]!r} {_where(bug)}")
    seconds = time.process_time() - started
    if seconds > MOST_SECONDS:
        wrong.append(f"slow: {seconds:.1f} s")
    return Verdict(wrong=tuple(wrong), told=len(problems), seconds=seconds, ready=ready)


def peak_memory() -> int:
    """The most that this process has held at a time, in bytes."""
    most = resource.getrusage(resource.RUSAGE_SELF).ru_maxrss
    return most if sys.platform == "darwin" else most * 1024


def _fed(one: Input) -> tuple[tuple[Problem, ...], bool]:
    lot = zlib.crc32(one.name.encode())
    match one.kind:
        case "rows":
            way, start = one.options
            rows = one.content.decode("utf-8", "surrogatepass")
            counted = counting.count(rows, worked=way, start=start)
            if lot % _RENDERED == 0:
                json_report.count_report(counted.value, counted.problems)
                text.problem_text(counted.problems[0]) if counted.problems else None
            return counted.problems, False
        case "document":
            document = source.document("typed.txt", one.content)
            if document.value is None:
                return document.problems, False
            found = pasted.read(document.value, file="typed.txt")
            pasted.written(found, "what was typed")
            return tuple(row.problem for row in found.rows if row.problem), False
        case "studio":
            read = source.read(STUDIO, one.content)
            if read.value is None:
                return read.problems, False
            return (*read.problems, *pattern.parse_studio(read.value).problems), False
        case _:
            return _checked(one, lot)


def _checked(one: Input, lot: int) -> tuple[tuple[Problem, ...], bool]:
    """The whole flow; now and then every report, and the page."""
    read = source.read(FILE, one.content)
    if read.value is None:
        outcome = pipeline.Outcome(file=FILE, ready=None, problems=read.problems)
    else:
        outcome = pipeline.run(read.value, corpus.studio(), read.problems)
    if lot % _RENDERED == 0:
        lines = {FILE: source.lines(FILE, one.content)}
        sarif.sarif_report(outcome.problems, lines)
        json_report.check_report(outcome.problems)
        github.annotated(outcome.problems, "1 pattern")
        github.summary(outcome.problems, "1 pattern")
        for problem in outcome.problems:
            text.problem_text(problem)
    if outcome.ready and not outcome.ready.pattern.pictures and lot % _PAGED == 0:
        verdict = pipeline.Verdict(outcomes=(outcome,), problems=outcome.problems)
        collection.preview(verdict, Address(folder="patterns", ending=""))
    return outcome.problems, outcome.ready is not None


@contextmanager
def _alarm() -> Iterator[None]:
    def ring(_number: int, _frame: FrameType | None) -> None:
        raise GivenUp

    before = signal.signal(signal.SIGPROF, ring)
    signal.setitimer(signal.ITIMER_PROF, GIVEN_UP)
    try:
        yield
    finally:
        signal.setitimer(signal.ITIMER_PROF, 0)
        signal.signal(signal.SIGPROF, before)


def _where(bug: BaseException) -> str:
    """The last line of ours that the exception came through."""
    frames = traceback.extract_tb(bug.__traceback__)
    ours = [frame for frame in frames if frame.filename.startswith(str(_PLUGINS))]
    if not ours:
        return ""
    last = ours[-1]
    return f"at {Path(last.filename).relative_to(_PLUGINS)}:{last.lineno}"


# --- places --------------------------------------------------------------------------------


def _misplaced(one: Input, problems: tuple[Problem, ...]) -> Iterator[str]:
    """What is wrong with the place or the words of a problem."""
    lines = _lines_of(one.content)
    for problem in problems:
        if problem.code not in CATALOGUE:
            yield f"no such code: {problem.code}"
        if not problem.found.strip() or "\n" in problem.found.strip():
            yield f"{problem.code}: its first line does not stand alone: {problem.found[:80]!r}"
        for span in (problem.span, *(note.span for note in problem.notes)):
            if not _placed(span, lines):
                yield f"{problem.code}: no such place: {span.line}:{span.column}"


def _lines_of(content: bytes) -> list[str]:
    """Lines as an editor counts them."""
    decoded = content.decode("utf-8-sig", "surrogateescape")
    return decoded.replace("\r\n", "\n").replace("\r", "\n").split("\n")


def _placed(span: Span, lines: list[str]) -> bool:
    """Whether the file has that line, and the line that column, or the one behind its end."""
    if not span.file or span.line < 1 or span.column < 1:
        return False
    if span.line > len(lines):
        return False
    return span.column <= len(lines[span.line - 1]) + 1
