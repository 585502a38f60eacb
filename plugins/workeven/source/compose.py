"""YAML events to a tree in which every key and value knows its place.

Takes     a parser's events, the lines of the file.
Gives     the root ``Node``, and the problems met on the way.
Problems  those of ``refusals``.
From      design.md, "YAML, safely and with places".

PyYAML gives events only and constructs nothing: plain scalars stay strings. The first limit that
is passed stops the reading; what is merely refused (an anchor, a key written twice) is reported,
and the rest is read on, so that one file's problems are seen together.

Inside ``{…}`` YAML ends a value at a comma: ``{hand: 76 (86, 97) cm}`` becomes ``hand: 76 (86``
and a key ``97) cm`` without a value. A key without a value behind a plain value is taken for such
a piece: it is joined to the value again, from the text of the line, and reported once.
"""

from __future__ import annotations

import re
from typing import Any, Protocol

from yaml import events

from workeven.problems import Problem
from workeven.source.characters import refused_at, refused_escape
from workeven.source.refusals import (
    DEEPEST,
    LONGEST_KEY,
    LONGEST_SCALAR,
    MOST_NODES,
    Refusals,
    missing_space,
    row_item,
)
from workeven.source.tree import (
    BLOCK,
    BLOCK_LIST,
    BLOCK_TABLE,
    DOUBLE,
    FLOW_LIST,
    FLOW_TABLE,
    PLAIN,
    Entry,
    Node,
    columns_of,
)

#: An event of PyYAML; those of its two parsers share no type.
Event = Any

#: makes a ``Node`` or an ``Entry`` of its fields: half the time of ``Node(…)``, thousands a file
_new = tuple.__new__

NO_SPACE = re.compile(r"[A-Za-z][\w-]*:\S")


class Events(Protocol):
    """A parser of YAML that gives one event after the other."""

    def get_event(self) -> Event:
        """The next event."""


class Stop(Exception):
    """Reading cannot go on; never leaves this package."""

    def __init__(self, problem: Problem) -> None:
        super().__init__(problem.found)
        self.problem = problem


class _Frame:
    """A table or list that is being filled. ``key`` waits for its value."""

    __slots__ = ("entries", "joined", "key", "last", "start", "style", "table", "values")

    def __init__(self, start: tuple[int, int], style: str, *, table: bool) -> None:
        self.start, self.style, self.table = start, style, table
        self.values: list[Node] = []
        self.entries: dict[str, Entry] = {}
        self.key: Node | None = None
        self.last: Entry | None = None
        self.joined = False


