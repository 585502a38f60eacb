"""One line of a pattern to a notation tree.

Takes     the text of a row, its place, and the vocabulary in force.
Gives     ``Row`` (``parse_row``), ``SpecialStitch`` (``parse_special``, ``names_of``).
Problems  ``row-not-understood``, ``size-list``, ``unit-formula``, ``row-too-long``, ``row-note``.
From      notation.md, "Labels", "Stated counts", "Whole pieces".

The parser is written by hand: tokens by pattern, then one function a rule. A text is read once
for all sizes; the same text in the same vocabulary is read only once.

Worked example: ``Rnd 9: *sk 3 sts, 4 dc in next st; rep from * around (64 dc)`` is a label
(``Rnd``, 9), a body of one ``Repeat`` that holds a ``Skip`` and a ``Work``, and a stated count.
"""

from __future__ import annotations

import re
from collections.abc import Callable
from functools import lru_cache, partial
from typing import NamedTuple

from workeven.notation.asides import is_flat
from workeven.notation.assembled import with_chains_alike, with_counting, with_each_chain
from workeven.notation.earlier import (
    along_underarm,
    in_skipped,
    left_behind,
    onto_of,
    reaching_down,
    refuse_unworked_alone,
    sides_of_an_instep,
    speaks_of_unworked,
)
from workeven.notation.every import repeat_every
from workeven.notation.for_sizes import only_sizes
from workeven.notation.in_each import told_in_each
from workeven.notation.labels import label_of, names_row
from workeven.notation.lengths import this_row_again, until_ended
from workeven.notation.loops import with_loops
from workeven.notation.offers import Offer, offer
from workeven.notation.pattern_rows import pattern_rows
from workeven.notation.prose import (
    blanked,
    made_again,
    prose_at,
    speaks_of_things,
    without_note_label,
)
from workeven.notation.renamed import renamed
from workeven.notation.rings import round_of_chains
from workeven.notation.second_side import second_side
from workeven.notation.shaping import shape_rows
from workeven.notation.special import names_of, parse_special
from workeven.notation.spelling import respelt
from workeven.notation.stated_counts import begins_count, stated
from workeven.notation.steps import steps
from workeven.notation.stream import LONGEST, NotUnderstood, Stream
from workeven.notation.telling import heads_rows
from workeven.notation.tree import (
    Amount,
    AnyStitch,
    Aside,
    Chain,
    ChainOfTurning,
    EachChainCounts,
    FastenOff,
    First,
    JoinRound,
    Label,
    PatternRows,
    PlaceName,
    RepeatRows,
    Row,
    RowBody,
    RowsCount,
    RowsTimes,
    Space,
    Stated,
    StatedHere,
    Step,
    TermUse,
    Travel,
    Turn,
    Work,
    WorkedRow,
    WorkEven,
)
from workeven.notation.twins import twins_of
from workeven.notation.vocabulary import Vocabulary, speak
from workeven.notation.whole_rows import (
    change_over,
    goes_on,
    refuse_work,
    repeat_rows,
)
from workeven.notation.worked_even import even_in_colour, in_stitch, work_even
from workeven.problems import Checked, Problem, Span
from workeven.records import replace


class _Read(NamedTuple):
    """What one text says, apart from where it stands."""

    label: Label | None
    only: tuple[tuple[str, str], ...] | None
    body: RowBody | None
    stated: Stated | None
    terms: tuple[TermUse, ...]
    amounts: tuple[Amount, ...]
    fault: NotUnderstood | None
    notes: tuple[tuple[int, int], ...] = ()
    patt: PatternRows | None = None


