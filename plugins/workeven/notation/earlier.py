"""Places of an earlier row: "sc of Rnd 3", "first unworked st", "base of next sc".

Takes     ``Stream``.
Gives     ``earlier_row``, ``onto_of``, ``reaching_down``, ``says_unworked``,
          ``refuse_unworked_alone``.
Problems  none of its own: ``NotUnderstood``.
From      notation.md, "Below and before".

A row is worked into the places of one row. Where the first place that it names is said to be of an
earlier one ("working behind petals, sc in next sc of Rnd 3"), the others are too.
"""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator

from workeven.notation.expressions import ignoring_case
from workeven.notation.stream import Stream
from workeven.notation.tree import (
    ONE,
    Amount,
    ChainOfTurning,
    Each,
    Earlier,
    First,
    Inside,
    JoinYarn,
    Label,
    Last,
    Next,
    OneChain,
    Repeat,
    RowSides,
    Same,
    Skip,
    Step,
    Target,
    Work,
)
from workeven.records import replace

#: targets that find a place of their own (``same st`` and the like stay where the hook is)
_FINDS = (Next, First, Last, Each, Inside, ChainOfTurning)
_BASE = re.compile(r"(?:the )?base of", re.IGNORECASE)
_LOOPS = re.compile(r"\b(?:loops?|lps?)\b", re.IGNORECASE)
_UNDERARM = re.compile(r"\bunderarm\b", re.IGNORECASE)
_LEFT_OVER = ("unworked", "unused", "skipped", "missed", "free")
_OF_SLEEVE = re.compile(
    r"\b(?:of (?:the )?(?:\w+ )?sleeve|sleeve (?:sts|stitches|dc|sc|tr|hdc|htr))\b", re.IGNORECASE
)
#: what later rows stand before; what a short row has left is none of the row that takes it up
_PASSED_OVER = re.compile(r"\b(?:skipped|missed)\b", re.IGNORECASE)
_UNWORKED = re.compile(rf"\b(?:{'|'.join(_LEFT_OVER)})\b", re.IGNORECASE)


def of_row(stream: Stream) -> None:
    """Behind the name of a place: of which row it is.

    Takes: of Rnd 3
    """
    mark = stream.at
    if stream.accept_any("of", "from", "on", "in"):
        stream.articles()
        stream.row_named = _numbered(stream)
        if stream.row_named is not None or _is_the_row_before(stream):
            return
        if not _named(stream) and not stream.accept("underarm"):
            stream.at = mark


def _named(stream: Stream) -> bool:
    """``of neck row``, ``of last long row``: a row that is told by its part."""
    mark = stream.at
    while stream.token.kind == "word" and stream.at < mark + 3 and not stream.is_word("row", "rnd"):
        stream.take()
    if stream.at > mark and stream.accept_any("row", "rnd"):
        return True
    stream.at = mark
    return False


def earlier_row(stream: Stream, start: int, found: Target) -> None:
    """Keep of which row the places of a target are; "unworked" ones are of an earlier row too."""
    number, stream.row_named = stream.row_named, None
    if isinstance(found, _FINDS):
        unworked = _is_unworked(stream, start)
        based = _BASE.match(stream.text, start) is not None
        told = number is not None or based or unworked
        said = Earlier(number, unworked, based, start, stream.end) if told else None
        stream.onto.append((start, said))


#: of which rows so many stitches each were left
_LEFT_ON = (
    r"(?:(?:which|that) (?:was|were) )?left(?: unworked| free)? (?:on|in|by|at (?:the )?ends? of) "
    r"(?:the )?(?:rows?|rnds?|rounds?) (?P<numbers>\d+(?:, ?\d+)*(?:,? (?:and|&) \d+)?)\b"
)


def left_on_rows(stream: Stream) -> tuple[Amount, ...]:
    """``each of the 4 sc left unworked on Rows 7, 5, 3 and 1``: of which rows so many are worked.

    Takes: left unworked on Rows 7, 5 and 3
    Refuses: left unworked
    """
    if "left" not in stream.said:
        return ()
    found = ignoring_case(_LEFT_ON).match(stream.text, stream.start)
    if found is None:
        return ()
    stream.pass_to(found.end())
    at = found.start("numbers")
    numbers = re.finditer(r"\d+", found["numbers"])
    told = [Amount((int(one[0]),), None, at + one.start(), at + one.end()) for one in numbers]
    for number in told:
        said = Earlier(number, unworked=True, start=number.start, end=number.end)
        stream.onto.append((number.start, said))
    return tuple(told)


