"""Regular expressions that are made when they are first asked for."""

from __future__ import annotations

import subprocess
import sys

from workeven.notation.expressions import ignoring_case


def test_a_pattern_is_made_once() -> None:
    """The same text gives the same pattern, for capitals and small letters alike."""
    first = ignoring_case("side of (?:the )?leaf")
    assert (first is ignoring_case("side of (?:the )?leaf"), bool(first.match("Side of leaf"))) == (
        True,
        True,
    )


def test_reading_rows_begins_with_none_made() -> None:
    """What few rows ask for is not made while the reader of rows is loaded."""
    asked = (
        "from workeven.notation import parser; "
        "from workeven.notation.expressions import ignoring_case; "
        "print(ignoring_case.cache_info().currsize)"
    )
    told = subprocess.run([sys.executable, "-c", asked], capture_output=True, text=True, check=True)
    assert told.stdout.strip() == "0"
