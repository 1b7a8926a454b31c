"""What people read and say of the systems of the blind test, as gauges and people do."""

from __future__ import annotations

import copy
import math
import random

from benchmarks import plain
from tests.search.blind_faults import CHANGED, DOES, KINDS, MINUTE, NOTHING, STRAY, Kind, says
from tests.search.blind_jets import ailing, table
from tests.search.blind_more import CAN, COMMISSIONED, READ, SAYS_CAME, WETS, Found, how_it_came, more_readings, wetted
from tests.search.blind_systems import DAYS, Job, System, job_head, made_system

SUCTION_SPAN, PRESSURE_SPAN = 101.6e3, 690e3  # Pa: 30 inHg, 100 psi
# published: NIST SP 811, conversion factors.
INCH_OF_MERCURY = 3386.389  # Pa
DATES = {"July weekend": "2026-07-18", "late September, low": "2026-09-22", "February under ice": "2026-02-12"}

# What is read.


def flow_at(true: Job, day: int, tank_pressure: float) -> tuple[float, plain.Circuit]:
    """What the pump moves into a tank at a pressure; less where its suction side gives no more."""
    case = plain.Case(true, day, False, tank_pressure)
    pump = plain.pump_of(true)
    circuit = plain.Circuit(true, pump, case)
    flow = circuit.flow() if true["faults"]["wear"] < 1.0 and true["faults"]["air"] < 0.1 else 0.0

    def room(q: float) -> float:
        available = case.atmosphere_head - case.vapour_head - circuit.lift - circuit.losses.suction(q)
        return available - (pump.required(min(q, pump.run_out)) if isinstance(pump, plain.CentrifugalPump) else 0.0)

    if flow > 0.0 and room(flow) < 0.0:
        low, high = 0.0, flow
        for _ in range(60):
            middle = 0.5 * (low + high)
            low, high = (middle, high) if room(middle) >= 0.0 else (low, middle)
        flow = low
    return flow, circuit


def dead_pressure(true: Job, day: int) -> float:
    """The pressure of the tank at which the flow dies [Pa]."""
    _, circuit = flow_at(true, day, 0.0)
    if isinstance(circuit.pump, plain.JetPump):
        lift = circuit.equivalent_lift(0.0)
        return max(circuit.pump.dead_pressure(lift) - circuit.discharge_pressure(0.0), 0.0)
    return circuit.left_over(0.0) * circuit.case.weight


def attained(true: Job, day: int, rng: random.Random) -> float:
    """A pressure of the tank at which a person looks at the pump: in the switch's band where the pump holds it."""
    delivery = true["delivery"]
    dead = dead_pressure(true, day) if true["faults"]["wear"] < 1.0 and true["faults"]["air"] < 0.1 else 0.0
    if dead > delivery["cut_in"]:
        return rng.uniform(delivery["cut_in"], min(delivery["cut_out"], dead))
    return rng.uniform(0.0, max(dead, 20e3))


