"""A page's policy: hashes that fit its scripts and styles and no others."""

from __future__ import annotations

import re
import subprocess
import sys
from pathlib import Path

import pytest

from tests.publish.project import new_project
from workeven.publish import policy

#: The standard's own example: the hash of ``doSomething();`` (CSP Level 3, 2.3.1),
#: computed again with openssl (dgst -sha256 -binary, then base64).
EXAMPLE = "'sha256-RFWPLDbv2BY+rCkDzsE+0fr8ylGr2R2faWMhq4lfEQc='"


def directive(html: str, name: str) -> list[str]:
    """The sources of one directive of a guarded page."""
    found = re.search(r'Security-Policy" content="([^"]*)"', policy.guarded(html))
    assert found
    listed = dict(one.split(" ", 1) for one in found[1].split("; "))
    return listed[name].split()


def page(head: str = "", body: str = "") -> str:
    """A small document."""
    return f'<head>\n<meta charset="utf-8">{head}</head><body>{body}</body>'


def test_a_script_has_the_hash_of_the_standard() -> None:
    """The value is that of the standard's own example."""
    assert directive(page("<script>doSomething();</script>"), "script-src") == ["'self'", EXAMPLE]


def test_without_script_of_its_own_a_page_has_no_hash() -> None:
    """Files of the site may run, nothing else."""
    html = page('<script src="a.js"></script><script type="application/json">{}</script>')
    assert directive(html, "script-src") == ["'self'"]


@pytest.mark.parametrize("end", ["\r\n", "\r"])
def test_ends_of_lines_are_one_sign(end: str) -> None:
    """A browser reads them so before it makes the hash (HTML, "Preprocessing the input stream")."""
    one, other = (directive(page(f"<style>a{{}}{at}</style>"), "style-src") for at in ("\n", end))
    assert one == other


def test_a_style_of_an_element_is_let_in_by_its_hash() -> None:
    """Tables of the prose align their columns so; the hash is of the text behind the entities."""
    plain = directive(page(body='<td style="text-align: right">'), "style-src")
    escaped = directive(page(body='<td style="text-align&#58; right">'), "style-src")
    assert "'unsafe-hashes'" in plain
    assert plain == escaped


def test_a_part_that_was_looked_at_is_not_looked_at_again() -> None:
    """What it asks for was found when it was made; one that is not there counts for nothing."""
    part = '<p style="top: 0"><script>doSomething();</script><img src="//b.example/b.png"></p>'
    html = page("<style>p{}</style>", f'<img src="//a.example/a.png">{part}')
    found = policy.asks(html, (part, policy.asks(part)))
    again = policy.asks(html, (part, policy.Asks(hosts=("a.example",))))
    gone = policy.asks(html, ("<b>", policy.Asks(hosts=("c.example",))))
    assert (found, again.hosts, gone) == (policy.asks(html), ("a.example",), policy.asks(html))


def test_the_policy_stands_before_all_that_it_is_for() -> None:
    """Behind the charset, which must be among the first 1,024 bytes, and before any script."""
    html = policy.guarded(page("<script>doSomething();</script>"))
    assert html.index("charset") < html.index("Security-Policy") < html.index("<script")
    assert html.index("charset") < 1024


@pytest.mark.parametrize(
    "html",
    [
        '<link rel="stylesheet" href="https://host.example/a.css">',
        '<link href="//host.example/a.css" rel="stylesheet">',
        "<script defer src=https://host.example/a.js></script>",
        '<img alt="a > b" src="http://host.example/a.png">',
        '<iframe title="Film" src="https://host.example/film"></iframe>',
    ],
)
def test_what_would_be_loaded_from_another_host_is_found(html: str) -> None:
    """However the tag is written."""
    assert policy.asks(html).hosts == ("host.example",)


@pytest.mark.parametrize(
    "html",
    [
        '<a href="https://host.example/">',
        '<link rel="canonical" href="https://host.example/page">',
        '<link rel="icon" href="../favicon.svg">',
        '<meta property="og:image" content="https://host.example/a.png">',
        '<img alt="https://host.example/" src="a.png">',
    ],
)
def test_a_link_loads_nothing(html: str) -> None:
    """Nor does what only names an address."""
    assert policy.asks(html).hosts == ()


def test_letters_from_another_host_have_a_cure_of_their_own() -> None:
    """The theme asks for them unless it is told not to."""
    assert policy.told("fonts.gstatic.com", "index.md", "guide").endswith(
        "Write `font: false` under `theme` in mkdocs.yml."
    )


def test_a_page_that_would_ask_another_host_stops_a_strict_build(tmp_path: Path) -> None:
    """The designer is told before her makers' browsers refuse it."""
    project = new_project(tmp_path)
    home = project.folder / "guide" / "index.md"
    home.write_text(f"{home.read_text()}\n![Sea](https://host.example/sea.png)\n")
    project.configure("extra: {analytics: {provider: google, property: G-1}}\n")
    done = subprocess.run(
        [sys.executable, "-m", "mkdocs", "build", "--strict"],
        cwd=project.folder,
        capture_output=True,
        text=True,
        check=False,
    )
    assert "index.md would load something from host.example" in done.stderr
    assert "Put the file into guide, or link to it." in done.stderr
    assert "tell nobody who reads them" in done.stderr
    assert (done.returncode, project.site.exists()) == (1, False)
