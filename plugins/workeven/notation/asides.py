"""Words that change no count: remarks, markers and colours, making up, headings.

Takes     ``Stream``.
Gives     ``is_remark``, ``aside``, ``making_up``, ``pass_words``, ``heading``, ``names_part``.
Problems  none: what is no aside is left where it stands.
From      notation.md, the table of steps ("place marker", "change to colour B": 0, 0).
"""

from __future__ import annotations

import re
from typing import Literal

from workeven.notation.expressions import ignoring_case
from workeven.notation.stream import Stream

_REMARK = (
    r"\((?:R/?S|W/?S|right side|wrong side|"
    r"with (?:an? |the |one )?(?:bead|bugle|sequin|ring|ribbon)s?\b[^()]*|"
    r"(?:in |into |this is )?(?:the )?same (?:ch|st|sp|place|stitch|chain|space|lp|loop)s? as "
    r"[^()]*|"
    r"corner (?:st|[hd]?dc|sc|tr|ch-?\d+ sp)|"
    r"(?:the )?(?:centre|center|middle) one of (?:the )?\d+|"
    r"(?:the )?(?:(?:first|second|left|right|other) )?(?:sleeve|armhole|underarm|thumb|neck|"
    r"shoulder|front|back|leg|arm|ear|tip|toe|heel)s?(?: (?:opening|edge|hole))?|"
    r"(?:or|for) any (?:multiple|number|even number|odd number) [^()]*|"
    r"(?:add|work|make) (?:more|extra|fewer|as many) [^()]*|"
    r"(?:crab|reverse) (?:st|stitch|sc|dc|single crochet|double crochet)|"
    r"(?:first|last|second|next|beg|beginning|half|a|one)?\s*"
    r"(?:picot|corner|shell|sp|cl|V|group|st|dc|sc|hdc|tr|leaf|petal|block|loop|lp)s?"
    r"(?:\s+made)?|"
    r"\d+ (?:sps?|spaces?|blocks?|bls?|sts?|mesh(?:es)?) (?:dropped|added|lost|gained)|"
    r"(?:the )?\d(?:st|nd|rd|th) (?:st|dc|sc|tr|hdc|htr|ch) of (?!(?:next|each|same)\b)[\w\s,-]+|"
    r"(?:the )?(?:center|centre|middle) (?:st|dc|sc|tr|hdc|htr|ch) (?:at|on) [\w\s,-]+|"
    r"(?:to )?(?:the )?(?:center|centre|middle|top|side|last|first)"
    r"(?:\s+(?:one|st|dc|sc|tr|hdc|htr|ch))?\s+of\s+[\w\s,-]+|"
    r"(?:this is )?(?:the )?(?:center|centre|middle) "
    r"(?:st|stitch|sc|[hd]?dc|h?tr)|"
    r"(?:the )?last (?:st|dc|sc|tr|hdc|htr|one) (?:in|into) (?:the )?"
    r"(?:top|\d(?:st|nd|rd|th)(?: ch)?) of (?:the )?"
    r"(?:turning|beg|beginning|first|starting|t-?)[ -]?(?:ch(?:ain)?)?[ -]?\d*|"
    r"(?:the )?(?:missed|skipped) ch(?:ain)?s? (?:makes?|forms?|counts? as) (?:the )?first "
    r"(?:space|sp|square|mesh)|"
    r"(?:an? )(?:shell|fan|group|cluster|scallop)|"
    r"\d+ in (?:the )?(?:end|side) of (?:each|every) row|"
    r"(?:which|that) (?:already )?holds? [^()]*|"
    r"the (?:same )?(?:one|st|stitch|ch|sp|space|place)s? (?:that|which|where) [^()]*|"
    r"(?:inc|dec|increase|decrease)s?(?:\s+made)?|"
    r"(?:(?:an?|\d+|one|two) )?(?:st|stitch|sp|space|block|mesh|square|sc|[hd]?dc|h?tr)(?:es|s)? "
    r"(?:(?:is|are|has been|have been) )?(?:increased|decreased|inc|dec|added|gained|lost)|"
    r"(?:a |an |the |first |last |one )?[a-z]+(?: [a-z-]+){0,2} (?:made|formed|complete|completed)|"
    r"(?:this is |these are |here is )?(?:an?|another|the) (?:[a-z]+ )?(?:shell|inc(?:rease)?|"
    r"dec(?:rease)?|bl(?:oc)?k?|group|fan|petal|leaf|scallop|point|corner|spoke|loop|mesh)|"
    r"this (?:brings|completes|makes|forms|gives|leaves|is|puts) [^()\d]*|"
    r"(?:above|over|below|opposite) (?:the |a )?"
    r"(?:pc|popcorn|shell|cluster|cl|bobble|inc|dec|group|fan)s?|"
    r"(?:with )?no (?:more |further )?"
    r"(?:inc|dec|increase|decrease|shaping|increasing|decreasing)s?|"
    r"(?:on|from) [a-z ]+ side|buttonholes?|see [^()]*|optional|"
    r"where (?:the )?(?:first|last|1st|joining|previous|same) "
    r"(?:st|stitch|sc|[hd]?dc|h?tr|ch|sl st|yarn) (?:is|was|has been) "
    r"(?:made|worked|joined|placed)|"
    r"(?:(?:hanging|button|buttonhole|tassel|cord|key|wrist|strap|hanger)[ -]?)(?:loop|lp)s?|"
    r"(?:(?:in|into|this is|that is|i\.e\.|=) )?(?:the )?(?:top|\d(?:st|nd|rd|th)(?: ch(?:ain)?)?)"
    r" of (?:the )?(?:(?:beg(?:inning)?|turning|starting|first) )?"
    r"(?:ch(?:ain)?[ -]?\d*|\d[ -]?ch|t-?ch)|"
    r"(?:about |approximately |approx\.? )?\d+ (?:sts?|stitches|[hd]?dc|sc|tr|htr) "
    r"(?:(?:for|to|over) (?:(?:every|each) )?|per |in (?:every|each) (?=\d))(?:\d+ )?"
    r"rows?(?:[ -]ends?)?)\)"
)


