"""What a change does to the numbers, for programs.

Takes     ``Review``.
Gives     ``as_json``: a JSON text in ASCII.
Problems  none of its own.
From      the guide, "Reviewing a change": keys are only ever added.
"""

from __future__ import annotations

import json

from workeven.report.json_report import Plain, in_a_log, problem_plain
from workeven.review import Change, PatternReview, Renamed, Review


def as_json(review: Review, base: str) -> str:
    """``{"base": …, "patterns": […], "problems": […]}``; every pattern stands there."""
    found = {
        "base": base,
        "patterns": [_pattern(one) for one in review.patterns],
        "problems": [problem_plain(problem) for problem in review.problems],
    }
    return in_a_log(json.dumps(found, indent=1))


def _pattern(one: PatternReview) -> Plain:
    before, now = one.versions or (None, None)
    return {
        "pattern": one.slug,
        "was": one.was,
        "file": one.file,
        "title": one.title,
        "status": one.status,
        "published": one.published,
        "version": {"before": before, "now": now},
        "note": one.note or None,
        "changes": [_change(change) for change in one.changes],
        "renamed": [_renamed(named) for named in one.renamed],
        "words": list(one.words),
        "pictures": list(one.pictures),
        "why_not": one.why_not or None,
    }


def _change(change: Change) -> Plain:
    return {
        "part": change.part,
        "of": change.of or None,
        "what": change.what or None,
        "size": change.size or None,
        "before": change.before,
        "now": change.after,
        "number": change.numbers,
    }


def _renamed(named: Renamed) -> Plain:
    return {"part": named.part, "before": named.before, "now": named.after}
