"""What a row of the table of checks and statuses is, and what several rows call by one name."""

from __future__ import annotations

import math
from collections.abc import Mapping
from dataclasses import dataclass, field
from typing import Any

from lakewright.checks.control import OF_CONTROL
from lakewright.checks.drinking import DRINKING
from tests.made import sound

NOT_GIVEN = math.nan

# What a pressure switch does not ask, what a controller and a store ask besides, and what neither then asks.
CONTROLLED = set(OF_CONTROL)
OF_SPEED = "drive_stays_above_its_least_speed"
OF_A_CONTROLLER = {
    *("controller_feels_an_open_tap", "controller_lets_the_pump_rest", "pressure_holds_at_the_need"),
    *("controller_rests_at_a_trickle", "least_flow_cools_the_pump"),
}
OF_A_STORE = CONTROLLED - OF_A_CONTROLLER - {OF_SPEED}
OF_A_SWITCH = {
    *("delivers_the_need", "reaches_cut_out", "runs_long_enough", "motor_starts_seldom_enough"),
    *("switch_can_start_the_pump", "cut_off_can_trip", "cut_off_stays_shut", "switch_feels_the_tank"),
}
OF_A_TANK = {"tank_bears_the_shut_off", "taps_have_pressure", "relief_passes_the_pump"}
ASKED_BY_CONTROL = {
    "centrifugal": OF_A_SWITCH | OF_A_TANK,
    "jet": OF_A_SWITCH | OF_A_TANK,
    "by flow": OF_A_CONTROLLER | OF_A_TANK,
    "by speed": OF_A_CONTROLLER | {OF_SPEED} | OF_A_TANK,
    "stored": OF_A_STORE,
}

# Those that a mask by kind of pump or by day can leave out altogether.
CAN_BE_NOT_ASKED = {
    *("a_screen_stands_where_a_rule_asks", "screen_openings_are_fine_enough"),
    *("inlet_stays_below_the_ice", "screen_is_slow_enough", "suction_stays_liquid", "pump_curve_falls"),
    *("line_bears_its_vacuum", "line_rises_to_the_pump", "no_joint_above_the_water", "frozen_band_is_buried"),
    *("foot_valve_seats_as_mounted", "valves_hold_the_water", "flooded_suction_can_be_shut"),
    *("stand_does_not_slide", "stand_does_not_tip", "stand_does_not_float", "stand_does_not_sink"),
    *("stand_bears_a_snag", "stand_can_be_lifted", "line_stays_down", "line_is_held_in_the_waves"),
    "stand_is_not_undermined",
    *("supply_drains_empty", "trench_is_below_frost", "line_has_slack_for_the_cold", "line_can_be_hauled"),
    *("closes_before_the_frost", "opens_after_the_frost"),
    *("stand_is_outside_breakers", "water_covers_the_inlet_in_a_trough", "boats_pass_over_the_inlet"),
    *("waves_leave_silt_lying", "light_at_the_inlet_is_told", "warm_layer_is_told"),
    *(check.name for check in DRINKING),
    *("cut_off_can_trip", "cut_off_stays_shut", "float_stops_in_time"),
    *("relief_passes_the_pump", "switch_feels_the_tank", "pump_house_stays_warm"),
    *("motor_is_not_overloaded", "voltage_suits_the_motor", "cable_carries_the_current"),
    *("motor_runs_on_its_cable", "motor_starts_on_its_cable", "supply_starts_the_motor"),
    *("breaker_fits_the_motor", "ground_faults_are_caught"),
    *("line_is_primed_in_time", "ejector_does_not_boil", "two_pipes_keep_their_prime"),
    *("delivery_bears_the_surge", "suction_bears_the_slam", "suction_column_stays_whole"),
    *(CONTROLLED | OF_A_SWITCH | OF_A_TANK),
}
NOT_ASKED_WHERE_VALVES_HOLD = {"flooded_suction_can_be_shut"}
# Its value is yes or no.
NEVER_TIGHT = {
    *("a_screen_stands_where_a_rule_asks", "flooded_suction_can_be_shut", "running_dry_is_caught"),
    *("pump_house_stays_warm", "ground_faults_are_caught", "breaker_fits_the_motor"),
    "no_bloom_is_known_here",
}
# Told in good and in bad: good for nothing but to be known.
ONLY_TOLD = {"light_at_the_inlet_is_told", "warm_layer_is_told"}
NOT_ASKED_OF_A_JET = {"suction_stays_liquid", "pump_curve_falls", "motor_is_not_overloaded"}
ASKED_OF_A_JET_ALONE = {"ejector_does_not_boil", "two_pipes_keep_their_prime"}


@dataclass(frozen=True)
class Row:
    check: str
    status: str
    change: Mapping[str, Any] = field(default_factory=dict)
    drags: Mapping[str, str] = field(default_factory=dict)
    kind: str = "centrifugal"