def is_remark(stream: Stream, closing: int) -> bool:
    """Whether the brackets at the position hold a remark that counts nothing ("(picot)")."""
    end = stream.tokens[closing].end
    said = stream.text[stream.start : end]
    if ignoring_case(_REMARK).fullmatch(said) is not None:
        return True
    if _names_own(stream, closing):
        return True
    if "twist" in said and ignoring_case(TWIST).fullmatch(said[1:-1].strip()) is not None:
        return True
    inside = stream.tokens[stream.at + 1 : closing]
    return bool(inside) and all(
        token.kind == "word" and token.word not in _COUNTING for token in inside
    )


def _names_own(stream: Stream, closing: int) -> bool:
    """Whether "(fan)", "(half fan)" stands behind a step: a stitch of the pattern's own is named.

    Behind a comma it would be one that is worked.
    """
    inside = stream.tokens[stream.at + 1 : closing]
    before = stream.tokens[stream.at - 1] if stream.at else None
    if before is None or before.kind == "mark" or not inside or len(inside) > _OWN_WORDS:
        return False
    own = inside[-1].kind == "stitch" and inside[-1].word in stream.vocabulary.special
    return own and all(one.word in _PARTLY for one in inside[:-1])


#: words in front of a stitch of the pattern's own that say how much of it is there
_PARTLY = ("half", "a", "first", "last", "corner", "one", "beg")
_OWN_WORDS = 2


#: words of brackets that may change a count: without any of them, nor a stitch, nor a number, what
#: stands there is told for the maker ("in the row ends", "half shell", "see photo")
_COUNTING = frozenset(
    "ch sk inc dec rep turn join count counts counted not unworked leave leaving work working "
    "times st sp lp all as made except excepting but omit omitting apart excluding skipping "
    "passing ignoring twice thrice double instead another adding add extra".split()
)


#: words up to a comma, or to a stitch that is worked somewhere
_UP_TO_A_STITCH = (
    r"(?:(?!\b(?:[fb]p)?(?:sc|hdc|dc|tr|dtr|htr|ttr)(?:\d?tog)?\s+(?:in|into|around)\b)[^,;.()])*"
)
#: how a chain, or a first row, is closed into a round: nothing is worked by it
TWIST = (
    r"(?:(?:(?:taking|take|with) care|(?:being |be )?careful|mak(?:ing|e) (?:sure|certain)|"
    r"ensur(?:ing|e)|check(?:ing)?)(?: (?:that|the|your|it|ch(?:ain)?s?|sts?|stitches|work|row|"
    r"foundation|rnd|round|strip|band|ring|piece|edge|fabric|ribbing|"
    r"you|is|are|does|do|has|have|to))* not(?: (?:to|been|be|get|become))* "
    r"twist(?:ed|ing)?|(?:without|not) twisting|(?:do not|don.t) (?:let it )?twist)\b"
    r"(?: (?:the|your|it|ch(?:ain)?s?|sts?|stitches|work|row|foundation)\b)*"
)
#: colours that a text names without a capital ("with brown")
_COLOUR = (
    r"(?:(?:dark|light|pale|deep|bright|soft|off)[ -])?(?:white|cream|ivory|beige|tan|brown|black|"
    r"gr[ae]y|red|pink|rose|coral|orange|peach|yellow|gold|mustard|green|mint|sage|olive|teal|"
    r"turquoise|aqua|blue|navy|denim|purple|lilac|lavender|plum|silver|rust|sand|charcoal|natural)"
)
_SO_MANY = r"(?:\d+|one|two|three|four|five|six)"
#: yarns or colours by their letters or names, one after the other
_YARNS = r"(?-i:[A-Z])\w*(?:(?:, (?:and |then )?| and | then )(?-i:[A-Z])\w*)*"
#: in front of words that change no count: no stitch is named behind them in the sentence
_NO_WORK = (
    r"(?![^.;]*\b(?:sc|h?dc|h?tr|dtr|inc|dec|sk|skip|miss|sl|ss|crochet|trebles?|doubles?)\b)"
)

