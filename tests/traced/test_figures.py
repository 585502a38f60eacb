"""Every figure of every page is told in its file, and is the one that the model gives.

The pages are read by ``as_built``, the figures are found anew by ``of_rows``, ``of_yarn``,
``of_pattern`` and ``of_collection``: none of them uses the code that makes pages, or the marks in
them.
"""

from __future__ import annotations

import json
import re
from collections import Counter
from collections.abc import Callable, Iterator
from importlib.resources import files
from pathlib import Path
from xml.etree.ElementTree import fromstring

import pytest
from jsonschema import Draft202012Validator

from tests.publish.project import new_project
from tests.traced.as_built import Reading, inside, reading
from tests.traced.asked import Asked
from tests.traced.of_collection import told_of_all
from tests.traced.of_pattern import told
from tests.traced.patterns import MAT, STUDIO
from tests.traced.sites import Entry, Site, as_told, site, with_another_figure
from tests.traced.told import FIGURE, Told, figures, joined

DEMO = (
    "glasswort-raglan",
    "groynemark-tee",
    "haulout-pup",
    "ripplemark-blanket",
    "sandhopper-mitts",
    "swashmark-bolster",
    "whelkstow-basket",
    "wrackline-cardigan",
)
PATTERNS = (*DEMO, "mat")
#: Pages of no one pattern, and the class of ours that each begins with.
BESIDE = {
    "patterns": "we-index",
    "stitches": "we-glossary",
    "tags": "we-tags",
    "changes": "we-news",
    "studio": "we-studio",
}


@pytest.fixture(scope="module")
def demo(tmp_path_factory: pytest.TempPathFactory) -> Site:
    """The demo patterns, built."""
    return site(tmp_path_factory.mktemp("demo"))


@pytest.fixture(scope="module")
def other(tmp_path_factory: pytest.TempPathFactory) -> Site:
    """A mat with digits in all its names, in UK terms and inches."""
    return site(tmp_path_factory.mktemp("other"), {"mat": MAT}, STUDIO)


@pytest.fixture
def of(demo: Site, other: Site) -> Callable[[str], tuple[Site, Asked, list[Entry]]]:
    """A pattern by the name of its folder, with its site and what its file lists."""

    def found(slug: str) -> tuple[Site, Asked, list[Entry]]:
        there = other if slug == "mat" else demo
        return there, there.patterns[slug], there.entries(f"patterns/{slug}")

    return found


Of = Callable[[str], tuple[Site, Asked, list[Entry]]]


def listed(entries: list[Entry], sizes: int) -> Reading:
    """How often each figure is listed at each anchor."""
    every: list[dict[str, Counter[str]]] = [{} for _ in range(sizes + 1)]
    for entry in entries:
        here = as_told(entry, sizes)
        for found, each in zip(every, (here.all, *here.each), strict=True):
            if each:
                found.setdefault(entry["at"], Counter()).update(each)
    return Reading(all=every[0], each=tuple(every[1:]))


def expected(one: Asked, entry: Entry) -> Told:
    """The figures that the model gives for a text."""
    return joined((told(one, origin, entry["text"]) for origin in entry["from"]), one.sizes)


# --- patterns ------------------------------------------------------------------------------


@pytest.mark.parametrize("slug", PATTERNS)
def test_every_figure_of_a_pattern_is_listed_where_it_stands(of: Of, slug: str) -> None:
    """At its anchor, in words, names and drawings, where no size is chosen and in each size."""
    there, one, entries = of(slug)
    shown = reading(inside(there.html(f"patterns/{slug}"), "we-pattern"), one.sizes)
    assert shown == listed(entries, one.sizes)


@pytest.mark.parametrize("slug", PATTERNS)
def test_every_figure_of_a_pattern_is_that_of_the_model(of: Of, slug: str) -> None:
    """Found anew from what is named beside it, in each size."""
    _, one, entries = of(slug)
    wrong = [entry for entry in entries if expected(one, entry) != as_told(entry, one.sizes)]
    assert wrong == []


