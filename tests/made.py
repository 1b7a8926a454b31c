"""Facts straight from numbers: the dictionaries of `benchmarks/plain.py` turned into what the walk reads."""

from __future__ import annotations

import random
from collections.abc import Iterator, Sequence
from dataclasses import fields, replace
from typing import Any

import numpy as np
from numpy.typing import NDArray

from benchmarks import plain
from lakewright.physics.curve import Curve, rows_of, shape_keeping, stack, straight_lines, unknown_curve
from lakewright.physics.jet import JetTable, jet_table, stack_tables, tables_of, unknown_table
from lakewright.physics.types import GRAVITY, Array
from lakewright.state.control_facts import BY_FLOW, BY_SPEED, STORE, ControlFacts, no_control
from lakewright.state.drinking_facts import DrinkingFacts
from lakewright.state.ejector_facts import EjectorFacts, no_ejector
from lakewright.state.facts import (
    TABLES,
    DayFacts,
    DeliveryFacts,
    Facts,
    FaultFacts,
    HoldingFacts,
    MemberFacts,
    NeedFacts,
    PlacingFacts,
    PumpFacts,
    SiteFacts,
    StandFacts,
    SuctionFacts,
    TapFacts,
    WeatherFacts,
)
from lakewright.state.heat_facts import HeatFacts
from lakewright.state.limits import standard_limits
from lakewright.state.power_facts import PowerFacts
from lakewright.state.priming_facts import PrimingFacts
from lakewright.state.protection_facts import ProtectionFacts
from lakewright.state.season_facts import SeasonFacts
from lakewright.state.surge_facts import SurgeFacts

Numbers = dict[str, dict[str, Any]]

EXTRA: Numbers = {
    "stand": {"foot_valve": 1.0, "seats": 1.0, "hangs": 0.0},
    "suction": {
        "valves": 0.0,
        "outside": 0.063,
        "wall": 0.0058,
        "ovality": 0.05,
        "poisson": 0.45,
        "long_modulus": 150e6,
        "short_modulus": 320e6,
        "vacuum_rating": np.inf,
        "allowed_pressure": 1.1e6,
        "slope": 0.02,
        "joints": 0.0,
        "pocket_length": 0.0,
        "buried_to": -2.0,
    },
    "holding": {"at_inlet": 1.0, "at_pump": 1.0, "flooded": 0.0},
    "faults": {"line_opening": 1.0, "delivery_opening": 1.0, "airtight": 1.0},
}

# A switch beside the pump, guarded twice; a motor of 1 hp at 230 V on a large generator.
GUARDS = {
    "cut_off": 130e3,
    "guards": 1.0,
    "switch_height": 3.0,
    "at_pump": 1.0,
    "float_at": -3.0,
    "relief_flow": 2e-3,
    "winter": 1.0,
    "guarded": 1.0,
}
WIRED = {
    "rating": 746.0,
    "service_factor": 1.25,
    "said": 1.0,
    "cable": 1.0,
    "voltage": 230.0,
    "rated_voltage": 230.0,
    "table_current": 8.0,
    "running_current": 7.5,
    "start_current": 40.0,
    "length": 40.0,
    "resistance": 0.0063,
    "ampacity_60": 20.0,
    "ampacity_75": 25.0,
    "breaker": 15.0,
    "source": 12e3,
    "protected": 1.0,
}
MOST_BRAKE = 760.0
"""ours: what the sound pump asks of its motor at the end of its curve [W]."""


def wired(brake: Curve) -> PowerFacts:
    """Power of one sound job."""
    return PowerFacts(brake=brake, **given_once(WIRED))


def sound_brake(flows: Sequence[float]) -> Curve:
    """A power that rises straight over a pump's flows."""
    return straight_lines([0.0, flows[-1]], [0.5 * MOST_BRAKE, MOST_BRAKE])


DAY = 86400.0

SOUND_WINTER = {
    "emptied": 1.0,
    "hauled": 1.0,
    "suction_left": 0.0,
    "delivery_left": 0.0,
    "trench_depth": 1.6,
    "frost_depth": 1.2,
    "expansion": 1.62e-4,
    "slack": 0.05,
    "closes": 250.0 * DAY,
    "first_frost": 275.0 * DAY,
    "opens": 150.0 * DAY,
    "last_frost": 125.0 * DAY,
    "frost_spread": 9.0 * DAY,
}
"""Of a supply whose suction line is hauled and whose delivery line stays full in its trench."""
SOUND_PLACE = {
    "silt": 1.0,
    "boats": 1.0,
    "lies_still": 1.0,
    "disc_depth": 3.0,
    "lake_length": 1500.0,
    "warmest": 293.15,
}


def as_floats(rows: dict[str, Any]) -> dict[str, Any]:
    """Numbers as facts of one job."""
    return {name: np.atleast_1d(np.array(value, dtype=float)) for name, value in rows.items()}


