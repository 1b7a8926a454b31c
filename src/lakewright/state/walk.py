"""The walk from lake to tap: one block a station, every case at once."""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import Any, TypeVar

import numpy as np

from lakewright.physics import gauge, inlet
from lakewright.physics import tank as tank_of
from lakewright.physics import water as water_of
from lakewright.physics.atmosphere import atmospheric_pressure, barometric_loss
from lakewright.physics.suction import npsh_available
from lakewright.physics.types import GRAVITY, Array
from lakewright.state.cases import CLEAN, CUT_IN, CUT_OUT, ENDS, LINES, OPEN, Cases, Index, cases_of
from lakewright.state.control import (
    ControlAtRest,
    ControlInUse,
    StoreAsBuilt,
    StoreInUse,
    Weeping,
    control_at_rest,
    control_in_use,
    store_as_built,
    store_in_use,
    weeping,
)
from lakewright.state.control_facts import BY_FLOW, HELD, STORE, SWITCH
from lakewright.state.drinking import Barriers, Drinking, barriers, drinking
from lakewright.state.ejector import Ejector, ejector
from lakewright.state.facts import Facts
from lakewright.state.heat import Heat, heat
from lakewright.state.hydraulics import Circuit, Losses, circuit
from lakewright.state.lake import Lake, air_pressure, inlet_top, lake, line_top
from lakewright.state.line_on_bed import LineAtRest, LineInWaves, line_at_rest, line_in_waves
from lakewright.state.placing import Placing, placing
from lakewright.state.power import Motor, Wiring, motor, wiring
from lakewright.state.priming import Priming, priming
from lakewright.state.protection import GuardsAtRest, GuardsInUse, guards_at_rest, guards_in_use
from lakewright.state.season import Season, season
from lakewright.state.solve import Alike, Mask, Operation, operate
from lakewright.state.standing import Route, Standing, route, standing, vacuum_use
from lakewright.state.still import Rest, Still, rest, still
from lakewright.state.surge import Surge, surge
from lakewright.state.taps import Taps, static_over_switch, taps
from lakewright.state.weather import weather_of

Block = TypeVar("Block", Lake, Circuit, Operation, Losses)


@dataclass(frozen=True, eq=False, repr=False)
class Place:
    """Where pump and intake stand. Standing cases; no flow is needed."""

    lift: Array  # m, pump over water
    barometric_loss: Array  # m, head missing against the sea
    above_flood: Array  # m, pump over the highest water and its waves
    walled: Array  # 1 where a tank's walls keep its water from the pump
    bed_clearance: Array  # m, inlet over the bed
    bed_wanted: Array  # m
    ice: Array  # m
    ice_clearance: Array  # m, water between ice and inlet
    opening: Array  # m, of the screen
    opening_limit: Array  # m, the rule's; infinite where it names none
    is_bare: Array  # 1 for a strainer alone, 0 with a screen
    screen_asked: Array  # 1 where a rule asks for a screen
    tap_static: Array  # Pa gauge, that the highest tap keeps on the switch
    cut_in: Array  # Pa gauge
    switched: Mask  # by a pressure switch


@dataclass(frozen=True, eq=False, repr=False)
class Stand:
    """What happens at the inlet. Running cases."""

    cover: Array  # m, water over the inlet
    cover_vortex: Array  # m, by Froude number
    cover_by_velocity: Array  # m, by velocity
    cover_floor: Array  # m, by practice
    face_approach: Array  # m/s on the effective area
    face_through: Array  # m/s on the open area
    face_velocity: Array  # m/s, on the area the rule counts
    face_limit: Array  # m/s, the rule's


@dataclass(frozen=True, eq=False, repr=False)
class Line:
    """The suction line. Running cases."""

    velocity: Array  # m/s
    riser_velocity: Array  # m/s
    screen_loss: Array  # m, as all losses
    valve_loss: Array
    riser_loss: Array
    line_loss: Array
    fitting_loss: Array
    suction_loss: Array
    pressure: Array  # Pa gauge, at the pump's inlet
    vacuum_use: Array  # share of the vacuum that the line bears


