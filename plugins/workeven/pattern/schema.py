"""The published schemas as checkers of the shape of a file.

Takes     the tree of a file.
Gives     the tree without what is misshapen, and the problems; ``Shaped``.
Problems  those of ``sentences``.
From      the schemas ``pattern``, ``studio`` and ``chart``, which editors read too.

To the schema every scalar is a text, and a key without a value is null: what a text means is
decided by its place, in ``reading``. So a schema says "text or number" where a number is due, and
an editor that reads ``2`` as a number and this checker, which reads it as a text, agree.

``$ref`` is replaced by what it refers to once, when a schema is loaded: checking is twice as fast
and the messages come from the place itself.
"""

from __future__ import annotations

import json
from collections.abc import Iterable, Mapping
from functools import lru_cache
from typing import TYPE_CHECKING, Any, Literal

from workeven import packaged
from workeven.pattern.conforms import conforms
from workeven.pattern.faults import Fault, Path
from workeven.problems import Problem
from workeven.problems.words import KEYS_ALIKE, nearest
from workeven.records import record, replace
from workeven.source import Entry, Node, Source

if TYPE_CHECKING:
    from jsonschema import Draft202012Validator
    from jsonschema.exceptions import ValidationError

Kind = Literal["pattern", "studio", "chart"]


#: Keys on which no number hangs.
WORDS_ALONE = frozenset(
    {
        *(
            "title",
            "summary",
            "story",
            "pictures",
            "tags",
            "level",
            "designers",
            "version",
            "published",
        ),
        *(
            "changes",
            "formerly",
            "licence",
            "copyright",
            "audience",
            "ages",
            "use",
            "margin",
            "notions",
        ),
        *(
            "amounts",
            "hooks",
            "care",
            "assembly",
            "finishing",
            "video",
            "allow",
            "note",
            "links",
            "ask",
        ),
    }
)


@record
class Shaped:
    """A tree in which every value has the shape that its place asks for, and what had not.

    ``whole``: nothing is left out that a number hangs on, so that later stages tell no mistake
    that is none.
    """

    root: Node
    problems: tuple[Problem, ...]
    whole: bool = True


def shaped(source: Source, kind: Kind) -> Shaped:
    """Check the shape of a file; what is misshapen is reported once and left out."""
    values = plain(source.root)
    if conforms(values, schema(kind)):
        return Shaped(root=source.root, problems=())
    from workeven.pattern.sentences import problem_of  # needed by misshapen files alone

    faults = [fault for error in validator(kind).iter_errors(values) for fault in _faults(error)]
    problems = tuple(problem_of(source, kind, fault) for fault in _one_a_mistake(faults))
    problems = tuple(sorted(problems, key=lambda one: (one.span.line, one.span.column)))
    left_out = frozenset(_as_a_whole(fault.left_out) for fault in faults if fault.left_out)
    whole = all(_bears_no_number(fault) for fault in faults if fault.left_out)
    return Shaped(root=_without(source.root, left_out, ()), problems=problems, whole=whole)


@lru_cache(maxsize=3)
def validator(kind: Kind) -> Draft202012Validator:
    """The checker of one kind of file, made once."""
    from jsonschema import Draft202012Validator  # takes long to load: only for a misshapen file

    return Draft202012Validator(schema(kind))


@lru_cache(maxsize=3)
def schema(kind: Kind) -> Mapping[str, Any]:
    """A schema as published, with every ``$ref`` replaced by what it refers to."""
    written = json.loads(packaged.text(f"schemas/{kind}.schema.json"))
    shared = written.pop("$defs")
    inlined: dict[str, Any] = _inlined(written, shared)
    return inlined


def plain(node: Node) -> Any:  # noqa: ANN401, what JSON can hold
    """A tree as plain values: texts, lists, tables, and null where nothing is written."""
    value = node.value
    if isinstance(value, str):
        return None if node.empty else value
    if isinstance(value, tuple):
        return [plain(one) for one in value]
    return {key: plain(entry.value) for key, entry in value.items()}


def _inlined(part: Any, shared: Mapping[str, Any]) -> Any:  # noqa: ANN401, JSON again
    if isinstance(part, list):
        return [_inlined(one, shared) for one in part]
    if not isinstance(part, dict):
        return part
    if "$ref" in part:
        return _inlined(shared[part["$ref"].rpartition("/")[2]], shared)
    own = {key: _inlined(value, shared) for key, value in part.items() if key != "allOf"}
    meant = [_inlined(one, shared) for one in part.get("allOf", ())]
    return {key: value for one in (*meant, own) for key, value in one.items()}


