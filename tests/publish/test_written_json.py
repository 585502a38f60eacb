"""JSON beside a page is, to the byte, what Python's own ``json`` writes."""

from __future__ import annotations

import json

import pytest
from hypothesis import given
from hypothesis import strategies as st

from workeven.publish.written_json import written

LEAVES = st.none() | st.booleans() | st.integers() | st.text()
VALUES = st.recursive(
    LEAVES,
    lambda inner: st.lists(inner) | st.tuples(inner, inner) | st.dictionaries(st.text(), inner),
    max_leaves=30,
)


@given(VALUES, st.integers(0, 3))
def test_the_bytes_are_those_of_json(value: object, indent: int) -> None:
    """Of any value, with any indent; a level without one begins its lines at the margin."""
    found = written(value, indent)
    assert found == (json.dumps(value, ensure_ascii=False, indent=indent) + "\n").encode()


@pytest.mark.parametrize("value", [1.5, {1, 2}, [object()]])
def test_what_json_has_not_is_refused(value: object) -> None:
    """A float too: lengths are told as decimal texts."""
    with pytest.raises(TypeError, match="nothing that JSON has"):
        written(value, 1)
