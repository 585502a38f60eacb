"""What may not be published, and what a designer should look at again.

Takes     ``Pattern`` and its ``Purpose``.
Gives     problems.
Problems  ``caution-ages``, ``caution-cord``, ``caution-cord-place``, ``caution-cord-length``,
          ``caution-small-part``, ``caution-part-size``, ``caution-other``, ``caution-melting``,
          ``caution-unlisted``.
From      ``standards/safety.csv``; design.md: decided from ``audience``, ``use`` and ``notions``.

Where the United States or the European Union publish a ban for the ages of the pattern, it is an
error; the stricter of the two is taken. A rule that limits lengths, which a file does not hold, is
advice with the numbers.
"""

from __future__ import annotations

import re
from collections.abc import Callable, Iterator

from workeven.pattern import Notion, Pattern
from workeven.problems import Problem, Span
from workeven.problems.words import joined, quote
from workeven.safety.cautions import CERTIFIES_NOTHING
from workeven.safety.purpose import (
    CORDS,
    FASTENERS,
    HOT,
    PARTS_OF_ANY_SIZE,
    SMALL_PARTS,
    Purpose,
    texts,
)
from workeven.safety.usual import (
    HAT_CORDS,
    NECK_CORDS,
    OTHER_CORDS,
    THREE_YEARS,
    clothes_of_the_youngest,
    toy_for_the_youngest,
)
from workeven.standards.safety import SafetyRule, safety_rule

#: Months of age at which somebody is no child any more, and no baby (common practice).
_GROWN, _PAST_BABY = 18 * 12, 2 * 12
#: From this age on no rule on children's clothes or toys is left (safety.csv: "7 to 14 years").
_PAST_RULES = 14 * 12

_AT_THE_NECK = ("hood", "neck")
_AT_THE_HEAD = ("head", "face", "ear")

#: Words by which a text tells that there is a cord or a part; "button band" and "buttonhole" tell
#: of the button, and "no" or "instead" in the sentence that there is none.
_TOLD = {
    "cord": re.compile(r"\b(?:cords?|drawstrings?|ribbons?|ties)\b", re.IGNORECASE),
    "part": re.compile(r"\b(?:buttons?|beads?|snaps?|safety (?:eyes?|nose)s?)\b", re.IGNORECASE),
}
_DENIED = re.compile(
    r"\b(?:no|not|never|none|without|instead|nor|[a-z]+n't|[a-z]+n’t)\b", re.IGNORECASE
)
_SENTENCES = re.compile(r"(?<=[.!?;:])\s+")


def checked(pattern: Pattern, purpose: Purpose) -> tuple[Problem, ...]:
    """All problems, in the order of the checks; where the ages do not fit, that alone."""
    wrong = tuple(ages_of_others(pattern, purpose))
    if wrong:
        return wrong
    return tuple(problem for check in CHECKS for problem in check(pattern, purpose))


def ages_of_others(pattern: Pattern, purpose: Purpose) -> Iterator[Problem]:
    """The ages are not those of the audience."""
    ages = pattern.ages
    if ages is None:
        return
    fits = {
        "adult": ages.youngest >= _PAST_RULES,
        "child": ages.youngest < _GROWN,
        "baby": ages.youngest < _PAST_BABY,
        "pet": False,
    }
    if not fits[purpose.audience]:
        yield Problem(
            code="caution-ages",
            span=ages.span,
            found=f"The audience is {purpose.audience}, and the ages are {ages.text}.",
            expected="A baby is under 2 years when it begins to fit, a child under 18, an adult 14 "
            "or older; a pet has no ages.",
            mend="Write the `audience` to which the ages belong (`child` for most), or delete "
            "`ages`.",
        )


def cord_at_the_neck(pattern: Pattern, purpose: Purpose) -> Iterator[Problem]:
    """A cord at hood or neck, within the ages for which one is banned."""
    for notion in _notions(pattern, CORDS):
        bans = _concerning(purpose, NECK_CORDS)
        if notion.at in _AT_THE_NECK and purpose.worn and bans:
            yield Problem(
                code="caution-cord",
                span=notion.span,
                found=f"A {notion.kind} goes to the {notion.at}, and the pattern is for "
                f"{purpose.whom}.",
                expected=_told("None there", bans),
                mend="Close hood and neck without a cord: with a shaped edge, elastic in a casing "
                "or a fastening that is sewn on firmly. Then delete the notion.",
            )


