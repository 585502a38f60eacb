"""Stated counts: what a row says that it makes, held against what it makes.

Takes     a stated count, and what is made by kind.
Gives     ``figures_of``, ``asks_of_own``, ``unchecked_units``, ``compare``, ``counted``,
          ``as_stated``.
Problems  ``count-stated``, ``count-unit``.
From      notation.md, "Stated counts".
"""

from __future__ import annotations

import re
from collections.abc import Iterable, Mapping
from itertools import product

from workeven.notation.tokens import NUMBER_WORDS
from workeven.notation.tree import Amount, Picot, Stated
from workeven.notation.vocabulary import CLOSED_WORDS, kind_of
from workeven.proof.context import Fault, SizeContext
from workeven.proof.fabric import BEYOND, CHAIN, LOST, Fabric, Run, inside_key, stitch
from workeven.proof.naming import are
from workeven.proof.proven import Counted
from workeven.proof.sides import LEAF, has_leaf
from workeven.records import replace

#: units that are counted by what the names of groups and stitches hold ("shell", "picot")
_PART_OF_NAME = ("shell", "petal", "picot", "block", "leaf", "square")
#: units that take an s
_WITH_S = ("sp", "shell", "group", "block", "square", "picot", "leaf", "petal", "lp")


#: a unit that counts the repeats of a row ("32 patterns")
_PATTERNS = re.compile(
    r"\?(?:patterns?|patts?|(?:pattern |patt )?(?:repeats?|reps?|multiples?))", re.IGNORECASE
)
#: a unit for what is worked along chains of its own and stands off the round
_STANDING_OFF = re.compile(
    r"\?(?:fringe|spoke|ray|point|frond|arm|finger|strip|branch|feather|tentacle|curl)(?:e?s)?",
    re.IGNORECASE,
)
#: a unit that tells of how many stitches each is ("14 groups of 3 dc")
_OF_SO_MANY = re.compile(
    r"\?(?P<name>group|petal|shell|fan|leaf|leave|scallop)s? of (?P<number>\w+) (?P<unit>\w+).*",
    re.IGNORECASE,
)
#: the name under which the number of repeats stands among the groups
REPEATS = "*"
#: how the names begin under which the stitches inside special stitches stand among the groups
INSIDE = "<"
#: the name under which the sum of the parts stands, where it is not the whole that is stated
PARTS = "&"
#: the name under which the chains stand that are counted with the stitches by what is stated
CHAINS = "+"


def states_patterns(stated: Stated | None) -> bool:
    """Whether the repeats of a row are counted ("32 patterns")."""
    return stated is not None and any(
        unit.startswith("?") and _PATTERNS.fullmatch(unit) for _, unit in stated.counts
    )


def asks_of_own(stated: Stated, context: SizeContext) -> bool:
    """Whether a count is stated in a unit that may mean nothing to the engine."""
    return any(
        unit[0] == "?" or unit in ("block", "square") or in_several_places(unit, context)
        for _, unit in stated.counts
    )


#: a count of one part of the row: "6 sc in each section"
_OF_A_PART = re.compile(
    r"\?(?P<unit>.+?) (?:(?:on|in|at|along|for|of|around) )?"
    r"(?:each|every|either|per|between)\b.*",
    re.IGNORECASE,
)


def _whole_of(unit: str, makes: Mapping[str, int], groups: Mapping[str, int]) -> int | None:
    """What the whole row makes of a unit of which one part's count is stated; else None."""
    found = _OF_A_PART.fullmatch(unit)
    return None if found is None else counted(found["unit"], makes, groups)


def unchecked_units(
    stated: Stated, makes: Counted, groups: Counted, context: SizeContext
) -> list[str]:
    """The units of the designer's own that could not be held against anything.

    So are stitches over several places, where the row writes them out and never names them. A
    part's count is held against the whole: so many such parts make the row.
    """
    known = {name for name, _ in groups}
    named = known | {name for name, _ in makes}
    squares = [
        unit
        for _, unit in stated.counts
        if _undefined_square(unit, known)
        or (unit not in named and in_several_places(unit, context))
    ]
    return list(dict.fromkeys(f"{unit}s" for unit in squares)) + [
        unit[1:]
        for amount, unit in stated.counts
        if unit.startswith("?")
        and not _parts_make(amount, _whole_of(unit, dict(makes), dict(groups)))
        and not (REPEATS in known and _PATTERNS.fullmatch(unit))
        and not (LEAF in known and _STANDING_OFF.fullmatch(unit))
        and not _of_so_many(unit, dict(makes), dict(groups))
    ]


