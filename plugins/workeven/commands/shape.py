"""``workeven shape``: increases or decreases along a length, for a designer with a pencil.

Takes     the words of the command.
Gives     ``add_shape``; a ``Report``.
Problems  none of its own: what does not fit is said in a sentence on standard error.
From      the guide, "On the command line"; the arithmetic is that of ``arithmetic.shaping.rates``.
"""

from __future__ import annotations

import argparse
import json
from typing import TYPE_CHECKING, Any, Literal

from workeven.commands.answer import (
    OK,
    CannotRun,
    Report,
    add_format,
    add_worked,
    numbered,
    whole_number,
)

if TYPE_CHECKING:
    from workeven.arithmetic.shaping import Plan


def add_shape(commands: argparse._SubParsersAction[Any]) -> None:
    """The command and its options."""
    shape = commands.add_parser(
        "shape",
        allow_abbrev=False,
        help="plan shaping along a length",
        description="Say every how many rows to increase or decrease, so that shaped rows are "
        "spread evenly over a length: at one rate, or at two that differ by one row. "
        "Exit status: 0 planned, 2 it does not fit.",
    )
    shape.add_argument("--from", dest="start", type=whole_number, metavar="STS")
    shape.add_argument("--to", dest="end", type=whole_number, metavar="STS")
    shape.add_argument(
        "--times", type=whole_number, metavar="N", help="shaped rows, in place of --from and --to"
    )
    shape.add_argument("--over", type=whole_number, required=True, metavar="ROWS")
    shape.add_argument(
        "--ends",
        type=int,
        choices=(1, 2),
        default=2,
        help="stitches that each shaped row changes: at both ends, or at one (default: 2)",
    )
    shape.add_argument(
        "--every-second-row",
        action="store_true",
        help="shape on every second row only, such as the right-side rows",
    )
    shape.add_argument(
        "--straight-end", action="store_true", help="leave an interval plain at the end"
    )
    add_worked(shape)
    add_format(shape)
    shape.set_defaults(run=_shape)


def _shape(options: argparse.Namespace) -> Report:
    from workeven.arithmetic.shaping import ShapingFault, plan
    from workeven.arithmetic.shaping.words import words_of_plan

    try:
        planned = plan(
            _times(options),
            options.over,
            every_second_row=options.every_second_row,
            straight_end=options.straight_end,
        )
    except ShapingFault as fault:
        raise CannotRun(f"{fault.found} {fault.mend}") from None
    rounds = options.worked != "flat rows"
    words = words_of_plan(planned, _change(options), ends=options.ends, rounds=rounds)
    if options.format == "json":
        rates = [{"every": rate.every, "times": rate.times} for rate in planned.rates]
        written = {"plan": rates, "plain": planned.plain, "words": words}
        return Report(text=json.dumps(written, ensure_ascii=False, indent=2), status=OK)
    return Report(text="\n".join([words, _in_all(planned, options)]), status=OK)


def _times(options: argparse.Namespace) -> int:
    """How many rows are shaped."""
    from workeven.arithmetic.shaping import steps_between

    start, end, times = options.start, options.end, options.times
    if times is not None and (start is not None or end is not None):
        raise CannotRun("Give `--times`, or `--from` and `--to`: not both.")
    if times is not None:
        return int(times)
    if start is None and end is None:
        raise CannotRun("Say what is shaped: `--from` and `--to`, or `--times`.")
    if start is None or end is None:
        missing, other = ("--from", "--to") if start is None else ("--to", "--from")
        raise CannotRun(f"`{missing}` is missing: `{other}` alone says nothing of the shaping.")
    return steps_between(start, end, options.ends)


def _change(options: argparse.Namespace) -> Literal["inc", "dec", "inc or dec"]:
    """What is done, as far as it was said."""
    if options.start is None:
        return "inc or dec"
    return "inc" if options.end >= options.start else "dec"


def _in_all(planned: Plan, options: argparse.Namespace) -> str:
    """The sums with which the plan can be checked."""
    shaped = planned.shaped()
    row = "row" if options.worked == "flat rows" else "round"
    told = [numbered(planned.rows, row), f"{numbered(planned.times, row)} shaped"]
    if options.end is not None:
        told.append(f"from {options.start} to {options.end} sts")
    lines = [f"In all {', '.join(told)}."]
    if shaped:
        lines.append(f"Shaped {row}s: {', '.join(map(str, shaped))}.")
    return "\n".join(lines)
