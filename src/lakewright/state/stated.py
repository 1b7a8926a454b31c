"""What a job states of itself with somebody's word behind it, value by value."""

from __future__ import annotations

import datetime
from collections.abc import Iterator
from dataclasses import dataclass
from typing import Any

from lakewright.job.models import Job
from lakewright.job.quantity import Quantity, is_given
from lakewright.job.table import Table
from lakewright.state.names import plain_name

ROWS = ("soundings", "ground", "route", "readings")
"""Lists that are one thing told: their rows are not each a fact to ask again."""


@dataclass(frozen=True, slots=True)
class Stated:
    """A value of a job file with whose word it is.

    key: dotted, as in the file; of: what row of a list it belongs to, by its name; text: as it was written
    """

    key: str
    of: str
    text: str
    standing: str
    since: datetime.date | None
    note: str

    @property
    def name(self) -> str:
        """What it is, in plain words."""
        return plain_name(self.key.replace("site.days.", "days."))


def stated(job: Job) -> tuple[Stated, ...]:
    """Every value of a job that says on whose word it stands, in the order of the file; those of a record left out."""
    return tuple(_within(job, "", ""))


def _within(table: Table, key: str, of: str) -> Iterator[Stated]:
    for name in type(table).model_fields:
        yield from _of(getattr(table, name), f"{key}.{name}" if key else name, name, of)


def _of(value: Any, key: str, name: str, of: str) -> Iterator[Stated]:
    if isinstance(value, Table):
        yield from _within(value, key, of)
    elif isinstance(value, list | tuple) and name not in ROWS:
        for row in value:
            yield from _of(row, key, name, str(getattr(row, "name", "") or ""))
    elif isinstance(value, dict):
        for row_name, row in value.items():
            yield from _of(row, key, name, str(row_name))
    elif isinstance(value, Quantity) and is_given(value) and value.standing and not value.from_record:
        yield Stated(key, of, value.text, value.standing, value.since, value.note)
