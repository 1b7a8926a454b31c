"""What to have tested of the water of a job, and when, from need and site."""

from __future__ import annotations

from dataclasses import dataclass

from lakewright.job.models import Job
from lakewright.state.facts import Facts
from lakewright.state.water_tables import sample_rows


@dataclass(frozen=True, slots=True)
class Sample:
    """One test: of raw or of treated water, what is looked for, when, and who says so."""

    water: str
    what: str
    at: str
    source: str


def samples_of(job: Job, facts: Facts) -> tuple[Sample, ...]:
    """The tests that this job calls up."""
    given = facts.drinking
    drunk = bool((given.wanted == 1.0).any())
    herd = bool((given.herd == 1.0).any())
    calls = {
        "drinking": drunk,
        "lamp": drunk and bool((given.lamp == 1.0).any()),
        "chlorine": drunk and bool((given.chlorine == 1.0).any()),
        "bloom": (drunk or herd) and job.site.clarity.bloom != "no",
        "herd": herd,
        "garden": job.need.irrigation.area is not None,
    }
    rows = (row for row in sample_rows() if calls[row["when"]])
    return tuple(Sample(row["water"], row["what"], row["at"], row["source"]) for row in rows)