@dataclass(frozen=True, eq=False, repr=False)
class Flow:
    """The flow, and the water's state at the pump's inlet. Running cases."""

    flow: Array  # m3/s
    left_over: Array  # m (jet: m3/s)
    left_at_rest: Array  # m (jet: m3/s)
    barometric_loss: Array  # m
    suction_lift: Array  # m, height and losses
    npsh_available: Array  # m
    npsh_required: Array  # m; nan for a jet
    is_jet: Mask
    bracketed: Mask


@dataclass(frozen=True, eq=False, repr=False)
class Pump:
    """The pump. Running cases; `fall` has one value."""

    head: Array  # m, what the circuit asks at this flow
    room: Array  # m
    under_pressure: Mask  # all but the open tank
    fall: Array  # m
    is_jet: Mask


@dataclass(frozen=True, eq=False, repr=False)
class Delivery:
    """From the pump to the tank. Running cases."""

    flow: Array  # m3/s
    wanted: Array  # m3/s
    asked: Mask  # at cut-in, and the need is asked of the pump itself by its flow
    at_cut_in: Mask
    at_cut_out: Mask  # where a pressure switch stops the pump
    velocity: Array  # m/s
    loss: Array  # m
    rest_pressure: Array  # Pa gauge
    cut_out: Array  # Pa gauge


@dataclass(frozen=True, eq=False, repr=False)
class ShutOff:
    """The most pressure the pump can make, all taps shut. Standing cases."""

    at_tank: Array  # Pa gauge
    tank_bears: Array  # Pa gauge
    at_pump: Array  # Pa gauge, at the low end of the delivery line
    pipe_bears: Array  # Pa gauge
    has_tank: Mask  # under pressure


@dataclass(frozen=True, eq=False, repr=False)
class Filling:
    """The tank from cut-in to cut-out while nobody draws. Filling cases."""

    fill_time: Array  # s
    per_volume: Array  # s for each m3 of tank
    minimum_run: Array  # s
    switched: Mask  # by a pressure switch


@dataclass(frozen=True)
class State:
    """The blocks in the order water flows."""

    lake: Lake
    place: Place
    standing: Standing
    route: Route
    stand: Stand
    line: Line
    flow: Flow
    pump: Pump
    delivery: Delivery
    filling: Filling
    shut_off: ShutOff
    taps: Taps
    control_in_use: ControlInUse
    control_at_rest: ControlAtRest
    # What stands and lies on the bed: no flow changes it, it is dear, and a search leaves it out.
    rest: Rest | None = None
    still: Still | None = None
    line_at_rest: LineAtRest | None = None
    line_in_waves: LineInWaves | None = None
    season: Season | None = None
    placing: Placing | None = None
    drinking: Drinking | None = None
    barriers: Barriers | None = None
    guards_at_rest: GuardsAtRest | None = None
    guards_in_use: GuardsInUse | None = None
    motor: Motor | None = None
    wiring: Wiring | None = None
    priming: Priming | None = None
    surge: Surge | None = None
    ejector: Ejector | None = None
    heat: Heat | None = None
    weeping: Weeping | None = None
    store_in_use: StoreInUse | None = None
    store_as_built: StoreAsBuilt | None = None


DEAR = ("still", "surge")
"""Blocks that cost forty times as much as all others together: waves on the stand's members, and the blow of a stop."""


def walk_but_the_dear(facts: Facts) -> State:
    """The walk without the blocks of `DEAR`."""
    return walk(facts, without=DEAR)