def parse_row(
    text: str,
    span: Span,
    vocabulary: Vocabulary,
    read_as: str | None = None,
    *,
    opening: bool = False,
) -> Checked[Row]:
    """The tree of one row, with a problem when a phrase is not understood (its body is None).

    ``read_as`` is the text without the stitches that it explains (``explained``). ``opening``: no
    row stands before it, so that its sentences can speak of none.

    >>> place = Span(file="-", line=1, column=1, end_line=1, end_column=9)
    >>> parse_row("Rnd 2: inc around (12 sts)", place, Vocabulary()).value.label.word
    'Rnd'
    """
    if read_as is not None and not read_as.strip():
        read = _all_a_note(text, ())  # it lists stitches, each of them taken
    else:
        read = _read(text if read_as is None else read_as, vocabulary, opening=opening)
    row = Row(
        text=text,
        span=span,
        label=read.label,
        only=read.only,
        body=read.body,
        stated=read.stated,
        terms=read.terms,
        amounts=read.amounts,
        patt=read.patt,
    )
    if read.fault is None:
        return Checked(value=row, problems=tuple([_note(text, span, at) for at in read.notes]))
    return Checked(value=row, problems=(_problem(text, span, read, vocabulary),))


def _note(text: str, span: Span, at: tuple[int, int]) -> Problem:
    """What a sentence is told as that was passed, since no word of it speaks of work."""
    start, end = at
    return Problem(
        code="row-note",
        span=span.within(start, end),
        found=f"“{_short(text[start:end].strip())}” is taken as a note: nothing is worked in it.",
        mend="Write it under `notes`; if it is a row, say which stitch goes where; a piece that is "
        "made several times says so with `make`.",
        excerpt=_short(text.strip(), 200),
    )


@lru_cache(maxsize=8192)
def _read(text: str, vocabulary: Vocabulary, *, opening: bool) -> _Read:
    if text[:1] in "Aa" and text[: len("abbreviation")].lower() == "abbreviation":
        listed = without_note_label(text)  # "Abbreviations: ch., chain; d.c., double crochet."
        if listed is not None:
            whole = _read_whole(listed, vocabulary) if listed.strip() else None
            found = whole and _read_without_prose(listed, whole, vocabulary, opening=opening)
            return (None if found is None or found.fault else found) or _all_a_note(
                text, ((0, len(text)),)
            )
    read = _read_whole(text, vocabulary)
    headed = None if read.fault is None else without_note_label(text)
    again = "ake " in text or "ork " in text
    if read.fault is None and again and isinstance(read.body, WorkedRow):
        passed = [(one.start, one.end) for one in read.body.steps if isinstance(one, Aside)]
        return read._replace(notes=made_again(text, tuple(passed)))
    titled = read.label is not None and read.label.section and read.label.first is None
    if read.fault is None:
        return read
    unnumbered = read.label is None or (read.label.word is None and read.label.first is None)
    if unnumbered and text.rstrip().endswith(":") and heads_rows(text, vocabulary):
        return _all_a_note(text, ((0, len(text)),))
    if read.label is not None and headed is None and not titled:
        return _read_without_prose(text, read, vocabulary, labelled=True) or read
    if headed is not None:
        found = _read_without_prose(
            headed, _read_whole(headed, vocabulary), vocabulary, opening=opening
        )
        if (found is None or found.fault is not None) and speaks_of_things(text):
            return _all_a_note(text, ((0, len(text)),))
        return found or read
    if text[:1] == "(" and text[-1:] == ")":  # "(At this point I swapped to my second skein.)"
        return _read(f" {text[1:-1]} ", vocabulary, opening=opening)
    return _read_without_prose(text, read, vocabulary, opening=opening) or read


#: sentences of prose in one line; behind more it is no row that anyone works
_MOST_NOTES = 12


def _read_without_prose(
    text: str,
    read: _Read,
    vocabulary: Vocabulary,
    *,
    opening: bool = False,
    labelled: bool = False,
) -> _Read | None:
    """A line without its sentences that speak of no work; None where it has none.

    ``read`` is what was read of it with them. Where another of its sentences is not understood,
    that one is the fault, and nothing is told of those before it.
    """
    notes: list[tuple[int, int]] = []
    left = text
    while read.fault is not None and len(notes) < _MOST_NOTES:
        found = prose_at(left, read.fault.start, vocabulary, opening=opening, labelled=labelled)
        if found is None:
            return read if notes else None
        notes.append(found)
        left = blanked(left, *found)
        if not left.strip():
            return _all_a_note(text, tuple(notes))
        read = _read_whole(left, vocabulary)
    return read if read.fault is not None else read._replace(notes=tuple(notes))


