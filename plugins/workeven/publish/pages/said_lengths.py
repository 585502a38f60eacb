"""Lengths that a designer has written out in her sentences, in both systems.

Takes     a text of hers, how many sizes there are.
Gives     ``in_both_systems``; ``said_lengths``: where they stand; ``behind``.
Problems  none: what is not surely a length stays as it is written.
From      design.md, "Numbers a maker can trust": both unit systems are on the page.

"Cut 20 strands of 30 cm" holds for a maker in inches too. A sentence has no grammar that says what
is a length, so only what can be nothing else is one: "sc 3 in next st" and "sew the 2 feet on" have
none. What is left alone: hooks and other things that are sold by the mm, numbers in words, lists
whose unit stands once ("at 5, 10 and 15 cm"), figures that the other system has no fair rounding
for. Who wants those in both writes braces (``{25 cm}``).
"""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence
from fractions import Fraction
from typing import Literal, NamedTuple

from workeven.arithmetic import printing, quantities
from workeven.publish.pages import figures
from workeven.publish.pages.choices import in_units, plain

_PART = r"[¼½¾⅓⅔⅛⅜⅝⅞]"
_PLAIN = rf"(?:\d{{0,4}}{_PART}|\d{{1,4}}(?:\.\d{{1,3}})?)"
_NUMBER = rf"(?:\d{{1,3}}[ -]\d{{1,2}}/\d{{1,2}}|\d{{1,2}}/\d{{1,2}}|\d{{1,3}} {_PART}|{_PLAIN})"
_METRIC = r"cm|mm|metres?|meters?|m"
#: no feet: a toy has two
_IMPERIAL = r"inches|inch|in\.?|″|\"|yards?|yds?|ft"
_UNIT = rf"(?:{_METRIC}|{_IMPERIAL})"


def _written() -> str:
    """One number, one for each size, or two with what stands between; then their unit."""
    return (
        rf"(?P<numbers>{_PLAIN}(?: \({_PLAIN}(?:, {_PLAIN})*\))+"
        rf"|{_NUMBER}(?:(?: (?:to|or|x|×|by) |(?: ?[–-] ?)|[x×]){_NUMBER})?)"
        rf"[ \u00a0-]?(?P<unit>{_UNIT})(?!\w)"
    )


_LENGTH = re.compile(rf"(?:\b(?P<article>[Aa]n?) )?(?<![\w.,/\u2044¼-¾⅐-⅞#£$€–−-]){_written()}")
#: a row without any of these says no length: "in" and "m" are other words there
_MAY_SAY = ("cm", "mm", "inch", "met", "yd", "yard", " ft", '"', "″", "leav", "Leav", "cut", "Cut")
#: the same in the other system behind it
_BESIDE = re.compile(rf"(?P<between> ?[(\[/=]| or) ?{_written()}(?P<shut>[)\]])?")
_TWO = re.compile(rf"({_NUMBER})( (?:to|or|x|×|by) | ?[–-] ?|[x×])({_NUMBER})")
#: before a number: another that shares its unit, or what is numbered
_SHARED = re.compile(r"(?:[\d}\x03¼-¾⅐-⅞]\)?(?: ?,| ?&| ?[–-]| and| to| or| x| ×| by)) ?\Z")
_NUMBERED = re.compile(
    r"\b(?:rnds?|rows?|rounds?|sizes?|nos?\.?|steps?|hook|rep|repeat)\s\Z", re.IGNORECASE
)
#: "in" is an inch behind these, if no place follows, and before those
_MEASURED = re.compile(
    r"\b(?:leav(?:e|ing)|cut(?:ting)?|measur(?:es?|ing)|over|per|every|about|approx\.?|"
    r"approximately|around|roughly|at least)(?: an?)? \Z",
    re.IGNORECASE,
)
_LEFT = re.compile(r"\b(?:leav(?:e|ing)|cut(?:ting)?)(?: an?)? \Z", re.IGNORECASE)
_A_PLACE = re.compile(
    r"[ -](?:the|each|every|next|same|first|last|one|both|all|it|any|place|front|back|between|an?|"
    r"this|that|these|those|st|sts|sp|sps|lp|lps|ch|rnd|row)\b",
    re.IGNORECASE,
)
_OF_INCHES = re.compile(
    r"[ -](?:long|wide|tall|high|deep|thick|square|apart|diameter|tails?|strands?|longer|shorter|"
    r"seams?|hems?|gap|"
    r"in diameter|from the|of (?:yarn|thread|cord|elastic|ribbon|tail|wire|stuffing))\b",
    re.IGNORECASE,
)
#: cut so many of so much, or so much by so much?
_HOW_MANY = re.compile(r"\b(?:cut|strands?|lengths?|pieces?|tails?)\b", re.IGNORECASE)
_OF_HOOKS = re.compile(r"[ -](?:crochet )?(?:hook|needle)", re.IGNORECASE)
#: figures whose names begin with a vowel: an 8 in tail, a 20 cm tail
_LIKE_A_VOWEL = re.compile(r"8|(?:11|18)(?!\d)")
#: a length in metres, yards or feet that a tape still measures (mm)
_OF_A_TAPE = 3000
#: so much may the rounded figure differ; figures written in both systems may by so much
_FAIR, _ALIKE = Fraction(3, 10), Fraction(1, 10)
#: so many signs around a length tell what it is
_NEAR = 60
#: what is sold by the mm is shorter than this
_SOLD_BY_THE_MM = 25


