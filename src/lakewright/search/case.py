"""The states that a system may be in at one visit, fault by fault and size by size, and how well each explains it."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass, replace

import numpy as np

from lakewright.physics.types import Array
from lakewright.search.evidence import Told, readings_weight, true_readings, words_weight
from lakewright.search.faults import BESIDE_FACTS, Fault, moved
from lakewright.search.unknowns import System, Visits
from lakewright.search.visit import Sight, sight
from lakewright.state.facts import Facts

MOVES_NO_WATER = {
    "faults.airtight", "holding.at_inlet", "delivery.filters_dirty", "delivery.precharge", "drawn", "current",
}  # fmt: skip
"""What pump and line do not feel: faults that move nothing else are solved as the sound system once, not row by row."""


@dataclass(frozen=True)
class Case:
    """States of a system at one visit, and how well each explains it: over (row, sample), a row a fault and size."""

    faults: tuple[Fault, ...]
    sizes: int
    found: Sight
    lost: Array
    inside: Array  # share of the way from one size to the next, one a sample
    read: Array  # logarithm of how well it explains the readings
    weight: Array  # the same, of readings and words
    level: Array  # m, of the water, without what is wrong
    biases: Mapping[str, Array]  # Pa, by gauge
    seen: Mapping[str, float]
    true: Mapping[str, Array]  # what was read, less what its gauge is off by
    said: Told

    def rows(self, fault: Fault) -> slice:
        """The rows of a fault."""
        first = self.faults.index(fault) * self.sizes
        return slice(first, first + self.sizes)

    def without(self, names: Iterable[str]) -> Case:
        """The same states, some readings not looked at: none that says at which pressure the pump was."""
        gone = set(names)
        return self.also({name: value for name, value in self.seen.items() if name not in gone})

    def also(self, seen: Mapping[str, float]) -> Case:
        """The same states with other readings: none that says at which pressure the pump was."""
        true = true_readings(seen, self.biases)
        read = _explains(self.found, true, self.weight.shape)
        return replace(self, seen=seen, true=true, read=read).told(self.said)

    def told(self, said: Told) -> Case:
        """The same states and readings, with other words."""
        return replace(self, said=said, weight=self.read + words_weight(said, self.faults, self.sizes, self.lost))

    def chances(self) -> Array:
        """Chance of every row."""
        return row_chances(self.weight, self.faults, self.sizes)


def case_of(
    facts: Facts,
    faults: Sequence[Fault],
    system: System,
    visits: Visits,
    seen: Mapping[str, float],
    said: Told,
) -> Case:
    """States of a system at a visit, a row a fault and size, and how well each explains what was seen and said."""
    sizes = max((len(move.at) - 1 for fault in faults for move in fault.moves), default=1)
    sound, true = {**system.values, **visits.values}, true_readings(seen, system.biases)
    still = [fault for fault in faults if MOVES_NO_WATER.issuperset(move.fact for move in fault.moves)]
    groups = [group for group in (still, [fault for fault in faults if fault not in still]) if group]
    sights = []
    for group in groups:
        values, beside = _moved_rows(facts, group, sizes, sound, visits.size)
        sights.append(sight(facts_of_that_day(facts, values), visits, true, beside["drawn"], beside["current"]))
    faults = [fault for group in groups for fault in group]
    found = stacked(sights, [(len(group) * sizes, visits.tap.size, 1) for group in groups])
    pumped = found.pumped[..., 0]
    usual = np.maximum(pumped[:1], 1e-9)
    given = np.broadcast_to(found.readings["flow"], (*pumped.shape, 1))[..., 0]
    lost = np.clip(1.0 - np.minimum(given, pumped) / np.minimum(usual, np.maximum(given[:1], 1e-9)), 0.0, 1.0)
    read = _explains(found, true, pumped.shape)
    return Case(
        tuple(faults),
        sizes,
        found,
        lost,
        visits.size[0, :, 0],
        read,
        read + words_weight(said, faults, sizes, lost),
        visits.values["days.level"],
        system.biases,
        seen,
        true,
        said,
    )


def stacked(sights: Sequence[Sight], shapes: Sequence[tuple[int, ...]]) -> Sight:
    """What visits to one group of states after another would read."""

    def rows(parts: Iterable[Array]) -> Array:
        return np.concatenate([np.broadcast_to(part, shape) for part, shape in zip(parts, shapes, strict=True)])

    first = sights[0]
    return Sight(
        {name: rows(each.readings[name] for each in sights) for name in first.readings},
        {
            name: (rows(e.bands[name][0] for e in sights), rows(e.bands[name][1] for e in sights))
            for name in first.bands
        },
        rows(each.pumped for each in sights),
    )


def _explains(found: Sight, true: Mapping[str, Array], shape: tuple[int, ...]) -> Array:
    return np.broadcast_to(readings_weight(found, true), (*shape, 1))[..., 0]


def facts_of_that_day(facts: Facts, values: Mapping[str, Array]) -> Facts:
    """The facts with those of one day in the place of all days."""
    return replace(facts.with_values(values), day_names=("that day",))


def _moved_rows(
    facts: Facts, faults: Sequence[Fault], sizes: int, sound: Mapping[str, Array], inside: Array
) -> tuple[dict[str, Array], dict[str, Array]]:
    """Every fact that a fault moves, a row a fault and size, on a sound system's samples; and what is no fact.

    A row's samples lie anywhere between its size and the next, so that no size is missed.
    """
    values, beside = dict(sound), {name: np.full((1, 1, 1), neutral) for name, neutral in BESIDE_FACTS.items()}
    for first, fault in zip(range(0, len(faults) * sizes, sizes), faults, strict=True):
        for move in fault.moves:
            rows = slice(first, first + sizes)
            store = beside if move.fact in BESIDE_FACTS else values
            was = store.get(move.fact)
            was = facts.value(move.fact) if was is None else was
            whole = np.array(np.broadcast_to(was, (len(faults) * sizes, inside.size, 1)))
            whole[rows] = moved(whole[rows], move.how, between(move.at, inside))
            store[move.fact] = whole
    return values, beside


def between(sizes: Sequence[float], inside: Array) -> Array:
    """Sizes from each to the next, one row a step.

    >>> between((0.0, 1.0, 3.0), np.array([[0.5]])).tolist()
    [[0.5], [2.0]]
    """
    at = np.array(sizes).reshape(-1, *(1,) * (inside.ndim - 1))
    return np.asarray(at[:-1] + (at[1:] - at[:-1]) * inside)


def row_chances(weight: Array, faults: Sequence[Fault], sizes: int) -> Array:
    """Chance of every row, from the logarithms of how well its samples explain what was seen."""
    prior = np.repeat([fault.prior / sizes for fault in faults], sizes)
    explains = np.exp(weight - weight.max()).mean(axis=1) * prior
    return np.asarray(explains / explains.sum())