def _all_a_note(text: str, notes: tuple[tuple[int, int], ...]) -> _Read:
    """A line in which nothing is worked."""
    passed = WorkedRow((Aside(0, len(text.rstrip())),), None)
    return _Read(None, None, passed, None, (), (), None, notes)


def _read_whole(text: str, vocabulary: Vocabulary) -> _Read:
    if len(text) > LONGEST:
        fault = NotUnderstood(
            LONGEST,
            len(text),
            f"the row has {len(text)} characters",
            f"a row has at most {LONGEST} characters: write it as several",
            "row-too-long",
        )
        return _Read(None, None, None, None, (), (), fault)
    stream = Stream(respelt(text, vocabulary.terms), vocabulary)
    label: Label | None = None
    only: tuple[tuple[str, str], ...] | None = None
    try:
        only = only_sizes(stream)
        label = label_of(stream)
        stream.labelled = label is not None and names_row(label)
        patt = None if stream.labelled else pattern_rows(stream)
        if patt is not None and stream.at_end():
            passed = WorkedRow((Aside(0, stream.end),), None)
            return _Read(label, only, passed, None, stream.terms, (), None, patt=patt)
        body, count = _body(stream, label)
    except NotUnderstood as fault:
        amounts = tuple(stream.amounts)
        said = _count_at_end(respelt(text, vocabulary.terms), vocabulary)
        return _Read(label, only, None, said, stream.terms, amounts, fault)
    return _Read(label, only, body, count, stream.terms, tuple(stream.amounts), None, patt=patt)


_AT_END = re.compile(r"[(\[{](?P<count>[^()\[\]{}]*(?:\([^()]*\)[^()\[\]{}]*)*)[)\]}][\s.]*\Z")


def _count_at_end(text: str, vocabulary: Vocabulary) -> Stated | None:
    """What a row that is not understood states at its end: the rows below go on from it."""
    found = _AT_END.search(text)
    if found is None:
        return None
    stream = Stream(found["count"], vocabulary)
    try:
        said = stated(stream, 0)
    except NotUnderstood:
        return None
    return said if said is not None and stream.at_end() else None


def _body(stream: Stream, label: Label | None) -> tuple[RowBody, Stated | None]:
    """What a row says behind its label.

    Takes: sc in each st across (20 sc)
    Refuses: frobnicate
    """
    if label is not None and label.section and stream.at_end():
        return _heading_row(label, stream.end, stream.text), None
    if stream.at_end():
        raise NotUnderstood(
            stream.start, stream.start, "the row says nothing", "write what is worked in it"
        )
    over = change_over(stream)
    if over is not None and stream.at_end():
        return over, None
    whole = _whole_row(stream)
    if whole is not None:
        if stream.turns_no_more or stream.chains_said:
            raise stream.fault(0, mend="write what holds for the rows behind on a line of its own")
        if stream.for_patt:
            _refuse_open_patt(stream, label, whole)
        count = _count_behind_rows(stream, whole)
        _refuse_more(stream)
        _check_rows_said(stream, label, whole)
        return whole, _both_counts(stream, count)
    found = list(steps(stream, "until", "for", ":", "=", "-", "|", "so", "rep this"))
    until = this_row_again(stream) or until_ended(stream)
    count = _final_count(stream) or _counted_in_steps(found, stream.text)
    count = _both_counts(stream, count)
    if until is not None and found and not stream.at_end():
        found.extend(steps(stream))
        count = count or _counted_in_steps(found, stream.text)
    if not stream.at_end():
        raise stream.fault()
    _check_rows_said(stream, label)
    found, twins = twins_of(stream, reaching_down(stream, _with_chains(stream, found), label))
    if not found and label is None:
        raise stream.fault(0)
    left_of = left_behind(stream, tuple(found)) if stream.onto else ()
    onto, beside = (None, ()) if left_of else onto_of(stream, tuple(found))
    if onto is not None and onto.unworked:
        found = sides_of_an_instep(in_skipped(stream.text, found))
    if onto is None and not left_of:
        refuse_unworked_alone(stream, tuple(found))
    change = stream.way_noted if over is None else over.worked
    change = _turned_no_more(stream, found) if stream.turns_no_more else change
    too = bool(left_of) or (onto is None and speaks_of_unworked(stream, tuple(found)))
    tail = _instead(steps, stream)
    worked = with_loops(stream.text, told_in_each(tuple(found)))
    said = tuple(stream.chains_said)
    return WorkedRow(worked, until, change, onto, beside, too, tail, twins, said, left_of), count


