"""Makes mistakes in the text of rows: each function yields every place where its mistake fits.

Takes     ``Rows`` that come out.
Gives     functions from rows to ``Slip``; mistakes.py names the class that each of them is.
Problems  none.
From      common practice: what technical editors look for in a pattern.

Whether a change matters is not said here: the judgement (judging.py) finds out.
"""

from __future__ import annotations

import re
from collections.abc import Callable, Iterator
from itertools import pairwise

from tests.seeded.spans import Figure, Slip, changed, figures, is_step, lines, parts, stated_at
from tests.seeded.words import Rows

Make = Callable[[Rows], Iterator[Slip]]

OTHER = {"sc": "dc", "dc": "sc", "hdc": "dc", "tr": "dc", "htr": "tr", "dtr": "tr"}


# --- numbers ---------------------------------------------------------------------------------


def numbers(rows: Rows, *roles: str) -> Iterator[tuple[int, str, Figure]]:
    """Every number of these kinds, with its line."""
    for number, line in lines(rows):
        for figure in figures(line, rows.size_count):
            if figure.role in roles:
                yield number, line, figure


def with_values(
    rows: Rows, number: int, line: str, figure: Figure, values: tuple[int, ...]
) -> Iterator[Slip]:
    """The row with other values, if they are others."""
    if values == figure.values or min(values) < 0:
        return
    new = figure.written(values, rows.size_count)
    yield changed(rows, number, figure.start, line[: figure.start] + new + line[figure.end :])


def each_size(rows: Rows, figure: Figure) -> tuple[int, ...]:
    """The values, one a size."""
    return figure.values if len(figure.values) > 1 else figure.values * rows.size_count


def off_in_one_size(rows: Rows, *roles: str, by: int) -> Iterator[Slip]:
    """A number that is off in one size and right in the others."""
    for number, line, figure in numbers(rows, *roles):
        values = each_size(rows, figure)
        for size in range(rows.size_count):
            new = (*values[:size], values[size] + by, *values[size + 1 :])
            yield from with_values(rows, number, line, figure, new)


def off_in_all(rows: Rows, *roles: str, by: int) -> Iterator[Slip]:
    """A number that is off in every size."""
    for number, line, figure in numbers(rows, *roles):
        new = tuple(value + by for value in figure.values)
        yield from with_values(rows, number, line, figure, new)


def swapped(rows: Rows, *roles: str) -> Iterator[Slip]:
    """Two neighbouring sizes exchanged."""
    for number, line, figure in numbers(rows, *roles):
        for size in range(len(figure.values) - 1):
            new = list(figure.values)
            new[size], new[size + 1] = new[size + 1], new[size]
            yield from with_values(rows, number, line, figure, tuple(new))


def of_the_neighbour(rows: Rows, *roles: str) -> Iterator[Slip]:
    """A size that has the number of the size after it."""
    for number, line, figure in numbers(rows, *roles):
        for size in range(len(figure.values) - 1):
            new = list(figure.values)
            new[size] = new[size + 1]
            yield from with_values(rows, number, line, figure, tuple(new))


def size_missing(rows: Rows) -> Iterator[Slip]:
    """A list without one of the sizes; two sizes are left at least, so that it stays a list."""
    for number, line, figure in numbers(rows, *STEPS, "stated", "starting chain", "label"):
        if len(figure.values) < 3:
            continue
        for size in range(len(figure.values)):
            new = (*figure.values[:size], *figure.values[size + 1 :])
            text = figure.written(new, len(new) + 1)
            if len(set(new)) == 1:
                text = f"{new[0]} ({', '.join(str(one) for one in new[1:])})"
                text = ", ".join(str(one) for one in new) if figure.form == "row" else text
            after = line[: figure.start] + text + line[figure.end :]
            yield changed(rows, number, figure.start, after)


def size_too_many(rows: Rows) -> Iterator[Slip]:
    """A list with a number more than there are sizes."""
    for number, line, figure in numbers(rows, *STEPS, "stated", "starting chain"):
        if len(figure.values) > 1:
            new = (*figure.values, figure.values[-1] + 1)
            yield from with_values(rows, number, line, figure, new)


