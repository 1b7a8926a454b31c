"""What the pump's motor takes from the meter, for the water it brings and for a year."""

from __future__ import annotations

import math

import numpy as np

from lakewright import units
from lakewright.job.models import Job
from lakewright.physics.electric import motor_efficiency, pumping_energy
from lakewright.physics.speed import input_power, power_at_speed, speed_ratio_for
from lakewright.physics.types import GRAVITY
from lakewright.state.cases import CLEAN, CUT_IN, OPEN, cases_of
from lakewright.state.control_facts import BY_SPEED
from lakewright.state.demand import DAY
from lakewright.state.facts import Facts
from lakewright.state.walk import State

A_BATCH = {"US": ("1,000 gal", units.read("1000 gal", "volume")), "SI": ("1 m3", 1.0)}
DAYS = 365.0


def energy_words(job: Job, facts: Facts, state: State, a_day: float, system: str) -> str:
    """Energy for a batch of water, and for a year where water is drawn all year; nothing where it is not known.

    `a_day` is what is used in a day [m3].
    """
    energy = energy_per_volume(facts, state)
    if not math.isfinite(energy):
        return ""
    what, volume = A_BATCH[system]
    words = f"the motor takes about {units.show(energy * volume, 'energy', system)} for {what}"
    if not math.isfinite(a_day) or a_day == 0.0:
        return words
    used = units.show(a_day / DAY, "daily_flow", system)
    days, span = (DAYS, "year") if job.need.season == "year-round" else (1.0, "day")
    return f"{words}, {units.show(days * a_day * energy, 'yearly_energy', system)} a {span} at {used}"


def energy_per_volume(facts: Facts, state: State) -> float:
    """Energy a motor takes for each volume of water [J/m3], the mean of the days between cut-in and cut-out; nan where
    the pump's power is not published, infinite where it brings nothing."""
    if state.motor is None:
        return math.nan
    if facts.control_kind == BY_SPEED and facts.pump_kind == "centrifugal":
        return _by_speed(facts, state)
    cases = cases_of(len(facts.day_names))
    runs = (cases.running_line == CLEAN) & (cases.running_end != OPEN)
    shaft, flow = (np.broadcast_to(each, runs.shape)[runs] for each in (state.motor.shaft, state.flow.flow))
    return float(np.mean(pumping_energy(shaft, motor_efficiency(facts.power.rating), flow)))


def _by_speed(facts: Facts, state: State) -> float:
    """The same where a drive turns the pump as slowly as the need allows; nan where it cannot bring the need.

    ours: the motor's share is taken as at full speed, and the whole need runs; slower, both waste more.
    """
    cases, pump, faults = cases_of(len(facts.day_names)), facts.pump, facts.faults
    runs = (cases.running_line == CLEAN) & (cases.running_end == CUT_IN)
    flow = facts.need.flow * np.take(facts.days.demand, cases.running_day[runs], axis=-1)
    surplus = (state.control_in_use.pressure[..., runs] - facts.delivery.cut_in) / GRAVITY
    rated = flow / ((1.0 - faults.air) * faults.speed)
    lost = surplus / state.lake.density[..., runs] / ((1.0 - faults.wear) * faults.speed * faults.speed)
    ratio = speed_ratio_for(pump.curve, rated, pump.curve.at(rated) - lost)
    shaft = power_at_speed(facts.power.brake.at(rated / ratio), ratio * faults.speed)
    taken = input_power(shaft, motor_efficiency(facts.power.rating), facts.control.drive_share)
    return float(np.mean(taken / flow))
