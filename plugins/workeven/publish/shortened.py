"""A script as it is sent: the same steps, without what only its readers need.

Takes     the text of one part of a script, written as ours are.
Gives     ``shortened``; ``signs``, the words and signs that a script is made of.
Problems  none; ``ValueError`` for what is no sign of a script.
From      ECMAScript 2024, "Lexical Grammar" and "Automatic Semicolon Insertion".

Remarks and room between words go, and names that the script has given itself become a letter: in
each function one that means nothing else there, from within or from outside. Properties and keys
are met from outside and stay, though they be called the same.

    const wanted = ({ times }) => times;   becomes   const e=({times:e})=>e;

What is declared in a block counts for its whole function. So a script that has a name of its own
in one block and means the browser's by it in another block of that function would be broken; ours
are tried as they are sent.
"""

from __future__ import annotations

import re
from collections import Counter
from collections.abc import Iterator, Mapping, Sequence
from itertools import product

from workeven.records import record

_NAME = r"[A-Za-z_$][\w$]*"
_SIGN = re.compile(
    rf"""(?P<room>\s+|//[^\n]*|/\*.*?\*/)
    |(?P<name>{_NAME})
    |(?P<number>\d+(?:\.\d+)?(?:e[-+]?\d+)?n?)
    |(?P<text>"(?:[^"\\\n]|\\.)*")
    |(?P<shape>/(?:[^/\\\[\n]|\\.|\[(?:[^\]\\\n]|\\.)*\])+/[a-z]*)
    |(?P<point>=>|\.\.\.|\?\.|\?\?=?|&&=?|\|\|=?|\+\+|--|[-+*/%=!<>]=*|[&|^~?:;,.(){{}}\[\]])
    |(?P<words>`)""",
    re.VERBOSE | re.DOTALL,
)
_WORDS = re.compile(r"(?:[^`\\$]|\\.|\$(?!\{))*", re.DOTALL)
_KEYWORDS = frozenset(
    "async await break catch class const continue delete do else finally for function if in "
    "instanceof let new null of return static this throw true false try typeof void while".split()
)
#: Behind these, a slash divides.
_ENDS = (")", "]", "}")
#: Where a line may break without ending a statement: behind these, before those.
_GOES_ON, _COMES_ON = "{([,;=>&|?:+-*/<!.", ")]},;.?:=&|+-*/<>"
_OPENS = ("(", "[", "{")
#: What may be behind a key.
_BEHIND = (",", "}", ":", "=", "(")
#: The letters, and then two: those first that stand in many words, as these pack best.
_FIRST = "etnaoirslcudpmhfgbvywxkETNAOIRSLCUDPMHFGBVYWXKjqzJQZ"
_EVERY = (*_FIRST, *map("".join, product(_FIRST, repeat=2)))


def shortened(text: str) -> str:
    r"""The script, as short as it may be; ``we``, the one name that is met from outside, stays.

    >>> shortened('const wanted = row => row.times; // hers')
    'const e=e=>e.times;'
    >>> shortened('const { size } = we;\nsaid.append(`${ size } of it`);')
    'const{size:e}=we;said.append(`${e} of it`);'
    """
    every = tuple(signs(text))
    found = tuple(sign for sign in every if not sign.isspace())
    said = iter(_said(found, _letters(found, _scopes(found))))
    out = ""
    for at, sign in enumerate(every):
        if not sign.isspace():
            out += next(said)
        elif out and at + 1 < len(every):
            out += _room(out[-1], every[at + 1][0], line=sign == "\n")
    return out


def signs(text: str) -> Iterator[str]:
    r"""Words and signs, and between them what room there is, as " " or "\n"; no remarks.

    >>> list(signs('a /b/ 2; `x ${ y }`.match(/b/)'))
    ['a', ' ', '/', 'b', '/', ' ', '2', ';', ' ', '`x ${', 'y', '}`', '.', 'match', '(', '/b/', ')']
    """
    before, room, at, within = "", "", 0, [0]
    while at < len(text):
        found = _SIGN.match(text, at)
        if found is None:
            raise ValueError(f"no sign of a script: {text[at : at + 20]!r}")
        sign, kind = found[0], found.lastgroup
        if kind == "shape" and _is_value(before):
            sign, kind = "/", "point"
        if kind == "words" or (sign == "}" and within[-1] == 0 and len(within) > 1):
            within = within if kind == "words" else within[:-1]
            sign, within = _template(text, at, within)
            kind = "words"
        elif sign in {"{", "}"}:
            within[-1] += 1 if sign == "{" else -1
        at += len(sign)
        if kind == "room":
            room = "\n" if "\n" in sign or "\n" in room else " "
            continue
        inside = before.endswith("${") or (kind == "words" and sign[0] == "}")
        if room and before and not inside:
            yield room
        yield sign
        before, room = sign, ""


def _template(text: str, at: int, within: list[int]) -> tuple[str, list[int]]:
    """Words between backticks as far as they go, and whether a value stands behind them."""
    found = _WORDS.match(text, at + 1)
    assert found is not None
    value = text.startswith("${", found.end())
    return text[at : found.end()] + ("${" if value else "`"), [*within, 0] if value else within


def _is_value(sign: str) -> bool:
    """Whether a slash behind it divides."""
    if re.fullmatch(_NAME, sign):
        return sign not in _KEYWORDS
    return bool(re.match(r"[\d\"`)\]}]", sign)) and not sign.endswith("${")


def _room(before: str, behind: str, *, line: bool) -> str:
    """What must stay between two signs that had room between them."""
    if line and before not in _GOES_ON and behind not in _COMES_ON:
        return "\n"
    word = re.compile(r"[\w$]")
    apart = word.match(before) and word.match(behind)
    return " " if apart or (before == behind and before in "+-/") else ""


