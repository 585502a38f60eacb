"""The figures of pages that are of no one pattern, found anew from all patterns."""

from __future__ import annotations

import re
from collections.abc import Sequence

from tests.traced.asked import Asked, heading
from tests.traced.of_pattern import told
from tests.traced.told import decimal, figures

#: Chains as high as a stitch (common practice).
HEIGHTS = {"sc": 1, "hdc": 2, "dc": 3, "tr": 4, "dtr": 5, "trtr": 6}
#: Sentences of ours with a figure in them, each with the reason for it.
OURS = {
    r"A size fits half-way to the next one; one that stands alone, 2 cm .*": "our own rule: facets",
    r"A decrease: .* A number other than 2 says how many .*": "the 2 of sc2tog is meant",
    r"A first row with its own chain: .* chain 1 in it .*": "a foundation stitch (common practice)",
    r"60 \(66, 72\)": "an example of trade notation",
}


def told_of_all(every: Sequence[Asked], origin: str, text: str) -> tuple[str, ...]:
    """The figures that an origin says there are on a page of the whole collection."""
    name, _, what = origin.partition(": ")
    if name == "words of ours":
        assert any(re.fullmatch(one, text) for one in OURS), text
        return figures(text)
    if name.startswith("stitch "):
        return _stitch(name.removeprefix("stitch "), what)
    if name == "studio":
        return _of_studio(every, text)
    if name.startswith("pattern "):
        one = next(one for one in every if one.file["title"] == name.removeprefix("pattern "))
        return _of_one(one, name.removeprefix("pattern "), what)
    key, _, rest = what.partition(", ")
    match key:
        case "how many":
            return (str(len(every)),)
        case "title" | "summary":
            assert text in {str(one.file[key]) for one in every}
            return figures(text)
        case "sizes":
            assert rest in {_listed(one) for one in every}
            return figures(rest)
        case "drawing":
            return _drawing(every, text)
        case "day of a change":
            assert text in {day for one in every for day in _days(one)}
            return figures(text)
        case "text of a change":
            texts = {
                " ".join(str(change["text"]).split()) for one in every for change in _changes(one)
            }
            assert any(text.startswith(one) for one in texts)
            return figures(text)
        case _ if key.startswith("patterns by "):
            by = key.removeprefix("patterns by ")
            return figures(f"{by} {sum(by in one.ready.pattern.designers for one in every)}")
        case _:
            return figures(f"{rest} {sum(rest in _values(one, key) for one in every)}")


def _values(of: Asked, by: str) -> set[str]:
    """What a pattern is by one of the filters."""
    pattern = of.ready.pattern
    hooks = [*(one.hook for one in pattern.gauges), *pattern.hooks]
    values = {
        "kind": pattern.tags,
        "for": (pattern.audience,),
        "weight": tuple(one.weight for one in pattern.yarns if one.weight),
        "level": (of.ready.level.name,),
        "hook": tuple(f"{decimal(one.mm, 3)} mm" for one in hooks if one),
    }
    return set(map(heading, values[by]))


def _listed(of: Asked) -> str:
    first, *others = of.names
    return f"{first} ({', '.join(others)})" if others else first


def _drawing(every: Sequence[Asked], text: str) -> tuple[str, ...]:
    """The drawing of a pattern all of whose pieces are named."""
    for one in every:
        named = all(piece.title in text for piece in one.ready.pattern.pieces)
        if named and told(one, "drawing: pieces", text).all == figures(text):
            return figures(text)
    return ()


def _changes(of: Asked) -> list[dict[str, str]]:
    listed = of.file.get("changes") or []
    assert isinstance(listed, list)
    return listed


def _days(of: Asked) -> list[str]:
    return [*(str(one["date"]) for one in _changes(of)), str(of.file.get("published"))]


def _of_one(of: Asked, title: str, what: str) -> tuple[str, ...]:
    key, _, rest = what.partition(", ")
    if key == "published":
        return figures(f"{title} {of.file['published']}")
    day, version = rest.split(" ") if " " in rest else ("", rest)
    assert version in {str(one["version"]) for one in _changes(of)}
    assert not day or day in _days(of)
    return figures(f"{day} {title} {version}")


def _stitch(name: str, what: str) -> tuple[str, ...]:
    if what == "height":
        return (str(HEIGHTS[name]),)
    return figures(name) * 4  # short and in full, in US and in UK terms


def _of_studio(every: Sequence[Asked], text: str) -> tuple[str, ...]:
    studio = every[0].studio
    known = [str(studio.get(key)) for key in ("summary", "licence", "copyright", "name")]
    assert any(one in text for one in known)
    return figures(" ".join(one for one in known if one in text))
