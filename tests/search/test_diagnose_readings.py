"""Diagnosis by what is tried at the pump and by how it came: the shut valve, wetted joints, the filters left out."""

from __future__ import annotations

from typing import get_args

import numpy as np
import pytest

from lakewright.api.read import assembled
from lakewright.job.models_shop import Came, Joint
from lakewright.search import case
from lakewright.search.diagnose import diagnose, told_more
from lakewright.search.faults import ANSWERS, Fault, every_fault, fault_table
from lakewright.search.next_test import next_tests
from lakewright.search.visit import sight
from lakewright.state.walk import walk
from tests.made import sound
from tests.search.test_diagnose import CABIN, EXAMPLES, SOUND_VISIT, chance, diagnosed, plain_visits, visit

WEAK = (*SOUND_VISIT[:1], 'suction_running = "8.6 inHg vacuum"', SOUND_VISIT[2], 'flow = "6 gpm"')
AIR = (
    'suction_standing = "0 inHg vacuum"', 'suction_running = "8 inHg vacuum"', SOUND_VISIT[2], 'flow = "6 gpm"',
)  # fmt: skip


def shut_gauge() -> float:
    """The middle of what the cabin's gauge reads with the valve shut, when sound [psi]."""
    expected = next(each for each in diagnosed(visit(*WEAK)).expected if each.name == "pressure_shut")
    return 0.5 * (expected.low + expected.high) / 6894.757


@pytest.mark.law
def test_the_answers_of_the_catalogue_are_those_of_the_job_file() -> None:
    table = fault_table()["answers"]
    assert set(table) == set(ANSWERS)
    assert tuple(table["came"]["are"]) == get_args(Came)
    assert tuple(table["wetted"]["are"]) == get_args(Joint)


@pytest.mark.law
@pytest.mark.parametrize("fault", every_fault(), ids=lambda fault: fault.name)
def test_every_answer_is_some_answer(fault: Fault) -> None:
    for question in ANSWERS:
        chances = fault.answers(question, 6)
        assert chances.min() > 0.0
        np.testing.assert_allclose(chances.sum(axis=1), 1.0, rtol=1e-12)


@pytest.mark.law
def test_with_the_valve_shut_the_gauges_read_the_shut_off_and_the_lift() -> None:
    facts, nothing = sound().on_day(0), np.zeros(1)
    state = walk(facts)
    found = sight(facts, plain_visits(0.5), {}, nothing, 1.0 + nothing)
    rise = found.readings["pressure_standing"] - found.readings["pressure_stop"]
    dead = found.readings["pressure_shut"].item() - (facts.delivery.height - facts.pump.height).item() * 9790.0
    assert dead == pytest.approx(state.shut_off.at_tank[0], rel=2e-3)
    # Under a foot valve and a check the gauge at rest reads the lift too.
    assert found.readings["suction_shut"].item() == pytest.approx(state.standing.pressure[0])
    # Halfway from the least to the most pressure it has not stopped yet.
    assert rise.item() == pytest.approx(-0.5 * (facts.delivery.cut_out - facts.delivery.cut_in).item())


@pytest.mark.law
def test_a_gauge_that_is_right_with_the_valve_shut_clears_the_pump() -> None:
    right = shut_gauge()
    low, good = (diagnosed(visit(*WEAK, f'pressure_shut = "{psi:.0f} psi"')) for psi in (0.75 * right, right))
    weak = ("pump worn", "runs backward", "voltage low")
    assert chance(low, *weak) > 0.9
    assert chance(good, *weak) < 0.5 * chance(low, *weak)


@pytest.mark.law
def test_a_bucket_before_the_filters_tells_them_from_a_house_that_runs() -> None:
    short = (*SOUND_VISIT[:3], 'flow = "3 gpm"', 'changed = "nothing"')
    full, less = (diagnosed(visit(*short, f'flow_before_filter = "{gpm} gpm"')) for gpm in (8.6, 3.0))
    assert full.suspects[0].fault.name == "filter not changed"
    assert full.suspects[0].chance > 0.8
    assert chance(less, "filter not changed") < 0.05


@pytest.mark.law
def test_the_lake_against_its_mark_tells_the_lake() -> None:
    deep = ('suction_standing = "10 inHg vacuum"', 'suction_running = "12 inHg vacuum"', *SOUND_VISIT[2:])
    usual = next(each for each in diagnosed(visit(*deep)).expected if each.name == "lake_level")
    at = 0.5 * (usual.low + usual.high)
    lower, same = (diagnosed(visit(*deep, f'lake_level = "{level:.2f} m"')) for level in (at - 0.85, at))
    assert chance(lower, "lake lower") > 0.75
    assert chance(same, "lake lower") < 0.5 * chance(lower, "lake lower")


@pytest.mark.law
@pytest.mark.parametrize(
    "joint, name", [("plug", "plug out"), ("union", "union ring"), ("clamps", "clamp draws air")], ids=str
)
def test_the_joint_that_answers_to_water_is_the_one(joint: str, name: str) -> None:
    assert diagnosed(visit(*AIR, f'wetted = "{joint}"')).suspects[0].fault.name == name


@pytest.mark.law
def test_what_broke_came_at_once_and_what_wore_over_months() -> None:
    once, slowly = (diagnosed(visit(*WEAK, f'came = "{came}"')) for came in ("at once", "over months"))
    assert chance(slowly, "pump worn") > chance(once, "pump worn")
    assert chance(once, "voltage low", "runs backward") > 2.0 * chance(slowly, "voltage low", "runs backward")


@pytest.mark.law
def test_where_air_gets_in_wetting_the_joints_is_asked_for() -> None:
    tests = next_tests(diagnosed(visit(*AIR, 'changed = "nothing"', 'first_minute = "the needle swings"')))
    assert ("try", "wetted") in {(test.kind, test.name) for test in tests}


@pytest.mark.law
def test_read_later_it_says_what_it_would_have_said_at_once() -> None:
    more = (*WEAK, 'pressure_shut = "50 psi"', 'tank_air = "33 psi"', 'came = "over days"')
    before = diagnosed(visit(*WEAK))
    job, _, assembly = assembled(CABIN + visit(*more), EXAMPLES / "cabin.toml")
    later, at_once = told_more(before, job, assembly, job.readings[-1]), diagnose(job, assembly)
    assert [(s.fault.name, s.chance) for s in later.suspects] == [(s.fault.name, s.chance) for s in at_once.suspects]
    assert later.expected == at_once.expected


@pytest.mark.law
def test_faults_that_move_no_water_are_what_they_are_row_by_row(monkeypatch: pytest.MonkeyPatch) -> None:
    found = diagnosed(visit(*WEAK, 'drawdown = "9 gal"'))
    monkeypatch.setattr(case, "MOVES_NO_WATER", set())
    whole = {s.fault.name: s.chance for s in diagnosed(visit(*WEAK, 'drawdown = "9 gal"')).suspects}
    assert {s.fault.name: s.chance for s in found.suspects} == pytest.approx(whole, rel=1e-9)
