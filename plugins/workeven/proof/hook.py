"""The hook on its way along one row of one size: where it stands, what it has made.

Takes     the ``Facts`` of a row, the ``Fabric`` below it, and what must be known of the size.
Gives     ``Hook``: the state of a walk, to be saved and come back to; what is left of the row.
Problems  ``row-uneven``.
From      notation.md, "Where the hook stands" and "Rounds are closed".
"""

from __future__ import annotations

from collections.abc import Mapping
from typing import Literal, NamedTuple, Protocol

from workeven.notation.tree import (
    AnyStitch,
    FromHook,
    Gap,
    LeaveRest,
    Marked,
    NamedStitch,
    OneChain,
    Open,
    PlaceName,
    Repeat,
    Space,
    Step,
    Stitch,
    TurningChain,
    Work,
)
from workeven.proof.context import Fault, SizeContext
from workeven.proof.cursor import Cursor
from workeven.proof.fabric import (
    Builder,
    Fabric,
    Loop,
    Mark,
    Match,
    Node,
    Place,
    Run,
    any_place,
    count_stitches,
    last_place,
    tally,
)
from workeven.proof.facts import Facts
from workeven.proof.ledger import Ledger
from workeven.proof.making import Made
from workeven.proof.naming import are, in_one_order, many, match_of, spoken
from workeven.proof.row_ends import NO_ENDS, RowEnds

#: which reading of which place in the row is taken: (kind, column) to the number of the reading
Choices = Mapping[tuple[str, int], int]
#: what is at the hook: nothing is used up yet (``start``); it was moved in front of a place by
#: travel (``at``), by slip stitches, the last of which stands there (``slipped``), by joining new
#: yarn (``joined``); or a stitch or a counted chain stands there (``taken``)
Stands = Literal["start", "at", "slipped", "joined", "taken"]
#: a place was passed, and a picot on it is not used (``behind``); a picot is used, and the place
#: that bears it comes next, as it does where the work was turned (``ahead``); nothing is known
PicotAt = Literal["", "behind", "ahead"]
#: where the hook was brought to, and nothing stands yet
BROUGHT: tuple[Stands, ...] = ("at", "joined", "slipped")
#: an edge has so many ends
_ENDS = 2
#: so many chains may be left behind the one that is the middle of a round
_BEHIND_MIDDLE = 2
#: names that are asked for as any stitch is
_GENERIC = (AnyStitch, OneChain)
_ANY_STITCH = match_of((AnyStitch(),))
A_PICOT = NamedStitch("picot")


class Saved(NamedTuple):
    """A state of the hook to come back to."""

    cursor: Cursor
    out: list[Node]
    makes: dict[str, int]
    worked: dict[str, int]
    groups: dict[str, int]
    passed: dict[tuple[str, str], int]
    stands: Stands
    generic: bool
    named: frozenset[PlaceName]
    flags: tuple[bool, bool, bool, bool, bool]
    picot: PicotAt
    into_space: int
    edge: str | None
    stopped: int | None


class Walk(Protocol):
    """Walks steps in order; ``final`` asks that nothing is left behind them.

    Steps that hold steps are given it, so that their modules need not know that of ``walk``.
    """

    def __call__(self, hook: Hook, steps: tuple[Step, ...], *, final: bool = False) -> None:
        """Walk the steps; raises ``Fault`` where they do not come out."""


