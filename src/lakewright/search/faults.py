"""What may be wrong, and what nobody knows of a sound system: the rows of `faults.toml` and `visits.toml`."""

from __future__ import annotations

import tomllib
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from functools import cache
from importlib import resources
from typing import Any

import numpy as np

from lakewright.job.models import Job
from lakewright.physics.atmosphere import SEA_LEVEL_PRESSURE
from lakewright.physics.types import Array
from lakewright.state.facts import Facts
from lakewright.state.meters import visit_table

NONE = "none"
"""The name of the fault that is none."""

MUDDLED = 0.1
"""ours: how often an answer is of something else, another person's or another year's, and so says nothing of the fault;
so no one word, said or left unsaid, settles it."""

BESIDE_FACTS = {"current": 1.0, "drawn": 0.0}
"""What a fault may move besides facts, and what it is in good order: times the current; share of the flow elsewhere."""


@dataclass(frozen=True)
class Move:
    """A fact that a fault moves, and by how much at each size."""

    fact: str
    how: str
    at: tuple[float, ...]


@dataclass(frozen=True)
class Fault:
    """One thing that may be wrong, from barely visible to total."""

    name: str
    words: str
    alike: str  # what it shares with faults that gauges can hardly tell from it; its own words where it shares nothing
    size: str  # words after its size, and how the size is shown
    kind: str
    prior: float
    moves: tuple[Move, ...]
    where: tuple[str, ...]
    signs: Mapping[str, Mapping[str, tuple[float, float]]]  # by question: how likely each sign is, smallest and total
    came: str  # the row of the table's `came` by which it comes
    joint: str  # that lets in air, of those that are wetted; else none
    look: tuple[str, ...]
    minutes: float
    finds: float

    def chances(self, channel: str, sign: str, base: float, sizes: int) -> Array:
        """How likely a sign is said, at each size."""
        first, last = self.signs[channel].get(sign, (base, base))
        return (1.0 - MUDDLED) * np.linspace(first, last, sizes) + MUDDLED * base

    def answers(self, question: str, sizes: int) -> Array:
        """How likely each answer is to a question that has one of few, a row a size."""
        row = fault_table()["answers"][question]
        names = row["are"]
        if question == "came":
            chances = np.tile(row["by"][self.came], (sizes, 1))
        else:
            shows = np.full((sizes, len(names)), row["fancied"])
            if self.joint in names:
                least, most = row["shown"]
                shows[:, names.index(self.joint)] = np.linspace(float(least), float(most), sizes)
            shows[:, -1] = 1.0 - shows[:, :-1].sum(axis=1)
            chances = shows
        return (1.0 - MUDDLED) * chances + MUDDLED / len(names)


@dataclass(frozen=True)
class Spread:
    """How far off a fact of a sound system is that nobody knows; one standard deviation, measured and otherwise."""

    fact: str
    how: str
    measured: float
    otherwise: float
    by_visit: bool


ANSWERS = ("came", "wetted")
"""The questions that have one of few answers, as the job file calls them."""

CHANNELS = ("does", "first_minute", "changed")
"""The questions that signs answer, as the job file calls them."""


@cache
def fault_table() -> Mapping[str, Any]:
    """`faults.toml` as it stands."""
    return tomllib.loads(resources.files("lakewright.job").joinpath("faults.toml").read_text(encoding="utf-8"))


@cache
def every_fault() -> tuple[Fault, ...]:
    """All faults of the table, no fault first."""
    table = fault_table()
    rows = [_fault(row) for row in table["fault"]]
    total = sum(fault.prior for fault in rows)
    none = _fault({"name": NONE, "size": "", "kind": "share", **table["none"]})
    # The prior of none is a share of all calls, where those of the rest only compare.
    odds = none.prior / (1.0 - none.prior) * total
    return (_fault({"name": NONE, "size": "", "kind": "share", **table["none"], "prior": odds}), *rows)


def _fault(row: Mapping[str, Any]) -> Fault:
    return Fault(
        name=row["name"],
        words=row["words"],
        alike=row.get("alike", row["words"]),
        size=row["size"],
        kind=row["kind"],
        prior=row["prior"],
        moves=tuple(Move(move["fact"], move["how"], tuple(move["at"])) for move in row.get("moves", ())),
        where=tuple(row.get("where", ())),
        signs={channel: {s: _pair(p) for s, p in row.get(channel, {}).items()} for channel in CHANNELS},
        came=row["came"],
        joint=row.get("joint", ""),
        look=tuple(row["look"]),
        minutes=row.get("minutes", 0.0),
        finds=row.get("finds", 0.0),
    )


def _pair(chance: float | Sequence[float]) -> tuple[float, float]:
    return (chance, chance) if isinstance(chance, float) else (chance[0], chance[1])


@cache
def every_spread() -> tuple[Spread, ...]:
    """What nobody knows for sure of any system."""
    return tuple(
        Spread(row["fact"], row["how"], row["sd"][0], row["sd"][1], row.get("visit", False))
        for row in visit_table()["spread"]
    )


def faults_of(job: Job, facts: Facts, days: Sequence[int]) -> tuple[Fault, ...]:
    """The faults that this system can have on some of its days, no fault first."""
    there = set(_there(job, facts, days))
    return tuple(fault for fault in every_fault() if there.issuperset(fault.where))


def _there(job: Job, facts: Facts, days: Sequence[int]) -> Iterator[str]:
    """What a system has that some faults need."""
    yield facts.pump_kind
    if bool(facts.stand.foot_valve[0]) and bool(facts.holding.at_inlet[0]):
        yield "foot valve"
    yield "check at the pump" if bool(facts.holding.at_pump[0]) else "no check at the pump"
    if job.suction.stock is None or "hose" in job.suction.stock.lower():
        yield "hose or unknown line"
    if bool((facts.days.ice[..., list(days)] > 0.0).any()):
        yield "ice"
    if float(facts.delivery.filters_dirty[0]) > 0.0:
        yield "filters"
    if float(facts.delivery.tank_volume[0]) > 0.0:
        yield "pressure tank"


def moved(value: Array, how: str, by: Array) -> Array:
    """A fact moved.

    >>> [float(moved(np.array([0.5]), how, np.array([0.2]))[0]) for how in ("set", "plus", "times", "lose")]
    [0.2, 0.7, 0.1, 0.6]
    """
    if how == "set":
        return by + 0.0 * value
    if how == "plus":
        return value + by
    if how == "times":
        return value * by
    if how == "lose":
        return 1.0 - (1.0 - value) * (1.0 - by)
    if how == "absolute":
        return (value + SEA_LEVEL_PRESSURE) * by - SEA_LEVEL_PRESSURE
    raise ValueError(f"{how!r}: expected set, plus, times, lose or absolute")
