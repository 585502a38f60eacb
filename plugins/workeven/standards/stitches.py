"""Stitches and words: turning chains, abbreviations, terms.

Takes     the CSV files beside it.
Gives     ``turning_chains``, ``abbreviations``, ``terms``.
Problems  none.
From      the sources named in the column ``citation``.
"""

from __future__ import annotations

from functools import cache
from typing import Literal, cast

from workeven.records import record
from workeven.standards.tables import Origin, integer, origin, rows


@record
class TurningChain:
    """The chains that raise the hook to a stitch, and whether they count as one.

    ``first_chain_from_hook``: the chain that the first stitch of a first row goes into (None where
    it is not said). ``height`` in chains.
    """

    stitch: str
    chains: int
    counts: Literal["yes", "no", "varies"]
    first_chain_from_hook: int | None
    height: int
    origin: Origin


@record
class Abbreviation:
    """A US abbreviation in all its spellings, and its meaning."""

    spellings: tuple[str, ...]
    meaning: str
    origin: Origin


@record
class Term:
    """One stitch or word in US and in UK terms, abbreviated and in full."""

    us: str
    us_term: str
    uk: str
    uk_term: str
    origin: Origin


@cache
def turning_chains() -> tuple[TurningChain, ...]:
    """One record a stitch, from slip stitch to double treble.

    >>> [(chain.stitch, chain.chains, chain.counts) for chain in turning_chains()][1:4]
    [('sc', 1, 'no'), ('hdc', 2, 'varies'), ('dc', 3, 'yes')]
    """
    return tuple(
        TurningChain(
            stitch=row["stitch"],
            chains=int(row["chains"]),
            counts=cast('Literal["yes", "no", "varies"]', row["counts"]),
            first_chain_from_hook=integer(row["first_chain_from_hook"]),
            height=int(row["height"]),
            origin=origin(row),
        )
        for row in rows("turning_chains.csv")
    )


@cache
def abbreviations() -> tuple[Abbreviation, ...]:
    """The US abbreviations in alphabetical order.

    >>> next(a.meaning for a in abbreviations() if "hdc" in a.spellings)
    'half double crochet'
    """
    return tuple(
        Abbreviation(
            spellings=tuple(row["abbreviation"].split(" / ")),
            meaning=row["meaning"],
            origin=origin(row),
        )
        for row in rows("abbreviations.csv")
    )


@cache
def terms() -> tuple[Term, ...]:
    """US and UK terms side by side, as published (one stitch may stand in several rows).

    >>> [(term.us, term.uk) for term in terms() if term.us == "sc"]
    [('sc', 'dc')]
    """
    return tuple(
        Term(
            us=row["us"],
            us_term=row["us_term"],
            uk=row["uk"],
            uk_term=row["uk_term"],
            origin=origin(row),
        )
        for row in rows("terms.csv")
    )