#: parts of garments, toys and accessories that head a section
_PARTS = (
    r"\b(?:body|bodies|arms?|legs?|heads?|ears?|tails?|snout|muzzle|nose|beak|wings?|foot|feet|"
    r"paws?|horns?|fins?|hair|hats?|brim|crown|band|ribbing|rib|cuffs?|hands?|palms?|thumbs?|"
    r"gussets?|fingers?|mittens?|gloves?|heels?|flaps?|toes?|instep|soles?|uppers?|ankles?|socks?|"
    r"yoke|sleeves?|fronts?|backs?|sides?|panels?|collars?|neck|neckline|neckband|necklines?|"
    r"shoulders?|armholes?|caps?|borders?|edging|edge|pockets?|straps?|handles?|bottom|base|lid|"
    r"button ?bands?|buttonholes?|hoods?|bust|waist(?:band)?|hem|skirt|bodice|stem|leaf|petals?|"
    r"wheels?|motifs?|flags?|medallions?|squares?|"
    r"top|(?:first|second|other|1st|2nd) end|scallops?|heading|casing|opening|mesh|lining|"
    r"main|assembly|finishing|making up|foundation|shaping|increases|decreases|gauge)\b"
)
#: how an aside begins; case matters only for the names of yarns and colours ("with Navy").
_ASIDE = (
    r"(?:(?:using|with|w/) (?=[^,;()]{0,80}?\d)(?=[^,;()]{0,80}?\bhook)"
    r"(?![^,;()]*\b(?:sc|h?dc|h?tr|ch|sl)\b)[^,;()]*?\bhook"
    r"(?: and [^,;.()]*)?(?=\s*(?:[,.;]|\Z))|"
    r"(?:(?:make|put|place|beg(?:in)?|start) )?(?:with )?(?:a |your )?slip[ -]?knot\b"
    r"(?: (?:(?:of|in|with) (?:[a-z]+ ){0,2}?)?(?:in|on(?:to)?) (?:the |your )?hook\b)?|"
    r"(?:place|pop|clip|stick|hang) (?:a )?(?:stitch )?markers?|pm\b|move (?:the )?markers?|mark\b|"
    r"remove (?:the )?markers?|"
    r"(?:slip|sl) (?:the )?(?:marker|m\b)|sm\b|slm\b|(?:put|insert) (?:a |the )?(?:stitch )?marker|"
    r"chang(?:e|ing) (?:back )?(?:to|colou?rs?)|"
    r"(?:switch|swap) (?:to\b|colou?rs?)|(?:switching|alternating) (?:to\b|colou?rs?)|"
    r"at (?:the )?end of (?:(?:rnd|row|round) \d+|(?:the )?"
    r"(?:last|\d+(?:st|nd|rd|th)) (?:rnd|row|round))\b|"
    r"introduce (?-i:[A-Z]\b)|"
    r"carry(?:ing)? (?!on\b)(?:(?!\band (?:add|inc|dec|work|sk|miss|mak)\w*)[^,;.()])*|"
    r"(?:with|w/) ?(?:the )?(?:R/?S|W/?S|right side|wrong side)(?: facing)?|"
    r"(?:with|w/) ?(?:the )?(?:new |next |main |contrast(?:ing)? |other |first |second |third |"
    r"fourth |fifth |1st |2nd |3rd |4th )?(?:colou?r|yarn)(?: (?-i:[A-Z])\w*)?|"
    r"(?:with|w/) ?(?-i:(?:(?:Lt|Dk|Med)\. )?(?:[A-Z]\w*)(?: [A-Z]\w*)*)|"
    rf"(?:with|w/|using|in) ?(?:the )?{_COLOUR}(?: yarn)?\b|"
    r"(?:using|in) (?:colou?r|yarn)(?: (?-i:[A-Z])\w*)?\b|"
    r"(?:still|again) (?:with|in|using) (?-i:[A-Z])\w*(?: yarn)?|"
    r"in (?:the )?same (?:colou?r|yarn)|on (?:each|every) (?:rnd|row|round)|"
    r"(?:as|in) (?:colou?rs?|stripes?) given|"
    r"working (?:behind [^,;()]*?)?(?:in|into|on|along) (?:the )?(?:[a-z]+ ){0,4}"
    r"(?:rnd|round|row) \d+|"
    r"working over|working loosely|(?:[bf]lo|(?:front|back) (?:loops?|lps?) only)(?=\s*[,:])|"
    r"(?:without|not) turning\b|"
    r"leaving (?:an? |the )?(?:gap|opening|slit|hole)\b(?: (?:for|at|in) [^,;.()]*)?|"
    r"(?:and )?(?:complete|finish) (?:this|the first|one) (?:shoulder|side|front|part|sleeve|half|"
    r"strap|neck edge) first\b|back (?:to|in) (?:the )?(?:first |second |main )?"
    r"(?:(?-i:[A-Z])\w*(?: (?-i:[A-Z0-9])\w*)?|colou?r|yarn)(?=\s*(?:[.;,!]|\Z))|"
    r"new colou?r(?=\s*(?:[.;,!:]|\Z))|behind (?:the )?(?:petals|leaves|flower|loops)(?=\s*,)|"
    r"working through (?:both|all)(?: two| the)? (?:layers|thicknesses)(?: at once| together)?|"
    r"\d+ in (?:the )?(?:end|side) of each row(?=\s*(?:[,;.)]|\Z))|"
    r"(?:with )?(?:the )?last (?:st|sc|hdc|dc|htr|tr|dtr|one) (?:being )?(?:worked |made )?"
    r"(?:in|into) (?:the )?"
    r"(?:top|\d(?:st|nd|rd|th)(?: ch)?) of (?:the )?(?:beg(?:inning)? |turning |first |t-?)?"
    r"(?:\d[ -]?ch|ch(?:ain)?[ -]?\d*)(?=\s*(?:[,;.)]|\Z))|"
    r"(?:with|using) (?:[a-z]+ ){1,3}(?:wool|cotton|yarn|thread|silk)\b|"
    rf"(?:make|making) sure {_NO_WORK}(?:that )?[^,;.()]*|(?:but )?(?:go|work) round and round\b|"
    r"marking (?:the )?(?:beginning|start|first st(?:itch)?) (?:of [a-z ]+ )?with [a-z ]+|"
    r"drop (?!(?:st|stitch|loop|lp|the (?:st|loop|lp))\b)[a-z]+(?: at [^.;,()]*)?"
    r"(?: and attach [a-z]+)?(?=\s*(?:[.;,)]|\Z))|"
    r"matching (?:the )?corners|(?:thus )?reaching [^,;.()]*|"
    r"in (?:that|this) order\b|in turn\b|beginning in the same (?:sp|space|st|place|loop|lp)\b|"
    r"the (?:turning )?ch(?:ain)?[ -]?3 counts as (?:the |a )?(?:first )?dc(?=\s*,)|"
    r"between (?:the )?(?:petals|leaves|spokes)(?=\s*(?:[.;,]|\Z))|"
    r"working \d+ (?:rows?|rnds?|rounds?) (?:in )?(?-i:[A-Z]\w*),? and \d+ "
    r"(?:rows?|rnds?|rounds?) (?:in )?(?-i:[A-Z]\w*)(?: in turn)?(?=\s*(?:[.;,]|\Z))|"
    r"(?:right|wrong) side (?:of (?:the )?work )?(?:toward|towards|facing) you\b|"
    r"(?:not )?(?:too|very|rather|quite|fairly) (?:loosely|tightly|firmly)\b|"
    r"not (?:loosely|tightly|firmly)\b|"
    r"chang(?:e|ing) to (?:an? |the )?(?:size )?[\w./]+ ?(?:mm )?hook\b|"
    r"[a-z]+ included(?=\s*(?:[.,;(\[]|\Z))|keep (?:using )?(?-i:[A-Z]\w*)(?=\s*[.,;])|"
    rf"{_COLOUR}(?=\s*(?:[.:]|,\s*ch\b))|"
    r"alternating \d+ (?:rows|rounds|rnds) (?:of|in|with) [^.;()]*|"
    r"or (?:until|till|to (?:the )?desired|for (?:the )?(?:length|desired)|to (?:the )?length|"
    r"at the end of (?:the )?(?:first|last)) [^.;()]*|"
    r"(?:with|using) (?:an? |the )?(?:double|single|two|three|2|3|both) "
    r"(?:strands?|yarns?|wools?|threads?|cottons?)\b"
    r"(?: (?:of [a-z]+|held|together|tog|as one)\b)*|"
    r"(?:picking|taking) up (?:only )?(?:the )?(?:(?:two|both|one) )?(?:(?:back|front|top|upper) )?"
    r"(?:threads?|loops?|strands?)\b(?: (?:of|at) (?:the )?[a-z]+(?: [a-z]+)?)?|"
    rf"working (?:behind|in front of|in front(?=\s*(?:,|\Z))){_UP_TO_A_STITCH}|"
    r"working (?:in front|behind)(?=\s+(?:[fb]p|work\b|\d|sc\b|h?dc\b|h?tr\b|dtr\b))|"
    rf"for (?:(?:the|a|an|each|first|second|left|right) )*{_PARTS}(?=\s*,)|"
    r"(?:working )?at (?:the )?(?:back|rear) of (?:the )?(?:petals|leaves|flower|work)(?=\s*[,:])|"
    r"rotate(?: the)? work[^,;.()]*|rotate(?=,? and\b)|"
    r"turn (?:it |the (?:piece|work|band) )?so (?:that )?the (?:seam|right side|wrong side) is "
    r"[^.;,()]*|"
    r"working (?:down|up|along|around)(?: the)? (?:(?:one|each|other|long|short|outer|inner) )?"
    r"(?:row ends?|side|edge|left|right|front|neck)[^,;.()]*|"
    r"working (?:from )?(?:left to right|right to left)|"
    r"passing over (?:the |all )+(?!next|first|last|\d)[^,;.()]*|"
    r"cont(?:inue)? in this (?:manner|way)(?=\s*,\s*\S)|"
    r"(?:with|using) (?:the )?(?:two |both )?(?!right|wrong|back|front|marker|hook|needle|tail)"
    r"[a-z]+(?: (?:wool|cotton|yarn|thread|silk|linen|strips?|strands?|string|cord|raffia|ribbon|"
    r"rags?|floss|twine))?(?=\s*,)|"
    rf"{TWIST}|"
    r"(?:using|with|w/) ?(?:an? )?(?:size )?[\d.½¼¾/ -]+\s*mm[^,;()]{0,80}?hook(?: and [^,;.()]*)?|"
    r"(?:using|with|w/) ?(?:an? )?[^,;()]{0,80}hook(?: (?:size |no\.? ?)?[a-z]?[\d./]+(?! ?mm))?"
    r"(?: and [^,;.()]*)?|using (?-i:[A-Z]\w*)|"
    r"keep(?:ing)? (?:a |the )?(?:thread|markers?) (?:at|in) [^,;.()]*|"
    r"mov(?:e|ing) (?:(?:it|(?:the |this |a |your )?(?:stitch )?markers?) )?up(?:wards?)?"
    r"(?: (?:each|every|on|as|with (?:each|every)|for)\b[^,;.()]*|(?=\s*(?:[,;.)]|\Z)))|"
    r"fold[^,;.()]*|"
    r"(?:(?:working|work(?= (?:in|into|through) [^,;.()]*[,:;]))? ?(?:in|into|through) (?:the )?)"
    r"(?:(?:back|front|both|third|3rd) (?:loops?|lps?)(?: only)?|[bf]lo?|tbl)\b"
    r"(?: of (?:each |the |all )?(?:sts?|stitches|sc|hdc|dc))?(?: (?:from )?here (?:and|on) "
    r"(?:throughout|to the end))?|"
    r"working (?:in|into|through) (?:the )?back (?:bumps?|bars?|ridges?)"
    r"(?: of (?:the |each )?(?:starting |foundation )?ch(?:ain)?s?)?(?=\s*[,:;])|"
    r"tak(?:e|ing)(?: up)?(?: only)? (?:the )?(?:back|front|both) (?:loops?|lps?)(?: only)?"
    r"(?: of (?:the |each )?(?:sts?|stitches))?(?: (?:from here on|throughout))?|"
    r"ending (?:the )?last (?:row|rnd|round) with ch(?:ain)?[ -]?\d+(?:, turn)?|"
    r"keep(?:ing)? (?:the )?patt(?:ern)? (?:correct|straight|as set)(?=\s*,)|"
    r"keeping (?:to )?(?:the )?(?:same )?(?:colou?rs?|stripes?)\b[^,;.()]*|"
    r"(?:keep|hold|push|bend)(?:ing)? (?:(?:the|all|these|first|last|previous) )*"
    r"(?:petals|leaves|shells|loops|lps|ruffles?|flower|picots|popcorns|bobbles|fronds|flaps?|"
    r"frill) "
    r"(?:(?:to(?:wards?)?|in|at) (?:the )?(?:front|back)(?: of (?:the )?work)?|forwards?|down|"
    r"out of the way)|"
    r"(?:with )?no (?:more |further )?(?:inc|dec|increase|decrease|shaping|increasing|decreasing)s?"
    r"(?: or (?:inc|dec|increase|decrease)s?)?(?=\s*(?:[,;.)]|\Z))|"
    rf"working {_SO_MANY} (?:rows?|rnds?|rounds?) (?:each (?:of|in|with)|of each of|in each of) "
    rf"(?:colou?rs? |yarns? )?{_YARNS}|"
    r"working each (?:post )?(?:st|stitch)(?:es)? (?:around|round) (?:the )?"
    r"(?:matching|corresponding|same) [^,;.()]*|"
    r"with (?:the )?same side (?:of [^,;.()]+ )?facing|"
    r"(?:drop|pick up) (?:(?:the )?(?:colou?r|yarn)|(?-i:[A-Z]\w*))|"
    r"picking up (?:only )?(?:the )?(?:back|front|both) (?:loops?|lps?|threads?)(?: only)?"
    r"(?: of (?:the )?(?:sts?|stitches))?(?: throughout)?(?=\s*[,;.])|"
    r"working backwards?(?: \(from left to right\))?|[RW]/?S facing)"
)
#: words behind which a stitch still belongs to the aside ("place marker in last sc")
_LEADS = frozenset("in on at of last first this each next the same to over behind".split())
_STEPS = frozenset("ch sk inc dec turn join fasten rep".split())


