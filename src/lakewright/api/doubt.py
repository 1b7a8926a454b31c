"""How sure: the chance that each check and the job hold, and what to measure before ordering."""

from __future__ import annotations

from dataclasses import asdict, dataclass
from pathlib import Path
from typing import Any

from lakewright.api.read import read
from lakewright.search.doubt import Doubt, doubt
from lakewright.search.indices import Index, indices, worst_margin
from lakewright.search.truths import TRUTHS
from lakewright.state.unknowns import Unknown, read_record, unknowns_of


@dataclass(frozen=True)
class Doubted:
    """A job's doubt, and what it was made of."""

    title: str
    units: str
    doubt: Doubt
    unknowns: tuple[Unknown, ...]
    own: tuple[str, ...]  # unknowns whose spread is the shop's own record's
    second: tuple[Index, ...]

    def as_json(self) -> dict[str, Any]:
        """All of it as plain values."""
        found = self.doubt
        return {
            "job": self.title,
            "holds": None if found.waits else asdict(found.job),
            "checks": [asdict(each) for each in found.checks],
            "unknown": list(found.unknown),
            "measure": [
                {"what": each.unknown.name, "do": each.unknown.do, "surer": each.surer, "clears": each.clears}
                for each in found.worth
            ],
            "truths": found.truths,
            "indices": [{"what": each.unknown.name, "first": each.first, "total": each.total} for each in self.second],
        }


def doubted(
    path: Path,
    record: Path | None = None,
    second_view: bool = False,
    truths: int = TRUTHS,
    text: str | None = None,
) -> Doubted:
    """How sure the job in a file is.

    Parameters
    ----------
    record : the shop's own CSV of what was said and found
    second_view : whether Sobol indices are asked for too
    truths : possible truths looked at, a power of two
    text : of a draft of the file, where it is that which is asked about

    Raises
    ------
    JobError where the job cannot be used, AskError where the record cannot
    """
    job, _, assembly = read(path, text)
    own = {} if record is None else read_record(record)
    unknowns = unknowns_of(assembly, own)
    facts = assembly.facts
    return Doubted(
        title=job.job.title or "",
        units=job.job.units,
        doubt=doubt(facts, unknowns, truths=truths),
        unknowns=unknowns,
        own=tuple(each.name for each in unknowns if each.name in own),
        second=indices(lambda off: worst_margin(facts, unknowns, off), unknowns) if second_view else (),
    )
