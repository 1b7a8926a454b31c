"""Say what is likely wrong: read a job's visits, weigh every fault against one of them, name the next test."""

from __future__ import annotations

import datetime
from dataclasses import dataclass
from pathlib import Path

from lakewright.api.read import read
from lakewright.errors import AskError
from lakewright.first_answer import Answer, first_answers, latest_visit
from lakewright.job.models import Job
from lakewright.job.models_shop import Reading
from lakewright.search.diagnose import Diagnosis, diagnose
from lakewright.search.next_test import NextTest, next_tests


@dataclass(frozen=True)
class Advice:
    """What is likely wrong at a visit, and what to do first."""

    title: str
    units: str
    date: str
    found: Diagnosis
    next: tuple[NextTest, ...]
    answers: tuple[Answer, ...]
    missing: tuple[str, ...]  # why readings could not be weighed


def advise(path: Path, date: datetime.date | None = None, text: str | None = None) -> Advice:
    """Diagnose the last visit of the job in a file, or in a draft of it, or that of a day.

    Raises
    ------
    JobError where the file cannot be used
    AskError where it has no visit on that day
    """
    job, _, assembly = read(path, text)
    visit = latest_visit(job) if date is None else _visit_of(job, date)
    found = diagnose(job, assembly, visit)
    last = visit is latest_visit(job)
    return Advice(
        title=job.job.title or "Job",
        units=job.job.units,
        date=str(visit.date or "") if visit is not None else "",
        found=found,
        next=next_tests(found),
        answers=first_answers(job, assembly.facts) if last else (),
        missing=tuple(dict.fromkeys(assembly.missing.values())) if found.unweighed else (),
    )


def _visit_of(job: Job, date: datetime.date) -> Reading:
    visits = [visit for visit in job.readings if visit.date == date]
    if not visits:
        dates = ", ".join(str(visit.date) for visit in job.readings if visit.date) or "none with a date"
        raise AskError(f"found no visit on {date}; wanted the date of one of [[readings]]: {dates}")
    return visits[-1]
