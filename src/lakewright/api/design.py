"""Choose what a job leaves open."""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass, replace
from itertools import chain
from pathlib import Path
from typing import Any

import numpy as np

from lakewright import units
from lakewright.api.new import refuse_old
from lakewright.api.read import assembled
from lakewright.api.report import report_on
from lakewright.checks.registry import CHECKS, FLOW_CHECKS, judge
from lakewright.errors import AskError, JobError, Mistake
from lakewright.job.fields import shape_at
from lakewright.job.models import Job
from lakewright.job.quantity import Quantity
from lakewright.job.read import read_text
from lakewright.job.write import set_values, write_job
from lakewright.report import Report, passes
from lakewright.search.circuits import MUST_WORD, UNKNOWN_SHIFT, circuits_of, solve
from lakewright.search.flat import facts_of_designs
from lakewright.search.options import problem_of, said
from lakewright.search.parts import Problem
from lakewright.search.prune import MANY, hopeless
from lakewright.search.spread import SET_APART, SHORTLIST, Candidates, spread
from lakewright.state.assemble import Assembly, facts_of
from lakewright.state.supply import NPSH_ASK
from lakewright.state.walk import walk
from lakewright.stock.load import Stock
from lakewright.window import no_suction_pump, window_of

MOST = 5_000_000
"""ours: different circuits that a search takes on; about ten minutes' work for two cores."""

PICKED_FACTS = {fact for check in CHECKS for fact in check.needs if check.reach == "picked"} - {
    fact for check in CHECKS for fact in (*check.needs, *chain(*check.other_needs.values())) if check.reach == "all"
}
"""Facts that only checks of what is picked rest on: who lacks one may search, and is told at the end."""


@dataclass(frozen=True)
class Row:
    """One design of the shortlist."""

    parts: tuple[tuple[str, str], ...]
    price: int  # cents
    call_back: int  # cents expected
    margin: float
    stands_against: str  # the check, where the design is a near miss
    writes: Mapping[str, str]  # in the job file, by dotted path


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
    job_text: str = ""  # the job file with the pick written in, where there is a pick
    ways_out: tuple[str, ...] = ()  # where no suction pump will do


def design(path: Path, progress: Callable[[int, int], None] | None = None) -> Choice:
    """Choose every part the job leaves open.

    Raises
    ------
    JobError where the file cannot be used
    """
    return designed(read_text(path), path, progress)


def write_pick(choice: Choice, path: Path) -> None:
    """Write the job with the pick in the place of what was open, never over another file.

    Raises
    ------
    AskError where there is no pick, or it cannot be written there
    """
    if not choice.job_text:
        raise AskError(
            f"nothing was picked, so {path} is not written; leave more open, or change what stands in the way"
        )
    refuse_old(path)
    try:
        write_job(path, choice.job_text)
    except OSError as error:
        raise AskError(f"{path}: {error.strerror or error}; name a file in a folder you can write in") from None


def designed(text: str, path: Path, progress: Callable[[int, int], None] | None = None) -> Choice:
    """The same of a text that may never be saved; waters are looked for beside `path`.

    Raises
    ------
    JobError where the text cannot be used
    """
    job, stock, assembly = assembled(text, path)
    no = no_suction_pump(assembly.facts, window_of(assembly.facts), job.job.units)
    if no is not None:
        return _no_design(job, *no)
    problem = _problem(job, stock, assembly, str(path))
    solved = solve(problem, progress, sort_out=hopeless if circuits_of(problem) > MANY else None)
    tally, kept, missed = spread(problem, solved)
    if not solved.exact and not len(kept):
        # Nothing passes: the nearest miss may be among those sorted out, so all are solved.
        solved = solve(problem, progress)
        tally, kept, missed = spread(problem, solved)
    pick, why = _pick(kept, missed, lambda one: _stays(job, stock, problem, one))
    best = kept if len(kept) else missed
    picked, chosen = None, ""
    if pick is not None:
        option = best.options[int(pick[0])]
        picked = _report(said(job, _said_by(problem, option)), stock, problem, assembly, best.take(pick))
        chosen = set_values(text, _writes(problem, option, job.job.units))
    ways = [
        Way(check.name, check.force, int(tally.failed[n]), int(tally.alone[n])) for n, check in enumerate(FLOW_CHECKS)
    ]
    return Choice(
        title=job.job.title or "",
        units=job.job.units,
        open_parts=tuple(part.name for part in problem.open_parts),
        choices=problem.choices,
        circuits=solved.circuits,
        passing=tally.passing,
        holding=tally.holding,
        exact=solved.exact,
        pick=picked,
        why=why,
        shortlist=_rows(problem, kept.take(_shortlist(problem, kept, pick)), job.job.units) if len(kept) else (),
        near_misses=_rows(problem, missed, job.job.units),
        ways=tuple(sorted((way for way in ways if way.failed), key=lambda way: (-way.failed, way.check))),
        job_text=chosen,
    )


def _no_design(job: Job, why: str, ways_out: tuple[str, ...]) -> Choice:
    """What is found where no suction pump will do, whatever else is chosen: nothing is searched."""
    return Choice(job.job.title or "", job.job.units, (), 0, 0, 0, 0, True, None, why, (), (), (), ways_out=ways_out)


def _said_by(problem: Problem, option: Sequence[int]) -> dict[str, Any]:
    """What one design, the option of each part, writes in the job, by dotted name."""
    says: dict[str, Any] = {}
    for part, at in zip(problem.parts, option, strict=True):
        says |= part.says[at]
    return says


