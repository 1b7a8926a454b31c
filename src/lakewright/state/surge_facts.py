"""How fast a wave runs in the pipes, and what their walls bear for its moment, as facts."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from lakewright.physics import surge
from lakewright.physics.types import Array
from lakewright.state.gather import OPEN, Gather, one, why_not
from lakewright.state.wall import METALS
from lakewright.stock.load import Stock
from lakewright.stock.rows import Pipe

WATER = np.array([1000.0])
"""ours: fresh water [kg/m3]; the day's own moves no digit."""

POLYETHYLENE_ALLOWANCE = 1.5
"""memory: recurring surges in polyethylene may reach half as much again as its rating, running pressure in them."""


@dataclass(frozen=True, eq=False, repr=False)
class SurgeFacts:
    """How fast a wave runs in the pipes, and what they bear for its moment."""

    suction_speed: Array  # m/s, of a wave of pressure in the suction line
    delivery_speed: Array  # m/s, in the delivery line
    suction_allowance: Array  # times what the line may stand at for years that its wall bears for a moment
    delivery_allowance: Array


def surge_facts(stock: Stock, suction: str | None, delivery: str | None, gather: Gather) -> SurgeFacts:
    """Waves in both pipes, by their names in the stock; none for a pipe that is not from it."""
    lines = {"suction": suction, "delivery": delivery}
    found = {name: _of_pipe(name, called, stock, gather) for name, called in lines.items()}
    return SurgeFacts(
        suction_speed=one(found["suction"][0]),
        delivery_speed=one(found["delivery"][0]),
        suction_allowance=one(found["suction"][1]),
        delivery_allowance=one(found["delivery"][1]),
    )


def _of_pipe(line: str, name: str | None, stock: Stock, gather: Gather) -> tuple[float, float]:
    """Speed of a wave [m/s] and allowance of one pipe. One that is not from the stock is taken as not giving at all."""
    if name == OPEN:
        why = why_not(f"[{line}] stock", name)
        return gather.lack(f"surge.{line}_speed", why), gather.lack(f"surge.{line}_allowance", why)
    pipe = stock.pipes.get(name or "")
    allowance = POLYETHYLENE_ALLOWANCE if pipe is not None and pipe.compound.startswith("PE") else 1.0
    return pipe_wave_speed(pipe), allowance


def pipe_wave_speed(pipe: Pipe | None) -> float:
    """Speed of a wave of pressure in a pipe of the stock, buried or pinned along its length [m/s].

    ours: hose is taken as hard PVC, which carries a wave faster; no pipe at all as one that does not give.
    """
    if pipe is None:
        modulus, poisson, bore, wall = np.inf, 0.0, 1.0, 1.0
    else:
        usual = surge.POLYETHYLENE if pipe.compound.startswith("PE") else surge.PVC
        modulus, poisson = METALS.get(pipe.compound, usual)
        bore, wall = pipe.bore, pipe.wall
    factor = surge.anchored_factor(one(bore), one(wall), one(poisson))
    return float(surge.wave_speed(one(surge.WATER_MODULUS), one(modulus), one(bore), one(wall), factor, WATER)[0])
