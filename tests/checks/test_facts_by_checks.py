"""Which check rests on which fact: what `needs` says, held to what happens when a fact is blanked or moved a little.

To write the page anew: python tests/checks/test_facts_by_checks.py
"""

from __future__ import annotations

from collections.abc import Callable, Iterator
from functools import cache
from pathlib import Path
from typing import Any

import numpy as np
import pytest

from lakewright.checks.control import OF_CONTROL
from lakewright.checks.registry import CHECKS, judge
from lakewright.checks.verdict import NOT_ASKED, UNKNOWN, Verdict
from lakewright.physics.curve import Curve, unknown_curve
from lakewright.physics.jet import JetTable, unknown_table
from lakewright.state.control_facts import BY_FLOW, BY_SPEED, HELD, STORE
from lakewright.state.facts import Facts, every_fact, fact_names
from lakewright.state.protection import guards_at_rest
from lakewright.state.walk import walk
from tests.made import controlled, sound, sound_jet, stretched_curve, stretched_table

pytestmark = pytest.mark.law

PAGE = Path(__file__).resolve().parents[2] / "docs" / "reference" / "facts_by_checks.md"
SOUND: dict[str, Callable[[], Facts]] = {"centrifugal": sound, "jet": sound_jet}
PAIRS = [(kind, name) for kind in SOUND for name in fact_names(kind)]

AT_LEAST = 2
"""ours: jobs near the sound one, besides it, that every fact is tried in."""

LITTLE = 0.01
"""ours: how far a fact is moved, of itself, or of one unit where it is nothing."""

# In the sound job itself the spring holds the valve, and the flood is the further edge of the window. Near it are jobs
# in which the disc of the valve, the flood, a relief valve and a flow control valve have their say.
# With weights so heavy that waves do not roll it where they are tallest, the line's weight has its say.
# In a storm, and in a swifter stream, the grains of the bed move.
# What stands in place of a pressure switch, and where its checks come near to what they rest on.
DISC: dict[str, Any] = {"stand.valve_lift_factor": 40.0, "stand.opening_pressure": 0.0}
SLOW_STORE: dict[str, Any] = {"control_kind": STORE, "control.per_day": 14.0}
LIFTED: dict[str, Any] = {**SLOW_STORE, "delivery.flow_control": 1.0, "delivery.height": 25.0}
BY_CONTROL: tuple[dict[str, Any], ...] = (
    {"control_kind": BY_FLOW},
    {"control_kind": BY_SPEED},
    # A store that is filled more slowly than it is drawn from, through a valve that holds the flow and without one.
    SLOW_STORE,
    {**SLOW_STORE, "delivery.flow_control": 5e-4, **DISC},
    LIFTED,
    {**LIFTED, **DISC},
    {"control_kind": BY_FLOW, **DISC},
    {"control_kind": BY_FLOW, "delivery.relief": 400e3},
    {"control_kind": BY_SPEED, **DISC},
    {"control_kind": BY_SPEED, "delivery.flow_control": 5.99e-4},
)
NEAR_SOUND: tuple[dict[str, Any], ...] = (
    {},
    *BY_CONTROL,
    {"weather.wind": 26.0},
    {"days.current": [0.3, 0.1]},
    {"suction.weight_mass": 40.0},
    {"stand.opening_pressure": 0.0},
    {"stand.valve_lift_factor": 40.0, "stand.opening_pressure": 0.0, "need.flow": 6.7e-4, "delivery.relief": 400e3},
    {"stand.opening_pressure": 5000.0},
    {"pump.height": 1.6},
    {"delivery.flow_control": 5e-4, "stand.opening_pressure": 0.0},
    {"delivery.relief": 400e3},
    {"holding.at_pump": 0.0},
    {"holding.at_inlet": 0.0},
    {"suction.vacuum_rating": 60e3},
    {"suction.pocket_length": 3.0},
    {"season.suction_left": 3.0, "season.delivery_left": 3.0},
    # Losses past what the air can push.
    {"suction.coefficient": 400.0},
    # On one of its days this pump stands a hair over the water.
    {"pump.height": 0.1001},
    {"delivery.flow_control": float(sound().pump.curve.last[0]) * (1.0 - 1e-6)},
    # Water drunk by animals alone; one barrier alone; each of a lamp's ratings just met; chlorine against Giardia too.
    {"drinking.wanted": 0.0},
    {"drinking.chlorine": 0.0},
    {"drinking.lamp": 0.0},
    {"drinking.lamp_flow": 5.02e-4},
    {"drinking.lamp_transmittance": 0.845},
    {"drinking.turbidity": 4.97},
    {"drinking.lamp": 0.0, "drinking.filter_giardia": 0.0},
    # More is drawn than the pump brings at cut-in: of the centrifugal, of the jet.
    {"need.flow": 1.5e-3},
    {"need.flow": 6.7e-4},
    {"need.flow": 1.5e-3, "stand.valve_lift_factor": 40.0, "stand.opening_pressure": 0.0},
    {"need.flow": 1.38e-3, "delivery.flow_control": 1.4e-3},
    {"need.flow": 6.7e-4, "delivery.flow_control": 7e-4},
    # A cut-off that just cannot open, and nothing beside it; and one that surely cannot, with a guard beside it.
    {"protection.guards": 0.0, "protection.cut_off": float(guards_at_rest(sound(), np.zeros(1)).static[0])},
    {"protection.cut_off": 1e3, "power.breaker": 22.0},
    # A motor that starts as gently as it runs.
    {"power.start_current": 8.0, "power.breaker": 20.0},
    # A pump that draws the air out itself.
    {"priming.draws_air": 1.0, "suction.pocket_length": 1.0},
    # The same of a line that ends at a jet's ejector, a little under the pump.
    {"pump.height": 0.1501},
    # A control valve that keeps a jet's outlet up.
    {"ejector.outlet_held": 4e5},
)


