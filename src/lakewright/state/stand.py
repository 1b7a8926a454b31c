"""The intake stand of a job as its members: every part of it from the stock, where it stands."""

from __future__ import annotations

from lakewright.job.models import Job
from lakewright.job.quantity import is_given
from lakewright.state.assemble import Assembly
from lakewright.state.holding import has_no_foot_valve
from lakewright.state.intake import is_as_built
from lakewright.state.placed import At, Mouth, Placed, Stand, footprint_of, parts_of
from lakewright.state.stand_built import asked_of, built
from lakewright.stock.load import Stock
from lakewright.stock.rows import FootValve

__all__ = [
    "At",
    "Mouth",
    "Placed",
    "Stand",
    "foot_valve_of",
    "footprint_of",
    "parts_of",
    "stand_of",
]


def stand_of(job: Job, stock: Stock, assembly: Assembly) -> Stand:
    """The stand of a job.

    Parameters
    ----------
    job : as read
    stock : what can be had
    assembly : its facts, with the names of the parts taken

    Returns
    -------
    Stand; what nobody said is taken as usual and said in its notes, what cannot be had is said in its gaps
    """
    parts, facts, riser = assembly.parts, assembly.facts.stand, job.stand.riser
    # The riser of the facts stands on the frame where that is known, else on the bed, as a job has it.
    base = float(facts.frame[0]) if is_as_built(job) else 0.0
    asked = asked_of(
        job,
        valve=foot_valve_of(job, stock, assembly),
        screen=stock.screens.get(parts.get("[stand.inlet] screen", "")),
        pipe=stock.pipes.get(parts.get("[suction] stock", "")),
        riser=riser.value if is_given(riser) else base + float(facts.riser[0]),
        depth=float(facts.depth[0]),
    )
    return built(asked, stock)


def foot_valve_of(job: Job, stock: Stock, assembly: Assembly) -> FootValve | None:
    """The foot valve of a job; none where a screen stands alone, or where the line is held otherwise."""
    if has_no_foot_valve(job):
        return None
    return stock.foot_valves.get(assembly.parts.get("[stand.inlet] stock", job.stand.inlet.stock or ""))
