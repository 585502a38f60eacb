"""What is wrong with the shape of a file, said to a designer.

Takes     a fault: its kind, the path to it, the part of the schema that it breaks.
Gives     one ``Problem``.
Problems  ``file-key-unknown``, ``file-key-missing``, ``file-value-missing``, ``file-shape``,
          ``file-choice``, ``file-row-item``, ``file-colon-space``, ``name-form``.
From      the descriptions and examples of the schema: what a key is for is said there, once.
"""

from __future__ import annotations

import re
from collections.abc import Callable, Iterable, Mapping
from typing import Any

from workeven.pattern.faults import Fault, Path
from workeven.pattern.pieces import title_of
from workeven.pattern.reading import entries
from workeven.problems import Problem, Span
from workeven.problems.words import KEYS_ALIKE, did_you_mean, excerpt, joined, quote
from workeven.records import record
from workeven.source import Node, Source
from workeven.source.refusals import missing_space, quotable, row_item
from workeven.source.stroke import NO_STROKE, WITH_STROKE
from workeven.source.tree import BLOCK_TABLE

_NO_SPACE = re.compile(r"[A-Za-z][\w-]*:\S")
_WORDS_FOR = {"string": "a text", "array": "a list", "object": "keys with values"}


@record
class _Place:
    """Where a fault is: the value, its key (None for an item of a list), how it is called."""

    source: Source
    kind: str
    path: Path
    node: Node
    key: Node | None

    @property
    def span(self) -> Span:
        """The key, or the value where there is none."""
        return self.source.span(self.key if self.key is not None else self.node)

    @property
    def name(self) -> str:
        """``pieces.mitt``, or what the whole file is."""
        return spoken(self.path) or f"the {self.kind}"

    def problem(self, code: str, span: Span, found: str, expected: str, mend: str) -> Problem:
        """A problem here."""
        return Problem(
            code=code,
            span=span,
            found=found[:1].upper() + found[1:],
            expected=expected,
            mend=mend,
            piece=_piece(self.source, self.path),
            excerpt=excerpt(self.source.lines[span.line - 1]),
        )


def problem_of(source: Source, kind: str, fault: Fault) -> Problem:
    """The sentence for a fault."""
    key, node = _found_at(source.root, fault.path)
    place = _Place(source=source, kind=kind, path=fault.path, node=node, key=key)
    return _SENTENCES.get(fault.kind, _misshapen)(place, fault)


def spoken(path: Path) -> str:
    """A path as messages call it.

    >>> spoken(("pieces", "mitt", "sections", 1, "rows"))
    '`rows` of section 2 of `pieces.mitt`'
    """
    parts: list[str] = []
    names: list[str] = []
    for step in path:
        if isinstance(step, str):
            names.append(step)
            continue
        what = "item"
        if names[-1:] == ["sections"]:
            what = names.pop()[:-1]
        if names:
            parts.append(quote(".".join(names)))
        parts.append(f"{what} {step + 1}")
        names = []
    if names:
        parts.append(quote(".".join(names)))
    return " of ".join(reversed(parts))


# --- the sentences -------------------------------------------------------------------------


def _unknown(place: _Place, fault: Fault) -> Problem:
    name = str(fault.key)
    key, _ = _found_at(place.source.root, (*fault.path, name))
    assert key is not None
    if len(fault.path) > 1 and fault.path[-2] == "rows":
        return row_item(place.source.span(key), place.source.after_start(key))
    if _NO_SPACE.match(name) and key.style == "":
        behind = key.start[1] + name.index(":") + 1
        return missing_space(place.source.file, key.start[0], behind, name)
    known = tuple(fault.schema.get("properties", {}))
    near = did_you_mean(name, known, KEYS_ALIKE)
    where = f"of {place.name}" if fault.path else f"of a {place.kind}"
    said = f"{quote(name)} is not a key {where}."
    if fault.others:
        said = f"{joined(map(quote, (name, *fault.others)))} are not keys {where}."
    return place.problem(
        "file-key-unknown",
        place.source.span(key),
        said,
        "" if near else f"Keys here: {joined(map(quote, known))}.",
        near or "Delete the key, or write one of the keys that are known here.",
    )


