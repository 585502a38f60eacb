"""The published schemas: held to the standard, to editors, and to the quick yes."""

from __future__ import annotations

import json
from collections.abc import Iterator, Mapping
from typing import Any

import pytest
import yaml
from hypothesis import given
from hypothesis import strategies as st
from jsonschema import Draft7Validator, Draft202012Validator

from tests.support.reading import SMALL
from workeven import packaged
from workeven.pattern.conforms import SILENT, UNDERSTOOD, conforms
from workeven.pattern.schema import Kind, plain, schema, validator
from workeven.source import read

KINDS: tuple[Kind, ...] = ("pattern", "studio", "chart")
kinds = pytest.mark.parametrize("kind", KINDS)


def parts(part: Any) -> Iterator[Mapping[str, Any]]:  # noqa: ANN401, JSON
    """A schema and all schemas in it."""
    if not isinstance(part, dict):
        return
    yield part
    for key in ("properties", "$defs"):
        for inner in part.get(key, {}).values():
            yield from parts(inner)
    for key in ("items", "additionalProperties", "propertyNames"):
        yield from parts(part.get(key))


@kinds
def test_schema_is_good_in_2020_12_and_to_editors_of_draft_07(kind: Kind) -> None:
    """The library jsonschema checks a schema itself, by the two editions of the standard."""
    Draft202012Validator.check_schema(schema(kind))
    Draft7Validator.check_schema(schema(kind))


@kinds
def test_every_key_has_a_description(kind: Kind) -> None:
    """It is what an editor shows and what a missing key is explained with."""
    bare = [
        key
        for part in parts(schema(kind))
        for key, inner in part.get("properties", {}).items()
        if not inner.get("description") or inner["description"].endswith(".")
    ]
    assert [] == bare


@kinds
def test_shapes_that_keys_share_have_no_description(kind: Kind) -> None:
    """A YAML language server would show it for that of the key (yaml-language-server 1.25.0)."""
    shared = json.loads(packaged.text(f"schemas/{kind}.schema.json"))["$defs"]
    assert [] == [name for name, shape in shared.items() if "description" in shape]


@kinds
def test_an_example_is_what_may_stand_there(kind: Kind) -> None:
    """An editor offers it to be put in as it is (by the library jsonschema)."""
    whole = schema(kind)
    shapes = {"$defs": whole.get("$defs", {})}
    wrong = [
        (part["description"], example)
        for part in parts(whole)
        for example in part.get("examples", ())
        if not Draft202012Validator({**part, **shapes}).is_valid(example)
        or (isinstance(example, str) and example[:1] in "[{")  # a list is no text in brackets
    ]
    assert [] == wrong


@kinds
def test_no_key_is_taken_that_is_not_known(kind: Kind) -> None:
    """Every table with keys of ours refuses others."""
    closed = [
        part.get("additionalProperties") is False
        for part in parts(schema(kind))
        if "properties" in part
    ]
    assert closed
    assert all(closed)


@kinds
def test_the_quick_yes_knows_every_word_of_the_schema(kind: Kind) -> None:
    """A word that it passed over would let through what jsonschema refuses."""
    assert set() == {word for part in parts(schema(kind)) for word in part} - SILENT - UNDERSTOOD


SOME_KEYS = (
    *("title", "summary", "sizes", "names", "to_fit", "gauge", "ground", "sts", "over", "of"),
    *("rows", "pieces", "mat", "worked", "sections", "work", "note", "video", "url", "yarn"),
    *("counts", "across", "listed", "use", "audience"),
)
VALUES = st.recursive(
    st.none() | st.sampled_from(["", "x", "S (M, L)", "adult", "flat rows", "10 cm", "us", "a b"]),
    lambda inner: (
        st.lists(inner, max_size=3)
        | st.dictionaries(
            st.sampled_from(SOME_KEYS) | st.just("a b"),
            inner,
            max_size=4,
        )
    ),
    max_leaves=12,
)


@given(value=VALUES, at=st.sampled_from([None, *sorted(schema("pattern")["properties"])]))
def test_the_quick_yes_is_that_of_jsonschema(value: object, at: str | None) -> None:
    """Whatever stands in a file or under one of its keys (jsonschema, the reference library)."""
    part = schema("pattern") if at is None else schema("pattern")["properties"][at]
    assert Draft202012Validator(part).is_valid(value) == conforms(value, part)


def test_a_file_is_good_to_us_and_to_an_editor_that_makes_numbers() -> None:
    """An editor reads ``16`` as a number where we keep a word; both find the file good."""
    source = read("f", SMALL.encode()).value
    assert source is not None
    assert validator("pattern").is_valid(plain(source.root))
    assert Draft7Validator(schema("pattern")).is_valid(yaml.safe_load(SMALL))
