"""What the head of a page says for its scripts."""

from __future__ import annotations

import json
from html import unescape

from tests.publish.samples import mitts, text
from workeven.pattern import Pattern
from workeven.publish.pages.choosing import meta
from workeven.records import replace


def told(pattern: Pattern) -> dict[str, object]:
    """What scripts read."""
    content = str(meta(pattern, "")).removeprefix('<meta name="we-pattern" content="')
    found = json.loads(unescape(content.removesuffix('">\n')))
    assert isinstance(found, dict)
    return found


def test_former_names_are_told() -> None:
    """What was ticked, chosen or kept under them goes over."""
    pattern = mitts().pattern
    former = replace(pattern, formerly=(text("hand-mitts"), text("wristers")))
    assert told(former)["formerly"] == ["hand-mitts", "wristers"]
    assert "formerly" not in told(pattern)
