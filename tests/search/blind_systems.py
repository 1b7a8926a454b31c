"""Systems for the blind test whose maker is not the model: as they are, and as their job file has them.

Every place, pump and person is invented, and every range is ours: what a shop meets, and what it does not know.
"""

from __future__ import annotations

import math
import random
from dataclasses import dataclass, field
from typing import Any

from benchmarks import plain
from tests.search.blind_jets import JetLaw, jet_law, off_the_sheet, sheet, table

Job = plain.Job

PLATE = 7.0
"""On every motor's plate [A]: what else it says is nothing to a diagnosis."""

HOLDINGS = {"foot valve and check at pump": (1.0, 1.0), "foot valve only": (1.0, 0.0)}
DAYS = (("July weekend", 293.0, 0.0), ("late September, low", 287.0, 0.0), ("February under ice", 274.5, 0.6))


@dataclass
class System:
    """What is there, what the job file says of it, and what ails it."""

    true: Job
    thought: dict[str, Any]
    jet: JetLaw | None  # as it is, where the pump is one
    holding: str
    hose: bool
    day: int
    fault: str
    severity: float
    lost: float = 0.0
    beside: dict[str, float] = field(default_factory=dict)
    text: str = ""  # the job file as people call in
    full: str = ""  # the same after a full visit
    meters: dict[str, float] = field(default_factory=dict)  # what each gauge is off by [Pa]
    answers: dict[str, str] = field(default_factory=dict)  # lines of the job file that asking would bring


# The systems.

JETS = 0.2
"""ours: how many of the pumps are jets."""


def made_system(rng: random.Random) -> System:
    """A sound system: as it is, and as the job file has it."""
    is_jet = rng.random() < JETS
    flow = rng.uniform(2.5e-4, 6e-4) if is_jet else rng.uniform(4e-4, 1.1e-3)
    bore = rng.choice([0.035, 0.041, 0.052]) if flow < 8e-4 else rng.choice([0.041, 0.052])
    height, levels = rng.uniform(1.2, 4.2), [0.0, -rng.uniform(0.3, 0.9), -rng.uniform(0.1, 0.5)]
    cut_in = rng.choice([138e3, 207e3]) if is_jet else rng.choice([138e3, 207e3, 207e3, 276e3])
    tee = height + rng.uniform(0.3, 8.0)
    rest = tee + (cut_in + 138e3) / 9790.0
    dead = rest * rng.uniform(1.18, 1.45) + rng.uniform(1.0, 4.0)
    most, power = flow * rng.uniform(1.5, 2.0), rng.uniform(1.8, 2.6)
    shares = [0.0, 0.25, 0.5, 0.7, 0.85, 1.0]
    curve = [(most * s, dead * (1.0 - 0.72 * s**power)) for s in shares]
    holding = rng.choice([*HOLDINGS, "foot valve and check at pump"])
    inlet, at_pump = HOLDINGS[holding]
    filters = rng.choice([0.0, rng.uniform(45e3, 75e3), rng.uniform(45e3, 75e3)])
    thought: dict[str, Any] = {
        "elevation": rng.choice([0.0, rng.uniform(100.0, 700.0)]),
        "levels": levels,
        "height": height,
        "tee": tee,
        "bed": rng.uniform(10.0, 60.0),
        "bank": rng.uniform(3.0, 15.0),
        "bore": bore,
        "coefficient": rng.uniform(3.0, 8.0),
        "length": rng.uniform(8.0, 70.0),
        "delivery_bore": rng.choice([0.027, 0.035]) if flow < 6e-4 else rng.choice([0.035, 0.041]),
        "delivery_coefficient": rng.uniform(4.0, 10.0),
        "curve": curve,
        "required": [(most * s, 1.6 + 1.9 * s * s) for s in (0.0, 0.5, 1.0)],
        "cut_in": cut_in,
        "volume": rng.choice([0.08, 0.16, 0.24, 0.32]),
        "need": flow,
        "filters": filters,
        "screen": rng.uniform(0.04, 0.12),
        "valve": rng.uniform(5.0, 9.0),
        "spring": rng.uniform(2e3, 4.5e3),
        "measured": rng.random() < 0.5,
    }
    law = jet_law(rng, flow, height + 1.0, cut_in + 138e3 + (tee - height) * 9790.0) if is_jet else None
    if law is not None:
        thought["jet"] = sheet(law)
    true, day = true_job(rng, thought, inlet, at_pump), rng.choices(range(3), (5, 3, 2))[0]
    jet = None if law is None else off_the_sheet(law, rng)
    if jet is not None:
        true["pump"] = {"kind": "jet", "height": true["pump"]["height"], **table(jet)}
    return System(true, thought, jet, holding, rng.random() < 0.35, day, "none", 0.0)


