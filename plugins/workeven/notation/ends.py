"""What stands beside the stitches of a row: joins, turns, rings, corners, asides.

Takes     ``Stream``.
Gives     ``join``, ``yarn_changed``, ``place_of_join``, ``turn``, ``fasten_off``, ``leave``,
          ``other_side`` …
Problems  none of its own: ``NotUnderstood``.
From      notation.md, the table of steps, "Corners", "Below and before".
"""

from __future__ import annotations

import re

from workeven.notation.asides import TWIST, aside, making_up, marker_of, work_within
from workeven.notation.earlier import working_in
from workeven.notation.expressions import ignoring_case
from workeven.notation.numbered import numbered, numbered_group
from workeven.notation.places import limit, names
from workeven.notation.rings import begins_after_verb, formed_of, ring_here
from workeven.notation.stitches import forms_ring, over_many
from workeven.notation.stream import NotUnderstood, Stream
from workeven.notation.targets import target
from workeven.notation.tokens import FOLD
from workeven.notation.tree import (
    ONE,
    Amount,
    AnyStitch,
    Aside,
    Chain,
    ChainOfTurning,
    Described,
    Each,
    FastenOff,
    First,
    Increase,
    JoinRound,
    JoinYarn,
    LeaveRest,
    Next,
    OneChain,
    OtherSide,
    Skip,
    Stated,
    Step,
    Stitch,
    StitchGroup,
    Target,
    Turn,
    TurningChain,
)
from workeven.notation.twins import part_of
from workeven.notation.vocabulary import kind_of


def join(stream: Stream) -> tuple[Step, ...] | None:
    """``join with sl st to first sc``, ``join yarn in any ch-2 sp``, ``join``.

    Takes: join with sl st to first sc
    Refuses: sl st to first sc
    """
    if not stream.is_word("join"):
        return None
    start = stream.take().start
    loop = _last_chain(stream)
    found = _joined(stream, start)
    return found if loop is None else (loop, *found)


#: another yarn, and where the round is begun with it: "switch to white in any ch-1 sp"
_CHANGED_AT = (
    r"(?:chang(?:e|ing)|switch)(?: back)? to (?:the )?[a-z0-9]+(?: [a-z0-9]+)? (?:in|at) "
    r"(?=(?:any|a|an|the next|next|the first|first|the same|same)\b)"
)


def yarn_changed(stream: Stream) -> tuple[Step, ...] | None:
    """``switch to white in any ch-1 sp``: new yarn is joined there.

    Takes: switch to white in any ch-1 sp
    Refuses: switch to white
    """
    found = ignoring_case(_CHANGED_AT).match(stream.text, stream.start)
    if found is None or any(one.kind == "stitch" for one in stream.tokens[: stream.at]):
        return None  # in the midst of a row only the colour changes
    mark, start = stream.here(), stream.start
    stream.pass_to(found.end())
    try:
        where = place_of_join(stream)
    except NotUnderstood:
        stream.back_to(mark)
        return None
    return (JoinYarn(where, None, start, stream.end),)


def _last_chain(stream: Stream) -> Chain | None:
    """``join last ch 6 with sl st in first sc``: the chain is made, if it was not before.

    Takes: last ch 6
    Refuses: last ch
    """
    mark, start = stream.here(), stream.start
    words = [token for token in stream.tokens[: max(stream.at - 1, 0)] if token.kind != "mark"]
    again = next((at for at in range(len(words) - 1, -1, -1) if words[at].word == "rep"), None)
    if again is not None and all(one.kind == "word" for one in words[again:]):
        words = words[:again]  # what is worked last is the end of the repeat
    before = [token.word for token in words]
    if stream.accept("last") and (count := _so_long(stream)) is not None:
        if "ch" in before[-2:]:
            return None
        return Chain(count, None, start, stream.end)
    stream.back_to(mark)
    return None


def _so_long(stream: Stream) -> Amount | None:
    """``ch 6``, ``ch-6``: of how many chains one is.

    Takes: ch-6
    Refuses: ch
    """
    if stream.token.kind == "chn":
        token = stream.take()
        return Amount((token.value,), None, token.start, token.end)
    if stream.is_word("ch") and stream.ahead().kind == "num":
        stream.take()
        return stream.amount()
    return None


