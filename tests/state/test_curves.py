"""The curves of pump and system meet where the walk says they do, and the grade line falls as the losses say."""

from __future__ import annotations

from functools import cache

import fluids
import numpy as np
import pytest
from CoolProp.CoolProp import PropsSI

from lakewright.job.read import read_job_text
from lakewright.job.write import set_values
from lakewright.state.assemble import facts_of
from lakewright.state.cases import CUT_OUT, OPEN, cases_of
from lakewright.state.curves import Curves, curves_of
from lakewright.state.facts import Facts
from lakewright.state.grade_line import GradeLine, grade_line
from lakewright.state.walk import State, walk
from lakewright.stock.load import load_stock
from tests.job.example import EXAMPLE

pytestmark = pytest.mark.law

NAMES = ("year_round_cabin", "stream_irrigation", "stock_tank")
GRAVITY = 9.80665


@cache
def made(name: str, change: tuple[tuple[str, str], ...] = ()) -> tuple[Facts, State, Curves, GradeLine]:
    text = (EXAMPLE.parent / f"{name}.toml").read_text(encoding="utf-8")
    facts = facts_of(read_job_text(set_values(text, dict(change))), load_stock()).facts
    state = walk(facts)
    return facts, state, curves_of(facts, state.flow.flow), grade_line(facts, state)


def row(rows: np.ndarray, case: int) -> np.ndarray:
    return rows[case if len(rows) > 1 else 0]


@pytest.mark.parametrize("name", NAMES)
def test_both_curves_meet_at_the_flow_of_every_case(name: str) -> None:
    _, state, curves, _ = made(name)
    met = 0
    for case, flow in enumerate(state.flow.flow):
        pump, system = (np.interp(flow, curves.flow, row(rows, case)) for rows in (curves.pump, curves.system))
        if flow < curves.flow[-1] * (1.0 - 1e-9):  # run out, the pump has more head left than the system asks
            # A jet closes on flow to a micrometre of head or so; where its table falls steeply that is a little more.
            assert pump == pytest.approx(system, abs=1e-6)
            met += 1
    assert met >= 12


@pytest.mark.parametrize("name", NAMES[:2])
def test_heads_are_those_of_the_walk(name: str) -> None:
    _, state, curves, _ = made(name)
    for case, flow in enumerate(state.flow.flow):
        assert np.interp(flow, curves.flow, curves.system[case]) == pytest.approx(state.pump.head[case], abs=1e-9)
        available = np.interp(flow, curves.flow, curves.available[case])
        assert available == pytest.approx(state.flow.npsh_available[case], abs=1e-9)
        required = np.interp(flow, curves.flow, curves.required[0])
        assert required == pytest.approx(state.flow.npsh_required[case], abs=1e-9)


@pytest.mark.parametrize("name", NAMES)
def test_a_system_asks_more_and_a_pump_gives_less_with_flow(name: str) -> None:
    _, _, curves, _ = made(name)
    assert (np.diff(curves.system, axis=-1) >= 0.0).all()
    known = np.diff(curves.pump, axis=-1)
    assert (known[np.isfinite(known)] <= 1e-9).all()


def test_a_pump_that_is_not_known_has_no_curve() -> None:
    facts, _, _, _ = made("year_round_cabin")
    text = set_values(EXAMPLE.read_text(encoding="utf-8"), {"pump.stock": "open"})
    blank = facts_of(read_job_text(text), load_stock()).facts
    assert np.isnan(curves_of(blank, np.zeros(1)).pump).all()
    assert facts.pump_kind == "centrifugal"


@pytest.mark.parametrize("name", NAMES)
def test_the_grade_at_the_pump_is_what_its_gauges_read(name: str) -> None:
    facts, state, _, grade = made(name)
    cases = cases_of(len(facts.day_names))
    last = grade.suction - 1
    for case in range(len(state.flow.flow)):
        density = PropsSI("D", "T", float(facts.days.temperature[cases.running_day[case]]), "P", 101325.0, "Water")
        read = (grade.grade[case, last] - grade.pipe[last]) * density * GRAVITY
        # Water is a thousandth heavier or lighter by another's reckoning, and falls under a metre here.
        assert read == pytest.approx(float(state.line.pressure[case]), rel=1e-3, abs=30.0)
        tank = (grade.grade[case, -1] - grade.pipe[-1]) * density * GRAVITY
        wanted = {OPEN: 0.0, CUT_OUT: float(facts.delivery.cut_out[0])}
        assert tank == pytest.approx(
            wanted.get(int(cases.running_end[case]), float(facts.delivery.cut_in[0])), rel=1e-3
        )


@pytest.mark.parametrize("name", NAMES)
def test_the_grade_falls_along_the_line_as_another_library_has_it(name: str) -> None:
    facts, state, _, grade = made(name)
    line = slice(3, grade.suction - 1)
    length = float(grade.at[grade.suction - 2] - grade.at[3])
    bore, rough = float(facts.suction.bore[0]), float(facts.suction.roughness[0])
    cases = cases_of(len(facts.day_names))
    for case in np.flatnonzero(cases.running_line == 0):
        kelvin = float(facts.days.temperature[cases.running_day[case]])
        density, viscosity = (PropsSI(name, "T", kelvin, "P", 101325.0, "Water") for name in ("D", "V"))
        speed = float(state.flow.flow[case]) / (0.25 * np.pi * bore * bore)
        reynolds = speed * bore * density / viscosity
        if reynolds < 4000.0:
            continue  # between laminar and turbulent the two differ by rule
        factor = fluids.friction_factor(Re=reynolds, eD=rough / bore, Method="Colebrook")
        fall = grade.grade[case, line][0] - grade.grade[case, line][-1]
        # Half a percent for viscosity: ours is a fit to the same tables.
        assert fall == pytest.approx(factor * length / bore * speed * speed / (2.0 * GRAVITY), rel=5e-3)
        assert np.diff(grade.grade[case, line], 2) == pytest.approx(0.0, abs=1e-9)


@pytest.mark.parametrize("name", NAMES)
def test_it_falls_everywhere_but_in_the_pump_and_rests_level(name: str) -> None:
    facts, state, _, grade = made(name)
    before, after = grade.grade[:, : grade.suction], grade.grade[:, grade.suction :]
    # Where the bore widens some of the velocity comes back.
    back = float((state.line.riser_velocity**2).max()) / (2.0 * GRAVITY)
    assert (np.diff(before, axis=-1) <= back).all()
    assert (np.diff(after, axis=-1) <= 1e-9).all()
    assert (after[:, 0] > before[:, -1]).all()
    assert (np.diff(grade.rest[:, : grade.suction], axis=-1) == 0.0).all()
    assert (np.diff(grade.at) >= 0.0).all()
    assert grade.pipe[grade.suction - 1] == pytest.approx(float(facts.pump.height[0] - facts.ejector.below[0]))


def test_the_room_over_boiling_is_net_suction_head_without_the_velocity() -> None:
    _, state, _, grade = made("year_round_cabin")
    at = grade.suction - 1
    room = grade.grade[:, at] - grade.boils[:, at]
    speed = state.line.velocity**2 / (2.0 * GRAVITY)
    assert room == pytest.approx(state.flow.npsh_available - speed, abs=1e-9)