def _numbered(stream: Stream) -> Amount | None:
    """The number of a row; its words are passed.

    Takes: Rnd 3
    Refuses: next st
    """
    if stream.is_word("row", "rnd") and stream.ahead().kind == "num":
        stream.take()
        token = stream.take()
        return Amount((token.value,), None, token.start, token.end)
    by_place = stream.token.kind == "ord" and stream.ahead().word in ("row", "rnd")
    if by_place and stream.ahead(2).word not in ("below", "down"):  # "the 2nd round"
        token = stream.take()
        stream.take()
        return Amount((token.value,), None, token.start, token.end)
    return None


def _is_the_row_before(stream: Stream) -> bool:
    """``of prev rnd``, ``of row below``: the places of the row before, as always."""
    mark = stream.at
    before = stream.accept_any("prev", "last") is not None
    if stream.accept_any("row", "rnd") and (before or stream.accept("below")):
        return True
    stream.at = mark
    return False


def _is_unworked(stream: Stream, start: int) -> bool:
    """Whether only those are meant that no row has worked; free loops are those of every stitch."""
    said = stream.text[start : stream.end]
    if {"sleeve", "underarm", "join"} <= stream.said and _OF_SLEEVE.search(said) is not None:
        return True  # from the underarm on these are the ones that the yoke has left
    if stream.said.isdisjoint(_LEFT_OVER):
        return False
    return _UNWORKED.search(said) is not None and _LOOPS.search(said) is None


_WORKING_IN = re.compile(
    r"\b(?:of|in|into|on|from)\s+(?:the\s+)?(?:rnd|round|row)\s+(?P<number>\d+)\b", re.IGNORECASE
)


def working_in(stream: Stream, start: int) -> None:
    """Behind an aside such as "working in unworked sts of Rnd 2": the row whose places follow.

    Takes: working in unworked sts of Rnd 2
    """
    found = _WORKING_IN.search(stream.text, start, stream.end)
    if found is not None:
        number = Amount((int(found["number"]),), None, found.start("number"), found.end())
        unworked = _is_unworked(stream, start)
        stream.onto.append((start, Earlier(number, unworked, False, start, stream.end)))  # noqa: FBT003, a record


def onto_of(
    stream: Stream, steps: tuple[object, ...]
) -> tuple[Earlier | None, tuple[Earlier, ...]]:
    """The earlier row that a row is worked into, and those named further on.

    "Unworked" alone means places of an earlier row only where new yarn is joined in them: in "dc
    in each unworked st" they are those that this row has not come to.
    """
    joined = [step.start for step in steps if isinstance(step, JoinYarn)]
    if not joined and "underarm" in stream.said and "sk" not in stream.said:
        joined = [0]  # the yarn was joined in a line before it
    if all(one is None for _, one in stream.onto):
        return None, ()
    said = _without_chains_across(sorted(dict(stream.onto).items()), steps if joined else ())
    first = said[0][1] or _behind_the_underarm(stream, joined, said)
    if first is not None and first.number is None and not first.base and not joined:
        first = None
    beside = tuple(other for _, other in said[1:] if other is not None and other.number is not None)
    if first is None:
        return None, beside
    return first, tuple(other for other in beside if _values(other) != _values(first))


def reaching_down(stream: Stream, steps: Iterable[Step], label: Label | None) -> list[Step]:
    """``*sc in next 3 sc, dc in next skipped sc of Rnd 1; …`` in Rnd 4: it is three rounds below.

    The row goes on in the places of the one before it; such a stitch stands before what was made
    over the skipped place, as one told "3 rnds below" does. The row's own number has to be said.
    """
    found = list(steps)
    named = dict(stream.onto)
    own = _number_of(label)
    if own is None or None not in named.values():
        return found
    down = {
        at: own - number
        for at, one in named.items()
        if one is not None and _PASSED_OVER.search(stream.text, one.start, one.end)
        if (number := _only(one.number)) is not None and number < own
    }
    if not down:
        return found
    told: set[int] = set()
    found = [_reaching(step, down, told) for step in found]
    # of the others (each, the last of them) nothing is told here: they stay places of that row
    stream.onto = [entry for entry in stream.onto if entry[0] not in told]
    return found


