"""The long run: ``python -m tests.fuzz [INPUTS] [--jobs N] [--one NAME]``, to be gone on with.

Takes     how many inputs, in blocks of a thousand; what ``.fuzz/blocks.jsonl`` says is done.
Gives     a line a block in that file; the figures, and what was wrong, on standard output.
Problems  none; the status is 1 where something was wrong.
From      DEVELOPERS.md, "Checked".

Each block is a process of its own, forked when everything is loaded, so that its peak of memory is
that of its inputs. A block in which something was wrong is tried again by the next run.
"""

from __future__ import annotations

import argparse
import json
import multiprocessing
import sys
from collections.abc import Iterable
from typing import Any

from tests.fuzz import corpus
from tests.fuzz.judging import MOST_MEMORY, judged, peak_memory
from tests.fuzz.making import made

DONE = corpus.CHECKOUT / ".fuzz" / "blocks.jsonl"
BLOCK = 1_000


def block(number: int) -> dict[str, Any]:
    """A thousand inputs: what was wrong, the slowest of them, and the peak of memory."""
    wrong, told, ready, slowest, spent = [], 0, 0, (0.0, ""), 0.0
    for place in range(BLOCK):
        name = f"{number}:{place}"
        heavy = peak_memory() > MOST_MEMORY
        found = judged(made(name))
        wrong += [f"{name}: {sentence}" for sentence in found.wrong]
        if not heavy and peak_memory() > MOST_MEMORY:
            wrong.append(f"{name}: the process held more than {MOST_MEMORY >> 20} MiB")
        told, ready, spent = told + found.told, ready + found.ready, spent + found.seconds
        slowest = max(slowest, (round(found.seconds, 3), name))
    return {
        "block": number,
        "inputs": BLOCK,
        "problems": told,
        "ready": ready,
        "seconds": round(spent, 1),
        "slowest": slowest,
        "peak": peak_memory(),
        "wrong": wrong,
    }


def done() -> dict[int, dict[str, Any]]:
    """The blocks of earlier runs in which nothing was wrong."""
    lines = DONE.read_text("utf-8").splitlines() if DONE.exists() else []
    blocks = {one["block"]: one for one in map(json.loads, lines)}
    return {number: one for number, one in blocks.items() if not one["wrong"]}


def run(inputs: int, jobs: int) -> dict[int, dict[str, Any]]:
    """Every block that is not done yet; each is written down as it ends."""
    found = done()
    wanted = [number for number in range(-(-inputs // BLOCK)) if number not in found]
    DONE.parent.mkdir(exist_ok=True)
    made("0:0"), judged(made("0:1"))  # everything is loaded before a process is forked
    (corpus.files(), corpus.studio(), corpus.rows(), corpus.words(), corpus.values())
    forked = multiprocessing.get_context("fork")
    with forked.Pool(jobs, maxtasksperchild=1) as pool, DONE.open("a", encoding="utf-8") as log:
        for one in pool.imap_unordered(block, wanted):
            found[one["block"]] = one
            log.write(json.dumps(one) + "\n")
            log.flush()
            for sentence in one["wrong"]:
                sys.stderr.write(f"{sentence}\n")
    return {number: found[number] for number in range(-(-inputs // BLOCK))}


def figures(blocks: Iterable[dict[str, Any]]) -> str:
    """What a run has come to."""
    told = list(blocks)
    slowest = max((tuple(one["slowest"]) for one in told), default=(0, ""))
    return (
        f"{sum(one['inputs'] for one in told):,} inputs, of which "
        f"{sum(one['ready'] for one in told):,} stayed good; "
        f"{sum(one['problems'] for one in told):,} problems told; "
        f"{sum(len(one['wrong']) for one in told)} wrong; slowest {slowest[0]} s ({slowest[1]}); "
        f"most memory {max((one['peak'] for one in told), default=0) >> 20} MiB; "
        f"{sum(one['seconds'] for one in told):,.0f} s of processor\n"
    )


def main() -> int:
    """Run, or say what one input is and what becomes of it."""
    words = argparse.ArgumentParser(prog="python -m tests.fuzz", description=__doc__)
    words.add_argument("inputs", nargs="?", type=int, default=1_000_000)
    words.add_argument("--jobs", type=int, default=1)
    words.add_argument("--one", metavar="NAME", help="an input by its name, such as 12:345")
    options = words.parse_args()
    if options.one:
        one = made(options.one)
        sys.stdout.write(f"{one.kind} {one.options}\n{one.content!r}\n{judged(one)}\n")
        return 0
    found = run(options.inputs, options.jobs)
    sys.stdout.write(figures(found.values()))
    return 1 if any(one["wrong"] for one in found.values()) else 0


if __name__ == "__main__":
    sys.exit(main())