def visit_of(
    system: System,
    true: Job,
    beside: dict[str, float],
    day: int,
    rng: random.Random,
    more: random.Random,
    which: set[str],
    meters: dict[str, float],
) -> dict[str, float]:
    """Readings of a visit, as gauges and people give them; the further ones draw from `more`."""
    delivery, faults = true["delivery"], true["faults"]
    held = attained(true, day, rng)
    flow, circuit = flow_at(true, day, held)
    weight, losses = circuit.case.weight, circuit.losses
    rise = (delivery["height"] - true["pump"]["height"]) * weight
    hanging = -circuit.lift * weight
    resting = attained(true, day, rng)
    boils = (circuit.case.vapour_head - circuit.case.atmosphere_head) * weight
    running = max(
        hanging - (losses.suction(flow) + losses.line_pipe.velocity_head(flow) if flow else 0.0) * weight, boils
    )
    if faults["air"] >= 0.1 or (faults["wear"] == 1.0 and faults["air"] > 0.05):
        running = min(0.0, hanging) * rng.uniform(0.0, 0.15)
    tight = faults["airtight"] if faults["air"] < 0.1 else 0.0
    alone = resting + rise if true["holding"]["at_inlet"] else 0.0
    standing = hanging * tight if true["holding"]["at_pump"] else alone
    given = flow * (1.0 - beside.get("drawn", 0.0))
    if delivery["filters"] > 0.0:
        given = min(given, true["need"]["flow"] * math.sqrt(max(held, 0.0) / delivery["filters"]))
    air, low, high = 101325.0, delivery["cut_in"] + 101325.0, delivery["cut_out"] + 101325.0
    share = (min(delivery["precharge"], delivery["cut_in"]) + air) * (1.0 / low - 1.0 / high)
    drawdown, tap = delivery["tank_volume"] * share, rng.uniform(0.07e-3, 0.18e-3)
    tap += beside.get("drawn", 0.0) * flow
    cycle = drawdown / tap + drawdown / (flow - tap) if flow > 1.05 * tap else math.inf
    exact = {
        "suction_standing": standing + meters["suction"],
        "suction_running": running + meters["suction"],
        "pressure_standing": resting + rise + meters["pressure"],
        "pressure_running": held + rise + losses.delivery(flow) * weight + meters["pressure"],
        "flow": given * (1.0 + rng.uniform(-0.08, 0.08)),
        "drawdown": drawdown * (1.0 + rng.uniform(-0.1, 0.1)),
        "cycle_time": cycle * (1.0 + rng.uniform(-0.1, 0.1)),
    }
    found = Found(flow, dead_pressure(true, day), hanging, rise, resting, meters)
    exact |= more_readings(system, true, day, beside, found, more)
    if not delivery["filters"]:
        del exact["flow_before_filter"]
    return {name: value for name, value in exact.items() if name in which and math.isfinite(value)}


def reading_words(name: str, value: float) -> str:
    """A reading as people write it down: to half an inch, a pound, a tenth of a gallon."""
    if name.startswith("suction") and value < 2e3:
        return f"{max(round(-value / INCH_OF_MERCURY * 2.0) / 2.0, 0.0)} inHg vacuum"
    if name.startswith(("suction", "pressure", "tank_air")):
        return f"{max(round(value / plain.PSI), 0)} psi"
    if name == "lake_level":
        return f"{value:.2f} m"
    if name.startswith("motor"):
        return f"{value:.1f} A" if name == "motor_current" else f"{value:.0f} V"
    if name.startswith("flow"):
        return f"{round(value / 6.30902e-5, 1)} gpm"
    if name == "drawdown":
        return f"{round(value * 1000.0, 1)} L"
    return f"{round(min(value, 3500.0))} s"


GAUGES = ((0.016, 0.3), (0.025, 0.5), (0.04, 0.2))
"""Classes of gauges, and how often one is met."""


def sick_system(seed: int) -> System:
    """A system, its fault, and its job file with what a person read and said."""
    rng = random.Random(f"sick {seed}")
    system = made_system(rng)
    sound = copy.deepcopy(system.true)
    alone = system.holding == "foot valve only"
    can = {"check": not alone, "no check": alone, "hose": system.hose, "ice": system.day == 2, "": True}
    can |= {"jet": system.jet is not None, "no jet": system.jet is None}
    can["filters"] = system.thought["filters"] > 0.0
    names = [name for name, kind in KINDS.items() if can[kind.needs]]
    if rng.random() >= 0.1:
        system.fault = rng.choices(names, [KINDS[name].often for name in names])[0]
        system.severity = rng.random()
    kind = KINDS.get(system.fault, NOTHING)
    kind.ail(system, system.severity, rng)
    if system.jet is not None:
        system.true["pump"] |= table(ailing(system.jet, system.true["faults"], rng))
    system.lost = lost_flow(system, sound)
    more = random.Random(f"more {seed}")
    system.text = job_text(system, kind, sound, rng, more)
    return system


def lost_flow(system: System, sound: Job) -> float:
    """Share of the flow that the fault costs at the middle of the switch's band, at a tap behind the filters."""
    middle = 0.5 * (sound["delivery"]["cut_in"] + sound["delivery"]["cut_out"])
    before, _ = flow_at(sound, system.day, middle)
    after, _ = flow_at(system.true, system.day, middle)
    after *= 1.0 - system.beside.get("drawn", 0.0)

    def passes(true: Job, flow: float) -> float:
        filters = true["delivery"]["filters"]
        return min(flow, true["need"]["flow"] * math.sqrt(middle / filters)) if filters else flow

    usual = passes(sound, before)
    return 1.0 - passes(system.true, after) / usual if usual > 0.0 else 0.0


