"""What bucket, watch and clamp should read, and how near each reading is."""

from __future__ import annotations

from dataclasses import replace

import numpy as np
import pytest

from lakewright.gauges import TAP, gauge_words, readings_of
from lakewright.physics.tank import cycle_time
from lakewright.state.facts import Facts
from lakewright.state.meters import NO_LOAD, PLATE_OVER_TABLE, drawdown, meters, motor_current
from lakewright.state.walk import walk
from tests.made import sound

GALLON = 3.785411784e-3


def by_name(facts: Facts, plate_is_read: bool = False) -> dict[str, tuple[float, float, float]]:
    readings = readings_of(facts, walk(facts), plate_is_read)
    return {each.name: (each.low, each.high, each.within) for each in readings}


# Source: the trade-magazine column of March 2008, example 1: 85 gal, 28 psi of air, 30/50 at the sea give 25.1 gal.
@pytest.mark.law
def test_the_drawdown_of_a_printed_tank() -> None:
    psi = 6894.757
    facts = sound().with_values(
        {
            "site.elevation": np.zeros(1),
            "delivery.tank_volume": np.array([85.0 * GALLON]),
            "delivery.precharge": np.array([28.0 * psi]),
            "delivery.cut_in": np.array([30.0 * psi]),
            "delivery.cut_out": np.array([50.0 * psi]),
        }
    )
    assert drawdown(facts)[0] / GALLON == pytest.approx(25.1, abs=0.05)
    low, high, within = by_name(facts)["drawdown"]
    assert low == high == drawdown(facts)[0]
    assert within == pytest.approx(1.645 * meters()["drawdown"].noise * low, rel=0.01)


@pytest.mark.law
def test_every_reading_is_there_and_each_has_its_tolerance() -> None:
    found = by_name(sound())
    assert set(meters()) - {"motor_current"} <= set(found)
    assert all(low <= high and within > 0.0 for low, high, within in found.values())


@pytest.mark.law
def test_a_cycle_lasts_what_the_tank_takes_to_empty_and_to_fill() -> None:
    facts = sound().on_day(0)
    flow = walk(facts).delivery.flow
    low, high, _ = by_name(facts)["cycle_time"]
    assert low == high
    # Running cases are, line clean: cut-in, cut-out, open.
    mean = 0.5 * (flow[0] + flow[1])
    assert low == pytest.approx(drawdown(facts)[0] * mean / (TAP * (mean - TAP)))
    # One tap more shortens it until half of the flow is drawn.
    assert cycle_time(drawdown(facts), np.array([mean]), np.array([2.0 * TAP]))[0] < low or 0.5 * mean < 2.0 * TAP


@pytest.mark.law
def test_without_a_tank_nothing_is_said_of_drawdown_and_cycle() -> None:
    found = by_name(sound().with_values({"delivery.tank_volume": np.zeros(1)}))
    assert not {"drawdown", "cycle_time"} & set(found)


@pytest.mark.law
def test_a_motor_draws_between_half_and_all_of_its_plate() -> None:
    facts = sound().with_values({"power.running_current": np.array([8.0])})
    none, most = (motor_current(facts, np.array([flow]), np.ones(1))[0] for flow in (0.0, 1.0))
    assert (none, most) == (pytest.approx(8.0 * NO_LOAD), pytest.approx(8.0))
    read, unread = by_name(facts, plate_is_read=True)["motor_current"], by_name(facts)["motor_current"]
    assert unread[0] == pytest.approx(read[0] * PLATE_OVER_TABLE[0])
    assert unread[1] == pytest.approx(read[1] * PLATE_OVER_TABLE[1])
    silent = facts.with_values({"power.running_current": np.zeros(1)})
    assert "motor_current" not in by_name(silent)


@pytest.mark.message
def test_readings_in_words() -> None:
    facts = sound().with_values({"power.running_current": np.array([8.0])})
    lines = gauge_words(readings_of(facts, walk(facts)), "US")
    assert [line.partition(":")[0] for line in lines] == ["gauges standing", "gauges running", "readings"]
    assert all(" \u00b1 " in line for line in lines)
    assert "from start to start with a tap of 2.0 gpm open" in lines[2]
    bare = [replace(each, within=0.0) for each in readings_of(facts, walk(facts))]
    assert not any("\u00b1" in line for line in gauge_words(bare, "US"))
