"""From a job and the stock to facts: where every number of the job gets its SI value, or its name among the missing."""

from __future__ import annotations

import math
from collections.abc import Callable, Sequence
from dataclasses import dataclass, replace
from itertools import pairwise
from typing import Any, TypeVar

import numpy as np

from lakewright import units
from lakewright.errors import JobError, StockError, UnitError
from lakewright.job.models import Job
from lakewright.physics.curve import Curve, shape_keeping, straight_lines, unknown_curve
from lakewright.physics.jet import JetTable, jet_table, unknown_table
from lakewright.physics.types import Array
from lakewright.state.facts import (
    DayFacts,
    DeliveryFacts,
    Facts,
    FaultFacts,
    NeedFacts,
    PumpFacts,
    SiteFacts,
    StandFacts,
    SuctionFacts,
)
from lakewright.state.gather import Assumed, Gather, defaults, first_given, screen_rules, usual_days
from lakewright.state.limits import limit_rows, limits_with
from lakewright.state.profile import height_along, path_length
from lakewright.stock.load import Stock
from lakewright.stock.rows import Jet, Pipe, Pump

FIRM = {"rock", "boulders", "gravel", "sand", "clay", "concrete"}
SILTY = {"silt", "weed"}
OPEN = "open"
Row = TypeVar("Row")


@dataclass(frozen=True)
class Assembly:
    """Facts, and what stands behind them."""

    facts: Facts
    assumed: tuple[Assumed, ...]
    missing: dict[str, str]
    standings: dict[str, str]


def facts_of(job: Job, stock: Stock, file: str = "") -> Assembly:
    """Put a job's facts together.

    Parameters
    ----------
    job : as read
    stock : what can be had
    file : name of the job file, for messages

    Returns
    -------
    Assembly; a fact nobody gave is nan in the facts and named in `missing`

    Raises
    ------
    JobError where the job names a part that is not in stock or a limit that is not there
    """
    gather = Gather(job.job.grade)
    overrides = _overrides(job, gather)
    pump, kind = _pump(job, stock, gather)
    days, names = _days(job, gather)
    facts = Facts(
        site=_site(job, gather),
        days=days,
        stand=_stand(job, stock, gather),
        suction=_suction(job, stock, gather),
        pump=pump,
        delivery=_delivery(job, stock, gather),
        need=NeedFacts(_need(job, gather)),
        faults=_faults(job),
        limits=limits_with(overrides),
        pump_kind=kind,
        day_names=names,
    )
    if gather.mistakes:
        raise JobError([replace(mistake, file=file) for mistake in gather.mistakes])
    return Assembly(facts, tuple(gather.assumed.values()), gather.missing, gather.standings)


def _overrides(job: Job, gather: Gather) -> dict[str, float]:
    """The limits a job changes, SI."""
    rows, found = limit_rows(), {}
    for name, override in job.limits.items():
        key, figures = f"[limits.{name}]", override.figures
        if name not in rows:
            gather.mistake(key, repr(name), "the name of a limit", f"write one of: {', '.join(rows)}")
        elif set(figures) != {"value"}:
            gather.mistake(
                key,
                f"{sorted(figures)}",
                "value and reason",
                f'write value = "{rows[name].text}" and a reason',
            )
        else:
            try:
                value = units.read(str(figures["value"]), rows[name].dimension)
            except UnitError as error:
                gather.mistake(f"{key} value", error.found, error.wanted, error.remedy)
                continue
            if name.endswith("comfort") and value <= 0.0:
                gather.mistake(f"{key} value", repr(figures["value"]), "more than nothing", "a comfort is a yardstick")
                continue
            found[name] = value
            gather.assumed[f"limits.{name}"] = Assumed(
                f"limits.{name}", value, rows[name].kind, "override", override.reason
            )
    return found


def _stocked(gather: Gather, key: str, find: Callable[[str], Row], name: str | None) -> Row | None:
    """A part by its name in stock; a stranger's name is a mistake, and none or open is nothing."""
    if name is None or name == OPEN:
        return None
    try:
        return find(name)
    except StockError as error:
        found, wanted, remedy = str(error).split("; ", 2)
        gather.mistake(key, found.removeprefix("found "), wanted.removeprefix("wanted "), remedy)
        return None


