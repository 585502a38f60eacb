"""Shaping worked out in whole numbers: along a length, and evenly across a row or round."""

from workeven.arithmetic.shaping.evenly import Spacing, by_repeats, evenly
from workeven.arithmetic.shaping.rates import Plan, Rate, ShapingFault, plan, steps_between

__all__ = [
    "Plan",
    "Rate",
    "ShapingFault",
    "Spacing",
    "by_repeats",
    "evenly",
    "plan",
    "steps_between",
]