def cord_without_a_place(pattern: Pattern, purpose: Purpose) -> Iterator[Problem]:
    """A cord in clothes of children that does not say where it goes."""
    for notion in _notions(pattern, CORDS):
        bans = _concerning(purpose, NECK_CORDS)
        if notion.at is None and purpose.worn and bans:
            yield Problem(
                code="caution-cord-place",
                span=notion.span,
                found=f"A {notion.kind} is needed, and nothing says where it goes; the pattern is "
                f"for {purpose.whom}.",
                expected=_told("At hood and neck none is allowed", bans),
                mend="Write its place, such as `at: waist`.",
            )
    yield from _cord_of_yarn(pattern, purpose)


def _cord_of_yarn(pattern: Pattern, purpose: Purpose) -> Iterator[Problem]:
    """A cord under ``trimmings``, which holds no places, and no notion that tells its own."""
    bans = _concerning(purpose, NECK_CORDS)
    if not purpose.worn or not bans or purpose.kinds & CORDS:
        return
    for trimming in pattern.trimmings:
        if trimming.kind == "cord" and any(trimming.amount):
            yield Problem(
                code="caution-cord-place",
                span=trimming.span,
                found="A cord is made of the yarn, and nothing says where it goes; the pattern is "
                f"for {purpose.whom}.",
                expected=_told("At hood and neck none is allowed", bans),
                mend="List it under `notions` too, with its place: `{kind: cord, at: waist}`.",
            )


def cord_elsewhere(pattern: Pattern, purpose: Purpose) -> Iterator[Problem]:
    """A cord in clothes of children at a place where its length is limited."""
    for notion in _notions(pattern, CORDS):
        if notion.at is None or notion.at in _AT_THE_NECK or not purpose.worn:
            continue
        rules = _concerning(purpose, HAT_CORDS if notion.at in _AT_THE_HEAD else OTHER_CORDS)
        if rules:
            yield Problem(
                code="caution-cord-length",
                span=notion.span,
                found=f"A {notion.kind} goes to the {notion.at}, and the pattern is for "
                f"{purpose.whom}.",
                expected=_told("Published for such cords", rules),
                mend="Do without it, or keep to the rules, say in the pattern how, and allow this "
                "advice with that as the reason.",
            )


def small_part(pattern: Pattern, purpose: Purpose) -> Iterator[Problem]:
    """A small part on a toy, or on a thing for a child under three.

    Fasteners hold clothes together and are judged apart from toys; on clothes they are a caution.
    """
    toy = toy_for_the_youngest(purpose)
    if not toy and not purpose.under(THREE_YEARS):
        return
    clothes = clothes_of_the_youngest(purpose)
    for notion in _notions(pattern, SMALL_PARTS if clothes else SMALL_PARTS | FASTENERS):
        verb = "belong" if notion.kind.endswith("s") else "belongs"
        yield Problem(
            code="caution-small-part",
            span=notion.span,
            found=f"{_named(notion.kind)} {verb} to {_thing(purpose, toy=toy)}.",
            expected=_told(_why(purpose, toy=toy), _rules_of(purpose, toy=toy)),
            mend="Embroider eyes and faces, and delete the notion. A toy for children of 3 years "
            "and more that is not filled says so with `audience: child` and its `ages`."
            if toy
            else "Embroider it or leave it off, and delete the notion.",
        )


def part_of_any_size(pattern: Pattern, purpose: Purpose) -> Iterator[Problem]:
    """A part for the youngest that may be small enough to choke on: only its size tells."""
    if not toy_for_the_youngest(purpose) and not purpose.under(THREE_YEARS):
        return
    toy = "toy" in purpose.uses
    parts = PARTS_OF_ANY_SIZE if toy else PARTS_OF_ANY_SIZE - {"zip", "handle"}
    for notion in _notions(pattern, parts):
        yield Problem(
            code="caution-part-size",
            span=notion.span,
            found=f"{_named(notion.kind)} may come out and be small enough to choke on; the "
            f"pattern is for {purpose.whom}.",
            expected=_told("Only its size tells", (safety_rule("small parts US"),)),
            mend="Name one in the `note` that is too large for that cylinder, have it tested, and "
            "allow this advice with that as the reason; or leave it off.",
        )


def other_kind(pattern: Pattern, purpose: Purpose) -> Iterator[Problem]:
    """A cord or a part that hides behind ``other``, so that no rule finds it."""
    if purpose.youngest is None and "toy" not in purpose.uses:
        return
    for notion in _notions(pattern, frozenset({"other"})):
        words = [found for told in _TOLD.values() if (found := _speaks(notion.note or "", told))]
        if words:
            yield Problem(
                code="caution-other",
                span=notion.span,
                found=f"The notion is of the kind `other`, and its note speaks of "
                f"{quote(words[0])}.",
                expected=f"The pattern is for {purpose.whom}: what is safe for whom is decided "
                "from the `kind`, so cords and small parts have theirs.",
                mend="Write the `kind` that it is, such as `cord` or `button`, and its place, "
                "`at`; or say in the note that there is none.",
            )


