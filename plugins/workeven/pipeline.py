"""The whole flow on one screen: from the bytes of a pattern file to a pattern fit to publish.

Takes     ``Source`` and ``Studio``; or the files of a ``Collection``.
Gives     ``Outcome``: a ``ReadyPattern`` if no error is left, and all problems; ``Verdict``,
          ``Flow``; ``Recalled`` of a pattern that a ``Memory`` knows.
Problems  those of its stages.
From      design.md, "From text to page".

``run`` is the flow; ``check`` takes a whole collection through it, ``Flow`` pattern by pattern.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping, Sequence
from contextlib import AbstractContextManager, nullcontext
from typing import TypeVar

from workeven import grading, level, pattern, photographs, proof, safety, yarn
from workeven.grading import GradedPattern
from workeven.level import JudgedLevel
from workeven.pattern import Pattern, Studio, Text
from workeven.problems import Checked, Note, Problem, Severity
from workeven.problems.catalogue import severity
from workeven.problems.words import quote
from workeven.proof import ProvenPattern
from workeven.records import record, replace
from workeven.safety import Cautions
from workeven.source import (
    Collection,
    PatternFile,
    Source,
    beside,
    charts_beside,
    charts_unnamed,
    content,
    load,
)
from workeven.standards import BodyChart
from workeven.yarn import YarnNeeds

T = TypeVar("T")
U = TypeVar("U")
Around = Callable[[str], AbstractContextManager[None]]
#: Texts that stand in no file yet, by the file that they are meant for.
Typed = Mapping[str, bytes]
_NONE_TYPED: Typed = {}
Look = Callable[[Pattern], tuple[Problem, ...]]
#: The file of a pattern, and what its folder was called before.
FormerNames = tuple[str, tuple[Text, ...]]


@record
class ReadyPattern:
    """A pattern with no error left: all that pages, drawings and data files are made from.

    It carries its cautions, so that no page can be made without them.
    """

    pattern: Pattern
    proven: ProvenPattern
    yarn: YarnNeeds
    cautions: Cautions
    level: JudgedLevel
    advice: tuple[Problem, ...]


@record
class Case:
    """A pattern's file with all that it is proven from but pictures: its text, and its studio's.

    ``studio`` are the texts of the studio and of its body charts, by file.
    """

    of: PatternFile
    content: bytes
    studio: tuple[tuple[str, bytes], ...]


@record
class Outcome:
    """What became of one file; with its ``case`` where that may be remembered."""

    file: str
    ready: ReadyPattern | None
    problems: tuple[Problem, ...]
    case: Case | None = None


@record
class Remembered:
    """What a pattern without error is asked for when nobody has to prove it."""

    slug: str
    title: str
    published: bool
    formerly: tuple[Text, ...]
    problems: tuple[Problem, ...]


@record
class Recalled:
    """A pattern without error that was not proven in this run; ``prove`` does it after all."""

    case: Case
    remembered: Remembered
    studio: Studio
    prove: Callable[[], Outcome]


@record
class Memory:
    """What is remembered of cases from run to run: what is recalled was kept for the same case."""

    recall: Callable[[Case], Remembered | None]
    keep: Callable[[Case, Remembered], None]


@record
class Verdict:
    """What became of a collection: every file, and all problems, those of no pattern too."""

    outcomes: tuple[Outcome, ...]
    problems: tuple[Problem, ...]

    @property
    def good(self) -> bool:
        """Whether no error is left."""
        return not _any_error(self.problems)


def run(
    source: Source, studio: Studio, read: tuple[Problem, ...] = (), look: Look = lambda _: ()
) -> Outcome:
    """Take one pattern file through every stage; each stage that can run adds its problems.

    ``read`` are the problems that were found when the file was read, ``look`` finds those of its
    pictures, which lie beside it. Rows are parsed with the
    pattern, so a slip in row 40 is told even when grading fails. A stage that gives no record
    ends the flow; one that gives a record and errors does not, so that as many mistakes as
    possible are told at once.
    """
    parsed = pattern.parse(source, studio)
    graded = _then(_grade, parsed)
    proven = _then(proof.prove, graded)
    needs = _then(yarn.estimate, proven)
    cautions = _then(safety.caution, parsed)
    judged = _then(level.judge, proven)

    told = (*read, *_new(parsed.problems, read), *cautions.problems)
    told = (*told, *graded.problems, *_of_proof(proven.problems, told), *judged.problems)
    if proven.value and proven.value.graded.pattern.changes:
        told = (*told, *proof.rows_changed(proven.value))
    told = (*told, *_of_yarn(needs.problems, rows_wrong=_any_error(told)))
    if parsed.value and not _any_error(told):
        told = (*told, *proof.unheld(parsed.value))
    if parsed.value:
        told = (*told, *look(parsed.value))
    problems = _without_allowed(told, parsed.value)
    ready = None
    if _any_error(problems):
        return Outcome(file=source.file, ready=None, problems=problems)
    if proven.value and needs.value and cautions.value and judged.value:
        ready = ReadyPattern(
            pattern=proven.value.graded.pattern,
            proven=proven.value,
            yarn=needs.value,
            cautions=cautions.value,
            level=judged.value,
            advice=problems,
        )
    return Outcome(file=source.file, ready=ready, problems=problems)


def graded(file: str, studio_file: str | None) -> Checked[GradedPattern]:
    """One pattern file up to its counts, for commands that look into them."""
    studio = Checked(value=pattern.NO_STUDIO) if studio_file is None else _studio(studio_file)
    read = load(file)
    if read.value is None or studio.value is None:
        return Checked(value=None, problems=(*studio.problems, *read.problems))
    parsed = pattern.parse(read.value, studio.value)
    numbers = _then(_grade, parsed)
    told = (*studio.problems, *read.problems, *parsed.problems, *numbers.problems)
    return Checked(value=numbers.value, problems=told)


def counted(file: str, studio_file: str | None) -> Checked[ProvenPattern]:
    """One pattern file up to its rows, for who looks at them: also where some do not come out."""
    numbers = graded(file, studio_file)
    proven = _then(proof.prove, numbers)
    return Checked(value=proven.value, problems=(*numbers.problems, *proven.problems))


def _grade(parsed: Pattern) -> Checked[GradedPattern]:
    """Grade; and once more with what the proof proposes, where a count asks to come out."""
    numbers = grading.grade(parsed)
    if numbers.value is None or not pattern.asks_to_come_out(parsed):
        return numbers
    return grading.grade(parsed, proof.carried(numbers.value))


class Flow:
    """A collection on its way through the flow: its patterns come one by one, and once.

    What has been taken from ``outcomes`` is held no longer: a proof weighs much more than a page
    that is made of it. ``problems`` are all of them once ``outcomes`` are at their end.
    """

    def __init__(
        self,
        collection: Collection,
        around: Around = lambda _file: nullcontext(),
        look: Look = photographs.look,
        typed: Typed = _NONE_TYPED,
        memory: Memory | None = None,
    ) -> None:
        """As ``check`` takes them; a pattern that ``memory`` knows is not proven but recalled."""
        self._collection = collection
        self._around, self._look, self._typed = around, look, typed
        self._memory = memory
        self._claims: list[FormerNames] = []
        self.problems = list(collection.problems)
        self.outcomes = self._each()

    def _each(self) -> Iterator[Outcome | Recalled]:
        studios: dict[str | None, _Studio] = {None: _Studio(read=pattern.NO_STUDIO, texts=())}
        for file in self._collection.studios:
            with self._around(file):
                texts = self._texts(file)
                studio = _studio(file, texts or self._typed)
                told = tuple(sorted(texts.items())) if texts else None
                studios[file] = _Studio(read=studio.value, texts=told)
                self.problems += studio.problems
        for one in self._collection.patterns:
            found = []
            with self._around(one.file):
                found.append(self._outcome(one, studios.get(one.studio, _NOT_READ)))
                self._note(found[0])
            while found:
                yield found.pop()
        self.problems += _former_names_taken(self._collection, self._claims)

    def _texts(self, studio: str) -> dict[str, bytes]:
        """What a studio is read from, where all of it can be remembered; else nothing."""
        if self._memory is None or self._typed:
            return {}
        found = {file: content(file) for file in (studio, *charts_beside(studio))}
        texts = {file: text for file, text in found.items() if text is not None}
        return texts if len(texts) == len(found) else {}

    def _outcome(self, one: PatternFile, studio: _Studio) -> Outcome | Recalled:
        """What became of one file, or what is remembered of it."""
        read, text = studio.read, None
        if self._memory and not self._typed and read is not None and studio.texts is not None:
            text = content(one.file)
        if self._memory is None or read is None or studio.texts is None or text is None:
            return _outcome(one.file, read, self._look, self._typed)
        case = Case(of=one, content=text, studio=studio.texts)

        def prove() -> Outcome:
            made = _outcome(one.file, read, self._look, {one.file: text})
            return replace(made, case=case)

        if remembered := self._memory.recall(case):
            return Recalled(case=case, remembered=remembered, studio=read, prove=prove)
        made = prove()
        if made.ready:
            self._memory.keep(case, _worth_remembering(made.ready, made.problems))
        return made

    def _note(self, one: Outcome | Recalled) -> None:
        """What of a pattern is asked for when all have come."""
        if isinstance(one, Recalled):
            file, known = one.case.of.file, one.remembered
            problems, formerly = known.problems, known.formerly
        else:
            file, problems = one.file, one.problems
            formerly = one.ready.pattern.formerly if one.ready else ()
        self.problems += problems
        if formerly:
            self._claims.append((file, formerly))


@record
class _Studio:
    """A studio as it was read, and its texts where it may be remembered with them."""

    read: Studio | None
    texts: tuple[tuple[str, bytes], ...] | None


_NOT_READ = _Studio(read=None, texts=None)


def _worth_remembering(ready: ReadyPattern, problems: tuple[Problem, ...]) -> Remembered:
    return Remembered(
        slug=ready.pattern.slug,
        title=ready.pattern.title.text,
        published=bool(ready.pattern.published),
        formerly=ready.pattern.formerly,
        problems=problems,
    )


def check(
    collection: Collection,
    around: Around = lambda _file: nullcontext(),
    look: Look = photographs.look,
    typed: Typed = _NONE_TYPED,
) -> Verdict:
    """Take every file of a collection through the flow.

    ``look`` looks at the pictures of a pattern.
    ``around`` gives a context in which the named file is worked on: an edge that must go on when
    a file shows a bug of ours swallows the exception there, and the file has no outcome.
    ``typed`` are texts that are read in place of what stands in their files.
    """
    flow = Flow(collection, around, look, typed)
    outcomes = tuple(one for one in flow.outcomes if isinstance(one, Outcome))
    return Verdict(outcomes=outcomes, problems=tuple(flow.problems))


def _former_names_taken(collection: Collection, claims: Sequence[FormerNames]) -> Iterator[Problem]:
    """Old addresses that would lead to two pages; of several folders, in each by itself."""
    if not claims:
        return
    from workeven.pattern.former import taken  # few patterns had another name

    for folder in dict.fromkeys(_collection_of(file) for file, _ in claims):
        here = (one.slug for one in collection.patterns if _collection_of(one.file) == folder)
        yield from taken((names for file, names in claims if _collection_of(file) == folder), here)


def _collection_of(file: str) -> str:
    """The folder in which the folder of a pattern lies."""
    return file.replace("\\", "/").rpartition("/")[0].rpartition("/")[0]


def _studio(file: str, typed: Typed = _NONE_TYPED) -> Checked[Studio]:
    """What a studio says, with its body charts, which lie beside its file."""
    read = load(file, typed.get(file))
    parsed = _then(pattern.parse_studio, read)
    told = (*read.problems, *parsed.problems)
    if parsed.value is not None:
        told = (*told, *charts_unnamed(file, (name.text for name in parsed.value.chart_files)))
    if parsed.value is None or not parsed.value.chart_files:
        return Checked(value=parsed.value, problems=told)
    charts = [_chart(file, name, typed) for name in parsed.value.chart_files]
    told = (*told, *(problem for chart in charts for problem in chart.problems))
    whole = tuple(chart.value for chart in charts if chart.value is not None)
    studio = replace(parsed.value, charts=whole) if len(whole) == len(charts) else None
    return Checked(value=studio, problems=told)


def _chart(studio_file: str, name: Text, typed: Typed) -> Checked[BodyChart]:
    """A chart of the studio's own; where it cannot be opened, told where it is named."""
    file = beside(studio_file, name.text)
    read = load(file, typed.get(file))
    parsed = _then(pattern.parse_chart, read)
    named = (Note(span=name.span, message=f"{quote(name.text)} is named here."),)
    told = (replace(one, notes=(*one.notes, *named)) for one in read.problems)
    return Checked(value=parsed.value, problems=(*told, *parsed.problems))