def facts_of_numbers(job: Numbers) -> Facts:
    """One job's facts."""
    one = {table: as_floats(rows) for table, rows in job.items() if table != "pump"}
    pump = job["pump"]
    if pump["kind"] == "jet":
        table = jet_table(pump["lifts"], pump["pressures"], pump["flows"])
        facts = PumpFacts(
            np.array([pump["height"]]),
            unknown_curve(),
            unknown_curve(),
            np.array([np.nan]),
            table,
            np.array([60.0]),
        )
    else:
        facts = PumpFacts(
            np.array([pump["height"]]),
            shape_keeping(pump["flow"], pump["head"]),
            straight_lines(pump["required_flow"], pump["required"]),
            np.array([-np.max(np.diff(pump["head"]))]),
            unknown_table(),
            np.array([60.0]),
        )
    # Of what no second writing knows, a sound line: thick polyethylene, well laid, held twice.
    one = {table: {**as_floats(EXTRA.get(table, {})), **rows} for table, rows in {"holding": {}, **one}.items()}
    extra = {"cover_floor": 0.61, "bed_wanted": 0.3, "screen_velocity": 0.061, "screen_on_open": 0.0}
    extra |= {"screen_asked": 1.0, "screen_opening": 2.4e-3, "walled": 0.0}
    extra |= {"bed_friction": 0.45, "bed_roughness": 3e-4, "mud_strength": 2000.0, "grain": 3e-4}
    site = {**given_once(extra), **one["site"]}
    stand = given_once(
        {"screen_opening": 1.75e-3, "is_bare": 0.0, "on_legs": 1.0, "arm": 0.3, "rest_area": 0.1}
        | {"held": 100.0, "held_down": 20.0}
    )
    weather = {
        "wind": 15.0,
        "averaging": 600.0,
        "fetch": 1500.0,
        "fetch_depth": 6.0,
        "wake": 0.29,
        "least_current": 0.25,
    }
    line = {"material_density": 955.0, "weight_mass": 3.5, "weight_density": 7850.0}
    return Facts(
        SiteFacts(**site),
        WeatherFacts(**given_once(weather)),
        PlacingFacts(**given_once(SOUND_PLACE)),
        DayFacts(**{"current": np.full_like(one["days"]["level"], 0.1), **one["days"]}),
        StandFacts(**stand, **one["stand"]),
        sound_members(),
        SuctionFacts(**given_once({**line, "weight_spacing": 3.0, "held_depth": 2.5}), **one["suction"]),
        facts,
        DeliveryFacts(**one["delivery"]),
        TapFacts(**one["taps"]),
        HoldingFacts(**one["holding"]),
        DrinkingFacts(**given_once(SOUND_DRINKING)),
        NeedFacts(**one["need"]),
        FaultFacts(**one["faults"]),
        SeasonFacts(**given_once(SOUND_WINTER)),
        ProtectionFacts(**given_once(GUARDS)),
        wired(unknown_curve() if pump["kind"] == "jet" else sound_brake(pump["flow"])),
        standard_limits(),
        pump["kind"],
        tuple(f"day {n}" for n in range(len(job["days"]["level"]))),
        tuple(f"tap {n}" for n in range(len(job["taps"]["height"]))),
        priming=sound_priming(),
        surge=SurgeFacts(**given_once(SOUND_SURGE)),
        ejector=no_ejector(),
        heat=HeatFacts(np.array([373.0])),
        control=no_control(),
    )


# A house that drinks from filters, a lamp and chlorine, each good enough that what it leaves the next can do.
SOUND_DRINKING = {
    **{"wanted": 1.0, "herd": 0.0, "answer": 2.0, "public": 0.0, "people": 4.0, "bloom": 0.0},
    **{"turbidity": 0.8, "transmittance": 0.85, "flow": 5e-4, "held": 1.0},
    **{"filter_flow": 6e-4, "filter_giardia": 2.0, "filter_cryptosporidium": 2.0, "filter_virus": 0.0},
    **{"prefilter": 5e-6, "lamp": 1.0, "lamp_dose": 400.0, "lamp_flow": 6e-4, "lamp_transmittance": 0.75},
    **{"chlorine": 1.0, "residual": 1e-3, "contact_volume": 0.9, "baffling": 0.7, "ph": 7.5, "coldest": 274.2},
    **{"viscous": 4e6, "turbulent": 3e9, "dirt": 0.3, "per_day": 8e-6},
}
"""Pressures and sizes are invented; doses and credits as the tables count them."""
SOUND_SURGE = {"suction_speed": 40.0, "delivery_speed": 300.0, "suction_allowance": 1.0, "delivery_allowance": 1.5}
"""A suction line of soft hose, and a delivery line of polyethylene."""


def sound_priming() -> PrimingFacts:
    """A line filled by hand, that rises evenly."""
    given = {"draws_air": 0.0, "air_rate": 4e-4, "dead_head": 7.6, "casing": 4e-3, "stand_water": 2e-3}
    return PrimingFacts(**given_once(given), route_height=np.linspace(-6.0, 3.0, 25))


def sound_ejector() -> EjectorFacts:
    """One that hangs a hair under its pump, far from boiling and well primed."""
    least = straight_lines([0.0, 8.0], [2e4, 6e4])
    return EjectorFacts(*(np.array([each]) for each in (1.0, 2e-4, 1.35, 0.05, 1e5)), least)


def given_once(values: dict[str, float]) -> dict[str, Array]:
    return {name: np.array([value]) for name, value in values.items()}


def sound_members() -> MemberFacts:
    """A riser, a head, four legs and two bars of iron: a stand that no test of the flow feels."""
    pipe, bore, steel = 1.829e-3, 1.140e-3, 4.8e-4
    rows = [
        # x0, y0, z0, x1, y1, z1, width, section, hollow, material_density, drag, inertia, axial_inertia, on_bed, air
        (0.0, 0.0, 0.024, 0.0, 0.0, 0.6, 0.048, pipe, bore, 1400.0, 1.2, 2.0, 0.0, 0.0, 1.0),
        (0.0, 0.0, 0.6, 0.0, 0.0, 0.78, 0.12, 0.0113, 0.0073, 1400.0, 1.2, 2.0, 1.5, 0.0, 0.0),
        *(
            (0.0, 0.0, 0.024, 0.45 * x, 0.45 * y, 0.024, 0.048, pipe, bore, 1400.0, 1.2, 2.0, 0.0, 1.0, 0.0)
            for x, y in ((1, 0), (-1, 0), (0, 1), (0, -1))
        ),
        (0.0, -0.4, 0.02, 0.0, 0.4, 0.02, 0.05, steel, 0.0, 7850.0, 2.0, 2.0, 0.0, 1.0, 0.0),
        (-0.4, 0.0, 0.02, 0.4, 0.0, 0.02, 0.05, steel, 0.0, 7850.0, 2.0, 2.0, 0.0, 1.0, 0.0),
    ]
    return MemberFacts(*(np.array(column) for column in zip(*rows, strict=True)))


