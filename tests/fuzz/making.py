"""Inputs that nobody wrote, each made from its name alone: the same name gives the same input.

Takes     the name of an input, such as ``12:345``; the texts of ``corpus``.
Gives     ``made``: ``Input``.
Problems  none.
From      mutation-based fuzzing, by structure (trees of YAML, lines, keys, formulas, rows) and by
          bytes.
"""

from __future__ import annotations

import copy
import random
import re
from collections.abc import Callable
from dataclasses import dataclass
from typing import Any

import yaml

from tests.fuzz import corpus
from tests.support.pattern_files import GOOD

_WAYS = ("flat rows", "joined rounds", "joined rounds, turned", "spiral rounds")
_STARTS = (None, "12 sc", "40 sc", "18 dc, 18 ch-2 sps", "9 (11, 13) sc", "0 sc", "sc", "1 ch-3 sp")
_KEY = re.compile(r"^(\s*(?:- )?)([\w-]+)(: ?)(.*)$")
_NUMBER = re.compile(r"\d+")
_OPERATORS = (" + ", " - ", " * ", " / ", ", ", " ", "//", "**", "%")
_NAMES = ("width", "length", "mat_sts", "1", "2 cm", "0", "10000000", "1.5", "3/4", "x", "")
_FEW = (1, 1, 1, 1, 1, 2, 2, 5)
#: of so many files: the good pattern of the tests, rich ones, any; large ones are checked slowly
_GOOD, _RICH = 0.3, 0.9
#: how much of one thing: half of the bytes that a file may have, and a value of the longest
_ROOM, _LONGEST, _HALF = 120_000, 9_900, 0.5


@dataclass(frozen=True, slots=True, kw_only=True)
class Input:
    """What is fed in: ``kind`` says to whom, ``options`` how rows are worked."""

    name: str
    kind: str
    content: bytes
    options: tuple[str, str | None] = ("flat rows", None)


def made(name: str) -> Input:
    """The input of that name."""
    rng = random.Random(name)  # noqa: S311, no secret
    kind = rng.choices(list(_KINDS), [weight for weight, _ in _KINDS.values()])[0]
    content = _KINDS[kind][1](rng)
    options = (rng.choice(_WAYS), rng.choice(_STARTS))
    return Input(name=name, kind=kind, content=content, options=options)


def _file(rng: random.Random) -> str:
    chance = rng.random()
    if chance < _GOOD:
        return GOOD
    return rng.choice(corpus.rich_files() if chance < _RICH else corpus.files())


# --- bytes ---------------------------------------------------------------------------------


def _by_bytes(rng: random.Random) -> bytes:
    return _bytes_changed(rng, _file(rng).encode("utf-8"))


def _bytes_changed(rng: random.Random, content: bytes) -> bytes:
    changed = bytearray(content)
    for _ in range(rng.choice(_FEW)):
        at, size = rng.randrange(len(changed) + 1), rng.choice((1, 1, 2, 4, 8, 40, 200))
        match rng.randrange(6):
            case 0:
                del changed[at : at + size]
            case 1:
                changed[at:at] = rng.randbytes(min(size, 8))
            case 2:
                changed[at:at] = changed[at : at + size] * rng.choice((1, 2, 20))
            case 3:
                changed[at : at + 1] = bytes([rng.randrange(256)])
            case 4:
                changed[at : at + 1] = rng.choice(b"\x00\t\n\r \"'&*!|>%@`{}[],:#?-<=").to_bytes()
            case _:
                other = rng.choice(corpus.HOSTILE).encode("utf-8", "surrogatepass")
                changed[at : at + rng.choice((0, size))] = other
    return bytes(changed)


# --- lines and keys ------------------------------------------------------------------------


def _by_lines(rng: random.Random) -> bytes:
    lines = _file(rng).splitlines()
    for _ in range(rng.choice(_FEW)):
        at, other = rng.randrange(len(lines)), rng.randrange(len(lines))
        match rng.randrange(6):
            case 0:
                del lines[at]
                lines = lines or [""]
            case 1:
                lines.insert(at, lines[other])
            case 2:
                lines[at], lines[other] = lines[other], lines[at]
            case 3:
                lines[at] = " " * rng.randrange(12) + lines[at].lstrip()
            case 4:
                lines[at] = _row_changed(rng, lines[at])
            case _:
                lines[at] += rng.choice((" #", ":", " |", ",", " {", " [", "\t", " &a", ' "'))
    return "\n".join(lines).encode("utf-8", "surrogatepass")