class Said(NamedTuple):
    """A length in a text: where it stands, its words as written and in the other system.

    ``system``: of the words as written.
    """

    start: int
    end: int
    written: str
    other: str
    system: Literal["cm", "in"]

    @property
    def marked(self) -> str:
        """Both, for the page."""
        metric, imperial = self.written, self.other
        if self.system == "in":
            metric, imperial = imperial, metric
        return in_units(metric, imperial, self.system)


def in_both_systems(text: str, sizes: int) -> str:
    """The text with its lengths in both systems.

    >>> plain(in_both_systems("Cut 20 strands of 30 cm. Sew the 2 feet on, sc 3 in each.", 1))
    'Cut 20 strands of 30 cm / 11¾ in. Sew the 2 feet on, sc 3 in each.'
    """
    parts: list[str] = []
    at = 0
    for said in said_lengths(text, sizes):
        parts += (text[at : said.start], said.marked)
        at = said.end
    return "".join((*parts, text[at:]))


def said_lengths(text: str, sizes: int, *, row: bool = False) -> Iterator[Said]:
    """The lengths that a text says; ``row``: it tells work too, so that "in" is hardly an inch.

    >>> [one.other for one in said_lengths("an 8-inch tail, 10 (12) cm, 4 mm hook, 2 to 3 cm", 2)]
    ['a 20.5 cm', '4 (4¾) in', '¾ to 1¼ in']
    >>> [one.other for one in said_lengths("leave 8 in, sc 3 in next, 2 in from it", 1, row=True)]
    ['20.5 cm']
    """
    if row and not _may_say(text):
        return
    quotes = _quotes_are_inches(text)
    at = 0
    while (found := _LENGTH.search(text, at)) is not None:
        at = found.end()
        if found["unit"] == '"' and not quotes:
            continue
        beside = _BESIDE.match(text, at)
        if beside is not None and _system(beside["unit"]) != _system(found["unit"]):
            at = beside.end()
            said = _pair(found, beside)
        elif text[at : at + 2].lstrip().startswith("/"):
            continue  # so much by the ball, by the hour
        else:
            said = _said(text, found, sizes, row=row)
        if said is not None and not _SHARED.search(_before(text, found.start("numbers"))):
            yield said


def _may_say(row: str) -> bool:
    """A quick no for most rows: a page has hundreds."""
    for sign in _MAY_SAY:  # noqa: SIM110 -- a generator takes three times as long
        if sign in row:
            return True
    return False


def behind(text: str, end: int, *, imperial: bool) -> int:
    """Where the same length in the other system ends, ``end`` where none stands behind it.

    >>> behind("7 in (18 cm) long", 4, imperial=True), behind("7 in long", 4, imperial=True)
    (12, 4)
    """
    beside = _BESIDE.match(text, end)
    other = beside is not None and (_system(beside["unit"]) == "cm") == imperial
    return beside.end() if beside is not None and other else end


def _said(text: str, found: re.Match[str], sizes: int, *, row: bool) -> Said | None:
    start, end = found.start("numbers"), found.end("unit")
    numbers, unit = found["numbers"], found["unit"]
    if unit == "in." and not re.match(r" [a-z]", text[end : end + 2]):
        end, unit = end - 1, "in"  # the stop of the sentence
    before, behind = _before(text, start), text[end : end + _NEAR]
    if _is_braced(text, start) or (row and unit == "m"):
        return None
    if not _is_unit(unit, before, behind, row=row):
        return None
    if (two := _two(numbers)) and _is_no_range(two, before, behind):
        return None
    millimetres = _read(numbers, unit)
    if not millimetres or ("(" in numbers and len(millimetres) != sizes):
        return None
    if unit == "mm" and (min(millimetres) < _SOLD_BY_THE_MM or _OF_HOOKS.match(behind)):
        return None
    other = _in_other(millimetres, numbers, unit)
    if other is None:
        return None
    written = text[start:end]
    if (article := found["article"]) is not None:
        there = f"{article[0]}{'n' if _LIKE_A_VOWEL.match(other) else ''}"
        if there != article:
            start = found.start("article")
            written, other = text[start:end], f"{there} {other}"
    return Said(start, end, written, other, _system(unit))


