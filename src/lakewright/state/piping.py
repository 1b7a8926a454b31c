"""The parts of a job from the lake to the taps, as one path."""

from __future__ import annotations

import functools
import math

import numpy as np

from lakewright.job.models import Job
from lakewright.job.quantity import is_given
from lakewright.state.assemble import Assembly
from lakewright.state.coils import coils_for
from lakewright.state.control_facts import BY_FLOW, STORE, SWITCH
from lakewright.state.control_parts import controller_for, lay_store, top_pressure
from lakewright.state.holding import usual_arrangement
from lakewright.state.path import End, Laying, Piece, WaterPath, usual_part, why_none
from lakewright.state.profile import bed_profile, path_length
from lakewright.state.stand_parts import lay_stand
from lakewright.state.treatment_parts import flow_control_valve, lay_branches, lay_treatment
from lakewright.stock.load import Stock
from lakewright.stock.measure import PSI
from lakewright.stock.rows import Jet, Part, Pipe, Pump, Tank

INDOORS = ("brass", "PVC", "nylon", "copper")
"""common practice, no source: what joins lines under pressure and over the water."""
GAUGE_OVER_CUT_OUT = 1.25
"""ours: a gauge lives longer, and is read better, a quarter over what it stands at."""
RELIEF_OVER_CUT_OUT = 15.0 * PSI
"""ours: a relief valve nearer to cut-out weeps."""
SWITCH_OFF_BY = 5.0 * PSI
"""ours: a switch is set that far on its spring, no farther."""


def path_of(job: Job, stock: Stock, assembly: Assembly) -> WaterPath:
    """The parts of a job in the order water meets them, joined port to port.

    Parameters
    ----------
    job : as read
    stock : what can be had
    assembly : its facts, with the names of the parts taken

    Returns
    -------
    WaterPath; what is open, not given or does not join is said in its gaps
    """
    laying = Laying(stock)
    suction, delivery = (_pipe(laying, job, assembly, table) for table in ("suction", "delivery"))
    arrangement = job.holding.arrangement or usual_arrangement(job)
    if job.holding.arrangement is None:
        laying.notes.append(f"[holding] arrangement is not given: billed as {arrangement}")
    at = lay_stand(laying, job, assembly)
    at = _line(laying, at, "suction line", suction, suction_length(assembly), length_above_water(job, assembly))
    if suction:
        at = _before_pump(laying, at, suction.size, job, assembly, arrangement)
    at = _pump(laying, at, job, assembly)
    if delivery:
        at = _after_pump(laying, at, delivery.size, assembly, arrangement)
    at = _line(laying, at, "delivery", delivery, float(assembly.facts.delivery.length[0]))
    if delivery:
        stored = assembly.facts.control_kind == STORE
        at = (lay_store if stored else _tank)(laying, at, delivery.size, job, assembly)
        at = lay_branches(laying, at, delivery.size, job)
        at = lay_treatment(laying, at, job, float(assembly.facts.need.flow[0]))
    if at is not None:
        laying.open(at, "the taps")
    return laying.path()


def suction_length(assembly: Assembly) -> float:
    """Length of the suction line [m]."""
    suction = assembly.facts.suction
    return float(((suction.bed_length + suction.bank_length) * (1.0 + suction.along))[0])


def length_above_water(job: Job, assembly: Assembly) -> float:
    """Length of the suction line from the lowest waterline to the pump [m], where no joint may lie.

    The whole of it where nobody has said how far the pump stands from the water's edge, or how low the water goes.
    """
    suction, whole = assembly.facts.suction, suction_length(assembly)
    bank = float(suction.bank_length[0])
    if bank == 0.0:
        given = job.pump.distance
        if not is_given(given):
            return whole
        bank = given.value
    said = [level.value for level in (job.site.levels.low, job.site.levels.lowest_seen) if level is not None]
    known = [level for level in (*assembly.facts.days.level.ravel(), *said) if not math.isnan(level)]
    if not known:
        return whole
    dry = _dry_bed(job, -float(min(known)))
    return min(whole, (bank + dry) * (1.0 + float(suction.along[0])))


def _dry_bed(job: Job, drop: float) -> float:
    """Length of bed [m] that the lowest water leaves dry, from the usual edge outward, as far as it was sounded."""
    if drop <= 0.0 or not job.site.soundings:
        return 0.0
    distances, depths = bed_profile(job)
    deep = [distance for distance, depth in zip(distances, depths, strict=True) if depth >= drop]
    edge = np.interp(drop, depths, distances) if sorted(depths) == depths else (deep or distances[-1:])[0]
    return float(path_length(distances, depths, np.array([edge]))[0])