# A line in which a foot valve alone holds, and one that the water runs down by itself: what the sound job is not.
FLOODED: dict[str, float] = {
    "holding.flooded": 1.0,
    "holding.at_inlet": 0.0,
    "holding.at_pump": 0.0,
    "stand.foot_valve": 0.0,
    "suction.valves": 1.0,
}
DRAWS_AIR: dict[str, float] = {"priming.draws_air": 1.0, "suction.pocket_length": 1.0}
CONTROLS: tuple[dict[str, Any], ...] = tuple({"control_kind": kind} for kind in (*HELD, STORE))
ASKED: tuple[dict[str, Any], ...] = ({}, {"holding.at_pump": 0.0}, FLOODED, DRAWS_AIR, *CONTROLS)

FLAGS = {
    *(
        "site.walled",
        "site.screen_on_open",
        "site.screen_asked",
        "stand.is_bare",
        "stand.foot_valve",
        "stand.seats",
        "stand.hangs",
    ),
    *("stand.on_legs", "members.on_bed", "members.holds_air"),
    *("placing.silt", "placing.boats", "placing.lies_still"),
    *("holding.at_inlet", "holding.at_pump", "holding.flooded", "priming.draws_air", "ejector.fitted"),
    *("season.emptied", "season.hauled"),
    *(f"drinking.{name}" for name in ("wanted", "herd", "public", "bloom", "held", "lamp", "chlorine")),
    *("protection.at_pump", "protection.winter", "protection.guarded"),
    *("power.said", "power.cable", "power.protected"),
}


def blanked(facts: Facts, name: str) -> Facts:
    """The facts with one that nobody has given."""
    value = facts.value(name)
    if isinstance(value, Curve):
        return facts.with_values({name: unknown_curve()})
    if isinstance(value, JetTable):
        return facts.with_values({name: unknown_table()})
    return facts.with_values({name: np.full_like(value, np.nan)})


def nudged(facts: Facts, name: str, share: float) -> Facts:
    """The facts with one moved a little; curves by a taller copy, tables by one of more flow and pressure."""
    value, one, more = facts.value(name), np.ones(1), np.array([1.0 + share])
    if isinstance(value, Curve):
        return facts.with_values({name: stretched_curve(value, one, more)})
    if isinstance(value, JetTable):
        return facts.with_values({name: stretched_table(value, more, more)})
    if name in FLAGS:
        return facts.with_values({name: 1.0 - value})
    step = share * np.where(value == 0.0, 1.0, np.where(np.isfinite(value), np.abs(value), 0.0))
    return facts.with_values({name: value + step})


def verdicts(facts: Facts) -> tuple[Verdict, ...]:
    return judge(walk(facts), facts.limits)


def made_so(kind: str, changes: dict[str, Any]) -> Facts:
    """The sound job with a few numbers of its own, and perhaps with something else in place of its switch."""
    facts, numbers = SOUND[kind](), dict(changes)
    control = numbers.pop("control_kind", None)
    facts = facts if control is None else controlled(facts, control)
    return facts.with_values({name: np.atleast_1d(np.array(value, dtype=float)) for name, value in numbers.items()})


@cache
def verdicts_of_sound(kind: str) -> tuple[Verdict, ...]:
    return verdicts(SOUND[kind]())


@cache
def near_sound(kind: str, number: int) -> tuple[Facts, tuple[Verdict, ...]]:
    """A job near the sound one, and its verdicts."""
    facts = made_so(kind, (*NEAR_SOUND, FLOODED)[number])
    return facts, verdicts(facts)


