"""The letters of a schematic: a dimension line for each measure, with its letter.

Takes     an ``Outline``, a ``Measure``, the ``Frame`` in which the fabric stands.
Gives     ``Frame``, ``lettered``, ``lettered_arcs``, ``rounded``.
Problems  none.
From      common practice of sewing and crochet patterns: a letter at each line, a table beside it.
"""

from __future__ import annotations

from math import cos, pi, sin

from markupsafe import Markup, escape

from workeven.publish.drawings.measures import Measure
from workeven.publish.drawings.outline import Arc, Outline
from workeven.publish.drawings.placing import Strip
from workeven.records import record_by_position

#: A dimension line stands so far from the fabric, the next one so far from it, the letter below
#: a line so far under the fabric.
DIMENSION, BETWEEN, LETTER = 16, 24, 33
#: A stroke of fabric is at least so thick, and so much of its row's height.
THINNEST, SHARE = 3.6, 0.78
#: An arc of this angle (or more) is a whole circle.
_CLOSED = 2 * pi - 0.01


@record_by_position
class Frame:
    """Where a fabric stands in a drawing: its middle, its foot, and units for a millimetre."""

    middle: float
    foot: float
    scale: float

    def x(self, mm: float) -> float:
        """So far to the right of the middle."""
        return self.middle + mm * self.scale

    def y(self, mm: float) -> float:
        """So far above the foot."""
        return self.foot - mm * self.scale


def lettered(
    letter: str, measure: Measure, drawn: Outline, frame: Frame, *, size: int, aside: int
) -> list[Markup]:
    """The dimension line of a measure with its letter.

    Lines of heights stand beside each other: this one is ``aside`` others further out.
    """
    outer = drawn.width() / 2 * frame.scale
    level = None if measure.levels is None else measure.levels[size]
    match measure.at:
        case "height":
            return _height(letter, drawn.height(), frame, outer, aside)
        case "level":
            return [] if level is None else _height(letter, float(level), frame, outer, aside)
        case "wide at level":
            strip = None if level is None else _at_level(drawn, float(level))
            return [] if strip is None else _across(letter, strip, strip.top, frame)
        case "widest":
            strip = max(drawn.strips, key=lambda one: one.width)
            return _across(letter, strip, (strip.bottom + strip.top) / 2, frame)
        case "across":
            return _outside(letter, drawn.strips[-1], drawn, frame, above=False)
        case "start":
            return _outside(letter, drawn.strips[0], drawn, frame, above=False)
        case "end":
            return _outside(letter, drawn.strips[-1], drawn, frame, above=True)


def _height(letter: str, high: float, frame: Frame, outer: float, aside: int) -> list[Markup]:
    """A line beside the fabric, from its foot to a height."""
    x, top = frame.middle - outer - DIMENSION - BETWEEN * aside, frame.y(high)
    return [_line(x, top, x, frame.foot), _text(x - 13, (top + frame.foot) / 2 + 5, letter)]


def _across(letter: str, strip: Strip, level: float, frame: Frame) -> list[Markup]:
    """A line over the fabric, its letter behind it."""
    y, right = frame.y(level), frame.x(strip.right)
    return [_line(frame.x(strip.left), y, right, y), _text(right + 16, y + 5, letter)]


def _outside(
    letter: str, strip: Strip, drawn: Outline, frame: Frame, *, above: bool
) -> list[Markup]:
    """A line under the fabric, or above its end, as long as a row."""
    foot = frame.foot if drawn.shape == "disc" else frame.y(strip.bottom)
    y = frame.y(strip.top) - DIMENSION if above else foot + DIMENSION
    left, right = frame.x(strip.left), frame.x(strip.right)
    return [
        _line(left, y, right, y),
        _text((left + right) / 2, y - 7 if above else foot + LETTER, letter),
    ]


def _at_level(drawn: Outline, level: float) -> Strip | None:
    """The strip that ends at a height, the last of them."""
    near = [strip for strip in drawn.strips if abs(strip.top - level) < (strip.top - strip.bottom)]
    return min(near, key=lambda one: abs(one.top - level), default=None)


# --- opened out ----------------------------------------------------------------------------


