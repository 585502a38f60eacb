"""Published tables of the trade, each value with its citation.

Takes     the CSV files beside it, through ``packaged``.
Gives     typed records, read once: turning chains, abbreviations, terms, yarn weights, body
          charts, fits, letter sizes, yarn consumption, and the known faults of these tables; what
          few need (hooks, rules of safety, project levels) is imported from its own module.
Problems  none.
From      the sources named in the column ``citation`` of each table.

The status of a value says how it was come by: ``found`` was read in the source named,
``second-hand`` in a transcription of it, ``memory`` was recalled and not looked up. Values are kept
as published, also where they are known to be wrong: ``faults`` names those.
"""

from workeven.standards.bodies import (
    CHARTS,
    LETTERS,
    BodyChart,
    BodyMeasurement,
    LetterSize,
    Unit,
    body_chart,
    hat_sizes,
    is_girth,
    letter_sizes,
    letter_sizes_retail,
)
from workeven.standards.fits import FIT_NAMES, Fit, fit, fits
from workeven.standards.stitches import (
    Abbreviation,
    Term,
    TurningChain,
    abbreviations,
    terms,
    turning_chains,
)
from workeven.standards.tables import Fault, Origin, Status, faults
from workeven.standards.yarns import (
    WrapsPerInch,
    YarnConsumption,
    YarnWeight,
    weights_called,
    wraps_per_inch,
    yarn_consumption,
    yarn_weight,
    yarn_weights,
)

__all__ = [
    "CHARTS",
    "FIT_NAMES",
    "LETTERS",
    "Abbreviation",
    "BodyChart",
    "BodyMeasurement",
    "Fault",
    "Fit",
    "LetterSize",
    "Origin",
    "Status",
    "Term",
    "TurningChain",
    "Unit",
    "WrapsPerInch",
    "YarnConsumption",
    "YarnWeight",
    "abbreviations",
    "body_chart",
    "faults",
    "fit",
    "fits",
    "hat_sizes",
    "is_girth",
    "letter_sizes",
    "letter_sizes_retail",
    "terms",
    "turning_chains",
    "weights_called",
    "wraps_per_inch",
    "yarn_consumption",
    "yarn_weight",
    "yarn_weights",
]
