"""Prose among the rows: sentences of which no word speaks of a stitch, a chain or a row to work.

Takes     the text of a line that no label begins, and where it was not understood.
Gives     ``prose_at``, ``describes``, ``speaks_of_things``, ``made_again``,
          ``without_note_label``, ``blanked``.
Problems  none: the parser tells what it has passed (``row-note``).
From      common practice: texts open with materials, sizes and remarks, and close with thanks.

A sentence is only prose if it has none of the words with which rows are told: a row that is
misspelt has one of them nearly always, and what is passed is told.
"""

from __future__ import annotations

import re

from workeven.notation.expressions import ignoring_case
from workeven.notation.telling import offers_a_choice, tells, tells_aside
from workeven.notation.tokens import tokenize
from workeven.notation.vocabulary import Vocabulary

#: where a sentence ends
_END = re.compile(r"[.;!?](?=\s|\Z)|\s[–—-]\s")
#: words with which rows are told: none of them stands in prose
_WORKING = frozenset(
    "ch sk rep inc dec turn join st sp lp cont till until again more times around across next same "
    "foundation ring group shell even rnd leave leaving left unworked instead sl pass insert draw "
    "pull yo hook hooks add omit end ending before after above dec increase decrease shape shaping "
    "mark marker evenly together tog slip".split()
)
#: "in each one", "in the first", "to end": the places of a row
_PLACE = (
    r"\b(?:in|into|to|of|over|from)(?: the)? (?:each|every|all|first|last|end|it|one|both|row)\b|"
    r"\b(?:rows?|rounds?|rnds?)\.? ?\d|\d+ (?:rows?|rounds?|rnds?|r)\b|[*\[\]{}]"
)
#: kinds of tokens that are worked, or of which the number of stitches is made
_WORKED = ("stitch", "grp", "chn", "formula", "rate", "ord")
#: signs that sentences have and rows have not
_WRITTEN = frozenset("!?'\"’“”…°%½¼¾")
_FEWEST_WORDS = 2
#: how often rows are worked
_OFTEN = r"\b(?:twice|thrice|again|times|likewise)\b"
#: what stands in front of such sentences
_LABEL = (
    r"\s*(?:(?:general |pattern |special |designer.s )?notes?|(?:friendly |quick |gentle )?"
    r"(?:reminder|tip|heads up|nb)|please note|turning ch(?:ain)?|materials?|yarns?|colou?rs?|"
    r"gauge|"
    r"tension(?: on [^:]{1,30})?|(?:special |pattern )?stitch(?:es)?(?: used| guide| key)?|"
    r"(?:stitch |pattern )?multiple(?:,[^:]{0,40})?|(?:colou?r|stripe) (?:order|sequence|pattern|"
    r"changes)"
    r"(?: from here)?|(?:finished )?(?:sizes?|measurements?)|hook|notions|"
    r"abbreviations|terms|skill level|level|you will need|finishing|making up)\s*(?::|[–—-]\s)|"
    r"\s*abbreviations?\s*[.:–—-]+\s*(?:[a-z][a-z. ]{0,10},\s*[a-z][a-z -]*[;.]\s*)+"
)
#: behind these nothing is worked, whatever is named
_OF_THINGS = (
    r"\s*(?:materials?|notions|hook|skill level|you will need|(?:stitch |"
    r"pattern )?multiple(?:,[^:]{0,40})?|"
    r"(?:colou?r|stripe) (?:order|sequence|pattern|changes)(?: from here)?|finished (?:sizes?|"
    r"measurements?))"
    r"\s*(?::|[–—-]\s)"
)


def _says(pattern: str, sentence: str) -> bool:
    """Whether an expression is found anywhere in a sentence."""
    return ignoring_case(pattern).search(sentence) is not None


def _begins(pattern: str, sentence: str) -> bool:
    """Whether a sentence begins with what an expression says."""
    return ignoring_case(pattern).match(sentence) is not None