def _parts_make(amount: Amount, whole: int | None) -> bool:
    """Whether parts of so many come to the whole, or (which is told) can be no part of it."""
    part = amount.values[0] if amount.values else None
    if not whole or not part:
        return False
    return whole % part == 0 or part > whole


def _undefined_square(unit: str, names: Iterable[str]) -> bool:
    """Whether blocks are counted and the piece does not say what a block is."""
    return unit in ("block", "square") and not any(unit in name for name in names)


def figures_of(stated: Stated | None, context: SizeContext) -> Counted | None:
    """The figures of a stated count in one size, by unit; None where it states none.

    A unit that is stated twice tells the order along the row ("2 spaces, 6 blocks, 2 spaces"): what
    is stated of it in all is the sum.
    """
    if stated is None:
        return None
    if stated.parts and (sums := _other_sum(stated, context)) is not None:
        return ((PARTS, sums), *(figures_of(replace(stated, parts=()), context) or ()))
    if len(stated.counts) == 1:  # as most rows state it
        amount, unit = stated.counts[0]
        number = context.amount(amount)
        return None if number is None else ((_own(unit, context), number),)
    found: dict[str, int] = {}
    for amount, unit in stated.counts:
        number = context.amount(amount)
        if number is not None:
            own = _own(unit, context)
            found[own] = found.get(own, 0) + number
    return tuple(found.items()) or None


def _own(unit: str, context: SizeContext) -> str:
    """The unit, as one of the designer's own where it is a stitch over several places.

    A row may write such squares and crosses out: where it names none, they cannot be counted.
    """
    return f"?{unit}" if context.special and in_several_places(unit, context) else unit


def in_several_places(unit: str, context: SizeContext) -> bool:
    """Whether a unit is a stitch that the pattern declares and that is worked over several.

    Spaces are counted whether a row names them or writes them out.
    """
    special = None if unit == "sp" else context.special.get(unit)
    return special is not None and bool(special.steps) and not isinstance(special.steps[0], Picot)


def _other_sum(stated: Stated, context: SizeContext) -> int | None:
    """What the parts of a count come to ("60 sts: 20 for each front, 20 for back"); None: to it."""
    whole = context.amount(stated.counts[0][0])
    numbers = [context.amount(amount) or 0 for amount, _ in stated.parts]
    sums = [
        sum(number * often for number, often in zip(numbers, way, strict=True))
        for way in product(*(ways for _, ways in stated.parts))
    ]
    return None if whole is None or whole in sums else sums[-1]


def compare(
    stated: Stated | None,
    figures: Counted | None,
    makes: Mapping[str, int],
    groups: Mapping[str, int],
    sts: int | None = None,
) -> Fault | None:
    """The first stated figure that is not what the row makes.

    ``sts`` are the stitches that it leaves: the chains of a starting chain, but no picots.
    """
    if stated is None or figures is None:
        return None
    for unit, number in figures:
        if len(makes) == 1 and makes.get(unit) == number:
            continue  # the one kind that it makes
        if unit == PARTS:
            return _parts_differ(stated, number, figures[1:])
        if unit.startswith("?"):
            if (fault := _own_differs(stated, unit, number, makes, groups)) is not None:
                return fault
            continue
        made = counted(unit, makes, groups)
        if unit == "sts" and sts is not None:
            made = sts
        if made != number and number in _other_ways(unit, made, figures, makes, groups):
            continue
        if made is None and _undefined_square(unit, (*groups, *makes)):
            continue
        if made is None:
            return Fault(
                "count-unit",
                stated.start,
                stated.end,
                f"“{unit}” cannot be counted in this row",
                mend="State stitches, spaces, or a stitch of the row by its own name.",
            )
        if made != number:
            return _differs(stated, f"{number} {_plural(unit, number)} {are(number)}", number, made)
    return None


def _of_ones_own(unit: str, makes: Mapping[str, int], groups: Mapping[str, int]) -> list[int]:
    """What a unit of the designer's own may count; nothing: it is told as not checked."""
    if unit[1:] in groups or unit[1:] in makes:
        return [counted(unit[1:], makes, groups) or 0]
    if _PATTERNS.fullmatch(unit) and REPEATS in groups:
        together = _groups("group", groups)
        return [groups[REPEATS], *([] if together is None else [together])]
    if _STANDING_OFF.fullmatch(unit) and LEAF in groups:
        return [groups[LEAF]]
    return []


