"""How far the readings of a blind system go at all: what somebody makes of them who knows its maker's own laws.

That observer knows the sound system as it is, its gauges, how often each fault comes, and how people read
and speak, and weighs it all by Bayes' rule. Nobody at a pump knows so much: no diagnosis does better but by luck.
To print its tables: python -m tests.search.blind_bound [many] [first]
"""

from __future__ import annotations

import copy
import math
import random
import sys
import tomllib
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from benchmarks import plain
from tests.search.blind_faults import CHANGED, DOES, KINDS, MINUTE, NOTHING, STRAY, Kind
from tests.search.blind_jets import ailing, table
from tests.search.blind_more import (
    CAME,
    CAME_BY_FAULT,
    FANCIES,
    JOINT_OF,
    JOINTS,
    SEES,
    TRAPPED,
    WET_TANK,
    WRONG_CAME,
    WRONG_MARK,
)
from tests.search.blind_systems import PLATE, System, made_system
from tests.search.blind_visits import INCH_OF_MERCURY, dead_pressure, flow_at, lost_flow, sick_system

Array = NDArray[np.float64]
Ranked = tuple[tuple[str, float], ...]

PATHS = 3
"""ours: draws of what a fault has at random besides its size."""

SIZES = 13
"""ours: sizes of a fault that are solved."""

FINE = 121
"""ours: sizes between, by straight lines."""

NONE = 0.1
"""How many have nothing wrong, as the maker draws them."""

UNITS = {
    "inHg": -INCH_OF_MERCURY, "psi": plain.PSI, "gpm": 6.30902e-5, "L": 1e-3, "s": 1.0, "m": 1.0, "A": 1.0,
}  # fmt: skip
"""A reading's unit as people write it; a vacuum is negative."""


@dataclass(frozen=True)
class Seen:
    """What the last visit of a job file has."""

    read: Mapping[str, float]  # SI, less what its gauge is off by
    does: frozenset[str] | None
    minute: frozenset[str] | None
    changed: frozenset[str] | None
    came: str | None
    wetted: str | None


def seen_in(text: str, meters: Mapping[str, float]) -> Seen:
    """The last visit of a job file, by somebody who knows what its gauges are off by."""
    last = tomllib.loads(text)["readings"][-1]
    read = {}
    for name, words in last.items():
        number, _, unit = str(words).partition(" ")
        if unit.split(" ")[0] in UNITS and name not in ("changed", "first_minute"):
            read[name] = float(number) * UNITS[unit.split(" ")[0]] - meters.get(name.partition("_")[0], 0.0)
    return Seen(
        read,
        frozenset(key for key, words in DOES.items() if words in last["does"]) if "does" in last else None,
        _keys(last.get("first_minute"), MINUTE),
        _keys(last.get("changed"), CHANGED),
        last.get("came"),
        last.get("wetted"),
    )


def _keys(text: str | None, words: Mapping[str, str]) -> frozenset[str] | None:
    return None if text is None else frozenset(key for key, each in words.items() if each in text.split("; "))


# What each state shows.


def sound_system(seed: int) -> tuple[System, dict[str, Kind]]:
    """The system of a seed before anything ailed it, and what may."""
    system = made_system(random.Random(f"sick {seed}"))
    alone = system.holding == "foot valve only"
    can = {"check": not alone, "no check": alone, "hose": system.hose, "ice": system.day == 2, "": True}
    can |= {"jet": system.jet is not None, "no jet": system.jet is None, "filters": system.thought["filters"] > 0.0}
    return system, {name: kind for name, kind in KINDS.items() if can[kind.needs]}


def ailed(sound: System, name: str, kind: Kind, severity: float, path: int) -> System:
    """The system with a fault of a size, on one draw of what else is at random in it."""
    rng = random.Random(f"bound {name} {path}")
    sick = copy.copy(sound)
    sick.true, sick.beside, sick.fault, sick.severity = copy.deepcopy(sound.true), {}, name, severity
    kind.ail(sick, severity, rng)
    if sick.jet is not None:
        sick.true["pump"] |= table(ailing(sick.jet, sick.true["faults"], rng))
    sick.lost = lost_flow(sick, sound.true)
    return sick


