"""Tables and their fields as data: what forms, messages, the schema and the reference pages read.

The tables are those of a job file, unless another root is named.
"""

from __future__ import annotations

import datetime
import functools
import json
import types
import typing
from collections.abc import Iterator
from dataclasses import dataclass, replace
from typing import Any, Literal

from lakewright.job.fact import Fact
from lakewright.job.models import Job
from lakewright.job.quantity import Dimension, example_of
from lakewright.job.table import Month, Rule, Table

Form = Literal["quantity", "text", "count", "truth", "date", "choice", "list", "table", "rows", "tables", "counts"]


@dataclass(frozen=True, slots=True)
class Shape:
    """What one field takes.

    `table` is the table inside a field of form table, rows (a list of tables) or tables (each under a name of
    the user's own); `item` is what a list holds; `choices` are the words of a choice;
    `rules` must hold besides.
    """

    name: str
    description: str
    form: Form
    required: bool = False
    default: object = None
    dimension: Dimension | None = None
    choices: tuple[str, ...] = ()
    table: type[Table] | None = None
    item: Shape | None = None
    rules: tuple[Rule, ...] = ()
    is_fact: bool = False  # whose word it is may stand beside it


@functools.cache
def shapes(table: type[Table]) -> dict[str, Shape]:
    """The fields of a table by name, in the order of the reference page."""
    found = {}
    for name, info in table.model_fields.items():
        shape = _shape(info.annotation, tuple(info.metadata))
        default = None if info.is_required() or info.default_factory else info.default
        found[name] = replace(
            shape,
            name=name,
            description=info.description or "",
            required=info.is_required(),
            default=default,
            rules=tuple(mark for mark in info.metadata if isinstance(mark, Rule)),
        )
    return found


def _shape(annotation: Any, metadata: tuple[Any, ...] = ()) -> Shape:
    origin = typing.get_origin(annotation)
    if origin is Fact:
        return replace(_shape(typing.get_args(annotation)[0]), is_fact=True)
    if origin is typing.Annotated:
        inner, *more = typing.get_args(annotation)
        return _shape(inner, (*metadata, *more))
    if origin in (types.UnionType, typing.Union):
        (inner,) = (each for each in typing.get_args(annotation) if each is not type(None))
        return _shape(inner, metadata)
    for mark in metadata:
        if isinstance(mark, Dimension):
            return Shape("", "", "quantity", dimension=mark)
    if origin is Literal:
        return Shape("", "", "choice", choices=typing.get_args(annotation))
    if origin in (list, tuple):
        item = _shape(typing.get_args(annotation)[0])
        return Shape("", "", "rows" if item.table else "list", table=item.table, item=item)
    if origin is dict:
        item = _shape(typing.get_args(annotation)[1])
        return Shape("", "", "tables" if item.table else "counts", table=item.table, item=item)
    if issubclass(annotation, Table):
        return Shape("", "", "table", table=annotation)
    plain: dict[Any, Form] = {str: "text", int: "count", bool: "truth", datetime.date: "date"}
    return Shape("", "", plain[annotation])


def example(shape: Shape, system: str = "US") -> str:
    """What one might write on the right of the equals sign, quotes and all."""
    if shape.dimension is not None:
        return example_of(shape.dimension, system)
    if shape.choices:
        return json.dumps(shape.choices[0])
    if shape.form == "list" and shape.item is not None:
        return f"[{example(shape.item, system)}]"
    return {"count": "3", "truth": "true", "date": "2026-05-03"}.get(shape.form, '"..."')


def is_of_months(shape: Shape) -> bool:
    """Whether a list is one of months."""
    return shape.item is not None and shape.item.choices == typing.get_args(Month)


def shape_at(path: tuple[str | int, ...], root: type[Table] = Job) -> Shape | None:
    """What the field at a path of keys and list indices takes; None where the file has no such field."""
    here: Shape | None = Shape("", "", "table", table=root)
    for part in path:
        if here is None:
            return None
        if here.form == "table" and here.table and isinstance(part, str):
            here = shapes(here.table).get(part)
        elif (here.form in ("rows", "list") and isinstance(part, int)) or (
            here.form in ("tables", "counts") and isinstance(part, str)
        ):
            here = here.item
        else:
            return None
    return here


def walk(table: type[Table] = Job, path: tuple[str, ...] = ()) -> Iterator[tuple[tuple[str, ...], type[Table], Form]]:
    """Every table inside a table with its path and how it is written, each before those inside it."""
    for name, shape in shapes(table).items():
        if shape.table is not None:
            here = (*path, name)
            yield here, shape.table, shape.form
            yield from walk(shape.table, here)


def header(path: tuple[str, ...], form: Form) -> str:
    """How a table's header is written: [a.b], [[a.b]], or [a.NAME]."""
    dotted = ".".join(path)
    return {"rows": f"[[{dotted}]]", "tables": f"[{dotted}.NAME]"}.get(form, f"[{dotted}]")


@functools.cache
def homes(root: type[Table] = Job) -> dict[str, tuple[str, ...]]:
    """The headers of the tables that have a field of each name."""
    above = "the lines above the first [table]"
    found: dict[str, tuple[str, ...]] = {name: (above,) for name, shape in shapes(root).items() if not shape.table}
    for path, table, form in walk(root):
        for name in shapes(table):
            found[name] = (*found.get(name, ()), header(path, form))
    return found