def _one(value: float) -> Array:
    return np.array([value], dtype=float)


def _soft(job: Job) -> bool:
    soft = job.site.bed.soft
    return job.site.bed.kind == "mud" or (soft is not None and soft.value > defaults()["site.soft bed"].value)


def _by_bed(job: Job, name: str) -> str:
    if _soft(job):
        return f"{name} in soft bed"
    if job.site.bed.kind in SILTY:
        return f"{name} {'over' if name == 'site.bed_wanted' else 'on'} silt"
    return f"{name} on firm bed" if name == "stand.riser" else name


def _site(job: Job, gather: Gather) -> SiteFacts:
    site = job.site
    boats = site.boats in ("some", "many") or (site.boats in (None, "unknown") and site.kind not in ("tank", "stream"))
    floor = defaults()["site.cover_floor with boats" if boats else "site.cover_floor"].value
    velocity, on_open = _screen_rule(job, gather)
    return SiteFacts(
        elevation=_one(gather.number("site.elevation", site.elevation, "[site] elevation")),
        weather=_one(gather.default("site.weather", "", "site.weather")),
        flood=_one(gather.number("site.flood", site.levels.flood, "[site.levels] flood")),
        waves=_one(gather.number("site.waves", site.levels.waves, "[site.levels] waves")),
        cover_floor=_one(floor),
        bed_wanted=_one(_bed_wanted(job, gather)),
        screen_velocity=_one(velocity),
        screen_on_open=_one(on_open),
    )


def _bed_wanted(job: Job, gather: Gather) -> float:
    if job.site.bed.kind in (None, "unknown") and gather.grade == "build":
        return gather.lack("site.bed_wanted", "[site.bed] kind is not given")
    return defaults()[_by_bed(job, "site.bed_wanted")].value


def _screen_rule(job: Job, gather: Gather) -> tuple[float, float]:
    rule = job.site.rules.screen
    if rule == "none":
        return math.inf, 0.0
    if rule is None:
        if gather.grade == "build":
            lack = "[site.rules] screen is not given: ask the authority which rule is in force"
            return gather.lack("site.screen_velocity", lack), gather.lack("site.screen_on_open", lack)
        rule = "federal passive"
        gather.assumed["site.screen_velocity"] = Assumed(
            "site.screen_velocity",
            screen_rules()[rule][0],
            "face_speed",
            "assumed",
            "the strictest rule in common use until asked",
        )
    velocity, on_open = screen_rules()[rule]
    return velocity, float(on_open)


def _levels(job: Job, gather: Gather) -> dict[str, float]:
    levels = job.site.levels
    low = first_given(levels.low, levels.lowest_seen)
    default = "site.low behind a dam" if job.site.dam == "yes" else "site.low"
    return {
        "usual": 0.0,
        "low": gather.number("days.level", low, "[site.levels] low", default),
        "flood": gather.number("site.flood", levels.flood, "[site.levels] flood"),
    }


def _days(job: Job, gather: Gather) -> tuple[DayFacts, tuple[str, ...]]:
    if not job.site.days:
        return _usual_days(job, gather)

    def column(fact: str, field: str, default: str | None = None) -> Array:
        place = f"[[site.days]] {field}"
        return np.array([gather.number(fact, getattr(day, field), place, default) for day in job.site.days])

    days = DayFacts(
        level=column("days.level", "level", "site.low"),
        temperature=column("days.temperature", "water"),
        ice=column("days.ice", "ice"),
        dirt=column("days.dirt", "dirt"),
        demand=column("days.demand", "demand"),
    )
    return days, tuple(day.name for day in job.site.days)


def _usual_days(job: Job, gather: Gather) -> tuple[DayFacts, tuple[str, ...]]:
    levels = _levels(job, gather)
    seasons = {"open"} if job.need.season in ("hauled", "drained") else {"open", "winter"}
    rows = [row for row in usual_days() if row["season"] in seasons]

    def column(fact: str) -> Array:
        def one(row: dict[str, str]) -> float:
            winter = f"{fact} in winter"
            name = winter if row["season"] == "winter" and winter in defaults() else fact
            return gather.default(fact, "[[site.days]]", name)

        return np.array([one(row) for row in rows])

    names = ("temperature", "ice", "dirt", "demand")
    level = np.array([levels[row["level"]] for row in rows])
    days = DayFacts(level, *(column(f"days.{name}") for name in names))
    return days, tuple(row["name"] for row in rows)


