"""A design that is sure enough: which, what it costs over the pick, and what was passed over on the way to it."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import asdict, dataclass
from pathlib import Path
from typing import Any

from lakewright.api.design import Row, row_of, searched, write_new_job, writes_of
from lakewright.api.known import known
from lakewright.api.read import assembled
from lakewright.errors import AskError
from lakewright.job.read import read_text
from lakewright.job.write import set_values
from lakewright.search.doubt import Chance, Worth
from lakewright.search.steps import changes
from lakewright.search.sure import Asked, walk_to_sure
from lakewright.search.truths import TRUTHS
from lakewright.state.unknowns import read_record, unknowns_of
from lakewright.window import no_suction_pump, window_of


@dataclass(frozen=True)
class SureRow:
    """One design, and how often every must holds over the possible truths."""

    row: Row
    job: Chance


@dataclass(frozen=True)
class SureDesign:
    """What a walk to a design that is sure enough came to; `Walked` says what each is.

    changes : from the pick to what was found: part, the one's option, the other's
    waits : musts that nobody can judge, left out of every chance
    ways_out : where no suction pump will do, and then there is nothing else
    """

    title: str
    units: str
    sure: float = 1.0
    truths: int = 0
    pick: SureRow | None = None
    found: SureRow | None = None
    best: SureRow | None = None
    held_back: tuple[tuple[Chance, bool], ...] = ()
    over: tuple[SureRow, ...] = ()
    passing: int = 0
    looked: int = 0
    dropped: int = 0
    dropped_shares: tuple[float, float] = (0.0, 0.0)
    turned_down: tuple[str, ...] = ()
    changes: tuple[tuple[str, str, str], ...] = ()
    worth: tuple[Worth, ...] = ()
    waits: tuple[str, ...] = ()
    why: str = ""
    ways_out: tuple[str, ...] = ()
    job_text: str = ""  # the job file with what was found written in

    def as_json(self) -> dict[str, Any]:
        """All of it as plain values."""
        plain = asdict(self) | {
            "worth": [{"what": each.unknown.name, "do": each.unknown.do, "surer": each.surer} for each in self.worth]
        }
        del plain["job_text"]
        found: dict[str, Any] = known(plain)
        return found


def sure_design(
    path: Path,
    record: Path | None = None,
    progress: Callable[[int, int], None] | None = None,
    truths: int = TRUTHS,
) -> SureDesign:
    """The cheapest design of a job that is sure enough, as `[limits.sure_enough]` says.

    Parameters
    ----------
    record : the shop's own CSV of what was said and found
    progress : of the search, as `design` takes it
    truths : possible truths looked at, a power of two

    Raises
    ------
    JobError where the job cannot be used, AskError where the record cannot
    """
    text = read_text(path)
    job, stock, assembly = assembled(text, path)
    title, units = job.job.title or "", job.job.units
    own = {} if record is None else read_record(record)
    no = no_suction_pump(assembly.facts, window_of(assembly.facts), units)
    if no is not None:
        return SureDesign(title, units, why=no[0], ways_out=no[1])
    problem, solved, chosen = searched(job, stock, assembly, str(path), progress)
    if not chosen.shortlist:
        return SureDesign(title, units, why=f"{chosen.why}; design says what stands in the way")
    walked = walk_to_sure(
        problem, solved, chosen, job, stock, assembly, lambda built: unknowns_of(built, own), truths=truths
    )

    def row(asked: Asked) -> SureRow:
        return SureRow(row_of(problem, asked.offer, units), asked.doubt.job)

    found, pick = walked.found, walked.pick
    return SureDesign(
        title=title,
        units=units,
        sure=walked.sure,
        truths=truths,
        pick=row(pick),
        found=None if found is None else row(found),
        best=row(walked.best),
        held_back=walked.held_back,
        over=tuple(row(each) for each in walked.over),
        passing=walked.passing,
        looked=walked.looked,
        dropped=walked.dropped,
        dropped_shares=walked.dropped_shares,
        turned_down=walked.turned_down,
        changes=() if found is None else changes(problem, pick.offer.option, found.offer.option),
        worth=walked.best.doubt.worth,
        waits=walked.best.doubt.waits,
        job_text="" if found is None else set_values(text, writes_of(problem, found.offer.option, units)),
    )


def write_sure(found: SureDesign, path: Path) -> None:
    """Write the job with the design that is sure enough, never over another file.

    Raises
    ------
    AskError where no design is sure enough, or it cannot be written there
    """
    if not found.job_text:
        raise AskError(f"no design is sure enough, so {path} is not written; measure first what is named")
    write_new_job(found.job_text, path)
