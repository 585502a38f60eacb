"""The stage itself: what is worked in each yarn, what a stitch takes, what samples say.

Takes     ``ProvenPattern``.
Gives     ``Checked[YarnNeeds]``.
Problems  ``yarn-no-swatch``, ``yarn-unknown-stitch``, ``yarn-unused``, ``yarn-zero``,
          ``yarn-empty-swatch``, ``yarn-swatches-contradict``; those of ``tally``, ``coarse``,
          ``limits``, ``samples`` and ``printed``.
From      ``standards``: swatch grams × stitches of the piece / stitches of the swatch.

A yarn of which every stitch is told has an amount (``amount``). Of another the pieces whose
stitches are told are given, and why there is no more.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from workeven.pattern import Pattern, Swatch, Yarn
from workeven.problems import Checked, Note, Problem
from workeven.problems.words import joined, quote
from workeven.proof import ProvenPattern
from workeven.proof.proven import Counted
from workeven.records import replace
from workeven.yarn import rates as by_stitch
from workeven.yarn.amount import need_of, nothing_of, sum_of, total
from workeven.yarn.clusters import apart, clusters
from workeven.yarn.coarse import coarse
from workeven.yarn.held import held_with, mixed, share_of
from workeven.yarn.limits import too_many_balls
from workeven.yarn.needs import NoAmount, YarnNeed, YarnNeeds
from workeven.yarn.rates import Plain, Rates, Weighed
from workeven.yarn.samples import as_weighed, calibration, contradictions, sample_problems
from workeven.yarn.tally import Tally, tallies

#: how a problem ends that leaves a yarn without an amount in all
_NO_AMOUNT = "so no amount of it is given."


def estimate(proven: ProvenPattern) -> Checked[YarnNeeds]:
    """The amount of every yarn in every size; a yarn without one is named, and why.

    Errors are for figures that cannot be right (a swatch that weighs nothing); that a swatch is
    missing is advice.
    """
    problems: list[Problem] = list(sample_problems(proven))
    needs: list[YarnNeed] = []
    without: list[NoAmount] = []
    for tally in tallies(proven):
        need, faults = _estimate(proven, tally)
        problems.extend((*faults, *tally.problems))
        if isinstance(need, YarnNeed):
            problems.extend(too_many_balls(need))
            needs.append(need)
        else:
            without.append(need)
    if proven.graded.pattern.amounts:
        from workeven.yarn.printed import printed_problems  # few designers list their own

        by_name = {need.yarn.name: need for need in needs}
        problems.extend(printed_problems(proven.graded.pattern, by_name))
    return Checked(
        value=YarnNeeds(needs=tuple(needs), without=tuple(without)), problems=tuple(problems)
    )


def _estimate(proven: ProvenPattern, tally: Tally) -> tuple[YarnNeed | NoAmount, list[Problem]]:
    pattern, yarn = proven.graded.pattern, tally.yarn
    together = {yarn.name, *(tally.beside() or ((),))[0]}
    share = share_of(pattern, yarn, together)
    swatches = [
        (swatch, Weighed(mass=swatch.mass * share, stitches=_weighed(pattern, swatch, worked)))
        for swatch, worked in zip(pattern.swatches, proven.swatches, strict=True)
        if {swatch.of, *swatch.beside} == together
    ]
    wrong = [*_zeros(yarn, swatches), *_empty(swatches)]
    if wrong:
        return NoAmount(yarn=yarn, reason="its figures cannot be right"), wrong
    if (reason := mixed(tally)) is not None:
        return NoAmount(yarn=yarn, reason=reason), []
    weighed = [one for _, one in swatches]
    told, fitted = _told(proven, tally, weighed)
    if not told.shown and not told.derived and _of_no_yarn(pattern):
        return NoAmount(yarn=yarn, reason="no swatch of it was weighed"), []
    for check in (_unused, _open, _impossible, _no_swatch, _unknown_stitches):
        if found := check(yarn, tally, told):
            reason, problem = found
            nothing = nothing_of(pattern, tally, told, reason)
            return nothing, [_with_pieces(problem, nothing)] if problem else []
    lines = sum_of(tally, told, pattern.sizes)
    said = calibration(proven, yarn, total(lines, pattern.sizes), fitted=fitted)
    need = need_of(pattern, tally, told, lines, weighed, said)
    return need, [
        *coarse(swatches, tally, pattern.sizes, need.margin),
        *contradictions(pattern, need),
    ]


def _weighed(pattern: Pattern, swatch: Swatch, worked: Counted) -> Plain:
    """The stitches of a swatch."""
    return by_stitch.plain(apart(worked, clusters(swatch.rows, pattern.stitches)))


def _told(proven: ProvenPattern, tally: Tally, weighed: list[Weighed]) -> tuple[Rates, bool]:
    """What a stitch takes, and whether finished samples were weighed for it.

    They are where there is no swatch, and where the swatches leave a stitch that samples tell.
    """
    told = by_stitch.rates(weighed, by_stitch.ONE_SWATCH if len(weighed) == 1 else "the swatches")
    if weighed and not any(map(told.unknown, tally.stitches)):
        return told, False
    samples = as_weighed(proven, tally)
    by = "swatches and finished samples" if weighed else "the finished samples"
    both = by_stitch.rates([*weighed, *samples], by) if samples else told
    if not weighed:
        return both, True
    better = both is not told and not any(map(both.unknown, tally.stitches))
    return (both, True) if better and not both.impossible else (told, False)


def _of_no_yarn(pattern: Pattern) -> bool:
    """Whether a swatch is of a yarn that is not given, which has been told where it stands."""
    return not {swatch.of for swatch in pattern.swatches} <= {yarn.name for yarn in pattern.yarns}


# --- why there is none ---------------------------------------------------------------------

_Why = tuple[str, Problem | None]


def _unused(yarn: Yarn, tally: Tally, _told: Rates) -> _Why | None:
    if tally.kinds():
        return None
    return "no part of the pattern says that it is worked in it", Problem(
        code="yarn-unused",
        span=yarn.span,
        found=f"No section is worked in the yarn {quote(yarn.name)}, so no amount of it is given.",
        expected="A section without `yarn` is worked in the first yarn of the pattern.",
        mend=f"Write `yarn: {yarn.name}` in the sections that are worked in it, or take it out.",
    )


def _open(_yarn: Yarn, tally: Tally, _told: Rates) -> _Why | None:
    """Why the number of rows is open has been told by the proof (``gauge-no-rows``)."""
    return ("how many rows are worked is left open", None) if tally.open_rows else None


def _impossible(yarn: Yarn, _tally: Tally, told: Rates) -> _Why | None:
    if not told.impossible:
        return None
    names = joined(map(quote, told.impossible))
    return "its swatches contradict each other", Problem(
        code="yarn-swatches-contradict",
        span=yarn.span,
        found=f"By the swatches of {quote(yarn.name)} together, {names} would take less than "
        "nothing.",
        expected="Masses that go together: a swatch of two stitches weighs more than its first "
        "stitch does alone.",
        mend="Weigh the swatches again (0.1 g matters here), and look whether their rows are those "
        "that were worked.",
    )


def _no_swatch(yarn: Yarn, tally: Tally, told: Rates) -> _Why | None:
    if told.shown or told.derived or told.together:
        return None
    return "no swatch of it was weighed", Problem(
        code="yarn-no-swatch",
        span=yarn.span,
        found=f"No swatch of {quote(yarn.name)}{held_with(tally)} tells how much yarn a stitch "
        "takes, so no amount of it is given.",
        mend="Work a swatch in one stitch, weigh it, and give it under `swatches`: `of`, `mass`, "
        "`rows`.",
    )


def _unknown_stitches(yarn: Yarn, tally: Tally, told: Rates) -> _Why | None:
    missing = dict.fromkeys(name for stitches in tally.stitches for name in told.unknown(stitches))
    if not missing:
        return None
    names = joined(map(quote, missing))
    places = (tally.first[name] for name in missing)
    mend = _cure(missing, told)
    return f"no swatch of it shows {joined(missing)}", Problem(
        code="yarn-unknown-stitch",
        span=yarn.span,
        found=f"No swatch of {quote(yarn.name)} tells how much yarn {names} "
        f"{'take' if len(missing) > 1 else 'takes'}, {_NO_AMOUNT}",
        expected="From a swatch in sc, hdc or dc the other two follow, and chains; no others do.",
        mend=mend,
        notes=tuple(
            Note(span=row.row.span, message=f"{quote(name)} is worked here.")
            for name, row in zip(missing, places, strict=True)
        ),
    )


def _cure(missing: Iterable[str], told: Rates) -> str:
    """Which swatches to add, in words."""
    names = joined(map(quote, missing))
    together = [name for name in missing if name in told.together]
    if together:
        shows = f"{told.by.capitalize()} show{'s' if told.by == by_stitch.ONE_SWATCH else ''}"
        return (
            f"{shows} {joined(map(quote, told.together))} only together: add a weighed swatch in "
            f"{quote(together[0])} alone."
        )
    if len(tuple(missing)) == 1:
        return f"Add a weighed swatch in {names} alone."
    return f"Add weighed swatches, one in each of {names}."


def _with_pieces(problem: Problem, nothing: NoAmount) -> Problem:
    """The problem, with what the page gives all the same: the pieces that are told."""
    if not nothing.pieces or not nothing.untold:
        return problem
    titles = dict.fromkeys(one.title for one in nothing.pieces)
    given = (
        f"so no amount of {joined(nothing.untold)} is given, and none in all. The page gives that "
        f"of {joined(titles)}."
    )
    return replace(problem, found=problem.found.replace(_NO_AMOUNT, given))


# --- figures that cannot be right ----------------------------------------------------------


def _zeros(yarn: Yarn, swatches: list[tuple[Swatch, Weighed]]) -> Iterator[Problem]:
    if min(yarn.put_up.length, yarn.put_up.mass) <= 0:
        yield Problem(
            code="yarn-zero",
            span=yarn.span,
            found=f"The put-up of {quote(yarn.name)} holds a zero.",
            mend="Write the length and the mass of one ball, as on its label.",
        )
    for other in yarn.also:
        if min(other.put_up.length, other.put_up.mass) <= 0:
            yield Problem(
                code="yarn-zero",
                span=other.span,
                found=f"The put-up of {quote(other.label)} holds a zero.",
                mend="Write the length and the mass of one ball, as on its label.",
            )
    for swatch, _ in swatches:
        if swatch.mass <= 0:
            yield Problem(
                code="yarn-zero",
                span=swatch.mass_span,
                found=f"The swatch of {quote(yarn.name)} weighs nothing.",
                mend="Weigh the swatch (0.1 g matters here), and write its mass.",
            )


def _empty(swatches: list[tuple[Swatch, Weighed]]) -> Iterator[Problem]:
    for swatch, weighed in swatches:
        unread = any(row.body is None for row in swatch.rows)  # which has been told
        if not weighed.kinds() and not unread:
            yield Problem(
                code="yarn-empty-swatch",
                span=swatch.span,
                found=f"The swatch of {quote(swatch.of)} has no stitches but chains.",
                mend="Write the rows that the swatch was worked with, in the pattern's stitch.",
            )
