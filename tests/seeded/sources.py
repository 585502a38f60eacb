"""The pieces in which mistakes are made: written for it, the guide's, the notation's, published.

Takes     the files of the tests and of the guide.
Gives     ``pieces``: ``Rows`` of every piece.
Problems  none.
From      pieces.md; the guide; the worked examples of notation.md; tests/published (each file names
          the publication); pieces drawn by the oracle's generator, which fill what is rare.

A published piece is taken up to the row at which it starts anew, changes how it is worked, holds a
fault of its own or says what the reader of the tests does not know.
"""

from __future__ import annotations

import json
import random
import re
from collections.abc import Iterator
from dataclasses import replace
from pathlib import Path
from typing import Any

from tests.oracle.generator import piece as generated_piece
from tests.oracle.wording import TERMS, kind_in, number, write
from tests.proof.test_worked_examples import EXAMPLES
from tests.seeded.judging import judge
from tests.seeded.words import NotRead, Rows
from tests.support import pattern_files, plain_rows
from tests.test_guide import examples
from workeven.arithmetic.size_lists import by_size

HERE = Path(__file__).parent
PUBLISHED = HERE.parent / "published"
COLLECTION = HERE.parents[1] / "patterns"

#: patterns from a body chart and with shaping as data, which the judge does not work out itself
NOT_JUDGED = {"glasswort-raglan", "wrackline-cardigan"}

#: seams and the fit that is claimed, which it does not work out either
_UNJUDGED = re.compile(r"^  fit: .*\n|^seams:\n(?:  .*\n)+", re.MULTILINE)

#: pieces drawn at random, beside those that people wrote
GENERATED = 60


def pieces() -> Iterator[Rows]:
    """Every piece, in a fixed order."""
    yield from written()
    yield from guide()
    yield from worked_examples()
    yield from published()
    yield from generated()


def files() -> Iterator[tuple[str, str]]:
    """Whole pattern files by name: the collection, those of the tests."""
    paths = [*COLLECTION.glob("*/pattern.yaml"), *(HERE / "patterns").glob("*.yaml")]
    for path in sorted(paths):
        name = path.parent.name if path.name == "pattern.yaml" else path.stem
        if name not in NOT_JUDGED:
            yield name, _UNJUDGED.sub("", path.read_text(encoding="utf-8"))
    yield "sand-mat", pattern_files.GOOD


def _sizes(names: str | None) -> tuple[str, ...]:
    return tuple(name for name, _ in by_size(names)) if names else ()


def written() -> Iterator[Rows]:
    """The pieces of pieces.md."""
    text = (HERE / "pieces.md").read_text(encoding="utf-8")
    fenced = re.compile(r"^## (.+?)\n.*?^```rows\n(.*?)^```", re.MULTILINE | re.DOTALL)
    for name, block in fenced.findall(text):
        found = plain_rows.read(block)
        yield Rows(
            name,
            found.text.strip(),
            found.first("worked") or "flat rows",
            found.first("terms") or "us",
            found.first("from"),
            _sizes(found.first("sizes")),
            found.all("stitch"),
        )


def guide() -> Iterator[Rows]:
    """The rows that the guide shows."""
    for param in examples():
        example: Any = param.values[0]  # type: ignore[attr-defined]
        options = dict(example.options)
        yield Rows(
            f"guide: {param.id}",  # type: ignore[attr-defined]
            "\n".join(example.rows),
            options.get("worked", "flat rows"),
            options.get("terms", "us"),
            options.get("from"),
            _sizes(options.get("sizes")),
            tuple(value for key, value in example.options if key == "stitch"),
        )


def worked_examples() -> Iterator[Rows]:
    """The worked examples of the notation."""
    for at, example in enumerate(EXAMPLES):
        yield Rows(
            f"notation: example {example.number}, {at}",
            "\n".join(example.rows),
            example.worked,
            "us",
            example.start,
            example.sizes or (),
            example.stitches,
        )


def published() -> Iterator[Rows]:
    """Published pieces, as far as they are read and are one piece without a fault of their own."""
    for path in sorted(PUBLISHED.glob("**/*.json")):
        piece = json.loads(path.read_text(encoding="utf-8"))
        rows: list[str] = []
        for row in piece["rows"]:
            if row["fails"] or row.get("from") or row.get("worked") or row.get("sizes"):
                break
            rows.append(row["text"])
        found = Rows(
            f"published: {piece['id']}",
            "\n".join(rows),
            piece["worked"],
            piece["terms"],
            piece["from"],
            tuple(piece["sizes"] or ()),
            tuple(piece["stitches"]),
        )
        while rows and not _is_read(found):
            del rows[-1]
            found = replace(found, text="\n".join(rows))
        if len(rows) > 1:
            yield found


def _is_read(rows: Rows) -> bool:
    try:
        return judge(rows).whole
    except NotRead:
        return False


def generated() -> Iterator[Rows]:
    """Pieces drawn by the oracle's generator."""
    for seed in range(GENERATED):
        rng = random.Random(f"seeded {seed}")  # noqa: S311
        made = generated_piece(rng)
        text = write(made, rng, rng.choice(TERMS))
        plain = random.Random(0)  # noqa: S311
        there = [f"{number(n, plain)} {kind_in(text.terms, kind)}" for kind, n in made.start]
        yield Rows(
            f"generated: {seed}",
            text.text.strip(),
            made.worked,
            text.terms,
            ", ".join(there) or None,
            made.sizes,
            text.stitches,
        )
