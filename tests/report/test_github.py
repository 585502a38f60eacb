"""Annotations and the summary for a host of checks."""

from __future__ import annotations

import re
from html.parser import HTMLParser

from tests.report.hostile import CANARY, HOSTILE, SPAN, commands, invisible
from workeven.problems import Problem
from workeven.records import replace
from workeven.report.github import MOST, SUMMARY_BYTES, annotated, summary

PLAIN = Problem(
    code="row-uneven",
    span=replace(SPAN, file="patterns/mat/pattern.yaml"),
    piece="Mat",
    row="Row 3",
    found="100 % of 6 sts.",
    expected="The repeat takes 4 sts.",
)
ADVICE = replace(PLAIN, code="count-unused", row=None, found="Not used.")


def test_an_annotation_is_the_command_that_the_host_documents() -> None:
    """Place, title and message; the column behind the stretch becomes the last within."""
    first = annotated([PLAIN], "1 pattern").splitlines()[0]
    assert first == (
        "::error file=patterns/mat/pattern.yaml,line=8,endLine=8,col=5,endColumn=8,"
        "title=row-uneven%2C Mat%2C Row 3"
        "::Mat, Row 3: 100 %25 of 6 sts.%0AThe repeat takes 4 sts."
    )


def test_a_file_says_nothing_to_the_log() -> None:
    """Each problem is one command, begun by us; nothing else in the log is one."""
    many = [HOSTILE] * (MOST + 3)
    log = annotated(many, "1 pattern")
    begun = [line.split(" ")[0] for line in commands(log)]
    assert begun == ["::error"] * MOST + ["::notice"]
    assert invisible(log) == []


def test_a_property_ends_only_where_we_end_it() -> None:
    """Colons and commas of a path are escaped, so that no property can be added."""
    first = annotated([HOSTILE], "1 pattern").splitlines()[0]
    properties = first.removeprefix("::error ").split("::")[0].split(",")
    names = [one.split("=")[0] for one in properties]
    assert names == ["file", "line", "endLine", "col", "endColumn", "title"]
    assert properties[0] == "file=patterns/a%2Cb%3Ac/pattern.yaml"


def test_errors_stand_before_advice_and_no_more_than_are_shown() -> None:
    """What is beyond the host's limit is counted in one notice and told as plain text."""
    log = annotated([ADVICE] * 12 + [PLAIN] * 11, "1 pattern").splitlines()
    kinds = [line.split(" ")[0] for line in commands("\n".join(log))]
    assert kinds == ["::error"] * 10 + ["::notice"] * 10
    closing = [line for line in log if line.startswith("::notice title=workeven::")]
    more = "1 error and 3 pieces of advice. They stand in the log."
    assert closing == [f"::notice title=workeven::Not shown beside their lines: {more}"]
    assert len([line for line in log if line.startswith("patterns/mat/pattern.yaml:8:5: ")]) == 4
    assert log[-1] == "1 pattern: 11 errors and 12 pieces of advice."


class Seen(HTMLParser):
    """The tags of a page and the text between them."""

    def __init__(self, page: str) -> None:
        super().__init__()
        self.tags: list[str] = []
        self.text = ""
        self.feed(page)

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        """Keep the tag."""
        del attrs
        self.tags.append(tag)

    def handle_data(self, data: str) -> None:
        """Keep the text."""
        self.text += data


def test_the_summary_shows_what_a_file_says_and_does_nothing() -> None:
    """All of it stands within pre, in one stretch of HTML that no empty line ends."""
    written = summary([HOSTILE], "1 pattern")
    assert set(Seen(written).tags) == {"table", "tr", "td", "pre"}
    assert "<script>alert(1)</script>" in Seen(written).text
    head, _, rest = written.partition("<table>\n")
    assert head == "### workeven check\n\n1 pattern: 1 error.\n\n"
    lines = rest.split("</table>")[0].splitlines()
    assert [line[:4] for line in lines] == ["<tr>"]
    outside = re.sub(r"<pre>.*?</pre>", "", written)
    assert [word for word in CANARY.split() if len(word) > 4 and word in outside] == []
    assert invisible(written) == []


def test_a_summary_stays_within_the_room_there_is() -> None:
    """As many problems as fit are shown and the others counted."""
    many = [PLAIN] * 20_000
    written = summary(many, "1 pattern")
    shown = written.count("<tr>") - 1
    assert 0 < len(written.encode()) <= SUMMARY_BYTES
    assert f">{20_000 - shown} more: see the log.<" in written
    assert summary(many, "1 pattern", 40) == ""


def test_a_good_collection_is_summed_up_in_a_sentence() -> None:
    """There is no empty table."""
    assert summary([], "3 patterns") == "### workeven check\n\n3 patterns: no problems.\n\n"
