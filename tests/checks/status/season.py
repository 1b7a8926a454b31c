"""Rows of the year."""

from __future__ import annotations

import numpy as np

from tests.checks.status.named import NOT_GIVEN, Row
from tests.made import DAY

ROWS = (
    # A metre of the sound line holds two litres.
    Row("supply_drains_empty", "tight", {"season.suction_left": 0.25}),
    Row("supply_drains_empty", "fails", {"season.delivery_left": 3.0}),
    Row("supply_drains_empty", "unknown", {"season.suction_left": NOT_GIVEN}),
    Row("supply_drains_empty", "not asked", {"season.emptied": 0.0, "season.delivery_left": 3.0}),
    Row("trench_is_below_frost", "tight", {"season.trench_depth": 1.3}),
    Row("trench_is_below_frost", "fails", {"season.frost_depth": 1.7}),
    Row("trench_is_below_frost", "unknown", {"season.frost_depth": NOT_GIVEN}),
    Row("trench_is_below_frost", "not asked", {"season.trench_depth": np.inf}),
    # The sound line shortens by 95 mm.
    Row("line_has_slack_for_the_cold", "tight", {"season.slack": 0.005}),
    Row("line_has_slack_for_the_cold", "fails", {"season.slack": 0.0}),
    Row("line_has_slack_for_the_cold", "unknown", {"season.slack": NOT_GIVEN}),
    Row("line_has_slack_for_the_cold", "not asked", {"season.expansion": 0.0}),
    Row("line_can_be_hauled", "tight", {"suction.bed_length": 60.0}, {"line_is_primed_in_time": "tight"}),
    Row("line_can_be_hauled", "fails", {"suction.weight_mass": 16.0}),
    Row("line_can_be_hauled", "unknown", {"season.hauled": NOT_GIVEN}),
    Row("line_can_be_hauled", "not asked", {"season.hauled": 0.0}),
    Row("closes_before_the_frost", "tight", {"season.closes": 260.0 * DAY}),
    Row("closes_before_the_frost", "fails", {"season.closes": 264.0 * DAY}),
    Row("closes_before_the_frost", "unknown", {"season.first_frost": NOT_GIVEN}),
    Row("closes_before_the_frost", "not asked", {"season.closes": np.inf}),
    Row("opens_after_the_frost", "tight", {"season.opens": 140.0 * DAY}),
    Row("opens_after_the_frost", "fails", {"season.last_frost": 145.0 * DAY}),
    Row("opens_after_the_frost", "unknown", {"season.last_frost": NOT_GIVEN}),
    Row("opens_after_the_frost", "not asked", {"season.opens": np.inf}),
)