def _both_counts(stream: Stream, count: Stated | None) -> Stated | None:
    """What is stated in the midst of a row and what at its end."""
    told = stream.told_count
    if told is None or count is None:
        return told or count
    beside = [unit for _, unit in count.counts]
    (amount, unit), *more = told.counts
    if unit not in beside or more:
        return replace(count, counts=(*count.counts, *told.counts))
    said = count.counts[beside.index(unit)][0]
    if (said.values, said.formula) == (amount.values, amount.formula):
        return count
    raise NotUnderstood(
        told.start,
        told.end,
        "two counts are stated that are not the same",
        "state one of them",
        "count-stated",
    )


def _turned_no_more(stream: Stream, found: list[Step]) -> str:
    """Rounds that were joined and turned are joined from here on; of rows it says too little."""
    last = next((step for step in reversed(found) if not isinstance(step, Turn | Aside)), None)
    slips = isinstance(last, Work) and isinstance(last.target, First | ChainOfTurning)
    if isinstance(last, JoinRound | Travel) or (slips and "sl st" in stream.said):
        return "joined rounds"
    raise stream.fault(
        0,
        found="how it is worked from here on is not said",
        mend="write “now work in joined rounds”, or “do not turn” in each row",
    )


def _with_chains(stream: Stream, found: list[Step]) -> list[Step]:
    """The steps, with what the row says of its chains."""
    if not stream.said.isdisjoint(("join", "sl st", "ring")):
        found = round_of_chains(found)
    if stream.each_chain is not None:
        found = with_each_chain(found, *stream.each_chain)
    elif stream.chains_counted is not None:
        found = with_each_chain(found, *stream.chains_counted)[:-1]  # of those it makes alone
    found = with_chains_alike(found)
    if "underarm" in stream.said:
        found = list(along_underarm(stream, found))
    if stream.a_stitch:
        found = _with_a_stitch(stream, found)
    return with_counting(found, stream.counting)


def _with_a_stitch(stream: Stream, found: list[Step]) -> list[Step]:
    """The steps, with what the row says to be a stitch: where it works, or else what it makes."""
    told = [renamed(step, partial(_as_said, names=stream.a_stitch)) for step in found]
    spaces = any(isinstance(name, Space) for name in stream.a_stitch)
    return [*found, EachChainCounts(*stream.a_stitch_said)] if told == found and spaces else told


def _as_said(name: PlaceName, names: tuple[PlaceName, ...]) -> tuple[PlaceName, ...]:
    """What "sts" means in a row that says so."""
    return names if isinstance(name, AnyStitch) else (name,)


def _refuse_more(stream: Stream) -> None:
    """Behind rows that are worked again no stitch may be told that nobody reads."""
    if stream.at_end():
        return
    mark, start = stream.here(), stream.start
    try:
        found = steps(stream)
    except NotUnderstood:
        found = ()
    if stream.at_end():
        refuse_work(stream, found, start)
    elif any(one.kind == "stitch" or one.word in _CHANGES for one in stream.tokens[mark.at :]):
        raise stream.fault(start)
    stream.back_to(mark)


_CHANGES = ("inc", "dec", "sk")


