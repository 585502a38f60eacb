"""The figures of a pattern's page, found anew from the pattern, the proof and published tables."""

from __future__ import annotations

import re
from collections.abc import Callable, Iterator, Sequence
from fractions import Fraction
from typing import NamedTuple, cast

from tests.traced.asked import Asked, filled, heading, in_both, paragraphs
from tests.traced.of_bodies import body, chart, chart_note, faults, own
from tests.traced.of_charts import charted, numbered
from tests.traced.of_making_up import drawing, gauge, gauge_of, in_10_cm, seam
from tests.traced.of_materials import care, doubt, hook, hooks, known_caution, notion, rule, us
from tests.traced.of_rows import Place, made, meanings, of_line, of_row, places, spaced
from tests.traced.of_yarn import band, of_yarn
from tests.traced.told import (
    Told,
    by_size,
    decimal,
    figures,
    joined,
    lengths,
    number,
    only,
    same,
    yarn_length,
)
from workeven.pattern import Gauge
from workeven.proof import ProvenPiece, RowInSize, chain_multiple

_OF_PIECE = (
    "title|make|starting chain|measure|name of a measure|video|note|sizes|row note"
    "|chart row|chart key|stitch chart"
)
#: Sentences of ours with a figure in them, each with the reason for it.
OURS = {
    r"In the order of ISO 3758\. .*": "the number of the standard for care labelling",
    r"With one stitch more in 10 cm / 4 in than .*": "what gauges count over (common practice)",
    r"Stitches and rows over (?:10 cm / 4 in|4 in / 10 cm) in .*": "the same (common practice)",
    r"(?:.*: m|M)ore yarn for each 5 cm / 2 in that you add": "a round step, alike in both",
    "100 %": "the size of letters as the browser has it",
}
#: pi, of which a circle's width is asked
PI = Fraction("3.14159265358979")


class Question(NamedTuple):
    """An origin: its name, what stands behind it, and the text that it is of."""

    of: Asked
    name: str
    rest: str
    text: str


#: What answers it.
Answer = Callable[[Question], Told | str]


def told(of: Asked, origin: str, text: str) -> Told:
    """The figures that an origin says there are; ``text`` is what stands on the page."""
    if found := re.fullmatch(r"line (\d+)( by size| where no size is chosen|): (.*)", origin):
        return of_line(of, int(found[1]), found[3], found[2])
    address, _, what = origin.partition(": ")
    place = places(of).get(address)
    if place is not None:
        return _of_row(of, place, address, what, text)
    if found := re.fullmatch(r"yarn (\S+): (.*)", origin):
        return of_yarn(of, found[1], found[2])
    found = re.fullmatch(rf"(\S+)(?: (\d+))?: ({_OF_PIECE})(?: (.*))?", origin)
    if found and found[1] in {one.piece.name for one in of.ready.proven.pieces}:
        return _of_piece(of, found[1], found[2], found[3], found[4] or "", text)
    return _of_page(of, origin, text)


def _of_row(of: Asked, place: Place, address: str, what: str, text: str) -> Told:
    """What is said of a row; where a sentence spaces or shapes it, the sentence is worked."""
    match what:
        case "spacing":
            return _spacing(of, address, text)
        case "shaping":
            return made(of, place, text)
        case "what its stitches are":
            assert text in meanings(of, place)
            return same(text, of.sizes)
        case _:
            return of_row(of, place, what)


# --- pieces and sections -------------------------------------------------------------------


def _of_piece(of: Asked, name: str, at: str | None, what: str, rest: str, text: str) -> Told:
    proven = next(one for one in of.ready.proven.pieces if one.piece.name == name)
    match what:
        case "title" if at is None:
            return same(proven.piece.title, of.sizes)
        case "make":
            return by_size([str(one) for one in proven.piece.make])
        case "starting chain":
            multiple = chain_multiple(of.ready.proven.graded, proven.piece)
            several = () if multiple is None or multiple[0] == 1 else multiple
            return same(" ".join(str(one) for one in several if one), of.sizes)
        case "name of a measure":
            assert set(re.findall("“(.*)”", text)) <= {
                one.section.title for one in _own_of(of, proven).sections
            }
            return same(text, of.sizes)
        case "chart row":
            assert int(figures(rest)[0]) in numbered(of, proven)
            return same(rest, of.sizes)
        case "chart key":
            return same("".join(figures(rest)) + " " + "".join(figures(rest)), of.sizes)
        case "stitch chart":
            return charted(of, proven)
        case "measure":
            return _measured(of, proven, rest)
        case _:
            sections = [
                one for number_, one in enumerate(_sections(of, name)) if at in (None, str(number_))
            ]
            return _of_section(of, proven, sections, what, rest, text, at)