def true_job(rng: random.Random, thought: dict[str, Any], inlet: float, at_pump: float) -> Job:
    """What the system is, off what is thought of it by what a person does not know."""
    near = thought["measured"]

    def length(value: float) -> float:
        return value * (1.0 + rng.uniform(-1.0, 1.0) * (0.05 if near else 0.14))

    def off(value: float, share: float) -> float:
        return value * (1.0 + rng.uniform(-share, share))

    tilt, lift, wide = rng.uniform(-0.03, 0.03), rng.uniform(-0.05, 0.05), rng.uniform(-0.02, 0.02)
    most = thought["curve"][-1][0]
    slip = 0.06 if near else 0.45
    # common practice, no source: a lift told by telephone is up to 3 ft short.
    short = rng.uniform(-0.1, 0.1) if near else rng.uniform(-0.2, 0.95)
    return {
        "site": {"elevation": thought["elevation"], "weather": rng.uniform(-0.01, 0.025), "flood": 1.5, "waves": 0.3},
        "days": {
            "level": [level + rng.gauss(0.0, 0.11) for level in thought["levels"]],
            "temperature": [warmth + rng.uniform(-1.0, 2.0) for _, warmth, _ in DAYS],
            "ice": [ice for _, _, ice in DAYS],
            "dirt": [0.0] * 3,
            "demand": [1.0] * 3,
        },
        "stand": {
            "depth": 5.0,
            "frame": 0.3,
            "riser": 0.6,
            "inlet_rise": 0.3,
            "sink": 0.0,
            "riser_bore": thought["bore"],
            "valve_coefficient": off(thought["valve"], 0.3),
            "valve_lift_factor": 20.0,
            "opening_pressure": off(thought["spring"], 0.35),
            "screen_area": off(thought["screen"], 0.3) * (1.0 - rng.uniform(0.0, 0.4)),
            "screen_structure": 0.9,
            "screen_open": 0.5,
        },
        "suction": {
            "bed_length": length(thought["bed"]),
            "bank_length": length(thought["bank"]),
            "along": 0.03,
            "bore": off(thought["bore"], 0.02),
            "roughness": (rough := math.exp(rng.uniform(math.log(1.5e-6), math.log(6e-5)))),
            "roughness_fouled": rough,
            "coefficient": off(thought["coefficient"], 0.35),
        },
        "pump": {
            "kind": "centrifugal",
            "height": thought["height"] + short,
            "flow": [q * (1.0 + wide) for q, _ in thought["curve"]],
            "head": [h * (1.0 + lift + tilt * q / most) for q, h in thought["curve"]],
            "required_flow": [q * 1.1 for q, _ in thought["required"]],
            "required": [off(h, 0.2) for _, h in thought["required"]],
        },
        "delivery": {
            "bore": off(thought["delivery_bore"], 0.02),
            "length": length(thought["length"]),
            "roughness": (rough := math.exp(rng.uniform(math.log(1.5e-6), math.log(6e-5)))),
            "roughness_fouled": rough,
            "coefficient": off(thought["delivery_coefficient"], 0.35),
            "height": thought["tee"] + rng.uniform(-slip, slip),
            "cut_in": thought["cut_in"] + rng.uniform(-11e3, 11e3),
            "cut_out": thought["cut_in"] + 138e3 + rng.uniform(-11e3, 11e3),
            "precharge": thought["cut_in"] - 14e3 + rng.uniform(-14e3, 14e3),
            "tank_volume": off(thought["volume"], 0.06),
            "flow_control": 1.0,
            "filters": thought["filters"] * rng.uniform(0.3, 1.0),
        },
        "faults": {
            "blocked": 0.0, "valve_opening": 1.0, "air": 0.0, "wear": 0.0, "speed": 1.0, "nozzle": 1.0,
            "level_offset": 0.0, "line_opening": 1.0, "delivery_opening": 1.0, "airtight": 1.0,
        },
        "holding": {"at_inlet": inlet, "at_pump": at_pump},
        "need": {"flow": thought["need"]},
    }  # fmt: skip