def digits_swapped(rows: Rows) -> Iterator[Slip]:
    """45 for 54."""
    for number, line, figure in numbers(rows, "stated", "starting chain"):
        for size, value in enumerate(figure.values):
            turned = int(str(value)[::-1])
            new = (*figure.values[:size], turned, *figure.values[size + 1 :])
            if len(str(value)) > 1 and not str(value).endswith("0"):
                yield from with_values(rows, number, line, figure, new)


def copied_from_above(rows: Rows) -> Iterator[Slip]:
    """The stated count of the row above, where another is right."""
    above: str | None = None
    for number, line in lines(rows):
        at = stated_at(line, rows.size_count)
        if at is None:
            continue
        text = line[at[0] : at[1]]
        if above is not None and above != text:
            yield changed(rows, number, at[0], line[: at[0]] + above + line[at[1] :])
        above = text


STEPS = (
    "run",
    "skip",
    "last",
    "last run",
    "more",
    "content",
    "bridge",
    "evenly",
    "travel",
    "chain",
)


# --- words -----------------------------------------------------------------------------------


def reworded(
    rows: Rows, pattern: str, new: str | Callable[[re.Match[str]], str | None]
) -> Iterator[Slip]:
    """Each place of a phrase with other words, one at a time; never in a stated count."""
    for number, line in lines(rows):
        stated = stated_at(line, rows.size_count)
        end = len(line) if stated is None else stated[0]
        for found in re.finditer(pattern, line[:end]):
            words = new(found) if callable(new) else found.expand(new)
            if words is not None and words != found[0]:
                after = line[: found.start()] + words + line[found.end() :]
                yield changed(rows, number, found.start(), after)


def stated_unit(rows: Rows) -> Iterator[Slip]:
    """The stated count of another stitch."""
    for number, line in lines(rows):
        at = stated_at(line, rows.size_count)
        if at is None:
            continue
        for found in re.finditer(r"\b(?:sc|hdc|dc|tr|htr|dtr)\b", line[at[0] : at[1]]):
            start, end = at[0] + found.start(), at[0] + found.end()
            yield changed(rows, number, start, line[:start] + OTHER[found[0]] + line[end:])


def stated_space(rows: Rows) -> Iterator[Slip]:
    """The stated count of spaces of another size."""
    for number, line in lines(rows):
        at = stated_at(line, rows.size_count)
        for found in re.finditer(r"ch-(\d)(?= sp)", line[at[0] : at[1]]) if at else ():
            start, end = at[0] + found.start(), at[0] + found.end()  # type: ignore[index]
            new = f"ch-{int(found[1]) + 1}"
            yield changed(rows, number, start, line[:start] + new + line[end:])


def step_left_out(rows: Rows, *, only: str = "", after_repeat: bool = False) -> Iterator[Slip]:
    """A step that is not there; a star before it stays."""
    for number, line in lines(rows):
        spans = parts(line, rows.size_count)
        if re.match(r"ch \d+(?: \([\d, ]+\))*, join", line):
            continue
        for at, (start, end) in enumerate(spans):
            text = line[start:end]
            if not is_step(text.lstrip("*")) or not re.search(only, text):
                continue
            before = line[spans[at - 1][0] : spans[at - 1][1]] if at else ""
            if after_repeat and not re.match(
                r"rep(?:eat)? from|.*[\])] (?:\d+ times|twice)$", before
            ):
                continue
            new = _without(line, start, end)
            if new is not None:
                yield changed(rows, number, start, new)


def _without(line: str, start: int, end: int) -> str | None:
    """The line without a step and one comma beside it."""
    star = "*" if line[start] == "*" else ""
    following = line[end : end + 2]
    if following == ", ":
        return line[:start] + star + line[end + 2 :]
    if line[:start].endswith(", ") and not star:
        return line[: start - 2] + line[end:]
    return None


def step_twice(rows: Rows) -> Iterator[Slip]:
    """A step written twice in a row."""
    for number, line in lines(rows):
        for start, end in parts(line, rows.size_count):
            text = line[start:end]
            plain = text.lstrip("*").removesuffix("**")
            if re.search(r" in each (?!of)| (?:across|around|to end)$", plain):
                continue  # the second time it finds nothing, and is empty words
            if is_step(plain) and not re.match(r"ch \d+(?! \(counts as \d)|magic ring|\[", plain):
                yield changed(rows, number, end, f"{line[:end]}, {plain}{line[end:]}")


