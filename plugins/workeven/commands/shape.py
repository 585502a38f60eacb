"""``workeven shape``: increases or decreases along a length, for a designer with a pencil.

Takes     the words of the command.
Gives     ``add_shape``; a ``Report``.
Problems  none of its own: what does not fit is said in a sentence on standard error.
From      the guide, "On the command line"; the arithmetic is that of ``arithmetic.shaping.rates``.
"""

from __future__ import annotations

import argparse
import json
from typing import Any, Literal

from workeven.arithmetic.shaping import CURVES, Plan, ShapingFault, between, in_stages
from workeven.arithmetic.shaping.words import (
    leave_words,
    rows_even,
    stage_words,
    words_of_plan,
)
from workeven.commands.answer import (
    OK,
    CannotRun,
    Report,
    add_format,
    add_worked,
    numbered,
    one_of,
    whole_number,
)

#: the ends of a row
_BOTH = 2
#: options that say the same thing in two ways
_APART = {
    "--spread": ("--ends", "--leave", "--stages"),
    "--stages": ("--leave", "--curve", "--every-second-row", "--straight-end"),
    "--curve": ("--every-second-row", "--straight-end"),
}


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
        type=one_of(("1", "2")),
        metavar="N",
        help="stitches that each shaped row changes: at both ends, or at one (default: 2); with "
        "--stages: at the ends, and not evenly over the row",
    )
    shape.add_argument(
        "--spread",
        type=whole_number,
        metavar="STS",
        help="stitches that each shaped row changes, spread evenly over it (a crown, a circle)",
    )
    shape.add_argument(
        "--curve",
        type=one_of(CURVES),
        default="even",
        metavar="CURVE",
        help="even; quick first: an armhole or a neck; cap: a sleeve cap (default: even)",
    )
    shape.add_argument(
        "--leave",
        type=whole_number,
        default=0,
        metavar="STS",
        help="stitches left unworked in the first row, at each end or at one",
    )
    shape.add_argument(
        "--stages",
        type=whole_number,
        metavar="N",
        help="shape in N rows that change many stitches each (a round yoke)",
    )
    shape.add_argument(
        "--multiple",
        type=whole_number,
        default=1,
        metavar="STS",
        help="with --stages: each changes a multiple of these",
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
    _check_apart(options)
    at_ends = options.ends is not None
    options.ends = int(options.ends or _BOTH)
    try:
        if options.stages is not None:
            return _in_stages(options, at_ends=at_ends)
        return _along(options)
    except ShapingFault as fault:
        raise CannotRun(f"{fault.found} {fault.mend}") from None


def _along(options: argparse.Namespace) -> Report:
    """A slope: at one rate or two, or along a curve."""
    rounds = options.worked != "flat rows"
    parts = _parts(options)
    planned = Plan(
        rates=tuple(rate for part in parts for rate in part.rates),
        plain=sum(part.plain for part in parts),
    )
    words = words_of_plan(
        planned, _change(options), ends=options.ends, rounds=rounds, spread=options.spread
    )
    if options.leave:
        place = "each end" if options.ends == _BOTH else "same edge"
        words = "\n".join(filter(None, (leave_words(str(options.leave), place), words)))
    if options.format == "json":
        rates = [{"every": rate.every, "times": rate.times} for rate in planned.rates]
        left = {"leave": options.leave} if options.leave else {}
        return _json({**left, "plan": rates, "plain": planned.plain, "words": words})
    return Report(text="\n".join([words, _in_all(planned, options)]), status=OK)


def _in_stages(options: argparse.Namespace, *, at_ends: bool) -> Report:
    """A few rows that change many stitches each."""
    if options.start is None or options.end is None:
        raise CannotRun("Stages are planned from `--from` and `--to`.")
    row = "row" if options.worked == "flat rows" else "rnd"
    if at_ends and row == "rnd":
        raise CannotRun("A round has no ends: leave out `--ends`.")
    ends = options.ends if at_ends else 1
    stages = in_stages(
        options.start, options.end, options.over, options.stages, multiple=options.multiple * ends
    )
    parts: list[str] = []
    there = options.start
    for stage in stages:
        if not at_ends and options.end < options.start and 2 * stage.change > there:
            raise CannotRun(f"{stage.change} decreases do not fit into {there} stitches.")
        there = stage.sts
        if stage.rows > 1:
            parts.append(rows_even((stage.rows - 1,), row))
        ends_or_none = options.ends if at_ends else None
        change = stage_words(_change(options), (stage.change,), ends=ends_or_none, row=row)
        parts.append(f"{change} ({stage.sts} sts)")
    words = "\n".join(parts)
    if options.format == "json":
        told = [{"rows": one.rows, "change": one.change, "sts": one.sts} for one in stages]
        return _json({"stages": told, "words": words})
    return Report(text=words, status=OK)


def _json(found: dict[str, object]) -> Report:
    return Report(text=json.dumps(found, ensure_ascii=False, indent=2), status=OK)


def _check_apart(options: argparse.Namespace) -> None:
    """What cannot stand together."""
    given = {
        "--ends": options.ends is not None,
        "--spread": options.spread is not None,
        "--stages": options.stages is not None,
        "--leave": bool(options.leave),
        "--curve": options.curve != "even",
        "--every-second-row": options.every_second_row,
        "--straight-end": options.straight_end,
    }
    for one, others in _APART.items():
        both = [other for other in others if given[one] and given[other]]
        if both:
            raise CannotRun(f"`{one}` and `{both[0]}` do not go together: leave one of them out.")
    if options.leave and options.worked != "flat rows":
        raise CannotRun("Stitches are left at the ends of flat rows: a round has no ends.")
    if options.multiple != 1 and options.stages is None:
        raise CannotRun("`--multiple` is that of `--stages`: say how many there are.")


def _parts(options: argparse.Namespace) -> tuple[Plan, ...]:
    """The plans one after the other, from two counts or from a number of shaped rows."""
    start, end, times = options.start, options.end, options.times
    changed = options.ends if options.spread is None else options.spread
    left = options.leave * options.ends
    if times is not None and (start is not None or end is not None):
        raise CannotRun("Give `--times`, or `--from` and `--to`: not both.")
    if times is not None:
        # so many shaped rows, whatever the counts: as many as lead to none
        start, end = left + times * changed, 0
    if start is None and end is None:
        raise CannotRun("Say what is shaped: `--from` and `--to`, or `--times`.")
    if start is None or end is None:
        missing, other = ("--from", "--to") if start is None else ("--to", "--from")
        raise CannotRun(f"`{missing}` is missing: `{other}` alone says nothing of the shaping.")
    return between(
        (start, end),
        options.over,
        changed=changed,
        leave=left or None,
        curve=options.curve,
        every_second_row=options.every_second_row,
        straight_end=options.straight_end,
    )


def _change(options: argparse.Namespace) -> Literal["inc", "dec", "inc or dec"]:
    """What is done, as far as it was said."""
    if options.start is None:
        return "inc or dec"
    return "inc" if options.end >= options.start else "dec"


def _in_all(planned: Plan, options: argparse.Namespace) -> str:
    """The sums with which the plan can be checked."""
    before = 1 if options.leave else 0
    shaped = [before + number for number in planned.shaped()]
    row = "row" if options.worked == "flat rows" else "round"
    told = [numbered(before + planned.rows, row), f"{numbered(planned.times, row)} shaped"]
    if options.end is not None:
        told.append(f"from {options.start} to {options.end} sts")
    lines = [f"In all {', '.join(told)}."]
    if shaped:
        lines.append(f"Shaped {row}s: {', '.join(map(str, shaped))}.")
    return "\n".join(lines)
