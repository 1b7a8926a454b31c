"""What a design asks of people beside money: minutes of work and of carrying weight."""

from __future__ import annotations

import tomllib
from collections.abc import Mapping
from functools import cache
from importlib import resources

from lakewright import units
from lakewright.job.models import Job
from lakewright.state.assemble import Assembly
from lakewright.state.bill import Bill
from lakewright.state.labour import stints_of
from lakewright.state.works import works_of


@cache
def bother_rows() -> Mapping[str, float]:
    """The rows of `bother.toml`: time [s] of one person for each hour of work, or for each kg."""
    text = resources.files("lakewright.job").joinpath("bother.toml").read_text(encoding="utf-8")
    return {name: units.read(row["each"], "time") for name, row in tomllib.loads(text).items()}


def bother_of(job: Job, assembly: Assembly, bill: Bill) -> float:
    """Time of one person that a design asks for [s]; work of which nobody knows how much is left out."""
    stints, rows = stints_of(works_of(job, assembly, bill.joints), job.price.crew), bother_rows()
    hours = sum(float(stint.hours) * stint.people for stint in stints if stint.hours is not None)
    hauled = bill.mass_in_water if job.need.season == "hauled" else 0.0
    return rows["work"] * hours + rows["carry"] * bill.mass + rows["haul"] * hauled