def without_note_label(text: str) -> str | None:
    """The text with "Notes:", "Materials:" at its head blanked; None where no such word stands.

    >>> without_note_label("Colours: A, cream; B, sea green")
    '         A, cream; B, sea green'
    """
    found = ignoring_case(_LABEL).match(text)
    return None if found is None else blanked(text, 0, found.end())


def speaks_of_things(text: str) -> bool:
    """Whether a line begins with "Materials:", "Hook:": nothing is worked in it, whatever it names.

    >>> speaks_of_things("Hook: 4 mm"), speaks_of_things("Hook in next st, yo")
    (True, False)
    """
    return _begins(_OF_THINGS, text)


def blanked(text: str, start: int, end: int) -> str:
    """The text with blanks between two columns: what is left keeps its columns."""
    return f"{text[:start]}{' ' * (end - start)}{text[end:]}"


def prose_at(
    text: str,
    column: int,
    vocabulary: Vocabulary,
    *,
    opening: bool = False,
    labelled: bool = False,
) -> tuple[int, int] | None:
    """The columns of the sentence at a column, with the mark that ends it, if it is prose.

    ``opening``: it stands before the first row, and can shape none that was worked. ``labelled``:
    it stands within a row, behind what is worked, and may speak of no part of it.

    >>> prose_at("One size. Rep Row 2.", 0, Vocabulary())
    (0, 9)
    >>> prose_at("One size. Rep Row 2.", 12, Vocabulary()) is None
    True
    """
    if labelled and text[column : column + 1] in ("–", "—"):  # "… across – this is the tricky bit"
        return (column, len(text)) if tells_aside(text[column + 1 :].strip()) else None
    start = end = 0
    while True:
        found = _END.search(text, end)
        start, end = end, len(text) if found is None else found.end()
        if column < end or found is None:
            break
    if (choice := _choice_at(text, start, column)) is not None:
        return choice
    if labelled:  # "(30) Slip it over your toes": behind the count
        start = max(start, text.rfind(")", start, column) + 1, text.rfind("]", start, column) + 1)
    start += len(text[start:end]) - len(text[start:end].lstrip())
    sentence = text[start:end]
    if labelled:
        behind = text[:start].rstrip()[-1:] in tuple(".!?)]")
        told = _within(sentence, vocabulary) or tells(sentence, vocabulary)
        fits = behind and sentence[:1].isupper() and told
        return (start, end) if fits else None
    goes_on = text[:start].rstrip().endswith((";", ":")) or (start and not text[:start].strip())
    begins = goes_on or sentence[:1].isupper() or sentence[:1].isdigit()
    prose = begins and (_is_prose(sentence, vocabulary) or (opening and _opens(sentence)))
    prose = prose or tells(sentence, vocabulary) or _is_called(sentence, vocabulary)
    return (start, end) if prose else None


#: where a choice ends that is left to the maker: the sentence behind its question belongs to it
_END_OF_CHOICE = re.compile(r"[.!](?=\s|\Z)")


def _choice_at(text: str, start: int, column: int) -> tuple[int, int] | None:
    """The columns of what may be done besides, where the sentence at a column is of it."""
    before = max(text.rfind(". ", 0, start + 1), text.rfind("! ", 0, start + 1)) + 1
    begins = before + len(text[before:]) - len(text[before:].lstrip())
    found = _END_OF_CHOICE.search(text, begins)
    end = len(text) if found is None else found.end()
    fits = begins <= column < end and text[begins : begins + 1].isupper()
    return (begins, end) if fits and offers_a_choice(text[begins:end]) else None


def _is_called(sentence: str, vocabulary: Vocabulary) -> bool:
    """Whether one word is called out, or asked ("Halfway!", "Ready?"), as no row is."""
    tokens = tokenize(sentence, vocabulary)[:-1]
    word = tokens[0] if len(tokens) == len("w!") else None
    called = sentence.rstrip()[-1:] in ("!", "?")
    return called and word is not None and word.kind == "word" and word.word not in _WORKING