def _joined(stream: Stream, start: int) -> tuple[Step, ...]:
    """Behind "join": where, and with what.

    Takes: with sl st to first sc
    Takes: as before
    """
    if stream.is_word("as") and stream.ahead().word == "before":
        stream.at += 2
        return (JoinRound(None, start=start, end=stream.end),)
    if stream.is_word("to", "on") and not stream.said.isdisjoint(("leg", "arm", "ear")):
        part_of(stream)  # "join to first leg with sc in any st"
    yarn = _in_yarn(stream) or _yarn_named(stream)
    stitch = _stitch_of_join(stream, start)
    formed = formed_of(stream, start)
    if formed is not None:
        return formed
    if not yarn and stitch is None and _to_other_part(stream):
        return (Aside(start, stream.end),)
    where: Target | None = None
    if stream.accept_any("to", "in", "on", "at", "around") or stream.is_word("between", "bet"):
        stream.articles()
        formed = ring_here(stream, start)
        if formed is not None:
            return formed
        yarn = yarn or (stream.is_word("any") and stitch is None)  # "join in any corner"
        yarn = yarn or (stitch is None and _at_the_other_side(stream, start))
        if yarn and _edge_alone(stream):
            return (JoinYarn(None, stitch, start, stream.end, edge=True),)
        yarn_at = None
        if yarn or stitch is not None:
            yarn_at = _of_underarm(stream) or numbered(stream) or numbered_group(stream)
        where = yarn_at or place_of_join(stream)
        stream.accept("with", "sl st")  # "join to first hdc with sl st"
        if forms_ring(stream):
            return (JoinRound(where, ring=True, start=start, end=stream.end),)
    closes = isinstance(where, First | ChainOfTurning) and stitch is None and _has_begun(stream)
    if (yarn or stitch is not None) and not closes:
        joined = JoinYarn(where, stitch, start, stream.end)
        told = stream.folded[start : stream.end]
        if yarn and _IN_FOUNDATION.search(told) is not None:
            stream.along_chain = True
            return (OtherSide(start, start), joined)
        return (joined,)
    return (JoinRound(where, start=start, end=stream.end),)


#: a place at the far side of the chain that a piece was begun with
_FAR_SIDE = (
    r"(?:first|last|next|\d+(?:st|nd|rd|th)) (?:ch(?:ain)?|st|stitch|loop|lp) (?:of|on|along|at) "
    r"(?:the )?(?:opposite|other|free|unused) (?:side|edge)"
)


def _at_the_other_side(stream: Stream, start: int) -> bool:
    """``join in first ch on opposite side of starting ch`` at the head of a row: yarn is joined."""
    works = any(
        token.kind == "stitch" or token.word == "ch"
        for token in stream.tokens[: stream.at]
        if token.start < start
    )
    return not works and ignoring_case(_FAR_SIDE).match(stream.text, stream.start) is not None


#: one chain of those at an underarm, by its number or as the middle one
_UNDERARM_CHAIN = (
    r"(?:\d+(?:st|nd|rd|th)|first|last|cent(?:er|re)|middle|second|third|fourth) "
    r"(?:(?:(?:ch(?:ain)? |st |one )?of (?:the )?)?(?:\d+ )?underarm (?:ch(?:ain)?s?|sts?)|"
    r"(?:ch(?:ain)? |st )?(?:of (?:the )?(?:\d+ )?ch(?:ain)?s? )?(?:at|of|in) (?:the )?"
    r"(?:(?:first|second|left|right) )?underarm)\b"
)


def _of_underarm(stream: Stream) -> First | None:
    """``3rd of the 4 underarm ch``: a chain of it; which one the round tells by where it begins.

    Takes: 3rd of the 4 underarm ch
    Refuses: 3rd ch
    """
    if "underarm" not in stream.said:
        return None
    found = ignoring_case(_UNDERARM_CHAIN).match(stream.text, stream.start)
    if found is None:
        return None
    stream.pass_to(found.end())
    return First((OneChain(),))


#: yarn that is joined there works along the other side of that chain
_IN_FOUNDATION = re.compile(
    r"\b(?:foundation|starting|beginning) ch(?:ain)?s?\b(?![ -]?\d)|"
    r"\bch(?:ain)? of (?:the )?(?:foundation|starting)(?: ch(?:ain)?)?\b"
)


def _has_begun(stream: Stream) -> bool:
    """Whether something is worked before: then "join B with sl st to first sc" closes the round."""
    joins = [at for at in range(stream.at, -1, -1) if stream.tokens[at].word == "join"]
    before = stream.tokens[: joins[0]] if joins else ()
    return any(token.kind == "stitch" and token.word != "sl st" for token in before)


def _stitch_of_join(stream: Stream, start: int) -> Stitch | None:
    """``with sc``: the stitch that is worked in joining; None where it is a slip stitch.

    Takes: with sc
    """
    if not stream.accept("with"):
        return None
    stream.articles()
    stream.accept("standing")
    if stream.token.kind != "stitch":
        raise stream.fault(mend="write “join with sl st to first sc”")
    name = stream.take().word
    return None if name == "sl st" else Stitch(name, ONE, kind_of(name).legs, start, stream.end)


def _to_other_part(stream: Stream) -> bool:
    """Pass "to first leg", whose stitches are then named: the join leads to it and counts nothing.

    Takes: to first leg
    Refuses: to first sc
    """
    mark, told = stream.at, len(stream.twins)
    if part_of(stream) and (stream.at_end() or stream.token.kind == "mark"):
        return True
    stream.at = mark
    del stream.twins[told:]
    return False


