"""Malformed YAML in plain words: what was probably meant, and where.

Takes     the lines of a file and the error of PyYAML, of which only the places count.
Gives     one ``Problem``.
Problems  ``file-tab``, ``file-row-item``, ``file-block``, ``file-colon``, ``file-colon-space``,
          ``file-indent``, ``file-unclosed``, ``file-value-start``, ``file-surrogate``,
          ``file-directive``, ``file-too-deep``, ``file-yaml``.
From      design.md, "A pattern file": why rows are a text block; the slips themselves are common
          practice.

PyYAML's two parsers agree on the place and differ in the words, so the slip is looked for in the
text around the place. The slips are tried in the order of ``_SLIPS``; the first that fits speaks.
"""

from __future__ import annotations

import re
from collections.abc import Callable

from yaml import MarkedYAMLError

from workeven.problems import Problem, Span
from workeven.problems.words import excerpt, quote
from workeven.records import record
from workeven.source.characters import refused_escape
from workeven.source.refusals import (
    KEY_WITHOUT_SPACE,
    Refusals,
    missing_space,
    quotable,
    row_item,
)
from workeven.source.stroke import NO_STROKE, WITH_STROKE, rows_without_stroke

_ITEM = re.compile(r"(?P<indent>\s*)- +(?P<value>\S.*)")
_KEY_VALUE = re.compile(
    r"(?P<indent>\s*(?:- +)*)(?P<key>[^\s:'\"{\[#][^:]*):(?:\s+(?P<value>.*))?$"
)
_BLOCK_OPENS = re.compile(
    r"(?P<indent>\s*)(?:- +)?\S.*?:\s+[|>][-+0-9]*\s*(?:#.*)?$|\s*- +[|>][-+]*$"
)
#: another blank than a space or a tab where a line is indented
_ODD_INDENT = re.compile(r"[ ]*(?P<odd>[^\S \t])\s*\S")
#: a dash as word processors make it of a hyphen
_LONG_DASH = re.compile(r"\s*(?P<dash>[–—−•])\s")
_ODD_START = "*&!|>%@`[{"
_SURROGATE_ESCAPE = re.compile(r"\\[uU](?:0000)?([dD][89a-fA-F][0-9a-fA-F]{2})")


@record
class _Break:
    """Where PyYAML gave up: its place, the place where the broken thing began, the lines."""

    file: str
    lines: tuple[str, ...]
    line: int
    column: int
    began_line: int
    began_column: int
    words: str

    @property
    def text(self) -> str:
        """The line of the place."""
        return self.lines[self.line - 1]

    @property
    def here(self) -> str:
        """The character at the place."""
        return self.text[self.column - 1 : self.column]

    def problem(
        self, code: str, line: int, column: int, *, found: str, expected: str = "", mend: str = ""
    ) -> Problem:
        """A problem on one of the lines."""
        text = self.lines[line - 1]
        return Problem(
            code=code,
            span=Span(
                file=self.file,
                line=line,
                column=column,
                end_line=line,
                end_column=max(len(text), column) + 1,
            ),
            found=found,
            expected=expected,
            mend=mend,
            excerpt=excerpt(text),
        )


def explain(file: str, lines: tuple[str, ...], error: MarkedYAMLError) -> Problem:
    """The slip that broke the YAML, in a designer's words."""
    at = _where(file, lines, error)
    for slip in _SLIPS:
        problem = slip(at)
        if problem is not None:
            return problem
    return at.problem(
        "file-yaml",
        at.line,
        at.column,
        found=f"The file cannot be read from {quote(at.text[at.column - 1 :])} on.",
        expected="A key, a colon, a space and a value; what belongs to a key, indented under it.",
        mend="Compare this line and the one above with a line of the same kind that is right.",
    )


