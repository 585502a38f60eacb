"""Every page and drawing of built sites is HTML and SVG as the standards ask, but for the theme's.

The checker is the Nu Html Checker, by the HTML Living Standard (``validators.py``). What it finds
in the markup of the theme is named here, with a reason, and is still there; in ours it finds none.
"""

from __future__ import annotations

from pathlib import Path
from typing import NamedTuple

import pytest

from tests.outside.validators import Fault, html_faults, shown
from workeven.problems import Problem, Span
from workeven.publish.pages.render import problems_html
from workeven.publish.pages.views import Link, ProblemsView
from workeven.report.text import problem_text


class Known(NamedTuple):
    """A fault that stays: how its message and its tag begin, whose it is, and why."""

    message: str
    about: str
    why: str


KNOWN = (
    Known(
        "Attribute “autocomplete” is only allowed when the input type is",
        '<input class="md-toggle" data-md-toggle="',
        "Material for MkDocs: its drawer and its search are boxes to tick, which some browsers "
        "would tick again when one comes back to the page.",
    ),
    Known(
        "Attribute “autocorrect” not allowed on element “input”",
        '<input type="text" class="md-search__input"',
        "Material for MkDocs: it keeps some phones from mending what is typed into the search.",
    ),
    Known(
        "Bad value “” for attribute “tabindex” on element “label”",
        '<label class="md-nav__link" for="__nav_',
        "Material for MkDocs: a label that is reached by key where its script says so.",
    ),
    Known(
        "The value of the “for” attribute of the “label” element must be the ID of a non-hidden",
        '<label class="md-nav__title" for="__toc">',
        "Material for MkDocs: the box of the contents stands on narrow pages alone.",
    ),
    Known(
        "The “inputmode” attribute is not supported in all browsers.",
        "<input name=",
        "A warning. Ours: which keys a phone shows for a number; another browser shows all.",
    ),
    Known(
        "Section lacks heading.",
        '<section aria-labelledby="piece-',
        "A warning. Ours: the only part of a piece has the heading of the piece for its name.",
    ),
)
BROKEN = """<!DOCTYPE html><html lang="en"><head><title>Broken</title></head><body>
<p><ul><li>A list in a paragraph</ul></p><img src="a.png"><table><td id="x"><td id="x"></table>
</body></html>
"""


def document(body: str) -> str:
    """What stands in a page of the theme, as a page of its own."""
    head = (
        '<!DOCTYPE html><html lang="en"><head><meta charset="utf-8"><title>Problems</title></head>'
    )
    return f"{head}<body><main>{body}</main></body></html>\n"


@pytest.fixture(scope="module")
def faults(sites: dict[str, Path], tmp_path_factory: pytest.TempPathFactory) -> tuple[Fault, ...]:
    """All that is told of all sites, of the page that a preview shows, and of a broken one."""
    folder = tmp_path_factory.mktemp("pages")
    (folder / "broken.html").write_text(BROKEN)
    problem = Problem(
        code="row-uneven",
        span=Span(file="a<b>.yaml", line=1, column=1, end_line=1, end_column=2),
        found="<b>Not even.",
    )
    view = ProblemsView(
        title="Sand & <Mat>",
        problems=(problem_text(problem),),
        collection=Link(words="All patterns", url="../"),
    )
    (folder / "preview.html").write_text(document(problems_html(view)))
    return html_faults(*sites.values(), folder)


def known(fault: Fault) -> Known | None:
    """The fault of the list that this one is."""
    return next(
        (
            one
            for one in KNOWN
            if fault.message.startswith(one.message) and fault.about.startswith(one.about)
        ),
        None,
    )


def of_broken(fault: Fault) -> bool:
    """Whether it is of the page that is broken to see whether that is told."""
    return fault.file.endswith("/broken.html")


def test_no_page_has_a_fault_of_ours(faults: tuple[Fault, ...]) -> None:
    """Demo, canaries and a stretched pattern; errors and warnings."""
    assert shown([one for one in faults if not of_broken(one) and known(one) is None]) == []


def test_what_is_named_is_still_there(faults: tuple[Fault, ...]) -> None:
    """A list of what nobody finds any more would hide what comes."""
    found = {known(one) for one in faults}
    assert [one.message for one in KNOWN if one not in found] == []


def test_a_broken_page_is_told(faults: tuple[Fault, ...]) -> None:
    """The checker reads what it is given: a list in a paragraph, a picture without words."""
    told = " ".join(one.message for one in faults if of_broken(one))
    wanted = ("No “p” element in scope", "must have an “alt” attribute", "Duplicate ID “x”")
    assert [one for one in wanted if one not in told] == []


def test_every_page_was_read(sites: dict[str, Path], faults: tuple[Fault, ...]) -> None:
    """The theme's own fault, which each page of a site has, is told of each."""
    read = {one.file for one in faults if "autocorrect" in one.message}
    pages = [
        page
        for site in sites.values()
        for page in site.rglob("*.html")
        if 'class="md-search__input"' in page.read_text("utf-8")
    ]
    assert len(pages) > 200
    assert [str(page) for page in pages if page.as_uri().replace("///", "/") not in read] == []
