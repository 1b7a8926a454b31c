"""Jet pumps for the blind test: the maker's sheet, and the pump as it is, by a law that is not the sheet's.

Every pump is invented, and every range is ours.
"""

from __future__ import annotations

import random
from dataclasses import dataclass

from benchmarks.plain import PSI, Job

GPM = 6.30902e-5  # m3/s; published: NIST SP 811, conversion factors
SHEET_LIFTS = (1.524, 3.048, 4.572, 6.096, 7.62)  # m: 5, 10, 15, 20, 25 ft
SHEET_STEPS = (0.0, 0.35, 0.5, 0.65, 0.78, 0.9, 1.0)  # of the shut-off
FINE = 24
"""Pressures of the pump as it is: so many that no corner of a straight line is felt."""


@dataclass(frozen=True)
class JetLaw:
    """What a jet gives by lift and pressure: less by lift, down to nothing, and flat until its own head runs out."""

    most: float  # m3/s at no lift and no pressure
    weaken: float  # share of it gone at the sheet's last lift
    last: float  # m, the lift at which nothing is left
    dead: float  # Pa at which flow dies, at no lift
    dead_by_lift: float  # Pa a metre
    bend: float

    def flow(self, lift: float, pressure: float) -> float:
        """Flow [m3/s] at a lift [m] with its losses and a pressure [Pa] at the outlet."""
        deep = SHEET_LIFTS[-1]
        strength = 1.0 - self.weaken * min(lift, deep) / deep
        if lift > deep:
            strength *= max(0.0, 1.0 - (lift - deep) / (self.last - deep))
        dead = self.dead - self.dead_by_lift * lift
        if dead <= 0.0:
            return 0.0
        return self.most * strength * max(0.0, 1.0 - (max(pressure, 0.0) / dead) ** self.bend)


def jet_law(rng: random.Random, flow: float, lift: float, rest: float) -> JetLaw:
    """A jet that was chosen for a flow, at a lift [m], against a pressure at its outlet [Pa]."""
    fall = rng.uniform(1e3, 4e3)
    weaken, bend = rng.uniform(0.45, 0.65), rng.uniform(3.0, 4.5)
    dead = (rest * rng.uniform(1.12, 1.35) + 20e3) + fall * lift
    law = JetLaw(1.0, weaken, rng.uniform(8.6, 9.3), dead, fall, bend)
    return JetLaw(flow * rng.uniform(1.0, 1.3) / law.flow(lift + 1.0, 0.8 * rest), weaken, law.last, dead, fall, bend)


def sheet(law: JetLaw) -> Job:
    """The maker's table: flows to a tenth of a gallon a minute; every row ends in none."""
    shut_off = round((law.dead - law.dead_by_lift * SHEET_LIFTS[-1]) / PSI) * PSI
    pressures = [round(shut_off * step / PSI) * PSI for step in SHEET_STEPS]
    flows = [[round(law.flow(lift, p) / GPM, 1) * GPM for p in pressures[:-1]] + [0.0] for lift in SHEET_LIFTS]
    return {"lifts": list(SHEET_LIFTS), "pressures": pressures, "flows": flows}


def off_the_sheet(law: JetLaw, rng: random.Random) -> JetLaw:
    """The pump that was delivered: off by up to 8 % in flow and 5 % in pressure, and bent otherwise."""
    return JetLaw(
        law.most * (1.0 + rng.uniform(-0.08, 0.08)),
        law.weaken + rng.uniform(-0.05, 0.05),
        law.last,
        law.dead * (1.0 + rng.uniform(-0.05, 0.05)),
        law.dead_by_lift,
        law.bend * rng.uniform(0.85, 1.2),
    )


def ailing(law: JetLaw, faults: Job, rng: random.Random) -> JetLaw:
    """The jet with what ails it, which then no longer stands among the faults: worn, slow, or its nozzle plugged.

    A worn impeller takes pressure and flow, by shares that nobody knows; speed goes with its square and itself. A
    nozzle takes the flow, and some of the lift at which any is left.
    """
    wear, speed, nozzle = faults["wear"], faults["speed"], faults["nozzle"]
    if wear >= 1.0:
        return law
    of_pressure = rng.uniform(0.2, 0.6)
    faults.update(wear=0.0, speed=1.0, nozzle=1.0)
    deep = SHEET_LIFTS[-1]
    return JetLaw(
        law.most * (1.0 - wear) ** (1.0 - of_pressure) * speed * nozzle,
        min(law.weaken + 0.3 * (1.0 - nozzle), 0.95),
        deep + (law.last - deep) * (0.4 + 0.6 * nozzle),
        law.dead * (1.0 - wear) ** of_pressure * speed**2,
        law.dead_by_lift,
        law.bend,
    )


def table(law: JetLaw) -> Job:
    """The pump as it is, as a table too fine to feel and without an end inside what can happen."""
    steps = [number / (FINE - 1) for number in range(FINE)]
    lifts = [0.0, *(1.0 + step * (law.last - 1.0) for step in steps), 60.0]
    pressures = [law.dead * step for step in steps] + [20.0 * law.dead]
    return {"lifts": lifts, "pressures": pressures, "flows": [[law.flow(z, p) for p in pressures] for z in lifts]}