def _where(file: str, lines: tuple[str, ...], error: MarkedYAMLError) -> _Break:
    place = error.problem_mark or error.context_mark
    began = error.context_mark or place
    line = min(place.line + 1, len(lines)) if place else 1
    behind_all = place is not None and place.line >= len(lines)
    column = len(lines[-1]) + 1 if behind_all else place.column + 1 if place else 1
    began_line = min(began.line + 1, len(lines)) if began else 1
    return _Break(
        file=file,
        lines=lines,
        line=line,
        column=min(column, len(lines[line - 1]) + 1),
        began_line=began_line,
        began_column=began.column + 1 if began else 1,
        words=f"{error.context or ''} {error.problem or ''}",
    )


def _too_deep_to_parse(at: _Break) -> Problem | None:
    """The parser in C gives up by itself at a depth that no pattern has."""
    if "exceeded max" not in at.words:
        return None
    return Refusals(file=at.file, lines=at.lines).too_deep((at.began_line, at.began_column))


def _tab(at: _Break) -> Problem | None:
    indentation = at.text[: len(at.text) - len(at.text.lstrip())]
    if "\t" not in indentation or at.column > len(indentation) + 1:
        return None
    return at.problem(
        "file-tab",
        at.line,
        indentation.index("\t") + 1,
        found="The line is indented with a tab.",
        expected="Spaces: two for each step.",
        mend="Replace the tab with spaces.",
    )


def _directive(at: _Break) -> Problem | None:
    if "directive" not in at.words and "document start" not in at.words:
        return None
    for number in range(at.line, 0, -1):
        if at.lines[number - 1].startswith("%"):
            return Refusals(file=at.file, lines=at.lines).directive(number)
    return None


def _rows_not_in_a_block(at: _Break) -> Problem | None:
    """A row that begins like an alias, a list or a table, or that has a colon."""
    item = _ITEM.match(at.text)
    if item and _is_odd(item["value"]) and _key_above(at, at.line, len(item["indent"])) == "rows":
        column = item.start("value") + 1
    else:
        pair = _KEY_VALUE.match(at.text)
        if pair is None or pair["key"] != "rows" or not pair["value"]:
            return None
        if pair["value"][0] in "|>" or at.column <= pair.start("value") + 1:
            return None
        column = pair.start("value") + 1
    problem = at.problem("file-row-item", at.line, column, found="")
    return row_item(problem.span, at.text[column - 1 :])


def _rows_without_stroke(at: _Break) -> Problem | None:
    """Rows on lines of their own, and no ``|`` behind ``rows:``."""
    place = rows_without_stroke(at.lines, at.began_line if "simple key" in at.words else at.line)
    if place is None:
        return None
    return at.problem(
        "file-row-item",
        *place,
        found=NO_STROKE,
        expected="Rows in a text block, which YAML leaves as they are.",
        mend=WITH_STROKE,
    )


def _is_odd(value: str) -> bool:
    return value[0] in _ODD_START or ": " in value


def _block(at: _Break) -> Problem | None:
    """Text behind the ``|``, or lines under it that are not indented as a block must be."""
    began = at.lines[at.began_line - 1]
    opener = began[at.began_column - 1 : at.began_column]
    if "block scalar" in at.words and opener == "|":
        return at.problem(
            "file-block",
            at.began_line,
            at.began_column,
            found="Text stands behind the `|` that opens a block.",
            expected="Nothing behind the `|`; the block starts on the next line.",
            mend="Move the text to the next line and indent it.",
        )
    line = at.began_line if "simple key" in at.words else at.line
    opened = _block_above(at, line)
    if opened is None:
        return None
    return at.problem(
        "file-block",
        line,
        len(at.lines[line - 1]) - len(at.lines[line - 1].lstrip()) + 1,
        found=f"This line does not belong to the block that line {opened} opens with `|`.",
        expected="All lines of a block are indented alike, deeper than the key with the `|`.",
        mend="Indent the line like the first line of the block.",
    )


