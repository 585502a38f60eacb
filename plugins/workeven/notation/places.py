"""Places by name: "st", "dc", "ch-2 sp", "3-dc group", and limits such as "to last 3 sts".

Takes     ``Stream``.
Gives     ``name``, ``names``, ``limit``.
Problems  none of its own: ``NotUnderstood``.
From      notation.md, the table of places and "Named places".
"""

from __future__ import annotations

from workeven.notation.earlier import of_row
from workeven.notation.expressions import ignoring_case
from workeven.notation.stream import Stream
from workeven.notation.tree import (
    CENTER,
    MARKER,
    ONE,
    AnyStitch,
    Gap,
    Limit,
    Marked,
    NamedStitch,
    OneChain,
    PlaceName,
    RowEnd,
    Space,
    StitchGroup,
    ToLast,
    ToNext,
    TurningChain,
)
from workeven.notation.twins import part_of
from workeven.notation.whereabouts import pass_far_side

#: words for stitches one behind the other, which they are anyway
_IN_A_ROW = ("successive", "consecutive")
#: words for a space of a mesh, where the pattern declares no square of that name
_OPENINGS = ("square", "mesh", "hole", "opening", "eyelet")
#: words that may stand before "ch" of a beginning or turning chain.
TURNING = ("turning", "beg", "t")


def name(stream: Stream) -> PlaceName | None:
    """One name of a place, or None.

    Takes: ch-2 sp
    Refuses: turn
    """
    stream.articles()
    token = stream.token
    if token.word == "center" and stream.tokens[stream.at - 1].kind == "num":
        stream.take()  # "miss 3 centre sts": which they are, their order tells
        token = stream.token
    if token.word == "center" and _center_stitch(stream):
        return Marked(CENTER)
    if token.word == "end" and (stream.ahead().kind == "stitch" or stream.ahead().word == "ch"):
        stream.take()  # "the 4 end sc": which they are, their order tells
        token = stream.token
    if token.word == "picot" and stream.ahead().word in ("sp", "lp"):
        stream.at += 2
        return Space(of="picot")
    if token.word == "corner" and stream.ahead().word in ("sp", "lp"):  # also a declared one
        stream.at += 2
        return Space(corner=True)
    if token.kind == "stitch" or token.word == "st":  # most are that
        found = _stitch(stream)
        return Marked(MARKER) if stream.accept("with", "marker") else found
    stream.accept_any("rem", "unworked", "unused", "skipped", "free", "corresponding", *_IN_A_ROW)
    _pass_kind(stream)
    if stream.ahead().word == "ch" and stream.ahead().kind == "word":
        stream.accept_any("foundation", "base")
    _pass_part(stream)
    if _marker(stream):
        return Marked(MARKER)
    center = stream.is_word("center") and (
        stream.ahead().kind == "chn" or stream.ahead().word in ("sp", "lp")
    )
    if center:
        stream.take()
    if _row_end(stream):
        return RowEnd()
    corner = bool(stream.accept("corner"))
    found = _space(stream, corner=corner) or turning(stream) or _stitch(stream)
    if found is None and corner:
        return Space(corner=True)
    return Space(corner=True, of="center") if center and found == Space() else found


def _pass_kind(stream: Stream) -> None:
    """Pass what tells no place apart: "next single dc", which is none of a group, "handle sp"."""
    after = stream.ahead()
    opening = stream.is_word("handle", "thumb", "buttonhole") and after.word in ("sp", "lp")
    if opening or (stream.is_word("single", "lone") and after.kind == "stitch"):
        stream.take()


#: words behind which "center st" is that of a part, or says nothing of the row
_OF_A_PART = frozenset("corner shell group point petal fan cl scallop leaf".split())


