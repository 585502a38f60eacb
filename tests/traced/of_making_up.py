"""The figures of gauges, drawings and seams."""

from __future__ import annotations

from fractions import Fraction

from tests.traced.asked import Asked
from tests.traced.told import INCH, NOT_WORKED, Told, cm, decimal, inches, number, only, same
from workeven.pattern import CountedOver, Gauge
from workeven.proof.edge_lengths import Measured


def gauge(one: Gauge) -> str:
    """``20 sts and 22 rows of sc = 10 cm / 4 in, with a 3.75 mm hook``."""
    hook = decimal(one.hook.mm, 3) if one.hook else ""
    before = "" if one.before is None else _counted(one.before, "")
    return f"{_counted(one, one.of)} {before} {hook}"


def _counted(one: Gauge | CountedOver, of: str) -> str:
    """Repeats, stitches and rows, over one length or each over its own."""
    sts = f"{'' if one.repeats is None else number(one.repeats)} {number(one.sts)}"
    if one.rows is None:
        return f"{sts} {of} {_over(one.over)}"
    if one.rows_over in (None, one.over):
        return f"{sts} {number(one.rows)} {of} {_over(one.over)}"
    return f"{sts} {of} {_over(one.over)} {number(one.rows)} {_over(one.rows_over)}"


def _over(mm: Fraction | None) -> str:
    assert mm is not None
    return "10 4" if mm in (100, 4 * INCH) else f"{cm(mm)} {inches(mm)}"


def gauge_of(of: Asked, words: str) -> Gauge:
    """The gauge of a stitch."""
    gauges = of.ready.pattern.gauges
    return next(one for one in gauges if words in (one.of, f"{one.of} ({one.name})", one.name))


def in_10_cm(gauge: Gauge, what: str) -> str:
    """What she compares her own swatch with."""
    counted, over = gauge.sts, gauge.over
    if what != "stitches":
        counted, over = gauge.rows or Fraction(0), gauge.rows_over or gauge.over
    return decimal(counted if over in (100, 4 * INCH) else counted * 100 / over, 2)


def drawn_in(of: Asked) -> int:
    """In which size pieces are drawn: that of the film, else the middle one."""
    names, video = of.names, of.ready.pattern.video
    if video and video.shown_size in names:
        return names.index(video.shown_size)
    return (len(names) - 1) // 2


def drawing(of: Asked, what: str) -> Told:
    """In which size it is drawn; what is drawn."""
    at = drawn_in(of)
    name = of.names[at] if len(of.names) > 1 else ""
    if what == "size":
        return same(name, of.sizes)
    if what.startswith("size"):
        return only(name, [at], of.sizes)
    pieces = [one.piece for one in of.ready.proven.pieces if one.piece.make[at]]
    words = [f"{one.title} {one.make[at] if one.make[at] > 1 else ''}" for one in pieces]
    return same(" ".join(words), of.sizes)


def seam(of: Asked, titles: str, column: str, at: int) -> str:
    """A cell of the table of a seam."""
    seam = next(one for one in of.ready.proven.seams if one.seam.title in titles)
    one, other = seam.first[at], seam.second[at]
    if one is None or other is None:
        return NOT_WORKED
    match column:
        case "What meets what":
            return f"{_edge(one)} {_edge(other)}"
        case "Between two pins":
            return f"{_quarter(one)} {_quarter(other)}"
        case "Length":
            return f"{cm(one.length)} {inches(one.length)}"
        case "Meets":
            return f"{cm(other.length)} {inches(other.length)}"
        case _:
            return _ratio(one, other)


def _edge(one: Measured) -> str:
    return " ".join(str(n) for n in (one.sts, one.rows) if n) or "0"


def _quarter(one: Measured) -> str:
    return number(Fraction(one.sts + one.rows, 4))


def _ratio(one: Measured, other: Measured) -> str:
    """The plain ratio with at most four to count that lies nearest."""
    exact = Fraction(one.sts + one.rows, other.sts + other.rows)
    near = min(
        (Fraction(a, b) for b in range(1, 5) for a in range(1, 40)),
        key=lambda ratio: (abs(ratio - exact), ratio.denominator),
    )
    if near == exact == 1 and bool(one.rows) == bool(other.rows):
        return ""
    return f"{near.numerator} {near.denominator if near.denominator > 1 else ''}"
