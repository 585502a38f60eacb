"""What changed, from the file of a pattern to its page: rows and sizes by what they are called."""

from __future__ import annotations

from pathlib import Path

import pytest

from tests.publish.project import MITTS, Project, new_project
from workeven import pipeline, source
from workeven.publish import edition
from workeven.publish.collection import Address

OLD = '  - {version: "1.0", date: 2026-11-02, text: First published.}'


@pytest.fixture
def project(tmp_path: Path) -> Project:
    """The demo patterns."""
    return new_project(tmp_path)


def told(project: Project, more: str) -> list[tuple[str, tuple[str, ...]]]:
    """The problems of the mitts with this change on top of theirs: codes and sentences."""
    project.edit('version: "1.0"', 'version: "1.1"')
    new = f'  - {{version: "1.1", date: 2026-12-01, text: Changed.{more}}}'
    project.edit(OLD.replace("1.0", "1.1"), f"{new}\n{OLD}")
    verdict = pipeline.check(source.collect([str(project.folder / "patterns")]))
    return [(one.code, (one.found, one.mend)) for one in verdict.problems]


@pytest.mark.parametrize("name", ["mitt.cuff-2", "row-mitt.cuff-2", "'#row-mitt.cuff-2'"])
def test_a_row_is_named_as_its_own_link_names_it(project: Project, name: str) -> None:
    """With or without what stands before it in the address; the page leads there."""
    assert told(project, f", rows: [{name}], sizes: [M, L]") == []
    folder = str(project.folder / "patterns")
    made = edition.published(folder, Address(folder="patterns", ending=""))
    pages = {page.source: page.html for page in made.publication.pages}
    page = pages[f"patterns/{MITTS}/index.md"]
    assert 'id="row-mitt.cuff-2"' in page
    assert 'Sizes: M and L.</span> <span class="we-small">Rows: <a href="#row-mitt.cuff-2">' in page


def test_a_row_that_is_not_there_is_told(project: Project) -> None:
    """With the nearest that is."""
    assert told(project, ", rows: [mitt.cuf-2]") == [
        ("change-row", ("There is no row `mitt.cuf-2`.", "Did you mean `mitt.cuff-2`?"))
    ]


def test_a_size_that_is_not_there_is_told(project: Project) -> None:
    """A list in the trade's form is no list of names."""
    found = told(project, ', sizes: ["S (M)"]')
    assert found == [
        (
            "size-unknown",
            (
                "There is no size called `S (M)`, which a change is about.",
                "Write the sizes as a list: `[S, M]`.",
            ),
        )
    ]
