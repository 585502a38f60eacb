"""What a maker needs: yarns, hooks, notions, how much yarn, and how to care for it.

Takes     ``ReadyPattern``.
Gives     ``MaterialsView``: ``materials``.
Problems  none.
From      design.md, "Numbers a maker can trust"; ``standards/care.csv`` for the order of care.
"""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction

from workeven.arithmetic import printing
from workeven.pattern import Notion, Pattern, Yarn
from workeven.pipeline import ReadyPattern
from workeven.publish.pages import figures, hooks, sizes, yarn_amounts, yarn_sum
from workeven.publish.pages.choices import in_units
from workeven.publish.pages.said_lengths import in_both_systems
from workeven.publish.pages.yarn_amounts import AmountsView
from workeven.publish.pages.yarn_sum import Computed, Partly
from workeven.records import record
from workeven.yarn.longer import Lengths

#: Notions of which there is a length or a mass, and no number.
_BY_LENGTH_OR_WEIGHT = frozenset(
    {"stuffing", "elastic", "ribbon", "lining", "interfacing", "sewing thread", "stiffener", "pins"}
)
_LARGEST_IN_MM = 50


@record
class YarnView:
    """A yarn: its name, what it is, how it is sold."""

    name: str
    facts: tuple[str, ...]


@record
class MaterialsView:
    """The list of materials, the amounts of yarn with their sums, and care by its groups."""

    yarns: tuple[YarnView, ...]
    hooks: tuple[str, ...]
    notions: tuple[str, ...]
    hook_notes: tuple[str, ...]
    amounts: tuple[AmountsView, ...]
    amounts_note: str
    partly: tuple[Partly, ...]
    computed: tuple[Computed, ...]
    care: tuple[tuple[str, str], ...]
    care_note: str


def materials(ready: ReadyPattern, more: Lengths | None = None) -> MaterialsView:
    """All that is bought, and what is to be known of it; ``more`` as of ``yarn_amounts``."""
    pattern = ready.pattern
    return MaterialsView(
        yarns=tuple(_yarn(yarn) for yarn in pattern.yarns),
        hooks=hooks.hooks(pattern),
        notions=tuple(_notion(notion) for notion in pattern.notions),
        hook_notes=hooks.notes(pattern),
        amounts=yarn_amounts.amounts(ready, more),
        amounts_note=yarn_amounts.amounts_note(ready),
        partly=yarn_sum.partly(ready),
        computed=yarn_sum.computed(ready),
        care=tuple(_care(pattern)),
        care_note=in_both_systems(pattern.care.note, len(pattern.sizes)) if pattern.care else "",
    )


def _yarn(yarn: Yarn) -> YarnView:
    metres = printing.print_metres(yarn.put_up.length)
    yards = printing.print_yards(yarn.put_up.length)
    facts = [
        f"{yarn.weight} weight",
        yarn.fibre,
        f"{in_units(metres, yards, 'cm')} in {printing.print_number(yarn.put_up.mass)} g",
    ]
    if yarn.colours:
        facts.append(f"in {figures.listed(tuple(map(yarn.shade, yarn.colours)))}")
    if yarn.held > 1:
        facts.append(f"{yarn.held} strands held together")
    return YarnView(name=sizes.called(yarn), facts=tuple(fact for fact in facts if fact))


def _notion(notion: Notion) -> str:
    """``6 (7) buttons, 15 mm, for the front``: what is bought by length or weight has no number."""
    one = notion.kind
    note = in_both_systems(notion.note or "", len(notion.amount.sizes))
    many = {"hook and eye": "hooks and eyes"}.get(one, one if one.endswith("s") else f"{one}s")
    if one == "other":
        amount = figures.counted(notion.amount, "piece") if max(notion.amount) > 1 else ""
        return figures.heading(note) + (f", {amount}" if amount else "") + _at(notion)
    uncounted = one in _BY_LENGTH_OR_WEIGHT and set(notion.amount) <= {0, 1}
    words = figures.heading(one) if uncounted else figures.counted(notion.amount, one, many)
    size = "" if notion.size is None else f", {_size(notion.size)}"
    return f"{words}{size}{_at(notion)}" + (f" ({note})" if note else "")


def _at(notion: Notion) -> str:
    """Where it goes."""
    if notion.at in (None, "inside", "outside"):
        return f", {notion.at}" if notion.at else ""
    return f", for the {notion.at}"


def _size(mm: Fraction) -> str:
    """Millimetres of what is small, both units of what is longer."""
    if mm <= _LARGEST_IN_MM:
        return f"{printing.decimal(mm, 1)} mm"
    return in_units(printing.print_cm(mm), printing.print_in(mm), "cm")


def _care(pattern: Pattern) -> Iterator[tuple[str, str]]:
    """The treatments by their groups, in the order of the standard."""
    if pattern.care is None or not pattern.care.treatments:
        return
    from workeven.standards.care import GROUPS, care_word

    for group, title in GROUPS.items():
        told = [one for one in pattern.care.treatments if one.group == group]
        words = [found.printed for one in told if (found := care_word(group, one.word))]
        if words:
            yield title, figures.heading("; ".join(words))