def _block_above(at: _Break, line: int) -> int | None:
    """The line with ``|`` of the block that this line was meant for, if there is one."""
    indent = _indent(at.lines[line - 1])
    if _KEY_VALUE.match(at.lines[line - 1]):
        return None
    for number in range(line - 1, 0, -1):
        text = at.lines[number - 1]
        if _BLOCK_OPENS.match(text):
            return number
        if text.strip() and _indent(text) < indent:
            return None
    return None


def _colon(at: _Break) -> Problem | None:
    """``title: Mitts: a pair``: the second colon, or an indentation that makes it one."""
    if "mapping values" not in at.words:
        return None
    dash = _LONG_DASH.match(at.text)
    if dash is not None:
        return at.problem(
            "file-indent",
            at.line,
            dash.start("dash") + 1,
            found=f"{quote(dash['dash'])} stands where an item of a list begins.",
            expected="A hyphen and a space before each item: `- `.",
            mend="Write `-` in its place, as the keyboard has it.",
        )
    pair = _KEY_VALUE.match(at.text)
    if pair and pair["value"] and at.column > pair.start("value") + 1:
        return at.problem(
            "file-colon",
            at.line,
            at.column,
            found=f"The value of `{pair['key']}` holds a colon with a space behind it, "
            "which YAML takes for the end of a key.",
            expected="A value with a colon in quotes.",
            mend=f'Write `{pair["key"]}: "{quotable(pair["value"])}"`.',
        )
    return _missing_space(at, _line_above(at, at.line)) or _too_deep(at)


def _too_deep(at: _Break) -> Problem:
    above = _line_above(at, at.line)
    text = at.lines[above - 1] if above else ""
    if (odd := _ODD_INDENT.match(text)) is not None:
        return at.problem(
            "file-indent",
            above,
            odd.start("odd") + 1,
            found="The line is indented with a blank that is no plain space, as word processors "
            "write it.",
            expected="Spaces: two for each step.",
            mend="Delete what stands before the first word, and type spaces in its place.",
        )
    return at.problem(
        "file-indent",
        at.line,
        _indent(at.text) + 1,
        found="This line is indented deeper than the line above, which has a value already.",
        expected="Keys that belong together start in the same column.",
        mend="Indent it like the line above; or, if the line above is the heading of this one, "
        "leave nothing behind its colon.",
    )


def _missing_space(at: _Break, line: int) -> Problem | None:
    pair = KEY_WITHOUT_SPACE.match(at.lines[line - 1]) if line else None
    if pair is None:
        return None
    return missing_space(at.file, line, pair.start("value") + 1, at.lines[line - 1])


def _no_colon(at: _Break) -> Problem | None:
    if "simple key" not in at.words:
        return None
    text = at.lines[at.began_line - 1]
    return _missing_space(at, at.began_line) or at.problem(
        "file-yaml",
        at.began_line,
        _indent(text) + 1,
        found=f"There is no colon in {quote(text.strip())}.",
        expected="A key, a colon, a space and a value.",
        mend="Write a colon and a space behind the key; or, if the line goes on with the text of "
        "the line above, indent it deeper.",
    )


def _open_quote(at: _Break) -> Problem | None:
    """A quotation mark that takes in the rest of the file, whatever that ends with."""
    if "quoted scalar" not in at.words or "end of stream" not in at.words:
        return None
    mark = at.lines[at.began_line - 1][at.began_column - 1 : at.began_column]
    return at.problem(
        "file-unclosed",
        at.began_line,
        at.began_column,
        found=f"The quotation mark {mark} that opens here is not closed.",
        expected=f"A second {mark} where the value ends.",
        mend=f"Write {mark} at the end of the value.",
    )


#: a value that opens a quotation mark and does not close it on its line
_OPENS = re.compile(
    r"\s*(?:- +)*[^\s#'\"{\[][^:#]*:\s+(?P<quote>[\"'])(?:(?!(?P=quote))[^\\]|\\.)*$"
)


