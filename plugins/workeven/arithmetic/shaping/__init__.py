"""Shaping worked out in whole numbers: along a length, and evenly across a row or round."""

from workeven.arithmetic.shaping.curves import CURVES, Curve, along, between
from workeven.arithmetic.shaping.evenly import Spacing, by_repeats, evenly
from workeven.arithmetic.shaping.holes import placed
from workeven.arithmetic.shaping.rates import Plan, Rate, ShapingFault, plan, steps_between
from workeven.arithmetic.shaping.stages import Stage, in_stages
from workeven.arithmetic.shaping.tracks import Ends, Stretch, Track, merged, stretches

__all__ = [
    "CURVES",
    "Curve",
    "Ends",
    "Plan",
    "Rate",
    "ShapingFault",
    "Spacing",
    "Stage",
    "Stretch",
    "Track",
    "along",
    "between",
    "by_repeats",
    "evenly",
    "in_stages",
    "merged",
    "placed",
    "plan",
    "steps_between",
    "stretches",
]
