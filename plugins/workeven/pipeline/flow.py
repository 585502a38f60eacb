"""A whole collection through the flow, pattern by pattern; what is remembered is not proven anew.

Takes     the files of a ``Collection``; a ``Memory``.
Gives     ``check``: ``Verdict``; ``Flow``; ``Recalled`` of a pattern that the memory knows.
Problems  those of the stages, and former names that several patterns have.
From      design.md, "From text to page"; DEVELOPERS.md, "The cache".
"""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from contextlib import AbstractContextManager, nullcontext

from workeven import pattern, photographs
from workeven.pattern import Studio, Text
from workeven.pipeline import files
from workeven.pipeline.files import NONE_TYPED, Typed
from workeven.pipeline.one import Case, Look, Outcome, ReadyPattern, any_error
from workeven.problems import Problem
from workeven.records import record, replace
from workeven.source import Collection, PatternFile, charts_beside, content

Around = Callable[[str], AbstractContextManager[None]]
#: The file of a pattern, and what its folder was called before.
FormerNames = tuple[str, tuple[Text, ...]]


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
        return not any_error(self.problems)


@record
class _Studio:
    """A studio as it was read, and its texts where it may be remembered with them."""

    read: Studio | None
    texts: tuple[tuple[str, bytes], ...] | None


_NOT_READ = _Studio(read=None, texts=None)


def check(
    collection: Collection,
    around: Around = lambda _file: nullcontext(),
    look: Look = photographs.look,
    typed: Typed = NONE_TYPED,
    memory: Memory | None = None,
) -> Verdict:
    """Take every file of a collection through the flow.

    ``look`` looks at the pictures of a pattern.
    ``around`` gives a context in which the named file is worked on: an edge that must go on when
    a file shows a bug of ours swallows the exception there, and the file has no outcome.
    ``typed`` are texts that are read in place of what stands in their files.
    A pattern that ``memory`` knows has no outcome: it is not proven, and its problems are told.
    """
    flow = Flow(collection, around, look, typed, memory)
    outcomes = tuple(one for one in flow.outcomes if isinstance(one, Outcome))
    return Verdict(outcomes=outcomes, problems=tuple(flow.problems))


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
        typed: Typed = NONE_TYPED,
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
                studio = files.studio(file, texts or self._typed)
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
            return files.outcome(one.file, read, self._look, self._typed)
        case = Case(of=one, content=text, studio=studio.texts)

        def prove() -> Outcome:
            made = files.outcome(one.file, read, self._look, {one.file: text})
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


def _worth_remembering(ready: ReadyPattern, problems: tuple[Problem, ...]) -> Remembered:
    return Remembered(
        slug=ready.pattern.slug,
        title=ready.pattern.title.text,
        published=bool(ready.pattern.published),
        formerly=ready.pattern.formerly,
        problems=problems,
    )


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
