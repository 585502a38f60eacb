"""How old leaflets spell: "1 d.c. on the next tr.", "2 d c in next s c", "slip-stitch".

Takes     the text of a row.
Gives     ``respelt``: the text of the same length with each abbreviation as it is written today.
Problems  none.
From      common practice of British books of the 19th century and of American ones up to the 1920s.

Every word keeps its column, so that a message points at the words as they stand.
"""

from __future__ import annotations

import re
from functools import partial

from workeven.notation.expressions import ignoring_case
from workeven.notation.vocabulary import Terms

#: "d c", "h. d. c.", "s.c.": one stitch in several letters
_APART = re.compile(
    r"\b(?:(?P<half>[hH])\.? ?|(?P<in_full>[hH]alf )(?=[dD]))?(?P<stitch>[sdSD])(?:\. ?| )[cC]\b"
    r"(?:\.(?=\s*(?:[,;:)(]|[a-z0-9])))?"
)
#: "s.s.", "S. s.": a slip stitch in two letters
_SLIP_APART = r"\bs\. ?s\b(?:\.(?=\s*(?:[,;:)(]|[a-z0-9])))?"
#: "tr c", "d. tr. c.", "d tr": a treble in several letters
_TREBLE_APART = (
    r"\b(?:(?:(?P<double>d)(?:\. ?| )|(?P<half>h)\. ?|(?P<triple>tr\.|trip\.? ))tr\b"
    r"(?:\.? ?c\b)?|tr\.? ?c\b)"
    r"(?:\.(?=\s*(?:[,;:)(]|[a-z0-9])))?"
)
#: what makes a word a stitch: a number or "next" in front of it, a place or the end behind it
_A_STITCH = (
    r"(?P<before>(?:\d+|one|two|three|four|five|each|every|next|the|a|last|first|of)\s+|(?<=, ))"
    r"(?P<stitch>{words})s?\b(?=\s*(?:[,;.):\]]|\Z)|\s+(?:on|in|into|under|upon|between|with|at|"
    r"to|and|all|of|taken|throughout|over|for)\b)"
)
_LONG = _A_STITCH.format(words="long")
_DOUBLE = _A_STITCH.format(words="double")
_SINGLE = _A_STITCH.format(words="single")
_PLAIN_STITCH = _A_STITCH.format(words="plain")
_SHORT = (
    r"tr|dtr|htr|ttr|dc|sc|hdc|ch|chs|st|sts|ss|sl|sp|sps|lp|lps|beg|rep|rnd|rnds|foll|prev|inc|"
    r"dec|"
    r"tog|cl|cls|pop|pc|p|bl|bls|blk|blks|gr|grp|patt|cont|alt|rem"
)
#: words with which a sentence goes on behind an abbreviation
_GOES_ON = (
    r"(?:in|into|on|of|under|to|from|between|missed|more|across|around|along|over|and|with|at|as|"
    r"or|all|left|free|unworked|only|for|apart|together|tog|through|below|above|round)"
)
#: what a text must have for any of this to be asked
_OLD = (
    r"(?:this|so|same|continue|on|again) from \*|cast on|\.\s*[,;:)–—-]|ch\. ?[\d(]|"
    r"\b[sd](?:\. ?| )c\b|tr\.? c\b|\bd\.? tr|\btop (?:st|ch)|-s|"
    r"\bs\. ?s\b|single|double|long|\b(?:start|begin|commenc)|chain|plain|1st|"
    rf"\b(?:{_SHORT})\. {_GOES_ON}\b|ch\.-\d"
)
#: letters without any of which none of that can stand there: asked first, since it costs little
_LETTERS = (
    ".",
    "from *",
    "cast on",
    "top st",
    "top ch",
    "-s",
    "single",
    "double",
    "long",
    "start",
    "begin",
    "commenc",
    "chain",
    "plain",
    "1st",
    "d tr",
    "sl. st",
    " c ",  # "s c in", "d c, ch 2", "tr c)"
    " c,",
    " c;",
    " c:",
    " c)",
    " c]",
)
#: an abbreviation with its full stop, where the sentence goes on
_DOTTED = rf"\b(?P<word>{_SHORT})\.(?=\s*(?:[,;:)(]|(?-i:[a-z])))"
#: a text that writes its abbreviations so
_WRITES_DOTS = (
    rf"\b(?:{_SHORT})\.\s*(?:[,;:)]|"
    rf"{_GOES_ON}\b)|\bch\.\s*\(|\bch\.-\d|\bsl\. st\b"
)
#: "Ch. 3": how many, and no end of a sentence ("in each ch. 3 dc")
_CHAINS = (
    r"(?<!each )(?<!last )(?<!next )(?<!every )(?<!first )(?<!third )(?<!fourth )(?<!\dst )"
    r"(?<!\d[nr]d )(?<!\dth )(?<!\d )(?<!turning )(?<!foundation )\bch\.(?= ?\d)"
    # a sentence of its own that tells the count: "dc in top of beg ch. 33 (37) dc."
    r"(?! ?\d+(?: ?[(\[][\d, ]+[)\]])* (?:sts?|stitches|sc|[hd]?dc|h?tr|dtr)\.?\s*\Z)"
)
#: "ch.-3 sp."
_CHAIN_SPACE = r"\b(?P<ch>chs?)\.(?P<size>-\d+)\b"
#: "1st row.—Turn"
_ROW_DOT = r"\b(?P<row>rows?|rounds?|rnds?)\.(?=\s*[–—-])"
#: words that say how a piece begins, in front of its chain
_BEGINS = (
    r"(?:\A|(?<=\. )|(?<=hook, )|(?<=mm, )|(?<=cotton, )|(?<=yarn, ))(?P<words>"
    r"(?:start|begin|commenc)(?:ing)? (?:at|from) (?:the )?[a-z -]{2,40}?[,;:]"
    r"(?=\s*(?:with |make )?(?:ch\b|chain\b|\d+ ?ch|make\b|(?-i:[A-Z])))|"
    r"(?:start|begin|commenc)(?:e|n?ing)? (?:at|from) (?:the )?[a-z -]{2,30}?(?: with)?"
    r"(?=,? (?:ch(?:ain)? \d|\d+ ch))|"
    r"(?:start|begin|commence) (?:in|at) the (?:centre|center|middle|crown|top|toe|neck|heel|tip|"
    r"wrist|bottom|lower edge|upper edge)(?: of [a-z ]+)? with"
    r"(?= \d+ ch)|"
    r"(?:commence|begin|start) with(?= \d+ ch| ch(?:ain)? \d))"
)
#: "make a chain of 39 stitches": how many, and what says no more
_CHAIN_OF = (
    r"\b(?:cast on with|make|work|with) a chain of (?P<chains>\d+)(?: (?:stitches|sts|chains?|ch))?"
)
#: "Foundation chain: 20 ch"
_FOUNDATION = r"\A(?P<label>foundation|starting|base) ch(?:ain)?(?=:\s)"
#: "do this from *": again
_AGAIN = r"\b(?:do (?:this|so)|(?:do|work) the same|continue|go on)(?: again)? (?=from \*)"
_PLAIN = r"(?<=:)(?P<space>\s*)plain,"
_FIRST = r"\b1st(?=\s+(?:sc|hdc|dc|tr|sts?|stitch|loop|lp|sp|space|shell|cl|cluster|s c|d c)\b)"
#: "top st of starting chain"
_TOP_ST = r"\btop (?:st|stitch|ch|chain)(?= of (?:the )?(?:ch|chain|beg|start|turning|first))"
_HYPHENED = r"\bslip-stitch(?P<more>es)?\b"


