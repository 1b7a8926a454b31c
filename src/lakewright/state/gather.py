"""Fills facts from a job one by one, keeps a note of every value nobody measured, and of every one nobody has."""

from __future__ import annotations

import math
import tomllib
from collections.abc import Callable, Mapping
from dataclasses import dataclass, field
from functools import cache
from importlib import resources
from typing import Any, TypeVar

import numpy as np

from lakewright import units
from lakewright.errors import Mistake, StockError
from lakewright.job.quantity import Quantity, is_given
from lakewright.physics.types import Array
from lakewright.state.names import plain_name

OPEN = "open"
Row = TypeVar("Row")


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
    text: str = ""  # what is taken, where that is not a number: a part by its name
    place: str = ""  # where in the job file it may be said otherwise
    from_record: bool = False  # whether the water's record has it; `why` is then whose word it is there

    @property
    def name(self) -> str:
        """What it is, in plain words."""
        return plain_name(self.key)


@cache
def defaults() -> dict[str, Default]:
    """The rows of `defaults.toml`."""
    return {
        name: Default(units.read(row["value"], row["dimension"]), row["kind"], row["source"], row["why"], row["always"])
        for name, row in _table("defaults.toml").items()
    }


@dataclass(frozen=True)
class ScreenRule:
    """One table of `screen_rules.toml`. velocity [m/s]; opening, slot [m], infinite where it names none."""

    velocity: float
    on_open: bool
    opening: float
    slot: float


@cache
def screen_rule_rows() -> dict[str, dict[str, Any]]:
    """The tables of `screen_rules.toml`."""
    return _table("screen_rules.toml")


@cache
def screen_rules() -> dict[str, ScreenRule]:
    """The rules a screen may be judged by."""
    return {name: _screen_rule(row) for name, row in screen_rule_rows().items()}


def _screen_rule(row: Mapping[str, Any]) -> ScreenRule:
    opening = units.read(row["opening"], "length") if "opening" in row else math.inf
    slot = units.read(row["slot"], "length") if "slot" in row else opening
    return ScreenRule(units.read(row["velocity"], "speed"), row["area"] == "open", opening, slot)


@cache
def usual_parts() -> dict[str, Any]:
    """The rows of `usual_parts.toml`."""
    return _table("usual_parts.toml")


def usual_size(length: float, flow: float) -> str:
    """Nominal size of a suction line by its length [m] and flow [m3/s], as practice has it.

    >>> usual_size(30.0, 5e-4)
    '1-1/2'
    """
    large = usual_parts()["large_flow"]
    if flow > units.read(large["flow"], "flow"):
        return str(large["size"])
    rows = usual_parts()["size"]
    return str(next((row["size"] for row in rows if length <= units.read(row["length"], "length")), rows[-1]["size"]))


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
    ranges: dict[str, Quantity] = field(default_factory=dict)
    mistakes: list[Mistake] = field(default_factory=list)
    parts: dict[str, str] = field(default_factory=dict)

    def number(
        self, fact: str, given: Quantity | None, place: str, default: str | None = None, kind: str = "count"
    ) -> float:
        """A fact from the job, else from the defaults, else nan with its name kept.

        Parameters
        ----------
        fact : dotted name of the fact
        given : what the job says
        place : where it would stand in the job file, for the person who must fill it in
        default : name of the row of `defaults.toml`; the fact's own when not said
        kind : how it is shown, where it has no such row
        """
        if is_given(given):
            if given.standing:
                self.standings[fact] = given.standing
            if given.low != given.high or given.spread > 0.0:
                self.ranges[fact] = given
            row = defaults().get(default or fact)
            kind = row.kind if row else kind
            if given.standing == "assumed" and not given.from_record:
                self.assume(fact, given.value, kind, given.note or "said so", place)
            elif given.low != given.high:
                self.assume(fact, given.value, kind, f"the middle of {given.text}: its ends are not judged yet", place)
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
        return self.assume(fact, row.value, row.kind, f"{row.why} ({row.source})", place)

    def mistake(self, key: str, found: str, wanted: str, remedy: str) -> None:
        """Something in the job that cannot be used; all are raised together at the end."""
        self.mistakes.append(Mistake("", 0, key, found, wanted, remedy))

    def lack(self, fact: str, why: str) -> float:
        """A fact nobody has, and why."""
        self.missing[fact] = why
        return math.nan

    def part(self, key: str, find: Callable[[str], Row], name: str | None) -> Row | None:
        """A part by its name in stock; a stranger's name is a mistake, and none or open is nothing."""
        if name is None or name == OPEN:
            return None
        self.parts[key] = name
        try:
            return find(name)
        except StockError as error:
            self.mistake(key, error.found, error.wanted, error.remedy)
            return None

    def usual(self, key: str, given: str | None, what: str, size: str = "") -> str | None:
        """The name a job gives a part, else in a quote the usual one's."""
        if given is not None or self.grade != "quote":
            return given
        row = usual_parts()[what]
        name = str(row["stock"]).format(size=size)
        self.assumed[key] = Assumed(key, math.nan, "", "assumed", f"{row['why']} (trade-practice)", name)
        return name

    def usual_word(self, key: str, given: str | None, usual: str, place: str) -> str | None:
        """What a job says in a word, else in a quote what is usual."""
        if given is not None or self.grade != "quote":
            return given
        self.assumed[key] = Assumed(key, math.nan, "", "assumed", "usual (trade-practice)", usual, place)
        return usual

    def usual_fittings(self, table: str, given: Mapping[str, int] | None) -> Mapping[str, int] | None:
        """The fittings a job counts, else in a quote the usual ones, else nothing."""
        if given is not None or self.grade != "quote":
            return given
        row, key = usual_parts()[table], f"{table}.fittings"
        counts: dict[str, int] = row["fittings"]
        words = ", ".join(
            f"{number} {name if number > 1 else name.removesuffix('s')}" for name, number in counts.items()
        )
        self.assumed[key] = Assumed(key, math.nan, "", "assumed", f"{row['fittings_why']} (trade-practice)", words)
        return counts

    def assume(self, key: str, value: float, kind: str, why: str, place: str = "") -> float:
        """Note a value that is taken, and give it back. `place` is where a job may say otherwise."""
        self.assumed[f"{key} {why}"] = Assumed(key, value, kind, "assumed", why, place=place)
        return value


def first_given(*given: Quantity | None) -> Quantity | None:
    """The first quantity that was given."""
    return next((quantity for quantity in given if quantity is not None), None)


def why_not(place: str, given: str | None) -> str:
    """Why a part of the stock says nothing: it is not chosen yet, or nobody named it."""
    return f"{place} is open: design chooses it" if given == OPEN else f"{place} is not given"


def one(value: float) -> Array:
    """A fact of one job: its value, on an axis of size 1."""
    return np.array([value], dtype=float)