def walk(facts: Facts, without: tuple[str, ...] = ()) -> State:
    """Walk from lake to tap, every case at once, and what stands and lies on the bed, of `DEAR` all or less."""
    density = water_of.density(facts.days.temperature)
    cases = cases_of(len(facts.day_names))
    weather, passed, tank = weather_of(facts, cases), walk_flow(facts), tank_pressure(facts, cases.running_end)
    return replace(
        passed,
        rest=(stand := rest(facts, density)),
        still=None if "still" in without else still(facts, weather),
        line_at_rest=line_at_rest(facts, density),
        line_in_waves=line_in_waves(facts, weather),
        season=season(facts, stand, density),
        placing=placing(facts, weather, cases),
        drinking=drinking(facts),
        barriers=barriers(facts),
        guards_at_rest=guards_at_rest(facts, inlet_top(facts)),
        guards_in_use=guards_in_use(facts, cases, passed.flow.flow, passed.delivery.loss),
        motor=motor(facts, passed.flow.flow),
        wiring=wiring(facts),
        priming=priming(facts),
        surge=None if "surge" in without else surge(facts, passed, tank),
        ejector=ejector(facts, passed, tank),
        heat=heat(facts),
        weeping=weeping(facts, passed.shut_off.at_tank),
        store_in_use=store_in_use(facts, cases, passed.flow.flow),
        store_as_built=store_as_built(facts),
    )


def walk_place(facts: Facts) -> State:
    """The walk with what the flow passes, how the stand rests and stands, and what its place gives it."""
    density = water_of.density(facts.days.temperature)
    cases = cases_of(len(facts.day_names))
    weather, passed = weather_of(facts, cases), walk_flow(facts)
    placed = placing(facts, weather, cases)
    return replace(passed, rest=rest(facts, density), still=still(facts, weather), placing=placed)


def walk_flow(facts: Facts) -> State:
    """The walk with the blocks that the flow passes alone."""
    cases = cases_of(len(facts.day_names))
    water, path, operation, filling_flow = _solved(facts, cases)
    shut = _shut_off(facts, cases, water, operation)
    # A controller of flow lets the pump run up to its shut-off before it rests.
    stopped = shut.at_tank if facts.control_kind == BY_FLOW else facts.delivery.cut_out
    return State(
        lake=water,
        place=(spots := place(facts)),
        standing=(still := standing(facts, stopped)),
        route=route(facts),
        stand=_stand(facts, water, operation),
        line=_line(facts, cases, water, operation, still),
        flow=_flow(facts, water, operation),
        pump=_pump(facts, cases, path, operation),
        delivery=_delivery(facts, cases, operation),
        filling=_filling(facts, cases, operation, filling_flow),
        shut_off=shut,
        taps=taps(facts, cases, water),
        control_in_use=control_in_use(facts, cases, path, operation),
        control_at_rest=control_at_rest(facts, spots.tap_static),
    )


def _solved(facts: Facts, cases: Cases) -> tuple[Lake, Circuit, Operation, Array]:
    """Solve the running cases and, in the same stroke, the pressures at which a filling tank is looked at."""
    delivery = facts.delivery
    nodes = tank_of.filling_pressures(delivery.cut_in, delivery.cut_out)
    still = np.zeros(len(cases.filling_day))
    pressure = np.concatenate([tank_pressure(facts, cases.running_end), *(node + still for node in nodes)], axis=-1)
    day = np.concatenate([cases.running_day, *[cases.filling_day] * len(nodes)])
    line = np.concatenate([cases.running_line, np.full(len(nodes) * len(cases.filling_day), CLEAN)])
    water = lake(facts, day, line)
    path = circuit(facts, water, line, pressure)
    operation = operate(facts, water, path, pressure, _alike(cases))
    running = len(cases.running_day)
    return (
        _head_of(water, running),
        _head_of(path, running),
        _head_of(operation, running),
        operation.flow[..., running:],
    )


def _alike(cases: Cases) -> Alike:
    """Running cases of one day and line, and the filling ones of that day, differ in tank pressure alone."""
    lines, ends = len(LINES), len(ENDS)
    group = cases.running_day * lines + cases.running_line
    filling = cases.filling_day * lines + CLEAN
    return Alike(np.arange(cases.days * lines) * ends, np.concatenate([group, filling, filling, filling]))


