"""Drawings as PNG, for programs that show no SVG: bars, rings and arcs on a plain ground.

Takes     a size in pixels, colours, shapes.
Gives     ``Canvas``: ``bar``, ``ring``, ``arc``, ``png``.
Problems  none.
From      W3C, "Portable Network Graphics (PNG) Specification (Third Edition)": one byte a pixel, an
          index into a palette.

A row of pixels is filled from one place to another; where a shape ends within a pixel, the pixel
takes as much of its colour as it is covered. The palette holds each colour in so many shares that
edges look smooth, and the file stays small.
"""

from __future__ import annotations

import zlib
from collections.abc import Sequence
from math import ceil, cos, floor, inf, pi, sin, sqrt, tan
from struct import pack

Colour = tuple[int, int, int]

#: How many shares of a colour over the ground the palette knows: 1/16 to 16/16.
_SHARES = 16
_WAVE = 80
_SIGNATURE = b"\x89PNG\r\n\x1a\n"


def colour(written: str) -> Colour:
    """A colour as it is written in a style sheet.

    >>> colour("#2f6f7a")
    (47, 111, 122)
    """
    red, green, blue = bytes.fromhex(written.removeprefix("#"))
    return red, green, blue


class Canvas:
    """A ground of one colour, and what is drawn on it; colours are named by their places."""

    def __init__(self, width: int, height: int, ground: str, colours: Sequence[str]) -> None:
        self.width, self.height = width, height
        self._ground, self._colours = colour(ground), tuple(map(colour, colours))
        self._rows = [bytearray(width) for _ in range(height)]

    def bar(self, left: float, right: float, level: float, thick: float, ink: int) -> None:
        """A level stroke with round ends; ``left`` and ``right`` are the middles of the ends."""
        half = thick / 2
        for row, off in self._rows_at(level - half, level + half, level):
            round_end = sqrt(max(0.0, half * half - off * off))
            share = min(1.0, half + 0.5 - abs(off))
            self._fill(row, left - round_end, right + round_end, ink, share)

    def ring(self, x: float, y: float, radius: float, thick: float, ink: int) -> None:
        """A circle of a thick line."""
        self.arc(x, y, radius, thick, 2 * pi, ink)

    def arc(self, x: float, y: float, radius: float, thick: float, angle: float, ink: int) -> None:
        """A part of a ring whose middle is straight above its centre."""
        outer, inner = radius + thick / 2, max(0.0, radius - thick / 2)
        low = y + outer if angle >= pi else y - cos(angle / 2) * inner
        for row, off in self._rows_at(y - outer, low, y):
            far, near = _chord(outer, off), _chord(inner, off)
            for start, end in _within(near, far, -off, angle):
                if not start:
                    self._fill(row, x - end, x + end, ink)
                    continue
                self._fill(row, x + start, x + end, ink)
                self._fill(row, x - end, x - start, ink)

    def wave(self, level: float, shift: int, ink: int) -> None:
        """A line of sea across the whole width: a wave is 80 long and 10 high, the line 3 thick."""
        for at in range(_WAVE):
            height = level + 5 * sin((at + shift) * 2 * pi / _WAVE)
            for row, off in self._rows_at(height - 1.5, height + 1.5, height):
                self._fill(row, at, at + 1, ink, min(1.0, 2.0 - abs(off)))
        for row, _ in self._rows_at(level - 7, level + 7, level):
            one = self._rows[row][:_WAVE]
            self._rows[row] = (one * ceil(self.width / _WAVE))[: self.width]

    def png(self) -> bytes:
        """The picture as a file."""
        head = pack(">IIBBBBB", self.width, self.height, 8, 3, 0, 0, 0)
        pixels = b"".join(b"\0" + bytes(row) for row in self._rows)
        return b"".join(
            (
                _SIGNATURE,
                _chunk(b"IHDR", head),
                _chunk(b"PLTE", self._palette()),
                _chunk(b"IDAT", zlib.compress(pixels, 6)),
                _chunk(b"IEND", b""),
            )
        )

    def _palette(self) -> bytes:
        shares = [bytes(self._ground)]
        shares += [
            bytes(
                round(below + (above - below) * share / _SHARES)
                for below, above in zip(self._ground, ink, strict=True)
            )
            for ink in self._colours
            for share in range(1, _SHARES + 1)
        ]
        return b"".join(shares)

    def _rows_at(self, top: float, bottom: float, middle: float) -> list[tuple[int, float]]:
        """The rows between two levels, each with how far its middle lies from the other level."""
        first, last = max(0, floor(top)), min(self.height - 1, ceil(bottom))
        return [(row, row + 0.5 - middle) for row in range(first, last + 1)]

    def _fill(self, row: int, left: float, right: float, ink: int, share: float = 1.0) -> None:
        """Lay a colour from one place to another; nothing is laid outside the picture."""
        left, right = max(0.0, left), min(float(self.width), right)
        if left >= right or share <= 0:
            return
        first, last = floor(left), ceil(right) - 1
        if first == last:
            self._lay(row, first, ink, share * (right - left))
            return
        self._lay(row, first, ink, share * (first + 1 - left))
        self._lay(row, last, ink, share * (right - last))
        pixel = _index(ink, share)
        self._rows[row][first + 1 : last] = bytes((pixel,)) * (last - first - 1)

    def _lay(self, row: int, at: int, ink: int, share: float) -> None:
        """Lay a colour on one pixel, where it covers more than what is there."""
        pixel = _index(ink, share)
        there = self._rows[row][at]
        if not there or (pixel - 1) % _SHARES > (there - 1) % _SHARES:
            self._rows[row][at] = pixel


def _index(ink: int, share: float) -> int:
    """The place of a share of a colour in the palette; 0 is the ground."""
    sixteenths = round(share * _SHARES)
    return 1 + ink * _SHARES + sixteenths - 1 if sixteenths else 0


def _chord(radius: float, off: float) -> float:
    """Half of the width of a circle, so far from its middle."""
    return sqrt(max(0.0, radius * radius - off * off))


def _within(near: float, far: float, up: float, angle: float) -> list[tuple[float, float]]:
    """What of the right half of a ring's row lies within the opening, as distances from the axis.

    ``up`` is how far the row lies above the centre. An opening of less than half a turn ends at a
    slanting line above the centre, a wider one at a line below it.
    """
    half = angle / 2
    if half >= pi - 0.01:
        return [(near, far)]
    if half == pi / 2:
        return [(near, far)] if up > 0 else []
    slant = up * tan(half)
    low, high = (-inf, slant) if half < pi / 2 else (slant if up < 0 else -inf, inf)
    start, end = max(near, low), min(far, high)
    return [(start, end)] if start < end else []


def _chunk(kind: bytes, content: bytes) -> bytes:
    return pack(">I", len(content)) + kind + content + pack(">I", zlib.crc32(kind + content))
