"""Writes structured rows in the trade's words, in a wording chosen by a seeded generator.

Takes     a ``Piece``, a ``Random``, US or UK terms.
Gives     ``Text``: the rows as one would type them, and which row each line ends with.
Problems  none.
From      notation.md, the table of steps, Sizes, Stated counts, Labels, How repeats end.

The same piece can be written many times; every text means the same and has the same counts.
"""

from __future__ import annotations

import random
from dataclasses import dataclass
from typing import Literal

from tests.oracle.structure import (
    Again,
    All,
    Between,
    Center,
    Chain,
    ChainStitches,
    Content,
    Corners,
    Count,
    Evenly,
    FromHook,
    Leave,
    OtherSide,
    Piece,
    Repeat,
    Row,
    Same,
    Skip,
    SoFar,
    Standing,
    Start,
    Stated,
    Step,
    Stitches,
    Together,
    Travel,
    Work,
    at_size,
)
from tests.oracle.walker import base

#: US kind: UK kind (standards, terms US/UK: sc is dc, and so on).
UK = {"sc": "dc", "hdc": "htr", "dc": "tr", "tr": "dtr", "dtr": "ttr", "fsc": "fdc", "fdc": "ftr"}

#: What a start chain or skipped chains stand for by default: (kind, chains or place from the hook).
STANDS = {("dc", 3): "dc", ("tr", 4): "tr"}
SKIPPED = {("dc", 4): "dc", ("tr", 5): "tr"}

V_STITCH: Content = (Stitches("dc"), Chain(1), Stitches("dc"))

Terms = Literal["us", "uk"]
TERMS: tuple[Terms, ...] = ("us", "us", "uk")

ORDINALS = {2: "2nd", 3: "3rd", 4: "4th", 5: "5th", 6: "6th", 7: "7th", 8: "8th", 9: "9th"}
TIMES = {1: "once", 2: "twice", 3: "three times"}


@dataclass(frozen=True, slots=True)
class Line:
    """One line of a text: its number, and the entry of the piece whose count stands after it."""

    number: int
    entry: int


@dataclass(frozen=True, slots=True)
class Doubt:
    """A step of a row, at its place in ``Row.steps``, that the words leave open to two readings.

    ``split``: practice is split; else the notation names a default and nothing more.
    """

    entry: int
    index: int
    split: bool


@dataclass(frozen=True, slots=True)
class Text:
    """A piece in words."""

    text: str
    lines: tuple[Line, ...]
    terms: Terms
    stitches: tuple[str, ...] = ()
    doubts: tuple[Doubt, ...] = ()


def kind_in(terms: str, kind: str) -> str:
    """A stitch by its name in US or UK terms.

    >>> kind_in("uk", "sc2tog"), kind_in("uk", "fpdc"), kind_in("us", "sc")
    ('dc2tog', 'fptr', 'sc')
    """
    if terms == "us":
        return kind
    for prefix in ("fp", "bp"):
        if kind.startswith(prefix):
            return prefix + UK[kind.removeprefix(prefix)]
    if kind.endswith("tog"):
        legs = kind.removesuffix("tog").lstrip("abcdefghijklmnopqrstuvwxyz")
        return f"{UK[base(kind)]}{legs}tog"
    return UK.get(kind, kind)


def write(piece: Piece, rng: random.Random, terms: Terms = "us", *, curt: bool = False) -> Text:
    """The piece in words chosen by ``rng``; ``curt``: it leaves unsaid what has a default."""
    return _Writer(piece, rng, terms, curt=curt).piece_text()


def number(count: Count, rng: random.Random) -> str:
    """A number by size: ``6``, ``6 (7, 8)``, nine sizes often in two brackets."""
    if isinstance(count, int):
        return str(count)
    if len(set(count)) == 1 and rng.random() < 0.7:
        return str(count[0])
    dash = rng.choice(["0", "0", "-"])
    figures = [str(n) if n else dash for n in count]
    if len(figures) == 1:
        return figures[0]
    if len(figures) > 5 and rng.random() < 0.5:
        middle = 1 + (len(figures) - 1) // 2
        return f"{figures[0]} ({', '.join(figures[1:middle])}) ({', '.join(figures[middle:])})"
    return f"{figures[0]} ({', '.join(figures[1:])})"


def less(count: Count, by: int) -> Count:
    """Every size's number less something."""
    return count - by if isinstance(count, int) else tuple(n - by for n in count)


def is_one(count: Count) -> bool:
    """Whether the number is 1 in every size."""
    return set(count if isinstance(count, tuple) else (count,)) == {1}


