"""The usual cautions: which belong to whom and to what.

Takes     ``Purpose``.
Gives     ``usual``, ``toy_for_the_youngest``, ``clothes_of_the_youngest``; ``NECK_CORDS``,
          ``OTHER_CORDS``, ``HAT_CORDS``, ``THREE_YEARS``.
Problems  none.
From      ``standards/safety.csv``; where it says "common practice", the practice of the trade.

The words are our own and hold no number: numbers stand in the rules, each with its citation. Of
the rules of a caution those are kept that concern the ages of the pattern.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator

from workeven.problems.words import joined
from workeven.records import record, replace
from workeven.safety.cautions import Caution
from workeven.safety.purpose import CORDS, Purpose

#: The rules on cords in clothes of children, in the order in which they are told.
NECK_CORDS = ("hood cord US", "neck cord EU, young", "neck cord EU, older")
OTHER_CORDS = ("waist cord US", "cord length EU")
HAT_CORDS = ("cord scope EU",)

#: Months of age at which a child is none of the youngest any more (safety.csv: "under 3 years").
THREE_YEARS = 36
_ONE_YEAR = 12
#: Notions that hang from a thing.
_HANGS = CORDS | {"tassel", "hanging loop"}
#: Above the last month of the rules on cords (safety.csv: "7 to 14 years").
_PAST_CORDS = 14 * 12 + 1


@record
class _Usual:
    """A caution, and when it is due; ``always``: rules that are told whatever the ages are."""

    due: Callable[[Purpose], bool]
    caution: Caution
    always: tuple[str, ...] = ()


def usual(purpose: Purpose) -> tuple[Caution, ...]:
    """The cautions that are due, in their order."""
    return tuple(_cautions(purpose))


def _cautions(purpose: Purpose) -> Iterator[Caution]:
    for one in USUAL:
        if one.due(purpose):
            kept = tuple(rule.key for rule in one.caution.rules if purpose.concerned(rule))
            keys = (*kept, *(key for key in one.always if key not in kept))
            yield replace(one.caution, keys=keys, words=_words(one.caution, purpose))


def _words(caution: Caution, purpose: Purpose) -> str:
    """The words, and which melting fibres the yarns hold, where that matters."""
    if caution.topic != "Heat" or not purpose.melting:
        return caution.words
    return f"{caution.words} The yarn of this pattern holds {joined(purpose.melting)}."


# --- when a caution is due -----------------------------------------------------------------


def _baby(purpose: Purpose) -> bool:
    return purpose.audience == "baby" or purpose.under(_ONE_YEAR)


def _lies_with_a_baby(purpose: Purpose) -> bool:
    return _baby(purpose) and not purpose.uses <= {"wear", "kitchen", "flame", "bag"}


def _on_a_baby(purpose: Purpose) -> bool:
    return _baby(purpose) and bool(purpose.uses & {"wear", "sleep"})


def _cords_on_a_child(purpose: Purpose) -> bool:
    return purpose.under(_PAST_CORDS) and bool(purpose.uses & {"wear", "sleep", "bag"})


def _cords_near_a_cot(purpose: Purpose) -> bool:
    hangs = "blanket" in purpose.uses or bool(purpose.kinds & _HANGS)
    return "hanging" in purpose.uses or (_baby(purpose) and hangs)


def _sleepwear(purpose: Purpose) -> bool:
    return purpose.youngest is not None and "sleep" in purpose.uses


def toy_for_the_youngest(purpose: Purpose) -> bool:
    """A toy that is judged as one for children under three.

    A soft-filled one is, whatever ages are written (safety.csv, "soft toys"), and so is one that
    does not say for which children it is.
    """
    old_enough = purpose.audience == "child" and not purpose.under(THREE_YEARS)
    return "toy" in purpose.uses and (purpose.filled or not old_enough)


def clothes_of_the_youngest(purpose: Purpose) -> bool:
    """Clothes for children under three, which need fasteners, and are no toy."""
    worn = bool(purpose.uses & {"wear", "sleep"}) and "toy" not in purpose.uses
    return worn and purpose.under(THREE_YEARS)


def _parts_for_the_youngest(purpose: Purpose) -> bool:
    young = purpose.under(THREE_YEARS) or toy_for_the_youngest(purpose)
    return young and not clothes_of_the_youngest(purpose)


def _toy_for_the_older(purpose: Purpose) -> bool:
    return "toy" in purpose.uses and not toy_for_the_youngest(purpose)


def _decoration(purpose: Purpose) -> bool:
    return purpose.filled and "toy" not in purpose.uses and bool(purpose.uses & {"home", "hanging"})


#: All of them, the gravest first.
USUAL: tuple[_Usual, ...] = (
    _Usual(
        due=_lies_with_a_baby,
        caution=Caution(
            topic="Safe sleep",
            words="A baby sleeps on the back, on a firm and flat bed, with nothing soft in it: no "
            "blanket, no pillow, no toy. What this pattern makes is for the time when the baby is "
            "awake and somebody is watching, and leaves the bed before the baby sleeps.",
            keys=("safe sleep", "weighted"),
        ),
        always=("safe sleep", "weighted"),
    ),
    _Usual(
        due=_on_a_baby,
        caution=Caution(
            topic="Hats indoors",
            words="A baby that is too warm cools through the head. A hat or hood is for outdoors; "
            "take it off indoors, in the car, and always for sleep.",
            keys=("hats indoors",),
        ),
        always=("hats indoors",),
    ),
    _Usual(
        due=_cords_on_a_child,
        caution=Caution(
            topic="Cords and drawstrings",
            words="Add no cord, drawstring, ribbon or tie at hood or neck, not one of yarn either: "
            "it catches and strangles. Elsewhere keep cords short, sew them down in the middle, "
            "and leave no knot, bead or toggle at an end. Hats, scarves and bags are outside some "
            "of these rules, and the same care is asked for them.",
            keys=(*NECK_CORDS, *OTHER_CORDS, *HAT_CORDS, "cord incidents US"),
        ),
    ),
    _Usual(
        due=_cords_near_a_cot,
        caution=Caution(
            topic="Cords near a cot",
            words="Hang nothing with cords, loops or long yarn in or near a cot, or where a child "
            "can reach it.",
            keys=("cords at the cot",),
        ),
        always=("cords at the cot",),
    ),
    _Usual(
        due=_parts_for_the_youngest,
        caution=Caution(
            topic="Small parts",
            words="A small part that comes off chokes a child. Put none on it: no button, bead, "
            "bell or safety eye. Embroider eyes, nose and mouth.",
            keys=("small parts US",),
        ),
        always=("small parts US",),
    ),
    _Usual(
        due=clothes_of_the_youngest,
        caution=Caution(
            topic="Small parts",
            words="A small part that comes off chokes a child. Sew every fastening on with strong "
            "thread through the fabric, pull hard at it, and look again after every wash. Put on "
            "no beads, bells or other ornaments.",
            keys=("small parts US", "small parts on clothes"),
        ),
        always=("small parts US",),
    ),
    _Usual(
        due=toy_for_the_youngest,
        caution=Caution(
            topic="Toys",
            words="A soft-filled toy is judged as a toy for the youngest, whatever age is meant. "
            "Work it so tightly that no filling shows, close every seam twice, and throw it away "
            "when one opens. Whoever sells toys answers for tests and labels.",
            keys=("toy EU", "soft toy EU", "toy parts EU"),
        ),
        always=("toy EU", "soft toy EU", "toy parts EU"),
    ),
    _Usual(
        due=_toy_for_the_older,
        caution=Caution(
            topic="Not for the youngest",
            words="This toy may have small parts and is not for children under three. Keep it away "
            "from them. Whoever sells toys answers for tests and labels.",
            keys=("small parts warning US", "toy label US"),
        ),
        always=("small parts warning US", "toy label US", "toy EU", "toy parts EU"),
    ),
    _Usual(
        due=_sleepwear,
        caution=Caution(
            topic="Clothes to sleep in",
            words="Clothes in which children sleep have to pass tests of how they burn, or to fit "
            "tightly. One made by hand has passed none. Keep it away from fire and heaters.",
            keys=("sleepwear US, small", "sleepwear US, infant", "sleepwear US, larger"),
        ),
        always=("nightwear EU and UK",),
    ),
    _Usual(
        due=_decoration,
        caution=Caution(
            topic="Not a toy",
            words="It is stuffed and looks like a toy, and it is a decoration: it was not made to "
            "be chewed, pulled and slept with. Keep it out of the reach of young children.",
            keys=(),
        ),
        always=("decoration", "toy EU"),
    ),
    _Usual(
        due=lambda purpose: bool(purpose.uses & {"kitchen", "flame"}),
        caution=Caution(
            topic="Heat",
            words="Acrylic, polyester, nylon and what holds them melt near heat and stick to the "
            "skin. Use cotton or wool for what touches anything hot, in two layers without holes, "
            "and keep it dry: a wet one scalds.",
            keys=(),
        ),
        always=("heat",),
    ),
    _Usual(
        due=lambda purpose: "flame" in purpose.uses,
        caution=Caution(
            topic="Flames",
            words="Every yarn burns or melts in a flame. Keep glass between the flame and the "
            "crochet, leave air above it, and never leave it alone while it burns. A light "
            "without a flame does as well.",
            keys=(),
        ),
        always=("heat",),
    ),
    _Usual(
        due=lambda purpose: bool(purpose.uses & {"bag", "hammock", "hanging"}),
        caution=Caution(
            topic="Load",
            words="We give no load that it carries: yarn, hands and use differ, and crochet "
            "stretches and gives way without warning. Have whatever carries a person, or hangs "
            "over one, tested by somebody qualified, with its cords, rings and hooks. Look over "
            "seams and handles before each use.",
            keys=(),
        ),
        always=("load",),
    ),
    _Usual(
        due=lambda purpose: purpose.audience == "pet",
        caution=Caution(
            topic="Pets",
            words="An animal chews off and swallows what it can reach: yarn, filling, buttons, "
            "bells. Watch it with the thing, look for chewed places, and take it away when yarn "
            "comes loose. Nothing here is a collar or a lead. Ask a vet where you are not sure.",
            keys=(),
        ),
        always=("pets",),
    ),
)
