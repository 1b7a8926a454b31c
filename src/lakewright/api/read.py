"""From a job file to facts: the first step of every command that reads one."""

from __future__ import annotations

from pathlib import Path

from lakewright.errors import JobError
from lakewright.job.models import Job
from lakewright.job.read import read_job_text, read_text, with_lines
from lakewright.state.assemble import Assembly, facts_of
from lakewright.stock.load import Stock, load_stock


def read(path: Path) -> tuple[Job, Stock, Assembly]:
    """The job in a file, the stock and the facts of both.

    Raises
    ------
    JobError where the file cannot be used, with every mistake found in it
    """
    text = read_text(path)
    job = read_job_text(text, str(path))
    stock = load_stock()
    try:
        return job, stock, facts_of(job, stock, str(path))
    except JobError as error:
        raise with_lines(error, text) from None