def _head_of(block: Block, cases: int) -> Block:
    """The first cases of every array of a block; what has one value for all cases stays."""
    parts: dict[str, Any] = {}
    for name in block.__dataclass_fields__:
        part = getattr(block, name)
        if isinstance(part, Losses):
            parts[name] = _head_of(part, cases)
        else:
            parts[name] = part if part.shape[-1] == 1 else part[..., :cases]
    return replace(block, **parts)


def tank_pressure(facts: Facts, end: Index) -> Array:
    """Gauge pressure in the tank at each end of the pump's run [Pa]; an open tank has none."""
    delivery = facts.delivery
    return np.where(end == CUT_IN, delivery.cut_in, np.where(end == CUT_OUT, delivery.cut_out, 0.0))


def place(facts: Facts) -> Place:
    """Where pump and intake stand, day by day."""
    level = facts.days.level + facts.faults.level_offset
    site, stand, pump = facts.site, facts.stand, facts.pump
    still = np.zeros_like(level)
    return Place(
        lift=line_top(facts) - level,
        barometric_loss=barometric_loss(air_pressure(facts)) + still,
        above_flood=pump.height - (np.maximum(site.flood, level) + site.waves),
        walled=site.walled,
        bed_clearance=stand.frame + stand.riser - stand.sink + still,
        bed_wanted=site.bed_wanted,
        ice=facts.days.ice,
        ice_clearance=level - inlet_top(facts) - facts.days.ice,
        opening=stand.screen_opening + still,
        opening_limit=site.screen_opening,
        is_bare=stand.is_bare + still,
        screen_asked=site.screen_asked,
        tap_static=static_over_switch(facts),
        cut_in=facts.delivery.cut_in,
        switched=is_switched(facts),
    )


def is_switched(facts: Facts) -> Mask:
    """Whether a pressure switch starts and stops the pump."""
    return np.array([facts.control_kind == SWITCH])


def has_tank(facts: Facts) -> Mask:
    """Whether the pump fills a tank under pressure."""
    return np.array([facts.control_kind != STORE])


def _is_jet(facts: Facts) -> Mask:
    return np.array([facts.pump_kind == "jet"])


def _stand(facts: Facts, water: Lake, operation: Operation) -> Stand:
    stand, site = facts.stand, facts.site
    effective = stand.screen_area * stand.screen_structure * (1.0 - water.blocked)
    approach = inlet.approach_velocity(operation.flow, effective)
    through = approach / stand.screen_open
    return Stand(
        cover=water.level - inlet_top(facts),
        cover_vortex=inlet.vortex_cover(operation.losses.riser_velocity, stand.riser_bore),
        cover_by_velocity=inlet.tabulated_cover(operation.losses.riser_velocity),
        cover_floor=site.cover_floor,
        face_approach=approach,
        face_through=through,
        face_velocity=np.where(site.screen_on_open > 0.5, through, approach) + 0.0 * site.screen_on_open,
        face_limit=site.screen_velocity,
    )


def _line(facts: Facts, cases: Cases, water: Lake, operation: Operation, still: Standing) -> Line:
    losses = operation.losses
    lift = line_top(facts) - water.level + losses.suction
    weight = water.density * GRAVITY
    boils = gauge.lowest_pressure(water.atmosphere_head * weight, water.vapour_head * weight)
    pressure = np.maximum(gauge.running_pressure(lift, losses.velocity, water.density), boils)
    held = np.take(still.pressure, cases.running_day, axis=-1)
    return Line(
        velocity=losses.velocity,
        riser_velocity=losses.riser_velocity,
        screen_loss=losses.screen,
        valve_loss=losses.valve,
        riser_loss=losses.riser,
        line_loss=losses.line,
        fitting_loss=losses.fittings,
        suction_loss=losses.suction,
        pressure=pressure,
        vacuum_use=vacuum_use(facts, held, pressure),
    )


