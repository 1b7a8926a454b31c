"""Rows of what holds the water in the line, and priming."""

from __future__ import annotations

from tests.checks.status.named import (
    DROWNED,
    HELD_BY_NONE,
    NOT_GIVEN,
    PUMP_UNDER_WATER,
    RUNS_DOWN_BY_ITSELF,
    SURGES,
    Row,
    every,
)

ROWS = (
    Row("foot_valve_seats_as_mounted", "tight", {"stand.opening_pressure": 1500.0}),
    # A hinged valve has no spring; another may have one and still be made to hang.
    Row("foot_valve_seats_as_mounted", "fails", {"stand.opening_pressure": 0.0}),
    Row("foot_valve_seats_as_mounted", "fails", {"stand.seats": 0.0}),
    Row("foot_valve_seats_as_mounted", "unknown", {"stand.hangs": NOT_GIVEN}),
    Row("foot_valve_seats_as_mounted", "not asked", {"stand.hangs": 1.0}),
    Row("valves_hold_the_water", "tight", {"holding.at_pump": 0.0}),
    Row("valves_hold_the_water", "tight", {"holding.at_inlet": 0.0}, {"line_is_primed_in_time": "fails"}),
    Row(
        "valves_hold_the_water",
        "fails",
        {"holding.at_inlet": 0.0, "holding.at_pump": 0.0},
        {"line_is_primed_in_time": "fails"},
    ),
    Row(
        "valves_hold_the_water",
        "unknown",
        {"holding.at_inlet": NOT_GIVEN},
        every(
            "unknown",
            *("line_bears_its_vacuum", "line_bears_its_pressure", "line_is_primed_in_time", *SURGES[1:]),
        ),
    ),
    Row(
        "valves_hold_the_water",
        "not asked",
        {"holding.flooded": 1.0},
        {"flooded_suction_can_be_shut": "fails", "line_is_primed_in_time": "not asked"},
    ),
    Row("line_bears_its_pressure", "tight", {"suction.allowed_pressure": 60e3}, {"suction_bears_the_slam": "fails"}),
    Row("line_bears_its_pressure", "fails", {"suction.allowed_pressure": 50e3}, {"suction_bears_the_slam": "fails"}),
    # The same pipe bears lift and not the tank.
    Row("line_bears_its_pressure", "holds", {"suction.allowed_pressure": 400e3}),
    Row(
        "line_bears_its_pressure",
        "fails",
        {"suction.allowed_pressure": 400e3, "holding.at_pump": 0.0},
        {"valves_hold_the_water": "tight", "suction_bears_the_slam": "fails"},
    ),
    Row(
        "line_bears_its_pressure",
        "unknown",
        {"suction.allowed_pressure": NOT_GIVEN},
        {"suction_bears_the_slam": "unknown"},
    ),
    Row(
        "flooded_suction_can_be_shut",
        "holds",
        {**RUNS_DOWN_BY_ITSELF, "suction.valves": 1.0},
        every("not asked", *HELD_BY_NONE),
    ),
    Row("flooded_suction_can_be_shut", "fails", RUNS_DOWN_BY_ITSELF, every("not asked", *HELD_BY_NONE)),
    Row(
        "flooded_suction_can_be_shut",
        "fails",
        {**RUNS_DOWN_BY_ITSELF, "suction.valves": 1.0, "stand.foot_valve": 1.0},
        every("not asked", *HELD_BY_NONE),
    ),
    Row(
        "flooded_suction_can_be_shut",
        "unknown",
        {**RUNS_DOWN_BY_ITSELF, "suction.valves": NOT_GIVEN},
        every("not asked", *HELD_BY_NONE),
    ),
    Row("flooded_suction_can_be_shut", "not asked"),
    Row("line_is_primed_in_time", "tight", {"priming.casing": 0.05}),
    Row("line_is_primed_in_time", "fails", {"priming.stand_water": 0.2}),
    # A pump that draws the air out itself is done sooner, or never.
    Row("line_is_primed_in_time", "holds", {"priming.draws_air": 1.0}),
    Row("line_is_primed_in_time", "tight", {"priming.draws_air": 1.0, "priming.air_rate": 1.4e-4}),
    Row("line_is_primed_in_time", "fails", {"priming.draws_air": 1.0, "priming.dead_head": 3.2}),
    Row("line_is_primed_in_time", "unknown", {"priming.draws_air": NOT_GIVEN}),
    Row("line_is_primed_in_time", "not asked", PUMP_UNDER_WATER, DROWNED),
)