def aside(stream: Stream) -> bool:
    """Pass words that change no count ("place marker in last st"); False if none stand here.

    An aside ends at a comma, or where a stitch begins: "with Navy sc in next st" works an sc.
    """
    if stream.token.kind not in ("word", "stitch"):
        return False
    if making_up(stream):
        return True
    found = ignoring_case(_ASIDE).match(stream.text, stream.start)
    if found is None:
        return False
    if (verb := work_within(stream, found.end())) is not None:
        stream.at = verb
        return True
    stream.pass_to(found.end())
    while not stream.at_end() and stream.token.kind != "mark":
        before = stream.tokens[stream.at - 1]
        token = stream.token
        led = before.kind == "word" and before.word in _LEADS
        led = led or (token.kind == "num" and before.word in ("row", "rnd"))
        if token.kind in ("stitch", "num", "formula", "grp") and not led:
            break
        if token.kind == "word" and token.word in _STEPS and not led:
            break
        if token.kind == "word" and token.word in ("and", "then"):
            break
        stream.take()
    return True


_VERBS = ("work", "working", "make", "making")


def work_within(stream: Stream, end: int) -> int | None:
    """Where within an aside a step begins: "carrying A along work 2 sc in each st"."""
    for at in range(stream.at + 1, len(stream.tokens)):
        if stream.tokens[at].start >= end:
            return None
        if stream.tokens[at].word != "," and (_goes_on(stream, at) or _works_at(stream, at)):
            return at
    return None


