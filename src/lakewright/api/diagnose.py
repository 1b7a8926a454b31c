"""Say what is likely wrong: read a job's visits, weigh every fault against one of them, name the next test."""

from __future__ import annotations

import datetime
from dataclasses import asdict, dataclass
from pathlib import Path
from typing import Any

from lakewright.api.known import known
from lakewright.api.read import read
from lakewright.errors import AskError
from lakewright.first_answer import Answer, first_answers, latest_visit
from lakewright.gauges import held_words
from lakewright.job.models import Job
from lakewright.job.models_shop import Reading
from lakewright.search.diagnose import Diagnosis, Suspect, diagnose
from lakewright.search.next_test import NextTest, next_tests
from lakewright.state.assemble import Assembly
from lakewright.state.control_facts import SWITCH


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
    held: str  # what holds the water in the line

    def as_json(self) -> dict[str, Any]:
        """All of it as plain values, SI, the likeliest first and none left out."""
        found = self.found
        return {
            "job": self.title,
            "visit": self.date or None,
            "suspects": [_suspect_as_json(suspect) for suspect in found.suspects],
            "beside": found.beside,
            "next": [asdict(test) for test in self.next],
            "fits": found.fits,
            "impossible": [known(asdict(each)) for each in found.impossible],
            "unweighed": list(found.unweighed),
            "why_unweighed": list(self.missing),
            "held": self.held,
            "level": known(list(found.level)),
            "expected": [known(asdict(each)) for each in found.expected],
            "answers": [asdict(answer) for answer in self.answers],
        }


def _suspect_as_json(suspect: Suspect) -> dict[str, Any]:
    """A fault as plain values; of its size and of the flow it costs the middle and nine in ten."""
    fault = suspect.fault
    return {
        "fault": fault.name,
        "words": fault.words,
        "alike": fault.alike,
        "chance": suspect.chance,
        "size": dict(zip(("low", "middle", "high"), suspect.size, strict=True)),
        "of": fault.size,
        "lost": dict(zip(("low", "middle", "high"), known(suspect.lost), strict=True)),
        "look": list(fault.look),
    }


def advise(path: Path, date: datetime.date | None = None, text: str | None = None) -> Advice:
    """Diagnose the last visit of the job in a file, or in a draft of it, or that of a day.

    Raises
    ------
    JobError where the file cannot be used
    AskError where it has no visit on that day, or something else than a pressure switch starts and stops its pump
    """
    job, _, assembly = read(path, text)
    if assembly.facts.control_kind != SWITCH:
        said = f'found [delivery] control = "{assembly.facts.control_kind}"; wanted a "{SWITCH}"'
        raise AskError(f"{said}: what gauges read with any other is not weighed")
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
        missing=_why_unweighed(found, assembly),
        held=held_words(assembly.facts),
    )


def _why_unweighed(found: Diagnosis, assembly: Assembly) -> tuple[str, ...]:
    why = list(assembly.missing.values()) if found.unweighed else []
    if "motor_current" in found.unweighed and not any("motor_current" in each for each in why):
        why.append("[power] motor_current is not given: read it off the motor's plate")
    return tuple(dict.fromkeys(why))


def _visit_of(job: Job, date: datetime.date) -> Reading:
    visits = [visit for visit in job.readings if visit.date == date]
    if not visits:
        dates = ", ".join(str(visit.date) for visit in job.readings if visit.date) or "none with a date"
        raise AskError(f"found no visit on {date}; wanted the date of one of [[readings]]: {dates}")
    return visits[-1]
