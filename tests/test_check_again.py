"""What a check remembers of earlier ones changes no word of what it tells."""

from __future__ import annotations

import re
import shutil
from collections.abc import Callable
from pathlib import Path

import pytest

from tests.support.kept import another_engine, entries, remembering
from tests.support.pattern_files import GOOD, changed
from tests.support.photographs import photograph
from workeven import cli, pipeline

CHECKOUT = Path(__file__).parents[1]
PLACES = ("tests/cases", "guide/writing", "plugins/workeven/problems/pages")
EXAMPLE = re.compile(r"^```yaml\n(.*?)^```$", re.MULTILINE | re.DOTALL)
FORMATS = ("text", "json", "github", "sarif")

LONGER = changed("length: 20 (24, 27) cm", "length: 20 (24, 27) cm\n  depth: 5 cm")
PATTERNS = {
    "advised": LONGER,
    "allowed": f"{LONGER}allow: {{name-unused: For a lining.}}\n",
    "former": f"{GOOD}formerly: [shore-mat]\n",
    "former-too": f"{GOOD}formerly: [shore-mat]\n",
    "good": GOOD,
    "pictured": GOOD,
    "uneven": changed("multiple: 6, plus: 1", "multiple: 4"),
    "unread": "title: [\n",
}
#: in these is an error of their own
WRONG = ["uneven", "unread"]


