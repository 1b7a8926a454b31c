"""Rows of the blow of a stop, and the ejector of a jet."""

from __future__ import annotations

from tests.checks.status.named import NOT_GIVEN, OPEN_AT_THE_INLET, SHORT, Row

ROWS = (
    Row("delivery_bears_the_surge", "tight", {"surge.delivery_allowance": 0.55}),
    Row("delivery_bears_the_surge", "fails", {"surge.delivery_allowance": 0.49}),
    Row("delivery_bears_the_surge", "unknown", {"surge.delivery_speed": NOT_GIVEN}),
    Row("delivery_bears_the_surge", "not asked", {"delivery.length": 10.0}, SHORT),
    Row("suction_bears_the_slam", "tight", {"surge.suction_allowance": 0.08}),
    Row("suction_bears_the_slam", "fails", {"surge.suction_allowance": 0.07}),
    Row("suction_bears_the_slam", "unknown", {"surge.suction_allowance": NOT_GIVEN}),
    Row("suction_bears_the_slam", "not asked", {"delivery.length": 10.0}, SHORT),
    # A spring shuts the foot valve before the column swings back; without one it pulls at the pump.
    Row("suction_column_stays_whole", "holds", {"surge.suction_speed": 300.0}),
    Row(
        "suction_column_stays_whole",
        "tight",
        {"surge.suction_speed": 100.0, "stand.opening_pressure": 0.0},
        {"foot_valve_seats_as_mounted": "fails"},
    ),
    Row(
        "suction_column_stays_whole",
        "fails",
        {"surge.suction_speed": 300.0, "holding.at_inlet": 0.0},
        OPEN_AT_THE_INLET,
    ),
    Row(
        "suction_column_stays_whole",
        "unknown",
        {"surge.suction_speed": NOT_GIVEN},
        {"suction_bears_the_slam": "unknown"},
    ),
    Row("suction_column_stays_whole", "not asked", {"delivery.length": 10.0}, SHORT),
    Row("ejector_does_not_boil", "tight", {"ejector.annulus": 7e-5}, kind="jet"),
    Row("ejector_does_not_boil", "fails", {"ejector.annulus": 5e-5}, kind="jet"),
    Row("ejector_does_not_boil", "unknown", {"ejector.annulus": NOT_GIVEN}, kind="jet"),
    Row("ejector_does_not_boil", "not asked", {"ejector.fitted": 0.0}, kind="jet"),
    Row("two_pipes_keep_their_prime", "tight", {"ejector.least_outlet": 5.0}, kind="jet"),
    Row("two_pipes_keep_their_prime", "fails", {"ejector.least_outlet": 7.0}, kind="jet"),
    # A control valve at the pump's outlet keeps it up.
    Row(
        "two_pipes_keep_their_prime",
        "holds",
        {"ejector.least_outlet": 7.0, "ejector.outlet_held": 3.5e5},
        kind="jet",
    ),
    Row("two_pipes_keep_their_prime", "unknown", {"ejector.outlet_held": NOT_GIVEN}, kind="jet"),
    Row("two_pipes_keep_their_prime", "not asked"),
)
