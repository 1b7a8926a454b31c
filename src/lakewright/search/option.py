"""One option of a part: the job with its choice written in."""

from __future__ import annotations

import math
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field, replace
from typing import Any

from lakewright.job.models import Job
from lakewright.job.quantity import Quantity
from lakewright.job.table import Table
from lakewright.state.path import ports_of
from lakewright.stock.ports import Port
from lakewright.stock.rows import FootValve, Jet, Pipe, Pump, Screen, Tank
from lakewright.stock.rows import Part as SmallPart
from lakewright.stock.table import NOMINAL


@dataclass(frozen=True)
class Option:
    """One option of a part.

    label: what it is called; says: what it writes in the job; per_length: cents a metre of pipe; size: nominal [in];
    ports: of a row of the stock
    """

    label: str
    says: Mapping[str, Any] = field(default_factory=dict)
    per_length: float = 0.0
    size: float = math.nan
    ports: tuple[Port, ...] = ()


def said(job: Job, words: Mapping[str, Any]) -> Job:
    """The job with some fields written in, by dotted name."""
    for path, value in words.items():
        job = _written(job, path.split("."), value)
    return job


def _written(table: Any, path: Sequence[str], value: Any) -> Any:
    name, *rest = path
    inner: Table = getattr(table, name)
    return table.model_copy(update={name: _written(inner, rest, value) if rest else value})


def quantity(value: float) -> Quantity:
    """A number of our own choosing, as a field of a job."""
    return Quantity(value, value, value, 0.0, "", None, "", False, "")


def open_quantity() -> Quantity:
    """A number left open."""
    return replace(quantity(math.nan), open=True)


def named_option(name: str, rows: Mapping[str, Any]) -> Option:
    """What the job names, or is said to have."""
    return stocked_option(rows[name], {}) if name in rows else Option(name or "as given")


def stocked_option(row: FootValve | Screen | Pipe | Pump | Jet | SmallPart | Tank, says: Mapping[str, Any]) -> Option:
    """A row of the stock as an option."""
    label = row.name.removeprefix("foot valve, ").removeprefix("flow control, ")
    if isinstance(row, Pipe):
        return Option(label, says, row.price_cents_per_m, NOMINAL.get(row.size, math.nan), row.ports)
    size = row.inlet_size if isinstance(row, Pump | Jet) else row.size if isinstance(row, FootValve) else ""
    return Option(label, says, 0.0, NOMINAL.get(size, math.nan), ports_of(row))
