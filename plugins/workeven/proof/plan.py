"""A row looked through for what is plain in it: a plan that needs no places, only numbers.

Takes     the ``Facts`` of a row.
Gives     ``plan_of``: a ``Plan``, or None where the row asks for more than numbers of stitches.
Problems  none.
From      notation.md, the table of steps.

What a plan is for stands in ``plain``, which works it. A plan is made once a row. It is careful: a
phrase that is not among the common ones makes no plan, and the row is walked.
"""

from __future__ import annotations

from typing import Literal, NamedTuple

from workeven.notation.tree import (
    ONE,
    Amount,
    AnyStitch,
    Aside,
    Chain,
    Content,
    CountsAs,
    Decrease,
    Each,
    Exactly,
    FastenOff,
    First,
    FromHook,
    Increase,
    JoinRound,
    Last,
    LeaveRest,
    Limit,
    More,
    NamedStitch,
    Next,
    OneChain,
    Open,
    Picot,
    PlaceName,
    Repeat,
    Same,
    Skip,
    Step,
    Stitch,
    Stop,
    Target,
    Times,
    ToLast,
    Turn,
    Unplaced,
    Work,
)
from workeven.notation.vocabulary import HEIGHTS, kind_of
from workeven.proof.each import legs_of
from workeven.proof.fabric import Place, stitch
from workeven.proof.facts import (
    Facts,
    begins_with_change,
    first_of_content,
    first_stitch,
    goes_from_hook,
)
from workeven.proof.stretch import Stretch
from workeven.proof.unsaid_chains import joined_to, passed_by_the_join, stands_for

#: what a step does with the places that are left: takes so many for each working; so many for one
#: working (``over``); all of them, or all but some (``each``); the first, the last; works where the
#: hook stands (``same``); passes some; or it is a chain, a repeat, a join, a marker
Kind = Literal[
    "take",
    "over",
    "each",
    "first",
    "last",
    "same",
    "pass",
    "pass first",
    "chain",
    "times",
    "more",
    "open",
    "join",
    "leave",
    "mark",
]
#: steps behind which nothing more is worked
_ENDS = (Turn, FastenOff, JoinRound, LeaveRest)
_TWO = Amount((2,))


class Do(NamedTuple):
    """One step of a plan, worked ``number`` times.

    ``places`` is how many one working takes. ``keep`` is what "each" and an open repeat leave.
    ``change``: an ``inc`` or ``dec`` of the stitch that is below. ``generic``: here or before, any
    "st" is worked into. ``behind`` are the steps behind an open repeat without a limit. ``place``
    is what one working leaves, where that is a single stitch. ``over``: a decrease over as many
    places as it says, where "in next st" has all its legs in one.
    """

    kind: Kind
    number: Amount = ONE
    places: int = 1
    content: tuple[Content, ...] = ()
    spread: bool = False
    keep: Amount | None = None
    change: Literal["inc", "dec"] | None = None
    body: tuple[Do, ...] = ()
    generic: bool = False
    behind: tuple[Do, ...] = ()
    step: Step | None = None
    place: Place | None = None
    over: bool = False


class Plan(NamedTuple):
    """A row that is plain as far as its words go.

    ``head`` is the chain that it begins with, or the stitch that goes into a chain from the hook;
    ``base`` the basic stitch that comes first ("" is that of the stitch below). ``stitches`` are
    all that it makes, ``named`` those that it works into by their name: none of them may be a
    special one. ``fixed``: its numbers are the same in all sizes; ``stretches`` then holds what
    was counted so far, to be stretched.
    """

    head: Chain | Work | None
    base: str | None
    steps: tuple[Do, ...]
    stitches: frozenset[str]
    named: frozenset[str]
    turned: bool | None
    fastened: bool
    fixed: bool
    stretches: dict[object, Stretch]


def _is_silent(step: Step) -> bool:
    """Whether a step changes neither counts nor where a marker stands."""
    return isinstance(step, Stop) or (isinstance(step, Aside) and not step.marker)


def _told_otherwise(chain: Chain, base: str | None, rest: tuple[Step, ...]) -> bool:
    """Whether the row's other words count its chain otherwise than the table does."""
    return any(
        joined_to(count or 0, base, rest)
        or passed_by_the_join(count or 0, base, rest)
        or stands_for(count or 0, base, rest) is not None
        for count in chain.count.values
    )


