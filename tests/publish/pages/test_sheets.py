"""What stands at the foot of a sheet is a string that nothing can end.

Escapes are read by CSS Syntax Level 3, "Consume an escaped code point".
"""

from __future__ import annotations

import re

from tests.publish.samples import mitts
from workeven.publish.pages.sheets import foot


def strings(style: str) -> list[str]:
    """The strings of the style, read as CSS does: an escape is up to six digits and one space."""
    found = re.findall(r'"([^"]*)"', style)
    return [re.sub(r"\\([0-9a-f]{1,6}) ", lambda code: chr(int(code[1], 16)), one) for one in found]


def test_a_sheet_names_pattern_version_and_size() -> None:
    """The size by its place among the page's, as it is chosen."""
    style = str(foot(mitts().pattern))
    assert re.findall(r'data-size="(\d)"', style) == ["0", "1", "2"]
    told = strings(re.sub(r"\[.*?\]", "", style))
    assert told == ["Sandhopper Mitts, version 1.0", ", size S", ", size M", ", size L"]


def test_no_sign_of_a_title_means_anything_there() -> None:
    """Neither to the style nor to HTML."""
    title = 'a"} </style>\\ \n{}@import é網'
    style = str(foot(mitts(title=title).pattern))
    assert strings(re.sub(r"\[.*?\]", "", style))[0] == f"{title}, version 1.0"
    assert style.count("<") == 2
    assert "@" not in style
