"""What a walk takes up of the row before, written down place by place.

Takes     what the cursor has passed, and which of it was worked into.
Gives     ``Ledger``: places worked into, places passed over, by name.
Problems  none.
From      notation.md, the table of steps, column "takes up".

A count needs no ledger, and no walk that counts keeps one. It is kept by the walk that tells a
maker which stitches a row is worked into (``into``), and is never changed but replaced, so that a
state of the hook can be come back to with what was written down until then.
"""

from __future__ import annotations

from collections.abc import Mapping
from types import MappingProxyType
from typing import NamedTuple

#: so many places of each name
Places = Mapping[str, int]
NOTHING: Places = MappingProxyType({})


class Ledger(NamedTuple):
    """Places worked ``into``, and places passed ``over`` without working into them.

    ``entered``: how many are entered in another way than under both loops, by the way.
    """

    into: Places = NOTHING
    over: Places = NOTHING
    entered: Places = NOTHING

    def passed(self, there: Places, left: Places, worked: Places) -> Ledger:
        """The same after passing from what was ``there`` to what is ``left``, working into some."""
        gone = {name: number - left.get(name, 0) for name, number in there.items()}
        over = {name: number - worked.get(name, 0) for name, number in gone.items()}
        return Ledger(plus(self.into, worked), plus(self.over, over), self.entered)

    def worked_into(self, name: str, count: int) -> Ledger:
        """The same, with so many more places worked into."""
        return Ledger(plus(self.into, {name: count}), self.over, self.entered)

    def only_passed_since(self, earlier: Ledger) -> Ledger:
        """What was written down since is passed over: nothing was worked there."""
        since = plus(less(self.into, earlier.into), less(self.over, earlier.over))
        return Ledger(earlier.into, plus(earlier.over, since), earlier.entered)

    def again(self, earlier: Ledger, times: int) -> Ledger:
        """What was written down since, so many times more."""
        return Ledger(
            plus(self.into, less(self.into, earlier.into), times),
            plus(self.over, less(self.over, earlier.over), times),
            plus(self.entered, less(self.entered, earlier.entered), times),
        )

    def entered_since(self, earlier: Ledger, way: str) -> Ledger:
        """The same; the places worked into since were entered in this way."""
        number = sum(less(self.into, earlier.into).values())
        return Ledger(self.into, self.over, plus(self.entered, {way: number}))


def plus(places: Places, more: Places, times: int = 1) -> Places:
    """Places and more of them, in the order in which their names first come.

    >>> plus({"dc": 3}, {"ch-2 sp": 1, "dc": 2}, 2)
    {'dc': 7, 'ch-2 sp': 2}
    """
    found = dict(places)
    for name, number in more.items():
        if number:
            found[name] = found.get(name, 0) + number * times
    return found


def less(places: Places, fewer: Places) -> Places:
    """Places without so many of them."""
    return {name: number - fewer.get(name, 0) for name, number in places.items()}
