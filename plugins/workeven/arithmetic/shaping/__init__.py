"""Shaping worked out in whole numbers: along a length, and evenly across a row or round."""

from workeven.arithmetic.shaping.evenly import Spacing, by_repeats, evenly
from workeven.arithmetic.shaping.rates import Plan, Rate, ShapingFault, plan, steps_between
from workeven.arithmetic.shaping.tracks import Ends, Stretch, Track, merged, stretches

__all__ = [
    "Ends",
    "Plan",
    "Rate",
    "ShapingFault",
    "Spacing",
    "Stretch",
    "Track",
    "by_repeats",
    "evenly",
    "merged",
    "plan",
    "steps_between",
    "stretches",
]
