"""Kills and failures: ``python -m tests.killed [KILLS] [FAILURES]``; the figures as JSON.

``FAILURES`` is at how many writes a build is failed, spread over all of them; 0 is all. Every
second build that is killed finds what the killed ones before it have kept, and so does a whole
build after each tenth: ``after`` is what became of these. The status is 1 where a site was
published in part, or another than the new one by such a build.
"""

from __future__ import annotations

import json
import random
import sys
import tempfile
from collections import Counter
from pathlib import Path

from tests.killed.builds import Trial

#: a page is cut, the search index is, the fonts are
CUTS = (0, 1_000, 20_000, 100_000)


def main(kills: int, failures: int) -> int:
    """Try them, and print what became of the site."""
    rng = random.Random(kills)  # noqa: S311, no secret
    with tempfile.TemporaryDirectory() as folder:
        trial = Trial(Path(folder).resolve())
        seconds = trial.build()
        if trial.whole() != "new":
            return 1
        found = {name: Counter[str]() for name in ("killed", "after", "failed", "cut")}
        left = 0
        for turn in range(kills):
            trial.restore(kept=turn % 2 == 1)
            trial.killed_after(rng.uniform(0, seconds * 1.05))
            found["killed"][trial.whole()] += 1
            if turn % 10 == min(9, kills - 1):
                trial.restore(kept=True)
                trial.build()
                found["after"][trial.whole()] += 1
        trial.restore()
        writes = trial.writes()
        step = max(writes // failures, 1) if failures else 1
        for place in (*range(1, writes - 9, step), *range(max(writes - 9, 1), writes + 1)):
            trial.restore()
            trial.failed_at(place)
            found["failed"][trial.whole()] += 1
            left += trial.whole() == "old" and bool(trial.left_behind())
        for most in CUTS:
            trial.restore()
            trial.cut_at(most)
            found["cut"][trial.whole()] += 1
            left += trial.whole() == "old" and bool(trial.left_behind())
    sys.stdout.write(json.dumps({**found, "writes": writes, "left behind": left}) + "\n")
    halves = any(count["half"] for count in found.values())
    return 1 if halves or set(found["after"]) - {"new"} else 0


if __name__ == "__main__":
    asked = [int(word) for word in sys.argv[1:]]
    sys.exit(main(*(asked + [200, 0][len(asked) :])))
