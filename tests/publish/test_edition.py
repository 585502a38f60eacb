"""An edition is proven and rendered, or refused in words for a designer."""

from __future__ import annotations

from pathlib import Path

import pytest

from tests.publish.project import CHECKOUT
from workeven import pipeline
from workeven.publish import edition
from workeven.publish.collection import Address
from workeven.publish.edition import Refused, prove
from workeven.publish.pages import pattern_page

ADDRESS = Address(folder="patterns", ending="")
PATTERNS = str(CHECKOUT / "patterns")


def fail(*_arguments: object, **_named: object) -> object:
    """A bug of ours."""
    raise KeyError("hand_sts")


def test_a_good_collection_has_no_faults() -> None:
    """The demo patterns."""
    assert prove(PATTERNS).faults() == ""


def test_a_folder_that_is_not_there_is_refused(tmp_path: Path) -> None:
    """In a sentence that names it."""
    with pytest.raises(Refused, match=r"There is no folder .*nowhere"):
        prove(str(tmp_path / "nowhere"))


def test_a_bug_while_checking_refuses_the_edition(monkeypatch: pytest.MonkeyPatch) -> None:
    """It names the file and says whose mistake it is."""
    monkeypatch.setattr(pipeline, "run", fail)
    with pytest.raises(
        Refused, match=r"sandhopper-mitts/pattern.yaml could not be checked: .*not you"
    ):
        edition.published(prove(PATTERNS), ADDRESS)


def test_a_bug_while_rendering_refuses_the_edition(monkeypatch: pytest.MonkeyPatch) -> None:
    """So does one that is met when everything has been proven."""
    proven = prove(PATTERNS)
    monkeypatch.setattr(pattern_page, "pattern_view", fail)
    with pytest.raises(Refused, match=r"No page could be made from .*glasswort-raglan.*KeyError"):
        edition.published(proven, ADDRESS)
