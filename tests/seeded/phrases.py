"""The phrases of single steps: ``sc in next 6 sts``, ``sk 2 sts``, ``dc in 4th ch from hook``.

Takes     the words of one step.
Gives     ``Phrases``: for each phrase the steps of the oracle; a phrase is a line of ``PHRASES``.
Problems  none.
From      notation.md, the table of steps, Chains at the start.
"""

from __future__ import annotations

import re
from collections.abc import Callable

from tests.oracle.places import base
from tests.oracle.structure import (
    All,
    Center,
    Content,
    FromHook,
    Leave,
    Repeat,
    Same,
    Skip,
    Standing,
    Step,
    Stitches,
    Together,
    Travel,
    Work,
)
from tests.seeded.words import NotRead, Rows, Words, kinds

#: Chains skipped by the first row that count when nothing is said: notation.md.
FROM_HOOK = {("dc", 4): "dc", ("tr", 5): "tr"}


class Phrases(Words):
    """Reads single steps."""

    def __init__(self, rows: Rows) -> None:
        super().__init__(rows)
        self.phrases = tuple(
            (re.compile(filled(pattern, self.number, self.kind)), method)
            for pattern, method in PHRASES
        )

    def into_first(self, content: Content) -> list[Step]:
        """Into the first stitch: where a counted chain stands it is an increase."""
        if self.moved or self.depth:
            raise NotRead("first st")
        if not self.nothing_yet:
            if self.start is None or not self.start.stands_for or not self.at_first:
                raise NotRead("first st")
            return [Same(content)]
        return [Work(content)]

    def into_next(self, found: re.Match[str]) -> list[Step]:
        """``4 dc in next st``, ``(dc, ch 1, dc) in next ch-2 sp``, ``sc in last st``."""
        which = found["which"]
        starting = self.nothing_yet
        before = self.made
        self.made = set()
        content = self.content(found["content"])
        self.made |= before
        place = self.place(found["place"])
        if which == "first" and (place in ("st", "ch") or not starting):
            if place not in ("st", *self.below):
                raise NotRead(found[0])
            self.made = before
            steps = self.into_first(content)
            self.made |= kinds(content)
            return steps
        return [Work(content, 1, place, "last" if which == "last" else "next")]

    def into_many(self, found: re.Match[str]) -> list[Step]:
        """``sc in next 6 sts``, ``2 dc in each of next 3 sts``, ``6 sc in next 6 sts``."""
        which = found["which"]
        if which == "first" and not self.nothing_yet:
            raise NotRead(found[0])
        count = self.count(found["count"])
        content = self.content(found["content"])
        place = self.place(found["place"])
        match content:
            case (Stitches(kind=kind, number=number),) if number != 1 and not found["each"]:
                if number != count:
                    raise NotRead(found[0])
                content = (Stitches(kind),)
            case _ if not found["each"] and len(content) > 1:
                raise NotRead(found[0])
            case _:
                pass
        return [Work(content, count, place, "last" if which == "last" else "next")]

    def run(self, found: re.Match[str]) -> list[Step]:
        """``sc 6``, ``6 sc``: into as many places."""
        kind = self.us(found["kind"])
        content = self.special.get(found["kind"], (Stitches(kind),))
        if len(content) != 1 or content[0] != Stitches(kind):
            raise NotRead(found[0])
        self.named = base(kind)
        self.made.add(kind)
        return [Work(content, self.count(found["count"]))]

    def into_each(self, found: re.Match[str]) -> list[Step]:
        """``sc in each st across``, ``2 dc in each sc around``, ``sc in each st to last 3 sts``."""
        content = self.content(found["content"])
        names = [self.place(name) for name in re.split(r" and (?:in each )?", found["places"])]
        name = "+".join(names)
        if found["but"] is not None or found["butname"]:
            but = self.count(found["but"]) if found["but"] else 1
            unit = self.place(found["butname"])
            if len(names) > 1 or (unit not in ("st", name)):
                raise NotRead(found[0])
            return [All(content, name, but)]
        if found["to"]:
            return [All(content, name, to=self.place(found["to"]))]
        return [All(content, name)]

    def plain_all(self, found: re.Match[str]) -> list[Step]:
        """``sc around``, ``sc to last 3 sts``."""
        kind = self.us(found["kind"])
        if found["kind"] in self.special or kind == "sl st":
            raise NotRead(found[0])
        self.named = base(kind)
        self.made.add(kind)
        if found["butname"]:
            but = self.count(found["but"]) if found["but"] else 1
            if self.place(found["butname"]) != "st":
                raise NotRead(found[0])
            return [All((Stitches(kind),), "st", but)]
        return [All((Stitches(kind),))]

    def into_same(self, found: re.Match[str]) -> list[Step]:
        """``3 dc in same st``."""
        return [Same(self.content(found["content"]))]

    def into_ring(self, found: re.Match[str]) -> list[Step]:
        """``12 dc in ring``."""
        return [Work(self.content(found["content"]), into="ring")]

    def into_chain(self, found: re.Match[str]) -> list[Step]:
        """``tch``: the last place of the row, left there by the row's beginning."""
        return [Work(self.content(found["content"]), into="tch")]

    def posts(self, found: re.Match[str]) -> list[Step]:
        """``fpdc around next st``."""
        content = self.content(found["kind"])
        count = self.count(found["count"]) if found["count"] else 1
        return [Work(content, count, self.place(found["place"]))]

    def center(self, found: re.Match[str]) -> list[Step]:
        """``sc in center dc of next 5-dc group``."""
        content = self.content(found["content"])
        kind, size = self.us(found["kind"]), int(found["size"])
        if size % 2 == 0 or self.us(found["of"]) != kind:
            raise NotRead(found[0])
        return [Center(content, kind, size)]

    def together(self, found: re.Match[str]) -> list[Step]:
        """``sc2tog``, ``dc3tog over next 3 sts``."""
        kind, legs = self.us(found["kind"]), int(found["legs"])
        place = self.place(found["place"]) if found["place"] else "st"
        if found["over"]:
            self.claim(found[0], holds=legs, figure=int(found["over"]))
        self.named = kind
        self.made.add(f"{kind}{legs}tog")
        together = Together(kind, legs, place)
        return [Repeat((together,)) if found["all"] else together]

    def dec(self, found: re.Match[str]) -> list[Step]:
        """``dec``: two together of the stitch last named."""
        return [Together(self.the_kind(found[0]))]

    def inc(self, found: re.Match[str]) -> list[Step]:
        """``inc``, ``inc in first st``, ``inc around``: two in one."""
        content = (Stitches(self.the_kind(found[0]), 2),)
        where = found["where"] or ""
        if where in ("", " in next st"):
            self.made |= kinds(content)
            return [Work(content)]
        if where == " in first st":
            steps = self.into_first(content)
            self.made |= kinds(content)
            return steps
        self.made |= kinds(content)
        if where == " in last st":
            return [Work(content, which="last")]
        return [All(content)]

    def skip(self, found: re.Match[str]) -> list[Step]:
        """``sk 2 sts``, ``skip next ch-1 sp``, ``miss 3``."""
        self.moved = True
        word = found["count"]
        count = self.count(word) if word else 1
        return [Skip(count, self.place(found["place"]) if found["place"] else "st")]

    def skip_first(self, found: re.Match[str]) -> list[Step]:
        """``sk first st`` after a counted chain names the place under that chain."""
        if self.start is None or not self.start.stands_for or self.made:
            raise NotRead(found[0])
        return []

    def leave(self, _found: re.Match[str]) -> list[Step]:
        """``leave rem sts unworked``."""
        return [Leave()]

    def from_hook(self, found: re.Match[str]) -> list[Step]:
        """``dc in 4th ch from hook (skipped 3 chs count as dc)``."""
        if not self.nothing_yet or self.depth:
            raise NotRead(found[0])
        nth = int(found["nth"])
        self.skipped = nth - 1
        content = self.content(found["content"])
        kind = next(iter(kinds(content)))
        said = found["said"] or ""
        skipped = re.search(r"skipped (\d) ", said)
        if skipped:
            self.claim(said, holds=nth - 1, figure=int(skipped[1]))
        counts = re.search(rf"counts? as (?:1 |a )?({self.kind})(?: and ch (\d))?", said)
        if counts:
            beside = int(counts[2] or 0)
            self.made.add(self.us(counts[1]))
            return [FromHook(nth, content, self.us(counts[1]), beside)]
        stands = "" if said else FROM_HOOK.get((base(kind), nth), "")
        if stands:
            self.made.add(stands)
        return [FromHook(nth, content, stands)]

    def travel(self, found: re.Match[str]) -> list[Step]:
        """``sl st to next ch-2 sp``, ``sl st in each of first 4 sts``: at the head of a row."""
        if not self.nothing_yet or self.made:
            raise NotRead(found[0])
        if self.travelled:
            raise NotRead(found[0])
        self.stood, self.travelled = False, True
        if found["to"]:
            return [Travel(to=self.place(found["to"]))]
        return [Travel(self.count(found["count"]) if found["count"] else 1)]

    def joined_yarn(self, found: re.Match[str]) -> list[Step]:
        """``join B with sl st in first st``, ``join yarn in any ch-1 sp``."""
        place = self.place(found["place"]) if "place" in found.groupdict() else "st"
        if found["any"] or place != "st":
            return [Travel(to=place, joins=True)]
        return [Travel(1, joins=True)]

    def standing(self, found: re.Match[str]) -> list[Step]:
        """``join B with sc in first st``."""
        kind = self.us(found["kind"])
        self.named = base(kind)
        self.made.add(kind)
        return [Standing(kind)]


