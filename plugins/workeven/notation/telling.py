"""Sentences that tell of what was made, what comes, or what may be done besides.

Takes     a sentence, or the words of a line that ends with a colon.
Gives     ``tells``, ``tells_aside``, ``offers_a_choice``, ``heads_rows``.
Problems  none: ``prose`` passes such sentences, and the parser tells that it has (``row-note``).
From      common practice: designers name what a row has made ("These chains are the handles."),
          lead on ("Time for some lace.") and leave a choice ("Want it longer? Repeat Row 4.").

What is offered besides changes none of the rows that are written, whatever it works. The others may
name no stitch, no number of them and nothing that is done.
"""

from __future__ import annotations

from workeven.notation.expressions import ignoring_case
from workeven.notation.tokens import tokenize
from workeven.notation.vocabulary import Vocabulary

#: what is counted, and what is done to it: words with which rows are told
_OF_ROWS = frozenset(
    "ch sk rep inc dec turn join st sp lp cont till until again more times around across next same "
    "even left unworked instead sl pass insert draw pull yo add omit before after dec increase "
    "decrease shape shaping mark evenly together tog slip work working worked count counts counted "
    "not no each every all any both other other's another twice once thrice likewise alike "
    "first last second third half double opposite reverse reversing mirrored like as into over "
    "skip row rnd plain repeat".split()
)
_WORKED = ("stitch", "grp", "chn", "formula", "rate", "ord")
#: "These chains are the handles.", "This forms 10 petals."
_MADE = (
    r"(?:this|that|these|those|they|it)(?: (?:ch(?:ain)?s?|loops?|sps?|spaces?|rows?|rounds?|"
    r"rnds?|stitches|sts|picots?|shells?|groups?|clusters?))? "
    r"(?:forms?|makes?|completes?|finishes|gives?|is|are|will be|becomes?)\b"
)
#: "Time for some lace.", "On to the crown!", "That's the base done."
_LEADS_ON = (
    r"(?:(?:it.?s |now )?time (?:for|to)|on to|onto the fun|next up|(?:ready|now) for)\b|"
    r"(?:(?:so )?that.?s|there.?s|that (?:is|was)) (?:the|your|our|all|it)\b|"
    r"(?:next|now|then) (?:comes?|follows?) (?:the|an?|our|your)\b|"
    r"(?:nearly|almost|halfway) (?:there|done|finished)\b|"
    r"(?:don.?t (?:worry|panic|be (?:afraid|alarmed))|no worries|never fear|trust me)\b"
    r"(?:[, ]+it(?:.s| is) only (?:one|an?) (?:row|round|rnd) of it)?"
)
#: what may be done besides: of the rows that are written none is another by it
_A_CHOICE = (
    r"(?:(?:do you )?(?:want|fancy|prefer|need|like)|would you (?:like|prefer)) [^.;!?]*\?|"
    r"(?:for|to (?:make|get|work)) an? (?:[a-z]+ )?(?:larger|bigger|smaller|longer|shorter|wider|"
    r"narrower|deeper|taller|looser|tighter|slouchier|warmer|fuller|different)\b|"
    r"to make (?:it|yours|your [a-z]+|the [a-z]+) (?:longer|shorter|wider|narrower|larger|bigger|"
    r"smaller|deeper|taller)\b|"
    r"if you(?:.d| would)? (?:rather|want|like|wish|prefer|would like|hate|dislike|don.t (?:want|"
    r"like)|do not (?:want|like))\b|"
    r"(?:at this point |here )?you (?:can|may|could) (?:also |now |of course )?"
    r"(?:go back|stop|leave out|leave it|add|repeat|work|make|skip|use|change|swap|end|finish)\b|"
    r"feel free to\b|stop (?:here |when |once |as soon as )(?:[a-z]+ )*(?:you like|you want|if)\b"
)
#: what the sizes work that are listed is no choice
_NO_CHOICE = r"\bsizes? (?:only|\d|[xsml]+\b)|\bonly\b[^.;]*\bsizes?\b"


def _begins(pattern: str, sentence: str) -> bool:
    return ignoring_case(pattern).match(sentence) is not None


