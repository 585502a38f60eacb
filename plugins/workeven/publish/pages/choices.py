"""Words of a page that differ by size, by unit or by terms, marked within its texts.

Takes     words for each size, unit or terms.
Gives     ``by_size``, ``only_for``, ``in_units``, ``in_unit``, ``in_terms``: marked texts;
          ``plain``, ``outside_marks``, ``marked``, ``cell``, ``not_for``.
Problems  none.
From      DEVELOPERS.md, "The reader's page": the page is whole without script, script picks.

A page prints ``60 (66, 72) sts``. A maker who has chosen her size reads ``66 sts``. So that nothing
is ever searched for in words, each such figure is marked where it is made, by control signs that no
pattern file may hold (YAML 1.2, 5.1), and a text may be joined with others as any text. When the
page is rendered the marks become elements with ``data-we-n`` (a figure by size), ``data-we-u``
(both units) or ``data-we-t`` (a stitch by terms). ``theme/scripts/size.js`` picks within them:

    data-we-n               the text is in trade notation; the figure at her size's place is hers
    data-we-n="a⏎b⏎c"       what each size reads, where that is more than a figure
    data-we-o="w⏎x⏎y⏎z"     the same in the other terms, all sizes first
    data-we-u="ci"          parts between " / ", or lines of a cell: c metric, i imperial, - both
    data-we-t               a stitch; the page's list of words says what it is in the other terms
    data-we-t="dc"          the same words in the other terms
"""

from __future__ import annotations

import re
from collections.abc import Callable, Iterable, Sequence

from markupsafe import Markup, escape

#: Control signs: a mark's beginning and end, between its parts, before those in the other terms.
_OPEN, _SHUT, _NEXT, _OTHER = "\x02", "\x03", "\x04", "\x05"

_MARK = re.compile(f"{_OPEN}([nucit])([^{_OPEN}{_SHUT}]*){_SHUT}")
_IN_TAG = re.compile(f"<[^<>]*{_OPEN}[^<>]*>|<(title|desc)>[^<]*{_OPEN}[^<]*</\\1>")
#: A list that is told by its signs alone: figures without spaces, commas and brackets; sides.
_BETWEEN = re.compile(r"[ (),]+")
_LISTED = re.compile(r"[\d–¼-¾⅐-⅞] \(")
_FIGURE = re.compile(r"(?:[\d–¼-¾⅐-⅞][^\s(),]*|[RW]S)\Z")


def by_size(shown: str, values: Sequence[str]) -> str:
    r"""A text in trade notation and what each size reads.

    >>> marked(by_size("60 (66, 72)", ("60", "66", "72")))
    Markup('<span data-we-n>60 (66, 72)</span>')
    >>> marked(by_size("1 (2) buttons", ("1 button", "2 buttons")))
    Markup('<span data-we-n="1 button\n2 buttons">1 (2) buttons</span>')
    """
    if len(set(values)) == 1 and values[0] == shown:
        return shown
    told = [] if _by_signs(shown, values) else map(plain, values)
    return f"{_OPEN}n{_NEXT.join((plain(shown), *told))}{_SHUT}"


def in_units(metric: str, imperial: str, units: str, each: Sequence[tuple[str, str]] = ()) -> str:
    r"""Both units of one length in a sentence, the studio's first; ``each``: both in every size.

    >>> marked(in_units("10 cm", "4 in", "cm"))
    Markup('<span data-we-u="ci">10 cm / 4 in</span>')
    >>> marked(in_units("10 cm", "4 in", "in", [("10 cm", "4 in"), ("15 cm", "6 in")]))
    Markup('<span data-we-u="ic" data-we-n="4 in / 10 cm\n6 in / 15 cm">4 in / 10 cm</span>')
    """
    told = ((metric, imperial), *each)
    pairs = told if units == "cm" else tuple((second, first) for first, second in told)
    letters = "ci" if units == "cm" else "ic"
    words = _NEXT.join(f"{plain(first)} / {plain(second)}" for first, second in pairs)
    return f"{_OPEN}u{letters}{words}{_SHUT}"


def in_unit(words: str, *, metric: bool) -> str:
    """A line of a cell in one unit, beside another in the other.

    >>> plain(in_unit("10 cm", metric=True))
    '10 cm'
    """
    return f"{_OPEN}{'c' if metric else 'i'}{plain(words)}{_SHUT}"


def in_terms(shown: str, other: str = "") -> str:
    """A stitch; ``other``: what it is in the other terms, where the page's list has it not.

    >>> marked(in_terms("dc")), marked(in_terms("US crochet terms", "UK crochet terms"))
    (Markup('<span data-we-t>dc</span>'), \
Markup('<span data-we-t="UK crochet terms">US crochet terms</span>'))
    """
    return f"{_OPEN}t{shown}{_NEXT + other if other else ''}{_SHUT}"


