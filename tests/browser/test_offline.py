"""A pattern kept offline: there without a network, and never in the way of a corrected page."""

from __future__ import annotations

import json
import shutil
import threading
from collections.abc import Iterator
from contextlib import ExitStack
from pathlib import Path

import pytest
from playwright.sync_api import Browser, BrowserContext, Error, Page, expect

from tests.browser.demo import MITTS, TEE
from tests.browser.serving import served

FOLDER = MITTS.removesuffix("index.html")
KEEP = "[data-we-offline] button"
SAID = "[data-we-offline] [role=status]"
PAPER = "getComputedStyle(document.body).backgroundColor"
STORED = "localStorage.getItem('we:offline:sandhopper-mitts')"


class Network:
    """A copy of the demo site that can be corrected, and a server of it that can go away."""

    def __init__(self, folder: Path) -> None:
        self.folder = folder
        self.gate = threading.Event()
        self.gate.set()
        self._running = ExitStack()
        self.address = self._running.enter_context(served(folder, waits=self.gate))

    def gone(self) -> None:
        """From now on nobody answers."""
        self._running.close()

    def correct(self, old: str, new: str) -> None:
        """Change the page of the mitts, as a new build would."""
        page = self.folder / MITTS
        text = page.read_text("utf-8")
        assert old in text
        page.write_text(text.replace(old, new), "utf-8")


@pytest.fixture
def network(built: Path, tmp_path: Path) -> Iterator[Network]:
    """The demo site, on a server of its own."""
    made = Network(Path(shutil.copytree(built, tmp_path / "site")))
    yield made
    made.gate.set()
    made.gone()


@pytest.fixture
def phone(browser: Browser, network: Network) -> Iterator[BrowserContext]:
    """A phone with nothing kept on it."""
    context = browser.new_context(base_url=network.address, viewport={"width": 360, "height": 740})
    yield context
    context.close()


def kept(phone: BrowserContext) -> Page:
    """The page of the mitts, kept offline."""
    page = phone.new_page()
    page.goto(MITTS)
    page.locator(KEEP).click()
    expect(page.locator(SAID)).to_contain_text("kept in this browser")
    return page


def test_a_kept_page_is_there_without_a_network(phone: BrowserContext, network: Network) -> None:
    """With its rows, its look and its picture, by any address that leads to it."""
    page = kept(phone)
    online = page.evaluate(PAPER)
    network.gone()
    for address in (MITTS, f"{FOLDER}?size=M", f"{MITTS}?size=L#piece-thumb"):
        page.goto(address)
        expect(page.locator(SAID)).to_contain_text("No connection")
        assert page.locator(".we-rows > li").count() == 12
        assert page.evaluate(PAPER) == online
        assert page.locator(".we-cover img").evaluate("one => one.naturalWidth") == 640


def test_search_answers_without_a_network(phone: BrowserContext, network: Network) -> None:
    """It finds what the site had; a page that is not kept says so, and which are."""
    page = kept(phone)
    page.reload()
    expect(page.locator(SAID)).to_contain_text("kept in this browser")
    network.gone()
    faults: list[str] = []
    page.on("pageerror", lambda fault: faults.append(str(fault)))
    page.reload()
    page.locator("button[for=__search]").click()
    page.keyboard.type("raglan")
    link = page.locator(".md-search-result__link").first
    expect(link).to_contain_text("Raglan")
    assert faults == []
    link.click()
    expect(page.locator("h1")).to_have_text("No connection")
    expect(page.locator("li")).to_contain_text("Sandhopper Mitts")


def test_what_is_kept_is_stored_by_the_contract(phone: BrowserContext) -> None:
    """The version that is kept, as JSON."""
    assert json.loads(kept(phone).evaluate(STORED)) == "1.0"


def test_a_page_that_is_not_kept_is_not_there(phone: BrowserContext, network: Network) -> None:
    """Only what a maker has asked for lies in her browser, and she is told what that is."""
    page = kept(phone)
    page.goto(TEE)
    network.gone()
    page.reload()
    assert page.locator("h1").inner_text() == "No connection"
    assert page.locator(".we-rows").count() == 0
    page.get_by_role("link", name="Sandhopper Mitts").click()
    expect(page.locator(SAID)).to_contain_text("This is the copy that you keep")


