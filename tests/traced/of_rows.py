"""The figures of rows, found anew from the proof and from the designer's line."""

from __future__ import annotations

import re
from fractions import Fraction

from tests.traced.asked import Asked, formula
from tests.traced.made_rows import shaping, used
from tests.traced.told import INCH, NOT_WORKED, Told, by_size, cm, figures, inches, joined, same
from workeven.notation.wording import meaning
from workeven.proof import (
    OTHER_SIDE,
    RING,
    ProvenPiece,
    ProvenRow,
    ProvenSection,
    RowInSize,
    into_rows,
    row_address,
)

Place = tuple[ProvenPiece, ProvenSection, int, ProvenRow]


def places(of: Asked) -> dict[str, Place]:
    """Every row by its address, with its piece, its section, and its place in the piece."""
    return {
        row_address(piece.piece.name, row.anchor): (piece, section, at, row)
        for piece in of.ready.proven.pieces
        for at, (section, row) in enumerate(
            (section, row) for section in piece.sections for row in section.rows
        )
    }


def of_row(of: Asked, place: Place, what: str) -> Told:
    """What an origin says of a row."""
    piece, _, at, row = place
    name, _, rest = what.partition(": ")
    counted = tuple(row.per_size)
    match name:
        case "numbers":
            return _numbers(counted)
        case "times":
            return _by_size([one and _open(one.times) for one in counted])
        case "stitches":
            return _by_size([one and str(one.sts) for one in counted])
        case "multiple":
            assert row.multiple is not None
            shown = [str(one) for one in row.multiple if one]
            return same(" ".join(shown), of.sizes)
        case "length":
            return formula(of, rest, tuple(one is not None for one in counted))
        case "length as written":
            return _written_length(rest, of.sizes)
        case "worked into":
            return _into(of, piece, at)
        case "what its stitches are":
            return same("", of.sizes)
        case _ if name.endswith("sps"):
            return _spaces(counted, name)
        case _ if name.startswith("stated "):
            kind = name.removeprefix("stated ")
            own = [one and _kind(dict(one.stated or ()), kind) for one in counted]
            return _by_size(own).then(same(kind, of.sizes))
        case _:
            return formula(of, what, tuple(one is not None for one in counted))


def of_line(of: Asked, line: int, told: str, how: str) -> Told:
    """Figures of the designer's own, which must stand in her line, in this order."""
    written = list(figures(of.lines[line - 1]))
    for one in figures(told):
        assert one in written, f"line {line} has no {one}"
        del written[: written.index(one) + 1]
    if how == " by size":
        return by_size(re.split(r"[ ,()]+", told.strip("() ")))
    if how:
        return Told(figures(told), ((),) * of.sizes)
    return same(told, of.sizes)


def meanings(of: Asked, place: Place) -> set[str | None]:
    """What the stitches of a row are: by the published tables, or in the designer's words."""
    names = {term.name for term in place[3].row.terms}
    own = {one.text for one in of.ready.pattern.stitches if one.name in names}
    return own | {meaning(name, of.ready.pattern.terms) for name in names}


def _by_size(values: list[str | None]) -> Told:
    return by_size([NOT_WORKED if one is None else one for one in values])


def _open(times: int | None) -> str:
    return NOT_WORKED if times is None else str(times)


def _numbers(counted: tuple[RowInSize | None, ...]) -> Told:
    """``Rnds 4–12 (13, 14)`` where every size begins with one number, else a pair for each."""
    spans = [one and _span(one) for one in counted]
    each = [" ".join(dict.fromkeys(map(str, span))) if span else NOT_WORKED for span in spans]
    told = by_size(each)
    firsts = {span[0] if span else None for span in spans}
    if len(firsts) == 1 and all(span and span[0] != span[1] for span in spans):
        lasts = by_size([str(span[1]) for span in spans if span])
        return Told((str(spans[0][0] if spans[0] else ""), *lasts.all), told.each)
    return told


def _span(one: RowInSize) -> tuple[int, int] | None:
    return None if one.first is None or one.last is None else (one.first, one.last)


def _spaces(counted: tuple[RowInSize | None, ...], name: str) -> Told:
    """So many of a kind, or one whose chains differ by size: ``2 ch-6 (8) sps``."""
    kind = name.removesuffix("s")
    if "(" not in kind:
        own = [one and str(dict(one.makes).get(kind, 0)) for one in counted]
        return _by_size(own).then(same(kind, len(counted)))
    each = [
        next((figures(made)[0], number) for made, number in one.makes if made.endswith(" sp"))
        for one in counted
        if one
    ]
    return by_size([str(number) for _, number in each]).then(by_size([one for one, _ in each]))


def _kind(stated: dict[str, int], kind: str) -> str:
    return str(next((number for name, number in stated.items() if kind.startswith(name)), 0))


