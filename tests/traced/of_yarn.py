"""The figures of yarn, found anew from what the stage of yarn gives, by the rules of buying."""

from __future__ import annotations

from collections.abc import Callable
from fractions import Fraction
from math import ceil

from tests.traced.asked import Asked, heading
from tests.traced.told import (
    NOT_WORKED,
    Told,
    by_size,
    decimal,
    figures,
    joined,
    metres,
    number,
    ounces,
    same,
    significant,
    yards,
    yarn_length,
)
from workeven.notation.vocabulary import in_terms, speak
from workeven.pattern import PrintedAmount, PutUp
from workeven.yarn import ColourNeed, Line, YarnNeed
from workeven.yarn.longer import longer

CHAINS = "chains and slip stitches"
Amount = YarnNeed | ColourNeed


def of_yarn(of: Asked, name: str, what: str) -> Told:  # noqa: C901 -- a line for each
    """What an origin says of a yarn."""
    need = next(one for one in of.ready.yarn.needs if one.yarn.name == name)
    put_up = need.yarn.put_up
    about, *cell = what.split(", ")
    column, line = ", ".join(cell[:-1]), cell[-1] if cell else ""
    sizes = of.sizes
    match about:
        case "name":
            return same(_called(of, name) if len(of.ready.pattern.yarns) > 1 else "", sizes)
        case "put-up":
            return same(_put_up(put_up), sizes)
        case "to buy":
            return same(_to_buy(of, need, column, line), sizes)
        case "estimate":
            return _estimate(of, need)
        case "other put-up":
            return same(_other(of, need, column, line), sizes)
        case "another put-up":
            return _another_put_up(of, need)
        case "another yarn":
            return _another_yarn(of, need)
        case "longer":
            return same(_longer(of, need, column, line), sizes)
        case "notes on longer pieces":
            return same(_notes(of, need), sizes)
        case "method":
            return same(speak(need.method, of.ready.pattern.terms), sizes)
        case "grams of a metre":
            return same(f"1 {significant(put_up.mass * 1000 / put_up.length)}", sizes)
        case "scale":
            assert need.samples is not None
            return same(decimal(need.samples.scale, 4), sizes)
        case "margin":
            return same(number(need.margin * 100), sizes)
        case "ball":
            return same(f"{number(put_up.mass)} {metres(put_up.length)}", sizes)
        case "sum":
            return same(_sum(of, need, column, line), sizes)
        case "piece":
            return same(_piece(of, need, column, line), sizes)
        case "strands":
            return _strands(need, ", ".join(cell), sizes)
        case _ if about.startswith("grams of one "):
            return same(_grams_of_one(of, need, about.removeprefix("grams of one ")), sizes)
        case _ if about.startswith("swatch "):
            return same(_fit(of, need, int(about.removeprefix("swatch ")) - 1), sizes)
        case _ if about.startswith("sample "):
            return _sample(of, need, int(about.removeprefix("sample ")) - 1)
        case _:
            raise AssertionError(f"nothing is known of {what}")


def band(of: Asked, label: str) -> Told:
    """What a yarn is, in the list of materials."""
    yarn = next(one for one in of.ready.pattern.yarns if _called(of, one.name) == label)
    shades = " ".join(yarn.shade(one) for one in yarn.colours)
    held = str(yarn.held) if yarn.held > 1 else ""
    size = f"{yarn_length(yarn.put_up.length)} {number(yarn.put_up.mass)}"
    return same(f"{label} {yarn.fibre or ''} {size} {shades} {held}", of.sizes)


def _called(of: Asked, name: str) -> str:
    yarn = next(one for one in of.ready.pattern.yarns if one.name == name)
    return yarn.label if yarn.label != name else f"{heading(name)} yarn"


def _put_up(put_up: PutUp) -> str:
    return f"{yarn_length(put_up.length)} {number(put_up.mass)}"


def _mass(grams: Fraction) -> str:
    return f"{ceil(grams)} {ounces(grams)}"


def _at(of: Asked, line: str) -> int:
    return of.names.index(line)


# --- to buy --------------------------------------------------------------------------------


