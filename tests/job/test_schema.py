"""The job file described for editors and for people."""

from __future__ import annotations

import datetime
import json
import tomllib
from pathlib import Path
from typing import Any

import pytest
from jsonschema import Draft202012Validator

from lakewright.job.fields import shapes, walk
from lakewright.job.schema import job_reference, job_schema, main
from tests.job.example import example_text

PAGE = Path(__file__).parents[2] / "docs" / "reference" / "job_file.md"


def as_an_editor_sees_it(data: Any) -> Any:
    if isinstance(data, dict):
        return {key: as_an_editor_sees_it(value) for key, value in data.items()}
    if isinstance(data, list):
        return [as_an_editor_sees_it(value) for value in data]
    return data.isoformat() if isinstance(data, datetime.date) else data


def test_the_schema_is_a_schema() -> None:
    Draft202012Validator.check_schema(job_schema())
    assert json.loads(json.dumps(job_schema())) == job_schema()


def test_the_example_fits_the_schema() -> None:
    example = as_an_editor_sees_it(tomllib.loads(example_text()))
    assert [error.message for error in Draft202012Validator(job_schema()).iter_errors(example)] == []


@pytest.mark.parametrize(
    "text",
    [
        '[site]\nkind = "sea"\n',
        "[stand]\nat = 50\n",
        "[need]\nbaths = 1.5\n",
        '[site]\nwatr = "x"\n',
        '[[site.soundings]]\ndepth = "3 ft"\n',
        "[limits.lift]\ncomfort = 3\n",
        '[stand]\nat = { value = "3 ft", told = true, measured = true, note = "x" }\n',
    ],
)
def test_what_the_door_refuses_the_schema_refuses(text: str) -> None:
    data = as_an_editor_sees_it(tomllib.loads(text))
    assert list(Draft202012Validator(job_schema()).iter_errors(data)) != []


def test_every_quantity_has_its_examples() -> None:
    definitions = job_schema()["$defs"]
    for _, table, _ in walk():
        for shape in shapes(table).values():
            if shape.dimension is not None:
                name = definitions[table.__name__]["properties"][shape.name]["$ref"].rpartition("/")[2]
                assert shape.dimension.noun.us_example in definitions[name]["examples"]


@pytest.mark.golden
def test_the_reference_page_is_current() -> None:
    assert PAGE.read_text(encoding="utf-8") == job_reference(), (
        "run: python -m lakewright.job.schema docs/reference/job_file.md"
    )


def test_the_page_names_every_field(tmp_path: Path) -> None:
    main([str(tmp_path / "page.md"), str(tmp_path / "schema.json")])
    page = (tmp_path / "page.md").read_text(encoding="utf-8")
    assert json.loads((tmp_path / "schema.json").read_text()) == job_schema()
    for _, table, _ in walk():
        for shape in shapes(table).values():
            assert shape.table is not None or f"| `{shape.name}` | " in page
            assert shape.table is not None or shape.description in page