def respelt(text: str, terms: Terms = "us") -> str:
    """The text in today's spelling, of the same length.

    In British books of the 19th century a "long" is a treble, a "double" or a "plain" one a double
    crochet and a "single" a slip stitch; in American ones a "single" is a single crochet.

    >>> respelt("1 d.c. on the next tr., 2 ch.; repeat")
    '1 dc   on the next tr , 2 ch ; repeat'
    >>> respelt("1 s c in each of 10 s c")
    '1 sc  in each of 10 sc '
    """
    lower = text.lower()
    text = _in_any_age(text, lower)
    if not any(map(lower.__contains__, _LETTERS)) and not lower.endswith(" c"):
        return text
    if ignoring_case(_OLD).search(text) is None:
        return text
    found = text.replace(".)", " )")
    for words in (_BEGINS, _CHAIN_OF, _FOUNDATION, _PLAIN, _FIRST, _AGAIN):
        found = ignoring_case(words).sub(_in_short, found)
    found = _APART.sub(_together, found)
    if "s." in lower:
        found = ignoring_case(_SLIP_APART).sub(lambda one: "ss".ljust(len(one[0])), found)
    if "tr" in found:
        found = ignoring_case(_TREBLE_APART).sub(_treble, found)
    for word, old, stitch in _STITCHES[terms]:
        if word in found:
            found = ignoring_case(old).sub(partial(_named, stitch), found)
    if "." in found:
        found = ignoring_case(_CHAINS).sub(lambda one: f"{one[0][:-1]} ", found)
        found = ignoring_case(_CHAIN_SPACE).sub(lambda one: f"{one['ch']}{one['size']} ", found)
        found = ignoring_case(_ROW_DOT).sub(lambda one: f"{one['row']} ", found)
    if "." in found and ignoring_case(_WRITES_DOTS).search(found):
        found = ignoring_case(_DOTTED).sub(lambda one: f"{one['word']} ", found)
    if "top " in found or "Top " in found:
        found = ignoring_case(_TOP_ST).sub(lambda one: "top".ljust(len(one[0])), found)
    if "-s" in found:
        found = ignoring_case(_HYPHENED).sub(lambda one: one[0].replace("-", " "), found)
    return found