def _writes(problem: Problem, option: Sequence[int], system: str) -> dict[str, str]:
    """The same as a person would write it in the job file."""
    return {key: _as_written(key, value, system) for key, value in _said_by(problem, option).items()}


def _as_written(key: str, value: Any, system: str) -> str:
    """A choice as a person would write it in the job file; one that is left out is empty."""
    if not isinstance(value, Quantity):
        return value or ""
    shape = shape_at(tuple(key.split(".")))
    if shape is None or shape.dimension is None:
        raise KeyError(key)
    unit = units.unit_of(shape.dimension.kind, system)
    # ours: six digits keep the file's check at one with the search; a rounded place may fall short of a bare limit.
    return f"{value.value / units.read(f'1 {unit}', shape.dimension.dimension):.6g} {unit}"


def _problem(job: Job, stock: Stock, assembly: Assembly, file: str) -> Problem:
    """The job's open parts, or every reason why there is nothing to search."""
    try:
        problem = problem_of(job, stock, assembly)
    except JobError as error:
        raise JobError([replace(mistake, file=file) for mistake in error.mistakes]) from None
    # A chosen pump may lack what nobody publishes; that alone is no reason not to search.
    wanting = {why for fact, why in problem.missing.items() if fact not in PICKED_FACTS} - {NPSH_ASK}
    # Any other fact that nobody gave would fail every design: say so before searching.
    remedy = f"give it; this version chooses {', '.join(part.name for part in problem.parts)}, and nothing else"
    mistakes = [Mistake(file, 0, "", why, "a value", remedy) for why in sorted(wanting)]
    circuits = circuits_of(problem)
    if circuits > MOST:
        opened = ", ".join(f"{part.name} ({part.size})" for part in problem.open_parts if part.name != "tank")
        most = f"{MOST:,} at most, which take ten minutes"
        mistakes.append(Mistake(file, 0, "", f"{circuits:,} different circuits", most, f"close one of: {opened}"))
    if mistakes:
        raise JobError(mistakes)
    return problem


def _pick(kept: Candidates, missed: Candidates, stays: Callable[[Candidates], bool]) -> tuple[np.ndarray | None, str]:
    """The pick among what passes: the first that also stays where it is, if one of the first few does."""
    if len(kept):
        holds = np.nonzero(kept.margin >= 1.0)[0]
        why = "the cheapest whose every must holds with comfort"
        if not len(holds):
            holds = np.argsort(-kept.margin, kind="stable")
            why = "none holds with comfort; this one has the most to spare"
        tried = [holds[n : n + 1] for n in range(min(len(holds), SHORTLIST))]
        found = next((one for one in tried if stays(kept.take(one))), None)
        if found is not None:
            return found, why
        return tried[0], f"{why}, but for what is said of stand and line"
    if len(missed):
        return np.array([0]), "nothing passes; only one check stands against this one, and it is the least wrong"
    return None, "nothing passes, and no design has fewer than two checks against it"


def _stays(job: Job, stock: Stock, problem: Problem, one: Candidates) -> bool:
    """Whether no must that is asked of what is picked alone stands against a design."""
    facts = facts_of(said(job, _said_by(problem, one.options[0])), stock).facts
    state = walk(facts)
    pairs = zip(CHECKS, judge(state, facts.limits), strict=True)
    return passes((check, int(verdict.status[()])) for check, verdict in pairs if check.reach == "picked")


def _shortlist(problem: Problem, kept: Candidates, pick: np.ndarray | None) -> np.ndarray:
    """The pick first, then the cheapest of each other line, pump, delivery and tank."""
    kinds = kept.options[:, [problem.position(name) for name in SET_APART]].tolist()
    order: list[int] = [int(n) for n in pick] if pick is not None else []
    seen = {tuple(kinds[n]) for n in order}
    for n, kind in enumerate(kinds):
        if tuple(kind) not in seen:
            seen.add(tuple(kind))
            order.append(n)
    return np.array(order[:SHORTLIST], dtype=np.intp)


def _rows(problem: Problem, some: Candidates, system: str) -> tuple[Row, ...]:
    return tuple(_row(problem, some, n, system) for n in range(len(some)))


def _row(problem: Problem, some: Candidates, n: int, system: str) -> Row:
    """One design: the option of each part that is open, of every part where none is."""
    shown = problem.open_parts or problem.parts
    option = dict(zip((part.name for part in problem.parts), some.options[n], strict=True))
    parts = tuple((part.name, part.labels[option[part.name]]) for part in shown)
    must = int(some.word[n] & MUST_WORD)
    against = [c.name for k, c in enumerate(FLOW_CHECKS) if must & ((1 << k) | (1 << (k + UNKNOWN_SHIFT)))]
    price = int(some.price[n])
    writes = _writes(problem, some.options[n], system)
    return Row(parts, price, int(some.cost[n]) - price, float(some.margin[n]), ", ".join(against), writes)


def _report(job: Job, stock: Stock, problem: Problem, assembly: Assembly, one: Candidates) -> Report:
    """The report on one design: of the job with its choices written in, priced, on the facts that the search saw."""
    ((_, batch),) = facts_of_designs(problem, one.options)
    built = facts_of(job, stock)
    missing = {name: assembly.missing.get(name, why) for name, why in built.missing.items()}
    # No search reads the members of a stand: those of the design picked are its own.
    facts = replace(batch.first_row(), members=built.facts.members)
    picked = replace(assembly, facts=facts, parts=built.parts, missing=missing, ballast=built.ballast)
    return report_on(job, picked, stock=stock)
