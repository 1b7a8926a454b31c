"""From a job file to facts: the first step of every command that reads one."""

from __future__ import annotations

from dataclasses import replace
from pathlib import Path

from lakewright.api.waters import water_of
from lakewright.errors import JobError
from lakewright.job.models import Job
from lakewright.job.read import read_job_text, read_text, with_lines
from lakewright.state.assemble import Assembly, facts_of
from lakewright.state.files import Filed, with_files
from lakewright.state.unjudged import unjudged
from lakewright.state.waters import merge_water
from lakewright.stock.load import Stock, load_stock


def read(path: Path, text: str | None = None) -> tuple[Job, Stock, Assembly]:
    """The job in a file with its gaps filled from its water's record, the stock, and the facts of both.

    Where a `text` is given it is read in the place of the file's own: a draft that may never be saved.

    Raises
    ------
    JobError where the file, or the record of its water, cannot be used, with every mistake found in it
    """
    return assembled(read_text(path) if text is None else text, path)


def assembled(text: str, path: Path | None = None, stock: Stock | None = None) -> tuple[Job, Stock, Assembly]:
    """The same of a job file's text.

    Parameters
    ----------
    path : where the file is, or will be; without one, no record is looked for
    stock : what can be had, where it is not ours alone

    Raises
    ------
    JobError where the text, or the record of its water, cannot be used, with every mistake found in it
    """
    file = str(path or "")
    written = read_job_text(text, file)
    try:
        filed = with_files(written, path.parent) if path is not None else Filed(written, ())
    except JobError as error:
        raise with_lines(JobError([replace(m, file=m.file or file) for m in error.mistakes]), text) from None
    said = filed.job
    water = water_of(said, path) if path is not None else None
    merge = merge_water(said, water) if water is not None else None
    job = merge.job if merge is not None else said
    stock = load_stock() if stock is None else stock
    try:
        assembly = facts_of(job, stock, file)
    except JobError as error:
        raise with_lines(error, text) from None
    if merge is not None:
        missing = {
            **assembly.missing,
            **{place: why for place, why in merge.left_out.items() if place in assembly.missing},
        }
        assembly = replace(assembly, assumed=(*merge.filled, *assembly.assumed), missing=missing)
    assumed = (*filed.assumed, *assembly.assumed)
    assembly = replace(assembly, assumed=assumed, unjudged=unjudged(written), text=text, file=path)
    return job, stock, assembly
