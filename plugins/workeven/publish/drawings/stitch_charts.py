"""The drawing of a stitch chart, and its symbols.

Takes     a ``StitchChart``.
Gives     ``drawing``, ``symbol``, ``symbols_in``.
Problems  none.
From      the open symbols of international charts (common practice), drawn by geometry: an oval for
          a chain, a cross for sc, a T for hdc, with one bar more for each taller stitch; legs that
          meet at both ends for a cluster, under an oval for a popcorn, without bars for a puff; a
          stem with a mark for a stitch of the pattern's own that no symbol tells.

What a row has is one path, and a filled one for its slip stitches, so that a chart is few elements.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from itertools import pairwise
from math import atan2, cos, degrees, hypot, pi, sin
from types import MappingProxyType
from typing import NamedTuple

from markupsafe import Markup

from workeven.notation.vocabulary import HEIGHTS, kind_of
from workeven.proof import StitchChart
from workeven.proof.own_stitches import Closed
from workeven.proof.placed import Placed
from workeven.publish.drawings.ovals import in_oval
from workeven.publish.drawings.stitch_places import (
    PICOT,
    STEM,
    Laid,
    Point,
    Spot,
    height,
    in_rounds,
    in_rows,
)

Line = tuple[Point, Point]

_LONG, _THIN = 5.4, 2.7
_HALF, _MARGIN, _CLEAR = 4.2, 16.0, 3.2


class Letters(NamedTuple):
    """The letters of colours of each row by its number; of a row that changes, of each stitch."""

    rows: Mapping[int, tuple[str, ...]]
    stitches: Mapping[int, tuple[str, ...]]


#: rows in one colour need none
NO_LETTERS = Letters(MappingProxyType({}), MappingProxyType({}))
#: what takes yarn of the colour at hand; a starting chain is drawn by itself
OF_YARN = ("stitch", "space", "chain", "turning chain", "join", "travel", "new yarn", "picot")
#: a chart with a letter beside stitches is drawn wider, and higher
_WIDER, _HIGHER, _AS_WIDE = 1.5, 1.2, 1.4
#: how far from its symbol a letter stands
_ASIDE_OF = 9.0
#: a dot, whether it joins, travels or counts
_SLIP = "sl st"
#: how far the mark of a stitch of the pattern's own reaches from its middle
_MARK = 3.6
#: half of the width of a letter, with what parts it from the next
_LETTER = 6.0
#: how far the stem of a stitch that stands rows below is bowed, and how far apart its bars are
_ASIDE, _APART = 13.0, 0.26
#: how much larger it is shown
_LARGER = 1.25


def drawing(
    chart: StitchChart,
    *,
    name: str,
    words: str,
    letters: Letters = NO_LETTERS,
) -> Markup:
    """The chart as an SVG, as large as it needs to be."""
    if chart.shape != "rounds":
        chain, rows = in_oval(chart) if chart.shape == "oval" else in_rows(chart)
        start = "".join(_oval(point, 0.0) for point in chain)
    else:
        chain, rows = (), in_rounds(chart)
        start = "M5 0a5 5 0 1 0-10 0 5 5 0 1 0 10 0z"
    if letters.stitches:
        wider, higher = (_AS_WIDE,) * 2 if chart.shape in ("rounds", "oval") else (_WIDER, _HIGHER)
        chain = tuple((x * wider, y * higher) for x, y in chain)
        rows = tuple(_larger(row, wider, higher) for row in rows)
        start = "".join(_oval(point, 0.0) for point in chain) or start
    points = [*chain, *(one.at for one in rows)]
    points += [point for row in rows for point in _ends(row, letters.rows.get(row.number, ()))]
    points += [point for row in rows for spot in row.spots for point in (spot.head, *spot.feet)]
    left, right = min(x for x, _ in points) - _MARGIN, max(x for x, _ in points) + _MARGIN
    top, foot = min(y for _, y in points) - _MARGIN, max(y for _, y in points) + _MARGIN
    body = [
        Markup('<path d="{}"/>').format(start),
        *(_row(row, letters) for row in rows),
    ]
    return Markup(
        '<svg class="we-stitches" viewBox="{} {} {} {}" width="{}" height="{}" role="img">'
        "<title>{}</title><desc>{}</desc>{}</svg>"
    ).format(
        *map(
            _whole,
            (
                left,
                top,
                right - left,
                foot - top,
                (right - left) * _LARGER,
                (foot - top) * _LARGER,
            ),
        ),
        name,
        words,
        Markup("").join(body),
    )


def symbols_in(chart: StitchChart) -> tuple[Placed, ...]:
    """The first of each stitch that is drawn, by US name, the lowest first.

    One that stands rows below is another than the same in the row that is worked into.
    """
    found = {} if chart.shape == "rounds" else {("ch", False): Placed("space", "ch")}
    each = [one for row in chart.rows for one in row.placed.stitches]
    short = [one for before, one in pairwise(each) if before.leg]  # a chain is one of the legs
    for one in (*(one for one in each if one not in short), *short):
        found.setdefault((one.name, one.reach is not None), one)
    return tuple(sorted(found.values(), key=_order))


def symbol(placed: Placed) -> Markup:
    """One symbol alone, for the key."""
    name = placed.name
    if name == "ch":
        one = Spot(Placed("space", name), ((-8.0, 0.0), (8.0, 0.0)), (0.0, 0.0))
    elif name == "sl st":
        one = Spot(Placed("join", name), ((0.0, 0.0),), (0.0, 0.0))
    elif placed.what == "new yarn":
        one = Spot(placed, ((0.0, 5.0),), (0.0, 0.0))
    elif placed.what == "picot":
        one = Spot(placed, ((0.0, PICOT / 2),), (0.0, -PICOT / 2))
    else:
        legs = 1 if placed.between else max(len(placed.feet), 1)
        high = height(placed) + (0.0 if placed.reach is None else STEM)
        feet = tuple((10.0 * at - 5.0 * (legs - 1), high / 2) for at in range(legs))
        one = Spot(placed, feet, (0.0, -high / 2))
    tall = max(10, _whole(max(-one.head[1], 0.0)) + 4)
    return Markup(
        '<svg viewBox="-14 -{0} 28 {1}" width="28" height="{1}" aria-hidden="true">{2}</svg>'
    ).format(tall, 2 * tall, _paths((one,)))


def loops_in(chart: StitchChart) -> tuple[str, ...]:
    """The single loops that stitches are worked into, ``back`` and ``front``."""
    found = {one.loop for row in chart.rows for one in row.placed.stitches}
    return tuple(sorted(found - {"both"}))


def loop_symbol(loop: str) -> Markup:
    """The arc under a stitch alone, for the key."""
    return Markup(
        '<svg viewBox="-14 -10 28 20" width="28" height="20" aria-hidden="true">'
        '<path d="{}"/></svg>'
    ).format(_loop((0.0, 0.0), (0.0, -10.0), back=loop == "back"))


def letter_symbol(letter: str) -> Markup:
    """The letter of a colour alone, for the key."""
    return Markup(
        '<svg viewBox="-14 -10 28 20" width="28" height="20" aria-hidden="true">'
        '<text x="0" y="4">{}</text></svg>'
    ).format(letter)


def _order(one: Placed) -> tuple[int, int, str]:
    kind = kind_of(one.name)
    own = len(HEIGHTS) if one.what == "stitch" else 0  # stitches of the pattern's own come last
    return (-1 if one.name == "ch" else HEIGHTS.get(kind.base, own), kind.legs, one.name)


def _beside(row: Laid, letters: tuple[str, ...]) -> Point:
    """The middle of a row's number and its letters: they reach away from the stitches."""
    x, y = row.at
    aside = _LETTER * max(0, len(letters) - 1)
    heads = [spot.head[0] for spot in row.spots]
    return x + aside * ((x > max(heads)) - (x < min(heads))), y


