"""Writes one row in the trade's words.

Takes     a ``Row`` and the row after it.
Gives     ``RowWords``: its words, and what they leave open to two readings.
Problems  none.
From      notation.md, the table of steps, Chains at the start, Stated counts, How repeats end.
"""

from __future__ import annotations

import random

from tests.oracle.places import base
from tests.oracle.row_facts import (
    all_of_one,
    first_kind,
    first_made,
    kind_after,
    kinds,
    turning_chain,
    without_start,
)
from tests.oracle.structure import (
    All,
    Below,
    Between,
    Center,
    Chain,
    ChainStitches,
    Content,
    Corners,
    Count,
    Evenly,
    FromHook,
    Leaf,
    Leave,
    OtherSide,
    Picot,
    Repeat,
    Row,
    Same,
    Skip,
    SoFar,
    Squares,
    Standing,
    Start,
    Stated,
    Step,
    Stitches,
    Together,
    Travel,
    Work,
)
from tests.oracle.texts import UK, Doubt, Terms, is_one, kind_in, less, number

#: What a start chain or skipped chains stand for by default: (kind, chains or place from the hook).
STANDS = {("dc", 3): "dc", ("tr", 4): "tr"}
SKIPPED = {("dc", 4): "dc", ("tr", 5): "tr"}

V_STITCH: Content = (Stitches("dc"), Chain(1), Stitches("dc"))

ORDINALS = {2: "2nd", 3: "3rd", 4: "4th", 5: "5th", 6: "6th", 7: "7th", 8: "8th", 9: "9th"}
TIMES = {1: "once", 2: "twice", 3: "three times"}


