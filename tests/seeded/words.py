"""The words of a row: numbers by size, names of stitches and places, what is worked into a place.

Takes     ``Rows``: a text, a row a line, and its options.
Gives     ``Words``, the base of the readers of steps and of rows; ``split``.
Problems  none: what is not known raises ``NotRead``, and the piece is not judged.
From      notation.md: The fabric, Sizes, Stated counts; standards, terms US/UK.
"""

from __future__ import annotations

import re
from dataclasses import dataclass

from tests.oracle.places import base
from tests.oracle.structure import (
    All,
    Center,
    Chain,
    ChainStitches,
    Content,
    Count,
    Evenly,
    FromHook,
    Repeat,
    Same,
    Standing,
    Start,
    Step,
    Stitches,
    Together,
    Work,
    at_size,
)

Steps = tuple[Step, ...]

#: UK kind: US kind (the terms of both countries name the same stitches, one name apart).
US = {"dc": "sc", "htr": "hdc", "tr": "dc", "dtr": "tr", "ttr": "dtr"}

KINDS = (
    *("fpdc", "bpdc", "fptr", "bptr", "fphdc", "bphdc", "sl st", "ss"),
    *("hdc", "htr", "dtr", "ttr", "dc", "sc", "tr"),
)


class NotRead(Exception):
    """The reader does not know these words."""


class NoSuchRow(Exception):
    """A row is repeated that is not there."""


@dataclass(frozen=True, slots=True)
class Rows:
    """A piece as text, with the options of ``workeven count``."""

    name: str
    text: str
    worked: str = "flat rows"
    terms: str = "us"
    start: str | None = None
    sizes: tuple[str, ...] = ()
    stitches: tuple[str, ...] = ()

    @property
    def size_count(self) -> int:
        """How many sizes there are; a text without sizes has one."""
        return max(1, len(self.sizes))


class Words:
    """Reads numbers, names and contents; keeps what the words of a row hang on."""

    def __init__(self, rows: Rows) -> None:
        self.rows = rows
        self.sizes = rows.size_count
        lists = r"(?: ?\((?:\d+|[-–—])(?:, ?(?:\d+|[-–—]))*\))*" if self.sizes > 1 else ""
        self.number = rf"(?:\d+|[-–—](?= ?\()){lists}"
        self.special: dict[str, Content] = {}
        for text in rows.stitches:
            if text.startswith("each ch"):
                raise NotRead(text)
            name, content = declared(text, rows.terms)
            if content:
                self.special[name] = content
        names = [*self.special, *KINDS]
        self.kind = "|".join(re.escape(one) for one in sorted(names, key=len, reverse=True))
        self.below: set[str] = set()
        self.wrong: list[tuple[str, tuple[bool, ...]]] = []
        self.unread = ""
        self.new_row()

    def new_row(self) -> None:
        """Forgets the row before, but for the kinds that it made."""
        self.named = ""
        self.nothing_yet, self.stood, self.at_first = True, False, True
        self.moved, self.travelled = False, False
        self.depth, self.skipped, self.borrows = 0, 0, False
        self.made: set[str] = set()
        self.row_kinds: set[str] = set()
        self.unnamed: set[str] = set()
        self.start: Start | None = None

    def count(self, text: str) -> Count:
        """A number, or one a size; another length of the list is the designer's mistake."""
        figures = [0 if one in "-–—" else int(one) for one in re.findall(r"\d+|[-–—]", text)]
        if len(figures) == 1:
            return figures[0]
        if len(figures) != self.sizes:
            self.unread = f"{text}: {self.sizes} sizes"
            return figures[0]
        return figures[0] if len(set(figures)) == 1 else tuple(figures)

    def claim(self, why: str, *, holds: Count | bool, figure: Count = True) -> None:
        """Notes a contradiction where a figure is not what holds."""
        sizes = range(self.sizes)
        false = tuple(at_size(holds, size) != at_size(figure, size) for size in sizes)
        if any(false):
            self.wrong.append((why, false))

    def us(self, kind: str) -> str:
        """A kind by its US name."""
        kind = {"ss": "sl st"}.get(kind, kind)
        if self.rows.terms == "us" or kind == "sl st" or kind in self.special:
            if self.rows.terms == "us" and kind in ("htr", "ttr"):
                raise NotRead(kind)
            return kind
        front = kind[:2] if kind[:2] in ("fp", "bp") else ""
        together = re.fullmatch(r"([a-z]+)(\d)tog", kind)
        if together:
            return f"{US[together[1]]}{together[2]}tog"
        if kind.removeprefix(front) not in US:
            raise NotRead(kind)
        return front + US[kind.removeprefix(front)]

    def place(self, text: str) -> str:
        """The name of a place as the walker has it."""
        text = text.strip()
        chains = re.fullmatch(r"(?:ch-?(\d+) ?|(\d+)-ch )(?:sps?|lps?|loops?)", text)
        if chains:
            return f"ch-{chains[1] or chains[2]} sp"
        if re.fullmatch(r"(?:ch )?(?:sps?|lps?|loops?)", text):
            return "sp"
        if re.fullmatch(r"sts?|stitch(?:es)?", text):
            return "st"
        if re.fullmatch(r"chs?|chains?", text):
            return "ch"
        if text == "ring":
            return "ring"
        if re.fullmatch(self.kind, text):
            return self.us(text)
        if re.fullmatch(self.kind, text.removesuffix("s")):
            return self.us(text.removesuffix("s"))
        raise NotRead(text)

    def content(self, text: str) -> Content:
        """``dc``, ``4 dc``, ``(2 dc, ch 2, 3 dc)``, ``shell``."""
        inner = re.fullmatch(r"\((.+)\)", text.strip())
        parts = split(inner[1]) if inner else [text.strip()]
        found: list[Stitches | Chain] = []
        for part in parts:
            chain = re.fullmatch(rf"ch ({self.number})", part)
            many = re.fullmatch(rf"(?:({self.number}) )?({self.kind})s?", part)
            if chain:
                found.append(Chain(self.count(chain[1])))
            elif many and self.special.get(many[2]):
                content = self.special[many[2]]
                number = self.count(many[1]) if many[1] else 1
                if number != 1 and content != (Stitches(many[2]),):
                    raise NotRead(part)
                found += [Stitches(many[2], number)] if number != 1 else content
            elif many:
                kind = self.us(many[2])
                self.named = base(kind)
                found.append(Stitches(kind, self.count(many[1]) if many[1] else 1))
            else:
                raise NotRead(part)
        self.made |= {part.kind for part in found if isinstance(part, Stitches)}
        return tuple(found)

    def the_kind(self, word: str) -> str:
        """The kind of ``inc`` and ``dec``: the stitch last named, else that of the row below."""
        if self.named:
            return self.named
        kinds = {base(kind) for kind in self.below}
        self.unnamed |= kinds
        if len(kinds) != 1:
            raise NotRead(word)
        return next(iter(kinds))