_EDGES = frozenset("edge edges opening seam hole side corner end".split())


def _edge_alone(stream: Stream) -> bool:
    """``at right front neck edge``, ``at thumb opening``: no stitch is named."""
    mark = stream.at
    while stream.token.kind in ("word", "num") and not stream.is_word("st", "sp", "ch", "row"):
        word = stream.take().word
        alone = stream.at - mark <= len(("any", "corner")) and not stream.is_word("of")
        if word == "corner" and alone:
            break  # a place of the row before, if that has corners
        if word in _EDGES and _edge_ends(stream):
            return True
        if stream.is_word("with") or (stream.is_word("of") and word not in _EDGES):
            break
    stream.at = mark
    return False


#: what an edging is worked around that is not crocheted
_CLOTH = ("handkerchief", "hanky", "linen", "cloth", "fabric", "towel", "pillowcase", "napkin")


#: what has edges of its own ("other side of waistband")
_WITH_EDGES = (
    "rib ribbing band waistband cuff collar border blanket scarf shawl piece work panel brim strap"
).split()


def _edge_ends(stream: Stream) -> bool:
    """Whether nothing more is said of an edge, or only of which cloth or part it is."""
    mark = stream.at
    if stream.accept("of"):
        stream.articles()
        if stream.accept_any(*_CLOTH, *_WITH_EDGES) is None:
            stream.at = mark
    return stream.at_end() or stream.token.kind == "mark"


def place_of_join(stream: Stream) -> Target:
    """Where a round is joined: "first sc", "top of beg ch-3", "top of beg cl".

    Takes: top of beg cl
    Refuses: turn
    """
    mark = stream.here()
    if _described(stream):
        return Described()
    if stream.accept("top", "of"):
        stream.articles()
        stream.accept_any("first", "beg")
        if stream.token.kind == "stitch" and stream.ahead().word != "just":
            stream.take()
            return ChainOfTurning(None, TurningChain())
    stream.back_to(mark)
    if (chain := _nth_chain(stream)) is not None:
        return chain
    return target(stream)


def _nth_chain(stream: Stream) -> ChainOfTurning | None:
    """``3rd ch`` alone: of the chain that the round began with.

    Takes: 3rd ch
    Refuses: 3rd ch of next ch-5 sp
    """
    mark = stream.here()
    if stream.token.kind == "ord":
        token = stream.take()
        if stream.accept("ch") and (stream.at_end() or stream.token.kind == "mark"):
            nth = Amount((token.value,), None, token.start, token.end)
            return ChainOfTurning(nth, TurningChain())
    stream.back_to(mark)
    return None


#: where a place lies, in words that name no place of the row before
_DESCRIBED = (
    r"(?:the |any |a |an )*(?:\d+(?:st|nd|rd|th) )?(?:[a-z]+ )?"
    r"(?:(?:to the )?(?:right|left) of\b|(?:at |of |on |nearest )?(?:the )?"
    r"(?:center|centre) (?:back|front)\b|(?:at |of |on )?(?:the |one |either )?"
    r"(?:(?:ch(?:ain)?|st(?:itch)?|sc|[hd]?dc|h?tr) (?:of|at) (?:the |one |either |first |second |"
    r"left |right )*underarm|(?:center|centre|middle) of (?:the )?(?:\d+ )?underarm ch(?:ain)?s?|"
    r"(?:under)?arms?(?! (?:ch|st)s?\b)|side seam|seam|"
    r"(?:right|left|short|long|straight|curved|lower|upper)(?:[ -]hand)? (?:edge|side|end)|"
    r"(?:corner|edge|side|start|beginning|end) of (?:the )?(?:[a-z]+ )?"
    r"(?:gap|opening|hole|slit))\b)"
    r"[^,;.()]*"
)
#: parts of words without which nothing is described so
_DESCRIBING = tuple("gap opening hole slit left right front back arm seam edge side end".split())


def _described(stream: Stream) -> bool:
    """Pass "8th st to the right of center of one end", "center back", "left underarm".

    Takes: 8th st to the right of center of one end
    Refuses: next st
    """
    if not any(part in stream.folded for part in _DESCRIBING):
        return False
    found = ignoring_case(_DESCRIBED).match(stream.text, stream.start)
    if found is None:
        return False
    stream.pass_to(found.end())
    return True


#: "join in C.", "join in coloured thread": the yarn, and no place
_IN_YARN = (
    r"in (?:the )?(?:(?:[a-z]+ )?(?:colou?r|yarn|wool|cotton|thread|shade)(?: (?:[A-Z]|\d))?|"
    r"(?-i:[A-Z]|MC|CC)\d?)(?=\s*(?:[.;,]|\Z|\band\b|\bwith\b))"
)