def _ends(row: Laid, letters: tuple[str, ...]) -> tuple[Point, Point]:
    """How far the letters behind a number reach to both of its sides."""
    x, y = _beside(row, letters)
    aside = _LETTER * len(letters)
    return (x - aside, y), (x + aside, y)


def _larger(row: Laid, wider: float, higher: float) -> Laid:
    """The same row farther apart: there is room for letters."""
    spots = tuple(
        spot._replace(
            feet=tuple((x * wider, y * higher) for x, y in spot.feet),
            head=(spot.head[0] * wider, spot.head[1] * higher),
        )
        for spot in row.spots
    )
    return row._replace(spots=spots, at=(row.at[0] * wider, row.at[1] * higher))


def _row(row: Laid, letters: Letters) -> Markup:
    behind = letters.rows.get(row.number, ())
    x, y = _beside(row, behind)
    label = " ".join((str(row.number), *behind))
    number = Markup('<text x="{}" y="{}">{}</text>').format(_short(x), _short(y + 4), label)
    return _paths(row.spots) + number + _beside_stitches(row, letters)


def _beside_stitches(row: Laid, letters: Letters) -> Markup:
    """A letter beside each stitch: one text, in which every letter has its own place."""
    each = [
        (letter, *_aside(spot))
        for letter, spot in zip(letters.stitches.get(row.number, ()), row.spots, strict=False)
        if letter
    ]
    if not each:
        return Markup()
    return Markup('<text x="{}" y="{}">{}</text>').format(
        " ".join(_short(x) for _, x, _ in each),
        " ".join(_short(y + 4) for _, _, y in each),
        "".join(letter for letter, _, _ in each),
    )