def batch_of_numbers(jobs: Sequence[Numbers]) -> Facts:
    """Many jobs of one kind of pump and one number of days as one batch, the job on the leading axis."""
    return batch_of([facts_of_numbers(job) for job in jobs])


def batch_of(singles: Sequence[Facts]) -> Facts:
    """Many jobs' facts as one batch."""
    first = singles[0]

    def table(name: str) -> Any:
        kind = type(getattr(first, name))
        return kind(
            **{
                field: stacked([getattr(getattr(f, name), field) for f in singles])
                for field in kind.__dataclass_fields__
            }
        )

    every = np.arange(len(singles))
    pump = PumpFacts(
        np.stack([f.pump.height for f in singles]),
        rows_of(stack([f.pump.curve for f in singles]), every),
        rows_of(stack([f.pump.required for f in singles]), every),
        np.stack([f.pump.fall for f in singles]),
        tables_of(stack_tables([f.pump.jet for f in singles]), every),
        np.stack([f.pump.minimum_run for f in singles]),
    )
    names = tuple(name for name in TABLES if name not in ("pump", "power"))
    tables = {name: table(name) for name in names}
    values = {name: np.stack([getattr(f.power, name) for f in singles]) for name in WIRED}
    power = PowerFacts(brake=rows_of(stack([f.power.brake for f in singles]), every), **values)
    return replace(first, **tables, pump=pump, power=power)


def stacked(values: Sequence[Any]) -> Any:
    """Arrays or curves of many jobs as one."""
    if isinstance(values[0], Curve):
        return rows_of(stack(values), np.arange(len(values)))
    return np.stack(values)


def sound() -> Facts:
    """A centrifugal job on which every check holds: the place, the pump and all numbers are invented."""
    return facts_of_numbers(sound_numbers())


def sound_jet() -> Facts:
    """A jet job on which every check that is asked of a jet holds."""
    numbers = sound_numbers()
    pump = {
        "kind": "jet",
        "height": 3.0,
        "lifts": [1.0, 3.0, 5.0, 7.0],
        "pressures": [0.0, 100e3, 200e3, 300e3, 400e3, 450e3],
        "flows": [
            [9.0e-4, 8.8e-4, 8.0e-4, 6.5e-4, 3.0e-4, 0.0],
            [8.0e-4, 7.8e-4, 7.0e-4, 5.5e-4, 1.0e-4, 0.0],
            [6.5e-4, 6.3e-4, 5.5e-4, 3.5e-4, 0.0, 0.0],
            [4.5e-4, 4.3e-4, 3.5e-4, 0.0, 0.0, 0.0],
        ],
    }
    delivery = {**numbers["delivery"], "cut_out": 320e3}
    taps = {**numbers["taps"], "flow": [1.7e-4, 1e-4], "filtered": [1.7e-4, 0.0]}
    jet = facts_of_numbers({**numbers, "pump": pump, "delivery": delivery, "taps": taps, "need": {"flow": 2.0e-4}})
    return replace(jet, ejector=sound_ejector())


CONTROLLER = {"least_flow": 5e-5, "delay": 10.0, "trickle": 3e-6, "least_speed": 0.5, "drive_share": 0.95}


def sound_by_flow() -> Facts:
    """The sound job with a controller of pressure and flow in place of its switch; all is invented."""
    return controlled(sound(), BY_FLOW)


def sound_by_speed() -> Facts:
    """The sound job with a drive that holds its pressure by speed."""
    return controlled(sound(), BY_SPEED)


def controlled(facts: Facts, kind: str) -> Facts:
    """A sound job with something else in place of its pressure switch."""
    return stored(facts) if kind == STORE else held(facts, kind, start=200e3 if kind == BY_FLOW else 170e3)


def held(facts: Facts, kind: str, start: float) -> Facts:
    """A job whose pump a controller starts and stops, on one pressure, with a little tank beside it."""
    given = {f"control.{name}": value for name, value in CONTROLLER.items()}
    given |= {"control.start": start, "delivery.cut_out": 200e3, "delivery.precharge": 160e3}
    given |= {"delivery.tank_volume": 0.1, "protection.cut_off": -np.inf}
    return replace(facts.with_values(given_once(given)), control_kind=kind)


def sound_stored() -> Facts:
    """The sound pump filling an open store on a bank, from which a booster draws."""
    return controlled(sound(), STORE)


def stored(facts: Facts) -> Facts:
    """A job whose pump fills an open store."""
    given = {"store_volume": 6.0, "per_day": 3.0, "fill_time": 43_200.0, "stops": 2.0}
    given |= {"low": 7.0, "booster_height": 6.0}
    delivery = {"height": 10.0, "cut_in": 0.0, "cut_out": 0.0, "precharge": 0.0, "tank_volume": 0.0}
    # Into an open store the sound pump would run past its curve.
    delivery |= {"tank_bears": np.inf, "relief": np.inf, "flow_control": 1.4e-3}
    values = {f"control.{name}": value for name, value in given.items()}
    values |= {f"delivery.{name}": value for name, value in delivery.items()}
    values |= {"protection.cut_off": -np.inf}
    booster = shape_keeping([0.0, 4e-4, 8e-4, 1.2e-3], [40.0, 37.0, 30.0, 18.0])
    return replace(facts.with_values({**given_once(values), "control.booster": booster}), control_kind=STORE)


