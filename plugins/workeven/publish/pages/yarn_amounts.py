"""How much yarn to buy: for each yarn its balls, metres, yards and grams in every size.

Takes     ``ReadyPattern``.
Gives     ``AmountsView``: ``amounts``, ``amounts_note``.
Problems  none.
From      design.md, "Numbers a maker can trust": amounts of yarn are estimates and say so; metres
          and yards whole and up, whole balls up.

A maker stands in a shop with a phone: first what she asks for (balls), then what she needs where
the shop has another put-up (metres, yards), then what a longer piece takes. A yarn in several
colours has a column for each. The designer's own list stands first, where there is one.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from fractions import Fraction

from workeven.arithmetic import printing
from workeven.arithmetic.per_size import PerSize
from workeven.notation.vocabulary import in_terms, speak
from workeven.pattern import PrintedAmount, PutUp, Yarn
from workeven.pipeline import ReadyPattern
from workeven.publish.pages import figures
from workeven.publish.pages.both_terms import gauge
from workeven.publish.pages.choices import by_size, in_units
from workeven.publish.pages.sizes import NO_BREAK, called, in_both_units, unbroken
from workeven.publish.pages.views import Table
from workeven.records import record
from workeven.yarn import ColourNeed, NoAmount, YarnNeed
from workeven.yarn.buying import Example, example, in_put_up, spare
from workeven.yarn.longer import Lengths, Longer, MoreColour, lengthened

Cell = tuple[str, ...]

_LISTED = "Designer’s list (computed)"


@record
class AmountsView:
    """How much of one yarn to buy: the table, what is to be known of it, other yarns and lengths.

    ``others``: balls of other put-ups that the pattern names; ``substitutes``: the rules for any.
    """

    table: Table
    rest: tuple[str, ...]
    others: Table | None
    substitutes: tuple[str, ...]
    longer: Table | None
    longer_notes: tuple[str, ...]


def amounts(ready: ReadyPattern, more: Lengths | None = None) -> tuple[AmountsView, ...]:
    """Every yarn of which something can be said, in the order of the pattern.

    ``more``: the lengths to which yarn may be added; worked out here where they are not given.
    """
    more = lengthened(ready.proven, ready.yarn.needs) if more is None else more
    needs = {need.yarn.name: need for need in ready.yarn.needs}
    without = {one.yarn.name: one for one in ready.yarn.without}
    found: list[AmountsView] = []
    for yarn in ready.pattern.yarns:
        printed = tuple(one for one in ready.pattern.amounts if one.yarn == yarn.name)
        if yarn.name in needs:
            found.append(_of_need(ready, needs[yarn.name], printed, more[yarn.name]))
        elif printed and yarn.name in without:
            found.append(_printed_alone(ready, without[yarn.name], printed))
    return tuple(found)


def amounts_note(ready: ReadyPattern) -> str:
    """Which yarns have no amount, and why; those with an amount by piece say so beside it."""
    without = (one for one in ready.yarn.without if not one.pieces)
    terms = ready.pattern.terms
    return " ".join(f"{called(one.yarn)}: {speak(one.reason, terms)}." for one in without)


def _of_need(
    ready: ReadyPattern,
    need: YarnNeed,
    printed: tuple[PrintedAmount, ...],
    more: tuple[Longer, ...],
) -> AmountsView:
    return AmountsView(
        table=_by_colour(ready, need, printed) if need.colours else _whole(ready, need, printed),
        rest=tuple(_rest(ready, need, printed)),
        others=_others(ready, need),
        substitutes=tuple(_substitutes(ready, need)),
        longer=_longer(ready, need, more),
        longer_notes=tuple(_longer_notes(more)),
    )


# --- the table to shop from ----------------------------------------------------------------


def _whole(ready: ReadyPattern, need: YarnNeed, printed: tuple[PrintedAmount, ...]) -> Table:
    """Balls, length and mass, beside the designer's list."""
    heads = ("Size", _LISTED if printed else "Balls", "Length", "Mass")
    rows = tuple(
        (
            name,
            (
                _beside(printed, need.balls[at], at) if printed else (str(need.balls[at]),),
                _length(need.length[at]),
                _mass(need.mass[at]),
            ),
        )
        for at, name in enumerate(need.mass.sizes.names)
    )
    return Table(caption=_to_buy(ready, need.yarn), heads=heads, rows=rows)