class _Writer:
    """Writes one piece; keeps what the words of a row hang on."""

    def __init__(self, piece: Piece, rng: random.Random, terms: Terms, *, curt: bool) -> None:
        self.curt = curt
        self.piece = piece
        self.rng = rng
        self.terms = terms
        self.flat = piece.worked == "flat rows"
        self.turned = piece.worked == "joined rounds, turned"
        self.spiral = piece.worked == "spiral rounds"
        self.skip = "miss" if terms == "uk" and rng.random() < 0.8 else rng.choice(["sk", "skip"])
        self.rep = rng.choice(["rep", "rep", "repeat"])
        self.labels = rng.random() < 0.6
        self.says_turn = rng.random() < 0.7
        self.colon = rng.choice([",", ",", ",", ";"])
        self.lines: list[str] = []
        self.ends: list[Line] = []
        self.row_number: int | None = 1
        self.row_numbers: dict[int, int | None] = {}
        # within a row
        self.named = ""
        self.below = ""
        self.nothing_yet = True
        self.stood = False
        self.depth = 0
        self.skipped = 0
        self.heading = ""
        self.names: dict[int, str] = {}
        self.doubts: list[Doubt] = []
        self.entry = 0
        self.index = 0
        self.chain_made = False
        self.stands = False
        self.declared: dict[str, str] = {}
        self.special = rng.random() < 0.5
        self.chain_at_end = rng.random() < 0.2
        self.row_kinds: set[str] = set()
        self.in_space = False
        self.turning_chain = (0, 0)

    # --- lines -----------------------------------------------------------------------------

    def piece_text(self) -> Text:
        entry = 0
        while entry < len(self.piece.rows):
            row = self.piece.rows[entry]
            following = self.piece.rows[entry + 1] if entry + 1 < len(self.piece.rows) else None
            if isinstance(row, Again):
                self.again(row, entry)
            elif self.merges(row, following):
                assert isinstance(following, Row)
                self.row_lines(following, entry + 1, before=self.beginning(row))
                entry += 1
            elif row.begin and not row.steps:
                self.line(self.beginning(row), entry)
            else:
                self.row_lines(row, entry)
            entry += 1
        text = "\n".join(self.lines) + "\n"
        if self.piece.each_chain:
            self.declared["ch"] = "each ch of a round counts as a st"
        declared = tuple(self.declared.values())
        return Text(text, tuple(self.ends), self.terms, declared, tuple(self.doubts))

    def merges(self, row: Row, following: Row | Again | None) -> bool:
        """Whether a starting chain or ring is written in one line with the row on it."""
        return (
            row.begin in ("chain", "ring")
            and not row.steps
            and row.stated is None
            and isinstance(following, Row)
            and following.times == 1
            and self.rng.random() < 0.25
        )

    def line(self, text: str, entry: int) -> None:
        self.lines.append(text)
        self.ends.append(Line(len(self.lines), entry))

    def beginning(self, row: Row) -> str:
        chains = number(row.chains, self.rng)
        if row.begin == "chain":
            return f"ch {chains}" + self.stated(row, f"ch {chains}")
        if row.begin == "joined chain":
            join = self.rng.choice(["join with sl st to first ch", "join with sl st in first ch"])
            return f"ch {chains}, {join}"
        form = ["join with sl st to first ch to form ring", "join to form ring"]
        return f"ch {chains}, {self.rng.choice(form)}"

    def label(self, first: int | None, last: int | None = None) -> str:
        if not self.labels or first is None:
            return ""
        word = "Row" if self.flat else "Rnd"
        if last is None or last == first:
            return f"{word} {first}: "
        dash = self.rng.choice(["-", "–", "-"])
        return f"{word}s {first}{dash}{last}: "

    def advance(self, times: Count) -> tuple[int | None, int | None]:
        """The first and last number of the next rows; ``None`` once they differ by size."""
        first = self.row_number
        if first is None:
            return None, None
        if isinstance(times, tuple) and len(set(times)) > 1:
            self.row_number = None
            return None, None
        self.row_number = first + at_size(times, 0)
        return first, self.row_number - 1

    def row_lines(self, row: Row, entry: int, before: str = "") -> None:
        """A row, written once, as a range, or as a row and its repeats."""
        if row.works is not None:
            self.row_number = None
        self.row_numbers[entry] = self.row_number
        self.entry = entry
        if any(isinstance(row, Again) and row.first == entry for row in self.piece.rows):
            self.below = ""  # "inc" is of the row before, which is another when it is repeated
        if row.worked:
            self.change_over(row.worked)
        following = self.next_row(entry)
        only = self.only(row)
        text = self.heading + self.row_text(row, following)
        self.heading = ""
        if before:
            text = f"{before}{self.rng.choice([', ', '; '])}{text}"
        if row.times == 1:
            label = self.named_row(entry, self.label(self.advance(1)[0]), text)
            self.line(only + label + text, entry)
            return
        same = isinstance(row.times, int) or len(set(row.times)) == 1
        form = self.rng.choice(["range", "repeat", "lines"] if same else ["repeat", "sized range"])
        if form == "sized range" and self.labels and self.row_number and not only:
            self.line(self.sized_range(row.times) + text, entry)
            return
        if form == "lines" and at_size(row.times, 0) > 4:
            form = "repeat"
        if form == "range" and not (self.labels and self.row_number):
            form = "repeat"
        if form == "range":
            self.line(only + self.label(*self.advance(row.times)) + text, entry)
        elif form == "lines":
            for _ in range(at_size(row.times, 0)):
                self.line(only + self.label(self.advance(1)[0]) + text, entry)
        else:
            self.line(only + self.label(self.advance(1)[0]) + text, entry)
            more = less(row.times, 1)
            self.advance(more)
            self.line(only + self.repeat_of_last(entry, more), entry)

    def change_over(self, worked: str) -> None:
        """``now work in rows``, on a line of its own or at the head of the row."""
        self.flat, self.turned = worked == "flat rows", False
        self.spiral = False
        words = "now work in rows" if self.flat else "now work in joined rounds"
        if self.rng.random() < 0.5:
            self.lines.append(words)
        else:
            self.heading = f"{words}, "

    def next_row(self, entry: int) -> Row | None:
        """The row after an entry, in a piece that repeats none by its number."""
        if any(isinstance(row, Again) for row in self.piece.rows):
            return None
        rows = [row for row in self.piece.rows[entry + 1 : entry + 2] if isinstance(row, Row)]
        return rows[0] if rows else None

    def named_row(self, entry: int, label: str, text: str) -> str:
        """The label; a row that is repeated later may have a name in its place."""
        rows = self.piece.rows[entry + 1 :]
        repeated = any(isinstance(row, Again) and row.first == row.last == entry for row in rows)
        if text[0].isdigit():  # "Shell rnd: 9 dc" would state a count
            return label
        if not repeated or self.rng.random() < 0.5:
            return label
        name = f"{self.rng.choice(['Shell', 'Plain', 'Edge'])} {'row' if self.flat else 'rnd'}"
        self.names[entry] = name
        return f"{name}: "

    def sized_range(self, times: Count) -> str:
        """``Rows 25-28 (25-32): ``."""
        first = self.row_number
        assert first is not None
        assert isinstance(times, tuple)
        self.row_number = None
        spans = [f"{first}-{first + n - 1}" for n in times]
        word = "Rows" if self.flat else "Rnds"
        return f"{word} {spans[0]} ({', '.join(spans[1:])}): "

    def repeat_of_last(self, entry: int, more: Count) -> str:
        word = "row" if self.flat else "rnd"
        forms = [f"{self.rep} last {word} {self.more(more)}"]
        first = self.row_numbers[entry]
        if first is not None and self.labels and isinstance(more, int):
            name = f"{word.capitalize()} {first}"
            forms.append(f"{self.label(first + 1, first + more)}{self.rep} {name}")
        return self.rng.choice(forms)

    def more(self, count: Count) -> str:
        """``twice more``, ``5 more times``."""
        if count == 1:
            return self.rng.choice(["once more", "1 more time"])
        if count == 2 and self.rng.random() < 0.5:
            return "twice more"
        return f"{number(count, self.rng)} more times"

    def again(self, again: Again, entry: int) -> None:
        word = "Row" if self.flat else "Rnd"
        first, last = self.row_numbers.get(again.first), self.row_numbers.get(again.last)
        assert first is not None, "a row that is repeated has a number"
        assert last is not None, "a row that is repeated has a number"
        name = self.names.get(again.first, "") if again.first == again.last else ""
        span = f"{word}s {first} and {last}" if last == first + 1 else f"{word}s {first}-{last}"
        if last == first:
            span = name or f"{word} {first}"
        rows = (last - first + 1) * (again.times if isinstance(again.times, int) else 0)
        label = ""
        if isinstance(again.times, int):
            start, end = self.advance(rows)
            label = self.label(start, end)
        else:
            self.row_number = None
        self.below = ""
        self.turning_chain = (0, 0)
        self.line(f"{label}{self.rep} {span} {self.more(again.times)}", entry)

    def only(self, row: Row) -> str:
        if row.works is None:
            return ""
        names = [n for n, works in zip(self.piece.sizes, row.works, strict=True) if works]
        first = self.piece.sizes.index(names[0])
        run = list(self.piece.sizes[first : first + len(names)]) == names
        if len(names) == 1:
            return f"size {names[0]} only: "
        if run and len(names) > 2:
            return f"sizes {names[0]}{self.rng.choice(['–', '-'])}{names[-1]} only: "
        return f"sizes {', '.join(names[:-1])} and {names[-1]} only: "

    # --- a row -----------------------------------------------------------------------------

    def row_text(self, row: Row, following: Row | None = None) -> str:
        self.named = ""
        self.nothing_yet = True
        self.stood = False
        self.in_space = False
        self.row_kinds = {base(kind) for step in row.steps for kind in _kinds(step)}
        own = row.steps
        self.skipped = int(self.chain_made)
        if self.chain_made:
            own = _without_start(own)
            self.nothing_yet = not self.stands
            self.stood = self.stands
        steps = self.steps(own)
        parts = [f"working in {row.loops} only"] if row.loops else []
        if row.begin == "magic ring":
            parts.insert(0, self.rng.choice(["magic ring", "magic ring"]))
        if row.begin == "foundation":
            work = row.steps[0]
            assert isinstance(work, Work)
            steps = [self.foundation(work)]
        if row.begin == "chain":
            parts.insert(0, f"ch {number(row.chains, self.rng)}")
        parts += steps
        parts += self.end(row, following)
        text = f"{self.colon} ".join(parts[:1]) if len(parts) == 1 else ", ".join(parts)
        self.below = _all_of_one(row) if row.works is None else ""
        self.turning_chain = _turning_chain(row)
        return text + self.stated(row, text)

    def foundation(self, step: Work) -> str:
        """``fsc 40``."""
        part = step.content[0]
        assert isinstance(part, Stitches)
        return f"{kind_in(self.terms, part.kind)} {number(part.number, self.rng)}"

    def end(self, row: Row, following: Row | None) -> list[str]:
        parts = []
        chain = self.next_chain(row, following)
        if not self.flat and not self.spiral:
            parts.append(self.join(row))
        if row.fastens_off:
            parts.append("fasten off")
        if not row.turns:
            if self.flat or (self.turned and self.rng.random() < 0.5):
                parts.append("do not turn")
        elif (self.flat or self.turned) and (self.says_turn or chain):
            parts += [chain, "turn"] if chain else ["turn"]
        return parts

    def next_chain(self, row: Row, following: Row | None) -> str:
        """The next row's turning chain, where this text puts it before the turn."""
        self.chain_made, self.stands = False, False
        if following is None or not (self.flat or self.turned) or not self.chain_at_end:
            return ""
        plain = row.turns and row.works is None and following.works is None
        first = following.steps[0] if following.steps else None
        if not plain or not isinstance(first, Start) or row.times != 1 or following.times != 1:
            return ""
        if first.beside or following.begin or following.loops or following.worked:
            return ""
        here, self.entry, self.index = self.entry, self.entry + 1, 0
        said = self.start(first, following.steps[1])
        self.entry = here
        self.chain_made = True
        self.stands = bool(first.stands_for) or Doubt(self.entry + 1, 0, split=True) in self.doubts
        return said

    def join(self, row: Row) -> str:
        first = _first_made(row)
        if first is None:
            return "join"
        kind, beside, chains = first
        name = kind_in(self.terms, kind)
        if chains and beside:
            nth = ORDINALS.get(chains - beside)
            return f"join with sl st to {nth} ch of beg ch-{chains}"
        if chains:
            to = self.rng.choice(["to", "in"])
            return self.rng.choice([f"join with sl st {to} top of beg ch-{chains}", "join"])
        name = self.rng.choice([name, name, "st"])
        to = self.rng.choice(["to", "in"])
        return self.rng.choice([f"join with sl st {to} first {name}"] * 2 + ["join"])

    def stated(self, row: Row, text: str) -> str:
        """The stated count; right behind a list by size it has a unit, to be told from it."""
        if row.stated is None:
            return ""
        bare = not (self.piece.sizes and (text.endswith(")") or text[-1].isdigit()))
        return _stated_text(row.stated, self.rng, self.terms, bare=bare)

    def steps(self, steps: tuple[Step, ...]) -> list[str]:
        """The words of some steps, in order; some are put together."""
        words: list[str] = []
        for index, step in enumerate(steps):
            if not self.depth:
                self.index = index + self.skipped
            following = steps[index + 1] if index + 1 < len(steps) else None
            before = steps[index - 1] if index else None
            if isinstance(step, SoFar):
                words[-1] += self.so_far(step)
                continue
            text = self.step(step, following)
            if (
                isinstance(before, FromHook | Same)
                and isinstance(step, Work | All)
                and step.content == before.content
                and step.into in ("ch", "st")
                and " and in each " not in words[-1]
                and "(" not in words[-1]
                and " in each " in text
                and self.rng.random() < 0.5
            ):
                words[-1] += " and in each " + text.split(" in each ", 1)[1]
            elif isinstance(before, Repeat) and before.ending:
                words[-1] += (
                    f", {self.rng.choice(['ending with', 'ending with', 'end with'])} {text}"
                )
            else:
                words.append(text)
        return words

    def step(self, step: Step, following: Step | None) -> str:
        match step:
            case Start():
                return self.start(step, following)
            case Travel():
                return self.travel(step)
            case FromHook():
                return self.from_hook(step)
            case Standing():
                return self.standing(step)
            case Repeat():
                return self.repeat(step)
            case Evenly():
                return self.evenly(step)
            case Skip() | Chain() | ChainStitches() | Leave() | OtherSide():
                return self.bare_step(step)
            case _:
                text = self.stitch_step(step)
                self.nothing_yet = False
                self.stood = True
                return text

    def bare_step(self, step: Skip | Chain | ChainStitches | Leave | OtherSide) -> str:
        """A step that works into no place."""
        match step:
            case Skip():
                return self.skips(step)
            case Chain():
                return f"ch {number(step.number, self.rng)}"
            case ChainStitches():
                chains = number(step.number, self.rng)
                return f"ch {chains} (counts as {chains} sts)"
            case Leave():
                return self.rng.choice(["leave rem sts unworked", "leave remaining sts unworked"])
            case OtherSide():
                side = self.rng.choice(["other side", "opposite side"])
                return f"working along {side} of {self.rng.choice(['ch', 'foundation ch'])}"

    def stitch_step(self, step: Step) -> str:
        """A step that works into places."""
        match step:
            case Work():
                return self.work(step)
            case All():
                return self.all(step)
            case Same():
                return self.same(step)
            case Center():
                return f"{self.content(step.content)} in {self.center(step)}"
            case Between():
                groups = self.groups(step.kind, step.size)
                where = "each sp" if step.each else "next sp"
                return f"{self.content(step.content)} in {where} between {groups}"
            case Corners():
                return self.corners(step)
            case Together():
                return self.together(step)
            case _:
                raise AssertionError(step)

    # --- beginnings ------------------------------------------------------------------------

    def start(self, step: Start, following: Step | None) -> str:
        first = kind_after(following)
        default = STANDS.get((first, step.chains), "")
        text = f"ch {step.chains}"
        same = default == step.stands_for and not step.beside and first in UK
        if step.stands_for:
            self.stood = True
            self.nothing_yet = False
            kind = kind_in(self.terms, step.stands_for)
            beside = f" and ch {step.beside}" if step.beside else ""
            said = f"{text} (counts as {kind}{beside})"
        else:
            said = self.rng.choice([f"{text} (does not count)", f"{text} (does not count as st)"])
        split = first == "hdc" and step.chains == 2
        if same and (self.curt or self.rng.random() < (0.2 if split else 0.6)):
            self.doubt(split=split)
            self.stood = self.stood or split  # "first st" would say that the chain does not count
            return text
        return said

    def doubt(self, *, split: bool) -> None:
        """Remembers that the step being written may be read in two ways."""
        doubt = Doubt(self.entry, self.index, split)
        if doubt not in self.doubts:
            self.doubts.append(doubt)

    def travel(self, step: Travel) -> str:
        self.stood = False
        self.in_space = bool(step.to)
        if step.joins:
            place = self.place_name(step.to, 1) if step.to else "first st"
            where = self.rng.choice(["any", "first"]) if step.to else ""
            colour = self.rng.choice(["yarn", "B", "new colour"])
            return f"join {colour} with sl st in {f'{where} {place}'.strip()}"
        if step.to:
            place = self.place_name(step.to, 1)
            return self.rng.choice([f"sl st to next {place}", f"sl st over to next {place}"])
        count = number(step.count, self.rng)
        return self.rng.choice(
            [f"sl st in each of first {count} sts", f"sl st in first {count} sts"]
        )

    def standing(self, step: Standing) -> str:
        self.stood = True
        self.nothing_yet = False
        self.named = step.kind
        colour = self.rng.choice(["yarn", "B", "new colour"])
        return f"join {colour} with {kind_in(self.terms, step.kind)} in first st"

    def from_hook(self, step: FromHook) -> str:
        self.nothing_yet = False
        self.stood = True
        kind = _first_kind(step.content)
        text = f"{self.content(step.content)} in {ORDINALS[step.nth]} ch from hook"
        default = SKIPPED.get((kind, step.nth), "")
        skipped = self.rng.choice([f"skipped {step.nth - 1} chs", "skipped chs"])
        plain = default == step.stands_for and not step.beside
        if plain and (self.curt or self.rng.random() < 0.6):
            self.doubt(split=kind == "hdc" and step.nth == 3)
            return text
        if not step.stands_for:
            if kind == "sc" and step.nth == 2:
                return text
            return f"{text} ({skipped} do not count)"
        beside = f" and ch {step.beside}" if step.beside else ""
        return f"{text} ({skipped} count as {kind_in(self.terms, step.stands_for)}{beside})"

    # --- stitches and their places ---------------------------------------------------------

    def content(self, content: Content) -> str:
        """What goes into one place: ``sc``, ``2 dc``, ``(dc, ch 1, dc)``, a shell by its name."""
        parts = []
        for part in content:
            if isinstance(part, Chain):
                parts.append(f"ch {number(part.number, self.rng)}")
            else:
                kind = kind_in(self.terms, part.kind)
                self.named = part.kind
                if part.kind == "cl":
                    leg = kind_in(self.terms, "dc")
                    self.declared["cl"] = f"cl = 3-{leg} cluster in same st (1 st)"
                many = "" if is_one(part.number) else f"{number(part.number, self.rng)} "
                parts.append(f"{many}{kind}")
        if len(parts) == 1:
            return parts[0]
        return f"({', '.join(parts)})"

    def place_name(self, into: str, count: Count) -> str:
        """``st``, ``sts``, ``ch-2 sps``, ``sc``."""
        plural = not is_one(count)
        if into.startswith("ch-"):
            return into + ("s" if plural else "")
        if into == "sp":
            return self.rng.choice(["sp", "ch sp"]) + ("s" if plural else "")
        if into in ("st", "ch"):
            return into + ("s" if plural else "")
        if into == "tch":
            chains, beside = self.turning_chain
            name = self.rng.choice(["tch", "turning ch"])
            return f"{ORDINALS[chains - beside]} ch of {name}" if beside else f"top of {name}"
        return kind_in(self.terms, into)

    def work(self, step: Work) -> str:
        count = number(step.count, self.rng)
        one = is_one(step.count)
        single = len(step.content) == 1
        part = step.content[0]
        if step.into == "ring":
            return f"{self.content(step.content)} in ring"
        if step.into == "tch":
            return f"{self.content(step.content)} in {self.place_name('tch', 1)}"
        plain = single and isinstance(part, Stitches) and is_one(part.number)
        if self.can_say_inc(step):
            return "inc"
        post = single and isinstance(part, Stitches) and part.kind[:2] in ("fp", "bp")
        first = self.nothing_yet and not self.stood and step.which == "next" and not self.depth
        which = "first" if first and self.rng.random() < 0.6 else step.which
        place = self.place_name(step.into, step.count)
        where = "around" if post else "in"
        content = self.shell(step) or self.content(step.content)
        if step.which in ("center", "first") and step.into.startswith("ch-"):
            return f"{content} in {step.which} ch of next {place}"
        forms = [f"{content} {where} each of {which} {count} {place}"]
        if one:
            forms = [f"{content} {where} {which} {place}"]
        elif plain:
            forms.append(f"{content} {where} {which} {count} {place}")
            if not post and step.into in ("st", "ch") and self.rng.random() < 0.3:
                forms.append(f"{count} {content} {where} {which} {count} {place}")
            if which == "next":
                forms.append(f"{content} {where} each of the next {count} {place}")
        if plain and not post and step.into in ("st", "ch") and step.which == "next":
            assert isinstance(part, Stitches)
            forms += [f"{content} {count}"] * 2 if self.base_named(part) else []
            if not one:
                forms.append(f"{count} {content}")
        bracketed = one and single and not plain and not post and content not in self.declared
        if step.into == "st" and bracketed:
            forms.append(f"({content}) {where} {which} {place}")
        return self.rng.choice(forms)

    def shell(self, step: Work) -> str:
        """``shell`` for what is worked into one stitch, where this text declares it."""
        named = {(Stitches("dc", 5),): "shell", V_STITCH: "v-st"}.get(step.content, "")
        if not named or not self.special or step.into not in ("st", "ch"):
            return ""
        self.named = "dc"
        content = self.content(step.content)
        self.declared[named] = f"{named} = {content} in same st"
        return named

    def base_named(self, part: Stitches) -> bool:
        return part.kind != "sl st"

    def can_say_inc(self, step: Work) -> bool:
        """``inc``: of the stitch last named in the row, else of the row before."""
        part = step.content[0]
        if len(step.content) != 1 or not isinstance(part, Stitches):
            return False
        if part.number != 2 or not is_one(step.count) or step.into != "st" or step.which != "next":
            return False
        doubt = not self.row_kinds <= {part.kind}
        return (self.named or self.below) == part.kind and not doubt and self.rng.random() < 0.5

    def all(self, step: All) -> str:
        inc = self.can_say_inc(Work(step.content)) and step.but == 0
        content = self.content(step.content)
        part = step.content[0]
        plain = len(step.content) == 1 and isinstance(part, Stitches) and is_one(part.number)
        place = self.place_name(step.into, 1)
        each = f"in each {place}"
        if step.into == "st and sp":
            each = self.rng.choice(["in each st and sp", "in each st and in each sp"])
        if isinstance(part, Stitches) and part.kind[:2] in ("fp", "bp"):
            each = f"around each {place}"
        if step.to is not None:
            return f"{content} {each} to next {self.place_name(step.to, 1)}"
        if step.but != 0:
            unit = self.place_name(
                "st" if step.into in ("st", "st and sp") else step.into, step.but
            )
            last = "last" if is_one(step.but) else f"last {number(step.but, self.rng)}"
            forms = [f"{content} {each} to {last} {unit}"]
            if plain and step.into == "st":
                forms.append(f"{content} to {last} {unit}")
            return self.rng.choice(forms)
        if isinstance(part, Stitches) and part.kind == "sl st":
            return f"{content} {each} {'across' if self.flat else 'around'}"  # "to end" is travel
        across = self.across()
        forms = [f"{content} {each} {across}"] * 2
        if inc and step.into == "st":
            forms += [f"inc {across}", f"inc in each st {across}"]
        if plain and step.into == "st":
            forms.append(f"{content} {across}")
        if not self.nothing_yet and step.into in ("st", "ch"):
            forms.append(f"{content} in each rem {place}")
        return self.rng.choice(forms)

    def across(self) -> str:
        return self.rng.choice(["across", "across", "to end"] if self.flat else ["around"])

    def same(self, step: Same) -> str:
        place = "same st"
        if self.in_space:
            place = "same sp"
        elif self.nothing_yet and not self.flat and not self.spiral:
            place = self.rng.choice(["same st", "same st as joining"])
        elif self.flat and self.stood:
            place = self.rng.choice(["same st", "first st"])
        return f"{self.content(step.content)} in {place}"

    def groups(self, kind: str, size: int) -> str:
        """What groups go by: shells where this text declares them, else by their stitches."""
        if size == 5 and "shell" in self.declared and self.rng.random() < 0.7:
            return "shells"
        return f"{size}-{kind_in(self.terms, kind)} groups"

    def center(self, step: Center) -> str:
        """The middle of the next group."""
        group = self.groups(step.kind, step.size).removesuffix("s")
        kind = kind_in(self.terms, step.kind)
        if step.size % 2 == 0 and self.rng.random() < 0.6:
            return f"sp between 2 center {kind} of next {group}"
        return f"center {kind} of next {group}"

    def corners(self, step: Corners) -> str:
        """Every stitch, and what goes into the corners."""
        content = self.content(step.content)
        word = self.rng.choice(["corner ", ""])
        each = f"{content} in each {self.place_name(step.into, 1)} around"
        return f"{each}, working {self.content(step.corner)} in each {word}{step.corner_name}"

    def so_far(self, step: SoFar) -> str:
        """A count inside the row."""
        figures = step.figure if isinstance(step.figure, tuple) else (step.figure,)
        unit = self.rng.choice(["sts", "sts so far"][:1])
        return f" ({', '.join(map(str, figures))} {unit})"

    def together(self, step: Together) -> str:
        name = kind_in(self.terms, f"{step.kind}{step.legs}tog")
        place = self.place_name(step.into, step.legs)
        forms = [name, name]
        if step.legs == 2 and step.kind == self.named:
            forms.append("dec")
        if step.into in ("st", "ch"):
            forms.append(f"{name} over next {step.legs} {place}")
        self.named = step.kind
        return self.rng.choice(forms)

    def skips(self, step: Skip) -> str:
        count = number(step.count, self.rng)
        place = self.place_name(step.into, step.count)
        if is_one(step.count):
            return self.rng.choice([f"{self.skip} 1 {place}", f"{self.skip} next {place}"])
        return self.rng.choice(
            [f"{self.skip} {count} {place}", f"{self.skip} next {count} {place}"]
        )

    def evenly(self, step: Evenly) -> str:
        kind = kind_in(self.terms, step.kind)
        across = "across" if self.flat else "around"
        self.nothing_yet = False
        return f"{kind} {across}, {step.change} {number(step.by, self.rng)} sts evenly"

    # --- repeats ---------------------------------------------------------------------------

    def repeat(self, step: Repeat) -> str:
        self.depth += 1
        body = self.steps(step.body)
        named = self.named
        last = self.steps(step.last) if step.last is not None else []
        if step.last_form != "replace":
            self.named = named
        self.depth -= 1
        star = not self.depth and (self.rng.random() < 0.55 or step.last is not None)
        group = ", ".join(body)
        if step.last is not None and step.last_form == "stop":
            kept = len(step.last)
            group = ", ".join(body[:kept]) + "**, " + ", ".join(body[kept:])
        if star:
            text = f"*{group}; {self.rep} from * {self.extent(step)}"
        elif "[" in group or ("(" not in group and self.rng.random() < 0.3):
            text = f"({group}) {self.extent_of_group(step)}"
        else:
            text = f"[{group}] {self.extent_of_group(step)}"
        if step.last is None or step.last_form == "unsaid":
            return text
        if step.last_form == "stop":
            return text + ", ending last rep at **"
        if step.last_form == "omit":
            return text + f", omitting {body[-1]} on last rep"
        return text + f", ending last rep with {last[-1]}"

    def extent(self, step: Repeat) -> str:
        """How far ``rep from *`` goes."""
        if step.times is not None:
            more = less(step.times, 1)
            if isinstance(more, int) and more > 2 and (self.curt or self.rng.random() < 0.1):
                self.doubt(split=True)
                return f"{more} times"  # the trade's usage: one more than the figure in all
            return self.more(more).replace("- (", "0 (")
        if step.but == 0:
            return self.across()
        unit = self.place_name(step.but_name, step.but)
        last = "last" if is_one(step.but) else f"last {number(step.but, self.rng)}"
        return self.rng.choice(
            [f"to {last} {unit}"] * 2 + [f"{'across' if self.flat else 'around'} to {last} {unit}"]
        )

    def extent_of_group(self, step: Repeat) -> str:
        """How often ``[…]`` is worked."""
        if step.times is None:
            return self.extent(step)
        if isinstance(step.times, int) and step.times in TIMES and self.rng.random() < 0.4:
            return TIMES[step.times]
        count = number(step.times, self.rng)
        if isinstance(step.times, int):
            return self.rng.choice(
                [f"{count} times"] * 3 + [f"x {count}", f"x{count}", f"×{count}"]
            )
        return f"{count} times"


