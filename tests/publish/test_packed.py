"""What waits for its turn comes out as it was."""

from __future__ import annotations

import random
from pathlib import Path

import pytest
from mkdocs.config import load_config
from mkdocs.config.defaults import MkDocsConfig
from mkdocs.structure.files import InclusionLevel

from tests.publish.project import new_project
from workeven.publish.mkdocs_plugin import PackedFile
from workeven.publish.packed import NOTHING, packed

WORDS = "½ of “each” row, 한 줄씩, \N{BALL OF YARN} " * 40
PHOTOGRAPH = random.Random(1).randbytes(4096)  # noqa: S311, no secret


@pytest.mark.parametrize("text", [WORDS, "", "a", "\r\n\ufeff"])
def test_a_text_comes_out_as_it_was(text: str) -> None:
    """Every sign of it."""
    assert packed(text).text() == text


def test_words_that_come_again_take_little_room() -> None:
    """A tenth, here."""
    assert len(packed(WORDS).content) < len(WORDS.encode()) / 10


def test_what_cannot_be_packed_stays_as_it_is() -> None:
    """A photograph is not made larger, and comes out as it was."""
    assert (packed(PHOTOGRAPH).content, packed(PHOTOGRAPH).whole()) == (PHOTOGRAPH, PHOTOGRAPH)


def test_nothing_is_an_empty_text() -> None:
    """And packs as one."""
    assert NOTHING == packed("")


@pytest.fixture
def config(tmp_path: Path) -> MkDocsConfig:
    """The settings of a site."""
    new_project(tmp_path)
    loaded = load_config(str(tmp_path / "mkdocs.yml"))
    loaded.plugins._current_plugin = "workeven"  # noqa: SLF001, as within an event
    return loaded


def test_a_packed_file_reads_as_any_other(config: MkDocsConfig) -> None:
    """To plugins that ask for its content, and that give it another."""
    file = PackedFile.of(packed(WORDS), config, "patterns/x.svg", InclusionLevel.NOT_IN_NAV)
    assert (file.content_string, file.content_bytes) == (WORDS, WORDS.encode())
    file.content_string = "other"
    assert file.content_bytes == b"other"
    file.content_bytes = b"again"
    assert file.content_string == "again"


def test_a_packed_file_is_written_whole(config: MkDocsConfig) -> None:
    """Where MkDocs would write it, whosever content it is, as often as it is asked."""
    file = PackedFile.of(packed(PHOTOGRAPH), config, "patterns/x.webp", InclusionLevel.NOT_IN_NAV)
    file.copy_file()
    written = Path(config.site_dir, "patterns", "x.webp")
    assert written.read_bytes() == PHOTOGRAPH
    file.content_bytes = b"again"
    file.copy_file()
    assert written.read_bytes() == b"again"