def _center_stitch(stream: Stream) -> bool:
    """Pass "center st", "center sc": the stitch in the middle of the row.

    In a row that works corners or groups it may be the middle of those: that is not told apart.
    """
    here, behind = stream.ahead(), stream.tokens[min(stream.at + 2, len(stream.tokens) - 1)]
    if (here.kind != "stitch" and here.word != "st") or here.plural:
        return False
    if behind.word in ("of", "in", "on", "between") or not stream.said.isdisjoint(_OF_A_PART):
        return False
    stream.at += 2
    return True


#: parts of a piece whose stitches are named by it ("20 heel sts")
_PARTS = frozenset(
    "heel instep sole foot body sleeve thumb gusset hand palm cuff brim crown neck underarm "
    "armhole shoulder flap held leg arm head border band yoke bodice".split()
)


def _marker(stream: Stream) -> bool:
    """``marked st``, ``marker``, ``st with marker``."""
    if stream.accept("marked"):
        if not stream.accept_any("st", "sc", "hdc", "dc", "tr") and stream.token.kind == "stitch":
            stream.take()
        return True
    if stream.is_word("marker", "m") and stream.ahead().word not in ("in", "to"):
        stream.take()
        stream.accept("st")
        return True
    return False


def _pass_part(stream: Stream) -> None:
    """Pass the part in ``heel sts``: which one it is, the order of the places tells."""
    if stream.token.word in _PARTS and stream.is_word(stream.token.word):
        after = stream.ahead()
        if after.kind == "stitch" or after.word in ("st", "ch"):
            stream.take()


def _row_end(stream: Stream) -> bool:
    """Pass "row end", "side of row", "row": the side of one row."""
    mark = stream.at
    if stream.accept_any("side", "end", "edge") and not stream.accept("of"):
        stream.at = mark
    if stream.is_word("rowend") or (stream.is_word("row") and stream.ahead().kind != "num"):
        stream.take()
        stream.accept_any("end", "edge", "side")
        return True
    stream.at = mark
    return False


def _space(stream: Stream, *, corner: bool) -> PlaceName | None:
    """A space between stitches, or the gap between groups.

    Takes: ch-2 sp
    Refuses: dc
    """
    if stream.token.kind == "chn":
        if stream.ahead().word == "corner" and stream.ahead(2).kind != "stitch":
            chains = stream.take().value  # "ch-2 corner sp", "ch-2 corner"
            stream.take()
            stream.accept_any("sp", "lp")
            return Space(chains, corner=True)
        if stream.ahead().word in ("sp", "lp"):
            chains = stream.take().value
            stream.take()
            return Space(chains, corner)
        if stream.ahead().kind != "word" or corner:
            return Space(stream.take().value, corner)
        return None
    if (
        stream.is_word("ch")
        and stream.ahead().kind == "num"
        and stream.ahead(2).word in ("sp", "lp")
    ):
        stream.take()
        chains = stream.take().value
        stream.take()
        return Space(chains, corner)
    if stream.is_word("ch") and stream.ahead().kind == "num" and _worked_over(stream):
        stream.take()
        return Space(stream.take().value, corner)
    if stream.words_ahead("ch", "sp") or stream.words_ahead("ch", "lp"):
        stream.take()
    if stream.is_word("sp", "lp", "mesh"):
        stream.take()
        if (of := _of_chains(stream)) is not None:
            return Space(of, corner)
        return _between(stream) or Space(None, corner)
    if stream.accept_any(*_OPENINGS):
        return Space(None, corner)
    return _between(stream)


def _worked_over(stream: Stream) -> bool:
    """Whether "over ch 7", "under each ch 7" ends here: a chain is worked over in its space."""
    after = stream.ahead(2)
    ends = after.kind in ("mark", "end") or after.word in ("and", "then")
    at = stream.at - 1
    while at > 0 and stream.tokens[at].word in _WHICH_CHAIN:
        at -= 1
    verb = stream.tokens[max(at, 0)]
    under = verb.word == "in" and stream.folded[verb.start : verb.end] == "under"
    return ends and (under or verb.word in ("over", "around"))


#: words between "over" and the chain that is worked over
_WHICH_CHAIN = ("next", "each", "the", "first", "last", "same", "every")


