"""Pump, delivery line and tank as facts."""

from __future__ import annotations

import math
from dataclasses import replace
from itertools import pairwise

import numpy as np

from lakewright import units
from lakewright.job.models import Job
from lakewright.job.quantity import is_given
from lakewright.physics.curve import Curve, shape_keeping, straight_lines, unknown_curve
from lakewright.physics.jet import JetTable, jet_table, unknown_table
from lakewright.state.branches import is_filtered
from lakewright.state.control_facts import BY_SPEED, HELD, STORE, Pressures, control_of
from lakewright.state.ejector_facts import EjectorFacts, ejector_facts, is_by_sizes, no_ejector
from lakewright.state.facts import DayFacts, DeliveryFacts, PumpFacts
from lakewright.state.gather import OPEN, Gather, defaults, one
from lakewright.state.lines import coefficient_of, fittings_of, held_for_years, pipe_facts
from lakewright.state.profile import ground_profile, height_along
from lakewright.stock.load import Stock
from lakewright.stock.rows import Jet, Pipe, Pump

NPSH_ASK = "[[pump.npsh]] is not given: ask the pump's maker what net suction head it requires"


def pump_facts(job: Job, stock: Stock, gather: Gather) -> tuple[PumpFacts, str]:
    """The pump, and its kind."""
    pump = job.pump
    row = gather.part("[pump] stock", stock.pump, pump.stock)
    if row is not None:
        curve, required, fall, jet, kind = pump_columns(row)
    else:
        curve, required, fall, jet, kind = _own_pump(job, gather)
    power = pump.power.value if pump.power else row.power if row else math.nan
    if math.isnan(power):
        is_open = pump.stock == OPEN
        gather.lack(
            "pump.minimum_run", f"[pump] {'stock is open: design chooses it' if is_open else 'power is not given'}"
        )
    return PumpFacts(
        height=one(_pump_height(job, gather)),
        curve=curve,
        required=required,
        fall=one(fall),
        jet=jet,
        minimum_run=one(minimum_run(power)),
    ), kind


def with_ejector(
    job: Job, pump: PumpFacts, days: DayFacts, kind: str, gather: Gather
) -> tuple[PumpFacts, EjectorFacts, str]:
    """The pump, its ejector and its kind: a pump with an ejector of known sizes is a jet with its own table."""
    if not is_by_sizes(job):
        return pump, no_ejector(), kind
    if kind == "jet":
        found, wanted = "an ejector by its sizes beside a jet that has a table", "one of the two"
        gather.mistake(
            "[pump.ejector] nozzle", found, wanted, "give the pump that drives it by stock or [[pump.curve]]"
        )
        return pump, no_ejector(), kind
    table, ejector = ejector_facts(job, pump.curve, pump.required, days.temperature, gather) or (
        unknown_table(),
        no_ejector(),
    )
    for fact in ("pump.curve", "pump.required", "pump.fall"):
        gather.missing.pop(fact, None)
    blank = unknown_curve()
    return replace(pump, curve=blank, required=blank, fall=one(math.nan), jet=table), ejector, "jet"


def rated_power(job: Job, stock: Stock) -> float:
    """Rating of the job's own motor [W]; nan where it is not known."""
    row = stock.pumps.get(job.pump.stock or "") or stock.jets.get(job.pump.stock or "")
    return job.pump.power.value if job.pump.power else row.power if row else math.nan


def minimum_run_of(job: Job, stock: Stock) -> float:
    """Shortest run of the job's own motor [s]; nan where its power is not known."""
    return minimum_run(rated_power(job, stock))


def minimum_run(power: float) -> float:
    """Shortest run a motor of this power should make [s]."""
    if math.isnan(power):
        return math.nan
    small = power <= defaults()["pump.small motor"].value * (1.0 + 1e-9)
    return defaults()[f"pump.minimum_run, {'small' if small else 'large'} motor"].value


def pump_columns(row: Pump | Jet) -> tuple[Curve, Curve, float, JetTable, str]:
    """Curve, required curve, least fall, jet table and kind of a pump in stock."""
    if isinstance(row, Jet):
        return unknown_curve(), unknown_curve(), math.nan, jet_table(row.lift, row.pressure, row.flow), "jet"
    fall = -max(b - a for a, b in pairwise(row.head))
    return (
        shape_keeping(row.flow, row.head),
        straight_lines(row.npsh_flow, row.npsh),
        fall,
        unknown_table(),
        "centrifugal",
    )


