"""The JSON Schema that is shipped is current, is a schema, and agrees with the reader about the shape of a job file."""

import json
from pathlib import Path

import jsonschema
import pytest
from jsonschema import Draft202012Validator

from measure.job_schema import FILE, job_schema, schema_text

SAMPLES = sorted((Path(__file__).parents[3] / "sample_jobs").glob("*.json"))


@pytest.fixture(scope="module")
def validator():
    return Draft202012Validator(json.loads(FILE.read_text(encoding="utf-8")))


def test_the_shipped_schema_is_current():
    assert FILE.read_text(encoding="utf-8") == schema_text(), "run python -m measure.job_schema"


def test_it_is_a_schema():
    Draft202012Validator.check_schema(job_schema())


@pytest.mark.parametrize("sample", SAMPLES, ids=lambda p: p.stem)
def test_the_sample_jobs_keep_to_it(validator, sample):
    assert [e.message for e in validator.iter_errors(json.loads(sample.read_bytes()))] == []


def test_the_contracts_example_keeps_to_it(validator, example_bytes):
    validator.validate(json.loads(example_bytes))


# What breaks the shape breaks the schema too.
BREAKS = [
    (("colour",), 1), (("job", "units"), "yd"), (("tape", "from_hook"), "no"), (("tape", "division"), True), (("tape", "division"), None),
    (("bays", 0, "tag"), "1A"), (("bays", 0, "tag"), "A" * 17), (("readings", 0, "what"), "width"), (("readings", 0, "valeu"), 1),
    (("glass", "edge"), {"topp": "x"}), (("posts", 0, "angle"), "90"), (("format",), "spanbook-job/2"), (("runs",), {}),
]  # fmt: skip


@pytest.mark.parametrize(("path", "value"), BREAKS, ids=str)
def test_what_the_reader_refuses_for_its_shape_the_schema_refuses(validator, problems, example_bytes, path, value):
    tree = json.loads(example_bytes)
    *way, last = path
    at = tree
    for key in way:
        at = at[key]
    at[last] = value
    with pytest.raises(jsonschema.ValidationError):
        validator.validate(tree)
    assert problems(json.dumps(tree))
