"""One line of text as tokens with their columns.

Takes     the text of a row and the vocabulary.
Gives     ``Token``, ``tokenize``.
Problems  none: a character that belongs to no token becomes one of kind ``odd``.
From      notation.md, "Tolerant reading" follows from here: spelling is folded, the text kept.

Words are folded to one form (``repeat`` to ``rep``, ``skip`` and ``miss`` to ``sk``, plurals to
singulars), so that the grammar reads each idea by one word.
"""

from __future__ import annotations

import re
from collections.abc import Callable
from functools import lru_cache, partial
from itertools import pairwise
from typing import NamedTuple

from workeven.notation.vocabulary import (
    CLOSED_WORDS,
    Terms,
    Vocabulary,
    compound,
    spoken_words,
)

#: spelling to the one form that the grammar knows.
FOLD: dict[str, str] = {
    "repeat": "rep",
    "repeats": "rep",
    "repeating": "rep",
    "reps": "rep",
    "skip": "sk",
    "skipping": "sk",
    "miss": "sk",
    "missing": "sk",
    "skp": "sk",
    "widen": "inc",
    "narrow": "dec",
    "stitch": "st",
    "stitches": "st",
    "sts": "st",
    "space": "sp",
    "spaces": "sp",
    "sps": "sp",
    "loops": "lp",
    "loop": "lp",
    "lps": "lp",
    "arch": "lp",
    "arches": "lp",
    "chain": "ch",
    "chains": "ch",
    "chs": "ch",
    "round": "rnd",
    "rounds": "rnd",
    "rnds": "rnd",
    "rd": "rnd",
    "rds": "rnd",
    "rw": "row",
    "rws": "row",
    "rows": "row",
    "row-end": "rowend",
    "row-ends": "rowend",
    "nxt": "next",
    "following": "next",
    "foll": "next",
    "remaining": "rem",
    "beginning": "beg",
    "begin": "beg",
    "starting": "beg",
    "start": "beg",
    "centre": "center",
    "middle": "center",
    "previous": "prev",
    "into": "in",
    "under": "in",
    "upon": "on",
    "like": "as",
    "fst": "first",
    "gap": "sp",
    "gaps": "sp",
    "bar": "sp",
    "bars": "sp",
    "every": "each",
    "ea": "each",
    "hk": "hook",
    "once": "1x",
    "twice": "2x",
    "thrice": "3x",
    "finishing": "ending",
    "pattern": "patt",
    "patterns": "patt",
    "pat": "patt",
    "increase": "inc",
    "increases": "inc",
    "incs": "inc",
    "increasing": "inc",
    "decrease": "dec",
    "decreases": "dec",
    "decs": "dec",
    "decreasing": "dec",
    "together": "tog",
    "tch": "tch",
    "t-ch": "tch",
    "colours": "colour",
    "color": "colour",
    "colors": "colour",
    "joining": "join",
    "rejoin": "join",
    "attach": "join",
    "unite": "join",
    "united": "join",
    "re-join": "join",
    "rejoining": "join",
    "joined": "join",
    "turning": "turning",
    "groups": "group",
    "grps": "group",
    "grp": "group",
    "shells": "shell",
    "scallops": "scallop",
    "corners": "corner",
    "markers": "marker",
    "evenly": "evenly",
    "continue": "cont",
    "time": "times",
    "ends": "end",
    "sides": "side",
    "pieces": "piece",
    "picots": "picot",
    "petals": "petal",
    "leaves": "leaf",
    "blocks": "block",
    "squares": "square",
    "missed": "skipped",
    "doesn't": "doesnt",
    "don't": "dont",
    "invdec": "dec",
    "through": "thru",
    "meshes": "mesh",
    "circle": "circle",
    "mr": "mr",
    "ch-sp": "sp",
    "ch-sps": "sp",
    "ch-space": "sp",
    "ch-spaces": "sp",
    "ch-lp": "lp",
    "ch-lps": "lp",
    "ch-loop": "lp",
    "ch-loops": "lp",
}

