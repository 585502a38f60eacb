"""What YAML allows and a pattern does without, and the limits: one function a problem.

Takes     the place in the file.
Gives     ``Refusals``, which knows the file and its lines; ``row_item``, ``missing_space``,
          ``quotable``.
Problems  ``file-anchor``, ``file-alias``, ``file-merge-key``, ``file-tag``, ``file-directive``,
          ``file-second-document``, ``file-complex-key``, ``file-duplicate-key``,
          ``file-flow-split``, ``file-too-deep``, ``file-too-many-values``,
          ``file-value-too-long``, ``file-empty``, ``file-shape``, ``file-row-item``,
          ``file-colon-space``.
From      design.md, "YAML, safely and with places".
"""

from __future__ import annotations

import re

from workeven.problems import Note, Problem, Span
from workeven.problems.words import excerpt, quote
from workeven.records import record
from workeven.source.tree import Node

Place = tuple[int, int]

#: Tables and lists inside each other.
DEEPEST = 32
#: Keys and values of one file.
MOST_NODES = 60_000
#: Characters of one value.
LONGEST_SCALAR = 10_000
#: Characters of one key.
LONGEST_KEY = 200

#: A line on which no space stands behind the colon of its key.
KEY_WITHOUT_SPACE = re.compile(r"\s*(?:- +)?(?P<key>[A-Za-z][\w-]*):(?P<value>[^\s:].*)")

_PUT_IN_BLOCK = (
    "Put the rows in a | block: write `rows: |`, and under it the rows, one a line, indented, "
    "with nothing in front of them."
)


@record
class Refusals:
    """The problems of one file, by the trade's words for what is wrong."""

    file: str
    lines: tuple[str, ...]

    # --- what is refused ---

    def anchor(self, place: Place, name: str) -> Problem:
        """``&name``."""
        return self._at(
            "file-anchor",
            place,
            f"`&{name}` gives the value a name for YAML, which is not used here.",
            expected="Each value written where it belongs.",
            mend="Delete the mark; a value that has to begin with & goes in quotes.",
        )

    def alias(self, place: Place, name: str) -> Problem:
        """``*name``."""
        return self._at(
            "file-alias",
            place,
            f"`*{name}` stands for a value written elsewhere.",
            expected="Each value written where it belongs.",
            mend="Write the value itself; a value that has to begin with * goes in quotes.",
        )

    def tag(self, place: Place) -> Problem:
        """``!!str``."""
        words = self._line(place)[place[1] - 1 :].split()
        return self._at(
            "file-tag",
            place,
            f"{quote(words[0] if words else '!')} gives the value a type of YAML's own.",
            expected="Values without types: what they are follows from their keys.",
            mend="Delete the mark; a value that has to begin with ! goes in quotes.",
        )

    def merge_key(self, key: Node) -> Problem:
        """``<<: …``."""
        return self._at(
            "file-merge-key",
            key.start,
            "`<<` takes in the keys of another table.",
            end=key.end,
            expected="Each key written where it belongs.",
            mend="Write the keys themselves.",
        )

    def directive(self, line: int) -> Problem:
        """``%YAML 1.2``."""
        return self._at(
            "file-directive",
            (line, 1),
            f"{quote(self._line((line, 1)))} is a directive to YAML itself.",
            expected="The pattern alone.",
            mend="Delete the line.",
        )

    def second_document(self, place: Place) -> Problem:
        """A second ``---``."""
        return self._at(
            "file-second-document",
            place,
            "A second document begins here.",
            expected="One pattern a file.",
            mend="Delete the line `---`, or move what follows to a file of its own.",
        )

    def complex_key(self, place: Place, found: str) -> Problem:
        """A key that is no word."""
        return self._at(
            "file-complex-key",
            place,
            found,
            expected="A key: one or a few words on one line, then a colon.",
            mend="Write a plain word as the key.",
        )

    def twice(self, first: Node, second: Node) -> Problem:
        """A key that stands twice in one table."""
        return Problem(
            code="file-duplicate-key",
            span=self._span(second.start, second.end),
            found=f"{quote(str(second.value))} is written twice.",
            expected=f"Each key once; the first stands in line {first.start[0]}.",
            mend="Keep one of the two, or give the second another name.",
            excerpt=excerpt(self._line(second.start)),
            notes=(Note(span=self._span(first.start, first.end), message="first written here"),),
        )

    def split(self, whole: Node, key: str | None) -> Problem:
        """A value with commas inside ``{…}`` or ``[…]``."""
        text = str(whole.value)
        inside = "[…]" if key is None else "{…}"
        owner = "the first item" if key is None else quote(key)
        cure = (
            "Write it without […], " if key is None else f"Write `{key}: {text}` on its own line, "
        )
        return self._at(
            "file-flow-split",
            whole.start,
            f"Inside {inside} a comma ends a value: {owner} gets only "
            f"{quote(text.partition(',')[0])} of {quote(text)}.",
            end=whole.end,
            expected="Values with commas on a line of their own, or in quotes.",
            mend=f'{cure}or put it in quotes: "{text}".',
        )

    # --- limits ---

    def too_deep(self, place: Place) -> Problem:
        """More lists and tables inside each other than any pattern has."""
        return self._at(
            "file-too-deep",
            place,
            f"Lists or tables stand inside each other more than {DEEPEST} deep.",
            expected=f"At most {DEEPEST}; a pattern needs seven.",
            mend="Look for brackets that were typed too often.",
        )

    def too_many(self, place: Place) -> Problem:
        """More keys and values than any pattern has."""
        return self._at(
            "file-too-many-values",
            place,
            f"The file has more than {MOST_NODES:,} keys and values.",
            expected=f"At most {MOST_NODES:,}; a pattern in nine sizes has some 500.",
            mend="Divide it into several patterns, each in a folder of its own.",
        )

    def too_long(self, node: Node) -> Problem:
        """A longer text than a reader would follow."""
        return self._at(
            "file-value-too-long",
            node.start,
            f"The value has {len(node.value):,} characters.",
            expected=f"At most {LONGEST_SCALAR:,}: a page of text has about 3,000.",
            mend="Divide it: rows into sections, a long text into shorter ones.",
        )

    # --- the file as a whole ---

    def empty(self) -> Problem:
        """No value at all."""
        return self._at(
            "file-empty",
            (1, 1),
            "The file is empty.",
            end=(1, 1),
            expected="A title, sizes, a gauge, pieces and their rows.",
            mend="Write the pattern, or delete the folder.",
        )

    def no_keys(self, root: Node) -> Problem:
        """A text or a list where keys are due."""
        return self._at(
            "file-shape",
            root.start,
            "The file is not made of keys with values.",
            expected="Lines such as `title: Sandhopper Mitts`: a key, a colon, a space, a value.",
            mend="Write a key and a colon in front of each value.",
        )

    def span(self, node: Node) -> Span:
        """Where a node stands."""
        return self._span(node.start, node.end)

    def rest_of_line(self, place: Place) -> Span:
        """From a place to the end of its line."""
        return self._span(place, (place[0], len(self._line(place)) + 1))

    def _at(
        self,
        code: str,
        place: Place,
        found: str,
        *,
        end: Place | None = None,
        expected: str,
        mend: str,
    ) -> Problem:
        return Problem(
            code=code,
            span=self._span(place, end) if end else self.rest_of_line(place),
            found=found,
            expected=expected,
            mend=mend,
            excerpt=excerpt(self._line(place)),
        )

    def _line(self, place: Place) -> str:
        return self.lines[place[0] - 1] if place[0] <= len(self.lines) else ""

    def _span(self, start: Place, end: Place) -> Span:
        return Span(
            file=self.file,
            line=start[0],
            column=start[1],
            end_line=end[0],
            end_column=end[1],
        )


