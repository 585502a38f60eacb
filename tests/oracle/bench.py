"""What a row is drawn from: the places of every size, and a source of chance.

Takes     nothing.
Gives     ``Bench``, ``one``, ``tidy``.
Problems  none.
From      notation.md, The fabric.
"""

from __future__ import annotations

import random
from dataclasses import dataclass

from tests.oracle.places import Place
from tests.oracle.structure import (
    Content,
    Count,
    Row,
    Step,
    Stitches,
)
from tests.oracle.walker import Fabric

KINDS = ("sc", "sc", "sc", "hdc", "dc", "dc", "tr")
LARGEST = 160
SMALLEST = 4

Counts = tuple[int, ...]
Steps = tuple[Step, ...]


def one(kind: str, number: Count = 1) -> Content:
    """Content of one kind."""
    return (Stitches(kind, number),)


def tidy(counts: Counts) -> Count:
    """One number where all sizes have the same."""
    return counts[0] if len(set(counts)) == 1 else counts


@dataclass(slots=True)
class Bench:
    """What a draft is drawn from: the places of every size, as the next row meets them."""

    rng: random.Random
    worked: str
    fabrics: list[Fabric]
    first: bool = False
    cut: bool = False
    rows: int = 0

    @property
    def flat(self) -> bool:
        """Whether rows go to and fro."""
        return self.worked == "flat rows"

    @property
    def places(self) -> list[list[Place]]:
        """The places of each size, in the order of a plain row."""
        return [fabric.order(Row()) for fabric in self.fabrics]

    @property
    def sts(self) -> Counts:
        """The stitches of each size."""
        return tuple(sum(p.sort in ("st", "ch") for p in places) for places in self.places)

    @property
    def spaces(self) -> set[str]:
        """The names of the chain spaces, in any size."""
        return {place.name for places in self.places for place in places if place.sort == "sp"}

    @property
    def kinds(self) -> set[str]:
        """The names of the stitches, in any size."""
        return {place.name for places in self.places for place in places if place.sort == "st"}