def _works_nothing(sentence: str, vocabulary: Vocabulary) -> bool:
    """Whether no word of it is one with which rows are told."""
    return not any(
        token.kind in _WORKED or token.word in _OF_ROWS or token.word in ("*", "[", "(")
        for token in tokenize(sentence, vocabulary)
    )


def tells(sentence: str, vocabulary: Vocabulary) -> bool:
    """Whether a sentence names what was made, or leads on to what comes, and works nothing.

    >>> tells("These chains are the handles.", Vocabulary())
    True
    >>> tells("This forms 10 more sc.", Vocabulary()), tells("Time to decrease.", Vocabulary())
    (False, False)
    """
    made = ignoring_case(_MADE).match(sentence)
    if made is not None:
        return _works_nothing(sentence[made.end() :], vocabulary)
    leads = ignoring_case(_LEADS_ON).match(sentence)
    return leads is not None and _works_nothing(sentence[leads.end() :], vocabulary)


#: words of a remark behind a dash with which it would work something, or count it
_NO_ASIDE = (
    r"\d|\b(?:in|into|over|around|each|every|last|first|next|both|all|two|three|four|five|six|"
    r"eight|ten|twelve|same|again|twice|until|sts?|stitch(?:es)?|work\w*|count\w*|repeat\w*|rep|"
    r"skip\w*|sk|miss\w*|leav\w*|left|turn\w*|join\w*|inc\w*|dec\w*|more|less|fewer|another|"
    r"not|no|never|instead|rows?|rounds?|rnds?)\b"
)
_AN_ASIDE = (
    r"(?:the|this|that|these|those|it|they|it.s|that.s|they.re) (?:[a-z]+ ){0,3}?(?:is|are|was|"
    r"were|will|makes?|forms?|gives?|looks?|sits?|lies?|goes|go|pops?)\b"
)


def tells_aside(words: str) -> bool:
    """Whether words behind a dash say how something is: "– the bobble is the thumb".

    >>> tells_aside("the bobble is the thumb, push it to the outside")
    True
    >>> tells_aside("the last is worked in the ring"), tells_aside("it is repeated twice")
    (False, False)
    """
    return _begins(_AN_ASIDE, words) and ignoring_case(_NO_ASIDE).search(words) is None


def offers_a_choice(sentence: str) -> bool:
    """Whether a sentence, up to its full stop, tells what may be done besides.

    >>> offers_a_choice("Want a longer panel? Keep repeating Rows 5-8.")
    True
    >>> offers_a_choice("For the larger size only, ch 5."), offers_a_choice("If 2 sts remain, sc.")
    (False, False)
    """
    only = ignoring_case(_NO_CHOICE).search(sentence) is not None
    return not only and _begins(_A_CHOICE, sentence)


#: how a line leads to the rows below it
_HEADS = r"[a-z][a-z ,'’()-]{2,80}:\s*\Z"
_LONGEST_HEAD = 12


def heads_rows(text: str, vocabulary: Vocabulary) -> bool:
    """Whether a line ends with a colon and works nothing: "Now round the two sides of the flag:".

    >>> heads_rows("Now round the two sides of the flag:", Vocabulary())
    True
    >>> heads_rows("Sc in each st:", Vocabulary()), heads_rows("Row 5:", Vocabulary())
    (False, False)
    """
    if not _begins(_HEADS, text.strip()) or len(text.split()) > _LONGEST_HEAD:
        return False
    if ignoring_case(_A_ROW).search(text) is not None:
        return False
    tokens = tokenize(text, vocabulary)
    return not any(token.kind in _WORKED or token.word in _NO_HEAD for token in tokens)


#: "Row 5:", "Edge row:", of which nothing is told; not "round the two sides"
_A_ROW = r"\b(?:rows?|rnds?)\b|\brounds?\b(?! (?:the|its|both|all)\b)"
#: words that no such line has in it: what is done with stitches
_NO_HEAD = frozenset(
    "ch sk rep inc dec turn join st sp lp cont until again times next same even unworked sl pass "
    "last work leave leaving skip each every".split()
)
