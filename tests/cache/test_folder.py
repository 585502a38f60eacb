"""An entry is whole and ours, or as good as not there."""

from __future__ import annotations

import os
import shutil
import stat
import sys
import time
from pathlib import Path

import pytest

from workeven.cache import folder as folders
from workeven.cache.folder import Folder, name_of
from workeven.cache.place import Place

NAME = name_of("a pattern")
OTHER = name_of("another")


def names(folder: str | Path) -> list[str]:
    """What lies in a folder."""
    return [path.name for path in Path(folder).iterdir()]


@pytest.fixture
def place(tmp_path: Path) -> Place:
    """An empty folder and a secret."""
    return Place(folder=str(tmp_path), secret=b"s" * 32)


def kept(place: Place, content: bytes = b"60 sts") -> Path:
    """An entry, written in a run before."""
    Folder(place).put(NAME, content)
    return Path(place.folder) / NAME


def found(place: Place, name: str = NAME) -> bytes | None:
    """What a run of its own finds."""
    return Folder(place).get(name)


def test_what_was_kept_is_found(place: Place) -> None:
    """By another run."""
    kept(place, b"\0\xff\r\n")
    assert found(place) == b"\0\xff\r\n"


def test_nothing_is_found_where_nothing_was_kept(place: Place) -> None:
    """In an empty folder, and in none."""
    shutil.rmtree(place.folder)
    assert found(place) is None


@pytest.mark.parametrize("length", [0, 1, 16, 17, 48, 49, 54])
def test_one_that_is_cut_is_not_there(place: Place, length: int) -> None:
    """Within what it is, its code, its content."""
    file = kept(place)
    file.write_bytes(file.read_bytes()[:length])
    assert found(place) is None


def test_each_spoilt_byte_is_noticed(place: Place) -> None:
    """One after the other, and one more at the end."""
    file = kept(place)
    whole = file.read_bytes()
    spoilt = [whole[:at] + bytes([one ^ 1]) + whole[at + 1 :] for at, one in enumerate(whole)]
    taken = []
    for content in (*spoilt, whole + b"\0"):
        file.write_bytes(content)
        taken.append(found(place))
    assert taken == [None] * (len(whole) + 1)


def test_one_under_another_name_is_not_there(place: Place) -> None:
    """What was found of one pattern is never told of another."""
    kept(place).rename(Path(place.folder) / OTHER)
    assert found(place, OTHER) is None


def test_one_of_another_user_is_not_there(place: Place) -> None:
    """Who brings a folder of entries does not know the secret here."""
    kept(Place(folder=place.folder, secret=b"t" * 32))
    assert found(place) is None


def test_a_link_is_not_followed(place: Place, tmp_path: Path) -> None:
    """Even to an entry that would be good."""
    file = kept(place)
    file.rename(tmp_path / "elsewhere")
    file.symlink_to(tmp_path / "elsewhere")
    assert found(place) is None


@pytest.mark.skipif(sys.platform == "win32", reason="there are no pipes in folders")
def test_what_is_no_file_is_not_waited_for(place: Place) -> None:
    """A pipe, a folder."""
    os.mkfifo(Path(place.folder) / NAME)
    (Path(place.folder) / OTHER).mkdir()
    assert (found(place), found(place, OTHER)) == (None, None)


def test_a_file_without_end_is_not_read(place: Place) -> None:
    """Its size is asked for before."""
    with kept(place).open("r+b") as opened:
        opened.truncate(folders.LARGEST + 1)
    assert found(place) is None


def test_an_entry_is_for_this_user_alone(place: Place) -> None:
    """Patterns may not be published yet."""
    assert stat.S_IMODE(kept(place).stat().st_mode) == 0o600


def test_parts_are_told_apart() -> None:
    """However they are cut, and a text from the same bytes with others beside it."""
    cuts = [("ab", "c"), ("a", "bc"), ("abc",), ("abc", ""), ("", "abc"), ("1:a",), ("a",)]
    assert len({name_of(*parts) for parts in cuts}) == len(cuts)


