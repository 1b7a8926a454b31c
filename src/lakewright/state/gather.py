"""Fills facts from a job one by one, keeps a note of every value nobody measured, and of every one nobody has."""

from __future__ import annotations

import math
import tomllib
from dataclasses import dataclass, field
from functools import cache
from importlib import resources
from typing import Any

from lakewright import units
from lakewright.errors import Mistake
from lakewright.job.quantity import Quantity


@dataclass(frozen=True)
class Default:
    """One table of `defaults.toml`."""

    value: float
    kind: str
    source: str
    why: str
    always: bool


@dataclass(frozen=True)
class Assumed:
    """A value taken without anyone having measured it."""

    key: str
    value: float
    kind: str
    standing: str
    why: str


@cache
def defaults() -> dict[str, Default]:
    """The rows of `defaults.toml`."""
    return {
        name: Default(units.read(row["value"], row["dimension"]), row["kind"], row["source"], row["why"], row["always"])
        for name, row in _table("defaults.toml").items()
    }


@cache
def screen_rules() -> dict[str, tuple[float, bool]]:
    """Velocity [m/s] of each screen rule, and whether it counts the open area."""
    rows = _table("screen_rules.toml")
    return {name: (units.read(row["velocity"], "speed"), row["area"] == "open") for name, row in rows.items()}


@cache
def usual_days() -> list[dict[str, str]]:
    """The rows of `days.toml`."""
    rows: list[dict[str, str]] = _table("days.toml")["day"]
    return rows


def _table(name: str) -> dict[str, Any]:
    return tomllib.loads(resources.files("lakewright.job").joinpath(name).read_text(encoding="utf-8"))


@dataclass
class Gather:
    """Collects while facts are put together. A build takes fewer defaults than a quote."""

    grade: str
    assumed: dict[str, Assumed] = field(default_factory=dict)
    missing: dict[str, str] = field(default_factory=dict)
    standings: dict[str, str] = field(default_factory=dict)
    mistakes: list[Mistake] = field(default_factory=list)

    def number(self, fact: str, given: Quantity | None, place: str, default: str | None = None) -> float:
        """A fact from the job, else from the defaults, else nan with its name kept.

        Parameters
        ----------
        fact : dotted name of the fact
        given : what the job says
        place : where it would stand in the job file, for the person who must fill it in
        default : name of the row of `defaults.toml`; the fact's own when not said
        """
        if given is not None and not given.open:
            if given.standing:
                self.standings[fact] = given.standing
            if given.standing == "assumed":
                self._assume(fact, given.value, defaults().get(default or fact), "assumed", given.note or "said so")
            return given.value
        if given is not None:
            self.missing[fact] = f"{place} is open: design chooses it"
            return math.nan
        return self.default(fact, place, default or fact)

    def default(self, fact: str, place: str, name: str) -> float:
        """A fact from the defaults, if this grade takes it."""
        row = defaults().get(name)
        if row is None or not (row.always or self.grade == "quote"):
            self.missing[fact] = f"{place} is not given"
            return math.nan
        self._assume(fact, row.value, row, "assumed", f"{row.why} ({row.source})")
        return row.value

    def mistake(self, key: str, found: str, wanted: str, remedy: str) -> None:
        """Something in the job that cannot be used; all are raised together at the end."""
        self.mistakes.append(Mistake("", 0, key, found, wanted, remedy))

    def lack(self, fact: str, why: str) -> float:
        """A fact nobody has, and why."""
        self.missing[fact] = why
        return math.nan

    def _assume(self, fact: str, value: float, row: Default | None, standing: str, why: str) -> None:
        kind = row.kind if row else "number"
        self.assumed[fact] = Assumed(fact, value, kind, standing, why)


def first_given(*given: Quantity | None) -> Quantity | None:
    """The first quantity that was given."""
    return next((quantity for quantity in given if quantity is not None), None)
