"""Faults of a row as problems, in the words of notation.md.

Takes     the counted lines of a piece.
Gives     ``problems_of``.
Problems  all ``row-`` and ``count-`` codes of the proof.
From      notation.md, "When it does not come out".

The sizes in which a row fails for the same reason share one message: one mistake, one message.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator

from workeven.notation.tree import FromHook, Row, SecondSide, Step, Work, WorkedRow
from workeven.notation.vocabulary import HEIGHTS, Terms, speak
from workeven.problems import Note, Problem
from workeven.problems.words import joined
from workeven.proof.by_size import MANY, as_one, in_sizes, of_sizes, offered
from workeven.proof.context import SizeContext
from workeven.proof.fabric import Fabric
from workeven.proof.line import ABOUT_LABELS, CountedLine, SizeFault
from workeven.proof.proven import RowInSize
from workeven.proof.row import nearest
from workeven.proof.stated import asks_of_own, unchecked_units
from workeven.proof.unsaid_chains import passed_by_the_join
from workeven.records import replace

#: the longest part of a row that is shown
_LONGEST = 200


def problems_of(
    line: CountedLine,
    contexts: tuple[SizeContext, ...],
    names: tuple[str, ...],
    piece: str | None,
    terms: Terms,
) -> tuple[Problem, ...]:
    """Every problem of one line, and the advice that a second reading was taken.

    Stitches are named in the terms of the text.
    """
    found: list[Problem] = []
    about_label = [fault for fault in line.faults if fault.fault.code in ABOUT_LABELS]
    about_row = [fault for fault in line.faults if fault.fault.code not in ABOUT_LABELS]
    found.extend(
        _problem(line, _first_each(faults), contexts, names, piece)
        for faults in (about_label, about_row)
        if faults
    )
    if line.reading is not None:
        found.append(_reading(line, names, piece))
    found.extend(_unchecked(line, contexts, piece))
    if _works_nothing(line):
        found.append(_second_piece(line, piece))
    return tuple([spoken_in(one, terms) for one in found])


def spoken_in(problem: Problem, terms: Terms) -> Problem:
    """A message in the terms of the text it is about."""
    if terms == "us":
        return problem
    return replace(
        problem,
        found=speak(problem.found, terms),
        expected=speak(problem.expected, terms),
        mend=speak(problem.mend, terms),
    )


#: which code a row with several faults is told under, the gravest first
_GRAVEST = ("row-uneven", "row-no-such-place", "row-decrease", "count-stated")


def _first_each(faults: list[SizeFault]) -> list[SizeFault]:
    seen: dict[int, SizeFault] = {}
    for fault in faults:
        seen.setdefault(fault.size, fault)
    return list(seen.values())


def _problem(
    line: CountedLine,
    faults: list[SizeFault],
    contexts: tuple[SizeContext, ...],
    names: tuple[str, ...],
    piece: str | None,
) -> Problem:
    row = line.lined.row
    faults = sorted(faults, key=lambda fault: _gravity(fault.fault.code))
    first = faults[0].fault
    code = first.code
    failing = tuple(names[size] for size in sorted(fault.size for fault in faults))
    again = faults[0].line if faults[0].line is not None and faults[0].line.row is not row else None
    worked = [at for at, entry in enumerate(line.per_size) if entry is not None]
    good = tuple(names[at] for at in worked if names[at] not in failing)
    notes: tuple[Note, ...] = ()
    if again is not None:
        notes = (Note(span=again.row.span, message="The row that is worked again stands here."),)
    span = (
        row.span
        if again is not None
        else row.span.within(first.start, max(first.end, first.start + 1))
    )
    return Problem(
        code=first.code,
        span=span,
        piece=piece,
        row=row_name(line, *sorted(fault.size for fault in faults)),
        sizes=failing if len(names) > 1 else None,
        good_sizes=good if len(names) > 1 else (),
        found=_found(line, [fault for fault in faults if fault.fault.code == code], names),
        expected=_expected(line, faults, names),
        mend=_mend(line, faults, contexts, names),
        excerpt=_excerpt(row, again.row if again is not None else None),
        notes=notes,
        figures=_figures(faults),
    )


def _gravity(code: str) -> int:
    return _GRAVEST.index(code) if code in _GRAVEST else len(_GRAVEST)


def _excerpt(row: Row, again: Row | None) -> str:
    text = (row if again is None else again).text.strip()
    return text if len(text) <= _LONGEST else text[: _LONGEST - 1] + "…"


def row_name(line: CountedLine, size: int, *others: int) -> str | None:
    """The printed name of a row: "Rnd 9", its own name, or None for a starting chain.

    A name beside a number is that of the part ("Left neck Row 2") or a remark ("Row 9 (heel)").
    Where its number differs in other sizes, theirs stand behind it: "Row 37 (48)".
    """
    label = line.lined.row.label
    name = None if label is None else label.name
    if name is not None and (label is None or label.first is None):
        return name
    word = "Row" if "rounds" not in line.lined.worked else "Rnd"
    if label is not None and label.word is not None:
        word = label.word
    numbers = [_number(line.per_size[at]) for at in (size, *others)]
    if not numbers[0]:
        return name
    several = "–" in numbers[0]
    listed = [number or "–" for number in numbers]
    behind = f" ({', '.join(listed[1:])})" if len(set(listed)) > 1 else ""
    numbered = f"{word}{'s' if several else ''} {listed[0]}{behind}"
    if name is None or label is None:
        return numbered
    return f"{name} {numbered}" if label.section else f"{numbered} ({name})"


def _number(entry: RowInSize | None) -> str:
    """The number of a row in one size, or the first and the last of several."""
    if entry is None or entry.first is None:
        return ""
    if entry.last is not None and entry.last > entry.first:
        return f"{entry.first}–{entry.last}"
    return f"{entry.first}"


# --- sentences -----------------------------------------------------------------------------


def _found(line: CountedLine, faults: list[SizeFault], names: tuple[str, ...]) -> str:
    code = faults[0].fault.code
    if code == "row-uneven":
        return f"{_before(line)} {_leaves(faults)}."
    if code == "count-stated":
        told = _all_stated(faults)
        if told is not None:
            return f"the count that is stated is not what is made: {told}."
        stated = _once([str(fault.fault.figures["stated"]) for fault in faults])
        made = _once([str(fault.fault.figures["made"]) for fault in faults])
        return f"the count that is stated ({joined(stated)}) is not what is made ({joined(made)})."
    if code == "row-number":
        written = faults[0].fault.figures.get("written")
        told = as_one([fault.fault.detail for fault in _by_size(faults)])
        told = told or faults[0].fault.detail
        return f"the label says {written}, but {told}." if written else f"{told}."
    one = as_one([_of_rounds(fault.fault.detail, line) for fault in _by_size(faults)])
    return _stopped(one or _in_each(faults, names))


def _all_stated(faults: list[SizeFault]) -> str | None:
    """What many sizes state and make, where all say it in the same words."""
    return as_one([fault.fault.detail for fault in _by_size(faults)]) if _are_many(faults) else None


def _are_many(faults: list[SizeFault]) -> bool:
    return len(faults) >= MANY and any(
        fault.fault.detail != faults[0].fault.detail for fault in faults
    )


def _by_size(faults: list[SizeFault]) -> list[SizeFault]:
    return sorted(faults, key=lambda fault: fault.size)


def _of_rounds(detail: str, line: CountedLine) -> str:
    """In rounds "the row before" is the round before."""
    return detail.replace("the row before", _before(line))


def _stopped(sentence: str) -> str:
    """With one full stop at its end."""
    return sentence if sentence.endswith((".", "?", "!")) else f"{sentence}."


def _once(numbers: list[str]) -> list[str]:
    """The number once where it is the same in every size."""
    return numbers[:1] if len(set(numbers)) == 1 else numbers


def _called(name: str) -> str:
    """A size as a sentence calls it: one named by a number is "size 1"."""
    return f"size {name}" if name[:1].isdigit() else name


def _before(line: CountedLine) -> str:
    label = line.lined.row.label
    rounds = "rounds" in line.lined.worked or (label is not None and label.word == "Rnd")
    return f"the {'round' if rounds else 'row'} before"


def _leaves(faults: list[SizeFault]) -> str:
    below = [fault.below for fault in _by_size(faults)]
    if any(fabric is None for fabric in below):
        return "leaves nothing to work into"
    fabrics = [fabric for fabric in below if fabric is not None]
    counts = [str(fabric.sts) for fabric in fabrics]
    told = joined(_once(counts)) if len(counts) < MANY else of_sizes(counts)
    if all(fabric.foundation for fabric in fabrics):
        return f"has {told} chs"
    return f"leaves {told} {'st' if told == '1' else 'sts'}"


def _expected(line: CountedLine, faults: list[SizeFault], names: tuple[str, ...]) -> str:
    lead = next((fault.fault.lead for fault in faults if fault.fault.lead), "")
    same = all(fault.fault.detail == faults[0].fault.detail for fault in faults)
    codes = {fault.fault.code for fault in faults}
    if faults[0].fault.code not in ("row-uneven", "count-stated") and not lead:
        return ""
    if codes == {"count-stated"} and not lead and _all_stated(faults) is not None:
        return _default_note(line)  # all is told by what was found
    if same and (len(names) == 1 or len(faults) > 1):
        details = faults[0].fault.detail
        if len(faults) > 1 and len(names) > 1:
            details = f"in each of these sizes, {details}"
    else:
        details = _in_each(faults, names)
    sentence = f"{lead}: {details}" if lead else details[0].upper() + details[1:]
    lines = [_stopped(sentence)]
    default = _default_note(line)
    if default:
        lines.append(default)
    return "\n".join(lines)


def _in_each(faults: list[SizeFault], names: tuple[str, ...]) -> str:
    called = (names[fault.size] and _called(names[fault.size]) for fault in _by_size(faults))
    details = (fault.fault.detail for fault in _by_size(faults))
    return in_sizes(list(zip(called, details, strict=True)))


def _default_note(line: CountedLine) -> str:
    """Where a default decides, it is named."""
    if not line.defaulted:
        return ""
    base, chains = line.defaulted[0]
    return (
        f"A ch {chains} before {base} is taken as it is by default; "
        "say “(counts as …)” or “(does not count as st)” if you mean otherwise."
    )


def _mend(
    line: CountedLine,
    faults: list[SizeFault],
    contexts: tuple[SizeContext, ...],
    names: tuple[str, ...],
) -> str:
    fault = faults[0].fault
    if fault.mend:
        return fault.mend
    if fault.code == "row-uneven":
        return _nearest(line, faults, contexts, names)
    if fault.code == "count-stated":
        return "Correct the stated count, or the row."
    return ""


def _nearest(
    line: CountedLine,
    faults: list[SizeFault],
    contexts: tuple[SizeContext, ...],
    names: tuple[str, ...],
) -> str:
    body = line.lined.row.body
    offers: list[tuple[str, list[int]]] = []
    for fault in _by_size(faults):
        if fault.below is None or fault.fault.code != "row-uneven":
            continue
        steps = fault.line.facts.written if fault.line is not None else None
        if steps is None and isinstance(body, WorkedRow):
            steps = body.steps
        if steps is None:
            continue
        low, high = nearest(steps, fault.below, contexts[fault.size], worked=line.lined.worked)
        counts = [count for count in (low, high) if count is not None]
        if counts:
            name = names[fault.size]
            offers.append((_called(name) if name else "", counts))
    if not offers:
        return "No count of stitches near this one comes out: change the row."
    return f"Nearest that come out: {offered(offers, whole=len(offers) == len(faults))}."


def _figures(faults: list[SizeFault]) -> tuple[tuple[str, tuple[str, ...]], ...]:
    names = list(dict.fromkeys(name for fault in faults for name in fault.fault.figures))
    return tuple(
        (name, tuple(str(fault.fault.figures.get(name, "")) for fault in faults)) for name in names
    )


# --- advice --------------------------------------------------------------------------------


def _reading(line: CountedLine, names: tuple[str, ...], piece: str | None) -> Problem:
    assert line.reading is not None
    default, taken = line.reading
    row = line.lined.row
    sizes = tuple(names[at] for at, entry in enumerate(line.per_size) if entry is not None)
    return Problem(
        code="row-reading",
        span=row.span,
        piece=piece,
        row=row_name(line, next(at for at, one in enumerate(line.per_size) if one is not None)),
        sizes=sizes if len(names) > 1 else None,
        found=f"read as “{taken}”: read as “{default}” it does not come out.",
        mend="Write it so that it can be read in one way only.",
        excerpt=_excerpt(row, None),
    )


def _works_nothing(line: CountedLine) -> bool:
    """Whether a line sends back to a first side where no row left any stitches for a second."""
    if not isinstance(line.lined.row.body, SecondSide) or line.faults:
        return False
    return all(entry is None or entry.times == 0 for entry in line.per_size)


def _second_piece(line: CountedLine, piece: str | None) -> Problem:
    """``rep for second sleeve``: it may be a piece to be made twice, which no row can say."""
    row = line.lined.row
    return Problem(
        code="row-second-side",
        span=row.span,
        piece=piece,
        found="nothing is worked here: no row before it has left stitches for a second side.",
        mend="A piece that is made several times says so with `make`; a side of the same piece "
        "follows a row that leaves its stitches unworked.",
        excerpt=_excerpt(row, None),
    )


def _unchecked(
    line: CountedLine, contexts: tuple[SizeContext, ...], piece: str | None
) -> Iterator[Problem]:
    """A count stated in a unit of the designer's own ("2 handles") is read and not checked."""
    row = line.lined.row
    if row.stated is None or row.body is None or not asks_of_own(row.stated, contexts[0]):
        return
    counts = [count for count in line.counts if count is not None]
    made = (counts[0].makes, counts[0].groups) if counts else ((), ())
    units = unchecked_units(row.stated, *made, contexts[0])
    if units:
        yield Problem(
            code="count-unchecked",
            span=row.span.within(row.stated.start, max(row.stated.end, row.stated.start + 1)),
            piece=piece,
            row=row_name(line, next((at for at, one in enumerate(line.per_size) if one), 0)),
            found=f"the number of {joined(units)} that is stated is not checked.",
            mend="State stitches, spaces, or a stitch of the row by its own name, "
            "to have it checked.",
            excerpt=_excerpt(row, None),
        )


