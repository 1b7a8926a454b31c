"""The calendar of a job: closing and starting it, and what it wants between."""

from __future__ import annotations

from lakewright.documents.diary import ics
from lakewright.documents.paper import mark_of
from lakewright.documents.upkeep import entries
from lakewright.errors import AskError
from lakewright.job.models import Job
from lakewright.report import Report
from lakewright.state.assemble import Assembly
from lakewright.stock.load import Stock


def diary_files(job: Job, _stock: Stock, assembly: Assembly, report: Report) -> dict[str, bytes]:
    """What is to be done through the years as an ICS calendar, by the end of its file's name.

    Raises
    ------
    AskError where there is nothing to look after, or the job has no date
    """
    if not report.season:
        raise AskError("no calendar: no suction pump will do here, so there is nothing to look after")
    if job.job.date is None:
        raise AskError("no calendar: its days count from [job] date, which is not given; write date = 2026-05-09")
    found = entries(job, assembly.facts, report, job.job.date)
    about = (
        "Days count from the job\u2019s date; move them to the day it is handed over.",
        *report.cautions,
        mark_of(report),
    )
    title = report.title or "Job"
    return {"calendar.ics": ics(found, title, job.site.water or "", job.job.date, about)}
