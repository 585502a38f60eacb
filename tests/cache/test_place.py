"""Where results are kept: a folder of this user's alone, and a secret apart from it."""

from __future__ import annotations

import os
import stat
import sys
from pathlib import Path

import pytest

from workeven.cache.place import Place, place

pytestmark = pytest.mark.skipif(sys.platform != "linux", reason="each system has its own folders")


def names(folder: str | Path) -> list[str]:
    """What lies in a folder."""
    return [path.name for path in Path(folder).iterdir()]


def told(home: Path, **environment: str) -> Place | str:
    """The place of a user whose own folder is this one."""
    names = {"XDG_CACHE_HOME": str(home / "cache"), "XDG_STATE_HOME": str(home / "state")}
    return place(names | environment)


def test_the_secret_is_made_once(tmp_path: Path) -> None:
    """And is nobody else's to read."""
    first, second = told(tmp_path), told(tmp_path)
    assert isinstance(first, Place)
    assert first == second
    secret = tmp_path / "state" / "workeven" / "cache-key"
    assert (first.folder, secret.read_bytes()) == (str(tmp_path / "cache/workeven"), first.secret)
    assert stat.S_IMODE(secret.stat().st_mode) == 0o600
    assert names(secret.parent) == ["cache-key"]


def test_two_users_have_two_secrets(tmp_path: Path) -> None:
    """They are drawn, and not made of anything."""
    one, other = told(tmp_path / "one"), told(tmp_path / "other")
    assert isinstance(one, Place)
    assert isinstance(other, Place)
    assert (one.secret == other.secret, len(one.secret)) == (False, 32)


def test_the_folder_may_be_named(tmp_path: Path) -> None:
    """The secret stays where it is."""
    found = told(tmp_path, WORKEVEN_CACHE=str(tmp_path / "mine"))
    assert isinstance(found, Place)
    assert found.folder == str(tmp_path / "mine")
    assert not (tmp_path / "mine" / "cache-key").exists()


@pytest.mark.parametrize("word", ["off", "OFF", "0", "no", "false"])
def test_it_can_be_switched_off(tmp_path: Path, word: str) -> None:
    """Then nothing is made."""
    assert (told(tmp_path, WORKEVEN_CACHE=word), names(tmp_path)) == ("", [])


def test_a_name_that_is_no_whole_path_is_passed(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """As the specification asks: then the folder is that which all have."""
    monkeypatch.setenv("HOME", str(tmp_path))
    found = place({"XDG_CACHE_HOME": "cache", "XDG_STATE_HOME": ""})
    assert isinstance(found, Place)
    assert found.folder == str(tmp_path / ".cache" / "workeven")
    assert (tmp_path / ".local/state/workeven/cache-key").is_file()


def test_a_folder_in_which_others_write_is_not_taken(tmp_path: Path) -> None:
    """Nor one behind a link, nor what is no folder."""
    (tmp_path / "open").mkdir()
    (tmp_path / "open").chmod(0o777)
    (tmp_path / "link").symlink_to(tmp_path / "open")
    (tmp_path / "file").write_text("")
    said = [told(tmp_path, WORKEVEN_CACHE=str(tmp_path / n)) for n in ("open", "link", "file")]
    assert said == [
        f"Nothing is kept for the next build: {tmp_path / 'open'}: other users could change it.",
        (
            f"Nothing is kept for the next build: {tmp_path / 'link'}: it is a link, or something "
            "else than it should be."
        ),
        f"Nothing is kept for the next build: {tmp_path / 'file'}: file exists.",
    ]


def test_a_secret_that_others_can_read_is_not_taken(tmp_path: Path) -> None:
    """Nor one that is cut, nor a link."""
    told(tmp_path)
    secret = tmp_path / "state" / "workeven" / "cache-key"
    secret.chmod(0o644)
    said = [told(tmp_path)]
    secret.write_bytes(b"short")
    secret.chmod(0o600)
    said.append(told(tmp_path))
    secret.rename(tmp_path / "key")
    secret.symlink_to(tmp_path / "key")
    said.append(told(tmp_path))
    start = f"Nothing is kept for the next build: {secret}: "
    assert [one for one in said if not (isinstance(one, str) and one.startswith(start))] == []


def test_one_who_came_second_takes_the_first_secret(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """Two builds that start at once find the same."""
    there = os.path.lexists
    first = told(tmp_path)
    monkeypatch.setattr(
        os.path, "lexists", lambda path: not str(path).endswith("-key") and there(path)
    )
    assert told(tmp_path) == first
    assert names(tmp_path / "state" / "workeven") == ["cache-key"]