def _outcome(file: str, studio: Studio | None, look: Look, typed: Typed) -> Outcome:
    """What became of one file; while its studio's own file is wrong it is only read."""
    read = load(file, typed.get(file))
    if read.value is None or studio is None:
        return Outcome(file=file, ready=None, problems=read.problems)
    return run(read.value, studio, read.problems, look)


def _then(stage: Callable[[T], Checked[U]], before: Checked[T]) -> Checked[U]:
    """The stage's result, or nothing where the stage before gave no record."""
    return Checked(value=None) if before.value is None else stage(before.value)


def _new(parsed: tuple[Problem, ...], read: tuple[Problem, ...]) -> tuple[Problem, ...]:
    """What is wrong with the shape of a value that YAML has split is told with the split."""
    split = {problem.span.line for problem in read if problem.code == "file-flow-split"}
    return tuple(
        problem
        for problem in parsed
        if problem.code != "file-shape" or problem.span.line not in split
    )


def _of_proof(problems: tuple[Problem, ...], told: tuple[Problem, ...]) -> tuple[Problem, ...]:
    """Where a gauge or another name leads nowhere, a seam is not measured: that is told once."""
    if all(one.code != "name-unknown" for one in told):
        return problems
    return tuple(one for one in problems if one.code != "seam-unmeasured")


def _of_yarn(problems: tuple[Problem, ...], *, rows_wrong: bool) -> tuple[Problem, ...]:
    """Behind rows that do not come out the yarn is another: nothing is held against it."""
    against = ("sample-", "yarn-amounts-")
    return tuple(one for one in problems if not (rows_wrong and one.code.startswith(against)))


def _without_allowed(problems: tuple[Problem, ...], parsed: Pattern | None) -> tuple[Problem, ...]:
    """Advice that the file allows is left out; errors never are."""
    allowed = {code for code, _reason in parsed.allow} if parsed else set()
    return tuple(
        problem
        for problem in problems
        if problem.code not in allowed or severity(problem.code) is Severity.ERROR
    )


def _any_error(problems: tuple[Problem, ...]) -> bool:
    return any(severity(problem.code) is Severity.ERROR for problem in problems)
