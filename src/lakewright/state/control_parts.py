"""The parts of what starts and stops the pump, and of the store it may fill."""

from __future__ import annotations

import math

from lakewright.job.models import Job
from lakewright.physics.types import GRAVITY
from lakewright.state.assemble import Assembly
from lakewright.state.control_facts import BY_FLOW, BY_SPEED, STORE
from lakewright.state.path import End, Laying, Piece
from lakewright.stock.load import Stock
from lakewright.stock.rows import Part

WATER = 1000.0
"""ours: fresh water [kg/m3], to choose a gauge by."""


def top_pressure(assembly: Assembly) -> float:
    """The most pressure the tank comes to in use [Pa gauge]: cut-out; a controller of flow lets it rise to shut-off.

    ours: no lift is taken off the pump's shut-off head, so that a gauge is never too small.
    """
    facts = assembly.facts
    if facts.control_kind != BY_FLOW:
        return float(facts.delivery.cut_out[0])
    if facts.pump_kind == "jet":
        return float(facts.pump.jet.last_pressure[0])
    return WATER * GRAVITY * float(facts.pump.curve.c0[0])


def controller_for(stock: Stock, kind: str, named: str | None, power: float) -> Part | None:
    """The controller a job names, else the smallest of its kind that a motor of this power [W] may hang on."""
    if named is not None and named in stock.parts:
        return stock.parts[named]
    rows = sorted(stock.parts_of(kind), key=lambda part: (part.figures["power"], part.price, part.name))
    return next((part for part in rows if not part.figures["power"] < power * (1.0 - 1e-6)), None)


def lay_store(laying: Laying, at: End | None, size: str, job: Job, _assembly: Assembly) -> End | None:
    """The line ends over the store's water; after it a booster, its controller and a valve."""
    store, stock = job.delivery.store, laying.stock
    if at is not None:
        laying.open(at, "the store, over its highest water, so that nothing is drawn back")
    pump = stock.pumps.get(store.booster.stock or "")
    if pump is None:
        laying.gaps.append("[delivery.store.booster] stock is not given, or no centrifugal pump in stock")
        return None
    number = laying.place(Piece("tank", pump, through=(0, 1)))
    laying.open(End(number, 0), "the store's outlet, by a valve and a short wide pipe cut on site")
    after = laying.run(End(number, 1), "tank", laying.part("union", size))
    controller = controller_for(stock, BY_FLOW, None, pump.power)
    if controller is None:
        laying.gaps.append("no pressure-flow controller in stock is made for the booster's motor")
    after = laying.run(after, "tank", controller)
    return laying.run(after, "tank", laying.part("ball valve", size))


def control_rows(job: Job, stock: Stock, assembly: Assembly) -> tuple[list[Part], list[str]]:
    """What stands beside the path: a drive, a store, the float that stops the pump; and what cannot be had."""
    kind, power = assembly.facts.control_kind, float(assembly.facts.power.rating[0])
    if kind == BY_SPEED:
        drive = controller_for(stock, BY_SPEED, job.delivery.controller.stock, power)
        return ([drive], []) if drive else ([], ["no variable-speed controller in stock is made for this motor"])
    if kind != STORE:
        return [], []
    rows, gaps = [_store_for(job, stock, assembly)], []
    if job.delivery.store.float != "no":
        rows.append(controller_for(stock, "float switch", None, power))
    if None in rows:
        gaps.append("no storage tank in stock holds so much, or no float switch is made for this motor")
    return [row for row in rows if row is not None], gaps


def _store_for(job: Job, stock: Stock, assembly: Assembly) -> Part | None:
    """The store a job names, else the smallest that holds the water it is to have."""
    named = job.delivery.store.stock
    if named is not None and named in stock.parts:
        return stock.parts[named]
    volume = float(assembly.facts.control.store_volume[0])
    rows = sorted(stock.parts_of("storage tank"), key=lambda part: part.figures["holds"])
    return next((part for part in rows if part.figures["holds"] >= volume), None) if math.isfinite(volume) else None
