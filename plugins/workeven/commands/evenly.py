"""``workeven evenly``: increases, decreases or buttonholes spread over a row or round.

Takes     the words of the command.
Gives     ``add_evenly``; a ``Report``.
Problems  none of its own: what does not fit is said in a sentence on standard error.
From      the guide, "On the command line"; the arithmetic is that of ``arithmetic.shaping.evenly``.
"""

from __future__ import annotations

import argparse
import json
from typing import Any, Literal

from workeven.commands.answer import OK, CannotRun, Report, add_format, add_worked, whole_number

#: stitches whose increases and decreases have a name of their own
STITCHES = ("sc", "hdc", "dc", "tr")


def add_evenly(commands: argparse._SubParsersAction[Any]) -> None:
    """The command and its options."""
    evenly = commands.add_parser(
        "evenly",
        allow_abbrev=False,
        help="spread increases, decreases or buttonholes over a row",
        description="Say where to increase or decrease, or where buttonholes, pockets or stripes "
        "stand, so that they are spread evenly over a row or round. Exit status: 0 spread, 2 it "
        "does not fit.",
    )
    evenly.add_argument("sts", type=whole_number, metavar="STS", help="stitches before the row")
    change = evenly.add_mutually_exclusive_group(required=True)
    change.add_argument("--inc", type=whole_number, metavar="N", help="so many increases")
    change.add_argument("--dec", type=whole_number, metavar="N", help="so many decreases")
    change.add_argument("--holes", type=whole_number, metavar="N", help="so many buttonholes")
    evenly.add_argument(
        "--width", type=whole_number, metavar="STS", help="how wide a buttonhole is (default: 1)"
    )
    evenly.add_argument(
        "--margin",
        type=whole_number,
        metavar="STS",
        help="stitches before the first buttonhole and behind the last (default: half a distance)",
    )
    evenly.add_argument(
        "--stitch",
        type=_stitch,
        default=STITCHES[0],
        help=f"the stitch of the row: {', '.join(STITCHES)} (default: {STITCHES[0]})",
    )
    evenly.add_argument(
        "--multiple",
        type=whole_number,
        metavar="M",
        help="a repeat of so many stitches that is not to be broken",
    )
    add_worked(evenly)
    add_format(evenly)
    evenly.set_defaults(run=_evenly)


def _stitch(word: str) -> str:
    from workeven.commands.answer import one_of

    return one_of(STITCHES)(word)


def _evenly(options: argparse.Namespace) -> Report:
    from workeven.arithmetic.shaping import ShapingFault, by_repeats, evenly
    from workeven.arithmetic.shaping.words import words_of_spacing

    if options.holes is not None:
        return _holes(options)
    if options.width is not None or options.margin is not None:
        raise CannotRun("`--width` and `--margin` are those of `--holes`.")
    change: Literal["inc", "dec"] = "dec" if options.inc is None else "inc"
    number = options.dec if options.inc is None else options.inc
    flat = options.worked == "flat rows"
    whole = None
    try:
        spacing = evenly(options.sts, number, change, flat=flat)
    except ShapingFault as fault:
        raise CannotRun(f"{fault.found} {fault.mend}") from None
    if options.multiple is not None:
        if not options.multiple:
            raise CannotRun("`--multiple` needs a number from 1 on.")
        kept = by_repeats(options.sts, number, change, options.multiple, flat=flat)
        whole, spacing = kept is not None, kept or spacing
    sts = options.sts + (number if change == "inc" else -number)
    words = words_of_spacing(spacing, change, options.stitch)
    if options.format == "json":
        written: dict[str, object] = {
            "edges": list(spacing.edges),
            "intervals": list(spacing.intervals),
            "sts": sts,
            "words": words,
        }
        if whole is not None:
            written["whole_repeats"] = whole
        return Report(text=json.dumps(written, ensure_ascii=False, indent=2), status=OK)
    lines = [words, f"From {options.sts} sts to {sts} sts."]
    if whole is False:
        lines.append(_broken(options.sts, options.multiple, number))
    return Report(text="\n".join(lines), status=OK)


def _holes(options: argparse.Namespace) -> Report:
    """Places of one width, with whole stitches between them."""
    from workeven.arithmetic.shaping import ShapingFault, placed
    from workeven.arithmetic.shaping.words import words_of_holes

    flat = options.worked == "flat rows"
    width = 1 if options.width is None else options.width
    if options.multiple is not None:
        raise CannotRun("`--multiple` is for increases and decreases.")
    if options.margin is not None and not flat:
        raise CannotRun("A round has no ends: leave out `--margin`.")
    try:
        spacing = placed(options.sts, options.holes, width, margin=options.margin, flat=flat)
    except ShapingFault as fault:
        raise CannotRun(f"{fault.found} {fault.mend}") from None
    words = words_of_holes(spacing, width, options.stitch)
    if options.format == "json":
        written = {
            "edges": list(spacing.edges),
            "intervals": list(spacing.intervals),
            "sts": options.sts,
            "words": words,
        }
        return Report(text=json.dumps(written, ensure_ascii=False, indent=2), status=OK)
    left = options.sts - options.holes * width
    told = f"{options.sts} sts: {left} {options.stitch} and {options.holes} ch-{width} sps."
    return Report(text=f"{words}\n{told}", status=OK)


def _broken(sts: int, multiple: int, number: int) -> str:
    """Why the repeats cannot stay whole."""
    repeats = sts // multiple
    return (
        f"Repeats of {multiple} sts are broken: {sts} sts hold {repeats} of them, and each takes "
        f"one change at its end; {number} are asked for."
    )