def _works_at(stream: Stream, at: int) -> bool:
    """Whether "work 2 sc", "working sc2tog", "make (" stands at a token."""
    if stream.tokens[at].word not in _VERBS:
        return False
    after = stream.tokens[at + 1]
    if after.kind == "num":
        after = stream.tokens[at + 2]
        if after.word in ("tog", "row", "rnd", "more"):
            return True  # "and work two rounds more", "working two together"
    return after.kind == "stitch" or after.word in ("inc", "dec", "(", "[")


# --- markers ------------------------------------------------------------------------------

_PLACED = re.compile(
    r"(?:place|put|insert|add|pop|clip|stick|hang) (?:an? |the |another |one |\d+ |two |four )?"
    r"(?:stitch )?markers?|pm\b|mark (?:this|the|last|next|first|cent)",
    re.IGNORECASE,
)
#: a marker for where the round begins stands at no place that a row goes to
_OF_THE_ROUND = re.compile(
    r"(?:beg|begin|start|end|first st|last st)\w* (?:of|each|every)|to (?:mark|show|keep)|"
    r"for (?:the )?(?:beg|start|end)|as you go|move (?:it|up)",
    re.IGNORECASE,
)
#: several markers, or one that is told by a number or a part
_SEVERAL = re.compile(
    r"\bmarkers\b|\d|\beach\b|either side|both|\b(?:seam|corner|edge)\b", re.IGNORECASE
)
_IN_NEXT = re.compile(r"\bnext\b", re.IGNORECASE)
_IN_CENTER = re.compile(r"\b(?:cent(?:er|re)|middle|2nd|second)\b", re.IGNORECASE)
_IN_FIRST = re.compile(r"\bfirst\b", re.IGNORECASE)
_IN = re.compile(r"\b(?:in|into|on|this|last|the st)\b|just made", re.IGNORECASE)

Placed = Literal["", "here", "last", "center", "first", "next", "off", "lost"]


def marker_of(words: str) -> Placed:
    """Where an aside places a marker; "" where it places none.

    >>> marker_of("place marker"), marker_of("pm in center st"), marker_of("with B")
    ('here', 'center', '')
    """
    if re.match(r"remove (?:the |all )?markers?", words, re.IGNORECASE):
        return "off"
    if _PLACED.match(words) is None or _OF_THE_ROUND.search(words):
        return ""
    if _SEVERAL.search(words):
        return "lost"
    if _IN_CENTER.search(words):
        return "center"
    if _IN_NEXT.search(words):
        return "next"
    if _IN_FIRST.search(words):
        return "first"
    return "last" if _IN.search(words) else "here"


# --- making up -----------------------------------------------------------------------------