def _own_pump(job: Job, gather: Gather) -> tuple[Curve, Curve, float, JetTable, str]:
    pump = job.pump
    if pump.lift_table.flows:
        table = pump.lift_table
        flows = [[q.value for q in row] for row in table.flows]
        jet = jet_table([q.value for q in table.lifts], [q.value for q in table.pressures], flows)
        return unknown_curve(), unknown_curve(), math.nan, jet, "jet"
    place = "[pump] stock is open: design chooses it" if pump.stock == OPEN else "[pump] stock is not given"
    curve, required, fall = unknown_curve(), unknown_curve(), math.nan
    if pump.curve:
        at, heads = _own_points(job, gather)
        curve = shape_keeping(at, heads)
        fall = -max(b - a for a, b in pairwise(heads))
    else:
        gather.lack("pump.curve", place)
        gather.lack("pump.fall", place)
    if pump.npsh:
        required = straight_lines([p.flow.value for p in pump.npsh], [p.head.value for p in pump.npsh])
    else:
        gather.lack("pump.required", NPSH_ASK if pump.curve else place)
    if pump.kind == "jet" and not is_by_sizes(job):
        gather.lack("pump.jet", place)
        return unknown_curve(), unknown_curve(), math.nan, unknown_table(), "jet"
    return curve, required, fall, unknown_table(), "centrifugal"


def _own_points(job: Job, gather: Gather) -> tuple[list[float], list[float]]:
    """Flows and heads of the job's own curve. Nothing is carried past its points, so it must begin at no flow."""
    pump = job.pump
    flows, heads = [p.flow.value for p in pump.curve], [p.head.value for p in pump.curve]
    if flows[0] > 0.0 and pump.shut_off is not None:
        return [0.0, *flows], [pump.shut_off.value, *heads]
    if flows[0] > 0.0:
        found, wanted = f"a first flow of {pump.curve[0].flow.text}", "a curve that begins at no flow"
        gather.mistake("[[pump.curve]] 1", found, wanted, "give the head at 0 gpm, or write it as [pump] shut_off")
    return flows, heads


def _pump_height(job: Job, gather: Gather) -> float:
    pump = job.pump
    if pump.height is None and is_given(pump.distance) and job.site.ground:
        height = height_along(*ground_profile(job), one(pump.distance.value))[0]
        if not math.isnan(height):
            return float(height)
    return gather.number("pump.height", pump.height, "[pump] height")


def delivery_facts(
    job: Job, stock: Stock, pressures: Pressures, pump_height: float, warmest: float, gather: Gather
) -> DeliveryFacts:
    """The line from the pump to the tank, the switch, the tank and the filters.

    Parameters
    ----------
    pressures : between which the pump runs; pump_height : [m]; warmest : [K] the warmest water of any day
    """
    delivery = job.delivery
    name = delivery.stock if delivery.bore else gather.usual("delivery.stock", delivery.stock, "delivery")
    pipe = gather.part("[delivery] stock", stock.pipe, name)
    bore, rough, fouled = pipe_facts("delivery", delivery, pipe, gather)
    counted = fittings_of("delivery", delivery, gather)
    volume, tank_bears = _tank(job, stock, gather)
    relief = delivery.relief
    _refuse_short(job, gather)
    return DeliveryFacts(
        bore=one(bore),
        length=one(gather.number("delivery.length", delivery.length, "[delivery] length")),
        roughness=one(rough),
        roughness_fouled=one(fouled),
        coefficient=one(coefficient_of("delivery", delivery, pipe, counted, stock, gather)),
        height=one(_tee_height(job, pump_height, gather)),
        cut_in=one(pressures.cut_in),
        cut_out=one(pressures.cut_out),
        precharge=one(_precharge(job, pressures, gather)),
        tank_volume=one(volume),
        flow_control=one(_flow_control(job, gather)),
        filters_clean=one(_filters(job, "clean", gather)),
        filters_dirty=one(_filters(job, "dirty", gather)),
        relief=one(math.inf if relief is None else gather.number("delivery.relief", relief, "[delivery] relief")),
        tank_bears=one(tank_bears),
        pipe_bears=one(_pipe_bears(job, pipe, warmest, gather)),
    )


def _refuse_short(job: Job, gather: Gather) -> None:
    """No line is shorter than it rises: one of the three heights and lengths is left over from another place."""
    length, top, bottom = job.delivery.length, job.delivery.height, job.pump.height
    if length is None or top is None or bottom is None or length.open or top.open or bottom.open:
        return
    rise = abs(top.value - bottom.value)
    if length.high < rise - top.spread - bottom.spread:
        wanted = f"no less than the {units.show(rise, 'length', job.job.units)} between pump and tank's tee"
        gather.mistake(
            "[delivery] length",
            f'"{length.text}"',
            wanted,
            "measure the line again, or mend [pump] or [delivery] height",
        )


