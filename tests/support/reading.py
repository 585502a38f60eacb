"""A small pattern for tests of its reading, and what becomes of changes to it."""

from __future__ import annotations

from workeven import pattern, source
from workeven.pattern import Pattern, Studio
from workeven.problems import Checked, Problem

FILE = "patterns/sand-mat/pattern.yaml"
SMALL = """\
title: Sand Mat
summary: A small round mat.
audience: adult
use: [home]
sizes:
  names: S (M, L)
gauge:
  ground: {sts: 16, rows: 18, over: 10 cm, of: sc}
yarn:
  main: {weight: light, fibre: 100% cotton, put_up: {length: 85 m, mass: 50 g}}
swatches:
  - of: main
    mass: 5 g
    rows: |
      ch 21
      sc in 2nd ch from hook and in each ch across
pieces:
  mat:
    worked: spiral rounds
    sections:
      - title: Mat
        rows: |
          magic ring, 6 sc in ring
          inc around
"""


def changed(*pairs: tuple[str, str]) -> str:
    """The small pattern with things changed; a thing that is not there is a slip of the test."""
    text = SMALL
    for old, new in pairs:
        assert text.count(old) == 1, f"{text.count(old)} times in the small pattern: {old}"
        text = text.replace(old, new)
    return text


def added(lines: str) -> str:
    """The small pattern with lines at its end."""
    return f"{SMALL}{lines}\n"


def parsed(text: str, studio: Studio = pattern.NO_STUDIO) -> Checked[Pattern]:
    """What becomes of a text, problems of the reading before those of the typing."""
    read = source.read(FILE, text.encode("utf-8"))
    if read.value is None:
        return Checked(value=None, problems=read.problems)
    typed = pattern.parse(read.value, studio)
    return Checked(value=typed.value, problems=(*read.problems, *typed.problems))


def good(text: str, studio: Studio = pattern.NO_STUDIO) -> Pattern:
    """The pattern of a text that has no problem."""
    checked = parsed(text, studio)
    assert () == checked.problems
    assert checked.value is not None
    return checked.value


def one(text: str) -> Problem:
    """The one problem of a text."""
    problems = parsed(text).problems
    assert 1 == len(problems), [problem.found for problem in problems]
    return problems[0]


def placed(text: str) -> list[tuple[str, int, int]]:
    """Code, line and column of each problem."""
    return [(it.code, it.span.line, it.span.column) for it in parsed(text).problems]
