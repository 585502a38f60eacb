"""Every row of every size, counted."""

from workeven.proof.proven import (
    Counted,
    ProvenPattern,
    ProvenPiece,
    ProvenRow,
    ProvenSection,
    RowInSize,
)

__all__ = [
    "Counted",
    "ProvenPattern",
    "ProvenPiece",
    "ProvenRow",
    "ProvenSection",
    "RowInSize",
]
