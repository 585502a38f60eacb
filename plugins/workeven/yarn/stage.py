"""The stage itself: what is worked in each yarn, times what a stitch takes, with the margin.

Takes     ``ProvenPattern``.
Gives     ``Checked[YarnNeeds]``.
Problems  ``yarn-no-swatch``, ``yarn-unknown-stitch``, ``yarn-unused``, ``yarn-zero``,
          ``yarn-empty-swatch``, ``yarn-colour-unsaid``, ``yarn-too-many-balls``.
From      ``standards``: swatch grams × stitches of the piece / stitches of the swatch; length by
          the put-up's length to its mass; balls whole, up.

Seams and ends are not counted: the margin is for them too.
"""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction

from workeven.arithmetic.quantities import decimal
from workeven.pattern import Pattern, Swatch, Yarn
from workeven.problems import Checked, Note, Problem
from workeven.problems.words import joined, quote
from workeven.proof import ProvenPattern
from workeven.yarn import rates as by_stitch
from workeven.yarn.held import held_with, mixed, share_of
from workeven.yarn.limits import too_many_balls
from workeven.yarn.needs import NoAmount, YarnNeed, YarnNeeds
from workeven.yarn.rates import CHAIN, Rates, Weighed
from workeven.yarn.tally import Tally, tallies

#: The least margin where published proportions stand in for a swatch: tests of yarn by stitch
#: disagree by some 15 % (``standards``, faults of ``yarn_consumption.csv``).
LEAST_MARGIN_BY_PROPORTION = Fraction(1, 5)
#: Chains and slip stitches are taken by proportion; where they take more than this part of the
#: yarn, the amount has the larger margin.
MOST_CHAINS = Fraction(1, 10)


def estimate(proven: ProvenPattern) -> Checked[YarnNeeds]:
    """The amount of every yarn in every size; a yarn without one is named, and why.

    Errors are for figures that cannot be right (a swatch that weighs nothing); that a swatch is
    missing is advice.
    """
    problems: list[Problem] = []
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
    return Checked(
        value=YarnNeeds(needs=tuple(needs), without=tuple(without)), problems=tuple(problems)
    )


def _estimate(proven: ProvenPattern, tally: Tally) -> tuple[YarnNeed | NoAmount, list[Problem]]:
    pattern, yarn = proven.graded.pattern, tally.yarn
    together = {yarn.name, *(tally.beside() or ((),))[0]}
    share = share_of(pattern, yarn, together)
    swatches = [
        (swatch, Weighed(mass=swatch.mass * share, stitches=by_stitch.plain(worked)))
        for swatch, worked in zip(pattern.swatches, proven.swatches, strict=True)
        if {swatch.of, *swatch.beside} == together
    ]
    wrong = [*_zeros(yarn, swatches), *_empty(swatches)]
    if wrong:
        return NoAmount(yarn=yarn, reason="its figures cannot be right"), wrong
    if (reason := mixed(tally)) is not None:
        return NoAmount(yarn=yarn, reason=reason), []
    told = by_stitch.rates(weighed for _, weighed in swatches)
    if not swatches and _of_no_yarn(pattern):
        return NoAmount(yarn=yarn, reason="no swatch of it was weighed"), []
    for check in (_unused, _open, _no_swatch, _unknown_stitches):
        if found := check(yarn, tally, told):
            reason, problem = found
            return NoAmount(yarn=yarn, reason=reason), [problem] if problem else []
    return _need(pattern, yarn, tally, told, [weighed for _, weighed in swatches]), []


def _of_no_yarn(pattern: Pattern) -> bool:
    """Whether a swatch is of a yarn that is not given, which has been told where it stands."""
    return not {swatch.of for swatch in pattern.swatches} <= {yarn.name for yarn in pattern.yarns}


# --- the amount ----------------------------------------------------------------------------