#: words of the row that are quoted in it: omitting "sk 2 sts"; no inches
_QUOTED = re.compile(
    r"(?<=[\s(])[\"“](?=[a-z*\d(])([^\"“”\s]+\s[^\"“”]{1,80}?)[\"”](?=[\s.,;:)]|\Z)", re.IGNORECASE
)
#: "**Notes**": a head that is set in bold type, as plain text writes it
_EMPHASIS = re.compile(r"\A\*\*(?P<words>[^*]{2,60})\*\*")
#: "1 V-st into sp at centre of each V-st": into the V-st, as far as a row is counted
_MIDDLE_SPACE = (
    r"(?:the )?(?:sp|space|ch-?\d sp|\d-?ch sp) (?:at|in) (?:the )?(?:centre|center|middle) of "
    r"(?:the )?(?=(?:each|next|every|first|last|following|same) [a-z0-9-]*"
    r"(?:shell|fan|v ?-?st|group|cluster))"
)
#: "the 8 free loops along the other edge of the ch"
_FREE_LOOPS = (
    r"\b(?:the )?(?P<number>\d+) free (?:loops?|lps?) (?:along|on|of) (?:the )?"
    r"(?:other|opposite|second) (?:side|edge) of (?:the )?"
    r"(?:(?:foundation|starting|beginning) )?ch(?:ain)?\b"
)
#: "each of the 10 tr left at back of neck": those that an earlier row left
_LEFT_THERE = (
    r"\b(?P<number>\d+) (?P<stitch>sc|[hd]?dc|h?tr|sts?|stitches) "
    r"(?:that (?:are|were) )?(?:left(?: unworked)?|free) (?:at|on) (?:the |this )?"
    r"(?:(?:first|second|other|left|right|back|front|same) )*"
    r"(?:back|front|side|neck|edge|end|instep)(?: of (?:the )?(?:neck|foot|instep|heel|piece))?\b"
)
#: braces that hold steps of a row, where others write square brackets; a formula has no such words
_BRACES = r"\{(?=[^{}=*/+]*\b(?:in|into|next|sk|skip|miss|around) )([^{}]*)\}"
#: "(sc, tr) around — the trebles pop forward — sl st to first sc": a remark between dashes
_BETWEEN_DASHES = r"\s[–—]\s(?:the|this|they|these|it|that|those)\b[^–—()\[\]\d*]*\s[–—](?=\s)"
#: "5 dc tog in next st": so many legs in one place
_CLUSTER = (
    r"\b(?P<legs>\d) ?(?P<stitch>[hd]?dc|h?tr|dtr|sc) (?:worked )?tog(?:ether)?"
    r"(?=,? (?:all )?in(?:to)? (?:the )?(?:same|next|first|last|one|each|corner|center|centre) "
    r"(?!\d|two|three|four|five|six)[a-z])"
)
#: a count by size, parted by colons: "[49: 55: 61 dc]"
_BY_SIZE = re.compile(r"(?<=[\[(])\d+(?:: ?\d+)+(?= [a-z])")
#: what is said of all chains, in brackets at the end of a row: a sentence of its own
_SAID_BESIDE = (
    r"\((?P<kept>(?:the )?(?:ch[ -]?\d|\d[ -]?ch) at (?:the )?(?:beg(?:inning)?|start) of "
    r"(?:each |every |the )?(?:rnd|round|row)s? (?:counts|does not count) as [^()]*throughout)\)"
)
#: written otherwise than it is read, in texts of every age: a count in angles, chains passed over
_ALWAYS = (
    (r"<(?=\d)(?P<kept>[^<>]*)>(?=[\s.]*\Z)", "({})"),
    (r"\b(?:sts|stitches|chs|chains?) passed over\b", "skipped ch"),
    (_SAID_BESIDE, ".{}."),
)
#: without one of these words nothing is written otherwise
_ALWAYS_SAYS = ("<", "passed over", "throughout)")


