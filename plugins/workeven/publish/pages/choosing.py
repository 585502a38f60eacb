"""What a maker may choose on a page: size, units, terms.

Takes     ``Pattern``.
Gives     ``ChooserView``: ``chooser``; ``meta``, the line in the head that scripts read.
Problems  none.
From      DEVELOPERS.md, "The reader's page".
"""

from __future__ import annotations

import json

from markupsafe import Markup

from workeven.notation.vocabulary import Terms
from workeven.pattern import Pattern
from workeven.publish.pages.both_terms import words
from workeven.records import record


@record
class ChooserView:
    """The names of the sizes, both units as they stand where none is chosen, the own terms."""

    sizes: tuple[str, ...]
    both: str
    terms: Terms


def chooser(pattern: Pattern) -> ChooserView:
    """The controls."""
    both = "cm and inches" if pattern.studio.units == "cm" else "inches and cm"
    return ChooserView(sizes=pattern.sizes.names, both=both, terms=pattern.terms)


def meta(pattern: Pattern, html: str) -> Markup:
    """What may be chosen, for the head of the page, before any script; ``html`` is the page."""
    told: dict[str, object] = {
        "pattern": pattern.slug,
        "version": pattern.version,
        "sizes": pattern.sizes.names,
        "terms": pattern.terms,
        "units": pattern.studio.units,
    }
    if other := words(html, pattern.terms):
        told["words"] = other
    if pattern.formerly:
        told["formerly"] = [name.text for name in pattern.formerly]
    content = json.dumps(told, ensure_ascii=False, separators=(",", ":"))
    return Markup('<meta name="we-pattern" content="{}">\n').format(content)
