"""The designer's own texts as a page prints them, with the numbers that stand in braces.

Takes     a text, the counts and lengths by name.
Gives     ``filled``, ``paragraphs``.
Problems  none: ``grading`` has seen that every formula can be worked out.
From      design.md, "A page prints the designer's own words".
"""

from __future__ import annotations

from workeven.arithmetic import formulas
from workeven.grading import braced
from workeven.publish.pages import figures
from workeven.publish.pages.rows import Names
from workeven.publish.pages.said_lengths import said_lengths


def filled(text: str | None, names: Names) -> str:
    """The text with each formula as its figure in every size: ``leave 12 (14, 16) sts open``.

    A length is in both units, in braces as those of measurements are (``leave {25 cm} of yarn``),
    and written out where it is surely one.
    """
    text = text or ""
    marks = [(start, end, _figures(words, names)) for start, end, words in braced(text)]
    marks += [(one.start, one.end, one.marked) for one in said_lengths(text, names.sizes)]
    parts: list[str] = []
    at = 0
    for start, end, words in sorted(marks):
        parts += [text[at:start], words]
        at = end
    return "".join((*parts, text[at:]))


def paragraphs(text: str) -> tuple[str, ...]:
    """Text as paragraphs, cut at empty lines."""
    blocks = text.replace("\r\n", "\n").split("\n\n")
    return tuple(" ".join(block.split()) for block in blocks if block.strip())


def _figures(words: str, names: Names) -> str:
    formula = formulas.read(words)
    sizes, used = range(names.sizes), formula.names
    if used <= names.counts.keys() and not formula.is_written_length:
        counts = [{name: names.counts[name][at] for name in used} for at in sizes]
        return figures.counts(int(formula.count(one)) for one in counts)
    lengths = [{name: names.lengths[name][at] for name in used} for at in sizes]
    return figures.both([formula.length(one) for one in lengths], names.units)
