"""Choose what a job leaves open."""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass, replace
from itertools import chain
from pathlib import Path
from typing import Any

from lakewright import units
from lakewright.api.new import refuse_old
from lakewright.api.read import assembled
from lakewright.api.report import report_on
from lakewright.checks.registry import FLOW_CHECKS
from lakewright.errors import AskError, JobError, Mistake
from lakewright.job.fields import shape_at
from lakewright.job.models import Job
from lakewright.job.quantity import Quantity
from lakewright.job.read import read_text
from lakewright.job.write import set_values, write_or_say
from lakewright.report import Report
from lakewright.search.choose import Chosen, choose
from lakewright.search.circuits import Solved, circuits_of, solve
from lakewright.search.kinds import other_kind_words
from lakewright.search.near import Saving, saving_of
from lakewright.search.offers import Offer, said_by
from lakewright.search.options import problem_of
from lakewright.search.parts import Problem
from lakewright.search.prune import MANY, hopeless
from lakewright.search.steps import Step, next_margin, price_of_comfort
from lakewright.state.assemble import Assembly, facts_of
from lakewright.state.labour import HOUR
from lakewright.state.supply import NPSH_ASK
from lakewright.stock.load import Stock
from lakewright.window import no_suction_pump, window_of

MOST = 5_000_000
"""ours: different circuits that a search takes on; about ten minutes' work for two cores."""

FACTS_OF_MUSTS = {
    fact
    for check in FLOW_CHECKS
    for fact in (*check.needs, *chain(*check.other_needs.values()))
    if check.force == "must"
}
"""Facts that musts asked of every design rest on: who lacks another may search, and is told at the end."""


@dataclass(frozen=True)
class Row:
    """One design of the shortlist, priced by its bill."""

    parts: tuple[tuple[str, str], ...]
    price: int  # cents
    at_least: bool  # whether the price lacks what nobody has said
    call_back: int  # cents expected
    margin: float
    least: str  # the check that has the least to spare
    hours: float  # of one person, that it asks for
    stands_against: str  # the checks that it fails, or nobody can tell of
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
    turned_down: tuple[str, ...] = ()  # checks asked of a few designs alone, for which cheaper ones were passed over
    buys: Step | None = None  # what a little more buys, where the pick has less than comfort
    bought: Step | None = None  # what the pick's comfort costs over the cheapest that passes
    saving: Saving | None = None  # what the nearest miss lacks, where nothing passes
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
    write_new_job(choice.job_text, path)


def write_new_job(text: str, path: Path) -> None:
    """Write a job file, never over another.

    Raises
    ------
    AskError where it cannot be written there
    """
    refuse_old(path)
    write_or_say(path, text)


def designed(
    text: str, path: Path, progress: Callable[[int, int], None] | None = None, stock: Stock | None = None
) -> Choice:
    """The same of a text that may never be saved; waters are looked for beside `path`.

    Parameters
    ----------
    stock : what can be had, where it is not ours alone

    Raises
    ------
    JobError where the text cannot be used
    """
    job, stock, assembly = assembled(text, path, stock)
    no = no_suction_pump(assembly.facts, window_of(assembly.facts), job.job.units)
    if no is not None:
        return _no_design(job, *no)
    problem, solved, chosen = searched(job, stock, assembly, str(path), progress)
    misses = chosen.misses
    pick = next(iter(chosen.shortlist or misses), None)
    opened = tuple(part.name for part in problem.open_parts)
    tally = chosen.tally
    ways = [
        Way(check.name, check.force, int(tally.failed[n]), int(tally.alone[n])) for n, check in enumerate(FLOW_CHECKS)
    ]
    return Choice(
        title=job.job.title or "",
        units=job.job.units,
        open_parts=opened,
        choices=problem.choices,
        circuits=solved.circuits,
        passing=tally.passing,
        holding=tally.holding,
        exact=solved.exact,
        pick=None if pick is None else _report(pick, assembly),
        why="; ".join(filter(None, (chosen.why, "" if pick is None else other_kind_words(problem, pick.option)))),
        shortlist=tuple(row_of(problem, offer, job.job.units) for offer in chosen.shortlist),
        near_misses=tuple(row_of(problem, offer, job.job.units) for offer in misses),
        ways=tuple(sorted((way for way in ways if way.failed), key=lambda way: (-way.failed, way.check))),
        turned_down=chosen.turned_down,
        buys=next_margin(problem, chosen) if chosen.shortlist else None,
        bought=price_of_comfort(problem, chosen) if chosen.shortlist else None,
        saving=saving_of(problem, misses[0]) if misses else None,
        job_text="" if pick is None else set_values(text, writes_of(problem, pick.option, job.job.units)),
    )


def searched(
    job: Job, stock: Stock, assembly: Assembly, file: str, progress: Callable[[int, int], None] | None = None
) -> tuple[Problem, Solved, Chosen]:
    """What a job leaves open, every circuit of it solved, and what is chosen.

    Raises
    ------
    JobError where there is nothing to search
    """
    problem = _problem(job, stock, assembly, file)
    solved = solve(problem, progress, sort_out=hopeless if circuits_of(problem) > MANY else None)
    chosen = choose(problem, solved, job, stock)
    if not solved.exact and not chosen.shortlist:
        # Nothing passes: the nearest miss may be among those sorted out, so all are solved.
        solved = solve(problem, progress)
        chosen = choose(problem, solved, job, stock)
    return problem, solved, chosen


def writes_of(problem: Problem, option: Sequence[int], system: str) -> dict[str, str]:
    """What a design writes in the job file, as a person would."""
    return {key: _as_written(key, value, system) for key, value in said_by(problem, option).items()}


def _no_design(job: Job, why: str, ways_out: tuple[str, ...]) -> Choice:
    """What is found where no suction pump will do, whatever else is chosen: nothing is searched."""
    return Choice(job.job.title or "", job.job.units, (), 0, 0, 0, 0, True, None, why, (), (), (), ways_out=ways_out)


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
    wanting = {why for fact, why in problem.missing.items() if fact in FACTS_OF_MUSTS} - {NPSH_ASK}
    # A must whose fact nobody gave is unknown for every design: say so before searching.
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


def row_of(problem: Problem, offer: Offer, system: str) -> Row:
    """One design: the option of each part that is open, of every part where none is."""
    shown = problem.open_parts or problem.parts
    option = dict(zip((part.name for part in problem.parts), offer.option, strict=True))
    return Row(
        parts=tuple((p.name, label) for p in shown if (label := p.labels[option[p.name]]) != "as given" or p.size > 1),
        price=offer.price,
        at_least=offer.at_least,
        call_back=round(offer.call_back),
        margin=offer.margin,
        least=offer.governing[0].name,
        hours=offer.bother / HOUR,
        stands_against=", ".join(check.name for check in offer.against),
        writes=writes_of(problem, offer.option, system),
    )


def _report(pick: Offer, asked: Assembly) -> Report:
    """The report on the pick: the job with its choices written in."""
    built = facts_of(pick.job, pick.stock)
    missing = {name: asked.missing.get(name, why) for name, why in built.missing.items()}
    # With its pump the pick takes more for granted than the job did, its cable among it, and that is on its bill.
    own = {each.key for each in built.assumed}
    assumed = (*(each for each in asked.assumed if each.key not in own), *built.assumed)
    picked = replace(
        asked, facts=built.facts, parts=built.parts, missing=missing, ballast=built.ballast, assumed=assumed
    )
    return report_on(pick.job, picked, stock=pick.stock)