def same(one: Any, other: Any) -> bool:
    return np.array_equal(one, other, equal_nan=True)


def moved(before: tuple[Verdict, ...], facts: Facts) -> set[str]:
    """Checks whose status, or margin in any case, is another than before."""
    pairs = zip(CHECKS, before, verdicts(facts), strict=True)
    return {
        check.name
        for check, one, other in pairs
        if not (same(one.status, other.status) and same(one.by_case, other.by_case))
    }


def listing(kind: str, name: str) -> set[str]:
    """Checks that say they rest on this fact."""
    return {check.name for check in CHECKS if name in check.facts_needed(kind)}


@pytest.mark.parametrize("kind, name", PAIRS)
def test_a_blank_fact_makes_unknown_exactly_the_checks_that_list_it(kind: str, name: str) -> None:
    unknown: set[str] = set()
    for changes in ASKED:
        after = verdicts(blanked(made_so(kind, changes), name))
        unknown |= {check.name for check, verdict in zip(CHECKS, after, strict=True) if verdict.status == UNKNOWN}
    assert unknown == listing(kind, name)


@pytest.mark.parametrize("kind, name", PAIRS)
def test_a_blank_fact_moves_no_other_check(kind: str, name: str) -> None:
    found: set[str] = set()
    for changes in ASKED:
        facts = made_so(kind, changes)
        found |= moved(verdicts(facts), blanked(facts, name))
    assert found == listing(kind, name)


@cache
def moved_by_a_little(kind: str, name: str) -> frozenset[str]:
    """Checks that move with a little more or a little less of a fact, in the sound job or one near it."""
    found: set[str] = set()
    for number in range(len(NEAR_SOUND) + 1):
        facts, before = near_sound(kind, number)
        for share in (LITTLE, -LITTLE):
            found |= moved(before, nudged(facts, name, share))
        # Once all that list it have moved, further jobs would only cost time: a walk of all checks takes its while.
        if number >= AT_LEAST and found >= listing(kind, name):
            break
    return frozenset(found)


@pytest.mark.parametrize("kind, name", PAIRS)
def test_a_fact_moved_a_little_moves_only_checks_that_list_it(kind: str, name: str) -> None:
    assert moved_by_a_little(kind, name) <= listing(kind, name)


@pytest.mark.parametrize("kind, name", PAIRS)
def test_a_check_that_lists_a_fact_moves_with_it(kind: str, name: str) -> None:
    assert moved_by_a_little(kind, name) >= listing(kind, name)


def test_checks_list_facts_that_are_there_each_once() -> None:
    for kind in SOUND:
        for check in CHECKS:
            needed = check.facts_needed(kind)
            assert set(needed) <= set(fact_names(kind)), check.name
            assert len(needed) == len(set(needed)), check.name


def test_what_is_not_asked_of_a_pump_rests_on_nothing() -> None:
    for kind in SOUND:
        for check, verdict in zip(CHECKS, verdicts_of_sound(kind), strict=True):
            unasked = check.facts_needed(kind) == () or check.name in {"flooded_suction_can_be_shut", *OF_CONTROL}
            assert (verdict.status == NOT_ASKED) == unasked, (check.name, kind)


# The page

HEAD = """# Which check rests on which fact

Written from `needs` in `src/lakewright/checks`, which a test holds to what happens: blank a fact, and exactly these
checks turn unknown; move it a little, and no other moves.
To write it anew: `python tests/checks/test_facts_by_checks.py`.

Where a kind of pump stands behind a check, it rests on the fact with that kind alone.

| fact | checks that rest on it |
|---|---|
"""


def entries(name: str) -> Iterator[str]:
    """The checks that rest on a fact, in the order water flows, with the kind of pump where it matters."""
    for check in CHECKS:
        kinds = [kind for kind in SOUND if name in check.facts_needed(kind)]
        words = check.name.replace("_", " ")
        if kinds:
            # A fact that only one kind of pump has needs no telling.
            able = [kind for kind in SOUND if name in fact_names(kind)]
            told = "" if kinds == able or check.name not in asked_of(able) else f" ({', '.join(kinds)})"
            yield words + told


def asked_of(kinds: list[str]) -> set[str]:
    """Checks that are asked of every one of these kinds of pump."""
    return {check.name for check in CHECKS if all(check.facts_needed(kind) for kind in kinds)}


def page() -> str:
    rows = [f"| `{name}` | {'; '.join(entries(name)) or 'none yet'} |" for name in every_fact()]
    return HEAD + "\n".join(rows) + "\n"


def test_the_page_is_current() -> None:
    assert PAGE.read_text(encoding="utf-8") == page(), "run: python tests/checks/test_facts_by_checks.py"


if __name__ == "__main__":
    PAGE.write_text(page(), encoding="utf-8")
