"""Care in words, and whether the fibres bear it.

Takes     the value of ``care``; a ``Pattern``.
Gives     ``care_of``; ``care_borne``, ``fibres_sum``.
Problems  ``care-word``, ``care-contradicts``, ``care-fibre``, ``yarn-fibre-sum``.
From      ISO 3758 by way of ``standards/care.csv``; what fibres bear is common practice.

The care of a thing is that of the most delicate fibre in it: of several yarns the mildest rule
holds. Free words are printed as they stand; of what they say, only what cannot be mistaken is
judged: "machine wash at 60 °C", "tumble dry", "iron at 200 °C", where nothing denies it.
"""

from __future__ import annotations

import re
from collections.abc import Iterator
from fractions import Fraction
from typing import TYPE_CHECKING, Literal

from workeven.pattern.care_records import Care, Treatment
from workeven.pattern.reading import Reading, entries, words
from workeven.pattern.records import Pattern, Yarn
from workeven.problems import Note, Problem, Span
from workeven.problems.words import did_you_mean, joined, quote
from workeven.records import record
from workeven.source import Node

if TYPE_CHECKING:  # its tables are read for few patterns
    from workeven.standards.care import CareWord, Fibre

Group = Literal["wash", "dry", "iron"]

_PERCENT = re.compile(r"(\d+(?:[.,]\d+)?)\s*(?:%|per ?cent\b)", re.IGNORECASE)
_ALL = 100


@record
class Limit:
    """What a yarn does not bear: the fibre in it, and what it bears at most, in words."""

    yarn: Yarn
    fibre: str
    most: str
    mildness: int


def care_of(reading: Reading, node: Node | None) -> Care | None:
    """Words, or a table of treatments; None where the file has none."""
    if node is None:
        return None
    if not entries(node):
        told = tuple(_told_in_words(words(node), reading.source.span(node)))
        return Care(treatments=(), note=words(node), told=told)
    from workeven.standards.care import GROUPS, care_places  # a table that few need

    found = [one for group in GROUPS for one in _treatments(reading, node, group)]
    order = care_places()
    found.sort(key=lambda one: order[one.group, one.word])
    _no_two_of_a_method(reading, found)
    return Care(treatments=tuple(found), note=reading.text(node, "note") or "")


def care_borne(pattern: Pattern) -> Iterator[Problem]:
    """A treatment that a fibre of some yarn does not bear."""
    care = pattern.care
    for treatment in () if care is None else (*care.treatments, *care.told):
        limits = sorted(_limits(pattern, treatment), key=lambda one: one.mildness)
        if not limits:
            continue
        fibres = joined(dict.fromkeys(one.fibre for one in limits))
        yarns = {one.yarn.name: one for one in limits}.values()
        yield Problem(
            code="care-fibre",
            span=treatment.span,
            found=f"The care says {quote(treatment.word)}, and the yarn holds {fibres}.",
            expected=f"{limits[0].most} (common practice).",
            mend="Write the milder care, or look what the band of the yarn says: where the band "
            "allows it, allow this advice with that as the reason.",
            notes=tuple(
                Note(span=one.yarn.span, message=f"{quote(one.yarn.name)} holds {one.fibre}.")
                for one in yarns
            ),
        )


def fibres_sum(pattern: Pattern) -> Iterator[Problem]:
    """The percentages of a yarn's fibres do not make up all of it."""
    for yarn in pattern.yarns:
        parts = [Fraction(one.replace(",", ".")) for one in _PERCENT.findall(yarn.fibre)]
        whole = sum(parts, Fraction(0))
        if parts and whole != _ALL:
            from workeven.arithmetic.printing import decimal

            yield Problem(
                code="yarn-fibre-sum",
                span=yarn.span,
                found=f"The fibres of {quote(yarn.name)} add up to {decimal(whole, 2)} %: "
                f"{quote(yarn.fibre)}.",
                expected="Fibres that add up to 100 %, as on a band.",
                mend="Copy the percentages from the band again, and give each fibre its own.",
            )


# --- what free words tell ------------------------------------------------------------------

_SENTENCES = re.compile(r"(?<=[.;!,])\s+|\s+(?:and|but|then)\s+|\n")
_DENIED = re.compile(r"\b(?:no|not|never|without|nor)\b|n['’]t\b", re.IGNORECASE)
_DEGREES = r"[^\d]{0,40}?(?P<most>\d{2,3})\s*(?:°|º|degrees?)\s*C?\b"
_MILD = re.compile(r"\b(?:mild|gentle|delicate|wool)\b", re.IGNORECASE)
_COOL = re.compile(r"\b(?:low|cool|gentle)\b", re.IGNORECASE)
_IN_WORDS: tuple[tuple[Group, re.Pattern[str]], ...] = (
    ("wash", re.compile(rf"\bwash(?:ed|able|es)?\b{_DEGREES}", re.IGNORECASE)),
    ("dry", re.compile(r"\btumble[ -]dr(?:y|ied|ying)\b", re.IGNORECASE)),
    ("iron", re.compile(rf"\b(?:iron|press)(?:ed)?\b{_DEGREES}", re.IGNORECASE)),
)


