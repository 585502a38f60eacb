"""What is said once of a turning chain and holds throughout: "ch 2 (counts as dc throughout)".

Takes     the lines of a piece.
Gives     ``with_throughout``: the same lines, with the saying in every row that begins alike.
Problems  none.
From      notation.md, "Chains at the start" ("Defaults, which a file may set once").

It holds from its row on for chains of that length before that stitch, until another row says
otherwise. What a row says of its own chain alone ("ch 3 (counts as dc)") is a habit: it is tried
first in the rows behind too, also before another stitch, unless their own words are against it.
Before what is said of all rows, in the text or by the file, it gives way.
"""

from __future__ import annotations

from collections.abc import Container, Iterable, Iterator

from workeven.notation.tree import (
    ONE,
    Amount,
    Aside,
    Chain,
    ChainOfTurning,
    ChainsSaid,
    CountsAs,
    Each,
    First,
    FromHook,
    Inside,
    JoinRound,
    Last,
    NamedStitch,
    Next,
    Repeat,
    Same,
    Skip,
    Step,
    Stitch,
    Work,
    WorkedRow,
)
from workeven.notation.vocabulary import HEIGHTS, kind_of
from workeven.proof.line import Lined
from workeven.proof.made import first_of, first_stitch, lead_of
from workeven.proof.unsaid_chains import AS_HIGH, join_says, joined_to, makes_up
from workeven.records import replace

#: the length of a chain by size, and the basic stitch behind it
_Key = tuple[tuple[int | None, ...], str]
#: what each such chain counts as, the last that was said at the end
_Said = dict[_Key, CountsAs]


#: stitches of the pattern's own are alike here: a front post stitch and a back one begin alike
_DECLARED = ""


def with_throughout(lines: Iterable[Lined], settled: Container[str] = ()) -> tuple[Lined, ...]:
    """The lines of a piece, each turning chain counting as an earlier row has said for all.

    ``settled``: the basic stitches of which the file says how their chains count; no habit of one
    row goes before that.
    """
    said: _Said = {}
    return tuple([_told(line, said, settled) for line in lines])


def _told(line: Lined, said: _Said, settled: Container[str]) -> Lined:
    body = line.row.body
    if not isinstance(body, WorkedRow):
        return line
    if line.row.label is not None and line.row.label.section:
        for habit in [key for key, one in said.items() if one.carried]:
            del said[habit]  # another part may have another one
    for one in body.said:
        _keep(one, said)
    _keep_of_skipped(body.steps, said)
    at = _behind_the_ring(body.steps)
    if at is None:
        return line
    chain, key = body.steps[at], _begins(body.steps, at)
    assert isinstance(chain, Chain)
    if key is None:
        return line
    if chain.counts_as is not None:
        _keep_of(chain.counts_as, key, said)
        return line
    rest = body.steps[at + 1 :]
    own = join_says(key[0][0] if len(key[0]) == 1 else None, key[1] or None, rest)
    counts = _all_say(said, key) or said.get(key) or _before_another(said, key, rest)
    _keep_of_join(key, counts, said, rest, own=own)
    long = counts is not None and counts.chains is not None and counts is said.get(key)
    if counts is None:
        return line
    itself = own and joined_to(key[0][0] or 0, key[1] or None, rest)  # and other words may say more
    against = itself or key[1] in settled or _says_otherwise(counts, key, rest, own=own)
    if counts.carried and not long and against:
        return line
    told: Step = replace(chain, counts_as=counts)
    steps = (*body.steps[:at], told, *body.steps[at + 1 :])
    return replace(line, row=replace(line.row, body=replace(body, steps=steps)))


def _keep_of_join(
    key: _Key, counts: CountsAs | None, said: _Said, rest: tuple[Step, ...], *, own: bool | None
) -> None:
    """The habit of a round that is joined to its chain, or to the stitch behind it, goes on."""
    if own is False and key[1] in HEIGHTS and (counts is None or counts.carried):
        _keep_of(CountsAs(()), key, said)
    elif own and (counts is None or (counts.carried and not counts.stitches)):
        said.pop(key, None)
        count = key[0][0] or 0
        low = (
            HEIGHTS.get(key[1], 0) < HEIGHTS["dc"]
        )  # "ch 3, sc in next st, …, join to top of ch 3"
        name = key[1] if joined_to(count, key[1], rest) else AS_HIGH.get(count) if low else None
        if name in HEIGHTS:
            _keep_of(CountsAs(((ONE, name),)), key, said)