def _faults(error: ValidationError) -> Iterable[Fault]:
    """The faults in one finding of the checker: a table with two unknown keys has two."""
    path: Path = tuple(error.absolute_path)
    schema_here = error.schema
    assert isinstance(schema_here, Mapping)
    if error.validator == "additionalProperties" and isinstance(error.instance, dict):
        known = schema_here.get("properties", {})
        for key in error.instance:
            if key not in known:
                yield Fault(
                    kind="unknown", path=path, schema=schema_here, key=key, left_out=(*path, key)
                )
    elif error.validator == "required":
        for key in schema_here["required"]:
            if error.message.startswith(f"{key!r} "):
                yield Fault(kind="missing", path=path, schema=schema_here, key=key)
    elif error.validator == "anyOf" and isinstance(error.instance, dict):
        for key in schema_here["anyOf"][0]["required"]:
            if key not in error.instance:
                yield Fault(kind="missing", path=path, schema=schema_here, key=key)
    elif "propertyNames" in error.absolute_schema_path:
        key = str(error.instance)
        yield Fault(kind="name", path=path, schema=schema_here, key=key, left_out=(*path, key))
    else:
        kind = "empty" if error.instance in (None, "", [], {}) else str(error.validator)
        yield Fault(kind=kind, path=path, schema=schema_here, found=error.instance, left_out=path)


def _bears_no_number(fault: Fault) -> bool:
    """Whether what is left out is words alone, or a key that is like none of those known."""
    path = fault.left_out or ()
    meant = _meant(fault) if fault.kind == "unknown" else path[-1]
    return meant is None or meant in WORDS_ALONE or path[0] in WORDS_ALONE


def _as_a_whole(path: Path) -> Path:
    """Rows go out together: those behind a missing one would count on it."""
    for at in range(len(path) - 1):
        if path[at] == "rows" and isinstance(path[at + 1], int):
            return path[: at + 1]
    return path


def _one_a_mistake(faults: list[Fault]) -> list[Fault]:
    """One fault a table where one slip made several: a misspelt key, lines in the wrong place.

    A required key that is there under a misspelt name is not missing, nor is the ``work`` of a row
    that YAML took for a table. Keys that a table lacks are told together, and so are those that
    are like none of its own.
    """
    unknown = [fault for fault in faults if fault.kind == "unknown"]
    meant = {(fault.path, _meant(fault)) for fault in unknown} | {
        (fault.path, "work") for fault in unknown
    }
    kept = [
        fault for fault in faults if fault.kind != "missing" or (fault.path, fault.key) not in meant
    ]
    return _together(kept)


def _meant(fault: Fault) -> str | None:
    """The key that a misspelt one was meant for."""
    return nearest(fault.key or "", fault.schema.get("properties", ()), KEYS_ALIKE)


def _together(faults: list[Fault]) -> list[Fault]:
    """Faults of the same kind in the same table as one, where nothing tells them apart."""
    found: list[Fault] = []
    first: dict[tuple[str, Path], int] = {}
    for fault in faults:
        alike = fault.kind == "missing" or (fault.kind == "unknown" and _meant(fault) is None)
        place = (fault.kind, fault.path)
        if alike and fault.key is not None and place in first:
            earlier = found[first[place]]
            found[first[place]] = replace(earlier, others=(*earlier.others, fault.key))
            continue
        if alike:
            first[place] = len(found)
        found.append(fault)
    return found


def _without(node: Node, left_out: frozenset[Path], path: Path) -> Node:
    """The tree without the values at these paths; the same tree when there are none."""
    if not left_out:
        return node
    value = node.value
    kept: tuple[Node, ...] | dict[str, Entry]
    if isinstance(value, str):
        return node
    if isinstance(value, tuple):
        kept = tuple(
            _without(one, left_out, (*path, at))
            for at, one in enumerate(value)
            if (*path, at) not in left_out
        )
    else:
        kept = {
            key: Entry(entry.key, _without(entry.value, left_out, (*path, key)))
            for key, entry in value.items()
            if (*path, key) not in left_out
        }
    return node._replace(value=kept)
