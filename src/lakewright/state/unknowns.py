"""What nobody knows exactly: which facts move together, how far they may be off, and how well one can measure them."""

from __future__ import annotations

import csv
import math
import tomllib
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass, replace
from functools import cache
from importlib import resources
from pathlib import Path
from typing import Any

import numpy as np

from lakewright import units
from lakewright.errors import AskError, UnitError
from lakewright.job.quantity import Quantity, echo
from lakewright.job.read import plain_line_ends, read_text
from lakewright.physics.types import Array
from lakewright.state.assemble import Assembly
from lakewright.state.facts import Facts

STANDINGS = ("told", "measured", "looked up", "assumed")

SAID_OFTEN_ENOUGH = 5
"""ours: of fewer pairs of said and found the spread is itself hardly known."""


@dataclass(frozen=True)
class Unknown:
    """Something that is not known exactly. Sizes are SI; of what is scaled, shares.

    bias : the truth less what was said, on the whole; spread : of it, one standard deviation
    low, high : ends, where the job gives them and all between is as likely; else infinite
    accuracy : of a measurement, one standard deviation; nan where no one measures it
    standing : of what is said now, in the words of the job file, and empty where it says none
    """

    name: str
    shift: tuple[str, ...]
    scale: tuple[str, ...]
    bias: float
    spread: float
    dimension: str
    standing: str = ""
    low: float = -math.inf
    high: float = math.inf
    least: float = -math.inf
    most: float = math.inf
    accuracy: float = math.nan
    do: str = ""
    minutes: float = math.nan

    def quantile(self, share: Array) -> Array:
        """How far the truth lies from what was said, at a share of the cases between 0 and 1."""
        if math.isfinite(self.low):
            return self.low + (self.high - self.low) * share
        from scipy.special import ndtri

        found: Array = self.bias + self.spread * ndtri(share)
        return found

    def deviation(self) -> float:
        """One standard deviation of it."""
        return (self.high - self.low) / math.sqrt(12.0) if math.isfinite(self.low) else self.spread


@cache
def _rows() -> Mapping[str, Any]:
    return tomllib.loads(resources.files("lakewright.job").joinpath("unknowns.toml").read_text(encoding="utf-8"))


def names_of_unknowns() -> tuple[str, ...]:
    """Every unknown there may be, in the order of the table."""
    return tuple(_rows())


def unknowns_of(assembly: Assembly, record: Mapping[str, tuple[float, float]] | None = None) -> tuple[Unknown, ...]:
    """Every unknown of a job that something rests on.

    Parameters
    ----------
    record : the shop's own bias and spread by name, of what was told; in the place of ours
    """
    found = (_unknown(name, row, assembly, record or {}) for name, row in _rows().items())
    return tuple(each for each in found if each is not None)


def _unknown(
    name: str, row: Mapping[str, Any], assembly: Assembly, record: Mapping[str, tuple[float, float]]
) -> Unknown | None:
    facts, fact, dimension = assembly.facts, row["fact"], row["dimension"]
    moved = [
        value for each in (*row.get("shift", ()), *row.get("scale", ())) if (value := facts.value(each)) is not None
    ]
    scaled = "scale" in row
    if not any(np.isfinite(value).any() and (not scaled or np.any(value != 0.0)) for value in moved):
        return None
    standing = assembly.standings.get(fact) or ("assumed" if _is_assumed(assembly, fact) else "")
    said = row[(standing or "told").replace(" ", "_")]

    def size(key: str, of: Mapping[str, Any] = row, default: float = math.nan) -> float:
        return units.read(of[key], dimension) if key in of else default

    unknown = Unknown(
        name=name,
        shift=tuple(row.get("shift", ())),
        scale=tuple(row.get("scale", ())),
        bias=size("bias", said, 0.0),
        spread=size("spread", said),
        dimension=dimension,
        standing=standing,
        least=size("least", default=-math.inf),
        most=size("most", default=math.inf),
        accuracy=size("accuracy"),
        do=row.get("do", ""),
        minutes=row.get("minutes", math.nan),
    )
    if standing in ("", "told") and name in record:
        bias, spread = record[name]
        unknown = replace(unknown, bias=bias, spread=spread)
    given = assembly.ranges.get(fact)
    return unknown if given is None else _as_given(unknown, given, scaled)


def _is_assumed(assembly: Assembly, fact: str) -> bool:
    return any(each.key == fact for each in assembly.assumed)