#: a row of the text, which is worked as it says
_A_ROW = r" ?(?:(?:the|last|prev(?:ious)?|\d+(?:st|nd|rd|th)) )*(?:rows?|rnds?|rounds?)\b"
#: which rows are worked may not be told behind it: "as for back to Row 12"
_NO_ROW = r"(?![^.;]*\b(?:rows?|rnds?|rounds?) \d)"
#: how a sentence begins that tells of stuffing, sewing, ends of yarn: it works no stitch
_MAKING_UP = (
    r"(?:(?:now|then|next|finally|lightly|firmly|at this point)\b,? )*(?:"
    r"(?:begin|start|continue|keep|finish)(?: to)? (?:stuff|fill|sew|add)(?:ing)?\b|"
    r"(?:stuff|fill)(?:ing)?\b|"
    r"(?:make|work) (?:both|two|three|four|\d+) (?:[a-z]+ )?(?:pieces|sides|sleeves|halves|parts|"
    r"fronts|ears|legs|arms|wings|feet|paws|handles|straps|alike)\b(?: (?:the same|alike))?|"
    r"(?:bring|fold|lay|hold) (?:the )?(?:\w+ ){0,3}?(?:ends|edges|sides|pieces|layers)"
    r"(?: of (?:the )?(?:last |first )?(?:rows?|rnd|strip|band|piece|work))? together\b"
    r"(?: and (?:sl st|slip stitch|sew|whip ?stitch)[^.;,]*)?|"
    r"(?:make|work) (?:a |the )?(?:second|other|another)(?: one)? (?:to match|the same|alike)\b|"
    r"(?:knot|tie) (?:both|the) ends?\b|"
    rf"hold {_NO_WORK}(?:the )?[a-z ]+ against [^.;,]*|"
    r"hold (?:the )?[a-z ]+ against [a-z ]+ and (?:sl st|slip stitch|sew|whip ?stitch) "
    r"(?:the |both )?(?:two )?(?:edges|ends|sides|layers|pieces) together\b[^.;,]*|"
    rf"run {_NO_WORK}(?:an?|the) (?:[a-z]+ ){{0,3}}?"
    r"(?:ribbon|yarn|thread|cord|length|tail|elastic|wool)\b[^.;]*|"
    rf"make {_NO_WORK}an? (?!magic|slip|sliding|adjustable|loop)(?:[a-z]+ ){{0,3}}?"
    r"(?:tuft|tassel|pompom|bow|cord|loop (?:at|for|on))\b[^.;]*|"
    rf"join {_NO_WORK}(?:the )?(?:squares|motifs|blocks|hexagons|strips|panels)\b|"
    r"back (?:the|it)\b|(?:add|knot|attach|tie)(?: an?| the| some| in)* (?:[a-z-]+ ){0,2}?"
    r"(?:fringes?|tassels?|pompoms?|pom-?poms?|buttons?|bows?|ribbons?|labels?|charms?)\b|"
    r"the [a-z]+ (?:of (?:row|rnd|round) \d+ )?(?:serves?|forms?|acts?) as [a-z]+|"
    r"add (?:\w+ )*(?:stuffing|fib(?:re|er)fill|eyes|buttons?|beads?)|"
    r"insert\b(?! (?:the |your )?hook)|embroider|thread\b(?! over)|weave\b|weaving\b|darn\b|sew\b|"
    r"sewing\b|seam\b|"
    r"(?:whip ?|mattress )stitch|(?:hand|over)sew|stitch (?:the|up|it|together|closed)\b|"
    r"block (?:lightly|gently|well|hard|out|to|the|it|if|as|all|piece)\b|block(?=\s*(?:[.;,]|\Z))|"
    r"steam\b|starch\b|damp(?:en)?\b|spray\b|press\b|iron\b|wash\b|wet\b|pin\b|tie\b|trim\b|"
    r"hide\b|secure\b(?! (?:the )?(?:new )?(?:yarn|thread|wool|cotton)\b)|gather\b|cinch\b|"
    r"tighten\b|"
    r"close(?! with| (?:the )?(?:next|first|last))\b|"
    r"pull\b(?! up (?:a |1 )?(?:lp|loop))|"
    r"draw (?:the |your )?(?:end|yarn|tail|thread|wool)\b|"
    r"draw (?:it |all |the )?(?:sts |stitches )?(?:tightly )?(?:together|tight)(?=\s*(?:[.,;]|\Z))|"
    r"draw up(?: tightly)?(?: and (?:fasten|secure|sew)\b|(?=\s*(?:[.;,]|\Z)))|"
    r"draw (?:(?:up|in) )?(?:the )?(?:crown|top|toe|opening|hole|cent(?:er|re)|mouth|edge)\b"
    r"(?: (?:closed|shut|together|tight(?:ly)?|up|in)\b)?|cut\b|break\b|"
    r"snip\b|flatten\b|fold\b|roll\b|"
    r"(?:attach|fix|position|glue)(?! (?:the )?(?:new )?(?:yarn|thread|wool|cotton|silk|colou?r|"
    r"(?-i:[A-Z]\b|[A-Z]\w*(?: [A-Z]\w*)? (?:to|in|at|between|with) (?:the |an? )?"
    r"(?:any|same|first|last|next|top|tip|corner|cent(?:er|re)|middle|each|sps?|loops?|lps?|sts?|"
    r"sl|[hd]?dc|sc|tr|ch)\b)))\b|"
    r"leav(?:e|ing) (?:[^,;()]*?\btail\b|"
    r"(?!(?:(?:the|rem|remaining|next|last|first|\d+) ){0,4}"
    r"(?:sts?|stitch(?:es)?|sc|h?dc|h?tr|chs?)\b)"
    r"[^,;()]*(?:unstuffed|open\b|unfilled)|"
    r"(?:an? |the )?(?:long |short |good )?end (?:for|to|of)\b|"
    r"(?:an? |about |approx(?:imately)? |at least )*\d[\d./]*(?: \d+/\d+)?[½¼¾]?[ -]?"
    r"(?:cm|mm|m|in|inch|inches|yds?|yards?)\b\.?(?: (?:of|for|to) [^,;()]*)?"
    r"(?=\s*(?:[.,;()]|\Z))|"
    r"(?:an? |the |about |approx(?:imately)? )*(?:(?:long|short|good|generous|loose|\d+[ -]?"
    r"(?:cm|mm|in|inch|inches|[\"”″])) )*(?:ends?|lengths?)(?: of (?:yarn|thread|wool|cotton))?"
    r"(?=\s*(?:[.,;()]|\Z)))|"
    r"(?:the )?(?:eyes?|ears?|nose|buttons?|horns?|wings?) (?:go|sit|are (?:placed|sewn|"
    r"attached))\b|"
    r"(?:place|set) (?:the )?(?:[\d.]+ ?mm )?(?:\w+ )?(?:eyes?|button)|"
    r"set aside|put (?:\w+ )*aside|"
    r"turn (?:(?:the|your|it) )*(?:\w+ )?(?:inside|right side|right-side|RS|wrong side|WS) out|"
    r"(?:do not|don.t|dont) (?:cut|fasten|finish|break|stuff|fill|weave|twist|close|sew)\b|"
    r"us(?:e|ing) (?:the )?(?:\w+ )?(?:tail|ends?)\b|with (?:the |an? )?(?:\w+ )?(?:tail|needle)\b|"
    r"(?:continue|proceed) (?:on )?(?:with|to) (?:the )?(?:edging|border|body|sleeves?|neck|next|"
    r"second|other|heel|foot|leg|head|hand|thumb|crown|brim)\b|"
    r"rep(?:eat)? for\b(?! (?:\w+ ){0,4}"
    r"(?:sides|edges|corners|points|sections|petals|sts?|stitch(?:es)?|rnd|round|row)\b)|"
    r"revers(?:e|ing) (?:the |all )?shap|"
    r"(?:make|work) (?:a |an |the )?(?:second|another|other) "
    r"(?=(?:\w+ )?(?:piece|sleeve|front|back|side|half|square|motif|leg|arm|ear|eye|mitten|mitt|"
    r"sock|slipper|bootie|foot|hand|shoe|strap|handle|pocket|petal|leaf|flower|tie|cord|wing|fin|"
    r"one|panel|strip|flap|thumb|shoulder|edge|end|hexagon|triangle|circle|block)\b)|"
    rf"(?:make|work|complete|finish)(?: (?:it|this|the same|same|exactly))* as "
    rf"(?!(?:(?:given|described|written|set) )?(?:(?:for|in) )?(?:the )?{_A_ROW})"
    rf"(?:for|given) {_NO_ROW}|"
    r"(?:same|as) (?:as )?for (?:the )?(?:first|left|right|other|second|back|front)\b"
    rf"(?!{_A_ROW}){_NO_ROW}|"
    rf"(?:the )?same as (?:the )?(?:first|1st|other|second|left|right)\b(?!{_A_ROW}){_NO_ROW}|"
    r"(?:sl st|slip stitch|sc|single crochet|join|whip ?stitch) (?:the )?(?:\w+ ){0,2}"
    r"(?:ends?|edges?|sides?|seams?) together|"
    r"(?:sl st|slip stitch|ss|sc|single crochet|join) (?:it|them|(?:the )?(?:\w+ ){0,2}"
    r"(?:opening|top|bottom|toe|heel|crown|seam|hole)) (?:closed|shut|together)\b|"
    r"(?:sl st|slip stitch|ss|sc|dc|(?:single|double) crochet|join|whip ?stitch) "
    r"(?:(?:through|in) both (?:layers|thicknesses|edges) (?:to join )?)?(?:the )?"
    r"(?:(?:last|first|final|short|long|side) )?(?:rows?|rnds?|rounds?|edges?|ends?|sides?)"
    r"(?: \d+)? (?:and|to|with) (?:the )?"
    r"(?:foundation|starting|beginning|first|last|rows?|rnds?|rounds?|other|opposite)\b|"
    r"(?:make|work) (?:as many\b|"
    r"(?:\d+|two|three|four|five|six|seven|eight|nine|ten|twelve) (?:more )?"
    r"(?:strips|motifs|pieces|medallions|hexagons|triangles|squares|blocks)\b)|"
    r"the (?:cotton|thread|yarn|wool|silk) is (?:cut|broken|fastened)\b|"
    r"optional\b|note\b|about \d+|approximately \d+"
    r")"
)