def _is_prose(sentence: str, vocabulary: Vocabulary) -> bool:
    if _says(_OF_CHAINS, sentence) and _says(_OF_COUNTS, sentence):
        return False  # what a chain counts as decides every row that begins with one
    if describes(sentence) or _mentions(sentence):
        return True
    if _says(_PLACE, sentence) or _says(_OFTEN, sentence):
        return False
    tokens = tokenize(sentence, vocabulary)
    words = [token for token in tokens if token.kind in ("word", "num")]
    return len(words) >= _FEWEST_WORDS and not any(
        token.kind in _WORKED
        or token.word in _WORKING
        or (token.kind == "odd" and token.word not in _WRITTEN)
        for token in tokens
    )


#: words that begin a description, and never a row
_SUBJECT = (
    r"(?:the|an? (?=[a-z]{3})|each|every|all|both|these|this|those|there|it|they|you|no|any|"
    r"several|some|most|loops|rounds|rows|rnds|chains|stitches|sts|sl sts|slip stitches|s\.s\.|"
    r"in [a-z]+ (?:rows|rounds|rnds))"
)
#: verbs that say how something is, and are no instruction
_VERB = (
    r"(?:is|are|was|were|will|runs?|goes|go|begins?|starts?|lies?|has|have|brings?|makes?|means?|"
    r"gives?|ends?|stands?|fits?|holds?|takes?|forms?|shows?|looks?|counts?|gets?|keeps?|does|do|"
    r"should|needs?|worked|made|begun|crocheted)"
)
#: words that begin what is done to a finished piece, or how it is made, written or measured
_ABOUT = (
    r"(?:worked|made|begun|crocheted|designed|sized|shown|written|to (?:fit|hide|keep|avoid|suit)|"
    r"sizes? (?:about|approx\w*|is|\d)|(?:uk|us|british|american) (?:crochet )?terms|"
    r"filet crochet|both alike|(?:pattern )?multiple (?:of|is)|multiple:|"
    r"add (?:an?|the|some)|back (?:the|it)|fringe (?:the|each|both)|run (?:an?|the)|"
    r"bring (?:an?|the)|rotate (?:the|your) (?!work\b)|turn so that|line (?:the|it)|"
    r"lace (?:an?|the)|"
    r"crochet an? (?:chain|cord|loop|tie)|work with an? [a-z ]*hook|"
    r"work (?:the |a )?(?:left|right|second|other) [a-z ]+ to match|"
    r"work (?:the )?[a-z ]+ (?:along|on|at) [a-z ]+ to match|"
    r"join (?:the )?(?:squares|motifs|blocks|hexagons|strips|panels)|"
    r"work (?:the )?same [a-z ]+ (?:on|along|at) (?:the )?(?:other|second) (?:side|edge|end)|"
    r"(?:do not|don.t|never) (?:count|work into|crochet|pull|stretch|press|iron)|"
    r"(?:remember|take care|make sure|be sure|try|see|refer)\b)"
)
_DESCRIBES = (
    rf"(?:note:? )?(?:{_SUBJECT}\b[^.;,:()]{{0,90}}?\b{_VERB}\b|an? (?=[a-z]{{3}})|{_ABOUT}\b)"
)
_STITCH = (
    r"(?:(?:fp|bp)?(?:sc|hdc|dc|htr|tr|dtr|trtr)|s\.? ?c|[hd]\.? ?c|d\.? ?tr|sl\.? ?st|ss|inc|dec|"
    r"shells?|cl|clusters?|picots?|bobbles?|popcorns?|pc)"
)
#: what is worked, wherever it stands in a sentence
_CORE = (
    r"\*|\brep(?:eat)?\b|\b(?:next|following|another|more|further|even|straight|plain|until|till|"
    r"remaining|(?<!work the )same|like|again|times|twice|onwards?)\b|\bfrom here\b|\bfor \d|"
    r"\b\d+ (?:rows?|rnds?|rounds?)\b|\b(?:rows?|rnds?|rounds?) \d|"
    r"\bas (?:for |in |on )?(?:the )?(?:rows?|rnds?|rounds?|last|prev|before|\d)|"
    rf"\byou (?:should|will|now) (?:now )?have\b|"
    rf"\b{_STITCH}\.?s? +(?:in(?:to)?|around|round|over|across|evenly|\d)\b|"
    rf"(?:[,;:]| and| then) *(?:\d+ *)?(?:ch|sk|skip|miss|join|turn|work|{_STITCH})\b"
    r"(?! (?:at|rows?))|\b(?:increas|decreas)(?:ed|ing)\b|\bshaped\b|\bturned over\b|"
    r"\b(?:an?|one|two|three|the|every|all|each) (?:increase|decrease)s?\b|"
    r"\bat (?:both|each|either) (?:ends?|sides?)\b|\b(?:increases|decreases) (?:are|is|come)\b|"
    r"\b(?:first|last|second|edge|every) (?:stitch(?:es)?|sts?)\b|"
    r"\byou (?:will|should|must|now)(?: now)? (?:leave|miss|skip|omit)\b|"
    r"\bstitch(?:es)? (?:in|into) one\b|"
    r"\b(?:skipping|shorter|doubled?|half of|not worked|early|ignored?|follows|rip|cast off|"
    r"likewise|worked in (?:de|in)creases)\b|\b(?:turning|beginning|starting) ch(?:ain)?s?\b|"
    r"\b(?:has|have|be|are|count:) (?:now )?(?:\d+|[a-z]+teen|six|eight|ten|twelve|twenty) "
    r"(?:sts?|stitch(?:es)?)\b|"
    rf"\b(?:left|unworked|leav(?:e|ing))\b|\b\d+ *{_STITCH}\b|"
    r"\b(?:in(?:to)?|over|around|round) +(?:the +)?(?:next|each|every|first|last|same) +(?:\d+ +)?"
    rf"(?:sts?\b|stitch|ch\b|chain|sp|space|loop|lp|{_STITCH}\b)"
)


