"""How a site grows with its patterns, and what one page weighs, printed as JSON.

Takes     nothing; ``--patterns 10 100 1000 3000`` says how many patterns the sites have.
Gives     a figure for each goal, with its limit, on standard output.
Problems  none: it stops when a site is not built.
From      DEVELOPERS.md, "Measured".

The patterns are made of the collection's, each with a title and with rows of its own, so that no
row is one that the parser has met in another. Each site is built once, cold: what grows is large
beside what varies. Bytes are those of the files; a packed figure is that of gzip at its best.
"""

from __future__ import annotations

import argparse
import gzip
import math
import re
import sys
from collections.abc import Sequence
from pathlib import Path

from benchmarks.collection import GARMENT, ROOT, times_as_long, write_many
from benchmarks.measuring import fast_folder, process_cost
from benchmarks.report import judged, told
from benchmarks.run import write_site
from workeven.publish import assets

NUMBERS = (10, 100, 1000, 3000)
#: growth from few to many is told without what the least takes
LEAST_FEW_MANY = 3
#: the demo's garment so many times: a page of more than 112 rows
LONG = 4
KB = 1024
#: number of the goal: (what is measured, the most it may be)
GOALS = {
    "14": ("growth exponent of t(N) - t(least N), from the second to the most patterns", 1.05),
    "15": ("bytes by which a page differs between few and many patterns", 256),
    "16": ("peak memory for each page more, in KiB", 60),
    "17": ("search index for each pattern more, in bytes", KB),
    "18 bytes": (
        "content of a page of more than 112 rows in nine sizes, packed, in bytes",
        25 * KB,
    ),
    "18 elements": ("elements of that content", 4000),
    "19": ("all that any of the demo's pages loads, packed, without pictures", 95 * KB),
    "19 script": ("of it script of ours", 10 * KB),
    "19 style": ("of it style of ours", 8 * KB),
}

Built = tuple[float, int]


def main() -> None:
    """Build every site and print what was found."""
    numbers = sorted(_numbers())
    with fast_folder() as folder:
        built = {number: _build(folder / str(number), number) for number in numbers}
        found = _growth(built) | _of_sites(folder, numbers)
    with fast_folder() as folder:
        found |= _of_a_long_page(folder)
    told(_report(found, built))


def _numbers() -> Sequence[int]:
    words = argparse.ArgumentParser(description="How a site grows, printed as JSON.")
    words.add_argument("--patterns", type=int, nargs="+", default=NUMBERS, help="how many each")
    numbers: list[int] = words.parse_args().patterns
    if len(set(numbers)) < LEAST_FEW_MANY:
        words.error("three different numbers of patterns at least")
    return numbers


def _build(folder: Path, number: int) -> Built:
    """Seconds of user and system time and peak memory (KiB) of a site of so many patterns."""
    write_many(folder / "patterns", number, rows_too=True)
    write_site(folder, "plugins: [search, workeven]\n")
    return process_cost((sys.executable, "-m", "mkdocs", "build", "--quiet"), folder)


# --- growth --------------------------------------------------------------------------------


def _growth(built: dict[int, Built]) -> dict[str, float]:
    """Time and memory of many patterns against those of few."""
    least, few, *_, many = built
    times = {number: seconds - built[least][0] for number, (seconds, _) in built.items()}
    steps = (many - least) / (few - least)
    return {
        "14": math.log(times[many] / times[few]) / math.log(steps),
        "16": (built[many][1] - built[few][1]) / (many - few),
    }


def _of_sites(folder: Path, numbers: Sequence[int]) -> dict[str, float]:
    """One page in the smallest and the largest site; the index for search."""
    least, few, *_, many = numbers
    index = {n: (folder / str(n) / "site/search/search_index.json").stat().st_size for n in numbers}
    # the first, whose neighbour is the same in both
    name = min(path.name for path in (folder / str(least) / "patterns").iterdir())
    pages = [folder / str(n) / "site/patterns" / name / "index.html" for n in (least, many)]
    one, other = (page.read_bytes() for page in pages)
    differs = sum(a != b for a, b in zip(one, other, strict=False)) + abs(len(one) - len(other))
    views = [_first_view(page) for page in (folder / str(least)).glob("site/patterns/*/index.html")]
    found = {"15": differs, "17": (index[many] - index[few]) / (many - few)}
    return found | {name: max(view[name] for view in views) for name in views[0]}


# --- one page ------------------------------------------------------------------------------


def _of_a_long_page(folder: Path) -> dict[str, float]:
    """What the page of a long garment weighs."""
    own = folder / "patterns" / "long"
    own.mkdir(parents=True)
    text = times_as_long(GARMENT.read_text(encoding="utf-8"), LONG)
    (own / "pattern.yaml").write_text(text, encoding="utf-8")
    (folder / "patterns/studio.yaml").write_bytes((ROOT / "patterns/studio.yaml").read_bytes())
    write_site(folder, "plugins: [search, workeven]\n")
    process_cost((sys.executable, "-m", "mkdocs", "build", "--quiet"), folder)
    page = folder / "site/patterns/long/index.html"
    html = page.read_text(encoding="utf-8")
    content = re.search(r"<article[^>]*>(.*)</article>", html, flags=re.DOTALL)
    if content is None:
        raise SystemExit("the built page holds no article")
    return {
        "18 rows": len(re.findall(r'<li id="[^"]*"', content[1])),
        "18 bytes": _packed(content[1].encode()),
        "18 elements": len(re.findall(r"<[a-zA-Z]", content[1])),
    }


def _first_view(page: Path) -> dict[str, float]:
    """What a phone loads for one page, but for pictures."""
    html = page.read_text(encoding="utf-8")
    loaded = {path: _packed(path.read_bytes()) for path in _named(page, html)}
    ours = {path: size for path, size in loaded.items() if path.name.startswith("workeven")}
    return {
        "19": _packed(html.encode()) + sum(loaded.values()),
        "19 script": sum(size for path, size in ours.items() if path.suffix == ".js"),
        "19 style": sum(size for path, size in ours.items() if path.suffix == ".css"),
    }


def _named(page: Path, html: str) -> list[Path]:
    """The styles and scripts that a page loads, each once; the calculator's when it stands."""
    names = re.findall(r'<link rel="stylesheet" href="([^"]+)"', html)
    names += re.findall(r'<script src="([^"]+)"', html)
    paths = [(page.parent / name).resolve() for name in names]
    return [*dict.fromkeys((*paths, page.parents[2] / assets.later()[0]))]


def _packed(content: bytes) -> int:
    return len(gzip.compress(content, compresslevel=9, mtime=0))


# --- the report ----------------------------------------------------------------------------


def _report(found: dict[str, float], built: dict[int, Built]) -> dict[str, object]:
    return {
        "goals": judged(found, GOALS, figure="measured"),
        "rows_of_the_long_page": found["18 rows"],
        "sites": [
            {"patterns": number, "seconds": round(seconds, 2), "peak_kib": peak}
            for number, (seconds, peak) in built.items()
        ],
    }


if __name__ == "__main__":
    main()
