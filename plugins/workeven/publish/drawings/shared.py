"""Pictures for other programs, as PNG: a pattern's for who shares its page, an icon for a phone.

Takes     ``Outline`` records; the size of an icon.
Gives     ``shared``, ``icon``.
Problems  none.
From      The Open Graph protocol (ogp.me): ``og:image``; common practice: 1200 by 630 pixels.

Programs that show shared pages draw no SVG, so this one picture is in pixels. It shows what the
cover does, row for row, and no words: the title stands beside it, and letters would need a font.
"""

from __future__ import annotations

from collections.abc import Sequence

from workeven.publish.drawings import opened, svg
from workeven.publish.drawings.letters import SHARE, THINNEST, Frame
from workeven.publish.drawings.outline import Outline
from workeven.publish.drawings.raster import Canvas

SHARED_SIZE = (1200, 630)
_ROOM = (980.0, 450.0)
_WAVES = svg.YARNS


def shared(pieces: Sequence[tuple[Outline, int]], *, slug: str) -> bytes:
    """The pieces of a pattern side by side, each as often as it is made (twice at most)."""
    colours = (*svg.YARN_COLOURS[svg.hue(slug)], svg.THIRD_YARN, svg.SEA)
    canvas = Canvas(*SHARED_SIZE, svg.PAPER, colours)
    canvas.wave(SHARED_SIZE[1] - 44, 0, _WAVES)
    canvas.wave(SHARED_SIZE[1] - 27, 40, _WAVES)
    for drawn, frame in svg.side_by_side(pieces, SHARED_SIZE, _ROOM):
        _fabric(canvas, drawn, frame)
    return canvas.png()


def icon(size: int) -> bytes:
    """Three rounds of a shell above the sea, within the middle that every phone leaves whole."""
    canvas = Canvas(size, size, svg.PAPER, (svg.YARN_COLOURS[0][0], svg.YARN_COLOURS[0][1]))
    unit = size / 48
    for place, radius in enumerate((4.5, 9.0, 13.5)):
        canvas.arc(24 * unit, 30 * unit, radius * unit, 3 * unit, 3.15, place % 2)
    canvas.bar(12 * unit, 36 * unit, 35 * unit, 2.6 * unit, 0)
    return canvas.png()


def _fabric(canvas: Canvas, drawn: Outline, frame: Frame) -> None:
    yarns = svg.yarns_of(drawn)
    if drawn.shape == "opened":
        centre = frame.y(-drawn.lowest())
        for arc in opened.seen(drawn.arcs, frame.scale):
            thick = arc.thick * frame.scale * SHARE
            radius = arc.radius * frame.scale
            canvas.arc(frame.middle, centre, radius, thick, arc.angle, yarns[arc.yarn])
    elif drawn.shape == "disc":
        _rings(canvas, drawn, frame)
    else:
        for strip in svg.seen(drawn.strips, frame.scale):
            thick = (strip.top - strip.bottom) * frame.scale * SHARE
            half = max(0.1, (strip.width * frame.scale - thick) / 2)
            middle = frame.x((strip.left + strip.right) / 2)
            level = frame.y((strip.bottom + strip.top) / 2)
            canvas.bar(middle - half, middle + half, level, thick, yarns[strip.yarn])


def _rings(canvas: Canvas, drawn: Outline, frame: Frame) -> None:
    yarns = svg.yarns_of(drawn)
    centre, inner = frame.foot - drawn.height() * frame.scale / 2, 0.0
    for strip in drawn.strips:
        outer = strip.width / 2 * frame.scale
        if outer - inner >= THINNEST:
            radius, thick = (inner + outer) / 2, (outer - inner) * SHARE
            canvas.ring(frame.middle, centre, radius, thick, yarns[strip.yarn])
            inner = outer
