"""Values meant to make programs stumble, at every key of a pattern: problems, and nothing else."""

from __future__ import annotations

import time

import pytest

from tests.support.pattern_files import GOOD
from workeven import pattern, source

LONG = 9_900
VALUES = {
    "digits": "9" * LONG,
    "points": "1" + "." * LONG,
    "commas": "1" + "," * LONG,
    "brackets": "1 " + "(" * LONG,
    "list": "1 (" + "2, " * (LONG // 3) + "3)",
    "blanks": '"a' + " " * LONG + 'b"',
    "letters": "a" * LONG,
    "minus": "1" + " - 1" * (LONG // 4),
    "slashes": "1" + "/1" * (LONG // 2),
    "colons": '"' + "1:" * (LONG // 2) + '"',
    "power": "9**9**8 g",
    "percent": '"' + "%" * LONG + '"',
    "quotes": "'" + '"' * LONG + "'",
    "not a number": ".nan",
    "bracketed": "[" + ", ".join(["1"] * 3000) + "]",
    "tables": "{a: {b: {c: {d: 1}}}}",
    "nothing": "",
    "foreign": "тре́ска 毛糸 🧶",
}
#: Where each value is put: the text that it stands in place of, in the good pattern.
PLACES = {
    "title": "Sand Mat\n",
    "audience": "adult",
    "use": "[home]",
    "names": "S (M, L)",
    "sts": "{sts: 16, rows: 18, over: 10 cm, of: sc, hook: 4 mm}",
    "mass": "20 g",
    "yarn": "{weight: light, fibre: 100% cotton, put_up: {length: 85 m, mass: 50 g}}",
    "measurement": "20 (24, 27) cm\n  length",
    "count": "{across: width, gauge: ground, multiple: 6, plus: 1}",
    "worked": "flat rows",
    "finishing": "Weave in all ends.",
}
ADDED = (
    "published",
    "margin",
    "tolerance",
    "level",
    "ages",
    "allow",
    "video",
    "changes",
    "notions",
)


def parse(text: str) -> None:
    """Read and type a file; what comes of it does not matter here."""
    start = time.process_time()
    read = source.read("patterns/case/pattern.yaml", text.encode("utf-8"))
    problems = read.problems
    if read.value is not None:
        problems += pattern.parse(read.value, pattern.NO_STUDIO).problems
    assert time.process_time() - start < 10
    for problem in problems:
        assert problem.code
        assert len(problem.found) < 1000
        assert len(problem.excerpt) <= 200


@pytest.mark.parametrize("value", VALUES.values(), ids=VALUES.keys())
@pytest.mark.parametrize("place", PLACES.values(), ids=PLACES.keys())
def test_no_value_is_more_than_a_problem(place: str, value: str) -> None:
    """Whatever stands in the place of a value is read or reported, shortly and soon."""
    tail = "\n  length" if place.endswith("length") else ""
    end = "\n" if place.endswith("\n") else ""
    assert GOOD.count(place) >= 1
    parse(GOOD.replace(place, f"{value}{end}{tail}", 1))


@pytest.mark.parametrize("value", VALUES.values(), ids=VALUES.keys())
@pytest.mark.parametrize("key", ADDED)
def test_no_value_of_another_key_is_more_than_a_problem(key: str, value: str) -> None:
    """Keys that the good pattern does without."""
    parse(f"{GOOD}{key}: {value}\n")


@pytest.mark.parametrize("value", VALUES.values(), ids=VALUES.keys())
def test_no_row_is_more_than_a_problem(value: str) -> None:
    """Rows are texts of strangers too."""
    row = value.replace('"', "").replace("\n", " ")
    parse(GOOD.replace("fasten off", row))
