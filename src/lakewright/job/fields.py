"""The job file's tables and fields as data: what forms, messages, the schema and the reference page read."""

from __future__ import annotations

import datetime
import functools
import types
import typing
from collections.abc import Iterator
from dataclasses import dataclass, replace
from typing import Any, Literal

from lakewright.job.models import Job
from lakewright.job.quantity import Dimension
from lakewright.job.table import Rule, Table

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
    if origin is list:
        item = _shape(typing.get_args(annotation)[0])
        return Shape("", "", "rows" if item.table else "list", table=item.table, item=item)
    if origin is dict:
        item = _shape(typing.get_args(annotation)[1])
        return Shape("", "", "tables" if item.table else "counts", table=item.table, item=item)
    if issubclass(annotation, Table):
        return Shape("", "", "table", table=annotation)
    plain: dict[Any, Form] = {str: "text", int: "count", bool: "truth", datetime.date: "date"}
    return Shape("", "", plain[annotation])


def shape_at(path: tuple[str | int, ...]) -> Shape | None:
    """What the field at a path of keys and list indices takes; None where the job file has no such field."""
    here: Shape | None = Shape("", "", "table", table=Job)
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
    """Every table of the job file with its path and how it is written, each before those inside it."""
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
def homes() -> dict[str, tuple[str, ...]]:
    """The headers of the tables that have a field of each name."""
    found: dict[str, tuple[str, ...]] = {}
    for path, table, form in walk():
        for name in shapes(table):
            found[name] = (*found.get(name, ()), header(path, form))
    return found
