"""What makes a job fail, written a second time: nothing becomes a must, or stops being one, unasked."""

from __future__ import annotations

from lakewright.checks.registry import CHECKS

NO_WATER = (
    "controller_feels_an_open_tap",
    "pressure_holds_at_the_need",
    "pump_fills_the_store",
    "store_lasts_through_the_peak",
    "booster_stands_under_the_store",
    "booster_delivers_the_need",
    "water_covers_the_inlet",
    "inlet_stays_below_the_ice",
    "lift_is_within_practice",
    "suction_stays_liquid",
    "line_rises_to_the_pump",
    "foot_valve_seats_as_mounted",
    "valves_hold_the_water",
    "flooded_suction_can_be_shut",
    "delivers_the_need",
    "reaches_cut_out",
    "runs_long_enough",
    "switch_can_start_the_pump",
    "taps_have_pressure",
    "two_pipes_keep_their_prime",
    "water_covers_the_inlet_in_a_trough",
)
"""Without these no water comes, or it stops coming."""

BREAKS = (
    "controller_lets_the_pump_rest",
    "store_cannot_run_over",
    "pump_stands_in_its_window",
    "inlet_stands_clear_of_the_bed",
    "stand_does_not_slide",
    "stand_does_not_tip",
    "stand_does_not_float",
    "stand_does_not_sink",
    "line_bears_its_vacuum",
    "line_bears_its_pressure",
    "tank_bears_the_shut_off",
    "delivery_pipe_bears_the_shut_off",
)
"""Without these something breaks, drowns or drifts off."""

BY_RULE = (
    "a_screen_stands_where_a_rule_asks",
    "screen_openings_are_fine_enough",
    "screen_is_slow_enough",
    "authority_lets_it_be_drunk",
    "supply_is_a_private_one",
)
"""These a rule asks."""

ILLNESS = (
    "water_is_clear_enough_to_disinfect",
    "treatment_passes_its_flow",
    "lamp_stays_inside_its_rating",
    "lamp_sees_through_the_water",
    "chlorine_has_time_to_work",
    "barriers_meet_their_targets",
)
"""Without these somebody may fall ill."""


def test_a_job_fails_for_these_and_no_others() -> None:
    assert {check.name for check in CHECKS if check.force == "must"} == {*NO_WATER, *BREAKS, *BY_RULE, *ILLNESS}
