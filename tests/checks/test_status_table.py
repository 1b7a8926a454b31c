"""Each check seen to hold, be tight, fail, be unknown and, where it can, not be asked: one sound example, one change.

A row names the check, the status it should have, what is changed in the sound job, and every other check that the
change drags along, with its status. What is not named must stay as it was.
"""

from __future__ import annotations

import math
from collections.abc import Callable, Mapping
from typing import Any

import numpy as np
import pytest

from lakewright.checks.registry import CHECKS, judge
from lakewright.checks.verdict import STATUS_WORDS
from lakewright.physics.curve import Curve, unknown_curve
from lakewright.state.facts import Facts
from lakewright.state.walk import walk
from tests.checks.status import (
    control,
    delivery,
    drinking,
    holding,
    placement,
    power,
    protection,
    season,
    stand,
    suction,
    surge,
)
from tests.checks.status.named import (
    ASKED_BY_CONTROL,
    ASKED_OF_A_JET_ALONE,
    CAN_BE_NOT_ASKED,
    CONTROL_KINDS,
    CONTROLLED,
    NEVER_TIGHT,
    NOT_ASKED_OF_A_JET,
    NOT_ASKED_WHERE_VALVES_HOLD,
    OF_A_SWITCH,
    OF_A_TANK,
    ONLY_TOLD,
    Row,
    every,
)
from tests.made import sound, sound_by_flow, sound_by_speed, sound_jet, sound_stored, stretched_curve

SOUND: dict[str, Callable[[], Facts]] = {
    "centrifugal": sound,
    "jet": sound_jet,
    "by flow": sound_by_flow,
    "by speed": sound_by_speed,
    "stored": sound_stored,
}
"""By kind of pump; the last three are centrifugal, with a controller or a store in place of the switch."""

EVERY_SOUND_ONE = (
    *(
        Row(check.name, "holds")
        for check in CHECKS
        if check.name not in ASKED_OF_A_JET_ALONE | NOT_ASKED_WHERE_VALVES_HOLD | CONTROLLED
    ),
    *(
        Row(check.name, "holds", kind="jet")
        for check in CHECKS
        if check.name not in NOT_ASKED_OF_A_JET | NOT_ASKED_WHERE_VALVES_HOLD | CONTROLLED
    ),
    *(Row(name, "holds", kind=kind) for kind in CONTROL_KINDS for name in sorted(ASKED_BY_CONTROL[kind])),
    *(
        Row(name, "not asked", kind=kind)
        for kind, asked in ASKED_BY_CONTROL.items()
        for name in sorted((CONTROLLED | OF_A_SWITCH | OF_A_TANK) - asked)
    ),
)

ROWS = (
    *placement.ROWS,
    *stand.ROWS,
    *suction.ROWS,
    *holding.ROWS,
    *delivery.ROWS,
    *surge.ROWS,
    *drinking.ROWS,
    *protection.ROWS,
    *power.ROWS,
    *season.ROWS,
    *control.ROWS,
    *EVERY_SOUND_ONE,
)


def taller(facts: Facts, name: str, times: float) -> Curve:
    """A curve of the job with every height multiplied."""
    return stretched_curve(facts.value(name), np.ones(1), np.array([times]))


def changed(facts: Facts, change: Mapping[str, Any]) -> Facts:
    """The facts with some replaced: numbers, a list of days, or how much taller a curve is."""
    values: dict[str, Any] = {}
    for name, value in change.items():
        if isinstance(facts.value(name), Curve):
            values[name] = unknown_curve() if math.isnan(value) else taller(facts, name, value)
        else:
            values[name] = np.atleast_1d(np.array(value, dtype=float))
    return facts.with_values(values)


def statuses(facts: Facts) -> dict[str, str]:
    verdicts = judge(walk(facts), facts.limits)
    return {check.name: STATUS_WORDS[int(verdict.status)] for check, verdict in zip(CHECKS, verdicts, strict=True)}


@pytest.mark.parametrize("row", ROWS, ids=lambda row: f"{row.check} {row.status}, {row.kind}, {list(row.change)}")
def test_status(row: Row) -> None:
    before = statuses(SOUND[row.kind]())
    after = statuses(changed(SOUND[row.kind](), row.change))
    assert after == {**before, **row.drags, row.check: row.status}


@pytest.mark.parametrize("kind", SOUND)
def test_everything_asked_of_a_sound_job_holds(kind: str) -> None:
    wanted = {check.name: "holds" for check in CHECKS} | every("not asked", *NOT_ASKED_WHERE_VALVES_HOLD)
    wanted |= every("not asked", *(NOT_ASKED_OF_A_JET if kind == "jet" else ASKED_OF_A_JET_ALONE))
    wanted |= every("not asked", *((CONTROLLED | OF_A_SWITCH | OF_A_TANK) - ASKED_BY_CONTROL[kind]))
    assert statuses(SOUND[kind]()) == wanted


@pytest.mark.parametrize("check", [check.name for check in CHECKS])
def test_no_cell_of_the_table_is_empty(check: str) -> None:
    wanted = set(STATUS_WORDS) - (set() if check in CAN_BE_NOT_ASKED else {"not asked"})
    wanted -= {"tight"} if check in NEVER_TIGHT | ONLY_TOLD else set()
    wanted -= {"fails"} if check in ONLY_TOLD else set()
    assert {row.status for row in ROWS if row.check == check} == wanted


def test_the_table_names_checks_that_are_there() -> None:
    names = {check.name for check in CHECKS}
    assert {row.check for row in ROWS} == names
    assert {name for row in ROWS for name in row.drags} <= names


def test_a_jet_asked_past_its_table_fails_and_brings_nothing() -> None:
    facts = changed(sound_jet(), {"pump.height": 6.5})
    assert walk(facts).flow.flow.max() == 0.0
    found = statuses(facts)
    assert found["pump_stays_on_its_curve"] == found["delivers_the_need"] == "fails"
