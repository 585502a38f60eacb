"""What a maker may choose on a page: size, units, terms.

Takes     ``Pattern``.
Gives     ``ChooserView``: ``chooser``; ``meta``, the line in the head that scripts read.
Problems  none.
From      DEVELOPERS.md, "The reader's page".
"""

from __future__ import annotations

import json

from markupsafe import Markup

from workeven.pattern import Pattern
from workeven.records import record


@record
class ChooserView:
    """The names of the sizes, and both units as they stand where none is chosen."""

    sizes: tuple[str, ...]
    both: str


def chooser(pattern: Pattern) -> ChooserView:
    """The controls."""
    both = "cm and inches" if pattern.studio.units == "cm" else "inches and cm"
    return ChooserView(sizes=pattern.sizes.names, both=both)


def meta(pattern: Pattern) -> Markup:
    """What may be chosen, for the head of the page, before any script."""
    told: dict[str, object] = {
        "pattern": pattern.slug,
        "version": pattern.version,
        "sizes": pattern.sizes.names,
        "terms": pattern.terms,
        "units": pattern.studio.units,
    }
    if pattern.formerly:
        told["formerly"] = [name.text for name in pattern.formerly]
    words = json.dumps(told, ensure_ascii=False, separators=(",", ":"))
    return Markup('<meta name="we-pattern" content="{}">\n').format(words)