def _running_quote(at: _Break) -> Problem | None:
    """A quotation mark that is not closed runs on to the next one, lines below.

    Only where no mark of its kind stands between, and the line of the place has one.
    """
    between = ""
    for number in range(at.line - 1, 0, -1):
        text = at.lines[number - 1]
        opens = _OPENS.match(text)
        if opens and opens["quote"] in at.text and opens["quote"] not in between:
            mark = opens["quote"]
            return at.problem(
                "file-unclosed",
                number,
                opens.start("quote") + 1,
                found=f"The quotation mark {mark} that opens here is not closed before line "
                f"{at.line}.",
                expected=f"A second {mark} where the value ends.",
                mend=f"Write {mark} at the end of the value.",
            )
        between += "".join(mark for mark in "'\"" if mark in text and mark not in between)
    return None


def _quote(at: _Break) -> Problem | None:
    before = at.text[: at.column - 1].rstrip()
    if before.endswith(("'", '"')) and "expected" in at.words and "flow" not in at.words:
        return at.problem(
            "file-yaml",
            at.line,
            at.column,
            found="Text stands behind the closing quotation mark.",
            expected="Nothing behind a value in quotes; inside '…' an apostrophe is written twice.",
            mend="Put the whole value in quotes, in \"…\" if it has an apostrophe, in '…' if it "
            'has a ".',
        )
    return None


def _escape(at: _Break) -> Problem | None:
    if "escape" not in at.words:
        return None
    start = at.text.rfind("\\", 0, at.column) + 1
    escape = _SURROGATE_ESCAPE.match(at.text, start - 1)
    if escape is not None:
        span = Refusals(file=at.file, lines=at.lines).rest_of_line((at.line, start))
        return refused_escape(span, chr(int(escape[1], 16)))
    return at.problem(
        "file-yaml",
        at.line,
        max(start, 1),
        found=f"{quote(at.text[start - 1 : start + 1])} means nothing inside double quotes.",
        expected='Inside "…" a backslash starts an escape.',
        mend="Write the value in '…', where a backslash is a backslash.",
    )


def _bracket(at: _Break) -> Problem | None:
    if "flow node" in at.words and not at.text.strip():
        return _opened_last(at)
    if "flow mapping" not in at.words and "flow sequence" not in at.words:
        return None
    opener = "{" if "flow mapping" in at.words else "["
    closer = "}" if opener == "{" else "]"
    if at.line == at.began_line and at.here:
        return at.problem(
            "file-yaml",
            at.line,
            at.column,
            found=f"A comma is missing in front of {quote(at.text[at.column - 1 :])}, "
            "or the value needs quotes.",
            expected=f"Inside {opener}…{closer} a comma between two values.",
            mend="Write the comma; or write each key on a line of its own.",
        )
    return _unclosed(at, at.began_line, at.began_column, opener)


#: a bracket that nothing on its line closes
_OPENED = re.compile(r"(?P<opener>[\[{])[^\[\]{}]*\Z")


def _opened_last(at: _Break) -> Problem | None:
    """``title: [`` at the end of the file: a value is still due."""
    for number in range(at.line, 0, -1):
        if (found := _OPENED.search(at.lines[number - 1])) is not None:
            return _unclosed(at, number, found.start() + 1, found["opener"])
    return None


def _unclosed(at: _Break, line: int, column: int, opener: str) -> Problem:
    closer = "}" if opener == "{" else "]"
    return at.problem(
        "file-unclosed",
        line,
        column,
        found=f"The bracket {opener} that opens here is not closed.",
        expected=f"A {closer} on the same line, or on a line indented deeper.",
        mend=f"Write {closer} where the value ends; a value that begins with {opener} itself "
        "goes in quotes.",
    )


