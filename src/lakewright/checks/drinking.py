"""The water: whether it may be drunk, and whether its barriers do at its worst."""

from __future__ import annotations

import numpy as np

from lakewright.checks.verdict import Check, Verdict, all_or_nothing, at_least, at_most, under_band, within_band
from lakewright.state.drinking import Barriers, Drinking
from lakewright.state.limits import Limits


def authority_lets_it_be_drunk(drinking: Drinking, limits: Limits) -> Verdict:
    """The authority was asked whether this water may be drunk, and has said yes; until then it is not for drinking."""
    return at_least(drinking.answer, 0.0, limits.answer_comfort, where=drinking.wanted)


def supply_is_a_private_one(drinking: Drinking, limits: Limits) -> Verdict:
    """One household uses it, of fewer people than make a public supply."""
    return at_most(drinking.people, limits.people_most, limits.people_comfort, where=drinking.wanted)


def no_bloom_is_known_here(drinking: Drinking, _limits: Limits) -> Verdict:
    """No algae have bloomed in this water: their toxins pass filters, lamp and boiling, and kill cattle too."""
    return all_or_nothing(drinking.bloomless, 0.0, where=drinking.drunk)


def water_is_clear_enough_to_disinfect(drinking: Drinking, limits: Limits) -> Verdict:
    """The raw water is clear enough for light and chlorine to reach what hides in it."""
    easy, most = np.array(limits.turbidity_easy), np.array(limits.turbidity_most)
    return under_band(drinking.turbidity, easy, most, where=drinking.disinfects)


def treatment_passes_its_flow(drinking: Drinking, limits: Limits) -> Verdict:
    """No filter, feeder or tank of the treatment passes more than it is made for."""
    no_rating = np.isinf(drinking.filter_flow)
    rating = np.where(no_rating, 1.0, drinking.filter_flow)
    return at_most(drinking.flow, rating, limits.rated_flow_comfort * rating, where=drinking.wanted & ~no_rating)


def filters_pass_cold_water(drinking: Drinking, limits: Limits) -> Verdict:
    """In the coldest water the clean filters leave room for dirt before they are due for changing."""
    return at_least(drinking.room, 0.0, limits.filter_room_comfort, where=drinking.has_filters)


def filters_last(drinking: Drinking, limits: Limits) -> Verdict:
    """The filters hold the dirt of some weeks."""
    return at_least(drinking.run, limits.filter_run_least, limits.filter_run_comfort, where=drinking.dirt_is_told)


def lamp_stays_inside_its_rating(drinking: Drinking, limits: Limits) -> Verdict:
    """The lamp passes no more than it gives its dose at, and a valve holds the flow there."""
    rating = drinking.lamp_flow
    # Without a valve the flow is what the taps are thought to ask: nothing is in hand, however little that is.
    comfort = np.where(drinking.held == 0.0, 1.0, limits.rated_flow_comfort) * np.where(rating == 0.0, 1.0, rating)
    return at_most(drinking.flow, rating, comfort + 0.0 * drinking.held, where=drinking.has_lamp)


def lamp_sees_through_the_water(drinking: Drinking, limits: Limits) -> Verdict:
    """Water at its worst lets through the light that the lamp was rated with."""
    rating = drinking.lamp_transmittance
    return at_least(drinking.transmittance, rating, limits.transmittance_comfort, where=drinking.has_lamp)


def chlorine_has_time_to_work(drinking: Drinking, limits: Limits) -> Verdict:
    """In its coldest water chlorine has the time to hold back what filters and lamp leave."""
    # ours: a minute is the least that a share of the time is taken of.
    comfort = limits.contact_comfort * np.maximum(drinking.time_needed, 60.0)
    return at_least(drinking.time, drinking.time_needed, comfort, where=drinking.has_chlorine)


def barriers_meet_their_targets(barriers: Barriers, limits: Limits) -> Verdict:
    """Filters, lamp and chlorine together hold back the Giardia, Cryptosporidium and viruses that the rules ask."""
    return within_band(barriers.held_back, barriers.least, barriers.most, limits.target_comfort, where=barriers.wanted)


def _of(*names: str) -> tuple[str, ...]:
    return tuple(f"drinking.{name}" for name in ("wanted", *names))


BEFORE_CHLORINE = (
    *("filter_giardia", "filter_virus", "lamp", "lamp_dose", "lamp_flow", "lamp_transmittance"),
    *("flow", "transmittance", "prefilter", "turbidity"),
)
CHLORINE = ("chlorine", "residual", "contact_volume", "baffling", "ph", "coldest")