def shown(sick: System, at_gauge: float) -> dict[str, float]:
    """What a state shows with nothing misread, looked at while the gauge after the pump has that pressure."""
    true, delivery, faults = sick.true, sick.true["delivery"], sick.true["faults"]
    to_gauge = {"height": true["pump"]["height"], "length": 0.01, "coefficient": 0.0}
    flow, circuit = flow_at({**true, "delivery": {**delivery, **to_gauge}}, sick.day, at_gauge)
    weight = circuit.case.weight
    rise = (delivery["height"] - true["pump"]["height"]) * weight
    held = at_gauge - rise - plain.Losses(true, circuit.case).delivery(flow) * weight
    moves = faults["wear"] < 1.0 and faults["air"] < 0.1
    dead = dead_pressure(true, sick.day) if moves else 0.0
    holds = dead > delivery["cut_in"]
    low, high = (delivery["cut_in"], min(delivery["cut_out"], dead)) if holds else (0.0, max(dead, 20e3))
    hanging = -circuit.lift * weight
    boils = (circuit.case.vapour_head - circuit.case.atmosphere_head) * weight
    pulled = circuit.losses.suction(flow) + circuit.losses.line_pipe.velocity_head(flow) if flow else 0.0
    running, pull = max(hanging - pulled * weight, boils), hanging
    gasps = faults["air"] >= 0.1 or (faults["wear"] == 1.0 and faults["air"] > 0.05)
    if gasps:
        running = 0.075 * min(0.0, hanging)
    if faults["air"] >= 0.1:
        pull = 0.075 * min(0.0, hanging)
    tight = faults["airtight"] if faults["air"] < 0.1 else 0.0
    before = flow * (1.0 - sick.beside.get("drawn", 0.0))
    given = before
    if delivery["filters"] > 0.0:
        given = min(given, true["need"]["flow"] * math.sqrt(max(held, 0.0) / delivery["filters"]))
    share = (min(delivery["precharge"], delivery["cut_in"]) + 101325.0) * (
        1.0 / (delivery["cut_in"] + 101325.0) - 1.0 / (delivery["cut_out"] + 101325.0)
    )
    return {
        "held": held, "low": low, "high": high, "rise": rise, "lost": sick.lost, "suction_running": running,
        "suction_standing": hanging * tight, "suction_shut": pull, "flow": given, "flow_before_filter": before,
        "pumped": flow, "drawn": sick.beside.get("drawn", 0.0) * flow, "drawdown": delivery["tank_volume"] * share,
        "pressure_shut": max(dead + rise, 0.0) * 0.985 if moves else 4e3, "tank_air": max(delivery["precharge"], 0.0),
        "pressure_stop": min(delivery["cut_out"], max(dead, 0.0)) + rise,
        "lake_level": true["days"]["level"][sick.day] + faults["level_offset"],
        "current": sick.beside.get("current", 1.0),
        "holds": true["holding"]["at_inlet"], "gasps": float(gasps),
    }  # fmt: skip


def states(sound: System, name: str, kind: Kind, at_gauge: float) -> Iterator[tuple[Array, dict[str, Array]]]:
    """Sizes of a fault and what each shows, one path after another."""
    fine = np.linspace(0.0, 1.0, FINE)
    sizes = np.linspace(0.0, 1.0, SIZES) if kind is not NOTHING else np.zeros(1)
    for path in range(PATHS if kind is not NOTHING else 1):
        rows = [shown(ailed(sound, name, kind, float(size), path), at_gauge) for size in sizes]
        yield fine, {key: np.interp(fine, sizes, [row[key] for row in rows]) for key in rows[0]}


# How likely each state would have been read and spoken of so.


def bell(value: float, middle: Array, spread: Array | float) -> Array:
    """How dense a bell is at a value."""
    score = (value - middle) / spread
    return np.asarray(np.exp(-0.5 * score * score) / (spread * math.sqrt(2.0 * math.pi)))


def flat(value: Array | float, low: Array, high: Array, edge: float) -> Array:
    """How dense an even spread is at a value, its edges as sharp as the eye."""
    width = np.maximum(high - low, edge)
    # ours: the logistic curve that lies within a hundredth of a bell's sum.
    inside = [0.5 * (1.0 + np.tanh(0.851 * (value - end) / edge)) for end in (low, high)]
    return np.asarray((inside[0] - inside[1]) / width)


