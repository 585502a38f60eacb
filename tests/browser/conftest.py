"""The demo site in Chromium, as a maker sees it on a phone and at a desk: built and started once.

A subject has a file of its own; it asks for ``visit``, a fresh window, or for ``browser`` and
``site`` where a window needs settings.
"""

from __future__ import annotations

import shutil
import threading
from collections.abc import Iterator
from contextlib import suppress
from functools import partial
from http.server import SimpleHTTPRequestHandler, ThreadingHTTPServer
from pathlib import Path

import pytest
from mkdocs.commands.build import build
from mkdocs.config import load_config
from playwright.sync_api import Browser, sync_playwright

from tests.browser.demo import Visit

CHECKOUT = Path(__file__).parents[2]
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


class Quiet(SimpleHTTPRequestHandler):
    """A file server that says nothing."""

    def log_message(self, *_words: object) -> None:
        """Say nothing."""

    def handle(self) -> None:
        """Say nothing either where a window is closed before it has all that it asked for."""
        with suppress(ConnectionError):
            super().handle()


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
def site(tmp_path_factory: pytest.TempPathFactory) -> Iterator[str]:
    """The address of the demo site, built with the demo studio's own look."""
    folder = tmp_path_factory.mktemp("demo") / "site"
    config = load_config(str(CHECKOUT / "mkdocs.yml"), site_dir=str(folder), strict=True)
    config.plugins.on_startup(command="build", dirty=False)
    build(config)
    server = ThreadingHTTPServer(("127.0.0.1", 0), partial(Quiet, directory=str(folder)))
    threading.Thread(target=server.serve_forever, daemon=True).start()
    yield f"http://127.0.0.1:{server.server_port}"
    server.shutdown()
    server.server_close()


@pytest.fixture
def visit(browser: Browser, site: str) -> Iterator[Visit]:
    """A fresh window."""
    context = browser.new_context(base_url=site)
    yield Visit(context.new_page())
    context.close()
