"""Published tables of the trade, each value with its citation.

Takes     the CSV files beside it, through ``importlib.resources``.
Gives     typed records, read once: turning chains, abbreviations, terms, yarn weights, hooks, body
          charts, letter sizes, yarn consumption, and the known faults of these tables.
Problems  none.
From      the sources named in the column ``citation`` of each table.

The status of a value says how it was come by: ``found`` was read in the source named,
``second-hand`` in a transcription of it, ``memory`` was recalled and not looked up. Values are kept
as published, also where they are known to be wrong: ``faults`` names those.
"""

from __future__ import annotations

import csv
from dataclasses import dataclass
from fractions import Fraction
from functools import cache
from importlib.resources import files
from typing import Literal, cast

Status = Literal["found", "second-hand", "memory"]


@dataclass(frozen=True, slots=True, kw_only=True)
class Origin:
    """Where a value was published, how we know, and what is to be said about it."""

    citation: str
    status: Status
    note: str


@dataclass(frozen=True, slots=True, kw_only=True)
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


@dataclass(frozen=True, slots=True, kw_only=True)
class Abbreviation:
    """A US abbreviation in all its spellings, and its meaning."""

    spellings: tuple[str, ...]
    meaning: str
    origin: Origin


@dataclass(frozen=True, slots=True, kw_only=True)
class Term:
    """One stitch or word in US and in UK terms, abbreviated and in full."""

    us: str
    us_term: str
    uk: str
    uk_term: str
    origin: Origin


@dataclass(frozen=True, slots=True, kw_only=True)
class YarnWeight:
    """A category of yarn: its number and name, single crochet over 4 in, hooks in mm.

    A bound that is open ("5 and fewer") is None. ``edition`` tells editions of the table apart.
    """

    edition: str
    number: int
    name: str
    yarn_types: tuple[str, ...]
    sc: tuple[int | None, int | None]
    hook_mm: tuple[Fraction | None, Fraction | None]
    hook_us: str
    origin: Origin


@dataclass(frozen=True, slots=True, kw_only=True)
class Hook:
    """A hook's size in mm and what it is called in the US, in the old UK sizes and in Japan."""

    mm: Fraction
    us: str
    uk_old: str
    japan: str
    origin: Origin


@dataclass(frozen=True, slots=True, kw_only=True)
class BodyMeasurement:
    """A woman's measurement in one size, from ``low`` to ``high``, in its published unit."""

    size: str
    measurement: str
    unit: Literal["in", "cm"]
    low: Fraction
    high: Fraction
    origin: Origin


@dataclass(frozen=True, slots=True, kw_only=True)
class LetterSize:
    """The range of bust or chest girth that a letter stands for (EN 13402-3), in cm."""

    group: Literal["women", "men"]
    measurement: str
    code: str
    low_cm: Fraction
    high_cm: Fraction
    origin: Origin


@dataclass(frozen=True, slots=True, kw_only=True)
class YarnConsumption:
    """How much yarn a stitch took in a measured swatch."""

    stitch: str
    quantity: str
    value: Fraction
    unit: str
    origin: Origin


@dataclass(frozen=True, slots=True, kw_only=True)
class Fault:
    """A value of a table that is known to be wrong or doubtful, kept and named."""

    file: str
    where: str
    fault: str


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
            first_chain_from_hook=_integer(row["first_chain_from_hook"]),
            height=int(row["height"]),
            origin=_origin(row),
        )
        for row in _rows("turning_chains.csv")
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
            origin=_origin(row),
        )
        for row in _rows("abbreviations.csv")
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
            origin=_origin(row),
        )
        for row in _rows("terms.csv")
    )


@cache
def yarn_weights() -> tuple[YarnWeight, ...]:
    """The categories of yarn, all editions.

    >>> [(w.number, w.sc) for w in yarn_weights() if w.name == "Fine"]
    [(2, (16, 20))]
    """
    return tuple(
        YarnWeight(
            edition=row["edition"],
            number=int(row["number"]),
            name=row["name"],
            yarn_types=tuple(filter(None, row["yarn_types"].split("; "))),
            sc=(_integer(row["sc_low"]), _integer(row["sc_high"])),
            hook_mm=(_exact(row["hook_mm_low"]), _exact(row["hook_mm_high"])),
            hook_us=row["hook_us"],
            origin=_origin(row),
        )
        for row in _rows("yarn_weights.csv")
    )


