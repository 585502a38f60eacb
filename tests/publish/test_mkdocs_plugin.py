"""Whole builds by MkDocs, with the demo patterns and the real flow."""

from __future__ import annotations

import json
import os
import re
import shutil
import socket
import subprocess
import sys
import time
import urllib.error
import urllib.request
from collections.abc import Iterator
from pathlib import Path

import pytest
from mkdocs.exceptions import Abort

from tests.publish.project import MITTS, Project, new_project
from workeven.publish import assets, edition, policy
from workeven.publish.collection import Address
from workeven.publish.packed import packed
from workeven.records import replace

#: A change of the demo's mitts after which the fans no longer come out.
UNEVEN = ("*sk 2 sts, fan in next st", "*sk 3 sts, fan in next st")


@pytest.fixture
def project(tmp_path: Path) -> Project:
    """A project that has not been built."""
    return new_project(tmp_path)


@pytest.fixture(scope="module")
def built(tmp_path_factory: pytest.TempPathFactory) -> Project:
    """A project that has been built; no test changes it."""
    project = new_project(tmp_path_factory.mktemp("built"))
    project.build()
    return project


def test_each_page_lets_in_what_stands_in_it_and_no_more(built: Project) -> None:
    """Whether it was looked at as a whole, or its parts one by one."""
    meta = re.compile(r'<meta http-equiv="Content-Security-Policy" content="([^"]*)">')
    pages = [path.read_text("utf-8") for path in built.site.rglob("*.html")]
    seen = [
        (meta.findall(page), meta.findall(policy.guarded(meta.sub("", page)))) for page in pages
    ]
    assert [] == [one for one in seen if len(one[0]) != 1 or _sources(one[0]) != _sources(one[1])]


def _sources(policies: list[str]) -> list[str]:
    return sorted(" ".join(policies).replace(";", "").split())


def left_beside(project: Project) -> list[str]:
    """What stands in the project's folder beside what belongs there."""
    known = {"guide", "patterns", "site", "mkdocs.yml", "hook.py", "__pycache__"}
    return sorted({path.name for path in project.folder.iterdir()} - known)


# --- what is published ---------------------------------------------------------------------


def test_each_pattern_has_a_page_and_its_data(built: Project) -> None:
    """One folder a pattern."""
    assert {"index.html", "cover.svg", "pattern.json", "sizes.csv"} == {
        path.name for path in (built.site / "patterns" / MITTS).iterdir()
    }


def test_nothing_of_the_patterns_is_copied(built: Project) -> None:
    """What a stranger put into patterns/ does not reach the site."""
    assert [path for path in built.tree() if path.endswith(".yaml")] == []


def test_patterns_are_not_in_the_menu(built: Project) -> None:
    """A thousand of them would be a thousand entries on every page."""
    assert "Sandhopper" not in (built.site / "index.html").read_text("utf-8")


def test_the_menu_has_the_page_of_all_patterns(built: Project) -> None:
    """That is how a maker gets to them."""
    assert 'href="patterns/"' in (built.site / "index.html").read_text("utf-8")


def test_search_knows_a_pattern_by_short_words(built: Project) -> None:
    """Stitches in both terms, never rows; at most 1 kB a pattern (performance goal)."""
    index = json.loads((built.site / "search" / "search_index.json").read_text("utf-8"))
    found = [one for one in index["docs"] if MITTS in one["location"]]
    text = json.dumps(found)
    assert "single crochet" in text
    assert "double crochet" in text
    assert "join with" not in text
    assert len(text) <= 1024


def test_no_page_asks_another_host(built: Project) -> None:
    """Nothing that a browser loads by itself has an address elsewhere."""
    loads = re.compile(
        r"""<(?:link|script|img|iframe|source|video|audio|use|object|embed)\b[^>]*"""
        r"""(?:href|src|srcset|data)=["']?(?:https?:)?//|url\(["']?(?:https?:)?//|@import""",
        re.IGNORECASE,
    )
    found = [
        (path, match[0][:80])
        for path, content in built.tree().items()
        if path.endswith((".html", ".css", ".svg"))
        for match in loads.finditer(content.decode("utf-8"))
    ]
    assert found == []


