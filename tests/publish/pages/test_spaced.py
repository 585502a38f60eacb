"""What is spread evenly is told stitch by stitch on the page."""

from __future__ import annotations

from tests.support.as_read import as_read
from tests.support.pattern_files import GOOD, outcome
from workeven.proof import into_rows
from workeven.publish.pages.spaced import sentence


def _told(rows: str, worked: str = "flat rows") -> list[str]:
    """The sentences of the rows of a mat of 32 (38, 44) stitches."""
    start = GOOD.index("        rows: |\n          ch {mat_sts")
    end = GOOD.index("finishing:")
    written = "".join(f"          {row}\n" for row in rows.splitlines())
    text = f"{GOOD[:start]}        rows: |\n{written}{GOOD[end:]}"
    text = text.replace("multiple: 6, plus: 1", "multiple: 6, plus: 2")
    text = text.replace("  length: 20 (24, 27) cm\n", "")
    text = text.replace("worked: flat rows", f"worked: {worked}")
    ready = outcome(text).ready
    assert ready is not None
    (piece,) = ready.proven.pieces
    intos = into_rows(ready.proven.graded, piece)
    names = ready.pattern.sizes.names
    return [
        as_read(sentence(row, into, names, flat=worked == "flat rows", terms="us"))
        for row, into in zip(piece.sections[0].rows, intos, strict=True)
    ]


CAST_ON = "ch {mat_sts + 1}\nsc in 2nd ch from hook and in each ch across, turn\n"


def test_a_row_tells_each_size_where_its_changes_stand() -> None:
    """32 (38, 44) sts less 4: intervals of 8, 9 and 10, and 11, half of one at both ends."""
    told = _told(CAST_ON + "ch 1, sc in each st across, dec 4 sts evenly, turn")
    assert ["", ""] == told[:2]
    assert told[2].startswith("Evenly: S: sc 3, sc2tog, [sc 6, sc2tog] 3 times, sc 3; M: ")


def test_of_several_rounds_the_first_is_told() -> None:
    """32 (38, 44) sts, 4 fewer every second round: each 8th (9th and 10th, 11th) stitch."""
    rows = "ch {mat_sts}, join with sl st to first ch\nch 1, sc in each ch around, join\n"
    told = _told(rows + "dec 4 sts evenly every 2nd rnd 3 times", "joined rounds")
    first = "Evenly, in the first shaped one of these: S: [sc 6, sc2tog] 4 times; "
    assert told[2].startswith(first)


def test_what_is_said_in_the_row_needs_no_more() -> None:
    """A row of its own words, and one that changes its ends, say where."""
    rows = CAST_ON + "ch 1, sc2tog, sc in each st to last 2 sts, sc2tog, turn\n"
    assert not any(_told(rows + "dec 1 st at each end every row twice"))