def yarn_weight(name: str) -> YarnWeight | None:
    """The category of that name, or yarn type, in the edition that has all of them.

    >>> yarn_weight("super fine").number
    1
    """
    wanted = name.casefold()
    whole = [weight for weight in yarn_weights() if weight.edition == "A"]
    named = (weight for weight in whole if weight.name.casefold() == wanted)
    typed = (weight for weight in whole if wanted in map(str.casefold, weight.yarn_types))
    return next(named, None) or next(typed, None)


@cache
def hooks() -> tuple[Hook, ...]:
    """Hooks as published; a size may stand in several rows, from several sources."""
    return tuple(
        Hook(
            mm=Fraction(row["mm"]),
            us=row["us"],
            uk_old=row["uk_old"],
            japan=row["japan"],
            origin=_origin(row),
        )
        for row in _rows("hooks.csv")
    )


def us_hook(mm: Fraction) -> str | None:
    """The US name of a hook; None where it has none, or sources give that name to several sizes.

    >>> us_hook(Fraction("3.75")), us_hook(Fraction("2.25"))
    ('F/5', None)
    """
    found = [hook for hook in hooks() if hook.us and hook.origin.status == "found"]
    names = [hook.us for hook in found if hook.mm == mm]
    if not names or any(hook.us == names[0] and hook.mm != mm for hook in found):
        return None
    return names[0]


@cache
def body_women() -> tuple[BodyMeasurement, ...]:
    """The body chart for women, XS to 5X, in inches and in centimetres."""
    return tuple(
        BodyMeasurement(
            size=row["size"],
            measurement=row["measurement"],
            unit=cast('Literal["in", "cm"]', row["unit"]),
            low=Fraction(row["low"]),
            high=Fraction(row["high"]),
            origin=_origin(row),
        )
        for row in _rows("body_women.csv")
    )


@cache
def letter_sizes() -> tuple[LetterSize, ...]:
    """EN 13402-3: letters and the ranges of bust (women) or chest (men) they stand for.

    >>> [(s.low_cm, s.high_cm) for s in letter_sizes() if (s.group, s.code) == ("women", "M")]
    [(Fraction(90, 1), Fraction(98, 1))]
    """
    return tuple(
        LetterSize(
            group=cast('Literal["women", "men"]', row["group"]),
            measurement=row["measurement"],
            code=row["code"],
            low_cm=Fraction(row["low_cm"]),
            high_cm=Fraction(row["high_cm"]),
            origin=_origin(row),
        )
        for row in _rows("letter_sizes.csv")
    )


@cache
def yarn_consumption() -> tuple[YarnConsumption, ...]:
    """Yarn by stitch as measured in unravelled swatches.

    >>> next(c.value for c in yarn_consumption() if c.unit == "in per in" and c.stitch == "dc")
    Fraction(102, 5)
    """
    return tuple(
        YarnConsumption(
            stitch=row["stitch"],
            quantity=row["quantity"],
            value=Fraction(row["value"]),
            unit=row["unit"],
            origin=_origin(row),
        )
        for row in _rows("yarn_consumption.csv")
    )


@cache
def faults() -> tuple[Fault, ...]:
    """What is known to be wrong or doubtful in these tables."""
    return tuple(
        Fault(file=row["file"], where=row["where"], fault=row["fault"])
        for row in _rows("faults.csv")
    )


def _rows(name: str) -> list[dict[str, str]]:
    text = files(__package__).joinpath(name).read_text(encoding="utf-8")
    return list(csv.DictReader(text.splitlines(), strict=True))


def _origin(row: dict[str, str]) -> Origin:
    return Origin(
        citation=row["citation"],
        status=cast("Status", row["status"]),
        note=row.get("note", ""),
    )


def _integer(text: str) -> int | None:
    return int(text) if text else None


def _exact(text: str) -> Fraction | None:
    return Fraction(text) if text else None
