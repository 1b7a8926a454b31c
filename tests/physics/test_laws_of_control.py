"""Speed, store and trickle: closed forms, and what must never get worse."""

from __future__ import annotations

import numpy as np
import pytest

from lakewright.physics.curve import rows_of, shape_keeping, stack, straight_lines
from lakewright.physics.speed import input_power, least_speed_ratio, power_at_speed, speed_ratio_for
from lakewright.physics.store import DAY, PEAK_TIME, least_content, peak_draws, weeping_cycle

pytestmark = pytest.mark.law

FLOWS = [0.0, 4e-4, 8e-4, 1.2e-3, 1.6e-3]
PUMP = shape_keeping(FLOWS, [52.0, 49.0, 43.0, 32.0, 16.0])


def test_speed_of_a_parabola_is_its_closed_form() -> None:
    """A head of a - b q^2 is n^2 a - b q^2 at another speed: n is the root of (h + b q^2) / a."""
    a, b = 50.0, 1.5e7
    flows = np.linspace(0.0, 1.6e-3, 4001)
    fine = straight_lines(flows.tolist(), (a - b * flows * flows).tolist())
    flow, head = np.array([2e-4, 6e-4, 1e-3]), np.array([20.0, 25.0, 30.0])
    found = speed_ratio_for(fine, flow, head)
    # Tolerance: straight lines between points 4e-7 m3/s apart lie that near to the parabola.
    np.testing.assert_allclose(found, np.sqrt((head + b * flow * flow) / a), rtol=1e-7)


def test_a_pump_at_the_speed_found_brings_what_was_asked() -> None:
    flow, head = np.linspace(1e-5, 1.1e-3, 40), np.array([24.0])
    ratio = speed_ratio_for(PUMP, flow, head)
    np.testing.assert_allclose(ratio * ratio * PUMP.at(flow / ratio), np.broadcast_to(head, flow.shape), rtol=1e-12)


def test_more_flow_or_more_head_asks_for_more_speed() -> None:
    flow = np.linspace(0.0, 1.0e-3, 30)
    assert np.all(np.diff(speed_ratio_for(PUMP, flow, np.array([24.0]))) > 0.0)
    assert np.all(np.diff(speed_ratio_for(PUMP, np.array([6e-4]), np.linspace(1.0, 45.0, 30))) > 0.0)


def test_what_is_past_the_pump_has_no_speed_and_its_own_curve_is_the_rated_one() -> None:
    flow, head = np.array([8e-4, 8e-4, 1.7e-3]), np.array([43.0, 43.1, 1.0])
    found = speed_ratio_for(PUMP, flow, head)
    assert found[0] == pytest.approx(1.0, abs=1e-12)
    assert np.isnan(found[1:]).all()


def test_speed_at_no_flow_is_the_least_of_all() -> None:
    head = np.array([20.0])
    least = least_speed_ratio(head, np.array([52.0]))[0]
    assert least == pytest.approx(speed_ratio_for(PUMP, np.array([0.0]), head)[0], rel=1e-12)
    assert least < speed_ratio_for(PUMP, np.array([1e-4]), head)[0]


def test_a_row_has_its_speed_alone_to_the_last_bit() -> None:
    batch = rows_of(stack([PUMP, straight_lines([0.0, 1e-3], [40.0, 20.0])]), np.array([0, 1, 0]))
    flow, head = np.array([[3e-4], [5e-4], [9e-4]]), np.array([[30.0], [22.0], [20.0]])
    together = speed_ratio_for(batch, flow, head)
    for row in range(3):
        own = rows_of(batch, np.array([row]))
        np.testing.assert_array_equal(speed_ratio_for(own, flow[row : row + 1], head[row : row + 1])[0], together[row])


def test_against_a_lift_a_slower_pump_saves_less_than_the_cube_of_its_flow() -> None:
    """The saving is less than the affinity laws give for the same cut in flow where most of the head is lift."""
    lift, full = 24.0, 1.0e-3
    losses = (PUMP.at(np.array([full]))[0] - lift) / (full * full)
    half = np.array([0.5 * full])
    ratio = speed_ratio_for(PUMP, half, lift + losses * half * half)[0]
    assert 0.5 < ratio < 1.0
    assert power_at_speed(1.0, ratio) > 0.5**3


def test_a_drive_takes_no_less_than_the_shaft_gets() -> None:
    assert input_power(np.array([500.0]), np.array([0.7]), np.array([0.95]))[0] > 500.0


def test_a_peak_draws_down_by_what_the_filling_does_not_bring() -> None:
    volume, per_day = np.array([4.0]), np.array([3.0])
    for inflow in (0.0, 1e-4, 2e-4, 1e-3):
        left = least_content(volume, np.array([inflow]), peak_draws(per_day), np.array([PEAK_TIME]))[0]
        lost = max(per_day[0] - inflow * PEAK_TIME, 0.0)
        short = max(per_day[0] - inflow * DAY, 0.0)
        assert left == pytest.approx(volume[0] - lost - short, rel=1e-12)


def test_water_is_neither_made_nor_lost_where_the_store_never_fills() -> None:
    random = np.random.default_rng(7)
    draws = tuple(np.array([value]) for value in random.uniform(2e-4, 6e-4, 30))
    volume, inflow, step = np.array([5.0]), np.array([1e-4]), np.array([600.0])
    drawn = sum(float(draw[0]) for draw in draws) * step[0]
    assert least_content(volume, inflow, draws, step)[0] == pytest.approx(5.0 + inflow[0] * 30 * step[0] - drawn)


def test_a_larger_store_and_more_filling_never_leave_less() -> None:
    draws, step = peak_draws(np.array([3.0])), np.array([PEAK_TIME])
    by_volume = least_content(np.linspace(1.0, 6.0, 20), np.array([5e-5]), draws, step)
    by_inflow = least_content(np.array([4.0]), np.linspace(0.0, 5e-4, 20), draws, step)
    assert np.all(np.diff(by_volume) > 0.0)
    assert np.all(np.diff(by_inflow) >= 0.0)


def test_a_trickle_of_nothing_never_starts_the_pump() -> None:
    assert np.isinf(weeping_cycle(np.array([0.0, 1e-3]), np.array([0.0]), np.array([10.0]))).all()
    assert weeping_cycle(np.array([0.0]), np.array([1e-6]), np.array([10.0]))[0] == 10.0