def _stated_text(stated: Stated, rng: random.Random, terms: str, *, bare: bool) -> str:
    if len(stated.figures) == 1:
        kind, figure = stated.figures[0]
        unit = kind_in(terms, kind) or rng.choice(["" if bare else "sts", "sts", "sts"])
        plain = number(figure, rng)
        inside = plain
        if isinstance(figure, tuple):
            inside = ", ".join(str(n) for n in figure)
        forms = [f" ({inside} {unit}".rstrip() + ")"] * 3
        if unit:
            forms += [f": {plain} {unit}", f" - {plain} {unit}", f" – {plain} {unit}"]
            forms += [f" = {plain} {unit}", f" [{inside} {unit}]", f". ({inside} {unit})"]
        return rng.choice(forms)
    parts = [_figure(kind, figure, rng, terms) for kind, figure in stated.figures]
    if any("(" in part for part in parts):
        return f" - {', '.join(parts)}"
    return rng.choice([f" ({', '.join(parts)})", f" - {', '.join(parts)}"])


def _figure(kind: str, figure: Count, rng: random.Random, terms: str) -> str:
    plural = "s" if kind.startswith("ch-") and not is_one(figure) else ""
    return f"{number(figure, rng)} {kind_in(terms, kind)}{plural}"


def _all_of_one(row: Row) -> str:
    """The one kind that a row makes, if its words leave no doubt."""
    kinds = {name for step in row.steps for name in _kinds(step)}
    return next(iter(kinds)) if len(kinds) == 1 else ""


