"""The tables drinking water is worked from: the federal contact table, baffling, and what each barrier counts for."""

from __future__ import annotations

import tomllib
from bisect import bisect_left, bisect_right
from collections.abc import Mapping
from dataclasses import dataclass
from functools import cache
from importlib import resources

from lakewright import units
from lakewright.physics.disinfection import HAIR, MILLIGRAM, MILLIGRAM_MINUTE
from lakewright.physics.water import ICE_POINT
from lakewright.stock.table import lines_of

PH = (6.0, 6.5, 7.0, 7.5, 8.0, 8.5, 9.0)
"""Columns of the federal tables. Source: 40 CFR 141.74(b)(3)."""


@dataclass(frozen=True, slots=True)
class Barrier:
    """What one step of a treatment counts for: log reductions of Giardia, Cryptosporidium and viruses.

    finest: [m] it must hold back particles of this size, or finer; infinite where that makes no difference.
    """

    giardia: float
    cryptosporidium: float
    virus: float
    finest: float
    source: str
    why: str


@cache
def barriers() -> Mapping[str, Barrier]:
    """The rows of `barriers.toml`, by the word of the job file."""
    return {
        name: Barrier(
            row["giardia"],
            row["cryptosporidium"],
            row["virus"],
            units.read(row["finest"], "length") if "finest" in row else float("inf"),
            row["source"],
            row["why"],
        )
        for name, row in tomllib.loads(_text("barriers.toml")).items()
    }


@cache
def sample_rows() -> tuple[Mapping[str, str], ...]:
    """The rows of `tests.toml`."""
    rows: list[dict[str, str]] = tomllib.loads(_text("tests.toml"))["test"]
    return tuple(rows)


@cache
def baffling() -> Mapping[str, float]:
    """Share of a tank's filling time that counts, by how the tank is built."""
    return {line.words("tank"): line.number("share") for line in lines_of(_text("baffling.csv"), "baffling.csv")}


@cache
def giardia_table() -> Mapping[tuple[float, float], tuple[float, ...]]:
    """The federal table [mg min/L for 3 log], a row by temperature [C] and residual [mg/L], a column by `PH`."""
    return {
        (line.number("temperature"), line.number("residual")): tuple(line.number(f"{ph:.1f}") for ph in PH)
        for line in lines_of(_text("giardia.csv"), "giardia.csv")
    }


def giardia_cell(temperature: float, ph: float, residual: float) -> float:
    """The cell of the federal table that holds for a water [kg s/m3 for 3 log]: colder, of more pH and more residual.

    Parameters
    ----------
    temperature : [K]; ph : [-]; residual : [kg/m3]

    Returns
    -------
    [kg s/m3]; nan past pH 9 and past 3 mg/L, where the table ends

    >>> round(giardia_cell(279.0, 7.4, 0.95e-3) / 0.06, 6)
    179.0
    """
    table = giardia_table()
    warmths = sorted({warmth for warmth, _ in table})
    residuals = sorted({each for _, each in table})
    warmth = warmths[max(bisect_right(warmths, temperature - ICE_POINT + HAIR) - 1, 0)]
    row, column = bisect_left(residuals, residual / MILLIGRAM - HAIR), bisect_left(PH, ph - HAIR)
    known = row < len(residuals) and column < len(PH)
    return MILLIGRAM_MINUTE * table[warmth, residuals[row]][column] if known else float("nan")


def _text(name: str) -> str:
    return resources.files("lakewright.job").joinpath("water_tables", name).read_text(encoding="utf-8")
