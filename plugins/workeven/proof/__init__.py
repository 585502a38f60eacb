"""Every row of every size, counted."""

from workeven.proof.addresses import row_address
from workeven.proof.changed import rows_changed
from workeven.proof.into import OTHER_SIDE, RING, Into, into_rows
from workeven.proof.lie import Edges, Lie, lies
from workeven.proof.multiples import chain_multiple
from workeven.proof.nearest import carried
from workeven.proof.proven import (
    Counted,
    ProvenPattern,
    ProvenPiece,
    ProvenRow,
    ProvenSection,
    RowInSize,
)
from workeven.proof.stage import prove
from workeven.proof.stitch_chart import ChartRow, StitchChart, stitch_chart
from workeven.proof.unheld import unheld

__all__ = [
    "OTHER_SIDE",
    "RING",
    "ChartRow",
    "Counted",
    "Edges",
    "Into",
    "Lie",
    "ProvenPattern",
    "ProvenPiece",
    "ProvenRow",
    "ProvenSection",
    "RowInSize",
    "StitchChart",
    "carried",
    "chain_multiple",
    "into_rows",
    "lies",
    "prove",
    "row_address",
    "rows_changed",
    "stitch_chart",
    "unheld",
]
