"""Motor, cable and what feeds them, as facts. Guidance: a licensed electrician and the local code decide."""

from __future__ import annotations

import math
import re
from dataclasses import dataclass

from lakewright.job.models import Job
from lakewright.job.models_shop import Supply
from lakewright.physics import electric
from lakewright.physics.curve import Curve, straight_lines, unknown_curve
from lakewright.physics.types import Array
from lakewright.state.gather import OPEN, Assumed, Gather, one, why_not
from lakewright.state.limits import standard_limits
from lakewright.stock.load import Stock
from lakewright.stock.rows import Jet, Part, Pump


@dataclass(frozen=True, eq=False, repr=False)
class PowerFacts:
    rating: Array  # W, of the motor
    service_factor: Array  # what it bears over its rating
    brake: Curve  # power it is asked for [W] over flow [m3/s]; blank for a jet
    said: Array  # 1 where a job says anything of its power, else 0
    cable: Array  # 1 where it says anything of the cable, else 0
    voltage: Array  # V, at the panel
    rated_voltage: Array  # V, of the motor; 0 where nobody said
    table_current: Array  # A, at full load, by which conductors and breakers are chosen
    running_current: Array  # A, at full load, by the plate where it was read
    start_current: Array  # A, in the first moment of a start
    length: Array  # m, of cable from the panel
    resistance: Array  # ohm/m, of one conductor, warm
    ampacity_60: Array  # A, with terminals for 60 C
    ampacity_75: Array  # A, with terminals for 75 C
    breaker: Array  # A; 0 where nobody said
    source: Array  # W that a generator or inverter gives; infinite on the grid
    protected: Array  # 1 where ground-fault protection is fitted, else 0


@dataclass(frozen=True)
class _Motor:
    """Currents of a motor [A]."""

    table: float
    running: float
    start: float


@dataclass(frozen=True)
class _Wire:
    """One conductor of a cable: resistance [ohm/m], ampacities [A]."""

    resistance: float
    ampacity_60: float
    ampacity_75: float


NO_WIRE = _Wire(0.0, 1.0, 2.0)
"""Where a job says nothing of its cable: no check asks, and any conductor will do."""


def power_facts(job: Job, stock: Stock, gather: Gather) -> PowerFacts:
    """Motor, cable and supply. Nothing is asked of the last two where a job says nothing of its power."""
    power, pump = job.power, job.pump
    row = stock.pumps.get(pump.stock or "") or stock.jets.get(pump.stock or "")
    rating = _rating(job, row, gather)
    said = bool(power.model_fields_set)
    cable = power.wire is not None or power.distance is not None
    voltage, motor, wire, length = 230.0, _Motor(0.0, 0.0, 0.0), NO_WIRE, 0.0
    if said:
        voltage = gather.number("power.voltage", power.voltage or pump.voltage, "[power] voltage")
        motor = _motor(job, rating, voltage, gather)
    if cable:
        length = gather.number("power.length", power.distance, "[power] distance", kind="length")
        wire = _wire(power, stock, motor, voltage, length, gather)
    return PowerFacts(
        rating=one(rating),
        service_factor=one(1.0 if row is None else row.service_factor),
        brake=_brake(job, row, gather),
        said=one(float(said)),
        cable=one(float(cable)),
        voltage=one(voltage),
        rated_voltage=one(pump.voltage.value if pump.voltage is not None and said else 0.0),
        table_current=one(motor.table),
        running_current=one(motor.running),
        start_current=one(motor.start),
        length=one(length),
        resistance=one(wire.resistance),
        ampacity_60=one(wire.ampacity_60),
        ampacity_75=one(wire.ampacity_75),
        breaker=one(0.0 if power.breaker is None else power.breaker.value),
        source=one(_source(power, gather)),
        protected=one(_protected(power, said, gather)),
    )


def _rating(job: Job, row: Pump | Jet | None, gather: Gather) -> float:
    pump = job.pump
    if pump.power is not None or row is None:
        place = "[pump] power" if pump.stock != OPEN else "[pump] stock"
        if pump.power is None:
            return gather.lack("power.rating", why_not(place, pump.stock))
        return pump.power.value
    return row.power


def _brake(job: Job, row: Pump | Jet | None, gather: Gather) -> Curve:
    """What the pump asks of its motor. Straight between points that bend downward is never more than the curve, and
    the ends, where it is most, are points."""
    if isinstance(row, Pump):
        return straight_lines(row.flow, row.brake_power)
    if job.pump.shaft_power:
        points = job.pump.shaft_power
        return straight_lines([p.flow.value for p in points], [p.power.value for p in points])
    if row is None:
        why = "[[pump.shaft_power]] is not given: ask the pump's maker for its curve of power"
        gather.lack("power.brake", why_not("[pump] stock", OPEN) if job.pump.stock == OPEN else why)
    return unknown_curve()