def _in_yarn(stream: Stream) -> bool:
    """Pass the yarn of "join in contrast colour".

    Takes: in C.
    Refuses: in any st
    """
    found = ignoring_case(_IN_YARN).match(stream.text, stream.start)
    if found is None or stream.token.word != "in":
        return False
    stream.pass_to(found.end())
    return True


def _yarn_named(stream: Stream) -> bool:
    """Pass the yarn of "join new colour with": any words up to "with", "in" or "to"."""
    mark = stream.at
    if stream.is_word("with", "in", "to", "on", "at", "as") or stream.token.kind in ("mark", "end"):
        return False
    if stream.accept("rnd"):
        return False
    if stream.token.kind == "ord" and stream.ahead().word in _YARNS:
        stream.take()  # "second color"
    while stream.token.kind in ("word", "num") and not stream.is_word(*_BEHIND_YARN):
        if stream.token.kind == "num" and (
            stream.ahead().kind == "stitch" or stream.ahead().word in ("st", "ch", "sp", "lp")
        ):
            break  # "join yarn 4 sts from the end" names no yarn
        stream.take()
    return stream.at > mark


#: words behind "second", "third" in the name of a yarn
_YARNS = ("color", "colour", "yarn", "shade", "ball", "wool", "cotton")
#: words behind the yarn that is joined: where, with what, or the next step
_BEHIND_YARN = tuple(
    "with in to on at and then ch sk work make turn after before inc dec between bet around under "
    "over through behind any each same".split()
)


def turn(stream: Stream) -> tuple[Step, ...] | None:
    """``turn``, ``do not turn``.

    Takes: do not turn
    Refuses: do not frobnicate
    """
    start = stream.start
    alone = stream.ahead().kind in ("mark", "end")
    # "turn inside out", "do not fasten off"
    if (not alone or stream.is_word("dont")) and making_up(stream):
        return (Aside(start, stream.end),)
    if stream.accept("do", "not") or stream.accept("dont"):
        if stream.accept("turn"):
            stream.accept("work")
            _how_long_not(stream)
            pass_purpose(stream)
            return (Turn(turned=False, start=start, end=stream.end),)
        if stream.accept("join"):
            found = ignoring_case(_THESE_ROWS).match(stream.text, stream.start)
            if found is not None:
                stream.pass_to(found.end())
            elif stream.accept_any("or", "nor", "and") and stream.accept("turn"):
                return (Turn(turned=False, start=start, end=stream.end),)
            return (Aside(start, stream.end),)
        raise stream.fault(start)
    if stream.accept("turn"):
        stream.accept("work")
        return (Turn(turned=True, start=start, end=stream.end),)
    return None


_FROM_HERE = r"from (?:here|now|this point|this (?:row|rnd|round))(?: on(?:wards?)?)?"
#: behind "do not turn": in this row, or in all from here on
_HOW_LONG_NOT = (
    rf"\s*,?\s*(?:(?P<onward>{_FROM_HERE}|again\b|any ?more\b)|"
    r"after (?:the )?last (?:row|rnd|round)\b|"
    r"at (?:the )?end(?: of (?:(?:this|the|last) (?:row|rnd|round)|(?:row|rnd|round) \d+))?"
    r"(?=\s*(?:[.,;(\[–—]|\Z)))"
)


def _how_long_not(stream: Stream) -> None:
    """Behind "do not turn": keep whether that holds for all rounds from here on.

    Takes: from here on
    """
    found = ignoring_case(_HOW_LONG_NOT).match(stream.text, stream.end)
    if found is not None:
        stream.pass_to(found.end())
        stream.turns_no_more = found["onward"] is not None


def from_here(stream: Stream) -> tuple[Step, ...] | None:
    """``from here on do not turn``.

    Takes: from here on do not turn
    Refuses: from here on sc in next st
    """
    mark, start = stream.here(), stream.start
    found = ignoring_case(rf"{_FROM_HERE},?\s*(?=(?:do not|don.t) turn\b)").match(
        stream.text, start
    )
    if found is None:
        return None
    stream.pass_to(found.end())
    if not stream.accept("do", "not", "turn") and not stream.accept("dont", "turn"):
        stream.back_to(mark)
        return None
    stream.accept("work")
    stream.turns_no_more = True
    return (Turn(turned=False, start=start, end=stream.end),)


