"""What can be wrong with a pattern: the record, the catalogue and a page for every code."""

from workeven.problems.record import Checked, Note, Problem, Severity, Span

__all__ = ["Checked", "Note", "Problem", "Severity", "Span"]