class Hook:
    """The state of a walk: a plain, changing record, which the modules of the walk work on.

    ``generic`` and ``named`` are the names that the row works into ("st" is generic): what is left
    of them at the end is left over. ``over_first``: a counted chain stands over the first place.
    ``picot``: one beside the hook; ``picot_from``: so many places were to come at it.
    ``stood_from`` is where it stands in the output, ``stood_over`` the place below it. ``began``:
    something is worked. ``recover``: the row is counted on where it does not come out;
    ``trace``, ``placed``, ``at_markers``: see ``markers``; ``moved_start``: it began elsewhere.
    ``lenient``: what it leaves over is let pass.
    ``points`` are the places that can be read in more than one way, with their readings. ``depth``
    is how deep in repeats the hook is. ``stopped``: how many places were ahead where it last came
    up to one and stopped; ``at_space``: how many behind a space. ``first_side`` is how many chains
    were worked into on the first side.
    ``passed_over`` holds how many places were passed on the way to marked ones.
    ``repeats`` is how often the one repeat of the row is worked (0: there are several).
    ``edge`` is the edge of the piece that the row has turned to, where it goes around it; the
    ``kept_edge`` is the last row where a border begins along a side, and comes to it later.
    ``bottom`` has so many chains, and ``in_corners`` is how many corners it has. ``into_space`` is
    how many chains of the next space a square has passed. ``last_turn``: of a repeat, which may
    close the round. ``worked_all``: an "each" has worked to the end. ``before_joining`` are the
    places in front of where new yarn was joined. ``turns`` of all repeats were worked one by one.
    ``skipped``: the stitches that the step before this one has counted off and passed.
    ``went_round``: of how many the step before this one has worked round the posts.
    """

    def __init__(  # noqa: PLR0913, all that a walk must know
        self,
        facts: Facts,
        below: Fabric | None,
        context: SizeContext,
        *,
        worked: str,
        row_ends: RowEnds = NO_ENDS,
        bottom: int | None = None,
        choices: Choices | None = None,
        recover: bool = False,
        ledger: Ledger | None = None,
    ) -> None:
        self.facts = facts
        self.below = self.below_at_start = below
        self.context = context
        self.how = worked
        self.row_ends, self.bottom = row_ends, bottom
        self.choices: Choices = {} if choices is None else choices
        self.recover, self.lenient = recover, False
        self.cursor = Cursor(() if below is None else below.nodes, ledger)
        self.made = Made(context)
        self.ring = below is not None and below.ring
        self.stands: Stands = "start"
        self.generic = self.over_first = self.began = self.left_rest = self.sided = False
        self.named: frozenset[PlaceName] = frozenset()
        self.joined = self.fastened = self.made_ring = False
        self.picot: PicotAt = ""
        self.turned: bool | None = None
        self.trace: list[tuple[int, int]] | None = None
        self.placed: dict[Mark, None] = {}
        self.marks_off = self.moved_start = False
        self.stopped: int | None = None
        self.at_space: int | None = None
        self.at_markers: int | None = None
        self.into_parts: frozenset[PlaceName] = frozenset()
        self.depth = self.chains_made = self.first_side = 0
        self.lead_chains: int | None = None
        self.stood_from: int | None = None
        self.stood_over: Place | None = None
        self.passed_over: set[int] = set()
        self.repeats: int | None = None
        self.into_space = self.turns = self.picot_from = 0
        self.edge: str | None = None
        self.kept_edge: tuple[Node, ...] | None = None
        self.in_corners = self.edges = self.went_round = 0
        self.began_in_corner = self.worked_all = False
        self.last_turn = self.shared = False
        self.before_joining: tuple[Node, ...] = ()
        self.skipped: tuple[PlaceName, ...] = ()
        self.points: dict[tuple[str, int], tuple[str, ...]] = {}
        self.defaulted: list[tuple[str, int]] = []
        self.multiple: tuple[int, int] | None = None

    @property
    def closed(self) -> bool:
        """Whether a round is worked into."""
        return self.below is not None and self.below.closed

    # --- what is left ----------------------------------------------------------------------

    def wanted_stitches(self) -> Match:
        """The same without spaces, which a mesh passes on the way to the next stitch."""
        stitches = tuple(name for name in in_one_order(self.named) if not isinstance(name, Space))
        return match_of(stitches) if stitches and not self.generic else self.wanted()

    def wanted(self) -> Match:
        """The places that this row works into: any stitch, or only those that it names."""
        if self.into_parts and not (self.generic or self.named):
            return match_of(in_one_order(self.into_parts))
        if self.generic or not self.named:
            return count_stitches
        parts = self.into_parts if len(self.into_parts) == 1 else frozenset()
        return match_of(in_one_order(self.named | parts))

    def works_into_parts(self) -> bool:
        """Whether the row has worked into spaces or middles only: it passes stitches on its way."""
        spaces = bool(self.named) and all(_is_part(name) for name in self.named)
        return not self.generic and (spaces or bool(self.into_parts and not self.named))

    def wanted_name(self) -> str:
        """How those places are called."""
        if self.generic or not self.named:
            return "st"
        return spoken(in_one_order(self.named))

    def left(self) -> int:
        """How many places the row could still take."""
        nothing_there = self.below is None and self.chains_made == 0
        if self.ring or self.left_rest or nothing_there:
            return 0
        left = self.cursor.remaining(self.wanted(), required=True)
        left -= int(self.named == {A_PICOT} and not self.generic and self.before_used_picot())
        return 0 if 0 < left <= _BEHIND_MIDDLE and self._is_all_in_one_chain() else left

    def before_used_picot(self) -> bool:
        """Whether the next place bears a picot that is used: where the work was turned."""
        return self.picot == "ahead" and self.picot_from == self.cursor.remaining(any_place)

    def _is_all_in_one_chain(self) -> bool:
        """``ch 4, 11 hdc in 3rd ch from hook, join``: the middle, and few chains are left."""
        begins = self.below is None or self.below.foundation
        works = [step for step in self.facts.steps if isinstance(step, Work | Repeat)]
        if self.how == "flat rows" or not begins or len(works) != 1:
            return False
        match works[0]:
            case Work(content=(Stitch(count=count),), target=FromHook()):
                return count.values != (1,)
            case Work(target=FromHook()):
                return True
            case _:
                return False

    def check_left(self, steps: tuple[Step, ...]) -> None:
        """Nothing that the row could still take may be left over."""
        left = self.left() or self._short_of_a_corner() or self._spaces_left()
        if self.edge == "top" and left == self.in_corners == _ENDS and not self._is_open():
            return  # the corners at both ends stand on them
        if left == 0 or self.recover or self.lenient or not self.facts.works:
            return
        if self.closed and left in self.passed_over:
            return  # passed in every repeat on the way to the next group, and so at the end too
        raise Fault(
            "row-uneven",
            steps[0].start if steps else 0,
            steps[-1].end if steps else 0,
            f"{self._taken(left)}{many(left, self.wanted_name())} {are(left)} left over",
            left_over=left,
        )

    def _short_of_a_corner(self) -> int:
        """The spaces ahead where a round ends with "to next corner", and none has come.

        A chain made behind that stands over the space.
        """
        if not (self.closed and self.has_stopped()) or self.ring or self.left_rest:
            return 0
        nodes = tuple(self.made.out.nodes)
        over = bool(nodes) and last_place(nodes)[0].sort == "sp"
        return 0 if over else self.cursor.remaining(any_place)

    def _spaces_left(self) -> int:
        """The spaces ahead of a kind that a round works into again and again, and stitches too."""
        if not self.closed or not self.generic or self.ring or self.left_rest:
            return 0
        named = tuple(name for name in in_one_order(self.named) if isinstance(name, Space))
        if not named or not any(isinstance(step, Repeat) for step in self.facts.steps):
            return 0
        return self.cursor.remaining(match_of(named), required=True)

    def _is_open(self) -> bool:
        """Whether a repeat of the row goes on as often as it fits."""
        steps = self.facts.steps
        return any(isinstance(step, Repeat) and isinstance(step.times, Open) for step in steps)

    def check_leaving(self, step: LeaveRest) -> None:
        """``leaving last 4 sts unworked``: so many must be what is left, if any stitch counts."""
        wanted = None if step.count is None else self.context.amount(step.count)
        any_stitch = all(isinstance(name, AnyStitch) for name in step.of)
        if wanted is None or not any_stitch or self.recover or self.lenient or self.ring:
            return
        if not self.generic and not self._is_of_one_kind():
            return  # "sc in next 8 sc": what else lies there is not known to be meant
        left = self.left() if self.generic else self.cursor.remaining(_ANY_STITCH, required=True)
        if left != wanted:
            raise Fault(
                "row-uneven",
                step.start,
                step.end,
                f"{many(wanted, 'st')} {are(wanted)} to be left and {left or 'none'} "
                f"{are(left)} left",
                left_over=left,
            )

    def _is_of_one_kind(self) -> bool:
        """Whether the row before has left stitches of one kind, and nothing else."""
        return self.below is not None and len(tally(self.below.nodes)) == 1

    def _taken(self, left: int) -> str:
        """How many stitches the row takes, where it takes any stitch: "it takes 80, and "."""
        taken = 0 if self.below is None else self.below.sts - left
        return f"the row takes {taken} and " if self.wanted_name() == "st" and taken > 0 else ""

    # --- moving ----------------------------------------------------------------------------

    def note(self, names: tuple[PlaceName, ...]) -> None:
        """Remember which places the row works into ("first dc" asks for no other dc)."""
        for name in names:
            if isinstance(name, _GENERIC):
                self.generic = True
            elif isinstance(name, Marked):
                self.into_parts |= {name}
            elif not isinstance(name, Marked | TurningChain) and name not in self.named:
                self.named |= {name}

    def pass_here(self) -> None:
        """The place at the hook is passed: in a round it comes last, and may be left.

        A space that the hook was brought to may not: nobody travels to it to leave it. Nor may a
        place where new yarn was joined and nothing stands yet: there the round is closed.
        """
        place = self.cursor.peek()
        if place is None:
            return
        ledger = self.cursor.ledger
        self.cursor.pass_by(any_place, 1)
        if self.closed:
            brought = self.stands in ("at", "slipped") and place.sort == "sp"
            may_be_left = not brought and self.stands != "joined"
            passed = Loop((Run(place, 1),), 1, optional=may_be_left)
            self.cursor = self.cursor.along((*self.cursor.rest(), passed))
            self.cursor.ledger = ledger

    def to_joined_place(self) -> None:
        """In a joined, turned round the joined place is the last of the list: bring it first."""
        if self.below is None or not self.below.join_last:
            return
        rest = self.cursor.rest()
        if rest:
            last, before = last_place(rest)
            self.cursor = self.cursor.along((Run(last, 1), *before))

    # --- states ----------------------------------------------------------------------------

    def leave_group_of_space(self) -> bool:
        """Pass the rest of the group of whose places only the space was worked into.

        "shell in ch-2 sp of next shell, dc in last dc": nobody means a dc of that shell.
        """
        if self.at_space is None or self.at_space != self.cursor.remaining(any_place):
            return False
        self.cursor.leave_group()
        return True

    def has_stopped(self) -> bool:
        """Whether it stands in front of a place up to which it was to come."""
        return self.stopped is not None and self.stopped == self.cursor.remaining(any_place)

    def save(self, out: Builder) -> Saved:
        """The state with this output, to come back to."""
        made = self.made
        return Saved(
            self.cursor.copy(),
            list(out.nodes),
            dict(made.makes),
            dict(made.worked),
            dict(made.groups),
            dict(made.passed),
            self.stands,
            self.generic,
            self.named,
            (self.over_first, self.began, self.left_rest, self.joined, self.sided),
            self.picot,
            self.into_space,
            self.edge,
            self.stopped,
        )

    def restore(self, saved: Saved) -> None:
        """Come back to a state."""
        made = self.made
        self.cursor = saved.cursor.copy()
        made.out = Builder(list(saved.out))
        made.makes = dict(saved.makes)
        made.worked = dict(saved.worked)
        made.groups = dict(saved.groups)
        made.passed = dict(saved.passed)
        self.stands = saved.stands
        self.generic = saved.generic
        self.named = saved.named
        self.into_space = saved.into_space
        self.edge = saved.edge
        self.stopped = saved.stopped
        self.over_first, self.began, self.left_rest, self.joined, self.sided = saved.flags
        self.picot = saved.picot


def _is_part(name: PlaceName) -> bool:
    """Whether this is a space, or a gap."""
    return isinstance(name, Space | Gap)
