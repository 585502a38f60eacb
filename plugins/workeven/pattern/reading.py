"""Texts to typed values by their place: numbers, lengths, masses, lists by size, times, dates.

Takes     nodes of a file whose shape is right.
Gives     ``Reading``: the readers of values, and the problems met.
Problems  ``unit-length``, ``unit-mass``, ``unit-number``, ``unit-formula``, ``size-brackets``,
          ``size-list``, ``video-time``, ``file-date``, ``link-address``, ``name-unknown``.
From      design.md, "Values by size" and "YAML, safely and with places".

A reader gives None where it has reported a problem, or where the shape of the file was wrong and
that has been reported. A record is made only when all its parts are there.
"""

from __future__ import annotations

import re
from collections.abc import Callable, Iterable, Iterator, Mapping
from datetime import date
from fractions import Fraction
from typing import TypeVar

from workeven.arithmetic import formulas, quantities
from workeven.arithmetic.formulas import Formula, FormulaFault
from workeven.arithmetic.per_size import PerSize, Sizes
from workeven.arithmetic.quantities import QuantityFault
from workeven.arithmetic.size_lists import split
from workeven.pattern.records import Text
from workeven.problems import Problem, Span
from workeven.problems.words import did_you_mean, excerpt, joined, quote
from workeven.records import replace
from workeven.source import Entry, Node, Source

T = TypeVar("T")

_DASHES = ("-", "–", "—")
_VULGAR = "½¼¾⅓⅔⅕⅖⅗⅘⅙⅚⅛⅜⅝⅞"
#: A list of lengths, as against a formula: a number, perhaps a unit, a bracket.
_LENGTHS = re.compile(rf"[0-9.{_VULGAR}][0-9./ \u2044{_VULGAR}-]*[A-Za-z\"″.]*\s*\(")
_PLAIN_LENGTH = re.compile(rf"[0-9.,{_VULGAR}][0-9.,/ \u2044{_VULGAR}-]*[^\W\d_]*\.?\Z")
_UNIT = re.compile(r"[A-Za-z\"″][A-Za-z\"″.]*\Z")
#: the last of an hour: "75:00" are minutes alone
_LAST_MINUTE = 59
_TIME = re.compile(r"(?:(?P<hours>\d{1,2}):)?(?P<minutes>\d{1,3}):(?P<seconds>[0-5]\d)")
_DATE = re.compile(r"\d{4}-\d{2}-\d{2}")
_INSIDE = re.compile(r"(?!/?/)[^\s\\:?#][^\s\\:]*|#[^\s\\:]+")
_MOST_PERCENT = 100