# --- names ---------------------------------------------------------------------------------


@record
class Scope:
    """A function, or the whole: where it begins and ends, and the names that it gives."""

    start: int
    end: int
    names: frozenset[str]


def _said(found: Sequence[str], letters: Mapping[int, str]) -> Iterator[str]:
    """Each sign as it is sent."""
    keys = dict(_keys(found))
    for at, sign in enumerate(found):
        letter = letters.get(at)
        if letter is None:
            yield sign
        else:
            yield f"{sign}:{letter}" if at in keys else letter


def _letters(found: Sequence[str], scopes: Sequence[Scope]) -> dict[int, str]:
    """The letter that stands at each place; a function comes behind those that it stands in.

    In ``{ shown(`` and ``{ shown =`` the braces may be those of a block: such a name stays.
    """
    keys = dict(_keys(found))
    stays = {found[at] for at, behind in keys.items() if behind in {"(", "="}} | {"we"}
    places = [
        at
        for at, sign in enumerate(found)
        if re.fullmatch(_NAME, sign)
        and keys.get(at) != ":"
        and not (at and found[at - 1] in {".", "?."})
    ]
    meant = {at: _meant(found[at], at, scopes) for at in places if found[at] not in stays}
    letters: dict[int, str] = {}
    for scope in scopes:
        inside = [at for at in places if scope.start <= at < scope.end]
        own = [at for at in inside if meant.get(at) is scope]
        taken = {letters.get(at, found[at]) for at in inside if meant.get(at) is not scope}
        free = (letter for letter in _EVERY if letter not in taken | _KEYWORDS)
        often = Counter(found[at] for at in own).most_common()
        short = dict(zip((name for name, _ in often), free, strict=False))
        letters |= {at: short[found[at]] for at in own}
    return letters


def _meant(name: str, at: int, scopes: Sequence[Scope]) -> Scope | None:
    """Whose name it is: that of the nearest function around it that gives it."""
    around = (scope for scope in reversed(scopes) if scope.start <= at < scope.end)
    return next((scope for scope in around if name in scope.names), None)


def _scopes(found: Sequence[str]) -> list[Scope]:
    """The whole, and every function in the order in which they begin."""
    ends = sorted({(0, len(found)), *_functions(found)}, key=lambda one: (one[0], -one[1]))
    names: dict[tuple[int, int], set[str]] = {one: set() for one in ends}
    for at in _given(found):
        around = [one for one in ends if one[0] <= at < one[1]]
        names[around[-1]].add(found[at])
    return [Scope(start=a, end=b, names=frozenset(names[a, b])) for a, b in ends]


def _functions(found: Sequence[str]) -> Iterator[tuple[int, int]]:
    """From what a function is handed to the end of what it does."""
    for at, sign in enumerate(found):
        if sign == "function":
            yield at + 2, _end(found, _end(found, at + 2))
        elif sign == "=>":
            body = found[at + 1] == "{"
            yield _start(found, at - 1), _end(found, at + 1) if body else _told(found, at + 1)


def _told(found: Sequence[str], start: int) -> int:
    """Where a value ends that begins there: at what parts it from the next, or closes around it."""
    deep = 0
    for at in range(start, len(found)):
        closes = found[at] in _ENDS or found[at].startswith("}")
        if deep == 0 and (closes or found[at] in {",", ";"}):
            return at
        deep += (found[at] in _OPENS or found[at].endswith("${")) - closes
    return len(found)


def _keys(found: Sequence[str]) -> Iterator[tuple[int, str]]:
    """Where names stand in braces as a key would, and what is behind: ``{ size: 1 }``."""
    opened: list[str] = []
    for at, sign in enumerate(found):
        if sign in _OPENS or sign.endswith("${"):
            opened.append(sign)
        elif sign in _ENDS or sign.startswith("}"):
            opened.pop()
        elif opened[-1:] == ["{"] and found[at - 1] in {"{", ","} and found[at + 1] in _BEHIND:
            yield at, found[at + 1]


def _given(found: Sequence[str]) -> Iterator[int]:
    """The places where the part gives a name: declared ones, functions, what they are handed."""
    for at, sign in enumerate(found):
        if sign in {"const", "let"}:
            yield from _pattern(found, at + 1, _end(found, at + 1))
        elif sign == "function":
            yield at + 1
            yield from _pattern(found, at + 2, _end(found, at + 2))
        elif sign == "=>":
            start = _start(found, at - 1)
            yield from _pattern(found, start, _end(found, start))


def _pattern(found: Sequence[str], start: int, end: int) -> Iterator[int]:
    """Names within ``{ size, at: [one] = [] }`` that are given there."""
    for at in range(start, end):
        name = re.fullmatch(_NAME, found[at]) and found[at] not in _KEYWORDS
        begins = at <= start + 1 or found[at - 1] in {"{", "[", ",", ":", "..."}
        if name and begins and found[at + 1] != ":":
            yield at


def _end(found: Sequence[str], start: int) -> int:
    """Behind a name, or behind what closes the bracket that stands there."""
    deep = 0
    for at in range(start, len(found)):
        deep += (found[at] in _OPENS) - (found[at] in _ENDS)
        if deep == 0:
            return at + 1
    return len(found)


def _start(found: Sequence[str], end: int) -> int:
    """The name there, or what opens the bracket that is closed there."""
    deep = 0
    for at in range(end, -1, -1):
        deep += (found[at] in _ENDS) - (found[at] in _OPENS)
        if deep == 0:
            return at
    return 0