def _sections(of: Asked, name: str) -> list[dict[str, object]]:
    piece = cast("dict[str, dict[str, list[dict[str, object]]]]", of.file["pieces"])[name]
    return piece["sections"]


def _of_section(
    of: Asked,
    proven: ProvenPiece,
    sections: Sequence[dict[str, object]],
    what: str,
    rest: str,
    text: str,
    at: str | None,
) -> Told:
    if what == "title":
        return same(str(sections[0]["title"]), of.sizes)
    if what == "sizes":
        own = proven.sections[int(at or 0)].section.sizes or ()
        names = " ".join(of.names[one] for one in own)
        each = tuple(figures(name) for name in of.names)
        return Told(figures(names), each)
    if what == "video":
        times = [str(one["video"]) for one in sections if "video" in one]
        times += [str(note["video"]) for one in sections for note in _notes(one) if "video" in note]
        shown = text.removeprefix("Video at ").strip()
        assert shown in times
        return same(shown, of.sizes)
    if what == "row note":
        notes = paragraphs(*(note.get("note") for one in sections for note in _notes(one)))
        found = next(
            note
            for note in notes
            if figures(in_both(_bare(note))) == figures(_bare(text)) or "{" in note
        )
        return filled(of, found)
    return filled(of, paragraphs(*(one.get("note") for one in sections))[int(rest) - 1])


def _bare(text: str) -> str:
    return " ".join(text.split())


def _notes(section: dict[str, object]) -> list[dict[str, object]]:
    notes = cast("dict[str, dict[str, object]]", section.get("row_notes") or {})
    listed = section.get("rows")
    inside = [one for one in listed if isinstance(one, dict)] if isinstance(listed, list) else []
    return [*notes.values(), *inside]


def _spacing(of: Asked, address: str, text: str) -> Told:
    """What a sentence spaces is worked; sizes that are told together say so by their names."""
    place = places(of)[address]
    sentence = re.sub(r"^Evenly[^:]*: ", "", text.rstrip("."))
    each: list[tuple[str, ...]] = [()] * of.sizes
    names = of.names
    for part in sentence.split("; "):
        head, colon, words = part.partition(": ")
        here = [at for at, name in enumerate(names) if name in re.split(r", | and ", head)]
        if not colon or not here:
            here, words = [k for k in range(of.sizes) if place[3].per_size[k]], part
        for at in here:
            spaced(of, place, words, at)
            each[at] = figures(words)
    return Told(figures(text), tuple(each))


def _measured(of: Asked, proven: ProvenPiece, name: str) -> Told:
    """A length that a drawing letters: of the row where it lies, by its gauge."""
    own = _own_of(of, proven)
    gauges = {one.name: one for one in of.ready.pattern.gauges}
    each = [_length(own, gauges, name, size) for size in range(of.sizes)]
    return lengths(each, of.units)


def _own_of(of: Asked, proven: ProvenPiece) -> ProvenPiece:
    """The piece that has the rows: another one where it mirrors that."""
    name = proven.piece.mirror or proven.piece.name
    return next(one for one in of.ready.proven.pieces if one.piece.name == name)


