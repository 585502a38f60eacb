"""Numbers that notes and finishing texts hold in braces: "leave {under_sts} sts open".

Takes     a pattern, its measurements and counts in every size.
Gives     ``braced``: the formulas of a text and their places; ``text_problems``.
Problems  ``unit-formula``, ``name-unknown``, ``count-not-whole``, ``count-negative``.
From      design.md, "Braces hold a formula over counts"; "every number on a page comes from the
          model or the proof".

A formula of counts is a whole number in every size, one of measurements a length, as in rows.
"""

from __future__ import annotations

import re
from collections.abc import Iterator, Mapping
from fractions import Fraction

from workeven.arithmetic.formulas import Formula, FormulaFault, read
from workeven.arithmetic.per_size import PerSize
from workeven.grading.sizes_of import in_size, names_of, others_of
from workeven.pattern import Pattern
from workeven.pattern.uses import texts_of
from workeven.problems import Problem, Span
from workeven.problems.words import did_you_mean, joined, quote

_BRACED = re.compile(r"\{([^{}]*)\}")


def braced(text: str) -> Iterator[tuple[int, int, str]]:
    """The start and end of each pair of braces in a text, and what it holds.

    >>> list(braced("leave {under_sts} sts open"))
    [(6, 17, 'under_sts')]
    """
    for found in _BRACED.finditer(text):
        yield found.start(), found.end(), found[1]


def text_problems(
    pattern: Pattern,
    lengths: Mapping[str, PerSize[Fraction]],
    counts: Mapping[str, PerSize[int]],
) -> Iterator[Problem]:
    """What is wrong with the formulas of all texts of a pattern."""
    for text in texts_of(pattern):
        for _, _, formula in braced(text.text):
            yield from _checked(formula, text.span, pattern, lengths, counts)


def _checked(
    words: str,
    span: Span,
    pattern: Pattern,
    lengths: Mapping[str, PerSize[Fraction]],
    counts: Mapping[str, PerSize[int]],
) -> Iterator[Problem]:
    try:
        formula = read(words)
    except FormulaFault as fault:
        yield _fault(words, span, fault)
        return
    given = {count.name for count in pattern.counts}
    measured = {one.name for one in pattern.measurements} | {name for name, _ in pattern.to_fit}
    unknown = sorted(formula.names - given - measured)
    if unknown:
        yield Problem(
            code="name-unknown",
            span=span,
            found=f"{quote('{' + words + '}')} needs {quote(unknown[0])}, and there is no count "
            "and no measurement of that name.",
            mend=did_you_mean(unknown[0], sorted(given | measured))
            or f"Known: {joined(map(quote, sorted(given | measured)))}.",
        )
    elif formula.names <= counts.keys() and not formula.is_written_length:
        yield from _whole(words, formula, span, pattern, counts)
    elif formula.names <= lengths.keys():
        yield from _length(words, formula, span, pattern, lengths)
    elif formula.names & given and formula.names & measured:
        mixed = FormulaFault("counts and measurements do not mix.", 0, end=len(words))
        yield _fault(words, span, mixed)


def _fault(words: str, span: Span, fault: FormulaFault) -> Problem:
    return Problem(
        code="unit-formula",
        span=span,
        found=f"{quote('{' + words + '}')}: {fault.found}",
        mend=fault.mend
        or "In notes, braces hold counts or measurements by name, or a length as `{25 cm}`.",
    )


def _whole(
    words: str,
    formula: Formula,
    span: Span,
    pattern: Pattern,
    counts: Mapping[str, PerSize[int]],
) -> Iterator[Problem]:
    broken: list[int] = []
    for size in range(len(pattern.sizes)):
        named = {name: counts[name][size] for name in formula.names}
        try:
            value = formula.count(named)
        except FormulaFault as fault:
            yield _fault(words, span, fault)
            return
        if value.denominator != 1 or value < 0:
            broken.append(size)
    if broken:
        yield Problem(
            code="count-not-whole",
            span=span,
            found=f"{quote('{' + words + '}')} is no whole number of stitches.",
            expected=f"{in_size(pattern.sizes, broken[0])}it is none.",
            mend="Change the formula or the counts in it.",
            sizes=names_of(pattern.sizes, broken),
            good_sizes=others_of(pattern.sizes, broken),
        )


def _length(
    words: str,
    formula: Formula,
    span: Span,
    pattern: Pattern,
    lengths: Mapping[str, PerSize[Fraction]],
) -> Iterator[Problem]:
    for size in range(len(pattern.sizes)):
        try:
            formula.length({name: lengths[name][size] for name in formula.names})
        except FormulaFault as fault:
            yield _fault(words, span, fault)
            return
