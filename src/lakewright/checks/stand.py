"""The intake stand."""

from __future__ import annotations

import numpy as np

from lakewright.checks.needs import FLOW, PUMPED_BY
from lakewright.checks.verdict import Check, Verdict, at_most
from lakewright.state.limits import Limits
from lakewright.state.walk import Stand


def screen_is_slow_enough(stand: Stand, limits: Limits) -> Verdict:
    """Water meets the screen no faster than the chosen rule allows, on the area that rule counts."""
    no_rule = np.isinf(stand.face_limit)
    limit = np.where(no_rule, 1.0, stand.face_limit)
    return at_most(stand.face_velocity, limit, limits.screen_comfort * limit, where=~no_rule)


STAND = (
    Check(
        screen_is_slow_enough,
        force="must",
        block="stand",
        cases="running",
        shows="face_speed",
        at="screen",
        label="at the screen's face",
        limit_words="at most",
        unit="m/s",
        needs=("site.screen_velocity", "site.screen_on_open", *FLOW),
        other_needs=PUMPED_BY,
        source="nmfs-1996",
        remedy="use a larger screen, clean it, or hold the flow down; ask the authority which rule is in force",
        figures=("screen_comfort",),
    ),
)