def _length(proven: ProvenPiece, gauges: dict[str, Gauge], name: str, size: int) -> Fraction | None:
    lines = [
        (section.section.title, counted, gauges[section.section.gauge or ""])
        for section in proven.sections
        for row in section.rows
        if (counted := row.per_size[size]) is not None
        and counted.times
        and counted.first is not None
    ]
    if not lines:
        return None
    along = list(_widths([(counted, used) for _, counted, used in lines]))
    high = [counted.height or Fraction(0) for _, counted, _ in lines]
    if found := re.fullmatch(r"(.*) (?:at|to) the end of “(.*)”", name):
        last = max(at for at, (title, _, _) in enumerate(lines) if title == found[2])
        return high[last] if found[1] == "Length" else along[last]
    by_words = {
        "start": along[0],
        "end": along[-1],
        "widest": max(along),
        "start to end": max(high),
        "across": along[-1],
    }
    key = re.sub(r".*?(start to end|start|end|widest)$|^Across$", r"\1", name) or "across"
    return by_words[key] / (PI if name.startswith("Across") else 1)


def _widths(lines: Sequence[tuple[RowInSize, Gauge]]) -> Iterator[Fraction]:
    """Each as wide as its stitches, and as the chains between where the first leaves room."""
    first: Fraction | None = None
    for counted, used in lines:
        width = used.over / used.sts
        least = (counted.sts or 0) * width
        chains = sum(
            int(figures(name)[0]) * often
            for name, often in counted.makes
            if re.fullmatch(r"ch-\d+ sp", name)
        )
        if first is None:
            first = least
            yield least
        else:
            yield max(least, min(first, least + chains * width))


# --- the page ------------------------------------------------------------------------------


def _of_page(of: Asked, origin: str, text: str) -> Told:
    """Everything that is neither of a row, nor of a piece, nor of yarn."""
    name, _, rest = origin.partition(": ")
    if name in ANSWERS:
        found = ANSWERS[name](Question(of, name, rest, text))
        return found if isinstance(found, Told) else same(found, of.sizes)
    for begun, answer in OF_ONE.items():
        if name.startswith(f"{begun} "):
            found = answer(Question(of, name.removeprefix(f"{begun} "), rest, text))
            return found if isinstance(found, Told) else same(found, of.sizes)
    raise AssertionError(f"nothing is known of {origin}")


def _ours(one: Question) -> str:
    """A sentence of ours; before a colon stands the name of a yarn, which is told by itself."""
    assert any(re.fullmatch(ours, one.text) for ours in OURS), one.text
    return one.text.partition(": ")[2] if "more yarn" in one.text else one.text


def _version(one: Question) -> str:
    """The first is 1 where a file says none."""
    return str(one.of.file.get("version", "1"))


def _written(one: Question) -> str:
    """A text of the file, or of the studio's where that has none."""
    text = str(one.of.file.get(one.name) or one.of.studio.get(one.rest or one.name) or "")
    return in_both(text) if one.name == "summary" else text


def _measurement(one: Question) -> Told:
    """A cell of a table of measurements: ``Around, S``."""
    column, _, line = one.rest.rpartition(", ")
    return joined(body(one.of, one.name, column, one.of.names.index(line)), one.of.sizes)


def _size(one: Question) -> str:
    assert one.rest in one.of.names
    return one.rest


def _own_value(one: Question) -> Told:
    words, _, size = one.rest.rpartition(", ")
    because = own(one.of, words, size)
    return only(f"{size} {because}", [one.of.names.index(size)], one.of.sizes)


def _stitch(one: Question) -> str:
    stitches = one.of.ready.pattern.stitches
    return in_both(next(own_.text for own_ in stitches if own_.name == one.rest))


def _seam(one: Question) -> str:
    column, _, line = one.rest.rpartition(", ")
    return seam(one.of, one.name, column, one.of.names.index(line))


def _prose(key: str) -> Callable[[Question], Told]:
    """A paragraph of the designer's, by its number."""

    def told_(one: Question) -> Told:
        written = one.of.file[key]
        texts = written if isinstance(written, list) else [written]
        return filled(one.of, paragraphs(*texts)[int(one.name) - 1])

    return told_


def _hooks(one: Question) -> str:
    return " ".join(f"{decimal(mm, 3)} {us(mm)}" for mm in hooks(one.of))


def _alt(one: Question) -> str:
    listed = cast("list[dict[str, str]]", one.of.file.get("pictures") or [])
    assert one.text in {picture["alt"] for picture in listed}
    return one.text


def _chart(one: Question) -> str:
    return chart(one.of) if "title" in one.rest else chart_note(one.of, one.text)


