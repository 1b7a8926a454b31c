"""Check a job: read it, walk from lake to tap, ask every check, put it in words."""

from __future__ import annotations

from pathlib import Path

from lakewright.checks.registry import judge
from lakewright.job.models import Job
from lakewright.job.read import read_job
from lakewright.report import Report, report
from lakewright.state.assemble import facts_of
from lakewright.state.walk import walk
from lakewright.stock.load import load_stock


def check(path: Path) -> Report:
    """Check the job in a file.

    Raises
    ------
    JobError where the file cannot be used, with every mistake in it
    """
    return check_job(read_job(path), str(path))


def check_job(job: Job, file: str = "") -> Report:
    """Check a job that has been read."""
    assembly = facts_of(job, load_stock(), file)
    state = walk(assembly.facts)
    verdicts = judge(state, assembly.facts.limits)
    return report(
        title=job.job.title or "",
        system=job.job.units,
        grade=job.job.grade,
        date=str(job.job.date or ""),
        facts=assembly.facts,
        state=state,
        verdicts=verdicts,
        assumed=assembly.assumed,
        missing=assembly.missing,
        standings=assembly.standings,
    )