def _of_so_many(unit: str, makes: Mapping[str, int], groups: Mapping[str, int]) -> list[int]:
    """How many groups of so many stitches a row makes; nothing where that is not known.

    Of groups of another kind of stitch, or of another number, there are none.
    """
    found = _OF_SO_MANY.fullmatch(unit)
    if found is None:
        return []
    number = NUMBER_WORDS.get(found["number"].lower(), 0) or int(found["number"])
    plain = {int(name[1:]): many for name, many in groups.items() if name[0] == PLAIN_GROUP}
    if number not in plain:
        return [0] if plain and found["name"].lower() == "group" else []
    kind = "sts" if found["unit"].lower().startswith("st") else found["unit"].lower()
    made = counted(kind, makes, groups) if kind in ("sts", *makes) else None
    if made is not None and made < plain[number] * number:
        return [made // number]
    if made == (plain[number] + 1) * number:  # the chain and the stitches behind it are one too
        return [plain[number], plain[number] + 1]
    return [plain[number]]


def _other_ways(
    unit: str,
    made: int | None,
    figures: Counted,
    makes: Mapping[str, int],
    groups: Mapping[str, int],
) -> tuple[int | None, ...]:
    """What else a number may count: "14 V-sts, 3 dc" tells those dc that are outside of the V-sts.

    Two stitches at each end are no groups beside those of three.
    """
    beside = _beside(unit, made, figures, makes, groups)
    if unit == "sp" and made is not None:  # a loop with a picot on it is two runs of chains
        return (beside, made - groups.get(BEYOND, 0))
    if unit.lower() == "corner":  # a corner may be a space alone, in a round before the first group
        return (beside, *(number for name, number in makes.items() if name.endswith(" sp")))
    return (beside, _widest(groups)) if unit == "group" else (beside,)


def _beside(
    unit: str,
    made: int | None,
    figures: Counted,
    makes: Mapping[str, int],
    groups: Mapping[str, int],
) -> int | None:
    """Stitches of a kind beside the special stitches, decreases and post stitches also stated."""
    named = [other.removeprefix("?") for other, _ in figures if other != unit]
    apart = sum(groups.get(inside_key(other, unit), 0) for other in named)
    apart += sum(makes.get(other, 0) for other in named if kind_of(other).base == unit)
    return made - apart if made is not None and apart else None


def _own_differs(
    stated: Stated, unit: str, number: int, makes: Mapping[str, int], groups: Mapping[str, int]
) -> Fault | None:
    """A figure in a unit of the designer's own that is not what such a unit may count."""
    own = _of_ones_own(unit, makes, groups) or _of_so_many(unit, makes, groups)
    whole = _whole_of(unit, makes, groups)
    if whole is not None and number > whole:
        own = [whole]
    if own and number not in own:
        return _differs(stated, f"{number} {_plural(unit[1:], number)} are", number, own[0])
    return None


def _parts_differ(stated: Stated, sums: int, whole: Counted) -> Fault:
    number = whole[0][1] if whole else 0
    return Fault(
        "count-stated",
        stated.start,
        stated.end,
        f"the parts come to {sums} and {number} are stated in all",
        mend="Correct the number of a part, or of the whole.",
        stated=number,
        made=sums,
    )


def _differs(stated: Stated, said: str, number: int, made: int) -> Fault:
    return Fault(
        "count-stated",
        stated.start,
        stated.end,
        f"{said} stated and the row makes {made}",
        stated=number,
        made=made,
    )


def _plural(name: str, number: int) -> str:
    if name == "sts":
        return "st" if number == 1 else "sts"
    return name if number == 1 or not name.lower().endswith(_WITH_S) else f"{name}s"


def chains_in(makes: Mapping[str, int]) -> int:
    """How many chains the spaces of a row hold.

    >>> chains_in({"sc": 20, "ch-4 sp": 2})
    8
    """
    spaces = [(name, number) for name, number in makes.items() if name.endswith(" sp")]
    return sum(int(name[3:-3]) * number for name, number in spaces if name[3:-3].isdigit())


def counted(unit: str, makes: Mapping[str, int], groups: Mapping[str, int]) -> int | None:
    """What a row makes of a unit: stitches in all, one kind, spaces, groups; None if unknown."""
    if unit == "sts":
        sts = sum(number for name, number in makes.items() if not name.endswith(" sp"))
        return sts + groups.get(CHAINS, 0)
    if unit == "sp":
        return sum(number for name, number in makes.items() if name.endswith(" sp"))
    if unit in makes and kind_of(unit).base != unit:
        return makes[unit]
    if unit in groups:
        begun = f"beg {unit}".lower()  # "Shell" and "Beg shell" are declared so
        return groups[unit] + sum(many for name, many in groups.items() if name.lower() == begun)
    if unit == "cl" and unit not in makes:  # a cluster may be told as dc3tog
        closed = (number for name, number in makes.items() if name.lower().endswith(_CLUSTERS))
        return sum(closed) or None
    if unit in ("shell", "group", "fan", "petal", "leaf") and unit not in makes:
        return _groups(unit, groups)
    if unit.endswith(" picot") and unit not in groups:
        return counted("picot", makes, groups)
    if unit in _PART_OF_NAME:
        found = [number for name, number in groups.items() if unit in name and name[0] != INSIDE]
        found += [number for name, number in makes.items() if unit in name]
        return sum(found) if found else (_picots_of_three(makes) if unit == "picot" else None)
    if unit.endswith(" sp"):
        return makes.get(unit, 0)
    if unit == "ch":  # those of spaces too
        return makes.get(unit, 0) + chains_in(makes)
    return sum(number for name, number in makes.items() if unit in _names(name))


def _picots_of_three(makes: Mapping[str, int]) -> int | None:
    """``(sc, ch 3, sc) in each sp``: such a loop of three is a picot too (common practice)."""
    spaces = [name for name in makes if name.endswith(" sp")]
    return makes["ch-3 sp"] if spaces == ["ch-3 sp"] else None


def _names(name: str) -> tuple[str, ...]:
    """What one kind of stitch is called in a count: "MB" is a bobble, whoever declares it."""
    return (name, kind_of(name).base, CLOSED_WORDS.get(name.lower(), name))


#: how a cluster may be called: "dc3tog", "tr cl"
_CLUSTERS = ("tog", " cl", " cluster")
#: how groups that are no special stitch are counted beside the others: "=5" for five together
PLAIN_GROUP = "="
#: a shell or fan is at least so many stitches in one place (common practice)
_SHELL = 3


def _widest(groups: Mapping[str, int]) -> int | None:
    """How many groups have as many stitches as the largest of a row, none of which has a name."""
    plain = {int(name[1:]): number for name, number in groups.items() if name[0] == PLAIN_GROUP}
    named = any("group" in name for name in groups if name[0] != INSIDE)
    return None if named or not plain else plain[max(plain)]


def _groups(unit: str, groups: Mapping[str, int]) -> int | None:
    """Shells and groups: those that bear the name, else what was worked together into one place."""
    named = [number for name, number in groups.items() if unit in name and name[0] != INSIDE]
    if named:
        return sum(named)
    plain = {int(name[1:]): number for name, number in groups.items() if name[0] == PLAIN_GROUP}
    if unit == "group":
        return sum(plain.values()) or None
    widest = max(plain, default=0)  # a half shell is no shell
    return plain[widest] if widest >= _SHELL else None


def as_stated(figures: Counted, fabric: Fabric, makes: Counted) -> tuple[Fabric, Counted] | None:
    """The fabric that a stated count would be, None where it says nothing of the stitches."""
    stitches = [(unit, number) for unit, number in figures if not unit.endswith("sp")]
    if len(figures) != 1 or not stitches or has_leaf(fabric.nodes):
        return None
    unit, number = stitches[0]
    kinds = [name for name, _ in makes if not name.endswith(" sp")]
    if unit != "sts" and unit not in kinds:
        return None
    if fabric.sts == number or len(kinds) != len(makes) or not kinds:
        return None
    most = dict(makes)
    name = max(kinds, key=lambda kind: most[kind])
    base = kind_of(name).base
    place = CHAIN if fabric.foundation else stitch(base if len(kinds) > 1 else name, base)
    marks = (LOST,) if fabric.marks else ()
    return fabric._replace(nodes=(Run(place, number),), marks=marks), ((place.name, number),)
