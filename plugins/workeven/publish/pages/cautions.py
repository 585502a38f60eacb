"""Cautions and the level as a page shows them.

Takes     ``ReadyPattern``.
Gives     ``CautionView``: ``cautions``, ``rest``, ``mark``; ``level``.
Problems  none.
From      ``standards/safety.csv`` and ``standards/project_levels.csv``, through the stages.

A rule is printed with the ages, the numbers and a link to where it was published; one that is
recalled and was not looked up prints no number and says so.
"""

from __future__ import annotations

import re
from collections.abc import Iterator
from urllib.parse import urlsplit

from workeven.pipeline import ReadyPattern
from workeven.publish.pages import figures
from workeven.publish.pages.views import Link
from workeven.records import record
from workeven.safety import Caution
from workeven.standards.levels import project_levels
from workeven.standards.safety import SafetyRule

_ADDRESS = re.compile(r"https?://[^\s;,()]+")


@record
class RuleView:
    """A published rule, and where it was published."""

    words: str
    citations: tuple[Link, ...]


@record
class CautionView:
    """A caution: its topic, our words, the rules behind them."""

    topic: str
    words: str
    rules: tuple[RuleView, ...]


def cautions(ready: ReadyPattern) -> tuple[CautionView, ...]:
    """The cautions, the gravest first."""
    return tuple(map(_caution, ready.cautions.cautions))


def rest(ready: ReadyPattern) -> CautionView:
    """What is said of rest, on every page."""
    return _caution(ready.cautions.rest)


def mark(ready: ReadyPattern) -> str:
    """What the cautions are about, in a line for the head of the page and for the index."""
    topics = [f"{one.topic[0].lower()}{one.topic[1:]}" for one in ready.cautions.cautions]
    return f"Cautions: {' · '.join(topics)}" if topics else ""


def level(ready: ReadyPattern) -> str:
    """The level, what it means on the published scale, and why it is that of this pattern."""
    judged = ready.level
    meanings = {one.name: one.meaning for one in project_levels() if one.edition == "current"}
    told = f"{judged.name} on the published scale ({meanings[judged.name]})"
    because = f", because of {figures.listed(judged.reasons)}" if judged.reasons else ""
    if judged.raised:
        asked = f"the rows alone ask for {judged.computed}{because}"
        return f"{told}, as the designer has set it; {asked}."
    return f"{told}{because}."


def _caution(caution: Caution) -> CautionView:
    return CautionView(
        topic=caution.topic, words=caution.words, rules=tuple(map(_rule, caution.rules))
    )


def _rule(rule: SafetyRule) -> RuleView:
    return RuleView(words=rule.said(), citations=tuple(_links(rule.origin.citation)))


def _links(citation: str) -> Iterator[Link]:
    """The addresses in a citation, each called by its host."""
    for address in dict.fromkeys(_ADDRESS.findall(citation)):
        yield Link(words=urlsplit(address).netloc.removeprefix("www."), url=address)
