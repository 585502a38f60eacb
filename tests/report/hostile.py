"""A problem in which every text that can come from a file tries to be something else."""

from __future__ import annotations

from workeven.problems import Note, Problem, Span
from workeven.records import replace

#: What would speak to a log, a terminal, a page or a viewer, if it were let through.
CANARY = (
    "::set-output name=a::b ##[error]canary \x1b[31m \u202e | `x` <script>alert(1)</script> "
    "%0A::error::canary [a](http://x) {0} @someone"
)
SPAN = Span(file="patterns/a,b:c/pattern.yaml", line=8, column=5, end_line=8, end_column=9)
HOSTILE = Problem(
    code="row-uneven",
    span=SPAN,
    piece=CANARY,
    row=f"\n::error::{CANARY}",
    sizes=(CANARY,),
    good_sizes=("S",),
    found=f"\r\n::error::{CANARY}",
    expected=f"::error::{CANARY}\n::error::canary\n##[error]canary",
    mend=f"::stop-commands::x\n{CANARY}",
    excerpt=f"::error file=x::{CANARY}",
    notes=(Note(span=replace(SPAN, line=3), message=f"::error::{CANARY}"),),
)


def commands(log: str) -> list[str]:
    """The lines that a host's log takes for commands to itself.

    As the runner of GitHub reads them (from memory of its sources): two colons behind spaces at the
    head of a line, or ``##[`` anywhere in it.
    """
    return [line for line in log.splitlines() if line.lstrip().startswith("::") or "##[" in line]


def invisible(text: str) -> list[str]:
    """Characters that act on a terminal or turn a line, beside line ends."""
    return [sign for sign in text if not sign.isprintable() and sign != "\n"]