def _skips_chains(step: Skip) -> bool:
    """``sk 3 ch``: chains, and no stitches."""
    names = getattr(step.target, "names", ())
    return any(isinstance(name, OneChain) for name in names)


class _NotPlain(Exception):
    """The row asks for more than numbers; private to this module."""


def plan_of(facts: Facts) -> Plan | None:
    """Look a row through; None where it is to be walked."""
    asks = facts.asks
    inside = asks.insides or asks.gaps or asks.apart or facts.counts_inside
    if inside or facts.leaves_turning_chain or facts.along_rows or not facts.works:
        return None
    if facts.mesh_chains is not None:
        return None  # its first space is made of the chains that are skipped
    try:
        return _Planner(facts).plan()
    except _NotPlain:
        return None


class _Planner:
    """Makes the plan of one row."""

    def __init__(self, facts: Facts) -> None:
        self.facts = facts
        self.stitches: set[str] = set()
        self.named: set[str] = set()
        self.worked_all = False
        self.generic = False
        self.fixed = True

    def plan(self) -> Plan:
        """The plan of the row."""
        steps = tuple(step for step in self.facts.steps if not _is_silent(step))
        if not steps:
            raise _NotPlain
        first = steps[0]
        if isinstance(first, Skip) and _skips_chains(first):
            raise _NotPlain  # at the head of a first row they are its turning chain
        head: Chain | Work | None = None
        if isinstance(first, Chain) or (isinstance(first, Work) and _is_from_hook(first)):
            head, steps = first, steps[1:]
        if isinstance(head, Work):
            self.generic, self.fixed = True, _is_fixed_hook(head)
            self._content(head.content)
        elif goes_from_hook(steps):
            raise _NotPlain
        done = self._in_order(steps)
        fixed = self.fixed and all(map(_is_fixed, done))
        turns = [step.turned for step in steps if isinstance(step, Turn)]
        return Plan(
            head=head,
            base=self._base(head, steps),
            steps=done,
            stitches=frozenset(self.stitches),
            named=frozenset(self.named),
            turned=turns[-1] if turns else None,
            fastened=any(isinstance(step, FastenOff) for step in steps),
            fixed=fixed and not (isinstance(head, Chain) and not is_fixed_chain(head)),
            stretches={},
        )

    def _base(self, head: Chain | Work | None, rest: tuple[Step, ...]) -> str | None:
        """The basic stitch behind the head; None where there is none, or none of the table."""
        if isinstance(head, Work):
            name = first_of_content(head.content)
        elif begins_with_change(rest):
            name = self._stitch_of_change(rest[0])
            if name is None:
                return ""
        else:
            name = first_stitch(rest)
        base = None if name is None else kind_of(name).base
        if isinstance(head, Chain) and head.counts_as is None and _told_otherwise(head, base, rest):
            return ""
        return base if base in HEIGHTS else None

    def _in_order(self, steps: tuple[Step, ...]) -> tuple[Do, ...]:
        """Top-level steps; behind the first that ends the row nothing is worked."""
        done: list[Do] = []
        ended = False
        for at, step in enumerate(steps):
            if isinstance(step, _ENDS):
                if all(one.kind in ("pass", "pass first") for one in done):
                    raise _NotPlain  # nothing is worked yet
                ended = True
                done.extend(_end(step))
            elif ended:
                raise _NotPlain
            elif isinstance(step, Aside):
                done.append(self._marker(step))
            elif isinstance(step, Repeat) and isinstance(step.times, Open):
                done.append(self._open(step, step.times, steps[at + 1 :]))
            else:
                done.append(self._step(step))
        return tuple(done)

    def _marker(self, step: Aside) -> Do:
        """A marker between two stitches that stand there; any other is walked."""
        if step.marker != "here":
            raise _NotPlain
        self.fixed = False  # it stands at another stitch in each size
        return Do("mark")

    # --- one step --------------------------------------------------------------------------

    def _step(self, step: Step) -> Do:
        match step:
            case Work(does_not_count=True):
                raise _NotPlain
            case Work(rows_below=below) if below:
                raise _NotPlain
            case Work():
                done = self._into(step.target, self._content(step.content), step)
                return done._replace(place=_single(step.content))
            case Skip(target=Unplaced(count=count), behind=False):
                return Do("pass", count)
            case Skip(target=Next(names=names, count=count), behind=False):
                return self._passing("pass", names, count)
            case Skip(target=First(names=names, count=count)):
                return self._passing("pass first", names, count)
            case Chain():
                return Do("chain", step.count, step=step)
            case Increase():
                return self._increase(step)
            case Decrease():
                return self._decrease(step)
            case Repeat(times=Exactly(count=count)):
                return Do("times", count, body=self._body(step))
            case Repeat(times=More(count=count, more=True)):
                return Do("more", count, body=self._body(step))
            case _:
                raise _NotPlain

    def _into(self, target: Target, content: tuple[Content, ...], step: Work) -> Do:
        legs = legs_of(step)
        if step.over and legs == 1:
            raise _NotPlain  # "cl over next 3 sts": one stitch over several
        match target:
            case Unplaced(count=count):
                self.generic = True
                return Do("take", count, legs, content, generic=True)
            case Next(names=names, count=count):
                self._note(names)
                kind: Kind = "over" if legs > 1 else "take"
                return Do(
                    kind, count, legs, content, step.spread, generic=self.generic, over=step.over
                )
            case Last(names=names, count=count):
                self._note(names)
                return Do(
                    "last", count, legs, content, step.spread, generic=self.generic, over=step.over
                )
            case First(names=names, count=count):
                if len(count.values) != 1:
                    raise _NotPlain  # by size it may be one, which asks for no other, or more
                generic = self.generic
                self._note(names)
                if count.values == (1,):
                    self.generic = generic
                return Do(
                    "first", count, legs, content, step.spread, generic=self.generic, over=step.over
                )
            case Each(names=names, limit=limit):
                return self._each(names, limit, content, legs)
            case Same(made=False):
                return Do("same", ONE, 0, content, generic=self.generic)
            case _:
                raise _NotPlain

    def _each(
        self,
        names: tuple[PlaceName, ...],
        limit: Limit | None,
        content: tuple[Content, ...],
        legs: int,
    ) -> Do:
        self._note(names)
        if limit is None:
            if self.worked_all:
                raise _NotPlain  # nothing is left for the second
            self.worked_all = True
        keep = self._limit(limit)
        return Do("each", ONE, legs, content, keep=keep, generic=self.generic)

    def _limit(self, limit: Limit | None) -> Amount | None:
        """How many places are left at a limit."""
        if limit is None:
            return None
        if not isinstance(limit, ToLast) or limit.before:
            raise _NotPlain
        generic = self.generic
        self._note(limit.names)
        self.generic = generic
        return limit.count

    def _passing(self, kind: Kind, names: tuple[PlaceName, ...], count: Amount) -> Do:
        generic = self.generic
        self._note(names)
        self.generic = generic
        return Do(kind, count)

    def _increase(self, step: Increase) -> Do:
        if step.into != 2:  # noqa: PLR2004, an increase
            raise _NotPlain
        name = self._stitch_of_change(step)
        two: tuple[Content, ...] = () if name is None else (Stitch(kind_of(name).base, _TWO),)
        match step.target:
            case Unplaced() | Next() | Each():
                work = Work(two or (Stitch("", _TWO),), step.target)
                done = self._into(step.target, two, work)
                return done._replace(change="inc" if name is None else None)
            case _:
                raise _NotPlain

    def _decrease(self, step: Decrease) -> Do:
        name = self._stitch_of_change(step)
        base = None if name is None else kind_of(name).base
        two: tuple[Content, ...] = () if base is None else (Stitch(f"{base}2tog", legs=2),)
        change: Literal["dec"] | None = "dec" if base is None else None
        self.generic = True
        if step.times is not None:
            return Do("take", step.times, 2, two, change=change, generic=True)
        keep = self._limit(step.limit)
        return Do("each", ONE, 2, two, keep=keep, change=change, generic=True)

    def _stitch_of_change(self, step: Step) -> str | None:
        name = self.facts.stitch_of_change.get(id(step)) or self.facts.first_stitch
        if name is not None:
            self._stitch(name)
        return name

    # --- repeats ---------------------------------------------------------------------------

    def _body(self, repeat: Repeat) -> tuple[Do, ...]:
        """The steps of a repeat, which take the same number in each turn."""
        if repeat.ending is not None:
            raise _NotPlain
        steps = [step for step in repeat.steps if not _is_silent(step)]
        done = tuple(self._step(step) for step in steps)
        if not done or any(
            one.kind not in ("take", "over", "pass", "chain", "times", "more") for one in done
        ):
            raise _NotPlain
        return done

    def _open(self, repeat: Repeat, times: Open, rest: tuple[Step, ...]) -> Do:
        body = self._body(repeat)
        generic = self.generic
        if times.limit is not None:
            keep = self._limit(times.limit)
            return Do("open", body=body, keep=keep, generic=generic)
        behind = []
        for step in rest:
            if isinstance(step, LeaveRest):
                raise _NotPlain
            if not isinstance(step, _ENDS):
                behind.append(self._step(step))
        if any(one.kind not in ("take", "over", "pass", "last") for one in behind):
            raise _NotPlain
        return Do("open", body=body, generic=generic, behind=tuple(behind))

    # --- names -----------------------------------------------------------------------------

    def _note(self, names: tuple[PlaceName, ...]) -> None:
        match names:
            case (AnyStitch(),):
                self.generic = True
            case (OneChain(),):
                self.generic = True
                self.named.add("ch")
            case (NamedStitch(name=name),) if name in HEIGHTS:
                self.named.add(name)
            case _:
                raise _NotPlain

    def _content(self, content: tuple[Content, ...]) -> tuple[Content, ...]:
        for part in content:
            match part:
                case Stitch(name=name, count=count):
                    self._stitch(name)
                    self.fixed = self.fixed and _same_in_all(count)
                case Times(content=inner, count=count):
                    self._content(inner)
                    self.fixed = self.fixed and _same_in_all(count)
                case Picot():
                    raise _NotPlain
                case Chain():
                    self.fixed = self.fixed and is_fixed_chain(part)
        return content

    def _stitch(self, name: str) -> None:
        if name == "sl st" or name.startswith("beg "):
            raise _NotPlain
        self.stitches.add(name)


