"""The stage itself: cautions of a pattern, and what may not be published.

Takes     ``Pattern``.
Gives     ``Checked[Cautions]``.
Problems  those of ``checks``.
From      design.md, ``audience use``; ``standards/safety.csv``.
"""

from __future__ import annotations

from workeven.pattern import Pattern
from workeven.problems import Checked
from workeven.safety.cautions import REST, Cautions

#: Uses that ask for no caution where an adult is the one who uses it.
_HARMLESS = frozenset({"wear", "sleep", "blanket"})


def caution(pattern: Pattern) -> Checked[Cautions]:
    """The cautions of a pattern; none where a child's ages are missing, which has been told."""
    if pattern.audience == "child" and pattern.ages is None:
        return Checked(value=None)
    if pattern.audience == "adult" and pattern.ages is None and _HARMLESS.issuperset(pattern.use):
        return Checked(value=Cautions(cautions=(), rest=REST))
    # most patterns end above: what follows is loaded for those that do not
    from workeven.safety.checks import checked
    from workeven.safety.purpose import purpose_of
    from workeven.safety.usual import usual

    purpose = purpose_of(pattern)
    cautions = Cautions(cautions=usual(purpose), rest=REST)
    return Checked(value=cautions, problems=checked(pattern, purpose))
