"""Canaries: strings that would come alive in some output, in every text field that takes them.

Takes     the text of a pattern file, and its studio.
Gives     ``planted``: the same file with a canary in each such field; ``CANARY``.
Problems  none.
From      OWASP, "Cross Site Scripting Prevention" and "CSV Injection", for what to try where.

Which fields take free text is found by trying: a canary is planted in each value, and stays where
the pattern is still good.
"""

from __future__ import annotations

import re
from typing import Any

import yaml

from workeven import pattern, pipeline, source
from workeven.pattern import Studio

#: what a canary does where it is alive: as an element, in an attribute, in a script, in a style, in
#: Markdown, in a template, in a text of JSON, as a cell, as a line of a log
CANARY = (
    "=cmd|'/C canary'!A0 \"'><canary-{n} onload=canary()></script></style></title></textarea>"
    "<script>canary()</script>--> ]]> {{{{ 7 * 7 }}}} [c](javascript:canary()) &lt;canary&gt; "
    "`c` \\u003c ::error::canary ##[error]canary %0A@canary"
)


class _Dumper(yaml.SafeDumper):
    """Writes rows as text blocks, as people do."""

    def ignore_aliases(self, data: object) -> bool:
        """Never a mark."""
        del data
        return True


def _as_written(dumper: yaml.SafeDumper, text: str) -> yaml.ScalarNode:
    style = "|" if "\n" in text else '"' if "canary" in text else None
    return dumper.represent_scalar("tag:yaml.org,2002:str", text, style=style)


_Dumper.add_representer(str, _as_written)


def planted(text: str, studio: Studio) -> tuple[str, int]:
    """The file with a canary in every field that takes one, and in how many that is."""
    tree = yaml.load(text, yaml.BaseLoader)  # noqa: S506, texts alone
    number = 0
    for holder, key in list(_leaves(tree)):
        before = holder[key]
        holder[key] = f"{CANARY.format(n=number)} {before}"
        if _good(tree, studio):
            number += 1
        else:
            holder[key] = before
    return _written(tree), number


def _leaves(tree: Any) -> list[tuple[Any, Any]]:  # noqa: ANN401, what a YAML file holds
    found: list[tuple[Any, Any]] = []
    waiting = [tree]
    while waiting:
        one = waiting.pop()
        for key, value in one.items() if isinstance(one, dict) else enumerate(one):
            if isinstance(value, (dict, list)):
                waiting.append(value)
            elif not re.search(r"\b(?:sc|dc|ch|st|sts)\b.*\n", value):
                found.append((one, key))
    return found


def _written(tree: object) -> str:
    return yaml.dump(tree, Dumper=_Dumper, sort_keys=False, allow_unicode=True, width=100_000)


def _good(tree: object, studio: Studio) -> bool:
    read = source.read("patterns/planted/pattern.yaml", _written(tree).encode())
    return read.value is not None and pipeline.run(read.value, studio).ready is not None


def studio_of(text: str) -> Studio:
    """The studio that a file tells of."""
    read = source.read("patterns/studio.yaml", text.encode())
    assert read.value is not None
    found = pattern.parse_studio(read.value).value
    assert found is not None
    return found


def planted_studio(text: str) -> tuple[str, int]:
    """The same of a studio's file."""
    tree = yaml.load(text, yaml.BaseLoader)  # noqa: S506, texts alone
    number = 0
    for holder, key in list(_leaves(tree)):
        before = holder[key]
        holder[key] = f"{CANARY.format(n=1000 + number)} {before}"
        read = source.read("patterns/studio.yaml", _written(tree).encode())
        checked = read.value and pattern.parse_studio(read.value)
        if checked and checked.value is not None and not checked.problems:
            number += 1
        else:
            holder[key] = before
    return _written(tree), number
