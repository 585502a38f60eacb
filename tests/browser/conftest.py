"""The demo site in Chromium, as a maker sees it on a phone and at a desk: built and started once.

A subject has a file of its own; it asks for ``visit``, a fresh window, or for ``browser`` and
``site`` where a window needs settings.
"""

from __future__ import annotations

import shutil
from collections.abc import Iterator
from pathlib import Path

import pytest
from playwright.sync_api import Browser, sync_playwright

from tests.browser.demo import Visit
from tests.browser.serving import served
from tests.support.sites import demo

CHROMIUM = next(
    (
        found
        for name in ("chromium", "chromium-browser", "google-chrome")
        if (found := shutil.which(name))
    ),
    None,
)
#: Nothing but the pages may ask the network for anything.
FLAGS = (
    "--no-sandbox",
    "--disable-gpu",
    "--disable-quic",
    "--no-first-run",
    "--disable-background-networking",
    "--disable-component-update",
    "--disable-sync",
)


@pytest.fixture(scope="session")
def browser() -> Iterator[Browser]:
    """Chromium without a window, with a profile of its own."""
    if CHROMIUM is None:
        pytest.skip("Chromium is not installed")
    with sync_playwright() as started:
        running = started.chromium.launch(executable_path=CHROMIUM, args=list(FLAGS))
        yield running
        running.close()


@pytest.fixture(scope="session")
def built(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """The folder of the demo site, built with the demo studio's own look."""
    return demo(tmp_path_factory.mktemp("demo"))


@pytest.fixture(scope="session")
def site(built: Path) -> Iterator[str]:
    """The address of the demo site."""
    with served(built) as address:
        yield address


@pytest.fixture
def visit(browser: Browser, site: str) -> Iterator[Visit]:
    """A fresh window."""
    context = browser.new_context(base_url=site)
    yield Visit(context.new_page())
    context.close()