def _behind_the_ring(steps: tuple[Step, ...]) -> int | None:
    """Where the chain at the head stands; behind "ch 4, join to form ring" it is the next one."""
    at = lead_of(steps)
    behind = (
        None
        if at is None
        else next((n for n in range(at + 1, len(steps)) if not isinstance(steps[n], Aside)), None)
    )
    if at is None or behind is None or not isinstance(steps[behind], JoinRound):
        return at
    after = lead_of(steps[behind + 1 :])
    return at if after is None else behind + 1 + after


def _keep_of(counts: CountsAs, key: _Key, said: _Said) -> None:
    """What a row says of its own chain: of all from here on, or to be tried first in later rows."""
    if counts.leg is not None or counts.by_count:
        return  # said of this row's first decrease, or by its count alone
    before = said.get(key)
    if before is not None and before.throughout and not counts.throughout:
        return  # one row is otherwise than all
    said.pop(key, None)  # the last that is said comes last
    said[key] = counts if counts.throughout else replace(counts, carried=True)


def _keep_of_skipped(steps: tuple[Step, ...], said: _Said) -> None:
    """``hdc in 3rd ch from hook (skipped 2 chs count as hdc)``: so does a ch 2 at the next edge."""
    for step in steps:
        match step:
            case Work(target=FromHook(nth=Amount(values=(int(nth),)), skipped=CountsAs() as one)):
                name = first_of(step.content)
                base = kind_of(name).base if name is not None else _DECLARED
                _keep_of(one, (((nth - 1),), base if base in HEIGHTS else _DECLARED), said)
            case _:
                continue


#: a chain of any length, and before any stitch
_ANY_LENGTH, _ANY_STITCH = (None,), "*"


def _keep(one: ChainsSaid, said: _Said) -> None:
    """``Ch 2 at beg of rnds never counts``: of chains so long, before that stitch or any."""
    length = _ANY_LENGTH if one.chains is None else one.chains.values
    stitches = [kind_of(name).base for _, name in one.counts_as.stitches if name != "st"]
    said[length, stitches[0] if stitches else _ANY_STITCH] = one.counts_as


def _all_say(said: _Said, key: _Key) -> CountsAs | None:
    """What was said of all such chains, in a row ("throughout") or in a sentence of its own."""
    own = said.get(key)
    return own if own is not None and own.throughout else _of_all(said, key)


def _of_all(said: _Said, key: _Key) -> CountsAs | None:
    """What was said of such chains before any stitch; of a longer one it says nothing."""
    length, stitch = key
    found = said.get((length, _ANY_STITCH))
    if found is not None or stitch not in HEIGHTS:
        return found
    high = max((one or 0 for one in length), default=0)
    if high > HEIGHTS[stitch]:
        return None
    return said.get((_ANY_LENGTH, stitch)) or said.get((_ANY_LENGTH, _ANY_STITCH))


def _before_another(said: _Said, key: _Key, rest: tuple[Step, ...]) -> CountsAs | None:
    """What was said of such a chain before another stitch: ``ch 3 (counts as dc)``, now a puff.

    The edge stitch stays what it is, whatever comes behind it (common practice).
    """
    length, base = key
    last = next((one for (chains, _), one in reversed(said.items()) if chains == length), None)
    stands_for = [] if last is None else [kind_of(name).base for _, name in last.stitches]
    if last is None or last.chains is not None:
        return None
    if len(stands_for) != 1 or stands_for[0] not in HEIGHTS:
        return None
    if stands_for[0] not in _bases(rest) and not makes_up(rest):
        return None  # a round of clusters begins with the chain of its first one
    if not _stays_the_edge(HEIGHTS[stands_for[0]], HEIGHTS.get(base), rest):
        return None
    # it stands for a stitch of its own height where the row has that
    stitches = ((ONE, base),) if length == (HEIGHTS.get(base),) else last.stitches
    return replace(last, stitches=stitches, throughout=False, carried=True)