def _stand(job: Job, stock: Stock, gather: Gather) -> StandFacts:
    stand, inlet = job.stand, job.stand.inlet
    valve = _stocked(gather, "[stand.inlet] stock", stock.foot_valve, inlet.stock)
    screen = _stocked(gather, "[stand.inlet] screen", stock.screen, inlet.screen)
    pipe = stock.pipes.get(job.suction.stock or "")
    bore = inlet.bore.value if inlet.bore else valve.bore if valve else pipe.bore if pipe else math.nan
    if math.isnan(bore):
        gather.lack("stand.riser_bore", "[stand.inlet] stock is not given")
    screened = inlet.kind == "screen"
    area, structure, opening = _screen(job, screen, bore, gather)
    rise = (screen.length if screen else 0.0) if screened else None
    return StandFacts(
        depth=_one(_depth(job, gather)),
        frame=_one(gather.default("stand.frame", "", "stand.frame")),
        riser=_one(gather.number("stand.riser", stand.riser, "[stand] riser", _by_bed(job, "stand.riser"))),
        inlet_rise=_one(
            screen.length if screen else rise or gather.default("stand.inlet_rise", "", "stand.inlet_rise")
        ),
        sink=_one(gather.number("stand.sink", job.site.bed.soft, "[site.bed] soft")),
        riser_bore=_one(bore),
        valve_coefficient=_one(
            _valve(
                gather,
                "valve_coefficient",
                inlet.loss_coefficient,
                valve.loss_coefficient if valve else None,
                screened,
            )
        ),
        valve_lift_factor=_one(
            0.0 if screened else valve.full_lift_factor if valve else _no_valve(gather, "valve_lift_factor")
        ),
        opening_pressure=_one(
            _valve(
                gather,
                "opening_pressure",
                inlet.opening_pressure,
                valve.opening_pressure if valve else None,
                screened,
            )
        ),
        screen_area=_one(area),
        screen_structure=_one(structure),
        screen_open=_one(opening),
    )


def _valve(gather: Gather, field: str, given: Any, stocked: float | None, screened: bool) -> float:
    if given is not None:
        return float(given.value)
    if stocked is not None:
        return stocked
    return 0.0 if screened else _no_valve(gather, field)


def _no_valve(gather: Gather, field: str) -> float:
    return gather.lack(f"stand.{field}", "[stand.inlet] stock is not given")


def _screen(job: Job, screen: Any, bore: float, gather: Gather) -> tuple[float, float, float]:
    inlet = job.stand.inlet
    if screen is not None:
        return screen.area, screen.structure_fraction, screen.open_fraction
    if inlet.screen_area is not None:
        opening = gather.number("stand.screen_open", inlet.screen_open_fraction, "[stand.inlet] screen_open_fraction")
        return inlet.screen_area.value, 1.0, opening
    if gather.grade == "build":
        lack = "[stand.inlet] screen is not given"
        return gather.lack("stand.screen_area", lack), 1.0, 1.0
    times = gather.default("stand.screen_area", "[stand.inlet] screen", "stand.screen_area per pipe area")
    return times * 0.25 * math.pi * bore * bore, 1.0, 1.0


def _depth(job: Job, gather: Gather) -> float:
    at, soundings = job.stand.at, job.site.soundings
    if at is not None and at.open:
        return gather.lack("stand.depth", "[stand] at is open: design chooses it")
    if not soundings:
        return gather.default("stand.depth", "[[site.soundings]]", "stand.depth")
    if at is None:
        return gather.lack("stand.depth", "[stand] at is not given")
    depth = height_along(*bed_profile(job), _one(at.value))[0]
    if math.isnan(depth):
        return gather.lack("stand.depth", "[stand] at lies beyond the last of [[site.soundings]]")
    return float(depth)


def bed_profile(job: Job) -> tuple[list[float], list[float]]:
    """Distances and depths of the soundings [m]."""
    return [s.distance.value for s in job.site.soundings], [s.depth.value for s in job.site.soundings]


def ground_profile(job: Job) -> tuple[list[float], list[float]]:
    """Distances and heights of the ground [m]."""
    return [g.distance.value for g in job.site.ground], [g.height.value for g in job.site.ground]


