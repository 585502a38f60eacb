"""A maker's own size, units and terms: no other size's number is seen once she has chosen."""

from __future__ import annotations

import re
from collections.abc import Iterator

import pytest
from playwright.sync_api import Browser, Page, expect

from tests.browser.demo import MITTS, TEE, Visit
from tests.publish.project import CHECKOUT
from workeven import pipeline, source
from workeven.arithmetic import printing
from workeven.notation.vocabulary import in_terms
from workeven.notation.wording import meaning
from workeven.pipeline import ReadyPattern
from workeven.proof import ProvenRow

CHOOSER = "[data-we-choose]"
SIZE = f"{CHOOSER} [name=size]"
UNITS = f"{CHOOSER} [name=units]"
TERMS = f"{CHOOSER} [name=terms]"
SAID = f"{CHOOSER} [role=status]"
#: What is seen of a page without the controls, and without the names in its drawings.
SEEN = """() => [...document.querySelectorAll(".we-pattern > :not(.we-choose)")]
  .filter(one => one.checkVisibility()).map(one => one.innerText).join("\\n")"""
#: The anchor of each row that is seen, its number, its count, its words.
ROWS = """() => Object.fromEntries([...document.querySelectorAll(".we-rows > li")]
  .filter(one => one.checkVisibility())
  .map(one => [one.id, [".we-no", ".we-count", ".we-words"].map(
    part => one.querySelector(part)?.innerText ?? "")]))"""
#: For each table with a line a size, the first words of the lines that are seen.
LINES = """() => [...document.querySelectorAll(".we-sized")].map(table =>
  [...table.tBodies[0].rows].filter(one => one.checkVisibility())
    .map(one => one.cells[0].innerText))"""


def _ready() -> dict[str, ReadyPattern]:
    verdict = pipeline.check(source.collect([str(CHECKOUT / "patterns")]))
    return {one.ready.pattern.slug: one.ready for one in verdict.outcomes if one.ready}


PATTERNS = _ready()


def address(slug: str) -> str:
    """The page of a pattern."""
    return f"patterns/{slug}/index.html"


def numbers(words: str) -> list[int]:
    """The whole numbers of a text, in order."""
    return [int(one) for one in re.findall(r"\d+", words)]


def rows_of(ready: ReadyPattern) -> Iterator[ProvenRow]:
    """Every row that the page shows."""
    for piece in ready.proven.pieces:
        if piece.piece.mirror is None:
            for section in piece.sections:
                yield from section.rows


def lengths_of(ready: ReadyPattern, at: int) -> set[int]:
    """The figures that a length of this size may be printed with."""
    all_lengths = (*ready.proven.graded.measurements.values(), *dict(ready.pattern.to_fit).values())
    told = (f"{printing.print_cm(one[at])} {printing.print_in(one[at])}" for one in all_lengths)
    return {number for words in told for number in numbers(words)}


def may_be_said(ready: ReadyPattern, row: ProvenRow, at: int) -> set[int]:
    """Every number that the words of a row may hold in one size, from file and proof."""
    text = row.row.text
    values: set[int] = set()
    for amount in sorted(row.row.amounts, key=lambda one: -one.start):
        if amount.formula is not None:
            counts = {name: one.values[at] for name, one in ready.proven.graded.counts.items()}
            values.add(int(amount.formula.count(counts)))
        elif amount.by_size():
            values.add(amount.values[at] or 0)
        else:
            continue
        text = text[: amount.start] + text[amount.end :]
    counted = row.per_size[at]
    times = {counted.times or 0} if counted else set()
    return {*numbers(text), *values, *times, *lengths_of(ready, at)}


@pytest.fixture(scope="module")
def window(browser: Browser, site: str) -> Iterator[Page]:
    """One window for all that only looks."""
    context = browser.new_context(base_url=site)
    yield context.new_page()
    context.close()