def _aside(spot: Spot) -> Point:
    """Where the letter of a stitch stands: to the right of it, seen upright, above a space."""
    head, foot = spot.head, spot.feet[0]
    if spot.placed.what == "space":
        middle = _along(foot, spot.feet[-1], 0.5)
        long = _length(middle, head)
        far = 1 + _ASIDE_OF / long if long > 1 else 1.0
        return _along(middle, head, far)
    if spot.placed.name == _SLIP or foot == head:
        return head[0] + _ASIDE_OF, head[1]
    x, y = _along(
        _along(foot, spot.feet[-1], 0.5), head, 0.5 if height(spot.placed) <= STEM else 0.7
    )
    angle = _angle(foot, head) - pi / 2
    return x - _ASIDE_OF * cos(angle), y - _ASIDE_OF * sin(angle)


def _paths(spots: Iterable[Spot]) -> Markup:
    strokes = "".join("".join(_strokes(spot)) for spot in spots if spot.placed.name != _SLIP)
    dots = "".join(_dot(spot.head) for spot in spots if spot.placed.name == _SLIP)
    found = Markup('<path d="{}"/>').format(strokes) if strokes else Markup()
    return found + (Markup('<path class="we-dot" d="{}"/>').format(dots) if dots else Markup())


def _strokes(spot: Spot) -> Iterator[str]:
    one = spot.placed
    match one.what:
        case "space":
            yield from _arc(spot)
        case "chain":
            yield _oval(spot.head, _angle(*spot.feet))
        case "picot":
            yield from _picot(spot)
        case "new yarn":
            yield _triangle(spot.head)
        case "turning chain" | "skipped chain":
            foot, head = spot.feet[0], spot.head
            yield from _upwards(foot, head, one.chains)
        case _ if one.closed is not None and one.closed.style == "own":
            yield from _own(spot, one.closed)
        case _ if one.closed is not None:
            yield from _closed(spot, one.closed)
        case _:
            yield from _stitch(spot)


def _upwards(foot: Point, head: Point, chains: int) -> Iterator[str]:
    """Chains on one another."""
    for at in range(chains):
        yield _oval(_along(foot, head, (at + 0.5) / chains), _angle(foot, head))


def _picot(spot: Spot) -> Iterator[str]:
    """Small chains around a loop that stands on a stitch, closed at its foot."""
    foot, head, chains = spot.feet[0], spot.head, spot.placed.chains
    middle, up = _along(foot, head, 0.55), _angle(foot, head)
    far = 0.36 * PICOT
    for at in range(chains):
        turn = up + 2 * pi * (at - (chains - 1) / 2) / chains
        point = middle[0] + far * cos(turn), middle[1] + far * sin(turn)
        yield _oval(point, turn + pi / 2, 0.6)


def _closed(spot: Spot, closed: Closed) -> Iterator[str]:
    """Legs in one place, closed to one: by a bar, for a popcorn by an oval, for a puff by none."""
    foot, head = spot.feet[0], spot.head
    low = _along(foot, head, _CLEAR / max(_length(foot, head), 2 * _CLEAR))
    bars = HEIGHTS[closed.base]
    lines: list[Line] = []
    for leg in range(closed.legs):
        bow = _bow(low, head, leg, closed.legs)
        if leg == 0 and closed.lead:
            for at in range(closed.lead):
                share = (at + 0.5) / closed.lead
                yield _oval(_on_bow(low, bow, head, share), _angle(low, head), 0.75)
            continue
        yield f"M{_pair(low)}Q{_pair(bow)} {_pair(head)}"
    if closed.style != "puff":
        lines += _across_each(low, head, closed.legs, bars, closed.lead > 0)
    if closed.style == "popcorn":
        yield _oval(head, _angle(low, head) + pi / 2)
    elif closed.style == "cluster":
        lines.append(_bar(low, head, 1.0, _HALF + 0.8, pi / 2))
    else:
        yield _oval(head, _angle(low, head) + pi / 2, 0.7)
    yield _lines(lines)


