"""Which rows are the pattern: "2nd and 3rd rows form patt", "These 2 rows form the pattern".

Takes     ``Stream`` where a sentence begins.
Gives     ``pattern_rows``.
Problems  none.
From      common practice of British leaflets: the rows are named once, "work in patt" behind it.
"""

from __future__ import annotations

from workeven.notation.expressions import ignoring_case
from workeven.notation.stream import Stream
from workeven.notation.tokens import NUMBER_WORDS
from workeven.notation.tree import PatternRows

_TH = r"(?:st|nd|rd|th)"
_TO = r" ?(?:to|and|&|-|–|through)(?: the)? ?"
_SAID = (
    r"(?:(?:these|the last|last|previous|the previous|the above|foregoing) (?P<many>\d+|[a-z]+) "
    r"(?:rows|rounds|rnds)|"
    rf"(?:rows|rounds|rnds) (?P<first>\d+){_TO}(?P<last>\d+)|"
    rf"(?:the )?(?P<nth>\d+){_TH}{_TO}(?P<mth>\d+){_TH} (?:rows|rounds|rnds))"
    r"(?: inclusive| incl\.?)? (?:form|make|set|establish|complete)(?: up)? (?:the |one )?"
    r"patt(?:ern)?(?: repeat)?(?: and are (?:repeated|worked) throughout)?(?=\s*(?:[.;,]|\Z))"
)


def pattern_rows(stream: Stream) -> PatternRows | None:
    """Pass what says which rows are the pattern; None, and nothing passed, where nothing does.

    Takes: 2nd and 3rd rows form patt
    Takes: These 2 rows form the pattern
    Refuses: rep 2nd and 3rd rows
    """
    if "patt" not in stream.said:
        return None
    found = ignoring_case(_SAID).match(stream.text, stream.start)
    if found is None:
        return None
    many = found["many"]
    count = None if many is None else NUMBER_WORDS.get(many.lower(), many)
    if count is not None and not str(count).isdigit():
        return None
    stream.pass_to(found.end())
    while stream.accept_any(".", ";", ","):
        pass
    if count is not None:
        return PatternRows(None, int(count))
    first, last = found["first"] or found["nth"], found["last"] or found["mth"]
    return PatternRows(int(first), int(last))