def _kinds(step: Step) -> set[str]:
    match step:
        case Work(content=content) | All(content=content) | Same(content=content):
            return {part.kind for part in content if isinstance(part, Stitches)}
        case Between(content=content):
            return _content_kinds(content)
        case Corners(content=content, corner=corner):
            return _content_kinds(content) | _content_kinds(corner)
        case FromHook(content=content, stands_for=stands_for):
            return _content_kinds(content) | ({stands_for} if stands_for else set())
        case Start(stands_for=stands_for):
            return {stands_for} if stands_for else set()
        case Repeat(body=body):
            return {kind for part in body for kind in _kinds(part)}
        case Together(kind=kind, legs=legs):
            return {f"{kind}{legs}tog"}
        case Center(content=content):
            return _content_kinds(content)
        case Evenly(kind=kind):
            return {kind, "changed"}
        case _:
            return set()


def _turning_chain(row: Row) -> tuple[int, int]:
    """The chains of a counted beginning, and how many of them lie beside the stitch."""
    for step in row.steps:
        match step:
            case Start(chains=chains, beside=beside):
                return chains, beside
            case FromHook(nth=nth, beside=beside):
                return nth - 1 - beside, beside
            case _:
                continue
    return 0, 0


def _without_start(steps: tuple[Step, ...]) -> tuple[Step, ...]:
    return steps[1:] if steps and isinstance(steps[0], Start) else steps


