"""Reads a row: its beginning, its steps with their repeats, and what stands at its end.

Takes     the words of a row, without its label and its stated count.
Gives     ``RowReader``: the row as the oracle has it.
Problems  none.
From      notation.md: Chains at the start, How repeats end, Turning unsaid.
"""

from __future__ import annotations

import re
from collections.abc import Iterator
from dataclasses import dataclass, replace

from tests.oracle.places import base
from tests.oracle.structure import (
    Chain,
    ChainStitches,
    Count,
    Evenly,
    Leave,
    Repeat,
    Row,
    Same,
    Skip,
    Start,
    Step,
    Stitches,
    Travel,
)
from tests.seeded.phrases import Phrases
from tests.seeded.words import NotRead, Rows, Steps, group, is_aside, kinds_of, plus, split

#: Chains at the start that count when nothing is said, and the chain to work into: notation.md.
TURNING = {"dc": 3, "tr": 4}

TIMES = {"once": 1, "twice": 2, "three times": 3, "four times": 4}


@dataclass(frozen=True, slots=True)
class _Ending:
    joins: tuple[str, ...]
    off: bool
    turns: bool
    chain: tuple[Start, str] | None


class RowReader(Phrases):
    """Reads whole rows."""

    def __init__(self, rows: Rows) -> None:
        super().__init__(rows)
        self.begun = rows.start is not None
        self.chain: tuple[Start, str] | None = None

    def row(self, text: str) -> Iterator[Row]:
        """The rows of a line: often one; a ring and the first round on it are two."""
        parts = split(re.sub(r" and (join|turn)\b", r", \1", text))
        if len(parts) > 1 and re.fullmatch(r"[Ww]ith [A-Z][\w ]*", parts[0]):
            del parts[0]
        first = parts[0].lower() if parts else ""
        if first == "magic ring":
            row = self.steps_row(parts[1:])
            self.begun = True
            yield replace(row, begin="magic ring")
            return
        chain = re.fullmatch(rf"ch ({self.number})", parts[0], re.IGNORECASE)
        if chain and not self.begun:
            yield from self.beginning(self.count(chain[1]), parts[1:])
            return
        if all(is_aside(part) for part in parts):
            return
        yield self.steps_row(parts)

    def beginning(self, chains: Count, parts: list[str]) -> Iterator[Row]:
        """A starting chain, joined or not, and what is worked onto it in the same line."""
        self.begun = True
        join = parts[0] if parts and parts[0].startswith("join") else ""
        if "ring" in join:
            yield Row(begin="ring", chains=chains)
            if parts[1:]:
                yield self.steps_row(parts[1:])
        elif join:
            yield Row(begin="joined chain", chains=chains)
        elif parts and not all(is_aside(part) for part in parts):
            yield replace(self.steps_row(parts), begin="chain", chains=chains)
        else:
            yield Row(begin="chain", chains=chains)

    def steps_row(self, parts: list[str]) -> Row:
        """A row of steps and what stands at its end."""
        self.new_row()
        parts, ending = self.ends(parts)
        steps: list[Step] = []
        if self.chain is not None and not re.match(r"ch \d", parts[0] if parts else ""):
            self.borrows = True
            steps.append(self.stand(self.chain[0], parts, self.chain[1]))
        self.chain = ending.chain
        steps += self.steps(parts, head=not steps)
        if all(isinstance(step, Start | Travel | Leave) for step in steps):
            raise NotRead(", ".join(parts))
        row = Row(tuple(steps), turns=ending.turns, fastens_off=ending.off)
        self.row_kinds = kinds_of(row.steps)
        if self.unnamed and {base(kind) for kind in self.row_kinds} - {*self.unnamed, "sl st"}:
            raise NotRead("inc or dec between other stitches")
        for join in ending.joins:
            self.check_join(join)
        self.below = self.row_kinds
        return row

    def ends(self, parts: list[str]) -> tuple[list[str], _Ending]:
        """The parts that are steps, and what the others say."""
        joins: list[str] = []
        kept: list[str] = []
        off, turned, not_turned, chain = False, False, False, None
        for at, part in enumerate(parts):
            word = part.lower().removeprefix("then ")
            behind = [p for p in parts[at + 1 :] if not is_aside(p) and not p.startswith("ch ")]
            if word.startswith("join") and not behind and kept:
                joins.append(part)
            elif word == "fasten off":
                off = True
            elif word == "do not turn":
                not_turned = True
            elif word == "turn":
                turned = True
            elif (own := re.fullmatch(r"ch (\d)(?: \((.+)\))?", word)) and not behind and kept:
                chain = (Start(int(own[1])), own[2] or "")
            elif not is_aside(part):
                kept.append(part)
        if turned and self.rows.worked in ("joined rounds", "spiral rounds"):
            raise NotRead("turn in rounds that are not turned")
        if chain is not None and not (turned or joins):
            raise NotRead("a chain at the end")
        turns = not not_turned and (turned or not off)
        return kept, _Ending(tuple(joins), off, turns, chain)

    def check_join(self, text: str) -> None:
        """``to top of beg ch-3``, ``to first sc``: they name what the round has."""
        beg = re.search(r"beg ch-(\d)", text)
        if beg:
            chains = self.start.chains if self.start is not None else self.skipped
            self.claim(text, holds=chains, figure=int(beg[1]))
        first = re.fullmatch(rf"join with (?:sl st|ss) (?:to|in) first ({self.kind})", text)
        if first:
            kind = self.us(first[1])
            made = {base(one) for one in self.row_kinds} | self.row_kinds
            self.claim(text, holds=kind in made)
        elif beg is None and not re.fullmatch(
            r"join(?: with (?:sl st|ss)(?: (?:to|in) (?:first st|first ch|"
            r"(?:top|\d(?:nd|rd|th) ch) of beg [a-z0-9-]+))?)?",
            text,
        ):
            raise NotRead(text)

    def steps(self, parts: list[str], *, head: bool = False) -> list[Step]:
        """The steps of some parts, repeats from a star put together."""
        found: list[Step] = []
        at = 0
        while at < len(parts):
            part = parts[at]
            if part.startswith("*"):
                stop = self.end_of_star(parts, at)
                body = [part[1:].strip(), *parts[at + 1 : stop]]
                repeat, took = self.starred(body, parts[stop:])
                found += repeat
                at = stop + took
                continue
            travelled = all(isinstance(step, Travel) for step in found)
            ending = re.fullmatch(r"(?:ending|end) with (.+)", part)
            before = found[-1] if found else None
            if ending and isinstance(before, Repeat):
                found[-1] = replace(before, ending=True)
                part = ending[1]
            found += self.step(part, parts[at + 1 :], head=head and travelled)
            if isinstance(found[-1], Evenly):
                at += 1
            at += 1
        return found

    def end_of_star(self, parts: list[str], start: int) -> int:
        """The part that says how often a repeat from a star is worked."""
        for at in range(start, len(parts)):
            if re.match(r"rep(?:eat)? from \*", parts[at]):
                return at
        raise NotRead("a star without its repeat")

    def starred(self, body: list[str], rest: list[str]) -> tuple[list[Step], int]:
        """``*A, B; rep from * …`` and what is said of its last time."""
        marked = [at for at, part in enumerate(body) if part.endswith("**")]
        self.depth += 1
        inside = [self.steps([part.removesuffix("**")]) for part in body]
        self.depth -= 1
        steps = tuple(step for part in inside for step in part)
        extent = re.sub(r"^rep(?:eat)? from \* ?", "", rest[0])
        repeat = self.repeat(steps, extent, starred=True)
        last = rest[1] if len(rest) > 1 else ""
        if re.fullmatch(r"ending last rep at \*\*", last):
            if len(marked) != 1:
                raise NotRead(last)
            kept = tuple(step for part in inside[: marked[0] + 1] for step in part)
            return [replace(repeat, last=kept, last_form="stop")], 2
        if marked:
            raise NotRead("**")
        replaced = re.fullmatch(r"ending last rep with (.+)", last)
        if replaced:
            new = tuple(self.step(replaced[1], []))
            spaces = [" sp" in part for part in body]  # told of the last of its kind of place
            into = " sp" in replaced[1]
            at = max((at for at, one in enumerate(spaces) if one is into), default=len(body) - 1)
            kept = tuple(step for part in inside[:at] for step in part)
            return [replace(repeat, last=(*kept, *new), last_form="replace")], 2
        dropped = re.fullmatch(r"omitting (.+) on last rep", last)
        if dropped:
            if dropped[1] != body[-1]:
                raise NotRead(last)
            return [replace(repeat, last=steps[:-1], last_form="omit")], 2
        return [repeat], 1

    def repeat(self, steps: Steps, extent: str, *, starred: bool) -> Repeat:
        """A group with how often it is worked."""
        if extent in ("around", "across", "to end", "to end of row"):
            return Repeat(steps)
        last = re.fullmatch(rf"(?:around |across )?to last (?:({self.number}) )?(.+)", extent)
        if last:
            name = self.place(last[2])
            return Repeat(steps, but=self.count(last[1]) if last[1] else 1, but_name=name)
        more = re.fullmatch(
            rf"(?:({self.number}) more times?|(once|twice|three times) more)", extent
        )
        if more and starred:
            times = self.count(more[1]) if more[1] else TIMES[more[2]]
            return Repeat(steps, plus(times, 1))
        plain = re.fullmatch(rf"[x×] ?({self.number})|({self.number}) times?", extent)
        if plain:
            times = self.count(plain[1] or plain[2])
            return Repeat(steps, plus(times, 1) if starred else times)
        if extent in TIMES:
            return Repeat(steps, TIMES[extent] + int(starred))
        raise NotRead(extent)

    def step(self, part: str, following: list[str], *, head: bool = False) -> list[Step]:
        """The step of one part; sometimes it is two: ``sc in first st and in each st``."""
        part = re.sub(r"^(?:then |work )", "", part)
        bracketed = group(part)
        if bracketed is not None:
            inner, extent = bracketed
            self.depth += 1
            inside = tuple(self.steps(split(inner)))
            self.depth -= 1
            return [self.repeat(inside, extent, starred=False)]
        chain = re.fullmatch(rf"ch ({self.number})(?: \((.+)\))?", part, re.IGNORECASE)
        if chain:
            return [self.chains(self.count(chain[1]), chain[2] or "", following, head=head)]
        two = re.fullmatch(r"(.+?) and in (each .+|next .+)", part)
        if two and not re.search(r"in each ", two[1]):
            before = self.step(two[1], following, head=head)
            kind = words_of(two[1])
            return [*before, *self.step(f"{kind} in {two[2]}", following)]
        evenly = following[:1] and re.fullmatch(
            rf"(dec|inc) ({self.number}) sts? evenly(?: around| across)?", following[0]
        )
        if evenly:
            plain = re.fullmatch(rf"({self.kind}) (?:around|across)", part)
            if plain is None:
                raise NotRead(part)
            return [Evenly(self.us(plain[1]), evenly[1], self.count(evenly[2]))]
        for pattern, method in self.phrases:
            found = pattern.fullmatch(part)
            if found:
                steps = method(self, found)
                if not any(isinstance(step, Skip | Leave | Travel) for step in steps):
                    self.nothing_yet, self.stood = False, True
                    self.at_first = all(isinstance(step, Same) for step in steps)
                return steps
        raise NotRead(part)

    def chains(self, number: Count, said: str, following: list[str], *, head: bool) -> Step:
        """``ch 3``: at the start of a row, between two steps, or as stitches."""
        many = re.fullmatch(rf"counts as ({self.number}) sts", said)
        if many:
            self.claim(f"ch {number} ({said})", holds=number, figure=self.count(many[1]))
            self.nothing_yet, self.stood = False, True
            return ChainStitches(number)
        if head and self.nothing_yet and self.rows.worked != "spiral rounds":
            if not isinstance(number, int):
                raise NotRead("a turning chain by size")
            return self.stand(Start(number), following, said)
        if said:
            raise NotRead(said)
        self.stood = True
        return Chain(number)

    def stand(self, start: Start, following: list[str], said: str = "") -> Start:
        """What the chain at the start stands for: as said, else by the table."""
        counted = re.fullmatch(
            rf"counts as (?:a |first |1 )?({self.kind})(?: and (?:a )?ch (\d)| \+ ch (\d))?", said
        )
        if counted:
            beside = int(counted[2] or counted[3] or 0)
            start = replace(start, stands_for=self.us(counted[1]), beside=beside)
        elif said and not re.fullmatch(r"does not count(?: as (?:a )?st)?", said):
            raise NotRead(said)
        elif not said:
            first = self.first_kind(following)
            if TURNING.get(first) == start.chains:
                start = replace(start, stands_for=first)
            if first == "hdc" and start.chains == 2:
                raise NotRead("a turning chain before hdc, left unsaid")
        self.start = start
        if start.stands_for:
            self.named = start.stands_for
            self.stood, self.nothing_yet = True, False
        return start

    def first_kind(self, following: list[str]) -> str:
        """The kind of the first stitch after the chain."""
        found = re.search(rf"(?<![\w-])(?:{self.kind}|inc|dec)(?![\w-])", ", ".join(following))
        together = re.search(r"(?<![\w-])([a-z]+)\dtog", ", ".join(following))
        if together and (found is None or together.start() < found.start()):
            return self.us(together[1])
        if found is None:
            return ""
        if found[0] in ("inc", "dec"):
            return next(iter(self.below)) if len(self.below) == 1 else ""
        special = self.special.get(found[0])
        if special is not None:
            return next((part.kind for part in special if isinstance(part, Stitches)), "")
        return base(self.us(found[0]))


def words_of(text: str) -> str:
    """The words of the stitch in a phrase: ``2 dc`` of ``2 dc in 2nd ch from hook``."""
    return text.partition(" in ")[0]