#: which rounds are not joined: "do not join this or the following rounds"
_THESE_ROWS = (
    r"(?:(?:this|these|the|or|and|any|all|of|at|end|following|next|other|each) )*"
    r"(?:rows?|rnds?|rounds?)\b"
)
#: what a step can be for
_PARTS = (
    r"(?:the |a |an |each |first |second |other |last )*"
    r"(?:thumb|sleeve|armhole|underarm|neck|buttonhole|handle|heel|toe|strap|leg|pocket|shoulder|"
    r"(?:left |right |center |centre )?(?:back|front)"
    r"(?: (?:of (?:the )?)?neck|(?! (?:loop|lp|post)s?\b))|"
    r"body|yoke|hood|bib|picot|p\b|hanger|corner|gusset|flap|sole|instep|cuff|brim|ear|arm|hand|"
    r"foot|tail|"
    r"(?:head|hat|waist|neck|wrist|hem)-?band|(?:side|front|lower|upper|inner|outer) "
    r"(?:band|border|edge)|band|border|edging|crown|welt|hem|collar|base|rim|frill|ruffle|"
    r"side|half|second one|(?:ch-\d+ |hanging |button |wrist )?(?:loop|lp|sp|space|arch))s?\b"
)
#: what comes of a step: nothing is worked in it
_SO = (
    r"(?:the|it|they|you|your|both|all)\b(?![^,;.()]*\b(?:sc|h?dc|h?tr|dtr|ch|inc\w*|dec\w*|sk|skip|"
    r"miss|work\w*|rep\w*|sts?|stitch(?:es)?|rows?|rnds?|rounds?|have|remain\w*|left|unworked|"
    r"multiple|increas\w*|decreas\w*|\d+)\b)[^,;.()]*"
)
#: what a step is for ("skip 8 sts for thumb"), and other words behind a step that change nothing
_PURPOSE = (
    rf"(?:for|to (?:form|make)) {_PARTS}(?: and {_PARTS})?"
    r"(?: opening| hole)?|to (?:form|make) (?:a |the )?(?:tube|ring|circle|round|loop)\b|"
    r"at (?:the )?base of (?:the )?(?:beg(?:inning)? |turning |t-?)?ch(?:ain)?\b[ -]?\d*|"
    r"at (?:the )?end of (?:the |each |last )?(?:row|rnd|round)s?|"
    r"to (?:complete|close|finish) (?:the )?(?:last |final )?(?:loop|lp|sp|space|rnd|round)\b|"
    r"to (?:join|close|seal|secure) (?:the )?(?:short |long |side |bottom )?"
    r"(?:ends?|edges?|sides?|seam|opening|top|bottom)\b|"
    rf"to (?:join|close|seal|secure) {_PARTS}|to join(?: the)?(?: rnd| round)?\b|"
    rf"so (?:that )?{_SO}|"
    r"to (?:even|level|finish) (?:off|up)\b|for now\b|to one side\b|"
    r"to (?:start|begin|finish)(?=\s*(?:[(\[.,;=]|\Z))|"
    r"to (?:even(?: out| off)?|level|smooth(?: out)?|neaten|hide|disguise|soften) (?:the )?"
    r"(?:edges?|ends?|join|jog|step|corners?|top|seam|round|rnd|row)\b|"
    r"to measure (?:about |approximately )?[\d½¼¾⅓⅔⅛ /.-]+ ?"
    r"(?:inch(?:es)?|ins?\b\.?|cm|yards?|yds?\b\.?)|"
    r"instead of [^,;.()]*"
    r"(?:, (?:\d+ )?(?:sc|hdc|dc|htr|tr|dtr|sl st|ss|ch ?\d+)(?=\s*(?:[.,;]|\Z)))*|"
    rf"{TWIST}|"
    r"without (?:any )?(?:further |more )?(?:increas|decreas|widen|narrow|shap)ing"
    r"(?: (?:or|and) (?:increas|decreas|shap)ing)?\b|"
    r"at (?:the )?(?:underside|underarms?|palm|inside edge|cent(?:er|re)(?: (?:back|front))?|"
    r"(?:thumb|neck|sleeve) opening|"
    r"(?:neck|armhole|front|side|outer|inner|lower|upper|top|bottom) edge)\b|"
    r"as (?:before|established|set|usual)\b|only(?=\s*(?:[,;.(\[]|\Z))|"
    r"from (?:the )?(?:first|last|second|other|left|right) (?:strap|shoulder|sleeve|front|side|"
    r"edge|armhole)\b(?! of)|at (?:the )?seams?\b|"
    r"(?:not )?(?:(?:too|very|rather|quite|fairly) )?(?:loosely|tightly|firmly|snugly)\b|"
    r"between (?:the )?(?:shells|groups|fans|petals|clusters|scallops|points)\b|"
    r"(?:working )?(?:in|into|through|thru|using) (?:the )?(?:(?:back|front|both|third|3rd|rear) "
    r"(?:loops?|lps?|bumps?|bars?)(?: only)?|[bf]lo?|tbl)\b(?! (?:of|and|then|from)\b)"
)
#: the words that what a step is for begins with
_BEGIN_PURPOSE = frozenset(
    FOLD.get(word, word)
    for word in "for to at instead as without only from not taking with being careful making "
    "ensuring in through using working between too very rather quite fairly so".split()
)


def pass_purpose(stream: Stream) -> None:
    """Pass what a step is for."""
    if stream.token.word not in _BEGIN_PURPOSE:
        return
    found = ignoring_case(_PURPOSE).match(stream.text, stream.start)
    if found is not None:
        stream.pass_to(found.end())


