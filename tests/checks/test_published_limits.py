"""Figures that checks judge by against print: rules of screens, pressures of fixtures, velocity, starts."""

from __future__ import annotations

import numpy as np
import pytest

from lakewright.checks.delivery import motor_starts_seldom_enough
from lakewright.job.read import read_job_text
from lakewright.state.assemble import facts_of
from lakewright.state.gather import defaults, screen_rules
from lakewright.state.limits import standard_limits
from lakewright.state.supply import minimum_run
from lakewright.state.walk import Filling
from lakewright.stock.load import load_stock
from tests.published import assert_printed, published

INCH, FOOT, PSI, HORSEPOWER = 0.0254, 0.3048, 6894.757, 745.699
MINUTE = 60.0


def rule_velocity(rule: str) -> float:
    return screen_rules()[rule].velocity


@published("nmfs-1996", "flow criteria, cleans itself and passive")
@pytest.mark.parametrize("rule, printed", [("federal active", "0.4"), ("federal passive", "0.2")])
def test_velocities_of_the_federal_rules(rule: str, printed: str) -> None:
    assert_printed(rule_velocity(rule) / FOOT, printed)


@published("14-ccr-exhibit-d", "approach velocity")
def test_velocity_of_the_california_rule() -> None:
    assert_printed(rule_velocity("california") / FOOT, "0.33")


@published("epa-316b", "through-screen design velocity")
def test_velocity_of_the_through_screen_rule() -> None:
    assert_printed(rule_velocity("through-screen half foot") / FOOT, "0.5")
    assert screen_rules()["through-screen half foot"].on_open


@published("dfo-1995-velocity", "trout-like and eel-like swimmers")
@pytest.mark.parametrize("rule, printed", [("canada trout", "0.11"), ("canada eel", "0.038")])
def test_velocities_of_the_canadian_rules(rule: str, printed: str) -> None:
    assert_printed(rule_velocity(rule), printed)


@published("alaska-withdrawal", "openings and velocity")
def test_the_alaskan_rule() -> None:
    assert_printed(rule_velocity("alaska") / FOOT, "0.5")
    assert_printed(screen_rules()["alaska"].opening / INCH, "0.10")


@published("screen-openings", "openings where fry are present")
@pytest.mark.parametrize("rule", ["federal passive", "federal active", "california"])
def test_openings_of_a_rule_by_the_kind_of_screen(rule: str) -> None:
    assert_printed(screen_rules()[rule].opening / INCH, "0.09375")
    assert_printed(screen_rules()[rule].slot / INCH, "0.0689")


@pytest.mark.parametrize(
    "rule, screen, widest",
    [
        ("federal passive", "cylinder screen, 4 x 12 in", 0.0689),
        ("federal passive", "cylinder screen, perforated, 4 x 12 in", 0.09375),
        ("alaska", "cylinder screen, 4 x 12 in", 0.10),
        # This rule speaks of velocity alone, and any opening will do.
        ("through-screen half foot", "cylinder screen, 4 x 12 in", np.inf),
        ("none", "none", np.inf),
    ],
)
@pytest.mark.law
def test_the_widest_opening_follows_rule_and_screen(rule: str, screen: str, widest: float) -> None:
    job = read_job_text(f'[site.rules]\nscreen = "{rule}"\n[stand.inlet]\nscreen = "{screen}"')
    facts = facts_of(job, load_stock()).facts
    assert facts.site.screen_opening[0] == pytest.approx(widest * INCH)
    assert facts.site.screen_asked[0] == (rule != "none")


@published("ipc-2018-fixtures", "flowing pressure of lavatory, shower, sink and sillcock")
def test_a_tap_wants_what_most_fixtures_want() -> None:
    assert_printed(defaults()["taps.least"].value / PSI, "8")


@published("nspc-pipes", "branches at so much flowing pressure; the most velocity")
def test_a_house_is_easy_at_the_pressure_its_branches_are_sized_for() -> None:
    assert_printed(defaults()["taps.easy in a house"].value / PSI, "15")
    assert_printed(standard_limits().delivery_velocity / FOOT, "8")


# The text's volume of 15 q over the starts an hour is filled at q in 15 minutes over the starts.
@published("ufc-starts", "volume by flow and starts an hour")
@pytest.mark.parametrize("starts", ["4", "6", "10", "15"])
def test_starts_an_hour_by_the_time_to_fill(starts: str) -> None:
    time = np.array([15.0 * MINUTE / float(starts)])
    verdict = motor_starts_seldom_enough(Filling(time, time, np.array([60.0]), np.array([True])), standard_limits())
    assert_printed(verdict.value, starts)


@published("ten-starts", "starts an hour by size of motor")
@pytest.mark.parametrize("horsepower, printed", [(0.5, "15"), (0.75, "15"), (1.0, "7.5"), (1.5, "7.5")])
def test_starts_that_a_motor_bears(horsepower: float, printed: str) -> None:
    run = np.array([minimum_run(horsepower * HORSEPOWER)])
    verdict = motor_starts_seldom_enough(Filling(run, run, run, np.array([True])), standard_limits())
    assert_printed(verdict.limit, printed)


@pytest.mark.law
def test_no_cycle_is_shorter_than_four_runs_of_a_tank_that_fills_undisturbed() -> None:
    draw = np.random.default_rng(3)
    for _ in range(200):
        parts, flow = draw.uniform(0.5, 2.0, 3), np.sort(draw.uniform(0.4, 3.0, 3))
        drawn = np.linspace(0.01, 0.99, 99)[:, None] * flow[0]
        cycle = (parts / (flow - drawn) + parts / drawn).sum(axis=-1)
        assert cycle.min() >= 4.0 * (parts / flow).sum() * (1.0 - 1e-12)