def _flow(facts: Facts, water: Lake, operation: Operation) -> Flow:
    lift = line_top(facts) - water.level + operation.losses.suction
    scale = (1.0 - facts.faults.air) * facts.faults.speed
    # At run-out the rounding of a quotient may pass the last point by a bit; the curve is asked at the point.
    x = np.minimum(operation.flow / scale, facts.pump.curve.last)
    required = facts.faults.speed * facts.faults.speed * facts.pump.required.at(x)
    return Flow(
        flow=operation.flow,
        left_over=operation.left_over,
        left_at_rest=operation.left_at_rest,
        barometric_loss=barometric_loss(air_pressure(facts)),
        suction_lift=lift,
        npsh_available=npsh_available(water.atmosphere_head, water.vapour_head, lift),
        npsh_required=required,
        is_jet=_is_jet(facts),
        bracketed=operation.bracketed,
    )


def _pump(facts: Facts, cases: Cases, path: Circuit, operation: Operation) -> Pump:
    losses = operation.losses
    return Pump(
        head=losses.suction + losses.delivery + path.static,
        room=operation.room,
        under_pressure=cases.running_end != OPEN,
        fall=facts.pump.fall,
        is_jet=_is_jet(facts),
    )


def _delivery(facts: Facts, cases: Cases, operation: Operation) -> Delivery:
    # A controller of a centrifugal pump is asked by pressure, and a store by the day.
    by_flow = facts.control_kind == SWITCH or (facts.control_kind in HELD and facts.pump_kind == "jet")
    return Delivery(
        flow=operation.flow,
        wanted=facts.need.flow * np.take(facts.days.demand, cases.running_day, axis=-1),
        asked=(cases.running_end == CUT_IN) & by_flow,
        at_cut_in=cases.running_end == CUT_IN,
        at_cut_out=(cases.running_end == CUT_OUT) & (facts.control_kind == SWITCH),
        velocity=operation.losses.delivery_velocity,
        loss=operation.losses.delivery,
        rest_pressure=operation.rest_pressure,
        cut_out=facts.delivery.cut_out,
    )


def _filling(facts: Facts, cases: Cases, operation: Operation, flow: Array) -> Filling:
    delivery, days = facts.delivery, len(cases.filling_day)
    if facts.control_kind != SWITCH:
        never = np.full_like(flow[..., :days], np.inf)
        return Filling(never, never, facts.pump.minimum_run, is_switched(facts))
    first, second, third = (flow[..., n * days : (n + 1) * days] for n in range(3))
    air = atmospheric_pressure(facts.site.elevation)
    finite = tank_of.filling_time(delivery.precharge, delivery.cut_in, delivery.cut_out, air, (first, second, third))
    # A pump that does not reach cut-out never fills the tank, however close it comes.
    clean = np.flatnonzero((cases.running_line == CLEAN) & (cases.running_end == CUT_OUT))
    at_cut_out = np.take(operation.flow, clean, axis=-1)
    per_volume = np.where(at_cut_out == 0.0, np.inf, finite)
    return Filling(per_volume * delivery.tank_volume, per_volume, facts.pump.minimum_run, is_switched(facts))


def _shut_off(facts: Facts, cases: Cases, water: Lake, operation: Operation) -> ShutOff:
    """When flow dies, or when the relief valve opens before; the pump's own end stands as much more as it is lower."""
    once = np.flatnonzero((cases.running_line == CLEAN) & (cases.running_end == OPEN))
    dead, density = np.take(operation.rest_pressure, once, axis=-1), np.take(water.density, once, axis=-1)
    delivery = facts.delivery
    at_tank = np.minimum(dead, delivery.relief)
    return ShutOff(
        at_tank=at_tank,
        tank_bears=delivery.tank_bears,
        at_pump=at_tank + density * GRAVITY * (delivery.height - facts.pump.height),
        pipe_bears=delivery.pipe_bears,
        has_tank=has_tank(facts),
    )