#: words that tell how a thing is done and never what is done: read over.
_MANNER = frozenset("loosely tightly carefully neatly thus inv invisible invisibly firmly".split())

NUMBER_WORDS: dict[str, int] = {
    "one": 1,
    "two": 2,
    "three": 3,
    "four": 4,
    "five": 5,
    "six": 6,
    "seven": 7,
    "eight": 8,
    "nine": 9,
    "ten": 10,
    "eleven": 11,
    "twelve": 12,
    "thirteen": 13,
    "fourteen": 14,
    "fifteen": 15,
    "sixteen": 16,
    "seventeen": 17,
    "eighteen": 18,
    "nineteen": 19,
    "twenty": 20,
}
_TENS = {
    "twenty": 20,
    "thirty": 30,
    "forty": 40,
    "fifty": 50,
    "sixty": 60,
    "seventy": 70,
    "eighty": 80,
    "ninety": 90,
}
NUMBER_WORDS |= _TENS
NUMBER_WORDS |= {
    f"{tens}-{word}": many + NUMBER_WORDS[word]
    for tens, many in _TENS.items()
    for word in "one two three four five six seven eight nine".split()
}
ORDINAL_WORDS: dict[str, int] = {
    "second": 2,
    "third": 3,
    "fourth": 4,
    "fifth": 5,
    "sixth": 6,
    "seventh": 7,
    "eighth": 8,
    "ninth": 9,
    "tenth": 10,
}


class Token(NamedTuple):
    """One token and where it stands.

    It is a named tuple, since some thirty are made a row.
    Its ``kind`` is ``num`` (``value`` the number), ``ord`` (``4th``: 4), ``stitch`` (``word`` its
    US name), ``chn`` (``ch-2``: 2), ``grp`` (``3-dc``: 3, ``word`` the stitch), ``formula``
    (``word`` the text in the braces), ``word`` (folded), ``mark`` (punctuation), ``odd``, ``end``.
    """

    kind: str
    word: str
    value: int
    start: int
    end: int
    plural: bool = False


#: the first choices are what most tokens are: a whole word of letters, a mark, with which nothing
#: else begins; what looks like a word and is none (``x 6``, ``ch2``) is left to the others
_TOKEN = re.compile(
    r"""
    \s*(?:
    (?P<letters>(?!x\b)[^\W\d_]+(?=[\s.,;:)\]]|\Z))
  | (?P<stop>\*\*)
  | (?P<mark>[-–—−→⇒➔]+|[*†,;:.()\[\]=+/&|])
  | (?P<counted>\{\s*(?:\d+|[-–—−]+)\s*(?=[(a-z])[^{}]*\})
  | (?P<formula>\{[^{}]*\})
  | (?P<slashed>[rw]/s\b|f/o\b|w/o\b|w/)
  | (?P<ordinal>\d+(?:st|nd|rd|th|(?<=[23])d)\b)
  | (?P<rate>[x×]\s?\d+\b|\d+\s?[x×](?![a-z]|-[a-z]))
  | (?P<chn>(?:ch(?:ain)?s?-?\d+|\d+-?ch(?:ain)?)-?
      (?=[\s-]*(?:corner[\s-]+)?(?:sps?|spaces?|lps?|loops?|arch(?:es)?)\b)
      |ch(?:ain)?-\d+
      |\d\sch\b(?<=under\s\d\sch)(?!\s{1,2}(?:sp|space|lp|loop|arch))
      |\d\sch(?=\s{1,2}(?:sp|space|lp|loop|arch)\b)
      (?:(?<=\bin\s\d\sch)|(?<=\b(?:next|same|into|over|last)\s\d\sch)|(?<=first\s\d\sch))
      (?<!each\sof\snext\s\d\sch)(?<!of\sthe\snext\s\d\sch))
  | (?P<grp>\d+-[a-z]+(?:\d+tog)?\b)
  | (?P<num>\d+)
  | (?P<word>[^\W\d_]+(?:[-'’][^\W\d_]+)*(?:\d+tog)?(?:\d+(?=\s|\Z|[.,;:)\]]))?)
  | (?P<odd>\S)
    )
    """,
    re.VERBOSE | re.IGNORECASE,
)

