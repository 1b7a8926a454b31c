"""The working of a job: every check with the facts it rests on, each with its figure and on whose word it stands."""

from __future__ import annotations

import tomllib
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from functools import cache
from importlib import resources
from typing import Any

import numpy as np

from lakewright import units
from lakewright.checks.registry import CHECKS
from lakewright.checks.verdict import NOT_ASKED, STATUS_WORDS, Check
from lakewright.physics.curve import Curve
from lakewright.physics.jet import JetTable
from lakewright.sources import load_sources
from lakewright.state.assemble import Assembly
from lakewright.state.facts import is_missing
from lakewright.state.gather import Assumed
from lakewright.state.names import plain_name

LEFT_OUT = ("faults.", "members.")
"""Facts that are no figure of the job: faults, all neutral in a design, and the stand part by part."""

BARE = {
    "drinking.viscous": ("kPa s/L", 1.0e6),
    "drinking.turbulent": ("kPa s2/L2", 1.0e9),
    "season.expansion": ("mm/m for 1 C", 1.0e-3),
    "stand.valve_lift_factor": ("m/s (kg/m3)^1/2", 1.0),
}
"""Facts that no scale of the trade has: a unit near their size, and how much of SI it is. ours."""

ANSWERS = {2.0: "yes", 1.0: "asked", 0.0: "not asked", -1.0: "no"}
"""What the authority has said, by the number that stands for it in the facts."""


@dataclass(frozen=True)
class Input:
    """A fact a check rests on: its number in the list, what it is, how much in words, and on whose word."""

    number: int
    name: str
    figure: str
    standing: str


@dataclass(frozen=True)
class Worked:
    """What stands behind one finding.

    question: what the check asks; value, limit, margin: in words, empty where nobody knows; inputs: the numbers of the
    facts it rests on, in words; weak: those of them that nobody has measured, by number; source: of its limit
    """

    name: str
    question: str
    value: str
    limit: str
    margin: str
    inputs: str
    weak: tuple[int, ...]
    source: str


@dataclass(frozen=True)
class Working:
    """The working of a job: its facts, and each check by its name."""

    inputs: tuple[Input, ...]
    checks: Mapping[str, Worked]


WEAK = ("told", "assumed", "unknown")


def working_of(assembly: Assembly, found: Sequence[Any], pump_kind: str, system: str) -> Working:
    """The working of a job whose findings are these."""
    by_name = {each.name: each for each in found}
    # What is not asked rests on nothing here, and its facts may hold the place of a part that is not there.
    asked = [check for check in CHECKS if by_name[check.name].status != STATUS_WORDS[NOT_ASKED]]
    names = dict.fromkeys(
        fact for check in asked for fact in check.facts_needed(pump_kind) if not fact.startswith(LEFT_OUT)
    )
    taken: dict[str, Assumed] = {each.key: each for each in assembly.assumed}
    inputs = tuple(_input(n, fact, assembly, taken, system) for n, fact in enumerate(names, start=1))
    numbers = dict(zip(names, inputs, strict=True))
    checks = {check.name: _worked(check, by_name[check.name], numbers, pump_kind, system) for check in CHECKS}
    return Working(inputs, checks)


def _input(number: int, fact: str, assembly: Assembly, taken: Mapping[str, Assumed], system: str) -> Input:
    value = assembly.facts.value(fact)
    return Input(number, plain_name(fact), figure_of(fact, value, system), _standing(fact, value, assembly, taken))


def _standing(fact: str, value: Any, assembly: Assembly, taken: Mapping[str, Assumed]) -> str:
    if is_missing(value) and fact in assembly.missing:
        return "unknown"
    if fact in taken:
        return "from the water's record" if taken[fact].from_record else "assumed"
    return assembly.standings.get(fact, "as given, from the stock or worked out")


@cache
def fact_kinds() -> Mapping[str, str]:
    """How each fact is shown, by its dotted name."""
    text = resources.files("lakewright").joinpath("fact_kinds.toml").read_text(encoding="utf-8")
    return {fact: kind for kind, facts in tomllib.loads(text).items() for fact in facts}


def figure_of(fact: str, value: Any, system: str) -> str:
    """A fact as a figure: the least and the most where it has several.

    >>> figure_of("stand.riser", np.array([0.6096]), "US"), figure_of("holding.at_pump", np.array([1.0]), "SI")
    ('24 in', 'yes')
    """
    kind = fact_kinds().get(fact, "count")
    if isinstance(value, Curve | JetTable) or kind == "no_figure":
        return "unknown" if isinstance(value, Curve | JetTable) and is_missing(value) else "a curve or a date"
    array = np.atleast_1d(np.asarray(value, dtype=float))
    if array.size == 0:
        return "none"
    low, high = float(array.min()), float(array.max())
    if fact == "drinking.answer":
        return ANSWERS.get(low, "unknown")
    if kind == "yes":
        return "unknown" if np.isnan(low) else "yes" if low > 0.5 else "no"
    unit, scale = BARE.get(fact, ("", 1.0))
    one, other = (f"{units.show(each / scale, kind, system)} {unit}".rstrip() for each in (low, high))
    return one if one == other else f"{one} to {other}"


def _worked(check: Check, finding: Any, numbers: Mapping[str, Input], pump_kind: str, system: str) -> Worked:
    rests = [numbers[fact] for fact in check.facts_needed(pump_kind) if fact in numbers]
    value = "" if finding.value is None else units.show(finding.value, check.shows, system)
    limited = check.limit_words and finding.limit is not None
    limit = f"{check.limit_words} {units.show(finding.limit, check.shows, system)}" if limited else ""
    margin = "" if finding.margin is None else units.show(finding.margin, "count", system)
    source = load_sources()[check.source]
    return Worked(
        name=check.name,
        question=check.question,
        value=value,
        limit=limit,
        margin=margin,
        inputs=runs_of([each.number for each in rests]),
        weak=tuple(each.number for each in rests if each.standing in WEAK),
        source=f"{source} ({source.standing})",
    )


def runs_of(numbers: Sequence[int]) -> str:
    """Whole numbers in words, neighbours together.

    >>> runs_of([1, 2, 3, 7, 9, 10])
    '1 to 3, 7, 9, 10'
    """
    runs: list[list[int]] = []
    for number in sorted(numbers):
        if runs and number == runs[-1][-1] + 1:
            runs[-1].append(number)
        else:
            runs.append([number])
    parts = [f"{run[0]} to {run[-1]}" if len(run) > 2 else ", ".join(map(str, run)) for run in runs]
    return ", ".join(parts)