def describes(sentence: str) -> bool:
    """Whether a sentence says how something is, or what is done to a finished piece.

    >>> describes("The corners are marked."), describes("The next two rows are the same.")
    (True, False)

    It may name stitches and chains ("Loops are made of 5 ch."); nothing in it is worked.
    """
    return _begins(_DESCRIBES, sentence) and not _says(_CORE, sentence)


#: where a clause ends and another may begin
_CLAUSE = r"[,:()\[\]–—]|\s-\s|\b(?:and|then|but|or)\b"
#: words before the verb of an instruction
_BEFORE_VERB = r"\s*(?:(?:now|then|first|next|finally|always|also|again|you|we|please|just|to)\s+)*"
#: how an instruction begins that works something, or says what the rows are made of
_INSTRUCTS = (
    rf"{_BEFORE_VERB}(?:\d+\s*)?(?:ch|chains?|make|making|work(?:ing)?|sk|skip(?:ping)?|"
    rf"miss(?:ing)?|rep|repeat(?:ing)?|inc\w*|dec\w*|turn(?:ing)?|sl|slip|leav(?:e|ing)|"
    rf"omit(?:ting)?|end(?:ing)?|cont\w*|join(?:ing)?|begin(?:ning)?|start(?:ing)?|commence|"
    rf"crochet|form(?:ing)?|wind|wrap|loop|pull|insert|draw|{_STITCH}s?|stitch(?:es)?|sts?)\b|"
    rf"\s*\*"
)
#: what a row is made of: without any of it, nothing is worked
_OF_A_ROW = (
    rf"\b(?:ch|chs|chains?|rings?|loops?|lps?|sts?|stitch|stitches|sps?|spaces?|"
    rf"(?:each|every)(?! (?:new|colou?r|piece|one|part|motif|square))|trebles?|doubles?|"
    rf"singles?|rows?|rnds?|rounds?|straight|even|{_STITCH}s?)\b|\*"
)
#: what sends the maker to rows that stand elsewhere
_ELSEWHERE = (
    r"\bas (?:for|in|on|given|before|set|first|the)\b|\b(?:same|like|reversing|again|match|"
    r"matching|until|till)\b"
)
_OF_CHAINS = r"\bch(?:ain)?s?\b"
#: what says how the rows are counted, which must be understood
_OF_COUNTS = (
    r"\bcount(?:s|ed|ing as)?\b|\b(?:stands?|standing) (?:in )?for\b|=|\b(?:is|are) not an? st"
)