# --- writing -------------------------------------------------------------------------------


def test_a_full_disk_is_left_alone(place: Place, monkeypatch: pytest.MonkeyPatch) -> None:
    """The room is the build's own."""
    usage = shutil.disk_usage(place.folder)._replace(free=folders.LEFT_FREE)
    monkeypatch.setattr(shutil, "disk_usage", lambda _folder: usage)
    kept(place)
    assert names(place.folder) == []


@pytest.mark.parametrize("what", ["open", "replace", "fdopen"])
def test_a_write_that_fails_leaves_nothing(
    place: Place, monkeypatch: pytest.MonkeyPatch, what: str
) -> None:
    """And nothing is raised, nor tried again in this run."""

    def full(*_words: object, **_named: object) -> None:
        raise OSError(28, "No space left on device")

    with monkeypatch.context() as failing:
        failing.setattr(os, what, full)
        run = Folder(place)
        run.put(NAME, b"60 sts")
    run.put(OTHER, b"60 sts")
    run.end()
    assert names(place.folder) == []


def test_an_entry_that_is_too_large_is_not_written(
    place: Place, monkeypatch: pytest.MonkeyPatch
) -> None:
    """Nor one more than this run may write; smaller ones are."""
    monkeypatch.setattr(folders, "LARGEST", 100)
    monkeypatch.setattr(folders, "MOST", 120)
    run = Folder(place)
    for name, size in ((NAME, 60), (OTHER, 50), (name_of("third"), 20)):
        run.put(name, b"-" * size)
    assert names(place.folder) == [OTHER]


# --- room ----------------------------------------------------------------------------------


def aged(place: Place, name: str, days: float, size: int = 10) -> None:
    """An entry that nobody has asked for since."""
    file = Path(place.folder) / name
    file.write_bytes(b"-" * size)
    os.utime(file, (time.time() - days * 86400,) * 2)


def test_what_nobody_asks_for_goes(place: Place) -> None:
    """After sixty days, and what a killed build has left after an hour."""
    left = f"{OTHER}.0123456789abcdef"
    aged(place, OTHER, 61)
    aged(place, name_of("last month"), 30)
    aged(place, left, 1)
    aged(place, f"{NAME}.0123456789abcdef", 0)
    run = Folder(place)
    run.put(NAME, b"60 sts")
    run.end()
    assert {path.name for path in Path(place.folder).iterdir()} == {
        NAME,
        name_of("last month"),
        f"{NAME}.0123456789abcdef",
    }


def test_the_oldest_go_where_all_are_too_much(
    place: Place, monkeypatch: pytest.MonkeyPatch
) -> None:
    """But nothing that this run has asked for, however old it is."""
    Folder(place).put(OTHER, b"12 sts")
    os.utime(Path(place.folder) / OTHER, (time.time() - 50 * 86400,) * 2)
    for days in range(1, 6):
        aged(place, name_of(str(days)), days, 1000)
    monkeypatch.setattr(folders, "MOST", 2500)
    run = Folder(place)
    assert run.get(OTHER) == b"12 sts"
    run.put(NAME, b"60 sts")
    run.end()
    assert {path.name for path in Path(place.folder).iterdir()} == {
        NAME,
        OTHER,
        name_of("1"),
        name_of("2"),
    }


def test_what_is_not_ours_stays(place: Place) -> None:
    """Files and folders that somebody else has put there."""
    aged(place, "letters.txt", 400)
    (Path(place.folder) / name_of("a folder")).mkdir()
    run = Folder(place)
    run.put(NAME, b"60 sts")
    run.end()
    assert len(names(place.folder)) == 3


def test_an_old_entry_that_is_asked_for_is_new_again(place: Place) -> None:
    """So it is not among the oldest."""
    file = kept(place)
    os.utime(file, (time.time() - 59 * 86400,) * 2)
    found(place)
    assert time.time() - file.stat().st_mtime < 86400
