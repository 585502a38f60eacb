"""What goes wrong in many sizes, said once: sentences that differ in their figures alone.

Takes     sentences, one a size, and what the sizes are called.
Gives     ``in_sizes``, ``as_one``, ``of_sizes``, ``offered``.
Problems  none.
From      notation.md, "When it does not come out"; a list by size in the trade's way.

Three sizes are told one by one: "in S, 20 sc are there; in M, 22 are". Nine would be a paragraph
that nobody reads, so figures stand in lists as a pattern prints them, in the order of the sizes
that the message names before: "in these sizes, 20 (22, 24, 26) sc are there". No figure is lost.
"""

from __future__ import annotations

import re
from collections.abc import Callable, Sequence

from workeven.arithmetic.printing import print_texts
from workeven.problems.words import joined
from workeven.proof.naming import many

#: so many sizes are told in a list
MANY = 4

#: a figure that stands by itself, with its fraction
_FIGURE = re.compile(r"(?<![\w./-])(\d+(?:\.\d+)?[¼½¾⅓⅔]?)(?![\w/-])")
#: one of something: where other sizes have more, it is told as theirs are
_ONE_IS = re.compile(r"(?<![\w./-])1 ([a-z][\w -]*?) is\b")
_ONE_REPEAT = re.compile(r"(?<![\w./-])1 repeat( uses)?\b")


def in_sizes(told: Sequence[tuple[str, str]]) -> str:
    """What is wrong by size, each with what the size is called ("" where there is one alone).

    >>> in_sizes([("S", "1 st is left over"), ("M", "3 sts are left over")])
    'in S, 1 st is left over; in M, 3 sts are left over'
    >>> in_sizes([(size, f"{at} sts are left over") for at, size in enumerate("ABCD", 2)])
    'in these sizes, 2 (3, 4, 5) sts are left over'
    """
    if len(told) < MANY:
        return "; ".join(_in(name, detail) for name, detail in told)
    groups: dict[tuple[str, ...], list[tuple[str, str]]] = {}
    for name, detail in _agreeing(told):
        groups.setdefault(_between(detail), []).append((name, detail))
    return "; ".join(
        f"{_where([name for name, _ in group], len(told))}, {_listed([one for _, one in group])}"
        for group in groups.values()
    )


def as_one(details: Sequence[str]) -> str | None:
    """Sentences that differ in figures alone as one; None where they differ in words.

    >>> as_one(["there are 20 sc", "there are 22 sc"])
    'there are 20 and 22 sc'
    >>> as_one(["there are 20 sc", "there are 22 sc", "there are 22 sc", "there are 24 sc"])
    'there are 20 (22, 22, 24) sc'
    >>> as_one(["there are 20 sc", "there are 22 dc"])
    """
    if len(details) < MANY:
        details = list(dict.fromkeys(details))
    details = [detail for _, detail in _agreeing([("", detail) for detail in details])]
    if len({_between(detail) for detail in details}) > 1:
        return None
    return _listed(details, of_sizes)


def of_sizes(figures: Sequence[str]) -> str:
    """One figure a size: once where all are the same, in a sentence or as the trade lists them.

    >>> of_sizes(["20", "20"]), of_sizes(["20", "22"]), of_sizes(["1", "2", "3", "3"])
    ('20', '20 and 22', '1 (2, 3, 3)')
    """
    if len(figures) < MANY:
        return joined(figures if len(set(figures)) > 1 else figures[:1])
    return print_texts(figures)


def offered(offers: Sequence[tuple[str, Sequence[int]]], *, whole: bool) -> str:
    """Counts that would come out, by size; ``whole``: no size of the message is without.

    >>> offered([("S", (61, 67)), ("M", (73,))], whole=True)
    'S 61 or 67, M 73'
    >>> offered([(size, (6 * at, 6 * at + 6)) for at, size in enumerate("ABCD", 1)], whole=True)
    '6 (12, 18, 24) or 12 (18, 24, 30)'
    """
    if whole and len(offers) >= MANY and len({len(counts) for _, counts in offers}) == 1:
        columns = zip(*(counts for _, counts in offers), strict=True)
        return joined((of_sizes([str(one) for one in column]) for column in columns), "or")
    return ", ".join(f"{name} {joined(map(str, counts), 'or')}".lstrip() for name, counts in offers)


def _listed(details: Sequence[str], listed: Callable[[Sequence[str]], str] = print_texts) -> str:
    """Sentences of the same words as one, with a list in the place of each figure."""
    parts = [_FIGURE.split(detail) for detail in details]
    return "".join(listed(figures) for figures in zip(*parts, strict=True))


def _agreeing(told: Sequence[tuple[str, str]]) -> list[tuple[str, str]]:
    """The same with "1 st is" as "1 sts are", where that makes it like the others."""
    others = {_between(detail) for _, detail in told}
    if len(others) == 1:
        return list(told)
    agreeing: list[tuple[str, str]] = []
    for name, detail in told:
        plural = _ONE_IS.sub(lambda one: f"{many(0, one[1]).replace('0', '1', 1)} are", detail)
        plural = _ONE_REPEAT.sub(lambda one: "1 repeats use" if one[1] else "1 repeats", plural)
        alike = plural != detail and _between(plural) in others
        agreeing.append((name, plural if alike else detail))
    return agreeing


def _between(detail: str) -> tuple[str, ...]:
    """The words between the figures."""
    return tuple(_FIGURE.split(detail)[::2])


def _in(name: str, detail: str) -> str:
    return f"in {name}, {detail}" if name else detail


def _where(names: list[str], of: int) -> str:
    return "in these sizes" if len(names) == of else f"in {joined(names)}"
