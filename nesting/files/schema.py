"""JSON Schemas (draft 2020-12) of the job file and of the plan file, made from the models that read and write them."""

from typing import Any

from pydantic.json_schema import GenerateJsonSchema, JsonSchemaMode, JsonSchemaValue
from pydantic_core import core_schema

from nesting.model import Job, Kerf, Outline, Panel, Plan
from nesting.model.base import length_of

DIALECT = "https://json-schema.org/draft/2020-12/schema"

#: A length as a text begins with a figure; what may follow is told by ``nesting.model.millimetres``.
LENGTH_TEXT = {
    "type": "string",
    "pattern": r"^\s*-?\s*\.?[0-9]",
    "description": "A length with its unit, such as 2440 mm, 1.5 m or 7' 6 1/2\"",
}

#: An amount of money as a text.
AMOUNT = r"^[0-9]+(\.[0-9]{1,2})?$"

#: Limits that pydantic names in its own words where a value is turned into a number first. That a text is within
#: them, and how many digits an amount has, is beyond a schema.
_STANDARD = {"ge": "minimum", "gt": "exclusiveMinimum", "le": "maximum", "lt": "exclusiveMaximum"}
_BEYOND = ("decimal_places", "max_digits")


def job_schema() -> dict[str, Any]:
    """Return the schema of a job file, whether TOML or JSON: every key that is known, and the form of its value.

    What has to agree within a job (names, references, even pairs) is beyond a schema; ``check`` tells of it.
    """
    schema = Job.model_json_schema(schema_generator=_OfJobFiles)
    return {"$schema": DIALECT, **schema, "title": "Job file of nesting"}


def plan_schema() -> dict[str, Any]:
    """Return the schema of ``plan.json`` as it is written."""
    schema = Plan.model_json_schema(mode="serialization", schema_generator=_OfWrittenPlans)
    return {"$schema": DIALECT, **schema, "title": "Plan file of nesting"}


class _Strict(GenerateJsonSchema):
    """A schema in standard words only, in which a table of freely named items refuses names that are none."""

    def generate(self, schema: core_schema.CoreSchema, mode: JsonSchemaMode = "validation") -> JsonSchemaValue:
        """Return the schema with its limits in the standard's words."""
        made: JsonSchemaValue = _in_standard_words(super().generate(schema, mode))
        return made

    def decimal_schema(self, schema: core_schema.DecimalSchema) -> JsonSchemaValue:  # noqa: ARG002 - pydantic's signature
        """Take an amount as a number or as a text."""
        return {"anyOf": [{"type": "number"}, {"type": "string", "pattern": AMOUNT}]}

    def dict_schema(self, schema: core_schema.DictSchema) -> JsonSchemaValue:
        """Refuse names that don't match the pattern of names."""
        made = super().dict_schema(schema)
        return {**made, "additionalProperties": False} if "patternProperties" in made else made


class _OfWrittenPlans(_Strict):
    """The schema of what is written: every key, also one whose value is the usual one."""

    def field_is_required(self, field: Any, total: bool) -> bool:  # noqa: ARG002 - pydantic's signature
        """Whatever has a place in the model is written."""
        return True


class _OfJobFiles(_Strict):
    """The schema of what is read, with the forms that the models turn into their own."""

    def function_before_schema(self, schema: core_schema.BeforeValidatorFunctionSchema) -> JsonSchemaValue:
        """Let every length be a text too."""
        made = super().function_before_schema(schema)
        return {"anyOf": [made, LENGTH_TEXT]} if schema["function"]["function"] is length_of else made

    def model_schema(self, schema: core_schema.ModelSchema) -> JsonSchemaValue:
        """Add the shorter forms of a kerf and of an outline; only a panel's outline may name a file."""
        made = super().model_schema(schema)
        forms = {Kerf: _kerf, Outline: _outline, Panel: _panel}
        return next((form(made) for model, form in forms.items() if schema["cls"] is model), made)


def _kerf(made: JsonSchemaValue) -> JsonSchemaValue:
    """One number, or one for each saw."""
    return {"anyOf": [{"type": "number", "minimum": 0}, made]}


def _outline(made: JsonSchemaValue) -> JsonSchemaValue:
    """Points with holes, or a rectangle."""
    side = {"anyOf": [{"type": "number", "exclusiveMinimum": 0}, LENGTH_TEXT]}
    sides = {"type": "array", "prefixItems": [side, side], "minItems": 2, "maxItems": 2}
    rectangle = {
        "type": "object",
        "properties": {"rectangle": sides, "marks": made["properties"]["marks"]},
        "required": ["rectangle"],
        "additionalProperties": False,
    }
    return {"anyOf": [made, rectangle]}


def _panel(made: JsonSchemaValue) -> JsonSchemaValue:
    """An outline as anywhere, or the name of a CSV file of offsets."""
    offsets = {
        "type": "object",
        "properties": {"offsets": {"type": "string", "description": "A CSV file beside the job file."}},
        "required": ["offsets"],
        "additionalProperties": False,
    }
    properties = made["properties"]
    outline = {"anyOf": [properties["outline"], offsets]}
    return {**made, "properties": {**properties, "outline": outline}}


def _in_standard_words(made: Any) -> Any:
    if isinstance(made, list):
        return [_in_standard_words(item) for item in made]
    if not isinstance(made, dict):
        return made
    return {_STANDARD.get(key, key): _in_standard_words(value) for key, value in made.items() if key not in _BEYOND}