def every(status: str, *names: str) -> dict[str, str]:
    return dict.fromkeys(names, status)


HELD_BY_NONE = ("valves_hold_the_water", "line_is_primed_in_time")
SURGES = ("delivery_bears_the_surge", "suction_bears_the_slam", "suction_column_stays_whole")
SHORT = every("not asked", *SURGES)
OPEN_AT_THE_INLET = {"valves_hold_the_water": "tight", "line_is_primed_in_time": "fails"}

# The checks that rest on the running flow, besides those of the tank.
ON_THE_FLOW = (
    "water_covers_the_inlet",
    "screen_is_slow_enough",
    "lift_is_within_practice",
    "suction_stays_liquid",
    "pump_stays_on_its_curve",
    "runs_long_enough",
    "motor_starts_seldom_enough",
    "line_bears_its_vacuum",
    *SURGES,
)
AT_CUT_IN = ("delivers_the_need", "delivery_runs_gently")
SHUT_OFF = ("tank_bears_the_shut_off", "delivery_pipe_bears_the_shut_off")

# What is asked of a stand on the bed, and of the line that lies there.
ON_THE_BED = (
    *("stand_does_not_slide", "stand_does_not_tip", "stand_does_not_float", "stand_does_not_sink"),
    *("stand_bears_a_snag", "stand_can_be_lifted", "line_stays_down", "line_is_held_in_the_waves"),
    "stand_is_not_undermined",
)


# What is asked of the place of a stand: where waves come, and on days without ice.
PLACED_IN_WAVES = (
    "stand_is_outside_breakers",
    "water_covers_the_inlet_in_a_trough",
    "waves_leave_silt_lying",
)
PLACED = (*PLACED_IN_WAVES, "boats_pass_over_the_inlet", *sorted(ONLY_TOLD))
SHALLOW = every("fails", "boats_pass_over_the_inlet", "waves_leave_silt_lying", "float_stops_in_time")
OUT_OF_THE_WATER = {**SHALLOW, "water_covers_the_inlet_in_a_trough": "fails"}


IN_WAVES = ("stand_does_not_slide", "stand_does_not_tip", "stand_is_not_undermined", "line_is_held_in_the_waves")
# Of winter: what water is left in, and what lies in it.
OF_BORES = ("supply_drains_empty",)
HAULED = "line_can_be_hauled"
LEFT_THERE = ("line_has_slack_for_the_cold", HAULED)


def bars(factor: float) -> dict[str, list[float]]:
    """The sound stand with its two bars of iron so many times as thick."""
    return {"members.section": [*sound().members.section[:6], *(factor * sound().members.section[6:])]}


TALL_WAVES = {
    **every("fails", "waves_leave_silt_lying", "stand_does_not_slide", "stand_does_not_tip", IN_WAVES[-1]),
    "stand_is_not_undermined": "tight",
}
DRY = ("water_covers_the_inlet", "inlet_stays_below_the_ice", "boats_pass_over_the_inlet")

# What is asked of the guards that rest on the running flow.
GUARDS_IN_USE = ("relief_passes_the_pump", "switch_feels_the_tank", "motor_is_not_overloaded")
NEEDLESS, CAUGHT = "cut_off_stays_shut", "running_dry_is_caught"
DROP, DIP = "motor_runs_on_its_cable", "motor_starts_on_its_cable"
DIPS = {DIP: "tight"}

HIGH_TAP = every("fails", "taps_have_pressure", "cut_off_can_trip")
# A switch set too low for its taps.
LOW_SWITCH = {"taps_have_pressure": "fails", "switch_can_start_the_pump": "tight", NEEDLESS: "fails"}

RUNS_DOWN_BY_ITSELF = {
    "holding.flooded": 1.0,
    "holding.at_inlet": 0.0,
    "holding.at_pump": 0.0,
    "stand.foot_valve": 0.0,
}

# What a pump under the water does not ask.
NEVER_LIFTS = every(
    "not asked",
    *("line_rises_to_the_pump", "no_joint_above_the_water", "line_bears_its_vacuum", "line_is_primed_in_time"),
)
PUMP_UNDER_WATER = {"pump.height": -4.0}
DROWNED = {**NEVER_LIFTS, "pump_stands_in_its_window": "fails"}

# What is asked where people drink, and what of it a lamp and a contact tank decide.
WHERE_PEOPLE_DRINK = tuple(
    check.name for check in DRINKING if check.name not in ("filters_pass_cold_water", "filters_last")
)
CONTROL_KINDS = ("by flow", "by speed", "stored")
TOO_HIGH = {"taps_have_pressure": "fails"}
BIG_DAY = {"store_holds_a_day": "fails"}
CHLORINE, BARRIERS = "chlorine_has_time_to_work", "barriers_meet_their_targets"
# Without the lamp's share chlorine has Giardia to do besides, in cold water.
NO_LAMP = {CHLORINE: "fails", BARRIERS: "fails"}