@pytest.fixture
def studio(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """The patterns of a studio, in whose file is a slip; the current folder."""
    monkeypatch.chdir(tmp_path)
    monkeypatch.delenv("GITHUB_STEP_SUMMARY", raising=False)
    for name, text in PATTERNS.items():
        _write(tmp_path / "patterns" / f"{name}-mat" / "pattern.yaml", text)
    (tmp_path / "patterns/pictured-mat/front.jpg").write_bytes(photograph())
    _write(tmp_path / "patterns/studio.yaml", "name: Dune Studio\n")
    remembering(tmp_path, monkeypatch)
    return tmp_path


@pytest.fixture
def proven(monkeypatch: pytest.MonkeyPatch) -> list[str]:
    """The patterns that are proven, as they come; a text that is not read never is."""
    seen: list[str] = []
    run = pipeline.run

    def noted(*words: object, **named: object) -> pipeline.Outcome:
        seen.append(Path(words[0].file).parent.name.removesuffix("-mat"))  # type: ignore[attr-defined]
        return run(*words, **named)  # type: ignore[arg-type]

    monkeypatch.setattr("workeven.pipeline.files.run", noted)
    return seen


def _write(file: Path, text: str) -> None:
    file.parent.mkdir(parents=True, exist_ok=True)
    file.write_text(text, "utf-8")


class Said:
    """What a check says: its status, and both of its streams."""

    def __init__(self, capsys: pytest.CaptureFixture[str]) -> None:
        self._capsys = capsys

    def __call__(self, form: str = "json") -> tuple[int, str, str]:
        """By a check in that format."""
        status = cli.main(["check", "--format", form])
        told = self._capsys.readouterr()
        return status, told.out, told.err

    def anew(self, form: str = "json") -> tuple[int, str, str]:
        """The same by a check that remembers nothing."""
        with pytest.MonkeyPatch.context() as patch:
            patch.setenv("WORKEVEN_CACHE", "off")
            return self(form)


@pytest.fixture
def said(capsys: pytest.CaptureFixture[str]) -> Said:
    """The command."""
    return Said(capsys)


@pytest.mark.parametrize("form", FORMATS)
def test_what_is_remembered_is_told_alike(
    studio: Path, said: Said, proven: list[str], form: str
) -> None:
    """Errors, advice, what is allowed, and what two patterns have together, in each format."""
    wanted = said.anew(form)
    assert "name-unused" in wanted[1]
    assert "former-taken" in wanted[1]
    assert "picture-unlisted" in wanted[1]
    found = []
    for _ in range(3):
        proven.clear()
        found.append((said(form), list(proven)))
    first = [one for one in PATTERNS if one != "unread"]
    assert found == [(wanted, first), (wanted, ["uneven"]), (wanted, ["uneven"])]
    assert len(entries(studio)) == len(PATTERNS) - len(WRONG)


def test_every_example_is_told_alike(studio: Path, said: Said) -> None:
    """The patterns of all cases, of the guide and of the pages of problems."""
    shutil.rmtree(studio / "patterns")
    found = [
        text
        for place in PLACES
        for file in sorted((CHECKOUT / place).glob("*.md"))
        for text in EXAMPLE.findall(file.read_text("utf-8"))
        if "pieces:" in text and "title:" in text
    ]
    assert len(found) > 100
    for number, text in enumerate(found):
        _write(studio / "patterns" / f"mat-{number:03}" / "pattern.yaml", text)
    wanted = said.anew()
    assert [wanted, wanted] == [said(), said()]


def _grow(studio: Path) -> None:
    file = studio / "patterns/good-mat/pattern.yaml"
    file.write_text(LONGER, "utf-8")


def _mend(studio: Path) -> None:
    file = studio / "patterns/advised-mat/pattern.yaml"
    file.write_text(GOOD, "utf-8")


def _break(studio: Path) -> None:
    file = studio / "patterns/good-mat/pattern.yaml"
    file.write_text(PATTERNS["uneven"], "utf-8")


def _spoil_picture(studio: Path) -> None:
    (studio / "patterns/pictured-mat/front.jpg").write_bytes(b"no picture")


def _take_picture(studio: Path) -> None:
    (studio / "patterns/pictured-mat/front.jpg").unlink()


def _more_pictures(studio: Path) -> None:
    (studio / "patterns/good-mat/back.jpg").write_bytes(photograph())


def _other_units(studio: Path) -> None:
    (studio / "patterns/studio.yaml").write_text("name: Dune Studio\nunits: in\n", "utf-8")


def _wrong_studio(studio: Path) -> None:
    (studio / "patterns/studio.yaml").write_text("nme: Dune Studio\n", "utf-8")


def _no_studio(studio: Path) -> None:
    (studio / "patterns/studio.yaml").unlink()


def _gone(studio: Path) -> None:
    shutil.rmtree(studio / "patterns/former-too-mat")


ALL = [one for one in PATTERNS if one != "unread"]


@pytest.mark.parametrize(
    ("change", "anew"),
    [
        (_grow, ["good", "uneven"]),
        (_mend, ["advised", "uneven"]),
        (_break, ["good", "uneven"]),
        (_spoil_picture, ["pictured", "uneven"]),
        (_take_picture, ["pictured", "uneven"]),
        (_more_pictures, ["good", "uneven"]),
        (_other_units, ALL),
        (_wrong_studio, []),
        (_no_studio, ALL),
        (_gone, ["uneven"]),
    ],
)
def test_what_changed_is_proven_anew(
    studio: Path,
    said: Said,
    proven: list[str],
    change: Callable[[Path], None],
    anew: list[str],
) -> None:
    """Nothing else; and what is told is what a check tells that remembers nothing."""
    said()
    change(studio)
    proven.clear()
    found = said()
    assert (list(proven), found) == (anew, said.anew())


def test_another_version_of_workeven_proves_all_anew(
    studio: Path, said: Said, proven: list[str]
) -> None:
    """What it finds may be something else."""
    said()
    another_engine(studio, "0.2.0")
    proven.clear()
    said()
    assert proven == ALL


def test_spoilt_entries_are_proven_anew(studio: Path, said: Said, proven: list[str]) -> None:
    """Each put under the name of another, and one cut."""
    wanted = said()
    kept = entries(studio)
    contents = [file.read_bytes() for file in kept]
    for file, content in zip(kept, contents[1:] + contents[:1], strict=True):
        file.write_bytes(content)
    kept[0].write_bytes(contents[0][:-3])
    proven.clear()
    assert (said(), proven) == (wanted, ALL)


def test_few_patterns_are_proven_sooner_than_looked_up(
    studio: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    """Nothing is kept of them, and no folder made."""
    assert cli.main(["check", "patterns/good-mat", "patterns/advised-mat"]) == 0
    assert "name-unused" in capsys.readouterr().out
    assert not (studio / "kept").exists()