def _suction(job: Job, stock: Stock, gather: Gather) -> SuctionFacts:
    suction = job.suction
    pipe = _stocked(gather, "[suction] stock", stock.pipe, suction.stock)
    bed, bank, along = _suction_length(job, gather)
    bore, rough, fouled = pipe_facts("suction", suction, pipe, gather)
    return SuctionFacts(
        _one(bed),
        _one(bank),
        _one(along),
        _one(bore),
        _one(rough),
        _one(fouled),
        _one(coefficient_of("suction", suction, pipe, stock, gather)),
    )


def _suction_length(job: Job, gather: Gather) -> tuple[float, float, float]:
    given = job.suction.length
    if given is not None and not given.open:
        return gather.number("suction.bed_length", given, ""), 0.0, 0.0
    along = gather.number("suction.along", job.suction.along, "[suction] along")
    bed = _length("suction.bed_length", job.stand.at, bed_profile(job), "[stand] at", "stand.at", gather)
    bank = _length("suction.bank_length", job.pump.distance, ground_profile(job), "[pump] distance", None, gather)
    return bed, bank, along


def _length(
    fact: str,
    at: Any,
    profile: tuple[Sequence[float], Sequence[float]],
    place: str,
    default: str | None,
    gather: Gather,
) -> float:
    """Length along a profile to a place; the plain distance where no profile was taken."""
    distance = gather.number(fact, at, place, default)
    if math.isnan(distance) or not profile[0]:
        return distance
    length = path_length(*profile, _one(distance))[0]
    if math.isnan(length):
        return gather.lack(fact, f"{place} lies beyond the points of the profile")
    return float(length)


def pipe_facts(table: str, line: Any, pipe: Pipe | None, gather: Gather) -> tuple[float, float, float]:
    """Bore and roughness of a line, new and fouled [m]."""
    place = f"[{table}] stock is {'open: design chooses it' if line.stock == OPEN else 'not given'}"

    def one(field: str, given: Any, stocked: float | None) -> float:
        if given is not None:
            return float(given.value)
        return stocked if stocked is not None else gather.lack(f"{table}.{field}", place)

    return (
        one("bore", line.bore, pipe.bore if pipe else None),
        one("roughness", line.roughness, pipe.roughness if pipe else None),
        one("roughness_fouled", line.roughness_fouled, pipe.roughness_fouled if pipe else None),
    )


EXIT = 1.0
"""Loss coefficient of a pipe's end in a tank [-]. Source: TP-410, page A-29, all exits (restated)."""


def coefficient_of(table: str, line: Any, pipe: Pipe | None, stock: Stock, gather: Gather) -> float:
    """Sum of a line's loss coefficients on its own velocity; the delivery line's with its exit."""
    end = EXIT if table == "delivery" else 0.0
    if line.loss_coefficient is not None:
        return float(line.loss_coefficient.value) + end
    if pipe is None:
        return gather.lack(f"{table}.coefficient", f"[{table}] stock is not given")
    return stock.loss_coefficient(line.fittings.model_dump(), pipe.size) + end


def _pump(job: Job, stock: Stock, gather: Gather) -> tuple[PumpFacts, str]:
    pump = job.pump
    row = _stocked(gather, "[pump] stock", stock.pump, pump.stock)
    if row is not None:
        curve, required, fall, jet, kind = pump_columns(row)
    else:
        curve, required, fall, jet, kind = _own_pump(job, gather)
    power = pump.power.value if pump.power else row.power if row else math.nan
    if math.isnan(power):
        gather.lack("pump.minimum_run", "[pump] power is not given")
    return PumpFacts(
        height=_one(_pump_height(job, gather)),
        curve=curve,
        required=required,
        fall=_one(fall),
        jet=jet,
        minimum_run=_one(minimum_run(power)),
    ), kind


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
        heads = [point.head.value for point in pump.curve]
        curve = shape_keeping([point.flow.value for point in pump.curve], heads)
        fall = -max(b - a for a, b in pairwise(heads))
    else:
        gather.lack("pump.curve", place)
        gather.lack("pump.fall", place)
    if pump.npsh:
        required = straight_lines([p.flow.value for p in pump.npsh], [p.head.value for p in pump.npsh])
    else:
        gather.lack("pump.required", "[[pump.npsh]] is not given" if pump.curve else place)
    if pump.kind == "jet":
        gather.lack("pump.jet", place)
        return unknown_curve(), unknown_curve(), math.nan, unknown_table(), "jet"
    return curve, required, fall, unknown_table(), "centrifugal"


