"""Names that the folder of a pattern had before."""

from __future__ import annotations

from pathlib import Path

import pytest

from tests.support.pattern_files import GOOD
from tests.support.reading import added, good, one
from workeven import pipeline, source
from workeven.problems import Problem


def collection(folder: Path, **formerly: str) -> tuple[Problem, ...]:
    """The problems of a collection: the folders' names, and their former ones."""
    for slug, names in formerly.items():
        place = folder / slug.replace("_", "-")
        place.mkdir(parents=True)
        (place / "pattern.yaml").write_text(f"{GOOD}{names and f'formerly: {names}'}\n", "utf-8")
    return pipeline.check(source.collect([str(folder)])).problems


def test_one_name_or_several() -> None:
    """A text, or a list of them."""
    alone, several = good(added("formerly: dune-mat")), good(added("formerly: [dune-mat, mat2]"))
    assert ["dune-mat"] == [name.text for name in alone.formerly]
    assert ["dune-mat", "mat2"] == [name.text for name in several.formerly]


@pytest.mark.parametrize(
    ("name", "code"),
    [
        ("Dune Mat", "former-name"),
        ("../dune-mat", "former-name"),
        ("dune--mat", "former-name"),
        ("a" * 81, "former-name"),
        ("sand-mat", "former-taken"),
    ],
)
def test_a_former_name_was_the_name_of_a_folder(name: str, code: str) -> None:
    """And is not that of this pattern today."""
    assert one(added(f"formerly: ['{name}']")).code == code


def test_an_old_address_leads_to_one_page(tmp_path: Path) -> None:
    """Told at the second that claims it, with the first beside it."""
    (problem,) = collection(tmp_path, a_mat="[old-mat]", b_mat="[old-mat, older-mat]")
    assert (problem.code, problem.found) == (
        "former-taken",
        "`old-mat` is a former name of two patterns.",
    )
    assert problem.span.file.endswith("b-mat/pattern.yaml")
    assert problem.notes[0].span.file.endswith("a-mat/pattern.yaml")


def test_an_old_address_is_no_page_of_today(tmp_path: Path) -> None:
    """Also where that page's pattern has no former name."""
    (problem,) = collection(tmp_path, a_mat="[b-mat]", b_mat="")
    assert problem.found == "`b-mat` is the folder of another pattern today."


def test_two_collections_do_not_meet(tmp_path: Path) -> None:
    """Each is a site of its own."""
    one, other = tmp_path / "one", tmp_path / "other"
    collection(one, a_mat="[old-mat]")
    collection(other, b_mat="[old-mat]", old_mat_2="")
    assert pipeline.check(source.collect([str(one), str(other)])).problems == ()