def sound_numbers() -> Numbers:
    """The numbers of `sound`. Two days, one with ice; the line a little dirty, no fault."""
    return {
        "site": {
            "elevation": 300.0,
            "weather": 0.025,
            "flood": 1.0,
            "waves": 0.3,
            "cover_floor": 0.61,
            "bed_wanted": 0.3,
            "screen_velocity": 0.061,
            "screen_on_open": 0.0,
        },
        "days": {
            "level": [-0.3, 0.1],
            "temperature": [290.0, 274.5],
            "ice": [0.0, 0.5],
            "dirt": [0.3, 0.2],
            "demand": [1.0, 0.8],
        },
        "stand": {
            "depth": 6.0,
            "frame": 0.3,
            "riser": 0.6,
            "inlet_rise": 0.3,
            "sink": 0.05,
            "riser_bore": 0.053,
            "valve_coefficient": 2.0,
            "valve_lift_factor": 20.0,
            "opening_pressure": 2500.0,
            "screen_area": 0.2,
            "screen_structure": 0.9,
            "screen_open": 0.5,
        },
        "suction": {
            "bed_length": 25.0,
            "bank_length": 5.0,
            "along": 0.05,
            "bore": 0.053,
            "roughness": 3e-6,
            "roughness_fouled": 1e-4,
            "coefficient": 4.0,
        },
        "pump": {
            "kind": "centrifugal",
            "height": 3.0,
            "flow": [0.0, 4e-4, 8e-4, 1.2e-3, 1.6e-3],
            "head": [52.0, 49.0, 43.0, 32.0, 16.0],
            "required_flow": [2e-4, 8e-4, 1.6e-3],
            "required": [1.0, 1.3, 2.2],
        },
        "delivery": {
            "bore": 0.041,
            "length": 60.0,
            "roughness": 3e-6,
            "roughness_fouled": 1e-4,
            "coefficient": 8.0,
            "height": 5.0,
            "cut_in": 200e3,
            "cut_out": 340e3,
            "precharge": 186e3,
            "tank_volume": 0.4,
            "flow_control": 1.0,
            "filters_clean": 3e3,
            "filters_dirty": 3.6e4,
            "relief": 480e3,
            "tank_bears": 690e3,
            "pipe_bears": 1100e3,
        },
        # The house is the tap that lacks most; the dock lies low and its water is raw.
        "taps": {
            "height": [6.0, 1.0],
            "flow": [5e-4, 3e-4],
            "filtered": [5e-4, 0.0],
            "length": [10.0, 40.0],
            "bore": [0.0266, 0.0266],
            "roughness": [5e-5, 5e-5],
            "least": [55e3, 55e3],
            "easy": [138e3, 90e3],
        },
        "need": {"flow": 6e-4},
        "faults": {
            "blocked": 0.05,
            "valve_opening": 1.0,
            "air": 0.0,
            "wear": 0.0,
            "speed": 1.0,
            "nozzle": 1.0,
            "level_offset": 0.0,
        },
    }


def rows_of_facts(facts: Facts, index: NDArray[np.intp] | int) -> Facts:
    """Some rows of a batch with one leading axis, as a batch; a plain number gives one job without that axis."""

    def picked(part: Any) -> Any:
        if isinstance(part, Curve | JetTable):
            return type(part)(*(picked(getattr(part, f.name)) for f in fields(part)))
        return np.ascontiguousarray(part[index])

    def table(name: str) -> Any:
        whole = getattr(facts, name)
        return type(whole)(*(picked(getattr(whole, f.name)) for f in fields(whole)))

    return replace(facts, **{name: table(name) for name in TABLES})


def blocks_of(state: Any) -> Iterator[tuple[str, Any]]:
    """Every array of every block, by dotted name."""
    for block in fields(state):
        whole = getattr(state, block.name)
        for field in fields(whole):
            yield f"{block.name}.{field.name}", getattr(whole, field.name)


POOL = 400
"""Different shapes of pump in a generated batch; each row stretches one of them to its own size."""

MOODS = ("ordinary", "ordinary", "shut-off", "run-out", "slow")


