"""Every row of every size, counted."""

from workeven.proof.lie import Edges, Lie, lies
from workeven.proof.multiples import chain_multiple
from workeven.proof.proven import (
    Counted,
    ProvenPattern,
    ProvenPiece,
    ProvenRow,
    ProvenSection,
    RowInSize,
)
from workeven.proof.stage import prove
from workeven.proof.unheld import unheld

__all__ = [
    "Counted",
    "Edges",
    "Lie",
    "ProvenPattern",
    "ProvenPiece",
    "ProvenRow",
    "ProvenSection",
    "RowInSize",
    "chain_multiple",
    "lies",
    "prove",
    "unheld",
]
