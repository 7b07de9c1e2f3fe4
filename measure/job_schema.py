"""The JSON Schema of a job file, made from its shape. `python -m measure.job_schema` writes `job.schema.json` beside this file."""

from __future__ import annotations

import json
from pathlib import Path
from typing import Any

FILE = Path(__file__).with_name("job.schema.json")


def job_schema() -> dict[str, Any]:
    """The schema. What one part owes another (tags once, posts that exist …) no schema can say; `read_job` does."""
    from pydantic import TypeAdapter

    from measure.job_file import FORMAT, JobFile

    made = _without_titles(TypeAdapter(JobFile).json_schema())
    return {"$schema": "https://json-schema.org/draft/2020-12/schema", "title": FORMAT, **made}


def schema_text() -> str:
    """The schema as it is shipped."""
    return json.dumps(job_schema(), indent=1, ensure_ascii=False) + "\n"


def _without_titles(schema: Any) -> Any:
    """pydantic gives every key a title that only repeats it; a key named title would be a dict."""
    if isinstance(schema, dict):
        return {k: _without_titles(v) for k, v in schema.items() if k != "title" or not isinstance(v, str)}
    return [_without_titles(v) for v in schema] if isinstance(schema, list) else schema


if __name__ == "__main__":
    FILE.write_text(schema_text(), encoding="utf-8")