def fasten_off(stream: Stream) -> tuple[Step, ...] | None:
    """``fasten off``, ``finish off``, ``end off``, ``cut yarn``.

    Takes: fasten off
    Refuses: turn
    """
    start = stream.start
    if (
        stream.accept("fasten", "and", "break", "off")
        or stream.accept("fasten", "off")
        or stream.accept("finish", "off")
        or stream.accept("end", "off")
        or stream.accept("fo")
    ):
        while stream.token.kind in ("word", "num", "ord") and not stream.is_word(
            "and", "then", "but", "leave", "leaving"
        ):
            stream.take()  # "first leg", "A", "at end of last row"
        if "but" in stream.said:
            _but_not_the_other(stream)
        if ignoring_case(_AND_WORKS).search(stream.text, start, stream.end) is not None:
            raise stream.fault(start, mend="write what is worked before as rows of its own")
        return (FastenOff(start, stream.end),)
    return None


#: words behind "fasten off" that work something
_AND_WORKS = (
    r"\b(?:decreas|increas|repeat)\w*|\b(?:with|after|when)\b[^.;]*\b(?:more|next|another|a|an|"
    r"one|two|three|four|\d+) (?:\w+ )?(?:rows?|rounds?|rnds?|stitch(?:es)?)\b"
)
#: the part that is worked on from, of several alike
_NOT_THE_OTHER = (
    r"\s*,?\s*but (?:do not fasten off |leave |not |not on )(?:the )?"
    r"(?:first|1st|second|2nd|third|3rd|fourth|4th|last|final|other)"
    r"(?: (?:one|leg|arm|ear|foot|paw|piece|part|sleeve|half))?(?: on the hook)?"
    r"(?=\s*(?:[.,;]|\Z))"
)


def _but_not_the_other(stream: Stream) -> None:
    """Pass "but not the second": where the yarn is not cut, the work goes on.

    Takes: , but not the second
    """
    found = ignoring_case(_NOT_THE_OTHER).match(stream.text, stream.end)
    if found is not None:
        stream.pass_to(found.end())


def leave(stream: Stream) -> tuple[Step, ...] | None:
    """``leave rem sts unworked``, ``leaving last 4 sts unworked``, ``leave tch unworked``.

    Takes: leave rem sts unworked
    Refuses: leave next 3 dc
    """
    if not stream.is_word("leave", "leaving"):
        return None
    if making_up(stream):
        return (Aside(stream.tokens[stream.at - 1].start, stream.end),)
    start = stream.take().start
    stream.articles()
    if stream.is_word("next") and stream.ahead().kind in ("num", "formula"):
        return _leave_in_the_midst(stream, start)
    if stream.accept_any("rest", "remainder"):
        return _leave_the_rest(stream, start)
    rest = bool(stream.accept_any("rem", "these", "those", "other"))
    last = stream.accept_any("last", "final")
    counted = stream.amount() if stream.is_amount() else None
    alone = stream.is_word("unworked") or (counted is not None and stream.token.kind != "stitch")
    alone = alone and not stream.is_word("st", "ch", "sp", "lp", "mesh")
    alone = alone or (rest and stream.is_word("free", "open"))  # "leaving these free"
    found = (AnyStitch(),) if alone else names(stream)
    _pass_of_what(stream)
    _unworked(stream, rest=rest or isinstance(found[0], StitchGroup))  # "leave fan"
    if counted is None and last and isinstance(found[0], AnyStitch):
        counted = ONE
    whole = rest or counted is not None or isinstance(found[0], AnyStitch)
    return (LeaveRest(None if whole else found[0], start, stream.end, counted, found),)


def _leave_the_rest(stream: Stream, start: int) -> tuple[Step, ...]:
    """``leaving the rest``, ``leaving the rest of the sts unworked``.

    Takes: of the sts unworked
    Refuses: of the 4 sts in the corner
    """
    if stream.accept("of"):
        stream.articles()
        if not stream.accept_any("row", "rnd"):
            names(stream)
    _unworked(stream, rest=True)
    return (LeaveRest(None, start, stream.end, None, (AnyStitch(),)),)


def _leave_in_the_midst(stream: Stream, start: int) -> tuple[Step, ...]:
    """``leaving next 4 sts unworked``: they are skipped, as the row goes on behind them.

    Takes: next 4 sts unworked
    Refuses: next 4 sts
    """
    stream.take()
    count = stream.amount()
    found = names(stream)
    _unworked(stream, rest=False)
    return (Skip(Next(found, count), start, stream.end),)


def _pass_of_what(stream: Stream) -> None:
    """Pass "of scallop" in "leave loops of scallop unworked": which they are is plain."""
    mark = stream.at
    if stream.accept("of"):
        stream.articles()
        while stream.token.kind == "word" and not stream.is_word("unworked", "on"):
            stream.take()
        if stream.is_word("unworked"):
            return
    stream.at = mark