def melting_fibre(pattern: Pattern, purpose: Purpose) -> Iterator[Problem]:
    """A yarn that melts, for a thing that gets hot."""
    hot = sorted(purpose.uses & HOT)
    if not hot or not purpose.melting:
        return
    for yarn in pattern.yarns:
        found = [name for name in purpose.melting if name in yarn.fibre.lower()]
        if found:
            yield Problem(
                code="caution-melting",
                span=yarn.span,
                found=f"The yarn holds {joined(found)}, which melts, and the use is {joined(hot)}.",
                expected=_told("Near heat", (safety_rule("heat"),)),
                mend="Choose cotton or wool; where it never meets heat (a dishcloth), allow this "
                "advice with that as the reason.",
            )


def unlisted(pattern: Pattern, purpose: Purpose) -> Iterator[Problem]:
    """The text tells of a cord or a part, and the notions do not."""
    if purpose.youngest is None and "toy" not in purpose.uses:
        return
    wanted = {"cord": CORDS} if purpose.worn else {}
    young = toy_for_the_youngest(purpose) or purpose.under(THREE_YEARS)
    if young and not clothes_of_the_youngest(purpose):
        wanted["part"] = FASTENERS | SMALL_PARTS
    for name, kinds in wanted.items():
        told = None if purpose.kinds & kinds else _first_told(pattern, _TOLD[name])
        if told is not None:
            word, span = told
            yield Problem(
                code="caution-unlisted",
                span=span,
                found=f"The text speaks of {quote(word)}, and `notions` lists none.",
                expected=f"The pattern is for {purpose.whom}: what is safe for whom is decided "
                "from `notions`, where cords of yarn belong too.",
                mend="List it with its `kind` and its place, `at`; or say in the text that there "
                "is none.",
            )


#: The checks, in the order of their messages.
CHECKS: tuple[Callable[[Pattern, Purpose], Iterator[Problem]], ...] = (
    cord_at_the_neck,
    cord_without_a_place,
    cord_elsewhere,
    small_part,
    part_of_any_size,
    other_kind,
    melting_fibre,
    unlisted,
)


# --- parts of messages ---------------------------------------------------------------------


def _notions(pattern: Pattern, kinds: frozenset[str]) -> Iterator[Notion]:
    """The notions of these kinds that some size needs."""
    for notion in pattern.notions:
        if notion.kind in kinds and any(notion.amount):
            yield notion


def _concerning(purpose: Purpose, keys: tuple[str, ...]) -> tuple[SafetyRule, ...]:
    """Those of the rules that are for the ages of the pattern."""
    if purpose.youngest is None:
        return ()  # the table is not read for adults
    return tuple(rule for rule in map(safety_rule, keys) if purpose.concerned(rule))


def _told(head: str, rules: tuple[SafetyRule, ...]) -> str:
    """Rules for a message, a line each, closed as all cautions are."""
    return "\n".join((f"{head}.", *(rule.said() for rule in rules), CERTIFIES_NOTHING))


def _named(kind: str) -> str:
    """``A button``, ``Safety eyes``: a notion at the beginning of a sentence."""
    if kind.endswith("s"):
        return kind.capitalize()
    return f"{'An' if kind[0] in 'aeiou' else 'A'} {kind}"


def _thing(purpose: Purpose, *, toy: bool) -> str:
    if not toy:
        return f"a thing for {purpose.whom}"
    return f"a {'soft-filled ' if purpose.filled else ''}toy for {purpose.whom}"


def _why(purpose: Purpose, *, toy: bool) -> str:
    """Why it is judged as a thing for children under three."""
    if not toy or purpose.under(THREE_YEARS):
        return "Nothing small that can come off, for children under 3"
    if purpose.filled:
        return "A soft-filled toy is judged as one for children under 3, whatever age is written"
    return "A toy that does not say for which children it is, is judged as one for under 3"


def _rules_of(purpose: Purpose, *, toy: bool) -> tuple[SafetyRule, ...]:
    keys = ["small parts US"]
    if toy:
        keys += ["toy EU", "soft toy EU"] if purpose.filled else ["toy EU"]
    return tuple(map(safety_rule, keys))


def _first_told(pattern: Pattern, wanted: re.Pattern[str]) -> tuple[str, Span] | None:
    """The first such word in a sentence that does not deny it, and the text in which it is."""
    for text in texts(pattern):
        word = _speaks(text.text, wanted)
        if word:
            return word, text.span
    return None


def _speaks(text: str, wanted: re.Pattern[str]) -> str:
    """The first such word in a sentence that does not deny it, or ""."""
    for sentence in _SENTENCES.split(text):
        found = wanted.search(sentence)
        if found and not _DENIED.search(sentence):
            return found[0]
    return ""
