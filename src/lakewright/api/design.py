"""Choose what a job leaves open."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from pathlib import Path

import numpy as np

from lakewright import units
from lakewright.api.read import read
from lakewright.api.report import report_on
from lakewright.checks.registry import CHECKS
from lakewright.errors import JobError, Mistake
from lakewright.job.models import Job
from lakewright.report import Report
from lakewright.search.circuits import MUST_WORD, UNKNOWN_SHIFT, circuits_of, solve
from lakewright.search.parts import Part, Problem, problem_of
from lakewright.search.prune import MANY, hopeless
from lakewright.search.spread import SHORTLIST, Candidates, facts_of_designs, spread
from lakewright.state.assemble import Assembly
from lakewright.state.supply import NPSH_ASK


@dataclass(frozen=True)
class Row:
    """One design of the shortlist."""

    parts: tuple[tuple[str, str], ...]
    price: int  # cents
    call_back: int  # cents expected
    margin: float
    stands_against: str  # the check, where the design is a near miss


@dataclass(frozen=True)
class Way:
    """A check, how many designs it failed, and of how many it alone stood in the way."""

    check: str
    force: str
    failed: int
    alone: int


@dataclass(frozen=True)
class Choice:
    """What a search found."""

    title: str
    units: str
    open_parts: tuple[str, ...]
    choices: int
    circuits: int
    passing: int
    holding: int
    exact: bool
    pick: Report | None
    why: str
    shortlist: tuple[Row, ...]
    near_misses: tuple[Row, ...]
    ways: tuple[Way, ...]


def design(path: Path, progress: Callable[[int, int], None] | None = None) -> Choice:
    """Choose every part the job leaves open.

    Raises
    ------
    JobError where the file cannot be used
    """
    job, stock, assembly = read(path)
    problem = problem_of(job, stock, assembly)
    _refuse_what_is_not_chosen(problem, assembly, str(path))
    solved = solve(problem, progress, sort_out=hopeless if circuits_of(problem) > MANY else None)
    tally, kept, missed = spread(problem, solved)
    if not solved.exact and not len(kept):
        # Nothing passes: the nearest miss may be among those sorted out, so all are solved.
        solved = solve(problem, progress)
        tally, kept, missed = spread(problem, solved)
    pick, why = _pick(kept, missed)
    best = kept if len(kept) else missed
    picked = _report(job, problem, assembly, best.take(pick)) if pick is not None else None
    ways = [Way(check.name, check.force, int(tally.failed[n]), int(tally.alone[n])) for n, check in enumerate(CHECKS)]
    return Choice(
        title=job.job.title or "",
        units=job.job.units,
        open_parts=problem.open_parts,
        choices=problem.choices,
        circuits=solved.circuits,
        passing=tally.passing,
        holding=tally.holding,
        exact=solved.exact,
        pick=picked,
        why=why,
        shortlist=_rows(problem, kept.take(_shortlist(kept, pick)), job.job.units) if len(kept) else (),
        near_misses=_rows(problem, missed, job.job.units),
        ways=tuple(sorted((way for way in ways if way.failed), key=lambda way: (-way.failed, way.check))),
    )


def _refuse_what_is_not_chosen(problem: Problem, assembly: Assembly, file: str) -> None:
    """A fact that no part sets and nobody gave would fail every design: say so before searching."""
    set_by_parts = {name for part in (problem.spot, problem.line, problem.place, problem.tank) for name in part.columns}
    if len(problem.pumps) > 1:
        set_by_parts |= {"pump.curve", "pump.required", "pump.fall", "pump.jet", "pump.minimum_run"}
    wanting = {why for name, why in assembly.missing.items() if name not in set_by_parts}
    # A chosen pump may lack what nobody publishes; that alone is no reason not to search.
    wanting -= {NPSH_ASK}
    if wanting:
        remedy = "give it; this version chooses spot, suction pipe, pump, its place and the tank, and nothing else"
        raise JobError([Mistake(file, 0, "", why, "a value", remedy) for why in sorted(wanting)])


def _pick(kept: Candidates, missed: Candidates) -> tuple[np.ndarray | None, str]:
    if len(kept):
        holds = np.nonzero(kept.margin >= 1.0)[0]
        if len(holds):
            return holds[:1], "the cheapest whose every must holds with comfort"
        return np.array([int(np.argmax(kept.margin))]), "none holds with comfort; this one has the most to spare"
    if len(missed):
        return np.array([0]), "nothing passes; only one check stands against this one, and it is the least wrong"
    return None, "nothing passes, and no design has fewer than two checks against it"


def _shortlist(kept: Candidates, pick: np.ndarray | None) -> np.ndarray:
    """The pick first, then the cheapest of each other line, pump and tank."""
    order = [int(pick[0])] if pick is not None else []
    seen = {_kind(kept, n) for n in order}
    for n in range(len(kept)):
        if _kind(kept, n) not in seen:
            seen.add(_kind(kept, n))
            order.append(n)
    return np.array(order[:SHORTLIST], dtype=np.intp)


def _kind(some: Candidates, n: int) -> tuple[int, int, int]:
    return int(some.line[n]), int(some.pump[n]), int(some.tank[n])


def _rows(problem: Problem, some: Candidates, system: str) -> tuple[Row, ...]:
    return tuple(_row(problem, some, n, system) for n in range(len(some)))


def _row(problem: Problem, some: Candidates, n: int, system: str) -> Row:
    depth = units.show(float(problem.spot.columns["stand.depth"][some.spot[n]]), "depth", system)
    height = units.show(float(problem.place.columns["pump.height"][some.place[n]]), "height", system)
    parts = [
        ("stand", f"{_at(problem.spot, int(some.spot[n]), system)} in {depth} of water"),
        ("line", problem.line.labels[int(some.line[n])]),
        ("pump place", f"{_at(problem.place, int(some.place[n]), system)} at {height}"),
        ("pump", problem.pumps[int(some.pump[n])].label),
        ("tank", problem.tank.labels[int(some.tank[n])]),
    ]
    must = int(some.word[n] & MUST_WORD)
    against = [c.name for k, c in enumerate(CHECKS) if must & ((1 << k) | (1 << (k + UNKNOWN_SHIFT)))]
    price = int(some.price[n])
    return Row(tuple(parts), price, int(some.cost[n]) - price, float(some.margin[n]), ", ".join(against))


def _at(part: Part, option: int, system: str) -> str:
    label = part.labels[option]
    try:
        return f"{units.show(float(label), 'length', system)} from the edge"
    except ValueError:
        return label


def _report(job: Job, problem: Problem, assembly: Assembly, one: Candidates) -> Report:
    ((_, batch),) = facts_of_designs(problem, one)
    return report_on(job, assembly, batch.first_row())
