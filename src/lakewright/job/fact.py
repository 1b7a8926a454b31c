"""One thing a record says, and on whose word."""

from __future__ import annotations

import datetime
from collections.abc import Callable
from dataclasses import dataclass, replace
from typing import Any, Generic, TypeVar

from pydantic_core import core_schema

from lakewright.job.quantity import STANDINGS, Dimension, FieldProblem, Quantity, echo, read_quantity
from lakewright.job.table import LONGEST_TEXT

T = TypeVar("T")
BESIDE = ("value", "said_by", *STANDINGS, "note")


@dataclass(frozen=True, slots=True)
class Fact(Generic[T]):
    """One thing the record says, and on whose word. Whatever someone said without more is told."""

    value: T
    standing: str  # told, measured, looked up, assumed, or nothing
    since: datetime.date | None
    said_by: str
    note: str


def fact_schema(value: core_schema.CoreSchema, example: Callable[[str], str]) -> core_schema.CoreSchema:
    """The schema of a fact, of that of its value. `example` is what one might write for it, in US or SI."""

    def read(given: object, read_value: Callable[[object], Any], info: core_schema.ValidationInfo) -> Fact[Any]:
        return _read_fact(given, read_value, example((info.context or {}).get("units", "US")))

    return core_schema.with_info_wrap_validator_function(read, value)


def _read_fact(given: object, read_value: Callable[[object], Any], example: str) -> Fact[Any]:
    """What a value says, plain or as a table that has it beside whose word it is."""
    if not isinstance(given, dict):
        return Fact(_said(given, read_value, example), "", None, "", "")
    unknown = [key for key in given if key not in BESIDE]
    if unknown or "value" not in given:
        raise FieldProblem(
            f"a table with the key {echo(unknown[0])}" if unknown else "a table without a value",
            "value, and beside it said_by, one of told, measured, looked_up, assumed, and a note",
            write=f'{{ value = {example}, told = 2026-05-03, said_by = "..." }}',
            at=(unknown[0],) if unknown else (),
        )
    said_by = given.get("said_by", "")
    if not isinstance(said_by, str) or len(said_by) > LONGEST_TEXT:
        raise FieldProblem(echo(said_by), "who said so, in words", "put the name in quotes", at=("said_by",))
    word = _word_beside(given)
    standing = word.standing or ("told" if said_by else "")
    if isinstance(given["value"], dict):
        raise FieldProblem("a table in a table", "a value beside its standing", write=example)
    value = _said(given["value"], read_value, example)
    if isinstance(value, Quantity):
        value = replace(value, standing=standing, since=word.since, note=word.note)
    return Fact(value, standing, word.since, said_by, word.note)


def _said(given: object, read_value: Callable[[object], Any], example: str) -> Any:
    """The value itself: words that say something, and lists that do not change."""
    value = read_value(given)
    if isinstance(value, str) and not value.strip():
        raise FieldProblem(echo(given), "words in quotes", write=example)
    return tuple(value) if isinstance(value, list) else value


def _word_beside(given: dict[str, Any]) -> Quantity:
    """Standing, date and note, read as they are beside any quantity of a job."""
    beside = {key: given[key] for key in given if key not in ("value", "said_by")}
    return read_quantity({**beside, "value": 1}, Dimension("count", "count", 0.0, 1.0))