class Reading:
    """One file being read.

    ``root`` is its tree without what is misshapen, ``source`` still holds that. ``sizes`` is None
    when the names of the sizes could not be read.
    """

    def __init__(self, source: Source, root: Node, problems: Iterable[Problem] = ()) -> None:
        self.source = source
        self.root = root
        self.sizes: Sizes | None = None
        self.problems = list(problems)

    # --- tables ---

    def text(self, table: Node, key: str) -> str | None:
        """The words under a key, without blanks around them."""
        node = self.node(table, key)
        return words(node) if node is not None else None

    def node(self, table: Node, key: str) -> Node | None:
        """The value under a key, or None."""
        entry = entries(table).get(key)
        return entry.value if entry is not None else None

    def placed(self, node: Node) -> Text:
        """Words with their place."""
        return Text(text=words(node), span=self.source.span(node))

    def yarn(self, table: Node, known: tuple[str, ...] | None) -> str | None:
        """The yarn that a table names, told where there is none of that name."""
        node = self.node(table, "yarn")
        if node is None:
            return None
        if known is not None and words(node) not in known:
            self.unknown(node, "yarn", known, "Names under `yarn`")
            return None
        return words(node)

    def texts(self, node: Node | None) -> tuple[Text, ...]:
        """A text, or a list of texts."""
        if node is None:
            return ()
        return tuple(self.placed(one) for one in (items(node) or (node,)))

    def span(self, entry: Entry) -> Span:
        """The place of a named thing: its key."""
        return self.source.span(entry.key)

    # --- values ---

    def length(self, node: Node | None) -> Fraction | None:
        """A length in mm."""
        return self._quantity(node, quantities.length, "unit-length")

    def hook(self, node: Node, size: str | None) -> Fraction | None:
        """The size of a hook in mm; ``size`` when a name stands behind it."""
        return self._quantity(node, lambda whole: quantities.hook(size or whole), "unit-length")

    def mass(self, node: Node | None) -> Fraction | None:
        """A mass in g."""
        return self._quantity(node, quantities.mass, "unit-mass")

    def number(self, node: Node | None) -> Fraction | None:
        """A number."""
        return self._quantity(node, quantities.number, "unit-number")

    def whole(self, node: Node | None) -> int | None:
        """A whole number."""
        return self._quantity(node, quantities.whole, "unit-number")

    def percent(self, node: Node) -> Fraction | None:
        """``10 %`` as a fraction of one."""
        text = words(node)
        if not text.endswith("%"):
            self.problem(
                "unit-number",
                self.source.span(node),
                f"{quote(text)} does not say that it is percent.",
                expected="A number and a percent sign.",
                mend="Write it as `10 %`.",
            )
            return None
        value = self._quantity(node, lambda whole: quantities.number(whole[:-1]), "unit-number")
        if value is not None and value > _MOST_PERCENT:
            self.problem(
                "unit-number",
                self.source.span(node),
                f"{quote(text)} is more than all of it again.",
                expected=f"At most {_MOST_PERCENT} %.",
                mend="Write a smaller number; 10 % is usual.",
            )
            return None
        return None if value is None else value / 100

    def seconds(self, node: Node | None) -> int | None:
        """``21:30`` or ``1:02:10`` in seconds."""
        if node is None:
            return None
        found = _TIME.fullmatch(words(node))
        if found is None or (found["hours"] and int(found["minutes"]) > _LAST_MINUTE):
            self.problem(
                "video-time",
                self.source.span(node),
                f"{quote(words(node))} is no time of a film.",
                expected="Minutes and seconds as `7:40`, or hours too as `1:07:40`.",
                mend="Write the time with a colon; seconds go up to 59.",
            )
            return None
        hours = int(found["hours"] or 0)
        return (hours * 60 + int(found["minutes"])) * 60 + int(found["seconds"])

    def date(self, node: Node | None) -> str | None:
        """``2026-05-01``, a day that exists."""
        if node is None:
            return None
        text = words(node)
        try:
            date.fromisoformat(text if _DATE.fullmatch(text) else "")
        except ValueError:
            self.problem(
                "file-date",
                self.source.span(node),
                f"{quote(text)} is not a day.",
                expected="Year, month and day, such as `2026-05-01`.",
                mend="Write the four figures of the year first, and look whether the day exists.",
            )
            return None
        return text

    def address(self, node: Node, *, inside: bool, filled: str | None = None) -> str | None:
        """An address with https or http; ``inside``: or a page of the site.

        ``filled`` is judged in the place of an address that has places to fill.
        """
        text = words(node)
        if _is_web(filled or text) or (inside and _INSIDE.fullmatch(text)):
            return text
        web = "An address that begins with `https://` or `http://`"
        self.problem(
            "link-address",
            self.source.span(node),
            f"{quote(text)} is not an address that a page may lead to.",
            expected=f"{web}, or a page of the site such as `about.md`." if inside else f"{web}.",
            mend="Copy the address from the browser's address line.",
        )
        return None

    def formula(self, node: Node, text: str | None = None) -> Formula | None:
        """A formula; ``text`` when it is not the words of the node itself."""
        try:
            return formulas.read(words(node) if text is None else text)
        except FormulaFault as fault:
            self._formula_fault(node, fault, whole=text is not None)
            return None

    # --- one value a size ---

    def by_size(
        self, node: Node | None, name: str, read: Callable[[str], T], code: str
    ) -> PerSize[T] | None:
        """A list by size in the trade's form or as a list, or one value for all sizes."""
        if node is None:
            return None
        return self._each(node, name, self._values(node, read, code))

    def names(self, node: Node) -> tuple[str, ...] | None:
        """The names of sizes: ``S (M, L)``, or a list."""
        return self._values(node, str.strip, "size-brackets")

    def wholes(self, node: Node | None, name: str) -> PerSize[int] | None:
        """Whole numbers by size; a dash is 0."""
        return self.by_size(node, name, _whole_or_dash, "unit-number")

    def lengths(self, node: Node | None, name: str) -> PerSize[Fraction] | None:
        """Lengths by size in mm, the unit once at the end or with each."""
        if node is None:
            return None
        if isinstance(node.value, str):
            values = self._scalar(node, quantities.lengths, "unit-length")
        else:
            values = self._values(node, quantities.length, "unit-length")
        return self._each(node, name, values)

    def masses(self, node: Node, name: str) -> PerSize[Fraction] | None:
        """Masses by size in g, the unit once at the end or with each."""
        if isinstance(node.value, str):
            values = self._scalar(node, quantities.masses, "unit-mass")
        else:
            values = self._values(node, quantities.mass, "unit-mass")
        return self._each(node, name, values)

    def measurement(self, node: Node, name: str) -> PerSize[Formula] | None:
        """A length by size, or a formula; a list holds formulas too."""
        if isinstance(node.value, tuple):
            read = [self.formula(one) for one in node.value]
            whole = tuple(one for one in read if one is not None)
            return self._each(node, name, whole if len(whole) == len(read) else None)
        text = words(node)
        if len(text) > formulas.LONGEST:
            one = self.formula(node)  # which says that it is too long
            return None if one is None else self._each(node, name, (one,))
        if not _LENGTHS.match(text) and not _PLAIN_LENGTH.fullmatch(text):
            one = self.formula(node)
            return None if one is None else self._each(node, name, (one,))
        values = self._scalar(node, quantities.lengths, "unit-length")
        if values is None:
            return None
        return self._each(node, name, tuple(map(formulas.of_length, _single_lengths(text), values)))

    # --- problems ---

    def problem(
        self,
        code: str,
        span: Span,
        found: str,
        *,
        expected: str = "",
        mend: str = "",
        piece: str | None = None,
        row: str | None = None,
    ) -> None:
        """Report a problem."""
        self.problems.append(
            Problem(
                code=code,
                span=span,
                found=found,
                expected=expected,
                mend=mend,
                piece=piece,
                row=row,
                excerpt=excerpt(self.source.lines[span.line - 1]),
            )
        )

    def tell(self, problem: Problem) -> None:
        """Report a problem, with the line it stands in."""
        line = self.source.lines[problem.span.line - 1]
        self.problems.append(replace(problem, excerpt=excerpt(line)))

    def unknown(
        self,
        node: Node,
        what: str,
        names: Iterable[str],
        where: str,
        *,
        piece: str | None = None,
        name: str | None = None,
    ) -> None:
        """Report a name that nothing has; ``where`` says where such names are given."""
        known = tuple(names)
        missing = name if name is not None else words(node)
        given = f"{where}: {joined(map(quote, known))}." if known else f"{where}: none."
        self.problem(
            "name-unknown",
            self.source.span(node),
            f"There is no {what} called {quote(missing)}.",
            expected=given,
            mend=did_you_mean(missing, known)
            or ("Write one of these names, or add this one." if known else "Add it there."),
            piece=piece,
        )

    def _quantity(self, node: Node | None, read: Callable[[str], T], code: str) -> T | None:
        if node is None:
            return None
        try:
            return read(words(node))
        except QuantityFault as fault:
            self._quantity_fault(node, fault, code)
            return None

    def _values(self, node: Node, read: Callable[[str], T], code: str) -> tuple[T, ...] | None:
        """The values of a list by size; every one that is at fault is reported."""
        if isinstance(node.value, str):
            return self._scalar(node, lambda text: _read_each(text, read), code)
        values = [self._quantity(one, read, code) for one in items(node)]
        whole = tuple(value for value in values if value is not None)
        return whole if len(whole) == len(values) else None

    def _scalar(
        self, node: Node, read: Callable[[str], tuple[T, ...]], code: str
    ) -> tuple[T, ...] | None:
        text = words(node)
        try:
            split(text)
        except QuantityFault as fault:
            decimal_comma = re.search(r"\d,\d", text) is not None and "(" not in text
            self._quantity_fault(node, fault, code if decimal_comma else "size-brackets")
            return None
        try:
            return read(text)
        except QuantityFault as fault:
            self._quantity_fault(node, fault, code)
            return None

    def _each(self, node: Node, name: str, values: tuple[T, ...] | None) -> PerSize[T] | None:
        """One value a size, if their number is right."""
        if values is None or self.sizes is None:
            return None
        if len(values) == 1:
            return self.sizes.all(values[0])
        if len(values) == len(self.sizes):
            return self.sizes.each(values)
        self.size_list(node, name, len(values), self.sizes)
        return None

    def size_list(self, node: Node, name: str, given: int, sizes: Sizes) -> None:
        """Report a list that has not one value for each size."""
        due, names = len(sizes), joined(sizes.names)
        many = "there is one size" if due == 1 else f"there are {due} sizes"
        less = due - given
        change = f"Write {less} more" if less > 0 else f"Take {-less} out"
        self.problem(
            "size-list",
            self.source.span(node),
            f"{quote(name)} has {given} values, and {many}.",
            expected=f"One value for all sizes, or one each for {names}."
            if due > 1
            else f"One value, for {names}.",
            mend=f"{change}, or give the missing sizes under `sizes`."
            if less < 0
            else f"{change}, or write a single one for all sizes.",
        )

    def _quantity_fault(self, node: Node, fault: QuantityFault, code: str) -> None:
        at = blank_before(node)
        self.problem(
            code,
            self.source.stretch(node, at + fault.at, at + fault.end),
            fault.found,
            mend=fault.mend,
        )

    def _formula_fault(self, node: Node, fault: FormulaFault, *, whole: bool) -> None:
        at = blank_before(node)
        span = self.source.stretch(node, at + fault.at, at + fault.end)
        self.problem(
            "unit-formula",
            self.source.span(node) if whole else span,
            str(fault),
            mend=fault.mend,
        )