#: makes a token of all its fields: twice as fast as ``Token(...)``, and every row has some thirty
_token = tuple.__new__

_DASHES = str.maketrans("–—−→⇒➔", "------")


def tokenize(text: str, vocabulary: Vocabulary) -> tuple[Token, ...]:
    """The tokens of one line, ending with one of kind ``end``."""
    one, others = _reader(vocabulary.terms, vocabulary.special)
    next_piece = _TOKEN.match
    tokens: list[Token] = []
    closed = False
    found = next_piece(text)
    while found is not None and (group := found.lastgroup) is not None:
        piece, end = found[group], found.end()
        token = one(group, piece)
        if token is not None:
            kind, word, value, _, _, plural = token
            tokens.append(_token(Token, (kind, word, value, end - len(piece), end, plural)))
        else:
            more, end = others(group, piece, text, end - len(piece))
            tokens += more
            closed = closed or any(token.word in _SEVERAL_LEGS for token in more)
        found = next_piece(text, end)
    tokens.append(Token("end", "", 0, len(text), len(text)))
    if vocabulary.special and any(name.lower() == "corner" for name in vocabulary.special):
        tokens = _of_the_corner(tokens)
    return tuple(_with_legs(tokens, text) if closed and _LEGS.search(text) else tokens)


def _of_the_corner(tokens: list[Token]) -> list[Token]:
    """Where a group is called "corner", "corner ch-2 sp" is still a space, and no such group."""
    found = tokens[:]
    for at, (token, behind) in enumerate(pairwise(tokens)):
        named = token.kind == "stitch" and token.word.lower() == "corner"
        if named and (behind.kind == "chn" or behind.word in ("sp", "lp", "st")):
            found[at] = token._replace(kind="word", word="corner")
    return found


#: a closed stitch with what it is made of: "3-dc cl", "4 dc cluster", "dc3tog cl"
_LEGS = re.compile(
    r"[a-z]\d?(?:tog)?\s+(?:cl|clusters?|pc|popcorns?|bob|bobbles?|puffs?)\b", re.IGNORECASE
)
#: closed stitches that have several legs
_SEVERAL_LEGS = frozenset(("cl", "pc", "bobble", "puff"))


def _with_legs(tokens: list[Token], text: str) -> list[Token]:
    """``3-dc cl``, ``4 dc cl`` and ``dc3tog cl`` are one word each: a cluster, of so many legs."""
    found: list[Token] = []
    for token in tokens:
        closed = token.kind == "stitch" and token.word in _SEVERAL_LEGS
        start = _legs_before(found, token, text) if closed else None
        while start is not None and found and found[-1].start >= start:
            found.pop()
        found.append(token if start is None else token._replace(start=start))
    return found


def _legs_before(found: list[Token], token: Token, text: str) -> int | None:
    """Where the legs of a closed stitch begin that stand before it, or None."""
    before = found[-1] if found else None
    if before is None or text[before.end : token.start].strip():
        return None
    if before.kind == "grp" or (before.kind == "stitch" and before.word.endswith("tog")):
        return before.start
    number = found[-2] if len(found) > 1 else None
    basic = before.kind == "stitch" and before.word not in _SEVERAL_LEGS
    if basic and number is not None and number.kind == "num":
        return number.start if not text[number.end : before.start].strip() else None
    return None


#: gives the token that a piece of text is, whatever stands beside it; None where that may count
One = Callable[[str, str], Token | None]
#: gives the tokens that begin with any other piece at a column, and where they end
Others = Callable[[str, str, str, int], tuple[list[Token], int]]


