"""The mistakes that designers make, a sentence each, and how each of them is made.

Takes     nothing.
Gives     ``MISTAKES``: the sentence of each class and the function that yields its places.
Problems  none.
From      common practice: what technical editors look for in a pattern.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator
from functools import partial

from tests.seeded.making import (
    ONE,
    STEPS,
    Make,
    bigger_group,
    bridge_off,
    copied_from_above,
    counted_not,
    counted_so,
    decrease_too_many,
    digits_swapped,
    first_stitch_worked,
    from_hook,
    increase_too_many,
    join_elsewhere,
    join_to_other,
    of_the_neighbour,
    off_in_all,
    off_in_one_size,
    other_row,
    other_space,
    other_stitch_below,
    range_off,
    reworded,
    row_in_other_stitch,
    row_left_out,
    row_number,
    row_twice,
    rows_swapped,
    run_shortened,
    size_missing,
    size_too_many,
    sizes_other,
    sizes_unsaid,
    skipped_chains_otherwise,
    space_lower,
    star_moved,
    stated_space,
    stated_unit,
    step_left_out,
    step_twice,
    steps_swapped,
    swapped,
    turning_chain_forgotten,
)
from tests.seeded.spans import Slip


def _numbers(make: Callable[..., Iterator[Slip]], *roles: str, **options: int) -> Make:
    return lambda rows: make(rows, *roles, **options)


MISTAKES: tuple[tuple[str, Make], ...] = (
    # stated counts
    ("A stated count is one too high in one size.", _numbers(off_in_one_size, "stated", by=1)),
    ("A stated count is one too low in every size.", _numbers(off_in_all, "stated", by=-1)),
    ("A stated count is ten too high in one size.", _numbers(off_in_one_size, "stated", by=10)),
    ("Two digits of a count or of a starting chain are swapped.", digits_swapped),
    ("The stated count of the row above is copied.", copied_from_above),
    ("The stated counts of two sizes are swapped.", _numbers(swapped, "stated")),
    ("A stated count of one size is that of the next size.", _numbers(of_the_neighbour, "stated")),
    ("A stated count names another stitch.", stated_unit),
    ("A stated count names spaces of another size.", stated_space),
    # lists by size
    ("A size is missing from a list.", size_missing),
    ("A list has a number too many.", size_too_many),
    ("Two sizes are swapped in the numbers of a step.", _numbers(swapped, *STEPS)),
    ("A step of one size has the number of the next size.", _numbers(of_the_neighbour, *STEPS)),
    ("A row for some sizes does not say so.", sizes_unsaid),
    ("A row for some sizes names a size too many or too few.", sizes_other),
    # the starting chain
    (
        "The starting chain is one short in one size.",
        _numbers(off_in_one_size, "starting chain", by=-1),
    ),
    (
        "The starting chain is one too long in one size.",
        _numbers(off_in_one_size, "starting chain", by=1),
    ),
    ("The starting chains of two sizes are swapped.", _numbers(swapped, "starting chain")),
    ("The first row begins a chain too far from the hook.", partial(from_hook, by=1)),
    ("The first row begins a chain too near the hook.", partial(from_hook, by=-1)),
    ("Skipped chains that count are said not to, or the other way.", skipped_chains_otherwise),
    # chains at the start of a row
    ("The turning chain is forgotten.", turning_chain_forgotten),
    ("A chain that counts is said not to count.", counted_not),
    ("A chain that does not count is said to count.", counted_so),
    ("The first stitch is worked although a counted chain stands there.", first_stitch_worked),
    ("A round is joined to a chain that it does not begin with.", join_elsewhere),
    ("A round is joined to a stitch that it does not have.", join_to_other),
    # runs, skips
    ("A run of stitches is one too long in one size.", _numbers(off_in_one_size, "run", by=1)),
    ("A run of stitches is one too short in one size.", _numbers(off_in_one_size, "run", by=-1)),
    ("The number of a run is forgotten.", run_shortened),
    ("A stitch too many is skipped.", _numbers(off_in_one_size, "skip", by=1)),
    ("A stitch too few is skipped.", _numbers(off_in_one_size, "skip", by=-1)),
    (
        "One stitch is skipped where none is: `sk 1 st` for `sk next 2 sts` and so on.",
        lambda rows: reworded(rows, r"\b(sk|skip|miss) (?:1|next) (st|ch)\b", r"\1 2 \2s"),
    ),
    ("A skip is forgotten.", partial(step_left_out, only=r"^\*?(?:sk|skip|miss)\b")),
    # repeats
    ("A repeat is worked once too often in one size.", _numbers(off_in_one_size, "more", by=1)),
    ("A repeat is ended one too early in one size.", _numbers(off_in_one_size, "more", by=-1)),
    (
        "A repeat is worked `twice` for three times, or the other way.",
        lambda rows: reworded(
            rows,
            r"\b(twice|three times)\b",
            lambda found: "three times" if found[0] == "twice" else "twice",
        ),
    ),
    ("`to last 3 sts` for `to last 4 sts`, in one size.", _numbers(off_in_one_size, "last", by=-1)),
    ("`to last 5 sts` for `to last 4 sts`, in one size.", _numbers(off_in_one_size, "last", by=1)),
    (
        "`to last st` for `to last 2 sts`.",
        lambda rows: reworded(rows, r"to last 2 (st|sc|dc|ch)s?\b", r"to last \1"),
    ),
    (
        "A row goes to its end where it should stop before.",
        lambda rows: reworded(
            rows,
            r"to last (?:\d+(?: \([\d, ]+\))* )?(?:sts?|sc|dc|chs?|tr)\b",
            "across" if rows.worked == "flat rows" else "around",
        ),
    ),
    (
        "The last stitches of a row are one too many in one size.",
        _numbers(off_in_one_size, "last run", by=1),
    ),
    ("What follows a repeat is forgotten.", partial(step_left_out, after_repeat=True)),
    ("The star of a repeat stands a step too late.", partial(star_moved, later=True)),
    ("The star of a repeat stands a step too early.", partial(star_moved, later=False)),
    # increases and decreases
    (
        "A decrease is written as a plain stitch.",
        lambda rows: reworded(
            rows, r"\b(sc|hdc|dc|tr)\dtog(?: over next \d sts)?", r"\1 in next st"
        ),
    ),
    ("A decrease too many: two together where one is meant.", decrease_too_many),
    (
        "A decrease takes three together for two.",
        lambda rows: reworded(rows, r"\b(sc|hdc|dc|tr)2tog(?! over)", r"\g<1>3tog"),
    ),
    (
        "An increase is written as a plain stitch.",
        lambda rows: reworded(rows, rf"\b2 ({ONE}) in (next|first|last|each)", r"\1 in \2"),
    ),
    (
        "`inc` is written as a plain stitch.",
        lambda rows: reworded(
            rows,
            r"(?<=[,;\[(*] )inc(?=[,;\])])",
            "dc in next st" if rows.terms == "uk" else "sc in next st",
        ),
    ),
    ("An increase too many: two in a stitch where one is meant.", increase_too_many),
    (
        "An increase is written for a decrease, or the other way.",
        lambda rows: reworded(
            rows, r"\b(inc|dec)\b", lambda found: "dec" if found[0] == "inc" else "inc"
        ),
    ),
    (
        "More stitches are increased or decreased evenly than meant, in one size.",
        _numbers(off_in_one_size, "evenly", by=1),
    ),
    # what is worked into one place
    ("A shell has one stitch too many.", partial(bigger_group, by=1)),
    ("A shell has one stitch too few.", partial(bigger_group, by=-1)),
    # spaces and places
    ("A space is named by a larger size than it has.", other_space),
    ("A space is named by a smaller size than it has.", space_lower),
    (
        "The chain between two stitches is one longer than the next row knows.",
        _numbers(off_in_all, "chain", by=1),
    ),
    ("The chain between two stitches is forgotten.", partial(step_left_out, only=r"^ch \d(?! \()")),
    ("A stitch is named that the row below does not have.", other_stitch_below),
    ("A row is worked in another stitch than the rest says.", row_in_other_stitch),
    ("A bridge of chains is one short.", partial(bridge_off, by=-1)),
    (
        "A bridge of chains counts as more stitches than it has.",
        _numbers(off_in_all, "said bridge", by=1),
    ),
    (
        "A stitch too few is passed by slip stitches at the head of a row.",
        _numbers(off_in_one_size, "travel", by=-1),
    ),
    ("`leave rem sts unworked` is forgotten.", partial(step_left_out, only=r"^leave rem")),
    # steps
    ("A step is left out.", step_left_out),
    ("A step is written twice.", step_twice),
    ("Two steps stand in the wrong order.", steps_swapped),
    # rows
    ("A row number is off by one.", row_number),
    ("A range of rows ends a row early or late.", range_off),
    ("Another row is repeated than meant.", other_row),
    ("A row is left out.", row_left_out),
    ("A row is written twice.", row_twice),
    ("Two rows stand in the wrong order.", rows_swapped),
)