def steps_swapped(rows: Rows) -> Iterator[Slip]:
    """Two neighbouring steps in the wrong order."""
    for number, line in lines(rows):
        spans = parts(line, rows.size_count)
        for (start, end), (begin, stop) in pairwise(spans):
            first, second = line[start:end], line[begin:stop]
            if not (is_step(first.lstrip("*")) and is_step(second)) or begin != end + 2:
                continue
            if second.startswith("*") or "**" in first + second:
                continue
            if re.match(r"ch \d", first) or re.match(r"ch \d", second) or " of t" in second:
                continue
            star = "*" if first.startswith("*") else ""
            new = f"{star}{second}, {first.lstrip('*')}"
            yield changed(rows, number, start, line[:start] + new + line[stop:])


def star_moved(rows: Rows, *, later: bool) -> Iterator[Slip]:
    """The star of a repeat a step too late or too early."""
    for number, line in lines(rows):
        spans = parts(line, rows.size_count)
        for at, (start, end) in enumerate(spans):
            if line[start] != "*":
                continue
            if later:
                after = spans[at + 1] if at + 1 < len(spans) else None
                if after is None or line[end] != "," or not is_step(line[slice(*after)]):
                    continue
                new = line[:start] + line[start + 1 : after[0]] + "*" + line[after[0] :]
                yield changed(rows, number, start, new)
            elif at and is_step(line[slice(*spans[at - 1])]):
                before = spans[at - 1][0]
                if re.match(r"ch \d|\*|magic", line[before:]):
                    continue
                new = line[:before] + "*" + line[before:start] + line[start + 1 :]
                yield changed(rows, number, before, new)


# --- rows ------------------------------------------------------------------------------------


def row_left_out(rows: Rows) -> Iterator[Slip]:
    """A whole line that is not there."""
    texts = rows.text.split("\n")
    for at in range(1, len(texts) - 1):
        yield Slip(at + 1, 1, "\n".join(texts[:at] + texts[at + 1 :]))


def row_twice(rows: Rows) -> Iterator[Slip]:
    """A whole line written twice."""
    texts = rows.text.split("\n")
    for at in range(1, len(texts)):
        yield Slip(at + 2, 1, "\n".join(texts[: at + 1] + texts[at:]))


def rows_swapped(rows: Rows) -> Iterator[Slip]:
    """Two neighbouring rows in the wrong order, each with the number of its place."""
    texts = rows.text.split("\n")
    label = re.compile(r"((?:Rows?|Rnds?) [\d–-]+(?: \([RW]S\))?: )?(.*)")
    for at in range(1, len(texts) - 1):
        first, second = label.fullmatch(texts[at]), label.fullmatch(texts[at + 1])
        if first is None or second is None or first[2] == second[2]:
            continue
        if re.match(r"Rows|Rnds", texts[at]) or re.match(r"Rows|Rnds", texts[at + 1]):
            continue
        new = [(first[1] or "") + second[2], (second[1] or "") + first[2]]
        yield Slip(at + 1, 1, "\n".join(texts[:at] + new + texts[at + 2 :]))


def other_row(rows: Rows) -> Iterator[Slip]:
    """``rep Row 3`` for ``rep Row 2``; of two rows both move."""
    for number, line in lines(rows):
        for found in re.finditer(r"rep (Rows?|Rnds?) (\d+)(?:( and |[-–])(\d+))?", line):
            for by in (-1, 1):
                first = int(found[2]) + by
                second = f"{found[3]}{int(found[4]) + by}" if found[3] else ""
                if first > 0:
                    new = f"rep {found[1]} {first}{second}"
                    after = line[: found.start()] + new + line[found.end() :]
                    yield changed(rows, number, found.start(), after)


def row_number(rows: Rows) -> Iterator[Slip]:
    """A row number that is off by one; of a range both."""
    for number, line in lines(rows):
        found = re.match(r"(Rows?|Rnds?) ([\d ,()–-]+)(?= \([RW]S\)|:)", line)
        if found is None or number <= _first_row(rows):
            continue
        for by in (-1, 1):
            new = re.sub(r"\d+", lambda one: str(int(one[0]) + by), found[2])  # noqa: B023
            yield changed(rows, number, 0, f"{found[1]} {new}{line[found.end() :]}")


def range_off(rows: Rows) -> Iterator[Slip]:
    """A range of rows that ends a row early or late."""
    for number, line in lines(rows):
        found = re.match(r"(Rows|Rnds) (\d+)([-–])(\d+):", line)
        if found:
            for by in (-1, 1):
                last = int(found[4]) + by
                new = f"{found[1]} {found[2]}{found[3]}{last}:"
                yield changed(rows, number, 0, new + line[found.end() :])


