"""The demo site as the tests visit it: its pages, and a window that notes what goes on in it."""

from __future__ import annotations

from playwright.sync_api import Page

MITTS = "patterns/sandhopper-mitts/index.html"
TEE = "patterns/groynemark-tee/index.html"
PAGES = ("index.html", "patterns/index.html", MITTS, TEE, "writing/your-first-pattern.html")


class Visit:
    """A window, with what the browser asked for and complained about."""

    def __init__(self, page: Page) -> None:
        self.page = page
        self.asked: list[str] = []
        self.complaints: list[str] = []
        page.on("request", lambda request: self.asked.append(request.url))
        page.on("pageerror", lambda error: self.complaints.append(str(error)))
        page.on(
            "console",
            lambda told: self.complaints.append(told.text) if told.type == "error" else None,
        )