def _missing(place: _Place, fault: Fault) -> Problem:
    """One key that is missing is explained in the first line, several one a line."""
    names = (str(fault.key), *fault.others)
    told = [f"`{name}`: {_what_for(fault.schema['properties'][name])}." for name in names]
    alone = len(names) == 1
    needs = told[0] if alone else f"{joined(map(quote, names))}."
    return place.problem(
        "file-key-missing",
        place.span,
        f"{place.name} needs {needs}",
        "" if alone else "\n".join(told),
        _where_to_write(place, names),
    )


def _where_to_write(place: _Place, names: tuple[str, ...]) -> str:
    """The cure for missing keys; one that stands somewhere else is rather in the wrong column."""
    other = None if place.path else _elsewhere(place.source.root, names[0])
    if other is not None:
        return (
            f"`{names[0]}` stands in line {other.start[0]}, indented under another key: "
            "move it to the first column, and what belongs to it as far."
        )
    them = f"`{names[0]}:` and its value" if len(names) == 1 else "these keys, each with its value,"
    return f"Write {them} under {place.name}." if place.path else f"Write {them.rstrip(',')}."


def _elsewhere(node: Node, name: str) -> Node | None:
    """The key of this name that opens a table or nothing, somewhere deeper in the file."""
    for key, inner in entries(node).values():
        if key.value == name and (inner.empty or not isinstance(inner.value, str)):
            return key
        found = _elsewhere(inner, name)
        if found is not None:
            return found
    return None


def _what_for(asked: Mapping[str, Any]) -> str:
    """What a key holds, with an example, as the middle of a sentence."""
    what = str(asked["description"])
    example = _example(asked)
    return f"{what[:1].lower()}{what[1:]}{', such as ' + example if example else ''}"


def _what_is(asked: Mapping[str, Any]) -> str:
    """What a value is; a shape that many keys share says so in a comment.

    Editors show the description of the shape for that of the key, where it has one.
    """
    return str(asked.get("description") or asked.get("$comment", ""))


def _empty(place: _Place, fault: Fault) -> Problem:
    what = _what_is(fault.schema) or "a value"
    example = _example(fault.schema)
    return place.problem(
        "file-value-missing",
        place.span,
        f"{place.name} has no value.",
        f"{what[:1].upper()}{what[1:]}{', such as ' + example if example else ''}.",
        "Write the value behind the colon or indented below, or delete the key.",
    )


def _choice(place: _Place, fault: Fault) -> Problem:
    words = _words(fault.schema["enum"])
    found = fault.found if isinstance(fault.found, str) else "a list or table"
    return place.problem(
        "file-choice",
        place.source.span(place.node),
        f"{place.name} cannot be {quote(found)}.",
        f"{'One of' if len(words) > 1 else 'Only'}: {joined(map(quote, words), 'or')}.",
        _weight_of_type(place, found)
        or did_you_mean(found, words)
        or f"Write one of these words for {place.name}.",
    )


def _weight_of_type(place: _Place, found: str) -> str:
    """What a type of yarn ("worsted") is among the weights, by the published lists."""
    if not place.name.endswith(".weight`"):
        return ""
    from workeven.standards import yarn_weights  # loaded only when something is wrong

    names = dict.fromkeys(
        weight.name.lower()
        for weight in yarn_weights()
        if " ".join(found.lower().split()) in (one.lower() for one in weight.yarn_types)
    )
    return f"{quote(found)} is {joined(map(quote, names), 'or')}: write that." if names else ""


def _name(place: _Place, fault: Fault) -> Problem:
    name = str(fault.key)
    key, _ = _found_at(place.source.root, (*fault.path, name))
    better = re.sub(r"[^A-Za-z0-9]+", "_", name).strip("_")
    most = fault.schema.get("maxLength", 0)
    good = better[:most] if re.match(r"[A-Za-z]", better) else f"the_{better}"[:most].strip("_")
    return place.problem(
        "name-form",
        place.source.span(key if key is not None else place.node),
        f"{quote(name)} cannot be a name in {place.name}.",
        f"A letter, then letters, digits and underscores, at most {most}."
        if "pattern" in fault.schema
        else f"One or a few words, at most {most} characters.",
        f"Write {quote(good)}, for example." if "pattern" in fault.schema else "Write it shorter.",
    )