class Composer:
    """Builds one tree. ``holes`` counts the places where no value could be put."""

    __slots__ = ("frame", "holes", "nodes", "problems", "refuse", "root", "stack")

    def __init__(self, *, refuse: Refusals) -> None:
        self.refuse = refuse
        self.problems: list[Problem] = []
        self.holes = self.nodes = 0
        self.stack: list[_Frame] = []
        self.frame: _Frame | None = None
        self.root: Node | None = None

    def compose(self, parser: Events) -> Node | None:
        """Take every event; the root is None when the file has no value at all."""
        next_event, put = parser.get_event, self._put
        new = _new
        while True:
            event = next_event()
            kind = event.__class__
            if kind is events.ScalarEvent:
                value, start, end = event.value, event.start_mark, event.end_mark
                place = (start.line + 1, start.column + 1)
                style = event.style or PLAIN
                node = new(Node, (value, place, (end.line + 1, end.column + 1), style))
                if event.anchor is not None or event.tag is not None:
                    self._refuse_decoration(event)
                if len(value) > LONGEST_SCALAR:
                    raise Stop(self.refuse.too_long(node))
                if style == DOUBLE:
                    self._check_escapes(node)
                put(node)
            elif kind is events.MappingStartEvent:
                self._open(event, FLOW_TABLE if event.flow_style else BLOCK_TABLE, table=True)
            elif kind is events.SequenceStartEvent:
                self._open(event, FLOW_LIST if event.flow_style else BLOCK_LIST, table=False)
            elif kind is events.MappingEndEvent or kind is events.SequenceEndEvent:
                self._close(event)
            elif kind is events.StreamEndEvent:
                return self.root
            else:
                self._other(event)

    # --- values ---

    def _put(self, node: Node) -> None:
        """A value goes to the table or list that is open."""
        self.nodes += 1
        if self.nodes > MOST_NODES:
            raise Stop(self.refuse.too_many(node.start))
        frame = self.frame
        if frame is None:
            self.root = node
        elif not frame.table:
            frame.values.append(node)
        elif frame.key is None:
            frame.key = node
            name = node.value
            assert isinstance(name, str)  # _open lets nothing else become a key
            if not (name.isidentifier() and node.style == PLAIN and len(name) <= LONGEST_KEY):
                self._check_key(node, name)
        else:
            key, frame.key = frame.key, None
            if (
                frame.style == FLOW_TABLE
                and node.empty
                and (self._colon_without_space(key) or self._joined(frame, key))
            ):
                return
            name = key.value
            assert isinstance(name, str)  # as above
            if name in frame.entries:
                self.problems.append(self.refuse.twice(frame.entries[name].key, key))
                return
            frame.entries[name] = frame.last = _new(Entry, (key, node))
            frame.joined = False

    # --- tables and lists ---

    def _open(self, event: Event, style: str, *, table: bool) -> None:
        mark = event.start_mark
        start = (mark.line + 1, mark.column + 1)
        if event.anchor is not None or event.tag is not None:
            self._refuse_decoration(event)
        if len(self.stack) >= DEEPEST:
            raise Stop(self.refuse.too_deep(start))
        if self.stack and self.stack[-1].table and self.stack[-1].key is None:
            found = "A list or table stands where a key is due."
            raise Stop(self.refuse.complex_key(start, found))
        self.frame = _Frame(start, style, table=table)
        self.stack.append(self.frame)

    def _close(self, event: Event) -> None:
        frame = self.stack.pop()
        self.frame = self.stack[-1] if self.stack else None
        mark = event.end_mark
        end = (mark.line + 1, mark.column + 1)
        if frame.table:
            if frame.style == BLOCK_TABLE and frame.last is not None:
                end = frame.last.value.end
            self._put(_new(Node, (frame.entries, frame.start, end, frame.style)))
        else:
            values = self._rejoined(frame.values) if frame.style == FLOW_LIST else frame.values
            if frame.style == BLOCK_LIST and values:
                end = values[-1].end
            self._put(_new(Node, (tuple(values), frame.start, end, frame.style)))

    def _other(self, event: Event) -> None:
        """What is refused as a whole: an alias, a second document, a directive."""
        if event.__class__ is events.AliasEvent:
            self._refuse_alias(event)
        elif event.__class__ is events.DocumentStartEvent:
            mark: Event = event.start_mark
            last: Event = event.end_mark
            if self.root is not None:
                raise Stop(self.refuse.second_document((mark.line + 1, mark.column + 1)))
            for number in range(mark.line, last.line + 1):
                if self.refuse.lines[number : number + 1] and self.refuse.lines[number][:1] == "%":
                    self.problems.append(self.refuse.directive(number + 1))

    # --- what is refused, and read on ---

    def _check_key(self, key: Node, name: str) -> None:
        """What may be wrong with a key that is more than one plain word."""
        if name == "<<" and key.style == PLAIN:
            self.problems.append(self.refuse.merge_key(key))
            self.holes += 1
        elif not name.strip():
            found = "A value stands here without a key."
            raise Stop(self.refuse.complex_key(key.start, found))
        elif len(name) > LONGEST_KEY or key.start[0] != key.end[0] or "\n" in name:
            found = "The key goes over more than one line, or is a whole text."
            raise Stop(self.refuse.complex_key(key.start, found))
        elif ":" in name:
            self._colon_without_space(key)

    def _colon_without_space(self, key: Node) -> bool:
        """Report ``sts:20`` where a key is due; true when it was that."""
        name = key.value
        if key.style != PLAIN or not isinstance(name, str) or not NO_SPACE.match(name):
            return False
        line, column = key.start
        behind = column + name.index(":") + 1
        problem = missing_space(self.refuse.file, line, behind, name)
        if problem not in self.problems:
            self.problems.append(problem)
            self.holes += 1
        return True

    def _joined(self, frame: _Frame, stray: Node) -> bool:
        """Join what a comma split off a value inside ``{…}``; true when it was that."""
        if frame.last is None:
            return False
        last, value = frame.last.key, frame.last.value
        if not isinstance(value.value, str) or value.style != PLAIN or value.empty:
            return False
        if value.start[0] != stray.end[0]:
            return False
        whole = self._from(value, stray)
        if len(whole.value) > LONGEST_SCALAR:
            raise Stop(self.refuse.too_long(whole))
        name = str(last.value)
        if frame.joined:
            self.problems.pop()
        self.problems.append(self.refuse.split(whole, name))
        frame.entries[name] = frame.last = Entry(last, whole)
        frame.joined = True
        return True

    def _rejoined(self, values: list[Node]) -> list[Node]:
        """Join what commas split off a value inside ``[…]``: an open bracket tells."""
        whole: list[Node] = []
        waiting: list[Node] = []
        for node in values:
            waiting.append(node)
            if len(waiting) > 1 and node.end[1] - waiting[0].start[1] > LONGEST_SCALAR:
                raise Stop(self.refuse.too_long(self._from(waiting[0], node)))
            if _bracket_open(self._from(waiting[0], node)):
                continue
            whole.append(self._from(waiting[0], node))
            if len(waiting) > 1:
                self.problems.append(self.refuse.split(whole[-1], None))
            waiting = []
        return whole + waiting

    def _from(self, first: Node, last: Node) -> Node:
        """The text of one line from one plain value to another; the first itself if alone."""
        if first is last or first.start[0] != last.end[0]:
            return first
        text = self.refuse.lines[first.start[0] - 1][first.start[1] - 1 : last.end[1] - 1]
        return Node(text, first.start, last.end, PLAIN)

    def _check_escapes(self, node: Node) -> None:
        text = str(node.value)
        at = refused_at(text)
        if at is None:
            return
        columns = columns_of(node, self.refuse.lines)
        column = columns[at] if columns is not None else node.start[1]
        span = self.refuse.rest_of_line((node.start[0], column))
        self.problems.append(refused_escape(span, text[at]))
        self.holes += 1

    def _refuse_decoration(self, event: Event) -> None:
        mark = event.start_mark
        place = (mark.line + 1, mark.column + 1)
        if event.anchor is not None:
            self.problems.append(self.refuse.anchor(place, event.anchor))
        if event.tag is not None:
            self.problems.append(self.refuse.tag(place))

    def _refuse_alias(self, event: Event) -> None:
        mark = event.start_mark
        place = (mark.line + 1, mark.column + 1)
        if any(frame.key is not None and frame.key.value == "rows" for frame in self.stack):
            line = self.refuse.lines[mark.line]
            span = self.refuse.rest_of_line(place)
            raise Stop(row_item(span, line[mark.column :]))
        self.problems.append(self.refuse.alias(place, event.anchor))
        self.holes += 1
        self._put(Node("*", place, place, BLOCK))


def _bracket_open(node: Node) -> bool:
    text = node.value
    if not isinstance(text, str) or node.style != PLAIN:
        return False
    return text.count("(") > text.count(")")