def asked_chain(line: CountedLine) -> tuple[str, int] | None:
    """A beginning chain that the text leaves open: before hdc, or longer than its stitch.

    So is one as high as its stitch that the round's join passes over.
    """
    body = line.lined.row.body
    steps = body.steps if isinstance(body, WorkedRow) else ()
    return next(
        (
            (base, chains)
            for base, chains in line.defaulted
            if base == "hdc"
            or chains > HEIGHTS.get(base, chains)
            or (passed_by_the_join(chains, base, steps) and not any(map(_goes_from_hook, steps)))
        ),
        None,
    )


def _goes_from_hook(step: Step) -> bool:
    return isinstance(step, Work) and isinstance(step.target, FromHook)


def turning_chain_advice(line: CountedLine, piece: str | None, terms: Terms) -> Problem:
    """What a beginning chain counts as is asked once a piece, where neither row nor file says it.

    Practice is split on that of the hdc; a longer one than the table's counts in most texts, and
    not by the rule.
    """
    row = line.lined.row
    base, chains = asked_chain(line) or ("hdc", HEIGHTS["hdc"])
    longer = chains > HEIGHTS[base]
    said = (
        f"(counts as {base} and ch {chains - HEIGHTS[base]})" if longer else f"(counts as {base})"
    )
    asked = Problem(
        code="row-turning-chain",
        span=row.span,
        piece=piece,
        row=row_name(
            line, next((at for at, one in enumerate(line.per_size) if one is not None), 0)
        ),
        found=f"the ch {chains} before {base} is taken as not counting, and nothing says so.",
        mend=f"Say in the row “{said}” or “(does not count as st)”"
        + ("." if longer else f", or once in `turning_chains` (`{base}: does not count`)."),
        excerpt=_excerpt(row, None),
    )
    return spoken_in(asked, terms)


#: a fabric and how it is called, for callers that show what a row is worked into
Named = Callable[[Fabric], str]
