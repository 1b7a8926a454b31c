"""Rows of what keeps the pump from harm."""

from __future__ import annotations

import numpy as np

from tests.checks.status.named import CAUGHT, NEEDLESS, NOT_GIVEN, Row, every

ROWS = (
    # Water standing 3 m over a switch beside the pump keeps 29 kPa on its cut-off for ever.
    Row("cut_off_can_trip", "tight", {"protection.cut_off": 60e3}),
    Row("cut_off_can_trip", "fails", {"protection.cut_off": 29e3}),
    # The house of the notes, 60 ft up with the switch at the shore, and nothing but that cut-off.
    Row(
        "cut_off_can_trip",
        "fails",
        {"protection.switch_height": -12.3, "protection.guards": 0.0},
        every("fails", "running_dry_is_caught"),
    ),
    Row("cut_off_can_trip", "unknown", {"protection.switch_height": NOT_GIVEN}, every("unknown", CAUGHT)),
    Row("cut_off_can_trip", "not asked", {"protection.cut_off": -np.inf}, every("not asked", NEEDLESS)),
    Row(NEEDLESS, "tight", {"protection.cut_off": 170e3}),
    Row(NEEDLESS, "fails", {"protection.cut_off": 199.9e3}),
    # More is drawn than the pump brings at cut-in.
    Row(NEEDLESS, "tight", {"need.flow": 1.4e-3}, every("fails", "delivers_the_need")),
    Row(NEEDLESS, "fails", {"need.flow": 1.6e-3}, every("fails", "delivers_the_need")),
    # A tank so small that a slow start empties it.
    Row(
        NEEDLESS,
        "fails",
        {"delivery.tank_volume": 0.03},
        every("fails", "runs_long_enough", "motor_starts_seldom_enough"),
    ),
    Row(
        NEEDLESS,
        "unknown",
        {"delivery.tank_volume": NOT_GIVEN},
        every("unknown", "runs_long_enough", "motor_starts_seldom_enough"),
    ),
    Row(
        NEEDLESS,
        "not asked",
        {"protection.cut_off": -np.inf},
        every("not asked", "cut_off_can_trip"),
    ),
    Row(
        CAUGHT,
        "fails",
        {"protection.guards": 0.0, "protection.cut_off": -np.inf},
        every("not asked", "cut_off_can_trip", NEEDLESS),
    ),
    # A thermostat on the casing is enough where the cut-off cannot open.
    Row(CAUGHT, "holds", {"protection.cut_off": 1e3}, every("fails", "cut_off_can_trip")),
    Row(CAUGHT, "unknown", {"protection.guards": NOT_GIVEN}),
    Row("float_stops_in_time", "tight", {"protection.float_at": -4.2}),
    Row("float_stops_in_time", "fails", {"protection.float_at": -4.3}),
    Row("float_stops_in_time", "unknown", {"protection.float_at": NOT_GIVEN}),
    Row("float_stops_in_time", "not asked", {"protection.float_at": -np.inf}),
    Row("relief_passes_the_pump", "tight", {"delivery.relief": 345e3, "protection.relief_flow": 9e-4}),
    Row("relief_passes_the_pump", "fails", {"delivery.relief": 345e3, "protection.relief_flow": 7e-4}),
    # Set higher, it has less to pass.
    Row("relief_passes_the_pump", "holds", {"protection.relief_flow": 7e-4}),
    Row("relief_passes_the_pump", "unknown", {"protection.relief_flow": NOT_GIVEN}),
    Row("relief_passes_the_pump", "not asked", {"delivery.relief": np.inf}),
    Row("switch_feels_the_tank", "tight", {"delivery.coefficient": 160.0}),
    Row(
        "switch_feels_the_tank",
        "fails",
        {"delivery.cut_out": 210e3},
        every("fails", "runs_long_enough", "motor_starts_seldom_enough"),
    ),
    Row("switch_feels_the_tank", "unknown", {"protection.at_pump": NOT_GIVEN}),
    Row("switch_feels_the_tank", "not asked", {"protection.at_pump": 0.0}),
    Row("pump_house_stays_warm", "fails", {"protection.guarded": 0.0}),
    Row("pump_house_stays_warm", "unknown", {"protection.guarded": NOT_GIVEN}),
    Row("pump_house_stays_warm", "not asked", {"protection.winter": 0.0}),
)
