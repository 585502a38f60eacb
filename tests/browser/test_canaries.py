"""A canary in every text field of a pattern and of its studio: in no output is one alive."""

from __future__ import annotations

import csv
import io
import json
import re
import shutil
from collections.abc import Iterator
from pathlib import Path
from xml.etree import ElementTree as ET

import pytest
from playwright.sync_api import Browser, BrowserContext

from tests.browser.serving import served
from tests.publish.project import MITTS, Project
from tests.report.hostile import commands, invisible
from tests.support.sites import canaries
from workeven import cli

#: What of a page would be alive, as Chromium reads it: elements, attributes, addresses, scripts.
ALIVE = """() => [...document.querySelectorAll('*')].flatMap(one => [
    ...(/canary/i.test(one.localName) ? ['element ' + one.localName] : []),
    ...[...one.attributes].filter(at => /^on/i.test(at.name) || /canary/i.test(at.name) ||
        (/^(href|src|action|formaction|data|srcset)$/i.test(at.name) &&
         /^\\s*(javascript|data:text)/i.test(at.value)))
      .map(at => 'attribute ' + at.name + ' of ' + one.localName),
    ...(one.localName === 'script' && !/json/.test(one.type) && /canary/.test(one.textContent)
      ? ['script'] : []),
    ...(one.localName === 'style' && /canary[-(]/.test(one.textContent) ? ['style'] : []),
  ])"""
#: What a spreadsheet takes for a formula (OWASP, "CSV Injection"); a number is none.
FORMULA = re.compile(r"[=+\-@\t\r](?![\d.]+\Z)")


@pytest.fixture(scope="module")
def project(tmp_path_factory: pytest.TempPathFactory) -> Project:
    """A project of one pattern, built; every text of it and of its studio holds a canary."""
    return canaries(tmp_path_factory.mktemp("canaries"))


@pytest.fixture(scope="module")
def window(browser: Browser, project: Project) -> Iterator[tuple[BrowserContext, list[str]]]:
    """A window on the site, and what canaries have sung in it."""
    with served(project.site) as address:
        context = browser.new_context(base_url=address)
        sung: list[str] = []
        context.expose_function("canary", lambda: sung.append("canary"))
        yield context, sung
        context.close()


def of_kind(project: Project, *endings: str) -> dict[str, str]:
    """The files of the site with such endings."""
    tree = project.tree().items()
    found = {name: content.decode() for name, content in tree if name.endswith(endings)}
    assert found
    return found


def test_no_page_has_a_living_canary(
    project: Project, window: tuple[BrowserContext, list[str]]
) -> None:
    """Read by Chromium, scripts and all: no element, attribute, address, script or style."""
    context, sung = window
    page = context.new_page()
    found, seen = {}, 0
    for name, html in of_kind(project, ".html").items():
        seen += "canary-" in html
        page.goto(f"/{name}")
        page.wait_for_load_state()
        assert "{{ 49" not in page.inner_text("body")
        if alive := page.evaluate(ALIVE):
            found[name] = alive
    assert {} == found
    assert [] == sung
    assert seen > 3


def test_no_data_file_breaks_out_of_its_texts(project: Project) -> None:
    """Each is JSON all through, and has the canaries as texts."""
    told = of_kind(project, ".json", ".webmanifest")
    for content in told.values():
        json.loads(content)
    assert "canary-" in told[f"patterns/{MITTS}/pattern.json"]


def test_no_cell_is_a_formula(project: Project) -> None:
    """A spreadsheet opens a table as text and numbers."""
    cells = [
        (name, cell)
        for name, content in of_kind(project, ".csv").items()
        for line in csv.reader(io.StringIO(content))
        for cell in line
    ]
    assert [] == [(name, cell) for name, cell in cells if FORMULA.match(cell)]


def test_no_drawing_and_no_feed_has_another_element(project: Project) -> None:
    """XML all through; what a feed gives as HTML would be read as such."""
    for name, content in of_kind(project, ".svg", ".xml").items():
        for one in ET.fromstring(content).iter():  # noqa: S314, our own files
            assert "canary" not in one.tag, name
            assert not any("canary" in key or key.startswith("on") for key in one.attrib), name
            assert one.get("type") not in ("html", "xhtml"), name


@pytest.mark.parametrize("form", ["text", "json", "sarif", "github"])
def test_no_report_speaks_to_its_reader(
    form: str,
    project: Project,
    tmp_path: Path,
    monkeypatch: pytest.MonkeyPatch,
    capsys: pytest.CaptureFixture[str],
) -> None:
    """Messages that quote what is planted: no command of a host's log, nothing for a terminal."""
    shutil.copytree(project.folder / "patterns", tmp_path / "patterns")
    file = tmp_path / "patterns" / MITTS / "pattern.yaml"
    text = file.read_text("utf-8").replace("audience: adult", 'audience: "\\n::error::canary <b>"')
    file.write_text(re.sub(r"sk 2 sts, fan in next st", "::error::canary `<b>`", text), "utf-8")
    monkeypatch.chdir(tmp_path)
    assert cli.main(["check", "--format", form]) == 1
    out, err = capsys.readouterr()
    assert "canary" in out
    assert [] == invisible(out + err)
    ours = ("::error file=", "::notice file=")
    lines = [line for line in commands(out) if not line.startswith(ours)]
    assert [] == lines
    assert form == "github" or [] == commands(out)