def row_item(span: Span, text: str) -> Problem:
    """The problem of a row written as a list item that YAML reads as something else."""
    return Problem(
        code="file-row-item",
        span=span,
        found=f"YAML does not read {quote(text)} as a row.",
        expected="Rows in a text block, which YAML leaves as they are.",
        mend=_PUT_IN_BLOCK,
        excerpt=excerpt(text),
    )


#: quotation marks that word processors put in the place of straight ones
_CURLY = {
    "“": "”",
    "„": "“”",
    "«": "»",
    "»": "«",
    "\N{LEFT SINGLE QUOTATION MARK}": "’",
    "\N{SINGLE LOW-9 QUOTATION MARK}": "\N{LEFT SINGLE QUOTATION MARK}’",
}


def quotable(value: str) -> str:
    """A value as it would stand inside double quotes, without curly ones around it.

    >>> quotable("“Quay: a top”"), quotable('a "b"')
    ('Quay: a top', "a 'b'")
    """
    text = value.strip()
    if len(text) > 1 and text[-1] in _CURLY.get(text[0], ""):
        text = text[1:-1]
    return text.replace("\\", "\\\\").replace('"', "'")


def missing_space(file: str, line: int, column: int, text: str) -> Problem:
    """The problem of ``title:Mitts``; the column is that behind the colon."""
    pair = KEY_WITHOUT_SPACE.match(text)
    key = pair["key"] if pair else text.partition(":")[0].strip()
    return Problem(
        code="file-colon-space",
        span=Span(file=file, line=line, column=column, end_line=line, end_column=column + 1),
        found=f"There is no space behind the colon of `{key}`.",
        expected="A key, a colon, a space and a value.",
        mend=f"Write `{key}: …`, with a space behind the colon.",
        excerpt=excerpt(text),
    )