def split(text: str) -> list[str]:
    """The parts between commas, semicolons and full stops outside all brackets.

    >>> split("ch 1, sc in next 4 (5, 6) sts; [sc 2, inc] twice, turn")
    ['ch 1', 'sc in next 4 (5, 6) sts', '[sc 2, inc] twice', 'turn']
    """
    parts, depth, start = [], 0, 0
    for at, sign in enumerate(text):
        depth += (sign in "([") - (sign in ")]")
        stop = sign == "." and (at + 1 == len(text) or text[at + 1] == " ")
        if depth == 0 and (sign in ",;" or stop):
            parts.append(text[start:at])
            start = at + 1
    parts.append(text[start:])
    if depth:
        raise NotRead(text)
    return [part.strip() for part in parts if part.strip()]


def declared(text: str, terms: str) -> tuple[str, Content]:
    """``shell = 5 dc in same st``, ``cl = 3-dc cluster in same st (1 st)``."""
    name, _, meaning = text.partition(" = ")
    inner = re.fullmatch(r"\(?([^()]+?)\)? in (?:same|next) (?:st|place|sp|ch)", meaning)
    if inner and "cluster" not in meaning:
        parts: list[Stitches | Chain] = []
        for part in split(inner[1]):
            chain = re.fullmatch(r"ch (\d)", part)
            many = re.fullmatch(r"(?:(\d+) )?(sc|hdc|htr|dc|tr|dtr)", part)
            if chain:
                parts.append(Chain(int(chain[1])))
            elif many:
                kind = US[many[2]] if terms == "uk" else many[2]
                parts.append(Stitches(kind, int(many[1] or 1)))
            else:
                return name, ()
        return name, tuple(parts)
    if re.search(r"\(.*\b1 st\)$|counts as 1 st\)$", meaning) and not name.startswith("beg "):
        return name, (Stitches(name),)
    return name, ()


def group(part: str) -> tuple[str, str] | None:
    """``[sc 2, inc] 6 times``, ``(dc2tog) twice``: the group and how often, or nothing."""
    if part[:1] not in "([" or not part:
        return None
    depth = 0
    for at, sign in enumerate(part):
        depth += (sign in "([") - (sign in ")]")
        if depth == 0:
            extent = part[at + 1 :].strip()
            counted = r"(?:around|across|to |once|twice|three times|four times|[x×]|\d)"
            if part[0] == "[" or re.match(counted, extent):
                return part[1:at], extent
            return None
    return None


def is_aside(part: str) -> bool:
    """What takes no stitch and makes none."""
    return bool(
        re.fullmatch(
            r"(?:then )?(?:turn|fasten off|do not turn|place marker|[Ww]ith [A-Z][\w ]*"
            r"|change to [\w ]+|(?:working )?in (?:back|front|both) loops?(?: only)?)",
            part,
        )
    )


def kinds(content: Content) -> set[str]:
    """The kinds of a content."""
    return {part.kind for part in content if isinstance(part, Stitches)}


def kinds_of(steps: Steps) -> set[str]:
    """The kinds that a row makes."""
    found: set[str] = set()
    for step in steps:
        match step:
            case Work(content=content) | All(content=content) | Same(content=content):
                found |= kinds(content)
            case Center(content=content):
                found |= kinds(content)
            case FromHook(content=content, stands_for=kind):
                found |= kinds(content) | ({kind} if kind else set())
            case Start(stands_for=kind):
                found |= {kind} if kind else set()
            case Standing(kind=kind):
                found.add(kind)
            case Together(kind=kind, legs=legs):
                found.add(f"{kind}{legs}tog")
            case Evenly(kind=kind, change=change):
                found |= {kind, f"{kind}2tog" if change == "dec" else kind}
            case ChainStitches():
                found.add("ch")
            case Repeat(body=body, last=last):
                found |= kinds_of(body) | kinds_of(last or ())
            case _:
                pass
    return found


def plus(count: Count, by: int) -> Count:
    """Every number more by so many."""
    return count + by if isinstance(count, int) else tuple(one + by for one in count)
