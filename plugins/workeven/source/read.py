"""The bytes of a file to a tree of placed values.

Takes     bytes of one file, and its name.
Gives     ``Source``.
Problems  those of ``characters``, ``slips`` and ``refusals``.
From      design.md, "YAML, safely and with places".
"""

from __future__ import annotations

import yaml

from workeven.problems import Checked, Problem
from workeven.source.characters import decode, lines_of
from workeven.source.compose import NO_SPACE, Composer, Stop
from workeven.source.refusals import Refusals, missing_space
from workeven.source.tree import PLAIN, Node, Source

#: PyYAML's parser in C where it was built, else the one in Python: the same events and places.
PARSER: type = getattr(yaml, "CSafeLoader", yaml.SafeLoader)


def read(file: str, content: bytes, *, parser: type = PARSER) -> Checked[Source]:
    """Read one file; a ``Source`` comes with the problems that left the tree whole."""
    decoded = decode(file, content)
    if decoded.value is None:
        return Checked(value=None, problems=decoded.problems)
    text = decoded.value
    lines = lines_of(text)
    composer = Composer(refuse=Refusals(file=file, lines=lines))
    try:
        root = composer.compose(parser(text))
    except Stop as stop:
        return Checked(value=None, problems=(*composer.problems, stop.problem))
    except yaml.MarkedYAMLError as error:
        return Checked(value=None, problems=_broken(composer, error))
    fault = _not_a_table(composer.refuse, root)
    if fault is not None:
        return Checked(value=None, problems=(*composer.problems, fault))
    if root is None or composer.holes:
        return Checked(value=None, problems=tuple(composer.problems))
    source = Source(file=file, text=text, lines=lines, root=root)
    return Checked(value=source, problems=tuple(composer.problems))


def _not_a_table(refuse: Refusals, root: Node | None) -> Problem | None:
    """The problem of a file that is empty or holds no keys."""
    if root is None or root.empty:
        return refuse.empty()
    if isinstance(root.value, dict):
        return None
    if isinstance(root.value, str) and root.style == PLAIN and NO_SPACE.match(root.value):
        line, column = root.start
        behind = column + root.value.index(":") + 1
        return missing_space(refuse.file, line, behind, refuse.lines[line - 1])
    return refuse.no_keys(root)


def _broken(composer: Composer, error: yaml.MarkedYAMLError) -> tuple[Problem, ...]:
    """The problems of a text that breaks off, without a second message for the same slip."""
    from workeven.source import slips  # needed by broken files alone

    told = tuple(composer.problems)
    slip = slips.explain(composer.refuse.file, composer.refuse.lines, error)
    for problem in told:
        if problem.code == "file-colon-space" and slip.span.line - problem.span.line in (0, 1):
            return told
    return (*told, slip)