def _of_chains(stream: Stream) -> int | None:
    """``loop of 5 ch``, ``loop of ch 5``: of how many chains it is.

    Takes: of 5 ch
    Refuses: of shell
    """
    mark = stream.here()
    if stream.accept("of"):
        stream.articles()
        if stream.token.kind == "chn":
            return stream.take().value
        if stream.token.kind == "num" and stream.ahead().word == "ch":
            number = stream.take().value
            stream.take()
            return number
        if stream.is_word("ch") and stream.ahead().kind == "num":
            stream.take()
            return stream.take().value
    stream.back_to(mark)
    return None


#: words for the middle of what is between two spaces
MIDWAY = ("midway", "halfway")


def _between(stream: Stream) -> Gap | None:
    """The gap between two places, or what is midway between two spaces.

    Takes: midway between next 2 ch-3 sps
    Refuses: midway
    """
    midway = stream.is_word(*MIDWAY) and stream.ahead().word in ("between", "bet")
    if midway:
        stream.take()
    if not stream.accept_any("between", "bet"):
        return None
    return _midway(stream) if midway else _gap(stream)


def _midway(stream: Stream) -> Gap:
    """Behind "midway between": the spaces at both sides.

    Takes: next 2 ch-3 sps
    Refuses: next 2 dc
    """
    stream.articles()
    stream.accept_any("next", "any", "each", "first", "last", "these")
    if stream.token.kind == "num" and stream.token.value == 2:  # noqa: PLR2004, it has two sides
        stream.take()
    found = name(stream)
    if not isinstance(found, Space):
        raise stream.fault(mend="write “midway between next 2 ch-3 sps”, or name the stitch itself")
    return Gap(midway=found)


def _gap(stream: Stream) -> Gap:
    """What stands at both sides: "shells", "groups", "next 2 dc", "2 center dc" (then "of …").

    Takes: next 2 dc
    """
    stream.articles()
    first = stream.accept_any("next", "last", "first", "these", "this", "any") == "first"
    pair = stream.token.kind == "num" and stream.token.value == 2  # noqa: PLR2004, a gap has two sides
    if pair:
        stream.take()
    stream.accept_any("center")
    between = name(stream)
    if between is not None and stream.accept("and"):  # "this group and next"
        stream.articles()
        if not stream.accept_any("next", "first", "last"):
            raise stream.fault(mend="write “sp between next 2 groups”")
        name(stream)
    match between:
        case NamedStitch(name=stitch):
            return Gap(stitch, pair, first and pair)
        case StitchGroup():
            return Gap(None, pair=False)
        case _:
            pair = pair and isinstance(between, AnyStitch)
            return Gap(None, pair, first and pair)


def turning(stream: Stream) -> PlaceName | None:
    """The chain that a row begins with, of this row or of the one before.

    Takes: beg ch-3
    Refuses: next dc
    """
    if stream.accept("tch"):
        if stream.accept_any("sp", "lp"):
            stream.chain_space = True
            return Space()
        return TurningChain()
    if stream.is_word("ch") and stream.ahead().word == "at":
        mark = stream.here()
        stream.at += 2
        stream.articles()
        if stream.accept("end"):
            return TurningChain()  # "the chain at the end"
        stream.back_to(mark)
    if stream.is_word("turning") and stream.ahead().word in ("lp", "sp"):
        stream.at += 2
        stream.chain_space = True
        return Space()
    if stream.is_word(*TURNING):
        after = stream.ahead()
        if after.kind == "chn":
            stream.take()
            return TurningChain(stream.take().value)
        if after.kind == "word" and after.word == "ch":
            stream.take()
            stream.take()
            chains = stream.take().value if stream.token.kind == "num" else None
            return TurningChain(chains)
        if after.kind == "num" and stream.ahead(2).word == "ch":
            stream.take()
            chains = stream.take().value
            stream.take()
            return TurningChain(chains)
        if after.kind == "stitch":  # "beg cl": the full stitch's place
            stream.take()
            return NamedStitch(stream.take().word)
    return None


