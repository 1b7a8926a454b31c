"""Where the intake should go: every place along the soundings judged, the best of them, and why."""

from __future__ import annotations

from dataclasses import dataclass
from pathlib import Path

from lakewright.api.read import read
from lakewright.job.models import Job
from lakewright.search.spots import Spot, Spots, spots_of
from lakewright.state.assemble import Assembly
from lakewright.stock.load import Stock


@dataclass(frozen=True)
class Where:
    """The places of a job, in the units it is shown in."""

    title: str
    units: str
    found: Spots


def where(path: Path) -> Where:
    """Judge every place along the soundings of a job file.

    Raises
    ------
    JobError where the file cannot be used
    AskError where nobody has sounded the bed
    """
    job, stock, assembly = read(path)
    return where_of(job, stock, assembly)


def where_of(job: Job, stock: Stock, assembly: Assembly) -> Where:
    """The same of a job that has been read."""
    return Where(job.job.title or "Job", job.job.units, spots_of(job, stock, assembly))


def telling(found: Spots) -> tuple[Spot, ...]:
    """The places at which something changes, the best and the last of them: what fits a page."""
    kept: list[Spot] = []
    last: tuple[object, ...] = ()
    for n, spot in enumerate(found.spots):
        said = (spot.status, spot.worst.name if spot.status != "holds" else "", spot.coil, spot.dark, spot.cold)
        if said != last or n in (found.best, len(found.spots) - 1):
            kept.append(spot)
        last = said
    return tuple(kept)
