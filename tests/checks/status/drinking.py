"""Rows of the water as one drinks it."""

from __future__ import annotations

import numpy as np

from tests.checks.status.named import BARRIERS, CHLORINE, NO_LAMP, NOT_GIVEN, WHERE_PEOPLE_DRINK, Row, every

ROWS = (
    Row("authority_lets_it_be_drunk", "tight", {"drinking.answer": 1.0}),
    Row("authority_lets_it_be_drunk", "tight", {"drinking.answer": 0.0}),
    Row("authority_lets_it_be_drunk", "fails", {"drinking.answer": -1.0}),
    Row("authority_lets_it_be_drunk", "unknown", {"drinking.answer": NOT_GIVEN}),
    Row("supply_is_a_private_one", "tight", {"drinking.people": 14.0}),
    Row("supply_is_a_private_one", "fails", {"drinking.people": 25.0}),
    Row("supply_is_a_private_one", "fails", {"drinking.public": 1.0}),
    Row("supply_is_a_private_one", "unknown", {"drinking.public": NOT_GIVEN}),
    Row("no_bloom_is_known_here", "fails", {"drinking.bloom": 1.0}),
    Row("no_bloom_is_known_here", "unknown", {"drinking.bloom": NOT_GIVEN}),
    # Cattle drink it though no people do.
    Row(
        "no_bloom_is_known_here",
        "fails",
        {"drinking.wanted": 0.0, "drinking.herd": 1.0, "drinking.bloom": 1.0},
        every("not asked", *(name for name in WHERE_PEOPLE_DRINK if name != "no_bloom_is_known_here")),
    ),
    Row("water_is_clear_enough_to_disinfect", "tight", {"drinking.turbidity": 3.0}),
    Row(
        "water_is_clear_enough_to_disinfect", "fails", {"drinking.turbidity": 5.5}, {**NO_LAMP, "filters_last": "tight"}
    ),
    Row(
        "water_is_clear_enough_to_disinfect",
        "unknown",
        {"drinking.turbidity": NOT_GIVEN},
        every("unknown", "filters_last", CHLORINE, BARRIERS),
    ),
    Row("treatment_passes_its_flow", "tight", {"drinking.filter_flow": 5.1e-4}),
    Row("treatment_passes_its_flow", "fails", {"drinking.filter_flow": 4.9e-4}),
    Row("treatment_passes_its_flow", "unknown", {"drinking.filter_flow": NOT_GIVEN}),
    Row("treatment_passes_its_flow", "not asked", {"drinking.filter_flow": np.inf}),
    Row("filters_pass_cold_water", "tight", {"drinking.viscous": 2e7}),
    Row("filters_pass_cold_water", "fails", {"drinking.turbulent": 1.6e11}),
    # The same filters in water of 20 C.
    Row(
        "filters_pass_cold_water",
        "tight",
        {"drinking.viscous": 5e7, "days.temperature": [293.15, 293.15]},
    ),
    Row("filters_pass_cold_water", "fails", {"drinking.viscous": 5e7}),
    Row("filters_pass_cold_water", "unknown", {"drinking.viscous": NOT_GIVEN}),
    Row("filters_pass_cold_water", "not asked", {"drinking.viscous": 0.0, "drinking.turbulent": 0.0}),
    Row("filters_last", "tight", {"drinking.dirt": 0.05}),
    Row("filters_last", "fails", {"drinking.dirt": 0.01}),
    Row("filters_last", "unknown", {"drinking.per_day": NOT_GIVEN}),
    Row("filters_last", "not asked", {"drinking.dirt": np.inf}),
    # What no valve holds may be more than anybody thought.
    Row("lamp_stays_inside_its_rating", "tight", {"drinking.held": 0.0}),
    Row("lamp_stays_inside_its_rating", "tight", {"drinking.lamp_flow": 5.1e-4}),
    Row("lamp_stays_inside_its_rating", "fails", {"drinking.lamp_flow": 4.9e-4}, NO_LAMP),
    Row("lamp_stays_inside_its_rating", "unknown", {"drinking.held": NOT_GIVEN}),
    Row("lamp_sees_through_the_water", "tight", {"drinking.transmittance": 0.78}),
    Row("lamp_sees_through_the_water", "fails", {"drinking.transmittance": 0.74}, NO_LAMP),
    Row(
        "lamp_sees_through_the_water",
        "unknown",
        {"drinking.transmittance": NOT_GIVEN},
        every("unknown", CHLORINE, BARRIERS),
    ),
    Row(
        "lamp_sees_through_the_water",
        "not asked",
        {"drinking.lamp": 0.0},
        {"lamp_stays_inside_its_rating": "not asked", **NO_LAMP},
    ),
    Row(CHLORINE, "tight", {"drinking.contact_volume": 0.6}),
    Row(CHLORINE, "fails", {"drinking.contact_volume": 0.5}, {BARRIERS: "fails"}),
    Row(CHLORINE, "fails", {"drinking.baffling": 0.0}, {BARRIERS: "fails"}),
    Row(CHLORINE, "unknown", {"drinking.ph": NOT_GIVEN}, {BARRIERS: "unknown"}),
    Row(CHLORINE, "not asked", {"drinking.chlorine": 0.0}, {BARRIERS: "fails"}),
    # A lamp with no filter of 5 um before it, or of too small a dose, counts for nothing.
    Row(BARRIERS, "fails", {"drinking.prefilter": 2e-5}, {CHLORINE: "fails"}),
    Row(BARRIERS, "fails", {"drinking.lamp_dose": 160.0}, {CHLORINE: "fails"}),
    # Cysts by the lamp alone: what it counts for and no more.
    Row(BARRIERS, "tight", {"drinking.filter_giardia": 0.0, "drinking.filter_cryptosporidium": 0.0}),
    Row(BARRIERS, "unknown", {"drinking.filter_cryptosporidium": NOT_GIVEN}),
    *(
        Row(
            name,
            "not asked",
            {"drinking.wanted": 0.0},
            every("not asked", *(other for other in WHERE_PEOPLE_DRINK if other != name)),
        )
        for name in WHERE_PEOPLE_DRINK
    ),
)
