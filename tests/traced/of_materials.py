"""The figures of hooks, notions, care and cautions, by the published tables."""

from __future__ import annotations

import re
from fractions import Fraction

from tests.traced.asked import Asked, in_both
from tests.traced.tables import table
from tests.traced.told import Told, by_size, cm, decimal, figures, inches, joined, same


def hooks(of: Asked) -> list[Fraction]:
    """Every hook of a pattern, the smallest first."""
    pattern = of.ready.pattern
    every = [*(one.hook for one in pattern.gauges), *pattern.hooks]
    return sorted({one.mm for one in every if one is not None})


def us(mm: Fraction) -> str:
    """What US makers call it."""
    return _named(mm, "us")


def _named(mm: Fraction, column: str) -> str:
    """What the published table calls a hook: the first name that was found in a source."""
    rows = table("hooks.csv")
    found = [one for one in rows if Fraction(one["mm"]) == mm and one["status"] == "found"]
    return next((one[column] for one in found if one[column]), "")


def hook(of: Asked, mm: Fraction, text: str) -> str:
    """A hook by all its names."""
    assert mm in hooks(of)
    names = " ".join(_named(mm, one) for one in ("us", "uk_old", "japan"))
    uses = text.partition(" for ")[2]
    return f"{decimal(mm, 3)} {names} {uses}"


def doubt(words: str) -> str:
    """``US 7 is 4.5 mm, and in steel 1.65 mm``: each size is called so in a published table."""
    found = re.fullmatch(r"(?:US|old UK|Japan) (\S+) is (.*)", words)
    assert found is not None
    sizes = {decimal(Fraction(one["mm"]), 3) for one in table("hooks.csv") if _part(one, found[1])}
    sizes |= {
        decimal(Fraction(one["mm"]), 3)
        for one in table("hooks_steel.csv")
        if one["mm"] and one["size"] == found[1]
    }
    assert set(figures(found[2])) <= sizes
    return words


def _part(row: dict[str, str], name: str) -> bool:
    names = f"{row['us']} {row['uk_old']} {row['japan']}"
    return set(re.findall(r"[A-Z]+|[\d.]+", name)) <= set(re.findall(r"[A-Z]+|[\d.]+", names))


def notion(of: Asked, at: int) -> Told:
    """So many of it, how large, and what the designer says of it."""
    one = of.ready.pattern.notions[at]
    uncounted = "stuffing elastic ribbon lining interfacing pins stiffener"
    plain = one.kind in uncounted or one.kind == "sewing thread"
    parts = [] if plain and max(one.amount) <= 1 else [by_size([str(n) for n in one.amount])]
    if one.size is not None:
        size = decimal(one.size, 1) if one.size <= 50 else f"{cm(one.size)} {inches(one.size)}"
        parts.append(same(size, of.sizes))
    return joined([*parts, same(in_both(one.note or ""), of.sizes)], of.sizes)


def care(of: Asked, words: str) -> str:
    """The words that the published table has for the treatments, or the designer's note."""
    care = of.ready.pattern.care
    assert care is not None
    if care.note and figures(words) == figures(in_both(care.note)):
        return words
    own = {(one.group, one.word) for one in care.treatments}
    printed = [one["printed"] for one in table("care.csv") if (one["group"], one["word"]) in own]
    parts = words.casefold().split("; ")
    assert set(parts) <= {one.casefold() for one in printed}
    return words


def rule(words: str, text: str) -> str:
    """A rule of the published table, its ages and numbers, and the hosts that it is from."""
    for row in table("safety.csv"):
        if row["rule"].casefold() in words.casefold():
            hosts = re.findall(r"https?://(?:www\.)?([^/\s;,()]+)", row["citation"])
            ages = "" if row["region"] == "general" else f"{row['region']} {row['ages']}"
            numbers = row["numbers"] if row["status"] != "memory" else ""
            return " ".join([ages, row["rule"], numbers, *dict.fromkeys(hosts)])
    raise AssertionError(f"no published rule says {text}")


def known_caution(of: Asked, text: str) -> bool:
    """Whether the stage of safety said it."""
    cautions = of.ready.cautions
    known = [f"{one.topic}. {one.words}" for one in cautions.cautions]
    return text in (*known, cautions.closing) or text.startswith("Cautions: ")
