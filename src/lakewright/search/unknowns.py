"""What a person does not know of a system, drawn many times over."""

from __future__ import annotations

import re
from collections.abc import Iterator, Mapping
from dataclasses import dataclass, fields
from datetime import date
from functools import cache
from statistics import NormalDist
from typing import get_args

import numpy as np

from lakewright.job.table import Month
from lakewright.physics.types import Array, Index
from lakewright.search.faults import Spread, every_spread, moved
from lakewright.state.assemble import Assembly
from lakewright.state.facts import DayFacts, Facts
from lakewright.state.meters import PLATE_OVER_TABLE, visit_table
from lakewright.state.unknowns import Unknown, sampled, unknowns_of

SEED = 20
"""ours: any number; the same readings get the same answer."""

TAP = (0.06e-3, 0.20e-3)
"""What one open tap draws [m3/s]. common practice, no source: 1 to 3 gpm."""


@dataclass(frozen=True)
class Visits:
    """What is another at each visit, every array of shape (1, sample, 1)."""

    values: Mapping[str, Array]  # facts
    running: Array  # share of the way from the least to the most pressure at which the pump is looked at
    standing: Array  # the same, at rest
    tap: Array  # m3/s, of the one tap that is open
    size: Array  # share of the way from one size of a fault to the next


@dataclass(frozen=True)
class Draws:
    """Columns of even spread, each in an order of its own, so that few samples cover every one of them."""

    random: np.random.Generator
    count: int

    def even(self) -> Array:
        """Between 0 and 1."""
        return self.random.permutation(_middles(self.count))[None, :, None]

    def normal(self) -> Array:
        """With mean 0 and deviation 1."""
        return self.random.permutation(_scores(self.count))[None, :, None]


@cache
def _middles(count: int) -> Array:
    return (np.arange(count) + 0.5) / count


@cache
def _scores(count: int) -> Array:
    bell = NormalDist()
    return np.array([bell.inv_cdf(share) for share in _middles(count)])


def draws(count: int, number: int = 0) -> Draws:
    """The draws of one purpose: the system itself, or the visit of that number."""
    return Draws(np.random.default_rng([SEED, count, number]), count)


@dataclass(frozen=True)
class System:
    """A system as it may be, and what its gauges are off by; every array of shape (1, sample, 1)."""

    values: Mapping[str, Array]  # facts
    biases: Mapping[str, Array]  # Pa, by gauge

    def picked(self, chosen: Index) -> System:
        """Some of the samples, by number."""
        values, biases = (
            {name: np.ascontiguousarray(part[:, chosen]) for name, part in parts.items()}
            for parts in (self.values, self.biases)
        )
        return System(values, biases)


OF_THE_SYSTEM = ("stand", "suction", "pump", "delivery", "taps", "faults")
"""Tables of facts that are the same at every visit."""


def system_draws(assembly: Assembly, count: int, plate_is_read: bool) -> System:
    """A system drawn many times over: by what a job does not know of it, and what nobody does.

    Parameters
    ----------
    plate_is_read : whether the motor's current is its plate's, or a table's
    """
    made, facts, standings = draws(count), assembly.facts, assembly.standings
    known = [each for each in unknowns_of(assembly) if set(_tables(each)) <= set(OF_THE_SYSTEM)]
    off = [each.quantile(made.even()[0]) for each in known]
    drawn = sampled(facts, known, np.concatenate(off, axis=1)) if known else facts
    values = {name: drawn.value(name)[None] for each in known for name in (*each.shift, *each.scale)}
    for spread in every_spread():
        if not spread.by_visit:
            values[spread.fact] = _moved(facts, spread, standings, made.normal())
    if not plate_is_read:
        low, high = PLATE_OVER_TABLE
        values["power.running_current"] = facts.power.running_current * (low + (high - low) * made.even())
    biases = {row["gauge"]: row["bias"] for row in visit_table()["reading"].values() if "gauge" in row}
    return System(values, {name: bias * made.normal() for name, bias in biases.items()})


def _tables(unknown: Unknown) -> Iterator[str]:
    for name in (*unknown.shift, *unknown.scale):
        yield name.partition(".")[0]


def visit_draws(assembly: Assembly, count: int, day: date | None, number: int) -> Visits:
    """What is another at the visit of a day, `number` apart from every other visit."""
    made, facts = draws(count, number), assembly.facts
    which = likely_days(facts.day_names, day)
    chosen = which[np.minimum((made.even()[0, :, 0] * len(which)).astype(np.intp), len(which) - 1)]
    values = {
        f"days.{f.name}": np.take(getattr(facts.days, f.name), chosen, axis=-1)[None, :, None] for f in fields(DayFacts)
    }
    # What the days call dirt is the screen at its worst; a visit may find any share of it.
    values["faults.blocked"] = moved(facts.faults.blocked, "lose", values["days.dirt"] * made.even())
    for spread in every_spread():
        if spread.by_visit:
            off = made.normal() * _deviation(spread, assembly.standings)
            values[spread.fact] = moved(values[spread.fact], spread.how, off)
    low, high = np.log(TAP[0]), np.log(TAP[1])
    return Visits(values, made.even(), made.even(), np.exp(low + (high - low) * made.even()), made.even())


def _moved(facts: Facts, spread: Spread, standings: Mapping[str, str], score: Array) -> Array:
    off = score * _deviation(spread, standings)
    if spread.how == "times":
        # ours: nothing is off by more than nine tenths, so that no length or bore turns negative.
        return moved(facts.value(spread.fact), "times", 1.0 + np.clip(off, -0.9, 0.9))
    if spread.how == "factor":
        return moved(facts.value(spread.fact), "times", np.exp(off))
    return moved(facts.value(spread.fact), spread.how, off)


def _deviation(spread: Spread, standings: Mapping[str, str]) -> float:
    return spread.measured if standings.get(spread.fact) == "measured" else spread.otherwise


MONTHS = tuple(month[:3].lower() for month in get_args(Month))

NEAR_MONTHS = 2
"""ours: a day further off than this says nothing of a visit."""


def likely_days(names: tuple[str, ...], day: date | None) -> Index:
    """The days of a job that a visit may have met: those whose month is nearest, or any.

    >>> likely_days(("July weekend", "February under ice"), date(2026, 8, 2)).tolist()
    [0]
    >>> likely_days(("July weekend", "February under ice"), None).tolist()
    [0, 1]
    """
    apart = {n: _months_apart(month, day) for n, name in enumerate(names) if day for month in _months(name)}
    near = [n for n, months in apart.items() if months == min(apart.values()) <= NEAR_MONTHS]
    return np.array(near or range(len(names)), dtype=np.intp)


def _months(name: str) -> Iterator[int]:
    for word in re.findall(r"[a-z]+", name.lower()):
        if word[:3] in MONTHS and len(word) >= 3:
            yield MONTHS.index(word[:3]) + 1


def _months_apart(month: int, day: date) -> int:
    apart = abs(month - day.month)
    return min(apart, 12 - apart)