def random_batch(seed: int, count: int, kind: str, days: int = 1) -> Facts:
    """Many made-up jobs at once, one a row, over the ranges of `plain.random_job` and a little past them.

    A fifth is near shut-off, a fifth at or near run-out, a fifth slow enough for its pipes to run between laminar
    and turbulent; one pump in eight droops. Places and pumps are invented; the ranges are ours.
    """
    draw = Draw(np.random.default_rng([seed, count, days, len(kind)]), count)
    mood = draw.random.integers(len(MOODS), size=(count, 1))
    slow, run_out, shut_off = (np.array([m == name for m in MOODS])[mood] for name in ("slow", "run-out", "shut-off"))
    height = draw.between(0.5, 3.5)
    pump, most_head = (random_jets if kind == "jet" else random_centrifugals)(draw, seed, slow)
    pump = replace(pump, height=height)
    if kind == "jet":
        most_head = most_head + height
    most_flow = most_of(pump.jet) if kind == "jet" else pump.curve.last
    share = np.where(shut_off, draw.between(0.93, 1.03), draw.between(0.45, 0.9))
    share = np.where(run_out, draw.between(0.15, 0.4), np.where(slow, draw.between(0.3, 0.95), share))
    return Facts(
        SiteFacts(
            elevation=draw.between(0.0, 2500.0) * draw.some(0.7),
            weather=draw.between(0.0, 0.04),
            flood=draw.between(0.3, 2.5),
            waves=draw.between(0.0, 0.6),
            walled=draw.some(0.2),
            cover_floor=draw.between(0.3, 0.9),
            bed_wanted=draw.between(0.3, 0.6),
            screen_velocity=draw.between(0.03, 0.15),
            screen_on_open=draw.some(0.5),
            screen_asked=draw.some(0.8),
            screen_opening=draw.either(0.3, np.inf, draw.between(1.7e-3, 2.6e-3)),
            bed_friction=draw.between(0.2, 0.45),
            bed_roughness=draw.decades(5e-6, 4e-2),
            mud_strength=draw.either(0.5, np.inf, draw.decades(200.0, 5000.0)),
            grain=draw.either(0.5, np.inf, draw.decades(3e-5, 0.02)),
        ),
        WeatherFacts(
            wind=draw.between(0.0, 30.0),
            averaging=draw.decades(3.0, 3600.0),
            fetch=draw.decades(50.0, 20e3) * draw.some(0.8),
            fetch_depth=draw.between(1.0, 30.0),
            wake=draw.between(0.1, 0.5) * draw.some(0.5),
            least_current=draw.between(0.05, 0.3),
        ),
        PlacingFacts(
            silt=draw.some(0.5),
            boats=draw.some(0.5),
            lies_still=draw.some(0.8),
            disc_depth=draw.between(0.5, 12.0),
            lake_length=draw.decades(100.0, 5e3),
            warmest=draw.between(280.0, 301.0),
        ),
        DayFacts(
            level=draw.between(-4.0, 2.0, days),
            temperature=plain.ICE_POINT + draw.between(0.2, 28.0, days),
            ice=draw.between(0.05, 0.9, days) * draw.some(0.4, days),
            dirt=draw.between(0.0, 0.9, days) * draw.some(0.7, days),
            demand=draw.between(0.0, 1.5, days),
            current=draw.between(0.0, 1.5, days) * draw.some(0.3, days),
        ),
        random_stands(draw, slow),
        random_members(draw),
        SuctionFacts(
            bed_length=draw.decades(2.0, 110.0),
            bank_length=draw.decades(0.5, 70.0),
            along=draw.between(0.0, 0.08) * draw.some(0.7),
            bore=np.where(slow, draw.between(0.035, 0.080), draw.between(0.020, 0.080)),
            roughness=(clean := draw.decades(1e-6, 1e-4)),
            roughness_fouled=clean * draw.decades(1.0, 3.0),
            coefficient=draw.between(0.0, 12.0),
            **random_walls(draw),
            material_density=draw.between(940.0, 1400.0),
            weight_mass=draw.between(0.0, 8.0),
            weight_density=draw.either(0.5, 7850.0, draw.between(2200.0, 2400.0)),
            weight_spacing=draw.between(1.5, 4.0),
            held_depth=draw.either(0.2, np.inf, draw.between(0.0, 4.0)),
        ),
        pump,
        (delivery := random_deliveries(draw, run_out, slow, height, share * most_head)),
        random_taps(draw, delivery, (need := most_flow * draw.between(0.1, 0.9))),
        HoldingFacts(draw.some(0.7), draw.some(0.7), draw.some(0.2)),
        random_drinking(draw),
        NeedFacts(need),
        FaultFacts(
            blocked=draw.between(0.0, 0.8) * draw.some(0.25),
            valve_opening=draw.either(0.25, 1.0, draw.between(0.25, 1.0)),
            air=draw.between(0.0, 0.2) * draw.some(0.25),
            wear=draw.between(0.0, 0.3) * draw.some(0.25),
            speed=draw.either(0.25, 1.0, draw.between(0.8, 1.1)),
            nozzle=draw.either(0.25, 1.0, draw.between(0.5, 1.0)),
            level_offset=draw.between(-1.0, 0.5) * draw.some(0.25),
            line_opening=draw.either(0.25, 1.0, draw.between(0.2, 1.0)),
            delivery_opening=draw.either(0.25, 1.0, draw.between(0.2, 1.0)),
            airtight=draw.either(0.25, 1.0, draw.between(0.0, 1.0)),
        ),
        random_winters(draw),
        random_guards(draw),
        random_power(draw, pump),
        standard_limits(),
        kind,
        tuple(f"day {n}" for n in range(days)),
        TAP_NAMES,
        priming=random_priming(draw, height),
        surge=SurgeFacts(
            suction_speed=draw.decades(40.0, 1400.0),
            delivery_speed=draw.decades(150.0, 1400.0),
            suction_allowance=draw.either(0.5, 1.0, draw.between(1.0, 2.0)),
            delivery_allowance=draw.either(0.5, 1.0, draw.between(1.0, 2.0)),
        ),
        ejector=random_ejectors(draw, kind),
        heat=HeatFacts(draw.decades(200.0, 3000.0)),
        control=random_control(draw),
    )


def random_ejectors(draw: Draw, kind: str) -> EjectorFacts:
    """Ejectors of some jets, and of no centrifugal."""
    is_jet = float(kind == "jet")
    ends = [0.0, 9.0]
    least = [straight_lines(ends, [is_jet * 1e3 * (n % 90), is_jet * 1e5]) for n in range(draw.count)]
    return EjectorFacts(
        fitted=is_jet * draw.some(0.6),
        annulus=draw.decades(5e-5, 5e-4),
        cavitation=draw.between(0.8, 1.7),
        below=is_jet * draw.between(0.0, 0.5) * draw.some(0.5),
        outlet_held=draw.between(0.0, 2e5) * draw.some(0.5),
        least_outlet=stacked(least),
    )


def random_priming(draw: Draw, pump_height: Array) -> PrimingFacts:
    """Lines that rise, dip and rise again to their pumps."""
    share = np.linspace(0.0, 1.0, 25)
    dips = draw.between(0.0, 0.6) * np.sin(9.0 * share)
    return PrimingFacts(
        draws_air=draw.some(0.5),
        air_rate=draw.decades(4e-5, 5e-4),
        dead_head=draw.between(5.0, 8.0),
        casing=draw.between(1e-3, 8e-3),
        stand_water=draw.between(5e-4, 5e-3),
        route_height=-4.0 + (pump_height + 4.0) * share + dips,
    )


