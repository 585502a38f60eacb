"""What a maker must be warned of, and what may not be published at all.

Takes     ``Pattern``: for whom and for what a thing is made, with which notions and fibres.
Gives     ``Cautions``.
Problems  ``caution-``.
From      ``standards/safety.csv``: published rules, each with its citation.

The cautions are the usual ones, in words of our own. They certify nothing: local rules and
qualified people come first, which every page says.
"""

from workeven.safety.cautions import CLOSING, REST, Caution, Cautions
from workeven.safety.stage import caution

__all__ = ["CLOSING", "REST", "Caution", "Cautions", "caution"]