def _refuse_open_patt(stream: Stream, label: Label | None, body: RowBody) -> None:
    """``rep Rows 2 and 3 for patt``: how many rows that are must be said, here or in the label."""
    numbered = label is not None and (label.first is not None or label.rows is not None)
    if isinstance(body, RepeatRows) and body.until is None and not numbered:
        raise stream.fault(
            0,
            found="for how many rows the pattern is repeated is not said",
            mend="write “Rows 4-41: rep Rows 2 and 3 for patt”, or “… until piece measures 30 cm”",
        )


def _check_rows_said(stream: Stream, label: Label | None, whole: RowBody | None = None) -> None:
    """``R6-9: … [4 rounds]``: as many as the label names, or the line says two things.

    Of rows that are worked again without numbers (``whole``) nobody counts them here.
    """
    said = stream.rows_said
    if said is None or said.formula is not None:
        return
    first = label.first if label is not None else None
    last = (label.last if label is not None else None) or first
    if first is not None and last is not None:
        ends, begins = last.values, first.values
        many = max(len(ends), len(begins), len(said.values))
        numbers = tuple(
            (ends[at % len(ends)] or 0) - (begins[at % len(begins)] or 0) + 1 for at in range(many)
        )
    elif whole is None:
        numbers = (1,)
    else:
        numbers = _rows_worked(stream, whole, said)
    if all(numbers[at % len(numbers)] == value for at, value in enumerate(said.values)):
        return
    told = stream.text[said.start : said.end]
    raise NotUnderstood(
        said.start,
        said.end,
        f"the brackets say {told} rows and the {'line' if first is None else 'label'} stands for "
        + (str(numbers[0]) if len(set(numbers)) == 1 else ", ".join(map(str, numbers))),
        "write the rows in the label (“Rnds 6–9: …”), or “rep last rnd 3 more times” below it",
    )


def _rows_worked(stream: Stream, whole: RowBody, said: Amount) -> tuple[int, ...]:
    """How many rows a line without numbers stands for; it is refused where that is not known."""
    until = whole.until if isinstance(whole, RepeatRows | WorkEven | WorkedRow) else None
    rows = 1
    if isinstance(whole, RepeatRows):
        pairs = [(ref.first, ref.last or ref.first) for ref in whole.rows if ref.name is None]
        single = all(first is last for first, last in pairs)
        rows = len(whole.rows) if len(pairs) == len(whole.rows) and single else 0
    counted = isinstance(until, RowsTimes | RowsCount) and until.count.formula is None
    if rows and counted and isinstance(until, RowsTimes | RowsCount):
        times = rows if isinstance(until, RowsTimes) else 1
        return tuple((value or 0) * times for value in until.count.values)
    raise stream.fault(
        said.start,
        found="whether so many rows are worked is not checked where the line has no numbers",
        mend="write “Rnds 6–9: …”, or “… (9 rounds in all)”",
    )


def _instead(read: Callable[[Stream], tuple[Step, ...]], stream: Stream) -> tuple[Step, ...]:
    """The count at the end of a row read as steps, where it may be either."""
    if stream.either is None:
        return ()
    mark = stream.here()
    stream.at = stream.either
    try:
        return read(stream)
    except NotUnderstood:
        return ()
    finally:
        stream.back_to(mark)


def _whole_row(stream: Stream) -> RowBody | None:
    """What speaks of whole rows: earlier ones again, shaping over many, work even.

    Takes: rep Row 2
    Refuses: sc in next st
    """
    if _speaks_of_a_side(stream.said) and (side := second_side(stream)) is not None:
        return side
    if stream.begins_with_stitch() and stream.said.isdisjoint(("rep", "same", "even")):
        return None
    if stream.is_word("cont") and (again := goes_on(stream)) is not None:
        return again
    if stream.is_word("inc", "dec") and not stream.said.isdisjoint(_IN_SAME_WAY):
        again = goes_on(stream)  # "dec 6 sts in the same way, having 1 st less between"
        if again is not None:
            return again
    if not stream.said.isdisjoint(("even", "straight")) and (even := even_in_colour(stream)):
        return even
    for read in (shape_rows, repeat_every, repeat_rows, work_even, in_stitch):
        body = read(stream)
        if body is not None:
            return body
    return goes_on(stream, by_number=True) if stream.is_word("cont") else None