def _by_colour(ready: ReadyPattern, need: YarnNeed, printed: tuple[PrintedAmount, ...]) -> Table:
    """A column for each colour and for all; where there is one size, a line for each."""
    columns: list[tuple[str, ColourNeed | YarnNeed, tuple[PrintedAmount, ...]]] = [
        *(
            (need.yarn.shade(one.colour), one, tuple(p for p in printed if p.colour == one.colour))
            for one in need.colours
        ),
        ("All colours", need, tuple(one for one in printed if one.colour is None)),
    ]
    names = need.mass.sizes.names
    heads: tuple[str, ...]
    if len(names) == 1:
        heads = ("Colour", _LISTED if printed else "Balls", "Length", "Mass")
        rows = tuple((shade, _in_one_size(one, own)) for shade, one, own in columns)
    else:
        heads = ("Size", *(shade for shade, _, _ in columns))
        rows = tuple(
            (name, tuple(_in_one_cell(one, own, at) for _, one, own in columns))
            for at, name in enumerate(names)
        )
    return Table(caption=_to_buy(ready, need.yarn), heads=heads, rows=rows)


def _in_one_size(
    need: ColourNeed | YarnNeed, printed: tuple[PrintedAmount, ...]
) -> tuple[Cell, ...]:
    balls = _beside(printed, need.balls[0], 0) if printed else (str(need.balls[0]),)
    return balls, _length(need.length[0]), _mass(need.mass[0])


def _in_one_cell(need: ColourNeed | YarnNeed, printed: tuple[PrintedAmount, ...], at: int) -> Cell:
    balls = _beside(printed, need.balls[at], at) if printed else (_balls(need.balls[at]),)
    return (*balls, *_length(need.length[at]), *unbroken(printing.print_grams(need.mass[at])))


def _printed_alone(
    ready: ReadyPattern, nothing: NoAmount, printed: tuple[PrintedAmount, ...]
) -> AmountsView:
    """The designer's list where nothing can be computed."""
    yarn = nothing.yarn
    names = printed[0].values.sizes.names
    columns = [one.colour and yarn.shade(one.colour) for one in printed]
    heads = ("Size", *(shade or "Designer’s list" for shade in columns))
    rows = tuple(
        (name, tuple(_in_words(one, at) for one in printed)) for at, name in enumerate(names)
    )
    rest = "The designer’s list. Nothing is computed beside it."
    return AmountsView(
        table=Table(caption=_to_buy(ready, yarn), heads=heads, rows=rows),
        rest=(rest,),
        others=None,
        substitutes=(),
        longer=None,
        longer_notes=(),
    )


def _caption(ready: ReadyPattern, yarn: Yarn, words: str) -> str:
    """What a table holds; of which yarn, where there are several."""
    return f"{called(yarn)}: {words}" if len(ready.pattern.yarns) > 1 else figures.heading(words)


def _to_buy(ready: ReadyPattern, yarn: Yarn) -> str:
    return _caption(ready, yarn, f"yarn to buy, in balls of {_put_up(yarn.put_up)}")


def _put_up(put_up: PutUp) -> str:
    """``125 m / 137 yd, 50 g``; the whole metres and yards that a band would print."""
    metres, yards = printing.print_metres(put_up.length), printing.print_yards(put_up.length)
    length = in_units(metres.replace(" ", NO_BREAK), yards.replace(" ", NO_BREAK), "cm")
    return f"{length}, {printing.print_number(put_up.mass)}{NO_BREAK}g"


def _beside(printed: tuple[PrintedAmount, ...], number: int, at: int) -> Cell:
    """The designer's figure, and in brackets how many balls are computed."""
    return (*_said(printed, at), f"({_balls(number)})")


def _said(printed: Sequence[PrintedAmount], at: int) -> Iterator[str]:
    """What the designer says for a size; by colour where it is said so."""
    several = len(printed) > 1
    for one in printed:
        first, *others = _in_words(one, at)
        yield f"{first} {one.colour}" if several and one.colour else first
        yield from others


