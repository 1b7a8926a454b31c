"""A pump with its ejector: against another library, another hand's figures, and the table made of it."""

from __future__ import annotations

from dataclasses import replace

import numpy as np
import pytest
from fluids.friction import friction_factor
from fluids.jet_pump import liquid_jet_pump

from lakewright.physics.curve import shape_keeping, straight_lines
from lakewright.physics.ejector_pump import EjectorPump, Tube
from lakewright.physics.types import Array
from tests.physics.inch_pound import FOOT, PSI

pytestmark = pytest.mark.law

GPM = 6.30902e-5
NONE = Tube(0.03, 0.0, 1e-6)


def made_up(**changes: object) -> EjectorPump:
    """A small invented pump, 150 - 0.20 q^2 ft over gpm, its nozzle of 4.5 mm over its throat 0.22."""
    gallons = np.linspace(0.0, 27.0, 28)
    nozzle = 0.25 * np.pi * 4.5e-3**2
    unit = EjectorPump(
        curve=shape_keeping(gallons * GPM, (150.0 - 0.20 * gallons**2) * FOOT),
        required=straight_lines([0.0, 27.0 * GPM], [2.0, 2.0]),
        nozzle=nozzle,
        throat=nozzle / 0.22,
        nozzle_loss=0.10,
        entry_loss=0.0,
        mixing_loss=0.30,
        cavitation=1.35,
        below=0.0,
        drive=NONE,
        back=NONE,
        least_outlet=0.0,
        density=998.0,
        viscosity=1.0e-6,
        vapour_pressure=1228.2,
    )
    return replace(unit, **changes)  # type: ignore[arg-type]


def deep() -> EjectorPump:
    """The same with its ejector 15 m down on two pipes."""
    return made_up(below=15.0, drive=Tube(0.0266, 18.0, 1.5e-6), back=Tube(0.035, 18.0, 1.5e-6))


def at(*values: float) -> Array:
    return np.array(values)


# Figures that another hand computed, net gpm at 20, 30, 40 and 50 psi, with 0.02 q^2 ft lost in the suction line.
FIGURES = [
    (5.0, (9.7, 9.7, 9.7, 9.0)),
    (10.0, (8.8, 8.8, 8.8, 8.6)),
    (15.0, (7.8, 7.8, 7.8, 7.8)),
    (20.0, (6.6, 6.6, 6.6, 6.6)),
    (25.0, (5.2, 5.2, 5.2, 5.2)),
]


@pytest.mark.parametrize("lift, figures", FIGURES)
def test_flow_by_lift_and_pressure_as_another_hand_has_it(lift: float, figures: tuple[float, ...]) -> None:
    unit, outlet = made_up(), PSI * at(20.0, 30.0, 40.0, 50.0)
    flow = 6.0 * GPM * np.ones(4)
    for _ in range(60):
        flow = 0.5 * (flow + unit.drawn((lift + 0.02 * (flow / GPM) ** 2) * FOOT, outlet))
    # Tolerance 0.15 gpm: the figures do not say how warm their water is.
    assert flow / GPM == pytest.approx(figures, abs=0.15)


@pytest.mark.parametrize("unit", [made_up(), deep()], ids=["at the pump", "down below"])
def test_balance_closes_where_the_ejector_is_not_at_its_limit(unit: EjectorPump) -> None:
    draw = np.random.default_rng(2)
    lift, outlet = draw.uniform(0.0, unit.below + 6.0, 400), draw.uniform(1e5, 4.5e5, 400)
    flow = unit.drawn(lift, outlet)
    between = (flow > 0.0) & (flow < unit.most_drawn(lift) * (1.0 - 1e-12))
    assert between.sum() > 40
    assert np.abs(unit.surplus(flow, lift, outlet)[between]).max() < 1e-3
    assert (unit.surplus(flow, lift, outlet)[flow == 0.0] <= 0.0).all()


