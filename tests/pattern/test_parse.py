"""A whole file to a pattern, and to a studio."""

from __future__ import annotations

from fractions import Fraction

import pytest

from tests.support.pattern_files import GOOD
from tests.support.reading import FILE, SMALL, added, changed, good, one, parsed, placed
from workeven import pattern, source
from workeven.pattern import NO_STUDIO, Studio
from workeven.problems import Checked
from workeven.records import replace


def studio(text: str) -> Checked[Studio]:
    """What becomes of a studio's file."""
    read = source.read("patterns/studio.yaml", text.encode("utf-8"))
    assert read.value is not None
    return pattern.parse_studio(read.value)


def test_the_good_pattern_of_the_tests_is_good() -> None:
    """Everything that the other tests change is right before it is changed."""
    assert ((), ()) == (parsed(GOOD).problems, parsed(SMALL).problems)


def test_a_pattern_goes_by_its_folder() -> None:
    """Its file is named as it was given."""
    found = good(SMALL)
    assert ("sand-mat", FILE) == (found.slug, found.file)


def test_what_stands_at_the_top_is_on_the_pattern() -> None:
    """All that a page says."""
    found = good(
        added(
            "story: >-\n  Two lines\n  of story.\ntags: [mat, round]\nlevel: easy\n"
            "designers: Nell Marramgrass\nversion: 1.10\npublished: 2026-11-02\n"
            "changes:\n  - {version: 1.10, date: 2026-11-02, text: First.}\n"
            "licence: CC BY 4.0\ncare: Dry flat.\nassembly: [Sew., Press.]\nfinishing: Weave in.\n"
            "notions:\n  - {kind: button, amount: 6, at: front}\neach_chain_counts: yes\n"
            "allow:\n  size-falls: On purpose.\n"
        )
    )
    assert ("Two lines of story.", ("mat", "round"), "Easy", ("Nell Marramgrass",)) == (
        found.story,
        found.tags,
        found.level,
        found.designers,
    )
    assert ("1.10", "2026-11-02", "First.") == (
        found.version,
        found.published,
        found.changes[0].text,
    )
    assert (["Sew.", "Press."], ["Weave in."]) == (
        [text.text for text in found.assembly],
        [text.text for text in found.finishing],
    )
    assert (True, (("size-falls", "On purpose."),)) == (found.each_chain_counts, found.allow)
    (notion,) = found.notions
    assert ("button", (6, 6, 6), "front") == (notion.kind, notion.amount.values, notion.at)


def test_a_pattern_for_children_says_their_ages() -> None:
    """Cautions hang on them."""
    text = changed(("audience: adult", "audience: child"))
    problem = one(text)
    assert ("file-key-missing", 3, 1) == (problem.code, problem.span.line, problem.span.column)
    ages = good(f"{text}ages: 3 to 6 years\n").ages
    assert ages is not None
    assert ("3 to 6 years", 36, 83) == (ages.text, ages.youngest, ages.oldest)


def test_what_the_studio_says_once_holds_for_its_patterns() -> None:
    """Unless the pattern says it itself."""
    ours = replace(NO_STUDIO, licence="CC BY 4.0", copyright="© 2026", terms="uk")
    uk = (
        SMALL.replace(" sc in", " dc in")
        .replace("of: sc", "of: dc")
        .replace("      sc", "      dc")
    )
    found = good(f"{uk}licence: CC0\n", ours)
    assert ("uk", "CC0", "© 2026") == (found.terms, found.licence, found.copyright)


def test_stitches_of_the_studio_are_read_and_need_not_be_worked() -> None:
    """A studio has more stitches than a pattern works."""
    found = studio("name: Tidewrack\nstitches:\n  fan: 3 dc in same st\n  lip: 2 dc in same st\n")
    assert found.value is not None
    good(changed(("inc around", "fan in each st around")), found.value)


def test_a_file_with_a_mistake_still_gives_what_can_be_made() -> None:
    """Later stages find more; where a record cannot be made there is none."""
    assert parsed(changed(("inc around", "frogs around"))).value is not None
    assert parsed(changed(("sts: 16", "sts: many"))).value is None


@pytest.mark.parametrize(
    ("old", "new", "given"),
    [
        ("use: [home]", "use: [home]\nfinishng: x", True),
        ("use: [home]", "use: [home]\ncollars: x", True),
        ("rows: 18", "row: 18", False),
        ("worked: spiral", "make:\n    worked: spiral", False),
        ("use: [home]", "use: [home]\nmesurements: {width: 10 cm}", False),
        ("use: [home]", "use: [home]\ncounts: {sts: {across: width, multple: 6}}", False),
    ],
)
def test_a_slip_on_which_a_number_hangs_ends_the_flow(old: str, new: str, given: bool) -> None:  # noqa: FBT001
    """Else later stages would find rows that do not come out, for want of what was misspelt."""
    assert given == (parsed(changed((old, new))).value is not None)


