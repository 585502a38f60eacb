"""What a build takes when builds before have kept what did not change, as ratios in JSON.

Takes     nothing; ``--patterns 1000`` says how many the collection has, ``--rounds 5`` how often
          each build is measured.
Gives     a ratio for each goal, with its limit, on standard output.
Problems  none: it stops when a build fails, or when a byte of the site is another with a cache.
From      DEVELOPERS.md, "Measured".

M is what the theme takes to build the same finished pages from Markdown, B what it takes for as
many pages of one line. An edit is another remark at the end of one pattern's file, so each time
there is a pattern that was never met. The preview is one process that builds several times, as
``mkdocs serve`` does; each build of ours there is held against whole processes of the others.
"""

from __future__ import annotations

import argparse
import sys
from collections.abc import Callable
from pathlib import Path

from benchmarks.collection import write_many
from benchmarks.measuring import fast_folder, process_cost
from benchmarks.report import judged, machine, told
from benchmarks.run import write_same_pages, write_site

#: goal: (what is measured, the most it may be)
GOALS = {
    "12 in M": ("build after one edit, new process, in M", 0.12),
    "12 in B": ("the same, in B", 2.0),
    "13 in M": ("preview built again after one edit, in M", 0.15),
    "13 in B": ("the same, in B", 1.5),
}
OTHERS = {
    "unchanged in B": "build of what did not change, new process, in B",
    "cold in M": "build without a cache, in M",
    "first": "build that keeps all that it makes, against one without a cache",
}

_BUILD = (sys.executable, "-m", "mkdocs", "build", "--quiet")
#: builds as ``mkdocs serve`` does, and prints what each took but the first
_PREVIEW = """
import os, sys, time
from mkdocs.commands.build import build
from mkdocs.config import load_config
file, times = sys.argv[1], int(sys.argv[2])
def settings():
    return load_config("mkdocs.yml", site_dir=os.path.abspath("preview"))
settings().plugins.on_startup(command="serve", dirty=False)
for turn in range(times + 1):
    with open(file, "a", encoding="utf-8") as opened:
        opened.write(f"# look {turn}\\n")
    started = time.process_time()
    build(settings())
    if turn:
        with open(sys.argv[3], "a") as told:
            told.write(f"{time.process_time() - started}\\n")
"""


def main() -> None:
    """Measure, and print what was found."""
    words = argparse.ArgumentParser(description="Builds with a cache, as ratios in JSON.")
    words.add_argument("--patterns", type=int, default=1000, help="patterns to build (1000)")
    words.add_argument("--rounds", type=int, default=5, help="rounds of each (5)")
    options = words.parse_args()
    with fast_folder() as folder:
        found = _seconds(folder, options.patterns, options.rounds)
    told(_report(found, options.patterns))


def _seconds(folder: Path, number: int, rounds: int) -> dict[str, float]:
    """The least that each build took."""
    ours, same, bare = (folder / name for name in ("ours", "same", "bare"))
    write_many(ours / "patterns", number, rows_too=True)
    write_site(ours, "plugins: [search, workeven]\n")
    kept = {"WORKEVEN_CACHE": str(folder / "kept"), "XDG_STATE_HOME": str(folder / "state")}

    def build(site: Path, more: dict[str, str] | None = None) -> float:
        return process_cost(_BUILD, site, more)[0]

    build(ours)
    found = {"cold": [build(ours)]}
    without = _list(ours / "site")
    found["first"] = [build(ours, kept)]
    write_same_pages(ours / "site", same, number)
    write_same_pages(ours / "site", bare, number, "# One line\n")
    build(same)
    found |= {name: [] for name in ("unchanged", "edited", "previewed", "same", "bare")}
    for turn in range(rounds):
        found["unchanged"].append(build(ours, kept))
        if _list(ours / "site") != without:
            raise SystemExit("the cache changes the site")
        found["edited"].append(_edited(ours, turn, lambda: build(ours, kept)))
        found["previewed"] += _previewed(ours, kept)
        found["same"].append(build(same))
        found["bare"].append(build(bare))
    return {name: min(times) for name, times in found.items()}


def _edited(ours: Path, turn: int, build: Callable[[], float]) -> float:
    """What a build takes after an edit, which is taken back."""
    file = _some_pattern(ours)
    before = file.read_bytes()
    file.write_bytes(before + f"# edit {turn}\n".encode())
    try:
        return build()
    finally:
        file.write_bytes(before)


def _previewed(ours: Path, kept: dict[str, str]) -> list[float]:
    """What builds of one preview take, but the first, each after an edit."""
    file = _some_pattern(ours)
    before = file.read_bytes()
    seconds = ours / "seconds"
    command = (sys.executable, "-c", _PREVIEW, str(file), "2", str(seconds))
    seconds.unlink(missing_ok=True)
    try:
        process_cost(command, ours, kept)
    finally:
        file.write_bytes(before)
    return [float(line) for line in seconds.read_text(encoding="utf-8").split()]


def _some_pattern(ours: Path) -> Path:
    """One in the middle."""
    files = sorted((ours / "patterns").glob("*/pattern.yaml"))
    return files[len(files) // 2]


def _list(site: Path) -> bytes:
    """Every file of the site with its digest, as the site itself lists them."""
    return (site / "build.json").read_bytes()


def _report(found: dict[str, float], number: int) -> dict[str, object]:
    ratios = {
        "12 in M": found["edited"] / found["same"],
        "12 in B": found["edited"] / found["bare"],
        "13 in M": found["previewed"] / found["same"],
        "13 in B": found["previewed"] / found["bare"],
        "unchanged in B": found["unchanged"] / found["bare"],
        "cold in M": found["cold"] / found["same"],
        "first": found["first"] / found["cold"],
    }
    return {
        "machine": machine(),
        "patterns_built": number,
        "goals": judged(ratios, GOALS),
        "others": [
            {"what": what, "ratio": round(ratios[name], 3)} for name, what in OTHERS.items()
        ],
        "seconds": {name: round(seconds, 3) for name, seconds in found.items()},
    }


if __name__ == "__main__":
    main()
