"""The intake stand."""

from __future__ import annotations

import numpy as np

from lakewright.checks.needs import FLOW, PUMPED_BY
from lakewright.checks.verdict import Check, Verdict, at_least, at_most
from lakewright.state.limits import Limits
from lakewright.state.walk import Place, Stand


def screen_is_slow_enough(stand: Stand, limits: Limits) -> Verdict:
    """Water meets the screen no faster than the chosen rule allows, on the area that rule counts."""
    no_rule = np.isinf(stand.face_limit)
    limit = np.where(no_rule, 1.0, stand.face_limit)
    return at_most(stand.face_velocity, limit, limits.screen_comfort * limit, where=~no_rule)


def screen_openings_are_fine_enough(place: Place, limits: Limits) -> Verdict:
    """The screen's openings are no wider than the chosen rule allows, where it names a width."""
    names_none = np.isinf(place.opening_limit)
    limit = np.where(names_none, 1.0, place.opening_limit)
    spare = limits.opening_comfort * limit
    # A screen made to the rule is what the rule wants: the comfort lies outside it, as wide as a made size is rounded.
    return at_most(place.opening, limit + spare, 0.5 * spare, where=~names_none)


def a_screen_stands_where_a_rule_asks(place: Place, _limits: Limits) -> Verdict:
    """Where a rule of fish screens is in force, the foot valve stands inside a screen: its strainer is none."""
    screens = 1.0 - 2.0 * place.is_bare + 0.0 * place.screen_asked
    return at_least(screens, 0.0, 0.5, where=place.screen_asked != 0.0)


STAND = (
    Check(
        a_screen_stands_where_a_rule_asks,
        force="must",
        block="place",
        cases="standing",
        shows="count",
        at="screen",
        label="screen round the inlet",
        limit_words="",
        unit="1",
        needs=("site.screen_asked", "stand.is_bare"),
        source="washington-2021",
        remedy="stand the foot valve inside a screen made to the rule; a bare foot-valve strainer is not a fish screen",
        short_words="bare strainer, no screen",
    ),
    Check(
        screen_openings_are_fine_enough,
        force="must",
        block="place",
        cases="standing",
        shows="bore",
        at="screen",
        label="wide, the screen's openings",
        limit_words="at most",
        unit="m",
        needs=("site.screen_opening", "stand.screen_opening"),
        source="screen-openings",
        remedy="use a screen with finer openings; ask the authority which rule is in force",
        figures=("opening_comfort",),
    ),
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
