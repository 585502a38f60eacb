"""Files of a user through the flow: a pattern file, whole or part of the way, and a studio's.

Takes     names of files, or texts that are meant for them.
Gives     ``outcome``; ``graded``, ``counted``; ``studio``.
Problems  those of reading, and of the stages.
From      design.md, "From text to page".
"""

from __future__ import annotations

from collections.abc import Mapping

from workeven import pattern, proof
from workeven.grading import GradedPattern
from workeven.pattern import Studio, Text
from workeven.pipeline.one import Look, Outcome, grade, run, then
from workeven.problems import Checked, Note
from workeven.problems.words import quote
from workeven.proof import ProvenPattern
from workeven.records import replace
from workeven.source import beside, charts_unnamed, load
from workeven.standards import BodyChart

#: Texts that stand in no file yet, by the file that they are meant for.
Typed = Mapping[str, bytes]
NONE_TYPED: Typed = {}


def outcome(file: str, studio: Studio | None, look: Look, typed: Typed) -> Outcome:
    """What became of one file; while its studio's own file is wrong it is only read."""
    read = load(file, typed.get(file))
    if read.value is None or studio is None:
        return Outcome(file=file, ready=None, problems=read.problems)
    return run(read.value, studio, read.problems, look)


def graded(file: str, studio_file: str | None) -> Checked[GradedPattern]:
    """One pattern file up to its counts, for commands that look into them."""
    around = Checked(value=pattern.NO_STUDIO) if studio_file is None else studio(studio_file)
    read = load(file)
    if read.value is None or around.value is None:
        return Checked(value=None, problems=(*around.problems, *read.problems))
    parsed = pattern.parse(read.value, around.value)
    numbers = then(grade, parsed)
    told = (*around.problems, *read.problems, *parsed.problems, *numbers.problems)
    return Checked(value=numbers.value, problems=told)


def counted(file: str, studio_file: str | None) -> Checked[ProvenPattern]:
    """One pattern file up to its rows, for who looks at them: also where some do not come out."""
    numbers = graded(file, studio_file)
    proven = then(proof.prove, numbers)
    return Checked(value=proven.value, problems=(*numbers.problems, *proven.problems))


def studio(file: str, typed: Typed = NONE_TYPED) -> Checked[Studio]:
    """What a studio says, with its body charts, which lie beside its file."""
    read = load(file, typed.get(file))
    parsed = then(pattern.parse_studio, read)
    told = (*read.problems, *parsed.problems)
    if parsed.value is not None:
        told = (*told, *charts_unnamed(file, (name.text for name in parsed.value.chart_files)))
    if parsed.value is None or not parsed.value.chart_files:
        return Checked(value=parsed.value, problems=told)
    charts = [_chart(file, name, typed) for name in parsed.value.chart_files]
    told = (*told, *(problem for chart in charts for problem in chart.problems))
    whole = tuple(chart.value for chart in charts if chart.value is not None)
    with_them = replace(parsed.value, charts=whole) if len(whole) == len(charts) else None
    return Checked(value=with_them, problems=told)


def _chart(studio_file: str, name: Text, typed: Typed) -> Checked[BodyChart]:
    """A chart of the studio's own; where it cannot be opened, told where it is named."""
    file = beside(studio_file, name.text)
    read = load(file, typed.get(file))
    parsed = then(pattern.parse_chart, read)
    named = (Note(span=name.span, message=f"{quote(name.text)} is named here."),)
    told = (replace(one, notes=(*one.notes, *named)) for one in read.problems)
    return Checked(value=parsed.value, problems=(*told, *parsed.problems))
