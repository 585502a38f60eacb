"""Published rules of safety for what is worn, slept with, played with, and worked at for long.

Takes     the CSV file ``safety.csv`` beside it.
Gives     ``SafetyRule``, ``safety_rules``, ``safety_rule``.
Problems  none.
From      the sources named in the column ``citation``; the rules are told in words of our own.

Ages that decide are whole months, the last one included; a rule by size of clothing takes the size
as years of age (common practice). A rule that is recalled and was not looked up prints no number.
"""

from __future__ import annotations

from functools import cache

from workeven.records import record
from workeven.standards.tables import Origin, integer, origin, rows


@record
class SafetyRule:
    """A published rule: what it is about, where it holds, for which ages, its numbers.

    ``ages`` and ``numbers`` are as published ("" where there are none); ``first_month`` and
    ``last_month`` are the ages in months, None where it names none or has no end.
    """

    key: str
    topic: str
    region: str
    rule: str
    ages: str
    first_month: int | None
    last_month: int | None
    numbers: str
    origin: Origin

    def concerns(self, youngest: int, oldest: int | None) -> bool:
        """Whether somebody of these ages in months is among those it is for.

        >>> hood, parts = safety_rule("hood cord US"), safety_rule("small parts US")
        >>> hood.concerns(36, 83), parts.concerns(36, 83)
        (True, False)
        """
        before = self.first_month is not None and oldest is not None and oldest < self.first_month
        return not before and (self.last_month is None or youngest <= self.last_month)

    def said(self) -> str:
        """The rule as a line of text; what is recalled gives no number and says so.

        >>> safety_rule("weighted").said()
        'US, infants: no weighted blankets, sleepers or swaddles on or near the infant.'
        """
        general = self.region == "general"
        where = "" if general else ", ".join(filter(None, (self.region, self.ages)))
        rule = f"{where}: {self.rule}" if where else f"{self.rule[:1].upper()}{self.rule[1:]}"
        if self.origin.citation == "common practice":
            return f"{rule} (common practice)."
        if self.origin.status == "memory":
            return f"{rule} (recalled, not looked up: read the rule itself)."
        return f"{rule}; {self.numbers}." if self.numbers else f"{rule}."


@cache
def safety_rules() -> tuple[SafetyRule, ...]:
    """All rules, in the order of the table."""
    return tuple(
        SafetyRule(
            key=row["key"],
            topic=row["topic"],
            region=row["region"],
            rule=row["rule"],
            ages=row["ages"],
            first_month=integer(row["from_months"]),
            last_month=integer(row["to_months"]),
            numbers=row["numbers"],
            origin=origin(row),
        )
        for row in rows("safety.csv")
    )


def safety_rule(key: str) -> SafetyRule:
    """The rule of that key (KeyError: a bug).

    >>> safety_rule("hood cord US").ages
    'sizes 2T to 12'
    """
    return _by_key()[key]


@cache
def _by_key() -> dict[str, SafetyRule]:
    return {rule.key: rule for rule in safety_rules()}