def job_head(system: System) -> str:
    """The system as the job file has it, without what was read."""
    t = system.thought
    stands = "measured = true" if t["measured"] else "told = true"

    def said(value: float, unit: str = "m") -> str:
        return f'{{ value = "{value:.6g} {unit}", {stands} }}'

    days = "".join(
        f'[[site.days]]\nname = "{name}"\nlevel = "{level:.3f} m"\nwater = "{warmth - 273.15:.1f} C"\nice = "{ice} m"\n'
        f'dirt = "40 %"\ndemand = "100 %"\n'
        for (name, warmth, ice), level in zip(DAYS, t["levels"], strict=True)
    )
    curve = "".join(f'[[pump.curve]]\nflow = "{q * 1000:.5f} L/s"\nhead = "{h:.3f} m"\n' for q, h in t["curve"])
    npsh = "".join(f'[[pump.npsh]]\nflow = "{q * 1000:.5f} L/s"\nhead = "{h:.3f} m"\n' for q, h in t["required"])
    stock = "" if system.hose else 'stock = "polyethylene, SIDR 9, 1-1/2 in"\n'
    filters = (
        f'filters_clean = "{0.3 * t["filters"] / 1000:.2f} kPa"\nfilters_dirty = "{t["filters"] / 1000:.2f} kPa"\n'
    )
    return f"""[job]
title = "blind"
units = "SI"
grade = "quote"
[site]
kind = "lake"
elevation = "{t["elevation"]:.1f} m"
{days}
[need]
flow = "{t["need"] * 1000:.4f} L/s"
[[site.soundings]]
distance = "0 m"
depth = "0 m"
[[site.soundings]]
distance = "{t["bed"]:.3f} m"
depth = "5 m"
[stand]
at = {said(t["bed"])}
riser = "0.6 m"
[stand.inlet]
kind = "foot valve"
loss_coefficient = {t["valve"]:.3f}
opening_pressure = "{t["spring"] / 1000:.3f} kPa"
bore = "{t["bore"] * 1000:.2f} mm"
screen_area = "{t["screen"] * 1e4:.2f} cm2"
screen_open_fraction = "50 %"
[suction]
{stock}bore = "{t["bore"] * 1000:.2f} mm"
length = {said(t["bed"] + t["bank"])}
along = "3 %"
roughness = "0.007 mm"
loss_coefficient = {t["coefficient"]:.3f}
[pump]
kind = "{"centrifugal" if system.jet is None else "jet"}"
height = {said(t["height"])}
{curve + npsh if system.jet is None else lift_table(t["jet"])}
[delivery]
bore = "{t["delivery_bore"] * 1000:.2f} mm"
length = {said(t["length"])}
height = {said(t["tee"])}
roughness = "0.007 mm"
loss_coefficient = {t["delivery_coefficient"]:.3f}
cut_in = "{t["cut_in"] / 1000:.2f} kPa"
cut_out = "{t["cut_in"] / 1000 + 138:.2f} kPa"
tank_volume = "{t["volume"] * 1000:.1f} L"
tap_height = {said(t["tee"])}
{filters}
[power]
voltage = "230 V"
motor_current = "{PLATE:g} A"
[holding]
arrangement = "{system.holding}"
"""


def lift_table(jet: Job) -> str:
    """The maker's table of a jet, in the job file."""
    lifts = ", ".join(f'"{lift:.3f} m"' for lift in jet["lifts"])
    pressures = ", ".join(f'"{pressure / 1000:.3f} kPa"' for pressure in jet["pressures"])
    flows = ", ".join("[" + ", ".join(f'"{flow * 1000:.5f} L/s"' for flow in row) + "]" for row in jet["flows"])
    return f"[pump.lift_table]\nlifts = [{lifts}]\npressures = [{pressures}]\nflows = [{flows}]\n"
