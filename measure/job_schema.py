"""The JSON Schema of a job file, made from its shape. `python -m measure.job_schema` writes `job.schema.json` beside this file."""

from __future__ import annotations

import json
from pathlib import Path
from typing import Any

from measure.job_file import FORMAT, JOB_FILE

FILE = Path(__file__).with_name("job.schema.json")


def job_schema() -> dict[str, Any]:
    """The schema. What one part owes another (tags once, posts that exist …) no schema can say; `read_job` does."""
    # pydantic itself is slow to import and needed here only
    from pydantic.json_schema import GenerateJsonSchema, JsonSchemaValue

    class FromMetadata(GenerateJsonSchema):
        """Adds what a schema's metadata tells, and leaves out titles that only repeat a key."""

        def generate_inner(self, schema: Any) -> JsonSchemaValue:
            told = dict(schema.get("metadata", {}))
            if "type" in told:
                return told
            made = super().generate_inner(schema)
            return {"anyOf": [told["or"], made]} if "or" in told else {**told, **made}

        def get_title_from_name(self, name: str) -> str:
            return ""

    made = FromMetadata().generate(JOB_FILE)
    return {"$schema": "https://json-schema.org/draft/2020-12/schema", "title": FORMAT, **_without_titles(made)}


def schema_text() -> str:
    """The schema as it is shipped."""
    return json.dumps(job_schema(), indent=1, ensure_ascii=False) + "\n"


def _without_titles(schema: Any) -> Any:
    if isinstance(schema, dict):
        return {k: _without_titles(v) for k, v in schema.items() if (k, v) != ("title", "")}
    return [_without_titles(v) for v in schema] if isinstance(schema, list) else schema


if __name__ == "__main__":
    FILE.write_text(schema_text(), encoding="utf-8")
