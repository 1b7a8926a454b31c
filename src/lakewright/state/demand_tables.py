"""The tables a demand is worked from: fixtures, animals, charts of flow, and other figures."""

from __future__ import annotations

import difflib
import re
import tomllib
from collections.abc import Mapping
from dataclasses import dataclass
from functools import cache
from importlib import resources
from typing import Literal, TypeVar

import numpy as np

from lakewright import units
from lakewright.physics.curve import Curve, straight_lines
from lakewright.physics.demand import Allowances
from lakewright.stock.table import Line, lines_of

Family = Literal["A", "B"]
Toilets = Literal["tank", "flush valve"]
FAMILIES: dict[Family, str] = {
    "A": "International Plumbing Code 2018, appendix E",
    "B": "National Standard Plumbing Code, appendix B",
}
"""The two families of fixture units. Units of one never meet the flows of the other."""

UNITS_SOURCE: dict[Family, str] = {"A": "ipc-2018-units", "B": "nspc-units"}
FLOWS_SOURCE: dict[Family, str] = {"A": "ipc-2018-flows", "B": "nspc-flows"}
GROUPS = ("house", "yard", "farm")
MOST_OFFERED = 3  # ours: more names than that are a list, and the message already has one


@dataclass(frozen=True, slots=True)
class Fixture:
    """One fixture: units by family (the first, each further), allowance, and what it draws while it runs."""

    name: str
    also: tuple[str, ...]
    units: Mapping[Family, tuple[float, float]]
    standing: Mapping[Family, str]
    group: str
    allowance: float
    outlet: float
    steady: float
    alone: bool
    flush_valve: bool

    def units_of(self, family: Family, count: int) -> float:
        """Fixture units of so many of these."""
        first, further = self.units[family]
        return first + (count - 1) * further if count else 0.0


@dataclass(frozen=True, slots=True)
class Animal:
    """One kind of stock, and what a head of it drinks on a hot day [m3]."""

    name: str
    also: tuple[str, ...]
    per_day: float
    source: str


@dataclass(frozen=True, slots=True)
class Figure:
    """One row of `figures.toml`."""

    value: float
    source: str
    why: str
    always: bool


Row = TypeVar("Row", bound=Fixture | Animal)


@cache
def fixtures() -> dict[str, Fixture]:
    """Every fixture by its name."""
    return {line.text("name"): _fixture(line) for line in _lines("fixtures.csv")}


@cache
def animals() -> dict[str, Animal]:
    """Every animal by its name."""
    return {line.text("name"): _animal(line) for line in _lines("animals.csv")}


@cache
def chart_of(family: Family, toilets: Toilets) -> Curve:
    """Flow [m3/s] over fixture units, for one family and kind of toilet."""
    rows = _chart_rows(family, toilets)
    flows = [units.read(f"{row.text('gpm')} gpm", "flow") for row in rows]
    return straight_lines([row.number("units") for row in rows], flows)


def rests_on_memory(family: Family, toilets: Toilets, total: float) -> bool:
    """Whether a row of a chart that the flow of so many units is drawn from was remembered, not read."""
    rows = _chart_rows(family, toilets)
    below = [row for row in rows if row.number("units") <= total][-1:]
    above = [row for row in rows if row.number("units") >= total][:1]
    return any(row.text("standing") == "remembered" for row in (*below, *above))


@cache
def allowances() -> tuple[tuple[str, ...], Allowances]:
    """Names of the fixtures that have an allowance, and their allowances in that order."""
    rows = [row for row in fixtures().values() if row.group]
    return tuple(row.name for row in rows), Allowances(
        np.array([row.allowance for row in rows]),
        np.array([row.outlet for row in rows]),
        tuple(GROUPS.index(row.group) for row in rows),
    )


@cache
def figures() -> dict[str, Figure]:
    """The rows of `figures.toml`."""
    rows = tomllib.loads(_text("figures.toml"))
    return {
        name: Figure(units.read(row["value"], row["dimension"]), row["source"], row["why"], row["always"])
        for name, row in rows.items()
    }


def named(rows: Mapping[str, Row], name: str) -> Row | None:
    """The row of that name, whatever its capitals, hyphens and plural; None where there is none.

    >>> named(fixtures(), "Wash-basins").name
    'lavatory'
    """
    key = plain(name)
    return next((row for row in rows.values() if key in map(plain, (row.name, *row.also))), None)


def nearest(rows: Mapping[str, Row], name: str) -> list[str]:
    """Names like that one, the likest first.

    >>> nearest(fixtures(), "toylet")[0]
    'toilet'
    """
    known = {plain(spelling): row.name for row in rows.values() for spelling in (row.name, *row.also)}
    close = difflib.get_close_matches(plain(name)[:60], known, n=3 * MOST_OFFERED)
    return list(dict.fromkeys(known[spelling] for spelling in close))[:MOST_OFFERED]


def plain(name: str) -> str:
    """A name without capitals, hyphens and the plural of each word."""
    words = re.findall(r"[^\W_]+", name.casefold())
    return " ".join(_singular(word) for word in words)


def _singular(word: str) -> str:
    if word.endswith("ies") and len(word) > 4:
        return word[:-3] + "y"
    return word[:-1] if word.endswith("s") and not word.endswith("ss") and len(word) > 2 else word


def _fixture(line: Line) -> Fixture:
    of: dict[Family, tuple[float, float]] = {}
    if line.text("a_units"):
        of["A"] = line.number("a_units"), line.number("a_units")
    if line.text("b_units"):
        of["B"] = line.number("b_units"), line.number("b_more" if line.text("b_more") else "b_units")
    return Fixture(
        line.text("name"),
        _names(line.text("also")),
        of,
        {"A": line.text("a_standing"), "B": line.text("b_standing")},
        line.text("group"),
        _flow(line.text("allowance")),
        _flow(line.text("outlet")),
        _flow(line.text("steady")),
        line.text("runs") == "alone",
        line.text("flush_valve") == "yes",
    )


def _animal(line: Line) -> Animal:
    per_day = units.read(line.text("per_day"), "volume")
    return Animal(line.text("name"), _names(line.text("also")), per_day, line.text("source"))


def _flow(text: str) -> float:
    return units.read(text, "flow") if text else 0.0


def _names(cell: str) -> tuple[str, ...]:
    return tuple(filter(None, cell.split(";")))


@cache
def _chart_rows(family: Family, toilets: Toilets) -> tuple[Line, ...]:
    return tuple(row for row in _lines("flows.csv") if (row.text("family"), row.text("toilets")) == (family, toilets))


@cache
def _lines(name: str) -> tuple[Line, ...]:
    return tuple(lines_of(_text(name), name))


def _text(name: str) -> str:
    return resources.files("lakewright.job").joinpath("demand_tables", name).read_text(encoding="utf-8")
