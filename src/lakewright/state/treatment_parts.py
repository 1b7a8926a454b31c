"""The parts of branches and treatment, after the tank."""

from __future__ import annotations

import math
from dataclasses import dataclass

from lakewright.job.models import Job
from lakewright.job.quantity import is_given
from lakewright.state.gather import OPEN
from lakewright.state.limits import standard_limits
from lakewright.state.path import End, Laying, Piece, tee_for, usual_part
from lakewright.stock.load import Stock
from lakewright.stock.rows import Part

STATION = "treatment"

KINDS = {
    "sediment filter": "sediment filter",
    "absolute filter": "absolute filter",
    "UV": "ultraviolet",
    "chlorine": "chlorine feeder",
    "contact tank": "contact tank",
}
"""The kind in stock of each step a quote may take by itself; the others are too various."""


def lay_branches(laying: Laying, at: End | None, size: str, job: Job) -> End | None:
    """A tee and a valve for every branch of raw water, before the treatment."""
    for branch in job.need.branches:
        valve = laying.part("ball valve", size) if branch.water == "raw" else None
        if valve is not None:
            at, mouth = laying.hang(at, "tank", size, valve)
            laying.open(mouth, f"the branch {branch.name}")
    return at


@dataclass(frozen=True, slots=True)
class Step:
    """One step of a job's treatment: what it is, its name in stock, and whether a quote took that name as the usual."""

    what: str
    stock: str | None
    usual: bool = False


def steps_of(job: Job, stock: Stock, flow: float) -> list[Step]:
    """The steps of a job's treatment in the order the water passes; by `flow` [m3/s] a quote takes the usual ones."""
    told = [Step(step.what or "a step", step.stock) for step in job.treatment.steps]
    lamp = job.treatment.uv.stock
    if lamp is not None and lamp not in {step.stock for step in told}:
        told.append(Step("UV", lamp))
    if job.job.grade != "quote":
        return told
    return [step if step.stock is not None else _usual_step(step, stock, flow) for step in told]


def _usual_step(step: Step, stock: Stock, flow: float) -> Step:
    """The step with the finest, then the least part of its kind in stock that passes this flow, where there is one.

    ours: a lamp asks for the finest filter there is before it.
    """
    rows = stock.parts_of(KINDS[step.what]) if step.what in KINDS else []
    fit = [(part.figures.get("particle", 0.0), _passed(part), part.name) for part in rows if _serves(part, flow)]
    return Step(step.what, min(fit)[2], usual=True) if fit else step


def _passed(part: Part) -> float:
    """The most it is made to pass [m3/s]; infinite of a tank, which passes anything."""
    return part.figures.get("rated_flow", part.figures.get("high_flow", math.inf))


def _serves(part: Part, flow: float) -> bool:
    least = standard_limits().lamp_dose_least
    return _passed(part) >= flow * (1.0 - 1e-9) and part.figures.get("dose", least) >= least * (1.0 - 1e-9)


def steps_in_stock(laying: Laying, job: Job, flow: float) -> list[Part]:
    """The steps of a job's treatment that are in stock, in the order the water passes; others are gaps."""
    rows = []
    for step in steps_of(job, laying.stock, flow):
        what, name = step.what, step.stock
        row = laying.stock.parts.get(name or "")
        if row is not None and len(row.ports) == 2:
            rows.append(row)
            if step.usual:
                laying.notes.append(f"[treatment] {what} names no stock: billed as {name}")
        elif row is None:
            why = "is open" if name == OPEN else f"names {name!r}, which is not in stock" if name else "names no stock"
            laying.gaps.append(f"[treatment] {what} {why}: to be chosen")
        else:
            laying.gaps.append(f"[treatment] {what} names {name!r}, which water does not pass: to be chosen")
    return rows


def lay_treatment(laying: Laying, at: End | None, job: Job, flow: float) -> End | None:
    """Filters and lamp with a sample tap before and after each, valves round them, and a way past."""
    steps = steps_in_stock(laying, job, flow)
    if not steps:
        return at
    size = steps[0].ports[0].size
    tee, valve, elbow = (laying.part(kind, size) for kind in ("tee", "ball valve", "elbow"))
    if tee is None or valve is None or elbow is None:
        return at
    away = laying.follow(at, Piece(STATION, tee, through=(0, 1)))
    at = laying.run(End(away, 1), STATION, valve)
    held = job.treatment.flow_control
    if is_given(held):
        at = laying.run(at, STATION, flow_control_valve(laying, held.value, "[treatment] flow_control"))
    at = _sample_tap(laying, at, size)
    for step in steps:
        at = laying.run(at, STATION, step)
        at = _sample_tap(laying, at, size)
    at = laying.run(at, STATION, valve)
    back = laying.follow(at, Piece(STATION, tee, through=(0, 1)))
    past = End(away, 2)
    for row in (elbow, valve, elbow):
        past = laying.end(past, STATION, row)
    laying.meet(past, End(back, 2))
    return End(back, 1)


def flow_control_valve(laying: Laying, flow: float, place: str) -> Part | None:
    """The flow control valve in stock that holds a flow [m3/s], asked at a place of the job file."""
    rows = [part for part in laying.stock.parts_of("flow control") if len(part.ports) == 2]
    row = min(rows, key=lambda part: abs(part.figures["flow"] - flow), default=None)
    # ours: a valve that holds a tenth more or less is another valve.
    if row is None or abs(row.figures["flow"] - flow) > 0.1 * flow:
        laying.gaps.append(f"no flow control valve in stock holds the flow that {place} asks")
        return None
    return row


def _sample_tap(laying: Laying, at: End | None, size: str) -> End | None:
    tap = usual_part(laying.stock, "sample tap", "1/4")
    return (
        at
        if tap is None or tee_for(laying.stock, size, tap.ports[0]) is None
        else laying.hang(at, STATION, size, tap)[0]
    )