@pytest.mark.parametrize("slug", PATTERNS)
def test_no_figure_has_no_origin(of: Of, slug: str) -> None:
    """What nobody can trace does not stand on a page."""
    assert [entry for entry in of(slug)[2] if not entry["from"]] == []


@pytest.mark.parametrize("slug", PATTERNS)
def test_a_wrong_figure_in_the_file_is_found(of: Of, slug: str) -> None:
    """Any first figure of any text made another: none is taken at its word."""
    _, one, entries = of(slug)
    passed = [entry for entry in entries if stands(one, corrupted(entry))]
    assert passed == []


def corrupted(entry: Entry) -> Entry:
    """The entry with another figure, where nothing is chosen and in each size."""
    each = [with_another_figure(text) for text in entry.get("each", [])]
    return {**entry, "text": with_another_figure(entry["text"]), **({"each": each} if each else {})}


def stands(one: Asked, entry: Entry) -> bool:
    """Whether the model has nothing against an entry."""
    try:
        return expected(one, entry) == as_told(entry, one.sizes)
    except (AssertionError, LookupError, StopIteration, ValueError):
        return False


def test_a_wrong_figure_on_the_page_is_found(of: Of) -> None:
    """Each sixth figure of the mitts' page, made another one after the build."""
    there, one, entries = of("sandhopper-mitts")
    html = inside(there.html("patterns/sandhopper-mitts"), "we-pattern")
    spots = [
        spot
        for spot in re.finditer(r">[^<]*?(\d+)", html)
        if "script" not in html[: spot.start()][-40:]
    ]
    before = listed(entries, one.sizes)
    unseen = [
        html[spot.start() - 60 : spot.end() + 20]
        for spot in spots[::6]
        if reading(f"{html[: spot.start(1)]}98765{html[spot.end(1) :]}", one.sizes) == before
    ]
    assert len(spots) > 200
    assert unseen == []


def test_rows_are_traced_to_the_proof_or_to_the_designers_line(of: Of) -> None:
    """What a maker works most is never traced to words of ours."""
    _, one, entries = of("sandhopper-mitts")
    origins = {
        origin for entry in entries if entry["at"].startswith("row-") for origin in entry["from"]
    }
    kinds = {re.sub(r"^line \d+|^[^:]*(?=: )", "…", origin).partition(" ")[0] for origin in origins}
    assert kinds <= {"…:", "…"}
    assert len(one.lines) > 50


# --- pages of the whole collection ---------------------------------------------------------


@pytest.mark.parametrize("page", BESIDE)
def test_every_figure_of_a_page_beside_is_listed(demo: Site, page: str) -> None:
    """The list of patterns, the stitches, the tags, the changes, the studio."""
    shown = reading(inside(demo.html(page), BESIDE[page]), 0)
    assert shown == listed(demo.entries(page), 0)


@pytest.mark.parametrize("page", BESIDE)
def test_every_figure_of_a_page_beside_is_that_of_the_patterns(demo: Site, page: str) -> None:
    """How many there are, their days and versions, what their drawings show."""
    every = tuple(demo.patterns.values())
    wrong = [
        entry
        for entry in demo.entries(page)
        if sum((told_of_all(every, one, entry["text"]) for one in entry["from"]), ())
        != figures(entry["text"])
        or not entry["from"]
    ]
    assert wrong == []


# --- what other programs read --------------------------------------------------------------


@pytest.mark.parametrize("slug", DEMO)
def test_structured_data_says_no_figure_that_the_page_does_not(demo: Site, slug: str) -> None:
    """Each text of the HowTo stands on the page, word for word, and with it its origins."""
    html = demo.html(f"patterns/{slug}")
    data = re.search(r'<script type="application/ld\+json">(.*?)</script>', html, re.DOTALL)
    assert data is not None
    texts = " | ".join(squeezed(entry["text"]) for entry in demo.entries(f"patterns/{slug}"))
    said = [
        one for key, one in strings(json.loads(data[1])) if key not in {"url", "image", "@context"}
    ]
    untold = [one for one in said if FIGURE.search(one) and squeezed(one) not in texts]
    assert untold == []


def squeezed(text: str) -> str:
    """Without spaces, which lines and cells have otherwise."""
    return re.sub(r"\s+", "", text)