@pytest.mark.parametrize("slug", [one for one, it in PATTERNS.items() if len(it.pattern.sizes) > 1])
def test_no_number_of_another_size_is_seen(window: Page, slug: str) -> None:
    """In every size of every pattern: rows, counts, tables, and no list in trade notation."""
    ready = PATTERNS[slug]
    names = ready.pattern.sizes.names
    listed = re.compile(rf"[\d–]\S* \((?:[\d–][^\s,()]*, ){{{len(names) - 2}}}[\d–][^\s,()]*\)")
    window.goto(address(slug))
    window.evaluate("document.querySelectorAll('details').forEach(one => { one.open = true; })")
    assert listed.search(window.evaluate(SEEN))
    wrong = []
    for at, name in enumerate(names):
        window.locator(SIZE).select_option(label=name)
        seen, lines = window.evaluate(ROWS), window.evaluate(LINES)
        each = [(row, row.per_size[at]) for row in rows_of(ready)]
        worked = [(row, one) for row, one in each if one is not None and one.times != 0]
        assert len(seen) == len(worked)
        pairs = zip(worked, seen.items(), strict=True)
        for (row, counted), (anchor, (number, count, words)) in pairs:
            ends = {one for one in (counted.first, counted.last) if one is not None}
            if set(numbers(number)) != ends:
                wrong.append(f"{name} {anchor}: {number}, not {ends}")
            if counted.sts and count and numbers(count)[0] != counted.sts:
                wrong.append(f"{name} {anchor}: {count}, not {counted.sts}")
            if more := set(numbers(words)) - may_be_said(ready, row, at):
                wrong.append(f"{name} {anchor}: {more} in {words}")
        wrong += [f"{name}: lines {one}" for one in lines if one != [name]]
        wrong += [f"{name}: {one[0]}" for one in listed.finditer(window.evaluate(SEEN))]
    assert "\n".join(wrong) == ""


def test_a_choice_is_in_the_address_and_remembered(visit: Visit) -> None:
    """By name; the page opens with it again, and other names in the address stay."""
    page = visit.page
    page.goto(f"{MITTS}?from=letter#sizes")
    page.locator(SIZE).select_option(label="M")
    assert page.url.endswith("index.html?from=letter&size=M#sizes")
    expect(page.locator(SAID)).to_have_text("All numbers are those of size M.")
    page.goto(MITTS)
    assert page.evaluate("document.documentElement.dataset.size") == "1"
    assert page.locator(SIZE).input_value() == "1"
    expect(page.locator(SAID)).to_have_text("All numbers are those of size M.")
    page.goto(TEE)
    assert page.evaluate("document.documentElement.dataset.size") is None


def test_the_address_comes_before_what_is_remembered(visit: Visit) -> None:
    """A link that somebody sent is of the size that it says."""
    visit.page.goto(MITTS)
    visit.page.locator(SIZE).select_option(label="M")
    visit.page.goto(f"{MITTS}?size=L&units=in")
    count = visit.page.locator(".we-count").nth(1)
    assert count.inner_text() == "42 sts"
    assert visit.page.locator(UNITS).input_value() == "in"


def test_all_sizes_are_one_press_away(visit: Visit) -> None:
    """And her own one more; the page is then as it was built."""
    visit.page.goto(MITTS)
    built = visit.page.evaluate(SEEN)
    visit.page.locator(SIZE).select_option(label="S")
    chosen = visit.page.evaluate(SEEN)
    button = visit.page.locator(f"{CHOOSER} button")
    button.click()
    assert visit.page.evaluate(SEEN) == built
    assert button.inner_text() == "Back to S"
    button.click()
    assert visit.page.evaluate(SEEN) == chosen != built


def test_her_size_is_there_before_the_first_paint(browser: Browser, site: str) -> None:
    """Every frame that is painted has her size's figure or none: noted from within the page."""
    context = browser.new_context(base_url=site)
    context.add_init_script("""window.painted = [];
      const note = () => {
        const first = document.querySelectorAll(".we-count")[1];
        if (first) window.painted.push(
          getComputedStyle(first).visibility === "hidden" ? "" : first.innerText);
        requestAnimationFrame(note);
      };
      requestAnimationFrame(note);""")
    page = context.new_page()
    page.goto(f"{TEE}?size=XL", wait_until="load")
    page.evaluate("new Promise(done => setTimeout(done, 100))")
    painted = set(page.evaluate("window.painted"))
    context.close()
    assert painted <= {"", "104 sts"}
    assert "104 sts" in painted


def test_units_are_one_system_at_a_time(visit: Visit) -> None:
    """Every length of the page, in tables and in rows; names of hooks in mm are not lengths."""
    page = visit.page
    page.goto(MITTS)
    page.locator(UNITS).select_option("in")
    inches = page.evaluate(SEEN)
    page.locator(UNITS).select_option("cm")
    metric = page.evaluate(SEEN)
    assert re.search(r"[\d¼½¾][) ]* ?in\b", metric) is None
    assert re.search(r"[\d¼½¾][) ]* ?(?:cm|m|yd)\\b", inches) is None
    assert "until piece measures 10 (10.5, 11) cm:" in metric
    assert page.url.endswith("?units=cm")


