"""How an amount of yarn was computed: the whole sum, for a reader to follow by hand.

Takes     ``ReadyPattern``.
Gives     ``Computed`` for each yarn (``computed``); ``Partly`` for one that has no amount in all.
Problems  none.
From      design.md, "Numbers a maker can trust": how amounts were computed, from which swatch or
          sample, with which margin.

A line a size: the stitches of each kind with their grams, seams and ends with theirs, their sum,
what samples make of it, the margin, and the amount. Above the table stands how many seams and ends
there are and how long each, so that nobody need believe their metres, and what one stitch takes, to
five figures, so that its grams come to those of the table.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from fractions import Fraction

from workeven.arithmetic import printing
from workeven.arithmetic.per_size import PerSize
from workeven.arithmetic.quantities import decimal
from workeven.notation.vocabulary import Terms, in_terms, speak
from workeven.pattern import FinishedSample, Yarn
from workeven.pipeline import ReadyPattern
from workeven.publish.pages import figures
from workeven.publish.pages.choices import by_size, only_for
from workeven.publish.pages.sizes import NO_BREAK, called
from workeven.publish.pages.views import Table
from workeven.records import record
from workeven.yarn import Line, NoAmount, YarnNeed
from workeven.yarn.amount import listed as listed_stitches
from workeven.yarn.needs import CHAINS

#: what one stitch takes is printed with so many figures that count
_FIGURES = 5
_STRANDS = "Seams, ends, trimmings"
_ENDS = "Ends: "
Cell = tuple[str, ...]


@record
class Computed:
    """How the amounts of one yarn were computed: in words, as a sum, against samples, by piece.

    ``each``: what one stitch takes, seams, ends and trimmings one by one; ``rest``: margin, put-up,
    how the swatches fit each other.
    """

    title: str
    method: str
    each: tuple[str, ...]
    table: Table
    rest: tuple[str, ...]
    samples: tuple[str, ...]
    pieces: Table | None


@record
class Partly:
    """The pieces of a yarn that has no amount in all: why it has none, and what each takes."""

    words: str
    table: Table


def computed(ready: ReadyPattern) -> tuple[Computed, ...]:
    """The sum of every yarn that has an amount."""
    several = len(ready.yarn.needs) > 1
    return tuple(_computed(ready, need, several=several) for need in ready.yarn.needs)


def _computed(ready: ReadyPattern, need: YarnNeed, *, several: bool) -> Computed:
    terms = ready.pattern.terms
    return Computed(
        title=called(need.yarn) if several else "",
        method=speak(f"{need.method.rstrip('.')}.", terms),
        each=tuple(_each(need, terms)),
        table=_table(ready, need),
        rest=tuple(_rest(need, terms)),
        samples=tuple(_samples(ready, need)),
        pieces=_pieces(ready, need),
    )


def partly(ready: ReadyPattern) -> tuple[Partly, ...]:
    """The pieces of which an amount is known where the yarn has none in all."""
    return tuple(_partly(ready, one) for one in ready.yarn.without if one.pieces)


def _partly(ready: ReadyPattern, one: NoAmount) -> Partly:
    others = f" of {figures.listed(one.untold)}" if one.untold else ""
    yarn, reason = called(one.yarn), speak(one.reason, ready.pattern.terms)
    return Partly(
        words=f"{yarn}: the amount{others} is not known ({reason}), and so there is none in "
        f"all. The stitches of the other pieces take, with {figures.percent(one.margin)} to spare:",
        table=_by_piece(ready, one, f"{yarn}, by piece, without seams and ends"),
    )


def _each(need: YarnNeed, terms: Terms) -> Iterator[str]:
    """What one stitch of each kind takes, and what one metre weighs."""
    for line in need.lines:
        if line.each is not None:
            name = "chain or slip stitch" if line.title == CHAINS else in_terms(line.title, terms)
            yield f"1 {name}: {significant(line.each)} g, {line.basis}"
    put_up = need.yarn.put_up
    strands = [line for line in need.lines if line.sort == "strand" and any(line.mass)]
    if strands:
        yield f"1 m of yarn: {significant(put_up.mass * 1000 / put_up.length)} g, by the put-up"
    alike: dict[tuple[object, ...], list[Line]] = {}
    for line in strands:
        lengths = None if line.length is None else line.length.values
        alike.setdefault((line.basis, line.colour, lengths), []).append(line)
    told: set[str] = set()
    for lines in alike.values():
        basis = lines[0].basis
        yield _strands(lines) + (f", {basis}" if basis not in told else "")
        told.add(basis)


def _strands(lines: list[Line]) -> str:
    """Strands that are alike: ``Shoulders: 2 of 84 (96) cm``."""
    sizes = range(len(lines[0].mass.values))
    number = [sum(line.number[at] for line in lines) for at in sizes]
    length = lines[0].length
    if length is None:
        mass = [sum((line.mass[at] for line in lines), Fraction(0)) for at in sizes]
        one = next(grams / count for grams, count in zip(mass, number, strict=True) if count)
        return f"{_strand_title(lines)}: {_by_size(number)} of {decimal(one, 2)} g"
    each = [decimal(length[at] / 10, 0) if number[at] else figures.NOT_WORKED for at in sizes]
    return f"{_strand_title(lines)}: {_by_size(number)} of {_by_size(each)} cm"


def _by_size(values: Sequence[object]) -> str:
    """Figures in trade notation; who has chosen her size reads hers."""
    each = [figures.NOT_WORKED if value == 0 else str(value) for value in values]
    return by_size(figures.trade(each), each)


def _strand_title(lines: list[Line]) -> str:
    """The titles of strands that are alike: ``Ends: Back, Sleeve``, ``Left side, right side``."""
    titles = [line.title for line in lines]
    if all(one.startswith(_ENDS) for one in titles):
        own = dict.fromkeys(one.removeprefix(_ENDS) for one in titles)
        return _titled(f"Ends ({', '.join(own)})", lines[0].colour)
    return _titled(figures.listed(tuple(dict.fromkeys(titles))), lines[0].colour)


def significant(number: Fraction) -> str:
    """A number with five figures that count.

    >>> significant(Fraction(1, 27)), significant(Fraction(12345678, 10000))
    ('0.037037', '1234.6')
    """
    places, bound = 0, abs(number)
    while 0 < bound < 10 ** (_FIGURES - 1) and places < 2 * _FIGURES:
        bound *= 10
        places += 1
    return decimal(number, places)


# --- the table -----------------------------------------------------------------------------


def _table(ready: ReadyPattern, need: YarnNeed) -> Table:
    stitches = [line for line in need.lines if line.sort == "stitches"]
    strands = [line for line in need.lines if line.sort == "strand"]
    scaled = need.samples is not None and need.samples.scale != 1
    heads = ["Size", *(_head(line, ready.pattern.terms) for line in stitches)]
    heads += [_STRANDS] if strands else []
    heads += ["Sum", *(["By the samples"] if scaled else []), "With the margin", "Length", "Balls"]
    rows = tuple(
        (name, tuple(_cells(need, stitches, strands, at, scaled=scaled)))
        for at, name in enumerate(ready.pattern.sizes.names)
    )
    title = f": {called(need.yarn)}" if len(ready.yarn.needs) > 1 else ""
    return Table(caption=f"The sum for each size{title}", heads=tuple(heads), rows=rows)


def _head(line: Line, terms: Terms) -> str:
    """Words with a capital; an abbreviation as the rows write it."""
    return figures.heading(line.title) if line.title == CHAINS else in_terms(line.title, terms)


def _cells(
    need: YarnNeed, stitches: list[Line], strands: list[Line], at: int, *, scaled: bool
) -> Iterator[Cell]:
    for line in stitches:
        yield f"{line.number[at]:,}", grams(line.mass[at])
    put_up = need.yarn.put_up
    if strands:
        mass = sum((line.mass[at] for line in strands), Fraction(0))
        yield _metres(mass * put_up.length / put_up.mass), grams(mass)
    yield (grams(sum((line.mass[at] for line in need.lines), Fraction(0))),)
    if scaled:
        yield (grams(need.bare[at]),)
    yield (grams(need.mass[at]),)
    yield (_metres(need.length[at]),)
    yield (str(need.balls[at]),)


def grams(mass: Fraction) -> str:
    """A mass to a tenth of a gram."""
    return f"{decimal(mass, 1)}{NO_BREAK}g"


def _metres(mm: Fraction) -> str:
    return f"{decimal(mm / 1000, 1)}{NO_BREAK}m"


# --- beside it -----------------------------------------------------------------------------


def _rest(need: YarnNeed, terms: Terms) -> Iterator[str]:
    """The margin, the put-up, how well the swatches fit each other, why no colours are told."""
    said = need.samples
    if said is not None and said.scale != 1:
        yield f"By the samples: times {decimal(said.scale, 4)}."
    yield f"With the margin: {figures.percent(need.margin)} more."
    put_up = need.yarn.put_up
    yield (
        f"One ball: {printing.print_number(put_up.mass)} g, "
        f"{printing.print_metres(put_up.length)}; balls are whole, up."
    )
    for fit in need.fit:
        off = fit.computed - fit.weighed
        listed = speak(listed_stitches(dict(fit.stitches)), terms)
        yield (
            f"Swatch of {listed}: {decimal(fit.weighed, 2)} g weighed, "
            f"{decimal(fit.computed, 2)} g computed: {decimal(abs(off), 2)} g or "
            f"{_percent(off / fit.weighed)}."
        )
    if need.why_not:
        yield f"There is no amount by colour: {need.why_not}."


def _samples(ready: ReadyPattern, need: YarnNeed) -> Iterator[str]:
    """Each finished sample beside what is computed for its size."""
    names, said = ready.pattern.sizes.names, need.samples
    for one in () if said is None else said.samples:
        by = f" by {one.sample.credit}" if one.sample.credit else ""
        of = f" in {names[one.sample.size]}" if len(names) > 1 else ""
        took = f"Sample{of}{by}: {grams(one.used)}{_by_colour(need, one.sample)}"
        if one.left_out:
            words = f"{took}; {one.left_out}, and it is left out."
        elif said is not None and said.fitted:
            words = f"{took}, {_beside(one.off)}."
        else:
            alone = said is not None and len(said.counted) == 1
            scaled = "" if alone else f"; {_beside(one.off)} by all samples"
            words = f"{took} beside a sum of {grams(one.estimated)}{scaled}."
        yield only_for(words, [at == one.sample.size for at in range(len(names))])


def _by_colour(need: YarnNeed, sample: FinishedSample) -> str:
    """`` (Sand 25 g, Foam 15 g)``, where that is said."""
    parts = (f"{name} {grams(one.mass)}" for name, one in sample.colours(need.yarn.name))
    listed = figures.listed(tuple(parts))
    return f" ({listed})" if listed else ""


def _beside(part: Fraction) -> str:
    """``1.3 % more than computed``."""
    if decimal(abs(part) * 100, 1) == "0":
        return "as much as computed"
    return f"{_percent(part)} than computed"


def _percent(part: Fraction) -> str:
    """``4 % more``."""
    return f"{decimal(abs(part) * 100, 1)} % {'more' if part >= 0 else 'less'}"


def _pieces(ready: ReadyPattern, need: YarnNeed) -> Table | None:
    """The stitches of each piece, where there are several."""
    if len(need.pieces) < 2:  # noqa: PLR2004, several
        return None
    caption = "The stitches of each piece, as often as it is made, without seams and margin"
    return _by_piece(ready, need, caption)


def _by_piece(ready: ReadyPattern, need: YarnNeed | NoAmount, caption: str) -> Table:
    heads = ("Size", *(_titled(one.title, one.colour) for one in need.pieces))
    rows = tuple(
        (name, tuple(_amount(one.mass, need.yarn, at) for one in need.pieces))
        for at, name in enumerate(ready.pattern.sizes.names)
    )
    return Table(caption=caption, heads=heads, rows=rows)


def _titled(title: str, colour: str | None) -> str:
    return title if colour is None else f"{title} ({colour})"


def _amount(mass: PerSize[Fraction], yarn: Yarn, at: int) -> Cell:
    metres = decimal(mass[at] * yarn.put_up.length / yarn.put_up.mass / 1000, 0)
    return grams(mass[at]), f"{metres}{NO_BREAK}m"
