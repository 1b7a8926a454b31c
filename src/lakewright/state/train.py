"""The treatment a shop would put in where a job names none: its steps in order, with sizes for this flow."""

from __future__ import annotations

import math

from lakewright import units
from lakewright.job.models import Job
from lakewright.physics.disinfection import virus_contact
from lakewright.physics.water import ICE_POINT
from lakewright.state.gather import defaults, one
from lakewright.state.limits import standard_limits
from lakewright.stock.load import Stock
from lakewright.stock.rows import Part

# ours: a coarse filter saves the fine one, the fine one saves the absolute one, that clears the way for the light, and
# chlorine comes last, where least is left for it to do; the tank that counts most for its size.
STEPS = (
    ("sediment filter", "20 um"),
    ("sediment filter", "5 um"),
    ("absolute filter", "1 um"),
    ("ultraviolet", "40 mJ/cm2"),
    ("chlorine feeder", ""),
    ("contact tank", "baffled"),
)


def usual_train(job: Job, stock: Stock, flow: float) -> str:
    """The steps in words, the least in stock that pass this flow [m3/s]."""
    system = job.job.units
    valve = "a flow control valve" + ("" if math.isnan(flow) else f" of {units.show(flow, 'flow', system)}")
    named = [valve]
    for kind, word in STEPS:
        part = _least(stock, kind, word, flow)
        name = f"{kind}, {word}" if part is None else part.name
        named.append(_as_many(job, part, flow) + name if kind == "contact tank" and part is not None else name)
    return "; ".join(named)


def _as_many(job: Job, tank: Part, flow: float) -> str:
    """How many tanks give the contact that viruses ask of the usual residual in the coldest water of the job."""
    waters = [day.water.value for day in job.site.days if day.water is not None]
    needed = virus_contact(one(min(waters, default=ICE_POINT)), one(standard_limits().target_virus))[0]
    volume = flow * needed / defaults()["drinking.residual"].value
    many = volume / (tank.figures["holds"] * tank.figures["counts"])
    return "" if math.isnan(many) or many <= 1.0 else f"{math.ceil(many)} of "


def _least(stock: Stock, kind: str, word: str, flow: float) -> Part | None:
    """The least part of a kind, with a word in its name, that passes the flow."""
    rows = [part for part in stock.parts_of(kind) if word in part.name]
    # A flow nobody knows is passed by the least.
    fit = [part for part in rows if not _passes(part) < flow * (1.0 - 1e-9)]
    return min(fit, key=lambda part: (_passes(part), part.name), default=None)


def _passes(part: Part) -> float:
    return part.figures.get("rated_flow", part.figures.get("high_flow", math.inf))
