"""Shells that a round begins with, and the spaces of shells among spaces as long."""

from __future__ import annotations

import pytest

from workeven.proof.counting import count

SHELL = "shell = (3 dc, ch 2, 3 dc) in same sp"
BEG_SHELL = "beg shell = (ch 3, 2 dc, ch 2, 3 dc) in same sp"
#: twelve shells with ch-2 sps between them, and as many into their own spaces
ROUNDS = """\
Sl st in next ch-2 sp, beg shell in same sp, ch 2, *shell in next ch-2 sp, ch 2; rep from * \
around, join with sl st to top of beg ch-3 (12 shells)
Sl st in next 2 dc and in ch-2 sp, beg shell in same sp, ch 2, *shell in ch-2 sp of next shell, \
ch 2; rep from * around, join with sl st to top of beg ch-3 (12 shells, 12 ch-2 sps)"""
JOIN = "join with sl st to first dc"


@pytest.mark.parametrize("stitches", [(SHELL, BEG_SHELL), (SHELL,)])
def test_the_chain_of_a_beginning_shell_is_its_first_stitch(stitches: tuple[str, ...]) -> None:
    """12 shells of 6 dc are 72 dc, in both rounds: ch 3 and 5 dc are six."""
    rounds = ROUNDS.replace(", 12 ch-2 sps", "")
    checked = count(rounds, worked="joined rounds", start="12 dc, 12 ch-2 sps", stitches=stitches)
    assert () == checked.problems
    assert checked.value is not None
    assert [(72,), (72,)] == [row.sts for row in checked.value.rows]


def test_the_space_of_a_shell_is_not_one_between_shells() -> None:
    """24 ch-2 sps are there, 12 of them in shells: 12 shells come of it, not 24."""
    rounds = (
        f"ch 1, *shell in next ch-2 sp, ch 2; rep from * around, {JOIN}\n"
        f"ch 1, *shell in ch-2 sp of next shell, ch 2; rep from * around, {JOIN}"
    )
    checked = count(rounds, worked="joined rounds", start="12 dc, 12 ch-2 sps", stitches=(SHELL,))
    assert () == checked.problems
    assert checked.value is not None
    assert (("dc", 72), ("ch-2 sp", 24)) == checked.value.rows[1].makes[0]


def test_shells_explained_in_the_round_begin_the_next_one_too() -> None:
    """What is called "beg shell made" and "shell made" holds from there on."""
    rounds = (
        "Sl st in next ch-2 sp, (ch 3, 2 dc, ch 2, 3 dc) in same sp (beg shell made), ch 2, "
        "*(3 dc, ch 2, 3 dc) in next ch-2 sp (shell made), ch 2; rep from * around, join with sl "
        "st to top of beg ch-3 (12 shells)\n"
        "Sl st in next 2 dc and in ch-2 sp, beg shell in same sp, ch 5, *shell in ch-2 sp of next "
        "shell, ch 5; rep from * around, join with sl st to top of beg ch-3 (12 shells, 12 ch-5 "
        "sps)"
    )
    checked = count(rounds, worked="joined rounds", start="12 dc, 12 ch-2 sps")
    assert () == checked.problems
    assert checked.value is not None
    assert (72,) == checked.value.rows[1].sts


def test_a_declared_beginning_says_what_its_chain_counts_as() -> None:
    """(ch 2 (does not count), 2 dc): two dc; (ch 4, 2 dc) keeps its chain as a space."""
    row = "sl st in next ch-2 sp, beg fan in same sp, ch 1, *fan in next ch-2 sp, ch 1; rep from *"
    made = [
        count(
            f"{row} around, join",
            worked="joined rounds",
            start="6 dc, 6 ch-2 sps",
            stitches=(f"beg fan = ({chain}, 2 dc) in same sp", "fan = 3 dc in same sp"),
        ).value
        for chain in ("ch 3", "ch 4")
    ]
    assert all(one is not None for one in made)
    assert [18, 17] == [one.rows[0].sts[0] for one in made if one is not None]
