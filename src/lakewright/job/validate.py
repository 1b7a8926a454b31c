"""From the plain data of a file to its model, table by table.

The validator of a table is built when a job first writes that table, straight from its fields. The model
library can build them as well, and a test holds the two equal, but all of them at every start, with what
prints and extends them, cost more than a whole check of a job may.
"""

from __future__ import annotations

import functools
from collections.abc import Callable
from typing import Any

from pydantic_core import SchemaValidator, core_schema

from lakewright.job.fact import fact_schema
from lakewright.job.fields import Shape, example, shapes
from lakewright.job.table import FIGURE, LONGEST_TEXT, MOST_COUNT, MOST_ROWS, Table


@functools.cache
def validator_of(table: type[Table]) -> SchemaValidator:
    """The validator of one table; those inside it are found when they are met."""
    free = table.model_config.get("extra") == "allow"
    fields = core_schema.model_fields_schema(
        {name: _field(table, shape) for name, shape in shapes(table).items()},
        model_name=table.__name__,
        extra_behavior="allow" if free else "forbid",
        extras_schema=FIGURE.schema() if free else None,
    )
    return SchemaValidator(core_schema.model_schema(table, fields, config={"strict": True}))


def _field(table: type[Table], shape: Shape) -> core_schema.ModelField:
    schema = _schema(shape)
    if shape.is_fact:
        schema = fact_schema(schema, functools.partial(example, shape))
    for rule in shape.rules:
        schema = rule.after(schema)
    if shape.required:
        return core_schema.model_field(schema)
    info = table.model_fields[shape.name]
    factory: Callable[[], Any] | None = info.default_factory  # type: ignore[assignment]  # none of ours takes data
    if factory is not None:
        return core_schema.model_field(core_schema.with_default_schema(schema, default_factory=factory))
    return core_schema.model_field(core_schema.with_default_schema(schema, default=info.default))


def _schema(shape: Shape) -> core_schema.CoreSchema:
    if shape.dimension is not None:
        return shape.dimension.schema()
    if shape.form == "table" and shape.table is not None:
        return _table(shape.table)
    if shape.form in ("rows", "list") and shape.item is not None:
        return core_schema.list_schema(_schema(shape.item), max_length=MOST_ROWS, strict=True)
    if shape.form in ("tables", "counts") and shape.item is not None:
        names = core_schema.str_schema(max_length=LONGEST_TEXT)
        return core_schema.dict_schema(names, _schema(shape.item), max_length=MOST_ROWS, strict=True)
    if shape.form == "choice":
        return core_schema.literal_schema(list(shape.choices))
    if shape.form == "count":
        return core_schema.int_schema(ge=0, le=MOST_COUNT, strict=True)
    if shape.form == "truth":
        return core_schema.bool_schema(strict=True)
    if shape.form == "date":
        return core_schema.date_schema(strict=True)
    return core_schema.str_schema(max_length=LONGEST_TEXT, strict=True)


def _table(table: type[Table]) -> core_schema.CoreSchema:
    def validate(given: object, info: core_schema.ValidationInfo) -> Any:
        return validator_of(table).validate_python(given, context=info.context)

    return core_schema.with_info_plain_validator_function(validate)