def words(node: Node) -> str:
    """The text of a scalar, without blanks around it."""
    return node.value.strip() if isinstance(node.value, str) else ""


def blank_before(node: Node) -> int:
    """How many blanks stand before the words of a scalar."""
    return len(node.value) - len(node.value.lstrip()) if isinstance(node.value, str) else 0


def entries(node: Node | None) -> Mapping[str, Entry]:
    """The entries of a table; none for anything else."""
    if node is None or not isinstance(node.value, Mapping):
        return {}
    return node.value


def items(node: Node | None) -> tuple[Node, ...]:
    """The nodes of a list; none for anything else."""
    return node.value if node is not None and isinstance(node.value, tuple) else ()


def whole_of(found: Iterable[T | None]) -> tuple[T, ...] | None:
    """All of them, or None when one is missing."""
    every = list(found)
    kept = tuple(one for one in every if one is not None)
    return kept if len(kept) == len(every) else None


def _whole_or_dash(text: str) -> int:
    return 0 if text.strip() in _DASHES else quantities.whole(text)


def _read_each(text: str, read: Callable[[str], T]) -> tuple[T, ...]:
    """The values of a list by size; a fault names its place in the whole list."""
    values = []
    for item, at in quantities.by_size(text):
        try:
            values.append(read(item))
        except QuantityFault as fault:
            raise QuantityFault(
                fault.found, at=at + fault.at, end=at + fault.end, mend=fault.mend
            ) from None
    return tuple(values)


def _single_lengths(text: str) -> Iterator[str]:
    """The lengths of a list, each with the unit that stands once at the end."""
    parts, tail, _ = split(text)
    last = _UNIT.search(parts[-1][0])
    unit = tail or (last[0] if last else "")
    for part, _at in parts:
        plain = re.sub(r"(?<=\d)-(?=\d)", " ", part)
        yield plain if _UNIT.search(plain) else f"{plain} {unit}"


def _is_web(text: str) -> bool:
    from urllib.parse import urlsplit  # needed by patterns with an address alone

    if re.search(r"[\s\\<>\"'`{}|^]", text) is not None:
        return False
    try:
        parts = urlsplit(text)
        port_is_good = parts.port is None or parts.port > 0
    except ValueError:
        return False
    named = bool(parts.hostname) and "@" not in parts.netloc  # a name in front looks like a host
    return parts.scheme in ("https", "http") and named and port_is_good