# --- the phrases -----------------------------------------------------------------------------

_CONTENT = r"(?P<content>\([^()]*\)|(?:NUMBER )?(?:KIND)s?)"
_PLACE = (
    r"(?P<place>sts?|stitch(?:es)?|chs?|ring|(?:ch-?\d+ ?|\d+-ch |ch )?(?:sps?|lps?|loops?)"
    r"|(?:KIND)s?)"
)
_PLACES = (
    r"(?:rem )?(?P<places>(?:st|ch|(?:ch-?\d+ ?|\d+-ch |ch )?(?:sp|lp)|KIND)"
    r"(?: and (?:in each )?(?:(?:ch-?\d+ ?|\d+-ch |ch )?(?:sp|lp)|st|KIND))?)"
)
_BUT = (
    r"(?: (?:across |around )?to last (?:(?P<but>NUMBER) )?(?P<butname>[a-z][a-z0-9 -]*)"
    r"| to (?:next )?(?P<to>ch-\d+ sp)|(?: across| around| to end| to end of row)?)"
)

Method = Callable[[Phrases, "re.Match[str]"], list[Step]]

PHRASES: tuple[tuple[str, Method], ...] = (
    (r"join [\w ]*?with (?:sl st|ss) (?:to|in) (?P<any>any|next) PLACE", Phrases.joined_yarn),
    (r"join [\w ]*?with sl st in same st as (?P<any>){0}joining", Phrases.joined_yarn),
    (r"join [\w ]*?in (?P<any>any) (?:corner )?PLACE", Phrases.joined_yarn),
    (r"join [\w ]*?with (?:sl st|ss) (?:to|in) first (?P<any>){0}PLACE", Phrases.joined_yarn),
    (r"join [\w ]*?with (?P<kind>KIND) in first st", Phrases.standing),
    (r"(?:sl st|ss) (?:over )?to (?P<count>){0}next (?P<to>[a-z0-9 -]+)", Phrases.travel),
    (r"(?:sl st|ss) in (?P<count>){0}next (?P<to>ch-?\d+ sp)", Phrases.travel),
    (r"(?:sl st|ss) in (?:each of )?first (?:(?P<count>NUMBER) )?sts?(?P<to>){0}", Phrases.travel),
    (
        (
            r"(?P<kind>[a-z]+)(?P<legs>\d)tog(?: over (?:next|last) (?P<over>\d) PLACE)?"
            r"(?P<all> around| across)?"
        ),
        Phrases.together,
    ),
    (r"dec", Phrases.dec),
    (
        (
            r"inc(?P<where> around| across| to end| in (?:next|first|last) st|"
            r" in each st(?: around| across| to end))?"
        ),
        Phrases.inc,
    ),
    (r"(?:sk|skip|miss) first (?:st|ch|KIND)", Phrases.skip_first),
    (r"(?:sk|skip|miss)(?: next)?(?: (?P<count>NUMBER))?(?: PLACE)?", Phrases.skip),
    (r"leave (?:rem|remaining|the rem) sts unworked", Phrases.leave),
    (
        r"CONTENT in (?P<nth>\d+)(?:st|nd|rd|th) ch from hook(?: \((?P<said>[^()]*)\))?",
        Phrases.from_hook,
    ),
    (r"CONTENT in (?:top|\d(?:nd|rd|th) ch) of (?:tch|turning ch)", Phrases.into_chain),
    (r"CONTENT in center (?P<kind>KIND) of next (?P<size>\d)-(?P<of>KIND) group", Phrases.center),
    (
        (
            r"CONTENT in (?:first|center|last|\d(?:nd|rd|th)) ch of (?P<which>next) "
            r"(?P<place>ch-\d sp)"
        ),
        Phrases.into_next,
    ),
    (r"leave rem (?P<count>\d+) PLACE unworked", Phrases.skip),
    (r"CONTENT in ring", Phrases.into_ring),
    (r"CONTENT in same (?:st|ch|sp|KIND)(?: as joining)?", Phrases.into_same),
    (
        r"(?P<kind>[fb]p[a-z]+) around (?:each of (?:the )?)?next (?:(?P<count>NUMBER) )?PLACE",
        Phrases.posts,
    ),
    (r"CONTENT in (?P<which>next|first|last) PLACE", Phrases.into_next),
    (r"CONTENT in (?P<which>){0}(?P<place>KIND)", Phrases.into_next),
    (
        (
            r"CONTENT in (?P<each>each of )?(?:the )?(?P<which>next|first|last) "
            r"(?P<count>NUMBER) PLACE"
        ),
        Phrases.into_many,
    ),
    (
        r"CONTENT in (?:back loops? only of |front loops? only of )?each PLACESBUT",
        Phrases.into_each,
    ),
    (r"(?P<kind>KIND) (?P<count>NUMBER)", Phrases.run),
    (r"(?P<count>NUMBER) (?P<kind>KIND)", Phrases.run),
    (
        (
            r"(?P<kind>KIND)"
            r"(?: across| around| to end| to last (?:(?P<but>NUMBER) )?(?P<butname>sts?))"
        ),
        Phrases.plain_all,
    ),
)


def filled(pattern: str, number: str, kind: str) -> str:
    """A phrase with the sets of words that it names put in."""
    text = pattern.replace("CONTENT", _CONTENT).replace("PLACESBUT", _PLACES + _BUT)
    text = text.replace("PLACE", _PLACE)
    return text.replace("NUMBER", number).replace("KIND", kind)