def random_winters(draw: Draw) -> SeasonFacts:
    """Lines that are hauled, drained or stay full, with and without dates."""
    return SeasonFacts(
        emptied=draw.some(0.6),
        hauled=draw.some(0.4),
        suction_left=draw.between(0.0, 3.0) * draw.some(0.4),
        delivery_left=draw.between(0.0, 3.0) * draw.some(0.4),
        trench_depth=draw.either(0.4, np.inf, draw.between(0.0, 2.5)),
        frost_depth=draw.between(0.0, 2.0),
        expansion=draw.either(0.3, 0.0, draw.between(1e-5, 2e-4)),
        slack=draw.between(0.0, 0.1),
        closes=draw.either(0.4, np.inf, draw.between(240.0 * DAY, 300.0 * DAY)),
        first_frost=draw.between(250.0 * DAY, 300.0 * DAY),
        opens=draw.either(0.4, np.inf, draw.between(100.0 * DAY, 160.0 * DAY)),
        last_frost=draw.between(90.0 * DAY, 150.0 * DAY),
        frost_spread=draw.between(0.0, 15.0 * DAY),
    )


def random_control(draw: Draw) -> ControlFacts:
    """Controllers and stores, some of them short of everything; a batch that has neither does not read them."""
    boosters = rows_of(stack([straight_lines([0.0, 1.0], [30.0, 12.0])]), np.zeros(draw.count, dtype=np.intp))
    low = draw.between(0.0, 12.0)
    return ControlFacts(
        start=draw.between(1e5, 3e5),
        least_flow=draw.decades(5e-6, 1e-4),
        delay=draw.between(0.0, 30.0),
        trickle=draw.decades(1e-7, 1e-4) * draw.some(0.9),
        least_speed=draw.between(0.3, 0.8),
        drive_share=draw.between(0.85, 0.98),
        store_volume=draw.between(0.2, 6.0),
        per_day=draw.between(0.3, 8.0),
        fill_time=draw.between(3600.0, 80_000.0),
        stops=draw.some(0.8) + draw.some(0.8),
        low=low,
        booster=stretched_curve(boosters, draw.decades(3e-4, 3e-3), draw.between(0.3, 1.5)),
        booster_height=low - draw.between(-0.5, 2.0),
    )


def random_controlled(seed: int, count: int, control: str, days: int = 1) -> Facts:
    """The same as `random_batch` of centrifugal pumps, with something else in place of their switches."""
    facts = random_batch(seed, count, "centrifugal", days)
    delivery = facts.delivery
    held = 0.0 * delivery.cut_in if control == STORE else delivery.cut_in
    return replace(facts, delivery=replace(delivery, cut_in=held, cut_out=held), control_kind=control)


def random_guards(draw: Draw) -> ProtectionFacts:
    return ProtectionFacts(
        cut_off=draw.either(0.3, -np.inf, draw.between(3e4, 2.5e5)),
        guards=draw.some(0.5),
        switch_height=draw.between(0.0, 12.0),
        at_pump=draw.some(0.4),
        float_at=draw.either(0.7, -np.inf, draw.between(-6.0, 0.0)),
        relief_flow=draw.decades(2e-4, 3e-3),
        winter=draw.some(0.5),
        guarded=draw.some(0.7),
    )


def random_power(draw: Draw, pump: PumpFacts) -> PowerFacts:
    current = draw.between(3.0, 20.0)
    brake = rows_of(stack([sound_brake([1.0])]), np.zeros(draw.count, dtype=np.intp))
    wide = np.where(np.isnan(pump.curve.last), 1.0, pump.curve.last)
    carries = draw.between(12.0, 60.0)
    return PowerFacts(
        rating=draw.between(300.0, 2500.0),
        service_factor=draw.either(0.3, 1.0, draw.between(1.1, 1.6)),
        brake=stretched_curve(brake, wide, draw.between(0.5, 3.0)),
        said=draw.some(0.8),
        cable=draw.some(0.7),
        voltage=draw.between(110.0, 245.0),
        rated_voltage=draw.either(0.4, 0.0, draw.between(110.0, 245.0)),
        table_current=current,
        running_current=current * draw.between(0.7, 1.1),
        start_current=current * draw.between(4.0, 7.0),
        length=draw.between(3.0, 250.0),
        resistance=draw.decades(1e-3, 1e-2),
        ampacity_60=carries,
        ampacity_75=carries * draw.between(1.1, 1.3),
        breaker=draw.between(15.0, 40.0) * draw.some(0.6),
        source=draw.either(0.6, np.inf, draw.between(1e3, 15e3)),
        protected=draw.some(0.7),
    )


class Draw:
    """Columns of made-up numbers, one row a job."""

    def __init__(self, random: np.random.Generator, count: int) -> None:
        self.random, self.count = random, count

    def between(self, low: float, high: float, width: int = 1) -> Array:
        return self.random.uniform(low, high, (self.count, width))

    def decades(self, low: float, high: float) -> Array:
        return np.exp(self.random.uniform(np.log(low), np.log(high), (self.count, 1)))

    def some(self, share: float, width: int = 1) -> Array:
        """1 in about that share of rows, else 0."""
        return (self.random.random((self.count, width)) < share).astype(float)

    def either(self, share: float, neutral: float, moved: Array) -> Array:
        return np.where(self.some(share) > 0.0, moved, neutral)