def _pair(found: re.Match[str], beside: re.Match[str]) -> Said | None:
    """What is written in both systems: "30 cm (12 in)"; None where they are not the same."""
    first, second = (_read(one["numbers"], one["unit"]) for one in (found, beside))
    alike = len(first) == len(second) and all(
        abs(a - b) <= max(a, b) * _ALIKE for a, b in zip(first, second, strict=True)
    )
    opened = (beside["between"].strip() in ("(", "[")) == (beside["shut"] is not None)
    if not first or not alike or not opened:
        return None
    return Said(
        found.start("numbers"),
        beside.end(),
        found.string[found.start("numbers") : found.end()],
        found.string[beside.start("numbers") : beside.end("unit")],
        _system(found["unit"]),
    )


def _before(text: str, at: int) -> str:
    """The words just before: more say nothing of a length, and a text may be long."""
    return text[max(0, at - _NEAR) : at]


def _system(unit: str) -> Literal["cm", "in"]:
    return "cm" if re.fullmatch(_METRIC, unit) else "in"


def _quotes_are_inches(text: str) -> bool:
    """Whether each sign that may be an inch stands behind a figure: else it closes a quotation."""
    return all(re.search(rf"(?:\d|{_PART})\Z", part) for part in text.split('"')[:-1])


def _is_braced(text: str, at: int) -> bool:
    return text.rfind("{", 0, at) > text.rfind("}", 0, at)


def _is_unit(unit: str, before: str, behind: str, *, row: bool) -> bool:
    """Whether "in" is an inch here; any other unit is one everywhere."""
    if unit not in ("in", "in."):
        return True
    measured = (_LEFT if row else _MEASURED).search(before) is not None
    if measured and not _A_PLACE.match(behind):
        return True
    return not row and (unit == "in." or _OF_INCHES.match(behind) is not None)


def _is_no_range(two: re.Match[str], before: str, behind: str) -> bool:
    """Whether two numbers may be another thing than a range or two sides: a row's, how many."""
    many = _are_sides(two) and _HOW_MANY.search(f"{before} {behind}") is not None
    return many or _NUMBERED.search(before) is not None


def _are_sides(two: re.Match[str]) -> bool:
    return two[2].strip() in ("x", "×", "by")


def _two(numbers: str) -> re.Match[str] | None:
    """A range, or two sides; 3-1/2 is one number."""
    return None if re.fullmatch(_NUMBER, numbers) else _TWO.fullmatch(numbers)


def _read(numbers: str, unit: str) -> tuple[Fraction, ...]:
    """The lengths of one figure, of a list by size or of a range; () where they are none."""
    two = _two(numbers)
    each = (two[1], two[3]) if two else (numbers,)
    try:
        read = [quantities.lengths(f"{one} {unit}") for one in each]
    except quantities.QuantityFault:
        return ()
    return tuple(mm for one in read for mm in one)


def _in_other(millimetres: Sequence[Fraction], numbers: str, unit: str) -> str | None:
    """The same in the other system, None where its rounding would be another length."""
    long = max(millimetres) > _OF_A_TAPE
    by_the_shop = long and unit not in ("mm", "cm", "inches", "inch", "in", "in.", "″", '"')
    if _system(unit) == "cm":
        step, word = (printing.print_yards, "yd") if by_the_shop else (printing.print_in, "in")
    else:
        step, word = (printing.print_metres, "m") if by_the_shop else (printing.print_cm, "cm")
    printed = [step(mm, unit=False) for mm in millimetres]
    for mm, one in zip(millimetres, printed, strict=True):
        if abs(quantities.length(f"{one} {word}") - mm) > mm * _FAIR:
            return None
    if "(" in numbers:
        return f"{plain(figures.trade(printed))} {word}"
    two = _two(numbers)
    if two and (_are_sides(two) or len(set(printed)) > 1):
        return f"{two[2].join(printed)} {word}"
    return f"{printed[0]} {word}"