def _need(
    pattern: Pattern, yarn: Yarn, tally: Tally, told: Rates, swatches: list[Weighed]
) -> YarnNeed:
    derived = tuple(name for name in tally.kinds() if name in told.derived and name != CHAIN)
    derived = tuple(name for name in derived if name not in told.shown)
    bare = pattern.sizes.each(tuple(map(told.mass, tally.stitches)))
    chains = any(
        stitches.get(CHAIN, 0) * (told.chain or Fraction(0)) > MOST_CHAINS * grams
        for stitches, grams in zip(tally.stitches, bare, strict=True)
    )
    by_proportion = bool(derived) or chains
    margin = max(pattern.margin, LEAST_MARGIN_BY_PROPORTION) if by_proportion else pattern.margin
    mass = bare.map(lambda grams: grams * (1 + margin))
    put_up = yarn.put_up
    return YarnNeed(
        yarn=yarn,
        length=mass.map(lambda grams: grams * put_up.length / put_up.mass),
        mass=mass,
        balls=mass.map(lambda grams: (grams / put_up.mass).__ceil__()),
        margin=margin,
        method=_method(swatches, tally, told, derived),
    )


def _method(swatches: list[Weighed], tally: Tally, told: Rates, derived: tuple[str, ...]) -> str:
    """How the amount was computed, in one sentence."""
    weighed = joined(f"{decimal(one.mass, 2)} g for {_listed(one)}" for one in swatches)
    words = (
        f"Computed from all stitches of the rows and the weighed swatch{_es(swatches)} ({weighed})"
    )
    if derived:
        words += f"; {joined(derived)} by published proportions, {by_stitch.proportions()}"
    if CHAIN in tally.kinds():
        words += f"; {_chain_words(told)}"
    if derived or (CHAIN in tally.kinds() and told.chain is not None):
        words += f" (measured in unravelled swatches, {by_stitch.citation()})"
    return words


def _chain_words(told: Rates) -> str:
    if told.chain is None:
        return "chains and slip stitches left to the stitches, as in the swatch"
    name = next(name for name in (*told.shown, *told.derived) if by_stitch.chain_share(name))
    share = by_stitch.chain_share(name) or Fraction(0)
    return f"a chain or slip stitch taken as {decimal(share, 2)} of a {name}"


def _listed(swatch: Weighed) -> str:
    return joined(
        f"{count} chain{'' if count == 1 else 's'}" if name == CHAIN else f"{count} {name}"
        for name, count in sorted(swatch.stitches.items(), key=lambda item: item[0] == CHAIN)
    )


def _es(swatches: list[Weighed]) -> str:
    return "" if len(swatches) == 1 else "es"


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


def _no_swatch(yarn: Yarn, tally: Tally, told: Rates) -> _Why | None:
    if told.shown or told.derived:
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
    return f"no swatch of it shows {joined(missing)}", Problem(
        code="yarn-unknown-stitch",
        span=yarn.span,
        found=f"No swatch of {quote(yarn.name)} tells how much yarn {names} "
        f"{'take' if len(missing) > 1 else 'takes'}, so no amount of it is given.",
        expected="From a swatch in sc, hdc or dc the other two follow, and chains; no others do.",
        mend=f"Add a weighed swatch in {names} alone."
        if len(missing) == 1
        else f"Add weighed swatches, one in each of {names}.",
        notes=tuple(
            Note(span=row.row.span, message=f"{quote(name)} is worked here.")
            for name, row in zip(missing, places, strict=True)
        ),
    )


# --- figures that cannot be right ----------------------------------------------------------


def _zeros(yarn: Yarn, swatches: list[tuple[Swatch, Weighed]]) -> Iterator[Problem]:
    if min(yarn.put_up.length, yarn.put_up.mass) <= 0:
        yield Problem(
            code="yarn-zero",
            span=yarn.span,
            found=f"The put-up of {quote(yarn.name)} holds a zero.",
            mend="Write the length and the mass of one ball, as on its label.",
        )
    for swatch, _ in swatches:
        if swatch.mass <= 0:
            yield Problem(
                code="yarn-zero",
                span=swatch.mass_span,
                found=f"The swatch of {quote(yarn.name)} weighs nothing.",
                mend="Weigh the swatch, to a tenth of a gram if you can, and write its mass.",
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
