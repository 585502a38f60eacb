"""What a maker reckons with her own yarn and her own gauge: the exact numbers for the script.

Takes     ``ReadyPattern``.
Gives     ``MineView``: ``mine``, None where there is nothing to reckon with.
Problems  none.
From      DEVELOPERS.md, "The reader's page"; ``yarn/buying.py``: balls are whole, up.

``theme/scripts/mine.js`` is the one calculator of a page. It is given exact fractions of mm
("2500 3600 /7" are two) and works in whole numbers, so that what it rounds is what the build would
have rounded; tests hold every figure against the same rules here.

A gauge of her own leaves stitches and rows as they are: at 16 stitches to 10 cm, 160 are 1000 mm;
at 17 they are 1000 × 16 / 17. What is measured with a tape while one works does not hang on it.
"""

from __future__ import annotations

import json
from collections.abc import Iterable, Iterator
from fractions import Fraction
from math import lcm
from typing import Literal

from markupsafe import Markup

from workeven.arithmetic import printing
from workeven.arithmetic.units import FOUR_IN, TEN_CM
from workeven.pattern import Gauge
from workeven.pipeline import ReadyPattern
from workeven.publish.pages import figures
from workeven.publish.pages.sizes import called
from workeven.records import record
from workeven.yarn import YarnNeed
from workeven.yarn.longer import FIVE_CM, Lengths, Longer, MoreColour, lengthened

Word = Literal["sts", "rows"]


@record
class GaugeField:
    """A gauge that she may have another of: what it is of, and its figures over 10 cm / 4 in.

    They are "" where nothing on the page is counted by them. ``rows_word`` is ``rows`` or
    ``rounds``.
    """

    of: str
    sts: str
    rows: str
    rows_word: str


@record
class MineView:
    """The fields, and the numbers behind them as JSON."""

    yarn: bool
    lengths: bool
    units: str
    gauges: tuple[GaugeField, ...]
    wanted: str
    numbers: Markup


def mine(ready: ReadyPattern, more: Lengths | None = None) -> MineView | None:
    """All that a maker may reckon with on this page.

    ``more``: the lengths to which yarn may be added; worked out here where they are not given.
    """
    yarns = [*_yarns(ready)]
    pieces = _pieces(ready, more) if yarns else []
    measured = [*_measured(ready)]
    gauges = [gauge for gauge in ready.pattern.gauges if any(gauge is one[2] for one in measured)]
    if not yarns and not measured:
        return None
    pattern = ready.pattern
    wide = _foremost(ready, measured)
    numbers = {
        "sizes": pattern.sizes.names,
        "units": pattern.studio.units,
        "yarns": yarns,
        "gauges": [{"sts": _exact(_sts(gauge)), "rows": _exact(_rows(gauge))} for gauge in gauges],
        "measured": [
            {
                "name": figures.heading(name),
                "gauge": gauges.index(gauge),
                "by": word,
                "mm": _together(ready.proven.finished[name]),
            }
            for name, word, gauge in measured
        ],
        "wide": wide,
        "lengths": pieces,
    }
    return MineView(
        yarn=bool(yarns),
        lengths=bool(pieces),
        units=pattern.studio.units,
        gauges=tuple(_field(gauge, measured) for gauge in gauges),
        wanted="" if wide is None else figures.heading(measured[wide][0]).lower(),
        numbers=_json(numbers),
    )


# --- yarn ----------------------------------------------------------------------------------


def _yarns(ready: ReadyPattern) -> Iterator[dict[str, object]]:
    """The length (mm) of each yarn in every size, by colour where there are several."""
    for need in ready.yarn.needs:
        for name, lengths in _named(need):
            yield {
                "name": name if len(ready.yarn.needs) > 1 or need.colours else "",
                "mm": _together(lengths),
                "per": _exact(need.yarn.put_up.length / need.yarn.put_up.mass * 100),
                "ball": _exact(need.yarn.put_up.length),
            }


def _named(need: YarnNeed) -> Iterator[tuple[str, Iterable[Fraction]]]:
    name = called(need.yarn)
    for one in need.colours:
        yield f"{name}, {need.yarn.shade(one.colour)}", one.length
    if not need.colours:
        yield name, need.length


# --- a longer or a shorter piece -----------------------------------------------------------