def _written_length(text: str, sizes: int) -> Told:
    """A length as the designer wrote it, with the other system beside it."""
    text = re.sub(r"^an? ", "", text.lower())
    unit = re.sub(r"[^a-z\"″]", "", text)
    written = re.split(r"[ ,()]+", re.sub(r"[a-z\"″.]+\s*$", "", text.lower()).strip("() "))
    imperial = unit.startswith(("in", '"', "″", "yd", "f"))
    mm = [
        _exact(one) * (INCH if imperial else {"cm": 10, "mm": 1, "m": 1000}[unit])
        for one in written
    ]
    own = by_size(written if len(written) == sizes else written * sizes)
    printed = [cm(one) if imperial else inches(one) for one in mm]
    other = by_size(printed if len(printed) == sizes else printed * sizes)
    return own.then(other)


def _exact(written: str) -> Fraction:
    vulgar = {"½": "1/2", "¼": "1/4", "¾": "3/4"}
    whole, part = re.fullmatch(r"([\d.]*)([½¼¾]?)", written).groups()  # type: ignore[union-attr]
    return Fraction(whole or 0) + Fraction(vulgar.get(part, 0))


# --- what a row is worked into -------------------------------------------------------------


def _into(of: Asked, piece: ProvenPiece, at: int) -> Told:
    """What is worked into, passed over and left, of every kind, as the proof tells it."""
    every = list(into_rows(of.ready.proven.graded, _own(of, piece)))[at]
    parts = []
    for kinds in ("places", "entered", "over", "left"):
        each = [None if one is None else _basic(getattr(one, kinds)) for one in every]
        names = dict.fromkeys(name for one in each if one for name in one)
        parts += [
            _by_size([None if one is None else str(one.get(name, 0)) for one in each]).then(
                same(name if kinds != "entered" else "", of.sizes)
            )
            for name in names
            if name not in (RING, OTHER_SIDE)
        ]
        if kinds == "places" and any(one and OTHER_SIDE in one for one in each):
            parts.append(_by_size([str(one.get(OTHER_SIDE, 0)) if one else None for one in each]))
        if kinds == "places" and any(one and one.row is not None for one in every):
            parts.append(_by_size([one and str(one.row) for one in every]))
    return joined(parts, of.sizes)


def _own(of: Asked, piece: ProvenPiece) -> ProvenPiece:
    mirrored = piece.piece.mirror
    return next(
        one for one in of.ready.proven.pieces if one.piece.name == (mirrored or piece.piece.name)
    )


def _basic(kinds: tuple[tuple[str, int], ...]) -> dict[str, int]:
    """Decreases as the stitches that they are to the next row."""
    found: dict[str, int] = {}
    for name, number in kinds:
        basic = re.sub(r"(?<=[a-z])\d+tog\Z", "", name)
        found[basic] = found.get(basic, 0) + number
    return found


def spaced(of: Asked, place: Place, text: str, size: int) -> None:
    """Work what a sentence says, stitch by stitch: it uses up the row below and makes this one."""
    piece, _, at, row = place
    into, counted = list(into_rows(of.ready.proven.graded, _own(of, piece)))[at], row.per_size[size]
    below = into[size]
    assert below is not None
    assert counted is not None
    use = used(text)
    assert use.takes == sum(number for kind, number in below.places if " " not in kind), text
    if counted.times == 1:
        assert use.makes == counted.sts, text


def made(of: Asked, place: Place, text: str) -> Told:
    """Work what a row says that nobody wrote: it comes out on the row below, in each size."""
    piece, _, _, row = place
    before = _before(piece, row)
    head, _, told = text.rpartition(" only: ")
    each = [_in_size(told, size, of.sizes) for size in range(of.sizes)]
    for size, steps in enumerate(each):
        counted, below = row.per_size[size], before[size]
        if counted is None or below is None:
            continue
        if even := re.fullmatch(r"work (\d+) r\w+ even", steps):
            assert (int(even[1]), below) == (counted.times, counted.sts), steps
        elif re.match(r"(?:inc|dec|leave) \d", steps):
            rows, change = shaping(steps)
            assert below + change == counted.sts, steps
            assert "leave" in steps or rows == counted.times, steps
        else:
            assert used(steps).takes == below, steps
    assert set(figures(head)) <= {one for name in of.names for one in figures(name)}
    return Told(figures(text), tuple(map(figures, each)))


def _before(piece: ProvenPiece, row: ProvenRow) -> list[int | None]:
    """The stitches before a row, in each size."""
    sts: list[int | None] = [None] * len(tuple(row.per_size))
    for section in piece.sections:
        for one in section.rows:
            if one is row:
                return sts
            sts = [own.sts if own else old for own, old in zip(one.per_size, sts, strict=True)]
    return sts


def _in_size(text: str, size: int, sizes: int) -> str:
    def hers(listed: re.Match[str]) -> str:
        each = re.split(r"[ ,()]+", listed[0].strip("()"))
        return each[size] if len(each) == sizes else listed[0]

    return re.sub(r"[\d–]+ \([^()]*\)", hers, text)