EYE = {"suction": 600.0, "pressure": 2200.0}
"""Deviation of what people round a gauge to, half an inch and a pound, and of straight lines between sizes [Pa].
Where a suction gauge shows no vacuum it is read to a pound."""


def reading_chance(name: str, value: float, has: Mapping[str, Array], system: System) -> Array:
    """How dense a reading is in each state, by the maker's laws."""
    no_vacuum = value + system.meters.get("suction", 0.0) > -1.0
    eye = EYE["pressure" if no_vacuum else "suction"]
    band = flat(value - has["rise"][0], has["low"], has["high"], EYE["pressure"])
    at = has.get(name, np.zeros(1))
    if name == "pressure_running":
        return flat(has["held"], has["low"], has["high"], EYE["pressure"])
    if name == "pressure_standing":
        return band
    if name == "suction_standing":
        return band if has["holds"][0] > 0.0 and not system.true["holding"]["at_pump"] else bell(value, at, eye)
    if name in ("suction_running", "suction_shut"):
        # What a pump full of air still pulls is anything up to twice the middle.
        return bell(value, at, np.hypot(eye, 800.0 * (name == "suction_shut") + 0.58 * at * has["gasps"]))
    if name == "pressure_shut":
        return (1.0 - TRAPPED) * bell(value, at, np.hypot(5e3, 0.009 * at)) + TRAPPED * band
    if name == "pressure_stop":
        return bell(value, at, np.hypot(3e3, EYE["pressure"]))
    if name == "tank_air":
        wet = flat(value, has["low"], has["high"], EYE["pressure"])
        return (1.0 - WET_TANK) * flat(value, at - 7e3, at + 7e3, EYE["pressure"]) + WET_TANK * wet
    if name == "lake_level":
        return (1.0 - WRONG_MARK) * bell(value, at, 0.04) + WRONG_MARK * flat(value, at - 0.5, at + 0.5, 0.04)
    if name == "drawdown":
        return bell(value, at, 0.058 * at)
    if name == "cycle_time":
        taps = np.linspace(0.07e-3, 0.18e-3, 23)[:, None] + has["drawn"]
        with np.errstate(divide="ignore", invalid="ignore"):
            cycle = has["drawdown"] / taps + has["drawdown"] / (has["pumped"] - taps)
        known = has["pumped"] > 1.05 * taps
        return np.where(
            known, bell(value, np.where(known, cycle, 1.0), 0.058 * np.where(known, cycle, 1.0)), 1e-9
        ).mean(axis=0)
    if name == "motor_current":
        load = np.minimum(has["pumped"] / system.thought["curve"][-1][0], 1.0)
        middle = PLATE * 0.925 * (0.525 + 0.475 * load) * has["current"]
        return bell(value, middle, 0.06 * middle)
    # Flows: as much off as the bucket, and rounded to a tenth of a gallon.
    return bell(value, at, np.hypot(0.046 * at, 4e-6))


def words_chance(seen: Seen, name: str, kind: Kind, sizes: Array, lost: Array) -> Array:
    """How likely each state would have been spoken of so, by the maker's tables."""
    odd = {key: words for key, words in DOES.items() if key not in ("weak", "none")}
    weak = np.where(lost > 0.95, 0.0, np.clip((lost - 0.04) / 0.22, 0.12, 0.85))
    none = np.where(lost > 0.95, 0.9, 0.0)
    said = seen.does or frozenset()
    does = _signs(said, kind.does, odd, sizes, STRAY["does"])
    for key, share in (("weak", weak), ("none", none)):
        does = does * (share if key in said else 1.0 - share)
    # A line that is not there: nothing was said, or it was not written down.
    chance = 0.85 * does if seen.does is not None else 0.15 + 0.85 * does
    if seen.minute is not None:
        chance = chance * _signs(seen.minute, kind.minute, MINUTE, sizes, STRAY["minute"])
    if seen.changed is not None:
        chance = chance * _signs(seen.changed, kind.changed, CHANGED, sizes, STRAY["changed"])
    if seen.came is not None:
        shares = CAME_BY_FAULT[name]
        right = shares[CAME.index(seen.came)] / sum(shares)
        chance = chance * ((1.0 - WRONG_CAME) * right + WRONG_CAME / len(CAME))
    if seen.wetted is not None:
        chance = chance * _wetted(seen.wetted, name, sizes)
    return np.asarray(chance)