def _pump_height(job: Job, gather: Gather) -> float:
    pump = job.pump
    if pump.height is None and pump.distance is not None and not pump.distance.open and job.site.ground:
        height = height_along(*ground_profile(job), _one(pump.distance.value))[0]
        if not math.isnan(height):
            return float(height)
    return gather.number("pump.height", pump.height, "[pump] height")


def _delivery(job: Job, stock: Stock, gather: Gather) -> DeliveryFacts:
    delivery = job.delivery
    pipe = _stocked(gather, "[delivery] stock", stock.pipe, delivery.stock)
    bore, rough, fouled = pipe_facts("delivery", delivery, pipe, gather)
    cut_in = gather.number("delivery.cut_in", delivery.cut_in, "[delivery] cut_in")
    return DeliveryFacts(
        bore=_one(bore),
        length=_one(gather.number("delivery.length", delivery.length, "[delivery] length")),
        roughness=_one(rough),
        roughness_fouled=_one(fouled),
        coefficient=_one(coefficient_of("delivery", delivery, pipe, stock, gather)),
        height=_one(_tee_height(job, gather)),
        cut_in=_one(cut_in),
        cut_out=_one(gather.number("delivery.cut_out", delivery.cut_out, "[delivery] cut_out")),
        precharge=_one(_precharge(job, cut_in, gather)),
        tank_volume=_one(_tank(job, stock, gather)),
    )


def _tee_height(job: Job, gather: Gather) -> float:
    height, pump = job.delivery.height, job.pump.height
    if height is None and pump is not None and not pump.open:
        name = "delivery.height above the pump"
        return pump.value + gather.default("delivery.height", "[delivery] height", name)
    if height is None:
        return gather.lack("delivery.height", "[delivery] height is not given")
    return gather.number("delivery.height", height, "[delivery] height")


def _precharge(job: Job, cut_in: float, gather: Gather) -> float:
    given = job.delivery.precharge
    if given is not None:
        return gather.number("delivery.precharge", given, "[delivery] precharge")
    under = defaults()["delivery.precharge under cut-in"]
    gather.assumed["delivery.precharge"] = Assumed(
        "delivery.precharge", cut_in - under.value, "gauge", "assumed", f"{under.why} ({under.source})"
    )
    return cut_in - under.value


def _tank(job: Job, stock: Stock, gather: Gather) -> float:
    delivery = job.delivery
    if delivery.tank_volume is not None:
        return gather.number("delivery.tank_volume", delivery.tank_volume, "[delivery] tank_volume")
    if delivery.tank in (None, OPEN):
        why = "[delivery] tank is open: design chooses it" if delivery.tank else "[delivery] tank is not given"
        return gather.lack("delivery.tank_volume", why)
    tank = _stocked(gather, "[delivery] tank", stock.tank, delivery.tank)
    return tank.volume if tank else math.nan


def _need(job: Job, gather: Gather) -> Array:
    need = job.need
    if need.flow is not None or need.baths is None:
        return _one(gather.number("need.flow", need.flow, "[need] flow", "need.flow, one bath"))
    flow = gather.default(
        "need.flow", "[need] flow", "need.flow, one bath" if need.baths <= 1 else "need.flow, two baths"
    )
    hose = defaults()["need.flow, hose"].value if need.hose == "yes" else 0.0
    return _one(flow + hose)


def _faults(job: Job) -> FaultFacts:
    faults = job.pump.faults

    def one(given: Any, neutral: float) -> Array:
        return _one(neutral if given is None else given.value)

    return FaultFacts(
        blocked=one(faults.blocked, 0.0),
        valve_opening=one(faults.valve_opening, 1.0),
        air=one(faults.air, 0.0),
        wear=one(faults.wear, 0.0),
        speed=one(faults.speed, 1.0),
        nozzle=_one(1.0 - (0.0 if faults.nozzle is None else faults.nozzle.value)),
        level_offset=one(faults.level_offset, 0.0),
    )
