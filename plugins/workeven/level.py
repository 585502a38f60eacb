"""How demanding a project is, from what its rows use.

Takes     ``ProvenPattern``.
Gives     ``judge``: ``JudgedLevel``.
Problems  ``level-low``.
From      ``standards/project_levels.csv``: the scale since about 2018. Its words ("simple stitch
          patterns", "more involved stitch patterns") leave open what is meant; the reading of them
          below is our own.

Our reading, feature by feature:

- *Basic*: basic stitches up to the US treble, in rows or rounds; increases and decreases in at most
  one section of a piece.
- *Easy*: a repeat over several stitches, spaces of chains, single loops, taller stitches, one or
  two special stitches; colours changed between rows; shaping in two sections of a piece, or worked
  out along a length; pieces that are joined.
- *Intermediate*: post stitches, three or more special stitches, repeats of unequal length in one
  openwork section; colours changed within a row; shaping in three or more sections of a piece or
  in several pieces of two, several shapings at the same time.
- *Complex*: three or more of those of Intermediate at once.

The designer may raise the level. A level says nothing of time, nor of the maker.
"""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator
from functools import lru_cache
from itertools import chain
from typing import Literal, cast

from workeven.notation.tree import (
    ONE,
    Decrease,
    Increase,
    Repeat,
    Row,
    ShapeRows,
    Skip,
    Step,
    Stitch,
    Work,
    WorkedRow,
)
from workeven.notation.vocabulary import CLOSED_WORDS, HEIGHTS, kind_of
from workeven.pattern import Pattern
from workeven.problems import Checked, Problem
from workeven.problems.words import joined
from workeven.proof import ProvenPattern, ProvenPiece, ProvenRow, ProvenSection, RowInSize
from workeven.records import record

Name = Literal["Basic", "Easy", "Intermediate", "Complex"]
NAMES: tuple[Name, ...] = ("Basic", "Easy", "Intermediate", "Complex")

#: A feature of the rows: the level it asks for, and its words.
Reason = tuple[Name, str]

#: So many features of Intermediate at once make a project Complex.
SEVERAL = 3
#: The tallest of the basic stitches: a treble.
_TALL = HEIGHTS["tr"]
#: One of these stands in every row that works into one loop ("back loop", "flo", "BL").
_LOOP_SIGNS = ("lo", "LO", "bl", "BL", "fl", "FL")
_CLOSED = frozenset(CLOSED_WORDS.values())
_COLOUR = (
    r"\b(?:chang\w*|switch\w*|swap\w*|alternating) (?:to |colou?rs?)|\b(?:with|in) (?:colou?r )?"
    r"(?:MC|CC\d?|[A-Z])\b"
)


@record
class JudgedLevel:
    """A level of the published scale, and why.

    ``computed`` follows from the rows, because of the ``reasons``; ``name`` is what the page says:
    the designer's, where it is higher.
    """

    name: Name
    computed: Name
    reasons: tuple[str, ...]

    @property
    def raised(self) -> bool:
        """Whether the designer has set it higher than the rows do."""
        return self.name != self.computed


def judge(proven: ProvenPattern) -> Checked[JudgedLevel]:
    """The level of a pattern; one that is written lower is advice, and the higher one holds."""
    pattern = proven.graded.pattern
    found = tuple(dict.fromkeys(_reasons(proven)))
    computed = _computed(found)
    weightiest = "Intermediate" if computed == "Complex" else computed
    reasons = tuple(words for asked, words in found if asked == weightiest)
    said = cast("Name | None", pattern.level)
    name = computed if said is None else max(said, computed, key=NAMES.index)
    level = JudgedLevel(name=name, computed=computed, reasons=reasons)
    return Checked(value=level, problems=tuple(_too_low(pattern, level)))


def _computed(found: Iterable[Reason]) -> Name:
    levels = [asked for asked, _words in found]
    if levels.count("Intermediate") >= SEVERAL:
        return "Complex"
    return max(levels, key=NAMES.index, default="Basic")


def _too_low(pattern: Pattern, level: JudgedLevel) -> Iterator[Problem]:
    said = pattern.level
    if said is not None and level.name != said:
        yield Problem(
            code="level-low",
            span=pattern.level_span or pattern.title.span,
            found=f"The level is {said}, and the rows ask for {level.computed}.",
            expected=f"{level.computed}, because of: {joined(level.reasons)}.",
            mend=f"Write `level: {level.computed}`, or leave it out; a higher one may be written. "
            f"The page says {level.computed}.",
        )


# --- what the rows use ---------------------------------------------------------------------


def _reasons(proven: ProvenPattern) -> Iterator[Reason]:
    rows = [row for piece in proven.pieces for one in piece.sections for row in one.rows]
    yield from _stitches(proven.graded.pattern, rows)
    for piece in proven.pieces:
        for section in piece.sections:
            yield from _stitch_pattern(section)
    yield from _colours(proven)
    yield from _shaping(proven)
    if len(proven.pieces) > 1:
        yield ("Easy", "pieces that are joined")