def _pipe(laying: Laying, job: Job, assembly: Assembly, table: str) -> Pipe | None:
    """The pipe of a line, or a gap that says why there is none."""
    name = assembly.parts.get(f"[{table}] stock")
    if name is not None and name in laying.stock.pipes:
        return laying.stock.pipes[name]
    laying.gaps.append(f"[{table}] stock {why_none(getattr(job, table).stock, 'a pipe')}")
    return None


def _line(
    laying: Laying, at: End | None, station: str, pipe: Pipe | None, length: float, whole: float = 0.0
) -> End | None:
    """A line from coils, spliced where one does not reach, the splices nearest to where it starts."""
    if pipe is None:
        return None
    if not length > 0.0:
        laying.gaps.append(f"the length of the {station} is not known")
        return None
    bought = coils_for(pipe.coils, length, whole)
    left = sum(bought) - length
    for index, sold in enumerate(bought):
        used = sold if index else sold - left
        at = End(laying.follow(at, Piece(station, pipe, used, sold, through=(0, 1))), 1)
    return at


def _before_pump(
    laying: Laying, at: End | None, size: str, job: Job, assembly: Assembly, arrangement: str
) -> End | None:
    """What the line passes before the pump: prime, drain, union, gauge; first a valve where water stands over it."""
    stock = laying.stock
    if arrangement == "flooded":
        at = laying.run(at, "pump", laying.part("ball valve", size))
    elif job.holding.priming_tee != "no":
        plug = next(iter(stock.parts_of("priming plug")), None)
        if plug is not None:
            at, _ = laying.hang(at, "pump", size, plug, ("priming tee", "tee"))
    at = lay_bib(laying, at, size)
    at = laying.run(at, "pump", laying.part("union", size))
    gauge = job.holding.gauge or "compound"
    if gauge == "none":
        return at
    kind = "pressure gauge" if gauge == "pressure" else "compound gauge"
    row = gauge_for(stock, kind, top_pressure(assembly))
    return at if row is None else laying.hang(at, "pump", size, row)[0]


def lay_bib(laying: Laying, at: End | None, size: str) -> End | None:
    """A hose bib on a tee, to drain by."""
    bib = usual_part(laying.stock, "hose bib", "3/4")
    if bib is None:
        return at
    at, mouth = laying.hang(at, "pump", size, bib)
    laying.open(mouth, "a hose, to drain by")
    return at


def _pump(laying: Laying, at: End | None, job: Job, assembly: Assembly) -> End | None:
    row = pump_row(laying.stock, assembly)
    if row is None:
        laying.pump_at = len(laying.pieces)
        laying.preferred = INDOORS
        laying.gaps.append(f"[pump] stock {why_none(job.pump.stock, 'a pump')}: its ports are not known")
        return None
    laying.pump_at = laying.follow(at, Piece("pump", row, through=(0, 1)))
    laying.preferred = INDOORS
    return End(laying.pump_at, 1)


def pump_row(stock: Stock, assembly: Assembly) -> Pump | Jet | None:
    """The pump in stock that a job names."""
    name = assembly.parts.get("[pump] stock", "")
    return stock.pumps.get(name) or stock.jets.get(name)


def _after_pump(laying: Laying, at: End | None, size: str, assembly: Assembly, arrangement: str) -> End | None:
    """What the water passes after the pump: union, check, gauge, flow control, drain, valve."""
    at = laying.run(at, "pump", laying.part("union", size))
    if "check at pump" in arrangement:
        at = laying.run(at, "pump", laying.part("spring check", size))
    # After the check the gauge reads the tank while the pump rests; before it, it would read the line's vacuum.
    gauge = gauge_for(laying.stock, "pressure gauge", top_pressure(assembly))
    if gauge is not None:
        at, _ = laying.hang(at, "pump", size, gauge)
    if math.isfinite(flow := float(assembly.facts.delivery.flow_control[0])):
        at = laying.run(at, "pump", flow_control_valve(laying, flow, "[delivery] flow_control"))
    at = lay_bib(laying, at, size)
    return laying.run(at, "pump", laying.part("ball valve", size))


@functools.lru_cache(maxsize=256)
def gauge_for(stock: Stock, kind: str, cut_out: float) -> Part | None:
    """The gauge of a kind with the least range that is well over cut-out [Pa], else the widest."""
    rows = sorted(
        stock.parts_of(kind),
        key=lambda part: (part.figures["most_pressure"], part.price, part.name),
    )
    enough = [part for part in rows if part.figures["most_pressure"] >= GAUGE_OVER_CUT_OUT * cut_out]
    return next(iter(enough or rows[-1:]), None)