def test_the_style_is_one_file_for_all_pages(built: Project) -> None:
    """It is joined by the build, and its parts are not in the site."""
    sheets = [path for path in built.tree() if path.endswith("workeven.css")]
    assert sheets == ["assets/workeven.css"]
    assert 'href="../../assets/workeven.css"' in built.page()
    assert not (built.site / "styles").exists()


def test_a_studio_may_lay_its_own_style_in_the_place_of_ours(project: Project) -> None:
    """A file of that name in its prose, or in the folder of its theme, wins."""
    own = project.folder / "guide" / "assets" / "workeven.css"
    own.parent.mkdir()
    own.write_text("/* ours alone */")
    project.build()
    assert project.tree()["assets/workeven.css"] == b"/* ours alone */"


def test_scripts_are_put_off_or_in_the_head(
    project: Project, monkeypatch: pytest.MonkeyPatch
) -> None:
    """What must be set before the first paint is in the head, all else in one deferred file."""
    monkeypatch.setattr(assets, "script", lambda kind: f"{kind}();")
    monkeypatch.setattr(assets, "first", lambda kind: f"now({kind});")
    project.build()
    head, _, _ = project.page().partition("</head>")
    assert "<script>now(pattern);</script>" in head
    assert project.tree()["assets/workeven-pattern.js"] == b"pattern();"
    assert re.search(r'<script src="../../assets/workeven-pattern.js" defer', project.page())


def test_a_page_has_the_script_of_its_kind(project: Project) -> None:
    """The list of patterns, a page beside it, a page of the studio's, an unknown address."""
    project.build()
    found = {
        name: re.findall(r"assets/(workeven[-\w]*)\.js", project.tree()[name].decode())
        for name in ("patterns/index.html", "stitches/index.html", "index.html", "404.html")
    }
    assert found == {
        "patterns/index.html": ["workeven-list"],
        "stitches/index.html": ["workeven"],
        "index.html": ["workeven"],
        "404.html": ["workeven"],
    }


def test_what_a_page_adds_to_its_head_stands_before_the_first_script(
    project: Project, monkeypatch: pytest.MonkeyPatch
) -> None:
    """There the script finds it; other pages have nothing of it."""
    render = edition.published

    def with_heads(folder: str, address: Address, *, figures: bool, cache: None) -> edition.Edition:
        made = render(folder, address, figures=figures, cache=cache)
        head = packed('<meta name="we-pattern">')
        pages = tuple(replace(page, top=head) for page in made.publication.pages)
        return replace(made, publication=replace(made.publication, pages=pages))

    monkeypatch.setattr(edition, "published", with_heads)
    monkeypatch.setattr(assets, "first", lambda kind: "now();" * (kind == "pattern"))
    project.build()
    head, _, _ = project.page().partition("</head>")
    assert head.endswith('<meta name="we-pattern"><script>now();</script>\n')
    assert "we-pattern" not in (project.site / "index.html").read_text("utf-8")


def test_the_page_has_its_contents_beside_it(built: Project) -> None:
    """The theme's column of contents is ours."""
    assert 'href="#part-mitt-thumb-opening" class="md-nav__link"' in built.page()


def test_a_draft_is_not_built(project: Project) -> None:
    """It is checked all the same."""
    project.edit("published: 2026-11-02\n", "")
    project.build()
    assert not (project.site / "patterns" / MITTS).exists()
    assert "Sandhopper" not in (project.site / "patterns" / "index.html").read_text("utf-8")


def test_folders_may_be_opened_without_a_server(project: Project) -> None:
    """Without directory addresses every link names its file."""
    project.configure("use_directory_urls: false\n")
    project.build()
    links = re.findall(r'(?:href|src)="([^"#]+)', project.page())
    within = [link for link in links if not link.startswith(("http", "data:"))]
    folder = project.site / "patterns" / MITTS
    assert [link for link in within if not (folder / link).is_file()] == []