def _pieces(ready: ReadyPattern, more: Lengths | None) -> list[dict[str, object]]:
    """Where rows may come and go, and what that changes: only whole steps that come out.

    ``more``: the yarn (mm) of one step, by the place of the yarn or colour.
    """
    found: dict[tuple[str, tuple[str, ...], str], dict[str, object]] = {}
    at, told = 0, lengthened(ready.proven, ready.yarn.needs) if more is None else more
    for need in ready.yarn.needs:
        for one in told[need.yarn.name]:
            parts: tuple[Longer | MoreColour, ...] = one.colours or (one,)
            if one.step and one.fewer is not None and any(one.fewer):
                line = found.setdefault((one.name, one.pieces, one.section), _length(ready, one))
                steps = line["more"]
                assert isinstance(steps, dict)
                for place, part in enumerate(parts, start=at):
                    step = one.step * one.row / FIVE_CM
                    steps[place] = _together(mm * step for mm in part.five_cm)
        at += len(need.colours) or 1
    return [*found.values()]


def _length(ready: ReadyPattern, one: Longer) -> dict[str, object]:
    finished = ready.proven.finished.get(one.name)
    assert one.fewer is not None
    return {
        "name": f"{figures.listed(one.pieces)}: {figures.heading(one.name or one.section).lower()}",
        "step": one.step,
        "row": _exact(one.row),
        "fewer": [-1 if fewer is None else fewer for fewer in one.fewer],
        "mm": None if finished is None else _together(finished),
        "more": {},
    }


# --- gauge ---------------------------------------------------------------------------------


def _measured(ready: ReadyPattern) -> Iterator[tuple[str, Word, Gauge]]:
    """Finished measurements that stitches or rows are counted over, each with its gauge."""
    finished = ready.proven.finished
    told: set[str] = set()
    for count in ready.proven.graded.counts.values():
        name, word, gauge = count.measurement, count.word, count.gauge
        if name is None or word is None or gauge is None or name in told:
            continue
        if name in finished and count.measures == finished[name]:
            told.add(name)
            yield name, word, gauge


def _foremost(ready: ReadyPattern, measured: list[tuple[str, Word, Gauge]]) -> int | None:
    """Which of them her size is chosen by: one around the body, else the first width."""
    around = {ease.finished for ease in ready.proven.ease}
    wide = [at for at, (_, word, _) in enumerate(measured) if word == "sts"]
    return next((at for at in wide if measured[at][0] in around), next(iter(wide), None))


def _field(gauge: Gauge, measured: list[tuple[str, Word, Gauge]]) -> GaugeField:
    words = {word for _, word, one in measured if one is gauge}
    sts = printing.decimal(_sts(gauge), 2)
    return GaugeField(
        of=gauge.of,
        sts=sts if "sts" in words else "",
        rows=printing.decimal(_rows(gauge), 2) if "rows" in words else "",
        rows_word="rounds" if gauge.rounds else "rows",
    )


def _sts(gauge: Gauge) -> Fraction:
    return _as_asked(gauge.sts, gauge.over)


def _rows(gauge: Gauge) -> Fraction:
    """0 where they were not counted."""
    if gauge.rows is None:
        return Fraction(0)
    return _as_asked(gauge.rows, gauge.rows_over or gauge.over)


def _as_asked(counted: Fraction, over: Fraction) -> Fraction:
    """So many over 10 cm or 4 in, which are the same to the trade: a gauge over either stands so.

    A maker counts hers over the same length, and only the one to the other is reckoned with.
    """
    return counted if over in (TEN_CM, FOUR_IN) else counted * TEN_CM / over


# --- as the script reads it ------------------------------------------------------------------


def _exact(value: Fraction) -> str:
    return str(value)


def _together(values: Iterable[Fraction]) -> str:
    """Several over one denominator: its digits are said once.

    >>> _together((Fraction(1, 2), Fraction(2, 3)))
    '3 4 /6'
    """
    told = tuple(values)
    under = lcm(*(one.denominator for one in told))
    return f"{' '.join(str(int(one * under)) for one in told)} /{under}"


def _json(numbers: object) -> Markup:
    """JSON that may stand in a page: no sign in it can end its element."""
    text = json.dumps(numbers, ensure_ascii=False, separators=(",", ":"))
    return Markup(text.replace("<", "\\u003c").replace("&", "\\u0026"))  # noqa: S704, no sign of HTML is left
