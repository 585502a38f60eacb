"""How much of a yarn one stitch takes, from its weighed swatches.

Takes     what was worked in each swatch, and its mass.
Gives     ``plain``: stitches as basic stitches; ``Rates``: grams for one of each.
Problems  none of its own.
From      ``standards``: the swatch weighed and divided by its stitches, and yarn by stitch as
          measured in unravelled swatches.

A swatch of one stitch gives that stitch by division. 12.6 g for 336 dc and 24 chains: a chain takes
4.8 of the 20.4 inches of yarn that a dc of the same width takes (measured, unravelled), that is
0.2353 of it, so the swatch is 336 + 24 × 0.2353 = 341.65 dc, and one dc takes 12.6 / 341.65 g.

sc, hdc and dc that no swatch shows alone follow from the swatch by what they take in one row of
equal width: 10.6, 15.7 and 20.4, or 1 : 1.48 : 1.92. Tests of yarn by stitch disagree by some
15 %, so such an amount has a margin of at least 20 %. Other stitches (clusters, taller ones, post
stitches) need a swatch of their own; in one of them chains are taken by the rate of another swatch
of this yarn, or else left to the stitches, as long as the piece has no more of them to a stitch.

Rules for the small things, all common practice: slip stitches are taken as chains; a decrease as
the stitches that it joins, which is a little too much; stitches in one loop and reverse single
crochet as the same stitch worked plainly; back post stitches as front post stitches; foundation
stitches as the stitch and a chain.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from fractions import Fraction
from functools import cache

from workeven import standards
from workeven.arithmetic.quantities import decimal
from workeven.notation.vocabulary import kind_of
from workeven.records import record

#: Stitches by basic stitch; chains and slip stitches as ``ch``.
Plain = Mapping[str, int]

CHAIN = "ch"
_AS_CHAIN = ("ch", "sl st")
_SAME_STITCH = {"rsc": "sc"}


@record
class Weighed:
    """A swatch: its mass in g and its stitches."""

    mass: Fraction
    stitches: Plain

    def kinds(self) -> tuple[str, ...]:
        """The stitches in it, chains apart."""
        return tuple(name for name in self.stitches if name != CHAIN)


@record
class Rates:
    """Grams for one stitch of each kind.

    ``shown``: by a swatch of that stitch alone. ``derived``: by published proportions. ``chain``:
    of one chain. ``chains_within``: for stitches whose swatch had its chains left to them, how many
    chains to a stitch it had.
    """

    shown: Mapping[str, Fraction]
    derived: Mapping[str, Fraction]
    chain: Fraction | None
    chains_within: Mapping[str, Fraction]

    def of(self, name: str) -> Fraction | None:
        """Grams for one stitch, or None where no swatch tells."""
        if name == CHAIN:
            return self.chain
        return self.shown.get(name) or self.derived.get(name)

    def unknown(self, stitches: Plain) -> tuple[str, ...]:
        """The stitches of a piece that no swatch tells."""
        names = [name for name, count in stitches.items() if count and name != CHAIN]
        missing = [name for name in names if self.of(name) is None]
        chains = stitches.get(CHAIN, 0)
        if chains and self.chain is None and not missing:
            room = sum(stitches[name] * self.chains_within.get(name, Fraction(0)) for name in names)
            missing = [CHAIN] if chains > room else []
        return tuple(missing)

    def mass(self, stitches: Plain) -> Fraction:
        """Grams for all stitches of a piece; those that are not known weigh nothing."""
        return sum(
            (count * (self.of(name) or Fraction(0)) for name, count in stitches.items()),
            Fraction(0),
        )


def plain(worked: Iterable[tuple[str, int]]) -> dict[str, int]:
    """What was worked, by basic stitch, chains and slip stitches together.

    >>> plain([("ch", 24), ("dc", 300), ("dc2tog", 4), ("sl st", 2)])
    {'ch': 26, 'dc': 308}
    """
    stitches: dict[str, int] = {}
    for name, count in worked:
        for basic, number in _as_basic(name):
            stitches[basic] = stitches.get(basic, 0) + count * number
    return stitches


def rates(swatches: Iterable[Weighed]) -> Rates:
    """What the swatches of one yarn tell.

    >>> told = rates([Weighed(mass=Fraction(106), stitches={"sc": 100})])
    >>> told.of("sc"), told.of("dc"), told.of("tr")
    (Fraction(53, 50), Fraction(51, 25), None)
    """
    weighed = [swatch for swatch in swatches if swatch.kinds()]
    scaled = _scaled([swatch for swatch in weighed if set(swatch.kinds()) <= _shares().keys()])
    base = scaled[0][1] if scaled else None
    shown: dict[str, Fraction] = {}
    for swatch, scale in scaled:
        if len(swatch.kinds()) == 1:
            shown.setdefault(swatch.kinds()[0], scale * _shares()[swatch.kinds()[0]])
    chain = None if base is None else base * _shares()[CHAIN]
    others = _others(weighed, chain or Fraction(0))
    return Rates(
        shown=shown | {name: grams for name, (grams, _) in others.items()},
        derived={} if base is None else {name: base * part for name, part in _shares().items()},
        chain=chain,
        chains_within={name: chains for name, (_, chains) in others.items()},
    )


def proportions() -> str:
    """The published proportions in words.

    >>> proportions()
    'sc, hdc and dc as 1 : 1.48 : 1.92'
    """
    shares = _shares()
    figures = (decimal(shares[name] / shares["sc"], 2) for name in ("sc", "hdc", "dc"))
    return f"sc, hdc and dc as {' : '.join(figures)}"


def citation() -> str:
    """Where the proportions were published, without the scheme of its address."""
    return _measured()["sc"].origin.citation.removeprefix("https://").split(" ")[0].rstrip("/")


def chain_share(name: str) -> Fraction | None:
    """A chain as a part of one stitch of that kind, None where that was not measured.

    >>> chain_share("dc")
    Fraction(4, 17)
    """
    shares = _shares()
    return shares[CHAIN] / shares[name] if name in shares else None


# --- in parts ------------------------------------------------------------------------------


def _as_basic(name: str) -> tuple[tuple[str, int], ...]:
    if name in _AS_CHAIN:
        return ((CHAIN, 1),)
    kind = kind_of(_SAME_STITCH.get(name, name))
    if kind.foundation:
        return ((kind.base, kind.legs), (CHAIN, kind.legs))
    if kind.post is not None:
        return ((f"fp{kind.base}", kind.legs),)
    if kind.name.startswith("e") and kind.name != kind.base:
        return ((f"e{kind.base}", kind.legs),)
    return ((kind.base, kind.legs),)


def _scaled(swatches: list[Weighed]) -> list[tuple[Weighed, Fraction]]:
    """Swatches of sc, hdc, dc with grams for one share; those of one stitch before mixed ones."""
    one_stitch_first = sorted(swatches, key=lambda swatch: len(swatch.kinds()))
    return [
        (swatch, swatch.mass / sum(n * _shares()[name] for name, n in swatch.stitches.items()))
        for swatch in one_stitch_first
    ]


def _others(swatches: list[Weighed], chain: Fraction) -> dict[str, tuple[Fraction, Fraction]]:
    """Grams, and chains to a stitch, of other stitches that have a swatch of their own.

    Chains are taken off by the rate of another swatch, or left to the stitch where there is none.
    """
    told: dict[str, tuple[Fraction, Fraction]] = {}
    for swatch in swatches:
        name, count = swatch.kinds()[0], swatch.stitches[swatch.kinds()[0]]
        chains = swatch.stitches.get(CHAIN, 0)
        rest = swatch.mass - chains * chain
        if len(swatch.kinds()) == 1 and name not in _shares() and rest > 0:
            told.setdefault(name, (rest / count, Fraction(chains, count)))
    return told


@cache
def _measured() -> dict[str, standards.YarnConsumption]:
    """Yarn of one row of each stitch, and of the foundation chain, in inches to the inch."""
    return {
        CHAIN if row.stitch == "foundation chain" else row.stitch: row
        for row in standards.yarn_consumption()
        if row.unit == "in per in"
    }


@cache
def _shares() -> dict[str, Fraction]:
    """Yarn of one stitch of each kind as measured, all of one width."""
    return {name: row.value for name, row in _measured().items()}