def job_text(system: System, kind: Kind, sound: Job, rng: random.Random, more: random.Random) -> str:
    """The job file, with the visits in it."""
    gauge_class = rng.choices([g for g, _ in GAUGES], [often for _, often in GAUGES])[0]
    meters = {
        "suction": rng.uniform(-1.0, 1.0) * gauge_class * SUCTION_SPAN,
        "pressure": rng.uniform(-1.0, 1.0) * gauge_class * PRESSURE_SPAN,
    }
    system.meters = meters
    has_gauge, has_bucket = rng.random() < 0.9, rng.random() < 0.85
    which = set()
    if has_gauge:
        which |= {"suction_running"} | ({"suction_standing"} if rng.random() < 0.9 else set())
    which |= {
        name
        for name, often in (
            ("pressure_running", 0.9),
            ("pressure_standing", 0.6),
            ("drawdown", 0.2),
            ("cycle_time", 0.25),
        )
        if rng.random() < often
    }
    which |= {"flow"} if has_bucket else set()
    text = job_head(system)
    if rng.random() < 0.45:
        # A first good visit is made in summer.
        also = {name for name, often in COMMISSIONED.items() if more.random() < often}
        before = visit_of(system, sound, {}, 0, rng, more, (which - {"cycle_time"}) | also, meters)
        text += visit_text("2025-07-12", before)
    which |= {name for name, often in READ.items() if more.random() < often}
    every = visit_of(system, system.true, system.beside, system.day, rng, more, EVERY, meters)
    read = {name: value for name, value in every.items() if name in which}
    head = text
    lines = [] if (does := does_line(system, kind, rng)) is None or rng.random() >= 0.85 else [does]
    minute = says(rng, kind.minute, MINUTE, system.severity, STRAY["minute"])
    changed = says(rng, kind.changed, CHANGED, system.severity, STRAY["changed"])
    system.answers = {
        **{name: f'{name} = "{reading_words(name, value)}"' for name, value in every.items()},
        "first_minute": f'first_minute = "{"; ".join(MINUTE[key] for key in minute) or "the same as ever"}"',
        "changed": f'changed = "{"; ".join(CHANGED[key] for key in changed) or "nothing"}"',
        "came": f'came = "{how_it_came(system, more)}"',
        "wetted": f'wetted = "{wetted(system, more)}"',
    }
    date, symptoms = DATES[DAYS[system.day][0]], list(lines)
    lines += [
        system.answers[name] for name, often in (("first_minute", 0.65), ("changed", 0.8)) if rng.random() < often
    ]
    lines += [system.answers[name] for name, often in (("came", SAYS_CAME), ("wetted", WETS)) if more.random() < often]
    brought = [line for name, line in system.answers.items() if more.random() < CAN[name]]
    system.full = head + visit_text(date, {}) + "".join(f"{line}\n" for line in (*symptoms, *brought))
    return head + visit_text(date, read) + "".join(f"{line}\n" for line in lines)


EVERY = {
    *("suction_standing", "suction_running", "pressure_standing", "pressure_running"),
    *("flow", "drawdown", "cycle_time", *READ),
}


def does_line(system: System, kind: Kind, rng: random.Random) -> str | None:
    """What people say it does, as a line of the job file."""
    odd = {key: words for key, words in DOES.items() if key not in ("weak", "none")}
    does = [DOES[key] for key in says(rng, kind.does, odd, system.severity, STRAY["does"])]
    if system.lost > 0.95:
        does += [DOES["none"]] if rng.random() < 0.9 else []
    elif rng.random() < min(max((system.lost - 0.04) / 0.22, 0.12), 0.85):
        does.append(DOES["weak"])
    return "does = [" + ", ".join(f'"{each}"' for each in does) + "]" if does else None


def visit_text(date: str, read: dict[str, float]) -> str:
    """One visit of the job file."""
    return f"\n[[readings]]\ndate = {date}\n" + "".join(
        f'{name} = "{reading_words(name, value)}"\n' for name, value in read.items()
    )