def _to_buy(of: Asked, need: YarnNeed, column: str, line: str) -> str:
    """A cell of the table to shop from."""
    shades = {need.yarn.shade(one.colour): one for one in need.colours}
    if line in ("All colours", *shades) and of.sizes == 1:
        return _amount(of, need, shades.get(line, need), 0, column)
    at = _at(of, line)
    if column in shades or column == "All colours":
        one = shades.get(column, need)
        return f"{_balls(of, need, one, at)} {yarn_length(one.length[at])} {ceil(one.mass[at])}"
    return _amount(of, need, need, at, column)


def _amount(of: Asked, need: YarnNeed, one: Amount, at: int, column: str) -> str:
    match column:
        case "Length":
            return yarn_length(one.length[at])
        case "Mass":
            return _mass(one.mass[at])
        case _:
            return _balls(of, need, one, at)


def _balls(of: Asked, need: YarnNeed, one: Amount, at: int) -> str:
    """Whole balls; behind the designer's own list where she has one."""
    put_up = need.yarn.put_up
    each: tuple[Amount, ...] = (one,) if isinstance(one, ColourNeed) else need.colours or (need,)
    computed = sum(ceil(part.length[at] / put_up.length) for part in each)
    colour = one.colour if isinstance(one, ColourNeed) else None
    own = [
        said
        for said in of.ready.pattern.amounts
        if said.yarn == need.yarn.name and (said.colour == colour or not need.colours)
    ]
    return " ".join([*(_said(said, at) for said in own), str(computed)])


def _said(said: PrintedAmount, at: int) -> str:
    value = said.values[at]
    if not value:
        return ""
    if said.unit == "balls":
        return str(value)
    return yarn_length(value) if said.unit == "length" else _mass(value)


def _other(of: Asked, need: YarnNeed, column: str, line: str) -> str:
    """Whole balls of another put-up."""
    also = next(one for one in need.yarn.also if column.startswith(one.label))
    each = need.colours or (need,)
    at = _at(of, line)
    number_ = [str(ceil(one.length[at] / also.put_up.length)) for one in each]
    names = [one.colour for one in need.colours] or [""]
    return " ".join(f"{one} {name}" for one, name in zip(number_, names, strict=True))


# --- sentences -----------------------------------------------------------------------------


