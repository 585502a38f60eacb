"""Prints the figures of the seeded mistakes: ``python -m tests.seeded [PLACES A CLASS]``."""

from __future__ import annotations

import sys
from collections import Counter

from tests.seeded.checking import Verdict
from tests.seeded.figures import MOST_PLACES, classes, files, pieces, tally

HEAD = (
    "| mistake | places | matter | found | only by reading | missed | elsewhere "
    "| alarms | several |"
)


def main(most: int) -> None:
    """A table, a class a line, and what was not found, in words."""
    said = [
        f"{len(pieces())} pieces of rows and {len(files())} pattern files.\n",
        HEAD,
        "| --- |" + " ---: |" * 8,
    ]
    wrong: list[str] = []
    total: Counter[str] = Counter()
    for sentence, places in classes():
        found = tally(sentence, places(), most)
        cells = {
            "places": found.places,
            "matter": found.matters,
            "found": found.verdicts[Verdict.FOUND],
            "reading": found.verdicts[Verdict.READING],
            "missed": found.verdicts[Verdict.MISSED],
            "elsewhere": found.verdicts[Verdict.ELSEWHERE] + found.verdicts[Verdict.SIZES],
            "alarms": found.verdicts[Verdict.ALARM],
            "several": found.several,
        }
        total.update(cells)
        said.append(f"| {sentence} | {' | '.join(str(cell) for cell in cells.values())} |")
        wrong += [f"{sentence}\n  {one}" for one in found.wrong]
        sys.stderr.write(".")
        sys.stderr.flush()
    said.append(f"| all | {' | '.join(str(cell) for cell in total.values())} |")
    sys.stdout.write("\n".join([*said, "", *wrong, ""]))


if __name__ == "__main__":
    main(int(sys.argv[1]) if len(sys.argv) > 1 else MOST_PLACES)
