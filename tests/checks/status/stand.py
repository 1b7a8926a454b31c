"""Rows of the stand."""

from __future__ import annotations

import numpy as np

from tests.checks.status.named import (
    HAULED,
    IN_WAVES,
    LEFT_THERE,
    NOT_GIVEN,
    ON_THE_BED,
    PLACED_IN_WAVES,
    SHALLOW,
    Row,
    bars,
    every,
)

ROWS = (
    Row("a_screen_stands_where_a_rule_asks", "fails", {"stand.is_bare": 1.0}),
    Row("a_screen_stands_where_a_rule_asks", "not asked", {"stand.is_bare": 1.0, "site.screen_asked": 0.0}),
    Row("a_screen_stands_where_a_rule_asks", "unknown", {"site.screen_asked": NOT_GIVEN}),
    # Made to the rule is as it should be; what is wider by a hair is tight, and no more than a made size is rounded.
    Row("screen_openings_are_fine_enough", "holds", {"stand.screen_opening": 2.4e-3}),
    Row("screen_openings_are_fine_enough", "tight", {"stand.screen_opening": 2.404e-3}),
    Row("screen_openings_are_fine_enough", "fails", {"stand.screen_opening": 2.41e-3}),
    Row("screen_openings_are_fine_enough", "not asked", {"site.screen_opening": np.inf}),
    Row("screen_openings_are_fine_enough", "unknown", {"stand.screen_opening": NOT_GIVEN}),
    Row("screen_is_slow_enough", "not asked", {"site.screen_velocity": np.inf}),
    Row("screen_is_slow_enough", "tight", {"site.screen_velocity": 0.015}),
    Row("screen_is_slow_enough", "fails", {"site.screen_velocity": 0.013}),
    # On the open area the same water is twice as fast: the screen is half open.
    Row("screen_is_slow_enough", "tight", {"site.screen_velocity": 0.028, "site.screen_on_open": 1.0}),
    Row("screen_is_slow_enough", "holds", {"site.screen_velocity": 0.028}),
    Row("screen_is_slow_enough", "unknown", {"site.screen_velocity": NOT_GIVEN}),
    # The stand is sound by pins and tether; without them it stays by its weight, as far as the bed grips.
    Row(
        "stand_does_not_slide", "tight", {"stand.held": 0.0, "site.bed_friction": 0.11}, {"stand_bears_a_snag": "fails"}
    ),
    Row(
        "stand_does_not_slide", "fails", {"stand.held": 0.0, "site.bed_friction": 0.02}, {"stand_bears_a_snag": "fails"}
    ),
    Row(
        "stand_does_not_slide",
        "fails",
        {"days.current": [1.6, 0.1]},
        {"stand_does_not_tip": "fails", "stand_is_not_undermined": "tight"},
    ),
    Row(
        "stand_does_not_slide",
        "fails",
        {"stand.depth": 2.2, "stand.held": 0.0},
        {**SHALLOW, "stand_bears_a_snag": "fails", "boats_pass_over_the_inlet": "tight"},
    ),
    Row(
        "stand_does_not_slide",
        "unknown",
        {"weather.wind": NOT_GIVEN},
        every("unknown", *IN_WAVES[1:], *PLACED_IN_WAVES),
    ),
    Row("stand_does_not_tip", "tight", {"days.current": [1.0, 0.1]}, {"stand_is_not_undermined": "tight"}),
    Row(
        "stand_does_not_tip",
        "tight",
        {"stand.arm": 0.02, "stand.held_down": 0.0},
        {"stand_is_not_undermined": "tight"},
    ),
    Row(
        "stand_does_not_tip",
        "fails",
        {"stand.arm": 0.01, "stand.held_down": 0.0},
        {"stand_is_not_undermined": "fails"},
    ),
    Row("stand_does_not_tip", "unknown", {"stand.arm": NOT_GIVEN}, {"stand_is_not_undermined": "unknown"}),
    # Of plastic alone it hardly stays down full of air; of something lighter, pins hold it.
    Row("stand_does_not_float", "tight", {"members.material_density": 1400.0 * np.ones(8)}),
    Row("stand_does_not_float", "fails", {"members.material_density": 1010.0 * np.ones(8)}),
    Row(
        "stand_does_not_float",
        "unknown",
        {"members.holds_air": NOT_GIVEN * np.ones(8)},
        every("unknown", ON_THE_BED[5]),
    ),
    Row("stand_does_not_sink", "tight", {"site.mud_strength": 300.0}),
    Row("stand_does_not_sink", "fails", {"site.mud_strength": 150.0}),
    Row("stand_does_not_sink", "tight", {"stand.rest_area": 0.01}),
    Row("stand_does_not_sink", "unknown", {"site.mud_strength": NOT_GIVEN}),
    Row("stand_does_not_sink", "not asked", {"site.mud_strength": np.inf}),
    Row("stand_bears_a_snag", "tight", {"stand.held": 30.0}),
    Row("stand_bears_a_snag", "fails", {"stand.held": 10.0}),
    Row("stand_bears_a_snag", "unknown", {"stand.held": NOT_GIVEN}, {"stand_does_not_slide": "unknown"}),
    Row("stand_can_be_lifted", "tight", bars(3.1)),
    Row("stand_can_be_lifted", "fails", bars(9.0), every("tight", "stand_does_not_sink", HAULED)),
    Row(
        "stand_can_be_lifted",
        "unknown",
        {"members.material_density": NOT_GIVEN * np.ones(8)},
        every("unknown", *ON_THE_BED[:5], HAULED),
    ),
    Row("stand_is_not_undermined", "tight", {"days.current": [0.5, 0.1]}),
    Row("stand_is_not_undermined", "fails", {"days.current": [0.5, 0.1], "stand.arm": 0.24}),
    Row("stand_is_not_undermined", "unknown", {"site.grain": NOT_GIVEN}),
    Row("stand_is_not_undermined", "not asked", {"site.grain": np.inf}),
    *(
        Row(
            name,
            "not asked",
            {"stand.on_legs": 0.0},
            every("not asked", *(other for other in ON_THE_BED if other != name), *LEFT_THERE, *PLACED_IN_WAVES),
        )
        for name in ON_THE_BED
    ),
)