def _by_example(of: Asked, words: Callable[[int], str]) -> Told:
    """What is told of the size in the middle where none is chosen, else of hers."""
    middle = words(of.sizes // 2)
    return Told(figures(middle), tuple(figures(words(at)) for at in range(of.sizes)))


def _in(of: Asked, at: int) -> str:
    return of.names[at] if of.sizes > 1 else ""


def _estimate(of: Asked, need: YarnNeed) -> Told:
    """The margin, what of the length it is, how many strands."""

    def words(at: int) -> str:
        whole = need.length[at]
        spare = whole * need.margin / (1 + need.margin)
        held = str(need.yarn.held) if need.yarn.held > 1 else ""
        percent = number(need.margin * 100)
        return f"{percent} {_in(of, at)} {yarn_length(spare)} {yarn_length(whole)} {held}"

    return _by_example(of, words)


def _another_put_up(of: Asked, need: YarnNeed) -> Told:
    first = need.colours[0] if need.colours else need
    ball = Fraction(150_000 if need.yarn.put_up.length == 100_000 else 100_000)
    shade = need.yarn.shade(need.colours[0].colour) if need.colours else ""

    def words(at: int) -> str:
        length = first.length[at]
        return (
            f"{_in(of, at)} {yarn_length(length)} {shade} {ceil(length / ball)} {yarn_length(ball)}"
        )

    return _by_example(of, words)


def _another_yarn(of: Asked, need: YarnNeed) -> Told:
    """The swatch of ours beside one a tenth heavier, and what that makes of the amount."""
    swatches = [one for one in of.ready.pattern.swatches if one.of == need.yarn.name]
    assert swatches, "a hundred stitches instead of a swatch: no pattern of the tests has it"
    ours = swatches[0].mass
    theirs = Fraction(decimal(ours * Fraction(11, 10), 1))
    times = theirs / ours
    head = f"{decimal(ours, 1)} {decimal(theirs, 1)} {decimal(times, 3)}"

    def words(at: int) -> str:
        mass = need.mass[at]
        return f"{head} {_in(of, at)} {ceil(mass * times)} {ceil(mass)}"

    return _by_example(of, words)


def _longer(of: Asked, need: YarnNeed, column: str, line: str) -> str:
    at = _at(of, line)
    one = next(
        one
        for one in longer(of.ready.proven, need)
        if column == f"{_listed(one.pieces)}: {heading(one.name or one.section).lower()}"
    )
    if not one.five_cm[at]:
        return NOT_WORKED
    each = [colour for colour in one.colours if colour.five_cm[at]]
    if not each:
        return f"{metres(one.five_cm[at])} {yards(one.two_in[at])}"
    return " ".join(f"{metres(c.five_cm[at])} {yards(c.two_in[at])} {c.colour}" for c in each)


def _notes(of: Asked, need: YarnNeed) -> str:
    """The pieces that are shaped, those with two such lengths, how many rows make a repeat."""
    every = longer(of.ready.proven, need)
    shaped = dict.fromkeys(piece for one in every if one.shaped for piece in one.pieces)
    pieces = [piece for one in every if one.until for piece in one.pieces]
    twice = dict.fromkeys(one for one in pieces if pieces.count(one) > 1)
    rows = sorted({one.rows for one in every if one.rows > 1})
    return " ".join((*shaped, *twice, *map(str, rows)))


def _listed(words: tuple[str, ...]) -> str:
    *most, last = words
    return f"{', '.join(most)} and {last}" if most else last


# --- the sum -------------------------------------------------------------------------------


def _grams_of_one(of: Asked, need: YarnNeed, stitch: str) -> str:
    terms = of.ready.pattern.terms
    line = next(
        one
        for one in need.lines
        if one.each is not None
        and stitch
        == ("chain or slip stitch" if one.title == CHAINS else in_terms(one.title, terms))
    )
    assert line.each is not None
    return f"1 {stitch} {significant(line.each)} {line.basis}"


def _sum(of: Asked, need: YarnNeed, column: str, line: str) -> str:
    at, put_up = _at(of, line), need.yarn.put_up
    strands = sum((one.mass[at] for one in need.lines if one.sort == "strand"), Fraction(0))
    scale = need.samples.scale if need.samples else Fraction(1)
    whole = sum((_grams(one, at) for one in need.lines), Fraction(0))
    with_margin = whole * scale * (1 + need.margin)
    length = with_margin * put_up.length / put_up.mass
    match column:
        case "Seams, ends, trimmings":
            return (
                f"{decimal(strands * put_up.length / put_up.mass / 1000, 1)} {decimal(strands, 1)}"
            )
        case "Sum":
            return decimal(whole, 1)
        case "By the samples":
            return decimal(whole * scale, 1)
        case "With the margin":
            return decimal(with_margin, 1)
        case "Length":
            return decimal(length / 1000, 1)
        case "Balls":
            return str(sum(ceil(one.length[at] / put_up.length) for one in need.colours or (need,)))
        case _:
            terms = of.ready.pattern.terms
            named = {in_terms(one.title, terms).lower(): one for one in need.lines}
            named |= {one.title.lower(): one for one in need.lines}
            stitches = named[column.lower()]
            return f"{stitches.number[at]:,} {decimal(_grams(stitches, at), 1)}"


def _grams(line: Line, at: int) -> Fraction:
    """So many of it, each as heavy as is said."""
    return line.mass[at] if line.each is None else line.number[at] * line.each


def _strands(need: YarnNeed, title: str, sizes: int) -> Told:
    """``2 of 84 (96) cm``: those of one title and length together, with what is said of them."""
    lines = [one for one in need.lines if one.sort == "strand"]
    alike: dict[tuple[object, ...], list[Line]] = {}
    for one in lines:
        values = None if one.length is None else one.length.values
        alike.setdefault((one.basis, one.colour, values), []).append(one)
    told: set[str] = set()
    for group in alike.values():
        basis = "" if group[0].basis in told else group[0].basis
        told.add(group[0].basis)
        names = [one.title.removeprefix("Ends: ") for one in group]
        if not all(name in title for name in names) or (group[0].colour or "") not in title:
            continue
        if title.startswith("Ends") != all(one.title.startswith("Ends: ") for one in group):
            continue
        many = [sum(one.number[at] for one in group) for at in range(sizes)]
        length = group[0].length
        if length is None:
            return joined([same(title, sizes), _by_number(many), _weighed(group, many)], sizes)
        long = [decimal(length[at] / 10, 0) if many[at] else NOT_WORKED for at in range(sizes)]
        parts = [same(title, sizes), _by_number(many)]
        return joined([*parts, by_size(long), same(basis, sizes)], sizes)
    raise AssertionError(f"no strand is called {title}")


def _by_number(many: list[int]) -> Told:
    return by_size([str(one or NOT_WORKED) for one in many])


def _weighed(lines: list[Line], many: list[int]) -> Told:
    """What one of those weighs that were not measured."""
    at = next(at for at, one in enumerate(many) if one)
    grams = sum((one.mass[at] for one in lines), Fraction(0)) / many[at]
    return same(f"{decimal(grams, 2)} {lines[0].basis}", len(many))


def _piece(of: Asked, need: YarnNeed, column: str, line: str) -> str:
    at, put_up = _at(of, line), need.yarn.put_up
    one = next(
        one
        for one in need.pieces
        if column == (one.title if one.colour is None else f"{one.title} ({one.colour})")
    )
    long = one.mass[at] * put_up.length / put_up.mass / 1000
    return f"{decimal(one.mass[at], 1)} {decimal(long, 0)}"


def _sample(of: Asked, need: YarnNeed, at: int) -> Told:
    """What a sample took, beside the sum for its size, and how far it is off."""
    assert need.samples is not None
    one = need.samples.samples[at]
    size = one.sample.size
    took = one.sample.of(need.yarn.name)
    assert took is not None
    whole = sum((_grams(line, size) for line in need.lines), Fraction(0))
    colours = " ".join(decimal(c.mass, 1) for _, c in one.sample.colours(need.yarn.name))
    off = abs(one.used / (whole * need.samples.scale) - 1) * 100
    words = f"{_in(of, size)} {one.sample.credit or ''} {decimal(took[0], 1)} {colours}"
    if one.left_out:
        words += f" {one.left_out}"
    elif need.samples.fitted:
        words += f" {_off(off)}"
    else:
        words += f" {decimal(whole, 1)}"
        words += "" if len(need.samples.counted) == 1 else f" {_off(off)}"
    if of.sizes == 1:
        return same(words, 1)
    return Told(figures(words), tuple(figures(words) if k == size else () for k in range(of.sizes)))


def _fit(of: Asked, need: YarnNeed, at: int) -> str:
    """A swatch as it was weighed, beside what all of them together make of its stitches."""
    swatches = [one for one in of.ready.pattern.swatches if one.of == need.yarn.name]
    each = {one.title: one.each for one in need.lines if one.each is not None}
    fit = need.fit[at]
    assert fit.weighed in [one.mass for one in swatches]
    stitches = dict(fit.stitches)
    if all(name in each for name in stitches):
        whole = sum((number_ * each[name] for name, number_ in stitches.items()), Fraction(0))
        assert decimal(whole, 2) == decimal(fit.computed, 2)
    off = abs(fit.computed - fit.weighed)
    names = {name: in_terms(name, of.ready.pattern.terms) for name in stitches}
    last = sorted(stitches.items(), key=lambda one: one[0] in ("ch", "sl st"))
    told = " ".join(f"{number_} {names[name]}" for name, number_ in last if number_)
    grams = f"{decimal(fit.weighed, 2)} {decimal(fit.computed, 2)} {decimal(off, 2)}"
    return f"{told} {grams} {decimal(off / fit.weighed * 100, 1)}"


def _off(percent: Fraction) -> str:
    shown = decimal(percent, 1)
    return "" if shown == "0" else shown