def test_ejector_alone_agrees_with_another_library() -> None:
    unit = made_up()
    for lift, outlet in ((4.0, 3.6e5), (2.0, 4.2e5), (6.0, 4.0e5)):
        flow = unit.drawn(at(lift), at(outlet))
        motive = unit.motive(flow, at(lift), at(outlet))
        assert 0.0 < flow[0] < unit.most_drawn(at(lift))[0]
        theirs = liquid_jet_pump(
            rhop=998.0,
            rhos=998.0,
            Kp=0.10,
            Ks=0.0,
            Km=0.30,
            Kd=0.0,
            d_nozzle=4.5e-3,
            d_mixing=float(np.sqrt(unit.throat / (0.25 * np.pi))),
            Qp=float(motive[0]),
            Qs=float(flow[0]),
            P2=101325.0 - unit.weight * lift,
            nozzle_retracted=False,
            max_variations=1000,
        )
        ours = 101325.0 + float(unit.inlet_pressure(motive + flow, at(outlet))[0])
        assert theirs["P5"] == pytest.approx(ours, rel=1e-6)
        assert theirs["P1"] == pytest.approx(101325.0 + outlet, rel=1e-6)


# The thinnest of these takes a third of what drives: there Newton has the furthest to go.
@pytest.mark.parametrize("bore", [0.0266, 0.0158, 0.0125])
def test_what_drives_is_spent_in_the_pipe_down_and_the_nozzle(bore: float) -> None:
    unit, draw = replace(deep(), drive=Tube(bore, 18.0, 1.5e-6)), np.random.default_rng(3)
    lift, outlet, drawn = draw.uniform(0.0, 21.0, 200), draw.uniform(1e5, 4.5e5, 200), draw.uniform(0.0, 4e-4, 200)
    flow = unit.motive(drawn, lift, outlet)
    speed, at_nozzle, beside = flow / (0.25 * np.pi * bore**2), flow / unit.nozzle, drawn / (unit.throat - unit.nozzle)
    # Friction by another library.
    theirs = np.array([friction_factor(Re=v * bore / 1.0e-6, eD=1.5e-6 / bore) for v in speed])
    spent = 0.5 * 998.0 * (1.10 * at_nozzle**2 + theirs * 18.0 / bore * speed**2)
    drives = outlet + 998.0 * 9.80665 * lift + 0.5 * 998.0 * beside**2
    np.testing.assert_allclose(spent, drives, rtol=1e-9)


@pytest.mark.parametrize("unit", [made_up(), deep()], ids=["at the pump", "down below"])
def test_more_lift_and_more_pressure_never_draw_more(unit: EjectorPump) -> None:
    lifts, outlets = np.linspace(0.0, unit.greatest_lift, 60)[:, None], np.linspace(0.0, 6e5, 80)[None, :]
    flows = unit.drawn(lifts, outlets)
    assert (np.diff(flows, axis=0) <= 1e-12).all()
    assert (np.diff(flows, axis=1) <= 1e-12).all()
    assert (flows <= unit.most_drawn(lifts) + 1e-15).all()


@pytest.mark.parametrize("unit", [made_up(), deep()], ids=["at the pump", "down below"])
def test_the_table_says_what_the_ejector_does(unit: EjectorPump) -> None:
    table, draw = unit.table(), np.random.default_rng(7)
    lift, outlet = draw.uniform(0.0, 0.9 * unit.greatest_lift, 500), draw.uniform(0.0, 5.5e5, 500)
    near, exact = table.at(lift, outlet)[0], unit.drawn(lift, outlet)
    # ours: 3 % of the most flow at the bend between the limit and the fall, 1 % on the whole.
    assert np.abs(near - exact).max() < 0.03 * exact.max()
    assert np.abs(near - exact).mean() < 0.01 * exact.max()
    rows = unit.lifts()[:-1]
    assert table.rest_pressure(rows) == pytest.approx(unit.shut_off(rows), rel=1e-9)


def test_a_control_valve_keeps_the_outlet_up() -> None:
    held, free = replace(deep(), least_outlet=2e5).table(), deep().table()
    lift = at(18.0)
    assert held.at(lift, at(0.0))[0] == held.at(lift, at(2e5))[0]
    assert held.at(lift, at(3e5))[0] == pytest.approx(free.at(lift, at(3e5))[0], rel=1e-9)


def test_a_pump_over_two_pipes_boils_at_its_inlet_when_its_outlet_stands_open() -> None:
    unit = deep()
    lift = at(5.0, 12.0, 18.0)
    least = unit.least_outlets().at(lift)
    assert (np.diff(least) > 0.0).all()
    for share, enough in ((1.15, True), (0.85, False)):
        drawn = unit.drawn(lift, share * least)
        inlet = unit.inlet_pressure(unit.motive(drawn, lift, share * least) + drawn, share * least)
        left = (101325.0 + inlet - unit.vapour_pressure) / unit.weight
        assert ((left >= 2.0) == enough).all()
