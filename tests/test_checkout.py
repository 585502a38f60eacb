"""The checkout: its lock files, its set-up, and what must not stand in any file of it."""

from __future__ import annotations

import re
import shutil
import subprocess
from importlib import metadata
from pathlib import Path

import pytest
from packaging.specifiers import SpecifierSet

ROOT = Path(__file__).parents[1]
LOCKS = ("site", "test", "lock")

#: the Python of Debian 12
OLDEST = "3.11.2"


def files() -> list[Path]:
    """Every file of the checkout that git keeps or would keep; all files where there is no git."""
    words = ["git", "ls-files", "--cached", "--others", "--exclude-standard", "-z"]
    try:
        listed = subprocess.run(words, cwd=ROOT, check=True, capture_output=True, encoding="utf-8")
    except (OSError, subprocess.CalledProcessError):
        kept = (path for path in ROOT.rglob("*") if ".venv" not in path.parts)
        return sorted(path for path in kept if path.is_file())
    paths = (ROOT / name for name in listed.stdout.split("\0") if name)
    return sorted(path for path in paths if path.is_file() and not path.is_symlink())


def lines_with(pattern: re.Pattern[str]) -> str:
    """Every line of the checkout in which the pattern is found, with its place."""
    found = []
    for path in files():
        text = path.read_bytes()
        if b"\0" in text:
            continue
        for number, line in enumerate(text.decode("utf-8", "replace").splitlines(), start=1):
            if pattern.search(line):
                found.append(f"{path.relative_to(ROOT)}:{number}: {line.strip()[:100]}")
    return "\n".join(found)


def test_no_file_holds_a_path_of_a_machine() -> None:
    """A path of somebody's machine means nothing to anybody else."""
    assert lines_with(re.compile(r"(?<![\w.~/:<-])/(?:work|root|tmp|home|Users)/")) == ""


def test_no_file_names_the_host_of_a_registry() -> None:
    """Where packages come from is the business of the machine that installs them."""
    hosts = r"\b(?:pypi|pythonhosted)[.]org|\bnpmjs[.]|\bdeb[.]debian[.]"
    assert lines_with(re.compile(hosts)) == ""


def locked(name: str) -> dict[str, str]:
    """Package to version, of one lock file."""
    text = (ROOT / "locks" / f"{name}.txt").read_text(encoding="utf-8")
    return dict(re.findall(r"^([\w.-]+)==(\S+)", text, flags=re.MULTILINE))


@pytest.mark.parametrize("name", LOCKS)
def test_every_locked_package_has_its_hash(name: str) -> None:
    """A package that was changed after the lock was made is refused."""
    text = (ROOT / "locks" / f"{name}.txt").read_text(encoding="utf-8")
    packages = re.split(r"^(?=[\w.-]+==)", text, flags=re.MULTILINE)[1:]
    assert [package.split()[0] for package in packages if "--hash=sha256:" not in package] == []


def test_the_lock_of_the_tests_holds_the_lock_of_the_site() -> None:
    """What is tested is what builds the site, in the same versions."""
    assert locked("site").items() - locked("test").items() == set()


def test_every_locked_package_runs_on_debian_12() -> None:
    """No locked release asks for a newer Python than the oldest machine has."""
    found = []
    for name in locked("test"):
        wanted = metadata.distribution(name).metadata["Requires-Python"] or ""
        if not SpecifierSet(wanted).contains(OLDEST):
            found.append(f"{name} wants Python {wanted}")
    assert found == []


# --- set-up on a machine that lacks something ----------------------------------------------


@pytest.fixture
def checkout(tmp_path: Path) -> Path:
    """The files of the set-up alone, in a folder with a space, on a machine without Python."""
    folder = tmp_path / "a check out"
    shutil.copytree(ROOT / "tools", folder / "tools")
    shutil.copytree(ROOT / "locks", folder / "locks")
    shutil.copy(ROOT / "pyproject.toml", folder)
    (folder / "bin").mkdir()
    for name in ("cat", "cksum", "dirname", "id", "rm"):
        (folder / "bin" / name).symlink_to(shutil.which(name) or name)
    return folder


def give_python(checkout: Path, script: str) -> None:
    """Put a ``python3`` on the machine that does what the script says."""
    python = checkout / "bin" / "python3"
    python.write_text(f"#!/bin/sh\n{script}\n", encoding="utf-8")
    python.chmod(0o755)


def set_up(checkout: Path) -> tuple[int, str]:
    """Exit status and message of the set-up."""
    done = subprocess.run(
        ["/bin/sh", "tools/setup.sh", "site"],
        cwd=checkout,
        env={"PATH": str(checkout / "bin")},
        check=False,
        capture_output=True,
        encoding="utf-8",
    )
    return done.returncode, done.stderr


def test_set_up_without_python_says_what_to_type(checkout: Path) -> None:
    """A machine without Python gets the one line that installs it."""
    status, message = set_up(checkout)
    assert status == 2
    assert message.splitlines()[0] == "workeven needs Python 3.11 or newer; here is no python3."
    assert "apt-get install python3 python3-venv" in message.splitlines()[1]


def test_set_up_with_an_old_python_names_it(checkout: Path) -> None:
    """A Python that is too old is named, with what is needed."""
    give_python(checkout, 'case "$2" in *exit*) exit 1 ;; *) echo 3.9 ;; esac')
    status, message = set_up(checkout)
    assert status == 2
    assert message.splitlines()[0] == "workeven needs Python 3.11 or newer; here is Python 3.9."


def test_set_up_without_venv_says_what_to_type(checkout: Path) -> None:
    """Debian ships Python without its venv module; the message names the package."""
    give_python(
        checkout, 'case "$2" in *ensurepip*) exit 1 ;; *exit*) exit 0 ;; *) echo 3.11 ;; esac'
    )
    status, message = set_up(checkout)
    assert status == 2
    assert message.splitlines()[0] == "Python 3.11 is here, but its venv module is not."
    assert "apt-get install python3-venv" in message.splitlines()[1]