#: how sentences begin that tell of something, and misspelt rows do not
_LIKE_A_SENTENCE = (
    rf"(?:{_SUBJECT}|your|now (?:an?|the|for|comes)|next comes|at this point|if|when|once|here|"
    r"(?:slip|try|measure|pull|hold|lay|check|put) (?:it|them|the (?:hat|sock|piece|work))|"
    r"(?:pattern |stitch )?multiple of|that.?s|it.?s|there.s|"
    r"to (?:fit|make|keep|hide|get|give)|very|quite|not|begins?|starts?|"
    r"worked|made|colou?rs?|one size|newborn|this|that|three|two|four|begun|"
    r"(?:after|before|with|by) (?:the|this|that)\b[^.;:()\d]* (?:will|is|are|should|can)|"
    r"(?:[a-z-]+ ){1,4}(?:is|are|has|have|will|makes|works|gives|uses|measures|fits|stands?|looks?|"
    r"should|can|may|must|saves?|needs?|wears?|shows?|comes?)\b)(?!\w)"
)
#: what a piece is made of, or how it turns out
_OF_A_THING = (
    r"\b(?:yarn|wool|cotton|hook|cm|mm|inch(?:es)?|ply|dk|worsted|aran|balls?|colou?rs?|size|"
    r"project|worked|made|gauge|tension|strands?|the|an?|you|your|it|with|for)\b|\""
)
_MEASURED = (
    r"(?:size )?\d[\d./-]* ?(?:mm|cm|m|g|ply|in|inch(?:es)?|balls?|yards?|yds?|years?|months?|\"|%)"
    r"(?!\w)"
)
_FEWEST_OF_A_SENTENCE = 3


def _of_things(sentence: str) -> bool:
    """Whether words tell of yarn, hook and size, and number nothing else."""
    return (
        len(sentence.split()) > _FEWEST_OF_A_SENTENCE
        and _says(_OF_A_THING, sentence)
        and not _says(_PLACE, sentence)
        and re.search(r"\d", ignoring_case(_MEASURED).sub(" ", sentence)) is None
    )


#: what may say how many stitches every row has: a part of it, and which; the chains at its head
_PART_OF_A_ROW = r"\b(?:sts?|stitch(?:es)?|increas\w*|decreas\w*|rows?|rounds?|rnds?|shap\w*)\b"
_WHICH_OF_THEM = (
    r"\b(?:each|every|both|first|last|second|other|half|one|two|three|four|five|six|eight|ten|"
    r"fewer|less|more|shorter|again|stays?|follows?|next|skipp\w*|doubl\w*|ignor\w*|\d+)\b"
)
_CHAIN_AT_HEAD = r"\b(?:turning|beginning|starting|beg) ch(?:ain)?s?\b"
#: where such words speak of something else
_OF_NO_COUNT = (
    r"\b(?:loops?|markers?|colou?rs?|shades?|yarn|hook|turn|gauge|tension|measures?|inch(?:es)?|cm|"
    r"multiple|post|do not join|(?:increases|decreases) (?:all |will )*(?:sit|lie|fall|run))\b"
)


def _states_a_rule(sentence: str) -> bool:
    """Whether a sentence may say how many stitches rows have ("You lose one stitch each row")."""
    told = _says(_PART_OF_A_ROW, sentence) and _says(_WHICH_OF_THEM, sentence)
    if not told and not _says(_CHAIN_AT_HEAD, sentence):
        return False
    return not _says(_OF_NO_COUNT, sentence)


