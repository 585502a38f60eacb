"""The pictures of the README, made from the built site and from a check that fails.

Takes     `site/`, built by `make site`, and the demo collection.
Gives     `failing-check.png`, `pattern-page.png`, `print.jpg` and `LOOKS` in `guide/assets/`.
Problems  none.
From      nothing: run it as `make pictures` after a change of look or of messages.
"""

from __future__ import annotations

import html
import shutil
import subprocess
import sys
import tempfile
from pathlib import Path

from playwright.sync_api import Browser, Page, sync_playwright

PICTURES = Path("guide/assets")
BROWSER = "/usr/bin/chromium"
#: root may start Chromium only without its sandbox; the pages are our own files.
FLAGS = ["--no-sandbox", "--disable-gpu", "--disable-background-networking", "--disable-sync"]
PATTERN = "groynemark-tee"
#: one number of the tee changed: cuffs of a multiple of six, where the waves take four
SLIP = ("across: cuff, gauge: ground, multiple: 4", "across: cuff, gauge: ground, multiple: 6")

#: name: address within the site, how far below the top (css, px); a size is chosen in the second.
LOOKS = {
    "list": ("patterns/index.html", ""),
    "size": (f"patterns/{PATTERN}/index.html?size=M&units=cm&terms=uk", "#sizes"),
    "rows": (f"patterns/{PATTERN}/index.html?size=M&units=cm&terms=uk", ".we-rows"),
}
#: Widths and heights as they are in hands and on desks.
SCREENS = {"phone": (360, 720), "desk": (1180, 760)}

TERMINAL = """<!doctype html><meta charset="utf-8"><style>
body {{ margin: 0; padding: 24px; background: #12242a; color: #e9e4d6;
  font: 15px/1.5 "DejaVu Sans Mono", monospace; width: 1132px }}
pre {{ margin: 0; white-space: pre-wrap }}
.typed {{ color: #8fd0cf }}
</style><pre><span class="typed">$ workeven check patterns</span>
{report}</pre>"""


def main() -> int:
    """Make all pictures; 1 when the site is not there."""
    page = Path("site/patterns") / PATTERN / "index.html"
    if not page.is_file():
        print("There is no built site: run `make site` first.", file=sys.stderr)
        return 1
    PICTURES.mkdir(parents=True, exist_ok=True)
    report = _failing_check()
    with sync_playwright() as player:
        browser = player.chromium.launch(executable_path=BROWSER, args=FLAGS)
        _picture(browser, page.resolve().as_uri(), (1180, 760), "pattern-page.png")
        _looks(browser)
        _printed(browser)
        with tempfile.TemporaryDirectory() as folder:
            terminal = Path(folder) / "check.html"
            terminal.write_text(TERMINAL.format(report=html.escape(report)), encoding="utf-8")
            _picture(browser, terminal.as_uri(), (1180, 10), "failing-check.png", whole=True)
        browser.close()
    return 0


def _looks(browser: Browser) -> None:
    """The main pages, in `list-phone-dark.jpg` and so on."""
    for screen, (width, height) in SCREENS.items():
        for scheme in ("light", "dark"):
            for name, (address, below) in LOOKS.items():
                page = browser.new_page(viewport={"width": width, "height": height})
                page.emulate_media(color_scheme="dark" if scheme == "dark" else "light")
                page.goto(f"{Path('site').resolve().as_uri()}/{address}")
                if below:
                    page.locator(below).first.evaluate(
                        "one => scrollTo(0, one.getBoundingClientRect().top + scrollY - 60)"
                    )
                _save(page, f"{name}-{screen}-{scheme}.jpg")


def _printed(browser: Browser) -> None:
    """A printed sheet of one size, as far as an A4 page at 96 px to the inch goes."""
    page = browser.new_page(viewport={"width": 680, "height": 960})
    page.emulate_media(media="print")
    page.goto(f"{Path('site').resolve().as_uri()}/patterns/{PATTERN}/index.html?size=M")
    _save(page, "print.jpg")


def _save(page: Page, name: str) -> None:
    page.wait_for_timeout(300)
    page.screenshot(path=str(PICTURES / name), type="jpeg", quality=70)
    page.close()


def _failing_check() -> str:
    """What `workeven check` says of the collection after one slip."""
    with tempfile.TemporaryDirectory() as folder:
        shutil.copytree("patterns", Path(folder) / "patterns")
        file = Path(folder) / "patterns" / PATTERN / "pattern.yaml"
        text = file.read_text(encoding="utf-8")
        old, new = SLIP
        file.write_text(text.replace(old, new, 1), encoding="utf-8")
        command = [sys.executable, "-m", "workeven.cli", "check", "patterns"]
        done = subprocess.run(  # noqa: S603, our own command, no word of it from outside
            command, cwd=folder, capture_output=True, text=True, check=False
        )
    return done.stdout


def _picture(
    browser: Browser, address: str, size: tuple[int, int], name: str, *, whole: bool = False
) -> None:
    width, height = size
    page = browser.new_page(viewport={"width": width, "height": height}, color_scheme="light")
    page.goto(address)
    page.screenshot(path=str(PICTURES / name), full_page=whole)
    page.close()


if __name__ == "__main__":
    sys.exit(main())
