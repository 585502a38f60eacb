"""The page of the guide about editors: its settings, its schemas, its table."""

from __future__ import annotations

import json
import re
from fnmatch import fnmatch
from pathlib import Path

from tests.test_guide import GUIDE, first_pattern
from workeven import cli, packaged, pipeline
from workeven.publish import assets
from workeven.report.piece_table import piece_tables

PAGE = (GUIDE / "in-your-editor.md").read_text(encoding="utf-8")
ROOT = Path(__file__).parents[1]


def test_settings_name_the_schemas_of_the_files_that_they_match() -> None:
    """Each is published under that name, and its pattern of paths finds the file of its kind."""
    settings = json.loads(PAGE.split("```json\n")[1].split("```")[0])
    published = {f"./{path}" for path, _ in assets.schemas()}
    files = {
        "pattern": "patterns/sea-hat/pattern.yaml",
        "studio": "patterns/studio.yaml",
        "chart": "patterns/our-chart.yaml",
    }
    found = settings["yaml.schemas"]
    assert found.keys() <= published
    for schema, paths in found.items():
        kind = schema.removeprefix("./schema/").removesuffix(".schema.json")
        assert [kind] == [name for name, file in files.items() if fnmatch(file, paths)]
    assert (2, True) == (
        settings["[yaml]"]["editor.tabSize"],
        settings["[yaml]"]["editor.insertSpaces"],
    )


def test_every_schema_is_published_as_it_is() -> None:
    """All that the package has, at an address made of its name."""
    folder = ROOT / "plugins" / "workeven" / "schemas"
    expected = {f"schema/{path.name}": path.read_text("utf-8") for path in folder.iterdir()}
    assert expected == dict(assets.schemas())


def test_the_page_links_to_every_schema() -> None:
    """Files written by hand, and the data that is published."""
    linked = set(re.findall(r"\(\.\./(schema/[a-z-]+\.schema\.json)\)", PAGE))
    assert linked == {path for path, _ in assets.schemas()}


def test_the_table_is_what_is_printed(tmp_path: Path) -> None:
    """The first pattern of the guide, counted."""
    file = tmp_path / "pattern.yaml"
    file.write_text(first_pattern(GUIDE / "your-first-pattern.md"), encoding="utf-8")
    counted = pipeline.counted(str(file), None)
    assert counted.value is not None
    table = PAGE.split("```text\nCloth:")[1].split("```")[0]
    assert f"Cloth:{table}" == f"{piece_tables(counted.value)}\n1 pattern: no problems.\n"


def test_the_first_line_of_a_new_pattern_is_that_of_the_page(tmp_path: Path) -> None:
    """The convention is shown as it is written."""
    folder = tmp_path / "patterns" / "net"
    assert cli.main(["new", str(folder), "--kind", "square", "--schema", "../../x"]) == 0
    first = (folder / "pattern.yaml").read_text(encoding="utf-8").splitlines()[0]
    shown = re.search(r"^# yaml-language-server: \$schema=", PAGE, re.MULTILINE)
    assert shown
    assert first == f"{shown[0]}../../x"
    assert packaged.text("schemas/pattern.schema.json").startswith("{")