def random_stands(draw: Draw, slow: NDArray[np.bool_]) -> StandFacts:
    # (coefficients, lift factor, opening pressures): none, poppet, poppet with spring, hinged, spring alone
    valves = np.array(
        [
            (0.0, 0.0, 0.0, 0.0, 0.0),
            (7.0, 12.0, 20.0, 0.0, 0.0),
            (5.0, 12.0, 20.0, 1000.0, 8000.0),
            (1.2, 2.0, 45.0, 0.0, 0.0),
            (2.0, 6.0, 0.0, 1000.0, 5000.0),
        ]
    )[draw.random.integers(5, size=draw.count)]
    return StandFacts(
        depth=draw.between(3.0, 9.0),
        frame=draw.between(0.2, 0.7),
        riser=draw.between(0.2, 1.5),
        inlet_rise=draw.between(0.1, 0.4),
        sink=draw.between(0.0, 0.15) * draw.some(0.5),
        riser_bore=np.where(slow, draw.between(0.040, 0.080), draw.between(0.020, 0.080)),
        valve_coefficient=valves[:, :1] + (valves[:, 1:2] - valves[:, :1]) * draw.between(0.0, 1.0),
        valve_lift_factor=np.ascontiguousarray(valves[:, 2:3]),
        opening_pressure=valves[:, 3:4] + (valves[:, 4:5] - valves[:, 3:4]) * draw.between(0.0, 1.0),
        screen_area=draw.between(0.02, 0.4),
        screen_structure=draw.between(0.8, 1.0),
        screen_open=draw.between(0.3, 0.7),
        screen_opening=draw.between(1.0e-3, 4.0e-3),
        is_bare=draw.some(0.2),
        foot_valve=draw.some(0.8),
        seats=draw.some(0.8),
        hangs=draw.some(0.3),
        on_legs=draw.some(0.8),
        arm=draw.between(0.2, 0.5),
        rest_area=draw.between(0.03, 0.3),
        held=draw.between(0.0, 600.0) * draw.some(0.5),
        held_down=draw.between(0.0, 200.0) * draw.some(0.3),
    )


def random_walls(draw: Draw) -> dict[str, Array]:
    """Walls from lay-flat to steel, and lines laid well and badly."""
    outside, hose = draw.between(0.025, 0.1), draw.some(0.2)
    return {
        "valves": draw.some(0.3),
        "outside": outside,
        "wall": outside * draw.between(0.02, 0.12),
        "ovality": draw.between(0.0, 0.08),
        "poisson": draw.between(0.3, 0.45),
        "long_modulus": np.where(hose > 0.0, np.inf, draw.decades(1e8, 2e9)),
        "short_modulus": np.where(hose > 0.0, np.inf, draw.decades(3e8, 4e9)),
        "vacuum_rating": np.where(hose > 0.0, draw.either(0.2, 0.0, draw.between(4e4, 1e5)), np.inf),
        "allowed_pressure": draw.between(3e5, 2e6),
        "slope": draw.between(-0.01, 0.05),
        "joints": draw.some(0.3),
        "pocket_length": draw.between(0.0, 10.0) * draw.some(0.4),
        "buried_to": draw.between(-4.0, 0.0),
    }


def random_members(draw: Draw) -> MemberFacts:
    """The sound stand, each row larger or smaller."""
    size = draw.between(0.7, 1.4)
    powers = {"x0": 1, "y0": 1, "z0": 1, "x1": 1, "y1": 1, "z1": 1, "width": 1, "section": 2, "hollow": 2}
    return MemberFacts(**{name: value * size ** powers.get(name, 0) for name, value in vars(sound_members()).items()})


def random_deliveries(
    draw: Draw, run_out: NDArray[np.bool_], slow: NDArray[np.bool_], pump_height: Array, asked_head: Array
) -> DeliveryFacts:
    height = pump_height + asked_head * draw.between(0.0, 0.5)
    cut_out = np.maximum(asked_head - height, 3.0) * (1000.0 * GRAVITY)
    cut_in = cut_out * draw.between(0.45, 0.8)
    clean = draw.decades(1e-6, 1e-4)
    return DeliveryFacts(
        bore=np.where(run_out | slow, draw.between(0.040, 0.080), draw.between(0.015, 0.080)),
        length=np.where(run_out, draw.decades(5.0, 60.0), draw.decades(5.0, 300.0)),
        roughness=clean,
        roughness_fouled=clean * draw.decades(1.0, 3.0),
        coefficient=draw.between(1.0, 15.0),
        height=height,
        cut_in=cut_in,
        cut_out=cut_out,
        precharge=cut_in * draw.between(0.7, 1.0),
        tank_volume=draw.between(0.02, 0.5),
        flow_control=np.full((draw.count, 1), np.inf),
        filters_clean=(filters := draw.between(0.0, 4e4) * draw.some(0.7)),
        filters_dirty=filters * draw.between(1.0, 4.0),
        relief=draw.either(0.5, np.inf, cut_out * draw.between(1.05, 1.6)),
        tank_bears=draw.between(500e3, 1000e3),
        pipe_bears=draw.between(400e3, 1700e3),
    )


def random_drinking(draw: Draw) -> DrinkingFacts:
    """Barriers good and bad, there and not there."""
    flow = draw.between(1e-4, 9e-4)
    return DrinkingFacts(
        **{name: draw.some(0.7) for name in ("wanted", "held", "lamp", "chlorine")},
        **{name: draw.some(0.2) for name in ("herd", "public", "bloom")},
        answer=np.round(draw.between(-1.4, 2.4)),
        people=np.round(draw.between(1.0, 40.0)),
        turbidity=draw.between(0.0, 8.0),
        transmittance=draw.between(0.5, 1.0),
        flow=flow,
        filter_flow=draw.either(0.2, np.inf, flow * draw.between(0.8, 2.0)),
        filter_giardia=2.0 * draw.some(0.5),
        filter_cryptosporidium=2.0 * draw.some(0.5),
        filter_virus=0.5 * draw.some(0.2),
        prefilter=draw.either(0.2, np.inf, 1e-6 * np.round(draw.between(1.0, 20.0))),
        lamp_dose=draw.between(100.0, 2000.0),
        lamp_flow=flow * draw.between(0.8, 2.0),
        lamp_transmittance=draw.between(0.6, 0.9),
        residual=draw.between(2e-4, 3e-3),
        contact_volume=draw.between(0.05, 2.0),
        baffling=draw.between(0.0, 1.0),
        ph=draw.between(6.0, 9.0),
        coldest=draw.either(0.6, np.inf, draw.between(273.2, 290.0)),
        viscous=draw.between(1e6, 3e7) * draw.some(0.8),
        turbulent=draw.between(1e9, 1e10) * draw.some(0.8),
        dirt=draw.either(0.5, np.inf, draw.between(0.02, 0.5)),
        per_day=draw.between(2e-6, 3e-5),
    )