def _in_any_age(text: str, lower: str) -> str:
    if '"' in text or "“" in text:
        text = _QUOTED.sub(lambda one: f" {one[1]} ", text)
    if text.startswith("**"):
        text = _EMPHASIS.sub(_plainly, text)
    if "carry on" in lower:
        text = ignoring_case(r"\bcarry on\b").sub(lambda one: f"{one[0][0]}ontinue", text)
    if "{" in text:
        text = ignoring_case(_BRACES).sub(lambda one: f"[{one[1]}]", text)
    if "—" in text or "–" in text:
        text = ignoring_case(_BETWEEN_DASHES).sub(lambda one: ",".ljust(len(one[0])), text)
    if " cent" in lower or "middle of" in lower:
        text = ignoring_case(_MIDDLE_SPACE).sub(lambda one: " " * len(one[0]), text)
    if "free loop" in lower:
        text = ignoring_case(_FREE_LOOPS).sub(
            lambda one: f"other side of each of next {one['number']} ch".ljust(len(one[0])), text
        )
    if "left" in lower or "free" in lower:
        text = ignoring_case(_LEFT_THERE).sub(
            lambda one: f"{one['number']} unworked {one['stitch']}".ljust(len(one[0])), text
        )
    if " tog" in lower:
        text = ignoring_case(_CLUSTER).sub(
            lambda one: f"{one['stitch']}{one['legs']}tog".ljust(len(one[0])), text
        )
    return _always(text, lower)


def _always(text: str, lower: str) -> str:
    if ": " in text:
        text = _BY_SIZE.sub(lambda one: one[0].replace(":", ","), text)
    if not any(word in lower for word in _ALWAYS_SAYS):
        return text
    for words, said in _ALWAYS:
        text = ignoring_case(words).sub(partial(_filled, said), text)
    return text


def _plainly(found: re.Match[str]) -> str:
    """A head without its marks of bold type, with the colon that parts it from the rest."""
    words = found["words"].rstrip()
    return f"  {words}{' ' if words.endswith(':') else ':'} ".ljust(len(found[0]))


def _filled(said: str, found: re.Match[str]) -> str:
    """Other words, filled up to the length of what they stand for."""
    return said.format(found.groupdict().get("kept", "")).ljust(len(found[0]))


def _in_short(found: re.Match[str]) -> str:
    """Words that say no more than fewer would, filled up to their length."""
    said = found.groupdict()
    if "chains" in said:
        short = f"ch {said['chains']}"
    elif "label" in said:
        short = str(said["label"])
    elif found[0].lower().startswith(("do ", "work ", "cont", "go ")):
        short = "rep"
    else:
        short = "fst" if found[0] == "1st" else str(said.get("space") or "")
    return short.ljust(len(found[0]))


def _together(found: re.Match[str]) -> str:
    """One word, filled up to the length of what it stands for."""
    half = found["half"] or found["in_full"]
    whole = f"{'hd' if half else found['stitch']}c"
    return whole.ljust(len(found[0]))


def _treble(found: re.Match[str]) -> str:
    named = {"double": "dtr", "half": "htr", "triple": "trtr"}
    treble = next((treble for part, treble in named.items() if found[part]), "tr")
    return treble.ljust(len(found[0]))


def _named(stitch: str, found: re.Match[str]) -> str:
    """The stitch by its short name, behind what stands in front of it."""
    return f"{found['before']}{stitch}".ljust(len(found[0]))


#: a word of old books that the text must have, where it is a stitch, and its short name
_STITCHES: dict[Terms, tuple[tuple[str, str, str], ...]] = {
    "us": (("single", _SINGLE, "sc"), ("double", _DOUBLE, "dc")),
    "uk": (
        ("long", _LONG, "tr"),
        ("double", _DOUBLE, "dc"),
        ("single", _SINGLE, "ss"),
        ("plain", _PLAIN_STITCH, "dc"),
    ),
}