def _by_keys(rng: random.Random) -> bytes:
    lines = _file(rng).splitlines()
    keyed = [at for at, line in enumerate(lines) if _KEY.match(line)]
    for _ in range(rng.choice(_FEW)):
        at = rng.choice(keyed)
        found = _KEY.match(lines[at])
        if found is None:
            continue
        indent, key, colon, value = found.groups()
        match rng.randrange(5):
            case 0:
                value = rng.choice(corpus.HOSTILE)
            case 1:
                value = rng.choice(corpus.values())
            case 2:
                value = _number_changed(rng, value)
            case 3:
                other = _KEY.match(lines[rng.choice(keyed)])
                key = other[2] if other else key
            case _:
                key = rng.choice(("title", "x", "1", "<<", "rows", "is", "multiple", "é", "null"))
        lines[at] = f"{indent}{key}{colon}{value}"
    return ("\n".join(lines) + "\n").encode("utf-8", "surrogatepass")


def _number_changed(rng: random.Random, text: str) -> str:
    new = rng.choice(("0", "1", "2", "999999", "-1", "1.5", "12345678901234567890", "½", ""))
    found = list(_NUMBER.finditer(text))
    if not found:
        return text + new
    one = rng.choice(found)
    return text[: one.start()] + new + text[one.end() :]


# --- trees ---------------------------------------------------------------------------------


def _by_structure(rng: random.Random) -> bytes:
    tree = copy.deepcopy(_tree(_file(rng)))
    for _ in range(rng.choice(_FEW)):
        _tree_changed(rng, tree)
    return _dumped(tree)


def _dumped(tree: object) -> bytes:
    text = yaml.dump(tree, Dumper=_DUMPER, sort_keys=False, allow_unicode=True, width=10_000)
    return text.encode("utf-8", "surrogatepass")


_TREES: dict[str, Any] = {}


def _tree(text: str) -> Any:  # noqa: ANN401, what a YAML file holds
    """The tree of a file, all values as texts."""
    if text not in _TREES:
        try:
            _TREES[text] = yaml.load(text, yaml.BaseLoader)  # noqa: S506, texts alone
        except yaml.YAMLError:
            _TREES[text] = _tree(GOOD)
    return _TREES[text]


class _DUMPER(yaml.SafeDumper):
    """Writes rows as text blocks, as people do, and the same list twice without a mark."""

    def ignore_aliases(self, data: object) -> bool:
        """Never a mark."""
        del data
        return True


def _as_written(dumper: yaml.SafeDumper, text: str) -> yaml.ScalarNode:
    style = "|" if "\n" in text else None
    return dumper.represent_scalar("tag:yaml.org,2002:str", text, style=style)


_DUMPER.add_representer(str, _as_written)


def _spots(tree: object) -> list[tuple[Any, Any]]:
    """Every table or list with each of its keys or numbers."""
    found: list[tuple[Any, Any]] = []
    waiting = [tree]
    while waiting:
        one = waiting.pop()
        pairs = one.items() if isinstance(one, dict) else enumerate(one)  # type: ignore[arg-type]
        for key, value in pairs:
            found.append((one, key))
            if isinstance(value, (dict, list)):
                waiting.append(value)
    return found


def _tree_changed(rng: random.Random, tree: object) -> None:
    spots = _spots(tree)
    if not spots:
        return
    (holder, key), (elsewhere, there) = rng.choice(spots), rng.choice(spots)
    match rng.randrange(7):
        case 0:
            del holder[key]
        case 1:
            holder[key] = copy.deepcopy(elsewhere[there])
        case 2:
            holder[key] = rng.choice((*corpus.HOSTILE, [], {}, [""], {"": ""}))
        case 3:
            holder[key] = rng.choice(corpus.values())
        case 4 if isinstance(holder[key], str):
            holder[key] = _number_changed(rng, holder[key])
        case 5 if isinstance(holder[key], str) and holder[key]:
            lines = holder[key].splitlines()
            at = rng.randrange(len(lines))
            lines[at] = _row_changed(rng, lines[at])
            holder[key] = "\n".join(lines)
        case _ if isinstance(holder, dict) and isinstance(elsewhere, dict):
            holder[there] = copy.deepcopy(elsewhere[there])
        case _:
            holder[key] = [copy.deepcopy(holder[key])] * rng.choice((1, 2, 30))


# --- much of one thing ---------------------------------------------------------------------


