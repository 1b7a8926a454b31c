"""The taps as facts: the highest one of every branch, or of the house where a job names no branches."""

from __future__ import annotations

import math
from dataclasses import dataclass

import numpy as np

from lakewright.job.models import Job
from lakewright.job.models_need import Branch
from lakewright.job.quantity import is_given
from lakewright.state.demand import BranchDemand, Demand
from lakewright.state.facts import TapFacts
from lakewright.state.gather import Gather, defaults, usual_parts
from lakewright.stock.load import Stock

HOUSE = "the highest tap"
TAP_OVER_TEE = "taps.height above the tee"


@dataclass(frozen=True)
class _Tap:
    """One row of the facts, in SI, and its name."""

    name: str
    height: float
    flow: float
    filtered: float
    length: float
    bore: float
    roughness: float
    least: float
    easy: float


def tap_facts(
    job: Job, stock: Stock, demand: Demand, tee_height: float, gather: Gather
) -> tuple[TapFacts, tuple[str, ...]]:
    """Every tap, and what each is called.

    Parameters
    ----------
    demand : what each branch draws; those of the job stand first, in its order
    tee_height : [m] of the tank's tee, for a quote's usual tap
    """
    named = demand.branches[: len(job.need.branches)]
    found = [
        _branch(job, branch, drawn, stock, demand, tee_height, gather)
        for branch, drawn in zip(job.need.branches, named, strict=True)
    ]
    inside = next((drawn for drawn in demand.branches[len(named) :] if "home" in drawn.uses), None)
    if not found:
        found.append(_house(job, demand.flow, inside is not None, stock, tee_height, gather))
    elif inside is not None:
        found.insert(0, _house(job, inside.flow, True, stock, tee_height, gather))
    columns = {field: np.array([getattr(tap, field) for tap in found]) for field in TapFacts.__dataclass_fields__}
    return TapFacts(**columns), tuple(tap.name for tap in found)


def is_filtered(job: Job) -> bool:
    """Whether the house's water passes filters, as far as the job lets one know."""
    delivery, treatment = job.delivery, job.treatment
    given = (delivery.filters_clean, delivery.filters_dirty)
    return bool(treatment.steps) or treatment.uv.stock is not None or any(given) or job.need.drinking == "yes"


def _house(job: Job, flow: float, home: bool, stock: Stock, tee_height: float, gather: Gather) -> _Tap:
    """The highest tap where the tank stands. What the house's own pipes lose is not judged."""
    bore, roughness = _usual_pipe(stock)
    return _Tap(
        name=HOUSE,
        height=_height(job, None, tee_height, "[delivery] tap_height", gather),
        flow=flow,
        filtered=flow if is_filtered(job) else 0.0,
        length=0.0,
        bore=bore,
        roughness=roughness,
        **_pressures(None, home),
    )


def _branch(
    job: Job, branch: Branch, drawn: BranchDemand, stock: Stock, demand: Demand, tee_height: float, gather: Gather
) -> _Tap:
    place = f"[[need.branches]] {branch.name}:"
    home = "home" in drawn.uses
    treated = _is_treated(job, branch, drawn)
    bore, roughness = _pipe(branch, place, stock, gather)
    flow = drawn.flow
    if math.isnan(flow):
        flow = _usual(gather, "taps.flow", f"flow to {branch.name}", f"{place} flow", "need.flow, hose")
    return _Tap(
        name=f"the tap of {branch.name}",
        height=_height(job, branch, tee_height, f"{place} height", gather),
        flow=flow,
        filtered=_filtered_with(job, drawn, demand) if treated else 0.0,
        length=_length(branch, place, gather),
        bore=bore,
        roughness=roughness,
        **_pressures(branch, home),
    )


def _is_treated(job: Job, branch: Branch | None, drawn: BranchDemand) -> bool:
    told = branch is not None and branch.water is not None
    return drawn.water == "treated" or (not told and "home" in drawn.uses and is_filtered(job))


def _filtered_with(job: Job, drawn: BranchDemand, demand: Demand) -> float:
    """Flow through the filters while this branch runs [m3/s]: all that run together, or it alone."""
    if not drawn.together:
        return drawn.flow
    branches = dict(zip((b.name for b in job.need.branches), job.need.branches, strict=True))
    every = [d for d in demand.branches if d.together and _is_treated(job, branches.get(d.name), d)]
    given = job.delivery.flow_control
    cap = given.value if is_given(given) else math.inf
    # Not min: a flow nobody knows stays unknown.
    return float(np.minimum(math.fsum(d.flow for d in every), cap))


def _height(job: Job, branch: Branch | None, tee_height: float, place: str, gather: Gather) -> float:
    given = job.delivery.tap_height if branch is None else branch.height
    if given is not None:
        return gather.number("taps.height", given, place)
    called = HOUSE if branch is None else f"the tap of {branch.name}"
    return tee_height + _usual(gather, "taps.height", f"{called} over the tank's tee", place, TAP_OVER_TEE)


def _length(branch: Branch, place: str, gather: Gather) -> float:
    if branch.distance is not None:
        return gather.number("taps.length", branch.distance, f"{place} distance")
    return _usual(gather, "taps.length", f"pipe to {branch.name}", f"{place} distance", "taps.length")


def _usual(gather: Gather, fact: str, what: str, place: str, default: str) -> float:
    """A quote's usual figure for one branch, kept under its own name; in a build one more that is missing."""
    row = defaults()[default]
    if gather.grade == "quote":
        return gather.assume(what, row.value, row.kind, f"{row.why} ({row.source})", place)
    return _lack(gather, fact, place)


def _lack(gather: Gather, fact: str, place: str) -> float:
    """One more branch of which a fact is not known, beside those before it."""
    before = gather.missing.get(fact)
    return gather.lack(fact, f"{before}; {place} is not given" if before else f"{place} is not given")


def _pipe(branch: Branch, place: str, stock: Stock, gather: Gather) -> tuple[float, float]:
    """Bore and roughness of a branch's pipe, some years old [m]."""
    name = gather.usual(f"kind of pipe to {branch.name}", branch.pipe, "branch")
    pipe = gather.part(f"{place} pipe", stock.pipe, name)
    if pipe is not None:
        return pipe.bore, pipe.roughness_fouled
    return _lack(gather, "taps.bore", f"{place} pipe"), _lack(gather, "taps.roughness", f"{place} pipe")


def _usual_pipe(stock: Stock) -> tuple[float, float]:
    """Any pipe: a length of nothing loses nothing."""
    pipe = stock.pipe(str(usual_parts()["branch"]["stock"]))
    return pipe.bore, pipe.roughness_fouled


def _pressures(branch: Branch | None, home: bool) -> dict[str, float]:
    """What a tap wants, and with what nobody complains [Pa gauge]."""
    more = defaults()["taps.easy over least"].value
    if branch is not None and branch.pressure is not None:
        return {"least": branch.pressure.value, "easy": branch.pressure.value + more}
    least = defaults()["taps.least"].value
    return {"least": least, "easy": defaults()["taps.easy in a house"].value if home else least + more}
