"""Rows that nobody wrote, worked by a small reader of their words alone: what they use and leave.

Grading words such rows (shaping, holes, stitches spread evenly), and the proof reads them back.
Here they are read a third time, stitch by stitch: ``[sc 2, sc2tog] 11 times``.
"""

from __future__ import annotations

import re
from collections.abc import Iterator
from typing import NamedTuple

OFTEN = {"once": 1, "twice": 2}
#: At how many places a shaped row changes.
PLACES = (
    (r"at each end", 2),
    (r"on each side of each of (\d+) markers", 2),
    (r"on each side of (\d+) marker", 2),
    (r"at each of (\d+) markers", 1),
)


class Use(NamedTuple):
    """Stitches that are taken up, and those that are there afterwards."""

    takes: int
    makes: int

    def often(self, times: int) -> Use:
        """The same so many times."""
        return Use(self.takes * times, self.makes * times)

    def then(self, other: Use) -> Use:
        """One after the other."""
        return Use(self.takes + other.takes, self.makes + other.makes)


def used(words: str) -> Use:
    """What steps use and leave, brackets within brackets too.

    >>> used("[sc 3, inc, [sc 2, inc] twice] 6 times")
    Use(takes=60, makes=78)
    >>> used("ch 1, sc in next 3 sts, [ch 2, sk next 2 sts, sc in next 4 sts] twice")
    Use(takes=15, makes=11)
    """
    whole = Use(0, 0)
    for part, times in _parts(words):
        one = used(part).often(times) if times else _step(part)
        whole = whole.then(one)
    return whole


def shaping(words: str) -> tuple[int, int]:
    """How many rows a shaping is told in, and by how many stitches it changes the last of them.

    >>> shaping("dec 1 st at each end every 2nd row 3 times, then every row twice")
    (8, -10)
    """
    begun = re.match(r"(inc|dec|leave) (\d+) sts?", words)
    assert begun is not None, words
    places = 1
    for expression, sides in PLACES:
        if found := re.search(expression, words):
            places = sides * int(found[1] if found.groups() else 1)
    times = rows = 0
    for every, often in re.findall(
        r"every (?:(\d+)\w\w )?r(?:ow|nd) (once|twice|\d+(?= times?))", words
    ):
        each = OFTEN.get(often) or int(often)
        times, rows = times + each, rows + each * int(every or 1)
    rows += sum(map(int, re.findall(r"work (\d+) r\w+ even", words)))
    change = int(begun[2]) * places * (times or 1)
    return rows or 1, change if begun[1] == "inc" else -change


def _parts(words: str) -> Iterator[tuple[str, int]]:
    """Steps, and what stands in brackets with how often it is worked (0: a step)."""
    depth, start = 0, 0
    for at, sign in enumerate(words):
        depth += (sign == "[") - (sign == "]")
        if sign == "," and not depth:
            yield _part(words[start:at])
            start = at + 1
    yield _part(words[start:])


def _part(words: str) -> tuple[str, int]:
    found = re.fullmatch(r"\s*\[(.*)\] (once|twice|\d+(?= times))(?: times)?.*", words)
    if found is None:
        return words, 0
    return found[1], OFTEN.get(found[2]) or int(found[2])


def _step(words: str) -> Use:
    """One step; a chain, a join and a turn use nothing."""
    if found := re.search(r"\w+(\d)tog(?: (\d+))?", words):
        return Use(int(found[1]), 1)
    if found := re.search(r"(\d+) \w+ in (?:next|same|one) st\b", words):
        return Use(1, int(found[1]))
    if re.search(r"\binc\b", words):
        return Use(1, 2)
    if found := re.search(r"(?:sk|miss) next (\d+)|(?:sk|miss) (\d+)", words):
        return Use(int(found[1] or found[2]), 0)
    if found := re.search(r"\w+ in next (?:(\d+) )?sts?", words):
        return Use(int(found[1] or 1), int(found[1] or 1))
    if re.search(r"ch \d+ \(counts as", words):
        return Use(1, 1)
    if re.search(r"\bch\b|join|turn", words):
        return Use(0, 0)
    if found := re.search(r"[a-z]+ (\d+)$|^\s*(\d+) [a-z]+", words):
        return Use(int(found[1] or found[2]), int(found[1] or found[2]))
    return Use(0, 0)