def test_a_missing_gauge_is_one_message() -> None:
    """Nothing can be graded without one."""
    text = changed(("gauge:\n  ground: {sts: 16, rows: 18, over: 10 cm, of: sc}\n", ""))
    assert [("file-key-missing", 1, 1)] == placed(text)


# --- between the parts ---------------------------------------------------------------------

FILM = 'video: {url: "https://video.example/x", length: "21:30", shown_size: M}\n'


def shown(*times: str) -> str:
    """The small pattern with a section a time."""
    section = '      - title: {}\n        video: "{}"\n        rows: inc around\n'
    return SMALL + "".join(section.format(at, time) for at, time in enumerate(times))


def test_times_rise_with_the_rows() -> None:
    """The same may stand twice."""
    assert () == parsed(shown("1:00", "7:40", "7:40", "21:30") + FILM).problems


@pytest.mark.parametrize(
    ("times", "expected"),
    [
        (("7:40", "1:00"), ("video-order", 29, 16)),
        (("21:31",), ("video-beyond", 26, 16)),
        (("7.40",), ("video-time", 26, 16)),
    ],
)
def test_a_time_that_cannot_be_right(
    times: tuple[str, ...], expected: tuple[str, int, int]
) -> None:
    """It falls back, lies behind the end, or is no time."""
    assert [expected] == placed(shown(*times) + FILM)


def test_times_without_a_film_are_one_message() -> None:
    """At the first of them."""
    assert [("video-missing", 26, 16)] == placed(shown("1:00", "7:40"))


def test_a_time_of_a_row_is_among_the_others() -> None:
    """It comes behind that of its section, and before that of the next."""
    row = "inc around\n        row_notes:\n          Edge: {video: '0:30'}\n"
    text = changed(("inc around\n", f"Edge: {row}")).replace("- title: Mat", "- video: '1:00'")
    assert [("video-order", 26, 25)] == placed(text + FILM)


@pytest.mark.parametrize(
    ("line", "expected"),
    [
        ('video: {url: "https://video.example/x", shown_size: XL}', ("size-unknown", 25, 53)),
        ('video: {url: "https://video.example/x", time_link: "?t="}', ("video-no-seconds", 25, 52)),
        ("allow:\n  row-uneven: No.", ("file-allow-error", 26, 3)),
        ("allow:\n  size-fall: No.", ("name-unknown", 26, 3)),
    ],
)
def test_what_does_not_fit_to_the_rest(line: str, expected: tuple[str, int, int]) -> None:
    """A size that is not made, a link without seconds, an error or nothing to be allowed."""
    assert [expected] == placed(added(line))


# --- the studio ----------------------------------------------------------------------------


def test_a_studio_says_its_name_at_least() -> None:
    """All else has a usual value."""
    found = studio("name: Tidewrack Studio\n")
    assert replace(NO_STUDIO, name="Tidewrack Studio") == found.value


def test_a_studio_has_links_inside_the_site_and_outside() -> None:
    """And its own units, terms and tolerance."""
    found = studio(
        "name: T\nunits: in\nterms: uk\ntolerance: 1 cm\nlinks:\n"
        "  - {text: About, url: about.md}\n  - {text: Post, url: 'https://t.example/post?x=1#y'}\n"
    ).value
    assert found is not None
    assert ("in", "uk", Fraction(10)) == (found.units, found.terms, found.tolerance)
    assert ["about.md", "https://t.example/post?x=1#y"] == [link.url for link in found.links]


@pytest.mark.parametrize(
    ("text", "expected"),
    [
        ("summary: x\n", ("file-key-missing", 1, 1)),
        ("name: T\nunit: cm\n", ("file-key-unknown", 2, 1)),
        ("name: T\nunits: mm\n", ("file-choice", 2, 8)),
        ("name: T\nlinks: [{text: x, url: 'mailto:x@t.example'}]\n", ("link-address", 2, 24)),
        ("name: T\nlinks: [{text: x, url: '//t.example'}]\n", ("link-address", 2, 24)),
        ("name: T\ntolerance: 5\n", ("unit-length", 2, 12)),
    ],
)
def test_what_is_wrong_in_a_studio(text: str, expected: tuple[str, int, int]) -> None:
    """The same readers, the same messages."""
    problems = studio(text).problems
    assert [expected] == [(one.code, one.span.line, one.span.column) for one in problems]
