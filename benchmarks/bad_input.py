"""Rows that nobody should write: they are refused, or counted, and quickly so.

Takes     nothing.
Gives     ``BAD``: rows by what is wrong with them.
Problems  none: whether each has its message is a matter of the tests.
From      DEVELOPERS.md, "Measured".
"""

from __future__ import annotations

#: the longest row that is read
LONGEST = 10_000


def _filled(phrase: str) -> str:
    """A phrase so often that the row is as long as rows may be."""
    return (phrase * (LONGEST // len(phrase)))[:LONGEST].strip()


BAD: dict[str, str] = {
    # brackets and stars that find no other half
    "brackets opened only": _filled("["),
    "brackets closed only": _filled(")"),
    "round and square in turn": _filled("([sc, "),
    "brackets of every kind": _filled("[sc (2, {dc} "),
    "braces opened only": _filled("{back_sts + "),
    "stars only": _filled("*"),
    "repeats never called for": _filled("*sc in next st, "),
    "double stars": _filled("** sc, "),
    "nested repeats without end": _filled("[sc in next st, ch 1, *"),
    "nested as deep as it goes": "[sc 1, " * 12 + "ch 1" + "] 9 times" * 12,
    "times in front without end": _filled("2x ("),
    # repeats that take nothing, or never fit
    "a repeat that takes nothing": "ch 1, *ch 1; rep from * around",
    "a bracket that takes nothing": "ch 1, [ch 2, ch 3] across, sc in each st across",
    "a repeat of repeats that take nothing": "[[[ch 1] 9 times] 9 times] around",
    "a repeat that never fits": "ch 1, *sc in next 7 sts, sk 4 sts; rep from * across",
    "a repeat worked ever so often": "[sc 1] 999999999 times",
    # numbers
    "less than none left": "ch 1, sc in each st to last -3 sts",
    "the last of none": "ch 1, sc in last 0 sts",
    "more stitches than there are": "ch 1, sc in next 999999999 sts",
    "a run told one by one": "ch 3, dc in same st, dc in next 999999999 sts, *2 dc in next st; "
    "rep from * around, join to first dc",
    "a number of ten thousand digits": "ch 1, sc in next " + "9" * (LONGEST - 100) + " sts",
    "numbers without words": _filled("9 "),
    "a list by size without end": "ch 80 (" + _filled("88, ")[: LONGEST - 100] + ")",
    # rows that are not there
    "a later row": "ch 1, sc in each st across\nrep Row 7",
    "itself": "Row 1: rep Row 1 until there are 159 sc",
    "a range that runs back": "ch 1, sc in each st across\nrep Rows 5-2",
    "rows that name each other": "Rows 1-9: rep Rows 2 and 3\nRows 2-3: rep Rows 1-9 9999 times",
    "listed beside millions": "Rows 1, 3: ch 1, sc in each st across\nRow 2: ch 1, sc in each st "
    "across\nRows 4-2000000000: rep Row 2",
    "listed without end": f"Rows {_filled('1, ')[:-1]}: ch 1, sc in each st across",
    "listed, each row": f"Rows {', '.join(map(str, range(1, 999, 2)))}: ch 1, sc in each st\n"
    f"Rows {', '.join(map(str, range(2, 999, 2)))}: ch 1, sc2tog, sc in each st",
    "ever more rows": "ch 1, sc in each st across\nrep last row 9999 more times\n"
    "rep Rows 1-9999 9999 more times",
    "until there are so many": "ch 1, 2 sc in first st, sc in each st across\n"
    "rep last row until there are 999999 sc",
    # ten thousand characters
    "stitches without end": _filled("sc, "),
    "phrases without end": _filled("sc in next 2 sts, "),
    "joined by and": _filled("sc in next st and in next st and "),
    "increases and decreases": _filled("inc, dec, "),
    "chains without end": _filled("ch "),
    "counts without end": _filled("Turn. 24 dc. "),
    "rows in a note": "Note: " + _filled("Row 7: With ")[:-6],
    "shells without end": _filled("(2 dc, ch 2, 2 dc) in next st, sk 2 sts, "),
    "words of no meaning": _filled("lorem ipsum "),
    "one word": _filled("s"),
    "hyphens": _filled("sc-"),
    "apostrophes": _filled("sc'"),
    "one word behind a comma": "Ring, " + _filled("sc'")[:-6],
    "names of parts": _filled("Shape neck, first ")[:-1] + ":",
    "ordinals": _filled("4th ch of "),
    "articles": _filled("the "),
    "blanks": "sc" + " " * (LONGEST - 4) + "sc",
    "colons": _filled("row: "),
    "rep from": _filled("rep from * "),
    "working behind": _filled("working behind petals of "),
    "in each": _filled("in each st and in each "),
    "too long": "sc, " * LONGEST,
}
