"""Drawings as SVG: a lettered outline of each piece, and a picture of the whole pattern.

Takes     ``Outline`` and ``Measure`` records, titles.
Gives     ``schematic``, ``cover``: SVG texts with title and description, everything escaped;
          ``side_by_side``, ``seen``, ``yarns_of``, ``hue``, colours: for pictures of another kind.
Problems  none.
From      nothing outside; SVG 2 and its accessibility notes (title and desc as first children).

Every row is a stroke as long as the row, so that a drawing is the count made visible. Rows too thin
to be seen are drawn together. Colours are classes: the page's style sheet sets them for drawings in
the page, a small sheet of their own for pictures in files.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from hashlib import blake2b
from typing import assert_never

from markupsafe import Markup

from workeven.publish.drawings.letters import (
    BETWEEN,
    SHARE,
    THINNEST,
    Frame,
    lettered,
    lettered_arcs,
    rounded,
)
from workeven.publish.drawings.measures import Measure
from workeven.publish.drawings.opened import opened
from workeven.publish.drawings.outline import Outline
from workeven.publish.drawings.placing import Strip
from workeven.records import replace

#: Largest width and height of the fabric in a schematic and in a cover, in units of the drawing.
SCHEMATIC_ROOM = (250.0, 230.0)
COVER_SIZE = (640, 420)
COVER_ROOM = (520.0, 300.0)
#: Copies of a piece that a cover shows; a sixth granny square adds nothing.
MOST_COPIES = 2
#: How many yarn colours and how many hues of covers the style sheets know.
YARNS, HUES = 3, 5
#: The colours of a cover by day: ground, waves, two yarns in each hue, the third yarn.
PAPER, SEA, THIRD_YARN = "#f1ebdd", "#b9c9c9", "#7d8a8c"
YARN_COLOURS = (
    ("#2f6f7a", "#c9b089"),
    ("#a3563b", "#d9c6a0"),
    ("#5b7150", "#cdbb8e"),
    ("#4f5f86", "#c4ad96"),
    ("#8a6f3d", "#9db3ad"),
)

_MARGIN = 44
#: Strips that lie so much (mm) lower than the one before begin a new part.
_SAME_LEVEL = 0.01

_YARNS_BY_DAY = Markup("").join(
    Markup(".h{}{{--a:{};--b:{}}}").format(place, *pair) for place, pair in enumerate(YARN_COLOURS)
)
_COVER_STYLE = Markup(
    ".p{{fill:{}}}.w{{stroke:{}}}{}.y0{{stroke:var(--a)}}.y1{{stroke:var(--b)}}.y2{{stroke:{}}}"
    "@media(prefers-color-scheme:dark){{.p{{fill:#1d2a31}}.w{{stroke:#3d545b}}"
    ".h0{{--a:#6fb3b8;--b:#b9a27c}}.h1{{--a:#d08c6e;--b:#a8946d}}.h2{{--a:#93ad84;--b:#a39468}}"
    ".h3{{--a:#94a5cf;--b:#a8917c}}.h4{{--a:#c5a468;--b:#7d958f}}}}"
).format(PAPER, SEA, _YARNS_BY_DAY, THIRD_YARN)


def schematic(
    drawn: Outline, measures: Sequence[Measure], *, size: int, name: str, words: str
) -> Markup:
    """The outline of one piece, its measures lettered A, B, C in their order.

    ``size`` is the index of the size drawn. ``name`` becomes its title, ``words`` its description.
    """
    scale = min(SCHEMATIC_ROOM[0] / drawn.width(), SCHEMATIC_ROOM[1] / drawn.height())
    wide, high = drawn.width() * scale, drawn.height() * scale
    heights = sorted(
        (one for one in measures if one.at in ("height", "level")),
        key=lambda one: one.lengths[size] or 0,
    )
    left = _MARGIN + BETWEEN * max(0, len(heights) - 1)
    frame = Frame(left + wide / 2, _MARGIN + high, scale)
    body = [_fabric(drawn, frame)]
    for place, measure in enumerate(measures):
        letter = chr(ord("A") + place)
        if drawn.arcs:
            body += lettered_arcs(letter, measure, drawn, frame)
        else:
            aside = heights.index(measure) if measure in heights else 0
            body += lettered(letter, measure, drawn, frame, size=size, aside=aside)
    box = (rounded(wide + left + _MARGIN), rounded(high + 2 * _MARGIN))
    return Markup(
        '<svg class="we-drawing" xmlns="http://www.w3.org/2000/svg" viewBox="0 0 {0} {1}" '
        'width="{0}" height="{1}" role="img"><title>{2}</title><desc>{3}</desc>{4}</svg>'
    ).format(*box, name, words, Markup("").join(body))


def cover(pieces: Sequence[tuple[Outline, int]], *, slug: str, name: str, words: str) -> Markup:
    """All pieces side by side at one scale, each as often as it is made (twice at most)."""
    fabrics = [_fabric(*one) for one in side_by_side(pieces, COVER_SIZE, COVER_ROOM)]
    return Markup(
        '<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 {0} {1}" width="{0}" height="{1}" '
        'role="img" class="h{2}"><title>{3}</title><desc>{4}</desc><style>{5}</style>'
        '<rect class="p" width="{0}" height="{1}"/>{6}{7}</svg>\n'
    ).format(
        *COVER_SIZE,
        hue(slug),
        name,
        words,
        _COVER_STYLE,
        _waves(),
        Markup("").join(fabrics),
    )


def side_by_side(
    pieces: Sequence[tuple[Outline, int]], size: tuple[int, int], room: tuple[float, float]
) -> Iterator[tuple[Outline, Frame]]:
    """Where each copy of a piece stands in a picture of that size, within so much room."""
    shown = [drawn for drawn, times in pieces for _ in range(min(times, MOST_COPIES))]
    gap = max(drawn.width() for drawn in shown) * 0.12
    wide = sum(drawn.width() for drawn in shown) + gap * (len(shown) - 1)
    high = max(drawn.height() for drawn in shown)
    scale = min(room[0] / wide, room[1] / high)
    left = (size[0] - wide * scale) / 2
    foot = (size[1] + high * scale) / 2 - 8
    for drawn in shown:
        yield drawn, Frame(left + drawn.width() * scale / 2, foot, scale)
        left += (drawn.width() + gap) * scale


# --- fabric --------------------------------------------------------------------------------


def _fabric(drawn: Outline, frame: Frame) -> Markup:
    match drawn.shape:
        case "disc":
            return _rings(drawn, frame)
        case "opened":
            return opened(drawn, frame, yarns_of(drawn))
        case "flat" | "tube" | "vessel":
            return _strokes(drawn, frame)
        case _:
            assert_never(drawn.shape)


def _strokes(drawn: Outline, frame: Frame) -> Markup:
    """A stroke for each row, rows of one yarn and thickness in one path."""
    yarns = yarns_of(drawn)
    lines: dict[tuple[int, str], list[str]] = {}
    for strip in seen(drawn.strips, frame.scale):
        thick = (strip.top - strip.bottom) * frame.scale * SHARE
        length = max(0.2, strip.width * frame.scale - thick)
        middle = frame.x((strip.left + strip.right) / 2)
        level = frame.y((strip.bottom + strip.top) / 2)
        path = f"M{rounded(middle - length / 2)} {rounded(level)}h{rounded(length)}"
        lines.setdefault((yarns[strip.yarn], rounded(thick)), []).append(path)
    return Markup("").join(
        Markup(
            '<path class="y{}" fill="none" stroke-width="{}" stroke-linecap="round" d="{}"/>'
        ).format(yarn, thick, "".join(paths))
        for (yarn, thick), paths in lines.items()
    )


def _rings(drawn: Outline, frame: Frame) -> Markup:
    """A circle for each round, seen from above."""
    yarns = yarns_of(drawn)
    centre = frame.foot - drawn.height() * frame.scale / 2
    rings, inner = [], 0.0
    for strip in drawn.strips:
        outer = strip.width / 2 * frame.scale
        if outer - inner >= THINNEST:
            thick = (outer - inner) * SHARE
            rings.append(
                Markup(
                    '<circle class="y{}" fill="none" stroke-width="{}" cx="{}" cy="{}" r="{}"/>'
                ).format(
                    yarns[strip.yarn],
                    rounded(thick),
                    rounded(frame.middle),
                    rounded(centre),
                    rounded((inner + outer) / 2),
                )
            )
            inner = outer
    return Markup("").join(rings)


def seen(strips: Sequence[Strip], scale: float) -> Iterator[Strip]:
    """Strips thick enough to be seen: thin neighbours of one yarn are laid together."""
    bottom = strips[0].bottom
    for strip, after in zip(strips, [*strips[1:], None], strict=True):
        goes_on = (
            after is not None
            and after.yarn == strip.yarn
            and after.bottom >= strip.top - _SAME_LEVEL
        )
        if strip.top > bottom and ((strip.top - bottom) * scale >= THINNEST or not goes_on):
            yield replace(strip, bottom=bottom)
            bottom = strip.top
        if after is not None and not goes_on:
            bottom = after.bottom


def yarns_of(drawn: Outline) -> dict[str, int]:
    """A colour for each yarn in the order in which they come in."""
    strips, arcs = (one.yarn for one in drawn.strips), (one.yarn for one in drawn.arcs)
    names = dict.fromkeys((*strips, *arcs))
    return {name: place % YARNS for place, name in enumerate(names)}


# --- ground --------------------------------------------------------------------------------


def _waves() -> Markup:
    """Two lines of sea at the foot of a cover."""
    wave = "q10 -5 20 0t20 0" * 17
    return Markup('<path class="w" fill="none" stroke-width="1.6" d="M-10 {}{}M-20 {}{}"/>').format(
        COVER_SIZE[1] - 26, wave, COVER_SIZE[1] - 17, wave
    )


def hue(slug: str) -> int:
    """A hue that stays the pattern's own whatever other patterns there are."""
    return blake2b(slug.encode(), digest_size=1).digest()[0] % HUES