@lru_cache(maxsize=64)
def _reader(terms: Terms, special: tuple[str, ...]) -> tuple[One, Others]:
    """What reads pieces of text, each once; the columns of ``One`` count from the piece."""
    vocabulary = Vocabulary(terms, special)
    pattern, names = _spoken(vocabulary)
    read = lru_cache(maxsize=4096)(partial(_read, vocabulary=vocabulary))

    @lru_cache(maxsize=4096)
    def one(group: str, piece: str) -> Token | None:
        tokens = read(group, piece)
        if len(tokens) != 1 or tokens[0].word in _SEVERAL_LEGS or _may_begin(piece.lower(), names):
            return None
        return tokens[0]

    def others(group: str, piece: str, text: str, start: int) -> tuple[list[Token], int]:
        spoken = pattern.match(text, start)
        if spoken is not None:
            return [_spoken_token(spoken, names)], spoken.end()
        tokens = [
            token._replace(start=start + token.start, end=start + token.end)
            for token in read(group, piece)
        ]
        return tokens, start + len(piece)

    return one, others


def _read(group: str, text: str, vocabulary: Vocabulary) -> tuple[Token, ...]:
    end = len(text)
    match group:
        case "formula":
            return (Token("formula", text[1:-1], 0, 0, end),)
        case "counted":
            return _read_counted(text, vocabulary)
        case "slashed":
            return (Token("word", _SLASHED[text.lower()], 0, 0, end),)
        case "ordinal":
            return (Token("ord", text, _number(re.sub(r"\D", "", text)), 0, end),)
        case "rate":
            return (Token("rate", text, _number(re.sub(r"\D", "", text)), 0, end),)
        case "chn":
            return (Token("chn", "ch", _number(re.sub(r"\D", "", text)), 0, end),)
        case "grp":
            return _read_group(text, vocabulary)
        case "num":
            return (Token("num", text, _number(text), 0, end),)
        case "letters" | "word":
            return _read_word(text, 0, end, vocabulary)
        case "stop":
            return (Token("mark", "**", 0, 0, end),)
        case "mark":
            dashed = text.translate(_DASHES)
            return (Token("mark", "-" if dashed[0] == "-" else dashed, 0, 0, end),)
        case _:
            return (Token("odd", text, 0, 0, end),)


#: words that are shortened with a stroke
_SLASHED = {"w/": "with", "w/o": "without", "f/o": "fo", "r/s": "rs", "w/s": "ws"}


def _read_counted(text: str, vocabulary: Vocabulary) -> tuple[Token, ...]:
    """``{80 (84, 88) sc}``: a count in braces, which are brackets then and hold no formula."""
    inside = tokenize(text[1:-1], vocabulary)[:-1]
    end = len(text)
    return (
        Token("mark", "(", 0, 0, 1),
        *(token._replace(start=token.start + 1, end=token.end + 1) for token in inside),
        Token("mark", ")", 0, end - 1, end),
    )


#: numbers with more digits than this are too large for any row, and too long to be read
_DIGITS = 12


def _number(text: str) -> int:
    """The number that digits stand for; a very long one as the largest that is read."""
    return int(text) if len(text) <= _DIGITS else 10**_DIGITS


def _read_group(text: str, vocabulary: Vocabulary) -> tuple[Token, ...]:
    digits, word = text.split("-", 1)
    kind = compound(word.lower(), vocabulary.terms)
    if kind is not None:
        return (Token("grp", kind.name, _number(digits), 0, len(text)),)
    return (
        Token("num", digits, _number(digits), 0, len(digits)),
        *_read_word(word, len(digits) + 1, len(text), vocabulary),
    )


_TRAILING_NUMBER = re.compile(r"(?P<word>[^\W\d_]+)(?P<digits>\d+)\Z")