def _own(spot: Spot, closed: Closed) -> Iterator[str]:
    """A stem with the bars of its height, and for a head a ring, a square or a diamond."""
    foot, head = spot.feet[0], spot.head
    low = _along(foot, head, _CLEAR / max(_length(foot, head), 2 * _CLEAR))
    end = _along(head, foot, _MARK / _length(head, foot))
    bars = range(HEIGHTS[closed.base] - 2)
    slants = (_bar(low, end, 0.62 - 0.13 * at, _HALF - 0.6, pi / 3) for at in bars)
    yield _lines(((low, end), *slants))
    x, y = head
    match closed.own:
        case 0:
            yield _ring(head, _MARK)
        case 1:
            side = _short(2 * _MARK)
            yield f"M{_pair((x - _MARK, y - _MARK))}h{side}v{side}h-{side}z"
        case _:
            half = _short(_MARK + 1)
            yield f"M{_pair((x, y - _MARK - 1))}l{half} {half}l-{half} {half}l-{half}-{half}z"


def _on_bow(foot: Point, bow: Point, head: Point, share: float) -> Point:
    return _along(_along(foot, bow, share), _along(bow, head, share), share)


def _across_each(foot: Point, head: Point, legs: int, bars: int, first: int = 0) -> list[Line]:
    """The short bars of taller stitches, on legs that are bowed, from one of them on."""
    return [
        _across(foot, _bow(foot, head, leg, legs), head, 0.6 - 0.14 * at)
        for leg in range(first, legs)
        for at in range(bars - 2)
    ]


def _across(foot: Point, bow: Point, head: Point, share: float) -> Line:
    x, y = _on_bow(foot, bow, head, share)
    angle = _angle(foot, head) + pi / 3
    dx, dy = 1.8 * cos(angle), 1.8 * sin(angle)
    return (x - dx, y - dy), (x + dx, y + dy)


def _stitch(spot: Spot) -> Iterator[str]:
    """A stem for each leg with its bars; over all of them the head."""
    kind = kind_of(spot.placed.name)
    bars = HEIGHTS[kind.base]
    head, sole = spot.head, len(spot.feet) == 1
    lines: list[Line] = []
    for foot in spot.feet:
        from_foot = _along(foot, head, _CLEAR / max(_length(foot, head), 2 * _CLEAR))
        near = _near(spot, from_foot)
        if sole and kind.legs > 1:
            yield from _bowed(from_foot, head, kind.legs)
            lines += _across_each(from_foot, head, kind.legs, bars)
        else:
            if near != from_foot:
                yield f"M{_pair(from_foot)}Q{_pair(_past(from_foot, near))} {_pair(near)}"
            lines.append((near, head))
            apart = 0.13 if near == from_foot else _APART
            lines += [
                _bar(near, head, 0.62 - apart * at, _HALF - 0.6, pi / 3) for at in range(bars - 2)
            ]
        if bars == 1:
            lines.append(_bar(near, head, 0.5, _HALF, pi / 2))
        if spot.placed.loop != "both":
            yield _loop(foot, head, back=spot.placed.loop == "back")
        if kind.post is not None:
            yield _hook(from_foot, head, back=kind.post == "back")
    if bars > 1 or kind.legs > 1:
        middle = _along(spot.feet[0], spot.feet[-1], 0.5)
        lines.append(_bar(middle, head, 1.0, _HALF + 0.8, pi / 2))
    yield _lines(lines)


def _near(spot: Spot, foot: Point) -> Point:
    """From where on a stem is straight: one that stands rows below is bowed past what it covers."""
    long = _length(spot.head, foot)
    if spot.placed.reach is None or long <= STEM:
        return foot
    return _along(spot.head, foot, STEM / long)


def _past(foot: Point, near: Point) -> Point:
    """The point that bows a stem aside, between what it covers and the stitch beside that."""
    angle = _angle(foot, near) + pi / 2
    x, y = _along(foot, near, 0.5)
    return x + _ASIDE * cos(angle), y + _ASIDE * sin(angle)


def _bowed(foot: Point, head: Point, legs: int) -> Iterator[str]:
    """Several legs in one place, bowed to the sides."""
    for leg in range(legs):
        yield f"M{_pair(foot)}Q{_pair(_bow(foot, head, leg, legs))} {_pair(head)}"


def _bow(foot: Point, head: Point, leg: int, legs: int) -> Point:
    """The point that bows a leg aside, the first to the left."""
    angle = _angle(foot, head) + pi / 2
    middle = _along(foot, head, 0.5)
    aside = min(9.0, 36.0 / legs) * (leg - (legs - 1) / 2)
    return middle[0] + aside * cos(angle), middle[1] + aside * sin(angle)


