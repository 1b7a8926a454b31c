"""How near gauge, bucket, watch and clamp are, the readings of `visits.toml`; and what bucket and clamp would read."""

from __future__ import annotations

import tomllib
from collections.abc import Mapping
from dataclasses import dataclass
from functools import cache
from importlib import resources
from typing import Any

import numpy as np

from lakewright.physics import tank
from lakewright.physics.atmosphere import atmospheric_pressure
from lakewright.physics.types import Array
from lakewright.state.facts import Facts

FLOOR = 1e-5
"""ours: what a reading of next to nothing is off by, of flows [m3/s] as of all, so that none is exact."""

COARSE = 0.02
"""ours: what a gauge adds to a pressure, as a share of it."""

NINE_IN_TEN = 1.645
"""Deviations each side of its middle between which nine in ten of a bell lie."""


@dataclass(frozen=True)
class Meter:
    """How near a reading is, and what taking it costs."""

    words: str
    gauge: str
    bias: float
    noise: float
    relative: bool
    minutes: float

    def deviation(self, value: Array) -> Array:
        """Of what reading adds, at a value."""
        # ours: of a relative noise, a floor of a hundredth of the usual so that no reading of nothing is exact.
        if self.relative:
            return self.noise * np.abs(value) + FLOOR
        # The pressure half of a compound gauge is coarse.
        return self.noise + COARSE * np.maximum(value, 0.0)

    def within(self, value: Array) -> Array:
        """How far off nine in ten readings of a value are at most, by gauge and by eye."""
        return np.asarray(NINE_IN_TEN * np.hypot(self.bias, self.deviation(value)))


@cache
def visit_table() -> Mapping[str, Any]:
    """`visits.toml` as it stands."""
    return tomllib.loads(resources.files("lakewright.job").joinpath("visits.toml").read_text(encoding="utf-8"))


@cache
def meters() -> Mapping[str, Meter]:
    """Every reading, by its name in the job file."""
    return {
        name: Meter(
            row["words"],
            row.get("gauge", name),
            row.get("bias", 0.0),
            row["noise"],
            row.get("relative", False),
            row["minutes"],
        )
        for name, row in visit_table()["reading"].items()
    }


NO_LOAD = 0.55
"""Current of a motor whose pump moves nothing, of its full-load current. memory: 50 to 60 %."""

PLATE_OVER_TABLE = (0.80, 1.15)
"""Current on a motor's plate over that of the code's table, where nobody has read the plate. memory: a table that is on
the high side of most plates, and pump motors that are let run over their rating."""


def motor_current(facts: Facts, flow: Array, most_flow: Array) -> Array:
    """Current of the running motor [A], nan where nothing is known of it; straight between no flow and the most (ours).

    Parameters
    ----------
    flow, most_flow : that it moves, and the most that its pump can [m3/s]
    """
    full = np.where(facts.power.running_current == 0.0, np.nan, facts.power.running_current)
    return np.asarray(full * (NO_LOAD + (1.0 - NO_LOAD) * flow / most_flow))


def most_flow(facts: Facts) -> Array:
    """The most that the pump can move [m3/s], by its curve or its table."""
    return facts.pump.jet.a.max(axis=-1, keepdims=True) if facts.pump_kind == "jet" else facts.pump.curve.last


def drawdown(facts: Facts) -> Array:
    """Water drawn from the tank between cut-out and cut-in [m3]."""
    delivery, air = facts.delivery, atmospheric_pressure(facts.site.elevation)
    precharge = np.minimum(delivery.precharge, delivery.cut_in)
    return delivery.tank_volume * tank.drawdown_share(precharge, delivery.cut_in, delivery.cut_out, air)
