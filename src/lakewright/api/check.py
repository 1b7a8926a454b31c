"""Check a job: read it, walk from lake to tap, ask every check, put it in words."""

from __future__ import annotations

from pathlib import Path

from lakewright.api.read import read
from lakewright.api.report import report_on
from lakewright.report import Report


def check(path: Path) -> Report:
    """Check the job in a file.

    Raises
    ------
    JobError where the file cannot be used, with every mistake found in it
    """
    job, stock, assembly = read(path)
    return report_on(job, assembly, stock=stock)
