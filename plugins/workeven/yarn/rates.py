"""How much of a yarn one stitch takes, from its weighed swatches.

Takes     what was worked in each swatch, and its mass.
Gives     ``plain``: stitches as basic stitches; ``Rates``: grams for one of each.
Problems  none of its own.
From      ``standards``: the swatch weighed and divided by its stitches, and yarn by stitch as
          measured in unravelled swatches.

All swatches of a yarn are solved together: the grams of each stitch that come nearest to what all
of them weigh (``least_squares``). One swatch of one stitch gives that stitch by division. 12.6 g
for 336 dc and 24 chains: a chain takes 4.8 of the 20.4 inches of yarn that a dc of the same width
takes (measured, unravelled), that is 0.2353 of it, so the swatch is 336 + 24 × 0.2353 = 341.65 dc,
and one dc takes 12.6 / 341.65 g.

sc, hdc and dc that no swatch tells follow from the others by what they take in one row of equal
width: 10.6, 15.7 and 20.4, or 1 : 1.48 : 1.92. Tests of yarn by stitch disagree by some
15 %, so such an amount has a margin of at least 20 %. Other stitches (clusters, taller ones, post
and spike stitches) must be in a swatch, and so that they can be told from the others in it; chains
in one of them are taken by the rate of another swatch of this yarn, or else left to the stitches,
as long as the piece has no more of them to a stitch. Stitches that stand almost always together in
what was weighed (the sizes of one garment) are not told apart by it: an error in what they weigh
would be ten times as large in what one of them takes (``OWN``).

Rules for the small things, all common practice: slip stitches are taken as chains; a decrease as
the stitches that it joins, which is a little too much (one with all its legs in one place is a
cluster, and asks for a swatch); stitches in one loop and reverse single
crochet as the same stitch worked plainly; back post stitches as front post stitches; foundation
stitches as the stitch and a chain.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Mapping
from fractions import Fraction
from functools import cache

from workeven import standards
from workeven.arithmetic.least_squares import nearest_values
from workeven.arithmetic.quantities import decimal
from workeven.arithmetic.sums import worth
from workeven.notation.vocabulary import kind_of
from workeven.records import record
from workeven.yarn.clusters import IN_ONE_PLACE

#: Stitches by basic stitch; chains and slip stitches as ``ch``.
Plain = Mapping[str, int]

#: the part of a stitch's numbers that must be its own, for weighed masses to tell what it takes:
#: below it an error comes out ten times as large; a rule of our own
OWN = Fraction(1, 100)
CHAIN = "ch"
ONE_SWATCH = "the swatch"
_AS_CHAIN = ("ch", "sl st")
_SAME_STITCH = {"rsc": "sc"}
#: longer by the rows that it reaches down
_LONG = "spike"


@record
class Weighed:
    """Stitches and what they weigh in g: of a swatch, or of a finished sample."""

    mass: Fraction
    stitches: Plain

    def kinds(self) -> tuple[str, ...]:
        """The stitches in it, chains apart."""
        return tuple(name for name in self.stitches if name != CHAIN)


@record
class Rates:
    """Grams for one stitch of each kind.

    ``shown``: by swatches that tell this stitch from others. ``derived``: by published proportions.
    ``chain``: of one chain. ``chains_within``: for stitches whose swatch had its chains left to
    them, how many chains to a stitch it had. ``together``: stitches that the swatches show only
    with others. ``impossible``: those that would take nothing, or less. ``by``: what was weighed,
    in words.
    """

    shown: Mapping[str, Fraction]
    derived: Mapping[str, Fraction]
    chain: Fraction | None
    chains_within: Mapping[str, Fraction]
    together: tuple[str, ...] = ()
    impossible: tuple[str, ...] = ()
    by: str = ONE_SWATCH

    def of(self, name: str) -> Fraction | None:
        """Grams for one stitch, or None where no swatch tells."""
        if name == CHAIN:
            return self.chain
        grams = self.shown.get(name)
        return self.derived.get(name) if grams is None else grams

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
        told = ((count, self.of(name)) for name, count in stitches.items())
        return worth((count, grams) for count, grams in told if grams is not None)


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


def rates(swatches: Iterable[Weighed], by: str = ONE_SWATCH) -> Rates:
    """What the swatches of one yarn tell, all of them together.

    >>> told = rates([Weighed(mass=Fraction(106), stitches={"sc": 100})])
    >>> told.of("sc"), told.of("dc"), told.of("tr")
    (Fraction(53, 50), Fraction(51, 25), None)
    """
    weighed = [swatch for swatch in swatches if swatch.kinds()]
    kinds = tuple(dict.fromkeys(name for swatch in weighed for name in swatch.kinds()))
    basics = tuple(name for name in kinds if name in _shares())
    apart = _solved(weighed, kinds, lambda swatch, name: _each_by_itself(swatch, name, basics))
    scale = _mean([apart[name] / _shares()[name] for name in basics if name in apart])
    if scale is None and len(basics) > 1:  # shown only together: by proportion they are one unknown
        others = tuple(name for name in kinds if name not in basics)
        apart = _solved(weighed, (CHAIN, *others), _in_proportion)
        scale = apart.pop(CHAIN, None)
        scale = None if scale is None else scale / _shares()[CHAIN]
    impossible = tuple(name for name, grams in apart.items() if grams <= 0)
    chain = None if scale is None else scale * _shares()[CHAIN]
    derived = {} if scale is None else {name: scale * part for name, part in _shares().items()}
    return Rates(
        shown=apart,
        derived=derived,
        chain=chain,
        chains_within={} if basics else _chains_within(weighed),
        together=tuple(name for name in kinds if name not in apart and name not in derived),
        impossible=impossible or (basics[:1] if scale is not None and scale <= 0 else ()),
        by=by,
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
    if name == _LONG or name.endswith(IN_ONE_PLACE):
        return ((name, 1),)
    kind = kind_of(_SAME_STITCH.get(name, name))
    if kind.foundation:
        return ((kind.base, kind.legs), (CHAIN, kind.legs))
    if kind.post is not None:
        return ((f"fp{kind.base}", kind.legs),)
    if kind.name.startswith("e") and kind.name != kind.base:
        return ((f"e{kind.base}", kind.legs),)
    return ((kind.base, kind.legs),)


def _solved(
    weighed: list[Weighed],
    unknowns: tuple[str, ...],
    number: Callable[[Weighed, str], Fraction | int],
) -> dict[str, Fraction]:
    """Grams of each unknown that the swatches tell; ``number`` says how many one has of it."""
    lines = [[number(swatch, name) for name in unknowns] for swatch in weighed]
    found = nearest_values(lines, [swatch.mass for swatch in weighed], own=OWN)
    pairs = zip(unknowns, found, strict=True) if found else ()
    return {name: grams for name, grams in pairs if grams is not None}


def _each_by_itself(swatch: Weighed, name: str, basics: tuple[str, ...]) -> Fraction | int:
    """Stitches of one kind, with the swatch's chains as parts of its basic stitches.

    A swatch without any has them by those of the other swatches, or leaves them to its stitches.
    """
    own, shares = swatch.stitches.get(name, 0), _shares()
    parted = tuple(one for one in basics if one in swatch.stitches) or basics
    if name not in parted:
        return own
    chains = swatch.stitches.get(CHAIN, 0) * shares[CHAIN]
    return own + chains / (len(parted) * shares[name])


def _in_proportion(swatch: Weighed, name: str) -> Fraction | int:
    """As how many chains sc, hdc and dc count by the published proportions; others as they are."""
    if name != CHAIN:
        return swatch.stitches.get(name, 0)
    shares = _shares()
    return sum(swatch.stitches.get(one, 0) * part for one, part in shares.items()) / shares[CHAIN]


def _mean(values: list[Fraction]) -> Fraction | None:
    return sum(values, Fraction(0)) / len(values) if values else None


def _chains_within(weighed: list[Weighed]) -> dict[str, Fraction]:
    """How many chains to a stitch the swatches of one stitch have."""
    found: dict[str, Fraction] = {}
    for swatch in weighed:
        if len(swatch.kinds()) == 1:
            name = swatch.kinds()[0]
            chains = Fraction(swatch.stitches.get(CHAIN, 0), swatch.stitches[name])
            found[name] = max(chains, found.get(name, chains))
    return found


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
