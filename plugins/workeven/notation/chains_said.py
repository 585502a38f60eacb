"""What is said once of the chains at the head of rows: "Ch 2 at beg of rnds never counts as a st".

Takes     ``Stream`` where a sentence begins.
Gives     ``chains_said``.
Problems  none.
From      notation.md, "Chains at the start" ("Defaults, which a file may set once").

A sentence of its own, and no part of a row: it says that it holds for all rows, or names no chain
that is made here.
"""

from __future__ import annotations

from workeven.notation.expressions import ignoring_case
from workeven.notation.stream import Stream
from workeven.notation.tree import ONE, Amount, Aside, ChainsSaid, CountsAs, Step

#: words without which nothing is said of what a chain counts as
SAYING = frozenset(
    "count counts counted never is are stand stands takes makes forms neither".split()
)
_ROWS = r"(?:(?:the|each|every|all|any|an?) )*(?:rows?|rnds?|rounds?)"
_A_FIRST = r"(?:the |your )?(?:an?|one|1)? ?(?:first )?"
_SENTENCE = (
    r"(?:(?:note|nb|please note)[: ]+(?:that )?)?"
    rf"(?P<ahead>(?:at|on|in) (?:the )?(?:beg(?:inning)?|start) of {_ROWS},? )?"
    r"(?:(?:the|all|any|each) )*"
    r"(?:(?P<which>beg(?:inning)?|turning|starting) )?"
    r"(?:ch(?:ain)?s?[ -]*(?P<behind>\d)\b|(?P<before>\d)[ -]?ch(?:ain)?s?\b|"
    r"(?<=ing\s)ch(?:ain)?s?\b|ch(?:ain)?s?(?= (?:at|on) (?:the )?(?:beg|start)))"
    rf"(?P<where> to turn| (?:at|on|in) (?:the |each |every )?turn|"
    rf" (?:at|on) (?:the )?(?:beg(?:inning)?|start)"
    rf"(?: (?:of|in) {_ROWS}(?:,? (?:or|and) {_ROWS})?)?)?"
    r"(?:,? which)?(?:(?: (?:is|are) (?P<none>never|not)"
    r"(?: (?:to be )?(?:counted as|regarded as|a|an))* "
    r"(?:st|stitch)(?:es)?)|(?: (?:is|are)(?= never| always))?(?: (?P<ever>never|always))?"
    r"(?: (?P<not>(?:does|do|is|are) not(?: ever)?|doesn.t|don.t|isn.t|aren.t))? "
    rf"(?:count(?:s|ed|ing)?(?: as {_A_FIRST}(?P<as>[a-z]+))?|"
    rf"(?:stands? (?:for|as)|takes? the place of|forms?|makes?|is|are) {_A_FIRST}"
    rf"(?P<for>treble|[hd]?tr|[sh]?dc|sc|st|stitch|d c|s c))"
    rf"(?: of (?:the |a |each )?[a-z ]+?)?)"
    r"(?P<throughout>(?:,? (?:throughout|from here on|"
    r"unless (?:otherwise )?(?:stated|noted|told)(?: otherwise)?|"
    rf"in this pattern|(?:in|of) {_ROWS}(?: (?:or|and) {_ROWS})?))*)"
    r"(?=\s*(?:[.;]|\Z))"
)
#: two chains that count for nothing: "Neither ch 1 nor ch 2 counts as a st"
_TWO = (
    r"(?P<neither>neither )?ch(?:ain)?[ -]?(?P<one>\d) (?:nor|and|or) "
    r"(?:ch(?:ain)?[ -]?)?(?P<two>\d)"
    rf"(?: (?:at|on) (?:the )?(?:beg(?:inning)?|start) of {_ROWS})?"
    r"(?: (?P<not>do not|does not|don.t|never|are not|is not))? count(?:s|ed)?"
    r"(?: as (?:an? |any )?st(?:itch)?(?:es)?)?(?: anywhere| throughout)?"
    r"(?:,? (?:but )?ch(?:ain)?[ -]?(?P<three>\d) does)?(?=\s*(?:[.;]|\Z))"
)
#: the same with any blanks: where an abbreviation had its full stop there are two
_SENTENCE = _SENTENCE.replace(" ?", r"\s*").replace(" ", r"\s+")


def chains_said(stream: Stream) -> tuple[Step, ...] | None:
    """Keep what is said of all chains at the head of rows; None where nothing is.

    Takes: Ch 2 at beg of rnds never counts as a st
    Refuses: Ch 2 counts as a st, sc in next st
    """
    before = stream.tokens[stream.at - 1].word if stream.at else "."
    if before not in (".", ";", ":"):
        return None
    if (two := _two_said(stream)) is not None:
        return two
    found = ignoring_case(_SENTENCE).match(stream.text, stream.start)
    if found is None:
        return None
    digit, denied = (
        found["behind"] or found["before"],
        (found["not"] or found["none"] or found["ever"] == "never"),
    )
    general = (
        found["which"] or found["where"] or found["ahead"] or found["ever"] or found["throughout"]
    )
    if not general and not stream.labelled:
        # a line of notes: a chain that does not count is none even if it is made
        general = denied or not stream.text[found.end() :].strip(" .;")
    start, at = stream.start, stream.at
    stream.pass_to(found.end())
    worked = [one.word for one in stream.tokens[at : stream.at] if one.kind == "stitch"]
    stitch = (found["as"] or found["for"] or "").lower() in ("st", "stitch")
    if not general or not (denied or len(worked) == 1 or stitch):
        stream.at = at
        return None
    as_what = () if denied else ((ONE, worked[0] if worked else "st"),)
    counts = CountsAs(as_what, start=start, end=stream.end, throughout=True)
    chains = None if digit is None else Amount((int(digit),))
    stream.chains_said.append(ChainsSaid(chains, counts))
    return (Aside(start, stream.end),)


def _two_said(stream: Stream) -> tuple[Step, ...] | None:
    """Of two chains in one sentence: that neither counts, and that a third does.

    Takes: Neither ch 1 nor ch 2 counts as a st
    Refuses: Ch 1 and ch 2 count as a st
    """
    found = ignoring_case(_TWO).match(stream.text, stream.start)
    if found is None or (found["neither"] is None) is (found["not"] is None):
        return None
    start = stream.start
    stream.pass_to(found.end())
    for key, what in (("one", ()), ("two", ()), ("three", ((ONE, "st"),))):
        if found[key] is not None:
            counts = CountsAs(what, start=start, end=stream.end, throughout=True)
            stream.chains_said.append(ChainsSaid(Amount((int(found[key]),)), counts))
    return (Aside(start, stream.end),)