def _content_kinds(content: Content) -> set[str]:
    return {part.kind for part in content if isinstance(part, Stitches)}


def _first_kind(content: Content) -> str:
    part = content[0]
    return part.kind if isinstance(part, Stitches) else ""


def kind_after(step: Step | None) -> str:
    """The kind of the first stitch of a step: it decides what a start chain stands for."""
    match step:
        case Work(content=content) | All(content=content) | Same(content=content):
            return base(_first_kind(content))
        case Center(content=content) | Between(content=content) | Corners(content=content):
            return base(_first_kind(content))
        case Together(kind=kind) | Evenly(kind=kind):
            return kind
        case Repeat(body=body):
            return next((kind for part in body if (kind := kind_after(part))), "")
        case _:
            return ""


def _first_made(row: Row) -> tuple[str, int, int] | None:
    """What a round is joined to: kind, chains beside it, chains of a counted start."""
    for step in row.steps:
        match step:
            case Start(chains=chains, stands_for=stands_for, beside=beside) if stands_for:
                return stands_for, beside, chains
            case Start() | Travel():
                continue
            case FromHook(stands_for=stands_for) if stands_for:
                return None
            case Work(content=content) | All(content=content) | Same(content=content):
                return base(_first_kind(content)), 0, 0
            case Corners(content=content):
                return base(_first_kind(content)), 0, 0
            case FromHook(content=content):
                return base(_first_kind(content)), 0, 0
            case _:
                return None
    return None
