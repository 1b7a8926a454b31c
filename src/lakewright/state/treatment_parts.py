"""The parts of branches and treatment, after the tank."""

from __future__ import annotations

from lakewright.job.models import Job
from lakewright.state.gather import OPEN
from lakewright.state.path import End, Laying, Piece, tee_for, usual_part
from lakewright.stock.rows import Part

STATION = "treatment"


def lay_branches(laying: Laying, at: End | None, size: str, job: Job) -> End | None:
    """A tee and a valve for every branch of raw water, before the treatment."""
    for branch in job.need.branches:
        valve = laying.part("ball valve", size) if branch.water == "raw" else None
        if valve is not None:
            at, mouth = laying.hang(at, "tank", size, valve)
            laying.open(mouth, f"the branch {branch.name}")
    return at


def steps_of(job: Job) -> list[tuple[str, str | None]]:
    """What each step of a job's treatment is, and its name in stock, in the order the water passes."""
    named: list[tuple[str, str | None]] = [(step.what or "a step", step.stock) for step in job.treatment.steps]
    lamp = job.treatment.uv.stock
    return named if lamp is None or lamp in {name for _, name in named} else [*named, ("UV", lamp)]


def steps_in_stock(laying: Laying, job: Job) -> list[Part]:
    """The steps of a job's treatment that are named in stock, in the order the water passes; others are gaps."""
    rows = []
    for what, name in steps_of(job):
        row = laying.stock.parts.get(name or "")
        if row is not None and len(row.ports) == 2:
            rows.append(row)
        elif row is None:
            why = "is open" if name == OPEN else f"names {name!r}, which is not in stock" if name else "names no stock"
            laying.gaps.append(f"[treatment] {what} {why}: to be chosen")
        else:
            laying.gaps.append(f"[treatment] {what} names {name!r}, which water does not pass: to be chosen")
    return rows


def lay_treatment(laying: Laying, at: End | None, job: Job) -> End | None:
    """Filters and lamp with a sample tap before and after each, valves round them, and a way past."""
    steps = steps_in_stock(laying, job)
    if not steps:
        return at
    size = steps[0].ports[0].size
    tee, valve, elbow = (laying.part(kind, size) for kind in ("tee", "ball valve", "elbow"))
    if tee is None or valve is None or elbow is None:
        return at
    away = laying.follow(at, Piece(STATION, tee, through=(0, 1)))
    at = laying.run(End(away, 1), STATION, valve)
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


def _sample_tap(laying: Laying, at: End | None, size: str) -> End | None:
    tap = usual_part(laying.stock, "sample tap", "1/4")
    return (
        at
        if tap is None or tee_for(laying.stock, size, tap.ports[0]) is None
        else laying.hang(at, STATION, size, tap)[0]
    )
