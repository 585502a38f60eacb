"""Small phrases that every report shares: names of sizes, numbers by size, kinds with numbers.

Takes     names of sizes, counts.
Gives     ``sizes_named``, ``by_size``, ``kinds``, ``harmless``.
Problems  none.
From      notation.md: ``60 (66, 72)``; "S, M and 2X come out".
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence

from workeven.problems.words import joined


def sizes_named(names: Sequence[str]) -> str:
    """Sizes with the word before them, or nothing when the sizes have no names.

    >>> sizes_named(("L", "XL"))
    'sizes L and XL'
    >>> sizes_named(("",))
    ''
    """
    named = tuple(name for name in names if name)
    if not named:
        return ""
    return f"size{'s' if len(named) > 1 else ''} {joined(named)}"


def by_size(values: Sequence[int | None]) -> str:
    """A number for each size in the trade's way: the first, then the others in brackets.

    >>> by_size((60, 66, None))
    '60 (66, -)'
    >>> by_size((60, 60, 60))
    '60'
    """
    words = ["-" if value is None else str(value) for value in values]
    if len(set(words)) == 1:
        return words[0]
    return f"{words[0]} ({', '.join(words[1:])})"


def kinds(per_size: Sequence[tuple[tuple[str, int], ...] | None]) -> str:
    """What a row makes, kind by kind, each with its number by size.

    A size that makes none of a kind has 0; one that does not work the row has a dash.

    >>> kinds(((("sc", 40), ("sc2tog", 10)), (("sc", 44), ("sc2tog", 11))))
    '40 (44) sc, 10 (11) sc2tog'
    """
    counts = [None if made is None else dict(made) for made in per_size]
    names = dict.fromkeys(name for made in per_size for name, _ in made or ())
    phrases = []
    for name in names:
        numbers = [None if made is None else made.get(name, 0) for made in counts]
        phrases.append(f"{by_size(numbers)} {_plural(name, numbers)}")
    return ", ".join(phrases)


def harmless(line: str) -> str:
    """A line that the log of a host of checks takes for text and never for a command to itself.

    Such a command begins a line with two colons, or stands anywhere behind ``##[``.

    >>> harmless("    ::error::gone"), harmless("sc 3 ##[error]")
    ('    <U+003A>:error::gone', 'sc 3 ##<U+005B>error]')
    >>> harmless("patterns/mat/pattern.yaml:3:1: row-uneven: Mat")
    'patterns/mat/pattern.yaml:3:1: row-uneven: Mat'
    """
    words = line.lstrip()
    if words.startswith("::"):
        line = f"{line[: len(line) - len(words)]}<U+003A>{words[1:]}"
    return line.replace("##[", "##<U+005B>")


def _plural(name: str, numbers: Iterable[int | None]) -> str:
    """Spaces take an s ("4 ch-2 sps"); abbreviations of stitches do not."""
    if name.endswith("sp") and any(number not in {None, 1} for number in numbers):
        return f"{name}s"
    return name
