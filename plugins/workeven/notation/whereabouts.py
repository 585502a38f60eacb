"""Where a place lies, told behind it: "in first ch at the bottom", "in 19 dc along top of flag".

Takes     ``Stream`` behind a step, and the step.
Gives     ``pass_whereabouts``, and ``BEGIN``: the words it begins with; ``pass_far_side``.
Problems  none: what is no such phrase is left where it stands.
From      common practice: edgings and parts name the edge or piece that the hook has come to.

It is passed only behind a step that says how many places it takes, or which: of "each st along the
neck" it would be the number.
"""

from __future__ import annotations

from workeven.notation.expressions import ignoring_case
from workeven.notation.stream import Stream
from workeven.notation.tree import (
    Each,
    First,
    Increase,
    Inside,
    JoinYarn,
    Last,
    Next,
    OneChain,
    Same,
    Skip,
    Step,
    Unplaced,
    Work,
)

_WHICH = (
    r"(?:(?:right|left)(?:-hand)?|top|bottom|lower|upper|outer|inner|front|back|other|opposite|"
    r"second|first|last|short|long|straight|curved|same|neck|crown|wrist|heel|toe|underarm)"
)
#: edges and ends, which may be of something
_EDGE = (
    r"(?:corner|top|bottom|back|front|side|edge|end|underside|inside|outside|point|tip|"
    r"(?:neck|armhole|waist|thumb|heel) ?(?:line|edge|opening)?)"
)
#: pieces, and parts of them
_PIECE = (
    r"(?:flag|motif|strip|band|piece|square|block|panel|cuff|brim|crown|heel|toe|thumb|ear|leg|"
    r"arm|sleeve|body|shoulder|yoke|bag|base|rim|handle|strap|hem|foot|hand|palm|work|collar|"
    r"pocket|hood|lid|flap|row \d+|(?:back|front)(?! (?:loop|lp|post|bump|bar)))"
)
_THE = r"(?:the |a |an |this |that |its )?"
_WHEREABOUTS = (
    rf"(?:at|along|on|across|near|from) {_THE}(?:{_WHICH} )*(?:{_EDGE}|{_PIECE})"
    rf"(?: (?:of|on) {_THE}(?:{_WHICH} )*{_PIECE})?"
    rf"|of {_THE}(?:{_WHICH} )*{_PIECE}"
)
#: the other side of the chain that a piece begins with
_FAR_SIDE = (
    r"(?:along|on|across) (?:the )?(?:other|opposite|second|free|bottom|lower) (?:edge|side)s? of "
    r"(?:the )?(?:(?:starting|foundation|beg(?:inning)?|base) )?ch(?:ain)?\b"
)
#: what stands behind such words: nothing more of the step
_BEHIND = r"(?=\s*(?:[,;.()\[\]*]|\Z|\band\b|\bthen\b))"
#: the words, folded, that they begin with
BEGIN = ("at", "along", "on", "across", "near", "from", "of", "back")
#: back along a chain that stands off, to where it began
_BACK_TO = r"back (?:down |along )?(?:to|towards?) (?:the |its )?[a-z]+(?: [a-z]+)?"


def pass_whereabouts(stream: Stream, found: tuple[Step, ...]) -> None:
    """Pass "at the bottom", "along top of flag", "of the last flag" behind so many places.

    Takes: at the bottom
    Takes: along the top of a flag
    Refuses: at each end
    """
    if not found:
        return
    if stream.is_word("back") and _along_chain(found[-1]):
        back = ignoring_case(rf"{_BACK_TO}{_BEHIND}").match(stream.text, stream.start)
        if back is not None:
            stream.pass_to(back.end())
    if not _is_counted(found[-1]):
        return
    if pass_far_side(stream):
        return
    said = ignoring_case(rf"(?:{_WHEREABOUTS}){_BEHIND}").match(stream.text, stream.start)
    if said is not None:
        stream.pass_to(said.end())


def _along_chain(step: Step) -> bool:
    """Whether a step goes into each of the chains of a chain."""
    return isinstance(step, Work) and (
        isinstance(step.target, Each) and isinstance(step.target.names[0], OneChain)
    )


def pass_far_side(stream: Stream) -> bool:
    """Pass "along opposite edge of starting ch", and note that the hook goes there.

    Takes: along opposite edge of starting ch
    Refuses: along the edge
    """
    if "ch" not in stream.said or not stream.is_word("along", "on", "across"):
        return False
    far = ignoring_case(_FAR_SIDE).match(stream.text, stream.start)
    if far is None:
        return False
    stream.pass_to(far.end())
    stream.far_side = stream.along_chain = True
    return True


def _is_counted(step: Step) -> bool:
    """Whether a step says how many places it takes, or which one."""
    match step:
        case Work(target=target) | Skip(target=target) | Increase(target=target):
            if isinstance(target, Each):
                return False
            return isinstance(target, Next | First | Last | Same | Inside | Unplaced)
        case JoinYarn():
            return True
        case _:
            return False