def _bar(foot: Point, head: Point, share: float, half: float, turn: float) -> Line:
    angle = _angle(foot, head) + turn
    x, y = _along(foot, head, share)
    dx, dy = half * cos(angle), half * sin(angle)
    return (x - dx, y - dy), (x + dx, y + dy)


def _lines(lines: Iterable[Line]) -> str:
    """The lines of one stitch, seen from its first point: stitches that lean alike read alike."""
    found = ""
    here: Point | None = None
    for start, end in lines:
        found += f"M{_pair(start)}" if here is None else f"m{_pair(_less(start, here))}"
        here = _rounded(start) if here is None else _plus(here, _rounded(_less(start, here)))
        found += f"l{_pair(_less(end, here))}"
        here = _plus(here, _rounded(_less(end, here)))
    return found


def _less(point: Point, other: Point) -> Point:
    return point[0] - other[0], point[1] - other[1]


def _plus(point: Point, other: Point) -> Point:
    return point[0] + other[0], point[1] + other[1]


def _rounded(point: Point) -> Point:
    """As it is written."""
    return round(point[0], 1), round(point[1], 1)


def _loop(foot: Point, head: Point, *, back: bool) -> str:
    """The arc under a stitch that is worked into one loop."""
    angle = _angle(foot, head)
    dx, dy = 4 * cos(angle + pi / 2), 4 * sin(angle + pi / 2)
    deep = -4 if back else 4
    bow = (foot[0] + deep * cos(angle), foot[1] + deep * sin(angle))
    return f"M{_pair((foot[0] - dx, foot[1] - dy))}Q{_pair(bow)} " + _pair(
        (foot[0] + dx, foot[1] + dy)
    )


def _hook(foot: Point, head: Point, *, back: bool) -> str:
    """The hook at the foot of a stitch around a post: to the left for the front (seen upright)."""
    angle = _angle(foot, head)
    side = angle + (pi / 2 if back else -pi / 2)
    end = (foot[0] + 6 * cos(side) + 2 * cos(angle), foot[1] + 6 * sin(side) + 2 * sin(angle))
    bow = (foot[0] + 4 * cos(side) - 5 * cos(angle), foot[1] + 4 * sin(side) - 5 * sin(angle))
    return f"M{_pair(foot)}Q{_pair(bow)} {_pair(end)}"


def _arc(spot: Spot) -> Iterator[str]:
    """Chains along a bow from one stitch to the next."""
    (start, end), count = spot.feet, spot.placed.chains
    bow = (2 * spot.head[0] - (start[0] + end[0]) / 2, 2 * spot.head[1] - (start[1] + end[1]) / 2)
    for at in range(count):
        share = (at + 1) / (count + 1)
        first, second = _along(start, bow, share), _along(bow, end, share)
        yield _oval(_along(first, second, share), _angle(first, second))


def _triangle(middle: Point) -> str:
    return f"M{_pair((middle[0] - 4, middle[1] - 3))}h8l-4 7z"


def _oval(middle: Point, angle: float, size: float = 1.0) -> str:
    long, thin = _LONG * size, _THIN * size
    dx, dy = long * cos(angle), long * sin(angle)
    turned = round(degrees(angle)) % 180
    arc = f"a{_short(long)} {_short(thin)} {turned} 1 0"
    start = _pair((middle[0] - dx, middle[1] - dy))
    return f"M{start}{arc} {_pair((2 * dx, 2 * dy))}{arc} {_pair((-2 * dx, -2 * dy))}"


def _ring(middle: Point, radius: float) -> str:
    wide, round_it = _short(2 * radius), f"a{_short(radius)} {_short(radius)} 0 1 0 "
    return f"M{_pair((middle[0] - radius, middle[1]))}{round_it}{wide} 0{round_it}-{wide} 0z"


def _dot(middle: Point) -> str:
    return f"M{_pair((middle[0] - 2.4, middle[1]))}a2.4 2.4 0 1 0 4.8 0 2.4 2.4 0 1 0-4.8 0z"


def _along(start: Point, end: Point, share: float) -> Point:
    return start[0] + (end[0] - start[0]) * share, start[1] + (end[1] - start[1]) * share


def _angle(start: Point, end: Point) -> float:
    return atan2(end[1] - start[1], end[0] - start[0])


def _length(start: Point, end: Point) -> float:
    return hypot(end[0] - start[0], end[1] - start[1])


def _short(number: float) -> str:
    return f"{round(number, 1) or 0.0:g}"


def _whole(number: float) -> int:
    return round(number)


def _pair(point: Point) -> str:
    return f"{_short(point[0])} {_short(point[1])}".replace(" -", "-")
