"""An edition is proven and rendered, or refused in words for a designer."""

from __future__ import annotations

import gc
import re
from pathlib import Path

import pytest

from tests.publish.project import CHECKOUT, Project, new_project
from workeven import proof
from workeven.grading import GradedPattern
from workeven.problems import Checked
from workeven.proof import ProvenPattern
from workeven.publish import edition
from workeven.publish.collection import Address
from workeven.publish.edition import Refused
from workeven.publish.pages import pattern_page

ADDRESS = Address(folder="patterns", ending="")
PATTERNS = str(CHECKOUT / "patterns")


def fail(*_arguments: object, **_named: object) -> object:
    """A bug of ours."""
    raise KeyError("hand_sts")


def test_a_good_collection_has_no_faults() -> None:
    """The demo patterns."""
    assert edition.published(PATTERNS, ADDRESS).faults() == ""


def test_a_folder_that_is_not_there_is_refused(tmp_path: Path) -> None:
    """In a sentence that names it."""
    with pytest.raises(Refused, match=r"There is no folder .*nowhere"):
        edition.published(str(tmp_path / "nowhere"), ADDRESS)


def test_a_bug_while_checking_refuses_the_edition(monkeypatch: pytest.MonkeyPatch) -> None:
    """It names the file and says whose mistake it is."""
    monkeypatch.setattr("workeven.pipeline.files.run", fail)
    with pytest.raises(
        Refused, match=r"sandhopper-mitts/pattern.yaml could not be checked: .*not you"
    ):
        edition.published(PATTERNS, ADDRESS)


def test_a_bug_while_rendering_refuses_the_edition(monkeypatch: pytest.MonkeyPatch) -> None:
    """So does one that is met when a page is made."""
    monkeypatch.setattr(pattern_page, "pattern_view", fail)
    with pytest.raises(Refused, match=r"No page could be made from .*glasswort-raglan.*KeyError"):
        edition.published(PATTERNS, ADDRESS)


def with_an_error(folder: Path, *slugs: str) -> Project:
    """The demo, these of its patterns with a key that there is not."""
    made = new_project(folder)
    for slug in slugs:
        text = made.pattern(slug).read_text("utf-8")
        made.pattern(slug).write_text(f"{text}\nnonsense: 1\n", "utf-8")
    return made


def test_errors_are_told_before_a_bug_of_a_page(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """Pages are made while files are checked: a bug there hides no error of the last file."""
    project = with_an_error(tmp_path, "wrackline-cardigan")
    monkeypatch.setattr(pattern_page, "pattern_view", fail)
    with pytest.raises(Refused) as refused:
        edition.published(str(project.folder / "patterns"), ADDRESS)
    assert "wrackline-cardigan/pattern.yaml:" in str(refused.value)
    assert "No page could be made" not in str(refused.value)


def test_behind_an_error_no_page_is_made_and_every_error_told(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """The first and the last are wrong."""
    wrong = {"glasswort-raglan", "wrackline-cardigan"}
    project = with_an_error(tmp_path, *wrong)
    made: list[object] = []
    monkeypatch.setattr(pattern_page, "pattern_view", made.append)
    with pytest.raises(Refused) as refused:
        edition.published(str(project.folder / "patterns"), ADDRESS)
    assert set(re.findall(r"([\w-]+)/pattern\.yaml:\d", str(refused.value))) == wrong
    assert made == []


def test_of_a_proof_nothing_is_held_once_its_page_is_made(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """When the last pattern is proven, its own proof stands and that of the one before."""
    new_project(tmp_path)
    alive: list[int] = []
    prove = proof.prove

    def standing() -> int:
        gc.collect()
        return sum(isinstance(one, ProvenPattern) for one in gc.get_objects())

    of_others = standing()  # tests that ran before may keep the demo's

    def counted(graded: GradedPattern) -> Checked[ProvenPattern]:
        alive.append(standing() - of_others)
        return prove(graded)

    monkeypatch.setattr(proof, "prove", counted)
    edition.published(str(tmp_path / "patterns"), ADDRESS)
    assert len(alive) == 8
    assert max(alive) <= 2