def _number_of(label: Label | None) -> int | None:
    return None if label is None or label.last is not None else _only(label.first)


def _only(number: Amount | None) -> int | None:
    """A number that is the same in all sizes and known; else None."""
    return number.values[0] if number is not None and len(number.values) == 1 else None


def _reaching(step: Step, down: dict[int, int], told: set[int]) -> Step:
    """A step, or those of a repeat, worked so many rows below where its place is said to be so.

    Where such places are said goes into ``told``.
    """
    if isinstance(step, Repeat):
        return replace(step, steps=tuple([_reaching(one, down, told) for one in step.steps]))
    if not isinstance(step, Work) or not isinstance(step.target, Next):
        return step
    at = next((at for at in down if step.start <= at < step.end), None)
    if at is None:
        return step
    told.add(at)
    below = Same(step.target.names[0], made=True, count=step.target.count)
    return replace(step, target=below, rows_below=down[at])


def sides_of_an_instep(steps: Iterable[Step]) -> list[Step]:
    """``…unworked sc, 6 sc along side of instep, sc in each of the 10 sc of instep, 6 sc along …``.

    Behind its sides the row goes on into stitches: those are no places of the edge.
    """
    found = list(steps)
    sides = [at for at, step in enumerate(found) if _is_side(step)]
    works = [at for at, step in enumerate(found) if _names_stitches(step)]
    if len(sides) == len(("one", "other")) and any(sides[0] < at < sides[1] for at in works):
        for at in sides if works[0] < sides[0] and sides[1] < works[-1] else ():
            side = found[at]
            if isinstance(side, Work) and isinstance(side.target, RowSides):
                found[at] = replace(side, target=replace(side.target, apart=True))
    return found


def _is_side(step: object) -> bool:
    side = isinstance(step, Work) and isinstance(step.target, RowSides)
    return side and not getattr(getattr(step, "target", None), "each", True)


def _names_stitches(step: object) -> bool:
    return isinstance(step, Work) and isinstance(step.target, Next)


def _without_chains_across(
    said: list[tuple[int, Earlier | None]], steps: tuple[object, ...]
) -> list[tuple[int, Earlier | None]]:
    """``in first of the 3 chs of Rnd 11, …, sc in each of the 7 skipped sc``: one opening.

    The chains lie over the skipped stitches, whatever round they are said to be of.
    """
    skipped = next((one for _, one in said if one is not None and one.unworked), None)
    across = {
        start
        for start, one in said
        if one is not None and one.number is not None and _names_chains(steps, start)
    }
    if skipped is None or not across:
        return said
    told = [(start, None if start in across else one) for start, one in said]
    return [(told[0][0], skipped), *told[1:]] if told[0][0] in across else told


def _names_chains(steps: tuple[object, ...], start: int) -> bool:
    """Whether the step that names its place there names single chains."""
    for step in steps:
        if isinstance(step, Work | JoinYarn) and step.start <= start <= step.end:
            target = step.target
            names = (target.name,) if isinstance(target, Inside) else getattr(target, "names", ())
            return OneChain() in names
    return False


def _behind_the_underarm(
    stream: Stream, joined: list[int], said: list[tuple[int, Earlier | None]]
) -> Earlier | None:
    """``join yarn in first underarm ch, …, dc in each skipped st``: it is the skipped row's."""
    for start, one in said:
        if one is not None and one.unworked and joined:
            return one if _UNDERARM.search(stream.text, joined[0], start) else None
    return None