def making_up(stream: Stream) -> bool:
    """Pass a sentence about stuffing, sewing, ends of yarn; False if none begins here."""
    if ignoring_case(_MAKING_UP).match(stream.text, stream.start) is None:
        return False
    mark, start = stream.here(), stream.start
    stream.take()
    pass_words(stream)
    if ignoring_case(_SHAPING).search(stream.text, start, stream.end) is not None:
        stream.back_to(mark)  # "stuff firmly and continue decreasing"
        return False
    return True


#: words of shaping, which no making up has in it
_SHAPING = (
    r"\b(?:de|in)creas(?:e|es|ing)\b|\bunworked\b|\bnext (?:\w+ )?(?:rows?|rounds?|rnds?)\b|"
    r"\bwork(?:ing)? (?:an?|one|two|\d+|the) (?:\w+ )?(?:rows?|rounds?|rnds?|border|edging)\b|"
    r"\b(?:with|in|of|by) (?:an? )?(?:round |row |border |edging |of )*"
    r"(?:(?:single|double|half|treble) )*(?:crochet|trebles?)\b(?! hook)|"
    r"\b(?:round|row|border|edging) of (?:slip|crab|picots?|shells?)\b|"
    r"\b(?:begin|start) again\b|\bpick up (?:the )?(?:sts|stitches)\b|\bextra (?:st|stitch)\b|"
    r"\b(?:last|every) (?:two|three|four|2|3|4) (?:sts|stitches)(?! of)\b|"
    r"\badd(?:ing)? an? (?:st|stitch|border|edging|row|round)\b|"
    r"\bhalf (?:of )?its (?:sts|stitches)|"
    r"\bpull out\b|\bwith a chain of\b"
)


def pass_words(stream: Stream, *, through_commas: bool = True) -> None:
    """Pass to the end of the sentence, or to where a step is worked again (", ch 3")."""
    while not stream.at_end():
        token = stream.token
        if token.kind == "mark":
            if token.word in (";", ":") or _ends_sentence(stream):
                return
            if token.word == "-" and _count_behind_dash(stream):
                return  # "cut yarn — 12 scallops, 12 sc, 60 dc"
            if token.word in ("(", "[") and _counts_at_end(stream):
                return
            if token.word == "," and not through_commas:
                return
        if _goes_on(stream, stream.at) or _works_at(stream, stream.at):
            return
        stream.take()


def _count_behind_dash(stream: Stream) -> bool:
    """Whether a dash closes the row with numbers: its stated count."""
    behind = stream.ahead()
    spaced = stream.token.start and stream.text[stream.token.start - 1].isspace()
    unit = stream.ahead(2).kind in ("stitch", "grp", "chn") or stream.ahead(2).word in ("st", "ch")
    counted = unit or stream.ahead(3).kind in ("mark", "end")
    return bool(spaced) and behind.kind in ("num", "formula") and counted


def _ends_sentence(stream: Stream) -> bool:
    """Whether the stop ends a sentence, and parts no digits ("1.5 cm")."""
    after = stream.ahead()
    return stream.is_mark(".") and not (after.kind == "num" and after.start == stream.token.end)