#: words for what was worked into one place, or along a chain of its own
GROUPS = ("group", "patt", "shell", "petal", "fan", "leaf", "spoke", "scallop", "point")


def _stitch(stream: Stream) -> PlaceName | None:
    """A stitch, a group, a single chain.

    Takes: 3-dc group
    Takes: group of 3 dc
    Refuses: turn
    """
    token = stream.token
    if token.kind == "stitch":
        stream.take()
        stream.accept("group")
        return NamedStitch(token.word)
    if token.kind == "grp":
        stream.take()
        if not stream.accept_any("group", "shell", "petal", "corner", "fan", "leaf"):
            stream.expect("group", mend="write “3-dc group” for stitches worked into one place")
        return StitchGroup(token.value, token.word)
    if stream.accept_any("st", "place"):
        return AnyStitch()
    if stream.accept("picot"):
        stream.accept_any("lp", "sp")
        return NamedStitch("picot")
    if token.kind == "word" and token.word in GROUPS:
        stream.take()
        if (
            stream.is_word("of")
            and stream.ahead().kind == "num"
            and stream.ahead(2).kind == "stitch"
        ):
            stream.take()
            return StitchGroup(stream.take().value, stream.take().word)
        if not stream.accept("at", "its", "center"):  # that is what is meant without it too
            stream.accept("at", "center")
        return StitchGroup(name=token.word if token.word not in ("group", "patt") else None)
    if stream.accept("ch"):
        return OneChain()
    return None


def names(stream: Stream, *, each: bool = False, one_each: bool = False) -> tuple[PlaceName, ...]:
    """Names of places joined by "and" or "or"; after "each", "and in each" joins them too.

    ``one_each``: "next dc and ch-1 sp" are two places one behind the other, and not joined.

    Takes: st and sp
    Refuses: turn
    """
    first = name(stream)
    if first is None:
        raise stream.fault(mend="name a place to work into, such as “st”, “dc” or “ch-2 sp”")
    found = [first]
    while stream.is_word("and", "or", "&"):
        mark = stream.at
        one_each = one_each and not stream.is_word("or")
        stream.take()
        if each:
            stream.accept("in")
            stream.accept("each")
        taken = stream.is_word("next", "first", "last", "same", "in", "each", "place")
        stitch = stream.token.kind == "stitch" and stream.ahead().word == "in"
        chains = stream.ahead().kind == "num" and stream.ahead(2).word not in ("sp", "lp")
        taken = taken or (chains and stream.is_word("ch"))  # "sk first dc and ch 2"
        another = None if taken or stitch else name(stream)
        if (
            another is not None
            and one_each
            and isinstance(another, Space) != isinstance(first, Space)
        ):
            another = None
        if another is None:
            stream.at = mark
            break
        found.append(another)
    if isinstance(found[0], AnyStitch) and stream.words_ahead("of", "ch"):
        stream.at += 2  # "in each st of ch": the chains of the start
    elif stream.words_ahead("of", "ring") and stream.ahead(2).kind in ("mark", "end"):
        stream.at += 2  # "skip next sc of ring": those that stand around it
    elif not (
        part_of(stream)
        or (isinstance(found[0], Space) and _of_turning(stream))
        or (stream.token.word == "of" and not isinstance(found[0], Space) and _of_group(stream))
    ):
        of_row(stream)
    edged = isinstance(found[0], RowEnd | OneChain) and not pass_far_side(stream)
    if edged or (stream.is_word("at") and isinstance(found[0], Space)):
        pass_edge(stream)
    if stream.is_word("of"):
        _pass_part_of(stream)
    return tuple(found)