def _stitches(pattern: Pattern, rows: list[ProvenRow]) -> Iterator[Reason]:
    """Stitches beyond the basic ones."""
    counted = filter(None, map(_counted, rows))
    worked = {name for name, _ in chain.from_iterable(one.worked for one in counted)}
    yield from dict.fromkeys(found for name in sorted(worked) for found in _of_stitch(name))
    special = {stitch.name for stitch in pattern.stitches}
    terms = {term.name for row in rows for term in row.row.terms}
    several = sorted((terms & special) | (worked & _CLOSED))
    if several:
        level: Name = "Easy" if len(several) < SEVERAL else "Intermediate"
        yield (level, f"special stitches ({joined(several)})")


@lru_cache(maxsize=1024)
def _of_stitch(name: str) -> tuple[Reason, ...]:
    """What a stitch asks for, by its US name."""
    kind = kind_of(name)
    found: list[Reason] = []
    if kind.post is not None:
        found.append(("Intermediate", "post stitches"))
    if kind.foundation:
        found.append(("Easy", "stitches worked with their own chain"))
    if HEIGHTS.get(kind.base, 0) > _TALL:
        found.append(("Easy", "very tall stitches"))
    return tuple(found)


def _stitch_pattern(section: ProvenSection) -> Iterator[Reason]:
    """Repeats over several stitches, openwork, single loops."""
    multiples: set[int] = set()
    for row in section.rows:
        openwork = _leaves_spaces(row)
        if openwork:
            yield "Easy", "spaces of chains"
        several = row.multiple is not None and row.multiple[0] > 1
        if not several and not any(sign in row.row.text for sign in _LOOP_SIGNS):
            continue
        of_row = _of_row(row.row)
        if "loop" in of_row:
            yield "Easy", "stitches worked in one loop"
        if row.multiple is not None and several and "pattern" in of_row:
            yield "Easy", "a repeat over several stitches"
            multiples |= {row.multiple[0]} if openwork else set()
    if len(multiples) > 1:
        yield "Intermediate", "openwork with repeats of unequal length"


def _colours(proven: ProvenPattern) -> Iterator[Reason]:
    """Colours changed between rows, or within them."""
    pattern = proven.graded.pattern
    if len(pattern.yarns) == 1 and len(pattern.yarns[0].colours) < 2:  # noqa: PLR2004, one colour
        return
    for piece in proven.pieces:
        if len({section.section.yarn for section in piece.sections}) > 1:
            yield ("Easy", "colours changed between rows")
        for section in piece.sections:
            for row in section.rows:
                told = len(re.findall(_COLOUR, row.row.text))
                if told > 1:
                    yield ("Intermediate", "colours changed within a row")
                elif told:
                    yield ("Easy", "colours changed between rows")


def _shaping(proven: ProvenPattern) -> Iterator[Reason]:
    """Where pieces change their width."""
    shaped = [_shaped_sections(piece) for piece in proven.pieces]
    sections = [one.section for piece in proven.pieces for one in piece.sections]
    if any(one.shape is not None and one.shape.tracks for one in sections):
        yield ("Intermediate", "several shapings at the same time")
    if max(shaped, default=0) >= SEVERAL or sum(count > 1 for count in shaped) > 1:
        yield ("Intermediate", "shaping at several places")
    elif any(count > 1 for count in shaped):
        yield ("Easy", "shaping in more than one section")
    elif any(
        one.shape is not None or any(isinstance(row.body, ShapeRows) for row in one.rows)
        for one in sections
    ):
        yield ("Easy", "shaping along a length")


def _shaped_sections(piece: ProvenPiece) -> int:
    """In how many sections of a piece the stitches become more or fewer, in the largest size."""
    found, before = 0, None
    for section in piece.sections:
        counts = [row.per_size[-1] for row in section.rows]
        sts = [one.sts for one in counts if one is not None and one.sts]
        if before is None and sts:
            before = sts[0]
        if sts and sts[-1] != before:
            found, before = found + 1, sts[-1]
    return found


def _counted(row: ProvenRow) -> RowInSize | None:
    """A row in the first size that works it."""
    for counted in row.per_size.values:
        if counted is not None:
            return counted
    return None


def _leaves_spaces(row: ProvenRow) -> bool:
    counted = _counted(row)
    if counted is not None:
        for name, _count in counted.makes:
            if name[:2] == "ch" and name[-2:] == "sp":
                return True
    return False


def _of_row(row: Row) -> frozenset[str]:
    """``loop``: works into one loop; ``pattern``: what is repeated is more than shaping.

    A repeat of increases or decreases alone ("[sc 5, inc] around") is shaping and no pattern.
    """
    if not isinstance(row.body, WorkedRow):
        return frozenset()
    found: set[str] = set()
    steps: list[Step] = list(row.body.steps)
    while steps:
        match steps.pop():
            case Repeat(steps=inner):
                found.add("repeat")
                steps += inner
            case Skip():
                found.add("skip")
            case Increase() | Decrease():
                found.add("shaping")
            case Work() as step:
                found |= {"loop"} if step.loop != "both" else set()
                found |= {"shaping"} if _changes_count(step) else set()
            case _:
                pass
    if "skip" in found or ("repeat" in found and "shaping" not in found):
        found.add("pattern")
    return frozenset(found)


def _changes_count(step: Work) -> bool:
    """Whether a step makes another number of stitches than it takes up places."""
    if len(step.content) > 1:
        return True
    return any(
        isinstance(one, Stitch)
        and (one.legs > 1 or (not step.spread and one.count.values != ONE.values))
        for one in step.content
    )