def _same_in_all(amount: Amount) -> bool:
    """Whether a number is the same in all sizes."""
    return amount.formula is None and len(amount.values) == 1


def _is_fixed(step: Do) -> bool:
    if not _same_in_all(step.number) or not (step.keep is None or _same_in_all(step.keep)):
        return False
    chain = step.step if isinstance(step.step, Chain) else None
    inside = (*step.body, *step.behind)
    return (chain is None or is_fixed_chain(chain)) and all(map(_is_fixed, inside))


def is_fixed_chain(chain: Chain) -> bool:
    """Whether a chain, and what it counts as, is the same in all sizes."""
    return _same_in_all(chain.count) and _is_fixed_count(chain.counts_as)


def _is_fixed_hook(step: Work) -> bool:
    """Whether the chain from the hook, and what is skipped for it, is the same in all sizes."""
    assert isinstance(step.target, FromHook)
    return _same_in_all(step.target.nth) and _is_fixed_count(step.target.skipped)


def _is_fixed_count(said: CountsAs | None) -> bool:
    if said is None:
        return True
    amounts = [amount for amount, _ in said.stitches]
    amounts += [amount for amount in (said.chains, said.skipped) if amount is not None]
    return all(map(_same_in_all, amounts))


def _single(content: tuple[Content, ...]) -> Place | None:
    """The place of content that is one stitch."""
    match content:
        case (Stitch(name=name, count=Amount(values=(1,), formula=None)),):
            return stitch(name, kind_of(name).base)
        case _:
            return None


def _is_from_hook(step: Work) -> bool:
    return isinstance(step.target, FromHook)


def _end(step: Step) -> tuple[Do, ...]:
    match step:
        case JoinRound(ring=False):
            return (Do("join", step=step),)
        case LeaveRest(name=None, count=None):
            return (Do("leave"),)
        case Turn() | FastenOff():
            return ()
        case _:
            raise _NotPlain