#: words without which no shaping is told as that of the row before
_IN_SAME_WAY = ("manner", "way", "fashion")
#: words without which no row sends the maker back to another side
_LIKE_ANOTHER = ("for", "match", "correspond")
_AN_OTHER = frozenset("first 1st second 2nd other opposite left right reverse reversing".split())


def _speaks_of_a_side(said: frozenset[str]) -> bool:
    """Whether a row may say that a side is worked like another."""
    return not said.isdisjoint(_LIKE_ANOTHER) or ("rep" in said and not said.isdisjoint(_AN_OTHER))


def _heading_row(label: Label, end: int, text: str) -> WorkedRow:
    """A line that only names a part, and may say how that is worked."""
    way = "flat rows" if is_flat(text[label.start :]) else _way_of(text)
    return WorkedRow((Aside(label.start, end),), None, way)


_WAY = re.compile(
    r"\((?:(?:now )?work(?:ed|ing)? )?(?P<way>(?:in |as )?(?:an? )?(?:[a-z]+ )?"
    r"(?:rows?|rounds?|rnds?|spiral)\b[^(),;]*)[^()]*\)",
    re.IGNORECASE,
)


def _way_of(text: str) -> str | None:
    """How a part is worked, where its heading says so: "Border (now work in joined rounds)"."""
    found = _WAY.search(text)
    try:
        over = (
            None if found is None else change_over(Stream(f"now work {found['way']}", Vocabulary()))
        )
    except NotUnderstood:
        return None
    return None if over is None else over.worked


def _counted_in_steps(found: list[Step], text: str) -> Stated | None:
    """A count in brackets that closes the row is the row's own: taken off the steps.

    So is one that is told "at end of last row", with the next row's chain and the turn behind it.
    """
    at = len(found) - 1
    while at > 0 and isinstance(found[at], Aside | Chain | FastenOff | Turn):
        at -= 1
    last = found[at] if found else None
    if not isinstance(last, StatedHere) or last.change:
        return None
    of_the_last = "last r" in text[last.stated.start : last.stated.end].lower()
    if at < len(found) - 1 and not of_the_last:
        return None
    del found[at]
    return last.stated


def _final_count(stream: Stream, *, bare: bool = False) -> Stated | None:
    """The stated count at the end, after "(", ":", "=", "." or a dash.

    ``bare``: behind rows that are worked again a number alone is one ("rep Row 2, 5 bobbles").

    Takes: (60 sts)
    Refuses: turn
    """
    if stream.at_end():
        return None
    mark = stream.here()
    while stream.accept_any(".", ",", ";"):
        pass
    start = stream.start
    listed = stream.is_amount()  # "– (48, 54) sc": the first size does not work the row
    opened = None if listed else stream.accept_any("(", "[", ":", "=", "-", "|")
    if opened == "-" and stream.is_mark("(", "["):
        opened = stream.accept_any("(", "[")  # "join → (6 dc, 6 ch-2 sps)"
    said = opened or begins_count(stream) or (bare and stream.is_amount())
    found = stated(stream, start) if said else None
    if found is not None and opened in ("(", "[") and not stream.accept_any(")", "]"):
        found = None
    while stream.accept_any(".", "|"):
        pass
    if found is None or not (stream.at_end() or stream.tokens[stream.at - 1].word in (")", "]")):
        stream.back_to(mark)
        return None
    return Stated(found.counts, found.start, stream.end, found.without_chain, found.parts)


def _count_behind_rows(stream: Stream, whole: RowBody) -> Stated | None:
    """The count that is stated behind rows worked again, or behind other words of whole rows."""
    bare = isinstance(whole, RepeatRows)
    return _final_count(stream, bare=bare) or _count_before_the_end(stream)