def _unworked(stream: Stream, *, rest: bool) -> None:
    """Pass "unworked", or where they wait ("on hold", "for neck"); of the rest it may be unsaid."""
    if stream.accept("unworked") or stream.accept("on", "hold"):
        return
    if stream.accept_any("free", "open", "alone"):
        pass_purpose(stream)
        return
    if stream.accept("at", "end") and (stream.at_end() or stream.token.kind == "mark"):
        return
    purposed = stream.is_word("for")
    before = stream.at
    pass_purpose(stream)
    if purposed and stream.at > before:  # "leaving 11 sts for back of neck"
        return
    if not (rest and (stream.at_end() or stream.token.kind == "mark")):
        raise stream.fault(mend="write “leave rem sts unworked”")


_TO_WORK = (
    r"(?:now\s+)?(?:(?:rotate|turn|pivot)\s+(?:the\s+)?(?:work\s+|piece\s+|ch(?:ain)?\s+)?"
    r"(?:upside down\s+|(?:180|90)(?:\s*degrees?|\s*°)?\s+|clockwise\s+)*(?:,\s*|and\s+|to\s+)*)?"
    r"(?:(?:work(?:ing)?\s+)?(?:back\s+)?(?:along|across|around|into|in|on|up|down|to)|"
    r"us(?:e|ing))\s+"
    r"(?:the\s+)?"
)
_CHAIN_EDGE = r"(?:(?:foundation|starting|beg|beginning|base|initial)\s+)*(?:ch(?:ain)?s?\b|row\b)"
_OTHER_SIDE = (
    r"(?:cont(?:inu(?:e|ing))?\s+)?"
    + _TO_WORK
    + r"(?:(?:(?:other|opposite|second|free|remaining|rem|unused|back|bottom)\s+)+"
    r"(?:side|loops?|lps?|edge)s?\s+(?:(?:on|of)\s+(?:the\s+)?(?:other|opposite|second)\s+side\s+)?"
    r"(?:of|on)\s+(?:the\s+)?"
    + _CHAIN_EDGE
    + r"|(?:bottom|underside)(?:\s+edge)?(?:\s+of\s+(?:the\s+)?(?:"
    + _CHAIN_EDGE
    + r"|piece\b|blanket\b|work\b))?(?=\s*[,:;.)])|"
    r"(?:foundation|starting|beg|beginning|base)\s+ch(?:ain)?\b(?:\s+edge)?(?=\s*[,:;]))"
    r"(?:\s+(?:to correspond|to match|as follows)(?=\s*[,:;]))?\s*[,:;]?"
)
#: back down a chain that was just worked along
_BACK_DOWN = (
    r"(?:(?:rotate|turn)\s+(?:the\s+)?(?:work\s+)?(?:upside down\s+)?(?:and\s+|to\s+)*)?"
    r"work(?:ing)?\s+back\s+(?:down|along|across)\s+(?:the\s+)?(?:other side of\s+)?(?:the\s+)?"
    + _CHAIN_EDGE
    + r"\s*[,:;]?"
)
#: "rotate to work along row ends": the steps behind it say what is worked
_TO_SIDE = (
    _TO_WORK + r"(?:(?:left|right|next|other|second|first|short|long|one|same|straight|raw|free)"
    r"(?:-hand)?\s+)*"
    r"(?:row[ -]ends?|ends? of rows?|sides?|side edge|edge)\b[^,;.:()]*[,:;]?"
)


#: the same where a chain has just been worked along, and no other is meant
_SIDE_OF_THIS = (
    r"(?:work(?:ing)?\s+)?(?:back\s+)?(?:along|on|up|down)\s+(?:the\s+)?"
    r"(?:(?:other|opposite|second)\s+side|underside)\s*(?=[,:;])[,:;]?|"
    r"(?:turn|rotate)\s+(?:the\s+)?(?:work\s+|piece\s+)?(?:to|and)\s+work\s+(?:back\s+)?"
    r"(?:along|on)\s+the\s+underside\s*[,:;]|"
    r"(?:turn|rotate)\s+(?:the\s+)?(?:ch(?:ain)?|work|piece)\s+and\s+work\s+(?:back\s+)?"
    r"(?:along|on|up|down)\s+(?:its|the)\s+(?:other|opposite|second)\s+(?:side|edge)\s*[,:;]"
)
#: the words, folded, that going along another side begins with
_BEGIN_SIDE = frozenset(
    FOLD.get(word, word)
    for word in (
        "now rotate turn pivot work working continue continuing cont back along across around into "
        "in on up down use using".split()
    )
)
#: what stands behind "turn" where nothing is said of a side: a mark, or the end of the row
_NO_SIDE_BEHIND = ("", "(", "[", ".", ";")
#: words that begin "rotate to work along row ends"
_MOVING = ("rotate", "turn", "pivot", "now", "working", "work")