def _first_row(rows: Rows) -> int:
    """The line of the first row with a number: it may have any."""
    return next((n for n, line in lines(rows) if re.match(r"(?:Rows?|Rnds?) \d", line)), 0)


def sizes_unsaid(rows: Rows) -> Iterator[Slip]:
    """A row for some sizes that no longer says so."""
    yield from reworded(rows, r"^sizes? [^:]+ only: ", "")


def sizes_other(rows: Rows) -> Iterator[Slip]:
    """A row for some sizes that names one size more or less."""
    for number, line in lines(rows):
        found = re.match(r"sizes? ([^:]+) only: ", line)
        if found is None:
            continue
        run = re.fullmatch(r"(\S+)[–-](\S+)", found[1])
        first = run[1] if run else found[1]
        last = run[2] if run else found[1]
        if first not in rows.sizes or last not in rows.sizes:
            continue
        at, to = rows.sizes.index(first), rows.sizes.index(last)
        for begin, end in ((at - 1, to), (at + 1, to), (at, to - 1), (at, to + 1)):
            if 0 <= begin <= end < len(rows.sizes):
                names = f"{rows.sizes[begin]}–{rows.sizes[end]}"
                new = (
                    f"size {rows.sizes[begin]} only: " if begin == end else f"sizes {names} only: "
                )
                yield changed(rows, number, 0, new + line[found.end() :])


# --- stitches --------------------------------------------------------------------------------

ONE = r"(?<![\w-])(?:sc|hdc|dc|tr|htr|dtr)(?![\w-])"


def increase_too_many(rows: Rows) -> Iterator[Slip]:
    """Two in a stitch where one is meant."""
    yield from reworded(rows, rf"(?<!\d )(?<![\w-])({ONE}) in (next|last) st\b", r"2 \1 in \2 st")


def decrease_too_many(rows: Rows) -> Iterator[Slip]:
    """Two together where one is meant."""
    yield from reworded(rows, rf"(?<!\d )(?<![\w-])({ONE}) (?:1|in next st)(?![\w ])", r"\g<1>2tog")


def run_shortened(rows: Rows) -> Iterator[Slip]:
    """``sc in next st`` for ``sc in each of next 3 sts``: the number forgotten."""
    yield from reworded(
        rows, rf"({ONE}) in (?:each of )?next \d+ (st|sc|dc|ch)s?\b", r"\1 in next \2"
    )


def turning_chain_forgotten(rows: Rows) -> Iterator[Slip]:
    """No chain at the start of the row."""
    yield from reworded(rows, r"(?:^|(?<=: ))ch \d(?: \([^)]*\))?, (?!join)", "")


def first_stitch_worked(rows: Rows) -> Iterator[Slip]:
    """A stitch into the first place although the chain that counts stands there."""
    yield from reworded(rows, r"ch (\d) \(counts as (\w+)\), ", r"\g<0>\2 in first st, ")


def counted_not(rows: Rows) -> Iterator[Slip]:
    """A chain that counts, said not to."""
    yield from reworded(
        rows, r"(ch \d) \(counts as \w+(?: and ch \d)?\)", r"\1 (does not count as st)"
    )


def counted_so(rows: Rows) -> Iterator[Slip]:
    """A chain that does not count, said to."""

    def new(found: re.Match[str]) -> str:
        kind = {"1": "sc", "2": "hdc", "3": "dc", "4": "tr"}[found[1]]
        return f"ch {found[1]} (counts as {_uk(kind) if rows.terms == 'uk' else kind}), "

    yield from reworded(
        rows, r"(?:^|(?<=: ))ch ([1-4])(?: \(does not count[^)]*\))?, (?!join|ch)", new
    )


def _uk(kind: str) -> str:
    return {"sc": "dc", "hdc": "htr", "dc": "tr", "tr": "dtr"}[kind]