def test_a_title_is_text_everywhere(project: Project) -> None:
    """The theme prints titles and descriptions as they are, so they reach it escaped."""
    project.edit("title: Sandhopper Mitts", 'title: <b>Mitts</b> & "co" {{ 7 * 7 }} *x*')
    project.build()
    html = project.page()
    assert "<b>Mitts" not in html
    assert "<title>&lt;b&gt;Mitts&lt;/b&gt; &amp; &quot;co&quot; {{ 7 * 7 }} *x* - A Studio" in html


def test_the_same_input_gives_the_same_bytes(
    project: Project, built: Project, monkeypatch: pytest.MonkeyPatch
) -> None:
    """Also on another day, in another folder."""
    monkeypatch.setenv("SOURCE_DATE_EPOCH", "1000000000")
    project.configure("site_url: https://studio.example/\n")
    project.build()
    first = project.tree()
    monkeypatch.setenv("SOURCE_DATE_EPOCH", "1500000000")
    project.build()
    assert first == project.tree()
    assert (
        first["patterns/sandhopper-mitts/pattern.json"]
        == built.tree()["patterns/sandhopper-mitts/pattern.json"]
    )


# --- all or nothing ------------------------------------------------------------------------


def test_a_new_build_replaces_the_old_site_whole(project: Project) -> None:
    """A page that is no longer there is gone, and nothing is left beside the site."""
    project.build()
    shutil.rmtree(project.pattern().parent)
    project.build()
    assert not (project.site / "patterns" / MITTS).exists()
    assert left_beside(project) == []


def test_an_error_leaves_the_site_that_was_there(project: Project) -> None:
    """All problems of all patterns are told, and not a byte of the site changes."""
    project.build()
    before = project.tree()
    project.edit(*UNEVEN)
    project.edit("inc around (12 sc)", "inc around (13 sc)", "whelkstow-basket")
    with pytest.raises(Abort) as refused:
        project.build()
    told = str(refused.value)
    assert "row-uneven: Mitt, " in told
    assert "whelkstow-basket/pattern.yaml" in told
    assert "the one that was there is as it was" in told
    assert project.tree() == before
    assert left_beside(project) == []


def test_a_warning_under_strict_leaves_the_site_that_was_there(project: Project) -> None:
    """MkDocs itself would write the site first and fail afterwards."""
    project.build()
    before = project.tree()
    (project.folder / "guide" / "index.md").write_text("# Home\n\n[Nowhere](nowhere.md)\n")
    with pytest.raises(Abort, match="1 warning under --strict"):
        project.build()
    assert project.tree() == before
    assert left_beside(project) == []


def test_a_warning_alone_does_not_stop_a_build(project: Project) -> None:
    """Without --strict it is a warning."""
    (project.folder / "guide" / "index.md").write_text("# Home\n\n[Nowhere](nowhere.md)\n")
    project.build(strict=False)
    assert "Sandhopper Mitts" in project.page()


def test_a_fault_in_the_middle_leaves_the_site_that_was_there(project: Project) -> None:
    """Whatever else goes wrong while MkDocs writes."""
    project.build()
    before = project.tree()
    (project.folder / "hook.py").write_text(
        "def on_post_page(output, page, config):\n"
        "    if page.is_homepage:\n"
        "        raise RuntimeError('a fault of the hook')\n"
        "    return output\n"
    )
    project.configure("hooks: [hook.py]\n")
    with pytest.raises(RuntimeError, match="a fault of the hook"):
        project.build()
    assert project.tree() == before
    assert left_beside(project) == []


def test_a_site_is_never_built_in_part(project: Project) -> None:
    """MkDocs' --dirty leaves old pages between new ones."""
    with pytest.raises(Abort, match="leave out --dirty"):
        project.build(dirty=True)


