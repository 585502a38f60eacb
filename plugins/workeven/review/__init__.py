"""What a change does to the numbers of a collection: before and after, held against each other.

Takes     two ``Verdict`` records: a collection as it was, and as it is.
Gives     ``review``: a ``Review`` of its patterns.
Problems  ``change-unsaid``.
From      design.md: "``version`` rises and ``changes`` explains when numbers change".

Records are compared, and no text: a row that is worded otherwise and works the same is no change of
a number. Both sides are worked out by this workeven, so that a change of its own is none here.
"""

from workeven.review.records import Change, PatternReview, Renamed, Review
from workeven.review.stage import review

__all__ = ["Change", "PatternReview", "Renamed", "Review", "review"]
