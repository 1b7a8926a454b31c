"""A pump at another speed, a store that is filled and drawn, and a tank that weeps, against print."""

from __future__ import annotations

from collections.abc import Callable

import numpy as np
import pytest

from lakewright.physics.heat import least_flow
from lakewright.physics.speed import flow_at_speed, head_at_speed, least_speed_ratio, power_at_speed
from lakewright.physics.store import least_content, peak_draws, weeping_cycle
from lakewright.physics.types import Array
from tests.published import assert_printed, published

NONE, ONE = np.array([0.0]), np.array([1.0])


TENTH_MORE = {flow_at_speed: "10", head_at_speed: "21", power_at_speed: "33"}


# Printed as a tenth more speed: 10 % more flow, 21 % more head, 33 % more power.
@published("affinity-guide", "example, a tenth more speed")
@pytest.mark.parametrize("law, printed", TENTH_MORE.items())
def test_a_tenth_more_speed(law: Callable[[Array, Array], Array], printed: str) -> None:
    assert_printed(law(np.array([100.0]), np.array([1.1]))[0] - 100.0, printed)


# The same example asked the other way round: 21 % more head takes a tenth more speed.
@published("affinity-guide", "example, a tenth more speed, by its head")
def test_the_speed_that_a_head_takes() -> None:
    assert_printed(100.0 * least_speed_ratio(np.array([121.0]), np.array([100.0]))[0] - 100.0, "10")


def least_when_drawn_twice(gallons: float, gpm: float, minutes: float) -> float:
    """What a store of so many gallons falls to, emptied in a minute, and again after so many minutes of filling."""
    at_once = np.array([gallons + gpm])
    waiting = (NONE,) * round(minutes)
    return float(least_content(np.array([gallons]), np.array([gpm]), (at_once, *waiting, at_once), ONE)[0])


# Gallons and minutes. A minute sooner the second draw lacks what a minute brings.
@published("low-yield-page", "150 gal stored recover at 1 gpm")
def test_a_store_recovers_in_the_time_printed() -> None:
    assert_printed(150.0 - least_when_drawn_twice(150.0, 1.0, 150.0), "150")
    assert_printed(least_when_drawn_twice(150.0, 1.0, 149.0), "-1")


@published("low-yield-page", "what 1 gpm is in a day")
def test_a_gallon_a_minute_is_so_much_in_a_day() -> None:
    assert_printed(1440.0 - least_when_drawn_twice(1440.0, 1.0, 24 * 60), "1440")


@published("storage-column", "what 3 gpm is in 24 hours")
def test_three_gallons_a_minute_are_so_much_in_a_day() -> None:
    assert_printed(4320.0 - least_when_drawn_twice(4320.0, 3.0, 24 * 60), "4320")


# Printed as a little over ten minutes: ten are borne, eleven are not.
@published("low-yield-page", "150 gal stored at 14 gpm")
def test_stored_water_lasts_a_little_over_ten_minutes() -> None:
    left = [least_content(np.array([150.0]), NONE, (np.array([14.0]),) * n, ONE)[0] for n in (10, 11)]
    assert left[0] > 0.0 > left[1]


# The rule's example, as the extension prints it: a day's gallons over 120 are the gpm of the peak.
@published("penn-state-planning", "flow of a peak of two hours, 400 gal a day")
def test_the_peak_of_a_day() -> None:
    gallon, minute = 3.785411784e-3, 60.0
    assert_printed(peak_draws(np.array([400.0 * gallon]))[0][0] / gallon * minute, "3.3")


# Drawn down by half of what the pump brings, the tank of the rule starts it so often; here filling takes no time, so a
# pump that fills as fast as it is drawn has half the cycle left: the emptying.
@published("ufc-starts", "volume by starts an hour")
def test_the_emptying_half_of_the_cycle_of_the_rule() -> None:
    pump, starts = 10.0, 6.0
    drawdown = 15.0 * pump / starts
    emptying = weeping_cycle(np.array([drawdown]), np.array([0.5 * pump]), NONE)[0]
    assert_printed(60.0 / (2.0 * emptying), "6")


# The constant of the page: a brake horsepower over 2.95 for 15 F.
@published("pump-temperature-pages", "minimum flow for a rise of 15 F")
def test_the_flow_that_cools_a_pump() -> None:
    gpm = least_flow(np.array([745.7]), np.array([15.0 / 1.8]), np.array([999.1]))[0] / 6.30902e-5
    assert_printed(1.0 / gpm, "2.95")
