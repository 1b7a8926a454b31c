"""The pressure tank against print."""

from __future__ import annotations

import numpy as np
import pytest

from lakewright.physics.tank import (
    GAUSS_WEIGHTS,
    cycle_time,
    drawdown_share,
    filling_pressures,
    filling_time,
    pressure_left,
)
from tests.published import assert_printed, published

# psi throughout: the formulas are ratios of pressures.
PRECHARGE, CUT_IN, CUT_OUT = np.array([28.0]), np.array([30.0]), np.array([50.0])
SEA, MOUNTAIN = np.array([14.7]), np.array([11.8])


@published("tank-column-2008", "example 1, 85 gal, 30/50, at the sea")
@pytest.mark.parametrize("gallons, printed", [(1.0, "0.295"), (85.0, "25.1")])
def test_drawdown_at_the_sea(gallons: float, printed: str) -> None:
    assert_printed(gallons * drawdown_share(PRECHARGE, CUT_IN, CUT_OUT, SEA)[0], printed)


# Tolerance 0.1 gal: the text takes 54.7 from 80.9 and prints 26.1 for 26.2.
@published("tank-column-2008", "example 2, 85 gal, 30/50, at 6000 ft")
def test_drawdown_at_6000_ft() -> None:
    assert_printed(85.0 * drawdown_share(PRECHARGE, CUT_IN, CUT_OUT, MOUNTAIN)[0], "26.1", tolerance=0.1)


# memory: three digits that many sellers' tables share, with the air charged to cut-in.
@published("tank-multipliers", "20/40, 30/50, 40/60 with the air at cut-in, from memory")
@pytest.mark.parametrize("cut_in, printed", [(20.0, "0.37"), (30.0, "0.31"), (40.0, "0.27")])
def test_multipliers_of_the_trade(cut_in: float, printed: str) -> None:
    low = np.array([cut_in])
    assert_printed(drawdown_share(low, low, low + 20.0, SEA)[0], printed)


@published("tank-column-2005", "drawdown ratio of 30/50 with 28 psi of precharge")
def test_drawdown_ratio() -> None:
    assert_printed(drawdown_share(PRECHARGE, CUT_IN, CUT_OUT, SEA)[0], "0.3")


# Filled at 1 gpm, 25.1 gal take 25.1 minutes.
@published("tank-column-2008", "example 1, 85 gal, 30/50, at the sea")
def test_time_to_fill_the_drawdown() -> None:
    one = np.array([1.0])
    assert_printed(85.0 * filling_time(PRECHARGE, CUT_IN, CUT_OUT, SEA, (one, one, one))[0], "25.1")


# Drawn down by what the text says the tank gives, it stands at cut-in again.
@published("tank-column-2008", "example 1, 85 gal, 30/50, at the sea")
def test_pressure_left_after_the_drawdown() -> None:
    left = pressure_left(PRECHARGE, CUT_OUT, SEA, np.array([85.0]), np.array([25.1]))
    assert_printed(left[0], "30")


# A pump that runs the stated minutes with nobody drawing starts most often when half its flow is drawn.
@published("ten-starts", "starts an hour against shortest run")
@pytest.mark.parametrize("minutes, printed", [(1.0, "15"), (2.0, "7.5")])
def test_most_starts_an_hour(minutes: float, printed: str) -> None:
    pump = np.array([10.0])
    volume = minutes * pump / drawdown_share(PRECHARGE, CUT_IN, CUT_OUT, SEA)
    net = pump - 0.5 * pump
    filling = volume * filling_time(PRECHARGE, CUT_IN, CUT_OUT, SEA, (net, net, net))
    emptying = volume * drawdown_share(PRECHARGE, CUT_IN, CUT_OUT, SEA) / (0.5 * pump)
    # Tolerance 1e-4 of it: the quadrature.
    assert_printed(60.0 / (filling + emptying)[0], printed, tolerance=1e-4 * float(printed))


# Volume in gallons for each gpm of the pump, by starts an hour: 15 q over starts, where half the flow is drawn.
@published("ufc-starts", "table 7-1: 15 q over starts an hour")
@pytest.mark.parametrize("starts, volume", [(15.0, 1.0), (6.0, 2.5)])
def test_shortest_cycle_of_a_volume(starts: float, volume: float) -> None:
    shortest = cycle_time(np.array([volume]), np.array([1.0]), np.array([0.5]))[0]
    assert_printed(60.0 / shortest, f"{starts}")


# A tank that keeps the pump running the stated minutes lets it start so often and no more.
@published("ten-starts", "starts an hour against shortest run")
@pytest.mark.parametrize("minutes, printed", [(1.0, "15"), (2.0, "7.5")])
def test_no_draw_starts_a_pump_more_often(minutes: float, printed: str) -> None:
    flow, drawn = np.array([10.0]), np.linspace(0.1, 9.9, 99)
    assert_printed(60.0 / cycle_time(minutes * flow, flow, drawn).min(), printed)


@pytest.mark.law
def test_a_pump_that_brings_no_more_than_is_drawn_never_stops() -> None:
    assert np.isinf(cycle_time(np.array([20.0]), np.array([3.0, 4.0]), np.array([4.0]))).all()


# memory: the digits of n = 3, which the tests recompute.
@published("abramowitz-1964", "table 25.4, n = 3, from memory")
def test_nodes_match_the_table() -> None:
    first, middle, last = filling_pressures(np.array([-1.0]), np.array([1.0]))
    assert_printed(-first[0], "0.774596669241483")
    assert_printed(middle[0], "0.000000000000000")
    assert_printed(last[0], "0.774596669241483")


# memory: the digits of n = 3, which the tests recompute.
@published("abramowitz-1964", "table 25.4, n = 3, from memory")
@pytest.mark.parametrize("index, printed", [(0, "0.555555555555556"), (1, "0.888888888888889")])
def test_weights_match_the_table(index: int, printed: str) -> None:
    assert_printed(GAUSS_WEIGHTS[index], printed)


@pytest.mark.law
def test_pressure_falls_as_water_is_drawn_until_the_tank_is_empty() -> None:
    drawn = np.linspace(0.0, 85.0, 200)
    left = pressure_left(PRECHARGE, CUT_OUT, SEA, np.array([85.0]), drawn)
    assert left[0] == pytest.approx(CUT_OUT[0])
    assert np.all(np.diff(left) <= 0.0)
    assert left[-1] == 0.0
    # The last water goes at precharge.
    assert left[left > 0.0][-1] == pytest.approx(PRECHARGE[0], abs=0.5)
