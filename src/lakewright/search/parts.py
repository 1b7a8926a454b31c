"""What a job leaves open, part by part: each option a row, each fact it sets a column."""

from __future__ import annotations

import math
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace
from typing import Any

import numpy as np

from lakewright import units
from lakewright.job.models import Job
from lakewright.job.quantity import Quantity
from lakewright.physics.types import Array
from lakewright.state.assemble import Assembly
from lakewright.state.facts import Facts, PumpFacts
from lakewright.state.gather import OPEN, Gather, defaults
from lakewright.state.intake import bed_profile, ground_profile
from lakewright.state.lines import coefficient_of, fittings_of
from lakewright.state.profile import height_along, path_length
from lakewright.state.supply import minimum_run, pump_columns
from lakewright.stock.load import Stock
from lakewright.stock.rows import Jet, Pipe, Pump

SHARE_OF_PROFILE = 0.02
"""ours: a place is tried at every break of a profile and every fiftieth of its length."""

SHALLOWEST = 0.3
"""ours: no stand is tried in less water than this [m]; the shortest riser would stand out of it."""


@dataclass(frozen=True)
class Part:
    """One part of a design: its options, what they are called, what facts they set, what they cost."""

    name: str
    labels: tuple[str, ...]
    columns: Mapping[str, Array]
    price: Array  # cents, for each option
    price_per_length: Array  # cents for each metre of suction line

    @property
    def size(self) -> int:
        """How many options there are."""
        return len(self.labels)


@dataclass(frozen=True)
class PumpOption:
    """One pump, as facts that lack only its height."""

    label: str
    kind: str
    facts: PumpFacts
    price: int


@dataclass(frozen=True)
class Problem:
    """All that a job leaves open, over facts that hold the rest."""

    facts: Facts
    spot: Part
    line: Part
    place: Part
    pumps: tuple[PumpOption, ...]
    tank: Part
    call_back: float  # cents, of one visit after the job
    open_parts: tuple[str, ...]

    @property
    def choices(self) -> int:
        """How many designs there are."""
        return self.spot.size * self.line.size * self.place.size * len(self.pumps) * self.tank.size


def problem_of(job: Job, stock: Stock, assembly: Assembly) -> Problem:
    """The parts a job leaves open, with every option the stock and the site have for them."""
    facts = assembly.facts
    named = assembly.parts
    spot, place = _spots(job, facts), _places(job, facts)
    line = _lines(job, stock, facts, named.get("[suction] stock", ""))
    tank = _tanks(job, stock, facts, named.get("[delivery] tank", ""))
    pumps = _pumps(job, stock, facts)
    sizes = {
        "spot": spot.size,
        "line": line.size,
        "pump place": place.size,
        "pump": len(pumps),
        "tank": tank.size,
    }
    call_back = job.price.call_back.value if job.price.call_back else defaults()["price.call_back"].value
    return Problem(
        facts=facts,
        spot=spot,
        line=line,
        place=place,
        pumps=pumps,
        tank=tank,
        call_back=call_back,
        open_parts=tuple(name for name, size in sizes.items() if size > 1),
    )


def _fixed(name: str, label: str, columns: Mapping[str, Array], price: float = 0.0, per_length: float = 0.0) -> Part:
    return Part(name, (label,), columns, np.array([price]), np.array([per_length]))


def _given(at: Quantity | None) -> str:
    """The label of a place the job gives: its distance where it has one."""
    return "as given" if at is None or at.open else f"{at.value:.6f}"


def _stations(distances: Sequence[float]) -> Array:
    """Distances to try along a profile: its breaks, and even steps between its ends."""
    steps = round(1.0 / SHARE_OF_PROFILE)
    even = np.linspace(distances[0], distances[-1], steps + 1)
    return np.unique(np.concatenate([np.round(even, 6), np.round(np.array(distances), 6)]))


def _spots(job: Job, facts: Facts) -> Part:
    names = ("stand.depth", "suction.bed_length")
    if job.stand.at is None or not job.stand.at.open or not job.site.soundings:
        return _fixed("spot", _given(job.stand.at), {name: facts.value(name) for name in names})
    profile = bed_profile(job)
    at = _stations(profile[0])
    depth = height_along(*profile, at)
    at, depth = at[depth >= SHALLOWEST], depth[depth >= SHALLOWEST]
    none = np.zeros(len(at))
    columns = {"stand.depth": depth, "suction.bed_length": path_length(*profile, at)}
    return Part("spot", tuple(f"{distance:.6f}" for distance in at), columns, none, none)


