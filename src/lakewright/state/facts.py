"""The job as numbers in SI. Every later number comes from here; what is missing is nan, and has a name."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass, fields, replace
from typing import Any

import numpy as np

from lakewright.physics.curve import Curve
from lakewright.physics.jet import JetTable
from lakewright.physics.types import Array
from lakewright.state.control_facts import SWITCH, ControlFacts
from lakewright.state.drinking_facts import DrinkingFacts
from lakewright.state.ejector_facts import EjectorFacts
from lakewright.state.heat_facts import HeatFacts
from lakewright.state.limits import Limits
from lakewright.state.placing_facts import PlacingFacts
from lakewright.state.power_facts import PowerFacts
from lakewright.state.priming_facts import PrimingFacts
from lakewright.state.protection_facts import ProtectionFacts
from lakewright.state.season_facts import SeasonFacts
from lakewright.state.surge_facts import SurgeFacts


@dataclass(frozen=True, eq=False, repr=False)
class SiteFacts:
    elevation: Array  # m above the sea
    weather: Array  # share of the atmosphere's pressure lost in a deep low
    flood: Array  # m, highest water
    waves: Array  # m, run-up on the bank above it
    walled: Array  # 1 where a tank's walls keep its water from the pump, 0 where it may rise to it
    cover_floor: Array  # m, cover that practice asks over the inlet here
    bed_wanted: Array  # m, clearance that this bed asks
    screen_velocity: Array  # m/s, the chosen screen rule
    screen_on_open: Array  # 1 when that rule is on the open area, 0 on the effective area
    screen_asked: Array  # 1 where a rule asks for a screen, 0 where none is in force
    screen_opening: Array  # m, the widest opening that rule allows; infinite where it names none
    bed_friction: Array  # of a stand or a line on the bed
    bed_roughness: Array  # m, height over the bed at which a current comes to rest
    mud_strength: Array  # Pa, undrained; infinite on a firm bed
    grain: Array  # m, of a bed that moves by the grain; infinite on one that does not


@dataclass(frozen=True, eq=False, repr=False)
class WeatherFacts:
    """What raises waves and current. Nothing of it where no stand stands on the bed."""

    wind: Array  # m/s, at 10 m
    averaging: Array  # s, over which that wind was averaged
    fetch: Array  # m, of open water to windward
    fetch_depth: Array  # m, mean along the fetch, at the usual level
    wake: Array  # m, height of the waves of passing boats
    least_current: Array  # m/s, that a lake may run along its bed without anyone having measured it


@dataclass(frozen=True, eq=False, repr=False)
class DayFacts:
    level: Array  # m, one a day on the last axis, as all of these
    temperature: Array  # K
    ice: Array  # m
    dirt: Array  # share of the screen blocked when fouled
    demand: Array  # share of the need
    current: Array  # m/s, of the stream past the stand, mean over the depth


@dataclass(frozen=True, eq=False, repr=False)
class StandFacts:
    depth: Array  # m, of the bed at the stand
    frame: Array  # m, height of the frame's pipe over the bed
    riser: Array  # m
    inlet_rise: Array  # m, height of valve and screen over the riser
    sink: Array  # m, how far it settles
    riser_bore: Array  # m
    valve_coefficient: Array
    valve_lift_factor: Array  # m/s (kg/m3)^1/2
    opening_pressure: Array  # Pa
    screen_area: Array  # m2, gross
    screen_structure: Array  # share not behind structure
    screen_open: Array  # share
    screen_opening: Array  # m, width of a slot or diameter of a hole
    is_bare: Array  # 1 for a foot valve's own strainer alone, 0 with a screen
    foot_valve: Array  # 1 with a foot valve, 0 with a screen alone
    seats: Array  # 1 where the valve is made to shut as it is mounted, else 0
    hangs: Array  # 1 where its weight shuts it, or there is none to shut; 0 where only a spring does
    on_legs: Array  # 1 for a stand on the bed, 0 for an inlet that hangs, floats or stands in a box
    arm: Array  # m, from under the riser to the nearest edge it can tip over
    rest_area: Array  # m2 that rests on the bed, as so many square pads
    held: Array  # N, level force that pins and tether take
    held_down: Array  # N, upward force that pins take


@dataclass(frozen=True, eq=False, repr=False)
class MemberFacts:
    """The stand as straight members, one a member on the last axis; see `physics.members.Members`."""

    x0: Array  # m, start of the axis; x toward the shore, z over the bed
    y0: Array
    z0: Array
    x1: Array  # m, its end
    y1: Array
    z1: Array
    width: Array  # m, across the flow
    section: Array  # m2, of the outside
    hollow: Array  # m2, of the bore
    material_density: Array  # kg/m3
    drag: Array  # coefficient in a steady flow
    inertia: Array  # coefficient across
    axial_inertia: Array  # coefficient along
    on_bed: Array  # 1 for what lies there
    holds_air: Array  # share of the hollow that air may fill, 0 where it floods


@dataclass(frozen=True, eq=False, repr=False)
class SuctionFacts:
    bed_length: Array  # m
    bank_length: Array  # m
    along: Array  # share added for wander
    bore: Array  # m
    roughness: Array  # m
    roughness_fouled: Array  # m
    coefficient: Array  # all fittings, on line velocity
    valves: Array  # that stand open in it
    outside: Array  # m
    wall: Array  # m, least
    ovality: Array  # share
    poisson: Array
    long_modulus: Array  # Pa for years, as warm as the wall gets; infinite where a printed vacuum decides
    short_modulus: Array  # Pa for a run
    vacuum_rating: Array  # Pa below the air, as warm as it gets; infinite where the wall decides
    allowed_pressure: Array  # Pa gauge for years, as warm as it gets, with the ends it has
    slope: Array  # m/m, least rise toward the pump above the lowest water
    joints: Array  # between the lowest waterline and the pump
    pocket_length: Array  # m of line below the water that lies higher than a place nearer the pump
    buried_to: Array  # m, height of the bed where the trench ends; minus infinity where no line stays for the winter
    material_density: Array  # kg/m3, of its wall
    weight_mass: Array  # kg, of each weight on it, in air
    weight_density: Array  # kg/m3
    weight_spacing: Array  # m
    held_depth: Array  # m, of the bed below the usual level, from which outward it lies free; infinite for none of it


@dataclass(frozen=True, eq=False, repr=False)
class PumpFacts:
    height: Array  # m
    curve: Curve  # head [m] over flow [m3/s]; blank for a jet
    required: Curve  # required net suction head [m] over flow; blank for a jet
    fall: Array  # m, smallest fall of head between neighbouring points of the curve
    jet: JetTable  # blank for a centrifugal
    minimum_run: Array  # s, shortest run this motor bears


@dataclass(frozen=True, eq=False, repr=False)
class DeliveryFacts:
    bore: Array  # m
    length: Array  # m
    roughness: Array  # m
    roughness_fouled: Array  # m
    coefficient: Array  # all fittings and the exit
    height: Array  # m, of the tank's tee
    cut_in: Array  # Pa gauge
    cut_out: Array  # Pa gauge
    precharge: Array  # Pa gauge
    tank_volume: Array  # m3
    flow_control: Array  # m3/s that a flow control valve holds; infinite without one
    filters_clean: Array  # Pa lost in the filters when clean, at the need
    filters_dirty: Array  # Pa, when they are due for changing
    relief: Array  # Pa gauge at which the relief valve opens; infinite without one
    tank_bears: Array  # Pa gauge, the most the tank may hold
    pipe_bears: Array  # Pa gauge, the most the line from pump to tank may hold, as warm as it gets


@dataclass(frozen=True, eq=False, repr=False)
class TapFacts:
    """The highest tap of every branch, one a branch on the last axis."""

    height: Array  # m
    flow: Array  # m3/s
    filtered: Array  # m3/s through the filters while it runs; none of a raw branch
    length: Array  # m, of its pipe from the tank
    bore: Array  # m
    roughness: Array  # m, of a pipe some years old
    least: Array  # Pa gauge, that it wants
    easy: Array  # Pa gauge, with which nobody complains


@dataclass(frozen=True, eq=False, repr=False)
class HoldingFacts:
    """What holds the water while the pump rests."""

    at_inlet: Array  # 1 where a foot valve holds, else 0
    at_pump: Array  # 1 where a check valve at the pump holds, else 0
    flooded: Array  # 1 where the water is to run to the pump by itself, else 0


@dataclass(frozen=True, eq=False, repr=False)
class NeedFacts:
    flow: Array  # m3/s


@dataclass(frozen=True, eq=False, repr=False)
class FaultFacts:
    """What may be wrong. Neutral unless a job says so, or until faults are looked for."""

    blocked: Array  # share of the screen, besides the day's dirt
    valve_opening: Array  # share of the full opening
    air: Array  # share of what the pump moves that is air
    wear: Array  # share of head lost
    speed: Array  # ratio to rated speed (low voltage, wrong frequency)
    nozzle: Array  # share of the jet's flow left by a plugged nozzle
    level_offset: Array  # m, the water stands that much off what was said
    line_opening: Array  # share of the suction line's section left open at its narrowest place
    delivery_opening: Array  # share of the delivery line's section left open at its narrowest place
    airtight: Array  # share of its standing vacuum that the suction line keeps


TABLES = (
    *("site", "weather", "placing", "days", "stand", "members", "suction"),
    *("pump", "delivery", "taps", "holding", "drinking", "need", "faults"),
    "season",
    *("protection", "power"),
    *("priming", "surge", "ejector", "heat"),
    "control",
)
KINDS = (
    *(SiteFacts, WeatherFacts, PlacingFacts, DayFacts, StandFacts, MemberFacts, SuctionFacts),
    *(PumpFacts, DeliveryFacts, TapFacts, HoldingFacts, DrinkingFacts, NeedFacts, FaultFacts),
    SeasonFacts,
    *(ProtectionFacts, PowerFacts),
    *(PrimingFacts, SurgeFacts, EjectorFacts, HeatFacts),
    ControlFacts,
)

PICKED_TABLES = ("members", "priming", "surge", "ejector", "heat", "protection", "power")
"""Tables that only checks of what is picked read: a search leaves them as they are, and the pick has its own."""


@dataclass(frozen=True, eq=False, repr=False)
class Facts:
    """All facts of one job, or of a batch of designs or samples of it.

    Arrays have a last axis of size 1 (of days in `days`, of branches in `taps`, of members in `members`); whatever
    stands before it is the batch. `pump_kind` is "centrifugal" or "jet", and `control_kind` says what starts and stops
    the pump: two kinds are two batches.
    """

    site: SiteFacts
    weather: WeatherFacts
    placing: PlacingFacts
    days: DayFacts
    stand: StandFacts
    members: MemberFacts
    suction: SuctionFacts
    pump: PumpFacts
    delivery: DeliveryFacts
    taps: TapFacts
    holding: HoldingFacts
    drinking: DrinkingFacts
    need: NeedFacts
    faults: FaultFacts
    season: SeasonFacts
    protection: ProtectionFacts
    power: PowerFacts
    limits: Limits
    pump_kind: str
    day_names: tuple[str, ...]
    tap_names: tuple[str, ...]
    priming: PrimingFacts
    surge: SurgeFacts
    ejector: EjectorFacts
    heat: HeatFacts
    control: ControlFacts
    control_kind: str = SWITCH

    def with_values(self, values: Mapping[str, Any]) -> Facts:
        """The same facts with some replaced, by dotted name."""
        tables: dict[str, dict[str, Any]] = {}
        for name, value in values.items():
            table, _, field = name.partition(".")
            tables.setdefault(table, {})[field] = value
        return replace(self, **{table: replace(getattr(self, table), **new) for table, new in tables.items()})

    def first_row(self) -> Facts:
        """The first design of a batch with one leading axis, as one job's facts."""
        values: dict[str, Any] = {}
        for name in every_fact():
            value = self.value(name)
            if isinstance(value, Curve | JetTable):
                values[name] = type(value)(**{f.name: _first(getattr(value, f.name)) for f in fields(value)})
            else:
                values[name] = _first(value)
        return self.with_values(values)

    def on_day(self, number: int) -> Facts:
        """The same facts with one of their days alone."""
        days = {f.name: np.take(getattr(self.days, f.name), [number], axis=-1) for f in fields(DayFacts)}
        return replace(self, days=DayFacts(**days), day_names=(self.day_names[number],))

    def value(self, name: str) -> Any:
        """One fact by its dotted name."""
        table, _, field = name.partition(".")
        return getattr(getattr(self, table), field)


def _first(array: Array) -> Array:
    return array[0] if array.ndim > 1 else array


def fact_names(pump_kind: str) -> tuple[str, ...]:
    """Dotted names of all facts of a job with this kind of pump."""
    unused = {
        "centrifugal": {"pump.jet", "faults.nozzle", *(name for name in every_fact() if name.startswith("ejector."))},
        "jet": {"pump.curve", "pump.required", "pump.fall", "power.brake"},
    }
    return tuple(name for name in every_fact() if name not in unused[pump_kind])


def every_fact() -> Iterator[str]:
    """Dotted names of all facts."""
    for table, kind in zip(TABLES, KINDS, strict=True):
        for field in fields(kind):
            yield f"{table}.{field.name}"


def is_missing(value: Any) -> bool:
    """Whether a fact, plain or a curve or a table, is not known.

    >>> is_missing(np.array([np.nan]))
    True
    """
    if isinstance(value, Curve):
        return bool(np.isnan(value.last).any())
    if isinstance(value, JetTable):
        return bool(np.isnan(value.last_lift).any())
    return bool(np.isnan(value).any())
