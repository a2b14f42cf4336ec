"""The verb ``schema``."""

import json

from nesting.files import job_schema, plan_schema


def print_schema(kind: str) -> None:
    """Print the JSON Schema of the job file or of the plan file."""
    schema = {"job": job_schema, "plan": plan_schema}[kind]()
    print(json.dumps(schema, indent=1, ensure_ascii=False))
