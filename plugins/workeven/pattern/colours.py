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
    told: set[str] = set()
    for name, span, yarn, piece in _named(pattern):
        if _plain(name) not in told and palette.of(name, yarn) is None:
            told.add(_plain(name))
            yield _unlisted(pattern, name, span, yarn, piece)


def _named(pattern: Pattern) -> Iterator[tuple[str, Span, str, str | None]]:
    """Every colour that is named, where, in which yarn, and in which piece."""
    first = pattern.yarns[0].name
    for piece in pattern.pieces:
        for section in piece.sections:
            yarn = section.yarn or first
            if section.colour is not None:
                for name in named_in_turn(section.colour.text):
                    yield name, section.colour.span, yarn, piece.title
            for row in section.rows:
                for one in colours_said(row.text) if row.body is not None else ():
                    span = row.span.within(one.start, one.end)
                    yield from ((name, span, yarn, piece.title) for name in _names(one))
    sewn = ((one.colour, one.yarn) for one in pattern.seams)
    trimmed = ((one.colour, one.yarn) for one in pattern.trimmings)
    for colour, yarn_of in (*sewn, *trimmed):
        if colour is not None:
            yield colour.text, colour.span, yarn_of or first, None


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


def _unlisted(pattern: Pattern, name: str, span: Span, yarn: str, piece: str | None) -> Problem:
    of = next(one for one in pattern.yarns if one.name == yarn)
    listed = [colour for one in pattern.yarns for colour in one.colours]
    if not listed:
        return Problem(
            code="yarn-colour-unlisted",
            span=span,
            found=f"The colour {quote(name)} is used, and no yarn lists any colours.",
            expected="A pattern whose yarns list no colours is worked in one colour.",
            mend=f"List the colours under the yarn: `colours: [{name}, …]`, so that the amount of "
            "each is counted; or take the colour out of the row.",
            piece=piece,
        )
    near = did_you_mean(name, listed)
    own = f"{quote(yarn)} lists {joined(map(quote, of.colours))}." if of.colours else ""
    others = [one for one in pattern.yarns if one.colours and one is not of]
    rest = [f"{quote(one.name)} lists {joined(map(quote, one.colours))}." for one in others]
    return Problem(
        code="yarn-colour-unlisted",
        span=span,
        found=f"The colour {quote(name)} is used, and no yarn lists it.",
        expected=" ".join([own, *rest]).strip(),
        mend=near or f"Add it to the `colours` of {quote(yarn)}, or write one of those.",
        piece=piece,
    )
