"""What the stage of safety gives: the cautions of a pattern.

Takes     nothing: records only.
Gives     ``Cautions``, ``Caution``; ``CERTIFIES_NOTHING``, ``CLOSING``, ``REST``.
Problems  none.
From      design.md, ``audience use``: they decide cautions.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

from workeven.records import record

if TYPE_CHECKING:
    from workeven.standards.safety import SafetyRule

#: What every caution is closed with.
CERTIFIES_NOTHING = (
    "Check the rules where you live or sell; this is not legal or safety certification."
)
#: The same for a page, and who comes first.
CLOSING = (
    f"{CERTIFIES_NOTHING} Local rules and the judgement of somebody qualified come before what is "
    "said here."
)


@record
class Caution:
    """One caution: its topic, words of our own without a number, the rules that hold the numbers.

    ``keys`` are those of ``standards.safety_rule``; the table is read when ``rules`` are asked for.
    """

    topic: str
    words: str
    keys: tuple[str, ...]

    @property
    def rules(self) -> tuple[SafetyRule, ...]:
        """The published rules behind it: region, ages, numbers, citation."""
        from workeven.standards.safety import safety_rule  # pages ask for it, and few checks

        return tuple(map(safety_rule, self.keys))


@record
class Cautions:
    """All cautions of a pattern, what is said of rest, and the words that close them."""

    cautions: tuple[Caution, ...]
    rest: Caution
    closing: str = CLOSING


#: What is said of rest to every maker.
REST = Caution(
    topic="Rest",
    words="Hands, neck and eyes tire before the work is done. Take breaks, stretch, look up, and "
    "put the work down for the day when you are tired. Where something hurts and goes on hurting, "
    "stop and ask a professional. This is common advice and no medical one; its sources are weak, "
    "blogs, a clinic and a newsletter, and no health agency is among them.",
    keys=("breaks", "eyes"),
)