def _filters(job: Job, state: str, gather: Gather) -> float:
    """What the filters lose at the need, clean or dirty [Pa]; nothing where there are none."""
    fact = f"delivery.filters_{state}"
    given = getattr(job.delivery, f"filters_{state}")
    if given is not None:
        return gather.number(fact, given, f"[delivery] filters_{state}")
    told = [q.value for step in job.treatment.steps if (q := getattr(step, f"loss_{state}")) is not None]
    if told:
        return math.fsum(told)
    filtered = is_filtered(job) or any(branch.water == "treated" for branch in job.need.branches)
    return gather.default(fact, f"[delivery] filters_{state}", fact) if filtered else 0.0


def _pipe_bears(job: Job, pipe: Pipe | None, warmest: float, gather: Gather) -> float:
    """Pressure the line may stand at for years [Pa gauge]."""
    delivery = job.delivery
    if delivery.pressure_rating is not None:
        return gather.number("delivery.pipe_bears", delivery.pressure_rating, "[delivery] pressure_rating")
    if pipe is None:
        return gather.lack("delivery.pipe_bears", "[delivery] pressure_rating is not given, and no stock")
    sun = gather.default("delivery.pipe_bears", "[delivery] sunlit", "delivery.warm wall") if delivery.sunlit else 0.0
    return held_for_years(pipe, float(np.maximum(warmest, sun)))


def _flow_control(job: Job, gather: Gather) -> float:
    """Flow that a valve at the pump's outlet holds [m3/s]; without one, nothing holds it."""
    given = job.delivery.flow_control
    return math.inf if given is None else gather.number("delivery.flow_control", given, "[delivery] flow_control")


def _tee_height(job: Job, pump_height: float, gather: Gather) -> float:
    height = job.delivery.height
    if height is not None or math.isnan(pump_height):
        return gather.number("delivery.height", height, "[delivery] height")
    rise = gather.default("delivery.height", "[delivery] height", "delivery.height above the pump")
    return pump_height + rise


def _precharge(job: Job, pressures: Pressures, gather: Gather) -> float:
    given, cut_in = job.delivery.precharge, pressures.start
    if control_of(job) == STORE:
        return 0.0
    if given is None and control_of(job) == BY_SPEED:
        share = defaults()["delivery.precharge, share of what is held"]
        charged = min(share.value * pressures.cut_in, cut_in)
        return gather.assume("delivery.precharge", charged, "gauge", f"{share.why} ({share.source})")
    if given is not None:
        if given.value > cut_in:
            wanted = f"no more than cut_in, {job.delivery.cut_in.text if job.delivery.cut_in else '30 psi'}"
            if control_of(job) in HELD:
                wanted = f"no more than the {units.show(cut_in, 'gauge', job.job.units)} at which the pump starts"
            remedy = "2 psi under cut-in is usual: above it the taps go dry before the pump starts"
            gather.mistake("[delivery] precharge", f'"{given.text}"', wanted, remedy)
        return gather.number("delivery.precharge", given, "[delivery] precharge")
    under = defaults()["delivery.precharge under cut-in"]
    return gather.assume("delivery.precharge", cut_in - under.value, "gauge", f"{under.why} ({under.source})")


def _tank(job: Job, stock: Stock, gather: Gather) -> tuple[float, float]:
    """Volume of the tank [m3], and the most it may hold [Pa gauge]."""
    delivery, rating = job.delivery, job.delivery.tank_pressure_rating
    if control_of(job) == STORE:
        return 0.0, math.inf
    place = "[delivery] tank_pressure_rating"
    if delivery.tank_volume is not None:
        volume = gather.number("delivery.tank_volume", delivery.tank_volume, "[delivery] tank_volume")
        return volume, gather.number("delivery.tank_bears", rating, place)
    large = minimum_run_of(job, stock) > defaults()["pump.minimum_run, small motor"].value
    usual = "tank_for_controller" if control_of(job) in HELD else "tank_for_large_motor" if large else "tank"
    name = gather.usual("delivery.tank", delivery.tank, usual)
    tank = gather.part("[delivery] tank", stock.tank, name)
    if tank is None:
        why = "is open: design chooses it" if name == OPEN else "is not given"
        lack = f"[delivery] tank {why}"
        return gather.lack("delivery.tank_volume", lack), gather.lack("delivery.tank_bears", lack)
    return tank.volume, gather.number("delivery.tank_bears", rating, place) if rating else tank.max_pressure