def _in_words(printed: PrintedAmount, at: int) -> Cell:
    value = printed.values[at]
    if not value:
        return (figures.NOT_WORKED,)
    if printed.unit == "balls":
        return (_balls(int(value)),)
    return _length(value) if printed.unit == "length" else _mass(value)


def _balls(number: int) -> str:
    return figures.counted((number,), "ball").replace(" ", NO_BREAK)


def _length(mm: Fraction) -> Cell:
    return in_both_units(printing.print_metres(mm), printing.print_yards(mm))


def _mass(grams: Fraction) -> Cell:
    return in_both_units(printing.print_grams(grams), printing.print_ounces(grams))


# --- in words ------------------------------------------------------------------------------


def _rest(ready: ReadyPattern, need: YarnNeed, printed: tuple[PrintedAmount, ...]) -> Iterator[str]:
    """That it is an estimate, what is spare of it, what is in it."""
    names = _where(ready, need)
    yield (
        f"An estimate, with {figures.percent(need.margin)} to spare ({names}"
        f"{_metres(ready, need, lambda at: spare(need)[at])} of the "
        f"{_metres(ready, need, lambda at: need.length[at])}) for hands that work more loosely "
        "than ours."
    )
    if printed:
        yield "What is computed stands in brackets beside the designer’s list."
    if need.yarn.held > 1:
        yield f"All {need.yarn.held} strands are in it."
    if need.colours:
        yield "Balls are counted for each colour, whole and up."


def _in_her_size(ready: ReadyPattern, need: YarnNeed, words: Callable[[Example], str]) -> str:
    """Words of an example in a size in the middle; who has chosen her size has it in that."""
    each = [words(example(ready.pattern, need, at)) for at in range(len(ready.pattern.sizes))]
    return by_size(words(example(ready.pattern, need)), each)


def _where(ready: ReadyPattern, need: YarnNeed) -> str:
    """``in L ``; nothing where there is one size."""
    return _in_her_size(ready, need, lambda one: _in(ready, one.size))


def _metres(ready: ReadyPattern, need: YarnNeed, length: Callable[[int], Fraction]) -> str:
    """A length of yarn in the example, in both units."""
    each = [
        (printing.print_metres(mm), printing.print_yards(mm))
        for mm in map(length, range(len(ready.pattern.sizes)))
    ]
    return in_units(*each[example(ready.pattern, need).size], "cm", each)


def _in(ready: ReadyPattern, at: int) -> str:
    """``in L ``; nothing where there is one size."""
    names = ready.pattern.sizes.names
    return f"in {names[at]} " if len(names) > 1 else ""


def _others(ready: ReadyPattern, need: YarnNeed) -> Table | None:
    """Balls of the other put-ups that the pattern names."""
    also = need.yarn.also
    if not also:
        return None
    columns = [in_put_up(need, one.put_up) for one in also]
    rows = tuple(
        (name, tuple(tuple(_of_colours(column, at)) for column in columns))
        for at, name in enumerate(need.mass.sizes.names)
    )
    heads = ("Size", *(f"{one.label}, {_put_up(one.put_up)}" for one in also))
    return Table(
        caption=_caption(ready, need.yarn, "balls of other put-ups"), heads=heads, rows=rows
    )


def _of_colours(column: tuple[tuple[str | None, PerSize[int]], ...], at: int) -> Iterator[str]:
    for colour, number in column:
        yield str(number[at]) if colour is None else f"{number[at]}{NO_BREAK}{colour}"


def _substitutes(ready: ReadyPattern, need: YarnNeed) -> Iterator[str]:
    """How to find what another put-up or another yarn takes, with this yarn's own numbers."""
    yield (
        "Another put-up, as thick: the length stays. Divide it by the length of one ball, and buy "
        "the next whole number of balls: "
        + _other_put_up(ready, need)
        + (" Count each colour by itself." if need.colours else "")
    )
    worked = example(ready.pattern, need)
    if worked.ours is not None:
        times = printing.decimal(worked.times, 3)
        if worked.stitch:
            stitch = in_terms(worked.stitch, ready.pattern.terms)
            weigh = (
                f"work a swatch in {stitch} with your yarn and hook, weigh it and count its "
                f"stitches. 100 {stitch} of ours weigh "
                f"{printing.decimal(worked.ours, 2)} g. If 100 of yours weigh "
                f"{printing.decimal(worked.theirs, 2)} g"
            )
        else:
            weigh = (
                "work our swatch with your yarn and hook, and weigh it. Ours weighs "
                f"{printing.decimal(worked.ours, 1)} g. If yours weighs "
                f"{printing.decimal(worked.theirs, 1)} g"
            )
        yield (
            f"Another yarn, or your own {gauge(ready.pattern.terms)} with as many stitches: "
            f"{weigh}, every amount in grams is {times} times ours: "
            f"{_where(ready, need)}{_in_her_size(ready, need, _other_yarn)}. "
            "Your band says how many balls and metres that is."
        )


