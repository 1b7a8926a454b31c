"""What a job keeps in files beside it: soundings, and a record of levels."""

from __future__ import annotations

from dataclasses import dataclass
from pathlib import Path

from lakewright.errors import JobError, Mistake
from lakewright.job.disk import beside
from lakewright.job.models import Job
from lakewright.job.quantity import echo
from lakewright.state.gather import Assumed
from lakewright.state.level_record import recorded
from lakewright.state.soundings import sounded


@dataclass(frozen=True)
class Filed:
    """A job with what its files say, and what was taken on the way that nobody measured."""

    job: Job
    assumed: tuple[Assumed, ...]


def with_files(job: Job, folder: Path) -> Filed:
    """The job with the soundings and the low level of the files it names, which lie in its own folder.

    Raises
    ------
    JobError where a file cannot be used, with every row that cannot
    """
    named = {"[site] soundings_file": job.site.soundings_file, "[site.levels] record": job.site.levels.record}
    astray = [
        Mistake("", 0, key, echo(name), "the name of a file beside the job", "put the file there and write its name")
        for key, name in named.items()
        if name is not None and beside(folder, name) is None
    ]
    if astray:
        raise JobError(astray)
    found = sounded(job, folder)
    job, said = recorded(found.job, folder)
    return Filed(job, (*found.assumed, *said))
