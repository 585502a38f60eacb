"""Words of a pattern mean nothing to Markdown, wherever they stand.

Parsed by markdown-it-py, a maintained library that passes the tests of CommonMark 0.31.2; its
extension for the tables of GitHub Flavored Markdown is switched on.
"""

from __future__ import annotations

from collections.abc import Iterator

import pytest
from hypothesis import example, given
from hypothesis import strategies as st
from markdown_it import MarkdownIt
from markdown_it.token import Token

from workeven.publish.in_markdown import signs
from workeven.publish.pages.views import Link, Table

PARSER = MarkdownIt("commonmark").enable(["table", "strikethrough"])
NASTY = (
    "*sk 2 sts, [sc 3](http://x.example) 2 times*",
    "<script>alert(1)</script>",
    "<!-- x -->",
    "# heading #",
    "1. list",
    "1) list",
    "- list",
    "+ list",
    "---",
    "***",
    "- - -",
    "===",
    "> quoted",
    "```code",
    "~~~code",
    "    code",
    "a | b | c",
    "| --- |",
    "&copy; &#64; &amp;",
    "![alt](x.png)",
    "[ref]: http://x.example",
    "<http://x.example>",
    "~~gone~~ **bold** __bold__",
    "ends with a backslash \\",
    "\\*",
    "a\tb\n\nc",
    ":--",
    "$x$",
)
TEXTS = st.one_of(
    st.sampled_from(NASTY),
    st.text(alphabet="*_[]()<>#+-=.!|~`\\&;:/ab1 \"'{}\n", min_size=1, max_size=30),
    st.text(
        alphabet=st.characters(exclude_categories=("Cc", "Cs", "Cn", "Cf")), min_size=1, max_size=30
    ),
)


def inlines(tokens: list[Token]) -> Iterator[str]:
    """The text of each inline run; anything but text in it is named in angle quotes."""
    for token in tokens:
        if token.type == "inline":
            yield "".join(
                child.content if child.type == "text" else f"«{child.type}»"
                for child in token.children or ()
            )


def kinds(tokens: list[Token]) -> list[str]:
    """What blocks there are."""
    return [token.type for token in tokens if token.nesting >= 0]


def as_read(words: str) -> str:
    """A text as a page shows it: on one line."""
    return " ".join(words.split())


@given(TEXTS)
@example("---")
@example("1. x")
def test_a_text_is_a_paragraph_of_itself(words: str) -> None:
    """No block begins, nothing is marked up, and each sign is there."""
    if as_read(words):
        tokens = PARSER.parse(signs.text(words))
        assert ["paragraph_open", "inline"] == kinds(tokens)
        assert [as_read(words)] == list(inlines(tokens))


@given(TEXTS)
def test_a_text_is_itself_in_headings_items_and_cells(words: str) -> None:
    """In a heading, in an item of a list, in bold and in a cell of a table."""
    plain = as_read(words)
    if not plain:
        return
    heading = PARSER.parse(signs.heading(2, words))
    assert (["heading_open", "inline"], [plain]) == (kinds(heading), list(inlines(heading)))
    (block,) = signs.listed([signs.text(words), signs.text(words)])
    assert [plain, plain] == list(inlines(PARSER.parse(block)))
    table = Table(caption="x", heads=("Size", words), rows=((words, ((words, words),)),))
    _, lines = signs.table(table)
    tokens = PARSER.parse(lines)
    assert ["Size", plain, plain, f"{plain} / {plain}"] == list(inlines(tokens))
    assert kinds(tokens).count("table_open") == 1


@given(TEXTS, st.text(max_size=20))
def test_a_link_leads_where_it_says(words: str, ending: str) -> None:
    """Whatever stands in words or address, there is one link, and no sign ends it early."""
    if not as_read(words) or any("\ud800" <= character <= "\udfff" for character in ending):
        return
    url = f"https://video.example/{ending}"
    (inline,) = [t for t in PARSER.parse(signs.link(Link(words=words, url=url))) if t.children]
    children = inline.children or []
    assert ["link_open", "text", "link_close"] == [child.type for child in children]
    href = children[0].attrGet("href")
    assert isinstance(href, str)
    assert href.startswith("https://video.example/")


@pytest.mark.parametrize("words", ["see https://x.example", "www.x.example", "a@b.example"])
def test_addresses_are_not_made_links_unasked(words: str) -> None:
    """GFM, 6.9, looks for ``://``, ``www.`` and ``@``: a backslash stands within each."""
    written = signs.text(words)
    assert not any(
        sign in written.replace("\\:", "").replace("\\@", "") for sign in ("://", "www.")
    )
    assert [words] == list(inlines(PARSER.parse(written)))
