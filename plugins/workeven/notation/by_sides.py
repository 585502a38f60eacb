"""A repeat told by the sides that it goes on along: "rep for remaining 3 sides".

Takes     ``Stream`` at "rep".
Gives     ``says_sides``, ``times_by_sides``.
Problems  none of its own: ``NotUnderstood``.
From      notation.md, "Repeats nest".

``rep for other 3 sides`` is three more times, ``for all 4 sides`` four in all, ``for all sts`` as
often as there are stitches. How many sides a thing has, nobody guesses.
"""

from __future__ import annotations

from workeven.notation.expressions import ignoring_case
from workeven.notation.stream import Stream
from workeven.notation.tree import Exactly, More, Open

_SIDES = r"(?:sides?|edges?|corners?|points?|sections?|petals?|panels?|segments?)"
_FOR = (
    r"\s*(?:for|on|along|over) (?:the )?(?:"
    rf"(?P<more>(?:each of (?:the )?)?(?:remaining|rem|other|next|following)) "
    rf"(?P<number>\w+) {_SIDES}\b|"
    rf"(?:all|each of(?: the)?) (?P<all>\w+) {_SIDES}\b|"
    rf"(?P<open>(?:all|each|every|any)(?: of)?(?: the)?(?: (?:remaining|rem|other))? {_SIDES}|"
    rf"(?:remaining|rem|other) {_SIDES})\b|"
    r"(?P<sts>(?:all|each|every)(?: the)?(?: (?:remaining|rem))? (?:sts?|stitch(?:es)?)|"
    r"(?:remaining|rem) (?:sts?|stitches)|rest of (?:the )?(?:rnd|round|row))\b)"
)
#: words behind "rep" with which sides are named
_ALONG = ("for", "on", "along", "over")


def says_sides(stream: Stream) -> bool:
    """Whether "rep for remaining 3 sides" stands here."""
    if not stream.is_word("rep") or stream.ahead().word not in _ALONG:
        return False
    return ignoring_case(_FOR).match(stream.text, stream.token.end) is not None


def times_by_sides(stream: Stream) -> Exactly | More | Open | None:
    """Behind "rep": how often, by the sides that it is worked along.

    Takes: for remaining 3 sides
    Refuses: for second sleeve
    """
    if not stream.is_word(*_ALONG):
        return None
    found = ignoring_case(_FOR).match(stream.text, stream.end)
    if found is None:
        return None
    start = stream.start
    if found["open"] is not None:
        raise stream.fault(
            start,
            found="how many sides that are is not said",
            mend="write “rep from * 3 more times”",
        )
    if found["sts"] is not None:
        stream.pass_to(found.end())
        return Open()
    word = "number" if found["number"] is not None else "all"
    stream.pass_to(found.start(word))
    amount = stream.amount()
    stream.pass_to(found.end())
    return More(amount) if word == "number" else Exactly(amount)