def from_hook(rows: Rows, by: int) -> Iterator[Slip]:
    """The chain next to the right one; what is said of the skipped chains goes with it."""
    endings = {2: "2nd", 3: "3rd"}

    def new(found: re.Match[str]) -> str | None:
        nth = int(found[1]) + by
        if nth < 2:
            return None
        said = (found[3] or "").replace(f"skipped {nth - by - 1} ", f"skipped {nth - 1} ")
        return f"in {endings.get(nth, f'{nth}th')} ch from hook{said}"

    yield from reworded(rows, r"in (\d)(st|nd|rd|th) ch from hook( \([^)]*\))?", new)


def skipped_chains_otherwise(rows: Rows) -> Iterator[Slip]:
    """Skipped chains that count, said not to, or the other way."""

    def new(found: re.Match[str]) -> str:
        counts = "do not count" if "count as" in found[2] else f"count as {found[1]}"
        return re.sub(r"do not count|count as \w+(?: and ch \d)?", counts, found[0])

    yield from reworded(rows, r"(\w+) in \dth ch from hook( \(skipped [^)]*\))", new)
    yield from reworded(rows, r"(\w+) in 3rd ch from hook( \(skipped [^)]*\))", new)


def other_space(rows: Rows) -> Iterator[Slip]:
    """``next ch-3 sp`` where the row below has ch-2 sps."""

    def new(found: re.Match[str]) -> str:
        return f"{found[1]}ch-{int(found[2]) + 1} sp"

    yield from reworded(rows, r"((?:next|each|rem) )ch-(\d) sp", new)


def space_lower(rows: Rows) -> Iterator[Slip]:
    """``next ch-1 sp`` where the row below has ch-2 sps."""

    def new(found: re.Match[str]) -> str | None:
        return f"{found[1]}ch-{int(found[2]) - 1} sp" if found[2] != "1" else None

    yield from reworded(rows, r"((?:next|each|rem) )ch-(\d) sp", new)


def other_stitch_below(rows: Rows) -> Iterator[Slip]:
    """``in next dc`` where the row below has sc."""

    def new(found: re.Match[str]) -> str:
        return f"{found[1]}{OTHER[found[2]]}"

    yield from reworded(
        rows, r"\b(in (?:next|each|last|first|each of next \d+) )(sc|dc|hdc|tr|htr)\b", new
    )


def row_in_other_stitch(rows: Rows) -> Iterator[Slip]:
    """A row worked in another stitch than it says."""
    for number, line in lines(rows):
        stated = stated_at(line, rows.size_count)
        end = len(line) if stated is None else stated[0]
        found = re.search(rf"({ONE}) (?:in each|in next|in first|\d)", line[:end])
        if found is None:
            continue
        kind = found[1]
        new = re.sub(rf"(?<![\w-]){kind}(?![\w-])", OTHER[kind], line[:end]) + line[end:]
        yield changed(rows, number, found.start(), new)


def bridge_off(rows: Rows, by: int) -> Iterator[Slip]:
    """A bridge of chains a chain short, said so consistently."""

    def new(found: re.Match[str]) -> str:
        def off(text: str) -> str:
            return re.sub(r"\d+", lambda one: str(int(one[0]) + by), text)

        return f"ch {off(found[1])} (counts as {off(found[2])} sts)"

    yield from reworded(
        rows, r"\bch (\d+(?: \([\d, ]+\))*) \(counts as (\d+(?: \([\d, ]+\))*) sts\)", new
    )


def bigger_group(rows: Rows, by: int) -> Iterator[Slip]:
    """A stitch too many or too few among those worked into one place."""

    def new(found: re.Match[str]) -> str | None:
        number = int(found[2]) + by
        if number == 1:
            return f"{found[1]}{found[3]}"
        return f"{found[1]}{number} {found[3]}" if number else None

    for kind in (rf"({ONE} in (?:next|same|first|last|center))", rf"({ONE})(?=[^;\]]*?\) in )"):
        yield from reworded(rows, rf"((?:[,;(\[*:] ?|^))(\d) {kind}", new)


def join_elsewhere(rows: Rows) -> Iterator[Slip]:
    """A join to a chain that the round does not begin with."""

    def new(found: re.Match[str]) -> str:
        return f"beg ch-{int(found[1]) + 1}"

    yield from reworded(rows, r"beg ch-(\d)", new)


def join_to_other(rows: Rows) -> Iterator[Slip]:
    """A join to a stitch that the round does not have."""

    def new(found: re.Match[str]) -> str:
        return f"first {OTHER[found[1]]}"

    yield from reworded(rows, r"(?<=join with sl st to )first (sc|dc|hdc|tr|htr)", new)