def test_a_corrected_page_beats_the_copy(phone: BrowserContext, network: Network) -> None:
    """At once while there is a network, and from then on without one."""
    page = kept(phone)
    network.correct("33 (39, 42)", "36 (39, 42)")
    page.goto(MITTS)
    first = page.locator(".we-count").first
    assert first.inner_text() == "36 (39, 42) chs"
    expect(page.locator(SAID)).to_contain_text("is kept")
    network.gone()
    page.goto(MITTS)
    expect(page.locator(SAID)).to_contain_text("No connection")
    assert first.inner_text() == "36 (39, 42) chs"


def test_a_pattern_that_was_taken_back_is_not_shown_from_the_copy(
    phone: BrowserContext, network: Network
) -> None:
    """That it is gone is what the network says."""
    page = kept(phone)
    (network.folder / MITTS).unlink()
    answer = page.goto(MITTS)
    assert answer
    assert answer.status == 404


def test_a_slow_network_is_not_waited_for_but_heard(
    phone: BrowserContext, network: Network
) -> None:
    """The copy is shown after a while; when the corrected page comes, its reader is told."""
    page = kept(phone)
    network.correct('data-we-version="1.0"', 'data-we-version="1.1"')
    network.correct('name="we-stamp" content="', 'name="we-stamp" content="0')
    network.gate.clear()
    page.goto(MITTS)
    assert page.locator("[data-we-version='1.0']").count() == 1
    network.gate.set()
    expect(page.locator(SAID)).to_contain_text("not the newest (version 1.1)")
    page.locator(SAID).get_by_role("link").click()
    expect(page.locator("[data-we-version='1.1']")).to_have_count(1)
    assert json.loads(page.evaluate(STORED)) == "1.1"


def test_a_copy_can_be_let_go(phone: BrowserContext, network: Network) -> None:
    """Nothing of it is left, and with the last one goes the worker."""
    page = kept(phone)
    page.locator(KEEP).click()
    expect(page.locator(KEEP)).to_have_attribute("aria-pressed", "false")
    expect(page.locator(SAID)).to_be_empty()
    page.wait_for_function("navigator.serviceWorker.getRegistration().then(one => !one)")
    assert page.evaluate("caches.keys()") == []
    assert page.evaluate(STORED) is None
    network.gone()
    with pytest.raises(Error, match="ERR_"):
        page.reload()


def test_a_visit_alone_keeps_nothing(phone: BrowserContext) -> None:
    """No worker and no copy before a maker asks for one."""
    page = phone.new_page()
    page.goto(MITTS)
    expect(page.locator(KEEP)).to_be_visible()
    registered = page.evaluate("navigator.serviceWorker.getRegistrations().then(all => all.length)")
    assert (registered, page.evaluate("caches.keys()")) == (0, [])


def test_a_full_storage_is_told(phone: BrowserContext) -> None:
    """And the page says nothing that is not so."""
    page = phone.new_page()
    page.goto(MITTS)
    page.evaluate("Cache.prototype.put = () => Promise.reject(Error('full')); 0")
    page.locator(KEEP).click()
    expect(page.locator(SAID)).to_contain_text("did not work")
    assert page.locator(KEEP).get_attribute("aria-pressed") == "false"


def test_who_kept_a_pattern_under_its_former_name_keeps_it(
    phone: BrowserContext, network: Network
) -> None:
    """Its folder was renamed: the copy is made anew at the new address, and the old one goes."""
    page = kept(phone)
    shutil.copytree(network.folder / FOLDER, network.folder / "patterns/strand-mitts")
    moved = network.folder / "patterns/strand-mitts/index.html"
    text = moved.read_text("utf-8")
    old = "&#34;pattern&#34;:&#34;sandhopper-mitts&#34;"
    new = (
        old.replace("sandhopper", "strand")
        + ",&#34;formerly&#34;:[&#34;fan-mitts&#34;,&#34;sandhopper-mitts&#34;]"
    )
    assert old in text
    moved.write_text(text.replace(old, new), "utf-8")
    page.goto("patterns/strand-mitts/index.html")
    expect(page.locator(SAID)).to_contain_text("kept in this browser")
    assert page.evaluate("caches.keys()") == ["we:/:strand-mitts"]
    assert page.evaluate(STORED) is None
    network.gone()
    page.reload()
    expect(page.locator(SAID)).to_contain_text("No connection")


def test_a_file_offers_no_copy(browser: Browser, built: Path) -> None:
    """It is one already."""
    page = browser.new_page()
    page.goto((built / MITTS).as_uri())
    assert not page.locator(KEEP).is_visible()
    page.close()
