"""Rows of the power."""

from __future__ import annotations

import numpy as np

from tests.checks.status.named import DIP, DIPS, DROP, NOT_GIVEN, Row, every

ROWS = (
    Row("motor_is_not_overloaded", "tight", {"power.service_factor": 1.03}),
    Row("motor_is_not_overloaded", "fails", {"power.service_factor": 1.0}),
    Row("motor_is_not_overloaded", "fails", {"power.brake": 1.3}),
    Row("motor_is_not_overloaded", "unknown", {"power.rating": NOT_GIVEN}),
    Row("motor_is_not_overloaded", "unknown", {"power.brake": NOT_GIVEN}),
    Row("motor_is_not_overloaded", "not asked", kind="jet"),
    Row("voltage_suits_the_motor", "tight", {"power.voltage": 250.0}),
    Row("voltage_suits_the_motor", "tight", {"power.voltage": 215.0}),
    # A motor connected for half the voltage that is there, and one for twice.
    Row("voltage_suits_the_motor", "fails", {"power.rated_voltage": 115.0}),
    Row("voltage_suits_the_motor", "fails", {"power.voltage": 115.0}, {"motor_runs_on_its_cable": "tight"} | DIPS),
    Row("voltage_suits_the_motor", "unknown", {"power.rated_voltage": NOT_GIVEN}),
    Row("voltage_suits_the_motor", "not asked", {"power.rated_voltage": 0.0}),
    Row("cable_carries_the_current", "tight", {"power.ampacity_60": 9.0}),
    Row("cable_carries_the_current", "fails", {"power.ampacity_60": 7.0, "power.ampacity_75": 9.0}),
    Row("cable_carries_the_current", "unknown", {"power.ampacity_75": NOT_GIVEN}),
    Row("cable_carries_the_current", "not asked", {"power.cable": 0.0}, every("not asked", DROP, DIP)),
    Row(DROP, "tight", {"power.length": 90.0}, {DIP: "tight"}),
    Row(DROP, "fails", {"power.length": 125.0}, {DIP: "fails"}),
    Row(DROP, "unknown", {"power.length": NOT_GIVEN}, every("unknown", DIP, "voltage_suits_the_motor")),
    Row(DROP, "not asked", {"power.cable": 0.0}, every("not asked", "cable_carries_the_current", DIP)),
    Row(DIP, "tight", {"power.start_current": 80.0}, {"supply_starts_the_motor": "fails"}),
    Row(DIP, "fails", {"power.start_current": 95.0}, {"supply_starts_the_motor": "fails"}),
    # On the grid it is asked of long cable alone.
    Row(DIP, "not asked", {"power.source": np.inf}, every("not asked", "supply_starts_the_motor")),
    Row(
        DIP,
        "tight",
        {"power.source": np.inf, "power.length": 75.0},
        {"supply_starts_the_motor": "not asked", DROP: "tight"},
    ),
    Row(DIP, "unknown", {"power.start_current": NOT_GIVEN}, every("unknown", "supply_starts_the_motor")),
    Row("supply_starts_the_motor", "tight", {"power.source": 7e3}),
    Row("supply_starts_the_motor", "fails", {"power.source": 5e3}),
    Row("supply_starts_the_motor", "unknown", {"power.source": NOT_GIVEN}),
    Row("supply_starts_the_motor", "not asked", {"power.source": np.inf}, every("not asked", DIP)),
    Row("breaker_fits_the_motor", "holds", {"power.breaker": 20.0}),
    Row("breaker_fits_the_motor", "fails", {"power.breaker": 25.0}),
    Row("breaker_fits_the_motor", "unknown", {"power.breaker": NOT_GIVEN}),
    Row("breaker_fits_the_motor", "not asked", {"power.breaker": 0.0}),
    Row("ground_faults_are_caught", "fails", {"power.protected": 0.0}),
    Row("ground_faults_are_caught", "unknown", {"power.protected": NOT_GIVEN}),
    Row(
        "ground_faults_are_caught",
        "not asked",
        {"power.said": 0.0},
        every("not asked", "voltage_suits_the_motor", "breaker_fits_the_motor"),
    ),
)
