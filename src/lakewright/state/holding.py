"""What holds the water while the pump rests, as facts."""

from __future__ import annotations

from lakewright.job.models import Job
from lakewright.state.facts import HoldingFacts
from lakewright.state.gather import Gather, one
from lakewright.stock.rows import FootValve

# What holds in each arrangement: at the inlet, at the pump, and whether the water is to run to the pump by itself.
ARRANGEMENTS = {
    "foot valve only": (1.0, 0.0, 0.0),
    "foot valve and check at pump": (1.0, 1.0, 0.0),
    "check at pump only": (0.0, 1.0, 0.0),
    "flooded": (0.0, 0.0, 1.0),
}

NO_FOOT_VALVE = ("flooded", "check at pump only")

# common practice, no source: how the entrance of a foot valve points in each form of stand.
ATTITUDES = {"side": "side", "low": "side", "hung": "down", "floating": "down", "box": "down"}


def usual_arrangement(job: Job) -> str:
    """What is taken to hold the water where nobody has said. Common practice, no source."""
    return "check at pump only" if job.stand.inlet.kind == "screen" else "foot valve and check at pump"


def has_no_foot_valve(job: Job) -> bool:
    """Whether a screen stands alone at the inlet, or the line is held otherwise and no foot valve is named."""
    inlet = job.stand.inlet
    return inlet.kind == "screen" or (job.holding.arrangement in NO_FOOT_VALVE and inlet.stock is None)


def holding_facts(job: Job, gather: Gather) -> HoldingFacts:
    """Which valves hold. A screen alone holds nothing, so no arrangement may count on it."""
    place, screened = "[holding] arrangement", job.stand.inlet.kind == "screen"
    given = gather.usual_word("holding.arrangement", job.holding.arrangement, usual_arrangement(job), place)
    if screened and given is not None and given.startswith("foot valve"):
        wanted = "what holds beside a screen alone: check at pump only, or flooded"
        gather.mistake(place, f'"{given}" with [stand.inlet] kind = "screen"', wanted, "say which of the two is so")
    lack = f"{place} is not given: say which valve holds what when the pump stands"
    fields = ("at_inlet", "at_pump", "flooded")
    values = ARRANGEMENTS[given] if given else tuple(gather.lack(f"holding.{field}", lack) for field in fields)
    return HoldingFacts(*(one(value) for value in values))


def mounting(job: Job, valve: FootValve | None, gather: Gather) -> tuple[float, float]:
    """Whether the foot valve is made to shut as it is mounted, and whether its own weight shuts it there."""
    inlet = job.stand.inlet
    if has_no_foot_valve(job):
        return 1.0, 1.0
    usual = ATTITUDES.get(job.stand.form or "", "up")
    attitude = gather.usual_word("stand.inlet.attitude", inlet.attitude, usual, "[stand.inlet] attitude")
    if attitude is None:
        lack = "[stand.inlet] attitude is not given"
        return gather.lack("stand.seats", lack), gather.lack("stand.hangs", lack)
    hangs = float(attitude == "down")
    # A valve of no stock is known by its spring alone, which the check asks after.
    return (1.0 if valve is None else float(attitude in valve.attitudes)), hangs