#: the part that stitches are of, which their order tells too; "of first leg" is told apart
_PART_OF = (
    r"of (?:the )?(?:(?:starting |foundation )?(?:chain|foundation)|tip|block|square|motif|"
    r"sleeves?|body|leg|yoke|crown|brim|cuff|thumb|hat|bag|sole|instep|heel|toe|"
    r"foot|neck|back|front|"
    r"(?:last |next )?flag)\b(?: (?:slit|opening|edge))?(?=\s*[,;.:)\]]|\s+(?:and|then)\b|\s*\Z)"
)


def _pass_part_of(stream: Stream) -> None:
    """Pass "of sleeve" behind "each of the 22 hdc"."""
    found = ignoring_case(_PART_OF).match(stream.text, stream.start)
    if found is not None:
        stream.pass_to(found.end())


def _of_group(stream: Stream) -> bool:
    """Pass "of shell", "of the fan": the stitches that come next are those of it.

    Takes: of the fan
    Refuses: of next shell
    """
    mark = stream.at
    if stream.accept("of"):
        stream.articles()
        stream.accept_any("same", "that", "this")
        token = stream.token
        own = token.kind == "stitch" and token.word in stream.vocabulary.special
        if own or (token.kind == "word" and token.word in GROUPS):
            stream.take()
            return True
    stream.at = mark
    return False


def _of_turning(stream: Stream) -> bool:
    """Pass "of turning ch" behind a space: that chain has no other.

    Takes: of turning ch
    Refuses: of Rnd 3
    """
    mark = stream.at
    if stream.accept("of"):
        stream.articles()
        if turning(stream) is not None:
            stream.chain_space = True
            return True
    stream.at = mark
    return False


#: which edge is meant, behind "each row end", "each ch"
_EDGE = (
    r"(?:along|down|up|across|on|of|a?round)\s+(?:the\s+|this\s+|each\s+|one\s+)?"
    r"(?:(?:left|right|first|second|other|next|bottom|lower|top|opposite|same|short|long|starting|"
    r"foundation|beg(?:inning)?|base|front|back|neck|brim|hem|cuff|waist|armhole|outer|inner|upper|"
    r"straight|curved|shaped)(?:-hand)?\s+)*"
    r"(?:sides?|edges?|ends?|bottom|top(?! of)|opening|ch(?:ain)?)\b"
    r"(?:\s+(?:edges?|side|of (?:the )?(?:piece|blanket|work|rows?|ch(?:ain)?)))*|"
    r"at (?:the |each )?corners?(?=\s*[,;.])|at (?:the |one |each )?(?:long|short) (?:side|edge)\b"
)


def pass_edge(stream: Stream) -> None:
    """Pass "along left side edge", "along bottom"."""
    to_it = stream.is_word("along", "down", "up", "across", "on", "of", "around", "rnd", "at")
    if not to_it or stream.ahead().kind == "mark":
        return
    found = ignoring_case(_EDGE).match(stream.text, stream.start)
    if found is not None:
        stream.pass_to(found.end())


#: words with which it begins how far an open step goes
_BOUNDING = (
    "all",
    "throughout",
    "across",
    "around",
    "rnd",
    "to",
    "until",
    "till",
    "up",
    "back",
    "along",
)


def limit(stream: Stream) -> Limit | None:
    """Where an open step stops, or None where it runs to the end of the row.

    Takes: to last 3 sts
    Refuses: to and fro
    """
    if stream.token.word not in _BOUNDING:
        return None
    mark = stream.at
    if _all_the_way(stream):
        return None
    if part_of(stream):
        return None
    if stream.accept_any("across", "around"):
        _pass_top(stream)
        inner = limit(stream)
        if inner is None and stream.at == mark:
            stream.at = mark + 1
        return inner
    if _until_rows(stream) or not stream.accept_any("to", "until", "up", "till"):
        return None
    stream.accept("to")
    stream.articles()
    stream.accept("very")
    joins = stream.is_word("join") and stream.ahead().word in _JOINED
    if joins or stream.is_word(*_DONE_BY_IT):
        stream.at = mark  # "to join the short ends", "to close the cuff": what it is for
        return None
    if stream.accept_any("end", "join") or _end_of_row(stream):
        if stream.accept("of"):
            stream.articles()
            stream.accept_any("row", "rnd", "ch")
        return None
    if stream.is_word("last", "within", "final"):
        return _to_last(stream)
    found = _up_to_place(stream, mark)
    if found is not None:
        return found
    raise stream.fault(stream.tokens[mark].start, mend="write “to last 3 sts” or “to next ch-2 sp”")


