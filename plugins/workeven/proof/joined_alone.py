"""Yarn that is joined in a line of its own, in front of the round it belongs to.

Takes     the lines of a piece.
Gives     ``with_joined_alone``: the same lines, that step moved to the round behind it.
Problems  none.
From      common practice: "Thumb: join yarn in first skipped st." and below it "Rnd 1: sc in each
          of the 8 skipped sts, sc in each of the 2 ch".

The row behind it begins where the yarn was joined, and takes up that place. A round over a gap and
the chain across it says so by the places that it names: the line above alone does not tell of the
chain, read together they do. A strap may skip stitches first, an edging join to the foundation.

Worked example: "Sleeve: Join yarn in 3rd of 4 underarm ch." works nothing, and "Rnd 1: ch 1, sc in
each of last 2 underarm ch, sc in each of 10 skipped sc, sc in each of first 2 underarm ch" begins
with the yarn joined.
"""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator

from workeven.notation.earlier import in_skipped
from workeven.notation.tree import (
    Aside,
    Described,
    Each,
    Earlier,
    FastenOff,
    First,
    JoinYarn,
    Label,
    Last,
    Next,
    OneChain,
    OtherSide,
    Repeat,
    Skip,
    Step,
    Travel,
    Work,
    WorkedRow,
)
from workeven.proof.line import Lined
from workeven.records import replace

#: where the yarn is joined, and what the round goes into
_OPENING = re.compile(r"\b(?:gap|opening|hole|slit)\b", re.IGNORECASE)
#: what a chain leads across
_ACROSS = re.compile(r"\b(?:underarms?|thumb|armholes?)\b", re.IGNORECASE)
_SKIPPED = re.compile(r"\b(?:skipped|missed|unworked)\b", re.IGNORECASE)


def with_joined_alone(lines: Iterable[Lined]) -> tuple[Lined, ...]:
    """The lines, each row with the yarn that was joined in the line before it."""
    found = [_at_an_underarm(line, heading) for line, heading in _under_headings(lines)]
    for at in range(len(found) - 1):
        moved = _moved(found[at], found[at + 1])
        if moved is not None:
            found[at : at + 2] = moved
    return tuple(found)


def _under_headings(lines: Iterable[Lined]) -> Iterator[tuple[Lined, str]]:
    """Each line and the name of its part: its own, or that of the last heading."""
    heading = ""
    for line in lines:
        label = line.row.label
        if label is not None and label.name is not None:
            heading = label.name
        yield line, heading


def _at_an_underarm(line: Lined, heading: str) -> Lined:
    """``join yarn in 3rd ch of underarm, …``: the round goes on into what the yoke has skipped.

    However many rounds the body has had since: its own chains across were worked into, and their
    other sides are the sleeves'. So is a thumb, "join yarn in first of 2 chs at thumb".
    """
    body = line.row.body
    if not isinstance(body, WorkedRow) or body.onto is not None:
        return line
    first = next((step for step in body.steps if not isinstance(step, Aside)), None)
    if not isinstance(first, JoinYarn) or first.stitch is not None or not _is_chain(first.target):
        return line
    if _ACROSS.search(line.row.text) is None or not _works_on(body.steps):
        return line
    if _BODY.search(heading) is not None or _goes_on(line.row.label):
        return line
    steps = tuple(in_skipped(line.row.text, body.steps))
    waiting = Earlier(None, unworked=True, if_any=True)
    return _with_body(line, replace(body, steps=steps, onto=waiting))


#: parts that go on over all that was not skipped
_BODY = re.compile(r"\b(?:body|skirt|bodice|hand|main)\b", re.IGNORECASE)


def _goes_on(label: Label | None) -> bool:
    """Whether a round has the number that follows the divide's: it goes on with the body."""
    if label is None or label.name is not None:
        return False
    return label.first is not None and label.first.values[0] != 1


def _works_on(steps: tuple[Step, ...]) -> bool:
    return any(isinstance(step, Work | Repeat) for step in steps)


def _moved(line: Lined, following: Lined) -> tuple[Lined, Lined] | None:
    """Both lines with the joined yarn in the second; None where they are not such a pair."""
    body, behind = line.row.body, following.row.body
    if not isinstance(body, WorkedRow) or not isinstance(behind, WorkedRow):
        return None
    if (ended := _joined_at_its_end(body)) is not None and _begins_anew(behind):
        yarn = replace(ended, start=0, end=0)
        kept = tuple(step for step in body.steps if step is not ended)
        return (
            _with_body(line, replace(body, steps=kept)),
            _with_body(following, replace(behind, steps=(yarn, *behind.steps))),
        )
    joined = [step for step in body.steps if isinstance(step, JoinYarn)]
    alone = len(joined) == 1 and joined[0].stitch is None
    alone = alone and all(isinstance(step, JoinYarn | Aside | OtherSide) for step in body.steps)
    if alone and any(isinstance(step, OtherSide) for step in body.steps):
        return _along_foundation(line, body, following, behind, joined[0])
    if len(joined) == 1 and joined[0].stitch is None and _goes_on_behind(body):
        return _behind_skipped(line, body, following, behind)
    chain = alone and _is_chain(joined[0].target) and "underarm" in line.row.text.lower()
    of_gap = body.onto is not None and body.onto.unworked
    if alone and not chain and body.onto is None and _is_place(joined[0].target):
        return _begun_there(line, body, following, behind, joined[0])
    opening = _OPENING.search(line.row.text) is not None and _SKIPPED.search(following.row.text)
    if not alone or not (of_gap or chain or opening) or not (opening or _names_chains(behind)):
        return None
    # of which row the chain is ("2 ch of Rnd 19") tells nothing of the stitches below it
    own = behind.onto if behind.onto is not None and behind.onto.unworked else None
    onto = own or body.onto or Earlier(None, unworked=True)
    steps = tuple(in_skipped(following.row.text, behind.steps)) if onto.unworked else behind.steps
    told = tuple(Aside(step.start, step.end) for step in body.steps)
    target = None if isinstance(joined[0].target, Described) else joined[0].target
    yarn = replace(joined[0], target=target, start=0, end=0)
    return (
        _with_body(line, replace(body, steps=told, onto=None)),
        _with_body(following, replace(behind, steps=(yarn, *steps), onto=onto, beside=())),
    )