def in_skipped(text: str, steps: Iterable[Step]) -> Iterator[Step]:
    """In a row over what was skipped, "each of 6 skipped sts" are the next six places of it.

    Elsewhere a skipped stitch is one of the same row, that is gone back to.
    """
    for step in steps:
        if isinstance(step, Repeat):
            yield replace(step, steps=tuple(in_skipped(text, step.steps)))
            continue
        target = step.target if isinstance(step, Work) else None
        said = isinstance(step, Work) and _UNWORKED.search(text, step.start, step.end)
        if isinstance(step, Work) and said and isinstance(target, Same) and target.name is not None:
            yield replace(step, target=Next((target.name,), target.count, each=True))
        else:
            yield step


def along_underarm(stream: Stream, steps: Iterable[Step]) -> Iterator[Step]:
    """In a row along an underarm "each of last 2 underarm ch" are the next two it comes to.

    The round begins in the middle of that chain, wherever it ends.
    """
    for step in steps:
        target = step.target if isinstance(step, Work) else None
        by_end = isinstance(target, First | Last) and target.names == (OneChain(),)
        if (
            by_end
            and isinstance(step, Work)
            and isinstance(target, First | Last)
            and _UNDERARM.search(stream.text, step.start, step.end) is not None
        ):
            yield replace(step, target=Next(target.names, target.count, each=True))
        else:
            yield step


def _values(said: Earlier) -> tuple[int | None, ...] | None:
    return None if said.number is None else said.number.values


def left_behind(stream: Stream, steps: tuple[object, ...]) -> tuple[tuple[Earlier, Amount], ...]:
    """``sc in next 32 sts, sc in next 4 unworked sts of Row 3, sc in …``: what short rows left.

    Behind the stitches of the row before so many of each row that is named; () where the row says
    it otherwise.
    """
    told = [(start, one) for start, one in dict(stream.onto).items() if one is not None]
    if any(isinstance(step, JoinYarn) for step in steps):
        return ()  # a sleeve: the chain of the underarm, and what the yoke has skipped
    works = [step for step in steps if isinstance(step, Work)]
    if not told or not all(one.unworked and one.number and not one.base for _, one in told):
        return ()
    if not any(step.end <= told[0][0] and step.start < told[0][0] for step in works):
        return ()
    found = []
    for start, one in told:
        step = next((step for step in works if step.start <= start <= step.end), None)
        if step is None or not isinstance(step.target, Next) or step.target.count is ONE:
            return ()
        found.append((one, step.target.count))
    return tuple(found)


def speaks_of_unworked(stream: Stream, steps: tuple[object, ...]) -> bool:
    """Whether stitches that were left unworked are worked behind those of the row before.

    So are the stitches of the instep behind the side of a flap, where nobody says "unworked".
    """
    works = [step for step in steps if isinstance(step, Work)]
    for start, one in dict(stream.onto).items():
        if one is None or not one.unworked or one.number is not None:
            continue
        if any(step.start < start and step.end <= start for step in works):
            return True
    sides = [step.start for step in works if isinstance(step.target, RowSides)]
    return bool(sides) and any(
        step.start > sides[0]
        and isinstance(step.target, Next | First)
        and not (step.start < sides[-1] and isinstance(step.target.names[0], OneChain))
        for step in works
    )  # chains between two sides are those of the edge that the piece was begun with


#: stitches that no row has worked; those that a row skips may be its own
_NEVER_WORKED = re.compile(r"\b(?:unworked|unused)\b", re.IGNORECASE)


def says_unworked(text: str, step: Step) -> bool:
    """Whether a step goes into each stitch that no row has worked, by its words.

    Takes: sc in each unworked st
    """
    each = isinstance(step, Work) and isinstance(step.target, Each)
    return each and _NEVER_WORKED.search(text[step.start : step.end]) is not None


def refuse_unworked_alone(stream: Stream, steps: tuple[Step, ...]) -> None:
    """``ch 1, sc in each unworked st``: which they are must be said, where nothing leads there."""
    if stream.said.isdisjoint(("unworked", "unused")):
        return
    leads = next((one for one in steps if isinstance(one, Work | JoinYarn | Skip | Repeat)), None)
    if leads is not None and says_unworked(stream.text, leads):
        raise stream.fault(
            leads.start,
            found="which unworked stitches are meant is not said, and the row has not come to any",
            mend="Join yarn in them (“join yarn in first unworked st”), name their row (“in each "
            "unworked st of Row 3”), or write “in each st”.",
        )