def test_a_missing_folder_is_said(project: Project) -> None:
    """There is nothing to take patterns from."""
    shutil.rmtree(project.folder / "patterns")
    with pytest.raises(Abort, match=r"There is no folder .*patterns to take patterns from"):
        project.build()


def test_a_page_of_ones_own_is_not_covered(project: Project) -> None:
    """Prose at the address of a pattern page is not replaced without a word."""
    (project.folder / "guide" / "patterns").mkdir()
    (project.folder / "guide" / "patterns" / "index.md").write_text("# Mine\n")
    with pytest.raises(Abort, match="Rename it, or give the patterns another address"):
        project.build()


def test_patterns_may_have_another_address(project: Project) -> None:
    """As mkdocs.yml says."""
    file = project.folder / "mkdocs.yml"
    text = file.read_text().replace("workeven]", "{workeven: {address: makes}}]")
    file.write_text(text)
    (project.folder / "guide" / "index.md").write_text("# Home\n\n[Makes](makes/index.md)\n")
    project.build()
    assert (project.site / "makes" / MITTS / "index.html").is_file()


def test_a_link_that_is_no_web_address_stops_the_build(project: Project) -> None:
    """A script in the place of an address never gets as far as a page."""
    project.edit('url: "https://video.example/sandhopper"', 'url: "javascript:alert(1)"')
    with pytest.raises(Abort, match="javascript"):
        project.build()


def test_the_command_says_it_in_one_message(project: Project) -> None:
    """No traceback, exit status 1."""
    project.edit(*UNEVEN)
    done = subprocess.run(
        [sys.executable, "-m", "mkdocs", "build", "--strict"],
        cwd=project.folder,
        capture_output=True,
        text=True,
        check=False,
        env=os.environ | {"NO_COLOR": "1"},
    )
    said = done.stdout + done.stderr
    assert done.returncode == 1
    assert "Traceback" not in said
    assert said.count("row-uneven") == 1
    assert f"patterns/{MITTS}/pattern.yaml:" in said


# --- the preview ---------------------------------------------------------------------------


class Preview:
    """A running ``mkdocs serve``."""

    def __init__(self, project: Project) -> None:
        with socket.socket() as free:
            free.bind(("127.0.0.1", 0))
            self.port = free.getsockname()[1]
        self.log = project.folder.parent / "serve.log"
        with self.log.open("w") as log:
            self.process = subprocess.Popen(
                [sys.executable, "-m", "mkdocs", "serve", "-a", f"127.0.0.1:{self.port}"],
                cwd=project.folder,
                stdout=log,
                stderr=subprocess.STDOUT,
            )

    def page(self, path: str) -> str:
        """A page as a browser gets it, "" while there is none."""
        try:
            with urllib.request.urlopen(f"http://127.0.0.1:{self.port}/{path}", timeout=10) as got:
                return str(got.read().decode("utf-8"))
        except (urllib.error.URLError, TimeoutError, ConnectionError):
            return ""

    def shows(self, path: str, words: str) -> bool:
        """Whether the page comes to show these words."""
        for _ in range(100):
            if words in self.page(path):
                return True
            time.sleep(0.2)
        return False


@pytest.fixture
def preview(project: Project) -> Iterator[Preview]:
    """A preview of the project, one of whose patterns is a draft with an error in it."""
    project.edit("published: 2026-11-02\n", "")
    project.edit(*UNEVEN)
    running = Preview(project)
    yield running
    running.process.terminate()
    running.process.wait(10)


def test_a_preview_shows_problems_and_lives_on(project: Project, preview: Preview) -> None:
    """Problems at the start, mended while it runs, and made anew: the server stays."""
    page = f"patterns/{MITTS}/"
    assert preview.shows(page, "row-uneven")
    assert "row-uneven" in preview.page("patterns/")
    assert "row-uneven" in preview.log.read_text()
    project.edit(*reversed(UNEVEN))
    assert preview.shows(page, "Draft: this pattern")
    project.edit(*UNEVEN)
    assert preview.shows(page, "row-uneven")
    assert preview.process.poll() is None