#: what is joined by a step, and what else a step is for
_JOINED = ("the", "short", "long", "end", "edges")
_DONE_BY_IT = ("close", "seal", "secure")
#: parts across which a step goes, up to where the next begins
_ACROSS = ("back", "front", "sleeve", "shoulder", "body", "yoke", "heel", "instep")


def _pass_top(stream: Stream) -> None:
    """Pass "top edge" behind "across": along the last row of a piece, which has the stitches.

    So are the parts of one: "across back to next marker".
    """
    mark = stream.at
    stream.articles()
    stream.accept_any("first", "second", "left", "right")
    if stream.accept_any(*_ACROSS) and not stream.is_word("lp", "only"):
        return
    stream.at = mark
    stream.articles()
    if stream.accept("top") and not stream.is_word("of"):
        stream.accept("edge")
    else:
        stream.at = mark


def _up_to_place(stream: Stream, mark: int) -> Limit | None:
    """Behind "to": the place in front of which a step stops.

    ``mark`` is where the words of the limit begin.
    """
    group = _to_group(stream)
    if group is not None:
        return group
    if stream.accept("next") or stream.accept("first"):
        if stream.is_amount():  # "up to next 2 sts": no limit
            raise stream.fault(stream.tokens[mark].start)
        return ToNext(_one(stream))
    if stream.is_amount():
        return _so_many_before(stream)
    if stream.is_word("center") and stream.ahead().kind in ("mark", "end"):
        stream.take()  # "to center, (2 dc, ch 2, 2 dc) in ch-2 sp": what that is, the proof tells
        return ToNext(Marked(CENTER))
    place = name(stream)
    if place is not None:
        return ToNext(place)
    return None


def _so_many_before(stream: Stream) -> Limit:
    """``2 sts before next marker``, ``3 sts before end``, ``3 sts rem``.

    Takes: 2 sts before next marker
    Takes: 3 sts before end of row
    Refuses: and so on
    """
    less = stream.amount()
    held = names(stream)
    if stream.accept("before"):
        stream.articles()
        if stream.accept("end"):
            if stream.accept("of"):
                stream.articles()
                _end_of_row(stream)
            return ToLast(less, held)
        stream.accept_any("next", "first")
        stream.articles()
        return ToNext(_one(stream), less)
    _and_so_many(stream)
    stream.accept_any("are", "is")
    stream.accept_any("rem", "remain", "left", "remains")
    return ToLast(less, held)


def _and_so_many(stream: Stream) -> None:
    """Pass "and 1 sc" of "until 1 shell and 1 sc remain": it lies behind the shell that is left."""
    mark = stream.here()
    if stream.accept("and") and stream.is_amount():
        stream.amount()
        name(stream)
        if stream.is_word("rem", "remain", "remains", "left", "are"):
            return
    stream.back_to(mark)


def _to_group(stream: Stream) -> ToNext | None:
    """``center sc of next corner``, ``next shell``: up to a group, or to its middle.

    A corner or a point that is one stitch is its middle.

    Takes: center sc of next 3-sc group
    Takes: next shell
    Refuses: next st
    """
    mark = stream.at
    inside = stream.accept("center")
    if inside:
        name(stream)
        if not stream.accept_any("of", "in"):
            stream.at = mark
            return None
    stream.articles()
    stream.accept_any("next", "first", "each")
    found = name(stream)
    if found == NamedStitch("corner") or (found == Space(corner=True) and stream.at > mark + 1):
        found = StitchGroup(name="corner")
    if isinstance(found, StitchGroup):
        return ToNext(found, inside=inside or found.name == "corner")
    stream.at = mark
    return None