def other_side(stream: Stream) -> tuple[Step, ...] | None:
    """``working along other side of ch``.

    Takes: working along other side of ch
    Refuses: working along
    """
    if stream.token.word not in _BEGIN_SIDE or stream.ahead().word in _NO_SIDE_BEHIND:
        return None
    start = stream.start
    found = ignoring_case(_BACK_DOWN).match(stream.text, start) or ignoring_case(_OTHER_SIDE).match(
        stream.text, start
    )
    if found is None and "hook" in stream.said:
        found = ignoring_case(_SIDE_OF_THIS).match(stream.text, start)
    side = None if found is not None else ignoring_case(_TO_SIDE).match(stream.text, start)
    if side is not None and stream.is_word(*_MOVING):
        verb = work_within(stream, side.end())
        stream.pass_to(side.end() if verb is None else stream.tokens[verb].start)
        return (Aside(start, stream.end),)
    if found is None:
        return None
    stream.pass_to(found.end())
    stream.along_chain = True
    return (OtherSide(start, stream.end),)


def plain_work(stream: Stream) -> tuple[Step, ...] | None:
    """``work to last 2 sts``, ``work across first 20 sts``: in the stitch of the row.

    Takes: work to last 2 sts
    Refuses: work 2 sc in next st
    """
    mark, start = stream.here(), stream.start
    if stream.accept_any("work", "cont", "working"):
        patt = stream.accept("even", "in", "patt") or stream.accept("in", "patt")
        if patt and stream.accept("as"):
            stream.accept_any("set", "est", "established")
        if (over := over_many(stream)) is not None:
            return (Increase(over, start, stream.end, 1, patt),)
        if stream.is_word("to", "until", "across", "around"):
            bound = limit(stream)
            return (Increase(Each((AnyStitch(),), bound), start, stream.end, 1, patt),)
    stream.back_to(mark)
    return None


def verb(stream: Stream) -> tuple[Step, ...] | None:
    """``work 2 sc in side of each row``: the verb adds nothing."""
    if stream.words_ahead("finish", "with") and _stitch_comes(stream):
        stream.take()
    elif not stream.is_word("work", "make") or not begins_after_verb(stream):
        return None
    stream.take()
    stream.articles()
    if stream.is_word("another") and stream.ahead().kind in ("stitch", "num"):
        stream.take()
    return ()


def _stitch_comes(stream: Stream) -> bool:
    """Whether behind "finish with" a stitch is named: "finish with a sl st in next st"."""
    after = stream.ahead(3) if stream.ahead(2).word in ("a", "an") else stream.ahead(2)
    return after.kind == "stitch"


def aside_step(stream: Stream) -> tuple[Step, ...] | None:
    """Words that change no count.

    Takes: place marker in last st
    Refuses: sc in next st
    """
    start = stream.start
    recolours = stream.is_word("change", "changing", "switch", "at")
    if aside(stream):
        if not recolours:  # "change to B at end of Row 6" is worked into no place of that row
            working_in(stream, start)
        stream.accept(":")  # "Working through both layers: sc 5"
        return (Aside(start, stream.end, marker_of(stream.text[start : stream.end])),)
    return None


#: words behind a stitch with which a seam is told, where "together" is not said
_SEAMED = frozenset("the row rnd last first final edge edges end side short long".split())


#: by how much the rows grow, told behind them ("Each row adds two groups.")
_GROWS = (
    r"each (?:row|rnd|round) (?:adds|increases by|increases|decreases by|decreases|gains|loses) "
    r"(?=(?:\d+|one|two|three|four|five|six|seven|eight|nine|ten) (?P<what>[a-z-]+(?: [a-z-]+)?)"
    r"\s*(?:[.;]|\Z))"
)


def grows(stream: Stream) -> tuple[Step, ...] | None:
    """``Each row adds two groups.``: kept as a count that is told as not checked.

    Takes: Each row adds two groups
    Refuses: each st
    """
    start = stream.start
    found = ignoring_case(_GROWS).match(stream.text, start)
    if found is None:
        return None
    stream.pass_to(found.end())
    number = stream.amount()
    stream.pass_to(found.end("what"))
    word = "row" if "row" in found[0].lower() else "round"
    said = ((number, f"?{found['what']} by which a {word} changes"),)
    stream.told_count = Stated(said, start, stream.end)
    return (Aside(start, stream.end),)


def sewn(stream: Stream) -> tuple[Step, ...] | None:
    """``sl st the short ends together``: a seam works no stitch of a row.

    Takes: sl st the short ends together
    Takes: sl st Row 72 to foundation ch through both thicknesses
    Refuses: sl st in next st
    """
    seamed = not stream.said.isdisjoint(("tog", "closed", "shut"))
    if not seamed and stream.ahead().word not in _SEAMED:
        return None
    if stream.token.word in stream.vocabulary.special:
        return None  # "block" of filet is no blocking
    start = stream.start
    return (Aside(start, stream.end),) if making_up(stream) else None
