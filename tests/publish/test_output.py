"""A site is put in place whole, or the one that was there stays."""

from __future__ import annotations

import errno
import gzip
import os
from pathlib import Path

import pytest

from workeven.publish import output
from workeven.publish.output import OutputFault, settle, staging_beside, swap_in


@pytest.fixture
def published(tmp_path: Path) -> Path:
    """A site that is already there."""
    site = tmp_path / "a site"
    site.mkdir()
    (site / "index.html").write_text("old")
    (site / "gone.html").write_text("old")
    return site


def finished(published: Path) -> Path:
    """A new site, written beside it."""
    staging = staging_beside(published)
    (staging / "index.html").write_text("new")
    return staging


def pages(site: Path) -> dict[str, str]:
    """What a folder holds."""
    return {path.name: path.read_text() for path in site.iterdir() if path.is_file()}


def test_a_finished_site_takes_the_place_of_the_old_one(published: Path) -> None:
    """Nothing of the old site is left, and nothing beside the new one."""
    swap_in(finished(published), published)
    assert pages(published) == {"index.html": "new"}
    assert list(published.parent.iterdir()) == [published]


def test_a_first_site_is_put_in_place(tmp_path: Path) -> None:
    """There need not be a site yet, nor the folder that holds it."""
    published = tmp_path / "deep" / "site"
    swap_in(finished(published), published)
    assert pages(published) == {"index.html": "new"}


def test_without_an_exchange_two_renames_do(
    published: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """Not every system has the exchange in one step."""
    monkeypatch.setattr(output, "_exchanged_at_once", lambda _one, _other: False)
    swap_in(finished(published), published)
    assert pages(published) == {"index.html": "new"}
    assert list(published.parent.iterdir()) == [published]


def test_a_second_rename_that_fails_is_undone(
    published: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """The old site is put back, and nothing is left beside it."""
    staging = finished(published)
    rename = Path.rename

    def failing(path: Path, target: Path) -> Path:
        if path == staging:
            raise OSError(errno.EACCES, os.strerror(errno.EACCES))
        return rename(path, target)

    monkeypatch.setattr(output, "_exchanged_at_once", lambda _one, _other: False)
    monkeypatch.setattr(Path, "rename", failing)
    with pytest.raises(OutputFault, match="The site that was there is as it was"):
        swap_in(staging, published)
    assert pages(published) == {"index.html": "old", "gone.html": "old"}
    assert list(published.parent.iterdir()) == [published]


def test_an_exchange_that_the_system_refuses_leaves_the_old_site(
    published: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """A folder that is a mount of its own cannot be moved."""

    def refuse(_one: Path, _other: Path) -> bool:
        raise OSError(errno.EBUSY, os.strerror(errno.EBUSY))

    monkeypatch.setattr(output, "_exchanged_at_once", refuse)
    with pytest.raises(OutputFault, match="cannot be moved"):
        swap_in(finished(published), published)
    assert pages(published) == {"index.html": "old", "gone.html": "old"}


def test_hidden_entries_are_carried_over(published: Path) -> None:
    """MkDocs leaves them alone too: the folder may be a checkout of the published branch."""
    (published / ".git").mkdir()
    (published / ".git" / "HEAD").write_text("ref: refs/heads/pages")
    swap_in(finished(published), published)
    assert (published / ".git" / "HEAD").read_text() == "ref: refs/heads/pages"


def test_a_link_to_the_site_stays_a_link(published: Path, tmp_path: Path) -> None:
    """The folder behind it is exchanged."""
    link = tmp_path / "link"
    link.symlink_to(published, target_is_directory=True)
    swap_in(finished(link), link)
    assert link.is_symlink()
    assert pages(published) == {"index.html": "new"}


def test_the_new_site_can_be_read_by_others(published: Path) -> None:
    """A web server is another user: the folder has the rights of any new folder."""
    plain = published.parent / "plain"
    plain.mkdir()
    assert finished(published).stat().st_mode == plain.stat().st_mode


def test_the_packed_sitemap_has_no_date(tmp_path: Path) -> None:
    """Same input, same bytes: MkDocs packs today's date into it."""
    (tmp_path / "sitemap.xml").write_text("<urlset/>")
    (tmp_path / "sitemap.xml.gz").write_bytes(gzip.compress(b"<urlset/>", mtime=1_700_000_000))
    settle(tmp_path)
    packed = (tmp_path / "sitemap.xml.gz").read_bytes()
    assert (packed[4:8], gzip.decompress(packed)) == (b"\0\0\0\0", b"<urlset/>")
