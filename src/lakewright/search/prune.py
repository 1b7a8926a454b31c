"""Sorting out the hopeless before anything is solved: what no flow can mend, and pumps that surely bring too little."""

from __future__ import annotations

import numpy as np

from lakewright.checks.registry import FLOW_CHECKS
from lakewright.checks.verdict import FAILS
from lakewright.search.circuits import Word
from lakewright.state.cases import CUT_IN, FOULED, Index
from lakewright.state.control_facts import HELD, STORE
from lakewright.state.facts import Facts
from lakewright.state.hydraulics import circuit
from lakewright.state.lake import lake
from lakewright.state.solve import falls_short
from lakewright.state.walk import place, tank_pressure

MANY = 400_000
"""ours: circuits past which sorting out pays; below it every failure is counted exactly."""


def _number(name: str) -> int:
    return next(n for n, check in enumerate(FLOW_CHECKS) if check.name == name)


DELIVERS, HOLDS, FILLS = map(_number, ("delivers_the_need", "pressure_holds_at_the_need", "pump_fills_the_store"))
PLACE_CHECKS = tuple(n for n, check in enumerate(FLOW_CHECKS) if check.block == "place" and check.force == "must")


def hopeless(facts: Facts) -> Word:
    """Words of the designs that surely fail a must; 0 where only solving can tell.

    The bits set are right; other checks of the same design may fail too and are not counted.
    """
    spots = place(facts)
    verdicts = [(n, FLOW_CHECKS[n].function(spots, facts.limits)) for n in PLACE_CHECKS]
    shape = np.broadcast_shapes(*(v.status.shape for _, v in verdicts))
    word = np.zeros(shape, dtype=np.uint64)
    for number, verdict in verdicts:
        word = word | ((verdict.status == FAILS) * np.uint64(1 << number))
    day: Index = np.arange(len(facts.day_names))
    line = np.full(len(day), FOULED)
    water = lake(facts, day, line)
    pressure = tank_pressure(facts, np.full(len(day), CUT_IN))
    path = circuit(facts, water, line, pressure)
    wanted = facts.need.flow * facts.days.demand
    number = HOLDS if facts.control_kind in HELD and facts.pump_kind == "centrifugal" else DELIVERS
    if facts.control_kind == STORE:
        wanted, number = facts.control.per_day * facts.days.demand / facts.control.fill_time, FILLS
    short = falls_short(facts, water, path, pressure, wanted).any(axis=-1)
    return word | (short * np.uint64(1 << number))