def _is_place(target: object) -> bool:
    """Whether a place of the row before is named: a stitch or a space."""
    return isinstance(target, First | Next | Last)


def _begins_anew(body: WorkedRow) -> bool:
    """Whether a row says nothing itself of where its yarn is joined, or what it goes into."""
    begins = next((step for step in body.steps if not isinstance(step, Aside)), None)
    joins = isinstance(begins, JoinYarn | Travel)
    return body.onto is None and begins is not None and not joins


def _joined_at_its_end(body: WorkedRow) -> JoinYarn | None:
    """``…, join. Fasten off. Join B in any ch-2 sp.``: the yarn of the round behind it."""
    told = [step for step in body.steps if not isinstance(step, Aside)]
    if len(told) < _FASTENED or not isinstance(told[-2], FastenOff):
        return None
    last = told[-1]
    place = isinstance(last, JoinYarn) and last.stitch is None and _is_place(last.target)
    return last if place and isinstance(last, JoinYarn) else None


#: something is worked, the yarn is fastened off, and other yarn joined
_FASTENED = 3


def _begun_there(
    line: Lined, body: WorkedRow, following: Lined, behind: WorkedRow, yarn: JoinYarn
) -> tuple[Lined, Lined] | None:
    """``Join yarn in any ch-2 sp.`` and below it ``Rnd 2: ch 3, 2 dc in same sp``.

    The round begins where the yarn was joined, and takes that place up.
    """
    if not _begins_anew(behind):
        return None
    told = tuple(Aside(step.start, step.end) for step in body.steps)
    yarn = replace(yarn, start=0, end=0)
    return (
        _with_body(line, replace(body, steps=told)),
        _with_body(following, replace(behind, steps=(yarn, *behind.steps))),
    )


def _goes_on_behind(body: WorkedRow) -> bool:
    """``skip 39 sts and join yarn in next st``, and nothing else, of the row before."""
    told = [step for step in body.steps if not isinstance(step, Aside)]
    passed = told[:-1]
    alone = bool(passed) and all(isinstance(step, Skip) for step in passed)
    return alone and isinstance(told[-1], JoinYarn) and body.onto is None


def _behind_skipped(
    line: Lined, body: WorkedRow, following: Lined, behind: WorkedRow
) -> tuple[Lined, Lined] | None:
    """``Second strap: skip 39 sts, join yarn in next st.`` and below it the row that begins there.

    It is the part's first row, as the heading says that stands in the line above.
    """
    label = following.row.label
    if label is None or label.first is None or behind.onto is not None:
        return None
    told = tuple(Aside(step.start, step.end) for step in body.steps)
    head = tuple(
        replace(step, start=0, end=0) for step in body.steps if not isinstance(step, Aside)
    )
    row = replace(following.row, label=replace(label, section=True))
    line = replace(line, row=replace(line.row, stated=None))  # "you should have 8 sts left"
    return (
        _with_body(line, replace(body, steps=told)),
        _with_body(replace(following, row=row), replace(behind, steps=(*head, *behind.steps))),
    )


def _along_foundation(
    line: Lined, body: WorkedRow, following: Lined, behind: WorkedRow, yarn: JoinYarn
) -> tuple[Lined, Lined] | None:
    """``Join yarn in first foundation ch.`` and below it ``Row 1: sc in each ch across``.

    The row goes along the other side of the chain that the piece was begun with.
    """
    if not _names_chains(behind) or any(isinstance(step, OtherSide) for step in behind.steps):
        return None
    told = tuple(Aside(step.start, step.end) for step in body.steps)
    head = (OtherSide(0, 0), replace(yarn, start=0, end=0))
    return (
        _with_body(line, replace(body, steps=told)),
        _with_body(following, replace(behind, steps=(*head, *behind.steps))),
    )


def _is_chain(target: object) -> bool:
    return isinstance(target, First | Next | Last | Each) and target.names == (OneChain(),)


def _names_chains(body: WorkedRow) -> bool:
    """Whether a row goes into single chains."""
    return any(map(_goes_into_chains, body.steps))


def _goes_into_chains(step: Step) -> bool:
    if isinstance(step, Repeat):
        return any(map(_goes_into_chains, step.steps))
    return isinstance(step, Work | Skip) and _is_chain(step.target)


def _with_body(line: Lined, body: WorkedRow) -> Lined:
    return replace(line, row=replace(line.row, body=body))