def not_for(worked: Iterable[bool]) -> str:
    """The places of the sizes that have none of it, ``0 2``.

    >>> not_for((False, True, False))
    '0 2'
    """
    return " ".join(str(at) for at, here in enumerate(worked) if not here)


def only_for(words: str, here: Iterable[bool]) -> str:
    r"""Words that are of some sizes alone: who has chosen another does not meet them.

    >>> marked(only_for("Our sample in S: 40 g.", (True, False)))
    Markup('<span data-we-n="Our sample in S: 40 g.\n">Our sample in S: 40 g.</span>')
    """
    return by_size(words, [words if told else "" for told in here])


def plain(text: str) -> str:
    """The text as it reads where nothing is chosen, without marks.

    >>> plain(f"Make {by_size('1 (2)', ('1', '2'))}.")
    'Make 1 (2).'
    """
    if _OPEN not in text:
        return text
    return _MARK.sub(lambda mark: _shown(mark[1], mark[2]), text)


def outside_marks(text: str, change: Callable[[str], str], translate: Callable[[str], str]) -> str:
    r"""The text changed outside its marks; words of sizes get their translation beside them.

    >>> text = by_size("2 (3) dc", ("2 dc", "3 dc"))
    >>> marked(outside_marks(text, str.upper, lambda words: words.replace("dc", "tr")))
    Markup('<span data-we-n="2 dc\n3 dc" data-we-o="2 (3) tr\n2 tr\n3 tr">2 (3) dc</span>')
    """
    parts: list[str] = []
    at = 0
    for mark in _MARK.finditer(text):
        parts += [change(text[at : mark.start()]), _translated(mark, translate)]
        at = mark.end()
    return "".join((*parts, change(text[at:])))


def marked(html: str) -> Markup:
    """HTML with its marks as elements; within tags and names of drawings there are none."""
    html = _IN_TAG.sub(lambda found: plain(found[0]), html)
    return Markup(_MARK.sub(_element, html))  # noqa: S704 -- escaped before; marks hold no markup


def cell(lines: Sequence[str]) -> Markup:
    """A cell of a table: its lines, of which a maker may have chosen one unit and one size.

    >>> cell(("2 balls", in_unit("90 m", metric=True), in_unit("98 yd", metric=False)))
    Markup('<td data-we-u="-ci">2 balls<span>90 m</span><span>98 yd</span></td>')
    """
    letters = "".join(_unit(one) for one in lines)
    if not letters.strip("-"):
        first, *others = map(escape, lines)
        attributes = ""
    else:
        first, *others = (escape(plain(one)) for one in lines)
        listed = " data-we-n" if any(map(_lists, lines)) else ""
        attributes = f' data-we-u="{letters}"{listed}'
    rest = "".join([f"<span>{other}</span>" for other in others])
    return Markup(f"<td{attributes}>{first}{rest}</td>")  # noqa: S704 -- all lines are escaped


def _translated(mark: re.Match[str], translate: Callable[[str], str]) -> str:
    own = mark[2]
    if mark[1] != "n" or _NEXT not in own or _OTHER in own or translate(own) == own:
        return mark[0]
    return f"{_OPEN}n{own}{_OTHER}{translate(own)}{_SHUT}"


def _by_signs(shown: str, values: Sequence[str]) -> bool:
    """Whether the shown list says by itself what each size reads."""
    figures = _BETWEEN.split(plain(shown).strip(" ()"))
    return figures == list(map(plain, values)) and all(map(_FIGURE.match, figures))


def _unit(words: str) -> str:
    return words[1] if words[:2] in (f"{_OPEN}c", f"{_OPEN}i") else "-"


def _lists(words: str) -> bool:
    return _LISTED.search(plain(words)) is not None


def _shown(kind: str, content: str) -> str:
    words = content.partition(_OTHER)[0].partition(_NEXT)[0]
    return words[2:] if kind == "u" else words


def _element(mark: re.Match[str]) -> str:
    """One mark; its content is escaped, for attributes too."""
    kind, content = mark[1], mark[2]
    own, _, other = content.partition(_OTHER)
    shown, *values = own.split(_NEXT)
    told = "\n".join(values)
    match kind:
        case "u":
            listed = f" data-we-n{_value(told)}" if told or _lists(shown[2:]) else ""
            return f'<span data-we-u="{shown[:2]}"{listed}>{shown[2:]}</span>'
        case "t":
            return f"<span data-we-t{_value(told)}>{shown}</span>"
        case "n":
            others = f' data-we-o="{other.replace(_NEXT, chr(10))}"' if other else ""
            return f"<span data-we-n{_value(told)}{others}>{shown}</span>"
        case _:
            return shown


def _value(words: str) -> str:
    return f'="{words}"' if words else ""
