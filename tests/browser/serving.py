"""A folder served on this machine for as long as a test needs it."""

from __future__ import annotations

import threading
from collections.abc import Iterator
from contextlib import contextmanager, suppress
from functools import partial
from http.server import SimpleHTTPRequestHandler, ThreadingHTTPServer
from pathlib import Path
from socket import socket
from socketserver import BaseServer

#: For a server that answers at once.
OPEN = threading.Event()
OPEN.set()


class Quiet(SimpleHTTPRequestHandler):
    """A file server that says nothing, and answers when the gate is open."""

    def __init__(
        self,
        asked: socket,
        client: tuple[str, int],
        server: BaseServer,
        *,
        gate: threading.Event,
        directory: str,
    ) -> None:
        self.gate = gate
        super().__init__(asked, client, server, directory=directory)

    def do_GET(self) -> None:
        """Wait, then answer."""
        self.gate.wait(30)
        super().do_GET()

    def log_message(self, *_words: object) -> None:
        """Say nothing."""

    def handle(self) -> None:
        """Say nothing either where a window is closed before it has all that it asked for."""
        with suppress(ConnectionError):
            super().handle()


@contextmanager
def served(folder: Path, waits: threading.Event = OPEN) -> Iterator[str]:
    """The address under which the folder is served until the context ends."""
    answering = partial(Quiet, gate=waits, directory=str(folder))
    server = ThreadingHTTPServer(("127.0.0.1", 0), answering)
    threading.Thread(target=server.serve_forever, daemon=True).start()
    try:
        yield f"http://127.0.0.1:{server.server_port}"
    finally:
        server.shutdown()
        server.server_close()