TAP_NAMES = ("the house", "the dock", "the barn")


def random_taps(draw: Draw, delivery: DeliveryFacts, need: Array) -> TapFacts:
    """Three branches, one of them of the house, the others at most as thirsty."""
    many = len(TAP_NAMES)
    flow = need * draw.between(0.1, 1.0, many)
    least = draw.between(3e4, 1.5e5, many)
    return TapFacts(
        height=delivery.height + draw.between(-6.0, 12.0, many),
        flow=flow,
        filtered=flow * draw.some(0.5, many),
        length=draw.between(0.0, 100.0, many) * draw.some(0.8, many),
        bore=draw.between(0.012, 0.04, many),
        roughness=draw.between(1e-6, 1e-4, many),
        least=least,
        easy=least + draw.between(2e4, 9e4, many),
    )


def random_centrifugals(draw: Draw, seed: int, slow: NDArray[np.bool_]) -> tuple[PumpFacts, Array]:
    """Pumps, and their heads at rest [m]."""
    shapes = []
    for n in range(POOL):
        rng = random.Random(f"pump {seed} {n}")
        shape = plain.random_centrifugal(rng, "ordinary")[0]
        if n % 8 == 0:
            # A droop: the first point a little under the second.
            shape["head"][0] = shape["head"][1] - rng.uniform(0.0, 0.02) * shape["head"][1]
        shapes.append(shape)
    pick = draw.random.integers(POOL, size=draw.count)
    run_out = np.where(slow, draw.between(1.5e-4, 4.5e-4), draw.decades(6e-4, 6e-3))
    widest = np.array([[shape["flow"][-1]] for shape in shapes])[pick]
    wide, tall = run_out / widest, draw.between(0.6, 1.5)
    curve = rows_of(stack([shape_keeping(s["flow"], s["head"]) for s in shapes]), pick)
    required = rows_of(stack([straight_lines(s["required_flow"], s["required"]) for s in shapes]), pick)
    fall = np.array([[-np.max(np.diff(shape["head"]))] for shape in shapes])[pick]
    stretched = stretched_curve(curve, wide, tall)
    pump = PumpFacts(
        height=np.zeros((draw.count, 1)),
        curve=stretched,
        required=stretched_curve(required, wide, draw.between(0.7, 1.3)),
        fall=fall * tall,
        jet=tables_of(stack_tables([unknown_table()]), np.zeros(draw.count, dtype=np.intp)),
        minimum_run=np.where(draw.some(0.5) > 0.0, 60.0, 120.0),
    )
    return pump, np.ascontiguousarray(stretched.c0[:, :1])


def stretched_curve(curve: Curve, wide: Array, tall: Array) -> Curve:
    """A curve with its flows and its heads multiplied."""
    return Curve(
        curve.starts * wide,
        curve.breaks * wide,
        curve.c0 * tall,
        curve.c1 * (tall / wide),
        curve.c2 * (tall / wide**2),
        curve.c3 * (tall / wide**3),
        curve.first * wide,
        curve.last * wide,
    )


def random_jets(draw: Draw, seed: int, slow: NDArray[np.bool_]) -> tuple[PumpFacts, Array]:
    """Jets, and the pressures at which their middle rows die, in metres above themselves."""
    made = [plain.random_jet(random.Random(f"jet {seed} {n}"), "ordinary") for n in range(POOL)]
    pick = draw.random.integers(POOL, size=draw.count)
    most = np.array([[flow] for _, flow, _ in made])[pick]
    wide, strong = (
        np.where(slow, draw.between(1.5e-4, 3.5e-4), draw.decades(3e-4, 1.5e-3)) / most,
        draw.between(0.8, 1.2),
    )
    tables = stack_tables([jet_table(s["lifts"], s["pressures"], s["flows"]) for s, _, _ in made])
    blank = rows_of(stack([unknown_curve()]), np.zeros(draw.count, dtype=np.intp))
    pump = PumpFacts(
        height=np.zeros((draw.count, 1)),
        curve=blank,
        required=blank,
        fall=np.full((draw.count, 1), np.nan),
        jet=stretched_table(tables_of(tables, pick), wide, strong),
        minimum_run=np.where(draw.some(0.5) > 0.0, 60.0, 120.0),
    )
    return pump, np.array([[head] for _, _, head in made])[pick] * strong


def most_of(table: JetTable) -> Array:
    """The most flow in a table of flows that fall with lift and pressure."""
    most: Array = np.max(table.a, axis=-1, keepdims=True)
    return most


def stretched_table(table: JetTable, wide: Array, strong: Array) -> JetTable:
    """A jet's table with its flows and its pressures multiplied."""
    pressures = (f.name for f in fields(table) if "pressure" in f.name or "shut_off" in f.name)
    return replace(
        table,
        **{name: getattr(table, name) * strong for name in pressures},
        a=table.a * wide,
        b=table.b * wide,
        c=table.c * (wide / strong),
        d=table.d * (wide / strong),
    )
