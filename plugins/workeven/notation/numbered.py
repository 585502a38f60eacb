"""A place by its number from the start of the row: "sl st to 4th tr", "join yarn in 5th st".

Takes     ``Stream``.
Gives     ``numbered``, ``numbered_group``.
Problems  none of its own: ``NotUnderstood``.
From      notation.md, the table of steps ("travel") and "Rounds are closed".
"""

from __future__ import annotations

from workeven.notation.places import name
from workeven.notation.stream import NotUnderstood, Stream
from workeven.notation.targets import target
from workeven.notation.tokens import Token
from workeven.notation.tree import Amount, AnyStitch, Inside, NamedStitch, Next, Space, StitchGroup
from workeven.records import replace


def numbered(stream: Stream) -> Next | None:
    """The nth place of a name; None where it lies within another, or is counted otherwise.

    Takes: 4th tr
    Refuses: 4th ch from hook
    """
    mark, amounts = stream.at, len(stream.amounts)
    stream.articles()
    if stream.token.kind == "ord" and stream.token.value > 1:
        token = stream.take()
        if stream.is_word("unworked", "skipped", "unused", "free"):
            raise stream.fault(
                found="from where the unworked stitches are counted is not said",
                mend="join the yarn in the first of them, behind those that you pass: “sk 10 "
                "unworked sts, join yarn in next st”",
            )
        place = name(stream)
        ends = stream.at_end() or stream.token.kind == "mark"
        if ends and isinstance(place, AnyStitch | NamedStitch | Space):
            return Next((place,), Amount((token.value,), None, token.start, token.end))
    stream.at = mark
    del stream.amounts[amounts:]
    return None


def numbered_group(stream: Stream) -> Inside | None:
    """A place within the nth group of a name.

    Takes: ch-1 sp of 3rd shell
    Refuses: 3rd ch of next ch-5 sp
    """
    at = _number_of_group(stream)
    if at is None:
        return None
    mark, tokens = stream.here(), stream.tokens
    number = tokens[at]
    # the words read as those of the next one, of which the hook then passes so many
    stream.tokens = (
        *tokens[:at],
        Token("word", "next", 0, number.start, number.end),
        *tokens[at + 1 :],
    )
    try:
        found = target(stream)
    except NotUnderstood:
        found = None
    stream.tokens = tokens
    match found:
        case Inside(container=Next(names=(NamedStitch() | StitchGroup(),)) as group):
            count = Amount((number.value,), None, number.start, number.end)
            return replace(found, container=replace(group, count=count))
        case _:
            stream.back_to(mark)
            return None


#: a place in a group is told in so few words: "center ch of the ch-2 sp of the 3rd shell"
_MOST_WORDS = 8


def _number_of_group(stream: Stream) -> int | None:
    """The index of the number behind "of", where a place of the nth one is told."""
    for at in range(stream.at + 2, min(stream.at + _MOST_WORDS, len(stream.tokens) - 1)):
        if stream.tokens[at].kind == "mark":
            return None
        before = stream.tokens[at - 2 : at]
        of = before[1].word == "of" or (before[0].word, before[1].word) == ("of", "the")
        if of and stream.tokens[at].kind == "ord" and stream.tokens[at].value > 1:
            return at
    return None
