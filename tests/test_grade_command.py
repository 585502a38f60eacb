"""``workeven grade``: the table, and all sizes from a sample of one."""

from __future__ import annotations

import json
from pathlib import Path

import pytest

from tests.support.pattern_files import GOOD, outcome
from workeven import cli

MULTIPLE = "  mat_sts: {across: width, gauge: ground, multiple: 6, plus: 1}"


@pytest.fixture
def mat(tmp_path: Path) -> str:
    """The path of a good pattern."""
    file = tmp_path / "pattern.yaml"
    file.write_text(GOOD, "utf-8")
    return str(file)


def test_the_table_is_printed(mat: str, capsys: pytest.CaptureFixture[str]) -> None:
    """A count with its rule stands in it; status 0."""
    assert 0 == cli.main(["grade", mat])
    assert "nearest multiple of 6 plus 1" in capsys.readouterr().out


@pytest.mark.parametrize(
    ("number", "counts"),
    [(31, "31 (37, 43)"), (37, "37 (43, 49)"), (25, "25 (31, 37)")],
)
def test_a_sample_is_carried_to_the_other_sizes(
    mat: str, number: int, counts: str, capsys: pytest.CaptureFixture[str]
) -> None:
    """Its own number stays, the others are as much wider or narrower as it is."""
    assert 0 == cli.main(["grade", mat, "--keep", "S", "--sample", f"mat_sts {number}"])
    assert counts in capsys.readouterr().out


def test_the_block_pasted_back_checks(mat: str, capsys: pytest.CaptureFixture[str]) -> None:
    """It takes the place of the computed count, with its rule and the length it is held against."""
    cli.main(["grade", mat, "--keep", "M", "--sample", "mat_sts 37"])
    block = capsys.readouterr().out
    pasted = GOOD.replace(f"counts:\n{MULTIPLE}\n", block)
    assert pasted != GOOD
    assert "    multiple: 6\n    plus: 1\n" in pasted
    assert () == outcome(pasted).problems


def test_a_sample_far_from_the_wanted_length_still_checks(
    mat: str, capsys: pytest.CaptureFixture[str]
) -> None:
    """Its numbers are listed, and a comment says that the length is another one now."""
    cli.main(["grade", mat, "--keep", "S", "--sample", "mat_sts 43"])
    block = capsys.readouterr().out
    assert "  mat_sts: 43 (49, 55)" in block.splitlines()
    assert "# the sample in S measures 6.875 cm more than width" in block
    pasted = GOOD.replace(f"counts:\n{MULTIPLE}\n", block)
    assert {"name-unused"} >= {problem.code for problem in outcome(pasted).problems}


def test_a_sample_as_json(mat: str, capsys: pytest.CaptureFixture[str]) -> None:
    """Numbers by size, and how far off the sample is."""
    words = ["grade", mat, "--keep", "S", "--sample", "mat_sts 37", "--format", "json"]
    assert 0 == cli.main(words)
    found = json.loads(capsys.readouterr().out)["mat_sts"]
    assert ({"S": 37, "M": 43, "L": 49}, "3.125") == (found["sizes"], found["off"])


@pytest.mark.parametrize(
    ("words", "sentence"),
    [
        (("--keep", "S"), "`--keep` and `--sample` go together"),
        (("--keep", "XL", "--sample", "mat_sts 37"), "There is no size called `XL`."),
        (("--keep", "S", "--sample", "mat_st 37"), "The pattern has no count called `mat_st`."),
        (("--keep", "S", "--sample", "37"), "`37` is no count and its number"),
        (("--keep", "S", "--sample", "mat_sts 36"), "36 is not what `mat_sts` allows: nearest"),
        (("--keep", "S", "--sample", "mat_sts 37, mat_sts 31"), "`mat_sts` stands twice"),
        (("--keep", "S", "--sample", ","), "The sample holds no counts."),
    ],
)
def test_a_slip_is_a_sentence(
    mat: str, words: tuple[str, ...], sentence: str, capsys: pytest.CaptureFixture[str]
) -> None:
    """Status 2, and what is wrong."""
    assert 2 == cli.main(["grade", mat, *words])
    assert capsys.readouterr().err.startswith(f"workeven: {sentence}")
