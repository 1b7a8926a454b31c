"""The job file described: a JSON Schema that editors complete from, and the reference page.

python -m lakewright.job.schema docs/reference/job_file.md     writes the page
"""

from __future__ import annotations

import json
import sys
from pathlib import Path
from typing import Any

from lakewright.job.fields import Shape, example, header, is_of_months, shapes, walk
from lakewright.job.models import Job
from lakewright.job.models_shop import Override
from lakewright.job.quantity import LONGEST_NOTE, STANDINGS, Dimension
from lakewright.job.table import LONGEST_TEXT, MOST_COUNT, MOST_ROWS, Table


def job_schema() -> dict[str, Any]:
    """JSON Schema of a job file, draft 2020-12."""
    definitions: dict[str, Any] = {"standing": _standing()}
    root = _table_schema(Job, definitions)
    return {
        "$schema": "https://json-schema.org/draft/2020-12/schema",
        "title": "Lakewright job file",
        **root,
        "$defs": definitions,
    }


def _standing() -> dict[str, Any]:
    return {
        "description": "The date it became known, or true.",
        "anyOf": [{"const": True}, {"type": "string"}, {"type": "object"}],
    }


def _table_schema(table: type[Table], definitions: dict[str, Any]) -> dict[str, Any]:
    fields = shapes(table)
    schema: dict[str, Any] = {
        "type": "object",
        "description": (table.__doc__ or "").strip(),
        "properties": {
            name: {**_shape_schema(shape, definitions), "description": shape.description}
            for name, shape in fields.items()
        },
        "additionalProperties": {"type": ["number", "string", "boolean"]} if table is Override else False,
    }
    needed = [name for name, shape in fields.items() if shape.required]
    return {**schema, "required": needed} if needed else schema


def _shape_schema(shape: Shape, definitions: dict[str, Any]) -> dict[str, Any]:
    if shape.dimension is not None:
        return {"$ref": f"#/$defs/{_define_quantity(shape.dimension, definitions)}"}
    if shape.table is not None:
        name = shape.table.__name__
        if name not in definitions:
            definitions[name] = {}  # so that a table met again inside itself would end
            definitions[name] = _table_schema(shape.table, definitions)
        inner: dict[str, Any] = {"$ref": f"#/$defs/{name}"}
        if shape.form == "rows":
            return {"type": "array", "items": inner, "maxItems": MOST_ROWS}
        return {"type": "object", "additionalProperties": inner} if shape.form == "tables" else inner
    if shape.item is not None:
        inner = _shape_schema(shape.item, definitions)
        if shape.form == "list":
            return {"type": "array", "items": inner, "maxItems": MOST_ROWS}
        return {"type": "object", "additionalProperties": inner}
    plain: dict[str, dict[str, Any]] = {
        "text": {"type": "string", "maxLength": LONGEST_TEXT},
        "count": {"type": "integer", "minimum": 0, "maximum": MOST_COUNT},
        "truth": {"type": "boolean"},
        "date": {"type": "string", "format": "date"},
        "choice": {"enum": list(shape.choices)},
    }
    schema = plain[shape.form]
    return schema if shape.default is None else {**schema, "default": shape.default}


def _define_quantity(dimension: Dimension, definitions: dict[str, Any]) -> str:
    name = dimension.kind if dimension.kind == dimension.dimension else f"{dimension.dimension}_{dimension.kind}"
    name += "_or_open" if dimension.may_be_open else ""
    noun = dimension.noun
    number = ["number", "string"] if noun.bare else ["string"]
    examples: list[Any] = list(dict.fromkeys([noun.us_example, noun.si_example]))
    if dimension.may_be_open:
        examples.append("open")
    value = {"type": number, "examples": examples}
    definitions[name] = {
        "title": noun.name + (', or "open"' if dimension.may_be_open else ""),
        "examples": examples,
        "anyOf": [
            value,
            {
                "type": "object",
                "required": ["value"],
                "additionalProperties": False,
                "maxProperties": 3,
                "properties": {
                    "value": value,
                    **{key: {"$ref": "#/$defs/standing"} for key in STANDINGS},
                    "note": {"type": "string", "maxLength": LONGEST_NOTE},
                },
            },
        ],
    }
    return name


_HEAD = """# The job file

Written by `python -m lakewright.job.schema`; change the models, not this page.

A job file is TOML. A quantity is text with its unit, and may say how sure it is and who said so:

```toml
depth = "12 ft"                                      # known
depth = "10..14 ft"                                  # lies between
depth = { value = "12 +- 1 ft", told = 2026-05-03 }  # or measured, looked_up, assumed; and a note
riser = "open"                                       # the program chooses, where a field allows it
```

Heights are from the usual summer level of the water, which is 0: plus is up, minus is down. Distances run
from the water's edge. Every table and every field may be left out, except those marked *needed* inside a
table that is there. NAME stands for a name of your own; double brackets are written once for each row.
"""


def job_reference() -> str:
    """The reference page of the job file, in Markdown."""
    parts = [_HEAD]
    for path, table, form in walk():
        parts.append(table_reference(f"`{header(path, form)}`", table))
        if table is Override:
            parts.append("\nAny figure of the check's limit may stand beside the reason.\n")
    return "".join(parts)


def table_reference(title: str, table: type[Table]) -> str:
    """One table's part of a reference page: what it is, and its fields."""
    parts = [f"\n## {title}\n\n{(table.__doc__ or '').strip()}\n"]
    fields = [shape for shape in shapes(table).values() if shape.table is None]
    if fields:
        parts.append("\n| field | takes | is |\n|---|---|---|\n")
        parts.extend(f"| `{shape.name}` | {_takes(shape)} | {shape.description} |\n" for shape in fields)
    return "".join(parts)


def _takes(shape: Shape) -> str:
    words = _takes_plainly(shape)
    if shape.default not in (None, 0):
        words += f"; else {shape.default}"
    return f"{words}; *needed*" if shape.required else words


def _takes_plainly(shape: Shape) -> str:
    if shape.dimension is not None:
        noun = shape.dimension.noun
        examples = " or ".join(f"`{each}`" for each in dict.fromkeys([noun.us_example, noun.si_example]))
        return f"{noun.name}, {examples}" + (', or `"open"`' if shape.dimension.may_be_open else "")
    if shape.form == "choice":
        return ", ".join(f"`{word}`" for word in shape.choices)
    if shape.form == "list" and shape.item is not None:
        of_months = is_of_months(shape)
        return f"a list of months, `{example(shape)}`" if of_months else f"a list: {_takes_plainly(shape.item)}"
    return {
        "text": "words",
        "count": "a whole number",
        "truth": "`true` or `false`",
        "date": "a date, `2026-05-03`",
        "counts": "names with a number each, `{ name = 2 }`",
    }[shape.form]


def main(arguments: list[str]) -> None:
    """Write the reference page, or the schema where the file's name ends in .json."""
    for name in arguments:
        page = json.dumps(job_schema(), indent=1) + "\n" if name.endswith(".json") else job_reference()
        Path(name).write_text(page, encoding="utf-8")


if __name__ == "__main__":
    main(sys.argv[1:])