def _tank(laying: Laying, at: End | None, size: str, job: Job, assembly: Assembly) -> End | None:
    """Tees with switch, gauge, relief piped away and drain, and the tank on the last."""
    stock, facts = laying.stock, assembly.facts.delivery
    cut_in, cut_out, kind = float(facts.cut_in[0]), float(facts.cut_out[0]), assembly.facts.control_kind
    if kind == SWITCH:
        at = _switched(laying, at, size, cut_in)
    elif kind == BY_FLOW:
        at = _by_flow(laying, at, job, assembly)
    gauge = gauge_for(stock, "pressure gauge", top_pressure(assembly))
    if gauge is not None:
        at, _ = laying.hang(at, "tank", size, gauge)
    # A controller of flow lets the pump rise to its shut-off every time: a valve set under that would weep.
    if kind != BY_FLOW or is_given(job.delivery.relief):
        at = _relief(laying, at, size, job, assembly, cut_out)
    drain = usual_part(stock, "drain", "1/2")
    if drain is not None:
        at, mouth = laying.hang(at, "tank", size, drain)
        laying.open(mouth, "a hose, to drain by")
    tank = tank_row(stock, assembly)
    if tank is None:
        laying.gaps.append(f"[delivery] tank {why_none(job.delivery.tank, 'a tank')}")
    else:
        at, _ = laying.hang(at, "tank", size, tank)
    return laying.run(at, "tank", laying.part("ball valve", size))


def tank_row(stock: Stock, assembly: Assembly) -> Tank | None:
    """The tank in stock that a job names."""
    return stock.tanks.get(assembly.parts.get("[delivery] tank", ""))


def _switched(laying: Laying, at: End | None, size: str, cut_in: float) -> End | None:
    switch, stem = _switch(laying, cut_in), laying.part("nipple", "1/4")
    if switch is not None and stem is not None:
        at, top = laying.hang(at, "tank", size, stem)
        laying.end(top, "tank", switch)
    return at


def _by_flow(laying: Laying, at: End | None, job: Job, assembly: Assembly) -> End | None:
    """A controller of pressure and flow, in the line."""
    power = float(assembly.facts.power.rating[0])
    row = controller_for(laying.stock, BY_FLOW, job.delivery.controller.stock, power)
    if row is None:
        laying.gaps.append("no pressure-flow controller in stock is made for this motor")
    return laying.run(at, "tank", row)


def _switch(laying: Laying, cut_in: float) -> Part | None:
    rows = laying.stock.parts_of("pressure switch")
    row = min(rows, key=lambda part: abs(part.figures["cut_in"] - cut_in), default=None)
    if row is None or not abs(row.figures["cut_in"] - cut_in) <= SWITCH_OFF_BY:
        laying.gaps.append("no pressure switch in stock starts at [delivery] cut_in")
        return None
    return row


def _relief(laying: Laying, at: End | None, size: str, job: Job, assembly: Assembly, cut_out: float) -> End | None:
    """The relief valve: of those over cut-out the lowest, of those that pass all the pump gives the cheapest."""
    given = job.delivery.relief
    least = given.value if is_given(given) else cut_out + RELIEF_OVER_CUT_OUT
    rows = [part for part in laying.stock.parts_of("relief valve") if len(part.ports) == 2]
    over = [part for part in rows if part.figures["set_pressure"] >= least - PSI]
    if not over:
        laying.gaps.append("no relief valve in stock opens far enough over cut-out")
        return at
    lowest = min(part.figures["set_pressure"] for part in over)
    fit = sorted((part for part in over if part.figures["set_pressure"] == lowest), key=lambda p: (p.price, p.name))
    most = most_flow(pump_row(laying.stock, assembly))
    row = next((part for part in fit if part.figures["capacity"] >= most), fit[-1])
    at, mouth = laying.hang(at, "tank", size, row)
    elbow = usual_part(laying.stock, "elbow", row.size)
    if elbow is not None:
        mouth = laying.end(mouth, "tank", elbow)
    laying.open(mouth, "a drain outside, by a pipe cut on site")
    return at


def most_flow(pump: Pump | Jet | None) -> float:
    """The most a pump gives [m3/s]; nothing where it is not known."""
    if pump is None:
        return 0.0
    return max(max(row) for row in pump.flow) if isinstance(pump, Jet) else pump.flow[-1]