def _told_in_words(text: str, span: Span) -> Iterator[Treatment]:
    """The treatments that a text speaks of, each once."""
    from workeven.standards.care import care_word  # a table that few need

    found: dict[str, str] = {}
    for sentence in _SENTENCES.split(text):
        if _DENIED.search(sentence):
            continue
        for group, pattern in _IN_WORDS:
            said = pattern.search(sentence)
            if said is not None:
                found.setdefault(group, _word(group, said, sentence))
    for group, _ in _IN_WORDS:
        meant = care_word(group, found[group]) if group in found else None
        if meant is not None:
            yield Treatment(group=meant.group, word=meant.word, span=span)


def _word(group: str, said: re.Match[str], sentence: str) -> str:
    """The word of the standard for it."""
    if group == "dry":
        return "tumble dry low" if _COOL.search(sentence) else "tumble dry"
    mild = " mild" if group == "wash" and _MILD.search(sentence) else ""
    return f"{said['most']} °C{mild}"


# --- the treatments of a table -------------------------------------------------------------


def _treatments(reading: Reading, table: Node, group: str) -> Iterator[Treatment]:
    """Those of one group; what is none of its words is told."""
    from workeven.standards.care import care_word, care_words

    for one in reading.texts(reading.node(table, group)):
        found = care_word(group, one.text)
        if found is not None:
            yield Treatment(group=found.group, word=found.word, span=one.span)
            continue
        known = tuple(word.word for word in care_words() if word.group == group)
        reading.problem(
            "care-word",
            one.span,
            f"{quote(one.text)} is no word for `{group}`.",
            expected=f"One of {joined(map(quote, known), 'or')}.",
            mend=did_you_mean(one.text, known)
            or "Write one of these, and what is more to be said under `note`.",
        )


def _no_two_of_a_method(reading: Reading, found: list[Treatment]) -> None:
    """Two treatments of which only one can be meant."""
    from workeven.standards.care import care_word

    first: dict[tuple[str, str], Treatment] = {}
    for one in found:
        meant = care_word(one.group, one.word)
        # a machine and a hand, or neither: of washing there is one way
        method = "" if one.group == "wash" or meant is None else meant.method
        before = first.setdefault((one.group, method), one)
        if before is not one:
            reading.problem(
                "care-contradicts",
                one.span,
                f"{quote(one.word)} stands beside {quote(before.word)}.",
                expected="One of the two: the harshest treatment that does no lasting damage.",
                mend="Delete the other.",
            )


# --- what fibres bear ----------------------------------------------------------------------


def _limits(pattern: Pattern, treatment: Treatment) -> Iterator[Limit]:
    """Each fibre of each yarn that bears less, and what it bears."""
    from workeven.standards.care import care_word, fibres_in, is_superwash

    meant = care_word(treatment.group, treatment.word)
    if meant is None or meant.process == "none":
        return
    for yarn in pattern.yarns:
        felts = not is_superwash(yarn.fibre)
        for word, fibre in fibres_in(yarn.fibre):
            limit = _limit(meant, fibre, felts=felts)
            if limit is not None:
                most, mildness = limit
                said = most.format(fibre=word)
                said = f"{said[:1].upper()}{said[1:]}"
                yield Limit(yarn=yarn, fibre=word, most=said, mildness=mildness)


def _limit(meant: CareWord, fibre: Fibre, *, felts: bool) -> tuple[str, int] | None:
    """What the fibre bears instead, and how mild that is; None where it bears the treatment."""
    if meant.method == "machine" and felts and _more(meant.most_c, fibre.wash_c):
        return f"{{fibre}} felts or loses its shape above {fibre.wash_c} °C", fibre.wash_c or 0
    if meant.method == "tumble" and meant.process == "normal" and felts and fibre.tumble:
        return "{fibre} felts or shrinks in the heat of a tumble dryer", 0
    if meant.process == "any" and fibre.bleach:
        return "chlorine destroys {fibre}", 0
    if meant.method == "iron" and _more(meant.most_c, fibre.iron_c):
        told = f"{{fibre}} melts or goes flat under an iron above {fibre.iron_c} °C"
        return told, fibre.iron_c or 0
    return None


def _more(value: int | None, most: int | None) -> bool:
    return value is not None and most is not None and value > most
