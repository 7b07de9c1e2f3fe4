"""The Table Schema beside the order: it describes the very file, and its constraints hold on every line."""

import csv
import io
import json
import re
from decimal import Decimal

import pytest

from measure.order import make_order
from measure.order_csv import SUMMARY_COLUMNS, order_csv, summary_csv
from measure.order_schema import order_schema
from measure.plan import Run
from measure.report import evaluate

# Frictionless Table Schema v1: field types, and which constraints a field may carry (table-schema specification, from memory).
TYPES = {"string", "number", "integer"}
CONSTRAINTS = {"required", "unique", "minimum", "maximum", "minLength", "maxLength", "pattern", "enum"}


@pytest.fixture(params=["in", "mm"])
def order(deck, request):
    inch = request.param == "in"
    made = deck(units=request.param)
    made.bay("A1", "41 in" if inch else "1050", "3/8 in" if inch else "10", "right", read_back_by="Kai").gate()
    made.bay(
        "A2", "41 1/4 in" if inch else "1050,5", "1/2 in" if inch else "12", "left", shape="level-top", finish_face="frosted"
    ).gate()
    return make_order(evaluate(made.bay("A3", "40 in" if inch else "1000").job()))


def lines(data):
    return list(csv.DictReader(io.StringIO(data.decode("utf-8-sig"), newline="")))


def breaks(field, cell):
    """The constraints of a field that one cell breaks."""
    rules = field["constraints"]
    if cell == "":
        return ["required"] if rules.get("required") else []
    broken = []
    if field["type"] in ("number", "integer"):
        shape = r"-?\d+" if field["type"] == "integer" else r"-?\d+(\.\d+)?"
        if not re.fullmatch(shape, cell):
            return [f"not a {field['type']}: {cell}"]
        value = Decimal(cell)
        broken += ["minimum"] if value < rules.get("minimum", value) else []
        broken += ["maximum"] if value > rules.get("maximum", value) else []
    broken += ["enum"] if cell not in rules.get("enum", [cell]) else []
    broken += ["pattern"] if not re.fullmatch(rules.get("pattern", ".*"), cell, re.DOTALL) else []
    broken += ["maxLength"] if len(cell) > rules.get("maxLength", len(cell)) else []
    return broken


def test_its_fields_are_the_files_columns_in_the_files_order(order):
    schema = json.loads(order_schema(order))
    header = order_csv(order).decode("utf-8-sig").split("\r\n")[0].split(",")
    assert [field["name"] for field in schema["fields"]] == header


def test_only_types_and_constraints_of_the_specification_are_used(order):
    for field in json.loads(order_schema(order))["fields"]:
        assert field["type"] in TYPES
        assert set(field["constraints"]) <= CONSTRAINTS
        assert field["description"].endswith(".")


def test_every_line_of_the_order_keeps_every_constraint(order):
    fields = json.loads(order_schema(order))["fields"]
    found = lines(order_csv(order))
    assert len(found) == 3
    assert [
        (field["name"], breaks(field, row[field["name"]]))
        for row in found
        for field in fields
        if breaks(field, row[field["name"]])
    ] == []
    for field in fields:
        if field["constraints"].get("unique"):
            assert len({row[field["name"]] for row in found}) == 3


@pytest.mark.parametrize(
    ("column", "cell"),
    [
        ("shape", "oblong"), ("high_end", "up"), ("governs", "cm"), ("width_mm", "12,5"), ("rack_mm", "-3.00"), ("qty", "0"),
        ("lower_angle_deg", "90.01"), ("width_text", "3/8"), ("width_text", "42 3/8"), ("group", "a"), ("panel", ""), ("revision", "x"),
    ],
)  # fmt: skip
def test_a_wrong_cell_breaks_it(order, column, cell):
    (field,) = (field for field in json.loads(order_schema(order))["fields"] if field["name"] == column)
    assert breaks(field, cell)


def test_its_keys_are_the_panel_and_the_summarys_group(order):
    schema = json.loads(order_schema(order))
    assert schema["primaryKey"] == ["panel"]
    (foreign,) = schema["foreignKeys"]
    assert foreign["fields"] == ["group"] and foreign["reference"]["fields"] == ["group"] and "group" in SUMMARY_COLUMNS
    groups = {row["group"] for row in lines(summary_csv(order))}
    assert {row["group"] for row in lines(order_csv(order))} == groups


@pytest.mark.parametrize(("ending", "unit"), [("_mm", "mm"), ("_in", "in"), ("_deg", "deg"), ("_m2", "m2"), ("_kg", "kg")])
def test_every_figure_says_its_unit(order, ending, unit):
    fields = [field for field in json.loads(order_schema(order))["fields"] if field["name"].endswith(ending)]
    assert fields
    assert {field["unit"] for field in fields} == {unit}
    assert {field["decimalChar"] for field in fields} == {"."}


def test_it_says_where_panels_are_seen_from_the_step_and_how_the_width_goes(deck):
    made = deck(runs={"A": Run("A", "posts", "the terrace door")}).bay("A1", "41 in")
    schema = json.loads(order_schema(make_order(evaluate(made.job()))))
    assert schema["seenFrom"] == "the terrace door"
    assert "Seen from the terrace door." in schema["description"]
    assert "rounded to 1/16 in" in schema["description"]
    assert any("never along the slope" in rule for rule in schema["rules"])
