"""Makes the mistakes at every place, or at a sample, and counts what becomes of them.

Takes     nothing: the sources are those of sources.py.
Gives     ``places``: every place of a class; ``sample``; ``Tally``: a class in figures.
Problems  none.
From      the classes of mistakes.py and file_mistakes.py.
"""

from __future__ import annotations

import random
from collections import Counter
from collections.abc import Callable, Iterable, Iterator
from dataclasses import dataclass, field
from functools import lru_cache, partial

from tests.seeded import sources
from tests.seeded.checking import Finding, Verdict, check, check_file, is_whole, is_whole_file
from tests.seeded.file_mistakes import FILE_MISTAKES, MakeInFile, in_rows
from tests.seeded.making import Make
from tests.seeded.mistakes import MISTAKES
from tests.seeded.spans import Slip
from tests.seeded.words import Rows

#: the places of one class at which the long run stops
MOST_PLACES = 1000


@dataclass(frozen=True, slots=True)
class Place:
    """One mistake at one place, and how it is checked."""

    piece: str
    slip: Slip
    check: Callable[[], Finding]
    whole_file: bool = False

    @property
    def where(self) -> str:
        """The piece, line and column, and the changed line."""
        lines = self.slip.text.split("\n")
        line = lines[min(self.slip.line, len(lines)) - 1].strip()
        return f"{self.piece}:{self.slip.line}:{self.slip.column}: {line}"


@dataclass(slots=True)
class Tally:
    """What became of the places of one class."""

    verdicts: Counter[Verdict] = field(default_factory=Counter)
    several: int = 0
    wrong: list[str] = field(default_factory=list)

    def add(self, place: Place, finding: Finding) -> None:
        """Counts a place."""
        self.verdicts[finding.verdict] += 1
        self.several += finding.several > 0
        if not finding.right:
            self.wrong.append(
                f"{finding.verdict.value}\n  {place.where}"
                f"\n  expected {finding.expected or 'nothing'}"
                f"\n  reported {finding.reported or 'nothing'}"
            )

    @property
    def places(self) -> int:
        """The places that were judged."""
        return self.verdicts.total() - self.verdicts[Verdict.UNJUDGED]

    @property
    def matters(self) -> int:
        """The places at which the change makes a row wrong."""
        return self.places - self.verdicts[Verdict.SILENT] - self.verdicts[Verdict.ALARM]


@lru_cache(maxsize=1)
def pieces() -> tuple[Rows, ...]:
    """The pieces that come out."""
    return tuple(rows for rows in sources.pieces() if is_whole(rows))


@lru_cache(maxsize=1)
def files() -> tuple[tuple[str, str], ...]:
    """The pattern files that come out."""
    return tuple((name, text) for name, text in sources.files() if is_whole_file(text))


def classes() -> Iterator[tuple[str, Callable[[], Iterator[Place]]]]:
    """The sentence of each class, and its places."""
    for sentence, make in MISTAKES:
        yield sentence, partial(_of_rows, make)
    for sentence, make_in_file in FILE_MISTAKES:
        yield sentence, partial(_of_files, make_in_file)


def _of_rows(make: Make) -> Iterator[Place]:
    for rows in pieces():
        for slip in make(rows):
            if slip.text != rows.text:
                yield Place(rows.name, slip, partial(check, rows, slip.text))
    yield from _of_files(lambda text: in_rows(text, make))


def _of_files(make: MakeInFile) -> Iterator[Place]:
    for name, text in files():
        for slip in make(text):
            if slip.text != text:
                yield Place(name, slip, partial(check_file, slip.text), whole_file=True)


def sample(sentence: str, places: Iterable[Place], most: int) -> list[Place]:
    """At most so many places of a class, chosen by its sentence; all where there are fewer.

    A whole file takes some ten times as long as a piece of rows: of a small sample a tenth are in
    files where there are pieces, and a class that is of files alone has half as many places.
    """
    found = list(places)
    if len(found) <= most:
        return found
    rng = random.Random(sentence)  # noqa: S311
    pieces = [place for place in found if not place.whole_file]
    if most >= MOST_PLACES:
        return rng.sample(found, most)
    in_files = [place for place in found if place.whole_file]
    share = min(len(in_files), max(most // 10, (most - len(pieces)) // 2))
    return rng.sample(pieces, min(len(pieces), most - share)) + rng.sample(in_files, share)


def tally(sentence: str, places: Iterable[Place], most: int = MOST_PLACES) -> Tally:
    """A class in figures."""
    found = Tally()
    for place in sample(sentence, places, most):
        found.add(place, place.check())
    return found