def lettered_arcs(letter: str, measure: Measure, drawn: Outline, frame: Frame) -> list[Markup]:
    """The dimension line of a measure of an opened piece: along an arc, or along its cut edge."""
    centre = frame.y(-drawn.lowest())
    first, last = drawn.arcs[0], drawn.arcs[-1]
    match measure.at:
        case "height":
            return _along_edge(letter, first, last, frame, centre)
        case "start":
            return _along_arc(letter, first, frame, centre, outside=first.radius >= last.radius)
        case "end":
            return _along_arc(letter, last, frame, centre, outside=last.radius > first.radius)
        case _:
            return []


def _along_arc(
    letter: str, arc: Arc, frame: Frame, centre: float, *, outside: bool
) -> list[Markup]:
    """An arc beside the fabric with its letter at the top."""
    side = 1 if outside else -1
    edge = (arc.radius + side * arc.thick / 2) * frame.scale
    radius = max(edge + side * DIMENSION, 4)
    path = Markup('<path class="we-dim" d="{}"/>').format(
        arc_path(frame.middle, centre, radius, arc.angle)
    )
    return [path, _text(frame.middle, centre - radius + (-7 if outside else 16), letter)]


def _along_edge(letter: str, first: Arc, last: Arc, frame: Frame, centre: float) -> list[Markup]:
    """A line along the right cut edge, from the first round to the last."""
    angle = max(first.angle, last.angle) / 2
    inner, outer = sorted((first, last), key=lambda one: one.radius)
    near = (inner.radius - inner.thick / 2) * frame.scale
    far = (outer.radius + outer.thick / 2) * frame.scale
    if angle >= _CLOSED / 2:  # there is no cut to be seen: the line stands below the ring
        left, right, y = frame.middle + near, frame.middle + far, frame.foot + BETWEEN
        return [_line(left, y, right, y), _text(right + DIMENSION, y + 5, letter)]
    out_x, out_y = cos(angle) * DIMENSION * 0.6, sin(angle) * DIMENSION * 0.6
    ends = [
        (frame.middle + sin(angle) * r + out_x, centre - cos(angle) * r + out_y)
        for r in (near, far)
    ]
    (x1, y1), (x2, y2) = ends
    line = Markup('<path class="we-dim" d="{}"/>').format(
        f"M{rounded(x1)} {rounded(y1)}L{rounded(x2)} {rounded(y2)}"
    )
    x, y = (x1 + x2) / 2 + out_x * 1.4, (y1 + y2) / 2 + out_y * 1.4
    return [line, _text(x, y + 5, letter)]


def arc_path(x: float, y: float, radius: float, angle: float) -> str:
    """An arc about a centre with its middle straight above it; a whole circle where it closes."""
    if angle >= _CLOSED:
        r, across = rounded(radius), rounded(2 * radius)
        half = f"a{r} {r} 0 1 1 "
        return f"M{rounded(x - radius)} {rounded(y)}{half}{across} 0{half}-{across} 0"
    from_x, to_x = x - sin(angle / 2) * radius, x + sin(angle / 2) * radius
    level = y - cos(angle / 2) * radius
    large, r = int(angle > pi), rounded(radius)
    return (
        f"M{rounded(from_x)} {rounded(level)}A{r} {r} 0 {large} 1 {rounded(to_x)} {rounded(level)}"
    )


# --- strokes and texts ---------------------------------------------------------------------


def _line(x1: float, y1: float, x2: float, y2: float) -> Markup:
    """A dimension line with a tick at each end."""
    ticks = (
        f"M{rounded(x1)} {rounded(y1 - 5)}v10M{rounded(x2)} {rounded(y2 - 5)}v10"
        if y1 == y2
        else f"M{rounded(x1 - 5)} {rounded(y1)}h10M{rounded(x2 - 5)} {rounded(y2)}h10"
    )
    path = f"M{rounded(x1)} {rounded(y1)}L{rounded(x2)} {rounded(y2)}{ticks}"
    return Markup('<path class="we-dim" d="{}"/>').format(path)


def _text(x: float, y: float, letter: str) -> Markup:
    return Markup('<text x="{}" y="{}" text-anchor="middle">{}</text>').format(
        rounded(x), rounded(y), escape(letter)
    )


def rounded(value: float) -> str:
    """A coordinate to a tenth, without a needless zero."""
    return f"{value:.1f}".removesuffix(".0")
