"""``workeven grade``: how every count was chosen; all sizes reworked from a sample of one.

Takes     the words behind ``grade``.
Gives     ``add_grade``.
Problems  none of its own.
From      the guide, "On the command line".
"""

from __future__ import annotations

import argparse
import re
from typing import TYPE_CHECKING, Any

from workeven.commands.answer import (
    ERRORS,
    OK,
    CannotRun,
    Report,
    add_format,
    one_pattern,
    our_bug,
    status_of,
    told_errors,
)
from workeven.problems.words import did_you_mean, joined, quote

if TYPE_CHECKING:
    from workeven.grading import GradedPattern

GRADE_FORMATS = ("text", "json", "csv")
_ONE = re.compile(r"([A-Za-z]\w*)\s*[:=]?\s+(\d{1,6})")


def add_grade(commands: argparse._SubParsersAction[Any]) -> None:
    """The words of the command."""
    grade = commands.add_parser(
        "grade",
        allow_abbrev=False,
        help="show how counts were chosen",
        description="Show every count of every size: the wanted length and its formula, the exact "
        "stitches, those chosen and by which rule, what they measure. With --keep and --sample, "
        "rework all sizes from the finished counts of one. Exit status: 0 all is well, 1 there "
        "are errors, 2 could not run.",
    )
    grade.add_argument("pattern", metavar="PATTERN", help="a pattern's folder or its file")
    grade.add_argument("--keep", metavar="SIZE", help="the size of a sample that fits")
    grade.add_argument(
        "--sample", metavar="COUNTS", help='its counts, such as "back_sts 92, sleeve_sts 48"'
    )
    add_format(grade, GRADE_FORMATS)
    grade.set_defaults(run=_grade)


def _grade(options: argparse.Namespace) -> Report:
    from workeven import pipeline
    from workeven.report import grade_table, text

    if (options.keep is None) != (options.sample is None):
        raise CannotRun("`--keep` and `--sample` go together: a size, and its finished counts.")
    collection, one = one_pattern(options.pattern)
    with our_bug(one.file):
        graded = pipeline.graded(one.file, one.studio)
    if graded.value is None:
        return told_errors((*collection.problems, *graded.problems))
    if options.sample is not None:
        with our_bug(one.file):
            return _rework(options, graded.value)
    with our_bug(one.file):
        if options.format == "text":
            problems = text.in_order(graded.problems)
            told = [text.problem_text(problem) for problem in problems]
            written = "\n".join([grade_table.as_text(graded.value), *(["", *told] if told else [])])
        else:
            write = grade_table.as_json if options.format == "json" else grade_table.as_csv
            written = write(graded.value)
    return Report(text=written, status=status_of(graded.problems))


def _rework(options: argparse.Namespace, graded: GradedPattern) -> Report:
    """All sizes from the finished counts of one."""
    from workeven.proof import sampled
    from workeven.report import reworked

    if options.format == "csv":
        raise CannotRun("`--sample` is answered as text or json.")
    names = graded.pattern.sizes.names
    if options.keep not in names:
        hint = did_you_mean(options.keep, names) or f"Sizes: {joined(map(quote, names))}."
        raise CannotRun(f"There is no size called {quote(options.keep)}. {hint}")
    size = names.index(options.keep)
    sample = _sample(options.sample, tuple(graded.counts))
    for name, number in sample.items():
        if refused := sampled.refusal(graded, size, name, number):
            raise CannotRun(refused)
    found = sampled.rework(graded, size, sample)
    as_json = options.format == "json"
    written = reworked.as_json(found) if as_json else reworked.as_text(found, options.keep)
    barren = any(one.barren for one in found.values())
    return Report(text=written, status=ERRORS if barren else OK)


def _sample(text: str, names: tuple[str, ...]) -> dict[str, int]:
    """``back_sts 92, sleeve_sts 48`` as counts by name."""
    sample: dict[str, int] = {}
    for part in filter(None, (one.strip() for one in re.split(r"[,;]", text))):
        found = _ONE.fullmatch(part)
        if found is None:
            raise CannotRun(f"{quote(part)} is no count and its number, such as `back_sts 92`.")
        if found[1] not in names:
            hint = did_you_mean(found[1], names) or f"There are {joined(names)}."
            raise CannotRun(f"The pattern has no count called {quote(found[1])}. {hint}")
        if found[1] in sample:
            raise CannotRun(f"{quote(found[1])} stands twice in the sample.")
        sample[found[1]] = int(found[2])
    if not sample:
        raise CannotRun("The sample holds no counts.")
    return sample
