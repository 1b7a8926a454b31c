"""What keeps the pump from harm, as facts."""

from __future__ import annotations

import math
from dataclasses import dataclass

import numpy as np

from lakewright import units
from lakewright.job.models import Job
from lakewright.physics.types import Array
from lakewright.state.control_facts import HELD, STORE, control_of
from lakewright.state.gather import Gather, defaults, one

CUT_OFF = "low-pressure cut-off"
LAID_UP = ("hauled", "drained")
"""Seasons in which nothing is in use in winter."""


@dataclass(frozen=True, eq=False, repr=False)
class ProtectionFacts:
    cut_off: Array  # Pa gauge at which a low-pressure cut-off stops the pump; minus infinity without one
    guards: Array  # other devices that stop a pump to which no water comes
    switch_height: Array  # m, of the switch, and of a cut-off with it
    at_pump: Array  # 1 where the switch feels the pressure at the pump, 0 at the tank
    float_at: Array  # m, level at which a float stops the pump; minus infinity without one
    relief_flow: Array  # m3/s that an open relief valve passes; infinite without one
    winter: Array  # 1 where the pump is in use while it freezes, else 0
    guarded: Array  # 1 where something keeps pump, tank and switch from freezing, else 0


def protection_facts(
    job: Job, cut_in: float, pump_height: float, tee_height: float, ice: Array, gather: Gather
) -> ProtectionFacts:
    """What keeps the pump from harm.

    Parameters
    ----------
    cut_in : [Pa gauge]; pump_height, tee_height : [m]; ice : [m], one a day
    """
    given = job.protection
    cut_off, guards = _dry_run(job, cut_in, gather)
    at_pump = given.switch_at == "pump"
    float_at = given.float_at
    return ProtectionFacts(
        cut_off=one(cut_off),
        guards=one(guards),
        switch_height=one(pump_height if at_pump else tee_height),
        at_pump=one(float(at_pump)),
        float_at=one(
            -math.inf
            if float_at is None
            else gather.number("protection.float_at", float_at, "[protection] float_at", kind="height")
        ),
        relief_flow=one(_relief_flow(job, gather)),
        # Ice that nobody knows of counts as ice.
        winter=one(float(job.need.season not in LAID_UP and not bool(np.all(ice == 0.0)))),
        guarded=one(_guarded(job, gather)),
    )


def _dry_run(job: Job, cut_in: float, gather: Gather) -> tuple[float, float]:
    """Setting of the cut-off [Pa gauge], and how many devices besides stop a pump that runs dry."""
    given, place = job.protection, "[protection] dry_run"
    kind = control_of(job)
    own = float(kind in HELD)  # a controller stops a pump that runs dry by itself
    listed: list[str] = [*given.dry_run]
    setting = given.cut_off
    if kind == STORE and (CUT_OFF in listed or setting is not None):
        found, wanted = f"a {CUT_OFF}", "what can act on a line that ends open"
        gather.mistake(place, found, wanted, "a current relay, a flow switch or a casing thermostat")
        return -math.inf, 0.0
    if not listed and setting is None and own:
        return -math.inf, own
    if not listed and setting is None:
        if gather.grade != "quote":
            why = f"{place} is not given: say what stops the pump when no water comes, or none"
            return -math.inf, gather.lack("protection.guards", why)
        listed = ["current relay" if kind == STORE else CUT_OFF]
        gather.usual_word("protection.dry_run", None, listed[0], place)
    guards = own + sum(guard not in (CUT_OFF, "none") for guard in listed)
    if setting is None and CUT_OFF not in listed:
        return -math.inf, guards
    if setting is None:
        under = defaults()["protection.cut_off under cut-in"]
        why = f"{under.why} ({under.source})"
        return gather.assume("protection.cut_off", cut_in - under.value, "gauge", why, "[protection] cut_off"), guards
    if setting.value >= cut_in:
        wanted = f"less than cut_in, {units.show(cut_in, 'gauge', job.job.units)}"
        remedy = "a cut-off at or over cut-in never lets the pump start: 10 psi under it is usual"
        gather.mistake("[protection] cut_off", f'"{setting.text}"', wanted, remedy)
    return gather.number("protection.cut_off", setting, "[protection] cut_off", kind="gauge"), guards


def _relief_flow(job: Job, gather: Gather) -> float:
    """What an open relief valve passes [m3/s]; infinite where there is none."""
    if job.delivery.relief is None:
        return math.inf
    return gather.number("protection.relief_flow", job.protection.relief_flow, "[protection] relief_flow")


def _guarded(job: Job, gather: Gather) -> float:
    place = "[protection] frost"
    said = gather.usual_word("protection.frost", job.protection.frost, "heater", place)
    if said is None:
        return gather.lack("protection.guarded", f"{place} is not given: say what keeps pump and tank from freezing")
    return float(said != "none")
