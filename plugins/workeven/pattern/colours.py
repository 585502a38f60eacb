"""The colours of a pattern by name, and whether every colour that it names is listed.

Takes     a ``Pattern``.
Gives     ``Palette``; ``colours_unlisted``: a check.
Problems  ``yarn-colour-unlisted``.
From      design.md, "A pattern file": ``yarn`` (``colours``).

A row names a colour as its yarn lists it, or as the band calls it, or it names the yarn itself:
capitals and small letters are alike. A colour that its own yarn does not list may be another's.
"""

from __future__ import annotations

from collections.abc import Iterator
from typing import NamedTuple

from workeven.notation.asides import names_part
from workeven.notation.colours import ColourSaid, colours_said
from workeven.pattern.records import Pattern, Yarn
from workeven.problems import Problem, Span
from workeven.problems.words import did_you_mean, joined, quote

#: other words for the two colours that many patterns have (common practice)
_ALIKE = {"mc": "main", "cc": "contrast", "main": "mc", "contrast": "cc"}


class Shade(NamedTuple):
    """A yarn, and which of its colours; None where it lists none, or several."""

    yarn: str
    colour: str | None


class Palette:
    """Every colour and yarn of a pattern by the names that rows may call it."""

    def __init__(self, yarns: tuple[Yarn, ...]) -> None:
        self.yarns = {yarn.name: yarn for yarn in yarns}
        self._own: dict[tuple[str, str], Shade] = {}
        self._any: dict[str, Shade] = {}
        for yarn in yarns:
            for colour, band in zip(yarn.colours, yarn.shades or yarn.colours, strict=True):
                for name in (_plain(colour), _plain(band)):
                    self._own.setdefault((yarn.name, name), Shade(yarn.name, colour))
                    self._any.setdefault(name, Shade(yarn.name, colour))
        for yarn in yarns:
            self._any.setdefault(_plain(yarn.name), self.only(yarn.name))
            self._any.setdefault(_plain(yarn.label), self.only(yarn.name))

    def only(self, yarn: str) -> Shade:
        """A yarn in its only colour; without one where it lists several."""
        colours = self.yarns[yarn].colours
        return Shade(yarn, colours[0] if len(colours) == 1 else None)

    def of(self, name: str, yarn: str) -> Shade | None:
        """What a row in that yarn means by a name; None where nothing is called so."""
        plain = _plain(name)
        for one in (plain, _ALIKE.get(plain, plain)):
            found = self._own.get((yarn, one)) or self._any.get(one)
            if found is not None:
                return found
        return None


def _plain(name: str) -> str:
    """A name without what does not tell it from others.

    >>> _plain("Colour  B"), _plain("Sea Green yarn")
    ('b', 'sea green')
    """
    words = name.casefold().split()
    kept = [word for word in words if word not in ("colour", "color", "yarn", "shade")]
    return " ".join(kept or words)


def palette_of(pattern: Pattern) -> Palette:
    """The colours of a pattern by name."""
    return Palette(pattern.yarns)


# --- colours that are not listed -----------------------------------------------------------


def colours_unlisted(pattern: Pattern) -> Iterator[Problem]:
    """A row, section, seam or trimming names a colour that no yarn has; each name told once."""
    palette = palette_of(pattern)
    told: dict[str, _Named] = {}
    for one in _named(pattern):
        if palette.of(one.name, one.yarn) is None:
            told.setdefault(_plain(one.name), one)
    if told and not any(yarn.colours for yarn in pattern.yarns):
        yield _none_listed(list(told.values()))
        return
    for one in told.values():
        yield _unlisted(pattern, one)


class _Named(NamedTuple):
    """A colour that is named, where, in which yarn, and in which piece."""

    name: str
    span: Span
    yarn: str
    piece: str | None


def _named(pattern: Pattern) -> Iterator[_Named]:
    """Every colour that is named, in the order of the file."""
    first = pattern.yarns[0].name
    for piece in pattern.pieces:
        for section in piece.sections:
            yarn = section.yarn or first
            if section.colour is not None:
                for name in named_in_turn(section.colour.text):
                    yield _Named(name, section.colour.span, yarn, piece.title)
            for row in section.rows:
                for one in colours_said(row.text) if row.body is not None else ():
                    span = row.span.within(one.start, one.end)
                    yield from (_Named(name, span, yarn, piece.title) for name in _names(one))
    sewn = ((one.colour, one.yarn) for one in pattern.seams)
    trimmed = ((one.colour, one.yarn) for one in pattern.trimmings)
    for colour, yarn_of in (*sewn, *trimmed):
        if colour is not None:
            yield _Named(colour.text, colour.span, yarn_of or first, None)


def named_in_turn(text: str) -> tuple[str, ...]:
    """The colours of a section: the one that it is worked in, or those in turn.

    >>> named_in_turn("Sand"), named_in_turn("2 rows Sand, 2 rows Foam")
    (('Sand',), ('Sand', 'Foam'))
    """
    said = colours_said(f"in colour order: {text}")
    names = tuple(name for one in said for _, name in one.order if name)
    return names if text[:1].isdigit() and names else (text,)


def _names(one: ColourSaid) -> tuple[str, ...]:
    """What a row surely names: in the brackets of its number other words may stand.

    "Join Sleeve to Body" names parts of the piece.
    """
    if one.way in ("label", "cut", "carry"):
        return ()
    found = [name for _, name in one.order] if one.way == "order" else [one.name]
    return tuple(name for name in dict.fromkeys(found) if name and not is_part(name))


def is_part(name: str) -> bool:
    """Whether a name with a capital is that of a part of the piece.

    >>> is_part("Left Sleeve"), is_part("Leaf Green")
    (True, False)
    """
    return names_part(name.rsplit(maxsplit=1)[-1])


def _none_listed(named: list[_Named]) -> Problem:
    """Colours are named, and no yarn lists any: one slip, told at the first of them."""
    names = [one.name for one in named]
    several = len(names) > 1
    return Problem(
        code="yarn-colour-unlisted",
        span=named[0].span,
        found=f"The colour{'s' if several else ''} {joined(map(quote, names))} "
        f"{'are' if several else 'is'} used, and no yarn lists any colours.",
        expected="A pattern whose yarns list no colours is worked in one colour.",
        mend=f"List the colours under the yarn: `colours: [{', '.join(names)}]`, so that the "
        "amount of each is counted; or take them out of the rows.",
        piece=named[0].piece,
    )


def _unlisted(pattern: Pattern, one: _Named) -> Problem:
    """A name beside colours that are listed."""
    listed = [colour for yarn in pattern.yarns for colour in yarn.colours]
    lines = [
        f"{quote(yarn.name)} lists {joined(map(quote, yarn.colours))}."
        for yarn in pattern.yarns
        if yarn.colours
    ]
    return Problem(
        code="yarn-colour-unlisted",
        span=one.span,
        found=f"The colour {quote(one.name)} is used, and no yarn lists it.",
        expected=" ".join(lines),
        mend=did_you_mean(one.name, listed)
        or f"Add it to the `colours` of {quote(one.yarn)}, or write one of those.",
        piece=one.piece,
    )