def _as_given(unknown: Unknown, given: Quantity, scaled: bool) -> Unknown:
    """With the doubt the job itself gives: a spread, or ends between which it lies."""
    of = given.value if scaled else 1.0
    if of == 0.0:
        return unknown
    if given.spread > 0.0:
        return replace(unknown, bias=0.0, spread=given.spread / of)
    return replace(unknown, bias=0.0, low=(given.low - given.value) / of, high=(given.high - given.value) / of)


def sampled(facts: Facts, unknowns: Sequence[Unknown], off: Array) -> Facts:
    """The facts of many possible truths, one a row.

    Parameters
    ----------
    facts : of one job, or of as many jobs as there are rows
    off : how far each unknown is off, shape (row, unknown)

    Returns
    -------
    Facts with a leading axis of rows. Lengths, shares and pressures never fall below nothing.
    """
    values: dict[str, Array] = {}

    def so_far(name: str) -> Array:
        start: Array = facts.value(name)
        return values.get(name, start if start.ndim > 1 else start[None])

    for column, unknown in zip(off.T, unknowns, strict=True):
        by = column[:, None]
        for name in unknown.shift:
            values[name] = np.clip(so_far(name) + by, unknown.least, unknown.most)
        for name in unknown.scale:
            values[name] = so_far(name) * np.maximum(1.0 + by, LEAST_SHARE)
    return facts.with_values({name: np.ascontiguousarray(value) for name, value in values.items()})


LEAST_SHARE = 0.05
"""ours: nothing that was said is less than a twentieth of it."""


def read_record(path: Path) -> dict[str, tuple[float, float]]:
    """A shop's own record of what was told and what was found, as bias and spread by the name of the unknown.

    A CSV with the columns unknown, said, found; figures with their units. What is scaled is off by a share.

    Raises
    ------
    JobError where the file is none of text, AskError where a row of it cannot be used
    """
    lines = plain_line_ends(read_text(path, "a record of unknown, said, found")).splitlines()
    reader = csv.DictReader(lines)
    try:
        rows, heads = list(reader), reader.fieldnames or ()
    except csv.Error as error:
        wanted = "wanted cells of a few words; close the quotes"
        raise AskError(f"{path}, line {reader.line_num + 1}: found {error}; {wanted}") from None
    if not {"unknown", "said", "found"} <= set(heads):
        raise AskError(
            f"{path}, line 1: found {echo(lines[0]) if lines else 'nothing'}; wanted the columns unknown, said, found"
        )

    def off(row: Mapping[str, str | None], line: int) -> tuple[str, float]:
        name, said, found = (row[key] or "" for key in ("unknown", "said", "found"))
        return name, difference(name, said, found, f"{path}, line {line}")

    return tuned(off(row, number) for number, row in enumerate(rows, start=2))


def tuned(off: Iterable[tuple[str, float]]) -> dict[str, tuple[float, float]]:
    """Bias and spread by the name of the unknown, of those of which there are pairs enough.

    Parameters
    ----------
    off : by how much what was said was off, as `difference` has it
    """
    found: dict[str, list[float]] = {}
    for name, each in off:
        found.setdefault(name, []).append(each)
    return {
        name: (float(np.mean(each)), float(np.std(each, ddof=1)))
        for name, each in found.items()
        if len(each) >= SAID_OFTEN_ENOUGH
    }


def difference(name: str, said: str, found: str, place: str) -> float:
    """What was found less what was said of an unknown, in SI; of what is scaled, as a share of what was said.

    Parameters
    ----------
    said, found : with their units
    place : where that stands, for the words of an error

    Raises
    ------
    AskError where there is no such unknown, or a figure cannot be read
    """
    known = _rows().get(name)
    if known is None:
        raise AskError(f"{place}: found the unknown {echo(name)}; wanted one of: {', '.join(_rows())}")
    scaled = "scale" in known
    dimension = known["said"] if scaled else known["dimension"]
    try:
        before, after = (units.read(text, dimension) for text in (said, found))
    except UnitError as error:
        raise AskError(f"{place}: found {error.found}; wanted {error.wanted}; {error.remedy}") from None
    if scaled and before == 0.0:
        raise AskError(f"{place}: found 0 said; wanted a size of which the error is a share")
    return after / before - 1.0 if scaled else after - before


def dimension_of(name: str) -> str:
    """The dimension of how far an unknown is off; of what is scaled, a share."""
    found: str = _rows()[name]["dimension"]
    return found
