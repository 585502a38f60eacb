"""The page says its cautions and its level: no pattern gets a page without them."""

from __future__ import annotations

import re
from html import unescape

import pytest

from tests.support import pattern_files
from workeven import pipeline, source
from workeven.pipeline import ReadyPattern, Verdict
from workeven.publish import collection
from workeven.publish.collection import Address
from workeven.publish.pages import cautions

CLOSING = "Check the rules where you live or sell; this is not legal or safety certification."


def ready(told: str, extra: str = "") -> ReadyPattern:
    """The good pattern for somebody else."""
    text = pattern_files.changed("audience: adult\nuse: [home]\n", f"{told}\n")
    found = pattern_files.outcome(f"{text}published: 2026-11-26\n{extra}").ready
    assert found is not None
    return found


def page(one: ReadyPattern, at: int = 1) -> str:
    """The words of its page; ``at`` 0: of the index."""
    outcome = pipeline.Outcome(file=one.pattern.file, ready=one, problems=())
    made = collection.published(
        Verdict(outcomes=(outcome,), problems=()), Address(folder="patterns", ending="")
    )
    return " ".join(unescape(re.sub(r"<[^>]+>", " ", made.pages[at].html)).split())


@pytest.mark.parametrize(
    ("told", "said"),
    [
        ("audience: baby\nuse: [blanket]", ("Safe sleep.", "back to sleep", "Small parts.")),
        ("audience: baby\nuse: [wear]", ("Hats indoors.", "Cords and drawstrings.")),
        ("audience: child\nages: 1 to 6 years\nuse: [toy]", ("Toys.", "16 CFR 1501", "EN 71-1")),
        ("audience: child\nages: 4 to 6 years\nuse: [sleep]", ("16 CFR 1615", "tightly")),
        ("audience: pet\nuse: [toy]", ("Pets.",)),
        ("audience: adult\nuse: [flame]", ("Flames.", "Heat.")),
        ("audience: adult\nuse: [hammock]", ("We give no load that it carries",)),
    ],
)
def test_page_cannot_be_made_without_its_cautions(told: str, said: tuple[str, ...]) -> None:
    """In the text of the page, closed by what they are not, and marked at its head."""
    text = page(ready(told))
    assert [] == [words for words in (*said, CLOSING, "Cautions:") if words not in text]
    assert text.index("Cautions:") < text.index("Numbers are given") < text.index(CLOSING)
    assert text.index(CLOSING) < text.index("Materials", text.index(CLOSING))


def test_index_marks_the_cautions() -> None:
    """In a line under the facts."""
    text = page(ready("audience: baby\nuse: [blanket]"), at=0)
    assert "Cautions: safe sleep · cords near a cot · small parts" in text


def test_page_without_cautions_has_no_empty_box() -> None:
    """A mat for adults asks for none; the note on rest is on every page."""
    text = page(ready("audience: adult\nuse: [home]"))
    assert "Cautions" not in text
    assert "break every 30 to 60 min" in text
    assert "its sources are weak" in text


def test_rule_is_printed_with_where_it_was_published() -> None:
    """Each address is a link that is called by its host."""
    (first, *_) = cautions.cautions(ready("audience: baby\nuse: [wear]"))
    assert "Hats indoors" == first.topic
    assert ("abcnews.go.com",) == tuple(link.words for link in first.rules[0].citations)


def test_page_gives_the_level_with_its_reasons() -> None:
    """And says where the designer has raised it."""
    assert (
        "Easy on the published scale (simple stitch patterns, colour work and/or shaping), "
        "because of a repeat over several stitches."
    ) == cautions.level(ready("audience: adult\nuse: [home]"))
    raised = cautions.level(ready("audience: adult\nuse: [home]\nlevel: Complex"))
    assert raised.endswith(
        "as the designer has set it; the rows alone ask for Easy, because of a repeat over "
        "several stitches."
    )


def test_nothing_promises_a_time() -> None:
    """How long it takes depends on the hands."""
    text = page(ready("audience: baby\nuse: [blanket]"))
    assert [] == re.findall(r"\b\d+ (?:hours?|days?|weeks?|evenings?)\b", text)


def test_demo_shows_both_kinds_of_cautions() -> None:
    """A blanket for babies and a toy for children, each with its own."""
    verdict = pipeline.check(source.collect(["patterns"]))
    found = {
        one.ready.pattern.slug: cautions.mark(one.ready) for one in verdict.outcomes if one.ready
    }
    assert (
        "Cautions: safe sleep · cords near a cot · small parts",
        "Cautions: small parts · toys",
    ) == (found["ripplemark-blanket"], found["haulout-pup"])