class RowWords:
    """Writes the rows of one piece; keeps what the words of a row hang on."""

    def __init__(
        self, worked: str, sizes: tuple[str, ...], rng: random.Random, terms: Terms, *, curt: bool
    ) -> None:
        self.sizes = sizes
        self.rng = rng
        self.terms = terms
        self.curt = curt
        self.flat = worked == "flat rows"
        self.turned = worked == "joined rounds, turned"
        self.spiral = worked == "spiral rounds"
        self.skip = "miss" if terms == "uk" and rng.random() < 0.8 else rng.choice(["sk", "skip"])
        self.rep = rng.choice(["rep", "rep", "repeat"])
        self.says_turn = rng.random() < 0.7
        self.special = rng.random() < 0.5
        self.chain_at_end = rng.random() < 0.2
        self.declared: dict[str, str] = {}
        self.doubts: list[Doubt] = []
        #: by length, what a row before has said that a chain at its head counts as
        self.said_of_chains: dict[int, tuple[str | None, str]] = {}
        # between rows
        self.below = ""
        self.turning_chain = (0, 0)
        self.chain_made = False
        self.stands = False
        # within a row
        self.entry = 0
        self.index = 0
        self.skipped = 0
        self.depth = 0
        self.named = ""
        self.nothing_yet = True
        self.stood = False
        self.in_space = False
        self.row_kinds: set[str] = set()

    def change_over(self, worked: str) -> str:
        """``now work in rows``: from here on the rows are worked otherwise."""
        self.flat, self.turned, self.spiral = worked == "flat rows", False, False
        return "now work in rows" if self.flat else "now work in joined rounds"

    def beginning(self, row: Row) -> str:
        """A starting chain, joined chain or ring on a line of its own."""
        chains = number(row.chains, self.rng)
        if row.begin == "chain":
            return f"ch {chains}" + self.stated(row, f"ch {chains}")
        if row.begin == "joined chain":
            join = self.rng.choice(["join with sl st to first ch", "join with sl st in first ch"])
            return f"ch {chains}, {join}"
        form = ["join with sl st to first ch to form ring", "join to form ring"]
        return f"ch {chains}, {self.rng.choice(form)}"

    def more(self, count: Count) -> str:
        """``twice more``, ``5 more times``."""
        if count == 1:
            return self.rng.choice(["once more", "1 more time"])
        if count == 2 and self.rng.random() < 0.5:
            return "twice more"
        return f"{number(count, self.rng)} more times"

    def row_text(self, row: Row, following: Row | None, entry: int) -> str:
        """The words of a row; ``following`` may have its turning chain at the end of this one."""
        self.entry = entry
        self.named = ""
        self.nothing_yet = True
        self.stood = False
        self.in_space = False
        self.row_kinds = {base(kind) for step in row.steps for kind in kinds(step)}
        own = row.steps
        self.skipped = int(self.chain_made)
        if self.chain_made:
            own = without_start(own)
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
        text = ", ".join(parts)
        self.below = all_of_one(row) if row.works is None else ""
        self.turning_chain = turning_chain(row)
        return text + self.stated(row, text)

    def foundation(self, step: Work) -> str:
        """``fsc 40``."""
        part = step.content[0]
        assert isinstance(part, Stitches)
        return f"{kind_in(self.terms, part.kind)} {number(part.number, self.rng)}"

    def end(self, row: Row, following: Row | None) -> list[str]:
        """How a row ends: joined, the yarn cut, turned; maybe with the next row's chain."""
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
        unsaid = any(doubt.entry == self.entry + 1 for doubt in self.doubts)
        self.stands = bool(first.stands_for) or (unsaid and kind_after(following.steps[1]) != "sc")
        return said

    def join(self, row: Row) -> str:
        """What a round is joined to."""
        first = first_made(row)
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
        bare = not (self.sizes and (text.endswith(")") or text[-1].isdigit()))
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
        """The words of one step."""
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
            case Picot() | Leaf() | Below() | Squares():
                return self.off_step(step)
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

    def off_step(self, step: Picot | Leaf | Below | Squares) -> str:
        """What stands off the row or in front of it; squares of filet."""
        self.nothing_yet = False
        self.stood = True
        match step:
            case Picot(chains=chains):
                self.named = "sl st"
                return f"ch {chains}, sl st in {ORDINALS[chains]} ch from hook"
            case Leaf(chains=chains, kind=kind):
                self.named = kind
                name, rest = kind_in(self.terms, kind), chains - 2
                each = self.rng.choice([f"each of next {rest} chs", f"next {rest} chs"])
                joined = self.rng.choice([f" and in {each}", f", {name} in {each}"])
                return f"ch {chains}, {name} in 2nd ch from hook{joined}"
            case Below():
                return self.below_row(step)
            case Squares():
                return self.squares(step)

    def below_row(self, step: Below) -> str:
        """``fpdc around next st 2 rows below``."""
        self.named = step.kind
        rows = f"{step.rows} {'rows' if self.flat else 'rnds'} below"
        which = "next st"
        if not is_one(step.count):
            which = f"each of next {number(step.count, self.rng)} sts"
        around = self.rng.choice(["around", "around", "around post of"])
        return f"{kind_in(self.terms, step.kind)} {around} {which} {rows}"

    def squares(self, step: Squares) -> str:
        """``3 sps``, ``block``, ``beg sp``."""
        dc = kind_in(self.terms, "dc")
        skip = "miss" if self.terms == "uk" else "sk"
        self.declared["sp"] = f"sp = ch 2, {skip} 2, {dc}"
        self.declared["block"] = f"block = 3 {dc}"
        if step.first:
            return f"beg {step.kind}"
        if is_one(step.number):
            return self.rng.choice([step.kind, f"1 {step.kind}"])
        return f"{number(step.number, self.rng)} {step.kind}s"

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
        """The chain at the start; what it counts as is said, or left to the table."""
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
        before = self.said_of_chains.get(step.chains)
        if before is not None and (split or before != (first, step.stands_for)):
            same = False  # what was said before holds until another row says otherwise
        if same and (self.curt or self.rng.random() < (0.2 if split else 0.6)):
            self.doubt(split=split)
            # "first st" would say that the chain does not count
            self.stood = self.stood or first != "sc"
            return text
        self.said_of_chains[step.chains] = first, step.stands_for
        return said

    def doubt(self, *, split: bool) -> None:
        """Remembers that the step being written may be read in two ways."""
        doubt = Doubt(self.entry, self.index, split)
        if doubt not in self.doubts:
            self.doubts.append(doubt)

    def travel(self, step: Travel) -> str:
        """Slip stitches at the head, or new yarn joined there."""
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
        """``join B with sc in first st``."""
        self.stood = True
        self.nothing_yet = False
        self.named = step.kind
        colour = self.rng.choice(["yarn", "B", "new colour"])
        return f"join {colour} with {kind_in(self.terms, step.kind)} in first st"

    def from_hook(self, step: FromHook) -> str:
        """The first stitch of a first row; what the skipped chains count as is said, or left."""
        self.nothing_yet = False
        self.stood = True
        kind = first_kind(step.content)
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
            self.said_of_chains[step.nth - 1] = kind, ""
            return f"{text} ({skipped} do not count)"
        beside = f" and ch {step.beside}" if step.beside else ""
        self.said_of_chains[step.nth - 1] = kind, step.stands_for
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
        """Stitches into the next or last places of a name, in one of the trade's orders."""
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
        """Whether the short form ``sc 6`` is used for a stitch."""
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
        """``sc in each st across``, or to the last few, or to the next place of another name."""
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
        """As far as it goes."""
        return self.rng.choice(["across", "across", "to end"] if self.flat else ["around"])

    def same(self, step: Same) -> str:
        """Into the place at which the hook stands."""
        place = "same st"
        if self.in_space:
            place = "same sp"
        elif self.nothing_yet and not self.flat and not self.spiral:
            place = self.rng.choice(["same st", "same st as joining"])
        elif self.flat and self.stood and not self.depth:
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
        word = "" if step.by_name else self.rng.choice(["corner ", ""])
        each = f"{content} in each {self.place_name(step.into, 1)} around"
        return f"{each}, working {self.content(step.corner)} in each {word}{step.corner_name}"

    def so_far(self, step: SoFar) -> str:
        """A count inside the row."""
        figures = step.figure if isinstance(step.figure, tuple) else (step.figure,)
        unit = self.rng.choice(["sts", "sts so far"][:1])
        return f" ({', '.join(map(str, figures))} {unit})"

    def together(self, step: Together) -> str:
        """``sc2tog``, or ``dec`` where the stitch is named."""
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
        """``sk 2 sts``."""
        count = number(step.count, self.rng)
        place = self.place_name(step.into, step.count)
        if is_one(step.count):
            return self.rng.choice([f"{self.skip} 1 {place}", f"{self.skip} next {place}"])
        return self.rng.choice(
            [f"{self.skip} {count} {place}", f"{self.skip} next {count} {place}"]
        )

    def evenly(self, step: Evenly) -> str:
        """``sc around, dec 12 sts evenly``."""
        kind = kind_in(self.terms, step.kind)
        across = "across" if self.flat else "around"
        self.nothing_yet = False
        return f"{kind} {across}, {step.change} {number(step.by, self.rng)} sts evenly"

    # --- repeats ---------------------------------------------------------------------------

    def repeat(self, step: Repeat) -> str:
        """A group and how often it is worked."""
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