def _lines(job: Job, stock: Stock, facts: Facts, name: str) -> Part:
    names = ("suction.bore", "suction.roughness", "suction.roughness_fouled", "suction.coefficient")
    if job.suction.stock != OPEN:
        pipe = stock.pipes.get(name)
        per_length = pipe.price_cents_per_m if pipe else 0.0
        return _fixed("line", name or "as given", {n: facts.value(n) for n in names}, per_length=per_length)
    pipes = [pipe for pipe in stock.pipes.values() if _lies_in_a_lake(pipe, job)]
    gather = Gather(job.job.grade)
    counted = fittings_of("suction", job.suction, gather)
    coefficient = [coefficient_of("suction", job.suction, pipe, counted, stock, gather) for pipe in pipes]
    columns = {
        "suction.bore": np.array([p.bore for p in pipes]),
        "suction.roughness": np.array([p.roughness for p in pipes]),
        "suction.roughness_fouled": np.array([p.roughness_fouled for p in pipes]),
        "suction.coefficient": np.array(coefficient),
    }
    price = np.array([p.price_cents_per_m for p in pipes])
    return Part("line", tuple(p.name for p in pipes), columns, np.zeros(len(pipes)), price)


LEAST_RATING = units.read("159 psi", "pressure")
"""common practice, no source: suction pipe rated 160 psi or better; a pound less for the rounding of tables."""


def _lies_in_a_lake(pipe: Pipe, job: Job) -> bool:
    """Whether a pipe is tried as a suction line.

    common practice, no source: polyethylene where the line stays, reinforced hose where it is hauled out each year.
    """
    if job.need.season == "hauled":
        return "hose" in pipe.family and pipe.vacuum_rating > 0.0
    return ("polyethylene" in pipe.family or pipe.family == "HDPE") and pipe.rating >= LEAST_RATING


def _places(job: Job, facts: Facts) -> Part:
    """Where the pump may stand. While its place is open, [delivery] length is counted from the water's edge."""
    names = ("pump.height", "suction.bank_length", "delivery.length")
    pump = job.pump
    is_open = any(q is not None and q.open for q in (pump.distance, pump.height))
    if not is_open:
        return _fixed("pump place", _given(pump.distance), {name: facts.value(name) for name in names})
    ground = ground_profile(job)
    if pump.places:
        at = np.array([p.distance.value for p in pump.places])
        height = np.array([p.height.value for p in pump.places])
        labels = tuple(p.name for p in pump.places)
    elif ground[0]:
        at = _stations(ground[0])
        height = height_along(*ground, at)
        labels = tuple(f"{distance:.6f}" for distance in at)
    else:
        return _fixed("pump place", "as given", {name: facts.value(name) for name in names})
    bank = path_length(*ground, at) if ground[0] else at
    rest = facts.delivery.length - bank
    keep = rest > 0.0
    none = np.zeros(int(keep.sum()))
    columns = {"pump.height": height[keep], "suction.bank_length": bank[keep], "delivery.length": rest[keep]}
    return Part("pump place", tuple(np.array(labels)[keep]), columns, none, none)


def _pumps(job: Job, stock: Stock, facts: Facts) -> tuple[PumpOption, ...]:
    if job.pump.stock != OPEN:
        row = stock.pumps.get(job.pump.stock or "") or stock.jets.get(job.pump.stock or "")
        price = row.price if row else 0
        return (PumpOption(job.pump.stock or "as given", facts.pump_kind, facts.pump, price),)
    rows: list[Pump | Jet] = []
    if job.pump.kind != "jet":
        rows += stock.pumps.values()
    if job.pump.kind != "centrifugal":
        rows += stock.jets.values()
    return tuple(_pump_option(row, facts) for row in rows)


def _pump_option(row: Pump | Jet, facts: Facts) -> PumpOption:
    curve, required, fall, jet, kind = pump_columns(row)
    columns = replace(
        facts.pump,
        curve=curve,
        required=required,
        fall=np.array([fall]),
        jet=jet,
        minimum_run=np.array([minimum_run(row.power)]),
    )
    return PumpOption(row.name, kind, columns, row.price)


def _tanks(job: Job, stock: Stock, facts: Facts, name: str) -> Part:
    if job.delivery.tank != OPEN:
        tank = stock.tanks.get(name)
        columns = {name: facts.value(name) for name in ("delivery.tank_volume", "delivery.tank_bears")}
        return _fixed("tank", name or "as given", columns, price=tank.price if tank else 0.0)
    tanks = [t for t in stock.tanks.values() if not t.max_pressure < _cut_out(job)]
    none = np.zeros(len(tanks))
    return Part(
        "tank",
        tuple(t.name for t in tanks),
        {
            "delivery.tank_volume": np.array([t.volume for t in tanks]),
            "delivery.tank_bears": np.array([t.max_pressure for t in tanks]),
        },
        np.array([float(t.price) for t in tanks]),
        none,
    )


def _cut_out(job: Job) -> float:
    cut_out: Any = job.delivery.cut_out
    return cut_out.value if cut_out is not None and not cut_out.open else -math.inf