def _opens(sentence: str) -> bool:
    """Whether a sentence before the first row works nothing, and tells of no count.

    No clause of it tells what to work; what is done with yarn or hook alone shapes no row.
    """
    if _says(_OF_COUNTS, sentence) or _says(_ELSEWHERE, sentence):
        return False
    if _states_a_rule(sentence):
        return False
    if not _begins(_LIKE_A_SENTENCE, sentence) and not _of_things(sentence):
        return False
    clauses = ignoring_case(_CLAUSE).split(sentence)
    return not any(_begins(_INSTRUCTS, clause) and _says(_OF_A_ROW, clause) for clause in clauses)


#: what is counted, or shaped: amid the rows a sentence that has any of it is no remark
_COUNTED = (
    r"\d|\b(?:(?<!the first )(?<!little )(?<!big )(?<!good )(?<!this )(?<!that )one|two|three|"
    r"four|five|six|eight|ten|twelve|once|ch|chs|chains?|inc|dec|turn|join|sk|skip|miss|rep|work|"
    r"(?:other|first|second) half|half of|border|edging|armholes?|again|twice|likewise|rip|cast|"
    r"add|doubled?|repeat\w*|follows?|(?:slip|treble) stitch(?:es)?|(?:single|double) crochet|"
    rf"{_STITCH}s?)\b"
)


def _mentions(sentence: str) -> bool:
    """Whether a sentence amid the rows tells of no work, no number and no stitch by its name."""
    return (
        len(sentence.split()) > _FEWEST_WORDS
        and not _says(_CORE, sentence)
        and not _says(_COUNTED, sentence)
        and _begins(_LIKE_A_SENTENCE, sentence)
        and _opens(sentence)
    )


def _within(sentence: str, vocabulary: Vocabulary) -> bool:
    """Whether a sentence behind what a row works is a remark ("Try it on!")."""
    if _mentions(sentence) or _begins(_OPTIONAL, sentence):
        return True
    tokens = tokenize(sentence, vocabulary)
    called = sentence.rstrip().endswith("!") and len(tokens) <= _LONGEST_CALL
    return called and all(
        token.kind in ("word", "odd", "end", "mark") and token.word not in _WORKING
        for token in tokens
    )


#: rows that may be worked besides, or not: none of those that are written
_OPTIONAL = (
    r"(?:the )?(?:piece|work|it) (?:now )?(?:should )?(?:now )?measures? |"
    r"i (?:worked|used|made|left|added|changed|chose|tried|like|love|prefer|find|know|hate|"
    r"think)\b|"
    r"mine (?:is|was|curled|took|came|looks?|ended)\b|"
    r"(?:add|work|repeat) (?:more |extra |as many )?(?:rows|rounds|rnds|repeats)"
    r"(?: here| as you like)*,? (?:for|if|to get|until it)\b"
)
#: "Try it on!", "Done!", with its mark and the end of the row
_LONGEST_CALL = 10

#: a piece that is made once more, told behind the rows of the first; not one from which the work
#: goes on, which is joined to the first by its rows
_AGAIN = (
    r"(?:\A|(?<=[.;] ))(?![^.;:]*\bnot (?:fasten|cut|break))"
    r"(?:make|work) (?:(?:the|an?|one|two|three|four|\d+) )*"
    r"(?:second|other|another|more|identical)\b[^.;:]*"
)


def made_again(text: str, passed: tuple[tuple[int, int], ...]) -> tuple[tuple[int, int], ...]:
    """The columns of "make second sleeve as for first", where it lies in what was passed.

    >>> made_again("Fasten off. Make second sleeve as for first.", ((12, 43),))
    ((12, 43),)
    """
    found = (one.span() for one in ignoring_case(_AGAIN).finditer(text))
    return tuple(at for at in found if any(start <= at[0] < end for start, end in passed))
