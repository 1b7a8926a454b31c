"""What bucket, watch and clamp should read, and how near each reading is."""

from __future__ import annotations

from dataclasses import replace

import numpy as np
import pytest

from lakewright.gauges import TAP, gauge_words, readings_of
from lakewright.physics.tank import cycle_time
from lakewright.physics.water import density
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


@pytest.mark.law
def test_with_the_valve_shut_the_gauges_read_the_head_of_no_flow_less_the_lift_and_the_lift_alone() -> None:
    """The tank is left out of it: no line, no switch and no filter moves either gauge."""
    facts = sound().on_day(0)
    found = by_name(facts)
    weight = density(float(facts.days.temperature[0])) * 9.80665
    lift = float(facts.pump.height[0] - facts.days.level[0])
    head = float(facts.pump.curve.c0.ravel()[0])
    # The foot valve's spring takes its own of any flow, and flow dies where nothing is left for it.
    spring = float(facts.stand.opening_pressure[0])
    assert found["pressure_shut"][:2] == pytest.approx([(head - lift) * weight - spring] * 2)
    assert found["suction_shut"][:2] == pytest.approx([-lift * weight] * 2)
    uphill = facts.with_values({"delivery.height": facts.delivery.height + 3.0, "delivery.length": np.array([900.0])})
    for name in ("pressure_shut", "suction_shut"):
        assert by_name(uphill)[name] == pytest.approx(found[name])


@pytest.mark.law
def test_as_it_stops_the_gauge_reads_the_cut_out_or_the_most_that_the_pump_can_hold() -> None:
    facts = sound().on_day(0)
    rise = (facts.delivery.height - facts.pump.height)[0] * density(float(facts.days.temperature[0])) * 9.80665
    low, high, _ = by_name(facts)["pressure_stop"]
    assert low == high == pytest.approx(float(facts.delivery.cut_out[0]) + rise)
    worn = facts.with_values({"faults.wear": np.array([0.6])})
    assert by_name(worn)["pressure_stop"][:2] == pytest.approx(by_name(worn)["pressure_shut"][:2])
    assert by_name(worn)["pressure_stop"][1] < high


@pytest.mark.message
def test_readings_in_words() -> None:
    facts = sound().with_values({"power.running_current": np.array([8.0])})
    lines = gauge_words(readings_of(facts, walk(facts)), "US")
    assert [line.partition(":")[0] for line in lines] == [
        "gauges standing",
        "gauges running",
        "gauges running, the valve after the pump shut for a moment",
        "gauges as it stops",
        "readings",
    ]
    assert all(" \u00b1 " in line for line in lines)
    assert "from start to start with a tap of 2.0 gpm open" in lines[-1]
    bare = [replace(each, within=0.0) for each in readings_of(facts, walk(facts))]
    assert not any("\u00b1" in line for line in gauge_words(bare, "US"))