def _says_otherwise(
    counts: CountsAs,
    key: _Key,
    rest: tuple[Step, ...],
    *,
    own: bool | None,
) -> bool:
    """Whether a row's own words are against what an earlier row says of such a chain.

    ``own`` is what its join says. Otherwise it is the first step that tells: "dc in next st" passes
    the place under the chain, "2 hdc in each st around" does not, nor does "sc in first 8 sts"; a
    group in the same place needs the chain, or is whole without it.
    """
    is_stitch = bool(counts.stitches)
    if own is not None:
        return own is not is_stitch
    first = next((one for one in rest if isinstance(one, Work | Repeat | Skip)), None)
    if not is_stitch:
        passes = isinstance(first, Skip) or (
            isinstance(first, Work) and isinstance(first.target, Next)
        )
        return passes or makes_up(rest)
    match first:
        case Work(target=Each(), content=(Stitch(count=count), *_)):
            return count.values != (1,)
        case Work(target=First() as target):
            return not _is_an_increase(target, key, rest)
        case Work(target=Same() | Inside(container=Same())):
            return not (makes_up(rest) or _begins_as_the_repeat(counts, rest))
        case _:
            return False


def _begins_as_the_repeat(counts: CountsAs, rest: tuple[Step, ...]) -> bool:
    """``ch 3, popcorn in same st, *dc in next st, popcorn in same st; …``: the dc of the repeat."""
    repeat = next((one for one in rest if isinstance(one, Repeat)), None)
    works = [] if repeat is None else [one for one in repeat.steps if isinstance(one, Work)]
    begins, beside = (*works, None, None)[:2]
    if begins is None or beside is None or not isinstance(beside.target, Same):
        return False
    name = first_of(begins.content)
    return name is not None and kind_of(name).base == kind_of(counts.stitches[0][1]).base


def _is_an_increase(target: First, key: _Key, rest: tuple[Step, ...]) -> bool:
    """``dc in first st`` beside a chain that counts, where the row works into such chains too.

    Elsewhere "in first st" says that the chain beside it is none.
    """
    into_it = any(isinstance(getattr(one, "target", None), ChainOfTurning) for one in rest)
    return into_it and key[0] != (1,) and target.count.values == (1,)


def _stays_the_edge(chain: int, stitch: int | None, rest: tuple[Step, ...]) -> bool:
    """Whether a chain as high as ``chain`` is the edge stitch of a row of stitches so high.

    Before a lower stitch it may be a loop, where the row has others; before a higher one it is the
    edge where that goes into one of a name ("tr in next tr"), which the first is not. ``None``: a
    bobble, a shell.
    """
    if stitch is None or stitch == chain:
        return True
    if stitch < chain:
        return not any(map(_has_chains, rest)) or _ends_as_high(chain, rest)
    first = next((one for one in rest if isinstance(one, Work)), None)
    target = None if first is None else first.target
    return isinstance(target, Next) and isinstance(target.names[0], NamedStitch)


def _ends_as_high(chain: int, rest: tuple[Step, ...]) -> bool:
    """``…, dc in last sc``: the row has such a stitch at its other edge too."""
    last = next((one for one in reversed(rest) if isinstance(one, Work | Repeat)), None)
    if not isinstance(last, Work) or not isinstance(last.target, Last | ChainOfTurning):
        return False
    name = first_of(last.content)
    return name is not None and HEIGHTS.get(kind_of(name).base) == chain


def _bases(steps: tuple[Step, ...]) -> Iterator[str]:
    """The basic stitches that a row works, those of repeats and of their ends too."""
    for step in steps:
        if isinstance(step, Repeat):
            yield from _bases(step.steps)
            yield from _bases(getattr(step.ending, "steps", ()))
        elif isinstance(step, Work):
            yield from (kind_of(one.name).base for one in step.content if isinstance(one, Stitch))


def _has_chains(step: Step) -> bool:
    match step:
        case Repeat(steps=steps):
            return any(map(_has_chains, steps))
        case Work(content=content):
            return any(isinstance(one, Chain) for one in content)
        case _:
            return isinstance(step, Chain)


def _begins(steps: tuple[Step, ...], at: int) -> _Key | None:
    """The length of the chain at the head, and the basic stitch behind it."""
    chain, name = steps[at], first_stitch(steps[at + 1 :])
    if not isinstance(chain, Chain) or name is None:
        return None
    base = kind_of(name).base
    return chain.count.values, base if base in HEIGHTS else _DECLARED
