"""The quick yes: whether plain values conform to one of our schemas.

Takes     plain values, a schema with its ``$ref`` inlined.
Gives     ``conforms``.
Problems  none: what does not conform is looked at by jsonschema, which finds all faults.
From      JSON Schema 2020-12, the few words of it that our schemas use.

Most files conform, and jsonschema takes longer to load than all the rest of a check. So it is
loaded only for a file that does not. A test holds this yes equal to that of jsonschema, and
another that our schemas use no word that is not known here.
"""

from __future__ import annotations

import re
from collections.abc import Mapping
from functools import lru_cache
from typing import Any

#: Words of a schema that say nothing about what conforms.
SILENT = frozenset({"$schema", "$id", "$comment", "title", "description", "examples"})
#: Words that are understood here.
UNDERSTOOD = frozenset(
    {
        "type",
        "enum",
        "minLength",
        "maxLength",
        "pattern",
        "items",
        "minItems",
        "properties",
        "required",
        "anyOf",
        "additionalProperties",
        "propertyNames",
        "minProperties",
    }
)


def conforms(value: Any, schema: Mapping[str, Any]) -> bool:  # noqa: ANN401, what JSON can hold
    """Whether a value conforms; a text is a text, also where the schema allows a number too.

    >>> conforms("", {"type": "string", "minLength": 1})
    False
    """
    if "enum" in schema and value not in schema["enum"]:
        return False
    allowed = schema.get("type")
    if isinstance(value, str):
        return _is_allowed("string", allowed) and _text(value, schema)
    if isinstance(value, list):
        return _is_allowed("array", allowed) and _list(value, schema)
    if isinstance(value, dict):
        return _is_allowed("object", allowed) and _table(value, schema)
    return allowed is None


def _is_allowed(kind: str, allowed: str | list[str] | None) -> bool:
    return allowed is None or kind == allowed or (kind in allowed and not isinstance(allowed, str))


def _text(value: str, schema: Mapping[str, Any]) -> bool:
    if not schema.get("minLength", 0) <= len(value) <= schema.get("maxLength", len(value)):
        return False
    return "pattern" not in schema or _compiled(schema["pattern"]).search(value) is not None


def _list(value: list[Any], schema: Mapping[str, Any]) -> bool:
    if len(value) < schema.get("minItems", 0):
        return False
    each = schema.get("items")
    return each is None or all(conforms(one, each) for one in value)


def _table(value: dict[str, Any], schema: Mapping[str, Any]) -> bool:
    if len(value) < schema.get("minProperties", 0):
        return False
    if any(key not in value for key in schema.get("required", ())):
        return False
    ways = schema.get("anyOf")  # of keys that go together
    if ways and not any(all(key in value for key in way["required"]) for way in ways):
        return False
    names = schema.get("propertyNames")
    if names is not None and not all(conforms(key, names) for key in value):
        return False
    known, others = schema.get("properties", {}), schema.get("additionalProperties", True)
    for key, inner in value.items():
        expected = known.get(key, others)
        if expected is False or (expected is not True and not conforms(inner, expected)):
            return False
    return True


@lru_cache(maxsize=16)
def _compiled(pattern: str) -> re.Pattern[str]:
    return re.compile(pattern)