def _value_start(at: _Break) -> Problem | None:
    """A value that begins with a character of YAML's own."""
    if "node content" in at.words:
        return _nothing_here(at)
    if "cannot start any token" in at.words:
        start = at.column
    elif any(word in at.words for word in ("anchor", "alias", "block scalar")):
        start = at.began_column
    else:
        start = _odd_value_on(at.text, at.column)
    if not start or not at.text[start - 1 : start].strip():
        return None
    mark = at.text[start - 1]
    return at.problem(
        "file-value-start",
        at.line,
        start,
        found=f"A value cannot begin with {mark} as it stands: YAML gives that a meaning.",
        expected="A value that begins with a letter or a digit, or stands in quotes.",
        mend=f'Put the value in quotes: "{quotable(at.text[start - 1 :])}".',
    )


def _nothing_here(at: _Break) -> Problem:
    return at.problem(
        "file-yaml",
        at.line,
        at.column,
        found=f"`{at.here}` stands where a value is due.",
        expected="A value in front of each comma and closing bracket.",
        mend=f"Write the value, or delete the `{at.here}`; a value that is one goes in quotes.",
    )


def _odd_value_on(text: str, column: int) -> int:
    """Where the line's value begins, if with such a character and in front of the place."""
    found = _ITEM.match(text) or _KEY_VALUE.match(text)
    value = found["value"] if found else None
    if found is None or not value or value[0] not in _ODD_START:
        return 0
    start = found.start("value") + 1
    return start if start < column else 0


def _list_behind_key(at: _Break) -> Problem | None:
    if "sequence entries" not in at.words:
        return None
    return at.problem(
        "file-indent",
        at.line,
        at.column,
        found="A list starts behind a key on the same line.",
        expected="The items of a list on lines of their own, each with a dash and a space.",
        mend="Start the list on the next line; or put the value in quotes if the dash is part "
        "of it.",
    )


def _indentation(at: _Break) -> Problem | None:
    """A line that starts in a column where none of those above started."""
    if "expected" not in at.words or at.column != _indent(at.text) + 1:
        return None
    missing = _missing_space(at, _line_above(at, at.line))
    if missing is None and (opened := _rows_above(at)) is not None:
        return at.problem(
            "file-indent",
            at.line,
            at.column,
            found=f"{quote(at.text)} is indented less than the rows above it, and no key of the "
            "file stands in this column.",
            expected=f"All rows of the block that line {opened} opens with `|` start in one "
            "column.",
            mend="If it is a row, indent it like the rows above.",
        )
    return missing or at.problem(
        "file-indent",
        at.line,
        at.column,
        found=f"{quote(at.text)} is not indented like any line above that it could belong to.",
        expected="Keys that belong together start in the same column.",
        mend="Move it to the column of the key above that it belongs beside.",
    )


def _rows_above(at: _Break) -> int | None:
    """The line that opens the block of rows just above, if this line was meant for it."""
    indent = _indent(at.text)
    for number in range(at.line - 1, 0, -1):
        text = at.lines[number - 1]
        if text.strip() and _indent(text) < indent:
            return number if _BLOCK_OPENS.match(text) else None
    return None


_SLIPS: tuple[Callable[[_Break], Problem | None], ...] = (
    _too_deep_to_parse,
    _directive,
    _tab,
    _open_quote,
    _running_quote,
    _rows_not_in_a_block,
    _rows_without_stroke,
    _block,
    _colon,
    _no_colon,
    _escape,
    _quote,
    _bracket,
    _list_behind_key,
    _indentation,
    _value_start,
)


def _key_above(at: _Break, line: int, indent: int) -> str | None:
    """The key under which a list item of that indentation stands."""
    for number in range(line - 1, 0, -1):
        text = at.lines[number - 1]
        pair = _KEY_VALUE.match(text)
        if pair and not pair["value"] and len(pair["indent"]) <= indent:
            return pair["key"]
    return None


def _line_above(at: _Break, line: int) -> int:
    """The number of the nearest line above that is neither blank nor a comment, 0 if none."""
    for number in range(line - 1, 0, -1):
        text = at.lines[number - 1].strip()
        if text and not text.startswith("#"):
            return number
    return 0


def _indent(text: str) -> int:
    return len(text) - len(text.lstrip())