@pytest.mark.parametrize(("units", "said"), [("cm", "25 cm"), ("in", "9¾ in")])
def test_a_length_in_a_note_is_in_her_units(visit: Visit, units: str, said: str) -> None:
    """Written in braces: 250 mm are 9.84 in, to the nearest quarter 9¾."""
    visit.page.goto(f"{MITTS}?units={units}")
    note = visit.page.locator(".we-note", has_text="to sew the thumb in with")
    expect(note).to_have_text(
        f"Leave {said} of yarn before the first chain, to sew the thumb in with."
    )


@pytest.mark.parametrize(("units", "said"), [("cm", "10 cm"), ("in", "4 in")])
def test_a_length_in_a_sentence_is_in_her_units(visit: Visit, units: str, said: str) -> None:
    """Written without braces; 100 mm are 3.94 in, to the nearest quarter 4."""
    visit.page.goto(f"{TEE}?units={units}")
    story = visit.page.locator(".we-story")
    expect(story).to_contain_text(f"One step of the sizes, {said} of bust, is sixteen stitches")


@pytest.mark.parametrize(("units", "other"), [("cm", "in"), ("in", "cm")])
def test_seams_are_in_her_units(visit: Visit, units: str, other: str) -> None:
    """Their lengths as all others; so is what one stitch more does, and what tables are called."""
    visit.page.goto(f"patterns/wrackline-cardigan/index.html?units={units}")
    seams = visit.page.locator("[aria-labelledby=assembly] table").first.inner_text()
    caption = visit.page.locator("[aria-labelledby=gauge] caption").inner_text()
    assert re.search(rf"\d {units}\b", seams.replace("¾", "3"))
    assert re.search(rf"[\d¼½¾]\s{other}\b", seams) is None
    assert caption.startswith(
        f"With one stitch more in {'10 cm' if units == 'cm' else '4 in'} than"
    )
    visit.page.goto(f"{MITTS}?units={units}")
    longer = f"More yarn for each {'5 cm' if units == 'cm' else '2 in'} that you add"
    assert visit.page.get_by_role("region", name=longer, exact=True).count() == 1


def test_the_other_terms_leave_no_stitch_in_the_first(visit: Visit) -> None:
    """US: fan of 3 dc, sc rounds. UK: fan of 3 tr, dc rounds; in rows, notes, tables and gauge."""
    page = visit.page
    page.goto(MITTS)
    built = page.evaluate(SEEN)
    page.locator(TERMS).select_option("uk")
    seen = page.evaluate(SEEN)
    assert re.search(r"\bsc\b|single crochet", seen.partition("Used in this pattern")[0]) is None
    assert "of dc = 10 cm" in seen
    assert "3 tr in same st" in seen
    assert "The beginning chain of a dc round" in seen
    assert "ch 3 (counts as tr), 2 tr in same st" in seen
    assert "UK crochet terms (written in US terms)" in seen
    term = page.locator(".we-words abbr", has_text="tr").first
    assert term.get_attribute("title") == "treble"
    assert page.url.endswith("?terms=uk")
    page.locator(TERMS).select_option("us")
    assert page.evaluate(SEEN) == built


@pytest.mark.parametrize("slug", PATTERNS)
def test_every_row_is_in_the_other_terms(window: Page, slug: str) -> None:
    """As the row itself is put into them through the parser's columns, stitch by stitch."""
    ready = PATTERNS[slug]
    window.goto(f"{address(slug)}?terms=uk")
    terms = window.evaluate("""() => [...document.querySelectorAll(".we-words")].map(
      one => [...one.querySelectorAll("abbr")].map(two => two.innerText))""")
    wanted = [
        [
            in_terms(one.name, "uk")
            for one in row.row.terms
            if meaning(one.name, "us") and one.name != "sl st"
            if not (stated and one.start >= stated.start)
        ]
        for row in rows_of(ready)
        for stated in (row.row.stated,)
    ]
    stitches = {name for names in wanted for name in names}
    found = [[name for name in names if name in stitches] for names in terms]
    window.goto(address(slug))
    assert any(found)
    assert found == wanted
