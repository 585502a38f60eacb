"""A folder served on this machine for as long as a test needs it."""

from __future__ import annotations

import threading
from collections.abc import Iterator
from contextlib import contextmanager, suppress
from functools import partial
from http.server import SimpleHTTPRequestHandler, ThreadingHTTPServer
from pathlib import Path


class Quiet(SimpleHTTPRequestHandler):
    """A file server that says nothing."""

    def log_message(self, *_words: object) -> None:
        """Say nothing."""

    def handle(self) -> None:
        """Say nothing either where a window is closed before it has all that it asked for."""
        with suppress(ConnectionError):
            super().handle()


@contextmanager
def served(folder: Path) -> Iterator[str]:
    """The address under which the folder is served until the context ends."""
    server = ThreadingHTTPServer(("127.0.0.1", 0), partial(Quiet, directory=str(folder)))
    threading.Thread(target=server.serve_forever, daemon=True).start()
    try:
        yield f"http://127.0.0.1:{server.server_port}"
    finally:
        server.shutdown()
        server.server_close()
