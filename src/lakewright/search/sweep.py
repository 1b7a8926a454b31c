"""One job under many scenarios: what shifts its facts is walked in one batch."""

from __future__ import annotations

import math
from collections.abc import Mapping, Sequence
from dataclasses import asdict, dataclass
from typing import Any

import numpy as np
from numpy.typing import NDArray

from lakewright.checks.registry import CHECKS, judge
from lakewright.checks.verdict import FAILS, HOLDS, NOT_ASKED, STATUS_WORDS, TIGHT, UNKNOWN
from lakewright.job.scenarios import Scenario
from lakewright.physics.types import Array
from lakewright.state.cases import CUT_IN, cases_of
from lakewright.state.facts import Facts
from lakewright.state.walk import walk

MUSTS = tuple(number for number, check in enumerate(CHECKS) if check.force == "must")


@dataclass(frozen=True)
class Outcome:
    """A job in one scenario.

    status : in a word, the worst of its musts; "not judged" where that could not be done, and `trouble` says why
    worst : the must with the least margin, of those that are known; margin : that
    fails, unknown : names of the musts that do
    flow : [m3/s] at cut-in on the worst day; lift : [m] with losses, at most; nan where they are not known
    margins : of every check in the order of `CHECKS`, nan where it is not known, infinite where it is not asked
    """

    scenario: str
    status: str
    worst: str = ""
    margin: float = math.nan
    fails: tuple[str, ...] = ()
    unknown: tuple[str, ...] = ()
    flow: float = math.nan
    lift: float = math.nan
    margins: tuple[float, ...] = ()
    trouble: str = ""


@dataclass(frozen=True)
class Swept:
    """A job's outcomes, one a scenario. key : of all that they rest on; the same key has the same outcomes."""

    job: str
    title: str
    key: str
    outcomes: tuple[Outcome, ...]

    def as_row(self) -> dict[str, Any]:
        """All of it as plain values."""
        return asdict(self)

    @classmethod
    def from_row(cls, row: Mapping[str, Any]) -> Swept:
        """What `as_row` had it made of.

        Raises
        ------
        ValueError, KeyError, TypeError where it was made of something else
        """
        lists = ("fails", "unknown", "margins")
        outcomes = [Outcome(**{**each, **{name: tuple(each[name]) for name in lists}}) for each in row["outcomes"]]
        return cls(row["job"], row["title"], row["key"], tuple(outcomes))


def shifted(facts: Facts, scenarios: Sequence[Scenario]) -> Facts:
    """The facts of one job under some scenarios, one a row; what they change in the job file is not theirs to do."""
    level, temperature, ice, wear = (
        np.array([[getattr(each, name)] for each in scenarios]) for name in ("level", "temperature", "ice", "wear")
    )
    days, faults = facts.days, facts.faults
    return facts.with_values(
        {
            "faults.level_offset": faults.level_offset + level,
            "days.temperature": days.temperature + temperature,
            # Where there is no ice on a day there is none in any scenario.
            "days.ice": np.where(days.ice > 0.0, np.maximum(days.ice + ice, 0.0), days.ice + 0.0 * ice),
            "faults.wear": 1.0 - (1.0 - faults.wear) * (1.0 - wear),
        }
    )


def outcomes(facts: Facts, scenarios: Sequence[Scenario]) -> list[Outcome]:
    """What every check says of one job under some scenarios that shift its facts."""
    some = shifted(facts, scenarios)
    state = walk(some)
    verdicts = judge(state, some.limits)
    rows = len(scenarios)
    margins: Array = np.stack([_a_row(verdict.margin, rows) for verdict in verdicts], axis=1)
    statuses = np.stack([_a_row(verdict.status, rows) for verdict in verdicts], axis=1).astype(int)
    end = cases_of(len(facts.day_names)).running_end
    flow = _a_row(state.flow.flow[..., end == CUT_IN].min(axis=-1), rows)
    lift = _a_row(state.flow.suction_lift.max(axis=-1), rows)
    return [
        _outcome(scenario.name, margins[n].tolist(), statuses[n].tolist(), float(flow[n]), float(lift[n]))
        for n, scenario in enumerate(scenarios)
    ]


def _a_row(found: NDArray[Any], rows: int) -> NDArray[Any]:
    """One value a scenario, of what may be the same in all."""
    return np.broadcast_to(found, (rows,))


def _outcome(scenario: str, margins: list[float], statuses: list[int], flow: float, lift: float) -> Outcome:
    fails, unknown = (tuple(CHECKS[n].name for n in MUSTS if statuses[n] == status) for status in (FAILS, UNKNOWN))
    known = [n for n in MUSTS if statuses[n] in (FAILS, TIGHT, HOLDS)]
    worst = min(known, key=lambda n: margins[n], default=None)
    tight = any(statuses[n] == TIGHT for n in MUSTS)
    status = FAILS if fails else UNKNOWN if unknown else TIGHT if tight else HOLDS
    return Outcome(
        scenario=scenario,
        status=STATUS_WORDS[status],
        worst="" if worst is None else CHECKS[worst].name,
        margin=math.nan if worst is None else margins[worst],
        fails=fails,
        unknown=unknown,
        flow=flow,
        lift=lift,
        margins=tuple(math.inf if statuses[n] == NOT_ASKED else margins[n] for n in range(len(CHECKS))),
    )
