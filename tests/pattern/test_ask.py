"""Where makers ask a studio about a row."""

from __future__ import annotations

import pytest

from workeven import pattern, source
from workeven.pattern import Ask, Studio
from workeven.problems import Checked


def studio(asked: str) -> Checked[Studio]:
    """What becomes of a studio's file with that address."""
    read = source.read("patterns/studio.yaml", f"name: T\nask: '{asked}'\n".encode())
    assert read.value is not None
    return pattern.parse_studio(read.value)


@pytest.mark.parametrize(
    ("asked", "mail", "places"),
    [
        ("rows@studio.example", True, ()),
        ("a.b+c@post.studio.example", True, ()),
        ("https://studio.example/ask", False, ()),
        ("https://studio.example/ask?p={pattern}&r={row}#{row}", False, ("pattern", "row")),
        (
            "http://studio.example:8080/{version}/{piece}/{size}",
            False,
            ("version", "piece", "size"),
        ),
    ],
)
def test_a_mail_address_or_a_link_with_places(
    asked: str, *, mail: bool, places: tuple[str, ...]
) -> None:
    """The places in their order, each once."""
    found = studio(asked)
    assert found.problems == ()
    assert found.value is not None
    assert found.value.ask == Ask(address=asked, mail=mail, places=places)


@pytest.mark.parametrize(
    ("asked", "code", "begins"),
    [
        ("rows at studio", "link-address", "`rows at studio` is no address at which"),
        ("mailto:rows@studio.example", "link-address", "`mailto:rows@studio.example` is no"),
        ("rows@studio.example?subject={row}", "link-address", "`rows@studio.example?subject"),
        ("rows@studio.example, a@b.example", "link-address", "`rows@studio.example, a@b"),
        ("javascript:alert(1)", "link-address", "`javascript:alert(1)` is no"),
        ("https:///ask", "link-address", "`https:///ask` is not an address"),
        ("https://studio.example/a b", "link-address", "`https://studio.example/a b` is not"),
        ("https://studio.example/{rows}", "link-place", "`{rows}` is nothing that a page can"),
        ("https://studio.example/{}", "link-place", "`{}` is nothing that a page can"),
        ("https://{pattern}.example/", "link-place", "`{pattern}` stands in the name of the"),
        ("https://studio.example{row}", "link-place", "`{row}` stands in the name of the host"),
        ("https://studio.example/{row", "link-place", "A brace of"),
    ],
)
def test_what_cannot_be_asked_at_is_told_once(asked: str, code: str, begins: str) -> None:
    """With its place; the studio is there without it."""
    found = studio(asked)
    (problem,) = found.problems
    assert (problem.code, problem.span.line, problem.span.column) == (code, 2, 6)
    assert problem.found.startswith(begins)
    assert found.value is not None
    assert found.value.ask is None


def test_a_misspelt_place_has_the_one_that_was_meant() -> None:
    """By the nearest name."""
    (problem,) = studio("https://studio.example/{patern}").problems
    assert problem.mend == "Did you mean `pattern`?"
