"""Rows of controllers and stores in place of the switch."""

from __future__ import annotations

from tests.checks.status.named import BIG_DAY, NOT_GIVEN, OF_SPEED, TOO_HIGH, Row, every

ROWS = (
    Row("controller_feels_an_open_tap", "tight", {"taps.height": [20.0, 1.0]}, TOO_HIGH, "by flow"),
    Row("controller_feels_an_open_tap", "fails", {"taps.height": [26.0, 1.0]}, TOO_HIGH, "by flow"),
    Row(
        "controller_feels_an_open_tap",
        "unknown",
        {"control.start": NOT_GIVEN},
        every("unknown", "controller_lets_the_pump_rest", "controller_rests_at_a_trickle"),
        "by speed",
    ),
    Row("controller_lets_the_pump_rest", "tight", {"control.start": 400e3}, kind="by flow"),
    Row("controller_lets_the_pump_rest", "fails", {"control.start": 430e3}, kind="by flow"),
    Row(
        "controller_lets_the_pump_rest",
        "unknown",
        {"control.start": NOT_GIVEN},
        every("unknown", "controller_feels_an_open_tap", "controller_rests_at_a_trickle"),
        "by flow",
    ),
    Row("pressure_holds_at_the_need", "tight", {"need.flow": 1.27e-3}, kind="by flow"),
    Row("pressure_holds_at_the_need", "fails", {"need.flow": 1.33e-3}, kind="by flow"),
    # Past what a valve lets through, and past the end of the pump's curve.
    Row("pressure_holds_at_the_need", "fails", {"delivery.flow_control": 5.5e-4}, kind="by speed"),
    Row("pressure_holds_at_the_need", "fails", {"need.flow": 1.7e-3}, {"taps_have_pressure": "holds"}, "by speed"),
    Row(
        "pressure_holds_at_the_need", "unknown", {"need.flow": NOT_GIVEN}, {"taps_have_pressure": "unknown"}, "by flow"
    ),
    Row(OF_SPEED, "tight", {"control.least_speed": 0.65}, kind="by speed"),
    Row(OF_SPEED, "fails", {"control.least_speed": 0.72}, kind="by speed"),
    Row(OF_SPEED, "unknown", {"control.least_speed": NOT_GIVEN}, kind="by speed"),
    Row("controller_rests_at_a_trickle", "tight", {"delivery.tank_volume": 0.002}, kind="by flow"),
    Row("controller_rests_at_a_trickle", "fails", {"delivery.tank_volume": 0.0015}, kind="by flow"),
    # A drive gives the little tank less to live on than a pump that rises to its shut-off.
    Row("controller_rests_at_a_trickle", "fails", {"delivery.tank_volume": 0.007}, kind="by speed"),
    Row("controller_rests_at_a_trickle", "unknown", {"control.trickle": NOT_GIVEN}, kind="by flow"),
    Row("least_flow_cools_the_pump", "tight", {"control.least_flow": 1.5e-5}, kind="by flow"),
    Row("least_flow_cools_the_pump", "fails", {"control.least_flow": 1e-5}, kind="by flow"),
    Row("least_flow_cools_the_pump", "unknown", {"control.least_flow": NOT_GIVEN}, kind="by flow"),
    Row("pump_fills_the_store", "tight", {"control.fill_time": 2150.0}, kind="stored"),
    Row("pump_fills_the_store", "fails", {"control.fill_time": 2000.0}, kind="stored"),
    Row("pump_fills_the_store", "unknown", {"control.fill_time": NOT_GIVEN}, kind="stored"),
    Row("store_lasts_through_the_peak", "tight", {"control.per_day": 15.5}, BIG_DAY, "stored"),
    Row("store_lasts_through_the_peak", "fails", {"control.per_day": 17.0}, BIG_DAY, "stored"),
    Row(
        "store_lasts_through_the_peak",
        "unknown",
        {"control.store_volume": NOT_GIVEN},
        {"store_holds_a_day": "unknown"},
        "stored",
    ),
    Row("store_holds_a_day", "tight", {"control.store_volume": 4.0}, kind="stored"),
    Row("store_holds_a_day", "fails", {"control.per_day": 7.0}, kind="stored"),
    Row(
        "store_holds_a_day",
        "unknown",
        {"control.per_day": NOT_GIVEN},
        every("unknown", "pump_fills_the_store", "store_lasts_through_the_peak"),
        "stored",
    ),
    Row("store_cannot_run_over", "tight", {"control.stops": 1.0}, kind="stored"),
    Row("store_cannot_run_over", "fails", {"control.stops": 0.0}, kind="stored"),
    Row("store_cannot_run_over", "unknown", {"control.stops": NOT_GIVEN}, kind="stored"),
    Row("booster_stands_under_the_store", "tight", {"control.booster_height": 6.8}, kind="stored"),
    Row("booster_stands_under_the_store", "fails", {"control.booster_height": 7.1}, kind="stored"),
    Row("booster_stands_under_the_store", "unknown", {"control.booster_height": NOT_GIVEN}, kind="stored"),
)