def _signs(
    said: frozenset[str],
    likely: Mapping[str, tuple[float, float]],
    every: Mapping[str, str],
    sizes: Array,
    stray: float,
) -> Array:
    chance = np.ones(len(sizes))
    for key in every:
        least, most = likely.get(key, (stray, stray))
        share = least + (most - least) * sizes
        chance = chance * (share if key in said else 1.0 - share)
    return chance


def _wetted(found: str, name: str, sizes: Array) -> Array:
    chance = np.ones(len(sizes))
    for joint in JOINTS:
        sees = SEES[0] + (SEES[1] - SEES[0]) * sizes if JOINT_OF.get(name) == joint else np.full(len(sizes), FANCIES)
        if joint == found:
            return np.asarray(chance * sees)
        chance = chance * (1.0 - sees)
    return chance


def ideal(seed: int, sick: System, *texts: str) -> list[Ranked]:
    """Of each text faults with their chances, the likeliest first, for somebody who knows the maker's laws.

    The pressure that the pump is looked at is the one that the last of the texts has.
    """
    sound, can = sound_system(seed)
    seen = [seen_in(text, sick.meters) for text in texts]
    at_gauge = next((e.read["pressure_running"] for e in seen[::-1] if "pressure_running" in e.read), None)
    at_gauge = at_gauge or sick.true["delivery"]["cut_in"] + 69e3
    often = sum(kind.often for kind in can.values())
    prior = {name: (1.0 - NONE) * kind.often / often for name, kind in can.items()} | {"none": NONE}
    chances: list[dict[str, float]] = [{} for _ in texts]
    for name, kind in {**can, "none": NOTHING}.items():
        paths = list(states(sound, name, kind, at_gauge))
        for each, said in zip(chances, seen, strict=True):
            explained = [_explained(said, name, kind, sizes, has, sick) for sizes, has in paths]
            each[name] = prior[name] * float(np.mean(explained))
    return [_ranked(each) for each in chances]


def _ranked(chances: Mapping[str, float]) -> Ranked:
    total = sum(chances.values()) or 1.0
    return tuple(sorted(((name, chance / total) for name, chance in chances.items()), key=lambda pair: -pair[1]))


def _explained(seen: Seen, name: str, kind: Kind, sizes: Array, has: Mapping[str, Array], sick: System) -> float:
    chance = words_chance(seen, name, kind, sizes, has["lost"])
    for reading, value in seen.read.items():
        chance = chance * reading_chance(reading, value, has, sick)
    return float(chance.mean())


COSTLY = 0.1
"""The share of the flow from which a fault counts as one that costs."""


def tables(first: int, many: int) -> Iterator[str]:
    """First place and the first two, as people call in and after a full visit, of faults that cost and of all."""
    systems = [sick_system(seed) for seed in range(first, first + many)]
    orders = [ideal(seed, sick, sick.text, sick.full) for seed, sick in enumerate(systems, start=first)]
    yield f"{'':64} {'':5}  first    two"
    for kit, called in enumerate(("as people call in", "after a full visit")):
        found = [(sick, order[kit]) for sick, order in zip(systems, orders, strict=True)]
        costly = [(sick, order) for sick, order in found if sick.fault != "none" and sick.lost >= COSTLY]
        for words, some in (("all", found), ("costs a tenth of the flow or more", costly)):
            yield _line(f"{called}, {words}", some)
        for fault in sorted({sick.fault for sick, _ in costly}):
            yield _line(f"  {fault}", [(sick, order) for sick, order in costly if sick.fault == fault])


def _line(words: str, some: Sequence[tuple[System, Ranked]]) -> str:
    places = [[name for name, _ in order].index(sick.fault) for sick, order in some]
    first, two = (sum(place < n for place in places) / max(len(places), 1) for n in (1, 2))
    return f"{words:64} {len(places):5} {first:6.1%} {two:6.1%}"


if __name__ == "__main__":
    count, start = (int(word) for word in (*sys.argv[1:], *("500", "0")[len(sys.argv) - 1 :]))
    print("\n".join(tables(start, count)))