def _head(of: Asked, text: str) -> str:
    """The head of a line or column: a size, a measurement, a stitch, a put-up, a title."""
    pattern = of.ready.pattern
    keys = [*dict(pattern.to_fit), *of.ready.proven.graded.measurements]
    known = {*of.names, *map(heading, keys), *(one.piece.title for one in of.ready.proven.pieces)}
    known |= {
        f"{heading(one.body)} ({one.finished.replace('_', ' ')})" for one in of.ready.proven.ease
    }
    titles = [one.piece.title for one in of.ready.proven.pieces]
    shades = [yarn.shade(one) for yarn in pattern.yarns for one in yarn.colours]
    known |= set(shades) | {f"{title} ({shade})" for title in titles for shade in shades}
    sections = [one.title for piece in pattern.pieces for one in piece.sections]
    lengths_ = [heading(one).lower() for one in (*keys, *sections)]
    known |= {f"{title}: {one}" for title in titles for one in lengths_}
    if text in known or re.fullmatch(r"[A-Za-z]+\d+tog|[A-Z]\d*", text):
        return text
    for yarn in pattern.yarns:
        for also in yarn.also:
            if text.startswith(also.label):
                size = f"{yarn_length(also.put_up.length)} {number(also.put_up.mass)}"
                return f"{also.label} {size}"
    raise AssertionError(f"nothing is known of the head {text}")


def _known_title(of: Asked, text: str) -> str:
    assert text in {one.piece.title for one in of.ready.proven.pieces}
    return text


def _abbreviation(cell: str, text: str) -> str:
    """A stitch worked together says in full how many; its name in the other terms says it twice."""
    short, _, column = cell.rpartition(", ")
    once = "".join(figures(short))
    if not once:
        return text if text == short else ""
    return once if column == "Meaning" else f"{once} {once}"


def _changes(of: Asked, what: str, text: str) -> str:
    changes = cast("list[dict[str, str]]", of.file["changes"])
    if what == "text":
        assert any(text.startswith(" ".join(one["text"].split())) for one in changes)
        return text
    assert tuple(what.split(", ")) in {(one["version"], one["date"]) for one in changes}
    return what


#: What is said of an origin by its name.
ANSWERS: dict[str, Answer] = {
    "words of ours": _ours,
    **dict.fromkeys(("title", "summary", "published", "ages"), _written),
    **dict.fromkeys(("licence", "copyright", "studio"), _written),
    "version": _version,
    "designers": lambda one: " ".join(one.of.ready.pattern.designers),
    "sizes": lambda one: by_size(one.of.names),
    "size": _size,
    "head": lambda one: _head(one.of, one.rest),
    "titles": lambda one: _known_title(one.of, one.rest),
    "hooks": _hooks,
    "hook": lambda one: hook(one.of, Fraction(one.rest), one.text),
    "hook names": lambda one: doubt(one.rest),
    "level": lambda one: " ".join(one.of.ready.level.reasons),
    "cautions": lambda one: one.text if known_caution(one.of, one.text) else "",
    "safety rule": lambda one: rule(one.rest, one.text),
    "care": lambda one: care(one.of, one.rest),
    "pictures": _alt,
    "drawing": lambda one: drawing(one.of, one.rest),
    **dict.fromkeys(("to fit", "finished", "ease", "one stitch more"), _measurement),
    "own": _own_value,
    "chart faults": lambda one: faults(one.of, one.rest),
    "body chart": _chart,
    "stitches": _stitch,
    "abbreviation": lambda one: _abbreviation(one.rest, one.text),
    "changes": lambda one: _changes(one.of, one.rest, one.text),
}
#: The same where the name ends with that of a thing, or with its number.
OF_ONE: dict[str, Answer] = {
    "seam": _seam,
    "gauge of": lambda one: in_10_cm(gauge_of(one.of, one.name), one.rest),
    "gauge": lambda one: gauge(one.of.ready.pattern.gauges[int(one.name) - 1]),
    "band of": lambda one: band(one.of, one.name),
    "notion": lambda one: notion(one.of, int(one.name) - 1),
    **{key: _prose(key) for key in ("story", "assembly", "finishing")},
}
