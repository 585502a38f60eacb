"""The data beside a page, against their schemas and against numbers known by hand."""

from __future__ import annotations

import csv
import io
import json
from importlib.resources import files
from typing import Any

import pytest
from jsonschema import Draft202012Validator

from tests.publish.samples import mitts
from tests.support.mats import TWO_COLOURS, mat
from workeven.arithmetic.per_size import Sizes
from workeven.proof import Into
from workeven.publish.downloads import pattern_json, sizes_csv
from workeven.publish.pages.worked_into import told
from workeven.records import replace


def schema(name: str) -> Draft202012Validator:
    """A schema of published data, itself checked."""
    text = files("workeven.schemas").joinpath(f"{name}.schema.json").read_text("utf-8")
    Draft202012Validator.check_schema(json.loads(text))
    return Draft202012Validator(json.loads(text))


def numbers() -> dict[str, Any]:
    """The sample's pattern.json."""
    record: dict[str, Any] = json.loads(pattern_json(mitts(), told(mitts())))
    return record


def table(text: bytes) -> list[dict[str, str]]:
    """A size table as rows of heading and cell."""
    return list(csv.DictReader(io.StringIO(text.decode("utf-8"), newline="")))


def test_numbers_keep_to_their_schema() -> None:
    """Other programs rely on it."""
    assert list(schema("pattern-data").iter_errors(numbers())) == []


def test_sizes_keep_to_their_schema() -> None:
    """Every line of the table."""
    lines = table(sizes_csv(mitts()))
    assert [list(schema("sizes-table").iter_errors(line)) for line in lines] == [[]] * len(lines)


def test_lengths_are_decimal_strings_of_centimetres() -> None:
    """165, 180 and 210 mm."""
    assert numbers()["finished"]["around"] == ["16.5", "18", "21"]


def test_counts_have_one_number_a_size() -> None:
    """As graded."""
    assert numbers()["counts"] == {"hand_sts": [33, 36, 42]}


def test_rows_have_their_counts_in_every_size() -> None:
    """Stitches, kinds and how many rows a line is."""
    assert numbers()["pieces"][0]["rows"][2] == {
        "label": "Rnds 2–15 (16, 17)",
        "name": "Even rnd",
        "first": [2, 2, 2],
        "side": [None, None, None],
        "times": [14, 15, 16],
        "sts": [33, 36, 42],
        "makes": [{"sc": 33}, {"sc": 36}, {"sc": 42}],
        "multiple": None,
        "into": [None, None, None],
    }


def test_rows_tell_what_they_are_worked_into() -> None:
    """A mesh over 21 dc, whose chain stands over the first: 10 are passed over (by hand)."""
    mesh = Into((("dc", 11),), (("dc", 10),)).as_plain()
    assert mesh == {
        "places": {"dc": 11},
        "over": {"dc": 10},
        "left": {},
        "row": None,
        "entered": {},
    }
    record = numbers()
    record["pieces"][0]["rows"][2]["into"] = [mesh, mesh, None]
    assert list(schema("pattern-data").iter_errors(record)) == []


def test_yarn_is_whole_and_up() -> None:
    """90.1 m are 91 m, 31.5 g are 32 g."""
    main = numbers()["yarn"]["main"]
    assert (main["m"], main["yd"]) == ([91, 99, 120], [99, 109, 132])
    assert (main["g"], main["balls"]) == ([29, 32, 38], [1, 1, 1])


def test_the_table_has_both_units_from_the_exact_length() -> None:
    """165 mm are 6.496 in (1 in = 25.4 mm); 6.5 would come from the rounded centimetres."""
    lines = [line for line in table(sizes_csv(mitts())) if line["measurement"] == "Around"]
    assert [(line["unit"], line["S"]) for line in lines] == [("cm", "16.5"), ("in", "6.496")]


def test_to_fit_is_kept_apart_from_finished() -> None:
    """A maker must not take the one for the other."""
    assert {line["kind"] for line in table(sizes_csv(mitts()))} == {"to fit", "finished"}


@pytest.mark.parametrize("name", ["=1+1", "+1", "-S", "@S", "\tS", " =S"])
def test_no_cell_is_a_formula(name: str) -> None:
    """A spreadsheet runs a cell that begins like one (OWASP, "CSV Injection")."""
    ready = mitts()
    sizes = Sizes((name, "M", "L"))
    ready = replace(ready, pattern=replace(ready.pattern, sizes=sizes))
    heads = next(csv.reader(io.StringIO(sizes_csv(ready).decode(), newline="")))
    assert heads[3] == f"'{name}"


def test_colours_other_balls_and_the_designers_list_are_told() -> None:
    """Whole balls of each colour, by the length that stands beside them."""
    more = "amounts:\n  main:\n    A: 10 (13, 15) balls\n    B: 190 (250, 310) m\n"
    kinds = ", colours: [A, B], also: [{label: Small, length: 50 m, mass: 25 g}]"
    ready = mat(more, kinds, TWO_COLOURS)
    data = json.loads(pattern_json(ready, told(ready)))
    assert list(schema("pattern-data").iter_errors(data)) == []
    main = data["yarn"]["main"]
    assert [one["name"] for one in main["colours"]] == ["A", "B"]
    (small,) = main["also"]
    assert (small["ball_m"], small["balls"]) == ("50", [14, 19, 23])
    each = zip(*(one["mm"] for one in main["colours"]), strict=True)
    assert small["balls"] == [sum(-(-mm // 50_000) for mm in colours) for colours in each]
    assert data["amounts_listed"][1] == {
        "yarn": "main",
        "colour": "B",
        "unit": "m",
        "values": ["190", "250", "310"],
    }