def _read_word(text: str, start: int, end: int, vocabulary: Vocabulary) -> tuple[Token, ...]:
    word = text.lower().replace("’", "'")
    plural = word.endswith("s") and word not in ("s", "ss")
    stitch = _stitch_name(word, vocabulary)
    if stitch is None and plural:
        stitch = _stitch_name(word[:-1], vocabulary)
    if stitch is not None:
        return (Token("stitch", stitch, 0, start, end, plural and stitch != word),)
    trailing = _TRAILING_NUMBER.match(word)
    if trailing is not None:
        middle = start + len(trailing["word"])
        number = trailing["digits"]
        return (
            *_read_word(trailing["word"], start, middle, vocabulary),
            Token("num", number, _number(number), middle, end),
        )
    if word in NUMBER_WORDS:
        return (Token("num", word, NUMBER_WORDS[word], start, end),)
    if word in ORDINAL_WORDS:
        return (Token("ord", word, ORDINAL_WORDS[word], start, end),)
    folded = FOLD.get(word, word)
    if folded in _MANNER:
        return ()
    return (Token("word", folded, 0, start, end, plural),)


#: words for a loop, which some list among their stitches
_LOOP_WORDS = ("blo", "flo", "tbl", "tfl")


def _stitch_name(word: str, vocabulary: Vocabulary) -> str | None:
    spaced = f"beg {word[4:]}" if word.startswith("beg-") else word  # "beg-cl" is "beg cl"
    for special in vocabulary.special:
        if special.lower() in _LOOP_WORDS:
            continue  # "BLO = back loop only" is explained, and is no stitch
        if special.lower() in (word, spaced):
            known = compound(word, vocabulary.terms)
            founded = known is not None and known.foundation  # "Fdc", in whatever words
            return known.name if known is not None and founded else special
    if word in CLOSED_WORDS:
        return CLOSED_WORDS[word]
    kind = compound(word.replace("-", ""), vocabulary.terms) if "tog" not in word else None
    kind = kind or compound(word, vocabulary.terms)
    return spoken_words(vocabulary.terms).get(word) if kind is None else kind.name


def _spoken(vocabulary: Vocabulary) -> tuple[re.Pattern[str], dict[str, str]]:
    """A pattern for stitch names of several words, longest first, and the name of each."""
    names: dict[str, str] = {
        words: name for words, name in spoken_words(vocabulary.terms).items() if not words.isalpha()
    }
    names |= {words: name for words, name in CLOSED_WORDS.items() if not words.isalpha()}
    own = [name for name in vocabulary.special if not name.isalpha()]
    # "5 l.tr. in next", "3 dc, p., 3 dc": such a stop may be read as the end of an abbreviation
    short = {name.lower()[:-1]: name for name in own if name.endswith(".")}
    names |= {word: name for word, name in short.items() if "." in word or word == "p"}
    names |= {name.lower(): name for name in own}
    ordered = sorted(names, key=len, reverse=True)
    choices = "|".join(re.escape(words).replace(r"\ ", r"\s+") for words in ordered)
    pattern = re.compile(
        rf"(?<![\w-])(?P<words>{choices})(?P<s>e?s)?(?P<tog>\s*[1-9]\d*\s*tog(?:ether)?)?(?![\w-])",
        re.IGNORECASE,
    )
    return pattern, names


def _may_begin(piece: str, names: dict[str, str]) -> bool:
    """Whether one of the names begins with a piece of text, or the piece with a name."""
    return any(name.startswith(piece) or piece.startswith(name) for name in names)


def _spoken_token(found: re.Match[str], names: dict[str, str]) -> Token:
    name = names[re.sub(r"\s+", " ", found["words"].lower())]
    if found["tog"]:
        name = f"{name}{re.sub(r'[^0-9]', '', found['tog'])}tog"
    return Token("stitch", name, 0, found.start(), found.end(), bool(found["s"]))
