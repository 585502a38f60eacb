"""The file of figures beside a page: each text with a figure, its place, what its figures are.

Takes     a ``RenderedPage``, and its pattern where it is that of one.
Gives     ``beside``; ``FIGURES``; ``figures_of``.
Problems  none.
From      the schema ``figures``, which says what the file holds.

A text of which we do not know where its figures come from has no origin: the tests allow none.
"""

from __future__ import annotations

from collections.abc import Iterator

from workeven.pipeline import ReadyPattern
from workeven.proof import row_address
from workeven.publish.collection import Attachment, RenderedPage, attachment
from workeven.publish.origins.blocks import Block, blocks, has_figure
from workeven.publish.origins.rows import RowHere, of_row
from workeven.publish.origins.rules import BESIDE, RULES, Rule, met
from workeven.publish.pages.anchors import part_anchors, piece_anchor
from workeven.publish.pages.sizes import called
from workeven.publish.written_json import written

FIGURES = "figures.json"


def beside(page: RenderedPage, ready: ReadyPattern | None) -> Attachment:
    """The file of a page, in its folder; of no pattern where it is that of several."""
    path = f"{page.source.removesuffix('index.md')}{FIGURES}"
    return attachment(path, figures_of(page, ready))


def figures_of(page: RenderedPage, ready: ReadyPattern | None) -> bytes:
    """The file of one page."""
    names = ready.pattern.sizes.names if ready else ()
    found = _Origins(ready)
    every = [(one, found.of(one)) for one in blocks(page.html, len(names))]
    told = {
        "page": page.title,
        "sizes": list(names),
        "figures": [
            _told(one, origins)
            for one, origins in every
            if has_figure(one.text) or any(map(has_figure, one.each))
        ],
    }
    return written(told, indent=0)


def _told(one: Block, origins: tuple[str, ...]) -> dict[str, object]:
    return {
        "at": one.at,
        "in": f"{one.part} {one.tag}".strip(),
        **({"cell": list(one.cell)} if one.cell else {}),
        "text": one.text,
        **({"each": list(one.each)} if one.each else {}),
        "from": list(origins),
    }


class _Origins:
    """Origins of the texts of one page, asked for in the order of the page."""

    def __init__(self, ready: ReadyPattern | None) -> None:
        self._rules = RULES if ready else BESIDE
        self._rows = dict(_rows(ready)) if ready else {}
        self._sections = dict(_sections(ready)) if ready else {}
        self._yarns = {called(one): one.name for one in ready.pattern.yarns} if ready else {}
        self._yarn = self._computed = next(iter(self._yarns.values()), "")
        self._measure = ""
        self._often: dict[tuple[object, ...], int] = {}

    def of(self, block: Block) -> tuple[str, ...]:
        """What the figures of the text come from; () where that is not known."""
        self._note(block)
        if block.at in self._rows:
            return of_row(self._rows[block.at], block)
        for rule in self._rules:
            if (found := _met(rule, block)) is not None:
                return tuple(self._filled(rule, block, found))
        return ()

    def _note(self, block: Block) -> None:
        """Of which yarn, or of which length in a drawing, the texts are that follow."""
        if block.cell[2:] == ("What it measures",):
            self._measure = block.text
        name = self._yarns.get(block.text.partition(": ")[0])
        if name and block.tag == "caption":
            self._yarn = name
        name = self._yarns.get(block.text)
        if name and block.part == "we-computed" and block.tag == "p":
            self._computed = name

    def _filled(self, rule: Rule, block: Block, found: dict[str, str]) -> Iterator[str]:
        """The origins of a rule with what was found put in."""
        where = (rule, block.at, self._yarn, self._computed)
        self._often[where] = nth = self._often.get(where, 0) + 1
        caption, line, column = (*block.cell, "", "", "")[:3]
        told = {
            "term": caption,
            "line": line,
            "column": column,
            "nth": str(nth),
            "at": self._sections.get(block.at, block.at),
            "yarn": self._yarn,
            "computed": self._computed,
            "measure": self._measure,
            **found,
        }
        for origin in rule.origins:
            yield origin.format(**told)


def _met(rule: Rule, block: Block) -> dict[str, str] | None:
    """What the places of the rule found, None where it is not met."""
    caption = ", ".join(one for at, one in enumerate(block.cell) if at != 1)
    texts = (block.at, f"{block.part} {block.tag}", caption, block.text)
    found: dict[str, str] = {}
    for expression, text in zip(rule[:4], texts, strict=True):
        match = met(expression, text)
        if match is None:
            return None
        found |= {name: value or "" for name, value in match.groupdict().items()}
    return found


def _rows(ready: ReadyPattern) -> Iterator[tuple[str, RowHere]]:
    for proven in ready.proven.pieces:
        for number, section in enumerate(proven.sections):
            for row in section.rows:
                address = row_address(proven.piece.name, row.anchor)
                yield (
                    f"row-{address}",
                    RowHere(
                        address=address,
                        proven=row,
                        section=f"{proven.piece.name} {number}",
                        made=section.section.made_from is not None,
                    ),
                )


def _sections(ready: ReadyPattern) -> Iterator[tuple[str, str]]:
    """What a piece or a section of it is called in an origin, by its anchor."""
    for proven in ready.proven.pieces:
        piece = proven.piece
        yield piece_anchor(piece.name), piece.name
        titles = [one.section.title for one in proven.sections]
        for number, anchor in enumerate(part_anchors(piece.name, titles)):
            yield anchor, f"{piece.name} {number}"
