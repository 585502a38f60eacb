"""Yarn for every size: length, mass and balls, from counted stitches and weighed swatches.

Takes     ``ProvenPattern``.
Gives     ``YarnNeeds``.
Problems  ``yarn-``.
From      ``standards``: worked swatch methods; design.md, "Numbers a maker can trust".
"""

from __future__ import annotations

from workeven.yarn.needs import Calibration, ColourNeed, Line, NoAmount, YarnNeed, YarnNeeds
from workeven.yarn.row_colours import RowColours, row_colours
from workeven.yarn.stage import estimate
from workeven.yarn.strands import Strand
from workeven.yarn.tally import Part, Tally, tallies

__all__ = [
    "Calibration",
    "ColourNeed",
    "Line",
    "NoAmount",
    "Part",
    "RowColours",
    "Strand",
    "Tally",
    "YarnNeed",
    "YarnNeeds",
    "estimate",
    "row_colours",
    "tallies",
]
