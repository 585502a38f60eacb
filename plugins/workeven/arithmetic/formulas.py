"""Formulas over counts and measurements, read by our own small grammar.

Takes     text such as ``hand - 1.5 cm`` or ``2 * fronts + back``.
Gives     ``Formula``.
Problems  none of its own: ``FormulaFault`` is turned into a problem by whoever knows the place.
From      design.md: ``+ - * /``, parentheses, names, ``min max round_to``; never run as Python.
"""

from __future__ import annotations

from dataclasses import dataclass


class FormulaFault(ValueError):
    """A formula cannot be read or worked out; ``at`` is the column (from 0) of the fault."""

    def __init__(self, message: str, at: int = 0) -> None:
        super().__init__(message)
        self.at = at


@dataclass(frozen=True, slots=True)
class Formula:
    """A formula as written."""

    text: str