def _motor(job: Job, rating: float, voltage: float, gather: Gather) -> _Motor:
    """Currents at full load and at a start."""
    plate, letter = job.power.motor_current, job.power.code_letter
    table = float(electric.full_load_current(one(rating), one(voltage))[0])
    running = table if plate is None else plate.value
    table = running if math.isnan(table) else table
    start = electric.START_OVER_FULL_LOAD * table
    if letter is not None:
        ratio = one(electric.start_ratio_of(letter))
        start = float(electric.locked_rotor_current(one(rating), ratio, one(voltage))[0])
    if math.isnan(running):
        of_job = gather.missing.get("power.rating") or gather.missing.get("power.voltage")
        unlisted = "no table has a single-phase motor of that power and voltage: give [power] motor_current"
        for fact in ("power.table_current", "power.running_current"):
            gather.lack(fact, of_job or unlisted)
    if math.isnan(start):
        gather.lack("power.start_current", gather.missing.get("power.rating") or "[power] code_letter has no upper end")
    return _Motor(table, running, start)


def cable_named(stock: Stock, wire: str) -> Part | None:
    """The cable in stock that a marking names; copper alone is there."""
    marked = re.search(r"\d+(/0)?", wire)
    if marked is None or "alumin" in wire.casefold() or "mm" in wire.casefold():
        return None
    return next((part for part in _cables(stock) if part.size == marked[0]), None)


def _cables(stock: Stock) -> list[Part]:
    """Cables from the thinnest to the thickest."""
    rows = stock.parts_of("cable")
    return sorted(rows, key=lambda part: -part.figures["resistance"])


def _wire(power: Supply, stock: Stock, motor: _Motor, voltage: float, length: float, gather: Gather) -> _Wire:
    """The conductor that a job names; in a quote, and where it is open, the thinnest that will do."""
    if power.wire is not None and power.wire != OPEN:
        row = cable_named(stock, power.wire)
        why = f"no cable in stock is [power] wire, {power.wire!r}: copper from 14 to 4 AWG is known"
    else:
        row, why = _chosen(power, stock, motor, voltage, length, gather)
    if row is None:
        for fact in ("resistance", "ampacity_60", "ampacity_75"):
            gather.lack(f"power.{fact}", why)
        return _Wire(math.nan, math.nan, math.nan)
    return _Wire(*(row.figures[name] for name in ("resistance", "ampacity_60", "ampacity_75")))


def _chosen(
    power: Supply, stock: Stock, motor: _Motor, voltage: float, length: float, gather: Gather
) -> tuple[Part | None, str]:
    """The thinnest cable that will do, noted as assumed; else why there is none."""
    if any(math.isnan(each) for each in (motor.running, voltage, length)):
        return None, "[power] wire is not given, and too little is known to choose it"
    row = _thinnest(stock, motor, voltage, length)
    if row is None:
        return None, "no cable in stock is thick enough: a higher voltage, or the panel nearer"
    if power.wire is None and gather.grade != "quote":
        return None, f"[power] wire is not given: {row.size} AWG copper would do"
    share = f"{100.0 * standard_limits().drop_easy:.0f} %"
    why = f"the thinnest that loses no more than {share} of the voltage and carries a quarter over full load"
    gather.assumed["power.wire"] = Assumed("power.wire", math.nan, "", "assumed", why, row.name, "[power] wire")
    return row, ""


def _thinnest(stock: Stock, motor: _Motor, voltage: float, length: float) -> Part | None:
    """The thinnest cable that carries the motor with its quarter over, and loses no more than is easily borne."""
    wanted = electric.CONDUCTOR_OVER_FULL_LOAD * motor.table
    most = standard_limits().drop_easy * voltage

    def lost(part: Part) -> float:
        resistance = one(part.figures["resistance"])
        return float(electric.voltage_drop(one(motor.running), one(length), resistance)[0])

    return next(
        (part for part in _cables(stock) if part.figures["ampacity_60"] >= wanted and lost(part) <= most),
        None,
    )


def _source(power: Supply, gather: Gather) -> float:
    """What a generator or inverter gives [W]; the grid gives what a pump asks."""
    if power.supply not in ("generator", "inverter"):
        return math.inf
    return gather.number("power.source", power.source_power, "[power] source_power", kind="power")


def _protected(power: Supply, said: bool, gather: Gather) -> float:
    """Whether ground-fault protection is fitted; a quote counts on the electrician, and says so."""
    if not said:
        return 1.0
    answer = None if power.gfci == "unknown" else power.gfci
    said_so = gather.usual_word("power.protected", answer, "yes", "[power] gfci")
    if said_so is None:
        return gather.lack("power.protected", "[power] gfci is not given: ask the electrician who wired it")
    return float(said_so == "yes")