def _other_put_up(ready: ReadyPattern, need: YarnNeed) -> str:
    lengths = (need.colours[0] if need.colours else need).length
    of = f" of {need.yarn.shade(need.colours[0].colour)}" if need.colours else ""
    balls = _in_her_size(ready, need, lambda one: figures.counted((one.balls,), "ball"))
    ball = example(ready.pattern, need).ball
    put_up = in_units(printing.print_metres(ball), printing.print_yards(ball), "cm")
    return (
        f"{_where(ready, need)}{_metres(ready, need, lambda at: lengths[at])}{of} are {balls} of "
        f"{put_up}."
    )


def _other_yarn(worked: Example) -> str:
    return f"{printing.print_grams(worked.then)} for {printing.print_grams(worked.mass)}"


# --- longer pieces -------------------------------------------------------------------------


def _longer(ready: ReadyPattern, need: YarnNeed, lengths: tuple[Longer, ...]) -> Table | None:
    if not lengths:
        return None
    rows = tuple(
        (name, tuple(_more(one, at) for one in lengths))
        for at, name in enumerate(need.mass.sizes.names)
    )
    return Table(
        caption=_caption(
            ready,
            need.yarn,
            f"more yarn for each {in_units('5 cm', '2 in', 'cm')} that you add",
        ),
        heads=("Size", *map(_longer_head, lengths)),
        rows=rows,
    )


def _longer_head(one: Longer) -> str:
    where = figures.listed(one.pieces)
    return f"{where}: {figures.heading(one.name or one.section).lower()}"


def _more(one: Longer, at: int) -> Cell:
    if not one.five_cm[at]:
        return (figures.NOT_WORKED,)
    if not any(colour.five_cm[at] for colour in one.colours):
        return in_both_units(*_more_of(one, at))
    return tuple(
        f"{in_units(*_more_of(colour, at), 'cm')}{NO_BREAK}{colour.colour}"
        for colour in one.colours
        if colour.five_cm[at]
    )


def _more_of(one: Longer | MoreColour, at: int) -> tuple[str, str]:
    """Metres for 5 cm, yards for 2 in."""
    metres, yards = printing.print_metres(one.five_cm[at]), printing.print_yards(one.two_in[at])
    return metres.replace(" ", NO_BREAK), yards.replace(" ", NO_BREAK)


def _longer_notes(lengths: tuple[Longer, ...]) -> Iterator[str]:
    if not lengths:
        return
    measured = [one for one in lengths if one.until]
    yield "Work more of the rows that make this length; the margin is in it." + (
        " A later length, measured from the beginning of the piece, grows as much."
        if measured
        else ""
    )
    if shaped := tuple(dict.fromkeys(p for one in lengths if one.shaped for p in one.pieces)):
        yield (
            f"Where {figures.listed(shaped)} {'are' if len(shaped) > 1 else 'is'} shaped, spread "
            "the shaping over the more rows: told is what a row takes in the mean."
        )
    pieces = [piece for one in measured for piece in one.pieces]
    if twice := tuple(dict.fromkeys(one for one in pieces if pieces.count(one) > 1)):
        yield f"{figures.listed(twice)} may be made longer in either place: choose one of them."
    if any(one.turned for one in lengths):
        yield "Add turned rows two by two, so that right and wrong side stay."
    if several := {one.rows for one in lengths if one.rows > 1}:
        numbers = figures.listed(tuple(map(str, sorted(several))))
        yield f"Only whole repeats come out, of {numbers} rows."
    if any(one.colours for one in lengths):
        yield "Each colour goes on as in the rows that are there."
