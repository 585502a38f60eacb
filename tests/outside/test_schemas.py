"""Every published schema is held against the meta-schema that it names, and says what each key is.

The meta-schema is that of JSON Schema 2020-12, as the library ``jsonschema`` carries it.
"""

from __future__ import annotations

import json
from collections.abc import Iterator
from pathlib import Path
from typing import Any

import pytest
from jsonschema import Draft7Validator, Draft202012Validator, SchemaError
from jsonschema.validators import validator_for

from workeven.publish import assets

SCHEMAS = {Path(path).name: json.loads(text) for path, text in assets.schemas()}
NAMED = "https://json-schema.org/draft/2020-12/schema"
schemas = pytest.mark.parametrize("name", SCHEMAS)
#: Words of JSON Schema behind which stand values and no schemas.
VALUES = ("enum", "const", "default", "examples", "required")


def keys(part: Any, at: str = "") -> Iterator[tuple[str, Any]]:  # noqa: ANN401, JSON
    """Every key that a schema names, at any depth, with what it says of it."""
    if isinstance(part, list):
        for one in part:
            yield from keys(one, at)
    elif isinstance(part, dict):
        for word, inner in part.items():
            if word in ("properties", "$defs", "patternProperties"):
                for name, one in inner.items():
                    place = f"{at}/{name}"
                    if word != "$defs":
                        yield place, one
                    yield from keys(one, place)
            elif word not in VALUES:
                yield from keys(inner, at)


def test_all_schemas_of_the_package_are_published() -> None:
    """None is left out, so that none goes unchecked here."""
    folder = Path(__file__).parents[2] / "schema"
    assert sorted(SCHEMAS) == sorted(path.name for path in folder.iterdir())


@schemas
def test_a_schema_is_good_by_the_meta_schema_that_it_names(name: str) -> None:
    """``$schema`` is read, not taken for granted."""
    schema = SCHEMAS[name]
    assert schema["$schema"] == NAMED
    checker = validator_for(schema, default=Draft7Validator)  # of one that it does not know
    assert checker is Draft202012Validator
    checker.check_schema(schema)


@schemas
def test_the_meta_schema_would_refuse_another_form(name: str) -> None:
    """The check can fail."""
    with pytest.raises(SchemaError):
        Draft202012Validator.check_schema({**SCHEMAS[name], "type": "a table"})


@schemas
def test_every_key_says_what_it_is(name: str) -> None:
    """An editor shows it beside the key; who reads our data finds it there."""
    every = list(keys(SCHEMAS[name]))
    assert len(every) >= 3
    assert [place for place, inner in every if not inner.get("description")] == []
