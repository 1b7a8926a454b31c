"""What else a person at the pump of a blind system can say and read: how it came, wetted joints, the shut valve.

Every range is ours, written before any of it was diagnosed. People are wrong, and readings are spoiled, as often as it
says here.
"""

from __future__ import annotations

import random
from dataclasses import dataclass

from tests.search.blind_systems import PLATE, Job, System

CAME = ("at once", "over days", "over months", "always so")
CAME_BY_FAULT = {
    "none": (25, 15, 30, 30),
    "screen dirty": (15, 40, 40, 5),
    "foot valve stuck": (60, 15, 20, 5),
    "foot valve leaks": (40, 30, 25, 5),
    "foot valve weeps": (35, 30, 30, 5),
    "stand dragged": (85, 10, 3, 2),
    "lake lower": (5, 30, 60, 5),
    "line kinked": (70, 10, 10, 10),
    "hose lining": (40, 20, 35, 5),
    "air pocket": (55, 20, 5, 20),
    "line frozen": (75, 23, 1, 1),
    "plug out": (90, 6, 2, 2),
    "union ring": (60, 20, 15, 5),
    "clamp draws air": (35, 30, 30, 5),
    "pump worn": (3, 7, 80, 10),
    "impeller loose": (90, 5, 5, 0),
    "runs backward": (90, 3, 2, 5),
    "voltage low": (65, 10, 10, 15),
    "nozzle plugged": (35, 30, 30, 5),
    "check backward": (95, 2, 0, 3),
    "delivery half shut": (80, 10, 7, 3),
    "filter not changed": (5, 25, 67, 3),
    "house runs": (55, 20, 23, 2),
    "tank short of air": (20, 25, 50, 5),
    "switch nipple silted": (30, 25, 42, 3),
}
"""How a fault came, in hundredths, as far as anybody saw it come."""

SAYS_CAME, WRONG_CAME = 0.7, 0.12
"""How many say how it came, and how many of them say anything."""

JOINTS = ("plug", "union", "clamps")
JOINT_OF = {"plug out": "plug", "union ring": "union", "clamp draws air": "clamps"}
WETS, SEES, FANCIES = 0.1, (0.6, 0.9), 0.04
"""How many wet the joints before they call; how many see it at the right one, barely and total, and at a wrong one."""

READ = {
    "pressure_shut": 0.15, "suction_shut": 0.12, "pressure_stop": 0.25, "tank_air": 0.07, "flow_before_filter": 0.1,
    "lake_level": 0.15, "motor_current": 0.03,
}  # fmt: skip
"""How many have read it before they call."""

CAN = {
    "suction_standing": 0.95, "suction_running": 0.95, "pressure_standing": 1.0, "pressure_running": 1.0,
    "flow": 0.95, "drawdown": 0.7, "cycle_time": 0.7, "pressure_shut": 0.9, "suction_shut": 0.9,
    "pressure_stop": 0.95, "tank_air": 0.5, "flow_before_filter": 0.9, "lake_level": 0.85, "motor_current": 0.2,
    "first_minute": 0.95, "changed": 0.9, "came": 0.85, "wetted": 0.8,
}  # fmt: skip
"""How often a full visit, of a person with the card in hand, brings it."""

COMMISSIONED = {
    "pressure_shut": 0.6,
    "suction_shut": 0.5,
    "pressure_stop": 0.6,
    "flow_before_filter": 0.4,
    "tank_air": 0.5,
}
"""What whoever made the first good visit read of it."""

TRAPPED, WET_TANK, WRONG_MARK = 0.08, 0.1, 0.1
"""Readings that are of something else: pressure that a check holds; a tank not drained; another year's mark."""


def how_it_came(system: System, rng: random.Random) -> str:
    """What people say of how it came."""
    if rng.random() < WRONG_CAME:
        return rng.choice(CAME)
    return rng.choices(CAME, CAME_BY_FAULT[system.fault])[0]


def wetted(system: System, rng: random.Random) -> str:
    """The first joint, from the plug outward, that changes something when it is wetted."""
    least, most = SEES
    for joint in JOINTS:
        true = JOINT_OF.get(system.fault) == joint
        if rng.random() < (least + (most - least) * system.severity if true else FANCIES):
            return joint
    return "no joint"


@dataclass(frozen=True)
class Found:
    """How a visit finds the pump: Pa of the tank and the gauges, m3/s."""

    flow: float  # at which the other readings are taken
    dead: float  # of the tank, where the flow dies
    hanging: float  # what the lift alone pulls
    rise: float  # at the pump over that at the tank, standing
    resting: float  # of the tank, at rest
    meters: dict[str, float]  # what each gauge is off by


def more_readings(
    system: System, true: Job, day: int, beside: dict[str, float], found: Found, rng: random.Random
) -> dict[str, float]:
    """What the further readings of one visit show."""
    delivery, faults, off = true["delivery"], true["faults"], found.meters
    # The valve is not quite shut, and the needle has not quite settled.
    shut = max(found.dead + found.rise, 0.0) * (1.0 - rng.uniform(0.0, 0.03)) + rng.gauss(0.0, 4e3)
    if faults["air"] >= 0.1 or faults["wear"] >= 1.0:
        shut = rng.uniform(0.0, 8e3)
    if rng.random() < TRAPPED:
        shut = found.resting + found.rise
    pull = min(0.0, found.hanging) * rng.uniform(0.0, 0.15) if faults["air"] >= 0.1 else found.hanging
    stop = min(delivery["cut_out"], max(found.dead, 0.0)) + found.rise
    air = max(found.resting if rng.random() < WET_TANK else delivery["precharge"], 0.0)
    mark = rng.uniform(-0.5, 0.5) if rng.random() < WRONG_MARK else 0.0
    idle, most = rng.uniform(0.45, 0.6), system.thought["curve"][-1][0]
    load = idle + (1.0 - idle) * min(found.flow / most, 1.0)
    return {
        "pressure_shut": shut + off["pressure"],
        "suction_shut": pull + rng.gauss(0.0, 800.0) + off["suction"],
        "pressure_stop": stop + rng.gauss(0.0, 3e3) + off["pressure"],
        "tank_air": air + rng.uniform(-7e3, 7e3),
        "flow_before_filter": found.flow * (1.0 - beside.get("drawn", 0.0)) * rng.uniform(0.92, 1.08),
        "lake_level": true["days"]["level"][day] + faults["level_offset"] + rng.gauss(0.0, 0.04) + mark,
        "motor_current": PLATE * rng.uniform(0.85, 1.0) * load * beside.get("current", 1.0),
    }