def _count_before_the_end(stream: Stream) -> Stated | None:
    """``— 9 (11) sc; at end of Row 4 fasten off``: a count with words behind it that work nothing.

    Takes: (60 sts); at end of last row fasten off
    Refuses: (60 sts); sc in each st
    """
    mark = stream.here()
    opened = stream.accept_any("(", "[", "-", "=")
    found = stated(stream, stream.start) if opened else None
    if found is None or (opened in ("(", "[") and not stream.accept_any(")", "]")):
        stream.back_to(mark)
        return None
    count = Stated(found.counts, found.start, stream.end, found.without_chain, found.parts)
    while stream.accept_any(".", ",", ";"):
        pass
    try:
        behind = steps(stream)
    except NotUnderstood:
        behind = ()
    nothing_worked = all(isinstance(step, Aside | FastenOff | Turn) for step in behind)
    if not stream.at_end() or not nothing_worked:
        stream.back_to(mark)
        return None
    return count


_DASH = re.compile(r"[-–—•·]\s+\w")


def _slip(fault: NotUnderstood, text: str) -> NotUnderstood:
    """A slip of typing at which the words go wrong, named as what it is."""
    if fault.code != "row-not-understood" or fault.found:
        return fault
    opened = text.rfind("{")
    if opened > text.rfind("}"):
        return NotUnderstood(
            opened,
            len(text),
            "a brace is opened and not closed",
            "write the closing brace } behind the formula",
        )
    if fault.start == 0 and _DASH.match(text):
        return NotUnderstood(
            0,
            1,
            "a dash stands before the row",
            "take the dash away: in a | block every line is a row of its own",
        )
    return fault


def _problem(text: str, span: Span, read: _Read, vocabulary: Vocabulary) -> Problem:
    assert read.fault is not None
    fault = _slip(read.fault, text)
    end = max(fault.end, fault.start)
    words = text[fault.start : end].strip() or text[fault.start :].strip()
    before = text[: fault.start].strip().rstrip(",;")
    word = _row_word(read.label)
    offered = _offer(text, fault, words, vocabulary)
    if fault.code == "row-not-understood" and not fault.found:
        found = f"“{_short(words)}” is not understood." if words else "the row breaks off."
        expected = f"Understood up to here: “{_short(before, last=True)}”." if before else ""
    else:
        found = (
            f"{fault.found.rstrip('.')}."
            if fault.found
            else f"“{_short(words)}” is not understood."
        )
        expected = ""
    return Problem(
        code=fault.code,
        span=span.within(fault.start, max(end, fault.start + 1)),
        found=found,
        expected=expected,
        mend=offered.mend,
        row=word,
        sizes=vocabulary.sizes if fault.code == "size-list" and vocabulary.sizes else None,
        excerpt=_short(text.strip(), 200),
        figures=(("mistake", (offered.mistake,)),) if offered.mistake else (),
    )


def _offer(text: str, fault: NotUnderstood, words: str, vocabulary: Vocabulary) -> Offer:
    """The cure that the grammar names, or what may have been meant."""
    if fault.code == "row-not-understood":
        found = offer(text, fault.start, words, vocabulary)
        if not fault.mend or found.mistake.startswith("terms"):
            return found
    if fault.mend:
        cure = speak(fault.mend, vocabulary.terms)
        return Offer(cure[0].upper() + cure[1:].rstrip(".") + ".")
    return Offer("")


def _row_word(label: Label | None) -> str | None:
    if label is None:
        return None
    numbered = label.first is not None and label.first.values
    if label.word is None or label.first is None or not numbered:
        return label.name
    number = f"{label.word} {label.first.values[0]}"
    if label.name is None:
        return number
    return f"{label.name} {number}" if label.section else f"{number} ({label.name})"


def _short(text: str, most: int = 80, *, last: bool = False) -> str:
    if len(text) <= most:
        return text
    return "…" + text[-most + 1 :] if last else text[: most - 1] + "…"


__all__ = ["names_of", "parse_row", "parse_special"]