def strings(told_: object, key: str = "") -> Iterator[tuple[str, str]]:
    """Every text in data, with the name it has."""
    if isinstance(told_, dict):
        for name, value in told_.items():
            yield from strings(value, name)
    elif isinstance(told_, list):
        for value in told_:
            yield from strings(value, key)
    else:
        yield key, str(told_)


@pytest.mark.parametrize("slug", DEMO)
def test_the_head_says_no_figure_that_the_page_does_not(demo: Site, slug: str) -> None:
    """Title, description and Open Graph; the size of the picture is that of the file."""
    head = demo.html(f"patterns/{slug}").partition("</head>")[0]
    metas = dict(
        re.findall(r'<meta (?:property|name)="((?:og:|desc)[^"]*)" content="([^"]*)"', head)
    )
    png = (demo.folder / "patterns" / slug / "share.png").read_bytes()
    width, height = (int.from_bytes(png[at : at + 4], "big") for at in (16, 20))  # PNG, 11.2.1
    assert (metas.pop("og:image:width"), metas.pop("og:image:height")) == (str(width), str(height))
    page = Counter(figures(" ".join(entry["text"] for entry in demo.entries(f"patterns/{slug}"))))
    said = Counter(
        figures(
            " ".join(
                words for name, words in metas.items() if "url" not in name and name != "og:image"
            )
        )
    )
    assert said - page == Counter()


@pytest.mark.parametrize("slug", DEMO)
def test_the_foot_of_a_printed_sheet_says_version_and_size(demo: Site, slug: str) -> None:
    """Strings of the style in the head, which stand on paper alone."""
    one, head = demo.patterns[slug], demo.html(f"patterns/{slug}").partition("</head>")[0]
    plain = re.sub(r"\\([0-9a-f]+) ", lambda sign: chr(int(sign[1], 16)), head)
    told = re.findall(r'--we-sheet[^:]*:"([^"]*)"', plain)
    names = one.names if one.sizes > 1 else ()
    sheet = [f"{one.file['title']}, version {one.file['version']}", *(f", size {n}" for n in names)]
    assert told == sheet


def test_the_feed_says_the_days_and_versions_of_the_changes(demo: Site) -> None:
    """Each figure of it but for the ids, which are names, stands on the page of changes."""
    feed = fromstring((demo.folder / "changes" / "feed.xml").read_text("utf-8"))  # noqa: S314 -- our own
    texts = [one.text or "" for one in feed.iter() if not one.tag.endswith("}id")]
    days = [re.sub(r"T00:00:00Z$", "", one) for one in texts]
    page = set(figures(" ".join(entry["text"] for entry in demo.entries("changes"))))
    assert set(figures(" ".join(days))) <= page


@pytest.mark.parametrize("page", [*(f"patterns/{slug}" for slug in DEMO), *BESIDE])
def test_what_stands_around_a_page_has_no_figures_but_those_of_titles(
    demo: Site, page: str
) -> None:
    """Menu, head and foot are the theme's."""
    html = demo.html(page)
    around = re.sub(r"<article.*</article>", "", html.partition("<body")[2], flags=re.DOTALL)
    shown = reading(f"<body{around}", 0).all
    titles = " ".join(re.findall(r"<h[123][^>]*>(.*?)</h", html))
    assert {one for found in shown.values() for one in found} <= set(figures(titles))


# --- the file itself -----------------------------------------------------------------------


@pytest.mark.parametrize("page", [*(f"patterns/{slug}" for slug in DEMO), *BESIDE])
def test_the_file_keeps_to_its_schema(demo: Site, page: str) -> None:
    """Other programs rely on it."""
    text = files("workeven.schemas").joinpath("figures.schema.json").read_text("utf-8")
    written = json.loads((demo.folder / page / "figures.json").read_text("utf-8"))
    assert list(Draft202012Validator(json.loads(text)).iter_errors(written)) == []


def test_a_site_that_does_not_ask_has_no_such_files(tmp_path: Path) -> None:
    """They weigh as much as the pages."""
    project = new_project(tmp_path)
    project.build()
    assert list(project.site.rglob("figures.json")) == []