def _misshapen(place: _Place, fault: Fault) -> Problem:
    """A text where a table is due, and the like."""
    node = place.node
    text = node.value if isinstance(node.value, str) else ""
    due = _due(fault.schema)
    if _NO_SPACE.match(text) and node.style == "" and "keys" in due:
        line, column = node.start
        behind = column + text.index(":") + 1
        return missing_space(place.source.file, line, behind, text)
    if fault.path[-1:] == ("rows",) and not isinstance(node.value, str):
        # "Row 1: ch 3" below `rows:` is a key with a value to YAML
        return place.problem(
            "file-row-item",
            place.source.span(node),
            NO_STROKE,
            "Rows in a text block, which YAML leaves as they are.",
            WITH_STROKE,
        )
    if node.style == BLOCK_TABLE and due == "a text":
        return _colon_in_text(place)
    what = _what_is(fault.schema)
    example = _example(fault.schema)
    mend = f"Write {due}{', such as ' + example if example else ''}."
    if re.match(r"-\S", text) and "list" in due:
        mend = "Write a space behind each dash."
    elif "list" in due and text:
        mend = f"Write it as a list: `[{text[:60]}]`."
    return place.problem(
        "file-shape",
        place.source.span(node),
        f"{place.name} is {_kind_of(node)}, and {due} {'are' if 'keys' in due else 'is'} due.",
        f"{what[:1].upper()}{what[1:]}." if what else "",
        mend,
    )


def _colon_in_text(place: _Place) -> Problem:
    """``- Ends: weave them in``, which is a key with a value to YAML."""
    text = place.source.after_start(place.node).strip()
    return place.problem(
        "file-colon",
        place.source.span(place.node),
        f"{place.name} holds a colon with a space behind it, which YAML takes for the end of a "
        "key.",
        "A text with a colon in quotes.",
        f'Write `"{quotable(text)}"`.',
    )


_SENTENCES: Mapping[str, Callable[[_Place, Fault], Problem]] = {
    "unknown": _unknown,
    "missing": _missing,
    "empty": _empty,
    "enum": _choice,
    "name": _name,
    "type": _misshapen,
}


def _found_at(root: Node, path: Path) -> tuple[Node | None, Node]:
    """The key and the value at a path; the last key passed stands for an item of a list."""
    key: Node | None = None
    node = root
    for step in path:
        value = node.value
        if isinstance(value, Mapping):
            key, node = value[str(step)]
        elif isinstance(value, tuple) and isinstance(step, int):
            key, node = None, value[step]
    return key, node


def _piece(source: Source, path: Path) -> str | None:
    """The title of the piece in which a path lies."""
    if len(path) < 2 or path[0] != "pieces":  # noqa: PLR2004, "pieces" and a name
        return None
    _, node = _found_at(source.root, path[:2])
    title = node.value.get("title") if isinstance(node.value, Mapping) else None
    if title is not None and isinstance(title.value.value, str) and title.value.value:
        return title.value.value
    return title_of(str(path[1]))


def _due(schema: Mapping[str, Any]) -> str:
    types = schema.get("type", "string")
    names = [types] if isinstance(types, str) else types
    words = [_WORDS_FOR[name] for name in names if name in _WORDS_FOR]
    return joined(words, "or") if words else "a text"


def _kind_of(node: Node) -> str:
    if isinstance(node.value, str):
        return f"the text {quote(node.value)}"
    return "a list" if isinstance(node.value, tuple) else "a table of keys with values"


def _words(choices: Iterable[object]) -> tuple[str, ...]:
    """The words of a closed list, each once though a word may be written large or small."""
    words: dict[str, str] = {}
    for word in choices:
        if isinstance(word, str):
            words.setdefault(word.lower(), word)
    return tuple(words.values())


def _example(schema: Mapping[str, Any]) -> str:
    examples = schema.get("examples")
    return f"`{_in_yaml(examples[0])}`" if examples else ""


def _in_yaml(example: object) -> str:
    """An example as a pattern file has it, on one line.

    >>> _in_yaml(["garment", "tee"])
    '[garment, tee]'
    """
    return f"[{', '.join(map(_in_yaml, example))}]" if isinstance(example, list) else str(example)
