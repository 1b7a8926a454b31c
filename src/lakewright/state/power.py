"""Motor, cable and what feeds them. Guidance: a licensed electrician and the local code decide."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from lakewright.physics import electric
from lakewright.physics.types import Array
from lakewright.state.facts import Facts

Mask = NDArray[np.bool_]


@dataclass(frozen=True, eq=False, repr=False)
class Motor:
    """What the pump asks of its motor. Running cases."""

    shaft: Array  # W
    rating: Array  # W
    bears: Array  # W, with its service factor
    is_jet: Mask


@dataclass(frozen=True, eq=False, repr=False)
class Wiring:
    """Motor, cable and supply. One value each: no day changes them."""

    said: Mask
    cable: Mask
    has_rated: Mask
    panel_share: Array  # voltage at the panel over the motor's own
    motor_share: Array  # the same at the motor, running
    asked: Array  # A, that conductors should carry
    ampacity_60: Array  # A
    ampacity_75: Array  # A
    drop: Array  # share of the voltage, running
    dip: Array  # share of the voltage, in a start
    length: Array  # m
    has_source: Mask
    source: Array  # W
    running: Array  # VA
    start: Array  # VA
    has_breaker: Mask
    breaker: Array  # A
    largest_breaker: Array  # A, by the rule
    protected: Array  # 1 or 0


def motor(facts: Facts, flow: Array) -> Motor:
    """The power at the shaft at the flows of the running cases [m3/s]; with the cube of speed, by the affinity laws."""
    given, speed = facts.power, facts.faults.speed
    # As the head's: the curve is asked at the flow that all of the pump's passages carry at its rated speed.
    x = np.minimum(flow / ((1.0 - facts.faults.air) * speed), facts.pump.curve.last)
    return Motor(
        shaft=speed * speed * speed * given.brake.at(x),
        rating=given.rating,
        bears=given.rating * given.service_factor,
        is_jet=np.array([facts.pump_kind == "jet"]),
    )


def wiring(facts: Facts) -> Wiring:
    """What the cable takes of the voltage, what the motor takes of the supply, and what guards both."""
    given = facts.power
    running = electric.voltage_drop(given.running_current, given.length, given.resistance) / given.voltage
    start = electric.voltage_drop(given.start_current, given.length, given.resistance) / given.voltage
    rated = np.where(given.rated_voltage == 0.0, 1.0, given.rated_voltage)
    known = 0.0 * given.said
    return Wiring(
        said=given.said != 0.0,
        cable=given.cable != 0.0,
        has_rated=given.rated_voltage != 0.0,
        panel_share=given.voltage / rated + known,
        motor_share=given.voltage * (1.0 - running) / rated,
        asked=electric.CONDUCTOR_OVER_FULL_LOAD * given.table_current + 0.0 * given.cable,
        ampacity_60=given.ampacity_60,
        ampacity_75=given.ampacity_75,
        drop=running + 0.0 * given.cable,
        dip=start + 0.0 * given.cable,
        length=given.length,
        has_source=given.source != np.inf,
        source=given.source,
        running=given.voltage * given.running_current,
        start=given.voltage * given.start_current,
        has_breaker=given.breaker != 0.0,
        breaker=given.breaker + known,
        largest_breaker=electric.largest_breaker(given.table_current),
        protected=given.protected + known,
    )