DRINKING = (
    Check(
        authority_lets_it_be_drunk,
        force="must",
        block="drinking",
        cases="all",
        shows="count",
        at="tap",
        label="",
        limit_words="",
        unit="1",
        needs=_of("answer"),
        source="trade-practice",
        remedy="ask the health authority before money is spent; until it has answered this water is not for drinking",
        figures=("answer_comfort",),
        reach="picked",
    ),
    Check(
        supply_is_a_private_one,
        force="must",
        block="drinking",
        cases="all",
        shows="count",
        at="tap",
        label="people",
        limit_words="at most",
        unit="1",
        needs=_of("public", "people"),
        source="cfr-141-2",
        remedy="stop here: it may be a public supply; hand over to a licensed engineer and ask the authority",
        figures=("people_most", "people_comfort"),
        reach="picked",
    ),
    Check(
        no_bloom_is_known_here,
        force="should",
        block="drinking",
        cases="all",
        shows="count",
        at="inlet",
        label="",
        limit_words="",
        unit="1",
        needs=("drinking.wanted", "drinking.herd", "drinking.bloom"),
        source="epa-cyanotoxins",
        remedy="have other water for people and animals while a bloom lasts: no filter, lamp or boiling helps",
        reach="picked",
    ),
    Check(
        water_is_clear_enough_to_disinfect,
        force="must",
        block="drinking",
        cases="all",
        shows="turbidity",
        at="treatment",
        label="in the raw water",
        limit_words="at most",
        unit="NTU",
        needs=_of("turbidity", "lamp", "chlorine"),
        source="cfr-141-71",
        remedy="draw clearer water, or have a filter designed for it; what hides in cloudy water is not disinfected",
        figures=("turbidity_easy", "turbidity_most"),
        reach="picked",
    ),
    Check(
        treatment_passes_its_flow,
        force="must",
        block="drinking",
        cases="all",
        shows="flow",
        at="treatment",
        label="through the treatment",
        limit_words="made for",
        unit="m3/s",
        needs=_of("flow", "filter_flow"),
        source="cfr-141-719",
        remedy="hold the flow with a valve before the treatment, or use larger filters",
        figures=("rated_flow_comfort",),
        reach="picked",
    ),
    Check(
        filters_pass_cold_water,
        force="should",
        block="drinking",
        cases="standing",
        shows="pressure_difference",
        at="treatment",
        label="for dirt, between clean filters in that water and when they are due",
        limit_words="",
        unit="Pa",
        needs=(
            *("drinking.flow", "drinking.viscous", "drinking.turbulent"),
            *("delivery.filters_dirty", "days.temperature"),
        ),
        source="iapws-sr6",
        remedy="use larger filters: the clean ones lose so much in cold water that they are due when new",
        figures=("filter_room_comfort",),
        short_words="more lost by clean filters in cold water than when they are due for changing",
        reach="picked",
    ),
    Check(
        filters_last,
        force="note",
        block="drinking",
        cases="all",
        shows="days",
        at="treatment",
        label="until the filters are due for changing",
        limit_words="at least",
        unit="s",
        needs=("drinking.dirt", "drinking.turbidity", "drinking.per_day"),
        source="ours",
        remedy="use larger filters, or a coarser one before them; the first run of the owner's own tells better",
        figures=("filter_run_least", "filter_run_comfort"),
        reach="picked",
    ),
    Check(
        lamp_stays_inside_its_rating,
        force="must",
        block="drinking",
        cases="all",
        shows="flow",
        at="treatment",
        label="through the lamp",
        limit_words="rated for",
        unit="m3/s",
        needs=_of("flow", "held", "lamp", "lamp_flow"),
        source="cfr-141-720",
        remedy="hold the flow with a valve before the lamp, or use a larger one: past its rating it counts for nothing",
        figures=("rated_flow_comfort",),
        reach="picked",
    ),
    Check(
        lamp_sees_through_the_water,
        force="must",
        block="drinking",
        cases="all",
        shows="share",
        at="treatment",
        label="of the light through 10 mm of the worst water",
        limit_words="rated with",
        unit="1",
        needs=_of("transmittance", "lamp", "lamp_transmittance"),
        source="cfr-141-720",
        remedy="draw clearer water, or use a lamp rated for such water: below its rating it counts for nothing",
        figures=("transmittance_comfort",),
        reach="picked",
    ),
    Check(
        chlorine_has_time_to_work,
        force="must",
        block="drinking",
        cases="standing",
        shows="minutes",
        at="treatment",
        label="of contact",
        limit_words="needed",
        unit="s",
        needs=("days.temperature", *_of(*BEFORE_CHLORINE, *CHLORINE)),
        source="smith-1995",
        remedy="use a larger or better baffled contact tank, more residual, or hold the flow down",
        figures=("contact_comfort", "target_giardia", "target_virus"),
        reach="picked",
    ),
    Check(
        barriers_meet_their_targets,
        force="must",
        block="barriers",
        cases="targets",
        shows="count",
        at="treatment",
        label="log held back",
        limit_words="at least",
        unit="1",
        needs=("days.temperature", *_of(*BEFORE_CHLORINE, *CHLORINE, "filter_cryptosporidium")),
        source="health-canada-protozoa",
        remedy="add what is lacking: absolute filter and lamp against cysts, chlorine and contact time against viruses",
        figures=(
            *("target_giardia", "target_cryptosporidium", "target_cryptosporidium_least", "target_virus"),
            *("target_comfort", "lamp_dose_least", "lamp_log_most", "prefilter_finest", "turbidity_most"),
        ),
        reach="picked",
    ),
)