def _counts_at_end(stream: Stream) -> bool:
    """Whether the bracket closes the row with a number: its stated count."""
    closing = stream.closing()
    at = closing + 1 if closing >= 0 else stream.at
    while closing >= 0 and stream.tokens[at].word == ".":
        at += 1
    return stream.ahead().kind in ("num", "formula") and stream.tokens[at].kind == "end"


def _goes_on(stream: Stream, at: int) -> bool:
    """Whether a token leads back to stitches: ", ch 3", "and sc in next st", "with 2 sc in it"."""
    match stream.tokens[at].word:
        case "," | "and" | "then" | "but":
            return _step_behind(stream, at)
        case "with" | "by":
            # "replace the middle ch with 1 dc into next motif" tells how a motif is joined
            return "replace" not in stream.said and _counted_behind(stream, at)
        case _:
            return False


def _step_behind(stream: Stream, at: int) -> bool:
    """Whether behind the comma or "and" at a token a step is worked."""
    last = len(stream.tokens) - 1
    at = min(at + 1, last)
    while stream.tokens[at].word in ("and", "then", "(", "[", "*", *_VERBS):
        at += 1
    after = stream.tokens[at]
    if after.word in ("in", "with") and not stream.said.isdisjoint(_VERBS):
        return _works_before_mark(stream, at)
    if after.kind == "num":
        return _counted_behind(stream, at - 1)
    return after.kind == "stitch" or (after.kind == "word" and after.word in _STEPS)


def _counted_behind(stream: Stream, at: int) -> bool:
    """Whether behind a token stand so many stitches: "with 2 sc", "and 2 more sc", "with 2 sts".

    How far two things stand apart is no work: "with 6 sts between them", "five sts apart".
    """
    number, *others = stream.tokens[at + 1 : at + 5]
    if number.kind != "num":
        return False
    if others and others[0].word in ("more", "further", "extra"):
        others = others[1:]
    if others and others[0].word == "st":
        return len(others) > 1 and others[1].kind in ("mark", "end")
    return bool(others) and (others[0].kind == "stitch" or others[0].word == "ch")


def _works_before_mark(stream: Stream, at: int) -> bool:
    """Whether behind "in each st", "with B" a step is named before the next comma."""
    while stream.tokens[at].kind not in ("mark", "end"):
        if _works_at(stream, at):
            return True
        at += 1
    return False


# --- headings ------------------------------------------------------------------------------

#: words of a heading that say how the part is worked
_FLAT = re.compile(
    r"\bwork(?:ed|ing)? (?:back and forth )?(?:in (?:turned )?rows|flat|back and forth)\b",
    re.IGNORECASE,
)
_LONGEST_HEADING = 9
#: words that no name of a part has in it
NO_NAME = _STEPS | frozenset(
    "even straight until patt same around across each next st sp lp unworked leave leaving".split()
)


#: words with which a phrase begins that speaks of a part and names none
NO_PART = NO_NAME | frozenset("work cont as with for at on of in from to make".split())


def names_part(words: str) -> bool:
    """Whether words name a part of a piece ("First shoulder")."""
    return ignoring_case(_PARTS).search(words) is not None


def heading(stream: Stream) -> bool:
    """Pass a line that only names a part ("Thumb", "Shape armholes", "Leg (make 2)")."""
    text = stream.text[stream.start :]
    if text[1:2].isupper() and _in_capitals(text):
        stream.pass_to(len(stream.text))
        return True
    if text.rstrip(" :").endswith(")") and _with_remark(stream):
        return True
    if (
        len(stream.tokens) - stream.at > _LONGEST_HEADING
        or ignoring_case(_PARTS).search(text) is None
    ):
        return False
    mark = stream.at
    while not stream.at_end():
        token = stream.take()
        bracketed = token.kind == "num" and stream.tokens[stream.at - 2].word in ("make", "2x")
        plain = token.kind in ("word", "ord") and token.word not in NO_NAME
        plain = plain or (token.word == "join" and stream.is_word("rnd"))
        if not (plain or bracketed or token.word in (",", ":", "(", ")", "-", "&", "/", "[", "]")):
            stream.at = mark
            return False
    return True


#: a part, and in brackets how it is worked or how many are made
_REMARKED = (
    r"\s*[a-z][a-z' -]{1,30}\s*\((?:make|both|work(?:ed|ing)?|in|continuous|joined|rows|rounds)\b"
    r"[^()]*\)\s*:?\s*\Z"
)


def _with_remark(stream: Stream) -> bool:
    """Pass "HAND (make 2; thumb and fingers are the same on both)": nothing is worked in it."""
    found = ignoring_case(_REMARKED).match(stream.text, stream.start)
    if found is None:
        return False
    opening = next(at for at, token in enumerate(stream.tokens) if token.word == "(")
    inside = stream.tokens[opening:-1]
    name = stream.tokens[stream.at : opening]
    plain = all(token.kind in ("word", "ord") and token.word not in NO_NAME for token in name)
    if not plain or any(token.kind in ("stitch", "grp", "chn", "formula") for token in inside):
        return False
    stream.pass_to(len(stream.text))
    return True


def _in_capitals(text: str) -> bool:
    """Whether a line is a title in capitals ("POPCORN SQUARE"), and no step."""
    words = text.split()
    plain = all(word.isalpha() and word.isupper() for word in words)
    if not plain or not 0 < len(words) <= _TITLE_WORDS or len(text.strip()) < len("TAB"):
        return False
    return _NO_TITLE.isdisjoint(text.lower().split())


_TITLE_WORDS = 6
#: words that no title in capitals has in it
_NO_TITLE = NO_NAME | frozenset(
    "work cont continue in sc dc hdc tr htr dtr every all to until repeat increase decrease skip "
    "chain round rounds row rows rnd rnds picot shell cl cluster off break cut fasten as".split()
)


def is_flat(text: str) -> bool:
    """Whether a heading says that its part is worked in rows."""
    return _FLAT.search(text) is not None