def _all_the_way(stream: Stream) -> bool:
    """``all the way around``, ``all around``, ``all across``."""
    mark = stream.at
    if stream.is_word("throughout") and stream.ahead().kind in ("mark", "end"):
        stream.take()
        return True
    if stream.accept("all"):
        stream.accept("the", "way")
        if stream.accept_any("around", "across", "along", "rnd"):
            return True
        stream.at = mark
    if stream.is_word("along") and stream.ahead().kind in ("mark", "end"):
        stream.take()
        return True
    if stream.is_word("back", "along"):
        return _along_the_row(stream)
    after = stream.ahead()
    if stream.is_word("rnd") and not stream.token.plural and after.kind in ("mark", "end"):
        stream.take()  # "in each st round"
        return True
    return False


def _along_the_row(stream: Stream) -> bool:
    """``back along the row``, ``along the round``: as far as that goes."""
    mark = stream.at
    back = stream.accept("back")
    if stream.accept_any("along", "across", "around"):
        stream.articles()
        ends = stream.ahead().word in ("end", "side")  # "along row ends"
        if (not ends and stream.accept_any("row", "rnd")) or back:
            return True
    stream.at = mark
    return False


def _until_rows(stream: Stream) -> bool:
    """Whether "until" says how many rows are worked, and not where the step stops in its row.

    Takes: until piece measures 30 cm
    Refuses: until 3 sts rem
    """
    if not stream.is_word("until", "till"):
        return False
    mark = stream.at
    stream.take()
    while stream.token.kind in ("word", "stitch") and stream.token.word not in _ROWS_UNTIL:
        stream.take()
    found = stream.token.word in _ROWS_UNTIL
    stream.at = mark
    return found


#: words of "until piece measures", "until it is", "until there are", "until you have"
_ROWS_UNTIL = frozenset("measures measure is are have".split())


def _end_of_row(stream: Stream) -> bool:
    return stream.accept("row") or stream.accept("rnd")


def _to_last(stream: Stream) -> Limit:
    """``last 3 sts``, ``within 3 sts of end``: how many are left, and of what.

    Takes: last 3 sts before turning ch
    Takes: last 2 dc before next ch-1 sp
    Refuses: last and so on
    """
    within = stream.take().word == "within"
    if within:
        stream.articles()
        stream.accept_any("last", "final")
    count = stream.amount() if stream.is_amount() else ONE
    found = ToLast(count, names(stream) if not no_name_follows(stream) else (AnyStitch(),))
    if stream.accept("before"):
        stream.articles()
        if stream.accept_any("next", "first"):
            return ToNext(_one(stream), found.count)
        place = name(stream)
        if isinstance(place, Space | Marked):
            return ToNext(place, found.count)
        return ToLast(found.count, found.names, before=isinstance(place, TurningChain))
    return _of_the_end(stream, found) if within else found


def _of_the_end(stream: Stream, found: ToLast) -> ToLast:
    """Pass "of end", "from end of row" behind "to within 4 sts".

    Takes: of end
    """
    mark = stream.at
    if stream.accept_any("of", "from"):
        stream.articles()
        if stream.accept("end"):
            if stream.accept("of"):
                stream.articles()
                stream.accept_any("row", "rnd")
            return found
    stream.at = mark
    return found


def no_name_follows(stream: Stream) -> bool:
    """Whether the phrase ends here, without a name of a place."""
    if stream.is_mark("(", "[") and stream.tokens[stream.at - 1].kind == "num":
        return True  # "dc in next 19 (20 dc)"
    return stream.at_end() or stream.is_mark(",", ";", ".", ")", "]", "*", "**", "†")


def _one(stream: Stream) -> PlaceName:
    """The name behind "to next".

    Takes: ch-2 sp
    Refuses: turn
    """
    return names(stream)[0]