def _by_number(rng: random.Random) -> bytes:
    """A part of a file as often as a file may hold it: an item, a key, a text, a line of rows."""
    tree = copy.deepcopy(_tree(_file(rng)))
    holder, key = rng.choice(_spots(tree))
    value = holder[key]
    size = len(str(value)) + 12
    times = rng.choice((2, 5, 30, 200, 2_000))
    if isinstance(value, str) and rng.random() < _HALF:
        holder[key] = _long(rng, value, times)
    else:
        copies = [copy.deepcopy(value) for _ in range(min(times, _ROOM // size))]
        if isinstance(holder, list):
            holder[key:key] = copies
        else:
            holder |= {f"{key}{number}": one for number, one in enumerate(copies)}
    for _ in range(rng.choice((0, 0, 1))):
        _tree_changed(rng, tree)
    return _dumped(tree)


def _long(rng: random.Random, value: str, times: int) -> str:
    """A text up to the length that a value may have: all of it, a line, or a word again."""
    times = min(times, _LONGEST // (len(value) + 1))
    match rng.randrange(3):
        case 0:
            return "\n".join([value.rstrip("\n")] * times)
        case 1:
            lines = value.splitlines() or [""]
            at = rng.randrange(len(lines))
            lines[at:at] = [lines[at]] * times
            return "\n".join(lines)
        case _:
            words = value.split(" ")
            at, to = rng.randrange(len(words)), rng.randrange(1, 9)
            words[at:at] = words[at : at + to] * times
            return " ".join(words)


# --- formulas ------------------------------------------------------------------------------

_FORMULA_PLACES = (
    "{across: width, gauge: ground, multiple: 6, plus: 1}",
    "20 (24, 27) cm\n  length",
    "{mat_sts + 1}",
    "{mat_sts} sc)\n          ch",
    "{length}",
    "20 g",
)


def _by_formulas(rng: random.Random) -> bytes:
    formula = _formula(rng, rng.randrange(1, 5))
    place = rng.choice(_FORMULA_PLACES)
    tail = "\n" + place.partition("\n")[2] if "\n" in place else ""
    if place.startswith("{mat_sts") or place == "{length}":
        new = f"{{{formula}}}" + (" sc)" + tail if tail else "")
    elif place.startswith("{"):
        new = rng.choice(("{is: %s}", '{is: "%s", multiple: 2}', "%s")) % formula
    else:
        new = formula + tail
    return GOOD.replace(place, new, 1).encode("utf-8", "surrogatepass")


def _formula(rng: random.Random, depth: int) -> str:
    if depth == 0 or rng.random() < 0.2:
        return rng.choice((*_NAMES, *corpus.HOSTILE) if rng.random() < 0.3 else _NAMES)
    left, right = _formula(rng, depth - 1), _formula(rng, depth - 1)
    match rng.randrange(5):
        case 0:
            return f"({left})"
        case 1:
            return f"{rng.choice(('min', 'max', 'round_to', 'f'))}({left}, {right})"
        case 2:
            return f"-{left}"
        case 3:
            return f"{left} ({right}, {left})"
        case _:
            return f"{left}{rng.choice(_OPERATORS)}{right}"


# --- rows ----------------------------------------------------------------------------------


def _by_rows(rng: random.Random) -> bytes:
    if rng.random() < 0.5:
        lines = list(rng.choice(corpus.pieces()))[:12]
    else:
        lines = [rng.choice(corpus.rows()) for _ in range(rng.randrange(1, 5))]
    for _ in range(rng.choice(_FEW)):
        at = rng.randrange(len(lines))
        lines[at] = _row_changed(rng, lines[at])
    return "\n".join(lines).encode("utf-8", "surrogatepass")


def _row_changed(rng: random.Random, row: str) -> str:
    words = row.split(" ")
    at = rng.randrange(len(words))
    match rng.randrange(8):
        case 0:
            del words[at]
        case 1:
            words.insert(at, rng.choice(corpus.words()))
        case 2:
            words[at] = rng.choice(corpus.words())
        case 3:
            other = rng.randrange(len(words))
            words[at], words[other] = words[other], words[at]
        case 4:
            return _number_changed(rng, row)
        case 5:
            other_row = rng.choice(corpus.rows()).split(" ")
            words[at:] = other_row[rng.randrange(len(other_row)) :]
        case 6:
            words[at:at] = words[: rng.randrange(1, 9)] * rng.choice((1, 2, 30))
        case _:
            words[at] += rng.choice("()[]{}*,;:.-'\"/½")
    return " ".join(words)


def _by_studio(rng: random.Random) -> bytes:
    return _bytes_changed(rng, corpus.studio_text().encode("utf-8"))


def _by_document(rng: random.Random) -> bytes:
    lines = [_row_changed(rng, rng.choice(corpus.rows())) for _ in range(rng.randrange(1, 25))]
    return _bytes_changed(rng, "\n".join(lines).encode("utf-8", "surrogatepass"))


#: how each kind is made, and how many of 100 inputs it is
_KINDS: dict[str, tuple[int, Callable[[random.Random], bytes]]] = {
    "bytes": (20, _by_bytes),
    "lines": (10, _by_lines),
    "keys": (12, _by_keys),
    "structure": (12, _by_structure),
    "number": (1, _by_number),
    "formulas": (12, _by_formulas),
    "rows": (28, _by_rows),
    "studio": (3, _by_studio),
    "document": (2, _by_document),
}
