"""Rows of where pump and intake stand."""

from __future__ import annotations

from tests.checks.status.named import (
    DRY,
    IN_WAVES,
    LEFT_THERE,
    NOT_GIVEN,
    ON_THE_BED,
    OUT_OF_THE_WATER,
    PLACED,
    PLACED_IN_WAVES,
    SHALLOW,
    TALL_WAVES,
    Row,
    every,
)

ROWS = (
    Row("pump_stands_in_its_window", "tight", {"pump.height": 1.4}),
    Row("pump_stands_in_its_window", "fails", {"pump.height": 1.2}),
    Row(
        "pump_stands_in_its_window",
        "tight",
        {"pump.height": 5.5},
        every("tight", "lift_is_within_practice", "suction_stays_liquid"),
    ),
    Row(
        "pump_stands_in_its_window",
        "fails",
        {"pump.height": 6.8},
        every("fails", "lift_is_within_practice", "suction_stays_liquid"),
    ),
    Row("pump_stands_in_its_window", "fails", {"site.flood": 3.0}),
    Row("pump_stands_in_its_window", "holds", {"site.flood": 3.0, "site.walled": 1.0}),
    Row("pump_stands_in_its_window", "unknown", {"site.flood": NOT_GIVEN}),
    Row(
        "water_covers_the_inlet",
        "tight",
        {"stand.depth": 2.0},
        {**SHALLOW, "water_covers_the_inlet_in_a_trough": "tight"},
    ),
    Row("water_covers_the_inlet", "tight", {"site.cover_floor": 5.0}, {"float_stops_in_time": "fails"}),
    Row(
        "water_covers_the_inlet",
        "fails",
        {"stand.depth": 1.6},
        {**every("fails", "inlet_stays_below_the_ice", "stand_does_not_tip"), **OUT_OF_THE_WATER},
    ),
    # In a narrow riser one rule asks for cover without end; an inlet out of the water still fails by the other.
    Row(
        "water_covers_the_inlet",
        "fails",
        {"stand.riser_bore": 0.026, "stand.depth": 1.0},
        {
            **every("fails", "inlet_stays_below_the_ice", "stand_does_not_tip", "stand_does_not_slide")
            | every("tight", "stand_is_not_undermined"),
            **OUT_OF_THE_WATER,
            "stand_is_outside_breakers": "fails",
        },
    ),
    Row("water_covers_the_inlet", "tight", {"stand.riser_bore": 0.026}),
    Row("water_covers_the_inlet", "unknown", {"site.cover_floor": NOT_GIVEN}, {"float_stops_in_time": "unknown"}),
    Row("inlet_stands_clear_of_the_bed", "tight", {"stand.sink": 0.55}),
    Row("inlet_stands_clear_of_the_bed", "fails", {"stand.sink": 0.65}),
    Row("inlet_stands_clear_of_the_bed", "unknown", {"site.bed_wanted": NOT_GIVEN}),
    Row("inlet_stays_below_the_ice", "tight", {"days.ice": [0.0, 4.7]}, every("fails", "frozen_band_is_buried")),
    Row("inlet_stays_below_the_ice", "fails", {"days.ice": [0.0, 4.9]}, every("fails", "frozen_band_is_buried")),
    Row(
        "inlet_stays_below_the_ice",
        "unknown",
        {"days.ice": [0.0, NOT_GIVEN]},
        every("unknown", "frozen_band_is_buried", *IN_WAVES, *PLACED),
    ),
    Row(
        "inlet_stays_below_the_ice",
        "not asked",
        {"days.ice": [0.0, 0.0]},
        every("not asked", "frozen_band_is_buried"),
    ),
    Row("stand_is_outside_breakers", "tight", {"weather.wake": 3.0}, TALL_WAVES),
    Row("stand_is_outside_breakers", "fails", {"weather.wake": 4.7}, TALL_WAVES),
    Row(
        "stand_is_outside_breakers",
        "unknown",
        {"weather.wake": NOT_GIVEN},
        every("unknown", *IN_WAVES, *PLACED_IN_WAVES),
    ),
    Row(
        "stand_is_outside_breakers",
        "not asked",
        {"days.ice": [0.1, 0.7]},
        every("not asked", *PLACED, IN_WAVES[-1]),
    ),
    Row(
        "water_covers_the_inlet_in_a_trough",
        "tight",
        {"stand.riser": 4.7},
        {"water_covers_the_inlet": "tight", "boats_pass_over_the_inlet": "fails", "float_stops_in_time": "fails"},
    ),
    Row(
        "water_covers_the_inlet_in_a_trough", "fails", {"stand.riser": 5.0}, every("fails", *DRY, "float_stops_in_time")
    ),
    Row(
        "water_covers_the_inlet_in_a_trough",
        "unknown",
        {"weather.fetch": NOT_GIVEN},
        every("unknown", *IN_WAVES, *PLACED_IN_WAVES),
    ),
    Row(
        "water_covers_the_inlet_in_a_trough",
        "not asked",
        {"stand.on_legs": 0.0},
        every("not asked", *ON_THE_BED, *LEFT_THERE, *PLACED_IN_WAVES),
    ),
    Row("boats_pass_over_the_inlet", "tight", {"stand.riser": 4.3}, {"float_stops_in_time": "fails"}),
    Row(
        "boats_pass_over_the_inlet",
        "fails",
        {"stand.riser": 4.55},
        every("tight", "water_covers_the_inlet", PLACED[1]) | {"float_stops_in_time": "fails"},
    ),
    Row("boats_pass_over_the_inlet", "unknown", {"placing.boats": NOT_GIVEN}),
    Row("boats_pass_over_the_inlet", "not asked", {"placing.boats": 0.0}),
    Row("waves_leave_silt_lying", "tight", {"weather.wake": 0.4}),
    Row("waves_leave_silt_lying", "fails", {"weather.wake": 0.7}),
    Row("waves_leave_silt_lying", "unknown", {"placing.silt": NOT_GIVEN}),
    Row("waves_leave_silt_lying", "not asked", {"placing.silt": 0.0}),
    # The inlet out of the water, and in the dark: told alike.
    Row("light_at_the_inlet_is_told", "holds", {"placing.disc_depth": 0.2}),
    Row("light_at_the_inlet_is_told", "unknown", {"placing.disc_depth": NOT_GIVEN}),
    Row("light_at_the_inlet_is_told", "not asked", {"placing.lies_still": 0.0}, every("not asked", PLACED[5])),
    Row("warm_layer_is_told", "unknown", {"placing.lake_length": NOT_GIVEN}),
    Row("warm_layer_is_told", "not asked", {"placing.warmest": 287.0}),
)
